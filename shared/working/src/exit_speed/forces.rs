//! What holds the rocket back, and the mass that burns away.

use crate::air::{density, gravity, side_force, wind_source};
use crate::page::Page;
use crate::term::Term;
use crate::{said, Lack, Number, Subject};
use finwright_assess::{FlightNumbers, Run};
use finwright_physics::motor::ThrustCurve;

/// What holds the rocket back while it moves.
pub(super) struct HoldsBack {
    /// For each kilogram: the weight's share along the guide, and friction under its share across it, m/s2.
    pub per_mass: Term,
    /// Friction under the wind's push, N, where there is any.
    pub wind: Option<Term>,
}

impl HoldsBack {
    /// The acceleration under a thrust.
    pub fn acceleration(&self, thrust: &Term, mass: &Term) -> Term {
        match &self.wind {
            Some(wind) => (thrust - wind) / mass - &self.per_mass,
            None => thrust / mass - &self.per_mass,
        }
    }
}

pub(super) fn holding_back(
    page: &mut Page,
    of: &Subject,
    numbers: &FlightNumbers,
    run: &Run,
) -> Result<HoldsBack, Lack> {
    let pad = of.pad(numbers)?;
    let g = gravity(page);
    let tilt = Number::given(run.inputs.tilt.to_degrees(), "°");
    let from = if pad.tilt_or_upright().is_default { "nothing is said of a tilt" } else { "in the file" };
    let tilt = page.know("θ", format!("tilt of the {} from the vertical", pad.rail_word()), tilt, from);
    let friction = pad.friction_or_usual();
    let from = if friction.is_default { "a default (common practice, no source)" } else { said(&pad.friction) };
    let mu = page.know("μ", "friction coefficient of the guides", Number::given(friction.si, ""), from);
    let per_mass = g * (tilt.cos() + &mu * tilt.sin());
    let source = "statics of a slope: the weight's share along it, and friction under its share across it";
    let per_mass = page.step("What holds each kilogram back", "k", &per_mass, source, "m/s2");
    if run.inputs.side_force <= 0.0 || mu.value() == 0.0 {
        return Ok(HoldsBack { per_mass, wind: None });
    }
    let wind = numbers.air.map_or(0.0, |air| air.wind);
    let rho = density(page, of, numbers)?;
    let wind = page.know("w", "the steady wind", Number::given(wind, "m/s"), wind_source(numbers));
    let push = side_force(page, of, &rho, &wind)?;
    let held =
        page.step("The friction under that push", "H", &(mu * push), "friction is μ times the force across", "N");
    Ok(HoldsBack { per_mass, wind: Some(held) })
}

/// Mass and how it burns away.
pub(super) struct Burn {
    pub mass: Term,
    pub propellant: Term,
    pub impulse: Term,
}

impl Burn {
    pub fn know(page: &mut Page, run: &Run, curve: &ThrustCurve) -> Burn {
        let g = |kg: f64| Number::result(kg * 1e3, "g");
        let mass = page.know("m0", "mass on the pad", g(run.inputs.mass), "see the working of balance");
        let propellant = page.know(
            "mp",
            "the propellant in it, burnt as the impulse is given",
            g(run.inputs.propellant),
            "in the file",
        );
        let total = Number::result(curve.total_impulse(), "N.s");
        let impulse = page.know("It", "total impulse", total, "see the working of thrust-to-weight");
        Burn { mass: mass.moved(-3, "kg"), propellant: propellant.moved(-3, "kg"), impulse }
    }

    /// The mass that is left once an impulse has been given.
    pub fn left(&self, impulse: &Term) -> Term {
        &self.mass - &self.propellant * impulse / &self.impulse
    }
}
