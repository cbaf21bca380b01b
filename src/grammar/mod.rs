//! The descriptors of `grammars/`, bound to tree-sitter languages; choosing one for a path.

mod bind;
mod descriptor;
mod words;

use std::borrow::Cow;
use std::sync::LazyLock;

pub use bind::{BindError, EntryRule, KeyPath, Kind, KindRule, ListRule, Step};
pub use descriptor::{Defines, Descriptor, Outline, Spelling};
pub(crate) use words::{find_word, is_word, stands_alone, words};

/// A language that pleach merges as trees.
#[derive(Debug)]
pub struct Language {
    /// The descriptor as written.
    pub descriptor: Descriptor,
    /// The parser's language.
    pub parser: tree_sitter::Language,
    /// Our kind for each of the parser's kind ids (aliases of one name share a kind).
    pub(crate) kind_of_symbol: Vec<Kind>,
    /// The name of each kind.
    pub(crate) kind_names: Vec<String>,
    /// What is known of each kind.
    pub(crate) rules: Vec<KindRule>,
    /// All list rules, referred to by index.
    pub(crate) lists: Vec<ListRule>,
    /// All entry rules, referred to by index.
    pub(crate) entries: Vec<EntryRule>,
}

impl Language {
    /// The language's name, as linguist spells it.
    pub fn name(&self) -> &str {
        &self.descriptor.name
    }

    /// A text of the language as its grammar is to read it; offsets are the same.
    pub(crate) fn as_read<'s>(&self, source: &'s [u8]) -> Cow<'s, [u8]> {
        words::with_names(source, &self.descriptor.word)
    }

    /// The name of a node kind, for people.
    pub fn kind_name(&self, kind: Kind) -> &str {
        &self.kind_names[kind.0 as usize]
    }

    pub(crate) fn rule(&self, kind: Kind) -> &KindRule {
        &self.rules[kind.0 as usize]
    }

    /// The command that would write the file at `path` again, if a tool wrote it.
    pub fn regenerate_command(&self, path: &[u8]) -> Option<&str> {
        let name = file_name(path);
        self.descriptor.generated.iter().find(|g| g.filename.as_bytes() == name).map(|g| g.command.as_str())
    }
}

/// Reads one descriptor and binds it to its parser's language.
///
/// # Errors
/// A name that the grammar does not know is an error naming it.
pub fn load(descriptor: &str, parser: tree_sitter::Language) -> Result<Language, BindError> {
    bind::bind(toml::from_str(descriptor)?, parser)
}

/// The built-in languages, in the order of their names. Each is read when it is first asked for: most runs
/// of the program need one.
static BUILT_IN: [LazyLock<Language>; 3] = [
    LazyLock::new(|| built_in(include_str!("../../grammars/python.toml"), tree_sitter_python::LANGUAGE.into())),
    LazyLock::new(|| built_in(include_str!("../../grammars/rust.toml"), tree_sitter_rust::LANGUAGE.into())),
    LazyLock::new(|| built_in(include_str!("../../grammars/toml.toml"), tree_sitter_toml_ng::LANGUAGE.into())),
];

fn built_in(descriptor: &str, parser: tree_sitter::Language) -> Language {
    load(descriptor, parser).unwrap_or_else(|e| panic!("built-in descriptor: {e}"))
}

/// All built-in languages, in the order of their names.
pub fn all() -> impl Iterator<Item = &'static Language> {
    BUILT_IN.iter().map(|l| &**l)
}

/// The language of that name (`linguist-language` attribute values are compared without case).
pub fn by_name(name: &str) -> Option<&'static Language> {
    all().find(|l| {
        std::iter::once(&l.descriptor.name).chain(&l.descriptor.aliases).any(|n| n.eq_ignore_ascii_case(name))
    })
}

/// The language for a path (bytes, as git gives it), or for the shebang line of `content`.
pub fn for_path(path: &[u8], content: &[u8]) -> Option<&'static Language> {
    let name = file_name(path);
    let ending = name.iter().rposition(|c| *c == b'.').map(|dot| &name[dot + 1..]);
    let known = all().find(|l| {
        let d = &l.descriptor;
        d.filenames.iter().any(|f| f.as_bytes() == name)
            || ending.is_some_and(|e| d.extensions.iter().any(|x| x.as_bytes().eq_ignore_ascii_case(e)))
    });
    known.or_else(|| for_shebang(content))
}

/// The language of the interpreter named in a `#!` line, if `content` starts with one.
fn for_shebang(content: &[u8]) -> Option<&'static Language> {
    let line = content.strip_prefix(b"#!")?.split(|c| *c == b'\n').next()?;
    let line = std::str::from_utf8(line).ok()?;
    let mut words = line.split_whitespace();
    let mut program = words.next()?.rsplit('/').next()?;
    if program == "env" {
        // `env -S python3 -u` and `env VAR=1 python3` name the interpreter in the first plain word.
        program = words.find(|w| !w.starts_with('-') && !w.contains('='))?.rsplit('/').next()?;
    }
    let unversioned = program.trim_end_matches(|c: char| c.is_ascii_digit() || c == '.');
    all().find(|l| l.descriptor.interpreters.iter().any(|i| i == program || i == unversioned))
}

fn file_name(path: &[u8]) -> &[u8] {
    path.rsplit(|c| *c == b'/').next().unwrap_or(path)
}
