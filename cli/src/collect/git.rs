//! What has changed since a revision, as the command `git` knows it.

use super::list::path_of;
use super::{files_for, real_of};
use crate::git::{self, Failed};
use finwright_checks::settings::FILE_NAME;
use finwright_disk::read_text;
use finwright_model::Files;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// Files that have changed, by their paths from the root.
pub struct Changed(BTreeSet<PathBuf>);

/// The files that differ from a revision, in the repository's commits or only in its folders, those that are gone and
/// those that git doesn't know yet.
pub fn changed_since(revision: &str) -> Result<Changed, String> {
    let root = asked(&["rev-parse", "--show-toplevel"])
        .map_err(|why| format!("--since needs a git repository around this folder: {why}"))?;
    let root = path_of(root.strip_suffix(b"\n").unwrap_or(&root).to_vec());
    let commit = git::commit(revision).map_err(|_| {
        format!("git knows no revision {revision} here; in a shallow copy, fetch it first (git fetch --unshallow)")
    })?;
    let differ = asked(&["diff", "--name-only", "-z", "--no-renames", "--no-ext-diff", &commit, "--"])?;
    let top = String::from(":/");
    let unknown = asked(&["ls-files", "-z", "--full-name", "--others", "--exclude-standard", "--", &top])?;
    let names = differ.split(|b| *b == 0).chain(unknown.split(|b| *b == 0)).filter(|name| !name.is_empty());
    Ok(Changed(names.map(|name| finwright_disk::real_path(&root.join(path_of(name.to_vec())))).collect()))
}

/// What git answers, or what it says instead.
fn asked(arguments: &[&str]) -> Result<Vec<u8>, String> {
    git::asked(arguments).map_err(|failed| match failed {
        Failed::NotInstalled(error) | Failed::NotStarted(error) => {
            format!("the command git can't be started ({error})")
        }
        Failed::Says(said) if said.is_empty() => "git ends with an error".to_string(),
        Failed::Says(said) => said,
    })
}

impl Changed {
    /// Whether a design has changed, a file that it reads, or its settings.
    pub fn touch(&self, design: &Path) -> bool {
        let real = real_of(design);
        // A link is another file than what it leads to.
        let own = design
            .parent()
            .map(|folder| finwright_disk::real_path(folder).join(design.file_name().unwrap_or_default()));
        self.0.contains(&real)
            || own.is_some_and(|own| self.0.contains(&own))
            || self.0.contains(&settings_of(&real))
            || self.gone_settings(&real)
            || read_by(design, &real).iter().any(|file| self.0.contains(file))
    }

    /// Whether a `finwright.toml` nearer than the one that counts is gone.
    fn gone_settings(&self, real: &Path) -> bool {
        let nearest = settings_of(real);
        let nearer = real.ancestors().skip(1).map(|folder| folder.join(FILE_NAME));
        nearer.take_while(|file| *file != nearest).any(|file| self.0.contains(&file))
    }
}

/// The nearest `finwright.toml`; an empty path where there is none.
fn settings_of(real: &Path) -> PathBuf {
    let all = real.ancestors().skip(1).map(|folder| folder.join(FILE_NAME));
    all.into_iter().find(|file| file.exists()).unwrap_or_default()
}

/// The files that are asked for while a design is built, whether they are there or not.
fn read_by(design: &Path, real: &Path) -> Vec<PathBuf> {
    let Ok(text) = read_text(design) else { return Vec::new() };
    let files = Noted { files: files_for(design, real), asked: Mutex::default() };
    finwright_model::build(design, text, &files);
    files.asked.into_inner().unwrap_or_else(PoisonError::into_inner)
}

/// Files, and which of them were asked for.
struct Noted<F> {
    files: F,
    asked: Mutex<Vec<PathBuf>>,
}

impl<F: Files> Files for Noted<F> {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).push(finwright_disk::real_path(path));
        self.files.read(path)
    }
}
