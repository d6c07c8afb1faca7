//! `recovery/streamer-shape`: a streamer too short for its width, or too long.

use crate::common::rounded::{mm, up, CENTIMETRE};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_model::PartKind;
use finwright_units::{show, Dimension};

/// The shortest streamer, in widths.
pub static STREAMER_LEAST: Threshold =
    Threshold::new("streamer_least", Dimension::NUMBER, 5.0, "the least length of a streamer over its width");
/// The longest streamer, in widths.
pub static STREAMER_MOST: Threshold =
    Threshold::new("streamer_most", Dimension::NUMBER, 20.0, "the greatest length of a streamer over its width");

/// The rule.
pub static STREAMER_SHAPE: Rule = Rule {
    name: "recovery/streamer-shape",
    family: Family::Recovery,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Note,
    summary: "a streamer far from ten times as long as it's wide",
    why: "A streamer slows the rocket by flapping: a short one hangs like a flag, and a long thin one only trails \
        behind.",
    prose: include_str!("streamer_shape.md"),
    thresholds: &[&STREAMER_LEAST, &STREAMER_MOST],
    example: Example::new(
        "streamer { length: 900 mm; width: 90 mm; mass: 3 g; at: 60 mm from front }",
        "streamer { length: 270 mm; width: 300 mm; mass: 3 g; at: 60 mm from front }",
    )
    .after(&[(
        "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }",
        "streamer { length: 900 mm; width: 90 mm; mass: 3 g; at: 60 mm from front }",
    )]),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for part in &cx.design.parts {
        let PartKind::Streamer { length: Some(length), width: Some(width), .. } = &part.kind else { continue };
        let slender = length.si / width.si;
        if (cx.limit(&STREAMER_LEAST) - 1e-9..=cx.limit(&STREAMER_MOST) + 1e-9).contains(&slender) {
            continue;
        }
        // The same cloth, ten times as long as wide.
        let area = length.si * width.si;
        let wide = up((area / USUAL).sqrt(), CENTIMETRE);
        out.push(
            STREAMER_SHAPE
                .finding(
                    length.place,
                    format!("{} is {} times as long as it's wide; ten is usual", part.label(), show::number(slender)),
                )
                .help(format!("of as much cloth: {} by {}", mm(up(area / wide, CENTIMETRE)), mm(wide)))
                .label(width.place, "its width"),
        );
    }
}

/// The usual length over the width.
const USUAL: f64 = 10.0;
