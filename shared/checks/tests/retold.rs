//! An edit in a comment changes no number: what is known is moved along, and is what a new analysis says.
#![allow(clippy::unwrap_used)]

use crate::support::{every_design, snapshot_set};
use finwright_checks::{analyze, Analysis, Files, Snapshot};
use proptest::prelude::*;
use std::path::Path;
use std::sync::Arc;

struct Disk;

impl Files for Disk {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        std::fs::read_to_string(path).map(Arc::from).map_err(|e| e.to_string())
    }
}

fn on_disk(text: &str) -> Snapshot {
    Snapshot { files: Arc::new(Disk), ..snapshot_set(text, "") }
}

/// All of an analysis but its texts; a line for each thing is much sooner written than a line for each number.
fn everything(analysis: &Analysis) -> String {
    let Analysis { design, assessment, findings, allowed, flights, verdict, reason, .. } = analysis;
    format!("{design:?}\n{assessment:?}\n{findings:?}\n{allowed:?}\n{flights:?}\n{verdict:?}\n{reason:?}")
}

/// Whether an edit is taken as one of a comment; what is known of its text then is all the same as of any text.
fn is_retold(before: &Analysis, range: std::ops::Range<usize>, words: &str) -> bool {
    let mut text = before.sources[0].text.to_string();
    text.replace_range(range, words);
    let snapshot = Snapshot { path: before.sources[0].path.clone(), ..on_disk(&text) };
    let Some(retold) = before.retold(&snapshot) else { return false };
    let anew = analyze(&snapshot);
    same(&everything(&retold), &everything(&anew));
    assert_eq!(retold.sources[0].text, anew.sources[0].text);
    true
}

fn same(one: &str, other: &str) {
    let differs = one.bytes().zip(other.bytes()).position(|(a, b)| a != b);
    let around = |text: &str, at: usize| text.chars().skip(at.saturating_sub(200)).take(400).collect::<String>();
    assert!(differs.is_none(), "{:?}", differs.map(|at| (around(one, at), around(other, at))));
    assert_eq!(one.len(), other.len());
}

#[test]
fn comments_of_all_every_design() {
    let mut retold = 0;
    for path in every_design() {
        let text = std::fs::read_to_string(&path).unwrap();
        let before = analyze(&Snapshot { path, ..on_disk(&text) });
        let comments = before.tree().unwrap().comments.clone();
        let few = comments.iter().take(2).chain(comments.iter().rev().take(1));
        for comment in few.map(|comment| comment.range()) {
            for (range, words) in [
                (comment.end..comment.end, " and more"),
                (comment.start + 1..comment.start + 1, "é"),
                (comment.start + 1..comment.end, ""),
                (comment.start + 1..comment.end, " another one, much longer than the one that stood here before"),
            ] {
                retold += usize::from(is_retold(&before, range, words));
            }
        }
    }
    assert!(retold > 100, "{retold}");
}

#[test]
fn what_means_more_than_a_remark() {
    let text = "finwright 1\n# a remark\nairframe { # here\n  tube { length: 100 mm }\n}\n# allow part/no-mass in this file: a test\n";
    let before = analyze(&on_disk(text));
    let replaced = |old: &str, new: &str| {
        let at = text.find(old).unwrap();
        is_retold(&before, at..at + old.len(), new)
    };
    assert!(replaced("remark", "mark"));
    assert!(replaced("here", "here, and there"));
    for (old, new) in [
        ("remark", "remark\n"),
        ("remark", "remark\rairframe {}"),
        ("a remark", "allow part/no-mass: for a test"),
        ("a test", "another test"),
        ("remark", "/* remark"),
        ("# a remark", "a remark"),
        ("100 mm", "101 mm"),
        ("tube", "# tube"),
    ] {
        assert!(!replaced(old, new), "{old:?} to {new:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn any_edit(design in 0usize..1000, at in 0usize..100_000, length in 0usize..12, words in "[ -~\n#é]{0,12}") {
        let all = every_design();
        let path = all[design % all.len()].clone();
        let text = std::fs::read_to_string(&path).unwrap();
        let floor = |mut at: usize| { while !text.is_char_boundary(at) { at -= 1 } at };
        let start = floor(at % (text.len() + 1));
        let end = floor((start + length).min(text.len()));
        let before = analyze(&Snapshot { path, ..on_disk(&text) });
        is_retold(&before, start..end, &words);
    }
}
