//! Bench and design compared: the mass and the place that make them agree.
#![allow(clippy::unwrap_used)]

use crate::common;
use finwright_assess::bench::{spot, suspect};
use finwright_assess::weighing::{Difference, Reading, Weighing};
use finwright_physics::mass::{combine, MassProps};

const REED_HERON: &str = include_str!("../../../tests/designs/good/reed_heron.finw");

fn missing(computed: MassProps, mass: Reading, balance: Reading) -> Option<Difference> {
    Weighing { measured: 0, computed, mass: Some(mass), balance: Some(balance), fault: None }.difference()
}

fn exact(value: f64) -> Reading {
    Reading { value, tolerance: 0.0 }
}

/// What is added at a station is found again at that station, whichever side of the balance point and however heavy.
#[test]
fn what_is_added_is_found_where_it_was_added() {
    let design = MassProps::point(0.2, 0.3);
    for (mass, station) in [(0.02, 0.1), (0.005, 0.55), (0.1, 0.3), (-0.03, 0.2)] {
        let bench = combine([design, MassProps::point(mass, station)]);
        let found = missing(design, exact(bench.mass), exact(bench.x)).unwrap();
        assert!((found.mass - mass).abs() < 1e-12 && (found.station - station).abs() < 1e-9, "{found:?}");
    }
}

/// By hand: 200 g at 300 mm in the design, 220 g at 290 mm on the bench: (220 · 290 − 200 · 300)/20 = 190 mm. The
/// balance point ± 2 mm gives 220 · 2/20 = 22 mm, the mass ± 1 g gives (290 − 190) · 1/20 = 5 mm; together √(22² + 5²)
/// = 22.56 mm.
#[test]
fn its_tolerance_by_hand() {
    let mass = Reading { value: 0.220, tolerance: 0.001 };
    let balance = Reading { value: 0.290, tolerance: 0.002 };
    let found = missing(MassProps::point(0.2, 0.3), mass, balance).unwrap();
    assert!((found.station - 0.190).abs() < 1e-12 && (found.tolerance - 0.022561).abs() < 1e-6, "{found:?}");
}

#[test]
fn a_difference_within_the_scales_tolerance_sits_nowhere() {
    let mass = Reading { value: 0.2009, tolerance: 0.001 };
    assert_eq!(missing(MassProps::point(0.2, 0.3), mass, exact(0.31)), None);
    assert_eq!(missing(MassProps::point(0.2, 0.3), exact(0.2), exact(0.31)), None);
}

#[test]
fn a_station_beyond_the_rocket_is_nowhere() {
    let (design, assessment) = common::assessed(REED_HERON);
    let tail = assessment.airframe.tail.unwrap();
    for station in [-0.05, tail + 0.05] {
        let found = spot(&design, &assessment.airframe, station);
        assert!(found.body.is_none() && found.near.is_none(), "{found:?}");
    }
    let label = |id: usize| design.parts[id].label();
    let found = spot(&design, &assessment.airframe, tail - 0.03);
    assert_eq!(label(found.body.unwrap()), "tube body");
    let (near, inside) = found.near.unwrap();
    assert!(
        inside && label(near) == "fins main",
        "of the mount and the fins there the fins are shorter: {}",
        label(near)
    );
    // 30 mm ahead of the mount's front edge nothing is there, and the mount is within a calibre.
    let found = spot(&design, &assessment.airframe, tail - 0.095 - 0.03);
    assert_eq!(found.near.map(|(id, inside)| (label(id), inside)), Some(("mount engine".to_string(), false)));
}

/// The suspect's change brings the balance point to where it was measured.
#[test]
fn the_suspects_change_explains_the_balance_point() {
    let (_, assessment) = common::assessed(REED_HERON);
    let loaded = assessment.flights[0].computed().unwrap();
    for off in [-0.01, 0.012] {
        let measured = loaded.x + off;
        let found = suspect(&assessment.airframe, loaded, measured).unwrap();
        let weight = assessment.airframe.weights[found.part].as_ref().unwrap();
        let x = assessment.airframe.extents[found.part].unwrap().front + weight.own.x;
        let changed = combine([loaded, MassProps::point(found.change, x)]);
        assert!((changed.x - measured).abs() < 1e-9 && !weight.given, "{} {measured}", changed.x);
        // No other part that isn't weighed has a larger mass times lever.
        let moment = |id: usize| {
            let weight = assessment.airframe.weights[id].as_ref().unwrap();
            (weight.own.mass * (assessment.airframe.extents[id].unwrap().front + weight.own.x - measured)).abs()
        };
        let unweighed = (0..assessment.airframe.weights.len())
            .filter(|id| !assessment.airframe.weights[*id].as_ref().unwrap().given);
        assert!(unweighed.into_iter().all(|id| moment(id) <= moment(found.part)));
    }
}
