//! Whether a merged program compiles, as `rustc` tells (The Rust Reference, "Scopes", "Call expressions"): it knows where each
//! name is known, and what each function takes.

use std::fmt::Write;
use std::process::Command;

use pleach::{Settings, Versions, Way, merge};

use super::edited::Lang;
use super::edited::rng::Rng;

/// A value: what is added up in it.
type Value = Vec<Term>;

#[derive(Clone, Copy, PartialEq)]
enum Term {
    Number(usize),
    Variable(usize),
    /// A function or a constant, by its place in [`Program::known`].
    Item(usize),
}

#[derive(Clone)]
enum Line {
    Let(usize, Value),
    Log(Value),
    Block(usize, Vec<Line>),
}

#[derive(Clone)]
struct Function {
    item: usize,
    lines: Vec<Line>,
    /// Whether it stands in a module of its own, from which it is imported.
    walled: bool,
}

/// What a side does to whole functions.
#[derive(Clone, Copy)]
enum Does {
    Rename,
    WallOff,
    TakeMore,
    Neither,
}

/// A program that compiles.
#[derive(Clone)]
struct Program {
    /// What each item is called, and how many arguments it takes, if it is a function.
    known: Vec<(String, Option<usize>)>,
    functions: Vec<Function>,
}

impl Program {
    fn text(&self) -> String {
        let mut text = String::new();
        for function in self.functions.iter().filter(|function| function.walled) {
            let name = &self.known[function.item].0;
            writeln!(text, "use quay_{}::{name};", function.item).unwrap();
        }
        for (name, _) in self.known.iter().filter(|(_, takes)| takes.is_none()) {
            writeln!(text, "const {name}: u32 = 4;").unwrap();
        }
        for function in &self.functions {
            let (name, takes) = &self.known[function.item];
            let takes: Vec<String> = (0..takes.unwrap_or(0)).map(|at| format!("port_{at}: u32")).collect();
            let depth = usize::from(function.walled);
            let (indent, head) = ("    ".repeat(depth), if function.walled { "pub fn" } else { "fn" });
            text.push('\n');
            if function.walled {
                writeln!(text, "mod quay_{} {{", function.item).unwrap();
            }
            writeln!(text, "{indent}{head} {name}({}) -> u32 {{", takes.join(", ")).unwrap();
            self.write(&function.lines, depth + 1, &mut text);
            writeln!(text, "{indent}    7\n{indent}}}").unwrap();
            if function.walled {
                text.push_str("}\n");
            }
        }
        text
    }

    fn write(&self, lines: &[Line], depth: usize, text: &mut String) {
        let indent = "    ".repeat(depth);
        for line in lines {
            match line {
                Line::Let(number, value) => {
                    writeln!(text, "{indent}let low_{number} = {};", self.value(value)).unwrap()
                }
                // To the parser, what a macro is given is tokens.
                Line::Log(value) if matches!(value[..], [Term::Number(number), ..] if number % 2 == 0) => {
                    writeln!(text, "{indent}println!(\"{{}}\", {});", self.value(value)).unwrap()
                }
                Line::Log(value) => writeln!(text, "{indent}drop({});", self.value(value)).unwrap(),
                Line::Block(number, inner) => {
                    writeln!(text, "{indent}if {number} > 2 {{").unwrap();
                    self.write(inner, depth + 1, text);
                    writeln!(text, "{indent}}}").unwrap();
                }
            }
        }
    }

    fn value(&self, value: &Value) -> String {
        let term = |term: &Term| match term {
            Term::Number(number) => number.to_string(),
            Term::Variable(number) => format!("low_{number}"),
            Term::Item(item) => match &self.known[*item] {
                (name, Some(takes)) => format!("{name}({})", vec!["1"; *takes].join(", ")),
                (name, None) => name.clone(),
            },
        };
        value.iter().map(term).collect::<Vec<_>>().join(" + ")
    }

    fn add_item(&mut self, name: String, takes: Option<usize>) -> usize {
        self.known.push((name, takes));
        self.known.len() - 1
    }

    fn add_function(&mut self, rng: &mut Rng, number: &mut usize) {
        *number += 1;
        let item = self.add_item(format!("tide_{number}"), Some(rng.below(2)));
        let mut lines = Vec::new();
        for _ in 0..2 + rng.below(3) {
            let line = self.line(rng, &lines, false, number);
            lines.push(line);
        }
        self.functions.insert(rng.below(self.functions.len() + 1), Function { item, lines, walled: false });
    }

    /// A line that uses what is known below some others, or in a wall around them.
    fn line(&self, rng: &mut Rng, above: &[Line], walled: bool, number: &mut usize) -> Line {
        *number += 1;
        let variables = above.iter().filter_map(|line| match line {
            Line::Let(number, _) => Some(Term::Variable(*number)),
            _ => None,
        });
        let items = (0..self.known.len()).filter(|_| !walled).map(Term::Item);
        let known: Vec<Term> = variables.chain(items).collect();
        let mut value = vec![Term::Number(rng.below(90))];
        value.extend(rng.pick(&known).copied().filter(|_| rng.chance(80)));
        if rng.chance(40) { Line::Let(*number, value) } else { Line::Log(value) }
    }

    fn edit(&mut self, rng: &mut Rng, near: usize, does: Does, number: &mut usize) {
        *number += 1;
        let new = *number;
        let at = if rng.chance(70) { near % self.functions.len() } else { rng.below(self.functions.len()) };
        let Function { item, ref lines, walled } = self.functions[at];
        let line = rng.below(lines.len() + 1);
        match rng.below(8) {
            0..3 => {
                let put_in = self.line(rng, &lines[..line], walled, number);
                self.functions[at].lines.insert(line, put_in);
            }
            3 => {
                let end = (line + 2).min(lines.len());
                if !lines[end..].iter().any(|below| lines[line..end].iter().any(|inner| uses(below, inner))) {
                    let inner = self.functions[at].lines.drain(line..end).collect();
                    self.functions[at].lines.insert(line, Line::Block(new, inner));
                }
            }
            4 => {
                let moved = self.functions.remove(at);
                self.functions.insert(rng.below(self.functions.len() + 1), moved);
            }
            5 | 6 => match does {
                Does::Rename => self.known[item].0 = format!("tide_{new}"),
                Does::TakeMore => *self.known[item].1.as_mut().expect("a function") += 1,
                Does::WallOff => self.functions[at].walled |= !lines.iter().any(uses_an_item),
                Does::Neither => {}
            },
            _ if rng.chance(50) => drop(self.add_item(format!("DATUM_{new}"), None)),
            _ => self.add_function(rng, number),
        }
    }
}

fn values(line: &Line) -> Vec<&Value> {
    match line {
        Line::Let(_, value) | Line::Log(value) => vec![value],
        Line::Block(_, inner) => inner.iter().flat_map(values).collect(),
    }
}

/// Whether a line uses the variable that another one declares.
fn uses(line: &Line, other: &Line) -> bool {
    let Line::Let(number, _) = other else { return false };
    values(line).into_iter().any(|value| value.contains(&Term::Variable(*number)))
}

fn uses_an_item(line: &Line) -> bool {
    values(line).into_iter().flatten().any(|term| matches!(term, Term::Item(_)))
}

/// What `rustc` says of programs, each a module, from its first error on.
fn fault(programs: &[&str]) -> Option<String> {
    let directory = tempfile::tempdir().unwrap();
    let modules = programs.iter().enumerate().map(|(at, text)| format!("mod program_{at} {{\n{text}}}\n"));
    let path = directory.path().join("programs.rs");
    std::fs::write(&path, format!("#![allow(warnings)]\n{}", modules.collect::<String>())).unwrap();
    let output = Command::new("rustc")
        .args(["--edition", "2021", "--crate-type", "lib", "--emit", "metadata", "--out-dir"])
        .args([directory.path(), &path])
        .output()
        .expect("rustc is in PATH, as cargo is");
    (!output.status.success()).then(|| String::from_utf8_lossy(&output.stderr).into_owned())
}

/// The numbers, from `first` on, of the programs that do not compile.
fn faulty(programs: &[&str], first: usize) -> Vec<usize> {
    if programs.is_empty() || fault(programs).is_none() {
        return Vec::new();
    }
    if programs.len() == 1 {
        return vec![first];
    }
    let (left, right) = programs.split_at(programs.len() / 2);
    [faulty(left, first), faulty(right, first + left.len())].concat()
}

#[test]
fn programs_that_compile_make_one_that_does() {
    let mut rng = Rng::new(409);
    let (mut sides, mut answers) = (Vec::new(), Vec::new());
    for _ in 0..4_000 {
        let (mut base, mut number) = (Program { known: Vec::new(), functions: Vec::new() }, 0);
        base.add_item("DATUM".to_owned(), None);
        (0..2 + rng.below(3)).for_each(|_| base.add_function(&mut rng, &mut number));
        let near = rng.below(9);
        let all = [Does::Neither, Does::Rename, Does::WallOff, Does::TakeMore];
        let does = [(); 2].map(|()| *rng.pick(&all).expect("there are some"));
        let [ours, theirs] = does.map(|does| {
            let mut program = base.clone();
            (0..1 + rng.below(3)).for_each(|_| program.edit(&mut rng, near, does, &mut number));
            program.text()
        });
        let base = base.text();
        let versions = Versions { base: base.as_bytes(), ours: ours.as_bytes(), theirs: theirs.as_bytes() };
        let answer = merge(versions, Lang::Rust.language(), &Settings::default());
        if answer.conflicts == 0 && matches!(answer.way, Way::Trees) {
            answers.push(String::from_utf8(answer.text).expect("text"));
            sides.push([base, ours, theirs]);
        }
    }
    let of_sides: Vec<&str> = sides.iter().flatten().map(String::as_str).collect();
    assert_eq!(fault(&of_sides), None, "the sides compile");
    let merged: Vec<&str> = answers.iter().map(String::as_str).collect();
    let wrong = faulty(&merged, 0);
    // Of ten thousand, one is known to be left: what one side put into a module and calls by the name that it imports, and
    // the other gave another parameter.
    if wrong.len() * 1000 > merged.len() {
        let first = wrong[0];
        let [base, ours, theirs] = &sides[first];
        let why = fault(&merged[first..=first]).unwrap_or_default();
        let texts = format!("--- base\n{base}\n--- ours\n{ours}\n--- theirs\n{theirs}\n--- merged\n{}", merged[first]);
        panic!("{} of {} do not compile, the first:\n{why}\n{texts}", wrong.len(), merged.len());
    }
    assert!(answers.len() > 300, "only {} clean answers to look at", answers.len());
}

#[test]
fn the_check_itself_finds_what_does_not_compile() {
    assert!(fault(&["fn low() -> u32 { high() }"]).is_some());
    assert!(fault(&["fn low(port: u32) {} fn high() { low() }"]).is_some());
    assert_eq!(fault(&["fn low() {}", "fn low() {}"]), None);
}
