//! Comments that one side edited, where the other put other statements below them, or has them above something else.

use rustc_hash::FxHashMap as HashMap;

use super::stranded::is_telling_comment;
use crate::matching::Matching;
use crate::syntax::{NodeId, Tree, mix};
use crate::{Side, Versions, once};

/// How far the neighbours are looked for between which a statement stands.
const NEIGHBOURS_SEARCHED: usize = 32;

/// Takes a statement that a side put below the same comments for the one that stood there, if the other side changed only
/// these: there is nothing to choose, for the one says what is done and the other what is said of it. Not so what does
/// something to the statement, such as an attribute: that was meant for the one that stood there.
pub(super) fn pair_below_comments(trees: &Versions<Tree<'_>>, matched: &mut [Matching; 2]) {
    let base = &trees.base;
    for side in Side::BOTH {
        let (own, tree, there) = (side as usize, trees.get(side), trees.get(side.other()));
        let edited = |id: &NodeId| {
            let other = matched[1 - own].to(*id).filter(|_| matched[own].to(*id).is_none());
            other.is_some_and(|other| only_comments_differ(base, *id, there, other))
        };
        let statements = (1..base.len() as u32).map(NodeId).filter(|id| base.is_statement(*id));
        let edited: Vec<(NodeId, u64)> =
            statements.filter(edited).filter_map(|id| Some((id, above(base, id)?))).collect();
        if edited.is_empty() {
            continue;
        }
        let new =
            (1..tree.len() as u32).map(NodeId).filter(|id| tree.is_statement(*id) && matched[own].from(*id).is_none());
        let below = |id: NodeId| Some(((tree.node(id).parent, above(tree, id)?), id));
        let below: HashMap<(NodeId, u64), Option<NodeId>> = once::by_key(new.filter_map(below));
        for (id, above) in edited {
            let list = matched[own].to(base.node(id).parent);
            let Some(found) = list.and_then(|list| below.get(&(list, above)).copied().flatten()) else { continue };
            if between(&matched[own], base, id, tree, found) {
                pair(&mut matched[own], base, id, tree, found);
            }
        }
    }
}

/// Takes a comment that stands above something else on one side for the one that base has above another thing, if the other
/// side edited that: it went there, and what it says now it says there. Of texts that stand twice nobody knows, and a
/// comment that has more or fewer lines now is not to be torn apart.
pub(super) fn pair_moved_comments(trees: &Versions<Tree<'_>>, matched: &mut [Matching; 2]) {
    let comments = |tree: &Tree<'_>, left: &dyn Fn(NodeId) -> bool| {
        let all = (1..tree.len() as u32).map(NodeId).filter(|id| left(*id) && is_telling_comment(tree, *id));
        once::by_key(all.map(|id| (tree.node(id).hash, id)))
    };
    for side in Side::BOTH {
        let (own, base, there) = (side as usize, &trees.base, trees.get(side.other()));
        let gone = comments(base, &|id| matched[own].to(id).is_none());
        let lines = |tree: &Tree<'_>, comment: NodeId| {
            let beside = tree.kids(tree.node(comment).parent).iter();
            beside.filter(|kid| tree.is_comment(**kid)).count()
        };
        let edited = |id: &NodeId| {
            let other = matched[1 - own].to(*id).filter(|other| there.node(*other).hash != base.node(*id).hash);
            other.is_some_and(|other| lines(there, other) == lines(base, *id))
        };
        let edited: Vec<(u64, NodeId)> =
            gone.into_iter().filter_map(|(hash, id)| Some((hash, id.filter(edited)?))).collect();
        if edited.is_empty() {
            continue;
        }
        let new = comments(trees.get(side), &|id| matched[own].from(id).is_none());
        for (hash, old) in edited {
            if let Some(new) = new.get(&hash).copied().flatten() {
                matched[own].pair(old, new);
            }
        }
    }
}

/// Pairs an entry of base with one of a side, and what stands beside what both list, which is equal.
fn pair(matching: &mut Matching, base: &Tree<'_>, old: NodeId, tree: &Tree<'_>, new: NodeId) {
    for (x, y) in beside(base, old).zip(beside(tree, new)) {
        matching.pair_equal(base, x, tree, y);
    }
    let cores = (base.node(old).core, tree.node(new).core);
    if matching.to(cores.0).is_none() && matching.from(cores.1).is_none() {
        matching.pair(cores.0, cores.1);
    }
    matching.pair(old, new);
}

/// Whether two entries differ in their comments alone.
fn only_comments_differ(base: &Tree<'_>, old: NodeId, tree: &Tree<'_>, new: NodeId) -> bool {
    let others = |tree: &Tree<'_>, entry: NodeId| {
        let others = beside(tree, entry).filter(|kid| !tree.is_comment(*kid));
        others.map(|kid| tree.node(kid).hash).collect::<Vec<u64>>()
    };
    base.node(old).hash != tree.node(new).hash
        && base.core_hash(old) == tree.core_hash(new)
        && others(base, old) == others(tree, new)
}

/// Whether two entries differ in comments alone that one of them has beside what it lists, and the other has nothing there.
pub(super) fn commented_by_one(trees: &Versions<Tree<'_>>, ours: NodeId, theirs: NodeId) -> bool {
    let (o, t) = (&trees.ours, &trees.theirs);
    let bare = |tree: &Tree<'_>, entry: NodeId| beside(tree, entry).next().is_none();
    only_comments_differ(o, ours, t, theirs) && (bare(o, ours) || bare(t, theirs))
}

/// A hash of what stands beside what an entry lists; nothing, if there is nothing.
fn above(tree: &Tree<'_>, entry: NodeId) -> Option<u64> {
    let mut all = beside(tree, entry).peekable();
    all.peek()?;
    Some(all.fold(0, |hash, kid| mix(hash, tree.node(kid).hash)))
}

/// What stands beside what an entry lists: its comments, and what belongs to it.
fn beside<'t>(tree: &'t Tree<'_>, entry: NodeId) -> impl Iterator<Item = NodeId> + 't {
    let core = tree.node(entry).core;
    let kids = if core == entry { &[] } else { tree.kids(entry) };
    kids.iter().copied().filter(move |kid| *kid != core)
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
