//! Words that were names before they became keywords, or the other way round.

use std::borrow::Cow;
use std::ops::Range;

use gix::bstr::ByteSlice;

use super::descriptor::Word;

/// A text as a grammar of today reads it: where a word is used as a name, or as a keyword of once, something else of
/// the same length stands in its place, so that every offset is what it was.
pub(crate) fn of_today<'s>(source: &'s [u8], words: &[Word]) -> Cow<'s, [u8]> {
    let mut read = Cow::Borrowed(source);
    for word in words {
        let text = word.text.as_bytes();
        for at in find_word(source, text) {
            let end = at + text.len();
            match &word.operator {
                Some(operator) if is_first(&source[..at]) && has_operand(&source[end..], word) => {
                    read.to_mut()[at..end].copy_from_slice(operator.as_bytes());
                }
                None if !is_keyword(&source[end..], word) => read.to_mut()[end - 1] = b'_',
                _ => {}
            }
        }
    }
    read
}

/// Whether what follows a word on its line makes a keyword of it.
fn is_keyword(rest: &[u8], word: &Word) -> bool {
    let rest = rest.trim_start_with(|c| matches!(c, ' ' | '\t'));
    word.keyword_before.iter().any(|next| {
        let after = rest.strip_prefix(next.as_bytes());
        after.is_some_and(|after| !next.ends_with(char::is_alphanumeric) || !after.first().is_some_and(|b| is_word(*b)))
    })
}

/// Whether nothing stands on a line before its end but white space.
fn is_first(before: &[u8]) -> bool {
    before.trim_end_with(|c| matches!(c, ' ' | '\t')).last().is_none_or(|b| *b == b'\n')
}

/// Whether an operand follows a word on its line.
fn has_operand(rest: &[u8], word: &Word) -> bool {
    let operand = rest.trim_start_with(|c| matches!(c, ' ' | '\t'));
    let next = operand.split(|b| !is_word(*b)).next().unwrap_or_default();
    operand.len() < rest.len()
        && operand.first().is_some_and(|b| is_word(*b) || matches!(b, b'"' | b'\''))
        && !word.name_before.iter().any(|name_before| name_before.as_bytes() == next)
}

/// Whether some bytes of a text are no part of a longer word.
pub(crate) fn stands_alone(text: &[u8], bytes: Range<usize>) -> bool {
    !text[..bytes.start].last().is_some_and(|b| is_word(*b)) && !text[bytes.end..].first().is_some_and(|b| is_word(*b))
}

/// What a string says whichever quotes it has, with the letters before them: without the backslashes that a quote needs in
/// one kind of them. Triple quotes stay apart from single ones. With one of the letters `raw` before its quote, a backslash
/// is one.
pub(super) fn unquoted(text: &[u8], raw: &[u8]) -> Option<Vec<u8>> {
    let is_quote = |b: u8| matches!(b, b'"' | b'\'');
    let open = text.iter().position(|b| is_quote(*b))?;
    let quote = text[open];
    let width = if text[open..].starts_with(&[quote; 3]) && text.len() >= open + 6 { 3 } else { 1 };
    let inner = text.get(open + width..text.len().checked_sub(width)?)?;
    let escapes = !text[..open].iter().any(|b| raw.contains(b));
    if !text.ends_with(&vec![quote; width]) {
        return None;
    }
    let mut bare = text[..open].to_vec();
    bare.push(width as u8);
    let mut bytes = inner.iter().copied();
    while let Some(byte) = bytes.next() {
        let next = if byte == b'\\' && escapes { bytes.next() } else { None };
        bare.extend((!next.is_some_and(is_quote)).then_some(byte));
        bare.extend(next);
    }
    Some(bare)
}

/// A text without the line breaks that a backslash takes out, and the white space behind these.
pub(crate) fn continued(text: &[u8]) -> Vec<u8> {
    let mut bare = Vec::with_capacity(text.len());
    let mut at = 0;
    while let Some(byte) = text.get(at) {
        let escape = *byte == b'\\';
        let rest = &text[at + 1..];
        if escape && (rest.starts_with(b"\n") || rest.starts_with(b"\r\n")) {
            at += 1 + rest.iter().take_while(|b| b.is_ascii_whitespace()).count();
            continue;
        }
        let taken = if escape { 2.min(text.len() - at) } else { 1 };
        bare.extend_from_slice(&text[at..at + taken]);
        at += taken;
    }
    bare
}

/// How many letters stand before a text's quote, if they are of `marks` alone.
pub(crate) fn marked(text: &[u8], marks: &[u8]) -> usize {
    let letters = text.iter().take_while(|b| marks.contains(b)).count();
    if matches!(text.get(letters), Some(b'"' | b'\'')) { letters } else { 0 }
}

/// Whether one of some letters stands before a text's first quote.
pub(crate) fn has_mark(text: &[u8], marks: &[u8]) -> bool {
    let quote = text.iter().position(|b| matches!(b, b'"' | b'\'')).unwrap_or_default();
    text[..quote].iter().any(|b| marks.contains(b))
}

/// Where the names in the code in a text stand: between braces, and not behind a quote, nor behind a dot that asks
/// something for a member. A brace twice, outside of others, is a sign of the text.
pub(crate) fn names_in_braces(text: &[u8]) -> Vec<Range<usize>> {
    words_in_braces(text).into_iter().filter(|(_, member)| !member).map(|(name, _)| name).collect()
}

/// Where names stand there that something is asked for by a dot.
pub(crate) fn members_in_braces(text: &[u8]) -> Vec<Range<usize>> {
    words_in_braces(text).into_iter().filter(|(_, member)| *member).map(|(name, _)| name).collect()
}

/// The words there that may be names, each with whether it is a member of something.
fn words_in_braces(text: &[u8]) -> Vec<(Range<usize>, bool)> {
    let mut found = Vec::new();
    let (mut depth, mut at) = (0usize, 0);
    while at < text.len() {
        let word = text[at..].iter().take_while(|b| is_word(**b)).count();
        let is_member = || {
            let asked = text[..at].strip_suffix(b".").and_then(<[u8]>::last);
            asked.is_some_and(|b| is_word(*b) || matches!(b, b')' | b']' | b'"' | b'\''))
        };
        let is_name = || !text[at].is_ascii_digit() && !matches!(text[..at].last(), Some(b'"' | b'\''));
        let doubled = text.get(at + 1) == Some(&text[at]);
        match text[at] {
            _ if word > 0 && depth > 0 && is_name() => found.push((at..at + word, is_member())),
            b'{' | b'}' if depth == 0 && doubled => at += 1,
            b'{' => depth += 1,
            b'}' => depth = depth.saturating_sub(1),
            _ => {}
        }
        at += word.max(1);
    }
    found
}

/// Where a word stands in a text, as no part of a longer one.
pub(crate) fn find_word<'t>(text: &'t [u8], word: &'t [u8]) -> impl Iterator<Item = usize> + 't {
    text.find_iter(word).filter(move |at| stands_alone(text, *at..at + word.len()))
}

/// Where a word stands in a text that may be a name there: as [`find_word`], but not right before a quote.
pub(crate) fn find_name<'t>(text: &'t [u8], word: &'t [u8]) -> impl Iterator<Item = usize> + 't {
    find_word(text, word).filter(|at| !matches!(text.get(at + word.len()), Some(b'"' | b'\'')))
}

/// Whether what begins at `at` in a text stands behind a dot: it is a member of something. Two dots are another sign.
pub(crate) fn is_behind_dot(text: &[u8], at: usize) -> bool {
    let before = text[..at].trim_ascii_end();
    before.ends_with(b".") && !before.ends_with(b"..")
}

/// A text without the white space that parts no words.
pub(crate) fn unspaced(text: &[u8]) -> Vec<u8> {
    let mut bare = Vec::with_capacity(text.len());
    let mut spaced = false;
    for byte in text {
        if byte.is_ascii_whitespace() {
            spaced = true;
            continue;
        }
        if spaced && is_word(*byte) && bare.last().is_some_and(|last| is_word(*last)) {
            bare.push(b' ');
        }
        spaced = false;
        bare.push(*byte);
    }
    bare
}

/// The words in a text, and numbers.
pub(crate) fn words(text: &[u8]) -> impl Iterator<Item = &[u8]> + Clone {
    text.split(|b| !is_word(*b)).filter(|word| !word.is_empty())
}

/// The words in a text that may be names: no numbers, and not what stands right before a quote. That is the last word in
/// a text, or tells what kind of text follows.
pub(crate) fn names(text: &[u8]) -> impl Iterator<Item = &[u8]> {
    let parts = text.split_inclusive(|b| !is_word(*b)).filter_map(|part| match part.split_last() {
        Some((b'"' | b'\'', _)) => None,
        Some((last, word)) if !is_word(*last) => Some(word),
        _ => Some(part),
    });
    parts.filter(|word| word.first().is_some_and(|b| !b.is_ascii_digit()))
}

/// Where those words stand.
pub(crate) fn names_in(text: &[u8]) -> impl Iterator<Item = Range<usize>> {
    names(text).map(|name| {
        let start = name.as_ptr() as usize - text.as_ptr() as usize;
        start..start + name.len()
    })
}

/// The last name in a type before what it is made of: of `&'t std::Vec<u8>`, it is `Vec`. Nothing, if it has none.
pub(crate) fn outer_name(text: &[u8]) -> Option<&[u8]> {
    let end = text.iter().position(|b| b"<([{".contains(b)).unwrap_or(text.len());
    words(&text[..end]).last()
}

/// Whether a byte is part of a word: a letter, a digit, `_`, or of a character beyond ASCII.
pub(crate) fn is_word(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || byte == b'_' || byte >= 0x80
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(source: &str) -> String {
        let word = |text: &str, before: &str| Word {
            text: text.to_owned(),
            keyword_before: vec![before.to_owned()],
            operator: None,
            name_before: Vec::new(),
        };
        let exec = Word { operator: Some("not ".to_owned()), name_before: vec!["in".to_owned()], ..word("exec", "") };
        let words = [word("try", "{"), word("async", "def"), exec];
        String::from_utf8(of_today(source.as_bytes(), &words).into_owned()).expect("still a text")
    }

    #[test]
    fn a_word_is_a_name_where_no_keyword_can_stand() {
        assert_eq!(read("let tide = try!(read());"), "let tide = tr_!(read());");
        assert_eq!(read("queue(async=True)"), "queue(asyn_=True)");
        assert_eq!(read("def async(): pass"), "def asyn_(): pass");
    }

    #[test]
    fn a_keyword_of_once_is_an_operator_where_an_operand_follows() {
        assert_eq!(read("if x:\n    exec tide.code in scope\n"), "if x:\n    not  tide.code in scope\n");
        assert_eq!(read("exec 'a' + b"), "not  'a' + b");
        for source in
            ["exec(tide)", "exec = 1", "board.exec(x)", "exec in names", "exec", "x = exec y", "exec (a) in b"]
        {
            assert_eq!(read(source), source);
        }
    }

    #[test]
    fn a_keyword_stays_one() {
        for source in ["try { read() }", "async  def tide(): pass", "retry!(x)", "async_tide()", "try_read()"] {
            assert_eq!(read(source), source);
        }
        assert_eq!(read("async define"), "asyn_ define");
    }
}
