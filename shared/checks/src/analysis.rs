//! The one way through: a snapshot of texts in, everything known about the design out.

use crate::finding::Finding;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Everything that is known about one design file.
pub struct Analysis {
    /// The texts that took part; number 0 is the file that was asked about.
    pub sources: Vec<Source>,
    /// What the rules found, in order of place.
    pub findings: Vec<Finding>,
}

/// Run the whole way once: parse, build the design, compute the numbers, apply the rules.
pub fn analyze(snapshot: &Snapshot) -> Analysis {
    Analysis {
        sources: vec![Source {
            path: snapshot.path.clone(),
            text: snapshot.text.clone(),
        }],
        findings: Vec::new(),
    }
}

/// What an analysis is computed from; nothing else goes in.
#[derive(Clone)]
pub struct Snapshot {
    /// The file's path, as far as it has one.
    pub path: PathBuf,
    /// Its text now, which may be newer than the one on disk.
    pub text: Arc<str>,
    /// Reads the files that this one uses.
    pub files: Arc<dyn Files>,
}

/// Gives the text of a file that a design uses. Only the edge knows the disk or an editor's buffers.
pub trait Files: Send + Sync {
    /// The text of the file, or in plain words why it can't be had.
    fn read(&self, path: &Path) -> Result<Arc<str>, String>;
}

/// One text of an analysis.
#[derive(Clone)]
pub struct Source {
    /// Its path.
    pub path: PathBuf,
    /// Its text.
    pub text: Arc<str>,
}
