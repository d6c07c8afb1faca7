//! The flight as it is flown against the full equations throughout, at a tolerance of some nine digits: very different
//! rockets, sites and winds, and random ones. Heights, drifts and times agree to 1e-4 of the highest point and its
//! time.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::f64::consts::PI;

use finwright_physics::aerodynamics::{Aerodynamics, Drag};
use finwright_physics::air::{Atmosphere, Wind};
use finwright_physics::canopies::{Canopy, Opens};
use finwright_physics::drag::{DragModel, Edge, FinDrag};
use finwright_physics::fins::FinShape;
use finwright_physics::flight::{Flight, FlightPath, Release};
use finwright_physics::mass::MassProps;
use finwright_physics::monte_carlo::Random;
use finwright_physics::motor::{BurningMass, ThrustCurve};
use finwright_physics::normal_force::{body, FinCountRule, FinSet, NormalForce};
use finwright_physics::nose::NoseShape;
use finwright_physics::section::Section;

/// An invented rocket: an ogive, a tube and fins at its end.
#[derive(Clone, Copy, Debug)]
struct Case {
    name: &'static str,
    /// Calibre in m and length in calibres.
    calibre: f64,
    length: f64,
    /// Dry mass and propellant in kg.
    mass: f64,
    propellant: f64,
    /// Average thrust over lift-off weight, and burn time in s.
    push: f64,
    burn: f64,
    /// Static margin at lift-off, in calibres.
    margin: f64,
    /// The fins' span in calibres; 0 for none, a ring's lift instead.
    span: f64,
    wind: f64,
    tilt: f64,
    elevation: f64,
    roughness: f64,
    speed: f64,
    opens: Option<(Opens, f64)>,
}

const TRAINER: Case = Case {
    name: "a trainer",
    calibre: 0.0416,
    length: 13.0,
    mass: 0.138,
    propellant: 0.012,
    push: 7.0,
    burn: 1.8,
    margin: 1.5,
    span: 1.15,
    wind: 4.0,
    tilt: 0.05,
    elevation: 100.0,
    roughness: 20e-6,
    speed: 14.0,
    opens: Some((Opens::AfterBurnout(5.0), 0.127)),
};

/// What sets each of them apart from the trainer.
#[rustfmt::skip]
fn cases() -> Vec<Case> {
    let late = Some((Opens::AfterApogee(1.0), 0.127));
    vec![
        TRAINER,
        Case { name: "nothing opens", opens: None, ..TRAINER },
        Case { name: "opens while it burns out", opens: Some((Opens::AfterBurnout(0.2), 0.05)), ..TRAINER },
        Case { name: "a long delay, nose down", opens: Some((Opens::AfterBurnout(12.0), 0.02)), ..TRAINER },
        Case { name: "small and light", calibre: 0.018, mass: 0.02, propellant: 0.003, burn: 0.6, push: 15.0, opens: Some((Opens::AfterBurnout(4.0), 0.04)), ..TRAINER },
        Case { name: "heavy", calibre: 0.15, mass: 22.0, propellant: 4.0, burn: 4.0, push: 8.0, speed: 22.0, wind: 6.0, opens: Some((Opens::AfterApogee(0.0), 6.0)), ..TRAINER },
        Case { name: "heavy, with a drogue", calibre: 0.1, mass: 8.0, propellant: 2.0, burn: 3.0, push: 9.0, speed: 20.0, opens: Some((Opens::AfterApogee(1.0), 0.2)), ..TRAINER },
        Case { name: "a long burn", burn: 9.0, push: 2.6, propellant: 0.05, mass: 0.25, speed: 11.0, opens: late, ..TRAINER },
        Case { name: "a hard push", burn: 0.35, push: 28.0, speed: 30.0, opens: late, ..TRAINER },
        Case { name: "fast: Mach 0.9", calibre: 0.03, burn: 2.5, push: 15.0, mass: 0.3, propellant: 0.12, speed: 22.0, roughness: 2e-6, opens: late, ..TRAINER },
        Case { name: "half a calibre of margin", margin: 0.5, opens: late, ..TRAINER },
        Case { name: "five calibres of margin", margin: 5.0, length: 22.0, opens: late, ..TRAINER },
        Case { name: "calm and upright", wind: 0.0, tilt: 0.0, opens: late, ..TRAINER },
        Case { name: "calm, leaning", wind: 0.0, tilt: 0.3, opens: late, ..TRAINER },
        Case { name: "a gale", wind: 12.0, speed: 20.0, opens: late, ..TRAINER },
        Case { name: "a gale, leaning into it", wind: 12.0, tilt: -0.25, speed: 20.0, opens: None, ..TRAINER },
        Case { name: "a gale, leaning away", wind: 12.0, tilt: 0.3, opens: Some((Opens::Below(60.0), 0.3)), ..TRAINER },
        Case { name: "on a mountain", elevation: 3200.0, opens: late, ..TRAINER },
        Case { name: "smooth skin", roughness: 1e-6, opens: late, ..TRAINER },
        Case { name: "rough skin", roughness: 150e-6, opens: None, ..TRAINER },
        Case { name: "a ring that hardly damps", span: 0.0, margin: 0.8, opens: late, ..TRAINER },
        Case { name: "barely leaves the ground", push: 1.6, burn: 1.2, speed: 6.0, opens: None, ..TRAINER },
        Case { name: "to five kilometres", calibre: 0.075, length: 25.0, mass: 4.0, propellant: 2.5, burn: 5.5, push: 6.5, speed: 25.0, opens: Some((Opens::AfterApogee(0.0), 0.3)), ..TRAINER },
        Case { name: "almost unstable", margin: 0.05, opens: late, ..TRAINER },
        Case { name: "unstable", margin: -0.3, opens: late, ..TRAINER },
    ]
}

fn random(random: &mut Random) -> Case {
    let mut between = |least: f64, most: f64| least + (most - least) * random.even();
    let mass = 0.02 * 500_f64.powf(between(0.0, 1.0));
    let opens = match between(0.0, 5.0) as u32 {
        0 => None,
        1 => Some(Opens::AfterApogee(between(0.0, 3.0))),
        2 => Some(Opens::Below(between(20.0, 150.0))),
        _ => Some(Opens::AfterBurnout(between(0.0, 9.0))),
    };
    Case {
        name: "random",
        calibre: 0.018 + 0.035 * mass.cbrt() * between(0.8, 1.5),
        length: between(9.0, 25.0),
        mass,
        propellant: mass * between(0.03, 0.35),
        push: between(3.0, 18.0),
        burn: 0.3 * 15_f64.powf(between(0.0, 1.0)),
        margin: between(0.4, 4.0),
        span: if between(0.0, 1.0) < 0.15 { 0.0 } else { between(0.7, 1.8) },
        wind: between(0.0, 12.0),
        tilt: between(-0.2, 0.2),
        elevation: between(0.0, 2500.0),
        roughness: 1e-6 * 100_f64.powf(between(0.0, 1.0)),
        speed: between(12.0, 28.0),
        opens: opens.map(|opens| (opens, 0.4 * mass * between(0.1, 2.0))),
    }
}

fn aerodynamics(case: &Case) -> Aerodynamics {
    let (radius, length) = (0.5 * case.calibre, case.length * case.calibre);
    let nose = Section::nose(NoseShape::Ogive, 3.0 * case.calibre, radius).unwrap();
    let tube = Section::cylinder(length - 3.0 * case.calibre, radius).unwrap();
    let area = PI * radius * radius;
    let mut drag = DragModel::of_body(&[(nose, 15e-6), (tube, case.roughness)], area);
    drag.jet_area = 0.3 * drag.base_area;
    let (front, back) = (nose.geometry(), tube.geometry());
    let mut pieces = vec![body(&nose, &front, 0.0, area), body(&tube, &back, 3.0 * case.calibre, area)];
    let mut fins = Vec::new();
    if case.span > 0.0 {
        let size = case.calibre * case.span;
        let fin = FinShape::Trapezoid { root: 1.5 * size, tip: 0.8 * size, span: size, sweep: 0.8 * size };
        let fin = fin.geometry().unwrap();
        let (roughness, leading, trailing) = (case.roughness, Edge::Rounded, Edge::Blunt);
        drag.fins.push(FinDrag { fin, count: 3, thickness: 0.06 * case.calibre, roughness, leading, trailing });
        let x = length - 1.5 * size;
        fins.push(FinSet { fin, count: 3, body_radius: radius, x, rule: FinCountRule::default() });
    } else {
        pieces.push(NormalForce::at(7.0, length - case.calibre));
    }
    Aerodynamics {
        reference_area: area,
        body: pieces,
        fins,
        planform_area: front.planform_area + back.planform_area,
        planform_centroid: 0.55 * length,
        body_lift_k: 1.1,
        drag: Drag::BuildUp(drag),
    }
}

/// Flies a case both ways, and by the full equations from a release that turns a thousandth of a degree a second
/// faster.
fn flown(case: &Case) -> [FlightPath; 3] {
    let aerodynamics = aerodynamics(case);
    let length = case.length * case.calibre;
    let pressure = aerodynamics.normal_force(0.2, 0.0).unwrap().x().unwrap();
    let (balance, motor) = (pressure - case.margin * case.calibre, length - 1.5 * case.calibre);
    let dry_x = balance + (balance - motor) * case.propellant / case.mass;
    let rod =
        |mass: f64, x: f64, long: f64| MassProps { mass, x, i_axial: 0.0, i_transverse: mass * long * long / 12.0 };
    let weight = 9.80665 * (case.mass + case.propellant);
    // A spike and a plateau.
    let shape = [0.0, 1.9, 2.2, 1.4, 1.15, 1.05, 1.0, 1.0, 1.0, 0.95, 0.9, 0.5, 0.0];
    let times = [0.0, 0.02, 0.06, 0.12, 0.18, 0.26, 0.36, 0.5, 0.62, 0.74, 0.86, 0.95, 1.0];
    let points = times.iter().zip(shape).map(|(t, f)| (case.burn * t, 0.95 * case.push * weight * f)).collect();
    let curve = ThrustCurve::new(points).unwrap();
    let canopies: Vec<Canopy> = case.opens.map(|(opens, drag_area)| Canopy { drag_area, opens }).into_iter().collect();
    let flight = Flight {
        curve: &curve,
        mass: BurningMass {
            dry: rod(case.mass, dry_x, 0.75 * length),
            propellant: rod(case.propellant, motor, 2.0 * case.calibre),
        },
        nozzle: length,
        aerodynamics: &aerodynamics,
        atmosphere: &Atmosphere::standard(case.elevation).with_temperature(295.0),
        wind: &Wind::over_open_land(case.wind, case.wind),
        release: Release { time: 0.13 * case.burn, height: 1.0, speed: case.speed, tilt: case.tilt, rate: 0.02 },
        canopies: &canopies,
        hung: None,
    };
    let fast = flight.fly().unwrap_or_else(|e| panic!("{case:?}: {e:?}"));
    let full = flight.fly_full().unwrap_or_else(|e| panic!("{case:?}: {e:?}"));
    let release = Release { rate: flight.release.rate + 1e-3_f64.to_radians(), ..flight.release };
    let beside = Flight { release, ..flight }.fly_full().unwrap_or_else(|e| panic!("{case:?}: {e:?}"));
    [fast, full, beside]
}

/// The greatest differences: of heights and drifts as a share of the highest point or of the way drifted, of times as a
/// share of the whole, and of speeds as a share of the greatest.
fn apart(fast: &FlightPath, full: &FlightPath) -> (f64, f64) {
    let (high, whole, top) = (full.apogee.height, full.apogee.time, full.fastest.speed);
    let mut marks = vec![(fast.apogee, full.apogee), (fast.landing, full.landing)];
    marks.extend(fast.burnout.zip(full.burnout));
    assert_eq!(fast.openings.len(), full.openings.len());
    marks.extend(fast.openings.iter().zip(&full.openings).map(|(fast, full)| (fast.moment, full.moment)));
    let mut places: f64 = 0.0;
    let mut speeds = (fast.fastest.speed / top - 1.0).abs();
    for (fast, full) in marks {
        places = places.max((fast.height - full.height).abs() / high);
        places = places.max((fast.drift - full.drift).abs() / high.max(full.drift.abs()));
        places = places.max((fast.time - full.time).abs() / full.time.max(whole));
        speeds = speeds.max((fast.speed - full.speed).abs() / top);
    }
    (places, speeds)
}

/// A rocket that leans further than this at its highest point, in rad, has gone over backwards.
const BACKWARDS: f64 = 2.0;

#[test]
fn as_the_full_equations() {
    for case in cases() {
        let [fast, full, _] = flown(&case);
        let (places, speeds) = apart(&fast, &full);
        // In what tumbles the least difference grows with every turn.
        let limit = if full.apogee.tilt.abs() > BACKWARDS { 1e-3 } else { 1e-4 };
        assert!(places < limit, "{}: {places:e}\n{fast:?}\n{full:?}", case.name);
        assert!(speeds < 3e-4, "{}: speeds {speeds:e}\n{fast:?}\n{full:?}", case.name);
    }
}

/// Holds a random rocket to the full equations below Mach 0.9; whether it could be. One that tumbles, or that a
/// thousandth of a degree a second sends elsewhere, doesn't repeat itself: the least difference grows with every turn.
fn agrees(run: u64, case: &Case) -> bool {
    let [fast, full, beside] = flown(case);
    let repeats = full.apogee.tilt.abs() < BACKWARDS && apart(&beside, &full).0 < 1e-4;
    if !repeats || full.fastest.speed > 310.0 {
        return false;
    }
    let (places, speeds) = apart(&fast, &full);
    assert!(places < 1e-4, "{run}: {places:e} {case:?}\n{fast:?}\n{full:?}");
    assert!(speeds < 3e-4, "{run}: speeds {speeds:e} {case:?}\n{fast:?}\n{full:?}");
    true
}

#[test]
fn as_the_full_equations_for_random_rockets() {
    let mut compared = 0;
    for run in 0..300 {
        let case = random(&mut Random::for_run(20, run));
        compared += usize::from(agrees(run, &case));
    }
    assert!(compared > 200, "{compared}");
}

/// Its skin counts as rough for less than a step, where it's fastest.
#[test]
fn rough_for_a_moment() {
    assert!(agrees(30, &random(&mut Random::for_run(24, 30))));
}

/// What opens on the way up or about the highest point, as a motor's delay is chosen: less is asked of the climb's last
/// part then, and it comes out the same.
#[test]
fn as_the_full_equations_where_it_opens_about_the_top() {
    let mut compared = 0;
    for run in 0..200 {
        let free = Case { opens: None, ..random(&mut Random::for_run(20, run)) };
        let [_, alone, _] = flown(&free);
        if alone.apogee.tilt.abs() > BACKWARDS {
            continue;
        }
        let mut random = Random::for_run(21, run);
        let drag_area = 0.4 * free.mass * (0.1 + random.even());
        let opens = if random.even() < 0.6 {
            Opens::AfterBurnout(alone.apogee.time - free.burn - 2.0 + 3.0 * random.even())
        } else {
            Opens::AfterApogee(random.even())
        };
        let case = Case { opens: Some((opens, drag_area)), ..free };
        compared += usize::from(agrees(run, &case));
    }
    assert!(compared > 150, "{compared}");
}
