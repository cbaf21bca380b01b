//! What is listed by its path, in lists that may stand in one another: `use tide::{Gauge, level::High};`, or the keys of
//! tables. The same set of paths may be laid out in several ways.

use super::tree::{NodeId, Part, Tree};
use super::{hash_bytes, mix};
use crate::grammar::{Defines, PathRules, Step};

/// A list that something stands in.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Holder {
    /// The list.
    pub list: NodeId,
    /// Its entry in which that stands.
    pub entry: NodeId,
    /// How many parts of the path stand before all in the list.
    pub before: usize,
}

/// Something listed by its path.
#[derive(Debug)]
pub(crate) struct Listed {
    /// The parts of its path, as written.
    pub path: Vec<String>,
    /// A hash of where the statement stands, by the keys around it.
    pub place: u64,
    /// A hash of where the statement stands, by the keys around it, and of all in it that is no path.
    pub frame: u64,
    /// What is in its statement besides paths, comments aside.
    pub apart: Vec<NodeId>,
    /// The lists that it stands in, from that of the statement to the innermost.
    pub holders: Vec<Holder>,
    /// A hash of those lists, by their kinds and what stands before them.
    pub layout: u64,
    /// What names it in the innermost list.
    pub name: NodeId,
    /// Its value, if it has one.
    pub value: Option<NodeId>,
    /// Whether the value stands in a table's place.
    pub short: bool,
}

impl Listed {
    /// A hash of the path and the frame: what is listed under it is the same, however it is laid out.
    pub(crate) fn id(&self) -> u64 {
        path_hash(self.frame, &self.path)
    }

    /// The same of the path without its last part.
    pub(crate) fn home(&self) -> u64 {
        path_hash(self.frame, &self.path[..self.path.len() - 1])
    }

    /// The innermost list.
    pub(crate) fn holder(&self) -> Holder {
        self.holders[self.holders.len() - 1]
    }
}

/// A hash of a path in a frame.
pub(crate) fn path_hash(frame: u64, path: &[String]) -> u64 {
    path.iter().fold(frame, |hash, part| mix(hash, hash_bytes(17, part.trim_matches(['"', '\'']).as_bytes())))
}

/// A hash of a text however it is laid out on one line or more. The hashes of a tree will not do where two trees are
/// compared: in the other one the same text may not have been looked into.
pub(crate) fn bare_hash(text: &[u8]) -> u64 {
    let bare: Vec<u8> = text.iter().copied().filter(|b| !b.is_ascii_whitespace() && *b != b',').collect();
    hash_bytes(19, &bare)
}

/// All that a tree lists by its path, in the order of the text.
pub(crate) fn listed(tree: &Tree<'_>) -> Vec<Listed> {
    let Some(rules) = tree.language.paths() else { return Vec::new() };
    let mut reader = Reader { tree, rules, found: Vec::new() };
    let mut at = NodeId::ROOT;
    while at.index() < tree.len() {
        let node = tree.node(at);
        let field = rules.entries.iter().find(|(kind, _)| node.part == Part::Entry && *kind == tree.core_kind(at));
        at = match field {
            Some((_, field)) => {
                reader.statement(at, *field);
                node.end
            }
            None => NodeId(at.0 + 1),
        };
    }
    reader.found
}

/// What all that is listed in one statement has in common.
struct Statement {
    place: u64,
    frame: u64,
    /// What its path begins with only to say in what it stands.
    around: Vec<String>,
    apart: Vec<NodeId>,
}

/// What one statement lists by its path, if it is nothing but paths.
pub(crate) fn listed_in(tree: &Tree<'_>, entry: NodeId) -> Vec<Listed> {
    let Some(rules) = tree.language.paths() else { return Vec::new() };
    let mut reader = Reader { tree, rules, found: Vec::new() };
    if let Some((_, field)) = rules.entries.iter().find(|(kind, _)| *kind == tree.core_kind(entry)) {
        reader.statement(entry, *field);
    }
    reader.found
}

struct Reader<'r, 't, 's> {
    tree: &'t Tree<'s>,
    rules: &'r PathRules,
    found: Vec<Listed>,
}

impl Reader<'_, '_, '_> {
    fn statement(&mut self, entry: NodeId, field: Option<u16>) {
        let tree = self.tree;
        let core = tree.node(entry).core;
        let mut frame = 18;
        let mut at = tree.node(entry).parent;
        while at != NodeId::ROOT {
            frame = mix(frame, tree.node(at).key);
            at = tree.node(at).parent;
        }
        let place = frame;
        let mut root = core;
        let mut apart = Vec::new();
        if let Some(field) = field {
            let Some(held) = tree.kids(core).iter().copied().find(|kid| tree.node(*kid).field == field) else { return };
            root = held;
            // What is in words is the same however it is spaced, and comments say nothing of what is listed.
            let beside = tree.kids(entry).iter().filter(|kid| **kid != core).chain(tree.kids(core));
            let said = beside.filter(|kid| **kid != root && !tree.language.rule(tree.node(**kid).kind).comment);
            apart = said.copied().collect();
            frame = apart.iter().fold(frame, |hash, kid| mix(hash, bare_hash(tree.node_text(*kid))));
        }
        let holder = Holder { list: tree.node(entry).parent, entry, before: 0 };
        let around = self.named_around(entry);
        let statement = Statement { place, frame, around, apart };
        self.node(root, &[], &statement, &[holder], frame);
    }

    /// The key of what holds a table only because the table's header begins with it: the rest of the header says where in
    /// there the table is (TOML v1.0.0, "Array of Tables").
    fn named_around(&self, entry: NodeId) -> Vec<String> {
        let tree = self.tree;
        if tree.entry_rule(entry).is_none_or(|rule| rule.defines != Some(Defines::Table)) {
            return Vec::new();
        }
        let holder = tree.outward(entry).skip(1).find(|n| tree.entry_rule(*n).is_some_and(|rule| rule.holds_longer));
        let key = holder.and_then(|holder| tree.key_parts(holder).next());
        key.map_or_else(Vec::new, |key| self.parts(key))
    }

    /// Reads what is listed in a node. Bounded by how deep a text may nest.
    fn node(&mut self, node: NodeId, path: &[String], statement: &Statement, holders: &[Holder], layout: u64) {
        let tree = self.tree;
        let before = self.before(node);
        let mut path = path.to_vec();
        path.extend(before.into_iter().flat_map(|part| self.parts(part)));
        if holders.len() == 1 && path.len() > statement.around.len() && path.starts_with(&statement.around) {
            path.drain(..statement.around.len());
        }
        let holds = |n: &NodeId| {
            let entries = tree.part(*n, Part::Entry);
            self.rules.lists.contains(&tree.node(*n).kind) && entries.iter().any(|e| !tree.is_comment(*e))
        };
        let list = std::iter::once(node).chain(tree.kids(node).iter().copied()).find(holds);
        if let Some(list) = list {
            let layout = mix(path_hash(layout, &path), u64::from(tree.node(list).kind.0));
            for entry in tree.part(list, Part::Entry).iter().filter(|e| !tree.is_comment(**e)) {
                let holder = Holder { list, entry: *entry, before: path.len() };
                self.node(tree.node(*entry).core, &path, statement, &[holders, &[holder]].concat(), layout);
            }
            return;
        }
        if self.rules.lists.contains(&tree.node(node).kind) {
            return;
        }
        let value = before.and_then(|_| tree.kids(node).last().copied());
        let table = value.is_some_and(|value| self.rules.lists.contains(&tree.node(value).kind));
        let short = tree.language.descriptor.paths.as_ref().and_then(|paths| paths.short.as_ref());
        let short = short.filter(|short| {
            let around = path.len().checked_sub(2).map(|i| &path[i]);
            value.is_some() && !table && around.is_some_and(|name| short.under.contains(name))
        });
        path.extend(short.map(|short| short.part.clone()));
        let name = before.unwrap_or(node);
        if before.is_none() {
            path.extend(self.parts(node));
        }
        let layout = mix(layout, u64::from(short.is_some()));
        self.found.push(Listed {
            path,
            place: statement.place,
            frame: statement.frame,
            apart: statement.apart.clone(),
            holders: holders.to_vec(),
            layout,
            name,
            value: value.filter(|value| *value != name),
            short: short.is_some(),
        });
    }

    /// The part of a node that stands before all that is listed in it.
    fn before(&self, node: NodeId) -> Option<NodeId> {
        let tree = self.tree;
        let steps = self.rules.before.iter().filter(|(kind, _)| *kind == tree.node(node).kind);
        steps.flat_map(|(_, step)| tree.kids(node).iter().map(move |kid| (step, *kid))).find_map(|(step, kid)| {
            let is_it = match step {
                Step::Field(field) => tree.node(kid).field == *field,
                Step::Kind(kind) => tree.node(kid).kind == *kind,
            };
            is_it.then_some(kid)
        })
    }

    /// The parts of a path, as written. What stands between quotes is one.
    fn parts(&self, node: NodeId) -> Vec<String> {
        let text = String::from_utf8_lossy(self.tree.node_text(node)).into_owned();
        let Some(sign) = self.tree.language.descriptor.paths.as_ref().map(|paths| paths.sign.as_str()) else {
            return vec![text];
        };
        let mut parts = vec![String::new()];
        let (mut rest, mut quote) = (text.as_str(), None);
        while let Some(c) = rest.chars().next() {
            if quote.is_none()
                && let Some(behind) = rest.strip_prefix(sign)
            {
                parts.push(String::new());
                rest = behind;
                continue;
            }
            match (quote, c) {
                (None, '"' | '\'') => quote = Some(c),
                (Some(q), c) if q == c => quote = None,
                _ => {}
            }
            let last = parts.last_mut().expect("one at least");
            // However a path is spread over lines, it is the same.
            if !c.is_whitespace() || quote.is_some() {
                last.push(c);
            } else if !last.ends_with(' ') {
                last.push(' ');
            }
            rest = &rest[c.len_utf8()..];
        }
        parts.iter().map(|part| part.trim().to_owned()).collect()
    }
}
