//! `guide/not-in-line`: two guides that aren't in one line along the body.

use crate::common::guides::set_standoff;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::flight::clearance::GuideLine;
use finwright_model::Part;
use finwright_units::{show, Dimension};

/// How far two guides may be off one line.
pub static LINE_OFFSET: Threshold =
    Threshold::new("line_offset", Dimension::LENGTH, 0.5e-3, "how far two guides may be off one line along the body");

/// The rule.
pub static NOT_IN_LINE: Rule = Rule {
    name: "guide/not-in-line",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "guides that aren't in one line along the body",
    why: "Two guides off one line wedge on the rod or rail, or can't be put on it at all.",
    prose: include_str!("not_in_line.md"),
    thresholds: &[&LINE_OFFSET],
    example: Example::new("at: 12 mm from back; clock: 60 deg", "at: 12 mm from back; clock: 180 deg"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(clearance) = &numbers.clearance else { continue };
        let (Some(first), Some(last)) = (clearance.guides.first(), clearance.guides.last()) else { continue };
        let (Some(front), Some(rear)) = (cx.design.parts.get(first.part), cx.design.parts.get(last.part)) else {
            continue;
        };
        if first.part == last.part || told.contains(&(first.part, last.part)) {
            continue;
        }
        told.push((first.part, last.part));
        let found = [turned(cx, (first, front), (last, rear)), held_off(cx, (first, front), (last, rear))];
        out.extend(
            found.into_iter().flatten().map(|finding| finding.label(flight.name.place, "they guide this flight")),
        );
    }
}

fn turned(cx: &Context, (first, front): (&GuideLine, &Part), (last, rear): (&GuideLine, &Part)) -> Option<Finding> {
    use std::f64::consts::PI;
    let off = (first.clock? - last.clock? + PI).rem_euclid(2.0 * PI) - PI;
    if (off * first.distance).abs() <= cx.limit(&LINE_OFFSET) {
        return None;
    }
    let (theirs, own) = (front.clock.as_ref()?, rear.clock.as_ref()?);
    let text = cx.design.text(theirs.place).to_string();
    let message = format!(
        "{} stands at {} around the body and {} at {}",
        rear.label(),
        show::angle(own.si),
        front.label(),
        show::angle(theirs.si)
    );
    Some(
        NOT_IN_LINE
            .finding(own.place, message)
            .help(format!("turn it to {text}, or turn the other"))
            .label(theirs.place, "the other guide")
            .fix(format!("turn it to {text}"), own.place, text),
    )
}

fn held_off(cx: &Context, (first, front): (&GuideLine, &Part), (last, rear): (&GuideLine, &Part)) -> Option<Finding> {
    let off = first.distance - last.distance;
    if off.abs() <= cx.limit(&LINE_OFFSET) {
        return None;
    }
    let (near, far, own) = if off > 0.0 { (rear, front, last) } else { (front, rear, first) };
    let other = if off > 0.0 { first } else { last };
    let standoff = (near.standoff().map_or(0.0, |s| s.si) + off.abs()) * 1e3;
    let text = format!("{} mm", show::trimmed(standoff, 1));
    let finding = NOT_IN_LINE
        .finding(
            near.header,
            format!(
                "{} holds the rocket {} from its axis and {} {}",
                near.label(),
                show::length(own.distance),
                far.label(),
                show::length(other.distance)
            ),
        )
        .help(format!("give {} a `standoff` of {text}", near.label()))
        .label(far.header, "the other guide");
    // Copies of one block stand off alike.
    if near.header == far.header {
        return Some(finding);
    }
    Some(finding.fix_all(format!("hold it off by {text}"), set_standoff(near, &text)))
}
