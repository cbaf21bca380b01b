//! Prints the tree of a file that a merge works on: `cargo run --example dump -- FILE`.

use pleach::grammar;
use pleach::syntax::Parsed;

fn main() -> anyhow::Result<()> {
    let Some(path) = std::env::args().nth(1) else { anyhow::bail!("which file?") };
    let source = std::fs::read(&path)?;
    let Some(language) = grammar::for_path(path.as_bytes(), &source) else {
        anyhow::bail!("{path}: no built-in grammar reads it");
    };
    print!("{}", Parsed::new(&source, language)?.tree().outline());
    Ok(())
}
