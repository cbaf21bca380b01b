//! Our lines in a file of attributes, and none of anybody else's.
//!
//! They stand first in the file: of several lines that match a path git takes the last, so
//! whatever a person writes below (`vendor/* -merge`) keeps its say. What must be known to take
//! them out again without a trace is said in their first line, not kept elsewhere.

use gix::bstr::ByteSlice;

/// The first line, around the number of those that follow and are ours.
const FIRST_LINE: (&str, &str) = ("# The next ", " lines are from `pleach install`; `pleach uninstall` removes them.");
/// Stands behind the first line in a file that did not exist before.
const NEW_FILE: &str = " The file was new.";
/// Ends each of the other lines.
const MERGE: &str = " merge=pleach";
const BYTE_ORDER_MARK: &[u8] = b"\xEF\xBB\xBF";

/// What taking the lines out leaves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Rest {
    /// The file was made by us and nothing else is in it.
    Nothing,
    /// What the file held before, and whatever has been written since.
    Text(Vec<u8>),
}

/// The file with our lines in it, one for each pattern: those that are there are replaced.
///
/// `text` is `None` for a file that does not exist.
pub fn insert(text: Option<&[u8]>, patterns: &[String]) -> Vec<u8> {
    let new_file = match text {
        None => true,
        Some(text) => find(text).is_some_and(|b| b.new_file),
    };
    let text = text.unwrap_or_default();
    let old = find(text).map(|b| b.start..b.end);
    let top = if text.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
    let place = old.unwrap_or(top..top);
    let end = if text.find_byte(b'\n').is_some_and(|at| text[..at].ends_with(b"\r")) { "\r\n" } else { "\n" };

    let mut out = text[..place.start].to_vec();
    let new_file = if new_file { NEW_FILE } else { "" };
    out.extend_from_slice(format!("{}{}{}{new_file}{end}", FIRST_LINE.0, patterns.len(), FIRST_LINE.1).as_bytes());
    for pattern in patterns {
        out.extend_from_slice(format!("{pattern}{MERGE}{end}").as_bytes());
    }
    out.extend_from_slice(&text[place.end..]);
    out
}

/// The file without our lines; `None` if there are none.
pub fn remove(text: &[u8]) -> Option<Rest> {
    let block = find(text)?;
    let rest = [&text[..block.start], &text[block.end..]].concat();
    Some(if block.new_file && rest.is_empty() { Rest::Nothing } else { Rest::Text(rest) })
}

/// The numbers of the lines, from 1, that name pleach and are not ours.
pub fn foreign_lines(text: &[u8]) -> Vec<usize> {
    let ours = find(text).map_or(0..0, |b| b.start..b.end);
    let mut at = 0;
    let mut found = Vec::new();
    for (i, line) in text.lines_with_terminator().enumerate() {
        let code = !line.trim_start().starts_with(b"#");
        if code && line.contains_str(MERGE) && !ours.contains(&at) {
            found.push(i + 1);
        }
        at += line.len();
    }
    found
}

struct Block {
    start: usize,
    end: usize,
    new_file: bool,
}

fn find(text: &[u8]) -> Option<Block> {
    let mut at = if text.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
    let mut lines = text[at..].lines_with_terminator();
    while let Some(line) = lines.next() {
        let start = at;
        at += line.len();
        let Some((count, new_file)) = first_line(line) else { continue };
        // Fewer if a person has taken some out.
        let ours = lines.take(count).take_while(|l| l.trim_end().ends_with(MERGE.as_bytes()));
        let end = at + ours.map(<[u8]>::len).sum::<usize>();
        return Some(Block { start, end, new_file });
    }
    None
}

/// The number of lines that a first line announces, and whether it says that the file was new.
fn first_line(line: &[u8]) -> Option<(usize, bool)> {
    let line = line.trim_end().to_str().ok()?;
    let (count, after) = line.strip_prefix(FIRST_LINE.0)?.split_once(' ')?;
    let after = after.strip_prefix(FIRST_LINE.1.trim_start())?;
    Some((count.parse().ok()?, after == NEW_FILE))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn patterns() -> Vec<String> {
        vec!["*.py".to_owned(), "*.pyi".to_owned()]
    }

    #[test]
    fn what_was_inserted_is_removed_without_a_trace() {
        let files: [&[u8]; 7] = [
            b"",
            b"\n",
            b"*.png binary",
            b"# ours\n*.png binary\n\n",
            b"*.png binary\r\nvendor/* -merge\r\n",
            b"\xEF\xBB\xBF*.png binary\n",
            b"*.py merge=pleach\n",
        ];
        for before in files {
            let with = insert(Some(before), &patterns());
            assert!(with.contains_str("*.pyi merge=pleach"));
            assert_eq!(insert(Some(&with), &patterns()), with, "a second time changes nothing");
            assert_eq!(remove(&with), Some(Rest::Text(before.to_vec())));
        }
        let with = insert(None, &patterns());
        assert_eq!(insert(Some(&with), &patterns()), with);
        assert_eq!(remove(&with), Some(Rest::Nothing));
    }

    #[test]
    fn lines_written_since_stay() {
        let mut with = insert(None, &patterns());
        with.extend_from_slice(b"vendor/* -merge\n");
        assert_eq!(remove(&with), Some(Rest::Text(b"vendor/* -merge\n".to_vec())));
    }

    #[test]
    fn our_lines_are_renewed_where_they_stand() {
        let old = insert(Some(b"*.png binary\n"), &["*.py".to_owned()]);
        let moved = [b"*.jpg binary\n".to_vec(), old].concat();
        let new = insert(Some(&moved), &patterns());
        assert!(new.starts_with(b"*.jpg binary\n# The next 2 lines"));
        assert_eq!(new.find_iter("merge=pleach").count(), 2);
    }

    #[test]
    fn lines_that_a_person_wrote_are_told_apart() {
        let with = insert(Some(b"# *.x merge=pleach\nSConstruct merge=pleach\n"), &patterns());
        assert_eq!(foreign_lines(&with), [5]);
    }
}
