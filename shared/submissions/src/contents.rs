//! The texts of one submission. Links aren't followed, sizes, numbers and depths are bounded, and what can't be read is
//! told in words.

mod archive;

use crate::gather::Submission;
use crate::kind::{kind, Kind};
use crate::name::{is_clutter, printable};
use crate::{MOST_BYTES, MOST_DEPTH, MOST_FILES};
use archive::from_zip;
use finwright_disk::{plain_words, text_of, SIZE_LIMIT};
use std::fs::{self, File};
use std::io::Read;
use std::path::Path;
use std::sync::Arc;

/// What was handed in.
#[derive(Clone, Debug, Default)]
pub struct Contents {
    /// What may be a design, in the order of the paths.
    pub designs: Vec<Text>,
    /// What a design may use.
    pub data: Vec<Text>,
    /// What can't be read, each with its name and what to do about it.
    pub faults: Vec<String>,
    /// What else lies there and is neither: told only where there is no design.
    others: Vec<String>,
    bytes: u64,
    count: usize,
}

/// A text that was handed in.
#[derive(Clone, Debug)]
pub struct Text {
    /// Its path, from the folder of submissions, `/` between its parts.
    pub path: String,
    /// What it says.
    pub text: Arc<str>,
}

/// Read a submission whole.
pub fn contents(submission: &Submission) -> Contents {
    let mut found = Contents::default();
    found.faults.extend(submission.faults.iter().cloned());
    for (place, name) in &submission.places {
        look(&mut found, place, name, 0);
    }
    if found.count > MOST_FILES {
        // Which of them would be read hangs on the file system's order; so that none is.
        found = Contents { faults: found.faults, ..Contents::default() };
        found
            .faults
            .push(format!("it holds more than {MOST_FILES} files: hand in the design and what it uses, no more"));
    }
    if found.bytes > MOST_BYTES {
        found = Contents { faults: found.faults, ..Contents::default() };
        found.faults.push(format!("it holds more than {} MB of text: hand in the design alone", MOST_BYTES >> 20));
    }
    if found.designs.is_empty() {
        found.faults.append(&mut found.others);
    }
    found.designs.sort_by(|one, other| one.path.cmp(&other.path));
    found
}

impl Contents {
    /// Whether there was anything at all.
    pub fn is_nothing(&self) -> bool {
        self.designs.is_empty() && self.data.is_empty() && self.faults.is_empty()
    }

    /// Whether it has had enough.
    pub(crate) fn is_full(&self) -> bool {
        self.count > MOST_FILES || self.bytes > MOST_BYTES
    }

    /// One more file, whatever it is.
    pub(crate) fn count_one(&mut self) {
        self.count += 1;
    }

    /// What a file comes to by its name and its bytes, which are all of it or one more than a text may have.
    pub(crate) fn take(&mut self, name: &str, bytes: Vec<u8>) {
        self.bytes += bytes.len() as u64;
        let shown = printable(name);
        let fault = |what: String| format!("{shown}: {what}");
        if is_settings(name) {
            return self.faults.push(fault("a submission's own settings don't count".to_string()));
        }
        if let Some(kind) = kind(&bytes) {
            return self.told(name, fault(kind.in_words()));
        }
        if bytes.trim_ascii().is_empty() {
            return self.told(name, fault("it is empty".to_string()));
        }
        let text = match text_of(bytes) {
            Ok(text) => text,
            Err(reason) => return self.told(name, fault(reason)),
        };
        let path = name.to_string();
        match (ending(name).as_str(), begins_like_a_design(&text)) {
            ("finw", _) => self.designs.push(Text { path, text }),
            ("csv", _) => self.data.push(Text { path, text }),
            (_, true) => {
                self.faults.push(fault("it is read as a design, though its name should end in .finw".to_string()));
                self.designs.push(Text { path, text });
            }
            _ => self.others.push(fault("it is text, and no design: one begins with `finwright 1`".to_string())),
        }
    }

    /// What can't be read is a fault where it should have been a design or data, else only worth a word where there is
    /// no design.
    fn told(&mut self, name: &str, what: String) {
        match ending(name).as_str() {
            "finw" | "csv" | "zip" => self.faults.push(what),
            _ => self.others.push(what),
        }
    }

    /// What is wrong with a file by its name alone.
    pub(crate) fn refuse(&mut self, name: &str, why: impl std::fmt::Display) {
        self.faults.push(format!("{}: {why}", printable(name)));
    }
}

/// A file, a folder or a zip.
fn look(found: &mut Contents, path: &Path, name: &str, depth: usize) {
    if found.is_full() {
        return;
    }
    let about = match fs::symlink_metadata(path) {
        Ok(about) => about,
        Err(error) => return found.refuse(name, plain_words(error)),
    };
    if about.is_symlink() {
        return found.refuse(name, "it is a link: hand in the file itself");
    }
    if about.is_dir() {
        return folder(found, path, name, depth);
    }
    found.count_one();
    if !about.is_file() {
        return found.refuse(name, "it isn't a file");
    }
    file(found, path, name, about.len());
}

fn folder(found: &mut Contents, path: &Path, name: &str, depth: usize) {
    if depth > MOST_DEPTH {
        return found.refuse(name, format!("folders in folders, more than {MOST_DEPTH} deep, aren't looked into"));
    }
    let entries = match fs::read_dir(path) {
        Ok(entries) => entries,
        Err(error) => return found.refuse(name, plain_words(error)),
    };
    // One more than is looked at, so that a folder of a hundred thousand files isn't listed whole.
    let listed: Vec<_> = entries.flatten().take(MOST_FILES + 1).map(|entry| entry.file_name().into_string()).collect();
    if listed.len() > MOST_FILES {
        found.count = MOST_FILES + 1;
        return;
    }
    if listed.iter().any(Result::is_err) {
        found.refuse(name, "a file in it has a name that can't be read: give it another");
    }
    let mut names: Vec<String> = listed.into_iter().flatten().filter(|name| !is_clutter(name)).collect();
    names.sort();
    for inner in names {
        look(found, &path.join(&inner), &format!("{name}/{inner}"), depth + 1);
    }
}

fn file(found: &mut Contents, path: &Path, name: &str, bytes: u64) {
    let opened = File::open(path).and_then(|mut file| {
        let mut head = Vec::new();
        file.by_ref().take(600).read_to_end(&mut head)?;
        Ok((file, head))
    });
    let (mut file, mut head) = match opened {
        Ok(opened) => opened,
        Err(error) => return found.refuse(name, plain_words(error)),
    };
    match kind(&head) {
        Some(Kind::Zip) => return from_zip(found, file, name, bytes),
        Some(kind) => return found.told(name, format!("{}: {}", printable(name), kind.in_words())),
        None => {}
    }
    if bytes > SIZE_LIMIT as u64 {
        return found.told(name, format!("{}: {}", printable(name), too_large(bytes)));
    }
    // It may have grown since.
    if let Err(error) = file.by_ref().take(SIZE_LIMIT as u64 + 1).read_to_end(&mut head) {
        return found.refuse(name, plain_words(error));
    }
    found.take(name, head);
}

/// "27 MB: no design is that large".
pub(crate) fn too_large(bytes: u64) -> String {
    let size = match bytes {
        b if b >= 10_000_000 => format!("{} MB", b / 1_000_000),
        b => format!("{:.1} MB", b as f64 / 1e6),
    };
    format!("{size}: no design is that large, one has a few thousand letters")
}

fn ending(name: &str) -> String {
    name.rsplit_once('.').map_or(String::new(), |(_, ending)| ending.to_ascii_lowercase())
}

fn is_settings(name: &str) -> bool {
    name.rsplit('/').next() == Some("finwright.toml")
}

/// Whether the first line that isn't a comment says what language it is in.
fn begins_like_a_design(text: &str) -> bool {
    let lines = text.trim_start_matches('\u{feff}').lines().map(str::trim);
    lines.filter(|line| !line.is_empty() && !line.starts_with('#')).take(1).any(|line| line.starts_with("finwright "))
}
