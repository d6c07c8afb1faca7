//! Forces on the free rocket: the right-hand sides that [`crate::flight`] integrates.

mod ln;
pub(crate) mod trim;
mod turn;

use ln::quick_ln;
use turn::quick_sin_cos;

use super::sky::{Local, Sky};
use crate::aerodynamics::{Aerodynamics, Drag};
use crate::air::G0;
use crate::drag::{Held, QuickDrag};
use crate::motor::{BurningMass, ThrustCurve};
use crate::normal_force::{FinLiftError, MOST_MACH};

/// Drift, height, their speeds, tilt from the vertical and its rate.
pub(crate) type Pitching = [f64; 6];

/// Drift, height and their speeds.
pub(crate) type Falling = [f64; 4];

/// Components of both.
pub(crate) const HEIGHT: usize = 1;
pub(crate) const ACROSS: usize = 2;
pub(crate) const CLIMB: usize = 3;

/// The rocket as the integration needs it: everything that doesn't change worked out beforehand.
pub(crate) struct Rocket<'a> {
    area: f64,
    body: Lever,
    fins: Vec<FinTerm>,
    planform: f64,
    planform_x: f64,
    drag: SteadyDrag,
    mass: BurningMass,
    nozzle: f64,
    /// Without any propellant.
    empty: Loaded,
    pub sky: Sky<'a>,
}

enum SteadyDrag {
    Constant(f64),
    BuildUp(Box<QuickDrag>),
}

/// Sums of CNα, CNα x and CNα x².
#[derive(Clone, Copy, Default)]
struct Lever {
    force: f64,
    moment: f64,
    square: f64,
}

/// A set's lift: numerator/(1 + √(swept + β² aspect²)) at x: see [`crate::normal_force::FinSet::lift`].
struct FinTerm {
    numerator: f64,
    swept: f64,
    aspect2: f64,
    x: f64,
}

/// A stretch of the flight on which all forces are smooth: between two points of the thrust curve, or after the last,
/// with the same surfaces rough.
#[derive(Clone, Copy)]
pub(crate) struct Stretch {
    start: f64,
    thrust: f64,
    rise: f64,
    burnt: f64,
    /// Share of the propellant burnt by one N s.
    per_impulse: f64,
    burning: bool,
    /// Which surfaces count as rough.
    pub held: Held,
}

impl Stretch {
    /// From `time` s to the next point of the curve.
    pub fn from(curve: &ThrustCurve, time: f64, held: Held) -> Self {
        let piece = curve.piece_at(time);
        Self {
            start: time,
            thrust: piece.as_ref().map_or(0.0, |piece| piece.thrust),
            rise: piece.as_ref().map_or(0.0, |piece| piece.rise),
            burnt: piece.as_ref().map_or_else(|| curve.burnt_share(time), |piece| piece.burnt),
            per_impulse: 1.0 / curve.total_impulse(),
            burning: piece.is_some(),
            held,
        }
    }
}

/// Motor and mass at a moment.
#[derive(Clone, Copy, Default)]
struct Loaded {
    thrust: f64,
    per_mass: f64,
    balance: f64,
    per_inertia: f64,
    /// Damping of the turn by the jet, N m s.
    jet_damping: f64,
}

/// The stream at a moment.
struct Stream {
    /// The air's velocity past the rocket's path, reversed: m/s.
    ux: f64,
    uz: f64,
    speed: f64,
    /// Dynamic pressure times the reference area, N.
    load: f64,
    /// The same over the speed, N s/m.
    per_speed: f64,
    /// The same over the speed's square, kg/m.
    per_square: f64,
    /// The square of the Mach number.
    mach2: f64,
    ln_per_length: f64,
}

impl<'a> Rocket<'a> {
    pub fn new(
        aerodynamics: &'a Aerodynamics,
        mass: BurningMass,
        nozzle: f64,
        sky: Sky<'a>,
    ) -> Result<Self, FinLiftError> {
        let area = aerodynamics.reference_area;
        let mut body = Lever::default();
        for part in &aerodynamics.body {
            body.force += part.cna;
            body.moment += part.moment;
            body.square += part.x().map_or(0.0, |x| part.moment * x);
        }
        let mut fins = Vec::with_capacity(aerodynamics.fins.len());
        for set in &aerodynamics.fins {
            let force = set.lift(0.0, area)?.force;
            let aspect = set.fin.span * set.fin.span / set.fin.area;
            let tan = set.fin.mid_chord_sweep.tan();
            fins.push(FinTerm {
                numerator: force.cna * (1.0 + set.stretch(1.0)),
                swept: 1.0 + aspect * aspect * tan * tan,
                aspect2: aspect * aspect,
                x: set.x + set.fin.quarter_chord_x,
            });
        }
        let dry = &mass.dry;
        let (per_mass, per_inertia) = (1.0 / dry.mass, 1.0 / dry.i_transverse);
        let empty = Loaded { per_mass, balance: dry.x, per_inertia, ..Loaded::default() };
        Ok(Self {
            area,
            body,
            fins,
            planform: aerodynamics.body_lift_k * aerodynamics.planform_area / area,
            planform_x: aerodynamics.planform_centroid,
            drag: match &aerodynamics.drag {
                Drag::Constant(cd) => SteadyDrag::Constant(*cd),
                Drag::BuildUp(model) => SteadyDrag::BuildUp(Box::new(QuickDrag::new(model))),
            },
            mass,
            nozzle,
            empty,
            sky,
        })
    }

    /// Mass in kg at the start of a stretch.
    pub fn mass_before(&self, stretch: &Stretch) -> f64 {
        self.mass.dry.mass + self.mass.propellant.mass * (1.0 - stretch.burnt)
    }

    /// Motion in the plane of wind and path.
    #[inline]
    pub fn pitching(&self, stretch: &Stretch, t: f64, y: &Pitching) -> Pitching {
        let [_, height, vx, vz, tilt, rate] = *y;
        let stream = self.stream(height, vx - self.sky.wind(height), vz);
        let (sin, cos) = quick_sin_cos(tilt);
        // The stream along the axis and across it, m/s; across it's positive where the nose leans further downwind than
        // the path. By them and the speed no force has to wait for a quotient.
        let (along, across) = (stream.ux * sin + stream.uz * cos, stream.uz * sin - stream.ux * cos);
        let lever = self.lever(stream.mach2);
        let now = self.loaded(stretch, t);
        let body_lift = self.planform * across.abs();
        let side = stream.per_square * across;
        let normal = side * (stream.speed * lever.force + body_lift);
        let axial = now.thrust - stream.per_speed * along * self.cd(stretch, &stream);
        let arm = lever.moment - lever.force * now.balance;
        let corrective = side * (stream.speed * arm + body_lift * (self.planform_x - now.balance));
        let damping = stream.per_speed * lever.about(now.balance) + now.jet_damping;
        let turning = -(corrective + damping * rate) * now.per_inertia;
        [
            vx,
            vz,
            (axial * sin + normal * cos) * now.per_mass,
            (axial * cos - normal * sin) * now.per_mass - G0,
            rate,
            turning,
        ]
    }

    /// Which surfaces are rough at a height and velocity.
    pub fn rough(&self, [_, height, vx, vz]: Falling) -> Held {
        match &self.drag {
            SteadyDrag::Constant(_) => None,
            SteadyDrag::BuildUp(drag) => drag.rough(self.stream(height, vx - self.sky.wind(height), vz).ln_per_length),
        }
    }

    /// How far a state is beyond the change of roughness of one of the `changed` surfaces.
    pub fn beyond(&self, changed: u64, [_, height, vx, vz]: Falling) -> f64 {
        match &self.drag {
            SteadyDrag::Constant(_) => 0.0,
            SteadyDrag::BuildUp(drag) => {
                drag.beyond(changed, self.stream(height, vx - self.sky.wind(height), vz).ln_per_length)
            }
        }
    }

    /// Whether the friction jumps with the Reynolds number.
    pub fn rubs(&self) -> bool {
        matches!(self.drag, SteadyDrag::BuildUp(_))
    }

    /// Speed through the air, m/s.
    pub fn air_speed(&self, height: f64, across: f64, climb: f64) -> f64 {
        (across - self.sky.wind(height)).hypot(climb)
    }

    #[inline]
    fn stream(&self, height: f64, ux: f64, uz: f64) -> Stream {
        let Local { density, per_sound, ln_thin } = self.sky.at(height);
        let speed2 = ux * ux + uz * uz;
        let speed = speed2.sqrt();
        let per_square = 0.5 * density * self.area;
        let ln_per_length = match self.drag {
            SteadyDrag::Constant(_) => 0.0,
            SteadyDrag::BuildUp(_) => ln_thin + 0.5 * quick_ln(speed2),
        };
        Stream {
            ux,
            uz,
            speed,
            load: per_square * speed2,
            per_speed: per_square * speed,
            per_square,
            mach2: speed2 * (per_sound * per_sound),
            ln_per_length,
        }
    }

    #[inline]
    fn cd(&self, stretch: &Stretch, stream: &Stream) -> f64 {
        match &self.drag {
            SteadyDrag::Constant(cd) => *cd,
            SteadyDrag::BuildUp(drag) => {
                drag.coefficient(stream.mach2, stream.ln_per_length, stretch.burning, stretch.held)
            }
        }
    }

    #[inline]
    fn loaded(&self, stretch: &Stretch, t: f64) -> Loaded {
        if stretch.burning {
            self.burning(stretch, t)
        } else if stretch.burnt >= 1.0 {
            self.empty
        } else {
            self.burning(stretch, stretch.start)
        }
    }

    #[inline]
    fn burning(&self, stretch: &Stretch, t: f64) -> Loaded {
        let tau = t - stretch.start;
        let thrust = stretch.thrust + stretch.rise * tau;
        let share = 1.0 - stretch.burnt - stretch.per_impulse * tau * (stretch.thrust + 0.5 * stretch.rise * tau);
        let (dry, propellant) = (&self.mass.dry, &self.mass.propellant);
        let left = propellant.mass * share;
        let mass = dry.mass + left;
        let per_mass = 1.0 / mass;
        let apart = propellant.x - dry.x;
        let shift = left * per_mass * apart;
        let balance = dry.x + shift;
        let inertia = dry.i_transverse + propellant.i_transverse * share + dry.mass * shift * apart;
        let arm = self.nozzle - balance;
        let jet_damping = propellant.mass * stretch.per_impulse * thrust * arm * arm;
        Loaded { thrust, per_mass, balance, per_inertia: 1.0 / inertia, jet_damping }
    }

    #[inline]
    fn lever(&self, mach2: f64) -> Lever {
        let beta2 = 1.0 - mach2.min(MOST_MACH * MOST_MACH);
        let mut sum = self.body;
        for fin in &self.fins {
            let cna = fin.numerator / (1.0 + (fin.swept + beta2 * fin.aspect2).sqrt());
            sum.force += cna;
            sum.moment += cna * fin.x;
            sum.square += cna * fin.x * fin.x;
        }
        sum
    }
}

/// A body that only drags: under a canopy, or tumbling.
#[inline]
pub(crate) fn falling(sky: &Sky, mass: f64, drag_area: f64, y: &Falling) -> Falling {
    let [_, height, vx, vz] = *y;
    let ux = vx - sky.wind(height);
    let speed = (ux * ux + vz * vz).sqrt();
    let k = 0.5 * sky.density(height) * drag_area * speed / mass;
    [vx, vz, -k * ux, -k * vz - G0]
}

impl Lever {
    /// Σ CNα (x − balance)².
    #[inline]
    fn about(&self, balance: f64) -> f64 {
        self.square - balance * (2.0 * self.moment - balance * self.force)
    }
}
