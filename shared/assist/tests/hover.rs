//! Hovers over the examples: the cursor is marked `$0` in the text, the answer is a snapshot.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_checks::{analyze, Files, Settings, Snapshot};
use finwright_units::Units;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The records beside the examples.
struct Records;
impl Files for Records {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let is_record = path.extension().is_some_and(|extension| extension == "csv");
        let name = path.to_str().filter(|_| is_record).ok_or("there is no such file")?;
        Ok(Arc::from(example(name)))
    }
}

fn example(name: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs/good").join(name)).unwrap()
}

fn hover(name: &str, around: &str) -> String {
    hover_for(Units::Si, name, around)
}

/// The hover at the `$0` that takes a place in the example, shown under the text that it's about.
fn hover_for(units: Units, name: &str, around: &str) -> String {
    let text = example(name);
    let plain = around.replace("$0", "");
    assert_eq!(text.matches(&plain).count(), 1, "`{plain}` stands once");
    let offset = text.find(&plain).unwrap() + around.find("$0").unwrap();
    let analysis = analyze(&Snapshot {
        path: PathBuf::from(name),
        text: Arc::from(text.as_str()),
        files: Arc::new(Records),
        settings: Arc::new(Settings::default().in_units(units)),
    });
    match finwright_assist::hover(&analysis, offset) {
        Some(hover) => format!("`{}`\n\n{}", hover.span.of(&text), hover.markdown),
        None => "nothing".to_string(),
    }
}

#[test]
fn on_parts() {
    insta::assert_snapshot!("lug_front", hover("reed_heron.finw", "lug fr$0ont"));
    insta::assert_snapshot!("lug_only", hover("pond_wren.finw", "l$0ug only"));
    insta::assert_snapshot!("nose", hover("reed_heron.finw", "  no$0se {"));
    insta::assert_snapshot!("tube", hover("reed_heron.finw", "tube bo$0dy"));
    insta::assert_snapshot!("fins", hover("marsh_harrier.finw", "fins$0 main"));
    insta::assert_snapshot!("mount", hover("marsh_harrier.finw", "mou$0nt engine"));
    insta::assert_snapshot!("button", hover("marsh_harrier.finw", "button$0 fore"));
    insta::assert_snapshot!("rail_guide", hover("grey_crane.finw", "rail_guide a$0ft"));
    insta::assert_snapshot!("taper", hover("grey_crane.finw", "tap$0er"));
}

#[test]
fn on_what_flew_and_what_it_stands_on() {
    insta::assert_snapshot!("flown", hover("garganey.finw", "flo$0wn june"));
    insta::assert_snapshot!("flown_by_log", hover("wigeon.finw", "flown fi$0rst"));
    insta::assert_snapshot!("motor_from_a_stand", hover("teal.finw", "motor d$09"));
    insta::assert_snapshot!("pad_staked", hover("stonechat.finw", "pad fol$0ding"));
    insta::assert_snapshot!("pad_tower", hover("tower_swift.finw", "pad club_t$0ower"));
    insta::assert_snapshot!("parachute_of_a_piece", hover("shelduck.finw", "parachute sm$0all"));
}

#[test]
fn for_a_reader_of_inches() {
    let us = |name, around| hover_for(Units::Us, name, around);
    insta::assert_snapshot!("us_lug_front", us("reed_heron.finw", "lug fr$0ont"));
    insta::assert_snapshot!("us_flight", us("reed_heron.finw", "flight rod_d$0ay"));
    insta::assert_snapshot!("us_site", us("grey_crane.finw", "site hollow$0_hill"));
    insta::assert_snapshot!("us_motor", us("reed_heron.finw", "flight rod_day  { motor: d$09"));
}

#[test]
fn on_flights_and_what_they_refer_to() {
    insta::assert_snapshot!("flight", hover("reed_heron.finw", "flight rod_d$0ay"));
    insta::assert_snapshot!("motor_reference", hover("reed_heron.finw", "flight rod_day  { motor: d$09"));
    insta::assert_snapshot!("pad", hover("pond_wren.finw", "pad school$0_rod"));
    insta::assert_snapshot!("site", hover("grey_crane.finw", "site hollow$0_hill"));
    insta::assert_snapshot!("guide_reference", hover("pond_wren.finw", "guided_by: [on$0ly]"));
    insta::assert_snapshot!("material", hover("reed_heron.finw", "material pi$0ne"));
}

#[test]
fn on_fields_and_values() {
    insta::assert_snapshot!("field_expression", hover("reed_heron.finw", "leng$0th: 3.2 * caliber"));
    insta::assert_snapshot!("value_reference", hover("reed_heron.finw", "length: 3.2 * cali$0ber"));
    insta::assert_snapshot!("let", hover("reed_heron.finw", "let cal$0iber"));
    insta::assert_snapshot!("field_inches", hover("pond_wren.finw", "diam$0eter: 1/8 in"));
    insta::assert_snapshot!("curve", hover("pond_wren.finw", "cu$0rve: ["));
    insta::assert_snapshot!("choice", hover("reed_heron.finw", "sha$0pe: ogive"));
    insta::assert_snapshot!("tolerance", hover("reed_heron.finw", "ma$0ss: 6 g ± 0.5 g"));
    insta::assert_snapshot!("design", hover("reed_heron.finw", "desi$0gn \"Reed"));
}

#[test]
fn rows_of_a_table_do_not_wrap() {
    let said = hover("reed_heron.finw", "flight rod_d$0ay");
    let rows: Vec<&str> = said.lines().filter(|line| line.starts_with('|')).collect();
    assert!(rows.len() >= 4, "{said}");
    for row in rows {
        assert!(row.chars().count() <= 100, "{row}");
    }
}

#[test]
fn on_words_of_the_language() {
    insta::assert_snapshot!("unit", hover("reed_heron.finw", "length: 430 m$0m"));
    insta::assert_snapshot!("unit_inches", hover("pond_wren.finw", "diameter: 1/8 i$0n"));
    insta::assert_snapshot!("listed_word", hover("reed_heron.finw", "shape: og$0ive"));
    insta::assert_snapshot!("version", hover("pond_wren.finw", "finwr$0ight 1\n"));
    insta::assert_snapshot!("let_word", hover("reed_heron.finw", "l$0et caliber"));
    insta::assert_snapshot!("place", hover("reed_heron.finw", "a$0t: 3 mm from back"));
    insta::assert_snapshot!("from_front", hover("reed_heron.finw", "60 mm from fr$0ont"));
}

#[test]
fn on_nothing() {
    assert_eq!(hover("reed_heron.finw", "# Reed He$0ron: a club trainer"), "nothing");
}

#[test]
fn every_offset_of_every_example_is_answered_or_not_without_a_panic() {
    for name in ["reed_heron.finw", "pond_wren.finw", "marsh_harrier.finw", "grey_crane.finw"] {
        let text = example(name);
        let analysis = analyze(&Snapshot {
            path: PathBuf::from(name),
            text: Arc::from(text.as_str()),
            files: Arc::new(Records),
            settings: Arc::default(),
        });
        let mut answered = 0;
        for offset in 0..=text.len() + 1 {
            if let Some(hover) = finwright_assist::hover(&analysis, offset) {
                assert!(hover.span.touches(offset) && !hover.markdown.contains("NaN"), "{hover:?}");
                answered += 1;
            }
        }
        assert!(answered * 2 > text.len(), "{name}: {answered} of {}", text.len());
    }
}
