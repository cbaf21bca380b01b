//! What the line merge leaves over: three texts that differ only where it found a conflict, or where it may have
//! made an edit in the wrong one of two places.

use std::ops::Range;
use std::rc::Rc;

use gix::bstr::ByteSlice;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use crate::line::{self, Algorithm, ChunkKind};
use crate::matching::{dice, words};
use crate::merging::Withdrawn;
use crate::stray::Strays;
use crate::syntax::{Tree, line_hash};
use crate::{Side, Version, Versions};

/// A stretch of lines that somebody changed, as bytes of each version.
pub(crate) struct Edit {
    kind: ChunkKind,
    at: Versions<Range<usize>>,
}

impl Edit {
    /// Whether a side changed these lines.
    pub(crate) fn changed_by(&self, side: Side) -> bool {
        self.by() != Some(side.other())
    }

    /// Who made it, if one side alone did.
    pub(crate) fn by(&self) -> Option<Side> {
        match self.kind {
            ChunkKind::Ours => Some(Side::Ours),
            ChunkKind::Theirs => Some(Side::Theirs),
            _ => None,
        }
    }

    /// The version that has it, if lines settle it.
    fn chosen(&self) -> Version {
        self.by().map_or(Version::Ours, Version::from)
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
pub(crate) fn edits(versions: Versions<&[u8]>, algorithm: Algorithm) -> Vec<Edit> {
    let lines = versions.map(line::lines);
    let mut ends = Versions::<usize>::default();
    let mut edits = Vec::new();
    for chunk in line::chunks(versions, algorithm) {
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

/// The hashes of the lines that a side left where it took out what follows, up to something that stands further below,
/// edited or not: a comment there said nothing of that.
pub(crate) fn left_behind(versions: Versions<&[u8]>, edits: &[Edit]) -> HashSet<u64> {
    let taken_out = |e: &&Edit| {
        let base = line::lines(&versions.base[e.at.base.clone()]);
        let lines = |side: Side| line::lines(&versions.get(side)[e.at(side.into())]);
        Side::BOTH.into_iter().filter(|side| e.changed_by(*side)).any(|side| {
            let (own, other) = (lines(side), lines(side.other()));
            let goes_on = own.first().filter(|first| telling(first));
            let gone = goes_on.and_then(|first| base.iter().position(|line| line == first));
            // If what it said was edited too, the other side has to have kept what it stood above.
            let edited = || other.first() == base.first() && is_tail(&own, &base);
            base.len() > own.len() && (base.ends_with(&own) || edited())
                || gone.is_some_and(|gone| gone > 0 && !base[..gone].iter().any(|line| own.contains(line)))
        })
    };
    let above = |e: &Edit| versions.base[..e.at.base.start].lines().next_back();
    edits.iter().filter(taken_out).filter_map(above).filter(|line| telling(line)).map(line_hash).collect()
}

/// From this similarity on, a line that took another's place is that line, edited.
const SAME_LINE: f32 = 0.5;

/// Whether some lines are the last ones of others, line for line, edited: and more like these than like the first ones.
fn is_tail(own: &[&[u8]], base: &[&[u8]]) -> bool {
    let bag = |line: &[u8]| -> Rc<[u64]> {
        let mut bag: Vec<u64> = words(line).collect();
        bag.sort_unstable();
        bag.into()
    };
    let alike = |base: &[&[u8]]| -> Vec<f32> { own.iter().zip(base).map(|(x, y)| dice(bag(x), bag(y))).collect() };
    let (first, last) = (alike(base), alike(&base[base.len() - own.len()..]));
    last.first().is_some_and(|least| *least > first[0]) && last.iter().all(|alike| *alike >= SAME_LINE)
}

/// Trees of the versions, or of parts of them in which all edits are.
pub(crate) struct View<'t, 's> {
    pub trees: &'t Versions<Tree<'s>>,
    /// Where each edit is in their texts.
    pub edits: Versions<Vec<Range<usize>>>,
}

/// Where an edit is in three texts.
#[derive(Default)]
pub(crate) struct Place {
    /// Its bytes.
    pub at: Versions<Range<usize>>,
    /// Its bytes in ours itself.
    pub ours: Range<usize>,
    /// Whether the three texts may differ there.
    pub open: bool,
    /// Who made it, if one side alone did.
    pub by: Option<Side>,
    /// Whether both sides put in here what they took out elsewhere, or one side has elsewhere what the other, or itself,
    /// has further in or out here: what each changed in that is not to be seen here.
    pub moved: bool,
}

/// Where the edits are in the versions themselves.
pub(crate) fn places(edits: &[Edit]) -> Vec<Place> {
    let place =
        |e: &Edit| Place { at: e.at.clone(), ours: e.at.ours.clone(), open: true, by: e.by(), ..Place::default() };
    edits.iter().map(place).collect()
}

/// Where the edits are in a clean merge of the versions. Nothing, if it is not just these edits of them.
pub(crate) fn places_in(merged: &[u8], versions: Versions<&[u8]>, edits: &[Edit]) -> Option<Vec<Place>> {
    let (mut rest, mut done) = (merged, 0);
    let mut places = Vec::with_capacity(edits.len());
    for edit in edits {
        if edit.is_conflict() {
            return None;
        }
        let at = &edit.at;
        rest = rest.strip_prefix(&versions.base[done..at.base.start])?;
        let start = merged.len() - rest.len();
        rest = rest.strip_prefix(&versions.get(edit.chosen())[edit.at(edit.chosen())])?;
        done = at.base.end;
        let place = start..merged.len() - rest.len();
        let at = Versions { base: place, ours: at.ours.clone(), theirs: at.theirs.clone() };
        places.push(Place { ours: at.ours.clone(), at, by: edit.by(), ..Place::default() });
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
/// `leads` are the signs of lines that belong to the statement below.
pub(crate) fn settle<'t, 's: 't>(
    versions: Versions<&[u8]>,
    edits: &[Edit],
    withdrawn: &Withdrawn,
    leads: &[String],
    view: impl FnOnce() -> Option<View<'t, 's>>,
) -> Settled {
    let strayed = Strays::of(versions, edits, leads, view).touched;
    let mut settled = Settled::default();
    let moves: Vec<[Moves<'_>; 2]> =
        edits.iter().map(|e| Side::BOTH.map(|side| Moves::of(versions, &e.at, side))).collect();
    let shifts: Vec<[Vec<&[u8]>; 2]> =
        edits.iter().map(|e| Side::BOTH.map(|side| reindented(versions, e, side))).collect();
    let mut disputed = [Moves::default(), Moves::default()];
    let put_in: [HashSet<&[u8]>; 2] =
        Side::BOTH.map(|side| moves.iter().flat_map(|moves| &moves[side as usize].put).copied().collect());
    let put: HashSet<&[u8]> = put_in.iter().flatten().copied().collect();
    let out: HashSet<&[u8]> = moves.iter().flatten().flat_map(|moves| &moves.out).copied().collect();
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
    // What a side has further in or out where the sides disagree, and put in elsewhere too: one statement went into two
    // blocks.
    let shifted = Side::BOTH.map(|side| {
        let conflicts = edits.iter().zip(&shifts).filter(|(edit, _)| edit.is_conflict());
        let lines = conflicts.flat_map(|(_, shifts)| &shifts[side as usize]).filter(|line| telling(line));
        lines.map(|line| opening(line)).collect::<HashSet<&[u8]>>()
    });
    let stays_open = |(at, ((edit, moves), strayed)): (usize, ((&Edit, &[Moves<'_>; 2]), bool))| {
        // What a side moved to or from where the sides disagree is seen to have moved only if both places are.
        in_dispute(edit, moves)
            || strayed
            || withdrawn.around().contains(&at)
            || edit.by().is_some_and(|side| !moves[side as usize].put.is_disjoint(&shifted[side as usize]))
            || edit.by().is_some_and(|side| withdrawn.used_in(&versions.get(side)[edit.at.get(side).clone()], side))
            || moves.iter().zip(&disputed).any(|(here, there)| here.crosses(there))
    };
    let mut open: Vec<bool> = edits.iter().zip(&moves).zip(strayed).enumerate().map(stays_open).collect();
    open_with_their_blocks(versions.base, edits, &shifts, &mut open);
    let mut done = 0;
    for (((edit, moves), shifts), open) in edits.iter().zip(&moves).zip(&shifts).zip(open) {
        let at = &edit.at;
        let unchanged = &versions.base[done..at.base.start];
        done = at.base.end;
        let mut place = Versions::<Range<usize>>::default();
        for version in Version::ALL {
            let text = settled.texts.get_mut(version);
            text.extend_from_slice(unchanged);
            let start = text.len();
            let from = if open { version } else { edit.chosen() };
            text.extend_from_slice(&versions.get(from)[at.get(from).clone()]);
            *place.get_mut(version) = start..text.len();
        }
        let by_both = moves[0].put.intersection(&moves[1].put);
        let here = at.base.is_empty() && by_both.into_iter().any(|line| out.contains(line));
        let away = |side: Side| {
            let moved = moves[side as usize].out.iter().filter(|line| put_in[side as usize].contains(**line));
            let moved: HashSet<&[u8]> = moved.copied().collect();
            !moved.is_empty() && shifts[side.other() as usize].iter().any(|line| moved.contains(opening(line)))
        };
        let repeated = |side: Side| {
            let lines = shifts[side as usize].iter().filter(|line| telling(line));
            let mut lines = lines.map(|line| opening(line)).peekable();
            lines.peek().is_some() && lines.all(|line| put_in[side as usize].contains(line))
        };
        let moved = here || edit.is_conflict() && Side::BOTH.into_iter().any(|side| away(side) || repeated(side));
        settled.edited.push(Place { at: place, ours: at.ours.clone(), open, by: edit.by(), moved });
        let all = if open { &mut left } else { &mut shut };
        moves.iter().for_each(|moves| all.add(moves));
        for side in Side::BOTH.into_iter().filter(|s| edit.is_conflict() || edit.by() == Some(*s)) {
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

/// Opens what stands beside something open, blank lines aside, if either moves lines further in or out: where a block
/// begins and ends must be the same in both.
fn open_with_their_blocks(base: &[u8], edits: &[Edit], shifts: &[[Vec<&[u8]>; 2]], open: &mut [bool]) {
    if open.windows(2).all(|pair| pair[0] == pair[1]) {
        return;
    }
    let between = |(above, below): (&Edit, &Edit)| &base[above.at.base.end..below.at.base.start];
    let mut together = Vec::with_capacity(edits.len());
    for (at, pair) in edits.iter().zip(edits.iter().skip(1)).enumerate() {
        let beside = between(pair).trim_ascii().is_empty();
        if beside && shifts[at..=at + 1].iter().flatten().any(|lines| !lines.is_empty()) {
            together.push(at);
        }
    }
    for at in together.iter().copied().chain(together.iter().copied().rev()) {
        let either = open[at] || open[at + 1];
        (open[at], open[at + 1]) = (either, either);
    }
}

/// The lines of base, in an edited stretch, that a side has further in or out.
fn reindented<'v>(versions: Versions<&'v [u8]>, edit: &Edit, side: Side) -> Vec<&'v [u8]> {
    let depths = |version: Version| {
        let mut depths: HashMap<&[u8], Vec<&[u8]>> = HashMap::default();
        for line in line::lines(&versions.get(version)[edit.at.get(version).clone()]) {
            let text = line.trim_ascii();
            if text.iter().any(u8::is_ascii_alphanumeric) {
                depths.entry(text).or_default().push(&line[..line.len() - line.trim_ascii_start().len()]);
            }
        }
        depths
    };
    let base = depths(Version::Base);
    if base.is_empty() {
        return Vec::new();
    }
    let elsewhere = |(text, own): &(&[u8], Vec<&[u8]>)| {
        base.get(text).is_some_and(|old| !old.iter().any(|depth| own.contains(depth)))
    };
    depths(side.into()).into_iter().filter(elsewhere).map(|(text, _)| text).collect()
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
/// those in `from tides import high, low`; what an argument with a name begins with, such as `unit=` in `unit="m",`;
/// else all of it.
fn opening(line: &[u8]) -> &[u8] {
    let end = line.iter().position(|b| b"([{<=:,".contains(b)).unwrap_or(line.len());
    let start = line[..end].trim_ascii();
    match line.get(end) {
        _ if start.contains(&b' ') => start,
        Some(b'=') if telling(start) && start.len() == end => &line[..=end],
        _ => line,
    }
}

/// Whether a line is more than punctuation or one short word.
pub(crate) fn telling(line: &[u8]) -> bool {
    line.iter().filter(|b| b.is_ascii_alphanumeric()).count() > 3
}
