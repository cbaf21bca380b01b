use std::collections::BTreeMap;
use std::process::ExitCode;

use anyhow::Context;
use gix::bstr::{BString, ByteSlice};
use serde::Serialize;

use crate::commands::{Format, install};
use crate::git::attributes::{self, Decision, State};
use crate::git::{Config, Git, Place, protocol};
use crate::grammar::{self, Language};
use crate::report::{bold, count, json, print, shown};

/// Say whether git will really call pleach here, and if not, why
///
/// Git calls a merge driver only if an attribute names it, no later line takes that back, and the
/// configured command can be run; in every other case it merges as lines and says nothing.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit status:\n  0  git calls pleach for every tracked file that it reads\n  1  it does not, for the reasons listed\n  2  an error"
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
    /// Git does not call pleach.
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
        let git = Git::in_dir(place.worktree.as_deref().unwrap_or(&place.git_dir));
        let mut findings = vec![git_version(&git)?];
        findings.extend(driver(&git));
        for language in grammar::all() {
            findings.extend(files(&git, &place, &config, language)?);
        }
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
    match command.split_once(" driver ") {
        None => findings.push(Finding::warning(
            format!("merge.pleach.driver is not what pleach install writes: {command}"),
            "pleach install",
        )),
        Some((program, arguments)) => {
            findings.push(program_finding(git, program));
            if arguments != protocol::PLACEHOLDERS.join(" ") {
                findings.push(Finding::warning(format!("merge.pleach.driver passes {arguments}"), "pleach install"));
            }
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
        Some(version) => {
            Finding::warning(format!("git runs {program}, which is {version}, and this is {this}"), "pleach install")
        }
    }
}

/// What git makes of the tracked files of one language: a line for those that it gives to pleach,
/// and one for each reason why it does not give others.
fn files(git: &Git, place: &Place, config: &Config, language: &Language) -> anyhow::Result<Vec<Finding>> {
    let patterns = attributes::patterns_of(language);
    let mut list = vec!["ls-files".to_owned(), "-z".to_owned(), "--".to_owned()];
    list.extend(patterns.iter().map(|p| format!(":(top,glob)**/{p}")));
    // In a bare repository nothing is checked out.
    let tracked = if place.worktree.is_some() { git.output(&list)? } else { Vec::new() };
    let name = language.name();
    if tracked.is_empty() {
        let example = patterns.first().map_or(String::new(), |p| p.replace('*', "example"));
        return Ok(vec![match merge_attribute(git, example.as_bytes())?.first() {
            Some((_, state)) if state == "pleach" => {
                Finding::ok(format!("{name}: no tracked file; {example} would go to pleach"))
            }
            _ => Finding::fault(
                format!("{name}: no tracked file, and {example} would not go to pleach"),
                "pleach install",
            ),
        }]);
    }
    let states = merge_attribute(git, &tracked)?;
    let mut reasons: BTreeMap<Reason, Vec<&BString>> = BTreeMap::new();
    for (path, state) in states.iter().filter(|(_, state)| state != "pleach") {
        let reason = Reason::new(state, attributes::decision(place, config, path, "merge"));
        reasons.entry(reason).or_default().push(path);
    }
    let called = states.iter().filter(|(_, state)| state == "pleach").count();
    let mut findings = Vec::new();
    if called > 0 {
        findings.push(Finding::ok(format!("{name}: git gives {} to pleach", count(called, "tracked file"))));
    }
    for (reason, paths) in reasons {
        let example = shown(paths[0]);
        let which = if paths.len() == 1 {
            example
        } else {
            format!("{} such as {example}", count(paths.len(), "tracked file"))
        };
        let mend = match reason.overridden {
            false => "pleach install".to_owned(),
            // The last line of this file outweighs all others.
            true => format!(
                "take it out there, unless it is meant, or: echo '{} merge=pleach' >> {}",
                shown(paths[0]),
                place.common_dir.join("info/attributes").display()
            ),
        };
        let what = format!("{name}: git does not give {which} to pleach: {}", reason.why);
        findings.push(Finding::fault(what, mend));
    }
    Ok(findings)
}

/// Asks git for the `merge` attribute of some paths, which end in NUL.
fn merge_attribute(git: &Git, paths: &[u8]) -> anyhow::Result<Vec<(BString, BString)>> {
    let output = git.output_with_input(&["check-attr", "-z", "--stdin", "merge"], paths)?;
    let fields: Vec<_> = output.split_str("\0").collect();
    Ok(fields.chunks_exact(3).map(|f| (f[0].into(), f[2].into())).collect())
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
        let Some(decision) = decision.filter(|_| state != "unspecified") else {
            return Reason { why: "no attribute says so".to_owned(), overridden: false };
        };
        let said = match (&decision.by_macro, &decision.state) {
            (Some(name), _) => name.clone(),
            (None, State::Set) => "merge".to_owned(),
            (None, State::Unset) => "-merge".to_owned(),
            (None, State::Value(value)) => format!("merge={value}"),
        };
        let file = decision.file.map_or("git's built-in attributes".to_owned(), |f| f.display().to_string());
        Reason { why: format!("`{said}` in line {} of {file} overrides it", decision.line), overridden: true }
    }
}
