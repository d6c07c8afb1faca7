//! `finwright show`: the table as a reader sees it where no terminal says how wide it is.
#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};
use std::process::Command;

fn show(arguments: &[&str], folder: &Path) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .arg("show")
        .args(arguments)
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    assert!(output.status.success() && output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn good() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().join("tests/designs/good")
}

/// A folder with one design in it, whose site is said as asked for.
fn with_site(name: &str, site: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("show-{name}"));
    std::fs::create_dir_all(&folder).unwrap();
    let base = finwright_checks::example::BASE;
    let (before, rest) = base.split_once("site meadow {").unwrap();
    let (_, after) = rest.split_once('}').unwrap();
    std::fs::write(folder.join("design.finw"), format!("{before}site meadow {{ {site} }}{after}")).unwrap();
    folder
}

#[test]
fn two_flights_with_tolerances() {
    insta::assert_snapshot!(show(&["reed_heron.finw"], &good()));
}

#[test]
fn no_line_is_wider_than_eighty_columns() {
    for entry in std::fs::read_dir(good()).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "finw") {
            let said = show(&["--limits", "us-high-power", path.to_str().unwrap()], &good());
            let wide = said.lines().find(|line| line.chars().count() > 80 && !line.contains("finwright check"));
            assert_eq!(wide, None, "{}", path.display());
        }
    }
}

#[test]
fn stages_are_named_in_the_order_in_which_they_burn() {
    assert!(show(&["two_stage.finw"], &good()).contains("\nstack: c13 (C13-0), then b7 (B7-4) from rod5\n"));
}

#[test]
fn the_site_is_told_as_far_as_it_is_said() {
    let of = |name, site| {
        let said = show(&["design.finw"], &with_site(name, site));
        said.lines().find(|line| line.starts_with("  at ")).unwrap().to_string()
    };
    assert_eq!(of("bare", ""), "  at meadow");
    assert_eq!(of("windy", "wind: 3 m/s; gust: 5 m/s"), "  at meadow: wind 3 m/s, gusts of 5 m/s");
    assert_eq!(
        of("whole", "wind: 3 m/s; people: 12 m; across: 300 m"),
        "  at meadow: wind 3 m/s, people 12 m from the pad, the field 300 m across"
    );
}

#[test]
fn a_code_is_held_against_what_the_site_says() {
    let limits = |name, site| {
        let said = show(&["--limits", "us-model", "design.finw"], &with_site(name, site));
        let start = said.find("  against NFPA 1122").unwrap();
        said[start..].split("\n  one ").next().unwrap().to_string()
    };
    insta::assert_snapshot!("a_field_that_is_known", limits("field", "wind: 3 m/s; people: 12 m; across: 20 m"));
    insta::assert_snapshot!("a_field_that_is_not_known", limits("no_field", "wind: 3 m/s"));
}

/// A motor that burns on weakly while the rocket comes down again: there is no coast, and no negative one is shown.
#[test]
fn a_highest_point_before_burnout_is_told_as_that() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("show-no-coast");
    std::fs::create_dir_all(&folder).unwrap();
    let base = finwright_checks::example::BASE.replace("0.55 s: 5 N, 0.6 s: 0 N", "0.55 s: 0.05 N, 8 s: 0 N");
    std::fs::write(folder.join("design.finw"), base).unwrap();
    let said = show(&["design.finw"], &folder);
    let row = said.lines().find(|line| line.trim_start().starts_with("coast")).unwrap();
    assert!(row.contains("none") && row.contains("the highest point comes"), "{row}");
    let json: serde_json::Value = serde_json::from_str(&show(&["--format", "json", "design.finw"], &folder)).unwrap();
    let flights = json.as_array().unwrap();
    assert!(!flights.is_empty() && flights.iter().all(|flight| flight["coast_s"].is_null()));
}
