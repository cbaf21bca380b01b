//! Names that one side took out of a file while the other began to use them in more places.
//!
//! Lines and trees that are each right may then make a program that is not: it uses what nothing in it declares.

use std::collections::HashSet;
use std::ops::Range;

use gix::bstr::ByteSlice;

use crate::grammar::{is_word, stands_alone};
use crate::line;
use crate::merging::Withdrawn;
use crate::rest::Edit;
use crate::syntax::{NodeId, Span, Tree};
use crate::{Side, Version, Versions};

/// The names that base declares, that one side has nowhere any more, and that the other side has more often than
/// base without declaring them anew. `trees` are those of base and of that other side; they are asked for only if
/// there may be such a name.
pub(crate) fn withdrawn<'s>(
    versions: Versions<&'s [u8]>,
    edits: &[Edit],
    trees: impl Fn(Side) -> Option<(Tree<'s>, Tree<'s>)>,
) -> Withdrawn {
    let mut withdrawn = Withdrawn::default();
    for side in Side::BOTH {
        let user = side.other();
        let mut names = used_more(versions, edits, side);
        if !names.is_empty()
            && let Some((base, own)) = trees(user)
        {
            let (old, new) = (Declared::of(&base), Declared::of(&own));
            let more = |name: &[u8], before: Range<usize>, after: Range<usize>| {
                new.often(name, after) > old.often(name, before)
            };
            let everywhere = |version: Version| 0..versions.get(version).len();
            names.retain(|name| {
                old.often(name, everywhere(Version::Base)) > 0
                    && !more(name, everywhere(Version::Base), everywhere(user.into()))
                    // A declaration that now stands elsewhere is one of those that stay.
                    && !edits
                        .iter()
                        .any(|e| !e.changed_by(side) && more(name, e.at(Version::Base), e.at(user.into())))
            });
            withdrawn.by_mut(side).extend(names.into_iter().map(<[u8]>::to_vec));
        }
    }
    withdrawn
}

/// The words that one side took out wherever they were, and that the other side has more often than base.
fn used_more<'s>(versions: Versions<&'s [u8]>, edits: &[Edit], side: Side) -> HashSet<&'s [u8]> {
    let user = side.other();
    let changed = |by: Side, version: Version| {
        let text = versions.get(version);
        let edits = edits.iter().filter(move |e| e.changed_by(by));
        edits.flat_map(|e| words(text, e.at(version))).collect::<HashSet<_>>()
    };
    let count = |version: Version, word: &[u8]| find(versions.get(version), word).count();
    let (mut out, put, used) = (changed(side, Version::Base), changed(side, side.into()), changed(user, user.into()));
    out.retain(|word| {
        used.contains(word)
            && !put.contains(word)
            && count(side.into(), word) == 0
            && count(user.into(), word) > count(Version::Base, word)
    });
    out
}

/// What a person should know of a merge that uses such names: one line each.
pub(crate) fn warnings(withdrawn: &Withdrawn, text: &[u8]) -> Vec<String> {
    let mut found: Vec<(usize, String)> = Vec::new();
    for side in Side::BOTH {
        let (gone, used) = (Version::from(side).name(), Version::from(side.other()).name());
        for name in withdrawn.by(side) {
            let Some(at) = find(text, name).next() else { continue };
            let line = line::lines(&text[..at]).len().max(1);
            let name = String::from_utf8_lossy(name);
            found.push((line, format!("`{name}` at line {line}: {gone} took it out of the file, {used} uses it anew")));
        }
    }
    found.sort();
    found.into_iter().map(|(_, warning)| warning).collect()
}

/// Where a word stands in a text.
fn find<'t>(text: &'t [u8], word: &'t [u8]) -> impl Iterator<Item = usize> + 't {
    text.find_iter(word).filter(move |at| stands_alone(text, *at..at + word.len()))
}

/// The words in a range of a text.
fn words(text: &[u8], range: Range<usize>) -> impl Iterator<Item = &[u8]> {
    text[range].split(|b| !is_word(*b)).filter(|word| word.first().is_some_and(|b| !b.is_ascii_digit()))
}

/// The names that a text declares, and where.
struct Declared<'t, 's> {
    tree: &'t Tree<'s>,
    names: Vec<Span>,
}

impl<'t, 's> Declared<'t, 's> {
    fn of(tree: &'t Tree<'s>) -> Declared<'t, 's> {
        Declared { tree, names: tree.declared(NodeId::ROOT) }
    }

    /// How often a name is declared within some bytes.
    fn often(&self, name: &[u8], within: Range<usize>) -> usize {
        let inside = self.names.iter().filter(|span| within.contains(&(span.start as usize)));
        inside.filter(|span| self.tree.text(**span) == name).count()
    }
}
