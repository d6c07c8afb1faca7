//! A climb through a single gust.

use super::bump::Bump;
use super::course::rocket;
use super::rocket::{Pitching, Rocket, Stretch, CLIMB, HEIGHT};
use super::run::{unsound, Care, MOST_STEPS};
use super::{Flight, FlightError};
use crate::ode::{Solver, Tolerance};

/// What came of a climb through a gust. Angles in rad, heights in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gusted {
    /// The greatest angle between the axis and the air that meets it, while the rocket climbs faster than it left.
    pub angle: f64,
    /// Where that is.
    pub height: f64,
    /// The tilt at burnout, positive downwind; at the release where the burn ends on the guide.
    pub burnout_tilt: f64,
    /// The highest point.
    pub top: f64,
}

/// The climb by the full equations of motion, to the highest point.
pub(super) fn climb(flight: &Flight, bump: Bump) -> Result<Gusted, FlightError> {
    let from = flight.release;
    let mut rocket = rocket(flight, &from.into(), Care::Usual)?;
    rocket.sky.bump = Some(bump);
    let (sin, cos) = from.tilt.sin_cos();
    let y: Pitching = [0.0, from.height, from.speed * sin, from.speed * cos, from.tilt, from.rate];
    let mut stretch = Stretch::from(flight.curve, from.time, None);
    let mut at = Solver::new(|t, y| rocket.pitching(&stretch, t, y), from.time, y, FIRST_STEP, TOLERANCE);
    let (points, burn_end) = (flight.curve.points(), flight.curve.burn().1);
    let mut next = points.partition_point(|point| point.0 <= from.time);
    let mut gusted = Gusted { angle: 0.0, height: from.height, burnout_tilt: from.tilt, top: from.height };
    for _ in 0..MOST_STEPS {
        let knot = points.get(next).map_or(f64::INFINITY, |point| point.0);
        let within = at.t + longest(&bump, &at.y);
        let step = at.step_to(|t, y| rocket.pitching(&stretch, t, y), knot.min(within)).map_err(unsound)?;
        let [_, height, _, climb, tilt, _] = at.y;
        if climb <= 0.0 {
            let top = step.crossing(|t, y| rocket.pitching(&stretch, t, y), CLIMB, 0.0);
            gusted.top = top.map_or(height.max(step.y0[HEIGHT]), |(_, y)| y[HEIGHT]);
            return Ok(gusted);
        }
        gusted.top = height;
        for share in LOOKS {
            note_angle(&mut gusted, &rocket, &step.at(step.t0 + share * (step.t1 - step.t0)), from.speed);
        }
        if at.t >= knot {
            next += 1;
            if at.t >= burn_end && step.t0 < burn_end {
                gusted.burnout_tilt = tilt;
            }
            stretch = Stretch::from(flight.curve, at.t, None);
            at.restart(|t, y| rocket.pitching(&stretch, t, y));
        }
    }
    Err(FlightError::Unsound(at.t))
}

/// How long a step may be, s: one mustn't jump over the gust, nor through much of it.
fn longest(bump: &Bump, y: &Pitching) -> f64 {
    let (height, climb) = (y[HEIGHT], y[CLIMB].abs().max(1.0));
    if height > bump.bottom + bump.length {
        return LONGEST;
    }
    (((bump.bottom - height).max(0.0) + bump.length / 12.0) / climb).min(LONGEST)
}

/// Where in a step the angle is looked at.
const LOOKS: [f64; 4] = [0.0, 0.25, 0.5, 0.75];

/// Keeps the greatest angle at which the air meets the rocket while it's as fast as when it left.
fn note_angle(gusted: &mut Gusted, rocket: &Rocket, y: &Pitching, least: f64) {
    let [_, height, across, climb, tilt, _] = *y;
    let angle = (tilt - (across - rocket.sky.wind(height)).atan2(climb)).abs();
    // The release's own speed comes back from its components with another last digit.
    if angle > gusted.angle && across.hypot(climb) >= least * (1.0 - 1e-9) {
        (gusted.angle, gusted.height) = (angle, height);
    }
}

const FIRST_STEP: f64 = 5e-3;
const LONGEST: f64 = 0.25;
/// m to 1e-3, m/s to 1e-3, rad to 1e-5.
const TOLERANCE: Tolerance<6> = Tolerance { relative: 1e-6, absolute: [1e-3, 1e-3, 1e-3, 1e-3, 1e-5, 1e-3] };
