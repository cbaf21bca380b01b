//! Directories, files and programs for tests that work as a person does.
#![allow(dead_code)] // each test program uses its own part of it

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

pub const PLEACH: &str = env!("CARGO_BIN_EXE_pleach");

/// A program, apart from whatever configuration the machine has.
pub fn program(name: &str, dir: &Path) -> Command {
    let mut command = Command::new(name);
    command
        .current_dir(dir)
        .env("HOME", dir)
        .env("LC_ALL", "C")
        .env("GIT_CONFIG_NOSYSTEM", "1")
        .env("GIT_CONFIG_GLOBAL", "/dev/null")
        .env_remove("XDG_CONFIG_HOME")
        .env_remove("GIT_DIR");
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
