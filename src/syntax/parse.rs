//! Parsing with guards: depth counted first, errors named, ours and theirs re-parsed from base's tree.

use std::cell::{Cell, RefCell};
use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;
use tree_sitter::{InputEdit, Parser, Point};

use super::build::{build, forgiven};
use super::tree::{Forgiven, Tree};
use crate::grammar::{Kind, Language};
use crate::line::{self, Algorithm};
use crate::{Version, Versions};

/// How deep brackets or indentation may nest before a file is merged as lines.
const DEPTH_LIMIT: i32 = 400;

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
    /// The grammar reads it, but something means nothing where it stands.
    #[error("has `{what}` at line {line}, where it is in no {inside}")]
    Misplaced {
        /// What, as written.
        what: String,
        /// What it must stand in.
        inside: String,
        /// The line, from 1.
        line: usize,
    },
}

impl ParseError {
    /// The error that a text has what its grammar forgives.
    pub(crate) fn forgiven(forgiven: Forgiven, source: &[u8], language: &'static Language) -> ParseError {
        match forgiven {
            Forgiven::Malformed(at) => {
                ParseError::Syntax { language: language.name().to_owned(), line: line_of(source, at as usize) }
            }
            Forgiven::Misplaced { span, rule } => {
                let rule = &language.leaves()[usize::from(rule)];
                let mark = rule.marked.map_or(String::new(), |token| format!("{} ", language.kind_name(token)));
                let name = |(kind, _): &(Kind, _)| {
                    let name = language.kind_name(*kind).replace('_', " ");
                    if name.starts_with(&mark) { name } else { mark.clone() + &name }
                };
                let mut names: Vec<String> = rule.what.iter().map(name).collect();
                names.dedup();
                let first = source[span.range()].split(|b| *b == b'\n').next().unwrap_or_default();
                let what = String::from_utf8_lossy(first.trim_ascii_end()).into_owned();
                ParseError::Misplaced { what, inside: names.join(" or "), line: line_of(source, span.start as usize) }
            }
        }
    }
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
        let differences = line::differences(other, self.source, Algorithm::Histogram);
        differences.into_iter().map(|(_, new)| line::with_neighbours(self.source, &new)).collect()
    }

    /// The same ranges, those in which something begins that ends behind them up to its end: what is in it may stand in
    /// something else now. They are in order.
    pub(crate) fn to_the_end(&self, ranges: &[Range<usize>]) -> Vec<Range<usize>> {
        let mut found: Vec<Range<usize>> = Vec::with_capacity(ranges.len());
        let mut cursor = self.tree.walk();
        for range in ranges {
            cursor.reset(self.tree.root_node());
            // The outermost node that begins in the range and goes on behind it.
            while cursor.node().start_byte() < range.start && cursor.goto_first_child_for_byte(range.end).is_some() {}
            let begins_in_it = range.start <= cursor.node().start_byte() && cursor.node().start_byte() <= range.end;
            let end = if begins_in_it { cursor.node().end_byte().max(range.end) } else { range.end };
            match found.last_mut().filter(|last| last.end >= range.start) {
                Some(last) => last.end = last.end.max(end),
                None => found.push(range.start..end),
            }
        }
        found
    }

    /// The compact tree.
    pub fn tree(&self) -> Tree<'s> {
        build(self.source, &self.tree, self.language, None, &HashSet::default())
    }

    /// The first of what the grammar forgives and the language does not. Lists outside of `live`, ranges of bytes in
    /// order, are not looked into.
    pub(crate) fn forgiven(&self, live: &[Range<usize>]) -> Option<ParseError> {
        let found = forgiven(self.source, &self.tree, self.language, live)?;
        Some(ParseError::forgiven(found, self.source, self.language))
    }

    /// The compact tree in which lists outside of `live`, ranges of bytes in order, are single tokens. Comments on
    /// `loose` lines belong to no statement below them.
    pub(crate) fn tree_around(&self, live: &[Range<usize>], loose: &HashSet<u64>) -> Tree<'s> {
        build(self.source, &self.tree, self.language, Some(live), loose)
    }
}

/// Texts that were parsed, each kept with its tree: what several questions are asked of is parsed once.
#[derive(Default)]
pub(crate) struct Known(RefCell<Vec<(Vec<u8>, tree_sitter::Tree)>>);

impl Known {
    /// A text parsed; from one that it is `near` to, if it is not known.
    ///
    /// # Errors
    /// Why it cannot be read.
    pub fn parsed<'t>(&self, source: &'t [u8], near: &Parsed<'_>) -> Result<Parsed<'t>, ParseError> {
        self.find(source, near.language).map_or_else(|| self.keep(near.edited_to(source)?), Ok)
    }

    /// All three versions parsed: each, if it is not known, from a text that it is `near` to, or else from base.
    ///
    /// # Errors
    /// The first version that cannot be parsed, and why.
    pub fn versions<'s>(
        &self,
        sources: Versions<&'s [u8]>,
        language: &'static Language,
        near: Option<&Versions<Parsed<'_>>>,
    ) -> Result<Versions<Parsed<'s>>, (Version, ParseError)> {
        let named = |v: Version| move |e| (v, e);
        let base = self.find(sources.base, language).map_or_else(
            || {
                let ours = self.find(sources.ours, language);
                let parsed = match near.map(|near| &near.base).or(ours.as_ref()) {
                    Some(near) => near.edited_to(sources.base)?,
                    None => Parsed::new(sources.base, language)?,
                };
                self.keep(parsed)
            },
            Ok,
        );
        let base = base.map_err(named(Version::Base))?;
        let side = |v: Version| self.parsed(sources.get(v), near.map_or(&base, |near| near.get(v))).map_err(named(v));
        let (ours, theirs) = (side(Version::Ours)?, side(Version::Theirs)?);
        Ok(Versions { base, ours, theirs })
    }

    fn find<'t>(&self, source: &'t [u8], language: &'static Language) -> Option<Parsed<'t>> {
        let known = self.0.borrow();
        let (_, tree) = known.iter().find(|(text, _)| text == source)?;
        Some(Parsed { source, tree: tree.clone(), language })
    }

    fn keep<'t>(&self, parsed: Parsed<'t>) -> Result<Parsed<'t>, ParseError> {
        self.0.borrow_mut().push((parsed.source.to_vec(), parsed.tree.clone()));
        Ok(parsed)
    }
}

/// Parses all three versions: base in full, the sides from base's tree.
///
/// # Errors
/// The first version that cannot be parsed, and why.
pub fn parse_versions<'s>(
    sources: Versions<&'s [u8]>,
    language: &'static Language,
) -> Result<Versions<Parsed<'s>>, (Version, ParseError)> {
    Known::default().versions(sources, language, None)
}

thread_local! {
    /// A parser that is not in use: what it took of memory serves for the next text, too.
    static IDLE: Cell<Option<Parser>> = const { Cell::new(None) };
}

/// The tree of a text; from that of an older one, if it is given.
fn read(source: &[u8], old: Option<&tree_sitter::Tree>, language: &Language) -> tree_sitter::Tree {
    let mut parser = IDLE.take().unwrap_or_default();
    parser.set_language(&language.parser).expect("the grammar is built for this tree-sitter");
    let tree = parser.parse(language.as_read(source), old).expect("no cancellation is set");
    IDLE.set(Some(parser));
    tree
}

fn parse(source: &[u8], old: Option<&tree_sitter::Tree>, language: &Language) -> Result<tree_sitter::Tree, ParseError> {
    if let Err(e) = std::str::from_utf8(source) {
        return Err(ParseError::NotUtf8(e.valid_up_to()));
    }
    if let Some(offset) = too_deep(source) {
        return Err(ParseError::TooDeep(line_of(source, offset)));
    }
    let tree = read(source, old, language);
    let root = tree.root_node();
    if root.has_error() {
        let line = first_error(root).map_or(1, |n| n.start_position().row + 1);
        return Err(ParseError::Syntax { language: language.name().to_owned(), line });
    }
    Ok(tree)
}

/// The line, from 1, on which a byte of a text stands.
pub(super) fn line_of(source: &[u8], offset: usize) -> usize {
    source[..offset].iter().filter(|b| **b == b'\n').count() + 1
}

/// The first place where brackets or indentation nest beyond the limit. Counts without knowing
/// strings or comments: those can only make the count too high, and then the file is merged as lines.
fn too_deep(source: &[u8]) -> Option<usize> {
    let mut depth = 0;
    let nested = source.iter().position(|byte| {
        // Most bytes are no brackets: a sum without branches is faster than telling them apart.
        depth = (depth + i32::from(OPENED[usize::from(*byte)])).max(0);
        depth > DEPTH_LIMIT
    });
    let indent = |line: &[u8]| line.iter().take_while(|b| matches!(b, b' ' | b'\t')).count();
    let limit = 4 * DEPTH_LIMIT as usize;
    let indented = line::lines(source).into_iter().find(|line| line.len() > limit && indent(line) > limit);
    let offset = |line: &[u8]| line.as_ptr() as usize - source.as_ptr() as usize;
    nested.into_iter().chain(indented.map(offset)).min()
}

/// How many brackets a byte opens.
const OPENED: [i8; 256] = {
    let mut opened = [0; 256];
    (opened[b'(' as usize], opened[b'[' as usize], opened[b'{' as usize]) = (1, 1, 1);
    (opened[b')' as usize], opened[b']' as usize], opened[b'}' as usize]) = (-1, -1, -1);
    opened
};

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

/// A tree with the differences of its text to `new` marked, for an incremental parse.
fn edited(tree: &tree_sitter::Tree, old: &[u8], new: &[u8]) -> tree_sitter::Tree {
    let mut tree = tree.clone();
    let mut differences = line::differences(old, new, Algorithm::Histogram);
    let mut next = old.len();
    for difference in differences.iter_mut().rev() {
        let start = difference.0.start;
        *difference = narrowed(old, new, difference.clone(), next);
        next = start;
    }
    let starts = points(old, differences.iter().map(|(before, _)| before.start));
    // From the end to the start: earlier positions stay those of the old text.
    for ((before, after), start) in differences.iter().zip(starts).rev() {
        tree.edit(&InputEdit {
            start_byte: before.start,
            old_end_byte: before.end,
            new_end_byte: before.start + after.len(),
            start_position: start,
            old_end_position: advanced(start, &old[before.clone()]),
            new_end_position: advanced(start, &new[after.clone()]),
        });
    }
    tree
}

/// A difference made as small as bytes allow, and as late; both texts go on alike until `next` in the old one.
/// Tree-sitter reads anew what had looked ahead to where a difference begins, and if those are tokens without text,
/// such as the ends of blocks, much of what follows them.
fn narrowed(
    old: &[u8],
    new: &[u8],
    (mut before, mut after): (Range<usize>, Range<usize>),
    next: usize,
) -> (Range<usize>, Range<usize>) {
    let room = next - before.end;
    let prefix = line::common_prefix(&old[before.clone()], &new[after.clone()]);
    (before.start, after.start) = (before.start + prefix, after.start + prefix);
    let suffix = line::common_suffix(&old[before.clone()], &new[after.clone()]);
    (before.end, after.end) = (before.end - suffix, after.end - suffix);
    // What was put in or taken out may as well have been so later, if the text goes on as it does.
    let slide = match (before.is_empty(), after.is_empty()) {
        (true, false) => line::common_prefix(&new[after.start..], &new[after.end..after.end + suffix + room]),
        (false, true) => line::common_prefix(&old[before.start..], &old[before.end..before.end + suffix + room]),
        _ => 0,
    };
    (before.start + slide..before.end + slide, after.start + slide..after.end + slide)
}

/// Where some bytes of a text are, given in order.
fn points(text: &[u8], offsets: impl Iterator<Item = usize>) -> Vec<Point> {
    let ends = offsets.scan((0, Point::new(0, 0)), |(at, point), offset| {
        *point = advanced(*point, &text[*at..offset]);
        *at = offset;
        Some(*point)
    });
    ends.collect()
}

/// The end of a text that begins at `start`.
fn advanced(start: Point, text: &[u8]) -> Point {
    match text.iter().rposition(|b| *b == b'\n') {
        None => Point::new(start.row, start.column + text.len()),
        Some(last) => {
            let rows = text.iter().filter(|b| **b == b'\n').count();
            Point::new(start.row + rows, text.len() - last - 1)
        }
    }
}
