//! What fields, clubs and governments limit, as data with source and jurisdiction, and which limits a flight exceeds.
//!
//! No jurisdiction is assumed: someone chooses one. Every answer ends in [`CHECK_YOUR_CODE`]. The texts were read as
//! marked; codes change, and this table isn't one.
//!
//! Left out until its text is read: the distance for three or more rockets launched at once (a tentative amendment of
//! 2017 to NFPA 1127). The copy seen still says "twice" the complex distance, and a public discussion says that the
//! amendment deletes that word; until the amendment itself is read, nobody should rely on either.

use crate::balance::motors;
use crate::path::Path;
use crate::weigh::{cluster, motor_mass, thrust};
use crate::FlightNumbers;
use finwright_model::Design;
use finwright_physics::motor::ThrustCurve;
use finwright_units::Dimension;
use serde::Serialize;

/// Whose limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Jurisdiction {
    /// 14 CFR 101 subpart C, class 1 (United States): read in the government's text.
    UsClass1,
    /// 14 CFR 101 subpart C, class 2 (United States): read in the government's text.
    UsClass2,
    /// NFPA 1122, model rocketry (where adopted in the United States): read in a reprint of the 2018 text.
    UsModel,
    /// NFPA 1127, high power (where adopted in the United States): reprint and memory, as marked.
    UsHighPower,
    /// 19 CCR 1036 (California): read in the government's text.
    California,
}

/// The jurisdictions that can be chosen, by name.
pub const JURISDICTIONS: [(&str, Jurisdiction, &str); 5] = [
    ("us-class-1", Jurisdiction::UsClass1, "14 CFR 101 subpart C, class 1"),
    ("us-class-2", Jurisdiction::UsClass2, "14 CFR 101 subpart C, class 2"),
    ("us-model", Jurisdiction::UsModel, "NFPA 1122, model rocketry"),
    ("us-high-power", Jurisdiction::UsHighPower, "NFPA 1127, high-power rocketry"),
    ("california", Jurisdiction::California, "19 CCR 1036"),
];

/// Said with every limit.
pub const CHECK_YOUR_CODE: &str = "check your local code";

/// What is known about a flight that limits speak of; what isn't known exceeds nothing and is listed as unknown. SI.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Facts {
    /// Mass on the pad, kg.
    pub mass: Option<f64>,
    /// Propellant of all motors, kg.
    pub propellant: Option<f64>,
    /// Total impulse of all motors, N s.
    pub impulse: Option<f64>,
    /// Average thrust of all motors, N.
    pub average_thrust: Option<f64>,
    /// Tilt of the pad, rad.
    pub tilt: Option<f64>,
    /// Wind, m/s.
    pub wind: Option<f64>,
    /// Whether several motors burn, side by side or in stages.
    pub is_cluster: bool,
    /// Height expected, m.
    pub apogee: Option<f64>,
    /// The field's smallest dimension, m.
    pub field: Option<f64>,
    /// How far people stand from the pad, m.
    pub standoff: Option<f64>,
}

impl Facts {
    /// What a flight's numbers and its file say.
    pub fn of(design: &Design, numbers: &FlightNumbers, path: Option<&Path>) -> Facts {
        let flight = design.flights.get(numbers.flight);
        let motors = flight.map(|flight| motors(design, flight)).unwrap_or_default();
        let site = flight.and_then(|flight| design.sites.get(flight.site.as_ref()?.value));
        // Both stages' motors count as installed.
        let sum = |of: &dyn Fn(&ThrustCurve) -> f64| -> Option<f64> {
            let curves: Option<Vec<ThrustCurve>> =
                motors.iter().map(|(motor, stage)| thrust(design, motor, *stage)).collect();
            curves.filter(|c| !c.is_empty()).map(|c| c.iter().map(of).sum())
        };
        let masses: Option<Vec<f64>> =
            motors.iter().map(|(m, stage)| Some(motor_mass(design, m, *stage)?.1.mass)).collect();
        let in_mount = motors.iter().map(|(_, stage)| cluster(design, *stage).0).sum::<f64>();
        Facts {
            mass: numbers.loaded.map(|m| m.mass),
            propellant: masses.filter(|m| !m.is_empty()).map(|m| m.iter().sum()),
            impulse: sum(&|curve| curve.total_impulse()),
            average_thrust: numbers.curve.as_ref().map(|curve| curve.average_thrust()),
            tilt: numbers.run.as_ref().map(|run| run.inputs.tilt),
            wind: numbers.air.map(|air| air.wind),
            is_cluster: in_mount > 1.0,
            apogee: path.map(|p| p.moments.apogee.height),
            field: site.and_then(|site| site.across.as_ref()).map(|across| across.si),
            standoff: site.and_then(|site| site.people.as_ref()).map(|people| people.si),
        }
    }
}

/// What a code limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Limited {
    /// Mass on the pad, kg.
    Mass,
    /// Propellant of all motors, kg.
    Propellant,
    /// Total impulse of all motors, N s.
    Impulse,
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
            Limited::Mass | Limited::Propellant => Dimension::MASS,
            Limited::Impulse => Dimension::IMPULSE,
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
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Limit {
    /// What is limited.
    pub what: Limited,
    /// The flight's value; `None` where it isn't known.
    pub value: Option<f64>,
    /// The limit.
    pub limit: f64,
    /// Whether the value must not lie above the limit (else: not below).
    pub is_most: bool,
    /// Where it's written, and whether that text was read.
    pub source: &'static str,
}

impl Limit {
    /// Whether the flight's value is known and lies beyond the limit.
    pub fn is_exceeded(&self) -> bool {
        // A limit met to within rounding is met: 4.4 oz are 124.74 g, 20 mph are 8.9408 m/s.
        let slack = 1e-9 * self.limit.abs();
        self.value.is_some_and(|v| if self.is_most { v > self.limit + slack } else { v < self.limit - slack })
    }
}

/// Every limit of a jurisdiction that applies to such a flight, met or not.
pub fn limits(jurisdiction: Jurisdiction, facts: &Facts) -> Vec<Limit> {
    let most = |what, value, limit, source| Limit { what, value, limit, is_most: true, source };
    let least = |what, value, limit, source| Limit { what, value, limit, is_most: false, source };
    let degrees = |d: f64| d.to_radians();
    let mut found = Vec::new();
    match jurisdiction {
        Jurisdiction::UsClass1 => {
            let source = "14 CFR 101.22(a), read";
            found.push(most(Limited::Mass, facts.mass, 1.5, source));
            found.push(most(Limited::Propellant, facts.propellant, 0.125, source));
        }
        Jurisdiction::UsClass2 => {
            found.push(most(Limited::Impulse, facts.impulse, 40_960.0, "14 CFR 101.22(b), read"));
            if let Some(apogee) = facts.apogee {
                // The greater of a quarter of the height expected and 457 m, as the text prints 1,500 ft.
                let separation = (0.25 * apogee).max(457.0);
                let source = "14 CFR 101.25(g), read";
                found.push(least(Limited::UninvolvedPeople, facts.standoff, separation, source));
            }
        }
        Jurisdiction::UsModel => {
            let source = "NFPA 1122 (2018), read in a reprint";
            found.push(most(Limited::Mass, facts.mass, 1.5, source));
            found.push(most(Limited::Propellant, facts.propellant, 0.125, source));
            found.push(most(Limited::Impulse, facts.impulse, 320.0, source));
            found.push(most(Limited::Tilt, facts.tilt, degrees(30.0), source));
            found.push(most(Limited::Wind, facts.wind, MILES_20, "NFPA 1122, from memory"));
            if let Some(impulse) = facts.impulse {
                // 15 ft up to D, 30 ft above.
                let standoff = if impulse <= 20.0 { 4.572 } else { 9.144 };
                found.push(least(Limited::People, facts.standoff, standoff, source));
                if let Some((field, source)) = row(MODEL_FIELDS, impulse) {
                    found.push(least(Limited::Field, facts.field, field, source));
                }
            }
        }
        Jurisdiction::UsHighPower => {
            let memory = "NFPA 1127, from memory";
            found.push(most(Limited::Tilt, facts.tilt, degrees(20.0), memory));
            found.push(most(Limited::Wind, facts.wind, MILES_20, memory));
            if let (Some(mass), Some(thrust)) = (facts.mass, facts.average_thrust) {
                let weight = mass * finwright_physics::air::G0;
                found.push(least(Limited::ThrustToWeight, Some(thrust / weight), 3.0, memory));
            }
            if let Some(impulse) = facts.impulse {
                let table = if facts.is_cluster { COMPLEX_DISTANCES } else { PERSONNEL_DISTANCES };
                if let Some((distance, source)) = row(table, impulse) {
                    found.push(least(Limited::People, facts.standoff, distance, source));
                }
            }
            if let Some(apogee) = facts.apogee {
                let field = (0.5 * apogee).max(457.2);
                let source = "NFPA 1127, read in a reprint";
                found.push(least(Limited::Field, facts.field, field, source));
            }
        }
        Jurisdiction::California => {
            let source = "19 CCR 1036, read";
            found.push(most(Limited::Tilt, facts.tilt, degrees(20.0), source));
            found.push(most(Limited::Wind, facts.wind, MILES_20, source));
            if let Some(impulse) = facts.impulse {
                // A cluster uses the next higher category.
                let next = if facts.is_cluster { above(CALIFORNIA_DISTANCES, impulse) } else { None };
                if let Some((distance, source)) = next.or_else(|| row(CALIFORNIA_DISTANCES, impulse)) {
                    found.push(least(Limited::People, facts.standoff, distance, source));
                }
            }
        }
    }
    found
}

/// The limits that a flight exceeds.
pub fn exceeded(jurisdiction: Jurisdiction, facts: &Facts) -> Vec<Limit> {
    limits(jurisdiction, facts).into_iter().filter(Limit::is_exceeded).collect()
}

/// A jurisdiction by its name.
pub fn named(name: &str) -> Option<Jurisdiction> {
    JURISDICTIONS.iter().find(|(known, ..)| *known == name).map(|(_, jurisdiction, _)| *jurisdiction)
}

/// 20 mph, exactly.
const MILES_20: f64 = 8.9408;

/// Up to this impulse in N s, this distance in m; the source.
type Row = (f64, f64, &'static str);

const REPRINT_1122: &str = "NFPA 1122 table of site dimensions, read in a reprint (feet)";
const REPRINT_1127: &str = "NFPA 1127 table of distances, read in a reprint (feet)";
const CCR: &str = "19 CCR 1036, read";

const MODEL_FIELDS: &[Row] = &[
    (1.25, 15.24, REPRINT_1122),
    (2.50, 30.48, REPRINT_1122),
    (5.0, 60.96, REPRINT_1122),
    (10.0, 121.92, REPRINT_1122),
    (20.0, 152.4, REPRINT_1122),
    (160.0, 304.8, REPRINT_1122),
    (320.0, 457.2, "NFPA 1122 table of site dimensions, last row from memory"),
];

const PERSONNEL_DISTANCES: &[Row] = &[
    (1280.0, 30.48, REPRINT_1127),
    (2560.0, 60.96, REPRINT_1127),
    (5120.0, 91.44, REPRINT_1127),
    (10240.0, 152.4, REPRINT_1127),
    (20480.0, 304.8, REPRINT_1127),
    (40960.0, 457.2, REPRINT_1127),
];

const COMPLEX_DISTANCES: &[Row] = &[
    (1280.0, 60.96, REPRINT_1127),
    (2560.0, 91.44, REPRINT_1127),
    (5120.0, 152.4, REPRINT_1127),
    (10240.0, 304.8, REPRINT_1127),
    (20480.0, 457.2, REPRINT_1127),
    (40960.0, 609.6, REPRINT_1127),
];

/// Between 320 N s and 320.01 N s the text leaves a gap, which the larger row fills.
const CALIFORNIA_DISTANCES: &[Row] = &[
    (320.0, 9.144, CCR),
    (1280.0, 45.72, CCR),
    (2560.0, 60.96, CCR),
    (5120.0, 91.44, CCR),
    (10240.0, 152.4, CCR),
    (20480.0, 304.8, CCR),
];

fn row(table: &[Row], impulse: f64) -> Option<(f64, &'static str)> {
    rows_from(table, impulse).next()
}

/// The row after the one that holds an impulse.
fn above(table: &[Row], impulse: f64) -> Option<(f64, &'static str)> {
    rows_from(table, impulse).nth(1)
}

/// The row that holds an impulse and all above it; the tables' rows rise.
fn rows_from(table: &[Row], impulse: f64) -> impl Iterator<Item = (f64, &'static str)> + '_ {
    table.iter().filter(move |(up_to, ..)| impulse <= *up_to).map(|(_, distance, source)| (*distance, *source))
}
