//! Names that one side took out of a file while the other began to use them in more places.
//!
//! Lines and trees that are each right may then make a program that is not: it uses what nothing in it declares.

use std::hash::Hasher;
use std::ops::Range;

use gix::bstr::ByteSlice;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet, FxHasher};

use super::{Edit, View};
use crate::grammar::{find_word, words};
use crate::layout::Page;
use crate::line;
use crate::merging::{Used, Withdrawn, withdrawn_from};
use crate::syntax::{NodeId, Span, Tree};
use crate::{Side, Version, Versions};

/// From this many uses in base on, a member that is in none of them any more was not left out by chance.
const OFTEN: usize = 3;

/// So many of them are warned of one by one.
const WARNINGS: usize = 20;

/// The names that one side has nowhere any more, and that the other side has more often than base: those that base
/// declares and the other side does not declare anew, and members that base used often, whatever declares them.
/// All of them stand in edits: the trees of these are asked for only if there may be such a name.
pub(crate) fn withdrawn<'t, 's: 't>(
    versions: Versions<&[u8]>,
    edits: &[Edit],
    view: impl FnOnce() -> Option<View<'t, 's>>,
) -> Withdrawn {
    let mut withdrawn = Withdrawn::default();
    let changed = Changed::of(versions, edits);
    for side in Side::BOTH {
        withdrawn.perhaps_mut().extend(changed.crossing(side).map(|word| word.to_vec()));
    }
    let rarer = Side::BOTH.map(|side| changed.traded(versions, edits, side));
    if rarer.iter().all(HashSet::is_empty) {
        return withdrawn;
    }
    let count = |version: Version, word: &[u8]| find_word(versions.get(version), word).count();
    let suspects = Side::BOTH.map(|side| {
        let mut words = rarer[side as usize].clone();
        words.retain(|word| count(side.other().into(), word) > count(Version::Base, word));
        words
    });
    let Some(view) = view() else { return withdrawn };
    inside(&view, edits, &rarer, &mut withdrawn);
    let View { trees, edits: places } = view;
    for (side, mut names) in Side::BOTH.into_iter().zip(suspects) {
        let user = side.other();
        // Those that a side took out wherever they were, or has left for what is no use of them only.
        let there = trees.get(side);
        let left = Names::leaves(there, &names, |id| there.is_member(id) || there.is_renamed(id));
        let whole_side = 0..trees.get(side).source.len();
        names.retain(|name| count(side.into(), name) == left.often(name, &whole_side));
        let gone = |name: &[u8]| count(side.into(), name) == 0;
        let (base, own) = (&trees.base, trees.get(user));
        let (whole, whole_own) = (0..base.source.len(), 0..own.source.len());
        let (members, own_members) = (Names::members(base, &names), Names::members(own, &names));
        let (alone, own_alone) = (Names::alone(base, &names), Names::alone(own, &names));
        let more_members = |name: &[u8]| own_members.often(name, &whole_own) > members.often(name, &whole);
        let often = |name: &&&[u8]| gone(name) && members.often(name, &whole) >= OFTEN && more_members(name);
        let often = names.iter().filter(often);
        withdrawn.members_mut(side).extend(often.map(|name| name.to_vec()));
        // What base never names as a member of something is another thing if it is one.
        names.retain(|name| {
            own_alone.often(name, &whole_own) > alone.often(name, &whole)
                || gone(name) && members.often(name, &whole) > 0 && more_members(name)
        });
        let (old, new) = (Names::declared(base, &names), Names::declared(own, &names));
        let more =
            |name: &[u8], before: &Range<usize>, after: &Range<usize>| new.often(name, after) > old.often(name, before);
        // A declaration that now stands elsewhere is one of those that stay.
        let moved = |name: &[u8]| {
            let mut own = (0..edits.len()).filter(|i| !edits[*i].changed_by(side));
            own.any(|i| more(name, &places.base[i], &places.get(Version::from(user))[i]))
        };
        names.retain(|name| old.often(name, &whole) > 0 && !more(name, &whole, &whole_own) && !moved(name));
        let known = |name: &[u8]| (name.to_vec(), gone(name) && members.often(name, &whole) > 0);
        withdrawn.by_mut(side).extend(names.into_iter().map(known));
    }
    withdrawn
}

/// Whether there may be such names, for all that words tell.
pub(crate) fn perhaps(versions: Versions<&[u8]>, edits: &[Edit]) -> bool {
    let changed = Changed::of(versions, edits);
    Side::BOTH.into_iter().any(|side| !changed.traded(versions, edits, side).is_empty())
}

/// The words in what each side changed: those of base, and its own.
struct Changed<'s> {
    out: [HashSet<&'s [u8]>; 2],
    put: [HashSet<&'s [u8]>; 2],
}

impl<'s> Changed<'s> {
    fn of(versions: Versions<&'s [u8]>, edits: &[Edit]) -> Changed<'s> {
        let changed = |by: Side, version: Version| {
            let text = versions.get(version);
            let edits = edits.iter().filter(move |e| e.changed_by(by));
            edits.flat_map(|e| words(&text[e.at(version)])).filter(|word| !word[0].is_ascii_digit()).collect()
        };
        let out = Side::BOTH.map(|side| changed(side, Version::Base));
        Changed { out, put: Side::BOTH.map(|side| changed(side, side.into())) }
    }

    /// Those that one side took out somewhere and the other put in somewhere.
    fn crossing(&self, side: Side) -> impl Iterator<Item = &'s [u8]> {
        self.out[side as usize].intersection(&self.put[side.other() as usize]).copied()
    }

    /// Those that the side took out and nowhere put in, and that the other side has more often than base in one of its edits.
    fn traded(&self, versions: Versions<&[u8]>, edits: &[Edit], side: Side) -> HashSet<&'s [u8]> {
        let count = |text: &[u8], word: &[u8]| find_word(text, word).count();
        let user = side.other();
        let more = |edit: &Edit, word: &[u8], by: Side| {
            let [new, old] = [by.into(), Version::Base].map(|v| &versions.get(v)[edit.at(v)]);
            edit.changed_by(by) && count(new, word) > count(old, word)
        };
        // A line that it changed may have the word still, as another thing.
        let out = self.crossing(side).filter(|word| {
            let put_in = || edits.iter().any(|edit| more(edit, word, side));
            count(versions.get(side), word) < count(versions.base, word)
                && !(self.put[side as usize].contains(word) && put_in())
                && edits.iter().any(|edit| more(edit, word, user))
        });
        out.collect()
    }
}

/// Finds the line edits that use, of some words, what the other side withdrew from a definition that all three versions
/// have, and the edits around them: where lines made some of these, nothing would be left to tell.
fn inside(view: &View<'_, '_>, edits: &[Edit], words: &[HashSet<&[u8]>; 2], found: &mut Withdrawn) {
    let definitions = view.trees.as_ref().map(definitions);
    let base = &view.trees.base;
    for (path, node) in &definitions.base {
        let there = |version: Version| definitions.get(version).get(path).copied().flatten();
        let (Some(node), Some(ours), Some(theirs)) = (*node, there(Version::Ours), there(Version::Theirs)) else {
            continue;
        };
        let declared = base.declared_directly(node).into_iter().map(|name| base.text(name));
        let names = declared.filter(|name| words.iter().any(|words| words.contains(name))).collect();
        let nodes = Versions { base: node, ours, theirs };
        let within = |edit: &usize, version: Version| {
            let tree = view.trees.get(version);
            let definition = tree.node(*nodes.get(version)).span.range();
            let at = &view.edits.get(version)[*edit];
            // Its first line begins before it, with its indentation, and its last line ends behind it.
            let indent = tree.source[..definition.start].iter().rev().take_while(|b| matches!(b, b' ' | b'\t')).count();
            definition.start - indent <= at.start && at.end <= definition.end + 1
        };
        for (gone_from, name) in withdrawn_from(view.trees, nodes, &names) {
            let user = gone_from.other();
            let often = |edit: usize, version: Version| {
                let text = &view.trees.get(version).source[view.edits.get(version)[edit].clone()];
                find_word(text, &name).count()
            };
            let inside = || (0..edits.len()).filter(|edit| Version::ALL.into_iter().any(|v| within(edit, v)));
            let uses = |edit: &usize| {
                edits[*edit].by() == Some(user) && often(*edit, user.into()) > often(*edit, Version::Base)
            };
            let used = inside().filter(uses).map(|edit| Used { edit, gone_from, name: name.clone() });
            found.used_mut().extend(used);
            found.around_mut().extend(inside());
        }
    }
}

/// The definitions of a tree by their keys and those of the definitions around them. Two of one name cannot be told
/// apart.
fn definitions(tree: &Tree<'_>) -> HashMap<u64, Option<NodeId>> {
    let definition = |node: &NodeId| tree.is_definition(*node);
    let mut definitions: HashMap<u64, Option<NodeId>> = HashMap::default();
    for node in (1..tree.len() as u32).map(NodeId).filter(definition) {
        let outer = std::iter::successors(Some(node), |n| Some(tree.node(*n).parent).filter(|p| p != n));
        let mut path = FxHasher::default();
        outer.filter(definition).for_each(|n| path.write_u64(tree.node(n).key));
        definitions.entry(path.finish()).and_modify(|known| *known = None).or_insert(Some(node));
    }
    definitions
}

/// What a person should know of a line merge that uses what a side withdrew from a definition: one line each.
pub(crate) fn used_by_lines(
    withdrawn: &Withdrawn,
    text: &[u8],
    versions: Versions<&[u8]>,
    edits: &[Edit],
) -> Vec<String> {
    let lines = line::lines(text);
    let found = withdrawn.used().iter().filter_map(|Used { edit, gone_from, name }| {
        let user = gone_from.other();
        let edited = &versions.get(user)[edits[*edit].at(user.into())];
        let at = text.find(edited)? + find_word(edited, name).next()?;
        Some(warning(line::above(&lines, &text[at..]).max(1), name, *gone_from, "the code around"))
    });
    told(found.collect())
}

/// What a person should know of a merge that uses such names: one line each.
pub(crate) fn warnings(withdrawn: &Withdrawn, text: &[u8], versions: Versions<&[u8]>) -> Vec<String> {
    let lines = line::lines(text);
    let mut found = Vec::new();
    for side in
        Side::BOTH.into_iter().filter(|side| !withdrawn.by(*side).is_empty() || !withdrawn.members(*side).is_empty())
    {
        let own: HashSet<&[u8]> = line::lines(versions.get(side)).into_iter().collect();
        let members = withdrawn.members(side).iter().filter(|name| !withdrawn.by(side).contains_key(*name));
        for name in withdrawn.by(side).keys().chain(members) {
            let at = uses(&lines, text, name).find(|at| !own.contains(lines[at - 1]));
            found.extend(at.map(|line| warning(line, name, side, "the file")));
        }
    }
    told(found)
}

/// Why some statements of a page are in dispute although they stand alone there: one line for each name that a side
/// took out of the code around them.
pub(crate) fn reasons(page: &Page, marker_size: usize) -> Vec<String> {
    let lines = line::lines(&page.text);
    let blocks = line::blocks(&lines, marker_size);
    let disputed = |line: &usize| blocks.iter().any(|block| block.lines.contains(&(line - 1)));
    let found = page.gone.iter().filter_map(|(side, name)| {
        let at = uses(&lines, &page.text, name).find(disputed)?;
        Some(warning(at, name, *side, "the code around"))
    });
    told(found.collect())
}

/// The lines, from 1, on which a name stands.
fn uses<'t>(lines: &'t [&[u8]], text: &'t [u8], name: &'t [u8]) -> impl Iterator<Item = usize> + 't {
    find_word(text, name).map(move |at| line::above(lines, &text[at..]).max(1))
}

/// A warning of a name that `side` took out of something, with the line it is about.
fn warning(line: usize, name: &[u8], side: Side, of: &str) -> (usize, String) {
    let (gone, used) = (Version::from(side).name(), Version::from(side.other()).name());
    let name = String::from_utf8_lossy(name);
    (line, format!("`{name}` at line {line}: {gone} took it out of {of}, {used} uses it anew"))
}

/// Warnings in the order of the lines, so many of them.
fn told(mut found: Vec<(usize, String)>) -> Vec<String> {
    found.sort();
    found.dedup();
    let more = found.len().saturating_sub(WARNINGS);
    let mut warnings: Vec<String> = found.into_iter().take(WARNINGS).map(|(_, warning)| warning).collect();
    if more > 0 {
        warnings.push(format!("so it is with {more} more names"));
    }
    warnings
}

/// Names of one sort in a text, and where they begin.
struct Names<'s>(HashMap<&'s [u8], Vec<usize>>);

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
    fn declared(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        Names::of(tree, words, tree.declared(NodeId::ROOT).into_iter())
    }

    /// Those that name something in what stands beside them.
    fn members(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        Names::leaves(tree, words, |id| tree.is_member(id))
    }

    /// Those that stand alone.
    fn alone(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        Names::leaves(tree, words, |id| !tree.node(id).anonymous && !tree.is_member(id) && !tree.is_renamed(id))
    }

    fn leaves(tree: &Tree<'s>, words: &HashSet<&[u8]>, is_one: impl Fn(NodeId) -> bool) -> Names<'s> {
        let leaves = (0..tree.len() as u32).map(NodeId).filter(|id| tree.is_leaf(*id) && is_one(*id));
        Names::of(tree, words, leaves.flat_map(|id| tree.names(id)))
    }

    /// How often a name is among them within some bytes.
    fn often(&self, name: &[u8], within: &Range<usize>) -> usize {
        self.0.get(name).map_or(0, |places| places.iter().filter(|at| within.contains(*at)).count())
    }
}
