//! What another flight of the same motor does better: its pad, or its guides.

use crate::finding::Finding;
use crate::rule::Context;
use finwright_assess::FlightNumbers;
use finwright_grammar::{Place, Span};
use finwright_model::Flight;

/// Another flight of the same motor, with what it has that this one hasn't.
pub(crate) struct Elsewhere<'a> {
    /// The other flight.
    pub flight: &'a Flight,
    /// Its numbers.
    pub numbers: &'a FlightNumbers,
    /// "the pad mini_rail", "the guides of two".
    pub what: String,
}

/// The first other flight of the same motor that is better by this test.
pub(crate) fn elsewhere<'a>(
    cx: &Context<'a>,
    flight: &Flight,
    better: impl Fn(&FlightNumbers) -> bool,
) -> Option<Elsewhere<'a>> {
    let of = |named: &Option<finwright_model::Named<usize>>| named.as_ref().map(|n| n.value);
    cx.flights().find_map(|(other, numbers)| {
        let pad = cx.design.pad_of(other)?;
        let what = if of(&other.pad) == of(&flight.pad) {
            format!("the guides of {}", other.name.value)
        } else {
            format!("the pad {}", pad.name.value)
        };
        let differs = other.name.place != flight.name.place && of(&other.motor) == of(&flight.motor);
        (differs && better(numbers)).then_some(Elsewhere { flight: other, numbers, what })
    })
}

/// With a fix that gives a flight the other one's pad and guides.
pub(crate) fn fly_there(cx: &Context, flight: &Flight, other: &Elsewhere, finding: Finding) -> Finding {
    let (Some(pad), Some(theirs)) = (&flight.pad, cx.design.pad_of(other.flight)) else { return finding };
    let (Some(first), Some(last)) = (flight.guided_by.first(), flight.guided_by.last()) else { return finding };
    if first.place.file != last.place.file {
        return finding;
    }
    let list = Place { span: Span::new(first.place.span.start as usize, last.place.span.end as usize), ..first.place };
    let mut names: Vec<&str> = other.flight.guided_by.iter().map(|named| cx.design.text(named.place)).collect();
    // Copies of one block share its name.
    names.dedup();
    finding.fix_all(
        format!("fly it with {}", other.what),
        [(pad.place, theirs.name.value.clone()), (list, names.join(", "))],
    )
}
