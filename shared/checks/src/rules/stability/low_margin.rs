//! `stability/unstable` and `stability/low-margin`: the centre of pressure too little behind the balance point.

use crate::common::floors::margin_with_room;
use crate::common::limits::{EXIT_SPEED, MARGIN};
use crate::common::longer::SAME_ROCKET;
use crate::common::named::balance_label;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::FlightNumbers;
use finwright_model::{Flight, PartId, PartKind};
use finwright_physics::guided::{GuidedOutcome, GuidedRun, Passage};
use finwright_units::show;

/// The centre of pressure at or ahead of the balance point.
pub static UNSTABLE: Rule = Rule {
    name: "stability/unstable",
    family: Family::Stability,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Error,
    summary: "the centre of pressure isn't behind the balance point",
    why: "Such a rocket flips over and tumbles with its motor burning, in any direction, towards anyone.",
    prose: include_str!("unstable.md"),
    thresholds: &[],
    example: Example::new("span: 40 mm", "span: 10 mm"),
    check: Some(|cx, out| check(cx, &UNSTABLE, out)),
};

/// Less than the wanted margin.
pub static LOW_MARGIN: Rule = Rule {
    name: "stability/low-margin",
    family: Family::Stability,
    concerns: Concern::Flight,
    wind: None,
    level: Level::Warning,
    summary: "a static margin below one calibre",
    why: "With little margin the rocket answers late to a gust, and a small error in its weight or its fins uses the \
        margin up.",
    prose: include_str!("low_margin.md"),
    thresholds: &[&MARGIN],
    example: Example::new("span: 40 mm", "span: 19 mm"),
    check: Some(|cx, out| check(cx, &LOW_MARGIN, out)),
};

fn check(cx: &Context, rule: &'static Rule, out: &mut Vec<Finding>) {
    check_upper(cx, rule, out);
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(margin), Some(loaded)) = (numbers.margin(), numbers.loaded()) else { continue };
        let Some(pressure) = cx.assessment.airframe.airflow.as_ref().and_then(|a| a.total.x()) else { continue };
        let motor = flight.motor.as_ref().map(|m| m.value);
        if !is_told_by(cx, rule, margin) || told.contains(&motor) {
            continue;
        }
        told.push(motor);
        let name = &flight.name.value;
        let message = if margin <= 0.0 {
            format!("{name} is unstable, its centre of pressure {} calibres ahead of balance", show::number(-margin))
        } else {
            format!("{name}'s centre of pressure is only {} calibres behind the balance point", show::number(margin))
        };
        let label = format!(
            "{}, the centre of pressure is at {}",
            balance_label(cx, flight, loaded.x),
            show::station(pressure)
        );
        let mut finding = rule.finding(flight.name.place, message).label(flight.name.place, label);
        finding = finding.of_flight(numbers).beyond(1.0 + cx.limit(&MARGIN) - margin);
        let fins = cx.design.parts.iter().find(|p| matches!(p.kind, PartKind::Fins(_)));
        if let Some(fins) = fins {
            finding = finding.label(fins.header, "larger fins, or fins further back, move the centre of pressure back");
        }
        out.push(with_ballast(cx, numbers, pressure, finding));
    }
}

/// Of the two rules one at most speaks of a margin.
fn is_told_by(cx: &Context, rule: &Rule, margin: f64) -> bool {
    margin < cx.limit(&MARGIN) && (margin <= 0.0) == (rule.name == UNSTABLE.name)
}

/// The upper of two stages must fly by itself too.
fn check_upper(cx: &Context, rule: &'static Rule, out: &mut Vec<Finding>) {
    for (flight, numbers) in cx.flights() {
        let Some((upper, margin)) = numbers.upper().zip(numbers.upper_margin()) else { continue };
        if !is_told_by(cx, rule, margin) {
            continue;
        }
        let calibres = show::number(margin.abs());
        let place = if margin < 0.0 {
            format!("{calibres} calibres behind its centre of pressure")
        } else {
            format!("only {calibres} calibres ahead of its centre of pressure")
        };
        let message = format!("without its booster {} balances {place}", flight.name.value);
        let balances = format!("its upper stage balances {} from the tip", show::station(upper.loaded.x));
        let mut finding = rule.finding(flight.name.place, message).label(flight.name.place, balances);
        finding = finding.of_flight(numbers).beyond(1.0 + cx.limit(&MARGIN) - margin);
        let own = |p: &&finwright_model::Part| {
            matches!(p.kind, PartKind::Fins(_)) && p.stage == finwright_model::Stage::Upper
        };
        if let Some(fins) = cx.design.parts.iter().find(own) {
            finding = finding.label(fins.header, "the upper stage has these fins alone");
        }
        out.push(finding.help("larger fins on the upper stage, or more weight in its nose"));
    }
}

/// With the nose weight that gives the wanted margin: m = M (x - target) / (target - x_ballast), from the balance of
/// moments about the target.
fn with_ballast(cx: &Context, numbers: &FlightNumbers, pressure: f64, finding: Finding) -> Finding {
    let (Some(loaded), Some(calibre)) = (numbers.loaded(), cx.assessment.airframe.calibre) else { return finding };
    let wanted = margin_with_room(cx, numbers, cx.limit(&MARGIN));
    let target = pressure - wanted * calibre;
    let Some((station, ballast)) = nose_station(cx) else { return finding };
    if station >= target || target <= 0.0 {
        return finding.help("larger fins, or fins further back");
    }
    let more = loaded.mass * (loaded.x - target) / (target - station);
    // Rounded up to the gram, so that what is advised is enough.
    let more = (more * 1e3).ceil() / 1e3;
    let too_much = if more > SAME_ROCKET * loaded.mass {
        Some("more than a quarter of the rocket".to_string())
    } else {
        slowed_by(cx, more).map(|flight| format!("and {} would leave too slowly with it", flight.name.value))
    };
    if let Some(too_much) = too_much {
        let alone = show::mass_at_least(more);
        return finding
            .help(format!("larger fins, or fins further back; ballast alone would take {alone}, {too_much}"));
    }
    let there = match ballast {
        Some(_) => format!("{} more ballast in the nose", show::mass_at_least(more)),
        None => {
            format!("{} of ballast in the nose, {} from the tip,", show::mass_at_least(more), show::station(station))
        }
    };
    let finding = finding.help(format!(
        "{there} would bring the margin to {} calibres, with room to spare; so would larger fins",
        show::significant(wanted, 2, 2)
    ));
    match ballast.and_then(|id| cx.design.parts.get(id)).and_then(|p| p.mass.as_ref()) {
        Some(mass) => {
            let text = format!("{} g", show::trimmed(((mass.si + more) * 1e3).ceil(), 0));
            finding.fix(format!("make the ballast {text}"), mass.place, text)
        }
        None => finding,
    }
}

/// A flight that is fast enough and no longer is with so much more on board: one fault isn't mended by another.
fn slowed_by<'a>(cx: &Context<'a>, more: f64) -> Option<&'a Flight> {
    let is_fast = |last: Passage| last.speed >= cx.limit(&EXIT_SPEED);
    cx.flights().find_map(|(flight, numbers)| {
        let (run, curve) = (numbers.run.as_ref()?, numbers.curve.as_ref()?);
        let heavier = GuidedRun { mass: run.inputs.mass + more, ..run.inputs_on(curve) };
        let is_fast_then = matches!(heavier.run(), GuidedOutcome::Leaves { last, .. } if is_fast(last));
        (run.last().is_some_and(is_fast) && !is_fast_then).then_some(flight)
    })
}

/// Where nose weight sits: at the ballast that the nose has, else at its middle.
fn nose_station(cx: &Context) -> Option<(f64, Option<PartId>)> {
    let parts = &cx.design.parts;
    let nose = parts.iter().position(|p| matches!(p.kind, PartKind::Nose { .. }))?;
    let extent = |id: PartId| cx.parts().extent(id);
    let ballast = parts.iter().enumerate().find(|(_, p)| p.parent == Some(nose) && matches!(p.kind, PartKind::Ballast));
    match ballast.and_then(|(id, _)| Some((id, extent(id)?))) {
        Some((id, place)) => Some((place.middle(), Some(id))),
        None => extent(nose).map(|nose| (nose.middle(), None)),
    }
}
