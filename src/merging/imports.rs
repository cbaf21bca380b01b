//! Imports that stand in other statements, such as one for each version of a library.

use rustc_hash::FxHashSet as HashSet;

use super::joined::{is_name_list, name_list};
use super::pieces::{Content, Item, Piece};
use super::split::group;
use super::{Merger, Side, TakenIn, Versions};
use crate::matching::Matching;
use crate::syntax::{NodeId, Part, Tree};

impl Merger<'_, '_> {
    /// Whether a side only added names to an import that the other side took out, with all its names, or put them in the
    /// place of some: what it added stays. If so, the list of them is to be merged with an empty one.
    pub(super) fn only_added_names(&mut self, side: Side, base: NodeId, kept: NodeId) -> bool {
        let (b, tree, there) = (&self.trees.base, self.tree(side), self.tree(side.other()));
        let (Some(old_list), Some(list)) = (name_list(b, base), name_list(tree, kept)) else { return false };
        let names = b.part(old_list, Part::Entry);
        let unchanged = |name: &NodeId| self.to_side(side, *name).is_none_or(|own| !self.changed(side, *name, own));
        let added = tree.part(list, Part::Entry).iter().any(|name| self.to_base(side, *name).is_none());
        if !b.is_import(base) || !added || group(b, old_list) != group(tree, list) || !names.iter().all(unchanged) {
            return false;
        }
        // What the other side brings in from elsewhere now may be there with what the one side added.
        let gone: HashSet<&[u8]> = declared_texts(b, base);
        if !gone.is_disjoint(&declared_texts(there, NodeId::ROOT)) {
            return false;
        }
        // The statement is one of its own now, with the names that it had.
        let pairs: Vec<_> = names.iter().filter_map(|name| Some((*name, self.to_side(side, *name)?))).collect();
        let (b, tree) = (&self.trees.base, self.trees.get(side));
        self.matched[side as usize].part(b, base, tree, kept);
        for (name, own) in pairs {
            self.matched[side as usize].pair_equal(b, name, tree, own);
        }
        self.taken_in.insert((side, list), TakenIn { base: names.to_vec(), other: Vec::new() });
        true
    }

    /// Whether the sides took out all names of an import, each some of them.
    pub(super) fn brings_nothing(&self, item: &Item) -> bool {
        let Content::Piece(Piece::Merged(merged)) = &item.content else { return false };
        match merged.nodes.base {
            Some(list) if is_name_list(&self.trees.base, list) => {
                !merged.items.iter().any(|item| item.part == Part::Entry)
            }
            _ => merged.items.iter().any(|item| self.brings_nothing(item)),
        }
    }

    /// Whether the sides import other names from where each has several statements for names from there: then that is how the
    /// file has them.
    pub(super) fn imports_one_by_one(&self, ours: NodeId, theirs: NodeId) -> bool {
        let (o, t) = (&self.trees.ours, &self.trees.theirs);
        let several = |side: Side, entry: NodeId| {
            let node = self.tree(side).node(entry);
            self.several(side).contains(&(node.parent, node.key))
        };
        o.is_import(ours)
            && t.is_import(theirs)
            && several(Side::Ours, ours)
            && several(Side::Theirs, theirs)
            && declared_texts(o, ours).is_disjoint(&declared_texts(t, theirs))
    }

    /// Whether two entries do nothing but import, the one way or another, and neither says a name that the other brings in.
    pub(super) fn import_apart(&self, ours: NodeId, theirs: NodeId) -> bool {
        let (o, t) = (&self.trees.ours, &self.trees.theirs);
        let known = (o.node(ours).key, t.node(theirs).key);
        let one = o.is_import(ours) && t.is_import(theirs) && known.0 == known.1;
        (!one || self.imports_one_by_one(ours, theirs)) && only_imports(o, ours) && only_imports(t, theirs) && {
            let (own, other) = (declared_texts(o, ours), declared_texts(t, theirs));
            let said = |tree: &Tree<'_>, entry: NodeId, names: &HashSet<&[u8]>| {
                let beside = |id: &NodeId| tree.is_leaf(*id) && *id != entry;
                tree.beside_imports(entry).filter(beside).any(|id| names.contains(tree.node_text(id)))
            };
            own.is_disjoint(&other) && !said(o, ours, &other) && !said(t, theirs, &own)
        }
    }
}

/// Takes an import of other names, from elsewhere, for new and not for what one of base became, if the other side took that
/// out: nothing of it is left then.
pub(super) fn part_replaced(trees: &Versions<Tree<'_>>, matched: &mut [Matching; 2]) {
    let base = &trees.base;
    for side in Side::BOTH {
        let (own, tree) = (side as usize, trees.get(side));
        let gone = |x: &NodeId| base.is_statement(*x) && base.is_import(*x) && matched[1 - own].to(*x).is_none();
        let replaced = |x: NodeId| {
            let y = matched[own].to(x).filter(|y| tree.is_import(*y) && tree.node(*y).key != base.node(x).key)?;
            let told = !base.declared(x).is_empty() && !tree.declared(y).is_empty();
            (told && own_names(base, x).is_disjoint(&own_names(tree, y))).then_some((x, y))
        };
        let pairs: Vec<_> = (1..base.len() as u32).map(NodeId).filter(gone).filter_map(replaced).collect();
        pairs.into_iter().for_each(|(x, y)| matched[own].part(base, x, tree, y));
    }
}

/// The names that an entry declares.
fn declared_texts<'t>(tree: &'t Tree<'_>, entry: NodeId) -> HashSet<&'t [u8]> {
    tree.declared(entry).into_iter().map(|name| tree.text(name)).collect()
}

/// The same without those that only begin a path, and that other paths may bring in too.
pub(super) fn own_names<'t>(tree: &'t Tree<'_>, entry: NodeId) -> HashSet<&'t [u8]> {
    tree.declared_alone(entry).into_iter().map(|name| tree.text(name)).collect()
}

/// Whether a statement is an import, or holds some and nothing else in all its blocks, each of which tells the names that it
/// brings in.
pub(super) fn only_imports(tree: &Tree<'_>, entry: NodeId) -> bool {
    if tree.is_comment(entry) {
        return false;
    }
    let (mut left, mut found) = (vec![entry], false);
    while let Some(entry) = left.pop() {
        if tree.is_comment(entry) {
            continue;
        }
        let branches = tree.branches(tree.node(entry).core);
        let import = tree.is_import(entry) && !tree.declared(entry).is_empty();
        if !import && (branches.is_empty() || tree.is_definition(entry)) {
            return false;
        }
        found |= import;
        left.extend(branches.into_iter().flat_map(|(_, block)| tree.part(block, Part::Entry)).copied());
    }
    found
}
