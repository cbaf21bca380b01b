//! The conflicts of the line merge, each merged by itself.

use std::ops::Range;

use rustc_hash::FxHashSet as HashSet;

use super::Case;
use super::attempt::{readable, trees_around};
use crate::edits::{Edit, Place};
use crate::layout::Page;
use crate::line::{self, Favor, LineMerge, LineSettings};
use crate::syntax::{Parsed, Tree};
use crate::{Combined, Side, Version, Versions, checking, layout};

/// So many bytes are read again at most, all conflicts taken together: each wants what is around it.
const BYTES_READ: usize = 2 << 20;

impl Case<'_> {
    /// Each conflict of the line merge merged by itself, as trees or as lines, whichever leaves less of it. Nothing, if
    /// none is left to the trees: that is the line merge.
    ///
    /// What one side moved from one of them to another is taken out in the one, and only its own reading has it in the
    /// other if that stays in dispute: then lines merge both (contract K9).
    pub(super) fn one_by_one(&self, merged: &LineMerge) -> Option<Page> {
        let (page, torn) = self.each_alone(merged, &HashSet::default())?;
        if torn.is_empty() { Some(page) } else { self.each_alone(merged, &torn).map(|(page, _)| page) }
    }

    /// The second value tells of conflicts between which one side moved lines, and of which one is still one, the first
    /// of all that hang together so; those of `as_lines` are left to the lines.
    fn each_alone(&self, merged: &LineMerge, as_lines: &HashSet<usize>) -> Option<(Page, HashSet<usize>)> {
        let settled = self.settled();
        self.parsed().ok()?;
        let mut page = Page::default();
        let (mut at, mut apart, mut by_trees, mut torn) = (0, false, false, HashSet::default());
        let places = self.edits().iter().zip(&settled.edited).enumerate();
        for (number, (edit, place)) in places.filter(|(_, (_, place))| place.open) {
            let open = &place.at;
            if self.uses_withdrawn(number, edit) || self.read_again.get() > BYTES_READ {
                return None;
            }
            page.text.extend_from_slice(&settled.texts.ours[at..open.ours.start]);
            at = open.ours.end;
            let texts = Versions::each(|v| &settled.texts.get(v)[open.get(v).clone()]);
            // Both took it out, and one may have put it in elsewhere: not to be told from one place alone.
            apart |= place.parted || texts.ours.is_empty() && texts.theirs.is_empty();
            let lines = line::merge_part(texts, self.settings, Some(line::newline_of(self.versions)));
            let old = checking::dissent(&lines.text, self.settings.marker_size);
            let better = |piece: &Page| {
                let new = self.dissent(piece);
                !new.worse_than(old) && new.blocks <= old.blocks
            };
            let alone = |side: Side| self.alone(texts, side, &edit.at(side.into())).filter(better);
            let hidden = place.moved || place.tied.is_some_and(|first| as_lines.contains(&first));
            // An edit that is open for what is elsewhere is by itself as lines have it.
            let agreed = lines.conflicts == 0;
            let piece = if hidden || agreed { None } else { self.least_disputed(alone) };
            let open = piece.as_ref().map_or(lines.conflicts, |piece| piece.conflicts) > 0;
            torn.extend(place.tied.filter(|_| open));
            match piece {
                Some(piece) => {
                    by_trees |= piece.text != lines.text;
                    let above = line::lines(&page.text).len();
                    let combined = piece.combined.into_iter();
                    page.combined.extend(combined.map(|c| Combined { line: c.line + above, ..c }));
                    page.text.extend(piece.text);
                    page.conflicts += piece.conflicts;
                    page.gone.extend(piece.gone);
                }
                None if agreed || self.either_parses(texts, edit) => {
                    page.text.extend(lines.text);
                    page.conflicts += lines.conflicts;
                }
                None => return None,
            }
        }
        page.text.extend_from_slice(&settled.texts.ours[at..]);
        let page = match page.conflicts {
            _ if !by_trees => None,
            0 if apart => None,
            0 => self.checked(self.versions, page, &self.parsed().ok()?.ours).ok(),
            _ => self.read_as_well(&page, merged).then_some(page),
        };
        Some((page?, torn))
    }

    /// Whether an edit of one side uses what the other side withdrew: by itself, nothing disputes it.
    fn uses_withdrawn(&self, number: usize, edit: &Edit) -> bool {
        let withdrawn = self.withdrawn();
        withdrawn.used().iter().any(|used| used.edit == number)
            || withdrawn.has_unfit(number)
            || edit.by().is_some_and(|side| {
                withdrawn.used_in(&self.versions.get(side)[edit.at(side.into())], side)
                    && !withdrawn.used_in(&self.versions.base[edit.at(Version::Base)], side)
            })
    }

    /// Whether a page of conflicts that were merged each by itself can be settled for either side, and parse, where the
    /// line merge can.
    fn read_as_well(&self, page: &Page, merged: &LineMerge) -> bool {
        let Ok(parsed) = self.parsed() else { return false };
        let readings = |text: &[u8]| layout::readings(text, self.settings.marker_size);
        let reads = |readings: &Option<[Vec<u8>; 2]>, side: Side| {
            readings.as_ref().is_none_or(|readings| self.read(&readings[side as usize], parsed.get(side)).is_ok())
        };
        let own = readings(&page.text);
        Side::BOTH.into_iter().all(|side| reads(&own, side) || !reads(&readings(&merged.text), side))
    }

    /// What leaves less in dispute of what can be had with the text of either side; nothing, if both settle it, each in
    /// its own way.
    fn least_disputed(&self, of: impl FnMut(Side) -> Option<Page>) -> Option<Page> {
        match Side::BOTH.map(of) {
            [Some(ours), Some(theirs)] if ours.conflicts + theirs.conflicts == 0 => {
                (ours.text == theirs.text).then_some(ours)
            }
            [Some(ours), Some(theirs)] if !self.dissent(&ours).worse_than(self.dissent(&theirs)) => Some(ours),
            [ours, theirs] => theirs.or(ours),
        }
    }

    /// Whether a conflict merged as lines can be settled for either side with the text of one of them around it, and
    /// parse (contract K9).
    fn either_parses(&self, texts: Versions<&[u8]>, edit: &Edit) -> bool {
        let [ours, theirs] = [Favor::Ours, Favor::Theirs]
            .map(|favor| line::merge(texts, &LineSettings { favor: Some(favor), ..self.settings.clone() }).text);
        Side::BOTH.into_iter().any(|side| {
            let own = self.versions.get(side);
            let spot = Spot::new(own, &edit.at(side.into()), Versions { base: &ours, ours: &ours, theirs: &theirs });
            let excerpt = self.excerpt_of(spot.texts(), own, &spot.places);
            let reads = |near| spot.parsed(near).is_some_and(|parsed| spot.trees(&parsed, self.loose()).is_some());
            excerpt.is_some_and(|excerpt| self.reading(&excerpt).is_some())
                || self.parsed().is_ok_and(|parsed| reads(parsed.get(side)))
        })
    }

    /// The merge of one conflict with the text of one side around it.
    fn alone(&self, texts: Versions<&[u8]>, side: Side, place: &Range<usize>) -> Option<Page> {
        let own = *self.versions.get(side);
        let spot = Spot::new(own, place, texts);
        let excerpt = self.excerpt_of(spot.texts(), own, &spot.places);
        let reads = |text: &[u8]| self.read_again.set(self.read_again.get() + text.len());
        let excerpt = excerpt.and_then(|excerpt| {
            reads(&excerpt.texts.ours);
            self.in_excerpt(&excerpt, &self.reading(&excerpt)?, spot.texts(), Default::default)
        });
        let mut page = excerpt.or_else(|| {
            reads(own);
            let near = self.parsed().ok()?.get(side);
            let parsed = spot.parsed(near)?;
            self.attempt(spot.texts(), &parsed, &spot.trees(&parsed, self.loose())?, near).ok()
        })?;
        let (before, after) = (&own[..place.start], &own[place.end..]);
        let text = page.text.strip_prefix(before)?.strip_suffix(after)?.to_vec();
        let above = line::lines(before).len();
        let combined = std::mem::take(&mut page.combined).into_iter().filter(|c| c.line > above);
        let combined = combined.map(|c| Combined { line: c.line - above, ..c }).collect();
        Some(page.moved(text, combined))
    }
}

/// A text with other texts in one place of it.
struct Spot {
    filled: Versions<Vec<u8>>,
    places: [Place; 1],
}

impl Spot {
    fn new(text: &[u8], place: &Range<usize>, texts: Versions<&[u8]>) -> Spot {
        let filled = texts.map(|other| [&text[..place.start], other, &text[place.end..]].concat());
        let at = texts.map(|other| place.start..place.start + other.len());
        Spot { filled, places: [Place { at, ours: place.clone(), open: true, ..Place::default() }] }
    }

    fn texts(&self) -> Versions<&[u8]> {
        self.filled.as_ref().map(Vec::as_slice)
    }

    fn parsed(&self, near: &Parsed<'_>) -> Option<Versions<Parsed<'_>>> {
        let texts = self.texts();
        let parse = |v: Version| near.edited_to(texts.get(v)).ok();
        Some(Versions { base: parse(Version::Base)?, ours: parse(Version::Ours)?, theirs: parse(Version::Theirs)? })
    }

    fn trees<'s>(&self, parsed: &Versions<Parsed<'s>>, loose: &HashSet<u64>) -> Option<Versions<Tree<'s>>> {
        let live = Versions::each(|v| vec![line::with_neighbours(self.texts().get(v), self.places[0].at.get(v))]);
        readable(trees_around(parsed, &live, loose))
    }
}
