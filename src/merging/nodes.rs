//! Merging one node of which the three versions are known.

use rustc_hash::FxHashSet as HashSet;

use super::indents::settle_indents;
use super::pieces::{Content, Edges, Item, Merged, Piece, TextPart};
use super::stranded::is_named;
use super::text::{merge_ends, merge_text, settle_line_ends, split_raw, with_all_lines};
use super::{Merger, Side, Versions};
use crate::Version;
use crate::grammar::{Kind, KindRule};
use crate::syntax::{NodeId, Part};

/// What a merge of one node came to: a piece, or nothing that is smaller than the node agrees.
pub type Outcome = Result<Piece, Disagree>;

/// The sides disagree over the whole node.
#[derive(Debug)]
pub struct Disagree;

impl Merger<'_, '_> {
    /// Merges the roots.
    pub(super) fn whole(&mut self) -> Outcome {
        let root = Some(NodeId::ROOT);
        // Both sides added the file: there is no base.
        let base = root.filter(|r| !self.trees.base.is_leaf(*r));
        self.try_triple(Versions { base, ours: root, theirs: root })
    }

    /// Merges a node that all given versions have.
    pub(super) fn try_triple(&mut self, nodes: Versions<Option<NodeId>>) -> Outcome {
        let (ours, theirs) = match (nodes.ours, nodes.theirs) {
            (Some(o), Some(t)) => (o, t),
            (Some(o), None) => return Ok(self.insertion(Side::Ours, o)),
            (None, Some(t)) => return Ok(self.insertion(Side::Theirs, t)),
            (None, None) => return Err(Disagree),
        };
        let shape = |side: Side, n: NodeId| self.tree(side).node(n).shape;
        if shape(Side::Ours, ours) == shape(Side::Theirs, theirs) {
            return Ok(Piece::Copy { version: Version::Ours, node: ours });
        }
        let same = self.tree(Side::Ours).node(ours).hash == self.tree(Side::Theirs).node(theirs).hash;
        if same && nodes.base.is_none() {
            return Ok(Piece::Copy { version: Version::Ours, node: ours });
        }
        let tangled = self.is_entangled(Side::Ours, ours)
            || self.is_entangled(Side::Theirs, theirs)
            || [&self.spilled, &self.unsettled]
                .into_iter()
                .any(|nodes| self.holds(nodes, Side::Ours, ours) || self.holds(nodes, Side::Theirs, theirs))
            || nodes.base.is_some_and(|b| {
                let mut apart = self.stranded.iter().flatten().chain(&self.branched);
                self.joined.keys().any(|list| self.trees.base.contains(b, *list))
                    || apart.any(|entry| self.trees.base.contains(b, *entry))
            });
        if let Some(base) = nodes.base
            && !tangled
        {
            let base_shape = self.trees.base.node(base).shape;
            for (side, node) in [(Side::Ours, theirs), (Side::Theirs, ours)] {
                let own = side.of(ours, theirs);
                if shape(side, own) == base_shape {
                    return Ok(Piece::Copy { version: side.other().into(), node });
                }
            }
        }
        self.both_changed(nodes, ours, theirs)
    }

    /// Merges a node that both sides changed, in different ways or layouts.
    fn both_changed(&mut self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> Outcome {
        let trees = self.trees;
        let kinds = (trees.ours.node(ours).kind, trees.theirs.node(theirs).kind);
        let base_kind = nodes.base.map(|b| trees.base.node(b).kind);
        let rules = trees.base.language;
        let form = |k: Kind| rules.rule(k).form.map_or((None, Some(k)), |f| (Some(f), None));
        let alike = form(kinds.0) == form(kinds.1) && base_kind.is_none_or(|k| form(k) == form(kinds.0));
        let leaf = trees.ours.is_leaf(ours)
            || trees.theirs.is_leaf(theirs)
            || nodes.base.is_some_and(|b| trees.base.is_leaf(b));
        if leaf || !alike {
            return self.in_no_common_form(nodes, ours, theirs);
        }
        let rule = trees.base.language.rule(kinds.0);
        // Two attributes of different names are nobody's edits of one.
        if nodes.base.is_none() && trees.ours.prefix_name(ours) != trees.theirs.prefix_name(theirs) {
            return Err(Disagree);
        }
        let joint = match kinds.0 {
            Kind::RUN => self.run_dispute(nodes, ours, theirs),
            _ => {
                rule.joint && self.joint_dispute(nodes, ours, theirs)
                    || rule.unordered && self.one_operand_twice(nodes, ours, theirs)
                    || !rule.governs.is_empty() && self.governed_dispute(nodes, &rule.governs, ours, theirs)
                    || rule.counts.as_ref().is_some_and(|ways| self.counted_dispute(nodes, ways, ours, theirs))
            }
        };
        if joint || nodes.base.is_some_and(|base| self.governed_list(base, ours, theirs)) {
            return Err(Disagree);
        }
        if nodes.base.is_none() {
            self.match_across(ours, theirs);
        }
        if let Some(base) = nodes.base
            && (self.regrafted(base, ours, theirs) || self.at_odds_over_branches(base, ours, theirs))
        {
            return Err(Disagree);
        }
        self.children(nodes, ours, theirs)
    }

    /// Merges what both sides changed and is not of one form in all versions, or a single token in one.
    fn in_no_common_form(&mut self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> Outcome {
        let trees = self.trees;
        let kinds = (trees.ours.node(ours).kind, trees.theirs.node(theirs).kind);
        let base_kind = nodes.base.map(|b| trees.base.node(b).kind);
        // Same words, other layout: take the side whose words changed, or ours.
        let hash = |side: Side, n: NodeId| self.tree(side).node(n).hash;
        if let Some(base) = nodes.base {
            let base_hash = trees.base.node(base).hash;
            let mut said = [hash(Side::Ours, ours) != base_hash, hash(Side::Theirs, theirs) != base_hash];
            if said == [true; 2] {
                said = [(Side::Ours, ours), (Side::Theirs, theirs)]
                    .map(|(side, node)| !self.only_reordered(side, base, node));
            }
            if said != [true; 2] {
                // Of a text of several lines, both what one side says and how the other lays it out.
                if let Ok(piece) = self.text(nodes, ours, theirs)
                    && !piece.disputed()
                {
                    return Ok(piece);
                }
                // It may hold what stood elsewhere, and what the other side made of that.
                let (side, node) = if said[1] { (Side::Theirs, theirs) } else { (Side::Ours, ours) };
                return Ok(self.insertion(side, node));
            }
        }
        if hash(Side::Ours, ours) == hash(Side::Theirs, theirs) {
            return Ok(Piece::Copy { version: Version::Ours, node: ours });
        }
        // Brackets that stand around it alone say nothing.
        let around = self.adds_brackets(ours, theirs);
        if let Some(side) = around.or_else(|| self.puts_around_the_same(ours, theirs, nodes.base)) {
            return Ok(Piece::Copy { version: side.into(), node: side.of(ours, theirs) });
        }
        if kinds.0 != kinds.1 {
            let grown = self.grown(nodes, ours, theirs);
            let listed = || self.made_a_list(nodes, ours, theirs);
            let another = grown.or_else(listed).or_else(|| self.in_another(nodes, ours, theirs));
            let brackets = || {
                let out = self.out_of_brackets(nodes, ours, theirs);
                out.or_else(|| self.put_in_brackets(nodes, ours, theirs))
            };
            return another.or_else(brackets).ok_or(Disagree);
        }
        if base_kind != Some(kinds.0) && !trees.ours.is_leaf(ours) && !trees.theirs.is_leaf(theirs) {
            // What was there, one side put something around, and the other took out.
            let holds = |side: Side, node: NodeId| {
                let (tree, hash) = (self.tree(side), nodes.base.map(|b| trees.base.node(b).hash));
                (node.0..tree.node(node).end.0).any(|n| Some(tree.node(NodeId(n)).hash) == hash)
            };
            if holds(Side::Ours, ours) != holds(Side::Theirs, theirs) {
                return Err(Disagree);
            }
            // Both put the same kind of thing in another's place: as if there had been nothing.
            self.match_across(ours, theirs);
            return self.children(Versions { base: None, ..nodes }, ours, theirs);
        }
        self.text(nodes, ours, theirs)
    }

    /// Merges the children of a node that is of one kind in all versions.
    pub(super) fn children(&mut self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> Outcome {
        let trees = self.trees;
        let list = trees.ours.node(ours).list;
        let parts: &[Part] = match list {
            Some(_) => &[Part::Head, Part::Entry, Part::Tail],
            None => &[Part::Plain],
        };
        // What kind of list it is, it was before either side renamed what is around it. If there was none, and the
        // sides put in two kinds, these are two things.
        if nodes.base.is_none() && list != trees.theirs.node(theirs).list {
            return Err(Disagree);
        }
        let policy = nodes.base.and_then(|b| trees.base.list_rule(b)).or_else(|| trees.ours.list_rule(ours));
        let mut items = Vec::new();
        let mut combined = false;
        for part in parts {
            let seqs = Versions {
                base: nodes.base.map_or(&[][..], |b| trees.base.part(b, *part)),
                ours: trees.ours.part(ours, *part),
                theirs: trees.theirs.part(theirs, *part),
            };
            let joined = if *part == Part::Entry { nodes.base.and_then(|b| self.joined.remove(&b)) } else { None };
            let seqs = joined.as_ref().map_or(seqs, |j| j.as_ref().map(Vec::as_slice));
            let merged = self.sequence(seqs, *part, policy);
            if merged.another {
                return Err(Disagree);
            }
            if *part == Part::Plain
                && policy.is_none()
                && merged.items.iter().any(|i| matches!(i.content, Content::Dispute(_)))
            {
                // The parts of a node that is no list belong together: half a dispute is a whole one,
                // unless it is confined to parts that stand on lines of their own.
                if merged.items.iter().any(|i| self.spoils(i)) || self.took_another_form(nodes, ours, theirs) {
                    return Err(Disagree);
                }
            }
            // What stands before a list that both put in says what is listed: under another head, it is another list.
            if nodes.base.is_none()
                && *part == Part::Head
                && policy.is_some_and(|p| !p.lines)
                && merged.items.iter().any(Item::disputed)
            {
                return Err(Disagree);
            }
            if *part == Part::Entry && items.is_empty() && self.hollow(nodes, &merged.items) {
                return Err(Disagree);
            }
            combined |= merged.combined;
            items.extend(merged.items);
        }
        Ok(Piece::Merged(Box::new(Merged { nodes, items, combined })))
    }

    /// Whether one side would be left without any statement in a list that nothing but its statements makes up.
    fn hollow(&self, nodes: Versions<Option<NodeId>>, items: &[Item]) -> bool {
        let bare = |side: Side| {
            let tree = self.tree(side);
            nodes.get(side).is_some_and(|n| {
                n != NodeId::ROOT
                    && tree.list_rule(n).is_some_and(|r| r.lines)
                    && tree.kids(n).iter().all(|k| tree.node(*k).part == Part::Entry)
            })
        };
        Side::BOTH.into_iter().any(|side| bare(side) && !items.iter().any(|item| item.read_by(side.into())))
    }

    /// Whether a disputed part has a version without anything: dropping or adding a part of a fixed
    /// form is a change of the whole form. So is a list that is in dispute as a whole.
    fn spoils(&self, item: &Item) -> bool {
        let Content::Dispute(sides) = &item.content else { return false };
        let listed = |side: Side| {
            let list = |(n, _): (NodeId, NodeId)| self.tree(side).list_rule(n).is_some_and(|r| !r.lines && !r.free);
            sides.get(side).iter().filter_map(|item| *item.edges.get(side)).any(list)
        };
        if Side::BOTH.into_iter().all(listed) {
            return true;
        }
        // Comments may come and go.
        let only_comments =
            [(Version::Base, &sides.base), (Version::Ours, &sides.ours), (Version::Theirs, &sides.theirs)].iter().all(
                |(v, items)| {
                    items.iter().all(|i| i.edges.get(*v).is_some_and(|(n, _)| self.trees.get(*v).is_comment(n)))
                },
            );
        !only_comments && (sides.ours.len() != 1 || sides.theirs.len() != 1)
    }

    /// Whether all that a side changed below a node is `inside` some pairs of nodes, of base and of that side.
    pub(super) fn changed_inside(
        &self,
        side: Side,
        base: NodeId,
        node: NodeId,
        inside: &dyn Fn(NodeId, NodeId) -> bool,
    ) -> bool {
        let (b, n) = (&self.trees.base, self.tree(side));
        let (x, y) = (b.kids(base), n.kids(node));
        b.node(base).hash == n.node(node).hash
            || inside(base, node)
            || b.node(base).kind == n.node(node).kind
                && !x.is_empty()
                && x.len() == y.len()
                && x.iter().zip(y).all(|(x, y)| self.changed_inside(side, *x, *y, inside))
    }

    /// Merges a token that both sides changed: as lines, if it has several.
    fn text(&self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> Outcome {
        let rule = self.trees.ours.language.rule(self.trees.ours.node(ours).kind);
        let Some(base) = nodes.base else {
            let remarks = self.is_remark(Side::Ours, ours) && self.is_remark(Side::Theirs, theirs);
            let texts = (self.trees.ours.node_text(ours), self.trees.theirs.node_text(theirs));
            let longer = if remarks { with_all_lines(texts.0, texts.1) } else { None };
            return longer.map(|text| Piece::Text(vec![TextPart::Plain(text.to_vec())])).ok_or(Disagree);
        };
        let texts = Versions {
            base: self.trees.base.node_text(base),
            ours: self.trees.ours.node_text(ours),
            theirs: self.trees.theirs.node_text(theirs),
        };
        if rule.quoted
            && let Some(text) = merge_ends(texts, rule, self.is_remark(Side::Ours, ours))
        {
            return Ok(Piece::Text(vec![TextPart::Plain(text)]));
        }
        if let Some((mark, texts)) = split_raw(texts, &rule.raw) {
            let rest = match (texts.base == texts.ours, texts.base == texts.theirs) {
                (true, _) => vec![TextPart::Plain(texts.theirs.to_vec())],
                (_, true) => vec![TextPart::Plain(texts.ours.to_vec())],
                _ => self.merged_text(texts, ours, rule)?,
            };
            return Ok(Piece::Text([vec![TextPart::Plain(mark.to_vec())], rest].concat()));
        }
        Ok(Piece::Text(self.merged_text(texts, ours, rule)?))
    }

    /// A text that both sides changed, line by line.
    fn merged_text(&self, texts: Versions<&[u8]>, ours: NodeId, rule: &KindRule) -> Result<Vec<TextPart>, Disagree> {
        let several = [texts.base, texts.ours, texts.theirs].iter().filter(|t| t.contains(&b'\n')).count() >= 2;
        if !rule.text || !several {
            return Err(Disagree);
        }
        let mut parts = merge_text(texts);
        if rule.comment || self.is_remark(Side::Ours, ours) {
            parts = parts.into_iter().flat_map(settle_line_ends).collect();
        }
        if self.is_remark(Side::Ours, ours) {
            parts = parts.into_iter().map(settle_indents).collect();
        }
        Ok(parts)
    }

    /// Whether a text is there to be read only.
    fn is_remark(&self, side: Side, text: NodeId) -> bool {
        let tree = self.tree(side);
        let parent = tree.node(text).parent;
        tree.language.rule(tree.node(parent).kind).remark && tree.kids(parent).len() == 1
    }

    /// A node that only one side has. What it took in from elsewhere is merged with the other side's
    /// changes to it.
    pub(super) fn insertion(&mut self, side: Side, node: NodeId) -> Piece {
        let tree = self.tree(side);
        let combined = self.is_entangled(side, node) || self.holds_taken_in(side, node);
        let gone = self.gone_from_above(side, node);
        if !combined && gone.is_empty() && !self.holds(&self.spilled, side, node) {
            return Piece::Copy { version: side.into(), node };
        }
        let mut nodes = Versions::default();
        *nodes.get_mut(side) = Some(node);
        let mut items = Vec::new();
        let mut rest = tree.kids(node).iter().copied().peekable();
        while let Some(kid) = rest.next() {
            if gone.contains(&kid) {
                continue;
            }
            let part = tree.node(kid).part;
            if part == Part::Entry
                && let Some(run) = self.taken_in.remove(&(side, node))
            {
                while rest.peek().is_some_and(|k| tree.node(*k).part == Part::Entry) {
                    rest.next();
                }
                let mut seqs = Versions { base: &run.base[..], ours: &run.other[..], theirs: &run.other[..] };
                *seqs.get_mut(side) = tree.part(node, Part::Entry);
                items.extend(self.sequence(seqs, Part::Entry, tree.list_rule(node)).items);
                continue;
            }
            items.extend(self.arrival(side, kid));
        }
        if self.hollow(nodes, &items) {
            // All that was put in here, the other side deleted.
            return Piece::Copy { version: side.into(), node };
        }
        Piece::Merged(Box::new(Merged { nodes, items, combined }))
    }

    /// Whether a node of a side holds one of some nodes of the sides.
    fn holds(&self, nodes: &[HashSet<NodeId>; 2], side: Side, node: NodeId) -> bool {
        nodes[side as usize].iter().any(|inner| self.tree(side).contains(node, *inner))
    }

    fn holds_taken_in(&self, side: Side, node: NodeId) -> bool {
        let end = self.tree(side).node(node).end;
        self.taken_in.keys().any(|(s, n)| *s == side && node <= *n && *n < end)
    }

    /// A node that one side has at a place where base has none: new there, or come from elsewhere.
    /// Nothing, if it came from elsewhere and the other side deleted it unchanged.
    pub(super) fn arrival(&mut self, side: Side, node: NodeId) -> Option<Item> {
        let part = self.tree(side).node(node).part;
        let mut edges = Edges::default();
        *edges.get_mut(side) = Some((node, node));
        let Some(base) = self.to_base(side, node) else {
            let item = Item::new(edges, part, Content::Piece(self.insertion(side, node)));
            let settled = !self.unsettled[side as usize].contains(&node);
            return Some(if settled { self.unless_spilled(side, node, item) } else { alone_in_dispute(side, item) });
        };
        let Some(other) = self.to_side(side.other(), base) else {
            // What was no entry has something else in its place now, and what the other side put in elsewhere went there,
            // whatever its place was here if places mean nothing.
            let list = self.trees.base.list_rule(self.trees.base.node(base).parent);
            let stayed = list.is_some_and(|rule| rule.free) && !self.left(side, base);
            let changed = !self.says_the_same(side, base, node);
            if changed || self.trees.base.node(base).part != Part::Entry || !stayed && self.has_anew(side.other(), base)
            {
                let mut sides = Versions { base: vec![Item::copy(Version::Base, base, part)], ..Versions::default() };
                *sides.get_mut(side) = vec![Item::copy(side.into(), node, part)];
                return Some(Item::new(edges, part, Content::Dispute(sides)));
            }
            return None;
        };
        if self.sent_out_of_its_list(side, base) {
            return None;
        }
        let mut nodes = Versions { base: Some(base), ours: Some(other), theirs: Some(other) };
        *nodes.get_mut(side) = Some(node);
        let item = self.matched_item(edges, part, nodes);
        Some(self.unless_spilled(side, node, item))
    }

    /// Whether a side moved a definition within its list that the other side has under another parent: there it stands.
    fn sent_out_of_its_list(&self, side: Side, base: NodeId) -> bool {
        is_named(&self.trees.base, base) && !self.left(side, base) && self.left(side.other(), base)
    }

    /// What came of a node that stands where one side alone has it: in dispute, if it was spilled.
    fn unless_spilled(&self, side: Side, node: NodeId, item: Item) -> Item {
        let disputed = !self.spilled[side as usize].contains(&node) || matches!(item.content, Content::Dispute(_));
        if disputed { item } else { alone_in_dispute(side, item) }
    }

    /// A node that several versions have, as an item: a dispute, if nothing smaller agrees.
    pub(super) fn matched_item(&mut self, edges: Edges, part: Part, nodes: Versions<Option<NodeId>>) -> Item {
        let branched = nodes.base.is_some_and(|base| self.branched.contains(&base));
        let merged = if branched { Err(Disagree) } else { self.try_triple(nodes) };
        let content = match merged {
            Ok(piece) => Content::Piece(piece),
            Err(Disagree) => {
                let copy = |(version, node)| Item::copy(version, node, part);
                let mut sides = versions_of(nodes).map(|n| n.map(copy).into_iter().collect::<Vec<Item>>());
                let nodes = nodes.map(|node| node.into_iter().collect::<Vec<NodeId>>());
                self.share_left_behind(nodes.as_ref().map(Vec::as_slice), part, &mut sides);
                Content::Dispute(sides)
            }
        };
        Item::new(edges, part, content)
    }
}

/// Something that one side alone has, in dispute.
fn alone_in_dispute(side: Side, item: Item) -> Item {
    let (edges, part) = (item.edges, item.part);
    let mut sides = Versions::<Vec<Item>>::default();
    sides.get_mut(side).push(item);
    Item::new(edges, part, Content::Dispute(sides))
}

fn versions_of(nodes: Versions<Option<NodeId>>) -> Versions<Option<(Version, NodeId)>> {
    Versions {
        base: nodes.base.map(|n| (Version::Base, n)),
        ours: nodes.ours.map(|n| (Version::Ours, n)),
        theirs: nodes.theirs.map(|n| (Version::Theirs, n)),
    }
}
