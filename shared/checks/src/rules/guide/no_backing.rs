//! `guide/no-backing`: a button on a heavy rocket with nothing behind the wall.

use crate::common::named::value_place;
use crate::common::seated::{each, Seated};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::flight::seat::solid_stations;
use finwright_model::{Part, PartKind};
use finwright_units::{show, Dimension};

/// From this mass on a button wants something solid behind the wall.
pub static BACKING_MASS: Threshold = Threshold::new(
    "backing_mass",
    Dimension::MASS,
    0.5,
    "the mass on the pad from which a button wants something solid behind the wall",
);

/// A button screwed into nothing but the wall.
pub static NO_BACKING: Rule = Rule {
    name: "guide/no-backing",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a button on a heavy rocket with nothing behind the wall",
    why: "A screw through a thin wall alone tears out when the rocket is lifted onto the rail or a gust takes it.",
    prose: include_str!("no_backing.md"),
    thresholds: &[&BACKING_MASS],
    example: Example::new(
        "button peg { profile: 15 mm; at: 3 mm from back; clock: 180 deg }",
        "button peg { profile: 15 mm; at: 30 mm from back; clock: 180 deg }",
    )
    .after(&[("button peg { profile: 15 mm; at: 12 mm from back", "button peg { profile: 15 mm; at: 3 mm from back"), ("cord {", "coupler { length: 24 mm; outer: 23.9 mm; inner: 22.5 mm; material: cardboard; at: 95 mm from front }\n    cord {")])
    .settings("[thresholds]\nbacking_mass = \"40 g\""),
    check: Some(|cx, out| each(cx, out, no_backing)),
};

fn no_backing(cx: &Context, seated: &Seated) -> Option<Finding> {
    let mass = seated.numbers.loaded()?.mass;
    let is_button = matches!(seated.part.kind, PartKind::Button { .. });
    // What a test of the built thing says about it outranks a guess from its place.
    let is_held = seated.seat.backing.is_some() || seated.part.bears.is_some();
    if !is_button || mass < cx.limit(&BACKING_MASS) || is_held {
        return None;
    }
    let middle = seated.guide.extent.middle();
    let near = solid_stations(cx.parts(), seated.seat.on)
        .into_iter()
        .min_by(|(a, _), (b, _)| (a - middle).abs().total_cmp(&(b - middle).abs()));
    let help = match near {
        Some((station, part)) if (station - middle).abs() < 0.15 => format!(
            "{} is {} from there, {} from the tip; or glue a block behind the wall, pull on it, and give what it \
                `bears`",
            cx.design.parts.get(part).map_or(String::new(), Part::label),
            show::length((station - middle).abs()),
            show::station(station)
        ),
        _ => "move it to where a ring or coupler is; or glue a block behind the wall, pull on it, and give what it \
            `bears`"
            .to_string(),
    };
    Some(
        NO_BACKING
            .finding(
                value_place(seated.part),
                format!("{} is screwed into the bare wall of a rocket of {}", seated.part.label(), show::mass(mass)),
            )
            .help(help),
    )
}
