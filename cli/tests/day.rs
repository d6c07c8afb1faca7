//! `finwright day`: the officer's table.
#![cfg(feature = "pictures")]
#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};
use std::process::Command;

fn finwright(arguments: &[&str]) -> (String, String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .arg("day")
        .args(arguments)
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs"))
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (text(output.stdout), text(output.stderr), output.status.code().unwrap())
}

const PADS: [&str; 2] = ["--pads", "projects/club/shared/pads.finw"];
const ROCKETS: [&str; 8] = [
    "good/ring_ouzel.finw",
    "good/pond_wren.finw",
    "good/reed_heron.finw",
    "good/two_motors.finw",
    "good/glass_eel.finw",
    "bad/no_curve.finw",
    "bad/allowed.finw",
    "projects/club",
];

fn with(more: &[&str]) -> Vec<&'static str> {
    let leaked = more.iter().map(|word| &*word.to_string().leak());
    ROCKETS.into_iter().chain(PADS).chain(leaked).collect()
}

#[test]
fn a_day_on_the_clubs_pads() {
    let (text, errors, status) = finwright(&with(&["--wind", "4m/s"]));
    assert_eq!((errors.as_str(), status), ("", 1), "some may not fly");
    insta::assert_snapshot!(text);
}

#[test]
fn the_same_in_miles_an_hour() {
    insta::assert_snapshot!(finwright(&with(&["--wind", "9mph", "--units", "us"])).0);
}

/// Whatever the order in which they are named, and however many threads look at them.
#[test]
fn the_same_bytes_whatever_the_order() {
    let one = finwright(&with(&["--wind", "4m/s"]));
    let mut turned: Vec<&str> = with(&["--wind", "4m/s"]);
    turned[..ROCKETS.len()].reverse();
    assert_eq!(finwright(&turned), one);
    let alone = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .arg("day")
        .args(with(&["--wind", "4m/s"]))
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs"))
        .env("RAYON_NUM_THREADS", "1")
        .output()
        .unwrap();
    assert_eq!(String::from_utf8(alone.stdout).unwrap(), one.0);
}

/// The same pad, speed, wind and verdict as `guides` gives for one rocket on the same pads in the same wind.
#[test]
fn a_line_says_what_the_comparison_of_its_pads_says() {
    let (csv, _, _) = finwright(&with(&["--wind", "4m/s", "--format", "csv"]));
    let mut rows = csv::Reader::from_reader(csv.as_bytes());
    let heads = rows.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
    let at = |row: &csv::StringRecord, name: &str| {
        row.get(heads.iter().position(|head| head == name).unwrap()).unwrap().to_string()
    };
    for file in ["good/ring_ouzel.finw", "good/reed_heron.finw", "good/pond_wren.finw"] {
        let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
            .args(["guides", file, "--wind", "4m/s", "--site", "meadow", "--format", "json"])
            .args(PADS)
            .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs"))
            .output()
            .unwrap();
        let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        let best = &json["comparisons"][0]["candidates"][0];
        let row = rows.iter().find(|row| at(row, "file") == file).unwrap();
        assert_eq!(at(row, "pad"), best["pad"].as_str().unwrap(), "{file}");
        let number = |name: &str| at(row, name).parse::<f64>().unwrap();
        assert!((number("exit_speed_m_s") - best["exit_speed_m_s"].as_f64().unwrap()).abs() < 1e-12);
        assert!((number("exit_speed_sd_m_s") - best["exit_speed_sd_m_s"].as_f64().unwrap()).abs() < 1e-12);
        let wind = best["ceiling"]["wind"].as_f64().unwrap();
        assert!((number("wind_to_m_s") - (wind * 10.0).floor() / 10.0).abs() < 1e-9);
        assert!(
            (number("wind_m_s"), number("gust_m_s")) == (4.0, 4.0 * 5.0 / 3.0),
            "the site's gusts are 5/3 of its wind"
        );
    }
}

#[test]
fn the_list_is_in_the_order_of_the_wind_that_stops_each() {
    let (csv, _, _) =
        finwright(&["good", "--pads", "projects/club/shared/pads.finw", "--wind", "4m/s", "--format", "csv"]);
    let mut rows = csv::Reader::from_reader(csv.as_bytes());
    let heads = rows.headers().unwrap().clone();
    let at = |name: &str| heads.iter().position(|head| head == name).unwrap();
    let found: Vec<(bool, f64)> = rows
        .records()
        .map(Result::unwrap)
        .map(|row| (&row[at("may_fly")] == "true", row[at("wind_to_m_s")].parse().unwrap_or(0.0)))
        .collect();
    assert!(found.len() > 25 && found.windows(2).all(|two| two[0].0 <= two[1].0), "those that may not fly come first");
    let may: Vec<f64> = found.iter().filter(|(may, _)| *may).map(|(_, wind)| *wind).collect();
    assert!(may.windows(2).all(|two| two[0] <= two[1]), "{may:?}");
}

#[test]
fn what_cannot_be_used_is_told_and_the_rest_listed() {
    let (text, errors, status) = finwright(&["good/pond_wren.finw", "nowhere.finw", "projects/class/kit.finw"]);
    assert_eq!(status, 2);
    assert_eq!(errors, "finwright: nowhere.finw: there is no such file\n");
    assert!(text.contains("Pond Wren"), "{text}");
    let (_, errors, status) = finwright(&["good/pond_wren.finw", "-o", "day.doc"]);
    assert_eq!(
        (errors.as_str(), status),
        ("finwright: day.doc: the day's list is written as .pdf, .html, .csv or .txt\n", 2)
    );
    let (_, errors, _) = finwright(&["good/pond_wren.finw", "--wind", "lots"]);
    assert!(errors.contains("`lots` isn't a speed"), "{errors}");
}

/// A design's own words can't become a formula in a spreadsheet.
#[test]
fn no_cell_is_a_formula() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("day-formula");
    std::fs::create_dir_all(&folder).unwrap();
    let good = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs/good/pond_wren.finw");
    let text = std::fs::read_to_string(good).unwrap().replace("Pond Wren", "=HYPERLINK(1)");
    let design = folder.join("wren.finw");
    std::fs::write(&design, text).unwrap();
    let (csv, _, _) = finwright(&[design.to_str().unwrap(), "--format", "csv"]);
    assert!(csv.lines().nth(1).unwrap().starts_with("'=HYPERLINK(1),"), "{csv}");
}

/// In a wind that a rocket bears only with a warning it isn't among those that may fly without a look, and is told
/// before those that stop later.
#[test]
fn who_is_past_its_wind_already_is_told_apart() {
    let (text, _, _) = finwright(&with(&["--wind", "5m/s"]));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("4 of 9 may fly in this wind, as far as the checks can tell."), "{text}");
    let told =
        "Only after a look, since a check speaks in this wind already: Meadow Swift, Nightjar and Pond Wren (pond_wren).";
    assert!(text.contains(told), "{text}");
    assert!(text.contains("Above 5 m/s: these two not: ") && !text.contains("Above 4"), "{text}");
}
