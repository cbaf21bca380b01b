//! K5: the books balance. For a token, let a side have put it in `i` times and taken it out `x` times,
//! counted by a diff of the words of each hunk against base. What both did alike may have been done once, so
//! the answer holds between `sum - min(i)` and `sum + min(x)` of it, `sum` being base with both net changes.
//!
//! Where a side has only put in or only taken out, this is the rule as the design states it.

use std::collections::HashMap;
use std::hash::Hash;
use std::ops::Range;
use std::path::PathBuf;
use std::{env, fs};

use pleach::{Answer, Versions, Way, grammar, merge};
use similar::{Algorithm, DiffOp, capture_diff_slices};

use super::edited::lex::words;
use super::edited::scenario::Scenario;
use super::edited::{Lang, trees};
use super::merged::{check, settings};

#[test]
fn every_word_of_a_clean_answer_is_accounted_for() {
    check("k5", complaint);
}

fn complaint(s: &Scenario, answer: &Answer) -> Option<String> {
    // What git makes of a file stands (K3): books that do not balance only send an answer back to it.
    if answer.conflicts > 0 || answer.way == Way::Lines {
        return None;
    }
    // Of a text that cannot be read nobody knows which words are keywords.
    let mut all = vec![&answer.text[..]];
    let texts = s.texts();
    all.extend([&texts.base, &texts.ours, &texts.theirs].map(|text| text.as_bytes()));
    let read = all.into_iter().all(|text| trees::parse(s.lang, text).is_some());
    let whole = |text: Vec<u8>| if read { trees::with_keywords_whole(s.lang, &text) } else { text };
    // What counts as put in and taken out depends on how hunks are drawn, and on whether what stands before several names is
    // counted once or for each of them: any drawing may account for it.
    let found = |one_by_one: bool| {
        let listed = |text: &[u8]| {
            let parted = one_by_one.then(|| trees::imports_one_by_one(s.lang, text));
            whole(trees::without_separators(s.lang, parted.as_deref().unwrap_or(text)))
        };
        let (texts, answer) = (s.texts().map(|text| listed(text.as_bytes())), listed(&answer.text));
        let versions = texts.as_ref().map(Vec::as_slice);
        let mut complaints = drawings().map(|drawing| refined(versions, &answer, s.lang == Lang::Toml, drawing));
        complaints.try_fold(None, |first: Option<String>, found| Some(first.or(Some(found?))))?
    };
    found(false).filter(|_| !read || found(true).is_some())
}

/// One way to tell what a side put in and took out.
#[derive(Clone, Copy)]
struct Drawing {
    algorithm: Algorithm,
    /// Lines are compared from the end.
    backward: bool,
    old: Old,
}

/// Where the old lines of a hunk are among the new ones.
#[derive(Clone, Copy)]
enum Old {
    /// In all of it: its words are compared as one text.
    Anywhere,
    /// At its beginning, line for line; the rest is new.
    First,
    /// At its end.
    Last,
    /// Where the new lines are most like them, in order; other lines went and came as a whole.
    Alike,
}

fn drawings() -> impl Iterator<Item = Drawing> {
    let algorithms = [Algorithm::Myers, Algorithm::Patience, Algorithm::Histogram].into_iter();
    let orders = algorithms.flat_map(|algorithm| [false, true].map(|backward| (algorithm, backward)));
    orders.flat_map(|(algorithm, backward)| {
        [Old::Anywhere, Old::First, Old::Last, Old::Alike].map(|old| Drawing { algorithm, backward, old })
    })
}

/// The differences of two sequences.
fn differences<T: Hash + Eq + Ord + Copy>(drawing: Drawing, old: &[T], new: &[T]) -> Vec<(Range<usize>, Range<usize>)> {
    let reversed = |list: &[T]| list.iter().rev().copied().collect::<Vec<T>>();
    let ops = match drawing.backward {
        false => capture_diff_slices(drawing.algorithm, old, new),
        true => capture_diff_slices(drawing.algorithm, &reversed(old), &reversed(new)),
    };
    let forward = |range: Range<usize>, length: usize| match drawing.backward {
        false => range,
        true => length - range.end..length - range.start,
    };
    let changed = ops.into_iter().filter(|op| !matches!(op, DiffOp::Equal { .. }));
    changed.map(|op| (forward(op.old_range(), old.len()), forward(op.new_range(), new.len()))).collect()
}

/// The first word whose number is out of the bounds of the refined rule.
fn refined(versions: Versions<&[u8]>, answer: &[u8], toml: bool, drawing: Drawing) -> Option<String> {
    let sides = [versions.ours, versions.theirs].map(|side| in_and_out(versions.base, side, toml, drawing));
    let (base, found) = (count(versions.base), count(answer));
    let mut all: Vec<&&[u8]> = base.keys().chain(found.keys()).chain(sides.iter().flat_map(|s| s.keys())).collect();
    all.sort();
    all.dedup();
    all.into_iter().find_map(|word| {
        let of = |counts: &HashMap<&[u8], i64>| counts.get(*word).copied().unwrap_or(0);
        let [(i1, x1), (i2, x2)] = [0, 1].map(|s| sides[s].get(*word).copied().unwrap_or((0, 0)));
        let sum = of(&base) + i1 + i2 - x1 - x2;
        let (least, most) = (sum - i1.min(i2), sum + x1.min(x2));
        let n = of(&found);
        (n < least || n > most).then(|| {
            format!("`{}` stands {n} times, but the edits allow {least} to {most}", String::from_utf8_lossy(word))
        })
    })
}

/// How often a side put each word in and took it out, by a diff of the words of each hunk. But imports are a set: where
/// one stands in another's place, the one was taken out and the other put in, with all their words. So is a table of
/// TOML (TOML v1.0.0, "Table"): what stands under another key, or another header, is another pair.
fn in_and_out<'t>(base: &'t [u8], side: &'t [u8], toml: bool, drawing: Drawing) -> HashMap<&'t [u8], (i64, i64)> {
    let lines = |text: &'t [u8]| -> Vec<&'t [u8]> { text.split_inclusive(|b| *b == b'\n').collect() };
    let (old, new) = (lines(base), lines(side));
    let mut found: HashMap<&[u8], (i64, i64)> = HashMap::new();
    let mut compare = |gone: &[&'t [u8]], come: &[&'t [u8]]| {
        let all = |lines: &[&'t [u8]]| -> Vec<&'t [u8]> { lines.iter().flat_map(|line| words(line)).collect() };
        let (gone, come) = (all(gone), all(come));
        for (out, put) in differences(drawing, &gone, &come) {
            gone[out].iter().for_each(|word| found.entry(word).or_default().1 += 1);
            come[put].iter().for_each(|word| found.entry(word).or_default().0 += 1);
        }
    };
    // Neighbouring differences are one hunk.
    let mut hunks: Vec<(Range<usize>, Range<usize>)> = Vec::new();
    let mut changed = differences(drawing, &old, &new);
    changed.sort_by_key(|(out, put)| (out.start, put.start));
    for (out, put) in changed {
        match hunks.last_mut() {
            Some(last) if last.0.end == out.start && last.1.end == put.start => {
                (last.0.end, last.1.end) = (out.end, put.end)
            }
            _ => hunks.push((out, put)),
        }
    }
    for (out, put) in hunks {
        let (out, put) = (&old[out], &new[put]);
        let under_another = toml && keys(out) != keys(put);
        let apart = |line: &&&[u8]| under_another || is_import(line);
        let others = |lines: &[&'t [u8]]| lines.iter().filter(|l| !apart(l)).copied().collect::<Vec<&'t [u8]>>();
        let (gone, come) = (others(out), others(put));
        let both = gone.len().min(come.len());
        match drawing.old {
            Old::Anywhere => compare(&gone, &come),
            Old::First => {
                gone.iter().zip(&come).for_each(|(old, new)| compare(&[old], &[new]));
                compare(&gone[both..], &[]);
                compare(&[], &come[both..]);
            }
            Old::Last => {
                gone.iter().rev().zip(come.iter().rev()).for_each(|(old, new)| compare(&[old], &[new]));
                compare(&gone[..gone.len() - both], &[]);
                compare(&[], &come[..come.len() - both]);
            }
            Old::Alike => {
                let pairs = most_alike(&gone, &come);
                pairs.iter().for_each(|(x, y)| compare(&[gone[*x]], &[come[*y]]));
                let left = |i: &usize| pairs.iter().all(|(x, _)| x != i);
                let right = |j: &usize| pairs.iter().all(|(_, y)| y != j);
                (0..gone.len()).filter(left).for_each(|i| compare(&[gone[i]], &[]));
                (0..come.len()).filter(right).for_each(|j| compare(&[], &[come[j]]));
            }
        }
        out.iter().filter(apart).for_each(|line| compare(&[line], &[]));
        put.iter().filter(apart).for_each(|line| compare(&[], &[line]));
    }
    found
}

/// Which lines are paired if, in order, as many words as can be are in both of a pair, and at least half of its words.
fn most_alike(old: &[&[u8]], new: &[&[u8]]) -> Vec<(usize, usize)> {
    let alike = |x: &[u8], y: &[u8]| {
        let (a, b) = (count(x), count(y));
        let both: i64 = a.iter().map(|(word, n)| *n.min(b.get(word).unwrap_or(&0))).sum();
        let all: i64 = a.values().chain(b.values()).sum();
        if 4 * both >= all { both } else { 0 }
    };
    let mut best = vec![vec![(0, false); new.len() + 1]; old.len() + 1];
    for i in (0..old.len()).rev() {
        for j in (0..new.len()).rev() {
            let skip = best[i + 1][j].0.max(best[i][j + 1].0);
            let both = alike(old[i], new[j]);
            let take = both + best[i + 1][j + 1].0;
            best[i][j] = (skip.max(take), both > 0 && take >= skip);
        }
    }
    let (mut i, mut j, mut pairs) = (0, 0, Vec::new());
    while i < old.len() && j < new.len() {
        if best[i][j].1 {
            pairs.push((i, j));
            (i, j) = (i + 1, j + 1);
        } else if best[i + 1][j].0 >= best[i][j + 1].0 {
            i += 1;
        } else {
            j += 1;
        }
    }
    pairs
}

/// The keys and headers on some lines of TOML.
fn keys<'t>(lines: &[&'t [u8]]) -> Vec<&'t [u8]> {
    lines.iter().filter_map(|l| l.split(|b| *b == b'=').next()).map(<[u8]>::trim_ascii).collect()
}

fn is_import(line: &[u8]) -> bool {
    let line = line.trim_ascii_start();
    [&b"import "[..], b"from ", b"use ", b"pub use "].iter().any(|start| line.starts_with(start))
}

fn count(text: &[u8]) -> HashMap<&[u8], i64> {
    let mut counts = HashMap::new();
    for word in words(text) {
        *counts.entry(word).or_default() += 1;
    }
    counts
}

/// The rule as the design states it, over whole files.
fn literal(versions: Versions<&[u8]>, answer: &[u8]) -> Option<String> {
    let [base, ours, theirs] = [versions.base, versions.ours, versions.theirs].map(count);
    let found = count(answer);
    let mut all: Vec<&&[u8]> = base.keys().chain(ours.keys()).chain(theirs.keys()).chain(found.keys()).collect();
    all.sort();
    all.dedup();
    all.into_iter().find_map(|word| {
        let of = |counts: &HashMap<&[u8], i64>| counts.get(*word).copied().unwrap_or(0);
        let [ours, theirs, answer] = [&ours, &theirs, &found].map(|c| of(c) - of(&base));
        let sum = ours + theirs;
        let balanced = if ours.signum() * theirs.signum() <= 0 {
            answer == sum
        } else {
            let larger = if ours.abs() > theirs.abs() { ours } else { theirs };
            (larger.min(sum)..=larger.max(sum)).contains(&answer)
        };
        (!balanced).then(|| format!("`{}`: {ours:+} and {theirs:+} became {answer:+}", String::from_utf8_lossy(word)))
    })
}

#[test]
fn the_check_itself_finds_words_that_were_lost_or_made_up() {
    let versions = Versions { base: &b"a\nb\nc\n"[..], ours: b"a\nx\nb\nc\n", theirs: b"a\nb\nc\ny\n" };
    let both = b"a\nx\nb\nc\ny\n";
    for (answer, good) in [
        (&both[..], true),
        (b"a\nx\nb\nc\n", false),
        (b"a\nb\nc\ny\n", false),
        (b"a\nx\nx\nb\nc\ny\n", false),
        (b"a\nx\nb\nc\ny\nz\n", false),
        (b"a\nx\nc\ny\n", false),
    ] {
        for drawing in drawings() {
            let found = refined(versions, answer, false, drawing).is_none();
            assert_eq!(found, good, "{}", String::from_utf8_lossy(answer));
        }
        assert_eq!(literal(versions, answer).is_none(), good, "{}", String::from_utf8_lossy(answer));
    }
}

/// Not a test of the rule but a measurement: how far the refined rule is from the literal one on real
/// conflicts. `PLEACH_CASES` names a folder of folders with `base`, `ours` and `theirs`, whose names
/// end in `-py`, `-rs` or `-toml`.
#[test]
#[ignore = "a measurement: PLEACH_CASES=/folder cargo test --release --test contract -- --ignored --nocapture literal"]
fn clean_answers_to_real_conflicts_by_the_literal_rule() {
    let root = PathBuf::from(env::var_os("PLEACH_CASES").expect("PLEACH_CASES names the folder of cases"));
    let mut folders = vec![root];
    let (mut clean, mut literally, mut refinedly) = (0, 0, 0);
    while let Some(folder) = folders.pop() {
        let read = |name: &str| fs::read(folder.join(name)).ok();
        if let (Some(base), Some(ours), Some(theirs)) = (read("base"), read("ours"), read("theirs")) {
            let name = folder.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let extension = name.rsplit('-').next().unwrap_or_default();
            let versions = Versions { base: &base[..], ours: &ours, theirs: &theirs };
            let answer = merge(versions, grammar::for_path(format!("f.{extension}").as_bytes(), &ours), &settings());
            if answer.conflicts == 0 {
                clean += 1;
                if let Some(why) = literal(versions, &answer.text) {
                    literally += 1;
                    println!("{}: {why}", folder.display());
                }
                let plain = Drawing { algorithm: Algorithm::Myers, backward: false, old: Old::Anywhere };
                if let Some(why) = refined(versions, &answer.text, extension == "toml", plain) {
                    refinedly += 1;
                    println!("{}: REFINED {why}", folder.display());
                }
            }
        } else if let Ok(entries) = fs::read_dir(&folder) {
            folders.extend(entries.flatten().map(|e| e.path()).filter(|p| p.is_dir()));
        }
    }
    println!("{clean} clean answers; {literally} break the literal rule, {refinedly} the refined rule");
}
