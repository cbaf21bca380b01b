//! The line diff between two texts, hunk for hunk as git computes it.
//!
//! Git's diff is not "a shortest edit script": it drops lines it takes for noise before the search,
//! gives up optimality when a search gets dear, and slides what it found to where it lines up best.
//! A three-way merge sees all of it, because where hunks touch decides what conflicts. Each of these
//! habits is a file here: [`myers`], [`histogram`], [`patience`], [`slide`].

use std::ops::Range;

use super::text::{Cutter, Line, lines};
use super::{Algorithm, histogram, myers, patience, slide};

/// The changed line ranges of a two-way diff, in order: lines of `before`, lines of `after`.
///
/// ```
/// use pleach::line::{Algorithm, hunks};
/// assert_eq!(hunks(b"a\nb\nc\n", b"a\nc\nd\n", Algorithm::Histogram), [(1..2, 1..1), (3..3, 2..3)]);
/// ```
pub fn hunks(before: &[u8], after: &[u8], algorithm: Algorithm) -> Vec<(Range<usize>, Range<usize>)> {
    let mut cutter = Cutter::new(before.len() / 32 + 64);
    let (before, after) = (cutter.cut(before), cutter.cut(after));
    let mut differ = Differ::new(algorithm, cutter.distinct());
    differ.hunks(Pair { before: &before.lines, after: &after.lines })
}

/// The changed lines of a two-way diff, in order, as bytes of `before` and bytes of `after`. What the texts begin
/// and end with alike is not looked at, so a change may stand elsewhere than git would put it.
///
/// ```
/// use pleach::line::{Algorithm, differences};
/// assert_eq!(differences(b"a\nb\nc\n", b"a\nc\nd\n", Algorithm::Histogram), [(2..4, 2..2), (6..6, 4..6)]);
/// ```
pub fn differences(before: &[u8], after: &[u8], algorithm: Algorithm) -> Vec<(Range<usize>, Range<usize>)> {
    let line_start = |text: &[u8]| text.iter().rposition(|b| *b == b'\n').map_or(0, |newline| newline + 1);
    let start = line_start(&before[..common_prefix(before, after)]);
    let (old, new) = (&before[start..], &after[start..]);
    let suffix = &old[old.len() - common_suffix(old, new)..];
    // The suffix may begin within a line.
    let kept = suffix.iter().position(|b| *b == b'\n').map_or(0, |newline| suffix.len() - newline - 1);
    let (old, new) = (&old[..old.len() - kept], &new[..new.len() - kept]);
    let (old_starts, new_starts) = (starts(old), starts(new));
    let bytes = |starts: &[usize], lines: Range<usize>| start + starts[lines.start]..start + starts[lines.end];
    let hunks = hunks(old, new, algorithm).into_iter();
    hunks.map(|(before, after)| (bytes(&old_starts, before), bytes(&new_starts, after))).collect()
}

/// The offset of each line's start, and the length of the text.
fn starts(text: &[u8]) -> Vec<usize> {
    let ends = lines(text).into_iter().scan(0, |at, line| {
        *at += line.len();
        Some(*at)
    });
    std::iter::once(0).chain(ends).collect()
}

/// How many bytes two texts begin with alike.
pub fn common_prefix(a: &[u8], b: &[u8]) -> usize {
    let chunks = a.chunks_exact(CHUNK).zip(b.chunks_exact(CHUNK)).take_while(|(a, b)| a == b).count() * CHUNK;
    chunks + a[chunks..].iter().zip(&b[chunks..]).take_while(|(a, b)| a == b).count()
}

/// How many bytes two texts end with alike.
pub fn common_suffix(a: &[u8], b: &[u8]) -> usize {
    let chunks = a.rchunks_exact(CHUNK).zip(b.rchunks_exact(CHUNK)).take_while(|(a, b)| a == b).count() * CHUNK;
    let (a, b) = (&a[..a.len() - chunks], &b[..b.len() - chunks]);
    chunks + a.iter().rev().zip(b.iter().rev()).take_while(|(a, b)| a == b).count()
}

/// How many bytes are compared at once.
const CHUNK: usize = 64;

/// A value for each side of a diff.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Pair<T> {
    pub(super) before: T,
    pub(super) after: T,
}

impl<T> Pair<T> {
    pub(super) fn map<U>(self, mut f: impl FnMut(T) -> U) -> Pair<U> {
        Pair { before: f(self.before), after: f(self.after) }
    }

    pub(super) fn as_ref(&self) -> Pair<&T> {
        Pair { before: &self.before, after: &self.after }
    }
}

/// The lines of a diff's two sides.
pub(super) type Lines<'a> = Pair<&'a [Line]>;

/// A part of the two sides that is compared on its own.
pub(super) type Region = Pair<Range<usize>>;

impl Region {
    /// Where the texts agree at the start of the region, moves its start past it.
    pub(super) fn trim_start(&mut self, lines: Lines) {
        let common = self.of(lines);
        let common = common.before.iter().zip(common.after).take_while(|(b, a)| b == a).count();
        self.before.start += common;
        self.after.start += common;
    }

    /// Where the texts agree at the end of the region, moves its end before it.
    pub(super) fn trim_end(&mut self, lines: Lines) {
        let common = self.of(lines);
        let common = common.before.iter().rev().zip(common.after.iter().rev()).take_while(|(b, a)| b == a).count();
        self.before.end -= common;
        self.after.end -= common;
    }

    /// The region's lines.
    pub(super) fn of<'a>(&self, lines: Lines<'a>) -> Lines<'a> {
        Pair { before: &lines.before[self.before.clone()], after: &lines.after[self.after.clone()] }
    }
}

/// For each line of the two sides, whether it is a part of a change.
pub(super) type Marks = Pair<Vec<bool>>;

impl Marks {
    /// Marks all of a region as changed.
    pub(super) fn mark(&mut self, region: Region) {
        self.before[region.before].fill(true);
        self.after[region.after].fill(true);
    }
}

/// Computes diffs between texts of one [`Cutter`], keeping its tables from one to the next.
pub(super) struct Differ {
    algorithm: Algorithm,
    tables: Tables,
}

/// What is known of the lines of the compared region of each side.
pub(super) type Tables = Pair<Occurrences>;

/// Tables indexed by [`Line`].
#[derive(Default)]
pub(super) struct Occurrences {
    /// How often a line occurs; zero between uses.
    pub(super) counts: Vec<u32>,
    /// Where it occurs first; meaningless where its count is zero.
    pub(super) first: Vec<u32>,
}

impl Occurrences {
    fn new(distinct: usize) -> Self {
        Occurrences { counts: vec![0; distinct], first: vec![0; distinct] }
    }
}

impl Tables {
    /// Counts a region's lines.
    pub(super) fn count(&mut self, lines: Lines) {
        lines.before.iter().for_each(|line| self.before.counts[line.index()] += 1);
        lines.after.iter().for_each(|line| self.after.counts[line.index()] += 1);
    }

    /// Makes the counts of a region's lines zero again, at the cost of the region and not of the table.
    pub(super) fn forget(&mut self, lines: Lines) {
        lines.before.iter().for_each(|line| self.before.counts[line.index()] = 0);
        lines.after.iter().for_each(|line| self.after.counts[line.index()] = 0);
    }
}

impl Differ {
    /// A differ for texts with this many distinct lines.
    pub(super) fn new(algorithm: Algorithm, distinct: usize) -> Self {
        let tables = Pair { before: Occurrences::new(distinct), after: Occurrences::new(distinct) };
        Differ { algorithm, tables }
    }

    /// The changed ranges, in order.
    pub(super) fn hunks(&mut self, lines: Lines) -> Vec<(Range<usize>, Range<usize>)> {
        let mut marks = lines.map(|lines| vec![false; lines.len()]);
        let whole = lines.map(|lines| 0..lines.len());
        let tables = &mut self.tables;
        match self.algorithm {
            Algorithm::Myers => myers::mark(lines, whole, myers::Effort::Heuristic, tables, &mut marks),
            Algorithm::Minimal => myers::mark(lines, whole, myers::Effort::Minimal, tables, &mut marks),
            Algorithm::Patience => patience::mark(lines, whole, tables, &mut marks),
            Algorithm::Histogram => histogram::mark(lines, whole, tables, &mut marks),
        }
        slide::settle(lines, marks)
    }
}
