//! `wind/gust-turns-far`: a flight that a single gust turns far.

use crate::common::limits::TURN;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_assess::{in_gust, path};
use finwright_units::{show, Dimension};

/// The most that a gust may turn it.
pub static GUST_TURN: Threshold = Threshold::new(
    "gust_turn",
    Dimension::ANGLE,
    35.0_f64.to_radians(),
    "how far the nose may turn into the wind until burnout where a gust meets it on the way",
);

/// A gust turns it far.
pub static GUST_TURNS_FAR: Rule = Rule {
    name: "wind/gust-turns-far",
    family: Family::Wind,
    concerns: Concern::Pad,
    wind: Some(Wind::Gust),
    level: Level::Warning,
    summary: "a flight that a single gust on its way up turns far",
    why: "A rocket that is turned while its motor burns is driven where the gust has pointed it.",
    prose: include_str!("gust_turns_far.md"),
    thresholds: &[&GUST_TURN],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 3 m/s; gust: 9 m/s")
        .settings("[thresholds]\ngust_turn = \"12 deg\""),
    check: Some(check),
};

/// The turn in a gust is rarely so many times that of its share of the wind; below it the gust isn't flown.
const SELDOM: f64 = 1.5;

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let (most, steady) = (cx.limit(&GUST_TURN), cx.limit(&TURN));
    for (flight, numbers) in cx.flights() {
        let Ok(flown) = path(cx.design, &cx.assessment.airframe, numbers) else { continue };
        let (Some(turn), Some(air), Some(release)) = (flown.weathercock, numbers.air, numbers.release) else {
            continue;
        };
        // What turns far in the steady wind is told as that.
        let by_gust = SELDOM * (turn.abs() + (release.gust_angle - release.angle).abs());
        if air.gust <= air.wind || turn > steady || by_gust <= most {
            continue;
        }
        let worst = in_gust(cx.design, &cx.assessment.airframe, numbers).filter(|worst| worst.turn > most);
        let Some(worst) = worst else { continue };
        out.push(
            GUST_TURNS_FAR
                .finding(
                    flight.name.place,
                    format!(
                        "a gust of {} on the way up turns {} by {}; up to {} is usual",
                        show::speed(air.as_read(air.gust)),
                        flight.name.value,
                        show::angle(worst.turn),
                        show::angle(most)
                    ),
                )
                .label(
                    flight.name.place,
                    format!(
                        "the worst begins {} up; the air meets it at {} then",
                        show::length(worst.bump.bottom),
                        show::angle(worst.angle)
                    ),
                )
                .of_flight(numbers)
                .beyond(worst.turn / most)
                .help("wait for steadier wind, or leave faster: a longer rod or rail, a motor with more push"),
        );
    }
}
