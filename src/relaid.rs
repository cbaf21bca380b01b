//! What is listed by its path, and one side laid out anew while the other changed what is listed: imports that were
//! split or joined, a table that became an inline one.
//!
//! What was laid out anew is taken out of the versions that have it in the old layout; in the new one it gets the other
//! side's changes. So the three texts that are left to merge differ no longer in both.

use std::ops::Range;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use crate::syntax::{Listed, NodeId, Part, Tree, listed, mix, path_hash};
use crate::{Side, Version, Versions};

/// More that is new beside what a side laid out anew is not put in: each is looked for among all that stands there.
const NEW: usize = 200;

/// What one version lists.
struct List<'t, 's> {
    tree: &'t Tree<'s>,
    all: Vec<Listed>,
    /// By what it is; nothing, if it is listed twice.
    by_id: HashMap<u64, Option<usize>>,
    /// Hashes of the paths, whatever else is said of them.
    paths: HashSet<u64>,
    /// By the innermost list, if separators part its entries.
    rows: HashMap<NodeId, Vec<usize>>,
}

impl<'t, 's> List<'t, 's> {
    fn new(tree: &'t Tree<'s>) -> Self {
        let all = listed(tree);
        let mut by_id: HashMap<u64, Option<usize>> = HashMap::default();
        for (i, one) in all.iter().enumerate() {
            by_id.entry(one.id()).and_modify(|at| *at = None).or_insert(Some(i));
        }
        let paths = all.iter().map(|one| path_hash(0, &one.path)).collect();
        let mut list = List { tree, all, by_id, paths, rows: HashMap::default() };
        for i in 0..list.all.len() {
            if let Some(row) = list.row(&list.all[i]) {
                list.rows.entry(row).or_default().push(i);
            }
        }
        list
    }

    fn has(&self, id: u64) -> bool {
        self.by_id.contains_key(&id)
    }

    fn get(&self, id: u64) -> Option<&Listed> {
        self.by_id.get(&id).copied().flatten().map(|i| &self.all[i])
    }

    fn value(&self, one: &Listed) -> Option<u64> {
        one.value.map(|value| self.tree.node(value).hash)
    }

    /// What stands in the same innermost list, if separators part its entries.
    fn row_of(&self, one: &Listed) -> impl Iterator<Item = &Listed> {
        let row = self.row(one).and_then(|row| self.rows.get(&row));
        row.into_iter().flatten().map(|i| &self.all[*i])
    }

    /// For each innermost list whose entries separators part, what in it another version lists too.
    fn shared_with(&self, other: &List<'_, '_>) -> HashMap<NodeId, u64> {
        let ids =
            |row: &Vec<usize>| row.iter().map(|i| self.all[*i].id()).filter(|id| other.has(*id)).collect::<Vec<_>>();
        // The order of a row means nothing here.
        let sum = |ids: Vec<u64>| ids.into_iter().fold(0, |sum: u64, id| sum.wrapping_add(mix(20, id)));
        self.rows.iter().map(|(list, row)| (*list, sum(ids(row)))).collect()
    }

    /// The innermost list that something stands in, if separators part its entries.
    fn row(&self, one: &Listed) -> Option<NodeId> {
        let list = one.holder().list;
        self.tree.list_rule(list).is_some_and(|rule| !rule.lines).then_some(list)
    }
}

/// Changes of one text: bytes, and what stands there instead.
#[derive(Default)]
struct Edits {
    edits: Vec<(Range<usize>, Vec<u8>)>,
}

impl Edits {
    /// The text with the changes, if no two of them meet.
    fn made_in(mut self, text: &[u8]) -> Option<Vec<u8>> {
        self.edits.sort_by_key(|(range, _)| (range.start, range.end));
        let mut out = Vec::with_capacity(text.len());
        let mut at = 0;
        for (range, put) in self.edits {
            out.extend_from_slice(text.get(at..range.start)?);
            out.extend_from_slice(&put);
            at = range.end;
        }
        out.extend_from_slice(&text[at..]);
        Some(out)
    }
}

/// The texts that are left to merge, if a side laid anything out anew that the other side changed.
pub(crate) fn relaid(trees: &Versions<Tree<'_>>) -> Option<Versions<Vec<u8>>> {
    let lists = Versions::each(|v| List::new(trees.get(v)));
    let mut gone: Versions<HashSet<u64>> = Versions::default();
    let mut edits: Versions<Edits> = Versions::default();
    let mut any = false;
    for side in Side::BOTH {
        let (base, own, other) = (&lists.base, lists.get(side), lists.get(side.other()));
        let rows = [base.shared_with(own), own.shared_with(base), base.shared_with(other), other.shared_with(base)];
        let relaid = Relaid { lists: &lists, side, rows };
        any |= relaid.settle(&mut gone, edits.get_mut(side))?;
        any |= relaid.shrink(&mut gone);
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

/// What `side` laid out anew.
struct Relaid<'l, 't, 's> {
    lists: &'l Versions<List<'t, 's>>,
    side: Side,
    /// What stands together in the rows of base and the side, and of base and the other side, as far as both have it.
    rows: [HashMap<NodeId, u64>; 4],
}

impl Relaid<'_, '_, '_> {
    /// Whether there is anything that the other side changed. Says what goes out of each version, and what changes in
    /// that of the side. Nothing at all, if the two do not go together.
    fn settle(&self, gone: &mut Versions<HashSet<u64>>, edits: &mut Edits) -> Option<bool> {
        let (base, own, other) = (&self.lists.base, self.lists.get(self.side), self.lists.get(self.side.other()));
        // What the side has in another layout, and the other side in the old one, or no more.
        let moved: Vec<&Listed> = base
            .all
            .iter()
            .filter(|old| {
                let there = other.get(old.id());
                let anew = |new: &Listed| {
                    let apart = new.layout != old.layout && !self.grown(own, new) && !self.shrunk(old, new);
                    apart || new.layout == old.layout && !self.together(self.side, old, new)
                };
                base.get(old.id()).is_some()
                    && own.get(old.id()).is_some_and(anew)
                    && (there.is_some_and(|there| self.stays(old, there)) || !other.has(old.id()))
            })
            .collect();
        let homes: HashSet<u64> = moved.iter().map(|old| old.home()).collect();
        let ids: HashSet<u64> = moved.iter().map(|old| old.id()).collect();
        let rows: HashMap<NodeId, &Listed> = other
            .all
            .iter()
            .filter(|one| ids.contains(&one.id()))
            .filter_map(|one| Some((other.row(one)?, base.get(one.id())?)))
            .collect();
        // What the other side put in beside that.
        let new: Vec<&Listed> = other
            .all
            .iter()
            .filter(|one| !base.has(one.id()) && other.get(one.id()).is_some())
            .filter(|one| homes.contains(&one.home()) || other.row(one).is_some_and(|row| rows.contains_key(&row)))
            .collect();
        // Where it changed anything: by the path before it, or by base's list.
        let (mut live_homes, mut live_rows) = (HashSet::default(), HashSet::default());
        for one in &new {
            live_homes.insert(one.home());
            live_rows.extend(other.row(one).and_then(|row| rows.get(&row)).and_then(|old| base.row(old)));
        }
        for old in &moved {
            if other.get(old.id()).is_none_or(|there| other.value(there) != base.value(old)) {
                live_homes.insert(old.home());
                live_rows.extend(base.row(old));
            }
        }
        let moved_rows: HashSet<NodeId> = moved.iter().filter_map(|old| base.row(old)).collect();
        for old in base.all.iter().filter(|old| !other.has(old.id())) {
            live_rows.extend(base.row(old).filter(|row| moved_rows.contains(row)));
        }
        let live = |old: &&&Listed| {
            live_homes.contains(&old.home()) || base.row(old).is_some_and(|row| live_rows.contains(&row))
        };
        let moved: Vec<&Listed> = moved.iter().filter(live).copied().collect();
        if moved.is_empty() {
            return Some(false);
        }
        if new.len() > NEW {
            return None;
        }
        let own_new: HashSet<u64> = own.all.iter().filter(|one| !base.has(one.id())).map(Listed::home).collect();
        for old in base.all.iter().filter(|old| live(&old) && !own.has(old.id())) {
            let there = other.get(old.id());
            // What one side took out, the other may have under a new name, or with a new value.
            let kept = there.is_some_and(|there| self.stays(old, there) && other.value(there) == base.value(old));
            if there.is_some() && !kept
                || there.is_none() && (!new.is_empty() || other.has(old.id()) || own_new.contains(&old.home()))
            {
                return None;
            }
            gone.base.insert(old.id());
            if kept {
                gone.get_mut(self.side.other()).insert(old.id());
            }
        }
        let mut kept: Vec<(&Listed, &Listed)> = Vec::new();
        for old in &moved {
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
        for one in new {
            gone.get_mut(self.side.other()).insert(one.id());
            match own.get(one.id()) {
                Some(here) if own.value(here) == other.value(one) => {}
                Some(_) => return None,
                None if own.has(one.id()) => return None,
                None => self.put_in(one, &kept, edits)?,
            }
        }
        Some(true)
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

    /// Whether the side has something outside of its list only because it took out all else in there, and the other side
    /// put more into that.
    fn shrunk(&self, old: &Listed, new: &Listed) -> bool {
        let (base, own, other) = (&self.lists.base, self.lists.get(self.side), self.lists.get(self.side.other()));
        let mut others = base.row_of(old).filter(|other| other.id() != old.id()).peekable();
        let more = || other.get(old.id()).is_some_and(|there| other.row_of(there).any(|one| !base.has(one.id())));
        own.row(new).is_none()
            && others.peek().is_some()
            && others.all(|one| !own.paths.contains(&path_hash(0, &one.path)))
            && more()
    }

    /// Takes out of the other side's lists what this side took out of them, down to one that it has alone now. Whether
    /// there is any such list that the other side changed.
    fn shrink(&self, gone: &mut Versions<HashSet<u64>>) -> bool {
        let (base, own, other) = (&self.lists.base, self.lists.get(self.side), self.lists.get(self.side.other()));
        let mut any = false;
        for old in base.all.iter().filter(|old| base.get(old.id()).is_some() && old.value.is_none()) {
            let shrunk = |new: &Listed| new.layout != old.layout && self.shrunk(old, new);
            if !own.get(old.id()).is_some_and(shrunk) {
                continue;
            }
            let row: HashSet<u64> = base.row_of(old).map(Listed::id).collect();
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

    /// Puts what the other side has new into the layout of this one, beside what it stands beside.
    fn put_in(&self, new: &Listed, kept: &[(&Listed, &Listed)], edits: &mut Edits) -> Option<()> {
        let (own, other) = (self.lists.get(self.side), self.lists.get(self.side.other()));
        let close = |there: &Listed| {
            let row = other.row(new).is_some() && other.row(new) == other.row(there);
            (
                there.home() == new.home(),
                row,
                there.name < new.name,
                if there.name < new.name { there.name.0 } else { 0 },
            )
        };
        let beside = kept.iter().filter(|(_, there)| close(there).0 || close(there).1);
        let (near, _) = beside.max_by_key(|(_, there)| close(there)).copied()?;
        let fits = |before: usize| new.path.len() > before && new.path[..before] == near.path[..before];
        let holder = near.holders.iter().rev().find(|holder| fits(holder.before))?;
        let sign = &own.tree.language.descriptor.paths.as_ref()?.sign;
        let name = new.path[holder.before..].join(sign);
        let rule = own.tree.list_rule(holder.list)?;
        let alone = near.holder().entry == holder.entry;
        if new.short || near.short && alone || self.commented(other.tree, new.holder().entry) {
            return None;
        }
        // What stands beside it, with the new name and value in the place of its own.
        let entry = own.tree.node(holder.entry);
        let core = own.tree.node(entry.core).span;
        let mut parts = Vec::new();
        match (alone, new.value) {
            (true, None) => parts.push((own.tree.node(near.name).span, name.into_bytes())),
            (true, Some(value)) => {
                parts.push((own.tree.node(near.name).span, name.into_bytes()));
                parts.push((own.tree.node(near.value?).span, other.tree.node_text(value).to_vec()));
            }
            (false, None) if !rule.lines => parts.push((core, name.into_bytes())),
            (false, None) => {
                let listed = near.holders.get(1)?.list;
                let mut whole = listed;
                while own.tree.node(whole).parent != entry.core {
                    whole = own.tree.node(whole).parent;
                }
                parts.push((own.tree.node(whole).span, name.into_bytes()));
            }
            (false, Some(_)) => return None,
        }
        let from = if rule.lines { entry.span } else { core };
        let mut text = Edits::default();
        let offset = from.start as usize;
        text.edits = parts
            .into_iter()
            .map(|(span, put)| (span.start as usize - offset..span.end as usize - offset, put))
            .collect();
        let text = text.made_in(own.tree.text(from))?;
        if self.commented(own.tree, holder.entry) {
            return None;
        }
        let entries = own.tree.part(holder.list, Part::Entry);
        if rule.lines {
            let indent = own.tree.indent(holder.entry);
            let end = line_end(own.tree.source, entry.span.end as usize)?;
            let newline: &[u8] = if own.tree.source[..end].ends_with(b"\r\n") { b"\r\n" } else { b"\n" };
            edits.edits.push((end..end, [indent, &text, newline].concat()));
            return Some(());
        }
        if entries.iter().any(|entry| own.tree.is_comment(*entry) || self.commented(own.tree, *entry)) {
            return None;
        }
        let texts: Vec<&[u8]> = entries.iter().map(|entry| own.tree.node_text(*entry)).collect();
        let sorted = rule.sorted && texts.len() > 1 && texts.is_sorted();
        let gap = entries.windows(2).next().map_or(b" ".to_vec(), |pair| {
            let (left, right) = (own.tree.node(pair[0]), own.tree.node(pair[1]));
            own.tree.source[left.separator.end.max(left.span.end) as usize..right.span.start as usize].to_vec()
        });
        let separator = &rule.separator_text;
        let behind = match sorted {
            true => texts.iter().rposition(|other| *other < &text[..]),
            false => entries.iter().position(|entry| *entry == holder.entry),
        };
        match behind {
            Some(i) => {
                let end = own.tree.node(entries[i]).span.end as usize;
                edits.edits.push((end..end, [&separator[..], &gap, &text].concat()));
            }
            None => {
                let start = own.tree.node(entries[0]).span.start as usize;
                edits.edits.push((start..start, [&text, &separator[..], &gap].concat()));
            }
        }
        Some(())
    }

    /// Whether a comment stands in an entry.
    fn commented(&self, tree: &Tree<'_>, entry: NodeId) -> bool {
        comments(tree, entry).next().is_some()
    }
}

/// The comments in a node.
fn comments<'t>(tree: &'t Tree<'_>, outer: NodeId) -> impl Iterator<Item = NodeId> + 't {
    let inside = (outer.0..tree.node(outer).end.0).map(NodeId);
    inside.filter(|id| tree.language.rule(tree.node(*id).kind).comment)
}

/// The end of the line that something ends on, if nothing else stands behind it there.
fn line_end(source: &[u8], end: usize) -> Option<usize> {
    let rest = &source[end..];
    let line = rest.iter().position(|b| *b == b'\n').map_or(rest.len(), |at| at + 1);
    rest[..line].trim_ascii().is_empty().then_some(end + line)
}

/// The entries of which nothing is left: outermost first.
fn entries_gone(list: &List<'_, '_>, gone: &HashSet<u64>) -> Vec<(NodeId, NodeId)> {
    let tree = list.tree;
    let mut left: HashSet<NodeId> = HashSet::default();
    for one in list.all.iter().filter(|one| !gone.contains(&one.id())) {
        left.extend(one.holders.iter().map(|holder| holder.entry));
    }
    // Comments that belong to nothing listed stay where they are.
    for one in list.all.iter().filter(|one| gone.contains(&one.id())) {
        for (i, holder) in one.holders.iter().enumerate().skip(1) {
            if !left.contains(&holder.list)
                && tree.part(holder.list, Part::Entry).iter().any(|entry| tree.is_comment(*entry))
            {
                left.insert(holder.list);
                left.extend(one.holders[..i].iter().map(|holder| holder.entry));
            }
        }
    }
    let mut found: Vec<(NodeId, NodeId)> = Vec::new();
    for one in list.all.iter().filter(|one| gone.contains(&one.id())) {
        let holder = one.holders.iter().find(|holder| !left.contains(&holder.entry));
        let holder = holder.map(|holder| (holder.list, holder.entry));
        found.extend(holder.filter(|holder| found.last() != Some(holder)));
    }
    found
}

/// Takes out of a text what is gone, with the lists of which nothing else is left.
fn take_out(list: &List<'_, '_>, gone: &HashSet<u64>, edits: &mut Edits) -> Option<()> {
    let tree = list.tree;
    let mut by_list: HashMap<NodeId, Vec<NodeId>> = HashMap::default();
    let mut order = Vec::new();
    for (list, entry) in entries_gone(list, gone) {
        by_list.entry(list).or_insert_with(|| {
            order.push(list);
            Vec::new()
        });
        by_list.get_mut(&list).expect("just put in").push(entry);
    }
    for list in order {
        let out: HashSet<NodeId> = by_list[&list].iter().copied().collect();
        let span = |entry: NodeId| tree.node(entry).span.range();
        if tree.list_rule(list).is_some_and(|rule| rule.lines) {
            for entry in &by_list[&list] {
                let Range { start, end } = span(*entry);
                let line = tree.source[..start].iter().rposition(|b| *b == b'\n').map_or(0, |at| at + 1);
                if !tree.source[line..start].trim_ascii().is_empty() {
                    return None;
                }
                edits.edits.push((line..line_end(tree.source, end)?, Vec::new()));
            }
            continue;
        }
        let entries = tree.part(list, Part::Entry);
        let mut i = 0;
        while i < entries.len() {
            let run = entries[i..].iter().take_while(|entry| out.contains(entry)).count();
            if run > 0 {
                let range = match (entries.get(i + run), i.checked_sub(1)) {
                    (Some(next), _) => span(entries[i]).start..span(*next).start,
                    (None, Some(last)) => span(entries[last]).end..span(entries[i + run - 1]).end,
                    (None, None) => return None,
                };
                edits.edits.push((range, Vec::new()));
            }
            i += run.max(1);
        }
    }
    Some(())
}

/// Whether what goes out of the old layouts takes the same comments with it: none of them was changed.
fn same_comments(lists: &Versions<List<'_, '_>>, gone: &Versions<HashSet<u64>>) -> bool {
    let texts = |version: Version| {
        let list = lists.get(version);
        let entries = entries_gone(list, gone.get(version)).into_iter();
        let comments = entries.flat_map(|(_, entry)| comments(list.tree, entry));
        let mut texts: Vec<&[u8]> = comments.map(|id| list.tree.node_text(id)).collect();
        texts.sort_unstable();
        texts.dedup();
        texts
    };
    let base = texts(Version::Base);
    Side::BOTH.into_iter().all(|side| texts(side.into()).iter().all(|text| base.contains(text)))
}
