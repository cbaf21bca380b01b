//! What lines tell of the edits of both sides: which there are, and which of them lines can settle.

pub(crate) mod account;
mod alike;
mod doubled;
pub(crate) mod kept;
mod left_behind;
mod moved_apart;
mod moved_lines;
mod names;
mod replaced;
mod scopes;
mod settle;
pub(crate) mod stray;
mod surroundings;
mod unfit;
pub(crate) mod withdrawn;

pub(crate) use alike::done_alike;
pub(crate) use doubled::doubled;
pub(crate) use left_behind::left_behind;
pub(crate) use moved_apart::moved_apart;
pub(crate) use settle::{Settled, settle};

use std::ops::Range;

use crate::line::{self, Algorithm, ChunkKind};
use crate::syntax::Tree;
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
        self.kind.by()
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
    /// Whether both sides took out here what one of them put in elsewhere: that what is left here agrees does not tell
    /// what the other wants of that.
    pub parted: bool,
    /// If one side moved lines between here and other places in dispute, the first of all that hang together so.
    pub tied: Option<usize>,
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

/// Whether a line is more than punctuation or one short word.
pub(crate) fn telling(line: &[u8]) -> bool {
    line.iter().filter(|b| b.is_ascii_alphanumeric()).count() > 3
}
