//! What one side puts around an expression beside what the other side puts into it.

use rustc_hash::FxHashSet as HashSet;

use super::lists::Work;
use super::twins::says_a_name;
use super::units::Unit;
use super::{Merger, Side};
use crate::syntax::{NodeId, Part, Tree};

impl Merger<'_, '_> {
    /// Whether a side put something around an expression that is given a value there, and the other side gives the
    /// expression itself the same value: `forecast(day).within(span)` beside `forecast(day, span)`. So it is with an
    /// operand. Both may be two ways to do one thing, and the value would be handed on twice.
    pub(super) fn handed_on_by_both(&self, work: &Work<'_>, unit: &Unit, side: Side) -> bool {
        let place = |side: Side| unit.sides[side as usize].clone().map(|range| &work.seqs.get(side)[range]);
        let ([base], Some(&[wrapper]), Some(&[other])) =
            (&work.seqs.base[unit.base.clone()], place(side), place(side.other()))
        else {
            return false;
        };
        let tree = self.tree(side);
        let Some(inner) = self.to_side(side, *base).filter(|inner| !tree.is_statement(*inner)) else { return false };
        let around = given_around(tree, wrapper, inner);
        if around.is_empty() {
            return false;
        }
        let there = self.tree(side.other());
        let old: HashSet<u64> = self.trees.base.inside(*base).map(|n| self.trees.base.core_hash(n)).collect();
        let given = |n: NodeId| around.contains(&there.core_hash(n)) && !old.contains(&there.core_hash(n));
        there.inside(other).any(given)
    }
}

/// The values with a name in them that what stands around an expression is given, beside the expression.
fn given_around(tree: &Tree<'_>, wrapper: NodeId, inner: NodeId) -> HashSet<u64> {
    let mut given = HashSet::default();
    let mut add = |value: NodeId| {
        let mut core = tree.node(value).core;
        // Parentheses say nothing.
        while let [open, within, _] = tree.kids(core)
            && tree.node_text(*open) == b"("
        {
            core = tree.node(*within).core;
        }
        if says_a_name(tree, core) {
            given.insert(tree.node(core).hash);
        }
    };
    let mut at = inner;
    while at > wrapper {
        let parent = tree.node(at).parent;
        let joint = tree.language.rule(tree.node(parent).kind).joint;
        for beside in tree.kids(parent).iter().filter(|kid| **kid != at) {
            match tree.list_rule(*beside) {
                Some(rule) if rule.lines => {}
                Some(_) => tree.part(*beside, Part::Entry).iter().for_each(|entry| add(*entry)),
                None if joint || tree.node(*beside).part == Part::Entry => add(*beside),
                None => {}
            }
        }
        at = parent;
    }
    given
}
