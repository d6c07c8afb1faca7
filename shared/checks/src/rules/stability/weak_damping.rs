//! `stability/weak-damping`: a swing that dies away slowly.

use crate::common::each_motor::each_motor;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::FlightNumbers;
use finwright_model::Flight;
use finwright_units::{show, Dimension};

/// The least damping.
pub static DAMPING: Threshold =
    Threshold::new("damping", Dimension::NUMBER, 0.08, "the least damping ratio of the swing after release");

/// A swing that goes on.
pub static WEAK_DAMPING: Rule = Rule {
    name: "stability/weak-damping",
    family: Family::Stability,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Note,
    summary: "a swing that dies away slowly",
    why: "A rocket that swings for long after a gust loses height, and a second gust in step makes it worse.",
    prose: include_str!("weak_damping.md"),
    thresholds: &[&DAMPING],
    example: Example::new("elevation: 20 m", "elevation: 3000 m").settings("[thresholds]\ndamping = 0.14"),
    check: Some(|cx, out| each_motor(cx, out, weak_damping)),
};

fn weak_damping(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let swing = numbers.release.as_ref()?.swing?;
    let least = cx.limit(&DAMPING);
    if swing.damping_ratio >= least {
        return None;
    }
    let halves = 2f64.ln() / swing.decay;
    Some(
        WEAK_DAMPING
            .finding(
                flight.name.place,
                format!(
                    "{} swings with a damping ratio of {}: each swing takes {} to halve",
                    flight.name.value,
                    show::number(swing.damping_ratio),
                    show::time(halves)
                ),
            )
            .help(format!("{} or more is usual: larger fins, further back", show::number(least))),
    )
}
