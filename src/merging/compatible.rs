//! Whether what both sides put in at one place goes together: what names something, where neither uses what the other
//! names, definitions and imports, attributes, and comments beside anything else. What does not is in dispute
//! ([`super::combine`]).

use super::imports::only_imports;
use super::lists::Work;
use super::{Merger, Side, Versions};
use rustc_hash::FxHashSet as HashSet;

use crate::grammar::{Kind, find_word, words};
use crate::syntax::{NodeId, Part, Span, Token, Tree};

impl Merger<'_, '_> {
    /// Whether an entry that a side put in means the same wherever it is, or is there in both: what only names
    /// something, and comments.
    pub(super) fn is_loose(&self, work: &Work<'_>, side: Side, node: NodeId) -> bool {
        let tree = self.tree(side);
        self.is_independent(side, node, work.policy)
            || tree.is_comment(node)
            || is_plain(tree, node)
            || work.twins.contains_key(&(side, node))
    }

    /// Whether an entry that a side put in is a comment that all else in a file stands below, and that describes none of
    /// that: none of its lines stood in base.
    pub(super) fn heads_the_file(&self, side: Side, node: NodeId) -> bool {
        let (tree, base) = (self.tree(side), &self.trees.base);
        let stood_there = || {
            let lines: HashSet<u64> = tree.tokens(node).iter().map(|token| token.hash).collect();
            (0..base.len() as u32).any(|id| lines.contains(&base.node(NodeId(id)).hash))
        };
        tree.node(node).parent == NodeId::ROOT
            && tree.node(node).position == 0
            && self.stands_apart(side, node)
            && !stood_there()
    }

    /// Whether of two insertions of statements one is nothing but comments, and the other has none that stands alone.
    pub(super) fn comments_alone(&self, work: &Work<'_>, ours: &[NodeId], theirs: &[NodeId]) -> bool {
        let comments = |side: Side, nodes: &[NodeId]| nodes.iter().filter(|n| self.tree(side).is_comment(**n)).count();
        let counts = (comments(Side::Ours, ours), comments(Side::Theirs, theirs));
        work.part == Part::Entry
            && work.policy.is_some_and(|p| p.lines)
            && (counts == (ours.len(), 0) || counts == (0, theirs.len()))
    }

    /// Whether insertions at one place do not disagree.
    pub(super) fn compatible(&self, work: &Work<'_>, ours: &[NodeId], theirs: &[NodeId]) -> bool {
        let Some(policy) = work.policy else { return self.beside_an_entry(ours, theirs) };
        if work.part != Part::Entry {
            return false;
        }
        let side = |s: Side, nodes: &[NodeId]| -> Vec<(bool, bool, Option<i8>, u64)> {
            nodes
                .iter()
                .filter(|n| !self.tree(s).is_comment(**n))
                .map(|n| {
                    let free = self.is_independent(s, *n, Some(policy));
                    // A barrier that is not free takes what has no place before it.
                    let rank = self.tree(s).entry_rule(*n).map_or(Some(0), |r| (free || !r.barrier).then_some(r.rank));
                    (free, free && self.to_base(s, *n).is_some(), rank, self.known_by(s, *n))
                })
                .collect()
        };
        let remark =
            |o, t| self.is_remark_above(work, Side::Ours, o, t) || self.is_remark_above(work, Side::Theirs, t, o);
        let apart = |o: NodeId, t: NodeId| {
            self.commute(o, t) || self.import_apart(o, t) || self.imported_beside(o, t) || remark(o, t)
        };
        if ours.iter().all(|o| theirs.iter().all(|t| apart(*o, *t))) {
            return true;
        }
        let one_value = ours.iter().any(|o| theirs.iter().any(|t| self.one_value(*o, *t)));
        let (ours, theirs) = (side(Side::Ours, ours), side(Side::Theirs, theirs));
        !one_value
            && !ours.is_empty()
            && !theirs.is_empty()
            && ours.iter().all(|(free, moved, rank, key)| {
                theirs.iter().all(|(other_free, other_moved, other_rank, other_key)| {
                    // A definition that was elsewhere before is not one of two things to choose between.
                    let apart = *free && *other_free
                        || *moved
                        || *other_moved
                        || !policy.lines
                            && !policy.free
                            && rank.zip(*other_rank).is_some_and(|(own, other)| own != other)
                            && (*free || *other_free);
                    apart && (*key == 0 || key != other_key)
                })
            })
    }

    /// Whether of two entries a side put in a text that tells of all that is behind it, and the other side no such text, nor
    /// what the whole file begins with, such as the name of the program that runs it.
    fn is_remark_above(&self, work: &Work<'_>, side: Side, own: NodeId, other: NodeId) -> bool {
        let there = self.tree(side.other());
        let leads = there.node(other).span.start == 0
            && there.kids(other).first().is_some_and(|first| there.is_comment(*first));
        !work.seqs.base.is_empty()
            && self.is_first_remark(&work.seqs, side, own)
            && !leads
            && !self.is_first_remark(&work.seqs, side.other(), other)
    }

    /// Whether a statement that a side put in is a text there to be read, before all other statements: it does nothing,
    /// and tells of all that is behind it, whoever put that in.
    pub(super) fn is_first_remark(&self, seqs: &Versions<&[NodeId]>, side: Side, entry: NodeId) -> bool {
        self.tree(side).first_remark(seqs.get(side)) == Some(entry)
    }

    /// Whether two entries do nothing but name something, a value or what one of them defines, and neither uses what the
    /// other names.
    fn commute(&self, ours: NodeId, theirs: NodeId) -> bool {
        let (o, t) = (&self.trees.ours, &self.trees.theirs);
        // Two names of one number, or of one text, may be one name too many: in an enumeration they are one member.
        let literal = |tree: &Tree<'_>, entry: NodeId| {
            let bracket = |token: &&Token| tree.text(token.span) == b")";
            let value = *tree.tokens(entry).iter().rev().find(|token| !bracket(token))?;
            let first = tree.text(value.span).first()?;
            (first.is_ascii_digit() || matches!(first, b'"' | b'\'')).then_some(value.hash)
        };
        let one_value = literal(o, ours).is_some_and(|value| literal(t, theirs) == Some(value));
        // A definition only names something; what is given a name beside it may do more.
        let names = |tree: &Tree<'_>, entry| {
            let rule = tree.entry_rule(entry).filter(|_| tree.node(entry).key != 0);
            rule.is_some_and(|r| !r.plain.is_empty())
        };
        let independent = match (is_plain(o, ours), is_plain(t, theirs)) {
            (true, true) => !one_value,
            (true, false) => names(t, theirs) && unseen_from(t, theirs, o, ours),
            (false, true) => names(o, ours) && unseen_from(o, ours, t, theirs),
            (false, false) => false,
        };
        (independent || defines(o, ours) && names(t, theirs) || names(o, ours) && defines(t, theirs))
            && !uses(o, ours, t, theirs)
            && !uses(t, theirs, o, ours)
    }

    /// Whether one entry does nothing but import, and the other nothing but name a value, or anything if it means nothing
    /// where the import stands, and neither uses what the other names.
    fn imported_beside(&self, ours: NodeId, theirs: NodeId) -> bool {
        let beside = |side: Side, import: NodeId, named: NodeId| {
            let (tree, other) = (self.tree(side), self.tree(side.other()));
            let plain = is_plain(other, named);
            let anywhere = || tree.entry_rule(import).is_some_and(|rule| rule.anywhere);
            if !only_imports(tree, import) || !plain && !anywhere() {
                return false;
            }
            let names = tree.declared(import);
            (plain || !names.is_empty())
                && !names.iter().any(|name| says(other, named, tree.text(*name)))
                && !uses(tree, import, other, named)
        };
        beside(Side::Ours, ours, theirs) || beside(Side::Theirs, theirs, ours)
    }

    /// Whether one side gives by name what the other gives by position: a call may not do both (The Python
    /// Language Reference, "Calls").
    fn one_value(&self, ours: NodeId, theirs: NodeId) -> bool {
        let (o, t) = (&self.trees.ours, &self.trees.theirs);
        let named = |tree: &Tree<'_>, entry: NodeId| {
            let value = tree.kids(tree.node(entry).core).last();
            (tree.node(entry).key != 0).then_some(value).flatten().map(|v| tree.node(*v).hash)
        };
        let plain = |tree: &Tree<'_>, entry: NodeId| (tree.node(entry).key == 0).then(|| tree.core_hash(entry));
        let same = |a: Option<u64>, b: Option<u64>| a.is_some() && a == b;
        same(named(o, ours), plain(t, theirs)) || same(plain(o, ours), named(t, theirs))
    }

    /// Whether what both put before one entry does not disagree: attributes, or comments on one side, or parts that may
    /// be there or not, of different kinds. Comments that were left behind there are nobody's.
    fn beside_an_entry(&self, ours: &[NodeId], theirs: &[NodeId]) -> bool {
        let all = |s: Side, nodes: &[NodeId], comments: bool| {
            nodes.iter().all(|n| {
                let rule = self.tree(s).language.rule(self.tree(s).node(*n).kind);
                rule.prefix || comments && rule.comment || self.is_left_behind(s, *n)
            })
        };
        let place = |s: Side, n: NodeId| self.tree(s).language.rule(self.tree(s).node(n).kind).optional;
        all(Side::Ours, ours, true) && all(Side::Theirs, theirs, false)
            || all(Side::Ours, ours, false) && all(Side::Theirs, theirs, true)
            || ours.iter().all(|o| {
                let own = place(Side::Ours, *o);
                own > 0 && theirs.iter().map(|t| place(Side::Theirs, *t)).all(|other| other > 0 && own != other)
            })
    }
}

/// Statements that a side put in, by what they say.
pub(super) struct PutIn<'t> {
    words: HashSet<&'t [u8]>,
    /// Hashes of what they use whole, not just for one thing in it: what is called there may use any other, too.
    whole: HashSet<u64>,
    /// Whether they are nothing but comments.
    comments: bool,
}

impl<'t> PutIn<'t> {
    pub(super) fn of(tree: &'t Tree<'_>, entries: &[NodeId]) -> PutIn<'t> {
        let behind = |id: NodeId| tree.kids(tree.node(id).parent).get(tree.node(id).position as usize + 1).copied();
        let called = |id: NodeId| behind(id).is_some_and(|next| tree.list_rule(next).is_some());
        let for_a_member = |id: &NodeId| {
            let around = tree.node(*id).parent;
            tree.kids(around).last().is_some_and(|last| last != id && tree.is_member(*last)) && !called(around)
        };
        let inside = entries.iter().flat_map(|n| tree.inside(*n));
        PutIn {
            words: entries.iter().flat_map(|n| words(tree.node_text(*n))).collect(),
            whole: inside.filter(|id| !for_a_member(id)).map(|id| tree.node(id).hash).collect(),
            comments: entries.iter().all(|n| tree.is_comment(*n)),
        }
    }
}

/// Whether statements that a side put in do without an entry of base: it does nothing but give names to a value or to what
/// it defines, and they say none of these, nor use whole what a name is a member of. An import may bring in more than it
/// names, as that of a trait does (The Rust Reference, "Method-call expressions"), and nobody knows what a comment alone is
/// about.
pub(super) fn does_without(put_in: &PutIn<'_>, base: &Tree<'_>, entry: NodeId) -> bool {
    if put_in.comments || !(is_plain(base, entry) || defines(base, entry)) {
        return false;
    }
    // Of a member, the name is the last one.
    let last = |key: NodeId| base.inside(key).rfind(|id| base.is_leaf(*id)).map(|id| base.node(id).span);
    let mut given = base.declared(entry);
    given.extend(base.key_parts(entry).filter_map(last));
    let said = |name: &Span| words(base.text(*name)).any(|word| put_in.words.contains(word));
    let owner = |id: &NodeId| !base.node(*id).anonymous && !base.is_member(*id);
    let mut owners = base.key_parts(entry).flat_map(|key| base.inside(key).skip(1)).filter(owner);
    !given.is_empty() && !given.iter().any(said) && !owners.any(|id| put_in.whole.contains(&base.node(id).hash))
}

/// Whether an entry that gives names to what it runs does the same with and without one that does nothing but name a value
/// put in beside it, and that value is the same before and behind it: neither says what the other declares, and what the
/// value or its name is a member of, the entry does not use whole.
fn unseen_from(tree: &Tree<'_>, entry: NodeId, other: &Tree<'_>, plain: NodeId) -> bool {
    let put_in = PutIn::of(tree, &[entry]);
    let owner = |id: &NodeId| {
        let around = other.kids(other.node(*id).parent);
        around.last().is_some_and(|last| last != id && other.is_member(*last))
    };
    does_without(&put_in, other, plain)
        && !tree.declared(entry).iter().any(|name| says(other, plain, tree.text(*name)))
        && !other.inside(plain).any(|id| owner(&id) && put_in.whole.contains(&other.node(id).hash))
}

/// Whether a statement does nothing but define something by a name.
fn defines(tree: &Tree<'_>, entry: NodeId) -> bool {
    tree.entry_rule(entry).is_some_and(|r| r.free && r.unique && r.variant.is_none()) && tree.is_statement(entry)
}

/// Whether an entry has a word in it.
fn says(tree: &Tree<'_>, entry: NodeId, word: &[u8]) -> bool {
    find_word(tree.node_text(tree.node(entry).core), word).next().is_some()
}

/// Whether an entry says what another one names.
fn uses(tree: &Tree<'_>, entry: NodeId, other: &Tree<'_>, named: NodeId) -> bool {
    other.key_parts(named).any(|name| says(tree, entry, other.node_text(name)))
}

/// Whether an entry does nothing but name a value.
fn is_plain(tree: &Tree<'_>, entry: NodeId) -> bool {
    let Some(rule) = tree.entry_rule(entry).filter(|r| !r.plain.is_empty()) else { return false };
    let inside = (entry.0..tree.node(entry).end.0).map(|id| tree.node(NodeId(id)));
    let known = |kind: Kind| rule.plain.contains(&kind) || kind == tree.core_kind(entry) || kind == Kind::ENTRY;
    tree.node(entry).key != 0
        && inside.into_iter().all(|n| n.anonymous || known(n.kind) || tree.language.rule(n.kind).comment)
}
