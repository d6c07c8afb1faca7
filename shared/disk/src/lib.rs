//! Reading design files from the disk, for the edges: confined to folders, bounded in size, refusals in plain words.

use finwright_grammar::LineIndex;
use finwright_model::Files;
use std::io::Read;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

/// Larger files aren't read: no design comes near it, and a wrong file would stall everything.
pub const SIZE_LIMIT: usize = finwright_grammar::LARGEST_FILE;

/// Files below some folders, links followed to where they really lead.
pub struct DiskFiles {
    folders: Vec<PathBuf>,
}

impl DiskFiles {
    /// The files below these folders, given by their [`real_path`]s: every keystroke in an editor comes through here,
    /// and folders are looked up once, where they become known.
    pub fn below(folders: impl IntoIterator<Item = PathBuf>) -> DiskFiles {
        DiskFiles { folders: folders.into_iter().collect() }
    }
}

impl Files for DiskFiles {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let real = real_path(path);
        if !self.folders.iter().any(|folder| real.starts_with(folder)) {
            return Err("it lies outside the workspace, and files there aren't read".to_string());
        }
        read_text(&real)
    }
}

/// A file's text, or why it can't be had.
pub fn read_text(path: &Path) -> Result<Arc<str>, String> {
    let about = std::fs::metadata(path).map_err(plain_words)?;
    // A pipe or a device could keep the reader waiting for ever.
    if !about.is_file() {
        return Err("it isn't a file".to_string());
    }
    check_size(about.len())?;
    // It may have grown since, or be another file by now: one byte over the limit is enough to know.
    let mut bytes = Vec::with_capacity(about.len() as usize + 1);
    let file = std::fs::File::open(path).map_err(plain_words)?;
    file.take(SIZE_LIMIT as u64 + 1).read_to_end(&mut bytes).map_err(plain_words)?;
    text_of(bytes)
}

/// Bytes as text, or where they stop being text.
pub fn text_of(bytes: Vec<u8>) -> Result<Arc<str>, String> {
    check_size(bytes.len() as u64)?;
    let text = String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let before = String::from_utf8_lossy(&error.as_bytes()[..good]).into_owned();
        let (line, column) = LineIndex::new(&before).line_and_column(before.len(), &before);
        format!("it isn't text in UTF-8: line {line}, column {column} holds the byte 0x{:02X}", error.as_bytes()[good])
    })?;
    if let Some(at) = text.find('\0') {
        let (line, column) = LineIndex::new(&text).line_and_column(at, &text);
        return Err(format!("it isn't text: line {line}, column {column} holds a zero byte"));
    }
    Ok(Arc::from(text))
}

/// Whether so many bytes are few enough.
pub fn check_size(bytes: u64) -> Result<(), String> {
    if bytes > SIZE_LIMIT as u64 {
        return Err("it is larger than 1 MB, and files of that size aren't read".to_string());
    }
    Ok(())
}

/// The path without links, `.` and `..`; of a file that doesn't exist, as much as can be known.
pub fn real_path(path: &Path) -> PathBuf {
    if let Ok(real) = path.canonicalize() {
        return real;
    }
    let plain = without_dots(path);
    // A bare name lies in the folder that the program was started in.
    let folder = plain.parent().map(|parent| if parent.as_os_str().is_empty() { Path::new(".") } else { parent });
    match (folder.map(Path::canonicalize), plain.file_name()) {
        (Some(Ok(folder)), Some(name)) => folder.join(name),
        _ => plain,
    }
}

/// An error of the file system in plain words.
pub fn plain_words(error: std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_string(),
        std::io::ErrorKind::PermissionDenied => "it may not be read by this user".to_string(),
        _ => format!("it can't be read ({error})"),
    }
}

fn without_dots(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => {
                // What leads above a relative path's start has to stay, or it would seem to stay inside.
                if !plain.pop() {
                    plain.push("..");
                }
            }
            other => plain.push(other),
        }
    }
    plain
}
