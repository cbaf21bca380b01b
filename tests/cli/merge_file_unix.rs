//! `pleach merge-file` beside `git merge-file` on links, modes, rights and names that only Unix has.

use std::fs;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;

use tempfile::TempDir;

use crate::merge_file::{FILES, same, stations};
use crate::support::{PLEACH, Ran, contents, program, run};

#[test]
fn a_link_is_written_through_and_stays_a_link() {
    let prepare = |dir: &Path| {
        stations(dir);
        fs::create_dir(dir.join("ports")).unwrap();
        fs::rename(dir.join("ours.txt"), dir.join("ports/ours.txt")).unwrap();
        symlink("ports/ours.txt", dir.join("ours.txt")).unwrap();
    };
    let dir = TempDir::new().unwrap();
    prepare(dir.path());
    run(PLEACH, dir.path(), ["merge-file", "ours.txt", "base.txt", "theirs.txt"]);
    assert!(fs::read_to_string(dir.path().join("ports/ours.txt")).unwrap().contains("<<<<<<<"));
    same(prepare, &FILES);
}

#[test]
fn the_files_mode_stays() {
    for mode in [0o755, 0o600, 0o664] {
        let dir = TempDir::new().unwrap();
        stations(dir.path());
        let ours = dir.path().join("ours.txt");
        fs::set_permissions(&ours, fs::Permissions::from_mode(mode)).unwrap();
        run(PLEACH, dir.path(), ["merge-file", "ours.txt", "base.txt", "theirs.txt"]);
        assert!(fs::read_to_string(&ours).unwrap().contains("<<<<<<<"));
        assert_eq!(fs::metadata(&ours).unwrap().permissions().mode() & 0o777, mode);
    }
}

/// Root may do anything, so these run as somebody else when root runs the tests.
#[track_caller]
fn same_as_nobody(prepare: impl Fn(&Path)) -> Ran {
    let run_one = |name: &str| {
        let dir = TempDir::new().unwrap();
        // The program must be reachable for nobody, whoever owns the build directory.
        let program_file = dir.path().join("program");
        let is_path = name.contains('/');
        if is_path {
            // By another process: a file that this one had open for writing while another thread
            // started a program could not be run.
            assert_eq!(run("cp", dir.path(), [name, "program"]).status, Some(0));
        }
        let work = dir.path().join("work");
        fs::create_dir(&work).unwrap();
        stations(&work);
        prepare(&work);
        for path in [dir.path(), &program_file] {
            let _ = fs::set_permissions(path, fs::Permissions::from_mode(0o755));
        }
        let words = ["merge-file", "ours.txt", "base.txt", "theirs.txt"];
        let called = if is_path { program_file.to_str().unwrap() } else { name };
        let ran = if is_root() {
            for entry in fs::read_dir(&work).unwrap() {
                std::os::unix::fs::chown(entry.unwrap().path(), Some(NOBODY), Some(NOBODY)).unwrap();
            }
            std::os::unix::fs::chown(&work, Some(NOBODY), Some(NOBODY)).unwrap();
            use std::os::unix::process::CommandExt;
            program(called, &work).args(words).uid(NOBODY).gid(NOBODY).output().unwrap().into()
        } else {
            run(called, &work, words)
        };
        let _ = fs::set_permissions(&work, fs::Permissions::from_mode(0o755));
        (ran, contents(&work))
    };
    let (git, git_files) = run_one("git");
    let (pleach, pleach_files) = run_one(PLEACH);
    assert_eq!(pleach, git);
    assert_eq!(pleach_files, git_files);
    pleach
}

const NOBODY: u32 = 65534;

fn is_root() -> bool {
    use std::os::unix::fs::MetadataExt;
    fs::metadata("/proc/self").is_ok_and(|m| m.uid() == 0)
}

fn set_mode(path: &Path, mode: u32) {
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
}

#[test]
fn an_unreadable_file_is_an_error_that_names_it() {
    let ran = same_as_nobody(|dir| set_mode(&dir.join("theirs.txt"), 0));
    assert_eq!(ran.err, "error: Could not open theirs.txt: Permission denied\n");
    assert_eq!(ran.status, Some(255));
}

#[test]
fn a_file_that_may_not_be_written_is_left_as_it_was() {
    let ran = same_as_nobody(|dir| set_mode(&dir.join("ours.txt"), 0o444));
    assert_eq!(ran.err, "error: Could not open ours.txt for writing: Permission denied\n");
    assert_eq!(ran.status, Some(255));
}

#[test]
fn in_a_directory_that_may_not_be_written_the_file_still_is() {
    let ran = same_as_nobody(|dir| set_mode(dir, 0o555));
    assert_eq!((ran.status, &*ran.err), (Some(1), ""));
}

#[test]
fn a_file_name_that_is_no_utf8_is_a_label_like_any_other() {
    use std::os::unix::ffi::OsStrExt;
    let name = std::ffi::OsStr::from_bytes(b"Malm\xf6.txt");
    let run_one = |program_name: &str| {
        let dir = TempDir::new().unwrap();
        stations(dir.path());
        fs::rename(dir.path().join("ours.txt"), dir.path().join(name)).unwrap();
        let mut command = program(program_name, dir.path());
        command.args(["merge-file", "-p"]).arg(name).args(["base.txt", "theirs.txt"]);
        command.output().unwrap().stdout
    };
    assert_eq!(run_one(PLEACH), run_one("git"));
    assert!(run_one(PLEACH).windows(13).any(|w| w == b"<<<<<<< Malm\xf6"));
}
