//! A flight's verdict in words.

use crate::analysis::Analysis;
use crate::lacking::basis_in_words;
use crate::rules::flight::near_its_floors::NEAR_ITS_FLOORS;

/// The verdict on a flight in a sentence: "rod_day: look at it: wind/steep-angle: …".
pub fn flight_in_words(analysis: &Analysis, number: usize, name: &str) -> String {
    let Some(judgement) = analysis.flights.get(number) else { return name.to_string() };
    let reason = judgement.reason.as_ref().map_or(String::new(), |reason| format!(": {}", reason.in_words()));
    let basis = basis_in_words(judgement.basis);
    let mut said = format!("{name}, {basis}: {}{reason}", judgement.verdict.words());
    // Where that is the reason, the reason says it.
    let is_said = judgement.reason.as_ref().is_some_and(|reason| reason.rule == NEAR_ITS_FLOORS.name);
    if let Some(percent) = (!is_said).then(|| analysis.percent_of_flights(number)).flatten() {
        said += &format!("; exit speed, margin and thrust meet their floors in {percent} flights");
    }
    if judgement.in_still_air {
        said += "; judged in still air, since it names no site";
    }
    said
}
