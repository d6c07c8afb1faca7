//! An axisymmetric piece of the airframe: volume, areas, and mass as a solid or as a wall.

use std::f64::consts::PI;

use crate::mass::MassProps;
use crate::nose::{NoseError, NoseShape};
use crate::quadrature::integrate;

/// A piece of revolution, in its own frame: x = 0 at its fore end, `length` at its aft end.
///
/// Make one with [`Section::nose`], [`Section::cylinder`] or [`Section::taper`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Section {
    outline: Outline,
    length: f64,
    fore_radius: f64,
    aft_radius: f64,
}

/// How the radius runs between the ends of a taper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TaperShape {
    /// Straight sides: a frustum of a cone.
    Straight,
    /// A circular arc that leaves the wider end without a corner.
    Ogive,
}

/// Why a section can't be built.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SectionError {
    /// Length is not positive, or a radius is negative, or both radii are 0, or a value is not
    /// finite; the values given, in m.
    Size {
        /// Length in m.
        length: f64,
        /// Fore radius in m.
        fore_radius: f64,
        /// Aft radius in m.
        aft_radius: f64,
    },
    /// An ogive taper shorter than the step in radius has no such arc; the values given, in m.
    OgiveTooShort {
        /// Length in m.
        length: f64,
        /// The difference of the end radii in m.
        step: f64,
    },
    /// The nose's own numbers don't fit.
    Nose(NoseError),
}

/// The outside of a section. Stations are in m from the section's fore end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SectionGeometry {
    /// Volume in m³.
    pub volume: f64,
    /// Centroid of the volume in m.
    pub volume_centroid: f64,
    /// Area of the lateral surface in m², without the ends.
    pub wetted_area: f64,
    /// Centroid of the lateral surface in m: where a skin of even thickness balances.
    pub wetted_centroid: f64,
    /// Area of the side view in m².
    pub planform_area: f64,
    /// Centroid of the side view in m.
    pub planform_centroid: f64,
}

impl Section {
    /// A nose, tip first. Lengths in m.
    pub fn nose(shape: NoseShape, length: f64, base_radius: f64) -> Result<Self, SectionError> {
        shape.check(length, base_radius).map_err(SectionError::Nose)?;
        Ok(Self {
            outline: match shape {
                NoseShape::Cone => Outline::Straight,
                curved => Outline::Nose(curved),
            },
            length,
            fore_radius: 0.0,
            aft_radius: base_radius,
        })
    }

    /// A cylinder. Lengths in m.
    pub fn cylinder(length: f64, radius: f64) -> Result<Self, SectionError> {
        Self::taper(TaperShape::Straight, length, radius, radius)
    }

    /// A shoulder (wider aft) or a boat-tail (narrower aft). Lengths in m.
    pub fn taper(shape: TaperShape, length: f64, fore_radius: f64, aft_radius: f64) -> Result<Self, SectionError> {
        let finite = length.is_finite() && fore_radius.is_finite() && aft_radius.is_finite();
        let sized = length > 0.0 && fore_radius >= 0.0 && aft_radius >= 0.0;
        if !finite || !sized || fore_radius.max(aft_radius) == 0.0 {
            return Err(SectionError::Size { length, fore_radius, aft_radius });
        }
        let step = (aft_radius - fore_radius).abs();
        let outline = match shape {
            TaperShape::Ogive if step > length => return Err(SectionError::OgiveTooShort { length, step }),
            TaperShape::Ogive if step > 0.0 => Outline::Arc,
            TaperShape::Ogive | TaperShape::Straight => Outline::Straight,
        };
        Ok(Self { outline, length, fore_radius, aft_radius })
    }

    /// Length in m.
    pub fn length(&self) -> f64 {
        self.length
    }

    /// Radius at the fore end in m; 0 for a nose.
    pub fn fore_radius(&self) -> f64 {
        self.fore_radius
    }

    /// Radius at the aft end in m.
    pub fn aft_radius(&self) -> f64 {
        self.aft_radius
    }

    /// The nose's shape, where the section is a curved nose. A cone counts as a straight taper.
    pub fn nose_shape(&self) -> Option<NoseShape> {
        match self.outline {
            Outline::Nose(shape) => Some(shape),
            Outline::Straight | Outline::Arc => None,
        }
    }

    /// Outer radius in m at `x` m behind the fore end, 0 <= x <= length.
    pub fn radius(&self, x: f64) -> f64 {
        self.outline_at(x).0
    }

    /// Volume, areas and centroids, to about 1e-12 relative.
    pub fn geometry(&self) -> SectionGeometry {
        let [planform, planform_x, volume, volume_x, wetted, wetted_x] = self.integrate_over(0.0, 1.0, |x, dx| {
            let (r, slope) = self.outline_at(x);
            let strip = 2.0 * r * dx;
            let disc = PI * r * r * dx;
            let band = 2.0 * PI * r * slope.hypot(1.0) * dx;
            [strip, strip * x, disc, disc * x, band, band * x]
        });
        SectionGeometry {
            volume,
            volume_centroid: volume_x / volume,
            wetted_area: wetted,
            wetted_centroid: wetted_x / wetted,
            planform_area: planform,
            planform_centroid: planform_x / planform,
        }
    }

    /// Mass properties of the solid piece for a `density` in kg/m³; stations from its fore end.
    pub fn solid(&self, density: f64) -> MassProps {
        self.body_of_revolution(density, |r, _| (r, 0.0))
    }

    /// Mass properties of a wall of even `thickness` m, without end caps, for a `density` in kg/m³.
    ///
    /// The thickness is measured square to the outer surface: where that surface slopes by dr/dx
    /// the wall's cut across the axis is thickness·√(1 + (dr/dx)²), and where the cut reaches the
    /// axis (near a tip) the piece is solid. This is exact for cylinders, cones and frusta and off
    /// by the order of (thickness / radius of curvature)² elsewhere.
    pub fn walled(&self, thickness: f64, density: f64) -> MassProps {
        if thickness <= 0.0 {
            return MassProps::ZERO;
        }
        self.body_of_revolution(density, |r, slope| (r, (r - thickness * slope.hypot(1.0)).max(0.0)))
    }

    /// Integrates rings between the outer and inner radius that `rings` gives from the outer
    /// radius and slope. The range is cut where the hollow begins and ends, so that every piece of
    /// the integrand is smooth.
    fn body_of_revolution(&self, density: f64, rings: impl Fn(f64, f64) -> (f64, f64)) -> MassProps {
        let at = |x: f64| {
            let (r, slope) = self.outline_at(x);
            rings(r, slope)
        };
        let hollow = |s: f64| at(self.station(s).0).1 > 0.0;
        let mut cuts = vec![0.0];
        for i in 0..CUT_SEARCH {
            let left = f64::from(i) / f64::from(CUT_SEARCH);
            let right = f64::from(i + 1) / f64::from(CUT_SEARCH);
            if hollow(left) != hollow(right) {
                cuts.push(edge(left, right, &hollow));
            }
        }
        cuts.push(1.0);
        let mut sum = [0.0; 4];
        for pair in cuts.windows(2) {
            let part = self.integrate_over(pair[0], pair[1], |x, dx| {
                let (outer, inner) = at(x);
                let (outer2, inner2) = (outer * outer, inner * inner);
                let ring = PI * (outer2 - inner2) * dx;
                [ring, ring * x, ring * x * x, 0.5 * ring * (outer2 + inner2)]
            });
            for (total, part) in sum.iter_mut().zip(part) {
                *total += part;
            }
        }
        let [volume, first, second, axial] = sum;
        if volume <= 0.0 {
            return MassProps::ZERO;
        }
        let x = first / volume;
        // For rings, the transverse inertia about their own plane is half the axial one.
        MassProps {
            mass: density * volume,
            x,
            i_axial: density * axial,
            i_transverse: density * (0.5 * axial + second - first * x),
        }
    }

    /// Integrates over x, in a variable s from 0 to 1 that [`Section::station`] spreads along it.
    fn integrate_over<const N: usize>(&self, from: f64, to: f64, f: impl Fn(f64, f64) -> [f64; N]) -> [f64; N] {
        let panels = match self.outline {
            Outline::Straight => 1,
            Outline::Nose(_) | Outline::Arc => CURVED_PANELS,
        };
        integrate(from, to, panels, |s| {
            let (x, dx) = self.station(s);
            f(x, dx)
        })
    }

    /// Station in m and its derivative for s in 0..1.
    ///
    /// Blunt tips and the Haack series' base have fractional powers in x that spoil quadrature.
    /// The map s⁴(35 − 84s + 70s² − 20s³) is flat to third order at both ends and turns them into
    /// smooth functions of s.
    fn station(&self, s: f64) -> (f64, f64) {
        match self.outline {
            Outline::Straight => (s * self.length, self.length),
            Outline::Nose(_) | Outline::Arc => {
                let s3 = s * s * s;
                let rest = 1.0 - s;
                (
                    self.length * s3 * s * (35.0 - s * (84.0 - s * (70.0 - s * 20.0))),
                    self.length * 140.0 * s3 * rest * rest * rest,
                )
            }
        }
    }

    /// Outer radius in m and slope at `x` m.
    fn outline_at(&self, x: f64) -> (f64, f64) {
        let (fore, aft, length) = (self.fore_radius, self.aft_radius, self.length);
        match self.outline {
            Outline::Nose(shape) => shape.outline(x, length, aft),
            Outline::Straight => {
                let slope = (aft - fore) / length;
                (fore + slope * x.clamp(0.0, length), slope)
            }
            Outline::Arc if aft > fore => {
                let (rise, slope) = NoseShape::Ogive.outline(x, length, aft - fore);
                (fore + rise, slope)
            }
            Outline::Arc => {
                let (rise, slope) = NoseShape::Ogive.outline(length - x, length, fore - aft);
                (aft + rise, -slope)
            }
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Outline {
    Nose(NoseShape),
    Straight,
    Arc,
}

const CURVED_PANELS: u32 = 4;
const CUT_SEARCH: u32 = 16;

/// Where `inside` changes between `left` and `right`, by halving to the last bit.
fn edge(left: f64, right: f64, inside: &impl Fn(f64) -> bool) -> f64 {
    let (mut left, mut right) = (left, right);
    let at_left = inside(left);
    for _ in 0..60 {
        let middle = 0.5 * (left + right);
        if inside(middle) == at_left {
            left = middle;
        } else {
            right = middle;
        }
    }
    0.5 * (left + right)
}
