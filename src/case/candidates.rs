//! Structural merges of a case: which are tried, and when one will do.

use std::rc::Rc;

use rustc_hash::FxHashMap as HashMap;

use super::{Case, Made, Seen};
use crate::checking::Dissent;
use crate::edits::{self, Edit, account, withdrawn};
use crate::grammar::words;
use crate::layout::Page;
use crate::line::{self, Algorithm, LineMerge, LineSettings};
use crate::syntax::Parsed;
use crate::{Answer, Side, Versions, Way, checking, layout, relaid};

impl Case<'_> {
    /// The structural merge, or git's line merge by the histogram diff if that leaves less in dispute: what `git merge`
    /// would have made of a file is not beyond `git merge-file`.
    pub(super) fn merge(&self, merged: &LineMerge) -> Result<Answer, String> {
        let answer = self.by_trees(merged);
        let clean = merged.conflicts == 0 || answer.as_ref().is_ok_and(|answer| answer.conflicts == 0);
        if clean || self.settings.algorithm == Algorithm::Histogram {
            return answer;
        }
        let own = answer.as_ref().map_or(&merged.text, |answer| &answer.text);
        let own = checking::dissent(own, self.settings.marker_size);
        let settings = LineSettings { algorithm: Algorithm::Histogram, ..self.settings.clone() };
        let other = line::merge(self.versions, &settings);
        let less = own.worse_than(checking::dissent(&other.text, self.settings.marker_size));
        let sound = || matches!(self.examined(&other.text), Ok(None)) && self.lists_well(&other.text);
        if less && self.parsed().is_ok() && (other.conflicts > 0 || sound()) {
            let mut notes = vec!["merged as lines, by the histogram diff: that leaves less in conflict".to_owned()];
            if other.conflicts == 0 {
                notes.extend(self.strayed(&other.text));
            }
            return Ok(Answer { notes, ..Answer::from(other) });
        }
        answer
    }

    fn by_trees(&self, merged: &LineMerge) -> Result<Answer, String> {
        let old = checking::dissent(&merged.text, self.settings.marker_size);
        let mut page = match self.done_alike(merged, old) {
            Some(page) if page.conflicts == 0 => Ok(page),
            Some(alike) => match self.page(merged, old) {
                Ok(page) if !self.dissent(&page).worse_than(self.dissent(&alike)) => Ok(page),
                _ => Ok(alike),
            },
            None => self.page(merged, old),
        };
        let (open, crowded) = page.as_ref().map_or((true, false), |page| (page.conflicts > 0, page.crowded));
        // Where a name is not listed as a side lists names now, the other answer need not leave less in dispute.
        let less = |page: &Page, other: &Page| {
            let (old, new) = (self.dissent(page), self.dissent(other));
            old.worse_than(new) || crowded && !new.worse_than(old)
        };
        if (open || crowded)
            && let Some(other) = self.relaid()
            && page.as_ref().map_or(true, |page| less(page, &other))
        {
            page = Ok(other);
        }
        let mut page = page?;
        if page.conflicts == 0
            && let Some(fault) = checking::unbalanced_statements(self.versions, &page.text, self.language)
        {
            return Err(format!("the books do not balance: {fault}"));
        }
        let new = self.dissent(&page);
        if page.conflicts > 0 && merged.conflicts > 0 && new.worse_than(old) {
            let why = format!("as syntax, {} lines would be in conflict instead of {}", new.lines, old.lines);
            return Err([why].into_iter().chain(withdrawn::used_anew(&page)).collect::<Vec<_>>().join("; "));
        }
        account::complete(self.versions, self.edits(), &page.text, self.settings.marker_size, &mut page.combined);
        let Dissent { blocks, lines, parted } = new;
        let joined = |fewer, more| Dissent { blocks: blocks - fewer, lines: lines + more, parted: parted - fewer };
        let will_do = |fewer, more| merged.conflicts == 0 || !joined(fewer, more).worse_than(old);
        let page = layout::join(page, self.versions, self.settings, will_do);
        let notes = withdrawn::reasons(&page, self.withdrawn(), self.settings.marker_size);
        let Page { text, conflicts, combined, .. } = page;
        Ok(Answer { text, conflicts, way: Way::Trees, notes, combined, kept: Vec::new() })
    }

    /// What trees make of a case of which lines make `merged`, with so much in dispute.
    fn page(&self, merged: &LineMerge, old: Dissent) -> Result<Page, String> {
        let (mut page, read) = self.together((merged.conflicts > 0).then_some(old));
        let enough = |page: &Page| page.conflicts == 0 || merged.conflicts > 0 && !self.dissent(page).worse_than(old);
        // What was merged as a whole because what lines leave over cannot be read may be more than it needs to be.
        let will_do = |page: &Page| enough(page) && (page.conflicts == 0 || read);
        // What is far from a conflict may use what is withdrawn there, and is not seen by pieces.
        let seen = |pieces: &Page| {
            page.as_ref().map_or(&[][..], |page| &page.gone).iter().all(|name| pieces.gone.contains(name))
        };
        // Lines tell better than trees where a comment went, if what stands around it moved.
        let comments_alone = |page: &Page| self.disputes_comments_alone(page);
        let better = |pieces: &Page| match &page {
            Ok(page) if will_do(page) => pieces.conflicts == 0,
            Ok(page) => !enough(page) || self.dissent(page).worse_than(self.dissent(pieces)),
            Err(_) => true,
        };
        if !page.as_ref().is_ok_and(|page| will_do(page) && (page.conflicts == 0 || !comments_alone(page)))
            && let Some(pieces) = self.one_by_one(merged)
            && enough(&pieces)
            && seen(&pieces)
            && better(&pieces)
        {
            page = Ok(pieces);
        }
        page
    }

    /// The structural merge of the sides and base as it is with all that both did alike where they disagree, if there is
    /// any such thing.
    fn done_alike(&self, merged: &LineMerge, old: Dissent) -> Option<Page> {
        let (base, edits) = edits::done_alike(self.versions, self.edits(), || self.view())?;
        let page = self.page_of(Versions { base: &base[..], ..self.versions }, edits, merged, old)?;
        if page.conflicts > 0 {
            return Some(page);
        }
        // What one side only moved is neither gone nor new to who looks at that base.
        let lists_well = || !self.may_list_anew() || self.lists_well(&page.text);
        (checking::unbalanced(self.versions, &page.text).is_none() && lists_well()).then_some(page)
    }

    /// The structural merge of the versions as they are when what one side laid out anew is so in all of them, if there
    /// is any such thing that the other side changed.
    fn relaid(&self) -> Option<Page> {
        let rules = self.language.paths().filter(|_| self.may_list_anew())?;
        // What stands in a value, only all of a tree shows. Else those parts that were read anyway tell whether it is
        // worth while to read the rest.
        let texts = if rules.list_values() {
            relaid::relaid(&self.parsed().ok()?.as_ref().map(Parsed::tree))?
        } else {
            relaid::relaid(self.view()?.trees)?;
            relaid::relaid(self.trees()?)?
        };
        let parsed = self.parsed().ok()?;
        let texts = texts.as_ref().map(Vec::as_slice);
        let merged = line::merge(texts, self.settings);
        let page = match merged.conflicts {
            0 => Page::default().moved(merged.text, Vec::new()),
            _ => {
                let old = checking::dissent(&merged.text, self.settings.marker_size);
                self.page_of(texts, edits::edits(texts, Algorithm::Histogram), &merged, old)?
            }
        };
        self.checked(self.versions, page, &parsed.ours).ok()
    }

    /// What trees make of other texts, with these edits of lines.
    fn page_of(&self, texts: Versions<&[u8]>, edits: Vec<Edit>, merged: &LineMerge, old: Dissent) -> Option<Page> {
        let made = Made::default();
        let seen = Seen { edits, lines: None };
        let mut case = Case::new(texts, self.language, self.settings, seen, &made);
        case.known = Rc::clone(&self.known);
        case.page(merged, old).ok()
    }

    /// Whether all that a page leaves in dispute is comments.
    fn disputes_comments_alone(&self, page: &Page) -> bool {
        let Some(rules) = self.language.outline() else { return false };
        let (lines, size) = (line::lines(&page.text), self.settings.marker_size);
        let marker = |line: &[u8]| b"<|=>".iter().any(|mark| line::is_mark(line, *mark, size));
        let code = |line: &&[u8]| !line.trim_ascii().is_empty() && !rules.is_comment(line) && !marker(line);
        line::blocks(&lines, size).iter().all(|block| !lines[block.lines.clone()].iter().any(code))
    }

    pub(super) fn dissent(&self, page: &Page) -> Dissent {
        checking::dissent(&page.text, self.settings.marker_size)
    }

    /// One structural merge of everything.
    ///
    /// What lines could not settle is left over when both sides' undisputed line edits are in all three
    /// versions: fewer differences, fewer disputes, less to look at. But moves across those edits are out of
    /// sight, and where an edit was made is only known by the lines around it: if a line in conflict may have
    /// moved, and something is in dispute still or stands there once more than on either side, the versions themselves are
    /// merged too.
    ///
    /// Or if what each side put in, and lines did not see as one, is unsound together.
    ///
    /// Where lines did not conflict but their answer is unsound, what they leave over is just that answer: then `old`,
    /// what the line merge has in dispute, is not given.
    ///
    /// The second value tells whether what lines leave over could be read.
    fn together(&self, old: Option<Dissent>) -> (Result<Page, String>, bool) {
        let rest = old.and_then(|_| self.excerpt_of_rest().map(Ok).or_else(|| self.rest()));
        let unsound = |page: &Page| {
            let left = self.left.get().and_then(Option::as_ref);
            left.is_some_and(|left| self.is_unsound_when_settled(&page.text, left))
        };
        let doubtful = matches!(&rest, Some(Ok(page)) if page.conflicts > 0 && unsound(page));
        let in_doubt = |page: &Page| page.conflicts > 0 || self.repeats_a_line(&page.text);
        let whole = match &rest {
            Some(Ok(page)) if !(doubtful || self.settled().moved && in_doubt(page)) => None,
            _ => Some(self.whole()),
        };
        let read = rest.is_some();
        let worse = |a: Dissent, b: Dissent| match old {
            Some(old) if doubtful => a.worse_than(old),
            _ => a.worse_than(b),
        };
        let page = match (whole, rest) {
            (Some(Ok(a)), Some(Ok(b))) if a.conflicts > 0 && worse(self.dissent(&a), self.dissent(&b)) => Ok(b),
            // Of two that say the same, that which has all that lines settled as they did.
            (Some(Ok(a)), Some(Ok(b))) if a.conflicts + b.conflicts == 0 && says_the_same(&a.text, &b.text) => Ok(b),
            (Some(Ok(a)), _) => Ok(a),
            (_, Some(Ok(b))) => Ok(b),
            (Some(Err(reason)), _) | (None, Some(Err(reason))) => Err(reason),
            (None, None) => unreachable!("one of the two was tried"),
        };
        (page, read)
    }

    /// Whether a text has a line with a word in it more often than either side.
    fn repeats_a_line(&self, text: &[u8]) -> bool {
        fn counts(text: &[u8]) -> HashMap<&[u8], usize> {
            let mut counts = HashMap::default();
            let lines = line::lines(text).into_iter().map(<[u8]>::trim_ascii);
            lines.filter(|line| words(line).next().is_some()).for_each(|line| *counts.entry(line).or_default() += 1);
            counts
        }
        let sides = Side::BOTH.map(|side| counts(self.versions.get(side)));
        counts(text).into_iter().any(|(line, often)| sides.iter().all(|side| side.get(line).is_none_or(|n| *n < often)))
    }

    /// The merge of the versions themselves.
    fn whole(&self) -> Result<Page, String> {
        if let Some((excerpt, reading)) = self.excerpted() {
            let find = || self.in_excerpt(excerpt, reading, self.versions, Default::default);
            // What edits do not come near, those that lines settled do not come near either: it has been read.
            let page = if self.rest_parses.get() { find() } else { self.while_rest_parses(excerpt, find) };
            if let Some(page) = page {
                return Ok(page);
            }
        }
        let parsed = self.parsed()?;
        let trees = self.trees().expect("they are parsed");
        self.attempt(self.versions, parsed, trees, &parsed.ours)
    }

    /// The merge of what the line merge leaves over, if that can be read by itself.
    fn rest(&self) -> Option<Result<Page, String>> {
        let parsed = self.left()?;
        Some(self.attempt(self.versions, parsed, self.left_trees()?, &parsed.ours))
    }
}

/// Whether two texts are of the same words, in whatever order.
fn says_the_same(a: &[u8], b: &[u8]) -> bool {
    let sorted = |text| {
        let mut all: Vec<&[u8]> = words(text).collect();
        all.sort_unstable();
        all
    };
    sorted(a) == sorted(b)
}
