//! `recovery/fast-descent` and `recovery/slow-descent`: a parachute or streamer too small, or larger than the field.

use crate::common::deferred::HARD_LANDING;
use crate::common::limits::{DESCENT_MOST, LANDING_ENERGY};
use crate::common::rounded::{mm, up, CENTIMETRE};
use crate::common::slowed::{cause, opened, with_larger, Opened};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_assess::{Path, Sinking};
use finwright_model::PartKind;
use finwright_units::{show, Dimension};
use std::f64::consts::PI;

/// The energy of a landing that is soft however fast.
pub static SOFT_ENERGY: Threshold =
    Threshold::new("soft_energy", Dimension::ENERGY, 1.5, "energy of a landing that is soft however fast the descent");
/// The slowest descent, where the drift is long.
pub static DESCENT_LEAST: Threshold = Threshold::new(
    "descent_least",
    Dimension::SPEED,
    3.0,
    "a slower descent than this is told where the drift is long",
);
/// A drift that is long.
pub static LONG_DRIFT: Threshold =
    Threshold::new("long_drift", Dimension::LENGTH, 300.0, "a longer drift is told where the descent is slow");

/// Too fast.
pub static FAST_DESCENT: Rule = Rule {
    name: "recovery/fast-descent",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a descent that is too fast for what comes down",
    why: "A hard landing breaks fins and tubes, and hurts whoever is underneath.",
    prose: include_str!("fast_descent.md"),
    thresholds: &[&DESCENT_MOST, &SOFT_ENERGY],
    example: Example::new("parachute { diameter: 300 mm; mass: 4 g", "parachute { diameter: 110 mm; mass: 4 g"),
    check: Some(check_fast),
};

/// Too slow for the wind.
pub static SLOW_DESCENT: Rule = Rule {
    name: "recovery/slow-descent",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: Some(Wind::Steady),
    level: Level::Note,
    summary: "a slow descent with a long drift",
    why: "Under a large parachute the wind carries the rocket as long as it hangs, off the field or into a tree.",
    prose: include_str!("slow_descent.md"),
    thresholds: &[&DESCENT_LEAST, &LONG_DRIFT],
    example: Example::new("parachute { diameter: 300 mm; mass: 4 g", "parachute { diameter: 700 mm; mass: 4 g"),
    check: Some(check_slow),
};

/// What is advised against a long drift, m/s.
const SOFT_AND_NEAR: f64 = 4.0;

fn check_fast(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&DESCENT_MOST);
    let told = |Opened { sinking, .. }: &Opened| {
        // What is hard enough for the other rule is told there, with the speed that does for both.
        let is_hard = sinking.energy > cx.limit(&LANDING_ENERGY) && !cx.settings.is_off(HARD_LANDING);
        sinking.rate > most && sinking.energy > cx.limit(&SOFT_ENERGY) && !is_hard
    };
    for opened in opened(cx, told, |a, b| a.rate > b.rate) {
        let Opened { flight, numbers, part, sinking, density, .. } = opened;
        let message = format!(
            "{} comes down at {}; {} is the usual most",
            flight.name.value,
            show::descent(sinking.rate) + &show::speed_beside(sinking.rate),
            show::descent(most)
        );
        let finding = FAST_DESCENT.finding(cause(part), message).of_flight(numbers).beyond(sinking.rate / most);
        out.push(with_larger(finding, part, sinking, density, most).label(flight.name.place, landing(sinking)));
    }
}

/// "1.77 kg come down and land with 92.7 J".
fn landing(sinking: &Sinking) -> String {
    let energy = show::quantity(sinking.energy, Dimension::ENERGY);
    format!("{} come down and land with {energy}", show::mass(sinking.mass))
}

fn check_slow(cx: &Context, out: &mut Vec<Finding>) {
    let drifts = |path: &Path| path.drift().is_some_and(|drift| drift.abs() > cx.limit(&LONG_DRIFT));
    let told =
        |Opened { sinking, path, .. }: &Opened| sinking.rate < cx.limit(&DESCENT_LEAST) && path.is_some_and(drifts);
    for opened in opened(cx, told, |a, b| a.rate < b.rate) {
        let Opened { flight, numbers, part, sinking, density, path: Some(path), .. } = opened else { continue };
        let (Some(drift), Some(opening)) = (path.drift(), path.moments.openings.last().map(|o| o.moment)) else {
            continue;
        };
        let PartKind::Parachute { diameter: Some(diameter), .. } = &part.kind else { continue };
        let area = sinking.area_for(density, SOFT_AND_NEAR);
        let wanted = up((4.0 * area / (PI * sinking.drag)).sqrt(), CENTIMETRE);
        // The same wind blows for less time, as the speeds' ratio.
        let less = opening.drift + (drift - opening.drift) * sinking.rate / SOFT_AND_NEAR;
        out.push(
            SLOW_DESCENT
                .finding(
                    diameter.place,
                    format!(
                        "{} comes down at only {} and drifts {} in the wind of its site",
                        flight.name.value,
                        show::descent(sinking.rate),
                        show::length(drift.abs())
                    ),
                )
                .help(format!(
                    "a parachute of {} comes down at about {} and drifts about {}",
                    show::length(wanted),
                    show::descent(SOFT_AND_NEAR),
                    show::length(less.abs())
                ))
                .of_flight(numbers)
                .label(flight.name.place, format!("{} come down", show::mass(sinking.mass)))
                .fix(format!("make the parachute {}", mm(wanted)), diameter.place, mm(wanted)),
        );
    }
}
