//! Resolving a place that both sides changed, by what the entries are.

use super::commented::commented_by_one;
use super::imports::only_imports;
use super::lists::{Work, copies};
use super::pieces::{Edges, Item};
use super::regions::{Region, covered};
use super::twins::Twin;
use super::{Merger, Side, Versions};
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use crate::matching::{Bags, dice, exceeds};
use crate::syntax::{Listed, NodeId, Part, Tree, listed_in};

/// From this similarity on, statements that both sides put in at one place are taken to be one.
pub(super) const SAME_STATEMENT: f32 = 0.75;

/// More pairs of what both sides put in are not compared one by one.
const PAIR_LIMIT: usize = 10_000;

/// One step of reading two sequences side by side.
enum Step {
    Both(NodeId, NodeId),
    Between(Vec<NodeId>, Vec<NodeId>),
}

impl Merger<'_, '_> {
    /// Resolves a region. The flag tells whether changes of both sides stand in the result.
    pub(super) fn resolve(&mut self, work: &Work<'_>, region: &Region) -> (Vec<Item>, bool) {
        let all = |side: Side| &work.seqs.get(side)[covered(work, region, side)];
        // What stands where its twin does is not here.
        let here = |side: Side| {
            let others: HashSet<&NodeId> =
                if work.twins.is_empty() { HashSet::default() } else { all(side.other()).iter().collect() };
            let elsewhere = |twin: &Twin| !twin.leads && !others.contains(&twin.node);
            let stays = |node: &&NodeId| !work.twins.get(&(side, **node)).is_some_and(elsewhere);
            all(side).iter().filter(stays).copied().collect::<Vec<NodeId>>()
        };
        let (ours, theirs) = (&here(Side::Ours)[..], &here(Side::Theirs)[..]);
        let base_range = match (work.units.get(region.units.start), region.units.is_empty()) {
            (Some(first), false) => first.base.start..work.units[region.units.end - 1].base.end,
            _ => 0..0,
        };
        let base = &work.seqs.base[base_range];
        let steps = self.side_by_side(work, ours, theirs);
        let steps = self.pair_crossed(work, steps);
        if base.is_empty() {
            let apart = self.above_the_gap(work, region);
            let first = apart.unwrap_or_else(|| region.leads(work));
            return self.united(work, steps, first, apart.is_some());
        }
        // What is common at the ends is settled; the rest is one dispute.
        let mut steps: std::collections::VecDeque<Step> = steps.into();
        let (mut front, mut back) = (Vec::new(), Vec::new());
        let equal = |m: &Self, s: Option<&Step>| matches!(s, Some(Step::Both(o, t)) if m.trees.ours.node(*o).hash == m.trees.theirs.node(*t).hash);
        while equal(self, steps.front()) {
            if let Some(Step::Both(o, t)) = steps.pop_front() {
                front.push(self.agreed(o, t, work.part));
            }
        }
        while equal(self, steps.back()) {
            if let Some(Step::Both(o, t)) = steps.pop_back() {
                back.push(self.agreed(o, t, work.part));
            }
        }
        back.reverse();
        if steps.is_empty() {
            front.extend(back);
            return (front, false);
        }
        let (mut ours, mut theirs) = (Vec::new(), Vec::new());
        for step in steps {
            let (o, t) = match step {
                Step::Both(o, t) => (vec![o], vec![t]),
                Step::Between(o, t) => (o, t),
            };
            ours.extend(o);
            theirs.extend(t);
        }
        // Beside what both put in, one has still, as it was, what the other took out too.
        let only_taken_out = |side: Side, own: &[NodeId], others: &[NodeId]| {
            let gone = |b: NodeId, n: NodeId| {
                base.contains(&b) && !self.changed(side, b, n) && self.to_side(side.other(), b).is_none()
            };
            others.is_empty() && own.iter().all(|n| self.to_base(side, *n).is_some_and(|b| gone(b, *n)))
        };
        let settled = only_taken_out(Side::Ours, &ours, &theirs) || only_taken_out(Side::Theirs, &theirs, &ours);
        if !settled {
            front.push(self.at_odds(work, Versions { base, ours: &ours, theirs: &theirs }));
        }
        front.extend(back);
        (front, settled)
    }

    /// A place that the sides read differently. What only one of them moved there, the other has elsewhere, and so
    /// what the other put in elsewhere: it stands in both readings, with the changes of both (contract K9). What one of
    /// them only moved within the list stands where it went, in both readings.
    fn at_odds(&mut self, work: &Work<'_>, nodes: Versions<&[NodeId]>) -> Item {
        let alone = |items: Vec<Item>| items.into_iter().map(|item| vec![item]).collect::<Vec<_>>();
        let mut sides = copies(nodes, work.part).map(alone);
        for side in Side::BOTH {
            for (i, node) in nodes.get(side).iter().enumerate() {
                let base = self.to_base(side, *node);
                let moved_by = |side: Side| base.filter(|b| work.moved[side as usize].contains(b));
                if moved_by(side.other()).is_some_and(|b| self.stands_beside(work, side.other(), b, nodes)) {
                    sides.get_mut(side)[i].clear();
                    continue;
                }
                let twin =
                    work.twins.get(&(side, *node)).is_some_and(|twin| !nodes.get(side.other()).contains(&twin.node));
                if !twin && moved_by(side).is_none_or(|b| nodes.base.contains(&b)) {
                    continue;
                }
                let mut shared = Vec::new();
                self.put_in_one(work, side, *node, &mut shared);
                if twin || !shared.is_empty() {
                    sides.get_mut(side.other()).push(shared.clone());
                    sides.get_mut(side)[i] = shared;
                }
            }
        }
        let mut sides = sides.map(|items| items.concat());
        self.share_left_behind(nodes, work.part, &mut sides);
        Item::dispute(sides, work.part)
    }

    /// Whether a side has a base entry in the list that is being merged, but not among some nodes: a definition, or
    /// anything else as it was.
    fn stands_beside(&self, work: &Work<'_>, side: Side, base: NodeId, nodes: Versions<&[NodeId]>) -> bool {
        let parent = |n: NodeId| self.tree(side).node(n).parent;
        let (Some(there), Some(first)) = (self.to_side(side, base), work.seqs.get(side).first()) else { return false };
        let definition = self.trees.base.entry_rule(base).is_some_and(|r| r.unique);
        (definition || !self.changed(side, base, there))
            && parent(there) == parent(*first)
            && !nodes.get(side).contains(&there)
    }

    /// Something both sides put in, if not one of them under a condition only.
    pub(super) fn agreed(&mut self, ours: NodeId, theirs: NodeId, part: Part) -> Item {
        let edges = Edges { base: None, ours: Some((ours, ours)), theirs: Some((theirs, theirs)) };
        let base = self.to_base(Side::Ours, ours).filter(|b| self.to_base(Side::Theirs, theirs) == Some(*b));
        if base.is_none() && self.trees.ours.is_conditional(ours) != self.trees.theirs.is_conditional(theirs) {
            return Item::dispute(copies(Versions { base: &[], ours: &[ours], theirs: &[theirs] }, part), part);
        }
        if base.is_none()
            && let Some(wider) = wider(self.trees, ours, theirs)
        {
            let node = if wider == Side::Ours { ours } else { theirs };
            return Item { edges, ..Item::copy(wider.into(), node, part) };
        }
        let nodes = Versions { base, ours: Some(ours), theirs: Some(theirs) };
        self.matched_item(edges, part, nodes)
    }

    /// Reads two sequences side by side: equal entries, entries that were one in base, and entries of
    /// one key stand together.
    fn side_by_side(&mut self, work: &Work<'_>, ours: &[NodeId], theirs: &[NodeId]) -> Vec<Step> {
        let trees = self.trees;
        let (mut our_bags, mut their_bags) = (Bags::default(), Bags::default());
        let lines = work.policy.is_some_and(|p| p.lines);
        let hashes =
            |tree: &Tree<'_>, nodes: &[NodeId]| -> HashSet<u64> { nodes.iter().map(|n| tree.node(*n).hash).collect() };
        let (our_hashes, their_hashes) = (hashes(&trees.ours, ours), hashes(&trees.theirs, theirs));
        let same: Vec<(usize, usize)> = common(ours, theirs, &mut |o, t| {
            let (x, y) = (trees.ours.node(o), trees.theirs.node(t));
            // What is there as it is, is not another version of something else.
            if x.hash != y.hash && (their_hashes.contains(&x.hash) || our_hashes.contains(&y.hash)) {
                return false;
            }
            let kin = trees.ours.core_kind(o) == trees.theirs.core_kind(t);
            // What has another counterpart is not this one, however like it.
            let elsewhere = |side: Side, node: NodeId, other: NodeId| {
                let counterpart = self.to_base(side, node).and_then(|b| self.to_side(side.other(), b));
                let twin = work.twins.get(&(side, node)).map(|twin| twin.node);
                counterpart.or(twin).is_some_and(|c| c != other)
            };
            if elsewhere(Side::Ours, o, t) || elsewhere(Side::Theirs, t, o) || self.imports_one_by_one(o, t) {
                return false;
            }
            x.hash == y.hash
                || commented_by_one(trees, o, t)
                || self.across.to(o) == Some(t)
                || self.to_base(Side::Ours, o).is_some_and(|b| self.to_base(Side::Theirs, t) == Some(b))
                || x.key != 0 && self.known_by(Side::Ours, o) == self.known_by(Side::Theirs, t) && kin
                || kin && wider(trees, o, t).is_some()
                || lines && self.one_by_two_names(o, t, [&mut our_bags, &mut their_bags])
                || work.part == Part::Plain && kin && is_set(&trees.ours, o) && is_set(&trees.theirs, t)
                || work.part == Part::Plain && self.adds_brackets(o, t).is_some()
                || kin && joined_list(&trees.ours, o).is_some_and(|list| joined_list(&trees.theirs, t) == Some(list))
                || lines
                    && kin
                    && (x.key == 0 || y.key == 0)
                    && trees.ours.size(o).min(trees.theirs.size(t)) >= 3
                    && dice(&our_bags.of(&trees.ours, o, true), &their_bags.of(&trees.theirs, t, true))
                        >= SAME_STATEMENT
        });
        let mut steps = Vec::new();
        let (mut i, mut j) = (0, 0);
        for (x, y) in same.into_iter().chain([(ours.len(), theirs.len())]) {
            if i < x || j < y {
                steps.push(Step::Between(ours[i..x].to_vec(), theirs[j..y].to_vec()));
            }
            if x < ours.len() {
                steps.push(Step::Both(ours[x], theirs[y]));
            }
            (i, j) = (x + 1, y + 1);
        }
        steps
    }

    /// Takes what both sides have, each at another place among what the other has, for one if it does not mind that: it
    /// stands where ours has it. So is an import that brings all that the other side's brings, and more.
    fn pair_crossed(&self, work: &Work<'_>, steps: Vec<Step>) -> Vec<Step> {
        let between = |side: Side| {
            let nodes = steps.iter().flat_map(move |step| match (step, side) {
                (Step::Between(ours, _), Side::Ours) => &ours[..],
                (Step::Between(_, theirs), Side::Theirs) => &theirs[..],
                (Step::Both(..), _) => &[],
            });
            nodes.copied().filter(move |n| self.is_independent(side, *n, work.policy)).collect::<Vec<NodeId>>()
        };
        let (ours, mut theirs) = (between(Side::Ours), between(Side::Theirs));
        let (o, t) = (&self.trees.ours, &self.trees.theirs);
        if ours.len() * theirs.len() > PAIR_LIMIT {
            return steps;
        }
        let one = |x: NodeId, y: NodeId| {
            o.node(x).hash == t.node(y).hash
                || o.is_import(x) && o.node(x).key == t.node(y).key && wider(self.trees, x, y).is_some()
        };
        let pair = |x: NodeId| {
            let at = theirs.iter().position(|y| one(x, *y))?;
            Some((x, theirs.remove(at)))
        };
        let pairs: HashMap<NodeId, NodeId> = ours.into_iter().filter_map(pair).collect();
        if pairs.is_empty() {
            return steps;
        }
        let taken: HashSet<NodeId> = pairs.values().copied().collect();
        let mut paired = Vec::new();
        for step in steps {
            let Step::Between(ours, mut theirs) = step else {
                paired.push(step);
                continue;
            };
            theirs.retain(|n| !taken.contains(n));
            let mut before = Vec::new();
            for x in ours {
                let Some(y) = pairs.get(&x) else {
                    before.push(x);
                    continue;
                };
                if !before.is_empty() {
                    paired.push(Step::Between(std::mem::take(&mut before), Vec::new()));
                }
                paired.push(Step::Both(x, *y));
            }
            if !before.is_empty() || !theirs.is_empty() {
                paired.push(Step::Between(before, theirs));
            }
        }
        paired
    }

    /// Whether what both sides put in around a list is that of the other side with more in it; or if nothing is.
    fn holds_more(&self, work: &Work<'_>, side: Side) -> bool {
        let put_in = |side: Side| {
            let tree = self.tree(side);
            let new = |node: &NodeId| *node != NodeId::ROOT && self.to_base(side, *node).is_none();
            let mut around = tree.outward(tree.node(*work.seqs.get(side).first()?).parent).take_while(new).peekable();
            let mut outermost = *around.peek()?;
            let definition = around.find(|node| {
                outermost = *node;
                tree.is_definition(*node)
            });
            Some(definition.unwrap_or(outermost))
        };
        let (Some(own), Some(other)) = (put_in(side), put_in(side.other())) else { return true };
        // There may be many such lists in one definition.
        *self.holding_more.borrow_mut().entry((side, own, other)).or_insert_with(|| {
            let words = |side: Side, node: NodeId| Bags::default().code(self.tree(side), node, true);
            exceeds(&words(side, own), &words(side.other(), other))
        })
    }

    /// Lays insertions of both sides that go together: imports above all else, but for a text that tells of all that is
    /// behind it, and comments; else those of one side first, as far as their order means nothing.
    fn together(&mut self, work: &Work<'_>, mut sides: [(Side, Vec<NodeId>); 2], items: &mut Vec<Item>) {
        let all = |what: &dyn Fn(Side, NodeId) -> bool| {
            sides.each_ref().map(|(side, nodes)| nodes.iter().all(|node| what(*side, *node)))
        };
        let imports = all(&|side, node| only_imports(self.tree(side), node));
        let foremost = |tree: &Tree<'_>, node| tree.entry_rule(node).is_some_and(|rule| rule.foremost);
        let code = all(&|side, node| {
            let (tree, remark) = (self.tree(side), self.is_first_remark(&work.seqs, side, node));
            !(tree.is_comment(node) || remark || foremost(tree, node))
        });
        if imports == [false, true] {
            sides.reverse();
        }
        if imports[0] != imports[1] && code == [true; 2] {
            self.one_after_the_other(work, &sides, items);
        } else {
            self.in_turn(work, sides, items);
        }
    }

    /// Lays insertions of both sides, the one side's behind the other's.
    fn one_after_the_other(&mut self, work: &Work<'_>, sides: &[(Side, Vec<NodeId>); 2], items: &mut Vec<Item>) {
        for (side, node) in sides.iter().flat_map(|(side, nodes)| nodes.iter().map(|node| (*side, *node))) {
            self.put_in_one(work, side, node, items);
        }
    }

    /// Unites insertions of both sides at one place of base, those of one side first. Those that stand `apart` do not
    /// disagree, whatever they are.
    fn united(&mut self, work: &Work<'_>, steps: Vec<Step>, first: Side, apart: bool) -> (Vec<Item>, bool) {
        let mut items = Vec::new();
        let mut both = false;
        // What base has nothing of, and one side alone has where places mean something: whether it means the same at any
        // other, which items it is, and which nodes.
        let mut alone = Vec::new();
        let lines = work.policy.is_some_and(|p| p.lines);
        let baseless = work.seqs.base.is_empty() && work.part == Part::Entry && work.policy.is_some_and(|p| !p.free);
        for step in steps {
            match step {
                Step::Both(o, t) => items.push(self.agreed(o, t, work.part)),
                Step::Between(ours, theirs) if ours.is_empty() || theirs.is_empty() => {
                    both = true;
                    let (side, nodes) = if theirs.is_empty() { (Side::Ours, &ours) } else { (Side::Theirs, &theirs) };
                    let start = items.len();
                    for node in nodes {
                        self.put_in_one(work, side, *node, &mut items);
                    }
                    let loose = baseless && nodes.iter().all(|n| self.is_loose(work, side, *n));
                    if baseless && !(loose && lines) {
                        let nodes = Versions { base: Vec::new(), ours, theirs };
                        alone.push((side, loose, start..items.len(), nodes));
                    }
                }
                Step::Between(ours, theirs) if apart => {
                    both = true;
                    self.one_after_the_other(work, &led_by(first, ours, theirs), &mut items);
                }
                Step::Between(ours, theirs) if self.compatible(work, &ours, &theirs) => {
                    both = true;
                    self.together(work, led_by(first, ours, theirs), &mut items);
                }
                Step::Between(ours, theirs) if self.comments_alone(work, &ours, &theirs) => {
                    // A comment says something of what follows, and stays before it; or of the whole file, and goes first.
                    both = true;
                    let of = |side: Side, nodes: Vec<NodeId>| nodes.into_iter().map(move |n| (side, n));
                    let mut all: Vec<_> = of(Side::Ours, ours).chain(of(Side::Theirs, theirs)).collect();
                    all.sort_by_cached_key(|(side, node)| match self.tree(*side).is_comment(*node) {
                        true if self.heads_the_file(*side, *node) => 0,
                        comment => 1 + u8::from(comment),
                    });
                    for (side, node) in all {
                        self.put_in_one(work, side, node, &mut items);
                    }
                }
                Step::Between(ours, theirs) => {
                    items.push(self.at_odds(work, Versions { base: &[], ours: &ours, theirs: &theirs }));
                }
            }
        }
        // If not one side is the other with more in it, nobody can tell whether what stands in one alone belongs into
        // the other.
        let by = |side: Side| alone.iter().any(|(s, loose, ..)| *s == side && !loose);
        let open = match Side::BOTH.map(by) {
            [true, true] => true,
            [false, false] => false,
            [ours, _] => !self.holds_more(work, if ours { Side::Ours } else { Side::Theirs }),
        };
        if open || items.iter().any(Item::disputed) {
            for (.., range, nodes) in alone.into_iter().rev().filter(|(_, loose, ..)| open || !loose) {
                let item = self.at_odds(work, nodes.as_ref().map(Vec::as_slice));
                items.splice(range, [item]);
            }
        }
        (items, both)
    }
}

/// What each side has, that of one of them first.
fn led_by(first: Side, ours: Vec<NodeId>, theirs: Vec<NodeId>) -> [(Side, Vec<NodeId>); 2] {
    let (ours, theirs) = ((Side::Ours, ours), (Side::Theirs, theirs));
    if first == Side::Ours { [ours, theirs] } else { [theirs, ours] }
}

/// Whether a node is a list in which only membership means something, and no definitions are: with other fields a type
/// is another one.
fn is_set(tree: &Tree<'_>, node: NodeId) -> bool {
    let defines = |entry: &NodeId| tree.entry_rule(*entry).is_some_and(|rule| rule.unique);
    tree.list_rule(node).is_some_and(|rule| rule.free && !rule.lines)
        && !tree.part(node, Part::Entry).iter().any(defines)
}

/// The kind of list that what stands before an entry holds, if all such lists there are one.
fn joined_list(tree: &Tree<'_>, prefix: NodeId) -> Option<u16> {
    let node = tree.node(prefix);
    let mut inside = (prefix.0..node.end.0).map(NodeId).filter(|_| tree.language.rule(node.kind).prefix);
    inside.find(|n| tree.list_rule(*n).is_some_and(|rule| rule.together)).and_then(|n| tree.node(n).list)
}

/// The side whose import brings all that the other side's brings, and more.
fn wider(trees: &Versions<Tree<'_>>, ours: NodeId, theirs: NodeId) -> Option<Side> {
    let ids = |tree: &Tree<'_>, entry: NodeId| -> HashSet<u64> {
        let listed = if tree.entry_rule(entry).is_some() { listed_in(tree, entry) } else { Vec::new() };
        listed.iter().filter(|one| one.value.is_none()).map(Listed::id).collect()
    };
    let (own, other) = (ids(&trees.ours, ours), ids(&trees.theirs, theirs));
    match (other.is_subset(&own), own.is_subset(&other)) {
        _ if own.is_empty() || other.is_empty() => None,
        (true, false) => Some(Side::Ours),
        (false, true) => Some(Side::Theirs),
        _ => None,
    }
}

/// A longest common subsequence by `same` for short sequences, the common ends for long ones.
fn common(a: &[NodeId], b: &[NodeId], same: &mut dyn FnMut(NodeId, NodeId) -> bool) -> Vec<(usize, usize)> {
    let start = a.iter().zip(b).take_while(|(x, y)| same(**x, **y)).count();
    let end = a[start..].iter().rev().zip(b[start..].iter().rev()).take_while(|(x, y)| same(**x, **y)).count();
    let mut pairs: Vec<(usize, usize)> = (0..start).map(|i| (i, i)).collect();
    let (m, n) = (a.len() - start - end, b.len() - start - end);
    if m * n <= PAIR_LIMIT {
        let width = n + 1;
        let mut best = vec![0u32; (m + 1) * width];
        let mut equal = vec![false; m * n];
        for i in (0..m).rev() {
            for j in (0..n).rev() {
                equal[i * n + j] = same(a[start + i], b[start + j]);
                best[i * width + j] = if equal[i * n + j] {
                    best[(i + 1) * width + j + 1] + 1
                } else {
                    best[(i + 1) * width + j].max(best[i * width + j + 1])
                };
            }
        }
        let (mut i, mut j) = (0, 0);
        while i < m && j < n {
            if equal[i * n + j] {
                pairs.push((start + i, start + j));
                (i, j) = (i + 1, j + 1);
            } else if best[(i + 1) * width + j] >= best[i * width + j + 1] {
                i += 1;
            } else {
                j += 1;
            }
        }
    }
    pairs.extend((0..end).map(|k| (a.len() - end + k, b.len() - end + k)));
    pairs
}
