//! Designs as fixtures.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_checks::{analyze, Analysis, Files, Settings, Snapshot};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A text analysed by itself with the usual settings.
pub fn analysis(text: &str) -> Analysis {
    analysis_under(text, Settings::default())
}

/// A text analysed by itself with settings.
pub fn analysis_under(text: &str, settings: Settings) -> Analysis {
    analyze(&Snapshot {
        path: PathBuf::from("design.finw"),
        text: Arc::from(text),
        files: Arc::new(Folder(PathBuf::new())),
        settings: Arc::new(settings),
    })
}

/// Every good design of the corpus, by its file's name.
pub fn corpus() -> Vec<(String, Analysis)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs/good");
    let mut found: Vec<PathBuf> = std::fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "finw"))
        .collect();
    found.sort();
    assert!(found.len() > 20);
    let read = |path: PathBuf| {
        let analysis = analyze(&Snapshot {
            text: Arc::from(std::fs::read_to_string(&path).unwrap()),
            files: Arc::new(Folder(folder.clone())),
            settings: Arc::default(),
            path: path.clone(),
        });
        (path.file_stem().unwrap().to_string_lossy().into_owned(), analysis)
    };
    found.into_iter().map(read).collect()
}

struct Folder(PathBuf);

impl Files for Folder {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let path = if path.is_absolute() { path.to_path_buf() } else { self.0.join(path) };
        std::fs::read_to_string(path).map(Arc::from).map_err(|e| e.to_string())
    }
}
