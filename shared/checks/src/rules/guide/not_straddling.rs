//! `guide/not-straddling`: two guides that both sit on one side of the balance point.

use crate::common::named::{balance_label, value_place};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::GuideNumbers;
use finwright_units::show;

/// The rule.
pub static NOT_STRADDLING: Rule = Rule {
    name: "guide/not-straddling",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "guides that don't straddle the balance point",
    why: "With the balance point outside of them the guides work like a hinge: both are pulled on, one in and one \
        out, and the rocket turns as they let go.",
    prose: include_str!("not_straddling.md"),
    thresholds: &[],
    example: Example::new("at: 20 mm ahead of balance", "at: 10 mm behind balance"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(front), Some(rear), Some(loaded)) =
            (numbers.guides().first(), numbers.guides().last(), numbers.loaded())
        else {
            continue;
        };
        if numbers.guides().len() < 2 {
            continue;
        }
        let (ahead, behind) = (front.extent.middle() <= loaded.x, rear.extent.middle() >= loaded.x);
        let key = (front.part, rear.part, flight.motor.as_ref().map(|m| m.value));
        if (ahead && behind) || told.contains(&key) {
            continue;
        }
        told.push(key);
        let (moved, side) = if ahead { (rear, "ahead of") } else { (front, "behind") };
        let (Some(part), Some(other)) =
            (cx.design.parts.get(moved.part), cx.design.parts.get(if ahead { front.part } else { rear.part }))
        else {
            continue;
        };
        let gap = (moved.extent.middle() - loaded.x).abs();
        let message = format!(
            "{} and {} both sit {side} the balance point, by {} or more",
            other.label(),
            part.label(),
            show::station(gap),
        );
        let place = value_place(part);
        let new = better_place(cx, moved, ahead);
        out.push(
            NOT_STRADDLING
                .finding(place, message)
                .help(format!("place {} {new}", part.label()))
                .label(flight.name.place, balance_label(cx, flight, loaded.x))
                .label(value_place(other), "the other guide")
                .fix(format!("place it {new}"), place, new),
        );
    }
}

/// Where the guide would straddle: the rear one with its back edge at the back of its tube, the front one wholly ahead
/// of the balance point. In the language's own words.
fn better_place(cx: &Context, guide: &GuideNumbers, is_rear: bool) -> String {
    let half = guide.extent.length() / 2.0;
    if is_rear {
        return format!("{} mm from back", show::trimmed((half * 1e3).ceil(), 0));
    }
    let least = cx.assessment.airframe.calibre.map_or(0.0, |c| 0.25 * c);
    format!("{} mm ahead of balance", show::trimmed((half.max(least) * 1e3).ceil(), 0))
}
