//! What may be done where the cursor stands, which is marked `$0` in the text.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_assist::actions;
use finwright_checks::{analyze, Files, Snapshot};
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct NoFiles;
impl Files for NoFiles {
    fn read(&self, _: &Path) -> Result<Arc<str>, String> {
        Err("there is no such file".to_string())
    }
}

/// The text after the first action whose title begins so.
fn done(marked: &str, title: &str) -> String {
    let offset = marked.find("$0").unwrap();
    let text = marked.replacen("$0", "", 1);
    let snapshot = Snapshot {
        path: PathBuf::from("a.finw"),
        text: Arc::from(text.as_str()),
        files: Arc::new(NoFiles),
        settings: Arc::default(),
    };
    let all = actions(&analyze(&snapshot), offset);
    let titles: Vec<&str> = all.iter().map(|action| action.fix.title.as_str()).collect();
    let Some(action) = all.iter().find(|action| action.fix.title.starts_with(title)) else {
        return format!("only {titles:?}");
    };
    let mut edits = action.fix.edits.clone();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.place.span));
    let mut text = text;
    for edit in edits {
        text.replace_range(edit.place.span.range(), &edit.text);
    }
    text
}

#[test]
fn what_a_block_needs_is_written_down_to_fill_in() {
    assert_eq!(
        done("airframe {\n  nose {\n    shape: cone$0\n  }\n}\n", "add what this nose needs"),
        "airframe {\n  nose {\n    shape: cone\n    length: \n    base: \n  }\n}\n"
    );
    assert_eq!(done("pad p { rod { diameter: 3 mm$0 } }", "add what"), "pad p { rod { diameter: 3 mm; length: } }");
    assert_eq!(done("pad p { rod { $0} }", "add what"), "pad p { rod { diameter: ; length: } }");
    assert!(done("airframe { tube { lug a { } lug b like a { $0} } }", "add what").starts_with("only"));
}

#[test]
fn a_part_is_made_of_what_is_usual_for_it() {
    assert_eq!(
        done("airframe { tube { fins { count: 3$0 } } }", "make this fins of balsa"),
        "airframe { tube { fins { count: 3; material: balsa } } }"
    );
    assert!(done("airframe { tube { fins { count: 3; mass: 2 g$0 } } }", "make").starts_with("only"));
}

#[test]
fn a_quantity_in_another_unit() {
    assert_eq!(done("let x = 25.4$0 mm", "write it as 1 in"), "let x = 1 in");
    assert_eq!(done("site s { temperature: 20 °$0C }", "write it as 68"), "site s { temperature: 68 °F }");
    assert_eq!(done("let x = 2 * 1$0 m", "write it as 100 cm"), "let x = 2 * 100 cm");
}

#[test]
fn a_value_gets_a_name_that_is_free() {
    let text = "finwright 1\nlet body_length = 3 mm\n\nairframe { tube body { length: 2 * 40$0 mm } }\n";
    let after = done(text, "name this value");
    assert!(after.starts_with("finwright 1\nlet body_length = 3 mm\nlet body_length_2 = 2 * 40 mm\n"), "{after}");
    assert!(after.ends_with("tube body { length: body_length_2 } }\n"), "{after}");
    assert!(done("let x = 3 mm\nairframe { tube { length: x$0 } }", "name this value").starts_with("only"));
}

#[test]
fn a_name_gives_way_to_its_value_in_brackets_where_it_needs_them() {
    let text = "let a = 1 mm + 2 mm\nlet b = 2 * a\nlet c = a\n";
    assert_eq!(
        done(&text.replace("2 * a", "2 * a$0"), "write the value of `a` here"),
        "let a = 1 mm + 2 mm\nlet b = 2 * (1 mm + 2 mm)\nlet c = a\n"
    );
    assert_eq!(
        done(&text.replace("let a", "let a$0"), "write the value of `a` wherever"),
        "let b = 2 * (1 mm + 2 mm)\nlet c = 1 mm + 2 mm\n"
    );
    assert!(done("let a = 1 mm ± 1 %\nlet b = a$0", "write the value").starts_with("only"));
}

#[test]
fn a_lone_lug_becomes_two_that_the_flight_names() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs/good/sedge_mouse.finw");
    let text = std::fs::read_to_string(path).unwrap();
    let after = done(&text.replacen("lug {", "lug$0 {", 1), "make two lugs of it");
    assert!(after.contains("    lug front {") && after.contains("\n    lug front_rear like front { at: "), "{after}");
    assert!(after.contains("guided_by: [front, front_rear]"), "{after}");
}
