//! Where nothing better is to be had than a conflict.

use crate::line::{self, ChunkKind, LineMerge, LineSettings};
use crate::{Answer, Versions};

/// A clean line merge that cannot stand, and nothing better to say: the edits of both sides nearest to
/// the fault become one conflict.
pub(super) fn refuse(versions: Versions<&[u8]>, settings: &LineSettings, fault: usize) -> Answer {
    let lines = versions.map(line::lines);
    let chunks = line::chunks(versions, settings.algorithm);
    let resolved = |c: &line::Chunk| match c.kind {
        ChunkKind::Theirs => lines.theirs[c.theirs.clone()].concat(),
        _ => lines.ours[c.ours.clone()].concat(),
    };
    let mut at = 0;
    let mut place = 0;
    for (i, c) in chunks.iter().enumerate() {
        if at < fault {
            place = i;
        }
        at += if c.kind == ChunkKind::Theirs { c.theirs.len() } else { c.ours.len() };
    }
    let nearest = |kind: ChunkKind| {
        chunks.iter().enumerate().filter(|(_, c)| c.kind == kind).map(|(i, _)| i).min_by_key(|i| i.abs_diff(place))
    };
    let ends = [nearest(ChunkKind::Ours).unwrap_or(place), nearest(ChunkKind::Theirs).unwrap_or(place)];
    let (first, last) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
    let mut text = chunks[..first].iter().flat_map(resolved).collect::<Vec<u8>>();
    let disputed = &chunks[first..=last];
    let of = Versions {
        base: disputed.iter().flat_map(|c| lines.base[c.base.clone()].concat()).collect::<Vec<u8>>(),
        ours: disputed.iter().flat_map(|c| lines.ours[c.ours.clone()].concat()).collect(),
        theirs: disputed.iter().flat_map(|c| lines.theirs[c.theirs.clone()].concat()).collect(),
    };
    let conflicts = match settings.favor {
        Some(line::Favor::Ours) => {
            text.extend(of.ours);
            0
        }
        Some(line::Favor::Theirs) => {
            text.extend(of.theirs);
            0
        }
        Some(line::Favor::Union) => {
            text.extend(of.ours);
            text.extend(of.theirs);
            0
        }
        None => {
            let newline = line::newline_of(versions);
            line::write_conflict(&mut text, of.as_ref().map(Vec::as_slice), settings, newline);
            1
        }
    };
    text.extend(chunks[last + 1..].iter().flat_map(resolved));
    Answer::from(LineMerge { text, conflicts })
}
