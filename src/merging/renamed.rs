//! Variables that one side gave another name wherever they stood.

use std::rc::Rc;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::{Merger, Side, Versions};
use crate::Version;
use crate::syntax::{NodeId, Tree};

/// Names, each with the one that stands for it now.
pub type Renamed = HashSet<(Vec<u8>, Vec<u8>)>;

/// What a definition says of a name.
#[derive(Clone, Copy, Default)]
struct Said {
    /// How often it stands there alone, as no member of anything.
    often: u32,
    /// Whether it is declared there.
    declared: bool,
}

/// The names in definitions that were asked for.
pub(super) type Names<'s> = HashMap<NodeId, Rc<InDefinition<'s>>>;

/// What one definition says of each name in it.
#[derive(Default)]
pub(super) struct InDefinition<'s>(HashMap<&'s [u8], Said>);

impl Merger<'_, '_> {
    /// Whether a side changed nothing in a node but the names of variables, each of which it gave another wherever it
    /// stood in the definition around: an expression with it means what it meant.
    pub(super) fn only_renamed(&self, side: Side, base: NodeId, own: NodeId) -> bool {
        let renamed = &self.renamed[side as usize];
        if renamed.is_empty() {
            return false;
        }
        let (b, n) = (&self.trees.base, self.tree(side));
        let Some(definition) = n.definition_around(own) else { return false };
        let mut names = self.names[side as usize].borrow_mut();
        let said = names.entry(definition).or_insert_with(|| Rc::new(InDefinition::read(n, definition)));
        let variable = |x: NodeId, y: NodeId| {
            let leaves = b.is_leaf(x) && n.is_leaf(y) && b.node(x).kind == n.node(y).kind;
            leaves && !b.node(x).anonymous && !b.is_member(x) && !n.is_member(y)
        };
        let pair = |x: NodeId, y: NodeId| (b.node_text(x).to_vec(), n.node_text(y).to_vec());
        let inside = |x: NodeId, y: NodeId| {
            variable(x, y) && said.of(b.node_text(x)).often == 0 && renamed.contains(&pair(x, y))
        };
        self.changed_inside(side, base, own, &inside)
    }
}

/// Those of some names, each with another, of which a side put the other in wherever the first stood in a definition that
/// declared it, if that is so of all definitions that lost the first and have the other. `definitions` are those that all
/// versions have.
pub(crate) fn renamed(
    trees: &Versions<Tree<'_>>,
    definitions: &[Versions<NodeId>],
    side: Side,
    pairs: &[(&[u8], &[u8])],
) -> Renamed {
    let mut found: Vec<(bool, bool)> = vec![(false, false); pairs.len()];
    for nodes in definitions {
        let said = Versions::each(|v| InDefinition::read(trees.get(v), *nodes.get(v)));
        let (own, other) = (said.get(Version::from(side)), said.get(Version::from(side.other())));
        for ((old, new), (good, bad)) in pairs.iter().zip(&mut found) {
            let (was, is) = (said.base.of(old), own.of(new));
            if was.often == 0 || own.of(old).often > 0 || is.often == 0 {
                continue;
            }
            let fresh = said.base.of(new).often == 0 && other.of(new).often == 0;
            let renamed = was.declared && is.declared && was.often == is.often && fresh;
            (*good, *bad) = (*good || renamed, *bad || !renamed);
        }
    }
    let renamed = pairs.iter().zip(found).filter(|(_, found)| *found == (true, false));
    renamed.map(|((old, new), _)| (old.to_vec(), new.to_vec())).collect()
}

impl<'s> InDefinition<'s> {
    fn of(&self, name: &[u8]) -> Said {
        self.0.get(name).copied().unwrap_or_default()
    }

    fn read(tree: &Tree<'s>, definition: NodeId) -> InDefinition<'s> {
        let mut names = InDefinition::default();
        let inside = tree.inside(definition);
        for id in inside.filter(|id| tree.is_leaf(*id) && !tree.node(*id).anonymous && !tree.is_member(*id)) {
            let declared = tree.is_declaration(id);
            for name in tree.said(id) {
                let said = names.0.entry(name).or_default();
                said.often += 1;
                said.declared |= declared;
            }
        }
        names
    }
}
