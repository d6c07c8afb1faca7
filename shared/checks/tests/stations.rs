//! A part's station in an expression is where the part itself sits, whatever it is and however it's placed.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis_with, told};
use finwright_checks::Analysis;
use finwright_grammar::vocabulary::{BlockWord, BLOCKS};

/// Every kind of part, and every kind of placement. Invented, and no rocket to fly.
const ALL: &str = r#"finwright 1
airframe {
  nose cone { shape: ogive; length: 80 mm; base: 30 mm; material: basswood
    shoulder plug { length: 20 mm; outer: 28.5 mm }
    ballast slug { mass: 1 g; at: 50 mm from front }
  }
  tube upper { length: 150 mm; outer: 30 mm; inner: 29 mm; material: kraft_paper
    coupler joint { length: 60 mm; outer: 28.8 mm; inner: 27 mm; material: kraft_paper; at: -30 mm from back
      bulkhead disc { outer: 27 mm; thickness: 4 mm; material: plywood; at: 0 mm from front }
    }
    parachute chute { diameter: 300 mm; mass: 4 g; at: 40 mm from front }
    cord rope { mass: 2 g; at: 260 mm from tail }
    load box { mass: 5 g; length: 30 mm; at: balance }
    load point { mass: 1 g; at: 12 mm behind balance }
    bulkhead plate { outer: 29 mm; thickness: 3 mm; material: plywood; at: 15 mm ahead of balance }
  }
  taper flare { length: 30 mm; front: 30 mm; back: 34 mm; wall: 1 mm; material: balsa }
  tube lower like upper { length: 160 mm; outer: 34 mm; inner: 33 mm
    fins main { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; thickness: 2 mm; material: balsa; at: 3 mm from back }
    fins drawn { count: 3; outline: [5 mm: 0 mm, 20 mm: 30 mm, 35 mm: 0 mm]; thickness: 2 mm; material: balsa; at: 90 mm from back }
    fins filed { count: 3; outline: file "fin.csv"; thickness: 2 mm; material: balsa; at: 20 mm from upper.front }
    fins twin like main { at: 8 mm from drawn.back; clock: 30 deg }
    fins trio like drawn { at: 2 mm from main.front; clock: 40 deg }
    mount engine { bore: 18 mm; outer: 18.8 mm; length: 70 mm; material: kraft_paper
      rings pair { count: 2; thickness: 4 mm; material: cardboard }
      thrust_ring stop { length: 6 mm; inner: 14 mm; material: cardboard }
      hook spring { length: 75 mm; mass: 1 g }
    }
    lug one { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 20 mm ahead of balance; clock: 60 deg }
    lug two like one { at: [12 mm from back, 90 mm from back] }
    button peg { profile: 15 mm; at: 40 mm from lower.front; clock: 180 deg }
    rail_guide shoe { profile: 15 mm; length: 40 mm; at: 120 mm from tip; clock: 180 deg }
    tube_fins set { count: 6; length: 40 mm; outer: 12 mm; inner: 11 mm; material: kraft_paper; at: 0 mm from tail }
    ring_fin hoop { length: 20 mm; outer: 90 mm; inner: 88 mm; material: kraft_paper; at: 5 mm from main.back }
  }
}
booster {
  tube last { length: 90 mm; outer: 34 mm; inner: 33 mm; material: kraft_paper
    mount second like engine { }
    streamer strip { length: 300 mm; width: 30 mm; mass: 2 g; at: 10 mm from joint.back }
  }
}
motor b8 {
  diameter: 18 mm; length: 70 mm; mass: 19 g; propellant: 5.6 g; delay: 4 s
  curve: [0 s: 0 N, 0.1 s: 14 N, 0.6 s: 0 N]
}
pad stand { rod { diameter: 3.2 mm; length: 1 m } }
flight go { motor: b8; booster_motor: b8; pad: stand; guided_by: [one] }
"#;

const FILES: &[(&str, &str)] = &[("fin.csv", "x [mm], y [mm]\n0, 0\n10, 20\n33, 0\n")];

fn value(found: &Analysis, name: &str) -> Option<f64> {
    found.design.values.iter().find(|(known, _)| known.value == name).map(|(_, value)| value.value)
}

#[test]
fn stations_are_where_the_parts_sit() {
    let plain = analysis_with(ALL, FILES);
    let of_words = plain.findings.iter().filter(|f| f.rule.starts_with("name/") || f.rule.starts_with("value/"));
    assert_eq!(of_words.map(|f| f.message.as_str()).collect::<Vec<_>>(), [""; 0]);
    // Of a part at several places the first counts.
    let first = |id: &usize| plain.design.parts[*id].copy.is_none_or(|(number, _)| number == 1);
    let named: Vec<usize> = (0..plain.design.parts.len()).filter(first).collect();
    let mut text = ALL.to_string();
    for id in &named {
        let name = &plain.design.parts[*id].name.as_ref().unwrap().value;
        text += &format!("let {name}_1 = {name}.begins\nlet {name}_2 = {name}.middle\nlet {name}_3 = {name}.ends\n");
    }
    let found = analysis_with(&(text + "let end = tail\n"), FILES);
    let mut kinds: Vec<&str> = Vec::new();
    for id in named {
        let part = &found.design.parts[id];
        let name = &part.name.as_ref().unwrap().value;
        let extent = found.assessment.airframe.extents[id].unwrap();
        for (point, expected) in [(1, extent.front), (2, extent.middle()), (3, extent.back)] {
            let said = value(&found, &format!("{name}_{point}")).unwrap_or(f64::NAN);
            assert!((said - expected).abs() < 1e-9, "{name}_{point}: {said} for {expected}");
        }
        kinds.push(part.word);
    }
    kinds.sort_unstable();
    kinds.dedup();
    let is_part = |block: &&BlockWord| !block.inside.iter().any(|home| matches!(*home, "" | "pad"));
    let mut all: Vec<&str> = BLOCKS.iter().filter(is_part).map(|block| block.word).collect();
    all.sort_unstable();
    assert_eq!(kinds, all);
    assert!((value(&found, "end").unwrap() - found.assessment.airframe.tail.unwrap()).abs() < 1e-12);
}

#[test]
fn a_word_that_two_blocks_have_names_neither() {
    let text = ALL.replace("fins main", "fins").replace("fins drawn", "fins") + "let end = fins.ends\n";
    let found = analysis_with(&text, FILES);
    let own = told(&found).into_iter().find(|f| f.message.contains("`fins`")).unwrap();
    assert_eq!(own.message, "there is more than one `fins` here, and none has a name");
    assert_eq!(own.help, "name the one that is meant: `fins main {`, and write `main`");
}

#[test]
fn a_station_that_hangs_on_its_own_outline_is_told_as_a_circle() {
    let text = ALL.replace("[5 mm: 0 mm, 20 mm: 30 mm, 35 mm: 0 mm]", "[5 mm: 0 mm, 20 mm: 30 mm, drawn.ends: 0 mm]");
    let found = analysis_with(&text, FILES);
    assert!(told(&found).iter().any(|f| f.rule == "name/circular-value"), "{:#?}", told(&found));
}

#[test]
fn a_field_that_a_part_takes_over_is_its_own_in_expressions_too() {
    let found = analysis_with(&format!("{ALL}let chord = twin.root\nlet wide = two.bore\n"), FILES);
    assert!((value(&found, "chord").unwrap() - 0.05).abs() < 1e-12);
    assert!((value(&found, "wide").unwrap() - 0.0036).abs() < 1e-12);
}
