//! Whether what is listed by its path is laid out anew, and listed as both sides have it.

use super::Case;
use crate::checking::{Listing, PutTogether, Unsound};
use crate::edits::Edit;
use crate::grammar::is_word;
use crate::syntax::Parsed;
use crate::{Version, line};

impl Case<'_> {
    /// What a text that parses does not list by its path as both sides together do; `near` is one that it is much like.
    pub(super) fn mislisted(&self, text: &[u8], near: &Parsed<'_>) -> Option<Unsound> {
        self.language.paths()?;
        let trees = self.parsed().ok()?.as_ref().map(Parsed::tree);
        let parsed = self.known.parsed(text, near).ok()?;
        match PutTogether::in_full(&parsed, self.versions.ours).listing(&|| Some(&trees)) {
            Listing::Wrong(fault) => Some(fault),
            Listing::Fine | Listing::Unseen => None,
        }
    }

    /// Whether a text lists by their paths what both sides together do, if the versions parse.
    pub(super) fn lists_well(&self, text: &[u8]) -> bool {
        self.parsed().is_ok_and(|parsed| self.mislisted(text, &parsed.ours).is_none())
    }

    /// Whether a side may have laid out anew, where lines conflict, what is listed by its path: then a conflict has a line
    /// on which a statement begins that takes a name from elsewhere.
    pub(super) fn may_list_anew(&self) -> bool {
        if self.language.paths().is_none() {
            return false;
        }
        let Some(outline) = self.language.outline() else { return true };
        let imports = |line: &[u8]| {
            let mut words = line.split(|b| !is_word(*b)).filter(|word| !word.is_empty()).take(4);
            words.any(|word| outline.is_importing(word))
        };
        let changed = |edit: &Edit| {
            Version::ALL.into_iter().any(|v| line::lines(&self.versions.get(v)[edit.at(v)]).into_iter().any(imports))
        };
        self.edits().iter().filter(|edit| edit.is_conflict()).any(changed)
    }
}
