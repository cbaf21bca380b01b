//! Taking what is common to both sides out of conflicts.

use std::ops::Range;

use super::chunks::{Chunk, ChunkKind};
use super::diff::{Differ, Pair};
use super::text::Text;
use super::{Level, LineSettings, Style};
use crate::Versions;

/// Conflicts with at most this many lines between them are joined: a person reads one block more
/// easily than two with a crumb between (git's xdiff/xmerge.c, `xdl_simplify_non_conflicts`).
pub(crate) const CRUMB: usize = 3;

/// Refines the conflicts among `chunks` as far as style and level ask for.
///
/// With the plain style, where base is not shown, a conflict is replaced by the differences between
/// ours and theirs. With `diff3` nothing is taken out: base would no longer match what stands beside
/// it. `zdiff3` takes out common lines at both ends only.
pub(super) fn refine(
    chunks: Vec<Chunk>,
    texts: &Versions<Text>,
    differ: &mut Differ,
    settings: &LineSettings,
) -> Vec<Chunk> {
    match settings.style {
        Style::Diff3 => chunks,
        Style::ZDiff3 => chunks.into_iter().flat_map(|chunk| trimmed(chunk, texts)).collect(),
        Style::Merge => zealous(chunks, texts, differ, settings.level),
    }
}

/// A conflict without the lines common to ours and theirs at its ends, and these lines; base stays
/// whole with the conflict.
fn trimmed(chunk: Chunk, texts: &Versions<Text>) -> Vec<Chunk> {
    if chunk.kind != ChunkKind::Conflict {
        return vec![chunk];
    }
    let lines = Pair { before: &texts.ours.lines[..], after: &texts.theirs.lines[..] };
    let mut middle = Pair { before: chunk.ours.clone(), after: chunk.theirs.clone() };
    middle.trim_start(lines);
    middle.trim_end(lines);
    let common = |base, ours, theirs| Chunk { kind: ChunkKind::Same, base, ours, theirs };
    let (start, end) = (chunk.base.start, chunk.base.end);
    let head = common(start..start, chunk.ours.start..middle.before.start, chunk.theirs.start..middle.after.start);
    let tail = common(end..end, middle.before.end..chunk.ours.end, middle.after.end..chunk.theirs.end);
    vec![head, Chunk { ours: middle.before, theirs: middle.after, ..chunk }, tail]
}

fn zealous(chunks: Vec<Chunk>, texts: &Versions<Text>, differ: &mut Differ, level: Level) -> Vec<Chunk> {
    let mut out = Refined { chunks: Vec::with_capacity(chunks.len()), open: None };
    let is_crumb = |lines: Range<usize>| {
        lines.len() <= CRUMB
            || level == Level::ZealousAlnum && !texts.ours.bytes(lines).iter().any(u8::is_ascii_alphanumeric)
    };
    for chunk in chunks {
        match chunk.kind {
            ChunkKind::Unchanged | ChunkKind::Same => out.chunks.push(chunk),
            ChunkKind::Ours | ChunkKind::Theirs => out.close(chunk),
            ChunkKind::Conflict if chunk.ours.is_empty() || chunk.theirs.is_empty() => out.conflict(chunk, is_crumb),
            ChunkKind::Conflict => {
                let sides = Pair {
                    before: &texts.ours.lines[chunk.ours.clone()],
                    after: &texts.theirs.lines[chunk.theirs.clone()],
                };
                let differences = differ.hunks(sides);
                if differences.is_empty() {
                    out.close(Chunk { kind: ChunkKind::Same, ..chunk });
                    continue;
                }
                out.differences(chunk, differences, is_crumb);
            }
        }
    }
    out.chunks
}

/// Chunks with refined conflicts, as they are put together.
struct Refined {
    chunks: Vec<Chunk>,
    /// The last conflict, if the next one may be joined to it. A change of one side between them
    /// forbids it, and so does a conflict that turned out to be none.
    open: Option<usize>,
}

impl Refined {
    fn close(&mut self, chunk: Chunk) {
        self.chunks.push(chunk);
        self.open = None;
    }

    fn conflict(&mut self, chunk: Chunk, is_crumb: impl Fn(Range<usize>) -> bool) {
        match self.open {
            Some(open) if is_crumb(self.chunks[open].ours.end..chunk.ours.start) => {
                self.chunks.truncate(open + 1);
                let joined = &mut self.chunks[open];
                joined.base.end = chunk.base.end;
                joined.ours.end = chunk.ours.end;
                joined.theirs.end = chunk.theirs.end;
            }
            _ => {
                self.open = Some(self.chunks.len());
                self.chunks.push(chunk);
            }
        }
    }

    /// Lays a conflict's differences and the common lines between them in its place. Base cannot be
    /// divided among them: it stays with the first, and is not shown in this style.
    fn differences(
        &mut self,
        whole: Chunk,
        differences: Vec<(Range<usize>, Range<usize>)>,
        is_crumb: impl Fn(Range<usize>) -> bool,
    ) {
        let (ours, theirs) = (whole.ours.start, whole.theirs.start);
        let mut done = (ours, theirs);
        let mut base = whole.base.clone();
        for difference in differences {
            let conflict = Chunk {
                kind: ChunkKind::Conflict,
                base: base.clone(),
                ours: ours + difference.0.start..ours + difference.0.end,
                theirs: theirs + difference.1.start..theirs + difference.1.end,
            };
            if done.0 < conflict.ours.start {
                self.chunks.push(Chunk {
                    kind: ChunkKind::Same,
                    base: base.start..base.start,
                    ours: done.0..conflict.ours.start,
                    theirs: done.1..conflict.theirs.start,
                });
            }
            done = (conflict.ours.end, conflict.theirs.end);
            base.start = base.end;
            self.conflict(conflict, &is_crumb);
        }
        if done.0 < whole.ours.end {
            self.chunks.push(Chunk {
                kind: ChunkKind::Same,
                base: base.end..base.end,
                ours: done.0..whole.ours.end,
                theirs: done.1..whole.theirs.end,
            });
        }
    }
}
