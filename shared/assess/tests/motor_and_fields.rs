//! Motors' codes against their curves, and fields' limits against flights.
#![allow(clippy::unwrap_used)]

mod common;

use common::{assert_close, assessed, but, R1};
use finwright_assess::field_rules::{exceeded, limits, named, Facts, Limited, JURISDICTIONS};
use finwright_assess::motor::read_code;
use finwright_assess::path;

/// NFPA 1125 [mem]: 4.8 N s is a B; 8 N is not within a fifth or 1 N of 6 N.
#[test]
fn a_code_and_its_curve() {
    let coded = |code: &str| {
        let (_, assessment) = assessed(&but(R1, "motor even {", &format!("motor even {{ code: \"{code}\";")));
        assessment.motors[0].clone().unwrap()
    };
    let right = coded("B8-4");
    assert_close(right.impulse, 4.8, 1e-12);
    assert_close(right.average, 8.0, 1e-12);
    assert_close(right.burn_time, 0.6, 1e-12);
    assert_eq!(right.class.unwrap().letter, "B");
    assert_eq!(
        (right.letter_agrees(), right.average_agrees(), right.delay_agrees()),
        (Some(true), Some(true), Some(true))
    );
    let wrong = coded("C6-3");
    assert_eq!(
        (wrong.letter_agrees(), wrong.average_agrees(), wrong.delay_agrees()),
        (Some(false), Some(false), Some(false))
    );
    let (_, bare) = assessed(R1);
    let bare = bare.motors[0].clone().unwrap();
    assert_eq!((bare.letter_agrees(), bare.average_agrees(), bare.delay_agrees()), (None, None, None));
}

#[test]
fn codes() {
    let half = read_code("1/2A3-2").unwrap();
    assert_eq!((half.letter.as_str(), half.average, half.delay), ("1/2A", 3.0, Some(2.0)));
    let plugged = read_code("H110").unwrap();
    assert_eq!((plugged.letter.as_str(), plugged.average, plugged.delay), ("H", 110.0, None));
    assert!(read_code("").is_none() && read_code("big one").is_none() && read_code("D").is_none());
}

/// 14 CFR 101.22 [std]: 1,500 g and 125 g. NFPA 1122 [std, reprint]: 320 N s, 30 degrees, and 1,000 ft for a G.
#[test]
fn limits_by_jurisdiction() {
    let small = Facts { mass: Some(1.5), propellant: Some(0.125), impulse: Some(120.0), ..Facts::default() };
    for (name, jurisdiction, _) in JURISDICTIONS {
        assert_eq!(named(name), Some(jurisdiction));
        assert!(exceeded(jurisdiction, &small).is_empty(), "{name}: what isn't known exceeds nothing");
        assert!(limits(jurisdiction, &small).iter().all(|l| !l.source.is_empty() && l.limit > 0.0));
    }
    assert_eq!(named("elsewhere"), None);
    let of = |name: &str, facts: &Facts| -> Vec<Limited> {
        exceeded(named(name).unwrap(), facts).iter().map(|limit| limit.what).collect()
    };
    assert_eq!(of("us-class-1", &Facts { mass: Some(1.501), ..small }), [Limited::Mass]);
    assert_eq!(of("us-class-1", &Facts { propellant: Some(0.1251), ..small }), [Limited::Propellant]);
    assert_eq!(of("us-model", &Facts { impulse: Some(320.1), ..small }), [Limited::Impulse]);
    assert_eq!(of("us-model", &Facts { field: Some(304.0), ..small }), [Limited::Field]);
    assert!(of("us-model", &Facts { field: Some(305.0), ..small }).is_empty());
    assert_eq!(of("us-model", &Facts { wind: Some(9.0), ..small }), [Limited::Wind]);
    let steep = Facts { tilt: Some(21f64.to_radians()), ..small };
    assert!(of("us-model", &steep).is_empty());
    assert_eq!(of("us-high-power", &steep), [Limited::Tilt]);
    assert_eq!(of("california", &steep), [Limited::Tilt]);
}

/// NFPA 1127 [reprint]: 100 ft to 1,280 N s and 200 ft above, 200 and 300 ft for a cluster; half the height or 1,500 ft.
/// [mem]: thrust of three times the weight. California [std]: a cluster takes the next row.
#[test]
fn high_power() {
    let j = Facts { impulse: Some(1000.0), mass: Some(6.0), average_thrust: Some(170.0), ..Facts::default() };
    let distance = |name: &str, facts: &Facts| {
        let found = limits(named(name).unwrap(), facts);
        found.iter().find(|l| l.what.is_of_people()).unwrap().limit
    };
    assert_close(distance("us-high-power", &j), 100.0 * 0.3048, 1e-12);
    assert_close(distance("us-high-power", &Facts { impulse: Some(1281.0), ..j }), 200.0 * 0.3048, 1e-12);
    assert_close(distance("us-high-power", &Facts { is_cluster: true, ..j }), 200.0 * 0.3048, 1e-12);
    assert_close(distance("california", &j), 150.0 * 0.3048, 1e-12);
    assert_close(distance("california", &Facts { is_cluster: true, ..j }), 200.0 * 0.3048, 1e-12);
    let weak = exceeded(named("us-high-power").unwrap(), &j);
    assert_eq!(weak[0].what, Limited::ThrustToWeight);
    assert_close(weak[0].value.unwrap(), 170.0 / (6.0 * 9.80665), 1e-12);
    let high = Facts { apogee: Some(1200.0), field: Some(599.0), ..Facts::default() };
    assert_eq!(exceeded(named("us-high-power").unwrap(), &high)[0].limit, 600.0);
    let low = Facts { apogee: Some(400.0), field: Some(457.2), ..Facts::default() };
    assert!(exceeded(named("us-high-power").unwrap(), &low).is_empty());
}

/// 14 CFR 101.25(g) [std]: a quarter of the height, at least 457 m.
#[test]
fn separation_by_height() {
    let far = |apogee: f64| {
        limits(named("us-class-2").unwrap(), &Facts { apogee: Some(apogee), ..Facts::default() })[1].limit
    };
    assert_eq!((far(800.0), far(4000.0)), (457.0, 1000.0));
}

/// What is known of R1, and what its file can't say.
#[test]
fn facts_of_a_flight() {
    let (design, assessment) = assessed(R1);
    let numbers = &assessment.flights[0];
    let facts = Facts::of(&design, numbers, path(&design, &assessment, numbers).ok());
    assert_close(facts.mass.unwrap(), 0.039957488, 1e-7);
    assert_close(facts.propellant.unwrap(), 0.006, 1e-12);
    assert_close(facts.impulse.unwrap(), 4.8, 1e-12);
    assert_close(facts.tilt.unwrap(), 5f64.to_radians(), 1e-12);
    assert_eq!((facts.wind, facts.is_cluster, facts.field, facts.standoff), (Some(5.0), false, None, None));
    assert!(exceeded(named("us-model").unwrap(), &facts).is_empty());
    // 4.8 N s is a B: 200 ft of field, 15 ft to the people [reprint], neither known.
    let open: Vec<f64> =
        limits(named("us-model").unwrap(), &facts).iter().filter(|l| l.value.is_none()).map(|l| l.limit).collect();
    assert_eq!(open, [4.572, 60.96]);
}
