//! What was drawn out of a statement: it has a name now, which is given right above, and the name stands in its place.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::wraps::{HELD_TOKENS, NODES_SEARCHED};
use super::{Drawn, Matcher};
use crate::grammar::Kind;
use crate::once;
use crate::syntax::{NodeId, Part, Token, Tree};

impl Matcher<'_, '_> {
    /// Matches parts of statements with the values of names that are new right above them and stand in their places: an
    /// edit of such a part is one of the value.
    pub(super) fn drawn(&mut self) {
        let lists: Vec<NodeId> = (0..self.to.len() as u32).map(NodeId).filter(|n| self.to.is_block(*n)).collect();
        for list in lists {
            let Some(before) = self.matching.from(list) else { continue };
            if self.from.node(before).hash == self.to.node(list).hash {
                continue;
            }
            let statements = |tree: &Tree<'_>, list: NodeId| -> Vec<NodeId> {
                tree.part(list, Part::Entry).iter().copied().filter(|n| !tree.is_comment(*n)).collect()
            };
            let own = statements(self.to, list);
            if own.iter().all(|n| self.matching.from(*n).is_some()) {
                continue;
            }
            let old = statements(self.from, before);
            let place: HashMap<NodeId, usize> = old.iter().enumerate().map(|(i, n)| (*n, i)).collect();
            let mut often = Often { lists: (before, list), counts: None };
            // Where the last one that both have stands in each.
            let (mut at, mut from) = (0, 0);
            for (i, entry) in own.iter().copied().enumerate().map(|(i, n)| (i, Some(n))).chain([(own.len(), None)]) {
                let counterpart = entry.and_then(|entry| self.matching.from(entry));
                if entry.is_some() && counterpart.is_none() {
                    continue;
                }
                let until = counterpart.map_or(Some(old.len()), |n| place.get(&n).copied());
                let new = &own[at..i];
                if let (Some(old), Some(entry)) = (counterpart, entry)
                    && !new.is_empty()
                    && self.from.node(old).hash != self.to.node(entry).hash
                {
                    self.drawn_out_of(old, entry, new, &mut often);
                }
                if let Some([only]) = until.and_then(|until| old.get(from..until))
                    && self.matching.to(*only).is_none()
                {
                    self.named_in(*only, new, &mut often);
                }
                (at, from) = (i + 1, until.map_or(from, |until| until + 1));
            }
        }
    }

    /// Matches a statement with one that is the same but for a part that has a name now, and that part with the value of
    /// the name, which is given in another of those that are `new` in its place.
    fn named_in(&mut self, old: NodeId, new: &[NodeId], often: &mut Often) {
        let (from, to) = (self.from, self.to);
        let left = from.tokens(old);
        for (i, entry) in new.iter().enumerate().skip(1).rev() {
            let right = to.tokens(*entry);
            let same = |(x, y): &(&Token, &Token)| x.hash == y.hash;
            let before = left.iter().zip(right).take_while(same).count();
            if before >= right.len() || from.core_kind(old) != to.core_kind(*entry) {
                continue;
            }
            let behind = right.len() - before - 1;
            let ends = left.len() > right.len()
                && left[left.len() - behind..].iter().zip(&right[before + 1..]).all(|p| same(&p));
            if !ends {
                continue;
            }
            let name = to.text(right[before].span);
            let part = &left[before..left.len() - behind];
            let stands = |n: NodeId| to.tokens(n).windows(part.len()).any(|w| w.iter().zip(part).all(|p| same(&p)));
            let given =
                |n: &NodeId| stands(*n) && to.declared_directly(*n).into_iter().any(|span| to.text(span) == name);
            if new[..i].iter().any(given) {
                self.pair(old, *entry);
                let known = self.matching.drawn.len();
                self.drawn_out_of(old, *entry, &new[..i], often);
                if let Some(Drawn { part, .. }) = self.matching.drawn.get(known).copied() {
                    self.matching.drawn.push(Drawn { part, node: old, counterpart: *entry });
                }
                return;
            }
        }
    }

    /// Matches parts of one statement with values in those that are `new` above its counterpart. Of what stands more than
    /// once in either list, an edit may be meant for one place only.
    fn drawn_out_of(&mut self, old: NodeId, entry: NodeId, new: &[NodeId], often: &mut Often) {
        let (from, to) = (self.from, self.to);
        // A definition is called where its name stands, and of what is under a condition nobody knows whether it is done.
        let gives = |n: &&NodeId| !to.is_definition(**n) && !near(to, **n).iter().any(|id| to.is_block(*id));
        let new: Vec<NodeId> = new.iter().filter(gives).copied().collect();
        if new.is_empty() {
            return;
        }
        let parts = once::by_key(near(from, old).into_iter().map(|x| (known(from, x), x)));
        let still: HashSet<_> = near(to, entry).into_iter().map(|y| known(to, y)).collect();
        let mut given: HashMap<_, Option<(NodeId, NodeId)>> = HashMap::default();
        for statement in &new {
            let values = near(to, *statement).into_iter().map(|y| (known(to, y), (*statement, y)));
            for (key, value) in once::by_key(values) {
                given.entry(key).and_modify(|found| *found = None).or_insert(value);
            }
        }
        let mut found: Vec<(NodeId, NodeId, NodeId)> = given
            .into_iter()
            .filter(|(key, _)| !still.contains(key))
            .filter_map(|(key, value)| {
                let (statement, y) = value?;
                Some((parts.get(&key).copied()??, statement, y))
            })
            .collect();
        found.retain(|(x, ..)| often.once(from, to, known(from, *x)));
        // What is in others goes with them.
        found.sort_unstable();
        for (x, statement, y) in found {
            if self.matching.from(y).is_some() {
                continue;
            }
            let names: HashSet<&[u8]> = to.declared_directly(statement).into_iter().map(|name| to.text(name)).collect();
            let stands_for = |n: NodeId| to.is_leaf(n) && names.contains(to.node_text(n));
            match self.matching.to(x) {
                None if to.inside(entry).any(stands_for) => {}
                Some(name) if stands_for(to.node(name).core) => self.matching.unpair(x, name),
                _ => continue,
            }
            self.matching.pair_equal(from, x, to, y);
            self.matching.drawn.push(Drawn { part: x, node: x, counterpart: y });
        }
    }
}

/// What a node says, and what it is.
type Known = (u64, Kind);

fn known(tree: &Tree<'_>, node: NodeId) -> Known {
    (tree.node(node).hash, tree.node(node).kind)
}

/// What is in a node, as far as it is searched, that is long enough to be known by what it says.
fn near(tree: &Tree<'_>, node: NodeId) -> Vec<NodeId> {
    let end = tree.node(node).end.0.min(node.0 + NODES_SEARCHED);
    (node.0 + 1..end).map(NodeId).filter(|id| tree.size(*id) >= HELD_TOKENS).collect()
}

/// How often things stand in two lists, once that was asked for.
struct Often {
    lists: (NodeId, NodeId),
    counts: Option<HashMap<Known, [u32; 2]>>,
}

impl Often {
    /// Whether something stands once in each.
    fn once(&mut self, from: &Tree<'_>, to: &Tree<'_>, one: Known) -> bool {
        let lists = self.lists;
        let counts = self.counts.get_or_insert_with(|| {
            let mut counts: HashMap<Known, [u32; 2]> = HashMap::default();
            for (side, (tree, list)) in [(from, lists.0), (to, lists.1)].into_iter().enumerate() {
                for id in tree.inside(list).filter(|id| tree.size(*id) >= HELD_TOKENS) {
                    counts.entry(known(tree, id)).or_default()[side] += 1;
                }
            }
            counts
        });
        counts.get(&one) == Some(&[1, 1])
    }
}
