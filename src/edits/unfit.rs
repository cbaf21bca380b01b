//! Calls that one side put in, and that what the other side made of the definition does not take.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::{Edit, View};
use crate::grammar::Kind;
use crate::merging::Unfit;
use crate::syntax::{Callable, Node, NodeId, Tree};
use crate::{Side, Version};

/// The calls of some names, by their hashes, that fit their definition for the side that put them in, and do not fit what `side` made of
/// that.
///
/// Rule: The Python Language Reference, 6.3.4, "Calls"; The Rust Reference, "Call expressions". Such a merge parses, and
/// does not compile, or stops when it is run.
pub(super) fn unfit<'s>(
    View { trees, edits: places }: &View<'_, 's>,
    edits: &[Edit],
    side: Side,
    names: &HashSet<&[u8]>,
) -> HashMap<u64, Unfit> {
    let user = Version::from(side.other());
    if names.is_empty() {
        return HashMap::default();
    }
    let callable = trees.as_ref().map(Callable::of);
    let takes = callable.as_ref().map(Callable::by_path);
    let (own, other) = (trees.get(Version::from(side)), trees.get(user));
    let mut often = None;
    let mut found: HashMap<u64, Unfit> = HashMap::default();
    for (call, path, name, given) in callable.get(user).calls(other).filter(|(_, _, name, _)| names.contains(name)) {
        let (Some(old), Some(new), Some(now)) =
            (takes.base.get(&path), takes.get(user).get(&path), takes.get(Version::from(side)).get(&path))
        else {
            continue;
        };
        if old != new || new == now || !new.fits(&given) || now.fits(&given) {
            continue;
        }
        let hash = other.node(call).hash;
        // Calls that are elsewhere too are no news.
        let [base, there, here] = often.get_or_insert_with(|| [&trees.base, own, other].map(how_often));
        let count = |often: &HashMap<u64, usize>| often.get(&hash).copied().unwrap_or(0);
        if count(there) > 0 || count(here) <= count(base) {
            continue;
        }
        let span = other.node(call).span.range();
        let meets = |at: &usize| {
            let place = &places.get(user)[*at];
            edits[*at].changed_by(side.other()) && place.start < span.end && span.start < place.end
        };
        // The same call may stand in several edits.
        let known = found.entry(hash).or_insert_with(|| Unfit { name: name.to_vec(), edits: Vec::new() });
        known.edits.extend((0..edits.len()).filter(meets));
    }
    found
}

/// How often each call, or run of tokens, stands in a tree, by its hash.
fn how_often(tree: &Tree<'_>) -> HashMap<u64, usize> {
    let mut often = HashMap::default();
    let Some(rules) = tree.language.calls() else { return often };
    let call = |node: &&Node| [rules.called.0, Kind::RUN].contains(&node.kind);
    let all = (0..tree.len() as u32).map(|id| tree.node(NodeId(id)));
    all.filter(call).for_each(|node| *often.entry(node.hash).or_default() += 1);
    often
}
