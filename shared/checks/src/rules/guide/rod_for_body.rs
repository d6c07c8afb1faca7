//! What guides a body of this size: `guide/rod-too-thin`, `guide/wants-rail`, `guide/rail-at-hand`.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::threshold::Threshold;
use finwright_assess::clearance::made_for;
use finwright_model::{Flight, Pad, Part, Rail};
use finwright_units::{show, Dimension};

/// A thin rod under a wide body.
pub static ROD_TOO_THIN: Rule = Rule {
    name: "guide/rod-too-thin",
    level: Level::Warning,
    summary: "a rod too thin for the body's diameter",
    why: "A wide body catches more wind than a thin rod can hold upright, and a heavy one whips it as it climbs.",
    prose: "A 3 mm or 1/8 in rod does up to a body of about 56 mm; from there to about 76 mm a 6 mm or 1/4 in rod, then a rail (common practice, no source). Stiffness grows with the fourth power of a rod's diameter: twice as thick is sixteen times as stiff.",
    thresholds: &[&THIN_ROD_BODY, &THICK_ROD],
    example: Example::new("rod { diameter: 3.2 mm", "rod { diameter: 2.8 mm")
        .settings("[thresholds]\nthin_rod_body = \"20 mm\"\nthick_rod = \"3 mm\""),
    check: Some(check_rod),
};

/// A rod under a body that wants a rail.
pub static WANTS_RAIL: Rule = Rule {
    name: "guide/wants-rail",
    level: Level::Warning,
    summary: "a body so wide that it should fly from a rail",
    why: "Wind on a wide body bends a rod over; a rail is some hundred times as stiff and holds the rocket at two places.",
    prose: "From a body of about 76 mm on a rail is usual unless the rocket is light, from about 100 mm always (common practice, no source).",
    thresholds: &[&RAIL_BODY, &RAIL_BODY_ALWAYS, &LIGHT_MASS],
    example: Example::new("let caliber = 24.8 mm", "let caliber = 26 mm")
        .settings("[thresholds]\nrail_body_always = \"25 mm\""),
    check: Some(check_rail),
};

/// A rail that isn't used.
pub static RAIL_AT_HAND: Rule = Rule {
    name: "guide/rail-at-hand",
    level: Level::Note,
    summary: "a rail that would fit and isn't used",
    why: "Where a rail is at hand it gives the more predictable flight: it is stiffer, and the rocket hangs on it with less play.",
    prose: "A rail holds the rocket at two places in its slot, bends far less than a rod, and keeps the rocket from turning around it. Where the field has one and the rocket has buttons for it, it's preferred (common practice, no source).",
    thresholds: &[],
    example: Example::new("flight slotted {", "# flight slotted {"),
    check: Some(check_at_hand),
};

/// The widest body for a thin rod.
pub static THIN_ROD_BODY: Threshold =
    Threshold::new("thin_rod_body", Dimension::LENGTH, 56e-3, "the widest body for a rod thinner than `thick_rod`");
/// A thick rod.
pub static THICK_ROD: Threshold =
    Threshold::new("thick_rod", Dimension::LENGTH, 6e-3, "the thinnest rod for a body wider than `thin_rod_body`");
/// The width from which a rail is usual.
pub static RAIL_BODY: Threshold = Threshold::new(
    "rail_body",
    Dimension::LENGTH,
    76e-3,
    "the width of body from which a rail is usual, unless it's light",
);
/// The width from which a rail is a must.
pub static RAIL_BODY_ALWAYS: Threshold =
    Threshold::new("rail_body_always", Dimension::LENGTH, 97e-3, "the width of body from which a rail is a must");
/// What is light.
pub static LIGHT_MASS: Threshold =
    Threshold::new("light_mass", Dimension::MASS, 0.5, "the mass on the pad up to which a wide rocket is light");

fn check_rod(cx: &Context, out: &mut Vec<Finding>) {
    let thick = cx.limit(&THICK_ROD);
    each_rod(cx, |flight, pad, body, _| {
        let Some(Rail::Rod { diameter: Some(rod), .. }) = &pad.rail else { return };
        if body <= cx.limit(&THIN_ROD_BODY) || body >= cx.limit(&RAIL_BODY) || rod.si >= thick {
            return;
        }
        out.push(
            ROD_TOO_THIN
                .finding(
                    rod.place,
                    format!(
                        "{}'s rod is {} and the body {}; from {} on, {} or more is usual",
                        pad.name.value,
                        show::length(rod.si),
                        show::length(body),
                        show::length(cx.limit(&THIN_ROD_BODY)),
                        show::length(thick)
                    ),
                )
                .help(format!("a rod of {} with lugs to fit, or a rail", show::length(thick)))
                .label(flight.name.place, "in this flight"),
        );
    });
}

fn check_rail(cx: &Context, out: &mut Vec<Finding>) {
    each_rod(cx, |flight, pad, body, mass| {
        let always = body >= cx.limit(&RAIL_BODY_ALWAYS);
        if !always && (body < cx.limit(&RAIL_BODY) || mass.is_none_or(|mass| mass <= cx.limit(&LIGHT_MASS))) {
            return;
        }
        let from = if always { cx.limit(&RAIL_BODY_ALWAYS) } else { cx.limit(&RAIL_BODY) };
        let unless = if always { "" } else { ", unless the rocket is light" };
        let place = flight.pad.as_ref().map_or(flight.name.place, |pad| pad.place);
        out.push(
            WANTS_RAIL
                .finding(
                    place,
                    format!(
                        "{} flies a body of {} from a rod; from {} on a rail is usual{unless}",
                        flight.name.value,
                        show::length(body),
                        show::length(from)
                    ),
                )
                .help("use a rail, with two buttons that fit it")
                .label(pad.header, "a rod"),
        );
    });
}

fn check_at_hand(cx: &Context, out: &mut Vec<Finding>) {
    let on_rail = |flight: &Flight| cx.design.pad_of(flight).is_some_and(|pad| pad.rail.is_some() && !pad.has_rod());
    if cx.design.flights.iter().any(on_rail) {
        return;
    }
    let Some((rail, width)) = cx.design.pads.iter().find_map(|pad| {
        let Some(Rail::Slotted { slot: Some(slot), .. }) = &pad.rail else { return None };
        Some((pad, cx.design.sections.get(slot.value)?.width.as_ref()?.si))
    }) else {
        return;
    };
    let fits = |part: &&Part| made_for(cx.design, part).is_some_and(|made| (made - width).abs() <= 0.5e-3);
    let guides: Vec<&Part> = cx.design.parts.iter().filter(fits).collect();
    let (Some(guide), Some(flight)) = (guides.first().filter(|_| guides.len() > 1), cx.design.flights.first()) else {
        return;
    };
    out.push(
        RAIL_AT_HAND
            .finding(
                flight.pad.as_ref().map_or(flight.name.place, |pad| pad.place),
                format!(
                    "no flight uses {}, a rail that the rocket's {}s fit",
                    rail.name.value,
                    guide.word.replace('_', " ")
                ),
            )
            .help(format!(
                "try `flight on_rail {{ motor: …; pad: {}; guided_by: […] }}`; `finwright guides` compares them",
                rail.name.value
            ))
            .label(rail.header, "the rail")
            .label(guide.header, "made for it"),
    );
}

/// Every flight from a rod, once a pad, with the body's width and the mass.
fn each_rod(cx: &Context, mut visit: impl FnMut(&Flight, &Pad, f64, Option<f64>)) {
    let Some(body) = cx.assessment.calibre else { return };
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let Some(pad) = cx.design.pad_of(flight).filter(|pad| pad.has_rod()) else { continue };
        if told.contains(&pad.name.place) {
            continue;
        }
        told.push(pad.name.place);
        visit(flight, pad, body, numbers.loaded.map(|loaded| loaded.mass));
    }
}
