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
    let files = |ending: &str| match ending {
        "finw" => vec!["pads.finw".to_string(), "shared/motors.finw".to_string()],
        _ => vec!["data/b7.csv".to_string()],
    };
    let found = completion(&analysis, offset, &files).offers;
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
    let found = labels("airframe { nose {\n  shape: ogive\n  $0\n} }");
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
    assert_eq!(labels("airframe { tube { lug one { } lug two { } } }\nflight f { guided_by: [one, $0] }"), ["two"]);
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
    assert!(found.contains(&"back".to_string()) && found.contains(&"body".to_string()), "{found:?}");
    assert_eq!(labels("airframe { tube body { lug { at: 12 mm ahead of $0 } } }"), ["balance"]);
}

#[test]
fn named_values_with_what_they_are() {
    let (_, found) = offers("airframe { tube { outer: $0 } }");
    let caliber = found.iter().find(|c| c.label == "caliber").unwrap();
    assert_eq!(caliber.detail, "24.8 mm");
}

/// The text after the choice of an offer, in the editors that overwrite the whole word.
fn chosen(marked: &str, label: &str) -> String {
    let (text, found) = offers(marked);
    let offer = found.iter().find(|offer| offer.label == label).unwrap_or_else(|| panic!("{label} in {found:#?}"));
    let mut text = text.strip_suffix(REST).unwrap().to_string();
    assert!(offer.replace.range().start <= offer.insert.range().end && offer.insert.end <= offer.replace.end);
    text.replace_range(offer.replace.range(), &offer.text);
    text
}

/// Whether a list may open by itself behind a space.
fn is_due(marked: &str) -> bool {
    let offset = marked.find("$0").unwrap();
    let text = marked.replacen("$0", "", 1) + REST;
    let snapshot = Snapshot {
        path: PathBuf::from("a.finw"),
        text: Arc::from(text.as_str()),
        files: Arc::new(NoFiles),
        settings: Arc::default(),
    };
    completion(&analyze(&snapshot), offset, &|_| Vec::new()).due
}

#[test]
fn in_blocks_that_are_not_closed_yet() {
    assert_eq!(labels("airframe {\n  $0")[0], "nose");
    assert_eq!(labels("airframe {\n  nose { shape: $0")[..3], ["cone", "ogive", "ellipsoid"]);
    assert_eq!(labels("airframe {\n  nose {\n    $0\n\nflight f { }")[..3], ["shape", "length", "base"]);
}

#[test]
fn a_block_comes_closed() {
    assert_eq!(chosen("airframe {\n  no$0\n}", "nose"), "airframe {\n  nose { }\n}");
    let (_, found) = offers("airframe {\n  no$0\n}");
    assert!(found[0].snippet.as_ref().unwrap().starts_with("nose {\n  shape: $1\n  length: $2\n"), "{found:?}");
    assert_eq!(chosen("pa$0 club { }", "pad"), "pad club { }");
}

#[test]
fn in_the_middle_of_a_word_nothing_else_is_damaged() {
    let text = |rest| format!("airframe {{ tube {{ mount {{\n  {rest}\n}} }} }}");
    assert_eq!(chosen(&text("sti$0cks_out: 6 mm"), "sticks_out"), text("sticks_out: 6 mm"));
    assert_eq!(chosen(&text("s$0: 6 mm"), "sticks_out"), text("sticks_out: 6 mm"));
    assert_eq!(chosen(&text("material: ba$0lsa"), "balsa"), text("material: balsa"));
    assert_eq!(chosen(&text("material:$0"), "balsa"), text("material: balsa"));
    let (text, found) = offers(&text("le$0n"));
    assert_eq!((found[0].insert.of(&text), found[0].replace.of(&text)), ("le", "len"));
}

#[test]
fn behind_a_point() {
    assert_eq!(labels("airframe { tube body { outer: 3 mm } tube { outer: body.$0")[..2], ["outer", "begins"]);
    assert_eq!(labels("airframe { tube body { lug { at: 2 mm from body.$0"), ["front", "back"]);
}

#[test]
fn behind_like_in_paths_and_in_remarks() {
    assert_eq!(labels("airframe { tube { lug rear { } lug front like $0"), ["rear"]);
    assert_eq!(chosen("use \"p$0", "pads.finw"), "use \"pads.finw\"");
    assert_eq!(chosen("use \"sha$0\"", "shared/motors.finw"), "use \"shared/motors.finw\"");
    assert_eq!(chosen("use $0", "pads.finw"), "use \"pads.finw\"");
    assert_eq!(labels("motor m { curve: file \"$0"), ["data/b7.csv"]);
    let rules = labels("# allow $0");
    assert!(rules.contains(&"guide/slow-exit".to_string()) && !rules.contains(&"syntax/unclosed-block".to_string()));
    assert_eq!(chosen("# allow guide/sl$0", "guide/slow-exit"), "# allow guide/slow-exit: ");
    assert_eq!(labels("# allow guide/slow-exit $0"), ["here", "in this file"]);
}

#[test]
fn in_a_curve_behind_a_number() {
    assert_eq!(labels("motor m { curve: [0 $0")[..2], ["s", "ms"]);
    assert_eq!(labels("motor m { curve: [0 s: 0 N,\n  0.1 s: 12 $0")[..1], ["N"]);
    assert!(labels("motor m { curve: [$0").is_empty());
}

#[test]
fn nothing_behind_a_finished_value() {
    assert!(labels("airframe { tube { length: 41.$0").is_empty());
    for text in ["material: balsa $0", "length: 3 mm $0", "count: 3 $0", "at: 3 mm from front $0", "at: balance $0"] {
        assert!(labels(&format!("airframe {{ tube {{ fins {{ {text}")).is_empty(), "{text}");
    }
    assert!(labels("airframe { nose { shape: ogive $0").is_empty());
}

#[test]
fn a_space_opens_a_list_only_where_one_of_it_is_due() {
    for text in ["flight f { motor: $0", "pad p { tilt: 3 $0", "airframe { tube { lug { at: 3 mm $0", "use $0"] {
        assert!(is_due(text), "{text}");
    }
    for text in ["airframe {\n  $0", "airframe { tube body $0", "site s { wind: 3 m/s $0", "pad p { stop: 3 mm $0"] {
        assert!(!is_due(text), "{text}");
    }
}

#[test]
fn names_say_what_they_are_and_where_they_come_from() {
    let (_, found) = offers("airframe { tube { material: $0 } }");
    let detail = |label| &found.iter().find(|offer| offer.label == label).unwrap().detail;
    assert_eq!(detail("heavy_card"), "900 kg/m3");
    assert!(detail("balsa").ends_with("kg/m3 · built in"), "{}", detail("balsa"));
    assert_eq!(offers("flight f { motor: $0 }").1[0].detail, "5 N s, 18 mm");
}

#[test]
fn what_is_mentioned_near_comes_first() {
    let text = "airframe {\n  tube { material: cork }\n  nose { material: birch }\n  nose { material: $0";
    assert_eq!(labels(text)[..3], ["birch", "cork", "heavy_card"]);
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
        completion(&analysis, offset, &|_| Vec::new());
    }
}
