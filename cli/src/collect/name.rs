//! How a path is called: from the folder that the command was started in, whichever way it was typed.

use std::collections::HashMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// The folder that the command was started in, without links. Found once, not for every design of a batch: it takes a
/// walk up the folders.
pub static STARTED_IN: LazyLock<PathBuf> =
    LazyLock::new(|| finwright_disk::real_path(&std::env::current_dir().unwrap_or_default()));

/// Names of files, each folder looked up once.
#[derive(Default)]
pub struct Names(HashMap<PathBuf, Option<PathBuf>>);

impl Names {
    /// A file's name from the folder that the command was started in, where it lies below it; else as it was typed. A
    /// link keeps its own name; the folders that lead to it don't.
    pub fn shown(&mut self, path: &Path) -> PathBuf {
        let (Some(folder), Some(file)) = (path.parent(), path.file_name()) else { return path.to_path_buf() };
        let known = self.0.entry(folder.to_path_buf()).or_insert_with(|| {
            let folder = if folder.as_os_str() == OsStr::new("") { Path::new(".") } else { folder };
            folder.canonicalize().ok().and_then(|real| Some(real.strip_prefix(&*STARTED_IN).ok()?.to_path_buf()))
        });
        match known {
            Some(folder) => folder.join(file),
            None => path.strip_prefix(".").unwrap_or(path).to_path_buf(),
        }
    }
}

/// A path from the root as seen from the folder that the command was started in.
pub fn from_here(real: &Path) -> PathBuf {
    real.strip_prefix(&*STARTED_IN).unwrap_or(real).to_path_buf()
}
