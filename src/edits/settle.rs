//! What the line merge leaves over: three texts that differ only where it found a conflict, or where it may have
//! made an edit in the wrong one of two places.

use std::ops::Range;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::moved_lines::{Moves, opening, reindented};
use super::stray::Strays;
use super::withdrawn::heads;
use super::{Edit, Place, View, doubled, telling};
use crate::grammar::Outline;
use crate::line::{self, ChunkKind};
use crate::merging::Withdrawn;
use crate::{Side, Version, Versions};

/// Three versions, as far as the line merge can settle them.
#[derive(Default)]
pub(crate) struct Settled {
    /// What is left over: the versions with every line edit made in all of them that lines can settle.
    pub texts: Versions<Vec<u8>>,
    /// The bytes that are not settled, and the lines around them.
    pub disputed: Versions<Vec<Range<usize>>>,
    /// What lines begin with that each side put in by itself, where lines settled one of the two edits.
    pub doubled: Vec<Vec<u8>>,
    /// Whether a line that is not settled also stands in an edit that is: one side may have moved it.
    pub moved: bool,
    /// Where each edit of a side is now, settled or not.
    pub edited: Vec<Place>,
}

/// What each side took out and put in, edit by edit.
struct Changes<'v> {
    moves: Vec<[Moves<'v>; 2]>,
    /// The lines that it has further in or out.
    shifts: Vec<[Vec<&'v [u8]>; 2]>,
    /// All that it put in.
    put_in: [HashSet<&'v [u8]>; 2],
    /// All that it has further in or out.
    shifted: [HashSet<&'v [u8]>; 2],
    /// All that it took out.
    out: [HashSet<&'v [u8]>; 2],
}

/// Makes every line edit in all three versions that is in no conflict, and that lines put in the entry it was made
/// in, and that uses nothing that the other side withdrew. The trees are asked for only if the entry is in doubt.
/// `outline` tells of the signs of lines that belong to the statement below, and of texts of several lines.
pub(crate) fn settle<'t, 's: 't>(
    versions: Versions<&[u8]>,
    edits: &[Edit],
    withdrawn: &Withdrawn,
    outline: Option<&Outline>,
    view: impl FnOnce() -> Option<View<'t, 's>>,
) -> Settled {
    let (strings, naming) = outline.map_or((&[][..], &[][..]), |outline| (&outline.strings, &outline.naming));
    let strayed = Strays::of(versions, edits, outline, view).touched;
    let changes = Changes::of(versions, edits);
    let mut open = changes.open(versions, edits, withdrawn, &strayed);
    changes.open_twins(versions, edits, naming, &mut open);
    // What stands twice in the line merge may be one thing.
    doubled(versions, edits).into_iter().for_each(|at| open[at..=at + 1].fill(true));
    changes.open_with_neighbours(versions.base, edits, strings, &mut open);
    let tied = changes.tied(edits);
    let mut settled = Settled::default();
    let mut done = 0;
    for (at, (edit, open)) in edits.iter().zip(&open).enumerate() {
        let unchanged = &versions.base[done..edit.at.base.start];
        done = edit.at.base.end;
        let mut place = Versions::<Range<usize>>::default();
        for version in Version::ALL {
            let text = settled.texts.get_mut(version);
            text.extend_from_slice(unchanged);
            let start = text.len();
            let from = if *open { version } else { edit.chosen() };
            text.extend_from_slice(&versions.get(from)[edit.at(from)]);
            *place.get_mut(version) = start..text.len();
        }
        let (ours, by, tied) = (edit.at(Version::Ours), edit.by(), tied[at]);
        let moved = changes.hide_moves(at, edit) || changes.cross_a_head(versions, at, edit, naming);
        let parted = edit.is_conflict() && changes.part(at);
        settled.edited.push(Place { at: place, ours, open: *open, by, moved, parted, tied });
    }
    settled.doubled = changes.doubled(edits, &open);
    settled.moved = changes.cross(&open);
    for version in Version::ALL {
        let text = settled.texts.get_mut(version);
        text.extend_from_slice(&versions.base[done..]);
        let open = settled.edited.iter().filter(|place| place.open).map(|place| place.at.get(version));
        *settled.disputed.get_mut(version) = open.map(|range| line::with_neighbours(text, range)).collect();
    }
    settled
}

impl<'v> Changes<'v> {
    fn of(versions: Versions<&'v [u8]>, edits: &[Edit]) -> Changes<'v> {
        let moves = |e: &Edit| Side::BOTH.map(|side| Moves::of(versions, &e.at, side));
        let shifts = |e: &Edit| Side::BOTH.map(|side| reindented(versions, e, side));
        let moves: Vec<[Moves<'v>; 2]> = edits.iter().map(moves).collect();
        let put_in = |side: Side| moves.iter().flat_map(|moves| &moves[side as usize].put).copied().collect();
        let out = |side: Side| moves.iter().flat_map(|moves| &moves[side as usize].out).copied().collect();
        let shifts: Vec<[Vec<&'v [u8]>; 2]> = edits.iter().map(shifts).collect();
        let shifted = |side: Side| {
            let lines = shifts.iter().flat_map(|shifts| &shifts[side as usize]).filter(|line| telling(line));
            lines.map(|line| opening(line)).collect()
        };
        Changes {
            put_in: Side::BOTH.map(put_in),
            out: Side::BOTH.map(out),
            shifted: Side::BOTH.map(shifted),
            shifts,
            moves,
        }
    }

    /// Which edits lines cannot settle.
    fn open(&self, versions: Versions<&[u8]>, edits: &[Edit], withdrawn: &Withdrawn, strayed: &[bool]) -> Vec<bool> {
        let put: HashSet<&[u8]> = self.put_in.iter().flatten().copied().collect();
        // What both sides took out of one place, one of them may have moved, and the other not.
        let in_dispute = |e: &Edit, sides: &[Moves<'_>; 2]| match e.kind {
            ChunkKind::Conflict => true,
            ChunkKind::Same => e.at.ours.is_empty() && !put.is_disjoint(&sides[0].out),
            _ => false,
        };
        let mut disputed = [Moves::default(), Moves::default()];
        for (_, sides) in edits.iter().zip(&self.moves).filter(|(e, sides)| in_dispute(e, sides)) {
            disputed.iter_mut().zip(sides).for_each(|(all, moves)| all.add(moves));
        }
        // What a side has further in or out where the sides disagree, and put in elsewhere too: one statement went into
        // two blocks.
        let shifted = Side::BOTH.map(|side| {
            let conflicts = edits.iter().zip(&self.shifts).filter(|(edit, _)| edit.is_conflict());
            let lines = conflicts.flat_map(|(_, shifts)| &shifts[side as usize]).filter(|line| telling(line));
            lines.map(|line| opening(line)).collect::<HashSet<&[u8]>>()
        });
        let stays_open = |(at, edit): (usize, &Edit)| {
            let moves = &self.moves[at];
            // What a side moved to or from where the sides disagree is seen to have moved only if both places are.
            in_dispute(edit, moves)
                || strayed[at]
                || withdrawn.around().contains(&at)
                || withdrawn.has_unfit(at)
                || edit.by().is_some_and(|side| !moves[side as usize].put.is_disjoint(&shifted[side as usize]))
                || edit.by().is_some_and(|side| {
                    let mut shifts = self.shifts[at][side as usize].iter().filter(|line| telling(line));
                    shifts.any(|line| disputed[side as usize].put.contains(opening(line)))
                })
                || edit.by().is_some_and(|side| {
                    // Of what it took out both here and where the sides disagree, it may have drawn out one for both.
                    let (put_in, out) = (&self.put_in[side as usize], &disputed[side as usize].out);
                    let (here, shifted) = (&moves[side as usize], &shifted[side as usize]);
                    let drawn_out =
                        |line: &&[u8]| put_in.contains(line) && out.contains(line) || shifted.contains(line);
                    here.put.is_empty() && !here.out.is_empty() && here.out.iter().all(drawn_out)
                })
                || edit.by().is_some_and(|side| withdrawn.used_in(&versions.get(side)[edit.at(side.into())], side))
                || moves.iter().zip(&disputed).any(|(here, there)| here.crosses(there))
        };
        edits.iter().enumerate().map(stays_open).collect()
    }

    /// Opens what puts in a line that the other side put in where the sides disagree, if as far as lines tell both are in
    /// one definition: it may be one statement, put in at two places.
    fn open_twins(&self, versions: Versions<&[u8]>, edits: &[Edit], naming: &[String], open: &mut [bool]) {
        let conflicts = || (0..edits.len()).filter(|at| edits[*at].is_conflict());
        let lines = |at: usize, side: Side| self.moves[at][side as usize].put.iter().copied();
        let disputed = Side::BOTH.map(|side| conflicts().flat_map(|at| lines(at, side)).collect::<HashSet<&[u8]>>());
        let put_by_both = |at: usize| {
            let side = edits[at].by().filter(|_| !open[at])?;
            let both = lines(at, side).filter(|line| disputed[side.other() as usize].contains(line));
            Some((at, side, both.collect::<Vec<_>>())).filter(|(.., both)| !both.is_empty())
        };
        let found: Vec<(usize, Side, Vec<&[u8]>)> = (0..edits.len()).filter_map(put_by_both).collect();
        if found.is_empty() || naming.is_empty() {
            return;
        }
        let all_heads = heads(versions.base, naming);
        let definition = |at: usize| {
            let begins = |version: Version| !heads(&versions.get(version)[edits[at].at(version)], naming).is_empty();
            let within_one = !Version::ALL.into_iter().any(begins);
            within_one.then(|| all_heads.partition_point(|head| *head <= edits[at].at.base.start))
        };
        let places: HashSet<(usize, Side, &[u8])> = conflicts()
            .filter_map(|at| Some((at, definition(at)?)))
            .flat_map(|(at, here)| Side::BOTH.map(|side| lines(at, side).map(move |line| (here, side, line))))
            .flatten()
            .collect();
        for (at, side, both) in found {
            let twin = |here| both.iter().any(|line| places.contains(&(here, side.other(), *line)));
            open[at] = definition(at).is_some_and(twin);
        }
    }

    /// Whether what each side changed in a stretch of lines is not to be seen there alone, because lines of it moved.
    fn hide_moves(&self, at: usize, edit: &Edit) -> bool {
        let (moves, shifts) = (&self.moves[at], &self.shifts[at]);
        let mut by_both = moves[0].put.intersection(&moves[1].put);
        let here = edit.at.base.is_empty() && by_both.any(|line| self.out.iter().any(|out| out.contains(line)));
        let away = |side: Side| {
            let put_in = &self.put_in[side as usize];
            let moved: HashSet<&[u8]> = moves[side as usize].out.intersection(put_in).copied().collect();
            !moved.is_empty() && shifts[side.other() as usize].iter().any(|line| moved.contains(opening(line)))
        };
        let repeated = |side: Side| {
            let lines = shifts[side as usize].iter().filter(|line| telling(line));
            let mut lines = lines.map(|line| opening(line)).peekable();
            lines.peek().is_some() && lines.all(|line| self.put_in[side as usize].contains(line))
        };
        // One statement went into two blocks, or out of two.
        let spread = |side: Side| {
            let (put, shifted) = (&moves[side as usize].put, &self.shifted[side as usize]);
            !put.is_empty() && put.is_subset(shifted)
        };
        let drawn = |side: Side| {
            let mut lines = shifts[side as usize].iter().filter(|line| telling(line)).peekable();
            lines.peek().is_some() && lines.all(|line| self.out[side as usize].contains(opening(line)))
        };
        let hides = |side: Side| away(side) || repeated(side) || spread(side) || drawn(side);
        here || edit.is_conflict() && Side::BOTH.into_iter().any(hides)
    }

    /// Whether a side moved lines to where the other side begins a definition: what stood below them may stand in that
    /// now, and they may not.
    fn cross_a_head(&self, versions: Versions<&[u8]>, at: usize, edit: &Edit, naming: &[String]) -> bool {
        let begins = |version: Version| !heads(&versions.get(version)[edit.at(version)], naming).is_empty();
        let crosses = |side: Side| {
            let moved = !self.moves[at][side as usize].put.is_disjoint(&self.out[side as usize]);
            moved && begins(side.other().into()) && !begins(Version::Base)
        };
        edit.is_conflict() && Side::BOTH.into_iter().any(crosses)
    }

    /// Whether both sides took lines out of a stretch that one of them put in elsewhere.
    fn part(&self, at: usize) -> bool {
        let [ours, theirs] = &self.moves[at];
        let mut by_both = ours.out.intersection(&theirs.out);
        by_both.any(|line| self.put_in.iter().any(|put_in| put_in.contains(line)))
    }

    /// For each place where the sides disagree and another one, between which a side moved lines, the first of all that
    /// hang together so.
    fn tied(&self, edits: &[Edit]) -> Vec<Option<usize>> {
        let mut first: Vec<usize> = (0..edits.len()).collect();
        let mut tied = vec![false; edits.len()];
        for side in Side::BOTH {
            let mut lines: HashMap<&[u8], [Vec<usize>; 2]> = HashMap::default();
            for at in (0..edits.len()).filter(|at| edits[*at].is_conflict()) {
                let Moves { out, put } = &self.moves[at][side as usize];
                out.iter().for_each(|line| lines.entry(line).or_default()[0].push(at));
                put.iter().for_each(|line| lines.entry(line).or_default()[1].push(at));
            }
            for [out, put] in lines.values().filter(|places| places.iter().all(|at| !at.is_empty())) {
                let together = || out.iter().chain(put).copied();
                for (a, b) in together().zip(together().skip(1)) {
                    let [a, b] = [a, b].map(|at| root(&mut first, at));
                    first[a.max(b)] = a.min(b);
                }
                together().for_each(|at| tied[at] = true);
            }
        }
        tied.iter().enumerate().map(|(at, tied)| tied.then(|| root(&mut first, at))).collect()
    }

    /// What each side put in by itself, where lines settled one of the two edits.
    fn doubled(&self, edits: &[Edit], open: &[bool]) -> Vec<Vec<u8>> {
        let put_by = |side: Side, settled: bool| -> HashSet<&[u8]> {
            let own = |(at, edit): &(usize, &Edit)| {
                (edit.is_conflict() || edit.by() == Some(side)) && !(settled && open[*at])
            };
            let own = edits.iter().enumerate().filter(own);
            own.flat_map(|(at, _)| &self.moves[at][side as usize].put).copied().collect()
        };
        let by_both = |side: Side| {
            let theirs = put_by(side.other(), false);
            let both = put_by(side, true).into_iter().filter(|line| theirs.contains(line)).map(<[u8]>::to_vec);
            both.collect::<Vec<_>>()
        };
        Side::BOTH.into_iter().flat_map(by_both).collect()
    }

    /// Whether lines that were put in or taken out where an edit is open were so in another that is not.
    fn cross(&self, open: &[bool]) -> bool {
        let (mut shut, mut left) = (Moves::default(), Moves::default());
        for (moves, open) in self.moves.iter().zip(open) {
            moves.iter().for_each(|moves| if *open { left.add(moves) } else { shut.add(moves) });
        }
        shut.crosses(&left) || !shut.put.is_disjoint(&left.put)
    }

    /// Opens what stands beside something open, blank lines and those of one text of several aside, if either moves lines
    /// further in or out: where a block begins and ends must be the same in both. And with blank lines alone between, if
    /// each side put in the same: it may be one thing.
    fn open_with_neighbours(&self, base: &[u8], edits: &[Edit], strings: &[String], open: &mut [bool]) {
        if open.windows(2).all(|pair| pair[0] == pair[1]) {
            return;
        }
        let between = |(above, below): (&Edit, &Edit)| &base[above.at.base.end..below.at.base.start];
        let mut together = Vec::with_capacity(edits.len());
        for (at, pair) in edits.iter().zip(edits.iter().skip(1)).enumerate() {
            let blank = between(pair).trim_ascii().is_empty();
            let beside = blank || in_a_text(&base[pair.0.at.base.clone()], strings);
            let shifted = self.shifts[at..=at + 1].iter().flatten().any(|lines| !lines.is_empty());
            let put = |at: usize, side: Side| &self.moves[at][side as usize].put;
            let alike = |side: Side| !put(at, side).is_disjoint(put(at + 1, side.other()));
            if beside && shifted || blank && Side::BOTH.into_iter().any(alike) {
                together.push(at);
            }
        }
        for at in together.iter().copied().chain(together.iter().copied().rev()) {
            let either = open[at] || open[at + 1];
            (open[at], open[at + 1]) = (either, either);
        }
    }
}

/// Whether a text of several lines begins in some lines, or ends, and goes on behind them.
fn in_a_text(lines: &[u8], strings: &[String]) -> bool {
    strings.iter().any(|quote| {
        let quote = quote.as_bytes();
        !quote.is_empty() && lines.windows(quote.len()).filter(|bytes| *bytes == quote).count() % 2 == 1
    })
}

/// The first of what hangs together with a place, if each but the first knows an earlier one.
fn root(first: &mut [usize], mut at: usize) -> usize {
    while first[at] != at {
        first[at] = first[first[at]];
        at = first[at];
    }
    at
}
