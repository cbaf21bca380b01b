//! What tells two definitions of one name apart.

use super::hash_bytes;
use super::tree::{NodeId, Tree};

impl Tree<'_> {
    /// A hash of what may make an entry another one than one of its name: its attributes, and its parts of the kind
    /// that its rule gives. White space aside.
    pub(crate) fn variant(&self, entry: NodeId) -> u64 {
        let node = self.node(entry);
        let kind = |id: NodeId| self.node(id).kind;
        let attributes = self.kids(entry).iter().filter(|kid| self.language.rule(kind(**kid)).prefix);
        let told = self.entry_rule(entry).and_then(|rule| rule.variant);
        let parts = self.kids(node.core).iter().filter(|kid| told == Some(kind(**kid)));
        // Hashes of trees will not do: in another one what it holds may be a list that was not looked into.
        attributes.chain(parts).fold(16, |hash, part| {
            let words = self.node_text(*part).split(u8::is_ascii_whitespace).filter(|word| !word.is_empty());
            words.fold(hash, hash_bytes)
        })
    }
}
