use std::collections::BTreeMap;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use anyhow::Context;
use serde::Serialize;

use crate::commands::Format;
use crate::git::merge_tree::merges;
use crate::git::unmerged::Unmerged;
use crate::git::{Config, Git, Place, attributes};
use crate::grammar::Language;
use crate::report::{FilePath, Table, count, json, print};
use crate::{Answer, Settings, Versions, line, merge};

/// Do every merge of a history again, as lines and as syntax, and compare with what was committed
///
/// Looks at each merge commit of two parents, and in it at each file of a built-in language that
/// git's line merge left in conflict. A clean answer is "as committed" if it is what the merge commit
/// holds, white space aside: people also edit while they merge, so what differs is not always wrong.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status:\n  0  done\n  2  an error")]
pub struct Replay {
    /// The repository; the one around the current directory if none is named
    #[arg(value_hint = clap::ValueHint::DirPath)]
    repo: Option<PathBuf>,
    /// Which commits, as `git rev-list` takes them
    #[arg(long, value_name = "RANGE", default_value = "--all", allow_hyphen_values = true)]
    range: String,
    /// For people or for programs, with every file
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// So many merges are asked of git at a time: enough to forget the cost of a process, and few enough
/// to hold their files in memory.
const BATCH: usize = 100;

/// One merge commit.
struct Commit {
    id: String,
    parents: (String, String),
}

/// One file that a line merge left in conflict.
#[derive(Serialize)]
struct Replayed {
    commit: String,
    #[serde(flatten)]
    path: FilePath,
    language: &'static str,
    /// Conflicts and disputed lines of the line merge.
    line_conflicts: usize,
    line_disputed: usize,
    /// The same of pleach's answer.
    conflicts: usize,
    disputed: usize,
    /// Whether a clean answer is what was committed.
    as_committed: bool,
    notes: Vec<String>,
    milliseconds: f64,
}

impl Replay {
    /// Replays and shows.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let git = match &self.repo {
            Some(repo) => Git::in_named(repo).at_top(),
            None => Place::find().map_or_else(|| Git::in_dir("."), |place| place.git()),
        };
        let commits = self.commits(&git)?;
        let mut replayed = Vec::new();
        let mut done = 0;
        for batch in commits.chunks(BATCH) {
            replayed.extend(replay(&git, batch)?);
            done += batch.len();
            progress(done, commits.len(), replayed.len());
        }
        print(&match self.format {
            Format::Json => json(&replayed),
            Format::Text => table(commits.len(), &replayed),
        });
        Ok(ExitCode::SUCCESS)
    }

    fn commits(&self, git: &Git) -> anyhow::Result<Vec<Commit>> {
        let listed = git.output(&["rev-list", "--min-parents=2", "--max-parents=2", "--parents", &self.range]);
        let repo = self.repo.as_deref().unwrap_or(Path::new("."));
        let listed = listed.with_context(|| format!("no history to replay in {}", repo.display()))?;
        let commit = |line: &str| {
            let mut words = line.split(' ').map(str::to_owned);
            Some(Commit { id: words.next()?, parents: (words.next()?, words.next()?) })
        };
        Ok(String::from_utf8_lossy(&listed).lines().filter_map(commit).collect())
    }
}

/// A file to merge both ways.
struct Case<'a> {
    commit: &'a Commit,
    file: Unmerged,
    texts: Versions<Vec<u8>>,
    committed: Option<Vec<u8>>,
}

fn replay(git: &Git, batch: &[Commit]) -> anyhow::Result<Vec<Replayed>> {
    let pairs: Vec<_> = batch.iter().map(|commit| commit.parents.clone()).collect();
    let mut merges = merges(git, &pairs)?;
    let stopped = std::mem::take(&mut merges.stopped);
    let files: Vec<(&Commit, Unmerged)> = batch
        .iter()
        .zip(stopped)
        .flat_map(|(commit, files)| files.into_iter().map(move |file| (commit, file)))
        .filter(|(_, file)| file.has_texts())
        .collect();
    let texts = merges.texts(&files.iter().map(|(_, file)| file).collect::<Vec<_>>())?;
    let names = files.iter().map(|(commit, file)| name_in(&commit.id, &file.path));
    let names: Vec<String> = names.collect();
    let committed = git.blobs(&names.iter().map(String::as_str).collect::<Vec<_>>())?;
    let cases = files.into_iter().zip(texts).zip(committed);
    let cases: Vec<Case> =
        cases.map(|(((commit, file), texts), committed)| Case { commit, file, texts, committed }).collect();
    Ok(in_parallel(&cases, merge_both_ways).into_iter().flatten().collect())
}

/// How git is asked for a file of a commit. A path with a newline would be read as two.
fn name_in(commit: &str, path: &[u8]) -> String {
    match std::str::from_utf8(path) {
        Ok(path) if !path.contains('\n') => format!("{commit}:{path}"),
        _ => format!("{commit}:"),
    }
}

/// What each case gives, in the order of the cases, however many threads do it.
fn in_parallel<T: Sync, R: Send>(cases: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let results = Mutex::new(Vec::with_capacity(cases.len()));
    std::thread::scope(|threads| {
        for _ in 0..std::thread::available_parallelism().map_or(1, |n| n.get()) {
            threads.spawn(|| {
                while let Some((i, case)) =
                    Some(next.fetch_add(1, Ordering::Relaxed)).and_then(|i| Some((i, cases.get(i)?)))
                {
                    let result = work(case);
                    results.lock().unwrap_or_else(PoisonError::into_inner).push((i, result));
                }
            });
        }
    });
    let mut results = results.into_inner().unwrap_or_else(PoisonError::into_inner);
    results.sort_by_key(|(i, _)| *i);
    results.into_iter().map(|(_, result)| result).collect()
}

/// None for a file that no grammar reads or that merges as lines.
fn merge_both_ways(case: &Case) -> Option<Replayed> {
    let texts = case.texts.as_ref().map(Vec::as_slice);
    let nowhere: Option<(&Place, &Config)> = None;
    let language: &'static Language = attributes::language(nowhere, &case.file.path, texts.ours)?;
    let settings = Settings::default();
    let lines = line::merge(texts, &settings.line);
    if lines.conflicts == 0 {
        return None;
    }
    let start = Instant::now();
    let answer = merge(texts, Some(language), &settings);
    let time = start.elapsed();
    let size = settings.line.marker_size;
    Some(Replayed {
        commit: case.commit.id.clone(),
        path: FilePath::new(&case.file.path),
        language: language.name(),
        line_conflicts: lines.conflicts,
        line_disputed: disputed(&lines.text, size),
        conflicts: answer.conflicts,
        disputed: disputed(&answer.text, size),
        as_committed: case.committed.as_ref().is_some_and(|text| agrees(&answer, text)),
        notes: answer.notes,
        milliseconds: milliseconds(time),
    })
}

fn disputed(text: &[u8], marker_size: usize) -> usize {
    let lines = line::lines(text);
    line::blocks(&lines, marker_size).iter().map(|block| block.disputed(&lines, marker_size)).sum()
}

fn agrees(answer: &Answer, committed: &[u8]) -> bool {
    let ink = |text: &[u8]| text.iter().copied().filter(|c| !c.is_ascii_whitespace()).collect::<Vec<u8>>();
    answer.conflicts == 0 && ink(&answer.text) == ink(committed)
}

fn milliseconds(time: Duration) -> f64 {
    (time.as_secs_f64() * 1e6).round() / 1e3
}

fn table(commits: usize, replayed: &[Replayed]) -> String {
    if replayed.is_empty() {
        return format!("{}: lines alone left no file that pleach reads in conflict.\n", count(commits, "merge"));
    }
    let mut by_language: BTreeMap<&str, Vec<&Replayed>> = BTreeMap::new();
    for r in replayed {
        by_language.entry(r.language).or_default().push(r);
    }
    let mut table = Table::new([
        "language",
        "files in conflict",
        "clean with pleach",
        "as committed",
        "conflicts",
        "disputed lines",
        "ms, median",
    ]);
    for (language, files) in &by_language {
        let sum = |number: fn(&Replayed) -> usize| files.iter().map(|r| number(r)).sum::<usize>();
        let clean = files.iter().filter(|r| r.conflicts == 0).count();
        let mut times: Vec<f64> = files.iter().map(|r| r.milliseconds).collect();
        times.sort_by(f64::total_cmp);
        table.row([
            (*language).to_owned(),
            files.len().to_string(),
            share(clean, files.len()),
            share(files.iter().filter(|r| r.as_committed).count(), clean),
            format!("{} -> {}", sum(|r| r.line_conflicts), sum(|r| r.conflicts)),
            format!("{} -> {}", sum(|r| r.line_disputed), sum(|r| r.disputed)),
            format!("{:.1}", times[times.len() / 2]),
        ]);
    }
    format!("{}\n\n{table}", count(commits, "merge"))
}

fn share(part: usize, whole: usize) -> String {
    match whole {
        0 => "0".to_owned(),
        _ => format!("{part} ({:.0} %)", 100.0 * part as f64 / whole as f64),
    }
}

fn progress(done: usize, of: usize, files: usize) {
    let mut stderr = std::io::stderr();
    if stderr.is_terminal() {
        let end = if done == of { "\n" } else { "\r" };
        let _ = write!(stderr, "{done} of {of} merges, {}{end}", count(files, "file"));
    }
}
