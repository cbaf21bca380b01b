//! What is listed by its path is a set, however it is laid out (see the descriptors, "What is listed by its path").

use std::cell::{LazyCell, OnceCell};

use gix::bstr::ByteSlice;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::books::unbalanced;
use super::sound::Sides;
use super::unsound::Unsound;
use crate::grammar::Language;
use crate::once;
use crate::syntax::{Listed, NodeId, Parsed, Part, Tree, bare_hash, hash_bytes, listed, parse_versions, path_hash};
use crate::{Side, Versions};

/// What a version lists, by what it is.
struct Set {
    all: Vec<Listed>,
    /// How often each is listed, and a hash of the last one's value.
    ids: HashMap<u64, (usize, Option<u64>)>,
    /// What paths begin with, wherever they are listed.
    starts: HashSet<u64>,
    /// The same of those in each place.
    placed: HashSet<u64>,
    /// The values that were not looked into.
    unseen: HashSet<u64>,
    /// Hashes of their paths, wherever they are listed.
    unseen_starts: Vec<u64>,
    /// Whether there is anything else that was not looked into.
    closed: bool,
}

impl Set {
    fn new(tree: &Tree<'_>) -> Self {
        let all = listed(tree);
        let mut ids: HashMap<u64, (usize, Option<u64>)> = HashMap::default();
        for one in &all {
            let at = ids.entry(one.id()).or_default();
            *at = (at.0 + 1, one.value.and_then(|value| said(tree, value)));
        }
        let starts = all.iter().flat_map(|one| (0..one.path.len()).map(|n| path_hash(0, &one.path[..n]))).collect();
        let placed = |one: &Listed| {
            (least(one)..one.path.len()).map(|n| path_hash(one.place, &one.path[..n])).collect::<Vec<_>>()
        };
        let placed = all.iter().flat_map(placed).collect();
        let whole = |one: &&Listed| one.value.is_some_and(|value| tree.is_leaf(value) && tree.is_whole(value));
        let unseen = all.iter().filter(whole).map(Listed::id).collect();
        let unseen_starts = all.iter().filter(whole).map(|one| path_hash(0, &one.path)).collect();
        Set { placed, unseen_starts, closed: tree.wholes().next().is_some(), all, ids, starts, unseen }
    }

    /// What is known of something: how often it is listed, and its value.
    fn of(&self, one: &Listed) -> (usize, Option<u64>) {
        self.ids.get(&one.id()).copied().unwrap_or_default()
    }
}

/// How many parts a path has in common with another at the least, to be in the same table: none, if both are values of
/// an element.
fn least(one: &Listed) -> usize {
    usize::from(one.value.is_none() || one.holders[0].list == NodeId::ROOT)
}

/// Ids by the tails of what has them; nothing for a tail that several have.
type Tails = HashMap<u64, Option<u64>>;

fn tails(tree: &Tree<'_>, all: &[Listed]) -> Tails {
    once::by_key(all.iter().filter_map(|one| Some((tail(tree, one)?, one.id()))))
}

/// A hash of what a value is called in its table, what the table is called in its own, and the value: all that is the
/// same if it went into another one.
fn tail(tree: &Tree<'_>, one: &Listed) -> Option<u64> {
    let value = said(tree, one.value?)?;
    Some(path_hash(value, &one.path[one.path.len().saturating_sub(2)..]))
}

/// A hash of a value however it is laid out; nothing, if that is not plain to see.
fn said(tree: &Tree<'_>, value: NodeId) -> Option<u64> {
    let text = tree.node_text(value);
    let rules = tree.language.descriptor.paths.as_ref()?;
    // A comment may hold anything, and in a text of several lines white space says something.
    let holds = |sign: &String| text.contains_str(sign);
    let has_lines = || text.contains(&b'\n') && rules.strings.iter().any(holds);
    let unclear = rules.comment.as_ref().is_some_and(holds) || has_lines();
    (!unclear).then(|| bare_hash(text))
}

/// How what an answer lists by its path goes with what the versions list.
pub enum Listing {
    /// As both sides made it.
    Fine,
    /// This is listed although one side took it out, or by a path before it that no version has, or with another value
    /// than both sides made; or it is not listed although no side took it out. It, or what is listed first, is there.
    Wrong(Unsound),
    /// Not to be told, for some of it was not looked into.
    Unseen,
}

/// Looks for the first thing that an answer lists otherwise than both sides together.
pub(super) fn listing(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Listing {
    let answer = Set::new(tree);
    if tree.language.paths().is_none() || answer.all.is_empty() {
        return Listing::Fine;
    }
    let Some(trees) = sides() else { return Listing::Fine };
    let versions = trees.as_ref().map(Set::new);
    let sets = [&versions.base, &versions.ours, &versions.theirs, &answer];
    let closed = sets.iter().any(|set| set.closed);
    let unseen = |one: &Listed| {
        // A statement that stands in another may not have been looked into.
        if closed && one.holders[0].list != NodeId::ROOT {
            return true;
        }
        let mut around = (1..=one.path.len()).map(|n| path_hash(one.frame, &one.path[..n]));
        around.any(|id| sets.iter().any(|set| set.unseen.contains(&id)))
    };
    // What no version has follows what a side gave another path before it only if the other side put it in beside some of
    // that, and not instead of it.
    let follows = |one: &Listed| {
        let home = |one: &Listed| path_hash(one.place, &one.path[..one.path.len() - 1]);
        let put_in = |set: &Set, new: &Listed| {
            let stays = |old: &Listed| home(old) == home(new) && set.of(old).0 > 0;
            new.path.last() == one.path.last() && versions.base.of(new).0 == 0 && versions.base.all.iter().any(stays)
        };
        [&versions.ours, &versions.theirs].into_iter().any(|set| set.all.iter().any(|new| put_in(set, new)))
    };
    // Nor has a version what a side put in beside something that the other side put somewhere else: into a block, say.
    let goes_along = |one: &Listed| {
        let went = |side: Side, from: u64| {
            let stood = |path: &[String]| versions.base.all.iter().any(|old| old.place == from && old.path == path);
            let new = |now: &&Listed| now.place == one.place && versions.base.of(now).0 == 0;
            versions.get(side).all.iter().filter(new).any(|now| stood(&now.path))
        };
        let put_in = |side: Side| {
            let new = |new: &&Listed| new.path == one.path && versions.base.of(new).0 == 0 && answer.of(new).0 == 0;
            versions.get(side).all.iter().filter(new).any(|new| went(side.other(), new.place))
        };
        Side::BOTH.into_iter().any(put_in)
    };
    // What a side put in, and that is not what it took out under another name, has the value that it gave it.
    let took_out = Side::BOTH.map(|side| {
        let set = versions.get(side);
        LazyCell::new(|| versions.base.all.iter().any(|old| set.of(old).0 == 0))
    });
    let wrong = |one: &&Listed| {
        let [base, ours, theirs, own] = sets.map(|set| set.of(one));
        let changed = |side: Side, put_in: (usize, Option<u64>)| {
            put_in.1.is_some() && own.1.is_some() && own.1 != put_in.1 && !*took_out[side as usize]
        };
        let other_value = |side: (usize, Option<u64>), wanted: (usize, Option<u64>)| {
            side.1 == base.1 && base.1.is_some() && own.1.is_some() && wanted.1.is_some() && own.1 != wanted.1
        };
        match (own.0, base.0, ours.0, theirs.0) {
            (1, 1, 1, 1) => other_value(ours, theirs) || other_value(theirs, ours),
            (1, 1, 1, 0) | (1, 1, 0, 1) | (1, 1, 0, 0) => true,
            (1, 0, 1, 0) => changed(Side::Ours, ours),
            (1, 0, 0, 1) => changed(Side::Theirs, theirs),
            (1, 0, 0, 0) if one.value.is_none() => {
                let home = path_hash(0, &one.path[..one.path.len() - 1]);
                (sets[..3].iter().all(|set| !set.starts.contains(&home)) || !follows(one)) && !goes_along(one)
            }
            _ => false,
        }
    };
    // What a side put into a table of its own, as it was, belongs there if the other side left it where it was.
    let old_tails: OnceCell<Tails> = OnceCell::new();
    let put_there = |one: &Listed, side: Side| {
        let old = old_tails.get_or_init(|| tails(&trees.base, &versions.base.all));
        let known = tail(trees.get(side), one).and_then(|tail| old.get(&tail).copied().flatten());
        known.is_some_and(|id| {
            let there = versions.get(side.other()).ids.get(&id);
            there == Some(&versions.base.ids[&id]) && !versions.get(side).ids.contains_key(&id)
        })
    };
    // What is new belongs where base has most of its path, if the other side still has that. A value in the whole text,
    // in no table, belongs there, which is always there; but it may have come out of where the other side gave it another
    // name.
    let base = &versions.base.all;
    let renamed = base.iter().filter(|old| versions.ours.of(old).0 == 0 && versions.theirs.of(old).0 == 0);
    let renamed: HashSet<&String> = renamed.filter_map(|old| old.path.last()).collect();
    let wanted = |one: &Listed, side: Side| {
        let tree = trees.get(side);
        let outermost = one.holders[0];
        let table = || tree.language.paths().is_some_and(|p| p.lists.contains(&tree.core_kind(outermost.entry)));
        if one.value.is_some() && outermost.list == NodeId::ROOT && !table() {
            return !one.path.last().is_some_and(|name| renamed.contains(name));
        }
        let starts = (least(one)..one.path.len()).rev().map(|n| path_hash(one.place, &one.path[..n]));
        let known = starts.into_iter().find(|start| versions.base.placed.contains(start));
        known.map_or_else(|| put_there(one, side), |start| versions.get(side.other()).placed.contains(&start))
    };
    let reframed: OnceCell<[Reframed; 2]> = OnceCell::new();
    let settled = |one: &Listed, side: Side| {
        let all = || Side::BOTH.map(|side| Reframed::of(&versions.base, versions.get(side.other()), &answer));
        reframed.get_or_init(all)[side as usize].settled(one)
    };
    let lost = |one: &&Listed| {
        let [base, ours, theirs, own] = sets.map(|set| set.of(one).0);
        match (own, base, ours, theirs) {
            (0, 1, 1, 1) => true,
            (0, 0, 1, 0) => wanted(one, Side::Ours) && !settled(one, Side::Ours),
            (0, 0, 0, 1) => wanted(one, Side::Theirs) && !settled(one, Side::Theirs),
            _ => false,
        }
    };
    if let Some(fault) = emptied(tree, trees) {
        return Listing::Wrong(fault);
    }
    let first = answer.all[0].name;
    let wrong = answer.all.iter().filter(wrong).map(|one| (one, one.name));
    let lost = versions.ours.all.iter().chain(&versions.theirs.all).filter(lost).map(|one| (one, first));
    let mut faults = wrong.chain(lost).peekable();
    if faults.peek().is_none() {
        // What one of them has in a value that was not looked into, others may list.
        let mut parted = sets.iter().flat_map(|set| &set.unseen_starts);
        let doubt = parted.any(|start| sets.iter().any(|set| set.starts.contains(start)));
        return if doubt { Listing::Unseen } else { Listing::Fine };
    }
    let sign = tree.language.descriptor.paths.as_ref().map_or("", |paths| paths.sign.as_str());
    let seen = faults.find(|(one, _)| !unseen(one));
    seen.map_or(Listing::Unseen, |(one, at)| {
        let line = tree.line_of(tree.node(at).span.start);
        Listing::Wrong(Unsound::Mislisted { name: one.path.join(sign), line })
    })
}

/// What stands in a statement to which a side gave an attribute, say, is what stood there without that: one side may have
/// taken it out, or put it in, where the other has the attribute.
struct Reframed {
    /// What the answer has in such statements of the other side.
    put_in: HashSet<u64>,
    /// What base has, and the other side has not, whatever the statement.
    taken_out: HashSet<u64>,
}

impl Reframed {
    fn of(base: &Set, other: &Set, answer: &Set) -> Reframed {
        let frames = |set: &Set| set.all.iter().map(|one| one.frame).collect::<HashSet<u64>>();
        let (old, new) = (frames(base), frames(other));
        let put_in = |one: &&Listed| !old.contains(&one.frame) && new.contains(&one.frame);
        let there: HashSet<u64> = other.all.iter().map(Self::place).collect();
        Reframed {
            put_in: answer.all.iter().filter(put_in).map(Self::place).collect(),
            taken_out: base.all.iter().map(Self::place).filter(|at| !there.contains(at)).collect(),
        }
    }

    /// Where something stands, whatever else is said of it.
    fn place(one: &Listed) -> u64 {
        path_hash(one.place, &one.path)
    }

    /// Whether what only one side has is in the answer in another statement, or was taken out by the other side.
    fn settled(&self, one: &Listed) -> bool {
        let at = Self::place(one);
        one.value.is_none() && (self.put_in.contains(&at) || self.taken_out.contains(&at))
    }
}

/// A table of which nothing is left, that base does not have, and a side has with something in it: that went, and what
/// the side put around it stayed.
fn emptied(tree: &Tree<'_>, sides: &Versions<Tree<'_>>) -> Option<Unsound> {
    // The tables of a version, and whether they hold anything.
    let tables = |tree: &Tree<'_>| -> Vec<(NodeId, u64, bool)> {
        let lists = tree.language.paths().map_or(&[][..], |paths| &paths.lists);
        let tables = tree.part(NodeId::ROOT, Part::Entry).iter().filter(|e| lists.contains(&tree.core_kind(**e)));
        let holds = |core: NodeId| {
            tree.is_whole(core) || tree.part(core, Part::Entry).iter().any(|entry| !tree.is_comment(*entry))
        };
        tables.map(|e| (*e, tree.node(*e).key, holds(tree.node(*e).core))).collect()
    };
    let known = sides.as_ref().map(tables);
    let known = known.as_ref().map(|all| all.iter().map(|(_, key, holds)| (*key, *holds)).collect::<HashMap<_, _>>());
    let filled = |side: &HashMap<u64, bool>, key: &u64| side.get(key).is_none_or(|holds| *holds);
    let mut emptied = tables(tree).into_iter().filter(|(_, key, holds)| {
        let taken_in = !known.base.contains_key(key) && filled(&known.ours, key) && filled(&known.theirs, key);
        !holds && *key != 0 && taken_in
    });
    emptied.next().map(|(entry, ..)| {
        let head = tree.key_parts(entry).map(|part| String::from_utf8_lossy(tree.node_text(part)).into_owned());
        let line = tree.line_of(tree.node(entry).span.start);
        Unsound::Mislisted { name: head.collect::<Vec<_>>().join(" "), line }
    })
}

/// Whether the books balance (contract K5) if what is listed by its path is read as one such path a line, in the order
/// of the alphabet: how it is laid out is no more than layout. Nor are signs between the entries of a list that are
/// operators elsewhere.
pub fn balanced_by_lists(versions: Versions<&[u8]>, answer: &[u8], language: &'static Language) -> bool {
    if language.paths().is_none() && !counts_separators(language) {
        return false;
    }
    let Ok(parsed) = parse_versions(versions, language) else { return false };
    let Ok(answer) = parsed.ours.edited_to(answer) else { return false };
    let spread = |parsed: &Parsed<'_>| {
        let tree = parsed.tree();
        let all = listed(&tree);
        Listings { spread: spread(&tree, &all), values: values(&tree, &all), counts: counts(&tree, &all) }
    };
    let Versions { base, ours, theirs } = parsed.as_ref().map(spread);
    let answer = spread(&answer);
    // In whatever statements: one that a side gave an attribute is still the one that the other took out, and a comment
    // that now stands above another statement is still that comment.
    let often = |of: &Listings, one: &u64| of.counts.get(one).copied().unwrap_or(0);
    let all = [&base, &ours, &theirs, &answer].into_iter().flat_map(|of| of.counts.keys());
    let kept = all.into_iter().all(|one| {
        let net = |version| often(version, one) - often(&base, one);
        let (o, t, found) = (net(&ours), net(&theirs), net(&answer));
        let (one, both) = (if o.abs() > t.abs() { o } else { t }, o + t);
        if o.signum() * t.signum() > 0 { (one.min(both)..=one.max(both)).contains(&found) } else { found == both }
    });
    let balanced = |text: fn(&Listings) -> &[u8]| {
        unbalanced(Versions { base: text(&base), ours: text(&ours), theirs: text(&theirs) }, text(&answer)).is_none()
    };
    kept && balanced(|of| &of.spread) && balanced(|of| &of.values)
}

/// Whether the books count what parts the entries of some list of a language.
fn counts_separators(language: &Language) -> bool {
    language.lists().iter().any(|rule| is_sign(&rule.separator_text))
}

/// Whether the books count what parts the entries of a list: they know of the common separators.
fn is_sign(separator: &[u8]) -> bool {
    !matches!(separator, b"" | b"," | b";")
}

/// A text with white space for such signs.
fn without_signs(tree: &Tree<'_>) -> Vec<u8> {
    let mut text = tree.source.to_vec();
    for id in (0..tree.len() as u32).map(NodeId) {
        let span = tree.node(id).separator;
        if !span.is_empty() && is_sign(tree.text(span)) {
            text[span.range()].fill(b' ');
        }
    }
    text
}

/// What a version lists, as the books look at it.
struct Listings {
    /// One path a line, behind the rest of the text.
    spread: Vec<u8>,
    /// The values, in the order of the text: one whose path is another now, because a header stands elsewhere, is still
    /// that value.
    values: Vec<u8>,
    /// How often each path is listed, and each line of a comment stands there.
    counts: HashMap<u64, i64>,
}

/// How often each path is listed, and how often each line of a comment stands there.
fn counts(tree: &Tree<'_>, all: &[Listed]) -> HashMap<u64, i64> {
    let mut counts = HashMap::default();
    all.iter().for_each(|one| *counts.entry(path_hash(0, &one.path)).or_default() += 1);
    let comments = (0..tree.len() as u32).map(NodeId).filter(|id| tree.language.rule(tree.node(*id).kind).comment);
    let lines = comments.flat_map(|id| tree.node_text(id).split(|b| *b == b'\n')).map(<[u8]>::trim_ascii);
    lines.filter(|l| !l.is_empty()).for_each(|line| *counts.entry(hash_bytes(20, line)).or_default() += 1);
    counts
}

/// What is listed with a value, a line each: the last part of its path, and the value.
fn values(tree: &Tree<'_>, all: &[Listed]) -> Vec<u8> {
    let mut text = Vec::new();
    for (one, value) in all.iter().filter_map(|one| Some((one, one.value?))) {
        text.extend(one.path.last().into_iter().flat_map(|name| name.bytes()));
        text.push(b' ');
        text.extend_from_slice(tree.node_text(value));
        text.push(b'\n');
    }
    text
}

/// A text with what it lists by its path in lines of their own, and the comments of such statements, behind the rest.
fn spread(tree: &Tree<'_>, all: &[Listed]) -> Vec<u8> {
    let mut text = Vec::with_capacity(tree.source.len());
    let source = without_signs(tree);
    let mut lines: Vec<Vec<u8>> = Vec::new();
    let sign = tree.language.descriptor.paths.as_ref().map_or("", |paths| paths.sign.as_str());
    let mut statements: Vec<NodeId> = all.iter().map(|one| one.holders[0].entry).collect();
    statements.dedup();
    let mut at = 0;
    for statement in statements {
        let span = tree.node(statement).span.range();
        text.extend_from_slice(&source[at..span.start]);
        at = span.end;
        let inside = tree.inside(statement);
        let comments = inside.filter(|id| tree.language.rule(tree.node(*id).kind).comment);
        lines.extend(comments.map(|id| tree.node_text(id).to_vec()));
    }
    text.extend_from_slice(&source[at..]);
    for one in all {
        let mut line = one.path.join(sign).into_bytes();
        for part in one.apart.iter().copied().chain(one.value) {
            line.push(b' ');
            line.extend_from_slice(tree.node_text(part));
        }
        lines.push(line);
    }
    lines.sort();
    lines.iter().for_each(|line| {
        text.push(b'\n');
        text.extend_from_slice(line);
    });
    text
}
