//! What lines tell, held against what the grammars read.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use super::outline::{LineKind, lines};
use super::*;
use crate::grammar::{self, Language};
use crate::syntax::Parsed;

fn language(extension: &str) -> &'static Language {
    grammar::for_path(format!("tides.{extension}").as_bytes(), b"").expect("a built-in language")
}

fn rules(extension: &str) -> &'static Outline {
    language(extension).descriptor.outline.as_ref().expect("lines tell of it")
}

/// Reads lines that a margin precedes with what each should be: `#`, a comment; `s`, a statement, `l`, if it belongs to
/// the next; `}`, a part or the end of one; nothing, anything else.
fn assert_read(extension: &str, with_margin: &str) {
    let text: String =
        with_margin.lines().map(|line| format!("{}\n", line.split_once('|').expect("a margin").1)).collect();
    let found = lines(text.as_bytes(), rules(extension)).expect("lines tell of it");
    let margin = |line: &Line| match line.kind {
        LineKind::Comment => "#",
        LineKind::Statement if line.leads => "l",
        LineKind::Statement => "s",
        LineKind::Clause => "}",
        LineKind::Blank | LineKind::Inside => " ",
    };
    let found: String = found.iter().map(|line| format!("{}|{}", margin(line), &text[line.span.clone()])).collect();
    assert_eq!(found, format!("{with_margin}\n"));
}

#[test]
fn items_of_rust_begin_where_others_end() {
    assert_read(
        "rs",
        r#"#|//! Tides.
s|use tides::{
 |    High,
 |};
 |
l|#[derive(Debug)]
s|pub(crate) struct Gauge<'g> {
 |    name: &'g str,
 |}
 |
s|impl<'g> Gauge<'g>
 |where
 |    'g: 'static,
 |{
#|    // The quay's own.
l|    #[cfg(
 |        quay
 |    )]
s|    fn level(&self) -> f32 {
s|        let name = self.name;
s|        match name {
 |            "a" => 1.0,
 |            _ => 2.0,
 |        }
}|    }
 |
s|    fn flood(&self) -> bool { self.level() > 1.0 }
}|}
s|const LOW: f32 =
 |    0.5;
s|static GAUGE: Gauge = Gauge { name: "a" }
 |    .calm();"#,
    );
}

/// The Rust Reference, "Tokens" and "Comments".
#[test]
fn literals_and_comments_of_rust_hide_what_they_hold() {
    assert_read(
        "rs",
        r###"s|fn signs() {
s|    let open = ['{', '\'', '"', '\u{7b}', b'{' as char, 'é'];
s|    let raw = r#"a quote " and a brace { and \"#;
s|    let text = "two \" lines {
 |        of text }";
s|    let life: &'static str = br"\".len();
 |    /* a brace { and /* another { */ " */
s|    let r = "{";
}|}"###,
    );
}

#[test]
fn lines_of_python_that_go_on_are_no_statements() {
    assert_read(
        "py",
        r#"s|def level(name,
 |          unit='m'):
s|    low = 1 + \
 |        2
l|    @cached(
 |        60)
#|    # Not for long.
s|    def high(): return '{'
}|else:
s|    x = """ {
 |    """"#,
    );
}

#[test]
fn a_text_may_end_with_a_backslash() {
    assert!(lines(b"low = 1 \\", rules("py")).is_some());
    assert!(lines(b"let low = \"\\", rules("rs")).is_none());
}

#[test]
fn what_an_excerpt_keeps_and_what_it_leaves_out_parse_and_are_the_whole() {
    for (extension, sources) in [("rs", own_sources()), ("py", standard_library())] {
        let (mut excerpts, mut left_out) = (0, 0);
        for (number, path) in sources.iter().enumerate() {
            let Ok(text) = fs::read_to_string(path) else { continue };
            let text = if number % 3 == 0 { text.replace('\n', "\r\n") } else { text };
            let middle = line::lines(&text.as_bytes()[..text.len() / 2]).iter().map(|l| l.len()).sum();
            let at = || Versions::each(|_| middle..middle);
            let open = Place { at: at(), ours: middle..middle, open: true, ..Place::default() };
            let texts = Versions::each(|_| text.as_bytes());
            let Some(excerpt) = Excerpt::of(texts, text.as_bytes(), &[open], rules(extension)) else { continue };
            let parses = |text: &[u8]| Parsed::new(text, language(extension)).is_ok();
            let shown = |text: &[u8]| format!("{}:\n{}", path.display(), String::from_utf8_lossy(text));
            assert!(parses(&excerpt.ours), "{}", shown(&excerpt.ours));
            for part in excerpt.left_out() {
                assert!(parses(&part), "{}", shown(&part));
            }
            let page = Page::default().moved(excerpt.ours.clone(), Vec::new());
            assert_eq!(excerpt.restored(page).expect("all is there").text, text.as_bytes(), "{}", path.display());
            excerpts += 1;
            left_out += excerpt.left_out.len();
        }
        let share = excerpts as f32 / sources.len() as f32;
        assert!(share > 0.5 && left_out > excerpts, "{share} of {} sources in .{extension}", sources.len());
    }
}

/// Ours, since they are always there.
fn own_sources() -> Vec<PathBuf> {
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), "rs", 4000)
}

/// Those of CPython.
fn standard_library() -> Vec<PathBuf> {
    let find = ["-c", "import sysconfig; print(sysconfig.get_paths()['stdlib'])"];
    let output = Command::new("python3").args(find).output().expect("python3 runs");
    let root = String::from_utf8(output.stdout).expect("a path");
    sources(Path::new(root.trim()), "py", 4000)
}

/// The files in a folder of at least so many bytes.
fn sources(root: &Path, extension: &str, least: u64) -> Vec<PathBuf> {
    let entries = fs::read_dir(root).expect("a folder").flatten();
    let mut found: Vec<PathBuf> = Vec::new();
    for path in entries.map(|entry| entry.path()) {
        if path.is_dir() && extension == "rs" {
            found.extend(sources(&path, extension, least));
        } else if path.extension().is_some_and(|e| e == extension) && path.metadata().is_ok_and(|m| m.len() >= least) {
            found.push(path);
        }
    }
    found
}
