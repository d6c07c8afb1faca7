//! What a comparison is called in text and in Markdown alike.

use super::change::{DesignChange, FieldChange, FlightChange, Kind, PartChange};
use super::figures::NOT_KNOWN;
use super::report::Report;
use crate::output::plural;
use finwright_checks::lacking::joined;
use finwright_checks::Verdict;

/// The sentence that answers: what is worse, or that nothing is.
pub fn answer(report: &Report) -> String {
    if report.designs.is_empty() {
        return match (report.as_before, report.unusable.is_empty()) {
            (0, true) => "There is no design to compare.".to_string(),
            (0, false) => "Nothing could be compared.".to_string(),
            (1, _) => "Nothing differs: the design says and does the same.".to_string(),
            (n, _) => format!("Nothing differs: {} say and do the same.", plural(n, "design")),
        };
    }
    let worse: Vec<String> = report.designs.iter().filter(|design| design.worse).map(who_is_worse).collect();
    let rest = match report.as_before {
        0 => String::new(),
        1 => "; 1 other design is as before".to_string(),
        n => format!("; {n} other designs are as before"),
    };
    let all = plural(report.designs.len(), "design");
    let differs = if report.designs.len() == 1 { "differs" } else { "differ" };
    match worse.len() {
        0 => format!("No verdict is worse than before. {all} {differs}{rest}."),
        _ => format!("Worse than before: {}. {all} {differs}{rest}.", worse.join("; ")),
    }
}

fn who_is_worse(design: &DesignChange) -> String {
    let worse: Vec<&str> = design.flights.iter().filter(|f| f.worse).map(|flight| flight.flight.as_str()).collect();
    match (design.change, design.new_verdict) {
        (Kind::Added, Some(verdict)) => format!("{} (new, {})", design.path, verdict.words()),
        _ if worse.is_empty() => design.path.clone(),
        _ => format!("{} of {}", joined(&worse, "and"), design.path),
    }
}

/// What became of a design, in a line: "old.finw → new.finw: meets the checks → look at it".
pub fn heading(design: &DesignChange) -> String {
    let name = design.was.as_ref().map_or(design.path.clone(), |was| format!("{was} → {}", design.path));
    let verdict = match (design.old_verdict, design.new_verdict) {
        (Some(old), Some(new)) => before_and_now(old.words(), new.words()),
        (None, Some(new)) => format!("new, {}", new.words()),
        (Some(old), None) => format!("gone, {} before", old.words()),
        (None, None) => String::new(),
    };
    let same_words = design.change == Kind::Renamed && !design.parts.iter().any(|part| part.change != Kind::Renamed);
    let renamed = if design.change == Kind::Renamed && same_words { "renamed; " } else { "" };
    format!("{name}: {renamed}{verdict}")
}

/// "a → b", or "a as before".
pub fn before_and_now(old: &str, new: &str) -> String {
    if old == new {
        format!("{new}, as before")
    } else {
        format!("{old} → {new}")
    }
}

/// What became of a flight, for a heading.
pub fn flight_heading(flight: &FlightChange) -> String {
    match flight.change {
        Kind::Added => format!("{}, new", flight.flight),
        Kind::Removed => format!("{}, gone", flight.flight),
        Kind::Renamed | Kind::Changed => flight.flight.clone(),
    }
}

/// The rows of a flight's table that differ: label, before, now.
pub fn rows(flight: &FlightChange) -> Vec<[String; 3]> {
    let one_sided = flight.change != Kind::Changed;
    let gone = |words: &str, is_side: bool| if is_side { words.to_string() } else { String::new() };
    let (is_old, is_new) = (flight.change != Kind::Added, flight.change != Kind::Removed);
    let told = flight.numbers.iter().filter(|number| number.differs || one_sided);
    let numbers = told.map(|number| {
        let (label, old, new) = &number.shown;
        [label.to_string(), gone(old, is_old), gone(new, is_new)]
    });
    let verdict = |verdict: Option<Verdict>, rule: &Option<String>| match (verdict, rule) {
        (Some(verdict), Some(rule)) => format!("{}: {rule}", verdict.words()),
        (Some(verdict), None) => verdict.words().to_string(),
        (None, _) => String::new(),
    };
    let (old, new) = (verdict(flight.old_verdict, &flight.old_rule), verdict(flight.new_verdict, &flight.new_rule));
    let differs = old != new;
    let judged = (differs || one_sided).then(|| ["verdict".to_string(), old, new]);
    let known = |row: &[String; 3]| !(one_sided && row[1..].iter().all(|cell| cell.is_empty() || cell == NOT_KNOWN));
    numbers.filter(known).chain(judged).collect()
}

/// The flights of a design that are as before in every digit.
pub fn as_before(design: &DesignChange) -> Option<String> {
    let same: Vec<&str> = design.flights.iter().filter(|f| f.is_as_before()).map(|f| f.flight.as_str()).collect();
    (!same.is_empty()).then(|| format!("as before in every digit shown: {}", joined(&same, "and")))
}

/// What the files say otherwise about a part: a line each.
pub fn part_in_words(part: &PartChange) -> String {
    let fields: Vec<String> = part.fields.iter().map(|field| field_in_words(field, part.change)).collect();
    let said = if fields.is_empty() { String::new() } else { format!(": {}", fields.join("; ")) };
    match (part.change, &part.was) {
        (Kind::Added, _) => format!("{}, new{said}", part.part),
        (Kind::Removed, _) => format!("{}, gone", part.part),
        (Kind::Renamed, Some(was)) => format!("{was} is called {} now{said}", part.part),
        _ => format!("{}{said}", part.part),
    }
}

fn field_in_words(field: &FieldChange, change: Kind) -> String {
    let name = &field.field;
    match (&field.old, &field.new) {
        (_, Some(new)) if change == Kind::Added => format!("{name} {}", short(new)),
        (Some(old), Some(new)) if is_long(old) || is_long(new) => format!("{name} is another"),
        (Some(old), Some(new)) => format!("{name} {old} → {new}"),
        (None, Some(new)) => format!("{name} {}, new", short(new)),
        (Some(old), None) => format!("{name} {}, gone", short(old)),
        (None, None) => name.clone(),
    }
}

/// Longer values, such as a motor's curve, aren't shown.
const LONGEST: usize = 60;

fn is_long(value: &str) -> bool {
    value.chars().count() > LONGEST
}

fn short(value: &str) -> String {
    if is_long(value) {
        "…".to_string()
    } else {
        value.to_string()
    }
}
