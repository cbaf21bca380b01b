//! `pleach replay`: the merges that were made, done again.

use tempfile::TempDir;

use crate::support::{Repo, TIDES, contents, forked, ours};

const FILE: &str = "src/tides.py";

#[test]
fn replay_does_every_merge_again_and_compares_with_what_was_committed() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    // A second merge, in which a person decided otherwise.
    repo.ok(["checkout", "-q", "-b", "again", "main~1"]);
    repo.run(["merge", "-q", "--no-commit", "upstream"]);
    repo.write(FILE, ours(TIDES)).commit("Merge, but wait for ever");
    let before = contents(&repo.dir);
    let ran = repo.pleach(["replay"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(ran.out.starts_with("2 merges\n"), "{ran:?}");
    let row: Vec<_> = ran.out.lines().last().unwrap().split("  ").filter(|cell| !cell.is_empty()).collect();
    assert_eq!(
        row[..5].iter().map(|cell| cell.trim()).collect::<Vec<_>>(),
        ["Python", "2", "2 (100 %)", "1 (50 %)", "2 -> 0"]
    );
    assert_eq!(contents(&repo.dir), before);

    let json = repo.pleach(["replay", ".", "--range", "main", "--format", "json"]).out;
    let files: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(files.as_array().unwrap().len(), 1);
    assert_eq!(files[0]["commit"], repo.ok(["rev-parse", "main"]).trim());
    assert_eq!((&files[0]["line_conflicts"], &files[0]["conflicts"]), (&1.into(), &0.into()));
    assert_eq!((&files[0]["line_disputed"], &files[0]["disputed"]), (&2.into(), &0.into()));
    assert_eq!(files[0]["as_committed"], true);
}

#[test]
fn replay_of_what_is_no_repository_is_an_error() {
    let dir = TempDir::new().unwrap();
    let ran = crate::support::run(crate::support::PLEACH, dir.path(), ["replay"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.starts_with("pleach: no history to replay in .: "), "{ran:?}");
    let ran = crate::support::run(crate::support::PLEACH, dir.path(), ["replay", "nowhere"]);
    assert_eq!(ran.err, "pleach: no history to replay in nowhere: there is no directory nowhere\n");
}

#[test]
fn replay_of_a_history_without_conflicts_says_so_in_one_line() {
    let dir = TempDir::new().unwrap();
    let ran = forked(dir.path()).pleach(["replay"]);
    assert_eq!(
        (ran.status, &*ran.out),
        (Some(0), "0 merges: lines alone left no file that pleach reads in conflict.\n")
    );
}

/// Git says in the environment of a hook which repository it runs for.
#[test]
fn replay_of_another_repository_is_of_that_one_in_a_hook_too() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    let other = Repo::init(dir.path().join("other"));
    let mut replay = crate::support::program(crate::support::PLEACH, &other.dir);
    let ran = replay.args(["replay", "../fork"]).env("GIT_DIR", ".git").env("GIT_WORK_TREE", ".").output().unwrap();
    assert!(String::from_utf8_lossy(&ran.stdout).starts_with("1 merge\n"), "{ran:?}");
}
