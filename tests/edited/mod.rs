//! What the contract tests and the external oracles share: real sources, plausible edits of them, and
//! readings of texts that owe nothing to the crate under test.
#![allow(dead_code, reason = "each test crate uses its part")]

pub mod blocks;
pub mod edits;
pub mod lex;
pub mod rng;
pub mod scenario;
pub mod sources;
pub mod trees;

use pleach::grammar::{self, Language};

/// A language under test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Lang {
    Python,
    Rust,
    Toml,
}

impl Lang {
    pub const ALL: [Lang; 3] = [Lang::Python, Lang::Rust, Lang::Toml];

    pub fn extension(self) -> &'static str {
        match self {
            Lang::Python => "py",
            Lang::Rust => "rs",
            Lang::Toml => "toml",
        }
    }

    /// pleach's language, as a user gets it: by a path.
    pub fn language(self) -> Option<&'static Language> {
        let language = grammar::for_path(format!("file.{}", self.extension()).as_bytes(), b"");
        assert!(language.is_some(), "no language for .{}", self.extension());
        language
    }

    /// The grammar itself, past pleach's parsing.
    pub fn parser(self) -> tree_sitter::Parser {
        let language = match self {
            Lang::Python => tree_sitter_python::LANGUAGE.into(),
            Lang::Rust => tree_sitter_rust::LANGUAGE.into(),
            Lang::Toml => tree_sitter_toml_ng::LANGUAGE.into(),
        };
        let mut parser = tree_sitter::Parser::new();
        parser.set_language(&language).expect("the grammar fits");
        parser
    }
}
