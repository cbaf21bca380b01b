//! Plausible edits: what people do to source between two commits, made from a seed.

use std::ops::Range;

use super::Lang;
use super::lex::{Read, Tok, What};
use super::rng::Rng;
use super::scenario::{Edit, Patch, Scenario, apply, meet};
use super::{sources, trees};

/// Names that both sides reach for, so that their additions collide now and then.
const NAMES: [&str; 6] = ["timeout", "retries", "strict", "verbose", "encoding", "depth"];

/// A scenario over a text: one to three edits a side, most of them near one place.
///
/// Both sides parse if base does, unless `broken` allows otherwise.
pub fn scenario(lang: Lang, name: &str, text: &str, seed: u64) -> Scenario {
    let mut rng = Rng::new(seed);
    let read = Read::new(lang, text.to_owned());
    let focus = rng.below(read.line_count().max(1));
    let sound = trees::parses(lang, text.as_bytes());
    let sides = [0, 1].map(|side| {
        let mut edits: Vec<Edit> = Vec::new();
        let wanted = 1 + rng.below(3);
        for attempt in 0..4 * wanted {
            let near = if rng.chance(80) { near(focus, 5, &read) } else { 0..read.line_count() };
            let mut maker = Maker { read: &read, rng: &mut rng, near, tag: tag(side, attempt) };
            let Some(edit) = maker.any() else { continue };
            if add(&mut edits, edit, text) && sound {
                let side = apply(text, edits.iter().flat_map(|e| &e.patches));
                if !trees::parses(lang, side.as_bytes()) {
                    edits.pop();
                }
            }
            if edits.len() == wanted {
                break;
            }
        }
        edits
    });
    Scenario { lang, name: format!("{name} seed {seed}"), base: text.to_owned(), sides }
}

/// What is new in an edit carries this, so that it can be found again in an answer.
pub fn tag(side: usize, attempt: usize) -> String {
    format!("{}{attempt}", ["ours", "theirs"][side])
}

/// Scenarios over one language's real sources and over the corpus, the same every time.
///
/// Long files are cut to the statements around a place, so that a run is quick and a failure is short.
pub fn scenarios(lang: Lang, n: usize) -> Vec<Scenario> {
    let mut bases = sources::sample(lang, n, 400, 60_000);
    bases.extend(sources::corpus(lang));
    let mut found = Vec::new();
    for k in 0..n {
        // Two in three from real sources.
        let (real, corpus) = bases.split_at(bases.len() - sources::corpus(lang).len());
        let (name, text) =
            if k % 3 == 2 && !corpus.is_empty() { &corpus[k / 3 % corpus.len()] } else { &real[k % real.len()] };
        let text = cut(lang, text, k as u64);
        found.push(scenario(lang, name, &text, k as u64));
    }
    found.retain(|s| s.sides.iter().any(|edits| !edits.is_empty()) && is_valid(s));
    found
}

/// Whether the sides are what their language allows, as far as a reader of its values can tell: edits may give a
/// table of TOML one key twice, and then nothing is promised but an answer.
fn is_valid(s: &Scenario) -> bool {
    s.lang != Lang::Toml || (0..2).all(|side| s.side(side).parse::<toml::Table>().is_ok())
}

/// A part of a text that can stand alone: whole statements of the outermost level.
pub fn cut(lang: Lang, text: &str, seed: u64) -> String {
    const LINES: usize = 120;
    let read = Read::new(lang, text.to_owned());
    if read.line_count() <= LINES || seed.is_multiple_of(8) && text.len() < 20_000 {
        return text.to_owned();
    }
    let outermost: Vec<usize> = (0..read.statements.len()).filter(|s| read.statements[*s].indent == 0).collect();
    let Some(first) = Rng::new(seed ^ 0xc07).pick(&outermost).copied() else { return text.to_owned() };
    let start = read.statements[first].lines.start;
    let mut end = start;
    for s in outermost.iter().skip_while(|s| **s < first) {
        let suite = read.suite(*s);
        if suite.end > start + LINES && end > start {
            break;
        }
        end = end.max(suite.end);
    }
    read.lines(start..end).to_owned()
}

/// Adds an edit, if it changes something and stays clear of the others.
pub fn add(edits: &mut Vec<Edit>, edit: Edit, base: &str) -> bool {
    let mut sorted: Vec<&Patch> = edit.patches.iter().collect();
    sorted.sort_by_key(|p| p.at.start);
    let inside = sorted.windows(2).all(|w| w[0].at.end <= w[1].at.start);
    let clear = edit.patches.iter().all(|p| edits.iter().flat_map(|e| &e.patches).all(|q| !meet(&p.at, &q.at)));
    let changes = edit.patches.iter().any(|p| base[p.at.clone()] != p.text);
    let good = inside && clear && changes;
    if good {
        edits.push(edit);
    }
    good
}

fn near(line: usize, reach: usize, read: &Read) -> Range<usize> {
    line.saturating_sub(reach)..(line + reach + 1).min(read.line_count())
}

/// Makes edits in a range of lines.
pub struct Maker<'a> {
    pub read: &'a Read,
    pub rng: &'a mut Rng,
    pub near: Range<usize>,
    pub tag: String,
}

const KEYWORDS: &[&str] = &[
    "False",
    "None",
    "True",
    "and",
    "as",
    "assert",
    "async",
    "await",
    "break",
    "class",
    "continue",
    "def",
    "del",
    "elif",
    "else",
    "except",
    "finally",
    "for",
    "from",
    "global",
    "if",
    "import",
    "in",
    "is",
    "lambda",
    "nonlocal",
    "not",
    "or",
    "pass",
    "raise",
    "return",
    "try",
    "while",
    "with",
    "yield",
    "match",
    "case",
    "type",
    "print",
    "exec",
    "self",
    "cls",
    // Rust
    "fn",
    "let",
    "mut",
    "pub",
    "use",
    "mod",
    "impl",
    "trait",
    "struct",
    "enum",
    "union",
    "const",
    "static",
    "ref",
    "move",
    "where",
    "unsafe",
    "extern",
    "crate",
    "super",
    "Self",
    "dyn",
    "loop",
    "box",
    "macro_rules",
    "true",
    "false",
];

impl Maker<'_> {
    /// Some edit.
    pub fn any(&mut self) -> Option<Edit> {
        let lang = self.read.lang;
        match self.rng.below(if lang == Lang::Toml { 11 } else { 18 }) {
            0 => self.rename_once(),
            1 => self.change_literal(),
            2 | 3 => self.add_item(),
            4 => self.remove_item(),
            5 => self.delete_statement(),
            6 => self.duplicate_statement(),
            7 => self.insert_statement(),
            8 => self.insert_lines_between(),
            9 => self.one_item_a_line(),
            10 => self.insert_definition(),
            11 => self.rename_everywhere(),
            12 => self.wrap_block(),
            13 => self.wrap_expression(),
            14 => self.move_statement(),
            15 => self.add_item(),
            16 => self.change_operator(),
            _ => self.insert_definition(),
        }
    }

    /// One token replaced by another of its sort.
    pub fn one_token(&mut self) -> Option<Edit> {
        if self.rng.chance(50) { self.rename_once() } else { self.change_literal() }
    }

    fn toks(&self, wanted: impl Fn(&Tok) -> bool) -> Vec<usize> {
        let bytes = self.read.bytes_of(&self.near);
        let first = self.read.toks.partition_point(|t| t.at.start < bytes.start);
        (first..self.read.toks.len())
            .take_while(|i| self.read.toks[*i].at.start < bytes.end)
            .filter(|i| wanted(&self.read.toks[*i]))
            .collect()
    }

    fn statement(&mut self) -> Option<usize> {
        let near = &self.near;
        let found: Vec<usize> = (0..self.read.statements.len())
            .filter(|s| {
                near.contains(&self.read.statements[*s].lines.start) && self.read.statements[*s].lines.len() < 30
            })
            .collect();
        self.rng.pick(&found).copied()
    }

    fn line_ending(&self) -> &'static str {
        if self.read.text.contains("\r\n") { "\r\n" } else { "\n" }
    }

    fn edit(what: &'static str, patches: Vec<Patch>) -> Option<Edit> {
        Some(Edit { what, patches })
    }

    fn fresh(&mut self) -> String {
        format!("{}_{}", NAMES[self.rng.below(NAMES.len())], self.tag)
    }

    fn shared(&mut self) -> String {
        if self.rng.chance(40) { NAMES[self.rng.below(3)].to_owned() } else { self.fresh() }
    }

    fn is_name(&self, tok: &Tok) -> bool {
        tok.what == What::Word && !KEYWORDS.contains(&self.read.str(tok))
    }

    fn rename_once(&mut self) -> Option<Edit> {
        let names = self.toks(|t| self.is_name(t));
        let tok = &self.read.toks[*self.rng.pick(&names)?];
        let text = format!("{}_{}", self.read.str(tok), self.tag);
        Self::edit("rename one", vec![Patch { at: tok.at.clone(), text }])
    }

    fn rename_everywhere(&mut self) -> Option<Edit> {
        let names = self.toks(|t| self.is_name(t));
        let old = self.read.str(&self.read.toks[*self.rng.pick(&names)?]);
        let text = format!("{old}_{}", self.tag);
        let all: Vec<Patch> = (self.read.toks.iter())
            .filter(|t| t.what == What::Word && self.read.str(t) == old)
            .map(|t| Patch { at: t.at.clone(), text: text.clone() })
            .collect();
        (all.len() <= 40).then_some(Edit { what: "rename everywhere", patches: all })
    }

    fn change_literal(&mut self) -> Option<Edit> {
        let literals = self.toks(|t| match t.what {
            What::Number => true,
            // A Rust character literal holds one character and no more (the Rust Reference, Tokens).
            What::Text if self.read.lang == Lang::Rust && self.read.str(t).ends_with('\'') => false,
            What::Text => !self.read.str(t).contains('\n') && t.at.len() > 2,
            _ => false,
        });
        let tok = &self.read.toks[*self.rng.pick(&literals)?];
        if tok.what == What::Number {
            let text = format!("{}", 100 + self.rng.below(900));
            return Self::edit("change number", vec![Patch { at: tok.at.clone(), text }]);
        }
        // Before the closing quote.
        let quotes = if self.read.str(tok).ends_with("\"\"\"") || self.read.str(tok).ends_with("'''") { 3 } else { 1 };
        let hashes = self.read.str(tok).bytes().rev().take_while(|b| *b == b'#').count();
        let place = tok.at.end - quotes - hashes;
        let whole = tok.at.start..tok.at.end;
        let text =
            format!("{} {}{}", &self.read.text[tok.at.start..place], self.tag, &self.read.text[place..tok.at.end]);
        Self::edit("change text", vec![Patch { at: whole, text }])
    }

    /// A bracket to put items in: its tokens, and whether it is a call or a signature.
    fn bracket(&mut self) -> Option<(usize, usize, bool)> {
        let opening = self.toks(|t| t.what == What::Sign && matches!(self.read.str(t), "(" | "["));
        let open = *self.rng.pick(&opening)?;
        let close = self.read.closing(open)?;
        let before = open.checked_sub(1).map(|i| &self.read.toks[i]);
        let touching = before.is_some_and(|b| b.at.end == self.read.toks[open].at.start && self.is_name(b));
        if self.read.lang == Lang::Toml {
            // `[` of a value, not of a table.
            let value = before.is_some_and(|b| matches!(self.read.str(b), "=" | "[" | ","));
            return value.then_some((open, close, false));
        }
        let call = touching && self.read.str(&self.read.toks[open]) == "(";
        Some((open, close, call))
    }

    fn add_item(&mut self) -> Option<Edit> {
        let (open, close, call) = self.bracket()?;
        let items = self.read.items(open, close);
        let value = self.rng.below(50);
        let name = self.shared();
        let signature =
            open >= 2 && matches!(self.read.str(&self.read.toks[open - 2]), "def" | "class" | "fn" | "struct");
        let item = match (self.read.lang, call, signature) {
            (Lang::Python, true, _) => format!("{name}={value}"),
            (Lang::Rust, true, true) => format!("{name}: u{}", [8, 16, 32][value % 3]),
            (Lang::Toml, ..) => format!("\"{name}\""),
            (Lang::Python, false, _) if items.len() < 2 => return None,
            _ => name,
        };
        let trailing = close > open + 1 && self.read.str(&self.read.toks[close - 1]) == ",";
        let last_star = items.last().is_some_and(|i| self.read.str(&self.read.toks[i.start]) == "*");
        // After a random item, or at the end.
        let at_end = items.is_empty() || last_star || self.rng.chance(70);
        let (place, text) = if items.is_empty() {
            (self.read.toks[open].at.end, item)
        } else {
            let i = if at_end { items.len() - 1 } else { self.rng.below(items.len()) };
            let end = self.read.toks[items[i].end - 1].at.end;
            let own_line = i > 0 && {
                let (a, b) = (self.read.toks[items[i].start].at.start, self.read.toks[items[i - 1].end - 1].at.end);
                self.read.text[b..a].contains('\n')
            };
            let gap = if own_line {
                let line = self.read.line(self.read.line_at(self.read.toks[items[i].start].at.start));
                let indent = &line[..line.len() - line.trim_start_matches([' ', '\t']).len()];
                format!("{}{indent}", self.line_ending())
            } else {
                " ".to_owned()
            };
            (end, format!(",{gap}{item}"))
        };
        let _ = trailing;
        Self::edit("add item", vec![Patch { at: place..place, text }])
    }

    fn remove_item(&mut self) -> Option<Edit> {
        let (open, close, _) = self.bracket()?;
        let items = self.read.items(open, close);
        if items.len() < 2 {
            return None;
        }
        let i = self.rng.below(items.len());
        let start = |i: usize| self.read.toks[items[i].start].at.start;
        let end = |i: usize| self.read.toks[items[i].end - 1].at.end;
        let at = if i + 1 < items.len() { start(i)..start(i + 1) } else { end(i - 1)..end(i) };
        if self.read.text[at.clone()].contains("//") || self.read.text[at.clone()].contains('#') {
            return None;
        }
        Self::edit("remove item", vec![Patch { at, text: String::new() }])
    }

    fn one_item_a_line(&mut self) -> Option<Edit> {
        let (open, close, _) = self.bracket()?;
        let items = self.read.items(open, close);
        let inside = self.read.toks[open].at.end..self.read.toks[close].at.start;
        let trailing = self.read.str(&self.read.toks[close - 1]) == ",";
        if items.is_empty() || trailing || self.read.text[inside.clone()].contains(['\n', '#']) {
            return None;
        }
        let line = self.read.line(self.read.line_at(inside.start));
        let outer = line[..line.len() - line.trim_start_matches([' ', '\t']).len()].to_owned();
        let new = self.line_ending();
        let mut patches = Vec::new();
        for (i, item) in items.iter().enumerate() {
            let start = self.read.toks[item.start].at.start;
            let from = if i == 0 { inside.start } else { self.read.toks[item.start - 1].at.end };
            patches.push(Patch { at: from..start, text: format!("{new}{outer}    ") });
        }
        patches.push(Patch { at: inside.end..inside.end, text: format!(",{new}{outer}") });
        Self::edit("one item a line", patches)
    }

    fn delete_statement(&mut self) -> Option<Edit> {
        let s = self.statement().filter(|s| !self.read.is_alone(*s))?;
        let at = self.read.bytes_of(&self.read.suite(s));
        // A `try` without either is none (The Python Language Reference, "The try statement").
        let first = self.read.text[at.clone()].trim_start();
        if ["except", "finally"].iter().any(|word| first.starts_with(word)) {
            return None;
        }
        Self::edit("delete statement", vec![Patch { at, text: String::new() }])
    }

    fn duplicate_statement(&mut self) -> Option<Edit> {
        let s = self.statement()?;
        let lines = self.read.suite(s);
        let at = self.read.bytes_of(&lines);
        let names: Vec<&Tok> = self.read.toks.iter().filter(|t| at.contains(&t.at.start) && self.is_name(t)).collect();
        let tok = self.rng.pick(&names)?;
        let mut copy = self.read.text[at.clone()].to_owned();
        if !copy.ends_with('\n') {
            return None;
        }
        copy.insert_str(tok.at.end - at.start, &format!("_{}", self.tag));
        Self::edit("duplicate statement", vec![Patch { at: at.end..at.end, text: copy }])
    }

    fn insert_statement(&mut self) -> Option<Edit> {
        let s = self.statement()?;
        let lines = self.read.suite(s);
        let place = self.read.starts[lines.end];
        let line = self.read.line(self.read.statements[s].lines.start);
        let indent = &line[..self.read.statements[s].indent];
        let (name, n, new) = (self.shared(), self.rng.below(90), self.line_ending());
        if !self.read.text[..place].ends_with('\n') {
            return None;
        }
        let text = match self.read.lang {
            Lang::Python => format!("{indent}{name} = compute({n}){new}"),
            Lang::Rust if indent.is_empty() => format!("const {}: u32 = {n};{new}", name.to_uppercase()),
            Lang::Rust => format!("{indent}let {name} = compute({n});{new}"),
            Lang::Toml => format!("{indent}{name} = {n}{new}"),
        };
        Self::edit("insert statement", vec![Patch { at: place..place, text }])
    }

    /// A blank line or a comment before a statement.
    fn insert_lines_between(&mut self) -> Option<Edit> {
        let s = self.statement()?;
        let first = self.read.statements[s].lines.start;
        let place = self.read.starts[first];
        let (indent, new) = (&self.read.line(first)[..self.read.statements[s].indent], self.line_ending());
        let sign = if self.read.lang == Lang::Rust { "//" } else { "#" };
        let text = if self.rng.chance(40) { new.to_owned() } else { format!("{indent}{sign} Note {}.{new}", self.tag) };
        Self::edit("insert comment or blank line", vec![Patch { at: place..place, text }])
    }

    fn insert_definition(&mut self) -> Option<Edit> {
        let definition = |line: &str| {
            let line = line.trim_start();
            match self.read.lang {
                Lang::Python => {
                    line.starts_with("def ") || line.starts_with("class ") || line.starts_with("async def ")
                }
                Lang::Rust => ["fn ", "pub fn ", "pub(crate) fn ", "unsafe fn ", "impl", "pub struct "]
                    .iter()
                    .any(|p| line.starts_with(p)),
                Lang::Toml => line.starts_with('['),
            }
        };
        let found: Vec<usize> = (0..self.read.statements.len())
            .filter(|s| {
                let first = self.read.statements[*s].lines.start;
                // Reach further: definitions are sparse.
                self.near.start.saturating_sub(15) <= first
                    && first < self.near.end + 15
                    && definition(self.read.line(first))
            })
            .collect();
        let s = *self.rng.pick(&found)?;
        let indent = self.read.line(self.read.statements[s].lines.start)[..self.read.statements[s].indent].to_owned();
        let (name, n, new) = (self.shared(), self.rng.below(90), self.line_ending());
        let text = match self.read.lang {
            Lang::Python if indent.is_empty() => {
                format!("def {name}(value):{new}    return value + {n}{new}{new}{new}")
            }
            Lang::Python => format!("{indent}def {name}(self, value):{new}{indent}    return value + {n}{new}{new}"),
            Lang::Rust => {
                format!("{indent}fn {name}(value: u32) -> u32 {{{new}{indent}    value + {n}{new}{indent}}}{new}{new}")
            }
            Lang::Toml => format!("[{name}]{new}value = {n}{new}{new}"),
        };
        // Above its comments, decorators and attributes.
        let mut line = self.read.statements[s].lines.start;
        while line > 0 && self.read.line(line - 1).trim_start().starts_with(['#', '@', '/']) {
            line -= 1;
        }
        let mut place = self.read.starts[line];
        let mut text = text;
        if self.rng.chance(25) {
            // At the end of the file.
            place = self.read.text.len();
            if !indent.is_empty() || !self.read.text.ends_with('\n') {
                return None;
            }
            text = format!("{new}{}", text.trim_end_matches(['\n', '\r']).to_owned() + new);
        }
        Self::edit("insert definition", vec![Patch { at: place..place, text }])
    }

    fn wrap_block(&mut self) -> Option<Edit> {
        let s = self.statement()?;
        let indent = self.read.statements[s].indent;
        let mut lines = self.read.suite(s);
        let more = self.rng.below(3);
        let mut last = s;
        for _ in 0..more {
            let next =
                (last + 1..self.read.statements.len()).find(|n| self.read.statements[*n].lines.start >= lines.end);
            let Some(next) = next.filter(|n| self.read.statements[*n].indent == indent) else { break };
            let suite = self.read.suite(next);
            if suite.start != lines.end {
                break;
            }
            lines.end = suite.end;
            last = next;
        }
        if lines.len() > 40 || self.read.lang == Lang::Rust && indent == 0 {
            return None;
        }
        let at = self.read.bytes_of(&lines);
        // A text of several lines must not be moved.
        let spans = self.read.toks.iter().any(|t| at.contains(&t.at.start) && self.read.str(t).contains('\n'));
        if spans || !self.read.text[at.clone()].ends_with('\n') || self.read.text[at.clone()].contains('\t') {
            return None;
        }
        let (pad, new) = (" ".repeat(indent), self.line_ending());
        let header = match (self.read.lang, self.rng.below(3)) {
            (Lang::Python, 0) => format!("with guard({}):", self.tag),
            (Lang::Python, 1) => format!("for {} in range(3):", self.tag),
            (Lang::Python, _) => format!("if {}:", self.tag),
            (Lang::Rust, 0) => format!("while {}() {{", self.tag),
            (Lang::Rust, _) => format!("if {} {{", self.tag),
            (Lang::Toml, _) => return None,
        };
        let mut patches = vec![Patch { at: at.start..at.start, text: format!("{pad}{header}{new}") }];
        for line in lines.clone() {
            if !self.read.line(line).trim().is_empty() {
                let start = self.read.starts[line];
                patches.push(Patch { at: start..start, text: "    ".to_owned() });
            }
        }
        if self.read.lang == Lang::Rust {
            patches.push(Patch { at: at.end..at.end, text: format!("{pad}}}{new}") });
        }
        // Header and first indentation go to one place: make them one patch.
        let second = patches.remove(1);
        if second.at.start != at.start {
            return None;
        }
        patches[0].text.push_str(&second.text);
        Self::edit("wrap block", patches)
    }

    fn wrap_expression(&mut self) -> Option<Edit> {
        let toks = &self.read.toks;
        let found = self.toks(|t| self.is_name(t) || t.what == What::Number);
        let arguments: Vec<usize> = found
            .into_iter()
            .filter(|i| {
                let before = i.checked_sub(1).map(|i| self.read.str(&toks[i])).unwrap_or("");
                let after = toks.get(i + 1).map(|t| self.read.str(t)).unwrap_or("");
                matches!(before, "(" | "," | "=" | "return") && matches!(after, ")" | ",")
            })
            .collect();
        let tok = &toks[*self.rng.pick(&arguments)?];
        let text = self.read.str(tok);
        let text = match self.rng.below(3) {
            0 => format!("({text})"),
            1 if self.read.lang == Lang::Python => format!("{text} or {}", self.tag),
            _ => format!("convert_{}({text})", self.tag),
        };
        Self::edit("wrap expression", vec![Patch { at: tok.at.clone(), text }])
    }

    fn move_statement(&mut self) -> Option<Edit> {
        let s = self.statement().filter(|s| !self.read.is_alone(*s))?;
        let indent = self.read.statements[s].indent;
        let from = self.read.bytes_of(&self.read.suite(s));
        let others: Vec<usize> = (0..self.read.statements.len())
            .filter(|o| {
                self.read.statements[*o].indent == indent
                    && !from.contains(&self.read.starts[self.read.statements[*o].lines.start])
            })
            .filter(|o| self.read.statements[*o].lines.start.abs_diff(self.read.statements[s].lines.start) < 40)
            .collect();
        let target = *self.rng.pick(&others)?;
        let place = self.read.starts[self.read.statements[target].lines.start];
        let text = self.read.text[from.clone()].to_owned();
        if !text.ends_with('\n') || place == from.end {
            return None;
        }
        let patches = vec![Patch { at: from, text: String::new() }, Patch { at: place..place, text }];
        Self::edit("move statement", patches)
    }

    fn change_operator(&mut self) -> Option<Edit> {
        let signs = self.toks(|t| t.what == What::Sign && matches!(self.read.str(t), "+" | "<" | ">"));
        let tok = &self.read.toks[*self.rng.pick(&signs)?];
        let text = match self.read.str(tok) {
            "+" => "-",
            "<" => ">",
            _ => "<",
        };
        Self::edit("change operator", vec![Patch { at: tok.at.clone(), text: text.to_owned() }])
    }
}
