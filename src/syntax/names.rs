//! The names in a tree: what declares them, and what they stand for.

use std::ops::Range;

use gix::bstr::ByteSlice;

use super::mix;
use super::tree::{NodeId, Span, Tree};
use crate::grammar::{Kind, has_mark, is_word, members_in_braces, names_in_braces, words};

impl<'s> Tree<'s> {
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

    /// Whether it imports what it does not name: `from tides import *`, or `use tide::{self, *}`.
    pub(crate) fn imports_anything(&self, id: NodeId) -> bool {
        let Some(rule) = self.entry_rule(id).filter(|rule| rule.imports && !self.is_whole(id)) else { return false };
        let unnamed = |inner: NodeId| {
            let kind = self.node(inner).kind;
            let field = rule.binds.iter().find(|(binds, _)| *binds == kind).and_then(|(_, field)| *field);
            field.is_some_and(|field| self.kids(inner).iter().all(|kid| self.node(*kid).field != field))
        };
        self.declared(id).is_empty() || self.inside(id).any(unnamed)
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
        let own = self.brought(entry);
        !own.is_empty() && own == other.brought(counterpart)
    }

    /// The names that an entry brings into scope, in their order: of an import, all that it declares.
    pub(crate) fn brought(&self, entry: NodeId) -> Vec<&'s [u8]> {
        let spans = match self.is_import(entry) {
            true => self.declared(entry),
            false => self.bound_names(entry).into_iter().map(|name| self.node(name).span).collect(),
        };
        let mut names: Vec<&[u8]> = spans.into_iter().map(|span| self.text(span)).collect();
        names.sort_unstable();
        names
    }

    /// The names that definitions and imports in a node declare, each as often as it is declared.
    pub fn declared(&self, outer: NodeId) -> Vec<Span> {
        self.declaring(outer).into_iter().map(|name| self.first_of_path(name)).collect()
    }

    /// The same without those that only begin a path: what else is brought in by such a path is, with it.
    pub(crate) fn declared_alone(&self, outer: NodeId) -> Vec<Span> {
        let spans = self.declaring(outer).into_iter().map(|name| (self.node(name).span, self.first_of_path(name)));
        spans.filter(|(all, first)| all == first).map(|(_, first)| first).collect()
    }

    fn declaring(&self, outer: NodeId) -> Vec<NodeId> {
        let named = self.inside(outer).filter(|id| self.is_declaration(*id));
        let bound = self.inside(outer).flat_map(|id| self.bound_names(id));
        named.chain(bound).collect()
    }

    /// Of a path, the first name: the one that can be used alone.
    pub(crate) fn first_of_path(&self, name: NodeId) -> Span {
        let start = self.node(name).span.start;
        let len = self.node_text(name).iter().take_while(|b| is_word(**b)).count();
        Span { start, end: start + len as u32 }
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
        let comment = self.language.rule(self.node(id).kind).comment;
        self.is_leaf(id) && !self.node(id).anonymous && !comment && self.stands_declared(id)
    }

    /// Whether a node stands where what it stands in declares a name.
    fn stands_declared(&self, id: NodeId) -> bool {
        let node = self.node(id);
        let listed = self.node(node.parent).core == id && node.parent != id;
        let parent = if listed { self.node(node.parent).parent } else { node.parent };
        let declares = |kind| &self.language.rule(kind).declares;
        // What gives a name another one declares only that, and a pattern declares what is in it.
        declares(self.node(parent).kind).contains(&node.field) && declares(node.kind).is_empty()
    }

    /// In a method, the object with a member of it that a leaf names, as in `self.level`, and whether that is given a value
    /// there. What else has members is what other files make of it.
    pub(crate) fn member_path(&self, leaf: NodeId) -> Option<(&'s [u8], bool)> {
        let around = self.node(leaf).parent;
        if self.node(around).kind == Kind::RUN {
            return self.member_path_in_tokens(leaf).map(|path| (path, false));
        }
        let [owner, .., last] = self.kids(around) else { return None };
        let named = *last == leaf && self.is_leaf(leaf) && self.is_member(leaf) && self.is_leaf(*owner);
        (named && self.is_itself(*owner, self.node_text(*owner)))
            .then(|| (self.node_text(around), self.stands_declared(around)))
    }

    /// All such members that a leaf names, or that the code in its text has: each with what it is a member of, as written,
    /// by itself, and whether it is given a value there.
    pub(crate) fn member_paths(&self, leaf: NodeId) -> Vec<(&'s [u8], Span, bool)> {
        if let Some((path, set)) = self.member_path(leaf) {
            return vec![(path, self.node(leaf).span, set)];
        }
        let of_itself = |member: Span| {
            let before = &self.source[..member.start as usize - 1];
            let object = before.iter().rev().take_while(|byte| is_word(**byte)).count();
            let path = Span { start: member.start - 1 - object as u32, end: member.end };
            let above = &before[..before.len() - object];
            let is_first = !above.ends_with(b".") && self.is_itself(leaf, &before[before.len() - object..]);
            is_first.then(|| (self.text(path), member, false))
        };
        self.members_in_text(leaf).filter_map(of_itself).collect()
    }

    /// The members that the code in a text asks something for.
    pub(crate) fn members_in_text(&self, leaf: NodeId) -> impl Iterator<Item = Span> {
        let start = self.node(leaf).span.start;
        let code = if self.has_code(leaf) { members_in_braces(self.node_text(leaf)) } else { Vec::new() };
        code.into_iter().map(move |at| Span { start: start + at.start as u32, end: start + at.end as u32 })
    }

    /// The member of the object that a leaf names which is one of a run of tokens without structure, as it is written.
    fn member_path_in_tokens(&self, leaf: NodeId) -> Option<&'s [u8]> {
        let node = self.node(leaf);
        let [above @ .., owner, dot] = &self.kids(node.parent)[..node.position as usize] else { return None };
        let is_dot = |token: &NodeId| self.node_text(*token) == b".";
        let is_path = self.is_leaf(leaf) && !node.anonymous && is_dot(dot) && self.is_leaf(*owner);
        let span = Span { start: self.node(*owner).span.start, end: node.span.end };
        (is_path && !above.last().is_some_and(is_dot) && self.is_itself(*owner, self.node_text(*owner)))
            .then(|| self.text(span))
    }

    /// Whether a name that stands somewhere is the object in a method: a word for that, or the first name that the nearest
    /// definition around it declares that is a member of what it stands in.
    fn is_itself(&self, at: NodeId, name: &[u8]) -> bool {
        if self.language.rule(self.node(at).kind).itself {
            return true;
        }
        let mut around = self.outward(at).filter(|outer| self.is_definition(*outer));
        let Some(method) = around.find(|outer| self.stands_in_an_owner(*outer)) else { return false };
        let declared = |id: NodeId| {
            let whole = self.is_leaf(id) && self.is_whole(id);
            let all = whole && !self.language.rule(self.node(id).kind).declares.is_empty();
            let one = self.is_declaration(id) && self.key_parts(method).all(|key| key != id);
            let text = self.node_text(id);
            // A comment may stand before it.
            let comment = self.language.outline().map_or("", |outline| &outline.comment);
            let code = |line: &'s [u8]| words(&line[..line.find(comment).filter(|_| all).unwrap_or(line.len())]).next();
            (one || all).then(|| text.lines().find_map(code)).flatten()
        };
        self.head_of(method).iter().flat_map(|part| self.inside(*part)).find_map(declared) == Some(name)
    }

    /// What a declaration declares its name in or behind: the nearest statement, or what has a list of statements.
    pub(crate) fn holder(&self, declaration: NodeId) -> NodeId {
        let holds = |n: &NodeId| self.is_statement(*n) || self.block(*n).is_some();
        self.outward(declaration).skip(1).find(holds).unwrap_or(NodeId::ROOT)
    }

    /// What a definition has before its statements.
    pub(crate) fn head_of(&self, definition: NodeId) -> &[NodeId] {
        // What leads to it stands beside it in one node.
        let core = self.node(definition).core;
        let holder = std::iter::once(&core).chain(self.kids(core)).find(|n| self.block(**n).is_some());
        holder.map_or(&[], |holder| self.head(*holder))
    }

    /// The names to which something in a node gives another value.
    pub(crate) fn rebound(&self, outer: NodeId) -> impl Iterator<Item = Span> {
        let rebound = |id: &NodeId| {
            let node = self.node(*id);
            self.language.rule(self.node(node.parent).kind).rebinds.contains(&node.field) && self.is_leaf(*id)
        };
        self.inside(outer).filter(rebound).map(|id| self.node(id).span)
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

    /// The parts by which an entry is known.
    pub fn key_parts(&self, entry: NodeId) -> impl Iterator<Item = NodeId> {
        let paths = self.entry_rule(entry).into_iter().flat_map(|rule| &rule.key);
        paths.filter_map(move |path| self.along(self.node(entry).core, path))
    }

    /// A hash of what an entry lists, its name aside.
    pub(crate) fn value_hash(&self, entry: NodeId) -> u64 {
        let kids = self.kids(self.node(entry).core).iter();
        let beside = kids.filter(|kid| self.key_parts(entry).all(|key| key != **kid));
        beside.fold(0, |hash, kid| mix(hash, self.node(*kid).hash))
    }

    /// What the key of an entry says, but for what its names are looked up in: of `Level::High(mark)`, `High(mark)`.
    /// Nothing, if none of its names is looked up in anything.
    pub(crate) fn key_without_owners(&self, entry: NodeId) -> Option<Vec<&[u8]>> {
        let (mut said, mut owned) = (Vec::new(), false);
        let mut left: Vec<NodeId> = self.key_parts(entry).collect();
        left.reverse();
        while let Some(node) = left.pop() {
            let kids = self.kids(node);
            if let Some(member) = kids.iter().find(|kid| self.is_member(**kid)) {
                owned = true;
                left.push(*member);
            } else if kids.is_empty() {
                said.push(self.node_text(node));
            } else {
                left.extend(kids.iter().rev());
            }
        }
        owned.then_some(said)
    }

    /// The definition that a node is in, itself aside.
    pub(crate) fn definition_around(&self, id: NodeId) -> Option<NodeId> {
        self.outward(id).skip(1).find(|outer| self.is_definition(*outer))
    }

    /// A hash of the keys of a definition and of those around it.
    pub(crate) fn definition_path(&self, id: NodeId) -> u64 {
        let around = self.outward(id).filter(|outer| self.is_definition(*outer));
        around.fold(0, |path, outer| mix(path, self.node(outer).key))
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
            self.stands_in_an_owner(definition) && self.key_parts(definition).any(|name| name == id)
        })
    }

    /// Whether an entry stands in what owns what is defined in it.
    fn stands_in_an_owner(&self, entry: NodeId) -> bool {
        self.owner_of(entry).is_some()
    }

    /// What owns what is defined in it, if an entry stands right in that.
    pub(crate) fn owner_of(&self, entry: NodeId) -> Option<NodeId> {
        let holder = self.node(self.node(entry).parent).parent;
        self.language.rule(self.node(holder).kind).owner.then_some(holder)
    }

    /// Whether an entry gives a name its value in a file or in what owns what is defined in it, where that is what the name
    /// stands for: in a function, it may well get others.
    pub(crate) fn sets_for_good(&self, entry: NodeId) -> bool {
        let node = self.node(entry);
        node.key != 0
            && self.entry_rule(entry).is_some_and(|rule| !rule.key.is_empty() && !rule.free && !rule.unique)
            && self.list_rule(node.parent).is_some_and(|rule| rule.lines)
            && (node.parent == NodeId::ROOT || self.stands_in_an_owner(entry))
            && self.key_parts(entry).all(|name| self.is_declaration(name))
    }

    /// The names that a leaf is, or that the code in its text has.
    pub(crate) fn names(&self, id: NodeId) -> impl Iterator<Item = Span> {
        let has_code = self.has_code(id);
        let span = self.node(id).span;
        let code = if has_code { names_in_braces(self.node_text(id)) } else { Vec::new() };
        let at = move |at: Range<usize>| Span { start: span.start + at.start as u32, end: span.start + at.end as u32 };
        (self.is_leaf(id) && !has_code).then_some(span).into_iter().chain(code.into_iter().map(at))
    }

    /// The names that a leaf is, or that the code in its text has; of a list that was not looked into, all its words.
    pub(crate) fn said(&self, leaf: NodeId) -> impl Iterator<Item = &'s [u8]> {
        let whole = self.is_whole(leaf);
        let names = self.names(leaf).filter(move |_| !whole).map(|name| self.text(name));
        words(self.node_text(leaf)).filter(move |_| whole).chain(names)
    }

    /// Whether a node is a text with code in it.
    pub(crate) fn has_code(&self, id: NodeId) -> bool {
        let rule = self.language.rule(self.node(id).kind);
        let runs = |n: NodeId| self.list_rule(n).is_some_and(|r| r.runs);
        rule.interpolated_in_runs && self.outward(id).skip(1).take(3).any(runs)
            || !rule.interpolated.is_empty() && has_mark(self.node_text(id), &rule.interpolated)
    }
}
