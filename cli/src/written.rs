//! A file written whole or not at all, whether it was there before or not.

use std::io::Write;
use std::path::Path;
use tempfile::Builder;

/// Write a file: into one beside it, which then takes its name. Where that fails nothing is left, and an older file
/// is as it was.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), String> {
    let failed = |error: std::io::Error| format!("{} can't be written ({error})", path.display());
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut builder = Builder::new();
    builder.prefix(".finwright-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any new file, less what the user's mask takes away.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut beside = builder.tempfile_in(folder).map_err(failed)?;
    beside.as_file_mut().write_all(bytes).map_err(failed)?;
    beside.persist(path).map(drop).map_err(|kept| failed(kept.error))
}
