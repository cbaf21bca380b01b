//! What is listed by its path, and one side laid out anew while the other changed what is listed: imports that were
//! split or joined, a table that became an inline one.
//!
//! What was laid out anew is taken out of the versions that have it in the old layout; in the new one it gets the other
//! side's changes. So the three texts that are left to merge differ no longer in both.

mod list;
mod put_in;
mod take_out;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use self::list::List;
use self::take_out::{Edits, same_comments, take_out};
use crate::once;
use crate::syntax::{Listed, NodeId, Tree, path_hash};
use crate::{Side, Version, Versions};

/// More that is new beside what a side laid out anew is not put in: each is looked for among all that stands there.
const NEW: usize = 200;

/// The texts that are left to merge, if a side laid anything out anew that the other side changed.
pub(crate) fn relaid(trees: &Versions<Tree<'_>>) -> Option<Versions<Vec<u8>>> {
    let lists = Versions::each(|v| List::new(trees.get(v)));
    let mut gone: Versions<HashSet<u64>> = Versions::default();
    let mut edits: Versions<Edits> = Versions::default();
    let mut any = laid_out_alike(&lists, &mut gone);
    for side in Side::BOTH {
        let (base, own, other) = (&lists.base, lists.get(side), lists.get(side.other()));
        let rows = [base.shared_with(own), own.shared_with(base), base.shared_with(other), other.shared_with(base)];
        let relaid = Relaid { lists: &lists, side, rows, anew: anew(base, other) };
        any |= relaid.settle(&mut gone, edits.get_mut(side))?;
        any |= relaid.shrink(&mut gone, edits.get_mut(side.other()));
    }
    if !any {
        return None;
    }
    let mut texts = Versions::default();
    for version in Version::ALL {
        let mut edits = std::mem::take(edits.get_mut(version));
        take_out(lists.get(version), gone.get(version), &mut edits)?;
        *texts.get_mut(version) = edits.made_in(trees.get(version).source)?;
    }
    same_comments(&lists, &gone).then_some(texts)
}

/// Takes out of base and of theirs what both sides put into one list, each at its own place: it stands where ours has it.
/// Whether there is any.
fn laid_out_alike(lists: &Versions<List<'_, '_>>, gone: &mut Versions<HashSet<u64>>) -> bool {
    let Versions { base, ours, theirs } = lists;
    let mut any = false;
    for row in ours.rows.values().filter(|row| row.len() > 1) {
        let row: Vec<&Listed> = row.iter().map(|i| &ours.all[*i]).collect();
        let mut there = None;
        let alike = |one: &&Listed| {
            let list = theirs.get(one.id()).filter(|_| one.value.is_none()).and_then(|one| theirs.row(one));
            let anew = match base.get(one.id()) {
                Some(old) => old.layout != one.layout,
                None => !base.has(one.id()),
            };
            anew && ours.get(one.id()).is_some() && list.is_some_and(|list| list == *there.get_or_insert(list))
        };
        let all = row.iter().all(alike) && row.iter().any(|one| base.has(one.id()));
        if all && there.and_then(|list| theirs.rows.get(&list)).is_some_and(|other| other.len() == row.len()) {
            any = true;
            gone.base.extend(row.iter().map(|one| one.id()).filter(|id| base.has(*id)));
            gone.theirs.extend(row.iter().map(|one| one.id()));
        }
    }
    any
}

/// What `side` laid out anew.
struct Relaid<'l, 't, 's> {
    lists: &'l Versions<List<'t, 's>>,
    side: Side,
    /// What stands together in the rows of base and the side, and of base and the other side, as far as both have it.
    rows: [HashMap<NodeId, u64>; 4],
    /// What names nothing but a path that only the other side has: where it stands in its list. Nothing, if it has several.
    anew: HashMap<(u64, &'l str), Option<&'l Listed>>,
}

/// What a side has that names nothing but a path that base has not.
fn anew<'l>(base: &List<'_, '_>, own: &'l List<'_, '_>) -> HashMap<(u64, &'l str), Option<&'l Listed>> {
    let new = own.all.iter().filter(|one| one.value.is_none() && !base.has(one.id()));
    once::by_key(new.filter_map(|one| Some(((one.place, one.path.last()?.as_str()), one))))
}

/// Where the other side changed anything beside what was laid out anew: by the path before it, or by base's list.
#[derive(Default)]
struct Live {
    homes: HashSet<u64>,
    rows: HashSet<NodeId>,
    /// The other side's lists in which something new stands.
    grown: HashSet<NodeId>,
}

impl Relaid<'_, '_, '_> {
    /// Whether there is anything that the other side changed. Says what goes out of each version, and what changes in
    /// that of the side. Nothing at all, if the two do not go together.
    fn settle(&self, gone: &mut Versions<HashSet<u64>>, edits: &mut Edits) -> Option<bool> {
        let moved = self.laid_out_anew();
        let new = self.put_in_beside(&moved);
        let live = self.changed_beside(&moved, &new);
        let moved: Vec<&Listed> = moved.into_iter().filter(|old| self.is_live(&live, old)).collect();
        if moved.is_empty() {
            return Some(false);
        }
        if new.len() > NEW {
            return None;
        }
        self.take_out_too(&live, &new, gone)?;
        let kept = self.change_too(&moved, gone, edits)?;
        let own = self.lists.get(self.side);
        for one in new {
            gone.get_mut(self.side.other()).insert(one.id());
            match own.get(one.id()) {
                Some(here) if own.value(here) == self.lists.get(self.side.other()).value(one) => {}
                Some(_) => return None,
                None if own.has(one.id()) => return None,
                None => self.put_in(one, &kept, edits)?,
            }
        }
        Some(true)
    }

    /// What of base the side has in another layout, and the other side in the old one, or no more.
    fn laid_out_anew(&self) -> Vec<&Listed> {
        let (base, own, other) = (&self.lists.base, self.lists.get(self.side), self.lists.get(self.side.other()));
        let moved = |old: &&Listed| {
            let there = other.get(old.id());
            let anew = |new: &Listed| {
                let apart = new.layout != old.layout && !self.grown(own, new) && !self.shrunk(old, new);
                apart
                    || new.layout == old.layout && !self.together(self.side, old, new)
                    || self.spelt_out(old, new, there)
            };
            base.get(old.id()).is_some()
                && own.get(old.id()).is_some_and(anew)
                && (there.is_some_and(|there| self.stays(old, there)) || !other.has(old.id()))
        };
        base.all.iter().filter(moved).collect()
    }

    /// What the other side put in beside what was laid out anew.
    fn put_in_beside(&self, moved: &[&Listed]) -> Vec<&Listed> {
        let (base, other) = (&self.lists.base, self.lists.get(self.side.other()));
        let homes: HashSet<u64> = moved.iter().map(|old| old.home()).collect();
        let rows = self.rows_of(moved);
        let beside =
            |one: &Listed| homes.contains(&one.home()) || other.row(one).is_some_and(|row| rows.contains_key(&row));
        let new = other.all.iter().filter(|one| !base.has(one.id()) && other.get(one.id()).is_some());
        new.filter(|one| beside(one)).collect()
    }

    /// The rows of the other side that hold any of these things of base, each with such a thing.
    fn rows_of(&self, moved: &[&Listed]) -> HashMap<NodeId, &Listed> {
        let (base, other) = (&self.lists.base, self.lists.get(self.side.other()));
        let ids: HashSet<u64> = moved.iter().map(|old| old.id()).collect();
        let there = other.all.iter().filter(|one| ids.contains(&one.id()));
        there.filter_map(|one| Some((other.row(one)?, base.get(one.id())?))).collect()
    }

    /// Where the other side changed anything beside what was laid out anew, among which it put in what is `new`.
    fn changed_beside(&self, moved: &[&Listed], new: &[&Listed]) -> Live {
        let (base, other) = (&self.lists.base, self.lists.get(self.side.other()));
        let rows = self.rows_of(moved);
        let mut live = Live::default();
        for one in new {
            live.homes.insert(one.home());
            live.rows.extend(other.row(one).and_then(|row| rows.get(&row)).and_then(|old| base.row(old)));
        }
        for old in moved {
            if other.get(old.id()).is_none_or(|there| other.value(there) != base.value(old)) {
                live.homes.insert(old.home());
                live.rows.extend(base.row(old));
            }
        }
        let moved_rows: HashSet<NodeId> = moved.iter().filter_map(|old| base.row(old)).collect();
        for old in base.all.iter().filter(|old| !other.has(old.id())) {
            live.rows.extend(base.row(old).filter(|row| moved_rows.contains(row)));
        }
        live.grown = other.all.iter().filter(|one| !base.has(one.id())).map(|one| one.holder().list).collect();
        live
    }

    fn is_live(&self, live: &Live, old: &Listed) -> bool {
        let (base, other) = (&self.lists.base, self.lists.get(self.side.other()));
        // What has a value and stood beside that is not to take it along into a table of its own.
        let stood_beside = || {
            let there = other.get(old.id()).filter(|there| there.value.is_some());
            there.is_some_and(|there| live.grown.contains(&there.holder().list))
        };
        live.homes.contains(&old.home()) || base.row(old).is_some_and(|row| live.rows.contains(&row)) || stood_beside()
    }

    /// Takes out of base, and of the other side, what the side took out where the other side changed anything. Nothing,
    /// if the other side changed that too, or may have.
    fn take_out_too(&self, live: &Live, new: &[&Listed], gone: &mut Versions<HashSet<u64>>) -> Option<()> {
        let (base, own, other) = (&self.lists.base, self.lists.get(self.side), self.lists.get(self.side.other()));
        let own_new: HashSet<u64> = own.all.iter().filter(|one| !base.has(one.id())).map(Listed::home).collect();
        // Nor may it be among what was put behind another path.
        let is_anew = |one: &Listed| one.value.is_none() && self.anew.contains_key(&(one.place, last(one)));
        let anew = base.all.iter().filter(|old| is_anew(old));
        let rows_anew: HashSet<NodeId> = anew.filter_map(|old| base.row(old)).collect();
        for old in base.all.iter().filter(|old| self.is_live(live, old) && !own.has(old.id())) {
            let there = other.get(old.id());
            // What one side took out, the other may have under a new name, or with a new value.
            let kept = there.is_some_and(|there| self.stays(old, there) && other.value(there) == base.value(old));
            let elsewhere = || is_anew(old) || base.row(old).is_some_and(|row| rows_anew.contains(&row));
            if there.is_some() && !kept
                || there.is_none() && (!new.is_empty() || other.has(old.id()) || own_new.contains(&old.home()))
                || there.is_none() && elsewhere()
            {
                return None;
            }
            gone.base.insert(old.id());
            if kept {
                gone.get_mut(self.side.other()).insert(old.id());
            }
        }
        Some(())
    }

    /// Makes in the new layout the other side's changes of what was laid out anew. What both have, as the side and as the
    /// other side has it; nothing, if both changed one thing.
    fn change_too(
        &self,
        moved: &[&Listed],
        gone: &mut Versions<HashSet<u64>>,
        edits: &mut Edits,
    ) -> Option<Vec<(&Listed, &Listed)>> {
        let (base, own, other) = (&self.lists.base, self.lists.get(self.side), self.lists.get(self.side.other()));
        let mut kept = Vec::new();
        for old in moved {
            let id = old.id();
            let here = own.get(id)?;
            gone.base.insert(id);
            let unchanged = own.value(here) == base.value(old);
            let Some(there) = other.get(id) else {
                if !unchanged {
                    return None;
                }
                gone.get_mut(self.side).insert(id);
                continue;
            };
            gone.get_mut(self.side.other()).insert(id);
            kept.push((here, there));
            if let (Some(value), Some(put)) = (here.value, there.value)
                && other.value(there) != base.value(old)
                && other.value(there) != own.value(here)
            {
                if !unchanged {
                    return None;
                }
                let range = own.tree.node(value).span.range();
                edits.edits.push((range, other.tree.node_text(put).to_vec()));
            }
        }
        Some(kept)
    }

    /// Whether the other side has something in base's layout, or in a list of its own with nothing but new things.
    fn stays(&self, old: &Listed, there: &Listed) -> bool {
        there.layout == old.layout && self.together(self.side.other(), old, there)
            || self.grown(self.lists.get(self.side.other()), there)
    }

    /// Whether a side has something in one row with just what stood with it in base, as far as both have that.
    fn together(&self, side: Side, old: &Listed, new: &Listed) -> bool {
        let [base, own] = if side == self.side { [0, 1] } else { [2, 3] };
        let shared = |rows: usize, list: &List<'_, '_>, one: &Listed| {
            list.row(one).and_then(|row| self.rows[rows].get(&row)).copied()
        };
        shared(base, &self.lists.base, old) == shared(own, self.lists.get(side), new)
    }

    /// Whether one thing was made a list only because new ones stand beside it.
    fn grown(&self, list: &List<'_, '_>, one: &Listed) -> bool {
        let others = |other: &&Listed| other.id() != one.id();
        let mut row = list.row_of(one).filter(others).peekable();
        row.peek().is_some() && row.all(|other| !self.lists.base.has(other.id()))
    }

    /// Whether the side made a table of a value that stood in one's place. If both did, what ours put in is put into theirs.
    fn spelt_out(&self, old: &Listed, new: &Listed, there: Option<&Listed>) -> bool {
        old.short && !new.short && (self.side == Side::Theirs || there.is_none_or(|there| there.short))
    }

    /// Whether the side has something outside of its list only because it took out all else in there, and the other side
    /// put more into that, or put the whole list behind another path.
    fn shrunk(&self, old: &Listed, new: &Listed) -> bool {
        let (base, own, other) = (&self.lists.base, self.lists.get(self.side), self.lists.get(self.side.other()));
        let mut others = base.row_of(old).filter(|other| other.id() != old.id()).peekable();
        let more = || other.get(old.id()).is_some_and(|there| other.row_of(there).any(|one| !base.has(one.id())));
        own.row(new).is_none()
            && others.peek().is_some()
            && others.all(|one| !own.paths.contains(&path_hash(0, &one.path)))
            && (more() || self.behind_another_path(old).is_some())
    }

    /// What the other side made of a list of base, by its path, if it put all that is listed there behind another path.
    fn behind_another_path(&self, old: &Listed) -> Option<Vec<(u64, u64)>> {
        let (base, other) = (&self.lists.base, self.lists.get(self.side.other()));
        let mut row = None;
        let pairs = base.row_of(old).map(|one| {
            let new = (*self.anew.get(&(one.place, last(one)))?)?;
            let stays =
                one.value.is_some() || one.frame != new.frame || other.has(one.id()) || base.get(one.id()).is_none();
            let list = other.row(new).filter(|list| !stays && *row.get_or_insert(*list) == *list);
            list.map(|_| (one.id(), new.id()))
        });
        pairs.collect()
    }

    /// Takes out of the other side's lists what this side took out of them, down to one that it has alone now; where such a
    /// list is then needless, an edit of the other side puts the one in its place. Whether there is any such list that the
    /// other side changed.
    fn shrink(&self, gone: &mut Versions<HashSet<u64>>, edits: &mut Edits) -> bool {
        let (base, own, other) = (&self.lists.base, self.lists.get(self.side), self.lists.get(self.side.other()));
        let mut any = false;
        for old in base.all.iter().filter(|old| base.get(old.id()).is_some() && old.value.is_none()) {
            let shrunk = |new: &Listed| new.layout != old.layout && self.shrunk(old, new);
            if !own.get(old.id()).is_some_and(shrunk) {
                continue;
            }
            let row: HashSet<u64> = base.row_of(old).map(Listed::id).collect();
            if let Some(pairs) = self.behind_another_path(old) {
                any = true;
                gone.base.extend(&row);
                gone.get_mut(self.side).insert(old.id());
                let (kept, out): (Vec<_>, Vec<_>) = pairs.into_iter().partition(|(one, _)| *one == old.id());
                // Alone in its list, it needs no list there either.
                match kept.first().and_then(|(_, kept)| other.alone(*kept, out.len())) {
                    Some((list, name)) => {
                        let span = |node: NodeId| other.tree.node(node).span.range();
                        edits.edits.push((span(list), other.tree.source[span(name)].to_vec()));
                    }
                    None => gone.get_mut(self.side.other()).extend(out.into_iter().map(|(_, new)| new)),
                }
                continue;
            }
            let there = |id: u64| other.get(id).is_some_and(|there| there.layout == old.layout);
            // What the other side took out too, it may have put in under a new name.
            if !there(old.id()) || !row.iter().all(|id| there(*id)) {
                continue;
            }
            any = true;
            gone.base.extend(&row);
            gone.get_mut(self.side).insert(old.id());
            let there = gone.get_mut(self.side.other());
            there.extend(row.into_iter().filter(|id| *id != old.id()));
        }
        any
    }
}

/// What something is called where it is listed.
fn last(one: &Listed) -> &str {
    one.path.last().map_or("", String::as_str)
}
