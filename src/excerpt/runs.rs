//! Which statements can be left out.

use std::ops::Range;

use super::PART;
use super::outline::{Line, LineKind};

/// A run of fewer bytes is not worth its line.
const SHORT: usize = 120;
/// So many bytes are no long paragraph.
const CLOSE: usize = 400;

/// The runs of lines that can be left out of lines that nobody edited: whole statements, from one that a blank line
/// stands before, up to the blank line before another, or parts of a long paragraph. Beside an edit, one such paragraph
/// stays, and so does a statement that both `sides` changed: each may have put the same thing into it.
pub(super) fn runs(lines: &[Line], sides: &[[bool; 2]], edit_above: bool, edit_below: bool) -> Vec<Range<usize>> {
    let paragraphs = paragraphs(lines, edit_below);
    let statement = |line: &&Line| matches!(line.kind, LineKind::Statement | LineKind::Clause);
    let shallowest = |lines: &[Line]| lines.iter().filter(statement).map(|line| line.indent).min();
    let last = paragraphs.len().saturating_sub(if edit_below { 2 } else { 0 });
    let mut runs = Vec::new();
    let mut i = usize::from(edit_above);
    while i < last {
        let (start, indent) = paragraphs[i];
        let mut end = None;
        let mut k = i;
        let mut by = [false; 2];
        loop {
            let next = paragraphs.get(k + 1).map(|p| p.0);
            let until = next.unwrap_or(lines.len());
            if shallowest(&lines[paragraphs[k].0..until]).is_some_and(|shallowest| shallowest < indent) {
                break;
            }
            let by_both = (paragraphs[k].0..until).any(|at| {
                let first = lines[at].kind == LineKind::Statement && lines[at].indent == indent;
                let before = if first { [false; 2] } else { by };
                by = [before[0] | sides[at][0], before[1] | sides[at][1]];
                by == [true; 2]
            });
            if by_both {
                break;
            }
            k += 1;
            match paragraphs.get(k) {
                // What follows must not be further in: it would belong to what is left out.
                Some((_, other)) if k <= last && *other <= indent => end = Some(k),
                Some(_) if k < last => {}
                None if !edit_below => {
                    end = Some(k);
                    break;
                }
                _ => break,
            }
        }
        let until = end.map(|k| paragraphs.get(k).map_or(lines.len(), |p| p.0));
        let blank = |line: &&Line| line.kind == LineKind::Blank;
        let run = until.map(|until| start..until - lines[start..until].iter().rev().take_while(blank).count());
        match (run, end) {
            (Some(run), Some(end)) if lines[run.end - 1].span.end - lines[start].span.start >= SHORT => {
                runs.push(run);
                i = end;
            }
            _ => i += 1,
        }
    }
    runs
}

/// Where in a run of whole statements some of them begin, the first among them, and the others no closer than makes
/// parts of a fair size.
pub(super) fn cuts(run: &[Line]) -> Vec<usize> {
    let start = run[0].span.start;
    let mut cuts = vec![0];
    let mut led = false;
    for line in run.iter().filter(|line| line.kind == LineKind::Statement && line.indent == run[0].indent) {
        let at = line.span.start - start;
        if !led && at >= cuts[cuts.len() - 1] + PART / 2 {
            cuts.push(at);
        }
        led = line.leads;
    }
    cuts
}

/// Where a statement begins behind a blank line, with the comments above it, and how far in it stands. A long
/// paragraph is several, none of them close to where another begins, or to an edit.
fn paragraphs(lines: &[Line], edit_below: bool) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let (Some(first), Some(last)) = (lines.first(), lines.last()) else { return found };
    let (mut since, end) = (first.span.start, last.span.end);
    for (at, line) in lines.iter().enumerate() {
        let start = line.span.start;
        let far = start - since >= CLOSE && (!edit_below || end - start >= CLOSE);
        let apart = at == 0 || lines[at - 1].kind == LineKind::Blank || far && lines[at - 1].kind != LineKind::Comment;
        if apart && let Some(indent) = statement(lines, at) {
            found.push((at, indent));
            since = start;
        }
    }
    found
}

/// How far in the statement stands that begins, with the comments above it, on a line.
fn statement(lines: &[Line], at: usize) -> Option<usize> {
    let comments = lines[at..].iter().take_while(|line| line.kind == LineKind::Comment).count();
    let statement = lines.get(at + comments).filter(|line| line.kind == LineKind::Statement)?;
    let flush = lines[at..at + comments].iter().all(|line| line.indent == statement.indent);
    // A line that only leads to the next statement belongs to it, blank lines or not.
    let led = lines[..at].iter().rev().find(|line| line.kind != LineKind::Blank).is_some_and(|line| line.leads);
    (flush && !led).then_some(statement.indent)
}
