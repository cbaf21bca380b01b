//! Where hunks of both sides meet: stretches of base that have to be resolved as one.

use std::cmp::Ordering;
use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::compatible::{PutIn, does_without};
use super::hunks::Hunk;
use super::imports::{only_imports, own_names};
use super::lists::Work;
use super::order::line_breaks;
use super::twins::Twin;
use super::units::{Form, Unit};
use super::{Merger, Side};
use crate::syntax::{NodeId, Part, Tree};

/// A stretch of units, with the insertions inside it, that both sides changed as one.
#[derive(Clone, Debug)]
pub(super) struct Region {
    pub units: Range<usize>,
    /// The hunks that belong to it, in order.
    pub hunks: Vec<Hunk>,
}

impl Region {
    pub(super) fn holds(&self, hunk: &Hunk) -> bool {
        self.hunks.binary_search_by_key(&hunk.place(), Hunk::place).is_ok()
    }

    /// Whose insertions at one place go first: ours, but that theirs alone put some in the place of what stood right before.
    pub(super) fn leads(&self, work: &Work<'_>) -> Side {
        let instead = |side: Side| {
            let gone = |unit: &Unit| unit.sides[side as usize].is_none() && !unit.moved[side as usize];
            let mut own = self.hunks.iter().filter(|h| h.side == side);
            own.any(|h| h.units.start.checked_sub(1).is_some_and(|before| gone(&work.units[before])))
        };
        if instead(Side::Theirs) && !instead(Side::Ours) { Side::Theirs } else { Side::Ours }
    }
}

impl Merger<'_, '_> {
    /// Of two insertions at one place with blank lines in base, the side whose insertion stands higher among these: right
    /// above all of them, by itself among them, or right below. To neither the other side did anything across them: what
    /// lines keep apart, lines merge.
    pub(super) fn above_the_gap(&self, work: &Work<'_>, region: &Region) -> Option<Side> {
        let [ours, theirs] = &region.hunks[..] else { return None };
        let (above, below) = (region.units.start.checked_sub(1)?, region.units.start);
        if !region.units.is_empty() || ours.side == theirs.side || below == work.units.len() {
            return None;
        }
        let blank = |tree: &Tree<'_>, upper, lower| line_breaks(tree, upper, lower).saturating_sub(1);
        let at = |u: usize| work.units[u].base.clone();
        let between = blank(&self.trees.base, work.seqs.base[at(above).end - 1], work.seqs.base[at(below).start]);
        let height = |hunk: &Hunk| {
            let (tree, own) = (self.tree(hunk.side), work.seqs.get(hunk.side));
            let (first, last) = (own.get(hunk.put_in.start)?, own.get(hunk.put_in.end.checked_sub(1)?)?);
            let upper = own.get(hunk.put_in.start.checked_sub(1)?)?;
            let over = blank(tree, *upper, *first) >= between;
            let under = blank(tree, *last, *own.get(hunk.put_in.end)?) >= between;
            Some(i8::from(under) - i8::from(over))
        };
        let upper = match height(ours)?.cmp(&height(theirs)?) {
            Ordering::Greater => ours.side,
            Ordering::Less => theirs.side,
            Ordering::Equal => return None,
        };
        let as_it_was =
            |u: usize, side: Side| work.units[u].sides[side as usize].is_some() && !self.edited(work, u, side);
        (between > 0 && as_it_was(above, upper.other()) && as_it_was(below, upper)).then_some(upper)
    }

    /// The regions of a sequence, in order.
    pub(super) fn regions(&self, work: &Work<'_>) -> Vec<Region> {
        let mut regions: Vec<Region> = Vec::new();
        let ordered = work.part == Part::Entry && work.policy.is_some_and(|p| !p.free);
        let reach = reach(&work.hunks);
        for (i, hunk) in work.hunks.iter().enumerate() {
            let replaces = !hunk.units.is_empty() && !hunk.put_in.is_empty();
            let meets = work.hunks[reach.partition_point(|end| *end < hunk.units.start)..i]
                .iter()
                .filter(|h| h.side != hunk.side)
                .filter(|h| {
                    meet(h, hunk) && !self.indifferent(work, h, hunk) && !gone_with(work, h, hunk)
                        || ordered && grows_into(h, hunk)
                        || self.leans_on(work, h, hunk)
                        || self.leans_on(work, hunk, h)
                })
                .collect::<Vec<_>>();
            // What is elsewhere now has its edits there.
            let stays_edited = |u| {
                let other = hunk.side.other();
                self.edited(work, u, other)
                    && !work.units[u].moved[hunk.side as usize]
                    && !self.went_with_comments(work, u, other)
            };
            let over_edit = replaces && hunk.units.clone().any(stays_edited);
            if meets.is_empty() && !over_edit {
                continue;
            }
            let units = meets.iter().fold(hunk.units.clone(), |units, h| join(&units, &h.units));
            regions.push(Region { units, hunks: meets.into_iter().chain([hunk]).cloned().collect() });
        }
        regions.extend(work.hunks.iter().filter_map(|hunk| self.made_two(work, hunk)));
        merge_overlapping(work, regions)
    }

    /// A hunk that made two of a unit beside it, by what they begin with, with that unit, if the other side changed it.
    fn made_two(&self, work: &Work<'_>, hunk: &Hunk) -> Option<Region> {
        let own = work.seqs.get(hunk.side);
        let split = |u: &usize| {
            let unit = &work.units[*u];
            let Some(place) = unit.sides[hunk.side as usize].clone().filter(|_| unit.form == Form::Single) else {
                return false;
            };
            let base = work.seqs.base[unit.base.start];
            let new = |node: &NodeId| self.split_head(base, hunk.side, own[place.start], *node);
            self.edited(work, *u, hunk.side.other()) && own[hunk.put_in.clone()].iter().any(new)
        };
        let beside = [hunk.units.start.checked_sub(1), Some(hunk.units.end).filter(|u| *u < work.units.len())];
        let unit = beside.into_iter().flatten().find(split)?;
        Some(Region { units: join(&hunk.units, &(unit..unit + 1)), hunks: vec![hunk.clone()] })
    }

    /// Whether one hunk only puts in what does not mind what is beside it, where the other only deletes.
    fn indifferent(&self, work: &Work<'_>, a: &Hunk, b: &Hunk) -> bool {
        let arrives = |h: &Hunk| {
            let nodes = &work.seqs.get(h.side)[h.put_in.clone()];
            let independent = |n: &NodeId| {
                self.is_independent(h.side, *n, work.policy)
                    || self.is_first_remark(&work.seqs, h.side, *n)
                    || self.stands_apart(h.side, *n)
                    || only_imports(self.tree(h.side), *n)
            };
            h.units.is_empty() && nodes.iter().all(independent)
        };
        let deletes = |h: &Hunk| !h.units.is_empty() && h.put_in.is_empty();
        let does = |a: &Hunk, b: &Hunk| deletes(b) && (arrives(a) || self.imports_instead(work, a, b));
        does(a, b) || does(b, a)
    }

    /// Whether one hunk only puts imports in the place of imports that the other takes out too, of other names: those are
    /// gone, and these are new.
    fn imports_instead(&self, work: &Work<'_>, new: &Hunk, gone: &Hunk) -> bool {
        let (base, tree) = (&self.trees.base, self.tree(new.side));
        let old = new.units.clone().flat_map(|u| &work.seqs.base[work.units[u].base.clone()]);
        let put_in = &work.seqs.get(new.side)[new.put_in.clone()];
        let known: HashSet<&[u8]> = old.clone().flat_map(|entry| own_names(base, *entry)).collect();
        gone.units.start <= new.units.start
            && new.units.end <= gone.units.end
            && old.clone().all(|entry| only_imports(base, *entry))
            && put_in.iter().all(|n| only_imports(tree, *n) && known.is_disjoint(&own_names(tree, *n)))
    }

    /// Whether an entry is nothing but comments, parted from what stands above and below, such as a banner, or what a file
    /// begins with that tells whose it is: it describes neither.
    pub(super) fn stands_apart(&self, side: Side, entry: NodeId) -> bool {
        let tree = self.tree(side);
        let node = tree.node(entry);
        let kids = tree.kids(node.parent);
        let parted = |above: NodeId, below: NodeId| line_breaks(tree, above, below) > 1;
        let above = node.position.checked_sub(1).map(|at| kids[at as usize]);
        let below = kids.get(node.position as usize + 1);
        tree.is_comment(entry)
            && above.is_none_or(|above| parted(above, entry))
            && below.is_some_and(|below| node.span.start == 0 || parted(entry, *below))
    }

    /// Whether one hunk only puts in, right beside what the other took out: it may need what is gone. It does not need what
    /// did nothing, or only gave something a name that it does not say; nor does what both sides had before, if it moved
    /// there as it was, or stands above what is gone.
    fn leans_on(&self, work: &Work<'_>, new: &Hunk, gone: &Hunk) -> bool {
        let beside = new.units.start == gone.units.start || new.units.start == gone.units.end;
        let arrives = new.units.is_empty() && !new.put_in.is_empty();
        let deletes = !gone.units.is_empty() && gone.put_in.is_empty();
        let lines = work.part == Part::Entry && work.policy.is_some_and(|p| p.lines);
        if !lines || !beside || !arrives || !deletes {
            return false;
        }
        let nodes = &work.seqs.get(new.side)[new.put_in.clone()];
        let above = new.units.start == gone.units.start;
        let moved_there = |node: &NodeId| {
            let base = self.to_base(new.side, *node).filter(|base| work.seqs.base.binary_search(base).is_ok());
            base.is_some_and(|base| {
                let stays = |n: NodeId| work.seqs.get(gone.side).binary_search(&n).is_ok();
                let kept = self.to_side(gone.side, base).is_some_and(stays);
                kept && (above || !self.changed(new.side, base, *node))
            })
        };
        if nodes.iter().all(moved_there) {
            return false;
        }
        let put_in = PutIn::of(self.tree(new.side), nodes);
        let needless = |u: usize| {
            let entry = work.seqs.base[work.units[u].base.start];
            let moved = work.units[u].moved[gone.side as usize];
            self.trees.base.is_remark(entry) || !moved && does_without(&put_in, &self.trees.base, entry)
        };
        !gone.units.clone().all(needless) && !self.indifferent(work, new, gone)
    }

    /// Whether all that a side changed in a unit is comments that the other side took out of it, and has elsewhere.
    fn went_with_comments(&self, work: &Work<'_>, u: usize, side: Side) -> bool {
        let Unit { form, base, sides, .. } = &work.units[u];
        let kept = sides[side as usize].as_ref().map(|place| work.seqs.get(side)[place.start]);
        *form == Form::Single && kept.is_some_and(|kept| self.comments_went_on(side, work.seqs.base[base.start], kept))
    }

    /// Whether a side kept a unit but changed it.
    fn edited(&self, work: &Work<'_>, u: usize, side: Side) -> bool {
        let unit = &work.units[u];
        let Some(range) = &unit.sides[side as usize] else { return false };
        match unit.form {
            Form::Single => self.changed(side, work.seqs.base[unit.base.start], work.seqs.get(side)[range.start]),
            _ => true,
        }
    }
}

/// Whether hunks of different sides change the same thing.
fn meet(a: &Hunk, b: &Hunk) -> bool {
    let overlap = a.units.start < b.units.end && b.units.start < a.units.end;
    if overlap {
        // Two deletions agree where they overlap.
        return !(a.put_in.is_empty() && b.put_in.is_empty());
    }
    let inside = |point: &Hunk, stretch: &Hunk| {
        point.units.is_empty() && stretch.units.start < point.units.start && point.units.start < stretch.units.end
    };
    let same_place = a.units.is_empty() && b.units.is_empty() && a.units.start == b.units.start;
    same_place || inside(a, b) || inside(b, a)
}

/// Whether one hunk only deletes, and what of it the other took out too, that moved: what it put in stands for all that
/// moved, and what is deleted is so where it went.
fn gone_with(work: &Work<'_>, a: &Hunk, b: &Hunk) -> bool {
    let deletes = |gone: &Hunk, moved: &Hunk| {
        let (start, end) = (gone.units.start.max(moved.units.start), gone.units.end.min(moved.units.end));
        let all_moved = |units: Range<usize>| units.clone().all(|u| work.units[u].moved[moved.side as usize]);
        gone.put_in.is_empty() && start < end && all_moved(start..end)
    };
    deletes(a, b) || deletes(b, a)
}

/// Whether one hunk put in more entries than it took out where another puts some in: in a list whose
/// order means something, nobody can tell which come first.
fn grows_into(a: &Hunk, b: &Hunk) -> bool {
    let grows = |x: &Hunk, y: &Hunk| {
        !x.units.is_empty() && x.put_in.len() > x.units.len() && y.units.is_empty() && y.units.start == x.units.end
    };
    grows(a, b) || grows(b, a)
}

fn join(a: &Range<usize>, b: &Range<usize>) -> Range<usize> {
    a.start.min(b.start)..a.end.max(b.end)
}

/// How far hunks reach, in order, up to each of them.
fn reach(hunks: &[Hunk]) -> Vec<usize> {
    let mut reach = 0;
    let so_far = |hunk: &Hunk| {
        reach = reach.max(hunk.units.end);
        reach
    };
    hunks.iter().map(so_far).collect()
}

/// Joins regions that share a hunk or a unit, and takes in every hunk over their units.
fn merge_overlapping(work: &Work<'_>, mut regions: Vec<Region>) -> Vec<Region> {
    regions.sort_by_key(|r| (r.units.start, r.units.end));
    let mut merged: Vec<Region> = Vec::new();
    for region in regions {
        match merged.last_mut() {
            // Where one ends at which the next begins, both may have what is put in there.
            Some(last)
                if region.units.start < last.units.end
                    || region.units == last.units
                    || region.units.start == last.units.end && region.hunks.iter().any(|h| last.hunks.contains(h)) =>
            {
                last.units = join(&last.units, &region.units);
                last.hunks.extend(region.hunks);
            }
            _ => merged.push(region),
        }
    }
    let held: HashSet<&Hunk> = merged.iter().flat_map(|region| &region.hunks).collect();
    let alone: Vec<bool> = work.hunks.iter().map(|hunk| !held.contains(hunk)).collect();
    let reach = reach(&work.hunks);
    for region in &mut merged {
        let first = reach.partition_point(|end| *end < region.units.start);
        for (hunk, alone) in work.hunks.iter().zip(&alone).skip(first) {
            if hunk.units.start > region.units.end {
                break;
            }
            let inside = hunk.units.start < region.units.end && region.units.start < hunk.units.end
                || hunk.units.is_empty()
                    && region.units.start < hunk.units.start
                    && hunk.units.start < region.units.end;
            if inside || *alone && shares_an_edge(work, region, hunk) {
                region.units = join(&region.units, &hunk.units);
                region.hunks.push(hunk.clone());
            }
        }
        region.hunks.sort_by_key(Hunk::place);
        region.hunks.dedup();
    }
    merged
}

/// Whether a hunk puts in, right beside a region, what the other side puts in there too.
fn shares_an_edge(work: &Work<'_>, region: &Region, hunk: &Hunk) -> bool {
    let beside = hunk.units.start == region.units.start || hunk.units.start == region.units.end;
    let put_in = |h: &Hunk| &work.seqs.get(h.side)[h.put_in.clone()];
    let there = |twin: &Twin| region.hunks.iter().any(|h| h.side != hunk.side && put_in(h).contains(&twin.node));
    let twins = || put_in(hunk).iter().filter_map(|node| work.twins.get(&(hunk.side, *node)));
    hunk.units.is_empty() && beside && twins().any(there)
}

/// The entries of one side that a region covers.
pub(super) fn covered(work: &Work<'_>, region: &Region, side: Side) -> Range<usize> {
    let mut range: Option<Range<usize>> = None;
    let mut add = |r: &Range<usize>| {
        range = Some(match &range {
            Some(have) if r.is_empty() => have.clone(),
            Some(have) if !have.is_empty() => join(have, r),
            _ => r.clone(),
        });
    };
    for u in region.units.clone() {
        if let Some(r) = &work.units[u].sides[side as usize] {
            add(r);
        }
    }
    for hunk in region.hunks.iter().filter(|h| h.side == side) {
        add(&hunk.put_in);
    }
    range.unwrap_or(0..0)
}
