//! A file may be called anything that git can store.

use std::ffi::OsStr;

use tempfile::TempDir;

use crate::support::{PLEACH, Repo, TIDES, both, ours, program, theirs};

/// Merges both changes of a file of that name.
#[track_caller]
fn combines(name: &OsStr) {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.install();
    repo.write(name, TIDES).commit("Show the tide");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write(name, theirs(TIDES)).commit("Give up after five seconds");
    repo.ok(["checkout", "-q", "main"]);
    repo.write(name, ours(TIDES)).commit("Show metres");
    let ran = repo.run(["merge", "--no-edit", "upstream"]);
    assert_eq!(ran.status, Some(0), "{name:?}: {ran:?}");
    assert_eq!(repo.read(name), both(TIDES), "{name:?}");
    assert!(ran.err.lines().any(|l| l.starts_with("pleach: ") && l.contains("combined")), "{name:?}: {ran:?}");
    let log = repo.pleach(["log"]);
    assert!(log.out.contains(".py") && log.out.contains("combined"), "{name:?}: {log:?}");
}

#[test]
fn any_utf8_path_is_merged() {
    for name in [
        "the tides.py",
        "it's high.py",
        "say \"tide\".py",
        "-dash.py",
        "--help.py",
        "-p/-q.py",
        "häfen/gezeiten/Größe.py",
        "潮汐.py",
        "back\\slash.py",
        "star*[a].py",
        "$(touch tide);`x`&.py",
        "%O %A %%.py",
        "a:b.py",
        "new\nline.py",
        "tab\there.py",
        " leading and trailing .py",
        ".py",
        "a/b/c/d/e/f/g.py",
    ] {
        combines(OsStr::new(name));
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_path_that_is_no_utf8_is_merged() {
    use std::os::unix::ffi::OsStrExt;
    combines(OsStr::from_bytes(b"Malm\xf6.py"));
    combines(OsStr::from_bytes(b"\xff\xfe/\xf6.py"));
}

#[test]
fn labels_that_look_like_options_are_labels() {
    let dir = TempDir::new().unwrap();
    let write = |name: &str, text: &str| std::fs::write(dir.path().join(name), text).unwrap();
    write("base", "tide\n");
    write("ours", "high tide\n");
    write("theirs", "low tide\n");
    let mut driver = program(PLEACH, dir.path());
    driver.args(["driver", "base", "ours", "theirs", "7", "--help", "--version", "-h", "--"]);
    assert_eq!(driver.output().unwrap().status.code(), Some(1));
    let text = std::fs::read_to_string(dir.path().join("ours")).unwrap();
    assert_eq!(text, "<<<<<<< -h\nhigh tide\n=======\nlow tide\n>>>>>>> --\n");
}

/// For people such a path is quoted, as git does; programs get it as it is.
#[cfg(target_os = "linux")]
#[test]
fn programs_are_given_paths_as_they_are() {
    use std::os::unix::ffi::OsStrExt;
    let names = [std::ffi::OsStr::new("low\ttide.py"), std::ffi::OsStr::from_bytes(b"Malm\xf6.py")];
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    let each = |text: String| {
        for name in names {
            repo.write(name, &text);
        }
    };
    each(TIDES.to_owned());
    repo.commit("Show the tide").ok(["checkout", "-q", "-b", "upstream"]);
    each(theirs(TIDES));
    repo.commit("Give up after five seconds").ok(["checkout", "-q", "main"]);
    each(ours(TIDES));
    repo.commit("Show metres");
    let check = |command: &[&str]| {
        let ran = repo.pleach(command);
        let json: serde_json::Value = serde_json::from_str(&ran.out).unwrap_or_else(|e| panic!("{e}: {ran:?}"));
        let files = json.get("files").unwrap_or(&json).as_array().unwrap().clone();
        let path = |name: &str| {
            files.iter().find(|f| f["path"] == name).unwrap_or_else(|| panic!("{name} in {ran:?}")).clone()
        };
        assert!(path("low\ttide.py").get("path_hex").is_none());
        assert_eq!(path("Malm\u{fffd}.py")["path_hex"], "4d616c6df62e7079");
    };
    check(&["forecast", "upstream", "--format", "json"]);
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    check(&["retry", "--format", "json"]);
    check(&["log", "--format", "json"]);
    repo.commit("Merge");
    check(&["replay", "--format", "json"]);
}
