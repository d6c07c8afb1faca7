//! `finwright working`: what is listed, chosen, refused, and how it ends.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::Value;
use std::path::Path;
use std::process::Command;

/// What stands on standard output, on standard error, and the exit status.
fn working(arguments: &[&str]) -> (String, String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .arg("working")
        .args(arguments)
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs"))
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (text(output.stdout), text(output.stderr), output.status.code().unwrap())
}

#[test]
fn without_a_quantity_they_are_listed() {
    let (list, _, status) = working(&["good/reed_heron.finw"]);
    assert_eq!(status, 0);
    for name in ["exit-speed", "balance", "pressure-centre", "margin", "lean", "thrust-to-weight", "descent"] {
        assert!(list.lines().any(|line| line.trim_start().starts_with(&format!("{name} "))), "{list}");
    }
}

#[test]
fn the_first_flight_is_taken_and_the_others_are_named() {
    let (page, _, status) = working(&["good/reed_heron.finw", "exit-speed"]);
    assert!(status == 0 && page.starts_with("Reed Heron: exit speed, flight rod_day\n"), "{page}");
    assert!(
        page.contains("`--flight rail_day`") && page.contains("the program, without rounding: 17.253 m/s"),
        "{page}"
    );
    let (page, _, _) = working(&["good/reed_heron.finw", "exit-speed", "--flight", "rail_day"]);
    assert!(page.contains("flight rail_day\n") && !page.contains("--flight"), "{page}");
    assert!(page.replace('\n', " ").ends_with("The range safety officer and the local code decide. "));
    // The centre of pressure is the same in every flight.
    let (page, _, _) = working(&["good/reed_heron.finw", "pressure-centre"]);
    assert!(!page.contains("flight"), "{page}");
}

#[test]
fn unknown_names_get_the_nearest_one() {
    for (arguments, said) in [
        (vec!["good/reed_heron.finw", "exit-sped"], "did you mean exit-speed?"),
        (vec!["good/reed_heron.finw", "xyzzy"], "known are exit-speed, balance"),
        (vec!["good/reed_heron.finw", "lean", "--flight", "rod_dya"], "did you mean rod_day?"),
        (vec!["good/no_such_file.finw", "lean"], "no such file"),
        (vec!["bad/no_curve.finw", "exit-speed"], "can't be worked: it needs "),
    ] {
        let (page, error, status) = working(&arguments);
        assert_eq!((page.as_str(), status), ("", 2), "{arguments:?}");
        assert!(error.contains(said), "{error}");
    }
}

#[test]
fn markdown_and_json() {
    let (page, _, status) = working(&["good/class_kit.finw", "balance", "--format", "markdown"]);
    assert!(status == 0 && page.starts_with("# Class Kit: balance, flight lesson\n"), "{page}");
    let (json, _, status) = working(&["good/class_kit.finw", "balance", "--format", "json"]);
    let json: Value = serde_json::from_str(&json).unwrap();
    assert_eq!((status, json["quantity"].as_str(), json["flight"].as_str()), (0, Some("balance"), Some("lesson")));
    assert!((json["ends"][0]["program"].as_f64().unwrap() - 37.4).abs() < 1e-9);
}

/// A finding's last line names a command; that command works.
#[test]
fn the_command_that_a_finding_names_works() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs");
    let mut tried = 0;
    for entry in std::fs::read_dir(folder.join("bad")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|e| e != "out") {
            continue;
        }
        let said = std::fs::read_to_string(&path).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
        for command in said.split("finwright working ").skip(1) {
            let mut words = command.split(' ');
            let file = format!("bad/{}", words.next().unwrap());
            let mut arguments = vec![file.as_str(), words.next().unwrap()];
            if words.next() == Some("--flight") {
                arguments.extend(["--flight", words.next().unwrap()]);
            }
            let (page, error, status) = working(&arguments);
            assert!(status == 0 && !page.is_empty(), "{arguments:?}: {error}");
            tried += 1;
        }
    }
    assert!(tried >= 8, "{tried}");
}
