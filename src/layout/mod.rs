//! Pieces to bytes: text copied from its source, white space, separators, conflict blocks.

mod between;
mod blocks;
mod gaps;
mod near;
mod render;
mod segments;
mod sequence;

pub(crate) use near::{join, line_read, readings};
pub(crate) use render::shown;

use std::ops::Range;

use crate::line::{self, LineSettings};
use crate::merging::Merge;
use crate::syntax::Tree;
use crate::{Combined, Side, Version, Versions};

/// A merge with bytes.
#[derive(Debug, Default)]
pub struct Page {
    /// The merged file.
    pub text: Vec<u8>,
    /// How many conflict blocks it holds.
    pub conflicts: usize,
    /// What was combined where.
    pub combined: Vec<Combined>,
    /// Names that put a statement in dispute: what a side took out of the code around it.
    pub gone: Vec<(Side, Vec<u8>)>,
    /// Whether a name is listed with another where a side gave each a statement of its own.
    pub crowded: bool,
    /// The conflict blocks that were laid out: where each is in the text, and what stands there for ours and for
    /// theirs.
    blocks: Vec<(Range<usize>, [Vec<u8>; 2])>,
}

impl Page {
    /// The merged file as it is if one side is kept in every block that was laid out.
    pub(crate) fn chosen(&self, side: Side) -> Vec<u8> {
        let mut chosen = Vec::with_capacity(self.text.len());
        let mut at = 0;
        for (block, sides) in &self.blocks {
            chosen.extend_from_slice(&self.text[at..block.start]);
            chosen.extend_from_slice(&sides[side as usize]);
            at = block.end;
        }
        chosen.extend_from_slice(&self.text[at..]);
        chosen
    }

    /// The page with more or less text around what it merged. Its blocks are not where they were laid out any more.
    pub(crate) fn moved(self, text: Vec<u8>, combined: Vec<Combined>) -> Page {
        Page { text, combined, blocks: Vec::new(), ..self }
    }
}

/// Lists that were not looked into would have to be indented otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("what was left whole would have to be indented otherwise")]
pub struct Blind;

/// Lays a merge out.
///
/// # Errors
/// [`Blind`], only for trees that were not built in full.
pub fn lay_out(trees: &Versions<Tree<'_>>, merge: &Merge, settings: &LineSettings) -> Result<Page, Blind> {
    let segments = render::render(trees, &merge.piece)?;
    let mut page = Page { gone: merge.gone.clone(), crowded: merge.crowded, ..blocks::page(segments, trees, settings) };
    // What ends the last line in no version, nobody put there.
    let sources = trees.as_ref().map(|tree| tree.source);
    let ended = Version::ALL.into_iter().any(|v| sources.get(v).is_empty() || sources.get(v).ends_with(b"\n"));
    let closing =
        |text: &[u8]| line::lines(text).last().is_some_and(|last| line::is_mark(last, b'>', settings.marker_size));
    if !ended
        && !closing(&page.text)
        && let Some(text) = page.text.strip_suffix(line::newline_of(sources))
    {
        page.text.truncate(text.len());
    }
    Ok(page)
}
