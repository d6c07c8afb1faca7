//! `guide/slow-exit`: the last guide leaves before the fins can steer.

use crate::common::elsewhere::{elsewhere, fly_there, Elsewhere};
use crate::common::floors::speed_with_room;
use crate::common::limits::EXIT_SPEED;
use crate::common::longer::{Longer, SAME_ROCKET};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_assess::{FlightNumbers, Run};
use finwright_model::{Flight, Pad};
use finwright_units::{show, Dimension};

/// Where a slow exit becomes an error: the floor is a rule of thumb, and a little below it is worth a look.
pub static EXIT_SPEED_SHARE: Threshold = Threshold::new(
    "exit_speed_share",
    Dimension::NUMBER,
    0.9,
    "the share of that speed below which it's an error; from there up to it, a warning",
);

/// The rule.
pub static SLOW_EXIT: Rule = Rule {
    name: "guide/slow-exit",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Error,
    summary: "the rocket leaves its rod or rail too slowly",
    why: "Below that speed air moves over the fins too slowly to turn the rocket back; the first gust steers it \
            instead.",
    prose: include_str!("slow_exit.md"),
    thresholds: &[&EXIT_SPEED, &EXIT_SPEED_SHARE],
    example: Example::new("length: 1 m; material: steel", "length: 0.4 m; material: steel"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let floor = cx.limit(&EXIT_SPEED);
    for (flight, numbers) in cx.flights() {
        let (Some(run), Some(pad)) = (&numbers.run, cx.design.pad_of(flight)) else { continue };
        let Some(last) = run.last().filter(|last| last.speed < floor) else { continue };
        let (Some(length), Some(motor)) =
            (pad.rail_length(), flight.motor.as_ref().and_then(|m| cx.design.motors.get(m.value)))
        else {
            continue;
        };
        let word = pad.rail_word();
        let [leaves, least] = show::speeds_apart(last.speed, floor);
        let beside = show::speed_beside(last.speed);
        let message = format!("{} leaves the {word} at {leaves}{beside}; fins need about {least}", flight.name.value);
        let remedies = Remedies::solve(cx, flight, numbers, run, pad, length.si, floor);
        let mut finding = SLOW_EXIT
            .finding(flight.name.place, message)
            .help(remedies.in_words(word))
            .of_flight(numbers)
            .beyond(floor / last.speed)
            .label(length.place, format!("this {word} gives {} of guided travel", show::length(run.travel)));
        if last.speed >= cx.limit(&EXIT_SPEED_SHARE) * floor {
            finding.level = Level::Warning;
        }
        if let Some(push) = run.push {
            let text = format!(
                "on the {word}, {} pushes with {} times the weight",
                motor.name.value,
                show::significant(push, 2, 1)
            );
            finding = finding.label(flight.motor.as_ref().map_or(motor.header, |m| m.place), text);
        }
        if let Some(longer) = remedies.length {
            let text = cx.as_sold(length.place, longer.sold);
            finding = finding.fix(format!("lengthen the {word} to {text}"), length.place, text);
        }
        if let Some(other) = &remedies.elsewhere {
            finding = fly_there(cx, flight, other, finding);
        }
        out.push(finding);
    }
}

fn exit_speed(numbers: &FlightNumbers) -> Option<f64> {
    Some(numbers.run.as_ref()?.last()?.speed)
}

/// What would bring the speed up to the floor, each solved by root finding on the same run.
struct Remedies<'a> {
    /// Length of rod or rail.
    length: Option<Longer>,
    /// Mass to take off, kg.
    lighter: Option<f64>,
    /// What another flight of the same motor has that is fast enough, its pad or its guides, with its exit speed.
    elsewhere: Option<Elsewhere<'a>>,
}

impl<'a> Remedies<'a> {
    fn solve(
        cx: &Context<'a>,
        flight: &Flight,
        numbers: &FlightNumbers,
        run: &Run,
        pad: &Pad,
        length: f64,
        floor: f64,
    ) -> Remedies<'a> {
        let Some(curve) = &numbers.curve else { return Remedies { length: None, lighter: None, elsewhere: None } };
        let physics = run.inputs_on(curve);
        let wanted = speed_with_room(cx, numbers, floor);
        let longer =
            physics.travel_for_speed(wanted).and_then(|travel| Longer::by(cx, pad, length, travel - run.travel));
        let lighter = physics
            .mass_for_speed(wanted, run.travel)
            .map(|mass| run.inputs.mass - mass)
            .filter(|less| *less > 0.0 && *less < SAME_ROCKET * run.inputs.mass);
        let elsewhere = elsewhere(cx, flight, |their| exit_speed(their).is_some_and(|speed| speed >= floor));
        Remedies { length: longer, lighter, elsewhere }
    }

    fn in_words(&self, word: &str) -> String {
        let mut ways = Vec::new();
        if let Some(length) = &self.length {
            ways.push(format!("a {} {word} would do{}", show::sold_length(length.sold), length.reason()));
        }
        if let Some(lighter) = self.lighter {
            ways.push(format!("{} less mass", show::grams_at_least(lighter)));
        }
        if let Some((other, speed)) = self.elsewhere.as_ref().and_then(|o| Some((o, exit_speed(o.numbers)?))) {
            ways.push(format!("{} ({})", other.what, show::speed(speed)));
        }
        match ways.as_slice() {
            [] => "a motor with more thrust at the start is needed".to_string(),
            [only] => only.clone(),
            [first, rest @ ..] => format!("{first}; so would {}", rest.join(", or ")),
        }
    }
}
