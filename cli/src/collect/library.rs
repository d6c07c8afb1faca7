//! Which files are there for others to use.

use super::walk::below;
use finwright_disk::read_text;
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// Whether a design beside a file uses it, by its first lines: a file without flights that others use is theirs to
/// check.
pub fn is_used_beside(real: &Path) -> bool {
    static KNOWN: LazyLock<Mutex<HashMap<PathBuf, Arc<HashSet<PathBuf>>>>> = LazyLock::new(Mutex::default);
    let Some(folder) = real.parent() else { return false };
    // Each folder is looked through once, however many of its files have no flight.
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    known.entry(folder.to_path_buf()).or_insert_with(|| Arc::new(used_in(folder))).contains(real)
}

/// More designs than this in a folder aren't looked into for those that use another.
const MOST_NEIGHBOURS: usize = 1000;

/// The files that the designs in a folder use.
fn used_in(folder: &Path) -> HashSet<PathBuf> {
    let mut designs = below(folder).into_iter().flatten().collect::<Vec<_>>();
    designs.sort();
    designs.truncate(MOST_NEIGHBOURS);
    let used = |design: PathBuf| {
        let own = finwright_disk::real_path(&design);
        uses(&design).into_iter().filter(move |used| *used != own)
    };
    designs.into_iter().flat_map(used).collect()
}

/// The files that a design names with `use`, by their paths from the root.
pub fn uses(design: &Path) -> Vec<PathBuf> {
    let (Ok(text), Some(folder)) = (read_text(design), design.parent()) else { return Vec::new() };
    if !text.contains("use") {
        return Vec::new();
    }
    let tree = finwright_grammar::parse(&text);
    let named = tree.items.iter().filter_map(|item| match item {
        finwright_grammar::Item::Use { path, .. } => Some(tree.unquoted(*path).to_string()),
        _ => None,
    });
    named.map(|name| finwright_disk::real_path(&folder.join(name))).collect()
}
