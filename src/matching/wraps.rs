//! Runs of statements and single expressions that one side put into, or took out of, something new.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::Matcher;
use super::calls::{Called, called_part, callee, linked_part};
use crate::grammar::{Kind, is_word};
use crate::syntax::{NodeId, Part, Tree, mix};

/// How far down a new entry is searched for the list that took old entries in.
pub(super) const NODES_SEARCHED: u32 = 4_000;
/// The share of a run that must be found again for it to count as wrapped.
const FOUND: f32 = 0.5;
/// From this similarity on, a part inside a new expression is taken for the old expression.
const SAME_EXPRESSION: f32 = 0.7;
/// How many parts of an expression are looked for in what took its place, and how large each must be.
const PARTS_SEARCHED: u32 = 50;
pub(super) const HELD_TOKENS: u32 = 4;
/// Among more entries than this, none is looked for that was edited besides.
const ALIKE_SEARCHED: usize = 64;
/// A short number or sign that is found again in something larger may be another one.
const LITERAL_WRAP_TOKENS: u32 = 8;

/// Entries side by side, and what they are found again by.
struct Run {
    entries: Vec<NodeId>,
    /// What stands before the list of statements in each, if it has one.
    heads: Vec<Option<Vec<u64>>>,
    /// The hash and the size of what each lists, sorted.
    wanted: Vec<(u64, u32)>,
    total: u32,
}

impl Run {
    fn new(tree: &Tree<'_>, entries: Vec<NodeId>) -> Run {
        let mut wanted: Vec<(u64, u32)> = entries.iter().map(|x| (tree.core_hash(*x), tree.size(*x))).collect();
        wanted.sort_unstable();
        let total = wanted.iter().map(|w| w.1).sum();
        let heads = entries.iter().map(|x| head(tree, *x)).collect();
        Run { entries, heads, wanted, total }
    }
}

impl Matcher<'_, '_> {
    /// Looks for the unmatched entries of `a` inside the unmatched entries of `b`, and the other way.
    ///
    /// With `alike`, entries that were edited besides are found too.
    pub(super) fn wrapped_entries(&mut self, a: &[NodeId], b: &[NodeId], alike: bool) {
        let left: Vec<NodeId> = a.iter().copied().filter(|x| self.matching.to(*x).is_none()).collect();
        let right: Vec<NodeId> = b.iter().copied().filter(|y| self.matching.from(*y).is_none()).collect();
        if left.is_empty() || right.is_empty() {
            return;
        }
        let (from, to) = (self.from, self.to);
        let mut run = Run::new(from, left.clone());
        for wrapper in right.iter().filter(|n| holds_lines(to, **n)) {
            if let Some((list, branched)) = self.taken_in(&run, *wrapper, false, alike) {
                let old = not_beside((from, others(from, &run.entries, &branched)), (to, &right), *wrapper);
                let new = others(to, to.part(list, Part::Entry), &branched);
                self.align_entries(&old, &new);
                let still = left.iter().copied().filter(|x| self.matching.to(*x).is_none());
                run = Run::new(from, still.collect());
            }
        }
        let unmatched =
            |matcher: &Self| right.iter().copied().filter(|y| matcher.matching.from(*y).is_none()).collect();
        let mut run = Run::new(to, unmatched(self));
        for wrapper in left.iter().filter(|n| holds_lines(from, **n)) {
            if self.matching.to(*wrapper).is_some() {
                continue;
            }
            if let Some((list, branched)) = self.taken_in(&run, *wrapper, true, alike) {
                let old = others(from, from.part(list, Part::Entry), &branched);
                let new = not_beside((to, others(to, &run.entries, &branched)), (from, &left), *wrapper);
                self.align_entries(&old, &new);
                run = Run::new(to, unmatched(self));
            }
        }
        if !alike {
            return;
        }
        let still: (Vec<NodeId>, Vec<NodeId>) = (
            left.into_iter().filter(|x| self.matching.to(*x).is_none()).collect(),
            right.into_iter().filter(|y| self.matching.from(*y).is_none()).collect(),
        );
        if let ([x], [y]) = (still.0.as_slice(), still.1.as_slice()) {
            // One entry took the place of one other: an expression in a list, perhaps wrapped.
            let (x, y) = (*x, *y);
            let (from, to) = (self.from.node(x).core, self.to.node(y).core);
            let lines = self.from.is_statement(x);
            if !lines && self.find_wrapped(from, to).is_some() {
                self.matching.pair(x, y);
                self.wrapped_part(from, to);
            }
        }
    }

    /// Matches `a` with a part of `b`, or a part of `a` with `b`, where one was put around the other;
    /// else, with `b` itself, as a replacement.
    pub(super) fn wrapped_part(&mut self, a: NodeId, b: NodeId) {
        match self.find_wrapped(a, b) {
            Some((x, y)) if (x, y) != (a, b) => self.pair(x, y),
            _ => {
                self.matching.pair(a, b);
                self.held(a, b);
            }
        }
    }

    /// Matches what two entries list, where one was put around the other.
    pub(super) fn wrapped_core(&mut self, a: NodeId, b: NodeId) {
        let (a, b) = (self.from.node(a).core, self.to.node(b).core);
        // A number with a sign is another number.
        let named =
            |tree: &Tree<'_>, n: NodeId| tree.node_text(n).first().is_some_and(|b| is_word(*b) && !b.is_ascii_digit());
        if let Some((x, y)) = self.find_wrapped(a, b).filter(|pair| *pair != (a, b) && named(self.from, pair.0)) {
            self.pair(x, y);
        }
    }

    /// Matches the largest part of something that stands as it is in what took its place, and those beside it that stand
    /// there once too: what was returned and is given a name now, say, what fails in another way, or two values that are
    /// compared by an operator now and were by a call. Within a statement, what gives something a name does more than
    /// what stands in its place.
    fn held(&mut self, a: NodeId, b: NodeId) {
        let (from, to) = (self.from, self.to);
        let all_of = |entry: NodeId| from.node(entry).core == a || from.kids(from.node(entry).core) == [a];
        let statement = from.outward(a).find(|n| from.is_statement(*n)).is_some_and(all_of);
        let names = |tree: &Tree<'_>, n: NodeId| !tree.language.rule(tree.node(n).kind).declares.is_empty();
        if !self.other_form(a, b) || !statement && (names(from, a) || names(to, b)) {
            return;
        }
        let branched = self.held_branches(a, b);
        let parts = (a.0 + 1..from.node(a).end.0.min(a.0 + PARTS_SEARCHED)).map(NodeId);
        let found = parts.filter(|x| from.size(*x) >= HELD_TOKENS);
        let mut found = found.filter_map(|x| Some((x, equal_part(from, x, to, b)?)));
        if !branched {
            let Some((x, y)) = found.next().filter(|(x, y)| self.matching.free(*x, *y)) else { return };
            self.pair(x, y);
            if holds_lines(from, a) || holds_lines(to, b) {
                return;
            }
        }
        // What leads to branches is in several parts, and so is what an expression says of several things.
        for (x, y) in found {
            if self.matching.free(x, y) && equal_part(to, y, from, a) == Some(x) {
                self.pair(x, y);
            }
        }
    }

    /// The list below `wrapper` that holds most of `run`, if it holds enough of it, and what went into several such lists.
    fn taken_in(&mut self, run: &Run, wrapper: NodeId, backward: bool, alike: bool) -> Option<(NodeId, HashSet<u64>)> {
        let (run_tree, tree) = if backward { (self.to, self.from) } else { (self.from, self.to) };
        let lists = lists(tree, wrapper);
        if lists.is_empty() {
            return None;
        }
        let first = *run.entries.first()?;
        if !run_tree.is_block(run_tree.node(first).parent) {
            return None;
        }
        let Run { entries, heads, wanted, total } = run;
        let branched = branched(tree, &lists);
        let alike = alike && wanted.len() <= ALIKE_SEARCHED;
        // What has the wrapper's head is the wrapper, with something else in it.
        let around = if alike { head(tree, wrapper) } else { None };
        let kin = |head: &Option<Vec<u64>>| head.as_ref().is_none_or(|own| around.as_ref() != Some(own));
        let others = entries.iter().zip(heads).filter(|(_, head)| alike && kin(head));
        let entries: Vec<NodeId> = others.map(|(entry, _)| *entry).collect();
        let mut best: Option<(u32, NodeId)> = None;
        for list in lists {
            let (mut held, mut all) = (0, 0);
            for entry in tree.part(list, Part::Entry) {
                let (hash, size) = (tree.core_hash(*entry), tree.size(*entry));
                all += size;
                if branched.contains(&hash) {
                    continue;
                }
                let at = wanted.partition_point(|w| w.0 < hash);
                if wanted.get(at).is_some_and(|w| w.0 == hash) {
                    held += size;
                } else if alike {
                    let found = entries.iter().any(|x| {
                        let similarity =
                            if backward { self.similarity(*entry, *x) } else { self.similarity(*x, *entry) };
                        run_tree.core_kind(*x) == tree.core_kind(*entry) && similarity >= SAME_EXPRESSION
                    });
                    held += if found { size } else { 0 };
                }
            }
            let enough = held as f32 >= FOUND * (*total).min(all) as f32 && held >= 3;
            if enough && best.is_none_or(|(b, _)| held > b) {
                best = Some((held, list));
            }
        }
        best.map(|(_, list)| (list, branched))
    }

    fn find_wrapped(&mut self, a: NodeId, b: NodeId) -> Option<(NodeId, NodeId)> {
        if self.from.node(a).anonymous || self.to.node(b).anonymous || self.from.is_member(a) || self.to.is_member(b) {
            return None;
        }
        if let Some(y) = equal_part(self.from, a, self.to, b) {
            return Some((a, y));
        }
        if let Some(x) = equal_part(self.to, b, self.from, a) {
            return Some((x, b));
        }
        if let Some(y) = defined_part(self.from, a, self.to, b) {
            return Some((a, y));
        }
        if let Some(x) = defined_part(self.to, b, self.from, a) {
            return Some((x, b));
        }
        if let Some(y) = linked_part(self.from, a, self.to, b) {
            return Some((a, y));
        }
        if let Some(x) = linked_part(self.to, b, self.from, a) {
            return Some((x, b));
        }
        let forward = called_part(self.from, a, self.to, b).map(|y| (Called::Here(a), y));
        let called = forward.or_else(|| called_part(self.to, b, self.from, a).map(|x| (x, Called::Here(b))));
        if let Some(called) = called {
            return if let (Called::Here(x), Called::Here(y)) = called { Some((x, y)) } else { None };
        }
        if let Some((_, y)) = self.alike_part(a, b, false) {
            return Some((a, y));
        }
        self.alike_part(b, a, true).map(|(_, x)| (x, b))
    }

    /// A descendant of `outer` of the kind of `part` and much like it. Of tokens without structure nobody knows how
    /// they belong together: what is in their brackets is much like the whole, and is not it.
    pub(super) fn alike_part(&mut self, part: NodeId, outer: NodeId, backward: bool) -> Option<(f32, NodeId)> {
        let (inner_tree, outer_tree) = if backward { (self.to, self.from) } else { (self.from, self.to) };
        let kind = inner_tree.node(part).kind;
        if inner_tree.size(part) < 2 || kind == Kind::RUN {
            return None;
        }
        let end = outer_tree.node(outer).end.0.min(outer.0 + 200);
        let mut best: Option<(f32, NodeId)> = None;
        // What stands inside `part` as it is, is that and not the whole of it.
        let inside: Vec<u64> = (part.0 + 1..inner_tree.node(part).end.0.min(part.0 + 200))
            .map(|n| inner_tree.node(NodeId(n)).hash)
            .collect();
        // Of two that equal it, nobody knows which it is.
        let own = inner_tree.node(part).hash;
        let far = outer_tree.node(outer).end.0.min(outer.0 + NODES_SEARCHED);
        let twice = (outer.0 + 1..far).filter(|id| outer_tree.node(NodeId(*id)).hash == own).nth(1).is_some();
        // What both call tells more than what they list.
        let called = callee(inner_tree, part).filter(|own| callee(outer_tree, outer) == Some(*own));
        for id in (outer.0 + 1..end).map(NodeId) {
            let hash = outer_tree.node(id).hash;
            let calls_another = called.is_some() && callee(outer_tree, id) != called;
            if inside.contains(&hash) || twice && hash == own || calls_another {
                continue;
            }
            if outer_tree.node(id).kind == kind && 4 * outer_tree.size(id) >= 3 * inner_tree.size(part) {
                let alike = if backward { self.similarity(id, part) } else { self.similarity(part, id) };
                if alike >= SAME_EXPRESSION && best.is_none_or(|(b, _)| alike > b) {
                    best = Some((alike, id));
                }
            }
        }
        best
    }
}

/// Of two nodes that define one name in their lists, the part of `outer` that is of the kind of `inner` and does so:
/// what was put around it, such as decorators, has no name.
fn defined_part(from: &Tree<'_>, inner: NodeId, to: &Tree<'_>, outer: NodeId) -> Option<NodeId> {
    let entry = |tree: &Tree<'_>, core: NodeId| {
        let entry = tree.node(core).parent;
        (tree.node(entry).core == core && tree.is_definition(entry)).then_some(entry)
    };
    let (one, other) = (entry(from, inner)?, entry(to, outer)?);
    let name = to.key_parts(other).next().filter(|_| from.node(one).key == to.node(other).key)?;
    to.outward(name).take_while(|n| *n != outer).find(|n| to.node(*n).kind == from.node(inner).kind)
}

/// Whether there are statements in a node.
fn holds_lines(tree: &Tree<'_>, node: NodeId) -> bool {
    let end = tree.node(node).end.0.min(node.0 + NODES_SEARCHED);
    (node.0..end).any(|n| tree.is_block(NodeId(n)))
}

/// The lists of statements in a node.
fn lists(tree: &Tree<'_>, node: NodeId) -> Vec<NodeId> {
    let end = tree.node(node).end.0.min(node.0 + NODES_SEARCHED);
    (node.0..end).map(NodeId).filter(|n| tree.is_block(*n)).collect()
}

/// What stands before the list of statements in an entry, if it has one.
pub(super) fn head(tree: &Tree<'_>, entry: NodeId) -> Option<Vec<u64>> {
    let core = tree.node(entry).core;
    tree.block(core).map(|_| tree.head(core).iter().map(|kid| tree.node(*kid).hash).collect())
}

/// What more than one of some lists begin or end with: a statement put into several branches, or drawn out of them, is
/// in none of them by itself.
fn branched(tree: &Tree<'_>, lists: &[NodeId]) -> HashSet<u64> {
    let mut runs: [HashSet<u64>; 2] = Default::default();
    let mut found = HashSet::default();
    for list in lists {
        let hashes: Vec<u64> = tree.part(*list, Part::Entry).iter().map(|entry| tree.core_hash(*entry)).collect();
        for (runs, last) in runs.iter_mut().zip([false, true]) {
            let mut run = 0;
            let at = |i: usize| hashes[if last { hashes.len() - 1 - i } else { i }];
            found.extend((0..hashes.len()).map(at).filter(|hash| {
                run = mix(run, *hash);
                !runs.insert(run)
            }));
        }
    }
    found
}

/// Some entries, without those that are among these.
fn others(tree: &Tree<'_>, entries: &[NodeId], these: &HashSet<u64>) -> Vec<NodeId> {
    entries.iter().copied().filter(|entry| !these.contains(&tree.core_hash(*entry))).collect()
}

/// Some entries, without those of several equal ones that still stand before or behind what was put around another of
/// them: the first stand before it, and the last behind it.
fn not_beside(
    (tree, mut entries): (&Tree<'_>, Vec<NodeId>),
    (other, beside): (&Tree<'_>, &[NodeId]),
    wrapper: NodeId,
) -> Vec<NodeId> {
    let mut often: HashMap<u64, usize> = HashMap::default();
    entries.iter().for_each(|entry| *often.entry(tree.core_hash(*entry)).or_default() += 1);
    if often.values().all(|n| *n < 2) {
        return entries;
    }
    // How many of each stand before it, and how many do not stand behind it.
    let mut places: HashMap<u64, (usize, usize)> = often.iter().map(|(hash, n)| (*hash, (0, *n))).collect();
    for entry in beside.iter().filter(|entry| **entry != wrapper) {
        let Some((before, until)) = places.get_mut(&other.core_hash(*entry)) else { continue };
        if *entry < wrapper {
            *before += 1;
        } else {
            *until = until.saturating_sub(1);
        }
    }
    let mut seen: HashMap<u64, usize> = HashMap::default();
    entries.retain(|entry| {
        let hash = tree.core_hash(*entry);
        let (before, until) = places[&hash];
        let number = seen.entry(hash).or_default();
        *number += 1;
        before >= until || (before < *number && *number <= until)
    });
    entries
}

/// The only descendant of `outer` that equals `part`.
fn equal_part(inner_tree: &Tree<'_>, part: NodeId, outer_tree: &Tree<'_>, outer: NodeId) -> Option<NodeId> {
    let node = inner_tree.node(part);
    let named = inner_tree.node_text(part).first().is_some_and(|b| b.is_ascii_alphabetic() || *b == b'_' || *b >= 0x80);
    if !named && inner_tree.node_text(part).len() < 4 && outer_tree.size(outer) > LITERAL_WRAP_TOKENS {
        return None;
    }
    let end = outer_tree.node(outer).end.0.min(outer.0 + NODES_SEARCHED);
    let mut found = (outer.0 + 1..end)
        .map(NodeId)
        .filter(|id| outer_tree.node(*id).hash == node.hash && outer_tree.node(*id).kind == node.kind)
        .filter(|id| !outer_tree.is_member(*id));
    match (found.next(), found.next()) {
        (Some(only), None) => Some(only),
        _ => None,
    }
}
