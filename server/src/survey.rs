//! Questions about all designs of a workspace, answered from its files as they are: nothing about them is kept, since a
//! second of reading now and then costs less than 10,000 trees in memory.

use crate::files::{Buffers, ProjectFiles};
use crate::near::designs;
use finwright_checks::Files;
use finwright_disk::real_path;
use finwright_grammar::Span;
use finwright_model::{load, SourceFile};
use lsp_types::{Location, Url};
use rayon::prelude::*;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A workspace as it is at one moment.
#[derive(Clone)]
pub struct Workspace {
    /// Its folders.
    pub folders: Vec<PathBuf>,
    /// The open documents.
    pub buffers: Arc<Buffers>,
    /// What was agreed with the client.
    pub terms: crate::terms::Terms,
}

/// One design of a workspace.
pub struct Design {
    /// Where it is.
    pub path: PathBuf,
    /// Its text.
    pub text: Arc<str>,
}

impl Workspace {
    /// What is found in the designs whose text has a word in it, in the order of their paths. `wanted` says whether
    /// anybody still waits.
    pub fn search<T: Send>(
        &self,
        word: &str,
        wanted: &(impl Fn() -> bool + Sync),
        find: impl Fn(&Design) -> Vec<T> + Sync + Send,
    ) -> Vec<T> {
        let look = |path: PathBuf| {
            if !wanted() {
                return Vec::new();
            }
            let files = self.files(&path);
            match files.read(&path) {
                Ok(text) if text.contains(word) => find(&Design { path, text }),
                _ => Vec::new(),
            }
        };
        self.paths().into_par_iter().flat_map_iter(look).collect()
    }

    /// A design with the files that it uses, itself first.
    pub fn load(&self, design: &Design) -> Vec<SourceFile> {
        load(&design.path, design.text.clone(), &self.files(&design.path), &mut Vec::new())
    }

    /// A design's name for the editor and its version where it's open.
    pub fn name(&self, path: &Path) -> Option<(Url, Option<i32>)> {
        match self.buffers.get(path) {
            Some(buffer) => Some((buffer.uri.clone(), Some(buffer.version))),
            None => Some((Url::from_file_path(path).ok()?, None)),
        }
    }

    /// A place in a design.
    pub fn location(&self, design: &Design, span: Span) -> Option<Location> {
        let (uri, _) = self.name(&design.path)?;
        Some(Location::new(uri, self.range(&design.text, span)))
    }

    /// A stretch of a text.
    pub fn range(&self, text: &str, span: Span) -> lsp_types::Range {
        crate::position::range(&ropey::Rope::from_str(text), self.terms.encoding, span)
    }

    /// All designs: those on disk, and open ones that aren't there yet.
    pub fn paths(&self) -> Vec<PathBuf> {
        let mut paths: Vec<PathBuf> = designs(&self.folders).map(|path| real_path(&path)).collect();
        paths
            .extend(self.buffers.keys().filter(|path| path.extension().is_none_or(|ending| ending != "toml")).cloned());
        paths.sort();
        paths.dedup();
        paths
    }

    /// What a design may see.
    pub fn files(&self, path: &Path) -> ProjectFiles {
        let inside = self.folders.iter().any(|folder| path.starts_with(folder));
        let own = || path.parent().filter(|_| path.is_absolute()).map(PathBuf::from).into_iter().collect();
        ProjectFiles::new(self.buffers.clone(), if inside { self.folders.clone() } else { own() })
    }
}
