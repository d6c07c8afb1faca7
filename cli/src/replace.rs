//! A file's text replaced whole: at every moment the old text is there, or the new one.

use crate::output::printable;
use similar::TextDiff;
use std::io::{Error, ErrorKind, Write};
use std::path::Path;
use tempfile::Builder;

/// Write a new text for a file: into a file beside it, which then takes its name and has its permissions. Where that
/// fails the old file is as it was, and nothing is left beside it. Other names of the file (hard links) keep the old
/// text.
pub fn replace(path: &Path, text: &str) -> Result<(), String> {
    let permissions = std::fs::metadata(path).map_err(|error| in_words(&error))?.permissions();
    if permissions.readonly() {
        return Err("it is write-protected, and left as it was".to_string());
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let beside = Builder::new().prefix(".finwright-").tempfile_in(folder);
    let mut beside = beside.map_err(|error| match error.kind() {
        ErrorKind::PermissionDenied => "it can't be written, since its folder takes no new file".to_string(),
        _ => in_words(&error),
    })?;
    let file = beside.as_file_mut();
    let written = file
        .write_all(text.as_bytes())
        .and_then(|()| file.set_permissions(permissions))
        // Before the name changes hands the text has to be on the disk, or a power cut could leave an empty file.
        .and_then(|()| file.sync_all());
    written.map_err(|error| in_words(&error))?;
    beside.persist(path).map(drop).map_err(|failed| in_words(&failed.error))
}

fn in_words(error: &Error) -> String {
    format!("it can't be written, and is as it was ({error})")
}

/// A link is told and left alone: what it leads to may lie in a folder that nobody meant to change, and a new file in
/// its place would part the two.
pub fn link(path: &Path) -> Option<String> {
    let target = std::fs::read_link(path).ok()?;
    let (shown, target) = (path.display().to_string(), target.display().to_string());
    Some(format!("{} is a link to {}", printable(&shown), printable(&target)))
}

/// A unified difference, as `patch` takes it.
pub fn difference(shown: &str, before: &str, after: &str) -> String {
    TextDiff::from_lines(before, after).unified_diff().context_radius(3).header(shown, shown).to_string()
}
