//! K9: inside a conflict block each side's text already carries the other side's compatible edits, so
//! that keeping either side of every block loses only what truly disagrees.

use pleach::{Answer, Versions, Way};

use super::edited::lex::Read;
use super::edited::scenario::{Scenario, meet};
use super::edited::{Lang, blocks, trees};
use super::merged::{answer, check};

#[test]
fn either_choice_in_every_block_parses() {
    check("k9-parses", |s, answer| {
        if answer.way == Way::Lines || answer.conflicts == 0 {
            return None;
        }
        (0..2).find_map(|side| {
            let chosen = blocks::choose(&answer.text, side).ok()?;
            (!trees::parses(s.lang, &chosen))
                .then(|| format!("with side {side} chosen in every block, it does not parse"))
        })
    });
}

/// What a side wrote anew carries its mark: choosing a side must keep all of its marks, and the other's
/// marks wherever the other's edit meets none of the chosen side's in a statement.
#[test]
fn choosing_a_side_keeps_its_edits_and_the_compatible_edits_of_the_other() {
    check("k9-edits", complaint);
}

fn complaint(s: &Scenario, answer: &Answer) -> Option<String> {
    if answer.way == Way::Lines || answer.conflicts == 0 {
        return None;
    }
    (0..2).find_map(|side| {
        let chosen = String::from_utf8(blocks::choose(&answer.text, side).ok()?).ok()?;
        if let Some(lost) = marks(&s.side(side)).into_iter().find(|m| !chosen.contains(m.as_str())) {
            return Some(format!("side {side} chosen, and its own `{lost}` is lost"));
        }
        let lost = compatible(s, 1 - side).into_iter().find(|m| !chosen.contains(m.as_str()))?;
        Some(format!("side {side} chosen, and the other's compatible `{lost}` is lost"))
    })
}

/// The marks in a text: the words that [`super::edited::edits::tag`] marked.
fn marks(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for word in text.split(|c: char| !c.is_alphanumeric() && c != '_') {
        if let Some(at) = word.find("ours").or_else(|| word.find("theirs"))
            && word[at..].trim_start_matches(|c: char| c.is_alphabetic()).parse::<u32>().is_ok()
        {
            found.push(word[at..].to_owned());
        }
    }
    found.sort();
    found.dedup();
    found
}

/// The marks of a side's edits that stay out of every statement, suite included, in or beside which the
/// other side did anything.
fn compatible(s: &Scenario, side: usize) -> Vec<String> {
    let read = Read::new(s.lang, s.base.clone());
    let near = |at: &std::ops::Range<usize>| {
        let first = read.line_at(at.start).saturating_sub(3);
        let last = (read.line_at(at.end) + 3).min(read.line_count().saturating_sub(1));
        let mut range = read.starts[first]..read.starts[last + 1];
        for (i, statement) in read.statements.iter().enumerate() {
            // The whole outermost statement: what is inside may depend on what it is.
            let bytes = read.bytes_of(&read.suite(i));
            if statement.indent == 0 && meet(&bytes, at) {
                range = range.start.min(bytes.start)..range.end.max(bytes.end);
            }
        }
        // What is put in behind the last line stands beside it.
        range.start..range.end + 1
    };
    let mut found = Vec::new();
    for edit in &s.sides[side] {
        let opposed = edit.patches.iter().any(|p| s.touched(1 - side, &near(&p.at)));
        if !opposed {
            found.extend(edit.patches.iter().flat_map(|p| marks(&p.text)));
        }
    }
    found
}

fn texts(base: &str, ours: &str, theirs: &str) -> Versions<String> {
    Versions { base, ours, theirs }.map(str::to_owned)
}

/// The disagreement is about `unit`; everything else belongs on both sides of the block.
#[test]
fn both_sides_of_a_block_hold_what_does_not_disagree() {
    for (lang, base, ours, theirs, common) in [
        (
            Lang::Python,
            "plot(station, unit='m', colour='blue', width=1)\n",
            "plot(station, unit='ft', colour='blue', width=2)\n",
            "plot(harbour, unit='cm', colour='blue', width=1, grid=True)\n",
            &["harbour", "width=2", "grid=True", "colour='blue'"][..],
        ),
        (
            Lang::Rust,
            "fn main() {\n    plot(Tide { station, unit: 1, width: 1 });\n}\n",
            "fn main() {\n    plot(Tide { station, unit: 2, width: 2 });\n}\n",
            "fn main() {\n    draw(Tide { station, unit: 3, width: 1, grid: true });\n}\n",
            &["draw(", "width: 2", "grid: true"],
        ),
        (
            Lang::Toml,
            "tide = { station = \"a\", unit = 1, width = 1 }\n",
            "tide = { station = \"a\", unit = 2, width = 2 }\n",
            "tide = { station = \"b\", unit = 3, width = 1 }\n",
            &["station = \"b\"", "width = 2"],
        ),
    ] {
        let answer = answer(lang, &texts(base, ours, theirs));
        assert_eq!(answer.conflicts, 1, "{lang:?}: {}", String::from_utf8_lossy(&answer.text));
        for side in 0..2 {
            let chosen = String::from_utf8(blocks::choose(&answer.text, side).unwrap()).unwrap();
            for part in common {
                assert!(chosen.contains(part), "{lang:?}, side {side}: {part} is lost:\n{chosen}");
            }
        }
    }
}
