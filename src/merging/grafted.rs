//! What both sides put something around, in ways that go together.

use super::lists::Work;
use super::pieces::{Content, Item, Merged, Piece};
use super::units::Unit;
use super::{Merger, Side, Versions};
use crate::grammar::Kind;
use crate::syntax::{NodeId, Part};

/// What a side put around a base node.
#[derive(Clone, Copy)]
pub(super) struct Around {
    pub side: Side,
    /// What stands in the base node's place.
    pub outer: NodeId,
    /// The base node in it.
    pub inner: NodeId,
}

impl Merger<'_, '_> {
    /// What both sides put around one base node that neither changed.
    fn around_one(&self, work: &Work<'_>, unit: &Unit) -> Option<[Around; 2]> {
        Some([self.around(work, unit, Side::Ours)?, self.around(work, unit, Side::Theirs)?])
    }

    /// What a side put around a base node that it did not change.
    fn around(&self, work: &Work<'_>, unit: &Unit, side: Side) -> Option<Around> {
        let [base] = work.seqs.base[unit.base.clone()] else { return None };
        let [outer] = work.seqs.get(side)[unit.sides[side as usize].clone()?] else { return None };
        let inner = self.to_side(side, base)?;
        let within = inner != outer && self.tree(side).contains(outer, inner);
        (within && !self.changed(side, base, inner)).then_some(Around { side, outer, inner })
    }

    /// What one side put around a base node of which the other side took off what belongs to something in it alone: that
    /// thing in it.
    pub(super) fn laid_bare(&self, work: &Work<'_>, unit: &Unit) -> Option<Item> {
        let base = self.trees.base.node(*work.seqs.base[unit.base.clone()].first()?).core;
        let piece = Side::BOTH.into_iter().find_map(|side| {
            let outer = self.around(work, unit, side)?;
            let other = side.other();
            let [bare] = work.seqs.get(other)[unit.sides[other as usize].clone()?] else { return None };
            let held = self.to_base(other, bare).filter(|held| !self.changed(other, *held, bare))?;
            let binds = self.trees.base.node(held).parent == base
                && self.trees.base.language.rule(self.trees.base.node(base).kind).closer;
            binds.then(|| self.graft(outer, Around { side: other, outer: bare, inner: bare })).flatten()
        })?;
        Some(Item::new(self.edges(work, unit), work.part, Content::Piece(piece)))
    }

    /// What both sides put into a list of their own, or before one, if these are of one kind and in no order: both lists
    /// as one.
    pub(super) fn listed_by_both(&mut self, work: &Work<'_>, unit: &Unit) -> Option<Item> {
        let [ours, theirs] = self.around_one(work, unit)?;
        let alike = self.trees.ours.node(ours.outer).kind == self.trees.theirs.node(theirs.outer).kind;
        let sets = || self.is_set_of(ours) && self.is_set_of(theirs);
        let before_names = || self.is_before_names(ours) && self.is_before_names(theirs);
        if !(alike && (sets() || before_names())) {
            return None;
        }
        let nodes = Versions { base: None, ours: Some(ours.outer), theirs: Some(theirs.outer) };
        let piece = self.try_triple(nodes).ok().filter(|piece| !piece.disputed())?;
        Some(Item::new(self.edges(work, unit), work.part, Content::Piece(piece)))
    }

    /// Whether a side put a node into a list without an order.
    fn is_set_of(&self, around: Around) -> bool {
        let tree = self.tree(around.side);
        let entry = tree.node(around.inner).parent;
        let free = tree.list_rule(around.outer).is_some_and(|rule| rule.free && !rule.lines);
        free && tree.node(entry).parent == around.outer
    }

    /// Whether a side put nothing but a list behind a node, of what is known by its name and stands in no order.
    fn is_before_names(&self, around: Around) -> bool {
        let tree = self.tree(around.side);
        let [first, list] = tree.kids(around.outer) else { return false };
        let named =
            |entry: &NodeId| tree.node(*entry).key != 0 && tree.entry_rule(*entry).is_some_and(|rule| rule.free);
        *first == around.inner
            && tree.list_rule(*list).is_some_and(|rule| !rule.lines)
            && tree.part(*list, Part::Entry).iter().all(named)
    }

    /// What one side put around a base node, with what the other side put around it in its place: operands beside one
    /// whose order means nothing, or a list that stands for it in what may hold such a list.
    pub(super) fn grafted(&self, work: &Work<'_>, unit: &Unit) -> Option<Item> {
        let both = self.around_one(work, unit)?;
        let core = |side: Side, node: NodeId| self.tree(side).node(node).core;
        let base = Some(self.trees.base.node(work.seqs.base[unit.base.start]).core);
        let [ours, theirs] = both.map(|around| core(around.side, around.outer));
        // An entry that holds nothing else.
        let bare = both.iter().all(|a| core(a.side, a.outer) == a.outer || self.tree(a.side).kids(a.outer).len() == 1);
        let grown = || self.grown(Versions { base, ..Versions::default() }, ours, theirs);
        let closer = |[near, far]: [Around; 2]| {
            self.is_closer(near) && !self.is_closer(far) && !(self.is_operand(far) && self.declares_more(near))
        };
        let piece = if let Some(grown) = bare.then(grown).flatten() {
            grown
        } else if closer([both[1], both[0]]) || self.operands_go_together(both) && self.stands_last(both[0]) {
            self.graft(both[0], both[1])?
        } else if self.operands_go_together(both) || closer(both) {
            self.graft(both[1], both[0])?
        } else {
            let [ours, theirs] = both;
            let (list, holder) = if self.may_hold(theirs, ours) { (ours, theirs) } else { (theirs, ours) };
            if !self.may_hold(holder, list) {
                return None;
            }
            self.graft(holder, list)?
        };
        Some(Item::new(self.edges(work, unit), work.part, Content::Piece(piece)))
    }

    /// Whether what a side put around a node ends with that: what the other side put around it comes behind that.
    fn stands_last(&self, Around { side, outer, inner }: Around) -> bool {
        let end = |node: NodeId| self.tree(side).node(node).span.end;
        end(outer) == end(inner)
    }

    /// Whether both sides only put operands beside one, of an operator that does not mind their order.
    fn operands_go_together(&self, both: [Around; 2]) -> bool {
        let [Some((kind, ours)), Some((other, theirs))] = both.map(|around| self.operands(around)) else {
            return false;
        };
        kind == other && !ours.iter().any(|operand| theirs.contains(operand))
    }

    /// The operator and the operands that a side put beside a node, if that does not mind their order.
    fn operands(&self, Around { side, outer, inner }: Around) -> Option<(Kind, Vec<u64>)> {
        let tree = self.tree(side);
        let kind = tree.core_kind(outer);
        let mut operands = Vec::new();
        let mut at = tree.node(outer).core;
        while at != tree.node(inner).core {
            let (held, beside): (Vec<NodeId>, Vec<NodeId>) =
                tree.kids(at).iter().partition(|kid| tree.contains(**kid, tree.node(inner).core));
            if tree.node(at).kind != kind || !tree.language.rule(kind).unordered {
                return None;
            }
            operands.extend(beside.iter().filter(|kid| !tree.node(**kid).anonymous).map(|kid| tree.node(*kid).hash));
            at = *held.first()?;
        }
        Some((kind, operands))
    }

    /// Whether what a side put around a node belongs to that alone, whatever stands around both.
    fn is_closer(&self, Around { side, outer, inner }: Around) -> bool {
        self.bound_to(side, self.tree(side).node(inner).core) == Some(self.tree(side).node(outer).core)
    }

    /// Whether a side put a node among operands that stand in no order.
    fn is_operand(&self, Around { side, outer, inner }: Around) -> bool {
        let (tree, last) = (self.tree(side), self.tree(side).node(outer).core);
        let mut around = tree.outward(tree.node(inner).core).skip(1).take_while(|n| *n >= last);
        around.any(|n| tree.language.rule(tree.node(n).kind).unordered)
    }

    /// Whether what a side put around a node declares names that the node does not: all operands beside it would have to
    /// declare them too (The Rust Reference, "Or patterns").
    fn declares_more(&self, Around { side, outer, inner }: Around) -> bool {
        self.tree(side).declared(outer).len() > self.tree(side).declared(inner).len()
    }

    /// What stands right around a node, if that belongs to the node alone.
    pub(super) fn bound_to(&self, side: Side, inner: NodeId) -> Option<NodeId> {
        let tree = self.tree(side);
        let outer = tree.node(inner).parent;
        tree.language.rule(tree.node(outer).kind).closer.then_some(outer)
    }

    /// Whether what one side put around a node may hold, in that node's place, the list that the other side put it into.
    fn may_hold(&self, holder: Around, list: Around) -> bool {
        let (tree, kind) = (self.tree(holder.side), self.tree(holder.side).node(holder.outer).kind);
        let rule = self.tree(list.side).list_rule(list.outer);
        let there =
            rule.is_some_and(|rule| rule.within.iter().any(|kinds| kinds.len() > 1 && kinds.last() == Some(&kind)));
        there && self.is_set_of(list) && tree.node(holder.inner).parent == holder.outer
    }

    /// What each side put another part behind: with both, in the order in which they stand.
    pub(super) fn grown(&self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> Option<Piece> {
        let base = self.trees.base.node(nodes.base?).hash;
        let own = |(side, node): (Side, NodeId)| {
            let (tree, kids) = (self.tree(side), self.tree(side).kids(node));
            let grown = tree.language.rule(tree.node(node).kind).grown?;
            let (first, behind) = kids.split_first()?;
            (tree.node(*first).hash == base).then_some((grown, side, *first, behind))
        };
        let mut both = [own((Side::Ours, ours))?, own((Side::Theirs, theirs))?];
        if both[0].0.0 != both[1].0.0 || both[0].0.1 == both[1].0.1 {
            return None;
        }
        both.sort_by_key(|(grown, ..)| *grown);
        let [(_, side, first, before), (_, other, _, behind)] = both;
        let copy = |side: Side| move |kid: &NodeId| Item::copy(side.into(), *kid, Part::Plain);
        let items = [first].iter().chain(before).map(copy(side)).chain(behind.iter().map(copy(other))).collect();
        let nodes = Versions { base: None, ours: Some(ours), theirs: Some(theirs) };
        Some(Piece::Merged(Box::new(Merged { nodes, items, combined: true })))
    }

    /// What one side put around a node, with what the other side has in that node's place.
    pub(super) fn graft(&self, outer: Around, inner: Around) -> Option<Piece> {
        let core = self.tree(inner.side).node(inner.outer).core;
        self.graft_piece(outer, Piece::Copy { version: inner.side.into(), node: core })
    }

    /// What one side put around a node, with something else in that node's place.
    pub(super) fn graft_piece(&self, outer: Around, mut piece: Piece) -> Option<Piece> {
        let tree = self.tree(outer.side);
        let (mut at, last) = (tree.node(outer.inner).core, tree.node(outer.outer).core);
        while at != last {
            let parent = tree.node(at).parent;
            let mut nodes = Versions::default();
            *nodes.get_mut(outer.side) = Some(parent);
            let items = tree.kids(parent).iter().map(|kid| {
                let mut item = Item::copy(outer.side.into(), *kid, Part::Plain);
                if *kid == at {
                    item.content = Content::Piece(piece.clone());
                }
                item
            });
            piece = Piece::Merged(Box::new(Merged { nodes, items: items.collect(), combined: true }));
            at = parent;
        }
        if last == outer.outer {
            return Some(piece);
        }
        // An entry that holds nothing else.
        let [_] = tree.kids(outer.outer) else { return None };
        let mut nodes = Versions::default();
        *nodes.get_mut(outer.side) = Some(outer.outer);
        let item = Item { content: Content::Piece(piece), ..Item::copy(outer.side.into(), last, Part::Plain) };
        Some(Piece::Merged(Box::new(Merged { nodes, items: vec![item], combined: true })))
    }
}
