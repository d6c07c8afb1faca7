//! Any text is analysed from end to end: no panic, no finding outside the text.
#![no_main]

use finwright_checks::{analyze, Snapshot};
use finwright_model::Files;
use libfuzzer_sys::fuzz_target;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// One file that a design may use, which uses the design in turn.
struct Shelf;

impl Files for Shelf {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        if path.ends_with("parts.finw") {
            Ok(Arc::from("use \"design.finw\"\nmaterial soft { density: 90 kg/m3 }\nlet x = 3 mm\n"))
        } else {
            Err("there is no such file".to_string())
        }
    }
}

fuzz_target!(|text: &str| {
    let snapshot = Snapshot { path: PathBuf::from("design.finw"), text: Arc::from(text), files: Arc::new(Shelf), settings: Arc::default() };
    let analysis = analyze(&snapshot);
    for finding in &analysis.findings {
        if finding.place.file.0 == 0 {
            assert!(text.get(finding.place.span.range()).is_some(), "{finding:?}");
        }
    }
});
