//! Pressure and suction coefficients of faces, bases and fin edges, by Mach number.

use crate::air::power;

/// The shape of a fin's edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Cut square.
    Blunt,
    /// Half round.
    Rounded,
    /// Brought to a thin edge.
    Sharp,
}

/// Pressure on a face square to the stream: 0.85 (1 + M²/4 + M⁴/40) below Mach 1, and Barrowman's
/// series above it (from memory).
pub fn stagnation(mach: f64) -> f64 {
    let m2 = mach * mach;
    if mach < 1.0 {
        0.85 * (1.0 + m2 / 4.0 + m2 * m2 / 40.0)
    } else {
        0.85 * (1.84 - 0.76 / m2 + 0.166 / (m2 * m2) + 0.035 / (m2 * m2 * m2))
    }
}

/// Suction on a base: 0.12 + 0.13 M² below Mach 1, 0.25/M above (from memory).
pub fn base_suction(mach: f64) -> f64 {
    if mach < 1.0 {
        0.12 + 0.13 * mach * mach
    } else {
        0.25 / mach
    }
}

/// Pressure on an unswept front edge, on its frontal area. Rounded: (1 − M²)^−0.417 − 1 up to
/// Mach 0.9, then Barrowman's continuation (from memory); sharp: none.
pub fn leading_pressure(edge: Edge, mach: f64) -> f64 {
    let m2 = mach * mach;
    match edge {
        Edge::Blunt => stagnation(mach),
        Edge::Sharp => 0.0,
        Edge::Rounded if mach < 0.9 => power(1.0 - m2, -0.417) - 1.0,
        Edge::Rounded if mach < 1.0 => 1.0 - 1.785 * (mach - 0.9),
        Edge::Rounded => 1.214 - 0.502 / m2 + 0.1095 / (m2 * m2),
    }
}

/// Share of the base suction on a back edge: rounded half (common practice, no source).
pub(crate) fn trailing_share(edge: Edge) -> f64 {
    match edge {
        Edge::Blunt => 1.0,
        Edge::Rounded => 0.5,
        Edge::Sharp => 0.0,
    }
}

/// Share of the base suction on a boat-tail: whole up to a fineness of 1, none from 3 on, straight
/// between (after Hoerner, from memory).
pub(crate) fn boat_tail_share(fineness: f64) -> f64 {
    (0.5 * (3.0 - fineness)).clamp(0.0, 1.0)
}
