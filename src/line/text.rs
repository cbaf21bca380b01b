//! Files cut into lines, and lines into numbers that are equal where the lines are.

use std::ops::Range;

use gix::bstr::ByteSlice;
use gix::diff::blob::Interner;

use crate::Versions;

/// Splits into lines, each with its newline; the last may lack one.
///
/// ```
/// assert_eq!(pleach::line::lines(b"a\r\nb"), [&b"a\r\n"[..], b"b"]);
/// assert!(pleach::line::lines(b"").is_empty());
/// ```
pub fn lines(bytes: &[u8]) -> Vec<&[u8]> {
    bytes.lines_with_terminator().collect()
}

/// A range of whole lines, in bytes, with one line that is not blank on either side.
pub fn with_neighbours(text: &[u8], range: &Range<usize>) -> Range<usize> {
    let full = |line: &&[u8]| !line.trim_ascii().is_empty();
    let before = text[..range.start].rsplit(|b| *b == b'\n').find(full);
    let after = text[range.end..].split(|b| *b == b'\n').find(full);
    let offset = |line: &[u8]| line.as_ptr() as usize - text.as_ptr() as usize;
    before.map_or(0, offset)..after.map_or(text.len(), |line| offset(line) + line.len())
}

/// How many lines of a text begin before a part of that text.
pub(crate) fn above(lines: &[&[u8]], part: &[u8]) -> usize {
    lines.partition_point(|line| line.as_ptr() < part.as_ptr())
}

/// The line ending of a file: that of the first line of ours, or of the others if ours has none.
pub(crate) fn newline_of(versions: Versions<&[u8]>) -> &'static [u8] {
    let first = |text: &[u8]| text.iter().position(|b| *b == b'\n').map(|at| text[..at].ends_with(b"\r"));
    match [versions.ours, versions.theirs, versions.base].into_iter().find_map(first) {
        Some(true) => b"\r\n",
        _ => b"\n",
    }
}

/// Whether git takes a file for binary: it has a NUL among its first 8000 bytes.
///
/// `git merge-file` refuses such files; [`merge`](super::merge) does not look.
pub fn looks_binary(bytes: &[u8]) -> bool {
    bytes[..bytes.len().min(8000)].contains(&0)
}

/// A line's content as a number: equal in all texts cut by one [`Cutter`] if and only if the bytes
/// are, the newline included. Numbers count up from 0 in order of first sight, so tables can be
/// indexed by them and results do not depend on a hash seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Line(u32);

impl Line {
    /// The number, to index a table with.
    pub(super) fn index(self) -> usize {
        self.0 as usize
    }
}

/// A file, its lines as numbers, and where each ends.
pub(super) struct Text<'a> {
    bytes: &'a [u8],
    ends: Vec<usize>,
    /// One number a line.
    pub(super) lines: Vec<Line>,
}

impl<'a> Text<'a> {
    /// The bytes of a range of lines.
    pub(super) fn bytes(&self, lines: Range<usize>) -> &'a [u8] {
        &self.bytes[self.start(lines.start)..self.start(lines.end)]
    }

    fn start(&self, line: usize) -> usize {
        if line == 0 { 0 } else { self.ends[line - 1] }
    }
}

/// Cuts texts so that their lines can be compared with each other.
pub(super) struct Cutter<'a> {
    seen: Interner<&'a [u8]>,
}

impl<'a> Cutter<'a> {
    /// A cutter for about so many different lines.
    pub(super) fn new(expected_lines: usize) -> Self {
        Cutter { seen: Interner::new(expected_lines) }
    }

    /// Cuts one text.
    pub(super) fn cut(&mut self, bytes: &'a [u8]) -> Text<'a> {
        let estimate = bytes.len() / 32 + 1;
        let mut text = Text { bytes, ends: Vec::with_capacity(estimate), lines: Vec::with_capacity(estimate) };
        let mut end = 0;
        for line in bytes.lines_with_terminator() {
            end += line.len();
            text.ends.push(end);
            text.lines.push(Line(self.seen.intern(line).0));
        }
        text
    }

    /// How many different lines were seen.
    pub(super) fn distinct(&self) -> usize {
        self.seen.num_tokens() as usize
    }
}

/// Cuts three versions; also says how many different lines they have.
pub(super) fn cut(versions: Versions<&[u8]>) -> (Versions<Text<'_>>, usize) {
    let mut cutter = Cutter::new(versions.base.len() / 32 + 64);
    let texts = versions.map(|bytes| cutter.cut(bytes));
    (texts, cutter.distinct())
}
