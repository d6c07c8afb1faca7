//! The hollow inside a walled section.

use std::f64::consts::PI;

use super::{disc_moments, Arc, Moments, Section};
use crate::nose::NoseShape;
use crate::quadrature::integrate;
use crate::roots::bracketed;

/// The moments of the space inside a wall of even `thickness` m; all 0 where there is none.
pub(crate) fn hollow(section: &Section, thickness: f64) -> Moments {
    match (section.nose_shape(), section.arc()) {
        (Some(shape), _) => in_nose(section, shape, thickness),
        (None, Some(arc)) => in_arc(section, &arc, thickness),
        (None, None) => in_taper(section, thickness),
    }
}

/// The inner surface is the outer one moved `thickness` along its normal: the point (x, r) goes to
/// (x + t r'/w, r − t/w) with w = √(1 + r'²), and dx to (1 + t r''/w³) dx.
fn in_nose(section: &Section, shape: NoseShape, thickness: f64) -> Moments {
    let (length, base) = (section.length(), section.aft_radius());
    let inner = |s: f64| {
        let x = section.station(s).0;
        let (r, slope) = section.outline_at(x);
        let w = slope.hypot(1.0);
        (x + thickness * slope / w, r - thickness / w)
    };
    // Nearer the tip than the first crossing the normals meet beyond the axis: solid.
    let start = if inner(NEAR_TIP).1 >= 0.0 {
        0.0
    } else {
        match bracketed(NEAR_TIP, 1.0, |s| inner(s).1) {
            Some(start) => start,
            None => return [0.0; 4],
        }
    };
    if inner(start.max(NEAR_TIP)).0 >= length {
        return [0.0; 4];
    }
    // Normals from the last stretch of a base that still widens end behind the base.
    let end = bracketed(start.max(NEAR_TIP), 1.0, |s| inner(s).0 - length).unwrap_or(1.0);
    section.integrate_over(start, end, |x, dx| {
        let (r, slope) = section.outline_at(x);
        let w = slope.hypot(1.0);
        let stretch = 1.0 + thickness * shape.bend(x, length, base) / (w * w * w);
        disc_moments(x + thickness * slope / w, dx * stretch, r - thickness / w)
    })
}

/// The inner surface is the arc about the same centre with a radius less by the wall, carried on to the narrow end's
/// plane as a frustum's inner side is. Where a thick wall ends that arc before the plane, a cylinder goes on from it.
fn in_arc(section: &Section, arc: &Arc, thickness: f64) -> Moments {
    let radius = arc.radius - thickness;
    // From the axis outwards or from the arc's end, as angles from the plane of the centre.
    let axis = -arc.centre_r / radius;
    if radius <= 0.0 || axis >= 1.0 {
        return [0.0; 4];
    }
    let to_axis = if axis > 0.0 { axis.acos() } else { 0.5 * PI };
    let to_plane = (section.length() / radius).min(1.0).asin();
    let toward = if arc.centre_x > 0.0 { -1.0 } else { 1.0 };
    let mut moments = integrate(0.0, to_plane.min(to_axis), PANELS, |angle| {
        let (sin, cos) = angle.sin_cos();
        disc_moments(arc.centre_x + toward * radius * sin, radius * cos, arc.centre_r + radius * cos)
    });
    if arc.centre_r > 0.0 && radius < section.length() {
        let rest =
            integrate(radius, section.length(), 1, |u| disc_moments(arc.centre_x + toward * u, 1.0, arc.centre_r));
        for (moment, rest) in moments.iter_mut().zip(rest) {
            *moment += rest;
        }
    }
    moments
}

const PANELS: u32 = 2;

/// A frustum's or a cylinder's: the wall's cut across the axis is thickness·√(1 + r'²) at every station.
fn in_taper(section: &Section, thickness: f64) -> Moments {
    let inner = |x: f64| {
        let (r, slope) = section.outline_at(x);
        r - thickness * slope.hypot(1.0)
    };
    let at = |s: f64| inner(section.station(s).0);
    let (start, end) = match (at(0.0) > 0.0, at(1.0) > 0.0) {
        (true, true) => (0.0, 1.0),
        (false, false) => return [0.0; 4],
        (false, true) => (bracketed(0.0, 1.0, at).unwrap_or(0.0), 1.0),
        (true, false) => (0.0, bracketed(0.0, 1.0, at).unwrap_or(1.0)),
    };
    section.integrate_over(start, end, |x, dx| disc_moments(x, dx, inner(x)))
}

/// In the section's variable s: a station of less than a billionth of the length, where a blunt
/// tip's slope is still finite.
const NEAR_TIP: f64 = 1e-3;
