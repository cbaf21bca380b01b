//! What both sides did alike within lines that they changed in different ways.

use std::ops::Range;

use similar::{Algorithm, DiffOp, capture_diff_slices};

use super::surroundings::{Lists, Surroundings};
use super::{Edit, View};
use crate::grammar::{find_word, is_word};
use crate::{Side, Version, Versions};

/// Stretches of more tokens, in base and a side together, are not compared token by token.
const TOKENS: usize = 1000;
/// So long must a text be that it is known elsewhere than in the lines that it was taken out of.
const TELLING: usize = 4;

/// Base with every edit of tokens that both sides made alike in a stretch of lines that they disagree about: what one of
/// them changed besides is then its own; and the edits of lines from there. Nothing, if there is no such edit. The trees
/// tell whether what both put in stands in the same thing.
///
/// A line merge does so with lines that both sides changed alike.
pub(crate) fn done_alike<'t, 's: 't>(
    versions: Versions<&[u8]>,
    edits: &[Edit],
    view: impl FnOnce() -> Option<View<'t, 's>>,
) -> Option<(Vec<u8>, Vec<Edit>)> {
    let stretch = |edit: &Edit| Versions::each(|version| &versions.get(version)[edit.at(version)]);
    let conflicts = edits.iter().enumerate().filter(|(_, edit)| edit.is_conflict());
    let mut found: Vec<(usize, Alike<'_>)> =
        conflicts.flat_map(|(at, edit)| alike(stretch(edit)).into_iter().map(move |alike| (at, alike))).collect();
    if found.is_empty() {
        return None;
    }
    let view = view()?;
    found.retain(|(at, alike)| alike.is_one(&view, *at) && !alike.is_moved_by_one(versions, edits, *at));
    if found.is_empty() {
        return None;
    }
    let mut base = Vec::with_capacity(versions.base.len());
    let mut done = 0;
    let mut moved = Vec::with_capacity(edits.len());
    let mut found = found.into_iter().peekable();
    for (number, edit) in edits.iter().enumerate() {
        let at = edit.at(Version::Base);
        base.extend_from_slice(&versions.base[done..at.start]);
        done = at.start;
        let start = base.len();
        while let Some((_, Alike { base: bytes, text, .. })) = found.next_if(|(of, _)| *of == number) {
            base.extend_from_slice(&versions.base[done..at.start + bytes.start]);
            base.extend_from_slice(text);
            done = at.start + bytes.end;
        }
        base.extend_from_slice(&versions.base[done..at.end]);
        done = at.end;
        moved.push(Edit { kind: edit.kind, at: Versions { base: start..base.len(), ..edit.at.clone() } });
    }
    base.extend_from_slice(&versions.base[done..]);
    Some((base, moved))
}

/// An edit that both sides made alike, as bytes of the stretch of lines that it is in.
struct Alike<'s> {
    base: Range<usize>,
    /// What stands there instead.
    text: &'s [u8],
    /// For each side: what it put in, with the token before, by itself, and with the token behind.
    places: [[Range<usize>; 3]; 2],
}

impl Alike<'_> {
    /// Whether what the sides put in, in an edit of lines, is one thing, for all that the trees tell of what is around it.
    fn is_one(&self, view: &View<'_, '_>, edit: usize) -> bool {
        let within = |version: Version, bytes: &Range<usize>| {
            let start = view.edits.get(version)[edit].start;
            start + bytes.start..start + bytes.end
        };
        let [ours, theirs] = Side::BOTH.map(|side| {
            let places = self.places[side as usize].each_ref().map(|bytes| within(side.into(), bytes));
            Surroundings::of(view.trees.get(side), places, self.text.trim_ascii().is_empty())
        });
        let base = &view.trees.base;
        let lists = Lists::of(base, base.around(&within(Version::Base, &self.base)));
        ours.go_with(&theirs) && [&ours, &theirs].into_iter().all(|side| side.lists.changed_one_of(&lists))
    }

    /// Whether both sides took something out, and one of them has it elsewhere: that one only moved it.
    fn is_moved_by_one(&self, versions: Versions<&[u8]>, edits: &[Edit], number: usize) -> bool {
        let loose = |byte: &u8| byte.is_ascii_whitespace() || matches!(byte, b',' | b';');
        let stretch = &versions.base[edits[number].at(Version::Base)];
        let lines = stretch[self.base.clone()].split(|byte| *byte == b'\n');
        let bare = lines.map(|line| {
            let start = line.iter().take_while(|byte| loose(byte)).count();
            let behind = line[start..].iter().rev().take_while(|byte| loose(byte)).count();
            &line[start..line.len() - behind]
        });
        let Some(taken) = bare.max_by_key(|line| line.len()).filter(|line| line.iter().any(|byte| is_word(*byte)))
        else {
            return false;
        };
        let near = taken.len() < TELLING;
        let often = |text: &[u8]| find_word(text, taken).count();
        let moved = |side: Side| {
            // Where it was taken out, it is once less.
            let has_more = |(at, edit): (usize, &Edit)| {
                let (old, new) = (&versions.base[edit.at(Version::Base)], &versions.get(side)[edit.at(side.into())]);
                often(new) + usize::from(at == number) > often(old)
            };
            let seen = |(at, edit): &(usize, &Edit)| edit.changed_by(side) && (!near || *at == number);
            edits.iter().enumerate().filter(seen).any(has_more)
        };
        moved(Side::Ours) != moved(Side::Theirs)
    }
}

/// The edits that both sides made alike, in order.
fn alike(stretch: Versions<&[u8]>) -> Vec<Alike<'_>> {
    let tokens = stretch.map(Tokens::of);
    let long = |side: Side| tokens.base.keys.len() + tokens.get(side).keys.len() > TOKENS;
    if stretch.base.is_empty() || Side::BOTH.into_iter().any(long) {
        return Vec::new();
    }
    let changed = Side::BOTH.map(|side| changes(&tokens.base.keys, &tokens.get(side).keys));
    // In an order that has nothing to do with whose they are.
    let order = if stretch.ours < stretch.theirs { Side::BOTH } else { [Side::Theirs, Side::Ours] };
    let [first, second] = order.map(|side| &tokens.get(side).keys);
    let between = capture_diff_slices(Algorithm::Myers, first, second);
    let mut found: Vec<Shared<'_>> = Vec::new();
    for (at, side) in order.into_iter().enumerate() {
        for change in &changed[side as usize] {
            let counterpart = || counterpart(&between, &change.own, at == 0);
            let others = &changed[side.other() as usize];
            let put_in_too = |there: &Range<usize>| put_in_too(&tokens, side.other(), there);
            let Some(there) = in_one_of(others, change, counterpart, put_in_too) else { continue };
            let apart = |x: &Change, y: &Change| x.base.end < y.base.start || y.base.end < x.base.start;
            if found.iter().all(|shared| apart(shared.change, change)) {
                found.push(Shared { side, change, there });
            }
        }
    }
    if tears_a_block(&tokens, &changed, &found) {
        found.retain(|shared| !tokens.get(shared.side).keys[shared.change.own.clone()].iter().any(Key::begins_a_line));
    }
    found.sort_by_key(|shared| shared.change.base.start);
    let alike = |Shared { side, change, there }: Shared<'_>| {
        let places = |at: Side| if at == side { &change.own } else { &there };
        // In theirs' layout, if it made it just so: if they differ in that, it is ours that has another.
        let as_it_is = |other: &Change| other.base == change.base && other.own == there;
        let both = changed[side.other() as usize].iter().any(as_it_is);
        let from = if both { Side::Theirs } else { side };
        Alike {
            base: tokens.base.around(&change.base),
            text: &stretch.get(from)[tokens.get(from).around(places(from))],
            places: Side::BOTH.map(|at| tokens.get(at).places(places(at))),
        }
    };
    found.into_iter().map(alike).collect()
}

/// A change of one side that the other side made too.
struct Shared<'c> {
    side: Side,
    change: &'c Change,
    /// The tokens of the other side that it put in.
    there: Range<usize>,
}

/// Whether a side has a line further in or out, and that is not among what both did: of a block, all lines are.
fn tears_a_block(tokens: &Versions<Tokens<'_>>, changed: &[Vec<Change>; 2], found: &[Shared<'_>]) -> bool {
    let torn = |side: Side, change: &Change| {
        let (old, new) = (&tokens.base.keys[change.base.clone()], &tokens.get(side).keys[change.own.clone()]);
        let shifts = !old.is_empty() && !new.is_empty() && old.iter().chain(new).all(Key::begins_a_line);
        shifts && !found.iter().any(|shared| shared.change.base == change.base)
    };
    Side::BOTH.into_iter().any(|side| changed[side as usize].iter().any(|change| torn(side, change)))
}

/// The tokens that the other side put in as a side's change did, if one of its own changes has that there, and perhaps
/// more.
fn in_one_of(
    others: &[Change],
    change: &Change,
    counterpart: impl FnOnce() -> Option<Range<usize>>,
    put_in_too: impl FnOnce(&Range<usize>) -> bool,
) -> Option<Range<usize>> {
    let near = others.partition_point(|other| other.base.end < change.base.start);
    let around = others[near..].iter().take_while(|other| other.base.start <= change.base.start);
    let mut around = around.filter(|other| change.base.end <= other.base.end).peekable();
    if change.own.is_empty() {
        return around.find(|other| other.base == change.base && other.own.is_empty()).map(|other| other.own.clone());
    }
    around.peek()?;
    let there = counterpart()?;
    let whole = around.any(|other| other.own.start <= there.start && there.end <= other.own.end);
    (whole || put_in_too(&there)).then_some(there)
}

/// What some tokens are among those of the other side, if they are there in one piece. `between` leads there, or `forward`
/// from there.
fn counterpart(between: &[DiffOp], tokens: &Range<usize>, forward: bool) -> Option<Range<usize>> {
    between.iter().find_map(|op| {
        let DiffOp::Equal { old_index, new_index, len } = *op else { return None };
        let (here, there) = if forward { (old_index, new_index) } else { (new_index, old_index) };
        let within = here <= tokens.start && tokens.end <= here + len;
        within.then(|| there + tokens.start - here..there + tokens.end - here)
    })
}

/// Whether a side has as many more of some tokens than base as these are.
fn put_in_too(tokens: &Versions<Tokens<'_>>, side: Side, there: &Range<usize>) -> bool {
    let own = &tokens.get(side).keys;
    let often = |keys: &[Key<'_>], key: &Key<'_>| keys.iter().filter(|own| *own == key).count();
    let put_in = &own[there.clone()];
    put_in.iter().all(|key| often(own, key) >= often(&tokens.base.keys, key) + often(put_in, key))
}

/// The tokens of some lines, as far as any language has them: words, signs, and the beginnings of lines.
struct Tokens<'s> {
    keys: Vec<Key<'s>>,
    spans: Vec<Range<usize>>,
    length: usize,
}

/// What makes two tokens equal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
enum Key<'s> {
    /// The white space that a line outside of brackets begins with.
    Line(&'s [u8]),
    /// A word, or a byte of anything else.
    Text(&'s [u8]),
}

impl Key<'_> {
    fn begins_a_line(&self) -> bool {
        matches!(self, Key::Line(_))
    }
}

impl<'s> Tokens<'s> {
    fn of(text: &'s [u8]) -> Tokens<'s> {
        let (mut keys, mut spans) = (Vec::new(), Vec::new());
        let (mut at, mut depth) = (0, 0usize);
        while at < text.len() || keys.is_empty() {
            let rest = &text[at..];
            let space = rest.iter().take_while(|byte| byte.is_ascii_whitespace()).count();
            let line = rest[..space].iter().rposition(|byte| *byte == b'\n').map(|newline| newline + 1);
            // In brackets, a line may begin anywhere.
            let line = line.filter(|_| depth == 0).or(keys.is_empty().then_some(0));
            let (key, end) = match line {
                Some(line) => (Key::Line(&rest[line..space]), at + space),
                None => {
                    at += space;
                    match text.get(at) {
                        None => break,
                        Some(b'(' | b'[' | b'{') => depth += 1,
                        Some(b')' | b']' | b'}') => depth = depth.saturating_sub(1),
                        Some(_) => {}
                    }
                    let word = text[at..].iter().take_while(|byte| is_word(**byte)).count();
                    let end = text.len().min(at + word.max(1));
                    (Key::Text(&text[at..end]), end)
                }
            };
            keys.push(key);
            spans.push(at..end);
            at = end;
        }
        Tokens { keys, spans, length: text.len() }
    }

    /// The bytes between what stands before some tokens and what stands behind them.
    fn around(&self, tokens: &Range<usize>) -> Range<usize> {
        let start = tokens.start.checked_sub(1).map_or(0, |before| self.spans[before].end);
        start..self.spans.get(tokens.end).map_or(self.length, |behind| behind.start)
    }

    /// The bytes of some tokens and of one more: the first with the one before, all of them, the last with the one behind.
    fn places(&self, tokens: &Range<usize>) -> [Range<usize>; 3] {
        let last = self.spans.len() - 1;
        let bytes = |first: usize, end: usize| self.spans[first].start..self.spans[end.min(last)].end;
        let (before, behind) = (tokens.start.saturating_sub(1), tokens.end.saturating_sub(1));
        let all = if tokens.is_empty() { bytes(before, tokens.end) } else { bytes(tokens.start, behind) };
        [bytes(before, tokens.start), all, bytes(behind, tokens.end)]
    }
}

/// A change of tokens.
struct Change {
    base: Range<usize>,
    own: Range<usize>,
}

/// What a side changed, in order; what it put in stands as far down as it can.
fn changes(base: &[Key<'_>], own: &[Key<'_>]) -> Vec<Change> {
    let ops = capture_diff_slices(Algorithm::Myers, base, own);
    let mut changed = ops.iter().filter(|op| !matches!(op, DiffOp::Equal { .. })).peekable();
    let mut changes: Vec<Change> = Vec::new();
    while let Some(op) = changed.next() {
        let (at, put) = (op.old_range(), op.new_range());
        // At least one equal token stays before the next change.
        let room = changed.peek().map_or(base.len(), |next| next.old_range().start) - at.end;
        // What was put in behind what stands in the place of something is by itself, if it can be further down.
        let by_itself =
            if at.is_empty() { Some(put.start) } else { (put.start + 1..put.end).find(|k| down(own, *k..put.end) > 0) };
        let Some(start) = by_itself.filter(|start| *start < put.end) else {
            changes.push(Change { base: at, own: put });
            continue;
        };
        let by = down(own, start..put.end).min(room.saturating_sub(1));
        if start > put.start && by > 0 {
            let below = at.end + by;
            changes.push(Change { base: at, own: put.start..start });
            changes.push(Change { base: below..below, own: start + by..put.end + by });
        } else {
            let by = if at.is_empty() { by } else { 0 };
            changes.push(Change { base: at.start + by..at.end + by, own: put.start + by..put.end + by });
        }
    }
    changes
}

/// How far down what was put in can stand as well, for all that comes behind it.
fn down(own: &[Key<'_>], put: Range<usize>) -> usize {
    own[put.start..].iter().zip(&own[put.end..]).take_while(|(x, y)| x == y).count()
}

#[cfg(test)]
mod tests {
    use super::{Alike, alike};
    use crate::{Settings, Versions, grammar, merge};

    fn done(base: &str, ours: &str, theirs: &str) -> Vec<(String, String)> {
        let stretch = Versions { base, ours, theirs }.map(str::as_bytes);
        let told = |Alike { base: bytes, text, .. }: Alike<'_>| {
            (base[bytes].trim().to_owned(), String::from_utf8_lossy(text).trim().to_owned())
        };
        alike(stretch).into_iter().map(told).collect()
    }

    fn pair(old: &str, new: &str) -> (String, String) {
        (old.to_owned(), new.to_owned())
    }

    #[test]
    fn what_both_put_around_something_is_done_alike_whatever_else_one_does() {
        let both = [pair("", "list("), pair("", ")")];
        assert_eq!(done("x = read(a)\n", "x = list(read(b))\n", "x = list(read(a))\n"), both);
        assert_eq!(done("x = read(a)\n", "x = list(read(a))\n", "x = list(load(a))\n"), both);
    }

    #[test]
    fn what_each_does_by_itself_is_not() {
        assert_eq!(done("x = read(a)\n", "x = read(b)\n", "x = load(a)\n"), []);
        assert_eq!(done("x = read(a)\n", "x = read(b)\n", "x = read(c)\n"), []);
    }

    #[test]
    fn lines_of_a_block_are_further_in_together_or_not_at_all() {
        let (base, ours) = ("    a()\n    b()\n", "    if x:\n        a()\n        b()\n");
        assert_eq!(done(base, ours, &ours.replace("b()", "b(1)")).len(), 2);
        assert_eq!(done(base, ours, "    if x:\n        a()\n    b(1)\n"), []);
    }

    /// Stretches that are too long for tokens are left to the trees, which know what stood there twice.
    #[test]
    fn what_both_put_around_something_among_many_lines_does_not_stand_twice() {
        let text = |a: u32, b: u32, level: &str| {
            let lines = (0..80).map(|i| format!("    put(row_{i}, {a}, {b})\n"));
            format!("def draw(rows):\n{}    level = {level}\n    show(level)\n", lines.collect::<String>())
        };
        let (base, ours, theirs) =
            (text(1, 2, "read(rows, 1)"), text(3, 2, "list(read(rows, 2))"), text(1, 4, "list(read(rows, 1))"));
        let versions = Versions { base: &base, ours: &ours, theirs: &theirs }.map(|text| text.as_bytes());
        let answer = merge(versions, grammar::for_path(b"draw.py", b""), &Settings::default());
        let text = String::from_utf8(answer.text).expect("it is made of text");
        assert!(text.contains("put(row_7, 3, 4)") && !text.contains("list(list("), "{text}");
    }
}
