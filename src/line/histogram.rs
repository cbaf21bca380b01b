//! Histogram diff: split at the longest run of common lines that holds the rarest line, and go on in
//! what is before and after it.

use std::ops::Range;

use super::diff::{Lines, Marks, Pair, Region, Tables};
use super::myers;

/// Lines that occur more often than this in `before` are no anchors.
const MOST_OCCURRENCES: u32 = 64;

/// Marks what changed in a region.
pub(super) fn mark(lines: Lines, region: Region, tables: &mut Tables, marks: &mut Marks) {
    let mut following = vec![NOWHERE; lines.before.len()];
    let mut todo = vec![region];
    while let Some(region) = todo.pop() {
        if region.before.is_empty() || region.after.is_empty() {
            marks.mark(region);
            continue;
        }
        let mut occurrences = Occurrences { tables, following: &mut following };
        occurrences.note(lines, region.before.clone());
        let anchor = occurrences.anchor(lines, &region);
        occurrences.forget(lines, region.before.clone());
        match anchor {
            Anchor::Run(run) => {
                todo.push(Pair { before: run.before.end..region.before.end, after: run.after.end..region.after.end });
                todo.push(Pair {
                    before: region.before.start..run.before.start,
                    after: region.after.start..run.after.start,
                });
            }
            Anchor::NothingCommon => marks.mark(region),
            Anchor::OnlyFrequent => myers::mark(lines, region, myers::Effort::Heuristic, tables, marks),
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

/// Where each line of a region of `before` occurs: `tables.place` has the first place, `following`
/// the next place after each place.
struct Occurrences<'a> {
    tables: &'a mut Tables,
    following: &'a mut [u32],
}

impl Occurrences<'_> {
    fn note(&mut self, lines: Lines, before: Range<usize>) {
        for place in before.rev() {
            let line = lines.before[place].index();
            let count = &mut self.tables.counts.before[line];
            self.following[place] = if *count == 0 { NOWHERE } else { self.tables.place[line] };
            self.tables.place[line] = place as u32;
            *count += 1;
        }
    }

    fn forget(&mut self, lines: Lines, before: Range<usize>) {
        self.tables.forget(Pair { before: &lines.before[before], after: &[] });
    }

    fn anchor(&self, lines: Lines, region: &Region) -> Anchor {
        let count = |place: usize| self.tables.counts.before[lines.before[place].index()];
        let mut best: Option<Region> = None;
        let mut rarest = MOST_OCCURRENCES + 1;
        let mut common = false;
        let mut at = region.after.start;
        while at < region.after.end {
            let line = lines.after[at].index();
            let occurs = self.tables.counts.before[line];
            common |= occurs > 0;
            let mut resume = at + 1;
            let mut place = if occurs > 0 && occurs <= rarest { self.tables.place[line] } else { NOWHERE };
            while place != NOWHERE {
                let run = grown(lines, region, place as usize, at);
                let rarity = run.before.clone().map(count).min().unwrap_or(occurs);
                // Longer wins over rarer, and rarer over longer: whichever comes last. That is git's rule.
                if best.as_ref().is_none_or(|best| best.before.len() < run.before.len()) || rarity < rarest {
                    rarest = rarity;
                    best = Some(run.clone());
                }
                resume = resume.max(run.after.end);
                place = self.following[place as usize];
                while place != NOWHERE && (place as usize) < run.before.end {
                    place = self.following[place as usize];
                }
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

/// The run of common lines around a pair of equal lines.
fn grown(lines: Lines, region: &Region, before: usize, after: usize) -> Region {
    let back = Pair { before: region.before.start..before, after: region.after.start..after }.of(lines);
    let ahead = Pair { before: before..region.before.end, after: after..region.after.end }.of(lines);
    let back = back.before.iter().rev().zip(back.after.iter().rev()).take_while(|(b, a)| b == a).count();
    let ahead = ahead.before.iter().zip(ahead.after).take_while(|(b, a)| b == a).count();
    Pair { before: before - back..before + ahead, after: after - back..after + ahead }
}
