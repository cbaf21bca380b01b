//! Prints the tree of a file that a merge works on: `cargo run --example dump -- FILE`. With a second file, which node of
//! the first is which of that: `… FILE CHANGED`.

use anyhow::Context as _;
use pleach::grammar;
use pleach::matching::match_trees;
use pleach::syntax::Parsed;

fn main() -> anyhow::Result<()> {
    let paths: Vec<String> = std::env::args().skip(1).collect();
    let read = |path: &String| std::fs::read(path).with_context(|| path.clone());
    let (path, other) = match &paths[..] {
        [path] => (path, None),
        [path, other] => (path, Some(read(other)?)),
        _ => anyhow::bail!("which file? FILE [CHANGED]"),
    };
    let source = read(path)?;
    let Some(language) = grammar::for_path(path.as_bytes(), &source) else {
        anyhow::bail!("{path}: no built-in grammar reads it");
    };
    let parsed = Parsed::new(&source, language)?;
    let tree = parsed.tree();
    match other {
        None => print!("{}", tree.outline()),
        Some(other) => {
            let other = Parsed::new(&other, language)?;
            let other = other.tree();
            print!("{}", match_trees(&tree, &other).outline(&tree, &other));
        }
    }
    Ok(())
}
