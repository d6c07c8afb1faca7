//! `wind/turns-far`: a flight that turns far into the wind.

use crate::common::limits::TURN;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::path;
use finwright_units::show;

/// The flight turns far into the wind.
pub static TURNS_FAR: Rule = Rule {
    name: "wind/turns-far",
    family: Family::Wind,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "a flight that turns far into the wind",
    why: "A rocket that flies slanted spends its speed along the ground: it climbs less, lands further off, and opens \
        its parachute at speed.",
    prose: include_str!("turns_far.md"),
    thresholds: &[&TURN],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 6.5 m/s; gust: 7 m/s")
        .settings("[thresholds]\nturn = \"14 deg\""),
    check: Some(turns_far),
};

fn turns_far(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&TURN);
    for (flight, numbers) in cx.flights() {
        let Ok(flown) = path(cx.design, &cx.assessment.airframe, numbers) else { continue };
        let (Some(turn), Some(air)) = (flown.weathercock, numbers.air) else { continue };
        // A slow flight without wind is turned by gravity alone, and told of by others.
        if turn <= most || air.wind <= 0.0 {
            continue;
        }
        out.push(
            TURNS_FAR
                .finding(
                    flight.name.place,
                    format!(
                        "a wind of {} turns {} by {} until burnout; up to {} is usual",
                        show::speed(air.as_read(air.wind)),
                        flight.name.value,
                        show::angle(turn),
                        show::angle(most)
                    ),
                )
                .of_flight(numbers)
                .beyond(turn / most)
                .help("wait for less wind, or leave faster: a longer rod or rail, a motor with more push at the start"),
        );
    }
}
