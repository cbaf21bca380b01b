//! Pieces to bytes: text copied from its source, white space, separators, conflict blocks.

mod blocks;
mod gaps;
mod render;
mod segments;
mod sequence;

use crate::line::LineSettings;
use crate::merging::Piece;
use crate::syntax::Tree;
use crate::{Combined, Versions};

/// A merge with bytes.
#[derive(Debug)]
pub struct Page {
    /// The merged file.
    pub text: Vec<u8>,
    /// How many conflict blocks it holds.
    pub conflicts: usize,
    /// What was combined where.
    pub combined: Vec<Combined>,
}

/// Lays a merge out.
pub fn lay_out(trees: &Versions<Tree<'_>>, piece: &Piece, settings: &LineSettings) -> Page {
    let segments = render::render(trees, piece);
    blocks::page(segments, trees, settings)
}
