//! Calls that one side put in, and that what the other side made of the definition does not take.

use std::cell::LazyCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::{Edit, View};
use crate::grammar::{Kind, unspaced};
use crate::merging::Unfit;
use crate::syntax::{Callable, NodeId, Tree};
use crate::{Side, Version, Versions};

/// The calls of some names, by their hashes, that fit their definition for the side that put them in, and do not fit what
/// `side` made of that.
///
/// Rule: The Python Language Reference, 6.3.4, "Calls"; The Rust Reference, "Call expressions" and "Struct expressions". Such
/// a merge parses, and does not compile, or stops when it is run.
pub(super) fn unfit<'s>(
    view: &View<'_, 's>,
    edits: &[Edit],
    side: Side,
    names: &HashSet<&[u8]>,
) -> HashMap<u64, Unfit> {
    let mut found: HashMap<u64, Unfit> = HashMap::default();
    if names.is_empty() {
        return found;
    }
    let often = LazyCell::new(|| view.trees.as_ref().map(how_often));
    let callable = view.trees.as_ref().map(Callable::all);
    for ((base, ours), theirs) in callable.base.iter().zip(&callable.ours).zip(&callable.theirs) {
        let sort = Versions { base, ours, theirs };
        for (call, name) in unfit_of_a_sort(view.trees, sort, side, names) {
            let user = Version::from(side.other());
            let node = view.trees.get(user).node(call);
            // Calls that are elsewhere too are no news.
            let count = |version: Version| often.get(version).get(&node.hash).copied().unwrap_or(0);
            if count(side.into()) > 0 || count(user) <= count(Version::Base) {
                continue;
            }
            let span = node.span.range();
            let meets = |at: &usize| {
                let place = &view.edits.get(user)[*at];
                edits[*at].changed_by(side.other()) && place.start < span.end && span.start < place.end
            };
            // The same call may stand in several edits.
            let text = unspaced(view.trees.get(user).node_text(call));
            let known =
                found.entry(node.hash).or_insert_with(|| Unfit { name: name.to_vec(), text, edits: Vec::new() });
            known.edits.extend((0..edits.len()).filter(meets));
        }
    }
    found
}

/// The calls by one side of what is of one sort that fit no more, each with the name that is called; not of what is called
/// by the side that changed it too in a way that does not fit: that may be another thing, or was not right before.
fn unfit_of_a_sort<'s>(
    trees: &Versions<Tree<'s>>,
    callable: Versions<&Callable<'s>>,
    side: Side,
    names: &HashSet<&[u8]>,
) -> Vec<(NodeId, &'s [u8])> {
    let user = Version::from(side.other());
    let takes = callable.map(Callable::by_path);
    let own = Version::from(side);
    let own_calls = LazyCell::new(|| callable.get(own).calls(trees.get(own)).collect::<Vec<_>>());
    let calls = callable.get(user).calls(trees.get(user)).filter(|(_, _, name, _)| names.contains(name));
    let unfit = calls.filter(|(_, path, _, given)| {
        let taken = |version: Version| takes.get(version).get(path);
        let (Some(old), Some(new), Some(now)) = (taken(Version::Base), taken(user), taken(side.into())) else {
            return false;
        };
        old == new
            && new != now
            && new.fits(given)
            && !now.fits(given)
            && own_calls.iter().all(|(_, called, _, given)| called != path || now.fits(given))
    });
    unfit.map(|(call, _, name, _)| (call, name)).collect()
}

/// How often each call, or run of tokens, stands in a tree, by its hash.
fn how_often(tree: &Tree<'_>) -> HashMap<u64, usize> {
    let call = |kind: Kind| kind == Kind::RUN || tree.language.calls().iter().any(|rules| rules.called.0 == kind);
    let mut often = HashMap::default();
    let all = (0..tree.len() as u32).map(|id| tree.node(NodeId(id)));
    all.filter(|node| call(node.kind)).for_each(|node| *often.entry(node.hash).or_default() += 1);
    often
}
