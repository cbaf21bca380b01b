//! What one side took out of something that stood around it.

use super::lists::Work;
use super::pieces::{Content, Edges, Item, Merged, Piece};
use super::regrafted::Guard;
use super::units::{Form, Unit};
use super::{Merger, Side, Versions};
use crate::Version;
use crate::syntax::{NodeId, Part, Token, Tree};

impl Merger<'_, '_> {
    /// What one side took out of a base entry, with the other side's changes inside that entry.
    pub(super) fn unwrapped(&mut self, work: &Work<'_>, unit: &Unit, side: Side) -> Option<Vec<Item>> {
        let own = &work.seqs.get(side)[unit.sides[side as usize].clone()?];
        // The way out that the statement's head became stands before all that it held.
        if let Some((guard, held)) =
            own.split_first().filter(|(first, _)| work.guard.is_some_and(|g| g.node == **first))
            && self.to_base(side, *guard).is_none()
        {
            let behind = self.taken_off(work, unit, side, held)?;
            return Some(self.arrival(side, *guard).into_iter().chain(behind).collect());
        }
        self.taken_off(work, unit, side, own)
    }

    /// The same of all that stands behind such a way out.
    fn taken_off(&mut self, work: &Work<'_>, unit: &Unit, side: Side, own: &[NodeId]) -> Option<Vec<Item>> {
        let base = work.seqs.base[unit.base.start];
        let other_side = side.other();
        let first = own.iter().find_map(|n| self.to_base(side, *n))?;
        let parent = self.trees.base.node(first).parent;
        let list = if self.trees.base.list_rule(parent).is_some_and(|r| r.lines) { parent } else { first };
        let other_range = unit.sides[other_side as usize].clone()?;
        let other_wrapper = self.to_side(other_side, base);
        if let Some(wrapper) = other_wrapper {
            if !self.changed(other_side, base, wrapper) {
                return Some(own.iter().filter_map(|n| self.arrival(side, *n)).collect());
            }
            if let Some(item) = self.with_other_prefixes(work, unit, side, own, wrapper) {
                return Some(vec![item]);
            }
            let alone = |inner: &NodeId| self.same_around(base, list, other_side, wrapper, *inner);
            let inner = self.to_side(other_side, list);
            let Some(inner) = inner.filter(alone) else {
                let closer = inner.and_then(|inner| self.bound_to(other_side, inner)).filter(alone);
                let there = closer.or_else(|| self.in_its_place(base, list, other_side, wrapper).filter(alone))?;
                let bare = list == first && matches!(own, [only] if !self.changed(side, first, *only));
                let mut edges = Edges::default();
                *edges.get_mut(side) = own.first().map(|only| (*only, *only));
                return bare.then(|| vec![Item { edges, ..Item::copy(other_side.into(), there, work.part) }]);
            };
            if list == first {
                return Some(own.iter().filter_map(|n| self.arrival(side, *n)).collect());
            }
            let other = self.tree(other_side).part(inner, Part::Entry);
            // What the other side put elsewhere, too, cannot be at both places.
            // What it put something around in there is there still; but where the statement had further branches, what stands
            // for one of them may stand for all of it now.
            let only_branch = self.trees.base.branches(self.trees.base.node(base).core).len() < 2;
            let moved = |b: &NodeId| {
                let tree = self.tree(other_side);
                let known = |node: &NodeId| !only_branch || self.to_base(other_side, *node).is_some();
                let holder = |n: NodeId| tree.outward(tree.node(n).parent).find(known);
                self.to_side(other_side, *b).is_some_and(|n| holder(n) != Some(inner))
            };
            if self.trees.base.part(list, Part::Entry).iter().any(moved) {
                return None;
            }
            let mut seqs = Versions { base: self.trees.base.part(list, Part::Entry), ours: other, theirs: other };
            *seqs.get_mut(side) = own;
            return Some(self.sequence(seqs, work.part, work.policy).items);
        }
        // Both took it off.
        let other = &work.seqs.get(other_side)[other_range];
        if list == first {
            let ([own], [other]) = (own, other) else { return None };
            self.to_base(other_side, *other).filter(|base| *base == first)?;
            let mut nodes = Versions { base: Some(first), ours: Some(*other), theirs: Some(*other) };
            *nodes.get_mut(side) = Some(*own);
            return Some(vec![self.matched_item(self.edges(work, unit), work.part, nodes)]);
        }
        let mut seqs = Versions { base: self.trees.base.part(list, Part::Entry), ours: other, theirs: other };
        *seqs.get_mut(side) = own;
        Some(self.sequence(seqs, work.part, work.policy).items)
    }

    /// A definition off which a side took all that stood before it, with what the other side put there.
    fn with_other_prefixes(
        &mut self,
        work: &Work<'_>,
        unit: &Unit,
        side: Side,
        own: &[NodeId],
        wrapper: NodeId,
    ) -> Option<Item> {
        let trees = self.trees;
        let [own] = own else { return None };
        let base = trees.base.node(work.seqs.base[unit.base.start]).core;
        let other = side.other();
        let theirs = trees.get(Version::from(other));
        let wrapper = theirs.node(wrapper).core;
        let (had, has) = (trees.base.kids(base), theirs.kids(wrapper));
        let (definition, prefixes) = had.split_last()?;
        let is_definition = self.to_side(side, *definition) == Some(*own)
            && has.last().is_some_and(|last| self.to_side(other, *definition) == Some(*last));
        let only_prefixes = prefixes.iter().all(|kid| trees.base.is_prefix(*kid))
            && has.iter().rev().skip(1).all(|kid| theirs.is_prefix(*kid));
        if !is_definition || !only_prefixes || prefixes.is_empty() {
            return None;
        }
        let mut seqs = Versions { base: had, ours: has, theirs: has };
        *seqs.get_mut(side) = std::slice::from_ref(own);
        let merged = self.sequence(seqs, Part::Plain, None);
        let mut nodes = Versions { base: Some(base), ours: Some(wrapper), theirs: Some(wrapper) };
        *nodes.get_mut(side) = None;
        let piece = Piece::Merged(Box::new(Merged { nodes, items: merged.items, combined: true }));
        Some(Item::new(self.edges(work, unit), work.part, Content::Piece(piece)))
    }

    /// What a side has in the place of an operand of base, if the operator does not mind their order.
    fn in_its_place(&self, base: NodeId, operand: NodeId, side: Side, own: NodeId) -> Option<NodeId> {
        let (b, n) = (&self.trees.base, self.tree(side));
        let unordered = b.language.rule(b.node(base).kind).unordered && n.node(own).kind == b.node(base).kind;
        let way: Vec<NodeId> = b.outward(operand).take_while(|at| *at != base && unordered).collect();
        let down = |at: NodeId, step: &NodeId| n.kids(at).get(b.node(*step).position as usize).copied();
        way.iter().rev().try_fold(own, down).filter(|_| unordered)
    }

    /// Whether a side's wrapper is base's but for one part of each; if that is a list, but for its entries. It may lack
    /// comments: these go with what is taken off.
    pub(super) fn same_around(&self, base: NodeId, hole: NodeId, side: Side, own: NodeId, own_hole: NodeId) -> bool {
        let (b, n) = (&self.trees.base, self.tree(side));
        let around = |tree: &Tree<'_>, outer: NodeId, hole: NodeId| {
            let (outer, inner) = (tree.node(outer).tokens, tree.node(hole).tokens);
            let ends = [Part::Head, Part::Tail].map(|part| tree.part(hole, part).to_vec());
            let head = ends[0].last().map_or(inner.0, |last| tree.node(*last).tokens.1);
            let tail = ends[1].first().map_or(inner.1, |first| tree.node(*first).tokens.0);
            [(outer.0, head), (tail, outer.1)]
        };
        let same = |x: (u32, u32), y: (u32, u32)| {
            let mut there = n.tokens[y.0 as usize..y.1 as usize].iter().peekable();
            let has = |x: &Token| there.next_if(|y| y.hash == x.hash).is_some() || x.comment;
            b.tokens[x.0 as usize..x.1 as usize].iter().all(has) && there.next().is_none()
        };
        around(b, base, hole).into_iter().zip(around(n, own, own_hole)).all(|(x, y)| same(x, y))
    }
}

/// What a side made of the head of a statement that it took off what that held stands in the statement's place: what the
/// other side put before the one stands before the other.
pub(super) fn take_for_head(units: &mut [Unit], guard: &Guard) {
    let side = guard.side as usize;
    let Unit { form: Form::Unwrapped(of), sides, .. } = &units[guard.unit] else { return };
    let Some(at) = sides[side].as_ref().and_then(|place| place.start.checked_sub(1)) else { return };
    if *of == guard.side && !units.iter().any(|unit| unit.sides[side].as_ref().is_some_and(|place| place.contains(&at)))
    {
        units[guard.unit].sides[side] = units[guard.unit].sides[side].take().map(|place| at..place.end);
    }
}
