//! Our section of a git configuration file: `git config` writes it, and this takes it out.
//!
//! `git config` cannot: with `--remove-section` it takes a comment that stands below along, with
//! `--unset` it leaves the header if a comment stands above. What it wrote is known to the letter,
//! so cutting that out is safe, and everything else stays as it was.

use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use gix::bstr::ByteSlice;

/// The section as git writes its header.
const HEADER: &[u8] = b"[merge \"pleach\"]";

/// The text without the lines of `keys` in our section, and without the section's header if nothing
/// of it is left; `None` if there is nothing to take out.
pub fn remove(text: &[u8], keys: &[&str]) -> Option<Vec<u8>> {
    let mut out = Vec::with_capacity(text.len());
    let mut lines = text.lines_with_terminator().peekable();
    let mut removed = false;
    let mut ends_in_ours = false;
    while let Some(line) = lines.next() {
        if line.trim() != HEADER {
            out.extend_from_slice(line);
            continue;
        }
        let mut kept = Vec::new();
        let (mut our_keys, mut other_keys) = (false, false);
        while let Some(line) = lines.next_if(|l| !l.trim_start().starts_with(b"[")) {
            if keys.iter().any(|key| is_setting_of(line, key)) {
                our_keys = true;
                ends_in_ours = !line.ends_with(b"\n");
            } else {
                kept.push(line);
                other_keys |= !matches!(line.trim_start().first(), None | Some(b'#' | b';'));
            }
        }
        if other_keys || !our_keys {
            out.extend_from_slice(line);
        }
        out.extend(kept.concat());
        removed |= our_keys;
    }
    // The file had no final newline before ours were put behind it; see `without_final_newline`.
    if ends_in_ours && out.ends_with(b"\n") {
        out.pop();
    }
    removed.then_some(out)
}

/// A file to which git has just added our section, ended as it was ended before: without a newline.
///
/// Git completes the last line before it adds one. That nothing ends the file after ours either is
/// how [`remove`] knows.
pub fn without_final_newline(mut text: Vec<u8>) -> Vec<u8> {
    if text.ends_with(b"\n") {
        text.pop();
    }
    text
}

/// `\tkey = value`, all on one line.
fn is_setting_of(line: &[u8], key: &str) -> bool {
    let Some(after) = line.trim_start().strip_prefix(key.as_bytes()) else { return false };
    after.trim_start().starts_with(b"=") && !line.trim_end().ends_with(b"\\")
}

/// Rewrites a configuration file under git's own lock, so that it cannot cross a `git config`.
///
/// # Errors
/// Somebody else holds the lock, or the file cannot be read or written.
pub fn rewrite(path: &Path, edit: impl FnOnce(Vec<u8>) -> Vec<u8>) -> io::Result<()> {
    let real = fs::canonicalize(path)?;
    let mut lock = real.clone().into_os_string();
    lock.push(".lock");
    let lock = PathBuf::from(lock);
    let mut file = OpenOptions::new().write(true).create_new(true).open(&lock)?;
    let done = (|| {
        let text = fs::read(&real)?;
        file.write_all(&edit(text))?;
        file.set_permissions(fs::metadata(&real)?.permissions())?;
        fs::rename(&lock, &real)
    })();
    if done.is_err() {
        let _ = fs::remove_file(&lock);
    }
    done
}

#[cfg(test)]
mod tests {
    use super::*;

    const KEYS: [&str; 2] = ["name", "driver"];
    const SECTION: &str = "[merge \"pleach\"]\n\tname = x\n\tdriver = \"'a b' driver %O\"\n";

    #[test]
    fn comments_around_the_section_stay() {
        for (before, after) in
            [("", ""), ("# above\n", "# below\n"), ("[user]\n\tname = x\n", "[core]\n"), ("", "\n\n")]
        {
            let text = format!("{before}{SECTION}{after}");
            assert_eq!(remove(text.as_bytes(), &KEYS), Some(format!("{before}{after}").into_bytes()));
        }
    }

    #[test]
    fn a_file_without_final_newline_is_again_without() {
        let with = without_final_newline(format!("[user]\n\tname = x\n{SECTION}").into_bytes());
        assert_eq!(remove(&with, &KEYS), Some(b"[user]\n\tname = x".to_vec()));
    }

    #[test]
    fn keys_that_are_not_ours_keep_their_section() {
        let text = format!("{SECTION}\tfuture = 1\n[user]\n\tname = x\n");
        let left = "[merge \"pleach\"]\n\tfuture = 1\n[user]\n\tname = x\n";
        assert_eq!(remove(text.as_bytes(), &KEYS), Some(left.as_bytes().to_vec()));
        assert_eq!(remove(left.as_bytes(), &KEYS), None);
    }
}
