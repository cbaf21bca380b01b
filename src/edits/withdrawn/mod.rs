//! Names that one side took out of a file while the other began to use them in more places.
//!
//! Lines and trees that are each right may then make a program that is not: it uses what nothing in it declares.

mod changed;
mod names;
mod warned;

pub(super) use self::changed::heads;
pub(crate) use self::warned::{reasons, used_anew, used_by_lines, warnings};

use std::cell::LazyCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use self::changed::Changed;
use self::names::{Names, Paths, mentioned};
use super::replaced::{Replacements, renamed_in_place};
use super::unfit::unfit;
use super::{Edit, View};
use crate::grammar::{Language, find_name};
use crate::merging::{Gone, Sorts, Used, Withdrawn, renamed, standing, withdrawn_from};
use crate::once;
use crate::syntax::{NodeId, Tree};
use crate::{Side, Version, Versions};

/// From this many uses in base on, a member that is in none of them any more was not left out by chance. One of fewer was
/// not if a line that is else as it was has another in its place.
const OFTEN: usize = 3;

/// The names that one side has nowhere any more, and that the other side has more often than base: those that base
/// declares and the other side does not declare anew, members that base used often and that have another name
/// everywhere now, and other members that base used often, whatever declares them.
/// All of them stand in edits: the trees of these are asked for only if there may be such a name; `full` reads all of a
/// version.
pub(crate) fn withdrawn<'t, 's: 't>(
    versions: Versions<&[u8]>,
    edits: &[Edit],
    language: &'static Language,
    view: impl FnOnce() -> Option<View<'t, 's>>,
    full: impl Fn(Version) -> Option<Tree<'s>>,
) -> Withdrawn {
    let mut withdrawn = Withdrawn::default();
    let changed = Changed::of(versions, edits, language);
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
        withdrawn.unfit_mut(side).extend(unfit(&view, edits, side, &names));
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
pub(crate) fn perhaps(versions: Versions<&[u8]>, edits: &[Edit], language: &'static Language) -> bool {
    let changed = Changed::of(versions, edits, language);
    Side::BOTH.into_iter().any(|side| !changed.traded(side).is_empty() || !changed.redefined(side).is_empty())
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
