//! Forces on the free rocket: the right-hand sides that [`crate::flight`] integrates.

use crate::aerodynamics::{Aerodynamics, Drag};
use crate::air::{Air, Atmosphere, Wind, G0};
use crate::drag::PreparedDrag;
use crate::motor::BurningMass;
use crate::normal_force::FinLiftError;

/// Drift, height, their speeds, tilt from the vertical and its rate.
pub(crate) type Pitching = [f64; 6];

/// Drift, height and their speeds.
pub(crate) type Falling = [f64; 4];

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
    atmosphere: &'a Atmosphere,
    wind: &'a Wind,
}

enum SteadyDrag {
    Constant(f64),
    BuildUp(PreparedDrag),
}

impl SteadyDrag {
    #[inline]
    fn coefficient(&self, speed: f64, air: &Air, burning: bool) -> f64 {
        match self {
            Self::Constant(cd) => *cd,
            Self::BuildUp(drag) => drag.terms(speed, air, burning).total(),
        }
    }
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

/// Thrust and burnt share between two points of the thrust curve, or after the last.
#[derive(Clone, Copy)]
pub(crate) struct Burn {
    pub start: f64,
    pub thrust: f64,
    pub rise: f64,
    pub burnt: f64,
    /// Share of the propellant burnt by one N s.
    pub per_impulse: f64,
    pub burning: bool,
}

impl<'a> Rocket<'a> {
    pub fn new(
        aerodynamics: &'a Aerodynamics,
        mass: BurningMass,
        nozzle: f64,
        atmosphere: &'a Atmosphere,
        wind: &'a Wind,
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
        Ok(Self {
            area,
            body,
            fins,
            planform: aerodynamics.body_lift_k * aerodynamics.planform_area / area,
            planform_x: aerodynamics.planform_centroid,
            drag: match &aerodynamics.drag {
                Drag::Constant(cd) => SteadyDrag::Constant(*cd),
                Drag::BuildUp(model) => SteadyDrag::BuildUp(PreparedDrag::new(model)),
            },
            mass,
            nozzle,
            atmosphere,
            wind,
        })
    }

    /// Mass in kg at the start of a stretch of the burn.
    pub fn mass_before(&self, burn: &Burn) -> f64 {
        self.mass.dry.mass + self.mass.propellant.mass * (1.0 - burn.burnt)
    }

    /// Motion in the plane of wind and path.
    #[inline]
    pub fn pitching(&self, burn: &Burn, t: f64, y: &Pitching) -> Pitching {
        let [_, height, vx, vz, tilt, rate] = *y;
        let air = self.atmosphere.at(height);
        let (ux, uz) = (vx - self.wind.at(height), vz);
        let speed2 = ux * ux + uz * uz;
        let speed = speed2.sqrt();
        let (sin, cos) = tilt.sin_cos();
        // The path's share along the axis, and the sine of the angle of attack: positive where the
        // nose leans further downwind than the path.
        let (along, alpha) = if speed > 0.0 {
            let inverse = 1.0 / speed;
            ((ux * sin + uz * cos) * inverse, (uz * sin - ux * cos) * inverse)
        } else {
            (1.0, 0.0)
        };
        let lever = self.lever(speed / air.sound_speed);

        let tau = t - burn.start;
        let thrust = burn.thrust + burn.rise * tau;
        let share = 1.0 - burn.burnt - burn.per_impulse * tau * (burn.thrust + 0.5 * burn.rise * tau);
        let (dry, propellant) = (&self.mass.dry, &self.mass.propellant);
        let left = propellant.mass * share;
        let mass = dry.mass + left;
        let balance = (dry.mass * dry.x + left * propellant.x) / mass;
        let (to_dry, to_propellant) = (dry.x - balance, propellant.x - balance);
        let inertia = dry.i_transverse
            + dry.mass * to_dry * to_dry
            + propellant.i_transverse * share
            + left * to_propellant * to_propellant;

        let load = 0.5 * air.density * speed2 * self.area;
        let body_lift = self.planform * alpha.abs();
        let normal = load * alpha * (lever.force + body_lift);
        let axial = thrust - load * along * self.drag.coefficient(speed, &air, burn.burning);
        let corrective =
            load * alpha * (lever.moment - lever.force * balance + body_lift * (self.planform_x - balance));
        let damping = 0.5
            * air.density
            * speed
            * self.area
            * (lever.square - balance * (2.0 * lever.moment - balance * lever.force));
        let flow = propellant.mass * burn.per_impulse * thrust;
        let arm = self.nozzle - balance;
        let turning = -(corrective + (damping + flow * arm * arm) * rate) / inertia;
        [vx, vz, (axial * sin + normal * cos) / mass, (axial * cos - normal * sin) / mass - G0, rate, turning]
    }

    /// Speed through the air, m/s.
    pub fn air_speed(&self, height: f64, across: f64, climb: f64) -> f64 {
        (across - self.wind.at(height)).hypot(climb)
    }

    /// A body that only drags: under a canopy, or tumbling.
    #[inline]
    pub fn falling(&self, mass: f64, drag_area: f64, y: &Falling) -> Falling {
        let [_, height, vx, vz] = *y;
        let ux = vx - self.wind.at(height);
        let speed = (ux * ux + vz * vz).sqrt();
        let k = 0.5 * self.atmosphere.density(height) * drag_area * speed / mass;
        [vx, vz, -k * ux, -k * vz - G0]
    }

    #[inline]
    fn lever(&self, mach: f64) -> Lever {
        let limited = mach.min(crate::normal_force::MOST_MACH);
        let beta2 = 1.0 - limited * limited;
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
