//! Calls that one side put in, and that what the other side made of the definition does not take.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::{Edit, View};
use crate::merging::Unfit;
use crate::syntax::{Callable, NodeId, Tree};
use crate::{Side, Version};

/// The calls of some names that fit their definition for the side that put them in, and do not fit what `side` made of
/// that.
///
/// Rule: The Python Language Reference, 6.3.4, "Calls"; The Rust Reference, "Call expressions". Such a merge parses, and
/// does not compile, or stops when it is run.
pub(super) fn unfit<'s>(
    View { trees, edits: places }: &View<'_, 's>,
    edits: &[Edit],
    side: Side,
    names: &HashSet<&[u8]>,
) -> Vec<Unfit> {
    let user = Version::from(side.other());
    if names.is_empty() {
        return Vec::new();
    }
    let callable = trees.as_ref().map(Callable::of);
    let takes = callable.as_ref().map(Callable::by_path);
    let (own, other) = (trees.get(Version::from(side)), trees.get(user));
    // Calls that are elsewhere too are no news.
    let often = |tree: &Tree<'s>| {
        let mut often: HashMap<u64, usize> = HashMap::default();
        let all = (0..tree.len() as u32).map(NodeId).filter(|id| !tree.is_leaf(*id));
        all.for_each(|id| *often.entry(tree.node(id).hash).or_default() += 1);
        often
    };
    let mut known = None;
    let mut found = Vec::new();
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
        let [base, there, here] = known.get_or_insert_with(|| [&trees.base, own, other].map(often));
        let count = |often: &HashMap<u64, usize>| often.get(&hash).copied().unwrap_or(0);
        if count(there) > 0 || count(here) <= count(base) {
            continue;
        }
        let span = other.node(call).span.range();
        let meets = |at: &usize| {
            let place = &places.get(user)[*at];
            edits[*at].changed_by(side.other()) && place.start < span.end && span.start < place.end
        };
        found.push(Unfit { call: hash, name: name.to_vec(), edits: (0..edits.len()).filter(meets).collect() });
    }
    found
}
