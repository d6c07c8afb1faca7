//! The files that a design uses: an editor's buffers first, then the disk, and never outside the workspace.

use finwright_checks::Files;
use finwright_disk::{check_size, read_text, real_path, DiskFiles};
use lsp_types::Url;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

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
    disk: Option<DiskFiles>,
    folders: Vec<PathBuf>,
    asked: Mutex<Vec<PathBuf>>,
}

impl ProjectFiles {
    /// The open documents, and the disk below these folders.
    pub fn new(buffers: Arc<Buffers>, folders: Vec<PathBuf>) -> ProjectFiles {
        let disk = (!folders.is_empty()).then(|| DiskFiles::below(folders.clone()));
        ProjectFiles { buffers, disk, folders, asked: Mutex::default() }
    }

    /// The folders below which files may be read.
    pub fn folders(&self) -> &[PathBuf] {
        &self.folders
    }

    /// The open document with this path.
    pub fn buffer(&self, path: &Path) -> Option<&Buffer> {
        self.buffers.get(&real_path(path))
    }

    /// The text of a `finwright.toml`, which may lie above the workspace; `None` where there is none.
    pub fn settings(&self, path: &Path) -> Option<Result<Arc<str>, String>> {
        self.disk.as_ref()?;
        let exists = path.exists();
        let mut asked = self.asked.lock().unwrap_or_else(PoisonError::into_inner);
        asked.push(path.to_path_buf());
        // A change of a linked file is told under the name of the file itself.
        let real = if exists { real_path(path) } else { path.to_path_buf() };
        if real != path {
            asked.push(real.clone());
        }
        if let Some(buffer) = self.buffers.get(&real) {
            return Some(check_size(buffer.text.len() as u64).map(|()| buffer.text.clone()));
        }
        exists.then(|| read_text(path))
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
        match &self.disk {
            Some(disk) => disk.read(&path),
            None => Err("this design isn't saved yet, so it has no folder to look in".into()),
        }
    }
}
