//! The tracked files that pleach reads, and whom git gives them to.

use gix::bstr::{BString, ByteSlice};

use crate::git::{Git, GitError};

/// The tracked files whose names match one of `patterns`, in any directory, and the state of their
/// `merge` attribute as git tells it.
///
/// # Errors
/// Git refuses: there is no worktree here.
pub fn merge_attributes(git: &Git, patterns: &[String]) -> Result<Vec<(BString, BString)>, GitError> {
    let mut list = vec!["ls-files".to_owned(), "-z".to_owned(), "--".to_owned()];
    list.extend(patterns.iter().map(|p| format!(":(top,glob)**/{p}")));
    let mut states = merge_attribute(git, &git.reading_pathspecs().output(&list)?)?;
    // An unmerged file is in the index as often as it has versions.
    states.dedup();
    Ok(states)
}

/// The state of the `merge` attribute of each of some paths, which end in NUL.
///
/// # Errors
/// Git refuses.
pub fn merge_attribute(git: &Git, paths: &[u8]) -> Result<Vec<(BString, BString)>, GitError> {
    let output = git.output_with_input(&["check-attr", "-z", "--stdin", "merge"], paths)?;
    let fields: Vec<_> = output.split_str("\0").collect();
    Ok(fields.chunks_exact(3).map(|f| (f[0].into(), f[2].into())).collect())
}

/// The driver of files of which no attribute says anything; git's own line merge if there is none.
pub fn default_driver(git: &Git) -> Option<String> {
    git.line(&["config", "merge.default"]).map(|name| name.to_string_lossy().into_owned())
}
