//! The golden rocket R1, from its text to its numbers.
//!
//! [own] Computed with mpmath and scipy, each by two routes; R1 is invented. Formulas: Barrowman 1967; Mandell et al.
//! 1973; Roark (beams) [mem].
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assessed, but, R1};
use finwright_assess::{needed, path, Measure, Needed, Needs, NotFlown, Unknown};
use finwright_physics::air::G0;

#[test]
fn mass_balance_inertia_and_margin() {
    let (_, assessment) = assessed(R1);
    let n = &assessment.flights[0];
    let (loaded, burnt) = (n.loaded().unwrap(), n.burnt().unwrap());
    assert_close(loaded.mass, 0.039957488, 1e-7);
    assert_close(loaded.x, 0.216144654, 1e-7);
    assert_close(loaded.i_axial, 3.264769e-6, 5e-7);
    assert_close(loaded.i_transverse, 2.601662e-4, 5e-7);
    assert_close(burnt.mass, 0.033957488, 1e-7);
    assert_close(burnt.x, 0.207512329, 1e-7);
    assert_close(burnt.i_transverse, 2.407432e-4, 5e-7);
    assert_close(assessment.airframe.airflow.as_ref().unwrap().total.x().unwrap(), 0.244582608, 1e-7);
    assert_close(n.margin().unwrap(), 1.146692, 1e-6);
    assert_close(n.burnt_margin().unwrap(), 1.494769, 1e-6);
}

/// 5: the lug's top is at the rod's tip after 0.765545 m at 17.074214 m/s, its bottom leaves after 0.795545 m at
/// 17.405550 m/s, without drag and with constant mass on an upright rod; drag takes (1 - exp(-2 k s/m)) m/(2 k s) off
/// the square of the speed.
#[test]
fn speed_at_release() {
    let steady = but(R1, "propellant: 6 g", "propellant: 0.000001 g");
    let upright = but(&steady, "tilt: 5 deg", "tilt: 0 deg");
    let (_, assessment) = assessed(&upright);
    let run = assessment.flights[0].run.as_ref().unwrap();
    assert_close(run.front_travel, 0.765545, 1e-6);
    assert_close(run.travel, 0.795545, 1e-6);
    for (passage, drag_free) in [(run.front().unwrap(), 17.074214), (run.last().unwrap(), 17.405550)] {
        let slowed = 2.0 * run.inputs.drag * passage.travel / 0.039957488;
        assert_close(passage.speed, drag_free * ((1.0 - (-slowed).exp()) / slowed).sqrt(), 1e-6);
    }
}

/// 9: at 17.405550 m/s, full mass and without a jet, wn 13.355988 rad/s and a damping ratio of 0.171147, by numpy's
/// eigenvalues of the free rocket's equations. The frequency scales with the speed, the ratio not at all.
#[test]
fn swing_at_release() {
    let (_, assessment) = assessed(&but(R1, "propellant: 6 g", "propellant: 0.000001 g"));
    let n = &assessment.flights[0];
    let (release, speed) = (n.release.unwrap(), n.run.as_ref().unwrap().last().unwrap().speed);
    let swing = release.swing.unwrap();
    assert_close(swing.natural, 13.355988 * speed / 17.405550, 2e-6);
    assert_close(swing.damping_ratio, 0.17114724, 2e-6);
    // The pad leans 5° into a wind that is read 2 m up and grows with the seventh root of the height.
    let (sin, cos) = 5f64.to_radians().sin_cos();
    let growth = (n.run.as_ref().unwrap().last().unwrap().travel * cos / 2.0).powf(1.0 / 7.0);
    let meets = |wind: f64| (wind * growth * cos).atan2(speed + wind * growth * sin);
    assert_close(release.angle, meets(5.0), 1e-12);
    assert_close(release.gust_angle, meets(8.94), 1e-12);
}

/// 6.2: on its lug alone for the 30 mm of its length, R1 is turned downwind by the wind ahead of the lug's middle, and
/// by its weight's share at 5 degrees into the wind, which the balance point right at the lug makes next to nothing.
#[test]
fn tip_off_of_a_leaning_pad() {
    let at = |tilt: &str, at: &str| {
        let text = but(&but(R1, "tilt: 5 deg", tilt), "at: balance", at);
        assessed(&text).1.flights[0].release.unwrap().tip_off
    };
    // The lug 60 mm behind the balance point: moved there its weight of next to nothing leaves that where it is.
    let (upright, leaning) =
        (at("tilt: 0 deg", "at: 60 mm behind balance"), at("tilt: 5 deg", "at: 60 mm behind balance"));
    let weight = 0.039957488 * 9.80665 * 5f64.to_radians().sin() * 0.06;
    // Propellant burnt by then and the speed, which the tilt lowers a little, move it by some per cent.
    let difference = upright.moment - leaning.moment;
    assert!((difference / weight - 1.0).abs() < 0.05, "{difference} {weight}");
    assert_eq!(leaning.rate_across, 0.0);
}

/// 6: the 1/8 in steel rod of 0.9144 m bends 255.454 mm at 24.010 deg under 1 N at its tip, 16.3375 mm in a wind of
/// 20 mph, and swings at 2.681405 Hz; an even load bends it as 3/8 of it at the tip would.
#[test]
fn the_rod_as_a_beam() {
    let (_, assessment) = assessed(R1);
    let n = &assessment.flights[0];
    let stiffness = n.stiffness.as_ref().unwrap();
    let rod = 7850.0 * std::f64::consts::PI * 3.175e-3_f64.powi(2) / 4.0 * 0.9144;
    let side = G0 * 5_f64.to_radians().sin();
    let weight = side * n.loaded().unwrap().mass;
    assert_close(stiffness.at_end.still.tip, 0.255454 * (weight + 0.375 * rod * side), 2e-6);
    assert_close(stiffness.at_end.still.slope, 24.010_f64.to_radians() * (weight + rod * side / 3.0), 2e-5);
    let airflow = assessment.airframe.airflow.as_ref().unwrap();
    let push = 0.5 * n.air.unwrap().density * 8.94 * 8.94 * 1.2 * airflow.side_area;
    // The table's 20 mph are 8.94 m/s, as that row of it says elsewhere.
    assert_close(stiffness.at_end.gust.tip, 0.016337522 + 0.255454 * push, 5e-6);
    assert_close(stiffness.bare_frequency, 2.681405, 1e-6);
    assert!(stiffness.at_rest.still.tip < stiffness.at_end.still.tip);
    assert!(stiffness.loaded_frequency < stiffness.bare_frequency);
    assert!(stiffness.assumed.is_empty(), "the file says all: {:?}", stiffness.assumed);
    // 169 mm of lean is more than a tenth of the rod; a rod twice as thick is sixteen times as stiff.
    assert!(stiffness.is_beyond_linear(&stiffness.at_end), "{} m", stiffness.at_end.in_gust().tip);
    let (_, thick) = assessed(&but(R1, "diameter: 1/8 in", "diameter: 1/4 in"));
    let thick = thick.flights[0].stiffness.as_ref().unwrap();
    assert!(!thick.is_beyond_linear(&thick.at_end));
}

/// Statics: a lone lug's two ends carry the whole side force and its moment. 6.2: locks at 2 mu e.
#[test]
fn what_the_lug_carries() {
    let (_, assessment) = assessed(&but(R1, "friction: 0", "friction: 0.3"));
    let n = &assessment.flights[0];
    let loads = n.loads.as_ref().unwrap();
    let (loaded, lug) = (n.loaded().unwrap(), n.guides()[0].extent);
    let airflow = assessment.airframe.airflow.as_ref().unwrap();
    let push = 0.5 * n.air.unwrap().density * 25.0 * 1.2 * airflow.side_area;
    let weight = loaded.mass * G0 * 5_f64.to_radians().sin();
    let moment = push * (airflow.side_centroid - lug.middle()) + weight * (loaded.x - lug.middle());
    let most = 0.5 * (push + weight).abs() + moment.abs() / lug.length();
    assert_close(loads.guides[0].pad_wind, most, 1e-9);
    // At the balance point the two ends share the weight.
    assert_close(loads.guides[0].level, 0.5 * loaded.mass * G0, 1e-4);
    // e = body radius + half the lug: 12.4 + 2.1 mm; 2 mu e.
    assert_close(loads.locks_at, 2.0 * 0.3 * 14.5e-3, 1e-12);
    assert_close(loads.spacing, 0.030, 1e-12);
    // atan(c/s), c = 3.6 - 3.175 mm.
    assert_close(loads.slop.unwrap(), (0.425_f64 / 30.0).atan(), 1e-9);
    assert!(loads.guides[0].capacity.is_some() && !loads.assumed.is_empty());
}

/// The descent: 4, v = sqrt(2 m g/(rho Cd S)) with 0.3 on 600 x 50 mm; energy m v2/2.
#[test]
fn the_flight_to_the_ground() {
    let (design, assessment) = assessed(R1);
    let n = &assessment.flights[0];
    let flown = path(&design, &assessment.airframe, n).unwrap();
    let descent = flown.descent.as_ref().unwrap();
    let rate = (2.0 * 0.033957488 * G0 / (1.225 * 0.3 * 0.03)).sqrt();
    assert_close(descent.sinking.rate, rate, 1e-5);
    assert!(descent.sinking.is_usual_drag && descent.sinking.drag == 0.3);
    let energy = 0.5 * 0.033957488 * descent.landing_speed.powi(2);
    assert_close(descent.landing_energy, energy, 1e-6);
    // Into the wind from a pad that leans into it.
    assert!(flown.weathercock.unwrap() > 0.0 && flown.leans() > 0.0);
    assert_close(flown.coast, flown.moments.apogee.time - 0.6, 1e-9);
    assert_close(flown.moments.openings[0].moment.time, 4.6, 1e-12);
    // T/m less weight: the acceleration at ignition of a rod that leans 5 degrees, and more as it gets lighter.
    let first = 8.0 / n.loaded().unwrap().mass - G0 * 5_f64.to_radians().cos();
    assert!(flown.top_acceleration > first && flown.top_acceleration < 1.2 * first, "{}", flown.top_acceleration);
    // Without a delay, without a canopy: said, and nothing about the descent.
    let (design, assessment) = assessed(&but(R1, "delay: 4 s; ", ""));
    let blind = path(&design, &assessment.airframe, &assessment.flights[0]).unwrap();
    let lacks = |u: &Unknown| u.measure == Measure::Opening && u.needs == Needs::Fields(vec!["delay"]);
    assert!(blind.descent.is_none() && assessment.flights[0].unknown.iter().any(lacks));
    assert_eq!(needed::open(&design, &assessment.airframe, &assessment.flights[0]), [Needed::Descent]);
    // How fast it would sink hangs on no delay.
    let sinks = assessment.flights[0].sinking.as_ref().unwrap();
    assert_eq!((sinks.rate, sinks.energy, sinks.is_timed()), (descent.sinking.rate, descent.sinking.energy, false));
    // Here the streamer opens on the way up and costs height.
    assert!(blind.moments.apogee.height > flown.moments.apogee.height && blind.time_of_flight().is_none());
}

/// Two fins leave a plane without lift: no flight stands in for it.
#[test]
fn too_few_fins() {
    let (design, assessment) = assessed(&but(R1, "count: 3", "count: 2"));
    assert!(path(&design, &assessment.airframe, &assessment.flights[0]).is_err());
    assert!(
        assessment.flights[0].margin().is_none()
            && assessment.airframe.unknown.iter().any(|u| u.needs == Needs::ThreeFins)
    );
}

/// Beyond Mach 0.9 the drag build-up isn't valid, and no number stands in for it.
#[test]
fn too_fast_for_the_method() {
    let (design, assessment) = assessed(&but(R1, "[0 s: 8 N, 0.6 s: 8 N]", "[0 s: 80 N, 0.6 s: 80 N]"));
    let refused = path(&design, &assessment.airframe, &assessment.flights[0]).unwrap_err();
    assert!(matches!(refused, NotFlown::TooFast(mach) if mach > 0.9), "{refused:?}");
    // The verdict needs no more than is known.
    assert_eq!(needed::open(&design, &assessment.airframe, &assessment.flights[0]), []);
}
