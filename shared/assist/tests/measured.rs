//! The block that the bench is written down in.
#![allow(clippy::unwrap_used)]

use finwright_assist::measured_block;
use finwright_checks::example::BASE;
use finwright_checks::{analyze, Analysis, Files, Snapshot};
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct NoFiles;
impl Files for NoFiles {
    fn read(&self, _: &Path) -> Result<Arc<str>, String> {
        Err("none".to_string())
    }
}

fn analysis(text: &str) -> Analysis {
    analyze(&Snapshot {
        path: PathBuf::from("a.finw"),
        text: Arc::from(text),
        files: Arc::new(NoFiles),
        settings: Arc::default(),
    })
}

/// What is offered with the cursor at a word of the text: the block, as it would stand at the file's end.
fn offered(text: &str, cursor: &str) -> Option<String> {
    let analysis = analysis(text);
    let fix = measured_block(&analysis, text.find(cursor).unwrap())?;
    let edit = &fix.edits[0];
    assert!(text[edit.place.span.range()].trim().is_empty(), "it takes nothing away");
    assert_eq!(edit.place.span.end as usize, text.len());
    Some(edit.text.clone())
}

#[test]
fn a_block_to_fill_in_names_the_motor_and_what_was_computed() {
    let block = offered(BASE, "flight one").unwrap();
    insta::assert_snapshot!(block.trim_start());
    assert_eq!(offered(BASE, "airframe").unwrap(), block);
}

#[test]
fn it_holds_no_value_that_nobody_measured() {
    let text = format!("{}{}", BASE.trim_end(), offered(BASE, "flight one").unwrap());
    let found = analysis(&text);
    assert!(found.assessment.airframe.weighings.is_empty());
    let rules: Vec<&str> = found.findings.iter().map(|f| f.rule).collect();
    assert!(rules.contains(&"syntax/missing-value"), "{rules:?}");
}

#[test]
fn where_it_was_weighed_already_nothing_is_offered() {
    let weighed = format!("{BASE}\nmeasured {{ with: b8; mass: 47 g; balance: 188 mm from tip }}\n");
    assert_eq!(offered(&weighed, "flight one"), None);
    assert_eq!(offered(BASE, "pad "), None);
}
