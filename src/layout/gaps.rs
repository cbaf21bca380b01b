//! The white space between siblings.

use crate::merging::Item;
use crate::syntax::{NodeId, Part, Tree};
use crate::{Version, Versions};

/// How the entries of a list stand on lines, those of fewer lines first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Style {
    /// No entry starts a line.
    Inline,
    /// Some do, but not the first.
    Mixed,
    /// The first and some others do.
    MixedBelow,
    /// Every entry but the first starts a line.
    Hanging,
    /// Every entry starts a line.
    PerLine,
}

/// What a list looks like in one version.
pub(super) fn style(tree: &Tree<'_>, list: NodeId) -> Option<Style> {
    let entries = tree.part(list, Part::Entry);
    if entries.is_empty() {
        return None;
    }
    let starting = entries.iter().filter(|e| tree.node(**e).starts_line).count();
    let lines = tree.list_rule(list).is_some_and(|rule| rule.lines);
    Some(match starting {
        0 => Style::Inline,
        // Statements are on one line with what is around them, or on lines of their own.
        _ if lines => Style::PerLine,
        n if n == entries.len() => Style::PerLine,
        _ if tree.node(entries[0]).starts_line => Style::MixedBelow,
        n if n + 1 == entries.len() && n > 1 => Style::Hanging,
        _ => Style::Mixed,
    })
}

/// Three-way choice of something that cannot be disputed: what a side changed wins, ours before theirs.
pub(super) fn choose<T: PartialEq>(values: Versions<Option<T>>) -> Option<T> {
    match (values.base, values.ours, values.theirs) {
        (Some(b), Some(o), Some(t)) => Some(if o == b { t } else { o }),
        (_, Some(o), _) => Some(o),
        (_, None, Some(t)) => Some(t),
        (b, None, None) => b,
    }
}

/// The white space of the lines of a list's entries, from the list's first entry that starts a line.
pub(super) fn list_indent<'s>(tree: &Tree<'s>, list: NodeId) -> Option<&'s [u8]> {
    tree.kids(list)
        .iter()
        .map(|k| tree.node(*k))
        .find(|k| k.part == Part::Entry && k.starts_line)
        .map(|k| tree.text(k.indent))
}

/// What stands before a node on its line.
pub(super) fn start_of_line<'s>(tree: &Tree<'s>, node: NodeId) -> &'s [u8] {
    let start = tree.node(node).span.start as usize;
    let line = tree.source[..start].iter().rposition(|b| *b == b'\n').map_or(0, |p| p + 1);
    &tree.source[line..start]
}

/// Where a node's text ends, its separator included.
pub(super) fn end_of(tree: &Tree<'_>, node: NodeId) -> u32 {
    let n = tree.node(node);
    n.span.end.max(n.separator.end)
}

/// An entry's separator, with the white space between what is listed and it.
pub(super) fn separator<'s>(tree: &Tree<'s>, entry: NodeId) -> Option<&'s [u8]> {
    let n = tree.node(entry);
    let start = tree.node(n.core).span.end;
    let text = tree.source.get(start as usize..n.separator.end as usize)?;
    let space = tree.source.get(start as usize..n.separator.start as usize)?;
    // A comment may stand between them.
    let near = space.iter().all(|b| matches!(b, b' ' | b'\t'));
    Some(if near { text } else { tree.text(n.separator) }).filter(|_| !n.separator.is_empty())
}

/// A separator as a list has it; if it has none, as its language writes it.
pub(super) fn separator_in<'s>(tree: &Tree<'s>, list: NodeId) -> Option<&'s [u8]> {
    let found = tree.kids(list).iter().find_map(|k| separator(tree, *k));
    found.or_else(|| tree.list_rule(list).map(|r| &r.first_separator[..]))
}

/// The bytes between two siblings in one version, if they stand side by side there.
pub(super) fn between<'s>(tree: &Tree<'s>, left: NodeId, right: NodeId) -> Option<&'s [u8]> {
    let (l, r) = (tree.node(left), tree.node(right));
    if l.parent != r.parent || l.position + 1 != r.position {
        return None;
    }
    let start = end_of(tree, left);
    // Inside an entry, the separator stands between what is listed and its comment.
    let parent = tree.node(l.parent);
    let separator = parent.separator;
    let start = if l.position < r.position
        && !separator.is_empty()
        && separator.start >= start
        && separator.end <= r.span.start
    {
        separator.end
    } else {
        start
    };
    tree.source.get(start as usize..r.span.start as usize)
}

/// The bytes before a node in its own version, and whether an entry of the same list is before them.
pub(super) fn before<'s>(tree: &Tree<'s>, node: NodeId) -> Option<(&'s [u8], bool)> {
    let n = tree.node(node);
    let left = tree.kids(n.parent).get((n.position as usize).checked_sub(1)?)?;
    Some((between(tree, *left, node)?, tree.node(*left).part == n.part))
}

/// The bytes after a node in its own version, if an entry of the same list follows.
pub(super) fn after<'s>(tree: &Tree<'s>, node: NodeId) -> Option<&'s [u8]> {
    let n = tree.node(node);
    let right = tree.kids(n.parent).get(n.position as usize + 1)?;
    if tree.node(*right).part != n.part {
        return None;
    }
    between(tree, node, *right)
}

/// The edges of two neighbours in one version.
pub(super) fn edge(left: &Item, right: &Item, version: Version) -> Option<(NodeId, NodeId)> {
    Some((left.edges.get(version).as_ref()?.1, right.edges.get(version).as_ref()?.0))
}

/// Moves the lines of a gap from one indentation to another.
pub(super) fn reindent(gap: &[u8], from: &[u8], to: &[u8]) -> Vec<u8> {
    let mut out = reindent_lines(gap, from, to);
    // The last line is empty: it becomes the new margin only if the old one was empty too.
    if gap.ends_with(b"\n") && from.is_empty() {
        out.extend_from_slice(to);
    }
    out
}

/// Moves the lines of a gap that hold something from one indentation to another.
pub(super) fn reindent_lines(gap: &[u8], from: &[u8], to: &[u8]) -> Vec<u8> {
    let mut out = Vec::with_capacity(gap.len() + to.len());
    for (i, line) in gap.split_inclusive(|b| *b == b'\n').enumerate() {
        push_reindented(&mut out, line, i > 0, from, to);
    }
    out
}

fn push_reindented(out: &mut Vec<u8>, line: &[u8], starts: bool, from: &[u8], to: &[u8]) {
    let blank = line.iter().all(|b| matches!(b, b'\n' | b'\r'));
    match line.strip_prefix(from) {
        Some(rest) if starts && !blank => {
            out.extend_from_slice(to);
            let deeper = rest.iter().take_while(|b| matches!(b, b' ' | b'\t')).count();
            push_deeper(out, &rest[..deeper], from, to);
            out.extend_from_slice(&rest[deeper..]);
        }
        _ => out.extend_from_slice(line),
    }
}

/// Indentation below a line that moves from one to another: where tabs became spaces, or spaces tabs, it does too.
fn push_deeper(out: &mut Vec<u8>, deeper: &[u8], from: &[u8], to: &[u8]) {
    let only = |text: &[u8], byte: u8| !text.is_empty() && text.iter().all(|b| *b == byte);
    let whole = |long: &[u8], short: &[u8]| long.len().is_multiple_of(short.len()).then_some(long.len() / short.len());
    let unit = match (from, to) {
        _ if only(from, b'\t') && only(to, b' ') => whole(to, from),
        _ if only(from, b' ') && only(to, b'\t') => whole(from, to),
        _ => None,
    };
    match unit {
        Some(unit) if only(from, b'\t') => deeper.iter().for_each(|byte| match byte {
            b'\t' => out.extend(std::iter::repeat_n(b' ', unit)),
            _ => out.push(*byte),
        }),
        Some(unit) => {
            let spaces = deeper.iter().take_while(|b| **b == b' ').count();
            out.extend(std::iter::repeat_n(b'\t', spaces / unit));
            out.extend_from_slice(&deeper[spaces / unit * unit..]);
        }
        None => out.extend_from_slice(deeper),
    }
}
