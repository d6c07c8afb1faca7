//! The run along the rod or rail, moment by moment, until the last guide leaves.

mod end;
mod forces;
mod lift_off;
mod moment;
mod run;

use crate::page::Page;
use crate::sources::{GEOMETRY, KINEMATICS, NEWTON};
use crate::term::Term;
use crate::thrust_to_weight::say_cluster;
use crate::{lacks, Lack, Number, Subject};
use end::{by_impulse, coasting, pushed};
use finwright_assess::{FlightNumbers, Run};
use finwright_physics::guided::{GuidedOutcome, GuidedRun, Passage};
use finwright_physics::motor::ThrustCurve;
use forces::{holding_back, Burn};
use lift_off::lift_off;
use run::{along, Piece};

/// The steps.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let (Some(run), Some(curve)) = (&numbers.run, &numbers.curve) else {
        return Err(lacks(of, numbers, "a run along a rod or rail"));
    };
    let last =
        run.last().ok_or_else(|| Lack("a rocket that leaves its rod or rail; this one stays on it".to_string()))?;
    let travel = travel(page, of, numbers)?;
    let rest = holding_back(page, of, numbers, run)?;
    say_cluster(page, of, numbers);
    let burn = Burn::know(page, run, curve);
    let start = lift_off(page, curve, &rest, &burn)?;
    let ways = along(curve, &rest, &burn, &travel, &start)?;
    page.note(format!(
        "Now from point to point of the curve, and by way of the moment halfway where more than a hundredth of the \
            mass burns away between two of them; its thrust lies on the straight line. A stroke means the line above: \
            v = v' + (a' + a)/2·(t - t'). Sources: {NEWTON}; {KINEMATICS}."
    ));
    page.table(ways.table);
    let (speed, leaves) = match &ways.end {
        Piece::Pushed { from, to } => pushed(page, from, to, &travel)?,
        Piece::Coasting { from } => coasting(page, from, &rest, &travel)?,
    };
    let alike = by_hands_forces(run, curve);
    page.end_beside("exit speed", &speed, last.speed, alike);
    if let Some((time, impulse, mass)) = leaves {
        let speed = by_impulse(page, &rest, &start, [&time, &impulse, &mass]);
        page.end_beside("exit speed by impulse and mean mass", &speed, last.speed, alike);
    }
    say_what_is_left_out(page, run, curve, &last);
    Ok(())
}

/// The way from rest until the last guide leaves.
fn travel(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<Term, Lack> {
    let pad = of.pad(numbers)?;
    let held = last_held(of, numbers);
    let (Some(length), Some(lowest), Some((last, back))) = (pad.rail_length(), numbers.lowest(), held) else {
        return Err(lacks(of, numbers, "the pad's length and the guides' places"));
    };
    let mm = |m: f64| Number::given(m * 1e3, "mm");
    let word = pad.rail_word();
    let length = page.know("L", format!("length of the {word}"), mm(length.si), "in the file");
    let stop = pad.stop_or_foot();
    let from = if stop.is_default { "nothing is said of a stop" } else { "in the file" };
    let stop = page.know("h", "height of the stop that the rocket rests on", mm(stop.si), from);
    let means = format!("from the rocket's lowest point up to the back edge of {last}");
    let above = page.know("b", means, mm(lowest - back), "from the parts' places");
    let until = if pad.has_tower() { "the body" } else { "the last guide" };
    let travel = page.step(format!("The travel until {until} leaves"), "way", &(length - stop - above), GEOMETRY, "mm");
    Ok(travel.moved(-3, "m"))
}

/// What leaves last, in words, and where it ends, m from the tip.
fn last_held(of: &Subject, numbers: &FlightNumbers) -> Option<(String, f64)> {
    match numbers.on_pad.as_ref()?.in_tower {
        Some(tower) => Some(("the stretch that the tower holds".to_string(), tower.held.back)),
        None => {
            let last = numbers.guides().last()?;
            Some((format!("{}, the last guide", of.label(last.part)), last.extent.back))
        }
    }
}

/// The program's exit speed without drag and without the friction that grows with the speed.
fn by_hands_forces(run: &Run, curve: &ThrustCurve) -> Option<f64> {
    match (GuidedRun { drag: 0.0, side_slope: 0.0, ..run.inputs_on(curve) }).run() {
        GuidedOutcome::Leaves { last, .. } => Some(last.speed),
        _ => None,
    }
}

fn say_what_is_left_out(page: &mut Page, run: &Run, curve: &ThrustCurve, last: &Passage) {
    let without = GuidedRun { drag: 0.0, ..run.inputs_on(curve) };
    if let GuidedOutcome::Leaves { last: free, .. } = without.run() {
        let share = 100.0 * (free.speed - last.speed) / last.speed;
        let drag = Number::result(run.inputs.drag * last.speed * last.speed, "N");
        page.neglect(format!(
            "Drag, which has grown to {drag} at the end: without it the program's own number would be {share:.2} % \
                more."
        ));
    }
    let calm = GuidedRun { side_slope: 0.0, ..run.inputs_on(curve) };
    if let (GuidedOutcome::Leaves { last: free, .. }, true) = (calm.run(), run.inputs.side_slope > 0.0) {
        let share = 100.0 * (free.speed - last.speed) / last.speed;
        let push = Number::result(run.inputs.side_slope * last.speed, "N");
        page.neglect(format!(
            "Friction under the air's own push on the fins, which has grown to {push} across the guide at the end: \
                without it the program's own number would be {share:.2} % more."
        ));
    }
    page.neglect(
        "Between two points of the curve the acceleration isn't quite a straight line, because the mass shrinks.",
    );
}
