//! Names that are known only to the end of the list in which they are declared, where one side put a list around the
//! declaration or took it out of one.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::pieces::{Content, Item, Piece};
use super::{Merger, Side, Versions};
use crate::Version;
use crate::grammar::{is_behind_dot, words};
use crate::syntax::{NodeId, Part, Tree};

/// Where a name is declared for those that use it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Home {
    /// By this entry, for what stands behind it in its list.
    Entry(NodeId),
    /// By something else around them, such as a parameter.
    Around(NodeId),
}

/// Which declaration each use of some names is of, in one version: by the leaf that has the name, and the name.
type Uses<'s> = HashMap<NodeId, Vec<(&'s [u8], Option<Home>)>>;

/// A declaration of the merge that what follows may use.
struct Known<'s> {
    name: &'s [u8],
    /// What declares it in each version that has it there.
    nodes: Versions<Option<NodeId>>,
    /// Whether a version has it in another list.
    displaced: bool,
}

/// The entries that a side has in another list than the merge, and the names that they declare.
#[derive(Default)]
struct Displaced<'s> {
    entries: HashSet<(Side, NodeId)>,
    names: HashSet<&'s [u8]>,
}

/// Where a name begins to be known in one version, until what `end` names.
struct Opening<'t> {
    name: &'t [u8],
    home: Home,
    end: NodeId,
}

/// What is known of a merge while it is walked through.
struct Walk<'s> {
    displaced: Displaced<'s>,
    uses: Versions<Uses<'s>>,
    known: Vec<Known<'s>>,
    /// Where in `known` each name is, the nearest last.
    places: HashMap<&'s [u8], Vec<usize>>,
    /// What is to be in dispute, and for which name.
    found: Vec<((Side, NodeId), &'s [u8])>,
}

impl<'s> Walk<'s> {
    /// Makes known what declares some names, as far as any such declaration is displaced.
    fn learn(&mut self, names: Vec<&'s [u8]>, nodes: Versions<Option<NodeId>>, displaced: bool) {
        for name in names.into_iter().filter(|name| self.displaced.names.contains(name)) {
            self.places.entry(name).or_default().push(self.known.len());
            self.known.push(Known { name, nodes, displaced });
        }
    }

    /// Forgets all but what was known first.
    fn forget(&mut self, length: usize) {
        for known in self.known.drain(length..) {
            self.places.get_mut(known.name).and_then(Vec::pop);
        }
    }

    fn known(&self, name: &[u8]) -> Option<&Known<'s>> {
        self.places.get(name)?.last().map(|place| &self.known[*place])
    }
}

impl<'s> Merger<'_, 's> {
    /// Puts in dispute, of what one side put in, the declarations that would be unknown or in the way where they are
    /// used in the merge, and the uses for which another declaration stands there than on that side. Answers which side
    /// put something around the declaration, or took it away, and the names.
    pub(super) fn contest_scopes(&self, piece: &mut Piece) -> Vec<(Side, Vec<u8>)> {
        let mut displaced = Displaced::default();
        if self.trees.base.language.entries().iter().any(|rule| rule.local) {
            self.displaced(piece, &Versions::default(), &mut displaced);
        }
        if displaced.names.is_empty() {
            return Vec::new();
        }
        let uses = Versions::each(|v| uses(self.trees.get(v), &displaced.names));
        let mut walk = Walk { displaced, uses, known: Vec::new(), places: HashMap::default(), found: Vec::new() };
        self.look_up(piece, &Versions::default(), &mut walk);
        let targets: HashSet<(Side, NodeId)> = walk.found.iter().map(|(target, _)| *target).collect();
        if !targets.is_empty() {
            self.contest_nodes(piece, &targets);
        }
        walk.found.into_iter().map(|((side, _), name)| (side.other(), name.to_vec())).collect()
    }

    /// The entries that declare names and that a side has in another list than the merge.
    fn displaced(&self, piece: &Piece, list: &Versions<Option<NodeId>>, found: &mut Displaced<'s>) {
        let Piece::Merged(merged) = piece else { return };
        let list = if self.is_list(&merged.nodes) { &merged.nodes } else { list };
        for item in &merged.items {
            let Content::Piece(piece) = &item.content else { continue };
            if let Some(nodes) = self.local(item, piece)
                && self.is_displaced(&nodes, list)
            {
                let named = |v: Version| nodes.get(v).map(|n| declared(self.trees.get(v), n)).unwrap_or_default();
                found.names.extend(Version::ALL.into_iter().flat_map(named));
                found.entries.extend(Side::BOTH.into_iter().filter_map(|side| Some((side, (*nodes.get(side))?))));
            }
            self.displaced(piece, list, found);
        }
    }

    fn is_list(&self, nodes: &Versions<Option<NodeId>>) -> bool {
        Version::ALL.into_iter().any(|v| nodes.get(v).is_some_and(|n| self.trees.get(v).is_block(n)))
    }

    /// The nodes of an entry that declares names for what stands behind it, in all versions that have it.
    fn local(&self, item: &Item, piece: &Piece) -> Option<Versions<Option<NodeId>>> {
        let mut nodes = match piece {
            Piece::Copy { version, node } => self.in_all(*version, *node),
            Piece::Merged(merged) => merged.nodes,
            Piece::Text(_) => return None,
        };
        for version in Version::ALL {
            *nodes.get_mut(version) = nodes.get(version).or(item.one_node(version));
        }
        let local = |v: Version| nodes.get(v).is_some_and(|n| is_local(self.trees.get(v), n));
        (item.part == Part::Entry && Version::ALL.into_iter().any(local)).then_some(nodes)
    }

    /// A node of one version, with what it is in the others.
    pub(super) fn in_all(&self, version: Version, node: NodeId) -> Versions<Option<NodeId>> {
        let base = match Side::BOTH.into_iter().find(|side| Version::from(*side) == version) {
            Some(side) => self.to_base(side, node),
            None => Some(node),
        };
        let mut nodes = Versions { base, ours: None, theirs: None };
        for side in Side::BOTH {
            *nodes.get_mut(side) = base.and_then(|base| self.to_side(side, base));
        }
        *nodes.get_mut(version) = Some(node);
        nodes
    }

    /// Whether a side has an entry in another list than the merge.
    fn is_displaced(&self, nodes: &Versions<Option<NodeId>>, list: &Versions<Option<NodeId>>) -> bool {
        Side::BOTH.into_iter().any(|side| {
            let parent = nodes.get(side).map(|n| self.tree(side).node(n).parent);
            parent.is_some() && *list.get(side) != parent
        })
    }

    /// Walks through a merge in the order of its text and looks up what is used.
    fn look_up(&self, piece: &Piece, list: &Versions<Option<NodeId>>, walk: &mut Walk<'s>) {
        let merged = match piece {
            Piece::Copy { version, node } => return self.check(*version, *node, walk),
            Piece::Text(_) => return,
            Piece::Merged(merged) => merged,
        };
        let length = walk.known.len();
        let is_list = self.is_list(&merged.nodes);
        let list = if is_list { &merged.nodes } else { list };
        // What stands beside a list, such as parameters, is known in it.
        let pieces = merged.items.iter().filter_map(|item| match &item.content {
            Content::Piece(piece) => Some(piece),
            Content::Dispute(_) => None,
        });
        let (blocks, beside): (Vec<&Piece>, Vec<&Piece>) = pieces.partition(|piece| self.is_block_piece(piece));
        if !is_list && !blocks.is_empty() {
            let mut names = Vec::new();
            beside.into_iter().for_each(|piece| self.declared(piece, &mut names));
            walk.learn(names, merged.nodes, false);
        }
        for item in &merged.items {
            match &item.content {
                Content::Piece(piece) => {
                    self.look_up(piece, list, walk);
                    self.learn(item, piece, list, walk);
                }
                Content::Dispute(sides) => {
                    for inner in [&sides.ours, &sides.theirs].into_iter().flatten() {
                        if let Content::Piece(piece) = &inner.content {
                            self.learn(inner, piece, list, walk);
                        }
                    }
                }
            }
        }
        walk.forget(length);
    }

    fn is_block_piece(&self, piece: &Piece) -> bool {
        match piece {
            Piece::Copy { version, node } => self.trees.get(*version).is_block(*node),
            Piece::Merged(merged) => self.is_list(&merged.nodes),
            Piece::Text(_) => false,
        }
    }

    /// Makes known what an entry declares for what stands behind it.
    fn learn(&self, item: &Item, piece: &Piece, list: &Versions<Option<NodeId>>, walk: &mut Walk<'s>) {
        let Some(nodes) = self.local(item, piece) else { return };
        let mut names = Vec::new();
        match piece {
            Piece::Copy { version, node } => names = declared(self.trees.get(*version), *node),
            _ => self.declared(piece, &mut names),
        }
        walk.learn(names, nodes, self.is_displaced(&nodes, list));
    }

    /// Looks up what a copied node uses and does not declare itself.
    fn check(&self, version: Version, node: NodeId, walk: &mut Walk<'s>) {
        let tree = self.trees.get(version);
        for id in tree.inside(node) {
            let Some(used) = walk.uses.get(version).get(&id) else { continue };
            let nodes = self.in_all(version, id);
            for (name, _) in used.clone() {
                let homes = Side::BOTH.map(|side| self.home(side, &nodes, name, walk));
                for side in Side::BOTH {
                    let (Some(own), Some((home, changed))) = (*nodes.get(side), homes[side as usize]) else { continue };
                    let inside = matches!(home, Some(Home::Entry(n) | Home::Around(n)) if tree.contains(node, n));
                    // What the other side made it a use of, it is in the merge.
                    let made_another = homes[side.other() as usize].is_some_and(|(_, changed)| changed);
                    if !(version == side.into() && inside || !changed && made_another) {
                        self.compare((side, own), name, home, walk);
                    }
                }
            }
        }
    }

    /// What a side's use of a name is of, and whether it is of something else in base, or not there.
    fn home(
        &self,
        side: Side,
        nodes: &Versions<Option<NodeId>>,
        name: &[u8],
        walk: &Walk<'s>,
    ) -> Option<(Option<Home>, bool)> {
        let of = |version: Version| {
            let used = walk.uses.get(version).get(nodes.get(version).as_ref()?)?;
            used.iter().find(|(used, _)| *used == name).map(|(_, home)| *home)
        };
        let home = of(side.into())?;
        Some((home, of(Version::Base).is_none_or(|old| !self.same_home(side, old, home))))
    }

    /// Compares what a side's use of a name is of with what it would be of in the merge.
    fn compare(&self, (side, own): (Side, NodeId), name: &'s [u8], home: Option<Home>, walk: &mut Walk<'s>) {
        let known = walk.known(name);
        let is_new = |n: NodeId| self.to_base(side, n).is_none();
        let (lost, there) = match home {
            Some(Home::Entry(n)) => (walk.displaced.entries.contains(&(side, n)), Some(n)),
            Some(Home::Around(n)) => (false, Some(n)),
            None => (false, None),
        };
        if known.is_some_and(|known| there.is_some() && *known.nodes.get(side) == there) {
            return;
        }
        let in_the_way = known.filter(|known| known.displaced);
        let target = match (lost, there, in_the_way) {
            (true, Some(n), _) if is_new(n) => (side, n),
            (true, ..) => (side, own),
            (false, _, Some(known)) => {
                let new = |side: Side| known.nodes.get(side).filter(|_| known.nodes.base.is_none());
                match Side::BOTH.into_iter().find_map(|side| Some((side, new(side)?))) {
                    Some(target) => target,
                    None => (side, own),
                }
            }
            _ => return,
        };
        walk.found.push((target, name));
    }

    /// Whether a use in base and one of a side are of the same declaration.
    fn same_home(&self, side: Side, old: Option<Home>, new: Option<Home>) -> bool {
        match (old, new) {
            (None, None) => true,
            (Some(Home::Entry(b)), Some(Home::Entry(n))) | (Some(Home::Around(b)), Some(Home::Around(n))) => {
                self.to_side(side, b) == Some(n)
            }
            _ => false,
        }
    }

    /// Puts in dispute the smallest entries of a merge, on lines of their own, that hold one of some nodes. Answers whose
    /// node there was for which there is none.
    fn contest_nodes(&self, piece: &mut Piece, targets: &HashSet<(Side, NodeId)>) -> Option<Side> {
        let merged = match piece {
            Piece::Copy { version, node } => {
                let holds = |(side, target): &&(Side, NodeId)| {
                    let own = *self.in_all(*version, *node).get(*side);
                    own.is_some_and(|own| self.tree(*side).contains(own, *target))
                };
                return targets.iter().filter(holds).map(|(side, _)| *side).min();
            }
            Piece::Text(_) => return None,
            Piece::Merged(merged) => merged,
        };
        let mut found = None;
        for item in &mut merged.items {
            let Content::Piece(piece) = &mut item.content else { continue };
            let Some(side) = self.contest_nodes(piece, targets) else { continue };
            if !self.dispute_entry(item, side) {
                found = Some(side);
            }
        }
        found
    }
}

fn is_local(tree: &Tree<'_>, entry: NodeId) -> bool {
    tree.entry_rule(entry).is_some_and(|rule| rule.local)
}

/// The names that an entry declares for what stands behind it: not those that what is in it declares there.
fn declared<'s>(tree: &Tree<'s>, entry: NodeId) -> Vec<&'s [u8]> {
    let own = |id: &NodeId| tree.is_declaration(*id) && tree.holder(*id) == entry;
    tree.inside(entry).filter(own).map(|id| tree.node_text(id)).collect()
}

/// Which declaration each use of some names is of.
fn uses<'s>(tree: &Tree<'_>, names: &HashSet<&'s [u8]>) -> Uses<'s> {
    // Where each declaration begins to be known, and where it ends, by the name.
    let mut opening: HashMap<NodeId, Vec<Opening<'_>>> = HashMap::default();
    for id in (0..tree.len() as u32).map(NodeId).filter(|id| tree.is_declaration(*id)) {
        let name = tree.node_text(id);
        if !names.contains(name) {
            continue;
        }
        let outer = tree.holder(id);
        let node = tree.node(outer);
        let (start, home, end) = match is_local(tree, outer) {
            true => (node.end, Home::Entry(outer), tree.node(node.parent).end),
            false if tree.is_definition(outer) && tree.key_parts(outer).any(|part| part == id) => continue,
            false => (outer, Home::Around(outer), node.end),
        };
        opening.entry(start).or_default().push(Opening { name, home, end });
    }
    let mut known: HashMap<&[u8], Vec<(Home, NodeId)>> = HashMap::default();
    let mut uses = Uses::default();
    for id in (0..tree.len() as u32).map(NodeId) {
        for Opening { name, home, end } in opening.remove(&id).unwrap_or_default() {
            known.entry(name).or_default().push((home, end));
        }
        for name in used(tree, id, names) {
            let homes = known.entry(name).or_default();
            while homes.last().is_some_and(|(_, end)| *end <= id) {
                homes.pop();
            }
            uses.entry(id).or_default().push((name, homes.last().map(|(home, _)| *home)));
        }
    }
    uses
}

/// Those of some names that a leaf uses, in the order of the bytes. What stands behind a dot is a member of something.
fn used<'s>(tree: &Tree<'_>, leaf: NodeId, names: &HashSet<&'s [u8]>) -> Vec<&'s [u8]> {
    if !tree.is_leaf(leaf) || tree.node(leaf).anonymous || tree.is_member(leaf) || tree.is_declaration(leaf) {
        return Vec::new();
    }
    let alone = |at: usize| !is_behind_dot(tree.source, at);
    let start = tree.node(leaf).span.start as usize;
    let in_text = |at: usize| matches!(tree.source[..at].last(), Some(b'"' | b'\''));
    let mut used: Vec<&[u8]> = match tree.is_whole(leaf) {
        true => {
            let text = tree.node_text(leaf);
            let at = |word: &[u8]| start + (word.as_ptr() as usize - text.as_ptr() as usize);
            let known = words(text).filter_map(|word| Some((*names.get(word)?, at(word))));
            known.filter(|(_, at)| alone(*at) && !in_text(*at)).map(|(name, _)| name).collect()
        }
        false => {
            let spans = tree.names(leaf).filter(|span| alone(span.start as usize));
            spans.filter_map(|span| names.get(tree.text(span)).copied()).collect()
        }
    };
    used.sort_unstable();
    used.dedup();
    used
}
