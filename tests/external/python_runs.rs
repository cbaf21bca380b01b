//! Whether a merged program runs, as CPython runs it (the Python Language Reference, 4.2.2 "Resolution of names": a name
//! that is not found is a `NameError`).

use pleach::{Settings, Versions, Way, merge};
use serde_json::json;

use super::edited::Lang;
use super::edited::rng::Rng;
use super::python::ask;

const ORACLE: &str = r#"
import contextlib

def stops(text):
    known = {'log': lambda *said: None, 'lock': lambda number: contextlib.nullcontext()}
    try:
        exec(compile(text, 'tides', 'exec'), known)
    except Exception as stopped:
        return f'{type(stopped).__name__}: {stopped}'

def check(q):
    if any(stops(q[version]) for version in ('base', 'ours', 'theirs')):
        return 'unfit'
    return stops(q['merged'])
"#;

/// A statement, with what stands in it.
#[derive(Clone)]
enum Statement {
    /// A function that calls nothing: its number, and what it adds.
    Function(usize, usize),
    /// A value by its number, made of what is known above it.
    Value(usize, String),
    Log(String),
    With(usize, Vec<Statement>),
}

use Statement::{Function, Log, Value, With};

fn write(statements: &[Statement], depth: usize, text: &mut String) {
    let indent = "    ".repeat(depth);
    for statement in statements {
        match statement {
            Function(number, add) => {
                let gap = if text.is_empty() { "" } else { "\n\n" };
                text.push_str(&format!(
                    "{gap}{indent}def tide_{number}(level=1):\n{indent}    low = level + {add}\n{indent}    return low\n\n\n"
                ));
            }
            Value(number, of) => text.push_str(&format!("{indent}level_{number} = {of}\n")),
            Log(of) => text.push_str(&format!("{indent}log({of})\n")),
            With(number, inner) => {
                text.push_str(&format!("{indent}with lock({number}):\n"));
                write(inner, depth + 1, text);
            }
        }
    }
}

fn text(statements: &[Statement]) -> String {
    let mut text = String::new();
    write(statements, 0, &mut text);
    while text.contains("\n\n\n\n") {
        text = text.replace("\n\n\n\n", "\n\n\n");
    }
    format!("{}\n", text.trim_end())
}

/// The names that some statements declare, as they are used.
fn known(statements: &[Statement]) -> Vec<String> {
    let names = |statement: &Statement| match statement {
        Function(number, _) => vec![format!("tide_{number}()"), format!("tide_{number}({number})")],
        Value(number, _) => vec![format!("level_{number}")],
        Log(_) => Vec::new(),
        With(_, inner) => known(inner),
    };
    statements.iter().flat_map(names).collect()
}

/// A statement that uses what stands above it.
fn statement(rng: &mut Rng, above: &[Statement], number: &mut usize) -> Statement {
    *number += 1;
    let names = known(above);
    let of = match rng.pick(&names) {
        Some(name) if rng.chance(80) => format!("{name} + {}", rng.below(90)),
        _ => format!("{}", rng.below(900)),
    };
    match rng.below(10) {
        0..3 => Function(*number, rng.below(900)),
        3..6 => Value(*number, of),
        _ => Log(of),
    }
}

/// What a side does to a program, near a place.
fn edit(rng: &mut Rng, program: &mut Vec<Statement>, near: usize, number: &mut usize) {
    let at = (near + rng.below(3)).min(program.len() - 1);
    match rng.below(6) {
        0 | 1 => {
            let new = statement(rng, &program[..at], number);
            program.insert(at, new);
        }
        2 => {
            let moved = program.remove(at);
            program.insert(rng.below(program.len() + 1), moved);
        }
        3 if program.len() > 2 => drop(program.remove(at)),
        4 => {
            let inner: Vec<Statement> = program.drain(at..(at + 2).min(program.len())).collect();
            *number += 1;
            program.insert(at, With(*number, inner));
        }
        _ => {
            if let With(_, inner) = &mut program[at] {
                let new = statement(rng, &[], number);
                inner.insert(0, new);
            }
        }
    }
}

/// The same with a function of another name.
fn renamed(rng: &mut Rng, text: &str, number: usize) -> String {
    match rng.chance(20) {
        true => text.replace(&format!("tide_{}(", rng.below(number)), &format!("gauge_{number}(")),
        false => text.to_owned(),
    }
}

/// A class with what its methods do, line by line, and what is called of it.
#[derive(Clone)]
struct Board {
    set: Vec<String>,
    methods: Vec<(String, Vec<String>)>,
}

impl Board {
    fn new(rng: &mut Rng, number: &mut usize) -> Board {
        let mut board = Board { set: Vec::new(), methods: Vec::new() };
        (0..2 + rng.below(3)).for_each(|_| board.set_one(rng, number));
        (0..2 + rng.below(2)).for_each(|_| board.add_method(rng, number));
        board
    }

    fn text(&self) -> String {
        let mut text = "class Board:\n    def __init__(self, level):\n".to_owned();
        self.set.iter().for_each(|name| text.push_str(&format!("        self.{name} = level\n")));
        for (name, lines) in &self.methods {
            text.push_str(&format!("\n    def {name}(self):\n"));
            lines.iter().for_each(|line| text.push_str(&format!("        {line}\n")));
        }
        text.push_str("\n\nboard = Board(1)\n");
        self.methods.iter().for_each(|(name, _)| text.push_str(&format!("log(board.{name}())\n")));
        text
    }

    fn set_one(&mut self, rng: &mut Rng, number: &mut usize) {
        *number += 1;
        let at = rng.below(self.set.len() + 1);
        self.set.insert(at, format!("gauge_{number}"));
    }

    fn line(&self, rng: &mut Rng) -> String {
        match rng.pick(&self.set) {
            Some(name) if rng.chance(80) => format!("log(self.{name} + {})", rng.below(90)),
            _ => format!("log({})", rng.below(900)),
        }
    }

    fn add_method(&mut self, rng: &mut Rng, number: &mut usize) {
        *number += 1;
        let lines = (0..1 + rng.below(3)).map(|_| self.line(rng)).collect();
        let at = rng.below(self.methods.len() + 1);
        self.methods.insert(at, (format!("tide_{number}"), lines));
    }

    fn edit(&mut self, rng: &mut Rng, near: usize, number: &mut usize) {
        let method = near % self.methods.len();
        match rng.below(6) {
            0 => self.set_one(rng, number),
            1 | 2 => {
                let line = self.line(rng);
                let lines = &mut self.methods[method].1;
                lines.insert(rng.below(lines.len() + 1), line);
            }
            3 => self.add_method(rng, number),
            // The attribute has another name, wherever it is.
            4 => {
                *number += 1;
                let at = rng.below(self.set.len());
                let old = std::mem::replace(&mut self.set[at], format!("gauge_{number}"));
                let lines = self.methods.iter_mut().flat_map(|(_, lines)| lines);
                lines.for_each(|line| *line = line.replace(&format!("self.{old} "), &format!("self.gauge_{number} ")));
            }
            _ => {
                *number += 1;
                self.methods[method].0 = format!("tide_{number}");
            }
        }
    }
}

/// Merges programs and has the answers run: where lines conflict and the merge as syntax does not, three that run make one
/// that does.
fn check(of: impl Iterator<Item = [String; 3]>) {
    let mut questions = Vec::new();
    for texts in of {
        let [base, ours, theirs] = texts.each_ref().map(String::as_bytes);
        let answer = merge(Versions { base, ours, theirs }, Lang::Python.language(), &Settings::default());
        if answer.conflicts == 0 && matches!(answer.way, Way::Trees) {
            let merged = String::from_utf8(answer.text).unwrap();
            let [base, ours, theirs] = texts;
            questions.push(json!({ "base": base, "ours": ours, "theirs": theirs, "merged": merged }));
        }
    }
    let answers = ask(ORACLE, &json!(questions));
    let fit = answers.iter().filter(|answer| answer.as_deref() != Some("unfit")).count();
    assert!(fit >= 500, "only {fit} of {} are programs that run", answers.len());
    let stopped = questions.iter().zip(&answers).filter_map(|(q, answer)| {
        let why = answer.as_deref().filter(|why| *why != "unfit")?;
        let version = |name: &str| format!("--- {name}\n{}", q[name].as_str().unwrap());
        Some(format!("{why}\n{}", ["base", "ours", "theirs", "merged"].map(version).concat()))
    });
    let stopped: Vec<String> = stopped.collect();
    assert!(stopped.is_empty(), "{} of {fit} stop, the first:\n{}", stopped.len(), stopped[0]);
}

#[test]
fn statements_that_run_make_a_program_that_does() {
    let mut rng = Rng::new(407);
    let programs = (0..6_000).map(|_| {
        let (mut base, mut number) = (Vec::new(), 0);
        for _ in 0..4 + rng.below(4) {
            let new = statement(&mut rng, &base, &mut number);
            base.push(new);
        }
        let near = rng.below(base.len());
        let [ours, theirs] = [(); 2].map(|()| {
            let mut program = base.clone();
            (0..1 + rng.below(3)).for_each(|_| edit(&mut rng, &mut program, near, &mut number));
            renamed(&mut rng, &text(&program), number)
        });
        [text(&base), ours, theirs]
    });
    check(programs);
}

#[test]
fn classes_that_run_make_a_program_that_does() {
    let mut rng = Rng::new(408);
    let programs = (0..3_000).map(|_| {
        let mut number = 0;
        let base = Board::new(&mut rng, &mut number);
        let near = rng.below(9);
        let [ours, theirs] = [(); 2].map(|()| {
            let mut board = base.clone();
            (0..1 + rng.below(3)).for_each(|_| board.edit(&mut rng, near, &mut number));
            board.text()
        });
        [base.text(), ours, theirs]
    });
    check(programs);
}
