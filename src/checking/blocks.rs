//! Names by the blocks in which they are known: from their declaration on, or in all of the block, but not behind a wall in
//! it.

use std::ops::Range;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::reach::{Strange, is_name};
use crate::grammar::{Kind, is_behind_dot, is_word, words};
use crate::syntax::{Listed, NodeId, Part, Tree, listed_in};

/// Names that are used in a tree where they are not known.
///
/// Rule: The Rust Reference, "Scopes": an item is known in all of the block or module that it stands in, but in no module in
/// that; what a statement binds is known from there to the end of the block, and what a head binds in what it is the head
/// of.
///
/// What is of these `kinds` may be a name though the tree declares none of them.
pub(super) fn strange<'s>(tree: &Tree<'s>, kinds: HashSet<Kind>) -> Strange<'s> {
    let mut names = Names::of(tree, kinds);
    let mut found = Strange { defined: std::mem::take(&mut names.defined), ..Strange::default() };
    for used in &names.used {
        let within = |range: &Range<NodeId>| range.contains(&used.node);
        let near = || names.declared.get(used.name).into_iter().flatten().filter(|name| name.wall == used.wall);
        // What is of a kind that nothing declares is a word of the language.
        let word = !tree.has_code(used.node) && !names.kinds.contains(&tree.node(used.node).kind);
        let imported = names.anything.iter().any(|list| list.wall == used.wall && within(&list.known));
        if !word && !near().any(|name| within(&name.known)) {
            let early = near().any(|name| within(&name.list));
            let strange = if imported {
                &mut found.perhaps
            } else if early {
                &mut found.early
            } else {
                found.walled.extend(used.wall.map(|wall| (used.name, tree.node(tree.node(wall).parent).key)));
                &mut found.nowhere
            };
            strange.entry(used.name).or_insert(used.at);
        }
    }
    for (import, wall) in &names.imports {
        if let Some(name) = names.not_behind_its_wall(tree, *import, *wall) {
            found.nowhere.entry(tree.node_text(name)).or_insert(tree.node(name).span.start);
        }
    }
    found.kinds = names.kinds;
    for (path, at) in names.members {
        if words(path).last().is_none_or(|name| !found.defined.contains(name)) {
            found.unset.entry(path).or_insert(at);
        }
    }
    found
}

/// Where a name is known.
struct Declared {
    known: Range<NodeId>,
    /// The list that it is known in, above what declares it too.
    list: Range<NodeId>,
    /// What it is not known outside of.
    wall: Option<NodeId>,
}

/// A name that is used.
struct Use<'s> {
    name: &'s [u8],
    node: NodeId,
    at: u32,
    wall: Option<NodeId>,
}

/// The names of a tree.
#[derive(Default)]
struct Names<'s> {
    declared: HashMap<&'s [u8], Vec<Declared>>,
    used: Vec<Use<'s>>,
    /// Where something is imported that does not say its names.
    anything: Vec<Declared>,
    /// The imports, each with the wall that it is behind.
    imports: Vec<(NodeId, Option<NodeId>)>,
    /// The walls by their names, each with the list that the name is known in.
    walls: HashMap<&'s [u8], Vec<(Range<NodeId>, NodeId)>>,
    /// The kinds of nodes that declare a name.
    kinds: HashSet<Kind>,
    /// The members that are used, with what they are members of.
    members: Vec<(&'s [u8], u32)>,
    /// The names of members of anything.
    defined: HashSet<&'s [u8]>,
}

impl<'s> Names<'s> {
    fn of(tree: &Tree<'s>, kinds: HashSet<Kind>) -> Names<'s> {
        let mut names = Names { kinds, ..Names::default() };
        let (mut walls, mut next): (Vec<NodeId>, NodeId) = (Vec::new(), NodeId(1));
        while next.index() < tree.len() {
            let id = next;
            next = NodeId(id.0 + 1);
            while walls.last().is_some_and(|wall| id >= tree.node(*wall).end) {
                walls.pop();
            }
            let wall = walls.last().copied();
            if tree.is_import(id) {
                next = tree.node(id).end;
                names.import(tree, id, wall);
            } else if tree.is_leaf(id) && tree.is_whole(id) {
                names.defined.extend(words(tree.node_text(id)));
            } else if tree.is_declaration(id) {
                names.kinds.insert(tree.node(id).kind);
                names.declare(tree, id, &walls);
            } else if let Some((path, _)) = tree.member_path(id) {
                names.members.push((path, tree.node(id).span.start));
            } else if is_name(tree, id) {
                let used = tree.names(id).filter(|name| is_unqualified(tree, name.range()));
                names.used.extend(used.map(|name| Use { name: tree.text(name), node: id, at: name.start, wall }));
            }
            if tree.language.rule(tree.node(id).kind).wall {
                walls.push(id);
            }
        }
        names
    }

    /// What an import takes from a wall of its own list that has no such name, if that has nothing but what it names.
    fn not_behind_its_wall(&self, tree: &Tree<'_>, import: NodeId, around: Option<NodeId>) -> Option<NodeId> {
        if self.walls.is_empty() {
            return None;
        }
        let strange = |listed: &Listed| {
            let here = |part: &&String| tree.language.is_here(part);
            let mut path = listed.path.iter().skip_while(here);
            let (wall, name) = (path.next()?, path.next()?);
            let [(known, wall)] = &self.walls.get(wall.as_bytes())?[..] else { return None };
            let all_named = tree.inside(*wall).filter(|id| tree.node(tree.node(*id).parent).parent == *wall);
            let declares = |id: NodeId| tree.is_definition(id) || tree.is_import(id) || tree.is_comment(id);
            let all_named = all_named.filter(|id| tree.node(*id).part == Part::Entry).all(declares);
            let inside = |declared: &Declared| declared.wall == Some(*wall);
            let there = self.declared.get(name.as_bytes()).into_iter().flatten().chain(&self.anything).any(inside);
            let beside = known.contains(&import) && around != Some(*wall) && tree.block(*wall).is_some();
            // `*` is no name, but all there is.
            let is_name = !tree.language.is_here(name) && name.bytes().all(is_word);
            (beside && all_named && !there && is_name).then_some(listed.name)
        };
        listed_in(tree, import).iter().find_map(strange)
    }

    /// What is imported is known in all of the list.
    fn import(&mut self, tree: &Tree<'s>, entry: NodeId, wall: Option<NodeId>) {
        self.imports.push((entry, wall));
        let list = all(tree, tree.node(entry).parent);
        let declared = || Declared { known: list.clone(), list: list.clone(), wall };
        if tree.imports_anything(entry) {
            self.anything.push(declared());
        }
        for name in tree.declared(entry) {
            self.declared.entry(tree.text(name)).or_default().push(declared());
        }
    }

    fn declare(&mut self, tree: &Tree<'s>, id: NodeId, walls: &[NodeId]) {
        let text = tree.node_text(id);
        let holder = tree.holder(id);
        let parent = tree.node(holder).parent;
        let entry = if tree.node(parent).core == holder { parent } else { holder };
        let list = all(tree, tree.node(entry).parent);
        let names_it = tree.is_definition(entry) && tree.key_parts(entry).any(|part| part == id);
        if names_it && tree.language.rule(tree.core_kind(entry)).wall {
            self.walls.entry(text).or_default().push((list.clone(), tree.node(entry).core));
        }
        let (known, wall) = if names_it && tree.owner_of(entry).is_some() {
            self.defined.insert(text);
            return;
        } else if names_it {
            // The name of a wall is known around it.
            (list.clone(), walls.iter().rev().find(|wall| tree.node(**wall).parent != entry))
        } else if tree.entry_rule(entry).is_some_and(|rule| rule.local) {
            (id..list.end, walls.last())
        } else {
            // A field is a member of whatever has it.
            self.defined.insert(text);
            (all(tree, holder), walls.last())
        };
        self.declared.entry(text).or_default().push(Declared { known, list, wall: wall.copied() });
    }
}

/// A node with all that is in it.
fn all(tree: &Tree<'_>, node: NodeId) -> Range<NodeId> {
    node..tree.node(node).end
}

/// Whether a name is neither looked up in something nor that of a macro, in tokens without structure too.
fn is_unqualified(tree: &Tree<'_>, name: Range<usize>) -> bool {
    let (source, language) = (tree.source, tree.language);
    let behind_sign = |sign| source[..name.start].trim_ascii_end().ends_with(sign);
    let looked_up = language.path_sign().is_some_and(behind_sign) || is_behind_dot(source, name.start);
    !looked_up && !language.is_apart(&source[name.end..])
}
