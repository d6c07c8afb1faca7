//! The pads that flights use.

use crate::rule::Context;
use finwright_assess::FlightNumbers;
use finwright_model::Pad;

/// The pads that flights use, each once with its first flight.
pub(crate) fn used<'a>(cx: &Context<'a>) -> Vec<(&'a Pad, &'a FlightNumbers)> {
    let mut found: Vec<(usize, &Pad, &FlightNumbers)> = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(number) = flight.pad.as_ref().map(|pad| pad.value) else { continue };
        let Some(pad) = cx.design.pads.get(number) else { continue };
        if !found.iter().any(|(known, ..)| *known == number) {
            found.push((number, pad, numbers));
        }
    }
    found.sort_by_key(|(number, ..)| *number);
    found.into_iter().map(|(_, pad, numbers)| (pad, numbers)).collect()
}
