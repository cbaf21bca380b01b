//! What would stand twice side by side in a list in which places mean something.

use super::pieces::{Content, Item};
use super::{Merger, Side, Version, Versions};
use crate::syntax::{NodeId, Part};

impl Merger<'_, '_> {
    /// Disputes what one side put in right beside the same that the other side has in the place of something else:
    /// `load(a, c)` and `load(a, b, c)` for `load(a, b)` may be one `c` or two; so of the branches of a statement. Answers
    /// whether all of the list is in dispute, as both put it in, and something that stood between is gone.
    pub(super) fn contest_repeated(&self, part: Part, items: &mut Vec<Item>) -> bool {
        let mut at = 1;
        while at < items.len() {
            let both = &items[at - 1..=at];
            let repeats = match (self.told_by(&both[0]), self.told_by(&both[1])) {
                (Some((one, a)), Some((other, b))) => {
                    let told = part == Part::Entry || self.tree(one).block(a).is_some();
                    told && one != other && self.tree(one).core_hash(a) == self.tree(other).core_hash(b)
                }
                _ => false,
            };
            match both.iter().filter(|item| item.edges.base.is_none()).count() {
                2 if repeats => return true,
                1 if repeats => {
                    let sides = Versions::each(|version: Version| {
                        let own = both.iter().filter_map(|item| *item.edges.get(version));
                        own.map(|(node, _)| Item::copy(version, node, part)).collect()
                    });
                    items.splice(at - 1..=at, [Item::dispute(sides, part)]);
                }
                // Each edited an entry of its own.
                _ => at += 1,
            }
        }
        false
    }

    /// The side that alone put in what an item is, or alone has another thing in its place; and what that is.
    fn told_by(&self, item: &Item) -> Option<(Side, NodeId)> {
        if matches!(item.content, Content::Dispute(_)) {
            return None;
        }
        let hash = |version: Version| {
            let (first, last) = (*item.edges.get(version))?;
            (first == last).then(|| (first, self.trees.get(version).core_hash(first)))
        };
        let base = hash(Version::Base).map(|(_, said)| said);
        Side::BOTH.into_iter().find_map(|side| {
            let (node, own) = hash(side.into())?;
            let alone = hash(side.other().into()).map(|(_, said)| said) == base;
            (alone && Some(own) != base).then_some((side, node))
        })
    }
}
