//! Statements, and comments on them, that one side moved to where the sides disagree.
//!
//! Where they went, only that side's reading has them, and where they came from they are gone: whoever takes the other
//! reading would lose them. So they are in dispute where they came from, too (contract K9).

use std::cell::LazyCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::lists::SAME_TOKENS;
use super::pieces::{Content, Item, Piece};
use super::{Merger, Side, Version, Versions};
use crate::edits::telling;
use crate::grammar::Kind;
use crate::once;
use crate::syntax::{NodeId, Part, Tree};

impl Merger<'_, '_> {
    /// For each side, the base entries that it moved into a reading of its own, and that the other reading has not.
    pub(super) fn stranded(&self, piece: &Piece) -> [HashSet<NodeId>; 2] {
        let mut found: [HashSet<NodeId>; 2] = Default::default();
        for sides in disputes(piece) {
            for side in Side::BOTH {
                let (own, other) = (sides.get(side), sides.get(side.other()));
                let lost = own.iter().flat_map(|item| self.moved_into(item, side));
                let lost = lost.filter(|base| self.is_lost(*base, side.other(), other));
                found[side as usize].extend(lost);
            }
        }
        found
    }

    /// For each side, the statements that it took out of what is in dispute and has right beside it, while the other
    /// reading has them inside: it would have them twice if they were agreed.
    pub(super) fn spilled(&self, piece: &Piece) -> [HashSet<NodeId>; 2] {
        let mut found: [HashSet<NodeId>; 2] = Default::default();
        for sides in disputes(piece) {
            for side in Side::BOTH {
                let (own, other) = (sides.get(side), sides.get(side.other()));
                let inside = other.iter().flat_map(|item| self.statements_in(item, side.other()));
                let out: HashSet<NodeId> = inside.filter_map(|base| self.to_side(side, base)).collect();
                let ends = own.first().zip(own.last()).and_then(|(first, last)| {
                    let (first, last) = (first.edges.get(side).as_ref()?.0, last.edges.get(side).as_ref()?.1);
                    Some((first, last))
                });
                let Some((first, last)) = ends.filter(|_| !out.is_empty()) else { continue };
                let tree = self.tree(side);
                let [first, last] = [first, last].map(|node| statement_of(tree, node));
                let kids = tree.kids(tree.node(first).parent);
                let (before, after) = (tree.node(first).position as usize, tree.node(last).position as usize + 1);
                let beside = kids[..before].iter().rev().take_while(|n| out.contains(n));
                let beside = beside.chain(kids[after..].iter().take_while(|n| out.contains(n)));
                found[side as usize].extend(beside);
            }
        }
        found
    }

    /// For each side, what it moved under another name than the other side did: both would have it, and in two places.
    pub(super) fn moved_two_ways(&self) -> [HashSet<NodeId>; 2] {
        let mut found: [HashSet<NodeId>; 2] = Default::default();
        let lost: Vec<NodeId> = (1..self.trees.base.len() as u32)
            .map(NodeId)
            .filter(|n| is_named(&self.trees.base, *n) && Side::BOTH.into_iter().all(|side| self.left(side, *n)))
            .collect();
        if lost.is_empty() {
            return found;
        }
        let by_text = once::by_key(lost.iter().map(|node| (self.trees.base.core_hash(*node), *node)));
        // What is too short to be followed is known by all that it says.
        let put_in = Side::BOTH.map(|side| {
            let tree = self.tree(side);
            let new = (1..tree.len() as u32).map(NodeId).filter(|n| self.to_base(side, *n).is_none());
            let put_in = new.filter(|n| is_named(tree, *n) && by_text.contains_key(&tree.core_hash(*n)));
            once::by_key(put_in.map(|node| (tree.core_hash(node), node)))
        });
        let keys_around = |tree: &Tree<'_>, node: NodeId| tree.keys_outward(tree.node(node).parent);
        for base in lost {
            let text = self.trees.base.core_hash(base);
            let only = || by_text.get(&text).copied().flatten();
            let there = Side::BOTH.map(|side| {
                let known = || only().and_then(|_| put_in[side as usize].get(&text).copied().flatten());
                self.to_side(side, base).or_else(known)
            });
            if let [Some(ours), Some(theirs)] = there
                && keys_around(&self.trees.ours, ours) != keys_around(&self.trees.theirs, theirs)
            {
                found[0].insert(ours);
                found[1].insert(theirs);
            }
        }
        found
    }

    /// Whether a side has a base entry under another parent, or not at all.
    pub(super) fn left(&self, side: Side, base: NodeId) -> bool {
        let parent = self.trees.base.node(base).parent;
        self.to_side(side, base).is_none_or(|n| self.to_base(side, self.tree(side).node(n).parent) != Some(parent))
    }

    /// Of what a side drew out of the branches of a statement, if the other reading has it in one of them: the side's
    /// statement, and all that base has of it in the branches. Else that reading would have it twice, there and beside
    /// the branches, and the other branches would be without it if it were not there.
    pub(super) fn drawn_out(&self, piece: &Piece) -> [Vec<(NodeId, Vec<NodeId>)>; 2] {
        let mut found: [Vec<(NodeId, Vec<NodeId>)>; 2] = Default::default();
        for sides in disputes(piece) {
            for side in Side::BOTH {
                let other = sides.get(side.other()).iter();
                let inside = other.flat_map(|item| self.statements_in(item, side.other()));
                found[side as usize].extend(inside.filter_map(|base| self.drawn_from(side, base)));
            }
        }
        found
    }

    /// What a side has right beside the statement around a base statement that it took out of there, if it is the same.
    fn drawn_from(&self, side: Side, taken: NodeId) -> Option<(NodeId, Vec<NodeId>)> {
        let (base, tree) = (&self.trees.base, self.tree(side));
        let gone = |n: NodeId| self.to_side(side, n).is_none();
        if !gone(taken) || base.size(taken) < SAME_TOKENS {
            return None;
        }
        let around = base.outward(taken).skip(1).find(|n| base.is_statement(*n))?;
        let same = |n: &NodeId| base.core_hash(*n) == base.core_hash(taken);
        let kept = tree.node(self.to_side(side, around)?);
        let kids = tree.kids(kept.parent);
        let put_in = |n: &&NodeId| self.to_base(side, **n).is_none();
        let (before, after) = kids.split_at(kept.position as usize);
        let beside = after[1..].iter().take_while(put_in).chain(before.iter().rev().take_while(put_in));
        let mut drawn = beside.filter(|n| tree.core_hash(**n) == base.core_hash(taken));
        let inside = base.inside(around);
        let copies = || inside.filter(|n| base.is_statement(*n) && same(n) && gone(*n)).collect();
        drawn.next().map(|drawn| (*drawn, copies()))
    }

    /// The base statements that a side has in an item.
    fn statements_in(&self, item: &Item, side: Side) -> Vec<NodeId> {
        let Content::Piece(Piece::Copy { version, node }) = item.content else { return Vec::new() };
        if version != Version::from(side) {
            return Vec::new();
        }
        let tree = self.tree(side);
        let inside = tree.inside(node);
        inside.filter(|id| tree.is_statement(*id)).filter_map(|id| self.to_base(side, id)).collect()
    }

    /// The base statements, runs of tokens and comments that a side has in an item, and base elsewhere.
    fn moved_into(&self, item: &Item, side: Side) -> Vec<NodeId> {
        let own = match &item.content {
            Content::Piece(Piece::Copy { version, node }) if *version == Version::from(side) => Some(*node),
            // What it put around something that the other side edited.
            Content::Piece(Piece::Merged(merged)) if merged.nodes.get(side.other()).is_none() => {
                *merged.nodes.get(side)
            }
            _ => None,
        };
        let Some(node) = own else { return Vec::new() };
        let (tree, base) = (self.tree(side), &self.trees.base);
        let moved = |id: NodeId| match self.to_base(side, id) {
            Some(from) => (self.to_base(side, tree.node(id).parent) != Some(base.node(from).parent)).then_some(from),
            None => self.taken_out(side).get(&tree.core_hash(id)).copied(),
        };
        let inside = tree.inside(node);
        inside.filter(|id| is_apart(tree, *id) || is_telling_comment(tree, *id)).filter_map(moved).collect()
    }

    /// The statements, runs of tokens and comments that a side took out of base, by their hashes, those aside that are
    /// too short to tell, unless base has it only once.
    fn taken_out(&self, side: Side) -> &HashMap<u64, NodeId> {
        let base = &self.trees.base;
        let known = LazyCell::new(|| {
            let all = (0..base.len() as u32).map(NodeId).filter(|id| is_apart(base, *id));
            once::by_key(all.map(|id| (base.core_hash(id), id)))
        });
        let told = |id: &NodeId| {
            is_apart(base, *id) && (base.size(*id) >= SAME_TOKENS || known[&base.core_hash(*id)].is_some())
                || is_telling_comment(base, *id)
        };
        let all = |side: Side| {
            let gone = (0..base.len() as u32).map(NodeId).filter(|id| self.to_side(side, *id).is_none());
            gone.filter(told).map(|id| (base.core_hash(id), id)).collect()
        };
        &self.taken_out.get_or_init(|| Side::BOTH.map(all))[side as usize]
    }

    /// Whether a comment stands above something else only because its side took out what stood between, while the
    /// other side has it where it was: nobody put it in.
    pub(super) fn is_left_behind(&self, side: Side, comment: NodeId) -> bool {
        let tree = self.tree(side);
        let was = || self.taken_out(side).get(&tree.core_hash(comment));
        is_telling_comment(tree, comment)
            && self.to_base(side, comment).is_none()
            && was().is_some_and(|base| self.to_side(side.other(), *base).is_some())
    }

    /// The comments above an entry that a side put in, which stand above it only because they stood there before, and
    /// which the other side took out.
    pub(super) fn gone_from_above(&self, side: Side, entry: NodeId) -> Vec<NodeId> {
        let tree = self.tree(side);
        let gone = |comment: &NodeId| {
            let was = || self.taken_out(side).get(&tree.core_hash(*comment)).copied();
            let base = &self.trees.base;
            let entry = |id: NodeId| base.is_comment(id) && base.node(id).part == Part::Entry;
            let alone = |was: NodeId| entry(was) || entry(base.node(was).parent);
            is_telling_comment(tree, *comment)
                && self.to_base(side, *comment).is_none()
                && was().is_some_and(|was| alone(was) && self.to_side(side.other(), was).is_none())
        };
        let above = tree.kids(entry).iter().copied().take_while(|kid| tree.is_comment(*kid));
        if tree.node(entry).core == entry { Vec::new() } else { above.filter(gone).collect() }
    }

    /// Puts the comments that one side left behind above what is in dispute into the other reading too, if that is to
    /// lose them with what it has them above.
    pub(super) fn share_left_behind(&self, nodes: Versions<&[NodeId]>, part: Part, sides: &mut Versions<Vec<Item>>) {
        for side in Side::BOTH {
            let above = nodes.get(side).iter().flat_map(|entry| self.left_behind(side, *entry, nodes.base));
            let above: Vec<Item> = above.map(|comment| Item::copy(side.into(), comment, part)).collect();
            sides.get_mut(side.other()).splice(0..0, above);
        }
    }

    fn left_behind(&self, side: Side, entry: NodeId, disputed: &[NodeId]) -> Vec<NodeId> {
        let (tree, base, other) = (self.tree(side), &self.trees.base, side.other());
        let goes = |comment: &NodeId| {
            let was = self.taken_out(side).get(&tree.core_hash(*comment));
            let described = was.map(|was| base.node(*was).parent).filter(|entry| !disputed.contains(entry));
            let kept = described.and_then(|entry| Some((entry, self.to_side(other, entry)?)));
            kept.is_some_and(|(old, new)| self.to_side(side, old).is_none() && !self.changed(other, old, new))
        };
        let above = tree.kids(entry).iter().copied().take_while(|kid| tree.is_comment(*kid));
        above.filter(|comment| self.is_left_behind(side, *comment) && goes(comment)).collect()
    }

    /// Whether some items have a node of a side in them. A comment may be gone from what else is merged.
    fn hold(&self, items: &[Item], side: Side, node: NodeId) -> bool {
        items.iter().any(|item| match &item.content {
            Content::Piece(Piece::Copy { version, node: own }) => {
                *version == Version::from(side) && self.tree(side).contains(*own, node)
            }
            Content::Piece(Piece::Merged(merged)) if is_telling_comment(self.tree(side), node) => {
                self.hold(&merged.items, side, node)
            }
            Content::Piece(Piece::Merged(merged)) => {
                merged.nodes.get(side).is_some_and(|own| self.tree(side).contains(own, node))
            }
            _ => false,
        })
    }

    /// Whether the other side kept a base entry, and its reading does not have it.
    fn is_lost(&self, base: NodeId, other: Side, reading: &[Item]) -> bool {
        let Some(kept) = self.to_side(other, base) else { return false };
        !self.hold(reading, other, kept)
    }
}

/// The innermost statement that a node is in, or is.
fn statement_of(tree: &Tree<'_>, node: NodeId) -> NodeId {
    tree.outward(node).find(|n| tree.is_statement(*n)).unwrap_or(node)
}

/// All that is in dispute anywhere in a piece.
pub(super) fn disputes(piece: &Piece) -> Vec<&Versions<Vec<Item>>> {
    let mut found = Vec::new();
    if !piece.disputed() {
        return found;
    }
    let mut pieces = vec![piece];
    while let Some(piece) = pieces.pop() {
        let Piece::Merged(merged) = piece else { continue };
        let mut items: Vec<&Item> = merged.items.iter().collect();
        while let Some(item) = items.pop() {
            match &item.content {
                Content::Piece(piece) => pieces.push(piece),
                Content::Dispute(sides) => {
                    found.push(sides);
                    items.extend(sides.ours.iter().chain(&sides.theirs));
                }
            }
        }
    }
    found
}

/// Whether a node is a statement, or what may be one where nothing tells.
fn is_apart(tree: &Tree<'_>, id: NodeId) -> bool {
    tree.is_statement(id) || tree.node(id).part == Part::Entry && tree.core_kind(id) == Kind::RUN
}

/// Whether a node is a comment beside what it describes, and says something.
pub(super) fn is_telling_comment(tree: &Tree<'_>, id: NodeId) -> bool {
    tree.is_leaf(id) && tree.is_comment(id) && telling(tree.node_text(id))
}

/// Whether an entry is known by a name wherever it stands, and may stand anywhere.
pub(super) fn is_named(tree: &Tree<'_>, entry: NodeId) -> bool {
    tree.is_definition(entry) && tree.node(entry).key != 0 && tree.entry_rule(entry).is_some_and(|rule| rule.free)
}
