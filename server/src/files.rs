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
    asked: Mutex<Vec<Asked>>,
}

/// A file that was asked for.
#[derive(Clone, PartialEq)]
struct Asked {
    path: PathBuf,
    answer: Answer,
}

/// What was said of a file.
#[derive(Clone, PartialEq)]
enum Answer {
    /// A design's text, or points.
    Text(Result<Arc<str>, String>),
    /// A `finwright.toml`, where there is one.
    Settings(Option<Result<Arc<str>, String>>),
    /// It's another name of one that was asked for.
    Alias,
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
        // A change of a linked file is told under the name of the file itself.
        let real = if exists { real_path(path) } else { path.to_path_buf() };
        if real != path {
            self.note(real.clone(), Answer::Alias);
        }
        let text = match self.buffers.get(&real) {
            Some(buffer) => Some(check_size(buffer.text.len() as u64).map(|()| buffer.text.clone())),
            None => exists.then(|| read_text(path)),
        };
        self.note(path.to_path_buf(), Answer::Settings(text.clone()));
        text
    }

    /// Whether everything that an earlier analysis asked for is as it was then. What wasn't asked for yet is asked for
    /// here.
    pub fn are_as_in(&self, before: &ProjectFiles) -> bool {
        let now = self.noted();
        before.noted().iter().all(|asked| {
            let Asked { path, answer } = asked;
            now.contains(asked)
                || match answer {
                    Answer::Text(text) => self.read(path) == *text,
                    Answer::Settings(text) => self.settings(path) == *text,
                    Answer::Alias => true,
                }
        })
    }

    /// The real paths of everything that was asked for.
    pub fn asked(&self) -> Vec<PathBuf> {
        self.noted().into_iter().map(|asked| asked.path).collect()
    }

    fn noted(&self) -> Vec<Asked> {
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    fn note(&self, path: PathBuf, answer: Answer) {
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).push(Asked { path, answer });
    }
}

impl Files for ProjectFiles {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let path = real_path(path);
        let text = match (self.buffers.get(&path), &self.disk) {
            (Some(buffer), _) => check_size(buffer.text.len() as u64).map(|()| buffer.text.clone()),
            (None, Some(disk)) => disk.read(&path),
            (None, None) => Err("this design isn't saved yet, so it has no folder to look in".into()),
        };
        self.note(path, Answer::Text(text.clone()));
        text
    }
}
