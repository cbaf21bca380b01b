//! What the README shows is what pleach does.

use std::fs;

use tempfile::TempDir;

use crate::support::{PLEACH, Ran, run};

const README: &str = include_str!("../../README.md");

/// The rows of the tables in a section whose cells, but the last `open` ones, are all code.
fn rows(section: &str, open: usize) -> Vec<Vec<String>> {
    let (_, text) = README.split_once(&format!("\n## {section}\n")).unwrap();
    let text = text.split("\n## ").next().unwrap();
    let cells = |line: &str| line.trim_matches('|').split(" | ").map(|c| c.trim().to_owned()).collect::<Vec<_>>();
    let code = |cell: &String| cell.starts_with('`') && cell.ends_with('`');
    let rows = text.lines().filter(|line| line.starts_with('|')).map(cells);
    let rows = rows.filter(|row| row.len() == 4 && row[..4 - open].iter().all(code));
    rows.map(|row| row.iter().map(|cell| cell.trim_matches('`').to_owned()).collect()).collect()
}

/// A line where it can stand, and the name of a file of its language.
fn file(line: &str) -> (&'static str, String) {
    if line.starts_with("use ") || line.starts_with("#[") {
        ("board.rs", format!("{line}\nstruct Board;\n"))
    } else if line.starts_with("trait ") || line.starts_with("type ") {
        ("board.rs", format!("{line}\n"))
    } else if line.starts_with("assert!") {
        ("board.rs", format!("fn board() {{\n    {line};\n}}\n"))
    } else if line.starts_with("let ") {
        ("board.rs", format!("fn board() {{\n    {line}\n}}\n"))
    } else if line.contains(" = [\"") && line.starts_with("keywords") {
        ("pyproject.toml", format!("[project]\n{line}\n"))
    } else {
        ("board.py", format!("async def board():\n    {line}\n"))
    }
}

fn merged(row: &[String]) -> Ran {
    let dir = TempDir::new().unwrap();
    let (name, _) = file(&row[0]);
    let paths = ["base", "fork", "upstream"].map(|version| format!("{version}-{name}"));
    for (path, line) in paths.iter().zip(row) {
        fs::write(dir.path().join(path), file(line).1).unwrap();
    }
    run(PLEACH, dir.path(), ["merge-file", "-p", &paths[1], &paths[0], &paths[2]])
}

#[test]
fn what_it_says_is_combined_is_combined_so() {
    let rows = rows("What it combines", 0);
    assert_eq!(rows.len(), 20);
    for row in rows {
        let ran = merged(&row);
        assert_eq!((ran.status, ran.out), (Some(0), file(&row[3]).1), "{row:?}");
    }
}

#[test]
fn what_it_says_is_refused_is_a_conflict() {
    let rows = rows("What it refuses", 1);
    assert_eq!(rows.len(), 10);
    for row in rows {
        assert_eq!(merged(&row).status, Some(1), "{row:?}");
    }
}

#[test]
fn every_command_that_it_names_exists() {
    let help = run(PLEACH, ".".as_ref(), ["help"]).out;
    let commands: Vec<&str> = help.lines().filter_map(|line| line.strip_prefix("  ")?.split(' ').next()).collect();
    let blocks = README.split("\n```").skip(1).step_by(2);
    let lines = blocks.flat_map(str::lines).filter_map(|line| line.strip_prefix("pleach "));
    for rest in README.split("`pleach ").skip(1).chain(lines) {
        let word = rest.split(|c: char| !c.is_ascii_lowercase() && c != '-').next().unwrap();
        assert!(commands.contains(&word), "{word} is none of {commands:?}");
    }
}
