//! The library's face: three versions in, one answer out.

use std::sync::mpsc;
use std::time::Duration;

use crate::grammar::Language;
use crate::line::{self, LineMerge, LineSettings};
use crate::{Version, Versions, checking, layout, merging, syntax};

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
}

/// Merges three versions of one file.
///
/// `language` is `None` for a file that no built-in grammar reads: the answer is git's line merge.
/// Never fails (contract K7): what cannot be merged as trees is merged as lines, and
/// [`Answer::notes`] says why.
pub fn merge(versions: Versions<&[u8]>, language: Option<&'static Language>, settings: &Settings) -> Answer {
    let merged = line::merge(versions, &settings.line);
    let by_lines = |notes: Vec<String>| Answer {
        text: merged.text.clone(),
        conflicts: merged.conflicts,
        way: Way::Lines,
        notes,
        combined: Vec::new(),
    };
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
    match guarded(versions, language, settings, &merged) {
        Ok(answer) => answer,
        Err(reason) => by_lines(vec![format!("merged as lines: {reason}")]),
    }
}

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

/// Runs the structural merge on a thread of its own: a deep recursion, a panic or a parse that does
/// not end must not take the answer with it.
fn guarded(
    versions: Versions<&[u8]>,
    language: &'static Language,
    settings: &Settings,
    merged: &LineMerge,
) -> Result<Answer, String> {
    let owned = versions.map(<[u8]>::to_vec);
    let (line_settings, lines) = (settings.line.clone(), merged.clone());
    let (sender, receiver) = mpsc::channel();
    let worker = std::thread::Builder::new().name("merge".to_owned()).stack_size(STACK).spawn(move || {
        let borrowed = owned.as_ref().map(Vec::as_slice);
        let outcome = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
            structural(borrowed, language, &line_settings, &lines)
        }));
        // The receiver may have given up waiting.
        let _ =
            sender.send(outcome.unwrap_or_else(|_| Err("the structural merge failed (a bug in pleach)".to_owned())));
    });
    worker.map_err(|e| format!("no thread to merge on: {e}"))?;
    receiver
        .recv_timeout(settings.deadline)
        .unwrap_or_else(|_| Err(format!("not done within {} s", settings.deadline.as_secs_f32())))
}

/// Stack of the merging thread, in bytes; only what is used is ever touched.
const STACK: usize = 256 << 20;

fn structural(
    versions: Versions<&[u8]>,
    language: &'static Language,
    settings: &LineSettings,
    merged: &LineMerge,
) -> Result<Answer, String> {
    let trees = syntax::parse_versions(versions, language).map_err(|(version, e)| format!("{} {e}", version.name()))?;
    let mut why = String::new();
    if merged.conflicts == 0 {
        match checking::unsound(&merged.text, &trees, language) {
            None => {
                return Ok(Answer {
                    text: merged.text.clone(),
                    conflicts: 0,
                    way: Way::Lines,
                    notes: Vec::new(),
                    combined: Vec::new(),
                });
            }
            Some(fault) => why = format!("the line merge is unsound: {fault}"),
        }
    }
    let size = settings.marker_size;
    let whole = attempt(versions, &trees, &trees, language, settings);
    // What lines could not settle is left over when both sides' undisputed line edits are in all three
    // versions: fewer differences, fewer disputes; but moves across those edits are out of sight.
    let rest = match &whole {
        Ok(page) if page.conflicts == 0 => None,
        _ => Some(settle(versions)),
    };
    let rest = rest.and_then(|rest| {
        let borrowed = rest.as_ref().map(Vec::as_slice);
        let smaller = syntax::parse_versions(borrowed, language).ok()?;
        Some(attempt(versions, &smaller, &trees, language, settings))
    });
    let dissent = |page: &layout::Page| checking::dissent(&page.text, size);
    let page = match (whole, rest) {
        (Ok(a), Some(Ok(b))) => {
            if dissent(&a).worse_than(dissent(&b)) || b.conflicts == 0 {
                b
            } else {
                a
            }
        }
        (Ok(a), _) => a,
        (Err(_), Some(Ok(b))) => b,
        (Err(reason), _) => return Err(reason),
    };
    if page.conflicts > 0 && merged.conflicts > 0 {
        let (new, old) = (dissent(&page), checking::dissent(&merged.text, size));
        if new.worse_than(old) {
            return Err(format!("{} lines of conflict instead of {}", new.lines, old.lines));
        }
    }
    let notes = if why.is_empty() { Vec::new() } else { vec![why] };
    Ok(Answer { text: page.text, conflicts: page.conflicts, way: Way::Trees, notes, combined: page.combined })
}

/// One structural merge, checked. `trees` are merged; `versions` and `sides` are what was given.
fn attempt(
    versions: Versions<&[u8]>,
    trees: &Versions<syntax::Tree<'_>>,
    sides: &Versions<syntax::Tree<'_>>,
    language: &'static Language,
    settings: &LineSettings,
) -> Result<layout::Page, String> {
    let piece = merging::merge_trees(trees).map_err(|_| "the sides agree on nothing".to_owned())?;
    let page = layout::lay_out(trees, &piece, settings);
    if page.conflicts == 0 {
        if let Some(fault) = checking::unsound(&page.text, sides, language) {
            return Err(format!("the structural answer is unsound: {fault}"));
        }
        if let Some(fault) = checking::unbalanced(versions, &page.text) {
            return Err(format!("the books do not balance: {fault}"));
        }
    }
    Ok(page)
}

/// The three versions with every line edit that is not in conflict made in all of them.
fn settle(versions: Versions<&[u8]>) -> Versions<Vec<u8>> {
    let lines = versions.map(line::lines);
    let mut settled = Versions::<Vec<u8>>::default();
    for chunk in line::chunks(versions, line::Algorithm::Histogram) {
        let of = Versions {
            base: &lines.base[chunk.base],
            ours: &lines.ours[chunk.ours],
            theirs: &lines.theirs[chunk.theirs],
        };
        let of = match chunk.kind {
            line::ChunkKind::Conflict => of,
            line::ChunkKind::Theirs => Versions { base: of.theirs, ours: of.theirs, theirs: of.theirs },
            _ => Versions { base: of.ours, ours: of.ours, theirs: of.ours },
        };
        for version in Version::ALL {
            settled.get_mut(version).extend(of.get(version).concat());
        }
    }
    settled
}
