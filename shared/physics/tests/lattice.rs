//! The vortex lattice: limits that theory knows, a finer lattice, and Barrowman's method beside it.
//!
//! [theory] published results, from memory; [lattice] a second lattice in numpy, tests/reference/outside/lattice.py, 32
//! strips by 16 rows: written apart from this one, the same method.
#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use crate::common::{assert_close, assert_near};
use finwright_physics::fins::{FinError, FinShape};
use finwright_physics::lattice::{lift, LatticeError, LatticeLift};
use finwright_physics::normal_force::{total, FinCountRule, FinSet, NormalForce};

fn trapezoid((root, tip, span, sweep): (f64, f64, f64, f64)) -> FinShape {
    FinShape::Trapezoid { root, tip, span, sweep }
}

/// Root, tip, span, sweep.
type Sizes = (f64, f64, f64, f64);

/// [lattice] Number of fins and body radius; slope and centre of the fins and of what they put on the body, on the
/// body's own circle, in mm behind the root's leading edge.
#[rustfmt::skip]
const FINE: [(Sizes, u32, f64, [f64; 4]); 12] = [
        ((50.0, 30.0, 40.0, 25.0), 3, 12.4, [15.4205, 19.664, 4.3446, 16.588]),
        ((70.0, 40.0, 48.0, 38.0), 3, 20.8, [8.5761, 28.513, 3.0198, 24.600]),
        ((180.0, 75.0, 85.0, 90.0), 3, 38.0, [8.6744, 66.487, 3.1284, 58.266]),
        ((120.0, 0.0, 80.0, 120.0), 3, 30.0, [8.8217, 67.627, 2.9621, 55.023]),
        ((60.0, 60.0, 60.0, 0.0), 4, 20.0, [17.2986, 12.339, 5.1102, 12.397]),
        ((60.0, 20.0, 120.0, 80.0), 3, 20.0, [27.4735, 44.448, 4.9022, 28.603]),
        ((60.0, 30.0, 40.0, -20.0), 4, 20.0, [8.1765, 1.226, 3.2236, 3.895]),
        ((90.0, 45.0, 45.0, 45.0), 6, 25.0, [9.9929, 32.850, 4.0497, 28.797]),
        ((90.0, 45.0, 45.0, 45.0), 8, 25.0, [11.5453, 32.219, 4.6177, 27.916]),
        ((200.0, 150.0, 40.0, 50.0), 4, 20.0, [10.1319, 42.057, 3.8931, 37.710]),
        ((300.0, 250.0, 60.0, 40.0), 4, 25.0, [14.1948, 44.857, 4.8669, 40.980]),
        ((40.0, 30.0, 20.0, 10.0), 4, 50.0, [0.4929, 10.588, 0.3701, 10.332]),
];

fn both(lift: &LatticeLift) -> NormalForce {
    total([lift.fins, lift.body])
}

#[test]
fn as_a_finer_lattice() {
    for (sizes, count, radius, [fins, fins_x, body, body_x]) in FINE {
        let got = lift(&trapezoid(sizes), count, radius, 0.0, 1000.0, PI * radius * radius).unwrap();
        assert_close(got.fins.cna, fins, 0.012);
        assert_close(got.body.cna, body, 0.02);
        let whole = (fins * fins_x + body * body_x) / (fins + body);
        assert_close(both(&got).cna, fins + body, 0.012);
        // A fiftieth of a calibre.
        assert_near(got.fins.x().unwrap() - 1000.0, fins_x, 0.02 * 2.0 * radius);
        assert_near(both(&got).x().unwrap() - 1000.0, whole, 0.02 * 2.0 * radius);
    }
}

/// [theory] A circular wing: 1.790 a radian on its own area (Jordan 1973).
#[test]
fn circular_wing() {
    let half = FinShape::Ellipse { root: 2.0, span: 1.0 };
    let wing = lift(&half, 2, 0.0, 0.0, 0.0, PI).unwrap();
    assert_close(wing.fins.cna, 1.790, 0.002);
    assert_eq!(wing.body.cna, 0.0);
}

/// [theory] Slender bodies: the fins have K_W times the lift of both put together without a body, and with the body's
/// share (1 + R/s)² of it (NACA Report 1307, 1957). At R/s = 1/2: 1.450 and 2.250.
#[test]
fn slender_fins_on_a_body() {
    let length = 200.0;
    let delta = |span: f64| trapezoid((length, 0.0, span, length));
    for ratio in [0.2, 0.5, 0.8] {
        let span = 1.0 - ratio;
        let alone = lift(&delta(span), 2, 0.0, 0.0, 0.0, 1.0).unwrap().fins.cna;
        let here = lift(&delta(span), 2, ratio, 0.0, 0.0, 1.0).unwrap();
        let (k, s) = (ratio, 1.0 / ratio);
        let around = (1.0 + k.powi(4)) * (0.5 * (0.5 * (s - k)).atan() + PI / 4.0);
        let inside = k * k * ((s - k) + 2.0 * k.atan());
        let on_fins = 2.0 / PI / (span * span) * (around - inside);
        assert_close(here.fins.cna / alone, on_fins, 0.01);
        assert_close(both(&here).cna / alone, (1.0 + ratio) * (1.0 + ratio), 0.01);
    }
}

/// Four fins lift as a pair and an idle pair across it do, but for what they do to each other: none, by symmetry.
#[test]
fn a_cross_is_a_pair() {
    let shape = trapezoid((70.0, 40.0, 48.0, 38.0));
    let pair = lift(&shape, 2, 20.8, 0.0, 0.0, 1.0).unwrap();
    let cross = lift(&shape, 4, 20.8, 0.0, 0.0, 1.0).unwrap();
    assert_close(cross.fins.cna, pair.fins.cna, 1e-12);
    assert_close(both(&cross).moment, both(&pair).moment, 1e-12);
}

/// All lengths times k leave the slope and scale the centre.
#[test]
fn scaling() {
    let of = |k: f64| {
        let shape = trapezoid((70.0 * k, 40.0 * k, 48.0 * k, 38.0 * k));
        lift(&shape, 3, 20.8 * k, 0.5, 500.0 * k, k * k).unwrap()
    };
    for k in [1e-3, 7.0] {
        assert_close(both(&of(k)).cna, both(&of(1.0)).cna, 1e-9);
        assert_close(both(&of(k)).x().unwrap(), k * both(&of(1.0)).x().unwrap(), 1e-9);
    }
}

/// An outline with the trapezoid's corners is that trapezoid; one of many corners is the ellipse.
#[test]
fn outlines() {
    let drawn = FinShape::Outline(vec![(0.0, 0.0), (38.0, 48.0), (78.0, 48.0), (70.0, 0.0)]);
    let one = lift(&drawn, 3, 20.8, 0.3, 0.0, 1.0).unwrap();
    let same = lift(&trapezoid((70.0, 40.0, 48.0, 38.0)), 3, 20.8, 0.3, 0.0, 1.0).unwrap();
    assert_close(both(&one).cna, both(&same).cna, 1e-6);
    assert_close(both(&one).moment, both(&same).moment, 1e-6);
    let corner = |i: u32| {
        let angle = PI * f64::from(i) / 400.0;
        (30.0 - 30.0 * angle.cos(), 50.0 * angle.sin())
    };
    let mut corners: Vec<(f64, f64)> = (0..=400).map(corner).collect();
    corners[400].1 = 0.0;
    let many = lift(&FinShape::Outline(corners), 3, 20.8, 0.0, 0.0, 1.0).unwrap();
    let ellipse = lift(&FinShape::Ellipse { root: 60.0, span: 50.0 }, 3, 20.8, 0.0, 0.0, 1.0).unwrap();
    assert_close(both(&many).cna, both(&ellipse).cna, 2e-4);
    assert_close(both(&many).moment, both(&ellipse).moment, 2e-3);
}

/// How a fin's slope grows up to Mach 0.8: Lowry & Polhamus' form stays within −4.3 to 0 % of the stretched lattice.
#[test]
fn growth_with_mach_number() {
    let shapes = FINE.map(|(sizes, ..)| sizes);
    for sizes in shapes.into_iter().chain([(60.0, 30.0, 120.0, 140.0), (40.0, 40.0, 120.0, 60.0)]) {
        let shape = trapezoid(sizes);
        let fin = shape.geometry().unwrap();
        let set = FinSet { fin, count: 2, body_radius: 20.0, x: 0.0, rule: FinCountRule::Multiplier };
        let formula = |mach: f64| FinSet { count: 4, ..set }.lift(mach, 1.0).unwrap().force.cna;
        let by_lattice = |mach: f64| lift(&shape, 2, 0.0, mach, 0.0, 1.0).unwrap().fins.cna;
        let off = formula(0.8) / formula(0.0) / (by_lattice(0.8) / by_lattice(0.0)) - 1.0;
        assert!((-0.045..=0.002).contains(&off), "{sizes:?}: {off}");
    }
}

/// Barrowman beside it on ordinary fins of three or four: the fins' own slope is a little high, the sum a fifth low for
/// want of the lift on the body.
#[test]
fn barrowman_beside_it() {
    for (sizes, count, radius, _) in &FINE[..7] {
        let fin = trapezoid(*sizes).geometry().unwrap();
        let set = FinSet { fin, count: *count, body_radius: *radius, x: 0.0, rule: FinCountRule::Multiplier };
        let barrowman = set.lift(0.0, 1.0).unwrap().force;
        let lattice = lift(&trapezoid(*sizes), *count, *radius, 0.0, 0.0, 1.0).unwrap();
        let of_fins = barrowman.cna / lattice.fins.cna - 1.0;
        assert!((-0.01..0.09).contains(&of_fins), "{sizes:?}: {of_fins}");
        let of_both = barrowman.cna / both(&lattice).cna - 1.0;
        assert!((-0.28..-0.14).contains(&of_both), "{sizes:?}: {of_both}");
    }
}

#[test]
fn impossible_fins_are_errors() {
    let shape = trapezoid((70.0, 40.0, 48.0, 38.0));
    assert_eq!(lift(&shape, 0, 20.0, 0.0, 0.0, 1.0), Err(LatticeError::NoFins));
    assert_eq!(lift(&shape, 3, -1.0, 0.0, 0.0, 1.0), Err(LatticeError::BodyRadius(-1.0)));
    let flat = trapezoid((70.0, 40.0, 0.0, 38.0));
    assert_eq!(lift(&flat, 3, 20.0, 0.0, 0.0, 1.0), Err(LatticeError::Shape(FinError::Size(0.0))));
    // Above Mach 0.8 it is held there, as Barrowman's.
    let held = lift(&shape, 3, 20.0, 1.3, 0.0, 1.0);
    assert_eq!(held, lift(&shape, 3, 20.0, 0.8, 0.0, 1.0));
}

/// Shapes that nobody would fly are an error or finite numbers.
#[test]
fn odd_shapes() {
    let touching = FinShape::Outline(vec![(0.0, 0.0), (10.0, 5.0), (20.0, 0.1), (30.0, 5.0), (40.0, 0.0)]);
    for shape in [
        touching,
        trapezoid((1.0, 0.0, 1e4, 0.0)),
        trapezoid((1e4, 1.0, 1e-3, -1e4)),
        trapezoid((1.0, 500.0, 20.0, -250.0)),
        FinShape::Outline(vec![(0.0, 0.0), (-50.0, 20.0), (80.0, 20.0), (0.0, 0.0)]),
    ] {
        for count in [1, 3, 8, 40] {
            match lift(&shape, count, 10.0, 0.4, 100.0, 1.0) {
                Ok(lift) => {
                    assert!(both(&lift).cna.is_finite() && both(&lift).moment.is_finite(), "{shape:?} {lift:?}")
                }
                Err(error) => assert_eq!(error, LatticeError::Unsolved, "{shape:?}"),
            }
        }
    }
}
