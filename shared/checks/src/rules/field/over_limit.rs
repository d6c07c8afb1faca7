//! `field/over-limit`: a flight beyond what the chosen code allows.

use crate::common::code::{each, short_name_of, ROOM};
use crate::common::deferred;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::field_rules::{density, structural, Limited, Standing};
use finwright_model::{Design, Part};
use finwright_units::show;

/// Beyond what a code allows.
pub static OVER_LIMIT: Rule = Rule {
    name: deferred::OVER_LIMIT,
    family: Family::Field,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Error,
    summary: "a flight beyond what the chosen code allows",
    why: "The code holds for the field, and the range safety officer won't let it fly.",
    prose: include_str!("over_limit.md"),
    thresholds: &[],
    example: Example::new(
        "material: steel }; stop: 50 mm; tilt: 2 deg",
        "material: steel }; stop: 50 mm; tilt: 32 deg",
    )
    .after(ROOM)
    .settings("code = \"us-model\""),
    check: Some(over_limit),
};

fn over_limit(cx: &Context, out: &mut Vec<Finding>) {
    each(cx, Standing::Exceeded, |against| {
        let (what, flight) = (against.limit.what, against.flight);
        if what == Limited::Field || what.is_of_people() {
            return;
        }
        let motor = || flight.motor.as_ref().map(|motor| motor.place);
        let place = match what {
            Limited::Tilt => cx.design.pad_of(flight).and_then(|pad| pad.tilt.as_ref()).map(|tilt| tilt.place),
            Limited::Wind => against.site.and_then(|site| site.wind.as_ref()).map(|wind| wind.place),
            Limited::Metal => heaviest(cx.design).map(|(part, _)| part.header),
            _ => motor(),
        };
        let mut finding = against.told(&OVER_LIMIT, place);
        if let Some((part, density)) = heaviest(cx.design).filter(|_| what == Limited::Metal) {
            finding.message = format!(
                "{} is as dense as metal ({}), against {}",
                part.label(),
                show::quantity(density, what.dimension()),
                short_name_of(against.code)
            );
            finding = match &part.material {
                Some(material) => finding.label(material.place, "what it's made of"),
                None => finding,
            };
        }
        if matches!(what, Limited::MotorImpulse | Limited::MotorThrust | Limited::MotorPropellant) {
            finding.help += "; above it a motor is high power, with that code and its distances";
        }
        out.push(finding);
    });
}

/// The densest of nose, body and fins.
fn heaviest(design: &Design) -> Option<(&Part, f64)> {
    let all = structural(design).filter_map(|(_, part)| Some((part, density(design, part)?)));
    all.max_by(|a, b| a.1.total_cmp(&b.1))
}
