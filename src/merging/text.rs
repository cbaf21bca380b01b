//! Merging one token of several lines.

use gix::bstr::ByteSlice;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::pieces::TextPart;
use super::{Side, Versions};
use crate::Version;
use crate::grammar::{KindRule, marked};
use crate::line::{self, Change, Repeated};

/// Merges what is in dispute again, white space at the ends of lines aside: a line is as ours has it, or else theirs.
pub(super) fn settle_line_ends(part: TextPart) -> Vec<TextPart> {
    let TextPart::Dispute(sides) = part else { return vec![part] };
    let bare = |line: &[u8]| [line.trim_ascii_end(), &line[line.trim_end_with(|c| c == '\n').len()..]].concat();
    let bared = sides.as_ref().map(|text| line::lines(text).into_iter().flat_map(bare).collect::<Vec<u8>>());
    let restored = |text: &[u8], from: &[Version]| -> Vec<u8> {
        let of = |v: &Version| line::lines(sides.get(*v)).into_iter().rev();
        let known: HashMap<_, _> = from.iter().rev().flat_map(of).map(|line| (bare(line), line)).collect();
        line::lines(text).into_iter().flat_map(|line| *known.get(line).unwrap_or(&line)).copied().collect()
    };
    let merged = merge_lines(bared.as_ref().map(Vec::as_slice)).into_iter();
    merged
        .map(|part| match part {
            TextPart::Plain(text) => TextPart::Plain(restored(&text, &[Version::Ours, Version::Theirs, Version::Base])),
            TextPart::Dispute(sides) => {
                TextPart::Dispute(Versions::each(|v| restored(sides.get(v), std::slice::from_ref(&v))))
            }
        })
        .collect()
}

/// Merges texts in quotes of which one side changed only an end: took off, or put before the quote, a letter that says nothing,
/// or put further lines behind the one line of a `remark`.
pub(super) fn merge_ends(texts: Versions<&[u8]>, rule: &KindRule, remark: bool) -> Option<Vec<u8>> {
    let split = texts.map(|text| text.split_at(marked(text, &rule.unmarked)));
    let (mark, rest) = (split.as_ref().map(|(mark, _)| *mark), split.as_ref().map(|(_, rest)| *rest));
    let said = |text: &[u8]| rule.unquoted(text).unwrap_or_else(|| text.to_vec());
    let one_of = |texts: Versions<&'_ [u8]>, same: &dyn Fn(&[u8], &[u8]) -> bool| match texts {
        Versions { base, ours, theirs } if same(base, ours) => Some(theirs.to_vec()),
        Versions { base, ours, theirs } if same(base, theirs) || same(ours, theirs) => Some(ours.to_vec()),
        _ => None,
    };
    let mark = one_of(mark, &|a, b| a == b)?;
    let rest = one_of(rest, &|a, b| said(a) == said(b)).or_else(|| remark.then(|| lines_behind(rest)).flatten())?;
    Some([mark, rest].concat())
}

/// Texts of which one side put one of some letters before the quote, or took it off, while the other changed no line in
/// which it means anything: what stands before the quote then, and all that is behind.
pub(super) fn split_raw<'t>(texts: Versions<&'t [u8]>, raw: &[u8]) -> Option<(&'t [u8], Versions<&'t [u8]>)> {
    let quote = |text: &[u8]| text.iter().position(|b| matches!(b, b'"' | b'\''));
    let split = texts.map(|text| text.split_at(quote(text).filter(|_| !raw.is_empty()).unwrap_or(0)));
    let (mark, rest) = (split.as_ref().map(|(mark, _)| *mark), split.as_ref().map(|(_, rest)| *rest));
    let side =
        Side::BOTH.into_iter().find(|side| mark.get(side.other()) == &mark.base && mark.get(*side) != &mark.base)?;
    let other = |mark: &[u8]| mark.iter().copied().filter(|b| !raw.contains(b)).collect::<Vec<u8>>();
    let escapes = |text| line::lines(text).into_iter().filter(|line| line.contains(&b'\\')).collect::<Vec<&[u8]>>();
    let safe = other(mark.get(side)) == other(mark.base) && escapes(rest.get(side.other())) == escapes(rest.base);
    safe.then(|| (*mark.get(side), rest))
}

/// A text of one line that one side changed, with the lines that the other side put behind it.
fn lines_behind(texts: Versions<&[u8]>) -> Option<Vec<u8>> {
    let inner = texts.map(|text| {
        let quotes = text.iter().take_while(|b| **b == text[0]).count();
        let inner = text.get(quotes..text.len().checked_sub(quotes)?)?;
        (text.ends_with(&text[..quotes])).then_some((&text[..quotes], inner))
    });
    let Versions { base: Some((open, base)), ours: Some((ours_open, ours)), theirs: Some((theirs_open, theirs)) } =
        inner
    else {
        return None;
    };
    let one_line = |text: &[u8]| !text.contains(&b'\n') && !text.is_empty();
    let put_behind = |own: &[u8]| {
        own.strip_prefix(base).filter(|more| more.starts_with(b"\n") || more.starts_with(b"\r\n")).map(<[u8]>::to_vec)
    };
    let (line, more) = match (put_behind(ours), put_behind(theirs)) {
        (Some(more), None) => (theirs, more),
        (None, Some(more)) => (ours, more),
        _ => return None,
    };
    let fits = open == ours_open && open == theirs_open && one_line(base) && one_line(line);
    fits.then(|| [open, line.trim_ascii_end(), &more, open].concat())
}

/// Merges texts line by line, as far in as the side has them that put all of it further in or out.
pub(super) fn merge_text(texts: Versions<&[u8]>) -> Vec<TextPart> {
    let [ours, theirs] = Side::BOTH.map(|side| Shift::of(texts.base, texts.get(side)));
    let shifted = match (ours, theirs) {
        (Some(ours), None) => ours.made_in(texts.base).zip(ours.made_in(texts.theirs)),
        (None, Some(theirs)) => theirs.made_in(texts.base).zip(theirs.made_in(texts.ours)),
        (Some(ours), Some(theirs)) if ours == theirs => ours.made_in(texts.base).zip(Some(texts.theirs.to_vec())),
        _ => None,
    };
    match (&shifted, ours) {
        (Some((base, theirs)), Some(_)) => merge_lines(Versions { base, theirs, ..texts }),
        (Some((base, ours)), None) => merge_lines(Versions { base, ours, ..texts }),
        (None, _) => merge_lines(texts),
    }
}

/// How much further in, or out, all lines of a text stand than they did: the first aside, which begins where the token
/// does, and perhaps the last.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Shift<'t> {
    way: Way,
    by: &'t [u8],
    /// Whether the last line went along.
    last: bool,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    In,
    Out,
}

impl Way {
    /// How a line that began with one indentation came to begin with another, and by what; nothing, if neither ends with the
    /// other.
    pub(super) fn between<'t>(old: &'t [u8], new: &'t [u8]) -> Option<(Way, &'t [u8])> {
        let further = new.strip_suffix(old).map(|by| (Way::In, by));
        further.or_else(|| old.strip_suffix(new).map(|by| (Way::Out, by)))
    }

    /// A line so much further in or out, if it can be; an empty one as it is.
    pub(super) fn of_line(self, by: &[u8], line: &[u8]) -> Option<Vec<u8>> {
        match self {
            _ if line.trim_ascii().is_empty() => Some(line.to_vec()),
            Way::In => Some([by, line].concat()),
            Way::Out => line.strip_prefix(by).map(<[u8]>::to_vec),
        }
    }
}

impl<'t> Shift<'t> {
    /// That of what both texts hold, if it is the same everywhere.
    fn of(base: &'t [u8], own: &'t [u8]) -> Option<Shift<'t>> {
        let [(old, old_last), (new, new_last)] = [base, own].map(inner);
        let mut was: HashMap<&[u8], Option<&[u8]>> = HashMap::default();
        for (indent, words) in old.into_iter().map(indented) {
            was.entry(words).and_modify(|old| *old = old.filter(|old| *old == indent)).or_insert(Some(indent));
        }
        let shift = |(now, words): (&'t [u8], &[u8])| {
            let old = (*was.get(words)?)?;
            let shift = Way::between(old, now).map(|(way, by)| Shift { way, by, last: false });
            Some(shift.filter(|shift| !shift.by.is_empty()))
        };
        let told = new.into_iter().map(indented).filter(|(_, words)| !words.is_empty());
        let mut shifts = told.filter_map(shift);
        let first = shifts.next()??;
        let last = first.of_line(old_last).is_some_and(|line| line == new_last);
        shifts.all(|shift| shift == Some(first)).then_some(Shift { last, ..first })
    }

    /// A text with its lines so much further in or out, if all of them can be.
    fn made_in(self, text: &[u8]) -> Option<Vec<u8>> {
        let (inner, last) = inner(text);
        let inner_size = inner.iter().map(|line| line.len()).sum::<usize>();
        let mut shifted = text[..text.len() - last.len() - inner_size].to_vec();
        for line in inner {
            shifted.extend(self.of_line(line)?);
        }
        shifted.extend(if self.last { self.of_line(last)? } else { last.to_vec() });
        Some(shifted)
    }

    fn of_line(self, line: &[u8]) -> Option<Vec<u8>> {
        self.way.of_line(self.by, line)
    }
}

/// The lines between the first and the last of a text, and the last, if it has more than one.
fn inner(text: &[u8]) -> (Vec<&[u8]>, &[u8]) {
    let lines = line::lines(text);
    match &lines[..] {
        [_, inner @ .., last] => (inner.to_vec(), last),
        _ => Default::default(),
    }
}

/// The white space that a line begins with, and what follows it.
fn indented(line: &[u8]) -> (&[u8], &[u8]) {
    line.split_at(line.len() - line.trim_ascii_start().len())
}

fn merge_lines(texts: Versions<&[u8]>) -> Vec<TextPart> {
    let lines = texts.map(line::lines);
    let mut parts = Vec::new();
    let chunks = line::chunks(texts, line::Algorithm::Histogram);
    let of_chunk = |chunk: &line::Chunk| Versions {
        base: &lines.base[chunk.base.clone()],
        ours: &lines.ours[chunk.ours.clone()],
        theirs: &lines.theirs[chunk.theirs.clone()],
    };
    let repeated = put_in_beside(&chunks, of_chunk);
    for (at, chunk) in chunks.iter().enumerate() {
        let of = of_chunk(chunk);
        match chunk.kind {
            _ if repeated.contains(&at) => {}
            line::ChunkKind::Unchanged | line::ChunkKind::Ours | line::ChunkKind::Same => {
                parts.push(TextPart::Plain(of.ours.concat()));
            }
            line::ChunkKind::Theirs => parts.push(TextPart::Plain(of.theirs.concat())),
            line::ChunkKind::Conflict => merge_close(of, &mut parts),
        }
    }
    parts
}

/// The chunks of which all that a side puts in there the other side puts in right beside.
fn put_in_beside<'l>(
    chunks: &[line::Chunk],
    lines: impl Fn(&line::Chunk) -> Versions<&'l [&'l [u8]]>,
) -> HashSet<usize> {
    let change = |chunk: &line::Chunk| {
        let side = chunk.kind.by()?;
        Some(Change { side, puts_in: chunk.base.is_empty(), lines: lines(chunk).get(side) })
    };
    let found = chunks.windows(3).enumerate().filter_map(|(at, stretch)| {
        let between = lines(&stretch[1]).base;
        if stretch[1].kind != line::ChunkKind::Unchanged {
            return None;
        }
        match line::repeated(change(&stretch[0])?, between, change(&stretch[2])?)? {
            Repeated::Above => Some(at),
            Repeated::Below => Some(at + 2),
        }
    });
    found.collect()
}

/// Merges lines that both sides changed close to each other. Lines of prose, unlike hunks of code, need no
/// distance: what does not change the same line, nor leaves open which comes first, does not disagree.
fn merge_close(lines: Versions<&[&[u8]]>, parts: &mut Vec<TextPart>) {
    let mut edits: Vec<LineEdit<'_>> = Vec::new();
    for (side, own) in [(Side::Ours, lines.ours), (Side::Theirs, lines.theirs)] {
        for (old, new) in line::hunks(&lines.base.concat(), &own.concat(), line::Algorithm::Histogram) {
            if old.len() == new.len() {
                // Each line has a counterpart.
                edits.extend(old.zip(new).map(|(o, n)| LineEdit { side, old: o..o + 1, new: &own[n..n + 1] }));
            } else {
                edits.push(LineEdit { side, old, new: &own[new] });
            }
        }
    }
    edits.sort_by_key(|e| (e.old.start, e.old.end, e.side));
    drop_repeated(&mut edits, lines.base);
    let mut at = 0;
    let mut rest = &edits[..];
    while let [first, ..] = rest {
        let mut end = first.old.end;
        let mut count = 1;
        while let Some(next) = rest.get(count)
            && (next.old.start < end || rest[..count].iter().any(|e| e.meets(next)))
        {
            end = end.max(next.old.end);
            count += 1;
        }
        let (cluster, later) = rest.split_at(count);
        let start = first.old.start;
        parts.push(TextPart::Plain(lines.base[at..start].concat()));
        let of = |side: Side| with_edits(lines.base, start..end, cluster.iter().filter(|e| e.side == side));
        let (ours, theirs) = (of(Side::Ours), of(Side::Theirs));
        let base = lines.base[start..end].concat();
        let [one, other] = Side::BOTH.map(|s| cluster.iter().any(|e| e.side == s));
        parts.push(match (one, other) {
            (true, false) => TextPart::Plain(ours),
            (false, true) => TextPart::Plain(theirs),
            _ if ours == theirs => TextPart::Plain(ours),
            _ if base.is_empty() && put_in_with_more(&ours, &theirs) => TextPart::Plain(theirs),
            _ if base.is_empty() && put_in_with_more(&theirs, &ours) => TextPart::Plain(ours),
            _ => TextPart::Dispute(Versions { base, ours, theirs }),
        });
        (at, rest) = (end, later);
    }
    parts.push(TextPart::Plain(lines.base[at..].concat()));
}

/// Of two texts, the one that has all lines of the other, in their order, and perhaps more.
pub(super) fn with_all_lines<'t>(ours: &'t [u8], theirs: &'t [u8]) -> Option<&'t [u8]> {
    let hunks = line::hunks(ours, theirs, line::Algorithm::Histogram);
    match (hunks.iter().all(|(own, _)| own.is_empty()), hunks.iter().all(|(_, other)| other.is_empty())) {
        (true, _) => Some(theirs),
        (_, true) => Some(ours),
        _ => None,
    }
}

/// Whether lines begin or end with all of other lines.
fn put_in_with_more(lines: &[u8], more: &[u8]) -> bool {
    let (lines, more) = (line::lines(lines), line::lines(more));
    more.starts_with(&lines) || more.ends_with(&lines)
}

/// Drops what one side puts in right beside the same of the other side.
fn drop_repeated(edits: &mut Vec<LineEdit<'_>>, base: &[&[u8]]) {
    fn change<'l>(e: &LineEdit<'l>) -> Change<'l, 'l> {
        Change { side: e.side, puts_in: e.old.is_empty(), lines: e.new }
    }
    let mut at = 1;
    while at < edits.len() {
        let (above, below) = (&edits[at - 1], &edits[at]);
        let between = base.get(above.old.end..below.old.start).unwrap_or_default();
        match line::repeated(change(above), between, change(below)) {
            // What both put in at one place is told there.
            Some(_) if above.old == below.old => at += 1,
            Some(Repeated::Above) => drop(edits.remove(at - 1)),
            Some(Repeated::Below) => drop(edits.remove(at)),
            None => at += 1,
        }
    }
}

/// One side's lines in the place of some of base.
struct LineEdit<'l> {
    side: Side,
    old: std::ops::Range<usize>,
    new: &'l [&'l [u8]],
}

impl LineEdit<'_> {
    /// Whether this edit ends where one of the other side begins, and which lines come first is open: both have more lines
    /// than stood there, or one only puts some in beside lines that are not as many any more.
    fn meets(&self, next: &LineEdit<'_>) -> bool {
        let grows = |e: &LineEdit<'_>| e.old.len() < e.new.len();
        let puts_in = |a: &LineEdit<'_>, b: &LineEdit<'_>| a.old.is_empty() && b.old.len() != b.new.len();
        let open = grows(self) && grows(next) || puts_in(self, next) || puts_in(next, self);
        self.side != next.side && self.old.end == next.old.start && open
    }
}

/// A stretch of base with some edits made.
fn with_edits<'l>(
    base: &[&[u8]],
    stretch: std::ops::Range<usize>,
    edits: impl Iterator<Item = &'l LineEdit<'l>>,
) -> Vec<u8> {
    let mut text = Vec::new();
    let mut at = stretch.start;
    for edit in edits {
        text.extend(base[at..edit.old.start].concat());
        text.extend(edit.new.concat());
        at = edit.old.end;
    }
    text.extend(base[at..stretch.end].concat());
    text
}
