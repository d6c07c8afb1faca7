//! `finwright class`: what a class handed in, looked at.
#![cfg(feature = "pictures")]
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::handed;
use handed::{class_of, finwright, hand_in, pages, scratch, DESIGNS, MOSS, WREN};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// Twelve pupils: some good, some not, a folder, a zip, a web page, a document, nothing.
fn mixed(name: &str) -> std::path::PathBuf {
    let home = scratch(name);
    let moss = hand_in::zip(&[("my rocket/moss.finw", MOSS.as_bytes()), ("__MACOSX/._moss.finw", b"\0\x05\x16")]);
    let slow = WREN.replace("length: 1 m; material: steel", "length: 0.5 m; material: steel");
    let utf16: Vec<u8> = [vec![0xFF, 0xFE], WREN.encode_utf16().flat_map(u16::to_le_bytes).collect()].concat();
    hand_in::put(
        &home,
        &[
            ("in/ada.finw", WREN.as_bytes()),
            ("in/ben.finw", slow.as_bytes()),
            ("in/cyd/rocket.finw", WREN.replace("count: 3", "count: 4").as_bytes()),
            ("in/cyd/notes.txt", b"my notes"),
            ("in/dan.zip", &moss),
            ("in/eva.finw", &utf16),
            ("in/finn.docx", hand_in::DOCUMENT),
            ("in/gus.html", b"<!DOCTYPE html><title>A rocket</title>"),
            ("in/hal.finw", b"finwright 1\nairframe { nose { shape: cone; length: 10 mm; base: 20 mm; material: balsa } }\n"),
            ("in/ida.finw", b"\n \n"),
            ("in/jon.finw.txt", WREN.replace("fins {", "fins {\n\n# mine\n").as_bytes()),
            ("in/stray.finw", b"finwright 1\n"),
            ("roster.csv", b"id,name,where\ns01,Ada,ada.finw\ns02,Ben,ben.finw\ns03,Cyd,cyd\ns04,Dan,dan.zip\ns05,Eva,eva.finw\ns06,Finn,finn.docx\ns07,Gus,gus.html\ns08,Hal,hal.finw\ns09,Ida,ida.finw\ns10,Jon,jon.finw.txt\ns11,Kim,kim.finw\ns12,Lea,../lea.finw\n"),
        ],
    );
    home
}

#[test]
fn a_class_of_all_kinds() {
    let home = mixed("kinds");
    let (text, errors, status) = finwright(&home, &["in", "--roster", "roster.csv", "--out", "pages"]);
    assert_eq!((errors.as_str(), status), ("", 0), "whatever is handed in, the run ends well");
    insta::assert_snapshot!("summary", text);
    insta::assert_snapshot!("grades", fs::read_to_string(home.join("pages/grades.csv")).unwrap());
    insta::assert_snapshot!("feedback", fs::read_to_string(home.join("pages/feedback/s02.md")).unwrap());
    let page = fs::read_to_string(home.join("pages/pupils/s02.html")).unwrap();
    for words in
        ["What is good", "What to mend", "A number of yours, by hand: exit speed", "<svg", "a 0.9 m rod would do"]
    {
        assert!(page.contains(words), "{words}");
    }
    let teacher = fs::read_to_string(home.join("pages/teacher.html")).unwrap();
    for words in
        ["nothing handed in", "this is UTF-16 text: save it as UTF-8", "stray.finw", "it leads out of the folder"]
    {
        assert!(teacher.contains(words), "{words}");
    }
}

/// A pupil who left the class: nobody's page is taken away unasked, and none lies there unsaid.
#[test]
fn what_an_earlier_run_left_of_others_is_told() {
    let home = mixed("left");
    let run = || finwright(&home, &["in", "--roster", "roster.csv", "--out", "pages"]);
    run();
    fs::write(home.join("pages/pupils/notes.txt"), "the teacher's own").unwrap();
    assert_eq!(run().1, "");
    let roster = fs::read_to_string(home.join("roster.csv")).unwrap();
    fs::write(home.join("roster.csv"), roster.replace("s02,Ben,ben.finw\n", "")).unwrap();
    let (_, errors, status) = run();
    let left = "an earlier run left 2 files of nobody in this class, the first is pages/feedback/s02.md";
    assert_eq!((errors, status), (format!("finwright: {left}; delete what isn't needed\n"), 0));
    assert!(home.join("pages/pupils/s02.html").exists());
}

#[test]
fn the_same_bytes_whatever_the_threads() {
    let home = mixed("threads");
    let told = |threads: &str, out: &str| {
        let arguments = ["in", "--roster", "roster.csv", "--out", out];
        let output = handed::command(&home, &arguments).env("RAYON_NUM_THREADS", threads).output().unwrap();
        (String::from_utf8(output.stdout).unwrap(), pages(&home.join(out)))
    };
    let (one, two) = (told("1", "one"), told("4", "two"));
    assert!(one.1.len() == 2 * 12 + 2, "{}", one.1.len());
    assert!(one == two);
}

/// A pupil's page holds nothing of another's, whatever they share: each pupil of a class of forty writes words of their
/// own everywhere that words can be written, some use others' files, some copied from others.
#[test]
fn a_pupils_page_holds_nothing_of_anothers() {
    let home = scratch("privacy");
    let token = |number: usize| format!("zq{number:03}x");
    let mut files: Vec<(String, Vec<u8>)> = Vec::new();
    let mut roster = String::from("id,name,where\n");
    for number in 0..40 {
        let own = token(number);
        let mut text = WREN.replace("Pond Wren", &format!("{own} rocket")).replace("lesson", &format!("{own}_day"));
        text += &format!("# note of {own}\n# allow pad/leans: {own} says so\n");
        if number % 3 == 0 {
            text = text.replace("length: 1 m; material: steel", "length: 0.4 m; material: steel");
        }
        if number % 4 == 1 {
            text =
                format!("finwright 1\nuse \"{}.finw\"\n{}", token(number - 1), text.trim_start_matches("finwright 1"));
        }
        if number % 5 == 2 {
            text += "what is this line\n";
        }
        let place = match number % 4 {
            3 => format!("{own}/{own}_part.finw"),
            _ => format!("{own}.finw"),
        };
        let whole = if number % 4 == 3 { own.clone() } else { place.clone() };
        roster += &format!("{own}id,{own} name,{whole}\n");
        files.push((format!("in/{place}"), text.into_bytes()));
    }
    files.push(("roster.csv".to_string(), roster.into_bytes()));
    hand_in::put(&home, &files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())).collect::<Vec<_>>());
    let (_, errors, status) = finwright(&home, &["in", "--roster", "roster.csv", "--out", "pages"]);
    assert_eq!((errors.as_str(), status), ("", 0));
    let mut looked = 0;
    for (path, bytes) in pages(&home.join("pages")) {
        if !path.starts_with("pupils/") && !path.starts_with("feedback/") {
            continue;
        }
        looked += 1;
        let text = String::from_utf8(bytes).unwrap();
        let owner = (0..40).find(|number| path.contains(&token(*number))).unwrap();
        assert!(text.contains(&token(owner)), "{path} is somebody's");
        for other in (0..40).filter(|number| *number != owner) {
            // Their own design may name another's file in its `use`, which is their own word.
            let own_word = owner % 4 == 1 && other + 1 == owner;
            let found = text.matches(&token(other)).count();
            let named = text.matches(&format!("{}.finw", token(other))).count();
            assert!(found == 0 || (own_word && found == named), "{path} holds something of {}", token(other));
        }
    }
    assert_eq!(looked, 80);
    let teacher = fs::read_to_string(home.join("pages/teacher.html")).unwrap();
    assert!((0..40).all(|number| teacher.contains(&token(number))), "the teacher's page has everyone");
}

/// What a pupil wrote is shown as they wrote it, and does nothing.
#[test]
fn nothing_that_a_pupil_wrote_does_anything() {
    let home = scratch("escapes");
    let evil = "<script>alert(1)</script>";
    let design = WREN.replace("Pond Wren", &format!("{evil}&\u{1b}[31m =SUM(A1)"));
    let design = format!("{design}# allow pad/leans in this file: <img src=x onerror=alert(2)> `*_[x](javascript:3)\n");
    let roster = format!(
        "id,name,where\n=cmd|1,@{evil},a.finw\n-2,+two\u{1b}]0;title\u{7},b\n../../out,\"\"\"x\"\" | **y**\",c.finw\n"
    );
    hand_in::put(
        &home,
        &[
            ("in/a.finw", design.as_bytes()),
            ("in/b/<b>bold</b>.finw", design.as_bytes()),
            ("in/c.finw", WREN.replace("name", "x").replace("count: 3", "count: <i>").as_bytes()),
            ("roster.csv", roster.as_bytes()),
        ],
    );
    let (text, errors, status) = finwright(&home, &["in", "--roster", "roster.csv", "--out", "pages/deep"]);
    assert_eq!((errors.as_str(), status), ("", 0));
    assert!(!text.contains('\u{1b}') && !text.contains('\u{7}'), "{text:?}");
    let found = pages(&home.join("pages"));
    assert_eq!(found.len(), 2 * 3 + 2, "no id leads out of its folder: {:?}", found.keys());
    for (path, bytes) in &found {
        let text = String::from_utf8(bytes.clone()).unwrap();
        assert!(!text.contains('\u{1b}'), "{path}");
        if path.ends_with(".html") {
            assert!(
                !text.contains("<script") && !text.contains("<img") && !text.contains("<b>") && !text.contains("<i>"),
                "{path}"
            );
        }
        if path.ends_with(".md") {
            assert!(!text.contains("<script") && !text.contains("<img") && !text.contains("](javascript"), "{path}");
        }
    }
    let grades = fs::read(home.join("pages/deep/grades.csv")).unwrap();
    let mut rows = csv::Reader::from_reader(grades.as_slice());
    for record in rows.records() {
        for cell in record.unwrap().iter() {
            assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '|']), "{cell}");
        }
    }
}

#[test]
fn a_rubric_gives_and_takes() {
    let home = mixed("rubric");
    let rubric = "full = 20\nallowed = \"half\"\n[takes]\nerror = 4\nguide = 6\n[numbers.margin_cal]\nfrom = 1.0\nto = 2.0\ngives = 2\n";
    fs::write(home.join("rubric.toml"), rubric).unwrap();
    let (_, errors, status) =
        finwright(&home, &["in", "--roster", "roster.csv", "--rubric", "rubric.toml", "--out", "pages"]);
    assert_eq!((errors.as_str(), status), ("", 0));
    let grades = fs::read(home.join("pages/grades.csv")).unwrap();
    let mut rows = csv::Reader::from_reader(grades.as_slice());
    let points: BTreeMap<String, (String, String)> = rows
        .records()
        .map(Result::unwrap)
        .map(|row| (row[0].to_string(), (row[2].to_string(), row[3].to_string())))
        .collect();
    let of = |id: &str| points[id].clone();
    assert_eq!(of("s01"), ("22".to_string(), "22".to_string()), "nothing found, and a margin of 1.38");
    assert_eq!(of("s02"), ("16".to_string(), "22".to_string()), "a slow exit is a matter of guides");
    assert_eq!(of("s11"), ("0".to_string(), "22".to_string()));
    fs::write(home.join("rubric.toml"), "ful = 20\n").unwrap();
    let (_, errors, status) = finwright(&home, &["in", "--rubric", "rubric.toml"]);
    assert_eq!(status, 2);
    assert!(errors.starts_with("finwright: rubric.toml: line 1: unknown field `ful`"), "{errors}");
}

/// What a finding costs that its author allows.
#[test]
fn an_allowed_finding_costs_what_the_rubric_says() {
    let home = scratch("allowed");
    let design = fs::read_to_string(Path::new(DESIGNS).join("bad/allowed.finw")).unwrap();
    hand_in::put(&home, &[("in/a.finw", design.as_bytes())]);
    let points = |allowed: &str| {
        fs::write(
            home.join("rubric.toml"),
            format!("full = 10\nallowed = \"{allowed}\"\n[takes]\nerror = 4\nwarning = 4\n"),
        )
        .unwrap();
        finwright(&home, &["in", "--rubric", "rubric.toml", "--out", "pages"]);
        let grades = fs::read_to_string(home.join("pages/grades.csv")).unwrap();
        grades.lines().nth(1).unwrap().split(',').nth(2).unwrap().parse::<f64>().unwrap()
    };
    let (full, half, nothing) = (points("full"), points("half"), points("nothing"));
    assert!(
        full < half && half < nothing && (nothing - full - 2.0 * (nothing - half)).abs() < 1e-9,
        "{full} {half} {nothing}"
    );
}

/// A class that begins from one kit isn't alike for that; two who hand in the same beyond it are.
#[test]
fn a_shared_kit_makes_nobody_alike() {
    let home = scratch("alike");
    let mut files: Vec<(String, Vec<u8>)> = (0..12)
        .map(|number| {
            let fins = format!("count: {}", 3 + number % 2);
            let text = WREN.replace("count: 3", &fins).replace("root: 50 mm", &format!("root: {} mm", 40 + number));
            let text = text
                .replace("span: 40 mm", &format!("span: {} mm", 35 + number))
                .replace("sweep: 25 mm", &format!("sweep: {} mm", 20 + number));
            let text = text
                .replace("length: 48 mm", &format!("length: {} mm", 48 + number))
                .replace("0 mm from back", &format!("{number} mm from back"));
            (format!("in/p{number:02}.finw"), text.into_bytes())
        })
        .collect();
    let copied = String::from_utf8(files[4].1.clone()).unwrap().replace("Pond Wren", "My Own").replace("body", "trunk");
    files.push(("in/p12.finw".to_string(), format!("# all mine\n\n{}", copied.replace("; ", "\n")).into_bytes()));
    hand_in::put(&home, &files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())).collect::<Vec<_>>());
    let (text, _, _) = finwright(&home, &["in", "--out", "pages"]);
    assert!(text.contains("1 pair to look at together"), "{text}");
    assert!(class_of(&home.join("pages/teacher.html")).contains("<li>p04 and p12: 100 % alike</li>"));
}

#[test]
fn a_kit_is_shared_and_nobody_elses_file_is() {
    let home = scratch("kit");
    for (name, to) in [("kit.finw", "in/kit.finw"), ("pupil_one.finw", "in/one.finw")] {
        let text = fs::read(Path::new(DESIGNS).join("projects/class").join(name)).unwrap();
        hand_in::put(&home, &[(to, &text)]);
    }
    let packed = fs::read(home.join("in/one.finw")).unwrap();
    hand_in::put(&home, &[("in/two.zip", &hand_in::zip(&[("rocket.finw", &packed)]))]);
    let (text, _, _) = finwright(&home, &["in"]);
    assert!(text.starts_with("3 submissions: "), "without a word the kit is somebody's: {text}");
    let (text, errors, status) = finwright(&home, &["in", "--shared", "in/kit.finw"]);
    assert_eq!((errors.as_str(), status), ("", 0));
    assert!(text.starts_with("2 submissions: 2 meet the checks."), "{text}");
}
