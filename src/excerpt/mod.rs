//! The parts of three versions that a merge has to look at.
//!
//! What lines leave over differs in few places. Statements that stand apart from all of them are the same in the
//! three versions and stay what they are, so they need not be parsed: each run of them is one line here, a name that
//! stands nowhere else, and is put back into the answer.

mod by_lines;
mod outline;
mod runs;
#[cfg(test)]
mod tests;

use std::ops::Range;

use gix::bstr::ByteSlice;

pub(crate) use self::by_lines::ByLines;
use self::outline::{Line, LineKind};
use self::runs::{Part, parts, runs};
use crate::edits::Place;
use crate::grammar::{Head, Outline, find_word};
use crate::layout::Page;
use crate::line;
use crate::{Version, Versions};

/// What the names begin with that stand for runs of statements; a number follows.
const NAME: &str = "pleach_left_out_";
/// So many bytes of what is left out are read at a time, if statements are not longer.
const PART: usize = 2048;
/// The share of a text that must be left out at least.
const WORTHWHILE: f32 = 0.25;

/// Three versions without the statements that no edit comes near.
pub(crate) struct Excerpt {
    pub texts: Versions<Vec<u8>>,
    /// Of ours itself.
    pub ours: Vec<u8>,
    /// Where the open edits are.
    pub open: Versions<Vec<Range<usize>>>,
    /// The bytes of those, and the lines around them.
    pub disputed: Versions<Vec<Range<usize>>>,
    rules: &'static Outline,
    newline: &'static str,
    left_out: Vec<LeftOut>,
}

/// A run of statements that is the same in all versions.
struct LeftOut {
    indent: usize,
    text: Vec<u8>,
    parts: Vec<Part>,
}

impl Excerpt {
    fn new(rules: &'static Outline, newline: &'static str) -> Excerpt {
        Excerpt {
            texts: Versions::default(),
            ours: Vec::new(),
            open: Versions::default(),
            disputed: Versions::default(),
            rules,
            newline,
            left_out: Vec::new(),
        }
    }

    /// An excerpt of three texts that are the same but for some edited places; of `ours` itself too. Nothing, if too
    /// little can be left out, or lines do not tell where statements begin.
    pub(crate) fn of(
        texts: Versions<&[u8]>,
        ours: &[u8],
        edited: &[Place],
        rules: &'static Outline,
    ) -> Option<Excerpt> {
        let newline = newline(&texts)?;
        let lines = Versions {
            base: outline::lines(texts.base, rules)?,
            ours: outline::lines(texts.ours, rules)?,
            theirs: outline::lines(texts.theirs, rules)?,
        };
        let mut excerpt = Excerpt::new(rules, newline);
        let (open, shut): (Vec<&Place>, Vec<&Place>) = edited.iter().partition(|place| place.open);
        let mut touches = touches(&lines.ours, &shut);
        keep_imports(texts.ours, &lines.ours, &mut touches, rules);
        for i in 0..=open.len() {
            // What stands before the place is the same in all versions.
            let same = Versions::each(|v| {
                let start = if i == 0 { 0 } else { open[i - 1].at.get(v).end };
                start..open.get(i).map_or(texts.get(v).len(), |place| place.at.get(v).start)
            });
            let of = |v: Version| &lines.get(v)[within(lines.get(v), same.get(v))];
            let read_alike = Version::ALL.into_iter().all(|v| alike(of(v), of(Version::Ours)));
            let goes_on = i < open.len() || !texts.ours.ends_with(b"\n");
            let runs = match read_alike {
                true => runs(of(Version::Ours), &touches[within(&lines.ours, &same.ours)], i > 0, goes_on),
                false => Vec::new(),
            };
            excerpt.keep_but(&runs, of(Version::Ours), (texts.ours, same.ours.clone()), ours, &shut);
            let Some(place) = open.get(i) else { continue };
            excerpt.ours.extend_from_slice(&ours[place.ours.clone()]);
            for v in Version::ALL {
                let (out, text) = (excerpt.texts.get_mut(v), &texts.get(v)[place.at.get(v).clone()]);
                excerpt.open.get_mut(v).push(out.len()..out.len() + text.len());
                out.extend_from_slice(text);
            }
        }
        // What is worthwhile must not depend on which side is ours (contract K2).
        if !(excerpt.is_worthwhile(texts.ours) && excerpt.is_worthwhile(texts.theirs)) {
            return None;
        }
        for v in Version::ALL {
            let text = excerpt.texts.get(v);
            *excerpt.disputed.get_mut(v) = excerpt.open.get(v).iter().map(|r| line::with_neighbours(text, r)).collect();
        }
        Some(excerpt)
    }

    /// Whether enough of a text is left out.
    fn is_worthwhile(&self, text: &[u8]) -> bool {
        let left_out: usize = self.left_out.iter().map(|run| run.text.len()).sum();
        left_out as f32 >= WORTHWHILE * text.len() as f32
    }

    /// Keeps some bytes of a text that all three share, but for runs of their `lines`; of ours itself, what it has
    /// there.
    fn keep_but(
        &mut self,
        runs: &[Range<usize>],
        lines: &[Line],
        (text, bytes): (&[u8], Range<usize>),
        ours: &[u8],
        shut: &[&Place],
    ) {
        let mut at = bytes.start;
        for run in runs {
            let (first, last) = (&lines[run.start], &lines[run.end - 1]);
            self.keep(text, at..first.span.start, ours, shut);
            let parts = parts(&lines[run.clone()], text, self.rules);
            let text = text[first.span.start..last.span.end].to_vec();
            self.stand_in(LeftOut { indent: first.indent, text, parts });
            at = last.span.end;
        }
        self.keep(text, at..bytes.end, ours, shut);
    }

    /// Keeps some bytes of a text that all three share; of ours itself, what it has there.
    fn keep(&mut self, text: &[u8], bytes: Range<usize>, ours: &[u8], shut: &[&Place]) {
        for version in Version::ALL {
            self.texts.get_mut(version).extend_from_slice(&text[bytes.clone()]);
        }
        let mut at = bytes.start;
        let first = shut.partition_point(|place| place.at.ours.start < bytes.start);
        for place in shut[first..].iter().take_while(|place| place.at.ours.end <= bytes.end) {
            self.ours.extend_from_slice(&text[at..place.at.ours.start]);
            self.ours.extend_from_slice(&ours[place.ours.clone()]);
            at = place.at.ours.end;
        }
        self.ours.extend_from_slice(&text[at..bytes.end]);
    }

    /// Leaves out a run of statements and puts a name in its place.
    fn stand_in(&mut self, run: LeftOut) {
        let name = self.name(run.indent, self.left_out.len());
        for out in [&mut self.texts.base, &mut self.texts.ours, &mut self.texts.theirs, &mut self.ours] {
            out.extend_from_slice(name.as_bytes());
        }
        self.left_out.push(run);
    }

    /// The line that stands for a run.
    fn name(&self, indent: usize, number: usize) -> String {
        format!("{:indent$}{NAME}{number}{}{}", "", self.rules.statement, self.newline)
    }

    /// All that was left out, as texts of whole statements.
    pub(crate) fn left_out(&self) -> Vec<Vec<u8>> {
        let [begin, end] = self.rules.block.each_ref().map(|line| [line.as_bytes(), b"\n"].concat());
        let mut texts: Vec<Vec<u8>> = Vec::new();
        for run in &self.left_out {
            for part in &run.parts {
                if texts.last().is_none_or(|last| last.len() + part.bytes.len() > PART) {
                    texts.push(Vec::with_capacity(PART));
                }
                let Some(last) = texts.last_mut() else { continue };
                let nested = run.indent > 0;
                let (before, after) =
                    (part.inside || nested, usize::from(part.open) + usize::from(nested && !part.inside));
                last.extend_from_slice(if before { &begin } else { b"" });
                last.extend_from_slice(&run.text[part.bytes.clone()]);
                last.extend_from_slice(&end.repeat(after));
            }
        }
        texts
    }

    /// Whether some names stand together on the first line of a statement of the run that a name stands for, none of
    /// those in other statements.
    pub(crate) fn holds(&self, name: &[u8], names: &[&[u8]]) -> bool {
        let number =
            name.strip_prefix(NAME.as_bytes()).and_then(|rest| rest.strip_suffix(self.rules.statement.as_bytes()));
        let Some(run) = number.and_then(|n| self.left_out.get(n.to_str().ok()?.parse::<usize>().ok()?)) else {
            return false;
        };
        let Some((name, others)) = names.split_first() else { return false };
        find_word(&run.text, name).any(|at| {
            let start = run.text[..at].rfind_byte(b'\n').map_or(0, |newline| newline + 1);
            let line = run.text[start..].lines().next().unwrap_or_default();
            let indent = line.iter().take_while(|b| **b == b' ').count();
            indent <= run.indent && others.iter().all(|name| find_word(line, name).next().is_some())
        })
    }

    /// A merge of the excerpt with all that was left out put back. Nothing, if it is not there once each.
    pub(crate) fn restored(&self, mut page: Page) -> Option<Page> {
        let mut text =
            Vec::with_capacity(page.text.len() + self.left_out.iter().map(|run| run.text.len()).sum::<usize>());
        // The lines of names in the page, and how many lines more stand there now.
        let mut grown: Vec<(usize, usize)> = Vec::with_capacity(self.left_out.len());
        for (number, line) in line::lines(&page.text).into_iter().enumerate() {
            let Some(at) = line.find(NAME) else {
                text.extend_from_slice(line);
                continue;
            };
            let run = self.left_out.get(grown.len())?;
            if at != run.indent || line != self.name(run.indent, grown.len()).as_bytes() {
                return None;
            }
            text.extend_from_slice(&run.text);
            grown.push((number + 1, line::lines(&run.text).len() - 1));
        }
        if grown.len() != self.left_out.len() {
            return None;
        }
        let mut more = 0;
        let mut next = grown.into_iter().peekable();
        let mut combined = std::mem::take(&mut page.combined);
        combined.sort_by_key(|place| place.line);
        for place in &mut combined {
            while let Some((_, lines)) = next.next_if(|(line, _)| *line < place.line) {
                more += lines;
            }
            place.line += more;
            place.what = self.named(&place.what);
        }
        Some(page.moved(text, combined))
    }

    /// A description of a place, with what a name in it stands for.
    fn named(&self, what: &str) -> String {
        let Some((before, after)) = what.split_once(NAME) else { return what.to_owned() };
        let digits = after.len() - after.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let run = after[..digits].parse().ok().and_then(|number: usize| self.left_out.get(number));
        let first = run.map_or(&b""[..], |run| run.text.lines().next().unwrap_or_default());
        let after = &after[digits..];
        let after = after.strip_prefix(&self.rules.statement).unwrap_or(after);
        format!("{before}{}{after}", String::from_utf8_lossy(first).trim())
    }
}

/// What ends the lines of all of some texts, if an excerpt can be made of them.
fn newline(texts: &Versions<&[u8]>) -> Option<&'static str> {
    let of = |text: &[u8]| {
        let carried = text.find_iter("\r\n").count();
        match carried {
            _ if text.find(NAME).is_some() => None,
            0 => Some("\n"),
            _ => (carried == text.find_iter("\n").count()).then_some("\r\n"),
        }
    };
    let newline = of(texts.ours)?;
    (of(texts.base)? == newline && of(texts.theirs)? == newline).then_some(newline)
}

/// Which lines begin in a range of bytes.
fn within(lines: &[Line], bytes: &Range<usize>) -> Range<usize> {
    let at = |offset: usize| lines.partition_point(|line| line.span.start < offset);
    at(bytes.start)..at(bytes.end)
}

/// What edits made of a line.
#[derive(Clone, Copy, Default)]
struct Touch {
    /// Whether ours, and whether theirs, changed it or something right beside it.
    by: [bool; 2],
    /// Whether its statement is not to be left out, whoever changed it.
    stays: bool,
}

/// What edits made of each line.
fn touches(lines: &[Line], shut: &[&Place]) -> Vec<Touch> {
    let mut touches = vec![Touch::default(); lines.len()];
    for place in shut {
        let Some(side) = place.by else { continue };
        let mut touched = within(lines, &place.at.ours);
        if touched.is_empty() {
            touched = touched.start.saturating_sub(1)..(touched.end + 1).min(lines.len());
        }
        touches[touched].iter_mut().for_each(|line| line.by[side as usize] = true);
    }
    touches
}

/// Has imports stay that a side changed: beside those that stand in an excerpt it must be seen which names they bring.
fn keep_imports(text: &[u8], lines: &[Line], touches: &mut [Touch], rules: &Outline) {
    let mut since = 0;
    let mut imports = false;
    for (at, line) in lines.iter().enumerate() {
        if line.kind == LineKind::Statement {
            (since, imports) = (at, Head::of(&text[line.span.clone()], rules).imports);
        }
        if imports && touches[at].by != [false; 2] {
            touches[since].stays = true;
        }
    }
}

/// Whether lines of the same text were read in the same way.
fn alike(a: &[Line], b: &[Line]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| a.kind == b.kind && a.indent == b.indent)
}
