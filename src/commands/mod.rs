//! The command line: its definition, and one file a command.

mod completions;
mod demo;
mod doctor;
mod driver;
mod forecast;
mod grammars;
mod install;
mod log;
mod man;
mod merge_file;
mod parse_options;
mod replay;
mod retry;
mod uninstall;

use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;

use clap::{CommandFactory, FromArgMatches, Parser, Subcommand};

use crate::answer::merge_favoring;
use crate::git::Config;
use crate::grammar::Language;
use crate::line::Favor;
use crate::report::{count, print, printed, tell, unprinted};
use crate::{Answer, Settings, Versions, Way};

/// Merge source as syntax trees instead of as lines
#[derive(Debug, Parser)]
#[command(name = "pleach", version, max_term_width = 100)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Demo(demo::Demo),
    Install(install::Install),
    Uninstall(uninstall::Uninstall),
    Doctor(doctor::Doctor),
    Forecast(forecast::Forecast),
    Retry(retry::Retry),
    Log(log::Log),
    Replay(replay::Replay),
    Grammars(grammars::Grammars),
    /// Answer one call of git's: merge three files into %A
    ///
    /// Honours merge.conflictStyle, the attributes linguist-language and conflict-marker-size, and two
    /// settings of its own: pleach.deadline, after so many seconds (5 unless set) the answer is the line
    /// merge; and pleach.favor (ours, theirs or union), as git does not tell a driver its -X options:
    /// `git -c pleach.favor=theirs merge upstream`. Lines are compared by histogram, as git does in its
    /// own merges whatever diff.algorithm says.
    #[command(
        after_help = "Exit status:\n  0    merged without conflicts\n  1    conflicts are left in %A\n  129  nothing was written"
    )]
    Driver {
        /// What git puts in the place of %O %A %B %L %P %S %X %Y
        #[arg(required = true, num_args = 3..=8, trailing_var_arg = true, allow_hyphen_values = true)]
        arguments: Vec<OsString>,
    },
    /// Print completions for a shell
    #[command(after_help = "Exit status:\n  0  printed\n  2  bad usage")]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    Man(man::ManPage),
}

/// Whom the output is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
enum Format {
    /// For people
    #[default]
    Text,
    /// For programs
    Json,
}

/// Merges the file at `path`, and says in notes how many conflicts `pleach.favor` settled, and how a tool writes the
/// file again.
fn merge_and_say(
    versions: Versions<&[u8]>,
    path: &[u8],
    language: Option<&'static Language>,
    settings: &Settings,
) -> Answer {
    let (mut answer, settled) = merge_favoring(versions, language, settings);
    if let (Some(favor), 1..) = (settings.line.favor, settled) {
        let how = match favor {
            Favor::Ours => "in favour of ours",
            Favor::Theirs => "in favour of theirs",
            Favor::Union => "by keeping both halves",
        };
        answer.notes.push(format!("{} settled {how} (pleach.favor)", count(settled, "conflict")));
    }
    answer.notes.extend(to_be_written_again(language, path, &answer));
    answer
}

/// What a person should do about a file that a tool writes, if pleach put it together or left conflicts in it.
fn to_be_written_again(language: Option<&Language>, path: &[u8], answer: &Answer) -> Option<String> {
    let command = language?.regenerate_command(path)?;
    match answer.conflicts {
        0 if answer.way == Way::Lines => None,
        0 => Some(format!("a tool writes this file: have it written again with `{command}`")),
        // With conflict markers in it, the tool would not read it.
        _ => Some(format!("a tool writes this file: keep either side, then have it written again with `{command}`")),
    }
}

/// Says on stderr what is wrong with our own settings.
fn complain(config: &Config) {
    for (_, complaint) in config.complaints() {
        tell(&format!("pleach: {complaint}\n"));
    }
}

/// An error, or bad usage as clap reports it; 1 is for findings.
const ERROR: u8 = 2;

/// The whole command line, as help, completions and manual show it.
fn definition() -> clap::Command {
    Cli::command().subcommand(merge_file::command())
}

/// Runs the command that the arguments name; the first is the program's name.
pub fn run(args: Vec<OsString>) -> ExitCode {
    let asks_for_help = args.get(2).is_some_and(|a| a == "--help");
    match args.get(1).and_then(|a| a.to_str()) {
        // These two are called by programs, with arguments that are not for clap to interpret, and
        // a merge of many files calls the driver as many times.
        Some("driver") if !asks_for_help => return driver::run(&args[2..]),
        Some("merge-file") if !asks_for_help => return merge_file::run(&args[2..]),
        _ => {}
    }
    let parsed = definition().try_get_matches_from(args).and_then(|matches| Cli::from_arg_matches(&matches));
    let done = match parsed {
        Ok(cli) => cli.command.run(),
        Err(e) => {
            // Help, or why the arguments are wrong.
            printed(e.print().and_then(|()| std::io::stdout().flush()));
            Ok(ExitCode::from(u8::try_from(e.exit_code()).unwrap_or(ERROR)))
        }
    };
    if let Some(why) = unprinted() {
        tell(&format!("pleach: could not write the output: {why}\n"));
        return ERROR.into();
    }
    done.unwrap_or_else(|e| {
        tell(&format!("pleach: {e:#}\n"));
        ERROR.into()
    })
}

impl Command {
    fn run(self) -> anyhow::Result<ExitCode> {
        match self {
            Command::Driver { arguments } => Ok(driver::run(&arguments)),
            Command::Demo(demo) => demo.run(),
            Command::Install(install) => install.run(),
            Command::Uninstall(uninstall) => uninstall.run(),
            Command::Doctor(doctor) => doctor.run(),
            Command::Forecast(forecast) => forecast.run(),
            Command::Retry(retry) => retry.run(),
            Command::Replay(replay) => replay.run(),
            Command::Log(log) => log.run(),
            Command::Grammars(grammars) => grammars.run(),
            Command::Completions { shell } => {
                print(&completions::script(shell));
                Ok(ExitCode::SUCCESS)
            }
            Command::Man(man) => man.run(),
        }
    }
}
