//! Nodes whose parts mean something only together.

use rustc_hash::FxHashMap as HashMap;

use super::lists::Work;
use super::units::Unit;
use super::{Merger, Side, Versions};
use crate::grammar::KeyPath;
use crate::syntax::{NodeId, Part, Token, Tree};

impl Merger<'_, '_> {
    /// Whether both sides changed different parts of a joint expression, and neither change is
    /// confined to a list with entries of its own.
    pub(super) fn joint_dispute(&self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> bool {
        let Some(base) = nodes.base else { return true };
        let kids = self.trees.base.kids(base);
        let sides = [(Side::Ours, ours), (Side::Theirs, theirs)];
        if sides.iter().any(|(s, n)| self.tree(*s).kids(*n).len() != kids.len()) {
            // Operands came or went: the whole expression is another one.
            return sides.iter().all(|(s, n)| self.changed(*s, base, *n) && !self.only_renamed(*s, base, *n));
        }
        let mut loose = [false; 2];
        let mut shared = false;
        for (i, kid) in kids.iter().enumerate() {
            let changed = sides.map(|(s, n)| self.changed(s, *kid, self.tree(s).kids(n)[i]));
            if changed == [true, true] {
                shared = true;
                continue;
            }
            for (s, n) in sides {
                if changed[s as usize] {
                    loose[s as usize] |= self.says_another(s, *kid, self.tree(s).kids(n)[i]);
                }
            }
        }
        loose == [true, true] || shared && (loose[0] || loose[1])
    }

    /// Whether both sides put one operand in, of an operator that does not mind their order, in the place of different ones:
    /// it would stand there twice.
    pub(super) fn one_operand_twice(&self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> bool {
        let Some(base) = nodes.base else { return false };
        let kind = self.trees.base.node(base).kind;
        // Each with the number of those before it.
        let operands = |tree: &Tree<'_>, node: NodeId| -> HashMap<u64, usize> {
            let of_kind = |n: NodeId| tree.node(n).kind == kind;
            let operand = |n: &NodeId| !of_kind(*n) && of_kind(tree.node(*n).parent) && !tree.node(*n).anonymous;
            tree.inside(node).filter(operand).enumerate().map(|(at, n)| (tree.node(n).hash, at)).collect()
        };
        let old = operands(&self.trees.base, base);
        let other = operands(&self.trees.theirs, theirs);
        let elsewhere = |(operand, at): (&u64, &usize)| {
            !old.contains_key(operand) && other.get(operand).is_some_and(|there| there != at)
        };
        operands(&self.trees.ours, ours).iter().any(elsewhere)
    }

    /// Whether both sides put a joint expression around something, and one of them changed that thing too: what they made
    /// of it means something only together.
    pub(super) fn joint_twice(&self, work: &Work<'_>, unit: &Unit) -> bool {
        let own = |side: Side| unit.sides[side as usize].clone().map_or(&[][..], |range| &work.seqs.get(side)[range]);
        let hashes = |side: Side| own(side).iter().map(|n| self.tree(side).node(*n).hash).collect::<Vec<_>>();
        let joint =
            |side: Side| own(side).iter().any(|n| self.tree(side).language.rule(self.tree(side).node(*n).kind).joint);
        let beyond_lists = |side: Side| {
            let pairs = work.seqs.base[unit.base.clone()].iter().filter_map(|b| Some((*b, self.to_side(side, *b)?)));
            pairs.into_iter().any(|(b, n)| self.changed(side, b, n) && !self.confined(side, b, n))
        };
        Side::BOTH.into_iter().any(joint)
            && hashes(Side::Ours) != hashes(Side::Theirs)
            && Side::BOTH.into_iter().any(beyond_lists)
    }

    /// Whether one side changed a part that says what the others are for, and the other side changed one of those,
    /// beyond a list with entries of its own.
    pub(super) fn governed_dispute(
        &self,
        nodes: Versions<Option<NodeId>>,
        governs: &[u16],
        ours: NodeId,
        theirs: NodeId,
    ) -> bool {
        let Some(base) = nodes.base else { return false };
        let of = |side: Side| side.of(ours, theirs);
        let changed = |side: Side, governing: bool| {
            let pairs = self.trees.base.kids(base).iter().zip(self.tree(side).kids(of(side)));
            let mut pairs = pairs.filter(|(kid, _)| governs.contains(&self.trees.base.node(**kid).field) == governing);
            pairs.any(|(kid, own)| self.changed(side, *kid, *own) && self.says_another(side, *kid, *own))
        };
        Side::BOTH.into_iter().any(|side| changed(side, true) && changed(side.other(), false))
    }

    /// Whether a side put in or took out a part that says what the others are for.
    pub(super) fn took_another_form(&self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> bool {
        let Some(base) = nodes.base else { return false };
        let governs = &self.trees.base.language.rule(self.trees.base.node(base).kind).governs;
        let has = |tree: &Tree<'_>, node: NodeId| {
            !governs.is_empty() && tree.kids(node).iter().any(|kid| governs.contains(&tree.node(*kid).field))
        };
        let before = has(&self.trees.base, base);
        has(&self.trees.ours, ours) != before || has(&self.trees.theirs, theirs) != before
    }

    /// Whether one side changed what says what the entries of a list beside it are for, and the other side changed the
    /// list.
    pub(super) fn governed_list(&self, base: NodeId, ours: NodeId, theirs: NodeId) -> bool {
        let kids = self.trees.base.kids(base);
        let governed = |kid: &NodeId| self.trees.base.list_rule(*kid).is_some_and(|rule| rule.governed);
        let Some(at) = kids.iter().position(governed).filter(|at| *at > 0) else { return false };
        let of = |side: Side| self.tree(side).kids(side.of(ours, theirs));
        let changed = |side: Side, i: usize| of(side).get(i).is_none_or(|own| self.changed(side, kids[i], *own));
        Side::BOTH.into_iter().any(|side| changed(side, 0) && changed(side.other(), at))
    }

    /// Whether both sides changed a number, and what it counts: neither number is that of all that both made of it.
    pub(super) fn counted_dispute(
        &self,
        nodes: Versions<Option<NodeId>>,
        ways: &[KeyPath; 2],
        ours: NodeId,
        theirs: NodeId,
    ) -> bool {
        let at =
            |tree: &Tree<'_>, node: NodeId, way: &KeyPath| tree.along(node, way).map(|found| tree.node(found).hash);
        ways.iter().all(|way| {
            let [base, ours, theirs] = [
                nodes.base.and_then(|base| at(&self.trees.base, base, way)),
                at(&self.trees.ours, ours, way),
                at(&self.trees.theirs, theirs, way),
            ];
            base.is_some() && base != ours && base != theirs
        }) && at(&self.trees.ours, ours, &ways[1]) != at(&self.trees.theirs, theirs, &ways[1])
    }

    /// Whether both sides changed the tokens of a run, those in brackets aside: nobody knows how they belong together. Of a
    /// text of several lines, only that it stands there counts: it is merged by itself.
    pub(super) fn run_dispute(&self, nodes: Versions<Option<NodeId>>, ours: NodeId, theirs: NodeId) -> bool {
        let of_lines = |tree: &Tree<'_>, token: &NodeId| {
            tree.language.rule(tree.node(*token).kind).text && tree.node_text(*token).contains(&b'\n')
        };
        let said = |tree: &Tree<'_>, run: NodeId, apart: bool| -> Vec<Option<u64>> {
            let tokens = tree.kids(run).iter().zip(run_tokens(tree, run));
            tokens
                .map(|(kid, token)| token.filter(|_| !(apart && of_lines(tree, kid))).map(|token| token.hash))
                .collect()
        };
        [false, true].into_iter().all(|apart| {
            let base = nodes.base.map(|n| said(&self.trees.base, n, apart));
            let (ours, theirs) = (said(&self.trees.ours, ours, apart), said(&self.trees.theirs, theirs, apart));
            ours != theirs && base.is_none_or(|base| base != ours && base != theirs)
        })
    }

    /// Whether a side changed more of a run than names, what stands in brackets aside: its tokens may belong together in
    /// another way.
    pub(super) fn signs_changed(&self, side: Side, base: NodeId, own: NodeId) -> bool {
        let sign = |t: Option<&Token>| t.map(|t| (!t.word).then_some(t.hash));
        !run_tokens(&self.trees.base, base).map(sign).eq(run_tokens(self.tree(side), own).map(sign))
    }

    /// Whether what a side changed below a node makes another thing of what stands beside it.
    fn says_another(&self, side: Side, base: NodeId, node: NodeId) -> bool {
        !self.confined(side, base, node) && !self.only_renamed(side, base, node)
    }

    /// Whether all that a side changed below a node is inside lists that are there in both, what stands before and
    /// behind their entries aside.
    fn confined(&self, side: Side, base: NodeId, node: NodeId) -> bool {
        let (b, n) = (&self.trees.base, self.tree(side));
        let ends = |tree: &Tree<'_>, list: NodeId| {
            let of = |part: Part| tree.part(list, part).iter().map(|kid| tree.node(*kid).hash).collect::<Vec<u64>>();
            [of(Part::Head), of(Part::Tail)]
        };
        let lists = |x: NodeId, y: NodeId| b.node(x).list.is_some() && b.node(x).kind == n.node(y).kind;
        self.changed_inside(side, base, node, &|x, y| lists(x, y) && ends(b, x) == ends(n, y))
    }
}

/// The tokens of a run, with nothing in the place of what stands in brackets.
fn run_tokens<'t>(tree: &'t Tree<'_>, run: NodeId) -> impl Iterator<Item = Option<&'t Token>> {
    let token = |k: NodeId| tree.is_leaf(k) && tree.language.rule(tree.node(k).kind).lists.is_empty();
    tree.kids(run).iter().map(move |k| tree.tokens(*k).first().filter(|_| token(*k)))
}
