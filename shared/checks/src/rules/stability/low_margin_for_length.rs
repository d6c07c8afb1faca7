//! `stability/low-margin-for-length`: a long slender rocket with a margin small for its length.

use crate::common::each_motor::each_motor;
use crate::common::fineness::fineness;
use crate::common::floors::doubt;
use crate::common::limits::{LONG_BODY, MARGIN};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::FlightNumbers;
use finwright_model::Flight;
use finwright_units::{show, Dimension};

/// The least margin of a long one.
pub static LENGTH_MARGIN: Threshold = Threshold::new(
    "length_margin",
    Dimension::NUMBER,
    0.08,
    "the least margin of a long rocket, as a share of its length",
);

/// Of a long rocket.
pub static LOW_MARGIN_FOR_LENGTH: Rule = Rule {
    name: "stability/low-margin-for-length",
    family: Family::Stability,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a long slender rocket with a margin small for its length",
    why: "A calibre is a small lever on a long thin body: its own bending and the body's lift use it up.",
    prose: include_str!("low_margin_for_length.md"),
    thresholds: &[&LONG_BODY, &LENGTH_MARGIN],
    example: Example::new("span: 40 mm", "span: 19.6 mm")
        .settings("[thresholds]\nlong_body = 10\nlength_margin = 0.12\nmargin = 0.3\nrelease_margin = 0"),
    check: Some(|cx, out| each_motor(cx, out, for_length)),
};

fn for_length(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let ((fineness, length), margin) = (fineness(cx)?, numbers.margin()? - doubt(cx));
    let share = margin * cx.assessment.airframe.calibre? / length;
    let floor = cx.limit(&LENGTH_MARGIN);
    if fineness < cx.limit(&LONG_BODY) || share >= floor || margin < cx.limit(&MARGIN) {
        return None;
    }
    Some(
        LOW_MARGIN_FOR_LENGTH
            .finding(
                flight.name.place,
                format!(
                    "{} is {} diameters long, and its margin of {} calibres is {} % of its length",
                    flight.name.value,
                    show::trimmed(fineness, 0),
                    show::number(margin),
                    show::trimmed(100.0 * share, 1)
                ),
            )
            .help(format!(
                "{} or more ({} %): larger fins, or ballast in the nose",
                show::station((floor * length * 1e3).ceil() / 1e3),
                show::trimmed(100.0 * floor, 1)
            )),
    )
}
