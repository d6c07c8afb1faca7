//! `field/people-too-close`: people nearer to the pad than the chosen code asks for.

use crate::common::code::{each, ROOM};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::field_rules::Standing;

/// People too near.
pub static PEOPLE_TOO_CLOSE: Rule = Rule {
    name: "field/people-too-close",
    family: Family::Field,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "people nearer to the pad than the chosen code asks for",
    why: "A motor that bursts or a rocket that turns reaches people who stand too near before they can move.",
    prose: include_str!("people_too_close.md"),
    thresholds: &[],
    example: Example::new("people: 12 m", "people: 3 m").after(ROOM).settings("code = \"us-model\""),
    check: Some(people_too_close),
};

fn people_too_close(cx: &Context, out: &mut Vec<Finding>) {
    each(cx, Standing::Exceeded, |against| {
        let people = against.site.and_then(|site| site.people.as_ref());
        if against.limit.what.is_of_people() {
            let finding = against.told(&PEOPLE_TOO_CLOSE, people.map(|p| p.place));
            let least = format!("{} m", (against.limit.asked * 10.0 - 1e-6).ceil() / 10.0);
            out.push(finding.fix_amount(format!("stand back {least}"), people, least));
        }
    });
}
