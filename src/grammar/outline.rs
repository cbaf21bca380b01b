//! What lines alone tell of statements.

use super::{Outline, is_word, words};

impl Outline {
    /// Whether a line is a comment and nothing else.
    pub(crate) fn is_comment(&self, line: &[u8]) -> bool {
        line.trim_ascii_start().starts_with(self.comment.as_bytes())
    }

    /// Whether statements begin on a word that give something a name.
    pub(crate) fn is_naming(&self, word: &[u8]) -> bool {
        self.naming.iter().any(|name| name.as_bytes() == word)
    }

    /// Whether they take a name from elsewhere.
    pub(crate) fn is_importing(&self, word: &[u8]) -> bool {
        self.importing.iter().any(|name| name.as_bytes() == word)
    }

    /// The member that a statement gives a value, as far as its first line tells.
    pub(crate) fn member_given_a_value<'t>(&self, line: &'t [u8]) -> Option<&'t [u8]> {
        let at = line.iter().position(|byte| self.setting.iter().any(|sets| *sets == char::from(*byte)))?;
        words(&line[..at]).last()
    }

    /// The name that a statement gives a value, as far as its first line tells.
    pub(crate) fn given_a_value<'t>(&self, line: &'t [u8]) -> Option<&'t [u8]> {
        let line = line.trim_ascii();
        let (name, rest) = line.split_at(line.iter().take_while(|byte| is_word(**byte)).count());
        let (sign, value) = rest.trim_ascii_start().split_first()?;
        let sets = self.setting.iter().any(|sets| *sets == char::from(*sign));
        // Twice the sign is another one, as in `level == 3`.
        (sets && !name.is_empty() && !value.is_empty() && value[0] != *sign).then_some(name)
    }
}
