//! Statements that one side put into another order, where the other side made one use what the other names.

use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::units::{Fate, Fates};
use super::{Merger, Side, Versions};
use crate::grammar::find_word;
use crate::syntax::{NodeId, Tree};

/// In longer stretches orders are not compared pair by pair.
pub(super) const COMPARED: usize = 200;

/// The names that a statement gives something, and those that stand in it, in the versions that have it.
#[derive(Default)]
struct Names<'s> {
    given: HashSet<&'s [u8]>,
    used: HashSet<&'s [u8]>,
    texts: Vec<&'s [u8]>,
}

/// A statement of a stretch: by its number in base, if base has it; else the number of the one that it was put behind.
struct Statement<'s> {
    number: usize,
    /// What base has not.
    new: Option<NodeId>,
    /// Its place on the side that did not turn any over.
    place: usize,
    changed: bool,
    base: Names<'s>,
    mover: Names<'s>,
    merged: Names<'s>,
}

impl<'s> Merger<'_, 's> {
    /// Whether a side turned over two statements of a stretch of base of which the other side changed one, so that now one
    /// of the two uses, or names too, what the other names: in the order of the one side that is something else than in
    /// the order of the other. Those that the other side put in are left `unsettled` by themselves.
    pub(super) fn turned_over_use(
        &self,
        seqs: &Versions<&[NodeId]>,
        fates: &[Fates; 2],
        side: Side,
        stretch: Range<usize>,
        unsettled: &mut HashSet<NodeId>,
    ) -> bool {
        let Fates { of_base, place, .. } = &fates[side as usize];
        let statements = self.statements(seqs, fates, side, stretch.clone());
        if statements.len() > COMPARED || statements.iter().all(|s| !s.changed) {
            return false;
        }
        // What stays is where base has it; what moved, or was put in, is behind one of those.
        let at = |s: &Statement<'_>| match of_base[s.number] {
            _ if s.new.is_some() => 2 * s.number + 3,
            Fate::Moved => {
                let before = |i: &usize| of_base[*i] != Fate::Moved && place[*i] < place[s.number];
                stretch.clone().filter(before).max().map_or(2 * stretch.start + 1, |i| 2 * i + 3)
            }
            _ => 2 * s.number + 2,
        };
        let turned = |first: &Statement<'_>, second: &Statement<'_>| match first.new.or(second.new) {
            None => place[first.number] > place[second.number],
            Some(_) => at(first) > at(second),
        };
        let mut found = false;
        for (i, x) in statements.iter().enumerate() {
            for y in &statements[i + 1..] {
                let (first, second) = if x.place < y.place { (x, y) } else { (y, x) };
                if (x.changed || y.changed) && turned(first, second) && depend_anew(x, y) {
                    let new = x.new.or(y.new);
                    found |= new.is_none();
                    unsettled.extend(new);
                }
            }
        }
        found
    }

    /// The statements of a stretch that both sides have and whose order means something, with those that `side` did not
    /// put in.
    fn statements(
        &self,
        seqs: &Versions<&[NodeId]>,
        fates: &[Fates; 2],
        side: Side,
        stretch: Range<usize>,
    ) -> Vec<Statement<'s>> {
        let (base, own, other) = (&self.trees.base, self.tree(side), self.tree(side.other()));
        let (here, there) = (&fates[side as usize], &fates[side.other() as usize]);
        let ordered = |tree: &Tree<'_>, n: NodeId| !tree.entry_rule(n).is_some_and(|r| r.free) && !tree.is_comment(n);
        let mut found = Vec::new();
        for number in stretch {
            let old = seqs.base[number];
            let (Some((at, _)), Some((place, last))) = (here.place[number], there.place[number]) else { continue };
            if !ordered(base, old) {
                continue;
            }
            let mut merged = Names::default();
            merged.add(own, seqs.get(side)[at]);
            (place..=last).for_each(|j| merged.add(other, seqs.get(side.other())[j]));
            let changed = place < last || self.changed(side.other(), old, seqs.get(side.other())[place]);
            let (before, mover) = (Names::of(base, old), Names::of(own, seqs.get(side)[at]));
            found.push(Statement { number, new: None, place, changed, base: before, mover, merged });
        }
        let known: Vec<(usize, usize)> = found.iter().map(|s| (s.place, s.number)).collect();
        let (first, last) = (known.iter().map(|k| k.0).min(), known.iter().map(|k| k.0).max());
        for place in first.into_iter().zip(last).flat_map(|(first, last)| first..last) {
            let node = seqs.get(side.other())[place];
            let behind = known.iter().filter(|k| k.0 < place).max().map(|k| k.1);
            if let Some(number) = behind.filter(|_| self.to_base(side.other(), node).is_none() && ordered(other, node))
            {
                let (before, mover) = (Names::default(), Names::default());
                let merged = Names::of(other, node);
                found.push(Statement { number, new: Some(node), place, changed: true, base: before, mover, merged });
            }
        }
        found
    }
}

/// Whether one of two statements uses, or names, what the other names, as neither in base nor where they were turned
/// over.
fn depend_anew(x: &Statement<'_>, y: &Statement<'_>) -> bool {
    let one_way = |x: &Statement<'_>, y: &Statement<'_>| {
        let anew = |name: &&[u8]| {
            let before = |x: &Names<'_>, y: &Names<'_>| x.given.contains(name) && y.uses(name);
            y.merged.uses(name) && !before(&x.base, &y.base) && !before(&x.mover, &y.mover)
        };
        x.merged.given.iter().any(anew)
    };
    one_way(x, y) || one_way(y, x)
}

impl<'s> Names<'s> {
    fn of(tree: &Tree<'s>, node: NodeId) -> Names<'s> {
        let mut names = Names::default();
        names.add(tree, node);
        names
    }

    fn add(&mut self, tree: &Tree<'s>, node: NodeId) {
        self.given.extend(tree.declared_directly(node).into_iter().map(|name| tree.text(name)));
        self.given.extend(tree.key_parts(node).map(|part| tree.node_text(part)));
        self.texts.push(tree.node_text(tree.node(node).core));
        for id in tree.inside(node).filter(|id| tree.is_leaf(*id) && !tree.is_member(*id)) {
            self.used.extend(tree.said(id));
        }
    }

    /// Whether a name stands in it; of a path, such as `self.level`, whether its words do side by side.
    fn uses(&self, name: &[u8]) -> bool {
        self.used.contains(name)
            || name.contains(&b'.') && self.texts.iter().any(|text| find_word(text, name).next().is_some())
    }
}
