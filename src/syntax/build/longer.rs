//! Entries that are in another one by what their keys say.

use super::Builder;
use super::read::Kids;
use crate::grammar::EntryRule;

impl Builder<'_, '_> {
    /// Puts entries into those before them that hold what has a longer key: a `[route.tls]` belongs to the `[[route]]`
    /// above it (TOML v1.0.0, "Array of Tables"). Comments above them go along.
    pub(super) fn nest(&mut self) {
        for list in 0..self.raws.len() {
            let holds = |k: &u32| self.rule_of(*k).is_some_and(|r| r.holds_longer);
            if self.raws[list].kids.iter().any(holds) {
                let kids = std::mem::take(&mut self.raws[list].kids);
                self.raws[list].kids = self.nested(kids);
            }
        }
    }

    /// The entries of a list that are in no other.
    fn nested(&mut self, kids: Kids) -> Kids {
        let mut kept = Kids::with_capacity(kids.len());
        // Those that may hold what follows, each in the one before, and their keys.
        let mut open: Vec<(u32, String)> = Vec::new();
        let mut comments = Kids::new();
        for kid in kids {
            if self.language.rule(self.raws[kid as usize].kind).comment {
                comments.push(kid);
                continue;
            }
            let key = self.rule_of(kid).and_then(|rule| {
                let parts = rule.key.iter().find_map(|path| self.resolve(kid, path))?;
                Some(self.spelled(parts, rule.spelling))
            });
            let within = |outer: &str| {
                let rest = key.as_deref().and_then(|key| key.strip_prefix(outer));
                rest.is_some_and(|rest| rest.starts_with('.'))
            };
            while open.last().is_some_and(|(_, outer)| !within(outer)) {
                open.pop();
            }
            let end = self.raws[kid as usize].span.end;
            let into = open.last().map(|(holder, _)| *holder);
            for (holder, _) in &open {
                self.raws[*holder as usize].span.end = end;
            }
            let list = into.map_or(&mut kept, |holder| &mut self.raws[holder as usize].kids);
            list.append(&mut comments);
            list.push(kid);
            if let Some(key) = key.filter(|_| self.rule_of(kid).is_some_and(|r| r.holds_longer)) {
                open.push((kid, key));
            }
        }
        kept.append(&mut comments);
        kept
    }

    /// What the language says of an entry of a raw node's kind.
    pub(super) fn rule_of(&self, raw: u32) -> Option<&'static EntryRule> {
        let entry = self.language.rule(self.raws[raw as usize].kind).entries.first()?;
        Some(&self.language.entries()[*entry as usize])
    }
}
