//! What identifies an entry.

use super::Builder;
use crate::grammar::{EntryRule, KeyPath, ListRule, Spelling, Step, marked};

impl Builder<'_, '_> {
    /// The name space and text of an entry's key.
    pub(super) fn key(&self, core: u32, rule: Option<&EntryRule>, list: &ListRule) -> Option<(String, String)> {
        match rule {
            Some(rule) if !rule.key.is_empty() => {
                let parts: Vec<String> = rule
                    .key
                    .iter()
                    .filter_map(|p| self.resolve(core, p))
                    .map(|r| self.spelled(r, rule.spelling))
                    .collect();
                let name = parts.join(" ");
                let named = !parts.is_empty() && rule.nameless.as_ref() != Some(&name);
                named.then(|| (rule.space.clone(), name))
            }
            _ if list.keyed_by_text => Some((String::new(), self.spelled(core, list.spelling))),
            _ => None,
        }
    }

    /// The values inside an entry by which it is told apart, if it has any and needs them.
    pub(super) fn told(&self, core: u32, rule: &EntryRule) -> Option<String> {
        if rule.told_by.is_empty() {
            return None;
        }
        let mut values = String::new();
        for kid in &self.raws[core as usize].kids {
            let raw = &self.raws[*kid as usize];
            let Some(e) = self.language.rule(raw.kind).entries.first() else { continue };
            let inner = &self.language.entries()[*e as usize];
            let name = inner.key.iter().find_map(|p| self.resolve(*kid, p)).map(|r| self.spelled(r, inner.spelling));
            if name.is_some_and(|n| rule.told_by.contains(&n))
                && let Some(value) = raw.kids.last()
            {
                values.push('\n');
                values.push_str(&self.spelled(*value, Spelling::Exact));
            }
        }
        (!values.is_empty()).then_some(values)
    }

    pub(super) fn resolve(&self, from: u32, path: &KeyPath) -> Option<u32> {
        path.iter().try_fold(from, |at, step| {
            self.raws[at as usize].kids.iter().copied().find(|k| match step {
                Step::Field(field) => self.raws[*k as usize].field == *field,
                Step::Kind(kind) => self.raws[*k as usize].kind == *kind,
            })
        })
    }

    pub(super) fn spelled(&self, raw: u32, spelling: Spelling) -> String {
        let raw = &self.raws[raw as usize];
        let text = &self.source[raw.span.range()];
        let text = String::from_utf8_lossy(&text[marked(text, &self.language.rule(raw.kind).unmarked)..]);
        let quote = |c: char| matches!(c, '"' | '\'');
        match spelling {
            Spelling::Exact => text.chars().filter(|c| !c.is_whitespace() && !quote(*c)).collect(),
            // White space ends the name: what follows is no part of it.
            Spelling::Requirement => requirement_name(text.trim_matches(|c: char| c.is_whitespace() || quote(c))),
        }
    }
}

/// The project name at the start of a PEP 508 requirement, normalised as PEP 503 says: runs of `-`,
/// `_` and `.` become one `-`, in lower case.
fn requirement_name(requirement: &str) -> String {
    let name =
        requirement.split(|c: char| !(c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'))).next().unwrap_or("");
    let mut out = String::with_capacity(name.len());
    for c in name.chars() {
        if matches!(c, '-' | '_' | '.') {
            if !out.ends_with('-') {
                out.push('-');
            }
        } else {
            out.push(c.to_ascii_lowercase());
        }
    }
    out
}
