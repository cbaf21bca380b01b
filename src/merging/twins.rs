//! Entries that both sides put in, or moved, are one.

use std::cell::LazyCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::hunks::Hunk;
use super::lists::{SAME_TOKENS, Work};
use super::units::Unit;
use super::{Merger, Side, Versions};
use crate::matching::match_pair;
use crate::once;
use crate::syntax::{Node, NodeId, Part, Token, Tree, mix};

/// What an entry that a side put in is on the other side.
#[derive(Clone, Copy)]
pub(super) struct Twin {
    pub node: NodeId,
    /// Whether both stand where the entry does, and not where its twin does.
    pub leads: bool,
}

/// Twins, by side and entry.
pub(super) type Twins = HashMap<(Side, NodeId), Twin>;

impl Merger<'_, '_> {
    /// Entries known by a name stand once, wherever the sides put them, or moved them to: at the first of the two places,
    /// whichever side that is of, but not beside what the other side moved away, nor instead of what it took out, if they may
    /// stand elsewhere. Those that what stands between tells apart are two, and so are those that stand for two entries of
    /// base. In a list of statements, what the other side put in elsewhere may be one too.
    pub(super) fn twins(&self, seqs: &Versions<&[NodeId]>, units: &[Unit], hunks: &[Hunk], lines: bool) -> Twins {
        let put_in = |side: Side| {
            let hunks = hunks.iter().filter(move |h| h.side == side);
            hunks.flat_map(move |h| seqs.get(side)[h.put_in.clone()].iter().copied())
        };
        let base_keys: LazyCell<HashSet<u64>, _> =
            LazyCell::new(|| seqs.base.iter().map(|base| self.trees.base.node(*base).key).collect());
        // Of two values for one name, each put in by a side, the one that stands behind would be all that counts.
        let set_once = |side: Side, node: NodeId| {
            let (tree, Node { parent, key, .. }) = (self.tree(side), self.tree(side).node(node));
            tree.sets_for_good(node) && !self.several(side).contains(&(*parent, *key)) && !base_keys.contains(key)
        };
        let named = |side: Side, node: NodeId| {
            let tree = self.tree(side);
            let named = match tree.entry_rule(node) {
                Some(rule) if !rule.key.is_empty() => rule.free || rule.unique || set_once(side, node),
                _ => tree.list_rule(tree.node(node).parent).is_some_and(|r| r.free),
            };
            named && self.known_by(side, node) != 0
        };
        // What has no name is the same only if all of it is; if that is little, at one place only.
        let short = |side: Side, node: NodeId| {
            let tree = self.tree(side);
            tree.size(node) < SAME_TOKENS && !tree.tells(node) && !named(side, node)
        };
        let is_new = |side: Side, node: NodeId| self.to_base(side, node).is_none() && !self.tree(side).is_comment(node);
        // What has the name of another that the same side put in is known by all that it says.
        let shared: HashSet<u64> = {
            let of = |side: Side| {
                let new = put_in(side).filter(move |node| is_new(side, *node) && named(side, *node));
                let mut once = HashSet::default();
                let names = new.map(|node| self.known_by(side, node)).filter(|name| !once.insert(*name));
                names.collect::<Vec<u64>>()
            };
            Side::BOTH.into_iter().flat_map(of).collect()
        };
        let new = |side: Side| {
            let tree = self.tree(side);
            let told = |node: NodeId| {
                if !is_new(side, node) {
                    return None;
                }
                let known = match named(side, node) {
                    true if shared.contains(&self.known_by(side, node)) => Some(tree.core_hash(node)),
                    true => Some(self.known_by(side, node)),
                    false => {
                        let ranked = || tree.entry_rule(node).is_some_and(|rule| rule.key.is_empty() && rule.rank > 0);
                        let may_be_short = || {
                            tree.is_statement(node) || tree.is_prefix(node) || is_named_entry(tree, node) || ranked()
                        };
                        Some(tree.core_hash(node)).filter(|_| !short(side, node) || may_be_short())
                    }
                };
                Some((known?, node))
            };
            once::by_key(put_in(side).filter_map(told))
        };
        let (ours, theirs) = (new(Side::Ours), new(Side::Theirs));
        let alike = ours.into_iter().filter_map(|(key, o)| Some((o?, (*theirs.get(&key)?)?)));
        let arrived: HashSet<NodeId> = put_in(Side::Theirs).collect();
        let moved = put_in(Side::Ours).filter_map(|o| {
            let t = self.to_side(Side::Theirs, self.to_base(Side::Ours, o)?)?;
            arrived.contains(&t).then_some((o, t))
        });
        let mut places: HashMap<(Side, NodeId), (bool, usize, usize)> = HashMap::default();
        for hunk in hunks {
            let beside = [hunk.units.start.checked_sub(1), Some(hunk.units.end)].into_iter().flatten();
            let other = hunk.side.other() as usize;
            let left = beside.filter_map(|u| units.get(u)).any(|unit| unit.moved[other]);
            // What both made another thing, and the other side has elsewhere.
            let gone = units[hunk.units.clone()].iter().any(|unit| unit.sides[other].is_none());
            let place = (left || gone, hunk.units.start, hunk.units.end);
            places.extend(seqs.get(hunk.side)[hunk.put_in.clone()].iter().map(|node| ((hunk.side, *node), place)));
        }
        let both_ways = |(o, t)| {
            let ours_leads = places[&(Side::Ours, o)] <= places[&(Side::Theirs, t)];
            let (ours, theirs) = (Twin { node: t, leads: ours_leads }, Twin { node: o, leads: !ours_leads });
            [((Side::Ours, o), ours), ((Side::Theirs, t), theirs)]
        };
        let tells_apart = |i: &usize| self.trees.base.entry_rule(seqs.base[*i]).is_some_and(|r| r.barrier);
        let barriers: Vec<usize> = (0..seqs.base.len()).filter(tells_apart).collect();
        let start = |unit: usize| units.get(unit).map_or(seqs.base.len(), |unit| unit.base.start);
        let behind = |unit: usize| barriers.partition_point(|at| *at < start(unit));
        // What a function does in two places is done twice. If it gives no name a value, several statements are enough
        // between the two; else, and beside one, base has to have the same statement too: then it says nothing of its own.
        let done_again = |o: NodeId, far: bool| {
            let tree = &self.trees.ours;
            let acts = || tree.node(o).key == 0 && tree.declared(o).is_empty() && tree.definition_around(o).is_some();
            lines
                && !named(Side::Ours, o)
                && is_new(Side::Ours, o)
                && (far && acts() || self.said_in_base().contains(&tree.core_hash(o)))
        };
        let one = |(o, t): &(NodeId, NodeId)| {
            let ((_, start, end), (_, first, last)) = (places[&(Side::Ours, *o)], places[&(Side::Theirs, *t)]);
            let apart = end < first || last < start;
            let far = end + 1 < first || last + 1 < start;
            // Each stands in the place of another entry.
            let replace_others = start < end && first < last && (end <= first || last <= start);
            behind(start) == behind(first)
                && !replace_others
                && !(apart && (self.given_anew(*o, *t) || short(Side::Ours, *o) || done_again(*o, far)))
                && !self.imports_one_by_one(*o, *t)
        };
        let mut twins: Twins = alike.chain(moved).filter(one).flat_map(both_ways).collect();
        for side in Side::BOTH.into_iter().filter(|_| lines) {
            let new = put_in(side).filter(|node| self.to_base(side, *node).is_none());
            let alone: Vec<NodeId> = new.filter(|node| !twins.contains_key(&(side, *node))).collect();
            let elsewhere = |node| Some(((side, node), Twin { node: self.went_along(side, node)?, leads: false }));
            twins.extend(alone.into_iter().filter_map(elsewhere));
        }
        twins
    }

    /// Whether what both sides put in says something of a name of which a side has more to say in the same list: at another
    /// place, that stands behind something else.
    fn given_anew(&self, ours: NodeId, theirs: NodeId) -> bool {
        [(Side::Ours, ours), (Side::Theirs, theirs)].into_iter().any(|(side, node)| {
            let (tree, Node { parent, key, .. }) = (self.tree(side), self.tree(side).node(node));
            let free = tree.entry_rule(node).is_none_or(|rule| rule.free || rule.unique);
            *key != 0 && !free && self.several(side).contains(&(*parent, *key))
        })
    }

    /// Whether a side made two of an entry whose place means something, each under a name of its own and with the rest of
    /// it, and the other side changed the entry: what it did to it, it did to both.
    pub(super) fn parted_in_copies(&self, work: &Work<'_>, unit: &Unit) -> bool {
        let base = work.seqs.base[unit.base.start];
        let placed = |tree: &Tree<'_>, n: NodeId| {
            tree.node(n).key != 0 && tree.entry_rule(n).is_some_and(|rule| !rule.free && !rule.key.is_empty())
        };
        let parted = |side: Side| {
            let tree = self.tree(side);
            let Some(node) = unit.sides[side as usize].clone().map(|place| work.seqs.get(side)[place.start]) else {
                return false;
            };
            let (kids, at) = (tree.kids(tree.node(node).parent), tree.node(node).position as usize);
            let beside = [at.checked_sub(1), Some(at + 1)].into_iter().flatten().filter_map(|at| kids.get(at));
            let copy = |n: &NodeId| {
                self.to_base(side, *n).is_none() && placed(tree, *n) && beside_key(tree, *n) == beside_key(tree, node)
            };
            let renamed = tree.node(node).key != self.trees.base.node(base).key;
            renamed && placed(tree, node) && beside.copied().any(|n| copy(&n)) && tree.size(node) >= SAME_TOKENS
        };
        Side::BOTH.into_iter().any(|side| self.differs(work, unit, side.other()) && parted(side))
    }

    /// What tells an entry that a side put in from others: its key; where the side has several of that key in the list,
    /// as the accessors of a property are, what tells these apart too.
    pub(super) fn known_by(&self, side: Side, entry: NodeId) -> u64 {
        let (tree, node) = (self.tree(side), self.tree(side).node(entry));
        let varies = node.key != 0 && tree.entry_rule(entry).is_some_and(|rule| rule.variant.is_some());
        match varies && self.several(side).contains(&(node.parent, node.key)) {
            true => tree.variants(entry).into_iter().fold(node.key, mix),
            false => node.key,
        }
    }

    /// What the statements of base say, by their hashes.
    fn said_in_base(&self) -> &HashSet<u64> {
        self.said_in_base.get_or_init(|| {
            let base = &self.trees.base;
            let statements = (0..base.len() as u32).map(NodeId).filter(|id| base.is_statement(*id));
            statements.map(|id| base.core_hash(id)).collect()
        })
    }

    /// The keys that a side has more than once in a list, with the list.
    pub(super) fn several(&self, side: Side) -> &HashSet<(NodeId, u64)> {
        let all = |side: Side| {
            let (tree, mut once) = (self.tree(side), HashSet::default());
            let nodes = (0..tree.len() as u32).map(|id| tree.node(NodeId(id)));
            let keys = nodes.filter(|n| n.part == Part::Entry && n.key != 0).map(|n| (n.parent, n.key));
            keys.filter(|key| !once.insert(*key)).collect()
        };
        &self.several.get_or_init(|| Side::BOTH.map(all))[side as usize]
    }

    /// Takes what both sides have elsewhere in the list, changed, for base's of that name: they would not move by it alone.
    pub(super) fn found_again(&mut self, seqs: &Versions<&[NodeId]>) {
        let lost = |base: &&NodeId| Side::BOTH.into_iter().all(|side| self.to_side(side, **base).is_none());
        let lost: Vec<NodeId> = seqs.base.iter().filter(lost).copied().collect();
        if lost.is_empty() {
            return;
        }
        let by_name = |tree: &Tree<'_>, nodes: &mut dyn Iterator<Item = NodeId>| {
            once::by_key(nodes.filter(|n| tree.node(*n).key != 0).map(|node| (tree.node(node).key, node)))
        };
        let old = by_name(&self.trees.base, &mut lost.iter().copied());
        let new = Side::BOTH.map(|side| {
            let mut new = seqs.get(side).iter().copied().filter(|n| self.to_base(side, *n).is_none());
            by_name(self.tree(side), &mut new)
        });
        for base in lost {
            let key = self.trees.base.node(base).key;
            let named = |names: &HashMap<u64, Option<NodeId>>| names.get(&key).copied().flatten();
            let (Some(_), Some(ours), Some(theirs)) = (named(&old), named(&new[0]), named(&new[1])) else { continue };
            for (side, node) in [(Side::Ours, ours), (Side::Theirs, theirs)] {
                match_pair(&self.trees.base, base, self.trees.get(side), node, &mut self.matched[side as usize]);
            }
        }
    }

    /// Takes what one side has in place of an entry of base, where it put in just what the other side made of that, for the
    /// same of it.
    pub(super) fn made_alike(&mut self, seqs: &Versions<&[NodeId]>) {
        for side in Side::BOTH {
            let (tree, there) = (self.tree(side), self.tree(side.other()));
            let lost = seqs.base.iter().filter(|base| self.to_side(side, **base).is_none());
            let made = lost.filter_map(|base| {
                let made = self.to_side(side.other(), *base)?;
                self.changed(side.other(), *base, made).then(|| (there.core_hash(made), *base))
            });
            let made = once::by_key(made);
            if made.is_empty() {
                continue;
            }
            let new = seqs.get(side).iter().filter(|node| self.to_base(side, **node).is_none());
            let new = once::by_key(new.map(|node| (tree.core_hash(*node), *node)));
            let pairs = made.into_iter().filter_map(|(said, base)| Some((base?, (*new.get(&said)?)?)));
            for (base, node) in pairs.collect::<Vec<_>>() {
                match_pair(&self.trees.base, base, self.trees.get(side), node, &mut self.matched[side as usize]);
            }
        }
    }

    /// Takes an entry for a new one and not for base's, changed, where the other side has the same text too, from
    /// elsewhere: else it would stand twice. Where places mean something, not if there it stands for another of base's.
    pub(super) fn part_from_others(&mut self, seqs: &Versions<&[NodeId]>, free: bool) {
        let texts = Side::BOTH.map(|side| {
            let tree = self.tree(side);
            let told = |node: &NodeId| {
                let may_be_short =
                    || is_named_entry(tree, *node) || tree.is_statement(*node) && !tree.is_comment(*node);
                self.says_enough(side, *node) || tree.node(*node).key == 0 && may_be_short()
            };
            let nodes = seqs.get(side).iter().copied().filter(told);
            once::by_key(nodes.map(|node| (tree.core_hash(node), node)))
        });
        for side in Side::BOTH {
            let tree = self.tree(side);
            for (text, node) in &texts[side as usize] {
                if let Some(node) = *node
                    && let Some(base) = self.to_base(side, node)
                    && self.trees.base.core_hash(base) != *text
                    && (tree.node(node).key == 0 || self.may_be_another(side, base, node))
                    && let Some(Some(other)) = texts[side.other() as usize].get(text)
                    && (self.says_enough(side, node) || self.stands_right_beside(side.other(), base, *other))
                    && self
                        .to_base(side.other(), *other)
                        .is_none_or(|there| there != base && (free || self.trees.base.core_hash(there) == *text))
                {
                    self.matched[side as usize].part(&self.trees.base, base, self.trees.get(side), node);
                }
            }
        }
    }

    /// Whether what a side has in the place of a base entry known by a name may as well be new: it has another name, or may be
    /// there more than once, and the other side has the entry as it was.
    fn may_be_another(&self, side: Side, base: NodeId, node: NodeId) -> bool {
        let (tree, other) = (self.tree(side), side.other());
        (tree.is_import(node) || tree.node(node).key != self.trees.base.node(base).key)
            && self.to_side(other, base).is_some_and(|there| !self.changed(other, base, there))
    }

    fn says_enough(&self, side: Side, entry: NodeId) -> bool {
        let tree = self.tree(side);
        let long = || tree.size(entry) >= SAME_TOKENS && is_placed_freely(tree, entry);
        tree.tells(entry) || tree.is_prefix(entry) || long()
    }

    /// Whether an entry of a side stands right before or behind what it has of one of base, unchanged.
    fn stands_right_beside(&self, side: Side, base: NodeId, entry: NodeId) -> bool {
        let tree = self.tree(side);
        self.to_side(side, base).filter(|own| !self.changed(side, base, *own)).is_some_and(|own| {
            let (x, y) = (tree.node(own), tree.node(entry));
            x.parent == y.parent && x.position.abs_diff(y.position) == 1
        })
    }

    /// Base in the order that both sides put it in, if they did: then neither moved anything.
    pub(super) fn reordered(&self, seqs: &Versions<&[NodeId]>) -> Option<Vec<NodeId>> {
        let places = Side::BOTH.map(|side| {
            let own: HashMap<NodeId, usize> = seqs.get(side).iter().enumerate().map(|(i, n)| (*n, i)).collect();
            let place = |base: &NodeId| own.get(&self.to_side(side, *base)?).copied();
            seqs.base.iter().map(place).collect::<Vec<_>>()
        });
        if places.iter().any(|places| places.iter().flatten().is_sorted()) {
            return None;
        }
        let mut common: Vec<usize> =
            (0..seqs.base.len()).filter(|i| places.iter().all(|places| places[*i].is_some())).collect();
        common.sort_by_key(|i| places[0][*i]);
        if !common.iter().is_sorted_by_key(|i| places[1][*i]) {
            return None;
        }
        // What a side took out, or has elsewhere, stays behind what it stood behind.
        let mut behind: Vec<Vec<NodeId>> = vec![Vec::new(); seqs.base.len() + 1];
        let mut last = 0;
        for (i, node) in seqs.base.iter().enumerate() {
            match places.iter().all(|places| places[i].is_some()) {
                true => last = i + 1,
                false => behind[last].push(*node),
            }
        }
        let mut order = std::mem::take(&mut behind[0]);
        for i in common {
            order.push(seqs.base[i]);
            order.append(&mut behind[i + 1]);
        }
        Some(order)
    }
}

/// Whether an entry of a list names something: two of them that say the same are more than two equal numbers are.
fn is_named_entry(tree: &Tree<'_>, entry: NodeId) -> bool {
    is_placed_freely(tree, entry) && says_a_name(tree, entry)
}

/// Whether a node has a word in it that may be a name.
pub(super) fn says_a_name(tree: &Tree<'_>, node: NodeId) -> bool {
    let is_name = |token: &Token| token.word && tree.text(token.span).first().is_some_and(u8::is_ascii_alphabetic);
    tree.tokens(node).iter().any(is_name)
}

/// Whether an entry is none of the arguments of a call: what one of these is, its place says.
fn is_placed_freely(tree: &Tree<'_>, entry: NodeId) -> bool {
    let list = tree.node(entry).parent;
    let called = match tree.kids(tree.node(list).parent) {
        [called, listed] => *listed == list && !tree.node(*called).anonymous,
        _ => false,
    };
    tree.node(entry).part == Part::Entry && !called && !tree.is_comment(entry)
}

/// What an entry says beside its key. The hashes of a tree will not do: one of two equal lists may not be looked into.
fn beside_key<'s>(tree: &Tree<'s>, entry: NodeId) -> Vec<&'s [u8]> {
    let key: Vec<NodeId> = tree.key_parts(entry).collect();
    let kids = tree.kids(tree.node(entry).core).iter().filter(|k| !key.contains(&tree.node(**k).core));
    kids.flat_map(|k| tree.node_text(*k).split(u8::is_ascii_whitespace)).filter(|part| !part.is_empty()).collect()
}
