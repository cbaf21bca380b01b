//! The names that merged Python uses, as CPython's `symtable` resolves them (the Python Language Reference, 4.2.2
//! "Resolution of names"): a name that no block binds is looked up among the globals and then the builtins, and
//! `NameError` is raised if it is in neither.

use pleach::{Settings, Versions, Way, merge};
use serde_json::json;

use super::edited::Lang;
use super::python::ask;
use super::python_parses::fresh;

const ORACLE: &str = r#"
import builtins, symtable

def tables(table):
    yield table
    for child in table.get_children():
        yield from tables(child)

def unbound(text):
    try:
        top = symtable.symtable(text, 'answer', 'exec')
    except (SyntaxError, ValueError):
        return None
    bound = set(dir(builtins)) | {'__file__', '__name__', '__doc__', '__path__'}
    used = set()
    for table in tables(top):
        for s in table.get_symbols():
            if s.is_assigned() or s.is_imported():
                if table is top or s.is_declared_global():
                    bound.add(s.get_name())
            if s.is_referenced() and (s.is_global() or table is top):
                used.add(s.get_name())
    return used - bound

def check(q):
    sides = [unbound(v) for v in q['versions']]
    answer = unbound(q['answer'])
    if answer is None or None in sides or '*' in str(q['versions'][0].split('import')[1:]):
        return 'unfit'
    names = answer - sides[1] - sides[2]
    return ', '.join(sorted(names)) or None
"#;

/// One side takes out what declares a name, and all uses; the other puts another use in.
#[test]
fn no_clean_merge_of_trees_uses_what_one_side_took_out() {
    let declarations = [
        ("import statistics\n", "statistics.mean(rows)"),
        ("import numpy as np\n", "np.mean(rows)"),
        ("import harbour.tables\n", "harbour.tables.mean(rows)"),
        ("from statistics import mean, median\n", "mean(rows)"),
        ("from statistics import (\n    median,\n    mean as middle,\n)\n", "middle(rows)"),
        ("def middle(rows):\n    return sum(rows) / len(rows)\n\n\n", "middle(rows)"),
        ("middle = tides.measure()\n\n\n", "middle(rows)"),
        ("middle, least = tides.measures()\n\n\n", "middle(rows)"),
        ("for middle in tides.measures():\n    pass\n\n\n", "middle(rows)"),
        ("with tides.measure() as middle:\n    pass\n\n\n", "middle(rows)"),
        ("class Middle:\n    pass\n\n\n", "Middle(rows)"),
        ("@cached\ndef middle(rows):\n    return sum(rows) / len(rows)\n\n\n", "middle(rows)"),
    ];
    // Each holds a place that both sides change, so that lines alone do not merge it.
    let uses = [
        ("    show(unit='m')\n", "    show(unit='m', level=USE)\n"),
        ("    show(unit='m')\n", "    show(unit='m', height=4)\n    log(USE)\n"),
        ("    show(unit='m')\n", "    show(unit='m', height=4)\n    if rows:\n        return USE\n"),
        ("    show(unit='m')\n", "    show(unit='m', height=4)\n\n\ndef other(rows):\n    return USE\n"),
    ];
    let mut questions = Vec::new();
    let mut answers = Vec::new();
    for (declaration, used) in declarations {
        for (before, after) in uses {
            let rest = "def report(rows):\n    level = USE\n    show(unit='m')\n    return level\n";
            let base = format!("{declaration}{}", rest.replace("USE", used));
            let ours = rest.replace("USE", "rows[0]").replace(before, "    show(unit='m', width=8)\n");
            let theirs = base.replace(before, &after.replace("USE", used));
            for (ours, theirs) in [(&ours, &theirs), (&theirs, &ours)] {
                let versions = Versions { base: base.as_bytes(), ours: ours.as_bytes(), theirs: theirs.as_bytes() };
                let answer = merge(versions, Lang::Python.language(), &Settings::default());
                assert!(answer.notes.iter().any(|n| n.contains("uses it anew")), "{:?}\n{theirs}", answer.notes);
                let text = String::from_utf8_lossy(&answer.text).into_owned();
                questions.push(json!({ "versions": [base, ours, theirs], "answer": text }));
                answers.push((answer, text));
            }
        }
    }
    let verdicts = ask(ORACLE, &json!(questions));
    for ((answer, text), verdict) in answers.iter().zip(verdicts) {
        assert!(answer.conflicts > 0, "{verdict:?} in a clean answer:\n{text}");
    }
}

/// Whatever the sides do: a clean answer uses no name that nothing binds, unless a side does.
#[test]
fn clean_answers_bind_what_they_use_where_both_sides_do() {
    let mut questions = Vec::new();
    let mut described = Vec::new();
    let scenarios = fresh(Lang::Python, 400);
    for s in &scenarios {
        let texts = s.texts();
        let answer = merge(texts.as_ref().map(String::as_bytes), s.lang.language(), &Settings::default());
        if answer.conflicts == 0 && answer.way == Way::Trees {
            let text = String::from_utf8(answer.text).expect("text");
            questions.push(json!({ "versions": [texts.base, texts.ours, texts.theirs], "answer": text }));
            described.push(s);
        }
    }
    let verdicts = ask(ORACLE, &json!(questions));
    let fit = verdicts.iter().filter(|v| v.as_deref() != Some("unfit")).count();
    let wrong = described.iter().zip(&verdicts).filter_map(|(s, v)| Some((s, v.as_ref().filter(|v| *v != "unfit")?)));
    let kept = wrong.inspect(|(s, _)| s.keep("external-names"));
    let wrong: Vec<String> = kept.map(|(s, v)| format!("{}: {v}", s.describe())).collect();
    assert!(wrong.is_empty(), "{} of {fit} use what is not bound:\n{}", wrong.len(), wrong.join("\n"));
    assert!(fit > 50, "only {fit} answers to ask about");
}
