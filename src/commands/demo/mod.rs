//! The main job before your eyes: a fork syncs with its upstream, once as git merges by itself and
//! once with pleach, by the real git in a temporary directory.

mod scenario;
mod stage;

use std::process::ExitCode;

use crate::checking::{Dissent, dissent};
use crate::report::{bold, count, print};
use scenario::{DISAGREEMENT, FORK, NEEDLESS, PLACES, Place, UPSTREAM};
use stage::Stage;

/// Show a fork's sync with its upstream, merged both ways before your eyes
///
/// Makes a small project and a fork of it in a temporary directory, lets the fork pull from upstream
/// as git merges by itself, takes that back, installs pleach there and pulls again. Touches nothing
/// else, and needs no network and no configuration of yours.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status:\n  0  shown\n  2  an error, such as no git to run")]
pub struct Demo {
    /// Leave the repositories there, in the middle of the merge, and say where
    #[arg(long)]
    keep: bool,
}

impl Demo {
    /// Sets the stage, merges twice and tells what became of it.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let stage = Stage::set()?;
        let by_lines = Outcome::new(&stage, stage.pull()?);
        stage.take_back()?;
        stage.install()?;
        let by_trees = Outcome::new(&stage, stage.pull()?);
        let merged = |path: &str| stage.read(path);
        print(&format!("{}{}", opening(&by_lines), with_pleach(&by_trees, merged)));
        if self.keep {
            let fork = stage.keep();
            print(&format!("\nThe fork is in {}, in the middle of this merge.\n", fork.display()));
        }
        Ok(ExitCode::SUCCESS)
    }
}

/// A file at which git stopped.
struct Stopped {
    path: String,
    text: String,
    dissent: Dissent,
}

/// What a pull left to do.
struct Outcome {
    stopped: Vec<Stopped>,
}

impl Outcome {
    fn new(stage: &Stage, paths: Vec<String>) -> Outcome {
        let stopped = |path: String| {
            let text = stage.read(&path);
            Stopped { dissent: dissent(text.as_bytes(), MARKER_SIZE), text, path }
        };
        Outcome { stopped: paths.into_iter().map(stopped).collect() }
    }

    fn headline(&self) -> String {
        let blocks = self.stopped.iter().map(|s| s.dissent.blocks).sum();
        let lines = self.stopped.iter().map(|s| s.dissent.lines).sum();
        bold(&format!(
            "Git stops at {}: {} with {} to settle by hand.",
            count(self.stopped.len(), "file"),
            count(blocks, "conflict block"),
            count(lines, "line"),
        ))
    }

    /// The first conflict block in the file at `path` that holds `needle`, markers included.
    fn block(&self, path: &str, needle: &str) -> Option<String> {
        let text = &self.stopped.iter().find(|s| s.path == path)?.text;
        let blocks = text.split_inclusive("<<<<<<<").skip(1);
        let mut blocks = blocks.filter_map(|rest| {
            let end = rest.find(">>>>>>>")?;
            let end = rest[end..].find('\n').map_or(rest.len(), |at| end + at + 1);
            Some(format!("<<<<<<<{}", &rest[..end]))
        });
        blocks.find(|block| block.contains(needle))
    }
}

const MARKER_SIZE: usize = 7;

fn opening(by_lines: &Outcome) -> String {
    let mut text = format!(
        "tideboard is a tide-forecast dashboard. A harbour authority keeps a fork of it, with\n\
         changes of its own, for the box on its quay. Since the two last met, upstream has\n\
         made {} and the fork {}. Now the fork syncs, by real git:\n\
         git pull --no-rebase upstream main\n\n\
         {}\n   {}\n\n",
        count(UPSTREAM.len(), "commit"),
        FORK.len(),
        bold("1  As git merges by itself, line by line"),
        by_lines.headline(),
    );
    for s in &by_lines.stopped {
        text.push_str(&format!(
            "     {:<24}{}, {}\n",
            s.path,
            count(s.dissent.blocks, "block"),
            count(s.dissent.lines, "line"),
        ));
    }
    if let Some(block) = by_lines.block(NEEDLESS.0, NEEDLESS.1) {
        text.push_str("\n   One of the blocks. Both sides added an argument, the fork above and\n   upstream below; they share a line, and disagree about nothing:\n\n");
        text.push_str(&indented(&block));
    }
    text
}

fn with_pleach(by_trees: &Outcome, merged: impl Fn(&str) -> String) -> String {
    let mut text = format!(
        "\n{}\n   {}\n\n   What pleach combined, and the lines that came of it:\n",
        bold("2  With pleach, syntax by syntax: `pleach install`, then the same pull"),
        by_trees.headline(),
    );
    let mut path = "";
    for place in &PLACES {
        if place.path != path {
            path = place.path;
            text.push_str(&format!("\n   {}\n", bold(path)));
        }
        text.push_str(&told(place, &merged(path)));
    }
    text.push_str(&format!(
        "\n   What it left in {DISAGREEMENT}, since only a person can say how often to\n   \
         refresh. Whichever half is kept, the other side's new argument is in it already:\n\n",
    ));
    text.push_str(&by_trees.block(DISAGREEMENT, "").map_or("     (nothing)\n".to_owned(), |block| indented(&block)));
    text.push_str(&format!(
        "\n{} a merge without conflicts is not a proof of meaning. Review the combined\n\
         places (`pleach log` lists them) and run the tests before you commit.\n\n\
         In a repository of your own:\n\
         \x20  pleach install   git calls pleach from now on (pleach uninstall ends that)\n\
         \x20  pleach doctor    says whether git really will, and if not, why\n\
         \x20  pleach forecast  which files the next merge would stop at, before you merge\n\
         \x20  pleach retry     merges again what has stopped already\n\
         README.md says what is combined, what is refused, and what is promised.\n",
        bold("Caution:"),
    ));
    text
}

/// A place: who did what, and the merged lines with their numbers.
fn told(place: &Place, merged: &str) -> String {
    let mut text = format!("     fork {}; upstream {}\n", place.fork, place.upstream);
    let lines: Vec<&str> = merged.lines().collect();
    for (start, length) in place.shown {
        let Some(at) = lines.iter().position(|line| line.starts_with(start)) else {
            text.push_str("          | (not found)\n");
            continue;
        };
        for (i, line) in lines.iter().enumerate().skip(at).take(*length) {
            text.push_str(&format!("     {:>4} | {line}\n", i + 1));
        }
    }
    text
}

fn indented(block: &str) -> String {
    block.lines().map(|line| format!("     {line}\n")).collect()
}
