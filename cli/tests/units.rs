//! The reader's units on the command line: theirs first for people, SI always for programs.
#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};
use std::process::Command;

fn finwright(arguments: &[&str], folder: &Path) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(arguments)
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    String::from_utf8(output.stdout).unwrap()
}

fn designs(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().join("tests/designs").join(folder)
}

/// The designs of a folder by name.
fn names(folder: &str) -> Vec<String> {
    let entries = std::fs::read_dir(designs(folder)).unwrap().map(|entry| entry.unwrap().file_name());
    let mut names: Vec<String> = entries.map(|name| name.into_string().unwrap()).collect();
    names.retain(|name| name.ends_with(".finw"));
    names.sort();
    names
}

/// A folder of its own with a copy of a design and these settings.
fn folder(name: &str, design: &str, settings: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("units-{name}"));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::copy(designs(design), folder.join("design.finw")).unwrap();
    std::fs::write(folder.join("finwright.toml"), settings).unwrap();
    folder
}

#[test]
fn findings_in_inches_and_miles_an_hour() {
    insta::assert_snapshot!(finwright(&["check", "--units", "us", "slow_exit.finw", "too_weak.finw"], &designs("bad")));
}

#[test]
fn numbers_in_inches_and_miles_an_hour() {
    insta::assert_snapshot!(finwright(
        &["show", "--units", "us", "--limits", "us-model", "pond_wren.finw"],
        &designs("good")
    ));
}

#[test]
fn pads_compared_in_inches_and_miles_an_hour() {
    insta::assert_snapshot!(finwright(&["guides", "--units", "us", "reed_heron.finw"], &designs("good")));
}

#[test]
fn chances_in_miles_an_hour() {
    insta::assert_snapshot!(finwright(
        &["chances", "--units", "us", "--runs", "50", "pond_wren.finw"],
        &designs("good")
    ));
}

#[test]
fn a_rules_page() {
    let said = finwright(&["explain", "--units", "us", "slow-exit"], &designs("good"));
    assert!(said.contains("30 mph (13.4 m/s), 33.6 mph (15 m/s) for high-power."), "{said}");
    let folder = folder("explained", "good/pond_wren.finw", "units = \"us\"\n");
    assert_eq!(finwright(&["explain", "slow-exit"], &folder), said, "the settings of the folder hold");
    let si = finwright(&["explain", "--units", "si", "slow-exit"], &folder);
    assert!(si.contains("13.4 m/s, 15 m/s for high-power."), "{si}");
}

/// The steps' digits follow from each other in SI; a reader of others is told so.
#[test]
fn a_working_stays_in_si_and_says_so() {
    let of = |units| finwright(&["working", "--units", units, "pond_wren.finw", "exit-speed"], &designs("good"));
    let (si, us) = (of("si"), of("us"));
    assert_eq!(us.replace("\nThe steps are in SI units whatever is set, since the formulas hold in them.\n", ""), si);
    assert_ne!(us, si);
}

#[test]
fn settings_set_them_and_the_flag_goes_before() {
    let folder = folder("set", "bad/slow_exit.finw", "units = \"us\"\n");
    let by_settings = finwright(&["check", "--format", "line", "design.finw"], &folder);
    assert!(by_settings.contains("at 26.3 mph (11.8 m/s); fins need about 30 mph (13.4 m/s)"), "{by_settings}");
    let by_flag = finwright(&["check", "--format", "line", "--units", "si", "design.finw"], &folder);
    assert!(by_flag.contains("at 11.8 m/s (42 km/h, 26 mph); fins need about 13.4 m/s"), "{by_flag}");
    assert!(finwright(&["show", "design.finw"], &folder).contains("26.3 mph (11.8 m/s)"));
    std::fs::write(folder.join("finwright.toml"), "units = \"si\"\n").unwrap();
    assert_eq!(finwright(&["check", "--format", "line", "design.finw"], &folder), by_flag);
    assert_eq!(finwright(&["check", "--format", "line", "--units", "us", "design.finw"], &folder), by_settings);
}

/// What a program reads is the same to the byte, whatever a reader asks for or has set.
#[test]
fn json_and_csv_are_si_for_every_reader() {
    let same = |folder: &Path, name: &str, command: &[&str]| {
        let plain = finwright(&[command, &[name]].concat(), folder);
        assert!(!plain.is_empty(), "{command:?} {name}");
        assert_eq!(finwright(&[command, &["--units", "us", name]].concat(), folder), plain, "{command:?} {name}");
        plain
    };
    for group in ["good", "bad"] {
        for name in names(group) {
            let plain = same(&designs(group), &name, &["check", "--format", "json"]);
            same(&designs(group), &name, &["show", "--format", "json"]);
            let folder = folder("json", &format!("{group}/{name}"), "units = \"us\"\n");
            let set = finwright(&["check", "--format", "json", "design.finw"], &folder);
            // Files that a design uses aren't in the folder.
            if !set.contains("there is no such file") {
                assert_eq!(set.replace("design.finw", &name), plain);
            }
        }
    }
    for name in ["reed_heron.finw", "marsh_harrier.finw"] {
        same(&designs("good"), name, &["guides", "--format", "json"]);
        same(&designs("good"), name, &["guides", "--format", "csv"]);
        same(&designs("good"), name, &["chances", "--runs", "20", "--format", "json"]);
    }
}
