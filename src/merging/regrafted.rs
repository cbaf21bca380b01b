//! Two statements, of which one stood in the other, that one side made one, or one that it made two.

use super::hunks::Hunk;
use super::lists::Work;
use super::units::{Form, Unit};
use super::{Merger, Side, Versions};
use crate::syntax::{NodeId, Part, Tree};

/// From this size on, a condition with another sign between its operands is that condition.
const TURNED_TOKENS: u32 = 4;

/// An early way out of a list that a side put in.
#[derive(Clone, Copy)]
pub(super) struct Guard {
    pub side: Side,
    /// The unit whose condition it has.
    pub unit: usize,
    /// The side's statement.
    pub node: NodeId,
    /// Whether what the condition held is followed to where it stands now.
    followed: bool,
}

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
            if self.took_clauses_in(base, block, side, own, other) {
                return true;
            }
            let in_block = |x| old.node(x).parent == block && old.node(x).part == Part::Entry;
            if self.turned_out(base, block, side, own) && beyond(&in_block) {
                return true;
            }
            let new = tree.block(own).and_then(|block| sole(tree, block));
            new.is_some_and(|(inner, held)| {
                // What stood in the block is in the new one, and so is what the other side puts in.
                let went = |x: &NodeId| self.to_side(side, *x).is_some_and(|n| tree.contains(held, n));
                let all = old.part(block, Part::Entry).iter().all(went);
                self.to_base(side, inner).is_none()
                    && self.head_taken(base, side, own, inner)
                    && beyond(&|x| in_block(x) || all && x == block)
            })
        })
    }

    /// Whether something new has a part of a base statement's head in its own, that is not in the side's head of the
    /// statement any more.
    pub(super) fn head_taken(&self, base: NodeId, side: Side, own: NodeId, inner: NodeId) -> bool {
        let inner = headed(self.tree(side), inner);
        inner.is_some_and(|inner| gone_into(self.tree(side), inner, &self.trees.base, base, Some(own)))
    }
}

impl Merger<'_, '_> {
    /// Whether a side put the head of something that it took out beside what stood in the head beside it.
    pub(super) fn took_head_in(&self, gone: NodeId, beside: NodeId, side: Side, own: NodeId) -> bool {
        joins(&self.trees.base, [gone, beside], self.tree(side), own)
    }

    /// Whether a side made two of what base has: it put a part of the head into that of something new beside it.
    pub(super) fn split_head(&self, base: NodeId, side: Side, own: NodeId, new: NodeId) -> bool {
        self.to_base(side, new).is_none() && joins(self.tree(side), [new, own], &self.trees.base, base)
    }

    /// Whether a side put the head of a clause of a statement into the head of the statement itself, or a part of that
    /// into a new clause, and the other side changed what that leads to: it would hold for both, or for one of both.
    fn took_clauses_in(&self, base: NodeId, block: NodeId, side: Side, own: NodeId, other: NodeId) -> bool {
        let (old, there) = (&self.trees.base, self.tree(side.other()));
        let clauses = |tree: &Tree<'_>, node: NodeId| -> Vec<NodeId> {
            tree.branches(node).into_iter().map(|(clause, _)| clause).filter(|clause| *clause != node).collect()
        };
        let leads = |tree: &Tree<'_>, node: NodeId, block: NodeId| {
            let head = heads(tree, node).map(|n| tree.node(n).hash);
            head.chain([tree.node(block).hash]).collect::<Vec<u64>>()
        };
        let gone = |clause: &NodeId| self.to_side(side, *clause).is_none();
        let mut joined = clauses(old, base).into_iter().filter(gone);
        let mut split = clauses(self.tree(side), own).into_iter();
        (joined.any(|clause| self.took_head_in(clause, base, side, own))
            || split.any(|clause| self.split_head(base, side, own, clause)))
            && there.block(other).is_none_or(|new| leads(old, base, block) != leads(there, other, new))
    }

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

    /// What a side made an early way out of a list: it took a statement off what it held and put a part of its head into
    /// one above, or took what a statement held out of it and changed its head.
    pub(super) fn guarded(&self, seqs: &Versions<&[NodeId]>, units: &[Unit]) -> Option<Guard> {
        let heads = |tree: &Tree<'_>, entry: NodeId| headed(tree, tree.node(entry).core);
        units.iter().enumerate().find_map(|(unit, Unit { form, base, sides, .. })| {
            let entry = seqs.base[base.start];
            // The way out stands where the statement stood, or before what that held.
            let ahead = usize::from(matches!(form, Form::Unwrapped(_)));
            let out = |side: Side| {
                let at = sides[side as usize].as_ref()?.start.checked_sub(ahead)?;
                Some(seqs.get(side)[at])
            };
            let (side, node, followed) = match form {
                Form::Unwrapped(_) => Side::BOTH.into_iter().find_map(|side| {
                    let tree = self.tree(side);
                    let node = out(side)?;
                    let (old, new) = (heads(&self.trees.base, entry)?, heads(tree, node)?);
                    let put_in = self.to_base(side, node).is_none() && self.to_side(side, entry).is_none();
                    let went = || {
                        gone_into(&self.trees.base, old, tree, new, None)
                            || operands_in(&self.trees.base, old, tree, new)
                    };
                    (put_in && went()).then_some((side, node, true))
                })?,
                Form::Single => Side::BOTH.into_iter().find_map(|side| {
                    let node = out(side)?;
                    let followed = self.leads_out(side, entry, node);
                    (followed || self.leads_past(side, entry, node)).then_some((side, node, followed))
                })?,
                Form::Wrapped(wrapper) => {
                    let side = wrapper.other();
                    let node = out(side)?;
                    self.leads_past(side, entry, node).then_some((side, node, false))?
                }
                _ => return None,
            };
            // A way out that both sides made is in nobody's way.
            let hash = |side: Side| out(side).map(|node| self.tree(side).node(node).hash);
            (hash(side) != hash(side.other())).then_some(Guard { side, unit, node, followed })
        })
    }

    /// Whether a side has right behind a statement what base has in it, and has changed its head: what is too short to be
    /// followed there is known by all that it says.
    fn leads_past(&self, side: Side, entry: NodeId, node: NodeId) -> bool {
        if !self.changed(side, entry, node) || self.to_side(side, entry) != Some(node) {
            return false;
        }
        let (base, tree) = (&self.trees.base, self.tree(side));
        let (Some(old), Some(new)) = (headed(base, base.node(entry).core), headed(tree, tree.node(node).core)) else {
            return false;
        };
        let (Some(block), Some(own)) = (base.block(old), tree.block(new)) else { return false };
        let said = |tree: &Tree<'_>, entries: &[NodeId]| {
            let entries = entries.iter().filter(|entry| !tree.is_comment(**entry));
            entries.map(|entry| tree.core_hash(*entry)).collect::<Vec<u64>>()
        };
        let held = said(base, base.part(block, Part::Entry));
        let behind = |tree: &Tree<'_>, entry: NodeId| {
            let beside = tree.kids(tree.node(entry).parent)[tree.node(entry).position as usize + 1..].iter();
            let beside = beside.filter(|entry| !tree.is_comment(**entry)).take(held.len());
            beside.map(|entry| tree.core_hash(*entry)).collect::<Vec<u64>>()
        };
        let head = |tree: &Tree<'_>, node: NodeId| heads(tree, node).map(|n| tree.node(n).hash).collect::<Vec<_>>();
        !held.is_empty()
            && behind(tree, node) == held
            && behind(base, entry) != held
            && said(tree, tree.part(own, Part::Entry)) != held
            && head(base, old) != head(tree, new)
    }

    /// Whether a side took what a base statement held out of it and changed its head.
    fn leads_out(&self, side: Side, entry: NodeId, node: NodeId) -> bool {
        let heads = |tree: &Tree<'_>, entry: NodeId| headed(tree, tree.node(entry).core);
        if !self.changed(side, entry, node) || self.to_side(side, entry) != Some(node) {
            return false;
        }
        let (Some(old), Some(new)) = (heads(&self.trees.base, entry), heads(self.tree(side), node)) else {
            return false;
        };
        self.trees.base.block(old).is_some_and(|block| self.turned_out(old, block, side, new))
    }

    /// Whether a side made one of a unit's statements an early way out: what the other side put around the statement, it
    /// put around what stands behind that now too.
    pub(super) fn made_a_guard(&self, work: &Work<'_>, unit: &Unit, side: Side) -> bool {
        let mut entries = work.seqs.base[unit.base.clone()].iter();
        work.policy.is_some_and(|p| p.lines)
            && entries.any(|entry| {
                let leads = |node| self.leads_out(side, *entry, node) || self.leads_past(side, *entry, node);
                self.to_side(side, *entry).is_some_and(leads)
            })
    }

    /// Whether the other side put something behind what a side made an early way out, or took its condition off too. Where
    /// what that held is not followed, it may not have changed it either, nor what stands behind it.
    pub(super) fn at_odds_with_guard(
        &self,
        seqs: &Versions<&[NodeId]>,
        units: &[Unit],
        hunks: &[Hunk],
        guard: &Guard,
    ) -> bool {
        let entry = seqs.base[units[guard.unit].base.start];
        let taken_off = matches!(units[guard.unit].form, Form::Unwrapped(_))
            && units[guard.unit].sides[guard.side.other() as usize].is_some()
            && self.to_side(guard.side.other(), entry).is_none();
        if taken_off {
            return true;
        }
        let changed = |unit: &Unit| {
            let (base, side) = (&seqs.base[unit.base.clone()], guard.side.other());
            let Some(own) = unit.sides[side as usize].clone().map(|range| &seqs.get(side)[range]) else { return true };
            base.len() != own.len() || base.iter().zip(own).any(|(base, own)| self.changed(side, *base, *own))
        };
        if !guard.followed && units[guard.unit..].iter().any(changed) {
            return true;
        }
        let other = self.tree(guard.side.other());
        let behind = |h: &&Hunk| h.side != guard.side && h.units.start > guard.unit;
        let mut put_in = hunks.iter().filter(behind).flat_map(|h| &seqs.get(guard.side.other())[h.put_in.clone()]);
        put_in.any(|entry| !other.is_comment(*entry) && !other.entry_rule(*entry).is_some_and(|r| r.free))
    }

    /// Whether the other side changed or took out a unit behind an early way out in which that statement stands too:
    /// what it did to it, it did to both.
    pub(super) fn behind_a_guard(&self, work: &Work<'_>, unit: usize) -> bool {
        let Some(Guard { side, node, .. }) = work.guard.filter(|guard| guard.unit < unit) else { return false };
        let hash = self.trees.base.core_hash(work.seqs.base[work.units[unit].base.start]);
        let tree = self.tree(side);
        let mut inside = (node.0 + 1..tree.node(node).end.0).map(NodeId);
        inside.any(|n| tree.is_statement(n) && tree.core_hash(n) == hash && self.to_base(side, n).is_none())
            && self.differs(work, &work.units[unit], side.other())
    }
}

/// Whether a node of one tree has in its head what two nodes of another begin with, and the second of these, which it is,
/// had not the first's. What has a name of its own is another thing.
fn joins(tree: &Tree<'_>, [one, beside]: [NodeId; 2], other: &Tree<'_>, joint: NodeId) -> bool {
    if tree.is_definition(one) {
        return false;
    }
    let [one, beside] = [one, beside].map(|entry| headed(tree, tree.node(entry).core));
    let (Some(one), Some(beside), Some(joint)) = (one, beside, headed(other, other.node(joint).core)) else {
        return false;
    };
    let head = |tree: &Tree<'_>, node: NodeId| heads(tree, node).map(|n| tree.node(n).hash).collect::<Vec<_>>();
    head(tree, beside) != head(other, joint)
        && (gone_into(tree, beside, other, joint, None) || operands_in(tree, beside, other, joint))
        && (gone_into(tree, one, other, joint, Some(beside))
            || operands_in(tree, one, other, joint) && !operands_in(tree, one, tree, beside))
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

/// Whether all operands of the one condition that a statement begins with stand in the head of another tree's: it may be
/// the opposite condition.
fn operands_in(tree: &Tree<'_>, inner: NodeId, other: &Tree<'_>, outer: NodeId) -> bool {
    let mut conditions = tree.head(inner).iter().filter(|kid| !tree.node(**kid).anonymous);
    let Some(only) = conditions.next().filter(|_| conditions.next().is_none()) else { return false };
    let mut operands = tree.kids(*only).iter().filter(|kid| !tree.node(**kid).anonymous).peekable();
    let stands = |operand: &NodeId| heads(other, outer).any(|n| other.node(n).hash == tree.node(*operand).hash);
    tree.language.rule(tree.node(*only).kind).joint && operands.peek().is_some() && operands.all(stands)
}

/// All that stands before the list of statements right below a node.
fn heads<'t>(tree: &'t Tree<'_>, node: NodeId) -> impl Iterator<Item = NodeId> + 't {
    tree.head(node).iter().flat_map(|head| tree.inside(*head))
}
