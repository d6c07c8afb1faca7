//! The run along the rod or rail, until the last guide leaves.

use super::air::Air;
use super::pad::OnPad;
use super::weighed::Weighed;
use crate::airflow::Airflow;
use finwright_physics::aerodynamics::Drag;
use finwright_physics::air::{standard, G0};
use finwright_physics::drag::DragTerms;
use finwright_physics::guided::{side_slope, GuidedOutcome, GuidedRun, Passage, StayReason};
use finwright_physics::motor::ThrustCurve;
use finwright_physics::reactions::Lean;

/// The run along the rod or rail.
#[derive(Clone, Debug)]
pub struct Run {
    /// Travel from rest until attitude is no longer held, m: the front guide's aft edge leaves, or a lone guide's front
    /// edge does.
    pub front_travel: f64,
    /// Travel from rest until the last guide's aft edge leaves, m.
    pub travel: f64,
    /// How it went.
    pub outcome: GuidedOutcome,
    /// Mean thrust from lift-off to the last release, over the weight on the pad.
    pub push: Option<f64>,
    /// The greatest acceleration until then, m/s2; 0 where it never moves.
    pub top_acceleration: f64,
    /// What it was computed from, for the working and for rules that ask "what if".
    pub inputs: RunInputs,
}

/// The numbers that decide the run. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)] // As in the physics crate's `GuidedRun`.
pub struct RunInputs {
    pub mass: f64,
    pub propellant: f64,
    pub tilt: f64,
    pub lean: Lean,
    pub friction: f64,
    pub side_force: f64,
    pub side_slope: f64,
    pub drag: f64,
    /// The drag coefficient behind `drag`.
    pub drag_coefficient: f64,
}

impl Run {
    /// The last release, where there is one.
    pub fn last(&self) -> Option<Passage> {
        match self.outcome {
            GuidedOutcome::Leaves { last, .. } => Some(last),
            GuidedOutcome::Stays(_) => None,
        }
    }

    /// The moment when attitude is no longer held, where there is one.
    pub fn front(&self) -> Option<Passage> {
        match self.outcome {
            GuidedOutcome::Leaves { front, .. } => Some(front),
            GuidedOutcome::Stays(_) => None,
        }
    }

    /// Why the rocket doesn't leave.
    pub fn stays(&self) -> Option<StayReason> {
        match self.outcome {
            GuidedOutcome::Stays(reason) => Some(reason),
            GuidedOutcome::Leaves { .. } => None,
        }
    }

    /// The same run with other travels, for asking what a longer rod or another place of a guide would give.
    pub fn inputs_on<'c>(&self, curve: &'c ThrustCurve) -> GuidedRun<'c> {
        self.inputs.on(curve, self.front_travel, self.travel)
    }
}

impl RunInputs {
    /// The same in another wind in m/s, which presses the guides against the rod or rail.
    pub(crate) fn in_wind(self, airflow: &Airflow, density: f64, wind: f64) -> RunInputs {
        RunInputs {
            side_force: airflow.side_force(density, wind),
            side_slope: side_slope(density, airflow.reference_area, airflow.total.cna, wind),
            ..self
        }
    }

    /// The physics' view of the run.
    pub fn on(self, curve: &ThrustCurve, front_leaves: f64, last_leaves: f64) -> GuidedRun<'_> {
        GuidedRun {
            curve,
            mass: self.mass,
            propellant: self.propellant,
            tilt: self.tilt,
            friction: self.friction,
            side_force: self.side_force,
            side_slope: self.side_slope,
            drag: self.drag,
            front_leaves,
            last_leaves,
        }
    }
}

/// Speed at which the drag coefficient of the guided run is taken, m/s. On the guide drag takes off about a thousandth,
/// so one coefficient near the release speed is enough.
const DRAG_SPEED: f64 = 13.4;

/// The run of a rocket from its rest on the pad; `None` where a guide isn't on the rod or rail from the start.
pub(crate) fn run(airflow: &Airflow, air: &Air, curve: &ThrustCurve, weighed: &Weighed, on_pad: &OnPad) -> Option<Run> {
    let (front_travel, travel) = on_pad.travels()?;
    if travel <= 0.0 {
        return None;
    }
    let drag_coefficient = airflow.aerodynamics.drag.coefficient(DRAG_SPEED, &standard(0.0), true);
    let inputs = RunInputs {
        mass: weighed.loaded.mass,
        propellant: weighed.propellant.mass,
        tilt: on_pad.tilt.si,
        lean: on_pad.lean,
        friction: on_pad.friction.si,
        side_force: 0.0,
        side_slope: 0.0,
        drag: 0.5 * air.density * drag_coefficient * airflow.reference_area,
        drag_coefficient,
    };
    let inputs = inputs.in_wind(airflow, air.density, air.wind);
    let guided = inputs.on(curve, front_travel, travel);
    let (outcome, top_acceleration) = guided.run_and_push();
    let push = push(&guided, &outcome);
    Some(Run { front_travel, travel, outcome, push, top_acceleration: top_acceleration.unwrap_or(0.0), inputs })
}

/// Mean thrust from lift-off to the last release, over the weight on the pad; `None` where it doesn't leave.
pub fn push(run: &GuidedRun, outcome: &GuidedOutcome) -> Option<f64> {
    let GuidedOutcome::Leaves { lift_off, last, .. } = outcome else { return None };
    let impulse = run.curve.impulse_to(last.time) - run.curve.impulse_to(*lift_off);
    Some(impulse / (last.time - lift_off) / (run.mass * G0))
}

/// The drag coefficient of the guided run, term by term.
pub(crate) fn drag_terms(airflow: &Airflow) -> Option<DragTerms> {
    match &airflow.aerodynamics.drag {
        Drag::BuildUp(model) => Some(model.terms(DRAG_SPEED, &standard(0.0), true)),
        Drag::Constant(_) => None,
    }
}
