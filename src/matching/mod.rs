//! Which node of one tree is which of another.
//!
//! Equal subtrees first, then entries with equal keys, then nodes of one kind whose contents are most
//! alike, inside matched parents; then what moved to, or was wrapped under, another parent, and parts that were given a
//! name.

mod align;
mod branches;
mod calls;
mod drawn;
mod imports;
mod increasing;
mod moves;
mod outline;
mod score;
mod similarity;
mod wraps;

use std::cell::OnceCell;
use std::rc::Rc;

use rustc_hash::FxHashMap as HashMap;

use crate::syntax::{Listed, NodeId, Tree};
pub(crate) use increasing::heaviest_increasing;
pub(crate) use score::continues;
pub(crate) use similarity::{Bags, dice, exceeds, words};

/// A one-to-one relation between the nodes of two trees.
#[derive(Debug, Default)]
pub struct Matching {
    forward: Vec<Option<NodeId>>,
    backward: Vec<Option<NodeId>>,
    unseen: Vec<usize>,
    drawn: Vec<Drawn>,
}

/// Two nodes that are one only because a part of a statement has a name now.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Drawn {
    /// The part, in the first tree.
    pub part: NodeId,
    /// The node that is taken for another: the part, or the statement that it was drawn out of.
    pub node: NodeId,
    /// What it is in the second tree.
    pub counterpart: NodeId,
}

impl Matching {
    fn new(from: &Tree<'_>, to: &Tree<'_>) -> Self {
        Matching {
            forward: vec![None; from.len()],
            backward: vec![None; to.len()],
            unseen: Vec::new(),
            drawn: Vec::new(),
        }
    }

    /// The counterpart of a node of the first tree.
    pub fn to(&self, node: NodeId) -> Option<NodeId> {
        self.forward[node.index()]
    }

    /// The counterpart of a node of the second tree.
    pub fn from(&self, node: NodeId) -> Option<NodeId> {
        self.backward[node.index()]
    }

    /// The numbers of the lists that were not looked into, which are the same in both trees and stand in one order, but
    /// are not matched in that order. What is in them may be matched with nothing, or with something else.
    pub(crate) fn unseen(&self) -> &[usize] {
        &self.unseen
    }

    /// What is one only because parts of statements have names now: of use to whoever knows what else became of the part.
    pub(crate) fn drawn(&self) -> &[Drawn] {
        &self.drawn
    }

    fn free(&self, a: NodeId, b: NodeId) -> bool {
        self.to(a).is_none() && self.from(b).is_none()
    }

    /// Pairs two nodes of equal content, and what is below them, as far as they are free.
    pub(crate) fn pair_equal(&mut self, from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId) {
        // Equal subtrees have equal preorders.
        let (len, other) = (from.node(a).end.0 - a.0, to.node(b).end.0 - b.0);
        for i in 0..if len == other { len } else { 1 } {
            let (a, b) = (NodeId(a.0 + i), NodeId(b.0 + i));
            if self.free(a, b) {
                self.pair(a, b);
            }
        }
    }

    /// Takes two nodes, and what is below them, for different ones.
    pub(crate) fn part(&mut self, from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId) {
        for x in from.inside(a) {
            if let Some(y) = self.to(x).filter(|y| to.contains(b, *y)) {
                self.unpair(x, y);
            }
        }
    }

    /// Pairs two nodes, and nothing below them.
    pub(crate) fn pair(&mut self, a: NodeId, b: NodeId) {
        self.forward[a.index()] = Some(b);
        self.backward[b.index()] = Some(a);
    }

    fn unpair(&mut self, a: NodeId, b: NodeId) {
        self.forward[a.index()] = None;
        self.backward[b.index()] = None;
    }
}

/// Matches all of two trees of one language, root to root.
pub fn match_trees(from: &Tree<'_>, to: &Tree<'_>) -> Matching {
    let mut matcher = Matcher::new(from, to, Matching::new(from, to));
    matcher.pair(NodeId::ROOT, NodeId::ROOT);
    matcher.copies();
    matcher.slid();
    matcher.moves();
    matcher.imported_anew();
    matcher.along();
    matcher.reheaded();
    matcher.holders();
    matcher.drawn();
    let (wholes, others): (Vec<NodeId>, Vec<NodeId>) = (from.wholes().collect(), to.wholes().collect());
    let in_order =
        |number: &usize| others.len() == wholes.len() && matcher.matching.to(wholes[*number]) == Some(others[*number]);
    let unseen = (0..wholes.len().max(others.len())).filter(|number| !in_order(number)).collect();
    matcher.matching.unseen = unseen;
    matcher.matching
}

/// Matches only what is below two nodes; for entries that both sides added.
pub fn match_nodes(from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId, matching: &mut Matching) {
    match_below(from, a, to, b, matching, true);
}

/// Matches two nodes, and what is below them, of a tree and one that was made from it.
pub fn match_pair(from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId, matching: &mut Matching) {
    match_below(from, a, to, b, matching, false);
}

/// Adds two nodes, and what is below them, to a matching of trees of which neither, if they are `siblings`, was made
/// from the other.
fn match_below(from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId, matching: &mut Matching, siblings: bool) {
    let mut matcher = Matcher::new(from, to, std::mem::take(matching));
    matcher.siblings = siblings;
    matcher.pair(a, b);
    *matching = matcher.matching;
}

/// An empty matching between two trees.
pub fn nothing(from: &Tree<'_>, to: &Tree<'_>) -> Matching {
    Matching::new(from, to)
}

/// How much more alike a part must be than the whole to be taken for the old whole.
const CLEARLY: f32 = 0.02;

/// Larger expressions are not searched for a smaller version of themselves.
const WRAP_TOKENS: u32 = 400;

/// Whether a part of one of two nodes with blocks stands in another part of the other: what was a condition, or what
/// was done under it, is that of another branch now. Taken part for part, an edit of the one would go to the other.
fn crossed(from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId) -> bool {
    if from.is_block(a) || from.block(a).is_none() {
        return false;
    }
    if from.node(a).kind != to.node(b).kind {
        return took_a_condition(from, a, to, b);
    }
    let stands_in = |tree: &Tree<'_>, outer: NodeId, part: NodeId| {
        let (mut at, end) = (outer, tree.node(outer).end);
        while at < end {
            if tree.node(at).hash == from.node(part).hash && tree.node(at).kind == from.node(part).kind {
                return true;
            }
            at = if tree.is_block(at) { tree.node(at).end } else { NodeId(at.0 + 1) };
        }
        false
    };
    // What stood there before besides did not go there.
    let stood_in = |part: NodeId| {
        let field = from.node(part).field;
        from.kids(a).iter().any(|kid| from.node(*kid).field != field && stands_in(from, *kid, part))
    };
    // Clauses stand beside one another in what they are clauses of: what was in none of the others may be in one now.
    let beside = |tree: &Tree<'_>, n: NodeId| -> Vec<NodeId> {
        let parent = tree.node(n).parent;
        let clauses = if tree.is_block(parent) || tree.node(n).core != n { &[][..] } else { tree.kids(parent) };
        clauses.iter().copied().filter(|kid| *kid != n).collect()
    };
    let (old, new) = (beside(from, a), beside(to, b));
    let holds =
        |tree: &Tree<'_>, clause: NodeId, hash: u64| tree.kids(clause).iter().any(|k| tree.node(*k).hash == hash);
    from.kids(a).iter().filter(|part| from.node(**part).field != 0 && from.size(**part) > 1).any(|part| {
        let (hash, field) = (from.node(*part).hash, from.node(*part).field);
        let stays = to.kids(b).iter().any(|kid| to.node(*kid).field == field && to.node(*kid).hash == hash);
        let others = || to.kids(b).iter().filter(|kid| to.node(**kid).field != field);
        let went = || new.iter().any(|n| holds(to, *n, hash)) && !old.iter().any(|n| holds(from, *n, hash));
        !stays && (others().any(|kid| stands_in(to, *kid, *part)) && !stood_in(*part) || went())
    })
}

/// Whether a clause without a head of its own has one now, and in that the whole condition of a clause beside it: the one
/// was exchanged with the other.
fn took_a_condition(from: &Tree<'_>, a: NodeId, to: &Tree<'_>, b: NodeId) -> bool {
    let parts = |tree: &Tree<'_>, n: NodeId| -> Vec<NodeId> {
        let whole = |kid: &NodeId| tree.node(*kid).field != 0 && tree.size(*kid) > 1;
        tree.head(n).iter().copied().filter(whole).collect()
    };
    let new = parts(to, b);
    let parent = from.node(a).parent;
    if from.is_block(parent) || to.block(b).is_none() || new.is_empty() || !parts(from, a).is_empty() {
        return false;
    }
    let beside = from.kids(parent).iter().copied().filter(|kid| *kid != a && from.block(*kid).is_some());
    let mut conditions = beside.flat_map(|clause| parts(from, clause)).map(|part| from.node(part).hash);
    let stands = |hash: u64| new.iter().any(|n| (n.0..to.node(*n).end.0).any(|id| to.node(NodeId(id)).hash == hash));
    conditions.any(stands)
}

struct Matcher<'t, 's> {
    from: &'t Tree<'s>,
    to: &'t Tree<'s>,
    /// The calls of both, when that was first asked for.
    calls: Option<[HashMap<u64, u32>; 2]>,
    /// Which statements stand beside one another in either, when that was first asked for.
    neighbours: OnceCell<[HashMap<u64, u32>; 2]>,
    /// What is listed by its path in either, when that was first asked for.
    listed: OnceCell<[Vec<Listed>; 2]>,
    /// How often statements begin alike in either, when that was first asked for.
    heads: OnceCell<[HashMap<u64, Option<NodeId>>; 2]>,
    from_bags: Bags,
    to_bags: Bags,
    matching: Matching,
    /// Whether neither tree is the other's ancestor: then nothing was renamed or replaced.
    siblings: bool,
}

impl<'t, 's> Matcher<'t, 's> {
    fn new(from: &'t Tree<'s>, to: &'t Tree<'s>, matching: Matching) -> Self {
        Matcher {
            from,
            to,
            calls: None,
            neighbours: OnceCell::new(),
            listed: OnceCell::new(),
            heads: OnceCell::new(),
            from_bags: Bags::default(),
            to_bags: Bags::default(),
            matching,
            siblings: false,
        }
    }

    /// Matches two nodes and what is below them.
    fn pair(&mut self, a: NodeId, b: NodeId) {
        if !self.matching.free(a, b) {
            return;
        }
        let (x, y) = (self.from.node(a), self.to.node(b));
        if x.hash == y.hash && x.end.0 - a.0 == y.end.0 - b.0 {
            self.matching.pair_equal(self.from, a, self.to, b);
            return;
        }
        if self.exchanged_branches(a, b) {
            return;
        }
        if crossed(self.from, a, self.to, b)
            || crossed(self.to, b, self.from, a)
            || calls::exchanged_links(self.from, a, self.to, b)
            || self.went_elsewhere(a, b)
            || self.in_another_branch(a, b)
        {
            return;
        }
        self.matching.pair(a, b);
        // A block that nothing like a block stands in the place of may hold that.
        let both_blocks = self.from.is_block(a) && self.to.is_block(b);
        let expression = x.core == a && !both_blocks;
        if expression && (self.other_form(a, b) || self.holds_other(a, b)) {
            // One part took another's place: perhaps wrapped around it.
            self.matching.unpair(a, b);
            self.wrapped_part(a, b);
            return;
        }
        self.align_kids(a, b);
    }

    /// Whether what is in the place of a call calls something else, and the call as it was was put in elsewhere: code
    /// went into a function, and this calls that. An edit of the old call is none of the new one.
    fn went_elsewhere(&mut self, a: NodeId, b: NodeId) -> bool {
        let (from, to) = (self.from, self.to);
        if self.siblings
            || from.node(a).kind != to.node(b).kind
            || calls::callee(from, a) == calls::callee(to, b)
            || !calls::is_call(from, a)
            || !calls::is_call(to, b)
        {
            return false;
        }
        let calls = self.calls.get_or_insert_with(|| [calls::often(from), calls::often(to)]);
        let often = |side: usize| calls[side].get(&from.node(a).hash).copied().unwrap_or(0);
        let inside = (b.0..to.node(b).end.0).any(|n| to.node(NodeId(n)).hash == from.node(a).hash);
        !inside && often(1) >= often(0)
    }

    /// Whether two nodes are of kinds that are no forms of one thing.
    fn other_form(&self, a: NodeId, b: NodeId) -> bool {
        let (x, y) = (self.from.node(a).kind, self.to.node(b).kind);
        let form = self.from.language.rule(x).form;
        x != y && (form.is_none() || form != self.from.language.rule(y).form)
    }

    /// Whether one of two expressions of a kind stands whole in the other.
    fn holds_other(&mut self, a: NodeId, b: NodeId) -> bool {
        let (x, y) = (self.from.node(a), self.to.node(b));
        let listed = x.list.is_some();
        let long = self.from.size(a).max(self.to.size(b)) > WRAP_TOKENS;
        if listed && x.kind == y.kind || long || self.from.is_leaf(a) {
            return false;
        }
        let within = |tree: &Tree<'_>, outer: NodeId, hash: u64| {
            (outer.0 + 1..tree.node(outer).end.0).any(|n| tree.nodes[n as usize].hash == hash)
        };
        let (small, large) = (self.from.size(a), self.to.size(b));
        if if small < large { within(self.to, b, x.hash) } else { within(self.from, a, y.hash) } {
            return true;
        }
        // Of two forms of a list, the one that is not in the other whole is that one with other entries.
        if listed {
            return false;
        }
        let (from, to) = (self.from, self.to);
        if calls::linked_part(from, a, to, b).or_else(|| calls::linked_part(to, b, from, a)).is_some()
            || calls::called_part(from, a, to, b).or_else(|| calls::called_part(to, b, from, a)).is_some()
        {
            return true;
        }
        let same_part = from.kids(a).iter().any(|x| {
            let (field, hash) = (from.node(*x).field, from.node(*x).hash);
            (from.size(*x) >= 2 || from.is_member(*x))
                && to.kids(b).iter().any(|y| to.node(*y).field == field && to.node(*y).hash == hash)
        });
        if same_part || calls::begin_alike(from, a, to, b) {
            return false;
        }
        // A link added to a chain makes the old chain a part of the new one, edited or not.
        let direct = self.similarity(a, b) + CLEARLY;
        let part = if small < large { self.alike_part(a, b, false) } else { self.alike_part(b, a, true) };
        part.is_some_and(|(alike, _)| alike > direct)
    }

    /// How alike two nodes are, from 0 to 1.
    fn similarity(&mut self, a: NodeId, b: NodeId) -> f32 {
        self.likeness(a, b, true)
    }

    /// How alike two nodes are, keywords aside: for what is known by a name.
    fn similarity_of_names(&mut self, a: NodeId, b: NodeId) -> f32 {
        self.likeness(a, b, false)
    }

    /// Comments tell what is the same, and not what is another: under a new comment, code is what it was.
    fn likeness(&mut self, a: NodeId, b: NodeId, keywords: bool) -> f32 {
        let all = (self.from_bags.of(self.from, a, keywords), self.to_bags.of(self.to, b, keywords));
        let code = (self.from_bags.code(self.from, a, keywords), self.to_bags.code(self.to, b, keywords));
        let commented = !Rc::ptr_eq(&all.0, &code.0) || !Rc::ptr_eq(&all.1, &code.1);
        let alike = similarity::dice(&all.0, &all.1);
        if commented { alike.max(similarity::dice(&code.0, &code.1)) } else { alike }
    }
}
