//! The stream that rendering writes: agreed text and places with a choice.

use crate::Versions;

/// One stretch of output.
#[derive(Clone, Debug)]
pub(super) enum Segment {
    /// Agreed text.
    Text(Vec<u8>),
    /// Text that depends on which side is kept.
    Choice {
        /// What each version reads here.
        sides: Versions<Vec<u8>>,
        /// Whether base has the line that it begins on; if not, base reads nothing there.
        born: bool,
    },
    /// Here begins a place where changes of both sides were put together.
    Combined {
        /// What it is.
        what: String,
        /// The rule that allows it.
        why: &'static str,
    },
}

/// Where in a stream a combined place begins.
pub(super) struct Noted(usize);

/// An output stream that knows how its current line begins.
#[derive(Clone, Debug, Default)]
pub(super) struct Stream {
    pub segments: Vec<Segment>,
    /// The white space the current line consists of so far; `None` once there is more on it.
    margin: Option<Vec<u8>>,
    started: bool,
}

impl Stream {
    /// A stream that goes on where `self` is.
    pub(super) fn fork(&self) -> Stream {
        Stream { segments: Vec::new(), margin: self.margin.clone(), started: self.started }
    }

    pub(super) fn push(&mut self, text: &[u8]) {
        if text.is_empty() {
            return;
        }
        self.advance(text);
        match self.segments.last_mut() {
            Some(Segment::Text(last)) => last.extend_from_slice(text),
            _ => self.segments.push(Segment::Text(text.to_vec())),
        }
    }

    pub(super) fn choose(&mut self, sides: Versions<Vec<u8>>, born: bool) {
        if sides.ours == sides.theirs {
            self.push(&sides.ours);
            return;
        }
        let longest = [&sides.ours, &sides.theirs].into_iter().find(|s| !s.is_empty()).cloned().unwrap_or_default();
        self.advance(&longest);
        self.segments.push(Segment::Choice { sides, born });
    }

    /// Marks the beginning of a combined place. What it is can be said when it has been written.
    pub(super) fn note(&mut self, why: &'static str) -> Noted {
        self.segments.push(Segment::Combined { what: String::new(), why });
        Noted(self.segments.len() - 1)
    }

    /// Has a place begin here instead, if nothing but agreed text was written since. Answers whether it does.
    pub(super) fn put_off(&mut self, place: &mut Noted) -> bool {
        let agreed = self.segments[place.0 + 1..].iter().all(|s| matches!(s, Segment::Text(_)));
        if agreed {
            let note = self.segments.remove(place.0);
            self.segments.push(note);
            place.0 = self.segments.len() - 1;
        }
        agreed
    }

    /// What the line that a place begins on holds before it, as ours reads it where there is a choice; nothing if that
    /// is more than `most` bytes.
    pub(super) fn line_before(&self, place: &Noted, most: usize) -> Vec<u8> {
        let mut parts = Vec::new();
        let mut len = 0;
        for segment in self.segments[..place.0].iter().rev() {
            let text = match segment {
                Segment::Text(text) => text,
                Segment::Choice { sides, .. } => &sides.ours,
                Segment::Combined { .. } => continue,
            };
            let newline = text.iter().rev().take(most + 1 - len).position(|b| *b == b'\n');
            let part = &text[newline.map_or(0, |below| text.len() - below)..];
            len += part.len();
            if len > most {
                return Vec::new();
            }
            parts.push(part);
            if newline.is_some() {
                break;
            }
        }
        parts.reverse();
        parts.concat()
    }

    /// About the first `enough` bytes of a place that has been written, or all of it; as ours reads it
    /// where there is a choice.
    pub(super) fn beginning(&self, place: &Noted, enough: usize) -> Vec<u8> {
        let mut beginning = Vec::new();
        for segment in &self.segments[place.0 + 1..] {
            let text = match segment {
                Segment::Text(text) => text,
                Segment::Choice { sides, .. } => &sides.ours,
                Segment::Combined { .. } => continue,
            };
            // Places may stand within each other on one long line.
            beginning.extend_from_slice(&text[..text.len().min(enough)]);
            if beginning.len() >= enough {
                break;
            }
        }
        beginning
    }

    /// Says what a combined place is.
    pub(super) fn describe(&mut self, place: &Noted, words: String) {
        if let Some(Segment::Combined { what, .. }) = self.segments.get_mut(place.0) {
            *what = words;
        }
    }

    fn advance(&mut self, text: &[u8]) {
        let blank = |t: &[u8]| t.iter().all(|b| matches!(b, b' ' | b'\t' | b'\x0c'));
        match text.iter().rposition(|b| *b == b'\n') {
            Some(p) => self.margin = blank(&text[p + 1..]).then(|| text[p + 1..].to_vec()),
            None if !self.started => self.margin = blank(text).then(|| text.to_vec()),
            None => match &mut self.margin {
                Some(margin) if blank(text) => margin.extend_from_slice(text),
                margin => *margin = None,
            },
        }
        self.started = true;
    }

    /// The white space the current line consists of, if it consists of nothing else.
    pub(super) fn margin(&self) -> Option<&[u8]> {
        if self.started { self.margin.as_deref() } else { Some(b"") }
    }

    /// All of it as plain text, for one side of a choice.
    pub(super) fn into_text(self) -> Vec<u8> {
        let mut out = Vec::new();
        for segment in self.segments {
            match segment {
                Segment::Text(text) => out.extend(text),
                Segment::Choice { sides, .. } => out.extend(sides.ours),
                Segment::Combined { .. } => {}
            }
        }
        out
    }
}
