//! The rocket on the scale is the one that flies.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assessed, but, R1};
use finwright_assess::weighing::Fault;
use finwright_assess::{Assessment, FlightNumbers};
use finwright_physics::mass::{combine, MassProps};

/// R1 weighs 39.957488 g and balances 216.144654 mm from its tip, with its motor in.
fn weighed(measured: &str) -> Assessment {
    assessed(&format!("{R1}measured {{ with: even; {measured} }}\n")).1
}

fn only(assessment: &Assessment) -> &FlightNumbers {
    &assessment.flights[0]
}

/// Worked by the balance of moments, apart from the program: 45 g at 210 mm are R1 and 5.042512 g at
/// (45 · 210 − 39.957488 · 216.144654)/5.042512 = 161.31 mm.
#[test]
fn more_sits_where_both_measurements_put_it() {
    let assessment = weighed("mass: 45 g; balance: 210 mm from tip");
    let n = only(&assessment);
    let (loaded, computed) = (n.loaded().unwrap(), n.computed().unwrap());
    assert_close(loaded.mass, 0.045, 1e-12);
    assert_close(loaded.x, 0.210, 1e-12);
    let station = (45.0 * 210.0 - 39.957488 * 216.144654) / 5.042512 / 1e3;
    assert_close(station, 0.16131, 1e-4);
    let arm = |x: f64| (x - 0.210).powi(2);
    let inertia = computed.i_transverse + computed.mass * arm(computed.x) + 0.005042512 * arm(station);
    assert_close(loaded.i_transverse, inertia, 1e-6);
    assert!(n.basis().mass && n.basis().balance && !n.basis().with_other_motor);
    // Margin, burnout and run follow.
    let pressure = assessment.airframe.airflow.as_ref().unwrap().total.x().unwrap();
    assert_close(n.margin().unwrap(), (pressure - 0.210) / 0.0248, 1e-12);
    let burnt = combine([loaded, n.propellant().unwrap().scaled(-1.0)]);
    assert_close(n.burnt().unwrap().x, burnt.x, 1e-12);
    assert_eq!(n.run.as_ref().unwrap().inputs.mass, loaded.mass);
}

#[test]
fn a_mass_alone_sits_at_the_computed_balance_point() {
    let assessment = weighed("mass: 50 g");
    let n = only(&assessment);
    let (loaded, computed) = (n.loaded().unwrap(), n.computed().unwrap());
    assert_close(loaded.mass, 0.05, 1e-12);
    assert_close(loaded.x, computed.x, 1e-12);
    assert_close(loaded.i_transverse, computed.i_transverse, 1e-12);
}

#[test]
fn less_takes_inertia_with_it() {
    let assessment = weighed("mass: 36 g; balance: 214 mm from tip");
    let n = only(&assessment);
    let (loaded, computed) = (n.loaded().unwrap(), n.computed().unwrap());
    assert_close(loaded.mass, 0.036, 1e-12);
    assert_close(loaded.x, 0.214, 1e-12);
    assert_close(loaded.i_transverse, computed.i_transverse * 0.036 / computed.mass, 1e-12);
}

#[test]
fn a_balance_point_alone_moves_the_computed_mass() {
    let assessment = weighed("balance: 90 mm from tail");
    let n = only(&assessment);
    let (loaded, computed) = (n.loaded().unwrap(), n.computed().unwrap());
    assert_close(loaded.mass, computed.mass, 1e-12);
    assert_close(loaded.x, 0.210, 1e-12);
    assert!(!n.basis().mass && n.basis().balance);
}

/// A balance point behind the centre of pressure makes the rocket what it is.
#[test]
fn the_scale_may_say_that_it_is_unstable() {
    let assessment = weighed("mass: 60 g; balance: 260 mm from tip");
    assert!(only(&assessment).margin().unwrap() < -0.6);
}

/// With another motor the rocket's own difference is the same; measured with both, each flight takes its own.
#[test]
fn every_motor_that_was_in_counts() {
    let two = but(
        R1,
        "pad stand",
        "motor other { diameter: 18 mm; length: 60 mm; mass: 20 g; propellant: 5 g; delay: \
        4 s; curve: [0 s: 8 N, 0.6 s: 8 N] }\npad stand",
    ) + "flight two { motor: other; pad: stand; guided_by: [only]; site: field }\n";
    let one_bench = format!("{two}measured {{ with: even; mass: 45 g; balance: 210 mm from tip }}\n");
    let (_, assessment) = assessed(&one_bench);
    let (own, other) = (&assessment.flights[0], &assessment.flights[1]);
    let more = own.loaded().unwrap().mass - own.computed().unwrap().mass;
    assert_close(other.loaded().unwrap().mass - other.computed().unwrap().mass, more, 1e-9);
    assert!(other.basis().with_other_motor && other.basis().is_weighed());
    let moment = |n: &FlightNumbers| {
        let (flown, computed) = (n.loaded().unwrap(), n.computed().unwrap());
        flown.mass * flown.x - computed.mass * computed.x
    };
    assert_close(moment(other), moment(own), 1e-9);
    let (_, assessment) =
        assessed(&format!("{one_bench}measured {{ with: other; mass: 42 g; balance: 205 mm from tip }}\n"));
    let other = &assessment.flights[1];
    assert_close(other.loaded().unwrap().mass, 0.042, 1e-12);
    assert_close(other.loaded().unwrap().x, 0.205, 1e-12);
    assert!(!other.basis().with_other_motor);
    // Twice on the bench with one motor: the mean of both.
    let twice = format!("{R1}measured {{ with: even; mass: 44 g }}\nmeasured {{ with: even; mass: 46 g }}\n");
    assert_close(assessed(&twice).1.flights[0].loaded().unwrap().mass, 0.045, 1e-12);
}

#[test]
fn a_guide_at_the_balance_point_follows_the_one_on_the_bench() {
    let assessment = weighed("mass: 45 g; balance: 210 mm from tip");
    let guide = only(&assessment).guides()[0];
    assert_close(guide.extent.middle(), 0.210, 1e-9);
    assert!(assessment.airframe.unsettled.is_empty());
}

#[test]
fn what_is_no_measurement_of_this_rocket() {
    for (measured, fault, used) in [
        ("mass: 5 kg", Fault::OtherRocket, false),
        ("mass: 5 g", Fault::OtherRocket, false),
        ("balance: 700 mm from tip", Fault::BalanceOutside, false),
        ("mass: 41 g; balance: 190 mm from tip", Fault::DifferenceOutside, true),
    ] {
        let assessment = weighed(measured);
        assert_eq!(assessment.airframe.weighings[0].fault, Some(fault), "{measured}");
        let n = only(&assessment);
        assert_eq!(n.basis().is_weighed(), used, "{measured}");
        assert!(used || n.loaded() == n.computed(), "{measured}");
    }
    // Where a tolerance reaches into the rocket, the two may agree.
    assert_eq!(weighed("mass: 41 g ± 0.5 g; balance: 209 mm ± 10 mm from tip").airframe.weighings[0].fault, None);
}

/// The upper of two stages has what sits in it, and its share of what is lighter.
#[test]
fn a_difference_stays_with_its_stage() {
    let text = include_str!("../../../tests/designs/good/two_stage.finw");
    let (design, plain) = assessed(text);
    let upper = |a: &Assessment| a.flights[0].upper().unwrap().loaded;
    let motor = design.motors[design.flights[0].motor.as_ref().unwrap().value].name.value.clone();
    let whole = plain.flights[0].computed().unwrap();
    let bench = |mass: f64, x: f64| {
        let line = format!("measured {{ with: {motor}; mass: {} g; balance: {} mm from tip }}\n", mass * 1e3, x * 1e3);
        upper(&assessed(&format!("{text}\n{line}")).1)
    };
    let ahead = combine([whole, MassProps::point(0.01, 0.05)]);
    assert_close(bench(ahead.mass, ahead.x).mass, upper(&plain).mass + 0.01, 1e-6);
    let behind = combine([whole, MassProps::point(0.01, plain.airframe.tail.unwrap() - 0.01)]);
    assert_close(bench(behind.mass, behind.x).mass, upper(&plain).mass, 1e-6);
    let lighter = bench(0.9 * whole.mass, whole.x);
    assert_close(lighter.mass, 0.9 * upper(&plain).mass, 1e-6);
}
