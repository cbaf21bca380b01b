//! What git tells a merge driver, and what the driver's exit status tells git.

use std::ffi::{OsStr, OsString};
use std::path::PathBuf;

use crate::Versions;

/// The placeholders of the driver's command line, in the order in which [`Call::from_args`] expects
/// what git puts in their stead.
pub const PLACEHOLDERS: [&str; 8] = ["%O", "%A", "%B", "%L", "%P", "%S", "%X", "%Y"];

/// How many of them, from the first, a merge as syntax needs: without a path no language is known.
pub const NEEDED: usize = 5;

/// The conflict marker size where git does not say one.
const MARKER_SIZE: usize = 7;

/// One call of the driver.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    /// Temporary files with the three versions; the answer goes into ours.
    pub files: Versions<PathBuf>,
    /// The length of the conflict markers.
    pub marker_size: usize,
    /// The file's path from the top of the worktree, as git stores it.
    pub path: Option<Vec<u8>>,
    /// What stands behind the conflict markers.
    pub labels: Versions<Option<Vec<u8>>>,
}

/// A driver was called with something else than git passes.
#[derive(Debug, thiserror::Error, PartialEq, Eq)]
pub enum ProtocolError {
    /// Fewer than three files, or more arguments than there are placeholders.
    #[error("expected {} and got {got} arguments", PLACEHOLDERS.join(" "))]
    Count {
        /// How many there were.
        got: usize,
    },
    /// The marker size is no number.
    #[error("marker size (%L) is not a number: {0}")]
    MarkerSize(String),
}

impl Call {
    /// Reads the arguments that git passes for [`PLACEHOLDERS`].
    ///
    /// Git before 2.44 does not know `%S`, `%X` and `%Y` and passes them on as they stand; they and
    /// whatever else is missing at the end count as not said.
    ///
    /// # Errors
    /// Too few or too many arguments, or a marker size that is none.
    pub fn from_args(args: &[OsString]) -> Result<Call, ProtocolError> {
        if args.len() < 3 || args.len() > PLACEHOLDERS.len() {
            return Err(ProtocolError::Count { got: args.len() });
        }
        let said = |i: usize| args.get(i).filter(|a| *a != OsStr::new(PLACEHOLDERS[i]));
        let bytes = |a: &OsString| a.as_encoded_bytes().to_vec();
        let marker_size = match said(3) {
            None => MARKER_SIZE,
            Some(text) => match text.to_str().and_then(|t| t.parse().ok()) {
                // Git reads a size of nothing as its default.
                Some(0) => MARKER_SIZE,
                Some(size) => size,
                None => return Err(ProtocolError::MarkerSize(text.to_string_lossy().into_owned())),
            },
        };
        let label = |i: usize, unsaid: &str| Some(said(i).map_or_else(|| unsaid.into(), bytes));
        Ok(Call {
            files: Versions {
                base: PathBuf::from(&args[0]),
                ours: args[1].clone().into(),
                theirs: args[2].clone().into(),
            },
            marker_size,
            path: said(4).map(bytes),
            labels: Versions {
                // Git passes the same empty word for no label and for an empty one. Its own callers
                // that have no label for a side pass an empty one, those that have none for the
                // ancestor pass none, and the two are written differently.
                base: label(5, "base").filter(|l| !l.is_empty()),
                ours: label(6, "ours"),
                theirs: label(7, "theirs"),
            },
        })
    }

    /// Whether git puts the answer into the worktree or into what is to be committed, as far as the
    /// labels tell.
    ///
    /// Two callers do not. `git rerere` applies a recorded resolution to a file that has been merged
    /// already, and names no side. `git log --remerge-diff` merges in memory what was merged long ago;
    /// it calls our side by a commit and its subject, where all others say `HEAD` or a branch.
    pub fn is_of_an_operation(&self) -> bool {
        !(self.sides().iter().all(|label| label.is_empty()) || self.only_looks())
    }

    /// Whether a person only looks at what was merged long ago, as far as the labels tell: `git log --remerge-diff`.
    pub fn only_looks(&self) -> bool {
        self.sides().iter().all(|label| is_described(label))
    }

    fn sides(&self) -> [&[u8]; 2] {
        [&self.labels.ours, &self.labels.theirs].map(|label| label.as_deref().unwrap_or_default())
    }
}

/// Whether a label is a commit with its subject, `1a2b3c4 (Show metres)`, a file's name behind it or not.
pub(super) fn is_described(label: &[u8]) -> bool {
    let digits = label.iter().take_while(|c| c.is_ascii_hexdigit()).count();
    digits >= 4 && label[digits..].starts_with(b" (")
}

/// How a driver may end. Git reads 0 as merged, up to 128 as conflicts, and more as a failure that
/// stops the whole merge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// No conflict is left.
    Merged,
    /// The answer holds conflicts.
    Conflicts,
    /// Nothing was written.
    Failed,
}

impl Outcome {
    /// The exit status that says so.
    pub fn status(self) -> u8 {
        match self {
            Outcome::Merged => 0,
            Outcome::Conflicts => 1,
            Outcome::Failed => 129,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn call(args: &[&str]) -> Result<Call, ProtocolError> {
        Call::from_args(&args.iter().map(OsString::from).collect::<Vec<_>>())
    }

    #[test]
    fn all_that_a_new_git_passes_is_read() {
        let call = call(&["o", "a", "b", "9", "src/tides.py", "1234567", "HEAD", "upstream/main"]).unwrap();
        assert_eq!(call.marker_size, 9);
        assert_eq!(call.path.as_deref(), Some(&b"src/tides.py"[..]));
        assert_eq!(call.labels.theirs.as_deref(), Some(&b"upstream/main"[..]));
    }

    #[test]
    fn what_an_old_git_does_not_expand_counts_as_not_said() {
        let call = call(&["o", "a", "b", "7", "tides.py", "%S", "%X", "%Y"]).unwrap();
        let labels = call.labels.map(|l| String::from_utf8(l.unwrap()).unwrap());
        assert_eq!((&*labels.base, &*labels.ours, &*labels.theirs), ("base", "ours", "theirs"));
    }

    #[test]
    fn the_labels_tell_what_is_no_operation() {
        for (ours, theirs, is_one) in [
            ("HEAD", "upstream/main", true),
            ("Updated upstream", "Stashed changes", true),
            ("HEAD", "1a2b3c4 (Show metres)", true),
            ("HEAD", "", true),
            ("", "", false),
            ("1a2b3c4 (Show metres)", "5d6e7f8 (Wait)", false),
            ("1a2b3c4 (Show metres):tides.py", "5d6e7f8 (Wait):old.py", false),
        ] {
            let call = call(&["o", "a", "b", "7", "tides.py", "base", ours, theirs]).unwrap();
            assert_eq!(call.is_of_an_operation(), is_one, "{ours} {theirs}");
        }
    }

    #[test]
    fn only_the_three_files_are_required() {
        let call = call(&["o", "a", "b"]).unwrap();
        assert_eq!((call.marker_size, call.path), (7, None));
        assert_eq!(self::call(&["o", "a"]), Err(ProtocolError::Count { got: 2 }));
        assert_eq!(self::call(&["", "", "", "", "", "", "", "", ""]), Err(ProtocolError::Count { got: 9 }));
        assert!(matches!(self::call(&["o", "a", "b", "wide"]), Err(ProtocolError::MarkerSize(_))));
    }

    #[test]
    fn an_empty_label_of_a_side_is_empty_and_of_the_ancestor_is_none() {
        let call = call(&["o", "a", "b", "7", "tides.py", "", "", ""]).unwrap();
        assert_eq!(call.labels, Versions { base: None, ours: Some(vec![]), theirs: Some(vec![]) });
    }
}
