//! What came of one file as plain data: a line of `--format jsonl`.

use super::file::FileReport;
use crate::object::Object;
use finwright_checks::rules::file::not_checked::NOT_CHECKED;
use finwright_checks::{Level, Verdict};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::Arc;

/// The version of what is printed: it counts up when a name changes its meaning or goes.
pub const VERSION: u32 = 1;

/// One file: a line of `--format jsonl`. It hangs on the file and on those that it uses, and on no other of the run.
#[derive(Serialize, Deserialize, JsonSchema)]
pub struct FileResult {
    #[serde(flatten)]
    pub report: FileReport,
    /// The version of these names.
    pub version: u32,
    /// What is found in it.
    pub findings: Vec<Object>,
    /// What is found in it and stands in another file.
    pub elsewhere: Vec<Fault>,
    /// The files that it uses.
    pub uses: Vec<String>,
    /// The file that it is, where its path is a link.
    pub leads_to: Option<String>,
    /// Whether it is a library where another file uses it: there are parts in it and no flight.
    pub may_be_library: bool,
    /// Why it couldn't be used; null where it could.
    pub unusable: Option<String>,
    /// How many of its findings aren't told, since they stood in the baseline.
    #[serde(skip)]
    pub known: usize,
    /// Whether what keeps it from passing stood in the baseline, all of it.
    #[serde(skip)]
    pub excused: bool,
}

/// A fault in another file as one design meets it.
#[derive(Clone, Serialize, Deserialize, JsonSchema)]
pub struct Fault {
    /// The file that it stands in.
    pub file: String,
    pub line: usize,
    pub rule: Cow<'static, str>,
    pub level: Level,
    pub message: String,
    pub help: String,
    /// Whether it is in that file's words: it is told when the file is looked at, and so are these findings.
    pub in_its_words: bool,
    /// What is found in that file, where its words are at fault.
    pub findings: Arc<Vec<Object>>,
}

impl FileResult {
    /// A file that couldn't be used.
    pub fn unusable(path: String, reason: String) -> FileResult {
        FileResult {
            report: FileReport::unusable(&path),
            version: VERSION,
            findings: Vec::new(),
            elsewhere: Vec::new(),
            uses: Vec::new(),
            leads_to: None,
            may_be_library: false,
            unusable: Some(reason),
            known: 0,
            excused: false,
        }
    }

    pub fn path(&self) -> &str {
        &self.report.path
    }

    /// The file that it is, whatever it's called.
    pub fn real(&self) -> &str {
        self.leads_to.as_deref().unwrap_or(self.path())
    }

    pub fn could_be_used(&self) -> bool {
        self.unusable.is_none()
    }

    /// Whether it keeps the run from passing.
    pub fn fails(&self) -> bool {
        !self.report.verdict.may_pass() && !self.excused
    }

    /// Take it for a library: what couldn't be checked for want of a flight is for those that use it.
    pub fn take_as_library(&mut self) {
        if self.report.verdict != Verdict::Library {
            let unneeded = |finding: &Object| finding.rule == NOT_CHECKED.name;
            for finding in self.findings.iter().filter(|finding| unneeded(finding)) {
                self.report.counts.less(finding.level);
            }
            self.findings.retain(|finding| !unneeded(finding));
            self.report.verdict = Verdict::Library;
            self.report.reason = None;
        }
    }
}

/// A file without flights that another one uses is a library.
pub fn make_libraries(files: &mut [FileResult]) {
    let used: BTreeSet<String> = files.iter().flat_map(|file| file.uses.iter().cloned()).collect();
    files.iter_mut().filter(|file| file.may_be_library && used.contains(file.real())).for_each(|file| {
        file.take_as_library();
    });
}
