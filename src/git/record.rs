//! What the driver did, kept so that a person can review it: `pleach/log.jsonl` in the git
//! directory of the worktree, one JSON object a line and a line a merged file, oldest first.
//!
//! Git calls the driver once a file and says nothing of what it is in the middle of, so each
//! [`Record`] carries the [`Operation`] it belongs to, as far as the git directory tells; the
//! records of the last one are "the last merge". Nothing in a record depends on the time or the
//! machine: the same merge done again writes the same lines, and takes the place of the first.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufRead, BufReader, Write};
use std::path::{Path, PathBuf};

use gix::bstr::{BString, ByteSlice};
use serde::{Deserialize, Serialize};

use crate::git::operation::{Operation, first_line};
use crate::git::protocol::is_described;
use crate::git::{Git, Place, replace};
use crate::report::hex;
use crate::{Answer, Combined, Kept, Versions, Way};

/// When the file is longer than this, its older half goes, but nothing of what git is doing now.
const SIZE_LIMIT: u64 = 1 << 20;

/// What stands for a label that git (before 2.44) does not tell, or that the caller has none of.
const UNSAID: &str = "theirs";

/// What git calls their side where it applies a stash.
pub(super) const STASHED: &str = "Stashed changes";

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
    /// What there is to see in long conflicts that were left.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kept: Vec<Kept>,
    /// What else was said.
    pub notes: Vec<String>,
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
    /// It goes into the commit that `head` is (a `fixup` of a rebase) or into none yet
    /// (`cherry-pick --no-commit`, a stash), so that no commit on top of `head` tells of it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub joins: bool,
}

impl Step {
    /// What it is known by among the steps of one operation: the label, or `HEAD` where git (before 2.44)
    /// tells no label.
    pub fn name(&self) -> &str {
        self.label().unwrap_or(&self.head)
    }

    /// Git's label for their side, if it told one.
    pub fn label(&self) -> Option<&str> {
        (self.theirs != UNSAID).then_some(&self.theirs)
    }

    /// Whether its answers go into the worktree: what merges in memory (`git merge-tree`) changes no file, and calls our
    /// side by its name.
    pub fn is_in_worktree(&self) -> bool {
        matches!(&*self.ours, "HEAD" | "Updated upstream" | "ours")
    }

    /// Whether a stash is applied, as far as the label tells: of that comes no commit.
    pub fn is_stash(&self) -> bool {
        self.theirs == STASHED
    }
}

impl Record {
    /// The record of what was answered for the file at `path`, under git's labels.
    pub fn new(place: &Place, path: &[u8], labels: &Versions<Option<Vec<u8>>>, answer: &Answer) -> Record {
        let (ours, mut theirs) = sides(labels, path);
        let head = head(place).unwrap_or_default();
        if theirs == UNSAID
            && let Some(name) = only_head().map(|(_, name)| name).or_else(|| merged_into(place, &head))
        {
            theirs = name;
        }
        let mut step = Step { head, ours, theirs, joins: joins(place) };
        step.joins |= step.is_stash();
        Record {
            operation: autostash(place, &step).unwrap_or_else(|| Operation::now(place, &step)),
            step,
            path: String::from_utf8_lossy(path).into_owned(),
            path_hex: hex(path),
            way: match answer.way {
                Way::Lines => "lines".to_owned(),
                Way::Trees => "trees".to_owned(),
            },
            conflicts: answer.conflicts,
            answer: blob_name(&answer.text),
            combined: answer.combined.clone(),
            kept: answer.kept.clone(),
            notes: answer.notes.clone(),
        }
    }

    /// Whether the answer is the structural merge's.
    pub fn by_trees(&self) -> bool {
        self.way == "trees"
    }

    /// The file's path, byte for byte.
    pub fn path_bytes(&self) -> BString {
        let from_hex = |hex: &String| {
            let digits: Vec<_> = hex.bytes().filter_map(|c| (c as char).to_digit(16)).collect();
            digits.chunks_exact(2).map(|pair| (pair[0] * 16 + pair[1]) as u8).collect()
        };
        self.path_hex.as_ref().map_or_else(|| self.path.as_str().into(), from_hex)
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
            self.drop_older_half(&path)?;
        }
        let mut line = serde_json::to_vec(self)?;
        line.push(b'\n');
        // One write in append mode, so that the lines of two merges at once do not mix.
        OpenOptions::new().append(true).create(true).open(path)?.write_all(&line)
    }

    fn drop_older_half(&self, path: &Path) -> io::Result<()> {
        let is_ours = |line: &[u8]| serde_json::from_slice(line).is_ok_and(|r: Record| r.operation == self.operation);
        let mut first = Vec::new();
        BufReader::new(File::open(path)?).read_until(b'\n', &mut first)?;
        // Then all is of this operation: in a merge of many files, each would look through it in vain.
        if is_ours(&first) {
            return Ok(());
        }
        let text = fs::read(path)?;
        let half = text.len() / 2;
        let mut start = 0;
        for line in text.split_inclusive(|c| *c == b'\n') {
            if start > half || is_ours(line) {
                break;
            }
            start += line.len();
        }
        replace(path, &text[start..]).map_err(io::Error::other)
    }
}

/// The SHA-1 of a text as a git blob.
pub fn blob_name(text: &[u8]) -> String {
    let blob = gix::objs::compute_hash(gix::hash::Kind::Sha1, gix::objs::Kind::Blob, text);
    blob.map(|id| id.to_string()).unwrap_or_default()
}

/// All records, oldest first.
///
/// # Errors
/// The file is there and cannot be read.
pub fn all(place: &Place) -> io::Result<Vec<Record>> {
    let text = match fs::read(file(place)) {
        Ok(text) => text,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(e) => return Err(e),
    };
    // A line that does not parse is another version's, or the half that a kill left.
    Ok(text.split(|c| *c == b'\n').filter_map(|line| serde_json::from_slice(line).ok()).collect())
}

/// The last operation that there is a record of, if it is a merge.
fn last_merge(place: &Place) -> Option<Operation> {
    let last = all(place).ok()?.pop()?.operation;
    matches!(last, Operation::Merge { .. }).then_some(last)
}

/// The operation of a `git merge --autostash` whose stash is being applied: it is part of that.
fn autostash(place: &Place, step: &Step) -> Option<Operation> {
    if !step.is_stash() {
        return None;
    }
    let (merged, _) = only_head()?;
    last_merge(place).filter(|last| matches!(last, Operation::Merge { commit: Some(c), .. } if *c == merged))
}

/// What the merge that has stopped calls the other side, if its record is the last: `git checkout -m
/// FILE` merges a file of it again, and names no side.
fn merged_into(place: &Place, head: &str) -> Option<String> {
    let merging = first_line(&place.git_dir.join("MERGE_HEAD"))?;
    match last_merge(place)? {
        Operation::Merge { head: start, theirs, commit: Some(c) } if start == head && c == merging => Some(theirs),
        _ => None,
    }
}

/// Whether what git is applying gets no commit of its own.
fn joins(place: &Place) -> bool {
    let read = |path: &str| fs::read_to_string(place.git_dir.join(path)).unwrap_or_default();
    let command = read("rebase-merge/done").lines().last().unwrap_or_default().to_owned();
    let word = command.split(' ').next().unwrap_or_default();
    let joined = matches!(word, "fixup" | "squash" | "f" | "s");
    joined || read("sequencer/opts").contains("no-commit = true") || is_autostash_of_a_rebase(place)
}

/// Whether a rebase is done with its commits and applies what it had stashed: it has gone back to its branch. A git
/// before 2.44 tells it by nothing else.
fn is_autostash_of_a_rebase(place: &Place) -> bool {
    let rebases = ["rebase-merge/onto", "rebase-apply/onto"].iter().any(|path| place.git_dir.join(path).exists());
    // Where refs are kept in a table, `HEAD` always says `.invalid`.
    let on_branch = |head: String| head.starts_with("ref:") && !head.ends_with("/.invalid");
    rebases && first_line(&place.git_dir.join("HEAD")).is_some_and(on_branch)
}

/// Where the record is, whether there is one or not.
pub fn file(place: &Place) -> PathBuf {
    place.git_dir.join("pleach/log.jsonl")
}

/// The labels of the sides as text, without the file's name, which git puts behind all of them
/// (`HEAD:tides.py`) where a side renamed the file at `path`.
fn sides(labels: &Versions<Option<Vec<u8>>>, path: &[u8]) -> (String, String) {
    let named = [b":", path].concat();
    let labels = labels.as_ref().map(|label| label.as_deref().unwrap_or_default());
    let all = [labels.base, labels.ours, labels.theirs];
    // No name for our side holds a colon.
    let renamed = all.iter().any(|label| label.ends_with(&named)) || labels.ours.contains(&b':');
    let side = |label: &[u8]| {
        let label = if renamed { label.strip_suffix(&*named).unwrap_or(bare(label)) } else { label };
        String::from_utf8_lossy(label).into_owned()
    };
    (side(labels.ours), side(labels.theirs))
}

/// A label without the name of some file behind it. A picked commit's subject (`1a2b3c4 (docs: say it)`)
/// may hold a colon, and so may the file's name.
fn bare(label: &[u8]) -> &[u8] {
    let end = match is_described(label) {
        true => label.rfind("):").map(|at| at + 1),
        // `:/words` names a commit too.
        false => label.get(1..).and_then(|rest| rest.find_byte(b':')).map(|at| at + 1),
    };
    &label[..end.unwrap_or(label.len())]
}

/// The one commit that `git merge` merges, and what it calls it.
fn only_head() -> Option<(String, String)> {
    let heads = std::env::vars_os().filter_map(|(key, value)| {
        let commit = key.to_str()?.strip_prefix("GITHEAD_")?.to_owned();
        Some((commit, value.to_string_lossy().into_owned()))
    });
    let heads: Vec<_> = heads.take(2).collect();
    <[_; 1]>::try_from(heads).ok().map(|[head]| head)
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
    let commit = first_line(&place.common_dir.join(name)).or_else(|| {
        let packed = fs::read_to_string(place.common_dir.join("packed-refs")).ok()?;
        packed.lines().find_map(|line| line.strip_suffix(name)?.strip_suffix(' ').map(str::to_owned))
    });
    // A branch may stand for another one.
    commit.filter(|commit| !commit.starts_with("ref:"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_are_kept_without_the_files_name() {
        let path = "tide (2).py";
        for (given, kept) in [
            (["base", "HEAD", "upstream/main"], ["HEAD", "upstream/main"]),
            (["1a2b3c4:tide (1).py", "HEAD:tide (1).py", "up:tide (2).py"], ["HEAD", "up"]),
            (["1a2b3c4:src/tide.py", "HEAD:tide (2).py", "up:src/tide.py"], ["HEAD", "up"]),
            (["x", "HEAD", "1a2b3c4 (docs: say it)"], ["HEAD", "1a2b3c4 (docs: say it)"]),
            (["x", "HEAD", "1a2b3c4 (docs (core): say it)"], ["HEAD", "1a2b3c4 (docs (core): say it)"]),
            (["x", "HEAD:tide (2).py", "1a2b3c4 (docs: it):old.py"], ["HEAD", "1a2b3c4 (docs: it)"]),
            (["x", "HEAD", ":/^Show (all)"], ["HEAD", ":/^Show (all)"]),
            (["x", "HEAD:old.py", ":/^Show:tide (2).py"], ["HEAD", ":/^Show"]),
            (["", "", ""], ["", ""]),
        ] {
            let [base, ours, theirs] = given.map(|label| Some(label.as_bytes().to_vec()));
            let found = sides(&Versions { base, ours, theirs }, path.as_bytes());
            assert_eq!([&*found.0, &*found.1], kept);
        }
    }
}
