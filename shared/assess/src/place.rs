//! Where the parts sit, with those that are placed from the balance point, which they move a little in turn.

use crate::misfit::{forget_places, forget_weights, misfits, Misfit};
use crate::mounted::with_motors;
use crate::shape::{Parts, Shape};
use crate::stage::{motors, mount};
use crate::unknown::{Measure, Needs, Subject};
use crate::weigh::Weight;
use crate::weighing::{as_flown, weighings, Weighing};
use crate::Unknown;
use finwright_model::{place_parts, Anchor, Design, Extent, Flight, Motor, Part, PartId, Stage};

/// Where everything came to rest.
pub(crate) struct Settled {
    pub extents: Vec<Option<Extent>>,
    /// Parts whose place didn't settle.
    pub unsettled: Vec<PartId>,
}

/// Rounds of placing and weighing. Each shrinks the error by the part's share of the mass, so 1e-12 m comes in a few
/// dozen even for a part of half the rocket's mass.
const ROUNDS: usize = 80;
const CLOSE: f64 = 1e-12;

/// Place all parts, with what can't be about them. The weights of such parts are forgotten, and with them the balance
/// point and every place that is counted from it.
pub(crate) fn settle_fitting(
    design: &Design,
    shapes: &[Shape],
    weights: &mut [Option<Weight>],
) -> (Settled, Vec<Misfit>) {
    let placed = |extents: &[Option<Extent>]| misfits(Parts { design, shapes, extents });
    let fixed = placed(&place_parts(design, |_| None));
    forget_weights(weights, &fixed);
    let mut settled = settle(design, shapes, weights);
    let mut found = placed(&settled.extents);
    // A part that isn't possible in the place that it came to moved the balance point there.
    if found.len() > fixed.len() {
        forget_weights(weights, &found);
        settled = settle(design, shapes, weights);
    } else {
        found = fixed;
    }
    forget_places(&mut settled.extents, &found);
    (settled, found)
}

/// Place all parts, to a fixed point where some are placed from the balance point as it is flown.
///
/// "The" balance point of a design with several motors is the one with the motor of the first flight that the part
/// guides, else of the first flight, else the first motor: a lug is glued on once.
pub(crate) fn settle(design: &Design, shapes: &[Shape], weights: &[Option<Weight>]) -> Settled {
    let floating: Vec<PartId> =
        design.parts.iter().enumerate().filter(|(_, part)| is_floating(part)).map(|(id, _)| id).collect();
    let fixed = place_parts(design, |_| None);
    // The balance point of a rocket with a part left out isn't its own.
    let is_whole = design.lost.is_empty() && weights.iter().all(Option::is_some);
    if floating.is_empty() || !is_whole {
        return Settled { extents: fixed, unsettled: Vec::new() };
    }
    let mut extents = fixed.clone();
    let mut change = f64::INFINITY;
    for _ in 0..ROUNDS {
        let parts = Parts { design, shapes, extents: &extents };
        let weighings = weighings(parts, weights);
        let balances: Vec<(PartId, Option<f64>)> =
            floating.iter().map(|id| (*id, balance_with(parts, weights, &weighings, *id))).collect();
        let next = place_parts(design, |id| balances.iter().find(|(part, _)| *part == id).and_then(|(_, b)| *b));
        change = largest_change(&extents, &next);
        extents = next;
        if change <= CLOSE {
            break;
        }
    }
    if extents.iter().any(Option::is_none) {
        extents = fixed;
    }
    let unsettled = if change > CLOSE { floating } else { Vec::new() };
    Settled { extents, unsettled }
}

/// The motor that "the balance point" of a part's placement is taken with.
pub fn reference_motor(design: &Design, id: PartId) -> Option<&Motor> {
    match reference_flight(design, id) {
        Some(flight) => design.motors.get(flight.motor.as_ref()?.value),
        None => design.motors.first(),
    }
}

/// The flight whose motors "the balance point" of a part's placement is taken with: the first that the part guides,
/// else the first of all.
pub fn reference_flight(design: &Design, id: PartId) -> Option<&Flight> {
    if let Some((_, flight)) = design.placed_with.iter().find(|(part, _)| *part == id) {
        return Some(flight);
    }
    let guided = design.flights.iter().find(|f| f.guided_by.iter().any(|g| g.value == id) && f.motor.is_some());
    guided.or_else(|| design.flights.iter().find(|f| f.motor.is_some()))
}

fn balance_with(parts: Parts, weights: &[Option<Weight>], weighings: &[Weighing], id: PartId) -> Option<f64> {
    let motors: Vec<(&Motor, Stage)> = match reference_flight(parts.design, id) {
        Some(flight) => motors(parts.design, flight),
        None => parts.design.motors.first().map(|motor| (motor, Stage::Upper)).into_iter().collect(),
    };
    let computed = with_motors(parts, weights, &motors)?;
    Some(as_flown(parts.design, weighings, &motors, computed).0.x)
}

/// Whether a part is placed from the balance point.
pub fn is_floating(part: &Part) -> bool {
    part.at.as_ref().is_some_and(|at| matches!(at.anchor, Anchor::AheadOfBalance | Anchor::BehindBalance))
}

fn largest_change(before: &[Option<Extent>], after: &[Option<Extent>]) -> f64 {
    before
        .iter()
        .zip(after)
        .map(|(b, a)| match (b, a) {
            (Some(b), Some(a)) => (b.front - a.front).abs(),
            (None, None) => 0.0,
            _ => f64::INFINITY,
        })
        .fold(0.0, f64::max)
}

/// Report the parts that have no place, and why.
pub(crate) fn report_unplaced(design: &Design, settled: &Settled, unknown: &mut Vec<Unknown>) {
    for (id, part) in design.parts.iter().enumerate() {
        if settled.extents.get(id).copied().flatten().is_some() {
            continue;
        }
        let parent_placed = part.parent.is_none_or(|p| settled.extents.get(p).copied().flatten().is_some());
        if !parent_placed {
            continue;
        }
        let needs = match (&part.at, part.is_body()) {
            (_, true) if part.missing.contains(&"length") => Needs::Fields(vec!["length"]),
            (_, true) => Needs::Elsewhere,
            (None, false) if part.broken.contains(&"at") => Needs::Elsewhere,
            (None, false) => Needs::Fields(vec!["at"]),
            (Some(_), false) if is_floating(part) && reference_motor(design, id).is_none() => Needs::Motor,
            // What its motor, mount or parts lack is told at them.
            (Some(_), false)
                if is_floating(part) && (mount(design, Stage::Upper).is_some() || !design.lost.is_empty()) =>
            {
                Needs::Elsewhere
            }
            (Some(_), false) if is_floating(part) => Needs::MountAndMotor,
            (Some(_), false) if part.length().is_none() && !part.missing.is_empty() => {
                Needs::Fields(part.missing.clone())
            }
            (Some(_), false) => Needs::Elsewhere,
        };
        unknown.push(Unknown { subject: Subject::Part(id), measure: Measure::Place, needs, place: part.header });
    }
}
