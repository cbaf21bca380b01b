//! What a merge is made of, before it has bytes.

use crate::syntax::{NodeId, Part};
use crate::{Version, Versions};

/// The merged form of one node.
#[derive(Clone, Debug)]
pub enum Piece {
    /// One version's node, as it is.
    Copy {
        /// The version.
        version: Version,
        /// The node.
        node: NodeId,
    },
    /// A node put together from its children.
    Merged(Box<Merged>),
    /// A token of several lines, merged as lines.
    Text(Vec<TextPart>),
}

/// A part of a token merged as lines.
#[derive(Clone, Debug)]
pub enum TextPart {
    /// Agreed text.
    Plain(Vec<u8>),
    /// Where the sides disagree.
    Dispute(Versions<Vec<u8>>),
}

/// A node put together from its children.
#[derive(Clone, Debug)]
pub struct Merged {
    /// The node in each version that has it.
    pub nodes: Versions<Option<NodeId>>,
    /// Its children, in order.
    pub items: Vec<Item>,
    /// Whether both sides changed something directly in it, and both changes stand.
    pub combined: bool,
}

impl Merged {
    /// Whether one side put it around something that base already had.
    pub fn is_wrapper(&self) -> bool {
        self.nodes.base.is_none() && (self.nodes.ours.is_none() || self.nodes.theirs.is_none())
    }
}

/// The first and the last sibling, in each version, that a place in a list stands for.
pub type Edges = Versions<Option<(NodeId, NodeId)>>;

/// One child of a merged node.
#[derive(Clone, Debug)]
pub struct Item {
    /// What it stands for in each version: decides which white space goes before and after it.
    pub edges: Edges,
    /// The part of a list it belongs to.
    pub part: Part,
    /// What it is.
    pub content: Content,
    /// Where among statements it was put in by their order, if it was: then no version tells what white space goes there.
    pub sorted: Option<Sorted>,
}

/// A place in a run of statements on lines one below the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sorted {
    /// Before the first, which is this one of that version.
    First(Version, NodeId),
    /// Between two of them.
    Between,
    /// Behind the last.
    Last(Version, NodeId),
}

/// What an item holds.
#[derive(Clone, Debug)]
pub enum Content {
    /// Something agreed (or with disputes further down).
    Piece(Piece),
    /// Where the sides disagree: what each version has here, perhaps nothing.
    Dispute(Versions<Vec<Item>>),
}

impl Item {
    /// Something that stands where versions have it.
    pub fn new(edges: Edges, part: Part, content: Content) -> Item {
        Item { edges, part, content, sorted: None }
    }

    /// One node of one version, as it is.
    pub fn copy(version: Version, node: NodeId, part: Part) -> Item {
        let mut edges = Edges::default();
        *edges.get_mut(version) = Some((node, node));
        Item::new(edges, part, Content::Piece(Piece::Copy { version, node }))
    }

    /// A disagreement.
    pub fn dispute(sides: Versions<Vec<Item>>, part: Part) -> Item {
        Item::new(Edges::default(), part, Content::Dispute(sides))
    }
}

impl Piece {
    /// Whether there is a disagreement anywhere in it.
    pub fn disputed(&self) -> bool {
        match self {
            Piece::Copy { .. } => false,
            Piece::Text(parts) => parts.iter().any(|p| matches!(p, TextPart::Dispute(_))),
            Piece::Merged(merged) => merged.items.iter().any(Item::disputed),
        }
    }
}

impl Item {
    /// The one node of a version that it stands for, if it is one.
    pub(super) fn one_node(&self, version: Version) -> Option<NodeId> {
        let (first, last) = (*self.edges.get(version))?;
        (first == last).then_some(first)
    }

    /// Whether anything is left of it if one version is taken wherever the sides disagree.
    pub fn read_by(&self, version: Version) -> bool {
        match &self.content {
            Content::Piece(_) => true,
            Content::Dispute(sides) => sides.get(version).iter().any(|item| item.read_by(version)),
        }
    }

    /// Whether there is a disagreement anywhere in it.
    pub fn disputed(&self) -> bool {
        match &self.content {
            Content::Piece(piece) => piece.disputed(),
            Content::Dispute(_) => true,
        }
    }
}
