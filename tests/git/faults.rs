//! What goes wrong leaves our version whole, and is said.

use std::fs;
use std::path::Path;

use tempfile::TempDir;

use crate::support::{PLEACH, Ran, Repo, TIDES, both, forked, ours, program, run, theirs};

const FILE: &str = "src/tides.py";

/// A source file of some 12 KB.
fn long(text: &str) -> String {
    let filler = "\n\ndef station():\n    return 'Cuxhaven'\n".repeat(320);
    format!("{text}{filler}")
}

/// The three files of one call.
fn three(dir: &Path) {
    fs::write(dir.join("base"), long(TIDES)).unwrap();
    fs::write(dir.join("ours"), long(&ours(TIDES))).unwrap();
    fs::write(dir.join("theirs"), long(&theirs(TIDES))).unwrap();
}

const CALL: [&str; 9] = ["driver", "base", "ours", "theirs", "7", FILE, "base", "HEAD", "upstream"];

fn call(dir: &Path) -> Ran {
    run(PLEACH, dir, CALL)
}

#[test]
fn a_call_outside_any_repository_is_answered() {
    let dir = TempDir::new().unwrap();
    three(dir.path());
    assert_eq!(call(dir.path()).status, Some(0));
    assert_eq!(fs::read_to_string(dir.path().join("ours")).unwrap(), long(&both(TIDES)));
    let ran = run(PLEACH, dir.path(), CALL);
    assert!(!ran.err.contains("pleach log"), "there is no record to look at: {ran:?}");
}

#[test]
fn a_version_that_cannot_be_read_is_an_error_that_stops_git() {
    for missing in ["base", "ours", "theirs"] {
        let dir = TempDir::new().unwrap();
        three(dir.path());
        fs::remove_file(dir.path().join(missing)).unwrap();
        let ran = call(dir.path());
        let said = format!("pleach: could not read {missing}: No such file or directory; nothing was written\n");
        assert_eq!((ran.status, ran.err), (Some(129), said));
        fs::create_dir(dir.path().join(missing)).unwrap();
        assert_eq!(call(dir.path()).status, Some(129));
    }
}

#[test]
fn a_wrong_number_of_arguments_is_an_error_that_stops_git() {
    let dir = TempDir::new().unwrap();
    three(dir.path());
    for args in [&CALL[..1], &CALL[..3], &[&CALL[..], &["more"]].concat()] {
        let ran = run(PLEACH, dir.path(), args);
        assert_eq!(ran.status, Some(129), "{args:?}");
        assert!(ran.err.starts_with("pleach: expected %O %A %B %L %P %S %X %Y and got"), "{ran:?}");
    }
    assert_eq!(fs::read_to_string(dir.path().join("ours")).unwrap(), long(&ours(TIDES)));
    assert_eq!(run(PLEACH, dir.path(), &CALL[..4]).status, Some(1), "without a path it is merged as lines");
}

#[test]
fn of_binary_versions_ours_is_kept_as_git_keeps_it() {
    for binary in ["base", "ours", "theirs"] {
        let dir = TempDir::new().unwrap();
        three(dir.path());
        fs::write(dir.path().join(binary), b"tide\0curve").unwrap();
        let ours = fs::read(dir.path().join("ours")).unwrap();
        let ran = call(dir.path());
        assert_eq!((ran.status, ran.err), (Some(1), format!("pleach: {FILE}: binary, so our version is kept\n")));
        assert_eq!(fs::read(dir.path().join("ours")).unwrap(), ours);
    }
    let run_one = |with_pleach: bool| {
        let dir = TempDir::new().unwrap();
        let repo = Repo::init(dir.path().join("fork"));
        if with_pleach {
            repo.install();
        }
        repo.write(FILE, b"tide\0").commit("Store a curve");
        repo.ok(["checkout", "-q", "-b", "upstream"]);
        repo.write(FILE, b"tide\0 theirs").commit("Store theirs");
        repo.ok(["checkout", "-q", "main"]);
        repo.write(FILE, b"tide\0 ours").commit("Store ours");
        (repo.run(["merge", "upstream"]).status, repo.read(FILE), repo.ok(["ls-files", "-s"]))
    };
    assert_eq!(run_one(true), run_one(false));
}

#[test]
fn a_version_that_is_no_utf8_is_merged_as_lines() {
    let dir = TempDir::new().unwrap();
    three(dir.path());
    fs::write(dir.path().join("theirs"), b"tide = \"\xff\"\n").unwrap();
    let ran = call(dir.path());
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.err.starts_with(&format!("pleach: {FILE}: merged as lines: ")), "{ran:?}");
    assert_eq!(ran.err.matches("merged as lines").count(), 1, "{ran:?}");
}

#[test]
fn a_merge_that_takes_too_long_is_the_line_merge_with_its_reason() {
    let dir = TempDir::new().unwrap();
    three(dir.path());
    // So much that no machine reads it in a millisecond.
    for name in ["base", "ours", "theirs"] {
        let text = fs::read_to_string(dir.path().join(name)).unwrap();
        fs::write(dir.path().join(name), text + &"\n\ndef station():\n    return 'Cuxhaven'\n".repeat(10_000)).unwrap();
    }
    let mut driver = program(PLEACH, dir.path());
    run("git", dir.path(), ["init", "-q"]);
    run("git", dir.path(), ["config", "pleach.deadline", "1ms"]);
    let ran: Ran = driver.args(CALL).output().unwrap().into();
    let said = format!("pleach: {FILE}: merged as lines: not done within 0.001 s\n");
    assert_eq!((ran.status, ran.err), (Some(1), said));
    assert!(fs::read_to_string(dir.path().join("ours")).unwrap().contains("<<<<<<< HEAD\n"));
}

#[test]
fn a_record_that_cannot_be_written_does_not_fail_the_merge() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write(".git/pleach", "a file where the directory should be");
    let ran = repo.run(["merge", "--no-edit", "upstream"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(repo.read(FILE), both(TIDES));
    assert!(ran.err.contains("combined as syntax") && !ran.err.contains("pleach log"), "{ran:?}");
}

/// The driver's command line in a shell whose files may not grow beyond 4 KB, which is what a full
/// disk does to it: the write fails in the middle.
#[cfg(unix)]
fn with_full_disk(before: &str) -> String {
    // In blocks of 512 bytes by POSIX, of 1024 in bash.
    format!("{before} ulimit -f 4; exec '{PLEACH}' driver")
}

/// So that the write fails instead of killing the process.
#[cfg(unix)]
const NO_SIGNAL: &str = "trap '' XFSZ;";

#[cfg(unix)]
#[test]
fn whoever_reads_our_version_meanwhile_reads_all_of_the_old_one() {
    let dir = TempDir::new().unwrap();
    three(dir.path());
    let mut reader = fs::File::open(dir.path().join("ours")).unwrap();
    assert_eq!(call(dir.path()).status, Some(0));
    let mut text = String::new();
    std::io::Read::read_to_string(&mut reader, &mut text).unwrap();
    assert_eq!(text, long(&ours(TIDES)));
    assert_eq!(fs::read_to_string(dir.path().join("ours")).unwrap(), long(&both(TIDES)));
}

#[cfg(unix)]
#[test]
fn what_was_replaced_is_gone_and_the_answer_has_its_mode() {
    use std::os::unix::fs::PermissionsExt;
    for mode in [0o600, 0o644, 0o755] {
        let dir = TempDir::new().unwrap();
        three(dir.path());
        let file = dir.path().join("ours");
        fs::set_permissions(&file, fs::Permissions::from_mode(mode)).unwrap();
        assert_eq!(call(dir.path()).status, Some(0));
        assert_eq!(fs::read_to_string(&file).unwrap(), long(&both(TIDES)));
        assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o7777, mode);
        assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 3);
    }
}

#[cfg(unix)]
#[test]
fn a_full_disk_leaves_our_version_whole() {
    let dir = TempDir::new().unwrap();
    three(dir.path());
    let script = format!("{} base ours theirs 7 {FILE} base HEAD upstream", with_full_disk(NO_SIGNAL));
    let ran = run("sh", dir.path(), ["-c", &script]);
    assert_eq!(ran.status, Some(129), "{ran:?}");
    assert_eq!(ran.err, "pleach: Could not write to ours: File too large; nothing was written\n");
    assert_eq!(fs::read_to_string(dir.path().join("ours")).unwrap(), long(&ours(TIDES)));
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 3, "nothing is left lying about");
}

#[cfg(unix)]
#[test]
fn a_full_disk_stops_git_with_our_version_whole() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write(FILE, long(&ours(TIDES))).commit("Add stations");
    let before = repo.head();
    let placeholders = "%O %A %B %L %P %S %X %Y";
    repo.ok(["config", "merge.pleach.driver", &format!("{} {placeholders}", with_full_disk(NO_SIGNAL))]);
    let ran = repo.run(["merge", "--no-edit", "upstream"]);
    assert!(ran.status.is_some_and(|s| s > 1), "{ran:?}");
    assert_eq!(repo.head(), before);
    assert_eq!(repo.read(FILE), long(&ours(TIDES)));
}

#[cfg(unix)]
#[test]
fn a_driver_killed_while_it_writes_leaves_our_version_whole() {
    use std::os::unix::process::ExitStatusExt;
    let dir = TempDir::new().unwrap();
    three(dir.path());
    let script = format!("{} base ours theirs 7 {FILE} base HEAD upstream", with_full_disk(""));
    let killed = program("sh", dir.path()).args(["-c", &script]).output().unwrap();
    assert!(killed.status.signal().is_some(), "{killed:?}");
    assert_eq!(fs::read_to_string(dir.path().join("ours")).unwrap(), long(&ours(TIDES)));
}

#[cfg(unix)]
#[test]
fn a_driver_killed_while_it_writes_stops_git_and_the_merge_can_be_done_again() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write(FILE, long(&ours(TIDES))).commit("Add stations");
    let driver = repo.ok(["config", "merge.pleach.driver"]);
    let placeholders = "%O %A %B %L %P %S %X %Y";
    repo.ok(["config", "merge.pleach.driver", &format!("{} {placeholders}", with_full_disk(""))]);
    let ran = repo.run(["merge", "--no-edit", "upstream"]);
    assert!(ran.status.is_some_and(|s| s > 1), "{ran:?}");
    assert_eq!(repo.read(FILE), long(&ours(TIDES)));
    repo.ok(["config", "merge.pleach.driver", driver.trim()]);
    repo.ok(["merge", "--no-edit", "upstream"]);
    assert_eq!(repo.read(FILE), long(&both(TIDES)));
}

#[cfg(unix)]
#[test]
fn a_driver_killed_while_it_reads_leaves_our_version_whole() {
    let dir = TempDir::new().unwrap();
    three(dir.path());
    let theirs = dir.path().join("theirs");
    fs::remove_file(&theirs).unwrap();
    assert_eq!(run("mkfifo", dir.path(), ["theirs"]).status, Some(0));
    let mut driver = program(PLEACH, dir.path()).args(CALL).spawn().unwrap();
    // Opens when the driver has come to reading it, and so has read the others.
    let mut pipe = fs::OpenOptions::new().write(true).open(&theirs).unwrap();
    std::io::Write::write_all(&mut pipe, b"from tideboard").unwrap();
    driver.kill().unwrap();
    assert!(!driver.wait().unwrap().success());
    assert_eq!(fs::read_to_string(dir.path().join("ours")).unwrap(), long(&ours(TIDES)));
}

#[cfg(unix)]
mod read_only {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
    use std::os::unix::process::CommandExt;

    use super::*;

    const NOBODY: u32 = 65534;

    /// Runs a shell script in a directory that may not be written, with files that may. As somebody
    /// else if root runs the tests, whom no mode stops.
    fn in_read_only_directory(dir: &Path, script: &str) -> Ran {
        let work = dir.join("work");
        fs::create_dir(&work).unwrap();
        three(&work);
        // Where nobody can reach it. Copied by another process: see the tests of merge-file.
        assert_eq!(run("cp", dir, [PLEACH, "program"]).status, Some(0));
        let root = fs::metadata("/proc/self").is_ok_and(|m| m.uid() == 0);
        let mode = |path: &Path, mode| fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
        mode(dir, 0o755);
        mode(&dir.join("program"), 0o755);
        if root {
            for entry in fs::read_dir(&work).unwrap() {
                chown(entry.unwrap().path(), Some(NOBODY), Some(NOBODY)).unwrap();
            }
        }
        mode(&work, 0o555);
        let mut shell = program("sh", &work);
        shell.args(["-c", script]);
        if root {
            shell.uid(NOBODY).gid(NOBODY);
        }
        let ran = shell.output().unwrap().into();
        mode(&work, 0o755);
        ran
    }

    #[test]
    fn in_a_read_only_directory_our_version_is_still_answered() {
        let dir = TempDir::new().unwrap();
        let script = format!("exec ../program {}", CALL.join(" "));
        let ran = in_read_only_directory(dir.path(), &script);
        assert_eq!(ran.status, Some(0), "{ran:?}");
        assert_eq!(fs::read_to_string(dir.path().join("work/ours")).unwrap(), long(&both(TIDES)));
    }

    #[test]
    fn a_full_disk_in_a_read_only_directory_leaves_our_version_whole() {
        let dir = TempDir::new().unwrap();
        let script = format!("{NO_SIGNAL} ulimit -f 4; exec ../program {}", CALL.join(" "));
        let ran = in_read_only_directory(dir.path(), &script);
        assert_eq!(ran.status, Some(129), "{ran:?}");
        assert_eq!(fs::read_to_string(dir.path().join("work/ours")).unwrap(), long(&ours(TIDES)));
    }
}

#[test]
fn a_driver_that_is_gone_stops_git_with_our_version_whole() {
    let dir = TempDir::new().unwrap();
    let repo: Repo = forked(dir.path());
    repo.ok(["config", "merge.pleach.driver", "/nowhere/pleach driver %O %A %B %L %P %S %X %Y"]);
    // The shell's 127 is for git a conflict, so it goes on, with our version in the worktree.
    assert_eq!(repo.run(["merge", "--no-edit", "upstream"]).status, Some(1));
    assert_eq!(repo.read(FILE), ours(TIDES));
    assert_eq!(repo.pleach(["doctor"]).status, Some(1));
}
