//! Findings for readers of other units: the same findings with the same edits, said in their units first.
#![allow(clippy::unwrap_used)]

use crate::support::every_design;
use finwright_checks::{analyze, Analysis, Files, Finding, Settings, Snapshot};
use finwright_units::Units;
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct Folder(PathBuf);

impl Files for Folder {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        std::fs::read_to_string(self.0.join(path)).map(Arc::from).map_err(|error| error.to_string())
    }
}

fn findings(path: &Path, units: Units) -> Vec<Finding> {
    looked_at(path, units).findings
}

fn looked_at(path: &Path, units: Units) -> Analysis {
    let settings = Arc::new(Settings::default().in_units(units));
    let files = Arc::new(Folder(path.parent().unwrap().to_path_buf()));
    let text = Arc::from(std::fs::read_to_string(path).unwrap().as_str());
    analyze(&Snapshot { path: path.to_path_buf(), text, files, settings })
}

/// Everything that a finding says.
fn said(finding: &Finding) -> Vec<String> {
    let labels = finding.labels.iter().map(|label| label.text.clone());
    let also = finding.also.iter().map(|also| also.message.clone());
    [finding.message.clone(), finding.help.clone(), finding.why.clone()].into_iter().chain(labels).chain(also).collect()
}

const THEIRS: [&str; 13] =
    ["in", "ft", "oz", "lb", "ozf", "lbf", "mph", "ft/s", "°F", "in2", "in3", "lb/ft3", "ft.lbf"];

/// The text with `39.4 in (1 m)` as `1 m`.
fn si_of(text: &str) -> String {
    let mut text = text.to_string();
    for unit in THEIRS {
        let before_brackets = format!(" {unit} (");
        let mut from = 0;
        while let Some(at) = text[from..].find(&before_brackets).map(|at| from + at) {
            let open = at + before_brackets.len();
            let number = |c: char| c.is_ascii_digit() || ".-± ".contains(c);
            let start = at - text[..at].chars().rev().take_while(|c| number(*c)).map(char::len_utf8).sum::<usize>();
            let start = start + text[start..at].len() - text[start..at].trim_start().len();
            let close = open + text[open..].find(')').unwrap();
            let si = text[open..close].to_string();
            text.replace_range(start..=close, &si);
            from = start + si.len();
        }
    }
    text
}

/// Of `13.4 m/s (48 km/h, 30 mph)` the speed in SI.
fn without_other_speeds(text: &str) -> String {
    let mut text = text.to_string();
    while let Some(close) = text.find(" mph)") {
        let open = text[..close].rfind(" (").unwrap();
        assert!(text[open..close].contains(" km/h, "), "{text}");
        text.replace_range(open..close + " mph)".len(), "");
    }
    text
}

/// What is to be typed.
fn in_backticks(text: &str) -> Vec<&str> {
    text.split('`').skip(1).step_by(2).collect()
}

#[test]
fn the_brackets_hold_what_si_alone_would_say() {
    let mut theirs_first = 0;
    for path in every_design() {
        let (si, us) = (findings(&path, Units::Si), findings(&path, Units::Us));
        assert_eq!(si.len(), us.len(), "{}", path.display());
        for (si, us) in si.iter().zip(&us) {
            assert_eq!((si.rule, si.level, si.place), (us.rule, us.level, us.place));
            for (si, us) in said(si).iter().zip(&said(us)) {
                assert_eq!(si_of(us), without_other_speeds(si), "{us}");
                theirs_first += usize::from(us != si);
            }
        }
    }
    for path in every_design() {
        let reasons = |units| looked_at(&path, units).flights.into_iter().filter_map(|flight| flight.reason);
        for (si, us) in reasons(Units::Si).zip(reasons(Units::Us)) {
            assert_eq!(si_of(&us.message), without_other_speeds(&si.message), "{}", us.message);
            theirs_first += usize::from(us.message != si.message);
        }
    }
    assert!(theirs_first > 100, "{theirs_first}");
}

/// Edits and what help shows to type stay the language, whoever reads.
#[test]
fn what_is_typed_is_the_same_for_every_reader() {
    let mut edits = 0;
    for path in every_design() {
        for (si, us) in findings(&path, Units::Si).iter().zip(&findings(&path, Units::Us)) {
            assert_eq!(si.fixes.len(), us.fixes.len());
            for (si, us) in si.fixes.iter().zip(&us.fixes) {
                assert_eq!(si.edits, us.edits, "{}", us.title);
                edits += us.edits.len();
            }
            for (si, us) in said(si).iter().zip(&said(us)) {
                assert_eq!(in_backticks(si), in_backticks(us));
            }
        }
    }
    assert!(edits > 30, "{edits}");
}
