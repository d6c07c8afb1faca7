//! `finwright explain`: rules, words of the language, topics.
#![allow(clippy::unwrap_used)]

use finwright_checks::RULES;
use finwright_grammar::vocabulary::BLOCKS;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

fn explain(name: &str) -> (String, String, i32) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_finwright"));
    command.arg("explain");
    if !name.is_empty() {
        command.arg(name);
    }
    let output = command.output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (text(output.stdout), text(output.stderr), output.status.code().unwrap())
}

fn page(name: &str) -> String {
    let (page, said, status) = explain(name);
    assert_eq!((said.as_str(), status), ("", 0), "{name}");
    page
}

/// Why there is no page.
fn refusal(name: &str) -> String {
    let (page, said, status) = explain(name);
    assert_eq!((page.as_str(), status), ("", 2), "{name}");
    said
}

/// A text without its line breaks.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// No line of prose is wider than a terminal; an example is shown as it would be typed.
fn fits(page: &str) -> bool {
    page.lines().all(|line| line.chars().count() <= 80 || line.contains(['{', ':']))
}

#[test]
fn all_there_is_is_listed_and_explained() {
    let list = page("");
    for rule in RULES.iter() {
        assert!(list.contains(&format!("\n  {} ", rule.name)), "{}", rule.name);
        let page = page(rule.name);
        assert!(page.starts_with(&format!("{} (", rule.name)) && fits(&page), "{page}");
        assert!(flat(&page).contains(&flat(rule.why)) && flat(&page).contains(&flat(rule.prose)), "{page}");
    }
    for block in BLOCKS {
        assert!(flat(&list).contains(block.word));
        let text = page(block.word);
        assert!(text.starts_with(&format!("{} (block)\n", block.word)) && fits(&text), "{text}");
        assert!(flat(&text).contains(&flat(block.doc)) && flat(&text).contains(&flat(block.example)), "{text}");
        for field in block.fields {
            assert!(text.contains(&format!("\n  {} ", field.word)), "{} in {text}", field.word);
            let text = page(&format!("{}.{}", block.word, field.word));
            assert!(flat(&text).contains(&flat(field.doc)) && text.contains(field.example) && fits(&text), "{text}");
            assert_eq!(text.contains("Needed."), field.needed, "{text}");
            assert!(flat(&text).contains(field.default), "{text}");
        }
    }
}

#[test]
fn a_block() {
    insta::assert_snapshot!(page("tube"));
}

#[test]
fn a_field_with_choices() {
    insta::assert_snapshot!(page("tube.surface"));
}

#[test]
fn a_field_with_bounds() {
    assert!(page("pad.tilt").contains("Takes an angle (deg, rad), from 0° to 60°. Unless said: 0 deg."));
}

#[test]
fn a_rules_family_may_be_left_out() {
    assert_eq!(page("slow-exit"), page("guide/slow-exit"));
    let said = refusal("unused");
    assert!(said.contains("several rules are called unused: ") && said.contains("file/unused"), "{said}");
    assert!(said.contains("allow/unused"), "{said}");
}

#[test]
fn a_family_lists_its_rules() {
    let list = page("recovery");
    let names: Vec<&str> = list.lines().filter_map(|line| line.split_whitespace().next()).collect();
    assert!(names.contains(&"recovery/mistimed") && !list.contains("guide/"), "{list}");
}

#[test]
fn a_fields_block_may_be_left_out() {
    assert_eq!(page("sticks_out"), page("mount.sticks_out"));
    assert!(refusal("surface").contains("several blocks have a field `surface`: nose.surface, tube.surface"));
}

#[test]
fn a_slip_gets_the_nearest_name() {
    assert!(refusal("guide/slow-exti").contains("did you mean guide/slow-exit?"));
    assert!(refusal("tubee").contains("did you mean tube?"));
    assert!(refusal("tube.outr").contains("did you mean tube.outer?"));
    assert!(refusal("booster.length").contains("`booster` has no fields"));
    assert!(refusal("xyzzy").contains("nothing here is called xyzzy; `finwright explain` lists what there is"));
}

#[test]
fn how_to_measure() {
    insta::assert_snapshot!(page("measuring"));
}

/// What the page shows is the language: at the foot of a design it's read and compared, and it agrees.
#[test]
fn what_a_topic_shows_can_be_typed() {
    let design = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/designs/good/pond_wren.finw");
    let page = page("measuring");
    let (_, shown) = page.split_once("  measured {\n").unwrap();
    let (shown, _) = shown.split_once("\n  }\n").unwrap();
    let mut child = Command::new(env!("CARGO_BIN_EXE_finwright"))
        .args(["check", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let text = std::fs::read_to_string(design).unwrap() + "\nmeasured {\n" + shown + "\n}\n";
    child.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
    let said = String::from_utf8(child.wait_with_output().unwrap().stdout).unwrap();
    assert!(said.starts_with("(standard input): meets the checks\n  lesson, as weighed: "), "{said}");
}
