//! `guide/slow-front`: the front guide leaves before the fins can steer, and the rocket can turn about the last one.

use crate::common::limits::EXIT_SPEED;
use crate::common::longer::Longer;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_units::{show, Dimension};

/// How far a gust may turn the rocket on its last guide while it's still too slow.
pub static SLOW_TURN: Threshold = Threshold::new(
    "slow_turn",
    Dimension::ANGLE,
    0.5 * std::f64::consts::PI / 180.0,
    "how far a gust may turn a rocket on its last guide after its front one left too slowly",
);

/// The rule.
pub static SLOW_FRONT: Rule = Rule {
    name: "guide/slow-front",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: Some(Wind::Gust),
    level: Level::Warning,
    summary: "the front guide leaves while the rocket is too slow for its fins",
    why: "Held by one guide alone a rocket can turn already, and its fins are still too slow to turn it back.",
    prose: include_str!("slow_front.md"),
    thresholds: &[&EXIT_SPEED, &SLOW_TURN],
    example: Example::new("slot: slim; length: 1 m", "slot: slim; length: 0.56 m")
        .settings("[thresholds]\nslow_turn = \"0.01 deg\""),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let floor = cx.limit(&EXIT_SPEED);
    for (flight, numbers) in cx.flights().filter(|(_, numbers)| numbers.guides().len() > 1) {
        let (Some(run), Some(release), Some(pad)) = (&numbers.run, &numbers.release, cx.design.pad_of(flight)) else {
            continue;
        };
        let (Some(front), Some(last)) = (run.front(), run.last()) else { continue };
        // A last guide that is too slow is told by itself.
        if front.speed >= floor || last.speed < floor {
            continue;
        }
        let turn = release.gust_tip_off.angle.hypot(release.gust_tip_off.angle_across);
        let [leaves, least] = show::speeds_apart(front.speed, floor);
        let message = format!("{}'s front guide leaves at {leaves}; fins need about {least}", flight.name.value);
        let part = numbers.guides().first().and_then(|guide| cx.design.parts.get(guide.part));
        let mut finding = SLOW_FRONT
            .finding(flight.name.place, message)
            .of_flight(numbers)
            .beyond(floor / front.speed)
            .label(flight.name.place, format!("a gust turns it by {} until the last one leaves", show::angle(turn)));
        if let Some(part) = part {
            finding = finding.label(part.header, "the front guide");
        }
        let longer = numbers.curve.as_ref().zip(pad.rail_length()).and_then(|(curve, length)| {
            let travel = run.inputs_on(curve).travel_for_speed(floor)?;
            Longer::by(cx, pad, length.si, travel - run.front_travel)
        });
        let closer = "guides closer together leave nearer to each other";
        finding = finding.help(match longer {
            Some(longer) => {
                format!(
                    "a {} {} would do{}; {closer}",
                    show::sold_length(longer.sold),
                    pad.rail_word(),
                    longer.reason()
                )
            }
            None => closer.to_string(),
        });
        if turn <= cx.limit(&SLOW_TURN) {
            finding.level = Level::Note;
        }
        out.push(finding);
    }
}
