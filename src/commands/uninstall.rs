use std::fs;
use std::path::Path;
use std::process::ExitCode;

use gix::bstr::ByteSlice;

use super::install::{Files, KEYS, NEW_FILE, read_if_there, rewrite};
use crate::git::block::{self, Rest};
use crate::git::{Git, Place, plain, record, replace, resolve_links, section};
use crate::report::print;

/// Take out what `pleach install` wrote, and nothing else
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit status:\n  0  what pleach install wrote there is gone; if git still calls pleach, it says why\n  2  an error"
)]
pub struct Uninstall {
    /// From your own configuration and attributes instead of this repository's
    #[arg(long)]
    global: bool,
    /// From the tracked .gitattributes too
    #[arg(long, conflicts_with = "global")]
    shared: bool,
}

impl Uninstall {
    /// Takes out and shows what was taken out.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let files = Files::find(self.global)?;
        let mut found = remove_settings(&files)?;
        found |= remove_attributes(&files.private_attributes)?;
        if let Some(path) = &files.shared_attributes {
            if self.shared {
                found |= remove_attributes(path)?;
            } else if read_if_there(path)?.is_some_and(|text| block::remove(&text).is_some()) {
                print(&format!(
                    "{} names pleach for everybody; `pleach uninstall --shared` ends that\n",
                    path.display()
                ));
            }
        }
        for path in [Some(&files.private_attributes), files.shared_attributes.as_ref()].into_iter().flatten() {
            for line in block::foreign_lines(&read_if_there(path)?.unwrap_or_default()) {
                print(&format!("{}:{line} names pleach and was not written by pleach install\n", path.display()));
            }
        }
        if !found {
            print("nothing to take out\n");
        }
        if let Some(record) = Place::find().map(|place| record::file(&place)).filter(|r| !self.global && r.exists()) {
            print(&format!("{} stays: the record of what was merged, which pleach log reads\n", record.display()));
        }
        tell_what_remains(&files.git, self.global);
        Ok(ExitCode::SUCCESS)
    }
}

/// Says so if git calls pleach all the same: it is installed in another place too.
fn tell_what_remains(git: &Git, global: bool) {
    let Ok(found) = git.output(&["config", "--show-scope", "--show-origin", "-z", "--get", "merge.pleach.driver"])
    else {
        return;
    };
    let mut fields = found.split_str("\0").map(ByteSlice::to_str_lossy);
    let (scope, origin) = (fields.next().unwrap_or_default(), fields.next().unwrap_or_default());
    let end = match &*scope {
        "global" if !global => "; `pleach uninstall --global` ends that for all your repositories",
        "local" if global => "; `pleach uninstall` ends that for this repository",
        _ => "",
    };
    print(&format!("merge.pleach.driver is still set in {}{end}\n", origin.trim_start_matches("file:")));
}

fn remove_settings(files: &Files) -> anyhow::Result<bool> {
    let Some(text) = read_if_there(&files.config)? else { return Ok(false) };
    let new_file = files.setting(NEW_FILE).is_some();
    if let Some(rest) = section::remove(&text, &KEYS) {
        if new_file && rest.is_empty() {
            remove_file(&files.config)?;
        } else {
            rewrite(&files.config, |text| section::remove(&text, &KEYS).unwrap_or(text))?;
        }
    }
    // What is left was written by hand, or by a git that writes otherwise.
    for key in KEYS.iter().filter(|key| files.setting(key).is_some()) {
        files.git.output(&["config", files.scope, "--unset-all", &format!("merge.pleach.{key}")])?;
    }
    let removed = read_if_there(&files.config)?.as_ref() != Some(&text);
    if removed {
        print(&format!("{}: took merge.pleach out\n", files.config.display()));
    }
    Ok(removed)
}

fn remove_attributes(path: &Path) -> anyhow::Result<bool> {
    let Some(text) = read_if_there(path)? else { return Ok(false) };
    match block::remove(&text) {
        None => return Ok(false),
        Some(Rest::Nothing) => remove_file(path)?,
        Some(Rest::Text(text)) => replace(path, &text)?,
    }
    print(&format!("{}: took merge=pleach out\n", path.display()));
    Ok(true)
}

/// Removes a file, and not a link to it: that was there before.
fn remove_file(path: &Path) -> anyhow::Result<()> {
    fs::remove_file(resolve_links(path))
        .map_err(|e| anyhow::anyhow!("could not remove {}: {}", path.display(), plain(&e)))
}
