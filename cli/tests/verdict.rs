//! One verdict, whichever command is asked, and its exit statuses.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_checks::example::BASE;
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Command;

fn finwright(folder: &Path, arguments: &[&str]) -> (String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(arguments)
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    (String::from_utf8(output.stdout).unwrap(), output.status.code().unwrap())
}

fn bad() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs/bad")
}

/// A folder of its own with these files.
fn folder(name: &str, files: &[(&str, &str)]) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("verdict-{name}"));
    let _ = std::fs::remove_dir_all(&path);
    for (file, text) in files {
        let file = path.join(file);
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(file, text).unwrap();
    }
    path.canonicalize().unwrap()
}

/// The verdict on a design of a folder by `check`, and its exit status.
fn verdict(folder: &Path, file: &str) -> (String, i32) {
    let (said, status) = finwright(folder, &["check", "--format", "json", file]);
    let report: Value = serde_json::from_str(&said).unwrap();
    (report["files"][0]["verdict"].as_str().unwrap().to_string(), status)
}

#[test]
fn no_pad_is_advised_for_a_design_that_is_rejected() {
    for design in [
        "motor_too_wide",
        "tight_shoulder",
        "missing_brace",
        "unclosed_list",
        "missing_file",
        "repeated_field",
        "unknown_version",
        "no_recovery",
    ] {
        let file = format!("{design}.finw");
        assert_eq!(verdict(&bad(), &file), ("not-as-it-is".to_string(), 1), "{design}");
        let (said, status) = finwright(&bad(), &["guides", &file]);
        assert_eq!(status, 1, "{design}");
        let answer = said.split("\n\n").nth(1).unwrap();
        assert!(answer.starts_with("Not as it is"), "{design}: {answer}");
        for never in ["Fly ", "meets the checks", "passes every check"] {
            assert!(!said.contains(never), "{design}: {said}");
        }
        // What only prints ends well once it has printed, and says the same.
        for command in ["show", "chances"] {
            let (said, status) = finwright(&bad(), &[command, &file]);
            assert!(status == 0 && said.contains("not as it is: "), "{design}: {said}");
        }
    }
}

#[test]
fn what_isnt_known_is_not_checked() {
    let airframe = &BASE[..BASE.find("\nflight ").unwrap()];
    let without_curve = BASE.replacen("curve:", "# curve:", 1).replacen(r#"code: "B8-4"; "#, "", 1);
    let found = folder(
        "unknown",
        &[("version.finw", "finwright 1\n"), ("airframe.finw", airframe), ("curve.finw", &without_curve)],
    );
    for (file, reason) in [
        ("version.finw", "there is nothing to check: the file has no airframe and no flight"),
        ("airframe.finw", "no flight is checked, since the file has none"),
        ("curve.finw", "its exit speed isn't known"),
    ] {
        assert_eq!(verdict(&found, file), ("not-checked".to_string(), 1), "{file}");
        let (said, _) = finwright(&found, &["check", "--format", "json", file]);
        let report: Value = serde_json::from_str(&said).unwrap();
        assert_eq!(report["files"][0]["reason"]["message"], reason, "{said}");
        let (said, status) = finwright(&found, &["guides", file]);
        match file {
            // For its own motor a flight is supposed, and said to be.
            "airframe.finw" => assert!(status == 0 && said.contains("\n\nThe file has no flight, "), "{said}"),
            _ => assert!(status == 1 && said.contains("\n\nNot checked"), "{said}"),
        }
    }
}

/// The verdict can list what it rests on; what is switched off isn't among it.
#[test]
fn the_checks_that_were_made_can_be_listed() {
    let found = folder("made", &[("a.finw", BASE), ("finwright.toml", "levels.\"guide/slow-exit\" = \"off\"\n")]);
    let (said, _) = finwright(&found, &["check", "--made", "a.finw"]);
    assert!(said.contains("\n  checks made: ") && said.contains("pad/leans"), "{said}");
    assert!(!said.contains(" guide/slow-exit,"), "{said}");
    let (said, _) = finwright(&found, &["check", "--format", "json", "a.finw"]);
    let report: Value = serde_json::from_str(&said).unwrap();
    assert!(report["files"][0]["made"].as_array().unwrap().contains(&Value::from("stability/low-margin")), "{said}");
    assert!(!finwright(&found, &["check", "a.finw"]).0.contains("checks made"));
}

/// What isn't computed beyond the verdict is listed; that it leaves the fins' flutter open is worth a look.
#[test]
fn what_else_was_not_made_is_listed() {
    assert_eq!(verdict(&bad(), "beyond_the_method.finw"), ("look-at-it".to_string(), 0));
    let (said, status) = finwright(&bad(), &["check", "beyond_the_method.finw"]);
    assert!(
        status == 0 && said.contains("\n  not made: the flight of big after release; it needs a method for"),
        "{said}"
    );
}

#[test]
fn a_flight_without_a_site_is_judged_in_still_air_and_says_so() {
    let without = BASE.replace("; site: meadow", "");
    assert_ne!(without, BASE);
    let found = folder("still", &[("a.finw", &without)]);
    let (said, _) = finwright(&found, &["check", "a.finw"]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(said.matches("; judged in still air, since it names no site").count(), 3, "{said}");
}

#[test]
fn files_of_definitions_are_libraries() {
    let motor = "motor one { code: \"A5-3\"; diameter: 18 mm; length: 70 mm; mass: 16 g; propellant: 3.5 g; delay: 3 \
        s\n  curve: [0 s: 0 N, 0.13 s: 10.6 N, 0.19 s: 11.2 N, 0.28 s: 3.4 N, 0.5 s: 0 N] }\n";
    let found = folder(
        "library",
        &[
            ("material.finw", "finwright 1\nmaterial soft { density: 90 kg/m3 }\n"),
            ("motor.finw", &format!("finwright 1\n{motor}")),
            (
                "pad.finw",
                "finwright 1\npad rod { rod { diameter: 3 mm; length: 1 m; material: steel }; stop: 50 mm }\n",
            ),
            ("site.finw", "finwright 1\nsite field { elevation: 3 m }\n"),
            ("rocket.finw", &BASE[..BASE.find("\nflight ").unwrap()]),
            ("user.finw", "finwright 1\nuse \"rocket.finw\"\n"),
        ],
    );
    for file in ["material.finw", "motor.finw", "pad.finw", "site.finw"] {
        assert_eq!(verdict(&found, file), ("library".to_string(), 0), "{file}");
    }
    // A rocket without a flight is one where another file beside it uses it.
    assert_eq!(verdict(&found, "rocket.finw"), ("library".to_string(), 0));
    std::fs::remove_file(found.join("user.finw")).unwrap();
    assert_eq!(verdict(&found, "rocket.finw"), ("not-checked".to_string(), 1));
}

#[test]
fn what_an_author_allows_is_seen_and_a_club_may_say_how_much() {
    let allowed =
        format!("# allow stability/unstable in this file: trust me\n{}", BASE.replace("span: 40 mm", "span: 14 mm"));
    let found = folder("allowed", &[("a.finw", &allowed)]);
    let asked = |allowances: &str| {
        std::fs::write(found.join("finwright.toml"), allowances).unwrap();
        let (said, status) = finwright(&found, &["check", "--format", "json", "a.finw"]);
        let report: Value = serde_json::from_str(&said).unwrap();
        let file = &report["files"][0];
        let rules: Vec<String> =
            file["allowed"].as_array().unwrap().iter().map(|a| a["rule"].as_str().unwrap().to_string()).collect();
        (file["verdict"].as_str().unwrap().to_string(), rules.contains(&"stability/unstable".to_string()), status)
    };
    assert_eq!(asked(""), ("look-at-it".to_string(), true, 0));
    assert_eq!(asked("allowances = \"all\"\n"), ("look-at-it".to_string(), true, 0));
    assert_eq!(asked("allowances = \"warnings\"\n"), ("not-as-it-is".to_string(), false, 1));
    assert_eq!(asked("allowances = \"none\"\n"), ("not-as-it-is".to_string(), false, 1));
    std::fs::remove_file(found.join("finwright.toml")).unwrap();
    let (said, _) = finwright(&found, &["check", "a.finw"]);
    assert!(said.contains("\n  its author allows stability/unstable (trust me): "), "{said}");
    assert!(said.contains("allowed by its author"), "{said}");
}

/// Three typos of one `finwright.toml` are three faults, however many designs lie below it; so with a used file.
#[test]
fn a_shared_fault_is_told_once_with_what_it_touches() {
    let parts = "finwright 1\nmaterial soft { density: 90 kgm3 }\n";
    let design = BASE.replacen("finwright 1\n", "finwright 1\nuse \"parts.finw\"\n", 1);
    let names: Vec<String> = (0..64).map(|number| format!("pupil_{number:02}.finw")).collect();
    let settings = "profile = \"clubb\"\ncode = \"moon\"\n[levels]\n\"guide/slow\" = \"off\"\n";
    let mut files = vec![("parts.finw", parts), ("finwright.toml", settings)];
    files.extend(names.iter().map(|name| (name.as_str(), design.as_str())));
    let found = folder("shared", &files);
    let (said, status) = finwright(&found, &["check", "--format", "line", "."]);
    assert_eq!(status, 1);
    let of_settings: Vec<&str> = said.lines().filter(|line| line.contains("settings/not-understood: ")).collect();
    assert_eq!(of_settings.iter().filter(|line| line.contains("it touches 65 designs")).count(), 3, "{of_settings:#?}");
    assert_eq!(said.matches("unit/unknown-unit: `kgm3`").count(), 1, "{said}");
    let (said, _) = finwright(&found, &["check", "--format", "json", "."]);
    let report: Value = serde_json::from_str(&said).unwrap();
    assert_eq!(report["shared"].as_array().unwrap().len(), 3);
    assert_eq!(report["shared"][0]["designs"].as_array().unwrap().len(), 65);
    let files = report["files"].as_array().unwrap();
    assert!(files.len() == 65 && files.iter().all(|file| file["verdict"] == "not-as-it-is"));
}

/// A slow release is one finding, and what else comes of it stands with it.
#[test]
fn consequences_stand_with_their_cause() {
    let (said, _) = finwright(&bad(), &["check", "--format", "json", "low_push.finw"]);
    let report: Value = serde_json::from_str(&said).unwrap();
    let findings = report["findings"].as_array().unwrap();
    assert_eq!(findings.len(), 1, "{said}");
    let also: Vec<&str> = findings[0]["also"].as_array().unwrap().iter().map(|a| a["rule"].as_str().unwrap()).collect();
    assert!(also.contains(&"motor/low-push"), "{also:?}");
    let (said, _) = finwright(&bad(), &["check", "low_push.finw"]);
    assert_eq!(said.split_whitespace().collect::<Vec<_>>().join(" ").matches("it also means: ").count(), also.len());
}
