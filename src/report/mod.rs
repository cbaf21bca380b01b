//! What people and programs read.

use std::io::Write;

/// Prints to stdout. Whoever reads it may stop reading (`pleach log | head`), which is no error.
pub fn print(text: &str) {
    let mut stdout = std::io::stdout().lock();
    let _ = stdout.write_all(text.as_bytes()).and_then(|()| stdout.flush());
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
