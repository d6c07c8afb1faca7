//! One side of a comparison: a file, a folder, or either of them as it stands in a revision.

use super::git::Revision;
use crate::collect::{find, read, Input};
use finwright_checks::settings::settings_for;
use finwright_checks::Snapshot;
use finwright_units::Units;
use rayon::prelude::*;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What is compared.
pub struct Side {
    /// As the reader named it.
    pub shown: String,
    /// Whether it is a single file.
    pub is_file: bool,
    /// Its designs, in the order of their names.
    pub designs: Vec<Named>,
    /// What couldn't be looked into.
    pub unusable: Vec<(String, String)>,
}

/// A design by its name on this side: its path from the folder, `/` between its parts.
pub struct Named {
    pub name: String,
    pub input: Input,
}

impl Side {
    /// Read all designs of a side.
    pub fn read(path: &Path, units: Option<Units>) -> Result<Side, String> {
        let shown = path.display().to_string();
        match revision(path) {
            Some((revision, within)) => in_revision(shown, revision, within, units),
            None => Ok(on_disk(shown, path, units)),
        }
    }
}

/// What is meant as `REV:PATH`: there is no file of that name, and what stands before the colon is no drive.
fn revision(path: &Path) -> Option<(&str, &str)> {
    let (revision, within) = path.to_str()?.split_once(':')?;
    let is_drive = cfg!(windows) && revision.len() == 1;
    (!path.exists() && !revision.is_empty() && !is_drive).then_some((revision, within))
}

fn on_disk(shown: String, path: &Path, units: Option<Units>) -> Side {
    let is_file = !path.is_dir();
    let (mut designs, mut unusable) = (Vec::new(), Vec::new());
    for found in find(&[path.to_path_buf()]) {
        match found {
            Ok(found) => designs.push(found),
            // A folder without a design in it is a side with nothing in it.
            Err((_, _)) if !is_file && designs.is_empty() && path.read_dir().is_ok() => {}
            Err((path, reason)) => unusable.push((path.display().to_string(), reason)),
        }
    }
    let named = |found: &PathBuf| Named {
        name: if is_file { name_of(path) } else { with_slashes(found.strip_prefix(path).unwrap_or(found)) },
        input: read(found).in_units(units),
    };
    let mut designs: Vec<Named> = designs.par_iter().map(named).collect();
    designs.sort_by(|one, other| one.name.cmp(&other.name));
    Side { shown, is_file, designs, unusable }
}

fn in_revision(shown: String, revision: &str, within: &str, units: Option<Units>) -> Result<Side, String> {
    let (found, path) = Revision::find(revision, within)?;
    let found = Arc::new(found);
    let is_file = found.is_file(&path);
    let designs = if is_file { vec![path.clone()] } else { found.designs_below(&path) };
    if designs.is_empty() {
        return Err(format!(
            "{revision} has no design in {}; paths count from the repository's folder, or from here with ./ before them",
            path.display()
        ));
    }
    let named = |design: &PathBuf| Named {
        name: if is_file { name_of(&path) } else { with_slashes(design.strip_prefix(&path).unwrap_or(design)) },
        input: at_revision(&found, revision, design).in_units(units),
    };
    Ok(Side { shown, is_file, designs: designs.par_iter().map(named).collect(), unusable: Vec::new() })
}

/// A design as the revision has it, with what it uses and its settings from there.
fn at_revision(revision: &Arc<Revision>, name: &str, design: &Path) -> Input {
    let path = revision.root.join(design);
    let text = revision.text(design).unwrap_or_else(|| Err("there is no such file in that revision".to_string()));
    let look = |path: &Path| path.strip_prefix(&revision.root).ok().and_then(|within| revision.text(within));
    let snapshot = text.map(|text| Snapshot {
        settings: Arc::new(settings_for(&path, look)),
        files: revision.clone(),
        path: path.clone(),
        text,
    });
    Input { shown: format!("{name}:{}", design.display()), real: path, snapshot }
}

fn name_of(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned())
}

fn with_slashes(path: &Path) -> String {
    let parts: Vec<String> = path.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
    parts.join("/")
}
