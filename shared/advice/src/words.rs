//! The comparison in sentences: what to fly from, and why not from the others.

use crate::candidate::Candidate;
use crate::ceiling::{Ceiling, Limit, MOST_WIND};
use crate::compare::Comparison;
use finwright_checks::{Level, Verdict};
use finwright_units::show;

/// The sentence that answers: what to fly from and why, or what to change first.
pub fn answer(comparison: &Comparison) -> String {
    let Some(best) = comparison.candidates.first() else {
        return "There is no pad to compare.".to_string();
    };
    if let Some(fault) = comparison.of_the_rocket.iter().find(|fault| fault.level == Level::Error) {
        return format!(
            "Not as it is, from any pad: {} ({}). Mend that first, then ask again.",
            fault.message, fault.rule
        );
    }
    if comparison.from_ladder {
        return of_what_is_sold(best);
    }
    let (motor, pad) = (&comparison.motor, if best.fits { name(comparison, best) } else { best.pad.clone() });
    match (best.verdict, best.fits) {
        (Verdict::MeetsTheChecks | Verdict::Library, true) => {
            format!("Fly {motor} from {pad}: it {}.", strengths(best))
        }
        (Verdict::MeetsTheChecks | Verdict::Library, false) => {
            format!("Put other guides on it first: with {}, {pad} would do: it {}.", best.held_by(), strengths(best))
        }
        (Verdict::LookAtIt, true) => {
            format!("Look at it before you fly {motor} from {pad}: {}. It {}.", against(best), strengths(best))
        }
        (Verdict::LookAtIt, false) => format!(
            "Put other guides on it first: with {}, {pad} would be worth a look: {}. It {}.",
            best.held_by(),
            against(best),
            strengths(best)
        ),
        (Verdict::NotChecked, _) => format!("Not checked from any pad: {}.", against(best)),
        (Verdict::NotAsItIs, _) => format!("Not as it is, from any of these pads. {pad}: {}.", against(best)),
    }
}

/// What stands beside the answer: the other pads, and what would do where none at hand does.
pub fn besides(comparison: &Comparison) -> Vec<String> {
    let mut said: Vec<String> =
        spoken_of(comparison).skip(1).map(|other| format!("{}: {}.", name(comparison, other), other.reason)).collect();
    if !comparison.of_the_usual.is_empty() {
        let would = |c: &Candidate| format!("a {} with {} (it {})", c.rail, c.held_by(), strengths(c));
        let would: Vec<String> = comparison.of_the_usual.iter().map(would).collect();
        said.push(format!("Of what is sold, {} would do.", would.join(", or ")));
    }
    let told_already = |fault: &&Limit| fault.level != Level::Error;
    let best = comparison.candidates.first().and_then(|best| best.reason_rule);
    for fault in comparison.of_the_rocket.iter().filter(told_already).filter(|fault| Some(fault.rule) != best) {
        said.push(format!("Whatever it flies from: {} ({}).", fault.message, fault.rule));
    }
    let longer = comparison.candidates.iter().any(|c| !c.is_rail && c.over_floor_m_s.is_some_and(|o| o < 0.0));
    let leaning = comparison.candidates.iter().any(|c| !c.is_rail && c.found.iter().any(|f| f.rule == "pad/leans"));
    if longer && leaning {
        said.push("A longer thin rod would lean more, so it isn't the answer.".to_string());
    }
    said
}

/// A candidate by its pad, and by its guides where several sets of them run on it.
pub fn name(comparison: &Comparison, candidate: &Candidate) -> String {
    let same = comparison.candidates.iter().filter(|other| other.pad == candidate.pad).count();
    match same {
        0 | 1 => candidate.pad.clone(),
        _ => format!("{} with {}", candidate.pad, candidate.held_by()),
    }
}

/// The candidates that the answer and what stands beside it speak of: the best, and the next three that something is
/// against.
pub fn spoken_of(comparison: &Comparison) -> impl Iterator<Item = &Candidate> {
    let others = comparison.candidates.iter().skip(1).filter(|c| c.verdict <= Verdict::LookAtIt).take(3);
    comparison.candidates.iter().take(1).chain(others)
}

/// How much wind a flight bears, in a sentence without its full stop; `verdict` is the one on the flight.
pub fn ceiling_in_words(ceiling: &Ceiling, verdict: Verdict) -> String {
    if let Some(first) = ceiling.in_still_air.first() {
        return format!("fails even in still air: {}: {}", first.rule, first.message);
    }
    let up_to = match &ceiling.limit {
        Some(limit) => {
            let by = limit.judged_by.map_or(String::new(), |wind| format!(" (judged by {})", wind.phrase()));
            format!("{}, then {}{by}: {}", show::speed_at_most(floor(ceiling.wind)), limit.rule, limit.message)
        }
        None => format!("{} and more", show::speed(MOST_WIND)),
    };
    match verdict {
        Verdict::MeetsTheChecks => format!("passes every check in wind up to {up_to}"),
        _ => format!("nothing more is found in wind up to {up_to}"),
    }
}

/// Of the usual rods and rails, which one to get.
fn of_what_is_sold(best: &Candidate) -> String {
    let with = best.held_by();
    match best.verdict {
        Verdict::MeetsTheChecks | Verdict::Library => format!(
            "The file has no pad. The smallest usual one with room to spare is a {} with {with}: it {}.",
            best.rail,
            strengths(best)
        ),
        _ => format!(
            "The file has no pad, and no usual one does as it is. A {} with {with}: {}.",
            best.rail,
            against(best)
        ),
    }
}

/// What is against a pad, and what would mend it.
fn against(candidate: &Candidate) -> String {
    match candidate.remedy.as_str() {
        "" => candidate.reason.clone(),
        remedy => format!("{} ({remedy})", candidate.reason),
    }
}

/// Down to a tenth, which is the passing side.
pub fn floor(wind: f64) -> f64 {
    (wind * 10.0).floor() / 10.0
}

fn strengths(best: &Candidate) -> String {
    let mut parts = Vec::new();
    if let Some(speed) = best.exit_speed_m_s {
        parts.push(format!("leaves at {}", show::speed(speed)));
    }
    if let Some(lean) = best.lean_gust_rad {
        parts.push(lean_in_words(lean));
    }
    if let Some(ceiling) = best.ceiling.as_ref().filter(|c| c.in_still_air.is_empty()) {
        parts.push(format!("bears wind up to {}", show::speed_at_most(floor(ceiling.wind))));
    }
    match parts.as_slice() {
        [] => "has no numbers that are known".to_string(),
        [most @ .., last] if !most.is_empty() => format!("{} and {last}", most.join(", ")),
        [only, ..] => only.clone(),
    }
}

/// How far a tip leans in a gust; the theory of small bends has no number for more than twenty degrees.
fn lean_in_words(lean: f64) -> String {
    if lean.abs() > finwright_checks::rules::pad::leans::BENDS_OVER {
        "bends over in a gust".to_string()
    } else {
        format!("leans {} in a gust", show::angle(lean))
    }
}
