//! A file whose line merge may not do: what is known of it, read once and only when asked for.

mod attempt;
mod beside;
mod candidates;
mod in_part;
mod reach;
mod readings;
mod refuse;
mod relisted;
mod singly;

use std::cell::{Cell, OnceCell};
use std::rc::Rc;

use rustc_hash::FxHashSet as HashSet;

use self::attempt::{readable, trees_around};
use self::refuse::refuse;
use crate::checking::{PutTogether, Unsound};
use crate::edits::stray::{Stray, Strays};
use crate::edits::{self, Edit, Settled, View, withdrawn};
use crate::excerpt::{ByLines, Excerpt};
use crate::grammar::Language;
use crate::line::{self, LineMerge, LineSettings};
use crate::merging::Withdrawn;
use crate::syntax::{Known, ParseError, Parsed, Tree};
use crate::{Answer, Version, Versions, Way, checking};

/// What lines tell of a case.
pub(crate) struct Seen {
    pub edits: Vec<Edit>,
    /// What a clean line merge put together.
    pub lines: Option<ByLines>,
}

/// Texts made while a case is merged.
#[derive(Default)]
pub(crate) struct Made {
    settled: OnceCell<Settled>,
    excerpt: OnceCell<Option<Excerpt>>,
}

/// Three texts parsed, and the trees of what is to be looked at in them.
struct Reading<'s> {
    parsed: Versions<Parsed<'s>>,
    trees: Versions<Tree<'s>>,
}

/// A file whose line merge may not do.
pub(crate) struct Case<'s> {
    versions: Versions<&'s [u8]>,
    language: &'static Language,
    settings: &'s LineSettings,
    seen: Seen,
    loose: OnceCell<HashSet<u64>>,
    edited_names: OnceCell<HashSet<&'s [u8]>>,
    withdrawn: OnceCell<Withdrawn>,
    made: &'s Made,
    excerpt: OnceCell<Option<Reading<'s>>>,
    /// Whether what an excerpt of all edits would leave out is known to parse.
    rest_parses: Cell<bool>,
    /// How many bytes were read to merge conflicts one by one.
    read_again: Cell<usize>,
    left: OnceCell<Option<Versions<Parsed<'s>>>>,
    left_trees: OnceCell<Option<Versions<Tree<'s>>>>,
    parsed: OnceCell<Result<Versions<Parsed<'s>>, String>>,
    trees: OnceCell<Versions<Tree<'s>>>,
    /// Texts that were parsed, in the cases made of this one too.
    known: Rc<Known>,
}

impl<'s> Case<'s> {
    pub(crate) fn new(
        versions: Versions<&'s [u8]>,
        language: &'static Language,
        settings: &'s LineSettings,
        seen: Seen,
        made: &'s Made,
    ) -> Case<'s> {
        Case {
            versions,
            language,
            settings,
            seen,
            loose: OnceCell::new(),
            edited_names: OnceCell::new(),
            withdrawn: OnceCell::new(),
            made,
            excerpt: OnceCell::new(),
            rest_parses: Cell::new(false),
            read_again: Cell::new(0),
            left: OnceCell::new(),
            left_trees: OnceCell::new(),
            parsed: OnceCell::new(),
            trees: OnceCell::new(),
            known: Rc::default(),
        }
    }

    /// The edits of the sides, by lines.
    fn edits(&self) -> &[Edit] {
        &self.seen.edits
    }

    /// The lines above what a side took out.
    fn loose(&self) -> &HashSet<u64> {
        self.loose.get_or_init(|| edits::left_behind(self.versions, self.edits()))
    }

    /// The names that one side withdrew and the other began to use.
    fn withdrawn(&self) -> &Withdrawn {
        let full = |version: Version| Some(self.parsed().ok()?.get(version).tree());
        let language = self.language;
        self.withdrawn.get_or_init(|| withdrawn::withdrawn(self.versions, self.edits(), language, || self.view(), full))
    }

    /// What the line merge can settle.
    fn settled(&self) -> &'s Settled {
        let outline = self.language.outline();
        let settle = || edits::settle(self.versions, self.edits(), self.withdrawn(), outline, || self.view());
        self.made.settled.get_or_init(settle)
    }

    /// Trees in which all edits are, if the versions, or those parts of them, can be read.
    fn view(&self) -> Option<View<'_, 's>> {
        match self.excerpted() {
            Some((excerpt, reading)) => Some(View { trees: &reading.trees, edits: excerpt.open.clone() }),
            None => Some(View { trees: self.trees()?, edits: edits::open(self.edits()) }),
        }
    }

    /// Those parts of the versions that edits come near, if they can be read by themselves.
    fn excerpted(&self) -> Option<(&'s Excerpt, &Reading<'s>)> {
        let excerpt = || self.excerpt_of(self.versions, self.versions.ours, &edits::places(self.edits()));
        let excerpt = self.made.excerpt.get_or_init(excerpt).as_ref()?;
        let reading = self.excerpt.get_or_init(|| self.reading(excerpt)).as_ref()?;
        Some((excerpt, reading))
    }

    /// What the line merge leaves over, parsed, if the grammar reads it by itself.
    fn left(&self) -> Option<&Versions<Parsed<'s>>> {
        let texts = self.settled().texts.as_ref().map(Vec::as_slice);
        let near = self.parsed.get().and_then(|parsed| parsed.as_ref().ok());
        let parse = || self.known.versions(texts, self.language, near).ok();
        self.left.get_or_init(parse).as_ref()
    }

    /// The trees of what the line merge leaves over, if it can be read by itself.
    fn left_trees(&self) -> Option<&Versions<Tree<'s>>> {
        let trees = || readable(trees_around(self.left()?, &self.settled().disputed, self.loose()));
        self.left_trees.get_or_init(trees).as_ref()
    }

    /// The versions, parsed when that is first asked for.
    fn parsed(&self) -> Result<&Versions<Parsed<'s>>, String> {
        let near = self.left.get().and_then(Option::as_ref);
        let parse = || self.known.versions(self.versions, self.language, near);
        let parsed = self.parsed.get_or_init(|| parse().map_err(|(version, e)| format!("{} {e}", version.name())));
        parsed.as_ref().map_err(String::clone)
    }

    /// The trees of the versions, if all of them can be parsed. Lists that nobody changed are not looked into.
    fn trees(&self) -> Option<&Versions<Tree<'s>>> {
        let parsed = self.parsed().ok()?;
        Some(
            self.trees.get_or_init(|| trees_around(parsed, &edits::changed(self.versions, self.edits()), self.loose())),
        )
    }

    /// The answer, given git's, with what a person should know of it.
    pub(crate) fn answer(&self, merged: &LineMerge) -> Answer {
        let mut answer = self.sound(merged).unwrap_or_else(|reason| Answer::by_lines(merged, &reason));
        answer.notes.extend(withdrawn::warnings(self.withdrawn(), &answer.text, self.versions));
        if answer.way == Way::Lines {
            let used = withdrawn::used_by_lines(self.withdrawn(), &answer.text, self.versions, self.edits());
            answer.notes.extend(used);
        }
        // Where not all of the versions was read, what was is sound, with names perhaps not declared.
        if answer.conflicts > 0
            && (self.parsed.get().is_some() || self.may_lack_names(&answer.text))
            && let Ok(parsed) = self.parsed()
        {
            answer.notes.extend(self.wrong_when_settled(&answer.text, parsed));
        }
        answer
    }

    fn sound(&self, merged: &LineMerge) -> Result<Answer, String> {
        let lines = |mut notes: Vec<String>| {
            if notes.is_empty() {
                notes.extend(self.doubled(&merged.text));
            }
            notes.extend(self.moved_apart(&merged.text));
            notes.extend(self.strayed(&merged.text));
            Answer { notes, ..Answer::from(merged.clone()) }
        };
        if merged.conflicts > 0 {
            return self.merge(merged);
        }
        if self.plainly_sound(&merged.text) {
            return Ok(lines(Vec::new()));
        }
        self.parsed()?;
        let fault = match self.examined(&merged.text) {
            Ok(doubt) => return Ok(lines(doubt.iter().map(ToString::to_string).collect())),
            Err(fault) => fault,
        };
        let why = format!("the line merge is unsound: {fault}");
        let mut answer = self.merge(merged).unwrap_or_else(|_| refuse(self.versions, self.settings, fault.line()));
        answer.notes.insert(0, why);
        Ok(answer)
    }

    /// A text parsed, if it can be, and has nothing that only the grammar forgives where it differs from `near`.
    fn read<'t>(&self, text: &'t [u8], near: &Parsed<'_>) -> Result<Parsed<'t>, ParseError> {
        let parsed = self.known.parsed(text, near)?;
        let differing = parsed.differing_from(near.source());
        let fault = parsed.forgiven(&parsed.to_the_end(&differing));
        let own = || near.forgiven(std::slice::from_ref(&(0..near.source().len()))).is_some();
        let fault = if fault.is_some() && own() { parsed.forgiven(&differing) } else { fault };
        fault.map_or(Ok(parsed), Err)
    }

    /// What is worth a note in a clean line merge, if it is sound, of versions that parse; else what is unsound in it.
    fn examined(&self, text: &[u8]) -> Result<Option<Unsound>, Unsound> {
        let Ok(parsed) = self.parsed() else { return Ok(None) };
        let read = PutTogether::of(&self.known.parsed(text, &parsed.ours)?, self.versions.ours);
        match self.fault_in(&read, false) {
            Some(fault) => Err(fault),
            None => Ok(self.doubt_in(&read)),
        }
    }

    /// What a person should know of a clean line merge that has twice what both sides put in: one line each.
    fn doubled(&self, text: &[u8]) -> Vec<String> {
        let doubled = edits::doubled(self.versions, self.edits());
        if doubled.is_empty() {
            return Vec::new();
        }
        let Some(places) = edits::places_in(text, self.versions, self.edits()) else { return Vec::new() };
        let told = |at: usize| {
            let below = text[places[at + 1].at.base.start..].trim_ascii_start();
            let line = text[..text.len() - below.len()].iter().filter(|b| **b == b'\n').count() + 1;
            let first = String::from_utf8_lossy(line::lines(below)[0]);
            format!(
                "line {line}: what begins with `{}` stands twice there: each side put in one of them",
                first.trim_end()
            )
        };
        doubled.into_iter().map(told).collect()
    }

    /// What a person should know of a clean line merge that has what both sides moved at both places: one line each.
    fn moved_apart(&self, text: &[u8]) -> Vec<String> {
        let told = |moved: &[u8]| {
            let mut lines = line::lines(text).into_iter().zip(1..).filter(|(line, _)| line.trim_ascii() == moved);
            let (above, below) = (lines.next()?.1, lines.next()?.1);
            let moved = String::from_utf8_lossy(moved);
            Some(format!(
                "lines {above} and {below}: what begins with `{moved}` stands at both: each side moved it to one of them"
            ))
        };
        edits::moved_apart(self.versions, self.edits()).into_iter().filter_map(told).collect()
    }

    /// What a person should know of a clean line merge in which edits strayed: one line each.
    fn strayed(&self, text: &[u8]) -> Vec<String> {
        let found = Strays::of(self.versions, self.edits(), self.language.outline(), || self.view()).found;
        if found.is_empty() {
            return Vec::new();
        }
        let Some(places) = edits::places_in(text, self.versions, self.edits()) else { return Vec::new() };
        let told = |Stray { edit, side, made_in, put_in }: Stray| {
            let line = line::lines(&text[..places[edit].at.base.start]).len() + 1;
            let side = Version::from(side).name();
            format!("line {line}: lines put into `{put_in}` what {side} changed in `{made_in}`")
        };
        found.into_iter().map(told).collect()
    }

    /// Whether a clean line merge is sound whatever the sides are, as far as they both changed one statement.
    fn plainly_sound(&self, text: &[u8]) -> bool {
        let (language, ours) = (self.language, self.versions.ours);
        let seen = match &self.seen.lines {
            Some(ByLines::Apart) => true,
            Some(ByLines::Mixed(Some(excerpt))) => {
                let stands_for = |name: &[u8], names: &[&[u8]]| excerpt.holds(name, names);
                checking::plainly_sound(&excerpt.texts.ours, &excerpt.ours, language, &stands_for)
            }
            _ => false,
        };
        seen || checking::plainly_sound(text, ours, language, &|_, _| false)
    }
}
