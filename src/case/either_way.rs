//! What is wrong with an answer whichever way its conflicts are settled: who settles them does not see it.

use super::Case;
use crate::checking::{PutTogether, Unsound};
use crate::syntax::Parsed;
use crate::{Side, Versions, layout};

impl Case<'_> {
    /// What is unsound, or worth a note, in a text with conflicts that is much like `near`, with ours chosen in all of
    /// them as with theirs. Its line is that of the text.
    pub(super) fn wrong_either_way(&self, text: &[u8], near: &Versions<Parsed<'_>>) -> Option<Unsound> {
        let size = self.settings.marker_size;
        let readings = layout::readings(text, size)?;
        let read =
            |side: Side| PutTogether::read(&readings[side as usize], self.versions.get(side), near.get(side)).ok();
        let ours = read(Side::Ours)?;
        let [unsound, doubtful] = [self.fault_in(&ours, false), self.doubt_in(&ours)];
        if unsound.is_none() && doubtful.is_none() {
            return None;
        }
        let theirs = read(Side::Theirs)?;
        let as_well = |fault: Unsound, other: Option<Unsound>| {
            let line = fault.line();
            (other?.at(line) == fault).then(|| fault.at(layout::line_read(text, size, line)))
        };
        let unsound = unsound.and_then(|fault| as_well(fault, self.fault_in(&theirs, false)));
        unsound.or_else(|| doubtful.and_then(|doubt| as_well(doubt, self.doubt_in(&theirs))))
    }
}
