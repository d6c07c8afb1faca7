//! Free flight: physics.md's cases F1 to F4, variable mass, vacuum, the single swing of section 9.
//!
//! [own] closed forms, confirmed by an independent integrator; [mem] published formulas.
#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use crate::common::{assert_close, assert_near};
use finwright_physics::aerodynamics::{Aerodynamics, Drag};
use finwright_physics::air::{Air, Atmosphere, Wind};
use finwright_physics::canopies::{Canopy, Opens};
use finwright_physics::descent::{descent_speed, fall_time};
use finwright_physics::fins::FinShape;
use finwright_physics::flight::{landing_speed, Flight, FlightError, Moment, Release};
use finwright_physics::mass::MassProps;
use finwright_physics::motor::{BurningMass, ThrustCurve};
use finwright_physics::normal_force::{FinCountRule, FinLiftError, FinSet, NormalForce};

fn sea_level() -> Atmosphere {
    Atmosphere::even(Air { density: 1.225, ..Air::new(288.15, 101325.0) })
}

fn body(mass: f64) -> MassProps {
    MassProps { mass, x: 0.19, i_axial: 0.0, i_transverse: 4e-4 }
}

fn aerodynamics(area: f64, cd: f64, parts: &[NormalForce]) -> Aerodynamics {
    Aerodynamics {
        reference_area: area,
        body: parts.to_vec(),
        fins: Vec::new(),
        planform_area: 0.0,
        planform_centroid: 0.0,
        body_lift_k: 0.0,
        drag: Drag::Constant(cd),
    }
}

fn disc(d: f64) -> f64 {
    0.25 * PI * d * d
}

const FROM_REST: Release = Release { time: 0.0, height: 0.0, speed: 0.0, tilt: 0.0, rate: 0.0 };

/// [own] F1 to F4: constant mass and thrust in even air.
#[test]
fn f1_to_f4() {
    #[rustfmt::skip]
    let rows = [
        (0.100, 6.0, 0.85, 0.75, 0.0248, 41.555595, 17.894251, 92.216161, 4.637177),
        (0.500, 30.0, 2.0, 0.55, 0.054, 91.161592, 95.594991, 366.558702, 8.928162),
        (3.0, 200.0, 3.0, 0.50, 0.098, 151.220419, 240.644354, 908.185702, 13.698552),
        (0.060, 3.0, 1.2, 0.60, 0.0185, 46.756207, 28.490951, 123.435963, 5.486687),
    ];
    for (mass, thrust, burn, cd, d, speed, height, top, time) in rows {
        let curve = ThrustCurve::new(vec![(0.0, thrust), (burn, thrust)]).unwrap();
        let aerodynamics = aerodynamics(disc(d), cd, &[]);
        let flight = Flight {
            curve: &curve,
            mass: BurningMass { dry: body(mass), propellant: MassProps::ZERO },
            nozzle: 0.3,
            aerodynamics: &aerodynamics,
            atmosphere: &sea_level(),
            wind: &Wind::CALM,
            release: FROM_REST,
            canopies: &[],
            hung: None,
        };
        let path = flight.fly().unwrap();
        let out = path.burnout.unwrap();
        assert_close(out.speed, speed, 1e-6);
        assert_close(out.height, height, 1e-6);
        assert_close(path.fastest.speed, speed, 1e-6);
        assert_close(path.apogee.height, top, 1e-6);
        assert_close(path.apogee.time, time, 1e-6);
        assert_near(path.apogee.drift, 0.0, 1e-9);
        // As high as it would have climbed, whatever opens on the way.
        let early = [Canopy { drag_area: 1.0, opens: Opens::AfterBurnout(0.5) }];
        let (opened, climbed) = Flight { canopies: &early, ..flight }.fly_and_free().unwrap();
        assert!(opened.apogee.height < 0.99 * top);
        assert_close(climbed.height, top, 1e-6);
        assert_close(climbed.time, time, 1e-6);
    }
}

/// [own] Mass burnt off without drag: v = c ln(m0/m1) − g tb, and the height it gives.
#[test]
fn variable_mass_without_drag() {
    let curve = ThrustCurve::new(vec![(0.0, 30.0), (2.0, 30.0)]).unwrap();
    let aerodynamics = aerodynamics(1e-3, 0.0, &[]);
    let path = Flight {
        curve: &curve,
        mass: BurningMass { dry: body(0.44), propellant: MassProps::point(0.06, 0.25) },
        nozzle: 0.3,
        aerodynamics: &aerodynamics,
        atmosphere: &sea_level(),
        wind: &Wind::CALM,
        release: FROM_REST,
        canopies: &[],
        hung: None,
    }
    .fly()
    .unwrap();
    let out = path.burnout.unwrap();
    assert_close(out.speed, 108.220072, 1e-7);
    assert_close(out.height, 105.497251, 1e-7);
    assert_close(path.apogee.height, 702.621849, 1e-7);
}

/// [own] Ballistics without air, by elevation: time of flight, height, range.
#[test]
fn vacuum() {
    let curve = ThrustCurve::new(vec![(0.0, 1.0), (0.1, 1.0)]).unwrap();
    let aerodynamics = aerodynamics(1e-3, 0.0, &[]);
    for (speed, elevation, time, height, range) in [
        (100.0, 85.0, 20.316718, 505.985161, 177.071862),
        (60.0, 80.0, 12.050693, 178.014241, 125.554855),
        (30.0, 70.0, 5.749319, 40.519443, 58.991485),
    ] {
        let path = Flight {
            curve: &curve,
            mass: BurningMass { dry: body(0.5), propellant: MassProps::ZERO },
            nozzle: 0.3,
            aerodynamics: &aerodynamics,
            atmosphere: &sea_level(),
            wind: &Wind::CALM,
            release: Release { time: 1.0, speed, tilt: f64::to_radians(90.0 - elevation), ..FROM_REST },
            canopies: &[],
            hung: None,
        }
        .fly()
        .unwrap();
        assert_eq!(path.burnout, None);
        assert_close(path.landing.time - 1.0, time, 1e-7);
        assert_close(path.apogee.height, height, 1e-7);
        assert_close(path.landing.drift, range, 1e-7);
        assert_near(path.landing.height, 0.0, 1e-9);
    }
}

/// [own] Section 9's single case: released across the wind, the angle of attack swings over to
/// 14.684941/18.434949 of itself. The closed form holds the speed and the path, so the rocket is
/// made heavy and fast here: the damping ratio and the length of a swing don't depend on speed.
#[test]
fn swing_after_release() {
    let parts = [NormalForce::at(2.0, 0.0323805), NormalForce::at(14.3, 0.28)];
    let aerodynamics = aerodynamics(disc(0.0248), 0.0, &parts);
    let curve = ThrustCurve::new(vec![(0.0, 1.0), (0.1, 1.0)]).unwrap();
    let (speed, wind): (f64, f64) = (300.0, 3.0);
    let breeze = Wind { speed: wind, gust: wind, ..Wind::CALM };
    let flight = Flight {
        curve: &curve,
        mass: BurningMass { dry: body(1e4), propellant: MassProps::ZERO },
        nozzle: 0.3,
        aerodynamics: &aerodynamics,
        atmosphere: &sea_level(),
        wind: &breeze,
        release: Release { time: 1.0, speed, ..FROM_REST },
        canopies: &[Canopy { drag_area: 1e6, opens: Opens::AfterBurnout(1.0) }],
        hung: None,
    };
    // The air comes from upwind: the nose turns there (negative tilt) and overshoots. At every step
    // the angle of attack follows the damped cosine whose opposite peak the case gives.
    let alpha = (wind / speed).atan();
    let (natural, ratio): (f64, f64) = (12.717175 * speed / 15.0, 0.072203);
    let damped = natural * (1.0 - ratio * ratio).sqrt();
    let overshoot = (-PI * ratio * natural / damped).exp();
    assert_close(overshoot, 14.684941 / 18.434949, 1e-5);
    let mut seen = 0;
    flight
        .fly_with(|moment: &Moment| {
            let t = moment.time - 1.0;
            if t > 3.0 * PI / damped {
                return;
            }
            let decay = ratio * natural;
            let swung = (-decay * t).exp() * ((damped * t).cos() + decay / damped * (damped * t).sin());
            assert_near(moment.tilt, alpha * (swung - 1.0), 2e-3 * alpha);
            seen += 1;
        })
        .unwrap();
    assert!(seen > 7, "{seen}");
}

/// [own] Under the canopy: settling time and speed agree with the closed forms, drift with wind.
#[test]
fn canopy() {
    let curve = ThrustCurve::new(vec![(0.0, 1.0), (0.1, 1.0)]).unwrap();
    let aerodynamics = aerodynamics(1e-3, 0.0, &[]);
    let (mass, wind) = (0.5, 4.0);
    let drag_area = 0.3;
    let terminal = descent_speed(mass, 1.225, drag_area);
    let flight = Flight {
        curve: &curve,
        mass: BurningMass { dry: body(mass), propellant: MassProps::ZERO },
        nozzle: 0.3,
        aerodynamics: &aerodynamics,
        atmosphere: &sea_level(),
        wind: &Wind::CALM,
        release: Release { time: 1.0, speed: 40.0, ..FROM_REST },
        canopies: &[Canopy { drag_area, opens: Opens::AfterApogee(0.0) }],
        hung: None,
    };
    let path = flight.fly().unwrap();
    let top = path.apogee.height;
    assert_close(top, 40.0 * 40.0 / (2.0 * 9.80665), 1e-7);
    let down = path.landing.time - path.apogee.time;
    assert_close(down, fall_time(top, terminal), 1e-6);
    assert_close(path.landing.speed, terminal, 1e-5);
    assert_eq!(path.openings[0].moment.time, path.apogee.time);

    let breeze = Wind { speed: wind, gust: wind, ..Wind::CALM };
    let drifted = Flight { wind: &breeze, ..flight }.fly().unwrap();
    // Once it moves with the air it drifts at wind speed; it gets there in about vt/g.
    let far = wind * (drifted.landing.time - drifted.apogee.time);
    let lag = wind * 2.0 * terminal / 9.80665;
    assert!(drifted.landing.drift < far && drifted.landing.drift > far - lag);

    // A delay after burn-out opens it on the way up: lower than ballistic, and at that time.
    let early = Flight { canopies: &[Canopy { drag_area, opens: Opens::AfterBurnout(2.0) }], ..flight }.fly().unwrap();
    assert_near(early.openings[0].moment.time, 2.1, 1e-12);
    assert!(early.apogee.height < top && early.apogee.time > 2.1);
}

/// [own] Canopies that are open together add their drag areas: two come down as one of both areas does.
#[test]
fn canopies_open_together() {
    let curve = ThrustCurve::new(vec![(0.0, 1.0), (0.1, 1.0)]).unwrap();
    let aerodynamics = aerodynamics(1e-3, 0.0, &[]);
    let opens = Opens::AfterApogee(1.5);
    let flight = upwards(&curve, &aerodynamics, &[]);
    let both = [Canopy { drag_area: 0.1, opens }, Canopy { drag_area: 0.2, opens }];
    let both = Flight { canopies: &both, ..flight }.fly().unwrap();
    let one = Flight { canopies: &[Canopy { drag_area: 0.3, opens }], ..flight }.fly().unwrap();
    assert_near(both.landing.time, one.landing.time, 1e-9);
    assert_near(both.openings[0].moment.time, both.apogee.time + 1.5, 1e-9);
    assert_eq!((both.openings.len(), both.openings[0].open.as_slice()), (1, [true, true].as_slice()));
}

/// [own] A small canopy at the top and a large one on the way down, each leg by its closed form: v² = vt² + (v0² − vt²)
/// exp(−2 g s/vt²) after s m below the height at which the speed is v0.
#[test]
fn a_small_canopy_and_a_large_one() {
    let curve = ThrustCurve::new(vec![(0.0, 1.0), (0.1, 1.0)]).unwrap();
    let aerodynamics = aerodynamics(1e-3, 0.0, &[]);
    let (mass, small, large, height) = (0.5, 0.02, 0.3, 60.0);
    let canopies = [
        Canopy { drag_area: large, opens: Opens::Below(height) },
        Canopy { drag_area: small, opens: Opens::AfterApogee(0.0) },
    ];
    let path = upwards(&curve, &aerodynamics, &canopies).fly().unwrap();
    let top = path.apogee.height;
    let (fast, slow) = (descent_speed(mass, 1.225, small), descent_speed(mass, 1.225, small + large));
    let after = |from: f64, terminal: f64, s: f64| {
        (terminal * terminal + (from * from - terminal * terminal) * (-2.0 * 9.80665 * s / (terminal * terminal)).exp())
            .sqrt()
    };
    let opening = after(0.0, fast, top - height);
    let [first, second] = path.openings.as_slice() else { unreachable!() };
    assert_eq!((first.open.as_slice(), second.open.as_slice()), ([false, true].as_slice(), [true, true].as_slice()));
    assert_near(second.moment.height, height, 1e-6);
    assert_close(second.moment.speed, opening, 1e-5);
    assert_close(second.moment.time - path.apogee.time, fall_time(top - height, fast), 1e-5);
    // Simpson's rule over the height for the last leg's time.
    let n = 20_000;
    let step = height / f64::from(n);
    let sum: f64 = (0..=n)
        .map(|i| {
            let weight = if i == 0 || i == n { 1.0 } else { 2.0 + 2.0 * f64::from(i % 2) };
            weight / after(opening, slow, f64::from(i) * step)
        })
        .sum();
    assert_close(path.landing.time - second.moment.time, sum * step / 3.0, 1e-5);
    assert_close(path.landing.speed, slow, 1e-5);
    // One that opens higher than the rocket climbs does so at the top.
    let high = [Canopy { drag_area: large, opens: Opens::Below(1e4) }];
    let high = upwards(&curve, &aerodynamics, &high).fly().unwrap();
    assert_eq!(high.openings[0].moment.time, high.apogee.time);
}

/// The landing speed without a flight is the flight's, in still air and in wind.
#[test]
fn landing_speed_without_a_flight() {
    let curve = ThrustCurve::new(vec![(0.0, 1.0), (0.1, 1.0)]).unwrap();
    let aerodynamics = aerodynamics(1e-3, 0.0, &[]);
    let air = sea_level();
    for (wind, drag_area) in [(0.0, 0.3), (4.0, 0.3), (9.0, 0.1)] {
        let wind = Wind::over_open_land(wind, wind);
        let canopies = [Canopy { drag_area, opens: Opens::AfterApogee(0.0) }];
        let upwards = Flight { wind: &wind, ..upwards(&curve, &aerodynamics, &canopies) };
        let speed = landing_speed(0.5, drag_area, &air, &wind).unwrap();
        assert_close(speed, upwards.fly().unwrap().landing.speed, 1e-3);
    }
    assert!(landing_speed(f64::NAN, 0.3, &air, &Wind::CALM).is_err());
}

/// Half a kilogram going straight up at 40 m/s in air of one density, without drag of its own.
/// Whoever would wait for more than an hour is told so, and not of a landing.
#[test]
fn never_lands() {
    let curve = ThrustCurve::new(vec![(0.0, 1.0), (0.1, 1.0)]).unwrap();
    let aerodynamics = aerodynamics(1e-3, 0.0, &[]);
    let down = |drag_area: f64| {
        let canopies = [Canopy { drag_area, opens: Opens::AfterApogee(0.0) }];
        upwards(&curve, &aerodynamics, &canopies).fly().map(|path| path.landing.time)
    };
    assert!(down(5e3).unwrap() > 1500.0);
    assert_eq!(down(5e4), Err(FlightError::NeverLands));
}

fn upwards<'a>(curve: &'a ThrustCurve, aerodynamics: &'a Aerodynamics, canopies: &'a [Canopy]) -> Flight<'a> {
    static AIR: std::sync::LazyLock<Atmosphere> = std::sync::LazyLock::new(sea_level);
    Flight {
        curve,
        mass: BurningMass { dry: body(0.5), propellant: MassProps::ZERO },
        nozzle: 0.3,
        aerodynamics,
        atmosphere: &AIR,
        wind: &Wind::CALM,
        release: Release { time: 1.0, speed: 40.0, ..FROM_REST },
        canopies,
        hung: None,
    }
}

/// [cp] A stable rocket turns into the wind, an unguided tilt downwind carries it downwind.
#[test]
fn weathercock_goes_upwind() {
    let parts = [NormalForce::at(2.0, 0.0323805), NormalForce::at(14.3, 0.28)];
    let aerodynamics = aerodynamics(disc(0.0248), 0.6, &parts);
    let curve = ThrustCurve::new(vec![(0.0, 8.0), (1.0, 6.0), (1.5, 0.0)]).unwrap();
    let breeze = Wind { speed: 4.0, gust: 4.0, ..Wind::CALM };
    let flight = Flight {
        curve: &curve,
        mass: BurningMass { dry: body(0.1), propellant: MassProps::point(0.01, 0.27) },
        nozzle: 0.3,
        aerodynamics: &aerodynamics,
        atmosphere: &Atmosphere::standard(100.0),
        wind: &breeze,
        release: Release { time: 0.2, height: 1.0, speed: 15.0, ..FROM_REST },
        canopies: &[],
        hung: None,
    };
    let windy = flight.fly().unwrap();
    assert!(windy.apogee.drift < -5.0, "{windy:?}");
    let calm = Flight { wind: &Wind::CALM, ..flight };
    let calm_path = calm.fly().unwrap();
    assert_near(calm_path.apogee.drift, 0.0, 1e-9);
    assert!(calm_path.apogee.height > windy.apogee.height);
    let leaning = Flight { release: Release { tilt: 0.1, ..flight.release }, ..calm };
    assert!(leaning.fly().unwrap().apogee.drift > 5.0);
    // The same inputs give the same bits.
    assert_eq!(flight.fly(), flight.fly());
}

/// What can't be flown is an error, and soon: no inertia, too little of it, no number, no fins.
#[test]
fn unsound_flights_are_errors() {
    let parts = [NormalForce::at(2.0, 0.03), NormalForce::at(14.0, 0.28)];
    let stable = aerodynamics(disc(0.0248), 0.6, &parts);
    let curve = ThrustCurve::new(vec![(0.0, 8.0), (1.0, 6.0), (1.5, 0.0)]).unwrap();
    let breeze = Wind { speed: 4.0, gust: 4.0, ..Wind::CALM };
    let with = |i_transverse: f64, speed: f64| {
        Flight {
            curve: &curve,
            mass: BurningMass { dry: MassProps { i_transverse, ..body(0.1) }, propellant: MassProps::ZERO },
            nozzle: 0.3,
            aerodynamics: &stable,
            atmosphere: &sea_level(),
            wind: &breeze,
            release: Release { time: 0.2, speed, ..FROM_REST },
            canopies: &[],
            hung: None,
        }
        .fly()
    };
    assert!(with(4e-4, 15.0).is_ok());
    for bad in [with(0.0, 15.0), with(1e-13, 15.0), with(4e-4, f64::NAN)] {
        assert!(matches!(bad, Err(FlightError::Unsound(_))), "{bad:?}");
    }
    let fin = FinShape::Ellipse { root: 0.06, span: 0.05 }.geometry().unwrap();
    let two = FinSet { fin, count: 2, body_radius: 0.0124, x: 0.25, rule: FinCountRule::Multiplier };
    let lopsided = Aerodynamics { fins: vec![two], ..stable.clone() };
    let path = Flight {
        curve: &curve,
        mass: BurningMass { dry: body(0.1), propellant: MassProps::ZERO },
        nozzle: 0.3,
        aerodynamics: &lopsided,
        atmosphere: &sea_level(),
        wind: &breeze,
        release: FROM_REST,
        canopies: &[],
        hung: None,
    };
    assert_eq!(path.fly(), Err(FlightError::Fins(FinLiftError::TooFewFins(2))));
}

/// [own] From rest in still air the acceleration is greatest at ignition: T/m - g.
#[test]
fn top_acceleration() {
    let curve = ThrustCurve::new(vec![(0.0, 6.0), (0.85, 6.0)]).unwrap();
    let aerodynamics = aerodynamics(disc(0.0248), 0.75, &[]);
    let path = Flight {
        curve: &curve,
        mass: BurningMass { dry: body(0.1), propellant: MassProps::ZERO },
        nozzle: 0.3,
        aerodynamics: &aerodynamics,
        atmosphere: &sea_level(),
        wind: &Wind::CALM,
        release: FROM_REST,
        canopies: &[],
        hung: None,
    }
    .fly()
    .unwrap();
    assert_close(path.top_acceleration, 50.193350, 1e-8);
}

/// [mem] The rocket equation, without air: c ln(m0/m1) - g t for each stage, and h = c t [1 - m1/mp ln(m0/m1)] - g t²/2
/// on top of v t. The first stage is the reference's variable-mass case: 108.220072 m/s and 105.497251 m [own].
#[test]
fn two_stages_without_air() {
    let first = ThrustCurve::new(vec![(0.0, 30.0), (2.0, 30.0)]).unwrap();
    let second = ThrustCurve::new(vec![(0.0, 12.0), (1.5, 12.0)]).unwrap().delayed(2.0).unwrap();
    let aerodynamics = aerodynamics(disc(0.03), 0.0, &[]);
    let (g, m0, m1) = (9.80665, 0.2, 0.18);
    let lower = Flight {
        curve: &first,
        mass: BurningMass { dry: body(0.44), propellant: MassProps::point(0.06, 0.19) },
        nozzle: 0.3,
        aerodynamics: &aerodynamics,
        atmosphere: &sea_level(),
        wind: &Wind::CALM,
        release: FROM_REST,
        canopies: &[],
        hung: None,
    };
    let boost = lower.boost().unwrap().unwrap();
    assert_near(boost.end.climb, 108.220072, 1e-4);
    assert_near(boost.end.height, 105.497251, 1e-3);
    let propellant = MassProps::point(m0 - m1, 0.19);
    let upper = Flight { curve: &second, mass: BurningMass { dry: body(m1), propellant }, ..lower };
    let path = upper.fly_on(boost.end).unwrap();
    let (burn, exhaust): (f64, f64) = (1.5, 12.0 * 1.5 / (m0 - m1));
    let ratio: f64 = m0 / m1;
    let v = 108.220072 + exhaust * ratio.ln() - g * burn;
    let h =
        105.497251 + 108.220072 * burn + exhaust * burn * (1.0 - m1 / (m0 - m1) * ratio.ln()) - 0.5 * g * burn * burn;
    let burnout = path.burnout.unwrap();
    assert_near(burnout.time, 3.5, 1e-12);
    assert_near(burnout.climb, v, 1e-4);
    assert_near(burnout.height, h, 1e-2);
    assert_near(path.apogee.height, h + v * v / (2.0 * g), 2e-2);
    // The lower stage stops at its burnout: what it would do after doesn't count.
    assert_near(boost.fastest.speed, boost.end.climb, 1e-9);
}

/// What is watched of a steady fall lies on its way: where something next to nothing opens at the height of a moment that
/// was seen, the integration is there at the same time and place.
#[test]
fn a_steady_fall_is_seen_on_its_way() {
    let curve = ThrustCurve::new(vec![(0.0, 20.0), (1.0, 20.0)]).unwrap();
    let aerodynamics = aerodynamics(1.3e-3, 0.7, &[]);
    let wind = Wind::over_open_land(6.0, 6.0);
    let chute = Canopy { drag_area: 0.2, opens: Opens::AfterApogee(0.0) };
    let flight = Flight {
        curve: &curve,
        mass: BurningMass { dry: body(0.2), propellant: MassProps::point(0.01, 0.25) },
        nozzle: 0.3,
        aerodynamics: &aerodynamics,
        atmosphere: &sea_level(),
        wind: &wind,
        release: FROM_REST,
        canopies: &[chute],
        hung: None,
    };
    let mut seen = Vec::new();
    let path = flight.fly_with(|moment: &Moment| seen.push(*moment)).unwrap();
    assert_eq!(path, flight.fly().unwrap());
    let down: Vec<Moment> = seen.into_iter().filter(|moment| moment.time > path.apogee.time).collect();
    let longest = down.windows(2).map(|pair| pair[1].time - pair[0].time).fold(0.0, f64::max);
    assert!(longest < path.landing.time / 20.0, "{longest} s of {}", path.landing.time);
    let mut compared = 0;
    for moment in down.iter().filter(|moment| moment.height > 40.0 && moment.height < path.apogee.height - 20.0) {
        let scrap = Canopy { drag_area: 1e-12, opens: Opens::Below(moment.height) };
        let there = Flight { canopies: &[chute, scrap], ..flight }.fly().unwrap().openings[1].moment;
        assert_near(there.time, moment.time, 1e-4 * path.landing.time);
        assert_near(there.drift, moment.drift, 1e-4 * path.landing.drift);
        compared += 1;
    }
    assert!(compared > 20, "{compared}");
}
