//! Under what is open to the ground, with what opens on the way.

use super::log::{End, Log};
use super::moments::FlightPath;
use super::rocket::{falling, Falling, Pitching, ACROSS, CLIMB, HEIGHT};
use super::run::{finest, hanging, reached, state, unsound, upright, Care, Run, LONGEST_FLIGHT, MOST_STEPS};
use super::settled::{Lower, Settled};
use super::sky::Sky;
use super::touchdown::touch_down;
use super::FlightError;
use crate::air::{Atmosphere, Wind};
use crate::ode::{Solver, Step, Tolerance};

/// Comes down from the moment at which something opens.
pub(crate) fn come_down(mut run: Run, time: f64, y: Pitching) -> Result<FlightPath, FlightError> {
    let rocket = run.rocket;
    let mass = run.hung.unwrap_or_else(|| rocket.mass_before(&run.stretch));
    let [drift, height, across, climb, _, _] = y;
    run.log.opening_state = Some(state(time, &y));
    run.log.opens(upright(time, &y), rocket.air_speed(height, across, climb), &run.canopies);
    let mut drag_area = run.canopies.drag_area();
    let mut at = hung(&run, mass, time, [drift, height, across, climb]);
    let mut skipped = run.care == Care::Full;
    let mut step = Step::NONE;
    let step = &mut step;
    for _ in 0..MOST_STEPS {
        if run.canopies.open_due(at.t, at.y[HEIGHT]) {
            drag_area = run.canopies.drag_area();
            let [_, height, across, climb] = at.y;
            run.log.opens(hanging(at.t, &at.y), rocket.air_speed(height, across, climb), &run.canopies);
            at = hung(&run, mass, at.t, at.y);
            skipped = run.care == Care::Full;
        }
        let f = |_: f64, y: &Falling| falling(&rocket.sky, mass, drag_area, y);
        let longest = LONGEST_STEP.min(not_through_the_ground(&at.y));
        at.step_into(f, (at.t + longest).min(run.canopies.next_time()), step).map_err(unsound)?;
        if let Some(reached) = reached(&run.canopies, step, f) {
            at.back(step);
            at.step_into(f, reached, step).map_err(unsound)?;
        }
        match run.log.step(step, hanging, f) {
            Some(End::Ground(landing)) => return Ok(run.log.path(landing)),
            Some(End::Top(t, y)) => {
                run.canopies.pass_top(t);
                // What opens before this step ends is taken up at its curve again.
                let low = run.canopies.next_height().is_some_and(|height| y[HEIGHT] <= height);
                let soon = if low { t } else { run.canopies.next_time() };
                if soon < at.t {
                    (at.t, at.y) = (soon, if soon == t { y } else { step.at(soon) });
                    at.restart(f);
                }
            }
            None => {}
        }
        if at.t > LONGEST_FLIGHT {
            return Err(FlightError::NeverLands);
        }
        let falls_alone = !skipped && run.canopies.next_time() == f64::INFINITY;
        let settled = Settled { mass, drag_area, sky: &rocket.sky };
        let next = run.canopies.next_height();
        let skip = |log: &mut Log| {
            let watch = log.watch().map(|watch| |t: f64, y: &Falling| watch(&hanging(t, y)));
            settled.skip(at.t, &at.y, next.unwrap_or(0.0), watch)
        };
        if let Some(lower) = falls_alone.then(|| skip(&mut run.log)).flatten() {
            run.log.skip_to(lower.time, &lower.state, hanging);
            if next.is_none() {
                return land(run, &settled, &lower);
            }
            (at.t, at.y) = (lower.time, lower.state);
            at.restart(f);
            skipped = true;
        } else if falls_alone && next.is_none() && settled.is_low(&at.y) {
            return land(run, &settled, &Lower { time: at.t, state: at.y });
        }
    }
    Err(FlightError::Unsound(at.t))
}

fn land(mut run: Run, settled: &Settled, from: &Lower) -> Result<FlightPath, FlightError> {
    let watch = run.log.watch().map(|watch| |t: f64, y: &Falling| watch(&hanging(t, y)));
    let Lower { time, state } = touch_down(settled, from, watch)?;
    if time > LONGEST_FLIGHT {
        return Err(FlightError::NeverLands);
    }
    run.log.skip_to(time, &state, hanging);
    Ok(run.log.path(hanging(time, &state)))
}

/// The speed over ground in m/s at which something of `mass` kg that has long fallen under `drag_area` m² touches down,
/// without a flight before: the steady fall's, and what is left of the wind that fades towards the ground.
pub fn landing_speed(mass: f64, drag_area: f64, atmosphere: &Atmosphere, wind: &Wind) -> Result<f64, FlightError> {
    let sky = Sky::exact(atmosphere, wind);
    let settled = Settled { mass, drag_area, sky: &sky };
    let low = settled.end(0.0);
    let thinning = (sky.density(low) / sky.density(0.0)).ln() / low;
    let (vx, vz) = settled.velocity(low, thinning);
    let from = Lower { time: 0.0, state: [0.0, low, vx, vz] };
    let landing = touch_down(&settled, &from, None::<fn(f64, &Falling)>)?;
    Ok(landing.state[ACROSS].hypot(landing.state[CLIMB]))
}

const LONGEST_STEP: f64 = 5.0;
/// Of the time in which the fall would slow down to nothing.
const FIRST_STEP: f64 = 0.25;
/// m and m/s to 3e-4: what a fall is off by dies away.
const HUNG: Tolerance<4> = Tolerance { relative: 3e-6, absolute: [3e-4; 4] };

/// How long a step may be, s, that is to end above the ground, down to a hand's breadth above it, and then a little below
/// it. The wind fades so fast there that a step far through it, tried first, would only fail.
fn not_through_the_ground([_, height, _, climb]: &Falling) -> f64 {
    if *climb >= 0.0 {
        return f64::INFINITY;
    }
    let share = if *height > HAND { 0.7 } else { 1.5 };
    (share * height / -climb).max(LEAST_STEP)
}

const HAND: f64 = 0.05;
const LEAST_STEP: f64 = 1e-3;

/// The fall under what is open now.
fn hung(run: &Run, mass: f64, time: f64, y: Falling) -> Solver<4> {
    let drag_area = run.canopies.drag_area();
    let tolerance = if run.care == Care::Usual { HUNG } else { finest() };
    let f = |_: f64, y: &Falling| falling(&run.rocket.sky, mass, drag_area, y);
    let slope = f(time, &y);
    let slows = run.rocket.air_speed(y[HEIGHT], y[ACROSS], y[CLIMB]) / slope[ACROSS].hypot(slope[CLIMB]);
    Solver::new(f, time, y, (FIRST_STEP * slows).max(LEAST_STEP), tolerance)
}
