//! `finwright check`: every finding of every design, and a closing count.

use crate::collect::{find, read};
use crate::output::{plural, print, print_json, UNUSABLE};
use crate::render;
use crate::CheckFormat;
use finwright_checks::{analyze, Analysis, Level};
use finwright_units::reader::with;
use finwright_units::Units;
use rayon::prelude::*;
use serde::Serialize;
use std::path::PathBuf;
use std::process::ExitCode;

pub fn check(paths: &[PathBuf], format: CheckFormat, units: Option<Units>) -> ExitCode {
    let found = find(paths);
    let results: Vec<Outcome> = found
        .par_iter()
        .map(|path| match path {
            Ok(path) => {
                let input = read(path).in_units(units);
                match input.snapshot {
                    Ok(snapshot) => {
                        let analysis = analyze(&snapshot);
                        let text = with(analysis.settings.units, || match format {
                            CheckFormat::Text => render::graphical(&input.shown, &analysis),
                            CheckFormat::Line => render::lines(&input.shown, &analysis),
                            CheckFormat::Json => String::new(),
                        });
                        let found = if format == CheckFormat::Json {
                            render::objects(&input.shown, &snapshot, &analysis)
                        } else {
                            Vec::new()
                        };
                        Outcome { tally: Tally::of(&analysis), text, found, unusable: None }
                    }
                    Err(reason) => Outcome::unusable(input.shown, reason),
                }
            }
            Err((path, reason)) => Outcome::unusable(path.display().to_string(), reason.clone()),
        })
        .collect();

    let mut total = Tally::default();
    for result in &results {
        total.add(&result.tally);
    }
    match format {
        CheckFormat::Json => {
            let report = Report {
                findings: results.iter().flat_map(|r| &r.found).collect(),
                unusable: results.iter().filter_map(|r| r.unusable.as_ref()).collect(),
            };
            if let Err(code) = print_json(&report) {
                return code;
            }
        }
        _ => {
            let mut text = String::new();
            results.iter().for_each(|r| text.push_str(&r.text));
            if format == CheckFormat::Text {
                let checked = results.iter().filter(|r| r.unusable.is_none()).count();
                if checked > 0 {
                    text.push_str(&total.in_words(checked));
                }
            }
            print(&text);
        }
    }
    for unusable in results.iter().filter_map(|r| r.unusable.as_ref()) {
        eprintln!("finwright: {}: {}", unusable.path, unusable.reason);
    }
    if results.iter().any(|r| r.unusable.is_some()) {
        ExitCode::from(UNUSABLE)
    } else {
        ExitCode::from(u8::from(total.errors > 0))
    }
}

/// What came of one path.
struct Outcome {
    tally: Tally,
    text: String,
    found: Vec<render::Object>,
    unusable: Option<Unusable>,
}

#[derive(Serialize)]
struct Unusable {
    path: String,
    reason: String,
}

#[derive(Serialize)]
struct Report<'r> {
    findings: Vec<&'r render::Object>,
    unusable: Vec<&'r Unusable>,
}

impl Outcome {
    fn unusable(path: String, reason: String) -> Outcome {
        Outcome {
            tally: Tally::default(),
            text: String::new(),
            found: Vec::new(),
            unusable: Some(Unusable { path, reason }),
        }
    }
}

#[derive(Default)]
struct Tally {
    errors: usize,
    warnings: usize,
    notes: usize,
}

impl Tally {
    fn of(analysis: &Analysis) -> Tally {
        let [errors, warnings, notes] = [Level::Error, Level::Warning, Level::Note].map(|level| analysis.count(level));
        Tally { errors, warnings, notes }
    }

    fn add(&mut self, other: &Tally) {
        self.errors += other.errors;
        self.warnings += other.warnings;
        self.notes += other.notes;
    }

    fn in_words(&self, files: usize) -> String {
        let designs = plural(files, "file");
        let mut counts = Vec::new();
        for (n, word) in [(self.errors, "error"), (self.warnings, "warning"), (self.notes, "note")] {
            if n > 0 {
                counts.push(plural(n, word));
            }
        }
        if counts.is_empty() {
            format!("{designs} checked: every check met. The range safety officer and the local code decide.\n")
        } else {
            format!("{designs} checked: {}.\n", counts.join(", "))
        }
    }
}
