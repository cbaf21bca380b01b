//! Lines that both sides put in on either side of blank ones, so that to each diff they stand elsewhere.

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

/// Of two changes, between which stand some lines of base: the one of which all is in the other, if that is by the other
/// side, and blank lines alone are between.
pub(crate) fn repeated(above: Change<'_, '_>, between: &[&[u8]], below: Change<'_, '_>) -> Option<Repeated> {
    let (upper, lower) = (without_margins(above.lines), without_margins(below.lines));
    if above.side == below.side || !without_margins(between).is_empty() || upper.is_empty() || lower.is_empty() {
        None
    } else if below.puts_in && upper.ends_with(lower) {
        Some(Repeated::Below)
    } else if above.puts_in && lower.starts_with(upper) {
        Some(Repeated::Above)
    } else {
        None
    }
}

/// Lines without the blank ones before and behind them.
fn without_margins<'l, 't>(mut lines: &'l [&'t [u8]]) -> &'l [&'t [u8]] {
    let blank = |line: &[u8]| line.trim_ascii().is_empty();
    while let [first, rest @ ..] = lines
        && blank(first)
    {
        lines = rest;
    }
    while let [rest @ .., last] = lines
        && blank(last)
    {
        lines = rest;
    }
    lines
}
