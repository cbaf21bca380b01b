//! Parsing with guards: depth counted first, errors named, ours and theirs re-parsed from base's tree.

use std::ops::Range;

use tree_sitter::{InputEdit, Parser, Point};

use super::build::build;
use super::tree::Tree;
use crate::grammar::Language;
use crate::line::{self, Algorithm};
use crate::{Version, Versions};

/// How deep brackets or indentation may nest before a file is merged as lines.
const DEPTH_LIMIT: usize = 400;

/// Why a version cannot be merged as a tree.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ParseError {
    /// The bytes are no text.
    #[error("not valid UTF-8 at byte {0}")]
    NotUtf8(usize),
    /// Brackets or blocks nest too deep.
    #[error("nested deeper than {DEPTH_LIMIT} levels at line {0}")]
    TooDeep(usize),
    /// The grammar does not read it.
    #[error("does not parse as {language} at line {line}")]
    Syntax {
        /// The language tried.
        language: String,
        /// The first line with an error, from 1.
        line: usize,
    },
}

/// A text with its concrete syntax tree.
#[derive(Debug)]
pub struct Parsed<'s> {
    source: &'s [u8],
    tree: tree_sitter::Tree,
    language: &'static Language,
}

impl<'s> Parsed<'s> {
    /// Parses one text.
    ///
    /// # Errors
    /// Why it cannot be read.
    pub fn new(source: &'s [u8], language: &'static Language) -> Result<Parsed<'s>, ParseError> {
        Ok(Parsed { source, tree: parse(source, None, language)?, language })
    }

    /// Parses a text that differs from this one by some lines; faster than from nothing, and the same.
    ///
    /// # Errors
    /// Why it cannot be read.
    pub fn edited_to<'t>(&self, source: &'t [u8]) -> Result<Parsed<'t>, ParseError> {
        let old = edited(&self.tree, self.source, source);
        Ok(Parsed { source, tree: parse(source, Some(&old), self.language)?, language: self.language })
    }

    /// The text.
    pub fn source(&self) -> &'s [u8] {
        self.source
    }

    /// The ranges of bytes that differ from another text, by lines, with the lines around them.
    pub fn differing_from(&self, other: &[u8]) -> Vec<Range<usize>> {
        let starts = line_starts(self.source);
        let hunks = line::hunks(other, self.source, Algorithm::Histogram);
        let bytes = |lines: Range<usize>| starts[lines.start]..starts[lines.end];
        hunks.into_iter().map(|(_, new)| line::with_neighbours(self.source, &bytes(new))).collect()
    }

    /// The compact tree.
    pub fn tree(&self) -> Tree<'s> {
        build(self.source, &self.tree, self.language, None)
    }

    /// The compact tree in which lists outside of `live`, ranges of bytes in order, are single tokens.
    pub fn tree_around(&self, live: &[Range<usize>]) -> Tree<'s> {
        build(self.source, &self.tree, self.language, Some(live))
    }
}

/// Parses all three versions: each from a text that it is `near` to, if there is one; else base in full, the
/// sides from base's tree.
///
/// # Errors
/// The first version that cannot be parsed, and why.
pub fn parse_versions<'s>(
    sources: Versions<&'s [u8]>,
    language: &'static Language,
    near: Option<&Versions<Parsed<'_>>>,
) -> Result<Versions<Parsed<'s>>, (Version, ParseError)> {
    let named = |v: Version| move |e| (v, e);
    if let Some(near) = near {
        let parse = |v: Version| near.get(v).edited_to(sources.get(v)).map_err(named(v));
        return Ok(Versions {
            base: parse(Version::Base)?,
            ours: parse(Version::Ours)?,
            theirs: parse(Version::Theirs)?,
        });
    }
    let base = Parsed::new(sources.base, language).map_err(named(Version::Base))?;
    let ours = base.edited_to(sources.ours).map_err(named(Version::Ours))?;
    let theirs = base.edited_to(sources.theirs).map_err(named(Version::Theirs))?;
    Ok(Versions { base, ours, theirs })
}

fn new_parser(language: &Language) -> Parser {
    let mut parser = Parser::new();
    parser.set_language(&language.parser).expect("the grammar is built for this tree-sitter");
    parser
}

fn parse(source: &[u8], old: Option<&tree_sitter::Tree>, language: &Language) -> Result<tree_sitter::Tree, ParseError> {
    if let Err(e) = std::str::from_utf8(source) {
        return Err(ParseError::NotUtf8(e.valid_up_to()));
    }
    if let Some(offset) = too_deep(source) {
        return Err(ParseError::TooDeep(line_of(source, offset)));
    }
    let tree = new_parser(language).parse(language.as_read(source), old).expect("no cancellation is set");
    let root = tree.root_node();
    if root.has_error() {
        let line = first_error(root).map_or(1, |n| n.start_position().row + 1);
        return Err(ParseError::Syntax { language: language.name().to_owned(), line });
    }
    Ok(tree)
}

fn line_of(source: &[u8], offset: usize) -> usize {
    source[..offset].iter().filter(|b| **b == b'\n').count() + 1
}

/// The first place where brackets or indentation nest beyond the limit. Counts without knowing
/// strings or comments: those can only make the count too high, and then the file is merged as lines.
fn too_deep(source: &[u8]) -> Option<usize> {
    let mut depth = 0usize;
    let mut line_start = true;
    let mut indent = 0usize;
    for (i, byte) in source.iter().enumerate() {
        match byte {
            b'(' | b'[' | b'{' => depth += 1,
            b')' | b']' | b'}' => depth = depth.saturating_sub(1),
            b'\n' => {
                (line_start, indent) = (true, 0);
                continue;
            }
            b' ' | b'\t' if line_start => indent += 1,
            _ => line_start = false,
        }
        if depth > DEPTH_LIMIT || line_start && indent > 4 * DEPTH_LIMIT {
            return Some(i);
        }
    }
    None
}

/// The first node that is an error or is missing, in document order.
fn first_error(root: tree_sitter::Node<'_>) -> Option<tree_sitter::Node<'_>> {
    let mut node = root;
    loop {
        if node.is_error() || node.is_missing() {
            return Some(node);
        }
        let mut cursor = node.walk();
        let next = node.children(&mut cursor).find(|c| c.has_error() || c.is_missing())?;
        node = next;
    }
}

/// Base's tree with the differences to `new` marked, for an incremental parse.
fn edited(tree: &tree_sitter::Tree, old: &[u8], new: &[u8]) -> tree_sitter::Tree {
    let mut tree = tree.clone();
    let (old_lines, new_lines) = (line_starts(old), line_starts(new));
    let mut hunks = line::hunks(old, new, Algorithm::Histogram);
    // From the end to the start: earlier positions stay those of the old text.
    hunks.reverse();
    for (before, after) in hunks {
        let (start, old_end) = (old_lines[before.start], old_lines[before.end]);
        let new_len = new_lines[after.end] - new_lines[after.start];
        let row = before.start;
        tree.edit(&InputEdit {
            start_byte: start,
            old_end_byte: old_end,
            new_end_byte: start + new_len,
            start_position: Point::new(row, 0),
            old_end_position: Point::new(before.end, 0),
            new_end_position: Point::new(row + after.len(), 0),
        });
    }
    tree
}

/// The offset of each line's start, and the length of the text.
fn line_starts(text: &[u8]) -> Vec<usize> {
    let ends = line::lines(text).into_iter().scan(0, |at, line| {
        *at += line.len();
        Some(*at)
    });
    std::iter::once(0).chain(ends).collect()
}
