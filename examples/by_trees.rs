//! Prints what the trees alone make of three versions of a file: `cargo run --example by_trees -- OURS BASE THEIRS`.
//!
//! No edit is settled by lines first and nothing is checked. Where git's line merge is clean, the two answers should say the
//! same: if they do not, one of them is wrong. The exit status is the number of conflicts, at most 127; 255 is an error.

use std::io::Write as _;
use std::process::ExitCode;

use anyhow::{Context as _, anyhow, bail};
use pleach::line::LineSettings;
use pleach::merging::{Withdrawn, merge_trees};
use pleach::{Versions, grammar, layout, syntax};

fn main() -> ExitCode {
    match run() {
        Ok(conflicts) => ExitCode::from(u8::try_from(conflicts.min(127)).unwrap_or(127)),
        Err(error) => {
            eprintln!("by_trees: {error:#}");
            ExitCode::from(255)
        }
    }
}

fn run() -> anyhow::Result<usize> {
    let paths: Vec<String> = std::env::args().skip(1).collect();
    let [ours, base, theirs] = &paths[..] else { bail!("which three files? OURS BASE THEIRS") };
    let read = |path: &str| std::fs::read(path).with_context(|| path.to_owned());
    let texts = Versions { base: read(base)?, ours: read(ours)?, theirs: read(theirs)? };
    let Some(language) = grammar::for_path(ours.as_bytes(), &texts.ours) else {
        bail!("{ours}: no built-in grammar reads it");
    };
    let parsed = syntax::parse_versions(texts.as_ref().map(Vec::as_slice), language)
        .map_err(|(version, error)| anyhow!("{} {error}", version.name()))?;
    let trees = parsed.as_ref().map(|parsed| parsed.tree());
    let merge = merge_trees(&trees, &Withdrawn::default())?;
    let page = layout::lay_out(&trees, &merge, &LineSettings::default()).map_err(|_| anyhow!("not all was read"))?;
    std::io::stdout().write_all(&page.text)?;
    Ok(page.conflicts)
}
