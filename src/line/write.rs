//! Chunks become the merged file; a conflict becomes a block with markers.

use super::chunks::{Chunk, ChunkKind};
use super::text::Text;
use super::{Favor, LineMerge, LineSettings, Style};
use crate::Versions;

const DEFAULT_MARKER_SIZE: usize = 7;

/// Writes the merged file. Without a `newline`, markers get the one that git would write there.
pub(super) fn written(
    chunks: &[Chunk],
    texts: &Versions<Text>,
    settings: &LineSettings,
    newline: Option<&'static [u8]>,
) -> LineMerge {
    let whole = |text: &Text| text.bytes(0..text.lines.len()).len();
    let mut out = Vec::with_capacity(whole(&texts.ours).max(whole(&texts.theirs)) + 256);
    let mut conflicts = 0;
    let newline = |chunk: &Chunk| newline.unwrap_or_else(|| newline_at(chunk, texts));
    for chunk in chunks {
        let ours = texts.ours.bytes(chunk.ours.clone());
        let theirs = texts.theirs.bytes(chunk.theirs.clone());
        match (chunk.kind, settings.favor) {
            (ChunkKind::Unchanged | ChunkKind::Ours | ChunkKind::Same, _) => out.extend_from_slice(ours),
            (ChunkKind::Theirs, _) => out.extend_from_slice(theirs),
            (ChunkKind::Conflict, Some(Favor::Ours)) => out.extend_from_slice(ours),
            (ChunkKind::Conflict, Some(Favor::Theirs)) => out.extend_from_slice(theirs),
            (ChunkKind::Conflict, Some(Favor::Union)) => {
                write_whole_lines(&mut out, ours, newline(chunk));
                out.extend_from_slice(theirs);
            }
            (ChunkKind::Conflict, None) => {
                conflicts += 1;
                let sides = Versions { base: texts.base.bytes(chunk.base.clone()), ours, theirs };
                write_conflict(&mut out, sides, settings, newline(chunk));
            }
        }
    }
    LineMerge { text: out, conflicts }
}

/// Writes one conflict block as git does.
///
/// `sides` are whole lines; where the last lacks its newline (the end of a file), `newline` is
/// added, which also ends the markers. Base is written only if the style shows it. Nothing is taken
/// out of the sides: for [`Style::Merge`] and [`Style::ZDiff3`] the caller has done so.
///
/// ```
/// use pleach::Versions;
/// use pleach::line::{LineSettings, write_conflict};
///
/// let mut out = Vec::new();
/// let sides = Versions { base: &b"ebb\n"[..], ours: b"flood\n", theirs: b"slack" };
/// write_conflict(&mut out, sides, &LineSettings::default(), b"\n");
/// assert_eq!(out, b"<<<<<<< ours\nflood\n=======\nslack\n>>>>>>> theirs\n");
/// ```
pub fn write_conflict(out: &mut Vec<u8>, sides: Versions<&[u8]>, settings: &LineSettings, newline: &[u8]) {
    let size = if settings.marker_size == 0 { DEFAULT_MARKER_SIZE } else { settings.marker_size };
    let marker = |out: &mut Vec<u8>, sign: u8, label: Option<&[u8]>| {
        out.resize(out.len() + size, sign);
        if let Some(label) = label {
            out.push(b' ');
            out.extend_from_slice(label);
        }
        out.extend_from_slice(newline);
    };
    let labels = settings.labels.as_ref().map(|label| label.as_deref());
    marker(out, b'<', labels.ours);
    write_whole_lines(out, sides.ours, newline);
    if settings.style != Style::Merge {
        marker(out, b'|', labels.base);
        write_whole_lines(out, sides.base, newline);
    }
    marker(out, b'=', None);
    write_whole_lines(out, sides.theirs, newline);
    marker(out, b'>', labels.theirs);
}

/// Writes lines, with a newline if the last lacks it.
fn write_whole_lines(out: &mut Vec<u8>, lines: &[u8], newline: &[u8]) {
    out.extend_from_slice(lines);
    if lines.last().is_some_and(|last| *last != b'\n') {
        out.extend_from_slice(newline);
    }
}

/// The line ending to write beside a conflict: CR LF only if the lines before it on both sides and
/// the first line of base have it, as far as each can tell.
fn newline_at(chunk: &Chunk, texts: &Versions<Text>) -> &'static [u8] {
    let before = |start: usize| start.saturating_sub(1);
    let witnesses = [
        ends_in_crlf(&texts.ours, before(chunk.ours.start)),
        ends_in_crlf(&texts.theirs, before(chunk.theirs.start)),
        ends_in_crlf(&texts.base, 0),
    ];
    match (witnesses.contains(&Some(false)), witnesses[2]) {
        (false, Some(true)) => b"\r\n",
        _ => b"\n",
    }
}

/// Whether a line ends in CR LF. The last line of a file may have no ending at all; then the line
/// before it answers, if there is one.
fn ends_in_crlf(text: &Text, line: usize) -> Option<bool> {
    let ending = |line: usize| text.bytes(line..line + 1);
    if line >= text.lines.len() {
        return None;
    }
    if ending(line).ends_with(b"\n") {
        return Some(ending(line).ends_with(b"\r\n"));
    }
    line.checked_sub(1).map(|above| ending(above).ends_with(b"\r\n"))
}
