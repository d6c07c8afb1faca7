//! `pad/joint-snags`: a two-piece rod whose joint a lug doesn't pass.

use crate::common::guides::each_guide;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::fit::{slides, LEAST_CLEARANCE};
use finwright_model::{PartKind, Rail};
use finwright_units::show;

/// The rule.
pub static JOINT_SNAGS: Rule = Rule {
    name: "pad/joint-snags",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "a two-piece rod whose joint a lug doesn't pass",
    why: "A lug that catches at the joint holds a burning rocket on the pad, or tears off.",
    prose: "The two pieces of a rod join in a sleeve or by a thread. A sleeve is wider than the rod, and a thread that \
        isn't home leaves an edge; a lug slides over it only where its bore is wider still. Run the lug along the whole \
        rod by hand, both ways, before every launch.",
    thresholds: &[],
    example: Example::new("joint: 500 mm; joint_step: 0.1 mm", "joint: 500 mm; joint_step: 0.6 mm").after(&[(
        "length: 1 m; material: steel",
        "length: 1 m; joint: 500 mm; joint_step: 0.1 mm; material: steel",
    )]),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    each_guide(cx, |flight, pad, named, part| {
        let (PartKind::Lug { bore: Some(bore), .. }, Some(Rail::Rod { diameter: Some(rod), joint: Some(joint), .. })) =
            (&part.kind, &pad.rail)
        else {
            return;
        };
        let Some(step) = &joint.step else { return };
        let joint = rod.si + step.si;
        let key = (pad.name.place, named.value);
        // A lug that is too tight for the rod itself is told as that.
        if slides(bore.si, joint) || !slides(bore.si, rod.si) || told.contains(&key) {
            return;
        }
        told.push(key);
        let wide = format!("{} mm", show::trimmed(((joint + LEAST_CLEARANCE) * 1e4 - 1e-6).ceil() / 10.0, 1));
        out.push(
            JOINT_SNAGS
                .finding(
                    step.place,
                    format!(
                        "{} with its bore of {} doesn't pass {}'s joint of {}",
                        part.label(),
                        show::length(bore.si),
                        pad.name.value,
                        show::length(joint)
                    ),
                )
                .label(bore.place, "the bore")
                .label(flight.name.place, "in this flight")
                .help(format!("file the joint flush, or use a lug of {wide} or more; then slide it along by hand")),
        );
    });
}
