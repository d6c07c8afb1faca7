//! Worked cases with numbers from outside: computed with mpmath and scipy, each by a second route. All rockets
//! invented.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::designs::ends;
use finwright_working::Quantity;

/// Five digits on the page: a unit of the fifth is as far as rounding may take the last step.
fn close(by_hand: f64, worked: f64) {
    assert!((by_hand / worked - 1.0).abs() < 1e-4, "{by_hand} isn't {worked}");
}

fn pressure(airframe: &str) -> (f64, f64) {
    let ends = ends(&format!("finwright 1\nairframe {{\n{airframe}\n}}\n"), Quantity::PressureCentre);
    (ends[0], ends[1])
}

/// Barrowman, 1967 (from memory). B1: tangent ogive and three fins, 17.673347 at 244.582608 mm; four fins instead lift
/// 20.897796.
#[test]
fn b1_ogive_and_trapezoidal_fins() {
    let with = |count: u32| {
        pressure(&format!(
            "nose {{ shape: ogive; length: 70 mm; base: 24.8 mm }}\ntube {{ length: 230 mm; outer: 24.8 mm; inner: 24 mm
             fins {{ count: {count}; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; at: 0 mm from back }}\n}}"
        ))
    };
    let (slope, station) = with(3);
    close(slope, 17.673347);
    close(station, 244.582608);
    close(with(4).0, 22.897796);
}

/// B1 without its nose: the flat front pushes with 2 at the tip, the fins as they do in B1, 21.666667 mm behind the
/// front of their roots (Barrowman), which begin 180 mm behind the front: 15.673347 × 201.666667 / 17.673347.
#[test]
fn b1_without_its_nose() {
    let (slope, station) = pressure(
        "tube { length: 230 mm; outer: 24.8 mm; inner: 24 mm
         fins { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; at: 0 mm from back }\n}",
    );
    close(slope, 17.673347);
    close(station, 15.673347 * 201.666667 / 17.673347);
}

/// A taper in front that widens from 20 mm to 24.8 mm: on its circle the front has 2 (20/24.8)², the cone the rest.
#[test]
fn a_flat_front_of_a_taper() {
    let (slope, station) = pressure(
        "taper { length: 40 mm; front: 20 mm; back: 24.8 mm }\ntube { length: 230 mm; outer: 24.8 mm; inner: 24 mm }",
    );
    close(slope, 2.0);
    let (ahead, ratio) = ((20.0_f64 / 24.8).powi(2), 20.0 / 24.8);
    close(station, (1.0 - ahead) * 40.0 / 3.0 * (1.0 + 1.0 / (1.0 + ratio)));
}

/// B2: cone, four fins, boat-tail: 11.005193 at 652.704049 mm.
#[test]
fn b2_cone_and_boat_tail() {
    let (slope, station) = pressure(
        "nose { shape: cone; length: 150 mm; base: 54 mm }\ntube { length: 700 mm; outer: 54 mm; inner: 52 mm
         fins { count: 4; root: 110 mm; tip: 60 mm; span: 55 mm; sweep: 50 mm; at: 0 mm from back }\n}
         taper { length: 50 mm; front: 54 mm; back: 40 mm }",
    );
    close(slope, 11.005193);
    close(station, 652.704049);
}

/// B3: half ellipsoid, shoulder, fins on the wider body, on the 66 mm circle: 13.595491 at 674.769520 mm.
#[test]
fn b3_ellipsoid_and_shoulder() {
    let (slope, station) = pressure(
        "nose { shape: ellipsoid; length: 80 mm; base: 41.6 mm }\ntube { length: 250 mm; outer: 41.6 mm; inner: 40 mm }
         taper { length: 60 mm; front: 41.6 mm; back: 66 mm }\ntube { length: 430 mm; outer: 66 mm; inner: 64 mm
         fins { count: 4; root: 120 mm; tip: 70 mm; span: 75 mm; sweep: 60 mm; at: 0 mm from back }\n}",
    );
    close(slope, 13.595491);
    close(station, 674.769520);
}

/// B4: three elliptical fins lift 9.124589 and act 17.267605 mm behind the root's front.
#[test]
fn b4_elliptical_fins() {
    let (slope, station) = pressure(
        "nose { shape: cone; length: 90 mm; base: 41.6 mm }\ntube { length: 210 mm; outer: 41.6 mm; inner: 40 mm
         fins { plan: ellipse; count: 3; root: 60 mm; span: 50 mm; at: 0 mm from back }\n}",
    );
    close(slope, 2.0 + 9.124589);
    close(station, (2.0 * 60.0 + 9.124589 * (240.0 + 17.267605)) / 11.124589);
}

/// R1's solid nose, tube, fins, mount and motor: 39.957488 g at 216.144654 mm, 33.957488 g at 207.512329 mm when burnt;
/// margins 1.146692 and 1.494769 calibres.
const R1: &str = "finwright 1
material light { density: 160 kg/m3 }
material card { density: 680 kg/m3 }
airframe {
  nose { shape: ogive; length: 70 mm; base: 24.8 mm; material: light }
  tube {
    length: 230 mm; outer: 24.8 mm; inner: 24 mm; material: card
    fins { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; thickness: 1.6 mm; material: light; at: 0 mm from back }
    mount { bore: 18 mm; outer: 18.8 mm; length: 65 mm; sticks_out: 0 mm; material: card }
    ballast { mass: 6 g; at: 105 mm from tip }
  }
}
motor m { diameter: 18 mm; length: 70 mm; mass: 24 g; propellant: 6 g; curve: [0 s: 8 N, 0.6 s: 8 N] }
flight f { motor: m }
";

#[test]
fn r1_mass_balance_and_margin() {
    let balance = ends(R1, Quantity::Balance);
    for (by_hand, worked) in balance.into_iter().zip([39.957488, 216.144654, 33.957488, 207.512329]) {
        close(by_hand, worked);
    }
    let margin = ends(R1, Quantity::Margin);
    assert!((margin[0] - 1.146692).abs() < 1e-3 && (margin[1] - 1.494769).abs() < 1e-3, "{margin:?}");
}

/// A rocket of a mass and travel, whose propellant weighs nothing to speak of.
fn guided(grams: f64, travel: f64, curve: &str, pad: &str) -> f64 {
    let text = format!(
        "finwright 1
airframe {{
  nose {{ shape: cone; length: 100 mm; base: 54 mm; mass: 1 g; balance: 60 mm from front }}
  tube {{
    length: 500 mm; outer: 54 mm; inner: 52 mm; mass: {body} g
    fins {{ count: 3; root: 90 mm; tip: 60 mm; span: 70 mm; sweep: 40 mm; thickness: 2 mm; mass: 1 g; at: 0 mm from back }}
    mount {{ bore: 24 mm; outer: 25 mm; length: 70 mm; sticks_out: 0 mm; mass: 1 g }}
    lug {{ bore: 7 mm; length: 50 mm; wall: 0.4 mm; mass: 1 g; at: 25 mm from back; clock: 60 deg }}
  }}
}}
motor m {{ diameter: 24 mm; length: 70 mm; mass: 10 g; propellant: 0.00001 g; curve: {curve} }}
pad p {{ rod {{ diameter: 6.35 mm; length: {travel} m; material: steel }}; {pad} }}
flight f {{ motor: m; pad: p; guided_by: [lug] }}
",
        body = grams - 14.0
    );
    ends(&text, Quantity::ExitSpeed)[0]
}

/// Constant mass and thrust, no drag: v = √(2 a s). G1 9.505158, G2 10.975611 upright and 10.960992 at 5° with μ 0.2,
/// G3 15.081116; a thrust that rises for 0.2 s and then holds, 11.844386, and one that rises all the way, 9.000000.
#[test]
fn g_exit_speeds() {
    let upright = "friction: 0";
    for (grams, travel, curve, pad, speed) in [
        (100.0, 0.9, "[0 s: 6 N, 1 s: 6 N]", upright, 9.505158),
        (500.0, 1.2, "[0 s: 30 N, 1 s: 30 N]", upright, 10.975611),
        (500.0, 1.2, "[0 s: 30 N, 1 s: 30 N]", "friction: 0.2; tilt: 5 deg", 10.960992),
        (3000.0, 2.0, "[0 s: 200 N, 1 s: 200 N]", upright, 15.081116),
        (100.0, 0.9, "[0 s: 0 N, 0.2 s: 10 N, 1 s: 10 N]", upright, 11.844386),
        (100.0, 0.9, "[0 s: 0 N, 0.5 s: 10 N, 1 s: 10 N]", upright, 9.0),
    ] {
        let by_hand = guided(grams, travel, curve, pad);
        assert!((by_hand / speed - 1.0).abs() < 3e-4, "{by_hand} isn't {speed}: {curve} {pad}");
    }
}

/// A motor that is out before the end: v² = 2 (T/m - g) s1 - 2 g (s - s1), s1 the way under thrust.
#[test]
fn a_coast_to_the_end() {
    let a: f64 = 60.0 - 9.80665;
    let (speed, way) = (a * 0.1, 0.5 * a * 0.01);
    let expected = (speed * speed - 2.0 * 9.80665 * (1.0 - way)).sqrt();
    let by_hand = guided(100.0, 1.0, "[0 s: 6 N, 0.1 s: 6 N]", "friction: 0");
    assert!((by_hand / expected - 1.0).abs() < 3e-4, "{by_hand} isn't {expected}");
}
