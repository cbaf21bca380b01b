//! Where pleach leaves a conflict as lines, nobody can tell it from git's own: style, marker size,
//! labels, line endings and final newlines, in every command that merges.

use std::path::Path;

use tempfile::TempDir;

use crate::support::{Repo, TIDES, forked, ours, theirs};

const FILE: &str = "stations.txt";
const BASE: &str = "Aberdeen 57.14\nBrest 48.38\nCuxhaven 53.87\nDover 51.11\nEsbjerg 55.46\n";

/// Runs a story twice, with `*.txt` going to pleach and with git's own merge, and compares what is
/// left in the worktree, in the index and as exit status.
#[track_caller]
fn same(tell: impl Fn(&Repo) -> Option<i32>) -> String {
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
fn conflicting(dir: &Path, base: &str) -> Repo {
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
fn a_style_on_the_command_line_reaches_pleach() {
    let text = same(|repo| repo.run(["-c", "merge.conflictStyle=diff3", "merge", "upstream"]).status);
    assert!(text.contains("||||||| "), "{text}");
}

#[test]
fn a_style_in_an_included_file_reaches_pleach() {
    let text = same(|repo| {
        repo.write(".git/styles", "[merge]\n\tconflictStyle = diff3\n");
        repo.ok(["config", "include.path", "styles"]);
        repo.run(["merge", "upstream"]).status
    });
    assert!(text.contains("||||||| "), "{text}");
}

#[test]
fn a_style_in_a_file_that_the_command_line_includes_reaches_pleach_unless_it_says_otherwise() {
    for (more, style) in [(&[][..], true), (&["-c", "merge.conflictStyle=merge"], false)] {
        let text = same(|repo| {
            repo.write(".git/styles", "[merge]\n\tconflictStyle = diff3\n");
            let include = format!("include.path={}", repo.dir.join(".git/styles").display());
            repo.run([&["-c", &include][..], more, &["merge", "upstream"]].concat()).status
        });
        assert_eq!(text.contains("||||||| "), style, "{more:?}: {text}");
    }
}

#[test]
fn a_style_that_is_included_under_a_heading_in_any_case_reaches_pleach() {
    for heading in ["INCLUDE", "Include", "includeif \"onbranch:main\"", "IncludeIf \"gitdir:fork/\""] {
        let text = same(|repo| {
            repo.write(".git/styles", "[merge]\n\tconflictStyle = diff3\n");
            let config = repo.read(".git/config") + &format!("[{heading}]\n\tpath = styles\n");
            repo.write(".git/config", config).run(["merge", "upstream"]).status
        });
        assert!(text.contains("||||||| "), "{heading}: {text}");
    }
}

#[test]
fn a_style_that_is_included_for_one_branch_reaches_pleach() {
    for (branch, style) in [("main", true), ("other", false)] {
        let text = same(|repo| {
            repo.write(".git/styles", "[merge]\n\tconflictStyle = diff3\n");
            repo.ok(["config", &format!("includeIf.onbranch:{branch}.path"), "styles"]);
            repo.run(["merge", "upstream"]).status
        });
        assert_eq!(text.contains("||||||| "), style, "{text}");
    }
}

#[test]
fn a_configuration_of_the_worktree_that_git_does_not_read_is_not_read() {
    let text = same(|repo| {
        repo.write(".git/config.worktree", "[merge]\n\tconflictStyle = diff3\n");
        repo.run(["merge", "upstream"]).status
    });
    assert!(!text.contains("||||||| "), "{text}");
}

#[test]
fn a_style_in_the_configuration_of_the_worktree_reaches_pleach() {
    let text = same(|repo| {
        repo.ok(["config", "extensions.worktreeConfig", "true"]);
        repo.ok(["config", "--worktree", "merge.conflictStyle", "diff3"]);
        repo.run(["merge", "upstream"]).status
    });
    assert!(text.contains("||||||| "), "{text}");
}

#[test]
fn a_style_of_the_repository_reaches_pleach_in_a_linked_worktree() {
    let dir = TempDir::new().unwrap();
    let repo = conflicting(dir.path(), BASE);
    repo.install().write(".git/info/attributes", "*.txt merge=pleach\n");
    repo.ok(["config", "merge.conflictStyle", "diff3"]);
    repo.ok(["worktree", "add", "-q", "../sync", "-b", "sync", "main"]);
    let linked = Repo { dir: dir.path().join("sync"), git: "git".to_owned() };
    assert_eq!(linked.run(["merge", "upstream"]).status, Some(1));
    assert!(linked.read(FILE).contains("||||||| "), "{}", linked.read(FILE));
}

/// Git does not tell a driver its `-X` options, so there is a setting that says the same.
#[test]
fn one_side_can_be_favoured_by_a_setting() {
    for (favor, kept) in [("ours", "48.40"), ("theirs", "48.3829")] {
        let run_one = |with_pleach: bool| {
            let dir = TempDir::new().unwrap();
            let repo = conflicting(dir.path(), BASE);
            if with_pleach {
                repo.install().write(".git/info/attributes", "*.txt merge=pleach\n");
                repo.ok(["-c", &format!("pleach.favor={favor}"), "merge", "-q", "--no-edit", "upstream"]);
            } else {
                repo.ok(["merge", "-q", "--no-edit", "-X", favor, "upstream"]);
            }
            repo.read(FILE)
        };
        assert_eq!(run_one(true), run_one(false));
        assert!(run_one(true).contains(kept));
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

/// Git's own merges always compare lines by histogram.
#[test]
fn the_lines_are_compared_as_git_compares_them_whatever_diff_algorithm_says() {
    let base = "low()\nlow()\n\n\nx = 1\ny = 2\npass\npass\npass\n\npass\n\n";
    let ours = "y = 2\nlow()\nlow()\nlow()\n\n\n\nx = 1\ny = 2\npass\npass\npass\n\ny = 2\npass\n\n";
    let theirs = "low()\n\nlow()\n\n\n\nx = 1\ny = 2\npass\npass\npass\n\npass\n\n\n";
    let run_one = |with_pleach: bool, algorithm: &str| {
        let dir = TempDir::new().unwrap();
        let repo = Repo::init(dir.path().join("fork"));
        repo.write("tide.py", base).commit("Show low water");
        repo.ok(["checkout", "-q", "-b", "upstream"]);
        repo.write("tide.py", theirs).commit("Space it");
        repo.ok(["checkout", "-q", "main"]);
        repo.write("tide.py", ours).commit("Show more of it");
        if with_pleach {
            repo.install();
        }
        let status = repo.run(["-c", &format!("diff.algorithm={algorithm}"), "merge", "--no-edit", "upstream"]).status;
        (status, repo.read("tide.py"))
    };
    for algorithm in ["myers", "minimal", "patience", "histogram"] {
        assert_eq!(run_one(true, algorithm), run_one(false, algorithm), "{algorithm}");
    }
}

/// What both sides agree on is kept, and only what is still in dispute is taken from one side.
#[test]
fn a_favoured_side_is_taken_only_for_what_is_in_dispute() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let with_low = |text: &str, n: u8| format!("{text}\n\ndef low(station):\n    return level(station, {n})\n");
    repo.ok(["checkout", "-q", "main~1"]);
    repo.write("src/tides.py", with_low(TIDES, 0)).commit("Show low water");
    repo.ok(["branch", "-f", "upstream"]);
    repo.ok(["checkout", "-q", "-B", "main"]);
    repo.write("src/tides.py", with_low(&ours(TIDES), 1)).commit("Show metres");
    repo.ok(["checkout", "-q", "upstream"]);
    repo.write("src/tides.py", with_low(&theirs(TIDES), 2)).commit("Wait less");
    repo.ok(["checkout", "-q", "main"]);
    for (favor, kept) in [("ours", 1), ("theirs", 2)] {
        repo.ok(["config", "pleach.favor", favor]);
        let ran = repo.pleach(["forecast", "upstream"]);
        assert_eq!(ran.status, Some(0), "{ran:?}");
        assert!(ran.out.contains("would stop at 1 file as lines, and at none with pleach."), "{ran:?}");

        let ran = repo.run(["merge", "-q", "--no-edit", "upstream"]);
        let merged = with_low(&crate::support::both(TIDES), kept);
        assert_eq!((ran.status, repo.read("src/tides.py")), (Some(0), merged.clone()));
        let said = format!("1 conflict settled in favour of {favor} (pleach.favor)");
        assert!(ran.err.contains(&said) && repo.pleach(["log"]).out.contains(&said), "{ran:?}");
        repo.ok(["reset", "-q", "--hard", "HEAD~1"]);

        // What git left without pleach is recognised.
        repo.pleach(["uninstall"]);
        assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
        let ran = repo.pleach(["retry"]);
        assert!(ran.out.starts_with("src/tides.py: merged, ") && ran.out.contains(&said), "{ran:?}");
        assert_eq!(repo.read("src/tides.py"), merged);
        repo.ok(["reset", "-q", "--hard"]);
        repo.install();
    }
}

#[test]
fn a_favoured_side_without_final_newline_stays_without() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    let text = |n: u8, datum: &str| {
        format!("def tide(station):\n    fetch(station{datum})\n\n\ndef low(station):\n    level({n})")
    };
    repo.install().write("tide.py", text(0, "")).commit("Show the tide");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write("tide.py", text(1, ", datum=1")).commit("Use a datum");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("tide.py", text(2, ", unit=2")).commit("Use a unit");
    repo.ok(["-c", "pleach.favor=ours", "merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read("tide.py"), text(2, ", unit=2, datum=1"));
}

#[test]
fn settings_of_pleachs_own_that_mean_nothing_are_complained_about() {
    for (key, value, said) in [
        ("pleach.favor", "Theirs", "pleach: pleach.favor is Theirs, which is none of ours, theirs and union"),
        ("pleach.deadline", "soon", "pleach: pleach.deadline is soon, which is no number of seconds"),
        ("pleach.deadline", "-1", "pleach: pleach.deadline is -1, which is no number of seconds"),
    ] {
        let dir = TempDir::new().unwrap();
        let repo = forked(dir.path());
        repo.ok(["config", key, value]);
        let forecast = repo.pleach(["forecast", "upstream"]);
        let merge = repo.run(["merge", "-q", "--no-edit", "upstream"]);
        for ran in [forecast, merge] {
            assert_eq!(ran.status, Some(0), "{ran:?}");
            assert_eq!(ran.err.lines().filter(|l| l.starts_with(said)).count(), 1, "{ran:?}");
        }
    }
    for (key, value) in [("pleach.favor", ""), ("pleach.deadline", "1ms"), ("pleach.deadline", "0.5")] {
        let dir = TempDir::new().unwrap();
        let repo = forked(dir.path());
        repo.ok(["config", key, value]);
        assert_eq!(repo.pleach(["forecast", "upstream"]).err, "");
    }
}
