//! The nodes of a parse as the parser gave them, and what of it the grammar forgives and the language does not.

use std::ops::Range;

use smallvec::SmallVec;

use crate::grammar::{Kind, Language, LeavesRule};
use crate::syntax::tree::{Forgiven, Span};

/// The children of a node, which mostly are few.
pub(super) type Kids = SmallVec<[u32; 4]>;

/// A node as the parser gave it.
pub(super) struct Raw {
    pub kind: Kind,
    pub field: u16,
    pub named: bool,
    pub span: Span,
    pub kids: Kids,
    /// A comment that describes what it stands in.
    pub inner: bool,
    /// Not looked into, though there is something to see.
    pub whole: bool,
}

impl Raw {
    /// One that the parser has not, around some that stand in a row. There is one at least.
    pub fn around(raws: &[Raw], kind: Kind, kids: Kids) -> Raw {
        let at = |kid: u32| raws[kid as usize].span;
        let span = Span { start: at(kids[0]).start, end: at(kids[kids.len() - 1]).end };
        Raw { kind, field: 0, named: true, span, kids, inner: false, whole: false }
    }
}

pub(super) fn read(
    source: &[u8],
    parsed: &tree_sitter::Tree,
    language: &'static Language,
    live: Option<&[Range<usize>]>,
    forgiven: &mut Option<u32>,
) -> Vec<Raw> {
    // The ranges are in order, by their starts and by their ends.
    let outside = |node: tree_sitter::Node<'_>| {
        live.is_some_and(|live| {
            let near = live.partition_point(|r| r.end < node.start_byte());
            live.get(near).is_none_or(|r| node.end_byte() < r.start)
        })
    };
    let inner = |comment: tree_sitter::Node<'_>| {
        let first = comment.named_child(0);
        first.is_some_and(|c| language.rule(language.kind_of_symbol()[c.kind_id() as usize]).inner)
    };
    let is_list = |kind: Kind| !language.rule(kind).lists.is_empty();
    // A word of the language in a list may mean something for what is around that, as `async` does.
    let lists_words =
        |kind: Kind| language.rule(kind).lists.iter().any(|l| !language.lists()[*l as usize].tokens.is_empty());
    let brings_names =
        |kind: Kind| language.rule(kind).entries.iter().any(|e| language.entries()[*e as usize].brings_names());
    let mut raws: Vec<Raw> = Vec::with_capacity(source.len() / 4 + 16);
    let mut parents: Vec<u32> = Vec::new();
    let mut cursor = parsed.walk();
    let mut descend = true;
    loop {
        if descend {
            let node = cursor.node();
            let kind = language.kind_of_symbol()[node.kind_id() as usize];
            let rule = language.rule(kind);
            // Extras that are no comments (line continuations) and empty nodes are layout.
            let layout =
                !parents.is_empty() && (node.start_byte() == node.end_byte() || node.is_extra() && !rule.comment);
            let empty_list = node.is_named() && node.start_byte() == node.end_byte() && language.lists_lines(kind);
            if empty_list && !parents.is_empty() {
                forgiven.get_or_insert(node.start_byte() as u32);
            }
            if !layout {
                let id = raws.len() as u32;
                raws.push(Raw {
                    kind,
                    field: cursor.field_id().map_or(0, Into::into),
                    named: node.is_named(),
                    span: trimmed(source, node.start_byte(), node.end_byte(), rule.comment),
                    kids: Kids::new(),
                    inner: rule.comment && inner(node),
                    whole: false,
                });
                if let Some(parent) = parents.last() {
                    raws[*parent as usize].kids.push(id);
                }
                // The entries of a list stay in sight: they are known by what is in them. So do names brought into
                // scope: another statement may bring in the same.
                let around = |p: &u32| raws[*p as usize].kind;
                let whole = is_list(kind)
                    && !lists_words(kind)
                    && parents.last().is_some_and(|p| !is_list(around(p)))
                    && outside(node)
                    && !parents.iter().any(|p| brings_names(around(p)));
                raws[id as usize].whole = whole;
                if !rule.text && !whole && cursor.goto_first_child() {
                    parents.push(id);
                    continue;
                }
            }
        }
        if cursor.goto_next_sibling() {
            descend = true;
        } else if !parents.is_empty() && cursor.goto_parent() {
            parents.pop();
            descend = false;
        } else {
            return raws;
        }
        if parents.is_empty() {
            return raws;
        }
    }
}

/// Some grammars count the line ending (or the white space before it) to a comment; we never do.
fn trimmed(source: &[u8], start: usize, end: usize, comment: bool) -> Span {
    let mut end = end;
    if comment {
        while end > start && matches!(source[end - 1], b'\n' | b'\r') {
            end -= 1;
        }
    }
    Span { start: start as u32, end: end as u32 }
}

/// The column of an offset, in bytes, if only white space stands before it on its line.
pub(super) fn column(source: &[u8], offset: u32) -> Option<usize> {
    let before = &source[..offset as usize];
    let blank = before.iter().rev().take_while(|b| matches!(b, b' ' | b'\t' | b'\x0c')).count();
    before[..before.len() - blank].last().is_none_or(|b| *b == b'\n').then_some(blank)
}

/// Where a node holds none of what it must hold one of.
pub(super) fn lacking(raws: &[Raw], language: &'static Language) -> Option<u32> {
    let lacks = |raw: &&Raw| {
        let rule = language.rule(raw.kind);
        let holds = |kinds: &[Kind]| raw.kids.iter().any(|k| kinds.contains(&raws[*k as usize].kind));
        let asked = || rule.needs_beside.is_empty() || holds(&rule.needs_beside);
        !rule.needs.is_empty() && !raw.whole && asked() && !holds(&rule.needs)
    };
    raws.iter().find(lacks).map(|raw| raw.span.start)
}

/// Where a part of a node ends with what it must not end with there.
pub(super) fn ended(source: &[u8], raws: &[Raw], language: &'static Language) -> Option<u32> {
    raws.iter().find_map(|raw| {
        let (part, beside, sign) = language.rule(raw.kind).unended.as_ref()?;
        let of = |field: u16| raw.kids.iter().map(|kid| &raws[*kid as usize]).find(|kid| kid.field == field);
        of(*beside)?;
        let span = of(*part)?.span;
        source[span.range()].ends_with(sign.as_bytes()).then_some(span.start)
    })
}

/// Where a statement stands behind others that must be one of the first in what it stands in.
pub(super) fn late(raws: &[Raw], language: &'static Language) -> Option<u32> {
    let foremost = |raw: &Raw| language.rule(raw.kind).entries.iter().any(|e| language.entries()[*e as usize].foremost);
    let kids = |raw: &Raw| raw.kids.iter().map(|kid| &raws[*kid as usize]).collect::<Vec<_>>();
    let text = |raw: &Raw| language.rule(raw.kind).text;
    let is_text = |raw: &Raw| {
        let [only] = kids(raw)[..] else { return false };
        let joined = || !only.kids.is_empty() && kids(only).iter().all(|part| text(part));
        language.rule(raw.kind).remark && (text(only) || joined())
    };
    let late_in = |list: &Raw| {
        // In most files there is none, and in most languages no such rule.
        let last = list.kids.iter().rposition(|kid| foremost(&raws[*kid as usize]))?;
        let mut listed = kids(list);
        listed.truncate(last + 1);
        listed.retain(|raw| raw.named && !language.rule(raw.kind).comment);
        // Only the first of several texts is there to be read.
        let other = |(at, raw): &(usize, &&Raw)| !(foremost(raw) || *at == 0 && is_text(raw));
        let (first, _) = listed.iter().enumerate().find(other)?;
        listed[first..].iter().find(|raw| foremost(raw)).map(|raw| raw.span.start)
    };
    raws.iter().find_map(late_in)
}

/// Where a node goes out of something that is not around it.
pub(super) fn astray(raws: &[Raw], language: &'static Language) -> Option<Forgiven> {
    let rules = language.leaves();
    let leaves = |raw: &Raw| {
        let rule = language.rule(raw.kind).leaves?;
        let by_name = |kid: &u32| rules[usize::from(rule)].unless.contains(&raws[*kid as usize].kind);
        (!raw.kids.iter().any(by_name)).then_some(rule)
    };
    let first = raws.iter().position(|raw| leaves(raw).is_some())?;
    let last = raws.iter().rposition(|raw| leaves(raw).is_some())?;
    // The rules of which each node stands in such a part, a bit each; a node comes before those in it.
    let mut within = vec![0u32; raws.len()];
    for (i, raw) in raws.iter().enumerate().take(last) {
        let ends = language.rule(raw.kind).left;
        for kid in &raw.kids {
            within[*kid as usize] = match ends {
                true => reached(within[i], raws, raw, raws[*kid as usize].field, rules),
                false => within[i],
            };
        }
    }
    raws.iter().enumerate().skip(first).find_map(|(i, raw)| {
        let rule = leaves(raw).filter(|rule| within[i] & 1 << rule == 0)?;
        Some(Forgiven::Misplaced { span: raw.span, rule })
    })
}

/// Of which rules something stands in a part that may be left, a bit each, in a field of a node for which it is `around`.
fn reached(around: u32, raws: &[Raw], raw: &Raw, field: u16, rules: &[LeavesRule]) -> u32 {
    let part = |(of, part): &(Kind, Option<u16>)| *of == raw.kind && part.is_none_or(|part| part == field);
    let has = |token: Kind| {
        let is_one = |kid: &u32| raws[*kid as usize].kind == token;
        raw.kids.iter().any(|kid| is_one(kid) || raws[*kid as usize].kids.iter().any(is_one))
    };
    rules.iter().enumerate().fold(around, |within, (i, rule)| {
        let is_part = rule.what.iter().any(part);
        match is_part && rule.marked.is_none_or(has) {
            true => within | 1 << i,
            false if is_part || rule.not_through.contains(&raw.kind) => within & !(1 << i),
            false => within,
        }
    })
}

/// Where an entry starts a line further in or out than those before it in its list, in languages in which it may not,
/// or no further in than what its list stands in; or where what stands before an entry, or a clause of it that has such a
/// list too, does not start a line as far in as the entry (The Python Language Reference, "Indentation").
pub(super) fn misaligned(source: &[u8], raws: &[Raw], language: &'static Language) -> Option<u32> {
    let aligned = |raw: &Raw| language.rule(raw.kind).lists.iter().any(|l| language.lists()[*l as usize].aligned);
    let width = |raw: &Raw| {
        let start = raw.span.start;
        column(source, start).map(|col| Width::of(&source[start as usize - col..start as usize]))
    };
    let kids = |of: usize| raws[of].kids.iter().map(|kid| *kid as usize);
    let holds = |of: usize| kids(of).any(|kid| aligned(&raws[kid]));
    // Where the lists around end, and how far in they stand.
    let mut outer: Vec<(u32, Width)> = Vec::new();
    raws.iter().enumerate().filter(|(_, raw)| aligned(raw)).find_map(|(i, list)| {
        outer.retain(|(end, _)| *end > list.span.start);
        let mut wanted = (i == 0).then_some(Width::default());
        let mut listed = kids(i).filter(|kid| raws[*kid].named && !language.rule(raws[*kid].kind).comment);
        let stray = listed.find_map(|entry| {
            let own = width(&raws[entry])?;
            let further = || outer.last().is_none_or(|(_, outer)| outer.is_less_than(own));
            if own != *wanted.get_or_insert(own) || i > 0 && !further() {
                return Some(raws[entry].span.start);
            }
            // All parts of what holds no such list itself, but one that does, stand before that.
            let around = !holds(entry) && kids(entry).any(holds);
            let strays =
                |part: &usize| (around || holds(*part)) && width(&raws[*part]).is_some_and(|width| width != own);
            kids(entry).find(strays).map(|part| raws[part].span.start)
        });
        outer.extend(wanted.map(|width| (list.span.end, width)));
        stray
    })
}

/// How far white space at the start of a line indents it, if a tab goes on to the next multiple of eight columns, and if
/// it is one: what stands further in must do so by both (The Python Language Reference, "Indentation").
#[derive(Clone, Copy, Default, PartialEq, Eq)]
struct Width {
    eights: usize,
    ones: usize,
}

impl Width {
    fn of(indent: &[u8]) -> Width {
        indent.iter().fold(Width::default(), |width, byte| match byte {
            b'\t' => Width { eights: (width.eights / 8 + 1) * 8, ones: width.ones + 1 },
            b'\x0c' => Width::default(),
            _ => Width { eights: width.eights + 1, ones: width.ones + 1 },
        })
    }

    fn is_less_than(self, other: Width) -> bool {
        self.eights < other.eights && self.ones < other.ones
    }
}
