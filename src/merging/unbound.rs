//! Statements that one side moved into another definition, where the other side's edits of them use what only the old
//! definition declares.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::Merger;
use super::pieces::{Content, Piece};
use crate::grammar::{is_word, words, words_of_code};
use crate::syntax::{NodeId, Part, Tree};
use crate::{Side, Version, Versions};

/// A definition of the merge, with the node that each version has of it.
type Scope = Versions<Option<NodeId>>;

/// What is known of names, worked out when first asked for.
#[derive(Default)]
struct Names<'s> {
    /// What a side declares in a definition, or in none.
    declared: HashMap<(Side, NodeId), HashSet<&'s [u8]>>,
    /// The words of a definition.
    said: HashMap<(Side, NodeId), HashSet<&'s [u8]>>,
}

impl<'s> Merger<'_, 's> {
    /// Puts in dispute the smallest statements of a merge that use, in a definition that one side moved them into, a
    /// name that the other side's edit brought and that only the definition they stood in declares. Answers which side
    /// moved them, and the names.
    pub(super) fn contest_unbound(&self, piece: &mut Piece) -> Vec<(Side, Vec<u8>)> {
        let mut scopes = Vec::new();
        if !self.has_strangers(piece, &mut scopes) {
            return Vec::new();
        }
        let mut used = Vec::new();
        self.unbound_in(piece, &mut scopes, &HashSet::default(), &mut Names::default(), &mut used);
        used
    }

    /// Whether text of one side stands in a definition of the other in which it has it not.
    fn has_strangers(&self, piece: &Piece, scopes: &mut Vec<Scope>) -> bool {
        match piece {
            Piece::Copy { version, node } => self.is_stranger(*version, *node, scopes.last()).is_some(),
            Piece::Text(_) => false,
            Piece::Merged(merged) => {
                let scope = self.is_definition(&merged.nodes);
                scopes.extend(scope.then_some(merged.nodes));
                let found = merged.items.iter().any(|item| match &item.content {
                    Content::Piece(piece) => self.has_strangers(piece, scopes),
                    Content::Dispute(_) => false,
                });
                scopes.truncate(scopes.len() - usize::from(scope));
                found
            }
        }
    }

    fn is_definition(&self, nodes: &Scope) -> bool {
        Version::ALL.into_iter().any(|v| nodes.get(v).is_some_and(|n| self.trees.get(v).is_definition(n)))
    }

    /// The side that a copied node is from, if the definition around it is not the one that the side has it in.
    fn is_stranger(&self, version: Version, node: NodeId, scope: Option<&Scope>) -> Option<Side> {
        let side = Side::BOTH.into_iter().find(|side| Version::from(*side) == version)?;
        let home = scope?.get(version).is_some_and(|definition| self.tree(side).contains(definition, node));
        (!home).then_some(side)
    }

    fn unbound_in(
        &self,
        piece: &mut Piece,
        scopes: &mut Vec<Scope>,
        bound: &HashSet<&'s [u8]>,
        names: &mut Names<'s>,
        used: &mut Vec<(Side, Vec<u8>)>,
    ) {
        let own = match piece {
            Piece::Merged(merged) if self.is_definition(&merged.nodes) => Some(merged.nodes),
            _ => None,
        };
        let mut declared = Vec::new();
        if own.is_some() {
            self.declared(piece, &mut declared);
        }
        let inner: HashSet<&[u8]> = declared.into_iter().collect();
        let bound = if own.is_some() { &inner } else { bound };
        scopes.extend(own);
        if let Piece::Merged(merged) = piece {
            for item in &mut merged.items {
                let Content::Piece(piece) = &mut item.content else { continue };
                self.unbound_in(piece, scopes, bound, names, used);
                if item.part == Part::Entry
                    && let Some((side, name)) = self.unbound(piece, scopes, bound, names)
                    && let Some(sides) = self.on_its_own_line(item, side)
                {
                    item.content = Content::Dispute(sides);
                    used.push((side.other(), name.to_vec()));
                }
            }
        }
        scopes.truncate(scopes.len() - usize::from(own.is_some()));
    }

    /// A name in a piece that a side has elsewhere, and that only what is around it there declares; disputes and
    /// definitions aside.
    fn unbound(
        &self,
        piece: &Piece,
        scopes: &[Scope],
        bound: &HashSet<&'s [u8]>,
        names: &mut Names<'s>,
    ) -> Option<(Side, &'s [u8])> {
        let (version, node) = match piece {
            Piece::Copy { version, node } => (*version, *node),
            Piece::Text(_) => return None,
            Piece::Merged(merged) if self.is_definition(&merged.nodes) => return None,
            Piece::Merged(merged) => {
                return merged.items.iter().find_map(|item| match &item.content {
                    Content::Piece(piece) => self.unbound(piece, scopes, bound, names),
                    Content::Dispute(_) => None,
                });
            }
        };
        let side = self.is_stranger(version, node, scopes.last())?;
        let tree = self.tree(side);
        // The definitions that it stands in there, and not here.
        let shared = |n: NodeId| scopes.iter().any(|scope| *scope.get(version) == Some(n));
        let outer = std::iter::successors(Some(node), |n| (*n != NodeId::ROOT).then(|| tree.node(*n).parent));
        let left: Vec<NodeId> = outer.skip(1).take_while(|n| !shared(*n)).filter(|n| tree.is_definition(*n)).collect();
        let inside = (node.0..tree.node(node).end.0).map(NodeId).filter(|id| tree.is_leaf(*id));
        let used = inside.flat_map(|id| {
            let marks = &tree.language.rule(tree.node(id).kind).interpolated;
            match tree.node(id).anonymous || tree.is_member(id) || tree.is_declaration(id) {
                true => Vec::new(),
                false if marks.is_empty() => vec![tree.node_text(id)],
                false => words_of_code(tree.node_text(id), marks),
            }
        });
        for name in used {
            if bound.contains(name) || !left.iter().any(|n| names.declared(tree, side, *n).contains(name)) {
                continue;
            }
            let there = scopes.last().and_then(|scope| *scope.get(side.other()));
            let said = there.is_some_and(|n| names.said(self.tree(side.other()), side.other(), n).contains(name));
            let known = scopes
                .iter()
                .any(|scope| scope.get(version).is_some_and(|n| names.declared(tree, side, n).contains(name)));
            if !said && !known && !names.declared(tree, side, NodeId::ROOT).contains(name) {
                return Some((side, name));
            }
        }
        None
    }
}

impl<'s> Names<'s> {
    fn declared(&mut self, tree: &Tree<'s>, side: Side, node: NodeId) -> &HashSet<&'s [u8]> {
        self.declared.entry((side, node)).or_insert_with(|| declared_in(tree, node))
    }

    fn said(&mut self, tree: &Tree<'s>, side: Side, node: NodeId) -> &HashSet<&'s [u8]> {
        self.said.entry((side, node)).or_insert_with(|| words(tree.node_text(node)).collect())
    }
}

/// The names that a node declares, without what definitions in it declare.
fn declared_in<'s>(tree: &Tree<'s>, node: NodeId) -> HashSet<&'s [u8]> {
    let mut names: HashSet<&[u8]> = tree.declared_directly(node).into_iter().map(|name| tree.text(name)).collect();
    // Of a list that is not looked into, the names are where its entries begin.
    let core = tree.node(node).core;
    let head = if tree.block(core).is_some() { tree.head(core) } else { &[] };
    let whole = |part: &&NodeId| tree.tokens(**part).iter().any(|token| token.whole);
    names.extend(head.iter().filter(whole).flat_map(|part| first_words(tree.node_text(*part))));
    names
}

/// The first word of each entry of a list in brackets.
fn first_words(list: &[u8]) -> Vec<&[u8]> {
    let mut found = Vec::new();
    let (mut depth, mut wanted, mut at) = (0usize, false, 0);
    while at < list.len() {
        let word = &list[at..at + list[at..].iter().take_while(|b| is_word(**b)).count()];
        if !word.is_empty() && wanted && depth == 1 {
            found.push(word);
            wanted = false;
        }
        match list[at] {
            b'(' | b'[' | b'{' => {
                depth += 1;
                wanted |= depth == 1;
            }
            b')' | b']' | b'}' => depth = depth.saturating_sub(1),
            b',' if depth == 1 => wanted = true,
            _ => {}
        }
        at += word.len().max(1);
    }
    found
}
