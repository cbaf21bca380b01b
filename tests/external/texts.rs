//! Generated versions of a file, made so that their changes often meet.

use proptest::collection::vec;
use proptest::prelude::*;

/// Base, ours, theirs.
pub type Triple = [Vec<u8>; 3];

/// Lines by number. Few are used at a time, so that equal lines abound; some have no letter or digit,
/// which matters to git.
const LINES: [&str; 12] = ["", "}", "a", "b", "  c", "  --", "d e", "return", "f", "\t", "g(1)", "é"];

/// How the lines of a text end.
#[derive(Clone, Copy, Debug)]
enum Ending {
    Lf,
    CrLf,
    /// CR LF for lines whose number has this remainder by three.
    Mixed(usize),
}

fn ending() -> impl Strategy<Value = Ending> {
    prop_oneof![6 => Just(Ending::Lf), 2 => Just(Ending::CrLf), 1 => (0..3usize).prop_map(Ending::Mixed)]
}

/// One edit: at which part of the text, how many lines to take away, what to put there.
type Edit = (f64, usize, Vec<usize>);

fn edits(alphabet: usize, most: usize) -> impl Strategy<Value = Vec<Edit>> {
    vec((0.0..1.0, 0..4usize, vec(0..alphabet, 0..4)), 0..most)
}

fn edited(mut lines: Vec<usize>, edits: &[Edit]) -> Vec<usize> {
    for (place, remove, insert) in edits {
        let at = (place * (lines.len() + 1) as f64) as usize;
        let end = (at + remove).min(lines.len());
        lines.splice(at..end, insert.iter().copied());
    }
    lines
}

fn text(lines: &[usize], ending: Ending, final_newline: bool) -> Vec<u8> {
    let mut text = Vec::new();
    for (index, line) in lines.iter().enumerate() {
        match LINES.get(*line) {
            Some(line) => text.extend_from_slice(line.as_bytes()),
            None => text.extend_from_slice(format!("line {line}").as_bytes()),
        }
        let crlf = match ending {
            Ending::Lf => false,
            Ending::CrLf => true,
            Ending::Mixed(rest) => index % 3 == rest,
        };
        text.extend_from_slice(if crlf { b"\r\n" } else { b"\n" });
    }
    if !final_newline {
        while text.last().is_some_and(|last| matches!(last, b'\r' | b'\n')) {
            text.pop();
        }
    }
    text
}

/// Three versions of a short file: edits of one base, close together.
pub fn triple() -> impl Strategy<Value = Triple> {
    (2..LINES.len())
        .prop_flat_map(|alphabet| {
            let sides = (edits(alphabet, 6), edits(alphabet, 6));
            // Endings differ between the versions now and then, else all would conflict.
            let endings = prop_oneof![4 => ending().prop_map(|e| [e; 3]), 1 => [ending(), ending(), ending()]];
            let newlines = [prop::bool::weighted(0.8), prop::bool::weighted(0.8), prop::bool::weighted(0.8)];
            (vec(0..alphabet, 0..24), sides, endings, newlines)
        })
        .prop_map(|(base, (ours, theirs), endings, newlines)| {
            let versions = [base.clone(), edited(base.clone(), &ours), edited(base, &theirs)];
            [0, 1, 2].map(|v| text(&versions[v], endings[v], newlines[v]))
        })
}

/// A long file and a change of it: long enough for git's diff to cut corners.
///
/// Files of this kind have lines that occur very often, lines without a match, blocks that moved, and
/// edits by the hundred.
pub fn long_pair() -> impl Strategy<Value = [Vec<u8>; 2]> {
    (prop_oneof![3..40usize, 40..400usize, 400..4000usize], prop_oneof![20..400usize, 400..3000usize])
        .prop_flat_map(|(alphabet, length)| {
            let noise = vec((0.0..1.0, 0..30usize, vec(0..alphabet * 2, 0..30)), 0..60);
            let moves = vec((0.0..1.0, 0.0..1.0, 1..200usize), 0..4);
            let rewrite = prop_oneof![
                2 => Just(Vec::new()),
                1 => vec(0..alphabet, 0..length).prop_map(Some).prop_map(|l| l.unwrap_or_default()),
            ];
            (vec(0..alphabet, length), edits(alphabet, 400), noise, moves, rewrite)
        })
        .prop_map(|(before, small, noise, moves, rewrite)| {
            let mut after = edited(edited(before.clone(), &small), &noise);
            for (from, to, length) in moves {
                let from = (from * after.len() as f64) as usize;
                let block: Vec<usize> = after.drain(from..(from + length).min(after.len())).collect();
                let to = (to * after.len() as f64) as usize;
                after.splice(to..to, block);
            }
            after.extend(rewrite);
            [text(&before, Ending::Lf, true), text(&after, Ending::Lf, true)]
        })
}
