//! What the day's list says, in sentences and in cells, the same in a terminal and on paper.

use super::line::Line;
use super::order::steps;
use super::List;
use crate::output::plural;
use finwright_assess::field_rules::CHECK_YOUR_CODE;
use finwright_checks::lacking::joined;
use finwright_checks::Verdict;
use finwright_units::reader::alone;
use finwright_units::show;

/// What the list is of, in a line.
pub fn title(day: &List) -> String {
    let wind = match (winds(day).as_slice(), &day.wind) {
        ([(wind, gust)], _) if gust > wind => format!("wind {}, gusts {}", show::speed(*wind), show::speed(*gust)),
        ([(wind, _)], _) => format!("wind {}, no gusts said", show::speed(*wind)),
        (_, Some(wind)) => format!("wind {wind}, gusts as each site has them"),
        (_, None) => "each in its own site's wind".to_string(),
    };
    let pads = day.pads.as_ref().map_or("each from its own pads".to_string(), |pads| format!("pads of {pads}"));
    format!("Flying day: {}, {pads}, {wind}", rockets(day))
}

/// "28 rockets with 30 motors".
fn rockets(day: &List) -> String {
    let mut files: Vec<&str> = day.lines.iter().map(|line| line.file.as_str()).collect();
    files.sort_unstable();
    files.dedup();
    let rockets = plural(files.len(), "rocket");
    match day.lines.len() > files.len() {
        true => format!("{rockets} with {}", plural(day.lines.len(), "motor")),
        false => rockets,
    }
}

/// The winds, each once, that rockets are judged in.
fn winds(day: &List) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    for wind in day.lines.iter().filter_map(|line| line.wind) {
        if !found.iter().any(|known| (known.0 - wind.0).abs() < 1e-6 && (known.1 - wind.1).abs() < 1e-6) {
            found.push(wind);
        }
    }
    found
}

/// What it comes to: who may fly now, who needs a look first, and who stops at which wind.
pub fn answer(day: &List) -> Vec<String> {
    let (may, not): (Vec<&Line>, Vec<&Line>) = day.lines.iter().partition(|line| line.may_fly());
    let (past, well): (Vec<&Line>, Vec<&Line>) = may.iter().partition(|line| line.is_past());
    let all = day.lines.len();
    let mut said = vec![format!("{} of {all} may fly in this wind, as far as the checks can tell.", well.len())];
    if !past.is_empty() {
        said.push(format!(
            "Only after a look, since a check speaks in this wind already: {}.",
            names(&day.lines, &past)
        ));
    }
    if !not.is_empty() {
        said.push(format!("Not: {}.", names(&day.lines, &not)));
    }
    let unknown: Vec<&Line> = may.iter().copied().filter(|line| line.ceiling.is_none()).collect();
    if !unknown.is_empty() {
        said.push(format!("At which wind they stop isn't known: {}.", names(&day.lines, &unknown)));
    }
    for (wind, stops) in steps(&day.lines) {
        let these = match stops.len() {
            1 => "this one not".to_string(),
            n => format!("these {} not", in_words(n)),
        };
        said.push(format!("Above {}: {these}: {}.", show::speed_at_most(wind), names(&day.lines, &stops)));
    }
    said
}

fn in_words(n: usize) -> String {
    let words = ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    n.checked_sub(2).and_then(|at| words.get(at)).map_or_else(|| n.to_string(), |word| word.to_string())
}

/// The rockets by name, with the motor where one flies several.
fn names(all: &[Line], lines: &[&Line]) -> String {
    let several = |line: &&Line| all.iter().filter(|other| other.rocket == line.rocket).count() > 1;
    let called = |line: &&Line| match &line.motor {
        Some(motor) if several(line) => format!("{} with {motor}", line.rocket),
        _ => line.rocket.clone(),
    };
    joined(&lines.iter().map(called).collect::<Vec<_>>(), "and")
}

/// The heads of the columns.
pub fn heads() -> Vec<String> {
    let speed = show::speed_unit();
    let mut heads = ["rocket", "motor", "mass", "thrust / weight", "margin, cal", "pad"].map(str::to_string).to_vec();
    heads.push(format!("exit, {speed}"));
    heads.push(format!("wind to, {speed}"));
    heads.extend(["opens", "distances", "open or allowed", "verdict"].map(str::to_string));
    heads
}

/// A line's cells.
pub fn cells(line: &Line) -> Vec<String> {
    alone(|| {
        let weighed = if line.is_weighed { "" } else { ", not weighed" };
        vec![
            line.rocket.clone(),
            motor(line),
            line.mass.map_or(NOT_KNOWN.to_string(), |mass| format!("{}{weighed}", show::mass(mass))),
            some(line.thrust_to_weight, |ratio| show::significant(ratio, 2, 1)),
            some(line.margin, show::number),
            pad(line),
            exit(line),
            wind(line),
            opening(line),
            distances(line),
            open(line),
            verdict(line),
        ]
    })
}

const NOT_KNOWN: &str = "not known";
/// Where there is nothing to know, since it flies from none of these pads.
const NONE: &str = "–";

/// What the code asks of people and field.
pub fn distances(line: &Line) -> String {
    match (&line.distances, line.code) {
        (_, None) => "no code chosen".to_string(),
        (None, Some(_)) => NOT_KNOWN.to_string(),
        (Some(words), Some(_)) => words.clone(),
    }
}

/// A rocket with its motor.
pub fn name(line: &Line) -> String {
    line.motor.as_ref().map_or(line.rocket.clone(), |motor| format!("{}, {motor}", line.rocket))
}

fn some(value: Option<f64>, how: impl Fn(f64) -> String) -> String {
    value.map_or(NOT_KNOWN.to_string(), how)
}

fn motor(line: &Line) -> String {
    match (&line.motor, line.class) {
        (Some(motor), Some(class)) => format!("{motor}, class {class}"),
        (Some(motor), None) => format!("{motor}, class not known"),
        (None, _) => NOT_KNOWN.to_string(),
    }
}

fn pad(line: &Line) -> String {
    match (&line.pad, line.fits) {
        (Some(pad), true) => pad.clone(),
        (Some(_), false) => "no guides fit".to_string(),
        (None, _) => NOT_KNOWN.to_string(),
    }
}

fn exit(line: &Line) -> String {
    let scaled = |speed: f64| speed / show::speed_scale();
    match (line.exit, line.exit_sd) {
        _ if !line.fits => NONE.to_string(),
        (Some(exit), Some(sd)) => show::with_tolerance(scaled(exit), scaled(sd), 1),
        (exit, _) => some(exit, show::speed_number),
    }
}

fn wind(line: &Line) -> String {
    match (&line.ceiling, line.bears()) {
        _ if !line.fits => NONE.to_string(),
        (Some(ceiling), Some(wind)) if ceiling.limit.is_none() => {
            format!("{} or more", show::speed_number_at_most(wind))
        }
        (_, Some(wind)) => show::speed_number_at_most(wind),
        (None, None) => NOT_KNOWN.to_string(),
        (Some(_), None) => "none".to_string(),
    }
}

fn opening(line: &Line) -> String {
    if !line.fits {
        return NONE.to_string();
    }
    let delay = line.delay.map_or(String::new(), |delay| format!("{} after burnout, ", show::time(delay)));
    match line.opening {
        Some((speed, height)) => format!("{delay}at {}, {} up", show::speed(speed), show::length(height)),
        None => NOT_KNOWN.to_string(),
    }
}

/// What isn't checked, and what its author allows.
pub fn open(line: &Line) -> String {
    let not_checked =
        (!line.not_checked.is_empty()).then(|| format!("not checked: {}", joined(&line.not_checked, "and")));
    let allowed = (!line.allowed.is_empty()).then(|| format!("allowed: {}", joined(&line.allowed, "and")));
    let both: Vec<String> = not_checked.into_iter().chain(allowed).collect();
    if both.is_empty() {
        "nothing".to_string()
    } else {
        both.join("; ")
    }
}

/// The verdict with what speaks against it.
pub fn verdict(line: &Line) -> String {
    if !line.fits && line.verdict.may_pass() {
        return "not as it is: it has no guides for these pads".to_string();
    }
    match (line.verdict, &line.reason) {
        (Verdict::MeetsTheChecks, _) | (_, None) => line.verdict.words().to_string(),
        (verdict, Some(reason)) => format!("{}: {}", verdict.words(), reason.message),
    }
}

/// What belongs to the list, below it.
pub fn foot(day: &List) -> Vec<String> {
    let mut codes: Vec<&str> = day.lines.iter().filter_map(|line| line.code).collect();
    codes.sort_unstable();
    codes.dedup();
    let distances = match codes.is_empty() {
        true => {
            "No code is chosen (`code` in finwright.toml): ask the range safety officer for the distances.".to_string()
        }
        false => format!("Distances, at least, by {}; {CHECK_YOUR_CODE}.", joined(&codes, "and")),
    };
    let order =
        "Sorted by the wind at which each must stop: the first ones stop first. A gust counts where a check hangs on gusts.";
    let caution =
        "Not a clearance to fly: the range safety officer and the local code decide. Weigh what isn't weighed; look \
                   at every fin, guide and joint.";
    vec![distances, order.to_string(), caution.to_string()]
}
