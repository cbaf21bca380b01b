//! The descriptors in `grammars/` against the grammars they describe, and the choice of a language.

use std::collections::HashSet;

use pleach::grammar::{self, BindError, Descriptor, load};

const BUILT_IN: [(&str, &str); 3] = [
    ("Python", include_str!("../../grammars/python.toml")),
    ("Rust", include_str!("../../grammars/rust.toml")),
    ("TOML", include_str!("../../grammars/toml.toml")),
];

fn parser(language: &str) -> tree_sitter::Language {
    match language {
        "Python" => tree_sitter_python::LANGUAGE.into(),
        "Rust" => tree_sitter_rust::LANGUAGE.into(),
        _ => tree_sitter_toml_ng::LANGUAGE.into(),
    }
}

fn name_of(path: &str, content: &[u8]) -> Option<&'static str> {
    grammar::for_path(path.as_bytes(), content).map(|l| l.name())
}

#[test]
fn every_built_in_descriptor_binds_to_its_grammar() {
    for (name, text) in BUILT_IN {
        let language = load(text, parser(name)).unwrap_or_else(|e| panic!("{e}"));
        assert_eq!(language.name(), name);
        assert!(!language.descriptor.list.is_empty() && !language.descriptor.entry.is_empty());
    }
    let names: Vec<&str> = grammar::all().map(|l| l.name()).collect();
    assert_eq!(names, BUILT_IN.map(|(name, _)| name));
}

/// Not by way of the binding: by the grammar's own tables.
#[test]
fn every_kind_and_field_that_a_descriptor_names_is_in_the_grammar() {
    for (name, text) in BUILT_IN {
        let parser = parser(name);
        let kinds: HashSet<&str> = (0..parser.node_kind_count() as u16)
            .filter(|id| parser.node_kind_is_named(*id))
            .filter_map(|id| parser.node_kind_for_id(id))
            .collect();
        let signs: HashSet<&str> = (0..parser.node_kind_count() as u16)
            .filter(|id| !parser.node_kind_is_named(*id))
            .filter_map(|id| parser.node_kind_for_id(id))
            .collect();
        let d: Descriptor = toml::from_str(text).unwrap();
        let named = [&d.comments, &d.inner, &d.prefixes, &d.text, &d.joint].into_iter().flatten();
        let listed = d.list.iter().flat_map(|l| l.kinds.iter().chain(&l.entries));
        let entered = d.entry.iter().flat_map(|e| e.parents.iter().chain([&e.kind]));
        for kind in named.chain(listed).chain(entered) {
            assert!(kinds.contains(kind.as_str()), "{name}: no kind {kind}");
        }
        let tokens = d.list.iter().flat_map(|l| l.tokens.iter().map(String::as_str).chain(l.separator.as_deref()));
        for token in tokens {
            assert!(signs.contains(token), "{name}: no token {token}");
        }
        let needed = d.needs.iter().flat_map(|n| n.beside.iter().chain(&n.one_of).chain([&n.kind]));
        for kind in needed.chain(d.list.iter().flat_map(|l| &l.before)) {
            assert!(kinds.contains(kind.as_str()), "{name}: no kind {kind}");
        }
        for part in &d.governs {
            let (kind, field) = part.split_once('.').expect("a part is a kind and a field");
            assert!(kinds.contains(kind) && parser.field_id_for_name(field).is_some(), "{name}: no part {part}");
        }
        for field in d.list.iter().filter_map(|l| l.field.as_deref()).filter(|f| !f.is_empty()) {
            assert!(parser.field_id_for_name(field).is_some(), "{name}: no field {field}");
        }
        for step in d.entry.iter().flat_map(|e| &e.key).filter(|k| *k != ".").flat_map(|k| k.split('.')) {
            assert!(
                parser.field_id_for_name(step).is_some() || kinds.contains(step) || signs.contains(step),
                "{name}: no field, kind or token {step}"
            );
        }
    }
}

fn fault(descriptor: &str) -> String {
    load(descriptor, parser("Python")).map(|l| l.name().to_owned()).expect_err("must not bind").to_string()
}

#[test]
fn an_unknown_kind_is_an_error_that_names_it_wherever_it_stands() {
    for descriptor in [
        "name = 'P'\ncomments = ['coment']",
        "name = 'P'\nprefixes = ['coment']",
        "name = 'P'\ntext = ['coment']",
        "name = 'P'\njoint = ['coment']",
        "name = 'P'\ngoverns = ['coment.operator']",
        "name = 'P'\n[[needs]]\nkind = 'module'\nwhere = ['coment']\none_of = ['comment']",
        "name = 'P'\n[[list]]\nin = ['module']\nbefore = ['coment']",
        "name = 'P'\n[[list]]\nin = ['coment']",
        "name = 'P'\n[[list]]\nin = ['module']\nentries = ['coment']",
        "name = 'P'\n[[entry]]\nkind = 'coment'",
        "name = 'P'\n[[entry]]\nkind = 'pair'\nin = ['coment']",
        "name = 'P'\n[[entry]]\nkind = 'pair'\nkey = ['key.coment']",
    ] {
        let fault = fault(descriptor);
        assert!(fault.contains("`coment`") && fault.contains("P"), "{descriptor}: {fault}");
    }
}

#[test]
fn a_token_is_no_kind_and_a_kind_no_token() {
    assert!(fault("name = 'P'\n[[list]]\nin = [',']").contains("`,`"));
    assert!(fault("name = 'P'\n[[list]]\nin = ['list']\nseparator = 'comment'").contains("comment"));
}

#[test]
fn an_unknown_field_is_an_error_that_names_it() {
    for descriptor in [
        "name = 'P'\n[[list]]\nin = ['list']\nfield = 'nmae'",
        "name = 'P'\n[[entry]]\nkind = 'pair'\nkey = ['nmae']",
        "name = 'P'\n[[entry]]\nkind = 'pair'\nkey = ['key', 'nmae']",
    ] {
        let fault = fault(descriptor);
        assert!(fault.contains("`nmae`"), "{descriptor}: {fault}");
    }
}

#[test]
fn the_errors_tell_kinds_from_steps() {
    let error = |text: &str| load(text, parser("Python")).expect_err("must not bind");
    assert!(matches!(error("name = 'P'\ntext = ['x y']"), BindError::UnknownKind { name, .. } if name == "x y"));
    let step = "name = 'P'\n[[entry]]\nkind = 'pair'\nkey = ['x y']";
    assert!(matches!(error(step), BindError::UnknownStep { name, .. } if name == "x y"));
    assert!(matches!(error("name = "), BindError::Syntax(_)));
    let word = "name = 'P'\n[[word]]\ntext = 'exec'\noperator = 'not'";
    assert!(matches!(error(word), BindError::Length { word, .. } if word == "exec"));
}

#[test]
fn a_misspelled_word_of_the_vocabulary_is_an_error_that_names_it() {
    assert!(fault("name = 'P'\ncomment = ['comment']").contains("comment"));
    assert!(fault("name = 'P'\n[[list]]\nin = ['list']\nordered = false").contains("ordered"));
    assert!(fault("name = 'P'\n[[list]]\nin = ['list']\nspelling = 'loud'").contains("loud"));
    assert!(fault("comments = ['comment']").contains("name"));
}

#[test]
fn every_word_that_a_descriptor_uses_is_explained() {
    let guide = include_str!("../../DEVELOPERS.md");
    let is_word = |word: &str| word.bytes().all(|b| b.is_ascii_lowercase() || b == b'_');
    let told = |text: &'static str| text.lines().filter_map(|line| Some(line.split_once(" = ")?.0));
    let words: HashSet<&str> = BUILT_IN.into_iter().flat_map(|(_, text)| told(text)).filter(|w| is_word(w)).collect();
    assert!(words.contains("foremost") && words.contains("entries"));
    let explained = |word: &&str| guide.contains(&format!("`{word}`")) || guide.contains(&format!("`{word} = "));
    let unknown: Vec<&str> = words.into_iter().filter(|word| !explained(word)).collect();
    assert_eq!(unknown, Vec::<&str>::new());
}

#[test]
fn the_language_is_chosen_by_the_ending_of_the_path() {
    for (path, language) in [
        ("a.py", Some("Python")),
        ("src/deep/a.pyi", Some("Python")),
        ("a.rs", Some("Rust")),
        ("pyproject.toml", Some("TOML")),
        ("Cargo.toml", Some("TOML")),
        ("a.b.rs", Some("Rust")),
        (".py", Some("Python")),
        ("a.txt", None),
        ("py", None),
        ("rs", None),
        ("a.py/b", None),
        ("a.pyx", None),
        ("a.py ", None),
        ("", None),
    ] {
        assert_eq!(name_of(path, b""), language, "{path:?}");
    }
}

#[test]
fn the_case_of_the_ending_does_not_matter() {
    assert_eq!(name_of("A.PY", b""), Some("Python"));
    assert_eq!(name_of("a.Rs", b""), Some("Rust"));
    assert_eq!(name_of("A.TOML", b""), Some("TOML"));
}

#[test]
fn endings_are_written_in_lower_case_in_the_descriptors() {
    let endings: Vec<&String> = grammar::all().flat_map(|l| &l.descriptor.extensions).collect();
    assert!(endings.len() > 2, "{endings:?}");
    assert!(endings.iter().all(|ending| **ending == ending.to_ascii_lowercase()), "{endings:?}");
}

#[test]
fn the_descriptors_in_the_program_say_what_those_in_the_folder_say() {
    for language in grammar::all() {
        let path = format!("grammars/{}.toml", language.name().to_lowercase());
        let written = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path}: {e}"));
        let written: grammar::Descriptor = toml::from_str(&written).unwrap_or_else(|e| panic!("{path}: {e}"));
        assert_eq!(format!("{:?}", language.descriptor), format!("{written:?}"), "{path}");
    }
}

#[test]
fn some_files_are_known_by_their_whole_name() {
    for name in ["Cargo.lock", "crates/a/Cargo.lock", "uv.lock", "poetry.lock"] {
        assert_eq!(name_of(name, b""), Some("TOML"), "{name}");
    }
    assert_eq!(name_of("other.lock", b""), None);
    assert_eq!(name_of("cargo.lock", b""), None);
}

#[test]
fn a_path_is_bytes_and_need_not_be_text() {
    assert_eq!(grammar::for_path(b"caf\xe9.py", b"").map(|l| l.name()), Some("Python"));
    assert_eq!(grammar::for_path(b"\xff\xfe", b"").map(|l| l.name()), None);
}

#[test]
fn a_shebang_line_chooses_where_the_path_does_not() {
    for (line, language) in [
        ("#!/usr/bin/python\n", Some("Python")),
        ("#!/usr/bin/python3\n", Some("Python")),
        ("#!/usr/bin/python3.11 -u\n", Some("Python")),
        ("#! /usr/bin/env python3\n", Some("Python")),
        ("#!/usr/bin/env -S python3 -u\n", Some("Python")),
        ("#!/usr/bin/env LANG=C python3\n", Some("Python")),
        ("#!/usr/bin/env python3\r\n", Some("Python")),
        ("#!/usr/bin/env rust-script\n", Some("Rust")),
        ("#!/bin/sh\n", None),
        ("#!/usr/bin/env\n", None),
        ("#!\n", None),
        ("#!", None),
        ("#!/usr/bin/pythonista\n", None),
        (" #!/usr/bin/python\n", None),
        ("\n#!/usr/bin/python\n", None),
    ] {
        assert_eq!(name_of("bin/tool", line.as_bytes()), language, "{line:?}");
    }
    assert_eq!(grammar::for_path(b"tool", b"#!/usr/bin/python\xff\n").map(|l| l.name()), None);
}

#[test]
fn the_path_outweighs_the_shebang_line() {
    assert_eq!(name_of("a.rs", b"#!/usr/bin/env python3\n"), Some("Rust"));
}

#[test]
fn a_language_has_the_names_that_linguist_gives_it_in_any_case() {
    for (name, language) in [("Python", "Python"), ("python", "Python"), ("RUST", "Rust"), ("toml", "TOML")] {
        assert_eq!(grammar::by_name(name).map(|l| l.name()), Some(language), "{name}");
    }
    assert!(grammar::by_name("Pyth").is_none());
    assert!(grammar::by_name("").is_none());
}

#[test]
fn lock_files_have_a_command_that_writes_them_again_and_others_have_none() {
    let command =
        |path: &str| grammar::for_path(path.as_bytes(), b"").and_then(|l| l.regenerate_command(path.as_bytes()));
    assert!(command("Cargo.lock").is_some_and(|c| c.starts_with("cargo ")));
    assert!(command("a/uv.lock").is_some_and(|c| c.starts_with("uv ")));
    assert!(command("poetry.lock").is_some_and(|c| c.starts_with("poetry ")));
    assert_eq!(command("Cargo.toml"), None);
    assert_eq!(command("my-Cargo.lock"), None);
}
