//! What one side put in among entries that the other side sorted.

use std::cell::LazyCell;
use std::ops::Range;

use rustc_hash::FxHashMap as HashMap;

use super::imports::only_imports;
use super::lists::Work;
use super::order::{SortKey, on_next_line, put_in, sort_key, sort_key_by_case};
use super::pieces::{Item, Sorted};
use super::{Merger, Side};
use crate::syntax::{NodeId, Tree};

/// So many entries are in order by what a side did, and not by chance.
const SORTED: usize = 3;

/// What entries are sorted by.
type Order = fn(&Tree<'_>, NodeId) -> SortKey;

/// Runs of entries that a side sorted, by their places.
struct Runs {
    all: Vec<Range<usize>>,
    /// Those in order.
    sorted: Vec<Range<usize>>,
    order: Order,
}

impl Merger<'_, '_> {
    /// Puts into its order what one side put in among entries that the other side sorted: where it was put in, there is
    /// nothing any more that it was put beside.
    pub(super) fn sort_in(&self, work: &Work<'_>, items: &mut Vec<Item>) {
        for side in Side::BOTH {
            let as_here = |item: &Item, node: NodeId| {
                let here = item.one_node(side.into());
                here.is_some_and(|here| self.tree(side).node(here).hash == self.tree(side.other()).node(node).hash)
            };
            let by_other = |item: &Item| self.new_by(side.other(), item).filter(|node| !as_here(item, *node));
            let own = work.seqs.get(side);
            let turned_over = !own.iter().filter_map(|node| self.to_base(side, *node)).is_sorted();
            if !turned_over || !items.iter().any(|item| by_other(item).is_some()) {
                continue;
            }
            let Some(mut runs) = self.sorted_runs(work, side) else { continue };
            // The item that stands for each entry.
            let mut at = vec![None; own.len()];
            for (i, item) in items.iter().enumerate() {
                if let Some(place) = self.place_of(work, side, item).filter(|_| by_other(item).is_none()) {
                    at[place] = Some(i);
                }
            }
            // Of what the other side has by another path, nobody knows here where it goes.
            let is_clear = |run: &Range<usize>| {
                run.clone().filter_map(|place| Some((own[place], &items[at[place]?]))).all(|(node, item)| {
                    let other = item.one_node(side.other().into());
                    let key = |other: NodeId| self.tree(side.other()).node(other).key;
                    !self.tree(side).is_import(node)
                        || other.is_none_or(|other| key(other) == self.tree(side).node(node).key)
                })
            };
            runs.sorted.retain(is_clear);
            let lines = work.policy.is_some_and(|p| p.lines);
            let sorted_alike = LazyCell::new(|| !lines && self.has_in_one_order(work));
            // Behind how many of the items each goes, and the order of those that go behind as many.
            let mut order: Vec<(usize, Option<SortKey>)> = (1..=items.len()).map(|i| (i, None)).collect();
            for (i, item) in items.iter_mut().enumerate() {
                let Some(node) = by_other(item) else { continue };
                let Some(run) = self.run_for(work, &runs, side.other(), node) else { continue };
                // Who sorted a list too, and put it elsewhere in that, means it to be there.
                if self.is_out_of_order(work, side.other(), node, runs.order) && *sorted_alike {
                    continue;
                }
                let key = (runs.order)(self.tree(side.other()), node);
                let before = |n: &NodeId| (runs.order)(self.tree(side), *n) <= key;
                let place = run.start + own[run.clone()].partition_point(before);
                let present = |places: Range<usize>| places.filter_map(|place| Some((place, at[place]?)));
                let (above, below) = (present(run.start..place).next_back(), present(place..run.end).next());
                let Some(behind) = below.map(|(_, i)| i).or(above.map(|(_, i)| i + 1)) else { continue };
                order[i] = (behind, Some(key));
                let version = side.into();
                item.sorted = match (above, below) {
                    _ if !lines => None,
                    (None, _) => Some(Sorted::First(version, own[run.start])),
                    (_, None) => Some(Sorted::Last(version, own[run.end - 1])),
                    _ => Some(Sorted::Between),
                };
            }
            let mut ordered: Vec<(usize, Item)> = std::mem::take(items).into_iter().enumerate().collect();
            ordered.sort_by(|(a, _), (b, _)| order[*a].cmp(&order[*b]));
            let places: Vec<usize> = ordered.iter().map(|(place, _)| *place).collect();
            for (at, (place, mut item)) in ordered.into_iter().enumerate() {
                let above = at.checked_sub(1).map(|at| places[at]);
                let below = places.get(at + 1).copied().unwrap_or(places.len());
                // What stands there anyway is laid out as the versions have it.
                if above == place.checked_sub(1) && below == place + 1 {
                    item.sorted = None;
                }
                items.push(item);
            }
        }
    }

    /// Whether what both sides have is in one order on both.
    fn has_in_one_order(&self, work: &Work<'_>) -> bool {
        let hash = |side: Side| move |node: &NodeId| self.tree(side).node(*node).hash;
        let ours = work.seqs.ours.iter().map(hash(Side::Ours)).enumerate();
        let places: HashMap<u64, usize> = ours.map(|(place, hash)| (hash, place)).collect();
        let theirs = work.seqs.theirs.iter().map(hash(Side::Theirs));
        theirs.filter_map(|hash| places.get(&hash)).is_sorted()
    }

    /// Whether an entry of a side stands above one that goes before it, or below one that goes behind it.
    fn is_out_of_order(&self, work: &Work<'_>, side: Side, node: NodeId, order: Order) -> bool {
        let own = work.seqs.get(side);
        let Ok(place) = own.binary_search(&node) else { return false };
        let around = &own[place.saturating_sub(1)..(place + 2).min(own.len())];
        !around.is_sorted_by_key(|node| order(self.tree(side), *node))
    }

    /// What a side put in, or imports by another path, if an item stands for that.
    fn new_by(&self, side: Side, item: &Item) -> Option<NodeId> {
        let moved = |here: NodeId| self.to_side(side, self.to_base(side.other(), here)?);
        let node = item.one_node(side.into()).or_else(|| moved(item.one_node(side.other().into())?))?;
        let (tree, old) = (self.tree(side), &self.trees.base);
        let elsewhere = |base: NodeId| {
            let other = side.other();
            if self.to_side(other, base).is_some_and(|there| self.changed(other, base, there)) {
                return false;
            }
            let (now, then) = (tree.brought(node), old.brought(base));
            tree.is_import(node)
                && tree.node(node).key != old.node(base).key
                && (now == then || now.iter().any(|name| then.contains(name)))
        };
        (put_in(item).is_some_and(|(by, _)| by == side) || self.to_base(side, node).is_some_and(elsewhere))
            .then_some(node)
    }

    /// The runs of entries that a side sorted, by their places: of a list all of them, of statements those that stand freely,
    /// such as imports, on lines one below the other and of one kind.
    fn sorted_runs(&self, work: &Work<'_>, side: Side) -> Option<Runs> {
        let (tree, rows, own) = (self.tree(side), self.rows(work, side.into()), work.seqs.get(side));
        let runs: Vec<Range<usize>> = match work.policy.is_some_and(|p| p.lines) {
            false => std::iter::once(0..own.len()).collect(),
            true => (0..own.len())
                .filter(|i| rows.above[*i] == *i)
                .map(|start| start..rows.below[start] + 1)
                .filter(|run| rows.of_one_line(run) && self.is_placed_anywhere(work, side, own[run.start]))
                .collect(),
        };
        let sorted_by = |order: &Order| {
            let key = |node: &NodeId| order(tree, *node);
            let sorted = runs.iter().filter(|run| own[(*run).clone()].is_sorted_by_key(key));
            let sorted: Vec<Range<usize>> = sorted.cloned().collect();
            let entries = || sorted.iter().filter(|run| run.len() > 1).flat_map(|run| &own[run.clone()]);
            let turned_over = !entries().filter_map(|node| self.to_base(side, *node)).is_sorted();
            let enough = || {
                entries().count() >= SORTED
                    || sorted.iter().any(|run| self.is_sorted_too(work, side, &own[run.clone()], *order))
            };
            (turned_over && enough()).then_some((entries().count(), sorted, *order))
        };
        let orders: [Order; 2] = [sort_key, sort_key_by_case];
        let (_, sorted, order) = orders.iter().filter_map(sorted_by).reduce(|a, b| if b.0 > a.0 { b } else { a })?;
        Some(Runs { all: runs, sorted, order })
    }

    /// Whether the other side has several entries of a side, and them and all between them in order.
    fn is_sorted_too(&self, work: &Work<'_>, side: Side, run: &[NodeId], order: Order) -> bool {
        let (other, there) = (side.other(), work.seqs.get(side.other()));
        let counterpart = |node: &NodeId| self.to_side(other, self.to_base(side, *node)?);
        let places = run.iter().filter_map(counterpart).filter_map(|node| there.binary_search(&node).ok());
        let (Some(first), Some(last)) = (places.clone().min(), places.max()) else { return false };
        first < last && there[first..=last].is_sorted_by_key(|node| order(self.tree(other), *node))
    }

    fn is_placed_anywhere(&self, work: &Work<'_>, side: Side, node: NodeId) -> bool {
        self.is_independent(side, node, work.policy) || only_imports(self.tree(side), node)
    }

    /// The run of sorted entries that an entry of the other side belongs to: the one in which something begins with the same
    /// two words, such as imports from one package; else the one of its kind with what it was put in nearest to,
    /// without a blank line between.
    fn run_for(&self, work: &Work<'_>, runs: &Runs, of: Side, node: NodeId) -> Option<Range<usize>> {
        let (tree, side) = (self.tree(of), of.other());
        let (own, there) = (work.seqs.get(of), work.seqs.get(side));
        let lines = work.policy.is_some_and(|p| p.lines);
        let text = tree.node_text(node);
        let place = own.binary_search(&node).ok()?;
        let above = place.checked_sub(1).map(|above| own[above]);
        let described = above.is_some_and(|above| tree.is_comment(above) && self.to_base(of, above).is_none());
        if !self.is_placed_anywhere(work, of, node) || described || lines && text.contains(&b'\n') {
            return None;
        }
        let alike = |run: &&Range<usize>| !lines || self.tree(side).core_kind(there[run.start]) == tree.core_kind(node);
        let words = first_words(text);
        let begins_so = |run: &&Range<usize>| {
            let begin = |n: &NodeId| first_words(self.tree(side).node_text(*n)) == words;
            words.is_some() && there[(*run).clone()].iter().any(begin)
        };
        // In a run of one there is no order to go into.
        let holding = |base: NodeId| {
            let place = there.binary_search(&self.to_side(side, base)?).ok()?;
            runs.all.iter().filter(alike).find(|run| run.len() > 1 && run.contains(&place))
        };
        let apart = |i: &usize| lines && !on_next_line(tree, own[*i - 1], own[*i]);
        let first = (1..=place).rev().find(apart).unwrap_or(0);
        let end = (place + 1..own.len()).find(apart).unwrap_or(own.len());
        let outward = (1..own.len()).flat_map(|by| [place.checked_sub(by), Some(place + by)]).flatten();
        let mut nearest =
            outward.filter(|i| (first..end).contains(i)).filter_map(|i| holding(self.to_base(of, own[i])?));
        let run = runs.all.iter().filter(alike).find(begins_so).or_else(|| nearest.next())?;
        runs.sorted.contains(run).then(|| run.clone())
    }

    /// The place of the one entry of a side that an item stands for.
    fn place_of(&self, work: &Work<'_>, side: Side, item: &Item) -> Option<usize> {
        work.seqs.get(side).binary_search(&item.one_node(side.into())?).ok()
    }
}

/// The first two words of a text, if it has more.
fn first_words(text: &[u8]) -> Option<[&[u8]; 2]> {
    let mut words = text.split(|c| !c.is_ascii_alphanumeric() && *c != b'_').filter(|word| !word.is_empty());
    let first = [words.next()?, words.next()?];
    words.next().map(|_| first)
}
