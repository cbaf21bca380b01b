//! `pleach log` shows what led to the present state, and not what git took back.

use std::path::Path;

use tempfile::TempDir;

use crate::log::{paths, with_stations};
use crate::support::{Repo, TIDES, ours, theirs};

#[test]
fn a_merge_that_was_taken_back_gives_way_to_the_one_before() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "dover.py"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream~1"]);
    assert_eq!(paths(&repo), ["brest.py"]);
    repo.ok(["merge", "-q", "--no-commit", "upstream"]);
    assert_eq!(paths(&repo), ["dover.py"], "it is still going on");
    repo.ok(["merge", "--abort"]);
    assert_eq!(paths(&repo), ["brest.py"]);
    repo.ok(["merge", "-q", "--squash", "upstream"]);
    assert_eq!(paths(&repo), ["dover.py"], "it is in the index");
    repo.commit("Squash it");
    assert_eq!(paths(&repo), ["dover.py"]);
    repo.ok(["branch", "sync"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    assert_eq!(paths(&repo), ["dover.py"], "another branch has it");
    repo.ok(["branch", "-q", "-D", "sync"]);
    assert_eq!(paths(&repo), ["brest.py"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    let ran = repo.pleach(["log"]);
    assert_eq!((ran.status, &*ran.out), (Some(0), "nothing that pleach merged here is left: it was taken back\n"));
}

#[test]
fn picks_that_were_taken_back_are_not_listed_with_the_next() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "dover.py", "emden.py", "esbjerg.py"]);
    repo.ok(["cherry-pick", "upstream~3", "upstream~2"]);
    assert_eq!(paths(&repo), ["brest.py", "dover.py"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~2"]);
    repo.ok(["cherry-pick", "upstream~1", "upstream"]);
    assert_eq!(paths(&repo), ["emden.py", "esbjerg.py"]);
    // What is picked without a commit is all there.
    repo.ok(["reset", "-q", "--hard", "HEAD~2"]);
    repo.ok(["cherry-pick", "--no-commit", "upstream~1", "upstream"]);
    repo.commit("Wait less in both");
    assert_eq!(paths(&repo), ["emden.py", "esbjerg.py"]);
}

#[test]
fn a_commit_that_a_rebase_skipped_is_not_listed_and_one_that_it_joined_is() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "dover.py", "emden.py"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.write("brest.py", theirs(TIDES).replace("=5", "=3")).write("dover.py", ours(TIDES)).commit("Wait even less");
    repo.write("emden.py", ours(TIDES)).commit("Show metres");
    let before = repo.head();
    assert_eq!(repo.run(["rebase", "-q", "upstream"]).status, Some(1));
    assert_eq!(paths(&repo), ["brest.py", "dover.py"]);
    repo.ok(["rebase", "--skip"]);
    assert_eq!(paths(&repo), ["emden.py"]);

    repo.ok(["reset", "-q", "--hard", &before]);
    repo.ok(["reset", "-q", "--hard", "HEAD~2"]);
    repo.write("dover.py", ours(TIDES)).commit("Show metres");
    repo.write("brest.py", ours(TIDES)).commit("fixup! Show metres");
    repo.write("emden.py", ours(TIDES)).commit("Show metres in Emden");
    let mut rebase = repo.command(["rebase", "-q", "-i", "--autosquash", "upstream"]);
    let ran = rebase.env("GIT_SEQUENCE_EDITOR", "true").output().unwrap();
    assert!(ran.status.success(), "{ran:?}");
    assert_eq!(paths(&repo), ["brest.py", "dover.py", "emden.py"]);
}

#[test]
fn what_was_stashed_for_a_merge_is_listed_with_it() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "dover.py"]);
    repo.ok(["checkout", "-q", "upstream"]);
    repo.write("emden.py", theirs(TIDES)).commit("Add Emden");
    repo.ok(["checkout", "-q", "main"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream~1"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.write("dover.py", TIDES).commit("Show feet in Dover");
    repo.write("dover.py", ours(TIDES));
    repo.ok(["merge", "-q", "--no-edit", "--autostash", "upstream"]);
    assert!(
        repo.read("dover.py").contains("unit='m', timeout=5") || repo.read("dover.py").contains("timeout=5, unit='m'")
    );
    assert_eq!(paths(&repo), ["brest.py", "dover.py"]);
    assert!(repo.pleach(["log"]).out.starts_with("Merge of upstream into "));
}

#[test]
fn what_was_stashed_for_a_rebase_is_listed_with_it() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "dover.py", "emden.py"]);
    repo.ok(["checkout", "-q", "main~1"]);
    repo.write("brest.py", ours(TIDES)).commit("Show metres in Brest");
    repo.write("emden.py", ours(TIDES));
    repo.ok(["rebase", "-q", "--autostash", "upstream"]);
    assert!(repo.read("emden.py").contains("timeout=5, unit='m'"));
    assert_eq!(paths(&repo), ["brest.py", "emden.py"]);
    // And where nothing but the stash had to be merged; by an older git too, which tells a driver no labels.
    for (git, how) in [("git", "--merge"), ("git", "--apply"), ("/usr/bin/git", "--merge"), ("/usr/bin/git", "--apply")]
    {
        if git.starts_with('/') && !Path::new(git).exists() {
            eprintln!("skipped: there is no {git}");
            continue;
        }
        let repo = with_stations(&dir.path().join(format!("{}{how}", git.len())), &["brest.py", "dover.py"]);
        let repo = Repo { git: git.to_owned(), ..repo };
        repo.ok(["checkout", "-q", "-b", "topic", "main~1"]);
        repo.write("dover.py", ours(TIDES));
        repo.ok(["rebase", "-q", how, "--autostash", "upstream"]);
        assert!(repo.read("dover.py").contains("timeout=5, unit='m'"), "{git} {how}");
        assert_eq!(paths(&repo), ["dover.py"], "{git} {how}");
    }
}

/// Git before 2.44 tells a driver no labels.
#[test]
fn an_older_gits_merges_and_steps_are_told_apart_too() {
    let dir = TempDir::new().unwrap();
    let old = "/usr/bin/git";
    let version = crate::support::run(old, dir.path(), ["--version"]).out;
    if !version.starts_with("git version 2.3") {
        eprintln!("skipped: {old} is {version}");
        return;
    }
    let mut repo = with_stations(dir.path(), &["brest.py", "dover.py"]);
    repo.git = old.to_owned();
    repo.ok(["merge", "-q", "--no-edit", "upstream~1"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.ok(["cherry-pick", "upstream"]);
    assert_eq!(paths(&repo), ["dover.py"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream~1"]);
    assert!(repo.pleach(["log"]).out.starts_with("Merge of upstream~1 into "));

    // Two commits of a rebase that change one file.
    let two = format!("{TIDES}\n\ndef low(station):\n    return fetch(station, 0)\n");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.write("brest.py", &two).commit("Show low water");
    repo.ok(["checkout", "-q", "-B", "main"]);
    repo.write("brest.py", ours(TIDES) + &two[TIDES.len()..]).commit("Show metres");
    repo.write("brest.py", ours(&two)).commit("Show metres of low water");
    repo.ok(["checkout", "-q", "upstream"]);
    repo.write("brest.py", theirs(&two)).commit("Wait less");
    repo.ok(["checkout", "-q", "main"]);
    repo.ok(["rebase", "-q", "upstream"]);
    assert_eq!(paths(&repo), ["brest.py", "brest.py"]);
}

#[test]
fn a_file_that_is_merged_again_by_checkout_stays_in_its_merge() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "dover.py"]);
    repo.write("dover.py", ours(&theirs(TIDES).replace("=5", "=3"))).commit("Wait less");
    assert_eq!(repo.run(["merge", "-q", "upstream"]).status, Some(1));
    let before = paths(&repo);
    assert_eq!(before, ["brest.py", "dover.py"]);
    repo.ok(["checkout", "-q", "-m", "dover.py"]);
    assert_eq!(paths(&repo), before);
    assert!(repo.pleach(["log"]).out.starts_with("Merge of upstream into "));
}
