//! Whether what an answer uses is declared there ([`checking::out_of_reach`]), asked of as little as will do.

use std::cell::LazyCell;

use rustc_hash::FxHashSet as HashSet;

use super::Case;
use crate::checking::Unsound;
use crate::edits::Edit;
use crate::grammar::{Head, words};
use crate::syntax::{Parsed, Tree};
use crate::{Side, Version, Versions, checking, line};

impl<'s> Case<'s> {
    /// A name that a structural answer uses out of reach of what declares it, by trees in which only what a side edited is
    /// looked into, and by those in which all is.
    pub(super) fn out_of_reach(
        &self,
        answer: &Parsed<'_>,
        parsed: &Versions<Parsed<'_>>,
        trees: &Versions<Tree<'_>>,
    ) -> Option<Unsound> {
        self.perhaps_out_of_reach(&self.edited_part(answer, parsed)?, trees, &HashSet::default())?;
        self.out_of_reach_in_full(answer, parsed)
    }

    /// The tree of a structural answer in which only what differs from base is looked into, in languages of which it is
    /// known where a name is known.
    pub(super) fn edited_part<'a>(&self, answer: &Parsed<'a>, parsed: &Versions<Parsed<'_>>) -> Option<Tree<'a>> {
        let edited = || answer.to_the_end(&answer.differing_from(parsed.base.source()));
        self.language.has_scopes().then(|| answer.tree_around(&edited(), self.loose()))
    }

    /// As [`Self::out_of_reach`] by the first of these alone, given what was edited of the answer. Of what lines leave
    /// over, that a side has a name of `hidden` so tells nothing.
    pub(super) fn perhaps_out_of_reach(
        &self,
        edited: &Tree<'_>,
        trees: &Versions<Tree<'_>>,
        hidden: &HashSet<&[u8]>,
    ) -> Option<Unsound> {
        self.strange_in(edited, hidden, |side| trees.get(Version::from(side)))
    }

    /// Whether, of an answer of which parts are left out, what was edited uses something behind a wall that may be declared
    /// in those parts, on the other side of the wall.
    pub(super) fn may_be_walled_off(&self, edited: &Tree<'_>, trees: &Versions<Tree<'_>>) -> bool {
        self.language.has_walls() && checking::is_walled_off(edited, |side| trees.get(Version::from(side)))
    }

    /// Whether what an answer uses is declared there, as it is for the versions.
    pub(super) fn within_reach(&self, text: &[u8]) -> bool {
        let strange = |parsed: &Versions<Parsed<'_>>| {
            self.out_of_reach_in_full(&self.known.parsed(text, &parsed.ours).ok()?, parsed)
        };
        self.parsed().is_ok_and(|parsed| strange(parsed).is_none())
    }

    /// Such a name by trees in which all is looked into.
    pub(super) fn out_of_reach_in_full(&self, answer: &Parsed<'_>, parsed: &Versions<Parsed<'_>>) -> Option<Unsound> {
        let read = Versions::each(|v| LazyCell::new(move || parsed.get(v).tree()));
        self.strange_in(&answer.tree(), &HashSet::default(), |side| read.get(Version::from(side)))
    }

    /// A name that a tree uses out of reach of what declares it, or a call in it that does not fit, as on no side.
    fn strange_in<'t, 'v: 't>(
        &self,
        answer: &Tree<'_>,
        hidden: &HashSet<&[u8]>,
        own: impl Fn(Side) -> &'t Tree<'v>,
    ) -> Option<Unsound> {
        checking::out_of_reach(answer, &own, hidden, self.edited_names())
            .or_else(|| checking::misfit(answer, |side| checking::misfits(own(side))))
    }

    /// The words in edits, where only what moves itself can be known elsewhere than it was: signs around what stands as it
    /// stood wall it off.
    fn edited_names(&self) -> Option<&HashSet<&'s [u8]>> {
        let names = || {
            let texts = |edit: &Edit| Version::ALL.map(|v| &self.versions.get(v)[edit.at(v)]);
            self.edits().iter().flat_map(texts).flat_map(words).collect()
        };
        (!self.language.has_walls()).then(|| self.edited_names.get_or_init(names))
    }

    /// The names in edits which lines settled that an edit declares in a version, or might, as far as words tell; and
    /// whether one of them is what a statement in an edit that is open defines or imports.
    pub(super) fn settled_names(&self) -> (HashSet<&'s [u8]>, bool) {
        let (mut said, mut declared, mut defined) = (HashSet::default(), HashSet::default(), HashSet::default());
        let Some(rules) = self.language.outline().filter(|_| self.language.has_scopes()) else { return (said, false) };
        for (edit, place) in self.edits().iter().zip(&self.settled().edited) {
            for line in Version::ALL.into_iter().flat_map(|v| line::lines(&self.versions.get(v)[edit.at(v)])) {
                said.extend(words(line).filter(|_| !place.open));
                // Without a sign for it, lines do not tell what they give a value.
                declared.extend(words(line).filter(|_| rules.setting.is_empty()));
                declared.extend(rules.given_a_value(line).or_else(|| rules.member_given_a_value(line)));
                if words(line).any(|word| rules.is_naming(word) || rules.is_importing(word)) {
                    declared.extend(words(line));
                    let head = Head::of(line, rules);
                    let named = words(head.rest).take(if head.imports { usize::MAX } else { 1 });
                    defined.extend(named.filter(|_| place.open));
                }
            }
        }
        said.retain(|name| declared.contains(name));
        let open = said.iter().any(|name| defined.contains(name));
        (said, open)
    }
}
