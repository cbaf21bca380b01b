//! One structural merge, and whether it can stand.

use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::Case;
use crate::checking::{Listing, PutTogether, Sides, Unsound};
use crate::layout::{Blind, Page};
use crate::line::LineSettings;
use crate::merging::{Unmerged, Withdrawn};
use crate::syntax::{Parsed, Tree};
use crate::{Side, Version, Versions, checking, layout, merging};

impl<'s> Case<'s> {
    /// One structural merge, checked; most of the answer is in `near`.
    pub(super) fn attempt(
        &self,
        versions: Versions<&[u8]>,
        parsed: &Versions<Parsed<'_>>,
        trees: &Versions<Tree<'_>>,
        near: &Parsed<'_>,
    ) -> Result<Page, String> {
        let page = self.checked(versions, self.merged(parsed, trees).map_err(|e| e.to_string())?, near)?;
        self.can_be_settled(&page, parsed)?;
        Ok(page)
    }

    /// A structural merge, unchecked, by trees in which only what may matter was looked into; in more of them, or in
    /// full, if that does not do.
    pub(super) fn merged(&self, parsed: &Versions<Parsed<'_>>, trees: &Versions<Tree<'_>>) -> Result<Page, Unmerged> {
        let again = |unseen: &dyn Fn(usize) -> bool| {
            let live = trees.as_ref().map(|tree| {
                let mut start = 0;
                let kept = tree.wholes().enumerate().filter(|(number, _)| !unseen(*number));
                let ends = kept
                    .map(|(_, list)| tree.node(list).span.range())
                    .chain(std::iter::once(tree.source.len()..tree.source.len()));
                ends.map(|whole| std::mem::replace(&mut start, whole.end)..whole.start).collect::<Vec<_>>()
            });
            merged(&trees_around(parsed, &live, self.loose()), self.withdrawn(), self.settings)
        };
        let unseen = match merged(trees, self.withdrawn(), self.settings) {
            Err(Unmerged::Unseen(unseen)) => unseen.into_iter().collect::<HashSet<usize>>(),
            outcome => return outcome,
        };
        match again(&|number| unseen.contains(&number)) {
            Err(Unmerged::Unseen(_)) => again(&|_| true),
            outcome => outcome,
        }
    }

    /// A merge of `versions`, if it is in conflict or can stand; `near` is parsed text that most of it is in.
    pub(super) fn checked(&self, versions: Versions<&[u8]>, page: Page, near: &Parsed<'_>) -> Result<Page, String> {
        if page.conflicts == 0 {
            let sound = || {
                let parsed = self.known.parsed(&page.text, near)?;
                let fault = self.fault(&page.text, near, &PutTogether::of(&parsed, versions.ours));
                let strange = || self.out_of_reach(&parsed, self.parsed().ok()?, self.trees()?);
                fault.or_else(strange).map_or(Ok(()), Err)
            };
            sound().map_err(|fault: Unsound| format!("the structural answer is unsound: {fault}"))?;
            if let Some(fault) = checking::unbalanced(versions, &page.text)
                && !checking::balanced_by_lists(versions, &page.text, self.language)
            {
                return Err(format!("the books do not balance: {fault}"));
            }
        }
        Ok(page)
    }

    /// What is unsound in a structural answer. All of it is looked into only if that may matter.
    fn fault(&self, text: &[u8], near: &Parsed<'_>, read: &PutTogether<'_>) -> Option<Unsound> {
        let fault = self.fault_in(read, true);
        if fault.is_some() || !self.may_list_anew() {
            return fault;
        }
        match read.listing(&|| self.trees()) {
            Listing::Fine => None,
            Listing::Wrong(fault) => Some(fault),
            Listing::Unseen => self.mislisted(text, near),
        }
    }

    /// What is unsound in what was put together, with or without repetitions; all of the sides is looked into before
    /// they are said not to have it.
    pub(super) fn fault_in(&self, read: &PutTogether<'_>, repetitions: bool) -> Option<Unsound> {
        self.surely(|sides| read.fault(sides, repetitions))
    }

    /// What is worth a note in what was put together, likewise.
    pub(super) fn doubt_in(&self, read: &PutTogether<'_>) -> Option<Unsound> {
        self.surely(|sides| read.doubt(sides))
    }

    /// What is found by the trees of the sides, and by those in which all was looked into too.
    fn surely(&self, find: impl Fn(Sides<'_, '_, 's>) -> Option<Unsound>) -> Option<Unsound> {
        let found = find(&|| self.trees())?;
        match self.parsed() {
            Ok(parsed) if !matches!(found, Unsound::Parse(_)) => {
                let sides = parsed.as_ref().map(Parsed::tree);
                find(&|| Some(&sides))
            }
            _ => Some(found),
        }
    }

    /// That what is in dispute on a page can be settled for either side, and parse as that side's version does
    /// (contract K9); else why not.
    fn can_be_settled(&self, page: &Page, parsed: &Versions<Parsed<'_>>) -> Result<(), String> {
        for side in Side::BOTH.into_iter().filter(|_| page.conflicts > 0) {
            self.read(&page.chosen(side), parsed.get(side))
                .map_err(|e| format!("with {} chosen, the structural answer {e}", Version::from(side).name()))?;
        }
        Ok(())
    }
}

/// Three trees made one, and laid out.
fn merged(trees: &Versions<Tree<'_>>, withdrawn: &Withdrawn, settings: &LineSettings) -> Result<Page, Unmerged> {
    let merge = merging::merge_trees(trees, withdrawn)?;
    layout::lay_out(trees, &merge, settings)
        .map_err(|Blind| Unmerged::Unseen((0..trees.base.wholes().count()).collect()))
}

/// The trees of texts that edits of lines made, if these left nothing in them that only the grammar forgives.
pub(super) fn readable(trees: Versions<Tree<'_>>) -> Option<Versions<Tree<'_>>> {
    Version::ALL.into_iter().all(|v| trees.get(v).forgiven.is_none()).then_some(trees)
}

pub(super) fn trees_around<'s>(
    parsed: &Versions<Parsed<'s>>,
    live: &Versions<Vec<Range<usize>>>,
    loose: &HashSet<u64>,
) -> Versions<Tree<'s>> {
    parsed.as_ref().zip(live.as_ref()).map(|(parsed, live)| parsed.tree_around(live, loose))
}
