//! Names in a tree, by their sorts.

use std::ops::Range;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use crate::grammar;
use crate::syntax::{NodeId, Span, Tree};

/// How often some words stand where they name nothing that must be declared: in comments and texts, and in what an
/// import names, which is declared elsewhere.
pub(super) fn mentioned<'w>(tree: &Tree<'_>, searched: &HashSet<&'w [u8]>) -> HashMap<&'w [u8], usize> {
    let mut found: HashMap<&[u8], usize> = HashMap::default();
    let mut at = NodeId::ROOT;
    while !searched.is_empty() && at.index() < tree.len() {
        let (id, node) = (at, tree.node(at));
        at = NodeId(at.0 + 1);
        let (rule, text) = (tree.language.rule(node.kind), tree.node_text(id));
        let others = |names: &[&[u8]]| grammar::names(text).filter(|word| !names.contains(word)).collect::<Vec<_>>();
        let mentioned = if tree.is_import(id) {
            at = node.end;
            others(&tree.declared(id).into_iter().map(|name| tree.text(name)).collect::<Vec<_>>())
        } else if tree.is_leaf(id) && !tree.is_whole(id) && (rule.comment || rule.text) {
            others(&tree.names(id).map(|name| tree.text(name)).collect::<Vec<_>>())
        } else {
            continue;
        };
        for word in mentioned.into_iter().filter_map(|word| searched.get(word)) {
            *found.entry(*word).or_default() += 1;
        }
    }
    found
}

/// Members with what they are members of, as they are written: `self.level`.
pub(super) struct Paths<'s>(pub HashMap<&'s [u8], Path<'s>>);

/// How often such a member is named, and where it is given a value.
#[derive(Default)]
pub(super) struct Path<'s> {
    pub member: &'s [u8],
    pub used: usize,
    pub set: Vec<usize>,
}

impl Path<'_> {
    /// How often it is given a value within some bytes.
    pub fn set_within(&self, bytes: &Range<usize>) -> usize {
        self.set.iter().filter(|at| bytes.contains(at)).count()
    }
}

impl<'s> Paths<'s> {
    /// Those of some members.
    pub fn of(tree: &Tree<'s>, members: &HashSet<&[u8]>) -> Paths<'s> {
        let mut found: HashMap<&[u8], Path<'s>> = HashMap::default();
        for leaf in tree.inside(NodeId::ROOT).filter(|id| tree.is_leaf(*id)) {
            let own = members.contains(tree.node_text(leaf)) || tree.has_code(leaf);
            let paths = if own { tree.member_paths(leaf) } else { Vec::new() };
            for (path, member, set) in paths.into_iter().filter(|(_, member, _)| members.contains(tree.text(*member))) {
                let known = found.entry(path).or_default();
                known.member = tree.text(member);
                known.used += 1;
                known.set.extend(set.then_some(member.start as usize));
            }
        }
        Paths(found)
    }
}

/// Names of one sort in a text, and where they begin.
pub(super) struct Names<'s>(pub HashMap<&'s [u8], Vec<usize>>);

impl<'s> Names<'s> {
    /// Those of some words that stand there.
    fn of(tree: &Tree<'s>, words: &HashSet<&[u8]>, spans: impl Iterator<Item = Span>) -> Names<'s> {
        let mut names: HashMap<&[u8], Vec<usize>> = HashMap::default();
        for span in spans.filter(|span| words.contains(tree.text(*span))) {
            names.entry(tree.text(span)).or_default().push(span.start as usize);
        }
        Names(names)
    }

    /// Those that it declares.
    pub fn declared(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        Names::of(tree, words, tree.declared(NodeId::ROOT).into_iter())
    }

    /// Those that name something in what stands beside them.
    pub fn members(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        let leaves = || tree.beside_imports(NodeId::ROOT).filter(|id| tree.is_leaf(*id));
        let named = leaves().filter(|id| tree.is_member(*id)).map(|id| tree.node(id).span);
        Names::of(tree, words, named.chain(leaves().flat_map(|id| tree.members_in_text(id))))
    }

    /// Those that name what is a member of what it is defined in.
    pub fn owned(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        Names::leaves(tree, words, |id| tree.is_owned(id))
    }

    /// Those that stand alone.
    pub fn alone(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        Names::leaves(tree, words, |id| !tree.node(id).anonymous && !tree.is_member(id))
    }

    fn leaves(tree: &Tree<'s>, words: &HashSet<&[u8]>, is_one: impl Fn(NodeId) -> bool) -> Names<'s> {
        let leaves = tree.beside_imports(NodeId::ROOT).filter(|id| tree.is_leaf(*id) && is_one(*id));
        Names::of(tree, words, leaves.flat_map(|id| tree.names(id)))
    }

    /// How often a name is among them.
    pub fn often(&self, name: &[u8]) -> usize {
        self.0.get(name).map_or(0, Vec::len)
    }

    /// How often it is within some bytes.
    pub fn within(&self, name: &[u8], bytes: &Range<usize>) -> usize {
        self.0.get(name).map_or(0, |places| places.iter().filter(|at| bytes.contains(*at)).count())
    }
}
