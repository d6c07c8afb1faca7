//! Parts' masses and places against sums done by hand, and rockets of several motors and stages.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support;
use finwright_checks::Analysis;
use std::f64::consts::PI;
use support::{analysis, expect, sound_but, sound_with};

fn part<'a>(a: &'a Analysis, label: &str) -> (usize, &'a finwright_assess::Weight) {
    let id = a.design.parts.iter().position(|p| p.label() == label).unwrap_or_else(|| panic!("{label}"));
    (id, a.assessment.airframe.weights[id].as_ref().unwrap())
}

fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-9 * wanted.abs(), "{found} and not {wanted}");
}

/// The sound design with one more line in its tube.
fn with(line: &str) -> Analysis {
    let text = sound_but("    streamer {", &format!("    {line}\n    streamer {{"));
    analysis(&text)
}

#[test]
fn plain_solids() {
    let a = with("bulkhead { outer: 24 mm; thickness: 5 mm; material: 600 kg/m3; at: 100 mm from front }");
    let (id, weight) = part(&a, "bulkhead");
    near(weight.own.mass, PI * 0.012f64.powi(2) * 0.005 * 600.0);
    near(a.assessment.airframe.extents[id].unwrap().front, 0.17);
    let a = with("coupler { length: 40 mm; outer: 24 mm; inner: 22 mm; material: 700 kg/m3; at: -20 mm from front }");
    let (id, weight) = part(&a, "coupler");
    near(weight.own.mass, PI / 4.0 * (0.024f64.powi(2) - 0.022f64.powi(2)) * 0.04 * 700.0);
    near(a.assessment.airframe.extents[id].unwrap().front, 0.05);
}

#[test]
fn fins_of_every_plan() {
    let fins = "count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm;";
    let mass = |new: &str| {
        let a = analysis(&sound_but(fins, new));
        part(&a, "fins main").1.own.mass
    };
    let plate = 3.0 * 0.0016 * 160.0;
    near(mass(fins), plate * 0.04 * 0.04);
    near(mass("plan: ellipse; count: 3; root: 50 mm; span: 40 mm;"), plate * PI * 0.05 * 0.04 / 4.0);
    // The polygon of a published worked case: its area is 2787.5 mm2 exactly.
    near(
        mass("count: 3; outline: [0 mm: 0 mm, 40 mm: 30 mm, 70 mm: 45 mm, 95 mm: 45 mm, 90 mm: 20 mm, 100 mm: 0 mm];"),
        plate * 2787.5e-6,
    );
    near(mass(&format!("{fins} tab_length: 30 mm; tab_depth: 3 mm;")), plate * (0.0016 + 0.03 * 0.003));
    near(
        mass(&format!("{fins} fillet: 3 mm;")),
        plate * 0.0016 + 6.0 * 0.05 * 0.003f64.powi(2) * (1.0 - PI / 4.0) * 1150.0,
    );
}

#[test]
fn an_outline_that_is_a_trapezoid_flies_like_one() {
    let fins = "root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm;";
    let named = analysis(support::SOUND).assessment.airframe.airflow.as_ref().unwrap().total;
    let drawn = analysis(&sound_but(fins, "outline: [0 mm: 0 mm, 25 mm: 40 mm, 55 mm: 40 mm, 50 mm: 0 mm];"))
        .assessment
        .airframe
        .airflow
        .as_ref()
        .unwrap()
        .total;
    near(drawn.cna, named.cna);
    near(drawn.moment, named.moment);
}

#[test]
fn outlines_that_cannot_be() {
    let fins = "root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm;";
    for (outline, said) in [
        ("[«0 mm: 5 mm», 25 mm: 40 mm, 50 mm: 0 mm]", "lie on the body"),
        ("[0 mm: 0 mm, 25 mm: 40 mm, «50 mm: 5 mm»]", "lie on the body"),
        ("[0 mm: 0 mm, «25 mm: -40 mm», 50 mm: 0 mm]", "inside the body"),
        ("«[0 mm: 0 mm, 50 mm: 0 mm]»", "three corners"),
    ] {
        expect(&sound_but(fins, &format!("outline: {outline};")), &[("fins/broken-outline", said)]);
    }
}

#[test]
fn one_or_two_fins_are_too_few() {
    expect(&sound_but("count: 3", "count: «2»"), &[("fins/too-few", "fins main has 2 fins")]);
    assert!(analysis(&sound_but("count: 3", "count: 2")).assessment.airframe.airflow.is_none());
}

#[test]
fn tubes_and_rings_as_fins_hold_it_straight() {
    let fins = "fins main { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; thickness: 1.6 mm; \
        material: balsa; at: 0 mm from back }";
    for other in [
        "tube_fins main { count: 6; length: 50 mm; outer: 24.8 mm; inner: 24 mm; material: kraft_paper; at: 0 mm from \
            back }",
        "ring_fin main { length: 40 mm; outer: 90 mm; inner: 89 mm; material: kraft_paper; at: 0 mm from back }",
    ] {
        let a = analysis(&sound_but(fins, other));
        let margin = a.assessment.flights[0].margin().unwrap();
        assert!((0.5..6.0).contains(&margin), "{other}: {margin}");
    }
    let a = analysis(&sound_but(
        fins,
        "tube_fins main { count: 6; length: 50 mm; outer: 24.8 mm; inner: 24 mm; \
        material: 680 kg/m3; at: 0 mm from back }",
    ));
    near(part(&a, "tube_fins main").1.own.mass, 6.0 * PI / 4.0 * (0.0248f64.powi(2) - 0.024f64.powi(2)) * 0.05 * 680.0);
}

#[test]
fn a_cluster_is_as_many_motors() {
    let one = analysis(support::SOUND);
    let three = analysis(&sound_with(&[("sticks_out: 5 mm;", "sticks_out: 5 mm; motors: 3; circle: 22 mm;")]));
    let (one, three) = (&one.assessment.flights[0], &three.assessment.flights[0]);
    near(three.curve.as_ref().unwrap().total_impulse(), 3.0 * one.curve.as_ref().unwrap().total_impulse());
    let burnt = |f: &finwright_assess::FlightNumbers| f.loaded().unwrap().mass - f.burnt().unwrap().mass;
    near(burnt(three), 3.0 * burnt(one));
    // Two more motors, and two more tubes to hold them.
    let tube = PI / 4.0 * (0.0188f64.powi(2) - 0.018f64.powi(2)) * 0.07 * 680.0;
    near(three.loaded().unwrap().mass - one.loaded().unwrap().mass, 2.0 * (0.016 + tube));
}

#[test]
fn thrust_rings_and_hooks_have_their_places() {
    let a = analysis(&sound_but(
        "sticks_out: 5 mm; material: kraft_paper }",
        "sticks_out: 5 mm; material: kraft_paper\n thrust_ring { length: 5 mm; inner: 12 mm; material: 700 kg/m3 }\n \
            hook { length: 74 mm; mass: 1.5 g }\n }",
    ));
    let (ring, weight) = part(&a, "thrust_ring");
    near(weight.own.mass, PI / 4.0 * (0.018f64.powi(2) - 0.012f64.powi(2)) * 0.005 * 700.0);
    near(a.assessment.airframe.extents[ring].unwrap().front, 0.23);
    let (hook, _) = part(&a, "hook");
    near(a.assessment.airframe.extents[hook].unwrap().back, 0.3);
}

const BOOSTER: &str = "booster {
  tube lower { length: 90 mm; outer: caliber; inner: 24 mm; material: kraft_paper
    fins { count: 3; root: 60 mm; tip: 40 mm; span: 50 mm; sweep: 30 mm; thickness: 2 mm; material: balsa; at: 0 mm from back }
    mount { bore: 18 mm; outer: 18.8 mm; length: 70 mm; material: kraft_paper }
    lug low { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back; clock: 60 deg }
  }
}
motor b0 { diameter: 18 mm; length: 70 mm; mass: 20 g; propellant: 8 g; curve: [0 s: 0 N, 0.1 s: 20 N, 0.4 s: 15 N, 0.5 s: 0 N] }
";

#[test]
fn two_stages_on_the_pad_and_one_after() {
    let single = analysis(support::SOUND);
    let flight = "flight two { motor: a5; pad: stand; guided_by: [aft, fore] }";
    let text =
        sound_but(flight, "flight two { motor: a5; booster_motor: b0; pad: stand; guided_by: [low, fore] }") + BOOSTER;
    // The other flight leaves the booster without a motor.
    let text = text.replace("flight one { motor: a5; pad: stand; guided_by: [only] }\n", "");
    let a = analysis(&text);
    let two = &a.assessment.flights[0];
    let upper = two.upper().unwrap();
    let fore_alone = single.assessment.flights[0].loaded().unwrap();
    near(upper.loaded.mass, fore_alone.mass);
    assert!(two.loaded().unwrap().mass > upper.loaded.mass + 0.020);
    near(a.assessment.airframe.tail.unwrap(), 0.39);
    // The booster's motor burns on the pad.
    near(two.loaded().unwrap().mass - two.burnt().unwrap().mass, 0.008);
    near(two.curve.as_ref().unwrap().total_impulse(), 1.0 + 5.25 + 0.75);
    near(two.motor().unwrap().back, 0.39);
    assert!(two.upper_margin().unwrap() > 1.0 && two.run.as_ref().unwrap().last().unwrap().speed > 13.4);
}

#[test]
fn a_booster_needs_its_motor_and_a_motor_its_booster() {
    let a = analysis(&(support::SOUND.to_string() + BOOSTER));
    assert!(a.assessment.flights.iter().all(|f| f.loaded().is_none() && f.run.is_none()));
    assert!(
        a.findings.iter().any(|f| f.rule == "file/not-checked" && f.help.contains("`booster_motor`")),
        "{:#?}",
        a.findings
    );
    let text = sound_but("flight one { motor: a5;", "flight one { motor: a5; booster_motor: «a5»;");
    expect(&text, &[("name/unknown-name", "there is a motor for a booster, and no booster")]);
}

#[test]
fn an_upper_stage_that_cannot_fly_alone_is_told() {
    let flight = "flight two { motor: a5; pad: stand; guided_by: [aft, fore] }";
    let text =
        sound_but(flight, "flight two { motor: a5; booster_motor: b0; pad: stand; guided_by: [low, fore] }") + BOOSTER;
    let text = text
        .replace("flight one { motor: a5; pad: stand; guided_by: [only] }\n", "")
        .replace("span: 40 mm", "span: 12 mm");
    let a = analysis(&text);
    let said: Vec<_> = a.findings.iter().map(|f| (f.rule, f.message.as_str())).collect();
    assert!(
        said.iter().any(|(r, m)| r.starts_with("stability/")
            && m.starts_with("without its booster two balances")
            && m.contains("calibres behind its centre")),
        "{said:?}"
    );
}

#[test]
fn what_a_bond_bears_is_the_builders_own_value_first() {
    let capacity = |text: &str| {
        let a = analysis(text);
        a.assessment.flights[0].loads.as_ref().unwrap().guides[0].capacity.unwrap()
    };
    let guessed = capacity(support::SOUND);
    assert!((1.0..500.0).contains(&guessed), "{guessed}");
    near(capacity(&sound_but("wall: 0.3 mm; at: balance;", "wall: 0.3 mm; bears: 37 N; at: balance;")), 37.0);
}

#[test]
fn what_sits_off_the_axis_has_a_longer_arm() {
    let inertia = |extra: &str| {
        let a = with(&format!("ballast {{ mass: 10 g; {extra}at: 100 mm from front }}"));
        let loaded = a.assessment.flights[0].loaded().unwrap();
        (loaded.i_axial, loaded.i_transverse, loaded.x)
    };
    let (on, off) = (inertia(""), inertia("off_axis: 9 mm; "));
    // Steiner: m r2 about the axis, half of it crosswise as the mean over all roll angles (textbook).
    near(off.0 - on.0, 0.010 * 0.009f64.powi(2));
    near(off.1 - on.1, 0.5 * 0.010 * 0.009f64.powi(2));
    near(off.2, on.2);
}
