//! Which statements can be left out.

use std::ops::Range;

use super::outline::{Line, LineKind};
use super::{PART, Touch};
use crate::grammar::Head;
use crate::grammar::Outline;

/// A run of fewer bytes is not worth its line.
const SHORT: usize = 120;
/// So many bytes are no long paragraph.
const CLOSE: usize = 400;

/// The runs of lines that can be left out of lines that nobody edited: whole statements, from one that a blank line
/// stands before, up to the blank line before another, or parts of a long paragraph. Beside an edit, one such paragraph
/// stays, and so does a statement that both sides changed: each may have put the same thing into it.
pub(super) fn runs(lines: &[Line], touches: &[Touch], edit_above: bool, edit_below: bool) -> Vec<Range<usize>> {
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
            let stays = (paragraphs[k].0..until).any(|at| {
                let first =
                    lines[at].kind == LineKind::Statement && lines[at].indent == indent && !is_led_to(lines, at);
                let before = if first { [false; 2] } else { by };
                let touch = &touches[at];
                by = [before[0] | touch.by[0], before[1] | touch.by[1]];
                by == [true; 2] || touch.stays
            });
            if stays {
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

/// A part of a run of whole statements.
pub(super) struct Part {
    /// Its bytes, from the start of the run.
    pub bytes: Range<usize>,
    /// Whether it begins in a statement, with one that stands in it.
    pub inside: bool,
    /// Whether it ends in such a one.
    pub open: bool,
}

/// Parts of a fair size that a run can be read in: some statements each, or some of those in a long one that gives
/// something a name. Others, such as `try:`, are whole only with all that they hold.
pub(super) fn parts(run: &[Line], text: &[u8], rules: &Outline) -> Vec<Part> {
    let start = run[0].span.start;
    let at = |line: usize| run.get(line).map_or(run[run.len() - 1].span.end, |line| line.span.start) - start;
    // Where they begin, and whether in a statement.
    let mut cuts = vec![(0, false)];
    let far = |cuts: &[(usize, bool)], line: usize| at(line) >= cuts[cuts.len() - 1].0 + PART / 2;
    let outer = statements(run, 0..run.len(), run[0].indent);
    for (i, first) in outer.iter().copied().enumerate() {
        let statement = first..outer.get(i + 1).copied().unwrap_or(run.len());
        if first > 0 && (far(&cuts, first) || cuts[cuts.len() - 1].1) {
            cuts.push((at(first), false));
        }
        if at(statement.end) - at(first) < 2 * PART {
            continue;
        }
        let head = run[statement.clone()].iter().find(|line| line.kind == LineKind::Statement && !line.leads);
        let named = head.is_some_and(|line| Head::of(&text[line.span.clone()], rules).names);
        let deeper = |line: &&Line| line.kind == LineKind::Statement && line.indent > run[0].indent;
        if named && let Some(inner) = run[statement.clone()].iter().find(deeper) {
            for line in statements(run, statement, inner.indent) {
                if far(&cuts, line) {
                    cuts.push((at(line), true));
                }
            }
        }
    }
    let ends = cuts.iter().skip(1).copied().chain([(at(run.len()), false)]);
    let part = |((start, inside), (end, open)): (&(usize, bool), _)| Part { bytes: *start..end, inside: *inside, open };
    cuts.iter().zip(ends).map(part).collect()
}

/// Where statements begin that stand so far in.
fn statements(lines: &[Line], within: Range<usize>, indent: usize) -> Vec<usize> {
    let mut led = false;
    let mut found = Vec::new();
    for at in within {
        let line = &lines[at];
        if line.kind == LineKind::Statement {
            if line.indent == indent && !led {
                found.push(at);
            }
            led = line.leads;
        }
    }
    found
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
    (flush && !is_led_to(lines, at)).then_some(statement.indent)
}

/// Whether the statement on a line, or the comments above it, belong to a line above that only leads to the next
/// statement, blank lines or not.
fn is_led_to(lines: &[Line], at: usize) -> bool {
    lines[..at].iter().rev().find(|line| line.kind != LineKind::Blank).is_some_and(|line| line.leads)
}
