//! What one side took out of a list and says in a statement of its own, and the other way round.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::{Merger, Side};
use crate::matching::Bags;
use crate::syntax::{NodeId, Part, Tree};

/// So many tokens more than an entry of a list a statement may have that says nothing but that.
const MORE_TOKENS: u32 = 6;

/// What stands in more new entries than this tells none of them.
const COMMON: usize = 50;

/// What is new in a tree, by what stands in it.
type New = HashMap<u64, Vec<NodeId>>;

impl Merger<'_, '_> {
    /// For each side, what says in another way what it took out of base, where the other side took that out too and says
    /// it nowhere: the statement `board["unit"] = "m"` for a pair of a `dict`, or that pair for the statement. As the
    /// places of the two are others, it would stand as if the other side had no say in it.
    pub(super) fn restated(&self) -> [HashSet<NodeId>; 2] {
        let mut found = [HashSet::default(), HashSet::default()];
        let base = &self.trees.base;
        let mut gone = (0..base.len() as u32).map(NodeId).filter(|id| self.gone_for_both(*id)).peekable();
        if gone.peek().is_none() {
            return found;
        }
        let (entries, statements) =
            (Side::BOTH.map(|s| self.put_in_anew(s, is_listed)), Side::BOTH.map(|s| self.put_in_anew(s, is_short)));
        let (mut old_bags, mut bags) = (Bags::default(), [Bags::default(), Bags::default()]);
        for old in gone {
            let was_listed = is_listed(base, old);
            let words = old_bags.of(base, old, false);
            let leaves: Vec<u64> = leaves(base, old).collect();
            let mut says = |side: Side| {
                let (tree, own) = (self.tree(side), side as usize);
                let here = base.definition_around(old).and_then(|old| self.to_side(side, old));
                let new = if was_listed { &statements[own] } else { &entries[own] };
                let same = |n: &NodeId| {
                    let bag = bags[own].of(tree, *n, false);
                    let (before, now) = ((base.size(old), &words), (tree.size(*n), &bag));
                    let (listed, statement) = if was_listed { (before, now) } else { (now, before) };
                    listed.1.len() > 1
                        && statement.0 <= listed.0 + MORE_TOKENS
                        && listed.1.iter().all(|word| statement.1.binary_search(word).is_ok())
                };
                let told = leaves.iter().filter_map(|leaf| new.get(leaf)).filter(|entries| entries.len() <= COMMON);
                let known = told.flatten().copied();
                known.filter(|n| tree.definition_around(*n) == here).filter(same).collect::<Vec<_>>()
            };
            let [ours, theirs] = Side::BOTH.map(&mut says);
            match (ours.is_empty(), theirs.is_empty()) {
                (false, true) => found[Side::Ours as usize].extend(ours),
                (true, false) => found[Side::Theirs as usize].extend(theirs),
                _ => {}
            }
        }
        found
    }

    /// Whether an entry of base is one that both sides took out.
    fn gone_for_both(&self, id: NodeId) -> bool {
        let base = &self.trees.base;
        (is_listed(base, id) || is_short(base, id))
            && Side::BOTH.into_iter().all(|side| self.to_side(side, id).is_none())
    }

    /// What of a kind of entries only a side has.
    fn put_in_anew(&self, side: Side, is_one: fn(&Tree<'_>, NodeId) -> bool) -> New {
        let tree = self.tree(side);
        let new = |id: &NodeId| self.to_base(side, *id).is_none() && is_one(tree, *id);
        let mut found = New::default();
        for entry in (0..tree.len() as u32).map(NodeId).filter(new) {
            for leaf in leaves(tree, entry) {
                let same = found.entry(leaf).or_default();
                if same.last() != Some(&entry) {
                    same.push(entry);
                }
            }
        }
        found
    }
}

/// Whether an entry is known by a name in a list that is none of statements.
pub(super) fn is_listed(tree: &Tree<'_>, id: NodeId) -> bool {
    tree.node(id).part == Part::Entry && tree.node(id).key != 0 && !tree.is_statement(id)
}

/// Whether a node is a statement that holds no others.
fn is_short(tree: &Tree<'_>, id: NodeId) -> bool {
    tree.is_statement(id) && !tree.is_comment(id) && tree.block(tree.node(id).core).is_none()
}

/// What stands in an entry: of one in a list, its name.
fn leaves<'t>(tree: &'t Tree<'_>, entry: NodeId) -> impl Iterator<Item = u64> + 't {
    let named = is_listed(tree, entry).then(|| tree.key_parts(entry).next()).flatten();
    let inside = tree.inside(named.unwrap_or(entry));
    inside.filter(|id| tree.is_leaf(*id) && !tree.node(*id).anonymous).map(|id| tree.node(id).hash)
}
