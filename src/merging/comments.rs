//! Comments that the other side's reading of a dispute has somewhere else.

use super::pieces::{Content, Item, Merged, Piece};
use super::{Merger, Side, Versions};
use crate::Version;
use crate::syntax::NodeId;

impl Merger<'_, '_> {
    /// An entry as one side reads it, with all that it says there of its own: where the other side put something around
    /// what a comment describes, it has the comment before that, among `there`, and whoever takes this side's reading
    /// would lose it (contract K9).
    pub(super) fn with_comments(&self, side: Side, own: NodeId, item: Item, there: &[NodeId]) -> Item {
        let tree = self.tree(side);
        let hash = |id: NodeId| tree.node(id).hash;
        let gone: Vec<NodeId> = tree.kids(own).iter().copied().filter(|id| tree.is_comment(*id)).collect();
        if gone.is_empty() {
            return item;
        }
        let Item { edges, part, content } = item;
        let mut merged = match content {
            Content::Piece(Piece::Merged(merged)) => merged,
            Content::Piece(Piece::Copy { version, node }) if version == Version::from(side.other()) => {
                let mut nodes = Versions::default();
                *nodes.get_mut(side) = Some(own);
                *nodes.get_mut(version) = Some(node);
                let other = self.trees.get(version);
                let items =
                    other.kids(node).iter().map(|kid| Item::copy(version, *kid, other.node(*kid).part)).collect();
                Box::new(Merged { nodes, items, combined: false })
            }
            content => return Item { edges, part, content },
        };
        let other = self.tree(side.other());
        let stands_there = |id: &NodeId| {
            let mut inside = there.iter().flat_map(|node| (node.0..other.node(*node).end.0).map(NodeId));
            inside.any(|n| other.is_comment(n) && other.node(n).hash == hash(*id))
        };
        let is_here = |id: NodeId, items: &[Item]| {
            let mut edges =
                items.iter().flat_map(|item| Version::ALL.map(|v| Some((v, item.edges.get(v).as_ref()?.0))));
            edges.any(|edge| edge.is_some_and(|(v, node)| self.trees.get(v).node(node).hash == hash(id)))
        };
        for id in gone.into_iter().filter(stands_there) {
            if !is_here(id, &merged.items) {
                let before = |item: &Item| item.edges.get(side).as_ref().is_some_and(|(first, _)| *first < id);
                let at = merged.items.iter().rposition(before).map_or(0, |last| last + 1);
                merged.items.insert(at, Item::copy(side.into(), id, tree.node(id).part));
            }
        }
        Item { edges, part, content: Content::Piece(Piece::Merged(merged)) }
    }
}
