//! `guide/lone-guide-off-balance`: a single lug that doesn't sit at the balance point.

use crate::common::named::{balance_label, value_place};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::FlightNumbers;
use finwright_model::{Flight, PartId};
use finwright_units::{show, Dimension};

/// How far a lone lug may lie from the balance point; half its own length is always allowed.
pub static LONE_GUIDE_OFFSET: Threshold = Threshold::new(
    "lone_guide_offset",
    Dimension::CALIBRES,
    0.5,
    "how far a lone lug's middle may lie from the balance point",
);

/// The rule.
pub static LONE_GUIDE_OFF_BALANCE: Rule = Rule {
    name: "guide/lone-guide-off-balance",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a single lug away from the balance point",
    why: "Held away from its balance point the rocket hangs crooked on the rod, rubs, and gets a twist as it leaves.",
    prose: include_str!("lone_guide_off_balance.md"),
    thresholds: &[&LONE_GUIDE_OFFSET],
    example: Example::new("at: balance", "at: 40 mm from front"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let Some(calibre) = cx.assessment.airframe.calibre else { return };
    // A lug is glued on once: the flight that balances furthest from it tells of it.
    let mut furthest: Vec<(PartId, &Flight, &FlightNumbers, f64)> = Vec::new();
    for (flight, numbers) in cx.flights() {
        let ([guide], Some(loaded)) = (numbers.guides(), numbers.loaded()) else { continue };
        let away = guide.extent.middle() - loaded.x;
        let this = (guide.part, flight, numbers, away);
        match furthest.iter_mut().find(|(part, ..)| *part == guide.part) {
            Some(other) if other.3.abs() < away.abs() => *other = this,
            Some(_) => {}
            None => furthest.push(this),
        }
    }
    for (part, flight, numbers, away) in furthest {
        let ([guide], Some(loaded)) = (numbers.guides(), numbers.loaded()) else { continue };
        let Some(part) = cx.design.parts.get(part) else { continue };
        let allowed = (cx.limit(&LONE_GUIDE_OFFSET) * calibre).max(guide.extent.length() / 2.0);
        if away.abs() <= allowed {
            continue;
        }
        let side = if away > 0.0 { "behind" } else { "ahead of" };
        let place = value_place(part);
        out.push(
            LONE_GUIDE_OFF_BALANCE
                .finding(
                    place,
                    format!("{} sits {} {side} the balance point", part.label(), show::station(away.abs()),),
                )
                .help(format!(
                    "put its middle {} from the tip, at the balance point; up to {} off is usual",
                    show::station(loaded.x),
                    show::station(allowed)
                ))
                .label(flight.name.place, balance_label(cx, flight, loaded.x))
                .of_flight(numbers)
                .beyond(away.abs() / allowed)
                .fix_amount(
                    "place it at the balance point",
                    part.at
                        .as_ref()
                        .map(|at| finwright_model::Amount { place: at.place, ..at.distance.clone() })
                        .as_ref(),
                    "balance",
                ),
        );
    }
}
