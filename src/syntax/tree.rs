//! The compact tree: nodes in preorder in one vector, leaves as tokens in another.

use super::parse::line_of;
use super::{hash_bytes, mix};
use crate::grammar::{EntryRule, Kind, Language, ListRule, Step, marked};

/// Names a node of one tree.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NodeId(pub u32);

impl NodeId {
    /// The root of every tree.
    pub const ROOT: NodeId = NodeId(0);

    pub(crate) fn index(self) -> usize {
        self.0 as usize
    }
}

/// A range of bytes of one version.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Span {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// Whether it covers no byte.
    pub fn is_empty(self) -> bool {
        self.start >= self.end
    }

    pub(crate) fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// Which part of a list node a child belongs to, in the order of the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// The parent is no list.
    Plain,
    /// Before the entries: an opening bracket, a keyword.
    Head,
    /// One of the entries.
    Entry,
    /// After the entries: a closing bracket.
    Tail,
}

/// One node.
#[derive(Clone, Debug)]
pub struct Node {
    /// What it is.
    pub kind: Kind,
    /// The field it stands in, 0 for none.
    pub field: u16,
    /// The part of its parent it belongs to.
    pub part: Part,
    /// Whether it is the first thing on its line and an entry of a list.
    pub starts_line: bool,
    /// For an entry that can be told apart only by values inside it: whether it has them.
    pub told: bool,
    /// Whether it is a token without a name of its own (punctuation, keyword).
    pub anonymous: bool,
    /// The list rule, if it holds a list.
    pub list: Option<u16>,
    /// For an entry: the rule for what is listed.
    pub entry: Option<u16>,
    /// Its parent; the root is its own.
    pub parent: NodeId,
    /// Its position among its parent's children.
    pub position: u32,
    pub(crate) kids: (u32, u32),
    /// One past its last descendant.
    pub end: NodeId,
    /// Its bytes, from its first to its last token.
    pub span: Span,
    /// Its tokens.
    pub tokens: (u32, u32),
    /// Equal for nodes of the same tokens in the same structure; layout and separators aside.
    pub hash: u64,
    /// Equal for nodes of the same hash that are laid out alike, common indentation aside.
    pub shape: u64,
    /// For an entry with a key: its hash, never 0. Else 0.
    pub key: u64,
    /// The white space at the start of the line of the closest entry that starts a line.
    pub indent: Span,
    /// For an entry: what is listed, without its comments. Else itself.
    pub core: NodeId,
    /// For an entry: the separator after it, if there is one.
    pub separator: Span,
}

/// One leaf.
#[derive(Clone, Copy, Debug)]
pub struct Token {
    /// Its text's hash.
    pub hash: u64,
    /// Its bytes.
    pub span: Span,
    /// Whether it carries meaning of its own: a name, a literal, a comment; not a keyword.
    pub word: bool,
    /// Whether it is a keyword.
    pub keyword: bool,
    /// Whether it is a comment.
    pub comment: bool,
    /// Whether it is a list that was not looked into.
    pub whole: bool,
}

/// A shorter token may stand in two places by chance.
const TELLING: usize = 12;
/// So may a shorter string, with its quotes.
const TELLING_TEXT: usize = 5;
/// What an entry weighs because its place means something: more than any text can.
const FIXED: u64 = 1 << 32;

/// What the grammar forgives and the language does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Forgiven {
    /// A list that must hold something holds nothing, a node lacks what it must hold, or an entry does not stand at the
    /// column of the others: where.
    Malformed(u32),
    /// A node does not stand in what it must stand in.
    Misplaced {
        /// The node.
        span: Span,
        /// The number of the descriptor's rule.
        rule: u16,
    },
}

/// One version's tree.
#[derive(Debug)]
pub struct Tree<'s> {
    /// The version's bytes.
    pub source: &'s [u8],
    /// Its language.
    pub language: &'static Language,
    /// The first of what the grammar forgives and the language does not.
    pub forgiven: Option<Forgiven>,
    pub(crate) nodes: Vec<Node>,
    pub(crate) kids: Vec<NodeId>,
    pub(crate) tokens: Vec<Token>,
}

impl<'s> Tree<'s> {
    /// The node of that name.
    pub fn node(&self, id: NodeId) -> &Node {
        &self.nodes[id.index()]
    }

    /// How many nodes there are.
    pub fn len(&self) -> usize {
        self.nodes.len()
    }

    /// Whether there is no node: never.
    pub fn is_empty(&self) -> bool {
        self.nodes.is_empty()
    }

    /// Its children, in order.
    pub fn kids(&self, id: NodeId) -> &[NodeId] {
        let (start, end) = self.node(id).kids;
        &self.kids[start as usize..end as usize]
    }

    /// The children of one part of a list node.
    pub fn part(&self, id: NodeId, part: Part) -> &[NodeId] {
        let kids = self.kids(id);
        let start = kids.partition_point(|k| self.node(*k).part < part);
        let end = kids.partition_point(|k| self.node(*k).part <= part);
        &kids[start..end]
    }

    /// The bytes of a span.
    pub fn text(&self, span: Span) -> &'s [u8] {
        &self.source[span.range()]
    }

    /// The bytes of a node.
    pub fn node_text(&self, id: NodeId) -> &'s [u8] {
        self.text(self.node(id).span)
    }

    /// Whether it has no children.
    pub fn is_leaf(&self, id: NodeId) -> bool {
        let (start, end) = self.node(id).kids;
        start == end
    }

    /// How many tokens it holds.
    pub fn size(&self, id: NodeId) -> u32 {
        let (start, end) = self.node(id).tokens;
        end - start
    }

    /// The lists that were not looked into, in the order of the text.
    pub(crate) fn wholes(&self) -> impl Iterator<Item = NodeId> + '_ {
        let whole = |id: &NodeId| self.is_leaf(*id) && self.tokens(*id).first().is_some_and(|token| token.whole);
        (0..self.len() as u32).map(NodeId).filter(whole)
    }

    /// How much there is of it: its tokens and its lines, comments and attributes before it aside. An entry whose
    /// place means something outweighs those whose does not.
    pub fn weight(&self, id: NodeId) -> u64 {
        let core = self.node(id).core;
        let lines = self.node_text(core).iter().filter(|b| **b == b'\n').count();
        let free = self.entry_rule(id).is_some_and(|rule| rule.free);
        u64::from(self.size(core)) + lines as u64 + if free { 0 } else { FIXED }
    }

    /// Its tokens.
    pub fn tokens(&self, id: NodeId) -> &[Token] {
        let (start, end) = self.node(id).tokens;
        &self.tokens[start as usize..end as usize]
    }

    /// The kind that decides what a node is: for an entry, that of what is listed.
    pub fn core_kind(&self, id: NodeId) -> Kind {
        self.node(self.node(id).core).kind
    }

    /// The hash of what is listed, comments aside.
    pub fn core_hash(&self, id: NodeId) -> u64 {
        self.node(self.node(id).core).hash
    }

    /// A hash of what a node says, whatever the order of entries in it that have none; if it is asked for `bare`, without the
    /// letters before quotes that say nothing.
    pub(crate) fn unordered_hash(&self, id: NodeId, bare: bool) -> u64 {
        let kids = self.kids(id);
        if kids.is_empty() {
            let (rule, text) = (self.language.rule(self.node(id).kind), self.node_text(id));
            let said = bare.then(|| rule.unquoted(&text[marked(text, &rule.unmarked)..])).flatten();
            return said.map_or(self.node(id).hash, |said| hash_bytes(19, &said));
        }
        let free = self.list_rule(id).is_some_and(|rule| rule.free && !rule.lines);
        let mut said: Vec<(bool, u64)> =
            kids.iter().map(|kid| (self.node(*kid).part == Part::Entry, self.unordered_hash(*kid, bare))).collect();
        if free {
            said.sort_unstable();
        }
        said.into_iter().fold(u64::from(self.node(id).kind.0), |hash, (_, kid)| mix(hash, kid))
    }

    /// Whether a node is an entry of a list of statements.
    pub(crate) fn is_statement(&self, id: NodeId) -> bool {
        let node = self.node(id);
        node.part == Part::Entry && self.list_rule(node.parent).is_some_and(|rule| rule.lines)
    }

    /// Whether what is listed is a text and nothing else, that is there to be read.
    pub(crate) fn is_remark(&self, entry: NodeId) -> bool {
        let core = self.node(entry).core;
        let text = |kid: &NodeId| self.language.rule(self.node(*kid).kind).text;
        self.language.rule(self.node(core).kind).remark && matches!(self.kids(core), [only] if text(only))
    }

    /// The text that some statements begin with, comments aside, and that is there to be read.
    pub(crate) fn first_remark(&self, entries: &[NodeId]) -> Option<NodeId> {
        let first = *entries.iter().find(|n| !self.is_comment(**n))?;
        (self.is_statement(first) && self.is_remark(first)).then_some(first)
    }

    /// Whether what is listed is one token that says enough by itself to be known again elsewhere: a long one, or a
    /// string, unlike a number, that is no mere sign.
    pub(crate) fn tells(&self, entry: NodeId) -> bool {
        let core = self.node(entry).core;
        let least = if self.language.rule(self.node(core).kind).text { TELLING_TEXT } else { TELLING };
        self.is_leaf(core) && self.node(core).span.range().len() >= least
    }

    /// The keys of a node and of what it stands in, from the innermost outward.
    pub(crate) fn keys_outward(&self, node: NodeId) -> Vec<u64> {
        self.outward(node).map(|outer| self.node(outer).key).filter(|key| *key != 0).collect()
    }

    /// The entries right before or behind one, the nearest first.
    pub(crate) fn beside(&self, entry: NodeId, behind: bool) -> impl Iterator<Item = NodeId> {
        let (kids, at) = (self.kids(self.node(entry).parent), self.node(entry).position as usize);
        let (before, after) = if behind { (&[][..], &kids[at + 1..]) } else { (&kids[..at], &[][..]) };
        let all = before.iter().rev().chain(after).copied();
        all.take_while(|n| self.node(*n).part == Part::Entry)
    }

    /// Where an entry goes among others of its list, if its language says so: the least first.
    pub(crate) fn rank(&self, entry: NodeId) -> i8 {
        self.entry_rule(entry).map_or(0, |rule| rule.rank)
    }

    /// Whether a node stands before a definition and says something of it, as a decorator or an attribute does.
    pub(crate) fn is_prefix(&self, id: NodeId) -> bool {
        let parent = self.node(id).parent;
        let rule =
            || self.entry_rule(if self.node(parent).part == Part::Entry { parent } else { self.node(parent).parent });
        self.language.rule(self.core_kind(id)).prefix
            || rule().is_some_and(|rule| rule.variant == Some(self.core_kind(id)))
    }

    /// What an attribute is called.
    pub(crate) fn prefix_name(&self, prefix: NodeId) -> Option<&'s [u8]> {
        let rule = self.language.rule(self.node(prefix).kind);
        let name = || self.tokens(prefix).iter().find(|token| token.word).map(|token| self.text(token.span));
        if rule.prefix { name() } else { None }
    }

    /// Whether an attribute says that an entry is there only under a condition.
    pub(crate) fn is_conditional(&self, entry: NodeId) -> bool {
        let conditions = &self.language.descriptor.conditions;
        let mut names = self.kids(entry).iter().filter_map(|kid| self.prefix_name(*kid));
        !conditions.is_empty() && names.any(|name| conditions.iter().any(|one| one.as_bytes() == name))
    }

    /// Whether a node lists statements.
    pub(crate) fn is_block(&self, id: NodeId) -> bool {
        self.list_rule(id).is_some_and(|rule| rule.lines)
    }

    /// The first child that lists statements.
    pub(crate) fn block(&self, id: NodeId) -> Option<NodeId> {
        self.kids(id).iter().copied().find(|kid| self.is_block(*kid))
    }

    /// The children before that one; all, if there is none.
    pub(crate) fn head(&self, id: NodeId) -> &[NodeId] {
        let kids = self.kids(id);
        &kids[..kids.iter().position(|kid| self.is_block(*kid)).unwrap_or(kids.len())]
    }

    /// The lists of statements in a node and in its clauses, each with what it is a part of.
    pub(crate) fn branches(&self, id: NodeId) -> Vec<(NodeId, NodeId)> {
        let block = |kid: &NodeId| match self.is_block(*kid) {
            true => Some((id, *kid)),
            false => self.block(*kid).map(|block| (*kid, block)),
        };
        self.kids(id).iter().filter_map(block).collect()
    }

    /// The list rule of a node that holds a list.
    pub fn list_rule(&self, id: NodeId) -> Option<&'static ListRule> {
        self.node(id).list.map(|l| &self.language.lists()[l as usize])
    }

    /// The entry rule of an entry.
    pub fn entry_rule(&self, id: NodeId) -> Option<&'static EntryRule> {
        self.node(id).entry.map(|e| &self.language.entries()[e as usize])
    }

    /// Whether a node is a list that was not looked into, or has one in it.
    pub(crate) fn is_whole(&self, id: NodeId) -> bool {
        self.tokens(id).iter().any(|token| token.whole)
    }

    /// Whether the node describes code and is none.
    pub fn is_comment(&self, id: NodeId) -> bool {
        self.language.rule(self.core_kind(id)).comment
    }

    /// The smallest node that some bytes are in.
    pub(crate) fn around(&self, bytes: &std::ops::Range<usize>) -> NodeId {
        let holds = |kid: NodeId| {
            let span = self.node(kid).span.range();
            span.start <= bytes.start && bytes.end <= span.end
        };
        let mut at = NodeId::ROOT;
        loop {
            let kids = self.kids(at);
            let near = kids.partition_point(|kid| self.node(*kid).span.end as usize <= bytes.start);
            match kids.get(near) {
                Some(kid) if holds(*kid) => at = *kid,
                _ => return at,
            }
        }
    }

    /// Whether `inner` is `outer` or one of its descendants.
    pub fn contains(&self, outer: NodeId, inner: NodeId) -> bool {
        outer <= inner && inner < self.node(outer).end
    }

    /// A node and all that is in it, in the order of the text.
    pub(crate) fn inside(&self, id: NodeId) -> impl DoubleEndedIterator<Item = NodeId> + Clone + use<'s> {
        (id.0..self.node(id).end.0).map(NodeId)
    }

    /// The node that a way leads to, from a node on.
    pub(crate) fn along(&self, from: NodeId, way: &[Step]) -> Option<NodeId> {
        way.iter().try_fold(from, |at, step| {
            // What is listed stands in an entry.
            let mut kids = self.kids(at).iter().map(|k| self.node(*k).core);
            kids.find(|k| match step {
                Step::Field(field) => self.node(*k).field == *field,
                Step::Kind(kind) => self.node(*k).kind == *kind,
            })
        })
    }

    /// A node and what it stands in, from it outward.
    pub(crate) fn outward(&self, from: NodeId) -> impl Iterator<Item = NodeId> {
        std::iter::successors(Some(from), |n| Some(self.node(*n).parent).filter(|outer| outer != n))
    }

    /// What a node goes out of, such as the loop around a `break`, if it is such a node.
    pub(crate) fn leaves(&self, id: NodeId) -> Option<NodeId> {
        let rule = &self.language.leaves()[usize::from(self.language.rule(self.node(id).kind).leaves?)];
        let named = self.kids(id).iter().any(|k| rule.unless.contains(&self.node(*k).kind));
        self.outward(id).skip(1).find(|n| rule.ends_at(self.node(*n).kind)).filter(|_| !named)
    }

    /// The line, from 1, on which a byte stands.
    pub fn line_of(&self, offset: u32) -> usize {
        line_of(self.source, offset as usize)
    }

    /// The tree in words, a node a line: for tests and for people at work on a grammar.
    pub fn outline(&self) -> String {
        let mut out = String::new();
        let mut depths: Vec<usize> = Vec::with_capacity(self.len());
        for id in (0..self.len() as u32).map(NodeId) {
            let node = self.node(id);
            let depth = if id == NodeId::ROOT { 0 } else { depths[node.parent.index()] + 1 };
            depths.push(depth);
            let text = if self.is_leaf(id) { format!(" {}", self.quote(id)) } else { String::new() };
            let key = if node.key == 0 { "" } else { " (keyed)" };
            out.push_str(&format!("{}{}{key}{text}\n", "  ".repeat(depth), self.language.kind_name(node.kind)));
        }
        out
    }

    /// A node's text on one line.
    pub(crate) fn quote(&self, id: NodeId) -> String {
        format!("{:?}", String::from_utf8_lossy(self.node_text(id)))
    }

    /// The indentation inside a node.
    pub fn indent(&self, id: NodeId) -> &'s [u8] {
        self.text(self.node(id).indent)
    }
}
