//! Lines that both sides put in beside one another: to lines two edits, as a blank line stands between.

use super::Edit;
use crate::line;
use crate::{Version, Versions};

/// The edits below which the other side made one, with blank lines between, such that all that one of the two puts in
/// the other puts in too.
pub(crate) fn doubled(versions: Versions<&[u8]>, edits: &[Edit]) -> Vec<usize> {
    let lines = |edit: &Edit| edit.by().map(|side| line::lines(&versions.get(side)[edit.at(side.into())]));
    let are_one = |above: &Edit, below: &Edit| {
        let between = &versions.base[above.at.base.end..below.at.base.start];
        let parted = between.trim_ascii().is_empty() && above.by() != below.by();
        let (Some(upper), Some(lower), true) = (lines(above), lines(below), parted) else { return false };
        let puts_in = |edit: &Edit| edit.at(Version::Base).is_empty();
        puts_in(below) && line::ends_with(&upper, &lower) || puts_in(above) && line::begins_with(&lower, &upper)
    };
    let pairs = edits.iter().zip(edits.iter().skip(1)).enumerate();
    pairs.filter(|(_, (above, below))| are_one(above, below)).map(|(at, _)| at).collect()
}
