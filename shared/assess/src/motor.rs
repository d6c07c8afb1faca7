//! A motor's curve in numbers, and whether its code agrees with them.

use finwright_model::Motor;
use finwright_physics::motor::{ImpulseClass, ThrustCurve};

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

/// A motor's code: letter, average thrust, delay.
#[derive(Clone, Debug, PartialEq)]
pub struct Code {
    /// The class letter, `1/2A` for example.
    pub letter: String,
    /// Average thrust, N.
    pub average: f64,
    /// Delay, s; `None` where the code has none.
    pub delay: Option<f64>,
}

/// How far a code's average may lie from the curve's: the greater of a fifth and 1 N (NFPA 1125, from memory).
pub const AVERAGE_SHARE: f64 = 0.20;
/// The least of it, N.
pub const AVERAGE_LEAST: f64 = 1.0;

/// A motor's numbers; `None` where it has no sound curve.
pub fn motor(motor: &Motor) -> Option<MotorNumbers> {
    let curve = ThrustCurve::new(motor.curve.as_ref()?.points.clone()).ok()?;
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

impl MotorNumbers {
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

/// The parts of a code such as `D9-5` or `1/2A3-2`; `None` where it isn't one.
pub fn read_code(code: &str) -> Option<Code> {
    let code = code.trim();
    let end = code.find(|c: char| c.is_ascii_uppercase())? + 1;
    let (letter, rest) = code.split_at(end);
    let digits = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
    let (average, rest) = rest.split_at(digits);
    let average = average.parse::<f64>().ok()?;
    let delay = rest.strip_prefix('-').and_then(|d| d.trim().parse().ok());
    Some(Code { letter: letter.to_string(), average, delay })
}
