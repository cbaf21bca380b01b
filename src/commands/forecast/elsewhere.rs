//! Where lines are now that a side took out of a file, and what the other side changed in a file that it took out.

use std::ffi::OsString;

use gix::bstr::ByteSlice;

use crate::edits::kept;
use crate::git::Git;
use crate::git::unmerged::Unmerged;
use crate::line;
use crate::report::shown;
use crate::{Side, Sought, Version, Versions};

/// Of so many files that a side took out it is looked where their lines are now: each takes git a while.
const LOOKED_FOR: usize = 20;

/// A file that one side changed and the other does not have any more.
pub(super) struct OneSided {
    /// What the sides did, in words.
    pub what: String,
    /// Where the side that took it out has its lines now, in words behind those.
    pub now: String,
    /// The lines that the side that has it changed, if they are few.
    pub changes: Vec<String>,
}

/// Of each of these files, what the sides did if only one has it and base had it too. Of these commits.
pub(super) fn one_sided(git: &Git, files: &[Unmerged], commits: Versions<&str>) -> Vec<Option<OneSided>> {
    let names = |file: &Unmerged| {
        let side = file.only_side().filter(|_| file.stages.base.is_some())?;
        let path = file.path.to_str().ok().filter(|path| !path.contains('\n'))?;
        Some((side, [Version::from(side), Version::Base].map(|v| format!("{}:{path}", commits.get(v)))))
    };
    let found: Vec<_> = files.iter().map(names).collect();
    let names: Vec<&str> = found.iter().flatten().flat_map(|(_, names)| names).map(String::as_str).collect();
    let Ok(blobs) = git.blobs(&names) else { return files.iter().map(|_| None).collect() };
    let mut blobs = blobs.chunks_exact(2);
    let mut looked_for = 0;
    let one = |(file, found): (&Unmerged, Option<(Side, _)>)| {
        let (side, _) = found?;
        let [has, lacks] = [side, side.other()].map(|side| Version::from(side).name());
        let told = |what| OneSided { what, now: String::new(), changes: Vec::new() };
        let [Some(text), before] = blobs.next()? else {
            // Something else has its name, so that git gave it another.
            return Some(told(format!("{has} changed it, {lacks} made it something else than a file")));
        };
        let Some(before) = before else { return Some(told(format!("{lacks} deleted it, {has} renamed it"))) };
        let told = told(format!("{lacks} deleted it, {has} changed it"));
        if line::looks_binary(before) || line::looks_binary(text) {
            return Some(told);
        }
        looked_for += 1;
        let sought = Sought { side: side.other(), lines: kept::telling(before) };
        let now = (looked_for <= LOOKED_FOR).then(|| elsewhere(git, &sought, commits, &file.path)).flatten();
        let changes = kept::few_changes(before, text).unwrap_or_default();
        Some(OneSided { now: now.unwrap_or_default(), changes, ..told })
    };
    files.iter().zip(found).map(one).collect()
}

/// Where a side has lines now that it took out of the file at `path`: if that is one file, and one that did not have them
/// in base. Of these commits.
pub(super) fn elsewhere(git: &Git, sought: &Sought, commits: Versions<&str>, path: &[u8]) -> Option<String> {
    let side = Version::from(sought.side);
    let [before, now] = [Version::Base, side].map(|version| files_with(git, &sought.lines, commits.get(version)));
    let before = before.unwrap_or_default();
    let mut new = now?.into_iter().filter(|name| name != path && !before.contains(name));
    let one = new.next().filter(|_| new.next().is_none())?;
    Some(format!("; {} has them in {} now", side.name(), shown(&one)))
}

/// The files of a commit that have most of some lines: a few may have been changed.
fn files_with(git: &Git, lines: &[Vec<u8>], commit: &str) -> Option<Vec<Vec<u8>>> {
    if lines.is_empty() {
        return None;
    }
    let mut args: Vec<OsString> = ["grep", "-z", "-c", "-F"].into_iter().map(OsString::from).collect();
    for line in lines {
        args.extend(["-e".into(), line.to_os_str().ok()?.to_owned()]);
    }
    args.extend([commit.into(), "--".into(), ":(top)".into()]);
    let found = git.output(&args).ok()?;
    // A file's name ends with a NUL, and how many of its lines match with a line end.
    let counted = |line: &[u8]| {
        let (name, count) = line.split_at(line.find_byte(0)?);
        let count: usize = count[1..].to_str().ok()?.parse().ok()?;
        let name = name.strip_prefix(commit.as_bytes())?.strip_prefix(b":")?;
        (count * 3 >= lines.len() * 2).then(|| name.to_vec())
    };
    Some(found.lines().filter_map(counted).collect())
}
