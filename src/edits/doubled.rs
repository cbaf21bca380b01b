//! Lines that both sides put in beside one another: to lines two edits, as lines of base stand between.

use super::Edit;
use crate::line::{self, Change};
use crate::{Side, Version, Versions};

/// So many lines of base may stand between two edits that put in the same.
const BETWEEN: usize = 8;

/// The edits below which the other side made one, not far from there, such that all that one of the two puts in the
/// other puts in too.
pub(crate) fn doubled(versions: Versions<&[u8]>, edits: &[Edit]) -> Vec<usize> {
    let puts_in = |edit: &Edit| edit.at(Version::Base).is_empty();
    let told = |above: &Edit, one: Side, between: &[u8], below: &Edit, other: Side| {
        let lines = |edit: &Edit, side| line::lines(&versions.get(side)[edit.at(side)]);
        let (upper, lower) = (lines(above, one.into()), lines(below, other.into()));
        let above = Change { side: one, puts_in: puts_in(above), lines: &upper };
        let below = Change { side: other, puts_in: puts_in(below), lines: &lower };
        line::repeated(above, &line::lines(between), below).is_some()
    };
    let are_one = |above: &Edit, below: &Edit| {
        let between = &versions.base[above.at.base.end..below.at.base.start];
        // Most edits are told apart by this alone.
        if !puts_in(above) && !puts_in(below) || between.split(|b| *b == b'\n').count() > BETWEEN + 1 {
            return false;
        }
        let alone = |edit: &Edit, side: Side| edit.is_conflict() || edit.by() == Some(side);
        let apart = |one: &Side| alone(above, *one) && alone(below, one.other());
        Side::BOTH.into_iter().filter(apart).any(|one| told(above, one, between, below, one.other()))
    };
    let pairs = edits.iter().zip(edits.iter().skip(1)).enumerate();
    pairs.filter(|(_, (above, below))| are_one(above, below)).map(|(at, _)| at).collect()
}
