//! Statements that went into what stands beside them, where one side put something around that.

use std::cell::LazyCell;
use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::hunks::Hunk;
use super::lists::Work;
use super::units::{Form, Unit};
use super::{Merger, Side, Versions};
use crate::grammar::{ListRule, words};
use crate::syntax::{NodeId, Part, Token, Tree};

impl Merger<'_, '_> {
    /// Whether what a side has in a unit's place holds some of the unit's entries.
    pub(super) fn took_in_too(&self, work: &Work<'_>, unit: &Unit, side: Side) -> bool {
        let Some(range) = &unit.sides[side as usize] else { return false };
        let own = &work.seqs.get(side)[range.clone()];
        let had = |node: NodeId| self.to_base(side, node).is_some();
        let holds = |n: NodeId| own.iter().any(|node| *node != n && had(*node) && self.tree(side).contains(*node, n));
        work.seqs.base[unit.base.clone()].iter().filter_map(|b| self.to_side(side, *b)).any(holds)
    }

    /// Whether a side has some of a run's statements elsewhere: what the other side put around the run was to be around
    /// those too. What may stand anywhere is what it was there.
    pub(super) fn sent_away(&self, work: &Work<'_>, unit: &Unit, side: Side) -> bool {
        let Some(range) = &unit.sides[side as usize] else { return false };
        let own = &work.seqs.get(side)[range.clone()];
        let lines = work.part == Part::Entry && work.policy.is_some_and(|p| p.lines);
        let bound = |b: &&NodeId| !self.trees.base.entry_rule(**b).is_some_and(|rule| rule.free);
        let elsewhere = |b: &NodeId| match self.to_side(side, *b) {
            Some(n) => {
                work.seqs.get(side).binary_search(&n).is_err() && !own.iter().any(|o| self.tree(side).contains(*o, n))
            }
            None => self.has_apart_from(side, *b, own),
        };
        lines && work.seqs.base[unit.base.clone()].iter().filter(bound).any(elsewhere)
    }

    /// Whether the other side has, around something that is not known to be base's, just what a side put around that: it
    /// would stand twice.
    pub(super) fn has_the_same_around(&self, work: &Work<'_>, unit: &Unit, side: Side) -> bool {
        let place = |side: Side| unit.sides[side as usize].clone().map(|range| &work.seqs.get(side)[range]);
        let (Some(&[wrapper]), Some(other)) = (place(side), place(side.other())) else { return false };
        let base = &work.seqs.base[unit.base.clone()];
        let held = base.iter().filter_map(|b| self.to_side(side, *b));
        let tree = self.tree(side);
        let (start, end) = held.fold((u32::MAX, 0), |(start, end), node| {
            let tokens = tree.node(node).tokens;
            (start.min(tokens.0), end.max(tokens.1))
        });
        let outer = tree.node(wrapper).tokens;
        if !(outer.0 <= start && start < end && end <= outer.1) {
            return false;
        }
        let (before, behind) =
            (&tree.tokens[outer.0 as usize..start as usize], &tree.tokens[end as usize..outer.1 as usize]);
        let around = |tree: &Tree<'_>, nodes: &[NodeId]| {
            let (Some(first), Some(last)) = (nodes.first(), nodes.last()) else { return false };
            let all = &tree.tokens[tree.node(*first).tokens.0 as usize..tree.node(*last).tokens.1 as usize];
            let same = |x: &[Token], y: &[Token]| x.len() == y.len() && x.iter().zip(y).all(|(x, y)| x.hash == y.hash);
            all.len() > before.len() + behind.len()
                && same(&all[..before.len()], before)
                && same(&all[all.len() - behind.len()..], behind)
        };
        around(self.tree(side.other()), other) && !around(&self.trees.base, base)
    }

    /// Whether one side put something around statements, and the other changed the first or the last of them and put
    /// right beside it what says more of the old one than else: it made two of one, and both belong in there.
    pub(super) fn parted_beside(&self, seqs: &Versions<&[NodeId]>, units: &[Unit], hunks: &[Hunk]) -> bool {
        units.iter().enumerate().any(|(u, unit)| {
            let Form::Wrapped(side) = unit.form else { return false };
            let other = side.other();
            let Some(own) = unit.sides[other as usize].clone().map(|range| &seqs.get(other)[range]) else {
                return false;
            };
            let base = &seqs.base[unit.base.clone()];
            let parted = |base: Option<&NodeId>, own: Option<&NodeId>, at: usize| {
                let Some((base, own)) = base.zip(own) else { return false };
                if self.to_side(other, *base) != Some(*own) || !self.changed(other, *base, *own) {
                    return false;
                }
                let old: HashSet<&[u8]> = words(self.trees.base.node_text(*base)).collect();
                let taken = |entry: &NodeId| {
                    let (known, new): (Vec<&[u8]>, Vec<&[u8]>) =
                        words(self.tree(other).node_text(*entry)).partition(|word| old.contains(word));
                    known.len() > new.len() && !self.tree(other).is_comment(*entry)
                };
                let mut here = hunks.iter().filter(|h| h.side == other && h.units.start <= at && at <= h.units.end);
                here.any(|h| seqs.get(other)[h.put_in.clone()].iter().any(taken))
            };
            parted(base.first(), own.first(), u) || parted(base.last(), own.last(), u + 1)
        })
    }

    /// Whether one side put something around all statements of a list, and the other put a statement in before the first or
    /// behind the last of them: nobody can tell whether it belongs in there.
    pub(super) fn put_in_at_an_end(
        &self,
        seqs: &Versions<&[NodeId]>,
        units: &[Unit],
        hunks: &[Hunk],
        policy: Option<&'static ListRule>,
    ) -> bool {
        let base = &self.trees.base;
        let remark = base.first_remark(seqs.base);
        let is_code = |n: &NodeId| !base.is_comment(*n) && remark != Some(*n);
        units.iter().enumerate().any(|(u, unit)| {
            let Form::Wrapped(side) = unit.form else { return false };
            let (before, behind) = (&seqs.base[..unit.base.start], &seqs.base[unit.base.end..]);
            let several = seqs.base[unit.base.clone()].iter().filter(|n| is_code(n)).nth(1).is_some();
            let there = side.other();
            let needs_a_place = |n: &NodeId| {
                !self.tree(there).is_comment(*n)
                    && !self.is_first_remark(seqs, there, *n)
                    && !self.is_independent(there, *n, policy)
            };
            let at_an_end = |h: &Hunk| {
                h.side == there
                    && h.units.is_empty()
                    && (u..=u + 1).contains(&h.units.start)
                    && seqs.get(there)[h.put_in.clone()].iter().any(needs_a_place)
            };
            several && !before.iter().chain(behind).any(is_code) && hunks.iter().any(at_an_end)
        })
    }

    /// A unit, with the statements beside it that the other side put into what it has of it: these would be in what `side`
    /// put around the unit alone.
    pub(super) fn took_in_beside(&self, work: &Work<'_>, unit: usize, side: Side) -> Range<usize> {
        let other = side.other();
        let alone = unit..unit + 1;
        let Some(range) = &work.units[unit].sides[other as usize] else { return alone };
        let own = &work.seqs.get(other)[range.clone()];
        let (base, tree) = (&self.trees.base, self.tree(other));
        // What is too short to be followed there is known by all that it says.
        let new = LazyCell::new(|| {
            let inside = own.iter().flat_map(|o| (o.0 + 1..tree.node(*o).end.0).map(NodeId));
            let new = inside.filter(|n| tree.is_statement(*n) && self.to_base(other, *n).is_none());
            new.map(|n| tree.core_hash(n)).collect::<HashSet<u64>>()
        });
        let taken = |u: &usize| {
            let Unit { base: place, sides, .. } = &work.units[*u];
            let entry = work.seqs.base[place.start];
            sides[other as usize].is_none()
                && match self.to_side(other, entry) {
                    Some(n) => own.iter().any(|o| tree.contains(*o, n)),
                    None => new.contains(&base.core_hash(entry)),
                }
        };
        let plain = |u: usize| base.is_comment(work.seqs.base[work.units[u].base.start]);
        let stays = |u: &usize| work.units[*u].sides[side as usize].is_some();
        let start = (0..unit).rev().take_while(taken).take_while(stays).last().unwrap_or(unit);
        let end = (unit + 1..work.units.len()).take_while(taken).take_while(stays).last().unwrap_or(unit);
        if (start..end + 1).any(|u| u != unit && !plain(u)) { start..end + 1 } else { alone }
    }

    /// Counts what both sides put in right beside a run with the run, where one of them has it in what it put around that,
    /// or the other in what it took off: else it would stand in there, and once more beside it.
    pub(super) fn take_along(&self, seqs: &Versions<&[NodeId]>, units: &mut [Unit]) {
        for u in 0..units.len() {
            let (around, beside) = match units[u].form {
                Form::Wrapped(side) => (side, side.other()),
                Form::Unwrapped(side) => (side.other(), side),
                _ => continue,
            };
            let Some(range) = units[u].sides[beside as usize].clone() else { continue };
            let Some(inside) = self.put_around(seqs, &units[u], around) else { continue };
            let (own, tree) = (seqs.get(beside), self.tree(beside));
            let in_a_unit =
                |at: usize| units.iter().any(|u| u.sides[beside as usize].as_ref().is_some_and(|r| r.contains(&at)));
            let same = |(at, inner): &(usize, &NodeId)| {
                tree.core_hash(own[*at]) == self.tree(around).core_hash(**inner)
                    && self.to_base(beside, own[*at]).is_none()
                    && !in_a_unit(*at)
            };
            let known = |inner: &&NodeId| self.to_base(around, **inner).is_some();
            let before = inside.iter().position(|inner| known(&inner)).unwrap_or(0);
            let behind = inside.iter().rposition(|inner| known(&inner)).map_or(inside.len(), |last| last + 1);
            let ahead = (0..range.start).rev().zip(inside[..before].iter().rev());
            let start = ahead.take_while(same).last().map_or(range.start, |(at, _)| at);
            let along = (range.end..own.len()).zip(&inside[behind..]);
            let end = along.take_while(same).last().map_or(range.end, |(at, _)| at + 1);
            units[u].sides[beside as usize] = Some(start..end);
        }
    }

    /// What stands in the list that a side put around a unit's run, or has still around it.
    fn put_around(&self, seqs: &Versions<&[NodeId]>, unit: &Unit, side: Side) -> Option<&[NodeId]> {
        let base = &seqs.base[unit.base.clone()];
        let tree = self.tree(side);
        let list = match unit.form {
            Form::Wrapped(_) => tree.node(base.iter().find_map(|b| self.to_side(side, *b))?).parent,
            _ => {
                let own = &seqs.get(side.other())[unit.sides[side.other() as usize].clone()?];
                let held = own.iter().find_map(|n| self.to_base(side.other(), *n))?;
                tree.node(self.to_side(side, held)?).parent
            }
        };
        // Taken off by both, it is in none.
        let around = seqs.get(side).iter().all(|n| tree.node(*n).parent != list);
        tree.list_rule(list).filter(|rule| rule.lines && around).map(|_| tree.part(list, Part::Entry))
    }
}
