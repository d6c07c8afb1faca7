//! Every fix that is offered, for every design in the corpus and for slips in it, does what its title says: its finding
//! goes, and nothing is found that wasn't before.
#![allow(clippy::unwrap_used)]

use crate::support::fixed;
use finwright_checks::{analyze, offered, Files, Finding, Snapshot};
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct Folder(PathBuf);

impl Files for Folder {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        std::fs::read_to_string(self.0.join(path)).map(Arc::from).map_err(|error| error.to_string())
    }
}

fn snapshot(folder: &Path, path: &Path, text: &str) -> Snapshot {
    let files = Arc::new(Folder(folder.to_path_buf()));
    Snapshot { path: path.to_path_buf(), text: Arc::from(text), files, settings: Arc::default() }
}

fn found(folder: &Path, path: &Path, text: &str) -> Vec<Finding> {
    analyze(&snapshot(folder, path, text)).findings
}

/// How many fixes were proposed, and how many of them offered.
#[derive(Default)]
struct Count {
    proposed: usize,
    offered: usize,
}

#[test]
fn fixes_over_the_corpus_mend_and_break_nothing() {
    let mut faults = Vec::new();
    let mut count = Count::default();
    for folder in ["good", "bad"] {
        for (folder, path, text) in designs(folder) {
            try_fixes(&folder, &path, &text, "", &mut count, &mut faults);
        }
    }
    assert!(count.offered >= 10, "{}", count.offered);
    assert!(faults.is_empty(), "{faults:#?}");
}

/// The same with every number of every good design halved and doubled, one at a time: slips as people make them.
#[test]
fn fixes_of_slips_mend_and_break_nothing() {
    let mut faults = Vec::new();
    let mut count = Count::default();
    for (folder, path, text) in designs("good") {
        let mut design = analyze(&snapshot(&folder, &path, &text)).design;
        let mut places: Vec<_> = design.amounts_mut().iter().map(|amount| amount.place).collect();
        places.retain(|place| place.file.0 == 0);
        places.sort_by_key(|place| place.span.start);
        places.dedup();
        for place in places {
            let written = place.span.of(&text);
            let end = written.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(written.len());
            let Ok(number) = written[..end].parse::<f64>() else { continue };
            for factor in [0.5, 2.0] {
                let slip = format!("{}{}", number * factor, &written[end..]);
                let mut text = text.clone();
                text.replace_range(place.span.range(), &slip);
                try_fixes(&folder, &path, &text, &format!("{written} → {slip}"), &mut count, &mut faults);
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    // What is solved is nearly always right as it is; the rest isn't offered.
    let Count { proposed, offered } = count;
    assert!(offered >= 300 && 10 * offered >= 8 * proposed, "{offered} of {proposed}");
}

fn designs(folder: &str) -> Vec<(PathBuf, PathBuf, String)> {
    let with_text = |path: PathBuf| {
        let text = std::fs::read_to_string(&path).unwrap();
        (path.parent().unwrap().to_path_buf(), path, text)
    };
    crate::support::designs(folder).into_iter().map(with_text).collect()
}

/// Tries every fix that is offered for a design.
fn try_fixes(folder: &Path, path: &Path, text: &str, slip: &str, count: &mut Count, faults: &mut Vec<String>) {
    let snapshot = snapshot(folder, path, text);
    let analysis = analyze(&snapshot);
    let before = &analysis.findings;
    let times = |found: &[Finding], rule: &str| found.iter().filter(|f| f.rule == rule).count();
    for finding in before {
        count.proposed += finding.fixes.len();
        for fix in offered(&snapshot, &analysis, finding) {
            count.offered += 1;
            let one = Finding { fixes: vec![fix.clone()], ..finding.clone() };
            let after = found(folder, path, &fixed(text, &one));
            let name = path.file_name().unwrap().to_string_lossy();
            let who = format!("{name} {slip}: `{}` of {}", fix.title, finding.rule);
            if times(&after, finding.rule) >= times(before, finding.rule) {
                faults.push(format!("{who} leaves its finding"));
            }
            // What couldn't be checked before was there before; so with a word that is mended.
            if times(&after, "file/not-checked") < times(before, "file/not-checked") {
                continue;
            }
            if ["name/", "unit/", "value/", "syntax/", "file/"].iter().any(|family| finding.rule.starts_with(family)) {
                continue;
            }
            let new = after.iter().filter(|f| times(&after, f.rule) > times(before, f.rule));
            faults.extend(new.map(|f| format!("{who} brings {}", f.message)));
        }
    }
}
