//! Branches that one tree has in exchange for one another.

use rustc_hash::FxHashMap as HashMap;

use super::Matcher;
use super::align::ALIKE;
use super::wraps::{NODES_SEARCHED, head};
use crate::once;
use crate::syntax::{NodeId, Part, Tree};

/// Statements with more branches are not searched for two that were exchanged.
const BRANCHES: usize = 100;

/// The lists of statements in a statement and in its clauses, each with what it is a part of.
type Branches = Vec<(NodeId, NodeId)>;

/// From this similarity on, a branch is taken to be another one under a new head.
const SAME_BRANCH: f32 = 0.7;

impl Matcher<'_, '_> {
    /// Matches two statements of which the one has two branches of the other in exchange, each as it was: with the
    /// condition turned over, what was done under it is done under `else` now, and an edit of it goes there. Answers
    /// whether they are such.
    pub(super) fn exchanged_branches(&mut self, a: NodeId, b: NodeId) -> bool {
        let (from, to) = (self.from, self.to);
        let Some((old, new)) = self.branches(a, b).filter(|(old, new)| old.len() == new.len()) else { return false };
        let same = |i: usize, j: usize| from.node(old[i].1).hash == to.node(new[j].1).hash;
        let mut other = (0..old.len()).filter(|i| !same(*i, *i));
        let (Some(i), Some(j), None) = (other.next(), other.next(), other.next()) else { return false };
        let filled = |(_, block): &(NodeId, NodeId)| !from.part(*block, Part::Entry).is_empty();
        if !(same(i, j) && same(j, i) && filled(&old[i]) && filled(&old[j])) {
            return false;
        }
        self.matching.pair(a, b);
        self.pair(old[i].1, new[j].1);
        self.pair(old[j].1, new[i].1);
        self.heads(a, b);
        for ((x, _), (y, _)) in old.iter().zip(&new).filter(|((x, _), _)| *x != a) {
            if self.matching.free(*x, *y) {
                self.matching.pair(*x, *y);
                self.heads(*x, *y);
            }
        }
        self.align_kids(a, b);
        true
    }

    /// Whether what stands right under the head of one of two statements is much like another branch of the other, and not
    /// like what stands under that one's head, which is another: with the condition turned over, or a branch put before it,
    /// what was done under the one head is done elsewhere, and none of it is an edit of what is done there.
    pub(super) fn in_another_branch(&mut self, a: NodeId, b: NodeId) -> bool {
        let (from, to) = (self.from, self.to);
        let Some((old, new)) = self.branches(a, b).filter(|(old, new)| old.len().max(new.len()) > 1) else {
            return false;
        };
        let ([(_, first), behind @ ..], [(_, other), others @ ..]) = (&old[..], &new[..]) else { return false };
        if head(from, a) == head(to, b) {
            return false;
        }
        let (first, other) = (*first, *other);
        let unlike = from.node(first).hash != to.node(other).hash && self.similarity(first, other) < ALIKE;
        unlike
            && (others.iter().any(|(_, block)| self.similarity(first, *block) >= SAME_BRANCH)
                || behind.iter().any(|(_, block)| self.similarity(*block, other) >= SAME_BRANCH))
    }

    /// The branches of two statements of one kind, if they are such as have any, and not too many.
    fn branches(&self, a: NodeId, b: NodeId) -> Option<(Branches, Branches)> {
        let (from, to) = (self.from, self.to);
        if from.node(a).kind != to.node(b).kind || from.is_block(a) || from.block(a).is_none() {
            return None;
        }
        let both = (from.branches(a), to.branches(b));
        (both.0.len().max(both.1.len()) <= BRANCHES).then_some(both)
    }

    /// Matches the lists of statements in something that stand as they are in what took its place: a condition that is
    /// another kind of choice now. What stands in either more than once may be any of them.
    /// Answers whether there are any.
    pub(super) fn held_branches(&mut self, a: NodeId, b: NodeId) -> bool {
        let (old, new) = (blocks(self.from, a), blocks(self.to, b));
        let mut both: Vec<(NodeId, NodeId)> =
            old.into_iter().filter_map(|(hash, x)| Some((x?, (*new.get(&hash)?)?))).collect();
        both.sort_unstable();
        for (x, y) in &both {
            if self.matching.free(*x, *y) {
                self.pair(*x, *y);
            }
        }
        !both.is_empty()
    }

    /// Matches what stands before the lists of statements in two nodes, if it is as much.
    fn heads(&mut self, a: NodeId, b: NodeId) {
        let (x, y) = (self.from.head(a), self.to.head(b));
        if x.len() == y.len() {
            x.iter().zip(y).for_each(|(x, y)| self.pair(*x, *y));
        }
    }
}

/// The lists of statements in a node that are not empty, by their hashes; nothing for one of which there are several.
fn blocks(tree: &Tree<'_>, outer: NodeId) -> HashMap<u64, Option<NodeId>> {
    let inside = (outer.0 + 1..tree.node(outer).end.0.min(outer.0 + NODES_SEARCHED)).map(NodeId);
    let blocks = inside.filter(|n| tree.is_block(*n) && !tree.part(*n, Part::Entry).is_empty());
    once::by_key(blocks.map(|block| (tree.node(block).hash, block)))
}
