//! The order in which rockets stop as the wind rises.

use super::line::Line;
use finwright_units::show;

/// Those that may not fly at all come first, the worst of them before the others; then by the wind at which each stops,
/// the lowest first; what is alike by name.
pub fn by_wind(lines: &mut [Line]) {
    let rank = |line: &Line| (line.may_fly(), line.verdict, line.stops_at().is_some(), line.stops_at().unwrap_or(0.0));
    lines.sort_by(|one, other| {
        let by_rank = rank(one).partial_cmp(&rank(other)).unwrap_or(std::cmp::Ordering::Equal);
        match (one.may_fly(), other.may_fly()) {
            // Of those that may fly the wind counts before the verdict.
            (true, true) => wind(one).total_cmp(&wind(other)).then(by_rank),
            _ => by_rank,
        }
        .then_with(|| (&one.rocket, &one.motor, &one.file).cmp(&(&other.rocket, &other.motor, &other.file)))
    });
}

fn wind(line: &Line) -> f64 {
    line.stops_at().unwrap_or(0.0)
}

/// The winds at which rockets stop from now on, in steps of half a metre a second or of a mile an hour, from the
/// lowest on: each with those that stop there.
pub fn steps(lines: &[Line]) -> Vec<(f64, Vec<&Line>)> {
    let step = if show::speed_unit() == "mph" { show::speed_scale() } else { 0.5 };
    let mut found: Vec<(f64, Vec<&Line>)> = Vec::new();
    for line in lines.iter().filter(|line| line.may_fly() && !line.is_past()) {
        let Some(ends) = line.ceiling.as_ref().filter(|ceiling| ceiling.limit.is_some()).and(line.stops_at()) else {
            continue;
        };
        let wind = (ends / step + 1e-9).floor() * step;
        match found.iter_mut().find(|(known, _)| (known - wind).abs() < 1e-9) {
            Some((_, there)) => there.push(line),
            None => found.push((wind, vec![line])),
        }
    }
    found
}
