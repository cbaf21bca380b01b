//! Names that a text put together uses where nothing declares them, or above what does, and members that nothing gives a
//! value, as neither side has it: each side may be right, and their merge stop when it is run.

use std::cell::LazyCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::blocks;
use super::unsound::Unsound;
use crate::Side;
use crate::grammar::{self, is_word, words};
use crate::syntax::{NodeId, Span, Tree};

/// The first name that is used in a tree where nothing declares it, or where the list that runs in order declares it only
/// further below, and that neither side so uses anywhere, in a language of which it is known what hides names.
/// The trees of the sides are asked for only if what they so use may matter. That a side so uses a name of `hidden` tells
/// nothing: these trees do not show how it is declared. Of names that no edit has, given those that one has, nothing has
/// changed.
///
/// Rule: The Python Language Reference, 4.2.2, "Resolution of names". A function knows what is declared in it and around
/// it, but not in the classes around it, and it is run later than the list that it stands in. Of languages with `walls`,
/// the module `blocks` tells.
pub fn out_of_reach<'t, 's: 't>(
    tree: &Tree<'_>,
    side: impl Fn(Side) -> &'t Tree<'s>,
    hidden: &HashSet<&[u8]>,
    edited: Option<&HashSet<&[u8]>>,
) -> Option<Unsound> {
    let mut here = Strange::of(tree);
    if here.kinds.is_empty() {
        // It declares nothing: what may be a name, the sides tell.
        let kinds = Side::BOTH.map(|at| Strange::of(side(at)).kinds);
        here = Strange::by_kinds(tree, kinds.into_iter().flatten().collect());
    }
    let kinds = std::mem::take(&mut here.kinds);
    let there = Side::BOTH.map(|at| {
        let (side, kinds) = (&side, &kinds);
        LazyCell::new(move || Strange::by_kinds(side(at), kinds.clone()))
    });
    if let Some(edited) = edited {
        here.nowhere.retain(|name, _| edited.contains(name));
        here.early.retain(|name, _| edited.contains(name));
        here.unset.retain(|path, _| edited.contains(member(path)));
    }
    let on_a_side = |has: &dyn Fn(&Strange<'s>) -> bool| there.iter().any(|side| has(side));
    // That a side uses a name above what declares it tells nothing of one that nothing declares.
    let undeclared = |name: &[u8]| {
        let there = |side: &Strange<'s>| side.nowhere.contains_key(name) || side.perhaps.contains_key(name);
        hidden.contains(name) || !on_a_side(&there)
    };
    let too_early =
        |name: &[u8]| undeclared(name) && (hidden.contains(name) || !on_a_side(&|side| side.early.contains_key(name)));
    // Where a side now imports whatever there is, that may be among it.
    if here.from_anywhere && !here.nowhere.is_empty() && !there.iter().all(|side| side.from_anywhere) {
        here.nowhere.clear();
    }
    // What no side sets is set elsewhere.
    let lost = |path: &[u8]| {
        let set = there.iter().any(|side| side.sets(path));
        hidden.contains(member(path)) || set && !there.iter().any(|side| side.unset.contains_key(path))
    };
    let first = |names: &HashMap<&[u8], u32>, counts: &dyn Fn(&[u8]) -> bool| {
        let strange = names.iter().filter(|(name, _)| counts(name)).min_by_key(|(_, at)| **at)?;
        Some((String::from_utf8_lossy(strange.0).into_owned(), tree.line_of(*strange.1)))
    };
    first(&here.nowhere, &undeclared)
        .or_else(|| first(&here.unset, &lost))
        .map(|(name, line)| Unsound::Undeclared { name, line })
        .or_else(|| first(&here.early, &too_early).map(|(name, line)| Unsound::Early { name, line }))
}

/// Names that are used where they are not known, each with the first place.
#[derive(Default)]
pub struct Strange<'s> {
    pub(super) nowhere: HashMap<&'s [u8], u32>,
    pub(super) early: HashMap<&'s [u8], u32>,
    /// Those that may be among what is imported without its names.
    pub(super) perhaps: HashMap<&'s [u8], u32>,
    /// Members, with what they are members of, that nothing gives a value, or defines.
    pub(super) unset: HashMap<&'s [u8], u32>,
    /// Those to which something gives a value, and those of anything that are defined.
    pub(super) set: HashSet<&'s [u8]>,
    pub(super) defined: HashSet<&'s [u8]>,
    /// Whether something is imported that does not say its names: `from tides import *`.
    pub(super) from_anywhere: bool,
    /// The kinds of nodes that declare a name.
    pub(super) kinds: HashSet<grammar::Kind>,
    /// Those that are used nowhere known behind a wall, each with the key of that.
    pub(super) walled: HashSet<(&'s [u8], u64)>,
}

/// Whether something of which these trees do not show how it is declared is used behind a wall, where neither side so uses
/// it: it may be declared on the other side of that.
pub fn is_walled_off<'t, 's: 't>(tree: &Tree<'_>, side: impl Fn(Side) -> &'t Tree<'s>) -> bool {
    let here = Strange::of(tree).walled;
    !here.is_empty() && {
        let there = Side::BOTH.map(|at| Strange::of(side(at)));
        !here.iter().all(|used| there.iter().any(|side| side.walled.contains(used)))
    }
}

/// Where a name may be known.
struct Scope<'s> {
    node: NodeId,
    around: Option<usize>,
    kind: Kind,
    /// The names that it declares, each with the first place.
    declared: HashMap<&'s [u8], u32>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// The file.
    File,
    /// What hides names, and is run when it is called.
    Function,
    /// What owns what is declared in it.
    Owner,
}

/// A name that is used.
struct Use<'s> {
    name: &'s [u8],
    node: NodeId,
    at: u32,
    scope: usize,
    /// What kind of node it is, if it is no text.
    kind: Option<grammar::Kind>,
}

impl Use<'_> {
    /// Where the statement ends that the name stands in: what is declared in it may be known in all of it, as in a
    /// comprehension.
    fn end_in(&self, tree: &Tree<'_>) -> u32 {
        let statement = tree.outward(self.node).find(|node| tree.is_statement(*node));
        statement.map_or(self.at, |statement| tree.node(statement).span.end)
    }
}

impl<'s> Strange<'s> {
    /// Those of a tree.
    pub fn of(tree: &Tree<'s>) -> Strange<'s> {
        Strange::by_kinds(tree, HashSet::default())
    }

    /// Those of a tree in which what is of these kinds may be a name too, though it declares none of them.
    fn by_kinds(tree: &Tree<'s>, kinds: HashSet<grammar::Kind>) -> Strange<'s> {
        if tree.language.has_walls() {
            return blocks::strange(tree, kinds);
        }
        let mut names = Names::of(tree, kinds);
        let mut found = Strange { kinds: std::mem::take(&mut names.kinds), ..Strange::default() };
        for used in &names.used {
            let strange = match names.known(used) {
                None => &mut found.nowhere,
                Some((declared, later)) if declared > used.end_in(tree) && !later => &mut found.early,
                Some(_) => continue,
            };
            strange.entry(used.name).or_insert(used.at);
        }
        (found.set, found.defined, found.from_anywhere) = (names.set, names.defined, names.from_anywhere);
        for (path, at) in names.members {
            if !found.sets(path) {
                found.unset.entry(path).or_insert(at);
            }
        }
        found
    }

    fn sets(&self, path: &[u8]) -> bool {
        self.set.contains(path) || self.defined.contains(member(path))
    }
}

/// The scopes of a tree, each behind those around it, and the names that are used.
#[derive(Default)]
struct Names<'s> {
    scopes: Vec<Scope<'s>>,
    used: Vec<Use<'s>>,
    from_anywhere: bool,
    /// The kinds of nodes that declare a name.
    kinds: HashSet<grammar::Kind>,
    /// The members that are used, with what they are members of, each with its place.
    members: Vec<(&'s [u8], u32)>,
    /// Those that are given a value.
    set: HashSet<&'s [u8]>,
    /// The members of anything that are defined, or may be.
    defined: HashSet<&'s [u8]>,
}

impl<'s> Names<'s> {
    fn of(tree: &Tree<'s>, kinds: HashSet<grammar::Kind>) -> Names<'s> {
        let file = Scope { node: NodeId::ROOT, around: None, kind: Kind::File, declared: HashMap::default() };
        let mut names = Names { scopes: vec![file], kinds, ..Names::default() };
        let (mut open, mut imported) = (0, NodeId::ROOT);
        for id in (1..tree.len() as u32).map(NodeId) {
            while id >= tree.node(names.scopes[open].node).end {
                open = names.scopes[open].around.expect("nothing is behind the root");
            }
            for name in tree.bound_names(id) {
                names.declare(open, tree, tree.first_of_path(name));
            }
            let rule = tree.language.rule(tree.node(id).kind);
            let kind = if rule.hides { Some(Kind::Function) } else { rule.owner.then_some(Kind::Owner) };
            if tree.is_leaf(id) && tree.is_whole(id) {
                // Whatever is declared in it is known there.
                let statements = tree.list_rule(id).is_some_and(|rule| rule.lines);
                let declares = statements || id < imported || !rule.declares.is_empty();
                for word in words(tree.node_text(id)).filter(|_| declares) {
                    names.scopes[open].declared.insert(word, 0);
                    names.defined.insert(word);
                }
                continue;
            }
            let paths = tree.member_paths(id);
            for (path, member, set) in &paths {
                match set {
                    true => drop(names.set.insert(path)),
                    false => names.members.push((path, member.start)),
                }
            }
            if !paths.is_empty() && !tree.has_code(id) {
                continue;
            }
            if tree.is_declaration(id) {
                names.kinds.insert(tree.node(id).kind);
                // The name of a definition is known around it.
                let own = tree.node(id).parent == names.scopes[open].node;
                let scope = names.scopes[open].around.filter(|_| own).unwrap_or(open);
                names.declare(scope, tree, tree.first_of_path(id));
            } else if let Some(kind) = kind {
                names.scopes.push(Scope { node: id, around: Some(open), kind, declared: HashMap::default() });
                open = names.scopes.len() - 1;
            } else if tree.is_import(id) {
                imported = tree.node(id).end;
                names.from_anywhere |= tree.imports_anything(id);
            } else if id >= imported && is_name(tree, id) {
                let kind = (!tree.has_code(id)).then_some(tree.node(id).kind);
                let used = |name: Span| Use { name: tree.text(name), node: id, at: name.start, scope: open, kind };
                names.used.extend(tree.names(id).map(used));
            }
        }
        // What is of a kind that nothing declares is a word of the language.
        let Names { used, kinds, .. } = &mut names;
        used.retain(|used| used.kind.is_none_or(|kind| kinds.contains(&kind)));
        let owners = names.scopes.iter().filter(|scope| scope.kind == Kind::Owner);
        names.defined.extend(owners.flat_map(|scope| scope.declared.keys()));
        names
    }

    fn declare(&mut self, scope: usize, tree: &Tree<'s>, name: Span) {
        let first = self.scopes[scope].declared.entry(tree.text(name)).or_insert(name.start);
        *first = name.start.min(*first);
    }

    /// Where a name is declared first, as far as it is known where it is used, and whether that is run later than what
    /// declares it.
    fn known(&self, used: &Use<'_>) -> Option<(u32, bool)> {
        let mut later = false;
        let mut at = Some(used.scope);
        while let Some(scope) = at.map(|at| &self.scopes[at]) {
            if let Some(declared) = scope.declared.get(used.name).filter(|_| scope.kind != Kind::Owner || !later) {
                return Some((*declared, later));
            }
            later |= scope.kind == Kind::Function;
            at = scope.around;
        }
        None
    }
}

/// The name of a member, of that with what it is a member of.
fn member(path: &[u8]) -> &[u8] {
    words(path).last().unwrap_or_default()
}

/// Whether a node is a name, or a text with code in it, that is no declaration.
pub(super) fn is_name(tree: &Tree<'_>, id: NodeId) -> bool {
    let node = tree.node(id);
    let rule = tree.language.rule(node.kind);
    let begins = |b: &u8| is_word(*b) && !b.is_ascii_digit();
    let name = tree.node_text(id).first().is_some_and(begins) && !rule.text || tree.has_code(id);
    name && tree.is_leaf(id) && !node.anonymous && !rule.comment && !tree.is_member(id)
}
