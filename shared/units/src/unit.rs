//! The units a reader may write, each with its factor to SI.
//!
//! Factors are those of NIST SP 811 Appendix B; each exact by definition where the reader's unit is defined by one
//! (inch, pound, pound-force, knot, mile per hour), otherwise rounded there as printed.

use crate::dimension::Dimension;
use fnv::FnvHashMap;
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

/// Whether [`find_unit`] knows a spelling, for where it doesn't matter what else it may have meant.
pub fn is_unit(spelling: &str) -> bool {
    single(spelling).is_some() || refusal(spelling).is_none() && combination(spelling).is_some()
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

static BY_SPELLING: LazyLock<FnvHashMap<&'static str, Unit>> = LazyLock::new(|| spellings().collect());

fn single(spelling: &str) -> Option<Unit> {
    BY_SPELLING.get(spelling).copied()
}

/// What a refused spelling may mean, for where it's known what is due: `lbs` is `lb` where a mass is, `lbf` where a
/// force is.
pub fn readings(spelling: &str) -> &'static [&'static str] {
    match spelling {
        "lbs" | "Lbs" | "LBS" | "pound" | "pounds" => &["lb", "lbf"],
        "ounce" | "ounces" | "ozs" | "OZ" | "Oz" => &["oz", "ozf"],
        "Ns" | "Nsec" => &["N.s"],
        "C" | "Celsius" | "celsius" | "centigrade" => &["°C"],
        "F" | "Fahrenheit" | "fahrenheit" => &["°F"],
        _ => &[],
    }
}

fn refusal(spelling: &str) -> Option<&'static str> {
    Some(match spelling {
        "gr" => {
            "`gr` is read by some as grams (write `g`) and by others as grains (1 grain = 64.8 mg); write the one \
            you mean in `g` or `mg`"
        }
        "Ns" | "Nsec" => "thrust over time is written with a dot: `N.s`",
        "\"" => "write inches as `in`",
        "'" => "write feet as `ft`",
        "C" | "Celsius" | "celsius" | "centigrade" => "write `°C` or `degC`",
        "F" | "Fahrenheit" | "fahrenheit" => "write `°F` or `degF`",
        "lbs" | "Lbs" | "LBS" | "pound" | "pounds" => "write `lb` for a mass or `lbf` for a force",
        "ounce" | "ounces" | "ozs" | "OZ" | "Oz" => "write `oz` for a mass or `ozf` for a force",
        "yd" | "yard" | "yards" => "a yard is 3 ft; write feet as `ft`",
        "bar" => "a bar is 1000 hPa; write pressures in `hPa`",
        "kgf" | "kp" | "gf" => "forces are in `N`: a kilogram weighs 9.81 N",
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
        "gram" | "grams" | "gramme" | "grammes" | "gramm" | "gm" | "gms" | "gs" => Some("g"),
        "kilo" | "kilos" | "kgs" | "kilogram" | "kilograms" | "kilogramme" | "kilogrammes" => Some("kg"),
        "milligram" | "milligrams" => Some("mg"),
        "lbm" => Some("lb"),
        "inches" | "inchs" | "ins" => Some("in"),
        "feet" | "foot" => Some("ft"),
        "thou" | "mils" => Some("mil"),
        "metre" | "meter" | "metres" | "meters" | "mtr" | "mtrs" | "mt" => Some("m"),
        "centimetre" | "centimeter" | "centimetres" | "centimeters" | "cms" => Some("cm"),
        "millimetre" | "millimeter" | "millimetres" | "millimeters" | "mms" => Some("mm"),
        "kilometre" | "kilometer" | "kilometres" | "kilometers" | "kms" => Some("km"),
        "micron" | "microns" | "micrometre" | "micrometer" => Some("um"),
        "sec" | "secs" | "second" | "seconds" => Some("s"),
        "msec" | "msecs" | "millisecond" | "milliseconds" => Some("ms"),
        "minute" | "minutes" | "mins" => Some("min"),
        "hour" | "hours" | "hr" | "hrs" => Some("h"),
        "newton" | "newtons" => Some("N"),
        "degree" | "degrees" | "degs" => Some("deg"),
        "radian" | "radians" => Some("rad"),
        "kelvin" | "kelvins" => Some("K"),
        "deg_c" | "degreesc" => Some("°C"),
        "deg_f" | "degreesf" => Some("°F"),
        "pascal" | "pascals" => Some("Pa"),
        "mbar" | "mbars" | "millibar" | "millibars" | "mb" => Some("hPa"),
        "knots" | "knot" | "kts" => Some("kt"),
        "kph" | "kmh" | "kmph" | "kmhr" | "km/hr" => Some("km/h"),
        "mps" | "ms/s" | "m/sec" => Some("m/s"),
        "fps" | "ft/sec" => Some("ft/s"),
        "mi/h" => Some("mph"),
        "g/cc" | "g/ccm" | "gcc" => Some("g/cm3"),
        "percent" | "pct" => Some("%"),
        "caliber" | "calibers" | "cals" => Some("cal"),
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn other_words_lead_to_units_that_there_are() {
        for (word, meant) in [
            ("grams", "g"),
            ("Gramm", "g"),
            ("kilos", "kg"),
            ("inches", "in"),
            ("mtr", "m"),
            ("centimeters", "cm"),
            ("mms", "mm"),
            ("secs", "s"),
            ("degrees", "deg"),
            ("mbar", "hPa"),
            ("km/hr", "km/h"),
            ("fps", "ft/s"),
            ("g/cc", "g/cm3"),
            ("MM", "mm"),
        ] {
            assert_eq!(find_unit(word), Err(UnitError::Unknown(Some(meant))), "{word}");
            assert!(find_unit(meant).is_ok(), "{meant}");
        }
    }

    #[test]
    fn a_refused_spelling_has_one_reading_of_a_kind() {
        for word in ["lbs", "pounds", "ounces", "Ns", "C", "F"] {
            assert!(matches!(find_unit(word), Err(UnitError::Refused(_))), "{word}");
            let kinds: Vec<Dimension> =
                readings(word).iter().filter_map(|r| find_unit(r).ok()).map(|u| u.dimension).collect();
            assert_eq!(kinds.len(), readings(word).len(), "{word}");
            assert!(
                !kinds.is_empty() && kinds.iter().enumerate().all(|(i, kind)| !kinds[..i].contains(kind)),
                "{word}"
            );
        }
    }
}
