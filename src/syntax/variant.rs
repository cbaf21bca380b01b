//! What tells two definitions of one name apart.

use super::hash_bytes;
use super::tree::{NodeId, Tree};

impl Tree<'_> {
    /// Hashes of what may make an entry another one than one of its name, white space aside: of all its attributes, with
    /// each of its parts of the kind that its rule gives, if it has any. Two that have one of these in common may be one.
    pub(crate) fn variants(&self, entry: NodeId) -> Vec<u64> {
        let kind = |id: NodeId| self.node(id).kind;
        let told = self.entry_rule(entry).and_then(|rule| rule.variant);
        // Hashes of trees will not do: in another one what it holds may be a list that was not looked into.
        let more = |hash: u64, part: &NodeId| {
            let words = self.node_text(*part).split(u8::is_ascii_whitespace).filter(|word| !word.is_empty());
            words.fold(hash, hash_bytes)
        };
        let attributes = self.kids(entry).iter().filter(|kid| self.language.rule(kind(**kid)).prefix).fold(16, more);
        let parts = self.kids(self.node(entry).core).iter().filter(|kid| told == Some(kind(**kid)));
        let variants: Vec<u64> = parts.map(|part| more(attributes, part)).collect();
        if variants.is_empty() { vec![attributes] } else { variants }
    }
}
