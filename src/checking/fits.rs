//! Calls that do not fit the definition that they are of, as neither side has any: each side may be right, and their merge
//! not compile, or stop when it is run.

use std::cell::LazyCell;

use rustc_hash::FxHashMap as HashMap;

use super::unsound::Unsound;
use crate::Side;
use crate::syntax::{Callable, NodeId, Tree};

/// The names by which a tree calls what does not take what it is given, each with the first such call, and whether all of
/// these are among tokens without structure.
pub type Misfits<'s> = HashMap<&'s [u8], (NodeId, bool)>;

/// Those of a tree, where it is clear of which definition a call is.
pub fn misfits<'s>(tree: &Tree<'s>) -> Misfits<'s> {
    Callable::all(tree).iter().flat_map(|callable| callable.misfits(tree)).collect()
}

/// The first call in a tree that does not fit its definition, if neither side calls anything of that name so. What the
/// sides call so is asked for only if that may matter. Where a side has such a call among tokens without structure, a macro
/// puts in what calls lack: then none there tells anything.
///
/// Rule: The Python Language Reference, 6.3.4, "Calls"; The Rust Reference, "Call expressions", "Struct
/// expressions" and "Struct patterns".
pub fn misfit<'s>(tree: &Tree<'_>, side: impl Fn(Side) -> Misfits<'s>) -> Option<Unsound> {
    let there = LazyCell::new(|| Side::BOTH.map(side));
    let puts_in = LazyCell::new(|| there.iter().flat_map(HashMap::values).any(|(_, in_tokens)| *in_tokens));
    let known = |name: &[u8]| there.iter().any(|side| side.contains_key(name));
    let new = |name: &[u8], in_tokens: bool| !known(name) && (!in_tokens || !*puts_in);
    let here = misfits(tree).into_iter().filter(|(name, (_, in_tokens))| new(name, *in_tokens));
    let (name, (call, _)) = here.min_by_key(|(_, (call, _))| *call)?;
    let line = tree.line_of(tree.node(call).span.start);
    Some(Unsound::Misfit { name: String::from_utf8_lossy(name).into_owned(), line })
}
