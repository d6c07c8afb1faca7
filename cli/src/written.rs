//! A file written whole or not at all, whether it was there before or not.

use std::io::{Error, ErrorKind, Write};
use std::path::Path;
use tempfile::{Builder, NamedTempFile};

/// Write a file: into one beside it, which then takes its name. Where that fails nothing is left, and an older file
/// is as it was.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), String> {
    let failed = |error: Error| in_words(path, &error);
    // A device or a pipe is written to, not replaced.
    if path.metadata().is_ok_and(|about| !about.is_file() && !about.is_dir()) {
        return std::fs::OpenOptions::new()
            .write(true)
            .open(path)
            .and_then(|mut to| to.write_all(bytes))
            .map_err(failed);
    }
    let beside = beside(path, bytes).map_err(failed)?;
    beside.persist(path).map(drop).map_err(|kept| failed(kept.error))
}

/// Write a new file; `false` where there is one of that name already, which is left as it is.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<bool, String> {
    if path.symlink_metadata().is_ok() {
        return Ok(false);
    }
    let beside = beside(path, bytes).map_err(|error| in_words(path, &error))?;
    match beside.persist_noclobber(path) {
        Ok(_) => Ok(true),
        Err(kept) if kept.error.kind() == ErrorKind::AlreadyExists => Ok(false),
        Err(kept) => Err(in_words(path, &kept.error)),
    }
}

fn in_words(path: &Path, error: &Error) -> String {
    format!("{} can't be written ({error})", path.display())
}

/// The bytes in a file beside the one that they are for, on the disk.
fn beside(path: &Path, bytes: &[u8]) -> Result<NamedTempFile, Error> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut builder = Builder::new();
    builder.prefix(".finwright-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any new file, less what the user's mask takes away.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut beside = builder.tempfile_in(folder)?;
    beside.as_file_mut().write_all(bytes)?;
    Ok(beside)
}
