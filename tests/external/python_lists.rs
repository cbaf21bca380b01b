//! The elements of merged lists, as CPython reads them.
//!
//! A list of names none of which stands twice is merged as a set of names, and as a set of pairs "this one before
//! that one": what one side put in is there, what one took out is not, nothing stands twice (a three-way merge of
//! sets; common practice, no source), and two names that both sides have in one order stand in it, whatever base has.

use pleach::{Settings, Versions, Way, merge};
use serde_json::json;

use super::edited::Lang;
use super::edited::rng::Rng;
use super::python::{ask, shown};

const ORACLE: &str = r#"
import ast

def names(text):
    return [n.value for n in ast.parse(text).body[0].value.elts]

def check(q):
    if q['conflicts']:
        return None
    base, ours, theirs, found = (names(q[v]) for v in ('base', 'ours', 'theirs', 'answer'))
    if len(set(found)) < len(found):
        return f'a name stands twice: {found}'
    b, o, t = set(base), set(ours), set(theirs)
    wanted = (b & o & t) | (o - b) | (t - b)
    if set(found) != wanted:
        return f'the names are {sorted(found)} instead of {sorted(wanted)}'
    common = [n for n in ours if n in t and n in wanted]
    if common == [n for n in theirs if n in o and n in wanted] and common != [n for n in found if n in common]:
        return f'both sides agree on the order {common}'
    return None
"#;

const PANELS: [&str; 9] = ["alarms", "bridges", "gauges", "locks", "moorings", "quays", "tides", "waves", "wind"];

/// Some of the names in no order.
fn some(rng: &mut Rng, of: &[&'static str], count: usize) -> Vec<&'static str> {
    let mut rest = of.to_vec();
    (0..count.min(of.len())).map(|_| rest.remove(rng.below(rest.len()))).collect()
}

/// Without some of its names, with some others, and sorted if it is to be, else with some of them elsewhere.
fn edited(rng: &mut Rng, base: &[&'static str], sorts: bool) -> Vec<&'static str> {
    let mut names: Vec<&str> = base.iter().copied().filter(|_| rng.chance(85)).collect();
    let others: Vec<&str> = PANELS.into_iter().filter(|name| !base.contains(name)).collect();
    let count = rng.below(3);
    for name in some(rng, &others, count) {
        names.insert(rng.below(names.len() + 1), name);
    }
    if sorts {
        names.sort_unstable();
    } else if names.len() > 1 && rng.chance(40) {
        let name = names.remove(rng.below(names.len()));
        names.insert(rng.below(names.len() + 1), name);
    }
    names
}

fn text(names: &[&str], package: &str) -> String {
    let lines: Vec<String> = names.iter().map(|name| format!("    \"{package}{name}\",\n")).collect();
    format!("PANELS = [\n{}]\n", lines.concat())
}

#[test]
fn merged_lists_have_the_three_way_merge_of_the_names() {
    let mut questions = Vec::new();
    let (mut clean, mut by_trees) = (0, 0);
    for seed in 0..1500 {
        let mut rng = Rng::new(seed);
        let count = 4 + rng.below(3);
        let base = some(&mut rng, &PANELS, count);
        let sorts = rng.chance(50);
        let (ours, theirs) = (edited(&mut rng, &base, sorts), edited(&mut rng, &base, sorts));
        let package = if rng.chance(50) { "tideboard.panels." } else { "" };
        let texts = Versions { base, ours, theirs }.map(|names| text(&names, package));
        let answer = merge(texts.as_ref().map(String::as_bytes), Lang::Python.language(), &Settings::default());
        clean += usize::from(answer.conflicts == 0);
        by_trees += usize::from(answer.conflicts == 0 && answer.way == Way::Trees);
        // A clean line merge that is sound is the answer (contract K3).
        let asked = if answer.way == Way::Lines { answer.conflicts.max(1) } else { answer.conflicts };
        questions.push(json!({
            "base": texts.base, "ours": texts.ours, "theirs": texts.theirs,
            "answer": String::from_utf8(answer.text).expect("text"), "conflicts": asked, "seed": seed,
        }));
    }
    let answers = ask(ORACLE, &json!(questions));
    let wrong: Vec<String> = questions.iter().zip(answers).filter_map(|(q, answer)| Some(shown(q, &answer?))).collect();
    println!("{} lists, {clean} clean, {by_trees} of them by trees", questions.len());
    assert!(wrong.is_empty(), "{} lists:\n{}", wrong.len(), wrong[..wrong.len().min(4)].join("\n"));
    assert!(by_trees > 150, "{by_trees} clean by trees: too few to say much");
}
