//! Merged Python, as CPython compiles it.
//!
//! `compile` rather than `ast.parse`: it also refuses what the grammar lets pass but the Language Reference
//! forbids, such as a keyword argument that is repeated (6.3.4 "Calls": "If a keyword argument is repeated
//! … a syntax error"), a parameter that is (8.7 "Function definitions"), or a positional argument after a
//! keyword argument.

use pleach::line::{self, LineSettings};
use pleach::syntax::Parsed;
use pleach::{Answer, Settings, Versions, Way, merge};
use serde_json::json;

use super::edited::edits::{cut, scenario};
use super::edited::scenario::Scenario;
use super::edited::{Lang, blocks, sources};
use super::python::ask;

const ORACLE: &str = r#"
def compiles(text):
    try:
        compile(text, 'answer', 'exec', dont_inherit=True)
    except (SyntaxError, ValueError) as e:
        return f'line {getattr(e, "lineno", "?")}: {e}'

def check(q):
    if any(compiles(v) for v in q['versions']):
        return 'unfit'
    return compiles(q['answer'])
"#;

/// Scenarios over bases of their own, not those of the contract tests.
pub fn fresh(lang: Lang, n: usize) -> Vec<Scenario> {
    let sources = sources::sample(lang, n, 300, 50_000);
    let corpus = sources::corpus(lang);
    (0..n)
        .map(|k| {
            let (name, text) = if k % 2 == 0 { &sources[k % sources.len()] } else { &corpus[k % corpus.len()] };
            let seed = 10_000 + k as u64;
            scenario(lang, name, &cut(lang, text, seed), seed)
        })
        .collect()
}

#[test]
fn clean_answers_compile_where_all_versions_do() {
    let readings = |answer: Answer| if answer.conflicts == 0 { vec![answer.text] } else { Vec::new() };
    let fit = compile_all("external-python", readings);
    assert!(fit > 150, "only {fit} clean answers to ask about");
}

/// Contract K9 by CPython's judgement: whoever keeps one side of every block has a file that compiles.
#[test]
fn either_side_of_the_conflicts_of_an_answer_compiles_where_all_versions_do() {
    let readings = |answer: Answer| match answer.way {
        Way::Trees if answer.conflicts > 0 => {
            (0..2).map(|side| blocks::choose(&answer.text, side).expect("whole blocks")).collect()
        }
        _ => Vec::new(),
    };
    let fit = compile_all("external-python-sides", readings);
    assert!(fit > 100, "only {fit} readings to ask about");
}

/// Asks CPython to compile what `readings` makes of the answers to many scenarios. Gives the number of texts that
/// were to compile, for all versions do.
fn compile_all(check: &str, readings: impl Fn(Answer) -> Vec<Vec<u8>>) -> usize {
    let scenarios = fresh(Lang::Python, 600);
    let mut questions = Vec::new();
    let mut asked = Vec::new();
    for s in &scenarios {
        let texts = s.texts();
        let answer = merge(texts.as_ref().map(String::as_bytes), s.lang.language(), &Settings::default());
        for text in readings(answer) {
            let text = String::from_utf8(text).expect("text");
            questions.push(json!({ "versions": [texts.base, texts.ours, texts.theirs], "answer": text }));
            asked.push(s);
        }
    }
    let answers = ask(ORACLE, &json!(questions));
    let fit = answers.iter().filter(|a| a.as_deref() != Some("unfit")).count();
    let wrong: Vec<String> = asked
        .iter()
        .zip(&answers)
        .filter_map(|(s, a)| Some((s, a.as_ref().filter(|a| *a != "unfit")?)))
        .inspect(|(s, _)| s.keep(check))
        .map(|(s, a)| format!("{}: {a}", s.describe()))
        .collect();
    assert!(wrong.is_empty(), "{} of {fit} do not compile:\n{}", wrong.len(), wrong[..wrong.len().min(10)].join("\n"));
    fit
}

/// What starts a line must be as far in as the statements around it, and so must the clauses of a statement and what
/// decorates a definition (The Python Language Reference, 2.1.8 "Indentation"), which the grammar forgives: CPython
/// judges sources of which one line was moved by a column.
#[test]
fn a_line_that_stands_too_far_in_or_out_is_seen() {
    let mut texts = Vec::new();
    for (k, (name, source)) in sources::sample(Lang::Python, 200, 300, 50_000).into_iter().enumerate() {
        let text = cut(Lang::Python, &source, 30_000 + k as u64);
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        let indented = |i: &usize| lines[*i].starts_with("    ") && !lines[*i].trim().is_empty();
        let heads = ["el", "except", "finally", "@", "def ", "class "];
        let head = |i: &usize| heads.iter().any(|head| lines[*i].trim_start().starts_with(head));
        let all: Vec<usize> = (0..lines.len()).filter(indented).collect();
        let heads: Vec<usize> = all.iter().copied().filter(head).collect();
        for places in [&all, &heads].into_iter().filter(|places| !places.is_empty()) {
            let at = places[k * 7 % places.len()];
            for moved in [lines[at][1..].to_owned(), format!(" {}", lines[at])] {
                let moved = [&lines[..at].concat(), &moved, &lines[at + 1..].concat()].map(String::as_str).concat();
                texts.push((format!("{name}, line {}", at + 1), text.clone(), moved));
            }
        }
    }
    let question = |(_, text, moved): &(String, String, String)| json!({ "versions": [text], "answer": moved });
    let verdicts = ask(ORACLE, &json!(texts.iter().map(question).collect::<Vec<_>>()));
    let language = Lang::Python.language().expect("it is built in");
    let mut refused = 0;
    for ((name, _, moved), verdict) in texts.iter().zip(&verdicts) {
        let Some(why) = verdict.as_deref().filter(|why| *why != "unfit") else { continue };
        refused += 1;
        let read = Parsed::new(moved.as_bytes(), language).is_ok_and(|parsed| parsed.tree().forgiven.is_none());
        assert!(!read, "{name}: CPython refuses it, {why}");
    }
    assert!(refused > 200, "CPython refuses only {refused} of {}", texts.len());
}

/// Clean line merges that CPython refuses: pleach must not let them pass.
#[test]
fn what_the_language_reference_forbids_is_not_a_clean_answer() {
    let call = "plot(\n    unit=1,\n    width=2,\n    grid=3,\n    title=4,\n    legend=5,\n)\n";
    let signature = "def plot(\n    unit=1,\n    width=2,\n    grid=3,\n    title=4,\n    legend=5,\n):\n    pass\n";
    let nested = format!("class Board:\n    def draw(self):\n        return {}", call.replace('\n', "\n        "));
    let cases = [
        ("a keyword with two values", call, ["    dpi=1,\n    width", "    dpi=2,\n    legend"]),
        ("a keyword with one value", call, ["    dpi=1,\n    width", "    dpi=1,\n    legend"]),
        ("a parameter with two defaults", signature, ["    dpi=1,\n    width", "    dpi=2,\n    legend"]),
        (
            "a keyword in a method",
            nested.trim_end_matches(' '),
            ["    dpi=1,\n            width", "    dpi=2,\n            legend"],
        ),
    ];
    let edited = |(name, base, [ours, theirs]): (&'static str, &str, [&str; 2])| {
        (name, base.to_owned(), base.replacen("    width", ours, 1), base.replacen("    legend", theirs, 1))
    };
    // What stands before an import from `__future__` (7.11.1, "Future statements").
    let (doc, rest) = ("\"\"\"Tides.\"\"\"\n", "# tideboard\n\nimport tides\n\ntides.show()\n");
    let future = rest.replace("import tides", "from __future__ import annotations\nimport tides");
    let late = |name, doc: &str, put_in: &str| {
        (name, format!("{doc}{rest}"), format!("{doc}{put_in}{rest}"), format!("{doc}{future}"))
    };
    let late = [
        late("a statement above a future import", "", "import warnings\n"),
        late("a statement below a docstring", doc, "print()\n"),
        late("a second text", doc, doc),
    ];
    let mut questions = Vec::new();
    let mut answers = Vec::new();
    for (name, base, ours, theirs) in cases.into_iter().map(edited).chain(late) {
        let versions = Versions { base: base.as_bytes(), ours: ours.as_bytes(), theirs: theirs.as_bytes() };
        let lines = line::merge(versions, &LineSettings::default());
        assert_eq!(lines.conflicts, 0, "{name}: the line merge must be clean, or nothing is tested");
        let answer = merge(versions, Lang::Python.language(), &Settings::default());
        for text in [&lines.text, &answer.text] {
            questions.push(json!({ "versions": [base, ours, theirs], "answer": String::from_utf8_lossy(text) }));
        }
        answers.push((name, answer));
    }
    let verdicts = ask(ORACLE, &json!(questions));
    for ((name, answer), verdict) in answers.iter().zip(verdicts.chunks(2)) {
        let refused = verdict[0].as_deref().unwrap_or_else(|| panic!("{name}: CPython takes the line merge"));
        assert_ne!(refused, "unfit", "{name}");
        let good = answer.conflicts > 0 || verdict[1].is_none();
        assert!(good, "{name}: clean, and {:?}:\n{}", verdict[1], String::from_utf8_lossy(&answer.text));
    }
}
