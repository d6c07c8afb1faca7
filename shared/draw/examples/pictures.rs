//! Writes the pictures of designs as SVG files, to be looked at: `pictures FOLDER NAME… -- DESIGN…`.
#![allow(clippy::print_stdout, clippy::print_stderr)]

use finwright_checks::settings::settings_for;
use finwright_checks::{analyze, Snapshot};
use finwright_disk::{read_text, DiskFiles};
use finwright_draw::{picture, svg, Picture, Size};
use std::path::{Path, PathBuf};
use std::sync::Arc;

fn main() {
    let mut arguments = std::env::args().skip(1);
    let folder = PathBuf::from(arguments.next().unwrap_or_default());
    let mut names = Vec::new();
    for name in arguments.by_ref().take_while(|name| name != "--") {
        names.push(name);
    }
    for path in arguments.map(PathBuf::from) {
        let path = finwright_disk::real_path(&path);
        let Ok(text) = read_text(&path) else { continue };
        let files = Arc::new(DiskFiles::below([path.parent().unwrap_or(Path::new("/")).to_path_buf()]));
        let settings = Arc::new(settings_for(&path, |path| path.exists().then(|| read_text(path))));
        let analysis = analyze(&Snapshot { path: path.clone(), text, files, settings });
        let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        for flight in 0..analysis.design.flights.len().max(1) {
            for (kind, name, _) in Picture::ALL.iter().filter(|(_, name, _)| names.iter().any(|n| n == name)) {
                for (size, ending) in [(Size::Full, ""), (Size::Small, "-small")] {
                    match picture(&analysis, *kind, flight, size) {
                        Ok(scene) => {
                            scene.faults().iter().for_each(|fault| println!("{stem} {flight}{ending}: {fault}"));
                            let _ =
                                std::fs::write(folder.join(format!("{name}-{stem}-{flight}{ending}.svg")), svg(&scene));
                        }
                        Err(refusal) => println!("{stem} {flight} {name}: {}", refusal.0),
                    }
                }
            }
        }
    }
}
