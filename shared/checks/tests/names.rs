//! A name is looked up among its own kind: things of different kinds that have one name between them never meet.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis, designs, expect, sound_but, sound_with, SOUND};

/// The sound design with values that hang on a part's field, on stations, on the balance point and on likeness.
fn design() -> String {
    sound_with(&[
        ("cord { length: 600 mm", "cord { length: body.length * 2.6"),
        ("at: 20 mm ahead of balance", "at: balance - 20 mm from tip"),
        (
            "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back",
            "lug aft like fore { at: tail - 12 mm from tip",
        ),
        ("at: 60 mm from front", "at: body.begins + 60 mm from tip"),
        (
            "streamer { length: 500 mm; width: 50 mm; mass: 3 g; at: 40 mm from front",
            "streamer { length: 500 mm; width: 50 mm; mass: 3 g; at: 40 mm from body.front",
        ),
    ])
}

/// Motor, pad and flight called by each other name of the file, by names that mean a place and by words of the language;
/// and standing before everything else, where a search that asks for no kind meets them first.
#[test]
fn motors_pads_and_flights_called_like_something_else() {
    let sound = analysis(&design());
    assert!(sound.findings.is_empty(), "{:#?}", sound.findings);
    // Balance, margins and guides, and with them all that follows, hang on every value of the file.
    let numbers = |analysis: &finwright_checks::Analysis| -> Vec<_> {
        let flights = analysis.assessment.flights.iter();
        flights.map(|of| (of.loaded().map(|loaded| loaded.x), of.margins, of.guides().to_vec())).collect()
    };
    let known = numbers(&sound);
    assert!(known
        .iter()
        .all(|(balance, margins, guides)| balance.is_some() && margins.is_some() && !guides.is_empty()));
    for name in [
        "balance", "tail", "caliber", "main", "only", "fore", "aft", "airframe", "booster", "front", "cord", "nose",
        "begins", "mm", "steel", "delay",
    ] {
        for (old, word) in [("a5", "motor"), ("stand", "pad"), ("one", "flight")] {
            let renamed = design().replace(&format!(" {old}"), &format!(" {name}"));
            let block_start = renamed.find(&format!("\n{word} {name}")).unwrap() + 1;
            let block_end = renamed[block_start..].find("}\n").unwrap() + block_start + 2;
            let block = &renamed[block_start..block_end];
            let first = renamed.replace(block, "").replace("finwright 1\n", &format!("finwright 1\n{block}"));
            for text in [&renamed, &first] {
                let found = analysis(text);
                assert!(found.findings.is_empty(), "{word} {name}: {:#?}", found.findings);
                assert_eq!(numbers(&found), known, "{word} {name}");
            }
        }
    }
}

#[test]
fn a_value_called_like_a_part() {
    let text = sound_with(&[
        ("let caliber = 24.8 mm", "let caliber = 24.8 mm\nlet body = 12 mm"),
        ("cord { length: 600 mm", "cord { length: body.length * 2.6"),
        (
            "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back",
            "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: body from back",
        ),
    ]);
    let found = analysis(&text);
    assert!(found.findings.is_empty(), "{:#?}", found.findings);
}

#[test]
fn a_field_that_two_kinds_have() {
    let said = "`engine` is a part and a motor here, and `length` could be either's";
    let text = sound_but("cord { length: 600 mm", "cord { length: «engine».length * 9").replace(" a5", " engine");
    expect(&text, &[("name/unknown-name", said)]);
    // Only a mount has a bore, only a motor a propellant.
    for length in ["engine.bore * 35", "engine.propellant / 3.3 g * 600 mm"] {
        let text =
            SOUND.replace("cord { length: 600 mm", &format!("cord {{ length: {length}")).replace(" a5", " engine");
        let found = analysis(&text);
        assert!(found.findings.is_empty(), "{length}: {:#?}", found.findings);
    }
}

#[test]
fn names_that_stand_for_something_already() {
    for (name, meant) in [("balance", "the balance point"), ("tail", "the rocket's aft end")] {
        let text = sound_but("let caliber = 24.8 mm", &format!("let caliber = 24.8 mm\nlet «{name}» = 30 mm"));
        expect(&text, &[("name/repeated-name", &format!("`{name}` is {meant} already, wherever it stands"))]);
    }
}

#[test]
fn something_that_is_no_place() {
    for (name, what) in [("a5", "a motor"), ("stand", "a pad"), ("main", "a part")] {
        let text = sound_but("at: 12 mm from back; clock: 60 deg", &format!("at: «{name}»; clock: 60 deg"));
        let said = format!("`at` takes how far and from where, and `{name}` is {what}");
        expect(&text, &[("value/wrong-form", &said)]);
    }
}

/// A material is the one of that name, a file's or a built-in one, before a density that has it.
#[test]
fn a_density_called_by_its_name() {
    let nose = |text: &str| analysis(text).assessment.airframe.weights[0].clone().unwrap().own.mass;
    let basswood = "base: caliber; material: basswood";
    let by_number = nose(&sound_but(basswood, "base: caliber; material: 160 kg/m3"));
    let with = |name: &str| {
        let value = format!("let caliber = 24.8 mm\nlet {name} = 160 kg/m3");
        sound_with(&[("let caliber = 24.8 mm", &value), (basswood, &format!("base: caliber; material: {name}"))])
    };
    assert_eq!(nose(&with("rho")), by_number);
    assert_eq!(nose(&with("basswood")), nose(SOUND));
    let both = format!("{}\nmaterial rho {{ density: 80 kg/m3 }}\n", with("rho"));
    assert_eq!(nose(&both), by_number / 2.0);
    let length = with("rho").replace("let rho = 160 kg/m3", "let rho = 160 mm");
    let said = analysis(&length).findings.first().unwrap().message.clone();
    assert!(said.contains("is a length") && said.contains("density"), "{said}");
}

/// Where the rocket ends is asked of the stages, not of what is called like one.
#[test]
fn a_motor_called_booster() {
    let path = designs("good").into_iter().find(|path| path.ends_with("two_stage.finw")).unwrap();
    let two = std::fs::read_to_string(path).unwrap();
    let tube = two.find("booster {").and_then(|at| Some(at + two[at..].find("tube ")?)).unwrap();
    let inside = tube + two[tube..].find('{').unwrap() + 1;
    let (before, after) = two.split_at(inside);
    let sound = format!("{before} ballast {{ mass: 1 g; at: tail - 30 mm from tip }}{after}");
    let balance = |text: &str| analysis(text).assessment.flights[0].loaded().unwrap().x;
    let called = sound.replace("motor c13 {", "motor booster {").replace("motor: c13", "motor: booster");
    assert_ne!(called, sound);
    let block = &called[called.find("motor booster {").unwrap()..];
    let block = &block[..block.find("\n}\n").unwrap() + 3];
    let first = called.replace(block, "").replace("airframe {", &format!("{block}airframe {{"));
    assert_eq!(balance(&first), balance(&sound));
}
