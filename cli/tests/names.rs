//! Files with awkward names: what is shown of them, and what happens where a command is copied from the page.
#![cfg(target_os = "linux")] // Other systems refuse some of these names.
#![allow(clippy::unwrap_used)]

use std::ffi::OsStr;
use std::os::unix::ffi::OsStrExt;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A folder of its own with a design in it whose rod is too short.
fn folder(name: &str, file: &[u8]) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("names-{name}"));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    let slow = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs/bad/slow_exit.finw");
    std::fs::copy(slow, folder.join(OsStr::from_bytes(file))).unwrap();
    folder
}

/// What `finwright check .` says there.
fn check(folder: &Path) -> String {
    let output =
        Command::new(env!("CARGO_BIN_EXE_finwright")).args(["check", "."]).current_dir(folder).output().unwrap();
    String::from_utf8(output.stdout).unwrap()
}

/// What comes of pasting the command that works the number behind the finding.
fn pasted(folder: &Path) -> String {
    let said = check(folder);
    let command = said.lines().map(str::trim).find(|line| line.starts_with("finwright working ")).unwrap();
    let programs = Path::new(env!("CARGO_BIN_EXE_finwright")).parent().unwrap();
    let path = format!("{}:{}", programs.display(), std::env::var("PATH").unwrap());
    let output = Command::new("sh").args(["-c", command]).env("PATH", path).current_dir(folder).output().unwrap();
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn a_pasted_command_names_the_file_and_does_nothing_else() {
    for (name, file) in [
        ("space", "my rocket.finw"),
        ("dollar", "$(touch ran).finw"),
        ("backticks", "`touch ran`.finw"),
        ("quotes", "it's \"mine\".finw"),
        ("semicolon", "a; touch ran; .finw"),
        ("dash", "-rf.finw"),
        ("flag", "--format.finw"),
    ] {
        let folder = folder(name, file.as_bytes());
        assert!(pasted(&folder).starts_with("Pond Wren: exit speed, flight lesson\n"), "{file}");
        assert!(!folder.join("ran").exists(), "{file}");
    }
}

#[test]
fn what_cannot_be_typed_is_shown_in_its_place() {
    for (name, file) in
        [("newline", &b"two\nlines; touch ran.finw"[..]), ("bytes", b"\xff.finw"), ("escape", b"\x1b[2J.finw")]
    {
        let folder = folder(name, file);
        let said = check(&folder);
        assert!(said.contains('\u{FFFD}') && !said.contains('\u{1b}'), "{said}");
        assert!(said.contains("more: finwright explain guide/slow-exit\n"), "{said}");
        assert_eq!(pasted(&folder), "", "there is no such file");
        assert!(!folder.join("ran").exists());
    }
}
