//! Laying out the children of one merged node: gaps, separators, choices.

use rustc_hash::FxHashMap as HashMap;

use super::gaps::{self, Style, after, before, between, choose, edge, list_indent, reindent, reindent_lines, style};
use super::render::{Renderer, Separator};
use crate::grammar::{Kind, ListRule};
use crate::merging::{Content, Item, Merged};
use crate::syntax::{NodeId, Part};
use crate::{Version, Versions};

/// Something to write, named so that the same thing can be found again under another choice.
struct Atom<'i> {
    name: (usize, u64),
    what: What<'i>,
}

enum What<'i> {
    Gap(Vec<u8>),
    Item(&'i Item, Separator),
}

/// What holds for the whole sequence.
struct Frame<'m> {
    nodes: &'m Versions<Option<NodeId>>,
    margin: &'m [u8],
    separator: Separator,
    list: Option<&'static ListRule>,
    style: Option<Style>,
    /// The indentation of entries that start lines, relative to the margin.
    depth: Option<Vec<u8>>,
    trailing: bool,
    entry: bool,
}

impl Renderer<'_, '_> {
    pub(super) fn sequence(&mut self, merged: &Merged, margin: &[u8], separator: Separator) {
        let frame = self.frame(merged, margin, separator);
        let disputed = merged.items.iter().any(|i| matches!(i.content, Content::Dispute(_)));
        if !disputed || self.choice.is_some() {
            let pick = self.choice.unwrap_or(Version::Ours);
            for atom in self.atoms(&frame, &merged.items, pick) {
                self.write(&frame, &atom);
            }
            return;
        }
        let atoms = Versions::each(|pick| self.atoms(&frame, &merged.items, pick));
        self.choices(&frame, &atoms);
    }

    /// Writes three readings of one sequence: once what is common, as a choice what is not.
    fn choices(&mut self, frame: &Frame<'_>, atoms: &Versions<Vec<Atom<'_>>>) {
        let index = |list: &[Atom<'_>]| -> HashMap<(usize, u64), usize> {
            list.iter().enumerate().rev().map(|(i, a)| (a.name, i)).collect()
        };
        let (in_theirs, in_base) = (index(&atoms.theirs), index(&atoms.base));
        let find = |map: &HashMap<(usize, u64), usize>, from: usize, name: (usize, u64)| {
            map.get(&name).copied().filter(|p| *p >= from)
        };
        let (mut o, mut t, mut b) = (0, 0, 0);
        let mut start = (0, 0, 0);
        while o < atoms.ours.len() {
            let name = atoms.ours[o].name;
            let base = find(&in_base, b, name);
            // Base may have it with another separator: then it is no beginning of base's line.
            let otherwise = base.is_none() && (0..3).any(|flag| find(&in_base, b, (name.0, flag)).is_some());
            if let Some(at) = find(&in_theirs, t, name).filter(|_| !otherwise) {
                let until = base.unwrap_or(b);
                self.choice(frame, atoms, (start.0..o, start.1..at, start.2..until));
                self.write(frame, &atoms.ours[o]);
                t = at + 1;
                b = base.map_or(until, |p| p + 1);
                start = (o + 1, t, b);
            }
            o += 1;
        }
        self.choice(frame, atoms, (start.0..atoms.ours.len(), start.1..atoms.theirs.len(), start.2..atoms.base.len()));
    }

    fn choice(
        &mut self,
        frame: &Frame<'_>,
        atoms: &Versions<Vec<Atom<'_>>>,
        ranges: (std::ops::Range<usize>, std::ops::Range<usize>, std::ops::Range<usize>),
    ) {
        if ranges.0.is_empty() && ranges.1.is_empty() {
            return;
        }
        // What stands around it on its line, both sides put in.
        let new = frame.nodes.base.is_none() && !frame.list.is_some_and(|r| r.lines);
        let known = |atom: &Atom<'_>| matches!(atom.what, What::Item(item, _) if item.edges.base.is_some());
        let born = !new || atoms.base[ranges.2.clone()].iter().any(known);
        let mut read = |version: Version, range: std::ops::Range<usize>| {
            let fork = self.out.fork();
            let outer = std::mem::replace(&mut self.out, fork);
            self.choice = Some(version);
            for atom in &atoms.get(version)[range] {
                self.write(frame, atom);
            }
            self.choice = None;
            std::mem::replace(&mut self.out, outer).into_text()
        };
        let sides = Versions {
            ours: read(Version::Ours, ranges.0),
            theirs: read(Version::Theirs, ranges.1),
            base: read(Version::Base, ranges.2),
        };
        self.out.choose(sides, born);
    }

    fn write(&mut self, frame: &Frame<'_>, atom: &Atom<'_>) {
        match &atom.what {
            What::Gap(text) => self.out.push(text),
            What::Item(item, separator) => self.item(item, frame.margin, frame.depth.as_deref(), *separator),
        }
    }

    fn frame<'m>(&self, merged: &'m Merged, margin: &'m [u8], separator: Separator) -> Frame<'m> {
        let nodes = &merged.nodes;
        let some = Version::ALL.into_iter().rev().find_map(|v| nodes.get(v).map(|n| (v, n)));
        let list = some.and_then(|(v, n)| self.tree(v).list_rule(n));
        let entry = some.is_some_and(|(v, n)| self.tree(v).node(n).kind == Kind::ENTRY);
        let per = |f: &dyn Fn(Version, NodeId) -> Option<Style>| Versions::each(|v| nodes.get(v).and_then(|n| f(v, n)));
        let styles = match list {
            Some(rule) if !rule.lines => per(&|v, n| self.style_of(v, n)),
            _ => Versions::default(),
        };
        let mut chosen = choose(styles);
        if matches!(chosen, Some(Style::Mixed | Style::MixedBelow)) && styles.ours != styles.theirs {
            // Both changed the layout: one entry a line is the clearer of two.
            if styles.theirs == Some(Style::PerLine) && styles.base != Some(Style::PerLine) {
                chosen = styles.theirs;
            }
        }
        let depths = Versions::each(|v| {
            let n = (*nodes.get(v))?;
            if chosen.is_some() && *styles.get(v) != chosen {
                return None;
            }
            let tree = self.tree(v);
            // Entries may stand further out than the line that the list begins on. Then there is no rule to follow.
            list_indent(tree, n)?.strip_prefix(tree.indent(n)).map(<[u8]>::to_vec)
        });
        let trailing = Versions::each(|v| {
            let n = (*nodes.get(v))?;
            if chosen.is_some() && *styles.get(v) != chosen {
                return None;
            }
            let tree = self.tree(v);
            let last = tree.part(n, Part::Entry).iter().rev().find(|e| !tree.is_comment(**e))?;
            Some(!tree.node(*last).separator.is_empty())
        });
        Frame {
            nodes,
            margin,
            separator,
            list,
            style: chosen,
            depth: choose(depths),
            trailing: choose(trailing).unwrap_or(false),
            entry,
        }
    }

    /// The sequence as it reads when `pick` is taken wherever there is a choice.
    fn atoms<'i>(&self, frame: &Frame<'_>, items: &'i [Item], pick: Version) -> Vec<Atom<'i>> {
        let chosen = reading(items, pick);
        let separated = frame.list.is_some_and(|r| r.separator.is_some());
        let last_listed = chosen.iter().rposition(|i| i.part == Part::Entry && !self.comment_only(i));
        let mut atoms = Vec::with_capacity(2 * chosen.len() + 1);
        let root = frame.nodes.ours == Some(NodeId::ROOT);
        let mut previous: Option<&Item> = None;
        for (i, item) in chosen.iter().enumerate() {
            let gap = match previous {
                Some(left) => self.gap(frame, left, item),
                None if root => self.opening(item),
                None => Vec::new(),
            };
            let name = std::ptr::from_ref(*item) as usize;
            if !gap.is_empty() {
                atoms.push(Atom { name: (name, crate::syntax::hash_bytes(7, &gap)), what: What::Gap(gap) });
            }
            let separator = if item.part == Part::Entry && separated && !self.comment_only(item) && !self.ended(item) {
                Some(Some(i) != last_listed || frame.trailing)
            } else if frame.entry && self.is_core(frame, item) {
                frame.separator.filter(|s| *s)
            } else {
                None
            };
            let flag = match separator {
                None => 0,
                Some(false) => 1,
                Some(true) => 2,
            };
            atoms.push(Atom { name: (name, flag), what: What::Item(item, separator) });
            if frame.entry && separator == Some(true) {
                let text = self.separator_text(frame);
                atoms.push(Atom { name: (name, 4), what: What::Gap(text) });
            }
            previous = Some(item);
        }
        if root {
            let gap = self.closing(previous);
            atoms.push(Atom { name: (1, crate::syntax::hash_bytes(8, &gap)), what: What::Gap(gap) });
        }
        atoms
    }

    fn comment_only(&self, item: &Item) -> bool {
        Version::ALL.into_iter().any(|v| {
            item.edges
                .get(v)
                .is_some_and(|(n, _)| self.tree(v).node(n).part == Part::Entry && self.tree(v).is_comment(n))
        })
    }

    /// Whether what an entry lists has its end in itself, so that nothing separates it from the next.
    fn ended(&self, item: &Item) -> bool {
        Version::ALL.into_iter().any(|v| {
            item.edges.get(v).is_some_and(|(n, _)| {
                let tree = self.tree(v);
                let ends = tree.list_rule(tree.node(n).parent).map_or(&[][..], |rule| &rule.ends);
                let last = tree.kids(tree.node(n).core).last();
                !ends.is_empty() && last.is_some_and(|last| ends.contains(&tree.node(*last).kind))
            })
        })
    }

    fn is_core(&self, frame: &Frame<'_>, item: &Item) -> bool {
        Version::ALL.into_iter().any(|v| match (item.edges.get(v), frame.nodes.get(v)) {
            (Some((n, _)), Some(entry)) => self.tree(v).node(*entry).core == *n,
            _ => false,
        })
    }

    /// The separator after what an entry lists, with the white space before it.
    fn separator_text(&self, frame: &Frame<'_>) -> Vec<u8> {
        let own = Versions::each(|v| {
            let entry = (*frame.nodes.get(v))?;
            gaps::separator(self.tree(v), entry)
        });
        let of_list = || {
            Version::ALL.into_iter().rev().find_map(|v| {
                let entry = (*frame.nodes.get(v))?;
                gaps::separator_in(self.tree(v), self.tree(v).node(entry).parent)
            })
        };
        choose(own).or_else(of_list).unwrap_or_default().to_vec()
    }

    /// The white space between two neighbours of the answer.
    fn gap(&self, frame: &Frame<'_>, left: &Item, right: &Item) -> Vec<u8> {
        let candidates = Versions::each(|v| {
            let (l, r) = edge(left, right, v)?;
            self.fits(frame, v, l).then_some(())?;
            between(self.tree(v), l, r).map(|g| (v, l, r, g))
        });
        let normal = candidates.map(|c| c.map(|(v, l, r, g)| self.placed(frame, v, l, r, g)));
        if let Some(gap) = choose(normal) {
            return gap;
        }
        // They are neighbours in no version that is laid out as the answer is.
        let entries = left.part == Part::Entry && right.part == Part::Entry;
        let listed = frame.list.is_some_and(|r| r.separator.is_some());
        let node = |item: &Item, first: bool| {
            [Version::Ours, Version::Theirs, Version::Base]
                .into_iter()
                .filter_map(|v| item.edges.get(v).map(|e| (v, if first { e.0 } else { e.1 })))
                .filter(|(v, n)| self.fits(frame, *v, *n))
                .collect::<Vec<_>>()
        };
        let (lefts, mut rights) = (node(left, false), node(right, true));
        // Where both are, what stood between them is gone; elsewhere something else stands before the right one.
        if right.part == Part::Entry {
            rights.sort_by_key(|(v, _)| left.edges.get(*v).is_none());
        }
        if listed && left.part == Part::Head && right.part == Part::Entry {
            // Before the first entry of a list stands what stood before its first entry.
            for (v, l) in &lefts {
                let tree = self.tree(*v);
                let n = tree.node(*l);
                if let Some(first) = tree.kids(n.parent).get(n.position as usize + 1)
                    && tree.node(*first).part == Part::Entry
                    && let Some(g) = between(tree, *l, *first)
                {
                    return self.placed(frame, *v, *first, *first, g);
                }
            }
        }
        let both = left.edges.ours.is_some() && left.edges.theirs.is_some();
        if listed && entries && both && matches!(frame.style, Some(Style::Mixed | Style::MixedBelow)) {
            // A side took out what stood between them: the line goes on, or ends, where that side has it so. If both took
            // some of it out, and the line still ends there on both, it ends.
            let sides = || lefts.iter().filter(|(v, _)| *v != Version::Base);
            let ends = sides().all(|(v, l)| after(self.tree(*v), *l).is_some_and(|g| g.contains(&b'\n')));
            for (v, l) in sides().filter(|(v, _)| ends || right.edges.get(*v).is_none()) {
                if let Some(g) = after(self.tree(*v), *l) {
                    return self.placed(frame, *v, *l, *l, g);
                }
            }
        }
        for (v, r) in &rights {
            if let Some((g, after_entry)) = before(self.tree(*v), *r)
                && (after_entry || !entries || !listed)
            {
                return self.placed(frame, *v, *r, *r, g);
            }
        }
        for (v, l) in &lefts {
            if let Some(g) = after(self.tree(*v), *l) {
                return self.placed(frame, *v, *l, *l, g);
            }
        }
        match (frame.style, frame.list) {
            (Some(Style::PerLine), _) => self.new_line(frame),
            (Some(Style::Hanging), _) if entries => self.new_line(frame),
            (Some(_), _) => {
                if entries {
                    b" ".to_vec()
                } else {
                    Vec::new()
                }
            }
            (None, Some(rule)) if rule.lines => self.new_line(frame),
            _ => self.any_gap(left, right),
        }
    }

    fn any_gap(&self, left: &Item, right: &Item) -> Vec<u8> {
        let candidate = Version::ALL
            .into_iter()
            .rev()
            .find_map(|v| right.edges.get(v).and_then(|(n, _)| before(self.tree(v), n)).map(|(g, _)| g.to_vec()));
        let _ = left;
        candidate.unwrap_or_else(|| b" ".to_vec())
    }

    fn new_line(&self, frame: &Frame<'_>) -> Vec<u8> {
        let mut out = self.newline.to_vec();
        out.extend_from_slice(frame.margin);
        out.extend_from_slice(frame.depth.as_deref().unwrap_or_default());
        out
    }

    /// How a list is laid out in one version; remembered, for it takes a look at every entry.
    fn style_of(&self, version: Version, list: NodeId) -> Option<Style> {
        *self.styles.borrow_mut().entry((version, list)).or_insert_with(|| style(self.tree(version), list))
    }

    /// Whether a version's layout around a node is that of the answer.
    fn fits(&self, frame: &Frame<'_>, version: Version, node: NodeId) -> bool {
        let Some(wanted) = frame.style else { return true };
        let tree = self.tree(version);
        self.style_of(version, tree.node(node).parent).is_none_or(|s| s == wanted)
    }

    /// A gap of one version, moved to the answer's indentation.
    fn placed(&self, frame: &Frame<'_>, version: Version, left: NodeId, right: NodeId, gap: &[u8]) -> Vec<u8> {
        let tree = self.tree(version);
        let r = tree.node(right);
        let from = tree.indent(r.parent);
        let line = gap.iter().rposition(|b| *b == b'\n');
        if let Some(line) = line
            && r.part == Part::Entry
            && let Some(depth) = &frame.depth
            && (left == right || r.starts_line)
        {
            let own = list_indent(tree, r.parent).unwrap_or_default();
            let stands = &gap[line + 1..];
            // Of one node, the gap may be that before it or that after it.
            let before = left != right || gaps::before(tree, right).is_some_and(|(g, _)| std::ptr::eq(g, gap));
            let above = reindent_lines(&gap[..=line], from, frame.margin);
            return match stands.strip_prefix(own) {
                Some(offset) if left != right => [&above, frame.margin, depth, offset].concat(),
                None if before => [&above, stands].concat(),
                _ => [&above, frame.margin, depth].concat(),
            };
        }
        reindent(gap, from, frame.margin)
    }

    /// What stands before the first thing of the file.
    fn opening(&self, first: &Item) -> Vec<u8> {
        let texts = Versions::each(|v| {
            let (n, _) = (*first.edges.get(v))?;
            let tree = self.tree(v);
            (tree.node(n).parent == NodeId::ROOT && tree.node(n).position == 0)
                .then(|| tree.source[..tree.node(n).span.start as usize].to_vec())
        });
        choose(texts).unwrap_or_default()
    }

    /// What stands after the last thing of the file.
    fn closing(&self, last: Option<&Item>) -> Vec<u8> {
        let texts = Versions::each(|v| {
            let tree = self.tree(v);
            match last {
                None => Some(if tree.is_leaf(NodeId::ROOT) { tree.source.to_vec() } else { Vec::new() }),
                Some(item) => {
                    let (_, n) = (*item.edges.get(v))?;
                    let is_last = tree.node(n).parent == NodeId::ROOT && tree.kids(NodeId::ROOT).last() == Some(&n);
                    is_last.then(|| tree.source[gaps::end_of(tree, n) as usize..].to_vec())
                }
            }
        });
        choose(texts).unwrap_or_else(|| self.newline.to_vec())
    }
}

/// The items of a sequence when `pick` is taken wherever there is a choice among them.
fn reading(items: &[Item], pick: Version) -> Vec<&Item> {
    let mut chosen = Vec::with_capacity(items.len());
    let mut rest: Vec<&Item> = items.iter().rev().collect();
    while let Some(item) = rest.pop() {
        match &item.content {
            Content::Dispute(sides) => rest.extend(sides.get(pick).iter().rev()),
            Content::Piece(_) => chosen.push(item),
        }
    }
    chosen
}
