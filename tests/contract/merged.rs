//! The merges that most modules look at: made once, by all cores.

use std::sync::OnceLock;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use pleach::line::{Level, LineSettings};
use pleach::{Answer, Settings, Versions, Way, merge};

use crate::edited::Lang;
use crate::edited::edits::scenarios;
use crate::edited::scenario::Scenario;

pub struct Merged {
    pub scenario: Scenario,
    pub answer: Answer,
}

/// The settings under which git's `merge-file` is the measure, and no clock ends a merge: a busy machine
/// must not change what is tested.
pub fn settings() -> Settings {
    Settings {
        line: LineSettings { level: Level::ZealousAlnum, ..LineSettings::default() },
        deadline: Duration::from_secs(120),
        ..Settings::default()
    }
}

pub fn answer(lang: Lang, texts: &Versions<String>) -> Answer {
    merge(texts.as_ref().map(String::as_bytes), lang.language(), &settings())
}

pub fn answer_to(scenario: &Scenario) -> Answer {
    answer(scenario.lang, &scenario.texts())
}

/// Scenarios of all languages with their answers.
pub fn merged() -> &'static [Merged] {
    static MERGED: OnceLock<Vec<Merged>> = OnceLock::new();
    MERGED.get_or_init(|| {
        let all: Vec<Scenario> = [(Lang::Python, 240), (Lang::Rust, 180), (Lang::Toml, 110)]
            .into_iter()
            .flat_map(|(lang, n)| scenarios(lang, n))
            .collect();
        let made = in_parallel(&all, |s| Merged { scenario: s.clone(), answer: answer_to(s) });
        // Tests of structural answers that see none would pass on nothing.
        let trees = made.iter().filter(|m| m.answer.way == Way::Trees).count();
        let clean = made.iter().filter(|m| m.answer.way == Way::Trees && m.answer.conflicts == 0).count();
        println!("{} merges, {trees} by trees, {clean} of them clean", made.len());
        assert!(trees * 5 > made.len(), "only {trees} of {} merges were structural", made.len());
        assert!(clean * 10 > made.len(), "only {clean} of {} structural merges were clean", made.len());
        made
    })
}

/// Maps in the order of the input, on all cores.
pub fn in_parallel<T: Sync, U: Send>(from: &[T], f: impl Fn(&T) -> U + Sync) -> Vec<U> {
    let next = AtomicUsize::new(0);
    let cores = std::thread::available_parallelism().map_or(2, usize::from);
    let mut done: Vec<(usize, U)> = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..cores)
            .map(|_| {
                scope.spawn(|| {
                    let mut mine = Vec::new();
                    loop {
                        let i = next.fetch_add(1, Ordering::Relaxed);
                        let Some(item) = from.get(i) else { break mine };
                        mine.push((i, f(item)));
                    }
                })
            })
            .collect();
        workers.into_iter().flat_map(|w| w.join().expect("no panic in a worker")).collect()
    });
    done.sort_by_key(|(i, _)| *i);
    done.into_iter().map(|(_, u)| u).collect()
}

/// Reports what a check of the merges finds.
pub fn check(name: &str, complaint: impl Fn(&Scenario, &Answer) -> Option<String>) {
    let failed: Vec<(&Scenario, String)> =
        merged().iter().filter_map(|m| complaint(&m.scenario, &m.answer).map(|why| (&m.scenario, why))).collect();
    crate::edited::scenario::report(name, &failed, &|s| complaint(s, &answer_to(s)));
}
