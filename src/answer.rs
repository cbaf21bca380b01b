//! The library's face: three versions in, one answer out.

use std::sync::mpsc;
use std::time::Duration;

use gix::bstr::ByteSlice;

use crate::case::{Case, Made, Seen};
use crate::edits::{self, Edit, account, stray, withdrawn};
use crate::excerpt::ByLines;
use crate::grammar::Language;
use crate::line::{self, Converted, LineMerge, LineSettings};
use crate::threads::spawn;
use crate::{Side, Version, Versions, syntax};

/// What a caller may choose.
#[derive(Clone, Debug)]
pub struct Settings {
    /// Conflict style, labels, marker size and the like: shared by the line merge and the layout.
    pub line: LineSettings,
    /// How long the structural merge may take before the line merge is the answer (contract K7).
    pub deadline: Duration,
    /// Inputs larger than this many bytes are merged as lines.
    pub size_limit: usize,
}

impl Default for Settings {
    fn default() -> Self {
        Settings { line: LineSettings::default(), deadline: Duration::from_secs(5), size_limit: 4 << 20 }
    }
}

/// Which of the two merges gave the answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Git's line merge.
    Lines,
    /// The structural merge.
    Trees,
}

/// One place where changes of both sides were put together.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Combined {
    /// First line of the place in the answer, from 1.
    pub line: usize,
    /// What was combined, in words: "arguments of the call `fetch`".
    pub what: String,
    /// Why it may be: the rule that allowed it.
    pub why: String,
}

/// A long half of a conflict of which most is as in base.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Kept {
    /// The line of the answer, from 1, on which the conflict begins.
    pub line: usize,
    /// Whose half it is and how much of it is as in base, in words.
    pub what: String,
    /// The lines in it that are not in base, after a `+`, and those of base that are not in it, after a `-`.
    pub changes: Vec<String>,
    /// What to look for where the other side may have put all this, if it has next to nothing of it here.
    #[serde(skip)]
    pub sought: Option<Sought>,
}

/// Lines that a side took out of a file, by which they are known where it may have put them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sought {
    /// The side.
    pub side: Side,
    /// Some lines that say most, without white space at their ends.
    pub lines: Vec<Vec<u8>>,
}

/// The merged file and what is known about it.
#[derive(Clone, Debug)]
pub struct Answer {
    /// The merged bytes, conflict markers included.
    pub text: Vec<u8>,
    /// How many conflict blocks `text` holds.
    pub conflicts: usize,
    /// Who merged it.
    pub way: Way,
    /// Why the answer is the line merge although a tree merge was called for, or what else a person
    /// should know: one line each, without the file's name.
    pub notes: Vec<String>,
    /// What the structural merge combined, in the order of the answer's lines.
    pub combined: Vec<Combined>,
    /// What there is to see in long conflicts, in the order of the answer's lines.
    pub kept: Vec<Kept>,
}

impl From<LineMerge> for Answer {
    fn from(merged: LineMerge) -> Answer {
        let LineMerge { text, conflicts } = merged;
        Answer { text, conflicts, way: Way::Lines, notes: Vec::new(), combined: Vec::new(), kept: Vec::new() }
    }
}

impl Answer {
    /// The line merge, because of what the structural merge came to.
    pub(crate) fn by_lines(merged: &LineMerge, reason: &str) -> Answer {
        Answer { notes: vec![format!("merged as lines: {reason}")], ..Answer::from(merged.clone()) }
    }
}

/// Merges three versions of one file.
///
/// `language` is `None` for a file that no built-in grammar reads: the answer is git's line merge.
/// Never fails (contract K7): what cannot be merged as trees is merged as lines, and
/// [`Answer::notes`] says why.
///
/// With [`LineSettings::favor`], git's line merge settles its conflicts that way, and is clean.
pub fn merge(versions: Versions<&[u8]>, language: Option<&'static Language>, settings: &Settings) -> Answer {
    if let Some(language) = language
        && let Some(converted) = line::converted(versions)
        && line::merge(versions, &settings.line).conflicts > 0
        && all_parse(&converted.versions, language, settings)
    {
        return with_its_ending(converted, language, settings);
    }
    let answer = merged(versions, language, settings);
    match answer.conflicts {
        0 => answer,
        _ => Answer { kept: edits::kept::kept(&answer.text, versions.base, settings.line.marker_size), ..answer },
    }
}

/// Merges versions of which a side gave all lines another ending, which to lines is an edit of all of them: with that
/// ending in all versions, only the other edits are left.
fn with_its_ending(converted: Converted, language: &'static Language, settings: &Settings) -> Answer {
    let Converted { ending, by, versions } = converted;
    let by: Vec<_> = by.into_iter().map(|side| Version::from(side).name()).collect();
    let note = format!("all lines end with {} now, as in {}", ending.name(), by.join(" and "));
    let answer = merge(versions.as_ref().map(Vec::as_slice), Some(language), settings);
    // Even where lines will do then, it is not what git makes of them.
    Answer { way: Way::Trees, notes: [note].into_iter().chain(answer.notes).collect(), ..answer }
}

/// Whether three versions can be merged as trees at all (contract K7).
fn all_parse(versions: &Versions<Vec<u8>>, language: &'static Language, settings: &Settings) -> bool {
    let largest = Version::ALL.into_iter().map(|v| versions.get(v).len()).max().unwrap_or(0);
    if largest > settings.size_limit || holds_markers(&versions.base) {
        return false;
    }
    let owned = versions.clone();
    let parse = move || syntax::parse_versions(owned.as_ref().map(Vec::as_slice), language).is_ok();
    in_time(settings.deadline, "read", largest, || (), |tell| tell(unless_it_panics(parse))).unwrap_or(false)
}

fn merged(versions: Versions<&[u8]>, language: Option<&'static Language>, settings: &Settings) -> Answer {
    let merged = line::merge(versions, &settings.line);
    let by_lines = |notes: Vec<String>| Answer { notes, ..Answer::from(merged.clone()) };
    let Some(language) = language else { return by_lines(Vec::new()) };
    if merged.conflicts == 0 && settled(versions, &merged.text) {
        return by_lines(Vec::new());
    }
    let size = [versions.base, versions.ours, versions.theirs].iter().map(|v| v.len()).max().unwrap_or(0);
    if size > settings.size_limit {
        return by_lines(vec![format!("merged as lines: larger than {} bytes", settings.size_limit)]);
    }
    if holds_markers(versions.base) {
        return by_lines(vec!["merged as lines: the base holds conflict markers (a criss-cross merge)".to_owned()]);
    }
    let look = || look(versions, language, settings, &merged);
    let answer = if merged.conflicts > 0 {
        guarded(versions, language, settings, &merged, look)
    } else {
        unless_it_panics(look).and_then(|seen| match seen {
            Some(seen) => guarded(versions, language, settings, &merged, || Some(seen)),
            None => Ok(by_lines(Vec::new())),
        })
    };
    answer.unwrap_or_else(|reason| Answer::by_lines(&merged, &reason))
}

/// As [`merge`], but what both sides agree on is merged as without [`LineSettings::favor`], and only what is still in
/// dispute then is settled that way: with the number of those conflicts.
pub(crate) fn merge_favoring(
    versions: Versions<&[u8]>,
    language: Option<&'static Language>,
    settings: &Settings,
) -> (Answer, usize) {
    let Some(favor) = settings.line.favor else { return (merge(versions, language, settings), 0) };
    // So long that nothing but a marker is taken for one.
    let longest = Versions::each(|v| longest_run(versions.get(v)));
    let marker_size = longest.base.max(longest.ours).max(longest.theirs).max(settings.line.marker_size) + 1;
    let line = LineSettings { favor: None, marker_size, ..settings.line.clone() };
    let unfavored = Settings { line, ..settings.clone() };
    let open = merge(versions, language, &unfavored);
    let conflicts = open.conflicts;
    let by_lines = open.way == Way::Lines && open.text == line::merge(versions, &unfavored.line).text;
    let answer = match by_lines {
        // To the byte what git makes of its own conflicts.
        true => Answer { notes: open.notes, ..Answer::from(line::merge(versions, &settings.line)) },
        false => account::in_favor(open, favor, versions, marker_size),
    };
    (answer, conflicts)
}

/// The most signs of one kind that a line begins with.
fn longest_run(text: &[u8]) -> usize {
    let run = |line: &[u8]| line.first().map_or(0, |first| line.iter().take_while(|c| *c == first).count());
    text.split(|c| *c == b'\n').map(run).max().unwrap_or(0)
}

/// What lines tell of three versions. Nothing, if that is enough: if their clean merge is sound for all that they
/// tell, and nothing in it is worth a note.
fn look(
    versions: Versions<&[u8]>,
    language: &'static Language,
    settings: &Settings,
    merged: &LineMerge,
) -> Option<Seen> {
    let clean = merged.conflicts == 0;
    // A clean merge is to be taken apart into the edits that it was made of.
    let algorithm = if clean { settings.line.algorithm } else { line::Algorithm::Histogram };
    let edits = edits::edits(versions, algorithm);
    let lines = if clean { seen_by_lines(&merged.text, versions, &edits, language) } else { None };
    let enough = matches!(lines, Some(ByLines::Apart))
        && edits::doubled(versions, &edits).is_empty()
        && edits::moved_apart(versions, &edits).is_empty()
        && !withdrawn::perhaps(versions, &edits, language)
        && !stray::perhaps(versions, &edits, language.outline());
    (!enough).then_some(Seen { edits, lines })
}

/// What some work comes to. A defect in it must not take the line merge with it (contract K7).
fn unless_it_panics<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    let outcome = std::panic::catch_unwind(std::panic::AssertUnwindSafe(work));
    outcome.map_err(|_| FAILED.to_owned())
}

const FAILED: &str = "the structural merge failed (a bug in pleach)";

/// Whether a text holds a whole conflict block, as git's virtual ancestors may (`git merge`, "recursive").
fn holds_markers(text: &[u8]) -> bool {
    let marker = |line: &[u8], c: u8| line.starts_with(&[c; 7]) && line.get(7).is_some_and(|b| *b == c || *b == b' ');
    let mut lines = text.split(|b| *b == b'\n');
    lines.any(|l| marker(l, b'<')) && lines.any(|l| marker(l, b'>'))
}

/// Whether a clean line merge needs no second look: it is one of the sides.
fn settled(versions: Versions<&[u8]>, text: &[u8]) -> bool {
    text == versions.ours || text == versions.theirs
}

/// What a clean line merge put together, as far as lines tell.
fn seen_by_lines(
    text: &[u8],
    versions: Versions<&[u8]>,
    edits: &[Edit],
    language: &'static Language,
) -> Option<ByLines> {
    let rules = language.outline()?;
    // Whether something stands before all else in a file, the statements that edits come near do not tell.
    let mut foremost = language.descriptor.entry.iter().map(|entry| &entry.foremost).filter(|sign| !sign.is_empty());
    let is_edited = |sign: &String| {
        let mut sides = edits.iter().flat_map(|edit| Side::BOTH.map(|side| &versions.get(side)[edit.at(side.into())]));
        sides.any(|edited| edited.contains_str(sign))
    };
    if foremost.any(is_edited) {
        return None;
    }
    let edited = edits::places_in(text, versions, edits)?;
    ByLines::of(Versions { base: text, ..versions }, &edited, rules)
}

/// What some work on so many bytes tells, on a thread of its own: a deep recursion, a panic or a parse that does not end
/// must not take the answer with it (contract K7). What the work has left to do when it has told need not be waited for.
/// `meanwhile` is done on this thread as soon as that one has been started.
fn in_time<T: Send + 'static>(
    deadline: Duration,
    name: &str,
    input: usize,
    meanwhile: impl FnOnce(),
    work: impl FnOnce(&dyn Fn(Result<T, String>)) + Send + 'static,
) -> Result<T, String> {
    let (sender, receiver) = mpsc::channel();
    let started = spawn(name, input, move || {
        work(&|told| {
            // The receiver may have given up waiting.
            let _ = sender.send(told);
        });
    });
    started.map_err(|e| format!("no thread to merge on: {e}"))?;
    meanwhile();
    receiver.recv_timeout(deadline).unwrap_or_else(|_| Err(format!("not done within {} s", deadline.as_secs_f32())))
}

/// Runs the structural merge, with what is seen while its thread starts.
fn guarded(
    versions: Versions<&[u8]>,
    language: &'static Language,
    settings: &Settings,
    merged: &LineMerge,
    see: impl FnOnce() -> Option<Seen>,
) -> Result<Answer, String> {
    let owned = versions.map(<[u8]>::to_vec);
    let (line_settings, lines) = (settings.line.clone(), merged.clone());
    let input = owned.base.len() + owned.ours.len() + owned.theirs.len();
    let (tell_seen, seen) = mpsc::channel();
    let meanwhile = || {
        let _ = tell_seen.send(unless_it_panics(see));
        // If it panics, it does so there as well.
        let _ = unless_it_panics(|| language.make_ready());
    };
    in_time(settings.deadline, "merge", input, meanwhile, move |tell| {
        let made = Made::default();
        let Ok(Ok(Some(seen))) = seen.recv() else { return tell(Err(FAILED.to_owned())) };
        let case = Case::new(owned.as_ref().map(Vec::as_slice), language, &line_settings, seen, &made);
        // The trees are given back when it has been told.
        tell(unless_it_panics(|| case.answer(&lines)));
    })
}
