//! What git is in the middle of, as its directory tells it.

use std::fs;
use std::path::Path;

use gix::bstr::ByteSlice;
use serde::{Deserialize, Serialize};

use crate::git::Place;
use crate::git::protocol::is_described;
use crate::git::record::{STASHED, Step};

/// What git was doing when it called the driver.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Operation {
    /// One merge of two trees: `git merge`, and whatever leaves no trace while it runs
    /// (`cherry-pick` and `revert` of one commit, `stash pop`, `checkout -m`, `merge-tree`).
    Merge {
        /// The commit of `HEAD`.
        head: String,
        /// Git's label for the other side.
        theirs: String,
        /// The other side's commit, which only `git merge` tells.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        commit: Option<String>,
    },
    /// `git rebase`.
    Rebase {
        /// The branch's commit before it.
        from: String,
        /// Where it goes.
        onto: String,
    },
    /// `git cherry-pick` or `git revert` of several commits.
    Picks {
        /// The commit of `HEAD` before the first.
        from: String,
    },
    /// `git am`.
    Mail {
        /// The commit of `HEAD` before the first patch.
        from: String,
    },
}

/// What leaves no trace while git applies it, and is no merge of branches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Applied<'r> {
    /// A stash.
    Stash,
    /// The commit that `git cherry-pick` picked.
    Picked(&'r str),
    /// The commit that `git revert` took back.
    Reverted(&'r str),
}

impl Operation {
    /// What was applied, as far as git's label for their side tells that it was no merge.
    pub fn applied(&self) -> Option<Applied<'_>> {
        let Operation::Merge { theirs, commit: None, .. } = self else { return None };
        match theirs.strip_prefix("parent of ") {
            Some(reverted) => Some(Applied::Reverted(reverted)),
            None if theirs == STASHED => Some(Applied::Stash),
            None => is_described(theirs.as_bytes()).then_some(Applied::Picked(theirs)),
        }
    }

    /// What git is doing at this step, as far as its directory tells.
    pub(super) fn now(place: &Place, step: &Step) -> Operation {
        let read = |path: &str| first_line(&place.git_dir.join(path));
        let rebase = |dir: &str| {
            Some(Operation::Rebase { from: read(&format!("{dir}/orig-head"))?, onto: read(&format!("{dir}/onto"))? })
        };
        // Until it stops, `git rebase --apply` says nowhere but here what it is about.
        let patches = || {
            read("rebase-apply/rebasing")?;
            Some(Operation::Rebase { from: read("ORIG_HEAD")?, onto: rebase_started_on(place)? })
        };
        let mail = || {
            read("rebase-apply/applying")?;
            Some(Operation::Mail { from: read("ORIG_HEAD")? })
        };
        let picks = || Some(Operation::Picks { from: read("sequencer/head")? });
        rebase("rebase-merge")
            .or_else(|| rebase("rebase-apply"))
            .or_else(patches)
            .or_else(mail)
            .or_else(picks)
            .unwrap_or_else(|| Operation::Merge {
                head: step.head.clone(),
                theirs: step.theirs.clone(),
                commit: commit_of(&step.theirs).or_else(|| read("MERGE_HEAD")),
            })
    }
}

/// The commit that `git merge` calls `name`: it tells its children in `GITHEAD_<commit>=<name>`.
fn commit_of(name: &str) -> Option<String> {
    std::env::vars_os().find_map(|(key, value)| {
        let commit = key.to_str()?.strip_prefix("GITHEAD_")?.to_owned();
        (value == *name).then_some(commit)
    })
}

/// The commit that the last rebase began on: `HEAD`'s log tells it, under whatever name the rebase was started.
fn rebase_started_on(place: &Place) -> Option<String> {
    let log = fs::read(place.git_dir.join("logs/HEAD")).ok()?;
    let (before, _) = log.rsplit_once_str(" (start): checkout ")?;
    // `OLD NEW NAME <MAIL> TIME ZONE<TAB>MESSAGE`.
    let line = before.rsplit_str("\n").next()?;
    Some(line.split_str(" ").nth(1)?.to_str().ok()?.to_owned())
}

/// The first line of a file, if it can be read.
pub(super) fn first_line(path: &Path) -> Option<String> {
    let text = fs::read_to_string(path).ok()?;
    Some(text.lines().next().unwrap_or_default().trim().to_owned())
}
