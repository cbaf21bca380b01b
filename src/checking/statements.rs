//! The books of statements (contract K5): what a side moved within a file stands once.
//!
//! By tokens, a statement that each side took to another place may stand at both. By what it says it may not: where
//! neither side has it more often than base, nor may the answer. It may have it less often: each side may have edited
//! another of several. What base does not have may be what both sides' edits made of a statement together.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::books::{Unbalanced, tokens};
use super::sound::first_line;
use crate::Versions;
use crate::grammar::Language;
use crate::line::{self, Algorithm};
use crate::syntax::{NodeId, Parsed, Tree};

/// Shorter statements may become one another by chance.
const TOKENS: u32 = 3;
/// What a line says, signs included, that may be such a statement.
const LINE_TOKENS: usize = 3;

/// The first statement that `answer` has too often; nothing, if a version does not parse.
pub fn unbalanced_statements(
    versions: Versions<&[u8]>,
    answer: &[u8],
    language: &'static Language,
) -> Option<Unbalanced> {
    // Most answers have every line as often as they should.
    if lines_balance(versions, answer) {
        return None;
    }
    let parsed = versions.as_ref().map(|text| Parsed::new(text, language).ok());
    let Versions { base: Some(base), ours: Some(ours), theirs: Some(theirs) } = parsed else { return None };
    let [base, ours, theirs] = [base, ours, theirs].map(|parsed| statements(&parsed.tree()));
    let merged = Parsed::new(answer, language).ok()?;
    let tree = merged.tree();
    let too_often = |(hash, (found, last)): (u64, (i64, NodeId))| {
        let [base, ours, theirs] = [&base, &ours, &theirs].map(|counts| counts.get(&hash).map_or(0, |(n, _)| *n));
        let most = base.max(ours).max(theirs);
        (base > 0 && most == base && found > most).then_some((last, found, ours.min(theirs), most))
    };
    let (last, found, least, most) = statements(&tree).into_iter().filter_map(too_often).min()?;
    Some(Unbalanced { token: first_line(&tree, last), found, least, most })
}

/// Whether no line of base that says something stands more often than in all versions.
fn lines_balance(versions: Versions<&[u8]>, answer: &[u8]) -> bool {
    let mut changes: HashMap<&[u8], [i64; 3]> = HashMap::default();
    for (at, text) in [versions.ours, versions.theirs, answer].into_iter().enumerate() {
        for (gone, come) in line::differences(versions.base, text, Algorithm::Myers) {
            for (part, n) in [(&versions.base[gone], -1), (&text[come], 1)] {
                let lines = line::lines(part).into_iter().map(<[u8]>::trim_ascii);
                for line in lines.filter(|line| tokens(line).nth(LINE_TOKENS - 1).is_some()) {
                    changes.entry(line).or_default()[at] += n;
                }
            }
        }
    }
    let more = changes.into_iter().filter(|(_, [ours, theirs, answer])| *answer > 0 && *ours <= 0 && *theirs <= 0);
    let more: HashSet<&[u8]> = more.map(|(line, _)| line).collect();
    more.is_empty() || !line::lines(versions.base).into_iter().any(|line| more.contains(line.trim_ascii()))
}

/// How often each statement stands in a tree that holds no others, and the last of these. What may stand anywhere, such
/// as an import, says no more where it stands twice.
fn statements(tree: &Tree<'_>) -> HashMap<u64, (i64, NodeId)> {
    let mut found: HashMap<u64, (i64, NodeId)> = HashMap::default();
    let holds_none = |id: NodeId| !tree.inside(id).any(|inner| tree.is_block(inner));
    let counts = |id: &NodeId| {
        let free = tree.entry_rule(*id).is_some_and(|rule| rule.free);
        tree.is_statement(*id) && !tree.is_comment(*id) && !free && tree.size(*id) >= TOKENS && holds_none(*id)
    };
    for id in (1..tree.len() as u32).map(NodeId).filter(counts) {
        let (often, last) = found.entry(tree.core_hash(id)).or_insert((0, id));
        (*often, *last) = (*often + 1, id);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn books(versions: [&str; 3], answer: &str) -> Option<Unbalanced> {
        let [base, ours, theirs] = versions.map(str::as_bytes);
        let language = crate::grammar::for_path(b"tides.py", b"").expect("Python is built in");
        unbalanced_statements(Versions { base, ours, theirs }, answer.as_bytes(), language)
    }

    const MOVED: [&str; 3] = [
        "def a():\n    draw(tide, 80)\n\n\ndef b():\n    pass\n\n\ndef c():\n    pass\n",
        "def a():\n    pass\n\n\ndef b():\n    draw(tide, 80)\n\n\ndef c():\n    pass\n",
        "def a():\n    pass\n\n\ndef b():\n    pass\n\n\ndef c():\n    draw(tide, 80)\n",
    ];

    #[test]
    fn what_each_side_moved_elsewhere_stands_once() {
        let twice = "def a():\n    pass\n\n\ndef b():\n    draw(tide, 80)\n\n\ndef c():\n    draw(tide, 80)\n";
        let wrong = Unbalanced { token: "draw(tide, 80)".to_owned(), found: 2, least: 1, most: 1 };
        assert_eq!(books(MOVED, twice), Some(wrong));
        assert_eq!(books(MOVED, MOVED[1]), None);
    }

    #[test]
    fn what_a_side_put_in_or_took_out_may_stand_more_or_less_often() {
        let [base, moved, _] = MOVED;
        let put_in = format!("{base}\n\ndraw(tide, 80)\n");
        assert_eq!(books([base, &put_in, base], &put_in), None);
        let taken_out = base.replace("draw(tide, 80)", "pass");
        assert_eq!(books([base, &taken_out, base], &taken_out), None);
        assert_eq!(books([base, moved, &taken_out], &taken_out), None);
    }

    #[test]
    fn what_no_version_has_may_stand_as_often_as_it_comes_out() {
        let versions = ["log(a, 1)\nlog(b, 1)\n", "log(a, 2)\nlog(b, 2)\n", "log(c, 1)\nlog(c, 1)\n"];
        assert_eq!(books(versions, "log(c, 2)\nlog(c, 2)\n"), None);
    }
}
