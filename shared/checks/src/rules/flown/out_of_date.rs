//! `flown/out-of-date`: factors in the file that aren't what its flights show.

use super::{as_learned, in_words};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::flown::learn::Factor;
use finwright_model::Amount;

/// The rule.
pub static OUT_OF_DATE: Rule = Rule {
    name: "flown/out-of-date",
    family: Family::Flown,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a factor that isn't what the flights in the file show by now",
    why: "A factor that was taken from fewer flights, or from none, is worse than what all of them show.",
    prose:
        "`drag_factor` and `thrust_factor` stand for what flights have shown. With another flight in the file they can \
        be known better; where one of them lies further from what all flights show than their standard deviation, that \
        is told, with the values to write.",
    thresholds: &[],
    example: Example::new("airframe {", "airframe {\n  drag_factor: 2").after(super::FLOWN),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    if cx.design.flown.is_empty() || cx.rocket_told {
        return;
    }
    let Some(learned) = &cx.assessment.flown(cx.design).learned else { return };
    let is_off = |said: &Amount, shown: Factor| (said.si - shown.value).abs() > shown.sd;
    let drag = cx.design.drag_factor.iter().map(|said| (said, learned.drag));
    let thrust = learned
        .thrust
        .iter()
        .filter_map(|(motor, shown)| Some((cx.design.motors.get(*motor)?.thrust_factor.as_ref()?, *shown)));
    let Some((said, _)) = drag.chain(thrust).find(|(said, shown)| is_off(said, *shown)) else { return };
    let flights = match learned.flights {
        1 => "the flight in this file shows".to_string(),
        many => format!("the {many} flights in this file show"),
    };
    let finding = OUT_OF_DATE
        .finding(said.place, format!("{flights} other factors than it says"))
        .help(format!("by all of them: {}", in_words(cx, learned)));
    out.push(match as_learned(cx, learned) {
        Some(edits) => finding.fix_all(format!("write {}", in_words(cx, learned)), edits),
        None => finding,
    });
}
