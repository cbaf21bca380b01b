//! What a side put in the place of something, with a part of that in it which the other side changed.

use std::cell::RefCell;
use std::ops::Range;

use super::grafted::Around;
use super::pieces::{Item, Merged, Piece, TextPart};
use super::twins::says_a_name;
use super::{Merger, Side, Versions};
use crate::grammar::Kind;
use crate::matching::match_pair;
use crate::syntax::{NodeId, Part, Token, Tree};

impl Merger<'_, '_> {
    /// Where one side put another kind of node in the place of one, around parts of it, and the other side changed only
    /// these parts: the new node with the parts as changed.
    pub(super) fn in_another(
        &mut self,
        nodes: Versions<Option<NodeId>>,
        ours: NodeId,
        theirs: NodeId,
    ) -> Option<Piece> {
        let base = nodes.base?;
        let of = |side: Side| side.of(ours, theirs);
        // What the other side put in the place of one of these parts goes where that went.
        let replaced = RefCell::new(Vec::new());
        let side = Side::BOTH.into_iter().find(|side| {
            let (own, there) = (of(*side), side.other());
            let held = |x, y| {
                let held = x != base && self.to_side(*side, x).is_some_and(|n| self.tree(*side).contains(own, n));
                if held && self.is_another_part(there, x, y) {
                    replaced.borrow_mut().push((x, y));
                    return true;
                }
                held && self.to_side(there, x) == Some(y)
            };
            replaced.borrow_mut().clear();
            self.tree(*side).node(own).kind != self.trees.base.node(base).kind
                && self.changed_inside(there, base, of(there), &held)
        })?;
        for (x, y) in replaced.into_inner() {
            match_pair(&self.trees.base, x, self.tree(side.other()), y, &mut self.matched[side.other() as usize]);
        }
        if self.is_entangled(side, of(side)) {
            return Some(self.insertion(side, of(side)));
        }
        // The new node has the parts right in it, as the old one had.
        let lists = |tree: &Tree<'_>, node: NodeId| tree.node(node).list.is_some() || tree.block(node).is_some();
        let listed = lists(&self.trees.ours, ours) || lists(&self.trees.theirs, theirs);
        if listed {
            return self.around_held(base, side, of(side));
        }
        self.children(nodes, ours, theirs).ok().filter(|piece| !piece.disputed())
    }

    /// Where one side has what both put in the place of an expression, and the other has something around that: the side
    /// that put it around, as `reach(quay.east)` for `quay.west`, or, if base has it, that took it off. Not if there is
    /// what stood there too; and one word is soon found in what has nothing to do with it.
    pub(super) fn puts_around_the_same(&self, ours: NodeId, theirs: NodeId, base: Option<NodeId>) -> Option<Side> {
        let old = self.trees.base.node(base?).hash;
        let around = Side::BOTH.into_iter().find(|side| {
            let (tree, own) = (self.tree(*side), side.of(ours, theirs));
            let (there, other) = (self.tree(side.other()), side.other().of(ours, theirs));
            let said = there.node(other).hash;
            let often = |hash: u64| tree.inside(own).filter(|id| tree.node(*id).hash == hash).count();
            let expression = !tree.inside(own).any(|id| tree.is_block(id)) && tree.node(own).part != Part::Entry;
            let tells = there.size(other) > 1 && says_a_name(there, other);
            expression && tells && tree.node(own).hash != said && often(said) == 1 && often(old) == 0
        })?;
        let said = self.tree(around.other()).node(around.other().of(ours, theirs)).hash;
        let stood_there = self.stood_around(base?, around, around.of(ours, theirs), said);
        Some(if stood_there { around.other() } else { around })
    }

    /// Whether what a side has around a part that says this is what base has around something.
    fn stood_around(&self, base: NodeId, side: Side, own: NodeId, said: u64) -> bool {
        let (b, tree) = (&self.trees.base, self.tree(side));
        let Some(inner) = tree.inside(own).find(|id| tree.node(*id).hash == said) else { return false };
        let before = (tree.node(inner).tokens.0 - tree.node(own).tokens.0) as usize;
        let behind = before + tree.tokens(inner).len();
        let hashes = |tokens: &[Token]| tokens.iter().map(|token| token.hash).collect::<Vec<_>>();
        let (all, old) = (hashes(tree.tokens(own)), hashes(b.tokens(base)));
        old.strip_prefix(&all[..before]).is_some_and(|rest| rest.ends_with(&all[behind..]))
    }

    /// Whether a side has something else in the place of a part of an expression.
    fn is_another_part(&self, side: Side, base: NodeId, node: NodeId) -> bool {
        let (b, n) = (&self.trees.base, self.tree(side));
        let part = |tree: &Tree<'_>, id: NodeId| tree.node(id).part == Part::Plain && !tree.node(id).anonymous;
        part(b, base) && part(n, node) && self.to_side(side, base).is_none() && self.to_base(side, node).is_none()
    }

    /// What a side put in the place of a base node, with the one part of that which it has unchanged as the other side
    /// changed it.
    fn around_held(&mut self, base: NodeId, side: Side, own: NodeId) -> Option<Piece> {
        let b = &self.trees.base;
        let held = |x: NodeId| {
            let inner = self.to_side(side, x).filter(|n| self.tree(side).contains(own, *n))?;
            Some((x, inner, self.to_side(side.other(), x)?))
        };
        let mut found = None;
        let mut at = NodeId(base.0 + 1);
        while at < b.node(base).end {
            let Some((x, inner, there)) = held(at) else {
                at = NodeId(at.0 + 1);
                continue;
            };
            at = b.node(x).end;
            if self.changed(side.other(), x, there) && found.replace((x, inner, there)).is_some() {
                return None;
            }
        }
        let (x, inner, there) = found.filter(|(x, inner, _)| !self.changed(side, *x, *inner))?;
        let core = |tree: &Tree<'_>, node: NodeId| tree.node(node).core == node;
        // What is in a list of statements is done by what stands around it.
        if !core(b, x) || !core(self.tree(side.other()), there) || b.is_block(x) {
            return None;
        }
        self.graft(Around { side, outer: own, inner }, Around { side: side.other(), outer: there, inner: there })
    }

    /// Where one side put a list in the place of the last part of a node, with that part among what it lists, and the other
    /// side changed only what stands before that part, or both changed that alike, as it is in `use` trees (The Rust
    /// Reference, "Use declarations"): the list behind what stands there now.
    pub(super) fn made_a_list(&self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> Option<Piece> {
        let base = nodes.base?;
        let b = &self.trees.base;
        let (old, before) = b.kids(base).split_last()?;
        let kids =
            Versions { base: b.kids(base), ours: self.trees.ours.kids(ours), theirs: self.trees.theirs.kids(theirs) };
        let of = |side: Side| side.of(ours, theirs);
        let hash = |side: Side, at: usize| self.tree(side).node(kids.get(side)[at]).hash;
        let unchanged = |side: Side, at: usize| b.node(kids.base[at]).hash == hash(side, at);
        let listed = |side: Side| {
            let (tree, list) = (self.tree(side), kids.get(side)[before.len()]);
            let in_list = |entry: &NodeId| tree.core_hash(*entry) == b.core_hash(*old);
            tree.list_rule(list).is_some_and(|rule| rule.free && rule.keyed_by_text)
                && tree.part(list, Part::Entry).iter().any(in_list)
        };
        if kids.ours.len() != kids.base.len() || kids.theirs.len() != kids.base.len() {
            return None;
        }
        let side = Side::BOTH.into_iter().find(|side| {
            listed(*side)
                && (0..before.len()).all(|at| unchanged(*side, at) || hash(Side::Ours, at) == hash(Side::Theirs, at))
                && unchanged(side.other(), before.len())
                && self.tree(side.other()).node(of(side.other())).kind == b.node(base).kind
        })?;
        let item = |at: usize| {
            let from = if at < before.len() { side.other() } else { side };
            let edges = kids.map(|kids| Some((kids[at], kids[at])));
            Item { edges, ..Item::copy(from.into(), kids.get(from)[at], Part::Plain) }
        };
        let items = (0..kids.base.len()).map(item).collect();
        let mut own = Versions::default();
        *own.get_mut(side) = Some(of(side));
        Some(Piece::Merged(Box::new(Merged { nodes: own, items, combined: true })))
    }

    /// The side that has brackets around all that the other has, and nothing else.
    pub(super) fn adds_brackets(&self, ours: NodeId, theirs: NodeId) -> Option<Side> {
        let hash = |side: Side| self.tree(side).node(side.of(ours, theirs)).hash;
        Side::BOTH.into_iter().find(|side| {
            let tree = self.tree(*side);
            alone_in_brackets(tree, side.of(ours, theirs))
                .is_some_and(|inner| tree.node(inner).hash == hash(side.other()))
        })
    }

    /// Where one side took what stood alone in brackets of tokens without structure out of these, as it was, and the other
    /// side changed only names, and what stands in further brackets in there: what the one put in its place, with that as
    /// changed. So it is if `try!(read(port))` became `read(port)?` (The Rust Reference, "The question mark operator").
    pub(super) fn out_of_brackets(
        &self,
        nodes: Versions<Option<NodeId>>,
        ours: NodeId,
        theirs: NodeId,
    ) -> Option<Piece> {
        let base = nodes.base?;
        let of = |side: Side| side.of(ours, theirs);
        let b = &self.trees.base;
        let old = bracketed(b, base)?;
        let piece = |side: Side| {
            let (own, other) = (of(side), side.other());
            let (tree, there) = (self.tree(side), self.tree(other));
            let new = bracketed(there, of(other)).filter(|_| there.node(of(other)).kind == b.node(base).kind)?;
            // They are in the order of the text, and so of their numbers.
            let one = |x: NodeId, y: NodeId| old.binary_search(&x).is_ok_and(|at| new[at] == y);
            if old.len() != new.len()
                || old.iter().zip(&new).any(|(x, y)| self.signs_changed(other, *x, *y))
                || !self.changed_inside(other, base, of(other), &one)
            {
                return None;
            }
            // What is two signs here may be one there, and the other way, as in `Vec<Vec<Tide>>`.
            let (wanted, _) = stretch(b, &old)?;
            let size = |n: &NodeId| *n != own && tree.tokens(*n).len() >= wanted.len() && tree.node(*n).core == *n;
            let inner = tree.inside(own).filter(size).find(|n| said(tree, tree.tokens(*n)).eq(said(b, wanted)))?;
            let (_, span) = stretch(there, &new)?;
            let put = Piece::Text(vec![TextPart::Plain(there.source[span].to_vec())]);
            self.graft_piece(Around { side, outer: own, inner }, put)
        };
        Side::BOTH.into_iter().find_map(piece)
    }

    /// The other way: where one side put what stood there, as it was, alone into brackets of tokens without structure, and
    /// the other side changed nothing else: what the one put in its place, with that as changed. So it is if `read(port)?`
    /// became `try!(read(port))`.
    pub(super) fn put_in_brackets(
        &self,
        nodes: Versions<Option<NodeId>>,
        ours: NodeId,
        theirs: NodeId,
    ) -> Option<Piece> {
        let base = nodes.base?;
        let of = |side: Side| side.of(ours, theirs);
        let b = &self.trees.base;
        let piece = |side: Side| {
            let (own, other) = (of(side), side.other());
            let (tree, there) = (self.tree(side), self.tree(other));
            let (wanted, span) = stretch(tree, &bracketed(tree, own)?)?;
            let mut held = b.inside(base).filter(|n| !b.is_leaf(*n) && b.node(*n).core == *n);
            let held = held.find(|n| said(b, b.tokens(*n)).eq(said(tree, wanted)))?;
            let changed = self.to_side(other, held).filter(|n| there.node(*n).kind == b.node(held).kind)?;
            let around = there.contains(of(other), changed) && self.same_around(base, held, other, of(other), changed);
            let list = *tree.kids(own).last()?;
            let brackets = tree.node(list).span.range();
            let [open, close] = [brackets.start..span.start, span.end..brackets.end].map(|at| &tree.source[at]);
            let put = Piece::Text(vec![TextPart::Plain([open, there.node_text(changed), close].concat())]);
            around.then(|| self.graft_piece(Around { side, outer: own, inner: list }, put)).flatten()
        };
        Side::BOTH.into_iter().find_map(piece)
    }
}

/// The text of some tokens, without the white space between them.
fn said<'t>(tree: &'t Tree<'_>, tokens: &'t [Token]) -> impl Iterator<Item = &'t u8> {
    tokens.iter().flat_map(|token| tree.text(token.span))
}

/// The tokens from the first to the last of some nodes, and where they stand.
fn stretch<'t>(tree: &'t Tree<'_>, nodes: &[NodeId]) -> Option<(&'t [Token], Range<usize>)> {
    let (first, last) = (tree.node(*nodes.first()?), tree.node(*nodes.last()?));
    let tokens = first.tokens.0 as usize..last.tokens.1 as usize;
    Some((&tree.tokens[tokens], first.span.start as usize..last.span.end as usize))
}

/// The runs of tokens in the brackets that a node ends with; nothing, if it ends with none, or more than a run stands in an
/// entry there.
fn bracketed(tree: &Tree<'_>, node: NodeId) -> Option<Vec<NodeId>> {
    let list = *tree.kids(node).last()?;
    tree.list_rule(list).filter(|rule| rule.runs)?;
    let run = |entry: &NodeId| {
        let core = tree.node(*entry).core;
        (tree.kids(*entry).len() == 1 && tree.node(core).kind == Kind::RUN).then_some(core)
    };
    tree.part(list, Part::Entry).iter().map(run).collect()
}

/// The part of an expression that stands in brackets which group it and do nothing else (The Python Language Reference,
/// "Parenthesized forms"; The Rust Reference, "Grouped expressions").
fn alone_in_brackets(tree: &Tree<'_>, node: NodeId) -> Option<NodeId> {
    let [open, inner, close] = tree.kids(node) else { return None };
    let groups = tree.node_text(*open) == b"(" && tree.node_text(*close) == b")" && !tree.node(*inner).anonymous;
    (groups && tree.node(node).list.is_none()).then_some(*inner)
}
