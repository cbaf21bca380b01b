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
