//! What goes out of something around it, such as out of a loop or a function, and would go out of something else in the
//! merge, or bring out of it what that does not give any more.

use super::Merger;
use super::pieces::{Content, Piece};
use crate::grammar::outer_name;
use crate::syntax::{NodeId, Tree};
use crate::{Side, Version, Versions};

impl<'s> Merger<'_, 's> {
    /// Puts in dispute the smallest statements of a merge that go out of something else there than on the side that
    /// wrote them: one side put something around them, or took it away, and the other did not know of it. So are those
    /// that bring out of something what the other side made it not give any more.
    pub(super) fn contest_leaving(&self, piece: &mut Piece) {
        self.astray(piece, &mut Vec::new());
    }

    /// The side whose text in a piece goes astray; in dispute, if a statement of the piece holds it. `around` are the
    /// nodes around the piece that something may go out of.
    fn astray(&self, piece: &mut Piece, around: &mut Vec<Versions<Option<NodeId>>>) -> Option<Side> {
        match piece {
            // What something outermost holds goes out of that, or of nothing.
            Piece::Copy { .. } if around.is_empty() => None,
            Piece::Copy { version, node } => {
                let side = Side::BOTH.into_iter().find(|side| Version::from(*side) == *version)?;
                self.goes_astray(side, *node, around).then_some(side)
            }
            Piece::Text(_) => None,
            Piece::Merged(merged) => {
                let nodes = merged.nodes;
                let left = Side::BOTH.into_iter().any(|side| {
                    let tree = self.tree(side);
                    nodes.get(side).is_some_and(|n| tree.language.rule(tree.node(n).kind).left)
                });
                if left {
                    around.push(nodes);
                }
                let mut found = None;
                for item in &mut merged.items {
                    let Content::Piece(piece) = &mut item.content else { continue };
                    let Some(side) = self.astray(piece, around) else { continue };
                    if !self.dispute_entry(item, side) {
                        found = Some(side);
                    }
                }
                if left {
                    around.pop();
                }
                found
            }
        }
    }

    /// Whether something in a node of one side would go out of something else than on that side, and on the other side
    /// if that has it too.
    fn goes_astray(&self, side: Side, node: NodeId, around: &[Versions<Option<NodeId>>]) -> bool {
        let tree = self.tree(side);
        tree.inside(node).any(|n| {
            let Some(left) = tree.leaves(n).filter(|left| !tree.contains(node, *left)) else { return false };
            let rule = tree.language.rule(tree.node(n).kind).leaves.map(|rule| &tree.language.leaves()[rule as usize]);
            let nearest = around.iter().rev().find(|nodes| {
                let kind = |s: Side| nodes.get(s).map(|n| self.tree(s).node(n).kind);
                Side::BOTH.into_iter().filter_map(kind).any(|kind| rule.is_some_and(|rule| rule.ends_at(kind)))
            });
            let reaches = |s: Side, left: NodeId| nearest.is_some_and(|nodes| *nodes.get(s) == Some(left));
            let there = self.to_base(side, n).and_then(|b| self.to_side(side.other(), b));
            let other = there.and_then(|n| self.tree(side.other()).leaves(n));
            if reaches(side, left) {
                return self.brings_another(side, n, left);
            }
            !other.is_some_and(|left| reaches(side.other(), left))
        })
    }

    /// Whether a side put in or changed what brings something out of a node, and the other side changed the name of the
    /// type of what may come out of that.
    fn brings_another(&self, side: Side, node: NodeId, left: NodeId) -> bool {
        let tree = self.tree(side);
        let Some(way) = &tree.language.rule(tree.node(node).kind).answers else { return false };
        let old = self.to_base(side, left);
        let Some((base, other)) = old.and_then(|base| Some((base, self.to_side(side.other(), base)?))) else {
            return false;
        };
        let answer = |tree: &Tree<'s>, from: NodeId| tree.along(from, way).map(|part| outer_name(tree.node_text(part)));
        self.to_base(side, node).is_none_or(|base| self.changed(side, base, node))
            && answer(&self.trees.base, base) != answer(self.tree(side.other()), other)
    }
}
