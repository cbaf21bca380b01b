//! Merged TOML, as CPython's `tomllib` reads it: the three-way merge of the values, made here in Python
//! over dictionaries.

use pleach::line::{self, LineSettings};
use pleach::{Settings, Versions, Way, merge};
use serde_json::json;

use super::edited::Lang;
use super::edited::scenario::{Patch, Scenario};
use super::python::ask;
use super::python_parses::fresh;

const ORACLE: &str = r#"
import collections, re, tomllib

def headed(key, text):
    return re.search(r'^ *\[.*(?<!\w)' + re.escape(key) + r'(?!\w)', text, re.M) is not None

MISSING = object()

class Conflict(Exception):
    pass

class Unclear(Exception):
    """Lists that both sides changed: what that means is not a matter of values alone."""

def merged(base, ours, theirs, texts):
    if ours == theirs or theirs == base:
        return ours
    if ours == base:
        return theirs
    tables = [v for v in (base, ours, theirs) if v is not MISSING]
    if all(isinstance(v, dict) for v in tables) and ours is not MISSING and theirs is not MISSING:
        base = {} if base is MISSING else base
        found = {}
        for key in {**base, **ours, **theirs}:
            versions = [v.get(key, MISSING) for v in (base, ours, theirs)]
            value = merged(*versions, texts)
            # A table of which each side took out a part: dotted keys (TOML v1.0.0, "Keys") leave nothing, a header does.
            empty = isinstance(value, dict) and not value
            if empty and value not in versions and not headed(key, texts[0]):
                value = MISSING
            if value is not MISSING:
                found[key] = value
        return found
    if any(isinstance(v, list) for v in tables):
        if all(isinstance(v, list) for v in (base, ours, theirs)):
            plain = all(isinstance(x, (str, int)) for v in (base, ours, theirs) for x in v)
            if plain:
                return Elements(base, ours, theirs)
        raise Unclear
    # A table that one side removed and the other changed, or values that differ.
    raise Conflict

class Elements:
    """A list of plain values that both sides changed: no element may be lost or made up."""
    def __init__(self, base, ours, theirs):
        self.counts = [collections.Counter(v) for v in (base, ours, theirs)]
    def __eq__(self, found):
        base, ours, theirs = self.counts
        result = collections.Counter(found)
        for x in {*base, *ours, *theirs, *result}:
            o, t, r = ours[x] - base[x], theirs[x] - base[x], result[x] - base[x]
            if o * t <= 0 and r != o + t or o * t > 0 and not min(o, t, o + t) <= r <= max(o, t, o + t):
                return False
        return True
    def __repr__(self):
        return f'a list of {self.counts}'

def read(text):
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return None

def check(q):
    versions = [read(v) for v in q['versions']]
    if None in versions:
        return 'unfit'
    found = None if q['conflicts'] else read(q['answer'])
    if not q['conflicts'] and found is None:
        return 'a clean answer is no TOML'
    try:
        expected = merged(*versions, q['versions'])
    except Unclear:
        return 'unclear'
    except Conflict:
        if q['conflicts']:
            return None
        return 'by lines' if q['by_lines'] else 'the values disagree, and the answer is clean'
    if q['conflicts']:
        return 'too careful'
    # Unequal rather than not equal: a list of elements knows what it equals.
    if expected == found:
        return None
    return 'by lines' if q['by_lines'] else f'the values are {found} instead of {expected}'[:600]
"#;

#[test]
fn merged_values_are_the_three_way_merge_of_the_values() {
    // A header or a key that was renamed, doubled or taken away moves all that stands under it, for a person
    // and for the merge (a rename keeps its match), but not for dictionaries: there, everything is gone from
    // one place and new in another.
    let keeps_names = |s: &Scenario| {
        s.sides.iter().flatten().all(|e| {
            let header = |text: &str| text.lines().any(|l| l.trim_start().starts_with('['));
            // A part of a header or of a key, in quotes, is a text too.
            let name = |p: &Patch| {
                let before = s.base[..p.at.start].rsplit('\n').next().unwrap_or_default();
                let after = s.base[p.at.end..].split('\n').next().unwrap_or_default();
                e.what == "change text" && !before.contains('=') && (header(before) || after.contains('='))
            };
            e.what != "rename one"
                && (e.what == "insert definition"
                    || e.patches.iter().all(|p| !header(&s.base[p.at.clone()]) && !header(&p.text) && !name(p)))
        })
    };
    let scenarios: Vec<Scenario> = fresh(Lang::Toml, 900).into_iter().filter(keeps_names).collect();
    let questions: Vec<serde_json::Value> = scenarios
        .iter()
        .map(|s| {
            let texts = s.texts();
            let answer = merge(texts.as_ref().map(String::as_bytes), s.lang.language(), &Settings::default());
            json!({
                "versions": [texts.base, texts.ours, texts.theirs],
                "answer": String::from_utf8(answer.text).expect("text"),
                "conflicts": answer.conflicts,
                // A clean line merge that is sound is the answer whatever it does to the values (contract K3): it
                // takes one side's copy of a block for the block, and puts the other side's edit there.
                "by_lines": answer.way == Way::Lines,
            })
        })
        .collect();
    let answers = ask(ORACLE, &json!(questions));
    let count = |what: Option<&str>| answers.iter().filter(|a| a.as_deref() == what).count();
    let (unfit, unclear, careful, good) =
        (count(Some("unfit")), count(Some("unclear")), count(Some("too careful")), count(None));
    let by_lines = count(Some("by lines"));
    let wrong: Vec<String> = scenarios
        .iter()
        .zip(&answers)
        .filter_map(|(s, a)| Some((s, a.as_deref()?)))
        .filter(|(_, a)| !matches!(*a, "unfit" | "unclear" | "too careful" | "by lines"))
        .inspect(|(s, _)| s.keep("external-toml"))
        .map(|(s, a)| format!("{}: {a}", s.describe()))
        .collect();
    println!(
        "{good} good, {careful} too careful, {unclear} unclear, {unfit} unfit, {by_lines} by lines, {} wrong",
        wrong.len()
    );
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong[..wrong.len().min(10)].join("\n"));
    assert!(good > 250, "only {good} merges to look at");
    assert!(by_lines * 20 < good, "{by_lines} line merges with other values, {good} good");
    assert!(careful * 10 < good, "{careful} conflicts about values that do not disagree, {good} good");
}

/// TOML v1.0.0, "Keys": "Defining a key multiple times is invalid." "Table": "Like keys, you cannot define a
/// table more than once." "Dotted keys create and define a table for each key part before the last one …
/// redefining them with a header is invalid".
#[test]
fn what_the_specification_forbids_is_not_a_clean_answer() {
    let spacer = "# a\n# b\n# c\n# d\n# e\n";
    let base = format!("[fruit]\nfirst = 1\n{spacer}last = 2\n\n[stone]\nx = 1\n");
    let cases = [
        ("a key, two values", "first = 1\n", "new = 1\nfirst = 1\n", "last = 2\n", "last = 2\nnew = 2\n"),
        ("a key, one value", "first = 1\n", "new = 1\nfirst = 1\n", "last = 2\n", "last = 2\nnew = 1\n"),
        ("a key, bare and quoted", "first = 1\n", "new = 1\nfirst = 1\n", "last = 2\n", "last = 2\n\"new\" = 2\n"),
        ("a table", "[fruit]\n", "[tree]\na = 1\n\n[fruit]\n", "x = 1\n", "x = 1\n\n[tree]\nb = 1\n"),
        (
            "a table, with blanks in the header",
            "[fruit]\n",
            "[tree]\na = 1\n\n[fruit]\n",
            "x = 1\n",
            "x = 1\n\n[ tree ]\nb = 1\n",
        ),
        (
            "a dotted key and a header",
            "first = 1\n",
            "apple.colour = 1\nfirst = 1\n",
            "x = 1\n",
            "x = 1\n\n[fruit.apple]\ntaste = 1\n",
        ),
        (
            "a value and a header",
            "first = 1\n",
            "apple = 1\nfirst = 1\n",
            "x = 1\n",
            "x = 1\n\n[fruit.apple]\ntaste = 1\n",
        ),
        (
            "a value and a dotted key",
            "first = 1\n",
            "apple = 1\nfirst = 1\n",
            "last = 2\n",
            "last = 2\napple.taste = 1\n",
        ),
        (
            "an inline table and a header",
            "first = 1\n",
            "apple = { a = 1 }\nfirst = 1\n",
            "x = 1\n",
            "x = 1\n\n[fruit.apple]\ntaste = 1\n",
        ),
        (
            "a table and an array of tables",
            "[fruit]\n",
            "[tree]\na = 1\n\n[fruit]\n",
            "x = 1\n",
            "x = 1\n\n[[tree]]\nb = 1\n",
        ),
    ];
    let mut questions = Vec::new();
    let mut answers = Vec::new();
    for (name, before, ours, behind, theirs) in cases {
        let ours = base.replacen(before, ours, 1);
        let theirs = base.replacen(behind, theirs, 1);
        let versions = Versions { base: base.as_bytes(), ours: ours.as_bytes(), theirs: theirs.as_bytes() };
        let lines = line::merge(versions, &LineSettings::default());
        assert_eq!(lines.conflicts, 0, "{name}: the line merge must be clean, or nothing is tested");
        let answer = merge(versions, Lang::Toml.language(), &Settings::default());
        for text in [&lines.text, &answer.text] {
            questions.push(json!({
                "versions": [base, ours, theirs], "answer": String::from_utf8_lossy(text), "conflicts": 0, "by_lines": false,
            }));
        }
        answers.push((name, answer));
    }
    let verdicts = ask(ORACLE, &json!(questions));
    let mut wrong = Vec::new();
    for ((name, answer), verdict) in answers.iter().zip(verdicts.chunks(2)) {
        let no_toml = Some("a clean answer is no TOML");
        assert_eq!(verdict[0].as_deref(), no_toml, "{name}: tomllib must refuse the line merge");
        if answer.conflicts == 0 && verdict[1].as_deref() == no_toml {
            wrong.push(format!("{name}:\n{}", String::from_utf8_lossy(&answer.text)));
        }
    }
    assert!(wrong.is_empty(), "clean, and no TOML: {}", wrong.join("\n"));
}
