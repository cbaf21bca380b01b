//! K6: text that no side changed is kept byte for byte, comments, blank lines and line endings included.
//! Text that one side changed is that side's text. Nothing is ever reformatted.

use std::ops::Range;

use pleach::{Answer, Versions, Way};

use super::edited::blocks;
use super::edited::edits::{Maker, add, cut, tag};
use super::edited::lex::Read;
use super::edited::rng::Rng;
use super::edited::scenario::{Patch, Scenario, apply, check_all, report};
use super::edited::{Lang, sources};
use super::merged::{answer, answer_to, check, in_parallel, merged};

/// A scenario in which each side replaces one token, near one place.
pub fn one_token_a_side(lang: Lang, name: &str, text: &str, seed: u64) -> Option<Scenario> {
    let mut rng = Rng::new(seed);
    let read = Read::new(lang, text.to_owned());
    let focus = rng.below(read.line_count().max(1));
    let mut edits = Vec::new();
    for attempt in 0..40 {
        let reach = 2 + attempt / 4;
        let near = focus.saturating_sub(reach)..(focus + reach).min(read.line_count());
        let tag = tag(edits.len(), 0);
        let edit = Maker { read: &read, rng: &mut rng, near, tag }.one_token();
        if edit.is_some_and(|e| add(&mut edits, e, text)) && edits.len() == 2 {
            let theirs = edits.pop().into_iter().collect();
            return Some(Scenario {
                lang,
                name: format!("{name} seed {seed}"),
                base: text.to_owned(),
                sides: [edits, theirs],
            });
        }
    }
    None
}

/// What an answer to two edits of one token may be: both, or, in a block, one of them.
pub fn one_token_complaint(s: &Scenario, answer: &Answer) -> Option<String> {
    let both = apply(&s.base, s.sides.iter().flatten().flat_map(|e| &e.patches));
    if answer.conflicts == 0 {
        return (answer.text != both.as_bytes())
            .then(|| format!("clean, but not base with both tokens ({:?})", answer.way));
    }
    if key_and_value(s) {
        return None;
    }
    (0..2).find_map(|side| {
        let chosen = match blocks::choose(&answer.text, side) {
            Ok(chosen) => chosen,
            Err(e) => return Some(e),
        };
        let good = chosen == both.as_bytes() || chosen == s.side(side).as_bytes();
        (!good).then(|| {
            format!("with side {side} chosen in every block, the text is neither that side nor both ({:?})", answer.way)
        })
    })
}

/// Whether one side named an entry anew and the other changed its value. To merge, that is an entry taken
/// out and another put in against a change of the first: a conflict, in which each side may hold the new
/// entry.
fn key_and_value(s: &Scenario) -> bool {
    let at = |side: usize| s.sides[side].first().map_or(0..0, |e| e.patches[0].at.clone());
    (0..2).any(|side| {
        let (key, value) = (at(side), at(1 - side));
        let rest = s.base[key.end..].trim_start_matches(|c: char| c.is_alphanumeric() || "-_.\"'".contains(c));
        let after = rest.trim_start();
        let is_key = after.starts_with(['=', ':']) && !after.starts_with("==") && !after.starts_with("::");
        is_key && value.start > key.end && !s.base[key.end..value.start].contains('\n')
    })
}

fn one_token_scenarios(each: usize) -> Vec<Scenario> {
    let mut found = Vec::new();
    for lang in Lang::ALL {
        for (k, (name, text)) in sources::sample(lang, each, 300, 80_000).into_iter().enumerate() {
            let text = cut(lang, &text, k as u64 * 8 + 1);
            found.extend((0..3).filter_map(|n| one_token_a_side(lang, &name, &text, 3 * k as u64 + n)));
        }
    }
    found
}

#[test]
fn one_token_from_each_side_changes_nothing_else() {
    let all = one_token_scenarios(45);
    let answers = in_parallel(&all, answer_to);
    let failed: Vec<(&Scenario, String)> =
        all.iter().zip(&answers).filter_map(|(s, a)| Some((s, one_token_complaint(s, a)?))).collect();
    report("k6-one-token", &failed, &|s| one_token_complaint(s, &answer_to(s)));
    let clean = answers.iter().filter(|a| a.conflicts == 0).count();
    let trees = answers.iter().filter(|a| a.way == Way::Trees).count();
    println!("{} merges, {clean} clean, {trees} by trees", all.len());
    assert!(all.len() > 200 && trees * 10 > all.len(), "{} merges, {trees} by trees", all.len());
    assert!(clean * 10 > all.len() * 7, "only {clean} of {} are clean", all.len());
}

#[test]
fn lines_that_nobody_edited_stand_in_the_answer_in_their_order() {
    check("k6-lines", |s, answer| {
        // A line merge is git's, byte for byte (K3, K7), wherever git puts what both sides have.
        if answer.way == Way::Lines || s.sides.iter().flatten().any(|e| e.what == "move statement") {
            return None;
        }
        // Base, without what anybody touched, and whether each line stands as far in as it did.
        let mut untouched: Vec<(&[u8], bool)> = Vec::new();
        let mut beside_touched = false;
        let reopened = reopened(s);
        let mut at = 0;
        for line in s.base.split_inclusive('\n') {
            let range = at..at + line.len();
            at = range.end;
            let touched = s.sides.iter().flatten().flat_map(|e| &e.patches).any(|p| {
                let whole = p.at.is_empty() && (p.at.start == range.start && p.text.ends_with('\n'));
                !whole
                    && p.at.start < range.end
                    && p.at.end >= range.start
                    && (p.at.is_empty() || p.at.end != range.start)
            }) || reopened.iter().any(|r| r.contains(&range.start));
            // Blank lines beside what was edited part it from its neighbours: they are layout of the edit.
            let blank = line.trim().is_empty();
            if touched {
                while untouched.last().is_some_and(|(l, _)| l.trim_ascii().is_empty()) {
                    untouched.pop();
                }
                // Comments travel with what they describe, also into a block.
                let sign = if s.lang == Lang::Rust { "//" } else { "#" };
                let comments =
                    untouched.iter_mut().rev().take_while(|(l, _)| l.trim_ascii().starts_with(sign.as_bytes()));
                comments.for_each(|(_, as_far_in)| *as_far_in = false);
            } else if !(blank && beside_touched) {
                untouched.push((line.as_bytes(), true));
            }
            beside_touched = touched || blank && beside_touched;
        }
        (0..2).find_map(|side| {
            let chosen = blocks::choose(&answer.text, side).ok()?;
            let mut lines = chosen.split_inclusive(|b| *b == b'\n');
            let stands = |(old, as_far_in): &(&[u8], bool), new: &[u8]| match as_far_in {
                true => *old == new,
                false => old.trim_ascii_start() == new.trim_ascii_start(),
            };
            let (lost, _) = untouched.iter().find(|l| !lines.any(|m| stands(l, m)))?;
            Some(format!(
                "side {side}: the line {:?} is not where it was ({:?})",
                String::from_utf8_lossy(lost),
                answer.way
            ))
        })
    });
}

/// All lines that may be those that a patch took out: it may have been the same ones above or below.
fn slid(base: &str, patch: &Patch) -> Range<usize> {
    let at = &patch.at;
    let whole = |place: usize| place == 0 || base[..place].ends_with('\n');
    if at.is_empty() || !patch.text.is_empty() || !whole(at.start) || !whole(at.end) {
        return at.clone();
    }
    let above = |place: usize| base[..place].split_inclusive('\n').next_back().unwrap_or_default();
    let below = |place: usize| base[place..].split_inclusive('\n').next().unwrap_or_default();
    let (mut first, mut last) = (at.clone(), at.clone());
    while first.start > 0 && above(first.start) == above(first.end) {
        let step = above(first.start).len();
        first = first.start - step..first.end - step;
    }
    while last.end < base.len() && below(last.start) == below(last.end) {
        let step = below(last.start).len();
        last = last.start + step..last.end + step;
    }
    first.start..last.end
}

#[test]
fn what_may_have_been_taken_out_in_place_of_its_copy_is_no_more_than_that() {
    let patch = |at: Range<usize>, text: &str| Patch { at, text: text.to_owned() };
    let base = "a\nb\nb\nc\nb\nc\nd\n";
    assert_eq!(slid(base, &patch(2..4, "")), 2..6);
    assert_eq!(slid(base, &patch(4..6, "")), 2..6);
    assert_eq!(slid(base, &patch(4..8, "")), 4..12);
    assert_eq!(slid(base, &patch(0..2, "")), 0..2);
    assert_eq!(slid(base, &patch(2..4, "x\n")), 2..4);
}

/// What was touched without being edited: a statement beside its copy, of which nobody can tell which is the old one,
/// or which was taken out; and what stands below a header of TOML that came, went or changed, for it belongs to that (TOML v1.0.0, "Table").
fn reopened(s: &Scenario) -> Vec<Range<usize>> {
    let line_before = |at: usize| s.base[..at.saturating_sub(1)].rfind('\n').map_or(0, |p| p + 1);
    let header = |line: &str| s.lang == Lang::Toml && line.starts_with('[');
    let mut found = Vec::new();
    for edit in s.sides.iter().flatten() {
        for patch in &edit.patches {
            let mut range = slid(&s.base, patch);
            if edit.what == "duplicate statement" {
                range.start = patch.text.lines().fold(range.start, |at, _| line_before(at));
            }
            let old = &s.base[line_before(range.start + 1)..range.end];
            if old.lines().chain(patch.text.lines()).any(header) {
                let after = s.base[range.end..].split_inclusive('\n');
                range.end += after.take_while(|line| !header(line)).map(str::len).sum::<usize>();
            }
            found.push(range);
        }
    }
    found
}

#[test]
fn files_with_other_line_endings_are_merged_alike() {
    let some: Vec<&Scenario> =
        merged().iter().map(|m| &m.scenario).filter(|s| !s.base.contains('\r')).step_by(3).collect();
    let crlf = |text: &str| text.replace('\n', "\r\n");
    let complaint = |s: &Scenario| -> Option<String> {
        let (unix, dos) = (answer_to(s), answer(s.lang, &s.texts().map(|t| crlf(&t))));
        let expected = crlf(&String::from_utf8(unix.text).ok()?);
        (dos.text != expected.as_bytes())
            .then(|| format!("{:?} became {:?}", (unix.way, unix.conflicts), (dos.way, dos.conflicts)))
    };
    let found = in_parallel(&some, |s| complaint(s));
    let failed: Vec<(&Scenario, String)> = some.iter().zip(found).filter_map(|(s, why)| Some((*s, why?))).collect();
    report("k6-crlf", &failed, &complaint);
}

/// How long something is, line endings aside, decides whether it is followed to where it moved.
#[test]
fn what_moved_is_followed_whatever_the_line_endings_and_the_depth() {
    let list = |indent: &str| {
        format!(
            "[\n{indent}\"Topic :: Scientific/Engineering\",\n{indent}\"Programming Language :: Python :: 3\",\n]\n"
        )
    };
    let merged = |indent: &str, ending: &str| {
        let list = list(indent);
        let base = format!("[tides]\nclassifiers = {list}");
        let ours = base.replace("classifiers", "kinds");
        let theirs = base.replace("[tides]\n", "[tides]\n[harbour]\n");
        let texts = Versions { base, ours, theirs }.map(|text| text.replace('\n', ending));
        let answer = answer(Lang::Toml, &texts);
        (answer.conflicts, String::from_utf8(answer.text).expect("it is text").replace('\r', "").replace(indent, ""))
    };
    let unix = merged("    ", "\n");
    assert_eq!(unix, merged("    ", "\r\n"));
    assert_eq!(unix, merged("        ", "\n"));
}

#[test]
fn a_missing_final_newline_stays_missing() {
    let some: Vec<Scenario> = merged()
        .iter()
        .filter(|m| m.answer.conflicts == 0 && m.scenario.base.ends_with('\n') && !m.scenario.base.ends_with("\n\n"))
        .filter(|m| {
            let last = m.scenario.base.trim_end().rfind('\n').unwrap_or(0)..m.scenario.base.len() + 1;
            (0..2).all(|side| !m.scenario.touched(side, &last))
        })
        .map(|m| m.scenario.clone())
        .step_by(2)
        .collect();
    assert!(some.len() > 50, "only {} scenarios leave the end alone", some.len());
    let without = |text: &str| text.strip_suffix('\n').unwrap_or(text).to_owned();
    check_all("k6-final-newline", &some, &|s| {
        let expected = without(&String::from_utf8(answer_to(s).text).ok()?);
        let answer = answer(s.lang, &s.texts().map(|t| without(&t)));
        (answer.text != expected.as_bytes()).then(|| format!("{:?} {:?}", answer.way, answer.notes))
    });
}
