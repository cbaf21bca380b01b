use std::process::ExitCode;

use anyhow::{Context, bail};
use serde::Serialize;

use crate::commands::Format;
use crate::git::merge_tree::merges;
use crate::git::unmerged::Unmerged;
use crate::git::{Config, Git, Place, attributes};
use crate::report::{Table, bold, count, json, print, shown};
use crate::{Answer, Combined, Settings, Versions, Way, line, merge};

/// Say before a merge which files would stop it, as lines and as syntax
///
/// Merges HEAD with another commit in memory and changes nothing. Lists each file that git cannot
/// merge as lines, or that pleach would merge otherwise, and the conflicts that need a person.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit status:\n  0  with pleach the merge would go through\n  1  it would stop: the conflicts are listed\n  2  an error"
)]
pub struct Forecast {
    /// What would be merged; the branch's upstream if nothing is named
    upstream: Option<String>,
    /// For people or for programs
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// One file.
#[derive(Default, Serialize)]
struct Expected {
    path: String,
    /// Why there is nothing to merge in it, if that is so: it stops the merge either way.
    #[serde(skip_serializing_if = "Option::is_none")]
    no_merge: Option<&'static str>,
    /// Conflicts under git's line merge.
    line_conflicts: usize,
    /// Conflicts under pleach.
    conflicts: usize,
    combined: Vec<Combined>,
    notes: Vec<String>,
    blocks: Vec<Block>,
}

/// A conflict that needs a person.
#[derive(Serialize)]
struct Block {
    /// Its first line in the merged file, from 1.
    line: usize,
    text: String,
}

#[derive(Serialize)]
struct Expectation {
    ours: String,
    theirs: String,
    files: Vec<Expected>,
    /// Whether git is set up to call pleach at all.
    installed: bool,
}

impl Forecast {
    /// Merges in memory and shows what would come of it.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let place = Place::find().context("not in a git repository")?;
        let git = Git::in_dir(".");
        let theirs = self.upstream.as_deref().unwrap_or("@{upstream}");
        let ours = commit(&git, "HEAD")?;
        let other = commit(&git, theirs)?;
        let mut merges = merges(&git, &[(ours.clone(), other.clone())])?;
        let Some(files) = merges.stopped.pop() else {
            bail!("git did not merge {theirs}: its versions before 2.39 cannot do so in memory");
        };
        let config = Config::read(&place);
        let mut settings = Settings::default();
        // A bad value will be complained about by git.
        let _ = config.apply(&mut settings);
        let label = |name: &str| Some(name.as_bytes().to_vec());
        settings.line.labels = Versions { base: label("base"), ours: label("HEAD"), theirs: label(theirs) };

        let wanted: Vec<&Unmerged> = files.iter().collect();
        let texts = merges.texts(&wanted)?;
        let expected = files.iter().zip(texts).map(|(file, texts)| expect(file, texts, &place, &config, &settings));
        let expectation = Expectation {
            ours,
            theirs: other,
            // What merges the same both ways, without a conflict, was only asked of pleach.
            files: expected.filter(Expected::is_news).collect(),
            installed: git.line(&["config", "merge.pleach.driver"]).is_some(),
        };
        print(&match self.format {
            Format::Json => json(&expectation),
            Format::Text => expectation.text(theirs),
        });
        Ok(if expectation.files.iter().any(Expected::stops) { ExitCode::FAILURE } else { ExitCode::SUCCESS })
    }
}

fn commit(git: &Git, name: &str) -> anyhow::Result<String> {
    let found = git.line(&["rev-parse", "--verify", "--quiet", &format!("{name}^{{commit}}")]);
    let commit = found.with_context(|| match name {
        "@{upstream}" => "this branch has no upstream; name what would be merged".to_owned(),
        name => format!("there is no commit {name}"),
    })?;
    Ok(commit.to_string_lossy().into_owned())
}

fn expect(file: &Unmerged, texts: Versions<Vec<u8>>, place: &Place, config: &Config, settings: &Settings) -> Expected {
    let path = shown(&file.path);
    let texts = texts.as_ref().map(Vec::as_slice);
    let no_merge = if !file.has_texts() {
        Some("one side deleted it or made it something else than a file")
    } else if [texts.base, texts.ours, texts.theirs].into_iter().any(line::looks_binary) {
        Some("it is binary")
    } else {
        None
    };
    if no_merge.is_some() {
        return Expected { path, no_merge, line_conflicts: 1, conflicts: 1, ..Expected::default() };
    }
    let language = attributes::language(Some((place, config)), &file.path, texts.ours);
    let lines = line::merge(texts, &settings.line);
    let answer = merge(texts, language, settings);
    Expected {
        path,
        no_merge: None,
        line_conflicts: lines.conflicts,
        conflicts: answer.conflicts,
        blocks: blocks(&answer, settings.line.marker_size),
        combined: if answer.way == Way::Trees { answer.combined } else { Vec::new() },
        notes: answer.notes,
    }
}

fn blocks(answer: &Answer, marker_size: usize) -> Vec<Block> {
    let lines = line::lines(&answer.text);
    let text = |block: &line::Block| String::from_utf8_lossy(&lines[block.lines.clone()].concat()).into_owned();
    let found = line::blocks(&lines, marker_size);
    found.iter().map(|block| Block { line: block.lines.start + 1, text: text(block) }).collect()
}

impl Expected {
    fn is_news(&self) -> bool {
        self.line_conflicts > 0 || self.conflicts > 0 || !self.combined.is_empty() || !self.notes.is_empty()
    }

    fn stops(&self) -> bool {
        self.conflicts > 0
    }

    fn as_lines(&self) -> String {
        match (self.no_merge, self.line_conflicts) {
            (Some(_), _) => "stops".to_owned(),
            (None, 0) => "merges".to_owned(),
            (None, n) => count(n, "conflict"),
        }
    }

    fn with_pleach(&self) -> String {
        let mut words = match (self.no_merge, self.conflicts) {
            (Some(why), _) => format!("stops: {why}"),
            (None, 0) => "merges".to_owned(),
            (None, n) => count(n, "conflict"),
        };
        if !self.combined.is_empty() {
            words.push_str(&format!(", {} combined", count(self.combined.len(), "place")));
        }
        for note in &self.notes {
            words.push_str(&format!("; {note}"));
        }
        words
    }
}

/// A block longer than this is cut in the text for people.
const LONGEST_SHOWN: usize = 24;

impl Expectation {
    fn text(&self, theirs: &str) -> String {
        if self.files.is_empty() {
            return format!("{theirs} would merge without a conflict, with or without pleach.\n");
        }
        let mut table = Table::new(["file", "as lines", "with pleach"]);
        for file in &self.files {
            table.row([file.path.clone(), file.as_lines(), file.with_pleach()]);
        }
        let by_lines = self.files.iter().filter(|f| f.line_conflicts > 0).count();
        let stops = self.files.iter().filter(|f| f.stops()).count();
        let mut text = format!("{table}\nMerging {theirs} would stop at {} as lines", count(by_lines, "file"));
        text.push_str(&match stops {
            0 => ", and at none with pleach.\n".to_owned(),
            n => format!(", and at {} with pleach.\n", count(n, "file")),
        });
        if !self.installed {
            text.push_str("Git does not call pleach here yet: run pleach install.\n");
        }
        for file in &self.files {
            for block in &file.blocks {
                text.push_str(&format!(
                    "\n{}\n",
                    bold(&format!("{}, line {} of the merged file", file.path, block.line))
                ));
                let lines: Vec<&str> = block.text.lines().collect();
                for line in lines.iter().take(LONGEST_SHOWN) {
                    text.push_str(&format!("  {line}\n"));
                }
                if lines.len() > LONGEST_SHOWN {
                    text.push_str(&format!("  and {} more\n", count(lines.len() - LONGEST_SHOWN, "line")));
                }
            }
        }
        text
    }
}
