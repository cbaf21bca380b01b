//! Structural merges of those parts of a case that edits come near, where the rest need only be known to parse.

use rustc_hash::FxHashSet as HashSet;

use super::attempt::{readable, trees_around};
use super::beside::while_reading;
use super::{Case, Reading};
use crate::checking::{Listing, PutTogether, Unsound};
use crate::edits::Place;
use crate::excerpt::Excerpt;
use crate::layout::Page;
use crate::{Side, Versions, checking};

impl<'s> Case<'s> {
    /// Those parts of three texts, which are the same but for what was edited, that edits come near.
    pub(super) fn excerpt_of(&self, texts: Versions<&[u8]>, own: &[u8], edited: &[Place]) -> Option<Excerpt> {
        Excerpt::of(texts, own, edited, self.language.outline()?)
    }

    pub(super) fn reading<'x>(&self, excerpt: &'x Excerpt) -> Option<Reading<'x>> {
        let parsed = self.known.versions(excerpt.texts.as_ref().map(Vec::as_slice), self.language, None).ok()?;
        let trees = readable(trees_around(&parsed, &excerpt.disputed, self.loose()))?;
        Some(Reading { parsed, trees })
    }

    /// What is found in an excerpt, if what it leaves out parses too: if not, the answer is the line merge (contract
    /// K7). That is often the longer part, and nothing else needs its outcome: it is read beside.
    pub(super) fn while_rest_parses<T>(&self, excerpt: &Excerpt, find: impl FnOnce() -> Option<T>) -> Option<T> {
        let rest = excerpt.left_out();
        let found = while_reading(rest, self.language, find);
        self.rest_parses.set(self.rest_parses.get() || found.is_some());
        found
    }

    /// The merge of an excerpt of `versions`, with all that it leaves out, if nothing is in doubt. Names that `hidden`
    /// tells may be declared for one side alone, and used in all of these by now, or the other way round; or, if it tells
    /// so, be used in what is left out.
    pub(super) fn in_excerpt(
        &self,
        excerpt: &Excerpt,
        reading: &Reading<'_>,
        versions: Versions<&[u8]>,
        hidden: impl FnOnce() -> (HashSet<&'s [u8]>, bool),
    ) -> Option<Page> {
        let page = self.merged(&reading.parsed, &reading.trees).ok()?;
        let mut strange = false;
        if page.conflicts == 0 {
            let parsed = self.known.parsed(&page.text, &reading.parsed.ours).ok()?;
            let read = PutTogether::of(&parsed, &excerpt.ours);
            let trees = || Some(self.view()?.trees);
            let (hidden, used_outside) = hidden();
            let Reading { parsed: sides, trees: looked_into } = reading;
            let edited = self.edited_part(&parsed, sides);
            let perhaps = edited.as_ref().and_then(|edited| self.perhaps_out_of_reach(edited, looked_into, &hidden));
            let fault = match hidden.is_empty() {
                true => perhaps.and_then(|_| self.out_of_reach_in_full(&parsed, sides)),
                false => perhaps,
            };
            // Whether a macro puts into its calls what they lack, calls that are left out may tell.
            let doubtful = !hidden.is_empty() || matches!(fault, Some(Unsound::Misfit { .. }));
            strange = used_outside
                || fault.is_some() && doubtful
                || edited.is_some_and(|edited| self.may_be_walled_off(&edited, looked_into));
            if fault.is_some() && !doubtful
                || read.fault(&trees, true).is_some()
                || self.may_list_anew() && !matches!(read.listing(&trees), Listing::Fine)
                || read.perhaps_twice(&|name, names| excerpt.holds(name, names))
            {
                return None;
            }
        }
        if page.conflicts > 0 && Side::BOTH.into_iter().any(|side| self.may_be_unsound(&page, excerpt, reading, side)) {
            return None;
        }
        let page = excerpt.restored(page)?;
        let balanced = page.conflicts > 0 || checking::unbalanced(versions, &page.text).is_none();
        (balanced && (!strange || self.within_reach(&page.text))).then_some(page)
    }

    /// Whether, with a side chosen in the conflicts of what an excerpt makes, that does not parse as that side's version does
    /// (contract K9), or may be unsound or worth a note.
    fn may_be_unsound(&self, page: &Page, excerpt: &Excerpt, reading: &Reading<'_>, side: Side) -> bool {
        let (chosen, parsed) = (page.chosen(side), reading.parsed.get(side));
        let trees = || Some(self.view()?.trees);
        let Ok(chosen) = self.read(&chosen, parsed) else { return true };
        let read = PutTogether::of(&chosen, parsed.source());
        read.fault(&trees, false).is_some()
            || read.doubt(&trees).is_some()
            || read.perhaps_twice(&|name, names| excerpt.holds(name, names))
    }

    /// The merge of an excerpt of what the line merge leaves over.
    pub(super) fn excerpt_of_rest(&self) -> Option<Page> {
        let settled = self.settled();
        let rules = self.language.outline()?;
        // Two statements that lines settled are left out without a look at whether they name the same thing.
        let names =
            |line: &Vec<u8>| rules.naming.iter().chain(&rules.importing).any(|word| line.starts_with(word.as_bytes()));
        if settled.doubled.iter().any(names) {
            return None;
        }
        let excerpt =
            self.excerpt_of(settled.texts.as_ref().map(Vec::as_slice), self.versions.ours, &settled.edited)?;
        let find = || self.in_excerpt(&excerpt, &self.reading(&excerpt)?, self.versions, || self.settled_names());
        self.while_rest_parses(&excerpt, find)
    }
}
