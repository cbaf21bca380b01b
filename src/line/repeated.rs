//! Lines that both sides put in on either side of lines of base, so that to each diff they stand elsewhere.

use crate::Side;

/// What one side alone changed.
#[derive(Clone, Copy)]
pub(crate) struct Change<'l, 't> {
    pub side: Side,
    /// Whether nothing stood there.
    pub puts_in: bool,
    /// The lines that stand there now.
    pub lines: &'l [&'t [u8]],
}

/// Which of two changes is only what the other one puts in too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Repeated {
    Above,
    Below,
}

/// So many lines are known wherever in the other change they stand.
const AMONG: usize = 2;

/// Of two changes, between which stand some lines of base: the one of which all is in the other, if that is by the other
/// side. It is there, right behind those lines or before them, if the other change could as well have been made on
/// their other side: a diff slides what is put in along lines that it begins or ends with.
pub(crate) fn repeated(above: Change<'_, '_>, between: &[&[u8]], below: Change<'_, '_>) -> Option<Repeated> {
    if above.side == below.side {
        return None;
    }
    let (upper, between, lower) = (told(above.lines), told(between), told(below.lines));
    let lies_in = |own: &[&[u8]], other: &[&[u8]]| !own.is_empty() && own.len() <= other.len();
    // Several lines are told among others too, if nothing is between.
    let among = |own: &[&[u8]], other: &[&[u8]]| {
        between.is_empty() && own.len() >= AMONG && other.windows(own.len()).any(|lines| lines == own)
    };
    let ends = |upper: &[&[u8]], lower: &[&[u8]]| [upper, &between].concat().ends_with(&[&between, lower].concat());
    let begins = |upper: &[&[u8]], lower: &[&[u8]]| [&between, lower].concat().starts_with(&[upper, &between].concat());
    if below.puts_in && lies_in(&lower, &upper) && (ends(&upper, &lower) || among(&lower, &upper)) {
        Some(Repeated::Below)
    } else if above.puts_in && lies_in(&upper, &lower) && (begins(&upper, &lower) || among(&upper, &lower)) {
        Some(Repeated::Above)
    } else {
        None
    }
}

/// The lines that are not blank.
fn told<'t>(lines: &[&'t [u8]]) -> Vec<&'t [u8]> {
    lines.iter().copied().filter(|line| !line.trim_ascii().is_empty()).collect()
}
