//! Two statements, of which one stood in the other, that one side made one, or one that it made two.

use super::hunks::Hunk;
use super::units::{Form, Unit};
use super::{Merger, Side, Versions};
use crate::syntax::{NodeId, Part, Tree};

/// From this size on, a condition with another sign between its operands is that condition.
const TURNED_TOKENS: u32 = 4;

impl Merger<'_, '_> {
    /// Whether one side put the head of a statement, such as a condition, into that of the statement around it, or took
    /// a part of the head for a statement inside, and the other side changed more than what both heads stand above: on
    /// the one side that would be under both heads, on the other under one.
    pub(super) fn regrafted(&self, base: NodeId, ours: NodeId, theirs: NodeId) -> bool {
        let old = &self.trees.base;
        let Some(block) = old.block(base) else { return false };
        Side::BOTH.into_iter().any(|side| {
            let (own, other) = if side == Side::Ours { (ours, theirs) } else { (theirs, ours) };
            if !self.changed(side.other(), base, other) {
                return false;
            }
            let tree = self.tree(side);
            let beyond = |inside: &dyn Fn(NodeId) -> bool| {
                let same = |x, y| inside(x) && self.to_side(side.other(), x) == Some(y);
                !self.changed_inside(side.other(), base, other, &same)
            };
            if let Some((inner, held)) = sole(old, block)
                && self.to_side(side, inner).is_none()
                && gone_into(old, inner, tree, own, Some(base))
                && beyond(&|x| x == held)
            {
                return true;
            }
            let in_block = |x| old.node(x).parent == block && old.node(x).part == Part::Entry;
            if self.turned_out(base, block, side, own) && beyond(&in_block) {
                return true;
            }
            let new = tree.block(own).and_then(|block| sole(tree, block));
            new.is_some_and(|(inner, _)| {
                self.to_base(side, inner).is_none() && gone_into(tree, inner, old, base, Some(own)) && beyond(&in_block)
            })
        })
    }
}

impl Merger<'_, '_> {
    /// Whether a side took all that it kept of a block out of the statement that has it, and put something else there: its
    /// head leads elsewhere now, as that of a condition made an early return.
    fn turned_out(&self, base: NodeId, block: NodeId, side: Side, own: NodeId) -> bool {
        let entries = self.trees.base.part(block, Part::Entry);
        let mut kept = entries.iter().filter_map(|entry| self.to_side(side, *entry)).peekable();
        let head = |tree: &Tree<'_>, node: NodeId| heads(tree, node).map(|n| tree.node(n).hash).collect::<Vec<_>>();
        kept.peek().is_some()
            && kept.all(|entry| !self.tree(side).contains(own, entry))
            && head(&self.trees.base, base) != head(self.tree(side), own)
    }

    /// Whether one side took the last statement of a list off what it held, and put a part of its head into a statement
    /// above instead, where the other side put something behind it: there the one side goes on only under that condition.
    pub(super) fn guarded(&self, seqs: &Versions<&[NodeId]>, units: &[Unit], hunks: &[Hunk]) -> bool {
        let Some(Unit { form: Form::Unwrapped(side), base, sides, .. }) = units.last() else { return false };
        let (tree, other) = (self.tree(*side), self.tree(side.other()));
        let own = seqs.get(*side);
        let above = sides[*side as usize].as_ref().and_then(|place| own[..place.start].last());
        let Some(guard) = above.filter(|guard| self.to_base(*side, **guard).is_none()) else { return false };
        let behind = |h: &&Hunk| h.side != *side && h.units.start == units.len();
        let mut put_in = hunks.iter().filter(behind).flat_map(|h| &seqs.get(side.other())[h.put_in.clone()]);
        let follows = |entry: &NodeId| !other.is_comment(*entry) && !other.entry_rule(*entry).is_some_and(|r| r.free);
        let heads = |tree: &Tree<'_>, entry: NodeId| headed(tree, tree.node(entry).core);
        let (Some(old), Some(new)) = (heads(&self.trees.base, seqs.base[base.start]), heads(tree, *guard)) else {
            return false;
        };
        put_in.any(follows) && gone_into(&self.trees.base, old, tree, new, None)
    }
}

/// What in a statement has a head and a list of statements, if there is nothing else in it.
fn headed(tree: &Tree<'_>, mut at: NodeId) -> Option<NodeId> {
    while tree.block(at).is_none() {
        let mut kids = tree.kids(at).iter().filter(|kid| !tree.node(**kid).anonymous);
        at = *kids.next().filter(|_| kids.next().is_none())?;
    }
    Some(at)
}

/// What is the only statement in a list, and what that holds: the node with a head and a list of statements.
fn sole(tree: &Tree<'_>, block: NodeId) -> Option<(NodeId, NodeId)> {
    let mut statements = tree.part(block, Part::Entry).iter().filter(|entry| !tree.is_comment(**entry));
    let only = *statements.next().filter(|_| statements.next().is_none())?;
    let headed = headed(tree, tree.node(only).core)?;
    Some((headed, tree.block(headed)?))
}

/// Whether a part of the head of a statement stands in the head of another tree's, but not in that `around`
/// it.
fn gone_into(tree: &Tree<'_>, inner: NodeId, other: &Tree<'_>, outer: NodeId, around: Option<NodeId>) -> bool {
    let stands = |id: NodeId| {
        let wanted = tree.node(id).hash;
        heads(other, outer).any(|n| other.node(n).hash == wanted)
            && !around.is_some_and(|around| heads(tree, around).any(|n| tree.node(n).hash == wanted))
    };
    // Under another sign it stands there turned over.
    let gone = |id: NodeId| {
        let mut operands = tree.kids(id).iter().filter(|kid| !tree.node(**kid).anonymous);
        let joint = tree.language.rule(tree.node(id).kind).joint;
        stands(id) || joint && tree.size(id) >= TURNED_TOKENS && operands.all(|operand| stands(*operand))
    };
    // Of a list, an entry will do.
    let parts = |kid: &NodeId| match tree.list_rule(*kid) {
        Some(_) => tree.part(*kid, Part::Entry).iter().map(|entry| tree.node(*entry).core).collect(),
        None => vec![*kid],
    };
    tree.head(inner).iter().filter(|kid| !tree.node(**kid).anonymous).flat_map(parts).any(gone)
}

/// All that stands before the list of statements right below a node.
fn heads<'t>(tree: &'t Tree<'_>, node: NodeId) -> impl Iterator<Item = NodeId> + 't {
    tree.head(node).iter().flat_map(|head| (head.0..tree.node(*head).end.0).map(NodeId))
}
