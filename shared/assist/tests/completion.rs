//! What may be written at the cursor, which is marked `$0` in the text.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_assist::{completion, Completion};
use finwright_checks::{analyze, Files, Snapshot};
use std::path::{Path, PathBuf};
use std::sync::Arc;

struct NoFiles;
impl Files for NoFiles {
    fn read(&self, _: &Path) -> Result<Arc<str>, String> {
        Err("there is no such file".to_string())
    }
}

const REST: &str = "
let caliber = 24.8 mm
motor a5 { diameter: 18 mm; length: 70 mm; mass: 16 g; propellant: 3 g; curve: [0 s: 0 N, 1 s: 5 N, 2 s: 0 N] }
pad stand { rod { diameter: 3 mm; length: 1 m } }
material heavy_card { density: 900 kg/m3 }
";

fn offers(marked: &str) -> (String, Vec<Completion>) {
    let offset = marked.find("$0").unwrap();
    let text = marked.replacen("$0", "", 1) + REST;
    let analysis = analyze(&Snapshot {
        path: PathBuf::from("a.finw"),
        text: Arc::from(text.as_str()),
        files: Arc::new(NoFiles),
        settings: Arc::default(),
    });
    let found = completion(&analysis, offset);
    (text, found)
}

fn labels(marked: &str) -> Vec<String> {
    offers(marked).1.into_iter().map(|c| c.label).collect()
}

#[test]
fn at_the_top() {
    let found = labels("$0\n");
    for word in ["airframe", "motor", "pad", "flight", "let", "use"] {
        assert!(found.iter().any(|l| l == word), "{word} in {found:?}");
    }
    assert!(!found.iter().any(|l| l == "lug"));
}

#[test]
fn fields_that_are_needed_come_first_and_those_said_not_at_all() {
    let found = labels("airframe { nose {\n  shape: ogive\n  le$0\n} }");
    assert_eq!(found[..2], ["length", "base"]);
    assert!(!found.contains(&"shape".to_string()) && found.contains(&"shoulder".to_string()), "{found:?}");
}

#[test]
fn what_is_chosen_replaces_the_word_being_typed() {
    let (text, found) = offers("airframe { tube body { ou$0 } }");
    let outer = found.iter().find(|c| c.label == "outer").unwrap();
    assert_eq!((outer.replace.of(&text), outer.text.as_str()), ("ou", "outer: "));
}

#[test]
fn words_of_a_choice_and_names() {
    assert_eq!(labels("airframe { nose { shape: $0 } }")[..3], ["cone", "ogive", "ellipsoid"]);
    assert_eq!(labels("flight f { motor: $0 }"), ["a5"]);
    assert_eq!(labels("flight f { pad: st$0 }"), ["stand"]);
    assert_eq!(
        labels("airframe { tube { lug one { } lug two { } } }\nflight f { guided_by: [one, $0] }"),
        ["one", "two"]
    );
    let materials = labels("airframe { tube { material: $0 } }");
    assert_eq!(materials[0], "heavy_card");
    assert!(materials.contains(&"balsa".to_string()));
}

#[test]
fn units_behind_a_number() {
    assert_eq!(labels("airframe { tube { length: 12 $0 } }")[..3], ["mm", "cm", "m"]);
    assert_eq!(labels("airframe { tube { mass: 12$0 } }")[..2], ["g", "kg"]);
    assert_eq!(labels("pad p { tilt: 3 d$0 }")[..2], ["deg", "rad"]);
    assert!(labels("let x = 3 $0").contains(&"kg".to_string()));
}

#[test]
fn places() {
    assert_eq!(labels("airframe { tube body { lug { at: 12 mm $0 } } }")[0], "from");
    let found = labels("airframe { tube body { lug { at: 12 mm from $0 } } }");
    assert!(found.contains(&"back".to_string()) && found.contains(&"body.front".to_string()), "{found:?}");
    assert_eq!(labels("airframe { tube body { lug { at: 12 mm ahead of $0 } } }"), ["balance"]);
}

#[test]
fn named_values_with_what_they_are() {
    let (_, found) = offers("airframe { tube { outer: $0 } }");
    let caliber = found.iter().find(|c| c.label == "caliber").unwrap();
    assert_eq!(caliber.detail, "24.8 mm");
}

#[test]
fn nothing_in_comments_and_texts() {
    assert!(labels("# mot$0").is_empty());
    assert!(labels("design \"Re$0\" { }").is_empty());
    assert!(labels("airframe { tube { length: 3 mm } # in$0 }").is_empty());
}

#[test]
fn any_offset_of_a_damaged_file_is_answered_without_a_panic() {
    let text = "airframe {\n nose { shape: ogiv€; le\n tube é { at: [3 mm fr } \n fins { root: \n";
    let analysis = analyze(&Snapshot {
        path: PathBuf::from("a.finw"),
        text: Arc::from(text),
        files: Arc::new(NoFiles),
        settings: Arc::default(),
    });
    for offset in 0..=text.len() + 3 {
        completion(&analysis, offset);
    }
}
