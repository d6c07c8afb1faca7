//! `measured/mass-differs` and `measured/balance-differs`: the bench and the design disagree.

use super::BENCH;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use crate::threshold::Threshold;
use finwright_assess::bench::{spot, suspect};
use finwright_assess::weighing::{Difference, Fault};
use finwright_assess::Weighing;
use finwright_model::{Amount, PartId, Placement};
use finwright_units::reader::in_both;
use finwright_units::{show, Dimension};

/// The mass on the scale.
pub static MASS_DIFFERS: Rule = Rule {
    name: "measured/mass-differs",
    family: Family::Measured,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "the rocket on the scale weighs something else than the one in the file",
    why: "The rocket that flies is the one on the scale; a design that weighs something else predicts another flight.",
    prose: include_str!("mass_differs.md"),
    thresholds: &[&MASS_SHARE],
    example: Example::new("mass: 47 g ± 1 g", "mass: 60 g ± 1 g").after(BENCH),
    check: Some(check_mass),
};

/// The balance point on the bench.
pub static BALANCE_DIFFERS: Rule = Rule {
    name: "measured/balance-differs",
    family: Family::Measured,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "the rocket balances somewhere else than the one in the file",
    why: "Stability hangs on the balance point; the one on the bench is the true one.",
    prose: include_str!("balance_differs.md"),
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
/// What can't have been measured on this rocket.
pub static IMPOSSIBLE: Rule = Rule {
    name: "measured/impossible",
    family: Family::Measured,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "a measurement that can't be of this rocket",
    why:
        "The rocket on the scale is the one that flies; a slip in its measurement makes every number another rocket's.",
    prose: include_str!("impossible.md"),
    thresholds: &[],
    example: Example::new("mass: 47 g ± 1 g", "mass: 4.7 kg ± 1 g").after(BENCH),
    check: Some(check_impossible),
};

fn check_mass(cx: &Context, out: &mut Vec<Finding>) {
    for bench in benches(cx) {
        let Some((mass, off)) = bench.mass_off(cx).filter(|_| bench.weighing.fault.is_none()) else { continue };
        let more = if off > 0.0 { "more" } else { "less" };
        let finding = MASS_DIFFERS.finding(
            mass.place,
            format!(
                "the scale says {} with {} in, the design {}: {} {more}",
                show::mass(mass.si),
                bench.motor,
                show::mass(bench.weighing.computed.mass),
                show::mass(off.abs())
            ),
        );
        out.push(match bench.weighing.difference() {
            Some(missing) => with_spot(cx, finding, &missing),
            None => finding.help(
                "weigh the parts and give each its `mass`; what is left over is glue, paint or something forgotten. \
                 With the balance point measured too, it can be told where",
            ),
        });
    }
}

fn check_impossible(cx: &Context, out: &mut Vec<Finding>) {
    for bench in benches(cx) {
        let Some(fault) = bench.weighing.fault else { continue };
        let (mass, balance) = (bench.mass.map(|m| m.place), bench.balance.map(|b| b.place));
        let computed = bench.weighing.computed;
        let (place, message, help) = match fault {
            Fault::OtherRocket => (
                mass,
                format!(
                    "the scale says {} and the design {}: that isn't one rocket",
                    show::mass(bench.weighing.mass.map_or(0.0, |m| m.value)),
                    show::mass(computed.mass)
                ),
                "look at the unit and the decimal point; the measurement isn't used until then".to_string(),
            ),
            Fault::BalanceOutside => (
                balance,
                format!(
                    "a balance point {} from the tip is outside of the rocket",
                    show::station(bench.weighing.balance.map_or(0.0, |b| b.value))
                ),
                format!(
                    "the design balances {} from the tip; the measurement isn't used until then",
                    show::station(computed.x)
                ),
            ),
            Fault::DifferenceOutside => {
                let Some(difference) = bench.weighing.difference() else { continue };
                let more = if difference.mass > 0.0 { "more" } else { "less" };
                (
                    balance,
                    format!(
                        "{} {more} than the design would have to sit outside of the rocket",
                        show::mass(difference.mass.abs())
                    ),
                    format!(
                        "by scale and balance point it would sit {}: balance the rocket again, and look where \
                            `balance` is measured from",
                        with_tolerance(&difference)
                    ),
                )
            }
        };
        out.extend(place.map(|place| IMPOSSIBLE.finding(place, message).help(help)));
    }
}

/// With the place where the mass must sit that the design lacks or has too much.
fn with_spot(cx: &Context, finding: Finding, missing: &Difference) -> Finding {
    let more = if missing.mass > 0.0 { "more" } else { "less" };
    let place = with_tolerance(missing);
    let spot = spot(cx.design, &cx.assessment.airframe, missing.station);
    let part = |id: PartId| cx.design.parts.get(id);
    let Some(body) = spot.body.and_then(part) else {
        return finding.help(format!(
            "with the measured balance point, {} {more} would have to sit {place}, outside of the rocket: one mass alone \
             can't explain both, so weigh the parts, and balance the rocket again",
            show::mass(missing.mass.abs())
        ));
    };
    let near = spot.near.and_then(|(id, inside)| Some((part(id)?, inside)));
    let beside = match near {
        Some((near, true)) => format!(", at {}", near.label()),
        Some((near, false)) => format!(", near {}", near.label()),
        None => String::new(),
    };
    let finding = finding.help(format!(
        "{} {more}, {place}, would explain both measurements: in {}{beside}. Weigh what is there and give it its `mass`; \
         what is left over is glue, paint or something forgotten",
        show::mass(missing.mass.abs()),
        body.label()
    ));
    let likely = near.map_or(body, |(near, _)| near);
    finding.label(likely.header, "the likeliest place")
}

/// `about 240 ± 8 mm from the tip`.
fn with_tolerance(missing: &Difference) -> String {
    let place = in_both(|| {
        let (one, unit, decimals) = show::ruler();
        let station = show::trimmed(missing.station / one, decimals);
        match show::trimmed(missing.tolerance / one, decimals).as_str() {
            "0" => format!("{station} {unit}"),
            tolerance => format!("{station} ± {tolerance} {unit}"),
        }
    });
    format!("about {place} from the tip")
}

fn check_balance(cx: &Context, out: &mut Vec<Finding>) {
    let Some(calibre) = cx.assessment.airframe.calibre else { return };
    for bench in benches(cx).into_iter().filter(|bench| bench.weighing.fault.is_none()) {
        let (Some(at), Some(station)) = (bench.balance, bench.weighing.balance.map(|b| b.value)) else { continue };
        let off = station - bench.weighing.computed.x;
        if off.abs() <= at.distance.spread.total() + cx.limit(&BALANCE_CALIBRES) * calibre {
            continue;
        }
        let side = if off > 0.0 { "further back" } else { "further forward" };
        let finding = BALANCE_DIFFERS.finding(
            at.place,
            format!(
                "with {} in it balances at {}, the design at {}: {} {side}",
                bench.motor,
                show::station(station),
                show::station(bench.weighing.computed.x),
                show::station(off.abs())
            ),
        );
        let missing = bench.weighing.difference().filter(|_| bench.mass_off(cx).is_some());
        out.push(match missing {
            Some(missing) if cx.settings.is_off(MASS_DIFFERS.name) => with_spot(cx, finding, &missing),
            Some(missing) => {
                let more = if missing.mass > 0.0 { "more" } else { "less" };
                let mass = show::mass(missing.mass.abs());
                let place = with_tolerance(&missing);
                finding
                    .help(format!("the {mass} {more} on the scale would explain this too, {place}: look there first"))
            }
            None => with_suspect(cx, finding, &bench, station),
        });
    }
}

/// With the part that nobody weighed and that moves the balance point most.
fn with_suspect(cx: &Context, finding: Finding, bench: &Bench, station: f64) -> Finding {
    let weigh_all = "weigh nose and tail parts first and give each its `mass`: they have the longest lever";
    let suspect = suspect(&cx.assessment.airframe, bench.weighing.computed, station);
    let Some((suspect, part)) = suspect.and_then(|s| Some((s, cx.design.parts.get(s.part)?))) else {
        return finding.help(weigh_all);
    };
    let more = if suspect.change > 0.0 { "heavier" } else { "lighter" };
    let share = suspect.change.abs() / suspect.mass;
    // Materials vary by a tenth and more; a part of another weight altogether is a slip in its measures.
    let alone = if share > LIKELY_SHARE { "; that is a lot, so look at the measures of the others too" } else { "" };
    finding
        .help(format!(
            "weigh {} first, {} by its measures: of the parts without a weighed `mass` it moves the balance point most. \
             {} {more} it alone would explain this{alone}",
            part.label(),
            show::mass(suspect.mass),
            show::mass(suspect.change.abs())
        ))
        .label(part.header, "not weighed yet")
}

/// How much a part may be off by its material alone, as a share.
const LIKELY_SHARE: f64 = 0.3;

/// A measurement with what the file says of it.
struct Bench<'a> {
    motor: &'a str,
    weighing: &'a Weighing,
    mass: Option<&'a Amount>,
    balance: Option<&'a Placement>,
}

/// The measurements that the flights looked at are flown with.
fn benches<'a>(cx: &Context<'a>) -> Vec<Bench<'a>> {
    let flown: Vec<usize> = cx.motors().map(|(number, _)| number).collect();
    let bench = |weighing: &'a Weighing| {
        let measured = cx.design.measured.get(weighing.measured)?;
        let motor = measured.with.as_ref()?.value;
        let name = cx.design.motors.get(motor)?.name.value.as_str();
        let found = Bench { motor: name, weighing, mass: measured.mass.as_ref(), balance: measured.balance.as_ref() };
        Some((motor, found))
    };
    let all: Vec<(usize, Bench)> = cx.assessment.airframe.weighings.iter().filter_map(bench).collect();
    // Where none was made with the flight's own motor, those with others count for it.
    let own = all.iter().any(|(motor, _)| flown.contains(motor));
    all.into_iter().filter(|(motor, _)| !own || flown.contains(motor)).map(|(_, bench)| bench).collect()
}

impl<'a> Bench<'a> {
    /// The measured mass and how much more it is than the design's, where that is too much.
    fn mass_off(&self, cx: &Context) -> Option<(&'a Amount, f64)> {
        let mass = self.mass?;
        let off = mass.si - self.weighing.computed.mass;
        let allowed = mass.spread.total() + cx.limit(&MASS_SHARE) * self.weighing.computed.mass;
        (off.abs() > allowed).then_some((mass, off))
    }
}
