//! A rough reading of source as tokens and statements, enough to edit it plausibly.

use std::ops::Range;

use super::Lang;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    Word,
    Number,
    Text,
    Comment,
    Sign,
}

#[derive(Clone, Debug)]
pub struct Tok {
    pub what: What,
    pub at: Range<usize>,
}

/// A statement: whole lines.
#[derive(Clone, Debug)]
pub struct Statement {
    pub lines: Range<usize>,
    /// Bytes of white space before it.
    pub indent: usize,
    /// Whether lines that are further in belong to it (`def f():`).
    pub opens: bool,
}

/// A text that was read.
pub struct Read {
    pub lang: Lang,
    pub text: String,
    pub toks: Vec<Tok>,
    /// The offset of each line, and the length of the text.
    pub starts: Vec<usize>,
    pub statements: Vec<Statement>,
}

impl Read {
    pub fn new(lang: Lang, text: String) -> Read {
        let toks = lex(lang, &text);
        let mut starts = vec![0];
        starts.extend(text.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i + 1));
        if *starts.last().unwrap() != text.len() {
            starts.push(text.len());
        }
        let mut read = Read { lang, text, toks, starts, statements: Vec::new() };
        read.statements = read.find_statements();
        read
    }

    pub fn str(&self, tok: &Tok) -> &str {
        &self.text[tok.at.clone()]
    }

    pub fn line_count(&self) -> usize {
        self.starts.len() - 1
    }

    pub fn line_at(&self, offset: usize) -> usize {
        self.starts.partition_point(|s| *s <= offset).saturating_sub(1).min(self.line_count().saturating_sub(1))
    }

    pub fn line(&self, n: usize) -> &str {
        &self.text[self.starts[n]..self.starts[n + 1]]
    }

    pub fn lines(&self, lines: Range<usize>) -> &str {
        &self.text[self.starts[lines.start]..self.starts[lines.end]]
    }

    pub fn bytes_of(&self, lines: &Range<usize>) -> Range<usize> {
        self.starts[lines.start]..self.starts[lines.end]
    }

    /// A statement with the lines further in that belong to it.
    pub fn suite(&self, index: usize) -> Range<usize> {
        let first = &self.statements[index];
        let mut lines = first.lines.clone();
        if first.opens {
            for next in &self.statements[index + 1..] {
                if next.indent <= first.indent {
                    break;
                }
                lines.end = next.lines.end;
            }
        }
        lines
    }

    /// Whether a block would be left without any statement if this one went, in a language in which none may be: The
    /// Python Language Reference, 8, "Compound statements".
    pub fn is_alone(&self, index: usize) -> bool {
        let indent = self.statements[index].indent;
        let beside = |others: &mut dyn Iterator<Item = &Statement>| {
            others.take_while(|other| other.indent >= indent).any(|other| other.indent == indent)
        };
        self.lang == Lang::Python
            && indent > 0
            && !beside(&mut self.statements[..index].iter().rev())
            && !beside(&mut self.statements[index + 1..].iter())
    }

    fn find_statements(&self) -> Vec<Statement> {
        let n = self.line_count();
        // By line: brackets open at its start, whether it starts inside a token, its first and last sign.
        let mut depth = vec![0i32; n + 1];
        let mut inside = vec![false; n + 1];
        let mut first: Vec<Option<&str>> = vec![None; n];
        let mut last: Vec<Option<&str>> = vec![None; n];
        let mut open = 0;
        let mut line = 0;
        for tok in &self.toks {
            while line < n && self.starts[line + 1] <= tok.at.start {
                line += 1;
                depth[line] = open;
            }
            let covered = self.starts[..n].iter().skip(line + 1).take_while(|start| **start < tok.at.end).count();
            inside.iter_mut().skip(line + 1).take(covered).for_each(|i| *i = true);
            if tok.what == What::Comment {
                continue;
            }
            match (tok.what, self.str(tok)) {
                (What::Sign, "(" | "[" | "{") => open += 1,
                (What::Sign, ")" | "]" | "}") => open -= 1,
                _ => {}
            }
            first[line].get_or_insert(self.str(tok));
            last[self.line_at(tok.at.end - 1)] = Some(self.str(tok));
        }
        for rest in &mut depth[line + 1..] {
            *rest = open;
        }
        let indent = |l: usize| self.line(l).len() - self.line(l).trim_start_matches([' ', '\t']).len();
        let ends = |l: usize| !inside[l + 1] && !self.line(l).trim_end().ends_with('\\');
        let mut found = Vec::new();
        let mut at = 0;
        let mut before = ";";
        while at < n {
            let Some(head) = first[at].filter(|_| !inside[at]) else {
                at += 1;
                continue;
            };
            let indent = indent(at);
            match self.lang {
                Lang::Python | Lang::Toml => {
                    let mut end = at;
                    while end < n && !(depth[end + 1] <= 0 && ends(end)) {
                        end += 1;
                    }
                    let end = (end + 1).min(n);
                    let opens = self.lang == Lang::Python && last[end - 1] == Some(":");
                    found.push(Statement { lines: at..end, indent, opens });
                    at = end;
                }
                Lang::Rust => {
                    if !matches!(head, ")" | "]" | "}") && matches!(before, ";" | "{" | "}" | ",") {
                        let done = (at..n.min(at + 80)).take_while(|l| depth[l + 1] >= depth[at]).find(|l| {
                            depth[l + 1] == depth[at] && matches!(last[*l], Some(";" | "}")) && !inside[l + 1]
                        });
                        if let Some(end) = done {
                            found.push(Statement { lines: at..end + 1, indent, opens: false });
                        }
                    }
                    before = last[at].unwrap_or(";");
                    at += 1;
                }
            }
        }
        found
    }

    /// The token that closes the bracket at token `open`.
    pub fn closing(&self, open: usize) -> Option<usize> {
        let mut depth = 0;
        for (i, tok) in self.toks.iter().enumerate().skip(open) {
            if tok.what == What::Sign {
                match self.str(tok) {
                    "(" | "[" | "{" => depth += 1,
                    ")" | "]" | "}" => {
                        depth -= 1;
                        if depth == 0 {
                            return Some(i);
                        }
                    }
                    _ => {}
                }
            }
        }
        None
    }

    /// The runs of tokens between the commas of a bracket.
    pub fn items(&self, open: usize, close: usize) -> Vec<Range<usize>> {
        let mut items = Vec::new();
        let (mut depth, mut start) = (0, open + 1);
        for i in open + 1..close {
            if self.toks[i].what != What::Sign {
                continue;
            }
            match self.str(&self.toks[i]) {
                "(" | "[" | "{" => depth += 1,
                ")" | "]" | "}" => depth -= 1,
                "," if depth == 0 => {
                    items.push(start..i);
                    start = i + 1;
                }
                _ => {}
            }
        }
        if start < close {
            items.push(start..close);
        }
        items.retain(|i| !i.is_empty());
        items
    }
}

fn lex(lang: Lang, text: &str) -> Vec<Tok> {
    let bytes = text.as_bytes();
    let word = |b: u8| b.is_ascii_alphanumeric() || b == b'_' || b >= 0x80;
    let mut toks = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let start = at;
        let rest = &bytes[at..];
        let what = match bytes[at] {
            // A byte order mark is no part of a word.
            0xef if at == 0 && rest.starts_with(b"\xef\xbb\xbf") => {
                at += 3;
                continue;
            }
            b if b.is_ascii_whitespace() || b == b'\\' => {
                at += 1;
                continue;
            }
            b'#' if lang != Lang::Rust => {
                at += rest.iter().position(|b| *b == b'\n').unwrap_or(rest.len());
                What::Comment
            }
            b'/' if lang == Lang::Rust && rest.starts_with(b"//") => {
                at += rest.iter().position(|b| *b == b'\n').unwrap_or(rest.len());
                What::Comment
            }
            b'/' if lang == Lang::Rust && rest.starts_with(b"/*") => {
                let mut depth = 0;
                while at < bytes.len() {
                    if bytes[at..].starts_with(b"/*") {
                        depth += 1;
                        at += 2;
                    } else if bytes[at..].starts_with(b"*/") {
                        depth -= 1;
                        at += 2;
                        if depth == 0 {
                            break;
                        }
                    } else {
                        at += 1;
                    }
                }
                What::Comment
            }
            b'\'' if lang == Lang::Rust && !char_literal(rest) => {
                at += 1;
                What::Sign
            }
            b'"' | b'\'' => {
                at = end_of_text(lang, bytes, at, false);
                What::Text
            }
            b if b.is_ascii_digit() => {
                while at < bytes.len()
                    && (word(bytes[at]) || bytes[at] == b'.' && bytes.get(at + 1).is_some_and(u8::is_ascii_digit))
                {
                    at += 1;
                }
                What::Number
            }
            b if word(b) => {
                while at < bytes.len() && word(bytes[at]) {
                    at += 1;
                }
                let prefix = &bytes[start..at];
                let quoted = matches!(bytes.get(at), Some(b'"' | b'\''));
                if lang == Lang::Python && quoted && prefix.len() <= 2 && prefix.iter().all(|b| b"rRbBfFuU".contains(b))
                {
                    let raw = prefix.iter().any(|b| b"rR".contains(b));
                    at = end_of_text(lang, bytes, at, raw);
                    What::Text
                } else if lang == Lang::Rust
                    && matches!(prefix, b"r" | b"br" | b"cr")
                    && raw_text(&bytes[at..]).is_some()
                {
                    at += raw_text(&bytes[at..]).unwrap();
                    What::Text
                } else if lang == Lang::Rust && matches!(prefix, b"b" | b"c") && bytes.get(at) == Some(&b'"') {
                    at = end_of_text(lang, bytes, at, false);
                    What::Text
                } else {
                    What::Word
                }
            }
            _ => {
                at += 1;
                What::Sign
            }
        };
        at = at.min(bytes.len());
        toks.push(Tok { what, at: start..at });
    }
    toks
}

/// `'a'` rather than `'a`.
fn char_literal(rest: &[u8]) -> bool {
    match rest.get(1) {
        Some(b'\\') => true,
        Some(b) if *b < 0x80 => rest.get(2) == Some(&b'\''),
        Some(_) => rest[2..rest.len().min(6)].contains(&b'\''),
        None => false,
    }
}

/// The length of `#"…"#`.
fn raw_text(rest: &[u8]) -> Option<usize> {
    let hashes = rest.iter().take_while(|b| **b == b'#').count();
    if rest.get(hashes) != Some(&b'"') {
        return None;
    }
    let mut end = vec![b'"'];
    end.extend(std::iter::repeat_n(b'#', hashes));
    let from = hashes + 1;
    let length = rest[from..].windows(end.len()).position(|w| w == end)?;
    Some(from + length + end.len())
}

fn end_of_text(lang: Lang, bytes: &[u8], open: usize, _raw: bool) -> usize {
    let quote = bytes[open];
    let triple = lang != Lang::Rust && bytes[open..].starts_with(&[quote; 3]);
    let escapes = !(lang == Lang::Toml && quote == b'\'');
    let mut at = open + if triple { 3 } else { 1 };
    while at < bytes.len() {
        match bytes[at] {
            b'\\' if escapes => at += 2,
            b'\n' if !triple && lang != Lang::Rust => return at,
            b if b == quote && !triple => return at + 1,
            b if b == quote && bytes[at..].starts_with(&[quote; 3]) => return at + 3,
            _ => at += 1,
        }
    }
    bytes.len()
}

/// The words and signs of a text, by the words of contract K5: separators and layout aside. A word is a
/// run of letters, digits and underscores of any script; everything else is a sign of one byte.
pub fn words(text: &[u8]) -> Vec<&[u8]> {
    let class = |b: &u8| -> u8 {
        match b {
            b' ' | b'\t' | b'\n' | b'\r' | 0x0b | 0x0c | b',' | b';' | b'\\' | b'\'' | b'"' => 0,
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'_' | 0x80.. => 1,
            _ => 2,
        }
    };
    text.chunk_by(|a, b| class(a) == 1 && class(b) == 1).filter(|run| class(&run[0]) != 0).collect()
}

#[test]
fn words_are_runs_of_letters_and_single_signs() {
    let found: Vec<String> =
        words(b"f(a_1, \xc3\xa9==2);\\\n").iter().map(|w| String::from_utf8_lossy(w).into_owned()).collect();
    assert_eq!(found, ["f", "(", "a_1", "\u{e9}", "=", "=", "2", ")"]);
}
