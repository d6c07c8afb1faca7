//! `recovery/carries-nothing`: a parachute or streamer under which nothing hangs.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::flight::sinking::carries_nothing;

/// The rule.
pub static CARRIES_NOTHING: Rule = Rule {
    name: "recovery/carries-nothing",
    family: Family::Recovery,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a parachute or streamer under which no piece of the rocket hangs",
    why: "It slows nothing: each piece comes down as fast as without it.",
    prose: "Where `carries` is said, a parachute or streamer slows the parts of the body in its list; one that doesn't say \
        it slows what is in no other's list. Where the lists hold the whole body, nothing is left for it, and it counts as \
        mass alone.",
    thresholds: &[],
    example: Example::new(
        "    parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }",
        "    parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75; carries: [nose, body] }\n    \
             parachute extra { diameter: 200 mm; mass: 2 g; at: 80 mm from front }",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    // Where something isn't known as a part of the rocket, that may be the piece.
    if !cx.design.lost.is_empty() {
        return;
    }
    for part in carries_nothing(cx.design) {
        let label = part.label();
        out.push(
            CARRIES_NOTHING
                .finding(part.header, format!("nothing hangs under {label}: others carry the whole body"))
                .help(format!("say which parts of the body hang under it, `carries: […]`, or take {label} out")),
        );
    }
}
