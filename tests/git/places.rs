//! Wherever a repository may be, and whatever it may be like: worktrees, submodules, sparse checkouts, formats.

use std::fs;

use tempfile::TempDir;

use crate::support::{PLEACH, Ran, Repo, TIDES, both, forked, forked_without_pleach, program, run};

const FILE: &str = "src/tides.py";

#[test]
fn a_submodule_is_not_touched() {
    let dir = TempDir::new().unwrap();
    let charts = Repo::init(dir.path().join("charts"));
    charts.write("chart.py", TIDES).commit("Draw a chart");
    let repo = forked_without_pleach(dir.path());
    let url = charts.dir.to_str().unwrap();
    repo.ok(["-c", "protocol.file.allow=always", "submodule", "--quiet", "add", url, "charts"]);
    repo.commit("Add charts");
    let before = fs::read(repo.dir.join(".git/modules/charts/config")).unwrap();
    repo.install();
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read(FILE), both(TIDES));
    assert_eq!(repo.ok(["submodule", "status"]).chars().next(), Some(' '), "at the commit that it was at");
    assert_eq!(fs::read(repo.dir.join(".git/modules/charts/config")).unwrap(), before);
    assert_eq!(repo.ok(["-C", "charts", "check-attr", "merge", "chart.py"]), "chart.py: merge: unspecified\n");
}

#[test]
fn a_submodule_is_installed_into_on_its_own() {
    let dir = TempDir::new().unwrap();
    let tideboard = forked_without_pleach(dir.path());
    let harbour = Repo::init(dir.path().join("harbour"));
    let url = tideboard.dir.to_str().unwrap();
    harbour.ok(["-c", "protocol.file.allow=always", "submodule", "--quiet", "add", url, "tideboard"]);
    let inside = Repo { dir: harbour.dir.join("tideboard"), git: "git".to_owned() };
    inside.install();
    inside.ok(["config", "user.name", "Harbour"]);
    inside.ok(["config", "user.email", "harbour@example.org"]);
    inside.ok(["merge", "-q", "--no-edit", "origin/upstream"]);
    assert_eq!(inside.read(FILE), both(TIDES));
    assert_eq!(harbour.ok(["check-attr", "merge", "x.py"]), "x.py: merge: unspecified\n");
    assert!(inside.pleach(["log"]).out.contains(FILE));
}

#[test]
fn files_outside_a_sparse_checkout_are_combined() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write("docs/index.md", "tides\n").commit("Write it down");
    repo.ok(["sparse-checkout", "set", "docs"]);
    assert!(!repo.dir.join(FILE).exists());
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.ok(["show", &format!("HEAD:{FILE}")]), both(TIDES));
}

#[test]
fn a_linked_worktree_combines_and_keeps_its_own_record() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["worktree", "add", "-q", "../sync", "-b", "sync", "main"]);
    let linked = Repo { dir: dir.path().join("sync"), git: "git".to_owned() };
    linked.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(linked.read(FILE), both(TIDES));
    assert!(linked.pleach(["log"]).out.contains(FILE));
    assert!(repo.pleach(["log"]).out.contains("git has not called pleach here yet"));
}

#[test]
fn installing_in_a_linked_worktree_installs_for_all_of_them() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.ok(["worktree", "add", "-q", "../sync", "-b", "sync", "main"]);
    Repo { dir: dir.path().join("sync"), git: "git".to_owned() }.install();
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn repositories_of_the_newer_formats_are_like_any_other() {
    for format in ["--object-format=sha256", "--ref-format=reftable"] {
        let dir = TempDir::new().unwrap();
        let fork = dir.path().join("fork");
        let made = run("git", dir.path(), ["init", "-q", "-b", "main", format, "fork"]);
        if made.status == Some(129) {
            eprintln!("skipped: this git does not know {format}");
            continue;
        }
        // Where there is a repository already, this leaves its format as it is.
        let repo = forked(fork.parent().unwrap());
        repo.ok(["merge", "-q", "--no-edit", "upstream"]);
        assert_eq!(repo.read(FILE), both(TIDES));
        let log = repo.pleach(["log"]).out;
        assert!(log.starts_with("Merge of upstream into ") && !log.contains("moved on"), "{log}");
        assert_eq!(repo.pleach(["doctor"]).status, Some(0));
    }
}

#[test]
fn git_dir_and_work_tree_in_the_environment_are_honoured() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    fs::rename(repo.dir.join(".git"), dir.path().join("elsewhere")).unwrap();
    let mut merge = repo.command(["merge", "-q", "--no-edit", "upstream"]);
    merge.env("GIT_DIR", "../elsewhere").env("GIT_WORK_TREE", ".");
    assert!(merge.output().unwrap().status.success());
    assert_eq!(repo.read(FILE), both(TIDES));
    assert!(dir.path().join("elsewhere/pleach/log.jsonl").exists());
}

/// As some editors do.
#[test]
fn a_program_that_has_paths_taken_literally_may_start_pleach() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    repo.install();
    for (command, told) in [("doctor", "git gives 1 tracked file to pleach"), ("retry", "src/tides.py: merged, ")] {
        let mut pleach = program(PLEACH, &repo.dir.join("src"));
        let ran: Ran = pleach.arg(command).env("GIT_LITERAL_PATHSPECS", "1").output().unwrap().into();
        assert!(ran.out.contains(told), "{ran:?}");
    }
}

#[test]
fn from_a_subdirectory_the_environment_may_say_where_the_repository_is() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let told = |command: &[&str]| -> Ran {
        let mut pleach = program(PLEACH, &repo.dir.join("src"));
        pleach.args(command).env("GIT_DIR", "../.git").env("GIT_WORK_TREE", "..").output().unwrap().into()
    };
    let ran = told(&["retry", "--stage"]);
    assert!(ran.out.starts_with("src/tides.py: merged, ") && ran.out.contains(", staged\n"), "{ran:?}");
    assert_eq!(repo.read(FILE), both(TIDES));
    assert_eq!(repo.status(), "M  src/tides.py\n");
    for command in [&["log"][..], &["doctor"], &["forecast", "upstream"]] {
        let ran = told(command);
        assert!(ran.out.contains("Python") || ran.out.contains(FILE), "{ran:?}");
        assert_eq!(ran, repo.pleach_in("src", command));
    }
}

#[test]
fn a_worktree_that_the_configuration_names_is_the_worktree() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let git_dir = dir.path().join("elsewhere.git");
    std::fs::rename(repo.dir.join(".git"), &git_dir).unwrap();
    let at = |name: &str, args: &[&str], from: &std::path::Path| -> Ran {
        let mut command = program(name, from);
        command.args(args).env("GIT_DIR", &git_dir).output().unwrap().into()
    };
    at("git", &["config", "core.worktree", repo.dir.to_str().unwrap()], dir.path());
    assert_eq!(at("git", &["merge", "upstream"], &repo.dir).status, Some(1));
    let ran = at(PLEACH, &["retry"], dir.path());
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(repo.read(FILE), both(TIDES));

    // In the git directory nothing need be said of where it is.
    at("git", &["reset", "-q", "--hard"], dir.path());
    assert_eq!(at("git", &["merge", "upstream"], &repo.dir).status, Some(1));
    for (command, told) in [
        (&["retry"][..], "src/tides.py: merged, "),
        (&["log"], "src/tides.py: 1 place combined"),
        (&["forecast", "upstream"], "src/tides.py  1 conflict  merges"),
        (&["doctor"], "git does not give src/tides.py to pleach"),
        (&["install"], "config\n"),
        (&["doctor"], "git gives 1 tracked file to pleach"),
    ] {
        let ran = run(PLEACH, &git_dir, command);
        assert!(ran.out.contains(told), "{command:?}: {ran:?}");
    }
    assert_eq!(repo.read(FILE), both(TIDES));
}
