//! What fields, clubs and governments limit, as data with source and jurisdiction, and which limits a flight meets.
//!
//! No jurisdiction is assumed: someone chooses one. Every answer ends in [`CHECK_YOUR_CODE`]. The texts were read as
//! marked; codes change, and this table isn't one.
//!
//! Limits fail closed. What isn't known of a flight lies between two bounds ([`Bounds`]), and a limit is met only where
//! it's met whatever the number is between them: of several rows that could hold, the strictest counts.
//!
//! Left out until its text is read: the distance for three or more rockets launched at once (a tentative amendment of
//! 2017 to NFPA 1127). The copy seen still says "twice" the complex distance, and a public discussion says that the
//! amendment deletes that word; until the amendment itself is read, nobody should rely on either.

mod bounds;
mod facts;
mod tables;

pub use bounds::Bounds;
pub use facts::{
    density, structural, Class, Facts, MotorFacts, MODEL_IMPULSE, MODEL_PROPELLANT, MODEL_THRUST, MOST_MODEL_IMPULSE,
    MOST_MODEL_MASS, MOST_MODEL_PROPELLANT,
};

use facts::SLACK;
use finwright_physics::air::G0;
use finwright_units::Dimension;
use tables::{
    asked, asked_of_next, Ask, CALIFORNIA_DISTANCES, COMPLEX_DISTANCES, MODEL_DISTANCES, MODEL_FIELDS,
    PERSONNEL_DISTANCES,
};

/// Whose limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Jurisdiction {
    /// 14 CFR 101 subpart C, class 1 (United States): read in the eCFR as of April 2026.
    UsClass1,
    /// 14 CFR 101 subpart C, class 2 (United States): read in the eCFR as of April 2026.
    UsClass2,
    /// NFPA 1122, model rocketry (where adopted in the United States): read in a reprint of the 2018 text.
    UsModel,
    /// NFPA 1127, high power (where adopted in the United States): reprint and memory, as marked.
    UsHighPower,
    /// 19 CCR 1032 and 1036, experimental high-power rockets (California): 1032 read as of the Register of December 13,
    /// 2024, 1036 in a copy that shows no date.
    CaliforniaExperimental,
}

/// The jurisdictions that can be chosen, by name.
pub const JURISDICTIONS: [(&str, Jurisdiction, &str); 5] = [
    ("us-class-1", Jurisdiction::UsClass1, "14 CFR 101 subpart C, class 1"),
    ("us-class-2", Jurisdiction::UsClass2, "14 CFR 101 subpart C, class 2"),
    ("us-model", Jurisdiction::UsModel, "NFPA 1122, model rocketry"),
    ("us-high-power", Jurisdiction::UsHighPower, "NFPA 1127, high-power rocketry"),
    ("california-experimental", Jurisdiction::CaliforniaExperimental, "19 CCR 1032 and 1036, experimental high power"),
];

/// Said with every limit.
pub const CHECK_YOUR_CODE: &str = "check your local code";

impl Jurisdiction {
    /// What its text asks for and isn't compared here, in words.
    pub fn not_included(self) -> &'static str {
        match self {
            Jurisdiction::UsClass1 => {
                "that the propellant burns slowly and the plastic breaks (101.22), and that nothing and nobody is put \
                    at risk (101.23)"
            }
            Jurisdiction::UsClass2 => {
                "property that isn't part of the launch, which must be as far away as people; cloud, visibility, \
                    night, airports within 9.26 km, controlled airspace, a person of 18 or more in charge, and \
                    precautions against fire (101.25); notice and permission (101.27, 101.29)"
            }
            Jurisdiction::UsModel => {
                "cleared ground, wadding, payloads, who may fly what (above 80 N s from 18 years on), ignition, \
                    misfires, and several rockets at once"
            }
            Jurisdiction::UsHighPower => {
                "materials, cleared ground, buildings nearby, who may fly what, ignition, misfires, and several \
                    rockets at once"
            }
            Jurisdiction::CaliforniaExperimental => {
                "licence, daylight, visibility, wadding, remote ignition, and the footnote of table 18A, which wasn't \
                    seen"
            }
        }
    }
}

/// What a code limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limited {
    /// Mass on the pad, kg.
    Mass,
    /// Propellant of all motors, kg.
    Propellant,
    /// Total impulse of all motors, N s.
    Impulse,
    /// Total impulse of one motor, N s.
    MotorImpulse,
    /// Average thrust of one motor, N.
    MotorThrust,
    /// Propellant of one motor, kg.
    MotorPropellant,
    /// Metal in nose, body or fins, told by the density in kg/m3.
    Metal,
    /// Tilt of the pad, rad.
    Tilt,
    /// Wind, m/s.
    Wind,
    /// Average thrust over the weight.
    ThrustToWeight,
    /// Distance of people from the pad, m.
    People,
    /// Distance of uninvolved people from the pad, m.
    UninvolvedPeople,
    /// The field's smallest dimension, m.
    Field,
}

impl Limited {
    /// Its dimension.
    pub fn dimension(self) -> Dimension {
        match self {
            Limited::Mass | Limited::Propellant | Limited::MotorPropellant => Dimension::MASS,
            Limited::Impulse | Limited::MotorImpulse => Dimension::IMPULSE,
            Limited::MotorThrust => Dimension::FORCE,
            Limited::Metal => Dimension::DENSITY,
            Limited::Tilt => Dimension::ANGLE,
            Limited::Wind => Dimension::SPEED,
            Limited::ThrustToWeight => Dimension::NUMBER,
            Limited::People | Limited::UninvolvedPeople | Limited::Field => Dimension::LENGTH,
        }
    }

    /// Whether it's a distance of people from the pad.
    pub fn is_of_people(self) -> bool {
        matches!(self, Limited::People | Limited::UninvolvedPeople)
    }
}

/// A limit and what a flight has against it. SI units.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// What is limited.
    pub what: Limited,
    /// What is known of the flight's value.
    pub value: Bounds,
    /// The limit: between the mildest and the strictest that could hold.
    pub limit: Bounds,
    /// The strictest that could hold and that the code puts a number on.
    pub asked: f64,
    /// Whether the value must not lie above the limit (else: not below).
    pub is_most: bool,
    /// Where it's written, and whether that text was read.
    pub source: &'static str,
}

/// How a flight stands against a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It meets it.
    Met,
    /// It can't be told: the value isn't known, or not how strict the limit is.
    NotKnown,
    /// It's beyond it.
    Exceeded,
}

impl Limit {
    /// How the flight stands against it: met only where it's met whatever isn't known comes to.
    pub fn standing(&self) -> Standing {
        let within = |value: f64, limit: f64| {
            let slack = if limit.is_finite() { SLACK * limit.abs() } else { 0.0 };
            if self.is_most {
                value <= limit + slack
            } else {
                value >= limit - slack
            }
        };
        let (worst, best) = (self.worst(), self.best());
        if within(worst.0, worst.1) {
            Standing::Met
        } else if within(best.0, best.1) {
            Standing::NotKnown
        } else {
            Standing::Exceeded
        }
    }

    /// The flight's value and the limit at their worst for it.
    fn worst(&self) -> (f64, f64) {
        if self.is_most {
            (self.value.most, self.limit.least)
        } else {
            (self.value.least, self.limit.most)
        }
    }

    fn best(&self) -> (f64, f64) {
        if self.is_most {
            (self.value.least, self.limit.most)
        } else {
            (self.value.most, self.limit.least)
        }
    }
}

/// Every limit of a jurisdiction that applies to such a flight, met or not.
pub fn limits(jurisdiction: Jurisdiction, facts: &Facts) -> Vec<Limit> {
    match jurisdiction {
        Jurisdiction::UsClass1 => us_class_1(facts),
        Jurisdiction::UsClass2 => us_class_2(facts),
        Jurisdiction::UsModel => us_model(facts),
        Jurisdiction::UsHighPower => us_high_power(facts),
        Jurisdiction::CaliforniaExperimental => california(facts),
    }
}

/// The limits that a flight exceeds.
pub fn exceeded(jurisdiction: Jurisdiction, facts: &Facts) -> Vec<Limit> {
    limits(jurisdiction, facts).into_iter().filter(|limit| limit.standing() == Standing::Exceeded).collect()
}

/// A jurisdiction by its name.
pub fn named(name: &str) -> Option<Jurisdiction> {
    JURISDICTIONS.iter().find(|(known, ..)| *known == name).map(|(_, jurisdiction, _)| *jurisdiction)
}

fn us_class_1(facts: &Facts) -> Vec<Limit> {
    let source = "14 CFR 101.22(a), read in the eCFR of April 2026";
    vec![
        most(Limited::Mass, facts.mass, 1.5, source),
        most(Limited::Propellant, facts.propellant, 0.125, source),
        most(Limited::Metal, facts.densest, METAL, source),
    ]
}

fn us_class_2(facts: &Facts) -> Vec<Limit> {
    // The greater of a quarter of the height expected and 457 m, as the text prints 1,500 ft.
    let separation = Ask::by(facts.apogee, |apogee| (0.25 * apogee).max(457.0));
    let source = "14 CFR 101.25(g), read in the eCFR of April 2026";
    vec![
        most(Limited::Impulse, facts.impulse, MOST_IMPULSE, CLASS_2),
        least(Limited::UninvolvedPeople, facts.standoff, separation, source),
    ]
}

fn us_model(facts: &Facts) -> Vec<Limit> {
    let source = "NFPA 1122 (2018), read in a reprint";
    let motor = "a model motor's own limit, from memory; read the code";
    let (distance, from) = model_distance(facts);
    let (field, field_from) = model_field(facts);
    vec![
        most(Limited::Mass, facts.mass, MOST_MODEL_MASS, source),
        most(Limited::Propellant, facts.propellant, MOST_MODEL_PROPELLANT, source),
        most(Limited::Impulse, facts.impulse, MOST_MODEL_IMPULSE, source),
        most(Limited::MotorImpulse, facts.greatest(|m| m.impulse), MODEL_IMPULSE, motor),
        most(Limited::MotorThrust, facts.greatest(|m| m.average_thrust), MODEL_THRUST, motor),
        most(Limited::MotorPropellant, facts.greatest(|m| m.propellant), MODEL_PROPELLANT, motor),
        most(Limited::Metal, facts.densest, METAL, "NFPA 1122 (2018) 4.2.1, read in a reprint"),
        most(Limited::Tilt, facts.tilt, 30f64.to_radians(), source),
        most(Limited::Wind, facts.wind, MILES_20, "NFPA 1122, from memory; read the code"),
        least(Limited::People, facts.standoff, distance, from),
        least(Limited::Field, facts.field, field, field_from),
    ]
}

/// How far people stand: a rocket or a motor beyond a model's limits is high power, with the distances of that.
fn model_distance(facts: &Facts) -> (Ask, &'static str) {
    let model = || asked(MODEL_DISTANCES, facts.impulse);
    match facts.class() {
        Some(Class::Model) => (model(), "NFPA 1122 (2018), read in a reprint"),
        Some(Class::HighPower) => (personnel(facts), REPRINT_1127),
        None => (model().or(personnel(facts)), "NFPA 1122, or 1127 for high power, read in reprints"),
    }
}

fn model_field(facts: &Facts) -> (Ask, &'static str) {
    let model = || asked(MODEL_FIELDS, facts.impulse);
    let table = if facts.impulse.most <= 160.0 {
        "NFPA 1122 table 4.9, read in a reprint"
    } else {
        "NFPA 1122 table 4.9, its last row from memory; read the code"
    };
    match facts.class() {
        Some(Class::Model) => (model(), table),
        Some(Class::HighPower) => (high_power_field(facts), FIELD_1127),
        None => (model().or(high_power_field(facts)), "NFPA 1122, or 1127 for high power, read in reprints"),
    }
}

fn us_high_power(facts: &Facts) -> Vec<Limit> {
    let memory = "NFPA 1127, from memory; read the code";
    let push = facts.average_thrust.over(facts.mass.grown(|mass| mass * G0));
    vec![
        most(Limited::Impulse, facts.impulse, MOST_IMPULSE, CLASS_2),
        most(Limited::Tilt, facts.tilt, 20f64.to_radians(), memory),
        most(Limited::Wind, facts.wind, MILES_20, memory),
        least(Limited::ThrustToWeight, push, Ask { limit: Bounds::exactly(3.0), strictest: 3.0 }, memory),
        least(Limited::People, facts.standoff, personnel(facts), REPRINT_1127),
        least(Limited::Field, facts.field, high_power_field(facts), FIELD_1127),
    ]
}

/// NFPA 1127's distance of people, the greater one for clusters and stages.
fn personnel(facts: &Facts) -> Ask {
    let (alone, complex) = (asked(PERSONNEL_DISTANCES, facts.impulse), asked(COMPLEX_DISTANCES, facts.impulse));
    match facts.is_complex {
        Some(false) => alone,
        Some(true) => complex,
        None => alone.or(complex),
    }
}

/// Half of the height expected, 1,500 ft at least.
fn high_power_field(facts: &Facts) -> Ask {
    Ask::by(facts.apogee, |apogee| (0.5 * apogee).max(457.2))
}

fn california(facts: &Facts) -> Vec<Limit> {
    let (motors, launching) = ("19 CCR 1032, read as of December 2024", "19 CCR 1036, read in an undated copy");
    // A cluster uses the next higher category.
    let (alone, cluster) =
        (asked(CALIFORNIA_DISTANCES, facts.impulse), asked_of_next(CALIFORNIA_DISTANCES, facts.impulse));
    let distance = match facts.is_complex {
        Some(false) => alone,
        Some(true) => cluster,
        None => alone.or(cluster),
    };
    vec![
        most(Limited::MotorImpulse, facts.greatest(|m| m.impulse), 10_240.0, motors),
        most(Limited::Impulse, facts.impulse, 20_480.0, motors),
        most(Limited::Metal, facts.densest, HEAVY_METAL, motors),
        most(Limited::Tilt, facts.tilt, 20f64.to_radians(), launching),
        most(Limited::Wind, facts.wind, MILES_20, launching),
        least(Limited::People, facts.standoff, distance, launching),
    ]
}

fn most(what: Limited, value: Bounds, limit: f64, source: &'static str) -> Limit {
    Limit { what, value, limit: Bounds::exactly(limit), asked: limit, is_most: true, source }
}

fn least(what: Limited, value: Bounds, ask: Ask, source: &'static str) -> Limit {
    Limit { what, value, limit: ask.limit, asked: ask.strictest, is_most: false, source }
}

const CLASS_2: &str = "14 CFR 101.22(b), read in the eCFR of April 2026";
const REPRINT_1127: &str = "NFPA 1127 table of distances, read in a reprint";
const FIELD_1127: &str = "NFPA 1127, read in a reprint";

/// The most of a class 2 rocket, N s.
const MOST_IMPULSE: f64 = 40_960.0;
/// 20 mph, exactly.
const MILES_20: f64 = 8.9408;
/// What is denser is taken for metal: the densest glass laminates come to 2,000 kg/m3, aluminium to 2,700. Magnesium is
/// lighter and isn't told.
const METAL: f64 = 2_500.0;
/// What is denser is taken for a metal other than aluminium, which 19 CCR 1032 allows.
const HEAVY_METAL: f64 = 3_000.0;
