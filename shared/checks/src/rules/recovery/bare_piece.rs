//! `recovery/bare-piece`: a piece of the rocket that nothing slows.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// The rule.
pub static BARE_PIECE: Rule = Rule {
    name: "recovery/bare-piece",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a piece of the rocket that comes down with nothing to slow it",
    why: "The rest comes down gently; this falls as fast as the air lets it, and goes through what it meets.",
    prose: "Where a parachute or streamer `carries` parts of the body, those come down under it by themselves. What is in \
        none of these lists hangs under what carries nothing in particular; where there is no such parachute or streamer, \
        it falls bare. Each piece is judged by itself: how fast it sinks and with how much energy it lands.",
    thresholds: &[],
    example: Example::new(
        "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }",
        "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75; carries: [nose] }",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let bare = cx.flights().filter_map(|(flight, numbers)| Some((flight, numbers, numbers.bare.as_ref()?)));
    let Some((flight, numbers, bare)) = bare.max_by(|a, b| a.2.mass.total_cmp(&b.2.mass)) else { return };
    let parts: Vec<_> = bare.bodies.iter().filter_map(|id| cx.design.parts.get(*id)).collect();
    let Some(first) = parts.first() else { return };
    let labels: Vec<String> = parts.iter().map(|part| part.label()).collect();
    let motor = if bare.has_motor { " with the motor" } else { "" };
    out.push(
        BARE_PIECE
            .finding(
                first.header,
                format!("{} of {}{motor} fall with nothing to slow them", show::mass(bare.mass), labels.join(" and ")),
            )
            .label(flight.name.place, "in this flight")
            .help("give this piece a parachute or streamer of its own, or tie it to the rest and leave `carries` out")
            .of_flight(numbers),
    );
}
