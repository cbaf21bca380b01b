//! Sound in, sound out (contract K4): an answer parses and defines nothing twice.

use std::ops::Range;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::lists::jumbled;
use super::paths::{redefined, revived};
use super::paths_listed::{Listing, listing};
use crate::Versions;
use crate::grammar::Language;
use crate::syntax::{NodeId, ParseError, Parsed, Part, Span, Tree, hash_bytes, mix};

/// What is wrong with a text that was put together.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unsound {
    /// It does not parse.
    #[error("{0}")]
    Parse(#[from] ParseError),
    /// It has an entry twice that neither side had twice.
    #[error("{kind} `{name}` would stand twice at line {line}")]
    Twice {
        /// What kind of entry.
        kind: String,
        /// The entry's first line.
        name: String,
        /// The line of the second, from 1.
        line: usize,
    },
    /// It takes a name from two places, as neither side did, or takes one that it also defines.
    #[error("`{name}` at line {line} shadows another one above: each side brought in one of them")]
    Shadows {
        /// The name.
        name: String,
        /// The line of the second, from 1.
        line: usize,
    },
    /// An entry would define a path that another one has defined as something else.
    #[error("`{name}` at line {line} would be defined in two ways")]
    Clash {
        /// The path, as written.
        name: String,
        /// The line, from 1.
        line: usize,
    },
    /// An entry would stand in a table that one side took out.
    #[error("`{name}` at line {line} would stand in what one side took out")]
    Revived {
        /// The path, as written.
        name: String,
        /// The line, from 1.
        line: usize,
    },
    /// An entry would stand before one it must not precede.
    #[error("the order of {kind} would be wrong at line {line}")]
    Order {
        /// What kind of entry.
        kind: String,
        /// The line, from 1.
        line: usize,
    },
    /// Something would be listed by its path as the sides together do not have it.
    #[error("`{name}` would not be listed at line {line} as both sides made it")]
    Mislisted {
        /// Its path, as written.
        name: String,
        /// The line, from 1, of it or of what is listed first.
        line: usize,
    },
    /// A list would not hold what the sides made of it.
    #[error("the list at line {line} would not be what both sides made of it")]
    Jumbled {
        /// The line, from 1.
        line: usize,
    },
}

impl Unsound {
    /// The line of the fault in the text, from 1.
    pub fn line(&self) -> usize {
        match self {
            Unsound::Parse(ParseError::Syntax { line, .. } | ParseError::TooDeep(line)) => *line,
            Unsound::Parse(ParseError::NotUtf8(_)) => 1,
            Unsound::Twice { line, .. }
            | Unsound::Shadows { line, .. }
            | Unsound::Clash { line, .. }
            | Unsound::Revived { line, .. }
            | Unsound::Order { line, .. }
            | Unsound::Mislisted { line, .. }
            | Unsound::Jumbled { line } => *line,
        }
    }
}

/// The trees of the three versions, if all of them parse. Asked for only where a fault may be theirs.
pub type Sides<'f, 'v, 's> = &'f dyn Fn() -> Option<&'v Versions<Tree<'s>>>;

/// Whether an entry stands for text in which some names stand together.
pub type StandsFor<'f> = &'f dyn Fn(&[u8], &[&[u8]]) -> bool;

/// A name with the word before it in what it names, which says what that is.
fn introduced<'s>(tree: &Tree<'s>, name: NodeId) -> &'s [u8] {
    let start = tree.node(tree.node(name).parent).span.start;
    let before = &tree.source[start as usize..tree.node(name).span.start as usize];
    let word = before.trim_ascii_end().iter().rposition(u8::is_ascii_whitespace).map_or(0, |space| space + 1);
    tree.text(Span { start: start + word as u32, end: tree.node(name).span.end })
}

/// A text that was put together, as far as it differs from `ours`, one of the sides: what is wrong with the rest was
/// wrong there.
pub struct PutTogether<'t> {
    tree: Tree<'t>,
    differing: Vec<Range<usize>>,
}

impl<'t> PutTogether<'t> {
    /// Reads a text. `near` is one that it is much like, so that it can be parsed faster.
    ///
    /// # Errors
    /// It does not parse.
    pub fn read(text: &'t [u8], ours: &[u8], near: &Parsed<'_>) -> Result<PutTogether<'t>, Unsound> {
        Ok(PutTogether::of(&near.edited_to(text)?, ours))
    }

    /// Reads all of a text.
    pub fn in_full(parsed: &Parsed<'t>, ours: &[u8]) -> PutTogether<'t> {
        PutTogether { tree: parsed.tree(), differing: parsed.differing_from(ours) }
    }

    /// Lists that stand in `ours` as they are are not looked into.
    fn of(parsed: &Parsed<'t>, ours: &[u8]) -> PutTogether<'t> {
        let differing = parsed.differing_from(ours);
        PutTogether { tree: parsed.tree_around(&differing, &HashSet::default()), differing }
    }

    /// What is unsound in it, if anything is, given that the sides are sound. With `repetitions`, an import that
    /// stands twice is a fault too, so is a name that is taken from two places, and a list that is not what both sides
    /// made of it.
    pub fn fault(&self, sides: Sides<'_, '_, '_>, repetitions: bool) -> Option<Unsound> {
        let tree = &self.tree;
        if let Some(at) = tree.forgiven
            && sides().is_none_or(|s| s.ours.forgiven.is_none() && s.theirs.forgiven.is_none())
        {
            let (language, line) = (tree.language.name().to_owned(), tree.line_of(at));
            return Some(ParseError::Syntax { language, line }.into());
        }
        let more = || shadowed(tree, sides).or_else(|| jumbled(tree, sides)).or_else(|| put_into_gone(tree, sides));
        let fault = twice(tree, sides, repetitions).or_else(|| clash(tree, sides));
        fault.or_else(|| out_of_order(tree, sides)).or_else(|| if repetitions { more() } else { None })
    }

    /// What is not listed by its path as both sides made it.
    pub fn wrongly_listed(&self, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
        wrongly_listed(&self.tree, sides)
    }

    /// Whether it takes a look at all of it, and of the versions, to tell whether what it lists by its path is what both
    /// sides made of that.
    pub fn lists_unseen(&self, sides: Sides<'_, '_, '_>) -> bool {
        matches!(listing(&self.tree, sides), Listing::Unseen)
    }

    /// What a person should know of it although it is sound: that one of its names shadows another.
    pub fn doubt(&self, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
        shadowed(&self.tree, sides)
    }

    /// Whether, if some of its entries stand for others, a definition or an import in what differs may stand among
    /// those beside it too.
    pub fn perhaps_twice(&self, stands_for: StandsFor<'_>) -> bool {
        let tree = &self.tree;
        let differs = |span: Span| {
            let near = self.differing.partition_point(|r| r.end <= span.start as usize);
            self.differing.get(near).is_some_and(|r| r.start < span.end as usize)
        };
        (0..tree.len() as u32).map(NodeId).any(|entry| {
            let node = tree.node(entry);
            if node.key == 0 || !differs(node.span) || tree.list_rule(node.parent).is_none_or(|r| !r.lines) {
                return false;
            }
            let Some(rule) = tree.entry_rule(entry).filter(|r| r.free) else { return false };
            let key: Vec<&[u8]> = tree.key_parts(entry).map(|n| introduced(tree, n)).collect();
            let listed = match tree.list_rule(node.core) {
                Some(_) if !rule.unique => tree.part(node.core, Part::Entry),
                _ => &[],
            };
            let beside = || tree.part(node.parent, Part::Entry).iter().map(|n| tree.node_text(*n));
            let named = |names: &[&[u8]]| beside().any(|other| stands_for(other, names));
            match listed {
                [] => named(&key),
                names => names.iter().any(|n| named(&[&[tree.node_text(tree.node(*n).core)], &key[..]].concat())),
            }
        })
    }
}

/// Whether a text is sound whatever the sides were, and leaves no doubt: it parses, and nothing in what differs from
/// `ours` stands twice, out of order, out of line or empty, nor what its entries may stand for. Most texts are, and
/// then the sides need not be parsed to know it.
pub fn plainly_sound(text: &[u8], ours: &[u8], language: &'static Language, stands_for: StandsFor<'_>) -> bool {
    Parsed::new(text, language).is_ok_and(|parsed| {
        let read = PutTogether::of(&parsed, ours);
        let tree = &read.tree;
        tree.forgiven.is_none()
            && [census(tree, false), sources(tree)].iter().flat_map(Counts::values).all(|(n, _)| *n < 2)
            && misplaced(tree).is_empty()
            && redefined(tree).is_none()
            && !read.perhaps_twice(stands_for)
    })
}

/// For each node, a hash of the keys that it stands under, its own included.
pub(super) fn key_paths(tree: &Tree<'_>) -> Vec<u64> {
    let mut paths: Vec<u64> = Vec::with_capacity(tree.len());
    for id in (0..tree.len() as u32).map(NodeId) {
        let node = tree.node(id);
        let outer = if id == NodeId::ROOT { 0 } else { paths[node.parent.index()] };
        paths.push(if node.key != 0 { mix(outer, node.key) } else { outer });
    }
    paths
}

/// How often something is, the most in one list of a path of keys, and where it is for the last time.
type Counts = HashMap<(u64, u64), (u32, NodeId)>;

/// How often each key that must stand alone, and each name brought into scope, stands in one list: the most
/// over lists of the same path of keys. With `repetitions`, also how often the same import, or the like, does, and
/// the same text in a list of such.
fn census(tree: &Tree<'_>, repetitions: bool) -> Counts {
    let mut counts = Counts::default();
    // Lists that are one with others are counted together.
    let mut together: HashMap<(u64, u64), u32> = HashMap::default();
    for (id, path) in (0..tree.len() as u32).map(NodeId).zip(key_paths(tree)) {
        let Some(rule) = tree.list_rule(id) else { continue };
        let mut here: HashMap<u64, u32> = HashMap::default();
        let mut count = |key: u64, entry: NodeId| {
            let n = if rule.together { together.entry((path, key)).or_default() } else { here.entry(key).or_default() };
            *n += 1;
            let most = counts.entry((path, key)).or_insert((0, entry));
            if *n > most.0 {
                *most = (*n, entry);
            }
        };
        for entry in tree.part(id, Part::Entry) {
            let e = tree.node(*entry);
            let own = tree.entry_rule(*entry).filter(|r| !r.key.is_empty());
            let has = |field: u16| tree.kids(e.core).iter().any(|k| tree.node(*k).field == field);
            if e.key != 0 && own.map_or(rule.unique, |r| r.unique || r.unique_with.is_some_and(has)) {
                count(e.key, *entry);
            } else if e.key != 0 && repetitions && own.map_or(rule.free, |r| r.free) {
                // The names in an import are what stands twice, however they are spread over statements.
                let listed = tree.list_rule(e.core).filter(|r| r.free && r.keyed_by_text);
                let names = listed.map_or(std::slice::from_ref(&e.core), |_| tree.part(e.core, Part::Entry));
                names.iter().for_each(|n| count(mix(e.key, words(tree.node_text(tree.node(*n).core))), *entry));
            } else if e.key == 0 && repetitions && !rule.lines && tree.tells(*entry) {
                count(hash_bytes(13, tree.node_text(e.core)), *entry);
            }
            // Attributes may say that only one of several is there at all.
            let plain = tree.kids(*entry).iter().all(|k| !tree.language.rule(tree.node(*k).kind).prefix);
            if let Some(field) = own.and_then(|r| r.distinct)
                && plain
            {
                let parts = tree.kids(e.core).iter().filter(|k| tree.node(**k).field == field);
                parts.for_each(|k| count(mix(15, words(tree.node_text(*k))), *entry));
            }
            if plain {
                tree.bound_names(*entry).iter().for_each(|n| count(hash_bytes(11, tree.node_text(*n)), *n));
            }
        }
    }
    counts
}

/// From how many places each name is that is taken from one: from what it is taken from, and from a definition.
fn sources(tree: &Tree<'_>) -> Counts {
    let mut counts = Counts::default();
    if !tree.language.entries().iter().any(|rule| rule.takes) {
        return counts;
    }
    for (id, path) in (0..tree.len() as u32).map(NodeId).zip(key_paths(tree)) {
        if tree.list_rule(id).is_none_or(|r| !r.lines) {
            continue;
        }
        let mut taken: HashMap<&[u8], Vec<(u64, NodeId)>> = HashMap::default();
        let mut defined: Vec<NodeId> = Vec::new();
        for entry in tree.part(id, Part::Entry) {
            let (e, rule) = (tree.node(*entry), tree.entry_rule(*entry));
            if rule.is_some_and(|r| r.takes) {
                for name in (entry.0..e.end.0).map(NodeId).filter(|id| tree.is_declaration(*id)) {
                    let from = taken.entry(tree.node_text(name)).or_default();
                    if from.iter().all(|(key, _)| *key != e.key) {
                        from.push((e.key, name));
                    }
                }
            } else if rule.is_some_and(|r| r.unique) {
                defined.extend(tree.key_parts(*entry).filter(|id| tree.is_declaration(*id)));
            }
        }
        for name in defined {
            let defined = |from: &&mut Vec<(u64, NodeId)>| from.iter().all(|(key, _)| *key != 0);
            if let Some(from) = taken.get_mut(tree.node_text(name)).filter(defined) {
                from.push((0, name));
            }
        }
        for (name, from) in taken {
            let last = from.iter().map(|(_, name)| *name).max().expect("it is taken");
            let most = counts.entry((path, hash_bytes(14, name))).or_insert((0, last));
            if from.len() as u32 > most.0 {
                *most = (from.len() as u32, last);
            }
        }
    }
    counts
}

/// A hash of a text, white space aside. The hashes of a tree will not do: in another one the same entry may
/// hold a list that was not looked into.
fn words(text: &[u8]) -> u64 {
    let words = text.split(u8::is_ascii_whitespace).filter(|w| !w.is_empty());
    words.fold(12, hash_bytes)
}

/// How often a side had what.
struct Had {
    counts: Counts,
    paths: HashSet<u64>,
    by_key: HashMap<u64, u32>,
}

impl Had {
    fn new(counts: Counts) -> Had {
        let paths = counts.keys().map(|(path, _)| *path).collect();
        let mut by_key: HashMap<u64, u32> = HashMap::default();
        for ((_, key), (n, _)) in &counts {
            let most = by_key.entry(*key).or_default();
            *most = (*most).max(*n);
        }
        Had { counts, paths, by_key }
    }

    /// The most in one list of this path; in any, if the side has none of it, for then the other side may have
    /// given it a new name.
    fn most(&self, (path, key): &(u64, u64)) -> u32 {
        if self.paths.contains(path) {
            self.counts.get(&(*path, *key)).map_or(0, |(n, _)| *n)
        } else {
            self.by_key.get(key).copied().unwrap_or(0)
        }
    }
}

/// The first of what is more often in a text than in either side, if it is there more than once.
fn beyond(tree: &Tree<'_>, sides: Sides<'_, '_, '_>, count: impl Fn(&Tree<'_>) -> Counts) -> Option<NodeId> {
    let mut suspects: Vec<_> = count(tree).into_iter().filter(|(_, (n, _))| *n > 1).collect();
    if suspects.is_empty() {
        return None;
    }
    suspects.sort_by_key(|(_, (_, node))| *node);
    let sides = sides().map(|s| [&s.ours, &s.theirs].map(|tree| Had::new(count(tree))));
    let had = |k: &(u64, u64)| sides.iter().flatten().map(|side| side.most(k)).max().unwrap_or(0);
    suspects.into_iter().find(|(k, (n, _))| *n > had(k)).map(|(_, (_, node))| node)
}

fn twice(tree: &Tree<'_>, sides: Sides<'_, '_, '_>, repetitions: bool) -> Option<Unsound> {
    let node = beyond(tree, sides, |tree| census(tree, repetitions))?;
    let text = tree.node_text(tree.node(node).core);
    let first: Vec<u8> = text.split(|b| *b == b'\n').next().unwrap_or_default().iter().copied().take(60).collect();
    Some(Unsound::Twice {
        kind: tree.language.kind_name(tree.core_kind(node)).replace('_', " "),
        name: String::from_utf8_lossy(&first).into_owned(),
        line: tree.line_of(tree.node(node).span.start),
    })
}

fn shadowed(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
    let node = beyond(tree, sides, sources)?;
    let name = String::from_utf8_lossy(tree.node_text(node)).into_owned();
    Some(Unsound::Shadows { name, line: tree.line_of(tree.node(node).span.start) })
}

fn clash(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
    let node = redefined(tree)?;
    if sides().is_some_and(|s| redefined(&s.ours).is_some() || redefined(&s.theirs).is_some()) {
        return None;
    }
    let name = tree.node_text(node);
    let line = tree.line_of(tree.node(node).span.start);
    Some(Unsound::Clash { name: String::from_utf8_lossy(name).into_owned(), line })
}

fn put_into_gone(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
    let node = revived(tree, sides)?;
    let name = String::from_utf8_lossy(tree.node_text(node)).into_owned();
    Some(Unsound::Revived { name, line: tree.line_of(tree.node(node).span.start) })
}

fn wrongly_listed(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
    let Listing::Wrong(name, node) = listing(tree, sides) else { return None };
    Some(Unsound::Mislisted { name, line: tree.line_of(tree.node(node).span.start) })
}

/// The entries that stand after one of a higher rank, in lists whose order is a rule of the language, or after one that
/// must be the last.
fn misplaced(tree: &Tree<'_>) -> Vec<NodeId> {
    let mut found = Vec::new();
    for id in (0..tree.len() as u32).map(NodeId) {
        let Some(rule) = tree.list_rule(id) else { continue };
        if rule.lines {
            continue;
        }
        let ranked = !rule.free;
        let (mut highest, mut ended) = (0, false);
        for entry in tree.part(id, Part::Entry) {
            if tree.is_comment(*entry) {
                continue;
            }
            let rule = tree.entry_rule(*entry);
            let rank = rule.filter(|_| ranked).map_or(0, |r| r.rank);
            if rank < highest || std::mem::replace(&mut ended, rule.is_some_and(|r| r.last)) {
                found.push(*entry);
            }
            highest = if rule.is_some_and(|r| r.barrier) { 0 } else { highest.max(rank) };
        }
    }
    found
}

fn out_of_order(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
    let found = misplaced(tree);
    if found.is_empty() {
        return None;
    }
    let text = |tree: &Tree<'_>, entry: NodeId| words(tree.node_text(tree.node(entry).core));
    let texts = |side: &Tree<'_>| misplaced(side).into_iter().map(|entry| text(side, entry)).collect();
    let had: [Vec<u64>; 2] = sides().map(|s| [texts(&s.ours), texts(&s.theirs)]).unwrap_or_default();
    if had.iter().any(|had| had.len() >= found.len()) {
        // What a side has so, the other may have changed besides.
        return None;
    }
    let node = found.into_iter().find(|entry| had.iter().all(|had| !had.contains(&text(tree, *entry))))?;
    Some(Unsound::Order {
        kind: tree.language.kind_name(tree.node(tree.node(node).parent).kind).replace('_', " "),
        line: tree.line_of(tree.node(node).span.start),
    })
}
