//! Pieces to bytes: text copied from its source, white space, separators, conflict blocks.

mod blocks;
mod gaps;
mod near;
mod render;
mod segments;
mod sequence;

pub(crate) use blocks::newline_of;
pub(crate) use near::join;
pub(crate) use render::shown;

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

/// Lists that were not looked into would have to be indented otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("what was left whole would have to be indented otherwise")]
pub struct Blind;

/// Lays a merge out.
///
/// # Errors
/// [`Blind`], only for trees that were not built in full.
pub fn lay_out(trees: &Versions<Tree<'_>>, piece: &Piece, settings: &LineSettings) -> Result<Page, Blind> {
    let segments = render::render(trees, piece)?;
    Ok(blocks::page(segments, trees, settings))
}
