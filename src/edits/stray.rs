//! Edits that lines put in another definition than they were made in.
//!
//! Lines are matched by what they say, so an edit goes where the lines around it are. If one side moved or copied a
//! definition that is much like another one, these may be in that other one.

use std::ops::Range;

use gix::bstr::ByteSlice;
use rustc_hash::FxHashSet as HashSet;

use super::names::Names;
use super::scopes::{Scopes, depth, named};
use super::{Edit, View, telling};
use crate::grammar::{Outline, find_word};
use crate::line;
use crate::matching::{Bags, dice};
use crate::syntax::Tree;
use crate::{Side, Version, Versions};

/// From this similarity on, of two entries that hold what was in one, one is a copy.
const ALIKE: f32 = 0.5;
/// What a side put in at one place may be a copy if one in so many of its lines stands elsewhere in base.
const COPIED: usize = 3;
/// What leads to a statement is looked for in so many lines.
const LEADING: usize = 40;

/// The edits that strayed.
pub(crate) struct Strays {
    /// Which edits did, or touch an entry that one strayed into or out of.
    pub touched: Vec<bool>,
    /// Those that did.
    pub found: Vec<Stray>,
}

/// An edit that lines put in another entry of the other side than it was made in.
pub(crate) struct Stray {
    /// Its number.
    pub edit: usize,
    /// Who made it.
    pub side: Side,
    /// The name of the entry that it was made in; what that begins with, if it leads to it.
    pub made_in: String,
    /// The name of the one that it was put in, likewise.
    pub put_in: String,
}

/// Whether any edit may have strayed, for all that lines tell.
pub(crate) fn perhaps(versions: Versions<&[u8]>, edits: &[Edit], outline: Option<&Outline>) -> bool {
    !doubtful(versions, edits).is_empty() || edits.iter().any(|edit| leads_elsewhere(versions, edit, outline).is_some())
}

impl Strays {
    /// The edits that strayed. The trees are asked for only if any may have.
    ///
    /// Lines that moved to another entry take the edit along, and an entry under a new name is still that entry. But
    /// a copy is another one, and so is a neighbour whose name now stands above.
    pub(crate) fn of<'t, 's: 't>(
        versions: Versions<&[u8]>,
        edits: &[Edit],
        outline: Option<&Outline>,
        view: impl FnOnce() -> Option<View<'t, 's>>,
    ) -> Strays {
        let mut strays = Strays { touched: vec![false; edits.len()], found: Vec::new() };
        for (number, edit) in edits.iter().enumerate() {
            let Some((side, [old, new])) = leads_elsewhere(versions, edit, outline) else { continue };
            let other = Version::from(side.other());
            let name = |v: Version, line: &Range<usize>| {
                String::from_utf8_lossy(versions.get(v)[line.clone()].trim_ascii()).into_owned()
            };
            strays.found.push(Stray {
                edit: number,
                side,
                made_in: name(Version::Base, &old),
                put_in: name(other, &new),
            });
            // What was put between is not where it seems to be either.
            let between = edit.at(other).end..new.end;
            for (touched, edit) in strays.touched.iter_mut().zip(edits) {
                let at = edit.at(other);
                *touched |= edit.changed_by(side.other()) && at.start < between.end && between.start < at.end;
            }
            strays.touched[number] = true;
        }
        let doubtful = doubtful(versions, edits);
        doubtful.iter().filter(|edit| edit.in_another).for_each(|edit| strays.touched[edit.number] = true);
        if !doubtful.is_empty()
            && let Some(view) = view()
        {
            strays.look_for(&view, &doubtful);
        }
        strays
    }

    fn look_for(&mut self, View { trees, edits }: &View<'_, '_>, doubtful: &[Doubtful]) {
        let names = trees.as_ref().map(Names::of);
        let mut open = Versions::<Vec<Range<usize>>>::default();
        for Doubtful { number, side, depth, .. } in doubtful {
            let other = Version::from(side.other());
            let (base, there) = ((&names.base, &trees.base), (names.get(other), trees.get(other)));
            let old = base.0.around(base.1.source, &edits.base[*number], *depth);
            let new = there.0.around(there.1.source, &edits.get(other)[*number], *depth);
            // Whether the one of two that is new lacks a name that the edit has, and that its side declares in the old one.
            let unknown = |old: usize, new: usize| {
                let own = trees.get(*side);
                let edited = &own.source[edits.get(Version::from(*side))[*number].clone()];
                let Some(definition) = names.get(*side).like(base.0, old) else { return false };
                let declared = own.declared_directly(names.get(*side).entries[definition].node);
                let new = there.1.node_text(there.0.entries[new].node);
                declared
                    .into_iter()
                    .map(|name| own.text(name))
                    .any(|name| find_word(edited, name).next().is_some() && find_word(new, name).next().is_none())
            };
            let Some(found) = parted(base, there, &old, &new, &unknown) else { continue };
            let name = |(names, tree): (&Names, &Tree<'_>), entry: usize| {
                let parts = tree.key_parts(names.entries[entry].node).map(|n| tree.node_text(n));
                String::from_utf8_lossy(&parts.collect::<Vec<_>>().join(&b' ')).into_owned()
            };
            self.found.push(Stray {
                edit: *number,
                side: *side,
                made_in: name(base, found.old),
                put_in: name(there, found.new),
            });
            self.touched[*number] = true;
            let span = |names: &Names, entry: usize| names.entries[entry].span.range();
            open.base.extend([Some(found.old), found.before].into_iter().flatten().map(|entry| span(base.0, entry)));
            let others = [Some(found.new), found.kept].into_iter().flatten();
            open.get_mut(other).extend(others.map(|entry| span(there.0, entry)));
        }
        let touched = |number: usize, v: Version| {
            let at = &edits.get(v)[number];
            open.get(v).iter().any(|entry| entry.start <= at.end && at.start <= entry.end)
        };
        for (number, strayed) in self.touched.iter_mut().enumerate() {
            *strayed |= Version::ALL.into_iter().any(|v| touched(number, v));
        }
    }
}

/// Two entries that lines take for one.
struct Parted {
    /// The one of base, and where the other side has it.
    old: usize,
    kept: Option<usize>,
    /// The one of that side, and where base has it.
    new: usize,
    before: Option<usize>,
}

/// The outermost entries around a place, of base and of a side, that are not one: `old` and `new` are all those around
/// it, outermost first. What was in one may be in a new one below the old name, but not where what was edited is `unknown`.
fn parted(
    base: (&Names, &Tree<'_>),
    there: (&Names, &Tree<'_>),
    old: &[usize],
    new: &[usize],
    unknown: &dyn Fn(usize, usize) -> bool,
) -> Option<Parted> {
    let mut outer = (None, None);
    for (old, new) in old.iter().copied().zip(new.iter().copied()) {
        let (old_key, new_key) = (base.0.entries[old].key, there.0.entries[new].key);
        let (kept, before) = (there.0.child(outer.1, old_key), base.0.child(outer.0, new_key));
        outer = (Some(old), Some(new));
        let alike = |entry: usize| {
            let words = |(names, tree): (&Names, &Tree<'_>), entry: usize| {
                Bags::default().of(tree, names.entries[entry].node, false)
            };
            dice(&words(base, old), &words(there, entry)) >= ALIKE
        };
        let apart = match (kept, before) {
            _ if old_key == new_key => continue,
            // It has another name now.
            (None, None) => continue,
            // One of the two may be a copy.
            (Some(kept), None) => alike(kept) && alike(new) || unknown(old, new),
            // Either was there before, and the old one is gone or elsewhere.
            (_, Some(_)) => true,
        };
        return apart.then_some(Parted { old, kept, new, before });
    }
    None
}

/// What a side changed in one place, where it may have strayed.
struct Doubtful {
    number: usize,
    side: Side,
    /// How far in what it put in stands, if it took nothing out.
    depth: Option<usize>,
    /// Whether it was made between the brackets of one statement and put between those of another.
    in_another: bool,
}

/// The edits of one side, in or beside lines that the other side put in together with some that base has
/// elsewhere: it may have copied or moved what stands around them, and then lines alone do not tell which of two
/// places is the old one. So it is if lines put an edit below another line than it was made below, one that was
/// elsewhere or where the old one is elsewhere now.
fn doubtful<'v>(versions: Versions<&'v [u8]>, edits: &[Edit]) -> Vec<Doubtful> {
    let lines = |text| line::lines(text).into_iter().map(<[u8]>::trim_ascii).filter(|l| !l.is_empty());
    let base: HashSet<&[u8]> = lines(versions.base).collect();
    let put_in = Side::BOTH.map(|side| {
        let new = |e: &Edit| {
            let old: HashSet<&[u8]> = lines(&versions.base[e.at(Version::Base)]).collect();
            let own = lines(&versions.get(side)[e.at(side.into())]);
            own.filter(|l| !old.contains(l)).collect::<Vec<_>>()
        };
        let made = edits.iter().filter(|e| e.changed_by(side)).map(new);
        let copied = made.filter(|lines| {
            let told: Vec<&&[u8]> = lines.iter().filter(|l| telling(l)).collect();
            let known = told.iter().filter(|l| base.contains(**l)).count();
            known > 0 && COPIED * known >= told.len()
        });
        copied.flatten().collect::<HashSet<&[u8]>>()
    });
    let scopes = versions.map(Scopes::of);
    let tells = |line: &&[u8]| telling(line);
    let mut found = Vec::new();
    for (number, edit) in edits.iter().enumerate() {
        let at = edit.at(Version::Base);
        let made_by = |side: &Side| edit.is_conflict() || edit.by() == Some(*side);
        for side in Side::BOTH.into_iter().filter(made_by) {
            let beside = || {
                let (mut before, mut after) =
                    (versions.base[..at.start].lines().rev(), versions.base[at.end..].lines());
                let near = [before.find(tells), after.find(tells)].into_iter().flatten();
                let mut seen = near.chain(versions.base[at.clone()].lines());
                seen.any(|l| put_in[side.other() as usize].contains(l.trim_ascii()))
            };
            let own =
                if at.is_empty() { &versions.get(side)[edit.at(side.into())] } else { &versions.base[at.clone()] };
            let depth = line::lines(own).into_iter().find_map(depth);
            let there = Version::from(side.other());
            let (old, new) = (&scopes.base, scopes.get(there));
            let around = |depth| {
                let (before, after) = (old.around(at.start, depth), new.around(edit.at(there).start, depth));
                before.into_iter().zip(after).filter(|(x, y)| x != y)
            };
            let other_name = |x: &[u8], y: &[u8]| named(x) != named(y) && (new.has_named(x) || old.has_named(y));
            let elsewhere = |depth| around(depth).any(|(x, y)| new.has_head(x) || old.has_head(y) || other_name(x, y));
            let opens = |line: &&[u8]| open_behind(0, line) > 0;
            let another = |depth| {
                let head = |of: Vec<&'v [u8]>| of.last().copied().filter(opens);
                let heads = head(old.around(at.start, depth)).zip(head(new.around(edit.at(there).start, depth)));
                heads.is_some_and(|(x, y)| other_name(x, y))
            };
            if !edit.is_conflict() && beside() || depth.is_some_and(elsewhere) {
                let in_another = depth.is_some_and(another);
                found.push(Doubtful { number, side, depth: depth.filter(|_| at.is_empty()), in_another });
            }
        }
    }
    found
}

/// The lines of the statements below an edit of what leads to one, such as an attribute or a comment above one, in base and
/// in the other side, if these are two: that side took out what stood between, or put another statement there. With them,
/// whose edit it is.
fn leads_elsewhere(
    versions: Versions<&[u8]>,
    edit: &Edit,
    outline: Option<&Outline>,
) -> Option<(Side, [Range<usize>; 2])> {
    let rules = outline?;
    let leads = &rules.leads;
    let side = edit.by()?;
    let other = Version::from(side.other());
    let in_base = !edit.at(Version::Base).is_empty();
    let own = if in_base { Version::Base } else { Version::from(side) };
    let (text, at) = (versions.get(own), edit.at(own));
    let open = open_in_lead(text, &at, leads).or_else(|| describes_lead(text, &at, rules).then_some(0))?;
    let led = |v: Version| led(versions.get(v), edit.at(v).end, open, leads);
    let (old, new) = (led(Version::Base)?, led(other)?);
    let (was, is) = (versions.base[old.clone()].trim_ascii(), versions.get(other)[new.clone()].trim_ascii());
    let stands_in = |v: Version, line: &[u8]| versions.get(v).lines().any(|other| other.trim_ascii() == line);
    (was != is && (stands_in(Version::Base, is) || stands_in(other, was))).then_some((side, [old, new]))
}

/// How many brackets are open behind some lines, if all of them, or the last of them from one that begins it on, lead to
/// the statement below.
fn open_in_lead(text: &[u8], lines: &Range<usize>, leads: &[String]) -> Option<usize> {
    let inside: Vec<&[u8]> = text[lines.clone()].lines_with_terminator().collect();
    let behind = |mut open: usize, from: usize| {
        for line in &inside[from..] {
            if open == 0 && !is_lead(line, leads) && !line.trim_ascii().is_empty() {
                return None;
            }
            open = open_behind(open, line);
        }
        Some(open)
    };
    let begun = |from: usize| is_lead(inside[from], leads).then(|| behind(0, from))?;
    open_above(text, lines.start, leads).and_then(|open| behind(open, 0)).or_else(|| (0..inside.len()).find_map(begun))
}

/// Whether some lines are comments, right above what leads to a statement.
fn describes_lead(text: &[u8], lines: &Range<usize>, rules: &Outline) -> bool {
    let below = text[lines.end..].lines().next();
    below.is_some_and(|line| is_lead(line, &rules.leads))
        && text[lines.clone()].lines().next_back().is_some_and(|line| rules.is_comment(line))
        && text[lines.clone()].lines().all(|line| rules.is_comment(line) || line.trim_ascii().is_empty())
}

/// How many brackets are open where some lines begin, if what leads to a statement was begun above them and goes on as
/// long as what it opened is open.
fn open_above(text: &[u8], start: usize, leads: &[String]) -> Option<usize> {
    let above: Vec<&[u8]> = text[..start].lines_with_terminator().rev().take(LEADING).collect();
    let begins = above.iter().position(|line| is_lead(line, leads))? + 1;
    let mut open = 0;
    for line in above[..begins].iter().rev() {
        open = open_behind(open, line);
        if open == 0 {
            return None;
        }
    }
    Some(open)
}

/// The line that a statement begins on, below what leads to it from some place on.
fn led(text: &[u8], mut at: usize, mut open: usize, leads: &[String]) -> Option<Range<usize>> {
    for line in text[at..].lines_with_terminator().take(LEADING) {
        let leading = open > 0 || is_lead(line, leads) || line.trim_ascii().is_empty();
        if !leading {
            return Some(at..at + line.len());
        }
        open = open_behind(open, line);
        at += line.len();
    }
    None
}

fn is_lead(line: &[u8], leads: &[String]) -> bool {
    leads.iter().any(|sign| line.trim_ascii_start().starts_with(sign.as_bytes()))
}

/// How many brackets are open behind a line, if so many were before it.
fn open_behind(open: usize, line: &[u8]) -> usize {
    line.iter().fold(open, |open, byte| match byte {
        b'(' | b'[' | b'{' => open + 1,
        b')' | b']' | b'}' => open.saturating_sub(1),
        _ => open,
    })
}
