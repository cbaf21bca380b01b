//! Myers' O(ND) diff with git's shortcuts.
//!
//! The search is that of E. Myers, "An O(ND) Difference Algorithm and Its Variations" (1986),
//! section 4b: two searches, one from each end, meet on an optimal path; the meeting point splits the
//! problem. Git adds a filter for noise before it ([`kept`]) and two ways out of a search that gets
//! dear ([`Search::promising`], [`Search::furthest`]). All of them change which of many diffs is found,
//! so the thresholds and the order of ties below are part of the behaviour and not tuning.

use std::ops::Range;

use super::diff::{Lines, Marks, Pair, Region, Tables};
use super::text::Line;

/// How hard to look for a shortest diff.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Effort {
    /// Give up a shortest diff where it takes long.
    Heuristic,
    /// Always the shortest.
    Minimal,
}

/// Lines that must agree in a row to make a path promising.
const SNAKE: i32 = 20;
/// Cost from which a promising path ends the search.
const PROMISING_COST: i32 = 256;
/// A promising path advanced more than this many lines for each unit of cost.
const PROMISING_RATIO: i32 = 4;
/// No search is cut off below this cost.
const LEAST_COST_LIMIT: i32 = 256;

/// Marks what changed in a region.
pub(super) fn mark(lines: Lines, region: Region, effort: Effort, tables: &mut Tables, marks: &mut Marks) {
    // Counts are over the whole region, its common ends included: a line that is frequent there is
    // no good landmark in the middle either.
    tables.count(region.of(lines));
    let mut middle = region.clone();
    middle.trim_start(lines);
    middle.trim_end(lines);
    let kept_lines = Pair {
        before: kept(lines.before, &region.before, &middle.before, &tables.after.counts, &mut marks.before),
        after: kept(lines.after, &region.after, &middle.after, &tables.before.counts, &mut marks.after),
    };
    tables.forget(region.of(lines));
    Search::new(&kept_lines, effort).run(marks);
}

/// The lines that take part in the search, and where they stand.
#[derive(Default)]
struct Kept {
    lines: Vec<Line>,
    places: Vec<usize>,
}

/// How a line fares on the other side.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Matches {
    None,
    Some,
    Many,
}

/// Takes out of the search lines without a match, and frequent lines in the midst of such lines; both
/// are marked as changed.
fn kept(
    lines: &[Line],
    region: &Range<usize>,
    middle: &Range<usize>,
    other_counts: &[u32],
    marks: &mut [bool],
) -> Kept {
    let many = power_root(region.len()).min(1024);
    let matches: Vec<Matches> = lines[middle.clone()]
        .iter()
        .map(|line| match other_counts[line.index()] as usize {
            0 => Matches::None,
            n if n >= many => Matches::Many,
            _ => Matches::Some,
        })
        .collect();
    let mut kept = Kept::default();
    for (at, place) in middle.clone().enumerate() {
        let noise = match matches[at] {
            Matches::None => true,
            Matches::Some => false,
            Matches::Many => amid_noise(&matches, at),
        };
        if noise {
            marks[place] = true;
        } else {
            kept.lines.push(lines[place]);
            kept.places.push(place);
        }
    }
    kept
}

/// Whether a frequent line stands among lines that mostly have no match: within 100 lines on both
/// sides, up to the nearest line with few matches, there is a line with none, and those with none are
/// more than three times those with many.
fn amid_noise(matches: &[Matches], at: usize) -> bool {
    const WINDOW: usize = 100;
    let census = |run: &mut dyn Iterator<Item = &Matches>| {
        let (mut none, mut many) = (0, 1);
        for kind in run.take(WINDOW).take_while(|kind| **kind != Matches::Some) {
            if *kind == Matches::None { none += 1 } else { many += 1 }
        }
        (none, many)
    };
    let (none_before, many_before) = census(&mut matches[..at].iter().rev());
    if none_before == 0 {
        return false;
    }
    let (none_after, many_after) = census(&mut matches[at + 1..].iter());
    let (none, many) = (none_before + none_after, many_before + many_after);
    none_after != 0 && many * 4 < many + none
}

/// A power of two near the square root of `n`: git's measure of "much".
fn power_root(mut n: usize) -> usize {
    let mut root = 1;
    while n > 0 {
        root <<= 1;
        n >>= 2;
    }
    root
}

/// One end's search. Diagonals and distances are counted from that end (the backward search sees both
/// texts reversed), so that all but the direction of comparison is written once.
#[derive(Default)]
struct Frontier {
    /// For each diagonal `x - y`, the furthest `x` reached.
    reach: Vec<i32>,
    origin: i32,
    low: i32,
    high: i32,
}

const FORWARD: bool = false;
const BACKWARD: bool = true;
const UNREACHED: i32 = -1;

impl Frontier {
    fn start(&mut self, height: i32) {
        self.origin = height + 1;
        (self.low, self.high) = (0, 0);
        self.set(0, 0);
    }

    fn at(&self, diagonal: i32) -> i32 {
        self.reach[(self.origin + diagonal) as usize]
    }

    fn set(&mut self, diagonal: i32, x: i32) {
        self.reach[(self.origin + diagonal) as usize] = x;
    }

    /// One more edit: one diagonal more at each end, or one less where the edge is reached.
    fn widen(&mut self, width: i32, height: i32) {
        if self.low > -height {
            self.low -= 1;
            self.set(self.low - 1, UNREACHED);
        } else {
            self.low += 1;
        }
        if self.high < width {
            self.high += 1;
            self.set(self.high + 1, UNREACHED);
        } else {
            self.high -= 1;
        }
    }

    /// The diagonals reached, in the order in which git looks at them: that of the text's own
    /// diagonals downwards, whichever end the search comes from.
    fn diagonals<const FROM: bool>(&self) -> impl Iterator<Item = i32> + use<FROM> {
        let (low, high) = (self.low, self.high);
        (0..=(high - low) / 2).map(move |i| if FROM == FORWARD { high - 2 * i } else { low + 2 * i })
    }
}

/// The lines of the part being split.
#[derive(Clone, Copy)]
struct Board<'a> {
    lines: Lines<'a>,
    width: i32,
    height: i32,
}

impl Board<'_> {
    /// Whether the lines at a distance from one end are equal.
    fn same<const FROM: bool>(&self, x: i32, y: i32) -> bool {
        let (x, y) = if FROM == FORWARD { (x, y) } else { (self.width - 1 - x, self.height - 1 - y) };
        self.lines.before[x as usize] == self.lines.after[y as usize]
    }

    /// A point given by its distance from one end.
    fn point<const FROM: bool>(&self, x: i32, y: i32) -> (usize, usize) {
        let (x, y) = if FROM == FORWARD { (x, y) } else { (self.width - x, self.height - y) };
        (x.clamp(0, self.width) as usize, y.clamp(0, self.height) as usize)
    }

    /// Moves a frontier by one edit. Says where it meets the other one, if that is asked for, and
    /// whether it found a long run of equal lines.
    fn advance<const FROM: bool>(
        &self,
        frontier: &mut Frontier,
        other: Option<&Frontier>,
        long_run: &mut bool,
    ) -> Option<(usize, usize)> {
        frontier.widen(self.width, self.height);
        for diagonal in frontier.diagonals::<FROM>() {
            let (right, down) = (frontier.at(diagonal - 1), frontier.at(diagonal + 1));
            let start = if right >= down { right + 1 } else { down };
            let mut x = start;
            while x < self.width && x - diagonal < self.height && self.same::<FROM>(x, x - diagonal) {
                x += 1;
            }
            *long_run |= x - start > SNAKE;
            frontier.set(diagonal, x);
            if let Some(other) = other {
                let theirs = self.width - self.height - diagonal;
                if (other.low..=other.high).contains(&theirs) && x + other.at(theirs) >= self.width {
                    return Some(self.point::<FROM>(x, x - diagonal));
                }
            }
        }
        None
    }

    /// The end of a path that got far for its cost and has just passed a long run of equal lines.
    fn promising<const FROM: bool>(&self, frontier: &Frontier, cost: i32) -> Option<(usize, usize)> {
        let mut best = (0, None);
        for diagonal in frontier.diagonals::<FROM>() {
            let x = frontier.at(diagonal);
            let y = x - diagonal;
            let progress = x + y - diagonal.abs();
            let inside = (SNAKE..self.width).contains(&x) && (SNAKE..self.height).contains(&y);
            if progress > PROMISING_RATIO * cost
                && progress > best.0
                && inside
                && (1..=SNAKE).all(|back| self.same::<FROM>(x - back, y - back))
            {
                best = (progress, Some(self.point::<FROM>(x, y)));
            }
        }
        best.1
    }

    /// The furthest point a frontier reached, with the distance.
    fn furthest<const FROM: bool>(&self, frontier: &Frontier) -> (i32, (usize, usize)) {
        let mut best = (-1, (0, 0));
        for diagonal in frontier.diagonals::<FROM>() {
            let x = frontier.at(diagonal).min(self.width).min(self.height + diagonal);
            let y = x - diagonal;
            if x + y > best.0 {
                best = (x + y, self.point::<FROM>(x, y));
            }
        }
        best
    }
}

/// Where to split, and which halves still have to be searched without shortcuts.
struct Split {
    at: (usize, usize),
    efforts: [Effort; 2],
}

/// The search over the kept lines.
struct Search<'a> {
    kept: &'a Pair<Kept>,
    effort: Effort,
    cost_limit: i32,
    frontiers: [Frontier; 2],
}

impl<'a> Search<'a> {
    fn new(kept: &'a Pair<Kept>, effort: Effort) -> Self {
        let diagonals = kept.before.lines.len() + kept.after.lines.len() + 3;
        let frontier = || Frontier { reach: vec![UNREACHED; diagonals], ..Default::default() };
        Search {
            kept,
            effort,
            cost_limit: (power_root(diagonals) as i32).max(LEAST_COST_LIMIT),
            frontiers: [frontier(), frontier()],
        }
    }

    fn run(mut self, marks: &mut Marks) {
        let Pair { before, after } = self.kept;
        let lines = Pair { before: &before.lines[..], after: &after.lines[..] };
        // A stack of its own: a bad split sheds few lines, so the depth is bounded only by the input.
        let mut todo = vec![(lines.map(|lines| 0..lines.len()), self.effort)];
        while let Some((mut region, effort)) = todo.pop() {
            region.trim_start(lines);
            region.trim_end(lines);
            if region.before.is_empty() || region.after.is_empty() {
                before.places[region.before].iter().for_each(|place| marks.before[*place] = true);
                after.places[region.after].iter().for_each(|place| marks.after[*place] = true);
                continue;
            }
            let split = self.split(region.of(lines), effort);
            let (x, y) = (region.before.start + split.at.0, region.after.start + split.at.1);
            let [low, high] = split.efforts;
            todo.push((Pair { before: region.before.start..x, after: region.after.start..y }, low));
            todo.push((Pair { before: x..region.before.end, after: y..region.after.end }, high));
        }
    }

    /// Finds a point on a shortest path through a part, or on a good one if that is too dear.
    fn split(&mut self, lines: Lines, effort: Effort) -> Split {
        let board = Board { lines, width: lines.before.len() as i32, height: lines.after.len() as i32 };
        let [forward, backward] = &mut self.frontiers;
        forward.start(board.height);
        backward.start(board.height);
        // The two searches can only meet on the move of the one whose diagonals have the right parity.
        let odd = (board.width - board.height) % 2 != 0;
        let mut cost = 0;
        loop {
            cost += 1;
            let mut long_run = false;
            let met = board
                .advance::<FORWARD>(forward, odd.then_some(&*backward), &mut long_run)
                .or_else(|| board.advance::<BACKWARD>(backward, (!odd).then_some(&*forward), &mut long_run));
            if let Some(at) = met {
                return Split { at, efforts: [Effort::Minimal; 2] };
            }
            if effort == Effort::Minimal {
                continue;
            }
            // The part behind a point that was reached properly is short and can afford a proper
            // search; the rest is searched with shortcuts.
            let reached_forward = [Effort::Minimal, Effort::Heuristic];
            let reached_backward = [Effort::Heuristic, Effort::Minimal];
            if long_run && cost > PROMISING_COST {
                if let Some(at) = board.promising::<FORWARD>(forward, cost) {
                    return Split { at, efforts: reached_forward };
                }
                if let Some(at) = board.promising::<BACKWARD>(backward, cost) {
                    return Split { at, efforts: reached_backward };
                }
            }
            if cost >= self.cost_limit {
                let (forward, at) = board.furthest::<FORWARD>(forward);
                let (backward, back) = board.furthest::<BACKWARD>(backward);
                return if backward < forward {
                    Split { at, efforts: reached_forward }
                } else {
                    Split { at: back, efforts: reached_backward }
                };
            }
        }
    }
}
