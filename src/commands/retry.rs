use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::{Context, bail};
use gix::bstr::ByteSlice;
use serde::Serialize;

use crate::commands::Format;
use crate::git::attributes::{self, State};
use crate::git::record::Record;
use crate::git::unmerged::{Unmerged, unmerged};
use crate::git::{Config, Git, Place, Scratch, merge_tree, plain, replace};
use crate::line::{self, Algorithm, LineSettings, Style};
use crate::report::{FilePath, count, json, print};
use crate::{Answer, Settings, Versions, merge};

/// Merge the files of a stopped merge again, as syntax
///
/// For a merge that stopped before pleach was installed. Takes the three versions of each unmerged
/// file from the index and merges them again. Only files that are still to the byte as git left them
/// are written; one that you have begun to edit is left alone. Nothing is staged unless asked for.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit status:\n  0  no conflict is left in these files\n  1  conflicts are left, or a file was left alone\n  2  an error"
)]
pub struct Retry {
    /// Files or directories; all of the worktree if none are named
    #[arg(value_name = "PATH", value_hint = clap::ValueHint::AnyPath)]
    paths: Vec<OsString>,
    /// Stage the files in which no conflict is left
    #[arg(long)]
    stage: bool,
    /// For people or for programs
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// What became of one file.
#[derive(Debug, Serialize)]
#[serde(tag = "outcome", rename_all = "kebab-case")]
enum Outcome {
    /// No conflict is left.
    Merged {
        combined: usize,
        #[serde(skip_serializing_if = "Vec::is_empty")]
        notes: Vec<String>,
    },
    /// Conflicts are left, but the file was written.
    Conflicts {
        before: usize,
        after: usize,
        combined: usize,
        #[serde(skip_serializing_if = "Vec::is_empty")]
        notes: Vec<String>,
    },
    /// The file is as git left it, since syntax does not help.
    Unchanged { conflicts: usize, notes: Vec<String> },
    /// The file is not as git left it.
    Edited {
        /// Whether there are conflict markers in it.
        #[serde(skip)]
        marked: bool,
    },
    /// The file is as pleach would have left it.
    AlreadySo { conflicts: usize },
    /// There is no text to merge.
    NoMerge { why: String },
    /// It could not be read, converted or written.
    Failed { why: String },
}

impl Outcome {
    fn is_clean(&self) -> bool {
        matches!(self, Outcome::Merged { .. } | Outcome::AlreadySo { conflicts: 0 })
    }

    fn words(&self) -> String {
        let places = |n: &usize| match n {
            0 => String::new(),
            n => format!(", {} combined as syntax", count(*n, "place")),
        };
        let said = |notes: &[String]| notes.iter().map(|note| format!("; {note}")).collect::<String>();
        match self {
            Outcome::Merged { combined, notes } => format!("merged{}{}", places(combined), said(notes)),
            Outcome::Conflicts { before, after, combined, notes } => {
                format!("{} left of {before}{}{}", count(*after, "conflict"), places(combined), said(notes))
            }
            Outcome::Unchanged { conflicts, notes } => {
                format!("{} as before{}", count(*conflicts, "conflict"), said(notes))
            }
            Outcome::Edited { marked: true } => "left alone: it is not as git left it".to_owned(),
            // Settled by a person or by `git rerere`, or never merged: `-merge` has git keep ours.
            Outcome::Edited { marked: false } => "left alone: no conflict markers are in it".to_owned(),
            Outcome::AlreadySo { conflicts: 0 } => "merged already".to_owned(),
            Outcome::AlreadySo { conflicts } => format!("{}, already merged as syntax", count(*conflicts, "conflict")),
            Outcome::NoMerge { why } => format!("left alone: {why}"),
            Outcome::Failed { why } => format!("left alone: {why}"),
        }
    }
}

#[derive(Serialize)]
struct Retried {
    #[serde(flatten)]
    path: FilePath,
    #[serde(flatten)]
    outcome: Outcome,
    staged: bool,
}

impl Retry {
    /// Merges again and says what became of each file.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let place = Place::find().context("not in a git repository; pleach retry works on the one it is run in")?;
        let here = Git::in_dir(".");
        let files = unmerged(&here, &self.paths)?;
        if files.is_empty() && !self.paths.is_empty() {
            bail!("none of these is an unmerged file; `git status` lists them");
        }
        let top = place.worktree.clone().context("a bare repository has no files to merge again")?;
        let (config, git) = (Config::read(&place), place.git());
        super::complain(&config);
        let mut repository = Repository { place, config, git, top, scratch: None, unrecorded: None };

        let mut retried = Vec::new();
        for file in &files {
            let outcome = repository.retry(file).unwrap_or_else(|e| Outcome::Failed { why: format!("{e:#}") });
            retried.push(Retried { path: FilePath::new(&file.path), outcome, staged: false });
        }
        let staging = if self.stage { repository.stage(&files, &mut retried) } else { Ok(()) };
        // What was written has to be told, whatever came of staging it.
        print(&match self.format {
            Format::Json => json(&retried),
            Format::Text => told(&retried, repository.unrecorded.as_deref()),
        });
        staging?;
        Ok(if retried.iter().all(|r| r.outcome.is_clean()) { ExitCode::SUCCESS } else { ExitCode::FAILURE })
    }
}

fn told(retried: &[Retried], unrecorded: Option<&str>) -> String {
    if retried.is_empty() {
        return "no unmerged files\n".to_owned();
    }
    let mut text = String::new();
    for r in retried {
        let staged = if r.staged { ", staged" } else { "" };
        text.push_str(&format!("{}: {}{staged}\n", r.path.shown, r.outcome.words()));
    }
    if retried.iter().any(|r| matches!(r.outcome, Outcome::Merged { .. } | Outcome::Conflicts { .. })) {
        text.push_str(&match unrecorded {
            None => "Review what was combined (pleach log) and run the tests.\n".to_owned(),
            Some(why) => format!(
                "Review what was combined and run the tests. pleach log does not show it: the record could not be \
                 written: {why}\n"
            ),
        });
    }
    text
}

struct Repository {
    place: Place,
    config: Config,
    git: Git,
    top: PathBuf,
    /// Made when the first file needs it.
    scratch: Option<Scratch>,
    /// Why something could not be recorded.
    unrecorded: Option<String>,
}

impl Repository {
    fn retry(&mut self, file: &Unmerged) -> anyhow::Result<Outcome> {
        if let Some(why) = file.lacks() {
            return Ok(Outcome::NoMerge { why });
        }
        if !file.has_texts() {
            return Ok(Outcome::NoMerge { why: file.is_no_file().unwrap_or("it is no file").to_owned() });
        }
        if file.adds_two_modes() {
            return Ok(Outcome::NoMerge { why: "the sides added it with different modes".to_owned() });
        }
        let path = self.top.join(gix::path::from_byte_slice(&file.path)?);
        if !fs::symlink_metadata(&path).is_ok_and(|m| m.is_file()) {
            return Ok(Outcome::NoMerge { why: "there is no such file in the worktree".to_owned() });
        }
        let texts = merge_tree::texts(&self.git, &[file])?.remove(0);
        let texts = texts.as_ref().map(Vec::as_slice);
        if [texts.base, texts.ours, texts.theirs].into_iter().any(line::looks_binary) {
            return Ok(Outcome::NoMerge { why: "it is binary".to_owned() });
        }

        let raw = read(&path)?;
        let found = InWorktree { path: &path, raw: &raw, stored: &raw };
        if let Some(outcome) = self.retry_as(file, texts, found)? {
            return Ok(outcome);
        }
        // Perhaps git converted its line endings or encoding when it wrote it.
        let stored = self.scratch()?.cleaned(&path_from_top(file)?, &raw)?;
        let converted = stored != raw;
        let found = InWorktree { stored: &stored, ..found };
        let again = if converted { self.retry_as(file, texts, found)? } else { None };
        let size = self.settings(&file.path).line.marker_size;
        let marked =
            || line::lines(&stored).iter().any(|l| line::is_mark(l, b'<', size) || line::is_mark(l, b'>', size));
        Ok(again.unwrap_or_else(|| Outcome::Edited { marked: marked() }))
    }

    /// Merges again if what is in the worktree is what a line merge leaves.
    fn retry_as(
        &mut self,
        file: &Unmerged,
        texts: Versions<&[u8]>,
        found: InWorktree,
    ) -> anyhow::Result<Option<Outcome>> {
        let InWorktree { path, raw, stored: found } = found;
        let mut settings = self.settings(&file.path);
        let mut with_base = false;
        if let Some((labels, base_too)) = labels(found, settings.line.marker_size) {
            settings.line.labels = labels;
            with_base = base_too;
        }
        let language = attributes::language(Some((&self.place, &self.config)), &file.path, texts.ours);
        let mut ways = line_settings(&settings.line, with_base);
        let Some(left) = ways.find(|line| line::merge(texts, line).text == found) else {
            // Pleach may have been at work already, under any of these settings.
            let favors = [None, settings.line.favor];
            let answers = favors.into_iter().flat_map(|favor| {
                line_settings(&settings.line, with_base).map(move |line| LineSettings { favor, ..line })
            });
            let mut answers = answers.map(|line| merge(texts, language, &Settings { line, ..settings.clone() }));
            let same = answers.find(|answer| answer.text == found);
            return Ok(same.map(|answer| Outcome::AlreadySo { conflicts: answer.conflicts }));
        };
        let before = line::merge(texts, &left).conflicts;
        // What git left tells the style. Lines are compared as the driver compares them.
        settings.line.style = left.style;
        let answer = super::merge_and_say(texts, &file.path, language, &settings);
        if answer.text == found {
            return Ok(Some(Outcome::Unchanged { conflicts: answer.conflicts, notes: answer.notes }));
        }
        let text = match found == raw {
            true => answer.text.clone(),
            false => self.scratch()?.smudged(&path_from_top(file)?, &answer.text)?,
        };
        // A merge may take seconds, and a person may have saved it meanwhile.
        if read(path)? != raw {
            return Ok(Some(Outcome::Edited { marked: true }));
        }
        replace(path, &text)?;
        let record = Record::new(&self.place, &file.path, &settings.line.labels, &answer);
        if let Err(e) = record.append(&self.place) {
            self.unrecorded.get_or_insert(plain(&e));
        }
        Ok(Some(outcome(before, &answer)))
    }

    /// Stages the files in which no conflict is left.
    fn stage(&self, files: &[Unmerged], retried: &mut [Retried]) -> anyhow::Result<()> {
        let mut args: Vec<OsString> = ["add", "--sparse", "--"].map(Into::into).into();
        let mut clean: Vec<_> = files.iter().zip(retried).filter(|(_, retried)| retried.outcome.is_clean()).collect();
        for (file, _) in &clean {
            args.push(path_from_top(file)?.into_os_string());
        }
        if !clean.is_empty() {
            self.git.clone().with_env("GIT_LITERAL_PATHSPECS", "1").output(&args)?;
        }
        clean.iter_mut().for_each(|(_, retried)| retried.staged = true);
        Ok(())
    }

    fn settings(&self, path: &[u8]) -> Settings {
        let mut settings = Settings::default();
        // A bad value has been complained about by git when it merged.
        let _ = self.config.apply(&mut settings);
        let size = attributes::decision(&self.place, &self.config, path, "conflict-marker-size");
        if let Some(State::Value(size)) = size.map(|d| d.state)
            && let Some(size) = size.to_str().ok().and_then(|s| s.parse().ok()).filter(|size| *size > 0)
        {
            settings.line.marker_size = size;
        }
        settings
    }

    fn scratch(&mut self) -> anyhow::Result<&Scratch> {
        if self.scratch.is_none() {
            self.scratch = Some(Scratch::new(&self.git)?);
        }
        Ok(self.scratch.as_ref().expect("it has just been made"))
    }
}

/// An unmerged file as it is in the worktree.
#[derive(Clone, Copy)]
struct InWorktree<'a> {
    path: &'a Path,
    /// Its bytes.
    raw: &'a [u8],
    /// What git may have converted to make them: the same, if it converted nothing.
    stored: &'a [u8],
}

fn read(path: &Path) -> anyhow::Result<Vec<u8>> {
    fs::read(path).map_err(|e| anyhow::anyhow!("could not read it: {}", plain(&e)))
}

fn outcome(before: usize, answer: &Answer) -> Outcome {
    let (combined, notes) = (answer.combined.len(), answer.notes.clone());
    match answer.conflicts {
        0 => Outcome::Merged { combined, notes },
        after => Outcome::Conflicts { before, after, combined, notes },
    }
}

/// The line merges that git may have made: which command made it, and under which options, is not
/// kept anywhere, and the markers show only whether the ancestor was to be written.
fn line_settings(like: &LineSettings, with_base: bool) -> impl Iterator<Item = LineSettings> + use<> {
    let styles: &[Style] = if with_base { &[Style::Diff3, Style::ZDiff3] } else { &[Style::Merge] };
    let like = like.clone();
    let others = [Algorithm::Histogram, Algorithm::Myers, Algorithm::Patience, Algorithm::Minimal];
    let likely = like.algorithm;
    let algorithms = std::iter::once(likely).chain(others.into_iter().filter(move |a| *a != likely));
    let pairs = algorithms.flat_map(move |a| styles.iter().map(move |s| (a, *s)));
    // Git does not know `pleach.favor`.
    pairs.map(move |(algorithm, style)| LineSettings { algorithm, style, favor: None, ..like.clone() })
}

/// The labels that stand behind the conflict markers, and whether the ancestor's is among them;
/// nothing if there are no markers.
fn labels(text: &[u8], size: usize) -> Option<(Versions<Option<Vec<u8>>>, bool)> {
    let mut found: Versions<Option<Option<Vec<u8>>>> = Versions::default();
    for line in text.lines() {
        for (sign, label) in [(b'<', &mut found.ours), (b'|', &mut found.base), (b'>', &mut found.theirs)] {
            let run = line.iter().take_while(|c| **c == sign).count();
            if run == size && label.is_none() {
                match &line[run..] {
                    [] => *label = Some(None),
                    [b' ', words @ ..] => *label = Some(Some(words.to_vec())),
                    _ => {}
                }
            }
        }
    }
    let with_base = found.base.is_some();
    Some((Versions { base: found.base.flatten(), ours: found.ours?, theirs: found.theirs? }, with_base))
}

fn path_from_top(file: &Unmerged) -> anyhow::Result<PathBuf> {
    Ok(gix::path::from_byte_slice(&file.path)?.to_owned())
}
