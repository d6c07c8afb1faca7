//! `mount/too-wide-for-tube` and `mount/recessed`: a mount that doesn't go into its tube, or sits too deep in it.

use crate::common::rounded::{down, mm, up, SLIDES, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::stage::touching_circle;
use finwright_assess::Parts;
use finwright_model::fit::SAME;
use finwright_model::{Amount, Extent, PartId, PartKind};
use finwright_units::{show, Dimension};

/// How deep the motor's end may lie in the tube.
pub static RECESS: Threshold =
    Threshold::new("recess", Dimension::CALIBRES, 1.0, "how deep inside the aft end the motor's nozzle may end");

/// Wider than the tube.
pub static TOO_WIDE_FOR_TUBE: Rule = Rule {
    name: "mount/too-wide-for-tube",
    family: Family::Mount,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "a mount wider than the inside of its tube",
    why: "It doesn't go in, so the rocket can't be built like this.",
    prose: include_str!("too_wide_for_tube.md"),
    thresholds: &[],
    example: Example::new("bore: 18 mm; outer: 18.8 mm", "bore: 18 mm; outer: 24.6 mm"),
    check: Some(check_width),
};

/// Deep inside.
pub static RECESSED: Rule = Rule {
    name: "mount/recessed",
    family: Family::Mount,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Warning,
    summary: "a motor deep inside the tube",
    why: "The jet draws air in through the tube's end and loses thrust, and it scorches the tube that it should leave.",
    prose: include_str!("recessed.md"),
    thresholds: &[&RECESS],
    example: Example::new("length: 70 mm; sticks_out: 5 mm", "length: 70 mm; at: 40 mm from back"),
    check: Some(check_recess),
};

fn check_width(cx: &Context, out: &mut Vec<Finding>) {
    for (id, part) in cx.design.parts.iter().enumerate() {
        let PartKind::Mount { outer: Some(outer), bore, motors, circle, .. } = &part.kind else { continue };
        let Some(parent) = part.parent.and_then(|p| Some((p, cx.design.parts.get(p)?))) else { continue };
        let Some((inside, place)) = inside(cx.parts(), parent.0, cx.parts().extent(id)) else { continue };
        let count = motors.as_ref().map_or(1.0, |m| m.si);
        let circle = circle.as_ref().filter(|_| count > 1.0);
        let across = outer.si + circle.map_or(0.0, |c| c.si);
        if across <= inside + SAME {
            continue;
        }
        let [wide, room] = show::lengths_apart(across, inside);
        let finding = TOO_WIDE_FOR_TUBE
            .finding(
                circle.map_or(outer.place, |c| c.place),
                format!("{} is {wide} across and {} is {room} inside", part.label(), parent.1.label()),
            )
            .label(place, format!("{room} inside"));
        out.push(match circle {
            Some(circle) => narrower_circle(finding, circle, outer, count, inside),
            None => thinner(finding, outer, bore.as_ref(), inside),
        });
    }
}

/// A thinner wall, where the motor still fits in it.
fn thinner(finding: Finding, outer: &Amount, bore: Option<&Amount>, inside: f64) -> Finding {
    let wanted = down(inside - SLIDES, TENTH);
    match bore {
        Some(bore) if wanted >= bore.si + 2.0 * SLIDES => finding
            .help(format!("an outside of {} slides in, or take a wider tube", mm(wanted)))
            .fix(format!("make the mount's outside {}", mm(wanted)), outer.place, mm(wanted)),
        _ => finding
            .help(format!("take a tube of {} or more inside, or a smaller motor", mm(up(outer.si + SLIDES, TENTH)))),
    }
}

/// A smaller circle, where the mounts still have room beside each other.
fn narrower_circle(finding: Finding, circle: &Amount, outer: &Amount, count: f64, inside: f64) -> Finding {
    let wanted = down(inside - outer.si, TENTH);
    let touching = touching_circle(outer.si, count);
    if wanted >= touching {
        finding.help(format!("a circle of {} fits", mm(wanted))).fix(
            format!("make the circle {}", mm(wanted)),
            circle.place,
            mm(wanted),
        )
    } else {
        let least = touching + outer.si;
        finding.help(format!("{count} mounts side by side need a tube of {} or more inside", mm(up(least, TENTH))))
    }
}

/// The width inside a stretch of the airframe where a mount stands in it, with the place that says it.
fn inside(parts: Parts, id: PartId, mount: Option<Extent>) -> Option<(f64, finwright_grammar::Place)> {
    match &parts.part(id)?.kind {
        PartKind::Tube { inner: Some(inner), .. } => Some((inner.si, inner.place)),
        // Straight or curved, a taper is narrowest at an end of the stretch that the mount fills.
        PartKind::Taper { wall: Some(wall), back: Some(back), .. } => {
            let mount = mount?;
            let narrowest = parts.radius(id, mount.front)?.min(parts.radius(id, mount.back)?);
            Some((2.0 * (narrowest - wall.si), back.place))
        }
        _ => None,
    }
}

fn check_recess(cx: &Context, out: &mut Vec<Finding>) {
    for (id, part) in cx.design.parts.iter().enumerate() {
        let PartKind::Mount { sticks_out, length, .. } = &part.kind else { continue };
        let Some(own) = cx.parts().extent(id) else { continue };
        let last = cx.parts().all().filter(|(_, p)| p.is_body() && p.stage == part.stage).last();
        let Some((body, body_part)) = last else { continue };
        let Some(end) = cx.parts().extent(body) else { continue };
        let Some(width) = cx.parts().body(body).map(|body| 2.0 * body.section.aft_radius()) else { continue };
        let deep = end.back - own.back - sticks_out.as_ref().map_or(0.0, |s| s.si);
        if deep <= cx.limit(&RECESS) * width + SAME {
            continue;
        }
        let place = part.at.as_ref().map_or_else(|| length.as_ref().map_or(part.header, |l| l.place), |at| at.place);
        let mut finding = RECESSED
            .finding(
                place,
                format!(
                    "the motor in {} ends {} inside the aft end, {} body diameters",
                    part.label(),
                    show::station(deep),
                    show::number(deep / width)
                ),
            )
            .help("put the mount at the aft end of the last stretch: `at: 0 mm from back`")
            .label(body_part.header, "the last stretch of the body");
        let in_last = part.parent == Some(body);
        if let Some(at) = part.at.as_ref().filter(|_| in_last) {
            finding = finding.fix("put the mount at the aft end", at.place, "0 mm from back");
        }
        out.push(finding);
    }
}
