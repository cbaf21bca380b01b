//! What a clean line merge put together, as far as lines tell, without a parse.

use rustc_hash::FxHashSet as HashSet;

use super::outline::{self, Line, LineKind};
use super::runs::runs;
use super::{Excerpt, Touch, alike, newline, touches, within};
use crate::edits::Place;
use crate::grammar::Head;
use crate::grammar::{self, Outline};
use crate::{Side, Version, Versions};

/// What a clean line merge put together, as far as lines tell.
pub(crate) enum ByLines {
    /// Statements that one side alone changed, each by itself: no statement that stands in no other was changed by
    /// both.
    Apart,
    /// Others too. In the excerpt, if there is one, is every statement that both changed.
    Mixed(Option<Box<Excerpt>>),
}

impl ByLines {
    /// Looks at `merged.base`, the merge of the two sides. Where their edits are in the three texts is in `edited`.
    /// Nothing, if lines do not tell: if the edits together change how they are to be read, or if both sides may have
    /// put in the same name.
    pub(crate) fn of(merged: Versions<&[u8]>, edited: &[Place], rules: &'static Outline) -> Option<ByLines> {
        let text = merged.base;
        let newline = newline(&merged)?;
        let lines = Versions {
            base: outline::lines(text, rules)?,
            ours: outline::lines(merged.ours, rules)?,
            theirs: outline::lines(merged.theirs, rules)?,
        };
        if !read_as_before(&lines, edited) {
            return None;
        }
        let in_merge = |place: &Place| Place {
            at: Versions::each(|_| place.at.base.clone()),
            ours: place.ours.clone(),
            by: place.by,
            ..Place::default()
        };
        let places: Vec<Place> = edited.iter().map(in_merge).collect();
        let places: Vec<&Place> = places.iter().collect();
        let touches = touches(&lines.base, &places);
        if one_name(text, &lines.base, &touches, rules) {
            return None;
        }
        if !mixed(&lines.base, &touches) {
            return Some(ByLines::Apart);
        }
        let runs = runs(&lines.base, &touches, false, !text.ends_with(b"\n"));
        let mut excerpt = Excerpt::new(rules, newline);
        excerpt.keep_but(&runs, &lines.base, (text, 0..text.len()), merged.ours, &places);
        Some(ByLines::Mixed(excerpt.is_worthwhile(text).then(|| Box::new(excerpt))))
    }
}

/// Whether each line of a merge is what it is in the sides that have it. `edited` are the places where they differ.
fn read_as_before(lines: &Versions<Vec<Line>>, edited: &[Place]) -> bool {
    let mut done = Versions::<usize>::default();
    let mut same = |until: Versions<usize>, then: Versions<usize>, versions: &[Version]| {
        let of = |v: Version| &lines.get(v)[*done.get(v)..*until.get(v)];
        let same = versions.iter().all(|v| alike(of(Version::Base), of(*v)));
        done = then;
        same
    };
    let ends = Versions::each(|v| lines.get(v).len());
    edited.iter().all(|place| {
        let at = Versions::each(|v| within(lines.get(v), place.at.get(v)));
        let (starts, ends) = (at.as_ref().map(|at| at.start), at.as_ref().map(|at| at.end));
        let chosen = place.by.map_or(Version::Ours, Version::from);
        same(starts, starts, &[Version::Ours, Version::Theirs]) && same(ends, ends, &[chosen])
    }) && same(ends, ends, &[Version::Ours, Version::Theirs])
}

/// Whether both sides changed any of the statements that stand in no other.
fn mixed(lines: &[Line], touches: &[Touch]) -> bool {
    let mut by = [false; 2];
    let mut led = false;
    lines.iter().zip(touches).any(|(line, Touch { by: changed, .. })| {
        if line.kind == LineKind::Statement {
            if line.indent == 0 && !led {
                by = [false; 2];
            }
            led = line.leads;
        }
        by = [by[0] | changed[0], by[1] | changed[1]];
        by == [true; 2]
    })
}

/// Whether both sides may have put in something of one name.
fn one_name(text: &[u8], lines: &[Line], touches: &[Touch], rules: &Outline) -> bool {
    let mut names: [HashSet<&[u8]>; 2] = Default::default();
    // What belongs to a statement may give the same as another statement does.
    let mut leading: [HashSet<&[u8]>; 2] = Default::default();
    let mut set: [HashSet<(usize, &[u8])>; 2] = Default::default();
    let mut imports = false;
    for (line, Touch { by, .. }) in lines.iter().zip(touches) {
        let own = &text[line.span.clone()];
        if line.kind == LineKind::Statement
            && let Some(name) = rules.given_a_value(own)
        {
            let sides = Side::BOTH.into_iter().filter(|side| by[*side as usize]);
            sides.for_each(|side| _ = set[side as usize].insert((line.indent, name)));
        }
        let told = match line.kind {
            LineKind::Statement => {
                let head = Head::of(own, rules);
                imports = head.imports;
                match head.names {
                    true if imports => head.rest,
                    // Up to a bracket, as in `async def low(rows):`.
                    true => head.rest.split(|b| b"([{:".contains(b)).next().unwrap_or_default(),
                    false => &[],
                }
            }
            LineKind::Inside if imports => own,
            LineKind::Inside => &[],
            LineKind::Clause => {
                imports = false;
                &[]
            }
            LineKind::Blank | LineKind::Comment => &[],
        };
        if *by == [false; 2] {
            continue;
        }
        if line.leads {
            let sides = Side::BOTH.into_iter().filter(|side| by[*side as usize]);
            sides.for_each(|side| leading[side as usize].extend(grammar::words(own)));
        }
        let told: Vec<&[u8]> = grammar::words(told).collect();
        // As in `from tides import low`.
        let is_word = |word: &&[u8]| rules.is_importing(word);
        let first = told.iter().rposition(is_word).map_or(0, |last| last + 1);
        for side in Side::BOTH.into_iter().filter(|side| by[*side as usize]) {
            names[side as usize].extend(&told[first..]);
        }
    }
    !set[0].is_disjoint(&set[1])
        || !names[0].is_disjoint(&names[1])
        || !names[0].is_disjoint(&leading[1])
        || !names[1].is_disjoint(&leading[0])
}
