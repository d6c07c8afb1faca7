//! The files of a workspace: those that a design may use, and all that there are.

use finwright_assist::moved_path;
use ignore::WalkBuilder;
use std::path::{Path, PathBuf};

/// More files than this are no help in a list to choose from.
const MOST_NEAR: usize = 200;

/// A list to choose from looks no deeper than this into folders.
const DEEPEST_NEAR: usize = 4;

/// The paths of files with an ending below some folders, as they are written in the file at `own`: its own folder's
/// first, then those further away.
pub fn files_near(own: &Path, folders: &[PathBuf], ending: &str) -> Vec<String> {
    if !own.is_absolute() {
        return Vec::new();
    }
    let mut found: Vec<String> = Vec::new();
    for root in folders {
        let walk = walk(root).max_depth(Some(DEEPEST_NEAR)).build();
        let files = walk.flatten().filter(|entry| has_ending(entry.path(), ending) && entry.path() != own);
        found.extend(files.take(MOST_NEAR).filter_map(|entry| moved_path(own, entry.path())));
    }
    found.sort_by_key(|path| (path.matches("../").count(), path.matches('/').count(), path.clone()));
    found.dedup();
    found
}

/// All designs below some folders. What version control ignores is left out, as are hidden files.
pub fn designs(folders: &[PathBuf]) -> impl Iterator<Item = PathBuf> + '_ {
    folders
        .iter()
        .flat_map(|folder| walk(folder).build().flatten())
        .map(|entry| entry.into_path())
        .filter(|path| has_ending(path, "finw"))
}

fn walk(folder: &Path) -> WalkBuilder {
    let mut walk = WalkBuilder::new(folder);
    walk.require_git(false).follow_links(false);
    walk
}

fn has_ending(path: &Path, ending: &str) -> bool {
    path.extension().is_some_and(|own| own == ending)
}
