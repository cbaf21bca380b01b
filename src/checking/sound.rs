//! Sound in, sound out (contract K4): an answer parses and defines nothing twice.

use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::census::{Counts, beyond, census, sources, values};
use super::echoes::{differs, echoes, line_twice, perhaps_line_twice, perhaps_put_in_twice, put_in_twice};
use super::implied::implied;
use super::lists::jumbled;
use super::order::{misplaced, out_of_order};
use super::paths::{redefined, revived};
use super::paths_listed::{Listing, listing};
use super::undeclared::undeclared;
use super::unsound::Unsound;
use crate::Versions;
use crate::grammar::Language;
use crate::syntax::{NodeId, ParseError, Parsed, Part, Span, Tree};

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
    ours: &'t [u8],
    differing: Vec<Range<usize>>,
}

impl<'t> PutTogether<'t> {
    /// Reads all of a text.
    pub fn in_full(parsed: &Parsed<'t>, ours: &'t [u8]) -> PutTogether<'t> {
        PutTogether { tree: parsed.tree(), ours, differing: parsed.differing_from(ours) }
    }

    /// Reads a text that was parsed. Lists that stand in `ours` as they are are not looked into.
    pub fn of(parsed: &Parsed<'t>, ours: &'t [u8]) -> PutTogether<'t> {
        let differing = parsed.differing_from(ours);
        PutTogether { tree: parsed.tree_around(&parsed.to_the_end(&differing), &HashSet::default()), ours, differing }
    }

    /// What is unsound in it, if anything is, given that the sides are sound. With `repetitions`, an import that
    /// stands twice is a fault too, so is a name that is taken from two places, and a list that is not what both sides
    /// made of it.
    pub fn fault(&self, sides: Sides<'_, '_, '_>, repetitions: bool) -> Option<Unsound> {
        let tree = &self.tree;
        if let Some(forgiven) = tree.forgiven
            && sides().is_none_or(|s| s.ours.forgiven.is_none() && s.theirs.forgiven.is_none())
        {
            return Some(ParseError::forgiven(forgiven, tree.source, tree.language).into());
        }
        let more = || {
            shadowed(tree, sides)
                .or_else(|| self.echoed(sides))
                .or_else(|| jumbled(tree, sides))
                .or_else(|| put_into_gone(tree, sides))
        };
        let fault = twice(tree, sides, repetitions).or_else(|| clash(tree, sides));
        fault.or_else(|| out_of_order(tree, sides)).or_else(|| if repetitions { more() } else { None })
    }

    /// How what it lists by its path goes with what both sides made of that.
    pub fn listing(&self, sides: Sides<'_, '_, '_>) -> Listing {
        listing(&self.tree, sides)
    }

    /// What a person should know of it although it is sound: that one of its names shadows another, or that it has twice
    /// what each side put in once.
    pub fn doubt(&self, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
        shadowed(&self.tree, sides).or_else(|| self.echoed(sides))
    }

    /// The names of the `other` side that it uses and does not declare, and that `own`, the side that most of it is from,
    /// does not know.
    pub fn undeclared(&self, own: &[u8], other: &Tree<'_>) -> Vec<Unsound> {
        undeclared(&self.tree, own, other)
    }

    fn echoed(&self, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
        let tree = &self.tree;
        let put_in_twice = || put_in_twice(tree, &self.differing, self.ours, sides);
        if let Some(node) = beyond(tree, sides, echoes).or_else(put_in_twice) {
            let line = tree.line_of(tree.node(node).span.start);
            return Some(Unsound::Echoes { name: first_line(tree, node), line });
        }
        let at = line_twice(tree, &self.differing, sides)?;
        let name = String::from_utf8_lossy(tree.source[at.clone()].trim_ascii()).chars().take(60).collect();
        Some(Unsound::Echoes { name, line: tree.line_of(at.start as u32) })
    }

    /// Whether, if some of its entries stand for others, a definition or an import in what differs may stand among
    /// those beside it too.
    pub fn perhaps_twice(&self, stands_for: StandsFor<'_>) -> bool {
        let tree = &self.tree;
        (0..tree.len() as u32).map(NodeId).any(|entry| {
            let node = tree.node(entry);
            if node.key == 0
                || !differs(&node.span.range(), &self.differing)
                || tree.list_rule(node.parent).is_none_or(|r| !r.lines)
            {
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
            && [census(tree, false), implied(tree), sources(tree), values(tree), echoes(tree)]
                .iter()
                .flat_map(Counts::values)
                .all(|(n, _)| *n < 2)
            && !perhaps_put_in_twice(tree, &read.differing, ours)
            && !perhaps_line_twice(text, &read.differing)
            && misplaced(tree).is_empty()
            && redefined(tree).is_none()
            && !read.perhaps_twice(stands_for)
    })
}

fn twice(tree: &Tree<'_>, sides: Sides<'_, '_, '_>, repetitions: bool) -> Option<Unsound> {
    let node = beyond(tree, sides, |tree| census(tree, repetitions)).or_else(|| beyond(tree, sides, implied))?;
    Some(Unsound::Twice {
        kind: tree.language.kind_name(tree.core_kind(node)).replace('_', " "),
        name: first_line(tree, node),
        line: tree.line_of(tree.node(node).span.start),
    })
}

/// The beginning of what an entry says, from the line on that its name is on.
pub(super) fn first_line(tree: &Tree<'_>, entry: NodeId) -> String {
    let core = tree.node(tree.node(entry).core).span.range();
    let named = tree.key_parts(entry).next().map_or(core.start, |name| tree.node(name).span.start as usize);
    let start =
        tree.source[core.start..named.max(core.start)].iter().rposition(|b| *b == b'\n').map_or(0, |line| line + 1);
    let text = tree.source[core.start + start..core.end].trim_ascii_start();
    let first: Vec<u8> = text.split(|b| *b == b'\n').next().unwrap_or_default().iter().copied().take(60).collect();
    String::from_utf8_lossy(&first).trim_end().to_owned()
}

fn shadowed(tree: &Tree<'_>, sides: Sides<'_, '_, '_>) -> Option<Unsound> {
    let node = beyond(tree, sides, sources).or_else(|| beyond(tree, sides, values))?;
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
