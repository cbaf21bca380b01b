//! Laying out the children of one merged node: gaps, separators, choices.

use rustc_hash::FxHashMap as HashMap;

use super::gaps::{self, Style, choose, list_indent};
use super::render::{Renderer, Separator};
use crate::grammar::{Kind, ListRule};
use crate::merging::{Content, Item, Merged, Piece};
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
pub(super) struct Frame<'m> {
    pub nodes: &'m Versions<Option<NodeId>>,
    pub margin: &'m [u8],
    pub separator: Separator,
    pub list: Option<&'static ListRule>,
    pub style: Option<Style>,
    /// The indentation of entries that start lines, relative to the margin.
    pub depth: Option<Vec<u8>>,
    pub trailing: bool,
    pub entry: bool,
    /// Whether it reads in several ways.
    pub disputed: bool,
}

impl Renderer<'_, '_> {
    pub(super) fn sequence(&mut self, merged: &Merged, margin: &[u8], separator: Separator) {
        let frame = self.frame(merged, margin, separator);
        if !frame.disputed || self.choice.is_some() {
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
            ours: read(Version::Ours, ranges.0.clone()),
            theirs: read(Version::Theirs, ranges.1.clone()),
            base: read(Version::Base, ranges.2),
        };
        if same_ink(&sides.ours, &sides.theirs)
            && let Some(said) = self.says(&atoms.ours[ranges.0], Version::Ours)
            && self.says(&atoms.theirs[ranges.1], Version::Theirs) == Some(said)
        {
            // All that they differ in is how it is laid out.
            self.out.push(&sides.ours);
            return;
        }
        self.out.choose(sides, born);
    }

    /// The tokens of what stands for one version in a choice, if nothing else makes up what it says: if no block is in
    /// it, of which indentation may tell where it ends.
    fn says(&self, atoms: &[Atom<'_>], pick: Version) -> Option<Vec<u64>> {
        let mut tokens = Vec::new();
        let mut items: Vec<&Item> = atoms
            .iter()
            .rev()
            .filter_map(|atom| match atom.what {
                What::Item(item, _) => Some(item),
                What::Gap(_) => None,
            })
            .collect();
        while let Some(item) = items.pop() {
            match &item.content {
                Content::Piece(Piece::Copy { version, node }) => {
                    let tree = self.tree(*version);
                    if tree.inside(*node).any(|id| tree.is_block(id)) {
                        return None;
                    }
                    tokens.extend(tree.tokens(*node).iter().map(|token| token.hash));
                }
                Content::Piece(Piece::Merged(merged)) => {
                    let block = |v: Version| merged.nodes.get(v).is_some_and(|node| self.tree(v).is_block(node));
                    if Version::ALL.into_iter().any(block) {
                        return None;
                    }
                    items.extend(reading(&merged.items, pick).into_iter().rev());
                }
                Content::Piece(Piece::Text(_)) => return None,
                Content::Dispute(_) => unreachable!("a reading has none"),
            }
        }
        Some(tokens)
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
        let disputed = merged.items.iter().any(|i| matches!(i.content, Content::Dispute(_)));
        // Without the brackets that a version has around the entries, they cannot stand on lines as they do there.
        let closed = merged.items.iter().any(|item| item.part == Part::Tail);
        let as_closed = |v: Version, n: NodeId| disputed || closed != self.tree(v).part(n, Part::Tail).is_empty();
        let styles = match list {
            Some(_) => per(&|v, n| self.style_of(v, n).filter(|_| as_closed(v, n))),
            None => Versions::default(),
        };
        let both = styles.ours != styles.theirs && styles.ours != styles.base && styles.theirs != styles.base;
        // Both changed the layout: the one with more lines is the clearer of two.
        let chosen = if both { styles.ours.max(styles.theirs) } else { choose(styles) };
        // What one side put on one line, the other put statements in.
        let added = |item: &Item| {
            let inline = |v: &Version| *styles.get(*v) == Some(Style::Inline);
            item.part == Part::Entry && Version::ALL.into_iter().filter(inline).all(|v| item.edges.get(v).is_none())
        };
        let lines = list.is_some_and(|rule| rule.lines);
        let grew = lines && chosen == Some(Style::Inline) && merged.items.iter().any(added);
        let chosen = if grew { styles.ours.max(styles.theirs) } else { chosen };
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
            disputed,
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
                Some(left) => self.gap(frame, left, item, pick),
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

    pub(super) fn comment_only(&self, item: &Item) -> bool {
        Version::ALL.into_iter().any(|v| {
            item.edges
                .get(v)
                .is_some_and(|(n, _)| self.tree(v).node(n).part == Part::Entry && self.tree(v).is_comment(n))
        })
    }

    /// Whether what an entry lists has its end in itself, so that nothing separates it from the next. Of one that ends
    /// with a block, its own place tells, if others stand behind it there.
    fn ended(&self, item: &Item) -> bool {
        let ends = |v: Version, n: NodeId| {
            let tree = self.tree(v);
            let (Some(rule), Some(last)) = (tree.list_rule(tree.node(n).parent), tree.kids(tree.node(n).core).last())
            else {
                return Some(false);
            };
            let listed = tree.part(tree.node(n).parent, Part::Entry);
            let block = rule.is_block(tree.node_text(*last)) && tree.node(n).separator.is_empty();
            match (rule.ends.contains(&tree.node(*last).kind), block) {
                (true, _) => Some(true),
                (_, false) => Some(false),
                _ => listed.iter().rev().find(|e| !tree.is_comment(**e)).is_some_and(|e| *e != n).then_some(true),
            }
        };
        let edges = || Version::ALL.into_iter().filter_map(|v| item.edges.get(v).map(|(n, _)| (v, n)));
        let own = Versions::each(|v| item.edges.get(v).and_then(|(n, _)| ends(v, n)));
        choose(own).unwrap_or_else(|| edges().any(|(v, n)| self.blocks_end(v, n)))
    }

    /// Whether some entry beside one ends with a block that nothing separates from the next.
    fn blocks_end(&self, version: Version, entry: NodeId) -> bool {
        let tree = self.tree(version);
        let parent = tree.node(entry).parent;
        let Some(rule) = tree.list_rule(parent) else { return false };
        let ends =
            |n: NodeId| tree.kids(tree.node(n).core).last().is_some_and(|last| rule.is_block(tree.node_text(*last)));
        let others = tree.part(parent, Part::Entry).split_last().map_or(&[][..], |(_, others)| others);
        others.iter().any(|n| tree.node(*n).separator.is_empty() && ends(*n))
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
}

/// Whether two texts are the same but for white space.
fn same_ink(a: &[u8], b: &[u8]) -> bool {
    let [a, b] = [a, b].map(|text| text.iter().filter(|b| !b.is_ascii_whitespace()));
    a.eq(b)
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
