//! An account of every conflict of the line merge that is none in the answer, so that a person can look at it.

use std::collections::BTreeSet;
use std::ops::Range;

use super::Edit;
use crate::layout::{readings, shown};
use crate::line::{self, Algorithm, Favor};
use crate::{Answer, Combined, Side, Version, Versions};

/// Adds to the combined places of an answer those where lines conflict and of which none tells yet: where one side
/// only laid out anew what the other changed, say. Conflict markers have `marker_size` characters.
pub(crate) fn complete(
    versions: Versions<&[u8]>,
    edits: &[Edit],
    text: &[u8],
    marker_size: usize,
    combined: &mut Vec<Combined>,
) {
    let differences = line::differences(versions.ours, text, Algorithm::Histogram);
    let whole = line::lines(text);
    let blocks = line::blocks(&whole, marker_size);
    if !blocks.is_empty() && as_the_sides_have_it(versions, text, marker_size) {
        combined.clear();
        return;
    }
    let told: BTreeSet<usize> = combined.iter().map(|c| c.line).collect();
    for edit in edits.iter().filter(|e| e.is_conflict()) {
        let place = moved(&differences, &edit.at(Version::Ours));
        let lines = line::lines(&text[place.clone()]);
        let above = line::above(&whole, &text[place.start..]);
        let near = blocks.partition_point(|block| block.lines.end <= above);
        let open = blocks.get(near).is_some_and(|block| block.lines.start < above + lines.len());
        if open || told.range(above..=above + lines.len() + 1).next().is_some() {
            continue;
        }
        let first = lines.iter().position(|line| !line.trim_ascii().is_empty());
        let what = match first {
            Some(first) => format!("lines, from `{}` on", shown(lines[first])),
            None if Version::ALL.into_iter().all(|v| versions.get(v)[edit.at(v)].trim_ascii().is_empty()) => {
                "blank lines".to_owned()
            }
            None => "lines taken out".to_owned(),
        };
        let why = reason(Versions::each(|v| &versions.get(v)[edit.at(v)])).to_owned();
        // What was taken out at the end has no line behind it.
        combined.push(Combined { line: (above + first.unwrap_or(0) + 1).min(whole.len().max(1)), what, why });
    }
    combined.sort_by_key(|place| place.line);
}

/// Whether nothing is combined beside the conflicts: with one side kept in all of them, the text is that side's.
fn as_the_sides_have_it(versions: Versions<&[u8]>, text: &[u8], marker_size: usize) -> bool {
    readings(text, marker_size).is_some_and(|[ours, theirs]| ours == versions.ours && theirs == versions.theirs)
}

/// What one side has in a conflict block, whose markers are among its lines.
pub(super) fn half<'b, 't>(block: &'b [&'t [u8]], side: Side, marker_size: usize) -> &'b [&'t [u8]] {
    let mark = |sign: u8| block.iter().position(|line| line::is_mark(line, sign, marker_size));
    let middle = mark(b'=').unwrap_or(block.len() - 1);
    match side {
        Side::Ours => &block[1..mark(b'|').map_or(middle, |base| base.min(middle))],
        Side::Theirs => &block[(middle + 1).min(block.len() - 1)..block.len() - 1],
    }
}

/// An answer with all its conflicts settled one way. Nothing in it but markers may look like one.
pub(crate) fn in_favor(answer: Answer, favor: Favor, versions: Versions<&[u8]>, marker_size: usize) -> Answer {
    let whole = line::lines(&answer.text);
    let mut text: Vec<u8> = Vec::with_capacity(answer.text.len());
    // How many of the lines above each stay.
    let mut above = Vec::with_capacity(whole.len() + 1);
    let mut kept = 0;
    let mut at = 0;
    for block in line::blocks(&whole, marker_size) {
        let lines = &whole[block.lines.clone()];
        let half = |side| half(lines, side, marker_size);
        let (sides, last) = match favor {
            Favor::Ours => (vec![half(Side::Ours)], Side::Ours),
            Favor::Theirs => (vec![half(Side::Theirs)], Side::Theirs),
            Favor::Union => (vec![half(Side::Ours), half(Side::Theirs)], Side::Theirs),
        };
        text.extend(whole[at..block.lines.start].concat());
        above.extend(kept..kept + block.lines.start - at);
        kept += block.lines.start - at;
        text.extend(sides.iter().flat_map(|lines| lines.concat()));
        let stay: usize = sides.iter().map(|lines| lines.len()).sum();
        above.extend((0..lines.len()).map(|i| kept + i.min(stay.saturating_sub(1))));
        kept += stay;
        at = block.lines.end;
        // A block's last line has a newline even where the file's has none.
        if at == whole.len() && stay > 0 && !versions.get(last).ends_with(b"\n") {
            text.truncate(text.len() - text.ends_with(b"\n") as usize - text.ends_with(b"\r\n") as usize);
        }
    }
    text.extend(whole[at..].concat());
    above.extend(kept..=kept + whole.len() - at);
    let combined = answer.combined.into_iter().map(|c| {
        let line = above.get(c.line.saturating_sub(1)).map_or(c.line, |above| above + 1);
        Combined { line, ..c }
    });
    Answer { text, conflicts: 0, combined: combined.collect(), kept: Vec::new(), ..answer }
}

/// Why lines in conflict could be settled: what the trees found, as the lines show it.
fn reason(lines: Versions<&[u8]>) -> &'static str {
    let bare = lines.map(|text| text.iter().filter(|b| !b.is_ascii_whitespace()).collect::<Vec<_>>());
    match (bare.ours == bare.base, bare.theirs == bare.base) {
        _ if bare.ours == bare.theirs => "both sides made this change, laid out in two ways",
        (true, _) => "ours changed only the layout",
        (_, true) => "theirs changed only the layout",
        _ => "the sides changed different things, or the same alike",
    }
}

/// Where some lines of a text are after it was changed; all that was changed in or right beside them with them.
fn moved(differences: &[(Range<usize>, Range<usize>)], place: &Range<usize>) -> Range<usize> {
    let offset = |at: usize, last: bool| {
        let near = differences.partition_point(|(before, _)| if last { before.start <= at } else { before.end < at });
        let (inside, passed) = match last {
            false => (differences.get(near).filter(|(before, _)| before.start <= at), near),
            true => (differences[..near].last().filter(|(before, _)| before.end >= at), near),
        };
        match (inside, passed.checked_sub(1).map(|i| &differences[i])) {
            (Some((_, after)), _) if last => after.end,
            (Some((_, after)), _) => after.start,
            (None, Some((before, after))) => after.end + (at - before.end),
            (None, None) => at,
        }
    };
    offset(place.start, false)..offset(place.end, true)
}

#[cfg(test)]
mod tests {
    use gix::bstr::ByteSlice;

    use super::*;

    #[test]
    fn places_are_where_they_are_once_a_side_is_kept() {
        let text = b"a\n<<<<<<< ours\nb\n=======\nc\nd\n>>>>>>> theirs\ne\n<<<<<<< ours\n=======\nf\n>>>>>>> theirs\n";
        let combined = [1, 8, 11].map(|line| Combined { line, what: String::new(), why: String::new() });
        let answer = || Answer { text: text.to_vec(), conflicts: 2, combined: combined.to_vec(), ..empty() };
        let versions = Versions { base: &b""[..], ours: b"a\nb\ne\n", theirs: b"a\nc\nd\ne\nf" };
        for (favor, kept, lines) in [
            (Favor::Ours, &b"a\nb\ne\n"[..], [1, 3, 4]),
            (Favor::Theirs, b"a\nc\nd\ne\nf", [1, 4, 5]),
            (Favor::Union, b"a\nb\nc\nd\ne\nf", [1, 5, 6]),
        ] {
            let settled = in_favor(answer(), favor, versions, 7);
            assert_eq!(settled.text.as_bstr(), kept.as_bstr());
            assert_eq!((settled.conflicts, settled.combined.iter().map(|c| c.line).collect()), (0, lines.to_vec()));
        }
    }

    fn empty() -> Answer {
        Answer::from(line::LineMerge { text: Vec::new(), conflicts: 0 })
    }

    #[test]
    fn a_place_takes_along_what_was_changed_in_and_beside_it() {
        let differences = [(10..20, 10..12), (30..30, 22..29)];
        assert_eq!(moved(&differences, &(0..5)), 0..5);
        assert_eq!(moved(&differences, &(12..15)), 10..12);
        assert_eq!(moved(&differences, &(20..30)), 10..29);
        assert_eq!(moved(&differences, &(22..28)), 14..20);
        assert_eq!(moved(&differences, &(40..50)), 39..49);
    }
}
