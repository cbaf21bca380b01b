//! What calls give, and what the definitions that they are of take.

use rustc_hash::FxHashMap as HashMap;

use super::tree::{NodeId, Part, Tree};
use crate::grammar::CallRules;
use crate::once;

/// What a definition takes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Takes<'s> {
    /// In their order, each with whether it must be given.
    placed: Vec<(&'s [u8], bool)>,
    /// What is given by its name only, likewise.
    named: Vec<(&'s [u8], bool)>,
}

/// What a call gives.
#[derive(Debug, Default)]
pub(crate) struct Given<'s> {
    /// How much of it by its place.
    placed: usize,
    named: Vec<&'s [u8]>,
    /// Whether it gives more than can be told.
    spread: bool,
}

impl Takes<'_> {
    /// Whether a call gives each of what must be given, once, and nothing else (The Python Language Reference, 6.3.4;
    /// The Rust Reference, "Call expressions").
    pub(crate) fn fits(&self, given: &Given<'_>) -> bool {
        if given.spread {
            return true;
        }
        let Some(behind) = self.placed.get(given.placed..) else { return false };
        let open = || behind.iter().chain(&self.named);
        let known = given.named.iter().all(|name| open().any(|(taken, _)| taken == name));
        known && open().all(|(name, needed)| !needed || given.named.contains(name))
    }
}

/// Where a name that is called is known: in what it is a member of, or anywhere.
type Known<'s> = (Option<NodeId>, &'s [u8]);

/// The definitions of a tree that can be called, each with its path, where it is clear what they take and which of them a
/// call is of: a name that stands alone is declared nowhere else.
pub(crate) struct Callable<'s>(HashMap<Known<'s>, Option<(u64, Takes<'s>)>>);

impl<'s> Callable<'s> {
    pub(crate) fn of(tree: &Tree<'s>) -> Callable<'s> {
        let Some(rules) = tree.language.calls() else { return Callable(HashMap::default()) };
        let definition = |id: &NodeId| tree.node(*id).kind == rules.takes.0;
        let mut found = once::by_key((0..tree.len() as u32).map(NodeId).filter(definition).filter_map(|id| {
            let entry = tree.node(id).parent;
            // What it takes may be another thing with something around it.
            let name =
                tree.key_parts(entry).next().filter(|_| tree.node(entry).core == id && tree.is_definition(entry))?;
            let owner = tree.owner_of(entry);
            Some((
                (owner, tree.node_text(name)),
                (tree.definition_path(entry), takes(tree, rules, id, owner.is_some())?),
            ))
        }));
        let mut declared: HashMap<&[u8], usize> = HashMap::default();
        tree.declared(NodeId::ROOT).into_iter().for_each(|name| *declared.entry(tree.text(name)).or_default() += 1);
        found.retain(|(owner, name), _| owner.is_some() || declared.get(name) == Some(&1));
        Callable(found)
    }

    /// What each of these takes, by its path.
    pub(crate) fn by_path(&self) -> HashMap<u64, &Takes<'s>> {
        self.0.values().flatten().map(|(path, takes)| (*path, takes)).collect()
    }

    /// The names by which their tree calls some of these with what they do not take, each with the first such call.
    pub(crate) fn misfits(&self, tree: &Tree<'s>) -> HashMap<&'s [u8], NodeId> {
        let takes = self.by_path();
        let mut found = HashMap::default();
        for (call, path, name, given) in self.calls(tree) {
            if takes.get(&path).is_some_and(|takes| !takes.fits(&given)) {
                found.entry(name).or_insert(call);
            }
        }
        found
    }

    /// The calls in their tree that are of one of these: each with its path, the name that it is called by, and what is
    /// given.
    pub(crate) fn calls<'t>(
        &'t self,
        tree: &'t Tree<'s>,
    ) -> impl Iterator<Item = (NodeId, u64, &'s [u8], Given<'s>)> + 't {
        let rules = tree.language.calls();
        (0..tree.len() as u32).map(NodeId).filter_map(move |id| {
            let rules = rules.filter(|rules| tree.node(id).kind == rules.called.0)?;
            let [called, listed] = tree.kids(id) else { return None };
            let known = if tree.is_leaf(*called) {
                (None, tree.node_text(*called))
            } else {
                let member = *tree.kids(*called).last()?;
                tree.member_path(member)?;
                let owner = tree.outward(id).find(|outer| tree.language.rule(tree.node(*outer).kind).owner)?;
                (Some(owner), tree.node_text(member))
            };
            let (path, _) = self.0.get(&known)?.as_ref()?;
            Some((id, *path, known.1, given(tree, rules, *listed)?))
        })
    }
}

/// What a definition takes, if that is all known; without the object, if it is a `member` of something.
fn takes<'s>(tree: &Tree<'s>, rules: &CallRules, definition: NodeId, member: bool) -> Option<Takes<'s>> {
    let field = rules.takes.1?;
    let list = *tree.kids(definition).iter().find(|kid| tree.node(**kid).field == field)?;
    tree.list_rule(list).filter(|_| !tree.is_whole(list))?;
    let mut takes = Takes::default();
    let mut by_name = false;
    for entry in tree.part(list, Part::Entry).iter().skip(usize::from(member)) {
        let kind = tree.core_kind(*entry);
        if tree.is_comment(tree.node(*entry).core) {
            continue;
        }
        if rules.names_behind.contains(&kind) {
            by_name = true;
            continue;
        }
        let needed = rules.needed.contains(&kind);
        if !needed && !rules.optional.contains(&kind) {
            return None;
        }
        // Without a name of its own it may be any number of things.
        let name = tree.node_text(tree.key_parts(*entry).next()?);
        if by_name { &mut takes.named } else { &mut takes.placed }.push((name, needed));
    }
    Some(takes)
}

/// What a call gives in a list, if that was looked into.
fn given<'s>(tree: &Tree<'s>, rules: &CallRules, list: NodeId) -> Option<Given<'s>> {
    tree.list_rule(list).filter(|rule| !rule.lines && !tree.is_whole(list))?;
    let mut given = Given::default();
    for entry in tree.part(list, Part::Entry) {
        let (kind, core) = (tree.core_kind(*entry), tree.node(*entry).core);
        if tree.is_comment(core) {
            continue;
        }
        if rules.named.contains(&kind) {
            given.named.push(tree.node_text(tree.key_parts(*entry).next()?));
        } else if rules.spread.contains(&kind) {
            given.spread = true;
        } else {
            given.placed += 1;
        }
    }
    Some(given)
}
