//! The comparison in sentences: what to fly from, and why not from the others.

use crate::ceiling::{Ceiling, MOST_WIND};
use crate::compare::{Candidate, Comparison, Verdict};
use finwright_checks::Level;
use finwright_units::show;

/// What to fly from, in a sentence, and what rules the others out.
pub fn advice(comparison: &Comparison) -> String {
    let Some(best) = comparison.candidates.first() else {
        return "There is no pad to compare.".to_string();
    };
    let grave = comparison.of_the_rocket.iter().find(|fault| fault.level == Level::Error);
    if let Some(fault) = grave {
        return format!(
            "Not as it is, from any pad: {} ({}). Mend that first, then ask again.",
            fault.message, fault.rule
        );
    }
    let mut said = match best.verdict {
        Verdict::Meets => format!("Fly {} from {}: {}.", comparison.motor, best.pad, strengths(best)),
        Verdict::NeedsGuides => {
            format!("With {}, {} would do: {}.", best.guides.join(" and "), best.pad, strengths(best))
        }
        Verdict::Look => {
            format!("None meets every check. {} comes nearest: {}; but {}.", best.pad, strengths(best), against(best))
        }
        Verdict::No => format!("None of these will do. {}: {}.", best.pad, against(best)),
    };
    for other in spoken_of(comparison).skip(1) {
        said += &format!(" {}: {}.", other.pad, other.reason);
    }
    if !comparison.of_the_usual.is_empty() {
        let would = |c: &Candidate| format!("a {} with {} ({})", of(&c.rail), c.guides.join(" and "), strengths(c));
        let would: Vec<String> = comparison.of_the_usual.iter().map(would).collect();
        said += &format!(" Of the usual ones {} would do.", would.join(", or "));
    }
    for fault in &comparison.of_the_rocket {
        said += &format!(" Whatever it flies from: {} ({}).", fault.message, fault.rule);
    }
    let longer = comparison.candidates.iter().any(|c| !c.is_rail && c.over_floor_m_s.is_some_and(|o| o < 0.0));
    let leaning = comparison.candidates.iter().any(|c| !c.is_rail && c.found.iter().any(|f| f.rule == "pad/leans"));
    if longer && leaning {
        said += " A longer thin rod would lean more, so it isn't the answer.";
    }
    said
}

/// The candidates that the advice speaks of: the best, and the next three that something is against.
pub fn spoken_of(comparison: &Comparison) -> impl Iterator<Item = &Candidate> {
    let others = comparison.candidates.iter().skip(1).filter(|c| c.verdict >= Verdict::Look).take(3);
    comparison.candidates.iter().take(1).chain(others)
}

/// How much wind a flight bears, in a sentence without its full stop.
pub fn ceiling_in_words(ceiling: &Ceiling) -> String {
    let up_to = match &ceiling.limit {
        Some(limit) => format!("{}, then {}: {}", show::speed_at_most(floor(ceiling.wind)), limit.rule, limit.message),
        None => format!("{} and more", show::speed(MOST_WIND)),
    };
    match ceiling.in_still_air.first() {
        None => format!("passes every check in wind up to {up_to}"),
        Some(first) => {
            format!("passes in no wind ({} is found in still air too); apart from that up to {up_to}", first.rule)
        }
    }
}

/// What is against a pad, and what would mend it.
fn against(candidate: &Candidate) -> String {
    match candidate.remedy.as_str() {
        "" => candidate.reason.clone(),
        remedy => format!("{} ({remedy})", candidate.reason),
    }
}

/// "4 mm rod, 1 m" as "4 mm rod of 1 m".
fn of(rail: &str) -> String {
    rail.replacen(", ", " of ", 1)
}

/// Down to a tenth, which is the passing side.
pub fn floor(wind: f64) -> f64 {
    (wind * 10.0).floor() / 10.0
}

fn strengths(best: &Candidate) -> String {
    let mut parts = Vec::new();
    if let Some(speed) = best.exit_speed_m_s {
        parts.push(format!("it leaves at {}", show::speed(speed)));
    }
    if let Some(lean) = best.lean_gust_rad {
        parts.push(format!("leans {} in a gust", show::angle(lean)));
    }
    if let Some(ceiling) = best.ceiling.as_ref().filter(|c| c.in_still_air.is_empty()) {
        parts.push(format!("bears wind up to {}", show::speed_at_most(floor(ceiling.wind))));
    }
    match parts.as_slice() {
        [] => "its numbers aren't known".to_string(),
        [most @ .., last] if !most.is_empty() => format!("{} and {last}", most.join(", ")),
        [only, ..] => only.clone(),
    }
}
