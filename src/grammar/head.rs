//! What the beginning of a statement tells of it, by words.

use super::descriptor::Outline;
use super::words::{is_word, words};

/// What the words that a statement begins with tell of it.
pub(crate) struct Head<'t> {
    /// Whether it gives something a name.
    pub names: bool,
    /// Whether what it names is declared elsewhere.
    pub imports: bool,
    /// Whether statements stand in it.
    pub holds: bool,
    /// What follows those words.
    pub rest: &'t [u8],
}

impl<'t> Head<'t> {
    /// Reads the first line of a statement.
    pub(crate) fn of(line: &'t [u8], rules: &Outline) -> Head<'t> {
        let mut head = Head { names: false, imports: false, holds: false, rest: line.trim_ascii_start() };
        loop {
            let end = head.rest.iter().position(|b| !is_word(*b)).unwrap_or(head.rest.len());
            let (word, rest) = head.rest.split_at(end);
            let among = |words: &[String]| words.iter().any(|w| w.as_bytes() == word);
            let imports = among(&rules.importing);
            if !imports && !among(&rules.naming) {
                return head;
            }
            head.names = true;
            head.imports |= imports;
            head.holds |= rules.signs.as_ref().is_some_and(|signs| among(&signs.holds));
            // As in `pub(crate) fn`.
            let inner = if rest.starts_with(b"(") { rest.iter().position(|b| *b == b')') } else { None };
            head.rest = rest[inner.map_or(0, |close| close + 1)..].trim_ascii_start();
        }
    }

    /// The name that it gives something, as far as its first line tells.
    pub(crate) fn name(&self) -> Option<&'t [u8]> {
        words(self.rest).next().filter(|_| self.names)
    }
}
