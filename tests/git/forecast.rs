//! `pleach forecast` before a merge, and that it comes so.

use tempfile::TempDir;

use crate::support::{Repo, TIDES, contents, forked, forked_without_pleach, ours, theirs};

const FILE: &str = "src/tides.py";

/// A merge in which one file needs a person either way, one only as lines, and one is deleted.
fn mixed(repo: &Repo) {
    let base = "def low(station):\n    return fetch(station, 0)\n";
    repo.ok(["checkout", "-q", "main~1"]);
    repo.write("low.py", base).write("old.py", TIDES).write("notes.txt", "one\n").commit("Add files");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    let change = |repo: &Repo, n: &str, text: String| {
        repo.write("low.py", base.replace('0', n)).write("notes.txt", n.repeat(3)).write(FILE, text);
    };
    change(repo, "1", theirs(TIDES));
    repo.write("old.py", theirs(TIDES)).commit("Change them");
    repo.ok(["checkout", "-q", "-B", "main", "HEAD~1"]);
    change(repo, "2", ours(TIDES));
    repo.ok(["rm", "-q", "-f", "old.py"]);
    repo.commit("Change them otherwise");
}

#[test]
fn it_says_which_files_would_stop_and_what_needs_a_person_and_changes_nothing() {
    for installed in [false, true] {
        let dir = TempDir::new().unwrap();
        let repo = if installed { forked(dir.path()) } else { forked_without_pleach(dir.path()) };
        mixed(&repo);
        repo.ok(["status"]);
        let before = contents(&repo.dir);
        let ran = repo.pleach(["forecast", "upstream"]);
        assert_eq!(contents(&repo.dir), before);
        assert_eq!(ran.status, Some(1), "{ran:?}");
        let row = |name: &str| -> [String; 2] {
            let cells =
                ran.out.lines().find_map(|l| l.strip_prefix(name)).unwrap_or_else(|| panic!("{name} in {ran:?}"));
            let mut cells = cells.split("  ").map(|c| c.trim().to_owned()).filter(|c| !c.is_empty());
            [cells.next().unwrap(), cells.next().unwrap()]
        };
        assert!(row("low.py")[0] == "1 conflict" && row("low.py")[1].starts_with("1 conflict"), "{ran:?}");
        assert_eq!(row("notes.txt"), ["1 conflict", "1 conflict"], "{ran:?}");
        assert!(row(FILE)[0] == "1 conflict" && row(FILE)[1].starts_with("merges, "), "{ran:?}");
        assert!(
            row("old.py")[0] == "stops" && row("old.py")[1] == "stops: ours deleted it, theirs changed it",
            "{ran:?}"
        );
        assert!(ran.out.contains("would stop at 4 files as lines, and at 3 files with pleach."), "{ran:?}");
        assert!(
            ran.out.contains("\nlow.py, line 2 of the merged file\n  <<<<<<< HEAD\n      return fetch(station, 2)\n"),
            "{ran:?}"
        );
        assert_eq!(ran.out.contains("run pleach install"), !installed);

        // And so it comes: with pleach if it is installed, as lines if not.
        repo.run(["merge", "upstream"]);
        let unmerged = repo.ok(["diff", "--name-only", "--diff-filter=U"]);
        assert_eq!(unmerged.contains(FILE), !installed, "{unmerged}");
        assert_eq!(unmerged.lines().count(), if installed { 3 } else { 4 });
    }
}

#[test]
fn a_merge_that_goes_through_with_pleach_is_said_to() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let ran = repo.pleach_in("src", ["forecast", "upstream"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(ran.out.contains("would stop at 1 file as lines, and at none with pleach."), "{ran:?}");
    let json = repo.pleach(["forecast", "upstream", "--format", "json"]).out;
    let expectation: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(expectation["files"][0]["path"], FILE);
    assert_eq!(expectation["files"][0]["line_conflicts"], 1);
    assert_eq!(expectation["files"][0]["conflicts"], 0);
    assert_eq!(expectation["installed"], true);
}

#[test]
fn a_merge_without_any_conflict_needs_one_line() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["checkout", "-q", "-b", "docs", "main~1"]);
    repo.write("README.md", "# tideboard\n").commit("Explain").ok(["checkout", "-q", "main"]);
    let ran = repo.pleach(["forecast", "docs"]);
    assert_eq!((ran.status, &*ran.out), (Some(0), "docs would merge without a conflict, with or without pleach.\n"));
}

#[test]
fn from_a_subdirectory_files_are_called_and_treated_as_from_the_top() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    both_changed(&repo, &["low.py", "src/kept.py"]);
    repo.write(".git/info/attributes", repo.read(".git/info/attributes") + "/src/kept.py -merge\n");
    let forecast = repo.pleach(["forecast", "upstream"]);
    assert!(forecast.out.contains("\nsrc/kept.py  stops ") && forecast.out.contains("\nlow.py "), "{forecast:?}");
    assert_eq!(repo.pleach_in("src", ["forecast", "upstream"]), forecast);

    repo.run(["merge", "-q", "upstream"]);
    repo.ok(["commit", "-q", "-a", "-m", "Merge"]);
    let replay = |subdirectory: &str| -> Vec<(String, bool)> {
        let json = repo.pleach_in(subdirectory, ["replay", "--format", "json"]).out;
        let files: serde_json::Value = serde_json::from_str(&json).unwrap();
        let file = |f: &serde_json::Value| (f["path"].as_str().unwrap().to_owned(), f["as_committed"] == true);
        files.as_array().unwrap().iter().map(file).collect()
    };
    assert_eq!(replay("src"), [("low.py".to_owned(), true), ("src/kept.py".to_owned(), false)]);
    assert_eq!(replay("src"), replay(""));
}

#[test]
fn a_file_in_the_way_of_a_directory_is_called_as_the_merge_will_call_it() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["rm", "-q", FILE]);
    repo.write("src/tides.py/low.py", "LOW = 0\n").commit("Make it a package");
    let ran = repo.pleach(["forecast", "upstream"]);
    assert!(ran.out.contains("\nsrc/tides.py~upstream  stops "), "{ran:?}");
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    assert_eq!(repo.ok(["diff", "--name-only", "--diff-filter=U"]), "src/tides.py~upstream\n");
}

#[test]
fn what_is_not_fetched_yet_is_said_to_be_to_fetch() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["remote", "add", "tideboard", "../tideboard"]);
    for (name, hint) in [
        ("tideboard/main", "`git fetch tideboard` brings it if it is there"),
        ("tideboard", "tideboard is a remote repository: name a branch of it, such as tideboard/main"),
    ] {
        let ran = repo.pleach(["forecast", name]);
        assert_eq!((ran.status, ran.err), (Some(2), format!("pleach: there is no commit {name}; {hint}\n")));
    }
}

#[test]
fn a_commit_may_be_named_in_all_of_gits_ways() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["tag", "-a", "-m", "Release 2", "v2", "upstream"]);
    repo.ok(["branch", "-q", "--set-upstream-to", "upstream", "main"]);
    for name in [":/^Give up", "v2", "upstream@{0}", "main@{upstream}", "upstream~0"] {
        let ran = repo.pleach(["forecast", name]);
        let said = format!("Merging {name} would stop at 1 file as lines, and at none with pleach.");
        assert!(ran.out.contains(&said), "{ran:?}");
    }
}

#[cfg(unix)]
#[test]
fn a_git_that_cannot_merge_in_memory_is_said_to_be_too_old() {
    use std::os::unix::fs::PermissionsExt;
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let path = std::env::var("PATH").unwrap();
    let old = "#!/bin/sh\ncase \"$*\" in *merge-tree*) echo usage >&2; exit 129;; esac\n";
    repo.write("../bin/script", format!("{old}PATH='{path}' exec git \"$@\"\n"));
    std::fs::set_permissions(dir.path().join("bin/script"), std::fs::Permissions::from_mode(0o755)).unwrap();
    // By another process: see the tests of merge-file.
    assert_eq!(crate::support::run("cp", &dir.path().join("bin"), ["script", "git"]).status, Some(0));
    repo.ok(["checkout", "-q", "-b", "merged"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    repo.ok(["checkout", "-q", "main"]);
    for command in [&["forecast", "upstream"][..], &["replay"]] {
        let mut pleach = crate::support::program(crate::support::PLEACH, &repo.dir);
        pleach.args(command).env("PATH", format!("{}:{path}", dir.path().join("bin").display()));
        let ran = crate::support::Ran::from(pleach.output().unwrap());
        let said = "pleach: this git cannot merge in memory: its versions from 2.39 on can\n";
        assert_eq!((ran.status, &*ran.err), (Some(2), said));
    }
}

#[test]
fn where_everything_has_been_merged_it_says_that_there_is_nothing_to_merge() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    for name in ["main~1", "main"] {
        let ran = repo.pleach(["forecast", name]);
        let said = format!("HEAD has all of {name} already: there is nothing to merge.\n");
        assert_eq!((ran.status, ran.out), (Some(0), said));
    }
}

#[test]
fn without_a_name_it_is_the_upstream_of_the_branch() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let ran = repo.pleach(["forecast"]);
    assert_eq!(ran.status, Some(2));
    assert_eq!(ran.err, "pleach: this branch has no upstream; name what would be merged\n");
    repo.ok(["branch", "-q", "--set-upstream-to", "upstream"]);
    assert_eq!(repo.pleach(["forecast"]), repo.pleach(["forecast", "upstream"]));
    assert!(repo.pleach(["forecast"]).out.contains("\nMerging upstream would stop at 1 file as lines"));
    repo.ok(["checkout", "-q", "--detach"]);
    let ran = repo.pleach(["forecast"]);
    assert_eq!(
        (ran.status, &*ran.err),
        (Some(2), "pleach: HEAD is on no branch, so there is no upstream; name what would be merged\n")
    );
    let ran = repo.pleach(["forecast", "nowhere"]);
    assert_eq!((ran.status, &*ran.err), (Some(2), "pleach: there is no commit nowhere\n"));
    // What git refuses is not taken for something that is not there.
    let mut of_another = crate::support::program(crate::support::PLEACH, &repo.dir);
    of_another.args(["forecast", "upstream"]).env("GIT_TEST_ASSUME_DIFFERENT_OWNER", "1");
    let ran = crate::support::Ran::from(of_another.output().unwrap());
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.starts_with("pleach: git cannot tell which commit HEAD is: fatal: detected dubious"), "{ran:?}");
}

/// Two branches that have merged each other's first commits, which changed different functions, and
/// then changed one call, which lies in their common ancestor only once that is merged of two.
fn crossed(repo: &Repo) {
    let base = ["low", "high", "mean", "last"]
        .map(|name| format!("def {name}(station):\n    return fetch(station, {name:?})\n"))
        .join("\n\n");
    repo.ok(["checkout", "-q", "main~1"]);
    repo.write(FILE, &base).commit("Show four levels");
    repo.ok(["branch", "-f", "upstream"]);
    repo.ok(["checkout", "-q", "-B", "main"]);
    let change = |from: &str, to: &str, why: &str| {
        repo.write(FILE, repo.read(FILE).replace(from, to)).commit(why);
        repo.head()
    };
    let ours = change("\"high\"", "\"high\", unit='m'", "Show metres");
    repo.ok(["checkout", "-q", "upstream"]);
    let theirs = change("\"mean\"", "\"mean\", timeout=5", "Give up after five seconds");
    repo.ok(["merge", "-q", "--no-edit", &ours]);
    change("\"low\"", "\"low\", timeout=5", "Give up on low water too");
    repo.ok(["checkout", "-q", "main"]);
    repo.ok(["merge", "-q", "--no-edit", &theirs]);
    change("\"low\"", "\"low\", unit='m'", "Show metres of low water too");
    assert_eq!(repo.ok(["merge-base", "--all", "main", "upstream"]).lines().count(), 2);
}

#[test]
fn branches_that_have_crossed_before_are_merged_from_the_ancestor_that_git_makes() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    crossed(&repo);
    let ran = repo.pleach(["forecast", "upstream"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(ran.out.contains("would stop at 1 file as lines, and at none with pleach."), "{ran:?}");

    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert!(repo.read(FILE).contains("fetch(station, \"low\", unit='m', timeout=5)"));
    let json = repo.pleach(["replay", ".", "--range", "HEAD~1..HEAD", "--format", "json"]).out;
    let files: serde_json::Value = serde_json::from_str(&json).unwrap();
    let files: Vec<_> = files.as_array().unwrap().iter().filter(|f| f["commit"] == repo.head()).collect();
    assert_eq!(files.len(), 1, "{json}");
    assert_eq!((&files[0]["conflicts"], &files[0]["as_committed"]), (&0.into(), &true.into()));
}

#[test]
fn an_object_that_is_not_there_is_an_error_and_no_empty_file() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let object = repo.ok(["rev-parse", &format!(":1:{FILE}")]);
    let object = object.trim();
    std::fs::remove_file(repo.dir.join(format!(".git/objects/{}/{}", &object[..2], &object[2..]))).unwrap();
    let before = repo.read(FILE);
    let ran = repo.pleach(["retry"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.out.contains(&format!("git has no object {object}")), "{ran:?}");
    assert_eq!(repo.read(FILE), before);
}

/// A commit on `main` and one on `upstream` that both change these files.
fn both_changed(repo: &Repo, files: &[&str]) {
    let each = |change: &dyn Fn(&str) -> String| {
        for file in files {
            repo.write(file, change(TIDES));
        }
    };
    repo.ok(["checkout", "-q", "main~1"]);
    each(&|text| format!("#!/usr/bin/env python3\n{text}"));
    repo.commit("Add files").ok(["branch", "-f", "upstream"]);
    repo.ok(["checkout", "-q", "-B", "main"]);
    each(&|text| format!("#!/usr/bin/env python3\n{}", ours(text)));
    repo.commit("Show metres").ok(["checkout", "-q", "upstream"]);
    each(&|text| format!("#!/usr/bin/env python3\n{}", theirs(text)));
    repo.commit("Give up after five seconds").ok(["checkout", "-q", "main"]);
}

#[test]
fn what_the_attributes_say_of_a_file_is_honoured() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    both_changed(&repo, &["tide", "kept.py", "both.py", "other.py", "own.py", "nobodys.py"]);
    repo.ok(["config", "merge.own.driver", "false"]);
    let attributes = repo.read(".git/info/attributes")
        + "kept.py -merge\nboth.py merge=union\nother.py merge\nown.py merge=own\nnobodys.py merge=nobody\n";
    repo.write(".git/info/attributes", attributes);
    let ran = repo.pleach(["forecast", "upstream"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    for (file, said) in [
        ("tide", "1 conflict"),
        ("kept.py", "stops: its attributes say that it is not to be merged"),
        ("other.py", "1 conflict"),
        ("own.py", "stops: that is what its own merge driver, own, makes of it"),
        ("nobodys.py", "1 conflict"),
    ] {
        let row = ran.out.lines().find(|l| l.starts_with(file)).unwrap_or_else(|| panic!("{file} in {ran:?}"));
        assert!(row.ends_with(said), "{row}");
        let note = format!("\n{file}\n  note: its attributes do not give it to pleach\n");
        assert_eq!(ran.out.contains(&note), said == "1 conflict", "{ran:?}");
    }
    assert!(!ran.out.contains("both.py"), "git itself unites it: {ran:?}");
    repo.run(["merge", "upstream"]);
    let unmerged = repo.ok(["diff", "--name-only", "--diff-filter=U"]);
    assert_eq!(unmerged, "kept.py\nnobodys.py\nother.py\nown.py\ntide\n");
}

#[test]
fn without_pleach_it_is_told_of_the_files_that_would_be_given_to_it() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    both_changed(&repo, &["tide", "low.py"]);
    let ran = repo.pleach(["forecast", "upstream"]);
    assert!(ran.out.contains("would stop at 2 files as lines, and at 1 file with pleach."), "{ran:?}");
    repo.install().run(["merge", "upstream"]);
    assert_eq!(repo.ok(["diff", "--name-only", "--diff-filter=U"]), "tide\n");
}

#[cfg(unix)]
#[test]
fn a_file_that_the_sides_added_with_different_modes_stops_the_merge() {
    use std::os::unix::fs::PermissionsExt;
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write("low.py", TIDES).commit("Show low water").ok(["checkout", "-q", "upstream"]);
    repo.write("low.py", TIDES);
    std::fs::set_permissions(repo.dir.join("low.py"), std::fs::Permissions::from_mode(0o755)).unwrap();
    repo.commit("Show low water").ok(["checkout", "-q", "main"]);
    let ran = repo.pleach(["forecast", "upstream"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.out.contains("stops: the sides added it with different modes"), "{ran:?}");
    assert_eq!(repo.run(["merge", "--no-edit", "upstream"]).status, Some(1));
}

#[test]
fn histories_that_have_nothing_in_common_are_refused_as_git_refuses_them() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["checkout", "-q", "--orphan", "other"]);
    repo.commit("Begin anew").ok(["checkout", "-q", "main"]);
    let ran = repo.pleach(["forecast", "other"]);
    assert_eq!(ran.status, Some(2));
    assert_eq!(ran.err, "pleach: other and HEAD have no commit in common, so git refuses to merge them\n");
    assert_ne!(repo.run(["merge", "other"]).status, Some(0));
}

#[test]
fn a_clone_that_is_too_shallow_to_merge_is_said_to_be_one() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let url = format!("file://{}", repo.dir.display());
    repo.ok(["clone", "-q", "--depth=1", "--no-single-branch", &url, "../shallow"]);
    let shallow = Repo { dir: dir.path().join("shallow"), git: "git".to_owned() };
    let ran = shallow.pleach(["forecast", "origin/upstream"]);
    assert_eq!(ran.status, Some(2));
    assert!(
        ran.err.ends_with("This clone is shallow: `git fetch --unshallow` brings the rest of the history\n"),
        "{ran:?}"
    );
    shallow.ok(["fetch", "-q", "--unshallow"]);
    let ran = shallow.pleach(["forecast", "origin/upstream"]);
    assert!(ran.out.contains("would stop at 1 file as lines, and at none with pleach."), "{ran:?}");
}

#[cfg(unix)]
#[test]
fn a_link_that_both_sides_changed_is_said_to_be_one() {
    use std::os::unix::fs::symlink;
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    for (branch, target) in [("main", "src/tides.py"), ("upstream", "src/levels.py")] {
        repo.ok(["checkout", "-q", branch]);
        symlink(target, repo.dir.join("tide.py")).unwrap();
        repo.commit("Link it");
    }
    repo.ok(["checkout", "-q", "main"]);
    let ran = repo.pleach(["forecast", "upstream"]);
    assert!(ran.out.contains("stops: both sides changed where this link leads"), "{ran:?}");
}

#[test]
fn of_a_long_conflict_the_few_lines_that_one_side_changed_are_told() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let read = |n: usize| format!("    def read_{n}(self):\n        return self.port.get({n}, datum={n})\n\n");
    let gauge: String = (0..12).map(read).collect();
    let base = format!("import os\n\n\nclass Gauge:\n{gauge}\nclass Lamp:\n    on = True\n");
    repo.write("gauge.py", &base).commit("Add a gauge");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.write("gauge.py", base.replace("get(7, ", "get(7, zone, ")).commit("Pass a zone");
    repo.ok(["checkout", "-q", "main"]);
    let moved = base.replace(&format!("class Gauge:\n{gauge}"), "from tideboard.gauges import Gauge\n\n");
    repo.write("gauge.py", moved).write("tideboard/gauges.py", format!("class Gauge:\n{gauge}"));
    repo.commit("Move the gauge to a file of its own");
    repo.install();

    let what = "theirs has 36 lines here, all but 1 as in base";
    let ran = repo.pleach(["forecast", "upstream"]);
    let changes = ["-        return self.port.get(7, datum=7)", "+        return self.port.get(7, zone, datum=7)"];
    let [old, new] = changes;
    let now = "ours has them in tideboard/gauges.py now";
    let told = format!("of the merged file\n  {what}; {now}\n    {old}\n    {new}\n  <<<<<<< HEAD\n");
    assert!(ran.out.contains(&told), "{ran:?}");

    let ran = repo.run(["merge", "upstream"]);
    assert!(ran.err.contains(&format!("gauge.py: conflict at line 4: {what} (pleach log)\n")), "{ran:?}");
    let log = repo.pleach(["log"]).out;
    let told = format!("      4  conflict: {what}\n         {}\n         {}\n", changes[0], changes[1]);
    assert!(log.contains(&told), "{log}");
    let markdown = repo.pleach(["log", "--format", "markdown"]).out;
    assert!(markdown.contains(&format!("- line 4, a conflict: {what}\n  - `{}`\n", changes[0])), "{markdown}");
}

#[test]
fn of_a_file_that_one_side_took_out_it_is_said_where_its_lines_are_and_what_the_other_changed() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let lines =
        |n: u8| format!("def low(levels):\n    return min(levels) + {n}\n\n\ndef show(level):\n    print(level)\n");
    let others: String = (0..9).map(|n| format!("def tide_{n}(station):\n    return {n}\n\n\n")).collect();
    repo.write("low.py", lines(1)).write("gone.py", "level = 4\n").write("high.py", &others).commit("Add levels");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.ok(["rm", "-q", "low.py", "gone.py"]);
    repo.write("high.py", others + &lines(1)).commit("Put the levels together");
    repo.ok(["checkout", "-q", "-B", "main", "HEAD~1"]);
    repo.write("low.py", lines(2)).write("gone.py", "level = 5\n").commit("Correct the levels");
    let ran = repo.pleach(["forecast", "upstream"]);
    let did = "theirs deleted it, ours changed it";
    let now = "; theirs has them in high.py now";
    assert!(
        ran.out.contains(&format!("\ngone.py  stops     stops: {did}\nlow.py   stops     stops: {did}{now}\n")),
        "{ran:?}"
    );
    let changes = "    -    return min(levels) + 1\n    +    return min(levels) + 2\n";
    assert!(ran.out.contains(&format!("\nlow.py\n  {did}{now}\n{changes}")), "{ran:?}");
    assert!(ran.out.contains(&format!("\ngone.py\n  {did}\n    -level = 4\n    +level = 5\n")), "{ran:?}");
}

#[test]
fn what_stands_in_the_way_of_a_file_is_not_said_to_have_deleted_it() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.write("low.py", TIDES).write("high.py", TIDES.replace("tide", "high")).commit("Add levels");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.ok(["rm", "-q", "low.py", "high.py"]);
    repo.write("low.py/all.txt", "4\n").commit("Keep levels in a directory");
    repo.ok(["checkout", "-q", "-B", "main", "HEAD~1"]);
    repo.write("low.py", ours(TIDES)).ok(["mv", "high.py", "highest.py"]);
    repo.commit("Show metres");
    let ran = repo.pleach(["forecast", "upstream"]);
    assert!(ran.out.contains("stops: ours changed it, theirs made it something else than a file\n"), "{ran:?}");
    assert!(ran.out.contains("\nhighest.py   stops     stops: theirs deleted it, ours renamed it\n"), "{ran:?}");
}
