use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::Context;
use clap_mangen::Man;
use gix::bstr::ByteSlice;

use crate::git::plain;
use crate::report::print;

/// Print a manual page
///
/// `pleach man | man -l -` shows it. `pleach man --dir /usr/local/share/man/man1` installs pleach(1)
/// and a page for each command.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status:\n  0  printed or written\n  2  an error")]
pub struct ManPage {
    /// The command to explain; pleach as a whole if none is named
    command: Option<String>,
    /// Write all pages into this directory instead
    #[arg(long, value_name = "DIR", conflicts_with = "command", value_hint = clap::ValueHint::DirPath)]
    dir: Option<PathBuf>,
}

impl ManPage {
    /// Prints the page, or writes all of them.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        // It has no page, so none may refer to it.
        let mut definition = super::definition().disable_help_subcommand(true);
        definition.build();
        let pages = pages(&definition);
        match &self.dir {
            Some(dir) => {
                for (name, page) in pages {
                    let path = dir.join(format!("{name}.1"));
                    write(&path, &page)?;
                    print(&format!("{}\n", path.display()));
                }
            }
            None => {
                let wanted = self.command.as_ref().map_or("pleach".to_owned(), |c| format!("pleach-{c}"));
                let page = pages.into_iter().find(|(name, _)| *name == wanted);
                let (_, page) = page
                    .with_context(|| format!("there is no command {}", self.command.as_deref().unwrap_or_default()))?;
                print(&String::from_utf8_lossy(&page));
            }
        }
        Ok(ExitCode::SUCCESS)
    }
}

fn pages(definition: &clap::Command) -> Vec<(String, Vec<u8>)> {
    let commands = definition
        .get_subcommands()
        .map(|c| (format!("pleach-{}", c.get_name()), c.clone().version(env!("CARGO_PKG_VERSION"))));
    std::iter::once(("pleach".to_owned(), definition.clone()))
        .chain(commands)
        .map(|(name, command)| {
            let mut page = Vec::new();
            // Writing to memory does not fail.
            let _ = Man::new(command).manual("pleach").render(&mut page);
            (name, with_exit_status(&page))
        })
        .collect()
}

/// The page with what stands behind the help under the heading that manuals have for it.
fn with_exit_status(page: &[u8]) -> Vec<u8> {
    page.replace(".SH EXTRA\nExit status:\n", ".SH \"EXIT STATUS\"\n.nf\n").replace(".SH VERSION", ".fi\n.SH VERSION")
}

fn write(path: &Path, page: &[u8]) -> anyhow::Result<()> {
    fs::write(path, page).map_err(|e| anyhow::anyhow!("could not write {}: {}", path.display(), plain(&e)))
}
