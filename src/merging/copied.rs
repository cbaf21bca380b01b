//! Entries that one side has elsewhere although nothing tells that they went there: in several places, or too far away.

use rustc_hash::FxHashSet as HashSet;

use super::lists::SAME_TOKENS;
use super::{Merger, Side};
use crate::syntax::{NodeId, Part, Tree};

/// What the entries are that each side put in, and in which of base's definitions.
pub(super) type PutIn = [HashSet<(u64, Option<NodeId>)>; 2];

impl Merger<'_, '_> {
    /// Whether a side that took a base entry out put the same in elsewhere in the definition that it stood in: it may have
    /// moved it, or put it into several branches.
    pub(super) fn has_anew(&self, side: Side, base: NodeId) -> bool {
        let (tree, known) = (&self.trees.base, self.put_in.get_or_init(|| Side::BOTH.map(|side| self.put_in_by(side))));
        is_told(tree, base) && known[side as usize].contains(&(tree.core_hash(base), tree.definition_around(base)))
    }

    fn put_in_by(&self, side: Side) -> HashSet<(u64, Option<NodeId>)> {
        let tree = self.tree(side);
        let new = |id: &NodeId| self.to_base(side, *id).is_none() && is_told(tree, *id);
        let around = |id: NodeId| {
            let definition = tree.definition_around(id);
            definition.map_or(Some(None), |definition| self.to_base(side, definition).map(Some))
        };
        let all = (0..tree.len() as u32).map(NodeId).filter(new);
        all.filter_map(|id| Some((tree.core_hash(id), around(id)?))).collect()
    }
}

/// Whether an entry says enough to be known by it.
fn is_told(tree: &Tree<'_>, id: NodeId) -> bool {
    tree.node(id).part == Part::Entry && !tree.is_comment(id) && (tree.size(id) >= SAME_TOKENS || tree.tells(id))
}
