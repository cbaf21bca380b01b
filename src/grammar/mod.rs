//! The descriptors of `grammars/`, bound to tree-sitter languages; choosing one for a path.

mod bind;
mod descriptor;
mod head;
mod outline;
mod rules;
mod words;

use std::borrow::Cow;
use std::sync::OnceLock;

pub use bind::BindError;
use bind::Bound;
pub use descriptor::{Defines, Descriptor, Names, Outline, Signs, Spelling};
pub(crate) use head::Head;
pub use rules::{CallRules, EntryRule, KeyPath, Kind, KindRule, LeavesRule, ListRule, PathRules, Step};
pub(crate) use words::{
    continued, find_name, find_word, has_mark, is_behind_dot, is_word, marked, members_in_braces, names, names_in,
    names_in_braces, outer_name, stands_alone, unspaced, words,
};

/// A language that pleach merges as trees.
#[derive(Debug)]
pub struct Language {
    /// The descriptor as written.
    pub descriptor: Descriptor,
    /// The parser's language.
    pub parser: tree_sitter::Language,
    /// What the descriptor says, in the parser's numbers: read when it is first asked for.
    bound: OnceLock<Bound>,
}

/// The names of the kinds that no parser has: [`Kind::ENTRY`] and [`Kind::RUN`].
const OWN: [&str; 2] = ["entry of a list", "run of tokens"];

impl Language {
    /// The language's name, as linguist spells it.
    pub fn name(&self) -> &str {
        &self.descriptor.name
    }

    /// A text of the language as its grammar is to read it; offsets are the same.
    pub(crate) fn as_read<'s>(&self, source: &'s [u8]) -> Cow<'s, [u8]> {
        words::of_today(source, &self.descriptor.word)
    }

    /// Whether it is known where a name is known.
    pub(crate) fn has_scopes(&self) -> bool {
        !self.descriptor.hides.is_empty() || self.has_walls()
    }

    /// Whether names are known in the lists that declare them, and not in what is walled off there.
    pub(crate) fn has_walls(&self) -> bool {
        !self.descriptor.walls.is_empty()
    }

    /// The name of a node kind, for people.
    pub fn kind_name(&self, kind: Kind) -> &str {
        let number = usize::from(kind.0);
        let parsers = |symbol: u16| self.parser.node_kind_for_id(symbol).unwrap_or_default();
        OWN.get(number).copied().unwrap_or_else(|| parsers(self.bound().symbols[number - OWN.len()]))
    }

    fn bound(&self) -> &Bound {
        let bind = || bind::bind(&self.descriptor, &self.parser);
        self.bound.get_or_init(|| bind().unwrap_or_else(|e| panic!("built-in descriptor: {e}")))
    }

    /// Binds the descriptor, so that whoever parses next need not.
    pub(crate) fn make_ready(&self) {
        self.bound();
    }

    /// Our kind for each of the parser's kind ids.
    pub(crate) fn kind_of_symbol(&self) -> &[Kind] {
        &self.bound().kind_of_symbol
    }

    /// What is known of a kind.
    pub(crate) fn rule(&self, kind: Kind) -> &KindRule {
        self.bound().rules.of(kind)
    }

    /// Whether any rule makes nodes of a kind lists whose entries start lines of their own.
    pub(crate) fn lists_lines(&self, kind: Kind) -> bool {
        self.rule(kind).lists.iter().any(|l| self.lists()[*l as usize].lines)
    }

    /// All list rules, referred to by index.
    pub(crate) fn lists(&self) -> &[ListRule] {
        &self.bound().lists
    }

    /// All rules of what goes out of what, referred to by index.
    pub(crate) fn leaves(&self) -> &[LeavesRule] {
        &self.bound().leaves
    }

    /// All entry rules, referred to by index.
    pub(crate) fn entries(&self) -> &[EntryRule] {
        &self.bound().entries
    }

    /// How lines alone tell where statements begin, if they do.
    pub(crate) fn outline(&self) -> Option<&Outline> {
        self.descriptor.outline.as_ref()
    }

    /// The words before what a statement names, as far as lines tell.
    pub(crate) fn naming(&self) -> &[String] {
        self.outline().map_or(&[], |outline| &outline.naming)
    }

    /// What is listed by its path, if anything is.
    pub(crate) fn paths(&self) -> Option<&PathRules> {
        self.bound().paths.as_ref()
    }

    /// How calls and definitions fit together, as far as that is known.
    pub(crate) fn calls(&self) -> &[CallRules] {
        &self.bound().calls
    }

    /// Whether a name is that of a method that is called where the name of its owner is.
    pub(crate) fn is_constructor(&self, name: &[u8]) -> bool {
        self.descriptor.calls.iter().flat_map(|calls| &calls.constructor).any(|one| one.as_bytes() == name)
    }

    /// Whether braces hold what something takes that this word stands before the name of.
    pub(crate) fn is_braced(&self, word: &[u8]) -> bool {
        self.descriptor.calls.iter().flat_map(|calls| &calls.braced).any(|one| one.as_bytes() == word)
    }

    /// The sign between the parts of a path.
    pub(crate) fn path_sign(&self) -> Option<&[u8]> {
        self.descriptor.paths.as_ref().map(|paths| paths.sign.as_bytes())
    }

    /// Whether a part of a path stands for what the path stands in.
    pub(crate) fn is_here(&self, part: &str) -> bool {
        self.descriptor.paths.as_ref().is_some_and(|paths| !paths.here.is_empty() && paths.here == part)
    }

    /// Whether what stands behind a name says that it is another one: with `=` behind it, a sign may be an operator.
    pub(crate) fn is_apart(&self, behind: &[u8]) -> bool {
        let mut signs = self.descriptor.apart.iter().filter_map(|sign| behind.strip_prefix(sign.as_bytes()));
        signs.any(|rest| !rest.starts_with(b"="))
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
    let descriptor: Descriptor = toml::from_str(descriptor)?;
    let bound = bind::bind(&descriptor, &parser)?.into();
    Ok(Language { descriptor, parser, bound })
}

/// A language of the program's own. Its descriptor is read when a file is known to be of it, and bound to the parser's
/// language only if the file is parsed: git starts the program anew for each file.
struct BuiltIn {
    /// What `build.rs` wrote of the descriptor in `grammars/`, in the format of postcard: [`Names`], [`Descriptor`].
    names: &'static [u8],
    descriptor: &'static [u8],
    parser: fn() -> tree_sitter::Language,
    known_by: OnceLock<Names<'static>>,
    language: OnceLock<Language>,
}

macro_rules! built_in {
    ($name:literal, $parser:expr) => {
        BuiltIn {
            names: include_bytes!(concat!(env!("OUT_DIR"), "/", $name, ".names")),
            descriptor: include_bytes!(concat!(env!("OUT_DIR"), "/", $name, ".descriptor")),
            parser: || $parser.into(),
            known_by: OnceLock::new(),
            language: OnceLock::new(),
        }
    };
}

/// In the order of their names.
static BUILT_IN: [BuiltIn; 3] = [
    built_in!("python", tree_sitter_python::LANGUAGE),
    built_in!("rust", tree_sitter_rust::LANGUAGE),
    built_in!("toml", tree_sitter_toml_ng::LANGUAGE),
];

impl BuiltIn {
    fn names(&self) -> &Names<'static> {
        self.known_by.get_or_init(|| written(self.names))
    }

    fn language(&self) -> &Language {
        let unbound =
            || Language { descriptor: written(self.descriptor), parser: (self.parser)(), bound: OnceLock::new() };
        self.language.get_or_init(unbound)
    }
}

/// What `build.rs` wrote.
fn written<'b, T: serde::Deserialize<'b>>(bytes: &'b [u8]) -> T {
    postcard::from_bytes(bytes).unwrap_or_else(|e| panic!("built-in descriptor: {e}"))
}

/// The first built-in language that is known as asked.
fn find(is_it: impl Fn(&Names<'_>) -> bool) -> Option<&'static Language> {
    BUILT_IN.iter().find(|l| is_it(l.names())).map(BuiltIn::language)
}

/// All built-in languages, in the order of their names.
pub fn all() -> impl Iterator<Item = &'static Language> {
    BUILT_IN.iter().map(BuiltIn::language)
}

/// The language of that name (`linguist-language` attribute values are compared without case).
pub fn by_name(name: &str) -> Option<&'static Language> {
    find(|known| std::iter::once(&known.name).chain(&known.aliases).any(|n| n.eq_ignore_ascii_case(name)))
}

/// The language for a path (bytes, as git gives it), or for the shebang line of `content`.
pub fn for_path(path: &[u8], content: &[u8]) -> Option<&'static Language> {
    let name = file_name(path);
    let ending = name.iter().rposition(|c| *c == b'.').map(|dot| name[dot + 1..].to_ascii_lowercase());
    let is_it = |known: &Names<'_>| {
        known.filenames.iter().any(|f| f.as_bytes() == name)
            || ending.as_ref().is_some_and(|e| known.extensions.iter().any(|x| x.as_bytes() == e))
    };
    find(is_it).or_else(|| for_shebang(content))
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
    find(|known| known.interpreters.iter().any(|i| *i == program || *i == unversioned))
}

fn file_name(path: &[u8]) -> &[u8] {
    path.rsplit(|c| *c == b'/').next().unwrap_or(path)
}
