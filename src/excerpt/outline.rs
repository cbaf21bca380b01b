//! What the lines of a file tell of its statements, without a parse: where one begins, and how far in it stands.
//!
//! Reads strings, comments and brackets and nothing else (for Python: The Python Language Reference 2.1, "Line
//! structure", and 2.4.1, "String and Bytes literals").

use std::ops::Range;

use crate::grammar::{Outline, stands_alone};

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LineKind {
    /// White space.
    Blank,
    /// Nothing but a comment.
    Comment,
    /// The first line of a statement.
    Statement,
    /// The first line of a part of the statement above, such as `else:`.
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

/// Cuts a text into lines. Nothing, if it is indented with anything but spaces, or does not end outside of all
/// strings and brackets.
pub(super) fn lines(text: &[u8], rules: &Outline) -> Option<Vec<Line>> {
    let mut lines = Vec::with_capacity(text.len() / 24);
    let telling = telling(rules);
    let mut depth = 0usize;
    // What ends the string that a line begins in.
    let mut open: Option<&[u8]> = None;
    let mut joined = false;
    let mut at = 0;
    while at < text.len() {
        let start = at;
        let first = start + text[start..].iter().take_while(|b| **b == b' ').count();
        let rest = &text[first..];
        let outside = open.is_none() && depth == 0 && !joined;
        let kind = match rest.first() {
            _ if !outside => LineKind::Inside,
            None | Some(b'\n') => LineKind::Blank,
            Some(b'\r') if rest.get(1) == Some(&b'\n') => LineKind::Blank,
            Some(b'\t' | b'\x0c' | b'\r') => return None,
            _ if rest.starts_with(rules.comment.as_bytes()) => LineKind::Comment,
            _ if rules.clauses.iter().any(|word| begins_with(rest, word.as_bytes())) => LineKind::Clause,
            _ => LineKind::Statement,
        };
        let leads = kind == LineKind::Statement && rules.leads.iter().any(|sign| rest.starts_with(sign.as_bytes()));
        joined = false;
        at = first;
        loop {
            at += text[at..].iter().position(|b| telling[usize::from(*b)]).unwrap_or(text.len() - at);
            let Some(byte) = text.get(at).copied() else { break };
            at += 1;
            if byte == b'\n' {
                // A string of one line ends with it, closed or not.
                if open.is_some_and(|close| close.len() == 1) {
                    open = None;
                }
                break;
            }
            if byte == b'\\' {
                // Whatever it is, it is not what it would be by itself; at the end of a line, that goes on.
                if text[at..].starts_with(b"\r\n") {
                    at += 1;
                }
                if text.get(at) == Some(&b'\n') {
                    joined = true;
                    at += 1;
                    break;
                }
                at += 1;
            } else if let Some(close) = open {
                if byte == close[0] && text[at - 1..].starts_with(close) {
                    at += close.len() - 1;
                    open = None;
                }
            } else {
                let begins = |sign: &String| text[at - 1..].starts_with(sign.as_bytes());
                match byte {
                    b'(' | b'[' | b'{' => depth += 1,
                    b')' | b']' | b'}' => depth = depth.checked_sub(1)?,
                    _ if begins(&rules.comment) => {
                        at += text[at..].iter().position(|b| *b == b'\n').unwrap_or(text.len() - at);
                    }
                    _ => {
                        if let Some(sign) = rules.strings.iter().find(|sign| begins(sign)) {
                            at += sign.len() - 1;
                            open = Some(sign.as_bytes());
                        }
                    }
                }
            }
        }
        lines.push(Line { span: start..at.min(text.len()), indent: first - start, kind, leads });
    }
    (open.is_none() && depth == 0 && !joined).then_some(lines)
}

/// Which bytes may begin or end something.
fn telling(rules: &Outline) -> [bool; 256] {
    let mut telling = [false; 256];
    let first = |sign: &String| sign.as_bytes().first().copied();
    let signs = rules.strings.iter().chain([&rules.comment]).filter_map(first);
    b"\n\\()[]{}".iter().copied().chain(signs).for_each(|byte| telling[usize::from(byte)] = true);
    telling
}

/// Whether a text begins with a word.
fn begins_with(text: &[u8], word: &[u8]) -> bool {
    text.starts_with(word) && stands_alone(text, 0..word.len())
}
