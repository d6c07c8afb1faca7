//! Input that no designer would write: a clear message with a place, an honest exit status, no panic, no hang.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

struct Said {
    out: String,
    err: String,
    status: i32,
}

/// Runs `finwright ARGS` with a folder as its own and bytes on standard input. A run of more than ten seconds is a
/// hang.
fn finwright(folder: &Path, arguments: &[&str], input: &[u8]) -> Said {
    let start = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(arguments)
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    // The program may stop reading early, which is its right.
    let _ = stdin.write_all(input);
    drop(stdin);
    let output = child.wait_with_output().unwrap();
    assert!(start.elapsed() < Duration::from_secs(10), "{arguments:?} took {:?}", start.elapsed());
    let said = Said {
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
        status: output.status.code().unwrap_or(-1),
    };
    assert!(!said.err.contains("panicked") && said.status >= 0, "{}", said.err);
    assert!(!said.out.contains("NaN") && !said.out.contains("inf m"), "{}", said.out);
    said
}

fn stdin(input: &[u8]) -> Said {
    finwright(Path::new("."), &["check", "--format", "line", "-"], input)
}

fn good(name: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs/good").join(name)).unwrap()
}

#[test]
fn what_is_not_text_is_unusable() {
    for (bytes, why) in [
        (vec![0u8; 100], "line 1, column 1 holds a zero byte"),
        (b"finwright 1\n# caf\xe9\n".to_vec(), "line 2, column 6 holds the byte 0xE9"),
        ([0x89, b'P', b'N', b'G'].to_vec(), "line 1, column 1 holds the byte 0x89"),
        (vec![b' '; 52_428_800], "larger than 1 MB"),
    ] {
        let said = stdin(&bytes);
        assert_eq!((said.status, said.out.as_str()), (2, ""), "{}", said.err);
        assert!(said.err.contains(why), "{} should say {why}", said.err);
    }
}

#[test]
fn an_empty_file_has_passed_no_check() {
    for text in ["", "\n", "# nothing\r\n"] {
        let said = stdin(text.as_bytes());
        assert_eq!(said.status, 1);
        assert!(said.out.contains("error file/empty-file"), "{}", said.out);
    }
}

#[test]
fn paths_that_lead_nowhere_are_unusable() {
    let folder = tempdir("nowhere");
    for (path, why) in [("missing.finw", "there is no such file"), (".", "there is no *.finw file in this folder")] {
        let said = finwright(&folder, &["check", path], b"");
        assert_eq!((said.status, said.out.as_str()), (2, ""));
        assert!(said.err.contains(why), "{}", said.err);
    }
    let said = finwright(&folder, &["show", "missing.finw"], b"");
    assert_eq!(said.status, 2);
    let said = finwright(&folder, &["check"], b"");
    assert_eq!(said.status, 2, "no path at all: {}", said.err);
}

#[test]
fn one_bad_file_does_not_hide_the_others() {
    let folder = tempdir("mixed");
    std::fs::write(folder.join("a.finw"), good("pond_wren.finw")).unwrap();
    std::fs::write(folder.join("b.finw"), b"\xff\xfe").unwrap();
    std::fs::write(folder.join("c.finw"), "").unwrap();
    let said = finwright(&folder, &["check", "."], b"");
    assert_eq!(said.status, 2);
    assert!(
        said.out.contains("file/empty-file")
            && said.out.contains("\n2 files checked: 1 not as it is, 1 meets the checks; 1 error. The range safety"),
        "{}",
        said.out
    );
    assert!(said.err.contains("b.finw"), "{}", said.err);
}

#[test]
fn every_newline_and_a_byte_order_mark_give_the_same_findings() {
    let text = good("pond_wren.finw").replace("span: 40 mm", "span: 40 mmm");
    let wanted = stdin(text.as_bytes()).out;
    assert!(wanted.contains("(standard input):30:"), "{wanted}");
    for other in [text.replace('\n', "\r\n"), text.replace('\n', "\r"), format!("\u{FEFF}{text}")] {
        let said = stdin(other.as_bytes());
        assert_eq!((said.out, said.status), (wanted.clone(), 1));
    }
}

#[test]
fn nesting_without_end_is_bounded() {
    for text in [
        "airframe {\n".repeat(10_000),
        "tube { ".repeat(10_000),
        "{".repeat(10_000),
        "}".repeat(10_000),
        "{".repeat(10_000) + &"}".repeat(10_000),
        format!("let x = {}1 mm{}", "(".repeat(10_000), ")".repeat(10_000)),
        format!("let x = {}", "min(".repeat(10_000)),
    ] {
        let said = stdin(text.as_bytes());
        assert_eq!(said.status, 1);
        assert!(said.out.contains("error "), "{}", &said.out[..said.out.len().min(300)]);
    }
    let long = format!("let x = {}1 mm\nlet y = 1 mm{}\n", "-".repeat(100_001), " + 1 mm".repeat(50_000));
    let said = stdin((good("pond_wren.finw") + &long).as_bytes());
    // Nothing is wrong with them but that nothing uses them.
    let (last, notes) = said.out.lines().collect::<Vec<_>>().split_last().map(|(l, n)| (*l, n.to_vec())).unwrap();
    assert!(said.status == 0 && last == "(standard input): meets the checks", "{}", said.out);
    assert!(notes.iter().all(|line| line.contains("note file/unused")), "{}", said.out);
}

#[test]
fn numbers_that_are_none_stay_out_of_every_answer() {
    let text = good("pond_wren.finw");
    for (old, new) in [
        ("length: 230 mm", "length: 0 mm"),
        ("length: 230 mm", "length: -5 mm"),
        ("length: 230 mm", "length: nan"),
        ("length: 230 mm", "length: inf mm"),
        ("length: 230 mm", "length: 1e999 mm"),
        ("length: 230 mm", "length: 1e308 m"),
        ("length: 230 mm", "length: 1e-300 m"),
        ("length: 230 mm", "length: 230 mm / 0"),
        ("length: 230 mm", "length: sqrt(-1) * 1 mm"),
        ("mass: 16 g", "mass: 1e300 kg"),
        ("mass: 16 g; propellant: 3.5 g", "mass: 3 g; propellant: 3.5 g"),
        ("0.129 s: 10.6 N", "0.129 s: 1e300 N"),
        ("count: 3\n", "count: 1e9\n"),
        ("tilt: 2 deg", "tilt: 90 deg"),
        ("inner: 24 mm", "inner: 30 mm"),
        ("wind: 2.5 m/s", "wind: 1e30 m/s"),
        ("elevation: 85 m", "elevation: 1e9 m"),
        ("tip: 30 mm", "tip: 0 mm; sweep: 0 mm; span: 1e-7 mm"),
    ] {
        assert_eq!(text.matches(old).count(), 1, "{old}");
        let changed = text.replace(old, new);
        let said = stdin(changed.as_bytes());
        assert!(!said.out.is_empty(), "{new} should be told");
        let shown = finwright(Path::new("."), &["show", "-"], changed.as_bytes());
        assert_eq!(shown.status, 0);
        let json = finwright(Path::new("."), &["show", "--format", "json", "-"], changed.as_bytes());
        serde_json::from_str::<serde_json::Value>(&json.out).unwrap();
    }
}

#[test]
fn files_outside_of_the_workspace_are_not_read() {
    let folder = tempdir("jail");
    let inside = folder.join("club");
    std::fs::create_dir_all(&inside).unwrap();
    std::fs::write(folder.join("secret.finw"), "let secret = 12 mm\n").unwrap();
    let _ = std::fs::remove_file(inside.join("link.finw"));
    std::os::unix::fs::symlink(folder.join("secret.finw"), inside.join("link.finw")).unwrap();
    for used in ["../secret.finw", "link.finw", "/etc/hostname", "../../../../../../etc/passwd"] {
        std::fs::write(inside.join("design.finw"), format!("use \"{used}\"\nlet x = secret\n")).unwrap();
        let said = finwright(&inside, &["check", "--format", "line", "design.finw"], b"");
        assert!(
            said.out.contains("outside the workspace") && said.out.contains("named `secret`"),
            "{used}: {}",
            said.out
        );
    }
}

fn tempdir(name: &str) -> std::path::PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("rough-{name}"));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}
