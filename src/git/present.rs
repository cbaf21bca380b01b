//! Which of the records led to what `HEAD` and the worktree hold today.
//!
//! Git does not say when it takes something back (`merge --abort`, `reset --hard`, `rebase --skip`), so
//! this is read off what it left. Where that leaves a doubt, a record stays: to review too much costs a
//! minute, to be shown too little a defect.

use std::collections::{HashMap, HashSet};

use gix::bstr::ByteSlice;

use crate::git::operation::Operation;
use crate::git::record::Record;
use crate::git::{Git, Place};

/// What is there while git is in the middle of something.
const MARKS: [&str; 6] = ["MERGE_HEAD", "CHERRY_PICK_HEAD", "REVERT_HEAD", "rebase-merge", "rebase-apply", "sequencer"];

/// Whether git is in the middle of something.
pub fn is_in_the_middle(place: &Place) -> bool {
    MARKS.iter().any(|mark| place.git_dir.join(mark).exists())
}

/// The records of the last operation that was not taken back, without those of its steps that were.
pub fn of_last(place: &Place, mut records: Vec<Record>) -> Vec<Record> {
    let now = Now::new(place);
    while let Some(operation) = records.last().map(|record| record.operation.clone()) {
        let (last, others): (Vec<_>, Vec<_>) = records.into_iter().partition(|record| record.operation == operation);
        let last = newest(last);
        if !now.is_taken_back(&operation, &last) {
            let left = now.without_dropped_steps(&operation, last);
            if !left.is_empty() {
                return left;
            }
        }
        records = others;
    }
    Vec::new()
}

/// Of the records of one step and file, the newest.
fn newest(mut records: Vec<Record>) -> Vec<Record> {
    let key = |r: &Record| (r.step.name().to_owned(), r.path.clone(), r.path_hex.clone());
    let newest: HashMap<_, _> = records.iter().enumerate().map(|(i, r)| (key(r), i)).collect();
    let mut at = 0..;
    records.retain(|r| Some(newest[&key(r)]) == at.next());
    records
}

/// The repository as it is.
struct Now {
    git: Git,
    head: Option<String>,
    in_the_middle: bool,
    has_worktree: bool,
}

impl Now {
    fn new(place: &Place) -> Now {
        let git = place.git();
        let head = git.line(&["rev-parse", "--verify", "--quiet", "HEAD"]);
        Now {
            head: head.and_then(|head| head.into_string().ok()),
            // Who only looks must not get in the way of a git that is at work.
            git: git.with_env("GIT_LITERAL_PATHSPECS", "1").with_env("GIT_OPTIONAL_LOCKS", "0"),
            in_the_middle: is_in_the_middle(place),
            has_worktree: place.worktree.is_some(),
        }
    }

    /// Whether the operation was taken back as a whole: `HEAD` is where it began, or further back than
    /// that, no branch has what came of it, and no file of it is otherwise than in `HEAD`.
    fn is_taken_back(&self, operation: &Operation, records: &[Record]) -> bool {
        let (start, grown_on) = match operation {
            Operation::Rebase { from, onto } => (from, onto),
            Operation::Merge { head, .. } => (head, head),
            Operation::Picks { from } | Operation::Mail { from } => (from, from),
        };
        if self.in_the_middle || !self.has_worktree || !records.iter().all(|r| r.step.is_in_worktree()) {
            return false;
        }
        let gone = match &self.head {
            Some(head) if head == start => !self.has_commit_on(grown_on),
            // What a rebase began at is on no branch afterwards, so that tells nothing.
            Some(head) if start == grown_on => self.is_ancestor(head, start) && !self.is_on_a_branch(start),
            _ => false,
        };
        gone && self.is_unchanged(records)
    }

    fn is_ancestor(&self, commit: &str, of: &str) -> bool {
        self.git.output(&["merge-base", "--is-ancestor", commit, of]).is_ok()
    }

    /// Whether a branch or tag has a commit whose first parent is this one, as far as can be told.
    fn has_commit_on(&self, commit: &str) -> bool {
        let not = format!("^{commit}");
        let found = self.git.output(&["rev-list", "--parents", "--branches", "--remotes", "--tags", &*not, "--"]);
        let is_on = |line: &[u8]| line.split_str(" ").nth(1) == Some(commit.as_bytes());
        found.map_or(true, |commits| commits.lines().any(is_on))
    }

    fn is_on_a_branch(&self, commit: &str) -> bool {
        let args = ["for-each-ref", "--count=1", "--contains", commit, "refs/heads", "refs/remotes", "refs/tags"];
        self.git.output(&args).map_or(true, |found| !found.is_empty())
    }

    /// Whether the index and the worktree have these files as `HEAD` has them.
    fn is_unchanged(&self, records: &[Record]) -> bool {
        let mut args: Vec<_> = ["status", "--porcelain", "-z", "--untracked-files=no", "--"].map(Into::into).into();
        for record in records {
            let Ok(path) = gix::path::from_bstring(record.path_bytes()) else { return false };
            args.push(path.into_os_string());
        }
        self.git.output(&args).is_ok_and(|changed| changed.is_empty())
    }

    /// The records without those of steps that were skipped, or taken back before the same was begun anew.
    fn without_dropped_steps(&self, operation: &Operation, mut records: Vec<Record>) -> Vec<Record> {
        let (Operation::Rebase { onto: start, .. }
        | Operation::Picks { from: start }
        | Operation::Mail { from: start }) = operation
        else {
            return records;
        };
        let Some(head) = &self.head else { return records };
        // Elsewhere than on this branch nothing can be told.
        if !self.is_ancestor(start, head) {
            return records;
        }
        let not = format!("^{start}");
        let Ok(commits) = self.git.output(&["rev-list", "--parents", head.as_str(), not.as_str(), "--"]) else {
            return records;
        };
        let mut known = HashSet::from([start.clone()]);
        let mut commits_on: HashMap<String, usize> = HashMap::new();
        for line in commits.lines() {
            let mut words = line.split_str(" ").map(|word| word.to_str_lossy().into_owned());
            known.extend(words.next());
            if let Some(parent) = words.next() {
                *commits_on.entry(parent).or_default() += 1;
            }
        }
        if self.in_the_middle {
            *commits_on.entry(head.clone()).or_default() += 1;
        }

        // Each step makes a commit: of several that began at one, the first made none that is still there.
        let mut steps: HashMap<String, Vec<String>> = HashMap::new();
        for step in records.iter().map(|r| &r.step).filter(|step| !step.joins) {
            let steps = steps.entry(step.head.clone()).or_default();
            if !steps.iter().any(|name| name == step.name()) {
                steps.push(step.name().to_owned());
            }
        }
        let is_picked = |r: &&Record| matches!(r.operation, Operation::Picks { .. }) && !r.step.is_stash();
        let is_joined = |r: &&Record| is_picked(r) && r.step.joins;
        let joined: HashSet<String> = records.iter().filter(is_joined).map(|r| r.step.head.clone()).collect();
        let skipped = |r: &Record| {
            let steps = steps.get(&r.step.head).map_or(&[][..], Vec::as_slice);
            let made = commits_on.get(&r.step.head).copied().unwrap_or_default();
            // Of what was picked without a commit, the next commit tells.
            let made = made.saturating_sub(joined.contains(&r.step.head).into());
            steps.iter().rev().skip(made).any(|name| name == r.step.name())
        };
        let last_known = records.iter().rposition(|r| known.contains(&r.step.head));
        let mut at = 0..;
        records.retain(|r| {
            let later = at.next() > last_known;
            let dropped = if known.contains(&r.step.head) { skipped(r) } else { !later };
            r.step.joins || !dropped
        });
        records
    }
}
