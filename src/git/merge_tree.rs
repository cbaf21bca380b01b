//! Merges of whole trees, done in memory by `git merge-tree`: nothing is written but loose objects
//! in a scratch directory that goes afterwards.

use std::ffi::OsString;

use gix::bstr::ByteSlice;

use crate::Versions;
use crate::git::unmerged::{Stage, Unmerged, entries};
use crate::git::{Git, GitError, Scratch};

/// What stops a merge of two commits: the files that git cannot merge as lines, and every file that
/// it would have given to pleach.
///
/// Git is told that pleach failed at each of the latter, so that it lists their three versions and
/// leaves it to us to merge them both ways.
///
/// # Errors
/// There are no such commits, or this git (before 2.39) cannot merge trees in memory.
pub fn merges(git: &Git, pairs: &[(String, String)]) -> Result<Vec<Vec<Unmerged>>, GitError> {
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
    let output = scratch.git().output_with_input(&args, input.as_bytes())?;

    // For each pair: whether it is clean, the tree, the entries of what is not, and an empty field.
    let mut fields = output.split_str("\0");
    let mut merges = Vec::new();
    while let (Some(b"0" | b"1"), Some(_tree)) = (fields.next(), fields.next()) {
        merges.push(entries(fields.by_ref().take_while(|field| !field.is_empty())));
    }
    Ok(merges)
}

/// The contents of a file's three versions; empty where there is none.
///
/// # Errors
/// Git has no such object.
pub fn texts(git: &Git, files: &[&Unmerged]) -> Result<Vec<Versions<Vec<u8>>>, GitError> {
    let stages = |file: &Unmerged| [file.stages.base.clone(), file.stages.ours.clone(), file.stages.theirs.clone()];
    let wanted: Vec<Stage> = files.iter().flat_map(|file| stages(file)).flatten().collect();
    let objects: Vec<&str> = wanted.iter().map(|stage| stage.object.as_str()).collect();
    let mut blobs = git.blobs(&objects)?.into_iter();
    let mut next = |stage: &Option<Stage>| stage.as_ref().and_then(|_| blobs.next().flatten()).unwrap_or_default();
    Ok(files
        .iter()
        .map(|file| {
            let base = next(&file.stages.base);
            let ours = next(&file.stages.ours);
            Versions { base, ours, theirs: next(&file.stages.theirs) }
        })
        .collect())
}
