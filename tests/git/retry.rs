//! `pleach retry`: a merge that stopped before pleach was installed.

use tempfile::TempDir;

use crate::support::{Repo, TIDES, both, both_swapped, forked, forked_without_pleach, ours, theirs};

const FILE: &str = "src/tides.py";

/// A merge that stopped at [`FILE`] under git's own line merge.
fn stopped(dir: &TempDir) -> Repo {
    let repo = forked_without_pleach(dir.path());
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    repo
}

#[test]
fn a_stopped_merge_is_merged_again_and_nothing_is_staged() {
    let dir = TempDir::new().unwrap();
    let repo = stopped(&dir);
    let ran = repo.pleach(["retry"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(ran.out.starts_with("src/tides.py: merged, ") && ran.out.contains("combined as syntax\n"), "{ran:?}");
    assert_eq!(repo.read(FILE), both(TIDES));
    assert_eq!(repo.status(), "UU src/tides.py\n");
    assert!(repo.pleach(["log"]).out.contains(FILE));
    assert!(repo.pleach(["log"]).out.starts_with("Merge of upstream into "));
}

#[test]
fn staged_on_request_it_can_be_committed() {
    let dir = TempDir::new().unwrap();
    let repo = stopped(&dir);
    let ran = repo.pleach(["retry", "--stage"]);
    assert!(ran.out.contains(", staged\n"), "{ran:?}");
    assert_eq!(repo.status(), "M  src/tides.py\n");
    repo.ok(["commit", "-q", "--no-edit"]);
}

#[test]
fn a_second_time_finds_it_merged_and_may_still_stage_it() {
    let dir = TempDir::new().unwrap();
    let repo = stopped(&dir);
    repo.pleach(["retry"]);
    let again = repo.pleach(["retry", "--stage"]);
    assert_eq!((again.status, &*again.out), (Some(0), "src/tides.py: merged already, staged\n"));
    assert_eq!(repo.status(), "M  src/tides.py\n");
    assert_eq!(repo.pleach(["retry"]).out, "no unmerged files\n");
}

#[test]
fn a_file_that_a_person_has_begun_to_edit_is_left_alone() {
    for edit in [
        &|text: &str| text.replace("unit='m'", "unit='ft'") as String,
        &|text: &str| text.to_owned() + "\n",
        &|text: &str| text.replace("<<<<<<< HEAD\n", ""),
        &|_: &str| TIDES.to_owned(),
        &|text: &str| text.replace(">>>>>>> upstream", ">>>>>>> theirs #"),
    ] as [&dyn Fn(&str) -> String; 5]
    {
        let dir = TempDir::new().unwrap();
        let repo = stopped(&dir);
        let edited = edit(&repo.read(FILE));
        let relabelled = edited.contains("theirs #");
        repo.write(FILE, &edited);
        let ran = repo.pleach(["retry", "--stage"]);
        if relabelled {
            // A label alone says nothing of the contents, and is taken for git's.
            assert_eq!(ran.status, Some(0), "{ran:?}");
            continue;
        }
        let why = if edited.contains("=======") { "it is not as git left it" } else { "no conflict markers are in it" };
        assert_eq!((ran.status, ran.out), (Some(1), format!("src/tides.py: left alone: {why}\n")));
        assert_eq!(repo.read(FILE), edited);
        assert_eq!(repo.status(), "UU src/tides.py\n");
    }
}

#[test]
fn paths_choose_and_are_given_as_from_here() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.ok(["checkout", "-q", "main~1"]);
    repo.write("bin/port.py", TIDES).commit("Show ports");
    repo.ok(["checkout", "-q", "-b", "next"]);
    repo.write("bin/port.py", theirs(TIDES)).write(FILE, theirs(TIDES)).commit("Wait less");
    repo.ok(["checkout", "-q", "HEAD~1"]);
    repo.write("bin/port.py", ours(TIDES)).write(FILE, ours(TIDES)).commit("Show metres");
    repo.run(["merge", "next"]);
    assert_eq!(repo.status(), "UU bin/port.py\nUU src/tides.py\n");

    let ran = repo.pleach_in("bin", ["retry", "port.py", "--stage"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(repo.status(), "M  bin/port.py\nUU src/tides.py\n");
    let ran = repo.pleach_in("bin", ["retry", "nowhere.py"]);
    assert_eq!(
        (ran.status, &*ran.err),
        (Some(2), "pleach: none of these is an unmerged file; `git status` lists them\n")
    );
    // Without paths, all of the worktree, from wherever.
    let ran = repo.pleach_in("bin", ["retry"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(repo.read(FILE), both(TIDES));
    assert_eq!(repo.read("bin/port.py"), both(TIDES));
}

#[test]
fn every_conflict_style_marker_size_and_algorithm_is_recognised() {
    for options in [
        &["-c", "merge.conflictStyle=diff3", "merge"][..],
        &["-c", "merge.conflictStyle=zdiff3", "merge"],
        &["-c", "diff.algorithm=patience", "merge"],
        &["merge", "-X", "diff-algorithm=myers"],
        &["merge", "--squash"],
        &["cherry-pick"],
    ] {
        let dir = TempDir::new().unwrap();
        let repo = forked_without_pleach(dir.path());
        repo.write(".git/info/attributes", "*.py conflict-marker-size=10\n");
        assert_eq!(repo.run(options.iter().copied().chain(["upstream"])).status, Some(1));
        assert!(repo.read(FILE).contains("<<<<<<<<<< HEAD\n"));
        let ran = repo.pleach(["retry"]);
        assert_eq!(ran.status, Some(0), "{options:?}: {ran:?}");
        assert_eq!(repo.read(FILE), both(TIDES));
    }
}

#[test]
fn a_stopped_rebase_goes_on_after_it() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    assert_eq!(repo.run(["rebase", "upstream"]).status, Some(1));
    assert_eq!(repo.pleach(["retry", "--stage"]).status, Some(0));
    repo.ok(["rebase", "--continue"]);
    assert_eq!(repo.read(FILE), both_swapped(TIDES));
    assert!(repo.pleach(["log"]).out.starts_with("Rebase of "));
}

#[test]
fn a_stopped_stash_pop_is_merged_again() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.ok(["checkout", "-q", "main~1"]);
    repo.write(FILE, theirs(TIDES));
    repo.ok(["stash", "-q"]);
    repo.ok(["checkout", "-q", "main"]);
    assert_eq!(repo.run(["stash", "pop"]).status, Some(1));
    assert_eq!(repo.pleach(["retry"]).status, Some(0));
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn converted_line_endings_are_seen_through_and_written_again() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.write(".git/info/attributes", "*.py text eol=crlf\n");
    repo.ok(["rm", "-q", "-r", "--cached", "."]);
    repo.ok(["reset", "-q", "--hard"]);
    assert!(repo.read(FILE).contains("\r\n"));
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    assert!(repo.read(FILE).contains("<<<<<<< HEAD\r\n"));
    let objects = repo.ok(["count-objects"]);
    let ran = repo.pleach(["retry"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(repo.read(FILE), both(TIDES).replace('\n', "\r\n"));
    assert_eq!(repo.ok(["count-objects"]), objects, "nothing is written to the repository's objects");

    repo.write(FILE, repo.read(FILE).replace("\r\n", "\n"));
    repo.ok(["checkout", "-q", "-m", FILE]);
    repo.write(FILE, repo.read(FILE).replace("unit", "units"));
    assert!(repo.pleach(["retry"]).out.contains("left alone"), "an edit is seen too");
}

#[test]
fn a_file_that_is_saved_while_it_is_merged_again_is_left_alone() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.write(".git/info/attributes", "*.py text eol=crlf filter=saved\n");
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let left = repo.read(FILE);
    // Git runs this to write the answer as the worktree has it, just before it is put in place.
    repo.ok(["config", "filter.saved.smudge", &format!("echo 'saved = 1' >> {FILE}; cat")]);
    let ran = repo.pleach(["retry"]);
    assert_eq!((ran.status, &*ran.out), (Some(1), "src/tides.py: left alone: it is not as git left it\n"));
    assert_eq!(repo.read(FILE), left + "saved = 1\n");
}

#[test]
fn conflicts_that_are_left_are_gits_with_its_labels() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let more = "\n\ndef low(station):\n    return fetch(station, 0)\n";
    repo.write(FILE, TIDES.to_owned() + more).commit("Show low tide");
    repo.ok(["branch", "-f", "upstream"]);
    repo.write(FILE, ours(TIDES) + &more.replace("0)", "1)")).commit("Show metres");
    repo.ok(["checkout", "-q", "upstream"]);
    repo.write(FILE, theirs(TIDES) + &more.replace("0)", "2)")).commit("Wait less");
    repo.ok(["checkout", "-q", "main"]);
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let ran = repo.pleach(["retry", "--stage"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.out.starts_with("src/tides.py: 1 conflict left of "), "{ran:?}");
    let text = repo.read(FILE);
    assert!(text.starts_with(&both(TIDES)), "{text}");
    assert!(text.contains("<<<<<<< HEAD\n") && text.contains(">>>>>>> upstream\n"), "{text}");
    assert_eq!(repo.status(), "UU src/tides.py\n");
    let again = repo.pleach(["retry"]);
    assert!(again.out.contains("1 conflict, already merged as syntax"), "{again:?}");
    // And a merge with pleach at work leaves the very same file.
    repo.ok(["merge", "--abort"]);
    repo.install();
    repo.run(["merge", "upstream"]);
    assert_eq!(repo.read(FILE), text);
    assert!(repo.pleach(["retry"]).out.contains("1 conflict, already merged as syntax"));
}

#[test]
fn what_syntax_cannot_help_stays_as_git_left_it() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.write(FILE, TIDES.replace("(station)\n", "(station, 1)\n")).commit("Shift");
    repo.ok(["checkout", "-q", "upstream"]);
    repo.write(FILE, TIDES.replace("(station)\n", "(station, 2)\n")).commit("Shift otherwise");
    repo.ok(["checkout", "-q", "main"]);
    repo.run(["merge", "upstream"]);
    let before = repo.read(FILE);
    let ran = repo.pleach(["retry", "--stage"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.out.contains("1 conflict as before"), "{ran:?}");
    assert_eq!(repo.read(FILE), before);
}

#[test]
fn a_file_without_conflict_markers_is_not_said_to_be_edited() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let told = (Some(1), "src/tides.py: left alone: no conflict markers are in it\n");
    repo.write(".git/info/attributes", "*.py -merge\n");
    repo.run(["merge", "upstream"]);
    let ran = repo.pleach(["retry"]);
    assert_eq!((ran.status, &*ran.out), told, "git kept ours");
    repo.ok(["merge", "--abort"]);

    repo.write(".git/info/attributes", "").ok(["config", "rerere.enabled", "true"]);
    repo.run(["merge", "upstream"]);
    repo.write(FILE, theirs(TIDES)).commit("Sync");
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.run(["merge", "upstream"]);
    let ran = repo.pleach(["retry"]);
    assert_eq!((ran.status, &*ran.out), told, "git settled it as before");
    assert_eq!(repo.read(FILE), theirs(TIDES));
}

#[test]
fn what_is_no_text_of_both_sides_is_left_alone() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.ok(["rm", "-q", FILE]);
    repo.commit("Drop it");
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let ran = repo.pleach(["retry", "--stage"]);
    assert_eq!((ran.status, &*ran.out), (Some(1), "src/tides.py: left alone: ours deleted it, theirs changed it\n"));
    assert_eq!(repo.read(FILE), theirs(TIDES));
}

#[test]
fn a_file_that_each_side_renamed_is_left_alone() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.ok(["mv", FILE, "src/levels.py"]);
    repo.commit("Call it by what it shows");
    repo.ok(["checkout", "-q", "upstream"]);
    repo.ok(["mv", FILE, "src/heights.py"]);
    repo.commit("Call it otherwise");
    repo.ok(["checkout", "-q", "main"]);
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let before = repo.read("src/levels.py");
    let ran = repo.pleach(["retry", "--stage"]);
    assert_eq!(ran.status, Some(1));
    assert_eq!(
        ran.out,
        "src/heights.py: left alone: only theirs has a file of this name\n\
         src/levels.py: left alone: only ours has a file of this name\n\
         src/tides.py: left alone: both sides deleted or renamed it\n"
    );
    assert_eq!(repo.read("src/levels.py"), before);
}

#[test]
fn crlf_and_a_missing_final_newline_stay() {
    for end in ["\r\n", "\n", ""] {
        let dir = TempDir::new().unwrap();
        let repo = Repo::init(dir.path().join("fork"));
        let text = |text: &str| text.trim_end().replace('\n', if end == "\r\n" { end } else { "\n" }) + end;
        repo.write(FILE, text(TIDES)).commit("Show the tide");
        repo.ok(["checkout", "-q", "-b", "upstream"]);
        repo.write(FILE, text(&theirs(TIDES))).commit("Give up after five seconds");
        repo.ok(["checkout", "-q", "main"]);
        repo.write(FILE, text(&ours(TIDES))).commit("Show metres");
        assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
        assert_eq!(repo.pleach(["retry"]).status, Some(0), "{end:?}");
        assert_eq!(repo.read(FILE), text(&both(TIDES)), "{end:?}");
    }
}

#[test]
fn a_file_renamed_by_one_side_is_merged_under_its_new_name() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.ok(["mv", FILE, "src/levels.py"]);
    repo.commit("Call it by what it shows");
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    assert!(repo.read("src/levels.py").contains("<<<<<<< HEAD:src/levels.py\n"));
    assert_eq!(repo.pleach(["retry"]).status, Some(0));
    assert_eq!(repo.read("src/levels.py"), both(TIDES));
    assert!(repo.pleach(["log"]).out.starts_with("Merge of upstream into "));
}

#[test]
fn in_a_linked_worktree_its_own_merge_is_taken() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.ok(["worktree", "add", "-q", "../sync", "-b", "sync", "main"]);
    let linked = Repo { dir: dir.path().join("sync"), git: "git".to_owned() };
    assert_eq!(linked.run(["merge", "upstream"]).status, Some(1));
    assert_eq!(repo.pleach(["retry"]).out, "no unmerged files\n");
    assert_eq!(linked.pleach(["retry"]).status, Some(0));
    assert_eq!(linked.read(FILE), both(TIDES));
}

#[test]
fn without_a_stopped_merge_there_is_nothing_to_do() {
    let dir = TempDir::new().unwrap();
    let ran = forked(dir.path()).pleach(["retry"]);
    assert_eq!((ran.status, &*ran.out), (Some(0), "no unmerged files\n"));
}

#[test]
fn programs_get_json() {
    let dir = TempDir::new().unwrap();
    let repo = stopped(&dir);
    let ran = repo.pleach(["retry", "--stage", "--format", "json"]);
    let files: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(files[0]["path"], FILE);
    assert_eq!(files[0]["outcome"], "merged");
    assert_eq!(files[0]["staged"], true);
}

#[test]
fn what_was_merged_but_could_not_be_staged_is_told_before_the_reason() {
    let dir = TempDir::new().unwrap();
    let repo = stopped(&dir);
    repo.write(".git/index.lock", "");
    let ran = repo.pleach(["retry", "--stage"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.out.starts_with("src/tides.py: merged, ") && !ran.out.contains("staged"), "{ran:?}");
    assert!(ran.err.contains("index.lock"), "{ran:?}");
    assert_eq!(repo.read(FILE), both(TIDES));
}

#[test]
fn what_lies_outside_a_sparse_checkout_is_staged_too() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.write("docs/index.md", "tides\n").commit("Write it down");
    repo.ok(["sparse-checkout", "set", "docs"]);
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let ran = repo.pleach(["retry", "--stage"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(repo.ok(["ls-files", "-u"]), "");
    assert_eq!(repo.ok(["show", &format!(":{FILE}")]), both(TIDES));
}

#[test]
fn where_nothing_can_be_recorded_the_log_is_not_referred_to() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    repo.write(".git/pleach", "in the way\n");
    let ran = repo.pleach(["retry"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(!ran.out.contains("(pleach log)"), "{ran:?}");
    assert!(ran.out.contains("pleach log does not show it: the record could not be written: "), "{ran:?}");
}

#[cfg(unix)]
#[test]
fn a_file_added_with_two_modes_is_left_to_a_person() {
    use std::os::unix::fs::PermissionsExt;
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.write("low.py", TIDES).commit("Show low water").ok(["checkout", "-q", "upstream"]);
    repo.write("low.py", TIDES);
    std::fs::set_permissions(repo.dir.join("low.py"), std::fs::Permissions::from_mode(0o755)).unwrap();
    repo.commit("Show low water").ok(["checkout", "-q", "main"]);
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let ran = repo.pleach(["retry", "--stage", "low.py"]);
    let said = "low.py: left alone: the sides added it with different modes\n";
    assert_eq!((ran.status, &*ran.out), (Some(1), said));
}
