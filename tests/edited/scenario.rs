//! A base and the edits of each side: what a merge is tried on, and how a failing one is made small.

use std::fs;
use std::ops::Range;
use std::path::Path;
use std::time::{Duration, Instant};

use pleach::Versions;

use super::Lang;

/// Puts `text` in place of a range of base.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Patch {
    pub at: Range<usize>,
    pub text: String,
}

/// One thing a person did.
#[derive(Clone, Debug)]
pub struct Edit {
    pub what: &'static str,
    pub patches: Vec<Patch>,
}

#[derive(Clone, Debug)]
pub struct Scenario {
    pub lang: Lang,
    /// Where base is from, and the seed of the edits.
    pub name: String,
    pub base: String,
    pub sides: [Vec<Edit>; 2],
}

impl Scenario {
    /// The text of one side (0 is ours).
    pub fn side(&self, side: usize) -> String {
        apply(&self.base, self.sides[side].iter().flat_map(|e| &e.patches))
    }

    pub fn texts(&self) -> Versions<String> {
        Versions { base: self.base.clone(), ours: self.side(0), theirs: self.side(1) }
    }

    /// Whether a side edited at these bytes of base.
    pub fn touched(&self, side: usize, range: &Range<usize>) -> bool {
        self.sides[side]
            .iter()
            .flat_map(|e| &e.patches)
            .any(|p| if p.at.is_empty() { range.contains(&p.at.start) } else { meet(&p.at, range) })
    }

    /// Writes the three versions to `target/contract-failures/<check>/`, for a person to look at.
    pub fn keep(&self, check: &str) {
        let seed = self.name.rsplit(' ').next().unwrap_or("0");
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/contract-failures");
        self.write_to(&root.join(check).join(seed));
    }

    fn write_to(&self, folder: &Path) {
        fs::create_dir_all(folder).expect("a folder for failures");
        let texts = self.texts();
        for (name, text) in [("base", &texts.base), ("ours", &texts.ours), ("theirs", &texts.theirs)] {
            fs::write(folder.join(name).with_extension(self.lang.extension()), text).expect("a failure is kept");
        }
    }

    pub fn describe(&self) -> String {
        let kinds = |s: usize| self.sides[s].iter().map(|e| e.what).collect::<Vec<_>>().join(", ");
        format!("{} [{} | {}]", self.name, kinds(0), kinds(1))
    }
}

/// Applies patches that do not overlap.
pub fn apply<'p>(base: &str, patches: impl IntoIterator<Item = &'p Patch>) -> String {
    let mut patches: Vec<&Patch> = patches.into_iter().collect();
    patches.sort_by_key(|p| (p.at.start, p.at.end));
    let mut text = String::with_capacity(base.len() + 64);
    let mut at = 0;
    for patch in patches {
        text.push_str(&base[at..patch.at.start]);
        text.push_str(&patch.text);
        at = patch.at.end;
    }
    text.push_str(&base[at..]);
    text
}

/// Whether two ranges share a byte, or touch.
pub fn meet(a: &Range<usize>, b: &Range<usize>) -> bool {
    a.start <= b.end && b.start <= a.end
}

/// A smaller scenario that still `fails`: with fewer edits, and fewer lines that nobody edited.
pub fn shrink(scenario: &Scenario, fails: &dyn Fn(&Scenario) -> bool) -> Scenario {
    let until = Instant::now() + Duration::from_secs(15);
    let mut best = scenario.clone();
    let try_it = |best: &mut Scenario, candidate: Scenario| -> bool {
        // A file of nothing fails in ways of its own.
        let smaller = Instant::now() < until && !candidate.base.trim().is_empty() && fails(&candidate);
        if smaller {
            *best = candidate;
        }
        smaller
    };
    for side in 0..2 {
        let mut i = 0;
        while i < best.sides[side].len() {
            let mut candidate = best.clone();
            candidate.sides[side].remove(i);
            if !try_it(&mut best, candidate) {
                i += 1;
            }
        }
    }
    let mut chunk = best.base.lines().count().next_power_of_two();
    while chunk > 0 && Instant::now() < until {
        let mut line = 0;
        loop {
            let starts: Vec<usize> = line_starts(&best.base);
            if line + 1 >= starts.len() {
                break;
            }
            let range = starts[line]..starts[(line + chunk).min(starts.len() - 1)];
            if !without(&best, &range).is_some_and(|candidate| try_it(&mut best, candidate)) {
                line += chunk;
            }
        }
        chunk /= 2;
    }
    best
}

fn line_starts(text: &str) -> Vec<usize> {
    let mut starts = vec![0];
    starts.extend(text.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i + 1));
    if starts.last() != Some(&text.len()) {
        starts.push(text.len());
    }
    starts
}

/// The scenario without a range of base that no patch is inside of.
fn without(scenario: &Scenario, range: &Range<usize>) -> Option<Scenario> {
    let mut new = scenario.clone();
    new.base.replace_range(range.clone(), "");
    for patch in new.sides.iter_mut().flatten().flat_map(|e| &mut e.patches) {
        if patch.at.start >= range.end {
            patch.at = patch.at.start - range.len()..patch.at.end - range.len();
        } else if patch.at.end > range.start {
            return None;
        }
    }
    Some(new)
}

/// Runs a check over scenarios, and fails with what it finds, made small and written to
/// `target/contract-failures/<check>/`.
pub fn check_all<'s>(
    check: &str,
    scenarios: impl IntoIterator<Item = &'s Scenario>,
    complaint: &dyn Fn(&Scenario) -> Option<String>,
) {
    let failed: Vec<(&Scenario, String)> =
        scenarios.into_iter().filter_map(|s| complaint(s).map(|why| (s, why))).collect();
    report(check, &failed, complaint);
}

/// Fails if there are failures, and says what they are.
pub fn report(check: &str, failed: &[(&Scenario, String)], complaint: &dyn Fn(&Scenario) -> Option<String>) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/contract-failures").join(check);
    // What an earlier run left behind would mislead.
    let _ = fs::remove_dir_all(&root);
    if failed.is_empty() {
        return;
    }
    let mut text = format!("{} scenarios fail; their versions are in {}\n", failed.len(), root.display());
    for (i, (scenario, why)) in failed.iter().enumerate().take(12) {
        text.push_str(&format!("{i}: {}\n   {why}\n", scenario.describe()));
        let small = if i < 6 { shrink(scenario, &|s| complaint(s).is_some()) } else { (*scenario).clone() };
        let folder = root.join(i.to_string());
        small.write_to(&folder);
        // What is made small may fail for another reason.
        scenario.write_to(&folder.join("whole"));
        let why = complaint(&small).unwrap_or_else(|| why.clone());
        fs::write(folder.join("why"), format!("{}\n{why}\n", small.describe())).expect("a failure is kept");
    }
    panic!("{text}");
}
