//! Writing pieces to a stream.

use std::cell::RefCell;

use rustc_hash::FxHashMap as HashMap;

use super::Blind;
use super::gaps::{self, Style, reindent};
use super::segments::{Noted, Segment, Stream};
use crate::grammar::Kind;
use crate::line;
use crate::merging::{Content, Item, Merged, Piece, TextPart};
use crate::syntax::{NodeId, Tree};
use crate::{Version, Versions};

/// Renders a merge of whole files.
///
/// # Errors
/// [`Blind`]: text that was not looked into has to be indented otherwise.
pub(super) fn render(trees: &Versions<Tree<'_>>, piece: &Piece) -> Result<Vec<Segment>, Blind> {
    let newline = line::newline_of(trees.as_ref().map(|tree| tree.source));
    let mut renderer = Renderer {
        trees,
        out: Stream::default(),
        choice: None,
        newline,
        styles: RefCell::default(),
        begun: None,
        in_wrapper: false,
        blind: false,
    };
    renderer.piece(piece, b"", None);
    if renderer.blind { Err(Blind) } else { Ok(renderer.out.segments) }
}

pub(super) struct Renderer<'t, 's> {
    pub trees: &'t Versions<Tree<'s>>,
    pub out: Stream,
    /// Which version to take where there is a choice; `None`: write the choice.
    pub choice: Option<Version>,
    /// The line ending for lines that no version has.
    pub newline: &'static [u8],
    /// How lists are laid out, as far as that was asked.
    pub styles: RefCell<HashMap<(Version, NodeId), Option<Style>>>,
    /// The combined place that is being written.
    begun: Option<Begun>,
    /// Whether what is being written stands directly in what one side put around it.
    in_wrapper: bool,
    /// Whether text that was not looked into had to be indented otherwise.
    blind: bool,
}

/// A combined place that has begun.
struct Begun {
    place: Noted,
    /// The item that it really begins with, by address: what stands before that is as base has it.
    at: Option<*const Item>,
    /// Whether it has been put off to that item.
    put_off: bool,
}

/// How much of a combined place is shown when it is described.
const SHOWN_CHARS: usize = 64;

/// How many bytes of a place tell which it is.
const TELLING: usize = 8;

/// A separator to be written (or left out) after what an entry lists.
pub(super) type Separator = Option<bool>;

impl<'t, 's> Renderer<'t, 's> {
    pub(super) fn tree(&self, version: Version) -> &'t Tree<'s> {
        self.trees.get(version)
    }

    /// Writes a piece. `margin` is the output's indentation around it; `separator` says whether one
    /// follows, for an entry of a list with separators.
    pub(super) fn piece(&mut self, piece: &Piece, margin: &[u8], separator: Separator) {
        match piece {
            Piece::Copy { version, node } => self.copy(*version, *node, margin, separator),
            Piece::Text(parts) => self.text(parts),
            Piece::Merged(merged) => self.merged(merged, margin, separator),
        }
    }

    /// Writes an item of a sequence. `depth` is how much further in than the margin entries of the list stand.
    pub(super) fn item(&mut self, item: &Item, margin: &[u8], depth: Option<&[u8]>, separator: Separator) {
        // What is written for a choice stands in a place that began outside of it.
        let begun = self.begun.as_mut().filter(|_| self.choice.is_none());
        if let Some(begun) = begun.filter(|begun| begun.at == Some(std::ptr::from_ref(item))) {
            begun.put_off = self.out.put_off(&mut begun.place);
        }
        // What starts a line is indented as that line is, unless that line is a comment that stands further in or out.
        let edges = Version::ALL.into_iter().filter_map(|v| Some((self.tree(v), item.edges.get(v).as_ref()?.0)));
        let starting = || edges.clone().filter(|(tree, n)| tree.node(*n).starts_line);
        let own = self.out.margin().filter(|_| starting().next().is_some()).map(|own| {
            let strays = starting().find(|(tree, n)| {
                let first = gaps::start_of_line(tree, *n);
                first == own && first != tree.indent(*n)
            });
            let listed = depth.map(|depth| [margin, depth].concat());
            match (strays, listed) {
                (Some((tree, entry)), Some(listed)) if listed != own => {
                    let offset = gaps::list_indent(tree, tree.node(entry).parent)
                        .and_then(|indent| tree.indent(entry).strip_prefix(indent));
                    [&listed[..], offset.unwrap_or_default()].concat()
                }
                _ => own.to_vec(),
            }
        });
        let margin = own.as_deref().unwrap_or(margin);
        match &item.content {
            Content::Piece(piece) => self.piece(piece, margin, separator),
            Content::Dispute(_) => unreachable!("disputes are laid out by their sequence"),
        }
    }

    fn merged(&mut self, merged: &Merged, margin: &[u8], separator: Separator) {
        let wrapped = merged.is_wrapper();
        // A wrapper is several nodes, each around the next: one place.
        let noted = merged.combined && self.choice.is_none() && !(wrapped && self.in_wrapper);
        let place = noted.then(|| Begun {
            place: self.out.note(self.reason(merged)),
            at: merged.items.iter().find(|item| self.differs(merged, item)).map(std::ptr::from_ref),
            put_off: false,
        });
        let outer = std::mem::replace(&mut self.begun, place);
        let around = std::mem::replace(&mut self.in_wrapper, wrapped);
        self.sequence(merged, margin, separator);
        self.in_wrapper = around;
        if let Some(Begun { place, put_off, .. }) = std::mem::replace(&mut self.begun, outer) {
            let what = self.describe(merged, &place, put_off);
            self.out.describe(&place, what);
        }
    }

    /// Whether something agreed in a list that begins a line is not what base has there.
    fn differs(&self, merged: &Merged, item: &Item) -> bool {
        let starts_line = |v: Version| item.edges.get(v).is_some_and(|(first, _)| self.tree(v).node(first).starts_line);
        let lines = |v: Version| {
            let rule = self.tree(v).list_rule((*merged.nodes.get(v))?);
            Some(rule.is_some_and(|r| r.lines || Version::ALL.into_iter().any(starts_line)))
        };
        let differs = match (&item.content, item.edges.base) {
            (Content::Dispute(_), _) => false,
            (Content::Piece(Piece::Copy { version, node }), Some((first, last))) => {
                first != last || self.trees.base.node(first).hash != self.tree(*version).node(*node).hash
            }
            (Content::Piece(_), _) => true,
        };
        differs && Version::ALL.into_iter().find_map(lines) == Some(true)
    }

    fn text(&mut self, parts: &[TextPart]) {
        for part in parts {
            match (part, self.choice) {
                (TextPart::Plain(text), _) => self.out.push(text),
                (TextPart::Dispute(sides), Some(version)) => self.out.push(sides.get(version)),
                (TextPart::Dispute(sides), None) => self.out.choose(sides.clone(), true),
            }
        }
    }

    /// Copies a node's text, moved to another indentation if need be.
    fn copy(&mut self, version: Version, node: NodeId, margin: &[u8], separator: Separator) {
        let tree = self.tree(version);
        let n = tree.node(node);
        let (start, end) = (n.span.start, n.span.end);
        let Some(wanted) = separator else {
            self.stretch(version, node, start, end, margin);
            return;
        };
        let core_end = tree.node(n.core).span.end;
        let have = !n.separator.is_empty();
        let inside = have && n.separator.start < end;
        match (have, wanted) {
            (true, true) => {
                let end = if inside { end } else { n.separator.end };
                self.stretch(version, node, start, end, margin);
            }
            (false, false) => self.stretch(version, node, start, end, margin),
            (true, false) if !inside => self.stretch(version, node, start, end, margin),
            (true, false) => {
                self.stretch(version, node, start, core_end, margin);
                self.stretch(version, node, n.separator.end, end, margin);
            }
            (false, true) => {
                self.stretch(version, node, start, core_end, margin);
                self.out.push(gaps::separator_in(tree, n.parent).unwrap_or_default());
                self.stretch(version, node, core_end, end, margin);
            }
        }
    }

    /// Copies bytes of a node; indentation of its lines changes, tokens of several lines do not.
    fn stretch(&mut self, version: Version, node: NodeId, start: u32, end: u32, margin: &[u8]) {
        if start >= end {
            return;
        }
        let tree = self.tree(version);
        let moved = self.moved_lines(version, node, start, margin);
        let (from, margin) = moved.as_ref().map_or((tree.indent(node), margin), |(from, to)| (*from, to));
        if from == margin {
            self.out.push(&tree.source[start as usize..end as usize]);
            return;
        }
        let mut at = start;
        for token in tree.tokens(node).iter().filter(|t| t.span.start >= start && t.span.end <= end) {
            let gap = reindent(&tree.source[at as usize..token.span.start as usize], from, margin);
            self.out.push(&gap);
            self.blind |= token.whole && tree.text(token.span).contains(&b'\n');
            self.out.push(tree.text(token.span));
            at = token.span.end;
        }
        let gap = reindent(&tree.source[at as usize..end as usize], from, margin);
        self.out.push(&gap);
    }

    /// Where the lines of a list stand in a version and in the answer, if the answer has its first further in or out
    /// than the version has it from what is around.
    fn moved_lines(&self, version: Version, node: NodeId, start: u32, margin: &[u8]) -> Option<(&'s [u8], Vec<u8>)> {
        let tree = self.tree(version);
        let lines = start == tree.node(node).span.start && tree.list_rule(node).is_some_and(|r| r.lines);
        let own = self.out.margin().filter(|_| lines)?;
        let stands = gaps::start_of_line(tree, node);
        let offset = stands.strip_prefix(tree.indent(node))?;
        (offset.iter().all(u8::is_ascii_whitespace) && own != [margin, offset].concat()).then(|| (stands, own.to_vec()))
    }

    /// Why both sides' changes to a node may stand together.
    fn reason(&self, merged: &Merged) -> &'static str {
        let rule = Version::ALL.into_iter().find_map(|v| {
            let node = (*merged.nodes.get(v))?;
            Some((self.tree(v).list_rule(node), self.tree(v).node(node).kind == Kind::ENTRY))
        });
        match rule {
            Some((Some(rule), _)) if !rule.lines && rule.free => {
                "the changes are to different entries, whose order means nothing"
            }
            _ if merged.is_wrapper() => "one side put it around what the other side changed",
            Some((Some(rule), _)) if rule.lines && rule.free => "the changes are to different entries, found by name",
            Some((Some(rule), _)) if rule.lines => "the changes are to different statements",
            Some((Some(_), _)) => "the changes are to different entries",
            Some((None, true)) => "one changed what stands here, the other what describes it",
            _ => "the changes are to different parts of it",
        }
    }

    /// What a merged node is, for people, and how it begins as merged; or the line that it stands on, if it is too short
    /// to tell. `put_off`: it begins with an entry of it, not with the first.
    fn describe(&self, merged: &Merged, place: &Noted, put_off: bool) -> String {
        let version = Version::ALL.into_iter().rev().find(|v| merged.nodes.get(*v).is_some());
        let Some(version) = version else { return "a place".to_owned() };
        let tree = self.tree(version);
        let Some(node) = *merged.nodes.get(version) else { return "a place".to_owned() };
        let kind = tree.language.kind_name(tree.core_kind(node)).replace('_', " ");
        let enough = 8 * SHOWN_CHARS;
        let mut text = first_lines(&self.out.beginning(place, enough));
        if text.len() < TELLING {
            text = [self.out.line_before(place, enough), text].concat();
        }
        let listed = put_off || tree.list_rule(node).is_some_and(|r| r.lines);
        match shown(&text) {
            text if text.is_empty() => kind,
            text if listed => format!("{kind}, from `{text}` on"),
            text => format!("{kind} `{text}`"),
        }
    }
}

/// The beginning of a line, as a place is described by it.
pub(crate) fn shown(line: &[u8]) -> String {
    let line = String::from_utf8_lossy(line);
    let line = line.trim();
    match line.char_indices().nth(SHOWN_CHARS) {
        None => line.to_owned(),
        Some((end, _)) => format!("{}…", line[..end].trim_end()),
    }
}

/// The first line of a text, or as many as it takes to tell it from others.
fn first_lines(text: &[u8]) -> Vec<u8> {
    let mut first = Vec::new();
    for line in text.split(|b| *b == b'\n').map(<[u8]>::trim_ascii).filter(|line| !line.is_empty()) {
        if !first.is_empty() {
            first.push(b' ');
        }
        first.extend_from_slice(line);
        if first.len() >= TELLING {
            break;
        }
    }
    first
}
