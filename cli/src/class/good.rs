//! What is good about a design, by the numbers that meet what they are held against.

use finwright_assess::FlightNumbers;
use finwright_checks::common::limits::{DESCENT_MOST, EXIT_SPEED, MARGIN, THRUST_TO_WEIGHT};
use finwright_checks::rule::{Concern, Family};
use finwright_checks::{rule, Analysis, Level};
use finwright_units::show;

/// What is good about a flight of a design, a sentence each; a family of rules that finds something isn't praised.
pub fn good(analysis: &Analysis, flight: usize) -> Vec<String> {
    let mut said = Vec::new();
    let words = |name: &str| rule(name).is_none_or(|rule| matches!(rule.concerns, Concern::Words | Concern::File));
    if !analysis.findings.iter().any(|finding| finding.level <= Level::Warning && words(finding.rule)) {
        said.push("Every line of the file can be read, and every value has a unit that fits.".to_string());
    }
    let Some(numbers) = analysis.assessment.flights.get(flight) else { return said };
    if is_quiet(analysis, Family::Guide) {
        said.extend(exit(analysis, numbers));
    }
    if is_quiet(analysis, Family::Stability) && is_quiet(analysis, Family::Fins) {
        said.extend(margin(analysis, numbers));
    }
    if is_quiet(analysis, Family::Motor) {
        said.extend(push(analysis, numbers));
    }
    if is_quiet(analysis, Family::Recovery) {
        said.extend(descent(analysis, numbers));
    }
    if numbers.basis().is_weighed() && is_quiet(analysis, Family::Measured) {
        said.push("The finished rocket was put on a scale, and the file says what it showed.".to_string());
    }
    said
}

fn is_quiet(analysis: &Analysis, family: Family) -> bool {
    let is_of_it = |name: &str| rule(name).is_some_and(|rule| rule.family == family);
    let found = analysis.findings.iter().filter(|finding| finding.level <= Level::Warning);
    !found.chain(analysis.allowed.iter().map(|allowed| &allowed.finding)).any(|finding| is_of_it(finding.rule))
}

fn exit(analysis: &Analysis, numbers: &FlightNumbers) -> Option<String> {
    let (speed, floor) = (numbers.run.as_ref()?.last()?.speed, analysis.settings.limit(&EXIT_SPEED));
    let said = || {
        format!("It leaves its guide at {}; its fins need about {} to steer.", show::speed(speed), show::speed(floor))
    };
    (speed >= floor).then(said)
}

fn margin(analysis: &Analysis, numbers: &FlightNumbers) -> Option<String> {
    let (margin, least) = (numbers.margin()?, analysis.settings.limit(&MARGIN));
    let said = || {
        let calibres = show::number(margin);
        format!("It is stable: the centre of pressure lies {calibres} body diameters behind the balance point, and {} is the least.", show::number(least))
    };
    (margin >= least).then(said)
}

fn push(analysis: &Analysis, numbers: &FlightNumbers) -> Option<String> {
    let (push, least) = (numbers.run.as_ref()?.push?, analysis.settings.limit(&THRUST_TO_WEIGHT));
    let said = || {
        format!(
            "Its motor pushes with {} times its weight along the guide; {} times are asked for.",
            show::significant(push, 2, 1),
            show::number(least)
        )
    };
    (push >= least).then(said)
}

fn descent(analysis: &Analysis, numbers: &FlightNumbers) -> Option<String> {
    let (rate, most) = (numbers.sinking.as_ref()?.rate, analysis.settings.limit(&DESCENT_MOST));
    let said = || format!("It comes down at {}; up to {} is gentle enough.", show::descent(rate), show::descent(most));
    (rate <= most).then(said)
}
