//! `measured/mass-differs` and `measured/balance-differs`: the bench and the design disagree.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Context, Rule};
use crate::threshold::Threshold;
use finwright_assess::bench::{missing, spot, suspect, Missing, Reading};
use finwright_assess::FlightNumbers;
use finwright_model::{station_of, Amount, Measured, PartId, Placement};
use finwright_physics::mass::MassProps;
use finwright_units::reader::in_both;
use finwright_units::{show, Dimension};

/// The mass on the scale.
pub static MASS_DIFFERS: Rule = Rule {
    name: "measured/mass-differs",
    level: Level::Warning,
    summary: "the rocket on the scale weighs something else than the one in the file",
    why: "The rocket that flies is the one on the scale; a design that weighs something else predicts another flight.",
    prose: "Glue, paint and cord weigh more than one thinks, and wood and paper vary by a tenth. Weigh the parts, give each its `mass`, and the file becomes the rocket. Scale and balance point together tell where to look: if the rocket weighs M_m and balances at x_m, and the design M at x, then one mass M_m − M explains both if it sits at (M_m x_m − M x)/(M_m − M), from the balance of moments about the tip. Where that lies outside of the rocket, more than one thing is off.",
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
    prose: "A balance point further back than computed takes margin away. A part moves it by its mass times its lever, the distance from the balance point, so a nose or fins of unknown weight matter more than a tube's middle: weigh those first.",
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
        let Some(bench) = Bench::of(cx, measured) else { continue };
        let Some((mass, off)) = bench.mass_off(cx) else { continue };
        let more = if off > 0.0 { "more" } else { "less" };
        let finding = MASS_DIFFERS.finding(
            mass.place,
            format!(
                "the scale says {} with {} in, the design {}: {} {more}",
                show::mass(mass.si),
                bench.motor,
                show::mass(bench.loaded.mass),
                show::mass(off.abs())
            ),
        );
        out.push(match bench.missing() {
            Some(missing) => with_spot(cx, finding, &missing),
            None => finding.help(
                "weigh the parts and give each its `mass`; what is left over is glue, paint or something forgotten. \
                 With the balance point measured too, it can be told where",
            ),
        });
    }
}

/// With the place where the mass must sit that the design lacks or has too much.
fn with_spot(cx: &Context, finding: Finding, missing: &Missing) -> Finding {
    let more = if missing.mass > 0.0 { "more" } else { "less" };
    let place = with_tolerance(missing);
    let spot = spot(cx.design, cx.assessment, missing.station);
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
fn with_tolerance(missing: &Missing) -> String {
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
    let Some(calibre) = cx.assessment.calibre else { return };
    for measured in &cx.design.measured {
        let Some(bench) = Bench::of(cx, measured) else { continue };
        let (Some(at), Some(station)) = (bench.balance, bench.station) else { continue };
        let off = station - bench.loaded.x;
        if off.abs() <= at.distance.spread.total() + cx.limit(&BALANCE_CALIBRES) * calibre {
            continue;
        }
        let side = if off > 0.0 { "further back" } else { "further forward" };
        let finding = BALANCE_DIFFERS.finding(
            at.place,
            format!(
                "with {} in it balances at {} from the tip, in the design at {}: {} {side}",
                bench.motor,
                show::station(station),
                show::station(bench.loaded.x),
                show::station(off.abs())
            ),
        );
        let missing = bench.missing().filter(|_| bench.mass_off(cx).is_some());
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
    let suspect = suspect(cx.assessment, bench.loaded, station);
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

/// A measurement beside the numbers of a flight with the same motor.
struct Bench<'a> {
    motor: String,
    loaded: MassProps,
    mass: Option<&'a Amount>,
    balance: Option<&'a Placement>,
    /// The measured balance point, m from the tip.
    station: Option<f64>,
}

impl<'a> Bench<'a> {
    fn of(cx: &Context<'a>, measured: &'a Measured) -> Option<Bench<'a>> {
        let (motor, numbers) = numbers(cx, measured)?;
        let (extents, tail) = (&cx.assessment.extents, cx.assessment.tail);
        let balance = measured.balance.as_ref();
        let station = balance.and_then(|at| station_of(&at.anchor, at.distance.si, None, extents, tail, None));
        Some(Bench { motor, loaded: numbers.loaded?, mass: measured.mass.as_ref(), balance, station })
    }

    /// The measured mass and how much more it is than the design's, where that is too much.
    fn mass_off(&self, cx: &Context) -> Option<(&'a Amount, f64)> {
        let mass = self.mass?;
        let off = mass.si - self.loaded.mass;
        let allowed = mass.spread.total() + cx.limit(&MASS_SHARE) * self.loaded.mass;
        (off.abs() > allowed).then_some((mass, off))
    }

    /// The one mass that explains scale and balance point.
    fn missing(&self) -> Option<Missing> {
        let (mass, balance) = (self.mass?, self.balance?);
        let mass = Reading { value: mass.si, tolerance: mass.spread.total() };
        missing(self.loaded, mass, Reading { value: self.station?, tolerance: balance.distance.spread.total() })
    }
}

/// The numbers of a flight with the motor that was in on the bench, and the motor's name.
fn numbers<'a>(cx: &Context<'a>, measured: &Measured) -> Option<(String, &'a FlightNumbers)> {
    let motor = measured.with.as_ref()?.value;
    let (_, numbers) = cx.flights().find(|(flight, _)| flight.motor.as_ref().map(|m| m.value) == Some(motor))?;
    Some((cx.design.motors.get(motor)?.name.value.clone(), numbers))
}
