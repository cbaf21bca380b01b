//! The library's face: three versions in, one answer out.

use std::cell::OnceCell;
use std::io;
use std::ops::Range;
use std::sync::mpsc;
use std::thread::JoinHandle;
use std::time::Duration;

use rustc_hash::FxHashSet as HashSet;

use crate::checking::{Dissent, PutTogether};
use crate::excerpt::{ByLines, Excerpt};
use crate::grammar::Language;
use crate::layout::{Blind, Page};
use crate::line::{self, Favor, LineMerge, LineSettings};
use crate::merging::{Unmerged, Withdrawn};
use crate::rest::{self, Edit, Place, Settled, View};
use crate::stray::{self, Stray, Strays};
use crate::syntax::{Parsed, Tree};
use crate::{Side, Version, Versions, account, checking, layout, merging, syntax, withdrawn};

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

impl From<LineMerge> for Answer {
    fn from(merged: LineMerge) -> Answer {
        let LineMerge { text, conflicts } = merged;
        Answer { text, conflicts, way: Way::Lines, notes: Vec::new(), combined: Vec::new() }
    }
}

/// Merges three versions of one file.
///
/// `language` is `None` for a file that no built-in grammar reads: the answer is git's line merge.
/// Never fails (contract K7): what cannot be merged as trees is merged as lines, and
/// [`Answer::notes`] says why.
pub fn merge(versions: Versions<&[u8]>, language: Option<&'static Language>, settings: &Settings) -> Answer {
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
    // A clean merge is to be taken apart into the edits that it was made of.
    let algorithm = if merged.conflicts == 0 { settings.line.algorithm } else { line::Algorithm::Histogram };
    let edits = rest::edits(versions, algorithm);
    let lines = if merged.conflicts == 0 { seen_by_lines(&merged.text, versions, &edits, language) } else { None };
    if matches!(lines, Some(ByLines::Apart))
        && !withdrawn::perhaps(versions, &edits)
        && !stray::perhaps(versions, &edits)
    {
        return by_lines(Vec::new());
    }
    match guarded(versions, language, settings, &merged, Seen { edits, lines }) {
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

/// What a clean line merge put together, as far as lines tell.
fn seen_by_lines(
    text: &[u8],
    versions: Versions<&[u8]>,
    edits: &[Edit],
    language: &'static Language,
) -> Option<ByLines> {
    let rules = language.descriptor.outline.as_ref()?;
    let edited = rest::places_in(text, versions, edits)?;
    ByLines::of(Versions { base: text, ..versions }, &edited, rules)
}

/// Runs the structural merge on a thread of its own: a deep recursion, a panic or a parse that does
/// not end must not take the answer with it.
fn guarded(
    versions: Versions<&[u8]>,
    language: &'static Language,
    settings: &Settings,
    merged: &LineMerge,
    seen: Seen,
) -> Result<Answer, String> {
    let owned = versions.map(<[u8]>::to_vec);
    let (line_settings, lines) = (settings.line.clone(), merged.clone());
    let (sender, receiver) = mpsc::channel();
    let input = owned.base.len() + owned.ours.len() + owned.theirs.len();
    let worker = spawn("merge", input, move || {
        let made = Made::default();
        let case = Case::new(owned.as_ref().map(Vec::as_slice), language, &line_settings, seen, &made);
        let outcome = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| case.answer(&lines)));
        // The receiver may have given up waiting. It need not wait until the trees are given back.
        let _ =
            sender.send(outcome.unwrap_or_else(|_| Err("the structural merge failed (a bug in pleach)".to_owned())));
    });
    worker.map_err(|e| format!("no thread to merge on: {e}"))?;
    receiver
        .recv_timeout(settings.deadline)
        .unwrap_or_else(|_| Err(format!("not done within {} s", settings.deadline.as_secs_f32())))
}

/// Stack of a thread that parses, in bytes; only what is used is ever touched.
const STACK: usize = 256 << 20;

/// Starts a thread that works on so many bytes of text.
fn spawn<T: Send + 'static>(
    name: &str,
    input: usize,
    work: impl FnOnce() -> T + Send + 'static,
) -> io::Result<JoinHandle<T>> {
    std::thread::Builder::new().name(name.to_owned()).stack_size(STACK).spawn(move || {
        take_memory(input);
        work()
    })
}

/// Has the allocator reserve about what a merge of so many bytes will need. On a thread that is not the first,
/// glibc's otherwise takes memory page by page, with a system call for each (`grow_heap` in malloc/arena.c).
fn take_memory(input: usize) {
    let size = (input * 64).clamp(1 << 20, 16 << 20);
    // What is freed the first time was mapped by itself; from then on such sizes come from the heap.
    for size in [size, size - size / 8] {
        drop(std::hint::black_box(Vec::<u8>::with_capacity(size)));
    }
}

/// A clean line merge that cannot stand, and nothing better to say: the edits of both sides nearest to
/// the fault become one conflict.
fn refuse(versions: Versions<&[u8]>, settings: &LineSettings, fault: usize) -> Answer {
    use line::ChunkKind;
    let lines = versions.map(line::lines);
    let chunks = line::chunks(versions, settings.algorithm);
    let resolved = |c: &line::Chunk| match c.kind {
        ChunkKind::Theirs => lines.theirs[c.theirs.clone()].concat(),
        _ => lines.ours[c.ours.clone()].concat(),
    };
    let mut at = 0;
    let mut place = 0;
    for (i, c) in chunks.iter().enumerate() {
        if at < fault {
            place = i;
        }
        at += if c.kind == ChunkKind::Theirs { c.theirs.len() } else { c.ours.len() };
    }
    let nearest = |kind: ChunkKind| {
        chunks.iter().enumerate().filter(|(_, c)| c.kind == kind).map(|(i, _)| i).min_by_key(|i| i.abs_diff(place))
    };
    let ends = [nearest(ChunkKind::Ours).unwrap_or(place), nearest(ChunkKind::Theirs).unwrap_or(place)];
    let (first, last) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
    let mut text = chunks[..first].iter().flat_map(resolved).collect::<Vec<u8>>();
    let disputed = &chunks[first..=last];
    let of = Versions {
        base: disputed.iter().flat_map(|c| lines.base[c.base.clone()].concat()).collect::<Vec<u8>>(),
        ours: disputed.iter().flat_map(|c| lines.ours[c.ours.clone()].concat()).collect(),
        theirs: disputed.iter().flat_map(|c| lines.theirs[c.theirs.clone()].concat()).collect(),
    };
    let conflicts = match settings.favor {
        Some(line::Favor::Ours) => {
            text.extend(of.ours);
            0
        }
        Some(line::Favor::Theirs) => {
            text.extend(of.theirs);
            0
        }
        Some(line::Favor::Union) => {
            text.extend(of.ours);
            text.extend(of.theirs);
            0
        }
        None => {
            let newline = line::newline_of(versions);
            line::write_conflict(&mut text, of.as_ref().map(Vec::as_slice), settings, newline);
            1
        }
    };
    text.extend(chunks[last + 1..].iter().flat_map(resolved));
    Answer::from(LineMerge { text, conflicts })
}

/// What lines tell of a case.
struct Seen {
    edits: Vec<Edit>,
    /// What a clean line merge put together.
    lines: Option<ByLines>,
}

/// Texts made while a case is merged.
#[derive(Default)]
struct Made {
    settled: OnceCell<Settled>,
    excerpt: OnceCell<Option<Excerpt>>,
}

/// Three texts parsed, and the trees of what is to be looked at in them.
struct Reading<'s> {
    parsed: Versions<Parsed<'s>>,
    trees: Versions<Tree<'s>>,
}

/// A file whose line merge may not do.
struct Case<'s> {
    versions: Versions<&'s [u8]>,
    language: &'static Language,
    settings: &'s LineSettings,
    seen: Seen,
    loose: OnceCell<HashSet<u64>>,
    withdrawn: OnceCell<Withdrawn>,
    made: &'s Made,
    excerpt: OnceCell<Option<Reading<'s>>>,
    left: OnceCell<Option<Versions<Parsed<'s>>>>,
    left_trees: OnceCell<Option<Versions<Tree<'s>>>>,
    parsed: OnceCell<Result<Versions<Parsed<'s>>, String>>,
    trees: OnceCell<Versions<Tree<'s>>>,
}

impl<'s> Case<'s> {
    fn new(
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
            withdrawn: OnceCell::new(),
            made,
            excerpt: OnceCell::new(),
            left: OnceCell::new(),
            left_trees: OnceCell::new(),
            parsed: OnceCell::new(),
            trees: OnceCell::new(),
        }
    }

    /// The edits of the sides, by lines.
    fn edits(&self) -> &[Edit] {
        &self.seen.edits
    }

    /// The lines above what a side took out.
    fn loose(&self) -> &HashSet<u64> {
        self.loose.get_or_init(|| rest::left_behind(self.versions, self.edits()))
    }

    /// The names that one side withdrew and the other began to use.
    fn withdrawn(&self) -> &Withdrawn {
        let trees = |side: Side| {
            let parsed = self.parsed().ok()?;
            Some((parsed.base.tree(), parsed.get(side).tree()))
        };
        self.withdrawn.get_or_init(|| withdrawn::withdrawn(self.versions, self.edits(), trees))
    }

    /// What the line merge can settle.
    fn settled(&self) -> &'s Settled {
        self.made.settled.get_or_init(|| rest::settle(self.versions, self.edits(), self.withdrawn(), || self.view()))
    }

    /// Trees in which all edits are, if the versions, or those parts of them, can be read.
    fn view(&self) -> Option<View<'_, 's>> {
        match self.excerpted() {
            Some((excerpt, reading)) => Some(View { trees: &reading.trees, edits: excerpt.open.clone() }),
            None => Some(View { trees: self.trees()?, edits: rest::open(self.edits()) }),
        }
    }

    /// Those parts of the versions that edits come near, if they can be read by themselves.
    fn excerpted(&self) -> Option<(&'s Excerpt, &Reading<'s>)> {
        let excerpt = || self.excerpt_of(self.versions, self.versions.ours, &rest::places(self.edits()));
        let excerpt = self.made.excerpt.get_or_init(excerpt).as_ref()?;
        let reading = self.excerpt.get_or_init(|| self.reading(excerpt)).as_ref()?;
        Some((excerpt, reading))
    }

    /// What the line merge leaves over, parsed, if the grammar reads it by itself.
    fn left(&self) -> Option<&Versions<Parsed<'s>>> {
        let texts = self.settled().texts.as_ref().map(Vec::as_slice);
        let near = self.parsed.get().and_then(|parsed| parsed.as_ref().ok());
        let parse = || syntax::parse_versions(texts, self.language, near).ok();
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
        let parse = || syntax::parse_versions(self.versions, self.language, near);
        let parsed = self.parsed.get_or_init(|| parse().map_err(|(version, e)| format!("{} {e}", version.name())));
        parsed.as_ref().map_err(String::clone)
    }

    /// The trees of the versions, if all of them can be parsed. Lists that nobody changed are not looked into.
    fn trees(&self) -> Option<&Versions<Tree<'s>>> {
        let parsed = self.parsed().ok()?;
        Some(self.trees.get_or_init(|| trees_around(parsed, &rest::changed(self.versions, self.edits()), self.loose())))
    }

    /// The answer, given git's, with what a person should know of it.
    fn answer(&self, merged: &LineMerge) -> Result<Answer, String> {
        let mut answer = self.sound(merged)?;
        answer.notes.extend(withdrawn::warnings(self.withdrawn(), &answer.text));
        Ok(answer)
    }

    fn sound(&self, merged: &LineMerge) -> Result<Answer, String> {
        let lines = || Answer { notes: self.strayed(&merged.text), ..Answer::from(merged.clone()) };
        if merged.conflicts > 0 {
            return self.merge(merged);
        }
        let ours = self.versions.ours;
        if self.plainly_sound(&merged.text) {
            return Ok(lines());
        }
        let near = &self.parsed()?.ours;
        let read = PutTogether::read(&merged.text, ours, near);
        let Some(fault) = read.map_or_else(Some, |read| read.fault(&|| self.trees(), false)) else {
            return Ok(lines());
        };
        let why = format!("the line merge is unsound: {fault}");
        let mut answer = self.merge(merged).unwrap_or_else(|_| refuse(self.versions, self.settings, fault.line()));
        answer.notes.insert(0, why);
        Ok(answer)
    }

    /// What a person should know of a clean line merge in which edits strayed: one line each.
    fn strayed(&self, text: &[u8]) -> Vec<String> {
        let found = Strays::of(self.versions, self.edits(), || self.view()).found;
        if found.is_empty() {
            return Vec::new();
        }
        let Some(places) = rest::places_in(text, self.versions, self.edits()) else { return Vec::new() };
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

    fn merge(&self, merged: &LineMerge) -> Result<Answer, String> {
        let old = checking::dissent(&merged.text, self.settings.marker_size);
        let (mut page, read) = self.together(merged.conflicts > 0);
        let enough = |page: &Page| page.conflicts == 0 || merged.conflicts > 0 && !self.dissent(page).worse_than(old);
        // What was merged as a whole because what lines leave over cannot be read may be more than it needs to be.
        let will_do = |page: &Page| enough(page) && (page.conflicts == 0 || read);
        if !page.as_ref().is_ok_and(will_do)
            && let Some(pieces) = self.one_by_one()
            && enough(&pieces)
            && !page.as_ref().is_ok_and(|page| enough(page) && !self.dissent(page).worse_than(self.dissent(&pieces)))
        {
            page = Ok(pieces);
        }
        let mut page = page?;
        let new = self.dissent(&page);
        if page.conflicts > 0 && merged.conflicts > 0 && new.worse_than(old) {
            return Err(format!("{} lines of conflict instead of {}", new.lines, old.lines));
        }
        account::complete(self.versions, self.edits(), &page.text, self.settings.marker_size, &mut page.combined);
        let Dissent { blocks, lines, parted } = new;
        let joined = |fewer, more| Dissent { blocks: blocks - fewer, lines: lines + more, parted: parted - fewer };
        let will_do = |fewer, more| merged.conflicts == 0 || !joined(fewer, more).worse_than(old);
        let page = layout::join(page, self.versions, self.settings, will_do);
        let notes = withdrawn::reasons(&page, self.settings.marker_size);
        let Page { text, conflicts, combined, .. } = page;
        Ok(Answer { text, conflicts, way: Way::Trees, notes, combined })
    }

    fn dissent(&self, page: &Page) -> Dissent {
        checking::dissent(&page.text, self.settings.marker_size)
    }

    /// One structural merge of everything.
    ///
    /// What lines could not settle is left over when both sides' undisputed line edits are in all three
    /// versions: fewer differences, fewer disputes, less to look at. But moves across those edits are out of
    /// sight, and where an edit was made is only known by the lines around it: if a line in conflict may have
    /// moved, the versions themselves are merged too.
    ///
    /// Where lines did not conflict but their answer is unsound, what they leave over is just that answer.
    ///
    /// The second value tells whether what lines leave over could be read.
    fn together(&self, conflicts: bool) -> (Result<Page, String>, bool) {
        let rest = conflicts.then(|| self.excerpt_of_rest().map(Ok).or_else(|| self.rest())).flatten();
        let whole = match &rest {
            Some(Ok(page)) if page.conflicts == 0 || !self.settled().moved => None,
            _ => Some(self.whole()),
        };
        let read = rest.is_some();
        let page = match (whole, rest) {
            (Some(Ok(a)), Some(Ok(b))) if a.conflicts > 0 && self.dissent(&a).worse_than(self.dissent(&b)) => Ok(b),
            (Some(Ok(a)), _) => Ok(a),
            (_, Some(Ok(b))) => Ok(b),
            (Some(Err(reason)), _) | (None, Some(Err(reason))) => Err(reason),
            (None, None) => unreachable!("one of the two was tried"),
        };
        (page, read)
    }

    /// The merge of the versions themselves.
    fn whole(&self) -> Result<Page, String> {
        if let Some((excerpt, reading)) = self.excerpted()
            && let Some(page) = self.while_rest_parses(excerpt, || self.in_excerpt(excerpt, reading, self.versions))
        {
            return Ok(page);
        }
        let parsed = self.parsed()?;
        let trees = self.trees().expect("they are parsed");
        self.attempt(self.versions, parsed, trees, &parsed.ours)
    }

    /// Those parts of three texts, which are the same but for what was edited, that edits come near.
    fn excerpt_of(&self, texts: Versions<&[u8]>, own: &[u8], edited: &[Place]) -> Option<Excerpt> {
        Excerpt::of(texts, own, edited, self.language.descriptor.outline.as_ref()?)
    }

    fn reading<'x>(&self, excerpt: &'x Excerpt) -> Option<Reading<'x>> {
        let parsed = syntax::parse_versions(excerpt.texts.as_ref().map(Vec::as_slice), self.language, None).ok()?;
        let trees = readable(trees_around(&parsed, &excerpt.disputed, self.loose()))?;
        Some(Reading { parsed, trees })
    }

    /// What is found in an excerpt, if what it leaves out parses too: if not, the answer is the line merge (contract
    /// K7). That is often the longer part, and nothing else needs its outcome: it is read on a thread of its own.
    fn while_rest_parses<T>(&self, excerpt: &Excerpt, find: impl FnOnce() -> Option<T>) -> Option<T> {
        let (rest, language) = (excerpt.left_out(self.language.descriptor.outline.as_ref()?), self.language);
        let parses = spawn("rest", rest.len(), move || Parsed::new(&rest, language).is_ok()).ok()?;
        let found = find()?;
        parses.join().is_ok_and(|parses| parses).then_some(found)
    }

    /// The merge of an excerpt of `versions`, with all that it leaves out, if nothing is in doubt.
    fn in_excerpt(&self, excerpt: &Excerpt, reading: &Reading<'_>, versions: Versions<&[u8]>) -> Option<Page> {
        let page = self.merged(&reading.parsed, &reading.trees).ok()?;
        if page.conflicts == 0 {
            let read = PutTogether::read(&page.text, &excerpt.ours, &reading.parsed.ours).ok()?;
            if read.fault(&|| Some(self.view()?.trees), true).is_some()
                || read.perhaps_twice(&|name, names| excerpt.holds(name, names))
            {
                return None;
            }
        }
        if !self.can_be_settled(&page, &reading.parsed.ours) {
            return None;
        }
        let page = excerpt.restored(page)?;
        let balanced = page.conflicts > 0 || checking::unbalanced(versions, &page.text).is_none();
        balanced.then_some(page)
    }

    /// The merge of an excerpt of what the line merge leaves over.
    fn excerpt_of_rest(&self) -> Option<Page> {
        let settled = self.settled();
        let rules = self.language.descriptor.outline.as_ref()?;
        // Two statements that lines settled are left out without a look at whether they name the same thing.
        let names = |line: &Vec<u8>| rules.naming.iter().any(|word| line.starts_with(word.as_bytes()));
        if settled.doubled.iter().any(names) {
            return None;
        }
        let excerpt =
            self.excerpt_of(settled.texts.as_ref().map(Vec::as_slice), self.versions.ours, &settled.edited)?;
        self.while_rest_parses(&excerpt, || self.in_excerpt(&excerpt, &self.reading(&excerpt)?, self.versions))
    }

    /// The merge of what the line merge leaves over, if that can be read by itself.
    fn rest(&self) -> Option<Result<Page, String>> {
        let parsed = self.left()?;
        Some(self.attempt(self.versions, parsed, self.left_trees()?, &parsed.ours))
    }

    /// Each conflict of the line merge merged by itself, as trees or as lines, whichever leaves less of it.
    fn one_by_one(&self) -> Option<Page> {
        let settled = self.settled();
        self.parsed().ok()?;
        let mut page = Page { text: Vec::new(), conflicts: 0, combined: Vec::new(), gone: Vec::new() };
        let (mut at, mut apart) = (0, false);
        let places = self.edits().iter().zip(&settled.edited);
        for (edit, Place { at: open, moved_here, .. }) in places.filter(|(_, place)| place.open) {
            page.text.extend_from_slice(&settled.texts.ours[at..open.ours.start]);
            at = open.ours.end;
            let texts = Versions::each(|v| &settled.texts.get(v)[open.get(v).clone()]);
            // Both took it out, and one may have put it in elsewhere: not to be told from one place alone.
            apart |= texts.ours.is_empty() && texts.theirs.is_empty();
            let lines = line::merge_part(texts, self.settings, Some(line::newline_of(self.versions)));
            let old = checking::dissent(&lines.text, self.settings.marker_size);
            let better = |piece: &Page| {
                let new = self.dissent(piece);
                !new.worse_than(old) && new.blocks <= old.blocks
            };
            let alone = |side: Side| self.alone(texts, side, &edit.at(side.into())).filter(better);
            let piece = if *moved_here { None } else { self.least_disputed(alone) };
            match piece {
                Some(piece) => {
                    let above = line::lines(&page.text).len();
                    let combined = piece.combined.into_iter();
                    page.combined.extend(combined.map(|c| Combined { line: c.line + above, ..c }));
                    page.text.extend(piece.text);
                    page.conflicts += piece.conflicts;
                    page.gone.extend(piece.gone);
                }
                None if self.either_parses(texts, edit) => {
                    page.text.extend(lines.text);
                    page.conflicts += lines.conflicts;
                }
                None => return None,
            }
        }
        page.text.extend_from_slice(&settled.texts.ours[at..]);
        match page.conflicts {
            0 if apart => None,
            0 => self.checked(self.versions, page, &self.parsed().ok()?.ours).ok(),
            _ => Some(page),
        }
    }

    /// Of what can be had with the text of either side, ours if nothing is left in dispute, else what leaves less.
    fn least_disputed(&self, mut of: impl FnMut(Side) -> Option<Page>) -> Option<Page> {
        let ours = of(Side::Ours);
        if ours.as_ref().is_some_and(|page| page.conflicts == 0) {
            return ours;
        }
        match (ours, of(Side::Theirs)) {
            (Some(ours), Some(theirs)) if !self.dissent(&ours).worse_than(self.dissent(&theirs)) => Some(ours),
            (ours, theirs) => theirs.or(ours),
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
        let excerpt = excerpt.and_then(|excerpt| self.in_excerpt(&excerpt, &self.reading(&excerpt)?, spot.texts()));
        let page = excerpt.or_else(|| {
            let near = self.parsed().ok()?.get(side);
            let parsed = spot.parsed(near)?;
            self.attempt(spot.texts(), &parsed, &spot.trees(&parsed, self.loose())?, near).ok()
        })?;
        let (before, after) = (&own[..place.start], &own[place.end..]);
        let text = page.text.strip_prefix(before)?.strip_suffix(after)?.to_vec();
        let above = line::lines(before).len();
        let combined = page.combined.into_iter().filter(|c| c.line > above);
        let combined = combined.map(|c| Combined { line: c.line - above, ..c }).collect();
        Some(Page { text, combined, ..page })
    }

    /// One structural merge, checked; `near` is parsed text that most of the answer is in.
    fn attempt(
        &self,
        versions: Versions<&[u8]>,
        parsed: &Versions<Parsed<'_>>,
        trees: &Versions<Tree<'_>>,
        near: &Parsed<'_>,
    ) -> Result<Page, String> {
        self.checked(versions, self.merged(parsed, trees).map_err(|e| e.to_string())?, near)
    }

    /// A structural merge, unchecked, by trees in which only what may matter was looked into; in more of them, or in
    /// full, if that does not do.
    fn merged(&self, parsed: &Versions<Parsed<'_>>, trees: &Versions<Tree<'_>>) -> Result<Page, Unmerged> {
        let again = |unseen: &dyn Fn(usize) -> bool| {
            let live = trees.as_ref().map(|tree| {
                let mut start = 0;
                let kept = tree.wholes().enumerate().filter(|(number, _)| !unseen(*number));
                let ends = kept
                    .map(|(_, list)| tree.node(list).span.range())
                    .chain(std::iter::once(tree.source.len()..tree.source.len()));
                ends.map(|whole| std::mem::replace(&mut start, whole.end)..whole.start).collect::<Vec<_>>()
            });
            merged(&trees_around(parsed, &live, self.loose()), self.withdrawn(), self.settings)
        };
        let unseen = match merged(trees, self.withdrawn(), self.settings) {
            Err(Unmerged::Unseen(unseen)) => unseen.into_iter().collect::<HashSet<usize>>(),
            outcome => return outcome,
        };
        match again(&|number| unseen.contains(&number)) {
            Err(Unmerged::Unseen(_)) => again(&|_| true),
            outcome => outcome,
        }
    }

    /// A merge of `versions`, if it is in conflict or can stand.
    fn checked(&self, versions: Versions<&[u8]>, page: Page, near: &Parsed<'_>) -> Result<Page, String> {
        if page.conflicts == 0 {
            let read = PutTogether::read(&page.text, versions.ours, near);
            if let Some(fault) = read.map_or_else(Some, |read| read.fault(&|| self.trees(), true)) {
                return Err(format!("the structural answer is unsound: {fault}"));
            }
            if let Some(fault) = checking::unbalanced(versions, &page.text) {
                return Err(format!("the books do not balance: {fault}"));
            }
        }
        if !self.can_be_settled(&page, near) {
            return Err("a side of the structural answer does not parse".to_owned());
        }
        Ok(page)
    }

    /// Whether what is in dispute on a page, much like `near`, can be settled for either side, and parse (contract K9).
    fn can_be_settled(&self, page: &Page, near: &Parsed<'_>) -> bool {
        let parses = |side: Side| {
            let text = line::chosen(&page.text, self.settings.marker_size, side);
            let parsed = near.edited_to(&text).ok()?;
            parsed.tree_around(&parsed.differing_from(near.source()), self.loose()).forgiven.is_none().then_some(())
        };
        page.conflicts == 0 || Side::BOTH.into_iter().all(|side| parses(side).is_some())
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

/// Three trees made one, and laid out.
fn merged(trees: &Versions<Tree<'_>>, withdrawn: &Withdrawn, settings: &LineSettings) -> Result<Page, Unmerged> {
    let merge = merging::merge_trees(trees, withdrawn)?;
    layout::lay_out(trees, &merge, settings)
        .map_err(|Blind| Unmerged::Unseen((0..trees.base.wholes().count()).collect()))
}

/// The trees of texts that edits of lines made, if these left nothing in them that only the grammar forgives.
fn readable(trees: Versions<Tree<'_>>) -> Option<Versions<Tree<'_>>> {
    Version::ALL.into_iter().all(|v| trees.get(v).forgiven.is_none()).then_some(trees)
}

fn trees_around<'s>(
    parsed: &Versions<Parsed<'s>>,
    live: &Versions<Vec<Range<usize>>>,
    loose: &HashSet<u64>,
) -> Versions<Tree<'s>> {
    parsed.as_ref().zip(live.as_ref()).map(|(parsed, live)| parsed.tree_around(live, loose))
}
