use std::process::ExitCode;

use anyhow::Context;
use gix::bstr::ByteSlice;
use serde::Serialize;

use crate::Kept;
use crate::git::operation::{Applied, Operation};
use crate::git::record::{self, Record, Step};
use crate::git::{Git, Place, plain, present, today};
use crate::report::{bold, count, json, print, shown};

/// Show what pleach combined in the last merge, place by place
///
/// The last merge is the last thing git did that called pleach and that was not taken back: a merge, all
/// of a rebase, a series of picks, a stash pop. Lines are counted in the files as they are in the worktree
/// now; in what pleach left, if the file there does not come of that.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status:\n  0  shown, or nothing to show\n  2  an error")]
pub struct Log {
    /// For people, for programs, or for the text of a pull request
    #[arg(long, value_enum, default_value_t)]
    format: LogFormat,
}

/// How to show it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
pub enum LogFormat {
    /// For people
    #[default]
    Text,
    /// For programs
    Json,
    /// For the text of a pull request
    Markdown,
}

impl Log {
    /// Shows the last operation's records.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let place = Place::find().context("not in a git repository, and pleach keeps its record in one")?;
        let records = record::all(&place).map_err(|e| {
            anyhow::anyhow!("could not read the record, {}: {}", record::file(&place).display(), plain(&e))
        })?;
        let none = match records.is_empty() {
            true => "git has not called pleach here yet\n",
            false => "nothing that pleach merged here is left: it was taken back\n",
        };
        let mut last = present::of_last(&place, records);
        today::renumber(&place, &mut last);
        let log = Merge::new(last);
        print(&match (self.format, &log) {
            (LogFormat::Json, log) => json(log),
            (_, None) => none.to_owned(),
            (LogFormat::Text, Some(log)) => log.text(),
            (LogFormat::Markdown, Some(log)) => log.markdown(),
        });
        Ok(ExitCode::SUCCESS)
    }
}

/// One operation and its files.
#[derive(Serialize)]
struct Merge {
    operation: Operation,
    /// What is known of the name of what was pulled.
    #[serde(skip)]
    pulled: Option<String>,
    /// Whether `HEAD` is still where the operation was, or where it led.
    current: bool,
    #[serde(serialize_with = "without_operation")]
    files: Vec<Record>,
}

/// All files belong to the one operation, which need not be said again in each.
fn without_operation<S: serde::Serializer>(files: &[Record], serializer: S) -> Result<S::Ok, S::Error> {
    let file = |record| {
        let mut value = serde_json::to_value(record).map_err(serde::ser::Error::custom)?;
        value.as_object_mut().map(|fields| fields.remove("operation"));
        Ok(value)
    };
    files.iter().map(file).collect::<Result<Vec<_>, _>>()?.serialize(serializer)
}

/// Said wherever there is something to review.
const CAUTION: &str = "A merge without conflicts is not a proof of meaning:";

impl Merge {
    fn new(mut files: Vec<Record>) -> Option<Merge> {
        let last = files.last()?;
        let git = Git::in_dir(".");
        let current = is_current(&git, last);
        let operation = last.operation.clone();
        // Git merges the files of a commit in an order that nobody would look for them in.
        for files in files.chunk_by_mut(|a, b| a.step == b.step) {
            files.sort_by_cached_key(Record::path_bytes);
        }
        Some(Merge { pulled: known_as(&git, &operation), operation, current, files })
    }

    /// The files of which there is something to say, and how many git would have merged alike.
    fn parted(&self) -> (Vec<&Record>, usize) {
        let (review, plain): (Vec<_>, Vec<_>) =
            self.files.iter().partition(|r| r.by_trees() || r.conflicts > 0 || !r.notes.is_empty());
        (review, plain.len())
    }

    /// The records, and with the first of each step what that is called; of a merge there is only one.
    fn by_step<'r>(&self, records: Vec<&'r Record>) -> Vec<(Option<String>, &'r Record)> {
        let is_first = |i: usize| i.checked_sub(1).is_none_or(|before| records[before].step != records[i].step);
        let title = |i: usize, record: &Record| match self.operation {
            Operation::Merge { .. } => None,
            _ => is_first(i).then(|| step_title(&record.step)),
        };
        records.iter().enumerate().map(|(i, record)| (title(i, record), *record)).collect()
    }

    /// The places that were combined.
    fn places(&self) -> usize {
        self.files.iter().map(|record| record.combined.len()).sum()
    }

    fn text(&self) -> String {
        let (review, plain) = self.parted();
        let mut text = format!("{}\n", bold(&title(&self.operation, self.pulled.as_deref(), |name| name.to_owned())));
        if !self.current {
            text.push_str("HEAD has moved on since.\n");
        }
        for (step, record) in self.by_step(review) {
            text.extend(step.map(|step| format!("\n{}\n", bold(&step))));
            text.push_str(&format!("\n{}: {}\n", bold(&path(record)), outcome(record)));
            for place in &record.combined {
                text.push_str(&format!("  {:>5}  {}\n         {}\n", place.line, place.what, place.why));
            }
            for Kept { line, what, changes, .. } in &record.kept {
                text.push_str(&format!("  {line:>5}  conflict: {what}\n"));
                text.extend(changes.iter().map(|change| format!("         {change}\n")));
            }
            for note in &record.notes {
                text.push_str(&format!("  note: {note}\n"));
            }
        }
        if plain > 0 {
            text.push_str(&format!("\n{} merged as lines, as git would have.\n", count(plain, "file")));
        }
        if self.places() > 0 {
            text.push_str(&format!("\n{CAUTION} review the places above and run the tests.\n"));
        }
        text
    }

    fn markdown(&self) -> String {
        let (review, plain) = self.parted();
        let mut text = format!("### {}\n\n", title(&self.operation, self.pulled.as_deref(), code));
        let left = match self.files.iter().map(|record| record.conflicts).sum() {
            0 => String::new(),
            n => format!(", and left {} to a person", count(n, "conflict")),
        };
        text.push_str(&match self.places() {
            0 => format!("pleach combined nothing as syntax{left}.\n"),
            n => format!(
                "pleach combined {} as syntax{left}. {CAUTION} please review them, and run the tests.\n",
                count(n, "place")
            ),
        });
        for (step, record) in self.by_step(review) {
            text.extend(step.map(|step| format!("\n#### {}\n", code(&step))));
            text.push_str(&format!("\n{}: {}\n", code(&path(record)), outcome(record)));
            if !(record.combined.is_empty() && record.kept.is_empty() && record.notes.is_empty()) {
                text.push('\n');
            }
            for place in &record.combined {
                text.push_str(&format!("- [ ] line {}: {}; {}\n", place.line, recoded(&place.what), place.why));
            }
            for Kept { line, what, changes, .. } in &record.kept {
                text.push_str(&format!("- line {line}, a conflict: {what}\n"));
                text.extend(changes.iter().map(|change| format!("  - {}\n", code(change))));
            }
            for note in &record.notes {
                text.push_str(&format!("- note: {note}\n"));
            }
        }
        if plain > 0 {
            text.push_str(&format!("\n{} merged as lines, as git would have.\n", count(plain, "other file")));
        }
        text
    }
}

/// Whether `HEAD` is still where the operation of a last record was, or where it led, as far as can be told.
fn is_current(git: &Git, last: &Record) -> bool {
    let is_below_head = |commit: &str| git.output(&["merge-base", "--is-ancestor", commit, "HEAD"]).is_ok();
    let count = |range: String| git.line(&["rev-list", "--count", &*range])?.to_str()?.parse::<usize>().ok();
    match &last.operation {
        Operation::Merge { .. } => {
            let commits = git.output(&["rev-list", "--max-count=2", "--first-parent", "HEAD"]).unwrap_or_default();
            commits.lines().any(|commit| commit == last.step.head.as_bytes())
        }
        // It makes a commit of each, and of not all of them pleach is asked.
        Operation::Rebase { from, onto } => {
            is_below_head(onto) && count(format!("{onto}..HEAD")) <= count(format!("{onto}..{from}"))
        }
        Operation::Picks { .. } | Operation::Mail { .. } => is_below_head(&last.step.head),
    }
}

/// What `git pull` merges has no name, so git's label for it is the commit.
fn is_commit(label: &str) -> bool {
    label.len() >= 40 && label.bytes().all(|c| c.is_ascii_hexdigit())
}

/// What a commit that was pulled is known as here: by a tag, or by the only branch of another repository that is there.
fn known_as(git: &Git, operation: &Operation) -> Option<String> {
    let Operation::Merge { theirs, .. } = operation else { return None };
    let names = |below: &str| {
        let at = format!("--points-at={theirs}");
        // `upstream/HEAD` is another name of a branch.
        let found = git.output(&["for-each-ref", "--format=%(symref)%(refname:lstrip=2)", &at, below]).ok()?;
        let names: Vec<String> = found.lines().map(|name| name.to_str_lossy().into_owned()).collect();
        Some(names.into_iter().filter(|name| !name.starts_with("refs/")).collect::<Vec<_>>())
    };
    let name = || {
        let tag = names("refs/tags")?.into_iter().next();
        tag.or_else(|| <[String; 1]>::try_from(names("refs/remotes")?).ok().map(|[name]| name))
    };
    is_commit(theirs).then(name).flatten()
}

fn step_title(step: &Step) -> String {
    let on_top = || format!("on top of {}", step.head.get(..10).unwrap_or(&step.head));
    step.label().map_or_else(on_top, str::to_owned)
}

fn title(operation: &Operation, pulled: Option<&str>, name: impl Fn(&str) -> String) -> String {
    let short = |commit: &str| name(commit.get(..10).unwrap_or(commit));
    match operation {
        Operation::Merge { head, theirs, .. } if is_commit(theirs) => match pulled {
            Some(pulled) => format!("Merge of {} ({}) into {}", name(pulled), short(theirs), short(head)),
            None => format!("Merge of {} into {}", short(theirs), short(head)),
        },
        Operation::Merge { head, theirs, .. } => match operation.applied() {
            Some(Applied::Stash) => format!("Stashed changes applied on top of {}", short(head)),
            Some(Applied::Picked(commit)) => format!("{} picked on top of {}", name(commit), short(head)),
            Some(Applied::Reverted(commit)) => format!("{} reverted on top of {}", name(commit), short(head)),
            None => format!("Merge of {} into {}", name(theirs), short(head)),
        },
        Operation::Rebase { from, onto } => format!("Rebase of {} onto {}", short(from), short(onto)),
        Operation::Picks { from } => format!("Commits picked or reverted on top of {}", short(from)),
        Operation::Mail { from } => format!("Patches applied on top of {}", short(from)),
    }
}

fn outcome(record: &Record) -> String {
    let mut words = vec![match (record.combined.len(), record.by_trees()) {
        (0, false) => "merged as lines".to_owned(),
        (0, true) => "merged as syntax".to_owned(),
        (n, _) => format!("{} combined", count(n, "place")),
    }];
    if record.conflicts > 0 {
        words.push(format!("{} left to a person", count(record.conflicts, "conflict")));
    }
    words.join(", ")
}

fn path(record: &Record) -> String {
    shown(&record.path_bytes())
}

/// What was combined, with its code in marks that are long enough.
fn recoded(what: &str) -> String {
    match (what.find('`'), what.rfind('`')) {
        (Some(start), Some(end)) if start < end => {
            format!("{}{}{}", &what[..start], code(&what[start + 1..end]), &what[end + 1..])
        }
        _ => what.to_owned(),
    }
}

/// In Markdown's code marks, long enough for what they hold.
fn code(text: &str) -> String {
    let longest = text.split(|c| c != '`').map(str::len).max().unwrap_or_default();
    let fence = "`".repeat(longest + 1);
    let pad = if longest > 0 { " " } else { "" };
    format!("{fence}{pad}{text}{pad}{fence}")
}
