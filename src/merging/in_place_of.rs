//! What goes with something in dispute: what one side took out where it put that in, and what it says with it.

use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::pieces::{Content, Edges, Item, Merged, Piece};
use super::{Merger, Side, Version, Versions};
use crate::grammar::find_word;
use crate::syntax::{NodeId, Part};

impl<'s> Merger<'_, 's> {
    /// Widens disputes over statements by what whoever takes the other reading could not use, or would lack (contract K9).
    ///
    /// Of statements that one side put in, and nothing else: by what that side took out there. And by what a side put in or
    /// changed right below, down to where it uses a name that only its half of the dispute declares.
    pub(super) fn widen(&self, piece: &mut Piece) {
        let Piece::Merged(merged) = piece else { return };
        for item in &mut merged.items {
            if let Content::Piece(piece) = &mut item.content {
                self.widen(piece);
            }
        }
        self.widen_to_replaced(merged);
        self.widen_to_uses(merged);
    }

    fn widen_to_replaced(&self, merged: &mut Merged) {
        let mut at = 0;
        while at < merged.items.len() {
            let Some((run, side, old)) = self.replacement(merged, at) else {
                at += 1;
                continue;
            };
            let items: Vec<Item> = merged.items.drain(run.clone()).collect();
            merged.items.insert(run.start, self.in_place_of(items, side, &old));
            at = run.start + 1;
        }
    }

    fn widen_to_uses(&self, merged: &mut Merged) {
        let listed = Version::ALL.into_iter().find_map(|v| Some((v, (*merged.nodes.get(v))?)));
        if !listed.is_some_and(|(v, list)| self.trees.get(v).list_rule(list).is_some_and(|rule| rule.lines)) {
            return;
        }
        let mut at = 0;
        while at < merged.items.len() {
            for side in Side::BOTH {
                let names = self.declared_by_half(&merged.items[at], side);
                let below = || merged.items[at + 1..].iter().take_while(|item| self.is_of(item, side));
                if names.is_empty() {
                    continue;
                }
                if let Some(last) = below().enumerate().filter(|(_, item)| self.names_one(item, &names)).last() {
                    let more: Vec<Item> = merged.items.drain(at + 1..at + 2 + last.0).collect();
                    self.take_in(&mut merged.items[at], more, side);
                }
            }
            at += 1;
        }
    }

    /// The names that a side's half of a dispute declares and the other half does not, if the other side knows none of them.
    fn declared_by_half(&self, item: &Item, side: Side) -> HashSet<&'s [u8]> {
        let Content::Dispute(sides) = &item.content else { return HashSet::default() };
        let declared = |side: Side| {
            let mut names = Vec::new();
            for item in sides.get(side).iter().filter(|item| !self.defines(item)) {
                if let Content::Piece(piece) = &item.content {
                    self.declared(piece, &mut names);
                }
            }
            names.into_iter().collect::<HashSet<&[u8]>>()
        };
        let mut names = declared(side);
        if item.part == Part::Entry && !names.is_empty() {
            let other = self.tree(side.other()).source;
            names.retain(|name| find_word(other, name).next().is_none());
            return names;
        }
        HashSet::default()
    }

    /// Whether an entry is what one side put in, or alone changed.
    fn is_of(&self, item: &Item, side: Side) -> bool {
        let changed = |(base, node): (NodeId, NodeId)| self.changed(side, base, node);
        let copy =
            matches!(item.content, Content::Piece(Piece::Copy { version, .. }) if version == Version::from(side));
        let one = |version: Version| item.one_node(version);
        let alone = || {
            let (base, other) = (one(Version::Base)?, one(side.other().into())?);
            (changed((base, one(side.into())?)) && !self.changed(side.other(), base, other)).then_some(())
        };
        item.part == Part::Entry
            && !self.defines(item)
            && (copy && alone().is_some() || matches!(item.content, Content::Piece(_)) && self.is_put_in(item, side))
    }

    /// Whether an entry is a definition: that is used from anywhere, and may use what stands anywhere.
    fn defines(&self, item: &Item) -> bool {
        let definition = |v: Version| item.edges.get(v).is_some_and(|(node, _)| self.trees.get(v).is_definition(node));
        Version::ALL.into_iter().any(definition)
    }

    fn names_one(&self, item: &Item, names: &HashSet<&[u8]>) -> bool {
        Side::BOTH.into_iter().any(|side| {
            let (Some((first, last)), tree) = (*item.edges.get(side), self.tree(side)) else { return false };
            let inside = (first.0..tree.node(last).end.0).map(NodeId);
            let used = |id: NodeId| tree.is_leaf(id) && tree.said(id).any(|name| names.contains(name));
            inside.into_iter().any(used)
        })
    }

    /// Takes what a side put in or changed below a dispute into it.
    fn take_in(&self, dispute: &mut Item, more: Vec<Item>, side: Side) {
        let Content::Dispute(sides) = &mut dispute.content else { return };
        for item in more {
            for version in Version::ALL {
                let Some((node, last)) = *item.edges.get(version) else { continue };
                if version != Version::from(side) {
                    sides.get_mut(version).push(Item::copy(version, node, Part::Entry));
                }
                let edges = dispute.edges.get_mut(version);
                *edges = Some((edges.map_or(node, |(first, _)| first), last));
            }
            sides.get_mut(side).push(item);
        }
    }

    /// If an item is something that one side alone has and is in dispute: what that side put in there, and the entries of
    /// base that it took out there, if the other side has them as they were.
    fn replacement(&self, merged: &Merged, at: usize) -> Option<(Range<usize>, Side, Vec<NodeId>)> {
        let Versions { base: Some(list), ours: Some(ours), theirs: Some(theirs) } = merged.nodes else { return None };
        let base = &self.trees.base;
        if !base.list_rule(list).is_some_and(|rule| rule.lines) {
            return None;
        }
        let disputed = matches!(merged.items[at].content, Content::Dispute(_));
        let side = Side::BOTH.into_iter().find(|side| disputed && self.is_put_in(&merged.items[at], *side))?;
        let start = (0..at).rev().take_while(|i| self.is_put_in(&merged.items[*i], side)).last().unwrap_or(at);
        let end = (at..merged.items.len()).take_while(|i| self.is_put_in(&merged.items[*i], side)).last()? + 1;
        let entries = base.part(list, Part::Entry);
        let position = |node: NodeId| entries.binary_search(&node).ok();
        let before = match start.checked_sub(1) {
            Some(i) => position(merged.items[i].edges.base?.1)? + 1,
            None => 0,
        };
        let behind = match merged.items.get(end).filter(|item| item.part == Part::Entry) {
            Some(item) => position(item.edges.base?.0)?,
            None => entries.len(),
        };
        let other = side.other();
        let old = entries.get(before..behind)?.to_vec();
        let there = other.of(ours, theirs);
        let as_it_was = |entry: &NodeId| {
            self.to_side(side, *entry).is_none()
                && self.to_side(other, *entry).is_some_and(|kept| {
                    self.tree(other).node(kept).parent == there && !self.changed(other, *entry, kept)
                })
        };
        (!old.is_empty() && old.iter().all(as_it_was)).then_some((start..end, side, old))
    }

    /// Whether an item is an entry that one side put in, in dispute or not.
    fn is_put_in(&self, item: &Item, side: Side) -> bool {
        let alone = item.edges.base.is_none() && item.edges.get(side.other()).is_none();
        let new = item.edges.get(side).is_some_and(|(node, _)| self.to_base(side, node).is_none());
        let by_itself = match &item.content {
            Content::Piece(_) => true,
            Content::Dispute(sides) => sides.base.is_empty() && sides.get(side.other()).is_empty(),
        };
        item.part == Part::Entry && alone && new && by_itself
    }

    /// What a side put in in the place of entries of base, in dispute.
    fn in_place_of(&self, items: Vec<Item>, side: Side, old: &[NodeId]) -> Item {
        let other = side.other();
        let kept: Vec<NodeId> = old.iter().filter_map(|entry| self.to_side(other, *entry)).collect();
        let copies = |version: Version, nodes: &[NodeId]| -> Vec<Item> {
            nodes.iter().map(|node| Item::copy(version, *node, Part::Entry)).collect()
        };
        let ends = |nodes: &[NodeId]| Some((*nodes.first()?, *nodes.last()?));
        let own = |item: &Item| *item.edges.get(side);
        let mut edges = Edges { base: ends(old), ..Edges::default() };
        *edges.get_mut(other) = ends(&kept);
        *edges.get_mut(side) =
            items.first().and_then(own).zip(items.last().and_then(own)).map(|((first, _), (_, last))| (first, last));
        let mut sides = Versions { base: copies(Version::Base, old), ..Versions::default() };
        *sides.get_mut(other) = copies(other.into(), &kept);
        for item in items {
            match item.content {
                Content::Piece(_) => sides.get_mut(side).push(item),
                Content::Dispute(mut disputed) => sides.get_mut(side).append(disputed.get_mut(side)),
            }
        }
        Item { edges, ..Item::dispute(sides, Part::Entry) }
    }
}
