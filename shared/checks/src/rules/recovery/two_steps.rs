//! `recovery/fast-drogue`, `recovery/slow-drogue` and `recovery/low-main`: a descent in two steps, each at its speed.

use crate::common::flown::flown;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::{FlightNumbers, Opening};
use finwright_model::{Flight, Part, PartKind};
use finwright_units::{show, Dimension};

/// The fastest descent under a drogue.
pub static DROGUE_MOST: Threshold =
    Threshold::new("drogue_most", Dimension::SPEED, 35.0, "the fastest descent before the last parachute opens");
/// The slowest.
pub static DROGUE_LEAST: Threshold =
    Threshold::new("drogue_least", Dimension::SPEED, 10.0, "the slowest descent for which a second step is worth it");
/// The time that is left when the main opens.
pub static MAIN_TIME: Threshold = Threshold::new(
    "main_time",
    Dimension::TIME,
    4.0,
    "the least time to the ground, at the speed before it, when the last parachute opens",
);

const TWO_STEPS: &str = "parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }";

/// Too fast under the first.
pub static FAST_DROGUE: Rule = Rule {
    name: "recovery/fast-drogue",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a descent under the drogue so fast that the main may tear",
    why: "A main that opens too fast tears its cloth or its cord, and the rocket comes down as it fell.",
    prose: include_str!("fast_drogue.md"),
    thresholds: &[&DROGUE_MOST],
    example: Example::new(
        TWO_STEPS,
        "streamer { length: 100 mm; width: 20 mm; mass: 1 g; at: 60 mm from front; opens: at top }\n    parachute { \
            diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75; opens: 20 m above ground }",
    )
    .settings("[thresholds]\ndrogue_most = \"12 m/s\""),
    check: Some(check_fast),
};

/// Too slow for a second step.
pub static SLOW_DROGUE: Rule = Rule {
    name: "recovery/slow-drogue",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Note,
    summary: "a descent under the drogue so slow that a second step is for nothing",
    why: "The rocket drifts nearly as far as under the main, and the second step is one more that can fail.",
    prose: include_str!("slow_drogue.md"),
    thresholds: &[&DROGUE_LEAST],
    example: Example::new(
        TWO_STEPS,
        "parachute { diameter: 250 mm; mass: 4 g; at: 60 mm from front; drag: 0.75; opens: at top }\n    parachute { \
            diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75; opens: 40 m above ground }",
    ),
    check: Some(check_slow),
};

/// Too low.
pub static LOW_MAIN: Rule = Rule {
    name: "recovery/low-main",
    family: Family::Recovery,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a main parachute that opens too near the ground",
    why: "It needs a second or two to fill, and nothing is left for a slow start.",
    prose: include_str!("low_main.md"),
    thresholds: &[&MAIN_TIME],
    example: Example::new(
        TWO_STEPS,
        "streamer { length: 400 mm; width: 30 mm; mass: 1 g; at: 60 mm from front; opens: at top }\n    parachute { \
            diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75; opens: 10 m above ground }",
    ),
    check: Some(check_low),
};

/// A flight's last step, which waits for a height, and the steady speed before it, m/s.
struct Steps<'a> {
    flight: &'a Flight,
    numbers: &'a FlightNumbers,
    /// What opens last.
    main: &'a Part,
    opening: &'a Opening,
    before: f64,
}

/// The flights that come down in two steps or more.
fn steps<'a>(cx: &Context<'a>) -> Vec<Steps<'a>> {
    let of = |(flight, numbers, path): (&'a Flight, &'a FlightNumbers, &'a finwright_assess::Path)| {
        let [.., first, opening] = path.descent.as_ref()?.openings.as_slice() else { return None };
        let main = cx.design.parts.get(*opening.parts.first()?)?;
        let waits = match &main.kind {
            PartKind::Parachute { opens, .. } | PartKind::Streamer { opens, .. } => opens.as_ref(),
            _ => None,
        };
        let for_height = waits.is_some_and(|opens| matches!(opens.when, finwright_model::Opens::AboveGround(_)));
        for_height.then_some(Steps { flight, numbers, main, opening, before: first.rate })
    };
    flown(cx).into_iter().filter_map(of).collect()
}

fn check_fast(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&DROGUE_MOST);
    for Steps { flight, numbers, main, opening, before } in steps(cx).into_iter().filter(|steps| steps.before > most) {
        let message = format!(
            "{} falls at {} before {} opens; {} is the most",
            flight.name.value,
            show::descent(before),
            main.label(),
            show::descent(most)
        );
        out.push(
            FAST_DROGUE
                .finding(main.header, message)
                .help(format!("a larger drogue; as it is the main pulls with {}", show::force(opening.pull)))
                .label(flight.name.place, "in this flight")
                .of_flight(numbers)
                .beyond(before / most),
        );
    }
}

fn check_slow(cx: &Context, out: &mut Vec<Finding>) {
    let least = cx.limit(&DROGUE_LEAST);
    for Steps { flight, numbers, main, before, .. } in steps(cx).into_iter().filter(|steps| steps.before < least) {
        let message = format!(
            "{} comes down at only {} before {} opens; {} is the least for a second step",
            flight.name.value,
            show::descent(before),
            main.label(),
            show::descent(least)
        );
        out.push(
            SLOW_DROGUE
                .finding(main.header, message)
                .help("a smaller drogue drifts less, and one parachute alone is simpler".to_string())
                .label(flight.name.place, "in this flight")
                .of_flight(numbers),
        );
    }
}

fn check_low(cx: &Context, out: &mut Vec<Finding>) {
    let least = cx.limit(&MAIN_TIME);
    for Steps { flight, numbers, main, opening, before } in steps(cx) {
        let (height, left) = (opening.moment.height, opening.moment.height / before.max(f64::MIN_POSITIVE));
        if left >= least {
            continue;
        }
        let message = format!(
            "{} opens {} up, {} from the ground at {}; {} is the least",
            main.label(),
            show::length(height),
            show::time(left),
            show::descent(before),
            show::time(least)
        );
        out.push(
            LOW_MAIN
                .finding(main.header, message)
                .help(format!("let it open {} above ground", show::length_at_least((least * before).ceil())))
                .label(flight.name.place, "in this flight")
                .of_flight(numbers)
                .beyond(least / left),
        );
    }
}
