//! What stands above each flight: whether it's fast enough, stable, and how much wind it bears.

use finwright_advice::ceiling;
use finwright_advice::words::floor;
use finwright_checks::Analysis;
use finwright_grammar::{FileId, Span};
use finwright_units::reader::with;
use finwright_units::show;

/// A line above a flight of the file. Its words take some milliseconds, so they are made when the line comes into view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lens {
    /// The flight's name.
    pub span: Span,
    /// Its number in the design.
    pub flight: usize,
}

/// One for each flight that stands in the file itself.
pub fn lenses(analysis: &Analysis) -> Vec<Lens> {
    let own = analysis.design.flights.iter().enumerate().filter(|(_, flight)| flight.name.place.file == FileId(0));
    own.map(|(number, flight)| Lens { span: flight.name.place.span, flight: number }).collect()
}

/// A flight in a line: the verdict, speed at release, margin, the wind that it bears and what limits it.
pub fn lens_title(analysis: &Analysis, flight: usize) -> Option<String> {
    with(analysis.settings.units, || title(analysis, flight))
}

fn title(analysis: &Analysis, flight: usize) -> Option<String> {
    let numbers = analysis.assessment.flights.get(flight)?;
    let judgement = analysis.flights.get(flight)?;
    let mut said = vec![match &judgement.reason {
        Some(reason) => format!("{} ({})", judgement.verdict.words(), reason.rule),
        None => judgement.verdict.words().to_string(),
    }];
    if let Some(last) = numbers.run.as_ref().and_then(|run| run.last()) {
        said.push(format!("leaves at {}", show::speed(last.speed)));
    }
    if let Some(margin) = numbers.margin() {
        said.push(format!("margin {} cal", show::number(margin)));
    }
    if let Some(found) = ceiling(analysis, flight) {
        let limit = found.limit.as_ref().map_or(String::new(), |limit| format!(" ({})", limit.rule));
        said.push(match found.in_still_air.first() {
            None => format!("wind up to {}{limit}", show::speed_at_most(floor(found.wind))),
            Some(fault) if judgement.reason.as_ref().is_some_and(|reason| reason.rule == fault.rule) => {
                "in still air too".to_string()
            }
            Some(fault) => format!("fails even in still air ({})", fault.rule),
        });
    }
    Some(said.join(" · "))
}
