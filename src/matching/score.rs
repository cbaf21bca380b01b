//! How good it is to take two children of matched nodes for one.

use rustc_hash::FxHashMap as HashMap;

use super::align::ALIKE;
use super::wraps::NODES_SEARCHED;
use super::{Matcher, similarity};
use crate::grammar::Kind;
use crate::once;
use crate::syntax::{NodeId, Part, Tree, mix};

/// From this similarity on, two definitions of different names are taken to be one that was renamed.
const RENAMED: f32 = 0.7;

/// How much less alike two of several definitions of one name are if what tells such apart is another.
const OTHER_VARIANT: f32 = 0.7;

/// A shorter statement may stand in two places by chance.
pub(super) const WHOLE_TOKENS: u32 = 4;

/// What a statement with fewer words before its block begins with, others begin with too.
const HEAD_WORDS: usize = 2;

impl Matcher<'_, '_> {
    pub(super) fn context(&self, a: &[NodeId], b: &[NodeId]) -> Context {
        let mut context = Context::default();
        for x in a.iter().filter(|x| self.matching.to(**x).is_none()) {
            *context.from_keys.entry(self.from.node(*x).key).or_default() += 1;
        }
        for y in b.iter().filter(|y| self.matching.from(**y).is_none()) {
            *context.to_keys.entry(self.to.node(*y).key).or_default() += 1;
        }
        context.from_keys.remove(&0);
        context.to_keys.remove(&0);
        // A statement that is left over, and stands elsewhere as it was, is no other one.
        let left = |tree: &Tree<'_>, n: NodeId, matched: Option<NodeId>| {
            matched.is_none() && tree.is_statement(n) && tree.size(n) >= WHOLE_TOKENS && !tree.is_comment(n)
        };
        let text = |tree: &Tree<'_>, n: NodeId, matched: Option<NodeId>| {
            (tree.node(n).key == 0 && (tree.tells(n) || left(tree, n, matched))).then(|| tree.core_hash(n))
        };
        for text in a.iter().filter_map(|x| text(self.from, *x, self.matching.to(*x))) {
            *context.from_texts.entry(text).or_default() += 1;
        }
        for text in b.iter().filter_map(|y| text(self.to, *y, self.matching.from(*y))) {
            *context.to_texts.entry(text).or_default() += 1;
        }
        context
    }

    /// Whether two entries have a key that no other has: no score takes either for another.
    pub(super) fn surely_entry(&self, (a, _): Among<'_>, (b, _): Among<'_>, context: &Context) -> bool {
        let key = self.from.node(a).key;
        let once = |keys: &HashMap<u64, u32>| keys.get(&key) == Some(&1);
        key == self.to.node(b).key
            && once(&context.from_keys)
            && once(&context.to_keys)
            && (self.from.core_hash(a) == self.to.core_hash(b) || !self.went_along(a, b))
    }

    /// Whether two parts are equal, or stand in a field of their own and are like no other part.
    pub(super) fn surely_part(&self, (a, left): Among<'_>, (b, right): Among<'_>, _: &Context) -> bool {
        let (x, y) = (self.from.node(a), self.to.node(b));
        let alone =
            |tree: &Tree<'_>, parts: &[NodeId]| parts.iter().filter(|p| tree.node(**p).field == x.field).count() == 1;
        let elsewhere = |tree: &Tree<'_>, parts: &[NodeId], hash: u64| parts.iter().any(|p| tree.node(*p).hash == hash);
        x.hash == y.hash
            || x.field != 0
                && x.field == y.field
                && !x.anonymous
                && !y.anonymous
                && alone(self.from, left)
                && alone(self.to, right)
                && !elsewhere(self.to, right, x.hash)
                && !elsewhere(self.from, left, y.hash)
    }

    /// How good it is to take two entries for one, 0 if they are not.
    pub(super) fn entry_score(&mut self, a: NodeId, b: NodeId, context: &Context) -> f32 {
        let (x, y) = (self.from.node(a), self.to.node(b));
        let weight = (self.from.size(a) + self.to.size(b)) as f32;
        if x.hash == y.hash {
            return 2.0 * weight + 1.0;
        }
        if self.from.core_hash(a) == self.to.core_hash(b) {
            return 1.9 * weight + 1.0;
        }
        let (from, to) = (&context.from_texts, &context.to_texts);
        if has_all(to, from, self.from.core_hash(a)) || has_all(from, to, self.to.core_hash(b)) {
            return 0.0;
        }
        let heads = [telling_head(self.from, a), telling_head(self.to, b)];
        if self.went_along(a, b) || self.is_another(a, b, heads) {
            return 0.0;
        }
        let same_kind = self.from.core_kind(a) == self.to.core_kind(b);
        if x.key != 0 && x.key == y.key {
            // Of several definitions of that key, the longest is no better than the others.
            let definition = self.from.entry_rule(a).is_some_and(|rule| rule.unique);
            let several = |keys: &HashMap<u64, u32>| definition && keys.get(&x.key).is_some_and(|n| *n > 1);
            let size = |tree: &Tree<'_>, n: NodeId| 2.0 * tree.size(n) as f32;
            let weight = match (several(&context.from_keys), several(&context.to_keys)) {
                (false, false) => weight,
                (false, true) => size(self.from, a),
                (true, false) => size(self.to, b),
                (true, true) => size(self.from, a).min(size(self.to, b)),
            };
            let alike = (1.0 + 0.5 * self.similarity(a, b)) * weight + if same_kind { 1.0 } else { 0.5 };
            let one_of_several = several(&context.from_keys) || several(&context.to_keys);
            return if one_of_several && self.varies(a, b) { alike * OTHER_VARIANT } else { alike };
        }
        let renamed = x.key != 0 || y.key != 0;
        if renamed && (context.to_keys.contains_key(&x.key) || context.from_keys.contains_key(&y.key)) {
            return 0.0;
        }
        if renamed && (self.siblings || self.continues(a, b)) {
            return 0.0;
        }
        let alike = if renamed { self.similarity_of_names(a, b) } else { self.similarity(a, b) };
        // What brings the same names into scope is the same, from wherever it takes them.
        let alike = if renamed && self.binds_as(a, b) { alike.max(RENAMED) } else { alike };
        let alike = if !renamed && self.same_head(heads) { alike.max(ALIKE) } else { alike };
        // What lists lines is not one of them under another name, however much of it that holds.
        let lists = |tree: &Tree<'_>, core: NodeId| tree.list_rule(core).is_some_and(|r| r.lines);
        if !same_kind && (alike < RENAMED || lists(self.from, x.core) != lists(self.to, y.core)) {
            return 0.0;
        }
        if (x.key == 0) != (y.key == 0) && !self.is_named_now(a, b) {
            return 0.0;
        }
        let threshold = if renamed && !(alike >= ALIKE && self.owned_anew(a, b)) { RENAMED } else { ALIKE };
        if alike >= threshold && !self.stands_in(a, b, alike) { self.in_common(a, b, weight) } else { 0.0 }
    }

    /// Whether two entries bring the same names into scope, imports from a path that only one of the trees has.
    fn binds_as(&self, a: NodeId, b: NodeId) -> bool {
        self.from.binds_as(a, self.to, b) && (!self.from.is_import(a) || self.has_new_path(a, b))
    }

    /// Whether what tells definitions of one name apart is not the same of two of them.
    fn varies(&self, a: NodeId, b: NodeId) -> bool {
        let (old, new) = (self.from.variants(a), self.to.variants(b));
        !old.iter().any(|variant| new.contains(variant))
    }

    /// Whether two statements with blocks begin with the same words, as no others do: they are known by these, whatever
    /// is in the blocks.
    fn same_head(&self, [old, new]: [Option<u64>; 2]) -> bool {
        old.filter(|_| old == new)
            .is_some_and(|head| self.known_heads().iter().all(|of| matches!(of.get(&head), Some(Some(_)))))
    }

    /// The statements with blocks that are known by what they begin with.
    fn known_heads(&self) -> &[HashMap<u64, Option<NodeId>>; 2] {
        self.heads.get_or_init(|| [heads(self.from), heads(self.to)])
    }

    /// Whether one of two statements begins as another one does, and none besides, with the same block: it is that one,
    /// however much of the other is in a further clause of it now.
    fn is_another(&self, a: NodeId, b: NodeId, [old, new]: [Option<u64>; 2]) -> bool {
        if old == new {
            return false;
        }
        let block = |tree: &Tree<'_>, n: NodeId| tree.block(tree.node(n).core).map(|block| tree.node(block).hash);
        let known = |head: Option<u64>| {
            let head = head?;
            let [from, to] = self.known_heads().each_ref().map(|of| of.get(&head).copied().flatten());
            from.zip(to).filter(|(x, y)| block(self.from, *x) == block(self.to, *y))
        };
        known(new).is_some_and(|(_, y)| y == b) || known(old).is_some_and(|(x, _)| x == a)
    }

    /// Whether either of two statements stands in the other tree as it is, beside what it stands beside here, which was
    /// not copied: it went there with that, and what took its place is another.
    fn went_along(&self, a: NodeId, b: NodeId) -> bool {
        let (from, to) = (self.from, self.to);
        let named = |tree: &Tree<'_>, n: NodeId| tree.entry_rule(n).is_some_and(|rule| rule.unique);
        if self.siblings || !from.is_statement(a) || !to.is_statement(b) || named(from, a) || named(to, b) {
            return false;
        }
        let neighbours = self.neighbours.get_or_init(|| [neighbours(from), neighbours(to)]);
        let once = |pair: &u64| neighbours.iter().all(|of| of.get(pair) == Some(&1));
        let stayed = |other: &u64| neighbours[0].get(other) == neighbours[1].get(other);
        let mut pairs = beside(from, a).chain(beside(to, b));
        pairs.any(|(pair, other)| once(&pair) && stayed(&other))
    }

    /// How much two entries have in common, signs too, and, of two that have as much, which is the more alike. To weigh
    /// them by their size alone would take the longer of two near copies.
    fn in_common(&mut self, a: NodeId, b: NodeId, weight: f32) -> f32 {
        let bags = (self.from_bags.whole(self.from, a), self.to_bags.whole(self.to, b));
        similarity::dice(&bags.0, &bags.1) * (weight + 1.0)
    }

    /// Whether two entries are known by the same names, looked up in something else: `Level::High` and `Self::High`.
    fn owned_anew(&self, a: NodeId, b: NodeId) -> bool {
        let (old, new) = (self.from.key_without_owners(a), self.to.key_without_owners(b));
        old.is_some() && old == new
    }

    pub(super) fn continues(&self, a: NodeId, b: NodeId) -> bool {
        continues(self.from, a, self.to, b)
    }

    /// Whether something was put around one of two statements and around its neighbour: what is inside is more like
    /// the other than the whole is, or stands there as it was. To take the whole for it would part it from what went in with it.
    fn stands_in(&mut self, a: NodeId, b: NodeId, alike: f32) -> bool {
        let backward = self.from.size(a) > self.to.size(b);
        let (small, large) = if backward { (b, a) } else { (a, b) };
        let (inner, outer) = if backward { (self.to, self.from) } else { (self.from, self.to) };
        if !inner.is_statement(small) {
            return false;
        }
        // What stands in the other as it was went into it.
        let whole = inner.core_hash(small);
        let mut inside = (large.0 + 1..outer.node(large).end.0.min(large.0 + NODES_SEARCHED)).map(NodeId);
        if inner.size(small) >= WHOLE_TOKENS && inside.any(|n| outer.is_statement(n) && outer.core_hash(n) == whole) {
            return true;
        }
        let found = self.alike_part(inner.node(small).core, outer.node(large).core, backward);
        let Some((_, part)) = found.filter(|(inside, _)| *inside > alike) else { return false };
        let entry = outer.node(part).parent;
        let beside = |tree: &Tree<'_>, n: NodeId, step: isize| {
            let at = (tree.node(n).position as usize).checked_add_signed(step)?;
            let kid = tree.kids(tree.node(n).parent).get(at);
            // The brackets around all lists of a kind are the same.
            kid.filter(|k| tree.node(**k).part == Part::Entry).map(|k| tree.core_hash(*k))
        };
        let same = |step| beside(inner, small, step).is_some_and(|h| beside(outer, entry, step) == Some(h));
        let kin = self.from.core_kind(a) == self.to.core_kind(b);
        outer.node(entry).core == part && outer.is_statement(entry) && (!kin || [-1, 1].into_iter().any(same))
    }

    /// Whether of two entries, one with a name and one without, the one is what the other only does: `tide =
    /// read(port)` and `read(port)`, but not `print("falling")` and `text = "falling"`.
    fn is_named_now(&mut self, a: NodeId, b: NodeId) -> bool {
        let backward = self.from.node(a).key != 0;
        let (bare, named) = if backward { (b, a) } else { (a, b) };
        let (tree, other) = if backward { (self.to, self.from) } else { (self.from, self.to) };
        let outer = other.node(named).core;
        let mut done = tree.node(bare).core;
        let only = |node: NodeId| {
            let mut inside = tree.kids(node).iter().filter(|k| !tree.node(**k).anonymous);
            inside.next().filter(|_| inside.next().is_none())
        };
        while let Some(inside) = only(done) {
            done = *inside;
        }
        !self.from.is_statement(a) || self.alike_part(done, outer, backward).is_some()
    }

    /// How good it is to take two parts of matched nodes for one, 0 if they are not.
    pub(super) fn part_score(&mut self, a: NodeId, b: NodeId, _: &Context) -> f32 {
        let (x, y) = (self.from.node(a), self.to.node(b));
        if x.hash == y.hash {
            return 2.0 + self.from.size(a) as f32;
        }
        if x.field != y.field {
            return 0.0;
        }
        if x.anonymous || y.anonymous {
            return if x.field != 0 && x.anonymous && y.anonymous { 1.0 } else { 0.0 };
        }
        let in_run = self.from.node(x.parent).kind == Kind::RUN;
        if in_run && bracket(self.from, a) != bracket(self.to, b) {
            // What is not parsed is told apart by its brackets.
            return 0.0;
        }
        let alike = self.similarity(a, b);
        let kind = if x.kind == y.kind { 1.0 } else { 0.0 };
        if x.field != 0 {
            return 1.0 + kind + alike * (self.from.size(a).min(self.to.size(b))) as f32;
        }
        if self.from.is_comment(a) != self.to.is_comment(b) {
            return 0.0;
        }
        0.5 * kind + alike * (self.from.size(a).min(self.to.size(b))) as f32 + 0.25
    }
}

/// A hash of what a statement with a block begins with, if that is enough to be known by.
pub(super) fn telling_head(tree: &Tree<'_>, entry: NodeId) -> Option<u64> {
    let words = |n: &NodeId| tree.tokens(*n).iter().filter(|token| token.word).count();
    let head = head_says(tree, entry).filter(|_| tree.is_statement(entry))?;
    (tree.head(tree.node(entry).core).iter().map(words).sum::<usize>() >= HEAD_WORDS).then_some(head)
}

/// A hash of what an entry with a block begins with, if that is more than signs and keywords.
pub(super) fn head_says(tree: &Tree<'_>, entry: NodeId) -> Option<u64> {
    let core = tree.node(entry).core;
    let head = tree.block(core).map(|_| tree.head(core))?;
    let says = head.iter().any(|n| !tree.node(*n).anonymous);
    says.then(|| head.iter().fold(0, |hash, n| mix(hash, tree.node(*n).hash)))
}

/// Statements with blocks by what they begin with.
fn heads(tree: &Tree<'_>) -> HashMap<u64, Option<NodeId>> {
    let all = (1..tree.len() as u32).map(NodeId);
    once::by_key(all.filter_map(|n| Some((telling_head(tree, n)?, n))))
}

/// How often a statement stands in a tree, and how often two stand beside one another, by what is known of both.
fn neighbours(tree: &Tree<'_>) -> HashMap<u64, u32> {
    let mut found: HashMap<u64, u32> = HashMap::default();
    for entry in (1..tree.len() as u32).map(NodeId).filter(|n| tree.is_statement(*n)) {
        *found.entry(tree.core_hash(entry)).or_default() += 1;
        if let Some((_, pair)) = with_next(tree, entry) {
            *found.entry(pair).or_default() += 1;
        }
    }
    found
}

/// A statement with the one above it, and with the one below: both as one, and that one.
fn beside(tree: &Tree<'_>, entry: NodeId) -> impl Iterator<Item = (u64, u64)> {
    let kids = tree.kids(tree.node(entry).parent);
    let above = (tree.node(entry).position as usize).checked_sub(1).and_then(|at| kids.get(at)).copied();
    let above = above.filter(|n| tree.is_statement(*n));
    let above = above.and_then(|n| Some((with_next(tree, n)?.1, tree.core_hash(n))));
    let below = with_next(tree, entry).map(|(next, pair)| (pair, next));
    [above, below].into_iter().flatten()
}

/// The statement below one, and both as one, if they are long enough to be known.
fn with_next(tree: &Tree<'_>, entry: NodeId) -> Option<(u64, u64)> {
    let known = |n: NodeId| tree.is_statement(n) && !tree.is_comment(n) && tree.size(tree.node(n).core) >= WHOLE_TOKENS;
    let next = *tree.kids(tree.node(entry).parent).get(tree.node(entry).position as usize + 1)?;
    let hashes = (tree.core_hash(entry), tree.core_hash(next));
    (known(entry) && known(next)).then(|| (hashes.1, mix(hashes.0, hashes.1)))
}

/// Whether the dotted key of one of two entries begins with the other's: what is in something is not it under a new
/// name.
pub(crate) fn continues(from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId) -> bool {
    let text = |tree: &Tree<'_>, n: NodeId| -> Vec<u8> {
        let parts = tree.key_parts(n).map(|part| tree.node_text(part));
        parts.flatten().copied().filter(|byte| !byte.is_ascii_whitespace()).collect()
    };
    let dotted = |tree: &Tree<'_>, n: NodeId| tree.entry_rule(n).is_some_and(|r| r.defines.is_some());
    if !dotted(from, a) || !dotted(to, b) {
        return false;
    }
    let (old, new) = (text(from, a), text(to, b));
    let longer = |long: &[u8], short: &[u8]| long.strip_prefix(short).is_some_and(|rest| rest.starts_with(b"."));
    longer(&old, &new) || longer(&new, &old)
}

/// What the first thing before the entries of a list says, if it is one.
fn bracket(tree: &Tree<'_>, list: NodeId) -> Option<u64> {
    tree.node(list).list.and_then(|_| tree.part(list, Part::Head).first()).map(|head| tree.node(*head).hash)
}

/// Whether there is a text in one of two lists, as often as in the other: none of those is another's then.
fn has_all(list: &HashMap<u64, u32>, other: &HashMap<u64, u32>, text: u64) -> bool {
    list.get(&text).is_some_and(|n| other.get(&text).is_none_or(|m| m <= n))
}

/// The keys of the entries of either list that are not matched yet, and how many have each.
#[derive(Default)]
pub(super) struct Context {
    from_keys: HashMap<u64, u32>,
    to_keys: HashMap<u64, u32>,
    /// The hashes of texts in either list that are not to be taken for others, and how often each is there.
    from_texts: HashMap<u64, u32>,
    to_texts: HashMap<u64, u32>,
}

/// A node, and those it stands among.
pub(super) type Among<'n> = (NodeId, &'n [NodeId]);
