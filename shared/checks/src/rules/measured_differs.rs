//! `measured/mass-differs` and `measured/balance-differs`: the bench and the design disagree.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::threshold::Threshold;
use finwright_assess::FlightNumbers;
use finwright_model::{station_of, Measured};
use finwright_units::{show, Dimension};

/// The mass on the scale.
pub static MASS_DIFFERS: Rule = Rule {
    name: "measured/mass-differs",
    level: Level::Warning,
    summary: "the rocket on the scale weighs something else than the one in the file",
    why: "The rocket that flies is the one on the scale; a design that weighs something else predicts another flight.",
    prose: "Glue, paint and cord weigh more than one thinks, and wood and paper vary by a tenth. Weigh the parts, give each its `mass`, and the file becomes the rocket.",
    thresholds: &[&MASS_SHARE],
    example: Example::new("mass: 47 g ± 1 g", "mass: 60 g ± 1 g").after(BENCH),
    check: Some(check_mass),
};

/// The balance point on the bench.
pub static BALANCE_DIFFERS: Rule = Rule {
    name: "measured/balance-differs",
    level: Level::Warning,
    summary: "the rocket balances somewhere else than the one in the file",
    why: "Stability hangs on the balance point; the one on the bench is the true one.",
    prose: "A balance point further back than computed takes margin away. Weigh nose and tail parts first: they have the longest lever.",
    thresholds: &[&BALANCE_CALIBRES],
    example: Example::new("balance: 188 mm ± 2 mm from tip", "balance: 210 mm ± 2 mm from tip").after(BENCH),
    check: Some(check_balance),
};

/// How far a computed mass may lie from the scale beyond the scale's own tolerance: glue and paint, usually.
pub static MASS_SHARE: Threshold = Threshold::new(
    "measured_mass_share",
    Dimension::NUMBER,
    0.05,
    "how far the computed mass may lie from the scale beyond the scale's tolerance, as a share",
);
/// How far a computed balance point may lie from the bench beyond its tolerance, calibres.
pub static BALANCE_CALIBRES: Threshold = Threshold::new(
    "measured_balance",
    Dimension::CALIBRES,
    0.25,
    "how far the computed balance point may lie from the bench beyond its tolerance",
);
const BENCH: &[(&str, &str)] =
    &[("flight one", "measured { with: b8; mass: 47 g ± 1 g; balance: 188 mm ± 2 mm from tip }\nflight one")];

fn check_mass(cx: &Context, out: &mut Vec<Finding>) {
    for measured in &cx.design.measured {
        let (Some(mass), Some((motor, numbers))) = (&measured.mass, numbers(cx, measured)) else { continue };
        let Some(loaded) = numbers.loaded else { continue };
        let off = mass.si - loaded.mass;
        if off.abs() <= mass.spread.total() + cx.limit(&MASS_SHARE) * loaded.mass {
            continue;
        }
        let more = if off > 0.0 { "more" } else { "less" };
        out.push(
            MASS_DIFFERS
                .finding(
                    mass.place,
                    format!(
                        "the scale says {} with {motor} in, the design {}: {} {more}",
                        show::mass(mass.si),
                        show::mass(loaded.mass),
                        show::mass(off.abs())
                    ),
                )
                .help(
                    "weigh the parts and give each its `mass`; what is left over is glue, paint or something forgotten",
                ),
        );
    }
}

fn check_balance(cx: &Context, out: &mut Vec<Finding>) {
    let Some(calibre) = cx.assessment.calibre else { return };
    for measured in &cx.design.measured {
        let (Some(at), Some((motor, numbers))) = (&measured.balance, numbers(cx, measured)) else { continue };
        let Some(loaded) = numbers.loaded else { continue };
        let extents = &cx.assessment.extents;
        let Some(station) = station_of(&at.anchor, at.distance.si, None, extents, cx.assessment.tail, None) else {
            continue;
        };
        let off = station - loaded.x;
        if off.abs() <= at.distance.spread.total() + cx.limit(&BALANCE_CALIBRES) * calibre {
            continue;
        }
        let side = if off > 0.0 { "further back" } else { "further forward" };
        out.push(
            BALANCE_DIFFERS
                .finding(
                    at.place,
                    format!(
                        "with {motor} in it balances at {} from the tip, in the design at {}: {} {side}",
                        show::station(station),
                        show::station(loaded.x),
                        show::station(off.abs())
                    ),
                )
                .help("weigh nose and tail parts first and give each its `mass`: they have the longest lever"),
        );
    }
}

/// The numbers of a flight with the motor that was in on the bench, and the motor's name.
fn numbers<'a>(cx: &Context<'a>, measured: &Measured) -> Option<(String, &'a FlightNumbers)> {
    let motor = measured.with.as_ref()?.value;
    let (_, numbers) = cx.flights().find(|(flight, _)| flight.motor.as_ref().map(|m| m.value) == Some(motor))?;
    Some((cx.design.motors.get(motor)?.name.value.clone(), numbers))
}
