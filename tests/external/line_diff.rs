//! The line diff under the merge, against `git diff`.

use std::collections::HashMap;
use std::ops::Range;

use pleach::line::{Algorithm, hunks};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

use crate::git::git;
use crate::texts::{long_pair, triple};

const ALGORITHMS: [(&str, Algorithm); 4] = [
    ("myers", Algorithm::Myers),
    ("minimal", Algorithm::Minimal),
    ("patience", Algorithm::Patience),
    ("histogram", Algorithm::Histogram),
];

type Hunks = Vec<(Range<usize>, Range<usize>)>;

/// The hunks of `git diff` for pairs of files, by one call of git. The indentation heuristic is off,
/// as it is in merges; the whole file is asked for as context, because without context git cuts off
/// common ends before it compares.
fn git_hunks(pairs: &[[Vec<u8>; 2]], algorithm: &str) -> Vec<Hunks> {
    let directory = tempfile::tempdir().unwrap();
    for (side, name) in ["before", "after"].iter().enumerate() {
        std::fs::create_dir(directory.path().join(name)).unwrap();
        for (number, pair) in pairs.iter().enumerate() {
            std::fs::write(directory.path().join(name).join(number.to_string()), &pair[side]).unwrap();
        }
    }
    let output = git(directory.path())
        .args(["diff", "--no-index", "--no-renames", "--no-indent-heuristic", "-U1000000"])
        .args(["--diff-algorithm", algorithm, "before", "after"])
        .output()
        .unwrap();
    let mut found: HashMap<usize, Hunks> = HashMap::new();
    let mut current = (0, (0, 0), false);
    for line in output.stdout.split_inclusive(|byte| *byte == b'\n') {
        let (file, (before, after), in_body) = &mut current;
        if let Some(names) = line.strip_prefix(b"diff --git ") {
            let name = names.rsplit(|byte| *byte == b'/').next().unwrap();
            *file = std::str::from_utf8(name).unwrap().trim().parse().unwrap();
            (*before, *after, *in_body) = (0, 0, false);
        } else if line.starts_with(b"@@ ") {
            *in_body = true;
        } else if *in_body {
            let hunks = found.entry(*file).or_default();
            let step = match line[0] {
                b' ' => (1, 1),
                b'-' => (1, 0),
                b'+' => (0, 1),
                _ => (0, 0), // "\ No newline at end of file"
            };
            if step.0 != step.1 {
                match hunks.last_mut() {
                    Some(last) if (last.0.end, last.1.end) == (*before, *after) => {
                        (last.0.end, last.1.end) = (*before + step.0, *after + step.1);
                    }
                    _ => hunks.push((*before..*before + step.0, *after..*after + step.1)),
                }
            }
            (*before, *after) = (*before + step.0, *after + step.1);
        }
    }
    (0..pairs.len()).map(|number| found.remove(&number).unwrap_or_default()).collect()
}

#[test]
fn short_files_differ_where_git_says_they_differ() {
    let pairs = vec(triple().prop_map(|[base, ours, _]| [base, ours]), 1..80);
    let config = Config { cases: scaled(25), failure_persistence: None, max_shrink_iters: 1000, ..Config::default() };
    TestRunner::new(config)
        .run(&(pairs, prop::sample::select(&ALGORITHMS[..])), |(pairs, (name, algorithm))| {
            for (pair, expected) in pairs.iter().zip(git_hunks(&pairs, name)) {
                let texts = pair.each_ref().map(|text| String::from_utf8_lossy(text));
                prop_assert_eq!(hunks(&pair[0], &pair[1], algorithm), expected, "{} diff of {:?}", name, texts);
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn long_files_differ_where_git_says_they_differ() {
    let seeds: Vec<u64> = (0..u64::from(scaled(50))).collect();
    for seeds in seeds.chunks(50) {
        let pairs = seeds.iter().map(|seed| (*seed, long_pair(*seed)));
        // A minimal diff of the longest takes many seconds, in git as here.
        let (longest, long): (Vec<_>, Vec<_>) = pairs.partition(|(_, pair)| pair[0].len() > 200_000);
        for (name, algorithm) in ALGORITHMS {
            let pairs = if algorithm == Algorithm::Minimal {
                long.iter().collect()
            } else {
                [&long, &longest].into_iter().flatten().collect::<Vec<_>>()
            };
            let texts: Vec<_> = pairs.iter().map(|(_, pair)| pair.clone()).collect();
            for ((seed, pair), expected) in pairs.into_iter().zip(git_hunks(&texts, name)) {
                assert!(hunks(&pair[0], &pair[1], algorithm) == expected, "{name} diff of the long pair {seed}");
            }
        }
    }
}

/// `PLEACH_TEST_SCALE=20` makes the comparison with git twenty times as thorough.
pub fn scaled(cases: u32) -> u32 {
    cases * std::env::var("PLEACH_TEST_SCALE").ok().and_then(|scale| scale.parse().ok()).unwrap_or(1)
}
