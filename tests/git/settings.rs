//! What the configuration says, git's and pleach's own, in whatever file it says it.

use tempfile::TempDir;

use crate::conflicts::{BASE, FILE, conflicting, same};
use crate::support::{Repo, TIDES, forked, ours, theirs};

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
