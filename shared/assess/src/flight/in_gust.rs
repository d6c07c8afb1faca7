//! The climb through the site's gust where that does most.

use super::path::{before_release, NotFlown};
use super::FlightNumbers;
use crate::airframe::Airframe;
use finwright_model::Design;
use finwright_physics::flight::{Bump, Gusted};

/// What the worst gust of the first hundred metres does to a flight. Angles in rad, lengths in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InGust {
    /// The gust.
    pub bump: Bump,
    /// How far the nose turns into the wind between release and burnout, gravity's share included.
    pub turn: f64,
    /// The greatest angle at which the air meets the rocket.
    pub angle: f64,
    /// Where that is.
    pub angle_height: f64,
    /// How much lower the highest point is than without it; negative where it's higher.
    pub lost: f64,
}

/// Up to this height gusts are looked for, m.
const FIRST: f64 = 100.0;
/// Where they begin, as shares of that.
const BOTTOMS: [f64; 5] = [0.0, 0.1, 0.25, 0.5, 0.8];
/// Over how much height they come and go, m: twice the gradient distances of 14 CFR 25.341(a)(2), 30 to 350 ft.
const LENGTHS: [f64; 3] = [18.3, 60.0, 213.4];

/// The flight through the gust that turns it furthest, of those that begin in the first hundred metres; `None` where
/// there is no flight, its site has no gusts, or it has two stages. Worked out when first asked for.
pub fn in_gust(design: &Design, airframe: &Airframe, numbers: &FlightNumbers) -> Option<InGust> {
    *numbers.in_gust.get_or_init(|| worst(design, airframe, numbers).ok().flatten())
}

fn worst(design: &Design, airframe: &Airframe, numbers: &FlightNumbers) -> Result<Option<InGust>, NotFlown> {
    let air = numbers.air.ok_or(NotFlown::Unknown)?;
    if air.gust <= air.wind || numbers.upper().is_some() {
        return Ok(None);
    }
    let Some(top) = super::path::path(design, airframe, numbers).ok().map(|path| path.free_apogee.height) else {
        return Ok(None);
    };
    let profile = air.profile();
    let mut found: Option<InGust> = None;
    before_release(design, airframe, numbers, |flight| {
        for length in LENGTHS {
            for bottom in BOTTOMS.map(|share| flight.release.height + share * FIRST) {
                let middle = bottom + 0.5 * length;
                let bump = Bump { bottom, length, speed: profile.gust_at(middle) - profile.at(middle) };
                let Ok(gusted) = flight.climb_through(bump) else { continue };
                let one = of(flight.release.tilt, top, bump, gusted);
                if found.is_none_or(|worst| one.turn.abs() > worst.turn.abs()) {
                    found = Some(one);
                }
            }
        }
    })?;
    Ok(found)
}

fn of(tilt: f64, top: f64, bump: Bump, gusted: Gusted) -> InGust {
    InGust {
        bump,
        turn: tilt - gusted.burnout_tilt,
        angle: gusted.angle,
        angle_height: gusted.height,
        lost: top - gusted.top,
    }
}
