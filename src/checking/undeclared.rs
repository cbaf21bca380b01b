//! Names that a text uses and does not declare, as no version has it.

use rustc_hash::FxHashSet as HashSet;

use super::unsound::Unsound;
use crate::grammar::words;
use crate::syntax::{NodeId, Tree};

/// The names in a text put together that are not in `own`, the side that most of it is from, where `other`, the side
/// that they are from, declares them and the text does not: each where it stands first.
pub(super) fn undeclared(tree: &Tree<'_>, own: &[u8], other: &Tree<'_>) -> Vec<Unsound> {
    let known: HashSet<&[u8]> = words(own).collect();
    let used = |id: &NodeId| {
        let name = tree.is_leaf(*id) && !tree.node(*id).anonymous && !tree.is_comment(*id);
        name && !tree.is_member(*id) && !tree.is_declaration(*id)
    };
    let uses = tree.beside_imports(NodeId::ROOT).filter(used).flat_map(|id| tree.names(id));
    let mut strange = uses.filter(|name| !known.contains(tree.text(*name))).peekable();
    if strange.peek().is_none() {
        return Vec::new();
    }
    let (there, mut here) = (declared(other), declared(tree));
    let mut found = Vec::new();
    for name in strange {
        let text = tree.text(name);
        if there.contains(text) && here.insert(text) {
            let line = tree.line_of(name.start);
            found.push(Unsound::Undeclared { name: String::from_utf8_lossy(text).into_owned(), line });
        }
    }
    found
}

fn declared<'s>(tree: &Tree<'s>) -> HashSet<&'s [u8]> {
    tree.declared(NodeId::ROOT).into_iter().map(|name| tree.text(name)).collect()
}
