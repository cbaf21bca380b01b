//! Merges of whole trees, done in memory by `git merge-tree`: nothing is written but loose objects
//! in a scratch directory that goes afterwards.

use std::ffi::OsString;

use gix::bstr::ByteSlice;

use crate::Versions;
use crate::git::unmerged::{Stage, Unmerged, entries};
use crate::git::{Git, GitError, Scratch};

/// Merges of pairs of commits, in the order of the pairs.
pub struct Merges {
    /// Of each merge, what stops it: the files that git cannot merge as lines, and every file that it
    /// would have given to pleach.
    pub stopped: Vec<Vec<Unmerged>>,
    /// Holds what git made on the way, among it the ancestor of branches that have crossed before, so
    /// it must last until the texts are read.
    scratch: Scratch,
}

impl Merges {
    /// The contents of the three versions of each of these files.
    ///
    /// # Errors
    /// Git has no such object.
    pub fn texts(&self, files: &[&Unmerged]) -> Result<Vec<Versions<Vec<u8>>>, GitError> {
        texts(self.scratch.git(), files)
    }
}

/// Git's exit status for options that it does not know.
const BAD_USAGE: i32 = 129;

/// Merges each of these pairs of commits, which are given by names without white space. `git` is to be run at the
/// top of the worktree, if there is one: it tells paths as seen from where it runs.
///
/// Git is told that pleach failed at each of the latter, so that it lists their three versions and
/// leaves it to us to merge them both ways.
///
/// # Errors
/// There are no such commits, or this git (before 2.39) cannot merge trees in memory.
pub fn merges(git: &Git, pairs: &[(String, String)]) -> Result<Merges, GitError> {
    let scratch = Scratch::new(git)?;
    let mut args: Vec<OsString> = Vec::new();
    for setting in ["merge.pleach.driver=false", "merge.pleach.recursive=text", "merge.conflictStyle=merge"] {
        args.extend(["-c".into(), setting.into()]);
    }
    args.extend(
        ["merge-tree", "--write-tree", "--stdin", "-z", "--no-messages", "--allow-unrelated-histories"]
            .map(OsString::from),
    );
    let input: String = pairs.iter().map(|(ours, theirs)| format!("{ours} {theirs}\n")).collect();
    let output = scratch.git().output_with_input(&args, input.as_bytes()).map_err(|e| match e {
        GitError::Failed { status, .. } if status.code() == Some(BAD_USAGE) => GitError::TooOld,
        e => e,
    })?;

    // For each pair: whether it is clean, the tree, the entries of what is not, and an empty field.
    let mut fields = output.split_str("\0");
    let mut stopped = Vec::new();
    while let (Some(b"0" | b"1"), Some(_tree)) = (fields.next(), fields.next()) {
        stopped.push(entries(fields.by_ref().take_while(|field| !field.is_empty())));
    }
    Ok(Merges { stopped, scratch })
}

/// The contents of a file's three versions; empty where there is none, and of what is no file.
///
/// # Errors
/// Git has no such object.
pub fn texts(git: &Git, files: &[&Unmerged]) -> Result<Vec<Versions<Vec<u8>>>, GitError> {
    let stages = |file: &Unmerged| {
        let Versions { base, ours, theirs } = file.stages.clone();
        [base, ours, theirs].map(|stage| stage.filter(Stage::is_file))
    };
    let wanted: Vec<Stage> = files.iter().flat_map(|file| stages(file)).flatten().collect();
    let objects: Vec<&str> = wanted.iter().map(|stage| stage.object.as_str()).collect();
    let mut blobs = git.blobs(&objects)?.into_iter().zip(&objects);
    let mut next = |stage: Option<Stage>| match stage.and_then(|_| blobs.next()) {
        None => Ok(Vec::new()),
        Some((Some(blob), _)) => Ok(blob),
        // Not as if it were empty: that would be another merge.
        Some((None, object)) => Err(GitError::Missing { object: (*object).to_owned() }),
    };
    let versions = files.iter().map(|file| {
        let [base, ours, theirs] = stages(file);
        Ok(Versions { base: next(base)?, ours: next(ours)?, theirs: next(theirs)? })
    });
    versions.collect()
}
