//! What is known by something that nothing else has.

use std::hash::Hash;

use rustc_hash::FxHashMap as HashMap;

/// Values by their keys; nothing for a key that several have.
pub(crate) fn by_key<K: Eq + Hash, V>(pairs: impl IntoIterator<Item = (K, V)>) -> HashMap<K, Option<V>> {
    let mut found = HashMap::default();
    for (key, value) in pairs {
        found.entry(key).and_modify(|known| *known = None).or_insert(Some(value));
    }
    found
}
