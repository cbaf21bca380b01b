//! Statements that one side moved into another definition, or out of one, where the other side's edits of them use what
//! only the old definition declares.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::Merger;
use super::pieces::{Content, Piece};
use crate::grammar::is_word;
use crate::syntax::{NodeId, Tree};
use crate::{Side, Version, Versions};

/// A definition of the merge.
struct Scope {
    /// The node that each version has of it.
    nodes: Versions<Option<NodeId>>,
    /// Whether a version has it elsewhere: not in the definitions that are around it in the merge, or in others too.
    away: Versions<bool>,
}

/// What is known of names, worked out when first asked for.
#[derive(Default)]
struct Names<'s> {
    /// What a side declares in a definition, or in none.
    declared: HashMap<(Side, NodeId), HashSet<&'s [u8]>>,
    /// The names that a definition uses or declares.
    said: HashMap<(Side, NodeId), HashSet<&'s [u8]>>,
}

impl<'s> Merger<'_, 's> {
    /// Puts in dispute the smallest statements of a merge that use, where one side moved them into another definition or
    /// out of one, a name that the other side's edit brought and that only the definition they stood in declares. Answers
    /// which side moved them, and the names.
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
                if scope {
                    scopes.push(self.scope(merged.nodes, scopes.last()));
                }
                let found = merged.items.iter().any(|item| match &item.content {
                    Content::Piece(piece) => self.has_strangers(piece, scopes),
                    Content::Dispute(_) => false,
                });
                scopes.truncate(scopes.len() - usize::from(scope));
                found
            }
        }
    }

    fn is_definition(&self, nodes: &Versions<Option<NodeId>>) -> bool {
        Version::ALL.into_iter().any(|v| nodes.get(v).is_some_and(|n| self.trees.get(v).is_definition(n)))
    }

    /// A definition that stands in another one, or in none.
    fn scope(&self, nodes: Versions<Option<NodeId>>, around: Option<&Scope>) -> Scope {
        let away = |v: Version| {
            let outer = nodes.get(v).map(|node| self.trees.get(v).definition_around(node));
            outer.is_none_or(|outer| outer != around.and_then(|around| *around.nodes.get(v)))
                || around.is_some_and(|around| *around.away.get(v))
        };
        Scope { nodes, away: Versions::each(away) }
    }

    /// The side that a copied node is from, if the definitions around it are not those that the side has it in.
    fn is_stranger(&self, version: Version, node: NodeId, scope: Option<&Scope>) -> Option<Side> {
        let side = Side::BOTH.into_iter().find(|side| Version::from(*side) == version)?;
        let home = match scope {
            Some(scope) => {
                !*scope.away.get(version)
                    && scope.nodes.get(version).is_some_and(|definition| self.tree(side).contains(definition, node))
            }
            None => self.tree(side).definition_around(node).is_none(),
        };
        (!home).then_some(side)
    }

    /// A name in a piece that a side has elsewhere, and that only what is around it there declares, if no statement of the
    /// piece is in dispute for it.
    fn unbound_in(
        &self,
        piece: &mut Piece,
        scopes: &mut Vec<Scope>,
        bound: &HashSet<&'s [u8]>,
        names: &mut Names<'s>,
        used: &mut Vec<(Side, Vec<u8>)>,
    ) -> Option<(Side, &'s [u8])> {
        let merged = match piece {
            Piece::Copy { version, node } => return self.unbound(*version, *node, scopes, bound, names),
            Piece::Text(_) => return None,
            Piece::Merged(merged) => merged,
        };
        let is_scope = self.is_definition(&merged.nodes);
        let mut declared = Vec::new();
        if is_scope {
            scopes.push(self.scope(merged.nodes, scopes.last()));
            self.declared_in(merged, &mut declared);
        }
        let inner: HashSet<&[u8]> = declared.into_iter().collect();
        let bound = if is_scope { &inner } else { bound };
        let mut found = None;
        for item in &mut merged.items {
            let Content::Piece(piece) = &mut item.content else { continue };
            let Some((side, name)) = self.unbound_in(piece, scopes, bound, names, used) else { continue };
            match self.dispute_entry(item, side) {
                true => used.push((side.other(), name.to_vec())),
                false => found = Some((side, name)),
            }
        }
        scopes.truncate(scopes.len() - usize::from(is_scope));
        found
    }

    /// Such a name in text of one version.
    fn unbound(
        &self,
        version: Version,
        node: NodeId,
        scopes: &[Scope],
        bound: &HashSet<&'s [u8]>,
        names: &mut Names<'s>,
    ) -> Option<(Side, &'s [u8])> {
        let side = self.is_stranger(version, node, scopes.last())?;
        let tree = self.tree(side);
        // The definitions that it stands in there, and not here.
        let shared = |n: &NodeId| scopes.iter().any(|scope| *scope.nodes.get(version) == Some(*n));
        let outer = tree.outward(node).skip(1).filter(|n| tree.is_definition(*n));
        let left: Vec<NodeId> = outer.filter(|n| !shared(n)).collect();
        if left.is_empty() {
            return None;
        }
        // What names a definition is no use of that name.
        let inner = tree.inside(node).filter(|n| tree.is_definition(*n));
        let around = scopes.last().and_then(|scope| *scope.nodes.get(version));
        let mut naming: Vec<NodeId> = inner.chain(around).flat_map(|n| tree.key_parts(n)).collect();
        naming.sort();
        let names_one = |id: NodeId| {
            let near = naming.partition_point(|name| *name <= id).checked_sub(1);
            near.is_some_and(|near| tree.contains(naming[near], id))
        };
        let inside = tree.inside(node).filter(|id| tree.is_leaf(*id) && !names_one(*id));
        let used = inside.flat_map(|id| {
            let names =
                (!tree.node(id).anonymous && !tree.is_member(id) && !tree.is_declaration(id)).then(|| tree.names(id));
            names.into_iter().flatten().map(|name| tree.text(name))
        });
        for name in used {
            if bound.contains(name) || !left.iter().any(|n| names.declared(tree, side, *n).contains(name)) {
                continue;
            }
            let there = match scopes.last() {
                Some(scope) => *scope.nodes.get(side.other()),
                None => self.to_base(side, node).and_then(|base| self.to_side(side.other(), base)),
            };
            let said = there.is_some_and(|n| names.said(self.tree(side.other()), side.other(), n).contains(name));
            let known = scopes
                .iter()
                .any(|scope| scope.nodes.get(version).is_some_and(|n| names.declared(tree, side, n).contains(name)));
            let in_itself = || tree.declared(node).into_iter().any(|own| tree.text(own) == name);
            if !said && !known && !names.declared(tree, side, NodeId::ROOT).contains(name) && !in_itself() {
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
        self.said.entry((side, node)).or_insert_with(|| {
            let leaf = |id: &NodeId| tree.is_leaf(*id) && !tree.node(*id).anonymous && !tree.is_member(*id);
            tree.inside(node).filter(leaf).flat_map(|id| tree.said(id)).collect()
        })
    }
}

/// The names that a node declares, without what definitions in it declare.
pub(super) fn declared_in<'s>(tree: &Tree<'s>, node: NodeId) -> HashSet<&'s [u8]> {
    let mut names: HashSet<&[u8]> = tree.declared_directly(node).into_iter().map(|name| tree.text(name)).collect();
    // Of a list that is not looked into, the names are where its entries begin.
    let whole = |part: &&NodeId| tree.is_whole(**part);
    names.extend(tree.head_of(node).iter().filter(whole).flat_map(|part| first_words(tree.node_text(*part))));
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
