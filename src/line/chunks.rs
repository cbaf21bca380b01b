//! Two diffs against one base become one list of chunks.

use std::ops::Range;

use super::Algorithm;
use super::diff::{Differ, Pair};
use super::text::{Text, cut};
use crate::{Side, Versions};

/// Who changed a chunk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ChunkKind {
    /// Nobody.
    Unchanged,
    /// Only ours.
    Ours,
    /// Only theirs.
    Theirs,
    /// Both, in the same way.
    Same,
    /// Both, in different ways.
    Conflict,
}

impl ChunkKind {
    /// Who changed it, if one side alone did.
    pub(crate) fn by(self) -> Option<Side> {
        match self {
            ChunkKind::Ours => Some(Side::Ours),
            ChunkKind::Theirs => Some(Side::Theirs),
            _ => None,
        }
    }
}

/// A stretch of all three files, as ranges of line numbers from 0.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Chunk {
    /// Who changed it.
    pub kind: ChunkKind,
    /// Its lines in base.
    pub base: Range<usize>,
    /// Its lines in ours.
    pub ours: Range<usize>,
    /// Its lines in theirs.
    pub theirs: Range<usize>,
}

/// The chunks of a three-way merge in order, covering all three files without a gap. Conflicts are
/// whole: nothing common has been taken out of them yet.
///
/// ```
/// use pleach::Versions;
/// use pleach::line::{Algorithm, ChunkKind, chunks};
///
/// let versions = Versions { base: &b"1\n2\n3\n"[..], ours: b"1\ntwo\n3\n", theirs: b"1\n2\n3\n4\n" };
/// let kinds: Vec<_> = chunks(versions, Algorithm::Histogram).iter().map(|chunk| chunk.kind).collect();
/// assert_eq!(kinds, [ChunkKind::Unchanged, ChunkKind::Ours, ChunkKind::Unchanged, ChunkKind::Theirs]);
/// ```
pub fn chunks(versions: Versions<&[u8]>, algorithm: Algorithm) -> Vec<Chunk> {
    let (texts, distinct) = cut(versions);
    chunks_of(&texts, &mut Differ::new(algorithm, distinct))
}

pub(super) fn chunks_of(texts: &Versions<Text>, differ: &mut Differ) -> Vec<Chunk> {
    let mut hunks = |side: Side| differ.hunks(Pair { before: &texts.base.lines, after: &texts.get(side).lines });
    let (ours, theirs) = (hunks(Side::Ours), hunks(Side::Theirs));
    let mut chunks = chunks_from_hunks(texts.base.lines.len(), &ours, &theirs);
    for chunk in &mut chunks {
        // As yet only the shape of the two changes is known to be the same.
        if chunk.kind == ChunkKind::Same
            && texts.ours.lines[chunk.ours.clone()] != texts.theirs.lines[chunk.theirs.clone()]
        {
            chunk.kind = ChunkKind::Conflict;
        }
    }
    chunks
}

/// The chunks that follow from the diffs of base with ours and of base with theirs, each a list of
/// changed line ranges as [`hunks`](super::hunks) gives it, for a base of `base_lines` lines.
///
/// Changes of the two sides that overlap or only touch in base are one conflict. A change of which
/// both have the same lines of base and the same number of lines is [`ChunkKind::Same`]: whether the
/// lines are the same too, the caller must look.
pub fn chunks_from_hunks(
    base_lines: usize,
    ours: &[(Range<usize>, Range<usize>)],
    theirs: &[(Range<usize>, Range<usize>)],
) -> Vec<Chunk> {
    let mut sides = [Cursor::new(ours), Cursor::new(theirs)];
    let mut chunks = Vec::new();
    let mut done = [0; 3];
    let mut push = |kind: ChunkKind, ends: [usize; 3]| {
        if ends != done {
            let [base, ours, theirs] = [0, 1, 2].map(|version| done[version]..ends[version]);
            chunks.push(Chunk { kind, base, ours, theirs });
            done = ends;
        }
    };
    while let Some(start) = sides.iter().filter_map(Cursor::next_start).min() {
        push(ChunkKind::Unchanged, [start, sides[0].beside(start), sides[1].beside(start)]);
        let mut end = start;
        let mut taken: [Vec<&(Range<usize>, Range<usize>)>; 2] = Default::default();
        while let Some(side) = (0..2).find(|side| sides[*side].next_start().is_some_and(|next| next <= end)) {
            let hunk = sides[side].take();
            end = end.max(hunk.0.end);
            taken[side].push(hunk);
        }
        let kind = match &taken {
            [_, theirs] if theirs.is_empty() => ChunkKind::Ours,
            [ours, _] if ours.is_empty() => ChunkKind::Theirs,
            [ours, theirs] => match (&ours[..], &theirs[..]) {
                ([ours], [theirs]) if ours.0 == theirs.0 && ours.1.len() == theirs.1.len() => ChunkKind::Same,
                _ => ChunkKind::Conflict,
            },
        };
        push(kind, [end, sides[0].beside(end), sides[1].beside(end)]);
    }
    push(ChunkKind::Unchanged, [base_lines, sides[0].beside(base_lines), sides[1].beside(base_lines)]);
    chunks
}

/// A way through the hunks of one side.
struct Cursor<'a> {
    hunks: std::slice::Iter<'a, (Range<usize>, Range<usize>)>,
    /// The last place known in base and in the side.
    at: (usize, usize),
}

impl<'a> Cursor<'a> {
    fn new(hunks: &'a [(Range<usize>, Range<usize>)]) -> Self {
        Cursor { hunks: hunks.iter(), at: (0, 0) }
    }

    fn next_start(&self) -> Option<usize> {
        self.hunks.as_slice().first().map(|hunk| hunk.0.start)
    }

    fn take(&mut self) -> &'a (Range<usize>, Range<usize>) {
        let hunk = self.hunks.next().expect("a hunk that starts somewhere");
        self.at = (hunk.0.end, hunk.1.end);
        hunk
    }

    /// The place in the side that is beside one in base, if no change lies between it and the last
    /// hunk taken.
    fn beside(&self, base: usize) -> usize {
        self.at.1 + (base - self.at.0)
    }
}
