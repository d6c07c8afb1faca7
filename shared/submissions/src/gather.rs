//! Which file, folder or zip is whose, and what all of them may use.

use crate::name::{is_clutter, printable};
use crate::roster::Pupil;
use finwright_disk::{plain_words, read_text, real_path};
use finwright_model::Files;
use std::collections::{BTreeMap, HashMap, HashSet};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

/// A class and what it handed in.
pub struct Class {
    /// In the roster's order, else in that of the ids.
    pub submissions: Vec<Submission>,
    /// What lies in the folder and is nobody's on the roster.
    pub unclaimed: Vec<String>,
    /// What every design may use.
    pub shared: Arc<Shared>,
    /// The folder, from the root.
    pub folder: PathBuf,
}

/// What somebody handed in.
#[derive(Clone, Debug)]
pub struct Submission {
    /// What the gradebook knows them by.
    pub id: String,
    /// What they are called.
    pub name: String,
    /// Where it lies, from the root, and from the folder of submissions.
    pub places: Vec<(PathBuf, String)>,
    /// What is wrong with where it lies.
    pub faults: Vec<String>,
}

/// Files that are nobody's own: a kit's parts, a school's pads.
#[derive(Default)]
pub struct Shared {
    by_path: HashMap<PathBuf, Arc<str>>,
    by_name: HashMap<String, Arc<str>>,
}

/// Find what was handed in below a folder. `shared` are files that every design may use, `not_theirs` files in the
/// folder that belong to the teacher.
pub fn gather(
    folder: &Path,
    roster: Option<&[Pupil]>,
    shared: &[PathBuf],
    not_theirs: &[&Path],
) -> Result<Class, String> {
    let entries = std::fs::read_dir(folder).map_err(plain_words)?;
    let folder = real_path(folder);
    let teachers: HashSet<PathBuf> =
        shared.iter().map(|path| real_path(path)).chain(not_theirs.iter().map(|path| real_path(path))).collect();
    let mut names: Vec<String> =
        entries.flatten().map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
    names.retain(|name| !is_clutter(name) && name != "finwright.toml" && !teachers.contains(&folder.join(name)));
    names.sort();
    let mut given = Shared::default();
    for path in shared {
        let text = read_text(path).map_err(|reason| format!("{}: {reason}", path.display()))?;
        given.add(real_path(path), text);
    }
    let (submissions, unclaimed) = match roster {
        Some(roster) => by_roster(&folder, roster, &names),
        None => (by_names(&folder, names), Vec::new()),
    };
    Ok(Class { submissions, unclaimed, shared: Arc::new(given), folder })
}

/// Each entry of the folder is somebody's, by its name without its ending.
fn by_names(folder: &Path, names: Vec<String>) -> Vec<Submission> {
    let mut found: BTreeMap<String, Submission> = BTreeMap::new();
    for name in names {
        let path = folder.join(&name);
        let is_dir = path.symlink_metadata().is_ok_and(|about| about.is_dir());
        let id = if is_dir { name.clone() } else { stem(&name).to_string() };
        let one = found.entry(id.clone()).or_insert_with(|| Submission {
            name: id.clone(),
            id,
            places: Vec::new(),
            faults: Vec::new(),
        });
        one.places.push((path, name));
    }
    found.into_values().collect()
}

fn by_roster(folder: &Path, roster: &[Pupil], names: &[String]) -> (Vec<Submission>, Vec<String>) {
    let mut by_stem: HashMap<&str, Vec<&str>> = HashMap::new();
    for name in names {
        by_stem.entry(stem(name)).or_default().push(name);
        if stem(name) != name {
            by_stem.entry(name).or_default().push(name);
        }
    }
    let mut claimed: HashSet<String> = HashSet::new();
    let mut submissions = Vec::with_capacity(roster.len());
    for pupil in roster {
        let mut one =
            Submission { id: pupil.id.clone(), name: pupil.name.clone(), places: Vec::new(), faults: Vec::new() };
        match &pupil.place {
            Some(place) => match inside(folder, place) {
                Ok(path) => {
                    claimed.extend(
                        place.split(['/', '\\']).find(|part| !part.is_empty() && *part != ".").map(str::to_string),
                    );
                    if path.symlink_metadata().is_ok() {
                        one.places.push((path, place.trim_start_matches("./").trim_end_matches('/').to_string()));
                    }
                }
                Err(reason) => one.faults.push(format!("{}: {reason}", printable(place))),
            },
            None => {
                let own = by_stem.get(pupil.id.as_str()).into_iter().flatten();
                for name in own {
                    claimed.insert(name.to_string());
                    one.places.push((folder.join(name), name.to_string()));
                }
                one.places.dedup();
            }
        }
        submissions.push(one);
    }
    (submissions, names.iter().filter(|name| !claimed.contains(*name)).cloned().collect())
}

/// A path below the folder, no link on the way to it.
fn inside(folder: &Path, place: &str) -> Result<PathBuf, String> {
    let parts: Vec<Component> = Path::new(place).components().collect();
    let plain = parts.iter().all(|part| matches!(part, Component::Normal(_) | Component::CurDir));
    if !plain || place.contains('\0') {
        return Err("it leads out of the folder of submissions, and isn't looked at".to_string());
    }
    let path = folder.join(place);
    let real_parent = path.parent().map(real_path);
    match real_parent {
        Some(parent) if parent.starts_with(folder) => Ok(path),
        _ => Err("it leads out of the folder of submissions, and isn't looked at".to_string()),
    }
}

/// A name without its ending; of one that only has an ending, all of it.
fn stem(name: &str) -> &str {
    name.rsplit_once('.').map_or(name, |(stem, _)| stem)
}

impl Shared {
    fn add(&mut self, path: PathBuf, text: Arc<str>) {
        if let Some(name) = path.file_name() {
            self.by_name.insert(name.to_string_lossy().into_owned(), text.clone());
        }
        self.by_path.insert(path, text);
    }

    /// Whether nothing is shared.
    pub fn is_empty(&self) -> bool {
        self.by_path.is_empty()
    }
}

/// What one submission's designs may use: what was handed in with them, and what is shared.
pub struct Own {
    /// The submission's own texts, by their paths from the root.
    pub texts: HashMap<PathBuf, Arc<str>>,
    /// What is nobody's own.
    pub shared: Arc<Shared>,
}

impl Files for Own {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let by_path = self.texts.get(path).or_else(|| self.shared.by_path.get(path));
        // A zip, or a folder within the folder, doesn't know where the shared files lie.
        let by_name = || self.shared.by_name.get(&*path.file_name()?.to_string_lossy());
        let found = by_path.or_else(by_name).cloned();
        found.ok_or_else(|| "it wasn't handed in with the design, and isn't the class's".to_string())
    }
}
