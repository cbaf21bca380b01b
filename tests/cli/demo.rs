//! `pleach demo` shows the main job to someone who has never seen it.

use std::path::Path;

use tempfile::TempDir;

use crate::support::{PLEACH, Ran, program, run};

fn demo(args: &[&str]) -> (Ran, TempDir) {
    let tmp = TempDir::new().unwrap();
    let mut command = program(PLEACH, tmp.path());
    // Nothing of the caller's repository or identity may matter.
    command.arg("demo").args(args).env("TMPDIR", tmp.path()).env("GIT_DIR", "/nowhere").env("GIT_INDEX_FILE", "/no");
    (command.output().unwrap().into(), tmp)
}

#[test]
fn it_shows_both_merges_in_a_page_and_leaves_nothing_behind() {
    let (ran, tmp) = demo(&[]);
    assert_eq!((ran.status, &*ran.err), (Some(0), ""), "{}", ran.out);
    assert!(ran.out.contains("Git stops at 4 files: 7 conflict blocks with 32 lines"), "{}", ran.out);
    assert!(ran.out.contains("Git stops at 1 file: 1 conflict block with 2 lines"), "{}", ran.out);
    assert!(!ran.out.contains("not found") && !ran.out.contains('\u{1b}'), "{}", ran.out);
    assert!(ran.out.lines().count() <= 70 && ran.out.lines().all(|line| line.len() <= 88), "{}", ran.out);
    assert_eq!(tmp.path().read_dir().unwrap().count(), 0);
}

#[test]
fn it_shows_the_same_every_time() {
    assert_eq!(demo(&[]).0, demo(&[]).0);
}

#[test]
fn kept_the_fork_is_in_the_middle_of_the_merge_with_pleach_installed() {
    let (ran, _tmp) = demo(&["--keep"]);
    let fork = ran.out.split_once("The fork is in ").and_then(|(_, rest)| rest.split_once(',')).unwrap().0;
    let fork = Path::new(fork);
    let status = run("git", fork, ["diff", "--name-only", "--diff-filter=U"]);
    assert_eq!((status.status, &*status.out), (Some(0), "tideboard/app.py\n"));
    let doctor = run(PLEACH, fork, ["doctor"]);
    assert_eq!(doctor.status, Some(0), "{doctor:?}");
}

#[test]
fn without_git_it_says_so_in_one_line() {
    let tmp = TempDir::new().unwrap();
    let ran: Ran = program(PLEACH, tmp.path()).arg("demo").env("PATH", tmp.path()).output().unwrap().into();
    assert_eq!((ran.status, &*ran.out), (Some(2), ""));
    assert_eq!(ran.err, "pleach: could not run git: No such file or directory\n");
}
