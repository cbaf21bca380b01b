//! How long a line merge takes: `cargo bench --bench line`.
//!
//! Plain timing and no statistics package: the question is whether a 12 KB file stays well under a
//! millisecond and whether the cost is linear, not whether something got 2 % slower.

use std::hint::black_box;
use std::time::{Duration, Instant};

use pleach::Versions;
use pleach::line::{Algorithm, Level, LineSettings, merge};

/// Source-like text: every fifth line is one of a few, the others differ.
fn source(lines: usize, changed: impl Fn(usize) -> bool, mark: &str) -> Vec<u8> {
    let line = |n: usize| match n % 5 {
        0 => String::from("\n"),
        _ if changed(n) => format!("    value_{n} = {mark}({n})\n"),
        1 => String::from("    return result\n"),
        _ => format!("    value_{n} = compute(station, {n})\n"),
    };
    (0..lines).map(line).collect::<String>().into_bytes()
}

/// The median of repeated runs.
fn median(mut run: impl FnMut()) -> Duration {
    let started = Instant::now();
    let mut times = Vec::new();
    while times.len() < 5 || (started.elapsed() < Duration::from_secs(1) && times.len() < 2000) {
        let start = Instant::now();
        run();
        times.push(start.elapsed());
    }
    times.sort();
    times[times.len() / 2]
}

fn main() {
    println!("{:<44} {:>10} {:>10} {:>12}", "merge", "bytes", "conflicts", "median");
    for lines in [400, 4_000, 40_000] {
        let base = source(lines, |_| false, "");
        let inputs = [
            ("few changes", source(lines, |n| n % 97 == 3, "f"), source(lines, |n| n % 89 == 7, "g")),
            ("many changes, many conflicts", source(lines, |n| n % 7 == 3, "f"), source(lines, |n| n % 6 == 3, "g")),
            ("one side rewritten", source(lines, |n| n % 5 > 0, "f"), source(lines, |n| n % 89 == 7, "g")),
        ];
        for (name, ours, theirs) in &inputs {
            for (driver, algorithm, level) in [
                ("git merge", Algorithm::Histogram, Level::Zealous),
                ("git merge-file", Algorithm::Myers, Level::ZealousAlnum),
            ] {
                let settings = LineSettings { algorithm, level, ..LineSettings::default() };
                let versions = Versions { base: &base[..], ours, theirs };
                let conflicts = merge(versions, &settings).conflicts;
                let time = median(|| drop(black_box(merge(black_box(versions), &settings))));
                let row = format!("{name} ({driver})");
                println!("{row:<44} {:>10} {conflicts:>10} {time:>12.1?}", base.len());
            }
        }
    }
}
