//! What stands in a list instead of an entry of its own, beside such an entry.

use std::cell::OnceCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::census::{Counts, key_paths};
use crate::grammar::{Kind, ListRule, outer_name, words};
use crate::syntax::{NodeId, Part, Tree, hash_bytes, mix};

/// What is given, and to what.
type Given<'s> = (&'s [u8], &'s [u8]);

/// How often, in each list of entries, one thing is given by an entry and by the lists that belong to another: twice, if
/// by both.
pub(super) fn implied(tree: &Tree<'_>) -> Counts {
    let mut counts = Counts::default();
    let rules: Vec<(&ListRule, Kind)> =
        tree.language.lists().iter().filter_map(|rule| Some((rule, rule.implies?))).collect();
    if rules.is_empty() {
        return counts;
    }
    let paths = OnceCell::new();
    for id in (0..tree.len() as u32).map(NodeId).filter(|id| tree.is_block(*id)) {
        let entries = tree.part(id, Part::Entry);
        let given: HashMap<Given<'_>, NodeId> = entries.iter().filter_map(|e| given_by(tree, *e, &rules)).collect();
        if given.is_empty() {
            continue;
        }
        for entry in entries {
            let Some(name) = tree.key_parts(*entry).next().map(|name| tree.node_text(name)) else { continue };
            for what in listed_for(tree, *entry, &rules) {
                let Some(other) = given.get(&(what, name)) else { continue };
                let key = mix(hash_bytes(15, what), hash_bytes(15, name));
                let paths = paths.get_or_init(|| key_paths(tree));
                counts.insert((paths[id.index()], key), (2, *other));
            }
        }
    }
    counts
}

/// What an entry gives to what, if lists may give that too: by its own name alone, not with arguments.
fn given_by<'s>(tree: &Tree<'s>, entry: NodeId, rules: &[(&ListRule, Kind)]) -> Option<(Given<'s>, NodeId)> {
    let core = tree.node(entry).core;
    let with =
        tree.entry_rule(entry).filter(|_| rules.iter().any(|(_, kind)| *kind == tree.node(core).kind))?.unique_with?;
    let what = tree.kids(core).iter().find(|k| tree.node(**k).field == with)?;
    let what = words(tree.node_text(*what)).last().filter(|_| !tree.node_text(*what).ends_with(b">"))?;
    let to = outer_name(tree.node_text(tree.key_parts(entry).last()?))?;
    Some(((what, to), entry))
}

/// What stands in the lists of such things that belong to an entry: all their words.
fn listed_for<'s>(tree: &Tree<'s>, entry: NodeId, rules: &[(&ListRule, Kind)]) -> HashSet<&'s [u8]> {
    let prefix = |k: &&NodeId| tree.language.rule(tree.node(**k).kind).prefix;
    let prefixes = tree.kids(entry).iter().filter(prefix).map(|k| words(tree.node_text(*k)));
    let listed = prefixes.filter_map(|mut words| {
        let beside = words.next()?;
        let known = rules.iter().any(|(rule, _)| rule.beside.iter().any(|text| text.as_bytes() == beside));
        known.then_some(words)
    });
    listed.flatten().collect()
}
