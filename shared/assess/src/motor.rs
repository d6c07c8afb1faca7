//! A motor's curve in numbers, and whether its code agrees with them.

use finwright_model::{read_code, Amount, Code, Design, Motor};
use finwright_physics::motor::{ImpulseClass, ThrustCurve};
use std::f64::consts::PI;

/// What a motor's curve comes to. One motor, whatever the mount holds.
#[derive(Clone, Debug, PartialEq)]
pub struct MotorNumbers {
    /// Total impulse, N s.
    pub impulse: f64,
    /// Average thrust over the burn, N.
    pub average: f64,
    /// Greatest thrust, N, and when it is first reached, s.
    pub peak: f64,
    /// When that is, s from ignition.
    pub peak_time: f64,
    /// Burn time from first to last thrust, s.
    pub burn_time: f64,
    /// The class of its impulse; `None` above O.
    pub class: Option<ImpulseClass>,
    /// Its code, where it has one that can be read.
    pub code: Option<Code>,
    /// The delay that the file says, s.
    pub delay: Option<f64>,
}

/// How far a code's average may lie from the curve's: the greater of a fifth and 1 N (NFPA 1125, from memory).
pub const AVERAGE_SHARE: f64 = 0.20;
/// The least of it, N.
pub const AVERAGE_LEAST: f64 = 1.0;

/// What a kilogram of propellant gives at most, N s: the best solid propellants come to some 2,900 in a vacuum (rocket
/// engineering's textbooks, from memory), hobby motors to 700 to 2,300 (common practice, no source).
pub const MOST_OF_PROPELLANT: f64 = 3000.0;
/// The most of it that a space holds, kg/m³: what solid propellants weigh themselves, 1,600 to 1,900 (from memory), and a
/// little.
pub const DENSEST_PROPELLANT: f64 = 2000.0;

/// A motor's thrust: by its points, or by its label where that is all that is known: a flat average thrust for as long as
/// the most that its letter stands for lasts. `None` where neither can be.
pub fn curve(motor: &Motor) -> Option<ThrustCurve> {
    ThrustCurve::new(points(motor)?).ok()
}

/// The points of that curve, s and N.
pub fn points(motor: &Motor) -> Option<Vec<(f64, f64)>> {
    match (&motor.curve, &motor.by_label) {
        (Some(curve), _) => Some(curve.points.clone()),
        (None, Some(code)) => {
            let burn = class_named(&code.letter)?.up_to / code.average;
            // Up and down in no time, with the impulse as it is.
            let ramp = RAMP.min(RAMP_SHARE * burn);
            let thrust = code.average;
            Some(vec![(0.0, 0.0), (ramp, thrust), (burn, thrust), (burn + ramp, 0.0)])
        }
        (None, None) => None,
    }
}

/// The motors of a flight of which only the label is known, by their numbers in the design: every number that hangs on
/// them is rough.
pub fn labelled(design: &Design, flight: usize) -> Vec<usize> {
    let Some(flight) = design.flights.get(flight) else { return Vec::new() };
    let of = [&flight.booster_motor, &flight.motor].into_iter().flatten().map(|motor| motor.value);
    of.filter(|motor| design.motors.get(*motor).is_some_and(|motor| motor.by_label.is_some())).collect()
}

/// How long a thrust known by its label takes to rise and to fall, s, and as a share of its burn.
const RAMP: f64 = 5e-3;
const RAMP_SHARE: f64 = 0.01;

/// A motor's numbers; `None` where it has no sound curve.
pub fn motor(motor: &Motor) -> Option<MotorNumbers> {
    let curve = curve(motor)?;
    let impulse = curve.total_impulse();
    let (peak_time, peak) = curve.peak();
    Some(MotorNumbers {
        impulse,
        average: curve.average_thrust(),
        peak,
        peak_time,
        burn_time: curve.burn_time(),
        class: ImpulseClass::of(impulse),
        code: motor.code.as_ref().and_then(|code| read_code(&code.value)),
        delay: motor.delay.as_ref().map(|d| d.si),
    })
}

/// The propellant in kg that a motor's case has room for at most, where it's said to hold more.
pub fn beyond_case(motor: &Motor) -> Option<f64> {
    let most_of = |amount: &Amount| amount.si + amount.spread.total();
    let (length, diameter) = (most_of(motor.length.as_ref()?), most_of(motor.diameter.as_ref()?));
    let room = DENSEST_PROPELLANT * 0.25 * PI * diameter * diameter * length;
    let propellant = motor.propellant.as_ref()?;
    (propellant.si - propellant.spread.total() > room).then_some(room)
}

impl MotorNumbers {
    /// The impulse in N s that its motor's propellant can give at most, where the curve holds more.
    pub fn beyond_propellant(&self, motor: &Motor) -> Option<f64> {
        let propellant = motor.propellant.as_ref()?;
        let most = MOST_OF_PROPELLANT * (propellant.si + propellant.spread.total());
        (self.impulse > most).then_some(most)
    }

    /// Whether the code's letter is the class of the curve's impulse; `None` without a code.
    pub fn letter_agrees(&self) -> Option<bool> {
        let code = self.code.as_ref()?;
        Some(self.class.is_some_and(|class| class.letter == code.letter))
    }

    /// Whether the code's average is the curve's within [`AVERAGE_SHARE`] or [`AVERAGE_LEAST`]; `None` without a code.
    pub fn average_agrees(&self) -> Option<bool> {
        let code = self.code.as_ref()?;
        Some((code.average - self.average).abs() <= (AVERAGE_SHARE * self.average).max(AVERAGE_LEAST))
    }

    /// Whether the code's delay is the one that the file says; `None` where either says none.
    pub fn delay_agrees(&self) -> Option<bool> {
        let (coded, said) = (self.code.as_ref()?.delay?, self.delay?);
        Some((coded - said).abs() <= 1e-9)
    }
}

/// The class of a letter.
pub(crate) fn class_named(letter: &str) -> Option<ImpulseClass> {
    // Each class holds up to twice as much as the one before: this much lies in every one of them, the smallest first.
    let within = std::iter::successors(Some(0.3), |impulse| Some(2.0 * impulse));
    within.map_while(ImpulseClass::of).find(|class| class.letter == letter)
}
