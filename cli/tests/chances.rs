//! `finwright chances` and the limits of a chosen code in `finwright show`.
#![allow(clippy::unwrap_used)]

use serde_json::Value;
use std::path::Path;
use std::process::Command;

fn finwright(arguments: &[&str]) -> (String, String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(arguments)
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs"))
        .output()
        .unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (text(output.stdout), text(output.stderr), output.status.code().unwrap())
}

#[test]
fn a_seed_stands_for_its_answer() {
    let of = |seed: &str| {
        finwright(&["chances", "good/grey_crane.finw", "--runs", "300", "--seed", seed, "--format", "json"]).0
    };
    assert_eq!(of("5"), of("5"));
    assert_ne!(of("5"), of("6"));
    let found: Value = serde_json::from_str(&of("5")).unwrap();
    let floors = found[0]["floors"].as_array().unwrap();
    assert_eq!(floors.len(), 4);
    for floor in floors {
        let number = |name: &str| floor[name].as_f64().unwrap();
        assert!((0.0..=1.0).contains(&number("met")));
        assert!(number("low") <= number("median") && number("median") <= number("high"));
    }
    assert!(found[0]["varied"].as_array().unwrap().iter().any(|v| v["is_default"] == true));
}

#[test]
fn in_words() {
    let (text, _, status) = finwright(&["chances", "good/reed_heron.finw", "--runs", "200"]);
    assert_eq!(status, 0);
    for words in ["rod_day: 200 runs, seed 1", "exit speed at least 13.4 m/s", "(default)", "range safety officer"] {
        assert!(text.contains(words), "{words} in {text}");
    }
    // A flight without a curve is named, not counted.
    let (text, _, _) = finwright(&["chances", "bad/no_curve.finw"]);
    assert!(text.contains("its numbers aren't known whole"), "{text}");
    assert_eq!(finwright(&["chances", "good/reed_heron.finw", "--runs", "0"]).2, 2);
}

#[test]
fn limits_only_of_a_chosen_code() {
    let (without, _, _) = finwright(&["show", "good/grey_crane.finw"]);
    assert!(!without.contains("local code:") && !without.contains("NFPA"), "none is assumed: {without}");
    let (with, _, status) = finwright(&["show", "good/grey_crane.finw", "--limits", "us-model"]);
    assert_eq!(status, 0);
    assert!(with.contains("check your local code") && with.contains("NFPA 1122"), "{with}");
    let (_, error, status) = finwright(&["show", "good/grey_crane.finw", "--limits", "elsewhere"]);
    assert_eq!(status, 2);
    assert!(error.contains("us-high-power"), "{error}");
}
