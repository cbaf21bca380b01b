//! What stands under another parent than before: moved definitions and moved runs.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::Matcher;
use crate::grammar::Defines;
use crate::once;
use crate::syntax::{NodeId, Part, Tree};

/// Smaller entries are not followed to another parent: they are too often alike by chance.
const MOVED_TOKENS: u32 = 12;
/// Unless their few tokens are so many bytes, white space aside. One text alone is not followed: it is laid out for
/// where it stands.
const MOVED_BYTES: usize = 80;
/// How alike two definitions of one name under different parents must be, and statements that went along with one.
const MOVED_ALIKE: f32 = 0.5;

/// So many statements are followed over the end of a block, or beside one that moved.
const SLID: usize = 64;

impl Matcher<'_, '_> {
    /// Of equal statements right behind one another, of which some are gone in the other tree, takes the first for those that
    /// are left: which of them went nobody knows, but two sides that took one out took out the same.
    pub(super) fn copies(&mut self) {
        for x in (1..self.from.len() as u32).map(NodeId).filter(|x| self.from.is_statement(*x)) {
            let Some(below) = self.from.beside(x, true).next().filter(|_| self.matching.to(x).is_none()) else {
                continue;
            };
            let said = self.from.core_hash(x);
            if let Some(y) = self.matching.to(below)
                && self.from.core_hash(below) == said
                && self.to.core_hash(y) == said
            {
                self.matching.part(self.from, below, self.to, y);
                self.pair(x, y);
            }
        }
    }

    /// Matches statements, however short they are, that went out of a block to the place right before or behind what
    /// holds it, or from there into it: the block begins or ends elsewhere now.
    pub(super) fn slid(&mut self) {
        let lists = (1..self.from.len() as u32).map(NodeId).filter(|a| self.from.is_block(*a));
        let matched: Vec<(NodeId, NodeId)> = lists.filter_map(|a| Some((a, self.matching.to(a)?))).collect();
        if matched.is_empty() {
            return;
        }
        let repeated = self.repeated();
        for (a, b) in matched.into_iter().filter(|(_, b)| self.to.is_block(*b)) {
            for (backward, last) in [(false, true), (false, false), (true, true), (true, false)] {
                self.slid_over(a, b, backward, last, &repeated);
            }
        }
    }

    /// The statements left over of which the other tree has more or fewer: one put into several branches is in none of
    /// them by itself.
    fn repeated(&self) -> HashSet<u64> {
        let mut counts: HashMap<u64, i64> = HashMap::default();
        let from = (1..self.from.len() as u32).map(NodeId).filter(|n| self.matching.to(*n).is_none());
        let to = (1..self.to.len() as u32).map(NodeId).filter(|n| self.matching.from(*n).is_none());
        for entry in from.filter(|n| self.from.is_statement(*n)) {
            *counts.entry(self.from.core_hash(entry)).or_default() += 1;
        }
        for entry in to.filter(|n| self.to.is_statement(*n)) {
            *counts.entry(self.to.core_hash(entry)).or_default() -= 1;
        }
        counts.into_iter().filter(|(_, more)| *more != 0).map(|(hash, _)| hash).collect()
    }

    /// Matches what went over one end of two lists, out of the first or, backward, into the second.
    fn slid_over(&mut self, a: NodeId, b: NodeId, backward: bool, last: bool, repeated: &HashSet<u64>) {
        let (tree, list, other, counterpart) =
            if backward { (self.to, b, self.from, a) } else { (self.from, a, self.to, b) };
        let left = |n: &NodeId| if backward { self.matching.from(*n) } else { self.matching.to(*n) }.is_none();
        let new = |n: &NodeId| if backward { self.matching.to(*n) } else { self.matching.from(*n) }.is_none();
        let Some(held) = holder(other, counterpart) else { return };
        let entries = tree.part(list, Part::Entry);
        // From the end of the block on outward, and from what holds it.
        let edge: Vec<NodeId> = match last {
            true => entries.iter().rev().copied().take_while(left).take(SLID).collect(),
            false => entries.iter().copied().take_while(left).take(SLID).collect(),
        };
        let outside: Vec<NodeId> = other.beside(held, last).take(SLID).take_while(new).collect();
        let equal = |(x, y): (&NodeId, &NodeId)| {
            tree.core_hash(*x) == other.core_hash(*y) && !repeated.contains(&tree.core_hash(*x))
        };
        let far = edge.len().min(outside.len());
        let Some(n) = (1..=far).rev().find(|n| edge[..*n].iter().rev().zip(&outside).all(equal)) else { return };
        for (x, y) in edge[..n].iter().rev().zip(&outside) {
            if backward { self.pair(*y, *x) } else { self.pair(*x, *y) }
        }
    }

    /// Matches entries that are left over on both sides: those of equal content first, then
    /// definitions of equal names and like content.
    pub(super) fn moves(&mut self) {
        let from = self.left_over(self.from, true);
        let to = self.left_over(self.to, false);
        if from.is_empty() || to.is_empty() {
            return;
        }
        for by in [content as fn(&Tree<'_>, NodeId) -> u64, definition_key, definition_body] {
            let free = to.iter().filter(|y| self.matching.from(**y).is_none());
            let targets = once::by_key(free.map(|y| (by(self.to, *y), *y)));
            let mut count: HashMap<u64, u32> = HashMap::default();
            for x in &from {
                *count.entry(by(self.from, *x)).or_default() += 1;
            }
            for x in &from {
                let value = by(self.from, *x);
                if value == 0 || count[&value] != 1 || self.matching.to(*x).is_some() {
                    continue;
                }
                if let Some(Some(y)) = targets.get(&value)
                    && self.matching.free(*x, *y)
                    && self.similarity(*x, *y) >= MOVED_ALIKE
                {
                    self.pair(*x, *y);
                }
            }
        }
    }

    /// Matches statements, however short they are, that stand right beside one that went into another list as they stood
    /// beside it before: they went with it. So did those behind them that are much like what stands there.
    pub(super) fn along(&mut self) {
        let statements = (1..self.from.len() as u32).map(NodeId).filter(|x| self.from.is_statement(*x));
        let matched = statements.filter_map(|x| Some((x, self.matching.to(x)?)));
        let moved: Vec<(NodeId, NodeId)> = matched
            .filter(|(x, y)| {
                self.to.is_statement(*y) && {
                    let (list, there) = (self.from.node(*x).parent, self.to.node(*y).parent);
                    self.matching.to(list) != Some(there)
                }
            })
            .collect();
        for (x, y) in moved {
            for behind in [false, true] {
                for (x, y) in self.from.beside(x, behind).zip(self.to.beside(y, behind)).take(SLID) {
                    let equal = self.from.core_hash(x) == self.to.core_hash(y);
                    if !equal || !self.matching.free(x, y) {
                        break;
                    }
                    self.pair(x, y);
                }
                self.edited_along(x, y, behind);
            }
        }
    }

    /// Matches statements that are left over beside one that went into another list, or beside those that went with it,
    /// with what they are much like there: they went along and were edited.
    fn edited_along(&mut self, x: NodeId, y: NodeId, behind: bool) {
        let (from, to, matching) = (self.from, self.to, &self.matching);
        let (list, there) = (from.node(x).parent, to.node(y).parent);
        let run = |tree: &Tree<'_>, entry: NodeId, went: &dyn Fn(NodeId) -> bool, left: &dyn Fn(NodeId) -> bool| {
            let beside = tree.beside(entry, behind).take(SLID).skip_while(|n| went(*n)).take_while(|n| left(*n));
            let mut run: Vec<NodeId> = beside.filter(|n| !tree.is_comment(*n)).collect();
            if !behind {
                run.reverse();
            }
            run
        };
        let went = |n: NodeId| matching.to(n).is_some_and(|other| to.node(other).parent == there);
        let came = |n: NodeId| matching.from(n).is_some_and(|other| from.node(other).parent == list);
        let old = run(from, x, &went, &|n| matching.to(n).is_none());
        let new = run(to, y, &came, &|n| matching.from(n).is_none());
        if old.is_empty() || new.is_empty() {
            return;
        }
        let context = self.context(&old, &new);
        for (x, y) in self.best(&old, &new, &context, Self::surely_entry, Self::entry_score) {
            if from.core_kind(x) == to.core_kind(y) && self.similarity(x, y) >= MOVED_ALIKE {
                self.pair(x, y);
            }
        }
    }

    /// Matches values that stand under another header, however short they are, if no other in either version has their
    /// key: what the header says is a part of their path, and they are what they were.
    pub(super) fn reheaded(&mut self) {
        let values = |tree: &Tree<'_>| {
            let is_value = |n: &NodeId| {
                tree.node(*n).key != 0 && tree.entry_rule(*n).is_some_and(|r| r.defines == Some(Defines::Value))
            };
            let values = (0..tree.len() as u32).map(NodeId).filter(is_value);
            once::by_key(values.map(|n| (tree.node(n).key, n)))
        };
        let (old, new) = (values(self.from), values(self.to));
        let mut found: Vec<(NodeId, NodeId)> =
            old.into_iter().filter_map(|(key, x)| Some((x?, (*new.get(&key)?)?))).collect();
        found.sort_unstable();
        for (x, y) in found {
            if self.matching.free(x, y)
                && self.from.core_kind(x) == self.to.core_kind(y)
                && self.similarity(x, y) >= MOVED_ALIKE
            {
                self.pair(x, y);
            }
        }
    }

    /// Matches what statements without names stand in where it is left over on both sides, if most of it went from the
    /// one into the other.
    pub(super) fn holders(&mut self) {
        let matched = (0..self.from.len() as u32).map(NodeId).filter_map(|x| Some((x, self.matching.to(x)?)));
        let mut pairs: Vec<(NodeId, NodeId)> = matched.filter(|(x, _)| self.from.is_statement(*x)).collect();
        while let Some((x, y)) = pairs.pop() {
            if let Some(p) = holder(self.from, x)
                && let Some(q) = holder(self.to, y)
                && self.matching.free(p, q)
                && self.from.node(p).key == 0
                && self.to.node(q).key == 0
                && self.from.core_kind(p) == self.to.core_kind(q)
                && self.went_into(p, q)
            {
                self.pair(p, q);
                pairs.push((p, q));
            }
        }
    }

    /// Whether most of what two nodes hold is matched with one another.
    fn went_into(&self, a: NodeId, b: NodeId) -> bool {
        let end = self.from.node(a).end;
        let (mut at, mut common) = (a, 0);
        while at < end {
            match self.matching.to(at).filter(|other| self.to.contains(b, *other)) {
                Some(_) => {
                    common += self.from.size(at);
                    at = self.from.node(at).end;
                }
                None => at = NodeId(at.0 + 1),
            }
        }
        2.0 * common as f32 >= MOVED_ALIKE * (self.from.size(a) + self.to.size(b)) as f32
    }

    fn left_over(&self, tree: &Tree<'_>, from: bool) -> Vec<NodeId> {
        (0..tree.len() as u32)
            .map(NodeId)
            .filter(|n| {
                let node = tree.node(*n);
                let matched = if from { self.matching.to(*n) } else { self.matching.from(*n) };
                let long = tree.size(*n) >= MOVED_TOKENS || tree.size(*n) > 1 && ink(tree, *n) >= MOVED_BYTES;
                node.core != *n && matched.is_none() && long && !tree.is_comment(*n)
            })
            .collect()
    }
}

/// The statement that a node stands in.
fn holder(tree: &Tree<'_>, node: NodeId) -> Option<NodeId> {
    let mut at = node;
    while at != NodeId::ROOT {
        at = tree.node(at).parent;
        if tree.is_statement(at) {
            return Some(at);
        }
    }
    None
}

/// How many bytes the tokens of a node are, white space aside: that depends on line endings and depth.
fn ink(tree: &Tree<'_>, node: NodeId) -> usize {
    let bytes = tree.tokens(node).iter().flat_map(|token| tree.text(token.span));
    bytes.filter(|b| !b.is_ascii_whitespace()).count()
}

fn content(tree: &Tree<'_>, node: NodeId) -> u64 {
    tree.core_hash(node)
}

fn definition_key(tree: &Tree<'_>, node: NodeId) -> u64 {
    match tree.entry_rule(node) {
        Some(rule) if rule.free && rule.unique => tree.node(node).key,
        _ => 0,
    }
}

/// The longest part of a definition, if that is most of it: it stays where the name changes.
fn definition_body(tree: &Tree<'_>, node: NodeId) -> u64 {
    if !tree.entry_rule(node).is_some_and(|rule| rule.free && rule.unique) {
        return 0;
    }
    // What is decorated is a part of what has the decorators.
    let mut core = tree.node(node).core;
    loop {
        let parts = tree.kids(core).iter().map(|kid| (ink(tree, *kid), *kid));
        match parts.max_by_key(|(ink, _)| *ink) {
            Some((_, part)) if tree.key_parts(node).any(|name| tree.contains(part, name)) => core = part,
            Some((most, body)) if 2 * most > ink(tree, core) => return tree.node(body).hash,
            _ => return 0,
        }
    }
}
