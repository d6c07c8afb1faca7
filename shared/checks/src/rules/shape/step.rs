//! `shape/step`: neighbouring stretches of the airframe that don't meet.

use crate::common::limits::STEP;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::fit::SAME;
use finwright_model::{Amount, Part, PartKind, Stage};
use finwright_units::show;

/// The rule.
pub static STEP_RULE: Rule = Rule {
    name: "shape/step",
    family: Family::Shape,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a step in the airframe's diameter",
    why: "A step drags and whistles, and usually one of the two diameters is copied wrong.",
    prose: include_str!("step.md"),
    thresholds: &[&STEP],
    example: Example::new("length: 70 mm; base: caliber", "length: 70 mm; base: 22.8 mm"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let bodies: Vec<&Part> = cx.design.parts.iter().filter(|part| part.is_body()).collect();
    for pair in bodies.windows(2) {
        let [ahead, behind] = pair else { continue };
        let (Some(end), Some(start)) = (back_of(ahead), front_of(behind)) else { continue };
        if (end.si - start.si).abs() <= cx.limit(&STEP) + SAME {
            continue;
        }
        // A tube's diameter is what one buys, so the nose or the taper is made to follow it.
        let behind_follows =
            matches!(behind.kind, PartKind::Taper { .. }) && !matches!(ahead.kind, PartKind::Taper { .. });
        let behind_follows = behind_follows && !matches!(ahead.kind, PartKind::Nose { .. });
        let (wrong, right, follows, leads) =
            if behind_follows { (start, end, *behind, *ahead) } else { (end, start, *ahead, *behind) };
        let joint = if ahead.stage == Stage::Upper && behind.stage == Stage::Booster { " of the booster" } else { "" };
        let finding = STEP_RULE
            .finding(
                wrong.place,
                format!(
                    "{} ends {} wide and {}{joint} begins {} wide: a step of {}",
                    ahead.label(),
                    show::length(end.si),
                    behind.label(),
                    show::length(start.si),
                    show::length((end.si - start.si).abs())
                ),
            )
            .label(right.place, format!("{} here", show::length(right.si)));
        let two_tubes = matches!((&ahead.kind, &behind.kind), (PartKind::Tube { .. }, PartKind::Tube { .. }));
        out.push(if two_tubes {
            finding.help("put a taper between them, or make both tubes of one diameter")
        } else {
            let (text, place) = (value_of(cx, right), wrong.place);
            finding
                .help(format!(
                    "make {} {} there, as {} is, or put a taper between",
                    follows.label(),
                    show::length(right.si),
                    leads.label()
                ))
                .fix(format!("make it {}", show::length(right.si)), place, text)
        });
    }
}

/// The value as it's written where it can be repeated, else as a number: a name stays a name, and follows its changes.
fn value_of(cx: &Context, amount: &Amount) -> String {
    let text = cx.design.text(amount.place).trim();
    let is_own = amount.place.file == finwright_grammar::FileId(0);
    if is_own && !text.is_empty() && !text.contains('\n') {
        text.to_string()
    } else {
        crate::common::rounded::mm(amount.si)
    }
}

fn back_of(part: &Part) -> Option<&Amount> {
    match &part.kind {
        PartKind::Nose { base, .. } => base.as_ref(),
        PartKind::Tube { outer, .. } => outer.as_ref(),
        PartKind::Taper { back, .. } => back.as_ref(),
        _ => None,
    }
}

fn front_of(part: &Part) -> Option<&Amount> {
    match &part.kind {
        PartKind::Tube { outer, .. } => outer.as_ref(),
        PartKind::Taper { front, .. } => front.as_ref(),
        _ => None,
    }
}
