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
def fits(defined, called):
    known = {}
    exec(defined, known)
    try:
        eval(called, known)
    except TypeError:
        return False
    return True

def check(q):
    raises = fits(q['old'], q['called']) and not fits(q['new'], q['called'])
    if raises == q['told']:
        return 'told' if raises else None
    return f"`{q['called']}` of `{q['old']}`, now `{q['new']}`: told {q['told']}, raises {raises}"
"#;

const NAMES: [&str; 5] = ["port", "day", "unit", "datum", "limit"];

/// What a function takes.
fn takes(rng: &mut Rng) -> String {
    let mut parts: Vec<String> = Vec::new();
    let (mut optional, mut by_name) = (false, false);
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
    if !by_name && rng.chance(15) {
        parts.push("*more".to_owned());
    }
    if rng.chance(15) {
        parts.push("**named".to_owned());
    }
    let placed = parts.iter().position(|part| part.starts_with('*')).unwrap_or(parts.len());
    if placed > 0 && rng.chance(20) {
        parts.insert(1 + rng.below(placed), "/".to_owned());
    }
    parts.join(", ")
}

fn given(rng: &mut Rng) -> String {
    let placed = rng.below(4);
    let mut parts = vec!["2".to_owned(); placed];
    let named = NAMES.iter().skip(placed).filter(|_| rng.chance(40)).map(|name| format!("{name}=3"));
    parts.extend(named.collect::<Vec<_>>());
    parts.join(", ")
}

/// What is called.
#[derive(Clone, Copy, Debug)]
enum Callee {
    Function,
    /// By the name of its class (The Python Language Reference, 3.3.1, `object.__init__`).
    Constructor,
    /// On the object of another method.
    Method,
}

impl Callee {
    /// It, taking this.
    fn defined(self, takes: &str) -> String {
        let member = |name: &str| {
            let takes = [&["self"][..], &[takes][..usize::from(!takes.is_empty())]].concat().join(", ");
            format!("class Tide:\n    level = 2\n\n    def {name}({takes}):\n        self.day = 4\n")
        };
        match self {
            Callee::Function => format!("def fetch({takes}):\n    return 4\n"),
            Callee::Constructor => member("__init__"),
            Callee::Method => member("fetch"),
        }
    }

    /// A call of it with this, where it is defined, and as it is put into what is below that.
    fn called(self, given: &str) -> [String; 2] {
        match self {
            Callee::Function => [format!("fetch({given})"), format!("fetch({given})")],
            Callee::Constructor => [format!("Tide({given})"), format!("Tide({given})")],
            Callee::Method => [format!("Tide().fetch({given})"), format!("self.fetch({given})")],
        }
    }
}

#[test]
fn a_call_that_would_raise_a_type_error_is_told_of() {
    let mut questions = Vec::new();
    for seed in 0..1500 {
        let mut rng = Rng::new(seed);
        let (old, new) = (takes(&mut rng), takes(&mut rng));
        let given = given(&mut rng);
        if old == new {
            continue;
        }
        let callee = *rng.pick(&[Callee::Function, Callee::Constructor, Callee::Method]).expect("one of them");
        let [called, put_in] = callee.called(&given);
        let text = |takes: &str, put_in: &str| {
            let below = format!("show(self, board):\n    board.clear()\n{put_in}    board.draw()\n");
            // A method stands in the class, further in.
            let below = match callee {
                Callee::Method => format!("\n    def {}\n", below.trim_end().replace('\n', "\n    ")),
                _ => format!("\n\ndef {below}"),
            };
            callee.defined(takes) + &below
        };
        let (base, theirs) = (text(&old, ""), text(&new, ""));
        let ours = text(&old, &format!("    board.add({put_in})\n"));
        let versions = Versions { base: base.as_bytes(), ours: ours.as_bytes(), theirs: theirs.as_bytes() };
        let answer = merge(versions, Lang::Python.language(), &Settings::default());
        let told = answer.notes.iter().any(|note| note.contains("theirs changed what it takes"));
        let (old, new) = (callee.defined(&old), callee.defined(&new));
        questions.push(json!({ "old": old, "new": new, "called": called, "told": told }));
    }
    let answers = ask(ORACLE, &json!(questions));
    let told = answers.iter().flatten().filter(|answer| *answer == "told").count();
    let wrong: Vec<&String> = answers.iter().flatten().filter(|answer| *answer != "told").collect();
    assert!(wrong.is_empty(), "{} of {}:\n{:#?}", wrong.len(), answers.len(), &wrong[..wrong.len().min(10)]);
    assert!(told > 50, "only {told} of {} calls do not fit any more", answers.len());
}
