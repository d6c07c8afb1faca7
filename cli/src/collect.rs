//! From the paths on the command line to the designs to look at.

mod git;
pub mod library;
mod list;
mod name;
pub mod pick;
mod walk;

use finwright_checks::settings::settings_for;
use finwright_checks::{Settings, Snapshot};
use finwright_disk::{plain_words, read_text, text_of, DiskFiles};
use finwright_units::Units;
use std::collections::{BTreeMap, HashMap};
use std::io::Read;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

pub use list::path_of;
pub use name::{from_here, STARTED_IN};
pub use walk::is_design;

/// A path that a design is found by, or that can't be used, with the reason.
pub type Found = Result<PathBuf, (PathBuf, String)>;

/// A design to look at, or why it can't be.
pub struct Input {
    /// The path as the reader knows it.
    pub shown: String,
    /// The same from the root, without links.
    pub real: PathBuf,
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

/// All paths' designs, by name from the folder that the command was started in, in alphabetical order and each once,
/// however often and in whatever order it's named. A link beside its file isn't looked at a second time.
pub fn find(paths: &[PathBuf]) -> Vec<Found> {
    let mut names = name::Names::default();
    let mut found: Vec<Found> = Vec::new();
    // Where each really lies, and its name, after whether that is a link's.
    let mut named: Vec<(PathBuf, (bool, PathBuf))> = Vec::new();
    for path in paths {
        if !path.is_dir() {
            match walk::leads_nowhere(path) {
                Some(reason) => found.push(Err((names.shown(path), reason))),
                None => {
                    let shown = if is_stdin(path) { path.clone() } else { names.shown(path) };
                    named.push((real_of(&shown), (shown.is_symlink(), shown)));
                }
            }
            continue;
        }
        let below = walk::below(path);
        if below.is_empty() {
            found.push(Err((path.clone(), "there is no *.finw file in this folder".to_string())));
        }
        for one in below {
            match one {
                Ok(path) => {
                    let is_link = path.is_symlink();
                    let real = if is_link { real_of(&path) } else { names.real(&path) };
                    named.push((real, (is_link, names.shown(&path))));
                }
                Err((path, reason)) => found.push(Err((names.shown(&path), reason))),
            }
        }
    }
    // A file's own name goes before a link's.
    let mut by_file: BTreeMap<PathBuf, (bool, PathBuf)> = BTreeMap::new();
    for (real, place) in named {
        let kept = by_file.entry(real).or_insert_with(|| place.clone());
        if place < *kept {
            *kept = place;
        }
    }
    found.extend(by_file.into_values().map(|(_, shown)| Ok(shown)));
    found.sort_by(|a, b| name_of(a).cmp(name_of(b)));
    found.dedup();
    found
}

fn name_of(found: &Found) -> &std::ffi::OsStr {
    match found {
        Ok(path) | Err((path, _)) => path.as_os_str(),
    }
}

/// What comes in by the pipe, as the reader knows it.
pub const STANDARD_INPUT: &str = "(standard input)";

/// Read one design.
pub fn read(path: &Path) -> Input {
    read_as(path, None)
}

/// Read one design; what comes in by the pipe is taken for the text of the file `piped`, where that is known.
pub fn read_as(path: &Path, piped: Option<&Path>) -> Input {
    let text = if is_stdin(path) { read_stdin() } else { read_text(path) };
    let path = if is_stdin(path) { piped.unwrap_or(path) } else { path };
    let shown = if is_stdin(path) { STANDARD_INPUT.to_string() } else { path.display().to_string() };
    let real = real_of(path);
    let snapshot = text.map(|text| Snapshot {
        path: path.to_path_buf(),
        text,
        files: Arc::new(files_for(path, &real)),
        settings: settings_of(&real),
    });
    Input { shown, real, snapshot }
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
pub fn real_of(path: &Path) -> PathBuf {
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
pub fn files_for(path: &Path, real: &Path) -> DiskFiles {
    let own = real.parent().map(Path::to_path_buf).unwrap_or_default();
    let root = STARTED_IN.as_path();
    DiskFiles::below([if is_stdin(path) || real.starts_with(root) { root.to_path_buf() } else { own }])
}
