//! `pad/tilted-far`: a rod or rail far from upright.

use crate::common::used::used;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_units::{show, Dimension};

/// The greatest tilt.
pub static TILT: Threshold = Threshold::new(
    "tilt",
    Dimension::ANGLE,
    20.0_f64.to_radians(),
    "how far the rod or rail may lean from the vertical",
)
.beginners(15.0_f64.to_radians());

/// Far from upright.
pub static TILTED_FAR: Rule = Rule {
    name: "pad/tilted-far",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a rod or rail far from upright",
    why: "A rocket that starts slanted comes down far away, and fast if anything goes wrong.",
    prose: include_str!("tilted_far.md"),
    thresholds: &[&TILT],
    example: Example::new(
        "material: steel }; stop: 50 mm; tilt: 2 deg",
        "material: steel }; stop: 50 mm; tilt: 25 deg",
    ),
    check: Some(tilted_far),
};

fn tilted_far(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&TILT);
    for (pad, numbers) in used(cx) {
        let Some(tilt) = pad.tilt.as_ref().filter(|tilt| tilt.si > most + 1e-9) else { continue };
        let text = format!("{} deg", show::trimmed(most.to_degrees(), 1));
        out.push(
            TILTED_FAR
                .finding(tilt.place, format!("{} leans {} from the vertical", pad.name.value, show::angle(tilt.si)))
                .help(format!("{} or less; your code may ask for less", show::angle(most)))
                .fix(format!("lean it {text}"), tilt.place, text)
                .of_flight(numbers)
                .beyond(tilt.si / most),
        );
    }
}
