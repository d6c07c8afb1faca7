//! The designs in a folder: every `*.finw` but those that `.gitignore` or `.finwrightignore` leave out.

use super::name::STARTED_IN;
use super::Found;
use finwright_disk::real_path;
use ignore::{Error, WalkBuilder};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// What a folder's own list of what to leave out is called.
pub const IGNORE_FILE: &str = ".finwrightignore";

/// The designs below a folder, and what keeps others from being found. Links are followed where they stay inside of
/// the folder, or of the one that the command was started in; what leads further out is told and left alone.
pub fn below(folder: &Path) -> Vec<Found> {
    let inside = Arc::new(inside_of(folder));
    let leading_out = Arc::new(Mutex::new(Vec::new()));
    let (allowed, noted) = (inside.clone(), leading_out.clone());
    let mut found: Vec<Found> = WalkBuilder::new(folder)
        .follow_links(true)
        .require_git(false)
        // What is checked doesn't hang on the machine of whoever checks it.
        .git_global(false)
        .git_exclude(false)
        .add_custom_ignore_filename(IGNORE_FILE)
        .filter_entry(move |entry| {
            // The folder that was named may be a link itself.
            let leads_out = entry.depth() > 0 && entry.path_is_symlink() && !is_inside(entry.path(), &allowed);
            if leads_out && (is_design(entry.path()) || entry.path().is_dir()) {
                noted.lock().unwrap_or_else(PoisonError::into_inner).push(entry.path().to_path_buf());
            }
            !leads_out
        })
        .build()
        .filter_map(|entry| match entry {
            Ok(entry) => {
                let is_file = entry.file_type().is_some_and(|kind| kind.is_file());
                (is_file && is_design(entry.path())).then(|| Ok(entry.into_path()))
            }
            Err(error) => trouble(folder, &error, &inside).map(Err),
        })
        .collect();
    let leading_out = std::mem::take(&mut *leading_out.lock().unwrap_or_else(PoisonError::into_inner));
    found.extend(leading_out.into_iter().map(|link| Err(not_followed(link))));
    found
}

/// What is said of a link to nothing; `None` for anything else.
pub fn leads_nowhere(path: &Path) -> Option<String> {
    let target = std::fs::read_link(path).ok().filter(|_| !path.exists())?;
    Some(format!("it is a link to {}, which isn't there", target.display()))
}

/// Whether a file's name is a design's, in small letters or capitals.
pub fn is_design(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("finw"))
}

/// The folders in which a link stays inside.
fn inside_of(folder: &Path) -> Vec<PathBuf> {
    let real = real_path(folder);
    let here = real.starts_with(&*STARTED_IN).then(|| STARTED_IN.clone());
    std::iter::once(real).chain(here).collect()
}

fn is_inside(link: &Path, inside: &[PathBuf]) -> bool {
    let real = real_path(link);
    inside.iter().any(|folder| real.starts_with(folder))
}

fn not_followed(link: PathBuf) -> (PathBuf, String) {
    let target = std::fs::read_link(&link).unwrap_or_default();
    let reason = format!("it is a link out of this folder, to {}, and isn't followed", target.display());
    (link, reason)
}

/// What keeps designs from being found, or `None` where nothing is lost by it.
fn trouble(folder: &Path, error: &Error, inside: &[PathBuf]) -> Option<(PathBuf, String)> {
    let path = path_of(error).unwrap_or(folder).to_path_buf();
    if is_loop(error) {
        // What a link inside leads back to is walked already.
        return (!is_inside(&path, inside)).then(|| not_followed(path));
    }
    if let Some(reason) = leads_nowhere(&path) {
        let is_missed = is_design(&path) || path.extension().is_none();
        return is_missed.then_some((path, reason));
    }
    let reason = match error.io_error() {
        Some(io) => finwright_disk::plain_words(std::io::Error::new(io.kind(), io.to_string())),
        None => error.to_string(),
    };
    Some((path, reason))
}

fn path_of(error: &Error) -> Option<&Path> {
    match error {
        Error::WithPath { path, .. } => Some(path),
        Error::WithDepth { err, .. } | Error::WithLineNumber { err, .. } => path_of(err),
        Error::Loop { child, .. } => Some(child),
        _ => None,
    }
}

fn is_loop(error: &Error) -> bool {
    match error {
        Error::Loop { .. } => true,
        Error::WithPath { err, .. } | Error::WithDepth { err, .. } | Error::WithLineNumber { err, .. } => is_loop(err),
        _ => false,
    }
}
