//! Random and extreme inputs: always an answer, always finite, always in order.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_physics::aerodynamics::{Aerodynamics, Drag};
use finwright_physics::air::{Atmosphere, Wind};
use finwright_physics::canopies::{Canopy, Opens};
use finwright_physics::flight::{Flight, FlightError, Release};
use finwright_physics::guided::{GuidedOutcome, GuidedRun, StayReason};
use finwright_physics::mass::MassProps;
use finwright_physics::monte_carlo::Random;
use finwright_physics::motor::{BurningMass, ThrustCurve};
use finwright_physics::normal_force::NormalForce;

/// Evenly spread over the powers of ten between two values.
fn scale(random: &mut Random, least: f64, most: f64) -> f64 {
    least * (most / least).powf(random.even())
}

fn curve(random: &mut Random) -> ThrustCurve {
    let peak = scale(random, 1e-2, 1e5);
    let mut time = 0.0;
    let mut points = vec![(0.0, 0.0)];
    for _ in 0..1 + random.next_u64() % 12 {
        time += scale(random, 1e-4, 3.0);
        let gap = random.even() < 0.2;
        points.push((time, if gap { 0.0 } else { peak * random.even() }));
    }
    points.push((time + 0.01, peak * 0.01));
    ThrustCurve::new(points).unwrap()
}

#[test]
fn guided_runs_always_end_in_an_answer() {
    let mut left = [0; 3];
    for seed in 0..3000 {
        let random = &mut Random::new(seed);
        let curve = curve(random);
        let mass = scale(random, 1e-3, 1e3);
        let run = GuidedRun {
            curve: &curve,
            mass,
            propellant: mass * 0.9 * random.even(),
            tilt: 1.5 * random.even(),
            friction: random.even(),
            side_force: scale(random, 1e-3, 1e2),
            drag: scale(random, 1e-9, 10.0),
            front_leaves: 0.5 * random.even(),
            last_leaves: 0.5 + 3.0 * random.even(),
            side_slope: scale(random, 1e-4, 1e-1),
        };
        match run.run() {
            GuidedOutcome::Leaves { lift_off, front, last } => {
                left[0] += 1;
                assert!(lift_off <= front.time && front.time <= last.time, "{seed}");
                assert!((front.travel - run.front_leaves).abs() < 1e-6, "{seed}");
                assert!((last.travel - run.last_leaves).abs() < 1e-6, "{seed}");
                assert!(front.mass >= last.mass && last.mass > 0.0, "{seed}");
                // No more momentum than the motor gave, and never backwards.
                let given = curve.impulse_to(last.time) / (mass - run.propellant);
                assert!(last.speed >= 0.0 && last.speed <= given * (1.0 + 1e-9), "{seed}");
                // The inverse agrees: the speed at the end is first reached there or before.
                let travel = run.travel_for_speed(last.speed * 0.999_999);
                assert!(travel.unwrap() <= run.last_leaves + 1e-6, "{seed}");
                // So does the other: what may be heaviest for this speed isn't below what has it.
                let heaviest = run.mass_for_speed(last.speed * 0.999_999, run.last_leaves);
                assert!(heaviest.unwrap() >= mass * (1.0 - 1e-9), "{seed} {heaviest:?} {run:?}");
            }
            GuidedOutcome::Stays(StayReason::TooHeavy { peak, holds }) => {
                left[1] += 1;
                assert!(peak <= holds, "{seed}");
            }
            GuidedOutcome::Stays(StayReason::FallsBack { travel, time }) => {
                left[2] += 1;
                assert!(travel >= 0.0 && travel < run.last_leaves && time.is_finite(), "{seed}");
            }
            GuidedOutcome::Stays(StayReason::BadNumbers) => panic!("{seed}: {run:?}"),
        }
    }
    assert!(left.iter().all(|n| *n > 20), "{left:?}");
}

#[test]
fn flights_always_end_in_an_answer() {
    let mut landed = 0;
    for seed in 0..400 {
        let random = &mut Random::new(seed);
        let curve = curve(random);
        let length = scale(random, 0.05, 5.0);
        let mass = scale(random, 0.01, 50.0);
        let rigid =
            |mass: f64, x: f64| MassProps { mass, x, i_axial: 0.0, i_transverse: mass * length * length / 12.0 };
        let aerodynamics = Aerodynamics {
            reference_area: 0.003 * length * length,
            body: vec![NormalForce::at(2.0, 0.1 * length), NormalForce::at(20.0 * random.even(), 0.9 * length)],
            fins: Vec::new(),
            planform_area: 0.05 * length * length,
            planform_centroid: 0.5 * length,
            body_lift_k: 1.1,
            drag: Drag::Constant(2.0 * random.even()),
        };
        let wind = Wind::over_open_land(12.0 * random.even(), 15.0);
        let any = |random: &mut Random| match (4.0 * random.even()) as u32 {
            0 => Opens::AfterApogee(0.0),
            1 => Opens::AfterApogee(5.0 * random.even()),
            2 => Opens::Below(200.0 * random.even()),
            _ => Opens::AfterBurnout(9.0 * random.even()),
        };
        let canopies: Vec<Canopy> = (0..(4.0 * random.even()) as u32)
            .map(|_| Canopy { drag_area: scale(random, 1e-3, 10.0), opens: any(random) })
            .collect();
        let flight = Flight {
            curve: &curve,
            mass: BurningMass { dry: rigid(mass, 0.6 * length), propellant: rigid(0.2 * mass, 0.8 * length) },
            nozzle: length,
            aerodynamics: &aerodynamics,
            atmosphere: &Atmosphere::standard(2000.0 * random.even()),
            wind: &wind,
            release: Release {
                time: random.even(),
                height: 3.0 * random.even(),
                speed: scale(random, 0.1, 100.0),
                tilt: 0.6 * random.even() - 0.3,
                rate: 0.2 * random.even() - 0.1,
            },
            canopies: &canopies,
            hung: None,
        };
        match flight.fly() {
            Ok(path) => {
                landed += 1;
                assert!(path.landing.height.abs() < 1e-6, "{seed}: {path:?}");
                assert!(path.apogee.height >= path.landing.height, "{seed}: {path:?}");
                assert!(path.apogee.time <= path.landing.time, "{seed}: {path:?}");
                assert!(path.fastest.speed >= flight.release.speed, "{seed}: {path:?}");
                assert!(path.landing.drift.is_finite() && path.landing.speed.is_finite(), "{seed}");
            }
            // A motor of thousands of newtons in a few grams leaves the air or the hour.
            Err(FlightError::NeverLands | FlightError::Unsound(_)) => {}
            Err(FlightError::Fins(_)) => panic!("{seed}: there are no fins"),
        }
    }
    assert!(landed > 300, "{landed} of 400");
}
