//! K7: unparsable, binary, non-UTF-8, oversized, too deep, too slow: the answer is the line merge and a
//! note says in one line why. No input of any kind takes longer than the deadline or overflows a stack.
//!
//! A stack that overflows takes the process with it, so each hostile input is merged in a process of its
//! own: this test program, told by the environment which input to merge.

use std::env;
use std::process::Command;
use std::time::{Duration, Instant};

use pleach::{Answer, Settings, Versions, Way, line, merge};
use proptest::prelude::*;

use super::edited::rng::Rng;
use super::edited::{Lang, blocks, sources, trees};
use super::hostile::{Hostile, hostile};
use super::merged::{in_parallel, settings};

/// What a busy machine in a debug build may add to a deadline, for the line merge comes before the clock
/// starts.
const GRACE: Duration = Duration::from_secs(8);

/// The number of the input, its depth and the deadline in milliseconds.
const INPUT: &str = "PLEACH_K7_INPUT";

/// What is wrong with an answer, whatever the input: it must be the line merge, with a reason where the
/// trees were asked in vain, or else a whole merge by trees that took no longer than it may.
fn complaint(lang: Lang, versions: Versions<&[u8]>, settings: &Settings) -> Result<Answer, String> {
    let started = Instant::now();
    let answer = merge(versions, lang.language(), settings);
    let took = started.elapsed();
    if took > settings.deadline + GRACE {
        return Err(format!("took {took:?}"));
    }
    let lines = line::merge(versions, &settings.line);
    // Inputs may hold markers of their own; then nothing can be counted.
    let marked = [versions.base, versions.ours, versions.theirs].iter().any(|v| v.windows(7).any(|w| w == b"<<<<<<<"));
    if !marked {
        let (blocks, _) = blocks::count(&answer.text)?;
        if blocks != answer.conflicts {
            return Err(format!("says {} conflicts, holds {blocks}", answer.conflicts));
        }
    }
    match answer.way {
        Way::Lines => {
            if answer.text != lines.text && answer.conflicts <= lines.conflicts {
                return Err("says lines, and is not the line merge".to_owned());
            }
            if lines.conflicts > 0 && answer.notes.is_empty() {
                return Err("merged as lines, and nobody knows why".to_owned());
            }
            if answer.notes.iter().any(|n| n.contains('\n')) {
                return Err(format!("a reason of several lines: {:?}", answer.notes));
            }
        }
        Way::Trees => {
            let parse = |texts: [&[u8]; 3]| texts.iter().all(|v| trees::parses(lang, v));
            let left = left_over(versions);
            if !parse([versions.base, versions.ours, versions.theirs]) && !parse([&left.base, &left.ours, &left.theirs])
            {
                return Err("merged by trees though a version does not parse".to_owned());
            }
            if answer.conflicts == 0 && !trees::parses(lang, &answer.text) {
                return Err("a clean answer does not parse".to_owned());
            }
        }
    }
    Ok(answer)
}

fn of(versions: &Versions<Vec<u8>>) -> Versions<&[u8]> {
    versions.as_ref().map(Vec::as_slice)
}

/// What the line merge leaves over: the versions with every line edit that is in no conflict made in all of
/// them. If that parses, a side has replaced what does not.
fn left_over(versions: Versions<&[u8]>) -> Versions<Vec<u8>> {
    let lines = versions.map(line::lines);
    let mut left = Versions::<Vec<u8>>::default();
    for chunk in line::chunks(versions, line::Algorithm::Histogram) {
        let (b, o, t) = (&lines.base[chunk.base], &lines.ours[chunk.ours], &lines.theirs[chunk.theirs]);
        let [b, o, t] = match chunk.kind {
            line::ChunkKind::Conflict => [b, o, t],
            line::ChunkKind::Theirs => [t, t, t],
            _ => [o, o, o],
        };
        left.base.extend(b.concat());
        left.ours.extend(o.concat());
        left.theirs.extend(t.concat());
    }
    left
}

#[test]
fn no_hostile_input_outlasts_the_deadline() {
    let (deep, deadline) = if sources::exhaustive() { (100_000, 5_000) } else { (30_000, 200) };
    run_all(deep, deadline);
}

/// With time enough, nothing is cut off before it could overflow the stack.
#[test]
fn no_hostile_input_overflows_a_stack() {
    if sources::exhaustive() {
        run_all(100_000, 120_000);
        run_all(20_000, 120_000);
    }
    run_all(1_000, 10_000);
}

/// Merges every hostile input in a process of its own. `PLEACH_K7_ONLY=words` takes only inputs whose
/// names hold the words, and prints what comes of them.
fn run_all(deep: usize, deadline: u64) {
    let all = hostile(deep);
    let only = env::var("PLEACH_K7_ONLY").unwrap_or_default();
    let some: Vec<(usize, &Hostile)> = all.iter().enumerate().filter(|(_, h)| h.name.contains(&only)).collect();
    let program = env::current_exe().expect("this program has a path");
    let failed: Vec<String> = in_parallel(&some, |(number, hostile)| {
        let output = Command::new(&program)
            .args(["--exact", "k7_always_an_answer::one_hostile_input", "--include-ignored", "--nocapture"])
            .env(INPUT, format!("{number} {deep} {deadline}"))
            .env("RUST_BACKTRACE", "0")
            .output()
            .expect("this program runs");
        let said = String::from_utf8_lossy(&output.stdout);
        if env::var_os("PLEACH_K7_ONLY").is_some() {
            said.lines().filter(|l| l.contains("merged: ")).for_each(|l| println!("{l}"));
        }
        let text = String::from_utf8_lossy(&output.stderr).into_owned();
        let last: Vec<&str> =
            text.lines().filter(|l| !l.trim().is_empty() && !l.starts_with("note:")).take(4).collect();
        (!output.status.success() || !said.contains("merged: ")).then(|| {
            format!("{:?}, {}, {deep} deep: {} {}", hostile.lang, hostile.name, output.status, last.join(" / "))
        })
    })
    .into_iter()
    .flatten()
    .collect();
    assert!(failed.is_empty(), "{} of {} inputs:\n{}", failed.len(), some.len(), failed.join("\n"));
}

#[test]
#[ignore = "run by the tests about hostile inputs, each input in a process of its own"]
fn one_hostile_input() {
    let Ok(input) = env::var(INPUT) else { return };
    let numbers: Vec<usize> = input.split(' ').map(|n| n.parse().expect("a number")).collect();
    let hostile = hostile(numbers[1]).swap_remove(numbers[0]);
    let started = Instant::now();
    let settings = Settings { deadline: Duration::from_millis(numbers[2] as u64), ..settings() };
    let answer = complaint(hostile.lang, of(&hostile.versions), &settings).unwrap_or_else(|why| panic!("{why}"));
    let took = started.elapsed();
    println!("merged: {:?}, {}: {took:?} {:?} {:?}", hostile.lang, hostile.name, answer.way, answer.notes);
    // Threads that the deadline left behind must not be waited for.
    std::process::exit(0);
}

/// Versions that both sides changed in one line, so that the trees are asked.
fn changed(before: &[u8], after: &[u8]) -> Versions<Vec<u8>> {
    let with = |line: &[u8]| [before, line, after].concat();
    Versions { base: with(b"x = f(1, 2)\n"), ours: with(b"x = f(3, 2)\n"), theirs: with(b"x = f(1, 4)\n") }
}

fn expect_lines(versions: &Versions<Vec<u8>>, settings: &Settings, reason: &str) {
    let answer = complaint(Lang::Python, of(versions), settings).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(answer.way, Way::Lines);
    assert_eq!(answer.text, line::merge(of(versions), &settings.line).text);
    assert_eq!(answer.conflicts, 1);
    assert!(answer.notes.iter().any(|n| n.contains(reason)), "{:?} does not say {reason:?}", answer.notes);
}

#[test]
fn what_the_others_are_measured_by_merges_as_trees() {
    let answer = complaint(Lang::Python, of(&changed(b"", b"")), &settings()).unwrap();
    assert_eq!((answer.way, answer.conflicts, &answer.text[..]), (Way::Trees, 0, &b"x = f(3, 4)\n"[..]));
}

#[test]
fn text_that_does_not_parse_is_merged_as_lines_with_the_reason() {
    expect_lines(&changed(b"def f(:\n", b""), &settings(), "does not parse");
}

#[test]
fn one_version_that_does_not_parse_is_enough_and_is_named() {
    for (name, version) in [("base", 0), ("ours", 1), ("theirs", 2)] {
        let mut versions = changed(b"", b"");
        [&mut versions.base, &mut versions.ours, &mut versions.theirs][version].splice(0..0, *b"def f(:\n");
        let answer = complaint(Lang::Python, of(&versions), &settings()).unwrap();
        assert_eq!(answer.way, Way::Lines);
        assert!(answer.notes.iter().any(|n| n.contains(name)), "{:?} does not name {name}", answer.notes);
    }
}

/// It is what lines leave over that the trees are asked about.
#[test]
fn what_does_not_parse_and_a_side_has_mended_is_no_reason_against_syntax() {
    let text = |head: &str, first: u32, second: u32| {
        format!("{head}\n    pass\n\n\ny = 1\nz = 2\n\n\nx = g({first}, {second})\n").into_bytes()
    };
    let theirs = text("def f(:", 1, 4);
    for (base, ours) in [("def f(:", "def f():"), ("def f(:", "def h():")] {
        let versions = Versions { base: text(base, 1, 2), ours: text(ours, 3, 2), theirs: theirs.clone() };
        for versions in [versions.clone(), versions.mirrored()] {
            let answer = complaint(Lang::Python, of(&versions), &settings()).unwrap_or_else(|why| panic!("{why}"));
            assert_eq!((answer.way, answer.conflicts, answer.text), (Way::Trees, 0, text(ours, 3, 4)));
        }
    }
}

#[test]
fn a_continue_that_would_stand_outside_of_its_loop_is_named_in_the_reason() {
    let body = "note('high', gauge)\n        alarm(gauge.port)\n    return gauges\n";
    let head = "def sweep(gauges):\n    ";
    let base = format!(
        "{head}for gauge in gauges:\n        if gauge.reading > 49:\n            {}",
        body.replace("\n        ", "\n            ")
    );
    let ours =
        format!("{head}for gauge in gauges:\n        if gauge.reading <= 49:\n            continue\n        {body}");
    let theirs = format!("{head}gauge = gauges\n    if gauge.reading > 49:\n        {body}");
    let versions = Versions { base, ours, theirs }.map(String::into_bytes);
    for (versions, side) in [(versions.clone(), "ours"), (versions.mirrored(), "theirs")] {
        expect_lines(
            &versions,
            &settings(),
            &format!("with {side} chosen, the structural answer has `continue` at line"),
        );
    }
}

#[test]
fn bytes_that_are_no_utf8_are_merged_as_lines_with_the_reason() {
    expect_lines(&changed(b"# caf\xe9\n", b""), &settings(), "UTF-8");
}

#[test]
fn binary_content_is_merged_as_lines() {
    let answer = complaint(Lang::Python, of(&changed(b"\x00\x01\x02\n", b"\x00\n")), &settings()).unwrap();
    assert_eq!(answer.way, Way::Lines);
    assert!(!answer.notes.is_empty());
}

#[test]
fn files_over_the_size_limit_are_merged_as_lines_with_the_reason() {
    let settings = Settings { size_limit: 5_000, ..settings() };
    expect_lines(&changed(&b"y = 1\n".repeat(1_000), b""), &settings, "larger than 5000 bytes");
}

#[test]
fn a_deadline_that_passed_gives_the_line_merge_with_the_reason() {
    let settings = Settings { deadline: Duration::ZERO, ..settings() };
    expect_lines(&changed(&b"y = f(1, [2, 3], k=4)\n".repeat(2_000), b""), &settings, "not done within");
}

#[test]
fn a_file_of_no_language_is_the_line_merge() {
    let versions = changed(b"", b"");
    let answer = merge(of(&versions), None, &settings());
    assert_eq!((answer.way, answer.conflicts), (Way::Lines, 1));
    assert_eq!(answer.text, line::merge(of(&versions), &settings().line).text);
}

#[test]
fn a_base_with_conflict_markers_is_merged_as_lines() {
    let block = b"<<<<<<< one\na = 1\n=======\na = 2\n>>>>>>> two\n";
    let answer = merge(of(&changed(block, b"")), Lang::Python.language(), &settings());
    assert_eq!(answer.way, Way::Lines);
    assert_eq!(answer.text, line::merge(of(&changed(block, b"")), &settings().line).text);
}

#[test]
fn empty_files_are_merged() {
    for (base, ours, theirs) in
        [("", "", ""), ("", "a = 1\n", ""), ("a = 1\n", "", ""), ("a = 1\n", "", "a = 2\n"), ("", "a = 1\n", "b = 1\n")]
    {
        for lang in Lang::ALL {
            let versions = Versions { base, ours, theirs }.map(|t| t.as_bytes().to_vec());
            complaint(lang, of(&versions), &settings())
                .unwrap_or_else(|why| panic!("{lang:?} {base:?} {ours:?} {theirs:?}: {why}"));
        }
    }
}

/// Whatever it ends in the middle of.
#[test]
fn a_text_that_ends_early_gets_the_clean_line_merge() {
    for lang in Lang::ALL {
        for end in
            ["\\", "'", "'\\", "\"", "\"\\", "\"\"\"\\", "r#\"", "'é", "(", "}", "/*", "//", "#[", "@", "pub(", "é"]
        {
            let text = |first: u32, last: u32| {
                let middle: String = (0..9).map(|n| format!("middle{n} = {n};\n")).collect();
                format!("first = {first};\n{middle}last = {last};\n{end}").into_bytes()
            };
            let versions = Versions { base: text(1, 1), ours: text(2, 1), theirs: text(1, 2) };
            let answer = merge(of(&versions), lang.language(), &settings());
            assert_eq!((answer.conflicts, &answer.text), (0, &text(2, 2)), "{lang:?} before {end:?}");
            assert!(!answer.notes.iter().any(|note| note.contains("bug")), "{:?}", answer.notes);
        }
    }
}

/// Real text cut off anywhere, and with bytes changed anywhere.
#[test]
fn damaged_real_text_gets_an_answer() {
    let mut inputs = Vec::new();
    for lang in Lang::ALL {
        for (k, (name, text)) in sources::sample(lang, 40, 200, 8_000).into_iter().enumerate() {
            let mut rng = Rng::new(k as u64);
            let mut damage = || {
                let mut bytes = text.clone().into_bytes();
                for _ in 0..rng.below(4) {
                    let at = rng.below(bytes.len());
                    match rng.below(4) {
                        0 => bytes[at] = b"()[]{}'\"\\\n:#,\x00\xff"[rng.below(15)],
                        1 => drop(bytes.remove(at)),
                        2 => {
                            let end = (at + rng.below(80)).min(bytes.len());
                            bytes.drain(at..end);
                        }
                        _ => bytes.insert(at, b"()[]{}'\"\\\n:#,=x"[rng.below(15)]),
                    }
                }
                if rng.chance(30) {
                    bytes.truncate(rng.below(bytes.len()) + 1);
                }
                bytes
            };
            inputs.push((lang, name, Versions { base: damage(), ours: damage(), theirs: damage() }));
        }
    }
    let failed: Vec<String> = in_parallel(&inputs, |(lang, name, versions)| {
        complaint(*lang, of(versions), &settings()).err().map(|why| format!("{name}: {why}"))
    })
    .into_iter()
    .flatten()
    .collect();
    assert!(failed.is_empty(), "{}", failed.join("\n"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn bytes_that_are_no_language_at_all_get_an_answer(
        base in proptest::collection::vec(any::<u8>(), 0..300),
        ours in proptest::collection::vec(any::<u8>(), 0..300),
        theirs in proptest::collection::vec(any::<u8>(), 0..300),
        lang in prop::sample::select(Lang::ALL.to_vec()),
    ) {
        let versions = Versions { base, ours, theirs };
        prop_assert!(complaint(lang, of(&versions), &settings()).is_ok());
    }

    /// Words and signs of the languages in any order: some of it parses.
    #[test]
    fn words_and_signs_in_any_order_get_an_answer(
        lang in prop::sample::select(Lang::ALL.to_vec()),
        words in prop::collection::vec(prop::collection::vec(0..WORDS.len(), 0..14), 3),
    ) {
        let text = |n: usize| words[n].iter().map(|w| WORDS[*w]).collect::<String>().into_bytes();
        let versions = Versions { base: text(0), ours: text(1), theirs: text(2) };
        if let Err(why) = complaint(lang, of(&versions), &settings()) {
            prop_assert!(false, "{why}");
        }
    }
}

const WORDS: [&str; 24] = [
    "a", "b", " = ", "1", "f(", ")", "[", "]", "{", "}", ",", "\n", "\n    ", "if x:", "def f():", "pass", "fn f() ",
    ";", "'t'", "\"", "#", "//", " ", "\\\n",
];
