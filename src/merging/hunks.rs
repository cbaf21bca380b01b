//! What each side did to a sequence: hunks over base.

use std::ops::Range;
use std::rc::Rc;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::units::{Form, Unit};
use super::{Merger, Side, Versions};
use crate::grammar::ListRule;
use crate::matching::{continues, dice, words};
use crate::syntax::{NodeId, Span, Token, Tree};

/// From this similarity on, keys aside, an entry in the place of another is that one under a new name.
const ALIKE: f32 = 0.5;

/// One side's edit: units lost and entries put in where they were.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(super) struct Hunk {
    pub side: Side,
    pub units: Range<usize>,
    pub put_in: Range<usize>,
}

impl Hunk {
    /// Where it stands among others, of both sides.
    pub(super) fn place(&self) -> (usize, usize, Side, usize) {
        (self.units.start, self.units.end, self.side, self.put_in.start)
    }
}

impl Merger<'_, '_> {
    /// New definitions replace nothing: they only stand where something was deleted. So a hunk that loses
    /// entries and puts in definitions is two, unless that is in dispute; then what it puts in beside the one in
    /// dispute is apart.
    pub(super) fn parted(
        &self,
        hunks: Vec<Hunk>,
        units: &[Unit],
        seqs: &Versions<&[NodeId]>,
        policy: Option<&'static ListRule>,
    ) -> Vec<Hunk> {
        let hunks: Vec<Hunk> = hunks.into_iter().flat_map(|hunk| self.one_for_one(hunk, units, seqs)).collect();
        let replacing = hunks.iter().filter(|h| !h.units.is_empty() && !h.put_in.is_empty());
        let replaced: HashMap<(Side, Range<usize>), Range<usize>> =
            replacing.map(|h| ((h.side, h.units.clone()), h.put_in.clone())).collect();
        let mut out = Vec::with_capacity(hunks.len());
        for hunk in hunks {
            let Hunk { side, units: lost, put_in } = &hunk;
            let own = seqs.get(*side);
            let parts = !lost.is_empty()
                && !put_in.is_empty()
                && put_in.clone().all(|j| self.is_independent(*side, own[j], policy));
            let part = |units, put_in| Hunk { side: *side, units, put_in };
            // A text that tells of all that is behind it replaces nothing but such a text.
            let remark = !lost.is_empty()
                && put_in.len() == 1
                && self.is_first_remark(seqs, *side, own[put_in.start])
                && !lost.clone().any(|u| self.trees.base.is_remark(seqs.base[units[u].base.start]));
            if remark {
                out.push(part(lost.start..lost.start, put_in.clone()));
                out.push(part(lost.clone(), put_in.end..put_in.end));
                continue;
            }
            if !parts {
                out.push(hunk);
                continue;
            }
            match self.disputed(&hunk, units, replaced.get(&(side.other(), lost.clone())), seqs) {
                None => {
                    out.extend(lost.clone().map(|u| part(u..u + 1, put_in.start..put_in.start)));
                    out.push(part(lost.end..lost.end, put_in.clone()));
                }
                Some(j) if lost.len() == 1 && !self.defined_in_parts(&hunk, units, seqs) => {
                    let at = put_in.start + j;
                    let before = part(lost.start..lost.start, put_in.start..at);
                    let after = part(lost.end..lost.end, at + 1..put_in.end);
                    out.extend(Some(before).filter(|h| !h.put_in.is_empty()));
                    out.push(part(lost.clone(), at..at + 1));
                    out.extend(Some(after).filter(|h| !h.put_in.is_empty()));
                }
                Some(_) => out.push(hunk),
            }
        }
        out
    }

    /// Whether several of the entries that a hunk puts in define parts of what stood in their place.
    fn defined_in_parts(&self, hunk: &Hunk, units: &[Unit], seqs: &Versions<&[NodeId]>) -> bool {
        let (base, own) = (&self.trees.base, self.tree(hunk.side));
        let old = seqs.base[units[hunk.units.start].base.start];
        let put_in = &seqs.get(hunk.side)[hunk.put_in.clone()];
        put_in.iter().filter(|new| continues(base, old, own, **new)).count() > 1
    }

    /// Where entries stand in the place of as many that were nothing but names, brought some into scope, held the
    /// same, or are now defined part by part, each stands for one.
    fn one_for_one(&self, hunk: Hunk, units: &[Unit], seqs: &Versions<&[NodeId]>) -> Vec<Hunk> {
        let Hunk { side, units: lost, put_in } = &hunk;
        let named_anew = |(u, j): (usize, usize)| {
            let (old, new) = (seqs.base[units[u].base.start], seqs.get(*side)[j]);
            let (base, own) = (&self.trees.base, self.tree(*side));
            units[u].form == Form::Single
                && !units[u].moved[*side as usize]
                && base.core_kind(old) == own.core_kind(new)
                && (is_bare(base, old)
                    || binds(base, old) && binds(own, new)
                    || continues(base, old, own, new)
                    || Held::default().the_same(base, old, own, new))
        };
        if lost.len() != put_in.len() || !lost.clone().zip(put_in.clone()).all(named_anew) {
            return vec![hunk];
        }
        let one = |(u, j): (usize, usize)| Hunk { side: *side, units: u..u + 1, put_in: j..j + 1 };
        lost.clone().zip(put_in.clone()).map(one).collect()
    }

    /// Which of the entries that a hunk puts in stands where another stood so that whoever decides has to see both:
    /// a lone one may be that entry under another name, and the other side went on to edit it, or put another there; or one surely is, for
    /// it holds the same, and the other side took it out, or gave it a name too. `others` is what the other side put
    /// in its place.
    fn disputed(
        &self,
        hunk: &Hunk,
        units: &[Unit],
        others: Option<&Range<usize>>,
        seqs: &Versions<&[NodeId]>,
    ) -> Option<usize> {
        let (lone, side) = (hunk.units.len() == 1, hunk.side);
        let (own, there) = (&seqs.get(side)[hunk.put_in.clone()], seqs.get(side.other()));
        let others = others.map_or(&[][..], |others| &there[others.clone()]);
        let known = |tree: &Tree<'_>, n: NodeId| Some(tree.node(n).key).filter(|key| *key != 0);
        let names: HashSet<u64> = others.iter().filter_map(|n| known(self.tree(side.other()), *n)).collect();
        let same_name = |new: NodeId| known(self.tree(side), new).is_some_and(|key| names.contains(&key));
        let mut held = Held::default();
        units[hunk.units.clone()].iter().find_map(|unit| {
            let base = seqs.base[unit.base.start];
            let of_kind = |new: &NodeId| self.trees.base.core_kind(base) == self.tree(side).core_kind(*new);
            if unit.form != Form::Single || unit.moved[side as usize] {
                return None;
            }
            match &unit.sides[side.other() as usize] {
                Some(place) => {
                    // A definition of another kind is another one; other statements may change their kind with a word.
                    let definition = self.trees.base.entry_rule(base).is_some_and(|r| r.unique);
                    let renamed = lone
                        && own.len() == 1
                        && (of_kind(&own[0]) || !definition)
                        && self.changed(side.other(), base, there[place.start]);
                    renamed.then_some(0)
                }
                None if unit.moved == [false; 2] => own.iter().position(|new| {
                    // With nothing to hold, what holds nothing either, or has the same body, is it; else one definition
                    // in its place is, or there are some on both sides: which is it now?
                    let bare = || {
                        let body = body(&self.trees.base, base);
                        let holds_none = |new: &NodeId| {
                            let tree = self.tree(side);
                            of_kind(new) && (is_bare(tree, *new) || body.is_some() && self::body(tree, *new) == body)
                        };
                        let alone = own.iter().filter(|new| of_kind(new)).count() == 1;
                        is_bare(&self.trees.base, base)
                            && (holds_none(new) || !own.iter().any(holds_none) && (alone || !others.is_empty()))
                    };
                    of_kind(new)
                        && !same_name(*new)
                        && (held.the_same(&self.trees.base, base, self.tree(side), *new)
                            || continues(&self.trees.base, base, self.tree(side), *new)
                            || lone && (bare() || self.replaced_by_both(base, side, own, others)))
                }),
                None => None,
            }
        })
    }

    /// Whether each side put one entry in the place of one of that kind: it may be the old one in both, made another by
    /// each. What brings in names is listed as a set, and so is what is no more than a name.
    fn replaced_by_both(&self, base: NodeId, side: Side, own: &[NodeId], others: &[NodeId]) -> bool {
        let ([own], [other]) = (own, others) else { return false };
        let kind = self.trees.base.core_kind(base);
        let of_kind = |(side, new): (Side, NodeId)| self.tree(side).core_kind(new) == kind;
        let tree = &self.trees.base;
        let holds_more = || tree.inside(base).any(|n| n != base && tree.list_rule(n).is_some());
        (tree.is_statement(base) || holds_more())
            && !tree.is_import(base)
            && [(side, *own), (side.other(), *other)].into_iter().all(of_kind)
    }
}

/// What entries of base and of a side hold, worked out once each.
#[derive(Default)]
struct Held {
    old: HashMap<NodeId, Rc<[u64]>>,
    new: HashMap<(NodeId, bool), Rc<[u64]>>,
}

impl Held {
    /// Whether two entries of different names are alike in all else. What is known by its text has nothing else:
    /// it is the same, changed, if part of the text stays. Then a third text beside it, or nothing at all, would
    /// leave words of the old one too often or not often enough (contract K5); not so if nothing of it stayed,
    /// for then one was taken out and another put in.
    fn the_same(&mut self, from: &Tree<'_>, base: NodeId, to: &Tree<'_>, new: NodeId) -> bool {
        let by_text = from.list_rule(from.node(base).parent).is_some_and(|r| r.keyed_by_text)
            && from.entry_rule(base).is_none_or(|r| r.key.is_empty());
        let words = |tree, entry| if by_text { words_of(tree, entry) } else { beyond_key(tree, entry) };
        let old = self.old.entry(base).or_insert_with(|| words(from, base));
        let new = self.new.entry((new, by_text)).or_insert_with(|| words(to, new));
        !old.is_empty() && dice(old, new) >= ALIKE
    }
}

/// One side's hunks over base: stretches of units that it lost, and what it has there instead.
pub(super) fn hunks_of(side: Side, units: &[Unit], length: usize) -> Vec<Hunk> {
    let mut out = Vec::new();
    let mut start = 0;
    let mut at = 0;
    for (u, unit) in units.iter().enumerate().map(|(u, x)| (u, Some(x))).chain([(units.len(), None)]) {
        let place = match unit {
            Some(unit) => match &unit.sides[side as usize] {
                Some(range) => range.clone(),
                None => continue,
            },
            None => length..length,
        };
        let put_in = at..place.start.max(at);
        if start < u || !put_in.is_empty() {
            out.push(Hunk { side, units: start..u, put_in });
        }
        (start, at) = (u + 1, place.end.max(at));
    }
    out
}

/// The sorted hashes of the words in the text of what is listed.
fn words_of(tree: &Tree<'_>, entry: NodeId) -> Rc<[u64]> {
    let mut words: Vec<u64> = words(tree.node_text(tree.node(entry).core)).collect();
    words.sort_unstable();
    words.into()
}

/// Whether an entry brings names into scope.
fn binds(tree: &Tree<'_>, entry: NodeId) -> bool {
    !tree.bound_names(entry).is_empty()
}

/// Whether an entry is a definition, or the like, that is nothing but a name.
fn is_bare(tree: &Tree<'_>, entry: NodeId) -> bool {
    let known = tree.entry_rule(entry).is_some_and(|r| r.unique || r.free && !r.key.is_empty());
    known && !binds(tree, entry) && beyond_key(tree, entry).is_empty()
}

/// The hash of the last part of an entry, if that is more than a sign or a name.
fn body(tree: &Tree<'_>, entry: NodeId) -> Option<u64> {
    let last = *tree.kids(tree.node(entry).core).last()?;
    let part = !tree.node(last).anonymous && tree.key_parts(entry).all(|key| key != last);
    part.then(|| tree.node(last).hash)
}

/// The sorted hashes of the words of an entry, those of its key aside.
fn beyond_key(tree: &Tree<'_>, entry: NodeId) -> Rc<[u64]> {
    let core = tree.node(entry).core;
    if tree.entry_rule(entry).is_none_or(|r| r.key.is_empty()) {
        return Rc::default();
    }
    let key: Vec<Span> = tree.key_parts(entry).map(|n| tree.node(n).span).collect();
    let named = |t: &&Token| key.iter().any(|k| k.start <= t.span.start && t.span.end <= k.end);
    let mut words: Vec<u64> = tree.tokens(core).iter().filter(|t| t.word && !named(t)).map(|t| t.hash).collect();
    words.sort_unstable();
    words.into()
}
