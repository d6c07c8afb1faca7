//! `guide/binds` and `guide/close-spacing`: guides so close together that friction locks them.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::{FlightNumbers, Loads};
use finwright_model::PartKind;
use finwright_units::show;

/// Spacing at which friction alone holds the rocket.
pub static BINDS: Rule = Rule {
    name: "guide/binds",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "guides so close together that they lock by friction",
    why: "Whatever pulls such a rocket along its rod or rail also jams it: it may stay on the pad with its motor \
        burning.",
    prose: include_str!("binds.md"),
    thresholds: &[],
    example: Example::new("lug only { bore: 3.6 mm; length: 40 mm", "lug only { bore: 3.6 mm; length: 8 mm"),
    check: Some(|cx, out| check(cx, &BINDS, out)),
};

/// Spacing with less than a margin of two.
pub static CLOSE_SPACING: Rule = Rule {
    name: "guide/close-spacing",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "guides close to where they would lock by friction",
    why: "Paint, dust or a bent rod raise the friction, and guides this close together then jam.",
    prose: include_str!("close_spacing.md"),
    thresholds: &[],
    example: Example::new("lug only { bore: 3.6 mm; length: 40 mm", "lug only { bore: 3.6 mm; length: 15 mm"),
    check: Some(|cx, out| check(cx, &CLOSE_SPACING, out)),
};

fn check(cx: &Context, rule: &'static Rule, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(loads), Some(rear)) = (&numbers.loads, numbers.guides().last()) else { continue };
        let locks = loads.spacing <= loads.locks_at;
        if loads.spacing >= loads.runs_easily_from || locks != (rule.name == BINDS.name) {
            continue;
        }
        let key = (rear.part, numbers.guides().len());
        let Some(part) = cx.design.parts.get(rear.part).filter(|_| !told.contains(&key)) else { continue };
        told.push(key);
        let alone = numbers.guides().len() == 1;
        let (subject, verb) =
            if alone { (part.label(), "is") } else { (format!("{}'s guides", flight.name.value), "are") };
        let message = format!(
            "{subject} {verb} {} from end to end, {} off the rocket's axis: friction locks them at {}, they run \
                easily from {}",
            show::length(loads.spacing),
            show::length(loads.offset),
            show::length(loads.locks_at),
            show::length(loads.runs_easily_from),
        );
        let place = match part.length().filter(|_| alone) {
            Some(length) => length.place,
            None => crate::common::named::value_place(part),
        };
        let beyond = loads.runs_easily_from / loads.spacing;
        let finding = rule.finding(place, message).label(flight.name.place, "in this flight");
        let finding = finding.of_flight(numbers).beyond(beyond);
        out.push(if alone { longer_lug(loads, part, finding) } else { further_apart(cx, numbers, loads, finding) });
    }
}

fn longer_lug(loads: &Loads, part: &finwright_model::Part, finding: Finding) -> Finding {
    let least = format!("{} mm", (loads.runs_easily_from * 1e3).ceil());
    let finding = finding.help(format!("a lug of {least} or more, or two guides further apart"));
    match &part.kind {
        PartKind::Lug { length, .. } => finding.fix_amount(format!("make it {least} long"), length.as_ref(), least),
        _ => finding,
    }
}

fn further_apart(cx: &Context, numbers: &FlightNumbers, loads: &Loads, finding: Finding) -> Finding {
    let needed = show::length_at_least((loads.runs_easily_from * 1e3).ceil() / 1e3);
    let finding = finding.help(format!("place them {needed} or more apart, from end to end"));
    let (Some(front), Some(loaded)) = (numbers.guides().first(), numbers.loaded()) else { return finding };
    let Some(at) = cx.design.parts.get(front.part).and_then(|part| part.at.as_ref()) else { return finding };
    let ahead = loaded.x - (front.extent.middle() - (loads.runs_easily_from - loads.spacing));
    let ahead = (ahead * 1e3).ceil();
    if ahead < 0.0 {
        return finding;
    }
    let place = format!("{ahead} mm ahead of balance");
    finding.fix(format!("place the front one {place}"), at.place, place)
}
