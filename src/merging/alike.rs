//! Entries of one form, as the rows of a table are.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::hunks::Hunk;
use super::units::Unit;
use super::{Merger, Side, Versions};
use crate::syntax::{NodeId, Part, Tree, mix};

/// So many entries of one form are needed to tell that a side gave all of them another.
const SEVERAL: usize = 2;

/// How far below an entry its form is looked at: a value and its key are below the pair that they are.
const DEEP: u32 = 2;

impl Merger<'_, '_> {
    /// Puts in dispute what a side put into a list in a form that the other side took from all entries that had it:
    /// there, a row has another number of columns now, or is made by a call.
    pub(super) fn of_another_form(&mut self, seqs: &Versions<&[NodeId]>, units: &[Unit], hunks: &[Hunk]) {
        let puts_in = |side: Side| hunks.iter().any(|h| h.side == side && !h.put_in.is_empty());
        for side in Side::BOTH {
            if !puts_in(side.other()) || seqs.base.len() < SEVERAL {
                continue;
            }
            let given = self.forms_given(seqs, units, hunks, side);
            if given.is_empty() {
                continue;
            }
            let tree = self.tree(side.other());
            let put_in = hunks.iter().filter(|h| h.side != side).flat_map(|h| &seqs.get(h.side)[h.put_in.clone()]);
            let outdated =
                put_in.copied().filter(|n| self.to_base(side.other(), *n).is_none() && given.contains(&form(tree, *n)));
            let outdated: Vec<NodeId> = outdated.collect();
            self.unsettled[side.other() as usize].extend(outdated);
        }
    }

    /// The forms that several entries of base have, and that a side took from all of them that it kept, or put others in
    /// the place of.
    fn forms_given(&self, seqs: &Versions<&[NodeId]>, units: &[Unit], hunks: &[Hunk], side: Side) -> HashSet<u64> {
        let own = seqs.get(side);
        let mut pairs: Vec<(NodeId, NodeId)> = Vec::new();
        for Unit { base, sides, .. } in units {
            match &sides[side as usize] {
                Some(range) if range.len() == base.len() => {
                    pairs.extend(seqs.base[base.clone()].iter().copied().zip(own[range.clone()].iter().copied()));
                }
                Some(_) => return HashSet::default(),
                None => {}
            }
        }
        for hunk in hunks.iter().filter(|h| h.side == side && h.units.len() == h.put_in.len()) {
            let lost = units[hunk.units.clone()].iter().filter(|u| u.base.len() == 1).map(|u| seqs.base[u.base.start]);
            pairs.extend(lost.zip(own[hunk.put_in.clone()].iter().copied()));
        }
        let mut given: HashMap<u64, (usize, Option<u64>)> = HashMap::default();
        for (old, new) in pairs {
            let (old, new) = (form(&self.trees.base, old), form(self.tree(side), new));
            let known = given.entry(old).or_insert((0, Some(new)));
            known.0 += 1;
            known.1 = known.1.filter(|before| *before == new && new != old);
        }
        let several = given.into_iter().filter(|(_, (count, new))| *count >= SEVERAL && new.is_some());
        several.map(|(old, _)| old).collect()
    }
}

/// Of what kinds an entry and its parts are, and how many parts of a list in it are known by their places.
fn form(tree: &Tree<'_>, entry: NodeId) -> u64 {
    fn add(tree: &Tree<'_>, node: NodeId, deep: u32, form: u64) -> u64 {
        let form = mix(form, u64::from(tree.node(node).kind.0));
        if tree.node(node).list.is_some() {
            let placed = |n: &&NodeId| tree.node(**n).key == 0 && !tree.is_comment(**n);
            return mix(form, tree.part(node, Part::Entry).iter().filter(placed).count() as u64);
        }
        let inside = tree.kids(node).iter().filter(|kid| deep > 0 && !tree.node(**kid).anonymous);
        inside.fold(form, |form, kid| add(tree, *kid, deep - 1, form))
    }
    add(tree, tree.node(entry).core, DEEP, 0)
}
