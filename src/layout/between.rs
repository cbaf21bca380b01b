//! The white space between what is laid out side by side, and around it.

use gix::bstr::ByteSlice;

use super::blocks::newlines;
use super::gaps::{self, Style, after, before, between, choose, edge, list_indent, reindent, reindent_lines, style};
use super::render::Renderer;
use super::sequence::Frame;
use crate::merging::{Content, Item, Piece, Sorted};
use crate::syntax::{NodeId, Part};
use crate::{Version, Versions};

impl Renderer<'_, '_> {
    /// The white space between two neighbours of the answer; of one that reads in several ways, where `pick` is taken.
    pub(super) fn gap(&self, frame: &Frame<'_>, left: &Item, right: &Item, pick: Version) -> Vec<u8> {
        let gap = self.gap_by_order(frame, left, right).unwrap_or_else(|| self.gap_beside(frame, left, right, pick));
        // What stands behind a comment on its line would be part of it.
        if !gap.contains(&b'\n') && self.ends_line(left) { self.new_line(frame) } else { gap }
    }

    /// The white space beside something that was put in by its order: what it goes before or behind has more than the line
    /// break on its other side alone.
    fn gap_by_order(&self, frame: &Frame<'_>, left: &Item, right: &Item) -> Option<Vec<u8>> {
        if let (Some(Sorted::First(..) | Sorted::Between), _) | (_, Some(Sorted::Between | Sorted::Last(..))) =
            (left.sorted, right.sorted)
        {
            return Some(self.new_line(frame));
        }
        if let Some(Sorted::First(version, first)) = right.sorted {
            let (gap, _) = before(self.tree(version), first)?;
            return Some(self.placed(frame, right, version, first, first, gap));
        }
        let Some(Sorted::Last(version, last)) = left.sorted else { return None };
        let gap = after(self.tree(version), last)?;
        Some(self.placed(frame, right, version, last, last, gap))
    }

    /// Whether what is written ends with a comment that ends a line in its own version.
    fn ends_line(&self, item: &Item) -> bool {
        let mut last = item;
        while let Content::Piece(Piece::Merged(merged)) = &last.content {
            let Some(inner) = merged.items.last() else { return false };
            last = inner;
        }
        let Content::Piece(Piece::Copy { version, node }) = &last.content else { return false };
        let tree = self.tree(*version);
        let last = tree.kids(*node).last().filter(|_| !tree.is_comment(*node)).unwrap_or(node);
        let behind = &tree.source[tree.node(*last).span.end as usize..];
        let line = behind.iter().find(|b| !matches!(b, b' ' | b'\t' | b'\r'));
        tree.is_comment(*last) && line.is_none_or(|b| *b == b'\n')
    }

    /// The white space that two neighbours have between them in one of the versions, or as the list is laid out.
    fn gap_beside(&self, frame: &Frame<'_>, left: &Item, right: &Item, pick: Version) -> Vec<u8> {
        let candidates = Versions::each(|v| {
            let (l, r) = edge(left, right, v)?;
            self.fits(frame, v, l).then_some(())?;
            between(self.tree(v), l, r).map(|g| (v, l, r, g))
        });
        let normal = candidates.map(|c| c.map(|(v, l, r, g)| self.placed(frame, right, v, l, r, g)));
        if let Some(gap) = choose(normal) {
            return gap;
        }
        // They are neighbours in no version that is laid out as the answer is.
        let entries = left.part == Part::Entry && right.part == Part::Entry;
        let listed = frame.list.is_some_and(|r| r.separator.is_some());
        // In a side's reading, what stands behind something that only the other side put in, as that side has it.
        let order = match pick {
            Version::Theirs if frame.disputed && left.edges.theirs.is_none() => {
                [Version::Theirs, Version::Ours, Version::Base]
            }
            _ => [Version::Ours, Version::Theirs, Version::Base],
        };
        let node = |item: &Item, first: bool| {
            order
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
        let inline = frame.style == Some(Style::Inline);
        if (listed || inline) && left.part == Part::Head && right.part == Part::Entry {
            // Before the first entry of a list stands what stood before its first entry.
            for (v, l) in &lefts {
                let tree = self.tree(*v);
                let n = tree.node(*l);
                if let Some(first) = tree.kids(n.parent).get(n.position as usize + 1)
                    && tree.node(*first).part == Part::Entry
                    && let Some(g) = between(tree, *l, *first)
                {
                    return self.placed(frame, right, *v, *first, *first, g);
                }
            }
        }
        let both = left.edges.ours.is_some() && left.edges.theirs.is_some();
        if listed && entries && both && matches!(frame.style, Some(Style::Mixed | Style::MixedBelow)) {
            // A side took out what stood between them: the line goes on, or ends, where that side has it so. If both
            // took some of it out, and the line still ends there on both, it ends.
            let sides = || lefts.iter().filter(|(v, _)| *v != Version::Base);
            let ends = sides().all(|(v, l)| after(self.tree(*v), *l).is_some_and(|g| g.contains(&b'\n')));
            for (v, l) in sides().filter(|(v, _)| ends || right.edges.get(*v).is_none()) {
                if let Some(g) = after(self.tree(*v), *l) {
                    return self.placed(frame, right, *v, *l, *l, g);
                }
            }
        }
        // What one side put the right one behind is gone on the other: with what stood before it or what stood behind it, as
        // that side has it.
        let new = right.edges.base.is_none() && !frame.disputed;
        if entries && !listed && new {
            let sides = || lefts.iter().filter(|(v, _)| *v != Version::Base);
            for (v, l) in sides().filter(|(v, _)| right.edges.get(*v).is_some()) {
                let mut gone = sides().filter(|(w, _)| right.edges.get(*w).is_none());
                if let Some(g) = after(self.tree(*v), *l)
                    && gone.any(|(w, l)| after(self.tree(*w), *l) == Some(g))
                {
                    return self.placed(frame, right, *v, *l, *l, g);
                }
            }
        }
        if entries && let Some((v, l, g)) = self.gap_below_import(&lefts, &rights) {
            return self.placed(frame, right, v, l, l, g);
        }
        for (v, r) in &rights {
            if let Some((g, after_entry)) = before(self.tree(*v), *r)
                && (after_entry || !entries || !listed)
            {
                // A comment that was parted from what stood below it says nothing of what stands there now.
                let parted = |gap: &[u8]| newlines(gap) > 1;
                if entries && !listed && !parted(g) && self.comment_only(left) {
                    // First as it was where what stands there now comes from.
                    let mut lefts = lefts.clone();
                    lefts.sort_by_key(|(v, _)| right.edges.get(*v).is_none());
                    for (v, l) in lefts {
                        if let Some(g) = after(self.tree(v), l).filter(|g| parted(g)) {
                            return self.placed(frame, right, v, l, l, g);
                        }
                    }
                }
                return self.placed(frame, right, *v, *r, *r, g);
            }
        }
        // What is the first of its file stands apart as others of its kind do; of two definitions, as the one before it
        // does.
        let defines = |(v, n): &(Version, NodeId)| self.tree(*v).is_definition(*n);
        let both_define = lefts.first().is_some_and(defines) && rights.first().is_some_and(defines);
        if entries && frame.list.is_some_and(|rule| rule.lines) && !both_define {
            for (v, r) in &rights {
                let tree = self.tree(*v);
                let mut kin = tree.part(tree.node(*r).parent, Part::Entry).iter();
                let same = |e: &&NodeId| tree.core_kind(**e) == tree.core_kind(*r);
                if let Some((e, g)) = kin.find(|e| same(e) && *e != r).and_then(|e| Some((e, before(tree, *e)?.0))) {
                    return self.placed(frame, right, *v, *e, *e, g);
                }
            }
            // Imports stand together where nothing tells otherwise.
            let import = |(v, n): &(Version, NodeId)| self.tree(*v).is_import(*n);
            if lefts.iter().any(import) && rights.iter().any(import) {
                return self.new_line(frame);
            }
        }
        for (v, l) in &lefts {
            if let Some(g) = after(self.tree(*v), *l) {
                return self.placed(frame, right, *v, *l, *l, g);
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
            _ => self.any_gap(right),
        }
    }

    /// The white space below an import, above another one that was not below it: as it is above the next in its own version,
    /// which is given with it. Apart, if the lower one was itself behind none, and did not stand apart from the next too;
    /// without a blank line, if they were put in at one place.
    fn gap_below_import(
        &self,
        lefts: &[(Version, NodeId)],
        rights: &[(Version, NodeId)],
    ) -> Option<(Version, NodeId, &[u8])> {
        let import = |(v, n): &(Version, NodeId)| self.tree(*v).is_import(*n);
        let plain = |(v, n): &(Version, NodeId)| {
            let tree = self.tree(*v);
            tree.is_import(*n) && tree.node(tree.node(*n).core).span.start == tree.node(*n).span.start
        };
        if !lefts.iter().all(import) || !rights.iter().all(plain) {
            return None;
        }
        let next_to_import = |(v, n): &(Version, NodeId), behind: bool| {
            self.tree(*v).beside(*n, behind).next().is_some_and(|other| self.tree(*v).is_import(other))
        };
        let stood_behind = rights.iter().filter(|(v, _)| *v != Version::Base).all(|right| next_to_import(right, false));
        let apart_too = rights.iter().any(|(v, r)| after(self.tree(*v), *r).is_some_and(|g| newlines(g) != 1));
        let at_one_place = lefts.len() == 1 && rights.len() == 1;
        lefts.iter().find_map(|left| {
            let gap = after(self.tree(left.0), left.1)?;
            let as_there = match newlines(gap) {
                1 => at_one_place,
                _ => !stood_behind && !apart_too && next_to_import(left, true),
            };
            as_there.then_some((left.0, left.1, gap))
        })
    }

    /// What stands before an item in any version.
    fn any_gap(&self, right: &Item) -> Vec<u8> {
        let candidate = Version::ALL
            .into_iter()
            .rev()
            .find_map(|v| right.edges.get(v).and_then(|(n, _)| before(self.tree(v), n)).map(|(g, _)| g.to_vec()));
        candidate.unwrap_or_else(|| b" ".to_vec())
    }

    fn new_line(&self, frame: &Frame<'_>) -> Vec<u8> {
        let mut out = self.line_continued(frame).to_vec();
        out.extend_from_slice(self.newline);
        out.extend_from_slice(frame.margin);
        out.extend_from_slice(frame.depth.as_deref().unwrap_or_default());
        out
    }

    /// What stands at the end of a line that the list goes on behind, if a line break alone would end the list: as it is
    /// between entries of a version that is laid out as the answer is.
    fn line_continued(&self, frame: &Frame<'_>) -> &[u8] {
        let mut lists = [Version::Ours, Version::Theirs, Version::Base]
            .into_iter()
            .filter_map(|v| frame.nodes.get(v).map(|list| (v, list)))
            .filter(|(v, list)| self.style_of(*v, *list) == frame.style);
        let sign = |(v, list): (Version, NodeId)| {
            let tree = self.tree(v);
            let entry =
                tree.part(list, Part::Entry).iter().find(|e| before(tree, **e).is_some_and(|(_, after)| after))?;
            let (gap, _) = before(tree, *entry)?;
            let end = gap.find_byte(b'\n')?;
            let end = if gap[..end].ends_with(b"\r") { end - 1 } else { end };
            Some(&gap[..end]).filter(|sign| !sign.trim_ascii().is_empty())
        };
        lists.find_map(sign).unwrap_or_default()
    }

    /// How a list is laid out in one version; remembered, for it takes a look at every entry.
    pub(super) fn style_of(&self, version: Version, list: NodeId) -> Option<Style> {
        *self.styles.borrow_mut().entry((version, list)).or_insert_with(|| style(self.tree(version), list))
    }

    /// Whether a version's layout around a node is that of the answer.
    fn fits(&self, frame: &Frame<'_>, version: Version, node: NodeId) -> bool {
        let Some(wanted) = frame.style else { return true };
        let tree = self.tree(version);
        self.style_of(version, tree.node(node).parent).is_none_or(|s| s == wanted)
    }

    /// A gap of one version, moved to the answer's indentation, as it is before an item.
    fn placed(
        &self,
        frame: &Frame<'_>,
        item: &Item,
        version: Version,
        left: NodeId,
        right: NodeId,
        gap: &[u8],
    ) -> Vec<u8> {
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
            // A comment above what is listed may stand elsewhere than that.
            let stays = stands == tree.indent(right) || self.begins_with_comment(item);
            return match stands.strip_prefix(own).filter(|_| stays) {
                Some(offset) if left != right => [&above, frame.margin, depth, offset].concat(),
                None if before && stays => [&above, stands].concat(),
                _ => [&above, frame.margin, depth].concat(),
            };
        }
        // A comment that stands elsewhere may begin a list of which it was not the first.
        if let Some(line) = line
            && tree.list_rule(right).is_some_and(|rule| rule.lines)
            && frame.margin == from
            && let Some(stands) = self.begins_astray(item, frame.margin)
        {
            return [&gap[..=line], stands].concat();
        }
        // Nor is a comment above the first of a list that stands elsewhere there any more, if something else begins it now.
        if let Some(line) = line
            && tree.list_rule(right).is_some_and(|rule| rule.lines)
            && tree.kids(right).first().is_some_and(|kid| tree.node(*kid).part == Part::Entry)
            && let Some(own) = list_indent(tree, right).filter(|own| *own != &gap[line + 1..])
            && let Some(offset) = own.strip_prefix(from).filter(|_| !self.begins_with_comment(item))
        {
            return [&reindent_lines(&gap[..=line], from, frame.margin), frame.margin, offset].concat();
        }
        reindent(gap, from, frame.margin)
    }

    /// Where the first line of a list of statements begins, if these stand elsewhere: that line is a comment. Nothing, if
    /// what is around the list is not where it was.
    fn begins_astray(&self, item: &Item, margin: &[u8]) -> Option<&[u8]> {
        let stands = |version: Version, node: NodeId| {
            let (tree, stands) = (self.tree(version), gaps::start_of_line(self.tree(version), node));
            let n = tree.node(node);
            let astray = n.starts_line && stands != tree.indent(node) && tree.indent(n.parent) == margin;
            astray.then_some(stands)
        };
        match &item.content {
            Content::Piece(Piece::Copy { version, node }) => {
                stands(*version, *self.tree(*version).kids(*node).first()?)
            }
            Content::Piece(Piece::Merged(merged)) => {
                let first = merged.items.first().filter(|first| self.begins_with_comment(first))?;
                let in_all = Version::ALL.into_iter().filter_map(|v| Some((v, (*first.edges.get(v))?.0)));
                matches!(first.content, Content::Piece(_)).then(|| in_all.filter_map(|(v, n)| stands(v, n)).next())?
            }
            _ => None,
        }
    }

    fn begins_with_comment(&self, item: &Item) -> bool {
        match &item.content {
            Content::Piece(Piece::Copy { version, node }) => {
                let tree = self.tree(*version);
                tree.is_comment(*node) || tree.kids(*node).first().is_some_and(|kid| tree.is_comment(*kid))
            }
            Content::Piece(Piece::Merged(merged)) => {
                merged.items.first().is_some_and(|first| self.begins_with_comment(first))
            }
            _ => true,
        }
    }

    /// What stands before the first thing of the file.
    pub(super) fn opening(&self, first: &Item) -> Vec<u8> {
        let texts = Versions::each(|v| {
            let (n, _) = (*first.edges.get(v))?;
            let tree = self.tree(v);
            (tree.node(n).parent == NodeId::ROOT && tree.node(n).position == 0)
                .then(|| tree.source[..tree.node(n).span.start as usize].to_vec())
        });
        choose(texts).unwrap_or_default()
    }

    /// What stands after the last thing of the file.
    pub(super) fn closing(&self, last: Option<&Item>) -> Vec<u8> {
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
