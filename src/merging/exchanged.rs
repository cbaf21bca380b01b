//! Arguments, and the like, that one side put into another order or replaced with what is called, and branches that it
//! exchanged.

use rustc_hash::FxHashSet as HashSet;

use super::hunks::Hunk;
use super::twins::says_a_name;
use super::units::Unit;
use super::{Merger, Side, Versions};
use crate::grammar::ListRule;
use crate::syntax::{NodeId, Part, Tree};

/// What leads to each branch of a statement.
fn led_by(tree: &Tree<'_>, node: NodeId) -> Vec<Vec<u64>> {
    let heads = |(clause, _): (NodeId, NodeId)| tree.head(clause).iter().map(|n| tree.node(*n).hash).collect();
    tree.branches(node).into_iter().map(heads).collect()
}

/// The words and signs of what leads to a branch, parentheses aside.
fn led<'t>(tree: &'t Tree<'_>, node: NodeId) -> Vec<&'t [u8]> {
    let tokens = tree.head(node).iter().flat_map(|kid| tree.tokens(*kid)).map(|token| tree.text(token.span));
    tokens.filter(|text| !matches!(*text, b"(" | b")")).collect()
}

/// The statements among which one stands, and its place there.
fn listed_among<'t>(tree: &'t Tree<'_>, node: NodeId) -> Option<(&'t [NodeId], usize)> {
    let parent = tree.node(node).parent;
    let (entry, list) = if tree.is_block(parent) { (node, parent) } else { (parent, tree.node(parent).parent) };
    let entries = tree.part(list, Part::Entry);
    let at = entries.binary_search(&entry).ok()?;
    (tree.is_block(list) && tree.node(entry).core == tree.node(node).core).then_some((entries, at))
}

impl Merger<'_, '_> {
    /// Whether a side kept no entry of a list, nor what stands before it: another call with other arguments.
    pub(super) fn is_another(&self, seqs: &Versions<&[NodeId]>, units: &[Unit], hunks: &[Hunk], side: Side) -> bool {
        let (Some(base), Some(own)) = (seqs.base.first(), seqs.get(side).first()) else { return false };
        let (b, n) = (&self.trees.base, self.tree(side));
        let all_lost = hunks.iter().any(|h| h.side == side && h.units == (0..units.len()));
        let (list, own_list) = (b.node(*base).parent, n.node(*own).parent);
        let (x, y) = (b.node(list), n.node(own_list));
        let before = |tree: &Tree<'_>, parent: NodeId, at: u32| -> Vec<u64> {
            tree.kids(parent)[..at as usize].iter().map(|k| tree.node(*k).hash).collect()
        };
        all_lost && before(b, x.parent, x.position) != before(n, y.parent, y.position)
    }

    /// Whether what stands before a side's list stood in the list: it is another one, that the side took out of the old one.
    pub(super) fn drew_out_its_head(&self, seqs: &Versions<&[NodeId]>, side: Side) -> bool {
        let (Some(base), Some(own)) = (seqs.base.first(), seqs.get(side).first()) else { return false };
        let (b, n) = (&self.trees.base, self.tree(side));
        let list = n.node(n.node(*own).parent);
        let stood_there = |head: &NodeId| {
            let mut inside = b.inside(b.node(*base).parent);
            inside.any(|old| b.node(old).hash == n.node(*head).hash)
        };
        let heads = &n.kids(list.parent)[..list.position as usize];
        !heads.is_empty() && heads.iter().all(stood_there)
    }

    /// Whether a side put entries that are known by their places alone into another order, and the other side did more
    /// than to change some of them: put others in, took some out, put one into another's place, or changed one that has no name in it.
    pub(super) fn is_exchanged(&self, seqs: &Versions<&[NodeId]>, units: &[Unit], hunks: &[Hunk], side: Side) -> bool {
        let (base, there) = (&self.trees.base, self.tree(side.other()));
        let placed = |unit: &Unit| {
            let entry = seqs.base[unit.base.start];
            !base.entry_rule(entry).is_some_and(|r| r.free) && !base.tells(entry)
        };
        if !units.iter().any(|unit| unit.moved[side as usize] && placed(unit)) {
            return false;
        }
        let known: HashSet<u64> = seqs.base.iter().map(|n| base.core_hash(*n)).collect();
        let took_a_place = |unit: &Unit| {
            let Some(place) = &unit.sides[side.other() as usize] else { return true };
            let (old, new) = (seqs.base[unit.base.start], seqs.get(side.other())[place.start]);
            let hash = there.core_hash(new);
            // What has no name in it is known by its place alone.
            base.core_hash(old) != hash && (known.contains(&hash) || placed(unit) && !says_a_name(base, old))
        };
        hunks.iter().any(|h| h.side != side) || units.iter().any(took_a_place)
    }

    /// Whether a side moved entries known by their places alone to another list, and the other side put one in that
    /// stands beside none of those that stayed: whether it went with them, nobody can tell.
    pub(super) fn put_in_where_all_left(
        &self,
        seqs: &Versions<&[NodeId]>,
        units: &[Unit],
        hunks: &[Hunk],
        side: Side,
        policy: Option<&'static ListRule>,
    ) -> bool {
        let left = |unit: &Unit| {
            let base = seqs.base[unit.base.start];
            unit.sides[side as usize].is_none() && (self.to_side(side, base).is_some() || self.has_anew(side, base))
        };
        hunks.iter().filter(|h| h.side != side && h.units.is_empty()).any(|hunk| {
            let beside = [hunk.units.start.checked_sub(1), Some(hunk.units.end)];
            let mut beside = beside.into_iter().flatten().filter_map(|u| units.get(u)).peekable();
            let put_in = &seqs.get(hunk.side)[hunk.put_in.clone()];
            beside.peek().is_some()
                && beside.all(left)
                && put_in.iter().any(|n| !self.is_independent(hunk.side, *n, policy))
        })
    }

    /// Whether a side put a statement that stood beside one with branches into each of these.
    pub(super) fn put_into_branches(&self, base: NodeId, side: Side, own: NodeId) -> bool {
        let (b, n) = (&self.trees.base, self.tree(side));
        let branches = n.branches(n.node(own).core);
        let (Some((entries, at)), Some((there, _))) = (listed_among(b, base), listed_among(n, own)) else {
            return false;
        };
        if branches.len() < 2 {
            return false;
        }
        let beside = [at.checked_sub(1), Some(at + 1)].into_iter().flatten().filter_map(|i| entries.get(i));
        beside.into_iter().any(|entry| {
            let hash = b.core_hash(*entry);
            let holds = |entries: &[NodeId]| entries.iter().any(|e| n.core_hash(*e) == hash);
            !b.is_comment(*entry)
                && !holds(there)
                && branches.iter().all(|(_, block)| holds(n.part(*block, Part::Entry)))
        })
    }

    /// Whether a side turned what leads to a branch of a statement into its opposite.
    fn turned_condition(&self, base: NodeId, side: Side, own: NodeId) -> bool {
        let (old, new) = (self.trees.base.branches(base), self.tree(side).branches(own));
        let signs = &self.trees.base.language.descriptor.opposites;
        let turned = |(x, y): (&(NodeId, NodeId), &(NodeId, NodeId))| {
            let (x, y) = (led(&self.trees.base, x.0), led(self.tree(side), y.0));
            let same = |(x, y): &(&&[u8], &&[u8])| x == y;
            let before = x.iter().zip(&y).take_while(same).count();
            let (x, y) = (&x[before..], &y[before..]);
            let behind = x.iter().rev().zip(y.iter().rev()).take_while(same).count();
            let said = |rest: &[&[u8]]| rest[..rest.len() - behind].join(&b' ');
            let said = [said(x), said(y)];
            said[0] != said[1]
                && signs.iter().any(|pair| said.iter().all(|said| pair.iter().any(|sign| sign.as_bytes() == &said[..])))
        };
        !signs.is_empty() && old.len() == new.len() && old.iter().zip(&new).any(turned)
    }

    /// Whether a side exchanged branches of a statement, and the other side changed what leads to one of them, put one in
    /// or took one out: neither condition says anything of the other's branches. So it is if a side turned a condition
    /// into its opposite, whatever it did with the branches. Nor is in a branch that one side put in what the other put
    /// into all of them.
    pub(super) fn at_odds_over_branches(&self, base: NodeId, ours: NodeId, theirs: NodeId) -> bool {
        // What lists statements has none: they stand beside one another.
        if self.trees.base.is_block(base) {
            return false;
        }
        let old = self.trees.base.branches(base);
        let of = |side: Side| side.of(ours, theirs);
        if Side::BOTH.into_iter().any(|side| {
            let other = of(side.other());
            self.tree(side.other()).branches(other).len() != old.len() && self.turned_condition(base, side, of(side))
        }) {
            return true;
        }
        if old.len() < 2 {
            return false;
        }
        let exchanged = |side: Side, own: NodeId| {
            let new = self.tree(side).branches(own);
            let there = |block| self.to_side(side, block).and_then(|n| new.iter().position(|(_, block)| *block == n));
            !old.iter().filter_map(|(_, block)| there(*block)).is_sorted()
        };
        let more = |side: Side| self.tree(side).branches(of(side)).len() > old.len();
        if Side::BOTH.into_iter().any(|side| more(side.other()) && self.put_into_branches(base, side, of(side))) {
            return true;
        }
        let changed = |side: Side| led_by(&self.trees.base, base) != led_by(self.tree(side), of(side));
        // The same condition for other branches is another one.
        let alike = || led_by(&self.trees.ours, ours) == led_by(&self.trees.theirs, theirs);
        Side::BOTH.into_iter().any(|side| {
            exchanged(side, of(side))
                && changed(side.other())
                && !(exchanged(side.other(), of(side.other())) && alike())
        })
    }
}
