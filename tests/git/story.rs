//! The story that the README tells: a fork syncs with its upstream.

use std::path::Path;

use tempfile::TempDir;

use crate::support::{PLEACH, Ran, Repo, TIDES, both, forked, ours, theirs};

const README: &str = include_str!("../../README.md");

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

#[test]
fn a_sync_that_was_merged_is_done_with_and_one_that_was_squashed_meets_the_same_conflict_again() {
    for (way, again) in [(["merge", "upstream"].as_slice(), false), (&["merge", "--squash", "upstream"], true)] {
        let dir = TempDir::new().unwrap();
        let fork = forked(dir.path());
        fork.write("src/tides.py", ours(&theirs(TIDES).replace("=5", "=3"))).commit("Wait less");
        assert_eq!(fork.run(way).status, Some(1));
        fork.write("src/tides.py", ours(&theirs(TIDES).replace("=5", "=4"))).commit("Sync");
        fork.ok(["checkout", "-q", "upstream"]);
        fork.write("NEWS", "Release 2.\n").commit("Release").ok(["checkout", "-q", "main"]);
        let next = fork.run(["merge", "--no-edit", "upstream"]);
        assert_eq!(next.status, Some(i32::from(again)), "{way:?}: {next:?}");
        assert_eq!(fork.status(), if again { "A  NEWS\nUU src/tides.py\n" } else { "" });
    }
}

/// A harbour authority's fork of tideboard, both changed, and the commands of the README's section on
/// syncing, typed in it as they stand there.
fn typed(dir: &Path, install: bool) -> (Repo, Vec<(String, Ran)>) {
    let tideboard = Repo::init(dir.join("tideboard"));
    tideboard.write("src/tides.py", TIDES).commit("Show the tide");
    let fork = Repo::clone_of(&tideboard, dir.join("fork"));
    tideboard.write("src/tides.py", theirs(TIDES)).commit("Give up after five seconds");
    fork.write("src/tides.py", ours(TIDES)).commit("Show metres");
    if install {
        fork.install();
    }
    let section = README.split_once("\n## Sync a fork\n").unwrap().1;
    let block = section.split_once("```sh\n").unwrap().1.split_once("```").unwrap().0;
    let path = std::env::join_paths(
        std::iter::once(Path::new(PLEACH).parent().unwrap().to_owned())
            .chain(std::env::split_paths(&std::env::var_os("PATH").unwrap())),
    );
    let path = path.unwrap();
    let type_in = |line: &str| {
        let line = line.replace("https://example.org/tideboard.git", "../tideboard");
        let mut shell = crate::support::program("sh", &fork.dir);
        shell.args(["-c", &line]).env("PATH", &path).env("GIT_EDITOR", "true");
        (line, Ran::from(shell.output().unwrap()))
    };
    let ran = block.lines().map(type_in).collect();
    (fork, ran)
}

/// What became of the command that begins so.
fn after<'r>(ran: &'r [(String, Ran)], command: &str) -> &'r Ran {
    &ran.iter().find(|(line, _)| line.starts_with(command)).unwrap_or_else(|| panic!("{command} is not told")).1
}

#[test]
fn the_commands_of_the_readme_sync_the_fork_with_pleach() {
    let dir = TempDir::new().unwrap();
    let (fork, ran) = typed(dir.path(), true);
    for (line, ran) in &ran {
        assert_eq!(ran.status, Some(0), "{line}: {ran:?}");
    }
    let forecast = &after(&ran, "pleach forecast").out;
    assert!(forecast.contains("would stop at 1 file as lines, and at none with pleach"), "{forecast}");
    assert!(after(&ran, "git merge").err.contains("src/tides.py: 1 place combined as syntax"), "{ran:?}");
    assert_eq!(after(&ran, "git diff").out, "", "nothing is left");
    assert!(after(&ran, "pleach log").out.starts_with("Merge of upstream/main into "));
    assert_eq!(fork.read("src/tides.py"), both(TIDES));
    assert_eq!(fork.ok(["log", "-1", "--format=%P"]).split_whitespace().count(), 2, "git has committed it");
    assert_eq!(fork.ok(["branch", "--show-current"]), "sync\n");
}

#[test]
fn the_commands_of_the_readme_stop_at_a_conflict_without_pleach() {
    let dir = TempDir::new().unwrap();
    let (fork, ran) = typed(dir.path(), false);
    let forecast = &after(&ran, "pleach forecast").out;
    assert!(forecast.contains("Git does not call pleach here yet: run pleach install."), "{forecast}");
    assert_eq!(after(&ran, "git merge").status, Some(1));
    assert!(after(&ran, "git diff").out.contains("++<<<<<<< HEAD\n"));
    assert_eq!(after(&ran, "pleach log").out, "git has not called pleach here yet\n");
    assert_eq!(fork.status(), "UU src/tides.py\n");
}

#[test]
fn the_readmes_other_way_is_a_pull_and_does_the_same() {
    let dir = TempDir::new().unwrap();
    let (fork, _) = typed(dir.path(), true);
    let pull = README.split("# or: ").find(|text| text.starts_with("git pull ")).unwrap().lines().next().unwrap();
    fork.ok(["reset", "-q", "--hard", "main"]);
    let pulled = fork.run(pull.split(' ').skip(1).chain(["--no-edit"]));
    assert_eq!(pulled.status, Some(0), "{pull}: {pulled:?}");
    assert_eq!(fork.read("src/tides.py"), both(TIDES));
}
