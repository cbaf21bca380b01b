//! Generated versions of a file, made so that their changes often meet.

use std::ops::Range;

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

/// Numbers from a seed (SplitMix64): long files are told apart by it in failures, not printed.
pub struct Dice(pub u64);

impl Dice {
    /// A number from a range.
    pub fn roll(&mut self, range: Range<usize>) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        range.start + ((z ^ (z >> 31)) % range.len() as u64) as usize
    }

    fn lines(&mut self, alphabet: usize, count: Range<usize>) -> Vec<usize> {
        (0..self.roll(count)).map(|_| self.roll(0..alphabet)).collect()
    }

    fn shuffle(&mut self, lines: &mut [usize]) {
        (1..lines.len()).rev().for_each(|last| lines.swap(last, self.roll(0..last + 1)));
    }
}

/// A long file and a change of it, of the kinds in which git's diff cuts corners.
pub fn long_pair(seed: u64) -> [Vec<u8>; 2] {
    let mut dice = Dice(seed);
    let pair = match seed % 5 {
        // Only a search over 65536 lines and more is allowed the cost from which paths are promising.
        0 if seed.is_multiple_of(25) => scattered_edits(&mut dice, 36_000..50_000),
        0 => scattered_edits(&mut dice, 500..5000),
        1 => shared_blocks(&mut dice),
        2 => frequent_lines_amid_noise(&mut dice),
        3 => nothing_rare(&mut dice),
        _ => moved_blocks(&mut dice),
    };
    pair.map(|lines| text(&lines, Ending::Lf, true))
}

type Numbers = [Vec<usize>; 2];

/// Hundreds of small edits, most of them close, some of them as far apart as git finds remarkable:
/// Myers' search gets dear, looks for a promising path or is given up.
fn scattered_edits(dice: &mut Dice, length: Range<usize>) -> Numbers {
    let alphabet = dice.roll(length.start / 8..length.start);
    let before = dice.lines(alphabet, length);
    let (close, far_one_in) = (dice.roll(5..20), dice.roll(3..15));
    let mut after = Vec::new();
    let mut at = 0;
    while at < before.len() {
        let apart = if dice.roll(0..far_one_in) == 0 { dice.roll(18..26) } else { dice.roll(1..close) };
        let end = (at + apart).min(before.len());
        after.extend_from_slice(&before[at..end]);
        after.extend(dice.lines(alphabet, 0..4));
        at = end + dice.roll(0..3);
    }
    [before, after]
}

/// Blocks common to both, of about the length git finds remarkable, in texts that are otherwise
/// different but made of the same lines: the search is given up.
fn shared_blocks(dice: &mut Dice) -> Numbers {
    let alphabet = dice.roll(5..600);
    let mut pair = Numbers::default();
    for _ in 0..dice.roll(2..24) {
        let block = dice.lines(alphabet, 1..45);
        for side in &mut pair {
            side.extend(dice.lines(alphabet, 0..120));
            side.extend_from_slice(&block);
        }
    }
    pair
}

/// Lines that occur often among lines that occur on one side only, three of these to one of those.
fn frequent_lines_amid_noise(dice: &mut Dice) -> Numbers {
    let frequent = dice.roll(1..12);
    let mut unique = 1_000_000;
    let mut pair = Numbers::default();
    for _ in 0..dice.roll(4..24) {
        let block = dice.lines(frequent * 30, 0..6);
        for side in &mut pair {
            side.extend_from_slice(&block);
            let one_in = dice.roll(2..7);
            for _ in 0..dice.roll(0..260) {
                unique += 1;
                side.push(if dice.roll(0..one_in) == 0 { dice.roll(0..frequent) } else { unique });
            }
        }
    }
    pair
}

/// No line is rare: around the number of occurrences from which histogram diff gives up.
fn nothing_rare(dice: &mut Dice) -> Numbers {
    let mut before = Vec::new();
    let occurrences = dice.roll(62..67);
    for line in 0..dice.roll(2..6) {
        before.extend(std::iter::repeat_n(line, occurrences + dice.roll(0..3)));
    }
    dice.shuffle(&mut before);
    let mut after = before.clone();
    let (from, to) = (dice.roll(0..after.len()), dice.roll(0..after.len()));
    dice.shuffle(&mut after[from.min(to)..from.max(to)]);
    after.truncate(dice.roll(1..before.len() * 2));
    [before, after]
}

fn moved_blocks(dice: &mut Dice) -> Numbers {
    let alphabet = dice.roll(3..2000);
    let before = dice.lines(alphabet, 100..3000);
    let mut after = before.clone();
    for _ in 0..dice.roll(1..8) {
        let from = dice.roll(0..after.len());
        let end = (from + dice.roll(1..300)).min(after.len());
        let block: Vec<usize> = after.drain(from..end).collect();
        let to = dice.roll(0..after.len() + 1);
        after.splice(to..to, block);
    }
    [before, after]
}
