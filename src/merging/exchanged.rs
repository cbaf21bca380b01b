//! Arguments, and the like, that one side put into another order, and branches that it exchanged.

use rustc_hash::FxHashSet as HashSet;

use super::hunks::Hunk;
use super::units::Unit;
use super::{Merger, Side, Versions};
use crate::grammar::ListRule;
use crate::syntax::{NodeId, Tree};

/// What leads to each branch of a statement.
fn led_by(tree: &Tree<'_>, node: NodeId) -> Vec<Vec<u64>> {
    let heads = |(clause, _): (NodeId, NodeId)| tree.head(clause).iter().map(|n| tree.node(*n).hash).collect();
    tree.branches(node).into_iter().map(heads).collect()
}

impl Merger<'_, '_> {
    /// Whether a side put entries that are known by their places alone into another order, and the other side did more
    /// than to change some of them: put others in, took some out, or one into another's place.
    pub(super) fn is_exchanged(&self, seqs: &Versions<&[NodeId]>, units: &[Unit], hunks: &[Hunk], side: Side) -> bool {
        let (base, there) = (&self.trees.base, self.tree(side.other()));
        let placed = |unit: &&Unit| {
            let entry = seqs.base[unit.base.start];
            let free = base.entry_rule(entry).is_some_and(|r| r.free);
            unit.moved[side as usize] && !free && !base.tells(entry)
        };
        if !units.iter().any(|unit| placed(&unit)) {
            return false;
        }
        let known: HashSet<u64> = seqs.base.iter().map(|n| base.core_hash(*n)).collect();
        let took_a_place = |unit: &Unit| {
            let Some(place) = &unit.sides[side.other() as usize] else { return true };
            let (old, new) = (seqs.base[unit.base.start], seqs.get(side.other())[place.start]);
            let hash = there.core_hash(new);
            base.core_hash(old) != hash && known.contains(&hash)
        };
        hunks.iter().any(|h| h.side != side) || units.iter().any(took_a_place)
    }

    /// Whether a side moved entries known by their places alone to another list, and the other side put one in that
    /// stands beside none of those that stayed: whether it went with them, nobody can tell.
    pub(super) fn put_in_where_all_left(
        &self,
        seqs: &Versions<&[NodeId]>,
        units: &[Unit],
        hunks: &[Hunk],
        side: Side,
        policy: Option<&'static ListRule>,
    ) -> bool {
        let left = |unit: &Unit| {
            let base = seqs.base[unit.base.start];
            unit.sides[side as usize].is_none() && (self.to_side(side, base).is_some() || self.has_anew(side, base))
        };
        hunks.iter().filter(|h| h.side != side && h.units.is_empty()).any(|hunk| {
            let beside = [hunk.units.start.checked_sub(1), Some(hunk.units.end)];
            let mut beside = beside.into_iter().flatten().filter_map(|u| units.get(u)).peekable();
            let put_in = &seqs.get(hunk.side)[hunk.put_in.clone()];
            beside.peek().is_some()
                && beside.all(left)
                && put_in.iter().any(|n| !self.is_independent(hunk.side, *n, policy))
        })
    }

    /// Whether a side exchanged branches of a statement, and the other side changed what leads to one of them, put one in
    /// or took one out: neither condition says anything of the other's branches.
    pub(super) fn at_odds_over_branches(&self, base: NodeId, ours: NodeId, theirs: NodeId) -> bool {
        // What lists statements has none: they stand beside one another.
        if self.trees.base.is_block(base) {
            return false;
        }
        let old = self.trees.base.branches(base);
        if old.len() < 2 || led_by(&self.trees.ours, ours) == led_by(&self.trees.theirs, theirs) {
            return false;
        }
        let exchanged = |side: Side, own: NodeId| {
            let new = self.tree(side).branches(own);
            let there = |block| self.to_side(side, block).and_then(|n| new.iter().position(|(_, block)| *block == n));
            !old.iter().filter_map(|(_, block)| there(*block)).is_sorted()
        };
        let of = |side: Side| if side == Side::Ours { ours } else { theirs };
        let changed = |side: Side| led_by(&self.trees.base, base) != led_by(self.tree(side), of(side));
        Side::BOTH.into_iter().any(|side| exchanged(side, of(side)) && changed(side.other()))
    }
}
