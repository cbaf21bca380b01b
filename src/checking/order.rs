//! Lists whose order is a rule of the language.

use super::census::words;
use super::sound::Sides;
use super::unsound::Unsound;
use crate::syntax::{NodeId, Part, Tree};

/// The entries that stand after one of a higher rank, in lists whose order is a rule of the language, or after one that
/// must be the last.
pub(super) fn misplaced(tree: &Tree<'_>) -> Vec<NodeId> {
    let mut found = Vec::new();
    for id in (0..tree.len() as u32).map(NodeId) {
        let Some(rule) = tree.list_rule(id) else { continue };
        if rule.lines {
            continue;
        }
        let ranked = !rule.free;
        let (mut highest, mut ended) = (0, false);
        for entry in tree.part(id, Part::Entry) {
            if tree.is_comment(*entry) {
                continue;
            }
            let rule = tree.entry_rule(*entry);
            let rank = rule.filter(|_| ranked).map_or(0, |r| r.rank);
            if rank < highest || std::mem::replace(&mut ended, rule.is_some_and(|r| r.last)) {
                found.push(*entry);
            }
            highest = if rule.is_some_and(|r| r.barrier) { 0 } else { highest.max(rank) };
        }
    }
    found
}

pub(super) fn out_of_order(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
    let found = misplaced(tree);
    if found.is_empty() {
        return None;
    }
    let text = |tree: &Tree<'_>, entry: NodeId| words(tree.node_text(tree.node(entry).core));
    let texts = |side: &Tree<'_>| misplaced(side).into_iter().map(|entry| text(side, entry)).collect();
    let had: [Vec<u64>; 2] = sides().map(|s| [texts(&s.ours), texts(&s.theirs)]).unwrap_or_default();
    if had.iter().any(|had| had.len() >= found.len()) {
        // What a side has so, the other may have changed besides.
        return None;
    }
    let node = found.into_iter().find(|entry| had.iter().all(|had| !had.contains(&text(tree, *entry))))?;
    Some(Unsound::Order {
        kind: tree.language.kind_name(tree.node(tree.node(node).parent).kind).replace('_', " "),
        line: tree.line_of(tree.node(node).span.start),
    })
}
