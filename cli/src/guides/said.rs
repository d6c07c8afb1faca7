//! What is said of a comparison besides its table, the same on a page and in a terminal.

use super::asked::Asked;
use super::lengths::heaviest;
use finwright_advice::words::{ceiling_in_words, name, spoken_of};
use finwright_advice::{Candidate, Comparison};
use finwright_checks::{Analysis, Verdict};

/// The guides that run on a pad, the rocket's own or what it would need, and what is against it where nothing else says
/// it.
pub fn guides_of(comparison: &Comparison, candidate: &Candidate) -> String {
    let unsaid =
        candidate.verdict <= Verdict::LookAtIt && !spoken_of(comparison).any(|said| std::ptr::eq(said, candidate));
    let against = if unsaid { format!("; {}", candidate.reason) } else { String::new() };
    let guides = match candidate.fits {
        true => format!("{}: {}", candidate.pad, candidate.held_by()),
        false => format!("{}: it would need a {}", candidate.pad, candidate.guides.join(", and a ")),
    };
    guides + &against
}

/// How much wind each pad bears and how heavy the rocket may become on it, and what limits them.
pub fn winds(comparison: &Comparison) -> Vec<String> {
    let of =
        |c: &Candidate| Some(format!("{} {}.", name(comparison, c), ceiling_in_words(c.ceiling.as_ref()?, c.verdict)));
    let weight = |c: &Candidate| heaviest(&name(comparison, c), c);
    let passing: Vec<&Candidate> = comparison.candidates.iter().filter(|c| c.may_pass()).take(3).collect();
    passing.iter().filter_map(|c| of(c)).chain(passing.iter().filter_map(|c| weight(c))).collect()
}

/// What wasn't checked, what else wasn't made, and what rests on a default.
pub fn left_open(comparison: &Comparison) -> Vec<String> {
    let each = |of: fn(&Candidate) -> &[String]| {
        let mut all: Vec<&str> = comparison.candidates.iter().flat_map(of).map(String::as_str).collect();
        all.sort_unstable();
        all.dedup();
        all.join("; ")
    };
    let open = [
        ("not checked", each(|c| &c.not_checked)),
        ("not made", each(|c| &c.not_made)),
        ("by default", each(|c| &c.defaults)),
    ];
    open.into_iter().filter(|(_, said)| !said.is_empty()).map(|(what, said)| format!("{what}: {said}")).collect()
}

/// That the flights compared stand in no file, where the design has none.
pub fn supposed(asked: &Asked) -> Option<String> {
    let added = asked.own.design.flights.is_empty() && !asked.analysis().design.flights.is_empty();
    let site = asked.analysis().design.flights.first().and_then(|flight| flight.site.as_ref());
    let place =
        if site.is_some() { "at the only site that it knows, or the one that was named" } else { "in still air" };
    added.then(|| format!("The file has no flight, so that one with each motor is supposed, {place}."))
}

/// Why nothing is compared: the verdict on the file as it stands.
pub fn nothing(analysis: &Analysis) -> String {
    let verdict = match analysis.verdict {
        Verdict::Library => return "No pad is compared, since a library has nothing in it that would fly.".to_string(),
        Verdict::NotAsItIs => "Not as it is",
        Verdict::NotChecked | Verdict::LookAtIt | Verdict::MeetsTheChecks => "Not checked",
    };
    let reason = analysis.reason.as_ref().map_or(String::new(), |reason| {
        let help = if reason.help.is_empty() { String::new() } else { format!(" ({})", reason.help) };
        format!(": {}{help}", reason.in_words())
    });
    format!("{verdict}, so no pad is compared{reason}.")
}
