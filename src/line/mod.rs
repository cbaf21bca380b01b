//! Git's three-way line merge: the answer of every merge that needs no tree, and the fallback of
//! every merge that does.
//!
//! The output equals git's byte for byte (measured against git 2.47), because people compare it with
//! what git did yesterday and because contract K3 is stated in terms of it. `gix-merge` was tried first:
//! of 2015 files from real histories it wrote 174 differently, for it takes common lines out of conflicts
//! by other rules. So the merge is written here, from git's behaviour:
//!
//! 1. `text` cuts the files into lines and numbers the lines;
//! 2. `diff` compares base with each side (`myers`, `histogram`, `patience`) and settles where changes
//!    stand that could stand elsewhere (`slide`);
//! 3. `chunks` lays the two diffs over each other;
//! 4. `conflicts` takes what is common out of conflicts, and joins conflicts that are close;
//! 5. `write` writes the file.

mod blocks;
mod chunks;
mod conflicts;
mod diff;
mod endings;
mod histogram;
mod myers;
mod patience;
mod repeated;
mod slide;
mod text;
mod write;

use crate::Versions;

pub(crate) use blocks::is_mark;
pub use blocks::{Block, blocks};
pub use chunks::{Chunk, ChunkKind, chunks, chunks_from_hunks};
pub(crate) use conflicts::CRUMB;
use diff::Differ;
pub use diff::{common_prefix, common_suffix, differences, hunks};
pub(crate) use endings::{Converted, converted};
pub(crate) use repeated::{Change, Repeated, repeated};
pub(crate) use text::{above, newline_of};
pub use text::{lines, looks_binary, with_neighbours};
pub use write::write_conflict;

/// Which line diff feeds the merge. Git's own names (`--diff-algorithm`).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Algorithm {
    /// Myers' greedy diff: what `git merge-file` uses.
    Myers,
    /// Myers without giving up on dear searches.
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
    /// Length of a conflict marker; 7 unless git says otherwise (`conflict-marker-size`), and for 0.
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
///
/// With the default settings the text is what `git merge` writes, labels aside; with
/// [`Algorithm::Myers`] and [`Level::ZealousAlnum`], what `git merge-file` writes.
///
/// ```
/// use pleach::Versions;
/// use pleach::line::{LineSettings, merge};
///
/// let versions = Versions { base: &b"1\n2\n3\n"[..], ours: b"1\ntwo\n3\n", theirs: b"1\n2\n3\n4\n" };
/// let merged = merge(versions, &LineSettings::default());
/// assert_eq!((&merged.text[..], merged.conflicts), (&b"1\ntwo\n3\n4\n"[..], 0));
/// ```
pub fn merge(versions: Versions<&[u8]>, settings: &LineSettings) -> LineMerge {
    merge_part(versions, settings, None)
}

/// Merges some lines of longer texts, which tell what line ending the markers get; git's own rule needs to see them.
pub(crate) fn merge_part(
    versions: Versions<&[u8]>,
    settings: &LineSettings,
    newline: Option<&'static [u8]>,
) -> LineMerge {
    if let Some(text) = unopposed(&versions) {
        return LineMerge { text: text.to_vec(), conflicts: 0 };
    }
    let (texts, distinct) = text::cut(versions);
    let mut differ = Differ::new(settings.algorithm, distinct);
    let chunks = chunks::chunks_of(&texts, &mut differ);
    let chunks = conflicts::refine(chunks, &texts, &mut differ, settings);
    write::written(&chunks, &texts, settings, newline)
}

/// The answer where at most one side changed anything, or both made the same of it.
fn unopposed<'a>(versions: &Versions<&'a [u8]>) -> Option<&'a [u8]> {
    if versions.ours == versions.base || versions.ours == versions.theirs {
        Some(versions.theirs)
    } else if versions.theirs == versions.base {
        Some(versions.ours)
    } else {
        None
    }
}
