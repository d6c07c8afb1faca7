//! `guide/rod-too-thin`: a rod too thin for the body's diameter.

use crate::common::limits::TIP_SLOPE;
use crate::common::rods::{each_rod, wants_rail};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_model::{Pad, Rail};
use finwright_units::{show, Dimension};

/// The widest body for a thin rod.
pub static THIN_ROD_BODY: Threshold =
    Threshold::new("thin_rod_body", Dimension::LENGTH, 56e-3, "the widest body for a rod thinner than `thick_rod`");

/// A thick rod.
pub static THICK_ROD: Threshold =
    Threshold::new("thick_rod", Dimension::LENGTH, 6e-3, "the thinnest rod for a body wider than `thin_rod_body`");

/// A thin rod under a wide body.
pub static ROD_TOO_THIN: Rule = Rule {
    name: "guide/rod-too-thin",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a rod too thin for the body's diameter",
    why: "A wide body catches more wind than a thin rod can hold upright, and a heavy one whips it as it climbs.",
    prose: include_str!("rod_too_thin.md"),
    thresholds: &[&THIN_ROD_BODY, &THICK_ROD],
    example: Example::new("rod { diameter: 3.2 mm", "rod { diameter: 2.8 mm")
        .settings("[thresholds]\nthin_rod_body = \"20 mm\"\nthick_rod = \"3 mm\""),
    check: Some(check_rod),
};

fn check_rod(cx: &Context, out: &mut Vec<Finding>) {
    let thick = cx.limit(&THICK_ROD);
    each_rod(cx, |flight, numbers, pad, body| {
        let Some(Rail::Rod { diameter: Some(rod), .. }) = &pad.rail else { return };
        // Where the body wants a rail, that is told.
        let wants_rail = wants_rail(cx, body, numbers.loaded().map(|loaded| loaded.mass)).is_some();
        if body <= cx.limit(&THIN_ROD_BODY) || rod.si >= thick || wants_rail || stands(cx, pad) {
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

/// Whether the wind of every flight from a rod is said and leans it by less than half of what it may: a number
/// outweighs a rule of thumb.
fn stands(cx: &Context, pad: &Pad) -> bool {
    let own =
        cx.flights().filter(|(flight, _)| cx.design.pad_of(flight).is_some_and(|p| p.name.place == pad.name.place));
    let mut leans = own.map(|(_, numbers)| {
        let (stiffness, air) = (numbers.stiffness.as_ref()?, numbers.air?);
        let (rest, windy) = (&stiffness.at_rest, air.wind > 0.0);
        let slope = rest.in_wind().slope.abs().max(rest.in_gust().slope.abs());
        (windy && !stiffness.is_beyond_linear(rest)).then_some(slope)
    });
    leans.all(|slope| slope.is_some_and(|slope| slope < 0.5 * cx.limit(&TIP_SLOPE)))
}
