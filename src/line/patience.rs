//! Patience diff (B. Cohen): lines that occur once on both sides, in the longest order common to both,
//! are taken as equal; what lies between is compared on its own.

use super::diff::{Lines, Marks, Pair, Region, Tables};
use super::myers;

/// Marks what changed in a region.
pub(super) fn mark(lines: Lines, region: Region, tables: &mut Tables, marks: &mut Marks) {
    let mut todo = vec![region];
    while let Some(region) = todo.pop() {
        if region.before.is_empty() || region.after.is_empty() {
            marks.mark(region);
            continue;
        }
        match landmarks(lines, &region, tables) {
            None => marks.mark(region),
            Some(landmarks) if landmarks.is_empty() => {
                myers::mark(lines, region, myers::Effort::Heuristic, tables, marks);
            }
            Some(landmarks) => split(lines, region, landmarks, &mut todo),
        }
    }
}

/// A line that is the same on both sides: where it stands.
type Landmark = Pair<usize>;

/// The parts between landmarks, each freed of the common lines next to its own landmarks.
fn split(lines: Lines, region: Region, landmarks: Vec<Landmark>, todo: &mut Vec<Region>) {
    let mut start = Pair { before: region.before.start, after: region.after.start };
    let mut push = |mut part: Region, ends_at_landmark: bool| {
        if ends_at_landmark {
            part.trim_end(lines);
        }
        part.trim_start(lines);
        if !part.before.is_empty() || !part.after.is_empty() {
            todo.push(part);
        }
    };
    for landmark in landmarks {
        push(Pair { before: start.before..landmark.before, after: start.after..landmark.after }, true);
        start = landmark.map(|place| place + 1);
    }
    push(Pair { before: start.before..region.before.end, after: start.after..region.after.end }, false);
}

/// The landmarks of a region in order; `None` if the sides have no line in common.
fn landmarks(lines: Lines, region: &Region, tables: &mut Tables) -> Option<Vec<Landmark>> {
    let part = region.of(lines);
    tables.count(part);
    let common = part.after.iter().any(|line| tables.before.counts[line.index()] > 0);
    let once = |line: usize| (tables.before.counts[line], tables.after.counts[line]) == (1, 1);
    for (line, place) in part.after.iter().zip(region.after.clone()) {
        if once(line.index()) {
            tables.after.first[line.index()] = place as u32;
        }
    }
    let candidates: Vec<Landmark> = part
        .before
        .iter()
        .zip(region.before.clone())
        .filter(|(line, _)| once(line.index()))
        .map(|(line, before)| Pair { before, after: tables.after.first[line.index()] as usize })
        .collect();
    tables.forget(part);
    common.then(|| longest_rising(&candidates))
}

/// The longest subsequence that rises on both sides, by patience sorting; `before` rises already.
fn longest_rising(candidates: &[Landmark]) -> Vec<Landmark> {
    // `piles[n]`: the candidate with the smallest `after` that ends a rising sequence of n + 1.
    let mut piles: Vec<usize> = Vec::new();
    let mut previous = Vec::with_capacity(candidates.len());
    for (index, candidate) in candidates.iter().enumerate() {
        let pile = piles.partition_point(|top| candidates[*top].after < candidate.after);
        previous.push(pile.checked_sub(1).map(|pile| piles[pile]));
        match piles.get_mut(pile) {
            Some(top) => *top = index,
            None => piles.push(index),
        }
    }
    let mut chain: Vec<Landmark> =
        std::iter::successors(piles.last().copied(), |index| previous[*index]).map(|index| candidates[index]).collect();
    chain.reverse();
    chain
}
