//! What may be wrong with an answer (contract K4).

use crate::syntax::ParseError;

/// What is wrong with a text that was put together.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unsound {
    /// It does not parse.
    #[error("{0}")]
    Parse(#[from] ParseError),
    /// It has an entry twice that neither side had twice.
    #[error("{kind} `{name}` would stand twice at line {line}")]
    Twice {
        /// What kind of entry.
        kind: String,
        /// The entry's first line.
        name: String,
        /// The line of the second, from 1.
        line: usize,
    },
    /// It takes a name from two places, as neither side did, or takes one that it also defines.
    #[error("`{name}` at line {line} shadows another one above: each side brought in one of them")]
    Shadows {
        /// The name.
        name: String,
        /// The line of the second, from 1.
        line: usize,
    },
    /// A statement stands right beside the same one, or beside a block that has it there, or an operator joins something
    /// with itself, as in neither side.
    #[error("`{name}` at line {line} stands twice there: each side put in one of them")]
    Echoes {
        /// The statement's first line.
        name: String,
        /// The line of one of them, from 1.
        line: usize,
    },
    /// An entry would define a path that another one has defined as something else.
    #[error("`{name}` at line {line} would be defined in two ways")]
    Clash {
        /// The path, as written.
        name: String,
        /// The line, from 1.
        line: usize,
    },
    /// An entry would stand in a table that one side took out.
    #[error("`{name}` at line {line} would stand in what one side took out")]
    Revived {
        /// The path, as written.
        name: String,
        /// The line, from 1.
        line: usize,
    },
    /// An entry would stand before one it must not precede.
    #[error("the order of {kind} would be wrong at line {line}")]
    Order {
        /// What kind of entry.
        kind: String,
        /// The line, from 1.
        line: usize,
    },
    /// Something would be listed by its path as the sides together do not have it.
    #[error("`{name}` would not be listed at line {line} as both sides made it")]
    Mislisted {
        /// Its path, as written.
        name: String,
        /// The line, from 1, of it or of what is listed first.
        line: usize,
    },
    /// It uses a name of one side without what declares it there.
    #[error("nothing declares `{name}` at line {line}")]
    Undeclared {
        /// The name.
        name: String,
        /// The line, from 1.
        line: usize,
    },
    /// It uses a name above what declares it, as neither side does.
    #[error("`{name}` at line {line} would stand above what declares it")]
    Early {
        /// The name.
        name: String,
        /// The line, from 1.
        line: usize,
    },
    /// It calls what does not take what it is given, as neither side does.
    #[error("the call of `{name}` at line {line} would not give what that takes")]
    Misfit {
        /// The name.
        name: String,
        /// The line, from 1.
        line: usize,
    },
    /// A list would not hold what the sides made of it.
    #[error("the list at line {line} would not be what both sides made of it")]
    Jumbled {
        /// The line, from 1.
        line: usize,
    },
}

impl Unsound {
    /// The same with another line.
    #[must_use]
    pub fn at(mut self, line: usize) -> Unsound {
        if let Unsound::Twice { line: old, .. }
        | Unsound::Shadows { line: old, .. }
        | Unsound::Echoes { line: old, .. }
        | Unsound::Clash { line: old, .. }
        | Unsound::Revived { line: old, .. }
        | Unsound::Order { line: old, .. }
        | Unsound::Mislisted { line: old, .. }
        | Unsound::Undeclared { line: old, .. }
        | Unsound::Early { line: old, .. }
        | Unsound::Misfit { line: old, .. }
        | Unsound::Jumbled { line: old } = &mut self
        {
            *old = line;
        }
        self
    }

    /// The line of the fault in the text, from 1.
    pub fn line(&self) -> usize {
        match self {
            Unsound::Parse(
                ParseError::Syntax { line, .. } | ParseError::Misplaced { line, .. } | ParseError::TooDeep(line),
            ) => *line,
            Unsound::Parse(ParseError::NotUtf8(_)) => 1,
            Unsound::Twice { line, .. }
            | Unsound::Shadows { line, .. }
            | Unsound::Echoes { line, .. }
            | Unsound::Clash { line, .. }
            | Unsound::Revived { line, .. }
            | Unsound::Order { line, .. }
            | Unsound::Mislisted { line, .. }
            | Unsound::Undeclared { line, .. }
            | Unsound::Early { line, .. }
            | Unsound::Misfit { line, .. }
            | Unsound::Jumbled { line } => *line,
        }
    }
}
