//! `field/odd-pressure`: a pressure that no weather makes at the site's elevation.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::FlightMisfit;
use finwright_units::show;

/// The rule.
pub static ODD_PRESSURE: Rule = Rule {
    name: "field/odd-pressure",
    family: Family::Field,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a pressure that no weather makes at the site's elevation",
    why: "The air's density, and with it drag and the wind's push, would be computed for another height.",
    prose: include_str!("odd_pressure.md"),
    thresholds: &[],
    example: Example::new("elevation: 20 m;", "elevation: 20 m; pressure: 540 hPa;"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::flights(cx, out, |_, misfit| {
        let FlightMisfit::Pressure { site, said, usual, place } = misfit else { return None };
        let site = cx.design.sites.get(*site)?;
        let elevation = site.elevation.as_ref()?;
        let message = format!(
            "{} at {} of elevation: the air there has about {}",
            hectopascals(*said),
            show::length(elevation.si),
            hectopascals(*usual)
        );
        let help = if said > usual && is_at_sea_level(*said) {
            "a forecast's pressure is often reduced to sea level: read a barometer on the field, or leave `pressure` \
                out"
        } else {
            "check both numbers; without `pressure` the standard atmosphere's is taken"
        };
        Some(ODD_PRESSURE.finding(*place, message).help(help).label(elevation.place, "the elevation"))
    });
}

fn is_at_sea_level(pressure: f64) -> bool {
    (95e3..=105e3).contains(&pressure)
}

fn hectopascals(pressure: f64) -> String {
    format!("{} hPa", show::trimmed(pressure / 100.0, 0))
}
