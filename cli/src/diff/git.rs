//! Files as they stand in a revision: git is asked as a command.

use crate::collect::path_of;
use crate::git::{self, Failed};
use finwright_checks::Files;
use finwright_disk::{check_size, text_of};
use std::collections::HashMap;
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// A revision of the repository that the command was started in.
pub struct Revision {
    /// The repository's folder.
    pub root: PathBuf,
    files: HashMap<PathBuf, Entry>,
    texts: Mutex<HashMap<String, Result<Arc<str>, String>>>,
}

/// A file in a revision.
struct Entry {
    object: String,
    bytes: u64,
    is_link: bool,
}

/// Links that lead to links that lead on: more than these is a ring.
const MOST_LINKS: usize = 8;

impl Revision {
    /// The revision of a name, and a path in it: from the repository's folder, or from the one that the command was
    /// started in where it begins with a dot, as git has it.
    pub fn find(name: &str, path: &str) -> Result<(Revision, PathBuf), String> {
        let commit = git::commit(name).map_err(in_words).map_err(|reason| match reason.as_str() {
            "" => format!("git knows no revision {name} here"),
            reason => reason.to_string(),
        })?;
        let root = PathBuf::from(said(&["rev-parse", "--show-toplevel"])?);
        let from = if path.starts_with("./") || path.starts_with("../") {
            said(&["rev-parse", "--show-prefix"])?
        } else {
            String::new()
        };
        let listed = run(&["ls-tree", "-r", "-l", "-z", "--full-tree", &commit])?;
        let files = listed.split(|byte| *byte == 0).filter_map(entry).collect();
        let within = plain(&Path::new(&from).join(path));
        Ok((Revision { root, files, texts: Mutex::default() }, within))
    }

    /// Whether there is a file of this path.
    pub fn is_file(&self, path: &Path) -> bool {
        self.entry(path).is_some()
    }

    /// The designs below a folder, by their paths from the repository's folder.
    pub fn designs_below(&self, folder: &Path) -> Vec<PathBuf> {
        let is_design = |path: &&PathBuf| path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("finw"));
        let below = self.files.keys().filter(|path| path.starts_with(folder)).filter(is_design);
        let mut found: Vec<PathBuf> = below.cloned().collect();
        found.sort();
        found
    }

    /// The text of a file by its path from the repository's folder; `None` where there is none.
    pub fn text(&self, path: &Path) -> Option<Result<Arc<str>, String>> {
        let entry = self.entry(path)?;
        if let Err(reason) = check_size(entry.bytes) {
            return Some(Err(reason));
        }
        let known = self.texts.lock().unwrap_or_else(PoisonError::into_inner).get(&entry.object).cloned();
        Some(known.unwrap_or_else(|| {
            let text = run(&["cat-file", "blob", &entry.object]).and_then(text_of);
            let mut texts = self.texts.lock().unwrap_or_else(PoisonError::into_inner);
            texts.insert(entry.object.clone(), text.clone());
            text
        }))
    }

    /// The file of a path, links followed.
    fn entry(&self, path: &Path) -> Option<&Entry> {
        let mut path = path.to_path_buf();
        for _ in 0..MOST_LINKS {
            let entry = self.files.get(&path)?;
            if !entry.is_link {
                return Some(entry);
            }
            let target = String::from_utf8(run(&["cat-file", "blob", &entry.object]).ok()?).ok()?;
            path = plain(&path.parent().unwrap_or(Path::new("")).join(target));
        }
        None
    }
}

impl Files for Revision {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let Ok(within) = path.strip_prefix(&self.root) else {
            return Err("it lies outside the repository, and files there aren't read".to_string());
        };
        self.text(within).unwrap_or_else(|| Err("there is no such file in that revision".to_string()))
    }
}

/// One line of git's list: mode, kind, object and size, a tabulator, the path.
fn entry(line: &[u8]) -> Option<(PathBuf, Entry)> {
    let tab = line.iter().position(|byte| *byte == b'\t')?;
    let (about, path) = (std::str::from_utf8(&line[..tab]).ok()?, line.get(tab + 1..)?);
    let mut about = about.split_ascii_whitespace();
    let (mode, kind, object, bytes) = (about.next()?, about.next()?, about.next()?, about.next()?);
    let entry = Entry { object: object.to_string(), bytes: bytes.parse().ok()?, is_link: mode == "120000" };
    (kind == "blob").then(|| (path_of(path.to_vec()), entry))
}

/// A path without `.` and `..`, as far as it has folders to go up.
fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::ParentDir => drop(plain.pop()),
            Component::Normal(name) => plain.push(name),
            _ => {}
        }
    }
    plain
}

/// What git says, without the line break behind it.
fn said(arguments: &[&str]) -> Result<String, String> {
    run(arguments).map(|answer| git::line(&answer))
}

fn run(arguments: &[&str]) -> Result<Vec<u8>, String> {
    git::asked(arguments).map_err(in_words)
}

fn in_words(failed: Failed) -> String {
    match failed {
        Failed::NotInstalled(_) => {
            "a revision needs git, which isn't installed here; files and folders can be compared without it".to_string()
        }
        Failed::NotStarted(error) => format!("git can't be started ({error})"),
        Failed::Says(said) if said.is_empty() => said,
        Failed::Says(said) => format!("git says: {said}"),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_line_of_the_list_is_read() {
        let (path, file) =
            entry(b"100644 blob 89b24ecec50c07aef0d6640a2a9f6dc354a33125    6250\tclub/reed heron.finw").unwrap();
        assert_eq!((path, file.bytes, file.is_link), (PathBuf::from("club/reed heron.finw"), 6250, false));
        assert!(entry(b"120000 blob 89b24ecec50c07aef0d6640a2a9f6dc354a33125      11\tlink.finw").unwrap().1.is_link);
        assert!(entry(b"160000 commit 89b24ecec50c07aef0d6640a2a9f6dc354a33125       -\tmodule").is_none());
        assert!(entry(b"").is_none());
    }

    #[test]
    fn no_path_leads_above_the_repository() {
        assert_eq!(plain(Path::new("club/../../../etc/./passwd")), PathBuf::from("etc/passwd"));
        assert_eq!(plain(Path::new("/a/b")), PathBuf::from("a/b"));
    }
}
