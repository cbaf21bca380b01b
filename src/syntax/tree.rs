//! The compact tree: nodes in preorder in one vector, leaves as tokens in another.

use std::ops::Range;

use super::parse::line_of;
use crate::grammar::{EntryRule, Kind, Language, ListRule, Step, has_mark, is_word, names_in_braces};

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

/// Which part of a list node a child belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
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
        let start = kids.iter().position(|k| self.node(*k).part == part).unwrap_or(kids.len());
        let len = kids[start..].iter().take_while(|k| self.node(**k).part == part).count();
        &kids[start..start + len]
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

    /// Whether a node is an entry of a list of statements.
    pub(crate) fn is_statement(&self, id: NodeId) -> bool {
        let node = self.node(id);
        node.part == Part::Entry && self.list_rule(node.parent).is_some_and(|rule| rule.lines)
    }

    /// Whether what is listed is one token that says enough by itself to be known again elsewhere: a long one, or a
    /// string, unlike a number, that is no mere sign.
    pub(crate) fn tells(&self, entry: NodeId) -> bool {
        let core = self.node(entry).core;
        let least = if self.language.rule(self.node(core).kind).text { TELLING_TEXT } else { TELLING };
        self.is_leaf(core) && self.node(core).span.range().len() >= least
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

    /// Whether the node describes code and is none.
    pub fn is_comment(&self, id: NodeId) -> bool {
        self.language.rule(self.core_kind(id)).comment
    }

    /// The names that an entry brings into scope, if its rule says where they are.
    pub fn bound_names(&self, entry: NodeId) -> Vec<NodeId> {
        let mut names = Vec::new();
        if let Some(rule) = self.entry_rule(entry)
            && !rule.binds.is_empty()
        {
            self.collect_names(self.node(entry).core, &rule.binds, &mut names);
        }
        names
    }

    /// Whether what an entry names is declared elsewhere.
    pub(crate) fn is_import(&self, id: NodeId) -> bool {
        self.entry_rule(id).is_some_and(|rule| rule.imports)
    }

    /// A node and what is in it, imports aside.
    pub(crate) fn beside_imports(&self, outer: NodeId) -> impl Iterator<Item = NodeId> {
        let end = self.node(outer).end;
        let first = move |at: NodeId| {
            let next = |id: &NodeId| (*id < end && self.is_import(*id)).then(|| self.node(*id).end);
            std::iter::successors(Some(at), next).last().filter(|id| *id < end)
        };
        std::iter::successors(first(outer), move |id| first(NodeId(id.0 + 1)))
    }

    /// Whether an entry brings names into scope, and just those that one of another tree does.
    pub fn binds_as(&self, entry: NodeId, other: &Tree<'_>, counterpart: NodeId) -> bool {
        fn names<'s>(tree: &Tree<'s>, entry: NodeId) -> Vec<&'s [u8]> {
            let mut names: Vec<&[u8]> = tree.bound_names(entry).into_iter().map(|n| tree.node_text(n)).collect();
            names.sort_unstable();
            names
        }
        let own = names(self, entry);
        !own.is_empty() && own == names(other, counterpart)
    }

    /// The names that definitions and imports in a node declare, each as often as it is declared.
    pub fn declared(&self, outer: NodeId) -> Vec<Span> {
        let inside = || (outer.0..self.node(outer).end.0).map(NodeId);
        let named = inside().filter(|id| self.is_declaration(*id));
        let bound = inside().flat_map(|id| self.bound_names(id));
        // Of a path, the first name is the one that can be used alone.
        let first = |name| {
            let start = self.node(name).span.start;
            let len = self.node_text(name).iter().take_while(|b| is_word(**b)).count();
            Span { start, end: start + len as u32 }
        };
        named.chain(bound).map(first).collect()
    }

    /// The names that a node declares, those of definitions in it included, but not what these declare.
    pub(crate) fn declared_directly(&self, outer: NodeId) -> Vec<Span> {
        let mut names = Vec::new();
        let mut inner: Vec<Span> = Vec::new();
        let mut at = NodeId(outer.0 + 1);
        while at < self.node(outer).end {
            if self.is_definition(at) {
                names.extend(self.key_parts(at).map(|name| self.node(name).span));
                inner.push(self.node(at).span);
                at = self.node(at).end;
            } else {
                at = NodeId(at.0 + 1);
            }
        }
        let direct = |name: &Span| {
            let near = inner.partition_point(|span| span.end <= name.start);
            inner.get(near).is_none_or(|span| name.start < span.start)
        };
        names.extend(self.declared(outer).into_iter().filter(direct));
        names
    }

    /// Whether a node is a statement that defines something.
    pub(crate) fn is_definition(&self, id: NodeId) -> bool {
        self.is_statement(id) && self.entry_rule(id).is_some_and(|rule| rule.unique)
    }

    /// Whether a node is a name that what it stands in declares.
    pub fn is_declaration(&self, id: NodeId) -> bool {
        let node = self.node(id);
        let listed = self.node(node.parent).core == id && node.parent != id;
        let parent = if listed { self.node(node.parent).parent } else { node.parent };
        let declares = |kind| &self.language.rule(kind).declares;
        // What gives a name another one declares only that, and a pattern declares what is in it.
        declares(self.node(parent).kind).contains(&node.field)
            && declares(node.kind).is_empty()
            && self.is_leaf(id)
            && !node.anonymous
    }

    fn collect_names(&self, node: NodeId, binds: &[(Kind, Option<u16>)], names: &mut Vec<NodeId>) {
        match binds.iter().find(|(kind, _)| *kind == self.node(node).kind) {
            Some((_, None)) => names.push(node),
            Some((_, Some(field))) => {
                let within = self.kids(node).iter().copied().filter(|k| self.node(*k).field == *field);
                within.for_each(|k| self.collect_names(k, binds, names));
            }
            None => self.kids(node).iter().for_each(|k| self.collect_names(*k, binds, names)),
        }
    }

    /// Whether `inner` is `outer` or one of its descendants.
    pub fn contains(&self, outer: NodeId, inner: NodeId) -> bool {
        outer <= inner && inner < self.node(outer).end
    }

    /// The parts by which an entry is known.
    pub fn key_parts(&self, entry: NodeId) -> impl Iterator<Item = NodeId> {
        let paths = self.entry_rule(entry).into_iter().flat_map(|rule| &rule.key);
        paths.filter_map(move |path| self.along(self.node(entry).core, path))
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

    /// The definition that a node is in, itself aside.
    pub(crate) fn definition_around(&self, id: NodeId) -> Option<NodeId> {
        self.outward(id).skip(1).find(|outer| self.is_definition(*outer))
    }

    /// Whether a node names something in what stands beside it.
    pub fn is_member(&self, id: NodeId) -> bool {
        let node = self.node(id);
        node.field != 0 && self.language.rule(self.node(node.parent).kind).members.contains(&node.field)
    }

    /// Whether a node is the name of a definition that is a member of what it stands in.
    pub(crate) fn is_owned(&self, id: NodeId) -> bool {
        let definition = self.outward(id).skip(1).find(|outer| self.is_definition(*outer));
        definition.is_some_and(|definition| {
            let holder = self.node(self.node(definition).parent).parent;
            self.language.rule(self.node(holder).kind).owner && self.key_parts(definition).any(|name| name == id)
        })
    }

    /// What a node goes out of, such as the loop around a `break`, if it is such a node.
    pub(crate) fn leaves(&self, id: NodeId) -> Option<NodeId> {
        let rule = &self.language.leaves()[usize::from(self.language.rule(self.node(id).kind).leaves?)];
        let named = self.kids(id).iter().any(|k| rule.unless.contains(&self.node(*k).kind));
        self.outward(id).skip(1).find(|n| rule.ends_at(self.node(*n).kind)).filter(|_| !named)
    }

    /// The names that a leaf is, or that the code in its text has.
    pub(crate) fn names(&self, id: NodeId) -> impl Iterator<Item = Span> {
        let has_code = self.has_code(id);
        let span = self.node(id).span;
        let code = if has_code { names_in_braces(self.node_text(id)) } else { Vec::new() };
        let at = move |at: Range<usize>| Span { start: span.start + at.start as u32, end: span.start + at.end as u32 };
        (self.is_leaf(id) && !has_code).then_some(span).into_iter().chain(code.into_iter().map(at))
    }

    /// Whether a node is a text with code in it.
    fn has_code(&self, id: NodeId) -> bool {
        let rule = self.language.rule(self.node(id).kind);
        let runs = |n: NodeId| self.list_rule(n).is_some_and(|r| r.runs);
        rule.interpolated_in_runs && self.outward(id).skip(1).take(3).any(runs)
            || !rule.interpolated.is_empty() && has_mark(self.node_text(id), &rule.interpolated)
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
