//! What a person should know of names that one side withdrew, in words.

use std::cell::LazyCell;

use gix::bstr::ByteSlice;
use rustc_hash::FxHashSet as HashSet;

use super::super::Edit;
use crate::grammar::{find_word, unspaced};
use crate::layout::Page;
use crate::line;
use crate::merging::{Used, Withdrawn};
use crate::{Side, Version, Versions};

/// So many of them are warned of one by one.
const WARNINGS: usize = 20;

/// What a person should know of a line merge that uses what a side withdrew from a definition: one line each. Of what it
/// withdrew from the whole file, [`warnings`] tell.
pub(crate) fn used_by_lines(
    withdrawn: &Withdrawn,
    text: &[u8],
    versions: Versions<&[u8]>,
    edits: &[Edit],
) -> Vec<String> {
    let lines = line::lines(text);
    let in_file = withdrawn.used().iter().filter(|used| !withdrawn.holds(used.gone_from, &used.name));
    let found = in_file.filter_map(|Used { edit, gone_from, name }| {
        let user = gone_from.other();
        let edited = &versions.get(user)[edits[*edit].at(user.into())];
        let at = text.find(edited)? + find_word(edited, name).next()?;
        Some(warning(line::above(&lines, &text[at..]).max(1), name, *gone_from, "the code around"))
    });
    told(found.collect())
}

/// What a person should know of a merge that uses such names: one line each.
pub(crate) fn warnings(withdrawn: &Withdrawn, text: &[u8], versions: Versions<&[u8]>) -> Vec<String> {
    let lines = line::lines(text);
    let old: HashSet<&[u8]> = line::lines(versions.base).into_iter().collect();
    let bare = LazyCell::new(|| unspaced(text));
    let mut found = Vec::new();
    for side in Side::BOTH {
        let [gone, members, unfit] =
            [withdrawn.by(side).len(), withdrawn.members(side).len(), withdrawn.unfit(side).len()];
        if gone + members + unfit == 0 {
            continue;
        }
        let own: HashSet<&[u8]> = line::lines(versions.get(side)).into_iter().collect();
        // Where it is used anew, rather than where base had it too.
        let used_at = |name: &[u8]| {
            let there = || uses(&lines, text, name).filter(|at| !own.contains(lines[at - 1]));
            there().find(|at| !old.contains(lines[at - 1])).or_else(|| there().next())
        };
        let members = withdrawn.members(side).iter().filter(|name| !withdrawn.by(side).contains_key(*name));
        for name in withdrawn.by(side).keys().chain(members) {
            found.extend(used_at(name).map(|line| warning(line, name, side, "the file")));
        }
        // What was merged to fit is no such call any more.
        for call in withdrawn.unfit(side).values().filter(|call| bare.find(&call.text).is_some()) {
            found.extend(used_at(&call.name).map(|line| (line, unfit_call(line, &call.name, side))));
        }
    }
    told(found)
}

/// A warning of a call that does not fit what a side made of the definition.
fn unfit_call(line: usize, name: &[u8], side: Side) -> String {
    let (changed, called) = (Version::from(side).name(), Version::from(side.other()).name());
    let name = String::from_utf8_lossy(name);
    format!("`{name}` at line {line}: {changed} changed what it takes, {called} calls it anew as it was")
}

/// Why some statements of a page are in dispute although they stand alone there, and what to mind in others: one line for
/// each name in them that a side took out of the code around. Of those that it took out of the whole file, [`warnings`]
/// tell.
pub(crate) fn reasons(page: &Page, withdrawn: &Withdrawn, marker_size: usize) -> Vec<String> {
    let lines = line::lines(&page.text);
    let blocks = line::blocks(&lines, marker_size);
    let disputed = |line: &usize| blocks.iter().any(|block| block.lines.contains(&(line - 1)));
    let used = withdrawn.used().iter().map(|used| (used.gone_from, &used.name));
    let names = page.gone.iter().map(|(side, name)| (*side, name)).chain(used);
    let found = names.filter(|(side, name)| !withdrawn.holds(*side, name)).filter_map(|(side, name)| {
        let at = uses(&lines, &page.text, name).find(disputed)?;
        Some(warning(at, name, side, "the code around"))
    });
    told(found.collect())
}

/// What a person should know of the lines that stand instead of a page where statements are in dispute because of a
/// name that a side took out of the code around them.
pub(crate) fn used_anew(page: &Page) -> Vec<String> {
    let mut names: Vec<_> = page.gone.iter().collect();
    names.sort();
    names.dedup();
    let told = |(side, name): &(Side, Vec<u8>)| {
        let (gone, used) = (Version::from(*side).name(), Version::from(side.other()).name());
        format!("{used} uses `{}` anew in code that {gone} took it out of", String::from_utf8_lossy(name))
    };
    names.into_iter().take(WARNINGS).map(told).collect()
}

/// The lines, from 1, on which a name stands.
fn uses<'t>(lines: &'t [&[u8]], text: &'t [u8], name: &'t [u8]) -> impl Iterator<Item = usize> + 't {
    find_word(text, name).map(move |at| line::above(lines, &text[at..]).max(1))
}

/// A warning of a name that `side` took out of something, with the line it is about.
fn warning(line: usize, name: &[u8], side: Side, of: &str) -> (usize, String) {
    let (gone, used) = (Version::from(side).name(), Version::from(side.other()).name());
    let name = String::from_utf8_lossy(name);
    (line, format!("`{name}` at line {line}: {gone} took it out of {of}, {used} uses it anew"))
}

/// Warnings in the order of the lines, so many of them.
fn told(mut found: Vec<(usize, String)>) -> Vec<String> {
    found.sort();
    found.dedup();
    let more = found.len().saturating_sub(WARNINGS);
    let mut warnings: Vec<String> = found.into_iter().take(WARNINGS).map(|(_, warning)| warning).collect();
    if more > 0 {
        warnings.push(format!("so it is with {more} more names"));
    }
    warnings
}
