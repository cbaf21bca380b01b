//! Whether a call fits what it calls, as CPython tells: it is called.
//!
//! The Python Language Reference, 6.3.4 "Calls" and 8.7 "Function definitions": a call that lacks what must be given, or
//! gives what is not taken, raises a `TypeError`. Where one side puts a call in and the other changes the function, pleach
//! must say so if the call would raise one, and fitted what was there.

use pleach::{Settings, Versions, merge};
use serde_json::json;

use super::edited::Lang;
use super::edited::rng::Rng;
use super::python::ask;

const ORACLE: &str = r#"
def fits(takes, given):
    known = {}
    exec(f'def fetch({takes}):\n    pass', known)
    try:
        eval(f'fetch({given})', known)
    except TypeError:
        return False
    return True

def check(q):
    raises = fits(q['old'], q['given']) and not fits(q['new'], q['given'])
    if raises == q['told'] or raises and not q['judged']:
        return 'told' if raises and q['told'] else None
    return f"`fetch({q['given']})` of `fetch({q['old']})`, now `fetch({q['new']})`: told {q['told']}, raises {raises}"
"#;

const NAMES: [&str; 5] = ["port", "day", "unit", "datum", "limit"];

/// What a function takes, and whether pleach looks at it: it leaves alone what takes any number of things.
fn takes(rng: &mut Rng) -> (String, bool) {
    let mut parts: Vec<String> = Vec::new();
    let (mut optional, mut by_name, mut judged) = (false, false, true);
    for name in NAMES {
        if rng.chance(30) {
            continue;
        }
        if !by_name && rng.chance(20) {
            by_name = true;
            parts.push("*".to_owned());
        }
        // What stands behind one with a default has one too, unless it is given by its name.
        optional = rng.chance(40) || optional && !by_name;
        parts.push(if optional { format!("{name}=1") } else { name.to_owned() });
    }
    if parts.last().is_some_and(|part| part == "*") {
        parts.pop();
    }
    if !by_name && rng.chance(10) {
        parts.push("*more".to_owned());
        judged = false;
    }
    if rng.chance(10) {
        parts.push("**named".to_owned());
        judged = false;
    }
    (parts.join(", "), judged)
}

fn given(rng: &mut Rng) -> String {
    let placed = rng.below(4);
    let mut parts = vec!["2".to_owned(); placed];
    let named = NAMES.iter().skip(placed).filter(|_| rng.chance(40)).map(|name| format!("{name}=3"));
    parts.extend(named.collect::<Vec<_>>());
    parts.join(", ")
}

#[test]
fn a_call_that_would_raise_a_type_error_is_told_of() {
    let mut questions = Vec::new();
    for seed in 0..1500 {
        let mut rng = Rng::new(seed);
        let ((old, old_judged), (new, new_judged)) = (takes(&mut rng), takes(&mut rng));
        let given = given(&mut rng);
        if old == new {
            continue;
        }
        let text = |takes: &str, put_in: &str| {
            format!(
                "def fetch({takes}):\n    return 4\n\n\ndef show(board):\n    board.clear()\n{put_in}    board.draw()\n"
            )
        };
        let (base, theirs) = (text(&old, ""), text(&new, ""));
        let ours = text(&old, &format!("    board.add(fetch({given}))\n"));
        let versions = Versions { base: base.as_bytes(), ours: ours.as_bytes(), theirs: theirs.as_bytes() };
        let answer = merge(versions, Lang::Python.language(), &Settings::default());
        let told = answer.notes.iter().any(|note| note.contains("theirs changed what it takes"));
        questions
            .push(json!({ "old": old, "new": new, "given": given, "told": told, "judged": old_judged && new_judged }));
    }
    let answers = ask(ORACLE, &json!(questions));
    let told = answers.iter().flatten().filter(|answer| *answer == "told").count();
    let wrong: Vec<&String> = answers.iter().flatten().filter(|answer| *answer != "told").collect();
    assert!(wrong.is_empty(), "{} of {}:\n{:#?}", wrong.len(), answers.len(), &wrong[..wrong.len().min(10)]);
    assert!(told > 50, "only {told} of {} calls do not fit any more", answers.len());
}
