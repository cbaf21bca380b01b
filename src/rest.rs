//! What the line merge leaves over: three texts that differ only where it found a conflict.

use std::collections::{HashMap, HashSet};
use std::ops::Range;

use crate::line::{self, Chunk, ChunkKind};
use crate::matching::{Bags, dice};
use crate::syntax::{NodeId, Span, Tree, mix};
use crate::{Side, Version, Versions};

/// From this similarity on, of two entries that hold what was in one, one is a copy.
const ALIKE: f32 = 0.5;

/// What the line merge leaves over.
#[derive(Default)]
pub(crate) struct Rest {
    /// The versions with every line edit made in all of them that lines can settle.
    pub texts: Versions<Vec<u8>>,
    /// The bytes that are left, and the lines around them, in `texts`.
    pub disputed: Versions<Vec<Range<usize>>>,
}

/// Chunks of lines, and the bytes of each in each version.
type Placed = [(Chunk, Versions<Range<usize>>)];

/// Makes every line edit in all three versions that is in no conflict, and that lines put in the entry it was made
/// in. The trees are asked for only if that is in doubt.
pub(crate) fn settle<'t, 's: 't>(
    versions: Versions<&[u8]>,
    trees: impl FnOnce() -> Option<&'t Versions<Tree<'s>>>,
) -> Rest {
    let chunks = placed(versions, line::chunks(versions, line::Algorithm::Histogram));
    let doubtful = doubtful(versions, &chunks);
    let open = if doubtful.is_empty() { None } else { trees().map(|trees| strayed(trees, &doubtful)) };
    let open = open.unwrap_or_default();
    let mut rest = Rest::default();
    for (chunk, at) in &chunks {
        let meets = |v: Version| open.get(v).iter().any(|r| r.start <= at.get(v).end && at.get(v).start <= r.end);
        let left = chunk.kind == ChunkKind::Conflict
            || chunk.kind != ChunkKind::Unchanged && Version::ALL.into_iter().any(meets);
        let settled = edited_by(chunk.kind).map_or(Version::Ours, Version::from);
        for version in Version::ALL {
            let from = if left { version } else { settled };
            let text = rest.texts.get_mut(version);
            let start = text.len();
            text.extend(&versions.get(from)[at.get(from).clone()]);
            if left {
                rest.disputed.get_mut(version).push(start..text.len());
            }
        }
    }
    for version in Version::ALL {
        let text = rest.texts.get(version);
        for range in rest.disputed.get_mut(version) {
            *range = with_neighbours(text, range);
        }
    }
    rest
}

fn placed(versions: Versions<&[u8]>, chunks: Vec<Chunk>) -> Vec<(Chunk, Versions<Range<usize>>)> {
    let lines = versions.map(line::lines);
    let mut ends = Versions::<usize>::default();
    let place = |chunk: Chunk| {
        let mut at = Versions::<Range<usize>>::default();
        for version in Version::ALL {
            let range = match version {
                Version::Base => chunk.base.clone(),
                Version::Ours => chunk.ours.clone(),
                Version::Theirs => chunk.theirs.clone(),
            };
            let start = *ends.get(version);
            let end = start + lines.get(version)[range].iter().map(|l| l.len()).sum::<usize>();
            *at.get_mut(version) = start..end;
            *ends.get_mut(version) = end;
        }
        (chunk, at)
    };
    chunks.into_iter().map(place).collect()
}

/// The edits of one side alone, in or beside lines that the other side put in: it may have copied or moved what
/// stands around them, and then lines alone do not tell which of two places is the old one.
fn doubtful(versions: Versions<&[u8]>, chunks: &Placed) -> Vec<(Side, Versions<Range<usize>>)> {
    let put_in = Side::BOTH.map(|side| {
        let changed = |c: &Chunk| c.kind != ChunkKind::Unchanged && edited_by(c.kind) != Some(side.other());
        let text = |at: &Versions<Range<usize>>| &versions.get(side)[at.get(side).clone()];
        let lines = chunks.iter().filter(|(c, _)| changed(c)).flat_map(|(_, at)| line::lines(text(at)));
        lines.map(<[u8]>::trim_ascii).filter(|l| !l.is_empty()).collect::<HashSet<&[u8]>>()
    });
    let mut found = Vec::new();
    for (chunk, at) in chunks {
        let Some(side) = edited_by(chunk.kind) else { continue };
        let seen = line::lines(&versions.base[with_neighbours(versions.base, &at.base)]);
        if seen.iter().any(|l| put_in[side.other() as usize].contains(l.trim_ascii())) {
            found.push((side, at.clone()));
        }
    }
    found
}

/// The side that alone changed a chunk of this kind.
fn edited_by(kind: ChunkKind) -> Option<Side> {
    match kind {
        ChunkKind::Ours => Some(Side::Ours),
        ChunkKind::Theirs => Some(Side::Theirs),
        _ => None,
    }
}

/// A range of lines with one line that is not blank on either side.
fn with_neighbours(text: &[u8], range: &Range<usize>) -> Range<usize> {
    let full = |line: &&[u8]| !line.trim_ascii().is_empty();
    let before = text[..range.start].rsplit(|b| *b == b'\n').find(full);
    let after = text[range.end..].split(|b| *b == b'\n').find(full);
    let offset = |line: &[u8]| line.as_ptr() as usize - text.as_ptr() as usize;
    before.map_or(0, offset)..after.map_or(text.len(), |line| offset(line) + line.len())
}

/// The entries that edits of one side strayed into or out of: lines put them in another entry of the other side than
/// they were made in. In each version, the bytes of these entries.
///
/// Lines that moved to another entry take the edit along, and an entry under a new name is still that entry. But
/// a copy is another one, and so is a neighbour whose name now stands above, the old one being gone.
fn strayed(trees: &Versions<Tree<'_>>, edits: &[(Side, Versions<Range<usize>>)]) -> Versions<Vec<Range<usize>>> {
    let names = trees.as_ref().map(Names::of);
    let mut open = Versions::<Vec<Range<usize>>>::default();
    for (side, at) in edits {
        let other = Version::from(side.other());
        let (base, there) = (&names.base, names.get(other));
        let old = base.around(trees.base.source, &at.base);
        let new = there.around(trees.get(other).source, at.get(other));
        let alike = old.iter().zip(&new).take_while(|(x, y)| x == y).count();
        let (old, new) = (old.get(alike), new.get(alike));
        let of = |names: &Names, path: Option<&u64>| path.and_then(|path| names.by_path.get(path)).copied();
        let strays = match (of(base, old), of(there, old), of(there, new), of(base, new)) {
            (Some(old), Some(kept), Some(copy), None) => {
                let like_old = |entry: usize| {
                    let words = |tree: &Tree<'_>, name: &Name| Bags::default().of(tree, name.node, false);
                    let old = words(&trees.base, &base.entries[old]);
                    dice(old, words(trees.get(other), &there.entries[entry])) >= ALIKE
                };
                like_old(kept) && like_old(copy)
            }
            (_, None, Some(_), Some(_)) => true,
            _ => false,
        };
        if strays {
            for (version, names) in [(Version::Base, base), (other, there)] {
                let entries = [old, new].into_iter().filter_map(|path| of(names, path));
                open.get_mut(version).extend(entries.map(|entry| names.entries[entry].span.range()));
            }
        }
    }
    open
}

/// The entries of a tree that are known by a name.
struct Names {
    /// In the order of the text.
    entries: Vec<Name>,
    /// The first of each path.
    by_path: HashMap<u64, usize>,
}

struct Name {
    node: NodeId,
    span: Span,
    /// Its name, behind those of the entries around it.
    path: u64,
    /// The entry around it.
    outer: Option<usize>,
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
                let path = mix(outer.map_or(0, |at| entries[at].path), node.key);
                open.push((node.end, entries.len()));
                entries.push(Name { node: id, span: node.span, path, outer });
            }
        }
        let by_path = entries.iter().enumerate().rev().map(|(at, name)| (name.path, at)).collect();
        Names { entries, by_path }
    }

    /// The paths of the entries around some lines of a text, outermost first; around the place between the lines
    /// beside them, if they are blank or none.
    fn around(&self, text: &[u8], lines: &Range<usize>) -> Vec<u64> {
        let inside = &text[lines.clone()];
        let blank = inside.trim_ascii().is_empty();
        let (start, end) = if blank {
            (
                text[..lines.start].trim_ascii_end().len().saturating_sub(1),
                text.len() - text[lines.end..].trim_ascii_start().len() + 1,
            )
        } else {
            (lines.end - inside.trim_ascii_start().len(), lines.start + inside.trim_ascii_end().len())
        };
        let mut at = self.entries.partition_point(|name| name.span.start as usize <= start).checked_sub(1);
        let mut paths = Vec::new();
        while let Some(i) = at {
            if self.entries[i].span.end as usize >= end {
                paths.push(self.entries[i].path);
            }
            at = self.entries[i].outer;
        }
        paths.reverse();
        paths
    }
}
