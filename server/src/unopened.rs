//! The designs of the workspace that nobody has open, looked at in the background for whoever wants to know of all: a
//! teacher renames a part in the kit, and every pupil's file that breaks is listed.

use crate::diagnostics::diagnostics;
use crate::files::ProjectFiles;
use crate::pull::Known;
use crate::survey::Workspace;
use crate::view::View;
use finwright_checks::settings::settings_for;
use finwright_checks::{Analyze, Files, Snapshot};
use lsp_types::{Diagnostic, Url};
use ropey::Rope;
use std::collections::{BTreeSet, HashMap};
use std::panic::{catch_unwind, AssertUnwindSafe};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{channel, Receiver, Sender};
use std::sync::Arc;

/// What the thread is told.
pub enum Told {
    /// Look at all designs anew, in this workspace; none, if they aren't wanted.
    All(Option<Workspace>),
    /// These files are others now, open or on disk, in this workspace.
    Touched(Vec<PathBuf>, Workspace),
}

/// What is told by it: a design's diagnostics, and whether more are being looked at.
pub struct Seen {
    /// The design.
    pub known: Known,
    /// Its path.
    pub path: PathBuf,
    /// Whether it's gone.
    pub is_gone: bool,
}

/// Start the thread. It ends when the sender is dropped.
pub fn start(analyze: Analyze, seen: impl Fn(Seen) + Send + 'static) -> Sender<Told> {
    let (sender, told) = channel();
    std::thread::spawn(move || work(analyze, told, seen));
    sender
}

/// What is kept of a design that nobody has open.
struct Kept {
    uses: Vec<PathBuf>,
    had_any: bool,
}

fn work(analyze: Analyze, told: Receiver<Told>, seen: impl Fn(Seen)) {
    let mut workspace: Option<Workspace> = None;
    let mut kept: HashMap<PathBuf, Kept> = HashMap::new();
    let mut waiting: BTreeSet<PathBuf> = BTreeSet::new();
    let mut count = 0_u64;
    loop {
        let news = match waiting.is_empty() {
            true => match told.recv() {
                Ok(news) => Some(news),
                Err(_) => return,
            },
            false => told.try_recv().ok(),
        };
        if let Some(news) = news {
            take(news, &mut workspace, &mut kept, &mut waiting);
            continue;
        }
        let (Some(path), Some(workspace)) = (waiting.pop_first(), &workspace) else { continue };
        count += 1;
        let had_any = kept.get(&path).is_some_and(|kept| kept.had_any);
        if workspace.buffers.contains_key(&path) {
            kept.remove(&path);
            continue;
        }
        let Some(uri) = Url::from_file_path(&path).ok() else { continue };
        let looked = look(analyze, workspace, &path);
        let is_gone = looked.is_none();
        let (items, uses) = looked.unwrap_or_default();
        let has_any = !items.is_empty();
        match is_gone {
            true => drop(kept.remove(&path)),
            false => drop(kept.insert(path.clone(), Kept { uses, had_any: has_any })),
        }
        if has_any || had_any {
            let known = Known { uri, version: None, result_id: format!("d{count}"), items: Arc::new(items) };
            seen(Seen { known, path, is_gone });
        }
    }
}

fn take(
    news: Told,
    workspace: &mut Option<Workspace>,
    kept: &mut HashMap<PathBuf, Kept>,
    waiting: &mut BTreeSet<PathBuf>,
) {
    match news {
        Told::All(now) => {
            waiting.clear();
            // Those that were known are looked at again, so that what is gone is taken back.
            waiting.extend(kept.keys().cloned());
            waiting.extend(now.iter().flat_map(|now| now.paths()));
            *workspace = now;
            if workspace.is_none() {
                (*waiting, *kept) = (BTreeSet::new(), HashMap::new());
            }
        }
        Told::Touched(paths, now) => {
            let touched = |path: &Path| paths.iter().any(|touched| path == touched || path.starts_with(touched));
            let users = kept.iter().filter(|(own, kept)| touched(own) || kept.uses.iter().any(|used| touched(used)));
            waiting.extend(users.map(|(own, _)| own.clone()));
            let designs = paths.iter().filter(|path| path.extension().is_some_and(|ending| ending == "finw"));
            waiting.extend(designs.cloned());
            if workspace.is_some() {
                *workspace = Some(now);
            }
        }
    }
}

/// A design's diagnostics and the files that it uses; `None` where it's gone.
fn look(analyze: Analyze, workspace: &Workspace, path: &Path) -> Option<(Vec<Diagnostic>, Vec<PathBuf>)> {
    let files: Arc<ProjectFiles> = Arc::new(workspace.files(path));
    let text = files.read(path).ok()?;
    let settings = Arc::new(settings_for(path, |path| files.settings(path)));
    let rope = Rope::from_str(&text);
    let snapshot = Snapshot { path: path.to_path_buf(), text, files: files.clone(), settings };
    let identity = (Url::from_file_path(path).ok()?, 0, 0);
    let analysis = catch_unwind(AssertUnwindSafe(|| analyze(&snapshot))).ok()?;
    let view = View::new(identity, workspace.terms, rope, (analyze, snapshot, analysis), &files);
    Some((diagnostics(&view), files.asked()))
}
