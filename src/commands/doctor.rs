use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::Read;
use std::path::Path;
use std::process::ExitCode;

use anyhow::Context;
use gix::bstr::{BString, ByteSlice};
use serde::Serialize;

use crate::commands::{Format, install};
use crate::git::attributes::{self, Decision, State};
use crate::git::{Config, Git, Place, protocol, shell_word, tracked};
use crate::grammar::{self, Language};
use crate::report::{bold, count, json, print, shown};

/// Say whether git will really call pleach here, and if not, why
///
/// Git calls a merge driver only if an attribute names it, no later line takes that back, and the
/// configured command can be run; in every other case it merges as lines and says nothing.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit status:\n  0  git calls this pleach for every tracked file that it reads\n  1  it does not, for the reasons listed\n  2  an error"
)]
pub struct Doctor {
    /// For people or for programs
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// How bad a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
enum Grade {
    /// As it should be.
    Ok,
    /// Git calls pleach, but something is not as `pleach install` would have it.
    Warning,
    /// Git does not call this pleach, or in vain.
    Fault,
}

/// One thing looked at.
#[derive(Clone, Debug, Serialize)]
struct Finding {
    grade: Grade,
    what: String,
    /// The command, or the line and the file, that mends it.
    #[serde(skip_serializing_if = "Option::is_none")]
    mend: Option<String>,
}

impl Finding {
    fn ok(what: impl Into<String>) -> Finding {
        Finding { grade: Grade::Ok, what: what.into(), mend: None }
    }

    fn warning(what: impl Into<String>, mend: impl Into<String>) -> Finding {
        Finding { grade: Grade::Warning, what: what.into(), mend: Some(mend.into()) }
    }

    fn fault(what: impl Into<String>, mend: impl Into<String>) -> Finding {
        Finding { grade: Grade::Fault, what: what.into(), mend: Some(mend.into()) }
    }
}

impl Doctor {
    /// Looks at everything and says what it found.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let place = Place::find().context("not in a git repository; pleach doctor looks at the one it is run in")?;
        let config = Config::read(&place);
        let git = place.git();
        let mut findings = vec![git_version(&git)?];
        findings.extend(driver(&git));
        findings.extend(settings(&config));
        for language in grammar::all() {
            findings.extend(files(&git, &place, &config, language)?);
        }
        findings.extend(known_by_first_line(&git, &place, &config)?);
        print(&match self.format {
            Format::Json => json(&findings),
            Format::Text => findings.iter().map(line).collect(),
        });
        let well = findings.iter().all(|f| f.grade != Grade::Fault);
        Ok(if well { ExitCode::SUCCESS } else { ExitCode::FAILURE })
    }
}

fn line(finding: &Finding) -> String {
    let grade = match finding.grade {
        Grade::Ok => "ok     ".to_owned(),
        Grade::Warning => bold("warning"),
        Grade::Fault => bold("fault  "),
    };
    let mend = finding.mend.as_ref().map_or(String::new(), |mend| format!("; mend: {mend}"));
    format!("{grade}  {}{mend}\n", finding.what)
}

/// The first git that tells a driver what to write behind the conflict markers.
const LABELS_SINCE: (u32, u32) = (2, 44);

fn git_version(git: &Git) -> anyhow::Result<Finding> {
    let output = git.output(&["--version"])?;
    let text = output.to_str_lossy().trim().to_owned();
    let mut numbers = text.split(|c: char| !c.is_ascii_digit()).filter_map(|n| n.parse::<u32>().ok());
    let version = numbers.next().zip(numbers.next());
    Ok(match version {
        Some(version) if version < LABELS_SINCE => Finding::warning(
            format!("{text}: conflict markers will say ours and theirs instead of branch names"),
            format!("git {}.{} or newer", LABELS_SINCE.0, LABELS_SINCE.1),
        ),
        _ => Finding::ok(text),
    })
}

fn driver(git: &Git) -> Vec<Finding> {
    let setting = |key: &str| git.line(&["config", "--get", &format!("merge.pleach.{key}")]);
    let text = |key: &str| setting(key).map(|v| v.to_string_lossy().into_owned());
    let Some(command) = text("driver") else {
        return vec![Finding::fault("merge.pleach.driver is not set", "pleach install")];
    };
    let mut findings = Vec::new();
    // The last: the program may lie in a directory that is called so.
    match command.rsplit_once(" driver ") {
        None => findings
            .push(Finding::fault(format!("merge.pleach.driver does not call pleach: {command}"), "pleach install")),
        Some((program, arguments)) => {
            findings.push(program_finding(git, program));
            findings.extend(arguments_finding(arguments));
        }
    }
    let recursive = text("recursive");
    if recursive.as_deref() != Some(install::RECURSIVE) {
        findings.push(Finding::warning(
            format!("merge.pleach.recursive is {}", recursive.as_deref().unwrap_or("not set")),
            "pleach install",
        ));
    }
    findings
}

/// What is odd about the settings of our own, which need not be set at all.
fn settings(config: &Config) -> Vec<Finding> {
    let finding = |(key, what): (&str, String)| {
        Finding::warning(what, format!("`git config --show-origin {key}` says where it is set"))
    };
    // Meant for one merge, as git's -X is; set for good, it takes every decision in silence.
    let favor = config.favor().and_then(|_| config.value("pleach.favor").flatten()).map(|side| {
        ("pleach.favor", format!("pleach.favor is {side}: what is in dispute is settled so, and no merge stops at it"))
    });
    config.complaints().into_iter().chain(favor).map(finding).collect()
}

/// What is missing of what git is to tell the driver.
fn arguments_finding(arguments: &str) -> Option<Finding> {
    let passed: Vec<_> = arguments.split_whitespace().collect();
    if passed == protocol::PLACEHOLDERS {
        return None;
    }
    let text = format!("merge.pleach.driver passes {arguments}");
    Some(if passed.starts_with(&protocol::PLACEHOLDERS[..protocol::NEEDED]) {
        Finding::warning(format!("{text}, so conflict markers will not name the sides"), "pleach install")
    } else {
        let needed = protocol::PLACEHOLDERS[..protocol::NEEDED].join(" ");
        Finding::fault(format!("{text} and not {needed}, so pleach cannot merge as syntax"), "pleach install")
    })
}

/// Runs the configured program as git would: by git's shell, on git's path.
fn program_finding(git: &Git, program: &str) -> Finding {
    let program = program.replace("%%", "%");
    let alias = format!("alias.pleach-doctor=!{program} --version");
    let ran = git.run(&["-c", &alias, "pleach-doctor"], &[]);
    let version = ran.ok().filter(|ran| ran.status.success()).map(|ran| ran.stdout.to_str_lossy().trim().to_owned());
    let this = concat!("pleach ", env!("CARGO_PKG_VERSION"));
    match version {
        None => Finding::fault(format!("git cannot run {program}"), "pleach install"),
        Some(version) if version == this => Finding::ok(format!("git runs {program}, which is {version}")),
        Some(version) if version.starts_with("pleach ") => {
            Finding::fault(format!("git runs {program}, which is {version}, and this is {this}"), "pleach install")
        }
        Some(_) => Finding::fault(format!("git runs {program}, which is not pleach"), "pleach install"),
    }
}

/// What git makes of the tracked files of one language: a line for those that it gives to pleach,
/// and one for each reason why it does not give others.
fn files(git: &Git, place: &Place, config: &Config, language: &Language) -> anyhow::Result<Vec<Finding>> {
    let name = language.name();
    let patterns = attributes::patterns_of(language);
    // In a bare repository nothing is checked out.
    let tracked = place.worktree.as_ref().map(|_| tracked::merge_attributes(git, &patterns)).transpose()?;
    let tracked = tracked.unwrap_or_default();
    let none = tracked.is_empty();
    let states = match patterns.first() {
        Some(pattern) if none => tracked::merge_attribute(git, pattern.replace('*', "example").as_bytes())?,
        _ => tracked,
    };

    let by_default = tracked::default_driver(git).is_some_and(|driver| driver == "pleach");
    let is_called = |state: &BString| state == "pleach" || by_default && state == "unspecified";
    let (called, others): (Vec<_>, Vec<_>) = states.iter().partition(|(_, state)| is_called(state));
    let mut findings = Vec::new();
    if let Some((example, _)) = called.first() {
        findings.push(Finding::ok(match none {
            true => format!("{name}: no tracked file; {example} would go to pleach"),
            false => format!("{name}: git gives {} to pleach", count(called.len(), "tracked file")),
        }));
    }
    if !none {
        findings.extend(overruled(place, config, name, called.iter().map(|(path, _)| path)));
    }
    let mut reasons: BTreeMap<Reason, Vec<&BString>> = BTreeMap::new();
    for (path, state) in others {
        let reason = Reason::new(state, attributes::decision(place, config, path, "merge"));
        reasons.entry(reason).or_default().push(path);
    }
    for (reason, paths) in reasons {
        let (example, why) = (shown(paths[0]), &reason.why);
        let what = match paths.len() {
            _ if none => format!("{name}: no tracked file, and {example} would not go to pleach: {why}"),
            1 => format!("{name}: git does not give {example} to pleach: {why}"),
            n => format!("{name}: git does not give {n} tracked files such as {example} to pleach: {why}"),
        };
        let covering = || if none { patterns.clone() } else { attributes::patterns_covering(language, &paths) };
        let mend = match reason.overridden {
            false => "pleach install".to_owned(),
            true => format!("take it out there, unless it is meant, or: {}", appending(place, &covering())),
        };
        findings.push(Finding::fault(what, mend));
    }
    Ok(findings)
}

/// What is to be known of files that git gives to pleach because the repository's own file of attributes outweighs a line
/// that gives them to nobody, or to another driver: upstream may have written it since `pleach install`.
fn overruled<'p>(
    place: &Place,
    config: &Config,
    language: &str,
    paths: impl Iterator<Item = &'p BString>,
) -> Option<Finding> {
    let said = |path: &'p BString| {
        let decision = attributes::overruled_merge(place, config, path)?;
        let ours = matches!(&decision.state, State::Value(driver) if driver == "pleach");
        (!ours && decision.state != State::Unspecified).then_some((path, decision))
    };
    let found: Vec<(&BString, Decision)> = paths.filter_map(said).collect();
    let (path, decision) = found.first()?;
    let (file, example) = (attributes::own_file(place), shown(path));
    let others = match found.len() {
        1 => example,
        n => format!("{n} tracked files such as {example}"),
    };
    let (line, own) = (said_in(decision), file.display());
    let what = format!("{language}: {own} gives {others} to pleach, and overrides {line}");
    let spelled = spelled(decision);
    let each = if found.len() > 1 { ", a line for each" } else { "" };
    let mend = format!("if that is meant to hold, add to {own}{each}: {} {spelled}", attributes::pattern_of(path));
    Some(Finding::warning(what, mend))
}

/// The tracked files without an ending whose first line, or an attribute, says that pleach reads them, and of which no
/// attribute says who merges them: `pleach install` names endings.
fn known_by_first_line(git: &Git, place: &Place, config: &Config) -> anyhow::Result<Option<Finding>> {
    let Some(top) = &place.worktree else { return Ok(None) };
    let listed = git.reading_pathspecs().output(&["ls-files", "-z", "--", ":(top)"])?;
    let mut paths: Vec<&[u8]> = listed.split_str("\0").filter(|path| has_no_ending(path)).collect();
    // An unmerged file is in the index as often as it has versions.
    paths.dedup();
    let read = |path: &&[u8]| {
        let first = gix::path::from_byte_slice(path).ok().and_then(|path| first_line(&top.join(path)));
        first.is_some_and(|first| attributes::language(Some((place, config)), path, &first).is_some())
    };
    let known: Vec<u8> = paths.into_iter().filter(read).flat_map(|path| [path, b"\0"].concat()).collect();
    if known.is_empty() || tracked::default_driver(git).is_some() {
        return Ok(None);
    }
    let mut states = tracked::merge_attribute(git, &known)?;
    states.retain(|(_, state)| state == "unspecified");
    let Some((example, _)) = states.first() else { return Ok(None) };
    let example = shown(example);
    let what = match states.len() {
        1 => format!("{example} has no ending, and no attribute gives it to pleach, which could read it"),
        n => format!(
            "{n} tracked files such as {example} have no ending, and no attribute gives them to pleach, which could read them"
        ),
    };
    let patterns: Vec<String> = states.iter().map(|(path, _)| attributes::pattern_of(path)).collect();
    Ok(Some(Finding::warning(what, appending(place, &patterns))))
}

fn has_no_ending(path: &[u8]) -> bool {
    let name = path.rsplit_str("/").next().unwrap_or(path);
    !name.is_empty() && !name.contains(&b'.') && !attributes::names(path)
}

/// The beginning of a file, as much as its first line takes to say what it is.
fn first_line(path: &Path) -> Option<Vec<u8>> {
    const ENOUGH: u64 = 256;
    fs::symlink_metadata(path).ok().filter(fs::Metadata::is_file)?;
    let mut first = Vec::new();
    File::open(path).ok()?.take(ENOUGH).read_to_end(&mut first).ok()?;
    Some(first)
}

/// The command that adds lines to the repository's own file of attributes, whose last line outweighs
/// all others.
fn appending(place: &Place, patterns: &[String]) -> String {
    let word = |text: String| shell_word(text.as_str().into()).to_string();
    let path_word = |path: &Path| word(path.display().to_string());
    let lines: Vec<_> = patterns.iter().map(|pattern| word(format!("{pattern} merge=pleach"))).collect();
    let dir = place.common_dir.join("info");
    let make = if dir.is_dir() { String::new() } else { format!("mkdir -p {} && ", path_word(&dir)) };
    // Not `echo`: what a backslash means to it, shells disagree about.
    format!("{make}printf '%s\\n' {} >> {}", lines.join(" "), path_word(&dir.join("attributes")))
}

/// Why a file does not go to pleach.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Reason {
    why: String,
    /// Whether a line says otherwise; if not, none says anything.
    overridden: bool,
}

impl Reason {
    fn new(state: &BString, decision: Option<Decision>) -> Reason {
        let Some(decision) = decision.filter(|d| (state == "unspecified") == (d.state == State::Unspecified)) else {
            return Reason { why: "no attribute says so".to_owned(), overridden: false };
        };
        Reason { why: format!("{} overrides it", said_in(&decision)), overridden: true }
    }
}

/// What a line says of the `merge` attribute.
fn spelled(decision: &Decision) -> String {
    match &decision.state {
        State::Set => "merge".to_owned(),
        State::Unset => "-merge".to_owned(),
        State::Unspecified => "!merge".to_owned(),
        State::Value(value) => format!("merge={value}"),
    }
}

/// What a line says, and where it stands.
fn said_in(decision: &Decision) -> String {
    let said = decision.by_macro.clone().unwrap_or_else(|| spelled(decision));
    let file = decision.file.as_ref().map_or("git's built-in attributes".to_owned(), |f| f.display().to_string());
    format!("`{said}` in line {} of {file}", decision.line)
}
