//! What is known about a flight that limits speak of.

use super::bounds::Bounds;
use crate::flight::path::Path;
use crate::flight::FlightNumbers;
use crate::motor::{class_named, AVERAGE_LEAST, AVERAGE_SHARE};
use crate::stage::{motors, mount};
use finwright_model::{read_code, Design, Flight, Motor, Part, PartId, PartKind, Stage};
use finwright_physics::motor::ThrustCurve;

/// What is known about a flight that limits speak of. SI; what isn't known has no bounds, and meets no limit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    /// Mass on the pad, kg.
    pub mass: Bounds,
    /// Propellant of all motors, kg.
    pub propellant: Bounds,
    /// Total impulse of all motors, N s.
    pub impulse: Bounds,
    /// Average thrust of all motors that burn on the pad, N.
    pub average_thrust: Bounds,
    /// Each kind of motor that is in; empty where that isn't known.
    pub motors: Vec<MotorFacts>,
    /// Whether several motors burn, side by side or in stages.
    pub is_complex: Option<bool>,
    /// Tilt of the pad, rad.
    pub tilt: Bounds,
    /// Wind, m/s; that of a site that gives none isn't known.
    pub wind: Bounds,
    /// Height expected, m.
    pub apogee: Bounds,
    /// The field's smallest dimension, m.
    pub field: Bounds,
    /// How far people stand from the pad, m.
    pub standoff: Bounds,
    /// Density of the densest of nose, body and fins, kg/m3: it tells metal from other materials.
    pub densest: Bounds,
}

/// What is known about one motor, whatever the mount holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MotorFacts {
    /// Its name.
    pub name: String,
    /// Total impulse, N s.
    pub impulse: Bounds,
    /// Average thrust over the burn, N.
    pub average_thrust: Bounds,
    /// Propellant, kg.
    pub propellant: Bounds,
}

/// Whether a motor is one for model rockets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// A model rocket's motor.
    Model,
    /// High power.
    HighPower,
}

/// Above one of these a motor is high power: total impulse in N s, average thrust in N, propellant in kg. From memory;
/// that 62.5 g of propellant make the line is also in 27 CFR 555 (71 FR 46079, August 11, 2006), read.
pub const MODEL_IMPULSE: f64 = 160.0;
/// See [`MODEL_IMPULSE`].
pub const MODEL_THRUST: f64 = 80.0;
/// See [`MODEL_IMPULSE`].
pub const MODEL_PROPELLANT: f64 = 0.0625;

impl MotorFacts {
    /// Whether it's a model rocket's motor; `None` where that can't be told.
    pub fn class(&self) -> Option<Class> {
        within(&[
            (self.impulse, MODEL_IMPULSE),
            (self.average_thrust, MODEL_THRUST),
            (self.propellant, MODEL_PROPELLANT),
        ])
    }

    fn of(motor: &Motor) -> MotorFacts {
        let curve = motor.curve.as_ref().and_then(|curve| ThrustCurve::new(curve.points.clone()).ok());
        let code = motor.code.as_ref().and_then(|code| read_code(&code.value));
        // Without a curve the code on the label still says how much it can be.
        let labelled = code.as_ref().and_then(|code| class_named(&code.letter));
        let impulse = match (&curve, labelled) {
            (Some(curve), _) => Bounds::exactly(curve.total_impulse()),
            (None, Some(class)) => Bounds { least: class.over, most: class.up_to },
            (None, None) => Bounds::UNKNOWN,
        };
        let average_thrust = match (&curve, &code) {
            (Some(curve), _) => Bounds::exactly(curve.average_thrust()),
            (None, Some(code)) => {
                let most = (code.average / (1.0 - AVERAGE_SHARE)).max(code.average + AVERAGE_LEAST);
                Bounds { least: 0.0, most }
            }
            (None, None) => Bounds::UNKNOWN,
        };
        let propellant = Bounds::of(motor.propellant.as_ref().map(|p| p.si));
        MotorFacts { name: motor.name.value.clone(), impulse, average_thrust, propellant }
    }
}

/// The most of a model rocket as a whole: mass on the pad in kg, propellant in kg, total impulse in N s (NFPA 1122, 4.4
/// and 4.5, read in a reprint of 2018).
pub const MOST_MODEL_MASS: f64 = 1.5;
/// See [`MOST_MODEL_MASS`].
pub const MOST_MODEL_PROPELLANT: f64 = 0.125;
/// See [`MOST_MODEL_MASS`].
pub const MOST_MODEL_IMPULSE: f64 = 320.0;

/// Whether all of these numbers lie within a model's lines.
fn within(lines: &[(Bounds, f64)]) -> Option<Class> {
    if lines.iter().any(|(value, line)| value.least > line * (1.0 + SLACK)) {
        Some(Class::HighPower)
    } else if lines.iter().all(|(value, line)| value.most <= line * (1.0 + SLACK)) {
        Some(Class::Model)
    } else {
        None
    }
}

/// A limit met to within rounding is met: 4.4 oz are 124.74 g, 20 mph are 8.9408 m/s.
pub(super) const SLACK: f64 = 1e-9;

impl Facts {
    /// What a flight's numbers and its file say.
    pub fn of(design: &Design, numbers: &FlightNumbers, path: Option<&Path>) -> Facts {
        let Some(flight) = design.flights.get(numbers.flight) else { return Facts::default() };
        let site = flight.site.as_ref().and_then(|site| design.sites.get(site.value));
        let installed = installed(design, flight);
        let sum = |of: fn(&MotorFacts) -> Bounds| {
            let all = installed.iter().map(|(motor, count)| of(motor).times(*count));
            all.reduce(Bounds::plus).unwrap_or(Bounds::UNKNOWN)
        };
        let count = installed.iter().map(|(_, count)| *count).reduce(Bounds::plus);
        // A site that gives no wind is computed in still air, which no code may be held against.
        let said = site.and_then(|site| site.wind.as_ref());
        Facts {
            mass: Bounds::of(numbers.loaded().map(|m| m.mass)),
            propellant: sum(|motor| motor.propellant),
            impulse: sum(|motor| motor.impulse),
            average_thrust: Bounds::of(numbers.curve.as_ref().map(|curve| curve.average_thrust())),
            is_complex: match count {
                Some(count) if count.most <= 1.0 => Some(false),
                Some(count) if count.least > 1.0 => Some(true),
                _ => None,
            },
            tilt: tilt(design, flight),
            wind: Bounds::of(said.and(numbers.air).map(|air| air.wind)),
            apogee: Bounds::of(path.map(|p| p.moments.apogee.height)),
            field: Bounds::of(site.and_then(|site| site.across.as_ref()).map(|across| across.si)),
            standoff: Bounds::of(site.and_then(|site| site.people.as_ref()).map(|people| people.si)),
            densest: densest(design),
            motors: installed.into_iter().map(|(motor, _)| motor).collect(),
        }
    }

    /// Whether it's a model rocket, with model rockets' motors; `None` where that can't be told.
    pub fn class(&self) -> Option<Class> {
        let whole = within(&[
            (self.mass, MOST_MODEL_MASS),
            (self.propellant, MOST_MODEL_PROPELLANT),
            (self.impulse, MOST_MODEL_IMPULSE),
        ]);
        let classes: Vec<Option<Class>> = self.motors.iter().map(MotorFacts::class).chain([whole]).collect();
        if classes.contains(&Some(Class::HighPower)) {
            Some(Class::HighPower)
        } else if self.motors.is_empty() || classes.contains(&None) {
            None
        } else {
            Some(Class::Model)
        }
    }

    /// The greatest of all motors by one of their numbers.
    pub(super) fn greatest(&self, of: fn(&MotorFacts) -> Bounds) -> Bounds {
        self.motors.iter().map(of).reduce(Bounds::greater).unwrap_or(Bounds::UNKNOWN)
    }
}

/// A flight's motors, each with how many of it are in; empty where a stage's isn't known.
fn installed(design: &Design, flight: &Flight) -> Vec<(MotorFacts, Bounds)> {
    let named = [("motor", flight.motor.is_some()), ("booster_motor", flight.booster_motor.is_some())];
    let lost = named.iter().any(|(field, said)| !said && flight.broken.contains(field));
    // A rocket of two stages has two motors, whether or not the flight says which.
    let lacks = flight.motor.is_none() || (design.booster.is_some() && flight.booster_motor.is_none());
    if lost || lacks {
        return Vec::new();
    }
    motors(design, flight).into_iter().map(|(motor, stage)| (MotorFacts::of(motor), count(design, stage))).collect()
}

/// How many motors a stage's mount holds.
fn count(design: &Design, stage: Stage) -> Bounds {
    match mount(design, stage) {
        Some((_, part)) if part.broken.iter().any(|f| matches!(*f, "motors" | "mount")) => {
            Bounds { least: 1.0, most: MOST_MOTORS }
        }
        Some((_, Part { kind: PartKind::Mount { motors: Some(motors), .. }, .. })) => Bounds::exactly(motors.si),
        _ => Bounds::exactly(1.0),
    }
}

/// No mount holds more: the vocabulary's own bound.
const MOST_MOTORS: f64 = 19.0;

fn tilt(design: &Design, flight: &Flight) -> Bounds {
    match design.pad_of(flight) {
        // Upright is the default of a pad that says nothing else, not of one that can't be understood.
        Some(pad) if !pad.broken.iter().any(|field| matches!(*field, "tilt" | "pad")) => {
            Bounds::exactly(pad.tilt_or_upright().si)
        }
        _ => Bounds::UNKNOWN,
    }
}

/// The density of the densest of nose, body and fins.
fn densest(design: &Design) -> Bounds {
    let all = structural(design).map(|(_, part)| Bounds::of(density(design, part)));
    let known = all.reduce(Bounds::greater).unwrap_or(Bounds::UNKNOWN);
    if design.lost.is_empty() {
        known
    } else {
        Bounds { most: f64::INFINITY, ..known }
    }
}

/// The parts that codes call structural: nose, body and fins.
pub fn structural(design: &Design) -> impl Iterator<Item = (PartId, &Part)> {
    let is_one = |part: &Part| {
        part.is_body() || matches!(part.kind, PartKind::Fins(_) | PartKind::TubeFins { .. } | PartKind::RingFin { .. })
    };
    design.parts.iter().enumerate().filter(move |(_, part)| is_one(part))
}

/// The density of what a part is made of, kg/m3, where the file says it.
pub fn density(design: &Design, part: &Part) -> Option<f64> {
    let of_material = part.material.as_ref().and_then(|named| design.materials.get(named.value));
    of_material.and_then(|material| material.density.as_ref()).or(part.density.as_ref()).map(|density| density.si)
}
