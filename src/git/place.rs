use std::path::{Path, PathBuf};

use gix::config::file::Metadata;
use gix::config::file::init::Options;
use gix::discover;

use crate::git::Git;

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
        let (git_dir, found) = match var("GIT_DIR") {
            // Git itself takes the current directory for the top of the worktree here.
            Some(git_dir) => (follow(git_dir)?, Some(cwd.clone())),
            None => look_upwards(&cwd)?,
        };
        let common_dir = var("GIT_COMMON_DIR").unwrap_or_else(|| common_dir(&git_dir));
        let worktree = var("GIT_WORK_TREE").or_else(|| {
            // A linked worktree has its own place, whatever the shared configuration says.
            let own = Core::read(&common_dir).filter(|_| common_dir == git_dir);
            let Some(Core { worktree, bare }) = own else { return found };
            let around = git_dir.file_name().is_some_and(|name| name == ".git").then(|| git_dir.parent()).flatten();
            worktree.map(|path| git_dir.join(path)).or(found).or_else(|| around.filter(|_| !bare).map(Path::to_owned))
        });
        Some(Place { git_dir, common_dir, worktree })
    }

    /// Git, run at the top of the worktree; wherever it finds the repository if that is bare.
    pub fn git(&self) -> Git {
        // In the git directory git does not see the worktree around it.
        match self.worktree.as_ref().filter(|top| top.join(".git").exists()) {
            Some(top) => Git::in_dir(top),
            None => Git::in_dir(".").at_top(),
        }
    }
}

/// What a repository's configuration says of its worktree.
struct Core {
    worktree: Option<PathBuf>,
    bare: bool,
}

impl Core {
    fn read(common_dir: &Path) -> Option<Core> {
        let text = std::fs::read(common_dir.join("config")).ok()?;
        let config = gix::config::File::from_bytes_no_includes(&text, Metadata::default(), Options::default()).ok()?;
        let worktree = config.string("core.worktree").and_then(|path| gix::path::from_bstring(path).ok());
        Some(Core { worktree, bare: config.boolean("core.bare").ok().flatten().unwrap_or(false) })
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
