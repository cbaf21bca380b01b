//! What a Python string says, whatever quotes it has, as CPython's `ast` reads it (the Python Language Reference, 2.4.1
//! "String and Bytes literals": either quote encloses one, and a backslash before a quote stands for that quote, but not
//! in a raw string).

use pleach::{Settings, Versions, merge};
use serde_json::json;

use super::edited::Lang;
use super::edited::rng::Rng;
use super::python::ask;

const ORACLE: &str = r#"
import ast

def read(text):
    try:
        return ast.dump(ast.parse(text))
    except (SyntaxError, ValueError):
        return None

def check(q):
    old, new = read(q['old']), read(q['new'])
    if old is None or new is None:
        return 'unfit'
    if old == new:
        return None if q['clean'] else 'kept apart'
    return 'taken for the same' if q['clean'] else None
"#;

const PARTS: [&str; 11] = ["low", " of ", r"\n", r"\\", "'", "\"", r"\'", r#"\""#, "é", "{level}", r"\d"];

fn choose<'a, T>(rng: &mut Rng, from: &'a [T]) -> &'a T {
    rng.pick(from).expect("there are some")
}

/// A string of some parts, written in one way or another.
fn literal(rng: &mut Rng, mark: &str, parts: &[&str], width: usize) -> String {
    let quote = choose(rng, &["'", "\""]).repeat(width);
    // A quote may be written with a backslash, or without.
    let written = parts.iter().map(|part| match *part {
        "'" | r"\'" => *choose(rng, &["'", r"\'"]),
        "\"" | r#"\""# => *choose(rng, &["\"", r#"\""#]),
        other => other,
    });
    format!("{mark}{quote}{}{quote}", written.collect::<String>())
}

/// One side writes a string in another way, the other puts something else in its place: that is no dispute if and only if
/// the string says the same.
#[test]
fn a_string_says_the_same_in_other_quotes_if_python_says_so() {
    let mut rng = Rng::new(71);
    let mut questions = Vec::new();
    for _ in 0..4000 {
        let parts: Vec<&str> = (0..1 + rng.below(4)).map(|_| *choose(&mut rng, &PARTS)).collect();
        let mark = *choose(&mut rng, &["", "", "", "r", "b", "f", "Rb"]);
        let width = *choose(&mut rng, &[1, 1, 3]);
        // Sometimes a part is missing.
        let fewer = if rng.chance(30) { &parts[1..] } else { &parts[..] };
        let (old, new) = (literal(&mut rng, mark, &parts, width), literal(&mut rng, mark, fewer, width));
        let text = |value: &str| format!("level = {value}\n");
        let texts = [text(&old), text(&new), text("gauge.level()")];
        let [base, ours, theirs] = texts.each_ref().map(String::as_bytes);
        let answer = merge(Versions { base, ours, theirs }, Lang::Python.language(), &Settings::default());
        let clean = answer.conflicts == 0 && texts[0] != texts[1];
        if texts[0] != texts[1] {
            questions.push(json!({ "old": texts[0], "new": texts[1], "clean": clean }));
        }
    }
    let answers = ask(ORACLE, &json!(questions));
    let wrong = |why: &str| {
        let all = questions.iter().zip(&answers).filter(|(_, answer)| answer.as_deref() == Some(why));
        all.map(|(q, _)| format!("{} {}", q["old"], q["new"])).collect::<Vec<String>>()
    };
    assert_eq!(wrong("taken for the same"), Vec::<String>::new());
    assert_eq!(wrong("kept apart"), Vec::<String>::new());
    let fit = questions.len() - wrong("unfit").len();
    let same = questions.iter().filter(|q| q["clean"] == true).count();
    assert!(same > 500 && fit > same + 100, "{same} of {fit} say the same");
}
