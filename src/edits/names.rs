//! The entries around a place that are known by a name.

use std::ops::Range;

use rustc_hash::FxHashMap as HashMap;

use crate::syntax::{NodeId, Span, Tree};

/// The entries of a tree that are known by a name.
pub(super) struct Names {
    /// In the order of the text.
    pub entries: Vec<Name>,
    /// The first of each key in each entry.
    by_key: HashMap<(Option<usize>, u64), usize>,
}

pub(super) struct Name {
    pub node: NodeId,
    pub span: Span,
    pub key: u64,
    /// The entry around it.
    outer: Option<usize>,
    /// How far in it stands.
    indent: usize,
}

impl Names {
    pub(super) fn of(tree: &Tree<'_>) -> Names {
        let mut entries: Vec<Name> = Vec::new();
        let mut open: Vec<(NodeId, usize)> = Vec::new();
        for id in (0..tree.len() as u32).map(NodeId) {
            while open.last().is_some_and(|(end, _)| *end <= id) {
                open.pop();
            }
            let node = tree.node(id);
            if node.key != 0 && tree.entry_rule(id).is_some_and(|r| !r.key.is_empty()) {
                let outer = open.last().map(|(_, at)| *at);
                open.push((node.end, entries.len()));
                let indent = tree.indent(id).len();
                entries.push(Name { node: id, span: node.span, key: node.key, outer, indent });
            }
        }
        let by_key = entries.iter().enumerate().rev().map(|(at, name)| ((name.outer, name.key), at)).collect();
        Names { entries, by_key }
    }

    /// The first entry with a key in another one, or in none.
    pub(super) fn child(&self, outer: Option<usize>, key: u64) -> Option<usize> {
        self.by_key.get(&(outer, key)).copied()
    }

    /// The first entry with the keys that one of another text has, and those around it.
    pub(super) fn like(&self, other: &Names, entry: usize) -> Option<usize> {
        let mut keys = Vec::new();
        let mut at = Some(entry);
        while let Some(entry) = at {
            keys.push(other.entries[entry].key);
            at = other.entries[entry].outer;
        }
        keys.into_iter().rev().try_fold(None, |outer, key| self.child(outer, key).map(Some))?
    }

    /// The entries around some lines of a text, outermost first; around the place between the lines
    /// beside them, if they are blank or none: then what stands so far in, below the line before them, goes on.
    pub(super) fn around(&self, text: &[u8], lines: &Range<usize>, depth: Option<usize>) -> Vec<usize> {
        let inside = &text[lines.clone()];
        let before = text[..lines.start].trim_ascii_end().len();
        let (start, end) = if !inside.trim_ascii().is_empty() {
            (lines.end - inside.trim_ascii_start().len(), lines.start + inside.trim_ascii_end().len())
        } else if depth.is_some() {
            (before.saturating_sub(1), before)
        } else {
            (before.saturating_sub(1), text.len() - text[lines.end..].trim_ascii_start().len() + 1)
        };
        let mut at = self.entries.partition_point(|name| name.span.start as usize <= start).checked_sub(1);
        let mut found = Vec::new();
        while let Some(i) = at {
            let deeper = depth.is_some_and(|depth| self.entries[i].indent >= depth);
            if self.entries[i].span.end as usize >= end && !deeper {
                found.push(i);
            }
            at = self.entries[i].outer;
        }
        found.reverse();
        found
    }
}
