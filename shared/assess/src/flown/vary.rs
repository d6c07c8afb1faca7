//! A flight as it would be with another drag, thrust, mass or wind.

use super::Quantity;
use crate::airframe::Airframe;
use crate::flight::path::path;
use crate::flight::{flight_in, weighed_flight, FlightNumbers};
use finwright_model::Design;
use finwright_physics::aerodynamics::Drag;
use finwright_physics::guided::GuidedOutcome;

/// What may be otherwise than it was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// The drag.
    Drag,
    /// The motor's thrust.
    Thrust,
    /// The mass on the pad.
    Mass,
    /// The wind.
    Wind,
}

/// The values of all of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Varied {
    /// What the computed drag is multiplied by.
    pub drag: f64,
    /// What the motor's thrust is multiplied by.
    pub thrust: f64,
    /// How much more it weighs on the pad, kg.
    pub mass: f64,
    /// The steady wind, as the site's meter reads it, m/s.
    pub wind: f64,
}

impl Varied {
    /// Every cause.
    pub const ALL: [Cause; 4] = [Cause::Drag, Cause::Thrust, Cause::Mass, Cause::Wind];

    /// One of the values.
    pub fn of(&self, cause: Cause) -> f64 {
        match cause {
            Cause::Drag => self.drag,
            Cause::Thrust => self.thrust,
            Cause::Mass => self.mass,
            Cause::Wind => self.wind,
        }
    }

    /// With another one.
    pub fn with(mut self, cause: Cause, value: f64) -> Varied {
        *match cause {
            Cause::Drag => &mut self.drag,
            Cause::Thrust => &mut self.thrust,
            Cause::Mass => &mut self.mass,
            Cause::Wind => &mut self.wind,
        } = value;
        self
    }
}

impl Cause {
    /// Its word.
    pub fn name(self) -> &'static str {
        match self {
            Cause::Drag => "drag",
            Cause::Thrust => "thrust",
            Cause::Mass => "mass",
            Cause::Wind => "wind",
        }
    }

    /// How far a difference is taken, for a rocket of `mass` kg.
    pub(crate) fn step(self, mass: f64) -> f64 {
        match self {
            Cause::Drag | Cause::Thrust => 0.01,
            Cause::Mass => 0.01 * mass,
            Cause::Wind => 0.25,
        }
    }

    /// What can be: beyond this something else is wrong.
    pub(crate) fn limits(self, mass: f64) -> (f64, f64) {
        match self {
            Cause::Drag => (0.3, 3.0),
            Cause::Thrust => (0.5, 1.5),
            Cause::Mass => (-0.4 * mass, 1.0 * mass),
            Cause::Wind => (0.0, 25.0),
        }
    }
}

/// What is expected of a flight. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    exit_speed: f64,
    height: f64,
    time_to_top: f64,
}

impl Expected {
    /// One of them.
    pub fn of(&self, quantity: Quantity) -> f64 {
        match quantity {
            Quantity::ExitSpeed => self.exit_speed,
            Quantity::Height => self.height,
            Quantity::TimeToTop => self.time_to_top,
        }
    }

    pub(crate) fn minus(&self, other: &Expected) -> Expected {
        Expected {
            exit_speed: self.exit_speed - other.exit_speed,
            height: self.height - other.height,
            time_to_top: self.time_to_top - other.time_to_top,
        }
    }

    pub(crate) fn times(&self, by: f64) -> Expected {
        Expected { exit_speed: by * self.exit_speed, height: by * self.height, time_to_top: by * self.time_to_top }
    }
}

/// What is expected of a flight with these values; `None` where it doesn't fly.
pub(crate) fn expected(design: &Design, airframe: &Airframe, number: usize, varied: &Varied) -> Option<Expected> {
    let airframe = with_drag(airframe, varied.drag);
    let numbers = flown_with(design, &airframe, number, varied)?;
    let GuidedOutcome::Leaves { lift_off, last, .. } = numbers.run.as_ref()?.outcome else { return None };
    let top = path(design, &airframe, &numbers).ok()?.moments.apogee;
    Some(Expected { exit_speed: last.speed, height: top.height, time_to_top: top.time - lift_off })
}

/// The airframe with the drag multiplied anew.
fn with_drag(airframe: &Airframe, factor: f64) -> Airframe {
    let mut airframe = airframe.clone();
    for airflow in [&mut airframe.airflow, &mut airframe.upper_airflow].into_iter().flatten() {
        if let Drag::BuildUp(model) = &mut airflow.aerodynamics.drag {
            model.factor = factor;
        }
    }
    airframe
}

fn flown_with(design: &Design, airframe: &Airframe, number: usize, varied: &Varied) -> Option<FlightNumbers> {
    let mut numbers = weighed_flight(design, airframe, number);
    let flight = design.flights.get(number)?;
    let motor = design.motors.get(flight.first_motor()?.value)?;
    numbers.curve = numbers.curve?.scaled(varied.thrust / motor.thrust_factor_or_one());
    // What it weighs more sits where it balances.
    let weighed = numbers.weighed.as_mut()?;
    for mass in [&mut weighed.loaded, &mut weighed.burnt] {
        mass.mass += varied.mass;
        if mass.mass <= 0.0 {
            return None;
        }
    }
    let air = crate::flight::air::air(design, flight)?.blown(varied.wind);
    Some(flight_in(design, airframe, numbers, Some(air)))
}
