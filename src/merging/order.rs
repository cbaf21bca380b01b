//! The order of what both sides put in at one place.

use std::ops::Range;

use super::lists::Work;
use super::pieces::Item;
use super::{Merger, Side};
use crate::syntax::{NodeId, Tree};

impl Merger<'_, '_> {
    /// Lays insertions of both sides one after the other: by rank, then sorted if the list is, else
    /// as they are given.
    pub(super) fn in_turn(&mut self, work: &Work<'_>, sides: [(Side, Vec<NodeId>); 2], items: &mut Vec<Item>) {
        let of = |(side, nodes): (Side, Vec<NodeId>)| nodes.into_iter().map(move |n| (side, n));
        let mut all: Vec<(Side, NodeId)> = sides.into_iter().flat_map(of).collect();
        if work.policy.is_none() {
            // What was left behind there stood there first.
            all.sort_by_key(|(side, node)| !self.is_left_behind(*side, *node));
        }
        let rank = |m: &Self, (s, n): (Side, NodeId)| {
            let tree = m.tree(s);
            let kind = tree.language.rule(tree.node(n).kind);
            tree.entry_rule(n).map_or(i16::from(kind.prefix) + i16::from(kind.optional), |r| r.rank.into())
        };
        // A text that tells of all that is behind it.
        if let Some(at) = all.iter().position(|(side, node)| self.is_first_remark(&work.seqs, *side, *node)) {
            let remark = all.remove(at);
            all.insert(0, remark);
        } else if self.in_order(work) || self.in_order_here(work, &all) {
            all.sort_by_key(|(s, n)| sort_key(self.tree(*s).node_text(*n)));
        } else {
            let mut ranks: Vec<i16> = all.iter().map(|x| rank(self, *x)).collect();
            let is_comment = |(side, node): &(Side, NodeId)| self.tree(*side).is_comment(*node);
            for i in (0..all.len()).rev().filter(|i| is_comment(&all[*i])) {
                let own = |x: &&(Side, NodeId)| x.0 == all[i].0;
                // It goes with what its side put in below it; below all that, it is about what was there.
                if all.get(i + 1).filter(own).is_some() {
                    ranks[i] = ranks[i + 1];
                } else if all[..i].iter().filter(own).any(|x| !is_comment(x)) {
                    ranks[i] = i16::MAX;
                }
            }
            // A side's own order stays: nothing goes before what its side put it behind.
            for side in Side::BOTH {
                let mut least = i16::MIN;
                for (rank, _) in ranks.iter_mut().zip(&all).filter(|(_, (s, _))| *s == side) {
                    if work.policy.is_some_and(|p| !p.lines) {
                        *rank = (*rank).max(least);
                    }
                    least = *rank;
                }
            }
            let mut order: Vec<usize> = (0..all.len()).collect();
            order.sort_by_key(|i| ranks[*i]);
            all = order.into_iter().map(|i| all[i]).collect();
        }
        for (side, node) in all {
            self.put_in_one(work, side, node, items);
        }
    }

    /// Whether insertions of both sides at one place are sorted: the list was, or is on both sides, which two names may
    /// be by chance.
    fn in_order(&self, work: &Work<'_>) -> bool {
        let sides = || Side::BOTH.into_iter().map(|side| (self.tree(side), work.seqs.get(side)));
        work.policy.is_some_and(|p| p.sorted)
            && (sorted(&self.trees.base, work.seqs.base)
                || sides().all(|(tree, seq)| sorted(tree, seq)) && sides().any(|(_, seq)| seq.len() > 2))
    }

    /// Whether statements of one line and one kind, such as imports, that both sides put in at one place stand in
    /// order on each side, with at least two beside them.
    fn in_order_here(&self, work: &Work<'_>, all: &[(Side, NodeId)]) -> bool {
        let kind = |(side, node): &(Side, NodeId)| self.tree(*side).core_kind(*node);
        let in_order = |side: Side| {
            let (tree, seq) = (self.tree(side), work.seqs.get(side));
            let own = |node: &NodeId| all.contains(&(side, *node));
            let (Some(first), Some(last)) = (seq.iter().position(own), seq.iter().rposition(own)) else { return false };
            let run = block(tree, seq, first..last + 1);
            let one_line = |node: &NodeId| !tree.node_text(*node).contains(&b'\n');
            run.len() >= last - first + 3 && run.iter().all(one_line) && sorted(tree, run)
        };
        work.policy.is_some_and(|p| p.lines)
            && all.windows(2).all(|pair| kind(&pair[0]) == kind(&pair[1]))
            && Side::BOTH.into_iter().all(in_order)
    }
}

/// Some entries with all before and after them that are of their kind, on the next line each.
fn block<'n>(tree: &Tree<'_>, seq: &'n [NodeId], own: Range<usize>) -> &'n [NodeId] {
    let joins = |i: &usize| {
        let (above, below) = (seq[*i - 1], seq[*i]);
        let gap = &tree.source[tree.node(above).span.end as usize..tree.node(below).span.start as usize];
        tree.core_kind(above) == tree.core_kind(below) && gap.iter().filter(|b| **b == b'\n').count() == 1
    };
    let before = (1..=own.start).rev().take_while(joins).count();
    let after = (own.end..seq.len()).take_while(joins).count();
    &seq[own.start - before..own.end + after]
}

fn sorted(tree: &Tree<'_>, nodes: &[NodeId]) -> bool {
    let texts: Vec<_> = nodes.iter().map(|n| sort_key(tree.node_text(*n))).collect();
    texts.len() >= 2 && texts.windows(2).all(|w| w[0] <= w[1])
}

/// Names are sorted without regard to case first, as people sort them; common practice, no source.
fn sort_key(text: &[u8]) -> (Vec<u8>, Vec<u8>) {
    (text.to_ascii_lowercase(), text.to_vec())
}
