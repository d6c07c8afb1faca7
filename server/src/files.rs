//! The files that a design uses: an editor's buffers first, then the disk, and never outside the workspace.

use finwright_checks::Files;
use lsp_types::Url;
use std::collections::HashMap;
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// Larger files aren't read: no design comes near it, and a wrong file would stall the editor.
pub const SIZE_LIMIT: usize = 4 * 1024 * 1024;

/// An open document, as other documents see it.
#[derive(Clone)]
pub struct Buffer {
    /// The name that the editor gave it.
    pub uri: Url,
    /// The editor's count of its changes.
    pub version: i32,
    /// Its text.
    pub text: Arc<str>,
}

/// The open documents by their real paths.
pub type Buffers = HashMap<PathBuf, Buffer>;

/// The files that one analysis may see. It keeps a list of what was asked for, found or not, so that a change of any
/// of them can set off a new analysis.
pub struct ProjectFiles {
    buffers: Arc<Buffers>,
    folders: Vec<PathBuf>,
    asked: Mutex<Vec<PathBuf>>,
}

impl ProjectFiles {
    /// The files below these folders, given by their real paths.
    pub fn new(buffers: Arc<Buffers>, folders: Vec<PathBuf>) -> ProjectFiles {
        ProjectFiles { buffers, folders, asked: Mutex::default() }
    }

    /// The open document with this path.
    pub fn buffer(&self, path: &Path) -> Option<&Buffer> {
        self.buffers.get(&real_path(path))
    }

    /// The real paths of everything that was asked for.
    pub fn asked(&self) -> Vec<PathBuf> {
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }
}

impl Files for ProjectFiles {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let path = real_path(path);
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).push(path.clone());
        if let Some(buffer) = self.buffers.get(&path) {
            return check_size(buffer.text.len() as u64).map(|()| buffer.text.clone());
        }
        if self.folders.is_empty() {
            return Err("this design isn't saved yet, so it has no folder to look in".into());
        }
        if !self.folders.iter().any(|folder| path.starts_with(folder)) {
            return Err("it lies outside the workspace, and files there aren't read".into());
        }
        read_file(&path)
    }
}

/// The path without links, `.` and `..`; of a file that doesn't exist, as much as can be known.
pub fn real_path(path: &Path) -> PathBuf {
    if let Ok(real) = path.canonicalize() {
        return real;
    }
    let plain = without_dots(path);
    match (plain.parent().map(Path::canonicalize), plain.file_name()) {
        (Some(Ok(folder)), Some(name)) => folder.join(name),
        _ => plain,
    }
}

fn read_file(path: &Path) -> Result<Arc<str>, String> {
    let about = std::fs::metadata(path).map_err(plain_words)?;
    // A pipe or a device could keep the reader waiting for ever.
    if !about.is_file() {
        return Err("it isn't a file".into());
    }
    check_size(about.len())?;
    let bytes = std::fs::read(path).map_err(plain_words)?;
    String::from_utf8(bytes).map(Arc::from).map_err(|_| "it isn't text in UTF-8".into())
}

fn check_size(bytes: u64) -> Result<(), String> {
    match bytes > SIZE_LIMIT as u64 {
        true => Err("it is larger than 4 MB, and files of that size aren't read".into()),
        false => Ok(()),
    }
}

fn plain_words(error: std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".into(),
        std::io::ErrorKind::PermissionDenied => "it may not be read by this user".into(),
        _ => format!("it can't be read ({error})"),
    }
}

fn without_dots(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => {
                plain.pop();
            }
            other => plain.push(other),
        }
    }
    plain
}
