//! Arguments, and the like, that one side put into another order.

use rustc_hash::FxHashSet as HashSet;

use super::hunks::Hunk;
use super::units::Unit;
use super::{Merger, Side, Versions};
use crate::syntax::NodeId;

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
}
