use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use anyhow::{Context, bail};
use tempfile::TempDir;

use super::scenario::{BASE, Commit, FORK, UPSTREAM};
use crate::git::{GitError, plain};

/// Upstream and the fork, in a directory that goes when this does.
///
/// Nothing of the machine's reaches in: no configuration, no hooks, no identity, no environment of a
/// git that may be running us. So every run makes the same commits and shows the same text.
pub struct Stage {
    dir: TempDir,
}

impl Stage {
    /// Makes both repositories, with their histories.
    pub fn set() -> anyhow::Result<Stage> {
        let dir = TempDir::with_prefix("pleach-demo-").map_err(GitError::Scratch)?;
        let stage = Stage { dir };
        let upstream = stage.upstream();
        fs::create_dir(&upstream).map_err(GitError::Scratch)?;
        stage.git(&upstream, ["init", "-q", "--template="])?;
        // `init.defaultBranch` is only known since git 2.28.
        stage.git(&upstream, ["symbolic-ref", "HEAD", "refs/heads/main"])?;
        for file in &BASE {
            write(&upstream.join(file.path), file.text)?;
        }
        stage.git(&upstream, ["add", "."])?;
        stage.git(&upstream, ["commit", "-q", "-m", "Release 1.4.0"])?;

        stage.git(stage.dir.path(), ["clone", "-q", "--template=", "-o", "upstream", "upstream", "fork"])?;
        stage.commit_all(&stage.fork(), &FORK)?;
        stage.commit_all(&upstream, &UPSTREAM)?;
        Ok(stage)
    }

    fn upstream(&self) -> PathBuf {
        self.dir.path().join("upstream")
    }

    fn fork(&self) -> PathBuf {
        self.dir.path().join("fork")
    }

    fn commit_all(&self, repository: &Path, commits: &[Commit]) -> anyhow::Result<()> {
        for commit in commits {
            for edit in commit.edits {
                let path = repository.join(edit.path);
                let text = fs::read_to_string(&path).map_err(|e| failed("read", &path, &e))?;
                write(&path, &text.replacen(edit.from, edit.to, 1))?;
            }
            self.git(repository, ["commit", "-q", "-a", "-m", commit.message])?;
        }
        Ok(())
    }

    /// The fork pulls from upstream. Answers the files at which git stopped.
    pub fn pull(&self) -> anyhow::Result<Vec<String>> {
        let fork = self.fork();
        let pulled = self.run("git", &fork, ["pull", "-q", "--no-rebase", "--no-edit", "upstream", "main"])?;
        let stopped = self.git(&fork, ["diff", "--name-only", "--diff-filter=U", "-z"])?;
        let stopped: Vec<String> = stopped.split_terminator('\0').map(str::to_owned).collect();
        if !pulled.status.success() && stopped.is_empty() {
            bail!("git pull failed: {}", String::from_utf8_lossy(&pulled.stderr).trim());
        }
        Ok(stopped)
    }

    /// Takes back a pull that stopped.
    pub fn take_back(&self) -> anyhow::Result<()> {
        self.git(&self.fork(), ["merge", "--abort"]).map(drop)
    }

    /// Installs this program into the fork, as a person would.
    pub fn install(&self) -> anyhow::Result<()> {
        let this = std::env::current_exe().context("could not find out where this program is")?;
        let output = self.run(&this, &self.fork(), ["install"])?;
        if !output.status.success() {
            bail!("pleach install failed: {}", String::from_utf8_lossy(&output.stderr).trim());
        }
        Ok(())
    }

    /// A file of the fork as it is now.
    pub fn read(&self, path: &str) -> String {
        fs::read(self.fork().join(path)).map(|text| String::from_utf8_lossy(&text).into_owned()).unwrap_or_default()
    }

    /// Leaves everything where it is. Answers where the fork is.
    pub fn keep(self) -> PathBuf {
        self.dir.keep().join("fork")
    }

    fn git<const N: usize>(&self, dir: &Path, args: [&str; N]) -> anyhow::Result<String> {
        let output = self.run("git", dir, args)?;
        if !output.status.success() {
            bail!("git {} failed: {}", args.join(" "), String::from_utf8_lossy(&output.stderr).trim());
        }
        Ok(String::from_utf8_lossy(&output.stdout).into_owned())
    }

    fn run<const N: usize>(&self, program: impl AsRef<OsStr>, dir: &Path, args: [&str; N]) -> anyhow::Result<Output> {
        let mut command = Command::new(&program);
        command.args(args).current_dir(dir);
        for (name, _) in std::env::vars_os() {
            if name.to_string_lossy().starts_with("GIT_") {
                command.env_remove(name);
            }
        }
        command.envs(ENVIRONMENT).env("HOME", self.dir.path()).env("XDG_CONFIG_HOME", self.dir.path());
        command
            .output()
            .map_err(|e| anyhow::anyhow!("could not run {}: {}", Path::new(program.as_ref()).display(), plain(&e)))
    }
}

const ENVIRONMENT: [(&str, &str); 10] = [
    ("GIT_CONFIG_GLOBAL", "/dev/null"),
    ("GIT_CONFIG_SYSTEM", "/dev/null"),
    ("GIT_CONFIG_NOSYSTEM", "1"),
    ("GIT_ATTR_NOSYSTEM", "1"),
    ("GIT_AUTHOR_NAME", "tideboard"),
    ("GIT_AUTHOR_EMAIL", "tideboard@example.org"),
    ("GIT_AUTHOR_DATE", "2024-03-10T12:00:00Z"),
    ("GIT_COMMITTER_NAME", "tideboard"),
    ("GIT_COMMITTER_EMAIL", "tideboard@example.org"),
    ("GIT_COMMITTER_DATE", "2024-03-10T12:00:00Z"),
];

fn write(path: &Path, text: &str) -> anyhow::Result<()> {
    if let Some(dir) = path.parent() {
        fs::create_dir_all(dir).map_err(|e| failed("make", dir, &e))?;
    }
    fs::write(path, text).map_err(|e| failed("write", path, &e))
}

fn failed(to: &str, path: &Path, error: &std::io::Error) -> anyhow::Error {
    anyhow::anyhow!("could not {to} {}: {}", path.display(), plain(error))
}
