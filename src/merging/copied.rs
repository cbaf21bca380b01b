//! Entries that one side has elsewhere although nothing tells that they went there: in several places, or too far away.

use std::rc::Rc;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::combine::SAME_STATEMENT;
use super::lists::SAME_TOKENS;
use super::{Merger, Side};
use crate::matching::{Bags, dice, words};
use crate::syntax::{NodeId, Part, Tree};

/// From this size on, a statement in a definition that a side put in may be one that it took out elsewhere.
const SHORT_TOKENS: u32 = 3;

/// The entries that each side put in, by what they are and where.
pub(super) type PutIn = [HashMap<(u64, Place), Vec<NodeId>>; 2];

/// Where a side put an entry in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Place {
    /// In a definition of base's, or in none.
    In(Option<NodeId>),
    /// In a definition that the side put in too.
    InNew,
}

impl Merger<'_, '_> {
    /// Whether a side that took a base entry out put the same in elsewhere in the definition that it stood in: it may have
    /// moved it, or put it into several branches.
    pub(super) fn has_anew(&self, side: Side, base: NodeId) -> bool {
        !self.same_put_in(side, base).is_empty()
    }

    /// What a side put in elsewhere, in the definition that a base entry stood in, that is the same.
    fn same_put_in(&self, side: Side, base: NodeId) -> &[NodeId] {
        let place = || Place::In(self.trees.base.definition_around(base));
        if is_told(&self.trees.base, base) { self.put_in_at(side, base, place()) } else { &[] }
    }

    /// Whether a side put the same as a base entry in outside of some entries of its own: in the definition that it stood
    /// in, or in one that it put in too.
    pub(super) fn has_apart_from(&self, side: Side, base: NodeId, own: &[NodeId]) -> bool {
        let apart = |n: &NodeId| !own.iter().any(|entry| self.tree(side).contains(*entry, *n));
        self.same_put_in(side, base).iter().chain(self.put_in_at(side, base, Place::InNew)).any(apart)
    }

    fn put_in_at(&self, side: Side, base: NodeId, place: Place) -> &[NodeId] {
        let (tree, known) = (&self.trees.base, self.put_in.get_or_init(|| Side::BOTH.map(|side| self.put_in_by(side))));
        known[side as usize].get(&(tree.core_hash(base), place)).map_or(&[], Vec::as_slice)
    }

    /// The statements of base that one side changed and the other side put into several branches: what the one did to
    /// them may be meant for each of those. A name that is another now is seen to wherever it stands.
    pub(super) fn copied_into_branches(&self) -> HashSet<NodeId> {
        let base = &self.trees.base;
        let told = |id: &NodeId| base.is_statement(*id) && base.size(*id) >= SAME_TOKENS;
        let into_branches = |id: NodeId, side: Side| {
            let (own, edited) = (self.to_side(side, id), self.to_side(side.other(), id));
            let (Some(own), Some(edited)) = (own, edited) else { return false };
            self.changed(side.other(), id, edited)
                && self.stands_in_a_new_branch(side, id, own, edited)
                && !self.only_renamed(side.other(), id, edited)
        };
        let all = (0..base.len() as u32).map(NodeId).filter(told);
        all.filter(|id| Side::BOTH.into_iter().any(|side| into_branches(*id, side))).collect()
    }

    /// Whether a branch that a side put in beside the one that a statement of base is in now has much the same statement,
    /// with all that the other side's version of it does not have any more.
    fn stands_in_a_new_branch(&self, side: Side, base: NodeId, node: NodeId, edited: NodeId) -> bool {
        let tree = self.tree(side);
        // Signs alone make nothing the same: any two calls have brackets.
        let said = |tree: &Tree<'_>, entry: NodeId| -> Rc<[u64]> {
            let mut said: Vec<u64> = words(tree.node_text(tree.node(entry).core)).collect();
            said.sort_unstable();
            said.into()
        };
        let (mut bags, mut others, mut edits) = (Bags::default(), Bags::default(), Bags::default());
        let mut same = |copy: NodeId| {
            if self.to_base(side, copy).is_some() || tree.core_kind(copy) != tree.core_kind(node) {
                return false;
            }
            let old = bags.whole(&self.trees.base, base);
            let (new, copied) = (edits.whole(self.tree(side.other()), edited), others.whole(tree, copy));
            let mut lost = old.iter().filter(|token| new.binary_search(token).is_err());
            lost.all(|token| copied.binary_search(token).is_ok())
                && dice(&old, &copied) >= SAME_STATEMENT
                && dice(&said(&self.trees.base, base), &said(tree, copy)) >= SAME_STATEMENT
        };
        let block = tree.node(node).parent;
        let statement = tree.outward(block).skip(1).find(|n| !tree.is_block(*n) && tree.branches(*n).len() > 1);
        let branches: Vec<NodeId> =
            statement.into_iter().flat_map(|n| tree.branches(n)).map(|(_, block)| block).collect();
        let is_new = |block: NodeId| self.to_base(side, block).is_none();
        let new = |other: &&NodeId| **other != block && (is_new(**other) || is_new(block));
        branches.contains(&block)
            && branches.iter().filter(new).any(|other| tree.part(*other, Part::Entry).iter().any(|entry| same(*entry)))
    }

    fn put_in_by(&self, side: Side) -> HashMap<(u64, Place), Vec<NodeId>> {
        let tree = self.tree(side);
        // In a definition that is new, little will do.
        let short = |id: NodeId| tree.is_statement(id) && !tree.is_comment(id) && tree.size(id) >= SHORT_TOKENS;
        let new = |id: &NodeId| self.to_base(side, *id).is_none() && (is_told(tree, *id) || short(*id));
        let place = |id: NodeId| match tree.definition_around(id).map(|definition| self.to_base(side, definition)) {
            Some(None) => Place::InNew,
            known => Place::In(known.flatten()),
        };
        let mut found: HashMap<(u64, Place), Vec<NodeId>> = HashMap::default();
        for id in (0..tree.len() as u32).map(NodeId).filter(new) {
            found.entry((tree.core_hash(id), place(id))).or_default().push(id);
        }
        found
    }
}

/// Whether an entry says enough to be known by it.
fn is_told(tree: &Tree<'_>, id: NodeId) -> bool {
    tree.node(id).part == Part::Entry && !tree.is_comment(id) && (tree.size(id) >= SAME_TOKENS || tree.tells(id))
}
