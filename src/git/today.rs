//! On which lines of the worktree recorded places stand today.
//!
//! A record counts lines in what pleach left. Then a person settles conflicts above a place, or a later commit of a
//! rebase puts lines in: who reviews the result looks in the file as it is.

use std::fs;
use std::ops::Range;

use gix::bstr::ByteSlice;

use crate::git::record::{Record, blob_name};
use crate::git::{Place, present};
use crate::line::{self, Algorithm};

/// Gives the places of these records the lines on which they stand in the worktree. Where that does not tell (the file
/// is another one there, or git has no copy of what pleach left), they stay.
pub fn renumber(place: &Place, records: &mut [Record]) {
    let Some(top) = &place.worktree else { return };
    let changed = |record: &&mut Record| {
        let path = gix::path::from_bstring(record.path_bytes()).ok()?;
        let now = fs::read(top.join(path)).ok()?;
        (blob_name(&now) != record.answer).then_some(now)
    };
    let told = records.iter_mut().filter(|r| r.step.is_in_worktree() && !(r.combined.is_empty() && r.kept.is_empty()));
    let mut moved: Vec<_> = told.filter_map(|record| changed(&record).map(|now| (record, now))).collect();
    // Git reads a name to the end of its line.
    moved.retain(|(record, _)| !record.path.contains('\n') && record.path_hex.is_none());
    if moved.is_empty() {
        return;
    }
    let names = moved.iter().flat_map(|(r, _)| [r.answer.clone(), format!("{}:{}", r.step.head, r.path)]);
    let names: Vec<String> = names.collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let git = place.git();
    let Ok(blobs) = git.blobs(&names) else { return };
    let head = git.line(&["rev-parse", "--verify", "--quiet", "HEAD"]);
    let begun_at = head.filter(|_| !present::is_in_the_middle(place));
    for ((record, now), blobs) in moved.into_iter().zip(blobs.chunks_exact(2)) {
        let [Some(left), before] = blobs else { continue };
        let (left, now) = (unix(left), unix(&now));
        // The merge was taken back, or what is checked out is without it.
        let without = || begun_at.as_ref().is_some_and(|head| *head == *record.step.head);
        if before.as_ref().is_some_and(|before| unix(before) == now && without()) {
            continue;
        }
        let hunks = line::hunks(&left, &now, Algorithm::Histogram);
        // Whoever settles a conflict may drop most of what was left, but puts in little of his own.
        let (last, fresh) = (line::lines(&now).len(), hunks.iter().map(|(_, now)| now.len()).sum::<usize>());
        if last == 0 || fresh * 2 > last {
            continue;
        }
        let numbers =
            record.combined.iter_mut().map(|c| &mut c.line).chain(record.kept.iter_mut().map(|k| &mut k.line));
        numbers.for_each(|line| *line = (today(&hunks, line.saturating_sub(1)) + 1).min(last));
    }
}

/// Where a line, counted from 0, is after some changes.
fn today(hunks: &[(Range<usize>, Range<usize>)], line: usize) -> usize {
    let passed = hunks.partition_point(|(left, _)| left.end <= line);
    match (hunks.get(passed), passed.checked_sub(1).map(|i| &hunks[i])) {
        (Some((left, now)), _) if left.start <= line => {
            now.start + (line - left.start).min(now.len().saturating_sub(1))
        }
        (_, Some((left, now))) => now.end + (line - left.end),
        (_, None) => line,
    }
}

/// A text as git stores it where it converts line endings.
fn unix(text: &[u8]) -> Vec<u8> {
    text.replace("\r\n", "\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_followed_through_what_was_put_in_and_taken_out() {
        let hunks = line::hunks(b"a\n<\nb\n=\nc\n>\nd\n", b"0\na\nb\nd\n", Algorithm::Histogram);
        let today: Vec<_> = (0..7).map(|line| today(&hunks, line)).collect();
        assert_eq!(today, [1, 2, 2, 3, 3, 3, 3]);
    }
}
