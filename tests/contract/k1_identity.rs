//! K1: `merge(b, x, b) = x`, `merge(b, b, x) = x`, `merge(b, x, x) = x`, byte for byte.

use pleach::syntax::parse_versions;
use pleach::{Versions, layout, merging};

use super::edited::Lang;
use super::edited::scenario::{Scenario, report};
use super::merged::{answer, merged, settings};

/// The three ways in which nobody opposes `x`.
fn unopposed(base: &str, x: &str) -> [(&'static str, Versions<String>); 3] {
    let (b, x) = (base.to_owned(), x.to_owned());
    [
        ("theirs did nothing", Versions { base: b.clone(), ours: x.clone(), theirs: b.clone() }),
        ("ours did nothing", Versions { base: b.clone(), ours: b.clone(), theirs: x.clone() }),
        ("both did the same", Versions { base: b, ours: x.clone(), theirs: x }),
    ]
}

pub fn complaint(lang: Lang, base: &str, x: &str) -> Option<String> {
    unopposed(base, x).into_iter().find_map(|(how, texts)| {
        let answer = answer(lang, &texts);
        (answer.conflicts > 0 || answer.text != x.as_bytes()).then(|| format!("{how}, and the answer is another text"))
    })
}

/// The same of the trees alone, where no line merge settles the matter first.
pub fn structural_complaint(lang: Lang, base: &str, x: &str) -> Option<String> {
    let language = lang.language()?;
    unopposed(base, x).into_iter().find_map(|(how, texts)| {
        let trees = parse_versions(texts.as_ref().map(String::as_bytes), language).ok()?.map(|p| p.tree());
        let Ok(merge) = merging::merge_trees(&trees, &merging::Withdrawn::default()) else {
            return Some(format!("{how}, and the trees disagree"));
        };
        let page = layout::lay_out(&trees, &merge, &settings().line).ok()?;
        (page.conflicts > 0 || page.text != x.as_bytes()).then(|| format!("{how}, and the trees give another text"))
    })
}

fn of_sides(s: &Scenario, check: fn(Lang, &str, &str) -> Option<String>) -> Option<String> {
    (0..2).find_map(|side| check(s.lang, &s.base, &s.side(side)))
}

#[test]
fn what_one_side_changed_or_both_alike_is_the_answer() {
    let failed: Vec<(&Scenario, String)> =
        merged().iter().filter_map(|m| Some((&m.scenario, of_sides(&m.scenario, complaint)?))).collect();
    report("k1", &failed, &|s| of_sides(s, complaint));
}

#[test]
fn the_trees_alone_give_back_what_one_side_changed() {
    let failed: Vec<(&Scenario, String)> =
        merged().iter().filter_map(|m| Some((&m.scenario, of_sides(&m.scenario, structural_complaint)?))).collect();
    report("k1-trees", &failed, &|s| of_sides(s, structural_complaint));
}
