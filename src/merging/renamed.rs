//! Variables that one side gave another name wherever they stood.

use std::rc::Rc;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::restated::is_listed;
use super::{Merger, Side, Versions};
use crate::matching::match_pair;
use crate::syntax::{NodeId, Tree};
use crate::{Version, once};

/// Names, each with the one that stands for it now: the paths of the definitions in which it does.
pub type Renamed = HashMap<(Vec<u8>, Vec<u8>), HashSet<u64>>;

/// What a definition says of a name.
#[derive(Clone, Copy, Default)]
struct Said {
    /// How often it stands there alone, as no member of anything.
    often: u32,
    /// Whether it is declared there.
    declared: bool,
}

/// What is read of the definitions in one.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Inner {
    /// Nothing that hides what is around: of the names that these declare, none.
    Apart,
    /// All.
    Too,
}

/// The names in definitions that were asked for.
pub(super) type Names<'s> = HashMap<NodeId, Rc<InDefinition<'s>>>;

/// What one definition says of each name in it.
#[derive(Default)]
pub(super) struct InDefinition<'s>(HashMap<&'s [u8], Said>);

impl<'s> Merger<'_, 's> {
    /// Whether a side changed nothing in a node but the names of variables, each of which it gave another wherever it
    /// stood in the definition that declares it: an expression with it means what it meant.
    pub(super) fn only_renamed(&self, side: Side, base: NodeId, own: NodeId) -> bool {
        let renamed = &self.renamed[side as usize];
        if renamed.is_empty() {
            return false;
        }
        let (b, n) = (&self.trees.base, self.tree(side));
        let around: Vec<NodeId> = n.outward(own).skip(1).filter(|outer| n.is_definition(*outer)).collect();
        let variable = |x: NodeId, y: NodeId| {
            let leaves = b.is_leaf(x) && n.is_leaf(y) && b.node(x).kind == n.node(y).kind;
            leaves && !b.node(x).anonymous && !b.is_member(x) && !n.is_member(y)
        };
        let inside = |x: NodeId, y: NodeId| {
            let (old, new) = (b.node_text(x), n.node_text(y));
            let Some(paths) = renamed.get(&(old.to_vec(), new.to_vec())).filter(|_| variable(x, y)) else {
                return false;
            };
            let mut renamed_in = around.iter().filter(|definition| paths.contains(&n.definition_path(**definition)));
            renamed_in.any(|definition| self.said_in(side, *definition).of(old).often == 0)
        };
        self.changed_inside(side, base, own, &inside)
    }

    /// Takes what a side listed under another name, with the value of an entry that it took out, for that entry, if the other
    /// side only renamed variables in there: the value means what it meant, and goes under that name.
    pub(super) fn pair_renamed_values(&mut self) {
        let base = &self.trees.base;
        for side in Side::BOTH.into_iter().filter(|side| !self.renamed[*side as usize].is_empty()) {
            let other = side.other();
            let taken_out = |id: &NodeId| is_named(base, *id) && self.to_side(other, *id).is_none();
            let same = |id: &NodeId| self.to_side(side, *id).is_some_and(|own| self.only_renamed(side, *id, own));
            let entries: Vec<NodeId> = base.inside(NodeId::ROOT).filter(taken_out).filter(same).collect();
            if entries.is_empty() {
                continue;
            }
            let tree = self.tree(other);
            let new = |n: &NodeId| is_named(tree, *n) && self.to_base(other, *n).is_none();
            let new = tree.inside(NodeId::ROOT).filter(new);
            let new = once::by_key(new.map(|n| ((tree.node(n).parent, tree.value_hash(n)), n)));
            for entry in entries {
                let Some(list) = self.to_side(other, base.node(entry).parent) else { continue };
                if let Some(found) = new.get(&(list, base.value_hash(entry))).copied().flatten() {
                    match_pair(base, entry, tree, found, &mut self.matched[other as usize]);
                }
            }
        }
    }

    /// What a definition of a side says of names.
    fn said_in(&self, side: Side, definition: NodeId) -> Rc<InDefinition<'s>> {
        let mut names = self.names[side as usize].borrow_mut();
        let read = || Rc::new(InDefinition::read(self.tree(side), definition, Inner::Apart, None));
        names.entry(definition).or_insert_with(read).clone()
    }
}

/// In which definitions a side put a name wherever another stood, of some names, each with another. `definitions` are those
/// that all versions have.
pub(crate) fn renamed(
    trees: &Versions<Tree<'_>>,
    definitions: &[Versions<NodeId>],
    side: Side,
    pairs: &[(&[u8], &[u8])],
) -> Renamed {
    let mut found = Renamed::default();
    let searched = pairs.iter().flat_map(|(old, new)| [*old, *new]).collect();
    for nodes in definitions {
        // What is in it has its own variables, but may have another name in one version, and be no definition of all.
        let read = |inner| Versions::each(|v| InDefinition::read(trees.get(v), *nodes.get(v), inner, Some(&searched)));
        let said = [Inner::Apart, Inner::Too].map(read);
        let here = |(old, new): &&(&[u8], &[u8])| said.iter().any(|said| is_renamed(said, side, old, new));
        for (old, new) in pairs.iter().filter(here) {
            let path = trees.base.definition_path(nodes.base);
            found.entry((old.to_vec(), new.to_vec())).or_default().insert(path);
        }
    }
    found
}

/// Whether a side put a name in wherever another stood in a definition that declares it, and neither base nor the other
/// side has that name there.
fn is_renamed(said: &Versions<InDefinition<'_>>, side: Side, old: &[u8], new: &[u8]) -> bool {
    let (own, other) = (said.get(Version::from(side)), said.get(Version::from(side.other())));
    let (was, is) = (said.base.of(old), own.of(new));
    was.declared
        && is.declared
        && was.often == is.often
        && own.of(old).often == 0
        && said.base.of(new).often == 0
        && other.of(new).often == 0
}

impl<'s> InDefinition<'s> {
    fn of(&self, name: &[u8]) -> Said {
        self.0.get(name).copied().unwrap_or_default()
    }

    /// What it says of all names in it, or of those that are `searched`.
    fn read(tree: &Tree<'s>, definition: NodeId, inner: Inner, searched: Option<&HashSet<&[u8]>>) -> InDefinition<'s> {
        // What is read, from the definition inward: where each ends, and its names.
        let mut open = vec![(tree.node(definition).end, InDefinition::default())];
        for id in tree.inside(definition) {
            while open.len() > 1 && open.last().is_some_and(|(end, _)| *end <= id) {
                InDefinition::close(&mut open);
            }
            let hides = inner == Inner::Apart && tree.language.rule(tree.node(id).kind).hides;
            if hides && !is_own(tree, definition, id) {
                open.push((tree.node(id).end, InDefinition::default()));
            }
            if !tree.is_leaf(id) || tree.node(id).anonymous {
                continue;
            }
            let mut said = tree.said(id).filter(|name| searched.is_none_or(|names| names.contains(name))).peekable();
            if said.peek().is_none() || tree.is_member(id) {
                continue;
            }
            let declared = tree.is_declaration(id);
            // What the innermost is called is known around it.
            let called = declared && open.len() > 1 && tree.language.rule(tree.node(tree.node(id).parent).kind).hides;
            let at = open.len() - 1 - usize::from(called);
            for name in said {
                open[at].1.add(name, Said { often: 1, declared });
            }
        }
        while open.len() > 1 {
            InDefinition::close(&mut open);
        }
        open.pop().map(|(_, names)| names).unwrap_or_default()
    }

    fn add(&mut self, name: &'s [u8], more: Said) {
        let said = self.0.entry(name).or_default();
        said.often += more.often;
        said.declared |= more.declared;
    }

    /// Adds what the innermost of some definitions says to the one around it, but for the names that hide others there.
    fn close(open: &mut Vec<(NodeId, Self)>) {
        let Some((_, inner)) = open.pop() else { return };
        let Some((_, outer)) = open.last_mut() else { return };
        inner.0.into_iter().filter(|(_, said)| !said.declared).for_each(|(name, said)| outer.add(name, said));
    }
}

/// Whether an entry has a name that no other of its list may have, and is no statement.
fn is_named(tree: &Tree<'_>, id: NodeId) -> bool {
    is_listed(tree, id) && tree.entry_rule(id).is_some_and(|rule| rule.unique)
}

/// Whether a node in a definition is what that defines, and no definition in it.
fn is_own(tree: &Tree<'_>, definition: NodeId, id: NodeId) -> bool {
    id == definition || !tree.outward(id).skip(1).take_while(|o| *o != definition).any(|outer| tree.is_block(outer))
}
