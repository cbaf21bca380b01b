//! The real git, kept from reading anybody's configuration.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

/// A git command that runs in `directory`.
pub fn git(directory: &Path) -> Command {
    let mut command = Command::new("git");
    command
        .current_dir(directory)
        .env("GIT_CONFIG_NOSYSTEM", "1")
        .env("GIT_CONFIG_GLOBAL", "/dev/null")
        .env("GIT_ATTR_NOSYSTEM", "1")
        .env("LC_ALL", "C");
    command
}

/// Runs a command with input and waits for it.
pub fn run_with_input(command: &mut Command, input: &[u8]) -> Output {
    let mut child =
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("git runs");
    let mut stdin = child.stdin.take().expect("stdin is piped");
    std::thread::scope(|scope| {
        // Not before reading: both pipes would fill up.
        scope.spawn(move || stdin.write_all(input));
        child.wait_with_output().expect("git ends")
    })
}

/// The standard output of a command that must succeed.
pub fn stdout(output: Output) -> Vec<u8> {
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}
