//! Three trees to one: a tree of kept, combined and disputed pieces.

mod alike;
mod beside;
mod combine;
mod commented;
mod compatible;
mod copied;
mod exchanged;
mod grafted;
mod had_too;
mod handed_on;
mod held;
mod hidden;
mod hunks;
mod imports;
mod in_place_of;
mod indents;
mod joined;
mod joint;
mod leaving;
mod lists;
mod nodes;
mod order;
mod outline;
mod pieces;
mod regions;
mod regrafted;
mod renamed;
mod repeated;
mod restated;
mod rewritten;
mod scopes;
mod shuffled;
mod sorted;
mod split;
mod stranded;
mod text;
mod turned;
mod twins;
mod two_names;
mod unbound;
mod units;
mod unwrapped;
mod withdrawn;

use nodes::Disagree;
pub use pieces::{Content, Edges, Item, Merged, Piece, Sorted, TextPart};
pub(crate) use renamed::{Renamed, renamed};
pub(crate) use withdrawn::{Gone, Unfit, Used, standing, withdrawn_from};
pub use withdrawn::{Sorts, Withdrawn};

use std::cell::{OnceCell, RefCell};

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use crate::matching::{Drawn, Matching, match_nodes, match_trees, nothing};
use crate::syntax::{NodeId, Tree};
use crate::{Side, Version, Versions};

/// Three trees made one.
#[derive(Debug)]
pub struct Merge {
    /// The merged tree.
    pub piece: Piece,
    /// Names that put a statement in dispute: what a side took out of the code around it.
    pub gone: Vec<(Side, Vec<u8>)>,
    /// Whether a name is listed with another where a side gave each a statement of its own.
    pub crowded: bool,
}

/// Why three trees were not made one.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unmerged {
    /// Nothing smaller than the whole file is agreed.
    #[error("the sides agree on nothing")]
    Disagree,
    /// Lists that were not looked into, by their numbers in the order of the text, are not matched with one another.
    /// Only of trees that were not built in full.
    #[error("too little was looked into")]
    Unseen(Vec<usize>),
}

/// Merges three trees of one language. A statement that uses what the other side withdrew, from the file or from the
/// code around it, is in dispute.
///
/// # Errors
/// Why they cannot be made one.
pub fn merge_trees(trees: &Versions<Tree<'_>>, withdrawn: &Withdrawn) -> Result<Merge, Unmerged> {
    let mut merger = Merger::new(trees, withdrawn.renamed());
    let unseen: Vec<usize> = merger.matched.iter().flat_map(Matching::unseen).copied().collect();
    if !unseen.is_empty() {
        return Err(Unmerged::Unseen(unseen));
    }
    let mut piece = merger.whole().map_err(|Disagree| Unmerged::Disagree)?;
    if merger.part_disputed(&piece) {
        piece = merger.again(Default::default(), Default::default()).map_err(|Disagree| Unmerged::Disagree)?;
    }
    let (mut stranded, mut spilled) = (merger.stranded(&piece), merger.spilled(&piece));
    for (nodes, more) in spilled.iter_mut().zip(merger.moved_two_ways()) {
        nodes.extend(more);
    }
    for (side, drawn) in Side::BOTH.into_iter().zip(merger.drawn_out(&piece)) {
        spilled[side as usize].extend(drawn.iter().map(|(own, _)| *own));
        stranded[side as usize].extend(drawn.into_iter().flat_map(|(_, copies)| copies));
    }
    if stranded.iter().chain(&spilled).any(|nodes| !nodes.is_empty()) {
        piece = merger.again(stranded, spilled).map_err(|Disagree| Unmerged::Disagree)?;
    }
    merger.contest_leaving(&mut piece);
    let mut gone = merger.contest_hidden(&mut piece);
    gone.extend(merger.contest(&mut piece, withdrawn));
    gone.extend(merger.contest_unbound(&mut piece));
    gone.extend(merger.contest_scopes(&mut piece));
    merger.widen(&mut piece);
    Ok(Merge { piece, gone, crowded: merger.crowded })
}

/// A run of base entries that one side put into a new list, and the other side's version of the run.
struct TakenIn {
    base: Vec<NodeId>,
    other: Vec<NodeId>,
}

struct Merger<'t, 's> {
    trees: &'t Versions<Tree<'s>>,
    /// Base to ours and base to theirs.
    matched: [Matching; 2],
    /// Ours to theirs, for what has no base.
    across: Matching,
    /// For each side, how many nodes before each one stand under another parent than in base while the
    /// other side changed them: copying a subtree that holds any would lose that change.
    entangled: [Vec<u32>; 2],
    /// Lists that took in a run, by side and list node.
    taken_in: HashMap<(Side, NodeId), TakenIn>,
    /// Whether a name is listed with another where a side gave each a statement of its own.
    crowded: bool,
    /// Lists of names that took in those of another import on one side: by base's list, what to merge.
    joined: HashMap<NodeId, Versions<Vec<NodeId>>>,
    /// For each side, base entries that are in dispute where it took them out.
    stranded: [HashSet<NodeId>; 2],
    /// For each side, nodes of its own that it took out of what is in dispute, or moved where the other side did not.
    spilled: [HashSet<NodeId>; 2],
    /// For each side, what it put in where its order with something that the other side moved means something.
    unsettled: [HashSet<NodeId>; 2],
    /// For each side, the statements and comments that it took out of base.
    taken_out: OnceCell<[HashMap<u64, NodeId>; 2]>,
    /// Base entries that one side changed and the other side put into several branches.
    branched: HashSet<NodeId>,
    /// What each side put in.
    put_in: OnceCell<copied::PutIn>,
    /// What definitions say of names, as far as that was asked for.
    names: [RefCell<renamed::Names<'s>>; 2],
    /// For each side, the variables that it renamed.
    renamed: &'t [Renamed; 2],
    /// For each side, the keys that stand more than once in a list of its own.
    several: OnceCell<[HashSet<(NodeId, u64)>; 2]>,
    /// What the statements of base say, by their hashes.
    said_in_base: OnceCell<HashSet<u64>>,
    /// Whether what a side put in is what the other did with more in it, as far as that was asked for.
    holding_more: RefCell<HashMap<(Side, NodeId, NodeId), bool>>,
}

impl<'t, 's> Merger<'t, 's> {
    fn new(trees: &'t Versions<Tree<'s>>, renamed: &'t [Renamed; 2]) -> Self {
        let mut matched = Side::BOTH.map(|s| match_trees(&trees.base, trees.get(s)));
        for side in Side::BOTH {
            part_drawn(trees, &mut matched, side);
        }
        commented::pair_below_comments(trees, &mut matched);
        commented::pair_moved_comments(trees, &mut matched);
        had_too::pair_had_too(trees, &mut matched);
        imports::part_replaced(trees, &mut matched);
        let entangled = Side::BOTH.map(|s| entangled(trees, &matched, s));
        let across = nothing(&trees.ours, &trees.theirs);
        let (taken_in, joined) = (HashMap::default(), HashMap::default());
        let [stranded, spilled, unsettled] = Default::default();
        let (taken_out, put_in) = (OnceCell::new(), OnceCell::new());
        let names = Default::default();
        let (several, said_in_base) = (OnceCell::new(), OnceCell::new());
        let mut merger = Merger {
            trees,
            matched,
            across,
            entangled,
            taken_in,
            crowded: false,
            joined,
            stranded,
            spilled,
            unsettled,
            taken_out,
            put_in,
            names,
            renamed,
            several,
            said_in_base,
            branched: HashSet::default(),
            holding_more: RefCell::default(),
        };
        merger.pair_renamed_values();
        merger.branched = merger.copied_into_branches();
        merger.unsettled = merger.restated();
        merger
    }

    /// Takes what a side gave a name for nothing else than new where that is in dispute: whoever takes the other reading
    /// would be without the other side's edits of it. Answers whether there is any.
    fn part_disputed(&mut self, piece: &Piece) -> bool {
        let mut parted = false;
        for side in Side::BOTH {
            let tree = self.trees.get(side);
            let drawn = self.matched[side as usize].drawn();
            if drawn.is_empty() {
                continue;
            }
            let own = stranded::disputes(piece).into_iter().flat_map(|sides| sides.get(side));
            let spans: Vec<(NodeId, NodeId)> =
                own.filter_map(|item| *item.edges.get(side)).map(|(a, b)| (a, tree.node(b).end)).collect();
            let lost = |d: &&Drawn| d.node == d.part && spans.iter().any(|(a, b)| (*a..*b).contains(&d.counterpart));
            let lost: HashSet<NodeId> = drawn.iter().filter(lost).map(|d| d.part).collect();
            for Drawn { node, counterpart, .. } in drawn.to_vec().iter().filter(|d| lost.contains(&d.part)) {
                self.matched[side as usize].part(&self.trees.base, *node, tree, *counterpart);
                parted = true;
            }
        }
        if parted {
            self.entangled = Side::BOTH.map(|s| entangled(self.trees, &self.matched, s));
            (self.taken_out, self.put_in) = Default::default();
        }
        parted
    }

    /// Merges the roots once more, now that it is known what is stranded, and what was spilled.
    fn again(&mut self, stranded: [HashSet<NodeId>; 2], spilled: [HashSet<NodeId>; 2]) -> nodes::Outcome {
        self.across = nothing(&self.trees.ours, &self.trees.theirs);
        self.taken_in.clear();
        self.joined.clear();
        self.stranded = stranded;
        self.spilled = spilled;
        self.whole()
    }

    fn to_side(&self, side: Side, base: NodeId) -> Option<NodeId> {
        self.matched[side as usize].to(base)
    }

    fn to_base(&self, side: Side, node: NodeId) -> Option<NodeId> {
        self.matched[side as usize].from(node)
    }

    fn tree(&self, side: Side) -> &'t Tree<'s> {
        self.trees.get(side)
    }

    fn is_entangled(&self, side: Side, node: NodeId) -> bool {
        let before = &self.entangled[side as usize];
        before[self.tree(side).node(node).end.index()] > before[node.index()]
    }

    /// Whether a side's node says something else than its base counterpart; layout aside.
    fn changed(&self, side: Side, base: NodeId, node: NodeId) -> bool {
        self.trees.base.node(base).hash != self.tree(side).node(node).hash
    }

    /// Whether a side has a base node as it was, but for the order of entries that have none.
    fn only_reordered(&self, side: Side, base: NodeId, node: NodeId) -> bool {
        self.trees.base.unordered_hash(base, false) == self.tree(side).unordered_hash(node, false)
    }

    /// Whether it has, and for letters before quotes that say nothing: where it is gone, nothing is lost.
    fn says_the_same(&self, side: Side, base: NodeId, node: NodeId) -> bool {
        !self.changed(side, base, node)
            || self.trees.base.unordered_hash(base, true) == self.tree(side).unordered_hash(node, true)
    }

    /// Learns which node below two nodes without a base is which.
    fn match_across(&mut self, ours: NodeId, theirs: NodeId) {
        match_nodes(&self.trees.ours, ours, &self.trees.theirs, theirs, &mut self.across);
    }
}

/// What a side gave a name is nothing else than new where the other side put something else in the place of it: there is no
/// edit to follow.
fn part_drawn(trees: &Versions<Tree<'_>>, matched: &mut [Matching; 2], side: Side) {
    let gone = |drawn: &&Drawn| matched[side.other() as usize].to(drawn.part).is_none();
    let gone: Vec<Drawn> = matched[side as usize].drawn().iter().filter(gone).copied().collect();
    for Drawn { node, counterpart, .. } in gone {
        matched[side as usize].part(&trees.base, node, trees.get(side), counterpart);
    }
}

fn entangled(trees: &Versions<Tree<'_>>, matched: &[Matching; 2], side: Side) -> Vec<u32> {
    let tree = trees.get(side);
    let (own, other) = (&matched[side as usize], &matched[side.other() as usize]);
    let mut before = Vec::with_capacity(tree.len() + 1);
    let mut count = 0;
    for id in (0..tree.len() as u32).map(NodeId) {
        before.push(count);
        let Some(base) = own.from(id) else { continue };
        if own.from(tree.node(id).parent) == Some(trees.base.node(base).parent) {
            continue;
        }
        let untouched =
            other.to(base).is_some_and(|o| trees.get(side.other()).node(o).shape == trees.base.node(base).shape);
        count += u32::from(!untouched);
    }
    before.push(count);
    before
}
