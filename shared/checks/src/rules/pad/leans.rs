//! `pad/leans`: a rod or rail that bends in the wind.

use crate::common::elsewhere::{elsewhere, fly_there};
use crate::common::limits::TIP_SLOPE;
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule, Wind};
use finwright_assess::flight::stiffness::thicker_rod;
use finwright_assess::FlightNumbers;
use finwright_model::{Pad, PartKind, Rail};
use finwright_units::show;

/// The rule.
pub static LEANS: Rule = Rule {
    name: "pad/leans",
    family: Family::Pad,
    concerns: Concern::Pad,
    wind: Some(Wind::Steady),
    level: Level::Warning,
    summary: "a rod or rail that the wind bends over",
    why: "The rocket leaves in the direction in which the tip points, and a bent rod whips as the rocket climbs it.",
    prose: include_str!("leans.md"),
    thresholds: &[&TIP_SLOPE],
    example: Example::new("length: 1 m; material: steel", "length: 1.6 m; material: steel"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let most = cx.limit(&TIP_SLOPE);
    let mut told = Vec::new();
    for (flight, numbers) in cx.flights() {
        let (Some(stiffness), Some(pad), Some(air)) = (&numbers.stiffness, cx.design.pad_of(flight), numbers.air)
        else {
            continue;
        };
        let (wind, gust) = (stiffness.at_rest.in_wind(), stiffness.at_rest.in_gust());
        let far = stiffness.is_beyond_linear(&stiffness.at_rest);
        let key = (pad.name.place, flight.motor.as_ref().map(|m| m.value), flight.site.as_ref().map(|s| s.value));
        if (wind.slope.abs() <= most && !far) || told.contains(&key) {
            continue;
        }
        told.push(key);
        let Some(length) = pad.rail_length() else { continue };
        let word = pad.rail_word();
        let place = match &pad.rail {
            Some(Rail::Rod { diameter: Some(diameter), .. }) => diameter.place,
            _ => length.place,
        };
        // The theory of small bends has no number for what a rod does then.
        let bends_over = gust.slope.abs().max(wind.slope.abs()) > BENDS_OVER;
        let message = if bends_over {
            format!(
                "{}'s {word} bends over in {}'s wind of {}, gusts of {}",
                pad.name.value,
                flight.name.value,
                show::speed(air.as_read(air.wind)),
                show::speed(air.as_read(air.gust))
            )
        } else {
            format!(
                "{}'s {word} leans {} in {}'s wind of {}, and {} in a gust",
                pad.name.value,
                show::angle(wind.slope),
                flight.name.value,
                show::speed(air.as_read(air.wind)),
                show::angle(gust.slope)
            )
        };
        let off = if bends_over {
            "far off its line".to_string()
        } else {
            format!("{} off its line in a gust", show::length(gust.tip))
        };
        let finding = LEANS
            .finding(place, message)
            .label(place, format!("its tip stands {off}"))
            .label(flight.name.place, "in this flight")
            .of_flight(numbers)
            .beyond(gust.slope.abs().max(wind.slope.abs()) / most);
        let finding = with_thicker_rod(cx, numbers, pad, most, finding);
        let upright =
            |their: &FlightNumbers| their.stiffness.as_ref().is_some_and(|s| s.at_rest.in_wind().slope.abs() <= most);
        out.push(match elsewhere(cx, flight, upright) {
            Some(other) => fly_there(cx, flight, &other, finding),
            None => finding,
        });
    }
}

/// Past this slope a rod is told to bend over, rad.
pub const BENDS_OVER: f64 = 20.0 * std::f64::consts::PI / 180.0;

fn with_thicker_rod(cx: &Context, numbers: &FlightNumbers, pad: &Pad, most: f64, finding: Finding) -> Finding {
    let Some(Rail::Rod { diameter: Some(rod), .. }) = &pad.rail else {
        return finding.help("a stiffer section, a shorter rail, or less wind");
    };
    let Some(thicker) = thicker_rod(cx.design, &cx.assessment.airframe, numbers, pad, most) else {
        return finding.help("no usual rod holds it: use a rail");
    };
    let text = format!("{} mm", show::trimmed(thicker * 1e3, 2));
    let bore = format!("{} mm", show::trimmed((thicker + 0.4e-3) * 1e3, 2));
    // Every lug that runs on this pad in any flight must take the thicker rod.
    let bores =
        cx.flights().filter(|(flight, _)| cx.design.pad_of(flight).is_some_and(|p| p.name.place == pad.name.place));
    let bores = bores.flat_map(|(flight, _)| &flight.guided_by).filter_map(|named| {
        match &cx.design.parts.get(named.value)?.kind {
            PartKind::Lug { bore: Some(own), .. } => Some((own.place, bore.clone())),
            _ => None,
        }
    });
    let edits: Vec<_> = std::iter::once((rod.place, text.clone())).chain(bores).collect();
    finding
        .help(format!("a rod of {text} with lugs of {bore} leans less than {}; a rail less still", show::angle(most)))
        .fix_all(format!("use a rod of {text} and lugs to fit"), edits)
}
