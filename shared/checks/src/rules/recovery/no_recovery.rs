//! `recovery/none`: a rocket with nothing that slows it on the way down.

use crate::common::rounded::{mm, up, CENTIMETRE};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::PartKind;
use finwright_physics::descent::canopy_diameter;
use finwright_units::show;

/// The rule.
pub static NONE: Rule = Rule {
    name: "recovery/none",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a rocket without parachute or streamer",
    why: "Nose first a rocket falls as fast as the air lets it, like a dart, and goes through what it meets.",
    prose: include_str!("none.md"),
    thresholds: &[],
    example: Example::new(
        "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }",
        "load wadding { mass: 4 g; at: 60 mm from front }",
    ),
    check: Some(check),
};

/// What the advised parachute brings it down at, m/s, and its drag coefficient (Knacke, from memory: a flat round
/// canopy's on its cloth).
const GENTLE: f64 = 4.5;
const CANOPY_CD: f64 = 0.75;

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let slows = |kind: &PartKind| matches!(kind, PartKind::Parachute { .. } | PartKind::Streamer { .. });
    let Some(airframe) = cx.design.airframe else { return };
    if !cx.design.lost.is_empty() || cx.design.parts.iter().any(|part| slows(&part.kind)) {
        return;
    }
    // Without a rocket that is known whole, something may only not be written yet.
    let falling = cx.flights().filter_map(|(_, n)| {
        let burnt = n.upper().as_ref().map(|upper| upper.burning.dry).or(n.burnt())?;
        Some((burnt.mass, n.air?.density))
    });
    let Some((mass, density)) = falling.max_by(|a, b| a.0.total_cmp(&b.0)) else { return };
    let diameter = up(canopy_diameter(mass, density, CANOPY_CD, GENTLE), CENTIMETRE);
    out.push(
        NONE.finding(
            airframe,
            format!("{} come down with nothing to slow them: no parachute, no streamer", show::mass(mass)),
        )
        .help(format!(
            "a round parachute of {} would bring it down at about {}; say it in a tube: `parachute {{ diameter: {}; \
                mass: …; at: … }}`",
            show::length_at_least(diameter),
            show::descent(GENTLE),
            mm(diameter)
        )),
    );
}
