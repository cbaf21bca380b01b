//! Statements that one side put others in the place of, below comments that the other side edited.

use rustc_hash::FxHashMap as HashMap;

use crate::matching::Matching;
use crate::syntax::{NodeId, Tree, mix};
use crate::{Side, Versions, once};

/// How far the neighbours are looked for between which a statement stands.
const NEIGHBOURS_SEARCHED: usize = 32;

/// Takes a statement that a side put below the same comments for the one that stood there, if the other side changed only
/// these: there is nothing to choose, for the one says what is done and the other what is said of it.
pub(super) fn pair_below_comments(trees: &Versions<Tree<'_>>, matched: &mut [Matching; 2]) {
    let base = &trees.base;
    for side in Side::BOTH {
        let (own, tree, there) = (side as usize, trees.get(side), trees.get(side.other()));
        let edited = |id: &NodeId| {
            matched[own].to(*id).is_none()
                && matched[1 - own].to(*id).is_some_and(|other| {
                    base.core_hash(*id) == there.core_hash(other) && base.node(*id).hash != there.node(other).hash
                })
        };
        let statements = (1..base.len() as u32).map(NodeId).filter(|id| base.is_statement(*id));
        let edited: Vec<(NodeId, u64)> =
            statements.filter(edited).filter_map(|id| Some((id, comments_of(base, id)?))).collect();
        if edited.is_empty() {
            continue;
        }
        let new =
            (1..tree.len() as u32).map(NodeId).filter(|id| tree.is_statement(*id) && matched[own].from(*id).is_none());
        let below = |id: NodeId| Some(((tree.node(id).parent, comments_of(tree, id)?), id));
        let below: HashMap<(NodeId, u64), Option<NodeId>> = once::by_key(new.filter_map(below));
        for (id, comments) in edited {
            let list = matched[own].to(base.node(id).parent);
            let Some(found) = list.and_then(|list| below.get(&(list, comments)).copied().flatten()) else { continue };
            if !between(&matched[own], base, id, tree, found) {
                continue;
            }
            let beside = |tree: &Tree<'_>, id: NodeId| {
                let core = tree.node(id).core;
                tree.kids(id).iter().copied().filter(|kid| *kid != core).collect::<Vec<NodeId>>()
            };
            for (x, y) in beside(base, id).into_iter().zip(beside(tree, found)) {
                matched[own].pair_equal(base, x, tree, y);
            }
            let cores = (base.node(id).core, tree.node(found).core);
            if matched[own].to(cores.0).is_none() && matched[own].from(cores.1).is_none() {
                matched[own].pair(cores.0, cores.1);
            }
            matched[own].pair(id, found);
        }
    }
}

/// What the comments of an entry say; nothing, if it has none.
fn comments_of(tree: &Tree<'_>, entry: NodeId) -> Option<u64> {
    let core = tree.node(entry).core;
    if core == entry {
        return None;
    }
    let mut comments = tree.kids(entry).iter().filter(|kid| **kid != core).peekable();
    comments.peek()?;
    Some(comments.fold(0, |hash, kid| mix(hash, tree.node(*kid).hash)))
}

/// Whether an entry of a side stands between what is around a base entry.
fn between(matching: &Matching, base: &Tree<'_>, old: NodeId, tree: &Tree<'_>, new: NodeId) -> bool {
    let (kids, at) = (base.kids(base.node(old).parent), base.node(old).position as usize);
    let place = |kid: &NodeId| {
        let there = matching.to(*kid).filter(|there| tree.node(*there).parent == tree.node(new).parent)?;
        Some(tree.node(there).position)
    };
    let before = kids[..at].iter().rev().take(NEIGHBOURS_SEARCHED).find_map(place);
    let after = kids[at + 1..].iter().take(NEIGHBOURS_SEARCHED).find_map(place);
    let own = tree.node(new).position;
    before.is_none_or(|place| place < own) && after.is_none_or(|place| own < place)
}
