//! Normal force and centre of pressure: physics.md's cases B1 to B5 and its properties 1.6.
//!
//! [own] computed with mpmath from the published formulas and confirmed by a second route;
//! lengths in mm, which the formulas leave free.
#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use crate::common::{assert_close, assert_near};
use finwright_physics::fins::{FinError, FinGeometry, FinShape};
use finwright_physics::normal_force::{
    body, body_lift, cut_out_centre, flat_face, total, FinCountRule, FinLiftError, FinSet, NormalForce,
};
use finwright_physics::nose::NoseShape;
use finwright_physics::section::{Section, TaperShape};

fn area(d: f64) -> f64 {
    PI * d * d / 4.0
}

fn piece(section: Section, x: f64, d: f64) -> NormalForce {
    body(&section, &section.geometry(), x, area(d))
}

fn set(shape: FinShape, count: u32, body_radius: f64, x: f64) -> FinSet {
    FinSet { fin: shape.geometry().unwrap(), count, body_radius, x, rule: FinCountRule::Multiplier }
}

fn trapezoid(root: f64, tip: f64, span: f64, sweep: f64) -> FinShape {
    FinShape::Trapezoid { root, tip, span, sweep }
}

fn b1_nose() -> NormalForce {
    piece(Section::nose(NoseShape::Ogive, 70.0, 12.4).unwrap(), 0.0, 24.8)
}

fn b1_fins(count: u32) -> FinSet {
    set(trapezoid(50.0, 30.0, 40.0, 25.0), count, 12.4, 250.0)
}

/// [own] B1.
#[test]
fn b1_ogive_and_three_fins() {
    let nose = b1_nose();
    assert_near(nose.cna, 2.0, 1e-12);
    assert_near(nose.x().unwrap(), 32.333682, 1e-6);
    let lift = b1_fins(3).lift(0.0, area(24.8)).unwrap();
    assert_near(lift.body_factor, 1.236641, 1e-6);
    assert_near(lift.force.cna, 15.673347, 1e-6);
    assert_near(lift.force.x().unwrap(), 271.666667, 1e-6);
    let sum = total([nose, lift.force]);
    assert_near(sum.cna, 17.673347, 1e-6);
    assert_near(sum.x().unwrap(), 244.582608, 1e-6);
    let four = b1_fins(4).lift(0.0, area(24.8)).unwrap();
    assert_near(four.force.cna, 20.897796, 1e-6);
}

/// [own] B1 with Mach number by mpmath; [mem] Lowry & Polhamus' form of the fin formula.
#[test]
fn b1_at_speed() {
    for (mach, cna, x) in [(0.3, 15.873692, 244.886191), (0.5, 16.254663, 245.445094), (0.7, 16.896617, 246.335891)] {
        let lift = b1_fins(3).lift(mach, area(24.8)).unwrap();
        assert_near(lift.force.cna, cna, 1e-6);
        assert_near(total([b1_nose(), lift.force]).x().unwrap(), x, 1e-6);
        assert!(!lift.mach_limited);
    }
    let limited = b1_fins(3).lift(1.2, area(24.8)).unwrap();
    let last = b1_fins(3).lift(0.8, area(24.8)).unwrap();
    assert!(limited.mach_limited);
    assert_eq!(limited.force, last.force);
}

/// [own] six fins with half the body's share; [mem] the multipliers as quoted from MIL-HDBK-762.
#[test]
fn b1_with_many_fins() {
    let halved = FinSet { rule: FinCountRule::HalvedBodyShare, ..b1_fins(6) };
    let lift = halved.lift(0.0, area(24.8)).unwrap();
    assert_near(lift.body_factor, 1.118321, 1e-6);
    assert_near(lift.force.cna, 28.347473, 1e-6);
    let four = b1_fins(4).lift(0.0, area(24.8)).unwrap().force.cna;
    for (count, factor) in [(5, 0.948), (6, 0.913), (7, 0.854), (8, 0.810), (9, 0.750)] {
        let lift = b1_fins(count).lift(0.0, area(24.8)).unwrap();
        assert_eq!(lift.count_factor, factor);
        assert_close(lift.force.cna, four * f64::from(count) / 4.0 * factor, 1e-12);
    }
    for count in [0, 1, 2] {
        assert_eq!(b1_fins(count).lift(0.0, area(24.8)), Err(FinLiftError::TooFewFins(count)));
    }
}

/// [own] B1: body lift moves the centre of pressure forward with angle of attack.
#[test]
fn b1_at_angle_of_attack() {
    let nose = Section::nose(NoseShape::Ogive, 70.0, 12.4).unwrap().geometry();
    let tube = Section::cylinder(230.0, 12.4).unwrap().geometry();
    let plan = nose.planform_area + tube.planform_area;
    let centre =
        (nose.planform_area * nose.planform_centroid + tube.planform_area * (70.0 + tube.planform_centroid)) / plan;
    assert_near(plan, 6868.564439, 1e-6);
    assert_near(centre, 161.032447, 1e-6);
    let small = total([b1_nose(), b1_fins(3).lift(0.0, area(24.8)).unwrap().force]);
    for (k, degrees, x) in [
        (1.1, 2.0, 242.079862),
        (1.1, 4.0, 239.728270),
        (1.1, 6.0, 237.519809),
        (1.1, 10.0, 233.501962),
        (1.1, 15.0, 229.156078),
        (1.5, 4.0, 238.100018),
        (1.5, 10.0, 230.167811),
        (1.5, 15.0, 224.869959),
    ] {
        let alpha = f64::to_radians(degrees);
        let lift = body_lift(plan, centre, alpha, k, area(24.8));
        assert_near(total([small, lift]).x().unwrap(), x, 1e-6);
        assert_eq!(lift, body_lift(plan, centre, -alpha, k, area(24.8)));
    }
    assert_eq!(body_lift(plan, centre, 0.0, 1.1, area(24.8)), NormalForce::default());
    // [std] NASA Glenn's simplified method on body and two fins, [own] number.
    let fin = b1_fins(3).fin;
    let cut_out = cut_out_centre([(plan, centre), (2.0 * fin.area, 250.0 + fin.centroid_x)]);
    assert_near(cut_out.unwrap(), 199.438734, 1e-6);
}

/// [own] B2: boat-tail.
#[test]
fn b2_cone_fins_and_boat_tail() {
    let d = 54.0;
    let nose = piece(Section::nose(NoseShape::Cone, 150.0, 27.0).unwrap(), 0.0, d);
    assert_near(nose.cna, 2.0, 1e-12);
    assert_near(nose.x().unwrap(), 100.0, 1e-9);
    let tail = Section::taper(TaperShape::Straight, 50.0, 27.0, 20.0).unwrap();
    let tail = piece(tail, 850.0, d);
    assert_near(tail.cna, -0.902606, 1e-6);
    assert_near(tail.x().unwrap(), 873.758865, 1e-6);
    let fins = set(trapezoid(110.0, 60.0, 55.0, 50.0), 4, 27.0, 740.0).lift(0.0, area(d)).unwrap();
    assert_near(fins.body_factor, 1.329268, 1e-6);
    assert_near(fins.force.cna, 9.907799, 1e-6);
    assert_near(fins.force.x().unwrap(), 784.411765, 1e-6);
    let sum = total([nose, tail, fins.force]);
    assert_near(sum.cna, 11.005193, 1e-6);
    assert_near(sum.x().unwrap(), 652.704049, 1e-6);
}

fn b3(d: f64) -> [NormalForce; 3] {
    let nose = Section::nose(NoseShape::Ellipsoid, 80.0, 20.8).unwrap();
    let shoulder = Section::taper(TaperShape::Straight, 60.0, 20.8, 33.0).unwrap();
    let fins = set(trapezoid(120.0, 70.0, 75.0, 60.0), 4, 33.0, 700.0);
    [piece(nose, 0.0, d), piece(shoulder, 330.0, d), fins.lift(0.0, area(d)).unwrap().force]
}

/// [own] B3: the same rocket on two reference diameters.
#[test]
fn b3_shoulder_and_reference_diameter() {
    let parts = b3(41.6);
    for (part, (cna, x)) in parts.iter().zip([(2.0, 26.666667), (3.034209, 362.267658), (29.187059, 751.666667)]) {
        assert_near(part.cna, cna, 1e-6);
        assert_near(part.x().unwrap(), x, 1e-6);
    }
    assert_near(total(parts).cna, 34.221268, 1e-6);
    assert_near(total(parts).x().unwrap(), 674.769520, 1e-6);
    let wide = b3(66.0);
    for (part, cna) in wide.iter().zip([0.794564, 1.205436, 11.595491]) {
        assert_near(part.cna, cna, 1e-6);
    }
    assert_near(total(wide).cna, 13.595491, 1e-6);
    assert_close(total(wide).x().unwrap(), total(parts).x().unwrap(), 1e-13);
}

/// [own] B4.
#[test]
fn b4_elliptical_fins() {
    let ellipse = FinShape::Ellipse { root: 60.0, span: 50.0 };
    let fins = set(ellipse, 3, 20.8, 0.0);
    let lift = fins.lift(0.0, area(41.6)).unwrap();
    assert_near(lift.body_factor, 1.293785, 1e-6);
    assert_near(lift.force.cna, 9.124589, 1e-6);
    assert_near(lift.force.x().unwrap(), 17.267605, 1e-6);
}

fn b5() -> Vec<(f64, f64)> {
    vec![(0.0, 0.0), (40.0, 30.0), (70.0, 45.0), (95.0, 45.0), (90.0, 20.0), (100.0, 0.0)]
}

/// [own] B5.
#[test]
fn b5_polygon_fin() {
    let fin = FinShape::Outline(b5()).geometry().unwrap();
    assert_near(fin.area, 2787.5, 1e-9);
    assert_near(fin.quarter_chord_x, 42.342052, 1e-6);
    assert_eq!((fin.root, fin.span), (100.0, 45.0));
}

/// A trapezoid, given as such or as a polygon, is one fin; [mem] its closed forms: physics.md 2.3.
#[test]
fn trapezoid_as_polygon() {
    let fin = trapezoid(50.0, 30.0, 40.0, 25.0).geometry().unwrap();
    let outline = vec![(0.0, 0.0), (25.0, 40.0), (55.0, 40.0), (50.0, 0.0)];
    assert_eq!(fin, FinShape::Outline(outline).geometry().unwrap());
    assert_near(fin.area, 1600.0, 1e-9);
    assert_near(fin.centroid_y, 40.0 * 110.0 / 240.0, 1e-9);
    assert_near(fin.centroid_x, 31.875, 1e-9);
    assert_near(fin.quarter_chord_x, 21.666667, 1e-6);
    assert_near(40.0 / fin.mid_chord_sweep.cos(), 42.720019, 1e-6);
    assert_near(fin.leading_sweep, (25.0f64 / 40.0).atan(), 1e-12);
}

/// An ellipse drawn as a polygon of many corners tends to the closed form.
#[test]
fn ellipse_as_polygon() {
    let exact = FinShape::Ellipse { root: 60.0, span: 50.0 }.geometry().unwrap();
    let corners = 2000;
    let mut points: Vec<(f64, f64)> = (0..=corners)
        .map(|i| {
            let angle = PI * f64::from(i) / f64::from(corners);
            (30.0 - 30.0 * angle.cos(), 50.0 * angle.sin())
        })
        .collect();
    points[corners as usize].1 = 0.0;
    let drawn = FinShape::Outline(points).geometry().unwrap();
    let fields = |fin: &FinGeometry| {
        [
            fin.area,
            fin.centroid_x,
            fin.centroid_y,
            fin.moment_x,
            fin.moment_y,
            fin.mean_chord,
            fin.quarter_chord_x,
            fin.leading_sweep,
        ]
    };
    for (got, want) in fields(&drawn).iter().zip(fields(&exact)) {
        assert_close(*got, want, 1e-5);
    }
    assert_near(drawn.mid_chord_sweep, 0.0, 1e-9);
}

#[test]
fn impossible_fins_are_errors() {
    let outline = |points: &[(f64, f64)]| FinShape::Outline(points.to_vec()).geometry();
    assert_eq!(outline(&[(0.0, 0.0), (1.0, 0.0)]), Err(FinError::TooFewPoints(2)));
    assert_eq!(outline(&[(0.0, 0.1), (1.0, 1.0), (2.0, 0.0)]), Err(FinError::OffTheRoot(0)));
    assert_eq!(outline(&[(0.0, 0.0), (1.0, -1.0), (2.0, 0.0)]), Err(FinError::BelowTheRoot(1)));
    assert_eq!(outline(&[(0.0, 0.0), (2.0, 1.0), (0.0, 1.0), (2.0, 0.0)]), Err(FinError::EdgesCross(0, 2)));
    assert_eq!(outline(&[(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)]), Err(FinError::NoArea));
    assert_eq!(trapezoid(50.0, -1.0, 40.0, 0.0).geometry(), Err(FinError::Size(-1.0)));
}

/// Property 1.6: cutting a cylinder or a cone in two changes nothing, and a cylinder adds nothing.
#[test]
fn cutting_a_body_changes_nothing() {
    let d = 50.0;
    let whole = piece(Section::taper(TaperShape::Straight, 90.0, 10.0, 25.0).unwrap(), 30.0, d);
    let fore = Section::taper(TaperShape::Straight, 60.0, 10.0, 20.0).unwrap();
    let aft = Section::taper(TaperShape::Straight, 30.0, 20.0, 25.0).unwrap();
    let parts = total([piece(fore, 30.0, d), piece(aft, 90.0, d)]);
    assert_close(parts.cna, whole.cna, 1e-13);
    assert_close(parts.moment, whole.moment, 1e-13);
    let cylinder = piece(Section::cylinder(200.0, 25.0).unwrap(), 120.0, d);
    assert_eq!(cylinder.cna, 0.0);
    assert_near(cylinder.moment, 0.0, 1e-10);
}

/// Property 1.6: all lengths times k scale the centre of pressure by k and leave CNα.
#[test]
fn scaling() {
    let rocket = |k: f64| {
        let nose = Section::nose(NoseShape::Haack { c: 0.0 }, 90.0 * k, 20.0 * k).unwrap();
        let fins = set(trapezoid(80.0 * k, 40.0 * k, 45.0 * k, 30.0 * k), 4, 20.0 * k, 500.0 * k);
        let d = 40.0 * k;
        total([piece(nose, 0.0, d), fins.lift(0.4, area(d)).unwrap().force])
    };
    let one = rocket(1.0);
    for k in [1e-3, 0.5, 7.0] {
        assert_close(rocket(k).cna, one.cna, 1e-12);
        assert_close(rocket(k).x().unwrap(), k * one.x().unwrap(), 1e-12);
    }
}

/// Property 1.6: moving the fins moves their own term only.
#[test]
fn moving_the_fins() {
    let here = b1_fins(3).lift(0.2, area(24.8)).unwrap().force;
    let there = FinSet { x: 260.0, ..b1_fins(3) };
    let there = there.lift(0.2, area(24.8)).unwrap().force;
    assert_eq!(here.cna, there.cna);
    assert_close(there.moment - here.moment, 10.0 * here.cna, 1e-12);
}

/// A flat front is a nose of no length: ever shorter cones tend to it, and behind it a cylinder has nothing more.
#[test]
fn a_flat_face_is_the_limit_of_short_noses() {
    let face = flat_face(12.4, 30.0, area(24.8));
    assert_close(face.cna, 2.0, 1e-12);
    assert_close(face.x().unwrap(), 30.0, 1e-12);
    let mut last = f64::INFINITY;
    for length in [10.0, 1.0, 0.1] {
        let cone = piece(Section::nose(NoseShape::Cone, length, 12.4).unwrap(), 30.0, 24.8);
        assert_close(cone.cna, face.cna, 1e-12);
        let off = cone.x().unwrap() - face.x().unwrap();
        assert!(off > 0.0 && off < length && off < last);
        last = off;
    }
    assert_eq!(piece(Section::cylinder(100.0, 12.4).unwrap(), 30.0, 24.8).cna, 0.0);
}
