//! SI numbers in the words of a person at the field: rounded to what can be read off a ruler or a scale, in the
//! reader's units first where [`crate::reader`] says so.

pub mod si;
mod us;

use crate::dimension::Dimension;
use crate::reader::{in_both, is_si_alone, is_us};
use crate::unit::{find_unit, INCH, MPH};
use us::Side;

/// A length: millimetres below 1 m, then metres.
pub fn length(m: f64) -> String {
    said(|| us::length(m, Side::Nearest), || si::length(m))
}

/// Two lengths that differ, in as many digits as it takes to see that.
pub fn lengths_apart(a: f64, b: f64) -> [String; 2] {
    apart(|digits| [a, b].map(|m| said(|| us::length_to(m, digits, Side::Nearest), || si::length_to(m, digits))))
}

/// A length of which more would do too; SI is rounded by whoever computed it.
pub fn length_at_least(m: f64) -> String {
    said(|| us::length(m, Side::Up), || si::length(m))
}

/// The length of a rod or rail as it is sold, in metres to the centimetre or in whole inches.
pub fn sold_length(m: f64) -> String {
    said(|| us::sold_length(m), || si::sold_length(m))
}

/// The same as its seller writes it in inches: `36 in` where one of 0.9 m is meant.
pub fn sold_length_in_inches(m: f64) -> String {
    us::sold_length(m)
}

/// The least length to which a rod or rail may be cut, in metres to the centimetre, to which whoever computed it has
/// rounded it up, or in whole inches.
pub fn cut_length(m: f64) -> String {
    said(|| us::cut_length(m), || format!("{} m", trimmed(m, 2)))
}

/// A length along the rocket, always in whole or tenth millimetres, since that's what a builder marks.
pub fn station(m: f64) -> String {
    said(|| us::station(m), || si::station(m))
}

/// The unit that lengths along the rocket are marked in: metres in one, its spelling, and the decimals that a mark by
/// hand is good for.
pub fn ruler() -> (f64, &'static str, usize) {
    if is_us() {
        (INCH, "in", 1)
    } else {
        (1e-3, "mm", 0)
    }
}

/// A mass: grams below 1 kg.
pub fn mass(kg: f64) -> String {
    said(|| us::mass(kg, Side::Nearest), || si::mass(kg))
}

/// Two masses that differ, in as many digits as it takes to see that.
pub fn masses_apart(a: f64, b: f64) -> [String; 2] {
    apart(|digits| [a, b].map(|kg| said(|| us::mass_to(kg, digits, Side::Nearest), || si::mass_to(kg, digits))))
}

/// A mass of which more would do too.
pub fn mass_at_least(kg: f64) -> String {
    said(|| us::mass(kg, Side::Up), || si::mass(kg))
}

/// A mass of which more would do too, in whole grams.
pub fn grams_at_least(kg: f64) -> String {
    said(|| us::mass(kg, Side::Up), || format!("{} g", (kg * 1e3).ceil()))
}

/// A mass of which less would do too.
pub fn mass_at_most(kg: f64) -> String {
    said(|| us::mass(kg, Side::Down), || si::mass(kg))
}

/// A speed in m/s with one decimal.
pub fn speed(m_s: f64) -> String {
    said(|| us::speed(m_s, 1, Side::Nearest), || si::speed(m_s))
}

/// A speed of which less would do too.
pub fn speed_at_most(m_s: f64) -> String {
    said(|| us::speed(m_s, 1, Side::Down), || si::speed(m_s))
}

/// Two speeds that differ, in as many digits as it takes to see that.
pub fn speeds_apart(a: f64, b: f64) -> [String; 2] {
    apart(|digits| {
        let decimals = 1 + digits - DIGITS;
        [a, b].map(|m_s| said(|| us::speed(m_s, decimals, Side::Nearest), || si::speed_to(m_s, decimals)))
    })
}

/// A speed in m/s with two decimals, for one whose tolerance is small.
pub fn speed_to_hundredths(m_s: f64) -> String {
    said(|| us::speed(m_s, 2, Side::Nearest), || si::speed_to_hundredths(m_s))
}

/// A speed of coming down under a parachute.
pub fn descent(m_s: f64) -> String {
    said(|| us::descent(m_s), || si::speed(m_s))
}

/// A speed with the units that readers think in beside it: `13.4 m/s (48 km/h, 30 mph)`; where theirs come first
/// anyway, nothing more.
pub fn speed_for_reader(m_s: f64) -> String {
    speed(m_s) + &speed_beside(m_s)
}

/// The units that readers think in, to stand behind a speed in m/s: ` (48 km/h, 30 mph)`.
pub fn speed_beside(m_s: f64) -> String {
    if !is_si_alone() {
        return String::new();
    }
    format!(" ({:.0} km/h, {:.0} mph)", m_s * 3.6, m_s / MPH)
}

/// A speed without its unit, for a column under [`speed_unit`].
pub fn speed_number(m_s: f64) -> String {
    trimmed(m_s / speed_scale(), 1)
}

/// The same for one of which less would do too; SI is rounded by whoever computed it.
pub fn speed_number_at_most(m_s: f64) -> String {
    if is_us() {
        us::to_side(m_s / MPH, 1, Side::Down)
    } else {
        trimmed(m_s, 1)
    }
}

/// The unit that speeds are read in, in m/s: see [`speed_unit`].
pub fn speed_scale() -> f64 {
    if is_us() {
        MPH
    } else {
        1.0
    }
}

/// A drill in thousandths of an inch, as they are sold.
pub fn drill_in_inches(m: f64) -> String {
    format!("{} in", trimmed(m / INCH, 3))
}

/// The unit of [`speed_number`].
pub fn speed_unit() -> &'static str {
    if is_us() {
        "mph"
    } else {
        "m/s"
    }
}

/// A time in seconds.
pub fn time(s: f64) -> String {
    format!("{} s", significant(s, 3, 3))
}

/// A force in newtons.
pub fn force(n: f64) -> String {
    said(|| us::force(n, Side::Nearest), || si::force(n))
}

/// A force of which more would do too.
pub fn force_at_least(n: f64) -> String {
    said(|| us::force(n, Side::Up), || si::force(n))
}

/// An energy in joules, to two digits.
pub fn energy(j: f64) -> String {
    said(|| us::energy(j), || si::energy(j))
}

/// A volume in cubic centimetres.
pub fn volume(m3: f64) -> String {
    said(|| us::volume(m3), || si::volume(m3))
}

/// A moment of inertia: g.m2 below 0.1 kg.m2.
pub fn inertia(kg_m2: f64) -> String {
    if kg_m2.abs() < 0.1 {
        format!("{} g.m2", significant(kg_m2 * 1e3, 4, 3))
    } else {
        format!("{} kg.m2", significant(kg_m2, 4, 3))
    }
}

/// An angle, given in radians, in degrees.
pub fn angle(rad: f64) -> String {
    format!("{}°", significant(rad.to_degrees(), 3, 2))
}

/// A plain number to three significant digits.
pub fn number(x: f64) -> String {
    significant(x, 3, 3)
}

/// Any quantity, in the unit that suits its dimension.
pub fn quantity(si: f64, dimension: Dimension) -> String {
    said(|| us::quantity(si, dimension).unwrap_or_else(|| si::quantity(si, dimension)), || si::quantity(si, dimension))
}

/// A difference of two quantities, such as a tolerance: a temperature's has no zero to count from.
pub fn difference(si: f64, dimension: Dimension) -> String {
    match dimension {
        Dimension::TEMPERATURE => said(|| format!("{} °F", trimmed(si * 1.8, 1)), || format!("{} °C", trimmed(si, 1))),
        other => quantity(si, other),
    }
}

/// A number in a unit of SI, in the unit that suits it for a reader of others; the unit may be any word.
pub fn written(x: f64, unit: &str) -> String {
    let si = || format!("{} {unit}", number(x)).trim_end().to_string();
    match find_unit(unit) {
        Ok(known) if us::quantity(x, known.dimension).is_some() => {
            said(|| difference(x * known.factor, known.dimension), si)
        }
        _ => si(),
    }
}

/// A tolerance: two digits tell all there is to tell, however small it is.
pub fn tolerance(x: f64) -> String {
    significant(x, 2, 1)
}

/// A value with its tolerance, rounded alike: `352.1 ± 1.8`.
pub fn with_tolerance(value: f64, tolerance: f64, decimals: usize) -> String {
    if tolerance == 0.0 {
        return trimmed(value, decimals);
    }
    format!("{value:.decimals$} ± {tolerance:.decimals$}")
}

/// Round to so many significant digits, but show no more decimals than asked for, and no trailing zeros.
pub fn significant(x: f64, digits: i32, most_decimals: i32) -> String {
    trimmed(x, decimals(x, digits, most_decimals) as usize)
}

/// How many decimals show so many significant digits of a number, but no more than asked for.
fn decimals(x: f64, digits: i32, most_decimals: i32) -> i32 {
    if x == 0.0 || !x.is_finite() {
        return 0;
    }
    let magnitude = x.abs().log10().floor() as i32;
    let wanted = (digits - 1 - magnitude).max(0);
    // A number far below the last decimal shown would read as zero, which isn't true: let it have its first digit.
    let decimals = if magnitude < -most_decimals { -magnitude } else { wanted.min(most_decimals) };
    decimals.clamp(0, 12)
}

/// So many decimals, without trailing zeros and without a negative zero; from a thousand million on, a power of ten.
pub fn trimmed(x: f64, decimals: usize) -> String {
    // Digits beyond these are noise, and a row of zeros is hard to count.
    if x.abs() >= 1e9 {
        return format!("{x:.3e}");
    }
    let text = format!("{x:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" {
        "0".to_string()
    } else {
        text.to_string()
    }
}

/// What is shown in the fewest digits in which it isn't twice the same, from [`DIGITS`] on.
fn apart(shown: impl Fn(i32) -> [String; 2]) -> [String; 2] {
    (DIGITS..=MOST_DIGITS).map(&shown).find(|[a, b]| a != b).unwrap_or_else(|| shown(DIGITS))
}

/// Of a measure on a builder's bench, and those beyond which nothing is measured there.
const DIGITS: i32 = 3;
const MOST_DIGITS: i32 = 8;

/// The reader's units with SI in brackets, or what of the two is wanted.
fn said(theirs: impl Fn() -> String, si: impl Fn() -> String) -> String {
    in_both(|| if is_us() { theirs() } else { si() })
}
