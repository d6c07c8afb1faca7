//! `file/odd-size`: a number that is hardly meant.

use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_grammar::FileId;
use finwright_model::{Amount, Motor, Pad, Part, PartKind, Rail, Site};
use finwright_units::{find_unit, show, Dimension};

/// The rule.
pub static ODD_SIZE: Rule = Rule {
    name: "file/odd-size",
    family: Family::File,
    concerns: Concern::File,
    wind: None,
    level: Level::Warning,
    summary: "a size that no rocket's part has",
    why: "A slip of the unit or the decimal point makes every number that follows from it wrong.",
    prose: "A nose of 120 m, a fin 0.003 mm thick, a gust of 90 m/s: such a number can be computed with, and is hardly meant. Each field has a range here that everything from the smallest school rocket to the largest amateur one lies in with room to spare (common practice, no source). Where the same number in another unit would be an ordinary size, that unit is offered.",
    thresholds: &[],
    example: Example::new("length: 70 mm; base: caliber", "length: 70 m; base: caliber"),
    check: Some(check),
};

/// What is plausible of a field, in SI: wide enough that what lies beyond is a slip.
struct Range {
    /// The block's words; none for any block.
    blocks: &'static [&'static str],
    field: &'static str,
    dimension: Dimension,
    least: f64,
    most: f64,
}

const fn range(
    blocks: &'static [&'static str],
    field: &'static str,
    dimension: Dimension,
    least: f64,
    most: f64,
) -> Range {
    Range { blocks, field, dimension, least, most }
}

const L: Dimension = Dimension::LENGTH;
const M: Dimension = Dimension::MASS;
const T: Dimension = Dimension::TIME;

/// The first row that fits a field counts.
#[rustfmt::skip] // One range a line.
static RANGES: &[Range] = &[
    // The airframe: from motors of 6 mm across up to amateur rockets of half a metre across and ten long.
    range(&["nose", "taper"],             "length",     L, 3e-3,   3.0),
    range(&["tube"],                      "length",     L, 10e-3, 10.0),
    range(&["shoulder"],                  "length",     L, 2e-3,   0.6),
    range(&["nose", "tube", "taper", "coupler", "mount", "shoulder", "bulkhead"], "outer", L, 4e-3, 1.0),
    range(&["tube", "coupler"],           "inner",      L, 3e-3,   1.0),
    range(&["nose"],                      "base",       L, 5e-3,   1.0),
    range(&["taper"],                     "front",      L, 5e-3,   1.0),
    range(&["taper"],                     "back",       L, 5e-3,   1.0),
    range(&["nose", "taper", "shoulder"], "wall",       L, 0.1e-3, 40e-3),
    range(&["lug"],                       "wall",       L, 0.05e-3, 5e-3),
    // Fins: paper is a tenth of a millimetre, a plate of two centimetres is for rockets that take a crane.
    range(&["fins"],                      "thickness",  L, 0.2e-3, 25e-3),
    range(&["fins"],                      "root",       L, 5e-3,   1.5),
    range(&["fins"],                      "span",       L, 5e-3,   1.0),
    range(&["fins"],                      "tip",        L, 0.0,    1.5),
    range(&["bulkhead", "rings"],         "thickness",  L, 0.3e-3, 60e-3),
    range(&["mount"],                     "bore",       L, 5e-3,   0.3),
    range(&["mount"],                     "length",     L, 10e-3,  3.0),
    range(&["coupler"],                   "length",     L, 5e-3,   2.0),
    range(&["mount"],                     "sticks_out", L, 0.0,    0.3),
    // The way down: from a rocket of 10 g to one of 100 kg.
    range(&["parachute"],                 "diameter",   L, 40e-3, 12.0),
    range(&["streamer"],                  "length",     L, 50e-3, 15.0),
    range(&["streamer"],                  "width",      L, 5e-3,   1.0),
    range(&["cord"],                      "length",     L, 50e-3, 100.0),
    // Guides: rods of 1 to 25 mm, rails up to a hand's width.
    range(&["lug"],                       "bore",       L, 1e-3,   30e-3),
    range(&["lug", "rail_guide"],         "length",     L, 3e-3,   0.5),
    range(&["button", "rail_guide"],      "profile",    L, 5e-3,   0.15),
    range(&["motor"],                     "diameter",   L, 3e-3,   0.3),
    range(&["motor"],                     "length",     L, 8e-3,   3.0),
    range(&["motor"],                     "mass",       M, 0.3e-3, 150.0),
    range(&["motor"],                     "propellant", M, 0.05e-3, 120.0),
    range(&["motor"],                     "delay",      T, 0.0,    60.0),
    // Any other part: a hundredth of a gram of tape up to what four people lift.
    range(&[],                            "mass",       M, 0.005e-3, 200.0),
    range(&["rod"],                       "diameter",   L, 0.8e-3, 40e-3),
    range(&["rod", "rail"],               "length",     L, 0.15,  20.0),
    range(&["pad"],                       "stop",       L, 0.0,    3.0),
    // Fields from the Dead Sea's shore up to the highest roads; winds up to a hurricane's.
    range(&["site"],                      "elevation",  L, -430.0, 6000.0),
    range(&["site"],                      "temperature", Dimension::TEMPERATURE, 223.15, 328.15),
    range(&["site"],                      "pressure",   Dimension::PRESSURE, 45_000.0, 110_000.0),
    range(&["site"],                      "wind",       Dimension::SPEED, 0.0, 33.0),
    range(&["site"],                      "gust",       Dimension::SPEED, 0.0, 50.0),
];

/// Units that are offered instead, by how usual they are.
const UNITS: [&str; 14] = ["mm", "cm", "m", "in", "ft", "g", "kg", "oz", "lb", "s", "ms", "m/s", "km/h", "mph"];

fn check(cx: &Context, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for (word, field, amount) in amounts(cx) {
        let fits = |r: &&Range| r.field == field && (r.blocks.is_empty() || r.blocks.contains(&word));
        let Some(range) = RANGES.iter().find(fits) else { continue };
        let is_plausible = range.least * (1.0 - SLACK) <= amount.si && amount.si <= range.most * (1.0 + SLACK);
        // What is taken over from a part that it's like stands in one place, and may be another file's.
        if is_plausible || amount.place.file != FileId(0) || told.contains(&amount.place) {
            continue;
        }
        told.push(amount.place);
        let (side, limit) = if amount.si < range.least { ("less", range.least) } else { ("more", range.most) };
        let said = show::quantity(amount.si, range.dimension);
        let message = format!(
            "`{field}` of this {word} is {said}, {side} than any has ({})",
            show::quantity(limit, range.dimension)
        );
        let text = cx.design.text(amount.place);
        let finding = ODD_SIZE.finding(amount.place, message);
        out.push(match other_unit(text, range) {
            Some(meant) => {
                finding.help(format!("did you mean {meant}?")).fix(format!("write {meant}"), amount.place, meant)
            }
            None => finding.help("check the unit and the decimal point"),
        });
    }
}

/// What lies on a bound to within rounding is within it.
const SLACK: f64 = 1e-9;

/// The same number with another unit, where that is plausible.
fn other_unit(text: &str, range: &Range) -> Option<String> {
    let (number, unit) = text.trim().rsplit_once(' ')?;
    let (value, own) = (number.parse::<f64>().ok()?, find_unit(unit).ok()?);
    // Nobody writes 0.016 ft for 4.9 mm.
    if value.abs() < LEAST_WRITTEN {
        return None;
    }
    // A slip of the unit lands among usual sizes; one of the decimal point isn't taken for it.
    let (least, most) = (range.least * INSIDE, range.most / INSIDE);
    UNITS.iter().find_map(|other| {
        let unit = find_unit(other).ok()?;
        let si = value * unit.factor + unit.offset;
        let is_other = unit.dimension == range.dimension
            && own.dimension == range.dimension
            && (unit.factor, unit.offset) != (own.factor, own.offset);
        (is_other && least <= si && si <= most).then(|| format!("{number} {other}"))
    })
}

/// A number less than this is written in a smaller unit.
const LEAST_WRITTEN: f64 = 0.1;
/// How far inside of a range usual sizes lie.
const INSIDE: f64 = 3.0;

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
        None => {}
    }
}

fn of_site<'a>(site: &'a Site, all: &mut All<'a>) {
    all.extend([("site", "elevation", &site.elevation), ("site", "wind", &site.wind), ("site", "gust", &site.gust)]);
}
