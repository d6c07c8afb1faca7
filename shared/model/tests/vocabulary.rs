//! The vocabulary and the model agree: every field of every block reaches its place in the design, and what a misread
//! value blocks is what the vocabulary says.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_grammar::vocabulary::{BlockWord, FieldKind, FieldWord, Naming, BLOCKS};
use finwright_grammar::{FileId, Place, Span};
use finwright_model::{build, Design, Files};
use std::path::Path;
use std::sync::Arc;

/// What the fields' examples name.
struct Records;

impl Files for Records {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let rows = |header: &str, of: fn(u32) -> f64| {
            let rows: String = (0..40).map(|i| format!("{},{}\n", f64::from(i) * 0.1, of(i))).collect();
            Ok(Arc::from(format!("{header}\n{rows}")))
        };
        match path.to_str() {
            Some("stand.csv") => rows("t [s], F [N]", |i| if (10..20).contains(&i) { 8.0 } else { 0.2 }),
            Some("altimeter.csv") => rows("t [s], height [m]", |i| f64::from(i)),
            _ => Err("there are none".to_string()),
        }
    }
}

fn built(text: &str) -> Design {
    build(Path::new("design.finw"), Arc::from(text), &Records)
}

/// What fields refer to in their examples, so that names are found.
const AROUND: &str = "
material birch_ply { density: 680 kg/m3 }
motor d9 { delay: 3 s }
flight rod_day { motor: d9 }
";

/// A block with these lines in it, inside of whatever it may stand in, with the stretch of the lines in the text.
fn in_its_place(word: &BlockWord, lines: &str) -> (String, usize) {
    let name = match word.naming {
        Naming::Required => " it",
        Naming::Optional if word.word != "airframe" => " it",
        _ => "",
    };
    let mut text = format!("{}{name} {{\n", word.word);
    let mut closing = "\n}".to_string();
    let mut inside = word.inside.first().copied().unwrap_or_default();
    while !inside.is_empty() {
        let outer = BLOCKS.iter().find(|block| block.word == inside).unwrap();
        let name = if outer.naming == Naming::Required { " around" } else { "" };
        text = format!("{inside}{name} {{\n{text}");
        closing += "\n}";
        inside = outer.inside.first().copied().unwrap_or_default();
    }
    let text = format!("finwright 1\n{AROUND}{text}");
    let at = text.len();
    (format!("{text}{lines}{closing}\n"), at)
}

/// Every field of every block, with the block.
fn fields() -> impl Iterator<Item = (&'static BlockWord, &'static FieldWord)> {
    BLOCKS.iter().flat_map(|block| block.fields.iter().map(move |field| (block, field)))
}

/// What a design holds, without its files' texts and its problems.
fn held(design: &Design) -> String {
    let Design {
        title, parts, materials, sections, motors, pads, sites, flights, measured, flown, drag_factor, ..
    } = design;
    format!("{title:?}{parts:?}{materials:?}{sections:?}{motors:?}{pads:?}{sites:?}{flights:?}{measured:?}{flown:?}{drag_factor:?}")
}

#[test]
fn every_field_of_every_block_reaches_its_place() {
    let mut lost = Vec::new();
    for (block, field) in fields() {
        // What only a reader reads isn't held.
        if block.word == "design" {
            continue;
        }
        let (text, at) = in_its_place(block, &format!("{}: {}", field.word, field.example));
        let design = built(&text);
        let start = at + field.word.len() + 2;
        let value = Place { file: FileId(0), span: Span::new(start, start + field.example.len()) };
        let with = held(&design);
        let without = held(&built(&in_its_place(block, &" ".repeat(field.word.len() + 2 + field.example.len())).0));
        // Spaces in its place keep every other place as it was.
        if with == without {
            lost.push(format!("{}.{} is in no part of the design", block.word, field.word));
        }
        if matches!(field.kind, FieldKind::Quantity(_) | FieldKind::Count) && design.amount_at(value).is_none() {
            lost.push(format!("{}.{} isn't among the amounts", block.word, field.word));
        }
    }
    assert!(lost.is_empty(), "{}", lost.join("\n"));
}

#[test]
fn a_new_block_is_no_ballast() {
    for block in BLOCKS.iter().filter(|block| block.inside.iter().any(|home| !home.is_empty())) {
        let (text, _) = in_its_place(block, "");
        let design = built(&text);
        let kinds: Vec<String> = design.parts.iter().map(|part| format!("{:?}", part.kind)).collect();
        if block.word != "ballast" {
            assert!(!kinds.iter().any(|kind| kind == "Ballast"), "{}: {kinds:?}", block.word);
        }
    }
}

/// A value that no field takes, in each field of each block: what can't be computed then is what rests on the block,
/// but where the field hardly matters.
#[test]
fn a_misread_field_blocks_what_the_vocabulary_says() {
    let mut page = String::new();
    for (block, field) in fields() {
        let (text, _) = in_its_place(block, &format!("{}: «", field.word));
        let design = built(&text);
        let broken = design
            .parts
            .iter()
            .map(|part| &part.broken)
            .chain(design.motors.iter().map(|motor| &motor.broken))
            .chain(design.pads.iter().map(|pad| &pad.broken))
            .chain(design.sites.iter().map(|site| &site.broken))
            .chain(design.flights.iter().map(|flight| &flight.broken))
            .chain(design.flown.iter().map(|flown| &flown.broken))
            .any(|broken| broken.contains(&field.word));
        page += &format!("{}.{}: {}\n", block.word, field.word, if broken { "blocks" } else { "goes on" });
        if field.hardly_matters {
            assert!(!broken, "{}.{}", block.word, field.word);
        }
    }
    insta::assert_snapshot!(page);
}
