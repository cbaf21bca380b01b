//! A merge in words.

use super::{Content, Item, Piece, TextPart};
use crate::syntax::Tree;
use crate::{Version, Versions};

/// What is still to be written.
enum Line<'p> {
    Piece(&'p Piece),
    Item(&'p Item),
    Words(String),
}

impl Piece {
    /// The pieces, one a line, for tests and for people: what is copied from which version, what is put
    /// together from its parts, and where the sides disagree.
    pub fn outline(&self, trees: &Versions<Tree<'_>>) -> String {
        let mut out = String::new();
        let mut rest = vec![(0, Line::Piece(self))];
        // The stack holds the next line on top, so what is inside goes on it in reverse.
        while let Some((depth, line)) = rest.pop() {
            let (words, inside) = match line {
                Line::Words(words) => (words, Vec::new()),
                Line::Piece(piece) => piece.line(trees),
                Line::Item(item) => item.line(trees),
            };
            out.push_str(&format!("{}{words}\n", "  ".repeat(depth)));
            rest.extend(inside.into_iter().rev().map(|(by, line)| (depth + by, line)));
        }
        out
    }

    fn line(&self, trees: &Versions<Tree<'_>>) -> (String, Vec<(usize, Line<'_>)>) {
        match self {
            Piece::Copy { version, node } => {
                (format!("{} {}", version.name(), trees.get(*version).quote(*node)), Vec::new())
            }
            Piece::Merged(merged) => {
                let of = Version::ALL.into_iter().find_map(|v| merged.nodes.get(v).map(|n| (trees.get(v), n)));
                let kind = of.map_or("run", |(tree, node)| tree.language.kind_name(tree.node(node).kind));
                let combined = if merged.combined { ", combined" } else { "" };
                (format!("{kind}{combined}"), merged.items.iter().map(|i| (1, Line::Item(i))).collect())
            }
            Piece::Text(parts) => {
                let quote = |text: &[u8]| format!("{:?}", String::from_utf8_lossy(text));
                let part = |part: &TextPart| match part {
                    TextPart::Plain(text) => quote(text),
                    TextPart::Dispute(sides) => {
                        let sides = sides.as_ref().map(|side| quote(side));
                        format!("dispute: base {}, ours {}, theirs {}", sides.base, sides.ours, sides.theirs)
                    }
                };
                ("text".to_owned(), parts.iter().map(|p| (1, Line::Words(part(p)))).collect())
            }
        }
    }
}

impl Item {
    fn line(&self, trees: &Versions<Tree<'_>>) -> (String, Vec<(usize, Line<'_>)>) {
        match &self.content {
            Content::Piece(piece) => piece.line(trees),
            Content::Dispute(sides) => {
                let side = |v: Version| {
                    let items = sides.get(v).iter().map(|i| (2, Line::Item(i)));
                    std::iter::once((1, Line::Words(format!("{}:", v.name())))).chain(items)
                };
                ("dispute".to_owned(), Version::ALL.into_iter().flat_map(side).collect())
            }
        }
    }
}
