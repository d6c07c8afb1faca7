//! The last metres of a settled fall, over the height instead of the time.
//!
//! Wind by a power law falls to nothing at the ground with a vertical tangent, through which steps in time go ever
//! shorter. Over the height's n-th power, n being the law's exponent, the wind is a straight line and the ground an end
//! like any other.

use super::rocket::{falling, Falling};
use super::settled::{Lower, Settled};
use super::FlightError;
use crate::ode::{Solver, Tolerance};

/// From a settled fall's end to the ground. Some moments on the way are shown to `watch`, where there is one.
pub(crate) fn touch_down(
    settled: &Settled,
    from: &Lower,
    mut watch: Option<impl FnMut(f64, &Falling)>,
) -> Result<Lower, FlightError> {
    let [drift, height, across, climb] = from.state;
    let power = settled.sky.straight_power();
    // The height above the ground, and how fast it falls with r.
    let heights = |r: f64| {
        let steep = height * (1.0 - r).powi(power - 1);
        (steep * (1.0 - r), f64::from(power) * steep)
    };
    // Time, drift and velocity over r, which goes from 0 where it begins to 1 at the ground.
    let f = |r: f64, [_, drift, across, climb]: &[f64; 4]| {
        let (height, steep) = heights(r);
        let slope = falling(settled.sky, settled.mass, settled.drag_area, &[*drift, height, *across, *climb]);
        let time = -steep / climb;
        [time, slope[0] * time, slope[2] * time, slope[3] * time]
    };
    let lower = |r: f64, y: &[f64; 4]| Lower { time: from.time + y[0], state: [y[1], heights(r).0, y[2], y[3]] };
    let mut at: Solver<4> = Solver::new(f, 0.0, [0.0, drift, across, climb], FIRST_STEP / f64::from(power), TOLERANCE);
    for _ in 0..MOST_STEPS {
        let step = at.step_to(f, 1.0).map_err(|_| FlightError::Unsound(from.time))?;
        if let Some(watch) = &mut watch {
            for piece in 1..PIECES {
                let r = step.t0 + f64::from(piece) / f64::from(PIECES) * (step.t1 - step.t0);
                let Lower { time, state } = lower(r, &step.at(r));
                watch(time, &state);
            }
        }
        let here = lower(at.t, &at.y);
        if at.t >= 1.0 {
            return Ok(here);
        }
        if let Some(watch) = &mut watch {
            watch(here.time, &here.state);
        }
    }
    Err(FlightError::Unsound(from.time))
}

/// In how many pieces whoever watches sees a step.
const PIECES: u32 = 4;
/// As a share of the whole way, for a wind that is straight over the height itself.
const FIRST_STEP: f64 = 0.4;
const MOST_STEPS: u32 = 1000;
/// s to 3e-5, m and m/s to 3e-4.
const TOLERANCE: Tolerance<4> = Tolerance { relative: 3e-6, absolute: [3e-5, 3e-4, 3e-4, 3e-4] };
