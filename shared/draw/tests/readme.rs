//! The pictures that README.md shows are those that the program draws: `FINWRIGHT_UPDATE=1 cargo test -p finwright-draw
//! readme` writes them anew.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::analysis_of;
use finwright_draw::{picture, svg, Picture, Size};
use std::path::Path;

#[test]
fn the_readme_shows_what_is_drawn() {
    let home = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = std::fs::read_to_string(home.join("../../README.md")).unwrap();
    let design = finwright_disk::real_path(&home.join("../../tests/designs/good/reed_heron.finw"));
    let analysis = analysis_of(&design).unwrap();
    for kind in [Picture::Stand, Picture::Bench, Picture::Run] {
        let drawn = svg(&picture(&analysis, kind, 0, Size::Full).unwrap());
        let path = home.join("pictures").join(format!("{}.svg", kind.name()));
        if std::env::var_os("FINWRIGHT_UPDATE").is_some() {
            std::fs::write(&path, &drawn).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(kept == drawn, "{} is stale", path.display());
        let shown = format!("shared/draw/pictures/{}.svg", kind.name());
        assert!(readme.contains(&shown), "README.md doesn't show {shown}");
    }
}
