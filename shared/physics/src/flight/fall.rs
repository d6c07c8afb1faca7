//! Under what is open to the ground, with what opens on the way.

use super::course::{
    finest, hanging, reached, state, unsound, upright, Care, Run, FALLING, FIRST_STEP, HEIGHT, LONGEST_FLIGHT,
    MOST_STEPS,
};
use super::log::End;
use super::moments::FlightPath;
use super::rocket::{Falling, Pitching};
use super::settled::Settled;
use super::FlightError;
use crate::ode::Solver;

/// Comes down from the moment at which something opens.
pub(crate) fn come_down(mut run: Run, time: f64, y: Pitching) -> Result<FlightPath, FlightError> {
    let rocket = run.rocket;
    let mass = rocket.mass_before(&run.stretch);
    let [drift, height, across, climb, _, _] = y;
    run.log.opening_state = Some(state(time, &y));
    run.log.opens(upright(time, &y), rocket.air_speed(height, across, climb), &run.canopies);
    let mut drag_area = run.canopies.drag_area();
    let mut at = hung(&run, mass, time, [drift, height, across, climb]);
    let mut skipped = run.care == Care::Full;
    for _ in 0..MOST_STEPS {
        if run.canopies.open_due(at.t, at.y[HEIGHT]) {
            drag_area = run.canopies.drag_area();
            let [_, height, across, climb] = at.y;
            run.log.opens(hanging(at.t, &at.y), rocket.air_speed(height, across, climb), &run.canopies);
            at = hung(&run, mass, at.t, at.y);
            skipped = run.care == Care::Full;
        }
        let f = |_: f64, y: &Falling| rocket.falling(mass, drag_area, y);
        let before = at;
        let mut step = at.step_to(f, (at.t + LONGEST_STEP).min(run.canopies.next_time())).map_err(unsound)?;
        if let Some(reached) = reached(&run.canopies, &step, f) {
            at = before;
            step = at.step_to(f, reached).map_err(unsound)?;
        }
        match run.log.step(&step, hanging, f) {
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
        let down_to = run.canopies.next_height().unwrap_or(0.0);
        if let Some(lower) = falls_alone.then(|| settled.skip(at.t, &at.y, down_to)).flatten() {
            run.log.skip_to(lower.time, &lower.state, hanging);
            (at.t, at.y) = (lower.time, lower.state);
            at.restart(f);
            skipped = true;
        }
    }
    Err(FlightError::Unsound(at.t))
}

const LONGEST_STEP: f64 = 5.0;

/// The fall under what is open now.
fn hung(run: &Run, mass: f64, time: f64, y: Falling) -> Solver<4> {
    let drag_area = run.canopies.drag_area();
    let tolerance = if run.care == Care::Usual { FALLING } else { finest() };
    Solver::new(|_, y| run.rocket.falling(mass, drag_area, y), time, y, FIRST_STEP, tolerance)
}
