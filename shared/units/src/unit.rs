//! The units a reader may write, each with its factor to SI.
//!
//! Factors are those of NIST SP 811 Appendix B; each exact by definition where the reader's unit is defined by one
//! (inch, pound, pound-force, knot, mile per hour), otherwise rounded there as printed.

use crate::dimension::Dimension;
use std::collections::HashMap;
use std::sync::LazyLock;

/// A unit as written: how to get from its numbers to SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// What it measures.
    pub dimension: Dimension,
    /// SI value of one of it.
    pub factor: f64,
    /// SI value of its zero; only the temperature scales have one.
    pub offset: f64,
}

/// Find a unit by its spelling: a single unit (`mm`, `°C`) or a combination (`kg/m3`, `N.s`, `m/s`).
///
/// A combination is units joined by `.`, `·`, `*` or `/`, each with an optional whole exponent (`m3`, `m^3`, `m³`).
pub fn find_unit(spelling: &str) -> Result<Unit, UnitError> {
    if let Some(unit) = single(spelling) {
        return Ok(unit);
    }
    if let Some(reason) = refusal(spelling) {
        return Err(UnitError::Refused(reason));
    }
    combination(spelling).ok_or_else(|| UnitError::Unknown(nearest(spelling)))
}

/// Why a spelling isn't a unit here.
#[derive(Clone, Debug, PartialEq)]
pub enum UnitError {
    /// No such unit; the closest spelling that there is.
    Unknown(Option<&'static str>),
    /// The spelling has several readings or isn't what it seems; the sentence says which.
    Refused(&'static str),
}

/// Every single-unit spelling, for completion and for tests: spelling and unit.
pub fn spellings() -> impl Iterator<Item = (&'static str, Unit)> {
    UNITS.iter().flat_map(|(names, unit)| names.iter().map(|n| (*n, *unit)))
}

const fn unit(dimension: Dimension, factor: f64) -> Unit {
    Unit { dimension, factor, offset: 0.0 }
}

pub(crate) const LBF: f64 = 4.448_221_615_260_5;
pub(crate) const INCH: f64 = 0.0254;
pub(crate) const FOOT: f64 = 0.3048;
pub(crate) const POUND: f64 = 0.453_592_37;
pub(crate) const MPH: f64 = 0.44704;

/// Spellings and units. The first spelling is the one that the formatter and messages use.
static UNITS: &[(&[&str], Unit)] = {
    use std::f64::consts::PI;
    type D = Dimension;
    &[
        (&["mm"], unit(D::LENGTH, 1e-3)),
        (&["cm"], unit(D::LENGTH, 1e-2)),
        (&["m"], unit(D::LENGTH, 1.0)),
        (&["km"], unit(D::LENGTH, 1e3)),
        (&["µm", "um", "μm"], unit(D::LENGTH, 1e-6)),
        (&["in", "inch"], unit(D::LENGTH, INCH)),
        (&["ft"], unit(D::LENGTH, FOOT)),
        (&["mil"], unit(D::LENGTH, INCH / 1000.0)),
        (&["mg"], unit(D::MASS, 1e-6)),
        (&["g"], unit(D::MASS, 1e-3)),
        (&["kg"], unit(D::MASS, 1.0)),
        (&["oz"], unit(D::MASS, POUND / 16.0)),
        (&["lb"], unit(D::MASS, POUND)),
        (&["s"], unit(D::TIME, 1.0)),
        (&["ms"], unit(D::TIME, 1e-3)),
        (&["min"], unit(D::TIME, 60.0)),
        (&["h"], unit(D::TIME, 3600.0)),
        (&["N"], unit(D::FORCE, 1.0)),
        (&["kN"], unit(D::FORCE, 1e3)),
        (&["lbf"], unit(D::FORCE, LBF)),
        (&["ozf"], unit(D::FORCE, LBF / 16.0)),
        (&["mph"], unit(D::SPEED, MPH)),
        (&["kt"], unit(D::SPEED, 1852.0 / 3600.0)),
        (&["deg", "°"], unit(D::ANGLE, PI / 180.0)),
        (&["rad"], unit(D::ANGLE, 1.0)),
        (&["Pa"], unit(D::PRESSURE, 1.0)),
        (&["hPa"], unit(D::PRESSURE, 1e2)),
        (&["kPa"], unit(D::PRESSURE, 1e3)),
        (&["MPa"], unit(D::PRESSURE, 1e6)),
        (&["GPa"], unit(D::PRESSURE, 1e9)),
        (&["psi"], unit(D::PRESSURE, LBF / (INCH * INCH))),
        (&["inHg"], unit(D::PRESSURE, 3386.389)),
        (&["J"], unit(D::ENERGY, 1.0)),
        (&["K"], unit(D::TEMPERATURE, 1.0)),
        (&["°C", "degC"], Unit { dimension: D::TEMPERATURE, factor: 1.0, offset: 273.15 }),
        (&["°F", "degF"], Unit { dimension: D::TEMPERATURE, factor: 5.0 / 9.0, offset: 459.67 * 5.0 / 9.0 }),
        (&["%"], unit(D::NUMBER, 0.01)),
        (&["cal", "calibre", "calibres"], unit(D::CALIBRES, 1.0)),
    ]
};

static BY_SPELLING: LazyLock<HashMap<&'static str, Unit>> = LazyLock::new(|| spellings().collect());

fn single(spelling: &str) -> Option<Unit> {
    BY_SPELLING.get(spelling).copied()
}

fn refusal(spelling: &str) -> Option<&'static str> {
    Some(match spelling {
        "gr" => "`gr` is read by some as grams (write `g`) and by others as grains (1 grain = 64.8 mg); write the one you mean in `g` or `mg`",
        "Ns" => "thrust over time is written with a dot: `N.s`",
        "\"" => "write inches as `in`",
        "'" => "write feet as `ft`",
        "C" => "write `°C` or `degC`",
        "F" => "write `°F` or `degF`",
        "lbs" => "write `lb` for a mass or `lbf` for a force",
        _ => return None,
    })
}

fn combination(spelling: &str) -> Option<Unit> {
    let mut result = unit(Dimension::NUMBER, 1.0);
    let mut sign = 1i8;
    let mut rest = spelling;
    loop {
        let end = rest.find(['/', '.', '*', '·']).unwrap_or(rest.len());
        let (factor, exponent) = with_exponent(&rest[..end])?;
        // A temperature's offset has no meaning inside a combination.
        if factor.offset != 0.0 {
            return None;
        }
        let power = exponent.checked_mul(sign)?;
        result.dimension = result.dimension.times(factor.dimension.power(power));
        result.factor *= factor.factor.powi(i32::from(power));
        let mut after = rest[end..].chars();
        match after.next() {
            None => return Some(result),
            Some('/') => sign = -1,
            Some(_) => sign = 1,
        }
        rest = after.as_str();
    }
}

fn with_exponent(atom: &str) -> Option<(Unit, i8)> {
    if let Some(unit) = single(atom) {
        return Some((unit, 1));
    }
    let last = atom.chars().last()?;
    let exponent = match last {
        '1'..='9' => last as i8 - b'0' as i8,
        '²' => 2,
        '³' => 3,
        '⁴' => 4,
        _ => return None,
    };
    let stem = atom[..atom.len() - last.len_utf8()].trim_end_matches('^');
    Some((single(stem)?, exponent))
}

/// The unit spelled most like this one, if one is close: same letters in another case first, then one letter away.
fn nearest(spelling: &str) -> Option<&'static str> {
    let wanted = spelling.to_lowercase();
    let by_word = match wanted.as_str() {
        "gram" | "grams" | "gm" | "gms" => Some("g"),
        "inches" => Some("in"),
        "feet" | "foot" => Some("ft"),
        "metre" | "meter" | "metres" | "meters" => Some("m"),
        "millimetre" | "millimeter" | "millimetres" | "millimeters" => Some("mm"),
        "sec" | "secs" | "second" | "seconds" => Some("s"),
        "newton" | "newtons" => Some("N"),
        "degree" | "degrees" => Some("deg"),
        "knots" | "knot" | "kts" => Some("kt"),
        "kph" | "kmh" => Some("km/h"),
        "mps" => Some("m/s"),
        "percent" => Some("%"),
        _ => None,
    };
    by_word.or_else(|| {
        spellings()
            .map(|(name, _)| name)
            .filter(|name| name.to_lowercase() == wanted)
            .chain(
                spellings()
                    .map(|(name, _)| name)
                    .filter(|name| wanted.len() > 1 && name.len() > 1 && one_letter_apart(name, spelling)),
            )
            .next()
    })
}

fn one_letter_apart(a: &str, b: &str) -> bool {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let (short, long) = if a.len() <= b.len() { (&a, &b) } else { (&b, &a) };
    match long.len() - short.len() {
        0 => short.iter().zip(long.iter()).filter(|(x, y)| x != y).count() == 1,
        1 => (0..long.len())
            .any(|skip| long.iter().enumerate().filter(|(i, _)| *i != skip).map(|(_, c)| c).eq(short.iter())),
        _ => false,
    }
}
