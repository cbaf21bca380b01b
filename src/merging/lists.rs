//! Merging sequences of siblings.
//!
//! Each side's edits are hunks over base: entries lost, entries put in. Hunks of different sides that
//! do not touch the same entries both stand. Those that do are resolved by what the entries are
//! ([`super::combine`]), or disputed.

use std::cell::OnceCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::hunks::{Hunk, hunks_of};
use super::order::Rows;
use super::pieces::{Content, Edges, Item};
use super::regions::Region;
use super::regrafted::Guard;
use super::stranded::is_telling_comment;
use super::twins::{Twin, Twins};
use super::units::{Form, Unit};
use super::unwrapped::take_for_head;
use super::{Merger, Side, Versions};
use crate::Version;
use crate::grammar::ListRule;
use crate::syntax::{NodeId, Part, Tree};

/// From this size on, equal statements that both sides put into one list are one.
pub(super) const SAME_TOKENS: u32 = 4;

/// A merged sequence.
pub(super) struct Sequence {
    pub items: Vec<Item>,
    /// Whether changes of both sides stand in it.
    pub combined: bool,
    /// Whether a side put another thing in the place of the whole node that the sequence is in.
    pub another: bool,
}

impl Sequence {
    /// One of which the sides want two things.
    fn in_dispute(seqs: Versions<&[NodeId]>, part: Part) -> Sequence {
        Sequence { items: vec![Item::dispute(copies(seqs, part), part)], combined: false, another: true }
    }
}

/// Everything known while one sequence is merged.
pub(super) struct Work<'w> {
    pub seqs: Versions<&'w [NodeId]>,
    pub part: Part,
    pub policy: Option<&'static ListRule>,
    pub units: Vec<Unit>,
    pub hunks: Vec<Hunk>,
    /// For each side, the base entries that it moved within the list and the other kept where they were.
    pub moved: [HashSet<NodeId>; 2],
    /// Entries of one key that both sides put in at different places.
    pub twins: Twins,
    /// The early way out of the list that a side put in.
    pub guard: Option<Guard>,
    /// How the entries of each version go on from one to the next, if that was asked for.
    pub rows: Versions<OnceCell<Rows>>,
}

/// What goes along with what the other side moved.
#[derive(Default)]
struct Along {
    hunks: HashSet<Hunk>,
    /// By the entry of the other side that it stands behind.
    behind: HashMap<(Side, NodeId), Vec<NodeId>>,
}

impl Merger<'_, '_> {
    pub(super) fn sequence(
        &mut self,
        seqs: Versions<&[NodeId]>,
        part: Part,
        policy: Option<&'static ListRule>,
    ) -> Sequence {
        let listed = policy.is_some_and(|p| !p.lines);
        // Of what is no list, only what stands before a definition may stand elsewhere.
        if policy.is_some() || seqs.ours.iter().any(|node| self.trees.ours.is_prefix(*node)) {
            self.part_from_others(&seqs, policy.is_some_and(|p| p.free));
        }
        if policy.is_some_and(|p| p.lines) {
            self.found_again(&seqs);
        } else if policy.is_some_and(|p| p.free) {
            self.made_alike(&seqs);
        }
        let reordered = if listed { self.reordered(&seqs) } else { None };
        let seqs = Versions { base: reordered.as_deref().unwrap_or(seqs.base), ..seqs };
        let mut units = self.units(&seqs, policy.is_some_and(|p| p.lines));
        if policy.is_some_and(|p| p.lines) {
            self.join(&seqs, &mut units);
            self.split(&seqs, &mut units);
            self.take_along(&seqs, &mut units);
        }
        let guard = if policy.is_some_and(|p| p.lines) { self.guarded(&seqs, &units) } else { None };
        if let Some(guard) = guard {
            take_for_head(&mut units, &guard);
        }
        let mut hunks = Vec::new();
        for side in Side::BOTH {
            hunks.extend(hunks_of(side, &units, seqs.get(side).len()));
        }
        let mut hunks = self.parted(hunks, &units, &seqs, policy);
        hunks.sort_by_key(Hunk::place);
        let hashes = |v: Version| -> Vec<u64> { seqs.get(v).iter().map(|n| self.trees.get(v).node(*n).hash).collect() };
        let both = Side::BOTH.iter().all(|s| hunks.iter().any(|h| h.side == *s));
        let edited = |s: Side| hashes(s.into()) != hashes(Version::Base);
        let placed = part == Part::Entry && policy.is_some_and(|p| !p.lines && !p.free);
        let another = placed
            && hashes(Version::Ours) != hashes(Version::Theirs)
            && Side::BOTH.iter().any(|s| {
                self.is_another(&seqs, &units, &hunks, *s)
                    && (both || edited(s.other()) && self.drew_out_its_head(&seqs, *s))
                    || self.is_exchanged(&seqs, &units, &hunks, *s)
                    || self.put_in_where_all_left(&seqs, &units, &hunks, *s, policy)
            });
        let parted = || {
            policy.is_some_and(|p| p.lines)
                && (self.parted_beside(&seqs, &units, &hunks) || self.put_in_at_an_end(&seqs, &units, &hunks, policy))
        };
        if another || guard.is_some_and(|guard| self.at_odds_with_guard(&seqs, &units, &hunks, &guard)) || parted() {
            return Sequence::in_dispute(seqs, part);
        }
        if part == Part::Entry && policy.is_some_and(|p| p.alike) {
            self.of_another_form(&seqs, &units, &hunks);
        }
        let twins = self.twins(&seqs, &units, &hunks, policy.is_some_and(|p| p.lines));
        let moved = Side::BOTH.map(|side| {
            let (own, other) = (side as usize, side.other() as usize);
            let moved = units.iter().filter(|u| u.moved[own] && !u.moved[other] && u.sides[other].is_some());
            moved.map(|u| seqs.base[u.base.start]).collect()
        });
        let work = Work { seqs, part, policy, units, hunks, moved, twins, guard, rows: Versions::default() };
        self.lay_out(&work)
    }

    /// Whether an entry does not mind what else is put in beside it.
    pub(super) fn is_independent(&self, side: Side, node: NodeId, policy: Option<&'static ListRule>) -> bool {
        let tree = self.tree(side);
        let Some(policy) = policy else { return false };
        if tree.node(node).part != Part::Entry {
            return false;
        }
        match tree.entry_rule(node) {
            Some(rule) if !rule.told_by.is_empty() => tree.node(node).told,
            Some(rule) => rule.free || policy.free && rule.rank == 0,
            None => policy.free && !tree.is_comment(node),
        }
    }

    fn lay_out(&mut self, work: &Work<'_>) -> Sequence {
        let regions = self.regions(work);
        let along = self.taken_along(work, &regions);
        let mut items = Vec::new();
        let mut touched = [false; 2];
        let mut next_region = regions.into_iter().peekable();
        let mut u = 0;
        let mut hunks = work.hunks.iter().peekable();
        while u <= work.units.len() {
            let mut end = u;
            // One of insertions alone may begin where another does.
            while let Some(region) = next_region.next_if(|r| r.units.start == u) {
                end = region.units.end;
                // Insertions at the region's start that are not part of it come first.
                while let Some(hunk) = hunks.next_if(|h| h.units.start <= u && h.units.end <= end) {
                    if !region.holds(hunk) {
                        self.put_in(work, hunk, &along, &mut items);
                        touched[hunk.side as usize] = true;
                    }
                }
                while hunks.next_if(|h| region.holds(h)).is_some() {}
                let (resolved, both) = self.resolve(work, &region);
                if both {
                    touched = [true; 2];
                }
                items.extend(resolved);
            }
            if end > u {
                u = end;
                continue;
            }
            while let Some(hunk) = hunks.next_if(|h| h.units.start <= u) {
                self.put_in(work, hunk, &along, &mut items);
                touched[hunk.side as usize] = true;
            }
            if u < work.units.len() {
                self.unit(work, u, &mut items, &mut touched);
            }
            u += 1;
        }
        self.keep_common_order(work, &mut items);
        let placed = work.policy.is_some_and(|p| !p.lines && !p.free);
        if placed {
            self.by_rank(&mut items);
        }
        if (placed || work.policy.is_none()) && self.contest_repeated(work.part, &mut items) {
            return Sequence::in_dispute(work.seqs, work.part);
        }
        self.sort_in(work, &mut items);
        Sequence { items, combined: touched == [true; 2], another: false }
    }

    /// One entry that a side put in: with its twin, at the place of the one that leads.
    pub(super) fn put_in_one(&mut self, work: &Work<'_>, side: Side, node: NodeId, items: &mut Vec<Item>) {
        match (work.twins.get(&(side, node)), side) {
            (Some(Twin { leads: false, .. }), _) => {}
            (Some(twin), Side::Ours) => items.push(self.agreed(node, twin.node, work.part)),
            (Some(twin), Side::Theirs) => items.push(self.agreed(twin.node, node, work.part)),
            (None, _) => items.extend(self.arrival(side, node)),
        }
    }

    fn put_in(&mut self, work: &Work<'_>, hunk: &Hunk, along: &Along, items: &mut Vec<Item>) {
        if along.hunks.contains(hunk) {
            return;
        }
        for node in &work.seqs.get(hunk.side)[hunk.put_in.clone()] {
            self.put_in_one(work, hunk.side, *node, items);
            for other in along.behind.get(&(hunk.side, *node)).into_iter().flatten() {
                self.put_in_one(work, hunk.side.other(), *other, items);
            }
        }
    }

    /// What a side put in between two entries that the other moved, and that stand beside one another still, or beside
    /// what that put in between them too: it goes along with them, if neither is in a region.
    fn taken_along(&self, work: &Work<'_>, regions: &[Region]) -> Along {
        let mut along = Along::default();
        let free = |hunk: &Hunk| !regions.iter().any(|region| region.holds(hunk));
        for hunk in work.hunks.iter().filter(|h| h.units.is_empty()) {
            let there = hunk.side.other();
            let others = work.seqs.get(there);
            let moved = |u: usize| {
                let unit = work.units.get(u).filter(|unit| unit.form == Form::Single && unit.moved[there as usize])?;
                others.binary_search(&self.to_side(there, work.seqs.base[unit.base.start])?).ok()
            };
            let above = hunk.units.start.checked_sub(1).and_then(moved);
            let Some((above, below)) = above.zip(moved(hunk.units.start)) else { continue };
            // Beside what the other side put in there too, only what does not mind that.
            let loose = |side: Side, node: &NodeId| self.is_independent(side, *node, work.policy);
            let put_in = &work.seqs.get(hunk.side)[hunk.put_in.clone()];
            let between = others.get(above + 1..below).unwrap_or_default();
            let goes_with = above + 1 == below
                || above < below
                    && between.iter().all(|n| loose(there, n) && self.to_base(there, *n).is_none())
                    && put_in.iter().all(|n| loose(hunk.side, n));
            let moves = |h: &&Hunk| h.side == there && h.put_in.contains(&above) && h.put_in.contains(&below);
            if goes_with && free(hunk) && work.hunks.iter().find(moves).is_some_and(free) {
                along.behind.insert((there, others[below - 1]), put_in.to_vec());
                along.hunks.insert(hunk.clone());
            }
        }
        along
    }

    /// Emits one unit that is in no region.
    fn unit(&mut self, work: &Work<'_>, u: usize, items: &mut Vec<Item>, touched: &mut [bool; 2]) {
        let unit = &work.units[u];
        let edges = self.edges(work, unit);
        if matches!(unit.form, Form::Tangled | Form::Shuffled)
            && let Some(side) = self.changed_alone(work, unit)
        {
            touched[side as usize] = true;
            let own = unit.sides[side as usize].clone().map_or(&[][..], |range| &work.seqs.get(side)[range]);
            items.extend(own.iter().filter_map(|n| self.arrival(side, *n)));
            return;
        }
        match unit.form {
            Form::Tangled if self.joint_twice(work, unit) => items.push(self.dispute_copies(work, unit)),
            Form::Tangled | Form::Shuffled => {
                let listed = self.listed_by_both(work, unit);
                match listed.or_else(|| self.grafted(work, unit)).or_else(|| self.laid_bare(work, unit)) {
                    Some(listed) => {
                        *touched = [true; 2];
                        items.push(listed);
                    }
                    None => items.push(self.dispute_unit(work, unit)),
                }
            }
            Form::Wrapped(side) => {
                let (own, other) = (unit.sides[side as usize].clone(), unit.sides[side.other() as usize].clone());
                // Wrapping what the other side deleted, or put something else in place of, is an edit
                // of it: the two disagree. So do they if it would stand twice.
                let twice = self.has_the_same_around(work, unit, side) || self.handed_on_by_both(work, unit, side);
                let (Some(own), Some(other)) = (own.filter(|_| !twice), other) else {
                    items.push(self.dispute_copies(work, unit));
                    return;
                };
                let replaced = unit.base.len() == 1 && self.replaced(work, unit, side.other());
                let run = self.took_in_beside(work, u, side);
                if replaced
                    || self.took_in_too(work, unit, side.other())
                    || self.sent_away(work, unit, side.other())
                    || run.len() > 1
                    || self.made_a_guard(work, unit, side.other())
                {
                    items.push(self.dispute_with(work, u, &run, side));
                    return;
                }
                let wrapper = work.seqs.get(side)[own.start];
                let other = work.seqs.get(side.other())[other].to_vec();
                if work.part == Part::Entry && work.policy.is_some_and(|p| p.lines) {
                    self.hand_over(wrapper, side, &other);
                } else {
                    self.taken_in.retain(|(s, l), _| *s != side || !self.trees.get(*s).contains(wrapper, *l));
                }
                touched[side as usize] = true;
                touched[side.other() as usize] |= self.differs(work, unit, side.other());
                items.push(Item::new(edges, work.part, Content::Piece(self.insertion(side, wrapper))));
            }
            Form::Unwrapped(side) => match self.unwrapped(work, unit, side) {
                Some(unwrapped) => {
                    *touched = [true; 2];
                    items.extend(unwrapped);
                }
                None => items.push(self.dispute_copies(work, unit)),
            },
            Form::Single if self.behind_a_guard(work, u) || self.parted_in_copies(work, unit) => {
                items.push(self.dispute_copies(work, unit))
            }
            Form::Single => self.single(work, u, edges, items, touched),
        }
    }

    fn single(&mut self, work: &Work<'_>, u: usize, edges: Edges, items: &mut Vec<Item>, touched: &mut [bool; 2]) {
        let unit = &work.units[u];
        let base = work.seqs.base[unit.base.start];
        let node = |side: Side| unit.sides[side as usize].as_ref().map(|r| work.seqs.get(side)[r.start]);
        match (node(Side::Ours), node(Side::Theirs)) {
            (Some(ours), Some(theirs)) => {
                // What both changed is combined further down, or disputed: not here.
                match (self.changed(Side::Ours, base, ours), self.changed(Side::Theirs, base, theirs)) {
                    (true, false) => touched[0] = true,
                    (false, true) => touched[1] = true,
                    _ => {}
                }
                let nodes = Versions { base: Some(base), ours: Some(ours), theirs: Some(theirs) };
                let mut item = self.matched_item(edges, work.part, nodes);
                if self.trees.base.is_import(base) && self.brings_nothing(&item) {
                    *touched = [true; 2];
                    return;
                }
                self.with_what_went_into_it(work, u, &mut item);
                items.push(item);
            }
            (None, None) => {}
            (ours, theirs) => {
                let (side, kept) = match (ours, theirs) {
                    (Some(n), _) => (Side::Ours, n),
                    (_, Some(n)) => (Side::Theirs, n),
                    _ => return,
                };
                touched[side.other() as usize] = true;
                let away = &self.stranded[side.other() as usize];
                let holds_stranded = away.iter().any(|entry| self.trees.base.contains(base, *entry));
                let stranded = away.contains(&base);
                let gone = !unit.moved[side.other() as usize] && !self.went_on(side, base, kept);
                if gone && !stranded && self.only_added_names(side, base, kept) {
                    touched[side as usize] = true;
                    items.push(Item::new(edges, work.part, Content::Piece(self.insertion(side, kept))));
                    return;
                }
                if stranded || gone && (holds_stranded || self.says_more(side, base, kept)) {
                    let mut sides =
                        Versions { base: vec![Item::copy(Version::Base, base, work.part)], ..Versions::default() };
                    *sides.get_mut(side) = vec![Item::copy(side.into(), kept, work.part)];
                    items.push(Item::new(edges, work.part, Content::Dispute(sides)));
                }
            }
        }
    }

    /// Whether a side changed a base entry in more than that it took comments out of it, or off it, or put what has no order
    /// into another: of one that the other side took out with all its comments, nothing is lost then.
    fn says_more(&self, side: Side, base: NodeId, kept: NodeId) -> bool {
        let (b, n) = (&self.trees.base, self.tree(side));
        if self.says_the_same(side, base, kept) {
            return false;
        }
        let said = |tree: &Tree<'_>, entry: NodeId| {
            let leaves = tree.inside(entry).filter(|id| tree.is_leaf(*id));
            let comment = |id: &NodeId| tree.language.rule(tree.node(*id).kind).comment;
            let (comments, rest): (Vec<NodeId>, Vec<NodeId>) = leaves.partition(comment);
            let hashes = |ids: Vec<NodeId>| ids.into_iter().map(|id| tree.node(id).hash).collect::<Vec<u64>>();
            (hashes(rest), hashes(comments))
        };
        let ((old, had), (new, has)) = (said(b, base), said(n, kept));
        let mut had = had.iter();
        old != new || !has.iter().all(|comment| had.any(|old| old == comment))
    }

    /// Whether all that a side changed in a base entry is in statements and comments that the other side took out of the
    /// entry, and has elsewhere: there they are merged.
    fn went_on(&self, side: Side, base: NodeId, kept: NodeId) -> bool {
        let tree = &self.trees.base;
        self.went_on_in(side, base, kept, &|x| tree.is_statement(x) || is_telling_comment(tree, x))
    }

    /// So with comments alone.
    pub(super) fn comments_went_on(&self, side: Side, base: NodeId, kept: NodeId) -> bool {
        self.went_on_in(side, base, kept, &|x| is_telling_comment(&self.trees.base, x))
    }

    fn went_on_in(&self, side: Side, base: NodeId, kept: NodeId, parts: &dyn Fn(NodeId) -> bool) -> bool {
        let elsewhere = |x: NodeId, y: NodeId| {
            x != base
                && parts(x)
                && self.to_side(side, x) == Some(y)
                && self.to_side(side.other(), x).is_some_and(|n| self.to_base(side.other(), n) == Some(x))
        };
        self.changed(side, base, kept) && self.changed_inside(side, base, kept, &elsewhere)
    }

    /// Whether a side's version of a unit differs from base.
    pub(super) fn differs(&self, work: &Work<'_>, unit: &Unit, side: Side) -> bool {
        match &unit.sides[side as usize] {
            Some(range) => {
                let (base, own) = (&work.seqs.base[unit.base.clone()], &work.seqs.get(side)[range.clone()]);
                base.len() != own.len() || base.iter().zip(own).any(|(b, n)| self.changed(side, *b, *n))
            }
            None => true,
        }
    }

    /// The side that moved, or put something around, some entries that the other side left as they were.
    fn changed_alone(&self, work: &Work<'_>, unit: &Unit) -> Option<Side> {
        let has = |side: &Side| unit.sides[*side as usize].is_some();
        Side::BOTH.into_iter().filter(has).find(|side| !self.differs(work, unit, side.other()))
    }

    /// A unit in dispute. What a side put around something carries the other side's edits of that thing.
    fn dispute_unit(&mut self, work: &Work<'_>, unit: &Unit) -> Item {
        let mut item = self.dispute_copies(work, unit);
        if let Content::Dispute(sides) = &mut item.content {
            for side in Side::BOTH {
                if let Some(range) = &unit.sides[side as usize] {
                    let own = work.seqs.get(side)[range.clone()].iter();
                    // What the other side took out of statements whose order is in dispute is in dispute too.
                    let whole = unit.form == Form::Shuffled;
                    let copy = |n: &NodeId| whole.then(|| Item::copy(side.into(), *n, work.part));
                    *sides.get_mut(side) = own.filter_map(|n| self.arrival(side, *n).or_else(|| copy(n))).collect();
                }
            }
        }
        item
    }

    /// A unit in dispute, each version as it is.
    pub(super) fn dispute_copies(&self, work: &Work<'_>, unit: &Unit) -> Item {
        let own = |side: Side| {
            let range = unit.sides[side as usize].clone();
            range.map_or(&[][..], |range| &work.seqs.get(side)[range])
        };
        let nodes =
            Versions { base: &work.seqs.base[unit.base.clone()], ours: own(Side::Ours), theirs: own(Side::Theirs) };
        Item { edges: self.edges(work, unit), ..Item::dispute(copies(nodes, work.part), work.part) }
    }

    /// Whether a side put something of another kind in a unit's place.
    fn replaced(&self, work: &Work<'_>, unit: &Unit, side: Side) -> bool {
        let base = work.seqs.base[unit.base.start];
        let Some(range) = &unit.sides[side as usize] else { return true };
        let node = work.seqs.get(side)[range.start];
        self.trees.base.core_kind(base) != self.tree(side).core_kind(node)
    }

    pub(super) fn edges(&self, work: &Work<'_>, unit: &Unit) -> Edges {
        let ends = |nodes: &[NodeId]| Some((*nodes.first()?, *nodes.last()?));
        let side = |s: Side| unit.sides[s as usize].as_ref().and_then(|r| ends(&work.seqs.get(s)[r.clone()]));
        Versions { base: ends(&work.seqs.base[unit.base.clone()]), ours: side(Side::Ours), theirs: side(Side::Theirs) }
    }
}

/// Entries of each version as they are.
pub(super) fn copies(nodes: Versions<&[NodeId]>, part: Part) -> Versions<Vec<Item>> {
    let of = |version: Version| nodes.get(version).iter().map(|n| Item::copy(version, *n, part)).collect();
    Versions::each(of)
}
