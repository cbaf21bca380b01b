//! Long halves of conflicts of which most is as in base: what in them is not.
//!
//! One side took out, moved away or rewrote many lines of which the other changed a few. The block shows all of them;
//! what a person needs to see is the few.

use std::ops::Range;

use rustc_hash::FxHashMap as HashMap;

use super::account::half;
use crate::line::{self, Algorithm};
use crate::once;
use crate::{Kept, Side, Sought, Version};

/// So many lines are more than can be compared at a glance.
const LONG: usize = 20;

/// More changes than these are best read where they stand.
const FEW: usize = 10;

/// So many lines tell that others beside them are the same too.
const SOUGHT: usize = 12;

/// Fewer lines than these may stand in a file by chance.
const TOLD_APART: usize = 3;

/// The long halves of conflicts in a text with markers of `marker_size` signs of which all but a few lines are as in
/// `base`.
pub(crate) fn kept(text: &[u8], base: &[u8], marker_size: usize) -> Vec<Kept> {
    let whole = line::lines(text);
    let blocks = line::blocks(&whole, marker_size);
    let long = |lines: &Range<usize>| lines.len() > LONG;
    let mut blocks = blocks.into_iter().map(|block| block.lines).filter(long).peekable();
    if blocks.peek().is_none() {
        return Vec::new();
    }
    let base = Base::new(base);
    let told = |lines: Range<usize>| {
        let halves = Side::BOTH.map(|side| half(&whole[lines.clone()], side, marker_size));
        let told = |side: Side| {
            let [own, other] = [side, side.other()].map(|side| halves[side as usize]);
            let kept = base.told(side, own, lines.start + 1)?;
            Some(Kept { sought: base.sought(side.other(), own, other), ..kept })
        };
        Side::BOTH.into_iter().filter_map(told).collect::<Vec<_>>()
    };
    blocks.flat_map(told).collect()
}

/// Some lines of a text by which it is known elsewhere: none, if it has too few that say something.
pub(crate) fn telling(text: &[u8]) -> Vec<Vec<u8>> {
    let says = |line: &&[u8]| line.iter().filter(|b| b.is_ascii_alphanumeric()).count() > 2;
    let mut lines: Vec<&[u8]> = line::lines(text).into_iter().map(<[u8]>::trim_ascii).filter(says).collect();
    lines.sort_by(|a, b| b.len().cmp(&a.len()).then_with(|| a.cmp(b)));
    lines.dedup();
    lines.truncate(SOUGHT);
    if lines.len() < TOLD_APART { Vec::new() } else { lines.into_iter().map(<[u8]>::to_vec).collect() }
}

/// The lines of a text that are not in `before`, after a `+`, and those of that which are not in it, after a `-`, if these
/// are few.
pub(crate) fn few_changes(before: &[u8], text: &[u8]) -> Option<Vec<String>> {
    let mut changes = Changes::default();
    for (gone, fresh) in line::differences(before, text, Algorithm::Histogram) {
        changes.add(&line::lines(&before[gone]), &line::lines(&text[fresh]));
    }
    changes.are_few().then_some(changes.signed)
}

/// Lines that are gone, and new ones, as they are told.
#[derive(Default)]
struct Changes {
    signed: Vec<String>,
    gone: usize,
    fresh: usize,
}

impl Changes {
    fn add(&mut self, gone: &[&[u8]], fresh: &[&[u8]]) {
        let signed = |sign: char, line: &[u8]| format!("{sign}{}", String::from_utf8_lossy(line.trim_ascii_end()));
        self.signed.extend(gone.iter().map(|line| signed('-', line)));
        self.signed.extend(fresh.iter().map(|line| signed('+', line)));
        (self.gone, self.fresh) = (self.gone + gone.len(), self.fresh + fresh.len());
    }

    fn are_few(&self) -> bool {
        self.gone.max(self.fresh) <= FEW
    }
}

/// The lines of base.
struct Base<'b> {
    lines: Vec<&'b [u8]>,
    /// Where those stand that it has once.
    once: HashMap<&'b [u8], Option<usize>>,
}

impl<'b> Base<'b> {
    fn new(text: &'b [u8]) -> Base<'b> {
        let lines = line::lines(text);
        let once = once::by_key(lines.iter().enumerate().map(|(at, line)| (*line, at)));
        Base { lines, once }
    }

    /// What is to be told of a side's half of the conflict at a line, if it is long and little in it is new.
    fn told(&self, side: Side, half: &[&[u8]], line: usize) -> Option<Kept> {
        if half.len() < LONG {
            return None;
        }
        let (old, new) = (self.around(half)?.concat(), half.concat());
        let mut changes = Changes::default();
        for (before, after) in line::differences(&old, &new, Algorithm::Histogram) {
            // Lines before and behind the half are beside it and not gone.
            let beside = after.start == 0 || after.end == new.len();
            let (before, after) = (line::lines(&old[before]), line::lines(&new[after]));
            changes.add(if beside { &[] } else { &before }, &after);
        }
        if !changes.are_few() || changes.fresh * 4 > half.len() {
            return None;
        }
        let Changes { signed: changes, gone, fresh } = changes;
        let (name, lines) = (Version::from(side).name(), half.len());
        let what = match fresh {
            0 => format!("{name} has {lines} lines here, all as in base"),
            _ => format!("{name} has {lines} lines here, all but {fresh} as in base"),
        };
        let what = if gone > fresh { format!("{what}; {} of base gone", gone - fresh) } else { what };
        Some(Kept { line, what, changes, sought: None })
    }

    /// What a half has of base by which it is known elsewhere, if a side has next to nothing of it in the same conflict.
    fn sought(&self, side: Side, half: &[&[u8]], own: &[&[u8]]) -> Option<Sought> {
        let mut lines: Vec<&[u8]> =
            half.iter().filter(|line| self.once.contains_key(**line)).map(|line| line.trim_ascii()).collect();
        lines.sort_by_key(|line| std::cmp::Reverse(line.len()));
        lines.truncate(SOUGHT);
        let lines = lines.into_iter().map(<[u8]>::to_vec).collect();
        (own.len() * 4 <= half.len()).then_some(Sought { side, lines })
    }

    /// The lines of base around what a half has of it, as far as lines tell that base has once.
    fn around(&self, half: &[&[u8]]) -> Option<&[&'b [u8]]> {
        let place = |line: &&[u8]| self.once.get(line).copied().flatten();
        let first = half.iter().enumerate().find_map(|(at, line)| Some(place(line)?.saturating_sub(at)))?;
        let end = half.iter().rev().enumerate().find_map(|(at, line)| Some(place(line)? + at + 1))?;
        self.lines.get(first..end.min(self.lines.len()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Base, and a text in which ours took 30 of its lines out, of which theirs has `theirs`.
    fn told(theirs: impl Fn(usize) -> Option<String>) -> Vec<Kept> {
        let base = |n: usize| format!("level {n}\n");
        let all: String = (0..40).map(base).collect();
        let half: String = (5..35).filter_map(|n| theirs(n).map(|line| line + "\n")).collect();
        let text = format!("level 4\n<<<<<<< ours\n=======\n{half}>>>>>>> theirs\nlevel 35\n");
        kept(text.as_bytes(), all.as_bytes(), 7)
    }

    #[test]
    fn of_a_long_half_only_what_is_not_as_in_base_is_told() {
        let plain = |n: usize| format!("level {n}");
        let one = told(|n| Some(if n == 20 { "level 20 m".to_owned() } else { plain(n) }));
        assert_eq!(one.len(), 1);
        assert_eq!((one[0].line, &*one[0].what), (2, "theirs has 30 lines here, all but 1 as in base"));
        assert_eq!(one[0].changes, ["-level 20", "+level 20 m"]);

        let gone = told(|n| (n != 20).then(|| plain(n)));
        assert_eq!(gone[0].what, "theirs has 29 lines here, all as in base; 1 of base gone");
        assert_eq!(gone[0].changes, ["-level 20"]);

        let at_the_ends = told(|n| Some(if n == 5 || n == 34 { format!("{n}") } else { plain(n) }));
        assert_eq!(at_the_ends[0].changes, ["+5", "+34"], "what stands beside the half is not gone");
    }

    #[test]
    fn a_half_that_is_short_or_new_is_read_where_it_stands() {
        assert_eq!(told(|n| (n < 20).then(|| format!("level {n}"))), []);
        assert_eq!(told(|n| Some(format!("depth {n}"))), []);
        assert_eq!(told(|n| Some(if n % 2 == 0 { format!("level {n}") } else { format!("depth {n}") })), []);
    }
}
