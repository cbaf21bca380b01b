//! The files of a merge that stopped, as the index holds them.

use gix::bstr::ByteSlice;

use crate::git::{Git, GitError};
use crate::{Side, Version, Versions};

/// A path with more than one entry in the index.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmerged {
    /// From the top of the worktree.
    pub path: Vec<u8>,
    /// Stages 1, 2 and 3.
    pub stages: Versions<Option<Stage>>,
}

/// One entry of the index.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stage {
    /// What kind of thing it is, as git writes it: `100644`.
    pub mode: String,
    /// The object's name.
    pub object: String,
}

impl Unmerged {
    /// Why there are not two texts to merge, in words; none if both sides have the file.
    pub fn lacks(&self) -> Option<String> {
        let Versions { base, ours, theirs } = &self.stages;
        if ours.is_some() && theirs.is_some() {
            return None;
        }
        let Some(side) = self.only_side() else { return Some("both sides deleted or renamed it".to_owned()) };
        let [has, lacks] = [side, side.other()].map(|side| Version::from(side).name());
        Some(match base {
            Some(base) if self.stages.get(side).as_ref() == Some(base) => {
                format!("{lacks} deleted it, {has} renamed it")
            }
            Some(_) => format!("{lacks} deleted it, {has} changed it"),
            None => format!("only {has} has a file of this name"),
        })
    }

    /// The side that has something there, if only one has.
    pub fn only_side(&self) -> Option<Side> {
        match (&self.stages.ours, &self.stages.theirs) {
            (Some(_), None) => Some(Side::Ours),
            (None, Some(_)) => Some(Side::Theirs),
            _ => None,
        }
    }

    /// Whether both sides have the file, and as a file: its contents can be merged.
    ///
    /// The ancestor may lack it: what both sides added merges as if there had been an empty file.
    pub fn has_texts(&self) -> bool {
        let Versions { base, ours: Some(ours), theirs: Some(theirs) } = &self.stages else { return false };
        [ours, theirs].into_iter().chain(base).all(Stage::is_file)
    }

    /// What it is, in words, if the sides do not both have a file there but both have something.
    pub fn is_no_file(&self) -> Option<&'static str> {
        let (ours, theirs) = (self.stages.ours.as_ref()?.kind(), self.stages.theirs.as_ref()?.kind());
        match (ours, theirs) {
            _ if self.has_texts() => None,
            (Kind::Link, Kind::Link) => Some("both sides changed where this link leads"),
            (Kind::Submodule, Kind::Submodule) => Some("both sides moved this submodule"),
            _ => Some("it is a file on one side and something else on the other"),
        }
    }

    /// Whether both sides added it, one as a program and the other not.
    pub fn adds_two_modes(&self) -> bool {
        let Versions { base, ours, theirs } = &self.stages;
        let mode = |stage: &Option<Stage>| stage.as_ref().map(|stage| stage.mode.clone());
        base.is_none() && self.has_texts() && mode(ours) != mode(theirs)
    }
}

/// What an entry of the index is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A file.
    File,
    /// A symbolic link.
    Link,
    /// The commit of a submodule.
    Submodule,
}

impl Stage {
    /// What it is, as its mode has it.
    pub fn kind(&self) -> Kind {
        match &*self.mode {
            "120000" => Kind::Link,
            "160000" => Kind::Submodule,
            _ => Kind::File,
        }
    }

    /// Whether it is a file, and no link or submodule.
    pub fn is_file(&self) -> bool {
        self.kind() == Kind::File
    }
}

/// The unmerged files below `paths`, which are given as from the directory that `git` runs in; all
/// of the worktree if there are none.
///
/// # Errors
/// Git refuses: there is no worktree here.
pub fn unmerged(git: &Git, paths: &[std::ffi::OsString]) -> Result<Vec<Unmerged>, GitError> {
    let list = |paths: &[std::ffi::OsString], git: &Git| {
        let mut args: Vec<std::ffi::OsString> = ["ls-files", "-u", "-z", "--full-name", "--"].map(Into::into).into();
        args.extend_from_slice(paths);
        git.output(&args)
    };
    let listed = match paths {
        [] => list(&[":/".into()], &git.reading_pathspecs())?,
        paths => list(paths, git)?,
    };
    Ok(entries(listed.split_str("\0")))
}

/// Reads entries as git lists them, those of one path next to each other.
pub fn entries<'a>(lines: impl Iterator<Item = &'a [u8]>) -> Vec<Unmerged> {
    let mut found: Vec<Unmerged> = Vec::new();
    for (stage, path, entry) in lines.filter_map(entry) {
        if found.last().is_none_or(|last| last.path != path) {
            found.push(Unmerged { path: path.to_vec(), stages: Versions::default() });
        }
        let stages = &mut found.last_mut().expect("one has just been added").stages;
        match stage {
            b"1" => stages.base = Some(entry),
            b"2" => stages.ours = Some(entry),
            _ => stages.theirs = Some(entry),
        }
    }
    found
}

/// Reads `MODE OBJECT STAGE<TAB>PATH`.
fn entry(line: &[u8]) -> Option<(&[u8], &[u8], Stage)> {
    let (words, path) = line.split_once_str("\t")?;
    let mut words = words.split_str(" ");
    let mut word = || words.next().map(|w| w.to_str_lossy().into_owned());
    let (mode, object) = (word()?, word()?);
    Some((words.next()?, path, Stage { mode, object }))
}
