//! How a path is called: from the folder that the command was started in, whichever way it was typed.

use finwright_disk::real_path;
use std::collections::HashMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// The folder that the command was started in, without links. Found once, not for every design of a batch: it takes a
/// walk up the folders.
pub static STARTED_IN: LazyLock<PathBuf> = LazyLock::new(|| real_path(&std::env::current_dir().unwrap_or_default()));

/// Names of files, each folder looked up once.
#[derive(Default)]
pub struct Names(HashMap<PathBuf, Option<PathBuf>>);

impl Names {
    /// A file's name from the folder that the command was started in, where it lies below it; else as it was typed. A
    /// link keeps its own name; the folders that lead to it don't.
    pub fn shown(&mut self, path: &Path) -> PathBuf {
        let (Some(folder), Some(file)) = (path.parent(), path.file_name()) else { return path.to_path_buf() };
        match self.folder(folder).and_then(|real| real.strip_prefix(&*STARTED_IN).ok()) {
            Some(folder) => folder.join(file),
            None => path.strip_prefix(".").unwrap_or(path).to_path_buf(),
        }
    }

    /// The path from the root, without links, of a file that was found in a folder and isn't a link itself.
    pub fn real(&mut self, path: &Path) -> PathBuf {
        let folder = path.parent().and_then(|folder| self.folder(folder));
        folder.zip(path.file_name()).map_or_else(|| real_path(path), |(folder, file)| folder.join(file))
    }

    fn folder(&mut self, folder: &Path) -> Option<&PathBuf> {
        if !self.0.contains_key(folder) {
            let named = if folder.as_os_str() == OsStr::new("") { Path::new(".") } else { folder };
            self.0.insert(folder.to_path_buf(), named.canonicalize().ok());
        }
        self.0.get(folder).and_then(Option::as_ref)
    }
}

/// A path from the root as seen from the folder that the command was started in.
pub fn from_here(real: &Path) -> PathBuf {
    real.strip_prefix(&*STARTED_IN).unwrap_or(real).to_path_buf()
}
