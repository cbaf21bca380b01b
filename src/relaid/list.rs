//! What one version lists by its path.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::take_out::comments;
use crate::once;
use crate::syntax::{Listed, NodeId, Part, Tree, listed, mix, path_hash};

/// What one version lists.
pub(super) struct List<'t, 's> {
    pub tree: &'t Tree<'s>,
    pub all: Vec<Listed>,
    /// By what it is; nothing, if it is listed twice.
    pub by_id: HashMap<u64, Option<usize>>,
    /// Hashes of the paths, whatever else is said of them.
    pub paths: HashSet<u64>,
    /// By the innermost list, if separators part its entries.
    pub rows: HashMap<NodeId, Vec<usize>>,
}

impl<'t, 's> List<'t, 's> {
    pub(super) fn new(tree: &'t Tree<'s>) -> Self {
        let all = listed(tree);
        let by_id = once::by_key(all.iter().enumerate().map(|(i, one)| (one.id(), i)));
        let paths = all.iter().map(|one| path_hash(0, &one.path)).collect();
        let mut list = List { tree, all, by_id, paths, rows: HashMap::default() };
        for i in 0..list.all.len() {
            if let Some(row) = list.row(&list.all[i]) {
                list.rows.entry(row).or_default().push(i);
            }
        }
        list
    }

    pub(super) fn has(&self, id: u64) -> bool {
        self.by_id.contains_key(&id)
    }

    pub(super) fn get(&self, id: u64) -> Option<&Listed> {
        self.by_id.get(&id).copied().flatten().map(|i| &self.all[i])
    }

    pub(super) fn value(&self, one: &Listed) -> Option<u64> {
        one.value.map(|value| self.tree.node(value).hash)
    }

    /// What stands in the same innermost list, if separators part its entries.
    pub(super) fn row_of(&self, one: &Listed) -> impl Iterator<Item = &Listed> {
        let row = self.row(one).and_then(|row| self.rows.get(&row));
        row.into_iter().flatten().map(|i| &self.all[*i])
    }

    /// The innermost list of something, and its entry there, if nothing else stands in that but so many `others`, and no
    /// comment.
    pub(super) fn alone(&self, id: u64, others: usize) -> Option<(NodeId, NodeId)> {
        let one = self.get(id)?;
        let (list, entry) = (self.row(one)?, one.holder().entry);
        let core = self.tree.node(entry).core;
        let bare = self.tree.part(list, Part::Entry).len() == others + 1
            && self.tree.is_leaf(core)
            && comments(self.tree, list).next().is_none();
        bare.then_some((list, core))
    }

    /// For each innermost list whose entries separators part, what in it another version lists too.
    pub(super) fn shared_with(&self, other: &List<'_, '_>) -> HashMap<NodeId, u64> {
        let ids =
            |row: &Vec<usize>| row.iter().map(|i| self.all[*i].id()).filter(|id| other.has(*id)).collect::<Vec<_>>();
        // The order of a row means nothing here.
        let sum = |ids: Vec<u64>| ids.into_iter().fold(0, |sum: u64, id| sum.wrapping_add(mix(20, id)));
        self.rows.iter().map(|(list, row)| (*list, sum(ids(row)))).collect()
    }

    /// All that has the path before it that something has, if separators could part it, but each has a statement of its own.
    pub(super) fn one_by_one(&self, one: &Listed) -> Option<Vec<&Listed>> {
        let home = one.home();
        let siblings: Vec<&Listed> = self.all.iter().filter(|other| other.home() == home).collect();
        let alone = |other: &&Listed| {
            let row = self.row(other).filter(|_| other.holders.len() == 2);
            row.is_some_and(|row| self.tree.part(row, Part::Entry).len() == 1)
        };
        (siblings.len() > 1 && siblings.iter().all(alone)).then_some(siblings)
    }

    /// The innermost list that something stands in, if separators part its entries.
    pub(super) fn row(&self, one: &Listed) -> Option<NodeId> {
        let list = one.holder().list;
        self.tree.list_rule(list).is_some_and(|rule| !rule.lines).then_some(list)
    }
}
