//! The air and the wind at a flight's site.

use crate::misfit::{self, FlightMisfit};
use finwright_model::{Amount, Design, Flight};
use finwright_physics::air::{Atmosphere, Wind};

/// The air and wind of a flight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Density, kg/m3.
    pub density: f64,
    /// Steady wind 2 m up, m/s.
    pub wind: f64,
    /// Wind in gusts 2 m up, m/s; the steady wind where none is given.
    pub gust: f64,
    /// The height at which the site's winds are read, m.
    pub read_at: f64,
    /// The air at every height over the site.
    pub atmosphere: Atmosphere,
}

/// About where a meter in the hand reads the wind, m (common practice, no source): what stands on the pad is held to be
/// in the wind of this height.
pub const CREW_HEIGHT: f64 = 2.0;

impl Air {
    /// The wind by height over open land.
    pub fn profile(&self) -> Wind {
        Wind::over_open_land(self.wind, self.gust)
    }

    /// How many times as hard the wind blows at a height in m as 2 m up.
    pub fn growth(height: f64) -> f64 {
        Wind::over_open_land(1.0, 1.0).at(height)
    }

    /// The same air with another steady wind, as the site's meter reads it; gusts keep their proportion.
    pub(crate) fn blown(self, read: f64) -> Air {
        let wind = Wind { reference_height: self.read_at, ..Wind::over_open_land(read, read) }.at(CREW_HEIGHT);
        let gust = if self.wind > 0.0 { self.gust * wind / self.wind } else { wind.max(self.gust) };
        Air { wind, gust, ..self }
    }

    /// What the site's meter reads when it blows so hard 2 m up, m/s.
    pub fn as_read(&self, wind: f64) -> f64 {
        Wind::over_open_land(wind, wind).at(self.read_at)
    }
}

/// What can't be about the air at a flight's site.
pub(crate) fn site_misfit(design: &Design, flight: &Flight) -> Option<FlightMisfit> {
    let number = flight.site.as_ref()?.value;
    misfit::pressure(number, design.sites.get(number)?)
}

/// The air of a flight: without a site the standard one at sea level, still. `None` where its site can't be understood,
/// or can't be.
pub(crate) fn air(design: &Design, flight: &Flight) -> Option<Air> {
    let site = flight.site.as_ref().and_then(|s| design.sites.get(s.value));
    if flight.broken.contains(&"site") || site.is_some_and(|s| !s.broken.is_empty()) {
        return None;
    }
    if site_misfit(design, flight).is_some() {
        return None;
    }
    let si = |a: Option<&Amount>| a.map(|a| a.si);
    let mut atmosphere = Atmosphere::standard(site.and_then(|s| si(s.elevation.as_ref())).unwrap_or(0.0));
    if let Some(temperature) = site.and_then(|s| si(s.temperature.as_ref())) {
        atmosphere = atmosphere.with_temperature(temperature);
    }
    if let Some(pressure) = site.and_then(|s| si(s.pressure.as_ref())) {
        atmosphere = atmosphere.with_pressure(pressure);
    }
    let wind = site.and_then(|s| si(s.wind.as_ref())).unwrap_or(0.0);
    let gust = site.and_then(|s| si(s.gust.as_ref())).unwrap_or(wind).max(wind);
    let read_at = site.and_then(|s| si(s.wind_height.as_ref())).unwrap_or(CREW_HEIGHT);
    let read = Wind { reference_height: read_at, ..Wind::over_open_land(wind, gust) };
    let (wind, gust) = (read.at(CREW_HEIGHT), read.gust_at(CREW_HEIGHT));
    Some(Air { density: atmosphere.at(0.0).density, wind, gust, read_at, atmosphere })
}
