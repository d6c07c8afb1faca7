//! `recovery/hard-landing`: more energy at landing than the trade's rules allow.

use crate::common::deferred;
use crate::common::limits::{DESCENT_MOST, LANDING_ENERGY};
use crate::common::slowed::{cause, opened, with_larger, Opened};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::{show, Dimension};

/// The rule.
pub static HARD_LANDING: Rule = Rule {
    name: deferred::HARD_LANDING,
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "too much energy at landing",
    why: "So much energy injures whoever it meets, and a rocket may come down where someone stands.",
    prose: include_str!("hard_landing.md"),
    thresholds: &[&LANDING_ENERGY],
    example: Example::new("parachute { diameter: 300 mm", "parachute { diameter: 90 mm")
        .settings("[thresholds]\nlanding_energy = \"2 J\""),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&LANDING_ENERGY);
    for opened in opened(cx, |opened| opened.sinking.energy > most, |a, b| a.energy > b.energy) {
        let Opened { flight, numbers, part, sinking, density, .. } = opened;
        // The speed that has just this energy, or the usual most where that is less.
        let speed = (2.0 * most / sinking.mass).sqrt().min(cx.limit(&DESCENT_MOST));
        let message = format!(
            "{} lands with {}: {} at {}; {} is the most",
            flight.name.value,
            show::quantity(sinking.energy, Dimension::ENERGY),
            show::mass(sinking.mass),
            show::descent(sinking.rate),
            show::quantity(most, Dimension::ENERGY)
        );
        let finding = HARD_LANDING.finding(cause(part), message).of_flight(numbers).beyond(sinking.energy / most);
        out.push(
            with_larger(finding, part, sinking, density, speed)
                .label(flight.name.place, format!("{} come down", show::mass(sinking.mass))),
        );
    }
}
