//! `file/odd-size`: a number that is hardly meant.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_grammar::vocabulary::size;
use finwright_grammar::FileId;
use finwright_model::{size_meant, units_used, Amount, Motor, Pad, Part, PartKind, Rail, Site};
use finwright_units::show;
use std::cell::LazyCell;

/// The rule.
pub static ODD_SIZE: Rule = Rule {
    name: "file/odd-size",
    family: Family::File,
    concerns: Concern::File,
    wind: None,
    level: Level::Warning,
    summary: "a size that no rocket's part has",
    why: "A slip of the unit or the decimal point makes every number that follows from it wrong.",
    prose: include_str!("odd_size.md"),
    thresholds: &[],
    example: Example::new("length: 70 mm; base: caliber", "length: 7 m; base: caliber"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    let used = LazyCell::new(|| cx.design.files.first().map(|file| units_used(&file.tree)).unwrap_or_default());
    for (word, field, amount) in amounts(cx) {
        let Some(size) = size(word, field) else { continue };
        let (least, most) = size.usual;
        let is_usual = least * (1.0 - SLACK) <= amount.si && amount.si <= most * (1.0 + SLACK);
        // What is taken over from a part that it's like stands in one place, and may be another file's.
        if is_usual || amount.place.file != FileId(0) || told.contains(&amount.place) {
            continue;
        }
        let Some(dimension) = size.dimension(word) else { continue };
        told.push(amount.place);
        let (side, limit) = if amount.si < least { ("less", least) } else { ("more", most) };
        let said = show::quantity(amount.si, dimension);
        let message =
            format!("`{field}` of this {word} is {said}, {side} than any has ({})", show::quantity(limit, dimension));
        let finding = ODD_SIZE.finding(amount.place, message);
        out.push(match size_meant(cx.design.text(amount.place), word, field, &used) {
            Some(meant) => {
                finding.help(format!("did you mean {meant}?")).fix(format!("write {meant}"), amount.place, meant)
            }
            None => finding.help("check the unit and the decimal point"),
        });
    }
}

/// What lies on a bound to within rounding is within it.
const SLACK: f64 = 1e-9;

/// Every amount that has a range, with its block's word and its field.
fn amounts<'a>(cx: &Context<'a>) -> Vec<(&'static str, &'static str, &'a Amount)> {
    let mut all = Vec::new();
    cx.design.parts.iter().for_each(|part| of_part(part, &mut all));
    cx.design.motors.iter().for_each(|motor| of_motor(motor, &mut all));
    cx.design.pads.iter().for_each(|pad| of_pad(pad, &mut all));
    cx.design.sites.iter().for_each(|site| of_site(site, &mut all));
    all.into_iter().filter_map(|(word, field, amount)| Some((word, field, amount.as_ref()?))).collect()
}

type All<'a> = Vec<(&'static str, &'static str, &'a Option<Amount>)>;

fn of_part<'a>(part: &'a Part, all: &mut All<'a>) {
    let mut add = |field: &'static str, amount: &'a Option<Amount>| all.push((part.word, field, amount));
    add("mass", &part.mass);
    match &part.kind {
        PartKind::Nose { length, base, wall, .. } => {
            add("length", length);
            add("base", base);
            add("wall", wall);
        }
        PartKind::Shoulder { length, outer, wall } => {
            add("length", length);
            add("outer", outer);
            add("wall", wall);
        }
        PartKind::Tube { length, outer, inner } | PartKind::Coupler { length, outer, inner } => {
            add("length", length);
            add("outer", outer);
            add("inner", inner);
        }
        PartKind::Taper { length, front, back, wall, .. } => {
            add("length", length);
            add("front", front);
            add("back", back);
            add("wall", wall);
        }
        PartKind::Fins(fins) => {
            add("thickness", &fins.thickness);
            add("root", &fins.root);
            add("span", &fins.span);
            add("tip", &fins.tip);
        }
        PartKind::Mount { length, bore, outer, sticks_out, .. } => {
            add("length", length);
            add("bore", bore);
            add("outer", outer);
            add("sticks_out", sticks_out);
        }
        PartKind::Rings { thickness, .. } => add("thickness", thickness),
        PartKind::Bulkhead { outer, thickness } => {
            add("outer", outer);
            add("thickness", thickness);
        }
        PartKind::Parachute { diameter, .. } => add("diameter", diameter),
        PartKind::Streamer { length, width, .. } => {
            add("length", length);
            add("width", width);
        }
        PartKind::Cord { length } => add("length", length),
        PartKind::Lug { bore, length, wall, .. } => {
            add("bore", bore);
            add("length", length);
            add("wall", wall);
        }
        PartKind::Button { profile, .. } => add("profile", profile),
        PartKind::RailGuide { profile, length, .. } => {
            add("profile", profile);
            add("length", length);
        }
        _ => {}
    }
}

fn of_motor<'a>(motor: &'a Motor, all: &mut All<'a>) {
    all.extend([
        ("motor", "diameter", &motor.diameter),
        ("motor", "length", &motor.length),
        ("motor", "mass", &motor.mass),
        ("motor", "propellant", &motor.propellant),
        ("motor", "delay", &motor.delay),
    ]);
}

fn of_pad<'a>(pad: &'a Pad, all: &mut All<'a>) {
    all.push(("pad", "stop", &pad.stop));
    match &pad.rail {
        Some(Rail::Rod { diameter, length, .. }) => {
            all.extend([("rod", "diameter", diameter), ("rod", "length", length)]);
        }
        Some(Rail::Slotted { length, .. }) => all.push(("rail", "length", length)),
        Some(Rail::Tower { bore, length, .. }) => all.extend([("tower", "bore", bore), ("tower", "length", length)]),
        None => {}
    }
}

fn of_site<'a>(site: &'a Site, all: &mut All<'a>) {
    all.extend([("site", "elevation", &site.elevation), ("site", "wind", &site.wind), ("site", "gust", &site.gust)]);
}
