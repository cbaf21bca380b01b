use std::ffi::OsString;
use std::path::Path;

use tempfile::TempDir;

use crate::git::{Git, GitError};

/// What git's attributes and filters make of a text on its way into the worktree and out of it:
/// line endings, encodings, `filter=`.
///
/// Git only converts objects, so the texts are made objects, in a directory that goes when this
/// does: the repository is not written to.
pub struct Scratch {
    git: Git,
    _objects: TempDir,
}

impl Scratch {
    /// A scratch beside the objects of the repository that `git` runs in.
    ///
    /// # Errors
    /// No temporary directory can be made, or git refuses.
    pub fn new(git: &Git) -> Result<Scratch, GitError> {
        let objects = TempDir::new().map_err(GitError::Scratch)?;
        let mut real = git.output(&["rev-parse", "--path-format=absolute", "--git-path", "objects"])?;
        real.truncate(real.trim_ascii_end().len());
        let mut alternates: OsString = gix::path::from_bstring(real).unwrap_or_default().into_os_string();
        if let Some(more) = std::env::var_os("GIT_ALTERNATE_OBJECT_DIRECTORIES") {
            alternates.push(if cfg!(windows) { ";" } else { ":" });
            alternates.push(more);
        }
        let git = git
            .clone()
            .with_env("GIT_OBJECT_DIRECTORY", objects.path().as_os_str().to_owned())
            .with_env("GIT_ALTERNATE_OBJECT_DIRECTORIES", alternates);
        Ok(Scratch { git, _objects: objects })
    }

    /// Git, writing its objects into the scratch.
    pub fn git(&self) -> &Git {
        &self.git
    }

    /// The text that git would store if the file at `path` held `text`.
    ///
    /// # Errors
    /// A filter fails.
    pub fn cleaned(&self, path: &Path, text: &[u8]) -> Result<Vec<u8>, GitError> {
        let object = self.store(&[option("--path=", path)], text)?;
        self.git.output(&["cat-file", "blob", &object])
    }

    /// The text that git would write to the file at `path` if it had stored `text`.
    ///
    /// # Errors
    /// A filter fails.
    pub fn smudged(&self, path: &Path, text: &[u8]) -> Result<Vec<u8>, GitError> {
        let object = self.store(&["--no-filters".into()], text)?;
        self.git.output(&["cat-file".into(), "--filters".into(), option("--path=", path), object.into()])
    }

    fn store(&self, how: &[OsString], text: &[u8]) -> Result<String, GitError> {
        let mut args: Vec<OsString> = ["hash-object", "-w", "--stdin"].map(Into::into).into();
        args.extend_from_slice(how);
        let object = self.git.output_with_input(&args, text)?;
        Ok(String::from_utf8_lossy(&object).trim().to_owned())
    }
}

fn option(name: &str, path: &Path) -> OsString {
    let mut option = OsString::from(name);
    option.push(path);
    option
}
