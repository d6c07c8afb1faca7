//! Rings and tubes in place of fins: where their lift acts, what the wind sees of them, whose friction theirs is.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assessed, but};
use finwright_physics::aerodynamics::Drag;
use std::f64::consts::PI;

/// Six tubes around the tail. Invented.
const TUBES: &str = r#"finwright 1
airframe {
  nose { shape: ellipsoid; length: 80 mm; base: 40 mm; mass: 13 g }
  tube body {
    length: 520 mm; outer: 40 mm; inner: 39 mm; mass: 50 g
    tube_fins { count: 6; length: 80 mm; outer: 40 mm; inner: 39 mm; mass: 24 g; at: 0 mm from back }
    mount { bore: 24 mm; outer: 25 mm; length: 95 mm; mass: 5 g }
    lug only { bore: 5.2 mm; length: 50 mm; wall: 0.4 mm; mass: 0.000001 g; at: 300 mm from tip; clock: 30 deg }
  }
}
motor even { diameter: 24 mm; length: 95 mm; mass: 62 g; propellant: 24 g; delay: 5 s; curve: [0 s: 20 N, 1.2 s: 20 N] }
pad stand { rod { diameter: 4.8 mm; length: 1.2 m; material: steel }; stop: 50 mm }
flight one { motor: even; pad: stand; guided_by: [only] }
"#;

/// The quarter chord had given a margin of 1.41 calibres; a ring as short as 0.49 of its chord has its lift at 0.25
/// A/√(1 + A²), 0.11 of the chord behind its front, which leaves 1.15.
#[test]
fn the_margin_of_tube_fins() {
    let (_, assessment) = assessed(TUBES);
    let (airflow, flight) = (assessment.airframe.airflow.as_ref().unwrap(), &assessment.flights[0]);
    // Nose: 2 at a third of its length. Tubes: slope 24.9 (ring_wing::slope), the chord from 520 mm on.
    let aspect: f64 = 0.0395 / 0.08;
    let own = 2.0 * PI * PI * aspect / (PI + (PI * PI + 4.0 * aspect * aspect).sqrt());
    let tubes = 6.0 * own * 0.0395 * 0.08 / (PI * 0.02 * 0.02);
    let margin = |share: f64| {
        let x = (2.0 * 0.08 / 3.0 + tubes * (0.52 + share * 0.08)) / (2.0 + tubes);
        (x - flight.loaded().unwrap().x) / 0.04
    };
    assert_close(airflow.total.cna, 2.0 + tubes, 1e-9);
    assert_close(flight.margin().unwrap(), margin(0.25 * aspect / (1.0 + aspect * aspect).sqrt()), 1e-9);
    assert_close(margin(0.25), 1.41, 3e-3);
    assert_close(flight.margin().unwrap(), 1.15, 5e-3);
}

/// The wind on the pad pushes on what stands out beside the body: two tubes' worth on either side, a ring less the body
/// in it.
#[test]
fn the_side_view() {
    let (_, with) = assessed(TUBES);
    let with = with.airframe.airflow.as_ref().unwrap();
    let body = PI / 4.0 * 0.08 * 0.04 + 0.52 * 0.04;
    assert_close(with.side_area, body + 2.0 * 0.04 * 0.08, 1e-9);
    let moment =
        PI / 4.0 * 0.08 * 0.04 * 0.08 * (1.0 - 4.0 / (3.0 * PI)) + 0.52 * 0.04 * 0.34 + 2.0 * 0.04 * 0.08 * 0.56;
    assert_close(with.side_centroid, moment / with.side_area, 1e-9);
    let old = "tube_fins { count: 6; length: 80 mm; outer: 40 mm; inner: 39 mm; mass: 24 g; at: 0 mm from back }";
    let ring = "ring_fin { length: 80 mm; outer: 90 mm; inner: 88 mm; mass: 24 g; at: 0 mm from back }";
    let (_, ring) = assessed(&but(TUBES, old, ring));
    assert_close(ring.airframe.airflow.as_ref().unwrap().side_area, body + 0.05 * 0.08, 1e-9);
}

/// Their friction is a fin's: on their own chord, not on the body's length, and among the fins'.
#[test]
fn the_friction() {
    let (_, assessment) = assessed(TUBES);
    let airflow = assessment.airframe.airflow.as_ref().unwrap();
    let Drag::BuildUp(model) = &airflow.aerodynamics.drag else { unreachable!() };
    assert_eq!((model.skin.len(), model.rings.len()), (2, 1));
    assert_close(model.rings[0].area, 6.0 * PI * (0.04 + 0.039) * 0.08, 1e-12);
    let air = finwright_physics::air::standard(0.0);
    let terms = model.terms(100.0, &air, false);
    let rough = 0.032 * (20e-6f64 / 0.08).powf(0.2) * (1.0 - 0.1 * (100.0 / air.sound_speed).powi(2));
    let form = 1.0 + 2.0 * 0.0005 / 0.08;
    assert_close(terms.fin_friction, form * model.rings[0].area * rough / airflow.reference_area, 1e-9);
}
