//! The file that was asked about, the catalogue, and the files that are used.

use crate::problem::{Problem, CIRCULAR_USE, UNREADABLE_FILE};
use finwright_grammar::{parse, parse_shared, FileId, Item, Place, Span, Tree};
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, LazyLock};

/// Gives the text of a file that a design uses. Only the edge knows the disk or an editor's buffers.
pub trait Files: Send + Sync {
    /// The text of the file, or in plain words why it can't be had.
    fn read(&self, path: &Path) -> Result<Arc<str>, String>;
}

/// A file that takes part in a design.
#[derive(Clone, Debug)]
pub struct SourceFile {
    /// Its path.
    pub path: PathBuf,
    /// Its tree.
    pub tree: Arc<Tree>,
    /// The main file's own `use` that leads to it.
    pub used_at: Option<Place>,
}

/// The catalogue's number among a design's files.
pub const CATALOG: FileId = FileId(1);

/// Deepest chain of files using files.
const DEEPEST_USE: usize = 16;

static CATALOG_FILE: LazyLock<SourceFile> = LazyLock::new(|| SourceFile {
    path: PathBuf::from(crate::catalog::NAME),
    tree: Arc::new(parse(crate::catalog::TEXT)),
    used_at: None,
});

/// Parse the file and every file it uses. Number 0 is the file itself, 1 the catalogue.
pub fn load(path: &Path, text: Arc<str>, files: &dyn Files, problems: &mut Vec<Problem>) -> Vec<SourceFile> {
    let main = SourceFile { path: path.to_path_buf(), tree: Arc::new(parse_shared(text)), used_at: None };
    let mut loaded = vec![main, CATALOG_FILE.clone()];
    let mut chain = vec![normal(path)];
    follow(FileId(0), None, &mut loaded, &mut chain, files, problems);
    loaded
}

/// A path as used from a file: relative to that file's folder.
pub fn beside(file: &Path, used: &str) -> PathBuf {
    normal(&file.parent().unwrap_or(Path::new("")).join(used))
}

/// `top` is the main file's own `use` that leads here: what is wrong further down is told there.
fn follow(
    id: FileId,
    top: Option<Place>,
    loaded: &mut Vec<SourceFile>,
    chain: &mut Vec<PathBuf>,
    files: &dyn Files,
    problems: &mut Vec<Problem>,
) {
    let Some(file) = loaded.get(id.0 as usize).cloned() else { return };
    for item in &file.tree.items {
        let Item::Use { path, .. } = item else { continue };
        let place = top.unwrap_or(Place { file: id, span: *path });
        let written = file.tree.unquoted(*path);
        let wanted = beside(&file.path, written);
        if let Some(at) = chain.iter().position(|p| *p == wanted) {
            let names: Vec<String> = chain[at..].iter().chain([&wanted]).map(|p| shown(p)).collect();
            problems.push(Problem::new(
                CIRCULAR_USE,
                place,
                format!("these files use each other: {}", names.join(" → ")),
                "take this `use` out, or move what both need to a third file",
            ));
            continue;
        }
        if chain.len() >= DEEPEST_USE {
            problems.push(Problem::new(
                UNREADABLE_FILE,
                place,
                format!("files use files more than {DEEPEST_USE} deep"),
                "use fewer levels",
            ));
            continue;
        }
        if loaded.iter().any(|f| normal(&f.path) == wanted) {
            continue;
        }
        match files.read(&wanted) {
            Ok(text) => {
                let used = FileId(loaded.len() as u32);
                let tree = Arc::new(parse_shared(text));
                loaded.push(SourceFile { path: wanted.clone(), tree, used_at: Some(place) });
                chain.push(wanted);
                follow(used, Some(place), loaded, chain, files, problems);
                chain.pop();
            }
            Err(reason) => problems.push(Problem::new(
                UNREADABLE_FILE,
                place,
                format!("`{written}` can't be used: {reason}"),
                format!("the path is taken from the folder of {}", shown(&file.path)),
            )),
        }
    }
}

/// Used files with faults of their own, one problem each at the `use` that leads there: they are told in those files.
pub(crate) fn faults_of_used(files: &[SourceFile], elsewhere: &[Problem]) -> Vec<Problem> {
    let mut found = Vec::new();
    for (number, file) in files.iter().enumerate() {
        let id = FileId(number as u32);
        let Some(place) = file.used_at else { continue };
        let of_syntax = file.tree.problems.iter().map(|problem| Place { file: id, span: problem.span });
        let of_words = elsewhere.iter().map(|problem| problem.place).filter(|place| place.file == id);
        let faults: Vec<Place> = of_syntax.chain(of_words).collect();
        let Some(first) = faults.iter().min().copied() else { continue };
        let count = if faults.len() == 1 { "a fault".to_string() } else { format!("{} faults", faults.len()) };
        let mut problem = Problem::new(
            UNREADABLE_FILE,
            place,
            format!("{} has {count} of its own", shown(&file.path)),
            "open that file and mend it; what can be understood of it is used",
        )
        .label(first, "the first one");
        problem.elsewhere = Some(first);
        found.push(problem);
    }
    found
}

/// Take `.` and `..` out without asking the disk.
fn normal(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir if out.file_name().is_some() => {
                out.pop();
            }
            other => out.push(other),
        }
    }
    out
}

fn shown(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |n| n.to_string_lossy().into_owned())
}

/// The text at a place.
pub(crate) fn text_at(files: &[SourceFile], file: FileId, span: Span) -> &str {
    files.get(file.0 as usize).map_or("", |f| f.tree.text(span))
}
