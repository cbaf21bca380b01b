use std::path::{Path, PathBuf};

use gix::discover;

/// Where the repository around the current directory keeps its things.
///
/// Found with a few `stat` calls. `gix::discover` would also check who owns the directory and open
/// the repository; git has already done the first by the time it calls a driver, and the second
/// costs more than a merge.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The git directory of this worktree: `HEAD`, `MERGE_HEAD` and pleach's record live here.
    pub git_dir: PathBuf,
    /// What all worktrees of the repository share: `config` and `info/attributes`.
    pub common_dir: PathBuf,
    /// The top of the worktree; none in a bare repository.
    pub worktree: Option<PathBuf>,
}

impl Place {
    /// The repository that git would use from the current directory, by `GIT_DIR` or by looking
    /// upwards.
    pub fn find() -> Option<Place> {
        let cwd = std::env::current_dir().ok()?;
        let var = |name| std::env::var_os(name).filter(|v| !v.is_empty()).map(|v| cwd.join(v));
        let (git_dir, worktree) = match var("GIT_DIR") {
            // Git itself takes the current directory for the top of the worktree here.
            Some(git_dir) => (follow(git_dir)?, Some(var("GIT_WORK_TREE").unwrap_or_else(|| cwd.clone()))),
            None => look_upwards(&cwd)?,
        };
        let common_dir = var("GIT_COMMON_DIR").unwrap_or_else(|| common_dir(&git_dir));
        Some(Place { git_dir, common_dir, worktree })
    }
}

fn look_upwards(from: &Path) -> Option<(PathBuf, Option<PathBuf>)> {
    for dir in from.ancestors() {
        if let Some(git_dir) = follow(dir.join(".git")) {
            return Some((git_dir, Some(dir.to_owned())));
        }
        // Cheap tests first: `is_git` reads and parses HEAD.
        if dir.join("HEAD").exists() && dir.join("objects").is_dir() && discover::is_git(dir).is_ok() {
            return Some((dir.to_owned(), None));
        }
    }
    None
}

/// A git directory, or the one that a `.git` file of a linked worktree or submodule points to.
fn follow(path: PathBuf) -> Option<PathBuf> {
    let kind = path.metadata().ok()?;
    if kind.is_dir() {
        path.join("HEAD").symlink_metadata().ok().map(|_| path)
    } else {
        discover::path::from_gitdir_file(&path).ok()
    }
}

fn common_dir(git_dir: &Path) -> PathBuf {
    match discover::path::from_plain_file(&git_dir.join("commondir")) {
        Some(Ok(dir)) => git_dir.join(dir),
        _ => git_dir.to_owned(),
    }
}
