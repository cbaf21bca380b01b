//! The story that the README tells: a fork syncs with its upstream.

use std::path::Path;

use tempfile::TempDir;

use crate::support::{Repo, TIDES, both, ours, theirs};

/// From `git clone` to the merge; what became of it and of the file.
fn sync(dir: &Path, prepare: impl Fn(&Repo)) -> (Option<i32>, Repo) {
    let tideboard = Repo::init(dir.join("tideboard"));
    tideboard.write("src/tides.py", TIDES).write("README.md", "# tideboard\n").commit("Show the tide");
    let harbour = Repo::clone_of(&tideboard, dir.join("harbour"));
    prepare(&harbour);
    harbour.write("src/tides.py", ours(TIDES)).commit("Show metres, as our pilots expect");
    tideboard.write("src/tides.py", theirs(TIDES)).commit("Give up after five seconds");
    tideboard.write("README.md", "# tideboard\n\nRelease 2.\n").commit("Release");
    harbour.ok(["fetch", "-q"]);
    (harbour.run(["merge", "--no-edit", "origin/main"]).status, harbour)
}

#[test]
fn with_pleach_the_fork_syncs_without_a_stop() {
    let dir = TempDir::new().unwrap();
    let (status, harbour) = sync(dir.path(), |harbour| {
        harbour.install();
    });
    assert_eq!(status, Some(0));
    assert_eq!(harbour.read("src/tides.py"), both(TIDES));
    assert_eq!(harbour.read("README.md"), "# tideboard\n\nRelease 2.\n");
    assert_eq!(harbour.ok(["log", "-1", "--format=%P"]).split_whitespace().count(), 2, "a merge commit");
    assert_eq!(harbour.status(), "");
    assert!(harbour.pleach(["log"]).out.contains("src/tides.py"));
}

#[test]
fn without_it_the_same_sync_stops_at_a_conflict() {
    let dir = TempDir::new().unwrap();
    let (status, harbour) = sync(dir.path(), |_| ());
    assert_eq!(status, Some(1));
    assert_eq!(harbour.status(), "M  README.md\nUU src/tides.py\n");
}

#[test]
fn a_sync_that_stopped_is_finished_by_installing_and_retrying() {
    let dir = TempDir::new().unwrap();
    let (_, harbour) = sync(dir.path(), |_| ());
    harbour.install();
    assert_eq!(harbour.pleach(["retry", "--stage"]).status, Some(0));
    harbour.ok(["commit", "-q", "--no-edit"]);
    assert_eq!(harbour.read("src/tides.py"), both(TIDES));
    assert_eq!(harbour.status(), "");
}

#[test]
fn a_team_shares_it_through_the_tracked_attributes_and_who_has_no_pleach_merges_as_lines() {
    let dir = TempDir::new().unwrap();
    let (status, harbour) = sync(dir.path(), |harbour| {
        assert_eq!(harbour.pleach(["install", "--shared"]).status, Some(0));
        harbour.commit("Merge source as syntax");
    });
    assert_eq!(status, Some(0));
    let colleague = Repo::clone_of(&harbour, dir.path().join("colleague"));
    colleague.ok(["reset", "-q", "--hard", "HEAD^1"]);
    let merge = ["merge", "--no-edit", "origin/main^2"];
    assert_eq!(colleague.run(merge).status, Some(1));
    colleague.ok(["merge", "--abort"]);
    colleague.pleach(["install", "--shared"]);
    colleague.ok(merge);
    assert_eq!(colleague.read("src/tides.py"), both(TIDES));
}
