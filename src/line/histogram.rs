//! Histogram diff: split at a run of common lines that holds the rarest line, and go on in what is
//! before and after it.
//!
//! Which run that is, [`Index::scanned`] finds as git does: a walk over the region for every split,
//! which is quadratic in the number of changes. Nearly always a line that occurs once decides, and
//! then the outcome of the walk can be had without walking to its end:
//!
//! * A common run with such a line has rarity one, and among runs of equal rarity the longest wins, of
//!   equally long ones the first. So the answer is the longest run that holds a line which occurs once.
//! * As regions shrink, runs are only cut shorter and lines only get rarer. So a heap of the runs, looked
//!   over lazily, serves for a region and then for the larger part of every split of it.
//! * There is one exception. Git looks at all places of a line before it remembers that it has seen a
//!   rarer one. So where the first run of rarity one begins with a more frequent line, a longer run from
//!   another place of that line displaces it, and the next run of rarity one, however short, that one. So
//!   the walk is begun, up to the first run of rarity one, and gone to the end only if that happens.
//!
//! Each line is noted again only when it lands in the smaller part, which makes n log n of it where what
//! stands before the first such run is short.

use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::ops::Range;

use super::diff::{Lines, Marks, Occurrences, Pair, Region, Tables};
use super::myers;
use super::text::Line;

/// Lines that occur more often than this in `before` are no anchors.
const MOST_OCCURRENCES: u32 = 64;

/// Marks what changed in a region.
pub(super) fn mark(lines: Lines, region: Region, tables: &mut Tables, marks: &mut Marks) {
    let mut index = Index {
        lines,
        tables,
        following: lines.map(|lines| vec![NOWHERE; lines.len()]),
        region: Region::default(),
        candidates: BinaryHeap::new(),
    };
    let mut todo = vec![region];
    while let Some(region) = todo.pop() {
        index.load(region);
        loop {
            let region = index.region.clone();
            match index.anchor() {
                Anchor::Run(run) => {
                    let head = region.start_to(&run);
                    let tail = region.end_from(&run);
                    let (smaller, larger) = if head.size() < tail.size() { (head, tail) } else { (tail, head) };
                    todo.push(smaller);
                    index.shrink_to(larger);
                    continue;
                }
                Anchor::NothingCommon => {
                    index.unload();
                    marks.mark(region);
                }
                Anchor::OnlyFrequent => {
                    index.unload();
                    myers::mark(lines, region, myers::Effort::Heuristic, index.tables, marks);
                }
            }
            break;
        }
    }
}

/// What a region can be split at.
enum Anchor {
    /// A run of lines common to both sides.
    Run(Region),
    /// No line is on both sides.
    NothingCommon,
    /// There are common lines, all of them too frequent.
    OnlyFrequent,
}

const NOWHERE: u32 = u32::MAX;

/// A run that holds a line which occurs once in `before`; the greatest is the one to split at.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Candidate {
    length: usize,
    after: Reverse<usize>,
    before: usize,
}

impl Candidate {
    fn new(run: &Region) -> Self {
        Candidate { length: run.after.len(), after: Reverse(run.after.start), before: run.before.start }
    }

    fn run(&self) -> Region {
        let after = self.after.0;
        Pair { before: self.before..self.before + self.length, after: after..after + self.length }
    }
}

/// Where each line of a region occurs on both sides: `tables` have the first place, `following` the
/// next place after each place.
struct Index<'a> {
    lines: Lines<'a>,
    tables: &'a mut Tables,
    following: Pair<Vec<u32>>,
    region: Region,
    candidates: BinaryHeap<Candidate>,
}

impl Index<'_> {
    fn load(&mut self, region: Region) {
        self.tables.before.note(self.lines.before, &mut self.following.before, region.before.clone());
        self.tables.after.note(self.lines.after, &mut self.following.after, region.after.clone());
        let once: Vec<_> = region
            .after
            .clone()
            .map(|after| (after, self.lines.after[after].index()))
            .filter(|(_, line)| self.tables.before.counts[*line] == 1)
            .map(|(after, line)| Pair { before: self.tables.before.first[line] as usize, after })
            .collect();
        self.region = region;
        self.candidates.clear();
        self.propose(once);
    }

    fn unload(&mut self) {
        self.tables.forget(self.region.of(self.lines));
    }

    /// Leaves a part of the loaded region.
    fn shrink_to(&mut self, part: Region) {
        let Index { lines, tables, following, region, .. } = self;
        let mut rarer = Vec::new();
        tables.before.shrink(lines.before, &following.before, &region.before, &part.before, |l| rarer.push(l));
        tables.after.shrink(lines.after, &following.after, &region.after, &part.after, |_| {});
        self.region = part;
        let mut once = Vec::new();
        let mut rarer: Vec<usize> = rarer.into_iter().map(Line::index).collect();
        rarer.retain(|line| self.tables.before.counts[*line] == 1);
        rarer.sort_unstable();
        rarer.dedup();
        for line in rarer {
            let before = self.tables.before.first[line] as usize;
            let mut left = self.tables.after.counts[line];
            let mut after = self.tables.after.first[line];
            while left > 0 {
                once.push(Pair { before, after: after as usize });
                after = self.following.after[after as usize];
                left -= 1;
            }
        }
        once.sort_unstable_by_key(|pair| pair.after);
        once.dedup();
        self.propose(once);
    }

    /// Makes candidates of the runs around pairs of equal lines, given in the order of `after`.
    fn propose(&mut self, pairs: Vec<Pair<usize>>) {
        let mut last = Region::default();
        for pair in pairs {
            // As the line occurs once, a run over its place in `after` has it at its place in `before`.
            if !last.after.contains(&pair.after) {
                last = grown(self.lines, &self.region, pair);
                self.candidates.push(Candidate::new(&last));
            }
        }
    }

    fn anchor(&mut self) -> Anchor {
        while let Some(candidate) = self.candidates.pop() {
            let run = candidate.run();
            let left = run.within(&self.region);
            if left == run {
                let anchor = self.scanned(Some(&run));
                if !matches!(&anchor, Anchor::Run(taken) if *taken == run) {
                    self.candidates.push(candidate);
                }
                return anchor;
            }
            let lines = &self.lines.before[left.before.clone()];
            if lines.iter().any(|line| self.tables.before.counts[line.index()] == 1) {
                self.candidates.push(Candidate::new(&left));
            }
        }
        self.scanned(None)
    }

    /// Git's walk over the region, as far as it has to be gone: the first run of rarity one, if nothing
    /// displaces it, makes `longest` the answer.
    fn scanned(&self, mut longest: Option<&Region>) -> Anchor {
        let Index { lines, region, .. } = self;
        let Occurrences { counts, first } = &self.tables.before;
        let mut best: Option<Region> = None;
        let mut rarest = MOST_OCCURRENCES + 1;
        let mut common = false;
        let mut at = region.after.start;
        while at < region.after.end {
            let line = lines.after[at].index();
            let occurs = counts[line];
            common |= occurs > 0;
            let mut resume = at + 1;
            let mut place = if occurs > 0 && occurs <= rarest { first[line] as usize } else { region.before.end };
            while place < region.before.end {
                let run = grown(*lines, region, Pair { before: place, after: at });
                let occurrences = lines.before[run.before.clone()].iter().map(|line| counts[line.index()]);
                let rarity = occurrences.min().unwrap_or(occurs);
                // Longer wins over rarer, and rarer over longer: whichever comes last. That is git's rule.
                if best.as_ref().is_none_or(|best| best.before.len() < run.before.len()) || rarity < rarest {
                    if rarity > rarest {
                        longest = None;
                    }
                    rarest = rarity;
                    best = Some(run.clone());
                }
                resume = resume.max(run.after.end);
                while place < run.before.end {
                    place = self.following.before[place] as usize;
                }
            }
            if rarest == 1
                && let Some(longest) = longest
            {
                return Anchor::Run(longest.clone());
            }
            at = resume;
        }
        match best {
            _ if !common => Anchor::NothingCommon,
            Some(run) if rarest <= MOST_OCCURRENCES => Anchor::Run(run),
            _ => Anchor::OnlyFrequent,
        }
    }
}

impl Occurrences {
    fn note(&mut self, lines: &[Line], following: &mut [u32], range: Range<usize>) {
        for place in range.rev() {
            let line = lines[place].index();
            following[place] = if self.counts[line] == 0 { NOWHERE } else { self.first[line] };
            self.first[line] = place as u32;
            self.counts[line] += 1;
        }
    }

    /// Forgets what of `whole` is not in `part`, naming each line forgotten. The chains of places keep
    /// what was cut off at their end, so they must be followed no further than counts or bounds tell.
    fn shrink(
        &mut self,
        lines: &[Line],
        following: &[u32],
        whole: &Range<usize>,
        part: &Range<usize>,
        mut forgotten: impl FnMut(Line),
    ) {
        for place in whole.start..part.start {
            self.first[lines[place].index()] = following[place];
        }
        for place in (whole.start..part.start).chain(part.end..whole.end) {
            self.counts[lines[place].index()] -= 1;
            forgotten(lines[place]);
        }
    }
}

impl Region {
    fn size(&self) -> usize {
        self.before.len() + self.after.len()
    }

    fn start_to(&self, run: &Region) -> Region {
        Pair { before: self.before.start..run.before.start, after: self.after.start..run.after.start }
    }

    fn end_from(&self, run: &Region) -> Region {
        Pair { before: run.before.end..self.before.end, after: run.after.end..self.after.end }
    }

    /// What is left of a run of pairs of lines where both of a pair must lie within bounds.
    fn within(&self, bounds: &Region) -> Region {
        let cut = |run: &Range<usize>, bounds: &Range<usize>| {
            (bounds.start.saturating_sub(run.start), run.end.saturating_sub(bounds.end))
        };
        let (before, after) = (cut(&self.before, &bounds.before), cut(&self.after, &bounds.after));
        let length = self.before.len();
        let start = before.0.max(after.0).min(length);
        let end = (length - before.1.max(after.1).min(length)).max(start);
        let part = |run: &Range<usize>| run.start + start..run.start + end;
        Pair { before: part(&self.before), after: part(&self.after) }
    }
}

/// The run of common lines around a pair of equal lines.
fn grown(lines: Lines, region: &Region, at: Pair<usize>) -> Region {
    let Pair { before, after } = at;
    let back = region.start_to(&Pair { before: before..before, after: after..after }).of(lines);
    let ahead = region.end_from(&Pair { before: before..before, after: after..after }).of(lines);
    let back = back.before.iter().rev().zip(back.after.iter().rev()).take_while(|(b, a)| b == a).count();
    let ahead = ahead.before.iter().zip(ahead.after).take_while(|(b, a)| b == a).count();
    Pair { before: before - back..before + ahead, after: after - back..after + ahead }
}
