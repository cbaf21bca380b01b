//! Which lines of a text stand below which, by their indentation.

use std::cell::OnceCell;

use rustc_hash::FxHashSet as HashSet;

use crate::line;

/// Which lines of a text others stand further in below.
pub(super) struct Scopes<'v> {
    text: &'v [u8],
    lines: OnceCell<Vec<Line<'v>>>,
    /// What the lines open with that are such a one for any other.
    heads: OnceCell<HashSet<&'v [u8]>>,
    /// What lines begin with, up to the first sign.
    names: OnceCell<HashSet<&'v [u8]>>,
}

/// A line that is not blank.
struct Line<'v> {
    start: usize,
    text: &'v [u8],
    /// How far in it stands.
    depth: usize,
    /// Whether it goes on with what began above, as in `) -> Level {` or `} else {`.
    closes: bool,
}

impl<'v> Scopes<'v> {
    pub(super) fn of(text: &'v [u8]) -> Scopes<'v> {
        Scopes { text, lines: OnceCell::new(), heads: OnceCell::new(), names: OnceCell::new() }
    }

    fn lines(&self) -> &[Line<'v>] {
        self.lines.get_or_init(|| {
            let mut start = 0;
            let read = |line: &'v [u8]| {
                let at = start;
                start += line.len();
                let depth = depth(line)?;
                Some(Line { start: at, text: line.trim_ascii(), depth, closes: b")]}".contains(&line[depth]) })
            };
            line::lines(self.text).into_iter().filter_map(read).collect()
        })
    }

    /// Whether any line stands further in below one that opens with the same words.
    pub(super) fn has_head(&self, line: &[u8]) -> bool {
        self.heads.get_or_init(|| self.heads()).contains(opening(line))
    }

    /// Whether any line begins as this one does, up to the first sign: what stands below it may all stand on it.
    pub(super) fn has_named(&self, line: &[u8]) -> bool {
        let names = || self.lines().iter().map(|line| named(line.text)).collect();
        self.names.get_or_init(names).contains(named(line))
    }

    fn heads(&self) -> HashSet<&'v [u8]> {
        let mut heads = HashSet::default();
        let mut open: Vec<&Line<'v>> = Vec::new();
        for line in self.lines() {
            while open.last().is_some_and(|outer| outer.depth > line.depth || outer.depth == line.depth && !line.closes)
            {
                open.pop();
            }
            heads.extend(open.last().map(|head| opening(head.text)));
            if open.last().is_none_or(|outer| outer.depth < line.depth) {
                open.push(line);
            }
        }
        heads
    }

    /// The lines that one that begins at `offset`, so far in, stands below, outermost first.
    pub(super) fn around(&self, offset: usize, within: usize) -> Vec<&'v [u8]> {
        let mut found = Vec::new();
        // Lines further out than this.
        let mut outer = usize::MAX;
        let before = &self.lines()[..self.lines().partition_point(|line| line.start < offset)];
        for line in before.iter().rev() {
            if line.depth >= outer {
                continue;
            }
            if line.closes {
                // What stands below it stands below the line where that began.
                outer = line.depth + 1;
                continue;
            }
            outer = line.depth;
            if line.depth < within {
                found.push(line.text);
            }
            if line.depth == 0 {
                break;
            }
        }
        found.reverse();
        found
    }
}

/// What a line begins with, up to the first sign.
pub(super) fn named(line: &[u8]) -> &[u8] {
    up_to(line, b"([{<=:,").trim_ascii_end()
}

/// A line up to its first bracket: what is listed there may be laid out on further lines.
fn opening(line: &[u8]) -> &[u8] {
    up_to(line, b"([{")
}

/// A line before the first of some signs, if anything stands before that.
fn up_to<'l>(line: &'l [u8], signs: &[u8]) -> &'l [u8] {
    let end = line.iter().position(|b| signs.contains(b)).filter(|end| *end > 0);
    &line[..end.unwrap_or(line.len())]
}

/// How far in a line stands, if it is not blank.
pub(super) fn depth(line: &[u8]) -> Option<usize> {
    line.iter().position(|b| !b.is_ascii_whitespace())
}
