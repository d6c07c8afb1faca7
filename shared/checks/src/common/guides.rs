//! The guides of a flight, and what would change about them.

use super::limits::LUG_PLAY;
use crate::rule::Context;
use finwright_assess::FlightNumbers;
use finwright_grammar::{Place, Span};
use finwright_model::fit::is_loose;
use finwright_model::{Flight, Named, Pad, Part, PartId, PartKind, Rail};

pub(crate) fn guides_of<'a>(cx: &Context<'a>, numbers: &FlightNumbers) -> Vec<&'a Part> {
    numbers.guides().iter().filter_map(|guide| cx.design.parts.get(guide.part)).collect()
}

/// The edit that gives a guide this standoff: in place of the one that it has, else behind where it is placed.
pub(crate) fn set_standoff(part: &Part, text: &str) -> Option<(Place, String)> {
    if let Some(standoff) = part.standoff() {
        return Some((standoff.place, text.to_string()));
    }
    let at = part.at.as_ref()?.place;
    let end = at.span.end as usize;
    Some((Place { span: Span::new(end, end), ..at }, format!("; standoff: {text}")))
}

/// The lugs that are much wider than a rod that they run on.
pub(crate) fn loose_lugs(cx: &Context) -> Vec<PartId> {
    let mut found = Vec::new();
    each_guide(cx, |_, pad, named, part| {
        if let (PartKind::Lug { bore: Some(bore), .. }, Some(Rail::Rod { diameter: Some(rod), .. })) =
            (&part.kind, &pad.rail)
        {
            if is_loose(bore.si, rod.si, cx.limit(&LUG_PLAY)) {
                found.push(named.value);
            }
        }
    });
    found
}

pub(crate) fn each_guide(cx: &Context, mut visit: impl FnMut(&Flight, &Pad, &Named<usize>, &Part)) {
    for (flight, _) in cx.flights() {
        let Some(pad) = cx.design.pad_of(flight) else { continue };
        for named in &flight.guided_by {
            if let Some(part) = cx.design.parts.get(named.value) {
                visit(flight, pad, named, part);
            }
        }
    }
}
