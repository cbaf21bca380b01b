//! What only the grammar takes for one statement, in languages in which the end of a line ends it.

use super::read::Raw;
use crate::grammar::Language;

/// Where a statement goes on on another line although nothing joins the lines, or stands in the middle of another.
pub(super) fn torn(source: &[u8], raws: &[Raw], language: &'static Language) -> Option<u32> {
    let by_lines = language.lists().iter().any(|list| list.aligned);
    by_lines.then(|| unjoined(source, raws, language).or_else(|| within(raws, language))).flatten()
}

/// Where a line begins in the middle of a statement, outside of brackets and without a backslash before it (The Python
/// Language Reference, "Logical lines" to "Implicit line joining"). The grammar goes on reading where no statement can end.
fn unjoined<'r>(source: &[u8], raws: &'r [Raw], language: &'static Language) -> Option<u32> {
    let lists_lines = |raw: &Raw| language.rule(raw.kind).lists.iter().any(|l| language.lists()[*l as usize].aligned);
    let kids = |raw: &'r Raw| raw.kids.iter().map(|kid| &raws[*kid as usize]);
    let holds_lines = |raw: &'r Raw| kids(raw).any(lists_lines);
    // Where a line may begin: at each statement, behind what holds statements, at what stands above one, and around
    // comments.
    let mut starts: Vec<u32> = Vec::new();
    for raw in raws {
        let lines = lists_lines(raw);
        if lines || language.rule(raw.kind).comment {
            starts.extend([raw.span.start, raw.span.end]);
        }
        if lines || kids(raw).any(holds_lines) {
            starts.extend(kids(raw).map(|kid| kid.span.start));
        }
    }
    starts.sort_unstable();
    let mut starts = starts.into_iter().peekable();
    let (mut depth, mut end, mut inside_until) = (0u32, 0u32, 0u32);
    for raw in raws {
        let rule = language.rule(raw.kind);
        // A text is one thing, whatever is in it.
        let text = rule.text || !rule.interpolated.is_empty();
        if raw.span.start < inside_until || !(text || raw.kids.is_empty()) {
            continue;
        }
        while starts.next_if(|start| *start < end).is_some() {}
        let allowed = starts.peek().is_some_and(|start| *start <= raw.span.start);
        if depth == 0 && !allowed && tears(&source[end as usize..raw.span.start as usize]) {
            return Some(raw.span.start);
        }
        match source.get(raw.span.range()) {
            Some(b"(" | b"[" | b"{") => depth += 1,
            Some(b")" | b"]" | b"}") => depth = depth.saturating_sub(1),
            _ => {}
        }
        end = raw.span.end;
        if text {
            inside_until = end;
        }
    }
    None
}

/// Where something is given another value in the middle of a statement: that is a statement by itself (The Python Language
/// Reference, "Augmented assignment statements"), of which the grammar takes one for a part of another.
fn within(raws: &[Raw], language: &'static Language) -> Option<u32> {
    let rebinds = |raw: &Raw| !language.rule(raw.kind).rebinds.is_empty();
    raws.iter().find_map(|raw| {
        let kids = || raw.kids.iter().map(|kid| &raws[*kid as usize]);
        let another = kids().find(|kid| rebinds(kid) || rebinds(raw) && binds(kid, language))?;
        (kids().filter(|kid| kid.named).count() > 1).then_some(another.span.start)
    })
}

/// Whether a node is an assignment.
fn binds(raw: &Raw, language: &'static Language) -> bool {
    let rule = language.rule(raw.kind);
    !rule.declares.is_empty() && !rule.declares.contains(&0)
}

/// Whether a line ends in some white space, without a backslash that joins it to the next.
fn tears(gap: &[u8]) -> bool {
    gap.iter().enumerate().any(|(at, byte)| {
        let before = gap[..at].strip_suffix(b"\r").unwrap_or(&gap[..at]);
        *byte == b'\n' && !before.ends_with(b"\\")
    })
}

#[cfg(test)]
mod tests {
    use crate::grammar::by_name;
    use crate::syntax::Parsed;

    fn is_torn(text: &str) -> bool {
        let parsed = Parsed::new(text.as_bytes(), by_name("Python").expect("it is built in")).expect(text);
        parsed.tree().forgiven.is_some()
    }

    /// The examples of The Python Language Reference, "Explicit line joining" and "Implicit line joining", and what has
    /// several lines without being joined ("Function definitions", "Compound statements").
    #[test]
    fn joined_lines_are_not_torn() {
        for text in [
            "if 1900 < year < 2100 and 1 <= month <= 12 \\\n   and 1 <= day <= 31:   # Looks like a valid date\n    x = 1\n",
            "month_names = ['Januari', 'Februari', 'Maart',      # These are the\n               'April',   'Mei',      'Juni']       # Dutch names\n",
            "@cached\n# Why it is.\n@traced(1,\n        2)\ndef f(a,\n      b):\n    '''One.\n\n    Two.'''\n    return f'''{\n    a}\n'''\n",
            "try:\n    a = 1; b = 2\n    # In between.\nexcept OSError:\n    pass\n# Before it.\nelse:\n    pass\n",
            "match a:\n    case 1:\n        pass\n\n    case _:\n        pass\n",
            "a = 1\r\nb = 2 + \\\r\n    a\r\n",
        ] {
            assert!(!is_torn(text), "{text}");
        }
    }

    /// CPython 3.11 calls each of these a syntax error.
    #[test]
    fn a_line_that_begins_in_the_middle_of_a_statement_is_torn() {
        for text in
            ["from tides import\n    read,\n", "if a\n        and b:\n    pass\n", "def f(a)\n    -> int:\n    pass\n"]
        {
            assert!(is_torn(text), "{text}");
        }
    }

    /// CPython 3.11 calls each of the first a syntax error.
    #[test]
    fn an_assignment_in_the_middle_of_another_is_torn() {
        for text in ["a += b += c\n", "a = b += c\n", "a += b = c\n"] {
            assert!(is_torn(text), "{text}");
        }
        for text in ["a += b\n", "a = b = c\n", "a += (b := c)\n", "a += [b for b in c]; d -= 1\n"] {
            assert!(!is_torn(text), "{text}");
        }
    }
}
