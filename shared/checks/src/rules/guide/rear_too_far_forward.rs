//! `guide/rear-too-far-forward`: the rear one of two guides sits far from the aft end.

use crate::common::named::value_place;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_units::{show, Dimension};

/// How far ahead of the aft end the rear one of two guides may end.
pub static REAR_GUIDE_DISTANCE: Threshold = Threshold::new(
    "rear_guide_distance",
    Dimension::CALIBRES,
    2.0,
    "how far ahead of the aft end the rear one of two guides may end",
);

/// The rule.
pub static REAR_TOO_FAR_FORWARD: Rule = Rule {
    name: "guide/rear-too-far-forward",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "the rear guide far from the aft end",
    why: "The rear guide lets go when it reaches the end, so each millimetre that it sits further forward is a \
        millimetre of rod or rail not used.",
    prose: include_str!("rear_too_far_forward.md"),
    thresholds: &[&REAR_GUIDE_DISTANCE],
    example: Example::new(
        "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back",
        "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 70 mm from back",
    ),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let (Some(calibre), Some(tail)) = (cx.assessment.airframe.calibre, cx.assessment.airframe.tail) else { return };
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(rear) = numbers.guides().last().filter(|_| numbers.guides().len() > 1) else { continue };
        let Some(part) = cx.design.parts.get(rear.part) else { continue };
        let gap = tail - rear.extent.back;
        let allowed = cx.limit(&REAR_GUIDE_DISTANCE) * calibre;
        if gap <= allowed || told.contains(&rear.part) {
            continue;
        }
        told.push(rear.part);
        let half = rear.extent.length() / 2.0;
        let nearer = format!("{} mm from back", show::trimmed((half * 1e3).ceil(), 0));
        let mut finding = REAR_TOO_FAR_FORWARD
            .finding(
                value_place(part),
                format!(
                    "{} ends {} ahead of the aft end; {} is the most for a rear one",
                    part.label(),
                    show::station(gap),
                    show::station(allowed)
                ),
            )
            .label(flight.name.place, "in this flight");
        // Only a part of the last stretch can be moved right to the aft end.
        let parent = part.parent.and_then(|p| cx.parts().extent(p));
        if parent.is_some_and(|p| (p.back - tail).abs() < 1e-9) && part.at.is_some() {
            finding = finding.help(format!("place it {nearer}, or as near as fins and motor hook allow")).fix(
                format!("place it {nearer}"),
                value_place(part),
                nearer,
            );
        } else {
            finding = finding.help("place it on the last tube, near its back");
        }
        out.push(finding);
    }
}
