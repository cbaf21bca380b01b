//! Merged Rust, as `syn` reads it: a parser of its own, used by most procedural macros.

use pleach::line::{self, LineSettings};
use pleach::{Settings, Versions, merge};

use super::edited::Lang;
use super::python_parses::fresh;

fn fault(text: &str) -> Option<String> {
    syn::parse_file(text).err().map(|e| e.to_string())
}

#[test]
fn clean_answers_parse_where_all_versions_do() {
    let (mut fit, mut wrong) = (0, Vec::new());
    for s in fresh(Lang::Rust, 400) {
        let texts = s.texts();
        let answer = merge(texts.as_ref().map(String::as_bytes), s.lang.language(), &Settings::default());
        if answer.conflicts > 0 || [&texts.base, &texts.ours, &texts.theirs].iter().any(|t| fault(t).is_some()) {
            continue;
        }
        fit += 1;
        if let Some(fault) = fault(&String::from_utf8(answer.text).expect("text")) {
            s.keep("external-rust");
            wrong.push(format!("{}: {fault}", s.describe()));
        }
    }
    assert!(wrong.is_empty(), "{} of {fit} do not parse:\n{}", wrong.len(), wrong[..wrong.len().min(10)].join("\n"));
    assert!(fit > 100, "only {fit} clean answers to look at");
}

#[test]
fn the_check_itself_finds_what_does_not_parse() {
    assert!(fault("fn f() { 1 + }").is_some());
    assert_eq!(fault("fn f() { 1 + 2; }"), None);
}

/// An attribute of what it stands in comes before all else there (The Rust Reference, "Attributes"): where lines put it
/// below what the other side put in, `syn` takes the line merge for no Rust, and pleach must not let it pass.
#[test]
fn an_attribute_of_what_is_around_it_comes_first() {
    let file =
        |attribute: &str, above: &str| format!("{above}// Tides.\n\n{attribute}use tide::Level;\n\nfn low() {{}}\n");
    let module = |attribute: &str, above: &str| {
        format!("mod board {{\n{above}    // Tides.\n\n{attribute}    use tide::Level;\n}}\n")
    };
    let both = [(&file as &dyn Fn(&str, &str) -> String, ["#![deny(unused)]\n", "use quay::Quay;\n"])];
    let inner = [(&module as &dyn Fn(&str, &str) -> String, ["    #![deny(unused)]\n", "    use quay::Quay;\n"])];
    for (text, [attribute, above]) in both.into_iter().chain(inner) {
        let [base, ours, theirs] = [text("", ""), text(attribute, ""), text("", above)];
        let versions = Versions { base: base.as_bytes(), ours: ours.as_bytes(), theirs: theirs.as_bytes() };
        let lines = line::merge(versions, &LineSettings::default());
        assert_eq!(lines.conflicts, 0, "the line merge must be clean, or nothing is tested");
        assert!(fault(&String::from_utf8_lossy(&lines.text)).is_some(), "`syn` takes the line merge");
        let answer = merge(versions, Lang::Rust.language(), &Settings::default());
        let text = String::from_utf8_lossy(&answer.text);
        assert!(answer.conflicts > 0 || fault(&text).is_none(), "clean, and no Rust:\n{text}");
    }
}
