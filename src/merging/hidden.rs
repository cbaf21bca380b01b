//! Names that would be others in the merge: one side put a function around statements, and the other declares a name
//! there that stands outside of it too.

use rustc_hash::FxHashSet as HashSet;

use super::pieces::{Content, Piece};
use super::unbound::declared_in;
use super::{Merger, Side, Version, Versions};
use crate::syntax::{NodeId, Tree};

impl<'s> Merger<'_, 's> {
    /// Puts in dispute the smallest statements of a merge that declare a name in what hides it from what is around, where
    /// for the side that wrote them it is the name that is declared there. Answers which side hides them, and the names.
    pub(super) fn contest_hidden(&self, piece: &mut Piece) -> Vec<(Side, Vec<u8>)> {
        let mut names = Vec::new();
        self.hidden(piece, &mut Vec::new(), &mut names);
        names
    }

    /// The side whose text in a piece declares such a name, and the name; in dispute, if a statement of the piece holds
    /// it. `around` are the nodes around the piece in which names are hidden.
    fn hidden(
        &self,
        piece: &mut Piece,
        around: &mut Vec<Versions<Option<NodeId>>>,
        names: &mut Vec<(Side, Vec<u8>)>,
    ) -> Option<(Side, &'s [u8])> {
        match piece {
            Piece::Copy { version, node } => {
                let side = Side::BOTH.into_iter().find(|side| Version::from(*side) == *version)?;
                self.declares_hidden(side, *node, around.last()?).map(|name| (side, name))
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
                    let Some((side, name)) = self.hidden(piece, around, names) else { continue };
                    match self.dispute_entry(item, side) {
                        true => names.push((side.other(), name.to_vec())),
                        false => found = Some((side, name)),
                    }
                }
                if hides {
                    around.pop();
                }
                found
            }
        }
    }

    /// A name that a node of one side declares anew in `scope`, which only the other side has, and which does not
    /// declare it, but what is around that does.
    fn declares_hidden(&self, side: Side, node: NodeId, scope: &Versions<Option<NodeId>>) -> Option<&'s [u8]> {
        let (None, Some(inner)) = (*scope.get(side), *scope.get(side.other())) else { return None };
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
            return None;
        }
        let outer = there.outward(inner).skip(1).find(|n| hides(there, *n))?;
        let [inside, outside] = [inner, outer].map(|node| declared_in(there, node));
        names.into_iter().filter(|name| outside.contains(name) && !inside.contains(name)).min()
    }
}

/// Whether what is declared in a node is known in all of it, and only there.
fn hides(tree: &Tree<'_>, node: NodeId) -> bool {
    tree.language.rule(tree.node(node).kind).hides
}
