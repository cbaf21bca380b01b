//! What merged programs do, as CPython runs them.
//!
//! One side changes how a program is written and not what it does (Fowler, "Refactoring": that is what the word means),
//! the other changes what it does. So a clean merge has to do just what the other side's program does.

use pleach::{Settings, Versions, Way, merge};
use serde_json::json;

use super::edited::Lang;
use super::edited::rng::Rng;
use super::python::{ask, shown};

const ORACLE: &str = r#"
HELPERS = '''
class held:
    def __init__(self, board, key): self.board, self.key = board, key
    def __enter__(self): self.board[self.key] = self.board[self.key] * 2 % 1009
    def __exit__(self, *error): self.board[self.key] = (self.board[self.key] + 1) % 1009
class quiet:
    def __init__(self, board): pass
    def __enter__(self): pass
    def __exit__(self, *error): pass
def mix(a, b, c=1): return (a * 3 + b * 5 + c * 7) % 1009
def note(board, key, value, weight=1): board[key] = (board[key] * 31 + value * weight) % 1009
def ready(board): return True
def done(board): pass
'''
KEYS = ['level', 'tide', 'wind', 'gauge', 'quay', 'lamp', 'buoy', 'flow']

def behaviour(text):
    found = []
    for seed in range(5):
        names, board = {}, {key: seed * 97 + 13 * i for i, key in enumerate(KEYS)}
        exec(compile(HELPERS + text, 'merged', 'exec'), names)
        for function in ('refresh', 'publish', 'settle'):
            names[function](board)
            found.append({key: value % 1009 for key, value in board.items()})
    return found

def check(q):
    wanted = behaviour(q['edited'])
    if behaviour(q['base']) != behaviour(q['rewritten']):
        return 'the side that was to be rewritten only does something else: a defect of this test'
    if q['conflicts']:
        return None
    try:
        return None if behaviour(q['answer']) == wanted else 'the merge does something else than the edited program'
    except Exception as error:
        return repr(error)
"#;

const KEYS: [&str; 8] = ["level", "tide", "wind", "gauge", "quay", "lamp", "buoy", "flow"];

/// A statement. In its lines, `@` is the name of the function's parameter.
#[derive(Clone)]
enum Statement {
    Line(String),
    /// What begins the statement, what is in it, and its other clause.
    Block(String, Vec<Statement>, Option<(String, Vec<Statement>)>),
}

use Statement::{Block, Line};

#[derive(Clone)]
struct Function {
    name: &'static str,
    parameter: &'static str,
    body: Vec<Statement>,
}

#[derive(Clone)]
struct Program(Vec<Function>);

impl Program {
    fn new(rng: &mut Rng) -> Program {
        let mut function = |name| {
            let count = 4 + rng.below(4);
            Function { name, parameter: "board", body: statements(rng, count, 2) }
        };
        Program(["refresh", "publish", "settle"].map(&mut function).into())
    }

    fn text(&self) -> String {
        let functions = self.0.iter().map(|f| {
            let mut text = format!("def {}({}):\n", f.name, f.parameter);
            write(&mut text, &f.body, 1);
            text.push_str("    return @\n");
            text.replace('@', f.parameter)
        });
        functions.collect::<Vec<_>>().join("\n\n")
    }

    /// One of the blocks, with at least one statement.
    fn block(&mut self, rng: &mut Rng) -> &mut Vec<Statement> {
        // In one function most of the time, so that the two sides meet.
        let at = if rng.chance(90) { 0 } else { rng.below(self.0.len()) };
        let body = &mut self.0[at].body;
        let count = blocks(body);
        nth(body, &mut rng.below(count)).expect("so many blocks")
    }
}

fn statements(rng: &mut Rng, count: usize, depth: usize) -> Vec<Statement> {
    (0..count).map(|_| statement(rng, depth)).collect()
}

fn statement(rng: &mut Rng, depth: usize) -> Statement {
    if depth == 0 || rng.chance(60) {
        return Line(line(rng));
    }
    let inner = |rng: &mut Rng| {
        let count = 1 + rng.below(3);
        statements(rng, count, depth - 1)
    };
    match rng.below(4) {
        0 => Block(format!("for _ in range({}):", 2 + rng.below(9)), inner(rng), None),
        1 => Block(format!("with held(@, \"{}\"):", key(rng)), inner(rng), None),
        2 => Block(format!("if {}:", condition(rng)), inner(rng), None),
        _ => Block(format!("if {}:", condition(rng)), inner(rng), Some(("else:".to_owned(), inner(rng)))),
    }
}

fn key(rng: &mut Rng) -> &'static str {
    KEYS[rng.below(KEYS.len())]
}

fn condition(rng: &mut Rng) -> String {
    format!("@[\"{}\"] % {} > {}", key(rng), 2 + rng.below(4), rng.below(2))
}

fn line(rng: &mut Rng) -> String {
    let (to, from, number) = (key(rng), key(rng), 2 + rng.below(97));
    match rng.below(5) {
        0 => format!("@[\"{to}\"] += @[\"{from}\"]"),
        1 => format!("@[\"{to}\"] -= {number}"),
        2 => format!("@[\"{to}\"] = mix(@[\"{from}\"], {number})"),
        3 => format!("note(@, \"{to}\", @[\"{from}\"], weight={number})"),
        _ => format!("note(@, \"{to}\", {number})"),
    }
}

fn write(text: &mut String, statements: &[Statement], depth: usize) {
    let indent = "    ".repeat(depth);
    for statement in statements {
        match statement {
            Line(line) => text.push_str(&format!("{indent}{line}\n")),
            Block(head, body, clause) => {
                text.push_str(&format!("{indent}{head}\n"));
                write(text, body, depth + 1);
                if let Some((head, body)) = clause {
                    text.push_str(&format!("{indent}{head}\n"));
                    write(text, body, depth + 1);
                }
            }
        }
    }
}

fn blocks(statements: &[Statement]) -> usize {
    let inner = |statement: &Statement| match statement {
        Line(_) => 0,
        Block(_, body, clause) => blocks(body) + clause.as_ref().map_or(0, |(_, body)| blocks(body)),
    };
    1 + statements.iter().map(inner).sum::<usize>()
}

fn nth<'p>(statements: &'p mut Vec<Statement>, n: &mut usize) -> Option<&'p mut Vec<Statement>> {
    if *n == 0 {
        return Some(statements);
    }
    *n -= 1;
    statements.iter_mut().find_map(|statement| match statement {
        Line(_) => None,
        Block(_, body, clause) => match nth(body, n) {
            Some(found) => Some(found),
            None => clause.as_mut().and_then(|(_, body)| nth(body, n)),
        },
    })
}

/// Puts a run of statements into something.
fn wrap(rng: &mut Rng, block: &mut Vec<Statement>, head: String, clause: Option<(String, Vec<Statement>)>) {
    let start = rng.below(block.len());
    let end = start + 1 + rng.below(block.len() - start);
    let body: Vec<Statement> = block.drain(start..end).collect();
    block.insert(start, Block(head, body, clause));
}

/// The places in a block of what has an `else`.
fn forks(block: &[Statement]) -> Vec<usize> {
    (0..block.len()).filter(|at| matches!(&block[*at], Block(_, _, Some((head, _))) if head == "else:")).collect()
}

/// The same program, written in another way, and what was done; nothing, if there was nothing to do it to.
fn rewritten(rng: &mut Rng, base: &Program) -> Option<(Program, &'static str)> {
    let mut program = base.clone();
    let what = ["if", "try", "with", "for", "extract", "invert", "push", "guard", "rename", "order"][rng.below(10)];
    match what {
        "if" => {
            let block = program.block(rng);
            wrap(rng, block, "if ready(@):".to_owned(), None);
        }
        "try" => {
            let block = program.block(rng);
            let last = vec![Line("done(@)".to_owned())];
            wrap(rng, block, "try:".to_owned(), Some(("finally:".to_owned(), last)));
        }
        "with" => {
            let block = program.block(rng);
            wrap(rng, block, "with quiet(@):".to_owned(), None);
        }
        "for" => {
            let block = program.block(rng);
            wrap(rng, block, "for _ in [@]:".to_owned(), None);
        }
        "extract" => {
            let block = program.block(rng);
            let start = rng.below(block.len());
            let end = start + 1 + rng.below(block.len() - start);
            let body = block.drain(start..end).collect();
            block.insert(start, Line("step(@)".to_owned()));
            let at = rng.below(program.0.len() + 1);
            program.0.insert(at, Function { name: "step", parameter: "board", body });
        }
        "invert" => {
            let block = program.block(rng);
            let at = *forks(block).first()?;
            let Block(head, body, Some((_, other))) = &mut block[at] else { return None };
            *head = head.replace("if ", "if not (").replace(':', "):");
            std::mem::swap(body, other);
        }
        "push" => {
            let block = program.block(rng);
            let at = forks(block).into_iter().find(|at| at + 1 < block.len())?;
            let moved = block.remove(at + 1);
            let Block(_, body, Some((_, other))) = &mut block[at] else { return None };
            body.push(moved.clone());
            other.push(moved);
        }
        "guard" => {
            let body = &mut program.0[0].body;
            let at = body.pop_if(|last| matches!(last, Block(head, _, None) if head.starts_with("if ")))?;
            let Block(head, held, None) = at else { return None };
            let opposite = head.replace("if ", "if not (").replace(':', "):");
            body.push(Block(opposite, vec![Line("return @".to_owned())], None));
            body.extend(held);
        }
        "rename" => program.0[rng.below(3)].parameter = "screen",
        _ => program.0.rotate_left(1 + rng.below(2)),
    }
    Some((program, what))
}

/// A program that does something else, and what was done.
fn edited(rng: &mut Rng, base: &Program) -> Option<(Program, &'static str)> {
    let mut program = base.clone();
    let what = ["line", "number", "insert", "delete", "condition", "else", "if", "for"][rng.below(8)];
    let block = program.block(rng);
    let (at, alone) = (rng.below(block.len()), block.len() == 1);
    match (what, &mut block[at]) {
        ("line", Line(text)) => *text = line(rng),
        ("number", Line(text)) => {
            let digits = text.find(|c: char| c.is_ascii_digit())?;
            text.insert(digits, '3');
        }
        ("insert", _) => {
            let new = Line(line(rng));
            block.insert(rng.below(block.len() + 1), new);
        }
        ("delete", _) if !alone => drop(block.remove(at)),
        ("condition", Block(head, ..)) if head.starts_with("if ") => {
            *head = head.replace(':', &format!(" and {}:", condition(rng)));
        }
        ("else", Block(head, _, clause @ None)) if head.starts_with("if ") => {
            *clause = Some(("else:".to_owned(), vec![Line(line(rng))]));
        }
        ("if", _) => {
            let head = format!("if {}:", condition(rng));
            wrap(rng, block, head, None);
        }
        ("for", _) => wrap(rng, block, "for _ in range(2):".to_owned(), None),
        _ => return None,
    }
    Some((program, what))
}

#[test]
fn a_program_that_one_side_only_rewrote_does_after_a_merge_what_the_other_side_made_of_it() {
    let mut questions = Vec::new();
    let mut by_trees = 0;
    for seed in 0..2000 {
        let mut rng = Rng::new(seed);
        let base = Program::new(&mut rng);
        let Some((rewritten, how)) = rewritten(&mut rng, &base) else { continue };
        let Some((edited, what)) = edited(&mut rng, &base) else { continue };
        let [base, rewritten, edited] = [base, rewritten, edited].map(|program| program.text());
        let (ours, theirs) = if seed % 2 == 0 { (&rewritten, &edited) } else { (&edited, &rewritten) };
        let versions = Versions { base: base.as_bytes(), ours: ours.as_bytes(), theirs: theirs.as_bytes() };
        let answer = merge(versions, Lang::Python.language(), &Settings::default());
        by_trees += usize::from(answer.conflicts == 0 && answer.way == Way::Trees);
        // A clean line merge that is sound is the answer (contract K3).
        let asked = if answer.way == Way::Lines { answer.conflicts.max(1) } else { answer.conflicts };
        questions.push(json!({
            "base": base, "ours": ours, "theirs": theirs, "rewritten": rewritten, "edited": edited,
            "answer": String::from_utf8(answer.text).expect("text"), "conflicts": asked,
            "seed": format!("{seed}, {how} and {what}"),
        }));
    }
    let answers = ask(ORACLE, &json!(questions));
    let wrong: Vec<String> = questions.iter().zip(answers).filter_map(|(q, answer)| Some(shown(q, &answer?))).collect();
    println!("{} programs, {by_trees} merged by trees", questions.len());
    assert!(wrong.is_empty(), "{} programs:\n{}", wrong.len(), wrong[..wrong.len().min(4)].join("\n"));
    assert!(by_trees > 150, "{by_trees} clean by trees: too few to say much");
}
