//! What would just do: the same run asked backwards, for the speed at which fins take over.
//! [`EXIT_FLOOR`] is the usual one; settings may ask for more.

use crate::flight::SIDE_DRAG;
use crate::{Assessment, FlightNumbers};

/// Speed at which the last guide should leave, m/s: about 30 mph, where fins take over (common practice, no source).
pub const EXIT_FLOOR: f64 = 13.4;
/// No code that we know allows a launch further from the vertical than 30 degrees (NFPA 1122, reprint), rad.
const MOST_TILT: f64 = std::f64::consts::FRAC_PI_6;

/// What just reaches a floor of the exit speed, all else as it is; each `None` where nothing does, or anything does.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct JustDoes {
    /// Length of the rod or rail, m.
    pub length: Option<f64>,
    /// Mass on the pad, kg.
    pub mass: Option<f64>,
    /// Tilt of the pad, rad, at most 30 degrees.
    pub tilt: Option<f64>,
    /// Steady wind across the rocket on its rod or rail, m/s.
    pub wind: Option<f64>,
}

/// Ask a flight's run backwards: what just gives an exit speed of `floor` m/s.
pub fn just_does(assessment: &Assessment, numbers: &FlightNumbers, floor: f64) -> JustDoes {
    let known = (|| Some((numbers.run.as_ref()?, numbers.curve.as_ref()?, numbers.rail_length?)))();
    let Some((run, curve, length)) = known else { return JustDoes::default() };
    let physics = run.inputs_on(curve);
    let wind = |force: f64| {
        let (area, air) = (assessment.airflow.as_ref()?.side_area, numbers.air?);
        Some((2.0 * force / (air.density * SIDE_DRAG * area)).sqrt())
    };
    JustDoes {
        length: physics.travel_for_speed(floor).map(|travel| length + travel - run.travel),
        mass: physics.mass_for_speed(floor, run.travel),
        tilt: physics.tilt_for_speed(floor, run.travel, MOST_TILT),
        wind: physics.side_force_for_speed(floor, run.travel).and_then(wind),
    }
}
