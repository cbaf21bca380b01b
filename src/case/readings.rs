//! What is wrong with an answer in conflict once its conflicts are settled for a side: who settles them does not see it.

use std::cell::LazyCell;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::Case;
use crate::checking::{PutTogether, Unsound};
use crate::grammar::words;
use crate::syntax::Parsed;
use crate::{Side, Version, Versions, layout};

impl Case<'_> {
    /// Whether a text with conflicts that is much like `near`, with one side chosen in all of them, is unsound or worth a
    /// note.
    pub(super) fn is_unsound_when_settled(&self, text: &[u8], near: &Versions<Parsed<'_>>) -> bool {
        let Some(readings) = layout::readings(text, self.settings.marker_size) else { return false };
        let unsound = |side: Side| {
            let read = self.read_for(side, &readings, near);
            read.is_some_and(|read| self.fault_or_doubt(&read).is_some())
        };
        Side::BOTH.into_iter().any(unsound)
    }

    /// Whether, as far as words tell, something in a text with conflicts may use a name that only one half of a conflict
    /// declares.
    pub(super) fn may_lack_names(&self, text: &[u8]) -> bool {
        let Some(readings) = layout::readings(text, self.settings.marker_size) else { return false };
        let counts = readings.each_ref().map(|reading| {
            let mut counts: HashMap<&[u8], usize> = HashMap::default();
            words(reading).for_each(|word| *counts.entry(word).or_default() += 1);
            counts
        });
        let lacks = |side: Side| {
            let [here, there] = [side, side.other()].map(|side| &counts[side as usize]);
            let known = LazyCell::new(|| words(self.versions.get(side)).collect::<HashSet<&[u8]>>());
            let more = |(word, often): (&&[u8], &usize)| there.get(*word).is_some_and(|other| other > often);
            here.iter().any(|(word, often)| more((word, often)) && !known.contains(word))
        };
        Side::BOTH.into_iter().any(lacks)
    }

    /// What is unsound, or worth a note, in such a text: in words, one line each, of lines of the text.
    pub(super) fn wrong_when_settled(&self, text: &[u8], near: &Versions<Parsed<'_>>) -> Vec<String> {
        let size = self.settings.marker_size;
        let Some(readings) = layout::readings(text, size) else { return Vec::new() };
        let [ours, theirs] = Side::BOTH.map(|side| {
            let Some(read) = self.read_for(side, &readings, near) else { return Vec::new() };
            let other = self.trees().map(|trees| trees.get(side.other()));
            let names = other.map_or(Vec::new(), |other| read.undeclared(self.versions.get(side), other));
            let in_text = |fault: Unsound| {
                let line = layout::line_read(text, size, side, fault.line());
                fault.at(line)
            };
            self.fault_or_doubt(&read).into_iter().chain(names).map(in_text).collect()
        });
        let told = |faults: &[Unsound], others: &[Unsound], side: Side| -> Vec<String> {
            let chosen = |fault: &Unsound| match (others.contains(fault), side) {
                (true, Side::Ours) => Some(format!("{fault}, whichever side is chosen")),
                (true, Side::Theirs) => None,
                (false, _) => Some(format!("{fault}, with {} chosen", Version::from(side).name())),
            };
            faults.iter().filter_map(chosen).collect()
        };
        [told(&ours, &theirs, Side::Ours), told(&theirs, &ours, Side::Theirs)].concat()
    }

    fn read_for<'r>(
        &'r self,
        side: Side,
        readings: &'r [Vec<u8>; 2],
        near: &Versions<Parsed<'_>>,
    ) -> Option<PutTogether<'r>> {
        let parsed = self.known.parsed(&readings[side as usize], near.get(side)).ok()?;
        Some(PutTogether::of(&parsed, self.versions.get(side)))
    }

    fn fault_or_doubt(&self, read: &PutTogether<'_>) -> Option<Unsound> {
        self.fault_in(read, false).or_else(|| self.doubt_in(read))
    }
}
