//! How much wind a flight bears.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis, analysis_under, corpus};
use finwright_advice::ceiling;
use finwright_advice::supposed::{in_wind, only, Supposed};
use finwright_checks::example::BASE;
use finwright_checks::settings::read;

#[test]
fn every_flight_passes_up_to_its_ceiling_and_not_beyond() {
    let mut limited = 0;
    for (name, analysis) in corpus() {
        for flight in 0..analysis.design.flights.len() {
            let Some(found) = ceiling(&analysis, flight) else { continue };
            let known: Vec<_> = found.in_still_air.iter().map(|l| l.rule).collect();
            let in_wind_of = |wind: f64| {
                let one = only(&analysis.design, flight).unwrap();
                let supposed = Supposed::new(in_wind(one, wind));
                let faults = analysis.faults_of_wind(&supposed.design, &supposed.assessment);
                faults.into_iter().map(|f| f.rule).filter(|r| !known.contains(r)).collect::<Vec<_>>()
            };
            assert!(in_wind_of(found.wind).is_empty(), "{name}: {:?} at {}", in_wind_of(found.wind), found.wind);
            if let Some(limit) = &found.limit {
                limited += 1;
                assert!(in_wind_of(found.wind + 0.011).contains(&limit.rule), "{name}: {limit:?}");
            }
        }
    }
    assert!(limited > 20);
}

/// The quarter of the exit speed, by hand: the angle of attack reaches the arc tangent of 1/4 there.
#[test]
fn the_quarter_of_the_exit_speed_is_the_limit_where_the_angle_is() {
    let analysis = analysis(BASE);
    let found = ceiling(&analysis, 2).unwrap();
    assert_eq!(found.limit.as_ref().unwrap().rule, "wind/steep-angle");
    let supposed = Supposed::new(in_wind(only(&analysis.design, 2).unwrap(), found.wind));
    let exit = supposed.numbers().unwrap().run.as_ref().unwrap().last().unwrap();
    // The pad leans 2° into a wind that is read 2 m up and grows with the seventh root of the height.
    let (sin, cos) = 2f64.to_radians().sin_cos();
    let there = found.wind * (exit.travel * cos / 2.0).powf(1.0 / 7.0);
    let slope = there * cos / (exit.speed + there * sin);
    assert!((slope - 0.25).abs() < 1e-3, "{} of {exit:?}", found.wind);
}

#[test]
fn gusts_keep_the_sites_proportion() {
    let analysis = analysis(BASE);
    let supposed = Supposed::new(in_wind(only(&analysis.design, 0).unwrap(), 4.0));
    let air = supposed.numbers().unwrap().air.unwrap();
    assert_eq!((air.wind, air.gust), (4.0, 6.0));
}

#[test]
fn what_is_wrong_in_still_air_is_told_apart() {
    let analysis = analysis(&BASE.replace("length: 1 m; material: steel", "length: 0.4 m; material: steel"));
    let found = ceiling(&analysis, 0).unwrap();
    assert_eq!(found.in_still_air.iter().map(|l| l.rule).collect::<Vec<_>>(), ["guide/slow-exit"]);
    assert!(found.wind > 1.0);
}

#[test]
fn a_lower_limit_in_the_settings_lowers_the_ceiling() {
    let analysis = analysis_under(BASE, read("finwright.toml", "[thresholds]\nwind = \"3 m/s\""));
    let found = ceiling(&analysis, 2).unwrap();
    assert!((found.wind - 3.0).abs() < 0.02);
    assert_eq!(found.limit.unwrap().rule, "wind/too-strong");
}

/// What asks about one flight leaves every part where the file puts it, also one that is placed from the balance point
/// with another flight's motor.
#[test]
fn a_lug_is_glued_on_once() {
    let mut moved_by_the_motor = 0;
    for (name, analysis) in corpus() {
        let design = &analysis.design;
        for flight in 0..design.flights.len() {
            let alone = Supposed::new(only(design, flight).unwrap());
            assert_eq!(alone.assessment.airframe.extents, analysis.assessment.airframe.extents, "{name} {flight}");
            let lone = finwright_model::Design { placed_with: Vec::new(), ..alone.design };
            moved_by_the_motor +=
                usize::from(Supposed::new(lone).assessment.airframe.extents != analysis.assessment.airframe.extents);
        }
    }
    assert!(moved_by_the_motor > 0);
}
