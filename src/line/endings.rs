//! What a side made of the line endings of a whole file.

use gix::bstr::ByteSlice;

use crate::{Side, Versions};

/// How the lines of a text end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ending {
    Lf,
    CrLf,
}

impl Ending {
    /// How all lines of a text end; nothing if they end in two ways, or if it has none.
    fn of(text: &[u8]) -> Option<Ending> {
        let mut ends = text.find_iter(b"\n").map(|at| text[..at].ends_with(b"\r"));
        let first = ends.next()?;
        let ending = if first { Ending::CrLf } else { Ending::Lf };
        ends.all(|crlf| crlf == first).then_some(ending)
    }

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Ending::Lf => "LF",
            Ending::CrLf => "CRLF",
        }
    }

    /// A text whose lines all end in one way, with this for it.
    fn given_to(self, text: &[u8]) -> Vec<u8> {
        match self {
            Ending::Lf => text.replace(b"\r\n", b"\n"),
            Ending::CrLf if Ending::of(text) == Some(Ending::Lf) => text.replace(b"\n", b"\r\n"),
            Ending::CrLf => text.to_vec(),
        }
    }
}

/// Three versions of which one side gave all lines another ending.
pub(crate) struct Converted {
    /// That ending.
    pub ending: Ending,
    /// The sides that have it.
    pub by: Vec<Side>,
    /// The versions as they are if all of them have it.
    pub versions: Versions<Vec<u8>>,
}

/// What a side made of the line endings of a whole file, which has no two sorts of them in any version.
pub(crate) fn converted(versions: Versions<&[u8]>) -> Option<Converted> {
    let first = |text: &[u8]| text.find_byte(b'\n').map(|at| text[..at].ends_with(b"\r"));
    let firsts = versions.map(first);
    if firsts.base == firsts.ours && firsts.base == firsts.theirs {
        return None;
    }
    let Versions { base: Some(base), ours: Some(ours), theirs: Some(theirs) } = versions.map(Ending::of) else {
        return None;
    };
    let ending = if ours == base { theirs } else { ours };
    let by = Side::BOTH.into_iter().filter(|side| [ours, theirs][*side as usize] == ending).collect();
    Some(Converted { ending, by, versions: versions.map(|text| ending.given_to(text)) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn made(base: &str, ours: &str, theirs: &str) -> Option<(&'static str, Versions<String>)> {
        let converted = converted(Versions { base, ours, theirs }.map(str::as_bytes))?;
        Some((converted.ending.name(), converted.versions.map(|text| String::from_utf8(text).unwrap())))
    }

    #[test]
    fn the_ending_that_a_side_gave_to_all_lines_is_given_to_all_versions() {
        let text = |text: &str| text.to_owned();
        for (base, ours, theirs, ending, expected) in [
            ("a\r\nb", "a\nb", "a\r\nc", "LF", ["a\nb", "a\nb", "a\nc"]),
            ("a\nb\n", "a\nc\n", "a\r\nb\r\n", "CRLF", ["a\r\nb\r\n", "a\r\nc\r\n", "a\r\nb\r\n"]),
            ("a\r\n", "a\n", "b\n", "LF", ["a\n", "a\n", "b\n"]),
        ] {
            let [base_now, ours_now, theirs_now] = expected.map(text);
            let versions = Versions { base: base_now, ours: ours_now, theirs: theirs_now };
            assert_eq!(made(base, ours, theirs), Some((ending, versions)), "{base:?} {ours:?} {theirs:?}");
        }
    }

    #[test]
    fn where_lines_end_in_two_ways_in_one_version_or_alike_in_all_nothing_was_converted() {
        assert_eq!(made("a\nb\n", "a\nc\n", "b\nb\n"), None);
        assert_eq!(made("a\nb\r\n", "a\nb\n", "a\r\nb\r\n"), None);
        assert_eq!(made("a\r\nb\r\n", "a\nb\r\n", "a\r\nb\r\n"), None);
        assert_eq!(made("", "a\r\n", "a\n"), None);
        assert_eq!(made("a", "a\r\n", "a"), None);
    }
}
