//! `wind/too-strong`: more wind than one launches in.

use crate::common::deferred::OVER_LIMIT;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_assess::field_rules::{exceeded, Facts, Limited};
use finwright_assess::FlightNumbers;
use finwright_units::{show, Dimension};

/// The strongest wind.
pub static WIND: Threshold =
    Threshold::new("wind", Dimension::SPEED, 8.9408, "the strongest steady wind that one launches in")
        .beginners(4.4704);

/// More wind than anyone launches in.
pub static TOO_STRONG: Rule = Rule {
    name: "wind/too-strong",
    family: Family::Wind,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "more wind than one launches in",
    why: "In such a wind the rocket turns into it at once, and comes down far off among people who don't look for it.",
    prose: include_str!("too_strong.md"),
    thresholds: &[&WIND],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 9.5 m/s; gust: 12 m/s"),
    check: Some(too_strong),
};

fn too_strong(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&WIND);
    for (number, site) in cx.design.sites.iter().enumerate() {
        let used = cx.flights().find(|(f, _)| f.site.as_ref().map(|s| s.value) == Some(number));
        let (Some(wind), Some((flight, numbers))) = (&site.wind, used) else { continue };
        // What the chosen code forbids is told as that.
        if wind.si <= most + 1e-9 || is_forbidden(cx, numbers) {
            continue;
        }
        out.push(
            TOO_STRONG
                .finding(wind.place, format!("at {} it blows {}", site.name.value, show::speed_for_reader(wind.si)))
                .help(format!("wait for {} or less; your code may ask for less", show::speed_for_reader(most)))
                .label(flight.name.place, "this flight starts there")
                .of_flight(numbers)
                .beyond(wind.si / most),
        );
    }
}

/// Whether the chosen code forbids this wind.
fn is_forbidden(cx: &Context, numbers: &FlightNumbers) -> bool {
    let Some(code) = cx.settings.code.filter(|_| !cx.settings.is_off(OVER_LIMIT)) else { return false };
    exceeded(code, &Facts::of(cx.design, numbers, None)).iter().any(|limit| limit.what == Limited::Wind)
}
