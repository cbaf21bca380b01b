use std::ffi::OsString;
use std::fs;
use std::io::{self, Read, Write};
use std::path::{Component, Path, PathBuf};
use std::process::ExitCode;

use super::parse_options::{self, Given, Opt, Stop, Takes, Usage, Value};
use crate::git::{Config, Place, attributes, plain, replace};
use crate::line::{self, Algorithm, Favor, Level, Style};
use crate::report::{print, tell};
use crate::{Kept, Settings, Version, Versions, merge};

/// In the order of git's own usage, which is also the order of its error messages.
const OPTIONS: [Opt; 10] = [
    flag(Some('p'), "stdout", "send results to standard output"),
    flag(None, "diff3", "use a diff3 based merge"),
    flag(None, "zdiff3", "use a zealous diff3 based merge"),
    flag(None, "ours", "for conflicts, use our version"),
    flag(None, "theirs", "for conflicts, use their version"),
    flag(None, "union", "for conflicts, use a union version"),
    Opt {
        short: None,
        long: Some("diff-algorithm"),
        takes: Takes::Text("algorithm"),
        can_be_undone: false,
        help: "choose a diff algorithm",
    },
    Opt {
        short: None,
        long: Some("marker-size"),
        takes: Takes::Number,
        can_be_undone: true,
        help: "for conflicts, use this marker size",
    },
    flag(Some('q'), "quiet", "do not warn about conflicts"),
    Opt {
        short: Some('L'),
        long: None,
        takes: Takes::Text("name"),
        can_be_undone: false,
        help: "set labels for file1/orig-file/file2",
    },
];

const fn flag(short: Option<char>, long: &'static str, help: &'static str) -> Opt {
    Opt { short, long: Some(long), takes: Takes::Nothing, can_be_undone: true, help }
}

const SYNOPSIS: &str =
    "pleach merge-file [<options>] [-L <name1> [-L <orig> [-L <name2>]]] <file1> <orig-file> <file2>";

/// Exit statuses of git's: bad usage, and `return -1` and `die` as the shell sees them.
const BAD_USAGE: u8 = 129;
const ERROR: u8 = 255;
const FATAL: u8 = 128;
/// So many conflicts and more are the highest status: those above belong to the shell.
const MOST_CONFLICTS: usize = 127;

#[derive(Default)]
struct Choices {
    stdout: bool,
    quiet: bool,
    style: Style,
    favor: Option<Favor>,
    algorithm: Option<Algorithm>,
    marker_size: i64,
    labels: Vec<OsString>,
}

impl Choices {
    fn take(&mut self, given: Given) -> Result<(), String> {
        let Given { option, value } = given;
        let on = value != Value::Off;
        match (OPTIONS[option].long, value) {
            (Some("stdout"), _) => self.stdout = on,
            (Some("quiet"), _) => self.quiet = on,
            // As in git, undoing one style or favour undoes any.
            (Some("diff3"), _) => self.style = if on { Style::Diff3 } else { Style::Merge },
            (Some("zdiff3"), _) => self.style = if on { Style::ZDiff3 } else { Style::Merge },
            (Some("ours"), _) => self.favor = on.then_some(Favor::Ours),
            (Some("theirs"), _) => self.favor = on.then_some(Favor::Theirs),
            (Some("union"), _) => self.favor = on.then_some(Favor::Union),
            (Some("marker-size"), Value::Number(size)) => self.marker_size = size,
            (Some("marker-size"), _) => self.marker_size = 0,
            (Some(_), Value::Text(name)) => {
                let message = "option diff-algorithm accepts \"myers\", \"minimal\", \"patience\" and \"histogram\"";
                self.algorithm = Some(crate::git::algorithm(name.as_encoded_bytes()).ok_or(message)?);
            }
            (_, Value::Text(_)) if self.labels.len() == 3 => {
                return Err("too many labels on the command line".to_owned());
            }
            (_, Value::Text(label)) => self.labels.push(label),
            (_, Value::On | Value::Off | Value::Number(_)) => {}
        }
        Ok(())
    }
}

/// Runs as `git merge-file` does.
pub fn run(args: &[OsString]) -> ExitCode {
    let place = Place::find();
    let config = place.as_ref().map(Config::read);
    let style = match config.as_ref().map(Config::conflict_style).transpose() {
        Ok(style) => style.flatten(),
        Err(e) => {
            tell(&format!("error: {e}\nfatal: bad config variable '{}'\n", e.key()));
            return FATAL.into();
        }
    };
    let mut choices = Choices { style: style.unwrap_or_default(), ..Choices::default() };
    let usage = || parse_options::usage(SYNOPSIS, &OPTIONS);
    let files = match parse_options::parse(&OPTIONS, args, |given| choices.take(given)) {
        Ok(files) => files,
        Err(Stop::Help) => {
            print(&usage());
            return BAD_USAGE.into();
        }
        Err(Stop::Error(message, place)) => {
            tell(&format!("error: {message}\n"));
            match place {
                Usage::None => {}
                Usage::Stderr => tell(&usage()),
                Usage::Stdout => print(&usage()),
            }
            return BAD_USAGE.into();
        }
    };
    let Ok([current, base, other]) = <[OsString; 3]>::try_from(files) else {
        tell(&usage());
        return BAD_USAGE.into();
    };
    let quiet = choices.quiet;
    let place = place.as_ref().zip(config.as_ref());
    match merge_files(place, choices, Versions { base, ours: current, theirs: other }) {
        Ok(conflicts) => (conflicts.min(MOST_CONFLICTS) as u8).into(),
        Err(Failure(message)) => {
            if !quiet {
                tell(&format!("error: {message}\n"));
            }
            ERROR.into()
        }
    }
}

/// Why nothing was merged, in git's words.
struct Failure(String);

fn merge_files(
    place: Option<(&Place, &Config)>,
    choices: Choices,
    names: Versions<OsString>,
) -> Result<usize, Failure> {
    let prefix = prefix(place.map(|(place, _)| place));
    let texts = Versions {
        ours: read(&names.ours, &prefix)?,
        base: read(&names.base, &prefix)?,
        theirs: read(&names.theirs, &prefix)?,
    };
    let texts = texts.as_ref().map(Vec::as_slice);
    let language = [&names.ours, &names.base, &names.theirs]
        .into_iter()
        .find_map(|name| attributes::language(place, from_top(&prefix, name).as_encoded_bytes(), texts.ours));
    let (to_stdout, quiet) = (choices.stdout, choices.quiet);

    let mut answer = merge(texts, language, &settings(place, choices, &names));
    let path = from_top(&prefix, &names.ours);
    answer.notes.extend(super::to_be_written_again(language, path.as_encoded_bytes(), &answer));
    if to_stdout {
        let mut stdout = io::stdout().lock();
        let written = stdout.write_all(&answer.text).and_then(|()| stdout.flush());
        written.map_err(|e| Failure(format!("Could not write to {}: {}", shown(&names.ours), plain(&e))))?;
    } else {
        replace(Path::new(&names.ours), &answer.text).map_err(|e| Failure(e.to_string()))?;
    }
    if !quiet {
        for note in &answer.notes {
            tell(&format!("pleach: {}: {note}\n", shown(&names.ours)));
        }
        for Kept { line, what, .. } in &answer.kept {
            tell(&format!("pleach: {}: conflict at line {line}: {what}\n", shown(&names.ours)));
        }
    }
    Ok(answer.conflicts)
}

fn settings(place: Option<(&Place, &Config)>, choices: Choices, names: &Versions<OsString>) -> Settings {
    let mut settings = Settings::default();
    if let Some(deadline) = place.and_then(|(_, config)| config.deadline()) {
        settings.deadline = deadline;
    }
    let line = &mut settings.line;
    line.algorithm = choices.algorithm.unwrap_or(Algorithm::Myers);
    line.level = Level::ZealousAlnum;
    line.style = choices.style;
    line.favor = choices.favor;
    if let Some(size) = usize::try_from(choices.marker_size).ok().filter(|size| *size > 0) {
        line.marker_size = size;
    }
    let mut given = choices.labels.into_iter();
    for version in [Version::Ours, Version::Base, Version::Theirs] {
        let label = given.next().unwrap_or_else(|| names.get(version).clone());
        *line.labels.get_mut(version) = Some(label.into_encoded_bytes());
    }
    settings
}

/// Reads one version, refusing what git's merge refuses.
fn read(name: &OsString, prefix: &Path) -> Result<Vec<u8>, Failure> {
    // Git works from the top of the worktree, which shows in these messages and in no other.
    let from_top = prefix.join(name);
    let error = |what: &str, e: io::Error| Failure(format!("Could not {what} {}: {}", from_top.display(), plain(&e)));
    let metadata = fs::metadata(name).map_err(|e| error("stat", e))?;
    if metadata.is_dir() {
        return Err(error("open", io::Error::from_raw_os_error(IS_A_DIRECTORY)));
    }
    let mut file = fs::File::open(name).map_err(|e| error("open", e))?;
    let mut text = Vec::with_capacity(metadata.len() as usize);
    file.read_to_end(&mut text).map_err(|e| error("read", e))?;
    if text.len() > LARGEST || line::looks_binary(&text) {
        return Err(Failure(format!("Cannot merge binary files: {}", shown(name))));
    }
    Ok(text)
}

/// What git's xdiff accepts.
const LARGEST: usize = 1024 * 1024 * 1023;
const IS_A_DIRECTORY: i32 = 21;

/// The current directory, from the top of the worktree.
fn prefix(place: Option<&Place>) -> PathBuf {
    let relative = place.and_then(|place| {
        let top = place.worktree.as_ref()?.canonicalize().ok()?;
        let cwd = std::env::current_dir().ok()?.canonicalize().ok()?;
        Some(cwd.strip_prefix(top).ok()?.to_owned())
    });
    relative.unwrap_or_default()
}

/// The path that attributes are asked for: from the top of the worktree, without `.` and `..`.
fn from_top(prefix: &Path, name: &OsString) -> OsString {
    let mut path = PathBuf::new();
    for part in prefix.join(name).components() {
        match part {
            Component::Normal(part) => path.push(part),
            Component::ParentDir => drop(path.pop()),
            _ => {}
        }
    }
    path.into_os_string()
}

fn shown(name: &OsString) -> String {
    name.to_string_lossy().into_owned()
}

/// The command for clap, which only shows it: in help, completions and the man page.
pub fn command() -> clap::Command {
    let mut command = clap::Command::new("merge-file")
        .about("Merge three files as `git merge-file` does, and as syntax where a language is known")
        .override_usage(SYNOPSIS)
        .after_help(
            "Exit status:\n  0        merged without conflicts\n  1 - 127  that many conflicts are left (127: or more)\n  \
             129      bad usage\n  255      an error; <file1> is as it was",
        );
    for option in &OPTIONS {
        let name = option.long.unwrap_or("label");
        let mut arg = clap::Arg::new(name).help(option.help);
        arg = match option.takes {
            Takes::Nothing => arg.action(clap::ArgAction::SetTrue),
            Takes::Number => arg.value_name("n"),
            Takes::Text(value) => arg.value_name(value),
        };
        if let Some(short) = option.short {
            arg = arg.short(short);
        }
        if let Some(long) = option.long {
            arg = arg.long(long);
        }
        command = command.arg(arg);
    }
    let files = [
        ("file1", "our version, which the answer is written into"),
        ("orig-file", "the common ancestor"),
        ("file2", "the other version"),
    ];
    for (file, help) in files {
        let file = clap::Arg::new(file).required(true).help(help);
        command = command.arg(file.value_hint(clap::ValueHint::FilePath));
    }
    command
}
