//! The guided run against closed forms: physics.md's cases G1 to G4, the ramps, R1 on its rod.
//!
//! [own] worked out by closed form and confirmed by an independent integrator; [mem] published
//! formula from memory.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::assert_near;
use finwright_physics::guided::{travel, GuidedOutcome, GuidedRun, Passage, StayReason};
use finwright_physics::motor::ThrustCurve;

fn steady(thrust: f64) -> ThrustCurve {
    ThrustCurve::new(vec![(0.0, thrust), (10.0, thrust)]).unwrap()
}

fn ramp(rise_time: f64, thrust: f64) -> ThrustCurve {
    ThrustCurve::new(vec![(0.0, 0.0), (rise_time, thrust), (10.0, thrust)]).unwrap()
}

fn on_guide(curve: &ThrustCurve, mass: f64, length: f64) -> GuidedRun<'_> {
    GuidedRun {
        curve,
        mass,
        propellant: 0.0,
        tilt: 0.0,
        friction: 0.0,
        side_force: 0.0,
        side_slope: 0.0,
        drag: 0.0,
        front_leaves: length,
        last_leaves: length,
    }
}

fn leaves(run: GuidedRun) -> (f64, Passage, Passage) {
    match run.run() {
        GuidedOutcome::Leaves { lift_off, front, last } => (lift_off, front, last),
        GuidedOutcome::Stays(reason) => panic!("stays: {reason:?}"),
    }
}

/// [own] G1.
#[test]
fn g1_light_rocket_with_and_without_drag() {
    let curve = steady(6.0);
    let run = on_guide(&curve, 0.1, 0.9);
    let (lift_off, _, last) = leaves(run);
    assert_eq!(lift_off, 0.0);
    assert_near(last.acceleration, 50.193350, 1e-6);
    assert_near(last.speed, 9.505158, 1e-6);
    assert_near(last.time, 0.189371, 1e-6);
    let (_, _, last) = leaves(GuidedRun { drag: 2.219016847e-4, ..run });
    assert_near(last.speed, 9.495675, 1e-6);
}

/// [own] G2, upright and tilted 5 degrees with friction 0.2.
#[test]
fn g2_tilt_and_friction() {
    let curve = steady(30.0);
    let run = on_guide(&curve, 0.5, 1.2);
    let (_, _, last) = leaves(run);
    assert_near(last.acceleration, 50.193350, 1e-6);
    assert_near(last.speed, 10.975611, 1e-6);
    assert_near(last.time, 0.218667, 1e-6);
    let (_, _, last) = leaves(GuidedRun { tilt: 5f64.to_radians(), friction: 0.2, ..run });
    assert_near(last.acceleration, 50.059726, 1e-6);
    assert_near(last.speed, 10.960992, 1e-6);
}

/// [own] G3; the value without gravity, 16.33 m/s, is the mistake this catches.
#[test]
fn g3_heavy_rocket() {
    let curve = steady(200.0);
    let run = on_guide(&curve, 3.0, 2.0);
    let (_, _, last) = leaves(run);
    assert_near(last.acceleration, 56.860017, 1e-6);
    assert_near(last.speed, 15.081116, 1e-6);
    assert_near(last.time, 0.265232, 1e-6);
    let (_, _, last) = leaves(GuidedRun { drag: 2.310032713e-3, ..run });
    assert_near(last.speed, 15.069511, 1e-6);
}

/// [own] G4: five times the weight on a metre of guide.
#[test]
fn g4_five_times_the_weight() {
    let curve = steady(0.1 * 9.80665 * 5.0);
    let (_, _, last) = leaves(on_guide(&curve, 0.1, 1.0));
    assert_near(last.acceleration, 39.226600, 1e-6);
    assert_near(last.speed, 8.857381, 1e-6);
    assert_near(last.time, 0.225800, 1e-6);
}

/// [own] Thrust that rises over a time; the second exit lies still within the rise.
#[test]
fn ramps() {
    for (mass, thrust, rise_time, length, lift_off, speed, time) in [
        (0.1, 10.0, 0.2, 0.9, 0.019613, 11.844386, 0.241129),
        (0.1, 10.0, 0.5, 0.9, 0.5 * 0.0980665, 9.0, 0.349033),
        (0.5, 40.0, 0.1, 1.2, 0.1 * 4.903325 / 40.0, 12.857024, 0.239295),
    ] {
        let curve = ramp(rise_time, thrust);
        let (t0, _, last) = leaves(on_guide(&curve, mass, length));
        assert_near(t0, lift_off, 1e-6);
        assert_near(last.speed, speed, 1e-6);
        assert_near(last.time, time, 1e-6);
    }
}

/// [own] R1 on a 0.9144 m rod, its aft end 0.05 m up, with a 30 mm lug centred on the balance point.
#[test]
fn r1_travel_is_not_guide_length() {
    let curve = steady(8.0);
    let balance_above_aft = 0.300 - 0.216144654;
    let front = travel(0.9144, 0.05, balance_above_aft + 0.015);
    let last = travel(0.9144, 0.05, balance_above_aft - 0.015);
    assert_near(front, 0.765545, 1e-6);
    assert_near(last, 0.795545, 1e-6);
    let run = GuidedRun { front_leaves: front, last_leaves: last, ..on_guide(&curve, 0.039957488, last) };
    let (_, at_front, at_last) = leaves(run);
    assert_near(at_front.speed, 17.074214, 1e-6);
    assert_near(at_last.speed, 17.405550, 1e-6);
    assert_near(at_last.acceleration, 190.406136, 1e-6);
    assert!(at_front.time < at_last.time);
}

/// [own] Guide length for a speed at a thrust-to-weight ratio: s = v²/(2 g (n − 1)).
#[test]
fn length_for_a_speed() {
    for (speed, ratio, length) in [
        (13.4112, 3.0, 4.585161),
        (13.4112, 5.0, 2.292581),
        (13.4112, 8.0, 1.310046),
        (13.4112, 10.0, 1.018925),
        (15.0, 3.0, 5.735904),
        (15.0, 10.0, 1.274645),
        (20.0, 5.0, 5.098581),
        (20.0, 8.0, 2.913475),
    ] {
        let curve = steady(0.2 * 9.80665 * ratio);
        let run = on_guide(&curve, 0.2, 1.0);
        assert_near(run.travel_for_speed(speed).unwrap(), length, 1e-6);
    }
}

/// The greatest mass really reaches the speed, and a gram more doesn't.
/// [own] v² = 2 s (T/m − g) gives m = T/(v²/(2 s) + g) for steady thrust.
#[test]
fn mass_for_a_speed() {
    let curve = steady(30.0);
    let run = on_guide(&curve, 0.5, 1.2);
    let mass = run.mass_for_speed(12.0, 1.2).unwrap();
    assert_near(mass, 30.0 / (144.0 / 2.4 + 9.80665), 1e-9);
    // Slower than now: the answer lies above the present mass.
    assert!(run.mass_for_speed(9.0, 1.2).unwrap() > 0.5);
    let with_propellant = GuidedRun { propellant: 0.06, ..run };
    let mass = with_propellant.mass_for_speed(12.0, 1.2).unwrap();
    let (_, _, last) = leaves(GuidedRun { mass, ..with_propellant });
    assert_near(last.speed, 12.0, 1e-9);
}

/// A long wait before the thrust comes changes nothing but the clock.
#[test]
fn delayed_ignition_only_shifts_the_clock() {
    let prompt = ThrustCurve::new(vec![(0.0, 0.0), (0.01, 20.0), (0.05, 12.0), (2.0, 12.0)]);
    let late = ThrustCurve::new(vec![(0.0, 0.0), (30.0, 0.0), (30.01, 20.0), (30.05, 12.0), (32.0, 12.0)]);
    let (prompt, late) = (prompt.unwrap(), late.unwrap());
    let (t0, _, a) = leaves(on_guide(&prompt, 0.2, 1.0));
    let (t1, _, b) = leaves(on_guide(&late, 0.2, 1.0));
    assert_near(t1 - t0, 30.0, 1e-12);
    assert_near(b.time - a.time, 30.0, 1e-10);
    assert_near(b.speed, a.speed, 1e-9);
}

#[test]
fn stays_when_too_heavy() {
    let curve = ramp(0.1, 5.0);
    match on_guide(&curve, 1.0, 1.0).run() {
        GuidedOutcome::Stays(StayReason::TooHeavy { peak, holds }) => {
            assert_eq!(peak, 5.0);
            assert_near(holds, 9.80665, 1e-12);
        }
        other => panic!("{other:?}"),
    }
}

/// [own] A push of 0.1 s at twice the weight, then nothing: it rises v²/g in all and falls back.
#[test]
fn falls_back_after_a_short_push() {
    let thrust = 2.0 * 9.80665;
    let curve = ThrustCurve::new(vec![(0.0, thrust), (0.1, thrust)]).unwrap();
    let v = 9.80665 * 0.1;
    match on_guide(&curve, 1.0, 1.0).run() {
        GuidedOutcome::Stays(StayReason::FallsBack { travel, time }) => {
            assert_near(travel, v * v / 9.80665, 1e-9);
            assert_near(time, 0.2, 1e-9);
        }
        other => panic!("{other:?}"),
    }
}

/// Burnt propellant alone can bring lift-off under steady thrust: m(t) = m0 − mp t/tb.
/// [own] T = g (m0 − mp t/tb) at t = tb (m0 − T/g)/mp.
#[test]
fn lifts_off_once_light_enough() {
    let (m0, mp, tb) = (1.0, 0.4, 4.0);
    let thrust = 0.9 * 9.80665;
    let curve = ThrustCurve::new(vec![(0.0, thrust), (tb, thrust)]).unwrap();
    let run = GuidedRun { propellant: mp, ..on_guide(&curve, m0, 0.2) };
    assert_near(run.lift_off().unwrap(), tb * 0.1 / mp, 1e-9);
    let (_, _, last) = leaves(run);
    assert!(last.time > 1.0 && last.mass < 0.9);
}

#[test]
fn bad_numbers_are_an_outcome() {
    let curve = steady(6.0);
    let run = on_guide(&curve, 0.1, 0.9);
    for bad in [
        GuidedRun { mass: 0.0, ..run },
        GuidedRun { propellant: 0.2, ..run },
        GuidedRun { tilt: 1.6, ..run },
        GuidedRun { friction: f64::NAN, ..run },
        GuidedRun { front_leaves: 1.0, ..run },
    ] {
        assert_eq!(bad.run(), GuidedOutcome::Stays(StayReason::BadNumbers));
    }
}

/// [own] A speed that is reached only for a moment between two points of the curve: constant mass,
/// thrust falling straight from twice the weight to nothing in 2 s peaks at t = 1 s, v = g/2,
/// s = g (t²/2 − t³/6) = g/3.
#[test]
fn speed_reached_only_at_its_peak() {
    let curve = ThrustCurve::new(vec![(0.0, 2.0 * 9.80665), (2.0, 0.0)]).unwrap();
    let run = on_guide(&curve, 1.0, 100.0);
    let travel = run.travel_for_speed(0.5 * 9.80665 * (1.0 - 1e-9)).unwrap();
    assert_near(travel, 9.80665 / 3.0, 1e-3);
    assert_eq!(run.travel_for_speed(0.5 * 9.80665 * (1.0 + 1e-6)), None);
}

/// [own] G2's acceleration on the tilted guide; then a curve whose peak lies between its ends, without drag or burning
/// mass: F/m less weight at the peak.
#[test]
fn greatest_acceleration() {
    let curve = steady(30.0);
    let run = GuidedRun { tilt: 5f64.to_radians(), friction: 0.2, ..on_guide(&curve, 0.5, 1.2) };
    assert_near(run.run_and_push().1.unwrap(), 50.059726, 1e-6);
    let spike = ThrustCurve::new(vec![(0.0, 20.0), (0.05, 60.0), (0.08, 10.0), (3.0, 10.0)]).unwrap();
    let run = on_guide(&spike, 0.5, 1.2);
    assert_near(run.run_and_push().1.unwrap(), 60.0 / 0.5 - 9.80665, 1e-9);
    assert_eq!(on_guide(&spike, 9.0, 1.2).run_and_push().1, None);
}

/// [own] G2 asked backwards: the tilt of 5 degrees is what just gives its speed, and a side force works through
/// friction alone, F/m less at mu F (closed form v² = 2 s (T − μF)/m − 2 s g without drag).
#[test]
fn tilt_and_side_force_that_just_do() {
    let curve = steady(30.0);
    let run = GuidedRun { friction: 0.2, ..on_guide(&curve, 0.5, 1.2) };
    let tilt = run.tilt_for_speed(10.960992, 1.2, 0.5).unwrap();
    assert_near(tilt.to_degrees(), 5.0, 1e-3);
    assert_eq!(run.tilt_for_speed(10.0, 1.2, 0.5), Some(0.5));
    assert_eq!(run.tilt_for_speed(12.0, 1.2, 0.5), None);
    let force = run.side_force_for_speed(10.0, 1.2).unwrap();
    let closed = (30.0 - 0.5 * (9.80665 + 100.0 / (2.0 * 1.2))) / 0.2;
    assert_near(force, closed, 1e-6);
    assert_eq!(GuidedRun { friction: 0.0, ..run }.side_force_for_speed(10.0, 1.2), None);
    assert_eq!(run.side_force_for_speed(12.0, 1.2), None);
}

/// [own] Steady thrust against a drag from slight to so great that it's at its greatest speed after millimetres:
/// v = V tanh(t/τ) and s = V τ ln cosh(t/τ), with V² = (T − m g)/k and τ = m V/(T − m g).
#[test]
fn a_drag_that_takes_over_at_once() {
    for drag in [0.02, 2.0, 200.0] {
        let curve = steady(60.0);
        let (_, front, last) = leaves(GuidedRun { drag, front_leaves: 0.01, ..on_guide(&curve, 0.5, 3.0) });
        let push = 60.0 - 0.5 * 9.80665;
        let most = f64::sqrt(push / drag);
        let tau = 0.5 * most / push;
        for passage in [front, last] {
            let z = passage.travel / (most * tau);
            let time = tau * (z + (1.0 - (-2.0 * z).exp()).sqrt().ln_1p());
            assert_near(passage.time, time, 1e-9);
            assert_near(passage.speed, most * (time / tau).tanh(), 1e-9);
        }
    }
}

/// [own] Without drag the greatest acceleration of a leg may lie inside it: thrust falls from F to nothing in a second
/// while the mass m goes down by p, all of it at the rate of the thrust. With s the share of the second, T = F (1 − s) and
/// m(s) = m − p (2 s − s²) = (m − p) + p (1 − s)²; T/m is greatest where p (1 − s)² = m − p.
#[test]
fn greatest_acceleration_inside_a_leg() {
    let curve = ThrustCurve::new(vec![(0.0, 60.0), (1.0, 0.0)]).unwrap();
    let (mass, propellant) = (0.5, 0.4);
    let run = GuidedRun { propellant, ..on_guide(&curve, mass, 50.0) };
    let left = f64::sqrt((mass - propellant) / propellant);
    let closed = 60.0 * left / (2.0 * (mass - propellant)) - 9.80665;
    assert_near(run.run_and_push().1.unwrap(), closed, 1e-9);
}
