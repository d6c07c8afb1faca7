//! An axisymmetric piece of the airframe: volume, areas, and mass as a solid or as a wall.

mod wall;

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

    /// The arc of an ogive taper.
    pub(crate) fn arc(&self) -> Option<Arc> {
        let step = (self.aft_radius - self.fore_radius).abs();
        let radius = 0.5 * (step + self.length * self.length / step);
        let centre_x = if self.aft_radius > self.fore_radius { self.length } else { 0.0 };
        let centre_r = self.fore_radius.max(self.aft_radius) - radius;
        (self.outline == Outline::Arc).then_some(Arc { centre_x, centre_r, radius })
    }

    /// Outer radius in m at `x` m behind the fore end, 0 <= x <= length.
    pub fn radius(&self, x: f64) -> f64 {
        self.outline_at(x).0
    }

    /// Slope dr/dx of the outline at `x` m behind the fore end; infinite at a blunt tip.
    pub fn slope(&self, x: f64) -> f64 {
        self.outline_at(x).1
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
        from_moments(density, self.moments())
    }

    /// Mass properties of a wall of even `thickness` m, measured square to the outer surface, for a
    /// `density` in kg/m³; no end caps. Where the wall reaches the axis the piece is solid.
    ///
    /// The hollow is bounded by the surface parallel to the outside: exact for noses whose bend is sharpest at the tip,
    /// for cylinders, and for frusta and ogive tapers, whose inner sides are carried on to the planes of their ends.
    pub fn walled(&self, thickness: f64, density: f64) -> MassProps {
        if thickness <= 0.0 {
            return MassProps::ZERO;
        }
        let mut rest = self.moments();
        for (rest, hollow) in rest.iter_mut().zip(wall::hollow(self, thickness)) {
            *rest -= hollow;
        }
        from_moments(density, rest)
    }

    fn moments(&self) -> Moments {
        self.integrate_over(0.0, 1.0, |x, dx| disc_moments(x, dx, self.radius(x)))
    }

    /// Integrates over x, in a variable s from 0 to 1 that [`Section::station`] spreads along it.
    pub(crate) fn integrate_over<const N: usize>(
        &self,
        from: f64,
        to: f64,
        f: impl Fn(f64, f64) -> [f64; N],
    ) -> [f64; N] {
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
    pub(crate) fn station(&self, s: f64) -> (f64, f64) {
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
    pub(crate) fn outline_at(&self, x: f64) -> (f64, f64) {
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

/// A circular arc in the plane of the axis: its centre's station and distance from the axis, and its radius, in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Arc {
    pub centre_x: f64,
    pub centre_r: f64,
    pub radius: f64,
}

const CURVED_PANELS: u32 = 4;

/// ∫ over a body of revolution of unit density: volume, its first and second moments in x, and its
/// moment of inertia about the axis.
pub(crate) type Moments = [f64; 4];

/// The moments of a disc of radius `r` m at station `x` m, `dx` m thick.
pub(crate) fn disc_moments(x: f64, dx: f64, r: f64) -> Moments {
    let r2 = r * r;
    let disc = PI * r2 * dx;
    [disc, disc * x, disc * x * x, 0.5 * disc * r2]
}

fn from_moments(density: f64, [volume, first, second, axial]: Moments) -> MassProps {
    if volume <= 0.0 {
        return MassProps::ZERO;
    }
    let x = first / volume;
    // A disc's transverse inertia in its own plane is half its axial one.
    MassProps {
        mass: density * volume,
        x,
        i_axial: density * axial,
        i_transverse: density * (0.5 * axial + second - first * x),
    }
}
