//! What stands around something that both sides put in: whether it is one thing for them.

use std::ops::Range;

use crate::grammar::Kind;
use crate::syntax::{NodeId, Part, Tree};

/// What a side has around what it put in.
pub(super) struct Surroundings<'s> {
    /// The kind of the smallest thing that it is in with the token before, by itself, and with the token behind, the keys
    /// that lead there, and what means something only together with it.
    things: [(Kind, Vec<u64>, Option<u64>); 3],
    /// If it is within one text, the lines of that.
    text: Option<&'s [u8]>,
    /// The branches of what it is in.
    branches: Vec<u64>,
    pub(super) lists: Lists,
    /// What it is the name of, if that is listed once by it: two things of one name may be two answers to one question.
    named: Option<u64>,
}

impl<'s> Surroundings<'s> {
    /// Of what stands at `places`, or of where something was taken out.
    pub(super) fn of(tree: &Tree<'s>, places: [Range<usize>; 3], taken_out: bool) -> Surroundings<'s> {
        let nodes = places.clone().map(|bytes| tree.around(&bytes));
        let ([_, put_in, _], [_, node, _]) = (places, nodes);
        Surroundings {
            things: nodes.map(|node| (tree.node(node).kind, tree.keys_outward(node), joint_around(tree, node))),
            text: tree.language.rule(tree.node(node).kind).text.then(|| lines_of(tree, node, &put_in)),
            branches: branches_around(tree, node),
            lists: Lists::of(tree, node),
            named: named_by(tree, node, Some(&put_in).filter(|_| !taken_out)),
        }
    }

    /// Whether both sides have it in things of one kind and name, with the same of what means something only together with
    /// it, and in lists of which trees would not know better what is what.
    pub(super) fn go_with(&self, other: &Surroundings<'_>) -> bool {
        let listed_text = self.text.is_some() && !self.lists.0.is_empty();
        self.things == other.things
            && self.text == other.text
            && self.named == other.named
            && !listed_text
            && !exchanged(&self.branches, &other.branches)
            && self.lists.differ_in_one(&other.lists)
    }
}

/// A hash of what is named where some bytes end, if they hold that name and not all of it, it stands in a list, once
/// under that name, and holds no statements. `node` is the smallest thing that they are in; where they were taken out,
/// only that may be a name.
fn named_by(tree: &Tree<'_>, node: NodeId, put_in: Option<&Range<usize>>) -> Option<u64> {
    let last = put_in.map_or(node, |bytes| tree.around(&(bytes.end - 1..bytes.end)));
    let entry = tree.outward(last).find(|outer| tree.node(*outer).part == Part::Entry)?;
    let unique = tree.entry_rule(entry).is_some_and(|rule| rule.unique) && tree.block(tree.node(entry).core).is_none();
    let begins = |key: NodeId| put_in.is_some_and(|bytes| bytes.contains(&(tree.node(key).span.start as usize)));
    let name = |key: NodeId| tree.contains(key, node) || begins(key);
    (unique && tree.key_parts(entry).any(name)).then(|| tree.value_hash(entry))
}

/// The entries of the lists that something is in, up to one of statements. Where they differ in more than one entry, trees
/// know better than tokens which entry is which.
pub(super) struct Lists(Vec<Vec<u64>>);

impl Lists {
    pub(super) fn of(tree: &Tree<'_>, node: NodeId) -> Lists {
        let around = tree.outward(node).take_while(|node| !tree.is_block(*node));
        let lists = around.filter(|node| tree.list_rule(*node).is_some());
        let entries = |list: NodeId| tree.part(list, Part::Entry).iter().map(|entry| tree.core_hash(*entry)).collect();
        Lists(lists.map(entries).collect())
    }

    /// Whether two sides' lists differ in one entry each at most.
    fn differ_in_one(&self, other: &Lists) -> bool {
        let in_one = |(ours, theirs): (&Vec<u64>, &Vec<u64>)| {
            ours.len() == theirs.len() && ours.iter().zip(theirs).filter(|(x, y)| x != y).count() < 2
        };
        self.0.len() == other.0.len() && self.0.iter().zip(&other.0).all(in_one)
    }

    /// Whether a side changed, put in or took out one entry at most of each of base's lists.
    pub(super) fn changed_one_of(&self, base: &Lists) -> bool {
        let one = |(own, old): (&Vec<u64>, &Vec<u64>)| {
            let before = own.iter().zip(old).take_while(|(x, y)| x == y).count();
            let (own, old) = (&own[before..], &old[before..]);
            let behind = own.iter().rev().zip(old.iter().rev()).take_while(|(x, y)| x == y).count();
            own.len().max(old.len()) - behind < 2
        };
        self.0.iter().rev().zip(base.0.iter().rev()).all(one)
    }
}

/// The hash of the largest thing around a node whose parts mean something only together, up to the list that it is in.
fn joint_around(tree: &Tree<'_>, node: NodeId) -> Option<u64> {
    let around = tree.outward(node).take_while(|node| tree.node(*node).list.is_none());
    let joint = around.filter(|node| {
        let rule = tree.language.rule(tree.node(*node).kind);
        let governed = || tree.kids(*node).iter().any(|kid| rule.governs.contains(&tree.node(*kid).field));
        let counted = || rule.counts.as_ref().is_some_and(|[number, _]| tree.along(*node, number).is_some());
        rule.joint || tree.node(*node).kind == Kind::RUN || counted() || governed()
    });
    joint.last().map(|node| tree.node(node).hash)
}

/// The hashes of the branches of the nearest thing around a node that has several.
fn branches_around(tree: &Tree<'_>, node: NodeId) -> Vec<u64> {
    let around = tree.outward(node).filter(|node| !tree.is_block(*node));
    let several = around.map(|node| tree.branches(node)).find(|branches| branches.len() > 1);
    several.into_iter().flatten().map(|(_, block)| tree.node(block).hash).collect()
}

/// Whether one of some branches stands in the place of another on the other side.
fn exchanged(ours: &[u64], theirs: &[u64]) -> bool {
    let elsewhere = |(at, hash): (usize, &u64)| theirs.get(at) != Some(hash) && theirs.contains(hash);
    ours.iter().enumerate().any(elsewhere)
}

/// The lines that some bytes are on, white space at the ends aside, as far as they are in a node.
fn lines_of<'s>(tree: &Tree<'s>, node: NodeId, bytes: &Range<usize>) -> &'s [u8] {
    let (span, all) = (tree.node(node).span.range(), tree.source);
    let put_in = &all[bytes.clone()];
    let start = bytes.start + put_in.len() - put_in.trim_ascii_start().len();
    let end = start.max(bytes.start + put_in.trim_ascii_end().len());
    let before = all[span.start..start].iter().rev().take_while(|byte| **byte != b'\n').count();
    let behind = all[end..span.end].iter().take_while(|byte| **byte != b'\n').count();
    &all[start - before..end + behind]
}
