//! From the paths on the command line to the designs to look at.

use finwright_checks::settings::settings_for;
use finwright_checks::{Settings, Snapshot};
use finwright_disk::{plain_words, read_text, text_of, DiskFiles};
use finwright_units::Units;
use std::collections::HashMap;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// A design to look at, or why it can't be.
pub struct Input {
    /// The path as the reader knows it.
    pub shown: String,
    /// The design.
    pub snapshot: Result<Snapshot, String>,
}

impl Input {
    /// The same for a reader who asks for these units, whatever the design's settings put first.
    pub fn in_units(self, units: Option<Units>) -> Input {
        let Some(units) = units else { return self };
        let snapshot = self.snapshot.map(|snapshot| {
            let settings = Settings::clone(&snapshot.settings).in_units(units);
            Snapshot { settings: Arc::new(settings), ..snapshot }
        });
        Input { snapshot, ..self }
    }
}

/// The settings of the folder that the command was started in, for what is about no design.
pub fn own_settings() -> Arc<Settings> {
    settings_of(&real_of(Path::new("-")))
}

/// All paths' designs, in the order of the paths; those of a folder in alphabetical order.
pub fn find(paths: &[PathBuf]) -> Vec<Result<PathBuf, (PathBuf, String)>> {
    let mut found = Vec::new();
    for path in paths {
        if path.is_dir() {
            let before = found.len();
            found.extend(below(path));
            if found.len() == before {
                found.push(Err((path.clone(), "there is no *.finw file in this folder".to_string())));
            }
        } else {
            found.push(Ok(path.clone()));
        }
    }
    found
}

/// What comes in by the pipe, as the reader knows it.
pub const STANDARD_INPUT: &str = "(standard input)";

/// Read one design.
pub fn read(path: &Path) -> Input {
    let shown = if is_stdin(path) { STANDARD_INPUT.to_string() } else { path.display().to_string() };
    let text = if is_stdin(path) { read_stdin() } else { read_text(path) };
    let real = real_of(path);
    let snapshot = text.map(|text| Snapshot {
        path: path.to_path_buf(),
        text,
        files: Arc::new(files_for(path, &real)),
        settings: settings_of(&real),
    });
    Input { shown, snapshot }
}

/// The designs beside a file that use it, by their first lines: a file without flights that others use is theirs to
/// check.
pub fn users_beside(path: &Path) -> Vec<PathBuf> {
    let real = real_of(path);
    let Some(folder) = real.parent() else { return Vec::new() };
    let mut designs = below(folder).into_iter().flatten().take(MOST_NEIGHBOURS).collect::<Vec<_>>();
    designs.sort();
    designs.retain(|design| *design != real && uses(design).contains(&real));
    designs
}

/// More designs than this beside a file aren't looked into for one that uses it.
const MOST_NEIGHBOURS: usize = 1000;

/// The files that a design names with `use`, by their paths from the root.
fn uses(design: &Path) -> Vec<PathBuf> {
    let (Ok(text), Some(folder)) = (read_text(design), design.parent()) else { return Vec::new() };
    let tree = finwright_grammar::parse(&text);
    let named = tree.items.iter().filter_map(|item| match item {
        finwright_grammar::Item::Use { path, .. } => Some(tree.unquoted(*path).to_string()),
        _ => None,
    });
    named.map(|name| finwright_disk::real_path(&folder.join(name))).collect()
}

/// Whether a path stands for what comes in by the pipe.
pub fn is_stdin(path: &Path) -> bool {
    path.as_os_str() == "-"
}

fn read_stdin() -> Result<Arc<str>, String> {
    let mut bytes = Vec::new();
    // One byte over the limit is enough to know that there are too many.
    let limit = finwright_disk::SIZE_LIMIT as u64 + 1;
    std::io::stdin().lock().take(limit).read_to_end(&mut bytes).map_err(plain_words)?;
    text_of(bytes)
}

/// A design's path from the root; what comes in by the pipe lies in the folder that the command was started in.
fn real_of(path: &Path) -> PathBuf {
    if is_stdin(path) {
        STARTED_IN.join("-")
    } else {
        finwright_disk::real_path(path)
    }
}

/// The settings for a design: one reading serves all designs of a folder.
fn settings_of(real: &Path) -> Arc<Settings> {
    static KNOWN: LazyLock<Mutex<HashMap<PathBuf, Arc<Settings>>>> = LazyLock::new(Mutex::default);
    let folder = real.parent().unwrap_or(real).to_path_buf();
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    known
        .entry(folder)
        .or_insert_with(|| Arc::new(settings_for(real, |path| path.exists().then(|| read_text(path)))))
        .clone()
}

/// What a design may use: files below the folder that the command was started in, when the design lies there, else
/// those below the design's own folder.
fn files_for(path: &Path, real: &Path) -> DiskFiles {
    let own = real.parent().map(Path::to_path_buf).unwrap_or_default();
    let root = STARTED_IN.as_path();
    DiskFiles::below([if is_stdin(path) || real.starts_with(root) { root.to_path_buf() } else { own }])
}

/// Found once, not for every design of a batch: it takes a walk up the folders.
static STARTED_IN: LazyLock<PathBuf> =
    LazyLock::new(|| finwright_disk::real_path(&std::env::current_dir().unwrap_or_default()));

fn below(folder: &Path) -> Vec<Result<PathBuf, (PathBuf, String)>> {
    let mut found: Vec<Result<PathBuf, (PathBuf, String)>> = ignore::WalkBuilder::new(folder)
        .sort_by_file_path(Path::cmp)
        .build()
        .filter_map(|entry| match entry {
            Ok(entry) => {
                let is_design = entry.path().extension().is_some_and(|e| e == "finw");
                let is_file = entry.file_type().is_some_and(|t| t.is_file() || t.is_symlink());
                (is_design && is_file).then(|| Ok(entry.into_path()))
            }
            Err(error) => Some(Err((folder.to_path_buf(), error.to_string()))),
        })
        .collect();
    found.dedup_by(|a, b| matches!((a, b), (Ok(a), Ok(b)) if a == b));
    found
}
