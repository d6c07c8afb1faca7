//! `field/too-small`: a field smaller than the chosen code asks for.

use crate::common::code::{each, ROOM};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::field_rules::{Limited, Standing};

/// Too small a field.
pub static TOO_SMALL: Rule = Rule {
    name: "field/too-small",
    family: Family::Field,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a field smaller than the chosen code asks for",
    why: "On a small field the rocket comes down among roads, houses and people.",
    prose: include_str!("too_small.md"),
    thresholds: &[],
    example: Example::new("across: 300 m", "across: 50 m").after(ROOM).settings("code = \"us-model\""),
    check: Some(too_small),
};

fn too_small(cx: &Context, out: &mut Vec<Finding>) {
    each(cx, Standing::Exceeded, |against| {
        let across = against.site.and_then(|site| site.across.as_ref());
        if against.limit.what == Limited::Field {
            out.push(against.told(&TOO_SMALL, across.map(|a| a.place)));
        }
    });
}
