//! Lines of which one side changed nothing but where they begin.

use std::ops::Range;

use super::pieces::TextPart;
use super::text::Way;
use super::{Side, Versions};
use crate::Version;
use crate::line::{self, ChunkKind};

/// Merges what is in dispute again, the white space that lines begin with aside: each line then stands where the side has
/// it that put it further in or out.
pub(super) fn settle_indents(part: TextPart) -> TextPart {
    match &part {
        TextPart::Dispute(sides) => merged(sides.as_ref().map(Vec::as_slice)).map_or(part, TextPart::Plain),
        TextPart::Plain(_) => part,
    }
}

/// Three texts merged with the white space that lines begin with aside; nothing, if they conflict so too, or no side moved
/// what the other has.
fn merged(texts: Versions<&[u8]>) -> Option<Vec<u8>> {
    let texts = Texts(texts.map(line::lines));
    let bare =
        texts.0.as_ref().map(|lines| lines.iter().flat_map(|line| indented(line).1).copied().collect::<Vec<u8>>());
    let mut merged = Vec::new();
    let mut any_moved = false;
    for chunk in line::chunks(bare.as_ref().map(Vec::as_slice), line::Algorithm::Histogram) {
        let of = Versions { base: chunk.base, ours: chunk.ours, theirs: chunk.theirs };
        let (lines, moved) = match chunk.kind {
            ChunkKind::Unchanged => texts.aligned(&of)?,
            ChunkKind::Ours => texts.edited(&of, Side::Ours)?,
            ChunkKind::Theirs => texts.edited(&of, Side::Theirs)?,
            ChunkKind::Same if texts.of(Version::Ours, &of) == texts.of(Version::Theirs, &of) => {
                (texts.of(Version::Ours, &of).concat(), false)
            }
            ChunkKind::Same | ChunkKind::Conflict => return None,
        };
        merged.extend(lines);
        any_moved |= moved;
    }
    any_moved.then_some(merged)
}

/// The lines of three versions.
struct Texts<'t>(Versions<Vec<&'t [u8]>>);

impl<'t> Texts<'t> {
    fn of(&self, version: impl Into<Version>, lines: &Versions<Range<usize>>) -> &[&'t [u8]] {
        let version = version.into();
        &self.0.get(version)[lines.get(version).clone()]
    }

    /// Lines that say the same in all versions, where the side has them that moved them; and whether one did.
    fn aligned(&self, of: &Versions<Range<usize>>) -> Option<(Vec<u8>, bool)> {
        let base = self.of(Version::Base, of);
        let all = base.iter().zip(self.of(Version::Ours, of)).zip(self.of(Version::Theirs, of));
        let one = |((base, ours), theirs): ((&&'t [u8], &&'t [u8]), &&'t [u8])| match base == ours {
            true => Some(*theirs),
            false => (base == theirs || ours == theirs).then_some(*ours),
        };
        let lines = all.map(one).collect::<Option<Vec<&[u8]>>>()?;
        Some((lines.concat(), lines != base))
    }

    /// Lines that one side changed, moved as the other side moved what stood there; and whether it did.
    fn edited(&self, of: &Versions<Range<usize>>, side: Side) -> Option<(Vec<u8>, bool)> {
        let other = side.other();
        let pairs: Vec<(&[u8], &[u8])> = match of.base.start.checked_sub(1).zip(of.get(other).start.checked_sub(1)) {
            // What was put in goes with what it stands behind.
            Some((old, moved)) if of.base.is_empty() => vec![(self.0.base[old], self.0.get(other)[moved])],
            _ => self.of(Version::Base, of).iter().copied().zip(self.of(other, of).iter().copied()).collect(),
        };
        let told = pairs.into_iter().filter(|(old, _)| !old.trim_ascii().is_empty());
        let mut shifts = told.map(|(old, moved)| shift(indented(old).0, indented(moved).0));
        let first = shifts.next().unwrap_or(Some(None))?;
        if !shifts.all(|shift| shift == Some(first)) {
            return None;
        }
        let line = |line: &&'t [u8]| match first {
            Some((way, by)) => way.of_line(by, line),
            None => Some(line.to_vec()),
        };
        let lines = self.of(side, of).iter().map(line).collect::<Option<Vec<_>>>()?;
        Some((lines.concat(), first.is_some()))
    }
}

/// The blanks that a line begins with, and the rest of it, its end included.
fn indented(line: &[u8]) -> (&[u8], &[u8]) {
    line.split_at(line.iter().take_while(|b| matches!(b, b' ' | b'\t')).count())
}

/// How a line that began with one indentation came to begin with another: not at all, or further in or out; nothing, if in
/// no such way.
fn shift<'t>(old: &'t [u8], new: &'t [u8]) -> Option<Option<(Way, &'t [u8])>> {
    if old == new {
        return Some(None);
    }
    Way::between(old, new).map(Some)
}
