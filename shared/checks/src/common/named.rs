//! What is named beside many findings: where a flight balances, its motor, a part's place.

use crate::rule::Context;
use finwright_grammar::Place;
use finwright_model::{Flight, Part};
use finwright_units::show;

/// Where a flight balances: "balances 246 mm from the tip with b7 in".
pub(crate) fn balance_label(cx: &Context, flight: &Flight, x: f64) -> String {
    format!("balances {} from the tip with {} in", show::station(x), motor_name(cx, flight))
}

/// The name of a flight's motor.
pub(crate) fn motor_name(cx: &Context, flight: &Flight) -> String {
    let motor = flight.motor.as_ref().and_then(|m| cx.design.motors.get(m.value));
    motor.map_or("the motor".to_string(), |m| m.name.value.clone())
}

/// The place of a part's `at`, else of its header.
pub(crate) fn value_place(part: &Part) -> Place {
    part.at.as_ref().map_or(part.header, |at| at.place)
}
