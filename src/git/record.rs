//! What the driver did, kept so that a person can review it: `pleach/log.jsonl` in the git
//! directory of the worktree, one JSON object a line and a line a merged file, oldest first.
//!
//! Git calls the driver once a file and says nothing of what it is in the middle of, so each
//! [`Record`] carries the [`Operation`] it belongs to, as far as the git directory tells; the
//! records of the last one are "the last merge". Nothing in a record depends on the time or the
//! machine: the same merge done again writes the same lines, and takes the place of the first.

use std::collections::HashMap;
use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::git::{Git, Place, replace};
use crate::{Answer, Combined, Versions, Way};

/// When the file is longer than this, its older half goes.
const SIZE_LIMIT: u64 = 1 << 20;

/// One call of the driver.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Record {
    /// What git was doing.
    pub operation: Operation,
    /// Which of its steps.
    pub step: Step,
    /// The file, from the top of the worktree, as readable as UTF-8 allows.
    pub path: String,
    /// The path's bytes in hexadecimal, if they are not UTF-8.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub path_hex: Option<String>,
    /// `lines` or `trees`: which merge gave the answer.
    pub way: String,
    /// How many conflicts were left.
    pub conflicts: usize,
    /// The answer's SHA-1 as a git blob.
    pub answer: String,
    /// What was combined.
    pub combined: Vec<Combined>,
    /// What else was said.
    pub notes: Vec<String>,
}

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

/// One application of changes: all of a merge, one commit of a rebase.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Step {
    /// The commit of `HEAD`.
    pub head: String,
    /// Git's label for our side, without a file's name.
    pub ours: String,
    /// Git's label for their side, without a file's name.
    pub theirs: String,
}

impl Record {
    /// The record of what was answered for the file at `path`, under git's labels.
    pub fn new(place: &Place, path: &[u8], labels: &Versions<Option<Vec<u8>>>, answer: &Answer) -> Record {
        let step =
            Step { head: head(place).unwrap_or_default(), ours: label(&labels.ours), theirs: label(&labels.theirs) };
        let blob = gix::objs::compute_hash(gix::hash::Kind::Sha1, gix::objs::Kind::Blob, &answer.text);
        Record {
            operation: Operation::now(place, &step),
            step,
            path: String::from_utf8_lossy(path).into_owned(),
            path_hex: std::str::from_utf8(path).is_err().then(|| path.iter().map(|c| format!("{c:02x}")).collect()),
            way: match answer.way {
                Way::Lines => "lines".to_owned(),
                Way::Trees => "trees".to_owned(),
            },
            conflicts: answer.conflicts,
            answer: blob.map(|id| id.to_string()).unwrap_or_default(),
            combined: answer.combined.clone(),
            notes: answer.notes.clone(),
        }
    }

    /// Whether the answer is the structural merge's.
    pub fn by_trees(&self) -> bool {
        self.way == "trees"
    }

    /// Writes the record behind those that are there.
    ///
    /// # Errors
    /// The git directory may not be written, or the disk is full.
    pub fn append(&self, place: &Place) -> io::Result<()> {
        let path = file(place);
        if let Some(dir) = path.parent() {
            fs::create_dir_all(dir)?;
        }
        if fs::metadata(&path).is_ok_and(|m| m.len() > SIZE_LIMIT) {
            drop_older_half(&path)?;
        }
        let mut line = serde_json::to_vec(self)?;
        line.push(b'\n');
        // One write in append mode, so that the lines of two merges at once do not mix.
        OpenOptions::new().append(true).create(true).open(path)?.write_all(&line)
    }
}

impl Operation {
    fn now(place: &Place, step: &Step) -> Operation {
        let read = |path: &str| first_line(&place.git_dir.join(path));
        let rebase = |dir: &str| {
            Some(Operation::Rebase { from: read(&format!("{dir}/orig-head"))?, onto: read(&format!("{dir}/onto"))? })
        };
        let mail = || {
            read("rebase-apply/applying")?;
            Some(Operation::Mail { from: read("ORIG_HEAD")? })
        };
        let picks = || Some(Operation::Picks { from: read("sequencer/head")? });
        rebase("rebase-merge").or_else(|| rebase("rebase-apply")).or_else(mail).or_else(picks).unwrap_or_else(|| {
            Operation::Merge {
                head: step.head.clone(),
                theirs: step.theirs.clone(),
                commit: commit_of(&step.theirs).or_else(|| read("MERGE_HEAD")),
            }
        })
    }
}

/// The records of the last operation, oldest first, none of them superseded.
///
/// # Errors
/// The file is there and cannot be read.
pub fn last(place: &Place) -> io::Result<Vec<Record>> {
    let text = match fs::read(file(place)) {
        Ok(text) => text,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(e) => return Err(e),
    };
    // A line that does not parse is another version's, or the half that a kill left.
    let mut records: Vec<Record> = text.split(|c| *c == b'\n').filter_map(|l| serde_json::from_slice(l).ok()).collect();
    let Some(operation) = records.last().map(|r| r.operation.clone()) else { return Ok(records) };
    records.retain(|r| r.operation == operation);
    let mut latest = HashMap::new();
    for (i, r) in records.iter().enumerate() {
        latest.insert((r.step.theirs.clone(), r.path.clone(), r.path_hex.clone()), i);
    }
    let mut i = 0;
    records.retain(|r| {
        i += 1;
        latest[&(r.step.theirs.clone(), r.path.clone(), r.path_hex.clone())] == i - 1
    });
    Ok(records)
}

fn file(place: &Place) -> PathBuf {
    place.git_dir.join("pleach/log.jsonl")
}

fn drop_older_half(path: &Path) -> io::Result<()> {
    let text = fs::read(path)?;
    let half = text.len() / 2;
    let start = text[half..].iter().position(|c| *c == b'\n').map_or(text.len(), |at| half + at + 1);
    replace(path, &text[start..]).map_err(io::Error::other)
}

/// A label as text, without the file's name, which git puts behind it (`HEAD:tides.py`) where a side
/// renamed the file.
fn label(label: &Option<Vec<u8>>) -> String {
    let label = String::from_utf8_lossy(label.as_deref().unwrap_or_default()).into_owned();
    // Names of commits hold no colon, but a picked commit's subject (`1a2b3c4 (docs: say it)`) may.
    let end = match label.contains('(') {
        true if label.ends_with(')') => None,
        true => label.rfind("):").map(|at| at + 1),
        false => label.find(':'),
    };
    label[..end.unwrap_or(label.len())].to_owned()
}

/// The commit that `git merge` calls `name`: it tells its children in `GITHEAD_<commit>=<name>`.
fn commit_of(name: &str) -> Option<String> {
    std::env::vars_os().find_map(|(key, value)| {
        let commit = key.to_str()?.strip_prefix("GITHEAD_")?.to_owned();
        (value == *name).then_some(commit)
    })
}

/// The commit of `HEAD`.
fn head(place: &Place) -> Option<String> {
    head_from_files(place).or_else(|| {
        // A repository that keeps its refs in a table; or one without any commit.
        let head = Git::in_dir(&place.git_dir).line(&["rev-parse", "--verify", "--quiet", "HEAD"])?;
        head.into_string().ok()
    })
}

fn head_from_files(place: &Place) -> Option<String> {
    let head = first_line(&place.git_dir.join("HEAD"))?;
    let Some(name) = head.strip_prefix("ref:").map(str::trim) else { return Some(head) };
    first_line(&place.common_dir.join(name)).or_else(|| {
        let packed = fs::read_to_string(place.common_dir.join("packed-refs")).ok()?;
        packed.lines().find_map(|line| line.strip_suffix(name)?.strip_suffix(' ').map(str::to_owned))
    })
}

fn first_line(path: &Path) -> Option<String> {
    let text = fs::read_to_string(path).ok()?;
    Some(text.lines().next().unwrap_or_default().trim().to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_is_kept_without_the_files_name() {
        for (given, kept) in [
            ("HEAD", "HEAD"),
            ("HEAD:src/old tides.py", "HEAD"),
            ("upstream/main:tides.py", "upstream/main"),
            ("1a2b3c4 (docs: say it)", "1a2b3c4 (docs: say it)"),
            ("1a2b3c4 (fix (core): it):tides.py", "1a2b3c4 (fix (core): it)"),
            ("", ""),
        ] {
            assert_eq!(label(&Some(given.as_bytes().to_vec())), kept);
        }
    }
}
