//! The line above a flight.
#![allow(clippy::unwrap_used)]

use finwright_assist::{lens_title, lenses};
use finwright_checks::example::BASE;
use finwright_checks::{analyze, Analysis, Files, Snapshot};
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct NoFiles;
impl Files for NoFiles {
    fn read(&self, _: &Path) -> Result<Arc<str>, String> {
        Err("none".to_string())
    }
}

fn analysis(text: &str) -> Analysis {
    analyze(&Snapshot {
        path: PathBuf::from("a.finw"),
        text: Arc::from(text),
        files: Arc::new(NoFiles),
        settings: Arc::default(),
    })
}

#[test]
fn every_flight_has_its_line() {
    let analysis = analysis(BASE);
    let found = lenses(&analysis);
    let names: Vec<&str> = found.iter().map(|lens| lens.span.of(BASE)).collect();
    assert_eq!(names, ["one", "two", "slotted"]);
    let title = lens_title(&analysis, found[2].flight).unwrap();
    assert_eq!(title, "meets the checks · leaves at 22 m/s · margin 2.3 cal · wind up to 6.1 m/s (wind/steep-angle)");
}

#[test]
fn a_flight_that_fails_even_in_still_air_says_so() {
    let analysis = analysis(&BASE.replace("length: 1 m; material: steel", "length: 0.4 m; material: steel"));
    let title = lens_title(&analysis, 0).unwrap();
    assert!(title.starts_with("not as it is (guide/slow-exit) · leaves at 9.9 m/s"), "{title}");
    assert!(title.ends_with("· in still air too"), "{title}");
}

#[test]
fn a_flight_that_isnt_known_says_so() {
    let analysis = analysis("flight one { pad: stand }\n");
    assert_eq!(lens_title(&analysis, 0).unwrap(), "not as it is (name/unknown-name)");
    let analysis = self::analysis("finwright 1\nflight one { }\n");
    assert_eq!(lens_title(&analysis, 0).unwrap(), "not checked (file/not-checked)");
}
