//! `guide/stick-on-heavy`: stick-on guides on a heavy rocket.

use crate::common::seated::{each, Seated};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_model::PartKind;
use finwright_units::{show, Dimension};

/// The heaviest rocket for stick-on guides.
pub static STICK_ON_MASS: Threshold =
    Threshold::new("stick_on_mass", Dimension::MASS, 1.0, "the greatest mass on the pad for stick-on rail guides");

/// A stuck shoe on a heavy rocket.
pub static STICK_ON_HEAVY: Rule = Rule {
    name: "guide/stick-on-heavy",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "stick-on guides on a heavy rocket",
    why: "What is only stuck on comes off with the paint under it; a screw has to break the wall first.",
    prose: include_str!("stick_on_heavy.md"),
    thresholds: &[&STICK_ON_MASS],
    example: Example::new("button nut { profile: 15 mm;", "rail_guide nut { profile: 15 mm; length: 30 mm;")
        .settings("[thresholds]\nstick_on_mass = \"40 g\""),
    check: Some(|cx, out| each(cx, out, stick_on_heavy)),
};

fn stick_on_heavy(cx: &Context, seated: &Seated) -> Option<Finding> {
    let mass = seated.numbers.loaded()?.mass;
    let is_stuck = matches!(seated.part.kind, PartKind::RailGuide { .. });
    // The frontmost stands for all of a flight.
    let is_first = seated.numbers.guides().first().is_some_and(|first| first.part == seated.guide.part);
    (is_stuck && is_first && mass > cx.limit(&STICK_ON_MASS)).then(|| {
        STICK_ON_HEAVY
            .finding(
                seated.part.header,
                format!("{} holds a rocket of {} by its bond alone", seated.part.label(), show::mass(mass)),
            )
            .help(format!(
                "use buttons with a screw into something solid; stick-on guides do up to about {}",
                show::mass(cx.limit(&STICK_ON_MASS))
            ))
            .label(seated.flight.header, "it flies here")
    })
}
