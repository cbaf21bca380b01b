//! Aligning the children of two matched nodes, in order.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::Matcher;
use super::calls::{callee, chain};
use super::increasing::heaviest_increasing;
use super::score::{Among, Context, WHOLE_TOKENS, head_says, telling_head};
use crate::grammar::is_word;
use crate::once;
use crate::syntax::{NodeId, Part, Tree, mix};

/// From this similarity on, two entries of one kind are taken to be one.
pub(super) const ALIKE: f32 = 0.5;
/// A smaller entry of another name is another entry.
const RENAMED_TOKENS: u32 = 8;
/// Entries that would all be others at their places, so many for each one put in or taken out, were shifted.
const SHIFTED: usize = 2;
/// Longer entries are known by what they hold.
const SHORT_TOKENS: u32 = 2;
/// Sums of scores that differ by less are equal.
const ROUNDING: f32 = 1e-3;
/// Stretches with more pairs than this are aligned by hashes and keys alone.
const PAIR_LIMIT: usize = 40_000;

impl Matcher<'_, '_> {
    pub(super) fn align_kids(&mut self, a: NodeId, b: NodeId) {
        let (from, to) = (self.from, self.to);
        if from.node(a).list.is_some() && to.node(b).list.is_some() {
            for part in [Part::Head, Part::Tail] {
                self.align_parts(from.part(a, part), to.part(b, part));
            }
            self.align_entries(from.part(a, Part::Entry), to.part(b, Part::Entry));
        } else {
            self.align_parts(from.kids(a), to.kids(b));
        }
    }

    /// Aligns entries of two lists.
    pub(super) fn align_entries(&mut self, a: &[NodeId], b: &[NodeId]) {
        if let Some(pairs) = self.exchanged(a, b) {
            self.pair_all(&pairs);
            return;
        }
        let known = self.known_by_place(a, b);
        for (x, y) in a[..known].iter().zip(b) {
            if self.from.core_kind(*x) == self.to.core_kind(*y) {
                self.pair(*x, *y);
            } else if self.matching.free(*x, *y) {
                self.matching.pair(*x, *y);
                self.wrapped_core(*x, *y);
            }
        }
        let (a, b) = (&a[known..], &b[known..]);
        let (pairs, blocks) = self.anchors(a, b);
        self.pair_all(&pairs);
        let mut blocks = blocks.into_iter().peekable();
        let mut rest = Vec::new();
        let context = self.context(a, b);
        for (x, y) in stretches(a, b, &pairs) {
            self.wrapped_entries(x, y, false);
            let here = std::iter::from_fn(|| blocks.next_if(|(i, _)| x.last().is_some_and(|last| i <= last)));
            let blocks: Pairs = here.filter(|(i, j)| self.matching.free(*i, *j)).collect();
            let blocks = self.without_those_that_grew(blocks, x, y);
            self.pair_all(&blocks);
            for (x, y) in stretches(x, y, &blocks) {
                let pairs = if x.len() * y.len() <= PAIR_LIMIT {
                    self.best(x, y, &context, Self::surely_entry, Self::entry_score)
                } else {
                    self.equal(x, y)
                };
                self.pair_all(&pairs);
                rest.push((x, y));
            }
        }
        self.keyed(a, b);
        for (x, y) in rest {
            self.wrapped_entries(x, y, true);
            self.replaced(x, y);
        }
    }

    /// The pairs of equal entries, if two lists in which places mean something hold the same ones in another order, each
    /// once: then these were exchanged, and none took another's place. Of numbers and signs nobody knows.
    fn exchanged(&self, a: &[NodeId], b: &[NodeId]) -> Option<Vec<(NodeId, NodeId)>> {
        let (from, to) = (self.from, self.to);
        let rule = from.list_rule(from.node(*a.first()?).parent)?;
        let keyless = |tree: &Tree<'_>, list: &[NodeId]| list.iter().all(|n| tree.node(*n).key == 0);
        let same = |(x, y): (&NodeId, &NodeId)| from.core_hash(*x) == to.core_hash(*y);
        if self.siblings
            || rule.lines
            || rule.free
            || a.len() != b.len()
            || a.iter().zip(b).all(same)
            || !keyless(from, a)
            || !keyless(to, b)
        {
            return None;
        }
        let mut wanted: HashMap<u64, NodeId> = b.iter().map(|y| (to.core_hash(*y), *y)).collect();
        let pairs = a.iter().map(|x| Some((*x, wanted.remove(&from.core_hash(*x))?)));
        let pairs: Vec<(NodeId, NodeId)> = pairs.collect::<Option<_>>()?;
        let named = |x: &NodeId| {
            let first = from.node_text(from.node(*x).core).first();
            tells(from, *x) || first.is_some_and(|b| is_word(*b) && !b.is_ascii_digit())
        };
        let elsewhere = pairs.iter().zip(b).filter(|((_, y), there)| y != *there);
        let nameless = elsewhere.filter(|((x, _), _)| !named(x)).count();
        (nameless < 2).then_some(pairs)
    }

    /// How many entries at the start of two lists are known by their places alone: short ones without names, as many
    /// as before, in an order that means something, if it does not take far fewer edits to explain them as some put in
    /// and others taken out.
    fn known_by_place(&self, a: &[NodeId], b: &[NodeId]) -> usize {
        let ordered = |x: &NodeId| {
            let rule = self.from.list_rule(self.from.node(*x).parent);
            rule.is_some_and(|r| !r.lines && !r.free)
        };
        let nameless = |tree: &Tree<'_>, list: &[NodeId]| list.iter().take_while(|n| tree.node(**n).key == 0).count();
        let count = nameless(self.from, a);
        // What says enough by itself is known wherever it stands.
        let short = |tree: &Tree<'_>, list: &[NodeId]| !list.iter().any(|n| tells(tree, *n));
        if self.siblings
            || !a.first().is_some_and(ordered)
            || count != nameless(self.to, b)
            || !short(self.from, &a[..count])
            || !short(self.to, &b[..count])
        {
            return 0;
        }
        let (a, b) = (&a[..count], &b[..count]);
        let changed = a.iter().zip(b).filter(|(x, y)| self.from.core_hash(**x) != self.to.core_hash(**y)).count();
        // Each that is not found again in order was taken out, and another put in.
        let edits = 2 * (count - self.equal(a, b).len());
        if changed <= SHIFTED * edits { count } else { 0 }
    }

    /// What is still left of a stretch on both sides, one for one: a definition that was renamed and
    /// edited, a literal or a name in another's place, a call with other arguments, a statement with a block that begins
    /// as it did.
    fn replaced(&mut self, a: &[NodeId], b: &[NodeId]) {
        // What took others in, or let them go, is in nothing's place.
        let matching = &self.matching;
        let bare = |tree: &Tree<'_>, n: NodeId, counterpart: &dyn Fn(NodeId) -> Option<NodeId>| {
            !(n.0..tree.node(n).end.0).any(|id| counterpart(NodeId(id)).is_some())
        };
        let left: Vec<NodeId> = a.iter().copied().filter(|x| bare(self.from, *x, &|n| matching.to(n))).collect();
        let right: Vec<NodeId> = b.iter().copied().filter(|y| bare(self.to, *y, &|n| matching.from(n))).collect();
        if left.len() > right.len() || self.siblings {
            return;
        }
        let only = left.len() == 1 && right.len() == 1;
        for (x, y) in left.into_iter().zip(right) {
            let (from, to) = (self.from, self.to);
            if from.core_kind(x) != to.core_kind(y) {
                continue;
            }
            let lines = from.is_statement(x);
            let leaves = from.is_leaf(from.node(x).core) && to.is_leaf(to.node(y).core);
            let keyed = from.node(x).key != 0;
            // A name that base has there already is no new one.
            let known = |key: u64| key != from.node(x).key && a.iter().any(|n| from.node(*n).key == key);
            let calls = || !keyed && to.node(y).key == 0 && called(from, x).is_some_and(|c| called(to, y) == Some(c));
            if !lines && leaves && !keyed
                || only && keyed && !known(to.node(y).key) && self.renamed(x, y)
                || only && (calls() || lines && head_says(from, x).is_some_and(|head| head_says(to, y) == Some(head)))
            {
                self.pair(x, y);
            }
        }
    }

    /// Whether two entries of different names that stand alone in one place are one.
    fn renamed(&mut self, a: NodeId, b: NodeId) -> bool {
        let definition = self.from.entry_rule(a).is_some_and(|r| r.unique);
        let lines = self.from.is_statement(a);
        if definition && (!lines || self.from.size(a) < RENAMED_TOKENS) {
            // Another name is another argument, parameter or setting, whatever its value.
            return false;
        }
        if self.continues(a, b) {
            return false;
        }
        self.similarity_of_names(a, b) >= ALIKE || definition && self.similarity(a, b) >= ALIKE
    }

    /// Aligns the parts of two nodes that are no lists.
    fn align_parts(&mut self, a: &[NodeId], b: &[NodeId]) {
        let pairs = if a.len() * b.len() <= PAIR_LIMIT {
            self.best(a, b, &Context::default(), Self::surely_part, Self::part_score)
        } else {
            self.anchors(a, b).0
        };
        self.pair_all(&pairs);
        self.pair_moved_prefixes(a, b);
    }

    /// Pairs what stands before a definition, such as decorators, with the same where that stands in another order.
    fn pair_moved_prefixes(&mut self, a: &[NodeId], b: &[NodeId]) {
        let left = |tree: &Tree<'_>, nodes: &[NodeId], free: &dyn Fn(NodeId) -> bool| {
            let prefixes = nodes.iter().copied().filter(|node| free(*node) && tree.is_prefix(*node));
            once::by_key(prefixes.map(|node| (tree.node(node).hash, node)))
        };
        let (from, to) = (self.from, self.to);
        let old = left(from, a, &|node| self.matching.to(node).is_none());
        if old.is_empty() {
            return;
        }
        let new = left(to, b, &|node| self.matching.from(node).is_none());
        let moved = |(said, node): (u64, Option<NodeId>)| Some((node?, (*new.get(&said)?)?));
        let pairs: Vec<_> = old.into_iter().filter_map(moved).collect();
        self.pair_all(&pairs);
    }

    fn pair_all(&mut self, pairs: &[(NodeId, NodeId)]) {
        for (a, b) in pairs {
            self.pair(*a, *b);
        }
    }

    /// Equal entries at both ends, then those whose content stands exactly once on either side and in
    /// the same order (Bram Cohen's patience diff, over nodes).
    ///
    /// The second value is the statements with a block that changed and begin as no others do, in the same order too.
    fn anchors(&self, a: &[NodeId], b: &[NodeId]) -> (Pairs, Pairs) {
        let equal = |x: &NodeId, y: &NodeId| self.from.node(*x).hash == self.to.node(*y).hash;
        let start = a.iter().zip(b).take_while(|(x, y)| equal(x, y)).count();
        let end = a[start..].iter().rev().zip(b[start..].iter().rev()).take_while(|(x, y)| equal(x, y)).count();
        let mut pairs: Vec<_> = a[..start].iter().copied().zip(b[..start].iter().copied()).collect();
        let (inner_a, inner_b) = (&a[start..a.len() - end], &b[start..b.len() - end]);
        // A statement with a block that changed is known by what it begins with.
        let said =
            |tree: &Tree<'_>, n: NodeId| [Some(tree.core_hash(n)), telling_head(tree, n).map(|head| mix(1, head))];
        let mut count: HashMap<u64, (u32, u32, usize)> = HashMap::default();
        for said in inner_a.iter().flat_map(|x| said(self.from, *x)).flatten() {
            count.entry(said).or_default().0 += 1;
        }
        for (j, y) in inner_b.iter().enumerate() {
            for said in said(self.to, *y).into_iter().flatten() {
                let c = count.entry(said).or_default();
                (c.1, c.2) = (c.1 + 1, j);
            }
        }
        let alone = |said: u64| match count[&said] {
            (1, 1, j) => Some(j),
            _ => None,
        };
        let weight = |x: NodeId, whole: bool| match whole {
            true => self.from.weight(x),
            false => self.from.head(self.from.node(x).core).iter().map(|n| u64::from(self.from.size(*n))).sum(),
        };
        let place = |x: NodeId| {
            let mut known = said(self.from, x).into_iter().zip([true, false]);
            known.find_map(|(said, whole)| Some((alone(said?)?, weight(x, whole), whole)))
        };
        let unique: Vec<(usize, (usize, u64, bool))> =
            inner_a.iter().enumerate().filter_map(|(i, x)| Some((i, place(*x)?))).collect();
        // What is lighter is what moved.
        let places: Vec<usize> = unique.iter().map(|(_, (j, ..))| *j).collect();
        let in_order = heaviest_increasing(&places, |k| unique[k].1.1).into_iter().map(|k| unique[k]);
        let mut blocks = Vec::new();
        for (i, (j, _, whole)) in in_order {
            if whole { &mut pairs } else { &mut blocks }.push((inner_a[i], inner_b[j]));
        }
        pairs.extend(a[a.len() - end..].iter().copied().zip(b[b.len() - end..].iter().copied()));
        (pairs, blocks)
    }

    /// Pairs of statements with blocks without those that have in them now what another of the first list had in it
    /// that is gone: what they begin with tells less than that.
    fn without_those_that_grew(&self, mut pairs: Pairs, a: &[NodeId], b: &[NodeId]) -> Pairs {
        let held = |tree: &Tree<'_>, n: NodeId| -> Vec<u64> {
            let blocks = tree.branches(tree.node(n).core).into_iter();
            let entries = blocks.flat_map(|(_, block)| tree.part(block, Part::Entry));
            let telling = entries.filter(|n| tree.size(**n) >= WHOLE_TOKENS && !tree.is_comment(**n));
            telling.map(|n| tree.core_hash(*n)).collect()
        };
        if pairs.is_empty() {
            return pairs;
        }
        let heads: HashSet<u64> = b.iter().filter_map(|n| telling_head(self.to, *n)).collect();
        let gone = a.iter().filter(|n| telling_head(self.from, **n).is_none_or(|head| !heads.contains(&head)));
        let left: HashSet<u64> = gone.flat_map(|n| held(self.from, *n)).collect();
        pairs.retain(|(_, y)| !held(self.to, *y).iter().any(|held| left.contains(held)));
        pairs
    }

    /// Equal entries in order, for stretches too long to compare entry by entry.
    fn equal(&self, a: &[NodeId], b: &[NodeId]) -> Vec<(NodeId, NodeId)> {
        let from: Vec<u64> = a.iter().map(|x| self.from.core_hash(*x)).collect();
        let to: Vec<u64> = b.iter().map(|y| self.to.core_hash(*y)).collect();
        similar::capture_diff_slices(similar::Algorithm::Histogram, &from, &to)
            .into_iter()
            .filter(|op| op.tag() == similar::DiffTag::Equal)
            .flat_map(|op| op.old_range().zip(op.new_range()))
            .map(|(i, j)| (a[i], b[j]))
            .filter(|(x, y)| self.matching.free(*x, *y))
            .collect()
    }

    /// The in-order pairing with the greatest sum of scores. Pairs of score 0 are never made. What surely
    /// belongs together at either end is not scored: no other pairing can have a greater sum.
    pub(super) fn best(
        &mut self,
        mut a: &[NodeId],
        mut b: &[NodeId],
        context: &Context,
        surely: Surely<Self>,
        score: fn(&mut Self, NodeId, NodeId, &Context) -> f32,
    ) -> Vec<(NodeId, NodeId)> {
        let mut pairs = Vec::new();
        let mut last = Vec::new();
        while let (Some(x), Some(y)) = (a.first(), b.first())
            && self.matching.free(*x, *y)
            && surely(self, (*x, a), (*y, b), context)
        {
            pairs.push((*x, *y));
            (a, b) = (&a[1..], &b[1..]);
        }
        while let (Some(x), Some(y)) = (a.last(), b.last())
            && self.matching.free(*x, *y)
            && surely(self, (*x, a), (*y, b), context)
        {
            last.push((*x, *y));
            (a, b) = (&a[..a.len() - 1], &b[..b.len() - 1]);
        }
        let width = b.len() + 1;
        let mut scores = vec![0f32; a.len() * b.len()];
        let mut best = vec![0f32; (a.len() + 1) * width];
        for (i, x) in a.iter().enumerate().rev() {
            for (j, y) in b.iter().enumerate().rev() {
                let s = if self.matching.free(*x, *y) { score(self, *x, *y, context) } else { 0.0 };
                scores[i * b.len() + j] = s;
                let skip = best[(i + 1) * width + j].max(best[i * width + j + 1]);
                let take = if s > 0.0 { s + best[(i + 1) * width + j + 1] } else { 0.0 };
                best[i * width + j] = skip.max(take);
            }
        }
        // Of as many on both sides, what stands at the same place is the same if that is as good as any.
        let straight: f32 = if a.len() == b.len() { (0..a.len()).map(|i| scores[i * b.len() + i]).sum() } else { 0.0 };
        let (mut i, mut j) = (0, 0);
        if straight > 0.0 && straight >= best[0] - ROUNDING {
            pairs.extend((0..a.len()).filter(|i| scores[i * b.len() + i] > 0.0).map(|i| (a[i], b[i])));
            i = a.len();
        }
        while i < a.len() && j < b.len() {
            let s = scores[i * b.len() + j];
            let here = best[i * width + j];
            if s > 0.0 && here == s + best[(i + 1) * width + j + 1] {
                pairs.push((a[i], b[j]));
                (i, j) = (i + 1, j + 1);
            } else if here == best[(i + 1) * width + j] {
                i += 1;
            } else {
                j += 1;
            }
        }
        pairs.extend(last.into_iter().rev());
        pairs
    }

    /// Entries that stand in another order: equal content, equal keys that are unique on both sides, then what blocks begin
    /// with.
    fn keyed(&mut self, a: &[NodeId], b: &[NodeId]) {
        let left: Vec<NodeId> = a.iter().copied().filter(|x| self.matching.to(*x).is_none()).collect();
        let right: Vec<NodeId> = b.iter().copied().filter(|y| self.matching.from(*y).is_none()).collect();
        if left.is_empty() || right.is_empty() {
            return;
        }
        let trees = [self.from, self.to];
        let key = |of: usize, n: NodeId| {
            // Assignments are keyed to be recognised in place; they do not move by their key alone.
            let known = trees[of].entry_rule(n).is_none_or(|r| r.free || r.unique);
            if known { trees[of].node(n).key } else { 0 }
        };
        // Of statements, only a word alone says less.
        let says = |tree: &Tree<'_>, n: NodeId| tells(tree, n) || tree.size(n) == SHORT_TOKENS && tree.is_statement(n);
        let hash = |of: usize, n: NodeId| if says(trees[of], n) { trees[of].core_hash(n) } else { 0 };
        // A part of something that is given a value once in either list is what it was, wherever that stands. A name alone
        // is soon taken for something else.
        let parts = [given_once(self.from, a), given_once(self.to, b)];
        let part = |of: usize, n: NodeId| {
            let key = trees[of].node(n).key;
            if parts[of].get(&key) == Some(&Some(n)) { key } else { 0 }
        };
        // What a list of statements begins with that is there to be read tells of the rest, whatever it says (PEP 257).
        let firsts = [(self.from, a), (self.to, b)].map(|(tree, entries)| tree.first_remark(entries));
        let versions = !self.siblings;
        let remark = |of: usize, n: NodeId| u64::from(versions && firsts[of] == Some(n));
        // A block that changed is known by what it begins with, if no other of the list begins so.
        let heads = [(self.from, a), (self.to, b)].map(|(tree, entries)| {
            once::by_key(entries.iter().filter_map(|n| telling_head(tree, *n).map(|head| (head, *n))))
        });
        let head = |of: usize, n: NodeId| {
            telling_head(trees[of], n).filter(|head| heads[of].get(head) == Some(&Some(n))).unwrap_or(0)
        };
        let lookups: [Lookup<'_>; 5] = [&hash, &key, &part, &remark, &head];
        for lookup in lookups {
            let to = once::by_key(right.iter().map(|y| (lookup(1, *y), *y)));
            let mut seen: HashMap<u64, u32> = HashMap::default();
            for x in &left {
                *seen.entry(lookup(0, *x)).or_default() += 1;
            }
            for x in &left {
                let k = lookup(0, *x);
                if k != 0
                    && seen[&k] == 1
                    && let Some(Some(y)) = to.get(&k)
                {
                    self.pair(*x, *y);
                }
            }
        }
    }
}

/// The statements that give a part of something a value, as no others among some do, by their keys.
fn given_once(tree: &Tree<'_>, entries: &[NodeId]) -> HashMap<u64, Option<NodeId>> {
    let part = |n: NodeId| tree.key_parts(n).all(|name| !tree.is_leaf(name));
    let given = entries.iter().filter(|n| tree.node(**n).key != 0 && tree.is_statement(**n) && part(**n));
    once::by_key(given.map(|n| (tree.node(*n).key, *n)))
}

/// What an entry calls, that does nothing else: by its hash, or of a chain of calls, what all of them are called, and
/// on what.
fn called(tree: &Tree<'_>, entry: NodeId) -> Option<u64> {
    let mut at = tree.node(entry).core;
    loop {
        if let Some(callee) = callee(tree, at) {
            return Some(chain(tree, at).unwrap_or(callee));
        }
        let mut inside = tree.kids(at).iter().filter(|kid| !tree.node(**kid).anonymous);
        at = *inside.next().filter(|_| inside.next().is_none())?;
    }
}

/// Whether an entry says enough by itself to be known wherever it stands.
fn tells(tree: &Tree<'_>, entry: NodeId) -> bool {
    tree.size(entry) > SHORT_TOKENS || tree.tells(entry)
}

/// Nodes of two trees that are one.
type Pairs = Vec<(NodeId, NodeId)>;

/// What entries of another order are found by, those of the first tree or of the second.
type Lookup<'l> = &'l dyn Fn(usize, NodeId) -> u64;

/// Whether two nodes that stand first, or last, surely belong together.
type Surely<M> = fn(&M, Among<'_>, Among<'_>, &Context) -> bool;

/// What stands between the pairs of two lists, in order, if anything does.
fn stretches<'n>(
    a: &'n [NodeId],
    b: &'n [NodeId],
    pairs: &[(NodeId, NodeId)],
) -> impl Iterator<Item = (&'n [NodeId], &'n [NodeId])> {
    let mut at = (0, 0);
    let ends = anchor_positions(a, b, pairs).into_iter().chain([(a.len(), b.len())]);
    ends.filter_map(move |(i, j)| {
        let start = std::mem::replace(&mut at, (i + 1, j + 1));
        (start.0 < i || start.1 < j).then(|| (&a[start.0..i], &b[start.1..j]))
    })
}

/// Where the pairs stand in their lists.
fn anchor_positions(a: &[NodeId], b: &[NodeId], pairs: &[(NodeId, NodeId)]) -> Vec<(usize, usize)> {
    let (mut i, mut j) = (0, 0);
    let mut positions = Vec::with_capacity(pairs.len());
    for (x, y) in pairs {
        while a[i] != *x {
            i += 1;
        }
        while b[j] != *y {
            j += 1;
        }
        positions.push((i, j));
        (i, j) = (i + 1, j + 1);
    }
    positions
}
