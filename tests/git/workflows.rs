//! Whatever command makes git merge, both sides' changes of one call are combined.

use std::fs;

use tempfile::TempDir;

use crate::support::{Repo, TIDES, both, both_swapped, forked, forked_without_pleach, ours, theirs};

const FILE: &str = "src/tides.py";

/// What pleach says of a merge of [`FILE`] that it combined.
const SAID: &str = "combined as syntax; review";

#[test]
fn without_pleach_the_two_changes_conflict() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    assert!(repo.read(FILE).contains("<<<<<<< HEAD\n"));
}

#[test]
fn merge_combines_both_changes_of_one_call_and_says_so() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let ran = repo.run(["merge", "--no-edit", "upstream"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(repo.read(FILE), both(TIDES));
    assert!(ran.err.contains(SAID), "{ran:?}");
    assert_eq!(repo.status(), "");
    assert_eq!(repo.ok(["rev-list", "--count", "HEAD"]), "4\n");
}

#[test]
fn merge_from_a_subdirectory_does_too() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["-C", "src", "merge", "--no-edit", "upstream"]);
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn pull_from_a_second_repository_combines_both_changes() {
    let dir = TempDir::new().unwrap();
    let upstream = Repo::init(dir.path().join("tideboard"));
    upstream.write(FILE, TIDES).commit("Show the tide");
    let fork = Repo::clone_of(&upstream, dir.path().join("harbour"));
    upstream.write(FILE, theirs(TIDES)).commit("Give up after five seconds");
    fork.install().write(FILE, ours(TIDES)).commit("Show metres");
    fork.ok(["pull", "-q", "--no-rebase", "--no-edit"]);
    assert_eq!(fork.read(FILE), both(TIDES));
}

#[test]
fn rebase_combines_both_changes_though_it_calls_upstream_ours() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["rebase", "-q", "upstream"]);
    assert_eq!(repo.read(FILE), both_swapped(TIDES));
    assert_eq!(repo.ok(["rev-list", "--count", "--merges", "HEAD"]), "0\n");
}

#[test]
fn rebase_by_patches_combines_both_changes() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["rebase", "-q", "--apply", "upstream"]);
    assert_eq!(repo.read(FILE), both_swapped(TIDES));
}

#[test]
fn cherry_pick_combines_both_changes() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["cherry-pick", "upstream"]);
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn revert_takes_back_one_argument_and_keeps_the_later_one() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write(FILE, both(TIDES)).commit("Give up after five seconds");
    repo.ok(["revert", "--no-edit", "HEAD~1"]);
    assert_eq!(repo.read(FILE), theirs(TIDES));
}

#[test]
fn stash_pop_combines_the_stashed_change_with_a_later_commit() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.write(FILE, theirs(TIDES));
    repo.ok(["stash", "-q"]);
    repo.write(FILE, ours(TIDES)).commit("Show metres");
    repo.ok(["stash", "pop", "-q"]);
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn am_with_three_way_fallback_combines_both_changes() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let patch = repo.ok(["format-patch", "-1", "--stdout", "upstream"]);
    fs::write(dir.path().join("patch"), patch).unwrap();
    repo.ok(["am", "-q", "-3", "../patch"]);
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn apply_with_three_way_fallback_combines_both_changes() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let patch = repo.ok(["format-patch", "-1", "--stdout", "upstream"]);
    fs::write(dir.path().join("patch"), patch).unwrap();
    repo.ok(["apply", "-3", "../patch"]);
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn merge_tree_writes_a_tree_with_both_changes_and_leaves_the_worktree_alone() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let tree = repo.ok(["merge-tree", "--write-tree", "main", "upstream"]);
    assert_eq!(repo.ok(["show", &format!("{}:{FILE}", tree.trim())]), both(TIDES));
    assert_eq!(repo.read(FILE), ours(TIDES));
    assert_eq!(repo.status(), "");
}

#[test]
fn merge_tree_does_so_in_a_bare_repository() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.ok(["clone", "-q", "--bare", ".", "../bare.git"]);
    let bare = Repo { dir: dir.path().join("bare.git"), git: "git".to_owned() };
    bare.install();
    let tree = bare.ok(["merge-tree", "--write-tree", "main", "upstream"]);
    assert_eq!(bare.ok(["show", &format!("{}:{FILE}", tree.trim())]), both(TIDES));
}

#[test]
fn checkout_that_merges_local_changes_combines_them() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.write(FILE, ours(TIDES));
    repo.ok(["checkout", "-q", "-m", "upstream"]);
    assert_eq!(repo.read(FILE), both_swapped(TIDES));
}

/// Git merges the files of an octopus with `git merge-file`, whatever the attributes say.
#[test]
fn an_octopus_merge_is_gits_own_and_ends_as_without_pleach() {
    let run_one = |with_pleach: bool, docs: &str| {
        let dir = TempDir::new().unwrap();
        let repo = forked_without_pleach(dir.path());
        if with_pleach {
            repo.install();
        }
        repo.ok(["checkout", "-q", "-b", "docs", "main~1"]);
        repo.write(FILE, docs).commit("Explain");
        repo.ok(["checkout", "-q", "main~1"]);
        repo.write("NEWS", "soon\n").commit("Announce");
        let ran = repo.run(["merge", "--no-edit", "docs", "upstream"]);
        // Its labels are the names of temporary files.
        let text = repo.read(FILE);
        let text: Vec<_> =
            text.lines().map(|l| l.split(".merge_file_").next().unwrap_or_default().to_owned()).collect();
        (ran, text, repo.dir.join(".git/pleach").exists())
    };
    let clean = format!("\"\"\"Tides.\"\"\"\n{TIDES}");
    assert_eq!(run_one(true, &clean), run_one(false, &clean));
    assert_eq!(run_one(true, &clean).1.join("\n") + "\n", theirs(&clean));
    let conflicting = ours(TIDES);
    assert_eq!(run_one(true, &conflicting), run_one(false, &conflicting));
    assert_ne!(run_one(true, &conflicting).0.status, Some(0));
}

/// Two branches that have merged each other's first commit: two common ancestors.
fn crossed(repo: &Repo) {
    repo.ok(["branch", "harbour-1", "main"]);
    repo.ok(["branch", "release-1", "upstream"]);
    repo.ok(["merge", "-q", "--no-edit", "release-1"]);
    repo.ok(["checkout", "-q", "upstream"]);
    repo.ok(["merge", "-q", "--no-edit", "harbour-1"]);
    repo.ok(["checkout", "-q", "main"]);
    assert_eq!(repo.ok(["merge-base", "--all", "main", "upstream"]).lines().count(), 2);
}

#[test]
fn a_criss_cross_merge_whose_ancestors_merge_is_combined() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.install();
    repo.write(FILE, TIDES).write("README", "tides\n").commit("Show the tide");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write("README", "tides for all\n").commit("Say for whom");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("NEWS", "metres soon\n").commit("Announce");
    crossed(&repo);
    repo.write(FILE, ours(TIDES)).commit("Show metres");
    repo.ok(["checkout", "-q", "upstream"]);
    repo.write(FILE, theirs(TIDES)).commit("Give up after five seconds");
    repo.ok(["checkout", "-q", "main"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn a_criss_cross_merge_whose_ancestors_conflict_is_what_git_makes_of_it() {
    let run_one = |with_pleach: bool| {
        let dir = TempDir::new().unwrap();
        let repo = match with_pleach {
            true => forked(dir.path()),
            false => forked_without_pleach(dir.path()),
        };
        // Both resolved the same conflict, each in another way.
        for (branch, other, resolved) in
            [("main", "upstream", both(TIDES)), ("upstream", "main~1", both_swapped(TIDES))]
        {
            repo.ok(["checkout", "-q", branch]);
            repo.run(["merge", "--no-commit", other]);
            repo.write(FILE, resolved).ok(["add", "-A"]);
            repo.ok(["commit", "-q", "-m", "Merge"]);
        }
        repo.ok(["checkout", "-q", "main"]);
        assert_eq!(repo.ok(["merge-base", "--all", "main", "upstream"]).lines().count(), 2);
        let ran = repo.run(["-c", "merge.conflictStyle=diff3", "merge", "--no-edit", "upstream"]);
        (ran.status, repo.read(FILE))
    };
    let (status, text) = run_one(true);
    assert_eq!((status, text.clone()), run_one(false));
    assert!(text.contains("Temporary merge branch"), "the ancestor holds a conflict: {text}");
}

#[test]
fn a_rename_on_one_side_and_edits_on_both_are_combined() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["mv", FILE, "src/levels.py"]);
    repo.commit("Call it by what it shows");
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read("src/levels.py"), both(TIDES));
    assert!(!repo.dir.join(FILE).exists());
}

#[cfg(unix)]
#[test]
fn a_mode_change_on_one_side_is_kept_with_both_edits() {
    use std::os::unix::fs::PermissionsExt;
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["checkout", "-q", "upstream"]);
    fs::set_permissions(repo.dir.join(FILE), fs::Permissions::from_mode(0o755)).unwrap();
    repo.commit("Make it a program");
    repo.ok(["checkout", "-q", "main"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read(FILE), both(TIDES));
    assert!(repo.ok(["ls-files", "-s", FILE]).starts_with("100755 "));
    assert_eq!(fs::metadata(repo.dir.join(FILE)).unwrap().permissions().mode() & 0o111, 0o111);
}

#[test]
fn what_no_grammar_reads_is_merged_as_git_does() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    let stations = "Aberdeen\nBrest\nCuxhaven\nDover\nEsbjerg\n";
    repo.install().write("stations.txt", stations).commit("List stations");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write("stations.txt", stations.replace("Esbjerg", "Esbjerg 55.46")).commit("Place it");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("stations.txt", stations.replace("Aberdeen", "Aberdeen 57.14")).commit("Place another");
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read("stations.txt"), "Aberdeen 57.14\nBrest\nCuxhaven\nDover\nEsbjerg 55.46\n");
    assert!(!repo.dir.join(".git/pleach").exists(), "git did not call pleach");
}

#[test]
fn a_linguist_language_attribute_says_what_a_file_is() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.write(".gitattributes", "bin/tide linguist-language=python merge=pleach\nbin/*.py linguist-language=Forth\n");
    repo.write("bin/tide", TIDES).write("bin/odd.py", TIDES).commit("Show the tide");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write("bin/tide", theirs(TIDES)).write("bin/odd.py", theirs(TIDES)).commit("Give up after five seconds");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("bin/tide", ours(TIDES)).write("bin/odd.py", ours(TIDES)).commit("Show metres");
    repo.install();
    assert_eq!(repo.run(["merge", "--no-edit", "upstream"]).status, Some(1));
    assert_eq!(repo.read("bin/tide"), both(TIDES));
    assert!(repo.read("bin/odd.py").contains("<<<<<<<"), "what is no Python by attribute is merged as lines");
}

#[test]
fn a_file_is_known_by_its_first_line_too() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    let script = format!("#!/usr/bin/env python3\n{TIDES}");
    repo.write(".gitattributes", "bin/* merge=pleach\n").write("bin/tide", &script).commit("Show the tide");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write("bin/tide", theirs(&script)).commit("Give up after five seconds");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("bin/tide", ours(&script)).commit("Show metres");
    repo.install().ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read("bin/tide"), both(&script));
}

#[test]
fn what_a_fork_edited_is_merged_into_files_whose_line_endings_upstream_changed() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let dos = |text: &str| text.replace('\n', "\r\n");
    let text = TIDES.replace("\n\n\ndef", "\n\nLIMIT = 4\n\n\ndef");
    repo.write(FILE, dos(&text)).commit("Write it on Windows");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.write(FILE, theirs(&text)).commit("Store line feeds, and give up after five seconds");
    repo.ok(["checkout", "-q", "-B", "main", "HEAD~1"]);
    repo.write(FILE, dos(&ours(&text))).commit("Show metres");
    let forecast = repo.install().pleach(["forecast", "upstream"]);
    assert!(forecast.out.contains("src/tides.py  1 conflict  merges, 1 place combined\n"), "{forecast:?}");
    let ran = repo.run(["merge", "-q", "--no-edit", "upstream"]);
    let told = "pleach: src/tides.py: all lines end with LF now, as in theirs\n";
    assert!(ran.status == Some(0) && ran.err.starts_with(told), "{ran:?}");
    assert_eq!(repo.read(FILE), both(&text));
    assert!(repo.pleach(["log"]).out.contains("  note: all lines end with LF now, as in theirs\n"));
}
