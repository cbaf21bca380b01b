//! Imports that stand in other statements, such as one for each version of a library.

use rustc_hash::FxHashSet as HashSet;

use super::Merger;
use crate::syntax::{NodeId, Part, Tree};

impl Merger<'_, '_> {
    /// Whether two entries do nothing but import, the one way or another, and neither says a name that the other brings in.
    pub(super) fn import_apart(&self, ours: NodeId, theirs: NodeId) -> bool {
        let (o, t) = (&self.trees.ours, &self.trees.theirs);
        let known = (o.node(ours).key, t.node(theirs).key);
        let one = o.is_import(ours) && t.is_import(theirs) && known.0 == known.1;
        !one && only_imports(o, ours) && only_imports(t, theirs) && {
            let (own, other) = (declared_texts(o, ours), declared_texts(t, theirs));
            let said = |tree: &Tree<'_>, entry: NodeId, names: &HashSet<&[u8]>| {
                let beside = |id: &NodeId| tree.is_leaf(*id) && *id != entry;
                tree.beside_imports(entry).filter(beside).any(|id| names.contains(tree.node_text(id)))
            };
            own.is_disjoint(&other) && !said(o, ours, &other) && !said(t, theirs, &own)
        }
    }
}

/// The names that an entry declares.
fn declared_texts<'t>(tree: &'t Tree<'_>, entry: NodeId) -> HashSet<&'t [u8]> {
    tree.declared(entry).into_iter().map(|name| tree.text(name)).collect()
}

/// Whether a statement is an import, or holds nothing but such in all its blocks, each of which tells the names that it
/// brings in.
pub(super) fn only_imports(tree: &Tree<'_>, entry: NodeId) -> bool {
    if tree.is_comment(entry) {
        return false;
    }
    let mut left = vec![entry];
    while let Some(entry) = left.pop() {
        if tree.is_comment(entry) {
            continue;
        }
        let branches = tree.branches(tree.node(entry).core);
        let import = tree.is_import(entry) && !tree.declared(entry).is_empty();
        if !import && (branches.is_empty() || tree.is_definition(entry)) {
            return false;
        }
        left.extend(branches.into_iter().flat_map(|(_, block)| tree.part(block, Part::Entry)).copied());
    }
    true
}
