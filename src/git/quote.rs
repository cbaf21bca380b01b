use gix::bstr::{BStr, BString};

/// A word as a POSIX shell reads it: in quotes only if it has to be.
pub fn shell_word(word: &BStr) -> BString {
    let plain = |c: &u8| c.is_ascii_alphanumeric() || b"/._-+:@,".contains(c);
    if !word.is_empty() && word.iter().all(plain) { word.to_owned() } else { gix::quote::single(word) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_words_that_need_it_are_quoted() {
        for (word, quoted) in
            [("/usr/bin/pleach", "/usr/bin/pleach"), ("my tides", "'my tides'"), ("it's", r"'it'\''s'")]
        {
            assert_eq!(shell_word(word.into()), quoted);
        }
    }
}
