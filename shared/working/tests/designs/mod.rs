//! Designs to work: the corpus, and texts.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_checks::{analyze, Analysis, Files, Settings, Snapshot};
use finwright_working::{working, Quantity, Working};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The records that lie beside the corpus' designs.
struct Records;

impl Files for Records {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs");
        let found =
            ["good", "bad"].iter().find_map(|folder| std::fs::read_to_string(here.join(folder).join(path)).ok());
        found
            .map(Arc::from)
            .filter(|_| path.extension().is_some_and(|e| e == "csv"))
            .ok_or("it isn't there".to_string())
    }
}

/// A text's analysis.
pub fn analysis(text: &str) -> Analysis {
    let path = PathBuf::from("design.finw");
    analyze(&Snapshot { path, text: text.into(), files: Arc::new(Records), settings: Arc::new(Settings::default()) })
}

/// Every good design of the corpus, by name.
pub fn good() -> Vec<(String, Analysis)> {
    corpus("good")
}

/// Every design of a folder of the corpus, by name.
pub fn corpus(folder: &str) -> Vec<(String, Analysis)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs").join(folder);
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|e| e == "finw"));
    paths.sort();
    let name = |path: &Path| path.file_stem().unwrap().to_string_lossy().into_owned();
    paths.iter().map(|path| (name(path), analysis(&std::fs::read_to_string(path).unwrap()))).collect()
}

/// A good design's text.
pub fn text_of_good(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs/good");
    std::fs::read_to_string(folder.join(name).with_extension("finw")).unwrap()
}

/// Where the numbers of a text stand that are no part of a word or a remark.
pub fn numbers(text: &str) -> Vec<(usize, usize)> {
    let is_digit = |c: char| c.is_ascii_digit() || c == '.';
    let mut found = Vec::new();
    for line in text.split_inclusive('\n').skip(1) {
        let line_start = line.as_ptr() as usize - text.as_ptr() as usize;
        let said = line.split('#').next().unwrap();
        let mut at = 0;
        while let Some(from) = said[at..].find(|c: char| c.is_ascii_digit()).map(|n| at + n) {
            let to = said[from..].find(|c: char| !is_digit(c)).map_or(said.len(), |n| from + n);
            let before = said[..from].chars().last();
            if before.is_none_or(|c| matches!(c, ' ' | '[')) && said[from..to].parse::<f64>().is_ok() {
                found.push((line_start + from, line_start + to));
            }
            at = to;
        }
    }
    found
}

/// A good design's working.
pub fn of_good(name: &str, flight: usize, quantity: Quantity) -> Working {
    let (_, analysis) = good().into_iter().find(|(known, _)| known == name).unwrap();
    working(&analysis.design, &analysis.assessment, flight, quantity).unwrap_or_else(|lack| panic!("{lack:?}"))
}

/// The results of a text's working, in order.
pub fn ends(text: &str, quantity: Quantity) -> Vec<f64> {
    let analysis = analysis(text);
    let page = working(&analysis.design, &analysis.assessment, 0, quantity).unwrap_or_else(|lack| panic!("{lack:?}"));
    page.ends.iter().map(|end| end.by_hand.value()).collect()
}
