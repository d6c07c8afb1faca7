//! Any text is compared, worked and mended: no panic, and a fix that is offered still holds when it's applied.
#![no_main]

use finwright_advice::compare::{compare, Wish};
use finwright_advice::words::answer;
use finwright_checks::offer::applied;
use finwright_checks::{analyze, offered, settings, Snapshot};
use finwright_model::Files;
use finwright_working::{working, Quantity};
use libfuzzer_sys::fuzz_target;
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct NoFiles;

impl Files for NoFiles {
    fn read(&self, _: &Path) -> Result<Arc<str>, String> {
        Err("there is no such file".to_string())
    }
}

fuzz_target!(|text: &str| {
    // The text as settings too: what can't be understood there is told, and never stops anything.
    let set = settings::read("finwright.toml", text);
    assert!(set.problems.iter().all(|trouble| trouble.line >= 1));
    let snapshot = Snapshot { path: PathBuf::from("design.finw"), text: Arc::from(text), files: Arc::new(NoFiles), settings: Arc::default() };
    let analysis = analyze(&snapshot);
    if analysis.design.flights.len() > 4 {
        return;
    }
    for comparison in compare(&analysis, &Wish::default()) {
        let said = answer(&comparison);
        assert!(!said.is_empty());
        // Nothing is advised that the check has an error for.
        let flown = analysis.design.flights.iter().position(|flight| flight.name.value == comparison.flight);
        let best = comparison.candidates.first();
        if said.starts_with("Fly ") {
            assert!(flown.is_some() && best.is_some_and(|best| best.may_fly()), "{said}");
        }
    }
    for (quantity, ..) in Quantity::ALL {
        let _ = working(&analysis.design, &analysis.assessment, 0, quantity);
    }
    for finding in analysis.findings.iter().take(6) {
        for fix in offered(&snapshot, &analysis, finding) {
            assert!(applied(&snapshot, &analysis, fix).is_some(), "{fix:?}");
        }
    }
});
