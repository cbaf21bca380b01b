//! How often each thing that may stand only once stands in a text.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::sound::Sides;
use crate::syntax::{NodeId, Part, Tree, hash_bytes, mix};

/// For each node, a hash of the keys that it stands under, its own included.
pub(super) fn key_paths(tree: &Tree<'_>) -> Vec<u64> {
    let mut paths: Vec<u64> = Vec::with_capacity(tree.len());
    for id in (0..tree.len() as u32).map(NodeId) {
        let node = tree.node(id);
        let outer = if id == NodeId::ROOT { 0 } else { paths[node.parent.index()] };
        paths.push(if node.key != 0 { mix(outer, node.key) } else { outer });
    }
    paths
}

/// How often something is, the most in one list of a path of keys, and where it is for the last time.
pub(super) type Counts = HashMap<(u64, u64), (u32, NodeId)>;

/// Notes how often something is in one list, if that is the most.
pub(super) fn keep_most(counts: &mut Counts, key: (u64, u64), n: u32, node: NodeId) {
    let most = counts.entry(key).or_insert((0, node));
    if n > most.0 {
        *most = (n, node);
    }
}

/// How often each key that must stand alone, and each name brought into scope, stands in one list: the most
/// over lists of the same path of keys. With `repetitions`, also how often the same import, or the like, does, and
/// the same text in a list of such.
pub(super) fn census(tree: &Tree<'_>, repetitions: bool) -> Counts {
    let mut counts = Counts::default();
    // Lists that are one with others are counted together.
    let mut together: HashMap<(u64, u64), u32> = HashMap::default();
    for (id, path) in (0..tree.len() as u32).map(NodeId).zip(key_paths(tree)) {
        let Some(rule) = tree.list_rule(id) else { continue };
        let mut here: HashMap<u64, u32> = HashMap::default();
        let mut count = |key: u64, entry: NodeId| {
            let n = if rule.together { together.entry((path, key)).or_default() } else { here.entry(key).or_default() };
            *n += 1;
            keep_most(&mut counts, (path, key), *n, entry);
        };
        for entry in tree.part(id, Part::Entry) {
            let e = tree.node(*entry);
            let own = tree.entry_rule(*entry).filter(|r| !r.key.is_empty());
            let has = |field: u16| tree.kids(e.core).iter().any(|k| tree.node(*k).field == field);
            if e.key != 0 && (rule.unique || own.is_some_and(|r| r.unique || r.unique_with.is_some_and(has))) {
                count(e.key, *entry);
                tree.variants(*entry).iter().for_each(|variant| count(mix(e.key, *variant), *entry));
            } else if e.key != 0 && repetitions && own.map_or(rule.free, |r| r.free) {
                // The names in an import are what stands twice, however they are spread over statements.
                let listed = tree.list_rule(e.core).filter(|r| r.free && r.keyed_by_text);
                let names = listed.map_or(std::slice::from_ref(&e.core), |_| tree.part(e.core, Part::Entry));
                names.iter().for_each(|n| count(mix(e.key, words(tree.node_text(tree.node(*n).core))), *entry));
            } else if e.key == 0 && repetitions && !rule.lines && tree.tells(*entry) {
                count(hash_bytes(13, tree.node_text(e.core)), *entry);
            }
            // Attributes may say that only one of several is there at all.
            let plain = tree.kids(*entry).iter().all(|k| !tree.language.rule(tree.node(*k).kind).prefix);
            if let Some(field) = own.and_then(|r| r.distinct)
                && plain
            {
                let parts = tree.kids(e.core).iter().filter(|k| tree.node(**k).field == field);
                parts.for_each(|k| count(mix(15, words(tree.node_text(*k))), *entry));
            }
            if plain {
                tree.bound_names(*entry).iter().for_each(|n| count(hash_bytes(11, tree.node_text(*n)), *n));
            }
        }
    }
    counts
}

/// From how many places each name is that an import takes from one: from what it is taken from, and from a definition.
pub(super) fn sources(tree: &Tree<'_>) -> Counts {
    let mut counts = Counts::default();
    if !tree.language.entries().iter().any(|rule| rule.takes) {
        return counts;
    }
    for (id, path) in (0..tree.len() as u32).map(NodeId).zip(key_paths(tree)) {
        if tree.list_rule(id).is_none_or(|r| !r.lines) {
            continue;
        }
        let mut taken: HashMap<&[u8], Vec<(u64, NodeId)>> = HashMap::default();
        let mut defined: Vec<NodeId> = Vec::new();
        for entry in tree.part(id, Part::Entry) {
            let rule = tree.entry_rule(*entry);
            if rule.is_some_and(|r| r.takes || r.imports) {
                for part in tree.inside(*entry).filter(|id| tree.is_declaration(*id)) {
                    let from = taken.entry(tree.text(tree.first_of_path(part))).or_default();
                    let key = source(tree, *entry, part);
                    if from.iter().all(|(other, _)| *other != key) {
                        from.push((key, part));
                    }
                }
            } else if rule.is_some_and(|r| r.unique) {
                defined.extend(tree.key_parts(*entry).filter(|id| tree.is_declaration(*id)));
            }
        }
        for name in defined {
            let defined = |from: &&mut Vec<(u64, NodeId)>| from.iter().all(|(key, _)| *key != 0);
            if let Some(from) = taken.get_mut(tree.node_text(name)).filter(defined) {
                from.push((0, name));
            }
        }
        for (name, from) in taken {
            let last = from.iter().map(|(_, name)| *name).max().expect("it is taken");
            keep_most(&mut counts, (path, hash_bytes(14, name)), from.len() as u32, last);
        }
    }
    counts
}

/// A hash of what an import takes a name from: the place that its key names, or, of what is brought in as a whole, that
/// itself; and what it is called there, if it has another name here.
fn source(tree: &Tree<'_>, entry: NodeId, part: NodeId) -> u64 {
    let holder = tree.node(part).parent;
    let renamed = tree.node(holder).core != part && holder != tree.node(entry).core;
    let from = match tree.entry_rule(entry) {
        Some(rule) if rule.takes => tree.node(entry).key,
        _ => 0,
    };
    mix(mix(22, from), if renamed { words(tree.node_text(holder)) } else { 0 })
}

/// How often each name that keeps its value is given one in one list: the most over lists of the same path of keys.
pub(super) fn values(tree: &Tree<'_>) -> Counts {
    let mut counts = Counts::default();
    for (id, path) in (0..tree.len() as u32).map(NodeId).zip(key_paths(tree)) {
        if tree.list_rule(id).is_none_or(|r| !r.lines) {
            continue;
        }
        let mut here: HashMap<u64, u32> = HashMap::default();
        for entry in tree.part(id, Part::Entry).iter().filter(|entry| tree.sets_for_good(**entry)) {
            let Some(name) = tree.key_parts(*entry).last() else { continue };
            let key = mix(16, tree.node(*entry).key);
            let n = here.entry(key).or_default();
            *n += 1;
            keep_most(&mut counts, (path, key), *n, name);
        }
    }
    counts
}

/// A hash of a text, white space aside. The hashes of a tree will not do: in another one the same entry may
/// hold a list that was not looked into.
pub(super) fn words(text: &[u8]) -> u64 {
    let words = text.split(u8::is_ascii_whitespace).filter(|w| !w.is_empty());
    words.fold(12, hash_bytes)
}

/// How often a side had what.
pub(super) struct Had {
    counts: Counts,
    paths: HashSet<u64>,
    by_key: HashMap<u64, u32>,
}

impl Had {
    pub(super) fn new(counts: Counts) -> Had {
        let paths = counts.keys().map(|(path, _)| *path).collect();
        let mut by_key: HashMap<u64, u32> = HashMap::default();
        for ((_, key), (n, _)) in &counts {
            let most = by_key.entry(*key).or_default();
            *most = (*most).max(*n);
        }
        Had { counts, paths, by_key }
    }

    /// Whether it has lists of this path.
    pub(super) fn knows(&self, path: u64) -> bool {
        self.paths.contains(&path)
    }

    /// The most in one list of this path; in any, if the side has none of it, for then the other side may have
    /// given it a new name.
    pub(super) fn most(&self, (path, key): &(u64, u64)) -> u32 {
        if self.knows(*path) {
            self.counts.get(&(*path, *key)).map_or(0, |(n, _)| *n)
        } else {
            self.by_key.get(key).copied().unwrap_or(0)
        }
    }
}

/// The first of what is more often in a text than in either side, if it is there more than once. Where both sides have
/// several definitions of one name, each may have put in another: then only those that nothing else tells apart count.
/// If their rule does not say what does, base has to have several already.
pub(super) fn beyond(tree: &Tree<'_>, sides: Sides<'_, '_, '_>, count: impl Fn(&Tree<'_>) -> Counts) -> Option<NodeId> {
    let mut suspects: Vec<_> = count(tree).into_iter().filter(|(_, (n, _))| *n > 1).collect();
    if suspects.is_empty() {
        return None;
    }
    suspects.sort_by_key(|(_, (_, node))| *node);
    let trees = sides();
    let sides = trees.map(|s| [&s.ours, &s.theirs].map(|tree| Had::new(count(tree))));
    let had = |k: &(u64, u64)| sides.iter().flatten().map(|side| side.most(k)).max().unwrap_or(0);
    let may_be_several = |k: &(u64, u64), node: NodeId| {
        let (name, told) = (tree.node(node).key == k.1, tree.entry_rule(node).is_some_and(|r| r.variant.is_some()));
        let in_base = || trees.is_some_and(|trees| Had::new(count(&trees.base)).most(k) > 1);
        name && sides.as_ref().is_some_and(|sides| sides.iter().all(|side| side.most(k) > 1)) && (told || in_base())
    };
    let beyond = |(k, (n, node)): &((u64, u64), (u32, NodeId))| *n > had(k) && !may_be_several(k, *node);
    suspects.into_iter().find(beyond).map(|(_, (_, node))| node)
}
