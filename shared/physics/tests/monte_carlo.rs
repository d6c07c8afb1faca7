//! Random draws and what they come to.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assert_near};
use finwright_physics::closed_form::{exit_speed, guide_acceleration};
use finwright_physics::guided::{GuidedOutcome, GuidedRun};
use finwright_physics::monte_carlo::{repeat, Random, Spread, Summary};
use finwright_physics::motor::ThrustCurve;

/// [mem] SplitMix64's published first numbers from the seed 1234567.
#[test]
fn generator_gives_the_published_numbers() {
    let mut random = Random::new(1_234_567);
    for want in [
        6_457_827_717_110_365_317,
        3_203_168_211_198_807_973,
        9_817_491_932_198_370_423,
        4_593_380_528_125_082_431,
        16_408_922_859_458_223_821,
    ] {
        assert_eq!(random.next_u64(), want);
    }
}

/// [mem] Moments of the even (mean 1/2, variance 1/12) and normal (0, 1; fourth moment 3)
/// distributions, within five standard errors of 40 000 draws.
#[test]
fn moments() {
    let n = 40_000;
    let mut random = Random::new(7);
    let even: Vec<f64> = (0..n).map(|_| random.even()).collect();
    let even = Summary::of(&even).unwrap();
    assert_near(even.mean, 0.5, 5.0 * (1.0f64 / 12.0 / 4e4).sqrt());
    assert_near(even.sd, (1.0f64 / 12.0).sqrt(), 5e-3);
    assert!(even.least >= 0.0 && even.most < 1.0);
    let normal: Vec<f64> = (0..n).map(|_| random.normal()).collect();
    let fourth = normal.iter().map(|x| x.powi(4)).sum::<f64>() / 4e4;
    let normal = Summary::of(&normal).unwrap();
    assert_near(normal.mean, 0.0, 5.0 / 200.0);
    assert_near(normal.sd, 1.0, 5.0 * (0.5f64 / 4e4).sqrt());
    assert_near(fourth, 3.0, 5.0 * (96.0f64 / 4e4).sqrt());
    // One in twenty lies beyond 1.644854 standard deviations on either side.
    assert_near(normal.low, -1.644854, 0.05);
    assert_near(normal.high, 1.644854, 0.05);
}

/// [own] By hand: 1, 2, 4, 9.
#[test]
fn summary_by_hand() {
    let summary = Summary::of(&[9.0, 1.0, 4.0, 2.0]).unwrap();
    assert_eq!((summary.count, summary.least, summary.most), (4, 1.0, 9.0));
    assert_eq!((summary.mean, summary.median), (4.0, 3.0));
    assert_close(summary.sd, (38.0f64 / 3.0).sqrt(), 1e-14);
    assert_close(summary.low, 1.15, 1e-14);
    assert_close(summary.high, 4.0 + 5.0 * 0.85, 1e-14);
    assert_eq!(Summary::of(&[]), None);
    assert_eq!(Summary::of(&[2.0]).unwrap().sd, 0.0);
}

/// The same seed gives the same bits, another seed others, and no two runs share their numbers.
#[test]
fn seeds() {
    let draw = |seed| repeat(seed, 50, |random| Some(random.normal()));
    assert_eq!(draw(1), draw(1));
    assert_ne!(draw(1), draw(2));
    let mut all = draw(1);
    all.sort_by(f64::total_cmp);
    all.dedup();
    assert_eq!(all.len(), 50);
}

/// [own] First-order propagation on the guide: v² = 2 s (T/m − g), so that
/// dv = (s/(v m)) dT − (s T/(v m²)) dm for independent 3 % of thrust and 2 % of mass.
#[test]
fn spread_of_the_exit_speed() {
    let (mass, thrust, travel) = (0.5, 30.0, 1.2);
    let masses = Spread::Normal { mean: mass, sd: 0.02 * mass };
    let thrusts = Spread::Normal { mean: thrust, sd: 0.03 * thrust };
    let speeds = repeat(11, 4000, |random| {
        let thrust = thrusts.draw(random);
        let curve = ThrustCurve::new(vec![(0.0, thrust), (3.0, thrust)]).ok()?;
        let run = GuidedRun {
            curve: &curve,
            mass: masses.draw(random),
            propellant: 0.0,
            tilt: 0.0,
            friction: 0.0,
            side_force: 0.0,
            side_slope: 0.0,
            drag: 0.0,
            front_leaves: travel,
            last_leaves: travel,
        };
        match run.run() {
            GuidedOutcome::Leaves { last, .. } => Some(last.speed),
            GuidedOutcome::Stays(_) => None,
        }
    });
    let summary = Summary::of(&speeds).unwrap();
    let v = exit_speed(mass, guide_acceleration(mass, thrust, 0.0, 0.0), 0.0, travel);
    let from_thrust = travel / (v * mass) * 0.03 * thrust;
    let from_mass = travel * thrust / (v * mass * mass) * 0.02 * mass;
    let sd = from_thrust.hypot(from_mass);
    assert_eq!(summary.count, 4000);
    // Five standard errors, and the second order in the mean.
    assert_near(summary.mean, v, 5.0 * sd / 4000f64.sqrt() + 0.01);
    assert_near(summary.sd, sd, 5.0 * sd / 8000f64.sqrt() + 0.005);
    assert_eq!(Spread::Exact(2.0).draw(&mut Random::new(1)), 2.0);
    let even = Spread::Even { least: 2.0, most: 3.0 };
    let draws = repeat(3, 500, |random| Some(even.draw(random)));
    assert!(draws.iter().all(|x| (2.0..3.0).contains(x)));
}
