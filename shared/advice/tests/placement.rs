//! Where guides go, over every good design: what is placed passes the rules that speak of places.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis, corpus};
use finwright_advice::{place, Hardware, Placement};
use finwright_checks::example::BASE;
use finwright_checks::Settings;

/// Rules that speak of where a guide is. How fast the rocket leaves is the rod's affair.
const OF_PLACES: [&str; 11] = [
    "guide/starts-above",
    "guide/wrong-hardware",
    "guide/tight-fit",
    "guide/loose-fit",
    "guide/not-straddling",
    "guide/rear-too-far-forward",
    "guide/binds",
    "guide/not-in-line",
    "guide/fin-in-the-way",
    "guide/body-in-the-way",
    "guide/across-joint",
];

#[test]
fn what_is_placed_passes_the_rules_of_places() {
    let settings = Settings::default();
    let mut placed = 0;
    for (name, analysis) in corpus() {
        let design = &analysis.design;
        for (flight, _) in design.flights.iter().enumerate() {
            for pad in &design.pads {
                for hardware in [Hardware::OneLug, Hardware::TwoLugs, Hardware::TwoButtons] {
                    let Some(found) = place(design, &settings, flight, pad, hardware) else { continue };
                    placed += 1;
                    let supposed = analysis.judge_supposed(&found.supposed.design, &found.supposed.assessment, flight);
                    let faults = supposed.findings;
                    let of_places: Vec<_> =
                        faults.iter().filter(|f| OF_PLACES.contains(&f.rule)).map(|f| &f.message).collect();
                    assert!(of_places.is_empty(), "{name}, {hardware:?} on {}: {of_places:#?}", pad.name.value);
                    let expected = if hardware == Hardware::OneLug { 1 } else { 2 };
                    assert_eq!(found.guides.len(), expected, "{name}");
                }
            }
        }
    }
    assert!(placed >= 40, "{placed}");
}

fn base(hardware: Hardware, pad: usize) -> Placement {
    let analysis = analysis(BASE);
    place(&analysis.design, &Settings::default(), 0, &analysis.design.pads[pad], hardware).unwrap()
}

/// Common practice, no source: a lone lug goes at the balance point, with the motor in.
#[test]
fn one_lug_sits_at_the_balance_point_that_it_moves_itself() {
    let placed = base(Hardware::OneLug, 0);
    let balance = placed.supposed.numbers().unwrap().loaded().unwrap().x;
    assert!((placed.guides[0].station - balance).abs() < 1e-9);
}

/// Common practice, no source: of two guides the rear one goes near the aft end, the front one just ahead of the
/// balance point.
#[test]
fn two_guides_go_near_the_aft_end_and_just_ahead_of_the_balance_point() {
    // Lugs that stand at 60 degrees already would be in a rail's way, and buttons at 180 run in it.
    for (hardware, pad, half, clock) in [(Hardware::TwoLugs, 0, 0.0125, 60.0), (Hardware::TwoButtons, 1, 0.0, 180.0)] {
        let placed = base(hardware, pad);
        let balance = placed.supposed.numbers().unwrap().loaded().unwrap().x;
        let (front, rear) = (&placed.guides[0], &placed.guides[1]);
        assert!((balance - front.station - f64::max(half, 0.25 * 0.0248)).abs() < 1e-9, "{hardware:?}");
        assert!(rear.from_tail < 0.02 && rear.from_tail > half, "{hardware:?}: {}", rear.from_tail);
        assert!((placed.clock.unwrap().to_degrees() - clock).abs() < 1e-9);
    }
}

#[test]
fn a_wider_part_ahead_holds_the_guides_off() {
    let wide = BASE.replace(
        "nose { shape: ogive; length: 70 mm; base: caliber;",
        "nose { shape: ogive; length: 70 mm; base: 36 mm;",
    );
    let analysis = analysis(&wide);
    let design = &analysis.design;
    let placed = place(design, &Settings::default(), 0, &design.pads[0], Hardware::TwoLugs).unwrap();
    // Worked by hand: the nose's radius 18, clearance 2, the rod's radius 1.6 and play 0.2, less body 12.4 and half the
    // lug 1.8 + 0.4, make 7.2 mm; the next half millimetre is 7.5.
    assert!(placed.guides.iter().all(|g| (g.standoff - 7.5e-3).abs() < 1e-12), "{:?}", placed.guides);
    assert!(placed.reasons.iter().any(|r| r.contains("the widest part passes")), "{:?}", placed.reasons);
}

#[test]
fn on_a_body_of_two_widths_both_guides_are_in_one_line() {
    let stepped = BASE.replace(
        "  tube body {\n    length: 230 mm; outer: caliber;",
        "  tube payload { length: 90 mm; outer: 30 mm; inner: 29 mm; material: kraft_paper }\n  taper { length: 20 \
            mm; front: 30 mm; back: caliber; material: balsa }\n  tube body {\n    length: 230 mm; outer: caliber;",
    );
    let analysis = analysis(&stepped);
    let design = &analysis.design;
    let placed = place(design, &Settings::default(), 0, &design.pads[0], Hardware::TwoLugs).unwrap();
    let lines = placed.supposed.numbers().unwrap().clearance.clone().unwrap();
    let off = lines.guides[0].distance - lines.guides[1].distance;
    assert!(off.abs() <= 0.5e-3, "{off}");
    assert!(lines.body.is_none_or(|b| b.room > -1e-9));
}

#[test]
fn the_price_of_each_place_is_told() {
    let said = base(Hardware::TwoLugs, 0).reasons.join("\n");
    assert!(
        said.contains("further forward would still straddle") && said.contains("behind the centre of pressure"),
        "{said}"
    );
}
