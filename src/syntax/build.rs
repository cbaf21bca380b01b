//! From tree-sitter's concrete tree to the compact tree: separators leave the tree, comments go to
//! what they describe, list children become entries.

use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::tree::{Node, NodeId, Part, Span, Token, Tree};
use super::{hash_bytes, mix};
use crate::grammar::{EntryRule, KeyPath, Kind, Language, ListRule, Spelling, Step, is_word};

/// A node as the parser gave it.
struct Raw {
    kind: Kind,
    field: u16,
    named: bool,
    span: Span,
    kids: Vec<u32>,
    /// A comment that describes what it stands in.
    inner: bool,
    /// Not looked into, though there is something to see.
    whole: bool,
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
    let mut forgiven = None;
    let mut raws = read(source, parsed, language, live, &mut forgiven);
    let forgiven = forgiven.or_else(|| lacking(&raws, language)).or_else(|| misaligned(source, &raws, language));
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
        beside: None,
        loose,
    };
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

fn read(
    source: &[u8],
    parsed: &tree_sitter::Tree,
    language: &'static Language,
    live: Option<&[Range<usize>]>,
    forgiven: &mut Option<u32>,
) -> Vec<Raw> {
    // The ranges are in order, by their starts and by their ends.
    let outside = |node: tree_sitter::Node<'_>| {
        live.is_some_and(|live| {
            let near = live.partition_point(|r| r.end < node.start_byte());
            live.get(near).is_none_or(|r| node.end_byte() < r.start)
        })
    };
    let inner = |comment: tree_sitter::Node<'_>| {
        let first = comment.named_child(0);
        first.is_some_and(|c| language.rule(language.kind_of_symbol[c.kind_id() as usize]).inner)
    };
    let is_list = |kind: Kind| !language.rule(kind).lists.is_empty();
    let mut raws: Vec<Raw> = Vec::with_capacity(source.len() / 4 + 16);
    let mut parents: Vec<u32> = Vec::new();
    let mut cursor = parsed.walk();
    let mut descend = true;
    loop {
        if descend {
            let node = cursor.node();
            let kind = language.kind_of_symbol[node.kind_id() as usize];
            let rule = language.rule(kind);
            // Extras that are no comments (line continuations) and empty nodes are layout.
            let layout =
                !parents.is_empty() && (node.start_byte() == node.end_byte() || node.is_extra() && !rule.comment);
            let empty_list = node.is_named()
                && node.start_byte() == node.end_byte()
                && rule.lists.iter().any(|l| language.lists[*l as usize].lines);
            if empty_list && !parents.is_empty() {
                forgiven.get_or_insert(node.start_byte() as u32);
            }
            if !layout {
                let id = raws.len() as u32;
                raws.push(Raw {
                    kind,
                    field: cursor.field_id().map_or(0, Into::into),
                    named: node.is_named(),
                    span: trimmed(source, node.start_byte(), node.end_byte(), rule.comment),
                    kids: Vec::new(),
                    inner: rule.comment && inner(node),
                    whole: false,
                });
                if let Some(parent) = parents.last() {
                    raws[*parent as usize].kids.push(id);
                }
                // The entries of a list stay in sight: they are known by what is in them.
                let whole =
                    is_list(kind) && parents.last().is_some_and(|p| !is_list(raws[*p as usize].kind)) && outside(node);
                raws[id as usize].whole = whole;
                if !rule.text && !whole && cursor.goto_first_child() {
                    parents.push(id);
                    continue;
                }
            }
        }
        if cursor.goto_next_sibling() {
            descend = true;
        } else if !parents.is_empty() && cursor.goto_parent() {
            parents.pop();
            descend = false;
        } else {
            return raws;
        }
        if parents.is_empty() {
            return raws;
        }
    }
}

/// A text without the white space that parts no words.
fn unspaced(text: &[u8]) -> Vec<u8> {
    let mut bare = Vec::with_capacity(text.len());
    let mut spaced = false;
    for byte in text {
        if byte.is_ascii_whitespace() {
            spaced = true;
            continue;
        }
        if spaced && is_word(*byte) && bare.last().is_some_and(|last| is_word(*last)) {
            bare.push(b' ');
        }
        spaced = false;
        bare.push(*byte);
    }
    bare
}

/// Some grammars count the line ending (or the white space before it) to a comment; we never do.
fn trimmed(source: &[u8], start: usize, end: usize, comment: bool) -> Span {
    let mut end = end;
    if comment {
        while end > start && matches!(source[end - 1], b'\n' | b'\r') {
            end -= 1;
        }
    }
    Span { start: start as u32, end: end as u32 }
}

/// The column of an offset in bytes, and whether only white space stands before it on its line.
fn column(source: &[u8], offset: u32) -> (usize, bool) {
    let before = &source[..offset as usize];
    let line = before.iter().rposition(|b| *b == b'\n').map_or(0, |p| p + 1);
    (before.len() - line, before[line..].iter().all(|b| matches!(b, b' ' | b'\t' | b'\x0c')))
}

/// Where a node holds none of what it must hold one of.
fn lacking(raws: &[Raw], language: &'static Language) -> Option<u32> {
    let lacks = |raw: &&Raw| {
        let needs = &language.rule(raw.kind).needs;
        !needs.is_empty() && !raw.whole && !raw.kids.iter().any(|k| needs.contains(&raws[*k as usize].kind))
    };
    raws.iter().find(lacks).map(|raw| raw.span.start)
}

/// Where an entry starts a line further in or out than those before it in its list, in languages in which it may not.
fn misaligned(source: &[u8], raws: &[Raw], language: &'static Language) -> Option<u32> {
    let aligned = |raw: &Raw| language.rule(raw.kind).lists.iter().any(|l| language.lists[*l as usize].aligned);
    raws.iter().enumerate().filter(|(_, raw)| aligned(raw)).find_map(|(i, list)| {
        let mut wanted = (i == 0).then_some(0);
        let mut listed = list.kids.iter().map(|kid| &raws[*kid as usize]).filter(|kid| kid.named);
        let strays = |kid: &&Raw| {
            let start = kid.span.start;
            let (col, alone) = column(source, start);
            let width = width(&source[start as usize - col..start as usize]);
            alone && !language.rule(kid.kind).comment && *wanted.get_or_insert(width) != width
        };
        listed.find(strays).map(|kid| kid.span.start)
    })
}

/// How far white space at the start of a line indents it (The Python Language Reference, "Indentation").
fn width(indent: &[u8]) -> usize {
    indent.iter().fold(0, |width, byte| match byte {
        b'\t' => (width / 8 + 1) * 8,
        b'\x0c' => 0,
        _ => width + 1,
    })
}

/// Gives comments to the list they are indented with. A grammar in which indentation closes a list
/// reads a comment before the first or after the last entry outside of it.
fn rehome_comments(source: &[u8], raws: &mut [Raw], language: &'static Language) {
    let comment = |raws: &[Raw], id: u32| language.rule(raws[id as usize].kind).comment;
    let open_list = |raws: &[Raw], id: u32| {
        let raw = &raws[id as usize];
        let lines = language.rule(raw.kind).lists.iter().any(|l| language.lists[*l as usize].lines);
        lines && raw.kids.last().is_some_and(|k| raws[*k as usize].named)
    };
    for parent in (0..raws.len() as u32).rev() {
        if !raws[parent as usize].kids.iter().any(|k| comment(raws, *k)) {
            continue;
        }
        let kids = std::mem::take(&mut raws[parent as usize].kids);
        let mut kept: Vec<u32> = Vec::with_capacity(kids.len());
        for kid in kids {
            if comment(raws, kid) {
                let (col, alone) = column(source, raws[kid as usize].span.start);
                if alone
                    && let Some(previous) = kept.last().copied()
                    && let Some(list) = trailing_list(source, raws, previous, col, &open_list)
                {
                    let end = raws[kid as usize].span.end;
                    raws[list as usize].kids.push(kid);
                    // Every node between the list and here now reaches to the comment's end.
                    let mut at = previous;
                    loop {
                        raws[at as usize].span.end = end;
                        if at == list {
                            break;
                        }
                        at = *raws[at as usize].kids.last().expect("the list is a last descendant");
                        if !contains_raw(raws, at, list) {
                            break;
                        }
                    }
                    continue;
                }
            } else if open_list(raws, kid) && raws[parent as usize].kind != raws[kid as usize].kind {
                let moved = kept
                    .iter()
                    .rev()
                    .take_while(|k| comment(raws, **k) && column(source, raws[**k as usize].span.start).1)
                    .count();
                if moved > 0 && kept.len() > moved {
                    let mut front = kept.split_off(kept.len() - moved);
                    raws[kid as usize].span.start = raws[front[0] as usize].span.start;
                    front.append(&mut raws[kid as usize].kids);
                    raws[kid as usize].kids = front;
                }
            }
            kept.push(kid);
        }
        raws[parent as usize].kids = kept;
    }
}

/// Takes comments out of a list that no token closes where they stand right above the list's next
/// sibling, or before the list's own first token: they describe what follows.
fn hoist_comments(source: &[u8], raws: &mut [Raw], language: &'static Language) {
    let newlines = |from: u32, to: u32| source[from as usize..to as usize].iter().filter(|b| **b == b'\n').count();
    for parent in (0..raws.len()).rev() {
        if !language.rule(raws[parent].kind).lists.iter().any(|l| language.lists[*l as usize].lines) {
            continue;
        }
        let kids = std::mem::take(&mut raws[parent].kids);
        let mut out: Vec<u32> = Vec::with_capacity(kids.len());
        for (i, kid) in kids.iter().enumerate() {
            let list = language.rule(raws[*kid as usize].kind).lists.iter().any(|l| language.lists[*l as usize].lines);
            let comment = |raws: &[Raw], k: &u32| language.rule(raws[*k as usize].kind).comment;
            if !list {
                out.push(*kid);
                continue;
            }
            let leading = raws[*kid as usize].kids.iter().take_while(|k| comment(raws, k)).count();
            if raws[*kid as usize].kids.get(leading).is_some_and(|k| !raws[*k as usize].named) {
                let rest = raws[*kid as usize].kids.split_off(leading);
                out.append(&mut raws[*kid as usize].kids);
                raws[*kid as usize].span.start = raws[rest[0] as usize].span.start;
                raws[*kid as usize].kids = rest;
            }
            out.push(*kid);
            let Some(next) = kids.get(i + 1) else { continue };
            let mut below = raws[*next as usize].span.start;
            let col = column(source, below).0;
            let mut moved = 0;
            for k in raws[*kid as usize].kids.iter().rev().take_while(|k| comment(raws, k)) {
                let span = raws[*k as usize].span;
                if newlines(span.end, below) != 1 || column(source, span.start) != (col, true) {
                    break;
                }
                below = span.start;
                moved += 1;
            }
            let keep = raws[*kid as usize].kids.len() - moved;
            if moved > 0 && keep > 0 {
                out.extend(raws[*kid as usize].kids.split_off(keep));
                let last = *raws[*kid as usize].kids.last().expect("some were kept");
                raws[*kid as usize].span.end = raws[last as usize].span.end;
            }
        }
        raws[parent].kids = out;
    }
}

fn contains_raw(raws: &[Raw], outer: u32, inner: u32) -> bool {
    let mut at = outer;
    loop {
        if at == inner {
            return true;
        }
        match raws[at as usize].kids.last() {
            Some(k) => at = *k,
            None => return false,
        }
    }
}

/// The innermost list that ends with `node` and is indented no deeper than column `col`.
fn trailing_list(
    source: &[u8],
    raws: &[Raw],
    node: u32,
    col: usize,
    open_list: &dyn Fn(&[Raw], u32) -> bool,
) -> Option<u32> {
    let mut found = None;
    let mut at = node;
    loop {
        if open_list(raws, at) {
            let first = raws[at as usize].kids[0];
            let (list_col, alone) = column(source, raws[first as usize].span.start);
            if !alone || list_col > col {
                return found;
            }
            found = Some(at);
        }
        at = *raws[at as usize].kids.last()?;
    }
}

/// An entry being put together.
struct Group {
    kids: Vec<u32>,
    core: u32,
    separator: Span,
    end: u32,
}

struct Builder<'s, 'l> {
    source: &'s [u8],
    language: &'static Language,
    raws: Vec<Raw>,
    tree: Tree<'s>,
    /// The keys of the entries around the current place, outermost first.
    path: Vec<String>,
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

    /// Builds `raw` and what is below it.
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
            self.raws[raw as usize].kids = kids;
            return id;
        }
        let beside = match parent {
            _ if id == NodeId::ROOT => None,
            _ => self.beside,
        };
        let list = self.list_for(kind, beside);
        self.tree.nodes[id.index()].list = list;
        let built: Vec<NodeId> = match list {
            Some(list) => self.list(id, &kids, list, indent),
            None => {
                let first = Some(self.raws[kids[0] as usize].span);
                kids.iter()
                    .enumerate()
                    .map(|(i, k)| {
                        self.beside = first;
                        self.node(*k, id, i as u32, Part::Plain, indent)
                    })
                    .collect()
            }
        };
        self.raws[raw as usize].kids = kids;
        self.finish(id, &built);
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
            false => rule.quoted.then(|| unquoted(text)).flatten(),
        };
        let hash = bare.map_or(shape, |bare| hash_bytes(u64::from(node.kind.0) + 0x1_0000, &bare));
        let keyword = !named && text.first().is_some_and(u8::is_ascii_alphabetic);
        self.tree.tokens.push(Token { hash, span: node.span, word: named, keyword, whole });
        let end = NodeId(id.0 + 1);
        let node = &mut self.tree.nodes[id.index()];
        (node.hash, node.shape, node.end) = (hash, shape, end);
        node.tokens.1 += 1;
    }

    /// Fills in what a node knows from its finished children.
    fn finish(&mut self, id: NodeId, built: &[NodeId]) {
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
    }

    /// The list rule that holds for a node of this kind here.
    fn list_for(&self, kind: Kind, beside: Option<Span>) -> Option<u16> {
        self.language.rule(kind).lists.iter().copied().find(|l| {
            let rule = &self.language.lists[*l as usize];
            let text = beside.map(|s| &self.source[s.range()]);
            (rule.under.is_empty() || rule.under.iter().any(|pattern| self.path_matches(pattern)))
                && (rule.beside.is_empty() || rule.beside.iter().any(|b| Some(b.as_bytes()) == text))
        })
    }

    /// Whether the keys around end with the dotted `pattern`, in which `*` is any one key.
    fn path_matches(&self, pattern: &str) -> bool {
        let mut path = self.path.iter().rev();
        pattern.rsplit('.').all(|step| path.next().is_some_and(|key| step == "*" || step == key))
    }

    fn list(&mut self, id: NodeId, kids: &[u32], list: u16, indent: Span) -> Vec<NodeId> {
        let rule = &self.language.lists[list as usize];
        let runs;
        let kids = if rule.runs {
            runs = self.runs(kids, rule);
            &runs
        } else {
            kids
        };
        let (head, middle, tail) = self.partition(kids, rule);
        let mut built: Vec<NodeId> = Vec::with_capacity(kids.len());
        for k in head {
            let position = built.len() as u32;
            built.push(self.node(*k, id, position, Part::Head, indent));
        }
        let head_end = head.last().map(|k| self.raws[*k as usize].span.end);
        let (groups, head_comments) = self.group(middle, rule, head_end);
        for k in head_comments {
            let position = built.len() as u32;
            built.push(self.node(k, id, position, Part::Head, indent));
        }
        for group in groups {
            let position = built.len() as u32;
            built.push(self.entry(id, group, rule, position, indent));
        }
        for k in tail {
            let position = built.len() as u32;
            built.push(self.node(*k, id, position, Part::Tail, indent));
        }
        built
    }

    /// Makes the tokens between separators nodes of their own. The first and the last token are brackets.
    fn runs(&mut self, kids: &[u32], rule: &ListRule) -> Vec<u32> {
        let mut out = Vec::new();
        let mut run: Vec<u32> = Vec::new();
        let close = |raws: &mut Vec<Raw>, run: &mut Vec<u32>, out: &mut Vec<u32>| {
            if let (Some(first), Some(last)) = (run.first(), run.last()) {
                let span = Span { start: raws[*first as usize].span.start, end: raws[*last as usize].span.end };
                out.push(raws.len() as u32);
                raws.push(Raw {
                    kind: Kind::RUN,
                    field: 0,
                    named: true,
                    span,
                    kids: std::mem::take(run),
                    inner: false,
                    whole: false,
                });
            }
        };
        for (i, kid) in kids.iter().enumerate() {
            let kind = self.raws[*kid as usize].kind;
            let comment = self.language.rule(kind).comment;
            let bracket = i == 0 || i + 1 == kids.len();
            if bracket || Some(kind) == rule.separator || comment && run.is_empty() {
                close(&mut self.raws, &mut run, &mut out);
                out.push(*kid);
            } else {
                run.push(*kid);
                if rule.ends.contains(&kind) {
                    close(&mut self.raws, &mut run, &mut out);
                }
            }
        }
        close(&mut self.raws, &mut run, &mut out);
        out
    }

    fn is_entry(&self, raw: u32, rule: &ListRule) -> bool {
        let r = &self.raws[raw as usize];
        let known = self.language.rule(r.kind);
        rule.tokens.contains(&r.kind)
            || r.named
                && !known.comment
                && !known.prefix
                && (rule.entries.is_empty() || rule.entries.contains(&r.kind))
                && rule.field.is_none_or(|f| r.field == f || rule.entries.contains(&r.kind) && r.field == 0)
    }

    /// Splits a list's children into what is before, in and after the entries.
    fn partition<'k>(&self, kids: &'k [u32], rule: &ListRule) -> (&'k [u32], &'k [u32], &'k [u32]) {
        let belongs = |k: &u32| {
            let r = &self.raws[*k as usize];
            let known = self.language.rule(r.kind);
            self.is_entry(*k, rule) || known.comment || known.prefix || Some(r.kind) == rule.separator
        };
        let first = kids.iter().position(|k| self.is_entry(*k, rule));
        let last = kids.iter().rposition(|k| self.is_entry(*k, rule));
        let (start, end) = match (first, last) {
            (Some(first), Some(last)) => {
                let start = kids[..first].iter().rposition(|k| !belongs(k)).map_or(0, |p| p + 1);
                let end = kids[last..].iter().position(|k| !belongs(k)).map_or(kids.len(), |p| last + p);
                (start, end)
            }
            _ => {
                // Without entries, a closing token closes a pair of tokens with nothing named before it.
                let bare = |k: &u32| !self.raws[*k as usize].named;
                let end = match kids.split_last() {
                    Some((k, rest)) if bare(k) && !rest.is_empty() && rest.iter().all(|k| bare(k) || belongs(k)) => {
                        kids.len() - 1
                    }
                    _ => kids.len(),
                };
                let start = kids[..end].iter().rposition(|k| !belongs(k)).map_or(0, |p| p + 1);
                (start, end)
            }
        };
        (&kids[..start], &kids[start..end], &kids[end..])
    }

    /// Puts comments, prefixes and separators to the entries they belong to. The second value is a
    /// comment at the end of the head's last line.
    fn group(&self, kids: &[u32], rule: &ListRule, head_end: Option<u32>) -> (Vec<Group>, Vec<u32>) {
        let newlines =
            |from: u32, to: u32| self.source[from as usize..to as usize].iter().filter(|b| **b == b'\n').count();
        let mut groups: Vec<Group> = Vec::new();
        let mut head_comments = Vec::new();
        let mut lead: Vec<u32> = Vec::new();
        let mut lead_end = 0;
        let mut sticky = false;
        for &kid in kids {
            let raw = &self.raws[kid as usize];
            let known = self.language.rule(raw.kind);
            let apart =
                |last: &u32| newlines(lead_end, raw.span.start) > 1 || self.raws[*last as usize].inner != raw.inner;
            if !sticky && lead.last().is_some_and(apart) {
                groups.push(Self::comments(std::mem::take(&mut lead), lead_end));
            }
            if known.comment {
                if lead.is_empty() {
                    match groups.last_mut() {
                        Some(group) if newlines(group.end, raw.span.start) == 0 => {
                            group.kids.push(kid);
                            group.end = raw.span.end;
                            continue;
                        }
                        None if head_end.is_some_and(|end| newlines(end, raw.span.start) == 0) => {
                            head_comments.push(kid);
                            continue;
                        }
                        _ => {}
                    }
                }
                lead.push(kid);
                lead_end = raw.span.end;
            } else if known.prefix {
                lead.push(kid);
                lead_end = raw.span.end;
                sticky = true;
            } else if Some(raw.kind) == rule.separator
                && !groups.is_empty()
                && groups.last().is_some_and(|g| g.separator.is_empty())
            {
                let group = groups.last_mut().expect("checked above");
                group.separator = raw.span;
                group.end = raw.span.end;
            } else {
                let comment = |k: &&u32| self.language.rule(self.raws[**k as usize].kind).comment;
                let comments = if rule.lines { lead.iter().take_while(comment).count() } else { 0 };
                if let Some(last) = lead[..comments].iter().rposition(|comment| self.is_loose(*comment)) {
                    let own = lead.split_off(last + 1);
                    let end = self.raws[lead[last] as usize].span.end;
                    groups.push(Self::comments(std::mem::replace(&mut lead, own), end));
                }
                lead.push(kid);
                groups.push(Group {
                    kids: std::mem::take(&mut lead),
                    core: kid,
                    separator: Span::default(),
                    end: raw.span.end,
                });
                sticky = false;
            }
        }
        if !lead.is_empty() {
            groups.push(Self::comments(lead, lead_end));
        }
        (groups, head_comments)
    }

    /// Whether a comment stays when the statement below it goes.
    fn is_loose(&self, raw: u32) -> bool {
        let raw = &self.raws[raw as usize];
        !self.loose.is_empty() && self.loose.contains(&line_hash(&self.source[raw.span.range()]))
    }

    /// An entry that consists of comments only.
    fn comments(kids: Vec<u32>, end: u32) -> Group {
        Group { core: kids[0], kids, separator: Span::default(), end }
    }

    fn entry(&mut self, parent: NodeId, group: Group, list: &'static ListRule, position: u32, indent: Span) -> NodeId {
        let start = self.raws[group.kids[0] as usize].span.start;
        let end = self.raws[*group.kids.last().expect("an entry has a core") as usize].span.end;
        let (col, alone) = column(self.source, start);
        let indent_at = |start: u32, col: usize| Span { start: start - col as u32, end: start };
        // Comments above an entry may stand further in or out than it does.
        let core_start = self.raws[group.core as usize].span.start;
        let core = if core_start == start { (col, alone) } else { column(self.source, core_start) };
        let indent = match core {
            (col, true) => indent_at(core_start, col),
            _ if alone => indent_at(start, col),
            _ => indent,
        };
        let id = self.push(Kind::ENTRY, Span { start, end }, parent, position, Part::Entry, indent);
        let core = &self.raws[group.core as usize];
        let parent_kind = self.tree.nodes[parent.index()].kind;
        let rule = self.language.rule(core.kind).entries.iter().copied().find(|e| {
            let parents = &self.language.entries[*e as usize].parents;
            parents.is_empty() || parents.contains(&parent_kind)
        });
        let comment = self.language.rule(core.kind).comment;
        let told = rule.is_some_and(|r| self.told(group.core, &self.language.entries[r as usize]).is_some());
        let key =
            if comment { None } else { self.key(group.core, rule.map(|r| &self.language.entries[r as usize]), list) };
        {
            let mut key_hash = 0;
            let tellable = rule.is_some_and(|r| !self.language.entries[r as usize].told_by.is_empty());
            if let Some((space, key)) = &key
                && (told || !tellable)
            {
                let told =
                    rule.and_then(|r| self.told(group.core, &self.language.entries[r as usize])).unwrap_or_default();
                let hash = hash_bytes(hash_bytes(1, space.as_bytes()), key.as_bytes());
                key_hash = hash_bytes(hash, told.as_bytes()).max(1);
            }
            let node = &mut self.tree.nodes[id.index()];
            node.key = key_hash;
            node.starts_line = alone;
            node.separator = group.separator;
            node.entry = rule;
            node.told = told;
        }
        let depth = self.path.len();
        if let Some((_, key)) = key
            && rule.is_some_and(|r| !self.language.entries[r as usize].key.is_empty())
        {
            self.path.extend(key.split('.').map(str::to_owned));
        }
        let mut built = Vec::with_capacity(group.kids.len());
        for (i, kid) in group.kids.iter().enumerate() {
            let node = self.node(*kid, id, i as u32, Part::Plain, indent);
            if *kid == group.core {
                self.tree.nodes[id.index()].core = node;
            }
            built.push(node);
        }
        self.path.truncate(depth);
        self.finish(id, &built);
        id
    }

    /// The name space and text of an entry's key.
    fn key(&self, core: u32, rule: Option<&EntryRule>, list: &ListRule) -> Option<(String, String)> {
        match rule {
            Some(rule) if !rule.key.is_empty() => {
                let parts: Vec<String> = rule
                    .key
                    .iter()
                    .filter_map(|p| self.resolve(core, p))
                    .map(|r| self.spelled(r, rule.spelling))
                    .collect();
                let name = parts.join(" ");
                let named = !parts.is_empty() && rule.nameless.as_ref() != Some(&name);
                named.then(|| (rule.space.clone(), name))
            }
            _ if list.keyed_by_text => Some((String::new(), self.spelled(core, list.spelling))),
            _ => None,
        }
    }

    /// The values inside an entry by which it is told apart, if it has any and needs them.
    fn told(&self, core: u32, rule: &EntryRule) -> Option<String> {
        if rule.told_by.is_empty() {
            return None;
        }
        let mut values = String::new();
        for kid in &self.raws[core as usize].kids {
            let raw = &self.raws[*kid as usize];
            let Some(e) = self.language.rule(raw.kind).entries.first() else { continue };
            let inner = &self.language.entries[*e as usize];
            let name = inner.key.iter().find_map(|p| self.resolve(*kid, p)).map(|r| self.spelled(r, inner.spelling));
            if name.is_some_and(|n| rule.told_by.contains(&n))
                && let Some(value) = raw.kids.last()
            {
                values.push('\n');
                values.push_str(&self.spelled(*value, Spelling::Exact));
            }
        }
        (!values.is_empty()).then_some(values)
    }

    fn resolve(&self, from: u32, path: &KeyPath) -> Option<u32> {
        path.iter().try_fold(from, |at, step| {
            self.raws[at as usize].kids.iter().copied().find(|k| match step {
                Step::Field(field) => self.raws[*k as usize].field == *field,
                Step::Kind(kind) => self.raws[*k as usize].kind == *kind,
            })
        })
    }

    fn spelled(&self, raw: u32, spelling: Spelling) -> String {
        let text = String::from_utf8_lossy(&self.source[self.raws[raw as usize].span.range()]);
        let quote = |c: char| matches!(c, '"' | '\'');
        match spelling {
            Spelling::Exact => text.chars().filter(|c| !c.is_whitespace() && !quote(*c)).collect(),
            // White space ends the name: what follows is no part of it.
            Spelling::Requirement => requirement_name(text.trim_matches(|c: char| c.is_whitespace() || quote(c))),
        }
    }
}

/// The project name at the start of a PEP 508 requirement, normalised as PEP 503 says: runs of `-`,
/// `_` and `.` become one `-`, in lower case.
fn requirement_name(requirement: &str) -> String {
    let name =
        requirement.split(|c: char| !(c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'))).next().unwrap_or("");
    let mut out = String::with_capacity(name.len());
    for c in name.chars() {
        if matches!(c, '-' | '_' | '.') {
            if !out.ends_with('-') {
                out.push('-');
            }
        } else {
            out.push(c.to_ascii_lowercase());
        }
    }
    out
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

/// A string without its quotes, if it holds neither quotes nor escapes: then either kind of quote
/// would do. Triple quotes stay apart from single ones.
fn unquoted(text: &[u8]) -> Option<Vec<u8>> {
    let open = text.iter().position(|b| matches!(b, b'"' | b'\''))?;
    let quote = text[open];
    let width = if text[open..].starts_with(&[quote; 3]) && text.len() >= open + 6 { 3 } else { 1 };
    let inner = text.get(open + width..text.len().checked_sub(width)?)?;
    if inner.iter().any(|b| matches!(b, b'"' | b'\'' | b'\\')) || !text.ends_with(&vec![quote; width]) {
        return None;
    }
    let mut bare = text[..open].to_vec();
    bare.push(width as u8);
    bare.extend_from_slice(inner);
    Some(bare)
}
