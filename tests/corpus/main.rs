//! The corpus: three versions and the answer that the specification demands, one folder a case, by
//! language and construct. The answers were written by hand from the semantics table, so a case that
//! fails is a defect of the merge until somebody shows otherwise.
//!
//! Each case is merged twice, as written and with ours and theirs exchanged. As written, the answer
//! must be `expected` byte for byte. Exchanged, it must be `mirror` byte for byte where the case has
//! one; otherwise it must show what contract K2 promises whatever the layout: the same verdict, the
//! same number of conflicts and the same lines.
//!
//! `PLEACH_CASE=substring` runs only the cases whose path holds the substring:
//!
//! ```text
//! PLEACH_CASE=call/wrapped cargo test --test corpus python
//! ```

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

#[path = "../edited/blocks.rs"]
mod blocks;

use pleach::{Answer, Combined, Settings, Versions, grammar, merge};
use similar::TextDiff;

#[test]
fn python() {
    run("python", "py");
}

#[test]
fn rust() {
    run("rust", "rs");
}

#[test]
fn toml() {
    run("toml", "toml");
}

/// One folder of the corpus.
struct Case {
    /// `language/construct/case`, as a person names it.
    name: String,
    versions: Versions<Vec<u8>>,
    expected: Vec<u8>,
    mirror: Option<Vec<u8>>,
}

/// Runs every case of a language that the filter lets through, and fails with all that differ.
fn run(language: &str, extension: &str) {
    let filter = env::var("PLEACH_CASE").unwrap_or_default();
    let cases: Vec<Case> =
        folders(language).into_iter().filter(|name| name.contains(&filter)).map(|name| read(name, extension)).collect();
    assert!(!cases.is_empty(), "no case of {language} has {filter:?} in its path");

    let complaints: Vec<Vec<String>> = cases.iter().map(|case| complaints(case, extension)).collect();
    for complaint in complaints.iter().flatten() {
        println!("{complaint}");
    }
    let failed = complaints.iter().filter(|complaints| !complaints.is_empty()).count();
    assert_eq!(failed, 0, "{failed} of {} cases of {language} fail", cases.len());
}

/// Statements that nobody edits, above or below, change nothing but the numbers of lines: a merge may leave them out
/// of its sight.
#[test]
fn statements_that_nobody_edited_change_no_answer() {
    let filler = |name: &str| {
        let one = |i: usize| {
            format!(
                "def {name}_{i}(gauge):\n    level = gauge.level({i})\n\n    return level, '{name} {i} of a gauge'\n\n\n"
            )
        };
        (0..12).map(one).collect::<String>().into_bytes()
    };
    let (above, below) = (filler("above"), [b"\n\n", &filler("below")[..]].concat());
    // Comments that a file begins with tell of the file, and not of the import below them; further down they do.
    let headed = |text: &[u8]| {
        let below = text.split(|byte| *byte == b'\n').find(|line| !line.starts_with(b"#"));
        let import = below.is_some_and(|line| line.starts_with(b"import ") || line.starts_with(b"from "));
        text.starts_with(b"#") && import
    };
    let whole = |text: &Vec<u8>| {
        text.ends_with(b"\n") && !text.contains(&b'\r') && !text.trim_ascii().is_empty() && !headed(text)
    };
    let cases = folders("python").into_iter().map(|name| read(name, "py"));
    let mut count = 0;
    for case in
        cases.filter(|case| [&case.versions.base, &case.versions.ours, &case.versions.theirs].into_iter().all(whole))
    {
        let plain = answer(case.versions.as_ref().map(Vec::as_slice), "py");
        let among = case.versions.as_ref().map(|text| [&above, text, &below[..]].concat());
        let among = answer(among.as_ref().map(Vec::as_slice), "py");
        let expected = [&above[..], &plain.text, &below[..]].concat();
        assert_eq!(String::from_utf8_lossy(&among.text), String::from_utf8_lossy(&expected), "{}", case.name);
        assert_eq!(misplaced(&case, &among), [""; 0], "{}", case.name);
        count += 1;
    }
    assert!(count > 150, "only {count} cases");
}

/// What is wrong with the answers to one case, one text a direction.
fn complaints(case: &Case, extension: &str) -> Vec<String> {
    let versions = case.versions.as_ref().map(Vec::as_slice);
    let straight = answer(versions, extension);
    let exchanged = answer(versions.mirrored(), extension);

    let mut found = Vec::new();
    if straight.text != case.expected {
        found.push(report(case, "", &case.expected, &straight));
    } else if straight.conflicts != conflicts(&case.expected) {
        found.push(format!("{} says {} conflicts, has {}\n", case.name, straight.conflicts, conflicts(&case.expected)));
    }
    match &case.mirror {
        Some(mirror) if exchanged.text != *mirror => found.push(report(case, " (mirrored)", mirror, &exchanged)),
        Some(_) => {}
        None if alike(&case.expected, &exchanged.text) && exchanged.conflicts == conflicts(&case.expected) => {}
        None => found.push(report(case, " (mirrored; the order of lines is free)", &case.expected, &exchanged)),
    }
    found.extend(misplaced(case, &straight));
    found.extend(misplaced(case, &exchanged));
    found
}

/// The combined places that are not on the line that the answer gives them, nor in a block that begins there.
fn misplaced(case: &Case, answer: &Answer) -> Vec<String> {
    let lines: Vec<&[u8]> = answer.text.split_inclusive(|byte| *byte == b'\n').collect();
    let stands = |place: &Combined| {
        let Some(from) = lines.get(place.line - 1..).filter(|from| !from.is_empty()) else { return false };
        if from[0].starts_with(b"<<<<<<< ") {
            return true;
        }
        let ours = blocks::choose(&from.concat(), 0).expect("whole conflict blocks");
        let onward = String::from_utf8_lossy(&ours).lines().map(str::trim).collect::<Vec<_>>().join(" ");
        let quoted = place.what.split('`').nth(1).unwrap_or_default();
        onward.find(quoted.trim_end_matches('…')).is_some_and(|at| at <= from[0].trim_ascii().len())
    };
    let wrong = answer.combined.iter().filter(|place| !stands(place));
    wrong.map(|place| format!("{}: not on line {}: {}\n", case.name, place.line, place.what)).collect()
}

fn answer(versions: Versions<&[u8]>, extension: &str) -> Answer {
    let language = grammar::for_path(format!("base.{extension}").as_bytes(), versions.ours);
    merge(versions, language, &Settings::default())
}

/// Contract K2 without the layout: the same conflicts, and the same lines in any order.
fn alike(one: &[u8], other: &[u8]) -> bool {
    let lines = |text: &[u8]| {
        let mut lines: Vec<Vec<u8>> = text
            .split(|byte| *byte == b'\n')
            .filter(|line| !line.trim_ascii().is_empty())
            .map(<[u8]>::to_vec)
            .collect();
        lines.sort();
        lines
    };
    conflicts(one) == conflicts(other) && lines(one) == lines(other)
}

/// How many conflict blocks a text holds.
fn conflicts(text: &[u8]) -> usize {
    blocks::count(text).expect("whole conflict blocks").0
}

fn report(case: &Case, direction: &str, expected: &[u8], answer: &Answer) -> String {
    let mut out = format!("{}{direction}\n", case.name);
    for note in &answer.notes {
        writeln!(out, "note: {note}").unwrap();
    }
    let (expected, answered) = (String::from_utf8_lossy(expected), String::from_utf8_lossy(&answer.text));
    let diff = TextDiff::from_lines(&*expected, &*answered);
    write!(out, "{}", diff.unified_diff().context_radius(4).header("expected", "answer")).unwrap();
    out
}

fn corpus() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("corpus")
}

/// All `language/construct/case` of a language, sorted.
fn folders(language: &str) -> Vec<String> {
    let mut names: Vec<String> = children(language).iter().flat_map(|construct| children(construct)).collect();
    names.sort();
    names
}

/// The folders in a folder of the corpus, by their names from the corpus on.
fn children(parent: &str) -> Vec<String> {
    let path = corpus().join(parent);
    fs::read_dir(&path)
        .unwrap_or_else(|error| panic!("{}: {error}", path.display()))
        .map(|entry| entry.expect("a readable folder"))
        .filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_dir()))
        .map(|entry| format!("{parent}/{}", entry.file_name().to_str().expect("a UTF-8 name")))
        .collect()
}

fn read(name: String, extension: &str) -> Case {
    let path = |version: &str| corpus().join(&name).join(version).with_extension(extension);
    let bytes = |version: &str| fs::read(path(version)).unwrap_or_else(|error| panic!("{name}: {version}: {error}"));
    Case {
        versions: Versions { base: "base", ours: "ours", theirs: "theirs" }.map(bytes),
        expected: bytes("expected"),
        mirror: path("mirror").exists().then(|| bytes("mirror")),
        name,
    }
}
