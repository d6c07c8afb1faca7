//! Every finding once, wherever it stands, as the formats for other programs tell it.

use crate::check::results::Results;
use crate::check::shared::Shared;
use crate::object::{Object, ObjectFix, ObjectLabel, Position};
use finwright_checks::Level;
use fnv::FnvHasher;
use std::collections::HashMap;
use std::hash::Hasher;

/// A finding, or a fault that several designs share.
pub struct Told<'r> {
    pub file: &'r str,
    pub line: usize,
    /// Its stretch of text; a fault that designs share has only a line.
    pub at: Option<&'r Position>,
    pub rule: &'r str,
    pub level: Level,
    /// What is wrong, in a line.
    pub message: String,
    /// What to do about it; may be empty.
    pub help: &'r str,
    pub why: &'r str,
    pub labels: &'r [ObjectLabel],
    pub fixes: &'r [ObjectFix],
    /// The same for the same finding in the same file wherever it moves to, and different for any other.
    pub fingerprint: String,
}

impl Told<'_> {
    /// The message, and behind it what to do and why.
    pub fn in_full(&self) -> String {
        let said = [self.message.as_str(), self.help, self.why];
        said.into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join("\n")
    }
}

/// All of them, file by file and in each from its top.
pub fn all(results: &Results) -> Vec<Told<'_>> {
    let mut told: Vec<Told> = results.findings().map(of_object).chain(results.shared.iter().map(of_shared)).collect();
    told.sort_by(|a, b| {
        let place = |told: &Told| told.at.map(|at| (at.start_byte, at.end_byte));
        (a.file, a.line, place(a), a.level, a.rule).cmp(&(b.file, b.line, place(b), b.level, b.rule))
    });
    let mut seen: HashMap<u64, usize> = HashMap::new();
    for one in &mut told {
        let hash = hashed(&[one.file, one.rule, &one.message]);
        let nth = seen.entry(hash).or_insert(0);
        one.fingerprint =
            format!("{:016x}", if *nth == 0 { hash } else { hashed(&[&hash.to_string(), &nth.to_string()]) });
        *nth += 1;
    }
    told
}

fn of_object(finding: &Object) -> Told<'_> {
    Told {
        file: &finding.file,
        line: finding.at.line,
        at: Some(&finding.at),
        rule: &finding.rule,
        level: finding.level,
        message: finding.message.clone(),
        help: &finding.help,
        why: &finding.why,
        labels: &finding.labels,
        fixes: &finding.fixes,
        fingerprint: String::new(),
    }
}

fn of_shared(fault: &Shared) -> Told<'_> {
    Told {
        file: &fault.file,
        line: fault.line,
        at: None,
        rule: &fault.rule,
        level: fault.level,
        message: fault.in_words(),
        help: &fault.help,
        why: "",
        labels: &[],
        fixes: &[],
        fingerprint: String::new(),
    }
}

fn hashed(parts: &[&str]) -> u64 {
    let mut hasher = FnvHasher::default();
    for part in parts {
        hasher.write(part.as_bytes());
        hasher.write_u8(0);
    }
    hasher.finish()
}
