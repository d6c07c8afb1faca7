//! The corpus: good designs are met with silence, bad ones with exactly the findings that stand beside them.
//!
//! Run with `FINWRIGHT_UPDATE=1` to write the expected outputs anew, and read the difference before committing it.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::{Path, PathBuf};
use std::process::Command;

fn designs(folder: &str) -> Vec<PathBuf> {
    let folder = root().join("tests/designs").join(folder);
    let mut found: Vec<PathBuf> = std::fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "finw"))
        .collect();
    found.sort();
    found
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_path_buf()
}

/// What `finwright check` says from the corpus's own folder, with its exit status.
fn check(path: &Path) -> (String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(["check", path.file_name().unwrap().to_str().unwrap()])
        .current_dir(path.parent().unwrap())
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    assert!(output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
    (String::from_utf8(output.stdout).unwrap(), output.status.code().unwrap())
}

#[test]
fn good_designs_are_met_with_silence() {
    let found = designs("good");
    assert!(found.len() >= 4);
    for path in found {
        let (said, status) = check(&path);
        assert!(is_silent(&path, &said) && status == 0, "{said}");
    }
}

/// Whether nothing is said but that the file and each of its flights meet the checks.
fn is_silent(path: &Path, said: &str) -> bool {
    let shown = path.file_name().unwrap().to_str().unwrap();
    let (verdicts, closing) = said.split_once("\n\n").unwrap_or((said, ""));
    let mut flights = unwrapped(verdicts).into_iter();
    flights.next().as_deref() == Some(&format!("{shown}: meets the checks"))
        && flights.all(|line| {
            line.contains(": meets the checks; exit speed, margin and thrust meet their floors in ")
                && !line.contains("allow")
        })
        && closing == "1 file checked: meets the checks. The range safety officer and the local code\ndecide.\n"
}

/// Lines with those that hang below them.
fn unwrapped(text: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for line in text.lines() {
        match lines.last_mut() {
            Some(last) if line.starts_with("    ") => *last += &format!(" {}", line.trim_start()),
            _ => lines.push(line.to_string()),
        }
    }
    lines
}

#[test]
fn projects_of_several_files_are_met_with_silence() {
    for design in ["club/swift.finw", "class/pupil_one.finw", "class/pupil_two.finw"] {
        let path = root().join("tests/designs/projects").join(design);
        let (said, status) = check(&path);
        assert!(is_silent(&path, &said) && status == 0, "{said}");
    }
    // A file of parts for others has nothing that would fly.
    let (said, status) = check(&root().join("tests/designs/projects/class/kit.finw"));
    assert!(status == 0 && said.starts_with("kit.finw: library\n\n1 file checked: library."), "{said}");
}

/// A school's settings ask more of the speed than a club's, and make light of its kitchen scales.
#[test]
fn a_project_is_checked_by_its_own_settings() {
    let folder = root().join("tests/designs/projects/school/first_term");
    let (said, status) = check(&folder.join("long_rod.finw"));
    assert!(status == 0 && said.starts_with("long_rod.finw: meets the checks\n"), "{said}");
    assert!(said.contains("finwright.toml makes light of measured/mass-differs (note)"), "{said}");
    let (said, status) = check(&folder.join("short_rod.finw"));
    assert!(
        status == 0 && said.contains("warning guide/slow-exit") && said.contains("fins need about 15 m/s"),
        "{said}"
    );
    assert!(said.contains("note measured/mass-differs"), "{said}");
    // By the usual levels and thresholds it would do, but for its scales.
    let lone = Path::new(env!("CARGO_TARGET_TMPDIR")).join("without_settings");
    std::fs::create_dir_all(&lone).unwrap();
    std::fs::copy(folder.join("short_rod.finw"), lone.join("short_rod.finw")).unwrap();
    let (said, status) = check(&lone.join("short_rod.finw"));
    assert!(status == 0 && said.starts_with("warning measured/mass-differs"), "{said}");
    assert!(said.contains("1 file checked: look at it; 1 warning."), "{said}");
}

#[test]
fn files_that_use_each_other_are_told_wherever_one_starts() {
    for (design, chain) in [("a", "a.finw → b.finw → c.finw → a.finw"), ("b", "b.finw → c.finw → a.finw → b.finw")]
    {
        let (said, status) = check(&root().join(format!("tests/designs/projects/circle/{design}.finw")));
        assert!(status == 1 && said.contains(chain), "{said}");
    }
}

#[test]
fn bad_designs_are_told_what_is_wrong() {
    let found = designs("bad");
    assert!(found.len() >= 30);
    let update = std::env::var_os("FINWRIGHT_UPDATE").is_some();
    for path in found {
        let (said, status) = check(&path);
        let expected = path.with_extension("out");
        let said = format!("{said}exit status {status}\n");
        if update {
            std::fs::write(&expected, &said).unwrap();
        }
        let wanted = std::fs::read_to_string(&expected).unwrap_or_default();
        assert_eq!(said, wanted, "{} (FINWRIGHT_UPDATE=1 writes it anew)", path.display());
        let is_told = ["error ", "warning ", "note "].iter().any(|level| said.starts_with(level));
        assert!(is_told || said.contains("its author allows"), "{said}");
    }
}

/// A first line is complete by itself, in an editor's list too.
#[test]
fn first_lines_are_short() {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(["check", "--format", "json", "tests/designs"])
        .current_dir(root())
        .output()
        .unwrap();
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let said: Vec<&str> = ["findings", "shared"]
        .iter()
        .flat_map(|key| report[key].as_array().unwrap())
        .map(|finding| finding["message"].as_str().unwrap())
        .collect();
    assert!(said.len() > 100);
    for message in said {
        assert!(message.chars().count() <= 80 && !message.contains('\n'), "{message}");
    }
}

/// What the first page shows is what the program says.
#[test]
fn the_first_pages_examples_are_fresh() {
    let page = std::fs::read_to_string(root().join("README.md")).unwrap();
    let (said, _) = check(&root().join("tests/designs/bad/slow_exit.finw"));
    assert!(page.contains(&format!("```\n{said}```\n")), "{said}");
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(["guides", "tests/designs/good/reed_heron.finw"])
        .current_dir(root())
        .output()
        .unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    let (_, compared) = said.split_once("\n\n").unwrap();
    let (compared, _) = compared.split_once("\n\n  mini_rail passes").unwrap();
    assert!(page.contains(&format!("```\n{compared}\n```\n")), "{compared}");
}

/// A whole design on a page is one that its reader may fly.
#[test]
fn whole_designs_on_a_page_meet_the_checks() {
    let mut looked_at = 0;
    for name in ["README.md", "DEVELOPERS.md", "editors/README.md", "grammar/LANGUAGE.md", "shared/checks/RULES.md"] {
        let page = std::fs::read_to_string(root().join(name)).unwrap();
        for (number, text) in page.split("```finw\n").skip(1).enumerate() {
            let (text, _) = text.split_once("```").unwrap();
            if !(text.starts_with("finwright ") && text.contains("\nflight ")) {
                continue;
            }
            let shown = format!("{}_{number}.finw", name.replace(['/', '.'], "_"));
            let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(&shown);
            std::fs::write(&path, text).unwrap();
            let (said, status) = check(&path);
            assert!(is_silent(&path, &said) && status == 0, "{name}: {said}");
            looked_at += 1;
        }
    }
    assert!(looked_at > 0);
}
