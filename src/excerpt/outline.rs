//! What the lines of a file tell of its statements, without a parse: where one begins, and how far in it stands.
//!
//! Reads strings, comments and brackets and nothing else (for Python: The Python Language Reference 2.1, "Line
//! structure", and 2.4.1, "String and Bytes literals"; for Rust: The Rust Reference, "Comments" and "Tokens").

use std::ops::Range;

use crate::grammar::{Head, Outline, Signs, is_word, stands_alone};

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LineKind {
    /// White space.
    Blank,
    /// Nothing but a comment.
    Comment,
    /// The first line of a statement.
    Statement,
    /// The first line of a part of the statement above, such as `else:`, or its end.
    Clause,
    /// It goes on with what the line above began: a string, a bracket, a statement.
    Inside,
}

/// One line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// Its bytes, with its newline.
    pub span: Range<usize>,
    /// How much white space it begins with, in bytes.
    pub indent: usize,
    /// What it is.
    pub kind: LineKind,
    /// Whether it belongs to the statement below.
    pub leads: bool,
}

/// Cuts a text into lines. Nothing, if it is indented with anything but spaces, or in another way than its statements
/// stand in one another, or does not end outside of all strings and brackets.
pub(super) fn lines(text: &[u8], rules: &Outline) -> Option<Vec<Line>> {
    let mut reader = Reader::new(text, rules);
    let mut lines = Vec::with_capacity(text.len() / 24);
    while reader.at < text.len() {
        lines.push(reader.line()?);
    }
    reader.is_done().then_some(lines)
}

/// What a place of the text is in.
#[derive(Clone, Copy)]
enum Within<'r> {
    Code,
    /// A string: what ends it and how many guards follow that, and whether it ends with the line in any case.
    String {
        close: &'r [u8],
        guards: Option<usize>,
        short: bool,
    },
    /// So many comments in one another.
    Comment(usize),
}

struct Reader<'t, 'r> {
    text: &'t [u8],
    rules: &'r Outline,
    /// Which bytes may begin or end something.
    telling: [bool; 256],
    at: usize,
    within: Within<'r>,
    /// How many brackets are open, but for those that statements stand in.
    depth: usize,
    /// Whether the line above goes on.
    joined: bool,
    /// Where signs end statements: how far in those stand that hold the next.
    holders: Vec<usize>,
    /// Whether the last statement is whole.
    ended: bool,
    /// Of the last statement: how far in it stands, whether it belongs to the next, whether statements may stand in it.
    indent: usize,
    leads: bool,
    holds: bool,
}

impl<'t, 'r> Reader<'t, 'r> {
    fn new(text: &'t [u8], rules: &'r Outline) -> Reader<'t, 'r> {
        Reader {
            text,
            rules,
            telling: telling(rules),
            at: 0,
            within: Within::Code,
            depth: 0,
            joined: false,
            holders: Vec::new(),
            ended: true,
            indent: 0,
            leads: false,
            holds: false,
        }
    }

    fn is_outside(&self) -> bool {
        matches!(self.within, Within::Code) && self.depth == 0 && !self.joined
    }

    fn is_done(&self) -> bool {
        self.is_outside() && self.holders.is_empty()
    }

    fn line(&mut self) -> Option<Line> {
        let start = self.at;
        let first = start + self.text[start..].iter().take_while(|b| **b == b' ').count();
        let indent = first - start;
        let remarks = match self.within {
            Within::Comment(_) => true,
            _ => self.signs().is_some_and(|signs| self.text[first..].starts_with(signs.comment[0].as_bytes())),
        };
        let kind = if self.is_outside() { self.kind(first, indent)? } else { LineKind::Inside };
        self.joined = false;
        self.at = first;
        let closes = kind == LineKind::Clause && self.text[first] == b'}';
        if closes {
            self.at += 1;
        }
        let opened = self.holders.len();
        let code_end = self.end_line()?;
        if let Some(signs) = &self.rules.signs
            && !matches!(kind, LineKind::Blank | LineKind::Comment)
            && !remarks
        {
            let last = self.text[first..code_end.max(first)].trim_ascii_end().last();
            let is_last = |sign: &String| last == sign.as_bytes().last();
            self.ended =
                self.holders.len() > opened || signs.ends.iter().any(is_last) || self.leads && last == Some(&b']');
        }
        Some(Line { span: start..self.at, indent, kind, leads: kind != LineKind::Blank && self.leads })
    }

    /// What a line is that begins outside of everything.
    fn kind(&mut self, first: usize, indent: usize) -> Option<LineKind> {
        let (rest, rules) = (&self.text[first..], self.rules);
        let begins_with = |sign: &String| rest.starts_with(sign.as_bytes());
        let kind = match rest.first() {
            None | Some(b'\n') => return Some(LineKind::Blank),
            Some(b'\r') if rest.get(1) == Some(&b'\n') => return Some(LineKind::Blank),
            Some(b'\t' | b'\x0c' | b'\r') => return None,
            _ if begins_with(&rules.comment) => return Some(LineKind::Comment),
            Some(b'}') => {
                // What it holds ends where it began.
                self.leads = false;
                return (self.holders.pop()? == indent).then_some(LineKind::Clause);
            }
            _ if rules.clauses.iter().any(|word| begins_with(word) && stands_alone(rest, 0..word.len())) => {
                LineKind::Clause
            }
            Some(byte) => {
                let leads = rules.leads.iter().any(begins_with);
                if rules.signs.is_some() && !(self.ended && (leads || is_word(*byte))) {
                    return Some(LineKind::Inside);
                }
                let line = rest.split(|b| *b == b'\n').next().unwrap_or_default();
                (self.indent, self.leads) = (indent, leads);
                self.holds = rules.signs.is_some() && Head::of(line, rules).holds;
                LineKind::Statement
            }
        };
        let right = rules.signs.is_none() || self.holders.last().map_or(indent == 0, |outer| indent > *outer);
        right.then_some(kind)
    }

    /// Goes to the next line, and tells where the code of this one ends.
    fn end_line(&mut self) -> Option<usize> {
        let (text, rules) = (self.text, self.rules);
        let mut code_end = None;
        loop {
            let next = text[self.at..].iter().position(|b| self.telling[usize::from(*b)]);
            self.at += next.unwrap_or(text.len() - self.at);
            let Some(byte) = text.get(self.at).copied() else { break };
            let here = self.at;
            self.at += 1;
            if byte == b'\n' {
                if matches!(self.within, Within::String { short: true, .. }) {
                    self.within = Within::Code;
                }
                return Some(code_end.unwrap_or(here));
            }
            match self.within {
                Within::String { guards: None, .. } | Within::Code if byte == b'\\' => {
                    // Whatever follows, it is not what it would be by itself; at the end of a line, that goes on.
                    if text[self.at..].starts_with(b"\r\n") {
                        self.at += 1;
                    }
                    self.joined = text.get(self.at) == Some(&b'\n');
                    self.at = text.len().min(self.at + 1);
                    if self.joined {
                        return Some(here);
                    }
                }
                Within::String { close, guards, .. } => {
                    let end = here + close.len();
                    let guards = guards.unwrap_or(0);
                    if text[here..].starts_with(close) && self.guards(&text[end..]) >= guards {
                        self.at = end + guards;
                        self.within = Within::Code;
                    }
                }
                Within::Comment(depth) => self.in_comment(here, depth),
                Within::Code => match byte {
                    b'(' | b'[' => self.depth += 1,
                    b'{' if self.depth == 0 && self.holds && self.is_last(self.at) => {
                        self.holders.push(self.indent);
                        self.holds = false;
                    }
                    b'{' => self.depth += 1,
                    b')' | b']' | b'}' => self.depth = self.depth.checked_sub(1)?,
                    _ if text[here..].starts_with(rules.comment.as_bytes()) => {
                        code_end = Some(here);
                        self.at += text[self.at..].iter().position(|b| *b == b'\n').unwrap_or(text.len() - self.at);
                    }
                    _ => self.begins(here, byte)?,
                },
            }
        }
        Some(code_end.unwrap_or(text.len()))
    }

    /// Goes on from a sign in a comment that stands in others.
    fn in_comment(&mut self, here: usize, depth: usize) {
        let Some([open, close]) = self.signs().map(|signs| &signs.comment) else { return };
        let begins = |sign: &str| self.text[here..].starts_with(sign.as_bytes());
        if begins(close) {
            self.at = here + close.len();
            self.within = if depth > 1 { Within::Comment(depth - 1) } else { Within::Code };
        } else if begins(open) {
            self.at = here + open.len();
            self.within = Within::Comment(depth + 1);
        }
    }

    /// Goes on from a sign in code that may begin a string, a character or a comment.
    fn begins(&mut self, here: usize, byte: u8) -> Option<()> {
        let (text, rules) = (self.text, self.rules);
        let begins = |sign: &&String| text[here..].starts_with(sign.as_bytes());
        if let Some(sign) = rules.strings.iter().find(begins) {
            self.at = here + sign.len();
            self.within = Within::String { close: sign.as_bytes(), guards: self.raw(here), short: false };
        } else if let Some(sign) = rules.short_strings.iter().find(begins) {
            self.at = here + sign.len();
            self.within = Within::String { close: sign.as_bytes(), guards: None, short: true };
        } else if let Some(signs) = self.signs() {
            if text[here..].starts_with(signs.comment[0].as_bytes()) {
                self.at = here + signs.comment[0].len();
                self.within = Within::Comment(1);
            } else if signs.character.as_bytes() == [byte] {
                self.at += character(&text[self.at..], byte)?;
            }
        }
        Some(())
    }

    fn signs(&self) -> Option<&'r Signs> {
        self.rules.signs.as_ref()
    }

    /// How many guards a text begins with.
    fn guards(&self, text: &[u8]) -> usize {
        let guard = self.signs().and_then(|signs| signs.guard.bytes().next());
        text.iter().take_while(|b| Some(**b) == guard).count()
    }

    /// How many guards stand before the sign of a string in which a backslash means itself.
    fn raw(&self, sign: usize) -> Option<usize> {
        let signs = self.signs()?;
        let before = &self.text[..sign];
        let guards = before.iter().rev().take_while(|b| signs.guard.as_bytes() == [**b]).count();
        let word = &before[..sign - guards];
        let start = word.iter().rposition(|b| !is_word(*b)).map_or(0, |at| at + 1);
        signs.raw.iter().any(|raw| raw.as_bytes() == &word[start..]).then_some(guards)
    }

    /// Whether there is no more than a comment from here to the end of the line.
    fn is_last(&self, at: usize) -> bool {
        let line = self.text[at..].split(|b| *b == b'\n').next().unwrap_or_default().trim_ascii();
        line.is_empty() || self.rules.is_comment(line)
    }
}

/// How long the rest of a character is, behind its first quote; nothing, if that quote stands alone: it names a
/// lifetime.
fn character(text: &[u8], quote: u8) -> Option<usize> {
    let first = *text.first()?;
    if first == b'\\' {
        // What follows the backslash is no end.
        let close = text.iter().skip(2).take_while(|b| **b != b'\n').position(|b| *b == quote)?;
        return Some(close + 3);
    }
    let length = match first {
        b'\n' => return Some(0),
        _ if first < 0x80 => 1,
        _ if first < 0xe0 => 2,
        _ if first < 0xf0 => 3,
        _ => 4,
    };
    Some(if text.get(length) == Some(&quote) { length + 1 } else { 0 })
}

/// Which bytes may begin or end something.
fn telling(rules: &Outline) -> [bool; 256] {
    let mut telling = [false; 256];
    let strings = rules.strings.iter().chain(&rules.short_strings);
    let signs = rules.signs.iter().flat_map(|signs| signs.comment.iter().chain([&signs.character]));
    let first = |sign: &String| sign.as_bytes().first().copied();
    let signs = strings.chain([&rules.comment]).chain(signs).filter_map(first);
    b"\n\\()[]{}".iter().copied().chain(signs).for_each(|byte| telling[usize::from(byte)] = true);
    telling
}
