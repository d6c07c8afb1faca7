//! `guide/tip-off`: the turn that the last guide gives.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_units::{show, Dimension};

/// The greatest swing that the last guide may give.
pub static TIP_OFF_ANGLE: Threshold = Threshold::new(
    "tip_off_angle",
    Dimension::ANGLE,
    3.0_f64.to_radians(),
    "the greatest swing that the last guide may give, in a gust",
);

/// The rule.
pub static TIP_OFF: Rule = Rule {
    name: "guide/tip-off",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: Some(Wind::Gust),
    level: Level::Note,
    summary: "a rocket that its last guide turns as it leaves",
    why: "A rocket that turns as it leaves swings about its path at its slowest moment, and some of that stays in its \
        course.",
    prose: include_str!("tip_off.md"),
    thresholds: &[&TIP_OFF_ANGLE],
    example: Example::new("gust: 3 m/s", "gust: 9 m/s")
        .after(&[("at: 20 mm ahead of balance", "at: 95 mm ahead of balance")])
        .settings("[thresholds]\ntip_off_angle = \"1 deg\""),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (flight, numbers) in cx.flights() {
        let Some((release, swing)) = numbers.release.as_ref().and_then(|r| Some((r, r.swing?))) else { continue };
        let turn = release.gust_tip_off;
        // The swing that follows a rate of turn, on top of the angle already turned.
        let angle = turn.angle.abs() + turn.rate.abs() / swing.natural;
        let (Some(air), Some(rear)) = (numbers.air, numbers.guides().last()) else { continue };
        let Some(part) = cx.design.parts.get(rear.part) else { continue };
        if angle <= cx.limit(&TIP_OFF_ANGLE) {
            continue;
        }
        let way = if turn.rate > 0.0 { "downwind" } else { "into the wind" };
        let advice = if numbers.guides().len() > 1 {
            "guides closer together leave sooner after each other; so does a faster rocket: a longer rod or rail"
        } else {
            "a shorter lug leaves sooner; two lugs hold longer; so does a longer rod"
        };
        out.push(
            TIP_OFF
                .finding(
                    flight.name.place,
                    format!(
                        "in a gust of {} {} turns {} {way} on its last guide and swings by about {}",
                        show::speed(air.as_read(air.gust)),
                        flight.name.value,
                        show::angle(turn.angle.abs()),
                        show::angle(angle)
                    ),
                )
                .help(advice)
                .of_flight(numbers)
                .beyond(angle / cx.limit(&TIP_OFF_ANGLE))
                .label(part.header, "the last guide"),
        );
    }
}
