//! `flight/near-its-floors`: a flight that meets its floors by less than its inputs are off.

use crate::common::floors::{floors, input_in_words, likely};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::chances::Floors;
use finwright_assess::likelihood::Input;
use finwright_assess::{FlightNumbers, Likelihood, Spread};
use finwright_units::{show, Dimension};

/// How likely a flight must meet its floors.
pub static LIKELIHOOD: Threshold = Threshold::new(
    "likelihood",
    Dimension::NUMBER,
    0.95,
    "how likely a flight must meet its floors of exit speed, margin and thrust to weight, 0 to 1",
);

/// The rule.
pub static NEAR_ITS_FLOORS: Rule = Rule {
    name: "flight/near-its-floors",
    family: Family::Flight,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a flight that meets its floors by too little to be sure of it",
    why: "Motors of one kind differ, and no two rockets weigh the same: a flight that only just meets its floors \
        misses them now and then.",
    prose: include_str!("near_its_floors.md"),
    thresholds: &[&LIKELIHOOD],
    example: Example::new("length: 1 m; material: steel", "length: 0.56 m; material: steel"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let least = cx.limit(&LIKELIHOOD);
    let floors = floors(cx.settings, cx.design, cx.assessment);
    for (flight, numbers) in cx.flights() {
        // One that misses a floor is told of as that.
        let far = || cx.assessment.surely_meets(cx.design, numbers.flight, &floors, least, Spread::AtMostUsual);
        if !meets(numbers, &floors) || far() {
            continue;
        }
        let Some(likely) = likely(cx, numbers).filter(|likely| likely.all_at_most_usual < least) else { continue };
        let (what, value) = nearest(&likely);
        out.push(
            NEAR_ITS_FLOORS
                .finding(
                    flight.name.place,
                    format!(
                        "{} meets its floors in {} of 100 such flights; {} is the least",
                        flight.name.value,
                        show::trimmed(100.0 * likely.all_at_most_usual, 0),
                        show::trimmed(100.0 * least, 0)
                    ),
                )
                .help(format!(
                    "its {what} is the nearest to its floor (met in {} of 100), and {} counts most for it: {}",
                    show::trimmed(100.0 * value, 0),
                    input_in_words(likely.most),
                    advice(likely.most)
                ))
                .of_flight(numbers)
                .beyond(least / likely.all_at_most_usual.max(1e-6)),
        );
    }
}

fn meets(numbers: &FlightNumbers, floors: &Floors) -> bool {
    let run = numbers.run.as_ref();
    let speed = run.and_then(|run| run.last()).is_some_and(|last| last.speed >= floors.exit_speed);
    let push = run.and_then(|run| run.push).is_some_and(|push| push >= floors.push);
    speed && push && numbers.margin().is_some_and(|margin| margin - floors.doubt >= floors.margin)
}

/// The floor that is met least often, with how likely it is.
fn nearest(likely: &Likelihood) -> (&'static str, f64) {
    let floors = [("exit speed", likely.exit_speed), ("margin", likely.margin), ("thrust to weight", likely.push)];
    floors.into_iter().reduce(|a, b| if b.1 < a.1 { b } else { a }).unwrap_or(("exit speed", likely.exit_speed))
}

fn advice(input: Input) -> &'static str {
    match input {
        Input::Thrust => "a longer rod or rail, or a lighter rocket, leaves room for a weak motor",
        Input::Mass => "weigh the finished rocket and say so in `measured`, or leave more room",
        Input::Balance => "balance the finished rocket and say so in `measured`, or add a little nose weight",
        Input::Drag => "leave more room, by a longer rod or rail",
        Input::Friction => "smooth the guides, or leave more room by a longer rod or rail",
    }
}
