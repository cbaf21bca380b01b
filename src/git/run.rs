use std::ffi::{OsStr, OsString};
use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, ExitStatus, Output, Stdio};

use gix::bstr::ByteSlice;

/// The git binary, run in one directory.
#[derive(Clone, Debug)]
pub struct Git {
    dir: PathBuf,
    /// Whether it is asked about the repository in `dir`, whatever the environment says.
    named: bool,
    env: Vec<(&'static str, OsString)>,
}

/// What in the environment says where the repository is.
const PLACES: [&str; 3] = ["GIT_DIR", "GIT_WORK_TREE", "GIT_COMMON_DIR"];

/// Git could not be run, or refused.
#[derive(Debug, thiserror::Error)]
pub enum GitError {
    /// There is no git to run.
    #[error("could not run git: {}", super::plain(.0))]
    Start(std::io::Error),
    /// There is nowhere to run it.
    #[error("there is no directory {}", .0.display())]
    Directory(PathBuf),
    /// Git ended with an error.
    #[error("git {command} failed: {message}")]
    Failed {
        /// Its arguments.
        command: String,
        /// What it printed.
        message: String,
        /// Its exit status.
        status: ExitStatus,
    },
    /// There is no place for what git is to write.
    #[error("could not make a temporary directory in {}: {}", std::env::temp_dir().display(), super::plain(.0))]
    Scratch(std::io::Error),
    /// It does not know how.
    #[error("this git cannot merge in memory: its versions from 2.39 on can")]
    TooOld,
    /// An object is not in the repository.
    #[error("git has no object {object}; `git fsck` says what else is missing")]
    Missing {
        /// Its name.
        object: String,
    },
}

impl Git {
    /// Git, to be run in `dir`.
    pub fn in_dir(dir: impl Into<PathBuf>) -> Git {
        Git { dir: dir.into(), named: false, env: Vec::new() }
    }

    /// Git, asked about the repository in `dir`, which a person has named: not about the one that the
    /// environment means, as it does where git runs a hook or an alias.
    pub fn in_named(dir: impl Into<PathBuf>) -> Git {
        Git { named: true, ..Git::in_dir(dir) }
    }

    /// The same at the top of the worktree, if there is one: some commands tell paths as seen from where they run.
    pub fn at_top(&self) -> Git {
        let place = |what| self.line(&["rev-parse", "--path-format=absolute", what]).map(PathBuf::from);
        let (Some(top), Some(git_dir)) = (place("--show-toplevel"), place("--git-dir")) else { return self.clone() };
        let leads_back = top.join(".git").exists();
        let git = Git { dir: top.clone(), ..self.clone() };
        match leads_back {
            true => git,
            // A worktree that only the configuration names.
            false => git.with_env("GIT_DIR", git_dir).with_env("GIT_WORK_TREE", top),
        }
    }

    /// The same with an environment variable set.
    pub fn with_env(mut self, name: &'static str, value: impl Into<OsString>) -> Git {
        self.env.push((name, value.into()));
        self
    }

    /// The same, reading `:(glob)` and the like, which a program that has started us (an editor) may have told it not to.
    pub fn reading_pathspecs(&self) -> Git {
        self.clone().with_env("GIT_LITERAL_PATHSPECS", "0")
    }

    /// What `git ARGS` prints.
    ///
    /// # Errors
    /// Git cannot be run, or its exit status is not 0.
    pub fn output<S: AsRef<OsStr>>(&self, args: &[S]) -> Result<Vec<u8>, GitError> {
        self.output_with_input(args, &[])
    }

    /// What `git ARGS` prints when `input` is given to it.
    ///
    /// # Errors
    /// Git cannot be run, or its exit status is not 0.
    pub fn output_with_input<S: AsRef<OsStr>>(&self, args: &[S], input: &[u8]) -> Result<Vec<u8>, GitError> {
        let output = self.run(args, input)?;
        if output.status.success() {
            return Ok(output.stdout);
        }
        let command = args.iter().map(|a| a.as_ref().to_string_lossy()).collect::<Vec<_>>().join(" ");
        let message = String::from_utf8_lossy(&output.stderr).trim().to_owned();
        let message = if message.is_empty() { output.status.to_string() } else { message };
        Err(GitError::Failed { command, message, status: output.status })
    }

    /// The contents of objects, in their order; none for what is no blob or not there.
    ///
    /// # Errors
    /// Git cannot be run.
    pub fn blobs(&self, objects: &[&str]) -> Result<Vec<Option<Vec<u8>>>, GitError> {
        let input: String = objects.iter().map(|o| format!("{o}\n")).collect();
        let output = self.output_with_input(&["cat-file", "--batch"], input.as_bytes())?;
        let mut rest = output.as_slice();
        let mut next = || {
            // `OBJECT KIND SIZE`, the contents and a newline; or `OBJECT missing`.
            let (head, after) = rest.split_once_str("\n")?;
            let size = head.rsplit_once_str(" ").and_then(|(_, size)| size.to_str().ok()?.parse::<usize>().ok());
            let Some(size) = size.filter(|size| *size < after.len()) else {
                rest = after;
                return None;
            };
            rest = &after[size + 1..];
            head.contains_str(" blob ").then(|| after[..size].to_vec())
        };
        Ok(objects.iter().map(|_| next()).collect())
    }

    /// The first line of what `git ARGS` prints, if it succeeds.
    pub fn line<S: AsRef<OsStr>>(&self, args: &[S]) -> Option<OsString> {
        let mut output = self.output(args).ok()?;
        while output.last().is_some_and(|c| matches!(c, b'\n' | b'\r')) {
            output.pop();
        }
        gix::path::from_bstring(output).ok().map(PathBuf::into_os_string)
    }

    /// Runs `git ARGS` to its end, whatever that is.
    ///
    /// # Errors
    /// Git cannot be run.
    pub fn run<S: AsRef<OsStr>>(&self, args: &[S], input: &[u8]) -> Result<Output, GitError> {
        let mut command = Command::new("git");
        command.args(args).current_dir(&self.dir);
        for name in PLACES {
            match std::env::var_os(name).filter(|path| !path.is_empty()) {
                Some(_) if self.named => command.env_remove(name),
                // It is said as seen from the current directory, which need not be the one that git is run in.
                Some(path) => command.env(name, std::path::absolute(&path).unwrap_or(path.into())),
                None => &mut command,
            };
        }
        command.envs(self.env.iter().map(|(name, value)| (name, value)));
        command.stdout(Stdio::piped()).stderr(Stdio::piped()).stdin(if input.is_empty() {
            Stdio::null()
        } else {
            Stdio::piped()
        });
        // The system names no cause.
        let not_started =
            |e| if self.dir.is_dir() { GitError::Start(e) } else { GitError::Directory(self.dir.clone()) };
        let mut child = command.spawn().map_err(not_started)?;
        let stdin = child.stdin.take();
        // From a thread of its own: git answers before it has read all, and neither may wait.
        std::thread::scope(|threads| {
            threads.spawn(move || {
                if let Some(mut stdin) = stdin {
                    // A git that stops reading says why on stderr.
                    let _ = stdin.write_all(input);
                }
            });
            child.wait_with_output().map_err(GitError::Start)
        })
    }
}
