//! `stability/over-stable`: so much margin that the wind turns the rocket into it.

use crate::common::each_motor::each_motor;
use crate::common::fineness::fineness;
use crate::common::limits::LONG_BODY;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::FlightNumbers;
use finwright_model::Flight;
use finwright_units::{show, Dimension};

/// The greatest margin.
pub static MOST_MARGIN: Threshold =
    Threshold::new("most_margin", Dimension::CALIBRES, 3.5, "the greatest margin of a rocket in wind");

/// The greatest margin of a long one.
pub static MOST_LENGTH_MARGIN: Threshold = Threshold::new(
    "most_length_margin",
    Dimension::NUMBER,
    0.22,
    "the greatest margin of a long rocket in wind, as a share of its length",
);

/// The wind from which much margin matters.
pub static WINDY: Threshold =
    Threshold::new("windy", Dimension::SPEED, 3.0, "the steady wind from which much margin matters");

/// Too much of it.
pub static OVER_STABLE: Rule = Rule {
    name: "stability/over-stable",
    family: Family::Stability,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "so much margin that the wind turns the rocket into it",
    why: "A rocket with much margin turns its nose into every wind as it leaves, flies upwind and comes down far from \
        where it started.",
    prose: include_str!("over_stable.md"),
    thresholds: &[&MOST_MARGIN, &MOST_LENGTH_MARGIN, &LONG_BODY, &WINDY],
    example: Example::new("span: 40 mm", "span: 75 mm").settings("[thresholds]\nwindy = \"1 m/s\"\nmost_margin = 2.5"),
    check: Some(|cx, out| each_motor(cx, out, over_stable)),
};

fn over_stable(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let ((fineness, length), margin, air) = (fineness(cx)?, numbers.margin()?, numbers.air?);
    let calibre = cx.assessment.airframe.calibre?;
    let is_long = fineness >= cx.limit(&LONG_BODY);
    let most = if is_long { cx.limit(&MOST_LENGTH_MARGIN) * length / calibre } else { cx.limit(&MOST_MARGIN) };
    if margin <= most || air.wind < cx.limit(&WINDY) {
        return None;
    }
    Some(
        OVER_STABLE
            .finding(
                flight.name.place,
                format!(
                    "{} has a margin of {} calibres in a wind of {}; up to {} is usual",
                    flight.name.value,
                    show::number(margin),
                    show::speed(air.as_read(air.wind)),
                    show::number(most)
                ),
            )
            .help("smaller fins, less ballast, or a day with less wind; a faster exit turns it less"),
    )
}
