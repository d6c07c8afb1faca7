//! Two lugs on a rod, two buttons in a rail: statics and geometry by hand.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assessed, but, R1};
use finwright_assess::{needed, Assumed, Needed, Needs};
use finwright_physics::air::G0;

fn with_two(word: &str, measures: &str) -> String {
    let lug =
        "    lug only { bore: 3.6 mm; length: 30 mm; wall: 0.3 mm; mass: 0.000001 g; at: balance; clock: 60 deg }\n";
    let two = format!(
        "    {word} aft {{ {measures}; mass: 0.000001 g; at: 15 mm from back; clock: 60 deg }}\n    \
         {word} fore {{ {measures}; mass: 0.000001 g; at: 150 mm from tip; clock: 60 deg }}\n"
    );
    but(&but(R1, lug, &two), "[only]", "[fore, aft]")
}

/// Hung level, the two carry the weight m g at the balance point: F (x_cg - x_f) = A (x_a - x_cg), F + A = m g. In the
/// wind the same with the side force at the side view's centroid added to the weight's share at the tilt.
#[test]
fn loads_of_two_lugs() {
    let (_, assessment) = assessed(&with_two("lug", "bore: 3.6 mm; length: 20 mm; wall: 0.3 mm"));
    let n = &assessment.flights[0];
    let (loads, loaded) = (n.loads.as_ref().unwrap(), n.loaded().unwrap());
    let (front, aft) = (0.150, 0.285);
    let share = |force: f64, x: f64| (force * (aft - x) / (aft - front), force * (x - front) / (aft - front));
    let (level_front, level_aft) = share(loaded.mass * G0, loaded.x);
    assert_close(loads.guides[0].level, level_front, 1e-9);
    assert_close(loads.guides[1].level, level_aft, 1e-9);
    let airflow = assessment.airframe.airflow.as_ref().unwrap();
    let push = 0.5 * n.air.unwrap().density * 8.94 * 8.94 * 1.2 * airflow.side_area;
    let by_weight = share(loaded.mass * G0 * 5f64.to_radians().sin(), loaded.x);
    let by_gust = share(push, airflow.side_centroid);
    assert_close(loads.guides[0].pad_gust, (by_weight.0 + by_gust.0).abs(), 1e-9);
    assert_close(loads.guides[1].pad_gust, (by_weight.1 + by_gust.1).abs(), 1e-9);
    // From the front lug's front edge, 140 mm, to the rear one's back edge, 295 mm.
    assert_close(loads.spacing, 0.155, 1e-9);
    assert_close(loads.slop.unwrap(), (0.425_f64 / 155.0).atan(), 1e-9);
    // Half of 4.2 mm wide and 20 mm long, at the default 0.3 MPa.
    assert_close(loads.guides[0].capacity.unwrap(), 0.3e6 * 2.1e-3 * 20e-3, 1e-9);
}

/// A button's screw in a wall of 0.4 mm: shear around the 5.5 mm mouth's circle at the default 4 MPa. The rail is as
/// the catalogue says, and every default is named.
#[test]
fn buttons_in_a_rail() {
    let text = with_two("button", "profile: 20 mm");
    let text =
        but(&text, "rod { diameter: 1/8 in; length: 0.9144 m; material: steel }", "rail { slot: mini; length: 1 m }");
    let (_, assessment) = assessed(&text);
    let n = &assessment.flights[0];
    let loads = n.loads.as_ref().unwrap();
    assert_close(loads.guides[1].capacity.unwrap(), 4e6 * std::f64::consts::PI * 5.5e-3 * 0.4e-3, 1e-9);
    assert_close(loads.spacing, 0.135, 1e-9);
    assert_close(loads.slop.unwrap(), (0.4_f64 / 135.0).atan(), 1e-9);
    // Radius 12.4 mm and half the mouth.
    assert_close(loads.offset, 12.4e-3 + 2.75e-3, 1e-9);
    let stiffness = n.stiffness.as_ref().unwrap();
    assert_close(stiffness.beam.stiffness(), 68.9e9 * 7000e-12, 1e-9);
    assert_close(stiffness.beam.mass_per_length, 2700.0 * 0.45 * 0.02 * 0.02, 1e-9);
    let usual = |one: &Assumed| matches!(one, Assumed::SectionStiffness(_) | Assumed::SolidShare);
    assert_eq!(stiffness.assumed.iter().filter(|one| usual(one)).count(), 2, "{:?}", stiffness.assumed);
    assert_eq!(loads.assumed, [Assumed::SlotPlay, Assumed::WallStrength]);
}

/// A rod of a material without a stiffness has no lean, and that is said.
#[test]
fn no_stiffness() {
    let (design, assessment) =
        assessed(&but(R1, "length: 0.9144 m; material: steel", "length: 0.9144 m; material: paper"));
    let n = &assessment.flights[0];
    assert!(n.stiffness.is_none());
    let paper = design.materials.iter().position(|m| m.name.value == "paper").unwrap();
    assert!(n.unknown.iter().any(|u| u.needs == Needs::OfMaterial("stiffness", paper)), "{:?}", n.unknown);
    assert_eq!(needed::open(&design, &assessment.airframe, n), [Needed::Lean]);
}
