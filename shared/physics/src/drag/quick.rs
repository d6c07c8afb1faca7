//! The drag coefficient for the right-hand side of a flight: equal surfaces put together, the rest summed beforehand.

use super::{DragModel, PreparedDrag};
use crate::friction::{compressibility, BoundaryLayer, Plate};
use crate::pressure_drag::{base_suction, leading_pressure, stagnation, Edge};

/// Which surfaces count as rough, one bit each, held so through a step; `None` where each point decides for itself.
pub(crate) type Held = Option<u64>;

/// A drag model made ready for many evaluations.
pub(crate) struct QuickDrag {
    surfaces: Vec<Surface>,
    /// Surfaces whose boundary layer isn't turbulent throughout; empty where all are.
    mixed: Option<PreparedDrag>,
    steady: f64,
    faces: f64,
    rounded: f64,
    suction: f64,
    suction_burning: f64,
    /// Everything but friction by powers of M², coasting and burning, for slow flight.
    slow: [[f64; TERMS]; 2],
}

/// Powers of M² of the pressure on rounded edges, (1 − M²)^−0.417 − 1, from the first on: see [`leading_pressure`]. At
/// [`SLOW`] the first one left out is 3e-10 of the sum.
const ROUNDED: [f64; TERMS] = {
    let mut series = [0.0; TERMS];
    let (mut n, mut term) = (1, 1.0);
    while n < TERMS {
        term *= (0.417 + n as f64 - 1.0) / n as f64;
        series[n] = term;
        n += 1;
    }
    series
};
const TERMS: usize = 9;
/// M² up to which the series are used.
const SLOW: f64 = 0.1;

/// Surfaces of one length and roughness: their share of the reference area and how they rub.
struct Surface {
    share: f64,
    rough: f64,
    plate: Plate,
}

impl Surface {
    #[inline]
    fn friction(&self, ln_per_length: f64, is_rough: bool) -> f64 {
        if is_rough {
            self.rough
        } else {
            self.share * self.plate.turbulent(ln_per_length)
        }
    }
}

impl QuickDrag {
    pub fn new(model: &DragModel) -> Self {
        let prepared = PreparedDrag::new(model);
        let mut surfaces: Vec<Surface> = Vec::new();
        for (share, plate) in prepared.body.iter().chain(&prepared.fins) {
            match surfaces.iter_mut().find(|surface| surface.plate == *plate) {
                Some(surface) => surface.share += share,
                None => surfaces.push(Surface { share: *share, rough: 0.0, plate: *plate }),
            }
        }
        for surface in &mut surfaces {
            surface.rough = surface.share * surface.plate.rough();
        }
        let edges = |which: Edge| -> f64 {
            prepared.leading.iter().filter(|(_, edge)| *edge == which).map(|(area, _)| area).sum()
        };
        let besides = prepared.boat_tails + prepared.trailing;
        let is_held = prepared.flow == BoundaryLayer::Turbulent && surfaces.len() <= u64::BITS as usize;
        let mut quick = Self {
            steady: prepared.sloped + prepared.protrusions,
            faces: prepared.front_face + edges(Edge::Blunt),
            rounded: edges(Edge::Rounded),
            suction: besides + prepared.base,
            suction_burning: besides + prepared.base_burning,
            slow: [[0.0; TERMS]; 2],
            surfaces,
            mixed: (!is_held).then_some(prepared),
        };
        for (slow, suction) in quick.slow.iter_mut().zip([quick.suction, quick.suction_burning]) {
            *slow = ROUNDED.map(|power| quick.rounded * power);
            // Below Mach 1 stagnation and base suction are polynomials themselves.
            slow[0] += quick.steady + quick.faces * stagnation(0.0) + suction * base_suction(0.0);
            slow[1] += quick.faces * 0.85 / 4.0 + suction * 0.13;
            slow[2] += quick.faces * 0.85 / 40.0;
        }
        quick
    }

    /// Which surfaces are rough at this logarithm of the Reynolds number per m.
    pub fn rough(&self, ln_per_length: f64) -> Held {
        self.mixed.is_none().then(|| self.rough_now(ln_per_length))
    }

    fn rough_now(&self, ln_per_length: f64) -> u64 {
        let bit = |(i, surface): (usize, &Surface)| u64::from(surface.plate.is_rough(ln_per_length)) << i;
        self.surfaces.iter().enumerate().map(bit).sum()
    }

    /// How far beyond the Reynolds number per m at which one of the `changed` surfaces turns rough, as a logarithm.
    pub fn beyond(&self, changed: u64, ln_per_length: f64) -> f64 {
        let surface = self.surfaces.get(changed.trailing_zeros() as usize);
        surface.map_or(0.0, |surface| ln_per_length - surface.plate.ln_critical())
    }

    /// The coefficient at the square of a Mach number and the logarithm of the Reynolds number per m.
    #[inline]
    pub fn coefficient(&self, square: f64, ln_per_length: f64, burning: bool, held: Held) -> f64 {
        if square >= 1.0 || self.mixed.is_some() {
            return self.seldom(square.sqrt(), ln_per_length, burning, held);
        }
        let mut rough = held.unwrap_or_else(|| self.rough_now(ln_per_length));
        let mut friction = 0.0;
        for surface in &self.surfaces {
            friction += surface.friction(ln_per_length, rough & 1 == 1);
            rough >>= 1;
        }
        let friction = friction * compressibility(square, false);
        if square <= SLOW {
            let [a, b, c, d, e, f, g, h, i] = self.slow[usize::from(burning)];
            let (s2, s4) = (square * square, square * square * (square * square));
            let low = (a + b * square) + s2 * (c + d * square);
            return friction + low + s4 * ((e + f * square) + s2 * (g + h * square) + s4 * i);
        }
        friction + self.pressure(square.sqrt(), burning)
    }

    /// Everything but friction.
    fn pressure(&self, mach: f64, burning: bool) -> f64 {
        let suction = if burning { self.suction_burning } else { self.suction };
        let rounded = if self.rounded > 0.0 { self.rounded * leading_pressure(Edge::Rounded, mach) } else { 0.0 };
        self.steady + self.faces * stagnation(mach) + suction * base_suction(mach) + rounded
    }

    /// Beyond the speed of sound, and mixed boundary layers.
    #[cold]
    #[inline(never)]
    fn seldom(&self, mach: f64, ln_per_length: f64, burning: bool, held: Held) -> f64 {
        if let Some(prepared) = &self.mixed {
            return prepared.at(mach, ln_per_length.exp(), ln_per_length, burning).total();
        }
        let rough = held.unwrap_or_else(|| self.rough_now(ln_per_length));
        let friction = self.surfaces.iter().enumerate().map(|(i, surface)| {
            let is_rough = rough >> i & 1 == 1;
            surface.friction(ln_per_length, is_rough) * compressibility(mach * mach, is_rough)
        });
        friction.sum::<f64>() + self.pressure(mach, burning)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::standard;
    use crate::drag::{FinDrag, Protrusion, RingSkin};
    use crate::fins::FinShape;
    use crate::nose::NoseShape;
    use crate::section::{Section, TaperShape};

    /// Whatever the speed and the height, quick or term by term is one coefficient.
    #[test]
    #[allow(clippy::unwrap_used)]
    fn as_term_by_term() {
        let nose = Section::nose(NoseShape::Ogive, 0.1, 0.02).unwrap();
        let tube = Section::cylinder(0.4, 0.02).unwrap();
        let tail = Section::taper(TaperShape::Straight, 0.05, 0.02, 0.015).unwrap();
        let mut model = DragModel::of_body(&[(nose, 20e-6), (tube, 20e-6), (tail, 1e-6)], 1.2566e-3);
        model.jet_area = 3e-4;
        model.front_face = 1e-5;
        let fin = FinShape::Trapezoid { root: 0.07, tip: 0.04, span: 0.05, sweep: 0.03 }.geometry().unwrap();
        for (leading, trailing) in
            [(Edge::Rounded, Edge::Sharp), (Edge::Blunt, Edge::Rounded), (Edge::Sharp, Edge::Blunt)]
        {
            model.fins.push(FinDrag { fin, count: 3, thickness: 0.003, roughness: 2e-4, leading, trailing });
        }
        model.rings.push(RingSkin { area: 0.01, chord: 0.06, thickness: 0.001, roughness: 0.0 });
        model.protrusions.push(Protrusion { frontal_area: 2e-5, cd: 1.2 });
        for flow in [BoundaryLayer::Turbulent, BoundaryLayer::Natural] {
            model.flow = flow;
            let quick = QuickDrag::new(&model);
            for step in 1..1000 {
                let (speed, air) = (0.45 * f64::from(step), standard(3.0 * f64::from(step)));
                let per_length = speed * air.density / air.viscosity;
                let mach = speed / air.sound_speed;
                for burning in [false, true] {
                    let whole = model.coefficient(speed, &air, burning);
                    for held in [None, quick.rough(per_length.ln())] {
                        let cd = quick.coefficient(mach * mach, per_length.ln(), burning, held);
                        assert!((cd / whole - 1.0).abs() < 1e-9, "{speed} m/s: {cd} for {whole}");
                    }
                }
            }
        }
    }
}
