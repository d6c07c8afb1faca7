//! What would just do: the same run asked backwards, for the speed at which fins take over.
//! [`EXIT_FLOOR`] is the usual one; settings may ask for more.

use crate::airflow::Airflow;
use crate::flight::FlightNumbers;
use finwright_physics::guided::GuidedOutcome;
use finwright_physics::roots::bracketed;

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
pub fn just_does(airflow: Option<&Airflow>, numbers: &FlightNumbers, floor: f64) -> JustDoes {
    let known = (|| Some((numbers.run.as_ref()?, numbers.curve.as_ref()?, numbers.rail_length()?)))();
    let Some((run, curve, length)) = known else { return JustDoes::default() };
    let physics = run.inputs_on(curve);
    JustDoes {
        length: physics.travel_for_speed(floor).map(|travel| length + travel - run.travel),
        mass: physics.mass_for_speed(floor, run.travel),
        tilt: physics.tilt_for_speed(floor, run.travel, MOST_TILT),
        wind: airflow.and_then(|airflow| wind_for_speed(airflow, numbers, floor)),
    }
}

/// The steady wind that leaves just this speed, by the friction under its push; `None` where no wind up to a storm's
/// takes so much, or even still air leaves less.
fn wind_for_speed(airflow: &Airflow, numbers: &FlightNumbers, floor: f64) -> Option<f64> {
    /// No wind that anybody would fly in, m/s.
    const STORM: f64 = 60.0;
    let (run, curve, air) = (numbers.run.as_ref()?, numbers.curve.as_ref()?, numbers.air?);
    let excess = |wind: f64| {
        let inputs = run.inputs.in_wind(airflow, air.density, wind);
        match inputs.on(curve, run.front_travel, run.travel).run() {
            GuidedOutcome::Leaves { last, .. } => last.speed - floor,
            GuidedOutcome::Stays(_) => -floor,
        }
    };
    if excess(0.0) < 0.0 || excess(STORM) > 0.0 {
        return None;
    }
    bracketed(0.0, STORM, excess)
}
