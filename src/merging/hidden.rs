//! Names that would be others in the merge: one side put a function around statements, and the other declares a name
//! there that stands outside of it too.

use rustc_hash::FxHashSet as HashSet;

use super::pieces::{Content, Piece};
use super::{Merger, Side, Version, Versions};
use crate::syntax::{NodeId, Tree};

impl<'s> Merger<'_, 's> {
    /// Puts in dispute the smallest statements of a merge that declare a name in what hides it from what is around, where
    /// for the side that wrote them it is the name that is declared there.
    pub(super) fn contest_hidden(&self, piece: &mut Piece) {
        self.hidden(piece, &mut Vec::new());
    }

    /// The side whose text in a piece declares such a name; in dispute, if a statement of the piece holds it. `around` are
    /// the nodes around the piece in which names are hidden.
    fn hidden(&self, piece: &mut Piece, around: &mut Vec<Versions<Option<NodeId>>>) -> Option<Side> {
        match piece {
            Piece::Copy { version, node } => {
                let side = Side::BOTH.into_iter().find(|side| Version::from(*side) == *version)?;
                self.declares_hidden(side, *node, around.last()?).then_some(side)
            }
            Piece::Text(_) => None,
            Piece::Merged(merged) => {
                let nodes = merged.nodes;
                let hides = Side::BOTH.into_iter().any(|s| nodes.get(s).is_some_and(|n| hides(self.tree(s), n)));
                if hides {
                    around.push(nodes);
                }
                let mut found = None;
                for item in &mut merged.items {
                    let Content::Piece(piece) = &mut item.content else { continue };
                    let Some(side) = self.hidden(piece, around) else { continue };
                    if !self.dispute_entry(item, side) {
                        found = Some(side);
                    }
                }
                if hides {
                    around.pop();
                }
                found
            }
        }
    }

    /// Whether a node of one side declares a name anew in `scope`, which only the other side has, and which does not
    /// declare it, but what is around that does.
    fn declares_hidden(&self, side: Side, node: NodeId, scope: &Versions<Option<NodeId>>) -> bool {
        let (None, Some(inner)) = (*scope.get(side), *scope.get(side.other())) else { return false };
        let (own, there) = (self.tree(side), self.tree(side.other()));
        let texts = |tree: &Tree<'s>, names: Vec<_>| names.into_iter().map(|n| tree.text(n)).collect::<HashSet<_>>();
        let named =
            |tree: &Tree<'s>, node| texts(tree, tree.declared(node).into_iter().chain(tree.rebound(node)).collect());
        let mut names = named(own, node);
        if let Some(base) = self.to_base(side, node) {
            let before = named(&self.trees.base, base);
            names.retain(|name| !before.contains(name));
        }
        if names.is_empty() {
            return false;
        }
        let Some(outer) = there.outward(inner).skip(1).find(|n| hides(there, *n)) else { return false };
        let [inside, outside] = [inner, outer].map(|node| texts(there, there.declared_directly(node)));
        names.iter().any(|name| outside.contains(name) && !inside.contains(name))
    }
}

/// Whether what is declared in a node is known in all of it, and only there.
fn hides(tree: &Tree<'_>, node: NodeId) -> bool {
    tree.language.rule(tree.node(node).kind).hides
}
