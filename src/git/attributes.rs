//! What gitattributes say of a path, and which file and line says it.

use std::fs;
use std::path::{Path, PathBuf};

use gix::attrs::search::{MetadataCollection, Outcome};
use gix::attrs::{Search, StateRef};
use gix::bstr::{BString, ByteSlice};
use gix::glob::pattern::Case;

use crate::git::{Config, Place};
use crate::grammar::{self, Language};
use crate::report::shown;

/// The state of one attribute for one path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum State {
    /// `attribute`
    Set,
    /// `-attribute`
    Unset,
    /// `attribute=value`
    Value(BString),
    /// `!attribute`: as if nobody had said anything.
    Unspecified,
}

/// A line that decides an attribute.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decision {
    /// What it says.
    pub state: State,
    /// The file that holds the line; none for git's built-in macros.
    pub file: Option<PathBuf>,
    /// The line's number in it, from 1.
    pub line: usize,
    /// The macro by which it was said: `binary` is `-diff -merge -text`.
    pub by_macro: Option<String>,
}

/// The language to read the file at `path` as: what its `linguist-language` attribute says, else
/// what its name says, else what its first line says.
///
/// An attribute that names a language we do not know means that the file is not what its name
/// says, so it is merged as lines.
pub fn language(place: Option<(&Place, &Config)>, path: &[u8], content: &[u8]) -> Option<&'static Language> {
    let attribute = "linguist-language";
    let said = place.and_then(|(place, config)| {
        let files = files(place, config, path);
        // Hardly any repository says it, and matching patterns costs more than reading the files.
        let mentioned = files.iter().any(|f| f.text.contains_str(attribute));
        mentioned.then(|| decide(&files, place, config, path, attribute)).flatten()
    });
    match said {
        Some(Decision { state: State::Value(name), .. }) => name.to_str().ok().and_then(grammar::by_name),
        _ => grammar::for_path(path, content),
    }
}

/// The patterns, in the language of attributes files, of all that the built-in languages are kept in.
pub fn patterns() -> Vec<String> {
    grammar::all().flat_map(patterns_of).collect()
}

/// The patterns of what one language is kept in.
pub fn patterns_of(language: &Language) -> Vec<String> {
    let endings = language.descriptor.extensions.iter().map(|e| format!("*.{e}"));
    endings.chain(language.descriptor.filenames.iter().cloned()).collect()
}

/// Whether the file at `path` is one of those that `pleach install` names.
pub fn names(path: &[u8]) -> bool {
    let name = path.rsplit_str("/").next().unwrap_or(path);
    let is_named = |pattern: &String| match pattern.strip_prefix('*') {
        Some(ending) => name.ends_with(ending.as_bytes()),
        None => name == pattern.as_bytes(),
    };
    patterns().iter().any(is_named)
}

/// A pattern for the file at `path`, counted from the top of the worktree, and no other.
///
/// Written so that a line of text holds it, whatever the path is made of.
pub fn pattern_of(path: &[u8]) -> String {
    written(&[b"/", literal(path).as_slice()].concat())
}

/// Patterns for these files of one language, as few as will do: for one file that file, for several
/// all of the language below the directory they share.
pub fn patterns_covering(language: &Language, paths: &[&BString]) -> Vec<String> {
    if let [path] = paths {
        return vec![pattern_of(path)];
    }
    let named = |pattern: &str| {
        paths.iter().any(|path| match pattern.strip_prefix('*') {
            Some(ending) => path.ends_with(ending.as_bytes()),
            None => path.rsplit_str("/").next() == Some(pattern.as_bytes()),
        })
    };
    let shared = paths.iter().map(|path| directory(path)).reduce(shared_directory).unwrap_or_default();
    let scope = if shared.is_empty() { Vec::new() } else { [b"/", literal(shared).as_slice(), b"**/"].concat() };
    let patterns = patterns_of(language).into_iter().filter(|pattern| named(pattern));
    patterns.map(|pattern| written(&[scope.as_slice(), pattern.as_bytes()].concat())).collect()
}

/// The directory of a path, with the slash; nothing for one at the top.
fn directory(path: &[u8]) -> &[u8] {
    &path[..path.rfind_byte(b'/').map_or(0, |slash| slash + 1)]
}

fn shared_directory<'p>(a: &'p [u8], b: &[u8]) -> &'p [u8] {
    let same = a.iter().zip(b).take_while(|(a, b)| a == b).count();
    directory(&a[..same])
}

/// A path with the characters escaped that mean something in a pattern.
fn literal(path: &[u8]) -> Vec<u8> {
    path.iter().flat_map(|c| if b"*?[\\".contains(c) { vec![b'\\', *c] } else { vec![*c] }).collect()
}

/// A pattern as a line of attributes begins with it: in quotes if white space or the like is in it.
fn written(pattern: &[u8]) -> String {
    let text = shown(pattern);
    if text.contains(' ') && !text.starts_with('"') { format!("\"{text}\"") } else { text }
}

/// The line that decides `attribute` for `path`; none where no line says anything of it.
pub fn decision(place: &Place, config: &Config, path: &[u8], attribute: &str) -> Option<Decision> {
    decide(&files(place, config, path), place, config, path, attribute)
}

/// The line that would decide the `merge` attribute of `path` if the repository's own file of attributes, which outweighs
/// all others, did not; none where no other line says anything of it.
pub fn overruled_merge(place: &Place, config: &Config, path: &[u8]) -> Option<Decision> {
    let mut files = files(place, config, path);
    files.retain(|file| file.path != own_file(place));
    // Matching patterns costs more than reading the files. The macro is built into git.
    let mentions = |file: &AttributesFile| ["merge", "binary"].iter().any(|word| file.text.contains_str(word));
    files.iter().any(mentions).then(|| decide(&files, place, config, path, "merge")).flatten()
}

/// The repository's own file of attributes, which nobody else gets.
pub fn own_file(place: &Place) -> PathBuf {
    place.common_dir.join("info/attributes")
}

/// A file of patterns, read.
struct AttributesFile {
    path: PathBuf,
    text: Vec<u8>,
    reach: Reach,
}

/// Which paths a file's patterns are matched against.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Reach {
    /// Paths from the top of the worktree; the file may define macros.
    Everything,
    /// Paths from the file's own directory.
    ItsDirectory,
}

/// The files that may say something of `path`, the weakest first.
///
/// Of a file that is not checked out git would read the index's copy; that is not done here, as
/// reading an index costs more than a merge. What sparse checkouts leave out are whole directories,
/// and with them the files that such a `.gitattributes` could speak of.
fn files(place: &Place, config: &Config, path: &[u8]) -> Vec<AttributesFile> {
    let mut files = Vec::new();
    let mut add = |path: PathBuf, reach| {
        if let Ok(text) = fs::read(&path) {
            files.push(AttributesFile { path, text, reach });
        }
    };
    add("/etc/gitattributes".into(), Reach::Everything);
    if let Some(path) = config.attributes_file() {
        add(path, Reach::Everything);
    }
    if let Some(top) = &place.worktree {
        add(top.join(".gitattributes"), Reach::Everything);
        for (slash, _) in path.iter().enumerate().filter(|(_, c)| **c == b'/') {
            let Ok(directory) = gix::path::from_byte_slice(&path[..slash]) else { break };
            add(top.join(directory).join(".gitattributes"), Reach::ItsDirectory);
        }
    }
    add(own_file(place), Reach::Everything);
    files
}

fn decide(files: &[AttributesFile], place: &Place, config: &Config, path: &[u8], attribute: &str) -> Option<Decision> {
    let mut collection = MetadataCollection::default();
    let nothing: [PathBuf; 0] = [];
    let mut search = Search::new_globals(nothing, &mut Vec::new(), &mut collection).ok()?;
    for file in files {
        let (root, allow_macros) = match file.reach {
            Reach::Everything => (None, true),
            Reach::ItsDirectory => (place.worktree.as_deref(), false),
        };
        search.add_patterns_buffer(&file.text, file.path.clone(), root, &mut collection, allow_macros).ok()?;
    }
    let mut outcome = Outcome::default();
    outcome.initialize_with_selection(&collection, [attribute]);
    let case = if config.ignores_case() { Case::Fold } else { Case::Sensitive };
    search.pattern_matching_relative_path(path.as_bstr(), case, Some(false), &mut outcome);
    let found = outcome.iter_selected().next()?;
    let state = match found.assignment.state {
        StateRef::Set => State::Set,
        StateRef::Unset => State::Unset,
        StateRef::Value(value) => State::Value(value.as_bstr().to_owned()),
        // Also what is found where nothing is said.
        StateRef::Unspecified if found.location.source.is_none() => return None,
        StateRef::Unspecified => State::Unspecified,
    };
    let by_macro = match found.kind {
        gix::attrs::search::MatchKind::Attribute { macro_id: Some(id) } => {
            outcome.match_by_id(id).map(|m| m.assignment.name.as_str().to_owned())
        }
        _ => None,
    };
    let file = found.location.source.filter(|s| *s != Path::new("[builtin]")).map(Path::to_owned);
    Some(Decision { state, file, line: found.location.sequence_number, by_macro })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pattern_names_one_file_whatever_its_path_is_made_of() {
        assert_eq!(pattern_of(b"src/tides.py"), "/src/tides.py");
        assert_eq!(pattern_of(b"low tide [1].py"), r#""/low tide \\[1].py""#);
        assert_eq!(pattern_of(b"say \"tide\".py"), r#""/say \"tide\".py""#);
        assert_eq!(pattern_of(b"Malm\xf6.py"), r#""/Malm\366.py""#);
    }

    #[test]
    fn several_files_are_named_by_their_endings_below_what_they_share() {
        let covering = |paths: &[&str]| {
            let paths: Vec<BString> = paths.iter().map(|p| BString::from(*p)).collect();
            let python = grammar::by_name("Python").expect("it is built in");
            patterns_covering(python, &paths.iter().collect::<Vec<_>>())
        };
        assert_eq!(covering(&["src/tide/a.py", "src/tide/b/c.py"]), ["/src/tide/**/*.py"]);
        assert_eq!(covering(&["src/tides/a.py", "src/tide/a.pyi"]), ["/src/**/*.py", "/src/**/*.pyi"]);
        assert_eq!(covering(&["src/a.py", "b.py"]), ["*.py"]);
        assert_eq!(covering(&["low tide/a.py", "low tide/b.py"]), ["\"/low tide/**/*.py\""]);
    }
}
