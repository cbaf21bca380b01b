//! From the stream to whole lines with conflict blocks in git's form.

use std::ops::Range;

use super::Page;
use super::segments::Segment;
use crate::line::{self, CRUMB, LineSettings, Style};
use crate::syntax::Tree;
use crate::{Combined, Versions};

/// Turns the stream into the answer.
pub(super) fn page(segments: Vec<Segment>, trees: &Versions<Tree<'_>>, settings: &LineSettings) -> Page {
    let mut writer = Writer {
        text: Vec::new(),
        pending: None,
        unborn: Vec::new(),
        tail: Vec::new(),
        blocks: Vec::new(),
        counted: (0, 0),
        combined: Vec::new(),
        waiting: Vec::new(),
        settings,
        newline: line::newline_of(trees.as_ref().map(|tree| tree.source)),
    };
    let mut begun = Vec::new();
    for segment in segments {
        match segment {
            Segment::Combined { what, why } => begun.push((what, why)),
            Segment::Text(text) => {
                // A place begins where its text does, not with the lines left blank before it.
                let blank = text.len() - text.trim_ascii_start().len();
                writer.text(&text[..blank]);
                if blank < text.len() {
                    begun.drain(..).for_each(|(what, why)| writer.combined(what, why));
                    writer.text(&text[blank..]);
                }
            }
            Segment::Choice { sides, born } => {
                begun.drain(..).for_each(|(what, why)| writer.combined(what, why));
                writer.choice(sides, born);
            }
        }
    }
    let tail = std::mem::take(&mut writer.tail);
    writer.flush(b"");
    writer.text.extend(tail);
    let Writer { text, combined, blocks, .. } = writer;
    Page { text, conflicts: blocks.len(), combined, blocks, ..Page::default() }
}

struct Writer<'w> {
    text: Vec<u8>,
    /// A block being gathered: whole lines that read differently on each side.
    pending: Option<Versions<Vec<u8>>>,
    /// The lines of base in it that base does not have.
    unborn: Vec<usize>,
    /// The agreed beginning of the line after the block: perhaps that line is disputed too.
    tail: Vec<u8>,
    /// Where the blocks of `text` are, and what stands there for either side.
    blocks: Vec<(Range<usize>, [Vec<u8>; 2])>,
    /// Up to where line endings of `text` were counted, and how many there were.
    counted: (usize, usize),
    combined: Vec<Combined>,
    /// What was combined since the block began, each with how many lines of ours came before it there.
    waiting: Vec<(usize, Combined)>,
    settings: &'w LineSettings,
    newline: &'static [u8],
}

impl Writer<'_> {
    fn text(&mut self, text: &[u8]) {
        let Some(pending) = &mut self.pending else {
            self.text.extend_from_slice(text);
            return;
        };
        let mut text = text;
        let whole = |t: &Vec<u8>| t.is_empty() || t.ends_with(b"\n");
        if !(whole(&pending.ours) && whole(&pending.theirs) && whole(&pending.base)) {
            // The block's last line goes on to the end of this line.
            let until = text.iter().position(|b| *b == b'\n').map_or(text.len(), |p| p + 1);
            for side in [&mut pending.base, &mut pending.ours, &mut pending.theirs] {
                side.extend_from_slice(&text[..until]);
            }
            text = &text[until..];
        }
        self.tail.extend_from_slice(text);
        if self.tail.contains(&b'\n') {
            let tail = std::mem::take(&mut self.tail);
            let taken = self.flush(&tail);
            self.text.extend_from_slice(&tail[taken..]);
        }
    }

    fn choice(&mut self, sides: Versions<Vec<u8>>, born: bool) {
        let tail = std::mem::take(&mut self.tail);
        let pending = self.pending.get_or_insert_with(|| {
            // The block begins with the line the choice stands on.
            let start = self.text.iter().rposition(|b| *b == b'\n').map_or(0, |p| p + 1);
            let line = self.text.split_off(start);
            self.counted.0 = self.counted.0.min(self.text.len());
            Versions { base: line.clone(), ours: line.clone(), theirs: line }
        });
        for (side, text) in
            [(&mut pending.base, sides.base), (&mut pending.ours, sides.ours), (&mut pending.theirs, sides.theirs)]
        {
            side.extend_from_slice(&tail);
            side.extend(text);
        }
        if !born {
            self.unborn.push(newlines(&pending.base));
        }
    }

    /// Notes what was combined where the text has come to.
    fn combined(&mut self, what: String, why: &'static str) {
        let place = Combined { line: self.line(), what, why: why.to_owned() };
        match &self.pending {
            None => self.combined.push(place),
            Some(pending) => self.waiting.push((newlines(&pending.ours) + newlines(&self.tail), place)),
        }
    }

    /// The line that the text has come to, from 1.
    fn line(&mut self) -> usize {
        self.counted.1 += newlines(&self.text[self.counted.0..]);
        self.counted.0 = self.text.len();
        self.counted.1 + 1
    }

    /// Writes the gathered block, which `next` follows. Answers how much of `next` went into it.
    fn flush(&mut self, next: &[u8]) -> usize {
        let Some(mut block) = self.pending.take() else { return 0 };
        let unborn = std::mem::take(&mut self.unborn);
        if !unborn.is_empty() {
            let lines = line::lines(&block.base).into_iter().enumerate();
            block.base = lines.filter(|(i, _)| !unborn.contains(i)).flat_map(|(_, line)| line).copied().collect();
        }
        let mut taken = 0;
        if block.ours.ends_with(b"\n") && block.theirs.ends_with(b"\n") {
            taken = blank_lines(next);
            for side in [&mut block.base, &mut block.ours, &mut block.theirs] {
                side.extend_from_slice(&next[..taken]);
            }
        }
        let lines = block.as_ref().map(|text| line::lines(text));
        let agreed = agreed(&lines);
        let Versions { base, ours, theirs } = lines;
        let base = base[agreed.start..base.len() - agreed.end].concat();
        let mut at = 0;
        for (o, t) in disputed(&block, &ours, &theirs, self.settings.style, agreed) {
            self.place(o.start, |line, below| line + below - at);
            self.text.extend(ours[at..o.start].concat());
            self.place(o.end, |line, _| line);
            self.block(&base, &ours[o.clone()].concat(), &theirs[t].concat());
            at = o.end;
        }
        self.place(usize::MAX, |line, below| line + below - at);
        self.text.extend(ours[at..].concat());
        taken
    }

    /// Gives those waiting that begin above a line of ours in the block their line, which `at` knows from the
    /// line that the text has come to and theirs in the block.
    fn place(&mut self, until: usize, at: impl Fn(usize, usize) -> usize) {
        let placed = self.waiting.iter().take_while(|(below, _)| *below < until).count();
        if placed == 0 {
            return;
        }
        let line = self.line();
        let placed = self.waiting.drain(..placed);
        self.combined.extend(placed.map(|(below, place)| Combined { line: at(line, below), ..place }));
    }

    fn block(&mut self, base: &[u8], ours: &[u8], theirs: &[u8]) {
        let start = self.text.len();
        line::write_conflict(&mut self.text, Versions { base, ours, theirs }, self.settings, self.newline);
        self.blocks.push((start..self.text.len(), [ours, theirs].map(<[u8]>::to_vec)));
    }
}

/// How many lines at its start and at its end.
#[derive(Clone, Copy)]
struct Ends {
    start: usize,
    end: usize,
}

/// The lines that all versions of a gathered block begin and end with.
fn agreed(lines: &Versions<Vec<&[u8]>>) -> Ends {
    let Versions { base, ours, theirs } = lines;
    let shortest = base.len().min(ours.len()).min(theirs.len());
    let start = (0..shortest).take_while(|i| base[*i] == ours[*i] && base[*i] == theirs[*i]).count();
    let ends = base.iter().rev().zip(ours.iter().rev()).zip(theirs.iter().rev()).take(shortest - start);
    Ends { start, end: ends.take_while(|((base, ours), theirs)| base == ours && base == theirs).count() }
}

/// The lines of ours and of theirs in a gathered block that a person has to choose between.
fn disputed(
    block: &Versions<Vec<u8>>,
    ours: &[&[u8]],
    theirs: &[&[u8]],
    style: Style,
    agreed: Ends,
) -> Vec<(Range<usize>, Range<usize>)> {
    if style == Style::Diff3 && block.ours != block.theirs {
        let within = |lines: &[&[u8]]| agreed.start..lines.len() - agreed.end;
        return vec![(within(ours), within(theirs))];
    }
    let mut hunks = line::hunks(&block.ours, &block.theirs, line::Algorithm::Myers);
    if style == Style::ZDiff3
        && let (Some(first), Some(last)) = (hunks.first().cloned(), hunks.last().cloned())
    {
        // The base text belongs to one block: only the ends are taken off.
        hunks = vec![(first.0.start..last.0.end, first.1.start..last.1.end)];
    }
    let mut joined: Vec<(Range<usize>, Range<usize>)> = Vec::new();
    for (o, t) in hunks {
        match joined.last_mut() {
            Some((lo, lt)) if o.start - lo.end <= CRUMB => {
                lo.end = o.end;
                lt.end = t.end;
            }
            _ => joined.push((o, t)),
        }
    }
    for hunk in &mut joined {
        trim(hunk, ours, theirs);
        slide(hunk, ours, theirs);
    }
    joined
}

/// Takes off a hunk the lines that both sides begin and end with, which those that were joined may have in common.
fn trim((o, t): &mut (Range<usize>, Range<usize>), ours: &[&[u8]], theirs: &[&[u8]]) {
    let start = ours[o.clone()].iter().zip(&theirs[t.clone()]).take_while(|(x, y)| x == y).count();
    (o.start, t.start) = (o.start + start, t.start + start);
    let ends = ours[o.clone()].iter().rev().zip(theirs[t.clone()].iter().rev());
    let end = ends.take_while(|(x, y)| x == y).count();
    (o.end, t.end) = (o.end - end, t.end - end);
}

/// Moves a hunk that only one side fills past blank lines at its start, if as many follow it: a block
/// begins with what it is about.
fn slide(hunk: &mut (Range<usize>, Range<usize>), ours: &[&[u8]], theirs: &[&[u8]]) {
    let (empty, full, lines) = match (hunk.0.is_empty(), hunk.1.is_empty()) {
        (true, false) => (&mut hunk.0, &mut hunk.1, theirs),
        (false, true) => (&mut hunk.1, &mut hunk.0, ours),
        _ => return,
    };
    let blank = |line: &[u8]| line.iter().all(u8::is_ascii_whitespace);
    while full.end < lines.len() && blank(lines[full.start]) && lines[full.start] == lines[full.end] {
        *full = full.start + 1..full.end + 1;
        *empty = empty.start + 1..empty.end + 1;
    }
}

/// The blank lines at the start of a text.
fn blank_lines(text: &[u8]) -> usize {
    text.split_inclusive(|b| *b == b'\n').take_while(|l| matches!(l, [b'\n'] | [b'\r', b'\n'])).map(<[u8]>::len).sum()
}

pub(super) fn newlines(text: &[u8]) -> usize {
    text.iter().filter(|b| **b == b'\n').count()
}
