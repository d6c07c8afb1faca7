//! `shape/thick-wall`: a wall that is thicker than there is room for.

use crate::common::misfit;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_units::show;

/// The rule.
pub static THICK_WALL: Rule = Rule {
    name: "shape/thick-wall",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a wall as thick as the radius, or thicker",
    why: "There is no room for such a wall, so the part's mass isn't known.",
    prose: include_str!("thick_wall.md"),
    thresholds: &[],
    example: Example::new("base: caliber; material: basswood", "base: caliber; wall: 15 mm; material: basswood"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let Fault::ThickWall { wall, radius } = misfit.fault else { return None };
        let [thick, half] = show::lengths_apart(wall, radius);
        let message = format!("{} has a wall of {thick}, and its radius is {half}", part.label());
        let help = format!("a wall of less than {half}, or none for a solid {}", part.word);
        Some(THICK_WALL.finding(misfit.place, message).help(help))
    });
}
