//! Every guide where it sits, once.

use crate::finding::Finding;
use crate::rule::Context;
use finwright_assess::{FlightNumbers, GuideNumbers, Seat};
use finwright_model::{Flight, Part, PartId};

/// A guide where it sits, in a flight.
pub(crate) struct Seated<'a> {
    pub flight: &'a Flight,
    pub numbers: &'a FlightNumbers,
    pub part: &'a Part,
    pub guide: &'a GuideNumbers,
    pub seat: Seat,
}

/// Visits each guide in its first flight that `check` finds something in; one guide is told of once.
pub(crate) fn each(cx: &Context, out: &mut Vec<Finding>, check: fn(&Context, &Seated) -> Option<Finding>) {
    let mut told: Vec<PartId> = Vec::new();
    for (flight, numbers) in cx.flights() {
        for guide in numbers.guides() {
            let (Some(part), Some(seat)) = (cx.design.parts.get(guide.part), guide.seat) else { continue };
            if told.contains(&guide.part) {
                continue;
            }
            if let Some(finding) = check(cx, &Seated { flight, numbers, part, guide, seat }) {
                told.push(guide.part);
                out.push(finding.label(flight.name.place, "in this flight"));
            }
        }
    }
}
