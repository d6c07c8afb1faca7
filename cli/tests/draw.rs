//! `finwright draw` and `finwright sheet`: what is listed, drawn and refused, and that nothing half-written is left.
#![cfg(feature = "pictures")]
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;
use std::process::Command;

/// What stands on standard output, on standard error, and the exit status.
fn finwright(arguments: &[&str]) -> (String, String, i32) {
    let output = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(arguments)
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs"))
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (text(output.stdout), text(output.stderr), output.status.code().unwrap())
}

#[test]
fn without_a_name_the_pictures_are_listed_with_their_questions() {
    let (list, _, status) = finwright(&["draw", "good/reed_heron.finw"]);
    assert_eq!(status, 0);
    for name in ["stand", "bench", "end-on", "run", "window", "margin", "path"] {
        assert!(list.lines().any(|line| line.trim_start().starts_with(name) && line.ends_with('?')), "{list}");
    }
}

#[test]
fn a_picture_goes_to_standard_output_as_svg_of_the_flight_that_is_named() {
    let (svg, _, status) = finwright(&["draw", "good/reed_heron.finw", "--what", "stand", "--flight", "rail_day"]);
    assert!(status == 0 && svg.starts_with("<svg ") && svg.contains("from mini_rail") && svg.ends_with("</svg>\n"));
    let (us, ..) = finwright(&["draw", "good/reed_heron.finw", "--what", "stand", "--units", "us"]);
    assert!(us.contains("mph (13.4"), "{us}");
}

#[test]
fn what_cannot_be_drawn_or_written_says_why_and_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let into = |name: &str| folder.path().join(name).display().to_string();
    let (svg, bmp, pdf) = (into("a.svg"), into("a.bmp"), into("no/such/folder/a.pdf"));
    for (arguments, said) in [
        (vec!["draw", "good/reed_heron.finw", "--what", "sand", "-o", &svg], "did you mean stand?"),
        (vec!["draw", "good/reed_heron.finw", "--what", "stand", "-o", &bmp], "written as .svg or .pdf"),
        (vec!["draw", "good/reed_heron.finw", "--what", "stand", "-o", &pdf], "can't be written"),
        (vec!["draw", "bad/empty.finw", "--what", "stand", "-o", &svg], "there is no stand to draw"),
        (vec!["draw", "bad/no_curve.finw", "--what", "run", "-o", &svg], "there is no run to draw"),
        (vec!["sheet", "good/reed_heron.finw", "-o", &svg], "written as .pdf or .html"),
        (vec!["sheet", "bad/empty.finw", "-o", &into("a.pdf")], "nothing to mark out"),
        (vec!["sheet", "good/reed_heron.finw", "good/plover.finw", "-o", &into("a.pdf")], "only cards"),
        (vec!["preview", "good/no_such_file.finw"], "no such file"),
    ] {
        let (page, error, status) = finwright(&arguments);
        assert_eq!((page.as_str(), status), ("", 2), "{arguments:?}");
        assert!(error.contains(said), "{error}");
    }
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
}

#[test]
fn an_older_file_is_replaced_whole() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("cards.html");
    std::fs::write(&path, "older").unwrap();
    let arguments = ["sheet", "good/reed_heron.finw", "--what", "card", "-o", &path.display().to_string()];
    assert_eq!(finwright(&arguments).2, 0);
    let page = std::fs::read_to_string(&path).unwrap();
    assert!(page.starts_with("<!doctype html>") && page.ends_with("</html>\n"));
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
}
