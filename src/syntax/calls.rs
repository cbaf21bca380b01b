//! What calls give, and what the definitions that they are of take.

use rustc_hash::FxHashMap as HashMap;

use super::tree::{NodeId, Part, Tree};
use crate::grammar::{CallRules, Kind, outer_name};
use crate::once;

/// What a definition takes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Takes<'s> {
    /// In their order, each with whether it must be given; without a name, if it cannot be given by one.
    placed: Vec<(&'s [u8], bool)>,
    /// What is given by its name only, likewise.
    named: Vec<(&'s [u8], bool)>,
    /// Whether it takes whatever more is given by its place, or by name.
    any_placed: bool,
    any_named: bool,
    /// Whether it takes the object that it is called on before all that.
    object: bool,
}

/// What a call gives.
#[derive(Debug, Default)]
pub(crate) struct Given<'s> {
    /// How much of it by its place; with the object, if it is called by what that is.
    placed: usize,
    by_owner: bool,
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
        let object = usize::from(given.by_owner && self.object);
        let Some(placed) = given.placed.checked_sub(object) else { return false };
        if placed > self.placed.len() && !self.any_placed {
            return false;
        }
        let (filled, behind) = self.placed.split_at(placed.min(self.placed.len()));
        let open = || behind.iter().chain(&self.named);
        let known = |name: &&[u8]| {
            let open = open().any(|(taken, _)| taken == name);
            open || self.any_named && !filled.iter().any(|(taken, _)| taken == name)
        };
        let known = given.named.iter().all(known);
        known && open().all(|(name, needed)| !needed || given.named.contains(name))
    }
}

/// What is called by: the name of what it is a member of, if it is, and its own.
type Known<'s> = (Option<&'s [u8]>, &'s [u8]);

/// The definitions of a tree that can be called, each with its path, where it is clear what they take and which of them a
/// call is of: a name that stands alone is declared nowhere else, and no other member of that name has an owner of that
/// name.
pub(crate) struct Callable<'s> {
    rules: &'static CallRules,
    known: HashMap<Known<'s>, Option<(u64, Takes<'s>)>>,
}

impl<'s> Callable<'s> {
    /// Those of each sort that there is.
    pub(crate) fn all(tree: &Tree<'s>) -> Vec<Callable<'s>> {
        let sorts = tree.language.calls();
        let mut declared: HashMap<&[u8], usize> = HashMap::default();
        if !sorts.is_empty() {
            tree.declared(NodeId::ROOT).into_iter().for_each(|name| *declared.entry(tree.text(name)).or_default() += 1);
        }
        sorts.iter().map(|rules| Callable::of(tree, rules, &declared)).collect()
    }

    /// Those of one sort; how often each name is declared in the tree is in `declared`.
    fn of(tree: &Tree<'s>, rules: &'static CallRules, declared: &HashMap<&'s [u8], usize>) -> Callable<'s> {
        let definition = |id: &NodeId| tree.node(*id).kind == rules.takes.0;
        let callable = |id: NodeId| {
            let entry = tree.node(id).parent;
            // What it takes may be another thing with something around it.
            let name =
                tree.key_parts(entry).next().filter(|_| tree.node(entry).core == id && tree.is_definition(entry))?;
            let name = tree.node_text(name);
            let owner = tree.owner_of(entry);
            let takes = (tree.definition_path(entry), takes(tree, rules, id, owner.is_some())?);
            let Some(owner) = owner else { return Some([Some(((None, name), takes)), None]) };
            let called = owner_name(tree, owner)?;
            let constructor = rules.constructor.as_ref().is_some_and(|one| one.as_bytes() == name);
            let constructed = constructor.then(|| ((None, called), takes.clone()));
            Some([Some(((Some(called), name), takes)), constructed])
        };
        let all = (0..tree.len() as u32).map(NodeId).filter(definition).filter_map(callable);
        let mut known = once::by_key(all.flatten().flatten());
        known.retain(|(owner, name), _| owner.is_some() || declared.get(name) == Some(&1));
        Callable { rules, known }
    }

    /// What each of these takes, by its path.
    pub(crate) fn by_path(&self) -> HashMap<u64, &Takes<'s>> {
        self.known.values().flatten().map(|(path, takes)| (*path, takes)).collect()
    }

    /// The names by which their tree calls some of these with what they do not take, each with the first such call, and
    /// whether all of these are among tokens without structure.
    pub(crate) fn misfits(&self, tree: &Tree<'s>) -> HashMap<&'s [u8], (NodeId, bool)> {
        let takes = self.by_path();
        let mut found: HashMap<&[u8], (NodeId, bool)> = HashMap::default();
        for (call, path, name, given) in self.calls(tree) {
            if takes.get(&path).is_some_and(|takes| !takes.fits(&given)) {
                let (_, in_tokens) = found.entry(name).or_insert((call, true));
                *in_tokens &= tree.node(call).kind == Kind::RUN;
            }
        }
        found
    }

    /// The calls in their tree that are of one of these: each with its path, the name that it is called by, and what is
    /// given. Of one among tokens without structure, the run of these.
    pub(crate) fn calls<'t>(
        &'t self,
        tree: &'t Tree<'s>,
    ) -> impl Iterator<Item = (NodeId, u64, &'s [u8], Given<'s>)> + 't {
        let rules = self.rules;
        (0..tree.len() as u32).map(NodeId).filter_map(move |id| {
            let call = Call::of(tree, rules, id).or_else(|| Call::in_tokens(tree, rules, id))?;
            let (path, _) = self.known.get(&call.known)?.as_ref()?;
            let given = Given { by_owner: call.by_owner, ..given(tree, rules, call.listed)? };
            Some((call.node, *path, call.known.1, given))
        })
    }
}

/// A call, of whatever it may be.
struct Call<'s> {
    node: NodeId,
    known: Known<'s>,
    by_owner: bool,
    /// The list of what is given.
    listed: NodeId,
}

impl<'s> Call<'s> {
    fn of(tree: &Tree<'s>, rules: &CallRules, id: NodeId) -> Option<Call<'s>> {
        if tree.node(id).kind != rules.called.0 {
            return None;
        }
        let (called, listed) = match tree.kids(id) {
            // What is given stands in it as what it is called by does.
            [called, ..] if tree.list_rule(id).is_some() => (called, &id),
            [called, listed] => (called, listed),
            _ => return None,
        };
        let text = tree.node_text(*called);
        let known = match tree.is_leaf(*called) {
            true if is_around(rules, text) => (None, owner_around(tree, id)?),
            true => (None, text),
            false => member(tree, rules, *called)?,
        };
        let by_owner = rules.member_of.is_some_and(|(kind, _)| tree.node(*called).kind == kind);
        Some(Call { node: id, known, by_owner, listed: *listed })
    }

    /// A name with a list behind it in a run of tokens, which is what a macro makes of it: most leave calls as they are.
    fn in_tokens(tree: &Tree<'s>, rules: &CallRules, listed: NodeId) -> Option<Call<'s>> {
        let node = tree.node(listed).parent;
        let opens = rules.opens.as_ref()?;
        if tree.node(node).kind != Kind::RUN || !tree.node_text(listed).starts_with(opens.as_bytes()) {
            return None;
        }
        let before = &tree.kids(node)[..tree.node(listed).position as usize];
        let (name, before) = before.split_last()?;
        if tree.node(*name).anonymous || !tree.is_leaf(*name) {
            return None;
        }
        let name = tree.node_text(*name);
        let texts: Vec<&[u8]> = before.iter().rev().take(3).map(|token| tree.node_text(*token)).collect();
        let path = tree.language.path_sign()?;
        let (owner, by_owner) = match (&texts[..], before) {
            ([sign, of, above @ ..], _) if *sign == path && above != [path] => {
                (Some(if is_around(rules, of) { owner_around(tree, node)? } else { *of }), true)
            }
            ([b".", ..], [above @ .., object, _]) => {
                let looked_up = above.last().is_some_and(|token| [b".", path].contains(&tree.node_text(*token)));
                let itself = tree.language.rule(tree.node(*object).kind).itself;
                (Some(owner_around(tree, node).filter(|_| itself && !looked_up)?), false)
            }
            ([sign, ..], _) if *sign == path => return None,
            (_, [.., token])
                if tree.node(*token).anonymous && tree.node_text(*token).iter().all(u8::is_ascii_alphabetic) =>
            {
                return None;
            }
            _ => (None, false),
        };
        Some(Call { node, known: (owner, name), by_owner, listed })
    }
}

/// What a member is called by: on the object in a method, or by the name of its owner.
fn member<'s>(tree: &Tree<'s>, rules: &CallRules, called: NodeId) -> Option<Known<'s>> {
    let name = *tree.kids(called).last()?;
    let owner = match rules.member_of.filter(|(kind, _)| tree.node(called).kind == *kind) {
        Some((_, field)) => {
            let of = |kid: &NodeId| field == Some(tree.node(*kid).field);
            let owner = *tree.kids(called).iter().find(|kid| of(kid) && tree.is_leaf(**kid))?;
            let text = tree.node_text(owner);
            if is_around(rules, text) { owner_around(tree, called)? } else { text }
        }
        None => tree.member_path(name).and_then(|_| owner_around(tree, called))?,
    };
    Some((Some(owner), tree.node_text(name)))
}

/// Whether a name stands for the owner that a call stands in.
fn is_around(rules: &CallRules, name: &[u8]) -> bool {
    rules.around.iter().any(|one| one.as_bytes() == name)
}

/// The name of the owner that something stands in.
fn owner_around<'s>(tree: &Tree<'s>, id: NodeId) -> Option<&'s [u8]> {
    owner_name(tree, tree.outward(id).find(|outer| tree.language.rule(tree.node(*outer).kind).owner)?)
}

/// The name of what owns what is defined in it: the last that it is known by, without what that is made of.
fn owner_name<'s>(tree: &Tree<'s>, owner: NodeId) -> Option<&'s [u8]> {
    let entry = tree.node(owner).parent;
    let name = tree.key_parts(entry).last().filter(|_| tree.node(entry).core == owner)?;
    outer_name(tree.node_text(name))
}

/// What a definition takes, if that is all known; the object apart, if it is a `member` of something.
fn takes<'s>(tree: &Tree<'s>, rules: &CallRules, definition: NodeId, member: bool) -> Option<Takes<'s>> {
    let field = rules.takes.1?;
    let list = *tree.kids(definition).iter().find(|kid| tree.node(**kid).field == field)?;
    tree.list_rule(list).filter(|_| !is_unread(tree, list))?;
    let mut takes = Takes::default();
    let mut by_name = rules.by_name;
    let mut entries = tree.part(list, Part::Entry).iter().filter(|e| !tree.is_comment(tree.node(**e).core)).peekable();
    let object = |entry: &&NodeId| rules.object.is_empty() || rules.object.contains(&tree.core_kind(**entry));
    takes.object = member && entries.next_if(object).is_some();
    for entry in entries {
        let kind = tree.core_kind(*entry);
        if rules.names_behind.contains(&kind) {
            by_name = true;
            continue;
        }
        if rules.places_before.contains(&kind) {
            takes.placed.iter_mut().for_each(|(name, _)| *name = b"");
            continue;
        }
        if rules.any_placed.contains(&kind) {
            (takes.any_placed, by_name) = (true, true);
            continue;
        }
        if rules.any_named.contains(&kind) {
            takes.any_named = true;
            continue;
        }
        let needed = rules.needed.contains(&kind);
        // It may not be there.
        if tree.is_conditional(*entry) {
            return None;
        }
        if !needed && !rules.optional.contains(&kind) {
            return None;
        }
        // Without a name of its own it may be any number of things.
        let name = tree.node_text(tree.key_parts(*entry).next()?);
        if by_name { &mut takes.named } else { &mut takes.placed }.push((name, needed));
    }
    Some(takes)
}

/// Whether a list was not looked into.
fn is_unread(tree: &Tree<'_>, list: NodeId) -> bool {
    tree.is_leaf(list) && tree.is_whole(list)
}

/// What a call gives in a list, if that was looked into.
fn given<'s>(tree: &Tree<'s>, rules: &CallRules, list: NodeId) -> Option<Given<'s>> {
    tree.list_rule(list).filter(|rule| !rule.lines && !is_unread(tree, list))?;
    let mut given = Given::default();
    for entry in tree.part(list, Part::Entry) {
        let (kind, core) = (tree.core_kind(*entry), tree.node(*entry).core);
        if tree.is_comment(core) {
            continue;
        }
        let repeats = |token: NodeId| tree.is_whole(token) || rules.spread.contains(&tree.node(token).kind);
        given.spread |= kind == Kind::RUN && tree.inside(core).any(repeats);
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
