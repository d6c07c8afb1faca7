//! What a flight carries along on its way, from release to landing.

use super::log::Log;
use super::moments::{Moment, State};
use super::rocket::{Falling, Pitching, Rocket, Stretch, HEIGHT};
use super::FlightError;
use crate::canopies::Canopies;
use crate::ode::{Step, StepFailed, Tolerance};

/// How far a flight is followed.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Until {
    Ground,
    Top,
    Burnout,
}

/// How closely a flight is followed.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Care {
    /// As fast as the answers stay the same to about a hundred-thousandth of the height.
    Usual,
    /// The full equations throughout, to some nine digits.
    Full,
}

/// What a flight is made of on its way.
pub(crate) struct Run<'f, 'w> {
    pub rocket: &'f Rocket<'f>,
    pub stretch: Stretch,
    pub canopies: Canopies<'f>,
    pub log: Log<'w>,
    pub care: Care,
    pub until: Until,
    /// The mass under what opens, kg, where it isn't the whole rocket's.
    pub hung: Option<f64>,
    /// How often a surface turned rough or smooth.
    pub turns: u32,
    /// Until when it isn't looked whether the swing has died away.
    pub look: f64,
}

/// When a step on the way down comes to the height at which the next canopy opens, if it does before its end.
pub(crate) fn reached<const N: usize>(
    canopies: &Canopies,
    step: &Step<N>,
    f: impl Fn(f64, &[f64; N]) -> [f64; N],
) -> Option<f64> {
    let height = canopies.next_height()?;
    let passes = step.y0[HEIGHT] > height && step.y1[HEIGHT] < height;
    let (t, _) = passes.then(|| step.crossing(f, HEIGHT, height)).flatten()?;
    (t > step.t0 && t < step.t1).then_some(t)
}

pub(crate) fn unsound(failed: StepFailed) -> FlightError {
    FlightError::Unsound(failed.0)
}

/// m and m/s to 1e-4.
pub(crate) const FALLING: Tolerance<4> = Tolerance { relative: 1e-6, absolute: [1e-4; 4] };
pub(crate) const LONGEST_FLIGHT: f64 = 3600.0;
/// Between two points of the curve, and under the canopy; a sound flight takes some hundreds.
pub(crate) const MOST_STEPS: u32 = 20_000;

/// The tolerance of [`Care::Full`].
pub(crate) fn finest<const N: usize>() -> Tolerance<N> {
    Tolerance { relative: 1e-10, absolute: [1e-9; N] }
}

pub(crate) fn path<const N: usize>(y: &[f64; N]) -> Falling {
    [y[0], y[1], y[2], y[3]]
}

pub(crate) fn state(time: f64, y: &Pitching) -> State {
    let [drift, height, across, climb, tilt, rate] = *y;
    State { time, drift, height, across, climb, tilt, rate }
}

pub(crate) fn upright(time: f64, y: &Pitching) -> Moment {
    Moment { tilt: y[4], ..hanging(time, &path(y)) }
}

pub(crate) fn hanging(time: f64, y: &Falling) -> Moment {
    Moment { time, height: y[1], drift: y[0], speed: (y[2] * y[2] + y[3] * y[3]).sqrt(), climb: y[3], tilt: 0.0 }
}
