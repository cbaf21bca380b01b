use std::fs::{self, File, OpenOptions};
use std::io::{self, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

/// Why a file was not replaced. It still holds what it held.
#[derive(Debug, thiserror::Error)]
pub enum ReplaceError {
    /// The file may not be written.
    #[error("Could not open {path} for writing: {}", super::plain(error))]
    Open {
        /// The file as the caller named it.
        path: String,
        /// What the system said.
        error: io::Error,
    },
    /// The new bytes could not be stored.
    #[error("Could not write to {path}: {}", super::plain(error))]
    Write {
        /// The file as the caller named it.
        path: String,
        /// What the system said.
        error: io::Error,
    },
}

/// Replaces what the file at `path` holds, all of it or nothing.
///
/// The bytes are written to a new file beside it, which then takes its name, mode and owner. So a
/// reader sees the old file or the new one, and a full disk or a kill in the middle leaves the old
/// one. A symbolic link is followed and stays, as with `git merge-file`, which writes through it.
/// Other hard links keep the old contents: that is the price of never having half a file.
///
/// Where no file may be made beside it (a read-only directory) or it is no ordinary file (a
/// device, a pipe), it is overwritten in place, its growth first, so that a full disk is noticed
/// before an old byte is lost.
///
/// # Errors
/// The file may not be opened for writing, or the disk refuses the bytes.
pub fn replace(path: &Path, bytes: &[u8]) -> Result<(), ReplaceError> {
    replace_by(path, bytes, rename)
}

/// The same for a file that is read and removed at once, as those are that git gives a driver: after a crash of the
/// machine there may be nothing in it.
///
/// Some file systems write a new file to the disk when it takes the place of another one, so that there is something in
/// it after a crash (ext4's `auto_da_alloc`), but not when the two change places. That takes longer than some merges.
///
/// # Errors
/// As [`replace`].
pub fn replace_passing(path: &Path, bytes: &[u8]) -> Result<(), ReplaceError> {
    replace_by(path, bytes, exchange)
}

/// Has a file take the place of the one at `path`, which is removed.
#[cfg(target_os = "linux")]
fn exchange(new: NamedTempFile, path: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    match renameat_with(CWD, new.path(), CWD, path, RenameFlags::EXCHANGE) {
        Ok(()) => {
            // What has the temporary name now is the old file. The new one stands, whatever becomes of that.
            drop(new);
            Ok(())
        }
        // There is none, or the file system cannot do it.
        Err(_) => rename(new, path),
    }
}

#[cfg(not(target_os = "linux"))]
use rename as exchange;

/// Has a file take the name of the one at `path`, if there is one.
fn rename(new: NamedTempFile, path: &Path) -> io::Result<()> {
    new.persist(path).map(drop).map_err(|e| e.error)
}

fn replace_by(
    path: &Path,
    bytes: &[u8],
    put: impl FnOnce(NamedTempFile, &Path) -> io::Result<()>,
) -> Result<(), ReplaceError> {
    let name = || path.display().to_string();
    let open_error = |error| ReplaceError::Open { path: name(), error };
    let write_error = |error| ReplaceError::Write { path: name(), error };

    // Rename would replace even a file that we may not write, so ask for the right to do so first.
    let mut old = match OpenOptions::new().write(true).open(path) {
        Ok(file) => Some(file),
        Err(e) if e.kind() == io::ErrorKind::NotFound => None,
        Err(e) => return Err(open_error(e)),
    };
    let metadata = old.as_ref().map(File::metadata).transpose().map_err(open_error)?;
    if let (Some(old), Some(metadata)) = (&mut old, &metadata)
        && !metadata.is_file()
    {
        return old.write_all(bytes).map_err(write_error);
    }
    let real = resolve_links(path);
    let dir = match real.parent() {
        Some(dir) if !dir.as_os_str().is_empty() => dir,
        _ => Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    builder.prefix(".pleach-");
    #[cfg(unix)]
    if metadata.is_none() {
        // What creating the file outright would ask for; the umask takes its share of it.
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    let mut new = match builder.tempfile_in(dir) {
        Ok(new) => new,
        Err(e) => {
            return match old {
                Some(old) => overwrite(old, path, bytes).map_err(write_error),
                None => Err(open_error(e)),
            };
        }
    };
    new.write_all(bytes).map_err(write_error)?;
    if let Some(metadata) = &metadata {
        dress(new.as_file(), metadata).map_err(write_error)?;
    }
    put(new, &real).map_err(write_error)
}

/// The file that writing to `path` would reach, whether it is there or not; `path` itself if it is no link.
pub fn resolve_links(path: &Path) -> PathBuf {
    // As many as Linux follows.
    const MOST: usize = 40;
    let mut at = path.to_owned();
    for _ in 0..MOST {
        let Ok(target) = fs::read_link(&at) else { return at };
        at = at.parent().unwrap_or(Path::new("")).join(target);
    }
    path.to_owned()
}

/// Gives the new file the old one's owner, as far as we may, and mode.
#[cfg(unix)]
fn dress(new: &File, old: &fs::Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt, fchown};
    let now = new.metadata()?;
    if (now.uid(), now.gid()) != (old.uid(), old.gid()) {
        // Only root may give files away; a file of a colleague's in a shared directory becomes ours.
        let _ = fchown(new, Some(old.uid()), Some(old.gid()));
    }
    match now.permissions() == old.permissions() {
        true => Ok(()),
        false => new.set_permissions(old.permissions()),
    }
}

#[cfg(not(unix))]
fn dress(_: &File, _: &fs::Metadata) -> io::Result<()> {
    Ok(())
}

/// Writes over a file of the same name, in an order that keeps the old bytes while the disk may
/// still refuse the new ones.
fn overwrite(mut file: File, path: &Path, bytes: &[u8]) -> io::Result<()> {
    let old = fs::read(path)?;
    let (head, growth) = bytes.split_at(old.len().min(bytes.len()));
    let grown = file.seek(SeekFrom::Start(old.len() as u64)).and_then(|_| file.write_all(growth));
    let written = grown.and_then(|()| file.seek(SeekFrom::Start(0))).and_then(|_| file.write_all(head));
    if let Err(e) = written {
        // The old bytes fit here a moment ago.
        file.seek(SeekFrom::Start(0))?;
        file.write_all(&old)?;
        file.set_len(old.len() as u64)?;
        return Err(e);
    }
    file.set_len(bytes.len() as u64)
}
