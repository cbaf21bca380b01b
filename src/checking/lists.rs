//! Lists of texts of which none stands twice: each is known wherever it stands.
//!
//! They are merged as sets, and as orders where the sides agree on one. A merge of lines, or of parts of a list, does
//! not see that a text was moved.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::census::key_paths;
use super::sound::Sides;
use super::unsound::Unsound;
use crate::grammar::marked;
use crate::once;
use crate::syntax::{NodeId, Part, Tree, hash_bytes};

/// Shorter lists are seldom sorted.
const SHORT: usize = 3;

/// The texts of the lists, by the keys that the lists stand under; nothing where several stand under the same.
type Lists = HashMap<u64, Option<(NodeId, Vec<u64>)>>;

/// A list that has not just what base, less what a side took out, and the sides' own make together, or has it in
/// another order than both sides.
pub(super) fn jumbled(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
    let answer = lists(tree);
    if !answer.values().flatten().any(|(_, texts)| texts.len() >= SHORT) {
        return None;
    }
    let versions = sides()?.as_ref().map(lists);
    let mut faults: Vec<NodeId> = Vec::new();
    for (path, list) in &answer {
        let of = |lists: &Lists| lists.get(path).cloned().flatten().map(|(_, texts)| texts);
        let Some((node, found)) = list else { continue };
        let (Some(base), Some(ours), Some(theirs)) = (of(&versions.base), of(&versions.ours), of(&versions.theirs))
        else {
            continue;
        };
        let [b, o, t, f] = [&base, &ours, &theirs, found].map(|texts| texts.iter().copied().collect::<HashSet<u64>>());
        let wanted = |text: &u64| if b.contains(text) { o.contains(text) && t.contains(text) } else { true };
        let same = o.union(&t).filter(|text| wanted(text)).all(|text| f.contains(text)) && f.iter().all(wanted);
        let shared = |texts: &[u64]| {
            let shared = |text: &&u64| o.contains(*text) && t.contains(*text) && f.contains(*text);
            texts.iter().filter(shared).copied().collect::<Vec<u64>>()
        };
        if !same || shared(&ours) == shared(&theirs) && shared(found) != shared(&ours) {
            faults.push(*node);
        }
    }
    let first = faults.into_iter().min()?;
    Some(Unsound::Jumbled { line: tree.line_of(tree.node(first).span.start) })
}

fn lists(tree: &Tree<'_>) -> Lists {
    let nodes = (0..tree.len() as u32).map(NodeId).zip(key_paths(tree));
    once::by_key(nodes.filter_map(|(id, path)| Some((path, (id, texts(tree, id)?)))))
}

/// The texts in an ordered list of nothing else, if none stands twice.
fn texts(tree: &Tree<'_>, list: NodeId) -> Option<Vec<u64>> {
    tree.list_rule(list).filter(|rule| !rule.lines && !rule.free)?;
    let entries = tree.part(list, Part::Entry).iter().filter(|entry| !tree.is_comment(**entry));
    let text = |entry: &NodeId| {
        let core = tree.node(tree.node(*entry).core);
        let (text, rule) = (tree.text(core.span), tree.language.rule(core.kind));
        let unmarked = &text[marked(text, &rule.unmarked)..];
        // In other quotes it says the same.
        let bare = rule.unquoted(unmarked);
        (tree.node(*entry).key == 0 && tree.tells(*entry)).then(|| hash_bytes(14, bare.as_deref().unwrap_or(unmarked)))
    };
    let texts: Vec<u64> = entries.map(text).collect::<Option<_>>()?;
    let mut seen = HashSet::default();
    (!texts.is_empty() && texts.iter().all(|text| seen.insert(*text))).then_some(texts)
}
