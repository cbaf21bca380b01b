use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::{Context, bail};
use gix::bstr::{BString, ByteSlice, ByteVec};

use crate::git::block;
use crate::git::{Git, Place, attributes, plain, protocol, replace, resolve_links, section, shell_word, tracked};
use crate::report::print;

/// Make git merge source with pleach, in this repository or in all of yours
///
/// Writes three settings (merge.pleach.name, merge.pleach.driver, merge.pleach.recursive) to git's
/// configuration, and a line for each kind of file that pleach reads to a file of attributes. Lines
/// that are there stay, and those below ours win. Run again, it changes only what is out of date.
///
/// merge.pleach.recursive is `text`: where two branches have crossed before, git first merges their
/// common ancestors into one, and that merge is left to git's own line merge. So the ancestor is the
/// one that git would have made without pleach; if it holds conflicts, pleach merges the file as
/// lines too, since text with conflict markers in it is no source.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit status:\n  0  git calls pleach from now on\n  2  an error; what was written before it is listed"
)]
pub struct Install {
    /// For all repositories of yours: write to your own configuration and attributes
    #[arg(long)]
    global: bool,
    /// Name the files in the tracked .gitattributes, for everybody who works on this repository;
    /// each clone still needs `pleach install` once, and merges as lines without it
    #[arg(long, conflicts_with = "global")]
    shared: bool,
}

const NAME: &str = "pleach: source merged as syntax";
/// What git does with common ancestors: see above.
pub const RECURSIVE: &str = "text";
/// Says that the configuration file did not exist before.
pub const NEW_FILE: &str = "newFile";
/// What `install` sets.
pub const KEYS: [&str; 4] = ["name", "driver", "recursive", NEW_FILE];

/// Which of git's files are meant.
pub struct Files {
    pub git: Git,
    /// `--local` or `--global`.
    pub scope: &'static str,
    pub config: PathBuf,
    /// Outside the history: `info/attributes`, or the user's.
    pub private_attributes: PathBuf,
    /// `.gitattributes` at the top; none in a bare repository and for `--global`.
    pub shared_attributes: Option<PathBuf>,
}

impl Files {
    pub fn find(global: bool) -> anyhow::Result<Files> {
        let git = Git::in_dir(".");
        let path = |args: &[&str]| git.line(args).map(PathBuf::from);
        if global {
            let home = std::env::var_os("HOME").filter(|h| !h.is_empty()).map(PathBuf::from);
            let home = home.context("HOME is not set, so there is no configuration of yours to write to")?;
            let xdg = std::env::var_os("XDG_CONFIG_HOME").filter(|x| !x.is_empty());
            let xdg = xdg.map_or_else(|| home.join(".config"), PathBuf::from).join("git");
            // Git's own order: the second of its two files only if it is the one that exists.
            let candidates = [home.join(".gitconfig"), xdg.join("config")];
            let config = match std::env::var_os("GIT_CONFIG_GLOBAL") {
                Some(path) => path.into(),
                None if !candidates[0].exists() && candidates[1].exists() => candidates[1].clone(),
                None => candidates[0].clone(),
            };
            let set = |scope| path(&["config", scope, "--includes", "--type=path", "--get", "core.attributesFile"]);
            // Not a file of the system's, which others use too.
            let configured = set("--global").or_else(|| set("--system").filter(|path| path.starts_with(&home)));
            let private_attributes = configured.unwrap_or_else(|| xdg.join("attributes"));
            return Ok(Files { git, scope: "--global", config, private_attributes, shared_attributes: None });
        }
        if Place::find().is_none() {
            bail!("not in a git repository; change to the one that is meant, or use --global for all of yours");
        }
        git.output(&["rev-parse", "--git-dir"])?;
        let git_path = |name| path(&["rev-parse", "--git-path", name]).with_context(|| format!("no place for {name}"));
        Ok(Files {
            scope: "--local",
            config: git_path("config")?,
            private_attributes: git_path("info/attributes")?,
            shared_attributes: path(&["rev-parse", "--show-toplevel"]).map(|top| top.join(".gitattributes")),
            git,
        })
    }

    pub fn setting(&self, key: &str) -> Option<OsString> {
        self.git.line(&["config", self.scope, "--get", &format!("merge.pleach.{key}")])
    }

    fn set(&self, key: &str, value: &OsString) -> anyhow::Result<()> {
        let key = format!("merge.pleach.{key}");
        self.git.output(&[
            "config".as_ref(),
            self.scope.as_ref(),
            "--replace-all".as_ref(),
            key.as_ref(),
            value.as_os_str(),
        ])?;
        Ok(())
    }
}

impl Install {
    /// Writes and shows what was written.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let files = Files::find(self.global)?;
        let attributes = match (self.shared, &files.shared_attributes) {
            (false, _) => &files.private_attributes,
            (true, Some(path)) => path,
            (true, None) => {
                bail!("there is no worktree here whose .gitattributes could be written; leave --shared out")
            }
        };
        // Before anything is written.
        must_be_plain(&files.config)?;
        must_be_plain(attributes)?;
        if self.shared && !attributes.exists() && is_tracked(&files.git, attributes) {
            bail!(
                "{} is tracked but not checked out; check it out first, or its lines would be lost",
                attributes.display()
            );
        }
        let before = merge_attributes(&files.git);
        write_settings(&files)?;
        write_attributes(attributes)?;
        tell_overruled(&before, &merge_attributes(&files.git), attributes);
        if self.shared {
            print("\nCommit .gitattributes. Each clone needs `pleach install` once; without it git merges as lines.\n");
        }
        Ok(ExitCode::SUCCESS)
    }
}

/// Git would replace a device by a file, and we would write to it; a link to a file will do.
fn must_be_plain(path: &Path) -> anyhow::Result<()> {
    match fs::metadata(path) {
        Ok(found) if !found.is_file() => bail!("{} is not a plain file; nothing was written", path.display()),
        _ => Ok(()),
    }
}

fn is_tracked(git: &Git, path: &Path) -> bool {
    git.output(&["ls-files".as_ref(), "--".as_ref(), path.as_os_str()]).is_ok_and(|found| !found.is_empty())
}

fn write_settings(files: &Files) -> anyhow::Result<()> {
    let before = match fs::read(&files.config) {
        Ok(text) => Some(text),
        Err(e) if e.kind() == io::ErrorKind::NotFound => None,
        Err(e) => bail!("could not read {}: {}", files.config.display(), plain(&e)),
    };
    let mut settings = vec![("name", NAME.into()), ("driver", driver_command()?), ("recursive", RECURSIVE.into())];
    if before.is_none() {
        settings.push((NEW_FILE, "true".into()));
    }
    let mut wrote = false;
    for (i, (key, value)) in settings.iter().enumerate() {
        let there = files.setting(key).as_ref() == Some(value);
        if !there {
            files.set(key, value)?;
            wrote = true;
        }
        // Not before: it may be that nothing can be written.
        if i == 0 {
            print(&format!("{}\n", files.config.display()));
        }
        let already = if there { "  (already there)" } else { "" };
        print(&format!("  merge.pleach.{key} = {}{already}\n", value.to_string_lossy()));
    }
    let had_no_newline = before.is_some_and(|text| !text.is_empty() && !text.ends_with(b"\n"));
    if wrote && had_no_newline {
        rewrite(&files.config, section::without_final_newline)?;
    }
    Ok(())
}

fn write_attributes(path: &Path) -> anyhow::Result<()> {
    let text = read_if_there(path)?;
    let patterns = attributes::patterns();
    let new = block::insert(text.as_deref(), &patterns);
    let there = text.as_deref() == Some(&new);
    if !there {
        if let Some(dir) = resolve_links(path).parent() {
            fs::create_dir_all(dir).map_err(|e| anyhow::anyhow!("could not make {}: {}", dir.display(), plain(&e)))?;
        }
        replace(path, &new)?;
    }
    print(&format!("{}\n", path.display()));
    let already = if there { "  (already there)" } else { "" };
    for pattern in patterns {
        print(&format!("  {pattern} merge=pleach{already}\n"));
    }
    Ok(())
}

/// Rewrites a configuration file.
pub fn rewrite(path: &Path, edit: impl FnOnce(Vec<u8>) -> Vec<u8>) -> anyhow::Result<()> {
    section::rewrite(path, edit).map_err(|e| match e.kind() {
        io::ErrorKind::AlreadyExists => anyhow::anyhow!(
            "could not write {0}: {0}.lock is there, so another git is at it; if none is, remove that file",
            path.display()
        ),
        _ => anyhow::anyhow!("could not write {}: {}", path.display(), plain(&e)),
    })
}

/// What a file holds, if there is one. A device or a pipe holds nothing of ours, and might never end.
pub fn read_if_there(path: &Path) -> anyhow::Result<Option<Vec<u8>>> {
    if fs::metadata(path).is_ok_and(|found| !found.is_file() && !found.is_dir()) {
        return Ok(None);
    }
    match fs::read(path) {
        Ok(text) => Ok(Some(text)),
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(e) => bail!("could not read {}: {}", path.display(), plain(&e)),
    }
}

/// The command line that git is to run.
///
/// It names this program by its full path, so that git finds it from wherever it is started: a
/// desktop client does not have the shell's `PATH`. But by the path in `PATH` if there is one, as
/// that (`/opt/homebrew/bin/pleach`, a link) outlives an upgrade.
fn driver_command() -> anyhow::Result<OsString> {
    let exe = std::env::current_exe().context("could not find out where this program is")?;
    let name = Path::new("pleach").with_extension(std::env::consts::EXE_EXTENSION);
    let in_path = std::env::var_os("PATH").and_then(|path| {
        let same = |p: &PathBuf| p.is_absolute() && fs::canonicalize(p).ok() == fs::canonicalize(&exe).ok();
        std::env::split_paths(&path).map(|dir| dir.join(&name)).find(same)
    });
    let exe = gix::path::into_bstr(in_path.unwrap_or(exe)).context("the path of this program is no text")?.into_owned();
    let exe = gix::path::to_unix_separators_on_windows(exe).into_owned();
    let command = format!(" driver {}", protocol::PLACEHOLDERS.join(" "));
    let mut words = quote(exe.as_bstr());
    words.push_str(command);
    Ok(gix::path::from_bstring(words)?.into_os_string())
}

/// For the shell that git runs the command with, and for git, to which `%` means something.
fn quote(path: &gix::bstr::BStr) -> BString {
    shell_word(path).replace("%", "%%").into()
}

/// The `merge` attribute of each tracked file that pleach reads.
fn merge_attributes(git: &Git) -> Vec<(BString, BString)> {
    // Not in a repository, or in a bare one: no tracked files, so nothing to say about them.
    let at_top = Place::find().map_or_else(|| git.clone(), |place| place.git());
    tracked::merge_attributes(&at_top, &attributes::patterns()).unwrap_or_default()
}

/// Names the files that said otherwise before and are pleach's now.
///
/// A line of the repository's own attributes file outweighs every `.gitattributes`, so this can
/// happen, and taking a decision away from somebody must not go unsaid.
fn tell_overruled(before: &[(BString, BString)], after: &[(BString, BString)], attributes: &Path) {
    const SHOWN: usize = 5;
    let said = |state: &BString| state != "unspecified" && state != "pleach";
    let pairs = before.iter().zip(after);
    let lost: Vec<_> = pairs.filter(|(b, a)| b.0 == a.0 && said(&b.1) && a.1 == "pleach").map(|(b, _)| b).collect();
    if lost.is_empty() {
        return;
    }
    let mut text = format!(
        "\nThese had a merge of their own, which this overrules. To keep it, add to {}:\n",
        attributes.display()
    );
    for (path, state) in lost.iter().take(SHOWN) {
        let spelled = match state.as_slice() {
            b"unset" => "-merge".to_owned(),
            b"set" => "merge".to_owned(),
            value => format!("merge={}", value.to_str_lossy()),
        };
        text.push_str(&format!("  {} {spelled}\n", attributes::pattern_of(path)));
    }
    if lost.len() > SHOWN {
        text.push_str(&format!("  and {} more\n", lost.len() - SHOWN));
    }
    print(&text);
}
