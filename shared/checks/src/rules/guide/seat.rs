//! Where a guide is fixed: `guide/on-taper`, `guide/across-joint`, `guide/no-backing`, `guide/screw-too-long`,
//! `guide/stick-on-heavy`.

use super::not_straddling::value_place;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::threshold::Threshold;
use finwright_assess::seat::solid_stations;
use finwright_assess::{FlightNumbers, GuideNumbers, Seat};
use finwright_model::{Flight, Part, PartId, PartKind};
use finwright_units::{show, Dimension};

/// On a cone.
pub static ON_TAPER: Rule = Rule {
    name: "guide/on-taper",
    level: Level::Warning,
    summary: "a guide on a taper",
    why: "On a surface that leans, a guide doesn't point along the rocket, and it wedges on the rod or rail.",
    prose: "Guides sit on a straight stretch of the body. On a taper one end of the guide is further from the axis than the other. If it must be there, a wedge under it brings it parallel to the axis, and then the standoff is that of its nearer end.",
    thresholds: &[],
    example: Example::new(
        "  }\n}\nmotor b8 {",
        "  }\n  taper { length: 60 mm; front: caliber; back: 22 mm; material: balsa\n    lug tail { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 30 mm from front; clock: 60 deg }\n  }\n}\nflight three { motor: b8; pad: stand; guided_by: [tail, fore]; site: meadow }\nmotor b8 {",
    ),
    check: Some(|cx, out| each(cx, out, on_taper)),
};

/// Over the edge of its tube.
pub static ACROSS_JOINT: Rule = Rule {
    name: "guide/across-joint",
    level: Level::Warning,
    summary: "a guide that reaches beyond its stretch of the body",
    why: "A guide across a joint holds two parts together that come apart in flight or in the workshop, and beyond an end it has nothing to hold on to.",
    prose: "Nose and tube part at ejection; two tubes may be taken apart. A guide belongs wholly on one of them. At the aft end a guide that stands over hangs in the hot gas.",
    thresholds: &[],
    example: Example::new(
        "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back",
        "lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 4 mm from back",
    ),
    check: Some(|cx, out| each(cx, out, across_joint)),
};

/// A button screwed into nothing but the wall.
pub static NO_BACKING: Rule = Rule {
    name: "guide/no-backing",
    level: Level::Warning,
    summary: "a button on a heavy rocket with nothing behind the wall",
    why: "A screw through a thin wall alone tears out when the rocket is lifted onto the rail or a gust takes it.",
    prose: "Buttons are strongest with a screw through the wall into something solid: a ring of the motor mount, a coupler, a bulkhead, a small block glued in (common practice, no source). On a light rocket the wall and a washer do. Once you have pulled on the finished button with a spring balance, give the force as `bears`, and this rule is content.",
    thresholds: &[&BACKING_MASS],
    example: Example::new(
        "button peg { profile: 15 mm; at: 3 mm from back; clock: 180 deg }",
        "button peg { profile: 15 mm; at: 30 mm from back; clock: 180 deg }",
    )
    .after(&[("button peg { profile: 15 mm; at: 12 mm from back", "button peg { profile: 15 mm; at: 3 mm from back"), ("cord {", "coupler { length: 24 mm; outer: 23.9 mm; inner: 22.5 mm; material: cardboard; at: 95 mm from front }\n    cord {")])
    .settings("[thresholds]\nbacking_mass = \"40 g\""),
    check: Some(|cx, out| each(cx, out, no_backing)),
};

/// A screw that reaches the mount.
pub static SCREW_TOO_LONG: Rule = Rule {
    name: "guide/screw-too-long",
    level: Level::Error,
    summary: "a button's screw that reaches the motor mount",
    why: "A screw that dents the mount keeps the motor out, or cuts into its case.",
    prose: "Between the body and the mount there is the room of half their difference in diameter. Screw, washer and nut must end before it, or the button goes where a ring is.",
    thresholds: &[],
    example: Example::new(
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg; screw: 2.5 mm }",
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg; screw: 6 mm }",
    )
    .after(&[(
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg }",
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg; screw: 2.5 mm }",
    )]),
    check: Some(|cx, out| each(cx, out, screw_too_long)),
};

/// A stuck shoe on a heavy rocket.
pub static STICK_ON_HEAVY: Rule = Rule {
    name: "guide/stick-on-heavy",
    level: Level::Warning,
    summary: "stick-on guides on a heavy rocket",
    why: "What is only stuck on comes off with the paint under it; a screw has to break the wall first.",
    prose: "Stick-on rail guides are for light rockets. From about a kilogram on, buttons with a screw through the wall and something solid behind it are stronger (common practice, no source).",
    thresholds: &[&STICK_ON_MASS],
    example: Example::new("button nut { profile: 15 mm;", "rail_guide nut { profile: 15 mm; length: 30 mm;").settings("[thresholds]\nstick_on_mass = \"40 g\""),
    check: Some(|cx, out| each(cx, out, stick_on_heavy)),
};

/// From this mass on a button wants something solid behind the wall.
pub static BACKING_MASS: Threshold = Threshold::new(
    "backing_mass",
    Dimension::MASS,
    0.5,
    "the mass on the pad from which a button wants something solid behind the wall",
);

/// The heaviest rocket for stick-on guides.
pub static STICK_ON_MASS: Threshold =
    Threshold::new("stick_on_mass", Dimension::MASS, 1.0, "the greatest mass on the pad for stick-on rail guides");

/// A guide where it sits, in a flight.
struct Seated<'a> {
    flight: &'a Flight,
    numbers: &'a FlightNumbers,
    part: &'a Part,
    guide: &'a GuideNumbers,
    seat: Seat,
}

fn each(cx: &Context, out: &mut Vec<Finding>, check: fn(&Context, &Seated) -> Option<Finding>) {
    let mut told: Vec<PartId> = Vec::new();
    for (flight, numbers) in cx.flights() {
        for guide in &numbers.guides {
            let (Some(part), Some(seat)) = (cx.design.parts.get(guide.part), guide.seat) else { continue };
            if told.contains(&guide.part) {
                continue;
            }
            if let Some(finding) = check(cx, &Seated { flight, numbers, part, guide, seat }) {
                told.push(guide.part);
                out.push(finding.label(flight.name.place, "in this flight"));
            }
        }
    }
}

fn on_taper(cx: &Context, seated: &Seated) -> Option<Finding> {
    let on = cx.design.parts.get(seated.seat.on).filter(|_| seated.seat.on_taper)?;
    Some(
        ON_TAPER
            .finding(seated.part.header, format!("{} sits on {}", seated.part.label(), on.label()))
            .help("move it onto a tube, or put a wedge under it that brings it parallel to the axis")
            .label(on.header, "the taper"),
    )
}

fn across_joint(cx: &Context, seated: &Seated) -> Option<Finding> {
    let (over, at_front) = seated.seat.over_edge?;
    let on = cx.design.parts.get(seated.seat.on)?;
    let edge = if at_front { "front" } else { "back" };
    let half = (seated.guide.extent.length() * 0.5e3).ceil();
    let place = format!("{half} mm from {edge}");
    let finding = ACROSS_JOINT
        .finding(
            value_place(seated.part),
            format!("{} reaches {} beyond the {edge} of {}", seated.part.label(), show::length(over), on.label()),
        )
        .help(format!("place its middle {place} or further in"))
        .label(on.header, "what it sits on");
    Some(match &seated.part.at {
        Some(at) => finding.fix(format!("place it {place}"), at.place, place),
        None => finding,
    })
}

fn no_backing(cx: &Context, seated: &Seated) -> Option<Finding> {
    let mass = seated.numbers.loaded?.mass;
    let is_button = matches!(seated.part.kind, PartKind::Button { .. });
    // What a test of the built thing says about it outranks a guess from its place.
    let is_held = seated.seat.backing.is_some() || seated.part.bears.is_some();
    if !is_button || mass < cx.limit(&BACKING_MASS) || is_held {
        return None;
    }
    let middle = seated.guide.extent.middle();
    let near = solid_stations(cx.design, cx.assessment, seated.seat.on)
        .into_iter()
        .min_by(|(a, _), (b, _)| (a - middle).abs().total_cmp(&(b - middle).abs()));
    let help = match near {
        Some((station, part)) if (station - middle).abs() < 0.15 => format!(
            "{} is {} from there, {} from the tip; or glue a block behind the wall, pull on it, and give what it `bears`",
            cx.design.parts.get(part).map_or(String::new(), Part::label),
            show::length((station - middle).abs()),
            show::station(station)
        ),
        _ => "move it to where a ring or coupler is; or glue a block behind the wall, pull on it, and give what it `bears`".to_string(),
    };
    Some(
        NO_BACKING
            .finding(
                value_place(seated.part),
                format!("{} is screwed into the bare wall of a rocket of {}", seated.part.label(), show::mass(mass)),
            )
            .help(help),
    )
}

fn screw_too_long(_: &Context, seated: &Seated) -> Option<Finding> {
    let PartKind::Button { screw: Some(screw), .. } = &seated.part.kind else { return None };
    let depth = seated.seat.depth.filter(|_| seated.seat.backing.is_none())?;
    if screw.si <= depth {
        return None;
    }
    let room = format!("{} mm", show::trimmed((depth * 1e4).floor() / 10.0, 1));
    Some(
        SCREW_TOO_LONG
            .finding(
                screw.place,
                format!(
                    "{}'s screw reaches {} inward, and the mount begins {} from the outside",
                    seated.part.label(),
                    show::length(screw.si),
                    show::length(depth)
                ),
            )
            .help(format!("{room} of screw and nut, or place the button over a ring"))
            .fix(format!("shorten it to {room}"), screw.place, room),
    )
}

fn stick_on_heavy(cx: &Context, seated: &Seated) -> Option<Finding> {
    let mass = seated.numbers.loaded?.mass;
    let is_stuck = matches!(seated.part.kind, PartKind::RailGuide { .. });
    // The frontmost stands for all of a flight.
    let is_first = seated.numbers.guides.first().is_some_and(|first| first.part == seated.guide.part);
    (is_stuck && is_first && mass > cx.limit(&STICK_ON_MASS)).then(|| {
        STICK_ON_HEAVY
            .finding(
                seated.part.header,
                format!("{} holds a rocket of {} by its bond alone", seated.part.label(), show::mass(mass)),
            )
            .help(format!(
                "use buttons with a screw into something solid; stick-on guides do up to about {}",
                show::mass(cx.limit(&STICK_ON_MASS))
            ))
            .label(seated.flight.header, "it flies here")
    })
}
