//! Blocks that stand close together become one, as in git's own merges.

use gix::bstr::ByteSlice;

use super::Page;
use crate::line::{self, Block, CRUMB, LineSettings, Style, is_mark};
use crate::{Combined, Side, Versions};

/// Joins the blocks of a page between which stand a few lines that both sides have (git's xdiff/xmerge.c,
/// `xdl_simplify_non_conflicts`). Both halves have these lines then: `will_do` is asked with how many blocks fewer
/// and how many lines in conflict more there would be.
///
/// As in git, not where base is shown.
pub(crate) fn join(
    page: Page,
    versions: Versions<&[u8]>,
    settings: &LineSettings,
    will_do: impl Fn(usize, usize) -> bool,
) -> Page {
    let lines = line::lines(&page.text);
    let blocks = line::blocks(&lines, settings.marker_size);
    if settings.style != Style::Merge || blocks.len() < 2 || blocks.len() != page.conflicts {
        return page;
    }
    let halves: Vec<Option<Halves<'_>>> = blocks.iter().map(|b| Halves::of(&lines, b, settings.marker_size)).collect();
    let in_both = |text: &[u8]| [versions.ours, versions.theirs].iter().all(|side| side.contains_str(text));
    let mut joined = Page { text: Vec::with_capacity(page.text.len()), gone: page.gone, ..Page::default() };
    let mut combined = page.combined.into_iter().peekable();
    // Up to where the lines are done, and how many there are of them now.
    let (mut at, mut written) = (0, 0);
    let (mut fewer, mut more) = (0, 0);
    let mut i = 0;
    while i < blocks.len() {
        let (first, start) = (i, blocks[i].lines.start);
        i += 1;
        let Some(mut block) = halves[first].clone() else { continue };
        while let (Some(Some(next)), Some(end)) = (halves.get(i), blocks.get(i).map(|b| b.lines.start)) {
            let between = &lines[blocks[i - 1].lines.end..end];
            let longer = more + 2 * between.len();
            if between.len() > CRUMB || !will_do(fewer + 1, longer) || !in_both(&between.concat()) {
                break;
            }
            (fewer, more) = (fewer + 1, longer);
            block.take_in(between, next);
            i += 1;
        }
        if i == first + 1 {
            continue;
        }
        while let Some(place) = combined.next_if(|place| place.line <= blocks[i - 1].lines.end) {
            // What is inside begins, to a reader, where the block does.
            let line = (place.line - 1).min(start) + 1 + written - at;
            joined.combined.push(Combined { line, ..place });
        }
        let block = block.lines();
        joined.text.extend(lines[at..start].concat());
        joined.text.extend(block.concat());
        written += start - at + block.len();
        at = blocks[i - 1].lines.end;
    }
    joined.text.extend(lines[at..].concat());
    joined.combined.extend(combined.map(|place| Combined { line: place.line + written - at, ..place }));
    joined.conflicts = blocks.len() - fewer;
    joined
}

/// A page as it reads with ours, and with theirs, kept in every block. Nothing, if a line of text may be a marker.
pub(crate) fn readings(page: &[u8], marker_size: usize) -> Option<[Vec<u8>; 2]> {
    let lines = line::lines(page);
    let kept = kept(&lines, marker_size)?;
    Some(kept.map(|kept| kept.into_iter().flat_map(|line| lines[line]).copied().collect()))
}

/// The line of a page that is this one where a side is kept in every block, both from 1.
pub(crate) fn line_read(page: &[u8], marker_size: usize, side: Side, line: usize) -> usize {
    let lines = line::lines(page);
    let kept = kept(&lines, marker_size);
    let there = kept.and_then(|kept| kept[side as usize].get(line.checked_sub(1)?).copied());
    there.map_or(lines.len(), |line| line + 1)
}

/// Which lines of a page, from 0, are left with ours, and with theirs, kept in every block.
fn kept(lines: &[&[u8]], marker_size: usize) -> Option<[Vec<usize>; 2]> {
    let mut kept: [Vec<usize>; 2] = Default::default();
    let mut at = 0;
    for block in line::blocks(lines, marker_size) {
        let inside = block.lines.start + 1..block.lines.end - 1;
        let middle = inside.start + middle(&lines[inside.clone()], marker_size)?;
        let base = (inside.start..middle).find(|i| is_mark(lines[*i], b'|', marker_size)).unwrap_or(middle);
        for (kept, half) in kept.iter_mut().zip([inside.start..base, middle + 1..inside.end]) {
            kept.extend((at..block.lines.start).chain(half));
        }
        at = block.lines.end;
    }
    kept.iter_mut().for_each(|kept| kept.extend(at..lines.len()));
    Some(kept)
}

/// The marker in the middle of what is inside a block. Nothing, if a line of text may be it.
fn middle(inside: &[&[u8]], marker_size: usize) -> Option<usize> {
    let mut marks = (0..inside.len()).filter(|i| is_mark(inside[*i], b'=', marker_size));
    marks.next().filter(|_| marks.next().is_none())
}

/// A block, in lines.
#[derive(Clone)]
struct Halves<'t> {
    markers: [&'t [u8]; 3],
    ours: Vec<&'t [u8]>,
    theirs: Vec<&'t [u8]>,
}

impl<'t> Halves<'t> {
    /// Nothing, if a line of text may be the marker in the middle.
    fn of(lines: &[&'t [u8]], block: &Block, marker_size: usize) -> Option<Halves<'t>> {
        let [open, inside @ .., close] = &lines[block.lines.clone()] else { return None };
        let middle = middle(inside, marker_size)?;
        let (ours, theirs) = (inside[..middle].to_vec(), inside[middle + 1..].to_vec());
        Some(Halves { markers: [open, inside[middle], close], ours, theirs })
    }

    fn take_in(&mut self, between: &[&'t [u8]], next: &Halves<'t>) {
        self.ours.extend(between.iter().chain(&next.ours));
        self.theirs.extend(between.iter().chain(&next.theirs));
        self.markers[2] = next.markers[2];
    }

    fn lines(&self) -> Vec<&'t [u8]> {
        let [open, middle, close] = self.markers;
        [&[open], &self.ours[..], &[middle], &self.theirs, &[close]].concat()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str =
        "a\n<<<<<<< ours\n1\n=======\n2\n>>>>>>> theirs\nb\nc\n<<<<<<< ours\n3\n=======\n>>>>>>> theirs\nd\n";

    fn page(text: &str, conflicts: usize) -> Page {
        let combined = [1, 7, 9, 13].map(|line| Combined { line, what: String::new(), why: String::new() });
        Page { text: text.into(), conflicts, combined: combined.into(), ..Page::default() }
    }

    fn joined(page: Page, ours: &str, will_do: impl Fn(usize, usize) -> bool) -> (String, usize, Vec<usize>) {
        let versions = Versions { base: "", ours, theirs: "a\n2\nb\nc\nd\n" }.map(str::as_bytes);
        let Page { text, conflicts, combined, .. } = join(page, versions, &LineSettings::default(), will_do);
        (String::from_utf8(text).expect("it is text"), conflicts, combined.into_iter().map(|c| c.line).collect())
    }

    #[test]
    fn lines_between_are_in_both_halves_and_places_move_along() {
        let (text, conflicts, lines) =
            joined(page(PAGE, 2), "a\n1\nb\nc\n3\nd\n", |fewer, more| (fewer, more) == (1, 4));
        assert_eq!(text, "a\n<<<<<<< ours\n1\nb\nc\n3\n=======\n2\nb\nc\n>>>>>>> theirs\nd\n");
        assert_eq!((conflicts, lines), (1, vec![1, 2, 2, 12]));
    }

    #[test]
    fn blocks_stay_apart_where_joining_would_be_worse_or_one_side_changed_what_is_between() {
        for (ours, will_do) in [("a\n1\nb\nc\n3\nd\n", false), ("a\n1\nb\n3\nd\n", true)] {
            let (text, conflicts, lines) = joined(page(PAGE, 2), ours, |_, _| will_do);
            assert_eq!((&text[..], conflicts, lines), (PAGE, 2, vec![1, 7, 9, 13]));
        }
    }

    #[test]
    fn a_page_reads_in_two_ways() {
        let readings =
            readings(PAGE.replace("1\n", "1\n||||||| base\n0\n").as_bytes(), 7).expect("no line is in doubt");
        assert_eq!(readings, ["a\n1\nb\nc\n3\nd\n", "a\n2\nb\nc\nd\n"].map(|text| text.as_bytes().to_vec()));
        assert_eq!(super::readings(PAGE.replace("1\n", "Tides\n=======\n").as_bytes(), 7), None);
    }

    #[test]
    fn a_line_of_a_reading_is_found_on_its_page() {
        let page = PAGE.replace("1\n", "1\n||||||| base\n0\n");
        for (side, lines) in [(Side::Ours, &[1, 3, 9, 10, 12, 15][..]), (Side::Theirs, &[1, 7, 9, 10, 15])] {
            let found: Vec<usize> = (1..=lines.len()).map(|line| line_read(page.as_bytes(), 7, side, line)).collect();
            assert_eq!(found, lines);
        }
    }

    #[test]
    fn a_block_with_a_line_of_text_like_a_marker_stays_as_it_is() {
        let text = PAGE.replace("1\n", "Tides\n=======\n");
        let (same, conflicts, _) = joined(page(&text, 2), "a\nTides\n=======\nb\nc\n3\nd\n", |_, _| true);
        assert_eq!((same, conflicts), (text, 2));
    }
}
