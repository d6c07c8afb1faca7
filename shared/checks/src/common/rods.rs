//! Flights from rods, and bodies too wide for them.

use super::limits::{LIGHT_MASS, RAIL_BODY, RAIL_BODY_ALWAYS};
use crate::rule::Context;
use finwright_assess::FlightNumbers;
use finwright_model::{Flight, Pad};

/// Every flight from a rod, once a pad, with the body's width.
pub(crate) fn each_rod(cx: &Context, mut visit: impl FnMut(&Flight, &FlightNumbers, &Pad, f64)) {
    let Some(body) = cx.assessment.airframe.calibre else { return };
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(pad) = cx.design.pad_of(flight).filter(|pad| pad.has_rod()) else { continue };
        if told.contains(&pad.name.place) {
            continue;
        }
        told.push(pad.name.place);
        visit(flight, numbers, pad, body);
    }
}

/// The width from which a rail is told to be usual for such a body, and whether that holds for a light one too; `None`
/// where it isn't.
pub(crate) fn wants_rail(cx: &Context, body: f64, mass: Option<f64>) -> Option<(f64, bool)> {
    let (usual, always) = (cx.limit(&RAIL_BODY), cx.limit(&RAIL_BODY_ALWAYS));
    if body >= always {
        return Some((always, true));
    }
    (body >= usual && mass.is_some_and(|mass| mass > cx.limit(&LIGHT_MASS))).then_some((usual, false))
}
