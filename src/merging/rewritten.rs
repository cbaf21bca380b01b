//! Statements that one side rewrote, with the statements beside them that went into them.

use std::ops::Range;

use super::hunks::Hunk;
use super::lists::Work;
use super::pieces::{Content, Item};
use super::units::Form;
use super::{Merger, Side};
use crate::Version;
use crate::syntax::Part;

impl Merger<'_, '_> {
    /// Widens a dispute over a statement for which one side has another kind of statement: nobody can tell which of
    /// those that it took out right beside it are in that one now. So they stand in the other reading as they did
    /// (contract K9): a loop that one side made an expression goes with the variable that it filled.
    ///
    /// And puts a statement, or a clause, in dispute that the other side changed where one side made one of it and of
    /// those beside it: what was changed in the one would hold for all of them.
    ///
    /// `unit` is the statement's number in `work`, `item` what came of it.
    pub(super) fn with_what_went_into_it(&self, work: &Work<'_>, unit: usize, item: &mut Item) {
        let lines = work.part == Part::Entry && work.policy.is_some_and(|p| p.lines);
        let rewrote = |side: &Side| {
            let run = || self.gone_beside(work, unit, *side);
            lines && item.disputed() && self.rewrote(work, unit, *side) && !self.rewrote(work, unit, side.other())
                || lines && item.disputed() && self.spread(work, unit, *side)
                || self.differs(work, &work.units[unit], side.other()) && self.took_heads_in(work, unit, *side, &run())
        };
        let Some(side) = Side::BOTH.into_iter().find(rewrote) else { return };
        let run = self.gone_beside(work, unit, side);
        if run.len() > 1 {
            *item = self.dispute_with(work, unit, &run, side.other());
        }
    }

    /// Whether a side put what one of the units beside a unit begins with, such as its condition, into the head of that
    /// unit, among a run of units that it took out.
    fn took_heads_in(&self, work: &Work<'_>, unit: usize, side: Side, run: &Range<usize>) -> bool {
        let Some(own) = work.units[unit].sides[side as usize].clone() else { return false };
        let entry = |u: usize| work.seqs.base[work.units[u].base.start];
        run.clone()
            .filter(|u| *u != unit)
            .any(|u| self.took_head_in(entry(u), entry(unit), side, work.seqs.get(side)[own.start]))
    }

    /// A dispute over a unit, in which base and one side have a run of units around it.
    pub(super) fn dispute_with(&self, work: &Work<'_>, unit: usize, run: &Range<usize>, has_run: Side) -> Item {
        let mut item = self.dispute_copies(work, &work.units[unit]);
        let Content::Dispute(sides) = &mut item.content else { return item };
        let base = |u: usize| Some(work.seqs.base[work.units[u].base.start]);
        let kept = |u: usize| Some(work.seqs.get(has_run)[work.units[u].sides[has_run as usize].clone()?.start]);
        for version in [Version::Base, has_run.into()] {
            let node = |u: usize| if version == Version::Base { base(u) } else { kept(u) };
            let copies = |units: Range<usize>| units.filter_map(node).map(|n| Item::copy(version, n, work.part));
            let items = sides.get_mut(version);
            items.splice(0..0, copies(run.start..unit));
            items.extend(copies(unit + 1..run.end));
            let edges = item.edges.get_mut(version);
            let (first, last) = (edges.map(|(first, _)| first), edges.map(|(_, last)| last));
            let first = if run.start < unit { node(run.start) } else { first };
            *edges = first.zip(if run.end > unit + 1 { node(run.end - 1) } else { last });
        }
        item
    }

    /// Whether a side has another kind of statement in a unit's place.
    fn rewrote(&self, work: &Work<'_>, unit: usize, side: Side) -> bool {
        let unit = &work.units[unit];
        let Some(range) = &unit.sides[side as usize] else { return false };
        let (base, own) = (work.seqs.base[unit.base.start], work.seqs.get(side)[range.start]);
        unit.form == Form::Single
            && !self.is_independent(side, own, work.policy)
            && self.trees.base.core_kind(base) != self.tree(side).core_kind(own)
    }

    /// Whether a side put a statement beside a unit into all branches of that.
    fn spread(&self, work: &Work<'_>, unit: usize, side: Side) -> bool {
        let unit = &work.units[unit];
        let own = unit.sides[side as usize].clone().filter(|_| unit.form == Form::Single);
        own.is_some_and(|own| {
            self.put_into_branches(work.seqs.base[unit.base.start], side, work.seqs.get(side)[own.start])
        })
    }

    /// A unit, and those right beside it that a side took out and the other left as they were.
    fn gone_beside(&self, work: &Work<'_>, unit: usize, side: Side) -> Range<usize> {
        let (own, other) = (side as usize, side.other() as usize);
        let gone = |u: usize| {
            let unit = &work.units[u];
            let Some(kept) = &unit.sides[other] else { return false };
            let base = work.seqs.base[unit.base.start];
            unit.form == Form::Single
                && !self.is_independent(side.other(), work.seqs.get(side.other())[kept.start], work.policy)
                && unit.sides[own].is_none()
                && unit.moved == [false; 2]
                && !self.changed(side.other(), base, work.seqs.get(side.other())[kept.start])
        };
        // Where something was put in between, it is not one place any more.
        let put_in = |at: usize| {
            let here = |h: &Hunk| !h.put_in.is_empty() && h.units.start <= at && at <= h.units.end;
            work.hunks.iter().any(here)
        };
        let start = (0..unit).rev().take_while(|u| gone(*u) && !put_in(*u + 1)).last().unwrap_or(unit);
        let end = (unit + 1..work.units.len()).take_while(|u| gone(*u) && !put_in(*u)).last().unwrap_or(unit);
        start..end + 1
    }
}
