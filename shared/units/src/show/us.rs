//! What a flyer in the United States reads: inches along the rocket, feet from ten feet up, ounces below a pound, miles
//! an hour. What has no customary unit there that flyers use, as impulse or stiffness, stays in SI.

use super::{decimals, number, significant, trimmed, DIGITS};
use crate::dimension::Dimension;
use crate::unit::{FOOT, INCH, LBF, MPH, POUND};

/// To which side a value is rounded: to the one that still passes.
#[derive(Clone, Copy)]
pub(super) enum Side {
    Nearest,
    Up,
    Down,
}

/// Inches below ten feet, then feet.
pub(super) fn length(m: f64, side: Side) -> String {
    length_to(m, DIGITS, side)
}

/// To so many digits, at least [`DIGITS`].
pub(super) fn length_to(m: f64, digits: i32, side: Side) -> String {
    let more = digits - DIGITS;
    if m.abs() < 10.0 * FOOT {
        let inches = m / INCH;
        format!("{} in", rounded(inches, digits, more + if inches.abs() < 1.0 { 3 } else { 2 }, side))
    } else {
        format!("{} ft", rounded(m / FOOT, digits, more, side))
    }
}

/// In whole inches, rounded up.
pub fn cut_length(m: f64) -> String {
    format!("{} in", to_side(m / INCH, 0, Side::Up))
}

/// Whole feet in inches, where a metric length is one as sold (0.9 m for 36 in), else whole inches.
pub(super) fn sold_length(m: f64) -> String {
    /// A metric length falls short of the feet that it stands for by this share at most.
    const SHORT: f64 = 0.03;
    let feet = (m / FOOT - 1e-9).ceil();
    let inches = if feet * FOOT <= m * (1.0 + SHORT) { 12.0 * feet } else { (m / INCH - 1e-9).ceil() };
    format!("{} in", trimmed(inches, 0))
}

/// Hundredths of an inch, as a decimal ruler has them.
pub(super) fn station(m: f64) -> String {
    format!("{} in", trimmed(m / INCH, 2))
}

/// Ounces below a pound, then pounds.
pub(super) fn mass(kg: f64, side: Side) -> String {
    mass_to(kg, DIGITS, side)
}

/// To so many digits, at least [`DIGITS`].
pub(super) fn mass_to(kg: f64, digits: i32, side: Side) -> String {
    let more = digits - DIGITS;
    let ounces = kg * 16.0 / POUND;
    if ounces.abs() < 0.995 {
        format!("{} oz", rounded(ounces, digits - 1, more + 3, side))
    } else if ounces.abs() < 2.995 {
        format!("{} oz", rounded(ounces, digits, more + 2, side))
    } else if ounces.abs() < 15.95 {
        format!("{} oz", rounded(ounces, digits, more + 1, side))
    } else {
        format!("{} lb", rounded(kg / POUND, digits, more + 2, side))
    }
}

/// Miles an hour with so many decimals.
pub(super) fn speed(m_s: f64, decimals: i32, side: Side) -> String {
    format!("{} mph", to_side(m_s / MPH, decimals, side))
}

/// Feet a second, in which descents are told.
pub(super) fn descent(m_s: f64) -> String {
    format!("{} ft/s", trimmed(m_s / FOOT, 1))
}

/// Ounces of force below a pound, then pounds.
pub(super) fn force(n: f64, side: Side) -> String {
    let ounces = n * 16.0 / LBF;
    if ounces.abs() < 15.95 {
        format!("{} ozf", rounded(ounces, 3, if ounces.abs() < 1.0 { 2 } else { 1 }, side))
    } else {
        format!("{} lbf", rounded(n / LBF, 3, 1, side))
    }
}

/// Foot-pounds.
pub(super) fn energy(j: f64) -> String {
    format!("{} ft.lbf", significant(j / (FOOT * LBF), 2, 2))
}

/// Cubic inches.
pub(super) fn volume(m3: f64) -> String {
    format!("{} in3", significant(m3 / INCH.powi(3), 3, 2))
}

/// Any quantity for which there is such a unit.
pub(super) fn quantity(si: f64, dimension: Dimension) -> Option<String> {
    Some(match dimension {
        Dimension::LENGTH => length(si, Side::Nearest),
        Dimension::MASS => mass(si, Side::Nearest),
        Dimension::SPEED => speed(si, 1, Side::Nearest),
        Dimension::FORCE => force(si, Side::Nearest),
        Dimension::ENERGY => energy(si),
        Dimension::VOLUME => volume(si),
        Dimension::DENSITY => format!("{} lb/ft3", significant(si * FOOT.powi(3) / POUND, 3, 2)),
        Dimension::TEMPERATURE => format!("{} °F", trimmed((si - 273.15) * 1.8 + 32.0, 0)),
        Dimension::PRESSURE if si.abs() < 1e6 => format!("{} inHg", trimmed(si / 3386.389, 2)),
        Dimension::ACCELERATION => format!("{} ft/s2", number(si / FOOT)),
        Dimension::AREA => format!("{} in2", significant(si / (INCH * INCH), 3, 3)),
        _ => return None,
    })
}

/// To so many digits, no more decimals than these, and to one side.
fn rounded(x: f64, digits: i32, most_decimals: i32, side: Side) -> String {
    to_side(x, decimals(x, digits, most_decimals), side)
}

/// To so many decimals and to one side; digits that only the arithmetic of the machine brings in don't count as more.
pub(super) fn to_side(x: f64, decimals: i32, side: Side) -> String {
    const NOISE: f64 = 1e-6;
    let scale = 10f64.powi(decimals);
    let x = match side {
        Side::Nearest => x,
        Side::Up => (x * scale - NOISE).ceil() / scale,
        Side::Down => (x * scale + NOISE).floor() / scale,
    };
    trimmed(x, decimals.clamp(0, 12) as usize)
}
