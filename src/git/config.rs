use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use gix::bstr::{BStr, BString, ByteSlice};
use gix::config::file::{Metadata, includes, init};
use gix::config::{File, KeyRef, Source, path};
use gix::refs::FullName;

use crate::Settings;
use crate::git::Place;
use crate::line::{Algorithm, Favor, Style};

/// Git's configuration, read without a process.
///
/// Two things differ from `git config`: a file that git was compiled to read in an unusual place
/// is only looked for where the usual builds put it, and a broken file counts as absent (git has
/// complained about it before it called us).
#[derive(Debug, Default)]
pub struct Config {
    /// All of it, in the order in which git reads it: what comes later beats what came before.
    all: File,
}

/// A configured value that git would refuse.
#[derive(Debug, thiserror::Error)]
pub enum BadValue {
    /// The key stands alone, without a value.
    #[error("missing value for '{key}'")]
    Missing {
        /// The key as git prints it.
        key: &'static str,
    },
    /// The value is none of those that the key allows.
    #[error("unknown style '{value}' given for '{key}'")]
    UnknownStyle {
        /// The key as git prints it.
        key: &'static str,
        /// What the configuration says.
        value: BString,
    },
}

impl BadValue {
    /// The key as git prints it.
    pub fn key(&self) -> &'static str {
        match self {
            BadValue::Missing { key } | BadValue::UnknownStyle { key, .. } => key,
        }
    }
}

impl Config {
    /// Reads the system's, the user's, the repository's and the command line's configuration.
    pub fn read(place: &Place) -> Config {
        let home = gix::path::env::home_dir();
        // For `includeIf "onbranch:…"`.
        let head = fs::read_to_string(place.git_dir.join("HEAD")).unwrap_or_default();
        let branch = head.strip_prefix("ref:").and_then(|name| FullName::try_from(name.trim()).ok());
        let includes = includes::Options::follow(
            path::interpolate::Context { home_dir: home.as_deref(), ..Default::default() },
            includes::conditional::Context {
                git_dir: Some(&place.git_dir),
                branch_name: branch.as_ref().map(|name| name.as_ref()),
            },
        );
        let options = || init::Options { includes, lossy: true, ignore_io_errors: true };
        let mut all = File::default();
        let add = |all: &mut File, source: Source, path: Option<PathBuf>| {
            let Some(path) = path.filter(|p| p.is_file()) else { return };
            // One file at a time, so that a broken one does not hide the others.
            let Ok(mut text) = fs::read(&path) else { return };
            spell_includes(&mut text);
            if let Ok(file) = File::from_bytes_owned(&mut text, Metadata::from(source).at(path), options()) {
                let _ = all.append(file);
            }
        };
        let mut env = gix::path::env::var;
        add(&mut all, Source::GitInstallation, installation_config());
        for source in [Source::System, Source::Git, Source::User] {
            add(&mut all, source, source.storage_location(&mut env));
        }
        add(&mut all, Source::Local, Some(place.common_dir.join("config")));
        if all.boolean("extensions.worktreeConfig").ok().flatten().unwrap_or(false) {
            add(&mut all, Source::Worktree, Some(place.git_dir.join("config.worktree")));
        }
        let command_line = std::env::var_os("GIT_CONFIG_PARAMETERS")
            .map(|v| command_line(&gix::path::os_string_into_bstring(v).unwrap_or_default(), options()));
        for file in File::from_env(options()).ok().flatten().into_iter().chain(command_line) {
            let _ = all.append(file);
        }
        Config { all }
    }

    /// The last value of `key`. `Some(None)` is a key without `=`, which git reads as true.
    pub fn value(&self, key: &str) -> Option<Option<BString>> {
        match self.all.string(key) {
            Some(value) => Some(Some(value)),
            None => self.all.boolean(key).ok().flatten().map(|_| None),
        }
    }

    fn text(&self, key: &str) -> Option<BString> {
        self.value(key).flatten()
    }

    /// `merge.conflictStyle`.
    ///
    /// # Errors
    /// Where `git merge` and `git merge-file` would stop: no value, or one that is no style.
    pub fn conflict_style(&self) -> Result<Option<Style>, BadValue> {
        let key = "merge.conflictstyle";
        match self.value(key) {
            None => Ok(None),
            Some(None) => Err(BadValue::Missing { key }),
            Some(Some(value)) => match value.as_slice() {
                b"merge" => Ok(Some(Style::Merge)),
                b"diff3" => Ok(Some(Style::Diff3)),
                b"zdiff3" => Ok(Some(Style::ZDiff3)),
                _ => Err(BadValue::UnknownStyle { key, value }),
            },
        }
    }

    /// `pleach.deadline`: seconds, or milliseconds with `ms` behind the number.
    pub fn deadline(&self) -> Option<Duration> {
        let text = self.text("pleach.deadline")?;
        let text = text.to_str().ok()?.trim();
        match text.strip_suffix("ms") {
            Some(number) => number.trim().parse().ok().map(Duration::from_millis),
            None => {
                let seconds: f64 = text.strip_suffix('s').unwrap_or(text).trim().parse().ok()?;
                Duration::try_from_secs_f64(seconds).ok()
            }
        }
    }

    /// `pleach.favor`: what `git merge -X ours` and `-X theirs` ask for, and `union`. Git does not tell
    /// a driver its options.
    pub fn favor(&self) -> Option<Favor> {
        match self.text("pleach.favor")?.as_slice() {
            b"ours" => Some(Favor::Ours),
            b"theirs" => Some(Favor::Theirs),
            b"union" => Some(Favor::Union),
            _ => None,
        }
    }

    /// The settings of our own that mean nothing, and what of it, one line each.
    pub fn complaints(&self) -> Vec<(&'static str, String)> {
        let said = |key| self.text(key).filter(|value| !value.trim().is_empty());
        let mut complaints = Vec::new();
        if let (Some(value), None) = (said("pleach.favor"), self.favor()) {
            let text = format!("pleach.favor is {value}, which is none of ours, theirs and union; no side is favoured");
            complaints.push(("pleach.favor", text));
        }
        if let (Some(value), None) = (said("pleach.deadline"), self.deadline()) {
            let default = Settings::default().deadline.as_secs_f32();
            let text = format!("pleach.deadline is {value}, which is no number of seconds; it is {default} s");
            complaints.push(("pleach.deadline", text));
        }
        complaints
    }

    /// `core.attributesFile`, or where git looks when that is not set.
    pub fn attributes_file(&self) -> Option<PathBuf> {
        let home = gix::path::env::home_dir();
        match self.text("core.attributesFile") {
            Some(path) => {
                let context = path::interpolate::Context { home_dir: home.as_deref(), ..Default::default() };
                gix::config::Path::from(path).interpolate(context).ok()
            }
            None => gix::path::env::xdg_config("attributes", &mut gix::path::env::var),
        }
    }

    /// `core.ignoreCase`: whether attribute patterns match without regard to case.
    pub fn ignores_case(&self) -> bool {
        self.all.boolean("core.ignoreCase").ok().flatten().unwrap_or(false)
    }

    /// Sets what the configuration says of a merge that git itself runs.
    ///
    /// `diff.algorithm` is not among it: whatever that and `-X diff-algorithm` say, the merges that git
    /// runs compare lines by histogram.
    ///
    /// # Errors
    /// A value that git would refuse; the rest of `settings` is set all the same.
    pub fn apply(&self, settings: &mut Settings) -> Result<(), BadValue> {
        if let Some(deadline) = self.deadline() {
            settings.deadline = deadline;
        }
        settings.line.favor = self.favor();
        if let Some(style) = self.conflict_style()? {
            settings.line.style = style;
        }
        Ok(())
    }
}

/// A diff algorithm by git's name for it.
pub fn algorithm(name: &[u8]) -> Option<Algorithm> {
    Some(match name.to_ascii_lowercase().as_slice() {
        b"myers" | b"default" => Algorithm::Myers,
        b"minimal" => Algorithm::Minimal,
        b"patience" => Algorithm::Patience,
        b"histogram" => Algorithm::Histogram,
        _ => return None,
    })
}

/// `etc/gitconfig` beside the git that called us.
///
/// Only git knows where it was compiled to look, and asking it is a process. But it puts its
/// exec path (`<prefix>/libexec/git-core`) first in `PATH` for everything it starts, and the usual
/// builds read `<prefix>/etc/gitconfig`, or `/etc/gitconfig` for `/usr`, which is read anyway.
fn installation_config() -> Option<PathBuf> {
    if std::env::var_os("GIT_CONFIG_SYSTEM").is_some() || std::env::var_os("GIT_CONFIG_NOSYSTEM").is_some() {
        return None;
    }
    let exec_path = match std::env::var_os("GIT_EXEC_PATH") {
        Some(path) => PathBuf::from(path),
        None => std::env::split_paths(&std::env::var_os("PATH")?).next()?,
    };
    let prefix = installation_prefix(&exec_path)?;
    (prefix != Path::new("/usr")).then(|| prefix.join("etc/gitconfig"))
}

/// `<prefix>` of `<prefix>/lib/git-core` or `<prefix>/libexec/git-core`.
fn installation_prefix(exec_path: &Path) -> Option<&Path> {
    let lib = exec_path.parent().filter(|_| exec_path.ends_with("git-core"))?;
    lib.parent().filter(|_| lib.ends_with("lib") || lib.ends_with("libexec"))
}

/// Writes the headers of sections that include files as gix knows them; git knows them in any case.
fn spell_includes(text: &mut [u8]) {
    for line in text.split_mut(|c| *c == b'\n') {
        let indent = line.iter().take_while(|c| c.is_ascii_whitespace()).count();
        let [b'[', name @ ..] = &mut line[indent..] else { continue };
        let length = name.iter().take_while(|c| c.is_ascii_alphanumeric()).count();
        if let Some(spelling) = INCLUDES.iter().find(|s| s.as_bytes().eq_ignore_ascii_case(&name[..length])) {
            name[..length].copy_from_slice(spelling.as_bytes());
        }
    }
}

/// The sections that include files.
const INCLUDES: [&str; 2] = ["include", "includeIf"];

/// What `git -c key=value` says, as it tells it to what it starts, with the files that it includes.
fn command_line(text: &[u8], options: init::Options<'_>) -> File {
    let mut file = File::new(Metadata::from(Source::Cli));
    for (key, value) in parameters(text) {
        let Some(key) = KeyRef::parse_unvalidated(key.as_bstr()) else { continue };
        let name = INCLUDES.iter().find(|s| s.eq_ignore_ascii_case(key.section_name)).unwrap_or(&key.section_name);
        // A section each: what is said behind an included file beats it.
        if let Ok(mut section) = file.new_section(name, key.subsection_name.map(ToOwned::to_owned)) {
            let _ = match value {
                Some(value) => section.push(key.value_name, value).map(drop),
                None => section.push(key.value_name, None::<&BStr>).map(drop),
            };
        }
    }
    let _ = file.resolve_includes(options);
    file
}

/// Reads `GIT_CONFIG_PARAMETERS`: `'key'='value'` since git 2.31, `'key=value'` before.
fn parameters(text: &[u8]) -> Vec<(BString, Option<BString>)> {
    let mut found = Vec::new();
    let mut rest = text.trim_start();
    while let Some((first, after)) = unquote(rest) {
        let (key, value, after) = match after.strip_prefix(b"=") {
            Some(after) => match unquote(after) {
                Some((value, after)) => (first, Some(value), after),
                None => (first, None, after),
            },
            None => match first.find_byte(b'=') {
                Some(at) => (first[..at].into(), Some(first[at + 1..].into()), after),
                None => (first, None, after),
            },
        };
        found.push((key, value));
        rest = after.trim_start();
    }
    found
}

/// One word in git's shell quoting (`'it'\''s'`), and what follows it.
fn unquote(text: &[u8]) -> Option<(BString, &[u8])> {
    let mut rest = text.strip_prefix(b"'")?;
    let mut word = BString::default();
    loop {
        let end = rest.find_byte(b'\'')?;
        word.extend_from_slice(&rest[..end]);
        rest = &rest[end + 1..];
        match rest {
            [b'\\', c, b'\'', ..] => {
                word.push(*c);
                rest = &rest[3..];
            }
            _ => return Some((word, rest)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sections_that_include_are_known_in_any_case() {
        let mut text = *b"[INCLUDE]\n\t[includeif \"onbranch:Main\"]\n[included]\n[";
        spell_includes(&mut text);
        assert_eq!(text.as_bstr(), "[include]\n\t[includeIf \"onbranch:Main\"]\n[included]\n[");
    }

    #[test]
    fn both_forms_of_git_minus_c_are_read() {
        let found = parameters(b"'merge.conflictStyle'='diff3' 'diff.algorithm=patience' 'pleach.x'= 'a.b'='it'\\''s'");
        let value = |s: &str| Some(BString::from(s));
        assert_eq!(
            found,
            [
                ("merge.conflictStyle".into(), value("diff3")),
                ("diff.algorithm".into(), value("patience")),
                ("pleach.x".into(), None),
                ("a.b".into(), value("it's")),
            ]
        );
    }
}
