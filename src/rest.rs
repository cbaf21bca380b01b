//! What the line merge leaves over: three texts that differ only where it found a conflict, or where it may have
//! made an edit in the wrong one of two places.

use std::ops::Range;

use gix::bstr::ByteSlice;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use crate::line::{self, ChunkKind};
use crate::matching::{Bags, dice};
use crate::merging::Withdrawn;
use crate::syntax::{NodeId, Span, Tree, line_hash};
use crate::{Side, Version, Versions};

/// From this similarity on, of two entries that hold what was in one, one is a copy.
const ALIKE: f32 = 0.5;
/// What a side put in at one place may be a copy if one in so many of its lines stands elsewhere in base.
const COPIED: usize = 3;

/// A stretch of lines that somebody changed, as bytes of each version.
pub(crate) struct Edit {
    kind: ChunkKind,
    at: Versions<Range<usize>>,
}

impl Edit {
    /// Whether a side changed these lines.
    pub(crate) fn changed_by(&self, side: Side) -> bool {
        by(self.kind) != Some(side.other())
    }

    /// Whether lines do not tell how to settle it.
    pub(crate) fn is_conflict(&self) -> bool {
        self.kind == ChunkKind::Conflict
    }

    /// Its bytes in a version.
    pub(crate) fn at(&self, version: Version) -> Range<usize> {
        self.at.get(version).clone()
    }
}

/// Three versions, as far as the line merge can settle them.
#[derive(Default)]
pub(crate) struct Settled {
    /// What is left over: the versions with every line edit made in all of them that lines can settle.
    pub texts: Versions<Vec<u8>>,
    /// The bytes that are not settled, and the lines around them.
    pub disputed: Versions<Vec<Range<usize>>>,
    /// What lines begin with that each side put in by itself, where lines settled one of the two edits.
    pub doubled: Vec<Vec<u8>>,
    /// Whether a line that is not settled also stands in an edit that is: one side may have moved it.
    pub moved: bool,
    /// Where each edit of a side is now, settled or not.
    pub edited: Vec<Place>,
}

/// What the sides changed, by lines, in order.
pub(crate) fn edits(versions: Versions<&[u8]>) -> Vec<Edit> {
    let lines = versions.map(line::lines);
    let mut ends = Versions::<usize>::default();
    let mut edits = Vec::new();
    for chunk in line::chunks(versions, line::Algorithm::Histogram) {
        let mut at = Versions::<Range<usize>>::default();
        for (version, range) in
            [(Version::Base, chunk.base), (Version::Ours, chunk.ours), (Version::Theirs, chunk.theirs)]
        {
            let start = *ends.get(version);
            let end = start + lines.get(version)[range].iter().map(|l| l.len()).sum::<usize>();
            *at.get_mut(version) = start..end;
            *ends.get_mut(version) = end;
        }
        if chunk.kind != ChunkKind::Unchanged {
            edits.push(Edit { kind: chunk.kind, at });
        }
    }
    edits
}

/// The hashes of the lines that a side left where it took out what follows: a comment there said nothing of that.
pub(crate) fn left_behind(versions: Versions<&[u8]>, edits: &[Edit]) -> HashSet<u64> {
    let taken_out = |e: &&Edit| {
        let base = &versions.base[e.at.base.clone()];
        let own = |side: Side| &versions.get(side)[e.at(side.into())];
        Side::BOTH
            .into_iter()
            .any(|side| e.changed_by(side) && base.len() > own(side).len() && base.ends_with(own(side)))
    };
    let above = |e: &Edit| versions.base[..e.at.base.start].lines().next_back();
    edits.iter().filter(taken_out).filter_map(above).map(line_hash).collect()
}

/// Trees of the versions, or of parts of them in which all edits are.
pub(crate) struct View<'t, 's> {
    pub trees: &'t Versions<Tree<'s>>,
    /// Where each edit is in their texts.
    pub edits: Versions<Vec<Range<usize>>>,
}

/// Where an edit is in three texts.
pub(crate) struct Place {
    /// Its bytes.
    pub at: Versions<Range<usize>>,
    /// Its bytes in ours itself.
    pub ours: Range<usize>,
    /// Whether the three texts may differ there.
    pub open: bool,
    /// Who made it, if one side alone did.
    pub by: Option<Side>,
}

/// Where the edits are in the versions themselves.
pub(crate) fn places(edits: &[Edit]) -> Vec<Place> {
    edits.iter().map(|e| Place { at: e.at.clone(), ours: e.at.ours.clone(), open: true, by: by(e.kind) }).collect()
}

/// Where the edits are in a clean merge of the versions. Nothing, if it is not just these edits of them.
pub(crate) fn places_in(merged: &[u8], versions: Versions<&[u8]>, edits: &[Edit]) -> Option<Vec<Place>> {
    let (mut rest, mut done) = (merged, 0);
    let mut places = Vec::with_capacity(edits.len());
    for Edit { kind, at } in edits {
        if *kind == ChunkKind::Conflict {
            return None;
        }
        let chosen = by(*kind).map_or(Version::Ours, Version::from);
        rest = rest.strip_prefix(&versions.base[done..at.base.start])?;
        let start = merged.len() - rest.len();
        rest = rest.strip_prefix(&versions.get(chosen)[at.get(chosen).clone()])?;
        done = at.base.end;
        let place = start..merged.len() - rest.len();
        let at = Versions { base: place, ours: at.ours.clone(), theirs: at.theirs.clone() };
        places.push(Place { ours: at.ours.clone(), at, open: false, by: by(*kind) });
    }
    (rest == &versions.base[done..]).then_some(places)
}

/// The bytes that somebody changed.
pub(crate) fn open(edits: &[Edit]) -> Versions<Vec<Range<usize>>> {
    Versions::each(|version| edits.iter().map(|e| e.at.get(version).clone()).collect())
}

/// The bytes that somebody changed, with the lines around them.
pub(crate) fn changed(versions: Versions<&[u8]>, edits: &[Edit]) -> Versions<Vec<Range<usize>>> {
    Versions::each(|version| {
        let text = versions.get(version);
        edits.iter().map(|e| line::with_neighbours(text, e.at.get(version))).collect()
    })
}

/// Makes every line edit in all three versions that is in no conflict, and that lines put in the entry it was made
/// in, and that uses nothing that the other side withdrew. The trees are asked for only if the entry is in doubt.
pub(crate) fn settle<'t, 's: 't>(
    versions: Versions<&[u8]>,
    edits: &[Edit],
    withdrawn: &Withdrawn,
    view: impl FnOnce() -> Option<View<'t, 's>>,
) -> Settled {
    let doubtful = doubtful(versions, edits);
    let view = if doubtful.is_empty() { None } else { view() };
    let strayed = view.as_ref().map_or_else(|| vec![false; edits.len()], |view| strayed(view, &doubtful));
    let mut settled = Settled::default();
    let moves: Vec<[Moves<'_>; 2]> =
        edits.iter().map(|e| Side::BOTH.map(|side| Moves::of(versions, &e.at, side))).collect();
    let mut disputed = [Moves::default(), Moves::default()];
    let put: HashSet<&[u8]> = moves.iter().flatten().flat_map(|moves| &moves.put).copied().collect();
    // What both sides took out of one place, one of them may have moved, and the other not.
    let in_dispute = |e: &Edit, sides: &[Moves<'_>; 2]| match e.kind {
        ChunkKind::Conflict => true,
        ChunkKind::Same => e.at.ours.is_empty() && !put.is_disjoint(&sides[0].out),
        _ => false,
    };
    for (_, sides) in edits.iter().zip(&moves).filter(|(e, sides)| in_dispute(e, sides)) {
        disputed.iter_mut().zip(sides).for_each(|(all, moves)| all.add(moves));
    }
    // What each side put in by itself, where lines settle it and anywhere.
    let mut settled_by: [HashSet<&[u8]>; 2] = Default::default();
    let mut put_by: [HashSet<&[u8]>; 2] = Default::default();
    // What was taken out and put in where lines settle it, and where they do not.
    let (mut shut, mut left) = (Moves::default(), Moves::default());
    let mut done = 0;
    for ((edit, moves), strayed) in edits.iter().zip(&moves).zip(strayed) {
        let Edit { kind, at } = edit;
        // What a side moved to or from where the sides disagree is seen to have moved only if both places are.
        let open = in_dispute(edit, moves)
            || strayed
            || by(*kind).is_some_and(|side| withdrawn.used_in(&versions.get(side)[at.get(side).clone()], side))
            || moves.iter().zip(&disputed).any(|(here, there)| here.crosses(there));
        let chosen = by(*kind).map_or(Version::Ours, Version::from);
        let unchanged = &versions.base[done..at.base.start];
        done = at.base.end;
        let mut place = Versions::<Range<usize>>::default();
        for version in Version::ALL {
            let text = settled.texts.get_mut(version);
            text.extend_from_slice(unchanged);
            let start = text.len();
            let from = if open { version } else { chosen };
            text.extend_from_slice(&versions.get(from)[at.get(from).clone()]);
            *place.get_mut(version) = start..text.len();
        }
        settled.edited.push(Place { at: place, ours: at.ours.clone(), open, by: by(*kind) });
        let all = if open { &mut left } else { &mut shut };
        moves.iter().for_each(|moves| all.add(moves));
        for side in Side::BOTH.into_iter().filter(|s| *kind == ChunkKind::Conflict || by(*kind) == Some(*s)) {
            let put = &moves[side as usize].put;
            put_by[side as usize].extend(put);
            if !open {
                settled_by[side as usize].extend(put);
            }
        }
    }
    let doubled = Side::BOTH.iter().flat_map(|s| settled_by[*s as usize].intersection(&put_by[s.other() as usize]));
    settled.doubled = doubled.map(|line| line.to_vec()).collect();
    settled.moved = shut.crosses(&left) || !shut.put.is_disjoint(&left.put);
    for version in Version::ALL {
        let text = settled.texts.get_mut(version);
        text.extend_from_slice(&versions.base[done..]);
        let open = settled.edited.iter().filter(|place| place.open).map(|place| place.at.get(version));
        *settled.disputed.get_mut(version) = open.map(|range| line::with_neighbours(text, range)).collect();
    }
    settled
}

/// The telling lines of a stretch, without the white space around them.
fn told<'v>(text: &'v [u8], range: &Range<usize>) -> impl Iterator<Item = &'v [u8]> + use<'v> {
    line::lines(&text[range.clone()]).into_iter().map(<[u8]>::trim_ascii).filter(|line| telling(line))
}

/// The lines that were taken out and put in.
#[derive(Default)]
struct Moves<'v> {
    out: HashSet<&'v [u8]>,
    put: HashSet<&'v [u8]>,
}

impl<'v> Moves<'v> {
    /// Those of one side in an edited stretch.
    fn of(versions: Versions<&'v [u8]>, at: &Versions<Range<usize>>, side: Side) -> Moves<'v> {
        let count = |version: Version| {
            let mut count: HashMap<&[u8], usize> = HashMap::default();
            let lines = told(versions.get(version), at.get(version)).map(opening);
            lines.for_each(|line| *count.entry(line).or_default() += 1);
            count
        };
        let (base, own) = (count(Version::Base), count(side.into()));
        let more = |of: &HashMap<&'v [u8], usize>, than: &HashMap<&'v [u8], usize>| {
            let more = of.iter().filter(|(line, n)| than.get(*line).is_none_or(|other| other < n));
            more.map(|(line, _)| *line).collect()
        };
        Moves { out: more(&base, &own), put: more(&own, &base) }
    }

    fn add(&mut self, more: &Moves<'v>) {
        self.out.extend(&more.out);
        self.put.extend(&more.put);
    }

    /// Whether a line was taken out here and put in there, or the other way.
    fn crosses(&self, there: &Moves<'_>) -> bool {
        !self.put.is_disjoint(&there.out) || !self.out.is_disjoint(&there.put)
    }
}

/// What a line that begins with several words begins with, such as the name in `def low(rows):` or the first of
/// those in `from tides import high, low`; else all of it.
fn opening(line: &[u8]) -> &[u8] {
    let end = line.iter().position(|b| b"([{<=:,".contains(b)).unwrap_or(line.len());
    let start = line[..end].trim_ascii();
    if start.contains(&b' ') { start } else { line }
}

/// Whether a line is more than punctuation or one short word.
fn telling(line: &[u8]) -> bool {
    line.iter().filter(|b| b.is_ascii_alphanumeric()).count() > 3
}

/// An edit of one side alone that may have strayed.
struct Doubtful {
    number: usize,
    side: Side,
    /// How far in what it put in stands, if it took nothing out.
    depth: Option<usize>,
}

/// The edits of one side alone, in or beside lines that the other side put in together with some that base has
/// elsewhere: it may have copied or moved what stands around them, and then lines alone do not tell which of two
/// places is the old one. So it is if lines put an edit below another line than it was made below, one that was
/// elsewhere or where the old one is elsewhere now.
fn doubtful(versions: Versions<&[u8]>, edits: &[Edit]) -> Vec<Doubtful> {
    let lines = |text| line::lines(text).into_iter().map(<[u8]>::trim_ascii).filter(|l| !l.is_empty());
    let base: HashSet<&[u8]> = lines(versions.base).collect();
    let put_in = Side::BOTH.map(|side| {
        let new = |e: &Edit| {
            let old: HashSet<&[u8]> = lines(&versions.base[e.at.base.clone()]).collect();
            let own = lines(&versions.get(side)[e.at.get(side).clone()]);
            own.filter(|l| !old.contains(l)).collect::<Vec<_>>()
        };
        let made = edits.iter().filter(|e| by(e.kind) != Some(side.other())).map(new);
        let copied = made.filter(|lines| {
            let told: Vec<&&[u8]> = lines.iter().filter(|l| telling(l)).collect();
            let known = told.iter().filter(|l| base.contains(**l)).count();
            known > 0 && COPIED * known >= told.len()
        });
        copied.flatten().collect::<HashSet<&[u8]>>()
    });
    let scopes = versions.map(Scopes::of);
    let mut found = Vec::new();
    for (number, Edit { kind, at }) in edits.iter().enumerate() {
        let Some(side) = by(*kind) else { continue };
        let seen = line::lines(&versions.base[line::with_neighbours(versions.base, &at.base)]);
        let beside = || seen.iter().any(|l| put_in[side.other() as usize].contains(l.trim_ascii()));
        let own = (*versions.get(side), at.get(side).clone());
        let place = if at.base.is_empty() { own } else { (versions.base, at.base.clone()) };
        let depth = line::lines(&place.0[place.1]).into_iter().find_map(depth);
        let elsewhere = |depth| {
            let there = Version::from(side.other());
            let (old, new) = (&scopes.base, scopes.get(there));
            let mut around = old.around(at.base.start, depth).into_iter().zip(new.around(at.get(there).start, depth));
            around.any(|(x, y)| x != y && (new.heads.contains(x) || old.heads.contains(y)))
        };
        if beside() || depth.is_some_and(elsewhere) {
            found.push(Doubtful { number, side, depth: depth.filter(|_| at.base.is_empty()) });
        }
    }
    found
}

/// Which lines of a text others stand further in below.
struct Scopes<'v> {
    /// Where each line begins, without white space, and how far in it stands; nothing for a blank one.
    lines: Vec<(usize, &'v [u8], Option<usize>)>,
    /// For each line, the last one above it that stands less far in.
    outer: Vec<Option<usize>>,
    /// The lines that are such a one for any other.
    heads: HashSet<&'v [u8]>,
}

impl<'v> Scopes<'v> {
    fn of(text: &'v [u8]) -> Scopes<'v> {
        let mut start = 0;
        let mut scopes = Scopes { lines: Vec::new(), outer: Vec::new(), heads: HashSet::default() };
        let mut open: Vec<(usize, usize)> = Vec::new();
        for (number, line) in line::lines(text).into_iter().enumerate() {
            let depth = depth(line);
            if let Some(depth) = depth {
                while open.last().is_some_and(|(_, outer)| *outer >= depth) {
                    open.pop();
                }
            }
            let outer = depth.and(open.last()).map(|(number, _)| *number);
            scopes.heads.extend(outer.map(|outer| scopes.lines[outer].1));
            scopes.lines.push((start, line.trim_ascii(), depth));
            scopes.outer.push(outer);
            open.extend(depth.map(|depth| (number, depth)));
            start += line.len();
        }
        scopes
    }

    /// The lines that one that begins at `offset`, so far in, stands below, outermost first.
    fn around(&self, offset: usize, depth: usize) -> Vec<&'v [u8]> {
        let mut at = self.lines.partition_point(|(start, ..)| *start < offset).checked_sub(1);
        let mut found = Vec::new();
        while let Some(number) = at {
            let (_, line, own) = self.lines[number];
            if own.is_some_and(|own| own < depth) {
                found.push(line);
            }
            at = if own.is_some() { self.outer[number] } else { number.checked_sub(1) };
        }
        found.reverse();
        found
    }
}

/// How far in a line stands, if it is not blank.
fn depth(line: &[u8]) -> Option<usize> {
    line.iter().position(|b| !b.is_ascii_whitespace())
}

/// The side that alone made an edit of this kind.
fn by(kind: ChunkKind) -> Option<Side> {
    match kind {
        ChunkKind::Ours => Some(Side::Ours),
        ChunkKind::Theirs => Some(Side::Theirs),
        _ => None,
    }
}

/// Which edits touch entries that a doubtful edit strayed into or out of: lines put it in another entry of the other
/// side than it was made in.
///
/// Lines that moved to another entry take the edit along, and an entry under a new name is still that entry. But
/// a copy is another one, and so is a neighbour whose name now stands above.
fn strayed(View { trees, edits }: &View<'_, '_>, doubtful: &[Doubtful]) -> Vec<bool> {
    let names = trees.as_ref().map(Names::of);
    let mut open = Versions::<Vec<Range<usize>>>::default();
    let mut strayed = vec![false; edits.base.len()];
    for Doubtful { number, side, depth } in doubtful {
        let other = Version::from(side.other());
        let (base, there) = (&names.base, names.get(other));
        let old = base.around(trees.base.source, &edits.base[*number], *depth);
        let new = there.around(trees.get(other).source, &edits.get(other)[*number], *depth);
        let mut outer = (None, None);
        for (old, new) in old.into_iter().zip(new) {
            let (old_key, new_key) = (base.entries[old].key, there.entries[new].key);
            let (kept, before) = (there.child(outer.1, old_key), base.child(outer.0, new_key));
            outer = (Some(old), Some(new));
            let strays = match (kept, before) {
                _ if old_key == new_key => continue,
                // It has another name now.
                (None, None) => continue,
                (Some(kept), None) => {
                    let words = |tree: &Tree<'_>, name: &Name| Bags::default().of(tree, name.node, false);
                    let like_old = |entry: usize| {
                        let old = words(&trees.base, &base.entries[old]);
                        dice(old, words(trees.get(other), &there.entries[entry])) >= ALIKE
                    };
                    like_old(kept) && like_old(new)
                }
                // Either was there before, and the old one is gone or elsewhere.
                (_, Some(_)) => true,
            };
            if strays {
                strayed[*number] = true;
                for (version, names, found) in
                    [(Version::Base, base, [Some(old), before]), (other, there, [kept, Some(new)])]
                {
                    let entries = found.into_iter().flatten();
                    open.get_mut(version).extend(entries.map(|entry| names.entries[entry].span.range()));
                }
            }
            break;
        }
    }
    let touched = |number: usize, v: Version| {
        let at = &edits.get(v)[number];
        open.get(v).iter().any(|entry| entry.start <= at.end && at.start <= entry.end)
    };
    for (number, strayed) in strayed.iter_mut().enumerate() {
        *strayed |= Version::ALL.into_iter().any(|v| touched(number, v));
    }
    strayed
}

/// The entries of a tree that are known by a name.
struct Names {
    /// In the order of the text.
    entries: Vec<Name>,
    /// The first of each key in each entry.
    by_key: HashMap<(Option<usize>, u64), usize>,
}

struct Name {
    node: NodeId,
    span: Span,
    key: u64,
    /// The entry around it.
    outer: Option<usize>,
    /// How far in it stands.
    indent: usize,
}

impl Names {
    fn of(tree: &Tree<'_>) -> Names {
        let mut entries: Vec<Name> = Vec::new();
        let mut open: Vec<(NodeId, usize)> = Vec::new();
        for id in (0..tree.len() as u32).map(NodeId) {
            while open.last().is_some_and(|(end, _)| *end <= id) {
                open.pop();
            }
            let node = tree.node(id);
            if node.key != 0 && tree.entry_rule(id).is_some_and(|r| !r.key.is_empty()) {
                let outer = open.last().map(|(_, at)| *at);
                open.push((node.end, entries.len()));
                let indent = tree.indent(id).len();
                entries.push(Name { node: id, span: node.span, key: node.key, outer, indent });
            }
        }
        let by_key = entries.iter().enumerate().rev().map(|(at, name)| ((name.outer, name.key), at)).collect();
        Names { entries, by_key }
    }

    /// The first entry with a key in another one, or in none.
    fn child(&self, outer: Option<usize>, key: u64) -> Option<usize> {
        self.by_key.get(&(outer, key)).copied()
    }

    /// The entries around some lines of a text, outermost first; around the place between the lines
    /// beside them, if they are blank or none: then what stands so far in, below the line before them, goes on.
    fn around(&self, text: &[u8], lines: &Range<usize>, depth: Option<usize>) -> Vec<usize> {
        let inside = &text[lines.clone()];
        let before = text[..lines.start].trim_ascii_end().len();
        let (start, end) = if !inside.trim_ascii().is_empty() {
            (lines.end - inside.trim_ascii_start().len(), lines.start + inside.trim_ascii_end().len())
        } else if depth.is_some() {
            (before.saturating_sub(1), before)
        } else {
            (before.saturating_sub(1), text.len() - text[lines.end..].trim_ascii_start().len() + 1)
        };
        let mut at = self.entries.partition_point(|name| name.span.start as usize <= start).checked_sub(1);
        let mut found = Vec::new();
        while let Some(i) = at {
            let deeper = depth.is_some_and(|depth| self.entries[i].indent >= depth);
            if self.entries[i].span.end as usize >= end && !deeper {
                found.push(i);
            }
            at = self.entries[i].outer;
        }
        found.reverse();
        found
    }
}
