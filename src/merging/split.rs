//! An import that one side split, or took into others, while the other added names to it.

use std::cell::OnceCell;

use rustc_hash::FxHashMap as HashMap;

use super::joined::{entry, name_list};
use super::units::{Form, Unit};
use super::{Merger, Side, TakenIn, Versions};
use crate::syntax::{NodeId, Part, Tree, mix};

impl Merger<'_, '_> {
    /// Finds entries whose names one side lists in several others of the same kind, and to which the other side
    /// added names. These go to where their neighbours went.
    pub(super) fn split(&mut self, seqs: &Versions<&[NodeId]>, units: &mut [Unit]) {
        let listed = Side::BOTH.map(|_| OnceCell::new());
        for unit in units.iter_mut().filter(|u| u.form == Form::Single) {
            let split = |side: &Side| self.split_one(seqs, unit, *side, &listed[*side as usize]);
            let Some(side) = Side::BOTH.into_iter().find(split) else { continue };
            unit.sides[side as usize] = None;
            unit.moved[side as usize] = true;
        }
    }

    /// Hands the names that the other side added to one entry over to those into which `side` split it, if it did.
    /// What the side lists is in `listed`, when that was first asked for.
    fn split_one(&mut self, seqs: &Versions<&[NodeId]>, unit: &Unit, side: Side, listed: &OnceCell<ByName>) -> bool {
        let trees = self.trees;
        let (base, own) = (&trees.base, trees.get(side));
        let (other_side, other) = (side.other(), trees.get(side.other()));
        let old = seqs.base[unit.base.start];
        let Some(changed) = entry(seqs, unit, other_side) else { return false };
        let free = base.entry_rule(old).is_some_and(|r| r.free && !r.unique);
        if !free || !self.changed(other_side, old, changed) {
            return false;
        }
        let (Some(list), Some(other_list)) = (name_list(base, old), name_list(other, changed)) else { return false };
        let of = group(base, list);
        if group(other, other_list) != of {
            return false;
        }
        let (names, other_names) = (base.part(list, Part::Entry), other.part(other_list, Part::Entry));
        let listed = listed.get_or_init(|| by_name(own, seqs.get(side)));
        let places = names.iter().filter_map(|n| listed.get(&(of, base.core_hash(*n)))).flatten().copied();
        let elsewhere = |piece: NodeId| self.to_base(side, piece).is_some_and(|b| b != old);
        let mut pieces: Vec<(NodeId, NodeId)> = places.filter(|(piece, _)| !elsewhere(*piece)).collect();
        pieces.sort_unstable();
        pieces.dedup();
        // Where a name went, by its hash: which of the side's lists, and which name in it.
        let held = |list: NodeId| own.part(list, Part::Entry).iter().map(move |n| (own.core_hash(*n), (list, *n)));
        let went: HashMap<u64, (NodeId, NodeId)> = pieces.iter().flat_map(|(_, list)| held(*list)).collect();
        let whole = match &pieces[..] {
            [] => true,
            [(only, _)] => self.to_base(side, *only).is_some(),
            _ => false,
        };
        let all_there =
            names.iter().all(|n| self.to_side(other_side, *n).is_some_and(|t| other_names.binary_search(&t).is_ok()));
        let one_by_one = pieces.len() > 1 && pieces.iter().all(|(_, list)| own.part(*list, Part::Entry).len() == 1);
        let there = |n: NodeId| listed.contains_key(&(of, other.core_hash(n)));
        let new = |n: &NodeId| self.to_base(other_side, *n).is_none() && !there(*n);
        if whole || !all_there || !other_names.iter().any(new) {
            return false;
        }
        // A new name goes where the one before it went, or else the one behind it.
        let mut shares: HashMap<NodeId, Vec<NodeId>> = HashMap::default();
        let place = |n: &NodeId| {
            let from = self.to_base(other_side, *n)?;
            went.get(&base.core_hash(from)).map(|(list, _)| *list)
        };
        let Some(mut at) = other_names.iter().find_map(place) else { return false };
        for name in other_names {
            at = place(name).unwrap_or(at);
            if place(name).is_some() || new(name) {
                shares.entry(at).or_default().push(*name);
            }
        }
        self.crowded |= one_by_one;
        if let Some(kept) = self.to_side(side, old) {
            self.matched[side as usize].part(base, old, own, kept);
        }
        for (_, piece_list) in pieces {
            let held = names.iter().filter_map(|n| Some((*n, went.get(&base.core_hash(*n))?)));
            let held: Vec<(NodeId, NodeId)> =
                held.filter(|(_, (list, _))| *list == piece_list).map(|(n, (_, own))| (n, *own)).collect();
            for (name, own_name) in &held {
                self.matched[side as usize].pair_equal(base, *name, own, *own_name);
            }
            let run = TakenIn {
                base: held.into_iter().map(|(name, _)| name).collect(),
                other: shares.remove(&piece_list).unwrap_or_default(),
            };
            self.taken_in.insert((side, piece_list), run);
        }
        true
    }
}

/// The entries that list a name, and their lists, by what it is a name of, and its hash.
type ByName = HashMap<(u64, u64), Vec<(NodeId, NodeId)>>;

fn by_name(tree: &Tree<'_>, entries: &[NodeId]) -> ByName {
    let mut found = ByName::default();
    for entry in entries {
        let Some(list) = name_list(tree, *entry) else { continue };
        let of = group(tree, list);
        for name in tree.part(list, Part::Entry) {
            found.entry((of, tree.core_hash(*name))).or_default().push((*entry, list));
        }
    }
    found
}

/// What the names in a list are names of: a hash of what stands before them, brackets aside.
pub(super) fn group(tree: &Tree<'_>, list: NodeId) -> u64 {
    let bracket = |n: &NodeId| matches!(tree.node_text(*n), b"(" | b"[" | b"{");
    let before = tree.part(list, Part::Head).iter().filter(|n| !bracket(n));
    before.fold(0, |of, n| mix(of, tree.node(*n).hash))
}
