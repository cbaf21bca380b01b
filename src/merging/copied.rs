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

/// The entries that each side put in, by what they are, with where.
pub(super) type PutIn = [HashMap<u64, Vec<(Place, NodeId)>>; 2];

/// Where a side put an entry in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
        let old = &self.trees.base;
        let around = is_told(old, base).then(|| Place::In(old.definition_around(base)));
        self.same_in(side, old.core_hash(base)).iter().any(|(place, _)| around == Some(*place))
    }

    /// Whether a side put the same as a base entry in outside of some entries of its own: in the definition that it stood
    /// in, or in one that it put in too.
    pub(super) fn has_apart_from(&self, side: Side, base: NodeId, own: &[NodeId]) -> bool {
        let old = &self.trees.base;
        let around = is_told(old, base).then(|| Place::In(old.definition_around(base)));
        let apart = |n: NodeId| !own.iter().any(|entry| self.tree(side).contains(*entry, n));
        let there = |place: Place| place == Place::InNew || around == Some(place);
        self.same_in(side, old.core_hash(base)).iter().any(|(place, n)| there(*place) && apart(*n))
    }

    /// What of the other side's is an entry that a side put in beside one of base's, if that went elsewhere with it there:
    /// it stands once, where it went.
    pub(super) fn went_along(&self, side: Side, node: NodeId) -> Option<NodeId> {
        let hash = self.tree(side).core_hash(node);
        let all = self.same_in(side.other(), hash).iter().map(|(_, n)| *n);
        let mut same = all.filter(|n| [true, false].into_iter().any(|behind| self.went_beside(side, node, *n, behind)));
        same.next().filter(|_| same.next().is_none())
    }

    /// Whether, before or behind what both sides put in, both have the same, up to something of base's that the side has
    /// where base has it, and the other side elsewhere.
    fn went_beside(&self, side: Side, node: NodeId, there: NodeId, behind: bool) -> bool {
        let other = side.other();
        let (base, own, tree) = (&self.trees.base, self.tree(side), self.tree(other));
        for (x, y) in own.beside(node, behind).zip(tree.beside(there, behind)) {
            if own.core_hash(x) != tree.core_hash(y) || own.is_comment(x) {
                return false;
            }
            let Some(old) = self.to_base(side, x) else { continue };
            let list = base.node(old).parent;
            let stayed = |side: Side, n: NodeId| self.to_base(side, self.tree(side).node(n).parent) == Some(list);
            let is_it = match self.to_side(other, old) {
                Some(n) => n == y,
                None => self.to_base(other, y).is_none(),
            };
            return is_it && stayed(side, x) && !stayed(other, y);
        }
        false
    }

    /// What a side put in that says just this, with where.
    fn same_in(&self, side: Side, hash: u64) -> &[(Place, NodeId)] {
        let known = self.put_in.get_or_init(|| Side::BOTH.map(|side| self.put_in_by(side)));
        known[side as usize].get(&hash).map_or(&[], Vec::as_slice)
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

    fn put_in_by(&self, side: Side) -> HashMap<u64, Vec<(Place, NodeId)>> {
        let tree = self.tree(side);
        // In a definition that is new, little will do.
        let short = |id: NodeId| tree.is_statement(id) && !tree.is_comment(id) && tree.size(id) >= SHORT_TOKENS;
        let new = |id: &NodeId| self.to_base(side, *id).is_none() && (is_told(tree, *id) || short(*id));
        let place = |id: NodeId| match tree.definition_around(id).map(|definition| self.to_base(side, definition)) {
            Some(None) => Place::InNew,
            known => Place::In(known.flatten()),
        };
        let mut found: HashMap<u64, Vec<(Place, NodeId)>> = HashMap::default();
        for id in (0..tree.len() as u32).map(NodeId).filter(new) {
            found.entry(tree.core_hash(id)).or_default().push((place(id), id));
        }
        found
    }
}

/// Whether an entry says enough to be known by it.
fn is_told(tree: &Tree<'_>, id: NodeId) -> bool {
    tree.node(id).part == Part::Entry && !tree.is_comment(id) && (tree.size(id) >= SAME_TOKENS || tree.tells(id))
}
