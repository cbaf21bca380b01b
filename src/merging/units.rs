//! Lining up three sequences of siblings: which base entries each side kept, lost, or put into
//! something new.

use std::ops::Range;

use rustc_hash::FxHashMap as HashMap;

use super::{Merger, Side, TakenIn, Versions};
use crate::grammar::Kind;
use crate::matching::{dice, heaviest_increasing};
use crate::syntax::NodeId;

/// Of two statements of a kind whose heads are so much alike, each of one side and around some of the same, one may be the
/// other one.
const SAME_HEAD: f32 = 0.5;

/// How a unit came to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// One base entry.
    Single,
    /// A run of base entries that one side wrapped.
    Wrapped(Side),
    /// A base entry that one side took off what it held.
    Unwrapped(Side),
    /// Both sides regrouped overlapping base entries.
    Tangled,
    /// The sides moved its entries in ways that do not go together.
    Shuffled,
}

/// A stretch of base and what each side made of it.
#[derive(Clone, Debug)]
pub(super) struct Unit {
    pub form: Form,
    pub base: Range<usize>,
    /// Where each side has it; `None`: gone from here.
    pub sides: [Option<Range<usize>>; 2],
    /// Whether a side that lost it has it elsewhere.
    pub moved: [bool; 2],
}

/// What a side made of one base entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fate {
    Kept(usize),
    In(usize),
    Out,
    Gone,
    Moved,
}

/// What one side made of the whole sequence.
pub(super) struct Fates {
    pub of_base: Vec<Fate>,
    /// The first and the last place in the side's sequence where each base entry, what it was put into, or what was
    /// taken out of it stands.
    pub place: Vec<Option<(usize, usize)>>,
    /// The place of what each was put into.
    pub taken_in: Vec<Option<usize>>,
    /// For each entry of the side: the base entry it was taken out of.
    out_of: Vec<Option<usize>>,
    /// For each wrapper: the list that holds what it took in.
    list_in: HashMap<usize, NodeId>,
}

impl Merger<'_, '_> {
    pub(super) fn units(&mut self, seqs: &Versions<&[NodeId]>, lines: bool) -> Vec<Unit> {
        let fates = Side::BOTH.map(|s| self.fates(s, seqs.base, seqs.get(s)));
        let shuffled = if lines { self.shuffled(seqs, &fates) } else { Vec::new() };
        let mut units = self.regroup(seqs, &fates, shuffled);
        for unit in &mut units {
            for side in Side::BOTH {
                self.settle(unit, side, &fates[side as usize], seqs, lines);
            }
        }
        for unit in units.iter_mut().filter(|unit| unit.form == Form::Single) {
            for side in Side::BOTH {
                unit.moved[side as usize] &= self.moved_with_edits(unit, side, seqs);
            }
        }
        units
    }

    /// Whether what a side moved has the other side's edits where it went: of an entry that the side has no more, but has
    /// what it held, those to that alone.
    fn moved_with_edits(&self, unit: &Unit, side: Side, seqs: &Versions<&[NodeId]>) -> bool {
        let entry = seqs.base[unit.base.start];
        let held = self.to_side(side.other(), self.trees.base.node(entry).core);
        let there = unit.sides[side.other() as usize].as_ref().map(|place| seqs.get(side.other())[place.start]);
        self.to_side(side, entry).is_some()
            || there.is_none_or(|there| held == Some(self.tree(side.other()).node(there).core))
    }

    fn fates(&self, side: Side, base: &[NodeId], own: &[NodeId]) -> Fates {
        let tree = self.tree(side);
        let position: HashMap<NodeId, usize> = own.iter().enumerate().map(|(j, n)| (*n, j)).collect();
        let mut list_in = HashMap::default();
        let mut of_base: Vec<Fate> = base
            .iter()
            .map(|b| {
                let Some(mut at) = self.to_side(side, *b) else { return self.without_entry(side, *b, &position) };
                if let Some(j) = position.get(&at) {
                    return Fate::Kept(*j);
                }
                let inner = tree.node(at).parent;
                while at != NodeId::ROOT {
                    at = tree.node(at).parent;
                    if let Some(j) = position.get(&at) {
                        if self.to_base(side, at).is_some() {
                            return Fate::Moved;
                        }
                        list_in.insert(*j, inner);
                        return Fate::In(*j);
                    }
                }
                Fate::Moved
            })
            .collect();
        let place = |fate: &Fate| match fate {
            Fate::Kept(j) | Fate::In(j) => Some((*j, *j)),
            _ => None,
        };
        let mut places: Vec<Option<(usize, usize)>> = of_base.iter().map(place).collect();
        let taken_in = of_base.iter().map(|fate| if let Fate::In(j) = fate { Some(*j) } else { None }).collect();
        // What stands in another order moved.
        let kept: Vec<(usize, usize)> = of_base
            .iter()
            .enumerate()
            .filter_map(|(i, f)| if let Fate::Kept(j) = f { Some((i, *j)) } else { None })
            .collect();
        let kept_at: Vec<usize> = kept.iter().map(|(_, j)| *j).collect();
        let in_order = heaviest_increasing(&kept_at, |k| self.trees.base.weight(base[kept[k].0]));
        let mut stays = vec![false; kept.len()];
        in_order.into_iter().for_each(|k| stays[k] = true);
        for ((i, _), _) in kept.iter().zip(&stays).filter(|(_, s)| !**s) {
            of_base[*i] = Fate::Moved;
        }
        let base_position: HashMap<NodeId, usize> = base.iter().enumerate().map(|(i, n)| (*n, i)).collect();
        let mut out_of: Vec<Option<usize>> = own
            .iter()
            .map(|n| {
                let mut at = self.to_base(side, *n)?;
                if base_position.contains_key(&at) {
                    return None;
                }
                while at != NodeId::ROOT {
                    at = self.trees.base.node(at).parent;
                    if let Some(i) = base_position.get(&at) {
                        return (of_base[*i] == Fate::Gone).then_some(*i);
                    }
                }
                None
            })
            .collect();
        let mut spread: HashMap<usize, (usize, usize)> = HashMap::default();
        for (j, i) in out_of.iter().enumerate().filter_map(|(j, i)| Some((j, (*i)?))) {
            of_base[i] = Fate::Out;
            spread.entry(i).or_insert((j, j)).1 = j;
        }
        spread.iter().for_each(|(i, ends)| places[*i] = Some(*ends));
        self.straighten(base, &mut of_base, &mut out_of, &spread);
        Fates { of_base, place: places, taken_in, out_of, list_in }
    }

    /// What became of an entry that a side has no more: what it held may be a part of something else now.
    fn without_entry(&self, side: Side, entry: NodeId, position: &HashMap<NodeId, usize>) -> Fate {
        let tree = &self.trees.base;
        let core = tree.node(entry).core;
        let bare = core != entry && tree.kids(entry).len() == 1 && !tree.is_statement(entry);
        let held = bare.then(|| self.to_side(side, core)).flatten();
        let elsewhere = |at: NodeId| !self.tree(side).outward(at).any(|outer| position.contains_key(&outer));
        if held.is_some_and(elsewhere) { Fate::Moved } else { Fate::Gone }
    }

    /// Of what a side wrapped or took off, what stands in another order was moved; then, of what it kept, what stands
    /// before or among that and stood behind it, or the other way. `spread` is where it has what it took out of
    /// entries.
    fn straighten(
        &self,
        base: &[NodeId],
        of_base: &mut [Fate],
        out_of: &mut [Option<usize>],
        spread: &HashMap<usize, (usize, usize)>,
    ) {
        // Wrappers and spreads, with the base entries that went into them.
        let mut groups: Vec<(Vec<usize>, (usize, usize))> = Vec::new();
        let mut wrappers: HashMap<usize, usize> = HashMap::default();
        for (i, fate) in of_base.iter().enumerate() {
            match fate {
                Fate::In(j) if wrappers.contains_key(j) => groups[wrappers[j]].0.push(i),
                Fate::In(j) => {
                    wrappers.insert(*j, groups.len());
                    groups.push((vec![i], (*j, *j)));
                }
                Fate::Out => groups.push((vec![i], spread[&i])),
                _ => {}
            }
        }
        let firsts: Vec<usize> = groups.iter().map(|(_, (first, _))| *first).collect();
        let weight = |k: usize| groups[k].0.iter().map(|i| self.trees.base.weight(base[*i])).sum();
        let mut in_order = vec![false; groups.len()];
        let mut end = None;
        for k in heaviest_increasing(&firsts, weight) {
            let (first, last) = groups[k].1;
            if end.is_none_or(|end| end < first) {
                in_order[k] = true;
                end = Some(last);
            }
        }
        let mut ends: Vec<Option<usize>> = vec![None; base.len() + 1];
        let mut starts: Vec<Option<usize>> = vec![None; base.len() + 1];
        for ((group, (first, last)), in_order) in groups.into_iter().zip(in_order) {
            for i in group {
                if in_order {
                    (starts[i], ends[i + 1]) = (Some(first), Some(last));
                } else if of_base[i] == Fate::Out {
                    of_base[i] = Fate::Gone;
                    out_of.iter_mut().filter(|out| **out == Some(i)).for_each(|out| *out = None);
                } else {
                    of_base[i] = Fate::Moved;
                }
            }
        }
        for i in 0..base.len() {
            ends[i + 1] = ends[i + 1].max(ends[i]);
        }
        for i in (0..base.len()).rev() {
            starts[i] = starts[i].into_iter().chain(starts[i + 1]).min();
        }
        for (i, fate) in of_base.iter_mut().enumerate() {
            if let Fate::Kept(j) = *fate
                && (ends[i].is_some_and(|end| j <= end) || starts[i + 1].is_some_and(|start| start <= j))
            {
                *fate = Fate::Moved;
            }
        }
    }

    /// Joins base entries that were wrapped together into units, and those that the sides `shuffled`.
    fn regroup(&self, seqs: &Versions<&[NodeId]>, fates: &[Fates; 2], shuffled: Vec<Range<usize>>) -> Vec<Unit> {
        let mut groups: Vec<(Range<usize>, Form)> = shuffled.into_iter().map(|range| (range, Form::Shuffled)).collect();
        for side in Side::BOTH {
            let f = &fates[side as usize];
            let mut runs: HashMap<usize, (usize, usize)> = HashMap::default();
            for (i, fate) in f.of_base.iter().enumerate() {
                match fate {
                    Fate::In(j) => {
                        let run = runs.entry(*j).or_insert((i, i));
                        run.1 = i;
                    }
                    Fate::Out => groups.push((i..i + 1, Form::Unwrapped(side))),
                    _ => {}
                }
            }
            for (j, (first, last)) in runs {
                let whole =
                    (first..=last).all(|i| matches!(f.of_base[i], Fate::In(k) if k == j) || f.of_base[i] == Fate::Gone);
                groups.push((first..last + 1, if whole { Form::Wrapped(side) } else { Form::Tangled }));
            }
        }
        groups.sort_by_key(|(r, f)| {
            (r.start, r.end, matches!(f, Form::Wrapped(Side::Theirs) | Form::Unwrapped(Side::Theirs)))
        });
        let mut joined: Vec<(Range<usize>, Form)> = Vec::new();
        for (range, form) in groups {
            match joined.last_mut() {
                Some((last, of)) if range.start < last.end => {
                    let both_out =
                        range == *last && matches!((*of, form), (Form::Unwrapped(a), Form::Unwrapped(b)) if a != b);
                    if *of == Form::Shuffled || form == Form::Shuffled {
                        *of = Form::Shuffled;
                    } else if self.goes_around(seqs, fates, (&range, form), (last, *of)) {
                        *of = form;
                    } else if !both_out && !self.goes_around(seqs, fates, (last, *of), (&range, form)) {
                        *of = Form::Tangled;
                    }
                    last.end = last.end.max(range.end);
                }
                _ => joined.push((range, form)),
            }
        }
        let mut units = Vec::with_capacity(seqs.base.len());
        let mut joined = joined.into_iter().peekable();
        let mut i = 0;
        while i < seqs.base.len() {
            let (base, form) = match joined.peek() {
                Some((range, _)) if range.start == i => joined.next().expect("peeked"),
                _ => (i..i + 1, Form::Single),
            };
            i = base.end;
            units.push(Unit { form, base, sides: [None, None], moved: [false; 2] });
        }
        units
    }

    /// Whether what one side put around a run of base entries goes around what the other side put around some of them:
    /// around more than comments besides, and it is not the same.
    fn goes_around(
        &self,
        seqs: &Versions<&[NodeId]>,
        fates: &[Fates; 2],
        (run, form): (&Range<usize>, Form),
        (some, inner): (&Range<usize>, Form),
    ) -> bool {
        let (Form::Wrapped(outer), Form::Wrapped(inner)) = (form, inner) else { return false };
        let base = &self.trees.base;
        let stays = |i: usize| matches!(fates[inner as usize].of_base[i], Fate::Kept(_));
        let besides = |i: usize| !some.contains(&i) && !base.is_comment(seqs.base[i]) && stays(i);
        // What is around it with what it has before its block, from the innermost to what stands in the list itself.
        let heads = |side: Side, run: &Range<usize>| {
            let (tree, fates) = (self.tree(side), &fates[side as usize]);
            let place = fates.taken_in[run.start].expect("it was put into something");
            let wrapper = seqs.get(side)[place];
            let around = tree.outward(fates.list_in[&place]).take_while(|n| tree.contains(wrapper, *n));
            let head = |node: NodeId| {
                let words = tree.head(node).iter().flat_map(|n| tree.tokens(*n)).filter(|token| token.word);
                let mut words: Vec<u64> = words.map(|token| token.hash).collect();
                words.sort_unstable();
                (tree.node(node).kind, words)
            };
            around.filter(|n| tree.block(*n).is_some()).map(head).collect::<Vec<_>>()
        };
        let alike = || {
            let (own, other) = (heads(outer, run), heads(inner, some));
            let same = |(kind, words): &(Kind, Vec<u64>)| {
                other.iter().any(|(other, others)| kind == other && dice(words, others) >= SAME_HEAD)
            };
            own.iter().any(same)
        };
        outer != inner && run.start <= some.start && some.end <= run.end && run.clone().any(besides) && !alike()
    }

    /// Finds where one side has a unit.
    fn settle(&mut self, unit: &mut Unit, side: Side, fates: &Fates, seqs: &Versions<&[NodeId]>, lines: bool) {
        let mut places: Vec<usize> = Vec::new();
        let mut moved = false;
        // What moved among others of its unit is still with them.
        let with_moved = unit.form == Form::Shuffled || lines && unit.form == Form::Wrapped(side.other());
        for i in unit.base.clone() {
            if let Some((first, last)) = fates.place[i].filter(|_| with_moved) {
                places.extend([first, last]);
                continue;
            }
            match fates.of_base[i] {
                Fate::Kept(j) | Fate::In(j) => places.push(j),
                Fate::Out => {
                    places.extend(fates.out_of.iter().enumerate().filter(|(_, o)| **o == Some(i)).map(|(j, _)| j))
                }
                Fate::Moved => moved = true,
                Fate::Gone => {}
            }
        }
        unit.moved[side as usize] = moved;
        let (Some(first), Some(last)) = (places.iter().min(), places.iter().max()) else { return };
        unit.sides[side as usize] = Some(*first..*last + 1);
        if unit.form == Form::Wrapped(side.other()) {
            let place = match self.header_split(unit, side.other(), seqs) {
                true => 0..seqs.get(side).len(),
                false => self.with_replaced(unit, side, fates, seqs, *first..*last + 1),
            };
            unit.sides[side as usize] = Some(place);
            return;
        }
        if unit.form == Form::Wrapped(side)
            && let Some(list) = fates.list_in.get(first)
        {
            let base = seqs.base[unit.base.clone()].to_vec();
            self.taken_in.insert((side, *list), TakenIn { base, other: Vec::new() });
        }
    }

    /// Whether a side put something around all that stands in a list, and into its header a part of what stood before
    /// the list: all that stands in the list, whoever put it in, is behind that part.
    fn header_split(&self, unit: &Unit, side: Side, seqs: &Versions<&[NodeId]>) -> bool {
        let (b, n) = (&self.trees.base, self.tree(side));
        let ([wrapper], Some(first)) = (seqs.get(side), seqs.base.first()) else { return false };
        let (list, own) = (b.node(*first).parent, n.node(*wrapper).parent);
        unit.base.len() == seqs.base.len()
            && b.is_block(list)
            && self.head_taken(b.node(list).parent, side, n.node(own).parent, n.node(*wrapper).core)
    }

    /// A wrapped run's place on the side that did not wrap it, with what stands there for entries at its ends that
    /// this side lost.
    fn with_replaced(
        &self,
        unit: &Unit,
        side: Side,
        fates: &Fates,
        seqs: &Versions<&[NodeId]>,
        place: Range<usize>,
    ) -> Range<usize> {
        let own = seqs.get(side);
        let gone = |i: usize| fates.of_base[i] == Fate::Gone;
        let new = |j: &usize| self.to_base(side, own[*j]).is_none();
        let kept = |i: Option<usize>| match i {
            None => true,
            Some(i) => matches!(fates.of_base.get(i), None | Some(Fate::Kept(_))),
        };
        let (start, end) = (unit.base.start, unit.base.end);
        let before = (0..place.start).rev().take_while(new).count();
        let after = (place.end..own.len()).take_while(new).count();
        let lead = if gone(start) && kept(start.checked_sub(1)) { before } else { 0 };
        let trail = if gone(end - 1) && kept(Some(end)) { after } else { 0 };
        place.start - lead..place.end + trail
    }

    /// Hands the other side's version of a wrapped run to the list that took the run in.
    pub(super) fn hand_over(&mut self, wrapper: NodeId, side: Side, other: &[NodeId]) {
        let tree = self.tree(side);
        let end = tree.node(wrapper).end;
        for ((s, list), run) in &mut self.taken_in {
            if *s == side && wrapper <= *list && *list < end {
                run.other = other.to_vec();
            }
        }
    }
}
