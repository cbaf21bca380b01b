//! K1 and K6 over whole real files: a sample of them, or, with `PLEACH_EXHAUSTIVE=1`, every `.py` of the
//! standard library and every `.rs` and `Cargo.toml` in the registry sources of our dependency tree.

use std::fs;
use std::path::PathBuf;

use super::edited::scenario::{Scenario, report};
use super::edited::{Lang, sources, trees};
use super::k1_identity;
use super::k6_bytes_kept::{one_token_a_side, one_token_complaint};
use super::merged::{answer_to, in_parallel};

#[test]
fn every_source_of_python() {
    check(Lang::Python);
}

#[test]
fn every_source_of_rust() {
    check(Lang::Rust);
}

#[test]
fn every_source_of_toml() {
    check(Lang::Toml);
}

enum Verdict {
    /// Not UTF-8, or without two tokens to replace.
    NoText,
    /// The grammar does not read it: its merges are by lines.
    Unread,
    Good,
    Wrong(Scenario, String),
}

fn check(lang: Lang) {
    let mut paths = sources::all(lang);
    if !sources::exhaustive() {
        paths.retain(|p| fs::metadata(p).is_ok_and(|m| (200..30_000).contains(&m.len())));
        let step = (paths.len() / 24).max(1);
        paths = paths.into_iter().step_by(step).collect();
    }
    let verdicts = in_parallel(&paths, |path| verdict(lang, path));
    let (mut unread, mut no_text, mut good) = (0, 0, 0);
    let mut failed = Vec::new();
    for verdict in &verdicts {
        match verdict {
            Verdict::NoText => no_text += 1,
            Verdict::Unread => unread += 1,
            Verdict::Good => good += 1,
            Verdict::Wrong(scenario, why) => failed.push((scenario, why.clone())),
        }
    }
    println!(
        "{lang:?}: {} files: {good} good, {} wrong; {no_text} without text to edit; {unread} more are merged as lines",
        paths.len(),
        failed.len()
    );
    report(&format!("every-source-{lang:?}"), &failed, &complaint);
    assert!(good * 10 > paths.len() * 8, "only {good} of {} files were read", paths.len());
}

fn complaint(s: &Scenario) -> Option<String> {
    one_token_complaint(s, &answer_to(s))
        .map(|why| format!("K6: {why}"))
        .or_else(|| k1_identity::complaint(s.lang, &s.base, &s.side(0)).map(|why| format!("K1: {why}")))
        .or_else(|| k1_identity::structural_complaint(s.lang, &s.base, &s.side(1)).map(|why| format!("K1: {why}")))
}

fn verdict(lang: Lang, path: &PathBuf) -> Verdict {
    let Ok(text) = fs::read_to_string(path) else { return Verdict::NoText };
    let seed = text.len() as u64;
    let Some(s) = one_token_a_side(lang, &path.display().to_string(), &text, seed) else { return Verdict::NoText };
    match complaint(&s) {
        Some(why) => Verdict::Wrong(s, why),
        None if trees::parses(lang, text.as_bytes()) => Verdict::Good,
        None => Verdict::Unread,
    }
}
