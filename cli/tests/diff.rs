//! `finwright diff`: what a change does, between files, folders and revisions.
#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};
use std::process::Command;

const GOOD: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/designs/good");

/// A folder of its own.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("diff-{name}"));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn finwright(folder: &Path, arguments: &[&str]) -> (String, String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .arg("diff")
        .args(arguments)
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (text(output.stdout), text(output.stderr), output.status.code().unwrap())
}

fn git(folder: &Path, arguments: &[&str]) {
    let own = ["-c", "user.name=nobody", "-c", "user.email=nobody@example.org", "-c", "init.defaultBranch=main"];
    let done = Command::new("git").args(own).args(arguments).current_dir(folder).output().unwrap();
    assert!(done.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&done.stderr));
}

fn copy(name: &str, to: &Path) {
    std::fs::copy(Path::new(GOOD).join(name), to).unwrap();
}

fn edit(path: &Path, edits: &[(&str, &str)]) {
    let mut text = std::fs::read_to_string(path).unwrap();
    for (old, new) in edits {
        assert!(text.contains(old), "{old}");
        text = text.replace(old, new);
    }
    std::fs::write(path, text).unwrap();
}

/// A club's folder before, and the same with a rod sawn off, a wider set of fins under another file's name, a design
/// less and a design more.
fn club(name: &str) -> PathBuf {
    let folder = folder(name);
    std::fs::create_dir_all(folder.join("old/spring")).unwrap();
    for design in ["reed_heron.finw", "pond_wren.finw", "two_motors.finw"] {
        copy(design, &folder.join("old").join(design));
    }
    copy("moss_carder.finw", &folder.join("old/spring/moss_carder.finw"));
    let new = folder.join("new");
    std::fs::create_dir_all(&new).unwrap();
    copy("two_motors.finw", &new.join("two_motors.finw"));
    copy("reed_heron.finw", &new.join("reed_heron.finw"));
    edit(
        &new.join("reed_heron.finw"),
        &[("length: 1.2 m; material: steel", "length: 0.7 m; material: steel"), ("fins main", "fins tail")],
    );
    copy("pond_wren.finw", &new.join("marsh_wren.finw"));
    edit(&new.join("marsh_wren.finw"), &[("count: 3", "count: 4")]);
    std::fs::copy(Path::new(GOOD).join("../bad/slow_exit.finw"), new.join("hill_wren.finw")).unwrap();
    folder
}

#[test]
fn folders_before_and_after() {
    let (text, errors, status) = finwright(&club("text"), &["old", "new"]);
    assert_eq!((errors.as_str(), status), ("", 1), "a verdict is worse");
    insta::assert_snapshot!(text);
}

#[test]
fn a_page_for_a_pull_request() {
    let (text, _, status) = finwright(&club("markdown"), &["old", "new", "--format", "markdown", "--units", "us"]);
    assert_eq!(status, 1);
    insta::assert_snapshot!(text);
}

#[test]
fn a_revision_is_compared_with_what_is_there_now() {
    let folder = club("revision");
    git(&folder, &["init", "-q"]);
    git(&folder, &["add", "old"]);
    git(&folder, &["commit", "-q", "-m", "before"]);
    let on_disk = finwright(&folder, &["old", "new"]);
    assert_eq!(finwright(&folder, &["HEAD:old", "new"]), on_disk);
    // From below the repository's folder, too.
    assert_eq!(finwright(&folder.join("new"), &["HEAD:./../old", "."]), on_disk);
    let (text, _, status) = finwright(&folder, &["HEAD:old/reed_heron.finw", "new/reed_heron.finw"]);
    assert!(status == 1 && text.starts_with("Worse than before: rod_day of reed_heron.finw."), "{text}");
    let (_, errors, status) = finwright(&folder, &["HEAD:olden", "new"]);
    assert!(status == 2 && errors.starts_with("finwright: HEAD has no design in olden; "), "{errors}");
    let (_, errors, status) = finwright(&folder, &["--output=x:old", "new"]);
    assert!(status == 2 && errors.contains("unexpected argument"), "{errors}");
    let (_, errors, status) = finwright(&folder, &["no_such:old", "new"]);
    assert_eq!((errors.as_str(), status), ("finwright: git knows no revision no_such here\n", 2));
}

#[test]
fn a_revision_brings_its_own_used_files_and_settings() {
    let folder = folder("uses");
    let (pad, wren) = ("pad school_rod {", std::fs::read_to_string(Path::new(GOOD).join("pond_wren.finw")).unwrap());
    let at = wren.find(pad).unwrap();
    let end = at + wren[at..].find("\n}\n").unwrap() + 3;
    std::fs::write(folder.join("pads.finw"), format!("finwright 1\n{}", &wren[at..end])).unwrap();
    let design =
        format!("{}{}", &wren[..at], &wren[end..]).replacen("finwright 1\n", "finwright 1\nuse \"pads.finw\"\n", 1);
    std::fs::write(folder.join("wren.finw"), design).unwrap();
    git(&folder, &["init", "-q"]);
    git(&folder, &["add", "."]);
    git(&folder, &["commit", "-q", "-m", "before"]);
    let (text, errors, status) = finwright(&folder, &["HEAD:wren.finw", "wren.finw"]);
    assert_eq!(
        (text.lines().next(), errors.as_str(), status),
        (Some("Nothing differs: the design says and does the same."), "", 0)
    );
    edit(&folder.join("pads.finw"), &[("length: 1 m", "length: 0.5 m")]);
    let (text, _, status) = finwright(&folder, &["HEAD:wren.finw", "wren.finw"]);
    assert!(status == 1 && text.contains("rod in pad school_rod: length 1 m → 0.5 m"), "{text}");
    std::fs::write(folder.join("finwright.toml"), "[thresholds]\nexit_speed = \"3 m/s\"\n").unwrap();
    let (text, _, status) = finwright(&folder, &["HEAD:wren.finw", "wren.finw"]);
    assert!(status == 0 && text.contains("meets the checks, as before"), "the settings are those of each side: {text}");
}

#[test]
fn without_git_a_revision_is_refused_and_files_are_compared() {
    let folder = club("no-git");
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(["diff", "HEAD:old", "new"])
        .current_dir(&folder)
        .env("PATH", "")
        .output()
        .unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(
        said,
        "finwright: a revision needs git, which isn't installed here; files and folders can be compared without it\n"
    );
}

/// A gram a hundredth heavier changes no digit that is shown; a whole gram does.
#[test]
fn noise_below_the_digits_shown_is_no_change() {
    let folder = folder("noise");
    for name in ["old.finw", "noise.finw", "grams.finw"] {
        copy("pond_wren.finw", &folder.join(name));
    }
    edit(&folder.join("noise.finw"), &[("mass: 2 g", "mass: 2.0001 g")]);
    edit(&folder.join("grams.finw"), &[("mass: 2 g", "mass: 3 g")]);
    let (text, _, status) = finwright(&folder, &["old.finw", "noise.finw"]);
    assert!(
        status == 0 && text.contains("as before in every digit shown: lesson") && !text.contains("before  "),
        "{text}"
    );
    let (text, _, status) = finwright(&folder, &["old.finw", "grams.finw"]);
    assert!(status == 0 && text.contains("mass on the pad"), "{text}");
    assert!(text.starts_with("No verdict is worse than before."), "{text}");
}

#[test]
fn the_same_numbers_as_the_designs_own() {
    let (json, _, _) = finwright(&club("json"), &["old", "new", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let design = json["designs"].as_array().unwrap().iter().find(|d| d["path"] == "reed_heron.finw").unwrap();
    let flight = &design["flights"][0];
    let number = |name: &str| flight["numbers"].as_array().unwrap().iter().find(|n| n["name"] == name).unwrap();
    let show = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(["show", "--format", "json", "reed_heron.finw"])
        .current_dir(GOOD)
        .output()
        .unwrap();
    let show: serde_json::Value = serde_json::from_slice(&show.stdout).unwrap();
    for name in ["mass_kg", "balance_m", "margin_cal", "exit_speed_m_s"] {
        assert_eq!(number(name)["old"], show[0][name], "{name}");
    }
    assert_eq!(design["new_verdict"], "look-at-it");
    assert_eq!(json["worse"], true);
}

#[test]
fn what_cannot_be_read_is_told_and_the_rest_compared() {
    let folder = club("unreadable");
    std::fs::write(folder.join("new/reed_heron.finw"), b"\xff\xfe\0").unwrap();
    let (text, errors, status) = finwright(&folder, &["old", "new"]);
    assert_eq!(status, 2);
    assert!(errors.starts_with("finwright: new/reed_heron.finw: it isn't text in UTF-8"), "{errors}");
    assert!(text.contains("marsh_wren.finw"), "{text}");
    let (_, errors, status) = finwright(&folder, &["old", "new/two_motors.finw"]);
    assert_eq!(status, 2);
    assert!(errors.contains("a file is compared with a file, a folder with a folder"), "{errors}");
}
