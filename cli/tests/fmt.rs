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
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("fmt-{name}"));
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
    let shown = "--- loose.finw\n+++ loose.finw\n@@ -1,3 +1,3 @@\n-tube body{\n-length:3mm\n+tube body {\n+  length: \
        3 mm\n }\n";
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

/// The names in a folder.
#[cfg(unix)]
fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[cfg(unix)]
mod on_disk {
    use super::*;
    use std::os::unix::fs::{symlink, MetadataExt, PermissionsExt};
    use std::os::unix::process::CommandExt;

    fn permit(path: &Path, mode: u32) {
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
    }

    #[test]
    fn a_new_file_takes_the_name_and_the_permissions() {
        let folder = folder("renamed");
        let path = folder.join("loose.finw");
        permit(&path, 0o640);
        std::fs::hard_link(&path, folder.join("other_name")).unwrap();
        assert_eq!(told(&finwright(&["loose.finw"], &folder, "")).0, 0);
        assert_eq!(std::fs::read_to_string(&path).unwrap(), TIDY);
        assert_eq!(std::fs::metadata(&path).unwrap().mode() & 0o777, 0o640);
        // The old file wasn't written into: its other name still has the old text.
        assert_eq!(std::fs::read_to_string(folder.join("other_name")).unwrap(), LOOSE);
        assert_eq!(names(&folder), ["loose.finw", "other_name", "tidy.finw"]);
    }

    #[test]
    fn a_link_is_told_and_left_alone() {
        let folder = folder("linked");
        std::fs::create_dir(folder.join("designs")).unwrap();
        symlink("../loose.finw", folder.join("designs/link.finw")).unwrap();
        let said = "link.finw is a link to ../loose.finw: format that file\n";
        assert_eq!(told(&finwright(&["link.finw"], &folder.join("designs"), "")), (0, said.into(), "".into()));
        assert_eq!(told(&finwright(&["designs"], &folder, "")), (0, format!("designs/{said}"), "".into()));
        assert_eq!(std::fs::read_to_string(folder.join("loose.finw")).unwrap(), LOOSE);
        assert!(std::fs::symlink_metadata(folder.join("designs/link.finw")).unwrap().is_symlink());
        // Looking changes nothing, so a link may be looked through.
        let checked = told(&finwright(&["--check", "designs"], &folder, ""));
        assert_eq!(checked, (1, "designs/link.finw\n".into(), "".into()));
    }

    #[test]
    fn a_write_protected_file_stays() {
        let folder = folder("protected");
        permit(&folder.join("loose.finw"), 0o444);
        let (code, out, err) = told(&finwright(&["loose.finw"], &folder, ""));
        assert_eq!((code, out.as_str()), (2, ""));
        assert_eq!(err, "finwright: loose.finw: it is write-protected, and left as it was\n");
        assert_eq!(std::fs::read_to_string(folder.join("loose.finw")).unwrap(), LOOSE);
    }

    /// Nothing may stop a superuser, so that one's test runs as nobody, who has to reach the program and the folder.
    #[test]
    fn in_a_read_only_folder_nothing_changes() {
        let place = tempfile::tempdir().unwrap();
        permit(place.path(), 0o755);
        let folder = place.path().join("designs");
        std::fs::create_dir(&folder).unwrap();
        std::fs::write(folder.join("loose.finw"), LOOSE).unwrap();
        let is_superuser = std::fs::metadata(&folder).unwrap().uid() == 0;
        let program = place.path().join("finwright");
        // Copied by another process: a file that this one wrote may still be open in what another test has just started.
        assert!(Command::new("cp").arg(env!("CARGO_BIN_EXE_finwright")).arg(&program).status().unwrap().success());
        permit(&program, 0o755);
        permit(&folder, 0o555);
        let mut command = Command::new(&program);
        command.args(["fmt", "loose.finw"]).current_dir(&folder);
        if is_superuser {
            command.uid(65534).gid(65534);
        }
        let (code, out, err) = told(&command.output().unwrap());
        permit(&folder, 0o755);
        assert_eq!((code, out.as_str()), (2, ""));
        assert_eq!(err, "finwright: loose.finw: it can't be written, since its folder takes no new file\n");
        assert_eq!(std::fs::read_to_string(folder.join("loose.finw")).unwrap(), LOOSE);
        assert_eq!(names(&folder), ["loose.finw"]);
    }

    #[test]
    fn a_full_disk_leaves_the_old_text_and_nothing_beside_it() {
        let folder = folder("full");
        let long = LOOSE.repeat(1000);
        std::fs::write(folder.join("loose.finw"), &long).unwrap();
        // Files of this shell may grow to one block; what goes over it is refused as on a disk that is full.
        let script = "trap '' XFSZ; ulimit -f 1; exec \"$0\" fmt loose.finw";
        let output = Command::new("sh")
            .args(["-c", script, env!("CARGO_BIN_EXE_finwright")])
            .current_dir(&folder)
            .output()
            .unwrap();
        let (code, out, err) = told(&output);
        assert_eq!((code, out.as_str()), (2, ""));
        assert!(err.starts_with("finwright: loose.finw: it can't be written, and is as it was ("), "{err}");
        assert_eq!(std::fs::read_to_string(folder.join("loose.finw")).unwrap(), long);
        assert_eq!(names(&folder), ["loose.finw", "tidy.finw"]);
    }
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
