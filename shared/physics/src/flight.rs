//! The flight from the guide to the ground, in the vertical plane of the wind.

mod bump;
mod course;
mod fall;
mod gusty;
mod log;
mod moments;
mod profile;
mod rocket;
mod run;
mod settled;
mod sky;
mod touchdown;

use run::{Care, Until};

use crate::aerodynamics::Aerodynamics;
use crate::air::{Atmosphere, Wind};
use crate::canopies::Canopy;
use crate::motor::{BurningMass, ThrustCurve};
use crate::normal_force::FinLiftError;

pub use bump::Bump;
pub use fall::landing_speed;
pub use gusty::Gusted;
pub use moments::{Boost, FlightPath, Moment, Opened, Release, State};

/// A free flight: a rigid rocket in three degrees of freedom (drift, height, tilt), then a canopy.
///
/// Normal force follows sin α, the drag the axis. Roll, side wind across the plane, thrust off the
/// axis and the earth's turn are left out.
#[derive(Debug, Clone, Copy)]
pub struct Flight<'a> {
    /// Thrust against time from ignition.
    pub curve: &'a ThrustCurve,
    /// Mass properties with and without propellant.
    pub mass: BurningMass,
    /// Station of the nozzle's end in m.
    pub nozzle: f64,
    /// Normal force, damping and drag.
    pub aerodynamics: &'a Aerodynamics,
    /// Air over the site.
    pub atmosphere: &'a Atmosphere,
    /// Wind, blowing towards positive drift.
    pub wind: &'a Wind,
    /// The moment of release.
    pub release: Release,
    /// What opens, and when; without any it comes down as it flew.
    pub canopies: &'a [Canopy],
    /// The mass in kg that hangs under them, where that isn't the whole rocket.
    pub hung: Option<f64>,
}

impl Flight<'_> {
    /// Climbs through a gust, up to the highest point, with nothing that opens on the way.
    pub fn climb_through(&self, bump: Bump) -> Result<Gusted, FlightError> {
        gusty::climb(self, bump)
    }
}

/// Why there is no flight to show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FlightError {
    /// The fins have no lift by this theory.
    Fins(FinLiftError),
    /// At this time in s the motion left the numbers' range or became too fast to follow: a value
    /// given isn't sound, or an inertia is next to nothing.
    Unsound(f64),
    /// Still up after an hour.
    NeverLands,
}

impl Flight<'_> {
    /// Flies it.
    pub fn fly(&self) -> Result<FlightPath, FlightError> {
        course::follow(self, self.release.into(), self.release.speed, Until::Ground, Care::Usual, None)
            .map(|(path, _)| path)
    }

    /// Flies it, and tells the highest point that it would have reached had nothing opened on the way up.
    pub fn fly_and_free(&self) -> Result<(FlightPath, Moment), FlightError> {
        course::follow_and_free(self, self.release.into(), self.release.speed)
    }

    /// Flies it and shows every step's end to `watch`, from release to landing, and a steady fall in pieces.
    pub fn fly_with(&self, mut watch: impl FnMut(&Moment)) -> Result<FlightPath, FlightError> {
        let release = self.release;
        course::follow(self, release.into(), release.speed, Until::Ground, Care::Usual, Some(&mut watch))
            .map(|(path, _)| path)
    }

    /// Flies it by the full equations of motion throughout and in the air as it is, to some nine digits: what
    /// [`Flight::fly`] is measured against, at many times its cost.
    pub fn fly_full(&self) -> Result<FlightPath, FlightError> {
        course::follow(self, self.release.into(), self.release.speed, Until::Ground, Care::Full, None)
            .map(|(path, _)| path)
    }

    /// Flies on from any state instead of the release, as an upper stage does from where its booster falls away; the
    /// curve's times count on the state's clock: see [`ThrustCurve::delayed`].
    pub fn fly_on(&self, from: State) -> Result<FlightPath, FlightError> {
        course::follow(self, from, from.across.hypot(from.climb), Until::Ground, Care::Usual, None)
            .map(|(path, _)| path)
    }

    /// The same, with the highest point had nothing opened on the way up.
    pub fn fly_on_and_free(&self, from: State) -> Result<(FlightPath, Moment), FlightError> {
        course::follow_and_free(self, from, from.across.hypot(from.climb))
    }

    /// The same, showing every step's end to `watch`, from the state to the landing.
    pub fn fly_on_with(&self, from: State, mut watch: impl FnMut(&Moment)) -> Result<FlightPath, FlightError> {
        course::follow(self, from, from.across.hypot(from.climb), Until::Ground, Care::Usual, Some(&mut watch))
            .map(|(path, _)| path)
    }

    /// Flies up to the motor's burnout; `None` where the ground or a canopy comes before.
    pub fn boost(&self) -> Result<Option<Boost>, FlightError> {
        let (path, end) =
            course::follow(self, self.release.into(), self.release.speed, Until::Burnout, Care::Usual, None)?;
        Ok(end.map(|end| Boost { end, fastest: path.fastest, top_acceleration: path.top_acceleration }))
    }

    /// The same, showing every step's end to `watch`.
    pub fn boost_with(&self, mut watch: impl FnMut(&Moment)) -> Result<Option<State>, FlightError> {
        course::follow(self, self.release.into(), self.release.speed, Until::Burnout, Care::Usual, Some(&mut watch))
            .map(|(_, end)| end)
    }
}
