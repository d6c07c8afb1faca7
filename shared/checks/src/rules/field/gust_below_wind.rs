//! `field/gust-below-wind`: gusts weaker than the wind that they are gusts of.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_units::show;

/// The rule.
pub static GUST_BELOW_WIND: Rule = Rule {
    name: "field/gust-below-wind",
    family: Family::Field,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "gusts weaker than the steady wind",
    why: "One of the two numbers is wrong, and everything that bends in a gust is computed from them.",
    prose: include_str!("gust_below_wind.md"),
    thresholds: &[],
    example: Example::new("wind: 2 m/s; gust: 3 m/s", "wind: 3 m/s; gust: 2 m/s"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    for (number, site) in cx.design.sites.iter().enumerate() {
        let used = cx.flights().find(|(f, _)| f.site.as_ref().map(|s| s.value) == Some(number));
        let (Some(wind), Some(gust), Some((flight, numbers))) = (&site.wind, &site.gust, used) else { continue };
        if gust.si >= wind.si {
            continue;
        }
        let (said, usual) = (show::speed_for_reader(gust.si), show::speed_for_reader(wind.si));
        out.push(
            GUST_BELOW_WIND
                .finding(gust.place, format!("gusts of {said} at {} are weaker than its wind", site.name.value))
                .help(format!("the wind is {usual}, and is taken for the gusts too; read both from the meter again"))
                .label(wind.place, "the steady wind")
                .label(flight.name.place, "this flight starts there")
                .of_flight(numbers),
        );
    }
}
