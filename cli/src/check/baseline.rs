//! A baseline: what was found before and isn't counted again, so that a club can ask of new designs what its old ones
//! don't meet yet.
//!
//! What stands in it is known by file, rule and message, and by how often; not by its line, so that text may move.

use super::entry::Entry;
use super::line::{Fault, VERSION};
use super::results::Results;
use crate::collect::STARTED_IN;
use crate::object::Object;
use crate::written::write;
use finwright_checks::settings::FILE_NAME;
use finwright_disk::{plain_words, real_path};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// What a baseline is called where nobody names it.
pub const FILE: &str = "finwright-baseline.json";

/// A larger one isn't read.
const LARGEST: u64 = 64 * 1024 * 1024;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    finwright_baseline: u32,
    findings: Vec<Entry>,
}

type Key = (String, String, String);

/// What is known.
pub struct Baseline {
    counts: BTreeMap<Key, usize>,
    /// The folder that it lies in: its files are named from there, wherever it's read.
    folder: PathBuf,
}

impl Baseline {
    /// Read one, or say why it can't be.
    pub fn read(path: &Path) -> Result<Baseline, String> {
        let failed = |why: String| format!("the baseline {} can't be used: {why}", path.display());
        let about = std::fs::metadata(path).map_err(|error| failed(plain_words(error)))?;
        if !about.is_file() || about.len() > LARGEST {
            return Err(failed("it isn't a file of at most 64 MB".to_string()));
        }
        let bytes = std::fs::read(path).map_err(|error| failed(plain_words(error)))?;
        let written: Written = serde_json::from_slice(&bytes).map_err(|error| failed(error.to_string()))?;
        if written.finwright_baseline != VERSION {
            return Err(failed(format!("it is of version {}", written.finwright_baseline)));
        }
        let mut counts = BTreeMap::new();
        for entry in written.findings {
            *counts.entry((entry.file, entry.rule, entry.message)).or_insert(0) += entry.count;
        }
        Ok(Baseline { counts, folder: folder_of(path) })
    }

    /// Write down what is found now, for this place.
    pub fn write(path: &Path, results: &Results) -> Result<usize, String> {
        let mut new = Baseline { counts: BTreeMap::new(), folder: folder_of(path) };
        for finding in results.findings() {
            *new.counts.entry(new.key(&finding.file, &finding.rule, &finding.message)).or_insert(0) += 1;
        }
        for fault in results.files.iter().flat_map(|file| &file.elsewhere) {
            let key = new.key(&fault.file, &fault.rule, &fault.message);
            new.counts.entry(key).or_insert(1);
        }
        let entry = |((file, rule, message), count): (&Key, &usize)| Entry {
            file: file.clone(),
            rule: rule.clone(),
            message: message.clone(),
            count: *count,
        };
        let findings: Vec<Entry> = new.counts.iter().map(entry).collect();
        let many = findings.iter().map(|entry| entry.count).sum();
        let written = Written { finwright_baseline: VERSION, findings };
        let text = serde_json::to_string_pretty(&written).map_err(|error| error.to_string())? + "\n";
        write(path, text.as_bytes()).map(|()| many)
    }

    fn key(&self, file: &str, rule: &str, message: &str) -> Key {
        (self.name(file), rule.to_string(), message.to_string())
    }

    /// A file's name as it stands in the baseline.
    fn name(&self, file: &str) -> String {
        let whole = STARTED_IN.join(file);
        let named = pathdiff::diff_paths(&whole, &self.folder).unwrap_or(whole);
        named.to_string_lossy().replace(std::path::MAIN_SEPARATOR, "/")
    }

    /// Begin to compare.
    pub fn matching(&self) -> Matching<'_> {
        Matching { baseline: self, left: self.counts.clone() }
    }
}

fn folder_of(path: &Path) -> PathBuf {
    real_path(path).parent().map(Path::to_path_buf).unwrap_or_default()
}

/// What is known and hasn't been met yet.
pub struct Matching<'b> {
    baseline: &'b Baseline,
    left: BTreeMap<Key, usize>,
}

impl Matching<'_> {
    /// Whether a finding is known; each is taken once.
    pub fn takes_finding(&mut self, finding: &Object) -> bool {
        let key = self.baseline.key(&finding.file, &finding.rule, &finding.message);
        let left = self.left.get_mut(&key).filter(|left| **left > 0);
        left.map(|left| *left -= 1).is_some()
    }

    /// Whether a fault in another file is known, however many designs meet it.
    pub fn knows_fault(&mut self, fault: &Fault) -> bool {
        self.knows(&fault.file, &fault.rule, &fault.message)
    }

    /// Whether something is known, however often it's met.
    pub fn knows(&mut self, file: &str, rule: &str, message: &str) -> bool {
        let key = self.baseline.key(file, rule, message);
        self.left.get_mut(&key).map(|left| *left = 0).is_some()
    }

    /// What is known of files that were looked at, or are gone, and wasn't met.
    pub fn left(self, results: &Results) -> Vec<Entry> {
        let named = |file: &str| self.baseline.name(file);
        let looked_at: BTreeSet<String> = results
            .usable()
            .flat_map(|file| [file.path(), file.real()].into_iter().chain(file.uses.iter().map(String::as_str)))
            .map(named)
            .collect();
        let left = self.left.iter().filter(|(_, count)| **count > 0);
        left.filter(|((file, _, _), _)| {
            let settings = file
                .strip_suffix(FILE_NAME)
                .is_some_and(|folder| looked_at.iter().any(|known| known.starts_with(folder)));
            settings || looked_at.contains(file) || !self.baseline.folder.join(file).exists()
        })
        .map(|((file, rule, message), count)| Entry {
            file: file.clone(),
            rule: rule.clone(),
            message: message.clone(),
            count: *count,
        })
        .collect()
    }
}
