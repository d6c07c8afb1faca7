//! SI numbers in the words of a person at the field: rounded to what can be read off a ruler or a scale.

use crate::dimension::Dimension;

/// A length: millimetres below 1 m, then metres.
pub fn length(m: f64) -> String {
    if m.abs() < 0.9995 {
        format!("{} mm", significant(m * 1e3, 3, if m.abs() < 0.01 { 2 } else { 1 }))
    } else {
        format!("{} m", significant(m, 3, 2))
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
    if kg.abs() < 0.9995 {
        format!("{} g", significant(kg * 1e3, 3, 1))
    } else {
        format!("{} kg", significant(kg, 3, 2))
    }
}

/// A speed in m/s with one decimal.
pub fn speed(m_s: f64) -> String {
    format!("{} m/s", trimmed(m_s, 1))
}

/// A speed in m/s with two decimals, for one whose tolerance is small.
pub fn speed_to_hundredths(m_s: f64) -> String {
    format!("{} m/s", trimmed(m_s, 2))
}

/// A speed with the units that readers think in beside it: `13.4 m/s (48 km/h, 30 mph)`.
pub fn speed_for_reader(m_s: f64) -> String {
    speed(m_s) + &speed_beside(m_s)
}

/// The units that readers think in, to stand behind a speed in m/s: ` (48 km/h, 30 mph)`.
pub fn speed_beside(m_s: f64) -> String {
    format!(" ({:.0} km/h, {:.0} mph)", m_s * 3.6, m_s / 0.44704)
}

/// A moment of inertia: g.m2 below 0.1 kg.m2.
pub fn inertia(kg_m2: f64) -> String {
    if kg_m2.abs() < 0.1 {
        format!("{} g.m2", significant(kg_m2 * 1e3, 4, 3))
    } else {
        format!("{} kg.m2", significant(kg_m2, 4, 3))
    }
}

/// A time in seconds.
pub fn time(s: f64) -> String {
    format!("{} s", significant(s, 3, 3))
}

/// A force in newtons.
pub fn force(n: f64) -> String {
    format!("{} N", significant(n, 3, 2))
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
    match dimension {
        Dimension::LENGTH => length(si),
        Dimension::MASS => mass(si),
        Dimension::SPEED => speed(si),
        Dimension::TIME => time(si),
        Dimension::FORCE => force(si),
        Dimension::ANGLE => angle(si),
        Dimension::NUMBER => number(si),
        Dimension::IMPULSE => format!("{} N.s", number(si)),
        Dimension::ENERGY => format!("{} J", number(si)),
        Dimension::DENSITY => format!("{} kg/m3", number(si)),
        Dimension::TEMPERATURE => format!("{} °C", trimmed(si - 273.15, 1)),
        Dimension::PRESSURE if si.abs() >= 1e9 => format!("{} GPa", number(si / 1e9)),
        Dimension::PRESSURE => format!("{} hPa", number(si / 100.0)),
        Dimension::AREA => format!("{} cm2", number(si * 1e4)),
        Dimension::SECOND_MOMENT => format!("{} mm4", number(si * 1e12)),
        Dimension::CALIBRES => format!("{} cal", number(si)),
        other => format!("{} {}", number(si), other.base_units()),
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
    if x == 0.0 || !x.is_finite() {
        return trimmed(x, 0);
    }
    let magnitude = x.abs().log10().floor() as i32;
    let wanted = (digits - 1 - magnitude).max(0);
    // A number far below the last decimal shown would read as zero, which isn't true: let it have its first digit.
    let decimals = if magnitude < -most_decimals { -magnitude } else { wanted.min(most_decimals) };
    trimmed(x, decimals.clamp(0, 12) as usize)
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
