//! Statements that use what the other side withdrew.

use std::cell::OnceCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::Merger;
use super::Renamed;
use super::pieces::{Content, Item, Merged, Piece};
use crate::grammar::{names_in, words};
use crate::syntax::{NodeId, Part, Span, Tree};
use crate::{Side, Version, Versions};

/// For each side, names that it withdrew while the other began to use them in more places.
#[derive(Clone, Debug, Default)]
pub struct Withdrawn {
    gone: [HashMap<Vec<u8>, Sorts>; 2],
    members: [HashSet<Vec<u8>>; 2],
    perhaps: HashSet<Vec<u8>>,
    used: Vec<Used>,
    around: HashSet<usize>,
    renamed: [Renamed; 2],
    unfit: [HashMap<u64, Unfit>; 2],
}

/// As what a withdrawn name may not be used any more.
#[derive(Clone, Copy, Debug)]
pub struct Sorts {
    /// As a name that stands alone.
    pub alone: bool,
    /// As the name of a member of something.
    pub member: bool,
}

/// A name that a side withdrew from a definition, used anew there by a line edit of the other side alone.
#[derive(Clone, Debug)]
pub(crate) struct Used {
    /// The edit's number.
    pub edit: usize,
    /// Who withdrew the name.
    pub gone_from: Side,
    /// The name.
    pub name: Vec<u8>,
}

/// A call that one side put in, and that does not fit what the other made of the definition.
#[derive(Clone, Debug)]
pub(crate) struct Unfit {
    /// The name that is called.
    pub name: Vec<u8>,
    /// The call, without the white space that parts no words.
    pub text: Vec<u8>,
    /// The numbers of the line edits that the call is in.
    pub edits: Vec<usize>,
}

impl Withdrawn {
    /// The names that a side withdrew: those declared in the file, and those of members that it renamed.
    pub fn by(&self, side: Side) -> &HashMap<Vec<u8>, Sorts> {
        &self.gone[side as usize]
    }

    pub(crate) fn by_mut(&mut self, side: Side) -> &mut HashMap<Vec<u8>, Sorts> {
        &mut self.gone[side as usize]
    }

    /// The names of other members that a side took out of the file. What has them may be declared elsewhere, so that
    /// nobody here knows whether it still does.
    pub(crate) fn members(&self, side: Side) -> &HashSet<Vec<u8>> {
        &self.members[side as usize]
    }

    pub(crate) fn members_mut(&mut self, side: Side) -> &mut HashSet<Vec<u8>> {
        &mut self.members[side as usize]
    }

    /// The words that a side took out somewhere and the other put in somewhere: no other is withdrawn from anything.
    pub(crate) fn perhaps_mut(&mut self) -> &mut HashSet<Vec<u8>> {
        &mut self.perhaps
    }

    /// Where line edits use anew what the other side withdrew from a definition.
    pub(crate) fn used(&self) -> &[Used] {
        &self.used
    }

    pub(crate) fn used_mut(&mut self) -> &mut Vec<Used> {
        &mut self.used
    }

    /// The line edits in the definitions in which there are such.
    pub(crate) fn around(&self) -> &HashSet<usize> {
        &self.around
    }

    pub(crate) fn around_mut(&mut self) -> &mut HashSet<usize> {
        &mut self.around
    }

    /// For each side, the variables that it gave another name wherever they stood, with that name.
    pub(crate) fn renamed(&self) -> &[Renamed; 2] {
        &self.renamed
    }

    pub(crate) fn renamed_mut(&mut self, side: Side) -> &mut Renamed {
        &mut self.renamed[side as usize]
    }

    /// The calls of the other side that do not fit the definitions of a side, by their hashes.
    pub(crate) fn unfit(&self, side: Side) -> &HashMap<u64, Unfit> {
        &self.unfit[side as usize]
    }

    pub(crate) fn unfit_mut(&mut self, side: Side) -> &mut HashMap<u64, Unfit> {
        &mut self.unfit[side as usize]
    }

    /// Whether a side withdrew a name from the file, or what calls of it give.
    pub(crate) fn holds(&self, side: Side, name: &[u8]) -> bool {
        self.by(side).contains_key(name) || self.unfit(side).values().any(|unfit| unfit.name == name)
    }

    /// Whether a line edit has such a call.
    pub(crate) fn has_unfit(&self, edit: usize) -> bool {
        self.unfit.iter().flat_map(HashMap::values).any(|call| call.edits.contains(&edit))
    }

    /// Whether a text of one side uses what the other withdrew.
    pub(crate) fn used_in(&self, text: &[u8], side: Side) -> bool {
        let names = self.by(side.other());
        !names.is_empty() && words(text).any(|word| names.contains_key(word))
    }

    /// Whether neither side withdrew such a name.
    pub fn is_empty(&self) -> bool {
        self.gone.iter().all(HashMap::is_empty) && self.unfit.iter().all(HashMap::is_empty)
    }
}

impl<'s> Merger<'_, 's> {
    /// Puts in dispute the smallest statements of a merge that use what one side withdrew, from the file or from what
    /// is around them, unless they or others declare it again. Answers which names of the latter kind they use.
    pub(super) fn contest(&self, piece: &mut Piece, withdrawn: &Withdrawn) -> Vec<(Side, Vec<u8>)> {
        let withdrawn = if withdrawn.is_empty() { withdrawn.clone() } else { self.still_gone(piece, withdrawn) };
        let base = &self.trees.base;
        let renamed = self.renamed_definitions();
        let none = withdrawn.perhaps.is_empty() && renamed.is_empty();
        let mut names = if none { Vec::new() } else { base.declared(NodeId::ROOT) };
        let inside = |name: &Span| renamed.iter().any(|span| span.start <= name.start && name.end <= span.end);
        names.retain(|name| withdrawn.perhaps.contains(base.text(*name)) || inside(name));
        names.sort_by_key(|name| name.start);
        let mut used = Vec::new();
        self.contest_in(piece, None, &withdrawn, &names, &mut used);
        used.retain(|(side, name)| !withdrawn.holds(*side, name));
        used
    }

    /// The definitions of base that have another name on a side. Its lines may stand there as they did, as those of a new
    /// one: lines do not tell what a side took out of such a definition.
    fn renamed_definitions(&self) -> Vec<Span> {
        let base = &self.trees.base;
        let renamed = |id: &NodeId| {
            let key = |side: Side| self.to_side(side, *id).map(|own| self.tree(side).node(own).key);
            Side::BOTH.into_iter().any(|side| key(side).is_some_and(|key| key != base.node(*id).key))
        };
        let definitions = (1..base.len() as u32).map(NodeId).filter(|id| base.is_definition(*id));
        definitions.filter(renamed).map(|id| base.node(id).span).collect()
    }

    /// Those of the names withdrawn from the file that a merge does not declare again.
    fn still_gone(&self, piece: &Piece, withdrawn: &Withdrawn) -> Withdrawn {
        let mut withdrawn = withdrawn.clone();
        let mut declared = Vec::new();
        self.declared(piece, &mut declared);
        for side in Side::BOTH {
            // A conflict merged by itself has text of ours around it, whoever withdrew what that declares.
            let tree = self.tree(side);
            let around: Vec<&[u8]> = tree.declared(NodeId::ROOT).into_iter().map(|name| tree.text(name)).collect();
            let often = |names: &[&[u8]], name: &[u8]| names.iter().filter(|n| **n == name).count();
            withdrawn.by_mut(side).retain(|name, _| often(&declared, name) <= often(&around, name));
        }
        withdrawn
    }

    /// The names that a piece declares, disputes aside.
    pub(super) fn declared(&self, piece: &Piece, names: &mut Vec<&'s [u8]>) {
        match piece {
            Piece::Copy { version, node } => {
                let tree = self.trees.get(*version);
                names.extend(tree.declared(*node).into_iter().map(|name| tree.text(name)));
            }
            Piece::Merged(merged) => self.declared_in(merged, names),
            Piece::Text(_) => {}
        }
    }

    /// The names that what is in a merged node declares, disputes aside.
    pub(super) fn declared_in(&self, merged: &Merged, names: &mut Vec<&'s [u8]>) {
        merged.items.iter().for_each(|item| match &item.content {
            Content::Piece(piece) => self.declared(piece, names),
            Content::Dispute(_) => {}
        });
    }

    /// `names` are those that base declares and a side may have withdrawn from what is around them, in order; `from` is the
    /// side that brought the piece to where it is, if one did.
    fn contest_in(
        &self,
        piece: &mut Piece,
        from: Option<Side>,
        withdrawn: &Withdrawn,
        names: &[Span],
        used: &mut Vec<(Side, Vec<u8>)>,
    ) {
        if names.is_empty() && withdrawn.is_empty() {
            return;
        }
        self.open_what_uses(piece, from, withdrawn);
        let nearer = self.withdrawn_in(piece, withdrawn, names);
        let withdrawn = nearer.as_ref().unwrap_or(withdrawn);
        let Piece::Merged(merged) = piece else { return };
        for item in &mut merged.items {
            let brought_by = brought_by(item);
            let Content::Piece(piece) = &mut item.content else { continue };
            self.contest_in(piece, brought_by, withdrawn, names, used);
            if item.part == Part::Entry
                && !withdrawn.is_empty()
                && let Some((side, name)) = self.uses(piece, brought_by, withdrawn)
                && self.dispute_entry(item, brought_by.unwrap_or(side))
            {
                used.push((side.other(), name.to_vec()));
            }
        }
    }

    /// Opens a piece that is one side's and uses what the other withdrew, if there are statements in it: not all of it is in
    /// dispute.
    fn open_what_uses(&self, piece: &mut Piece, brought_by: Option<Side>, withdrawn: &Withdrawn) {
        let holds_statements = |version: Version, node: NodeId| {
            let tree = self.trees.get(version);
            tree.inside(node).any(|id| tree.is_block(id))
        };
        if let Piece::Copy { version, node } = *piece
            && self.uses(piece, brought_by, withdrawn).is_some()
            && holds_statements(version, node)
            && let Some(opened) = self.opened(version, node)
        {
            *piece = opened;
        }
    }

    /// A node of one version as what it is made of, if all that base has in it is still right in it.
    fn opened(&self, version: Version, node: NodeId) -> Option<Piece> {
        let tree = self.trees.get(version);
        let nodes = self.in_all(version, node);
        let stays = |id: &NodeId| {
            let own = *self.in_all(Version::Base, *id).get(version);
            own.is_some_and(|own| tree.node(own).parent == node)
        };
        let copy = |kid: &NodeId| {
            let edges = self.in_all(version, *kid).map(|n| n.map(|n| (n, n)));
            Item { edges, ..Item::copy(version, *kid, tree.node(*kid).part) }
        };
        let items = tree.kids(node).iter().map(copy).collect();
        let all_stay = self.trees.base.kids(nodes.base?).iter().all(stays);
        all_stay.then(|| Piece::Merged(Box::new(Merged { nodes, items, combined: false })))
    }

    /// What a side withdrew from the statements that a piece holds, or from a definition, beside what it withdrew
    /// from the file: names that base declares there. Nothing, if it withdrew no such name.
    fn withdrawn_in(&self, piece: &Piece, around: &Withdrawn, names: &[Span]) -> Option<Withdrawn> {
        let Piece::Merged(merged) = piece else { return None };
        let Versions { base: Some(base), ours: Some(ours), theirs: Some(theirs) } = merged.nodes else { return None };
        let tree = &self.trees.base;
        let lines = tree.list_rule(base).is_some_and(|r| r.lines);
        if base == NodeId::ROOT || !lines && tree.entry_rule(base).is_none_or(|r| !r.unique) {
            return None;
        }
        let span = tree.node(base).span;
        let at = |offset: u32| names.partition_point(|name| name.start < offset);
        let within = &names[at(span.start)..at(span.end)];
        if within.is_empty() {
            return None;
        }
        let direct = tree.declared_directly(base).into_iter().map(|name| tree.text(name));
        let within: HashSet<&[u8]> = within.iter().map(|name| tree.text(*name)).collect();
        let names: HashSet<&[u8]> = direct.filter(|name| within.contains(name)).collect();
        let found = withdrawn_from(self.trees, Versions { base, ours, theirs }, &names);
        // What the side used before is used without it only if nothing in the merge declares the name.
        let mut left = Vec::new();
        if found.iter().any(|gone| !gone.used_more) {
            self.declared(piece, &mut left);
        }
        let left: HashSet<&[u8]> = left.into_iter().collect();
        let lacks = |gone: &Gone| gone.used_more || !left.contains(&gone.name[..]);
        let mut withdrawn = None;
        for Gone { from, name, .. } in found.into_iter().filter(lacks) {
            let all = withdrawn.get_or_insert_with(|| around.clone());
            all.by_mut(from).entry(name).or_insert(Sorts { alone: true, member: false });
        }
        withdrawn
    }

    /// The side that uses in a piece what the other withdrew, and the name; disputes aside. Text of the one may have
    /// been brought there by the other.
    fn uses<'w>(&self, piece: &Piece, brought_by: Option<Side>, withdrawn: &'w Withdrawn) -> Option<(Side, &'w [u8])> {
        match piece {
            Piece::Copy { version, node } => {
                let own = Side::BOTH.into_iter().find(|side| Version::from(*side) == *version)?;
                let tree = self.tree(own);
                let used = |side: Side| {
                    let names = withdrawn.by(side.other());
                    let unfit = withdrawn.unfit(side.other());
                    let used = move |id: NodeId| {
                        if let Some(call) = unfit.get(&tree.node(id).hash) {
                            return Some((side, &call.name[..]));
                        }
                        let own = tree.names(id).map(|name| (name, tree.is_member(id)));
                        own.chain(tree.members_in_text(id).map(|name| (name, true))).find_map(|(name, is_member)| {
                            let (name, Sorts { alone, member }) = names.get_key_value(tree.text(name))?;
                            (if is_member { *member } else { *alone }).then_some((side, &name[..]))
                        })
                    };
                    tree.beside_imports(*node).find_map(used)
                };
                Side::BOTH.into_iter().filter(|side| *side == own || brought_by == Some(*side)).find_map(used)
            }
            Piece::Merged(merged) => {
                let inner = || {
                    merged.items.iter().find_map(|item| match &item.content {
                        Content::Piece(piece) => self.uses(piece, brought_by, withdrawn),
                        Content::Dispute(_) => None,
                    })
                };
                self.changed_call(&merged.nodes, withdrawn).or_else(inner)
            }
            Piece::Text(_) => None,
        }
    }

    /// The side that alone changed a call, which does not fit what the other made of the definition, and the name.
    fn changed_call<'w>(&self, nodes: &Versions<Option<NodeId>>, withdrawn: &'w Withdrawn) -> Option<(Side, &'w [u8])> {
        Side::BOTH.into_iter().find_map(|side| {
            let hash = |version: Version| Some(self.trees.get(version).node((*nodes.get(version))?).hash);
            let call = withdrawn.unfit(side.other()).get(&hash(side.into())?)?;
            (hash(side.other().into()) == hash(Version::Base)).then_some((side, &call.name[..]))
        })
    }

    /// Puts an entry that begins a line in dispute, and answers whether it is one; `side` has it as merged.
    pub(super) fn dispute_entry(&self, item: &mut Item, side: Side) -> bool {
        let sides = if item.part == Part::Entry { self.on_its_own_line(item, side) } else { None };
        let Some(sides) = sides else { return false };
        item.content = Content::Dispute(sides);
        true
    }

    /// What the versions have where an entry stands that begins a line; `side` has the entry as merged.
    fn on_its_own_line(&self, item: &Item, side: Side) -> Option<Versions<Vec<Item>>> {
        let Content::Piece(piece) = &item.content else { return None };
        let nodes = |version: Version| {
            let Some((first, last)) = item.edges.get(version) else { return &[][..] };
            let tree = self.trees.get(version);
            let (first, last) = (tree.node(*first), tree.node(*last));
            &tree.kids(first.parent)[first.position as usize..=last.position as usize]
        };
        let lines = |version: Version| {
            let first = nodes(version).first()?;
            let tree = self.trees.get(version);
            Some(tree.list_rule(tree.node(*first).parent).is_some_and(|r| r.lines))
        };
        if !Version::ALL.into_iter().find_map(lines)? {
            return None;
        }
        let mut sides = super::lists::copies(Versions::each(nodes), item.part);
        *sides.get_mut(side) = vec![Item { content: Content::Piece(piece.clone()), ..item.clone() }];
        Some(sides)
    }
}

/// A name that a side withdrew from a node while the other still uses it there.
pub(crate) struct Gone {
    /// Who withdrew it.
    pub from: Side,
    pub name: Vec<u8>,
    /// Whether the other side uses it more often than base, so that some use is new.
    pub used_more: bool,
}

/// Those of some names, which base declares in a node, that one side has nowhere in its own any more, and the other
/// has, without declaring them anew; or it declares them anew for no more than what base uses them in.
pub(crate) fn withdrawn_from(trees: &Versions<Tree<'_>>, nodes: Versions<NodeId>, names: &HashSet<&[u8]>) -> Vec<Gone> {
    let mut withdrawn = Vec::new();
    if names.is_empty() {
        return withdrawn;
    }
    let standing = Versions::each(|v| standing(trees.get(v), *nodes.get(v), names));
    let often = |v: Version, name: &[u8]| standing.get(v).get(name).map_or(0, Vec::len);
    let declared = Versions::each(|v| declared_anew(trees.get(v), *nodes.get(v), names));
    let declares = |v: Version, name: &[u8]| declared.get(v).get(name).copied().unwrap_or(0);
    let leaves = Versions::<OnceCell<HashMap<&[u8], Vec<NodeId>>>>::default();
    let at = |v: Version, name: &[u8]| -> &[NodeId] {
        let leaves = leaves.get(v).get_or_init(|| named(trees.get(v), *nodes.get(v), names));
        leaves.get(name).map_or(&[], Vec::as_slice)
    };
    for side in Side::BOTH {
        let user = Version::from(side.other());
        let anew = |name: &[u8]| bound_anew(trees, nodes, user, at(Version::Base, name), at(user, name));
        let found = names.iter().filter(|name| {
            often(side.into(), name) == 0
                && often(user, name) > 0
                && (declares(user, name) <= declares(Version::Base, name) || anew(name))
        });
        let gone = |name: &&[u8]| Gone {
            from: side,
            name: name.to_vec(),
            used_more: often(user, name) > often(Version::Base, name),
        };
        withdrawn.extend(found.map(gone));
    }
    withdrawn
}

/// The leaves in a node that are some names, and not members of something.
fn named<'n>(tree: &Tree<'_>, node: NodeId, names: &HashSet<&'n [u8]>) -> HashMap<&'n [u8], Vec<NodeId>> {
    let mut found: HashMap<&[u8], Vec<NodeId>> = HashMap::default();
    let stands_alone = |id: &NodeId| !tree.is_member(*id) && !tree.language.rule(tree.node(*id).kind).text;
    for id in tree.inside(node).filter(|id| tree.is_leaf(*id)) {
        if let Some(name) = names.get(tree.node_text(id)).filter(|_| stands_alone(&id)) {
            found.entry(name).or_default().push(id);
        }
    }
    found
}

/// Whether a side declares a name in a node anew, out of what it was, or with statements behind that use it which base
/// has as they are: for them it is the name that base declares. The name stands in these leaves.
fn bound_anew(
    trees: &Versions<Tree<'_>>,
    nodes: Versions<NodeId>,
    user: Version,
    in_base: &[NodeId],
    leaves: &[NodeId],
) -> bool {
    let (base, tree) = (&trees.base, trees.get(user));
    // A parameter stands in no statement there.
    let statement = |tree: &Tree<'_>, node: NodeId, id: NodeId| {
        tree.outward(id).find(|n| tree.is_statement(*n)).filter(|entry| *entry > node)
    };
    let of_base = in_base.iter().filter_map(|id| statement(base, nodes.base, *id));
    let of_base: HashSet<u64> = of_base.map(|entry| base.core_hash(entry)).collect();
    let node = *nodes.get(user);
    // The first statement that declares it anew.
    let mut anew = None;
    for id in leaves.iter().copied() {
        let Some(entry) = statement(tree, node, id) else { continue };
        let known = of_base.contains(&tree.core_hash(entry));
        match tree.is_declaration(id) {
            true if !known => anew = anew.or(Some(entry)),
            false if anew.is_some() && (known || anew == Some(entry)) => return true,
            _ => {}
        }
    }
    false
}

/// How often names are declared in a node, but for what takes them from another declaration of them, around or above.
fn declared_anew<'n>(tree: &Tree<'_>, node: NodeId, names: &HashSet<&'n [u8]>) -> HashMap<&'n [u8], usize> {
    let mut found: HashMap<&[u8], usize> = HashMap::default();
    for name in tree.declared(node).into_iter().filter_map(|name| names.get(tree.text(name))) {
        *found.entry(name).or_default() += 1;
    }
    let local = |entry: &NodeId| tree.entry_rule(*entry).is_some_and(|rule| rule.local);
    for entry in tree.inside(node).filter(local) {
        let leaves = tree.inside(entry).filter(|id| tree.is_leaf(*id) && !tree.is_member(*id));
        let (declared, used): (Vec<NodeId>, Vec<NodeId>) = leaves.partition(|id| tree.is_declaration(*id));
        let used: HashSet<&[u8]> = used.into_iter().map(|id| tree.node_text(id)).collect();
        let declared: HashSet<&[u8]> = declared.into_iter().map(|id| tree.node_text(id)).collect();
        for name in declared.intersection(&used) {
            if let Some(often) = names.get(*name).and_then(|name| found.get_mut(name)) {
                *often = often.saturating_sub(1);
            }
        }
    }
    found
}

/// Where names stand in a node as what they are, in the code of texts too, and not as members of something. What an
/// owner of members defines is not known in the blocks of the definitions in it.
pub(crate) fn standing<'n>(tree: &Tree<'_>, node: NodeId, names: &HashSet<&'n [u8]>) -> HashMap<&'n [u8], Vec<usize>> {
    let mut found: HashMap<&[u8], Vec<usize>> = HashMap::default();
    let owner = tree.language.rule(tree.core_kind(node)).owner;
    let inner = |id: NodeId| {
        let around = tree.definition_around(id);
        around.is_some_and(|around| around > node && tree.node(around).core != tree.node(node).core)
    };
    let mut known_from = node;
    for id in tree.inside(node) {
        if id < known_from {
            continue;
        }
        let start = tree.node(id).span.start as usize;
        let spans: Vec<Span> = if owner && tree.is_block(id) && inner(id) {
            known_from = tree.node(id).end;
            continue;
        } else if !tree.is_leaf(id) || tree.is_member(id) || tree.language.rule(tree.node(id).kind).comment {
            continue;
        } else if tree.is_whole(id) {
            // Not looked into, and the same in all versions: what stands right behind a quote or a dot is no name.
            let text = tree.node_text(id);
            let named = |at: usize| !text[..at].last().is_some_and(|b| matches!(b, b'.' | b'"' | b'\''));
            for at in names_in(text).filter(|at| named(at.start)) {
                if let Some(name) = names.get(&text[at.clone()]) {
                    found.entry(name).or_default().push(start + at.start);
                }
            }
            continue;
        } else {
            tree.names(id).collect()
        };
        for span in spans {
            if let Some(name) = names.get(tree.text(span)) {
                found.entry(name).or_default().push(span.start as usize);
            }
        }
    }
    found
}

/// The side that put an entry in, or moved it there, if one alone did.
fn brought_by(item: &Item) -> Option<Side> {
    let has = |side: Side| item.edges.get(side).is_some();
    Side::BOTH.into_iter().find(|side| item.edges.base.is_none() && has(*side) && !has(side.other()))
}
