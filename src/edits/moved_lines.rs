//! Lines that a side took out in one place and put in at another, or further in or out.

use std::ops::Range;

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::{Edit, telling};
use crate::line;
use crate::{Side, Version, Versions};

/// The lines of base, in an edited stretch, that a side has further in or out.
pub(super) fn reindented<'v>(versions: Versions<&'v [u8]>, edit: &Edit, side: Side) -> Vec<&'v [u8]> {
    let depths = |version: Version| {
        let mut depths: HashMap<&[u8], Vec<&[u8]>> = HashMap::default();
        for line in line::lines(&versions.get(version)[edit.at.get(version).clone()]) {
            let text = line.trim_ascii();
            if text.iter().any(u8::is_ascii_alphanumeric) {
                depths.entry(text).or_default().push(&line[..line.len() - line.trim_ascii_start().len()]);
            }
        }
        depths
    };
    let base = depths(Version::Base);
    if base.is_empty() {
        return Vec::new();
    }
    let elsewhere = |(text, own): &(&[u8], Vec<&[u8]>)| {
        base.get(text).is_some_and(|old| !old.iter().any(|depth| own.contains(depth)))
    };
    depths(side.into()).into_iter().filter(elsewhere).map(|(text, _)| text).collect()
}

/// The telling lines of a stretch, without the white space around them.
pub(super) fn told<'v>(text: &'v [u8], range: &Range<usize>) -> impl Iterator<Item = &'v [u8]> + use<'v> {
    line::lines(&text[range.clone()]).into_iter().map(<[u8]>::trim_ascii).filter(|line| telling(line))
}

/// The lines that were taken out and put in.
#[derive(Default)]
pub(super) struct Moves<'v> {
    pub out: HashSet<&'v [u8]>,
    pub put: HashSet<&'v [u8]>,
}

impl<'v> Moves<'v> {
    /// Those of one side in an edited stretch.
    pub(super) fn of(versions: Versions<&'v [u8]>, at: &Versions<Range<usize>>, side: Side) -> Moves<'v> {
        let count = |version: Version| {
            let mut count: HashMap<&[u8], usize> = HashMap::default();
            let lines = told(versions.get(version), at.get(version)).map(opening);
            lines.for_each(|line| *count.entry(line).or_default() += 1);
            count
        };
        let (base, own) = (count(Version::Base), count(side.into()));
        let more = |of: &HashMap<&'v [u8], usize>, than: &HashMap<&'v [u8], usize>| {
            let more = of.iter().filter(|(line, n)| than.get(*line).is_none_or(|other| other < n));
            more.map(|(line, _)| *line).collect()
        };
        Moves { out: more(&base, &own), put: more(&own, &base) }
    }

    pub(super) fn add(&mut self, more: &Moves<'v>) {
        self.out.extend(&more.out);
        self.put.extend(&more.put);
    }

    /// Whether a line was taken out here and put in there, or the other way.
    pub(super) fn crosses(&self, there: &Moves<'_>) -> bool {
        !self.put.is_disjoint(&there.out) || !self.out.is_disjoint(&there.put)
    }
}

/// What a line that begins with several words begins with, such as the name in `def low(rows):` or the first of
/// those in `from tides import high, low`; what an argument with a name or an entry with a key begins with, such as
/// `unit=` in `unit="m",` or `"unit":` in `"unit": "m",`; else all of it.
pub(super) fn opening(line: &[u8]) -> &[u8] {
    let end = line.iter().position(|b| b"([{<=:,".contains(b)).unwrap_or(line.len());
    let start = line[..end].trim_ascii();
    match line.get(end) {
        _ if start.contains(&b' ') => start,
        Some(b'=') if start.len() == end || start.contains(&b'.') => &line[..=end],
        Some(b':') if start.len() == end && line.get(end + 1) != Some(&b':') => &line[..=end],
        _ => line,
    }
}
