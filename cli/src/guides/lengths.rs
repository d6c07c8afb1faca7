//! How long a rod or rail must be, in a table and in words.

use finwright_advice::ceiling::Limit;
use finwright_advice::{Candidate, Least, Lengths, Size};
use finwright_units::reader::alone;
use finwright_units::show;

/// What the table is of.
pub const HEADING: &str = "how long it must be, by the steady wind, to meet everything:";

/// How its cells are to be read.
pub const LEGEND: &str = "the shortest rod or rail of a size that passes every rule of pad and guides; –: none does; \
    +: in this wind something is found whatever it flies from";

/// The heads of its columns.
pub fn heads(lengths: &Lengths) -> Vec<String> {
    let winds = lengths.winds_m_s.iter().map(|wind| alone(|| show::speed(*wind)));
    std::iter::once("rod or rail".to_string()).chain(winds).collect()
}

/// A row's cells.
pub fn cells(size: &Size) -> Vec<String> {
    let cell = |least: &Least| {
        let mark = if least.besides.is_some() { " +" } else { "" };
        least.length_m.map_or("–".to_string(), |length| format!("{}{mark}", alone(|| show::cut_length(length))))
    };
    let needs = if size.fits { "" } else { " (needs guides)" };
    std::iter::once(format!("{}{needs}", size.rail)).chain(size.least.iter().map(cell)).collect()
}

/// What decides, for the sizes that the rocket has guides for, or for the first where it has none.
pub fn limits(lengths: &Lengths) -> Vec<String> {
    let own: Vec<&Size> = lengths.sizes.iter().filter(|size| size.fits).collect();
    let told = if own.is_empty() { lengths.sizes.iter().take(1).collect() } else { own };
    let mut lines: Vec<String> = told.into_iter().filter_map(decides).collect();
    let mut besides: Vec<(f64, &Limit)> = Vec::new();
    for least in lengths.sizes.iter().flat_map(|size| &size.least) {
        let Some(limit) = &least.besides else { continue };
        if !besides.iter().any(|(_, known)| known.rule == limit.rule) {
            besides.push((least.wind_m_s, limit));
        }
    }
    lines.extend(besides.into_iter().map(|(wind, limit)| {
        format!("+ in {}, whatever it flies from: {}: {}", show::speed(wind), limit.rule, limit.message)
    }));
    lines
}

/// What decides about a size, each rule with the winds in which it does.
fn decides(size: &Size) -> Option<String> {
    let mut said: Vec<(&'static str, Vec<String>, String)> = Vec::new();
    for least in &size.least {
        let Some(limit) = &least.limit else { continue };
        let rule = limit.rule;
        let wind = show::speed(least.wind_m_s);
        match said.iter_mut().find(|(known, ..)| *known == rule) {
            Some((_, winds, _)) => winds.push(wind),
            None => {
                let below = least
                    .length_m
                    .map_or("any length".to_string(), |length| format!("less than {}", show::cut_length(length)));
                said.push((rule, vec![wind], format!("at {below}, {}", limit.message)));
            }
        }
    }
    if said.is_empty() {
        return None;
    }
    let each = said.iter().map(|(rule, winds, message)| {
        let winds = match winds.as_slice() {
            [only] => format!("in {only}"),
            [first, .., last] => format!("from {first} to {last}"),
            [] => String::new(),
        };
        format!("{rule} decides {winds}: {message}")
    });
    Some(format!("{}: {}", size.rail, each.collect::<Vec<_>>().join("; ")))
}

/// How heavy the rocket may become on a pad, in a sentence.
pub fn heaviest(name: &str, candidate: &Candidate) -> Option<String> {
    let heaviest = candidate.heaviest.as_ref()?;
    let mass = show::mass_at_most(heaviest.mass_kg);
    Some(match &heaviest.limit {
        Some(limit) => format!(
            "On {name} it may weigh up to {mass}, motor in and balancing where it does, then {}: {}.",
            limit.rule, limit.message
        ),
        None => format!("On {name} it may weigh {mass} and more, motor in and balancing where it does."),
    })
}
