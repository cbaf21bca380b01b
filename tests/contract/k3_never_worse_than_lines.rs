//! K3: where git's line merge is clean and sound, its text is the answer, byte for byte. Where it
//! conflicts, the answer has no more conflicted lines, and no more blocks unless it has fewer lines;
//! otherwise the line merge is the answer.
//!
//! Git itself is the measure: `git merge-file`.

use std::io::Write;
use std::process::{Command, Stdio};
use std::{fs, path::Path};

use pleach::line::{self, LineSettings, Style};
use pleach::{Answer, Settings, Versions, Way, merge};

use super::edited::scenario::{Scenario, report};
use super::edited::{Lang, blocks, trees};
use super::merged::{answer, in_parallel, merged, settings};

#[test]
fn git_is_never_better() {
    check_style("k3", &[], Style::Merge);
}

#[test]
fn git_is_never_better_in_the_other_conflict_styles() {
    check_style("k3-diff3", &["--diff3"], Style::Diff3);
    check_style("k3-zdiff3", &["--zdiff3"], Style::ZDiff3);
}

fn check_style(name: &str, options: &[&str], style: Style) {
    let settings = Settings { line: LineSettings { style, ..settings().line }, ..settings() };
    let answer = |s: &Scenario| merge(s.texts().as_ref().map(String::as_bytes), s.lang.language(), &settings);
    let wrong = |s: &Scenario| complaint(s, &answer(s), &git_merge_file(s, options));
    if style == Style::Merge {
        // Their answers are at hand.
        let found = in_parallel(merged(), |m| complaint(&m.scenario, &m.answer, &git_merge_file(&m.scenario, options)));
        let failed: Vec<(&Scenario, String)> =
            merged().iter().zip(found).filter_map(|(m, why)| Some((&m.scenario, why?))).collect();
        return report(name, &failed, &wrong);
    }
    // Styles show only in conflicts.
    let conflicted: Vec<&Scenario> =
        merged().iter().filter(|m| m.answer.conflicts > 0).map(|m| &m.scenario).step_by(2).collect();
    assert!(conflicted.len() > 20, "only {} scenarios conflict", conflicted.len());
    let found = in_parallel(&conflicted, |s| wrong(s));
    let failed: Vec<(&Scenario, String)> =
        conflicted.iter().zip(found).filter_map(|(s, why)| Some((*s, why?))).collect();
    report(name, &failed, &wrong);
}

fn complaint(s: &Scenario, answer: &Answer, (text, verdict): &(Vec<u8>, i32)) -> Option<String> {
    let (blocks, lines) = match blocks::count(&answer.text) {
        Ok(count) => count,
        Err(e) => return Some(format!("the answer's conflict blocks are broken: {e}")),
    };
    if blocks != answer.conflicts {
        return Some(format!("the answer says {} conflicts and holds {blocks}", answer.conflicts));
    }
    if answer.text == *text {
        return None;
    }
    if *verdict == 0 {
        return (!unsound(s, text))
            .then(|| format!("git's clean and sound merge is not the answer {:?}", answer.notes));
    }
    let (git_blocks, git_lines) = blocks::count(text).expect("git's blocks are whole");
    if lines > git_lines {
        return Some(format!("{lines} conflicted lines, git has {git_lines}"));
    }
    if blocks > git_blocks && lines >= git_lines {
        return Some(format!("{blocks} blocks with {lines} lines, git has {git_blocks} with {git_lines}"));
    }
    None
}

/// Where lines leave less in dispute than the trees, and no conflict by itself is left to these either, the answer is the
/// line merge, and says so.
#[test]
fn an_answer_that_is_the_line_merge_says_so_and_why() {
    let levels =
        "LEVELS = r'''\n{\n    \"tides of the day\": {\n        \"the first value\": \"a level\"\n    }\n}\n'''\n";
    let rule = "# ---------\n";
    let base = format!("{rule}{levels}");
    let ours = format!("{rule}\n\ndef depth(value):\n    return value + 27\n\n");
    let texts = Versions { base, ours, theirs: format!("{rule}\n{levels}") };
    let answer = answer(Lang::Python, &texts);
    assert_eq!(answer.text, line::merge(texts.as_ref().map(String::as_bytes), &settings().line).text);
    assert_eq!((answer.conflicts, answer.way), (1, Way::Lines));
    assert!(
        answer.notes.iter().any(|note| note.contains("lines would be in conflict instead of")),
        "{:?}",
        answer.notes
    );
}

/// Whether a merged text does not parse though all versions do, or repeats or orders names as neither
/// side did.
fn unsound(s: &Scenario, text: &[u8]) -> bool {
    let texts = s.texts();
    let [base, ours, theirs] = [&texts.base, &texts.ours, &texts.theirs].map(|t| trees::parses(s.lang, t.as_bytes()));
    if !(base && ours && theirs) {
        return false;
    }
    if !trees::parses(s.lang, text) || s.lang == Lang::Python && python_refuses(&texts, text) {
        return true;
    }
    trees::repeated(s.lang, texts.as_ref().map(String::as_bytes), text).is_some()
}

/// Whether CPython reads all versions, but not a merged text: the grammar forgives more than the language, such as an
/// empty body, or an argument behind those with a name.
fn python_refuses(texts: &Versions<String>, text: &[u8]) -> bool {
    const READS: &str =
        "import ast, sys, warnings\nwarnings.simplefilter('ignore')\nast.parse(sys.stdin.buffer.read())";
    let reads = |text: &[u8]| {
        let mut python = Command::new("python3")
            .args(["-I", "-c", READS])
            .stdin(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("python3 is needed: this test asks it");
        python.stdin.take().expect("it is piped").write_all(text).expect("python reads all of it");
        python.wait().expect("python ends by itself").success()
    };
    !reads(text) && [&texts.base, &texts.ours, &texts.theirs].into_iter().all(|text| reads(text.as_bytes()))
}

#[test]
fn python_refuses_what_the_grammar_forgives_and_nothing_else() {
    let texts = |base: &str| Versions { base: base.to_owned(), ours: base.to_owned(), theirs: base.to_owned() };
    let (tide, call) = ("def tide():\n    pass\n", "plot(tide, unit='m')\n");
    assert!(python_refuses(&texts(tide), b"def tide():\n"));
    assert!(python_refuses(&texts(call), b"plot(unit='m', tide)\n"));
    assert!(!python_refuses(&texts(tide), call.as_bytes()));
    assert!(!python_refuses(&texts("def tide():\n"), b"def level():\n"));
}

/// What `git merge-file` makes of it, and its exit status.
fn git_merge_file(s: &Scenario, options: &[&str]) -> (Vec<u8>, i32) {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let texts = s.texts();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).expect("a file");
    write("base", &texts.base);
    write("ours", &texts.ours);
    write("theirs", &texts.theirs);
    run(folder.path(), options)
}

fn run(folder: &Path, options: &[&str]) -> (Vec<u8>, i32) {
    let output = Command::new("git")
        .current_dir(folder)
        .env("GIT_CONFIG_NOSYSTEM", "1")
        .env("GIT_CONFIG_GLOBAL", "/dev/null")
        .args(["merge-file", "-p", "-q", "--diff-algorithm=histogram"])
        .args(options)
        .args(["-L", "ours", "-L", "base", "-L", "theirs", "ours", "base", "theirs"])
        .output()
        .expect("git runs");
    let status = output.status.code().expect("git ends by itself");
    assert!((0..=127).contains(&status), "git merge-file: {}", String::from_utf8_lossy(&output.stderr));
    (output.stdout, status)
}
