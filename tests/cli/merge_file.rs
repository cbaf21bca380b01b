//! `pleach merge-file` beside `git merge-file` on text that no grammar reads: the same output, the
//! same words on stderr, the same exit status and the same files afterwards.

use std::fs;
use std::path::Path;

use tempfile::TempDir;

use crate::support::{PLEACH, Ran, contents, program, run};

const BASE: &str = "# tideboard stations\nAberdeen 57.14 -2.08\nBrest 48.38 -4.50\nCuxhaven 53.87 8.72\n\nDover 51.11 1.32\nEsbjerg 55.46 8.44\n";

/// Three stations files: one conflict, and one change of each side that merges.
pub fn stations(dir: &Path) {
    fs::write(dir.join("base.txt"), BASE).unwrap();
    let ours = BASE.replace("-4.50", "-4.495").replace("Aberdeen", "Aberdeen Harbour");
    fs::write(dir.join("ours.txt"), ours).unwrap();
    let theirs = BASE.replace("-4.50", "-4.5017").replace("Esbjerg 55.46", "Esbjerg 55.4600");
    fs::write(dir.join("theirs.txt"), theirs).unwrap();
}

/// Runs both programs in directories of the same contents, and asserts that nobody could tell.
#[track_caller]
pub fn same(prepare: impl Fn(&Path), args: &[&str]) -> Ran {
    same_in(prepare, ".", args)
}

#[track_caller]
fn same_in(prepare: impl Fn(&Path), subdirectory: &str, args: &[&str]) -> Ran {
    let run_one = |name: &str| {
        let dir = TempDir::new().unwrap();
        prepare(dir.path());
        let words = std::iter::once("merge-file").chain(args.iter().copied());
        let mut ran: Ran = program(name, &dir.path().join(subdirectory)).args(words).output().unwrap().into();
        for text in [&mut ran.out, &mut ran.err] {
            *text = text.replace("usage: git merge-file", "usage: pleach merge-file");
            // The one option that pleach does not have.
            *text = text.lines().filter(|l| !l.contains("--[no-]object-id")).map(|l| format!("{l}\n")).collect();
        }
        let files: Vec<_> = contents(dir.path()).into_iter().filter(|(path, _)| !path.starts_with(".git")).collect();
        (ran, files)
    };
    let (git, git_files) = run_one("git");
    let (pleach, pleach_files) = run_one(PLEACH);
    assert_eq!(pleach, git, "{args:?}");
    assert_eq!(pleach_files, git_files, "files after {args:?}");
    pleach
}

pub const FILES: [&str; 3] = ["ours.txt", "base.txt", "theirs.txt"];

#[track_caller]
fn same_with(options: &[&str]) -> Ran {
    same(stations, &[options, &FILES].concat())
}

#[test]
fn a_conflict_is_written_into_the_current_file_and_counted() {
    let ran = same_with(&[]);
    assert_eq!((ran.status, &*ran.out, &*ran.err), (Some(1), "", ""));
}

#[test]
fn every_option_alone_does_what_it_does_in_git() {
    for options in [
        &["-p"][..],
        &["--stdout"],
        &["-q"],
        &["--quiet"],
        &["-p", "--diff3"],
        &["-p", "--zdiff3"],
        &["-p", "--ours"],
        &["-p", "--theirs"],
        &["-p", "--union"],
        &["-p", "--diff-algorithm", "myers"],
        &["-p", "--diff-algorithm=minimal"],
        &["-p", "--diff-algorithm=patience"],
        &["-p", "--diff-algorithm=histogram"],
        &["-p", "--diff-algorithm=Default"],
        &["-p", "--marker-size", "3"],
        &["-p", "--marker-size=12"],
        &["-p", "--marker-size=0"],
        &["-p", "--marker-size=-5"],
        &["-p", "--marker-size= 9"],
        &["-p", "-L", "harbour"],
        &["-p", "-L", "harbour", "-L", "release", "--diff3"],
        &["-p", "-L", "harbour", "-L", "release", "-L", "upstream"],
        &["-p", "-Lharbour", "-L=release", "--diff3"],
        &["-p", "-L", "", "-L", "", "-L", "", "--diff3"],
    ] {
        same_with(options);
    }
}

#[test]
fn options_may_be_joined_begun_repeated_and_undone() {
    for options in [
        &["-pq"][..],
        &["-pLharbour"],
        &["--std"],
        &["--s", "--q"],
        &["-p", "--diff3", "--no-diff3"],
        &["-p", "--diff3", "--no-zdiff3"],
        &["-p", "--z"],
        &["-p", "--ours", "--theirs"],
        &["-p", "--union", "--no-ours"],
        &["-p", "--the", "--no-the"],
        &["-p", "--diff-al", "patience"],
        &["-p", "--marker-size=9", "--no-marker-size"],
        &["-p", "--m=9"],
        &["-p", "--no-stdout"],
        &["-q", "--no-quiet"],
        &["-p", "--end-of-options"],
        &["-p", "--"],
    ] {
        same_with(options);
    }
    same(stations, &["ours.txt", "-p", "base.txt", "--diff3", "theirs.txt"]);
    same(stations, &["ours.txt", "base.txt", "theirs.txt", "-p", "-L", "harbour"]);
}

#[test]
fn wrong_options_are_refused_in_gits_words() {
    for options in [
        &["--bogus"][..],
        &["--bogus=3"],
        &["-Z"],
        &["-pZ"],
        &["-\u{e9}"],
        &["--d"],
        &["--diff"],
        &["--no"],
        &["--="],
        &["-diff3"],
        &["-no-quiet"],
        &["--stdout=3"],
        &["--no-stdout=3"],
        &["--no-L"],
        &["--no-diff-algorithm"],
        &["--marker-size=wide"],
        &["--marker-size=0x9"],
        &["--marker-size="],
        &["--diff-algorithm=guess"],
        &["-L", "a", "-L", "b", "-L", "c", "-L", "d"],
    ] {
        let ran = same_with(options);
        assert_eq!(ran.status, Some(129), "{options:?}");
    }
    for args in [&["-L"][..], &["--marker-size"], &["--diff-algorithm"]] {
        same(stations, args);
    }
}

#[test]
fn help_and_a_wrong_number_of_files_show_the_usage() {
    assert!(same(stations, &["-h"]).out.starts_with("usage: pleach merge-file [<options>]"));
    same(stations, &["--help-all"]);
    same(stations, &[]);
    same(stations, &["ours.txt"]);
    same(stations, &["ours.txt", "base.txt"]);
    assert_eq!(same(stations, &["-p", "ours.txt", "base.txt", "theirs.txt", "more.txt"]).status, Some(129));
}

#[test]
fn a_clean_merge_ends_with_status_0() {
    let prepare = |dir: &Path| {
        stations(dir);
        fs::write(dir.join("theirs.txt"), BASE.replace("8.44", "8.4400")).unwrap();
    };
    assert_eq!(same(prepare, &FILES).status, Some(0));
}

#[test]
fn the_status_is_the_number_of_conflicts_and_127_for_more() {
    for (conflicts, status) in [(1, 1), (20, 20), (127, 127), (128, 127), (300, 127)] {
        let prepare = |dir: &Path| {
            for (name, unit) in [("base.txt", "m"), ("ours.txt", "metres"), ("theirs.txt", "feet")] {
                // Conflicts less than four lines apart would become one.
                let line =
                    |i: usize| if i.is_multiple_of(6) { format!("{i} {unit}\n") } else { format!("station {i}\n") };
                fs::write(dir.join(name), (1..=conflicts * 6).map(line).collect::<String>()).unwrap();
            }
        };
        assert_eq!(same(prepare, &FILES).status, Some(status));
    }
}

/// Unlike `git merge`, which keeps them apart.
#[test]
fn conflicts_with_nothing_but_rules_between_them_are_one() {
    let list = |unit: &str| format!("Brest {unit}\n----\n\n----\n\n----\nDover {unit}\n");
    let prepare = |dir: &Path| {
        for (name, unit) in [("base.txt", "m"), ("ours.txt", "metres"), ("theirs.txt", "feet")] {
            fs::write(dir.join(name), list(unit)).unwrap();
        }
    };
    assert_eq!(same(prepare, &FILES).status, Some(1));
    // Diff3 shows the ancestor's lines and so joins nothing.
    same(prepare, &["-p", "--diff3", "ours.txt", "base.txt", "theirs.txt"]);
}

#[test]
fn a_missing_file_is_an_error_that_names_it() {
    for missing in 0..3 {
        let mut files = FILES;
        files[missing] = "nowhere.txt";
        let ran = same(stations, &files);
        assert_eq!(ran.err, "error: Could not stat nowhere.txt: No such file or directory\n");
        assert_eq!(ran.status, Some(255));
    }
    same(stations, &["", "base.txt", "theirs.txt"]);
    same(stations, &["--", "-p", "base.txt", "theirs.txt"]);
    same(stations, &["-q", "nowhere.txt", "base.txt", "theirs.txt"]);
}

#[test]
fn a_directory_is_an_error() {
    for directory in 0..3 {
        let mut files = FILES;
        files[directory] = ".";
        assert_eq!(same(stations, &files).err, "error: Could not open .: Is a directory\n");
    }
}

#[test]
fn binary_input_is_refused_and_nothing_is_written() {
    for binary in FILES {
        let prepare = |dir: &Path| {
            stations(dir);
            fs::write(dir.join(binary), b"PNG\0\x89 tide curve").unwrap();
        };
        let ran = same(prepare, &FILES);
        assert_eq!(ran.err, format!("error: Cannot merge binary files: {binary}\n"));
        assert_eq!(ran.status, Some(255));
    }
    // Git looks at the first 8000 bytes only.
    let late = |at: usize| {
        move |dir: &Path| {
            stations(dir);
            let mut text = BASE.repeat(100).into_bytes();
            text[at] = 0;
            fs::write(dir.join("theirs.txt"), text).unwrap();
        }
    };
    assert_eq!(same(late(7999), &FILES).status, Some(255));
    assert_ne!(same(late(8000), &FILES).status, Some(255));
}

#[test]
fn bytes_that_are_no_utf8_merge_as_bytes() {
    let prepare = |dir: &Path| {
        fs::write(dir.join("base.txt"), b"Malm\xf6\nG\xf6teborg\nlast").unwrap();
        fs::write(dir.join("ours.txt"), b"Malm\xf6 55.61\nG\xf6teborg\nlast").unwrap();
        fs::write(dir.join("theirs.txt"), b"Malm\xf6\nG\xf6teborg\nl\xe4st").unwrap();
    };
    assert_eq!(same(prepare, &FILES).status, Some(0));
}

#[test]
fn empty_files_missing_final_newlines_and_crlf_come_out_as_in_git() {
    let texts = ["", "one", "one\n", "two", "two\n", "one\r\ntwo\r\n", "ONE\r\ntwo\r\n", "one\r\nTWO", "one\ntwo\r\n"];
    for ours in texts {
        for theirs in texts {
            for base in ["", "one\r\ntwo\r\n", "zero\n", "zero"] {
                let prepare = |dir: &Path| {
                    for (name, text) in FILES.iter().zip([ours, base, theirs]) {
                        fs::write(dir.join(name), text).unwrap();
                    }
                };
                same(prepare, &["-p", "ours.txt", "base.txt", "theirs.txt"]);
            }
        }
    }
}

/// Git's other diff tells which of two equal calls stayed; the trees leave more in dispute than that does.
#[test]
fn where_the_histogram_diff_leaves_less_in_conflict_its_line_merge_is_the_answer() {
    let dir = TempDir::new().unwrap();
    let write = |name: &str, calls: &[&str]| {
        let lines: String = calls.iter().map(|call| format!("{call}()\n")).collect();
        fs::write(dir.path().join(name), lines).unwrap();
    };
    write("base.py", &["fetch", "fetch", "store", "plot", "store"]);
    write("ours.py", &["fetch", "log", "fetch", "store", "plot"]);
    write("theirs.py", &["fetch", "fetch", "fetch", "store", "store", "plot", "close"]);
    let merged = |name: &str, options: &[&str]| -> Ran {
        let words = [&["merge-file", "-p"], options, &["ours.py", "base.py", "theirs.py"]].concat();
        program(name, dir.path()).args(words).output().unwrap().into()
    };
    let (git, pleach) = (merged("git", &["--diff-algorithm=histogram"]), merged(PLEACH, &[]));
    assert_ne!(merged("git", &[]).out, git.out);
    assert_eq!((pleach.out, pleach.status), (git.out, git.status));
    assert!(pleach.err.contains("by the histogram diff"), "{}", pleach.err);
}

fn repository(config: &'static str) -> impl Fn(&Path) {
    move |dir| {
        stations(dir);
        run("git", dir, ["init", "-q"]);
        let file = dir.join(".git/config");
        fs::write(&file, fs::read_to_string(&file).unwrap() + config).unwrap();
        fs::create_dir(dir.join("ports")).unwrap();
        stations(&dir.join("ports"));
    }
}

#[test]
fn the_repositorys_conflict_style_is_used_unless_an_option_says_otherwise() {
    let diff3 = repository("[merge]\n\tconflictStyle = diff3\n");
    assert!(same(&diff3, &["-p", "ours.txt", "base.txt", "theirs.txt"]).out.contains("||||||| base.txt"));
    same(&diff3, &["-p", "--zdiff3", "ours.txt", "base.txt", "theirs.txt"]);
    same(&diff3, &["-p", "--no-diff3", "ours.txt", "base.txt", "theirs.txt"]);
    same_in(&diff3, "ports", &["-p", "ours.txt", "base.txt", "theirs.txt"]);
    same_in(&diff3, ".git", &["-p", "../ours.txt", "../base.txt", "../theirs.txt"]);
    // `git merge` reads this one, `git merge-file` does not.
    same(repository("[diff]\n\talgorithm = guess\n"), &["-p", "ours.txt", "base.txt", "theirs.txt"]);
}

#[test]
fn a_conflict_style_that_is_none_ends_with_gits_error() {
    for config in ["[merge]\n\tconflictStyle = DIFF3\n", "[merge]\n\tconflictStyle\n"] {
        let run_one = |name: &str| {
            let dir = TempDir::new().unwrap();
            repository(config)(dir.path());
            let ran = run(name, dir.path(), ["merge-file", "-p", "ours.txt", "base.txt", "theirs.txt"]);
            (ran.status, ran.out, ran.err.lines().next().map(str::to_owned))
        };
        assert_eq!(run_one(PLEACH), run_one("git"));
        assert_eq!(run_one(PLEACH).0, Some(128));
    }
}

#[test]
fn errors_in_a_subdirectory_name_the_file_as_git_does() {
    let ran = same_in(repository(""), "ports", &["-p", "nowhere.txt", "base.txt", "theirs.txt"]);
    assert_eq!(ran.err, "error: Could not stat ports/nowhere.txt: No such file or directory\n");
    same_in(repository(""), "ports", &["-p", "../nowhere.txt", "base.txt", "theirs.txt"]);
    same_in(repository(""), "ports", &["-p", ".", "base.txt", "theirs.txt"]);
}
