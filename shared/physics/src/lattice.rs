//! A second opinion on the fins: a vortex lattice with the body inside it.
//!
//! Barrowman's method takes the fins' lift from one formula, puts it at the quarter chord and leaves out the lift that
//! the fins put on the body between them. Here each fin is a lattice of horseshoe vortices whose air may not pass
//! through the fin, and the body a long cylinder that bends the stream around itself and mirrors every vortex at r →
//! R²/r with opposite sense. What the mirrored vortices carry is the lift on the body.
//!
//! Sources: horseshoe vortices and mirror images at a circle are textbook matter (Katz & Plotkin, Low-Speed
//! Aerodynamics; Milne-Thomson's circle theorem; from memory); where vortices and control points lie is Lan's
//! quasi-vortex-lattice, Journal of Aircraft, 1974 (from memory). The mirrored cross pieces are straight where they
//! should be curved: against sources on the cylinder's wall that costs up to 2 % of slope (tests/reference/outside).

use std::f64::consts::PI;

use crate::fins::{FinError, FinShape};
use crate::linear::solve;
use crate::normal_force::{NormalForce, MOST_MACH};

/// The normal force of a set of fins, and what it puts on the body between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LatticeLift {
    /// On the fins.
    pub fins: NormalForce,
    /// On the body, beyond what the body has without fins. It reaches half a calibre or so ahead of and behind the
    /// roots; where the body ends with the fins, the share behind them, a tenth or so, is missing in truth.
    pub body: NormalForce,
}

/// Why there is no such lift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LatticeError {
    /// The plan-form can't be built.
    Shape(FinError),
    /// No fins.
    NoFins,
    /// The body's radius is negative or not finite; the value given, in m.
    BodyRadius(f64),
    /// The lattice's equations have no solution in these numbers: a plan-form with next to no chord somewhere.
    Unsolved,
}

/// The lift of `count` even fins on a body of radius `body_radius` m, which may be 0, at a Mach number of 0 to 0.8, the
/// roots' leading edges at station `x` m, for a `reference_area` in m².
///
/// Three or more fins lift alike whichever way they are turned; one or two are taken square to the wind. Thin flat
/// fins, small angles, no separation; the Mach number stretches the shape by 1/β (Prandtl–Glauert). Within 2 % of slope
/// and 0.02 calibres of the same method on a fine lattice; under a millisecond for three or four fins.
pub fn lift(
    shape: &FinShape,
    count: u32,
    body_radius: f64,
    mach: f64,
    x: f64,
    reference_area: f64,
) -> Result<LatticeLift, LatticeError> {
    let span = shape.geometry().map_err(LatticeError::Shape)?.span;
    if count == 0 {
        return Err(LatticeError::NoFins);
    }
    if !(body_radius >= 0.0 && body_radius.is_finite()) {
        return Err(LatticeError::BodyRadius(body_radius));
    }
    let mach = mach.clamp(0.0, MOST_MACH);
    let beta = (1.0 - mach * mach).sqrt();
    let panels = panels(shape, span, body_radius, beta).ok_or(LatticeError::Unsolved)?;
    let strengths = strengths(&panels, count, body_radius).ok_or(LatticeError::Unsolved)?;
    // Side forces of fins all around add up to half of them square to the wind.
    let lifting = if count < 3 { f64::from(count) } else { 0.5 * f64::from(count) };
    let mut sum = LatticeLift { fins: NormalForce::default(), body: NormalForce::default() };
    for (panel, strength) in panels.iter().zip(strengths) {
        let [inner, outer] = panel.bound;
        let station = x + beta * 0.5 * (inner.0 + outer.0);
        // A force of ρ V Γ times the width: 2 Γ/V on the dynamic pressure.
        let slope = lifting * 2.0 * strength / reference_area;
        add(&mut sum.fins, slope * (outer.1 - inner.1), station);
        add(&mut sum.body, slope * (mirrored(inner.1, body_radius) - mirrored(outer.1, body_radius)), station);
    }
    Ok(sum)
}

/// Strips along the span and panels along the chord.
const STRIPS: usize = 8;
const ROWS: usize = 5;

/// Station and distance from the axis, in m, stations stretched by 1/β.
type Point = (f64, f64);

/// A horseshoe: the ends of its bound vortex, from which two legs trail to infinity, and the point at which no air
/// passes.
struct Panel {
    bound: [Point; 2],
    control: Point,
}

/// One fin's panels, close together at the root, the tip and both edges, as the cosines of even angles.
fn panels(shape: &FinShape, span: f64, body_radius: f64, beta: f64) -> Option<Vec<Panel>> {
    let across = |i: f64| span * (0.5 * PI * i / STRIPS as f64).sin();
    let along = |i: f64| 0.5 * (1.0 - (PI * i / ROWS as f64).cos());
    let point = |y: f64, share: f64| {
        // A little inside of the fin, where an outline is one piece.
        let (leading, trailing) = shape.edges_at(y.clamp(EDGE * span, (1.0 - EDGE) * span))?;
        Some(((leading + share * (trailing - leading)) / beta, body_radius + y))
    };
    let mut panels = Vec::with_capacity(STRIPS * ROWS);
    for strip in 0..STRIPS {
        let strip = strip as f64;
        for row in 0..ROWS {
            let bound = along(row as f64 + 0.5);
            panels.push(Panel {
                bound: [point(across(strip), bound)?, point(across(strip + 1.0), bound)?],
                control: point(across(strip + 0.5), along(row as f64 + 1.0))?,
            });
        }
    }
    Some(panels)
}

const EDGE: f64 = 1e-9;

/// Each panel's circulation for an angle of attack of 1 rad in a stream of 1 m/s.
///
/// Fins around the body carry the first fin's circulation times the cosine of the angle between them; those to its left
/// act on it as those to its right.
fn strengths(panels: &[Panel], count: u32, body_radius: f64) -> Option<Vec<f64>> {
    let n = panels.len();
    let mut matrix = vec![0.0; n * n];
    for k in 0..=count / 2 {
        let (sin, cos) = (2.0 * PI * f64::from(k) / f64::from(count)).sin_cos();
        let twice = k > 0 && 2 * k < count;
        let weight = if twice { 2.0 * cos } else { cos };
        for (row, at) in matrix.chunks_exact_mut(n).zip(panels) {
            for (entry, from) in row.iter_mut().zip(panels) {
                let turned = |(x, r): Point| [x, r * cos, r * sin];
                let [inner, outer] = from.bound;
                let own = horseshoe(at.control, turned(inner), turned(outer));
                let mirror = |(x, r): Point| turned((x, mirrored(r, body_radius)));
                let image = horseshoe(at.control, mirror(inner), mirror(outer));
                *entry += weight * (own - image);
            }
        }
    }
    // The stream around a cylinder crosses the fin with 1 + R²/r² of its speed across the body.
    let crossing = |panel: &Panel| {
        let share = body_radius / panel.control.1;
        -(1.0 + share * share)
    };
    solve(matrix, panels.iter().map(crossing).collect())
}

/// Where a vortex at a distance of `r` m from the axis is mirrored.
fn mirrored(r: f64, body_radius: f64) -> f64 {
    if r > 0.0 {
        body_radius * body_radius / r
    } else {
        0.0
    }
}

/// The velocity that a horseshoe of unit circulation from `a` to `b`, with legs along x, sends through a fin in the
/// plane z = 0 at a point of it (Biot–Savart).
fn horseshoe(at: Point, a: [f64; 3], b: [f64; 3]) -> f64 {
    let from = |p: [f64; 3]| [at.0 - p[0], at.1 - p[1], -p[2]];
    let (d, e) = (from(a), from(b));
    let (to_a, to_b) = (length(d), length(e));
    let leg = |d: [f64; 3], distance: f64| {
        let square = d[1] * d[1] + d[2] * d[2];
        if square > 0.0 {
            d[1] * (1.0 + d[0] / distance) / square
        } else {
            0.0
        }
    };
    let cross = [d[1] * e[2] - d[2] * e[1], d[2] * e[0] - d[0] * e[2], d[0] * e[1] - d[1] * e[0]];
    let square = cross.iter().map(|c| c * c).sum::<f64>();
    // On the vortex's own line there is nothing.
    let bound = if square > NEAR * (to_a * to_b) * (to_a * to_b) {
        let along = |d: [f64; 3]| (0..3).map(|i| (b[i] - a[i]) * d[i]).sum::<f64>();
        cross[2] * (along(d) / to_a - along(e) / to_b) / square
    } else {
        0.0
    };
    (bound - leg(d, to_a) + leg(e, to_b)) / (4.0 * PI)
}

/// The squared sine below which a point lies on a vortex's line.
const NEAR: f64 = 1e-20;

fn length(d: [f64; 3]) -> f64 {
    (d[0] * d[0] + d[1] * d[1] + d[2] * d[2]).sqrt()
}

fn add(sum: &mut NormalForce, cna: f64, x: f64) {
    sum.cna += cna;
    sum.moment += cna * x;
}
