//! `pad/tips-over` and `pad/nearly-tips`: a pad that a gust tips, or nearly.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::flight::standing::WELL_HELD;
use finwright_assess::{FlightNumbers, Standing};
use finwright_model::{Flight, Pad};
use finwright_units::{show, Dimension};

/// A gust tips it.
pub static TIPS_OVER: Rule = Rule {
    name: "pad/tips-over",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: Some(Wind::Gust),
    level: Level::Error,
    summary: "a pad that a gust tips over, rocket and all",
    why: "A pad that falls as the motor lights launches the rocket along the ground.",
    prose: include_str!("tips_over.md"),
    thresholds: &[],
    example: Example::new("mass: 3 kg; stance: 250 mm", "mass: 20 g; stance: 15 mm").after(STANDS),
    check: Some(|cx, out| each(cx, out, &TIPS_OVER)),
};

/// A gust nearly tips it.
pub static NEARLY_TIPS: Rule = Rule {
    name: "pad/nearly-tips",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: Some(Wind::Gust),
    level: Level::Warning,
    summary: "a pad that hardly stands in a gust",
    why: "Soft ground, a foot that isn't down or a stronger gust takes what is left.",
    prose: include_str!("tips_over.md"),
    thresholds: &[],
    example: Example::new("mass: 3 kg; stance: 250 mm", "mass: 50 g; stance: 30 mm").after(STANDS),
    check: Some(|cx, out| each(cx, out, &NEARLY_TIPS)),
};

const STANDS: &[(&str, &str)] = &[(
    "material: steel }; stop: 50 mm; tilt: 2 deg; end: capped",
    "material: steel }; mass: 3 kg; stance: 250 mm; stop: 50 mm; tilt: 2 deg; end: capped",
)];

fn each(cx: &Context, out: &mut Vec<Finding>, rule: &'static Rule) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(standing), Some(pad)) = (numbers.standing, cx.design.pad_of(flight)) else { continue };
        let tips = standing.times() <= 1.0;
        if tips != std::ptr::eq(rule, &TIPS_OVER) || standing.times() >= WELL_HELD || told.contains(&pad.name.place) {
            continue;
        }
        told.push(pad.name.place);
        out.extend(finding(rule, (flight, numbers), pad, standing));
    }
}

fn finding(
    rule: &'static Rule,
    (flight, numbers): (&Flight, &FlightNumbers),
    pad: &Pad,
    standing: Standing,
) -> Option<Finding> {
    let air = numbers.air?;
    let (name, gust) = (&pad.name.value, show::speed(air.as_read(air.gust)));
    let message = if standing.times() <= 1.0 {
        format!("a gust of {gust} tips {name} over; {} would be the most", show::speed_at_most(standing.tips_at))
    } else {
        format!("{name} holds {} times a gust of {gust}; {WELL_HELD} is usual", show::number(standing.times()))
    };
    let stance = pad.stance.as_ref()?;
    let moments = format!(
        "{} push, {} hold",
        show::quantity(standing.gust, Dimension::ENERGY),
        show::quantity(standing.holds, Dimension::ENERGY)
    )
    .replace(" J", " N m");
    let help = match standing.stance_for {
        Some(wider) if wider < MOST_STANCE => {
            format!(
                "stake it down, put weight on its legs, or stand it {} wide to that side",
                show::length_at_least(wider)
            )
        }
        _ => "stake it down, or put weight on its legs".to_string(),
    };
    let finding =
        rule.finding(stance.place, message).label(stance.place, moments).label(flight.name.place, "in this flight");
    Some(finding.help(help).of_flight(numbers).beyond(WELL_HELD / standing.times().max(0.1)))
}

/// Wider than this no pad's legs reach, m.
const MOST_STANCE: f64 = 2.0;
