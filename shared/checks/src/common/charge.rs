//! What a motor's code says of its charge.

use super::deferred::NO_CHARGE;
use crate::rule::Context;
use finwright_model::Flight;

/// Whether it's told of a flight's motor that it has no delay, so that when it opens isn't worth telling too. Under a
/// plugged one something else opens, at the time that the file gives as the delay.
pub(crate) fn lacks_delay(cx: &Context, flight: &Flight) -> bool {
    let code = flight.motor.as_ref().and_then(|named| cx.design.motors.get(named.value)?.code.as_ref());
    let ends = code.and_then(|code| ending(&code.value)).is_some_and(|end| end == "0");
    ends && !cx.settings.is_off(NO_CHARGE)
}

/// What stands behind the last dash of a motor's code.
pub(crate) fn ending(code: &str) -> Option<&str> {
    code.rsplit_once('-').map(|(_, ending)| ending.trim())
}
