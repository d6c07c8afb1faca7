//! `finwright fmt` as a reader meets it: what it writes, prints and ends with.
#![allow(clippy::unwrap_used)]

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

const LOOSE: &str = "tube body{\nlength:3mm\n}\n";
const TIDY: &str = "tube body {\n  length: 3 mm\n}\n";

fn finwright(arguments: &[&str], folder: &Path, input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .arg("fmt")
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A command that reads no input may be gone before it's all written.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

/// A folder of its own with a loose and a tidy design.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join("loose.finw"), LOOSE).unwrap();
    std::fs::write(folder.join("tidy.finw"), TIDY).unwrap();
    folder
}

fn told(output: &Output) -> (i32, String, String) {
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    (output.status.code().unwrap(), text(&output.stdout), text(&output.stderr))
}

#[test]
fn files_are_written_back_only_where_they_change() {
    let folder = folder("written");
    let before = std::fs::metadata(folder.join("tidy.finw")).unwrap().modified().unwrap();
    assert_eq!(
        told(&finwright(&["loose.finw", "tidy.finw"], &folder, "")),
        (0, "formatted loose.finw\n".into(), "".into())
    );
    assert_eq!(std::fs::read_to_string(folder.join("loose.finw")).unwrap(), TIDY);
    assert_eq!(std::fs::metadata(folder.join("tidy.finw")).unwrap().modified().unwrap(), before);
    assert_eq!(told(&finwright(&["."], &folder, "")), (0, "".into(), "".into()));
}

#[test]
fn check_lists_and_leaves_alone() {
    let folder = folder("checked");
    assert_eq!(
        told(&finwright(&["--check", "loose.finw", "tidy.finw"], &folder, "")),
        (1, "loose.finw\n".into(), "".into())
    );
    assert_eq!(told(&finwright(&["--check", "tidy.finw"], &folder, "")), (0, "".into(), "".into()));
    assert_eq!(std::fs::read_to_string(folder.join("loose.finw")).unwrap(), LOOSE);
}

#[test]
fn diff_shows_and_leaves_alone() {
    let folder = folder("shown");
    let shown = "--- loose.finw\n+++ loose.finw\n@@ -1,3 +1,3 @@\n-tube body{\n-length:3mm\n+tube body {\n+  length: 3 mm\n }\n";
    assert_eq!(told(&finwright(&["--diff", "loose.finw", "tidy.finw"], &folder, "")), (0, shown.into(), "".into()));
    assert_eq!(told(&finwright(&["--diff", "--check", "loose.finw"], &folder, "")), (1, shown.into(), "".into()));
    assert_eq!(std::fs::read_to_string(folder.join("loose.finw")).unwrap(), LOOSE);
}

#[test]
fn standard_input_comes_out_on_standard_output() {
    let folder = folder("piped");
    assert_eq!(told(&finwright(&["-"], &folder, LOOSE)), (0, TIDY.into(), "".into()));
    assert_eq!(told(&finwright(&["-"], &folder, TIDY)), (0, TIDY.into(), "".into()));
    assert_eq!(told(&finwright(&["--check", "-"], &folder, LOOSE)), (1, "(standard input)\n".into(), "".into()));
}

#[test]
fn what_cannot_be_used_ends_with_two_and_the_rest_is_done() {
    let folder = folder("unusable");
    std::fs::write(folder.join("bytes.finw"), [0x61, 0xFF]).unwrap();
    let (code, out, err) = told(&finwright(&["missing.finw", "bytes.finw", "loose.finw"], &folder, ""));
    assert_eq!((code, out.as_str()), (2, "formatted loose.finw\n"));
    assert!(err.contains("missing.finw: there is no such file") && err.contains("bytes.finw: it isn't text"), "{err}");
    assert_eq!(told(&finwright(&["--check", "missing.finw", "loose.finw"], &folder, "")).0, 2);
}
