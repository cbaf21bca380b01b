//! Soundness and the books, on the bytes alone: nothing here knows how the answer was made.

mod blocks;
mod books;
mod census;
mod echoes;
mod fits;
mod implied;
mod lists;
mod order;
mod paths;
mod paths_listed;
mod reach;
mod sound;
mod statements;
mod undeclared;
mod unsound;

use crate::line::is_mark;

pub use books::unbalanced;
pub use fits::{misfit, misfits};
pub use paths_listed::{Listing, balanced_by_lists};
pub use reach::{is_walled_off, out_of_reach};
pub use sound::{PutTogether, Sides, plainly_sound};
pub use statements::unbalanced_statements;
pub use unsound::Unsound;

/// How much of a text is in conflict.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dissent {
    /// Conflict blocks.
    pub blocks: usize,
    /// Lines between the markers of blocks, markers aside.
    pub lines: usize,
    /// Markers between those lines.
    pub parted: usize,
}

/// Counts the conflict blocks of a text with markers of `size` characters, and the lines in them.
pub fn dissent(text: &[u8], size: usize) -> Dissent {
    let marker = |line: &[u8], c: u8| is_mark(line, c, size);
    let mut dissent = Dissent { blocks: 0, lines: 0, parted: 0 };
    let mut inside = false;
    for line in text.split_inclusive(|b| *b == b'\n') {
        if marker(line, b'<') {
            inside = true;
            dissent.blocks += 1;
        } else if marker(line, b'>') {
            inside = false;
        } else if inside && (marker(line, b'=') || marker(line, b'|')) {
            dissent.parted += 1;
        } else if inside {
            dissent.lines += 1;
        }
    }
    dissent
}

impl Dissent {
    /// Whether an answer with this dissent is worse than one with `other` (contract K3): more lines,
    /// or more blocks without fewer lines. Nor may markers take up what was won in lines.
    pub fn worse_than(self, other: Dissent) -> bool {
        self.lines > other.lines
            || self.lines + self.parted > other.lines + other.parted
            || self.blocks > other.blocks && self.lines >= other.lines
    }
}
