//! Asking CPython: one process for many questions, JSON in and JSON out.

use std::io::Write;
use std::process::{Command, Stdio};

use serde_json::Value;

/// Runs a program that defines `check(question)`, and gives its answer to each question: null where all
/// is well, else what is wrong.
pub fn ask(program: &str, questions: &Value) -> Vec<Option<String>> {
    let whole = format!(
        "import json, sys, warnings\nwarnings.simplefilter('ignore')\n{program}\n\
         json.dump([check(q) for q in json.load(sys.stdin)], sys.stdout)\n"
    );
    let mut child = Command::new("python3")
        .args(["-I", "-c", &whole])
        .env("PYTHONUTF8", "1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|e| {
            panic!("python3 (3.11 or newer, for tomllib) must be in PATH: these tests ask CPython. {e}")
        });
    let mut stdin = child.stdin.take().expect("stdin is piped");
    let input = serde_json::to_vec(questions).expect("JSON");
    let output = std::thread::scope(|scope| {
        // Not before reading: both pipes would fill up.
        scope.spawn(move || stdin.write_all(&input));
        child.wait_with_output().expect("python3 ends")
    });
    assert!(output.status.success(), "python3 failed:\n{}", String::from_utf8_lossy(&output.stderr));
    let answers: Vec<Option<String>> = serde_json::from_slice(&output.stdout).expect("a list of answers");
    assert_eq!(answers.len(), questions.as_array().map_or(0, Vec::len), "an answer to every question");
    answers
}

/// A question over three versions and their merge, as text, with what is wrong.
pub fn shown(question: &Value, why: &str) -> String {
    let text = |of: &str| question[of].as_str().unwrap_or_default();
    let [base, ours, theirs, answer] = ["base", "ours", "theirs", "answer"].map(text);
    format!("seed {}: {why}\n{base}--\n{ours}--\n{theirs}==\n{answer}", question["seed"])
}

#[test]
fn python_answers_every_question() {
    let answers = ask("def check(q):\n    return None if q == 1 else repr(q)", &serde_json::json!([1, "é"]));
    assert_eq!(answers, [None, Some("'é'".to_owned())]);
}
