//! The arguments of merged calls, as CPython reads them.
//!
//! The Python Language Reference, 6.3.4 "Calls": positional arguments are told apart by their position,
//! keyword arguments by their names. So the merged call must have, at each position and for each name, the
//! three-way merge of what the versions have there: what one side changed is changed, what both changed
//! differently is a conflict. The merge of the argument sets is made here, in Python, from the `ast`.

use pleach::{Settings, Versions, Way, merge};
use serde_json::json;

use super::edited::Lang;
use super::edited::rng::Rng;
use super::python::{ask, shown};

const ORACLE: &str = r#"
import ast

MISSING = object()

def arguments(text):
    call = next(n for n in ast.walk(ast.parse(text)) if isinstance(n, ast.Call) and getattr(n.func, 'attr', '') == 'plot')
    found = {i: ast.dump(a) for i, a in enumerate(call.args)}
    for k in call.keywords:
        assert k.arg not in found, f'{k.arg} is repeated'
        found[k.arg] = ast.dump(k.value)
    return found

def merged(base, ours, theirs):
    found, conflict = {}, False
    for name in {**base, **ours, **theirs}:
        b, o, t = (v.get(name, MISSING) for v in (base, ours, theirs))
        if o == t or t == b:
            value = o
        elif o == b:
            value = t
        else:
            conflict = True
            continue
        if value is not MISSING:
            found[name] = value
    return found, conflict

def check(q):
    expected, conflict = merged(*(arguments(q[v]) for v in ('base', 'ours', 'theirs')))
    if conflict:
        return None if q['conflicts'] else 'the arguments disagree, and the answer is clean'
    if q['conflicts']:
        return 'too careful'
    found = arguments(q['answer'])
    return None if found == expected else f'the arguments are {found} instead of {expected}'
"#;

/// The arguments of one version of a call.
#[derive(Clone)]
struct Call {
    positional: Vec<String>,
    keywords: Vec<(&'static str, usize)>,
}

const NAMES: [&str; 10] = ["unit", "colour", "width", "grid", "title", "legend", "font", "scale", "ticks", "dpi"];

impl Call {
    fn new(rng: &mut Rng) -> Call {
        let positional = (0..rng.below(4)).map(|n| format!("p{n}")).collect();
        let mut call = Call { positional, keywords: Vec::new() };
        for _ in 0..rng.below(6) {
            call.add(rng);
        }
        call
    }

    fn add(&mut self, rng: &mut Rng) {
        let name = NAMES[rng.below(NAMES.len())];
        if self.keywords.iter().all(|(n, _)| *n != name) {
            let at = if rng.chance(60) { self.keywords.len() } else { rng.below(self.keywords.len() + 1) };
            self.keywords.insert(at, (name, rng.below(3)));
        }
    }

    /// One to three edits. Only one side may change how many positional arguments there are: that both
    /// append one is a conflict by the design, whatever the sets say.
    fn edited(&self, rng: &mut Rng, may_append: bool) -> Call {
        let mut call = self.clone();
        for _ in 0..1 + rng.below(3) {
            match rng.below(6) {
                0 | 1 => call.add(rng),
                2 if !call.keywords.is_empty() => {
                    let at = rng.below(call.keywords.len());
                    call.keywords[at].1 = 10 + rng.below(3);
                }
                3 if !call.keywords.is_empty() => drop(call.keywords.remove(rng.below(call.keywords.len()))),
                4 if !call.positional.is_empty() => {
                    let at = rng.below(call.positional.len());
                    call.positional[at] = format!("q{}", rng.below(3));
                }
                5 if may_append && call.positional.len() == self.positional.len() => {
                    call.positional.push("extra".to_owned())
                }
                _ => {}
            }
        }
        call
    }

    /// The call in a text; `layout` is how the sides are laid out too, for all alike.
    fn text(&self, layout: usize) -> String {
        let all = self.positional.iter().cloned().chain(self.keywords.iter().map(|(n, v)| format!("{n}={v}")));
        let all: Vec<String> = all.collect();
        let call = match layout % 3 {
            0 => format!("board.plot({})", all.join(", ")),
            1 if !all.is_empty() => format!("board.plot(\n    {},\n)", all.join(",\n    ")),
            1 => "board.plot()".to_owned(),
            _ => format!("board.plot({})", all.join(",\n           ")),
        };
        match layout / 3 % 3 {
            0 => format!("{call}\n"),
            1 => format!("def draw():\n    chart = {}\n    return chart\n", call.replace('\n', "\n    ")),
            _ => format!("show(fit({call}.best(), depth=2))\n"),
        }
    }
}

#[test]
fn merged_calls_have_the_three_way_merge_of_the_arguments() {
    check(1200, 9, 300..1100, |rng| {
        let base = Call::new(rng);
        let appends = rng.below(2);
        let ours = base.edited(rng, appends == 0);
        let theirs = base.edited(rng, appends == 1);
        Versions { base, ours, theirs }
    });
}

/// As many as before, so each is what stands at its place, however often its text stands in the call. On one line:
/// of lines that are alike, git's merge decides which is which (contract K3).
#[test]
fn positional_arguments_that_are_alike_are_told_apart_by_their_places() {
    check(800, 1, 300..750, |rng| {
        let value = |rng: &mut Rng| ["0", "0", "1", "-1", "tide"][rng.below(5)].to_owned();
        let base =
            Call { positional: (0..2 + rng.below(3)).map(|_| value(rng)).collect(), keywords: Call::new(rng).keywords };
        let mut side = || {
            let mut call = base.clone();
            for argument in &mut call.positional {
                if rng.chance(30) {
                    *argument = value(rng);
                }
            }
            call
        };
        let (ours, theirs) = (side(), side());
        Versions { base, ours, theirs }
    });
}

fn check(number: u64, layouts: usize, expected: std::ops::Range<usize>, calls: impl Fn(&mut Rng) -> Versions<Call>) {
    let mut questions = Vec::new();
    let mut clean = 0;
    for seed in 0..number {
        let mut rng = Rng::new(seed);
        let versions = calls(&mut rng);
        let layout = rng.below(layouts);
        let texts = versions.map(|call| call.text(layout));
        let answer = merge(texts.as_ref().map(String::as_bytes), Lang::Python.language(), &Settings::default());
        clean += usize::from(answer.conflicts == 0);
        questions.push(json!({
            "seed": seed, "base": texts.base, "ours": texts.ours, "theirs": texts.theirs,
            "answer": String::from_utf8(answer.text).expect("text"), "conflicts": answer.conflicts,
            "by_lines": answer.way == Way::Lines,
        }));
    }
    let mut careful = Vec::new();
    let mut wrong = Vec::new();
    let mut by_lines = 0;
    for (q, answer) in questions.iter().zip(ask(ORACLE, &json!(questions))) {
        let Some(why) = answer else { continue };
        // A clean line merge that is sound is the answer (contract K3).
        if q["by_lines"] == json!(true) && q["conflicts"] == json!(0) {
            by_lines += 1;
            continue;
        }
        let whole = shown(q, &why);
        if why == "too careful" { careful.push(whole) } else { wrong.push(whole) }
    }
    assert!(by_lines < 20, "{by_lines} clean line merges with other arguments");
    assert!(
        wrong.is_empty(),
        "{} of {} calls:\n{}",
        wrong.len(),
        questions.len(),
        wrong[..wrong.len().min(6)].join("\n")
    );
    println!(
        "{} calls, {clean} clean, {} conflicts over arguments that do not disagree",
        questions.len(),
        careful.len()
    );
    // Where one side puts a positional argument in the place of a keyword argument, what became of which is
    // a guess, and a conflict may be the better answer; but seldom.
    assert!(careful.len() * 25 < questions.len(), "{} conflicts:\n{}", careful.len(), careful.join("\n"));
    assert!(expected.contains(&clean), "{clean} of {} are clean: too few or too many to say much", questions.len());
}
