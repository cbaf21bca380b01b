mod elsewhere;

use std::process::ExitCode;

use anyhow::{Context, bail};
use gix::bstr::{BString, ByteSlice};
use serde::Serialize;

use crate::commands::Format;
use crate::commands::forecast::elsewhere::{OneSided, elsewhere, one_sided};
use crate::git::merge_tree::merges;
use crate::git::unmerged::Unmerged;
use crate::git::{Config, Git, Place, attributes, tracked};
use crate::line::LineSettings;
use crate::report::{FilePath, Table, bold, count, json, print};
use crate::{Answer, Combined, Kept, Settings, Versions, Way, line};

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
    #[serde(flatten)]
    path: FilePath,
    /// Why there is nothing to merge in it, if that is so: it stops the merge either way.
    #[serde(skip_serializing_if = "Option::is_none")]
    no_merge: Option<String>,
    /// Conflicts under git's line merge.
    line_conflicts: usize,
    /// Conflicts under pleach.
    conflicts: usize,
    combined: Vec<Combined>,
    notes: Vec<String>,
    blocks: Vec<Block>,
    /// What there is to see in long ones.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    kept: Vec<Kept>,
    /// Of a file that the other side took out: what was changed in it, if that is little.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    changes: Vec<String>,
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
    /// Whether `HEAD` has all of it already.
    #[serde(skip)]
    nothing_new: bool,
    /// Whether git is set up to call pleach at all.
    installed: bool,
}

impl Forecast {
    /// Merges in memory and shows what would come of it.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let place = Place::find().context("not in a git repository")?;
        let git = place.git();
        let ours = commit(&git, "HEAD")?;
        let theirs = &match &self.upstream {
            Some(name) => name.clone(),
            None => upstream(&git)?,
        };
        let other = commit(&git, theirs)?;
        let base = common_commit(&git, &ours, &other, theirs)?;
        // By their names, which git puts behind that of a file that cannot have its own. A line holds two words.
        let named = if theirs.contains(char::is_whitespace) { &other } else { theirs };
        let mut merges = merges(&git, &[("HEAD".to_owned(), named.clone())])?;
        let files = merges.stopped.pop().with_context(|| format!("git did not merge {theirs}"))?;
        let config = Config::read(&place);
        let mut settings = Settings::default();
        // A bad value will be complained about by git.
        let _ = config.apply(&mut settings);
        super::complain(&config);
        let label = |name: &str| Some(name.as_bytes().to_vec());
        settings.line.labels = Versions { base: label("base"), ours: label("HEAD"), theirs: label(theirs) };

        let wanted: Vec<&Unmerged> = files.iter().collect();
        let texts = merges.texts(&wanted)?;
        let installed = git.line(&["config", "merge.pleach.driver"]).is_some();
        let drivers = drivers(&git, &files, installed)?;
        let commits = Versions { base: &*base, ours: &ours, theirs: &other };
        let one_sided = one_sided(&git, &files, commits);
        let expected = files.iter().zip(texts).zip(&drivers).zip(one_sided);
        let expected = expected.map(|(((file, texts), driver), one_sided)| {
            if let Some(OneSided { what, now, changes }) = one_sided {
                let no_merge = Some(format!("{what}{now}"));
                let path = FilePath::new(&file.path);
                return Expected { path, no_merge, line_conflicts: 1, conflicts: 1, changes, ..Expected::default() };
            }
            let mut expected = expect(file, texts, driver, &place, &config, &settings);
            for Kept { what, sought, .. } in &mut expected.kept {
                let now = sought.as_ref().and_then(|sought| elsewhere(&git, sought, commits, &file.path));
                what.extend(now);
            }
            expected
        });
        // What merges the same both ways, without a conflict, was only asked of pleach.
        let files = expected.filter(Expected::is_news).collect();
        let expectation = Expectation { nothing_new: base == other, ours, theirs: other, files, installed };
        print(&match self.format {
            Format::Json => json(&expectation),
            Format::Text => expectation.text(theirs),
        });
        Ok(if expectation.files.iter().any(Expected::stops) { ExitCode::FAILURE } else { ExitCode::SUCCESS })
    }
}

fn commit(git: &Git, name: &str) -> anyhow::Result<String> {
    let parsed = |name: &str| -> anyhow::Result<Option<String>> {
        let found = git.run(&["rev-parse", "--verify", "--quiet", name], &[])?;
        // Quiet is git only of a name that stands for nothing.
        if !found.status.success() && !found.stderr.is_empty() {
            bail!("git cannot tell which commit {name} is: {}", found.stderr.trim().to_str_lossy());
        }
        Ok(found.status.success().then(|| found.stdout.trim().to_str_lossy().into_owned()))
    };
    // In two steps: `:/words` takes all that stands behind it for words.
    let commit = match parsed(name)? {
        Some(object) => parsed(&format!("{object}^{{commit}}"))?,
        None => None,
    };
    commit.with_context(|| match name {
        "HEAD" => "there is no commit here yet that something could be merged into".to_owned(),
        name => format!("there is no commit {name}{}", what_to_fetch(git, name)),
    })
}

/// What brings what such a name stands for, if it begins with that of a remote repository.
fn what_to_fetch(git: &Git, name: &str) -> String {
    let remote = name.split('/').next().unwrap_or(name);
    let is_remote = git.line(&["config", &format!("remote.{remote}.url")]).is_some();
    match name == remote {
        _ if !is_remote => String::new(),
        true => format!("; {remote} is a remote repository: name a branch of it, such as {remote}/main"),
        false => format!("; `git fetch {remote}` brings it if it is there"),
    }
}

/// The name of what the current branch is set to follow.
fn upstream(git: &Git) -> anyhow::Result<String> {
    let name = git.line(&["rev-parse", "--abbrev-ref", "--symbolic-full-name", "@{upstream}"]);
    let name = name.map(|name| name.to_string_lossy().into_owned());
    name.with_context(|| match git.line(&["symbolic-ref", "--quiet", "HEAD"]) {
        Some(_) => "this branch has no upstream; name what would be merged",
        None => "HEAD is on no branch, so there is no upstream; name what would be merged",
    })
}

/// A commit that both have; without one git refuses to merge.
fn common_commit(git: &Git, ours: &str, other: &str, theirs: &str) -> anyhow::Result<String> {
    let found = git.run(&["merge-base", ours, other], &[])?;
    if found.status.code() == Some(1) {
        let more = match git.line(&["rev-parse", "--is-shallow-repository"]) {
            Some(shallow) if shallow == "true" => {
                ". This clone is shallow: `git fetch --unshallow` brings the rest of the history"
            }
            _ => "",
        };
        bail!("{theirs} and HEAD have no commit in common, so git refuses to merge them{more}");
    }
    Ok(found.stdout.trim().to_str_lossy().into_owned())
}

/// Who merges a file.
enum Driver {
    Pleach,
    /// Git's own line merge; pleach is set up, but the attributes do not give it this file.
    Lines,
    /// Nobody: our version stays, and the merge stops.
    Nobody,
    Other(String),
}

/// Who merges each of these files, as git's attributes have it; or would, if pleach were installed.
fn drivers(git: &Git, files: &[Unmerged], installed: bool) -> anyhow::Result<Vec<Driver>> {
    let paths: Vec<u8> = files.iter().flat_map(|file| [&*file.path, b"\0"].concat()).collect();
    let states = match files {
        [] => Vec::new(),
        _ => tracked::merge_attribute(git, &paths)?,
    };
    let default = tracked::default_driver(git);
    let driver = |(path, state): &(BString, BString)| {
        let named = match &*state.to_str_lossy() {
            "set" => return Driver::Lines,
            "unset" => return Driver::Nobody,
            "unspecified" => match &default {
                Some(name) => name.clone(),
                None if !installed && attributes::names(path) => return Driver::Pleach,
                None => return Driver::Lines,
            },
            name => name.to_owned(),
        };
        match &*named {
            "pleach" => Driver::Pleach,
            "binary" => Driver::Nobody,
            // A name that stands for nothing means the line merge.
            name if git.line(&["config", &format!("merge.{name}.driver")]).is_some() => Driver::Other(named),
            _ => Driver::Lines,
        }
    };
    Ok(states.iter().map(driver).collect())
}

/// Why a file stops the merge whatever is in it.
fn no_merge(file: &Unmerged, texts: Versions<&[u8]>, driver: &Driver) -> Option<String> {
    if let Some(what) = file.is_no_file() {
        return Some(what.to_owned());
    }
    let said = match (&file.stages.ours, &file.stages.theirs) {
        (Some(_), Some(_)) => match driver {
            _ if file.adds_two_modes() => "the sides added it with different modes",
            Driver::Nobody => "its attributes say that it is not to be merged",
            Driver::Other(name) => return Some(format!("that is what its own merge driver, {name}, makes of it")),
            _ if [texts.base, texts.ours, texts.theirs].into_iter().any(line::looks_binary) => "it is binary",
            _ => return None,
        },
        _ => return file.lacks(),
    };
    Some(said.to_owned())
}

fn expect(
    file: &Unmerged,
    texts: Versions<Vec<u8>>,
    driver: &Driver,
    place: &Place,
    config: &Config,
    settings: &Settings,
) -> Expected {
    let path = FilePath::new(&file.path);
    let texts = texts.as_ref().map(Vec::as_slice);
    let no_merge = no_merge(file, texts, driver);
    if no_merge.is_some() {
        return Expected { path, no_merge, line_conflicts: 1, conflicts: 1, ..Expected::default() };
    }
    let language = attributes::language(Some((place, config)), &file.path, texts.ours);
    // Git alone does not know `pleach.favor`.
    let lines = line::merge(texts, &LineSettings { favor: None, ..settings.line.clone() });
    let line_conflicts = lines.conflicts;
    let answer = match driver {
        Driver::Lines => {
            let passed_over = language.map(|_| "its attributes do not give it to pleach".to_owned());
            Answer { notes: passed_over.into_iter().collect(), ..Answer::from(lines) }
        }
        _ => super::merge_and_say(texts, &file.path, language, settings),
    };
    Expected {
        path,
        no_merge: None,
        line_conflicts,
        conflicts: answer.conflicts,
        blocks: blocks(&answer, settings.line.marker_size),
        combined: if answer.way == Way::Trees { answer.combined } else { Vec::new() },
        notes: answer.notes,
        kept: answer.kept,
        changes: Vec::new(),
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
        match (&self.no_merge, self.line_conflicts) {
            (Some(_), _) => "stops".to_owned(),
            (None, 0) => "merges".to_owned(),
            (None, n) => count(n, "conflict"),
        }
    }

    fn with_pleach(&self) -> String {
        let mut words = match (&self.no_merge, self.conflicts) {
            (Some(why), _) => format!("stops: {why}"),
            (None, 0) => "merges".to_owned(),
            (None, n) => count(n, "conflict"),
        };
        if !self.combined.is_empty() {
            words.push_str(&format!(", {} combined", count(self.combined.len(), "place")));
        }
        words
    }
}

/// A block longer than this is cut in the text for people.
const LONGEST_SHOWN: usize = 24;

impl Expectation {
    fn text(&self, theirs: &str) -> String {
        if self.nothing_new {
            return format!("HEAD has all of {theirs} already: there is nothing to merge.\n");
        }
        if self.files.is_empty() {
            return format!("{theirs} would merge without a conflict, with or without pleach.\n");
        }
        let mut table = Table::new(["file", "as lines", "with pleach"]);
        for file in &self.files {
            table.row([file.path.shown.clone(), file.as_lines(), file.with_pleach()]);
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
        for file in self.files.iter().filter(|file| !file.notes.is_empty()) {
            text.push_str(&format!("\n{}\n", bold(&file.path.shown)));
            text.extend(file.notes.iter().map(|note| format!("  note: {note}\n")));
        }
        for file in &self.files {
            if let (Some(what), [_, ..]) = (&file.no_merge, &*file.changes) {
                text.push_str(&format!("\n{}\n  {what}\n", bold(&file.path.shown)));
                text.extend(file.changes.iter().map(|change| format!("    {change}\n")));
            }
            for block in &file.blocks {
                text.push_str(&format!(
                    "\n{}\n",
                    bold(&format!("{}, line {} of the merged file", file.path.shown, block.line))
                ));
                for Kept { what, changes, .. } in file.kept.iter().filter(|kept| kept.line == block.line) {
                    text.push_str(&format!("  {what}\n"));
                    text.extend(changes.iter().map(|change| format!("    {change}\n")));
                }
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
