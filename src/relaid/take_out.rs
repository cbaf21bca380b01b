//! Changes of a text, and what is taken out of one.

use std::ops::Range;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::list::List;
use crate::syntax::{NodeId, Part, Tree};
use crate::{Side, Version, Versions};

/// Changes of one text: bytes, and what stands there instead.
#[derive(Default)]
pub(super) struct Edits {
    pub edits: Vec<(Range<usize>, Vec<u8>)>,
}

impl Edits {
    /// The text with the changes, if no two of them meet.
    pub(super) fn made_in(mut self, text: &[u8]) -> Option<Vec<u8>> {
        self.edits.sort_by_key(|(range, _)| (range.start, range.end));
        let mut out = Vec::with_capacity(text.len());
        let mut at = 0;
        for (range, put) in self.edits {
            out.extend_from_slice(text.get(at..range.start)?);
            out.extend_from_slice(&put);
            at = range.end;
        }
        out.extend_from_slice(&text[at..]);
        Some(out)
    }
}

/// The comments in a node.
pub(super) fn comments<'t>(tree: &'t Tree<'_>, outer: NodeId) -> impl Iterator<Item = NodeId> + 't {
    let inside = tree.inside(outer);
    inside.filter(|id| tree.language.rule(tree.node(*id).kind).comment)
}

/// The end of the line that something ends on, if nothing else stands behind it there.
pub(super) fn line_end(source: &[u8], end: usize) -> Option<usize> {
    let rest = &source[end..];
    let line = rest.iter().position(|b| *b == b'\n').map_or(rest.len(), |at| at + 1);
    rest[..line].trim_ascii().is_empty().then_some(end + line)
}

/// The end of some lines; if they stand between blank ones, with the one below them.
fn with_blank_line(source: &[u8], start: usize, end: usize) -> usize {
    let blank = |line: Option<&[u8]>| line.is_some_and(|line| line.trim_ascii().is_empty());
    let above = source[..start].split_inclusive(|b| *b == b'\n').next_back();
    let below = source[end..].split_inclusive(|b| *b == b'\n').next();
    if blank(above) && blank(below) { end + below.map_or(0, <[u8]>::len) } else { end }
}

/// The entries of which nothing is left: outermost first.
fn entries_gone(list: &List<'_, '_>, gone: &HashSet<u64>) -> Vec<(NodeId, NodeId)> {
    let tree = list.tree;
    let mut left: HashSet<NodeId> = HashSet::default();
    for one in list.all.iter().filter(|one| !gone.contains(&one.id())) {
        left.extend(one.holders.iter().map(|holder| holder.entry));
    }
    // Comments that belong to nothing listed stay where they are.
    for one in list.all.iter().filter(|one| gone.contains(&one.id())) {
        for (i, holder) in one.holders.iter().enumerate().skip(1) {
            if !left.contains(&holder.list)
                && tree.part(holder.list, Part::Entry).iter().any(|entry| tree.is_comment(*entry))
            {
                left.insert(holder.list);
                left.extend(one.holders[..i].iter().map(|holder| holder.entry));
            }
        }
    }
    let mut found: Vec<(NodeId, NodeId)> = Vec::new();
    for one in list.all.iter().filter(|one| gone.contains(&one.id())) {
        let holder = one.holders.iter().find(|holder| !left.contains(&holder.entry));
        let holder = holder.map(|holder| (holder.list, holder.entry));
        found.extend(holder.filter(|holder| found.last() != Some(holder)));
    }
    found
}

/// Takes out of a text what is gone, with the lists of which nothing else is left.
pub(super) fn take_out(list: &List<'_, '_>, gone: &HashSet<u64>, edits: &mut Edits) -> Option<()> {
    let tree = list.tree;
    let mut by_list: HashMap<NodeId, Vec<NodeId>> = HashMap::default();
    let mut order = Vec::new();
    for (list, entry) in entries_gone(list, gone) {
        by_list.entry(list).or_insert_with(|| {
            order.push(list);
            Vec::new()
        });
        by_list.get_mut(&list).expect("just put in").push(entry);
    }
    for list in order {
        let out: HashSet<NodeId> = by_list[&list].iter().copied().collect();
        let span = |entry: NodeId| tree.node(entry).span.range();
        if tree.list_rule(list).is_some_and(|rule| rule.lines) {
            for entry in &by_list[&list] {
                let Range { start, end } = span(*entry);
                let line = tree.source[..start].iter().rposition(|b| *b == b'\n').map_or(0, |at| at + 1);
                if !tree.source[line..start].trim_ascii().is_empty() {
                    return None;
                }
                let end = line_end(tree.source, end)?;
                edits.edits.push((line..with_blank_line(tree.source, line, end), Vec::new()));
            }
            continue;
        }
        let entries = tree.part(list, Part::Entry);
        let mut i = 0;
        while i < entries.len() {
            let run = entries[i..].iter().take_while(|entry| out.contains(entry)).count();
            if run > 0 {
                let range = match (entries.get(i + run), i.checked_sub(1)) {
                    (Some(next), _) => span(entries[i]).start..span(*next).start,
                    (None, Some(last)) => span(entries[last]).end..span(entries[i + run - 1]).end,
                    (None, None) => return None,
                };
                edits.edits.push((range, Vec::new()));
            }
            i += run.max(1);
        }
    }
    Some(())
}

/// Whether what goes out of the old layouts takes the same comments with it: none of them was changed.
pub(super) fn same_comments(lists: &Versions<List<'_, '_>>, gone: &Versions<HashSet<u64>>) -> bool {
    let texts = |version: Version| {
        let list = lists.get(version);
        let entries = entries_gone(list, gone.get(version)).into_iter();
        let comments = entries.flat_map(|(_, entry)| comments(list.tree, entry));
        let mut texts: Vec<&[u8]> = comments.map(|id| list.tree.node_text(id)).collect();
        texts.sort_unstable();
        texts.dedup();
        texts
    };
    let base = texts(Version::Base);
    Side::BOTH.into_iter().all(|side| texts(side.into()).iter().all(|text| base.contains(text)))
}
