//! How long a structural merge takes, and how much memory: `cargo bench --bench merge`. With words behind
//! `--`, only the rows whose names hold them. With `PLEACH_CASES=/folder`, real merges instead: folders in it that hold
//! `base`, `ours` and `theirs`, and whose names end with a `-` and the extension.
//!
//! Two questions: how a merge compares with one parse of base, and whether its cost is linear in the size
//! of the file and in the length of a list. For the second, compare the time per byte of the rows of one
//! name: it should hardly rise.

use std::collections::BTreeMap;
use std::fs;
use std::hint::black_box;
use std::io;
use std::path::Path;
use std::time::{Duration, Instant};

use pleach::grammar::{self, Language};
use pleach::syntax::Parsed;
use pleach::{Settings, Versions, Way, line, merge};

/// Something to merge.
struct Case {
    name: String,
    path: &'static str,
    versions: Versions<Vec<u8>>,
}

/// A module of a tide-forecast dashboard. In every function each side changes a part of one call, so
/// that lines conflict and trees do not; in every eighth they disagree.
fn module(bytes: usize) -> Case {
    let function = |n: usize, unit: &str, timeout: usize, limit: usize| {
        format!(
            "def chart_{n}(station, days=7):\n    \"\"\"The tides of one station, number {n}.\"\"\"\n    \
             levels = fetch(station, unit={unit:?}, timeout={timeout})\n    if not levels:\n        return None\n    \
             # The harbour authority counts from chart datum.\n    \
             heights = [level.height - station.datum for level in levels if level.day < days]\n    \
             return plot(heights, title=f\"{{station.name}} {n}\", limit={limit})\n\n\n"
        )
    };
    let text = |ours: bool, theirs: bool| {
        let mut text = String::from("import tideboard\nfrom tideboard.charts import plot\n\n\n");
        for n in 0.. {
            if text.len() >= bytes {
                break;
            }
            let unit = if ours { "ft" } else { "m" };
            let timeout = if theirs { 30 } else { 10 };
            let limit = if n % 8 > 0 { 100 } else { 100 + usize::from(ours) + 2 * usize::from(theirs) };
            text.push_str(&function(n, unit, timeout, limit));
        }
        text.into_bytes()
    };
    let base = text(false, false);
    // The sides must have as many functions as base, whatever their length.
    let functions = base.windows(4).filter(|w| w == b"def ").count();
    let cut = |text: Vec<u8>| {
        let text = String::from_utf8(text).expect("made of text");
        let end = text.match_indices("def ").nth(functions).map_or(text.len(), |(at, _)| at);
        text.as_bytes()[..end].to_vec()
    };
    let versions = Versions { ours: cut(text(true, false)), theirs: cut(text(false, true)), base };
    Case { name: format!("a module of {} KB", bytes / 1000), path: "tides.py", versions }
}

/// A list of `length` entries. Each side changes every tenth entry, beside the other's, and puts in a new
/// one after every fiftieth.
fn list(
    name: &str,
    path: &'static str,
    length: usize,
    [head, tail]: [&str; 2],
    entry: fn(usize, usize) -> String,
) -> Case {
    let text = |side: usize| {
        let mut text = String::from(head);
        for n in 0..length {
            let changed = side > 0 && n % 10 == 2 + side;
            text.push_str(&entry(n, if changed { side } else { 0 }));
            if side > 0 && n % 50 == 20 * side {
                text.push_str(&entry(length * side + n, 0));
            }
        }
        text.push_str(tail);
        text.into_bytes()
    };
    Case {
        name: format!("{length} {name}"),
        path,
        versions: Versions { base: text(0), ours: text(1), theirs: text(2) },
    }
}

fn cases() -> Vec<Case> {
    let mut cases: Vec<Case> = [10_000, 12_000, 100_000, 1_000_000].into_iter().map(module).collect();
    for length in [1_000, 10_000] {
        cases.extend([
            list("call arguments", "tides.py", length, ["show(\n", ")\n"], |n, v| {
                format!("    tide_{n}=level({v}),\n")
            }),
            list("dict entries", "tides.py", length, ["tides = {\n", "}\n"], |n, v| {
                format!("    \"tide {n}\": level({v}),\n")
            }),
            list("list elements", "tides.py", length, ["tides = [\n", "]\n"], |n, v| format!("    level({n}, {v}),\n")),
            list("statements", "tides.py", length, ["", ""], |n, v| format!("tide_{n} = level({n}, {v})\n")),
            list("equal statements", "tides.py", length, ["", ""], |_, v| format!("draw(tide, {v})\n")),
            list("functions", "tides.py", length, ["", ""], |n, v| format!("def tide_{n}(): return level({v})\n")),
            list("imports", "tides.py", length, ["", ""], |n, v| format!("from tides.level_{v} import tide_{n}\n")),
            list("TOML keys", "tides.toml", length, ["[tides]\n", ""], |n, v| format!("tide_{n} = [{n}, {v}]\n")),
            list("use declarations", "tides.rs", length, ["", ""], |n, v| format!("use tides::level_{v}::tide_{n};\n")),
            list("enum variants", "tides.rs", length, ["enum Tide {\n", "}\n"], |n, v| {
                format!("    Tide{n}(Level<{v}>),\n")
            }),
            list(
                "match arms",
                "tides.rs",
                length,
                ["fn level(tide: u32) -> u32 {\n    match tide {\n", "        _ => 0,\n    }\n}\n"],
                |n, v| format!("        {n} => level({v}),\n"),
            ),
            list("items of a macro", "tides.rs", length, ["const TIDES: &[u32] = list![\n", "];\n"], |n, v| {
                format!("    level({n}, {v}),\n")
            }),
        ]);
    }
    cases
}

/// The median of repeated runs, three at least, that take long enough together.
fn median(enough: Duration, mut run: impl FnMut()) -> Duration {
    let started = Instant::now();
    let mut times = Vec::new();
    while times.len() < 3 || (started.elapsed() < enough && times.len() < 500) {
        let start = Instant::now();
        run();
        times.push(start.elapsed());
    }
    times.sort();
    times[times.len() / 2]
}

/// The memory that a run takes at its peak, in bytes, where the system tells (Linux).
fn peak(run: impl FnOnce()) -> Option<usize> {
    let kilobytes = |field: &str| -> Option<usize> {
        let status = fs::read_to_string("/proc/self/status").ok()?;
        status.lines().find_map(|l| l.strip_prefix(field))?.trim().strip_suffix(" kB")?.parse().ok()
    };
    fs::write("/proc/self/clear_refs", "5").ok()?;
    let before = kilobytes("VmRSS:")?;
    run();
    Some(kilobytes("VmHWM:")?.saturating_sub(before) * 1000)
}

fn measure(case: &Case, language: &'static Language) {
    let versions = case.versions.as_ref().map(Vec::as_slice);
    let settings = Settings { deadline: Duration::from_secs(600), ..Settings::default() };
    let memory = peak(|| drop(black_box(merge(versions, Some(language), &settings))));
    let answer = merge(versions, Some(language), &settings);
    let conflicts = match answer.way {
        Way::Trees => answer.conflicts.to_string(),
        Way::Lines => format!("lines: {}", answer.notes.join(", ")),
    };
    let enough = Duration::from_millis(500);
    let lines = median(enough, || drop(black_box(line::merge(black_box(versions), &settings.line))));
    let parse = median(enough, || drop(black_box(Parsed::new(black_box(versions.base), language))));
    let whole = median(enough, || drop(black_box(merge(black_box(versions), Some(language), &settings))));
    let bytes = versions.base.len();
    let memory = memory.map_or("-".to_owned(), |m| format!("{:.0}", m as f64 / bytes as f64));
    println!(
        "{:<24} {bytes:>9} {lines:>10.1?} {parse:>10.1?} {whole:>10.1?} {:>7.2} {:>9.0} {memory:>8} {conflicts:>9}",
        case.name,
        whole.as_secs_f64() / parse.as_secs_f64(),
        whole.as_nanos() as f64 / bytes as f64,
    );
}

/// Times real merges, in parses of their base: the median, and what nine of ten stay below.
fn measure_real(folder: &Path) -> io::Result<()> {
    let mut ratios: BTreeMap<String, Vec<f64>> = BTreeMap::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let Some((_, extension)) = path.to_str().and_then(|name| name.rsplit_once('-')) else { continue };
        let read = |name: &str| fs::read(path.join(name));
        let versions = Versions { base: read("base")?, ours: read("ours")?, theirs: read("theirs")? };
        let versions = versions.as_ref().map(Vec::as_slice);
        let Some(language) = grammar::for_path(format!("a.{extension}").as_bytes(), versions.ours) else { continue };
        // A parse of next to nothing is no measure.
        if versions.base.len() < 500 || Parsed::new(versions.base, language).is_err() {
            continue;
        }
        let enough = Duration::from_millis(20);
        let parse = median(enough, || drop(black_box(Parsed::new(black_box(versions.base), language))));
        let whole =
            median(enough, || drop(black_box(merge(black_box(versions), Some(language), &Settings::default()))));
        ratios.entry(extension.to_owned()).or_default().push(whole.as_secs_f64() / parse.as_secs_f64());
    }
    for (extension, mut ratios) in ratios {
        ratios.sort_by(f64::total_cmp);
        let (n, at) = (ratios.len(), |share: usize| ratios[ratios.len() * share / 10]);
        println!("{n} merges of .{extension}: {:.2} parses of base, nine of ten below {:.2}", at(5), at(9));
    }
    Ok(())
}

fn main() {
    if let Some(folder) = std::env::var_os("PLEACH_CASES") {
        measure_real(Path::new(&folder)).expect("PLEACH_CASES names a folder of cases");
        return;
    }
    let words: Vec<String> = std::env::args().skip(1).filter(|a| !a.starts_with('-')).collect();
    println!(
        "{:<24} {:>9} {:>10} {:>10} {:>10} {:>7} {:>9} {:>8} {:>9}",
        "merge", "bytes", "by lines", "one parse", "whole", "parses", "ns a byte", "memory", "conflicts"
    );
    for case in cases().iter().filter(|c| words.iter().all(|w| c.name.contains(w))) {
        let language = grammar::for_path(case.path.as_bytes(), &case.versions.ours).expect("a language for the path");
        measure(case, language);
    }
    println!("\nmemory: the peak, in bytes for each byte of base, if it is more than an earlier row has left over");
}
