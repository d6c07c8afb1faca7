//! `stability/low-margin-at-release`: too little margin at the angle at which a gust meets the rocket.

use crate::common::floors::doubt;
use crate::common::limits::MARGIN;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_units::{show, Dimension};

/// The least margin at the gust's angle of attack.
pub static RELEASE_MARGIN: Threshold = Threshold::new(
    "release_margin",
    Dimension::CALIBRES,
    0.25,
    "the least margin at release at a gust's angle of attack, body lift included",
);

/// At the angle of attack of the release.
pub static LOW_MARGIN_AT_RELEASE: Rule = Rule {
    name: "stability/low-margin-at-release",
    family: Family::Stability,
    concerns: Concern::Pad,
    wind: Some(Wind::Gust),
    level: Level::Warning,
    summary: "too little margin at the angle at which a gust meets the rocket",
    why: "The slower the rocket leaves, the more from the side the wind meets it, and the air's push on the body then \
        moves the centre of pressure towards the nose.",
    prose: include_str!("low_margin_at_release.md"),
    thresholds: &[&RELEASE_MARGIN],
    example: Example::new("gust: 3 m/s", "gust: 12 m/s")
        .after(&[("span: 40 mm", "span: 23 mm")])
        .settings("[thresholds]\nlikelihood = 0.5"),
    check: Some(at_release),
};

fn at_release(cx: &Context, out: &mut Vec<Finding>) {
    let floor = cx.limit(&RELEASE_MARGIN);
    for (flight, numbers) in cx.flights() {
        let (Some(release), Some(margin), Some(air)) = (numbers.release, numbers.margin(), numbers.air) else {
            continue;
        };
        let doubt = doubt(cx);
        let (margin, gust) = (margin - doubt, release.gust_margin.map(|gust| gust - doubt));
        let Some(gust) = gust.filter(|gust| *gust < floor && margin >= cx.limit(&MARGIN)) else { continue };
        let left = if gust > 0.0 {
            format!("only {} calibres are left", show::number(gust))
        } else {
            format!("the centre of pressure is {} calibres ahead of the balance point", show::number(-gust))
        };
        out.push(
            LOW_MARGIN_AT_RELEASE
                .finding(
                    flight.name.place,
                    format!(
                        "as {} leaves, a gust of {} meets it at {}, and of its margin of {} calibres {left}",
                        flight.name.value,
                        show::speed(air.as_read(air.gust)),
                        show::angle(release.gust_angle),
                        show::number(margin)
                    ),
                )
                .of_flight(numbers)
                .beyond(1.0 + floor - gust)
                .help("wait for less wind, leave faster from a longer rod or rail, or use larger fins"),
        );
    }
}
