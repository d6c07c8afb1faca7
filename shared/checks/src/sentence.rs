//! A flight's verdict in words.

use crate::analysis::Analysis;
use crate::common::floors::floors;
use crate::lacking::basis_in_words;
use crate::rules::flight::near_its_floors::NEAR_ITS_FLOORS;
use finwright_assess::Spread;
use finwright_units::show;

/// The verdict on a flight in a sentence: "rod_day: look at it: wind/steep-angle: …".
pub fn flight_in_words(analysis: &Analysis, number: usize, name: &str) -> String {
    let Some(judgement) = analysis.flights.get(number) else { return name.to_string() };
    let reason = judgement.reason.as_ref().map_or(String::new(), |reason| format!(": {}", reason.in_words()));
    let basis = basis_in_words(judgement.basis);
    let mut said = format!("{name}, {basis}: {}{reason}", judgement.verdict.words());
    // Where that is the reason, the reason says it.
    let is_said = judgement.reason.as_ref().is_some_and(|reason| reason.rule == NEAR_ITS_FLOORS.name);
    if let Some(percent) = (!is_said).then(|| how_many(analysis, number)).flatten() {
        said += &format!("; exit speed, margin and thrust meet their floors in {percent} flights");
    }
    if judgement.in_still_air {
        said += "; judged in still air, since it names no site";
    }
    said
}

/// In how many flights of a hundred it meets its floors; no more is worked out than the words tell.
fn how_many(analysis: &Analysis, number: usize) -> Option<String> {
    let Analysis { design, assessment, settings, .. } = analysis;
    let floors = floors(settings, design, assessment);
    if assessment.surely_meets(design, number, &floors, NEARLY_ALL, Spread::AsGiven) {
        return Some(of_a_hundred(1.0));
    }
    analysis.likely(number).map(|likely| of_a_hundred(likely.all))
}

/// Never rounded up to certainty: "98 of 100", "more than 99 of 100".
fn of_a_hundred(likely: f64) -> String {
    match 100.0 * likely {
        p if p > 100.0 * NEARLY_ALL => "more than 99 of 100".to_string(),
        p if p < 0.5 => "less than 1 of 100".to_string(),
        p => format!("{} of 100", show::trimmed(p, 0)),
    }
}

/// From here on the share of flights isn't told more closely.
const NEARLY_ALL: f64 = 0.995;
