//! `stability/low-margin-burnt`: too little margin once the motor is spent.

use crate::common::each_motor::each_motor;
use crate::common::floors::doubt;
use crate::common::limits::MARGIN;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::FlightNumbers;
use finwright_model::Flight;
use finwright_units::show;

/// At burnout.
pub static LOW_MARGIN_BURNT: Rule = Rule {
    name: "stability/low-margin-burnt",
    family: Family::Stability,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "too little margin once the motor is spent",
    why: "The rocket is fastest at burnout; if its margin is gone by then, that is where it turns.",
    prose: include_str!("low_margin_burnt.md"),
    thresholds: &[&MARGIN],
    example: Example::new("propellant: 5.6 g", "propellant: 15 g")
        .after(&[
            ("sticks_out: 5 mm;", "at: 0 mm from front;"),
            ("shoulder { length: 20 mm; outer: 23.9 mm }", "shoulder { length: 20 mm; outer: 23.9 mm; wall: 1 mm }"),
        ])
        .settings(
            "[thresholds]\nmargin = 5.15\nmost_margin = 9\nlikelihood = 0.5\n[levels]\n\"mount/recessed\" = \
            \"off\"\n\"shape/overlap\" = \"off\"",
        ),
    check: Some(|cx, out| each_motor(cx, out, burnt)),
};

fn burnt(cx: &Context, flight: &Flight, numbers: &FlightNumbers) -> Option<Finding> {
    let doubt = doubt(cx);
    let (loaded, burnt) = (numbers.margin()? - doubt, numbers.burnt_margin()? - doubt);
    let floor = cx.limit(&MARGIN);
    // A margin that is too small from the start is told of as that.
    if loaded < floor || burnt >= floor {
        return None;
    }
    Some(
        LOW_MARGIN_BURNT
            .finding(
                flight.motor.as_ref().map_or(flight.name.place, |m| m.place),
                format!(
                    "{}'s margin falls from {} to {} calibres while the motor burns",
                    flight.name.value,
                    show::number(loaded),
                    show::number(burnt)
                ),
            )
            .help(format!(
                "larger fins, or a motor further back: {} calibre should be left at burnout",
                show::number(floor)
            )),
    )
}
