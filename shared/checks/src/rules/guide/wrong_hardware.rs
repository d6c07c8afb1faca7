//! `guide/wrong-hardware`, `guide/tight-fit` and `guide/loose-fit`: guides that don't go with what stands on the pad.

use crate::common::guides::each_guide;
use crate::common::limits::LUG_PLAY;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::fit::{is_loose, is_same_section, slides};
use finwright_grammar::Place;
use finwright_model::{Flight, Named, PartId, PartKind, Rail};
use finwright_units::show;

/// Lugs on a rail, buttons on a rod.
pub static WRONG_HARDWARE: Rule = Rule {
    name: "guide/wrong-hardware",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "guides that don't go with the rod or rail",
    why: "Hardware that doesn't go on the rod or rail leaves the rocket unguided.",
    prose: include_str!("wrong_hardware.md"),
    thresholds: &[],
    example: Example::new("pad: track; guided_by: [peg, nut]", "pad: track; guided_by: [aft, fore]"),
    check: Some(check_kind),
};

/// Guides of the right kind and the wrong size.
pub static TIGHT_FIT: Rule = Rule {
    name: "guide/tight-fit",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "a guide that doesn't fit the rod or rail",
    why: "A guide that binds holds the rocket on the pad with its motor burning; one made for another rail jams or \
        falls out.",
    prose: include_str!("tight_fit.md"),
    thresholds: &[],
    example: Example::new("rod { diameter: 3.2 mm", "rod { diameter: 4.8 mm"),
    check: Some(check_fit),
};

/// Lugs far wider than the rod.
pub static LOOSE_FIT: Rule = Rule {
    name: "guide/loose-fit",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a lug much wider than the rod",
    why: "A rocket that hangs loosely on its rod leans, rattles and rubs, and starts in another direction than the \
        rod points.",
    prose: include_str!("loose_fit.md"),
    thresholds: &[&LUG_PLAY],
    example: Example::new("lug only { bore: 3.6 mm", "lug only { bore: 4.8 mm"),
    check: Some(check_loose),
};

fn check_loose(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    each_guide(cx, |flight, pad, named, part| {
        let (PartKind::Lug { bore: Some(bore), .. }, Some(Rail::Rod { diameter: Some(rod), .. })) =
            (&part.kind, &pad.rail)
        else {
            return;
        };
        let key = (bore.place, rod.place);
        if !is_loose(bore.si, rod.si, cx.limit(&LUG_PLAY)) || told.contains(&key) {
            return;
        }
        told.push(key);
        let good = format!("{} mm", show::trimmed((rod.si + GOOD_CLEARANCE) * 1e3, 2));
        out.push(
            LOOSE_FIT
                .finding(
                    bore.place,
                    format!(
                        "{}'s bore is {} and {}'s rod {}: {} of play",
                        part.label(),
                        show::length(bore.si),
                        pad.name.value,
                        show::length(rod.si),
                        show::length(bore.si - rod.si)
                    ),
                )
                .help(format!("a bore of {good} slides well, or a thicker rod"))
                .label(rod.place, "the rod")
                .label(named.place, format!("used in {}", flight.name.value))
                .fix_all(format!("make the bores {good}"), bores(cx, flight, &good)),
        );
    });
}

/// A bore for every lug of a flight, since two of different height wouldn't be in one line.
fn bores(cx: &Context, flight: &Flight, good: &str) -> Vec<(Place, String)> {
    let bore = |named: &Named<PartId>| match &cx.design.parts.get(named.value)?.kind {
        PartKind::Lug { bore: Some(bore), .. } => Some((bore.place, good.to_string())),
        _ => None,
    };
    flight.guided_by.iter().filter_map(bore).collect()
}

/// The clearance that is advised, m.
const GOOD_CLEARANCE: f64 = 0.4e-3;

fn check_kind(cx: &Context, out: &mut Vec<Finding>) {
    each_guide(cx, |flight, pad, named, part| {
        let is_lug = matches!(part.kind, PartKind::Lug { .. });
        let on_rod = match pad.rail {
            Some(Rail::Rod { .. }) => true,
            Some(Rail::Slotted { .. }) => false,
            // Nothing that sticks out runs on a tower's rails.
            Some(Rail::Tower { .. }) | None => return,
        };
        if is_lug == on_rod {
            return;
        }
        let kind = if is_lug {
            "lug"
        } else if part.word == "button" {
            "button"
        } else {
            "rail guide"
        };
        let (stands, wants) = if on_rod { ("rod", "lugs") } else { ("rail", "buttons or rail guides") };
        out.push(
            WRONG_HARDWARE
                .finding(
                    named.place,
                    format!(
                        "{} is held by {}, a {kind}, and {} is a {stands}",
                        flight.name.value,
                        part.label(),
                        pad.name.value
                    ),
                )
                .help(format!("name {wants} in `guided_by`, or another pad"))
                .label(part.header, format!("a {kind}"))
                .label(pad.header, format!("a {stands}")),
        );
    });
}

fn check_fit(cx: &Context, out: &mut Vec<Finding>) {
    each_guide(cx, |flight, pad, named, part| match (&part.kind, &pad.rail) {
        (PartKind::Lug { bore: Some(bore), .. }, Some(Rail::Rod { diameter: Some(rod), .. })) => {
            if slides(bore.si, rod.si) {
                return;
            }
            let [hole, thick] = show::lengths_apart(bore.si, rod.si);
            let good = format!("{} mm", show::trimmed((rod.si + GOOD_CLEARANCE) * 1e3, 2));
            out.push(
                TIGHT_FIT
                    .finding(
                        bore.place,
                        format!(
                            "{}'s bore is {hole} and {}'s rod {thick}: it doesn't slide",
                            part.label(),
                            pad.name.value
                        ),
                    )
                    .help(format!("a bore of {good} slides well{}", sold_by_the_rod(bore.si)))
                    .label(rod.place, "the rod")
                    .label(named.place, format!("used in {}", flight.name.value))
                    .fix_all(format!("make the bores {good}"), bores(cx, flight, &good)),
            );
        }
        (
            PartKind::Button { profile: Some(profile), .. } | PartKind::RailGuide { profile: Some(profile), .. },
            Some(Rail::Slotted { slot: Some(slot), .. }),
        ) => {
            let Some(section) = cx.design.sections.get(slot.value) else { return };
            let Some(width) = &section.width else { return };
            if is_same_section(profile.si, width.si) {
                return;
            }
            let [made_for, wide] = show::lengths_apart(profile.si, width.si);
            out.push(
                TIGHT_FIT
                    .finding(
                        profile.place,
                        format!(
                            "{} is made for a {made_for} section and {}'s rail is {wide}",
                            part.label(),
                            pad.name.value
                        ),
                    )
                    .help(format!("use one for {}, or another rail", show::length(width.si)))
                    .label(slot.place, "the rail's section")
                    .label(named.place, format!("used in {}", flight.name.value)),
            );
        }
        _ => {}
    });
}

/// What to think of where a bore is just what a usual rod is across: then it may be the rod's size that was copied.
fn sold_by_the_rod(bore: f64) -> String {
    let Some((name, rod)) = USUAL_RODS.iter().find(|(_, rod)| (bore - rod).abs() < SAME_ROD) else {
        return String::new();
    };
    let (least, most) = ((rod + GOOD_CLEARANCE) * 1e3, (rod + WIDE_CLEARANCE) * 1e3);
    let (least, most) = (show::trimmed(least, 1), show::trimmed(most, 1));
    format!(
        ". Lugs are sold by the rod they are for: a {name} lug has a bore of some {least} to {most} mm, so measure it"
    )
}

/// Rods as they are sold, m.
const USUAL_RODS: [(&str, f64); 9] = [
    ("3 mm", 3e-3),
    ("1/8 in", 3.175e-3),
    ("4 mm", 4e-3),
    ("3/16 in", 4.7625e-3),
    ("5 mm", 5e-3),
    ("6 mm", 6e-3),
    ("1/4 in", 6.35e-3),
    ("5/16 in", 7.9375e-3),
    ("3/8 in", 9.525e-3),
];
/// The clearance of a lug as sold, at most, m (common practice, no source).
const WIDE_CLEARANCE: f64 = 0.8e-3;
/// A bore that differs from a rod by less than this is the rod's size, m.
const SAME_ROD: f64 = 0.06e-3;
