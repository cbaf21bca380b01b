//! Where what is new goes in a layout that does not have it.

use super::Relaid;
use super::take_out::{Edits, comments, line_end};
use crate::syntax::{Listed, NodeId, Part, Tree};

impl Relaid<'_, '_, '_> {
    /// Puts what the other side has new into the layout of this one, beside what it stands beside.
    pub(super) fn put_in(&self, new: &Listed, kept: &[(&Listed, &Listed)], edits: &mut Edits) -> Option<()> {
        let (own, other) = (self.lists.get(self.side), self.lists.get(self.side.other()));
        let close = |there: &Listed| {
            let row = other.row(new).is_some() && other.row(new) == other.row(there);
            (
                there.home() == new.home(),
                row,
                there.name < new.name,
                if there.name < new.name { there.name.0 } else { 0 },
            )
        };
        let beside = kept.iter().filter(|(_, there)| close(there).0 || close(there).1);
        let (mut near, _) = beside.max_by_key(|(_, there)| close(there)).copied()?;
        // Where each name from there has a statement of its own, so has a new one, in their order.
        let siblings = own.one_by_one(near);
        let mut above = false;
        if let Some(siblings) = siblings.as_ref().filter(|s| s.is_sorted_by_key(|one| &one.path)) {
            let behind = siblings.iter().rfind(|one| one.path < new.path);
            (near, above) = behind.map_or((siblings[0], true), |one| (*one, false));
        }
        let fits = |before: usize| new.path.len() > before && new.path[..before] == near.path[..before];
        let holder = near.holders.iter().rev().find(|holder| fits(holder.before))?;
        let sign = &own.tree.language.descriptor.paths.as_ref()?.sign;
        let name = new.path[holder.before..].join(sign);
        let rule = own.tree.list_rule(holder.list)?;
        let alone = near.holder().entry == holder.entry;
        if new.short || near.short && alone || self.commented(other.tree, new.holder().entry) {
            return None;
        }
        // What stands beside it, with the new name and value in the place of its own.
        let entry = own.tree.node(holder.entry);
        let core = own.tree.node(entry.core).span;
        let mut parts = Vec::new();
        match (alone, new.value) {
            (true, None) => parts.push((own.tree.node(near.name).span, name.into_bytes())),
            (true, Some(value)) => {
                parts.push((own.tree.node(near.name).span, name.into_bytes()));
                parts.push((own.tree.node(near.value?).span, other.tree.node_text(value).to_vec()));
            }
            (false, None) if !rule.lines => parts.push((core, name.into_bytes())),
            (false, None) => {
                let listed = near.holders.get(1)?.list;
                let mut whole = listed;
                while own.tree.node(whole).parent != entry.core {
                    whole = own.tree.node(whole).parent;
                }
                parts.push((own.tree.node(whole).span, name.into_bytes()));
            }
            (false, Some(_)) => return None,
        }
        let statement = siblings.is_some().then(|| near.holders[0].entry);
        let from = statement.map_or(if rule.lines { entry.span } else { core }, |of| own.tree.node(of).span);
        let mut text = Edits::default();
        let offset = from.start as usize;
        text.edits = parts
            .into_iter()
            .map(|(span, put)| (span.start as usize - offset..span.end as usize - offset, put))
            .collect();
        let text = text.made_in(own.tree.text(from))?;
        if self.commented(own.tree, statement.unwrap_or(holder.entry)) {
            return None;
        }
        let entries = own.tree.part(holder.list, Part::Entry);
        if let Some(statement) = statement.or(rule.lines.then_some(holder.entry)) {
            let indent = own.tree.indent(statement);
            let end = line_end(own.tree.source, from.end as usize)?;
            let newline: &[u8] = if own.tree.source[..end].ends_with(b"\r\n") { b"\r\n" } else { b"\n" };
            let at = if above { from.start as usize - indent.len() } else { end };
            edits.edits.push((at..at, [indent, &text, newline].concat()));
            return Some(());
        }
        if entries.iter().any(|entry| own.tree.is_comment(*entry) || self.commented(own.tree, *entry)) {
            return None;
        }
        let order = |entry: &NodeId| (own.tree.rank(*entry), own.tree.node_text(*entry));
        let sorted = rule.sorted && entries.len() > 1 && entries.is_sorted_by_key(order);
        let gap = entries.windows(2).next().map_or(b" ".to_vec(), |pair| {
            let (left, right) = (own.tree.node(pair[0]), own.tree.node(pair[1]));
            own.tree.source[left.separator.end.max(left.span.end) as usize..right.span.start as usize].to_vec()
        });
        let separator = &rule.separator_text;
        let behind = match sorted {
            true => entries.iter().rposition(|entry| order(entry) < (0, &text[..])),
            false => entries.iter().position(|entry| *entry == holder.entry),
        };
        match behind {
            Some(i) => {
                let end = own.tree.node(entries[i]).span.end as usize;
                edits.edits.push((end..end, [&separator[..], &gap, &text].concat()));
            }
            None => {
                let start = own.tree.node(entries[0]).span.start as usize;
                edits.edits.push((start..start, [&text, &separator[..], &gap].concat()));
            }
        }
        Some(())
    }

    /// Whether a comment stands in an entry.
    fn commented(&self, tree: &Tree<'_>, entry: NodeId) -> bool {
        comments(tree, entry).next().is_some()
    }
}
