//! Lines that both sides took out of one place and put in again, each at a place of its own: to lines four edits that do
//! not disagree.

use rustc_hash::FxHashMap as HashMap;

use super::Edit;
use super::moved_lines::told;
use crate::line;
use crate::{Side, Version, Versions};

/// The first line of each stretch that both sides moved, each to another place. Of what any version has more than once,
/// nobody knows where it went.
pub(crate) fn moved_apart<'v>(versions: Versions<&'v [u8]>, edits: &[Edit]) -> Vec<&'v [u8]> {
    let by_both = edits.iter().filter(|edit| edit.by().is_none() && !edit.is_conflict());
    let mut gone = by_both.flat_map(|edit| told(versions.base, edit.at.get(Version::Base))).peekable();
    if gone.peek().is_none() {
        return Vec::new();
    }
    let put_in = Side::BOTH.map(|side| {
        let own = edits.iter().enumerate().filter(|(_, edit)| edit.by() == Some(side));
        let version = Version::from(side);
        let lines =
            own.flat_map(|(at, edit)| told(versions.get(version), edit.at.get(version)).map(move |line| (line, at)));
        lines.collect::<HashMap<&[u8], usize>>()
    });
    let once = |line: &[u8]| {
        let often =
            |version| line::lines(versions.get(version)).iter().filter(|other| other.trim_ascii() == line).count();
        Version::ALL.into_iter().all(|version| often(version) == 1)
    };
    let mut places = Vec::new();
    let mut first = |line: &[u8]| {
        let place = put_in[0].get(line).copied().zip(put_in[1].get(line).copied());
        let place = place.filter(|place| !places.contains(place) && once(line));
        places.extend(place);
        place.is_some()
    };
    gone.filter(|line| first(line)).collect()
}
