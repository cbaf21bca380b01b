//! Where a change is put when it could stand in several places.
//!
//! Deleting the second of two equal lines or the first gives the same text. Git settles the question
//! line by line: a run of changed lines may move up or down over an equal line, and where it meets
//! another run the two become one. A run that can move is put next to a run of the other side if it
//! passes one (so that a replacement is seen as one change), else as far down as it goes. The
//! indentation heuristic of `git diff` is not used by merges.

use std::ops::Range;

use super::diff::{Lines, Marks, Pair};
use super::text::Line;

/// Settles the places of all changes and pairs them up as hunks.
pub(super) fn settle(lines: Lines, marks: Marks) -> Vec<(Range<usize>, Range<usize>)> {
    let gaps = marks.before.iter().filter(|changed| !**changed).count() + 1;
    let mut runs = marks.as_ref().map(|marks| runs(marks));
    runs.before = slide(lines.before, runs.before, &occupied(&runs.after, gaps));
    runs.after = slide(lines.after, runs.after, &occupied(&runs.before, gaps));
    pair(runs)
}

/// A run of changed lines. Unchanged lines correspond one to one, so `gap`, the number of unchanged
/// lines above the run, says which run of the other side is beside it.
#[derive(Clone, Debug)]
struct Run {
    lines: Range<usize>,
    gap: usize,
}

impl Run {
    fn move_up(&mut self) {
        self.lines = self.lines.start - 1..self.lines.end - 1;
        self.gap -= 1;
    }

    fn move_down(&mut self) {
        self.lines = self.lines.start + 1..self.lines.end + 1;
        self.gap += 1;
    }
}

fn runs(marks: &[bool]) -> Vec<Run> {
    let mut runs = Vec::new();
    let (mut place, mut gap) = (0, 0);
    for same in marks.chunk_by(|a, b| a == b) {
        if same[0] {
            runs.push(Run { lines: place..place + same.len(), gap });
        } else {
            gap += same.len();
        }
        place += same.len();
    }
    runs
}

/// Which gaps hold a run.
fn occupied(runs: &[Run], gaps: usize) -> Vec<bool> {
    let mut occupied = vec![false; gaps];
    runs.iter().for_each(|run| occupied[run.gap] = true);
    occupied
}

fn slide(lines: &[Line], runs: Vec<Run>, other: &[bool]) -> Vec<Run> {
    let mut settled: Vec<Run> = Vec::with_capacity(runs.len());
    let mut ahead = runs.into_iter().peekable();
    while let Some(mut run) = ahead.next() {
        loop {
            let size = run.lines.len();
            while run.lines.start > 0 && lines[run.lines.start - 1] == lines[run.lines.end - 1] {
                run.move_up();
                if let Some(met) = settled.pop_if(|above| above.lines.end == run.lines.start) {
                    run.lines.start = met.lines.start;
                }
            }
            let mut movable = false;
            let mut beside_other = other[run.gap];
            while run.lines.end < lines.len() && lines[run.lines.start] == lines[run.lines.end] {
                run.move_down();
                movable = true;
                beside_other |= other[run.gap];
                if let Some(met) = ahead.next_if(|below| below.lines.start == run.lines.end) {
                    run.lines.end = met.lines.end;
                }
            }
            // A run that grew may be able to move where the smaller one was not.
            if run.lines.len() != size {
                continue;
            }
            while movable && beside_other && !other[run.gap] {
                run.move_up();
            }
            break;
        }
        settled.push(run);
    }
    settled
}

fn pair(runs: Pair<Vec<Run>>) -> Vec<(Range<usize>, Range<usize>)> {
    let Pair { before, after } = runs;
    let mut hunks = Vec::with_capacity(before.len().max(after.len()));
    let (mut before, mut after) = (before.into_iter().peekable(), after.into_iter().peekable());
    // How many changed lines stand above the gap, on each side: its place is `gap` further down.
    let mut above = Pair { before: 0, after: 0 };
    while let Some(gap) = before.peek().into_iter().chain(after.peek()).map(|run| run.gap).min() {
        let take = |side: &mut dyn FnMut() -> Option<Run>, above: &mut usize| {
            let range = side().map_or(gap + *above..gap + *above, |run| run.lines);
            *above += range.len();
            range
        };
        let hunk = (
            take(&mut || before.next_if(|run| run.gap == gap), &mut above.before),
            take(&mut || after.next_if(|run| run.gap == gap), &mut above.after),
        );
        hunks.push(hunk);
    }
    hunks
}
