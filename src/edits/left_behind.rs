//! Comments that a side left where it took out what they were above, or set apart from it by blank lines, or both sides
//! where they put something in between.

use std::rc::Rc;

use gix::bstr::ByteSlice;
use rustc_hash::FxHashSet as HashSet;

use super::{Edit, telling};
use crate::line;
use crate::matching::{dice, words};
use crate::syntax::line_hash;
use crate::{Side, Versions};

/// The hashes of the lines that a side left where it took out what follows, up to something that stands further below,
/// edited or not: a comment there said nothing of that. So of the last line that a side left of what is in dispute. And
/// of those below which both sides put something in: they stand above another thing in each version, and each has them
/// where they were. And of those that a side parted by blank lines from what stands below them: there they say nothing of
/// that.
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
    // A side that puts something in right below a comment may mean it for that; both do not.
    let put_in_below = |e: &&Edit| {
        let base = line::lines(&versions.base[e.at.base.clone()]);
        let parted = |side: Side| {
            let own = line::lines(&versions.get(side)[e.at(side.into())]);
            match base.first() {
                None => !own.is_empty(),
                Some(first) => telling(first) && own.iter().position(|line| line == first).is_some_and(|at| at > 0),
            }
        };
        e.is_conflict() && Side::BOTH.into_iter().all(parted)
    };
    let above = |e: &Edit| versions.base[..e.at.base.start].lines().next_back();
    // In dispute, a side's last line may be what it left of all that base has there.
    let left = |e: &Edit| {
        let base = line::lines(&versions.base[e.at.base.clone()]);
        let last = |side: Side| {
            let [own, other] = [side, side.other()].map(|s| line::lines(&versions.get(s)[e.at(s.into())]));
            // The other side has to have it as it was, or not at all: else it would belong to what follows there.
            let known = other.starts_with(&own) || base.ends_with(&other);
            own.last().copied().filter(|_| base.len() > own.len() && base.starts_with(&own) && known)
        };
        let sides = if e.is_conflict() { &Side::BOTH[..] } else { &[] };
        sides.iter().filter_map(|side| last(*side)).collect::<Vec<&[u8]>>()
    };
    // A side that puts in nothing but blank lines has the lines above them as base does, the other may have edited them.
    let set_apart = |e: &Edit| {
        let base = line::lines(&versions.base[e.at.base.clone()]);
        let apart = |side: Side| {
            let [own, other] = [side, side.other()].map(|s| line::lines(&versions.get(s)[e.at(s.into())]));
            let found = parted_by_blank_lines(&own, &base).unwrap_or_default();
            let lines = found.into_iter().flat_map(|below| match below.checked_sub(1) {
                None => [above(e), None],
                Some(at) => [Some(base[at]), other.get(at).copied().filter(|line| alike(line, base[at]) >= SAME_LINE)],
            });
            lines.flatten().collect::<Vec<&[u8]>>()
        };
        Side::BOTH.into_iter().filter(|side| e.changed_by(*side)).flat_map(apart).collect::<Vec<&[u8]>>()
    };
    let parted = edits.iter().filter(|e| taken_out(e) || put_in_below(e));
    let lines = parted.filter_map(above).chain(edits.iter().flat_map(left)).chain(edits.iter().flat_map(set_apart));
    lines.filter(|line| telling(line)).map(line_hash).collect()
}

/// Which lines of base a side put blank lines above that had none there, if it did nothing else: what stands behind the
/// last has the number of lines.
fn parted_by_blank_lines(own: &[&[u8]], base: &[&[u8]]) -> Option<Vec<usize>> {
    let blank = |line: &&[u8]| line.trim_ascii().is_empty();
    let mut own = own.iter().copied().peekable();
    let mut found = Vec::new();
    for (at, line) in base.iter().copied().map(Some).chain([None]).enumerate() {
        let mut put_in = false;
        while own.next_if(|own| Some(*own) != line && blank(own)).is_some() {
            put_in = true;
        }
        if put_in && !line.as_ref().is_some_and(blank) {
            found.push(at);
        }
        if own.next() != line {
            return None;
        }
    }
    Some(found)
}

/// From this similarity on, a line that took another's place is that line, edited.
const SAME_LINE: f32 = 0.5;

/// How alike two lines are, by their words.
fn alike(one: &[u8], other: &[u8]) -> f32 {
    let bag = |line: &[u8]| -> Rc<[u64]> {
        let mut bag: Vec<u64> = words(line).collect();
        bag.sort_unstable();
        bag.into()
    };
    dice(&bag(one), &bag(other))
}

/// Whether some lines are the last ones of others, line for line, edited: and more like these than like the first ones.
fn is_tail(own: &[&[u8]], base: &[&[u8]]) -> bool {
    let alike = |base: &[&[u8]]| -> Vec<f32> { own.iter().zip(base).map(|(x, y)| alike(x, y)).collect() };
    let (first, last) = (alike(base), alike(&base[base.len() - own.len()..]));
    last.first().is_some_and(|least| *least > first[0]) && last.iter().all(|alike| *alike >= SAME_LINE)
}
