//! What stands twice where each side put it in once.

use std::cell::LazyCell;
use std::ops::Range;
use std::rc::Rc;

use gix::bstr::ByteSlice;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::books::tokens;
use super::census::{Counts, Had, keep_most, key_paths, words};
use super::sound::Sides;
use crate::Versions;
use crate::grammar::is_word;
use crate::line;
use crate::syntax::{NodeId, Part, Tree, mix};

/// Shorter statements may well stand both in a block and beside it.
const ECHO_TOKENS: u32 = 3;

/// The statements that stand right beside the same, or right behind a block that ends with it, or right before one that
/// begins with it, those with a block that stand in one that begins alike, and expressions that join something with
/// itself: twice each.
pub(super) fn echoes(tree: &Tree<'_>) -> Counts {
    let mut counts = Counts::default();
    // Most texts have none.
    let paths = LazyCell::new(|| key_paths(tree));
    for id in (0..tree.len() as u32).map(NodeId) {
        if joins_itself(tree, id) {
            counts.insert((paths[id.index()], mix(19, words(tree.node_text(id)))), (2, id));
        }
        if !tree.is_block(id) {
            for (said, entry) in beside_the_same(tree, id) {
                counts.insert((paths[id.index()], mix(20, said)), (2, entry));
            }
            continue;
        }
        let entries = tree.part(id, Part::Entry).iter().copied().filter(|entry| counts_twice(tree, *entry));
        let statements: Vec<(NodeId, u64)> = entries.map(|entry| (entry, said(tree, entry))).collect();
        if let Some(holder) = head(tree, tree.node(id).parent) {
            for (entry, _) in &statements {
                let core = tree.node(*entry).core;
                let own = head(tree, core).or_else(|| head(tree, *tree.kids(core).first()?));
                if own == Some(holder) {
                    counts.insert((paths[id.index()], mix(18, holder)), (2, *entry));
                }
            }
        }
        for pair in statements.windows(2) {
            let [before, behind] = [pair[0], pair[1]];
            let (found, said) =
                if before.1 == behind.1 || ends(tree, before.0, true).any(|last| said(tree, last) == behind.1) {
                    behind
                } else if ends(tree, behind.0, false).any(|first| said(tree, first) == before.1) {
                    before
                } else {
                    continue;
                };
            counts.insert((paths[id.index()], mix(17, said)), (2, found));
        }
    }
    counts
}

/// A hash of what an entry says.
fn said(tree: &Tree<'_>, entry: NodeId) -> u64 {
    words(tree.node_text(tree.node(entry).core))
}

/// Whether a statement says enough to be missed, and to be there once too often. What is imported twice is the same.
fn counts_twice(tree: &Tree<'_>, entry: NodeId) -> bool {
    let imports = tree.entry_rule(entry).is_some_and(|rule| rule.imports);
    tree.size(entry) >= ECHO_TOKENS && !tree.is_comment(entry) && !imports
}

/// The entries of a list of no statements, other than short ones, and the decorators and attributes, that stand right
/// behind the same, with what they say.
fn beside_the_same(tree: &Tree<'_>, parent: NodeId) -> impl Iterator<Item = (u64, NodeId)> {
    let long = |id: NodeId| tree.node(id).part == Part::Entry && tree.size(id) > ECHO_TOKENS;
    let told = move |id: NodeId| (long(id) || tree.is_prefix(id)) && !tree.is_comment(id);
    tree.kids(parent).windows(2).filter_map(move |pair| {
        let same = pair.iter().all(|id| told(*id)) && said(tree, pair[0]) == said(tree, pair[1]);
        same.then(|| (said(tree, pair[1]), pair[1]))
    })
}

/// Whether a node is an operator between two things that are the same.
fn joins_itself(tree: &Tree<'_>, id: NodeId) -> bool {
    let mut operands = tree.kids(id).iter().filter(|kid| !tree.node(**kid).anonymous && !tree.is_comment(**kid));
    tree.language.rule(tree.node(id).kind).joint
        && operands.next().zip(operands.next()).is_some_and(|(x, y)| tree.node(*x).hash == tree.node(*y).hash)
        && operands.next().is_none()
}

/// A hash of what a statement with a block begins with.
fn head(tree: &Tree<'_>, statement: NodeId) -> Option<u64> {
    let head = tree.head(statement);
    let whole = tree.block(statement).is_some() && !head.is_empty();
    whole.then(|| head.iter().fold(18, |hash, part| mix(hash, words(tree.node_text(*part)))))
}

/// The first or the last statement in each block of a statement.
fn ends(tree: &Tree<'_>, entry: NodeId, last: bool) -> impl Iterator<Item = NodeId> {
    let blocks = tree.branches(tree.node(entry).core).into_iter();
    blocks.filter_map(move |(_, block)| {
        let entries = tree.part(block, Part::Entry);
        if last { entries.last() } else { entries.first() }.copied()
    })
}

/// A statement that stands in a block before.
struct Again {
    path: u64,
    /// What the statements of the block say, and what those with a block begin with.
    block: Rc<[(u64, Option<u64>)]>,
    /// Where in the block it is, and where it was before.
    at: usize,
    before: usize,
    entry: NodeId,
}

/// The statements that stand in their block before, if one of the two is in what differs from a side, `ours`, that has
/// it too.
fn again<'t>(tree: &'t Tree<'_>, differing: &'t [Range<usize>], ours: &'t [u8]) -> impl Iterator<Item = Again> + 't {
    let paths = LazyCell::new(|| key_paths(tree));
    let differs = |entry: NodeId| differs(&tree.node(tree.node(entry).core).span.range(), differing);
    let in_ours = |entry: NodeId| {
        let line = tree.node_text(tree.node(entry).core).split(|b| *b == b'\n').next().unwrap_or_default();
        ours.contains_str(line.trim_ascii_end())
    };
    let blocks = (0..tree.len() as u32).map(NodeId).filter(|id| tree.is_block(*id));
    blocks.flat_map(move |block| {
        let entries: Vec<NodeId> = statements(tree, block).collect();
        let said: Rc<[_]> =
            entries.iter().map(|entry| (said(tree, *entry), head(tree, tree.node(*entry).core))).collect();
        let mut last: HashMap<u64, usize> = HashMap::default();
        let mut found = Vec::new();
        for (at, entry) in entries.iter().enumerate().filter(|(_, entry)| counts_twice(tree, **entry)) {
            let Some(before) = last.insert(said[at].0, at) else { continue };
            if (differs(*entry) || differs(entries[before])) && in_ours(*entry) {
                found.push(Again { path: paths[block.index()], block: said.clone(), at, before, entry: *entry });
            }
        }
        found
    })
}

/// The statements of a block.
fn statements<'t>(tree: &'t Tree<'_>, block: NodeId) -> impl Iterator<Item = NodeId> + 't {
    tree.part(block, Part::Entry).iter().copied().filter(|entry| !tree.is_comment(*entry))
}

/// Whether a text that differs in some ranges from one of the sides, `ours`, may have twice what each side put in.
pub(super) fn perhaps_put_in_twice(tree: &Tree<'_>, differing: &[Range<usize>], ours: &[u8]) -> bool {
    again(tree, differing, ours).next().is_some()
}

/// The first statement that stands in its block once more than in either side, and not at all in base, with nothing
/// before it up to the other one that is in base: each side put it in there. If base has no such block, nobody knows
/// where else it had it, and each side must have more of it than base.
pub(super) fn put_in_twice(
    tree: &Tree<'_>,
    differing: &[Range<usize>],
    ours: &[u8],
    sides: Sides<'_, '_, '_>,
) -> Option<NodeId> {
    let suspects: Vec<Again> = again(tree, differing, ours).collect();
    if suspects.is_empty() {
        return None;
    }
    let trees = sides()?.as_ref();
    let versions = trees.map(|tree| Had::new(in_blocks(tree)));
    let all = LazyCell::new(|| trees.map(everywhere));
    let answer = in_blocks(tree);
    let new = |path: u64, (said, head): (u64, Option<u64>)| match versions.base.knows(path) {
        // One with another block is base's all the same.
        true => [Some(said), head].into_iter().flatten().all(|said| versions.base.most(&(path, said)) == 0),
        false => {
            let count = all.as_ref().map(|all| all.get(&said).copied().unwrap_or(0));
            count.base < count.ours.min(count.theirs)
        }
    };
    let put_in_twice = |again: &Again| {
        let key = (again.path, again.block[again.at].0);
        let (ours, theirs) = (versions.ours.most(&key), versions.theirs.most(&key));
        let more = answer.get(&key).is_some_and(|(n, _)| *n > ours.max(theirs));
        more && ours.min(theirs) > 0 && again.block[again.before..again.at].iter().all(|said| new(again.path, *said))
    };
    suspects.iter().find(|again| put_in_twice(again)).map(|again| again.entry)
}

/// How often each statement stands in a text.
fn everywhere(tree: &Tree<'_>) -> HashMap<u64, u32> {
    let mut counts: HashMap<u64, u32> = HashMap::default();
    let blocks = (0..tree.len() as u32).map(NodeId).filter(|id| tree.is_block(*id));
    for entry in blocks.flat_map(|block| statements(tree, block)) {
        *counts.entry(said(tree, entry)).or_default() += 1;
    }
    counts
}

/// The lines of a text that stand right below the same, with where they are, if they say more than a word.
fn below_the_same(text: &[u8]) -> impl Iterator<Item = (&[u8], Range<usize>)> {
    let mut end = 0;
    let mut above: &[u8] = b"";
    line::lines(text).into_iter().filter_map(move |line| {
        let at = end..end + line.len();
        end = at.end;
        let said = line.trim_ascii();
        let same = std::mem::replace(&mut above, said) == said;
        (same && tokens(said).filter(|token| is_word(token[0])).nth(1).is_some()).then_some((said, at))
    })
}

/// Whether a text has a line right below the same, in what differs from one of the sides.
pub(super) fn perhaps_line_twice(text: &[u8], differing: &[Range<usize>]) -> bool {
    below_the_same(text).any(|(_, at)| differs(&at, differing))
}

/// Where a line stands right below the same for the first time, as in none of the versions, in what differs from one of
/// the sides: comments and lines of texts too. If base has two of another line so, each side may have changed one.
pub(super) fn line_twice(
    tree: &Tree<'_>,
    differing: &[Range<usize>],
    sides: Sides<'_, '_, '_>,
) -> Option<Range<usize>> {
    let own: Vec<(&[u8], Range<usize>)> = below_the_same(tree.source).collect();
    let mut suspects = own.iter().filter(|(_, at)| differs(at, differing)).peekable();
    suspects.peek()?;
    let versions = sides()?.as_ref().map(|tree| below_the_same(tree.source).map(|(said, _)| said).collect());
    let Versions { base, ours, theirs }: Versions<HashSet<&[u8]>> = versions;
    let (_, at) = suspects.find(|(said, _)| ![&base, &ours, &theirs].iter().any(|version| version.contains(said)))?;
    base.is_subset(&own.iter().map(|(said, _)| *said).collect()).then(|| at.clone())
}

/// Whether something is in what differs from a side.
pub(super) fn differs(at: &Range<usize>, differing: &[Range<usize>]) -> bool {
    let near = differing.partition_point(|range| range.end <= at.start);
    differing.get(near).is_some_and(|range| range.start < at.end)
}

/// How often each statement stands in one block, the most over blocks of the same path of keys; and what those with a
/// block begin with.
fn in_blocks(tree: &Tree<'_>) -> Counts {
    let mut counts = Counts::default();
    for (block, path) in (0..tree.len() as u32).map(NodeId).zip(key_paths(tree)).filter(|(id, _)| tree.is_block(*id)) {
        let mut here: HashMap<u64, u32> = HashMap::default();
        for entry in statements(tree, block) {
            let said = said(tree, entry);
            let n = here.entry(said).or_default();
            *n += 1;
            keep_most(&mut counts, (path, said), *n, entry);
            if let Some(head) = head(tree, tree.node(entry).core) {
                keep_most(&mut counts, (path, head), 1, entry);
            }
        }
    }
    counts
}
