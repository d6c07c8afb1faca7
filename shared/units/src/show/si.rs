//! The same in SI, whoever reads: for values that somebody types, and for what a program reads.

use super::{apart, number, significant, trimmed, DIGITS};
use crate::dimension::Dimension;

/// A length: millimetres below 1 m, then metres.
pub fn length(m: f64) -> String {
    length_to(m, DIGITS)
}

/// Two lengths that differ, in as many digits as it takes to see that.
pub fn lengths_apart(a: f64, b: f64) -> [String; 2] {
    apart(|digits| [a, b].map(|m| length_to(m, digits)))
}

/// To so many digits, at least [`DIGITS`].
pub(super) fn length_to(m: f64, digits: i32) -> String {
    let more = digits - DIGITS;
    if m.abs() < 0.9995 {
        format!("{} mm", significant(m * 1e3, digits, more + if m.abs() < 0.01 { 2 } else { 1 }))
    } else {
        format!("{} m", significant(m, digits, more + 2))
    }
}

/// A length along the rocket, always in whole or tenth millimetres, since that's what a builder marks.
pub fn station(m: f64) -> String {
    let mm = m * 1e3;
    if mm.abs() < 100.0 {
        format!("{} mm", trimmed(mm, 1))
    } else {
        format!("{} mm", trimmed(mm, 0))
    }
}

/// A mass: grams below 1 kg.
pub fn mass(kg: f64) -> String {
    mass_to(kg, DIGITS)
}

/// To so many digits, at least [`DIGITS`].
pub(super) fn mass_to(kg: f64, digits: i32) -> String {
    let more = digits - DIGITS;
    if kg.abs() < 0.9995 {
        format!("{} g", significant(kg * 1e3, digits, more + 1))
    } else {
        format!("{} kg", significant(kg, digits, more + 2))
    }
}

/// A speed in m/s with one decimal.
pub fn speed(m_s: f64) -> String {
    speed_to(m_s, 1)
}

/// A speed in m/s with two decimals.
pub fn speed_to_hundredths(m_s: f64) -> String {
    speed_to(m_s, 2)
}

pub(super) fn speed_to(m_s: f64, decimals: i32) -> String {
    format!("{} m/s", trimmed(m_s, decimals as usize))
}

/// A force in newtons.
pub fn force(n: f64) -> String {
    format!("{} N", significant(n, 3, 2))
}

/// An energy in joules, to two digits.
pub fn energy(j: f64) -> String {
    format!("{} J", significant(j, 2, 2))
}

/// A volume in cubic centimetres.
pub fn volume(m3: f64) -> String {
    format!("{} cm3", number(m3 * 1e6))
}

/// Any quantity, in the unit that suits its dimension.
pub fn quantity(si: f64, dimension: Dimension) -> String {
    match dimension {
        Dimension::LENGTH => length(si),
        Dimension::MASS => mass(si),
        Dimension::SPEED => speed(si),
        Dimension::TIME => super::time(si),
        Dimension::FORCE => force(si),
        Dimension::ANGLE => super::angle(si),
        Dimension::NUMBER => number(si),
        Dimension::IMPULSE => format!("{} N.s", number(si)),
        Dimension::ENERGY => format!("{} J", number(si)),
        Dimension::DENSITY => format!("{} kg/m3", number(si)),
        Dimension::TEMPERATURE => format!("{} °C", trimmed(si - 273.15, 1)),
        Dimension::PRESSURE if si.abs() >= 1e9 => format!("{} GPa", number(si / 1e9)),
        Dimension::PRESSURE => format!("{} hPa", number(si / 100.0)),
        Dimension::ACCELERATION => format!("{} m/s2", number(si)),
        Dimension::AREA => format!("{} cm2", number(si * 1e4)),
        Dimension::SECOND_MOMENT => format!("{} mm4", number(si * 1e12)),
        Dimension::CALIBRES => format!("{} cal", number(si)),
        other => format!("{} {}", number(si), other.base_units()),
    }
}

/// The length of a rod or rail as it is sold, in metres to the centimetre.
pub fn sold_length(m: f64) -> String {
    format!("{} m", trimmed(m, 2))
}
