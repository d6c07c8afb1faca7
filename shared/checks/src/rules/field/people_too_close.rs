//! `field/people-too-close`: people nearer to the pad than the chosen code asks for.

use super::code::{each_exceeded, told, ROOM};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};

/// People too near.
pub static PEOPLE_TOO_CLOSE: Rule = Rule {
    name: "field/people-too-close",
    family: Family::Field,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "people nearer to the pad than the chosen code asks for",
    why: "A motor that bursts or a rocket that turns reaches people who stand too near before they can move.",
    prose: "Codes ask for a distance by the motor's total impulse, and a greater one for clusters and stages. Stand back as far as the code says, and further for a first flight.",
    thresholds: &[],
    example: Example::new("people: 12 m", "people: 3 m").after(ROOM).settings("code = \"us-model\""),
    check: Some(people_too_close),
};

fn people_too_close(cx: &Context, out: &mut Vec<Finding>) {
    each_exceeded(cx, |flight, site, limit, code| {
        let people = site.and_then(|site| site.people.as_ref());
        if limit.what.is_of_people() {
            let finding = told(&PEOPLE_TOO_CLOSE, flight, people.map(|p| p.place), limit, code);
            let least = format!("{} m", (limit.limit * 10.0 - 1e-6).ceil() / 10.0);
            out.push(finding.fix_amount(format!("stand back {least}"), people, least));
        }
    });
}
