//! Where a finding can be followed up: the rule's page, and the working of the number that it rests on.

use crate::collect::STANDARD_INPUT;
use crate::output::quoted;
use finwright_checks::{Analysis, Finding};
use finwright_grammar::Place;
use finwright_model::{Design, Flight};
use finwright_working::{working, Quantity};

/// The commands, the rule's page first.
pub fn more(shown: &str, analysis: &Analysis, finding: &Finding) -> String {
    let page = format!("finwright explain {}", finding.rule);
    match by_hand(shown, analysis, finding) {
        Some(command) => format!("{page}\n      {command}"),
        None => page,
    }
}

/// The command that works the number behind a finding, where there is one to work and a file to work it from.
fn by_hand(shown: &str, analysis: &Analysis, finding: &Finding) -> Option<String> {
    let quantity = Quantity::behind(finding.rule)?;
    let flights = &analysis.design.flights;
    let stands_in = || flights.iter().position(|flight| is_about(&analysis.design, finding, flight));
    let flight = finding.flight.or_else(stands_in);
    let known = working(&analysis.design, &analysis.assessment, flight.unwrap_or(0), quantity);
    if known.is_err() || shown == STANDARD_INPUT {
        return None;
    }
    let named = flight.and_then(|at| flights.get(at)).filter(|_| quantity.needs_flight());
    let named = named.map_or(String::new(), |flight| format!(" --flight {}", quoted(&flight.name.value)));
    Some(format!("finwright working {} {}{named}", quoted(shown), quantity.name()))
}

/// Whether a finding, or one of its labels, stands in a flight, or on the bench with the flight's motor in.
fn is_about(design: &Design, finding: &Finding, flight: &Flight) -> bool {
    let weighed = design.measured.iter().find(|bench| {
        let (mass, balance) = (bench.mass.as_ref().map(|m| m.place), bench.balance.as_ref().map(|b| b.place));
        [mass, balance].contains(&Some(finding.place))
    });
    if let Some(bench) = weighed {
        return bench.with.as_ref().map(|motor| motor.value) == flight.motor.as_ref().map(|motor| motor.value);
    }
    let references = [&flight.motor, &flight.booster_motor, &flight.pad, &flight.site];
    let places: Vec<Place> = [flight.name.place, flight.header]
        .into_iter()
        .chain(references.into_iter().flatten().map(|named| named.place))
        .chain(flight.guided_by.iter().map(|named| named.place))
        .collect();
    std::iter::once(finding.place).chain(finding.labels.iter().map(|l| l.place)).any(|place| places.contains(&place))
}
