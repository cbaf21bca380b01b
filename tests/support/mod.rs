//! Directories, files and programs for tests that work as a person does.
#![allow(dead_code)] // each test program uses its own part of it

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

pub const PLEACH: &str = env!("CARGO_BIN_EXE_pleach");

/// A program, apart from whatever configuration the machine has, and from a git that may be running us.
pub fn program(name: &str, dir: &Path) -> Command {
    let mut command = Command::new(name);
    for (name, _) in std::env::vars_os().filter(|(name, _)| name.to_string_lossy().starts_with("GIT_")) {
        command.env_remove(name);
    }
    command
        .current_dir(dir)
        .env("HOME", dir)
        .env("LC_ALL", "C")
        .env("GIT_CONFIG_NOSYSTEM", "1")
        .env("GIT_CONFIG_GLOBAL", "/dev/null")
        .env_remove("XDG_CONFIG_HOME");
    command
}

/// What a program left behind.
#[derive(Debug, PartialEq, Eq)]
pub struct Ran {
    pub status: Option<i32>,
    pub out: String,
    pub err: String,
}

impl From<Output> for Ran {
    fn from(output: Output) -> Ran {
        let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
        Ran { status: output.status.code(), out: text(output.stdout), err: text(output.stderr) }
    }
}

pub fn run<S: AsRef<OsStr>>(name: &str, dir: &Path, args: impl IntoIterator<Item = S>) -> Ran {
    program(name, dir).args(args).output().unwrap_or_else(|e| panic!("{name}: {e}")).into()
}

/// All files under `dir` with their contents, by path; links and directories by what they are.
pub fn contents(dir: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut found = Vec::new();
    let mut left = vec![dir.to_owned()];
    while let Some(next) = left.pop() {
        for entry in fs::read_dir(&next).unwrap() {
            let path = entry.unwrap().path();
            let kind = fs::symlink_metadata(&path).unwrap().file_type();
            let text = if kind.is_symlink() {
                fs::read_link(&path).unwrap().into_os_string().into_encoded_bytes()
            } else if kind.is_dir() {
                left.push(path.clone());
                b"directory".to_vec()
            } else {
                fs::read(&path).unwrap_or_else(|e| e.to_string().into_bytes())
            };
            found.push((path.strip_prefix(dir).unwrap().to_owned(), text));
        }
    }
    found.sort();
    found
}

/// A repository of the tideboard project, or of a harbour authority's fork of it.
pub struct Repo {
    /// The worktree; in a bare repository, the git directory.
    pub dir: PathBuf,
    /// Which git: `git`, or an older one.
    pub git: String,
}

impl Repo {
    /// A new repository in `dir`, which is made.
    pub fn init(dir: PathBuf) -> Repo {
        fs::create_dir_all(&dir).unwrap();
        let repo = Repo { dir, git: "git".to_owned() };
        repo.ok(["init", "-q", "-b", "main"]);
        repo.identify();
        repo
    }

    pub fn clone_of(other: &Repo, dir: PathBuf) -> Repo {
        let parent = dir.parent().unwrap();
        let cloned = run("git", parent, ["clone", "-q", other.dir.to_str().unwrap(), dir.to_str().unwrap()]);
        assert_eq!(cloned.status, Some(0), "{cloned:?}");
        let repo = Repo { dir, git: "git".to_owned() };
        repo.identify();
        repo
    }

    fn identify(&self) {
        self.ok(["config", "user.name", "Harbour"]);
        self.ok(["config", "user.email", "harbour@example.org"]);
        self.ok(["config", "protocol.file.allow", "always"]);
    }

    pub fn command<S: AsRef<OsStr>>(&self, args: impl IntoIterator<Item = S>) -> Command {
        let mut command = program(&self.git, &self.dir);
        command.args(args);
        // So that the same steps give the same commits.
        for who in ["AUTHOR", "COMMITTER"] {
            command.env(format!("GIT_{who}_DATE"), "2024-03-10T12:00:00Z");
        }
        command.env("GIT_EDITOR", "true");
        command
    }

    /// Runs git, whatever comes of it.
    pub fn run<S: AsRef<OsStr>>(&self, args: impl IntoIterator<Item = S>) -> Ran {
        self.command(args).output().unwrap().into()
    }

    /// Runs git, which must succeed.
    #[track_caller]
    pub fn ok<S: AsRef<OsStr>>(&self, args: impl IntoIterator<Item = S>) -> String {
        let args: Vec<_> = args.into_iter().map(|a| a.as_ref().to_owned()).collect();
        let ran = self.run(&args);
        assert_eq!(ran.status, Some(0), "git {args:?}: {ran:?}");
        ran.out
    }

    /// Runs pleach in the worktree, whatever comes of it.
    pub fn pleach<S: AsRef<OsStr>>(&self, args: impl IntoIterator<Item = S>) -> Ran {
        self.pleach_in("", args)
    }

    /// Runs pleach in a directory of the worktree.
    pub fn pleach_in<S: AsRef<OsStr>>(&self, subdirectory: &str, args: impl IntoIterator<Item = S>) -> Ran {
        run(PLEACH, &self.dir.join(subdirectory), args)
    }

    #[track_caller]
    pub fn install(&self) -> &Repo {
        let ran = self.pleach(["install"]);
        assert_eq!(ran.status, Some(0), "{ran:?}");
        self
    }

    pub fn write(&self, path: impl AsRef<Path>, text: impl AsRef<[u8]>) -> &Repo {
        let path = self.dir.join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
        self
    }

    #[track_caller]
    pub fn read(&self, path: impl AsRef<Path>) -> String {
        let path = self.dir.join(path);
        let text = fs::read(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        String::from_utf8_lossy(&text).into_owned()
    }

    pub fn commit(&self, message: &str) -> &Repo {
        self.ok(["add", "-A"]);
        self.ok(["commit", "-q", "-m", message]);
        self
    }

    pub fn head(&self) -> String {
        self.ok(["rev-parse", "HEAD"]).trim().to_owned()
    }

    /// What git says of the worktree, a line a file.
    pub fn status(&self) -> String {
        self.ok(["status", "--porcelain"])
    }
}

/// The file that both sides change, as their common ancestor has it.
pub const TIDES: &str = "from tideboard import fetch\n\n\ndef tide(station):\n    return fetch(station)\n";

/// The harbour authority's change: levels in metres.
pub fn ours(text: &str) -> String {
    text.replace("fetch(station", "fetch(station, unit='m'")
}

/// The release's change: a time limit.
pub fn theirs(text: &str) -> String {
    text.replace("fetch(station", "fetch(station, timeout=5")
}

/// Both.
pub fn both(text: &str) -> String {
    text.replace("fetch(station", "fetch(station, unit='m', timeout=5")
}

/// Both, where the release is what the harbour's change is put on: in a rebase, say.
pub fn both_swapped(text: &str) -> String {
    text.replace("fetch(station", "fetch(station, timeout=5, unit='m'")
}

/// A fork whose `main` and the release on `upstream` have changed the same call, with pleach
/// installed.
pub fn forked(dir: &Path) -> Repo {
    let repo = forked_without_pleach(dir);
    repo.install();
    repo
}

pub fn forked_without_pleach(dir: &Path) -> Repo {
    let repo = Repo::init(dir.join("fork"));
    repo.write("src/tides.py", TIDES).commit("Show the tide");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write("src/tides.py", theirs(TIDES)).commit("Give up after five seconds");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("src/tides.py", ours(TIDES)).commit("Show metres");
    repo
}
