//! Imports that stand elsewhere and under another path.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::{Matcher, dice};
use crate::syntax::{Listed, NodeId, Tree, listed};

/// How many of the names that two imports bring in must be the same, of all that they bring in.
const SAME_NAMES: f32 = 0.7;

impl Matcher<'_, '_> {
    /// Matches imports that are left over in matched lists and bring in the same names, as no others that are left over
    /// do: what these come from has another path now, and the import is where that belongs. If either path is in both
    /// trees, the names alone went from the one to the other.
    pub(super) fn imported_anew(&mut self) {
        let from = self.imports_left(self.from, true);
        if from.is_empty() {
            return;
        }
        let to = self.imports_left(self.to, false);
        let (old, new) = (by_name(self.from, &from), by_name(self.to, &to));
        let shares = |names: &[&[u8]], of: &HashMap<&[u8], Vec<NodeId>>| {
            let mut found = names.iter().filter_map(|name| of.get(name)).flatten();
            let first = *found.next()?;
            found.all(|other| *other == first).then_some(first)
        };
        for x in from {
            let names = self.from.brought(x);
            let Some(y) = shares(&names, &new) else { continue };
            let there = self.to.brought(y);
            let alike = dice(&names, &there) >= SAME_NAMES;
            let lists = (self.from.node(x).parent, self.to.node(y).parent);
            if alike
                && shares(&there, &old) == Some(x)
                && self.matching.to(lists.0) == Some(lists.1)
                && self.has_new_path(x, y)
            {
                self.pair(x, y);
            }
        }
    }

    /// Whether the names that two imports both bring in come from a path that is in one of the trees only: if either is in
    /// both, the names alone went from the one to the other.
    pub(super) fn has_new_path(&self, a: NodeId, b: NodeId) -> bool {
        let listed = self.listed.get_or_init(|| [listed(self.from), listed(self.to)]);
        let (names, there) = (self.from.brought(a), self.to.brought(b));
        !brings_from(&listed[1], &homes(self.from, a, &listed[0], &there))
            && !brings_from(&listed[0], &homes(self.to, b, &listed[1], &names))
    }

    fn imports_left(&self, tree: &Tree<'_>, from: bool) -> Vec<NodeId> {
        let matched = |n: NodeId| if from { self.matching.to(n) } else { self.matching.from(n) }.is_some();
        let all = (1..tree.len() as u32).map(NodeId);
        all.filter(|n| tree.is_import(*n) && !matched(*n)).collect()
    }
}

/// Imports by each of the names that they bring in.
fn by_name<'s>(tree: &Tree<'s>, imports: &[NodeId]) -> HashMap<&'s [u8], Vec<NodeId>> {
    let mut found: HashMap<&[u8], Vec<NodeId>> = HashMap::default();
    for import in imports {
        for name in tree.brought(*import) {
            found.entry(name).or_default().push(*import);
        }
    }
    found
}

/// The paths before those of the names that an import brings in.
fn homes(tree: &Tree<'_>, import: NodeId, listed: &[Listed], names: &[&[u8]]) -> HashSet<u64> {
    let named = |l: &Listed| l.path.last().is_some_and(|name| names.contains(&name.as_bytes()));
    let shared = |l: &&Listed| tree.contains(import, l.name) && named(l);
    listed.iter().filter(shared).map(Listed::home).collect()
}

/// Whether anything comes from one of some paths.
fn brings_from(listed: &[Listed], homes: &HashSet<u64>) -> bool {
    listed.iter().any(|l| homes.contains(&l.home()))
}
