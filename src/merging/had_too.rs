//! What one side made of a statement, where the other side has that too, beside what it made of it.

use rustc_hash::FxHashMap as HashMap;

use super::lists::SAME_TOKENS;
use crate::matching::{Matching, match_pair};
use crate::syntax::{NodeId, Tree};
use crate::{Side, Versions, once};

/// Takes a statement that a side put in for its version of one of base, if it is just what the other side made of that: what
/// the side has in its place, too, is then new. So it is if one side calls `lamp()` where base calls `light()`, and the other
/// has `if night: lamp()` and `else: light(dim)`. Both stand in one list, or in something that the side put in.
pub(super) fn pair_had_too(trees: &Versions<Tree<'_>>, matched: &mut [Matching; 2]) {
    let base = &trees.base;
    for side in Side::BOTH {
        let (own, tree, there) = (side as usize, trees.get(side), trees.get(side.other()));
        let made = |x: NodeId| {
            let (here, other) = (matched[own].to(x)?, matched[1 - own].to(x)?);
            let said = there.core_hash(other);
            let both_changed = tree.core_hash(here) != base.core_hash(x) && base.core_hash(x) != said;
            let tells = there.size(other) >= SAME_TOKENS && !there.is_definition(other);
            (both_changed && tells && tree.core_hash(here) != said).then_some((said, (x, here)))
        };
        let statements = (1..base.len() as u32).map(NodeId).filter(|id| base.is_statement(*id));
        let made: HashMap<u64, Option<(NodeId, NodeId)>> = once::by_key(statements.filter_map(made));
        if made.is_empty() {
            continue;
        }
        let new = |id: &NodeId| tree.is_statement(*id) && matched[own].from(*id).is_none();
        let new = once::by_key((1..tree.len() as u32).map(NodeId).filter(new).map(|id| (tree.core_hash(id), id)));
        let pairs = made.into_iter().filter_map(|(said, made)| Some((made?, (*new.get(&said)?)?)));
        let near = |here: NodeId, there: NodeId| {
            let mut around = tree.node(here).parent;
            while !tree.contains(around, there) {
                around = tree.node(around).parent;
            }
            around == tree.node(here).parent && around == tree.node(there).parent || matched[own].from(around).is_none()
        };
        let pairs: Vec<_> = pairs.filter(|((_, here), new)| near(*here, *new)).collect();
        for ((x, here), new) in pairs {
            matched[own].part(base, x, tree, here);
            match_pair(base, x, tree, new, &mut matched[own]);
        }
    }
}
