//! Flights of one motor share their margins, which are told once.

use crate::finding::Finding;
use crate::rule::Context;
use finwright_assess::FlightNumbers;
use finwright_model::Flight;

/// Checks each flight, and keeps the first finding of each motor.
pub(crate) fn each_motor(
    cx: &Context,
    out: &mut Vec<Finding>,
    check: fn(&Context, &Flight, &FlightNumbers) -> Option<Finding>,
) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let motor = flight.motor.as_ref().map(|m| m.value);
        if told.contains(&motor) {
            continue;
        }
        if let Some(finding) = check(cx, flight, numbers) {
            told.push(motor);
            out.push(finding);
        }
    }
}
