//! `finwright preview`: the live page of a design, which follows every save.

use crate::collect::read;
use crate::output::{print, printable, unusable};
use finwright_checks::{analyze, Analysis};
use finwright_page::content::Content;
use finwright_page::{content, serve, Live, Shown};
use finwright_units::Units;
use notify::{RecursiveMode, Watcher};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};
use std::sync::mpsc::channel;
use std::sync::Arc;
use std::time::Duration;

/// What is shown: an analysis, or why there is none.
struct Seen {
    analysis: Result<Analysis, String>,
    file: String,
}

impl Shown for Seen {
    fn content(&self, flight: Option<&str>) -> Content {
        match &self.analysis {
            Ok(analysis) => content(analysis, flight, &self.file),
            Err(reason) => Content { title: self.file.clone(), html: String::new(), unreadable: Some(reason.clone()) },
        }
    }
}

pub fn preview(path: &Path, open: bool, units: Option<Units>) -> ExitCode {
    let live = Live::default();
    let first = seen(path, units);
    if let Err(reason) = &first.analysis {
        return unusable(reason);
    }
    let mut folders = folders(path, &first);
    live.show(Arc::new(first));
    // From the command line there is no editor to take the reader anywhere.
    let address = match serve(live.clone(), Arc::new(|_, _| ())) {
        Ok(address) => address,
        Err(error) => return unusable(&format!("the page can't be served: {error}")),
    };
    print(&format!("{}\nIt follows every save; end it with Ctrl-C.\n", address.url));
    if open {
        browse(&address.url);
    }
    let (tell, told) = channel();
    let mut watcher = match notify::recommended_watcher(move |event: notify::Result<notify::Event>| {
        // Reading a file is no change of it.
        if event.is_ok_and(|event| !event.kind.is_access()) {
            let _ = tell.send(());
        }
    }) {
        Ok(watcher) => watcher,
        Err(error) => return unusable(&format!("saves can't be followed: {error}")),
    };
    for folder in &folders {
        if let Err(error) = watcher.watch(folder, RecursiveMode::NonRecursive) {
            return unusable(&format!("{} can't be followed: {error}", folder.display()));
        }
    }
    while told.recv().is_ok() {
        // An editor saves in several steps: what comes at once is one change.
        while told.recv_timeout(SETTLED).is_ok() {}
        let next = seen(path, units);
        for folder in self::folders(path, &next) {
            if folders.insert(folder.clone()) {
                let _ = watcher.watch(&folder, RecursiveMode::NonRecursive);
            }
        }
        live.show(Arc::new(next));
    }
    ExitCode::SUCCESS
}

/// How long nothing may happen until a save is taken to be done.
const SETTLED: Duration = Duration::from_millis(15);

fn seen(path: &Path, units: Option<Units>) -> Seen {
    let input = read(path).in_units(units);
    let analysis =
        input.snapshot.map(|snapshot| analyze(&snapshot)).map_err(|reason| format!("{}: {reason}", input.shown));
    let file = path.file_name().map_or(input.shown, |name| printable(&name.to_string_lossy()));
    Seen { analysis, file }
}

/// The folders of a design, of what it uses and of its settings.
fn folders(path: &Path, seen: &Seen) -> BTreeSet<PathBuf> {
    let real = finwright_disk::real_path(path);
    let used = seen.analysis.iter().flat_map(|analysis| &analysis.sources).map(|source| source.path.clone());
    let files = used.filter(|path| path.is_absolute()).chain([real]);
    files.filter_map(|file| file.parent().map(Path::to_path_buf)).filter(|folder| folder.is_dir()).collect()
}

/// Open an address in the reader's browser, as each system does it; where none opens, the address is printed already.
fn browse(url: &str) {
    let (command, arguments): (&str, &[&str]) = match std::env::consts::OS {
        "macos" => ("open", &[]),
        "windows" => ("rundll32", &["url.dll,FileProtocolHandler"]),
        _ => ("xdg-open", &[]),
    };
    let quiet = || Stdio::null();
    let _ = Command::new(command).args(arguments).arg(url).stdin(quiet()).stdout(quiet()).stderr(quiet()).spawn();
}
