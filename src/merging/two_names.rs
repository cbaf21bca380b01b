//! One definition that both sides put in under two names.

use super::Merger;
use crate::matching::{Bags, dice};
use crate::syntax::{NodeId, Tree};

/// From this similarity on, definitions of two names that say more than a little are one.
const SAME_DEFINITION: f32 = 0.97;

/// From this many tokens on, a definition says more than a little.
const TELLING_DEFINITION: u32 = 40;

impl Merger<'_, '_> {
    /// Whether two definitions that the sides put in are one under two names: they say nearly the same, neither side has
    /// the other's name, and nothing in base is as much like either, so that they may have been made after one pattern.
    pub(super) fn one_by_two_names(&self, ours: NodeId, theirs: NodeId, bags: [&mut Bags; 2]) -> bool {
        let (o, t) = (&self.trees.ours, &self.trees.theirs);
        let (key, other_key) = (o.node(ours).key, t.node(theirs).key);
        if key == other_key
            || ![(o, ours), (t, theirs)].into_iter().all(|(tree, node)| may_be_known(tree, node))
            || o.core_kind(ours) != t.core_kind(theirs)
            || has_beside(o, ours, other_key)
            || has_beside(t, theirs, key)
        {
            return false;
        }
        let [our_bags, their_bags] = bags;
        let (own, other) = (our_bags.of(o, ours, true), their_bags.of(t, theirs, true));
        let likeness = dice(&own, &other);
        if likeness < SAME_DEFINITION {
            return false;
        }
        let base = &self.trees.base;
        let mut base_bags = Bags::default();
        let mut alike = |node: NodeId| {
            let bag = base_bags.of(base, node, true);
            dice(&bag, &own).max(dice(&bag, &other)) >= likeness
        };
        let of_the_kind = |id: &NodeId| base.is_definition(*id) && base.core_kind(*id) == o.core_kind(ours);
        !(0..base.len() as u32).map(NodeId).filter(of_the_kind).any(&mut alike)
    }
}

/// Whether a node is a definition with a name, long enough to be known by what it says.
fn may_be_known(tree: &Tree<'_>, node: NodeId) -> bool {
    tree.is_definition(node) && tree.node(node).key != 0 && tree.size(tree.node(node).core) >= TELLING_DEFINITION
}

/// Whether an entry of some key stands in the list that an entry is in.
fn has_beside(tree: &Tree<'_>, entry: NodeId, key: u64) -> bool {
    tree.kids(tree.node(entry).parent).iter().any(|kid| tree.node(*kid).key == key)
}
