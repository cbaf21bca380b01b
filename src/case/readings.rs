//! What is wrong with an answer in conflict once its conflicts are settled for a side: who settles them does not see it.

use super::Case;
use crate::checking::{PutTogether, Unsound};
use crate::syntax::Parsed;
use crate::{Side, Version, Versions, layout};

impl Case<'_> {
    /// What is unsound, or worth a note, in a text with conflicts that is much like `near`, with one side chosen in all of
    /// them: in words, one line each, of lines of the text.
    pub(super) fn wrong_when_settled(&self, text: &[u8], near: &Versions<Parsed<'_>>) -> Vec<String> {
        let size = self.settings.marker_size;
        let Some(readings) = layout::readings(text, size) else { return Vec::new() };
        let [ours, theirs] = Side::BOTH.map(|side| {
            let read = PutTogether::read(&readings[side as usize], self.versions.get(side), near.get(side)).ok();
            let found = read.and_then(|read| self.fault_in(&read, false).or_else(|| self.doubt_in(&read)));
            found.map(|fault| {
                let line = layout::line_read(text, size, side, fault.line());
                fault.at(line)
            })
        });
        if let (Some(fault), true) = (&ours, ours == theirs) {
            return vec![format!("{fault}, whichever side is chosen")];
        }
        let told = |(side, fault): (Side, Option<Unsound>)| {
            Some(format!("{}, with {} chosen", fault?, Version::from(side).name()))
        };
        Side::BOTH.into_iter().zip([ours, theirs]).filter_map(told).collect()
    }
}
