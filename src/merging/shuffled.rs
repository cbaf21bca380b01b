//! Statements that both sides put into other orders, or that one side moved while the other put something around them:
//! whether one order has all that each side changed.

use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::turned::COMPARED;
use super::units::{Fate, Fates};
use super::{Merger, Side, Versions};
use crate::syntax::NodeId;

impl Merger<'_, '_> {
    /// Stretches of base in which the sides moved statements in ways that do not go together.
    ///
    /// A pair of statements that one side put into the other order is in that order in the answer. If no order has all
    /// such pairs so, if both sides moved one statement to different places, or if one side put something around
    /// statements of which the other moved some away, or others between them, nobody can tell what is meant. Nor, if one
    /// side turned over two statements of which the other made one use what the other names.
    pub(super) fn shuffled(&mut self, seqs: &Versions<&[NodeId]>, fates: &[Fates; 2]) -> Vec<Range<usize>> {
        let in_order = fates.each_ref().map(|f| f.place.iter().flatten().is_sorted());
        let wraps = fates.iter().any(|f| f.taken_in.iter().any(Option::is_some));
        if in_order == [true; 2] && !wraps {
            return Vec::new();
        }
        let mut unsettled: [HashSet<NodeId>; 2] = Default::default();
        let mut shuffled = |stretch: &Range<usize>| {
            let mut found = (wraps || in_order == [false; 2]) && self.is_shuffled(seqs, fates, stretch.clone());
            for side in Side::BOTH.into_iter().filter(|side| !in_order[*side as usize]) {
                let new = &mut unsettled[side.other() as usize];
                found |= self.turned_over_use(seqs, fates, side, stretch.clone(), new);
            }
            found
        };
        let shuffled = stretches(seqs.base.len(), fates).into_iter().filter(|s| shuffled(s)).collect();
        self.unsettled.iter_mut().zip(unsettled).for_each(|(all, new)| all.extend(new));
        shuffled
    }

    fn is_shuffled(&self, seqs: &Versions<&[NodeId]>, fates: &[Fates; 2], stretch: Range<usize>) -> bool {
        let base = &self.trees.base;
        let ordered = |i: &usize| {
            let entry = seqs.base[*i];
            !base.entry_rule(entry).is_some_and(|r| r.free) && !base.is_comment(entry)
        };
        let places = |i: &usize| Some([fates[0].place[*i]?.0, fates[1].place[*i]?.0]);
        let both: Vec<(usize, [usize; 2])> =
            stretch.clone().filter(ordered).filter_map(|i| Some((i, places(&i)?))).collect();
        both.len() <= COMPARED && !agree(&both, fates)
            || Side::BOTH.into_iter().any(|side| self.parts_a_run(seqs, fates, side, stretch.clone()))
    }

    /// Whether the other side moved away some of the statements that a side put something around, or put others that
    /// base has between them.
    fn parts_a_run(&self, seqs: &Versions<&[NodeId]>, fates: &[Fates; 2], side: Side, stretch: Range<usize>) -> bool {
        let (own, other) = (&fates[side as usize], &fates[side.other() as usize]);
        let mut at = stretch.start;
        while at < stretch.end {
            let start = at;
            at += 1;
            let Some(wrapper) = own.taken_in[start] else { continue };
            for i in at..stretch.end {
                match own.taken_in[i] {
                    Some(w) if w == wrapper => at = i + 1,
                    Some(_) => break,
                    None => {}
                }
            }
            let run = || (start..at).filter(|i| own.taken_in[*i].is_some());
            let there = || run().filter_map(|i| other.place[i]);
            let (Some(first), Some(last)) = (there().map(|p| p.0).min(), there().map(|p| p.1).max()) else {
                return true;
            };
            let tree = self.tree(side.other());
            let (start_of, end_of) = (seqs.get(side.other())[first], tree.node(seqs.get(side.other())[last]).end);
            let left = |i: usize| {
                let moved = self.to_side(side.other(), seqs.base[i]).filter(|_| other.place[i].is_none());
                moved.is_some_and(|node| node < start_of || end_of <= node)
            };
            // What the other side put around all of it, and more, has the order of that inside.
            let around = run().map(|i| other.taken_in[i]).reduce(|w, v| w.filter(|_| w == v)).flatten();
            let between = |i: &usize| {
                !(start..at).contains(i)
                    && (around.is_none() || other.taken_in[*i] != around)
                    && other.place[*i].is_some_and(|(from, to)| from <= last && first <= to)
            };
            if run().any(left) || stretch.clone().any(|i| between(&i)) {
                return true;
            }
        }
        false
    }
}

/// Stretches of base that neither side mixed with others, of more than one entry.
fn stretches(length: usize, fates: &[Fates; 2]) -> Vec<Range<usize>> {
    let mut apart = vec![true; length + 1];
    for f in fates {
        // The first place of what stands behind, for each entry.
        let mut first = vec![usize::MAX; length + 1];
        for i in (0..length).rev() {
            first[i] = f.place[i].map_or(first[i + 1], |(from, _)| from.min(first[i + 1]));
        }
        let mut last = None;
        for i in 0..length {
            apart[i] &= last.is_none_or(|last| last < first[i]);
            last = last.max(f.place[i].map(|(_, to)| to));
        }
    }
    let ends: Vec<usize> = (0..=length).filter(|i| apart[*i]).collect();
    ends.windows(2).map(|w| w[0]..w[1]).filter(|stretch| stretch.len() > 1).collect()
}

/// Whether an order of some entries has all pairs that a side turned over turned over, and no others, and no entry was
/// moved by both sides to different places.
fn agree(entries: &[(usize, [usize; 2])], fates: &[Fates; 2]) -> bool {
    let turned = |x: usize, y: usize, side: usize| {
        let (first, second) = (x.min(y), x.max(y));
        entries[first].1[side] > entries[second].1[side]
    };
    // How many stand before each. Of a relation between all pairs, these are different numbers if and only if it is an
    // order (H. G. Landau, "On dominance relations and the structure of animal societies III", 1953).
    let mut before = vec![false; entries.len()];
    for x in 0..entries.len() {
        let (mut rank, mut same) = (0, true);
        for y in (0..entries.len()).filter(|y| *y != x) {
            let by = [turned(x, y, 0), turned(x, y, 1)];
            same &= by[0] == by[1];
            rank += usize::from((y < x) != (by[0] || by[1]));
        }
        let moved = fates.iter().all(|f| f.of_base[entries[x].0] == Fate::Moved);
        if moved && !same || std::mem::replace(&mut before[rank], true) {
            return false;
        }
    }
    true
}
