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
/// fins, small angles, no separation; the Mach number stretches the shape by 1/β (Prandtl–Glauert). Within 1 % of slope
/// and 0.02 calibres of the same method on a fine lattice for three or four fins of usual shapes.
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
    let fins = Fins { shape, span, count, body_radius, beta: (1.0 - mach * mach).sqrt() };
    let fine = lift_on::<STRIPS>(&fins, ROWS).ok_or(LatticeError::Unsolved)?;
    let coarse = lift_on::<COARSE_STRIPS>(&fins, COARSE_ROWS).ok_or(LatticeError::Unsolved)?;
    let limit = |fine: NormalForce, coarse: NormalForce| {
        let cna = towards(fine.cna, coarse.cna) / reference_area;
        NormalForce { cna, moment: cna * (x + fine.x().unwrap_or_default()) }
    };
    Ok(LatticeLift { fins: limit(fine.fins, coarse.fins), body: limit(fine.body, coarse.body) })
}

/// Strips along the span and panels along the chord.
const STRIPS: usize = 6;
const ROWS: usize = 5;
/// The same of a coarser lattice.
const COARSE_STRIPS: usize = 4;
const COARSE_ROWS: usize = 3;

/// What a slope comes to as the strips grow many: what it misses falls with the square of their number (Richardson's
/// extrapolation). For 300 shapes on bodies this was nearer to 24 strips by 16 rows than 8 by 5 alone, in six tenths of
/// their time. Where the lift acts hangs on the rows, and is near enough on the finer lattice.
fn towards(fine: f64, coarse: f64) -> f64 {
    let finer = STRIPS as f64 / COARSE_STRIPS as f64;
    fine + (fine - coarse) / (finer * finer - 1.0)
}

/// Fins on a body, stations stretched by 1/β.
struct Fins<'s> {
    shape: &'s FinShape,
    span: f64,
    count: u32,
    body_radius: f64,
    beta: f64,
}

/// Their lift on an area of 1 m², the roots beginning at station 0, by a lattice of so many strips along the span and
/// rows along the chord.
fn lift_on<const STRIPS: usize>(fins: &Fins, rows: usize) -> Option<LatticeLift> {
    let panels = panels(fins, STRIPS, rows)?;
    let strengths = strengths::<STRIPS>(&panels, fins.count, fins.body_radius)?;
    // Side forces of fins all around add up to half of them square to the wind.
    let lifting = if fins.count < 3 { f64::from(fins.count) } else { 0.5 * f64::from(fins.count) };
    let mut sum = LatticeLift { fins: NormalForce::default(), body: NormalForce::default() };
    for (panel, strength) in panels.iter().zip(strengths) {
        let [inner, outer] = panel.bound;
        let station = fins.beta * 0.5 * (inner.0 + outer.0);
        // A force of ρ V Γ times the width: 2 Γ/V on the dynamic pressure.
        let slope = lifting * 2.0 * strength;
        let [inner, outer] = [inner.1, outer.1];
        add(&mut sum.fins, slope * (outer - inner), station);
        add(&mut sum.body, slope * (mirrored(inner, fins.body_radius) - mirrored(outer, fins.body_radius)), station);
    }
    Some(sum)
}

/// Station and distance from the axis, in m, stations stretched by 1/β.
type Point = (f64, f64);

/// A horseshoe: the ends of its bound vortex, from which two legs trail to infinity, and the point at which no air
/// passes.
struct Panel {
    bound: [Point; 2],
    control: Point,
}

/// One fin's panels, close together at the root, the tip and both edges, as the cosines of even angles.
fn panels(fins: &Fins, strips: usize, rows: usize) -> Option<Vec<Panel>> {
    let Fins { shape, span, body_radius, beta, .. } = *fins;
    let across = |i: f64| span * (0.5 * PI * i / strips as f64).sin();
    let along = |i: f64| 0.5 * (1.0 - (PI * i / rows as f64).cos());
    let point = |y: f64, share: f64| {
        // A little inside of the fin, where an outline is one piece.
        let (leading, trailing) = shape.edges_at(y.clamp(EDGE * span, (1.0 - EDGE) * span))?;
        Some(((leading + share * (trailing - leading)) / beta, body_radius + y))
    };
    let mut panels = Vec::with_capacity(strips * rows);
    // Row by row: each panel begins where the one before it ends.
    for row in 0..rows {
        let bound = along(row as f64 + 0.5);
        for strip in 0..strips {
            let strip = strip as f64;
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
fn strengths<const STRIPS: usize>(panels: &[Panel], count: u32, body_radius: f64) -> Option<Vec<f64>> {
    let n = panels.len();
    let mut matrix = vec![0.0; n * n];
    for k in 0..=count / 2 {
        let (sin, cos) = (2.0 * PI * f64::from(k) / f64::from(count)).sin_cos();
        let twice = k > 0 && 2 * k < count;
        let weight = if twice { 2.0 * cos } else { cos };
        let turned = |(x, r): Point| [x, r * cos, r * sin];
        let own = rows::<STRIPS>(panels, turned);
        let images = rows::<STRIPS>(panels, |(x, r)| turned((x, mirrored(r, body_radius))));
        for (row, at) in matrix.chunks_exact_mut(n).zip(panels) {
            add_horseshoes(row, at.control, &own, weight);
            // Round no body there are none.
            if body_radius > 0.0 {
                add_horseshoes(row, at.control, &images, -weight);
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

/// The ends of a row's bound vortices, from the root to the tip.
struct Row<const STRIPS: usize> {
    first: [f64; 3],
    others: [[f64; 3]; STRIPS],
}

fn rows<const STRIPS: usize>(panels: &[Panel], place: impl Fn(Point) -> [f64; 3]) -> Vec<Row<STRIPS>> {
    let row = |panels: &[Panel]| Row {
        first: place(panels[0].bound[0]),
        others: std::array::from_fn(|strip| place(panels[strip].bound[1])),
    };
    panels.chunks_exact(STRIPS).map(row).collect()
}

/// Adds `weight` times the velocities that horseshoes of unit circulation, with legs along x, send through a fin in the
/// plane z = 0 at a point of it (Biot–Savart).
fn add_horseshoes<const STRIPS: usize>(entries: &mut [f64], at: Point, rows: &[Row<STRIPS>], weight: f64) {
    let weight = weight / (4.0 * PI);
    // The ends of all rows lie on the same few lines along x.
    let Some(row) = rows.first() else { return };
    let (first_line, lines) = (Line::seen_from(at, &row.first), row.others.map(|end| Line::seen_from(at, &end)));
    for (entries, row) in entries.chunks_exact_mut(STRIPS).zip(rows) {
        let mut inner = End::seen_from(at, &row.first, &first_line);
        for ((entry, other), line) in entries.iter_mut().zip(&row.others).zip(&lines) {
            let outer = End::seen_from(at, other, line);
            *entry += weight * (bound(&inner, &outer) - inner.leg + outer.leg);
            inner = outer;
        }
    }
}

/// A line along x as seen from a point.
struct Line {
    to: [f64; 2],
    distance2: f64,
    /// The velocity by a vortex along all of it, times 2π.
    along: f64,
}

impl Line {
    #[inline(always)]
    fn seen_from(at: Point, place: &[f64; 3]) -> Self {
        let to = [at.1 - place[1], -place[2]];
        let distance2 = to[0] * to[0] + to[1] * to[1];
        Self { to, distance2, along: to[0] / distance2.max(f64::MIN_POSITIVE) }
    }
}

/// The end of a bound vortex as seen from a point.
#[derive(Clone, Copy)]
struct End {
    /// From it to the point.
    to: [f64; 3],
    distance2: f64,
    per_distance: f64,
    /// The velocity by the leg that trails from it, times 4π.
    leg: f64,
}

impl End {
    #[inline(always)]
    fn seen_from(at: Point, place: &[f64; 3], line: &Line) -> Self {
        let to = [at.0 - place[0], line.to[0], line.to[1]];
        let distance2 = to[0] * to[0] + line.distance2;
        let per_distance = 1.0 / distance2.max(f64::MIN_POSITIVE).sqrt();
        let leg = line.along * (1.0 + to[0] * per_distance);
        Self { to, distance2, per_distance, leg }
    }
}

/// The velocity by the straight vortex between two ends, times 4π.
#[inline(always)]
fn bound(a: &End, b: &End) -> f64 {
    let (d, e) = (a.to, b.to);
    let cross = [d[1] * e[2] - d[2] * e[1], d[2] * e[0] - d[0] * e[2], d[0] * e[1] - d[1] * e[0]];
    let square = cross[0] * cross[0] + cross[1] * cross[1] + cross[2] * cross[2];
    let between = [d[0] - e[0], d[1] - e[1], d[2] - e[2]];
    let along = |to: [f64; 3]| between[0] * to[0] + between[1] * to[1] + between[2] * to[2];
    let velocity = cross[2] * (along(d) * a.per_distance - along(e) * b.per_distance) / square.max(f64::MIN_POSITIVE);
    // On the vortex's own line there is nothing.
    if square > NEAR * a.distance2 * b.distance2 {
        velocity
    } else {
        0.0
    }
}

/// The squared sine below which a point lies on a vortex's line.
const NEAR: f64 = 1e-20;

fn add(sum: &mut NormalForce, cna: f64, x: f64) {
    sum.cna += cna;
    sum.moment += cna * x;
}
