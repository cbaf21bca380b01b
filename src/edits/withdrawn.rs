//! Names that one side took out of a file while the other began to use them in more places.
//!
//! Lines and trees that are each right may then make a program that is not: it uses what nothing in it declares.

use std::cell::{LazyCell, OnceCell};
use std::collections::hash_map::Entry;
use std::ops::{Range, RangeInclusive};

use gix::bstr::ByteSlice;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::replaced::{Replacements, put_in_place, renamed_in_place};
use super::unfit::unfit;
use super::{Edit, View};
use crate::grammar::{self, find_name, find_word, is_word, words};
use crate::layout::Page;
use crate::line;
use crate::merging::{Gone, Sorts, Used, Withdrawn, renamed, standing, withdrawn_from};
use crate::once;
use crate::syntax::{NodeId, Span, Tree};
use crate::{Side, Version, Versions};

/// From this many uses in base on, a member that is in none of them any more was not left out by chance. One of fewer was
/// not if a line that is else as it was has another in its place.
const OFTEN: usize = 3;

/// So many pairs of names are looked at for those that were renamed.
const EXCHANGED: usize = 200;

/// So many of them are warned of one by one.
const WARNINGS: usize = 20;

/// The names that one side has nowhere any more, and that the other side has more often than base: those that base
/// declares and the other side does not declare anew, members that base used often and that have another name
/// everywhere now, and other members that base used often, whatever declares them.
/// All of them stand in edits: the trees of these are asked for only if there may be such a name. `naming` are the words
/// before what a statement names; `full` reads all of a version.
pub(crate) fn withdrawn<'t, 's: 't>(
    versions: Versions<&[u8]>,
    edits: &[Edit],
    naming: &[String],
    view: impl FnOnce() -> Option<View<'t, 's>>,
    full: impl Fn(Version) -> Option<Tree<'s>>,
) -> Withdrawn {
    let mut withdrawn = Withdrawn::default();
    let changed = Changed::of(versions, edits, naming);
    for side in Side::BOTH {
        withdrawn.perhaps_mut().extend(changed.crossing(side).map(|(word, ..)| word.to_vec()));
    }
    let rarer = Side::BOTH.map(|side| changed.traded(side));
    let exchanged = Side::BOTH.map(|side| changed.exchanged(side));
    let redefined = Side::BOTH.map(|side| changed.redefined(side));
    if rarer.iter().chain(&redefined).all(HashSet::is_empty) && exchanged.iter().all(Vec::is_empty) {
        return withdrawn;
    }
    let Some(view) = view() else { return withdrawn };
    if exchanged.iter().any(|pairs| !pairs.is_empty()) {
        let definitions = in_all(view.trees);
        for side in Side::BOTH {
            *withdrawn.renamed_mut(side) = renamed(view.trees, &definitions, side, &exchanged[side as usize]);
        }
    }
    inside(&view, edits, &rarer, &mut withdrawn);
    for side in Side::BOTH {
        from_file(&view, versions, edits, side, &rarer[side as usize], || full(side.into()), &mut withdrawn);
        let there = |name: &&[u8]| !withdrawn.by(side).contains_key(*name);
        let names = redefined[side as usize].iter().copied().filter(there).collect();
        let unfit = unfit(&view, edits, side, &names);
        for call in unfit {
            match withdrawn.unfit_mut(side).entry(call.call) {
                // The same call may stand in several edits.
                Entry::Occupied(mut known) => known.get_mut().edits.extend(call.edits),
                Entry::Vacant(new) => drop(new.insert(call)),
            }
        }
    }
    withdrawn
}

/// Finds those of some words that are names which a side withdrew from the file; `full` is all of that side.
fn from_file<'s>(
    View { trees, edits: places }: &View<'_, 's>,
    versions: Versions<&[u8]>,
    edits: &[Edit],
    side: Side,
    words: &HashSet<&[u8]>,
    full: impl FnOnce() -> Option<Tree<'s>>,
    found: &mut Withdrawn,
) {
    let user = Version::from(side.other());
    let (base, own, other) = (&trees.base, trees.get(Version::from(side)), trees.get(user));
    let count = |version: Version, word: &[u8]| find_name(versions.get(version), word).count();
    let used_more = |word: &&[u8]| count(user, word) > count(Version::Base, word);
    let mut names: HashSet<&[u8]> = words.iter().copied().filter(used_more).collect();
    let (members, new_members) = (Names::members(base, &names), Names::members(other, &names));
    let (left, owned) = (Names::members(own, &names), Names::owned(own, &names));
    let gone = |name: &[u8]| left.often(name) == 0 && new_members.often(name) > members.often(name);
    let full = LazyCell::new(full);
    let in_place = LazyCell::new(|| renamed_in_place(side, versions, edits));
    let replacements = LazyCell::new(|| Replacements::of(side, versions, edits));
    for name in names.iter().filter(|name| gone(name) && members.often(name) > 1) {
        let often = members.often(name) >= OFTEN;
        if often {
            found.members_mut(side).insert(name.to_vec());
        } else if !in_place.contains(name) {
            continue;
        }
        let instead = replacements.instead_of(name);
        if Names::members(own, &instead).0.values().any(|places| places.len() >= members.often(name)) {
            found.by_mut(side).insert(name.to_vec(), Sorts { alone: false, member: true });
            found.members_mut(side).insert(name.to_vec());
        }
    }
    // What the file itself gave a value, and names nowhere any more as a member of that.
    let [old_paths, own_paths, new_paths] = [base, own, other].map(|tree| Paths::of(tree, &names));
    let all_paths = LazyCell::new(|| full.as_ref().map(|all| Paths::of(all, &names)));
    for (path, old) in &old_paths.0 {
        let Some(new) = new_paths.0.get(path).filter(|new| new.used > old.used) else { continue };
        let more = |at: usize| new.set_within(&places.get(user)[at]) > old.set_within(&places.base[at]);
        let set_elsewhere = || (0..edits.len()).filter(|at| !edits[*at].changed_by(side)).any(more);
        let in_all = || all_paths.as_ref().is_some_and(|all| all.0.contains_key(path));
        if !old.set.is_empty()
            && new.set.len() <= old.set.len()
            && !own_paths.0.contains_key(path)
            && !set_elsewhere()
            && (count(side.into(), old.member) == 0 || !in_all())
        {
            found.by_mut(side).insert(old.member.to_vec(), Sorts { alone: false, member: true });
        }
    }

    // What base never names as a member of something is another thing if it is one.
    let member = |name: &[u8]| left.often(name) + owned.often(name) == 0 && members.often(name) > 0;
    let more_members = |name: &[u8]| member(name) && gone(name);
    let (alone, new_alone) = (Names::alone(base, &names), Names::alone(other, &names));
    names.retain(|name| new_alone.often(name) > alone.often(name) || more_members(name));
    let (old, new) = (Names::declared(base, &names), Names::declared(other, &names));
    // A declaration that now stands elsewhere is one of those that stay.
    let moved = |name: &[u8]| {
        let more = |at: usize| new.within(name, &places.get(user)[at]) > old.within(name, &places.base[at]);
        (0..edits.len()).filter(|at| !edits[*at].changed_by(side)).any(more)
    };
    // What is a member of something now, was it not then.
    let old_owned = Names::owned(base, &names);
    let lost = |name: &[u8]| old.often(name) > if owned.often(name) > 0 { old_owned.often(name) } else { 0 };
    names.retain(|name| lost(name) && new.often(name) <= old.often(name) && !moved(name));
    // Those of which the side has no use that stands alone, as far as they are said in edits or else in all of it.
    let mentioned_near = mentioned(own, &names);
    let in_full = LazyCell::new(|| {
        let tree = full.as_ref()?;
        Some((mentioned(tree, &names), Names::members(tree, &names), Names::owned(tree, &names)))
    });
    let no_use = |name: &&[u8]| {
        let said = |mentioned: &HashMap<&[u8], usize>, members: &Names, owned: &Names| {
            mentioned.get(*name).copied().unwrap_or(0) + members.often(name) + owned.often(name)
                == count(side.into(), name)
        };
        said(&mentioned_near, &left, &owned)
            || in_full.as_ref().is_some_and(|(m, members, owned)| said(m, members, owned))
    };
    // Where it now imports whatever there is, they may be among it.
    let anything = |tree: &Tree<'_>| tree.inside(NodeId::ROOT).filter(|id| tree.imports_anything(*id)).count();
    if !names.is_empty() && anything(own) > anything(base) {
        return;
    }
    let names: Vec<&[u8]> = names.iter().copied().filter(no_use).collect();
    let known = |name: &[u8]| (name.to_vec(), Sorts { alone: true, member: member(name) });
    found.by_mut(side).extend(names.into_iter().map(known));
}

/// Whether there may be such names, for all that words tell.
pub(crate) fn perhaps(versions: Versions<&[u8]>, edits: &[Edit], naming: &[String]) -> bool {
    let changed = Changed::of(versions, edits, naming);
    Side::BOTH.into_iter().any(|side| !changed.traded(side).is_empty() || !changed.redefined(side).is_empty())
}

/// What each side did to the words in what it changed.
struct Changed<'s, 'e> {
    versions: Versions<&'s [u8]>,
    edits: &'e [Edit],
    /// The words before what a statement names.
    naming: &'e [String],
    words: [HashMap<&'s [u8], Word>; 2],
    /// The heads of base.
    heads: OnceCell<Vec<usize>>,
}

/// What a side did to one word.
#[derive(Clone, Copy, Default)]
struct Word {
    /// How often it took it out, and how often it put it in.
    out: u32,
    put: u32,
    /// Whether it has it more often than base in one of its edits.
    risen: bool,
    /// Whether it has it less often in one.
    fallen: bool,
    /// Whether a statement that it took out, or moved, names it.
    named: bool,
    /// Whether it put it in where no statement names it.
    used: bool,
}

impl<'s, 'e> Changed<'s, 'e> {
    fn of(versions: Versions<&'s [u8]>, edits: &'e [Edit], naming: &'e [String]) -> Changed<'s, 'e> {
        let names = |word: &[u8]| is_one_of(naming, word);
        let words = Side::BOTH.map(|side| {
            let mut all: HashMap<&[u8], Word> = HashMap::default();
            let mut here: HashMap<&[u8], i32> = HashMap::default();
            for edit in edits.iter().filter(|edit| edit.changed_by(side)) {
                let named = |version: Version| grammar::names(&versions.get(version)[edit.at(version)]);
                let mut before: &[u8] = &[];
                for word in named(Version::Base) {
                    let known = all.entry(word).or_default();
                    known.out += 1;
                    known.named |= names(before) && !names(word);
                    *here.entry(word).or_default() -= 1;
                    before = word;
                }
                before = &[];
                for word in named(side.into()) {
                    let known = all.entry(word).or_default();
                    known.put += 1;
                    known.used |= !names(before);
                    *here.entry(word).or_default() += 1;
                    before = word;
                }
                for (word, more) in here.drain() {
                    let known = all.entry(word).or_default();
                    known.risen |= more > 0;
                    known.fallen |= more < 0;
                }
            }
            all
        });
        Changed { versions, edits, naming, words, heads: OnceCell::new() }
    }

    fn heads(&self) -> &[usize] {
        self.heads.get_or_init(|| heads(self.versions.base, self.naming))
    }

    /// Those that one side took out somewhere and the other put in somewhere, with what each did.
    fn crossing(&self, side: Side) -> impl Iterator<Item = (&'s [u8], Word, Word)> {
        let [own, other] = [side, side.other()].map(|side| &self.words[side as usize]);
        let both = own.iter().filter_map(|(word, own)| Some((*word, *own, *other.get(word)?)));
        both.filter(|(_, own, other)| own.out > 0 && other.put > 0)
    }

    /// Those that the side has less often than base, each with one that it has as much more often and in its place on some
    /// line, if the other side edited what has the first.
    fn exchanged(&self, side: Side) -> Vec<(&'s [u8], &'s [u8])> {
        // Of what is a member wherever it stands, nothing is a variable.
        let alone = |version: Version, word: &[u8]| {
            find_name(self.versions.get(version), word).any(|at| {
                let before = &self.versions.get(version)[..at];
                !before.ends_with(b".") || before.ends_with(b"..")
            })
        };
        let edited = self.crossing(side).filter(|(_, own, other)| own.out > own.put && other.out > 0);
        let edited = edited.filter(|(word, ..)| alone(Version::Base, word));
        let mut old: Vec<(&[u8], u32)> = edited.map(|(word, own, _)| (word, own.out - own.put)).collect();
        let put_in = self.words[side as usize].iter().filter(|(_, word)| word.put > word.out);
        let mut new: Vec<(&[u8], u32)> = put_in.map(|(word, own)| (*word, own.put - own.out)).collect();
        old.sort_unstable();
        new.sort_unstable();
        let pairs = old.iter().flat_map(|(old, out)| {
            let as_often = new.iter().filter(move |(_, put)| put == out);
            as_often.map(|(new, _)| (*old, *new))
        });
        let mut pairs: Vec<(&[u8], &[u8])> = pairs.take(EXCHANGED).collect();
        if !pairs.is_empty() {
            let in_place = put_in_place(side, self.versions, self.edits, is_word);
            pairs.retain(|pair| in_place.contains(pair) && alone(side.into(), pair.1));
        }
        pairs
    }

    /// Those that the side took out, or of which it moved the statement that they name, and that the other side has more
    /// often than base in one of its edits; if the side put them in somewhere too, in all of its edits together, or near
    /// where the side has them less often.
    fn traded(&self, side: Side) -> HashSet<&'s [u8]> {
        let lost = |own: &Word| own.out > own.put || own.out == own.put && own.named;
        let gone = |own: &Word, other: &Word| lost(own) && (own.put == 0 || other.put > other.out);
        let (all, some): (Vec<_>, Vec<_>) =
            self.crossing(side).filter(|(_, _, other)| other.risen).partition(|(_, own, other)| gone(own, other));
        let fallen = some.into_iter().filter(|(_, own, _)| own.fallen).map(|(word, ..)| word).collect();
        let near = self.traded_near(side, &fallen);
        all.into_iter().map(|(word, ..)| word).chain(near).collect()
    }

    /// Those that a statement names of whose head a side edited a line, and that the other side put in somewhere else than
    /// there: what a definition takes stands in its head.
    fn redefined(&self, side: Side) -> HashSet<&'s [u8]> {
        let Changed { versions: Versions { base, .. }, edits, naming, .. } = *self;
        let heads = self.heads();
        let other = &self.words[side.other() as usize];
        let named = |head: &Range<usize>| words(&base[head.clone()]).find(|word| !is_one_of(naming, word));
        let near = |edit: &Edit| {
            let at = edit.at(Version::Base);
            let first = heads.partition_point(|head| *head <= at.start).saturating_sub(1);
            let all = first..heads.partition_point(|head| *head < at.end).max(first);
            let head = move |i: usize| {
                let start = *heads.get(i)?;
                let most = heads.get(i + 1).copied().unwrap_or(base.len());
                Some(start..start + head_of(&base[start..most]))
            };
            let touched = move |head: &Range<usize>| {
                if at.is_empty() { head.contains(&at.start) } else { at.start < head.end && head.start < at.end }
            };
            all.filter_map(head).filter(touched)
        };
        let edited = edits.iter().filter(|edit| edit.changed_by(side)).flat_map(near);
        let names = edited.filter_map(|head| named(&head));
        names.filter(|name| other.get(name).is_some_and(|word| word.used)).collect()
    }

    /// Those of some words that a side has no more in what an edit of it is in, and the other more often in an edit that no
    /// line parts from it which begins with a word before what a statement names: as far as words tell, both are in one
    /// definition.
    fn traded_near(&self, side: Side, words: &HashSet<&'s [u8]>) -> Vec<&'s [u8]> {
        if words.is_empty() {
            return Vec::new();
        }
        let Changed { versions, edits, naming, .. } = *self;
        let (heads, own_heads) = (self.heads(), heads(versions.get(side), naming));
        let left = |edit: &Edit, word: &[u8]| {
            let (text, at) = (versions.get(side), edit.at(side.into()));
            let above = own_heads.partition_point(|head| *head <= at.start).checked_sub(1).map_or(0, |i| own_heads[i]);
            let below = own_heads.get(own_heads.partition_point(|head| *head < at.end)).copied().unwrap_or(text.len());
            find_name(&text[above..below.max(at.end)], word).next().is_some()
        };
        let section = |offset: usize| heads.partition_point(|head| *head <= offset);
        let mut gone: HashMap<&[u8], Vec<RangeInclusive<usize>>> = HashMap::default();
        let mut risen = Vec::new();
        let mut more: HashMap<&[u8], i32> = HashMap::default();
        for edit in edits {
            let base = edit.at(Version::Base);
            let sections = section(base.start)..=section(base.end);
            for by in Side::BOTH.into_iter().filter(|by| edit.changed_by(*by)) {
                for (version, step) in [(Version::Base, -1), (by.into(), 1)] {
                    let names = grammar::names(&versions.get(version)[edit.at(version)]);
                    names.filter(|word| words.contains(word)).for_each(|word| *more.entry(word).or_default() += step);
                }
                for (word, more) in more.drain() {
                    if more < 0 && by == side && !left(edit, word) {
                        gone.entry(word).or_default().push(sections.clone());
                    } else if more > 0 && by != side {
                        risen.push((word, sections.clone()));
                    }
                }
            }
        }
        let meets = |x: &RangeInclusive<usize>, y: &RangeInclusive<usize>| x.start() <= y.end() && y.start() <= x.end();
        let near = |(word, sections): &(&[u8], RangeInclusive<usize>)| {
            gone.get(word).is_some_and(|gone| gone.iter().any(|other| meets(sections, other)))
        };
        risen.into_iter().filter(near).map(|(word, _)| word).collect()
    }
}

/// Where the lines begin that begin with a word before what a statement names.
pub(super) fn heads(text: &[u8], naming: &[String]) -> Vec<usize> {
    let named = |line: &[u8]| words(line).next().is_some_and(|word| is_one_of(naming, word));
    let mut end = 0;
    let lines = line::lines(text).into_iter().filter_map(|line| {
        end += line.len();
        named(line).then_some(end - line.len())
    });
    lines.collect()
}

/// How long the head is of a statement that a text begins with: up to the end of the line on which its first brackets are
/// closed. All of the text, if it has none: nothing tells where its head ends.
fn head_of(text: &[u8]) -> usize {
    let (mut depth, mut opened, mut end) = (0usize, false, 0);
    for line in line::lines(text) {
        for byte in line {
            match byte {
                b'(' | b'[' => (depth, opened) = (depth + 1, true),
                b')' | b']' => depth = depth.saturating_sub(1),
                _ => {}
            }
        }
        end += line.len();
        if opened && depth == 0 {
            break;
        }
    }
    end
}

fn is_one_of(naming: &[String], word: &[u8]) -> bool {
    naming.iter().any(|name| name.as_bytes() == word)
}

/// How often some words stand where they name nothing that must be declared: in comments and texts, and in what an
/// import names, which is declared elsewhere.
fn mentioned<'w>(tree: &Tree<'_>, searched: &HashSet<&'w [u8]>) -> HashMap<&'w [u8], usize> {
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

/// Finds the line edits that use, of some words, what the other side withdrew from a definition that all three versions
/// have, and the edits around them: where lines made some of these, nothing would be left to tell.
fn inside(view: &View<'_, '_>, edits: &[Edit], words: &[HashSet<&[u8]>; 2], found: &mut Withdrawn) {
    let base = &view.trees.base;
    for nodes in in_all(view.trees) {
        let node = nodes.base;
        let declared = base.declared_directly(node).into_iter().map(|name| base.text(name));
        let names = declared.filter(|name| words.iter().any(|words| words.contains(name))).collect();
        let within = |edit: &usize, version: Version| {
            let tree = view.trees.get(version);
            let definition = tree.node(*nodes.get(version)).span.range();
            let at = &view.edits.get(version)[*edit];
            // Its first line begins before it, with its indentation, and its last line ends behind it.
            let blank = |byte: &&u8| matches!(byte, b' ' | b'\t' | b'\r');
            let indent = tree.source[..definition.start].iter().rev().take_while(blank).count();
            let behind = tree.source[definition.end..].iter().take_while(blank).count() + 1;
            definition.start - indent <= at.start && at.end <= definition.end + behind
        };
        let gone = withdrawn_from(view.trees, nodes, &names);
        if gone.is_empty() {
            continue;
        }
        let searched = gone.iter().map(|gone| &gone.name[..]).collect();
        let places = Versions::each(|v| standing(view.trees.get(v), *nodes.get(v), &searched));
        let inside = || (0..edits.len()).filter(|edit| Version::ALL.into_iter().any(|v| within(edit, v)));
        for Gone { from: gone_from, name, used_more } in &gone {
            let user = gone_from.other();
            let often = |edit: usize, v: Version| {
                let places = places.get(v).get(&name[..]).into_iter().flatten();
                places.filter(|at| view.edits.get(v)[edit].contains(at)).count()
            };
            let uses = |edit: &usize| {
                edits[*edit].by() == Some(user) && often(*edit, user.into()) > often(*edit, Version::Base)
            };
            let used: Vec<usize> = inside().filter(uses).collect();
            if *used_more || !used.is_empty() {
                found.around_mut().extend(inside());
            }
            let used = used.into_iter().map(|edit| Used { edit, gone_from: *gone_from, name: name.clone() });
            found.used_mut().extend(used);
        }
    }
}

/// The definitions that all versions have.
fn in_all(trees: &Versions<Tree<'_>>) -> Vec<Versions<NodeId>> {
    let definitions = trees.as_ref().map(definitions);
    let there = |version: Version, path: &u64| definitions.get(version).get(path).copied().flatten();
    let in_all = |path: &u64| {
        let (ours, theirs) = (there(Version::Ours, path)?, there(Version::Theirs, path)?);
        Some(Versions { base: there(Version::Base, path)?, ours, theirs })
    };
    let mut found: Vec<Versions<NodeId>> = definitions.base.keys().filter_map(in_all).collect();
    found.sort_by_key(|nodes| nodes.base);
    found
}

/// The definitions of a tree by their keys and those of the definitions around them. Two of one name cannot be told
/// apart.
fn definitions(tree: &Tree<'_>) -> HashMap<u64, Option<NodeId>> {
    let definition = |node: &NodeId| tree.is_definition(*node);
    let known_by = |node: NodeId| (tree.definition_path(node), node);
    once::by_key((1..tree.len() as u32).map(NodeId).filter(definition).map(known_by))
}

/// What a person should know of a line merge that uses what a side withdrew from a definition: one line each. Of what it
/// withdrew from the whole file, [`warnings`] tell.
pub(crate) fn used_by_lines(
    withdrawn: &Withdrawn,
    text: &[u8],
    versions: Versions<&[u8]>,
    edits: &[Edit],
) -> Vec<String> {
    let lines = line::lines(text);
    let in_file = withdrawn.used().iter().filter(|used| !withdrawn.holds(used.gone_from, &used.name));
    let found = in_file.filter_map(|Used { edit, gone_from, name }| {
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
    let old: HashSet<&[u8]> = line::lines(versions.base).into_iter().collect();
    let mut found = Vec::new();
    for side in Side::BOTH {
        let [gone, members, unfit] =
            [withdrawn.by(side).len(), withdrawn.members(side).len(), withdrawn.unfit(side).len()];
        if gone + members + unfit == 0 {
            continue;
        }
        let own: HashSet<&[u8]> = line::lines(versions.get(side)).into_iter().collect();
        // Where it is used anew, rather than where base had it too.
        let used_at = |name: &[u8]| {
            let there = || uses(&lines, text, name).filter(|at| !own.contains(lines[at - 1]));
            there().find(|at| !old.contains(lines[at - 1])).or_else(|| there().next())
        };
        let members = withdrawn.members(side).iter().filter(|name| !withdrawn.by(side).contains_key(*name));
        for name in withdrawn.by(side).keys().chain(members) {
            found.extend(used_at(name).map(|line| warning(line, name, side, "the file")));
        }
        for call in withdrawn.unfit(side).values() {
            found.extend(used_at(&call.name).map(|line| (line, unfit_call(line, &call.name, side))));
        }
    }
    told(found)
}

/// A warning of a call that does not fit what a side made of the definition.
fn unfit_call(line: usize, name: &[u8], side: Side) -> String {
    let (changed, called) = (Version::from(side).name(), Version::from(side.other()).name());
    let name = String::from_utf8_lossy(name);
    format!("`{name}` at line {line}: {changed} changed what it takes, {called} calls it anew as it was")
}

/// Why some statements of a page are in dispute although they stand alone there, and what to mind in others: one line for
/// each name in them that a side took out of the code around. Of those that it took out of the whole file, [`warnings`]
/// tell.
pub(crate) fn reasons(page: &Page, withdrawn: &Withdrawn, marker_size: usize) -> Vec<String> {
    let lines = line::lines(&page.text);
    let blocks = line::blocks(&lines, marker_size);
    let disputed = |line: &usize| blocks.iter().any(|block| block.lines.contains(&(line - 1)));
    let used = withdrawn.used().iter().map(|used| (used.gone_from, &used.name));
    let names = page.gone.iter().map(|(side, name)| (*side, name)).chain(used);
    let found = names.filter(|(side, name)| !withdrawn.holds(*side, name)).filter_map(|(side, name)| {
        let at = uses(&lines, &page.text, name).find(disputed)?;
        Some(warning(at, name, side, "the code around"))
    });
    told(found.collect())
}

/// What a person should know of the lines that stand instead of a page where statements are in dispute because of a
/// name that a side took out of the code around them.
pub(crate) fn used_anew(page: &Page) -> Vec<String> {
    let mut names: Vec<_> = page.gone.iter().collect();
    names.sort();
    names.dedup();
    let told = |(side, name): &(Side, Vec<u8>)| {
        let (gone, used) = (Version::from(*side).name(), Version::from(side.other()).name());
        format!("{used} uses `{}` anew in code that {gone} took it out of", String::from_utf8_lossy(name))
    };
    names.into_iter().take(WARNINGS).map(told).collect()
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

/// Members with what they are members of, as they are written: `self.level`.
struct Paths<'s>(HashMap<&'s [u8], Path<'s>>);

/// How often such a member is named, and where it is given a value.
#[derive(Default)]
struct Path<'s> {
    member: &'s [u8],
    used: usize,
    set: Vec<usize>,
}

impl Path<'_> {
    /// How often it is given a value within some bytes.
    fn set_within(&self, bytes: &Range<usize>) -> usize {
        self.set.iter().filter(|at| bytes.contains(at)).count()
    }
}

impl<'s> Paths<'s> {
    /// Those of some members.
    fn of(tree: &Tree<'s>, members: &HashSet<&[u8]>) -> Paths<'s> {
        let mut found: HashMap<&[u8], Path<'s>> = HashMap::default();
        let searched = |id: &NodeId| tree.is_leaf(*id) && members.contains(tree.node_text(*id));
        for leaf in tree.inside(NodeId::ROOT).filter(searched) {
            let Some((path, set)) = tree.member_path(leaf) else { continue };
            let known = found.entry(path).or_default();
            known.member = tree.node_text(leaf);
            known.used += 1;
            known.set.extend(set.then_some(tree.node(leaf).span.start as usize));
        }
        Paths(found)
    }
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

    /// Those that name what is a member of what it is defined in.
    fn owned(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        Names::leaves(tree, words, |id| tree.is_owned(id))
    }

    /// Those that stand alone.
    fn alone(tree: &Tree<'s>, words: &HashSet<&[u8]>) -> Names<'s> {
        Names::leaves(tree, words, |id| !tree.node(id).anonymous && !tree.is_member(id))
    }

    fn leaves(tree: &Tree<'s>, words: &HashSet<&[u8]>, is_one: impl Fn(NodeId) -> bool) -> Names<'s> {
        let leaves = tree.beside_imports(NodeId::ROOT).filter(|id| tree.is_leaf(*id) && is_one(*id));
        Names::of(tree, words, leaves.flat_map(|id| tree.names(id)))
    }

    /// How often a name is among them.
    fn often(&self, name: &[u8]) -> usize {
        self.0.get(name).map_or(0, Vec::len)
    }

    /// How often it is within some bytes.
    fn within(&self, name: &[u8], bytes: &Range<usize>) -> usize {
        self.0.get(name).map_or(0, |places| places.iter().filter(|at| bytes.contains(*at)).count())
    }
}
