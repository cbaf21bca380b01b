//! The order of what both sides put in at one place.

use std::ops::Range;

use super::lists::Work;
use super::pieces::Item;
use super::{Merger, Side};
use crate::syntax::{NodeId, Tree};
use crate::{Version, Versions};

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
        // A text that tells of all that is behind it goes first.
        let remark = all.iter().position(|(side, node)| self.is_first_remark(&work.seqs, *side, *node));
        let remark = remark.map(|at| all.remove(at));
        if self.in_order(work) || self.in_order_here(work, &all) {
            all.sort_by_cached_key(|(s, n)| sort_key(self.tree(*s), *n));
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
                    *rank = (*rank).max(least);
                    least = *rank;
                }
            }
            let mut order: Vec<usize> = (0..all.len()).collect();
            order.sort_by_key(|i| ranks[*i]);
            all = order.into_iter().map(|i| all[i]).collect();
        }
        for (side, node) in remark.into_iter().chain(all) {
            self.put_in_one(work, side, node, items);
        }
    }

    /// Puts those entries that are in one order on both sides into that order: where each side moved another one of two, by
    /// the places that they left they may have gone past each other.
    pub(super) fn keep_common_order(&self, work: &Work<'_>, items: &mut Vec<Item>) {
        if !Side::BOTH.into_iter().all(|side| work.units.iter().any(|unit| unit.moved[side as usize])) {
            return;
        }
        let place = |side: Side, item: &Item| {
            // What a side moved stands where that has it, and for no more than that.
            let moved = || self.to_side(side, self.to_base(side.other(), item.one_node(side.other().into())?)?);
            work.seqs.get(side).binary_search(&item.one_node(side.into()).or_else(moved)?).ok()
        };
        let places = |item: &Item| Some((place(Side::Ours, item)?, place(Side::Theirs, item)?));
        let mut common: Vec<((usize, usize), usize)> =
            items.iter().enumerate().filter_map(|(at, item)| Some((places(item)?, at))).collect();
        let had: Vec<usize> = common.iter().map(|(_, at)| *at).collect();
        common.sort_unstable();
        let in_one_order = common.is_sorted_by_key(|((_, theirs), _)| *theirs);
        if !in_one_order || common.is_sorted_by_key(|(_, at)| *at) {
            return;
        }
        let mut all: Vec<Option<Item>> = std::mem::take(items).into_iter().map(Some).collect();
        let taken: Vec<Option<Item>> = common.iter().map(|(_, at)| all[*at].take()).collect();
        had.into_iter().zip(taken).for_each(|(at, item)| all[at] = item);
        items.extend(all.into_iter().flatten());
    }

    /// Where each side put in entries and nothing that is left of base stands between, as both sides' entries behind what
    /// one of them replaced, those that may not stand behind the other side's go before them.
    pub(super) fn by_rank(&self, items: &mut [Item]) {
        let rule = |item: &Item| put_in(item).and_then(|(side, node)| self.tree(side).entry_rule(node));
        let rank = |item: &Item| rule(item).map_or(0, |rule| rule.rank);
        for run in items.chunk_by_mut(|a, b| put_in(a).is_some() && put_in(b).is_some()) {
            let own_order = |side: Side| {
                let own = run.iter().filter(|item| put_in(item).is_some_and(|(of, _)| of == side));
                own.is_sorted_by_key(&rank)
            };
            // What stands behind a barrier is not held to what stands before it.
            let barred = run.iter().filter_map(rule).any(|rule| rule.barrier);
            if !barred && Side::BOTH.into_iter().all(own_order) {
                run.sort_by_key(&rank);
            }
        }
    }

    /// Whether insertions of both sides at one place are sorted: the list was, or is on both sides, which two names may
    /// be by chance.
    fn in_order(&self, work: &Work<'_>) -> bool {
        let rows = || Side::BOTH.into_iter().map(|side| self.rows(work, side.into()));
        work.policy.is_some_and(|p| p.sorted)
            && (self.rows(work, Version::Base).all_in_order()
                || rows().all(Rows::all_in_order) && Side::BOTH.into_iter().any(|side| work.seqs.get(side).len() > 2))
    }

    /// Whether statements of one line and one kind, such as imports, that both sides put in at one place stand in
    /// order on each side, with at least two beside them; of imports one will do.
    fn in_order_here(&self, work: &Work<'_>, all: &[(Side, NodeId)]) -> bool {
        let kind = |(side, node): &(Side, NodeId)| self.tree(*side).core_kind(*node);
        let imports = all.iter().all(|(side, node)| self.tree(*side).is_import(*node));
        let others = if imports { 1 } else { 2 };
        let in_order = |side: Side| {
            let own = || all.iter().filter(|(s, _)| *s == side).map(|(_, node)| *node);
            let place = |node: Option<NodeId>| work.seqs.get(side).binary_search(&node?).ok();
            let (Some(first), Some(last)) = (place(own().min()), place(own().max())) else { return false };
            let rows = self.rows(work, side.into());
            let run = rows.above[first]..rows.below[last] + 1;
            run.len() > last - first + others && rows.in_order(run)
        };
        work.policy.is_some_and(|p| p.lines)
            && all.windows(2).all(|pair| kind(&pair[0]) == kind(&pair[1]))
            && Side::BOTH.into_iter().all(in_order)
    }

    pub(super) fn rows<'w>(&self, work: &'w Work<'_>, version: Version) -> &'w Rows {
        work.rows.get(version).get_or_init(|| Rows::of(self.trees.get(version), work.seqs.get(version)))
    }
}

/// How the entries of a list go on from one to the next.
pub(super) struct Rows {
    /// The first and the last of those of its kind that an entry stands among, on the next line each.
    pub(super) above: Vec<usize>,
    pub(super) below: Vec<usize>,
    /// How many of so many entries are of several lines.
    long: Vec<usize>,
    /// How many of so many entries are sorted before the one above.
    unsorted: Vec<usize>,
}

impl Rows {
    fn of(tree: &Tree<'_>, nodes: &[NodeId]) -> Rows {
        let joins = |i: usize| {
            let (above, below) = (nodes[i - 1], nodes[i]);
            on_next_line(tree, above, below) && tree.core_kind(above) == tree.core_kind(below)
        };
        let places: Vec<usize> = (0..nodes.len()).collect();
        let mut rows = Rows { above: places.clone(), below: places, long: vec![0], unsorted: vec![0] };
        for i in (1..nodes.len()).filter(|i| joins(*i)) {
            rows.above[i] = rows.above[i - 1];
        }
        for i in (1..nodes.len()).rev().filter(|i| rows.above[*i] < *i) {
            rows.below[i - 1] = rows.below[i];
        }
        let (mut above, mut long, mut unsorted) = (None, 0, 0);
        for node in nodes {
            let key = sort_key(tree, *node);
            long += usize::from(tree.node_text(*node).contains(&b'\n'));
            unsorted += usize::from(above.is_some_and(|above| above > key));
            above = Some(key);
            rows.long.push(long);
            rows.unsorted.push(unsorted);
        }
        rows
    }

    /// Whether all of some entries are of one line.
    pub(super) fn of_one_line(&self, run: &Range<usize>) -> bool {
        self.long[run.start] == self.long[run.end]
    }

    /// Whether all of some entries are of one line, and sorted.
    fn in_order(&self, run: Range<usize>) -> bool {
        run.len() >= 2 && self.of_one_line(&run) && self.unsorted[run.start + 1] == self.unsorted[run.end]
    }

    /// Whether all entries are sorted, of how many lines ever.
    fn all_in_order(&self) -> bool {
        self.above.len() >= 2 && self.unsorted.last() == Some(&0)
    }
}

/// Whether one entry stands on the line below another.
pub(super) fn on_next_line(tree: &Tree<'_>, above: NodeId, below: NodeId) -> bool {
    line_breaks(tree, above, below) == 1
}

/// How many lines end between two entries.
pub(super) fn line_breaks(tree: &Tree<'_>, above: NodeId, below: NodeId) -> usize {
    let gap = tree.source.get(tree.node(above).span.end as usize..tree.node(below).span.start as usize);
    gap.map_or(0, |gap| gap.iter().filter(|b| **b == b'\n').count())
}

/// The side that put in what an item stands for.
pub(super) fn put_in(item: &Item) -> Option<(Side, NodeId)> {
    match item.edges {
        Versions { base: None, ours: Some((node, _)), theirs: None } => Some((Side::Ours, node)),
        Versions { base: None, ours: None, theirs: Some((node, _)) } => Some((Side::Theirs, node)),
        _ => None,
    }
}

pub(super) type SortKey = (i8, Vec<u8>, Vec<u8>);

/// Names are sorted without regard to case first, as people sort them; common practice, no source. What goes before all
/// names in a language goes first.
pub(super) fn sort_key(tree: &Tree<'_>, node: NodeId) -> SortKey {
    let text = tree.node_text(node);
    (tree.rank(node), text.to_ascii_lowercase(), text.to_vec())
}

/// What names are sorted by where capitals go first.
pub(super) fn sort_key_by_case(tree: &Tree<'_>, node: NodeId) -> SortKey {
    (tree.rank(node), Vec::new(), tree.node_text(node).to_vec())
}
