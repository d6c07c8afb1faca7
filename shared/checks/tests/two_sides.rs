//! One rocket with lugs on one side and buttons on the other, and motors of which only the label is known.
#![allow(clippy::unwrap_used)]

use crate::support::analysis;
use finwright_assess::motor::motor;
use finwright_checks::example::BASE;
use finwright_checks::{Analysis, Level, Verdict};

fn replaced(pairs: &[(&str, &str)]) -> Analysis {
    let text = pairs.iter().fold(BASE.to_string(), |text, (old, new)| {
        assert!(text.contains(old), "{old}");
        text.replace(old, new)
    });
    analysis(&text)
}

fn guides(analysis: &Analysis, flight: &str) -> Vec<String> {
    let flight = analysis.design.flights.iter().find(|known| known.name.value == flight).unwrap();
    flight.guided_by.iter().map(|named| analysis.design.parts[named.value].label()).collect()
}

#[test]
fn a_flight_takes_the_set_that_runs_on_its_pad() {
    let unsaid = replaced(&[("; guided_by: [peg, nut]", ""), ("; guided_by: [aft, fore]", "")]);
    assert_eq!(guides(&unsaid, "slotted"), ["button nut", "button peg"]);
    // Three lugs in one line all run on the rod.
    assert_eq!(guides(&unsaid, "two"), ["lug only", "lug fore", "lug aft"]);
    let named = analysis(BASE);
    let exit = |analysis: &Analysis, flight: usize| {
        analysis.assessment.flights[flight].run.as_ref().unwrap().last().unwrap().speed
    };
    assert_eq!(exit(&unsaid, 2), exit(&named, 2));
    let told = finwright_assess::defaults::defaults(
        &unsaid.design,
        &unsaid.assessment.airframe,
        &unsaid.assessment.flights[2],
        None,
    );
    assert!(told.iter().any(|said| said == "held by button nut and button peg, which run on the pad"), "{told:?}");
}

#[test]
fn what_could_be_either_of_two_lines_isnt_guessed() {
    let apart = replaced(&[
        ("; guided_by: [aft, fore]", ""),
        ("at: 12 mm from back; clock: 60 deg", "at: 12 mm from back; clock: 240 deg"),
    ]);
    assert!(guides(&apart, "two").is_empty());
    let told = apart.findings.iter().find(|f| f.rule == "file/missing-field").unwrap();
    assert!(told.message.contains("flight two needs `guided_by`"), "{told:?}");
    // A lug far wider than the rod isn't taken for it.
    let wide = replaced(&[("; guided_by: [only]", ""), ("bore: 3.6 mm", "bore: 5 mm")]);
    assert!(guides(&wide, "one").is_empty());
}

#[test]
fn the_other_sides_guides_clear_the_rod_in_use() {
    let rule = "guide/unused-in-the-way";
    assert!(!analysis(BASE).findings.iter().any(|f| f.rule == rule));
    let beside = replaced(&[("at: 12 mm from back; clock: 180 deg", "at: 12 mm from back; clock: 70 deg")]);
    let found = beside.findings.iter().find(|f| f.rule == rule && f.level == Level::Error).unwrap();
    assert!(found.message.starts_with("button peg isn't in use and is in the way of stand's rod, "), "{found:?}");
    let unsaid = replaced(&[("at: 12 mm from back; clock: 180 deg", "at: 12 mm from back")]);
    let found = unsaid.findings.iter().find(|f| f.rule == rule).unwrap();
    assert_eq!(found.level, Level::Note);
    assert!(found.message.starts_with("whether button peg, which isn't in use, clears stand's rod"), "{found:?}");
}

/// By hand: across from a rod whose axis lies 12.4 + 0.3 + 1.8 = 14.5 mm off the rocket's, a button of a 15 mm rail at a
/// right angle is a circle of 3.75 mm around a point 12.4 + 3.75 = 16.15 mm off: √(14.5² + 16.15²) − 1.6 − 3.75 − 2 mm.
#[test]
fn the_room_beside_a_rod_by_hand() {
    let square = replaced(&[("clock: 180 deg", "clock: 150 deg")]);
    let clearance = square.assessment.flights[0].clearance.as_ref().unwrap();
    let room = clearance.unused.iter().filter_map(|unused| unused.room).fold(f64::INFINITY, f64::min);
    let by_hand = (14.5_f64.powi(2) + 16.15_f64.powi(2)).sqrt() - 1.6 - 3.75 - 2.0;
    assert!((room * 1e3 - by_hand).abs() < 1e-9, "{room} {by_hand}");
}

/// NFPA 1125: a B holds up to 5 N s, so a B8 pushes with 8 N for 0.625 s.
#[test]
fn a_motor_known_by_its_label() {
    let curve = "\n  curve: [0 s: 0 N, 0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N]";
    let labelled = replaced(&[(curve, ""), ("; delay: 4 s", "")]);
    let numbers = motor(&labelled.design.motors[0]).unwrap();
    assert!((numbers.impulse - 5.0).abs() < 1e-12 && (numbers.burn_time - 0.625).abs() < 6e-3, "{numbers:?}");
    assert_eq!((numbers.peak, numbers.delay), (8.0, Some(4.0)));
    let flight = &labelled.assessment.flights[0];
    assert!(flight.run.is_some() && labelled.flights[0].verdict == Verdict::LookAtIt, "{:?}", labelled.flights[0]);
    assert!(labelled.findings.iter().any(|f| f.rule == "motor/by-label"));
    let sd = |analysis: &Analysis| analysis.likely(0).unwrap().exit_speed_sd;
    assert!(sd(&labelled) > 2.0 * sd(&analysis(BASE)), "{} {}", sd(&labelled), sd(&analysis(BASE)));
    // Without its masses, or with a code that stands for nothing, nothing is guessed.
    for (old, new) in [("mass: 19 g; ", ""), ("B8-4", "Z8-4"), ("B8-4", "B-4")] {
        let unknown = replaced(&[(curve, ""), (old, new)]);
        assert_eq!(unknown.flights[0].verdict, Verdict::NotChecked, "{old} to {new}");
    }
}
