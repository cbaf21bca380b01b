//! `pleach doctor`: whether git really calls pleach, and if not, why.

use std::fs;
use std::path::Path;

use tempfile::TempDir;

use crate::support::{PLEACH, TIDES, forked, forked_without_pleach, program, run};

#[test]
fn doctor_is_content_after_install_and_not_before() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let before = repo.pleach(["doctor"]);
    assert_eq!(before.status, Some(1));
    assert!(before.out.contains("fault    merge.pleach.driver is not set; mend: pleach install\n"), "{before:?}");
    assert!(
        before
            .out
            .contains("Python: git does not give src/tides.py to pleach: no attribute says so; mend: pleach install")
    );
    let after = repo.install().pleach(["doctor"]);
    assert_eq!(after.status, Some(0), "{after:?}");
    assert!(after.out.contains("ok       Python: git gives 1 tracked file to pleach\n"), "{after:?}");
    assert_eq!(repo.pleach_in("src", ["doctor"]), after, "from a subdirectory too");
    repo.pleach(["uninstall"]);
    assert_eq!(repo.pleach(["doctor"]), before);
}

#[test]
fn doctor_names_the_line_that_overrides_and_its_advice_helps() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    for line in ["*.py -merge", "*.py !merge", "*.py merge", "tides.py merge=union", "*.py binary"] {
        let said = line.split_once(' ').unwrap().1;
        let text = repo.read(".git/info/attributes");
        repo.write(".git/info/attributes", format!("{text}{line}\n"));
        let number = text.lines().count() + 1;
        let ran = repo.pleach(["doctor"]);
        assert_eq!(ran.status, Some(1), "{line}: {ran:?}");
        let why = format!("`{said}` in line {number} of {}", repo.dir.join(".git/info/attributes").display());
        assert!(ran.out.contains(&why), "{line}: {ran:?}");
        let advice = ran.out.lines().find_map(|l| l.split_once(", or: ")).unwrap().1;
        assert_eq!(run("sh", &repo.dir, ["-c", advice]).status, Some(0));
        assert_eq!(repo.pleach(["doctor"]).status, Some(0), "{advice}");
        repo.write(".git/info/attributes", text);
    }
    // A file of a directory's own decides for what is in it.
    repo.pleach(["uninstall"]);
    repo.pleach(["install", "--shared"]);
    repo.write("src/.gitattributes", "\n\n*.py -merge\n");
    let ran = repo.pleach(["doctor"]);
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.contains("line 3 of") && ran.out.contains("src/.gitattributes"), "{ran:?}");
}

#[test]
fn doctor_warns_of_a_line_that_the_installation_overrides_and_its_advice_helps() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    assert!(!repo.pleach(["doctor"]).out.contains("warning"));
    for line in ["*.py -merge", "*.py merge=union", "*.py binary", "*.py !merge"] {
        repo.write("src/.gitattributes", format!("# ours\n{line}\n"));
        let ran = repo.pleach(["doctor"]);
        assert_eq!(ran.status, Some(0), "{line}: {ran:?}");
        let warned = ran.out.lines().find(|l| l.starts_with("warning"));
        let said = line.split_once(' ').unwrap().1;
        // What says nothing takes nothing back.
        if said == "!merge" {
            assert_eq!(warned, None);
            continue;
        }
        let warned = warned.unwrap_or_else(|| panic!("{line}: {ran:?}"));
        assert!(warned.contains(&format!("overrides `{said}` in line 2 of ")), "{warned}");
        let (text, advice) = (repo.read(".git/info/attributes"), warned.rsplit_once(": ").unwrap().1);
        repo.write(".git/info/attributes", format!("{text}{advice}\n"));
        let attribute = repo.ok(["check-attr", "merge", "src/tides.py"]);
        let expected = if said == "merge=union" { "union" } else { "unset" };
        assert_eq!(attribute.trim_end(), format!("src/tides.py: merge: {expected}"));
        repo.write(".git/info/attributes", text);
    }
}

#[test]
fn the_advice_of_doctor_helps_for_all_files_at_once_whatever_they_are_called() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    for path in ["low tide/a [1].py", "low tide/say \"high\".py", "low tide/b/c.pyi", "it's.py", "new\nline.py"] {
        repo.write(path, TIDES);
    }
    repo.commit("Add stations");
    let installed = repo.read(".git/info/attributes");
    for line in
        ["*.py -merge", "\"low tide/**\" -merge", "it's.py -merge", "new* -merge", "*high* !merge", "*.rs -merge"]
    {
        repo.write(".git/info/attributes", format!("{installed}{line}\n"));
        let ran = repo.pleach(["doctor"]);
        assert_eq!(ran.status, Some(1), "{line}: {ran:?}");
        let advice: Vec<_> = ran.out.lines().filter_map(|l| l.split_once(", or: ")).collect();
        assert_eq!(advice.len(), 1, "{line}: {ran:?}");
        assert_eq!(run("sh", &repo.dir, ["-c", advice[0].1]).status, Some(0));
        let after = repo.pleach(["doctor"]);
        assert_eq!(after.status, Some(0), "{line}: {advice:?}: {after:?}");
    }
    // Only what must be named is.
    repo.write(".git/info/attributes", format!("{installed}\"low tide/**\" -merge\n"));
    repo.write("vendor/a.py", TIDES).commit("Vendor");
    let said = repo.pleach(["doctor"]).out;
    assert!(said.contains(r#"'"/low tide/**/*.py" merge=pleach' '"/low tide/**/*.pyi" merge=pleach' >> "#), "{said}");
}

#[test]
fn the_advice_of_doctor_helps_where_there_is_no_file_of_attributes_yet() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.pleach(["install", "--shared"]);
    repo.write("src/.gitattributes", "*.py -merge\n");
    fs::remove_dir_all(repo.dir.join(".git/info")).unwrap();
    let said = repo.pleach(["doctor"]).out;
    let advice = said.lines().find_map(|l| l.split_once(", or: ")).unwrap().1;
    assert_eq!(run("sh", &repo.dir.join("src"), ["-c", advice]).status, Some(0));
    assert_eq!(repo.pleach(["doctor"]).status, Some(0), "{advice}");
}

#[test]
fn doctor_is_content_where_pleach_merges_whatever_no_attribute_speaks_of() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write(".git/info/attributes", "").ok(["config", "merge.default", "pleach"]);
    let ran = repo.pleach(["doctor"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(ran.out.contains("git gives 1 tracked file to pleach\n"), "{ran:?}");
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert!(repo.pleach(["log"]).out.contains("src/tides.py: 1 place combined\n"), "and so it is");
}

#[test]
fn doctor_counts_a_file_that_a_merge_stopped_at_once() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let ran = repo.install().pleach(["doctor"]);
    assert!(ran.out.contains("Python: git gives 1 tracked file to pleach"), "{ran:?}");
}

#[test]
fn doctor_finds_a_driver_that_is_another_program_or_lacks_what_git_must_say() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let all = "%O %A %B %L %P %S %X %Y";
    for (driver, status, said) in [
        ("true %A".to_owned(), 1, "fault    merge.pleach.driver does not call pleach: true %A; mend: pleach install\n"),
        (format!("echo driver {all}"), 1, "fault    git runs echo, which is not pleach; mend: pleach install\n"),
        (format!("'{PLEACH}' driver %A %O %B %L %P"), 1, "so pleach cannot merge as syntax; mend: pleach install\n"),
        (format!("'{PLEACH}' driver %O %A %B"), 1, "so pleach cannot merge as syntax; mend: pleach install\n"),
        (format!("'{PLEACH}' driver %O %A %B %L %P"), 0, "so conflict markers will not name the sides; mend: "),
    ] {
        repo.ok(["config", "merge.pleach.driver", &driver]);
        let ran = repo.pleach(["doctor"]);
        assert_eq!(ran.status, Some(status), "{driver}: {ran:?}");
        assert!(ran.out.contains(said), "{driver}: {ran:?}");
        let mended = repo.install().pleach(["doctor"]);
        assert_eq!(mended.status, Some(0), "{driver}: {mended:?}");
        assert!(!mended.out.contains("mend"), "{driver}: {mended:?}");
    }
}

#[test]
fn doctor_finds_a_program_that_git_cannot_run_and_one_of_another_version() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let arguments = "driver %O %A %B %L %P %S %X %Y";
    repo.ok(["config", "merge.pleach.driver", &format!("/nowhere/pleach {arguments}")]);
    let ran = repo.pleach(["doctor"]);
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.contains("fault    git cannot run /nowhere/pleach; mend: pleach install\n"), "{ran:?}");

    repo.ok(["config", "merge.pleach.driver", &format!("echo pleach 0.0.1; : {arguments}")]);
    let ran = repo.pleach(["doctor"]);
    assert_eq!(ran.status, Some(1), "git calls another: {ran:?}");
    assert!(ran.out.contains("fault    git runs echo pleach 0.0.1;"), "{ran:?}");
    assert!(ran.out.contains("which is pleach 0.0.1"), "{ran:?}");

    // A name without a directory is looked up where git will look.
    repo.ok(["config", "merge.pleach.driver", &format!("pleach {arguments}")]);
    assert_eq!(repo.pleach(["doctor"]).status, Some(1));
    let bin = Path::new(PLEACH).parent().unwrap();
    let path = std::env::join_paths([bin, Path::new("/usr/bin"), Path::new("/bin")]).unwrap();
    let found = program(PLEACH, &repo.dir).arg("doctor").env("PATH", path).output().unwrap();
    assert!(found.status.success(), "{found:?}");
}

#[test]
fn doctor_warns_of_settings_that_mean_nothing_and_of_one_that_decides_every_merge() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    assert!(!repo.pleach(["doctor"]).out.contains("pleach.favor"));
    for (key, value, said) in [
        (
            "pleach.favor",
            "theirs",
            "pleach.favor is theirs: what is in dispute is settled so, and no merge stops at it",
        ),
        ("pleach.favor", "mine", "pleach.favor is mine, which is none of ours, theirs and union"),
        ("pleach.deadline", "soon", "pleach.deadline is soon, which is no number of seconds"),
    ] {
        repo.ok(["config", key, value]);
        let ran = repo.pleach(["doctor"]);
        assert_eq!(ran.status, Some(0), "git calls pleach all the same: {ran:?}");
        let line = ran.out.lines().find(|l| l.starts_with("warning")).unwrap_or_else(|| panic!("{ran:?}"));
        assert!(line.contains(said), "{line}");
        assert!(line.ends_with(&format!("; mend: `git config --show-origin {key}` says where it is set")), "{line}");
        repo.ok(["config", "--unset", key]);
    }
}

#[test]
fn doctor_speaks_json_to_programs() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let ran = repo.pleach(["doctor", "--format", "json"]);
    let findings: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let faults = findings.as_array().unwrap().iter().filter(|f| f["grade"] == "fault");
    assert!(faults.clone().count() >= 2);
    assert!(faults.clone().all(|f| f["mend"] == "pleach install"));
}

#[test]
fn doctor_in_the_git_directory_speaks_of_the_worktree_around_it() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    assert_eq!(repo.pleach_in(".git", ["doctor"]), repo.pleach(["doctor"]));
    assert!(repo.pleach_in(".git", ["doctor"]).out.contains("git gives 1 tracked file to pleach"));
}

#[test]
fn doctor_tells_of_files_that_only_their_first_line_makes_readable_and_its_advice_helps() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write("bin/tide", "#!/usr/bin/env python3\nprint(4)\n").write("bin/wait", "#!/bin/sh\nsleep 4\n");
    repo.write("LICENSE", "Take it.\n").write("low tide", "#!/usr/bin/python\nprint(2)\n").commit("Add programs");
    let ran = repo.pleach(["doctor"]);
    let (_, told) = ran.out.split_once("warning  ").expect(&ran.out);
    let what = "2 tracked files such as bin/tide have no ending, and no attribute gives them to pleach, \
                which could read them; mend: ";
    let mend = told.strip_prefix(what).expect(told);
    assert_eq!(ran.status, Some(0), "all that pleach install names goes to pleach: {ran:?}");
    assert!(program("sh", &repo.dir).args(["-c", mend]).status().unwrap().success(), "{mend}");
    let ran = repo.pleach(["doctor"]);
    assert!(!ran.out.contains("warning"), "{ran:?}");
    assert!(repo.ok(["check-attr", "merge", "low tide"]).contains("merge: pleach"));

    repo.write(".git/info/attributes", format!("{}/bin/tide -merge\n", repo.read(".git/info/attributes")));
    assert!(!repo.pleach(["doctor"]).out.contains("warning"), "that is meant");
}
