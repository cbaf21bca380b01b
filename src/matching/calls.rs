//! Calls, and chains of them: what is called, on what, and which of them is which.

use rustc_hash::FxHashMap as HashMap;

use super::wraps::head;
use crate::syntax::{NodeId, Part, Tree, mix};

/// How far a chain of calls is followed.
const LINKS_SEARCHED: usize = 100;
/// How many nodes are searched for a call.
const CALLS_SEARCHED: u32 = 200;
/// Calls of fewer tokens may well stand in two places.
const CALL_TOKENS: u32 = 6;

/// Whether a node is something, and a list behind it, with tokens enough to be known by them.
pub(super) fn is_call(tree: &Tree<'_>, node: NodeId) -> bool {
    callee(tree, node).is_some() && tree.size(node) >= CALL_TOKENS
}

/// What a call calls, or whatever else lists something behind one name or expression.
pub(super) fn callee(tree: &Tree<'_>, node: NodeId) -> Option<u64> {
    let [called, listed] = tree.kids(node) else { return None };
    let lists = tree.list_rule(*listed).is_some_and(|rule| !rule.lines) && !tree.node(*called).anonymous;
    lists.then(|| tree.node(*called).hash)
}

/// How often each call stands in a tree, by its hash.
pub(super) fn often(tree: &Tree<'_>) -> HashMap<u64, u32> {
    let mut calls: HashMap<u64, u32> = HashMap::default();
    for node in (0..tree.len() as u32).map(NodeId).filter(|n| is_call(tree, *n)) {
        *calls.entry(tree.node(node).hash).or_default() += 1;
    }
    calls
}

/// The last link of a chain of calls: its name, and what it is called on.
fn link(tree: &Tree<'_>, node: NodeId) -> Option<(u64, NodeId)> {
    let [callee, listed] = tree.kids(node) else { return None };
    tree.list_rule(*listed).filter(|r| !r.lines)?;
    let (name, on) = (tree.kids(*callee).last()?, tree.kids(*callee).first()?);
    (tree.is_leaf(*name) && name != on && tree.list_rule(*callee).is_none()).then(|| (tree.node(*name).hash, *on))
}

/// The links of a chain of calls, the last one first.
fn links<'t>(tree: &'t Tree<'_>, node: NodeId) -> impl Iterator<Item = (u64, NodeId)> + 't {
    let on = |at: NodeId| match link(tree, at) {
        Some((_, on)) => Some(on),
        // What stands behind a call without a call of its own, as in `read()?`.
        None => tree.kids(at).first().copied().filter(|kid| !tree.node(*kid).anonymous && tree.list_rule(at).is_none()),
    };
    let chain = std::iter::successors(Some(node), move |at| on(*at)).take(LINKS_SEARCHED);
    chain.filter_map(|at| Some((link(tree, at)?.0, at)))
}

/// A hash of the names of the links of a chain of calls, and of what these are called on, if there is more than one.
pub(super) fn chain(tree: &Tree<'_>, node: NodeId) -> Option<u64> {
    let links: Vec<(u64, NodeId)> = links(tree, node).collect();
    let (_, on) = link(tree, links.get(1..)?.last()?.1)?;
    Some(links.iter().fold(tree.node(on).hash, |hash, (name, _)| mix(hash, *name)))
}

/// The part of a chain of calls that ends with the last link of another one, of which both have no other of its name:
/// links were put behind it.
pub(super) fn linked_part(inner: &Tree<'_>, part: NodeId, outer: &Tree<'_>, chain: NodeId) -> Option<NodeId> {
    let (name, _) = link(inner, part)?;
    let (last, _) = link(outer, chain)?;
    let mut own = links(inner, part).skip(1);
    if last == name || own.any(|(own, _)| own == last || own == name) {
        return None;
    }
    let mut found = links(outer, chain).filter(|(own, _)| *own == name);
    found.next().filter(|_| found.next().is_none()).map(|(_, at)| at)
}

/// What is known of a call in something that took its place.
pub(super) enum Called {
    /// This is it: something was put around it.
    Here(NodeId),
    /// What took its place calls something else, lists what it did, and has a call like it besides.
    Unclear,
}

/// The only call in `outer` of what `part` calls, whatever it lists now, if what `outer` calls did not stand in `part`.
pub(super) fn called_part(inner: &Tree<'_>, part: NodeId, outer: &Tree<'_>, whole: NodeId) -> Option<Called> {
    let (own, other) = (callee(inner, part)?, callee(outer, whole));
    if below(inner, part).any(|node| callee(inner, node) == Some(own)) {
        return None;
    }
    let kind = inner.node(part).kind;
    let is_like = |node: &NodeId| outer.node(*node).kind == kind && callee(outer, *node) == Some(own);
    let mut found = below(outer, whole).filter(is_like);
    let only = found.next().filter(|_| found.next().is_none())?;
    // What is called outside may have stood inside.
    let often = |tree: &Tree<'_>, node: NodeId| below(tree, node).filter(|n| callee(tree, *n) == other).count();
    if other.is_some() && often(inner, part) > often(outer, only) {
        return None;
    }
    let listed = entries(inner, part);
    let lists = |call: NodeId| entries(outer, call).iter().any(|entry| listed.contains(entry));
    match other {
        Some(other) if other == own => (!lists(whole) && lists(only)).then_some(Called::Here(only)),
        Some(_) if lists(whole) => Some(Called::Unclear),
        _ => Some(Called::Here(only)),
    }
}

/// Whether two nodes call the same and list something in common, or begin with the same before a block: neither is then a
/// part of the other.
pub(super) fn begin_alike(from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId) -> bool {
    match (callee(from, a), callee(to, b), head(from, a), head(to, b)) {
        (Some(x), Some(y), ..) => x == y && entries(from, a).iter().any(|entry| entries(to, b).contains(entry)),
        (_, _, Some(x), Some(y)) => x == y,
        _ => false,
    }
}

/// What is below a node, as far as calls are searched for.
fn below(tree: &Tree<'_>, node: NodeId) -> impl Iterator<Item = NodeId> + use<> {
    (node.0 + 1..tree.node(node).end.0.min(node.0 + CALLS_SEARCHED)).map(NodeId)
}

/// The hashes of what a call lists.
fn entries(tree: &Tree<'_>, call: NodeId) -> Vec<u64> {
    let list = tree.kids(call).last();
    let entries = list.map_or(&[][..], |list| tree.part(*list, Part::Entry));
    entries.iter().map(|entry| tree.core_hash(*entry)).collect()
}

/// Whether the last links of two chains of calls are others, which both chains have: they stand in another order.
pub(super) fn exchanged_links(from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId) -> bool {
    let (Some((old, _)), Some((new, _))) = (link(from, a), link(to, b)) else { return false };
    let has = |tree: &Tree<'_>, chain: NodeId, name: u64| links(tree, chain).any(|(own, _)| own == name);
    old != new && has(from, a, new) && has(to, b, old)
}
