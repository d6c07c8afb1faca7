//! The second method's centre of pressure: the lesser margin is judged, everywhere by the same number.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis, analysis_set, base_with, of};
use finwright_checks::common::floors::floors;
use finwright_checks::{Analysis, Level, Verdict};

const ORDINARY: &str = "root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm";
const BROAD: &str = "root: 100 mm; tip: 70 mm; span: 34 mm; sweep: 30 mm";

fn broad(settings: &str) -> Analysis {
    analysis_set(&base_with(&[(ORDINARY, BROAD)]), settings)
}

fn margins(found: &Analysis) -> (f64, f64) {
    let usual = found.assessment.flights[0].margin().unwrap();
    (usual, usual + found.assessment.second(&found.design).unwrap().shift)
}

#[test]
fn broad_low_fins_are_judged_by_the_lesser_margin() {
    let found = broad("thresholds.margin = 0.8");
    let (usual, second) = margins(&found);
    assert!(usual > 0.8 && second < 0.8, "{usual} {second}");
    let told = of(&found, "stability/methods-differ");
    assert!(told.len() == 1 && told[0].level == Level::Warning, "{told:?}");
    assert!(told[0].message.contains("0.854 calibres, by a second method only 0.73"), "{}", told[0].message);
    assert!(told[0].labels.iter().any(|label| label.text.contains("roots are 4.03 calibres long")), "{told:?}");
    assert_eq!(found.flights[0].verdict, Verdict::LookAtIt);
    // The likelihood and the chances start from the lesser, too.
    let doubt = floors(&found.settings, &found.design, &found.assessment).doubt;
    assert!((usual - doubt - second).abs() < 1e-12);
    assert!(found.likely(0).unwrap().margin < 0.5);
}

/// What is enough by both is only mentioned; what is too little by the usual method is told of as that, and once aloud.
#[test]
fn a_lesser_margin_is_told_as_loud_as_it_matters() {
    let level = |settings: &str| of(&broad(settings), "stability/methods-differ")[0].level;
    assert_eq!(level("thresholds.margin = 0.7"), Level::Note);
    assert_eq!(level("thresholds.margin = 1"), Level::Note);
    let found = broad("thresholds.margin = 1");
    assert_eq!(of(&found, "stability/low-margin").len(), 1);
}

/// Less than nothing by the second method alone is an error.
#[test]
fn unstable_by_the_second_method_is_an_error() {
    let forward = base_with(&[
        (ORDINARY, "root: 110 mm; tip: 90 mm; span: 30 mm; sweep: 20 mm"),
        ("mass: 1 g; at: 50 mm", "mass: 0.1 g; at: 50 mm"),
    ]);
    let found = analysis_set(&forward, "thresholds.margin = 0");
    let (usual, second) = margins(&found);
    assert!(usual > 0.0 && second <= 0.0, "{usual} {second}");
    assert_eq!(of(&found, "stability/methods-differ")[0].level, Level::Error);
    assert_eq!(found.flights[0].verdict, Verdict::NotAsItIs);
}

/// Where it's switched off the usual margin alone counts, for every number that hangs on it.
#[test]
fn switched_off_it_takes_nothing_off() {
    let found = broad("thresholds.margin = 0.8\nlevels.\"stability/methods-differ\" = \"off\"");
    assert_eq!(floors(&found.settings, &found.design, &found.assessment).doubt, 0.0);
    assert!(found.likely(0).unwrap().margin > 0.5);
}

/// Ordinary fins: it lies further back, or within a tenth, and takes nothing off.
#[test]
fn ordinary_fins_keep_their_margin() {
    let found = analysis(&base_with(&[]));
    let (usual, second) = margins(&found);
    assert!(second > usual - 0.1, "{usual} {second}");
    assert_eq!(found.assessment.second(&found.design).unwrap().doubt(), 0.0);
}
