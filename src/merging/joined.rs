//! Imports that one side joined into one, while the other went on with the two.

use super::units::{Form, Unit};
use super::{Merger, Side, Versions};
use crate::syntax::{NodeId, Part};

impl Merger<'_, '_> {
    /// Finds entries that one side deleted because another entry of the same key lists all that they
    /// listed, and the other side changed. Their lists are merged as one.
    pub(super) fn join(&mut self, seqs: &Versions<&[NodeId]>, units: &mut [Unit]) {
        for gone in 0..units.len() {
            for side in Side::BOTH {
                let (Some(changed), None) = (entry(seqs, &units[gone], side.other()), entry(seqs, &units[gone], side))
                else {
                    continue;
                };
                let base = seqs.base[units[gone].base.start];
                if units[gone].form != Form::Single || !self.changed(side.other(), base, changed) {
                    continue;
                }
                if (0..units.len()).any(|into| into != gone && self.join_two(seqs, units, gone, into, side)) {
                    units[gone].moved[side as usize] = true;
                }
            }
        }
    }

    /// Joins the lists of two units, if `side` did.
    fn join_two(&mut self, seqs: &Versions<&[NodeId]>, units: &[Unit], gone: usize, into: usize, side: Side) -> bool {
        let trees = self.trees;
        let (first, second) = (gone.min(into), gone.max(into));
        let base = |u: usize| seqs.base[units[u].base.start];
        let (own, key) = (trees.get(side), trees.base.node(base(gone)).key);
        let free = trees.base.entry_rule(base(gone)).is_some_and(|r| r.free && !r.unique);
        if units[into].form != Form::Single || key == 0 || !free || trees.base.node(base(into)).key != key {
            return false;
        }
        let (Some(joint), Some(kept)) = (entry(seqs, &units[into], side), entry(seqs, &units[into], side.other()))
        else {
            return false;
        };
        let other = trees.get(side.other());
        let changed = entry(seqs, &units[gone], side.other()).expect("asked before");
        if own.node(joint).key != key || other.node(kept).key != key || other.node(changed).key != key {
            return false;
        }
        let of = |u: usize| if u == gone { changed } else { kept };
        let (Some(list), Some(gone_list), Some(own_list)) =
            (name_list(&trees.base, base(into)), name_list(&trees.base, base(gone)), name_list(own, joint))
        else {
            return false;
        };
        let (Some(x), Some(y)) = (name_list(other, of(first)), name_list(other, of(second))) else { return false };
        let names = own.part(own_list, Part::Entry);
        let at = |b: &NodeId| names.iter().copied().find(|n| own.core_hash(*n) == trees.base.core_hash(*b));
        let there: Option<Vec<(NodeId, NodeId)>> =
            trees.base.part(gone_list, Part::Entry).iter().map(|b| Some((*b, at(b)?))).collect();
        let Some(there) = there else { return false };
        for (b, n) in there {
            self.matched[side as usize].pair_equal(&trees.base, b, own, n);
        }
        let (b1, b2) = if first == into { (list, gone_list) } else { (gone_list, list) };
        let mut joined = Versions {
            base: [trees.base.part(b1, Part::Entry), trees.base.part(b2, Part::Entry)].concat(),
            ..Versions::default()
        };
        *joined.get_mut(side) = names.to_vec();
        *joined.get_mut(side.other()) = [other.part(x, Part::Entry), other.part(y, Part::Entry)].concat();
        self.joined.insert(list, joined);
        true
    }
}

pub(super) fn entry(seqs: &Versions<&[NodeId]>, unit: &Unit, side: Side) -> Option<NodeId> {
    unit.sides[side as usize].as_ref().map(|r| seqs.get(side)[r.start])
}

/// The list of names in an entry: what it holds, in any order.
pub(super) fn name_list(tree: &crate::syntax::Tree<'_>, entry: NodeId) -> Option<NodeId> {
    let node = tree.node(entry);
    (node.core.0..node.end.0).map(NodeId).find(|n| is_name_list(tree, *n))
}

/// Whether a node is such a list.
pub(super) fn is_name_list(tree: &crate::syntax::Tree<'_>, node: NodeId) -> bool {
    tree.list_rule(node).is_some_and(|r| !r.lines && r.free && r.keyed_by_text)
}
