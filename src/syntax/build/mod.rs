//! From tree-sitter's concrete tree to the compact tree: separators leave the tree, comments go to
//! what they describe, list children become entries.

mod comments;
mod keys;
mod lists;
mod longer;
mod read;
mod torn;

use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use self::comments::{hoist_comments, rehome_comments};
use self::lists::Group;
use self::read::{Raw, astray, column, ended, lacking, late, misaligned, read};
use self::torn::torn;
use super::tree::{Forgiven, Node, NodeId, Part, Span, Token, Tree};
use super::{hash_bytes, mix};
use crate::grammar::{Kind, Language, ListRule, continued, unspaced};

/// The first of what the grammar forgives and the language does not; else as [`build`].
pub(super) fn forgiven(
    source: &[u8],
    parsed: &tree_sitter::Tree,
    language: &'static Language,
    live: &[Range<usize>],
) -> Option<Forgiven> {
    raws(source, parsed, language, Some(live)).1
}

/// The nodes of a parse, and the first of what the grammar forgives and the language does not.
fn raws(
    source: &[u8],
    parsed: &tree_sitter::Tree,
    language: &'static Language,
    live: Option<&[Range<usize>]>,
) -> (Vec<Raw>, Option<Forgiven>) {
    let mut empty = None;
    let raws = read(source, parsed, language, live, &mut empty);
    let forgiven = (empty.or_else(|| lacking(&raws, language)).map(Forgiven::Malformed))
        .or_else(|| astray(&raws, language))
        .or_else(|| ended(source, &raws, language).map(Forgiven::Malformed))
        .or_else(|| late(&raws, language).map(Forgiven::Malformed))
        .or_else(|| misaligned(source, &raws, language).map(Forgiven::Malformed))
        .or_else(|| torn(source, &raws, language).map(Forgiven::Malformed));
    (raws, forgiven)
}

/// Builds the compact tree of `source` from its parse.
/// With `live`, lists that lie outside of these ranges of bytes, which are in order, are left whole.
pub(super) fn build<'s>(
    source: &'s [u8],
    parsed: &tree_sitter::Tree,
    language: &'static Language,
    live: Option<&[Range<usize>]>,
    loose: &HashSet<u64>,
) -> Tree<'s> {
    let (mut raws, forgiven) = raws(source, parsed, language, live);
    hoist_comments(source, &mut raws, language);
    rehome_comments(source, &mut raws, language);
    // Entries of lists have a node of their own, around what they list. Room that is not needed costs nothing.
    let room = raws.len() + raws.len() / 2;
    let (nodes, kids, tokens) = (Vec::with_capacity(room), Vec::with_capacity(room), Vec::with_capacity(raws.len()));
    let mut builder = Builder {
        source,
        language,
        raws,
        tree: Tree { source, language, forgiven, nodes, kids, tokens },
        path: Vec::new(),
        built: Vec::new(),
        beside: None,
        loose,
    };
    if language.entries().iter().any(|rule| rule.holds_longer) {
        builder.nest();
    }
    builder.node(0, NodeId::ROOT, 0, Part::Plain, Span::default());
    // What stands before the first and after the last thing of the file is layout of the file.
    let inner = builder.tree.nodes[0].span;
    let root = &mut builder.tree.nodes[0];
    if root.kids.0 != root.kids.1 {
        for around in [&source[..inner.start as usize], &source[inner.end as usize..]] {
            root.shape = mix(root.shape, hash_bytes(4, around));
        }
    }
    root.span = Span { start: 0, end: source.len() as u32 };
    builder.tree
}

struct Builder<'s, 'l> {
    source: &'s [u8],
    language: &'static Language,
    raws: Vec<Raw>,
    tree: Tree<'s>,
    /// The keys of the entries around the current place, outermost first.
    path: Vec<String>,
    /// The nodes built whose parents are not finished, each parent's in order.
    built: Vec<NodeId>,
    /// The first child of the parent of the node being built.
    beside: Option<Span>,
    /// The hashes of comments that belong to no statement below them.
    loose: &'l HashSet<u64>,
}

/// A hash of a line, as a comment on it is known.
pub(crate) fn line_hash(line: &[u8]) -> u64 {
    hash_bytes(13, line.trim_ascii())
}

impl Builder<'_, '_> {
    fn push(&mut self, kind: Kind, span: Span, parent: NodeId, position: u32, part: Part, indent: Span) -> NodeId {
        let id = NodeId(self.tree.nodes.len() as u32);
        let tokens = self.tree.tokens.len() as u32;
        self.tree.nodes.push(Node {
            kind,
            field: 0,
            part,
            starts_line: false,
            told: false,
            anonymous: false,
            list: None,
            entry: None,
            parent,
            position,
            kids: (0, 0),
            end: id,
            span,
            tokens: (tokens, tokens),
            hash: 0,
            shape: 0,
            key: 0,
            indent,
            core: id,
            separator: Span::default(),
        });
        id
    }

    /// Builds `raw` and what is below it, for the `finish` of its parent.
    fn node(&mut self, raw: u32, parent: NodeId, position: u32, part: Part, indent: Span) -> NodeId {
        let (kind, field, named, span) = {
            let r = &self.raws[raw as usize];
            (r.kind, r.field, r.named, r.span)
        };
        let id = self.push(kind, span, parent, position, part, indent);
        let node = &mut self.tree.nodes[id.index()];
        node.field = field;
        node.anonymous = !named;
        let kids = std::mem::take(&mut self.raws[raw as usize].kids);
        if kids.is_empty() {
            self.leaf(id, named, self.raws[raw as usize].whole);
            self.built.push(id);
            return id;
        }
        let start = self.built.len();
        let beside = match parent {
            _ if id == NodeId::ROOT => None,
            _ => self.beside,
        };
        let list = self.list_for(kind, parent, beside);
        self.tree.nodes[id.index()].list = list;
        match list {
            Some(list) => self.list(id, &kids, list, indent),
            None => {
                let first = Some(self.raws[kids[0] as usize].span);
                for (i, k) in (0..).zip(&kids) {
                    self.beside = first;
                    self.node(*k, id, i, Part::Plain, indent);
                }
            }
        }
        self.raws[raw as usize].kids = kids;
        self.finish(id, start);
        id
    }

    fn leaf(&mut self, id: NodeId, named: bool, whole: bool) {
        let node = &self.tree.nodes[id.index()];
        let text = &self.source[node.span.range()];
        let shape = hash_bytes(u64::from(node.kind.0), text);
        let rule = self.language.rule(node.kind);
        let parent = self.tree.nodes[node.parent.index()].kind;
        // What is there to be read says the same however it is spaced, as long as its words are apart.
        let bare = match rule.comment || rule.text && self.language.rule(parent).remark {
            true => Some(unspaced(text)),
            false if rule.continued => Some(continued(text)),
            false => rule.unquoted(text),
        };
        let hash = bare.map_or(shape, |bare| hash_bytes(u64::from(node.kind.0) + 0x1_0000, &bare));
        let keyword = !named && text.first().is_some_and(u8::is_ascii_alphabetic);
        let comment = rule.comment;
        self.tree.tokens.push(Token { hash, span: node.span, word: named, keyword, comment, whole });
        let end = NodeId(id.0 + 1);
        let node = &mut self.tree.nodes[id.index()];
        (node.hash, node.shape, node.end) = (hash, shape, end);
        node.tokens.1 += 1;
    }

    /// Fills in what a node knows from its children, those built from `from` on, and leaves itself in their place.
    fn finish(&mut self, id: NodeId, from: usize) {
        let built = &self.built[from..];
        let start = self.tree.kids.len() as u32;
        self.tree.kids.extend_from_slice(built);
        let node = &self.tree.nodes[id.index()];
        let indent = &self.source[node.indent.range()];
        let mut hash = mix(u64::from(node.kind.0), 0x6c69_7374);
        let mut shape = hash;
        let mut previous: Option<&Node> = None;
        for kid in built {
            let kid = &self.tree.nodes[kid.index()];
            hash = mix(hash, kid.hash);
            if let Some(p) = previous {
                let gap = &self.source[p.span.end as usize..kid.span.start as usize];
                shape = mix(shape, gap_shape(gap, indent));
                if p.separator.is_empty()
                    && node.separator.is_empty()
                    && gap.iter().any(|b| b.is_ascii_graphic() && *b != b'\\')
                {
                    // Text that is in no node (a grammar may hide tokens) is content all the same.
                    hash = hash_bytes(hash, gap);
                }
            }
            shape = mix(shape, kid.shape);
            previous = Some(kid);
        }
        if node.kind == Kind::ENTRY {
            // A trailing separator is layout; whether it is there is part of the shape.
            shape = mix(shape, u64::from(!node.separator.is_empty()));
        }
        let (end, tokens) = (NodeId(self.tree.nodes.len() as u32), self.tree.tokens.len() as u32);
        let node_at = |n: &NodeId| &self.tree.nodes[n.index()];
        // Some grammars count line endings to a node; we count its tokens only.
        let start_byte = built.first().map_or(node.span.start, |k| node_at(k).span.start);
        let end_byte = built.last().map_or(node.span.end, |k| node_at(k).span.end.max(node_at(k).separator.end));
        let node = &mut self.tree.nodes[id.index()];
        node.kids = (start, start + built.len() as u32);
        (node.hash, node.shape, node.end, node.tokens.1) = (hash, shape, end, tokens);
        node.span = Span { start: start_byte, end: end_byte };
        self.built.truncate(from);
        self.built.push(id);
    }

    /// The list rule that holds for a node of this kind in that parent.
    fn list_for(&self, kind: Kind, parent: NodeId, beside: Option<Span>) -> Option<u16> {
        self.language.rule(kind).lists.iter().copied().find(|l| {
            let rule = &self.language.lists()[*l as usize];
            let text = beside.map(|s| &self.source[s.range()]);
            (rule.under.is_empty() || rule.under.iter().any(|pattern| self.path_matches(pattern)))
                && (rule.within.is_empty() || rule.within.iter().any(|kinds| self.stands_within(parent, kinds)))
                && (rule.beside.is_empty() || rule.beside.iter().any(|b| Some(b.as_bytes()) == text))
                && (rule.amid.is_empty() || self.stands_amid(parent, kind, rule))
        })
    }

    /// Whether a list of this kind stands in one beside a text of the rule's `amid`, with none in between but such as
    /// stand beside its own texts, or those that it may stand through. Bounded by how deep a text may nest.
    fn stands_amid(&self, parent: NodeId, kind: Kind, rule: &ListRule) -> bool {
        let node = |id: NodeId| &self.tree.nodes[id.index()];
        let mut at = parent;
        while at != NodeId::ROOT && (node(at).kind == kind || [Kind::ENTRY, Kind::RUN].contains(&node(at).kind)) {
            if node(at).kind == kind {
                // The first child of a node is the node behind it.
                let text = &self.source[node(NodeId(node(at).parent.0 + 1)).span.range()];
                let is_one = |texts: &[String]| texts.iter().any(|one| one.as_bytes() == text);
                if is_one(&rule.amid) {
                    return true;
                }
                if !is_one(&rule.beside) && !is_one(&rule.through) {
                    return false;
                }
            }
            at = node(at).parent;
        }
        false
    }

    /// Whether the keys around end with the dotted `pattern`, in which `*` is any one key.
    fn path_matches(&self, pattern: &str) -> bool {
        let mut path = self.path.iter().rev();
        pattern.rsplit('.').all(|step| path.next().is_some_and(|key| step == "*" || step == key))
    }

    /// Whether the kinds of a node and of those around it are these, outermost first.
    fn stands_within(&self, node: NodeId, kinds: &[Kind]) -> bool {
        let mut at = node;
        kinds.iter().rev().all(|kind| {
            let node = &self.tree.nodes[at.index()];
            at = node.parent;
            node.kind == *kind
        })
    }

    fn entry(&mut self, parent: NodeId, group: Group, list: &'static ListRule, position: u32, indent: Span) {
        let start = self.raws[group.kids[0] as usize].span.start;
        let end = self.raws[*group.kids.last().expect("an entry has a core") as usize].span.end;
        let own = column(self.source, start);
        let indent_at = |start: u32, col: usize| Span { start: start - col as u32, end: start };
        // Comments above an entry may stand further in or out than it does.
        let core_start = self.raws[group.core as usize].span.start;
        let core = if core_start == start { own } else { column(self.source, core_start) };
        let indent = match (core, own) {
            (Some(col), _) => indent_at(core_start, col),
            (None, Some(col)) => indent_at(start, col),
            (None, None) => indent,
        };
        let id = self.push(Kind::ENTRY, Span { start, end }, parent, position, Part::Entry, indent);
        let core = &self.raws[group.core as usize];
        let parent_kind = self.tree.nodes[parent.index()].kind;
        let rule = self.language.rule(core.kind).entries.iter().copied().find(|e| {
            let parents = &self.language.entries()[*e as usize].parents;
            parents.is_empty() || parents.contains(&parent_kind)
        });
        let said = rule.map(|r| &self.language.entries()[r as usize]);
        let comment = self.language.rule(core.kind).comment;
        let told = said.and_then(|r| self.told(group.core, r));
        let key = if comment { None } else { self.key(group.core, said, list) };
        let tellable = said.is_some_and(|r| !r.told_by.is_empty());
        let mut key_hash = 0;
        if let Some((space, key)) = &key
            && (told.is_some() || !tellable)
        {
            let hash = hash_bytes(hash_bytes(1, space.as_bytes()), key.as_bytes());
            key_hash = hash_bytes(hash, told.as_deref().unwrap_or_default().as_bytes()).max(1);
        }
        let node = &mut self.tree.nodes[id.index()];
        node.key = key_hash;
        node.starts_line = own.is_some();
        node.separator = group.separator;
        node.entry = rule;
        node.told = told.is_some();
        let depth = self.path.len();
        if let Some((_, key)) = key
            && said.is_some_and(|r| !r.key.is_empty())
        {
            self.path.extend(key.split('.').map(str::to_owned));
        }
        let from = self.built.len();
        for (i, kid) in group.kids.iter().enumerate() {
            let node = self.node(*kid, id, i as u32, Part::Plain, indent);
            if *kid == group.core {
                self.tree.nodes[id.index()].core = node;
            }
        }
        self.path.truncate(depth);
        self.finish(id, from);
    }
}

/// A hash of the white space between two nodes, with the indentation around taken off its lines.
fn gap_shape(gap: &[u8], indent: &[u8]) -> u64 {
    if !gap.contains(&b'\n') {
        return hash_bytes(2, gap);
    }
    let mut state = 3;
    for (i, line) in gap.split(|b| *b == b'\n').enumerate() {
        let line = line.strip_suffix(b"\r").unwrap_or(line);
        let line = if i > 0 { line.strip_prefix(indent).unwrap_or(line) } else { line };
        state = hash_bytes(state, line);
    }
    state
}
