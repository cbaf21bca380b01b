//! The children of a list: its ends, its entries, and what belongs to each.

use super::read::{Kids, Raw};
use super::{Builder, line_hash};
use crate::grammar::{Kind, ListRule, is_word};
use crate::syntax::tree::{NodeId, Part, Span};

/// So deep may pairs of signs stand in one another: unlike brackets, nobody counted them before the text was parsed.
const PAIRS_DEEP: usize = 32;

/// An entry being put together.
pub(super) struct Group {
    pub kids: Kids,
    pub core: u32,
    pub separator: Span,
    pub end: u32,
}

impl Builder<'_, '_> {
    /// Builds the children of a list, for `finish`.
    pub(super) fn list(&mut self, id: NodeId, kids: &[u32], list: u16, indent: Span) {
        let rule = &self.language.lists()[list as usize];
        let runs;
        let kids = if rule.runs {
            runs = self.runs(self.tree.nodes[id.index()].kind, kids, rule);
            &runs
        } else {
            kids
        };
        let (head, middle, tail) = self.partition(kids, rule);
        let start = self.built.len();
        for k in head {
            let position = (self.built.len() - start) as u32;
            self.node(*k, id, position, Part::Head, indent);
        }
        let head_end = head.last().map(|k| self.raws[*k as usize].span.end);
        let (groups, head_comments) = self.group(middle, rule, head_end);
        for k in head_comments {
            let position = (self.built.len() - start) as u32;
            self.node(k, id, position, Part::Head, indent);
        }
        for group in groups {
            let position = (self.built.len() - start) as u32;
            self.entry(id, group, rule, position, indent);
        }
        for k in tail {
            let position = (self.built.len() - start) as u32;
            self.node(*k, id, position, Part::Tail, indent);
        }
    }

    /// Makes the tokens between separators nodes of their own, from the first bracket to the last.
    fn runs(&mut self, list: Kind, kids: &[u32], rule: &ListRule) -> Vec<u32> {
        let text = |kid: &u32| &self.source[self.raws[*kid as usize].span.range()];
        let pair = self.signs(kids[0], &rule.pairs, 0) > 0 && self.signs(kids[kids.len() - 1], &rule.pairs, 1) > 0;
        let (first, last) = match pair {
            true => (0, kids.len() - 1),
            false => (
                kids.iter().position(|kid| matches!(text(kid), b"(" | b"[" | b"{")).unwrap_or(0),
                kids.iter().rposition(|kid| matches!(text(kid), b")" | b"]" | b"}")).unwrap_or(kids.len()),
            ),
        };
        let (head, tail) = (first + 1, last.max(first + 1));
        let within = self.paired(list, &kids[head..tail], rule);
        let mut out = kids[..head].to_vec();
        let mut run = Kids::new();
        let close = |raws: &mut Vec<Raw>, run: &mut Kids, out: &mut Vec<u32>| {
            if !run.is_empty() {
                out.push(raws.len() as u32);
                raws.push(Raw::around(raws, Kind::RUN, std::mem::take(run)));
            }
        };
        for (i, kid) in within.iter().enumerate() {
            let kind = self.raws[*kid as usize].kind;
            let comment = self.language.rule(kind).comment;
            if Some(kind) == rule.separator || comment && run.is_empty() {
                close(&mut self.raws, &mut run, &mut out);
                out.push(*kid);
            } else {
                run.push(*kid);
                let behind = within[i + 1..].iter().chain(&kids[tail..]);
                if rule.ends.contains(&kind) || self.is_block(*kid, behind, rule) {
                    close(&mut self.raws, &mut run, &mut out);
                }
            }
        }
        close(&mut self.raws, &mut run, &mut out);
        out.extend_from_slice(&kids[tail..]);
        out
    }

    /// Tokens with a list for each pair of signs in the place of what it holds. A sign with a space behind it compares,
    /// and opens none (common practice, no source: the grammar of a macro's input is the macro's own).
    fn paired(&mut self, list: Kind, tokens: &[u32], rule: &ListRule) -> Kids {
        let mut out = Kids::new();
        let mut open = Vec::new();
        for &token in tokens {
            out.push(token);
            let raw = &self.raws[token as usize];
            if rule.ends.contains(&raw.kind) {
                open.clear();
                continue;
            }
            if self.source.get(raw.span.end as usize) != Some(&b' ') && open.len() < PAIRS_DEEP {
                open.extend(std::iter::repeat_n(out.len() - 1, self.signs(token, &rule.pairs, 0)));
            }
            let closed = self.signs(token, &rule.pairs, 1);
            let Some(start) = std::iter::from_fn(|| open.pop()).take(closed).last() else { continue };
            let kids: Kids = out.drain(start..).collect();
            out.push(self.raws.len() as u32);
            self.raws.push(Raw::around(&self.raws, list, kids));
        }
        out
    }

    /// How many signs that open, or close, a pair are one token.
    fn signs(&self, token: u32, pairs: &[[String; 2]], which: usize) -> usize {
        let text = &self.source[self.raws[token as usize].span.range()];
        let times = |pair: &[String; 2]| {
            let sign = pair[which].as_bytes();
            if text.chunks(sign.len()).all(|part| part == sign) { text.len() / sign.len() } else { 0 }
        };
        pairs.iter().map(times).max().unwrap_or(0)
    }

    /// Whether a bracket ends an entry: statements may stand in it, and on the next line begins something that does not
    /// go on with it, comments aside.
    fn is_block<'k>(&self, bracket: u32, mut behind: impl Iterator<Item = &'k u32>, rule: &ListRule) -> bool {
        if !rule.is_block(&self.source[self.raws[bracket as usize].span.range()]) {
            return false;
        }
        let comment = |raw: &&u32| self.language.rule(self.raws[**raw as usize].kind).comment;
        let Some(next) = behind.find(|raw| !comment(raw)).copied() else { return false };
        let [own, next] = [bracket, next].map(|raw| self.raws[raw as usize].span);
        let gap = &self.source[own.end as usize..next.start as usize];
        let next = &self.source[next.range()];
        let clauses = self.language.outline().into_iter().flat_map(|outline| &outline.clauses);
        let word = next.split(|b| !is_word(*b)).next().unwrap_or_default();
        gap.contains(&b'\n')
            && next.first().is_some_and(|b| is_word(*b) || b"#$".contains(b))
            && !clauses.into_iter().any(|clause| clause.as_bytes() == word)
    }

    fn is_entry(&self, raw: u32, rule: &ListRule) -> bool {
        let r = &self.raws[raw as usize];
        let known = self.language.rule(r.kind);
        rule.tokens.contains(&r.kind)
            || r.named
                && !known.comment
                && !known.prefix
                && !rule.before.contains(&r.kind)
                && (rule.entries.is_empty() || rule.entries.contains(&r.kind))
                && rule.field.is_none_or(|f| r.field == f || rule.entries.contains(&r.kind) && r.field == 0)
    }

    /// Splits a list's children into what is before, in and after the entries.
    fn partition<'k>(&self, kids: &'k [u32], rule: &ListRule) -> (&'k [u32], &'k [u32], &'k [u32]) {
        let belongs = |k: &u32| {
            let r = &self.raws[*k as usize];
            let known = self.language.rule(r.kind);
            self.is_entry(*k, rule)
                || known.comment
                || known.prefix
                || rule.before.contains(&r.kind)
                || Some(r.kind) == rule.separator
        };
        let first = kids.iter().position(|k| self.is_entry(*k, rule));
        let last = kids.iter().rposition(|k| self.is_entry(*k, rule));
        let (start, end) = match (first, last) {
            (Some(first), Some(last)) => {
                let start = kids[..first].iter().rposition(|k| !belongs(k)).map_or(0, |p| p + 1);
                let end = kids[last..].iter().position(|k| !belongs(k)).map_or(kids.len(), |p| last + p);
                (start, end)
            }
            _ => {
                // Without entries, a closing token closes a pair of tokens with nothing named before it.
                let bare = |k: &u32| !self.raws[*k as usize].named;
                let end = match kids.split_last() {
                    Some((k, rest)) if bare(k) && !rest.is_empty() && rest.iter().all(|k| bare(k) || belongs(k)) => {
                        kids.len() - 1
                    }
                    _ => kids.len(),
                };
                let start = kids[..end].iter().rposition(|k| !belongs(k)).map_or(0, |p| p + 1);
                (start, end)
            }
        };
        (&kids[..start], &kids[start..end], &kids[end..])
    }

    /// Puts comments, prefixes and separators to the entries they belong to. The second value is a
    /// comment at the end of the head's last line.
    pub(super) fn group(&self, kids: &[u32], rule: &ListRule, head_end: Option<u32>) -> (Vec<Group>, Vec<u32>) {
        let newlines =
            |from: u32, to: u32| self.source[from as usize..to as usize].iter().filter(|b| **b == b'\n').count();
        let mut groups: Vec<Group> = Vec::new();
        let mut head_comments = Vec::new();
        let mut lead = Kids::new();
        let mut lead_end = 0;
        let mut sticky = false;
        for &kid in kids {
            let raw = &self.raws[kid as usize];
            let known = self.language.rule(raw.kind);
            let apart =
                |last: &u32| newlines(lead_end, raw.span.start) > 1 || self.raws[*last as usize].inner != raw.inner;
            if !sticky && lead.last().is_some_and(apart) {
                groups.push(Self::comments(std::mem::take(&mut lead), lead_end));
            }
            if known.comment {
                if lead.is_empty() {
                    match groups.last_mut() {
                        Some(group) if newlines(group.end, raw.span.start) == 0 => {
                            group.kids.push(kid);
                            group.end = raw.span.end;
                            continue;
                        }
                        None if head_end.is_some_and(|end| newlines(end, raw.span.start) == 0) => {
                            head_comments.push(kid);
                            continue;
                        }
                        _ => {}
                    }
                }
                lead.push(kid);
                lead_end = raw.span.end;
            } else if known.prefix || rule.before.contains(&raw.kind) {
                lead.push(kid);
                lead_end = raw.span.end;
                sticky = true;
            } else if Some(raw.kind) == rule.separator
                && !groups.is_empty()
                && groups.last().is_some_and(|g| g.separator.is_empty())
            {
                let group = groups.last_mut().expect("checked above");
                group.separator = raw.span;
                group.end = raw.span.end;
            } else {
                let comment = |k: &&u32| self.language.rule(self.raws[**k as usize].kind).comment;
                let comments = if rule.lines { lead.iter().take_while(comment).count() } else { 0 };
                let last = match groups.is_empty() && self.is_header(&lead[..comments], kid) {
                    true => comments.checked_sub(1),
                    false => lead[..comments].iter().rposition(|comment| self.is_loose(*comment)),
                };
                if let Some(last) = last {
                    let own = lead.drain(last + 1..).collect();
                    let end = self.raws[lead[last] as usize].span.end;
                    groups.push(Self::comments(std::mem::replace(&mut lead, own), end));
                }
                lead.push(kid);
                groups.push(Group {
                    kids: std::mem::take(&mut lead),
                    core: kid,
                    separator: Span::default(),
                    end: raw.span.end,
                });
                sticky = false;
            }
        }
        if !lead.is_empty() {
            groups.push(Self::comments(lead, lead_end));
        }
        (groups, head_comments)
    }

    /// Whether a comment stays when the statement below it goes.
    pub(super) fn is_loose(&self, raw: u32) -> bool {
        let raw = &self.raws[raw as usize];
        !self.loose.is_empty() && self.loose.contains(&line_hash(&self.source[raw.span.range()]))
    }

    /// Whether the comments above a statement are those that the file begins with, and tell of the file: so they do above
    /// what takes names from elsewhere.
    fn is_header(&self, comments: &[u32], below: u32) -> bool {
        let first = comments.first().is_some_and(|comment| self.raws[*comment as usize].span.start == 0);
        first && self.rule_of(below).is_some_and(|rule| rule.imports)
    }

    /// An entry that consists of comments only.
    fn comments(kids: Kids, end: u32) -> Group {
        Group { core: kids[0], kids, separator: Span::default(), end }
    }
}
