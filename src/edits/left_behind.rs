//! Comments that a side left where it took out what they were above.

use std::rc::Rc;

use gix::bstr::ByteSlice;
use rustc_hash::FxHashSet as HashSet;

use super::{Edit, telling};
use crate::line;
use crate::matching::{dice, words};
use crate::syntax::line_hash;
use crate::{Side, Versions};

/// The hashes of the lines that a side left where it took out what follows, up to something that stands further below,
/// edited or not: a comment there said nothing of that.
pub(crate) fn left_behind(versions: Versions<&[u8]>, edits: &[Edit]) -> HashSet<u64> {
    let taken_out = |e: &&Edit| {
        let base = line::lines(&versions.base[e.at.base.clone()]);
        let lines = |side: Side| line::lines(&versions.get(side)[e.at(side.into())]);
        Side::BOTH.into_iter().filter(|side| e.changed_by(*side)).any(|side| {
            let (own, other) = (lines(side), lines(side.other()));
            let goes_on = own.first().filter(|first| telling(first));
            let gone = goes_on.and_then(|first| base.iter().position(|line| line == first));
            // If what it said was edited too, the other side has to have kept what it stood above.
            let edited = || other.first() == base.first() && is_tail(&own, &base);
            base.len() > own.len() && (base.ends_with(&own) || edited())
                || gone.is_some_and(|gone| gone > 0 && !base[..gone].iter().any(|line| own.contains(line)))
        })
    };
    let above = |e: &Edit| versions.base[..e.at.base.start].lines().next_back();
    edits.iter().filter(taken_out).filter_map(above).filter(|line| telling(line)).map(line_hash).collect()
}

/// From this similarity on, a line that took another's place is that line, edited.
const SAME_LINE: f32 = 0.5;

/// Whether some lines are the last ones of others, line for line, edited: and more like these than like the first ones.
fn is_tail(own: &[&[u8]], base: &[&[u8]]) -> bool {
    let bag = |line: &[u8]| -> Rc<[u64]> {
        let mut bag: Vec<u64> = words(line).collect();
        bag.sort_unstable();
        bag.into()
    };
    let alike = |base: &[&[u8]]| -> Vec<f32> { own.iter().zip(base).map(|(x, y)| dice(bag(x), bag(y))).collect() };
    let (first, last) = (alike(base), alike(&base[base.len() - own.len()..]));
    last.first().is_some_and(|least| *least > first[0]) && last.iter().all(|alike| *alike >= SAME_LINE)
}
