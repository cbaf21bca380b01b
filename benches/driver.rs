//! How long a driver process takes on a file of 12 KB, beside `git merge-file`: `cargo bench --bench driver`. With words
//! behind `--`, only the rows whose names hold them. With `PLEACH_CASES=/folder`, real merges instead: folders in it that
//! hold `base`, `ours` and `theirs`, and whose names end with a `-` and the extension.
//!
//! Both are run in turn, in a repository with one commit in which pleach is installed, on files that are copied anew: a
//! machine that is slower for a while is so for both. The program is a copy, as an installed one is: what a linker has just
//! written may be kept in smaller pieces in memory, and takes longer to be read. To start a process that does nothing is
//! most of what git takes, and no less of it is pleach's.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use std::{env, fs};

const PLEACH: &str = env!("CARGO_BIN_EXE_pleach");
/// How often each of the two is run.
const ROUNDS: usize = 60;

/// Something to merge.
struct Case {
    name: String,
    /// Where it would be in a worktree.
    path: String,
    versions: [Vec<u8>; 3],
}

/// The tide tables of a harbour, in functions of eight lines. The call at the end of each is its sixth line.
fn module() -> Vec<String> {
    let mut lines: Vec<String> =
        ["\"\"\"Tide tables of a harbour.\"\"\"", "", "import math", "", ""].map(str::to_owned).into();
    let mut size = 0;
    for n in 0.. {
        if size >= 12_000 {
            break;
        }
        let function = format!(
            "def gauge_{n}(station, level, *, unit=\"m\", offset={n}):\n    \"\"\"The level at a station, {n} minutes on.\"\"\"\n    \
             value = level * {n} + offset\n    if value > {n}:\n        value = math.floor(value)\n    \
             log(\"gauge {n}\", station=station, value=value)\n    return value\n\n"
        );
        size += function.len();
        lines.extend(function.lines().map(str::to_owned));
    }
    lines
}

/// What the two sides may do at one place of the module, or at three.
fn cases() -> Vec<Case> {
    let base = module();
    let calls: Vec<usize> = (0..base.len()).filter(|line| base[*line].starts_with("    log(")).collect();
    let middle = calls[calls.len() / 2];
    let with = |lines: &[usize], argument: &str| {
        let mut text = base.clone();
        lines.iter().for_each(|line| text[*line] = base[*line].replace("value)", &format!("value, {argument})")));
        text
    };
    let put_in = |at: usize, new: &[&str]| {
        let mut text = base.clone();
        text.splice(at..at, new.iter().map(|line| line.to_string()));
        text
    };
    let wrapped = {
        let mut text = base.clone();
        text[middle] = format!("    if value:\n    {}", base[middle]);
        text
    };
    let without = {
        let mut text = base.clone();
        text.remove(middle);
        text
    };
    let beside = {
        let mut text = base.clone();
        text[middle - 1] = text[middle - 1].replace("floor", "ceil");
        text
    };
    let (end, thrice) = (base.len(), [calls[1], middle, calls[calls.len() - 2]]);
    let sides = [
        ("one keyword argument each in one call", with(&[middle], "quay=True"), with(&[middle], "unit=unit")),
        ("the same in three calls", with(&thrice, "quay=True"), with(&thrice, "unit=unit")),
        ("one keyword argument with two values", with(&[middle], "quay=True"), with(&[middle], "quay=False")),
        ("an import each", put_in(3, &["import json"]), put_in(3, &["import csv"])),
        (
            "a function each at the end",
            put_in(end, &["", "def dredge(depth):", "    return depth * 2"]),
            put_in(end, &["", "def moor(berth):", "    return berth + 1"]),
        ),
        ("a call wrapped in `if`, and an argument", wrapped, with(&[middle], "unit=unit")),
        ("a call taken out, and the line above changed", without, beside),
        ("two places, clean as lines", with(&[calls[1]], "quay=True"), with(&[calls[calls.len() - 2]], "unit=unit")),
    ];
    let text = |lines: &[String]| (lines.join("\n") + "\n").into_bytes();
    let case = |(name, ours, theirs): (&str, Vec<String>, Vec<String>)| Case {
        name: name.to_owned(),
        path: "tideboard/gauge.py".to_owned(),
        versions: [text(&base), text(&ours), text(&theirs)],
    };
    sides.into_iter().map(case).collect()
}

/// The merges in a folder.
fn cases_in(folder: &Path) -> Vec<Case> {
    let mut folders: Vec<PathBuf> =
        fs::read_dir(folder).expect("the folder of cases").map(|entry| entry.expect("an entry").path()).collect();
    folders.sort();
    let case = |folder: PathBuf| {
        let name = folder.file_name()?.to_str()?.to_owned();
        let (_, extension) = name.rsplit_once('-')?;
        let version = |version: &str| fs::read(folder.join(version)).ok();
        Some(Case {
            path: format!("tideboard/gauge.{extension}"),
            versions: [version("base")?, version("ours")?, version("theirs")?],
            name,
        })
    };
    folders.into_iter().filter_map(case).collect()
}

fn run(command: &mut Command) -> Duration {
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let start = Instant::now();
    command.status().unwrap_or_else(|e| panic!("{command:?}: {e}"));
    start.elapsed()
}

fn in_dir(program: &str, dir: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(program);
    command.current_dir(dir).args(arguments);
    command
}

/// How long `git merge-file` and the driver take, at the median.
fn measured(case: &Case, pleach: &str, dir: &Path) -> [Duration; 2] {
    const NAMES: [&str; 3] = [".merge_base", ".merge_ours", ".merge_theirs"];
    let [base, ours, theirs] = NAMES;
    let mut times = [Vec::new(), Vec::new()];
    for _ in 0..ROUNDS {
        for (driver, times) in times.iter_mut().enumerate() {
            for (name, text) in NAMES.iter().zip(&case.versions) {
                fs::write(dir.join(name), text).expect("the repository can be written to");
            }
            times.push(match driver {
                0 => run(&mut in_dir("git", dir, &["merge-file", "-q", ours, base, theirs])),
                _ => {
                    let labels = ["7", &case.path, "base", "HEAD", "upstream/main"];
                    run(in_dir(pleach, dir, &["driver", base, ours, theirs]).args(labels))
                }
            });
        }
    }
    times.map(|mut times| {
        times.sort();
        times[ROUNDS / 2]
    })
}

fn main() {
    let words: Vec<String> = env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let wanted = |case: &Case| words.iter().all(|word| case.name.contains(word.as_str()));
    let cases = env::var_os("PLEACH_CASES").map_or_else(cases, |folder| cases_in(Path::new(&folder)));
    let [repository, installed] = [(); 2].map(|()| tempfile::tempdir().expect("a temporary folder"));
    let (dir, pleach) = (repository.path(), installed.path().join("pleach"));
    fs::copy(PLEACH, &pleach).expect("the program can be copied");
    let pleach = pleach.to_str().expect("a path of ASCII");
    run(&mut in_dir("git", dir, &["init"]));
    let me = ["-c", "user.name=tide", "-c", "user.email=tide@example.org"];
    run(in_dir("git", dir, &me).args(["commit", "--allow-empty", "-m", "Begin"]));
    run(&mut in_dir(pleach, dir, &["install"]));
    println!("{:<46} {:>7} {:>12} {:>9} {:>6}", "", "bytes", "merge-file", "driver", "ratio");
    let mut ratios = Vec::new();
    for case in cases.iter().filter(|case| wanted(case)) {
        let [git, driver] = measured(case, pleach, dir).map(|time| time.as_secs_f64() * 1000.0);
        let bytes = case.versions[0].len();
        println!("{:<46} {bytes:>7} {git:>9.2} ms {driver:>6.2} ms {:>6.2}", case.name, driver / git);
        ratios.push(driver / git);
    }
    ratios.sort_by(f64::total_cmp);
    if let Some(median) = ratios.get(ratios.len() / 2) {
        println!("{:<46} {median:>46.2}", "median of all");
    }
}
