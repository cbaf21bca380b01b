//! A matching in words.

use super::Matching;
use crate::syntax::{NodeId, Tree};

impl Matching {
    /// Which node is which, a node a line, for tests and for people: `=` stands before a node whose
    /// counterpart is equal, with all that is in it; `~` before one whose counterpart differs; `-` before
    /// one that is only in the first tree. What is only in the second follows, after `+`.
    pub fn outline(&self, from: &Tree<'_>, to: &Tree<'_>) -> String {
        let mut out = String::new();
        let mut depths: Vec<usize> = Vec::with_capacity(from.len());
        let mut until = NodeId::ROOT;
        for id in (0..from.len() as u32).map(NodeId) {
            let node = from.node(id);
            depths.push(if id == NodeId::ROOT { 0 } else { depths[node.parent.index()] + 1 });
            if id < until {
                continue;
            }
            let counterpart = self.to(id);
            let (sign, whole) = match counterpart {
                Some(other) if self.alike(from, id, to, other) => ('=', true),
                Some(_) => ('~', from.is_leaf(id)),
                None => ('-', (id.0..node.end.0).all(|n| self.to(NodeId(n)).is_none())),
            };
            let moved = counterpart
                .is_some_and(|other| id != NodeId::ROOT && self.to(node.parent) != Some(to.node(other).parent));
            let text = if whole { format!(" {}", from.quote(id)) } else { String::new() };
            let now = match counterpart {
                Some(other) if sign == '~' && whole => format!(" now {}", to.quote(other)),
                _ => String::new(),
            };
            let place = if moved { " moved" } else { "" };
            let kind = from.language.kind_name(node.kind);
            out.push_str(&format!("{sign} {}{kind}{text}{now}{place}\n", "  ".repeat(depths[id.index()])));
            if whole {
                until = node.end;
            }
        }
        let mut until = NodeId::ROOT;
        for id in (0..to.len() as u32).map(NodeId) {
            if id >= until && self.from(id).is_none() {
                out.push_str(&format!("+ {} {}\n", to.language.kind_name(to.node(id).kind), to.quote(id)));
                until = to.node(id).end;
            }
        }
        out
    }

    /// Whether two nodes are equal and all in one is matched with the same in the other.
    fn alike(&self, from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId) -> bool {
        let (x, y) = (from.node(a), to.node(b));
        let length = x.end.0 - a.0;
        x.hash == y.hash
            && length == y.end.0 - b.0
            && (0..length).all(|i| self.to(NodeId(a.0 + i)) == Some(NodeId(b.0 + i)))
    }
}
