//! `wind/steep-angle`: the wind meets the rocket too far from the side as it leaves.

use crate::common::limits::RELEASE_ANGLE;
use crate::common::longer::Longer;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::flight::release::{speed_for_angle, wind_for_angle};
use finwright_assess::Air;
use finwright_model::Pad;
use finwright_units::show;

/// The wind meets the rocket far from ahead.
pub static STEEP_ANGLE: Rule = Rule {
    name: "wind/steep-angle",
    family: Family::Wind,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "the wind meets the rocket too far from the side as it leaves",
    why: "At a steep angle the air breaks away from the fins, which then can't turn the rocket back.",
    prose: include_str!("steep_angle.md"),
    thresholds: &[&RELEASE_ANGLE],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 6.3 m/s; gust: 6.5 m/s"),
    check: Some(steep_angle),
};

fn steep_angle(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&RELEASE_ANGLE);
    for (flight, numbers) in cx.flights() {
        let (Some(release), Some(air), Some(run)) = (numbers.release, numbers.air, &numbers.run) else { continue };
        let Some(last) = run.last().filter(|_| release.angle > most) else { continue };
        // With less wind there is less friction on the guide, so this wind is on the passing side.
        let lean = run.inputs.lean;
        let height = last.travel * run.inputs.tilt.cos();
        let growth = Air::growth(height);
        let calm = air.as_read(wind_for_angle(most, last.speed, lean) / growth);
        let calm = (calm * 10.0).floor() / 10.0;
        let mut help = format!("wait for {} or less", show::speed_at_most(calm));
        let faster = speed_for_angle(most, air.wind * growth, lean);
        let pad = cx.design.pad_of(flight);
        if let (Some(curve), Some(length), Some(pad)) = (&numbers.curve, pad.and_then(Pad::rail_length), pad) {
            let travel = run.inputs_on(curve).travel_for_speed(faster);
            if let Some(longer) = travel.and_then(|travel| Longer::by(cx, pad, length.si, travel - run.travel)) {
                let (sold, reason) = (show::sold_length(longer.sold), longer.reason());
                help += &format!("; a {sold} {} would be fast enough{reason}", pad.rail_word());
            }
        }
        let site = flight.site.as_ref().and_then(|s| cx.design.sites.get(s.value)).and_then(|s| s.wind.as_ref());
        let mut finding = STEEP_ANGLE
            .finding(
                flight.name.place,
                format!(
                    "as {} leaves at {}, a wind of {} meets it at {}; up to {} is usual",
                    flight.name.value,
                    show::speed(last.speed),
                    show::speed(air.as_read(air.wind)),
                    show::angle(release.angle),
                    show::angle(most)
                ),
            )
            .help(help)
            .of_flight(numbers)
            .beyond(release.angle / most);
        if let Some(wind) = site {
            finding = finding.label(wind.place, "the wind");
        }
        out.push(finding);
    }
}
