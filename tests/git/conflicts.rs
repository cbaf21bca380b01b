//! Where pleach leaves a conflict as lines, nobody can tell it from git's own: style, marker size,
//! labels, line endings and final newlines, in every command that merges.

use std::path::Path;

use tempfile::TempDir;

use crate::support::{Repo, TIDES, forked, ours, theirs};

pub const FILE: &str = "stations.txt";
pub const BASE: &str = "Aberdeen 57.14\nBrest 48.38\nCuxhaven 53.87\nDover 51.11\nEsbjerg 55.46\n";

/// Runs a story twice, with `*.txt` going to pleach and with git's own merge, and compares what is
/// left in the worktree, in the index and as exit status.
#[track_caller]
pub fn same(tell: impl Fn(&Repo) -> Option<i32>) -> String {
    same_as(BASE, tell)
}

#[track_caller]
fn same_as(base: &str, tell: impl Fn(&Repo) -> Option<i32>) -> String {
    let run_one = |with_pleach: bool| {
        let dir = TempDir::new().unwrap();
        let repo = conflicting(dir.path(), base);
        if with_pleach {
            repo.install();
            let attributes = repo.read(".git/info/attributes") + "*.txt merge=pleach\n";
            repo.write(".git/info/attributes", attributes);
        }
        let status = tell(&repo);
        (status, repo.read(FILE), repo.ok(["ls-files", "-s"]), repo.dir.join(".git/pleach").exists())
    };
    let (git, pleach) = (run_one(false), run_one(true));
    assert_eq!((pleach.0, &pleach.1, &pleach.2), (git.0, &git.1, &git.2));
    assert!(pleach.3, "pleach was called");
    pleach.1
}

/// Both sides place Brest, each elsewhere.
pub fn conflicting(dir: &Path, base: &str) -> Repo {
    let repo = Repo::init(dir.join("fork"));
    repo.write(FILE, base).commit("List stations");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write(FILE, base.replace("48.38", "48.3829")).commit("fix: place Brest (better)");
    repo.ok(["checkout", "-q", "main"]);
    repo.write(FILE, base.replace("48.38", "48.40")).commit("Place Brest");
    repo
}

#[test]
fn merge_writes_gits_conflict_in_every_style() {
    for style in ["merge", "diff3", "zdiff3"] {
        let text = same(|repo| {
            repo.ok(["config", "merge.conflictStyle", style]);
            repo.run(["merge", "upstream"]).status
        });
        assert!(text.contains("<<<<<<< HEAD\nBrest 48.40\n"), "{text}");
        assert_eq!(text.contains("||||||| "), style != "merge");
    }
}

#[test]
fn conflicts_with_nothing_but_rules_between_them_stay_two() {
    let base = "Brest 48.38\n----\n\n----\n\n----\nDover 48.38\n";
    let text = same_as(base, |repo| repo.run(["merge", "upstream"]).status);
    assert_eq!(text.matches("<<<<<<< HEAD").count(), 2, "{text}");
}

#[test]
fn rebase_cherry_pick_and_revert_write_gits_conflict() {
    let diff3 = |repo: &Repo| drop(repo.ok(["config", "merge.conflictStyle", "diff3"]));
    for command in [
        &["rebase", "upstream"][..],
        &["rebase", "--apply", "upstream"],
        &["cherry-pick", "upstream"],
        &["merge", "--squash", "upstream"],
    ] {
        let text = same(|repo| {
            diff3(repo);
            repo.run(command).status
        });
        assert!(text.contains("||||||| "), "{command:?}: {text}");
    }
    same(|repo| {
        repo.write(FILE, BASE.replace("48.38", "48.41")).commit("Place Brest again");
        repo.run(["revert", "--no-edit", "HEAD~1"]).status
    });
}

#[test]
fn stash_am_apply_and_checkout_write_gits_conflict() {
    same(|repo| {
        repo.ok(["checkout", "-q", "main~1"]);
        repo.write(FILE, BASE.replace("48.38", "48.42"));
        repo.ok(["stash", "-q"]);
        repo.ok(["checkout", "-q", "main"]);
        repo.run(["stash", "pop"]).status
    });
    for command in ["am", "apply"] {
        same(|repo| {
            let patch = repo.ok(["format-patch", "-1", "--stdout", "upstream"]);
            repo.write("../patch", patch);
            repo.run([command, "-3", "../patch"]).status
        });
    }
    same(|repo| {
        repo.ok(["checkout", "-q", "main~1"]);
        repo.write(FILE, BASE.replace("48.38", "48.42"));
        repo.run(["checkout", "-m", "main"]).status
    });
}

#[test]
fn the_marker_size_of_the_attribute_is_used() {
    let text = same(|repo| {
        repo.write(".gitattributes", "*.txt conflict-marker-size=12\n");
        repo.run(["merge", "upstream"]).status
    });
    assert!(text.contains("<<<<<<<<<<<< HEAD\n"), "{text}");
}

#[test]
fn a_renamed_file_is_labelled_with_both_names() {
    let run_one = |with_pleach: bool| {
        let dir = TempDir::new().unwrap();
        let repo = conflicting(dir.path(), BASE);
        if with_pleach {
            repo.install();
            repo.write(".git/info/attributes", "*.txt merge=pleach\n");
        }
        repo.ok(["mv", FILE, "ports.txt"]);
        repo.commit("Call them ports");
        repo.run(["merge", "upstream"]);
        repo.read("ports.txt")
    };
    assert_eq!(run_one(true), run_one(false));
    assert!(run_one(true).contains("<<<<<<< HEAD:ports.txt\n"));
}

#[test]
fn crlf_files_and_missing_final_newlines_come_out_as_in_git() {
    let crlf = BASE.replace('\n', "\r\n");
    let text = same_as(&crlf, |repo| repo.run(["merge", "upstream"]).status);
    assert!(text.contains("<<<<<<< HEAD\r\n"), "{text:?}");
    same_as(BASE.trim_end(), |repo| repo.run(["merge", "upstream"]).status);
    same_as("Brest 48.38", |repo| repo.run(["merge", "upstream"]).status);
}

#[test]
fn converted_line_endings_come_out_as_in_git() {
    for setting in [["core.autocrlf", "true"], ["core.autocrlf", "input"], ["core.eol", "crlf"]] {
        let text = same(|repo| {
            repo.write(".gitattributes", "*.txt text=auto\n").commit("Have line endings converted");
            repo.ok(["config", setting[0], setting[1]]);
            repo.ok(["checkout", "-q", "--", "."]);
            repo.run(["merge", "upstream"]).status
        });
        assert_eq!(text.contains("<<<<<<< HEAD\r\n"), setting[1] != "input", "{setting:?}: {text:?}");
    }
    let text = same(|repo| {
        repo.write(".gitattributes", "*.txt eol=crlf\n").commit("Have line endings converted");
        repo.run(["merge", "upstream"]).status
    });
    assert!(text.contains("<<<<<<< HEAD\r\n"));
}

#[test]
fn a_file_added_by_both_sides_conflicts_as_in_git() {
    same(|repo| {
        repo.ok(["checkout", "-q", "upstream"]);
        repo.write("ports.txt", "Hull\nLeith\n").commit("List ports");
        repo.ok(["checkout", "-q", "main"]);
        repo.write("ports.txt", "Hull\nLeer\n").commit("List ports");
        let status = repo.run(["merge", "upstream"]).status;
        assert!(repo.read("ports.txt").contains("======="));
        let text = repo.read("ports.txt");
        repo.write(FILE, text);
        status
    });
}

#[test]
fn rerere_records_and_replays_over_conflicts_of_pleach() {
    let text = same(|repo| {
        repo.ok(["config", "rerere.enabled", "true"]);
        repo.run(["merge", "upstream"]);
        repo.write(FILE, BASE.replace("48.38", "48.39")).commit("Merge");
        repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
        let again = repo.run(["merge", "upstream"]);
        assert!(again.err.contains("Resolved 'stations.txt' using previous resolution."), "{again:?}");
        again.status
    });
    assert!(text.contains("48.39") && !text.contains("<<<"), "{text}");
}

#[test]
fn rerere_replays_over_a_conflict_that_syntax_made_small() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["config", "rerere.enabled", "true"]);
    repo.write("src/tides.py", TIDES.replace("(station)\n", "(station, unit='m', timeout=3)\n")).commit("Wait less");
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let conflict = repo.read("src/tides.py");
    assert!(conflict.contains("<<<<<<< HEAD\n"), "{conflict}");
    let resolved = TIDES.replace("(station)\n", "(station, unit='m', timeout=4)\n");
    repo.write("src/tides.py", &resolved).commit("Merge");
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.run(["merge", "upstream"]);
    assert_eq!(repo.read("src/tides.py"), resolved);
}

/// Git before 2.44 passes no labels.
#[test]
fn an_older_git_gets_its_conflicts_too() {
    let dir = TempDir::new().unwrap();
    let mut repo = forked(dir.path());
    let old = "/usr/bin/git";
    let version = crate::support::run(old, dir.path(), ["--version"]).out;
    let minor: u32 = version.split('.').nth(1).and_then(|n| n.parse().ok()).unwrap_or(u32::MAX);
    if minor >= 44 {
        eprintln!("skipped: {old} is {version}");
        return;
    }
    repo.git = old.to_owned();
    repo.write("src/tides.py", ours(&theirs(TIDES).replace("=5", "=3"))).commit("Wait less");
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let text = repo.read("src/tides.py");
    assert!(text.contains("<<<<<<< ours\n") && text.contains(">>>>>>> theirs\n"), "{text}");
}

/// Neither git nor pleach can know which version goes with the rest of a lock file; the tool that writes it can.
#[test]
fn a_package_that_both_sides_locked_is_in_dispute_and_stderr_says_how_to_lock_again() {
    let dir = TempDir::new().unwrap();
    let lock = |serial: &str| {
        let package = |name: &str, version: &str| format!("[[package]]\nname = \"{name}\"\nversion = \"{version}\"\n");
        format!("version = 4\n\n{}\n{}", package("pyserial", serial), package("tides", "1.0.0"))
    };
    let repo = Repo::init(dir.path().join("fork"));
    repo.write("uv.lock", lock("3.4")).commit("Lock");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write("uv.lock", lock("3.5")).commit("Lock upstream's");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("uv.lock", lock("3.6")).commit("Lock the fork's");
    repo.install();
    let again = "a tool writes this file: keep either side, then have it written again with `uv lock`";
    let ran = repo.pleach(["forecast", "upstream"]);
    assert!(ran.out.contains(again), "{ran:?}");
    let ran = repo.run(["merge", "upstream"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(repo.read("uv.lock").contains("<<<<<<< HEAD\nversion = \"3.6\"\n=======\nversion = \"3.5\"\n"), "{ran:?}");
    assert!(ran.err.contains(&format!("uv.lock: {again}")), "{ran:?}");

    for (version, text) in [("base", lock("3.4")), ("ours", lock("3.6")), ("theirs", lock("3.5"))] {
        repo.write(Path::new(version).join("uv.lock"), text);
    }
    let ran = repo.pleach(["merge-file", "-p", "ours/uv.lock", "base/uv.lock", "theirs/uv.lock"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.err.contains(&format!("ours/uv.lock: {again}")), "{ran:?}");
}
