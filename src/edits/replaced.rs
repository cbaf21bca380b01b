//! What a side put in the place of words.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::Edit;
use crate::grammar::{self, is_word};
use crate::line;
use crate::{Side, Version, Versions};

/// Of lines that differ in words only, so many are compared.
const ALIKE: usize = 8;

/// How often each edit of a side has a name in base, and words that base has nowhere on the side.
pub(super) struct Replacements<'s> {
    /// By the name: the edits, and how often.
    old: HashMap<&'s [u8], Vec<(usize, usize)>>,
    /// By the edit.
    new: Vec<HashMap<&'s [u8], usize>>,
}

impl<'s> Replacements<'s> {
    pub(super) fn of(side: Side, versions: Versions<&'s [u8]>, edits: &[Edit]) -> Replacements<'s> {
        let known: HashSet<&[u8]> = grammar::names(versions.base).collect();
        let mut old: HashMap<&[u8], Vec<(usize, usize)>> = HashMap::default();
        let mut new = Vec::new();
        for (at, edit) in edits.iter().filter(|edit| edit.changed_by(side)).enumerate() {
            let names = |version: Version| grammar::names(&versions.get(version)[edit.at(version)]);
            for (name, often) in often(names(Version::Base)) {
                old.entry(name).or_default().push((at, often));
            }
            new.push(often(names(side.into()).filter(|word| !known.contains(word))));
        }
        Replacements { old, new }
    }

    /// The words that base has nowhere, and that the side put in each of its edits as often as base has a name there: the
    /// name that a member has now. If there is none, its users do without it, which says nothing of the member itself.
    pub(super) fn instead_of(&self, name: &[u8]) -> HashSet<&'s [u8]> {
        let Some([(first, ..), ..]) = self.old.get(name).map(Vec::as_slice) else { return HashSet::default() };
        let as_often = |word: &&[u8]| self.old[name].iter().all(|(at, often)| self.new[*at].get(word) == Some(often));
        self.new[*first].keys().copied().filter(as_often).collect()
    }
}

/// How often each of some words is among them.
fn often<'s>(words: impl Iterator<Item = &'s [u8]>) -> HashMap<&'s [u8], usize> {
    let mut often = HashMap::default();
    words.for_each(|word| *often.entry(word).or_default() += 1);
    often
}

/// The members that a side has something else in the place of, whatever leads to them, in a line in which it changed
/// nothing else.
pub(super) fn renamed_in_place<'s>(side: Side, versions: Versions<&'s [u8]>, edits: &[Edit]) -> HashSet<&'s [u8]> {
    let changed = put_in_place(side, versions, edits, |byte| is_word(byte) || byte == b'.').into_iter();
    changed.filter_map(|(old, _)| Some(&old[old.iter().rposition(|byte| *byte == b'.')? + 1..])).collect()
}

/// What a side put in the place of other words, made of some bytes, each in a line in which it changed nothing else.
pub(super) fn put_in_place<'s>(
    side: Side,
    versions: Versions<&'s [u8]>,
    edits: &[Edit],
    of_word: impl Fn(u8) -> bool,
) -> HashSet<(&'s [u8], &'s [u8])> {
    let words = |line: &'s [u8]| line.split(|byte| !of_word(*byte)).filter(|word| !word.is_empty());
    let mut found = HashSet::default();
    for edit in edits.iter().filter(|edit| edit.changed_by(side)) {
        let [base, own] = [Version::Base, side.into()].map(|v| line::lines(&versions.get(v)[edit.at(v)]));
        // By all that is no word.
        let mut alike: HashMap<Vec<u8>, Vec<&[u8]>> = HashMap::default();
        for line in own.into_iter().map(<[u8]>::trim_ascii) {
            let alike = alike.entry(unworded(line, &of_word)).or_default();
            if alike.len() < ALIKE {
                alike.push(line);
            }
        }
        for line in base.into_iter().map(<[u8]>::trim_ascii) {
            let changed = alike.get(&unworded(line, &of_word)).into_iter().flatten().filter_map(|own| {
                let mut different = words(line).zip(words(own)).filter(|(old, new)| old != new);
                let pair = different.next()?;
                different.all(|other| other == pair).then_some(pair)
            });
            found.extend(changed);
        }
    }
    found
}

/// A line without its words, made of some bytes.
fn unworded(line: &[u8], of_word: impl Fn(u8) -> bool) -> Vec<u8> {
    let mut bare: Vec<u8> = Vec::with_capacity(line.len() / 2);
    for byte in line.iter().map(|byte| if of_word(*byte) { b'_' } else { *byte }) {
        if byte != b'_' || bare.last() != Some(&b'_') {
            bare.push(byte);
        }
    }
    bare
}
