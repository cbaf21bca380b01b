//! The conflict blocks of a merged text, to show and to count.

use std::ops::Range;

/// One conflict block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block {
    /// Its lines in the text, from 0, markers included.
    pub lines: Range<usize>,
}

impl Block {
    /// How many of its lines are text and no marker.
    pub fn disputed(&self, text: &[&[u8]], marker_size: usize) -> usize {
        text[self.lines.clone()].iter().filter(|line| !is_marker(line, marker_size)).count()
    }
}

/// The blocks of a text whose markers are so long, in order.
pub fn blocks(text: &[&[u8]], marker_size: usize) -> Vec<Block> {
    let mut found = Vec::new();
    let mut start = None;
    for (i, line) in text.iter().enumerate() {
        if is_mark(line, b'<', marker_size) {
            start = Some(i);
        } else if is_mark(line, b'>', marker_size)
            && let Some(start) = start.take()
        {
            found.push(Block { lines: start..i + 1 });
        }
    }
    found
}

fn is_marker(line: &[u8], size: usize) -> bool {
    b"<|=>".iter().any(|sign| is_mark(line, *sign, size))
}

/// Whether a line is a conflict marker of `size` such signs.
pub(crate) fn is_mark(line: &[u8], sign: u8, size: usize) -> bool {
    line.len() >= size
        && line[..size].iter().all(|c| *c == sign)
        && matches!(line.get(size), None | Some(b' ' | b'\r' | b'\n'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_are_found_by_their_markers_and_measured_without_them() {
        let text = b"<<<<<<<< no\n<<<<<<< a\n1\n||||||| b\n=======\n2\n3\n>>>>>>> c\n=======\n<<<<<<< a\n";
        let lines: Vec<&[u8]> = text.split_inclusive(|c| *c == b'\n').collect();
        let found = blocks(&lines, 7);
        assert_eq!(found, [Block { lines: 1..8 }]);
        assert_eq!(found[0].disputed(&lines, 7), 3);
    }
}
