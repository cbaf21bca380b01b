//! Git's three-way line merge: the answer of every merge that needs no tree, and the fallback of
//! every merge that does.

use crate::Versions;

/// Which line diff feeds the merge. Git's own names (`--diff-algorithm`).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Algorithm {
    /// Myers' greedy diff: what `git merge-file` uses.
    Myers,
    /// Myers without heuristics.
    Minimal,
    /// Patience diff.
    Patience,
    /// Histogram diff: what `git merge` uses.
    #[default]
    Histogram,
}

/// How a conflict is written, by `merge.conflictStyle`'s names.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Style {
    /// Ours and theirs.
    #[default]
    Merge,
    /// Ours, base and theirs.
    Diff3,
    /// Ours, base and theirs, lines common to ours and theirs taken out at both ends.
    ZDiff3,
}

/// What to do with a conflict instead of writing it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Favor {
    /// Take our lines.
    Ours,
    /// Take their lines.
    Theirs,
    /// Take both, ours first.
    Union,
}

/// How far common lines are taken out of a conflict: git's merge levels.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Level {
    /// What `git merge` uses.
    #[default]
    Zealous,
    /// What `git merge-file` uses: conflicts parted only by lines without a letter or digit are joined.
    ZealousAlnum,
}

/// All that decides the bytes of a line merge, beside the inputs.
#[derive(Clone, Debug)]
pub struct LineSettings {
    /// The line diff.
    pub algorithm: Algorithm,
    /// The form of a conflict block.
    pub style: Style,
    /// How common lines in conflicts are treated.
    pub level: Level,
    /// Resolve conflicts one way instead of writing them.
    pub favor: Option<Favor>,
    /// Length of a conflict marker; 7 unless git says otherwise (`conflict-marker-size`).
    pub marker_size: usize,
    /// What stands behind the markers. `None`: nothing, not even a space. `Some("")`: git writes the
    /// marker and, as it does for an empty label, a space after it.
    pub labels: Versions<Option<Vec<u8>>>,
}

impl Default for LineSettings {
    fn default() -> Self {
        LineSettings {
            algorithm: Algorithm::default(),
            style: Style::default(),
            level: Level::default(),
            favor: None,
            marker_size: 7,
            labels: Versions {
                base: Some(b"base".to_vec()),
                ours: Some(b"ours".to_vec()),
                theirs: Some(b"theirs".to_vec()),
            },
        }
    }
}

/// The outcome of a line merge.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineMerge {
    /// The merged file, conflict markers included.
    pub text: Vec<u8>,
    /// How many conflict blocks `text` holds.
    pub conflicts: usize,
}

/// Merges by lines, as git does.
pub fn merge(versions: Versions<&[u8]>, settings: &LineSettings) -> LineMerge {
    use gix_merge::blob::builtin_driver::text;
    let mut out = Vec::new();
    let mut input = Default::default();
    let label = |l: &'_ Option<Vec<u8>>| l.clone();
    let (b, o, t) = (label(&settings.labels.base), label(&settings.labels.ours), label(&settings.labels.theirs));
    text::Merge::new(&mut input, versions.ours, versions.base, versions.theirs, gix::diff::blob::Algorithm::Histogram)
        .run(
            &mut out,
            text::Labels {
                ancestor: b.as_ref().map(|l| l.as_slice().into()),
                current: o.as_ref().map(|l| l.as_slice().into()),
                other: t.as_ref().map(|l| l.as_slice().into()),
            },
            text::Conflict::Keep {
                style: text::ConflictStyle::Merge,
                marker_size: (settings.marker_size as u8).try_into().unwrap(),
            },
        );
    let marker = vec![b'<'; settings.marker_size];
    let conflicts = out.split(|c| *c == b'\n').filter(|l| l.starts_with(&marker)).count();
    LineMerge { text: out, conflicts }
}

/// The changed line ranges between two texts.
pub fn hunks(before: &[u8], after: &[u8], algorithm: Algorithm) -> Vec<(std::ops::Range<usize>, std::ops::Range<usize>)> {
    let _ = algorithm;
    let lines = |t: &'_ [u8]| t.split_inclusive(|b| *b == b'\n').map(<[u8]>::to_vec).collect::<Vec<_>>();
    similar::capture_diff_slices(similar::Algorithm::Histogram, &lines(before), &lines(after))
        .into_iter()
        .filter(|op| op.tag() != similar::DiffTag::Equal)
        .map(|op| (op.old_range(), op.new_range()))
        .collect()
}

/// What became of a stretch of lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChunkKind {
    /// Nobody changed it.
    Unchanged,
    /// Ours changed it.
    Ours,
    /// Theirs changed it.
    Theirs,
    /// Both made the same change.
    Same,
    /// Both changed it differently.
    Conflict,
}

/// A stretch of lines in all three versions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chunk {
    /// What became of it.
    pub kind: ChunkKind,
    /// Its lines in base.
    pub base: std::ops::Range<usize>,
    /// Its lines in ours.
    pub ours: std::ops::Range<usize>,
    /// Its lines in theirs.
    pub theirs: std::ops::Range<usize>,
}

/// The lines of a text, endings included.
pub fn lines(text: &[u8]) -> Vec<&[u8]> {
    text.split_inclusive(|b| *b == b'\n').collect()
}

/// The three texts as chunks, in order and complete.
pub fn chunks(versions: Versions<&[u8]>, algorithm: Algorithm) -> Vec<Chunk> {
    let l = versions.map(|v| lines(v).len());
    let _ = algorithm;
    vec![Chunk { kind: ChunkKind::Conflict, base: 0..l.base, ours: 0..l.ours, theirs: 0..l.theirs }]
}

/// Writes one conflict block.
pub fn write_conflict(out: &mut Vec<u8>, sides: Versions<&[u8]>, settings: &LineSettings, newline: &[u8]) {
    let mut mark = |c: u8, label: Option<&Vec<u8>>, text: &[u8]| {
        out.extend(std::iter::repeat_n(c, settings.marker_size));
        if let Some(label) = label {
            out.push(b' ');
            out.extend_from_slice(label);
        }
        out.extend_from_slice(newline);
        out.extend_from_slice(text);
        if !text.is_empty() && !text.ends_with(b"\n") {
            out.extend_from_slice(newline);
        }
    };
    mark(b'<', settings.labels.ours.as_ref(), sides.ours);
    if settings.style != Style::Merge {
        mark(b'|', settings.labels.base.as_ref(), sides.base);
    }
    mark(b'=', None, sides.theirs);
    mark(b'>', settings.labels.theirs.as_ref(), b"");
}
