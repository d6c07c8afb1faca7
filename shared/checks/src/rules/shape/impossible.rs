//! Measures that contradict each other: `shape/no-wall`, `shape/ogive-too-short`, `motor/propellant-exceeds-mass`.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use finwright_model::{Amount, Part, PartKind};
use finwright_units::show;

/// A tube whose inside is as wide as its outside.
pub static NO_WALL: Rule = Rule {
    name: "shape/no-wall",
    level: Level::Error,
    summary: "a tube whose inside is as wide as its outside",
    why: "A tube without a wall can't be built, so its mass isn't known.",
    prose:
        "A tube's outer diameter is its inner one plus twice the wall. The two are easily swapped when they are copied.",
    thresholds: &[],
    example: Example::new("inner: 24 mm", "inner: 25 mm"),
    check: Some(check_walls),
};

/// An ogive shorter than its base's radius.
pub static OGIVE_TOO_SHORT: Rule = Rule {
    name: "shape/ogive-too-short",
    level: Level::Error,
    summary: "an ogive nose shorter than half its base",
    why: "A circular arc that meets the tube without a kink needs that length at least; a shorter one has no such shape.",
    prose: "An ogive's side is a circular arc that runs into the tube smoothly. As long as half the base it is a hemisphere. For a blunter nose use `ellipsoid`.",
    thresholds: &[],
    example: Example::new("length: 70 mm; base: caliber", "length: 10 mm; base: caliber"),
    check: Some(check_ogives),
};

/// A motor lighter than its propellant.
pub static PROPELLANT_EXCEEDS_MASS: Rule = Rule {
    name: "motor/propellant-exceeds-mass",
    level: Level::Error,
    summary: "a motor that weighs no more than its propellant",
    why: "The mass is that of the whole motor, propellant included; with the two swapped every number of the flight is off.",
    prose: "A motor's data give its mass before it burns and the mass of the propellant in it. The case, nozzle and delay are the difference.",
    thresholds: &[],
    example: Example::new("propellant: 5.6 g", "propellant: 56 g"),
    check: Some(check_motors),
};

fn check_walls(cx: &Context, out: &mut Vec<Finding>) {
    for part in &cx.design.parts {
        let (outer, inner) = match &part.kind {
            PartKind::Tube { outer, inner, .. } | PartKind::Coupler { outer, inner, .. } => (outer, inner),
            PartKind::Mount { outer, bore, .. } => (outer, bore),
            _ => continue,
        };
        if let (Some(outer), Some(inner)) = (outer, inner) {
            if inner.si >= outer.si {
                out.push(no_wall(part, outer, inner));
            }
        }
    }
}

fn no_wall(part: &Part, outer: &Amount, inner: &Amount) -> Finding {
    NO_WALL
        .finding(
            inner.place,
            format!("{} is {} inside and {} outside", part.label(), show::length(inner.si), show::length(outer.si)),
        )
        .help(format!("the inside must be less than {}", show::length(outer.si)))
        .label(outer.place, "the outside")
}

fn check_ogives(cx: &Context, out: &mut Vec<Finding>) {
    for part in &cx.design.parts {
        let PartKind::Nose { shape: Some(shape), length: Some(length), base: Some(base), .. } = &part.kind else {
            continue;
        };
        if shape.word == "ogive" && length.si < base.si / 2.0 {
            out.push(
                OGIVE_TOO_SHORT
                    .finding(
                        length.place,
                        format!(
                            "an ogive of {} on a base of {} doesn't exist",
                            show::length(length.si),
                            show::length(base.si)
                        ),
                    )
                    .help(format!("{} or more, or another shape such as `ellipsoid`", show::length(base.si / 2.0)))
                    .label(shape.place, "the shape")
                    .label(base.place, "the base")
                    .fix("make it an ellipsoid", shape.place, "ellipsoid"),
            );
        }
    }
}

fn check_motors(cx: &Context, out: &mut Vec<Finding>) {
    for motor in &cx.design.motors {
        let (Some(mass), Some(propellant)) = (&motor.mass, &motor.propellant) else { continue };
        if propellant.si >= mass.si {
            out.push(
                PROPELLANT_EXCEEDS_MASS
                    .finding(
                        propellant.place,
                        format!(
                            "{} weighs {} and its propellant {}",
                            motor.name.value,
                            show::mass(mass.si),
                            show::mass(propellant.si)
                        ),
                    )
                    .help("copy both again: `mass` is the whole motor before it burns")
                    .label(mass.place, "the whole motor"),
            );
        }
    }
}
