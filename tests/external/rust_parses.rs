//! Merged Rust, as `syn` reads it: a parser of its own, used by most procedural macros.

use pleach::{Settings, merge};

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
