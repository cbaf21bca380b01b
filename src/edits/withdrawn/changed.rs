//! What each side did to the words in what it changed, by lines.

use std::cell::OnceCell;
use std::ops::{Range, RangeInclusive};

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::super::Edit;
use super::super::replaced::put_in_place;
use crate::grammar::{self, Head, Language, Outline, find_name, is_behind_dot, is_word, words};
use crate::line;
use crate::{Side, Version, Versions};

/// So many pairs of names are looked at for those that were renamed.
const EXCHANGED: usize = 200;

/// What each side did to the words in what it changed.
pub(super) struct Changed<'s, 'e> {
    versions: Versions<&'s [u8]>,
    edits: &'e [Edit],
    language: &'e Language,
    /// The words before what a statement names.
    naming: &'e [String],
    words: [HashMap<&'s [u8], Word>; 2],
    /// The heads of base.
    heads: OnceCell<Vec<usize>>,
}

/// What a side did to one word.
#[derive(Clone, Copy, Default)]
pub(super) struct Word {
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
    pub(super) fn of(versions: Versions<&'s [u8]>, edits: &'e [Edit], language: &'e Language) -> Changed<'s, 'e> {
        let naming = language.naming();
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
        Changed { versions, edits, language, naming, words, heads: OnceCell::new() }
    }

    fn heads(&self) -> &[usize] {
        self.heads.get_or_init(|| heads(self.versions.base, self.naming))
    }

    /// Those that one side took out somewhere and the other put in somewhere, with what each did.
    pub(super) fn crossing(&self, side: Side) -> impl Iterator<Item = (&'s [u8], Word, Word)> {
        let [own, other] = [side, side.other()].map(|side| &self.words[side as usize]);
        let both = own.iter().filter_map(|(word, own)| Some((*word, *own, *other.get(word)?)));
        both.filter(|(_, own, other)| own.out > 0 && other.put > 0)
    }

    /// Those that the side has less often than base, each with one that it has as much more often and in its place on some
    /// line, if the other side edited what has the first.
    pub(super) fn exchanged(&self, side: Side) -> Vec<(&'s [u8], &'s [u8])> {
        // Of what is a member wherever it stands, nothing is a variable.
        let alone = |version: Version, word: &[u8]| {
            let text = *self.versions.get(version);
            find_name(text, word).any(|at| !is_behind_dot(text, at))
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
    pub(super) fn traded(&self, side: Side) -> HashSet<&'s [u8]> {
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
    pub(super) fn redefined(&self, side: Side) -> HashSet<&'s [u8]> {
        let Changed { versions: Versions { base, .. }, edits, language, .. } = *self;
        let Some(rules) = language.outline() else { return HashSet::default() };
        let heads = self.heads();
        let other = &self.words[side.other() as usize];
        let indent = |head: usize| base[head..].iter().take_while(|byte| byte.is_ascii_whitespace()).count();
        let named = |head: usize| Head::of(first_line(&base[head..]), rules).name();
        let called = |head: usize| {
            let name = named(head)?;
            if !language.is_constructor(name) {
                return Some(name);
            }
            let above = heads[..heads.partition_point(|other| *other < head)].iter().rev();
            above.copied().find(|other| indent(*other) < indent(head)).and_then(named)
        };
        let is_braced = |i: &usize| is_braced(first_line(&base[heads[*i]..]), language, rules);
        let all_braced: Vec<usize> = (0..heads.len()).filter(is_braced).collect();
        let head = |i: usize| {
            let start = *heads.get(i)?;
            let braced = all_braced.binary_search(&i).is_ok();
            let most = if braced { None } else { heads.get(i + 1).copied() };
            Some(start..start + head_of(&base[start..most.unwrap_or(base.len())], rules, braced))
        };
        let near = |edit: &Edit| {
            let at = edit.at(Version::Base);
            let first = heads.partition_point(|head| *head <= at.start).saturating_sub(1);
            // What stands in braces may begin as a head does.
            let around = all_braced[..all_braced.partition_point(|i| *i < first)].last().copied();
            let all = first..heads.partition_point(|head| *head < at.end).max(first);
            let touched = move |head: &Range<usize>| {
                if at.is_empty() { head.contains(&at.start) } else { at.start < head.end && head.start < at.end }
            };
            around.into_iter().chain(all).filter_map(head).filter(touched)
        };
        let edited = edits.iter().filter(|edit| edit.changed_by(side)).flat_map(near);
        let names = edited.filter_map(|head| called(head.start));
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
pub(in crate::edits) fn heads(text: &[u8], naming: &[String]) -> Vec<usize> {
    let named = |line: &[u8]| words(line).next().is_some_and(|word| is_one_of(naming, word));
    let mut end = 0;
    let lines = line::lines(text).into_iter().filter_map(|line| {
        end += line.len();
        named(line).then_some(end - line.len())
    });
    lines.collect()
}

/// Whether braces hold what something takes that has this first line.
fn is_braced(first: &[u8], language: &Language, rules: &Outline) -> bool {
    let rest = Head::of(first, rules).rest;
    words(&first[..first.len() - rest.len()]).last().is_some_and(|word| language.is_braced(word))
}

/// The first line of a text, without what ends it.
fn first_line(text: &[u8]) -> &[u8] {
    text.split(|byte| *byte == b'\n').next().unwrap_or_default()
}

/// How long the head is of a statement that a text begins with: up to the end of the line on which the first brackets behind
/// its name are closed. All of the text, if it has none: nothing tells where its head ends.
fn head_of(text: &[u8], rules: &Outline, braced: bool) -> usize {
    let first = first_line(text);
    let named = first.len() - Head::of(first, rules).rest.len();
    let (mut depth, mut opened) = (0usize, false);
    for (at, byte) in text.iter().enumerate().skip(named) {
        match byte {
            b'{' if braced => (depth, opened) = (depth + 1, true),
            b'}' if braced => depth = depth.saturating_sub(1),
            b'(' | b'[' if !braced => (depth, opened) = (depth + 1, true),
            b')' | b']' if !braced => depth = depth.saturating_sub(1),
            b'\n' if opened && depth == 0 => return at + 1,
            _ => {}
        }
    }
    text.len()
}

fn is_one_of(naming: &[String], word: &[u8]) -> bool {
    naming.iter().any(|name| name.as_bytes() == word)
}
