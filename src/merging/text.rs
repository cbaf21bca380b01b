//! Merging one token of several lines.

use gix::bstr::ByteSlice;
use rustc_hash::FxHashMap as HashMap;

use super::pieces::TextPart;
use super::{Side, Versions};
use crate::Version;
use crate::line;

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
    let merged = merge_text(bared.as_ref().map(Vec::as_slice)).into_iter();
    merged
        .map(|part| match part {
            TextPart::Plain(text) => TextPart::Plain(restored(&text, &[Version::Ours, Version::Theirs, Version::Base])),
            TextPart::Dispute(sides) => {
                TextPart::Dispute(Versions::each(|v| restored(sides.get(v), std::slice::from_ref(&v))))
            }
        })
        .collect()
}

/// Merges texts line by line.
pub(super) fn merge_text(texts: Versions<&[u8]>) -> Vec<TextPart> {
    let lines = texts.map(line::lines);
    let mut parts = Vec::new();
    for chunk in line::chunks(texts, line::Algorithm::Histogram) {
        let of = Versions {
            base: &lines.base[chunk.base],
            ours: &lines.ours[chunk.ours],
            theirs: &lines.theirs[chunk.theirs],
        };
        match chunk.kind {
            line::ChunkKind::Unchanged | line::ChunkKind::Ours | line::ChunkKind::Same => {
                parts.push(TextPart::Plain(of.ours.concat()));
            }
            line::ChunkKind::Theirs => parts.push(TextPart::Plain(of.theirs.concat())),
            line::ChunkKind::Conflict => merge_close(of, &mut parts),
        }
    }
    parts
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
            _ => TextPart::Dispute(Versions { base, ours, theirs }),
        });
        (at, rest) = (end, later);
    }
    parts.push(TextPart::Plain(lines.base[at..].concat()));
}

/// One side's lines in the place of some of base.
struct LineEdit<'l> {
    side: Side,
    old: std::ops::Range<usize>,
    new: &'l [&'l [u8]],
}

impl LineEdit<'_> {
    /// Whether this edit ends where one of the other side begins, and which lines come first is open.
    fn meets(&self, next: &LineEdit<'_>) -> bool {
        let grows = |e: &LineEdit<'_>| e.old.len() != e.new.len();
        self.side != next.side && self.old.end == next.old.start && grows(self) && grows(next)
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
