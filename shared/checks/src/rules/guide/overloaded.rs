//! `guide/overloaded`: a lug, button or rail guide that carries more than it should.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use crate::threshold::Threshold;
use finwright_units::{show, Dimension};

/// The share of what a guide bears that it may carry.
pub static LOAD_SHARE: Threshold = Threshold::new(
    "load_share",
    Dimension::NUMBER,
    0.5,
    "the greatest load of a guide as a share of what its bond or screw bears",
);

/// The rule.
pub static OVERLOADED: Rule = Rule {
    name: "guide/overloaded",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: Some(Wind::Gust),
    level: Level::Warning,
    summary: "a guide that carries more than half of what it bears",
    why: "A guide that comes off in the first moments lets the rocket fly wherever the rod or rail happens to push it.",
    prose: include_str!("overloaded.md"),
    thresholds: &[&LOAD_SHARE],
    example: Example::new("lug only { bore: 3.6 mm; bears: 20 N;", "lug only { bore: 3.6 mm; bears: 0.8 N;")
        .after(&[("lug only { bore: 3.6 mm;", "lug only { bore: 3.6 mm; bears: 20 N;")]),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        for load in numbers.loads.iter().flat_map(|loads| &loads.guides) {
            let (Some(bears), Some(part)) = (load.capacity, cx.design.parts.get(load.part)) else { continue };
            let most = load.most();
            if most <= cx.limit(&LOAD_SHARE) * bears || told.contains(&load.part) {
                continue;
            }
            told.push(load.part);
            let when = if most == load.level {
                "while it's lifted level"
            } else if most == load.pad_gust {
                "in a gust on the pad"
            } else {
                "as the front guide leaves"
            };
            let known = if part.bears.is_some() { "bears" } else { "bears about" };
            let guess = if part.bears.is_some() { "" } else { " (a guess on the low side)" };
            let mut finding = OVERLOADED
                .finding(
                    part.bears.as_ref().map_or(part.header, |bears| bears.place),
                    format!(
                        "{} carries up to {} {when}, and {known} {}{guess}",
                        part.label(),
                        show::force(most),
                        show::force(bears)
                    ),
                )
                .help(format!(
                    "one that bears {} or more: a longer foot, a screw with something solid behind it; or test a \
                        spare one and give its `bears`",
                    show::force_at_least((most / cx.limit(&LOAD_SHARE)).ceil())
                ))
                .label(flight.name.place, "in this flight")
                .of_flight(numbers)
                .beyond(most / (cx.limit(&LOAD_SHARE) * bears));
            if most > bears {
                finding.level = Level::Error;
            }
            out.push(finding);
        }
    }
}
