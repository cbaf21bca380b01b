//! What people and programs read.

mod table;

use std::io::{self, IsTerminal, Write};
use std::sync::OnceLock;

pub use table::Table;

use crate::git::plain;

/// A value as JSON, indented, with a newline behind it.
pub fn json(value: &impl serde::Serialize) -> String {
    // Fails for maps whose keys are no strings, of which there are none here.
    serde_json::to_string_pretty(value).unwrap_or_default() + "\n"
}

/// Emphasised, if stdout is a terminal and `NO_COLOR` is not set.
pub fn bold(text: &str) -> String {
    let no_color = std::env::var_os("NO_COLOR").is_some_and(|v| !v.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|t| t == "dumb");
    match std::io::stdout().is_terminal() && !no_color && !dumb {
        true => format!("\x1b[1m{text}\x1b[0m"),
        false => text.to_owned(),
    }
}

/// `1 place`, `2 places`.
pub fn count(number: usize, what: &str) -> String {
    if number == 1 { format!("1 {what}") } else { format!("{number} {what}s") }
}

/// Why something could not be printed, if so; the first time.
static UNPRINTED: OnceLock<String> = OnceLock::new();

/// Prints to stdout. Whoever reads it may stop reading (`pleach log | head`), which is no error; what
/// else goes wrong, [`unprinted`] knows: a command does first what it was asked for.
pub fn print(text: &str) {
    let mut stdout = std::io::stdout().lock();
    printed(stdout.write_all(text.as_bytes()).and_then(|()| stdout.flush()));
}

/// Says something on stderr, in one write, so that two lines do not get another program's between them. That nobody can
/// hear it (a full disk, a reader that has gone away) must not change what comes of a command.
pub fn tell(text: &str) {
    let _ = std::io::stderr().write_all(text.as_bytes());
}

/// Keeps why printing failed.
pub fn printed(done: io::Result<()>) {
    if let Err(e) = done
        && e.kind() != io::ErrorKind::BrokenPipe
    {
        let _ = UNPRINTED.set(plain(&e));
    }
}

/// Why something that this process had to print could not be printed.
pub fn unprinted() -> Option<&'static str> {
    UNPRINTED.get().map(String::as_str)
}

/// A path as a line of text can hold it: as it is, or quoted as git quotes paths if it holds what
/// would break the line or is no UTF-8.
pub fn shown(path: &[u8]) -> String {
    match std::str::from_utf8(path) {
        Ok(text) if !text.contains(|c: char| c.is_control() || c == '"' || c == '\\') => text.to_owned(),
        _ => {
            let mut quoted = String::from("\"");
            for c in path {
                match c {
                    b'"' | b'\\' => quoted.extend(['\\', *c as char]),
                    b'\n' => quoted.push_str("\\n"),
                    b'\t' => quoted.push_str("\\t"),
                    b' '..=b'~' => quoted.push(*c as char),
                    _ => quoted.push_str(&format!("\\{c:03o}")),
                }
            }
            quoted + "\""
        }
    }
}

/// A path in what programs read: as text, as far as it is text, and byte for byte if it is none.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct FilePath {
    path: String,
    /// In hexadecimal, if the path is not UTF-8.
    #[serde(skip_serializing_if = "Option::is_none")]
    path_hex: Option<String>,
    /// As people read it.
    #[serde(skip)]
    pub shown: String,
}

impl FilePath {
    /// Of a path from the top of the worktree.
    pub fn new(path: &[u8]) -> FilePath {
        FilePath { path: String::from_utf8_lossy(path).into_owned(), path_hex: hex(path), shown: shown(path) }
    }
}

/// The bytes of a path in hexadecimal, if it is not UTF-8.
pub fn hex(path: &[u8]) -> Option<String> {
    std::str::from_utf8(path).is_err().then(|| path.iter().map(|c| format!("{c:02x}")).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_paths_that_need_it_are_quoted() {
        assert_eq!(shown("häfen/tides.py".as_bytes()), "häfen/tides.py");
        assert_eq!(shown(b"say \"tide\"\n.py"), r#""say \"tide\"\n.py""#);
        assert_eq!(shown(b"Malm\xf6.py"), r#""Malm\366.py""#);
    }
}
