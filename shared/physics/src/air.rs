//! The standard atmosphere, a site's own air, and wind against height.

/// Standard gravity in m/s², exact by definition.
pub const G0: f64 = 9.80665;

/// The state of the air at one point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Temperature in K.
    pub temperature: f64,
    /// Pressure in Pa.
    pub pressure: f64,
    /// Density in kg/m³.
    pub density: f64,
    /// Speed of sound in m/s.
    pub sound_speed: f64,
    /// Dynamic viscosity in Pa s.
    pub viscosity: f64,
}

impl Air {
    /// Air of `temperature` K and `pressure` Pa, as a dry ideal gas; moisture (less than 1 % of
    /// the density) is left out. Viscosity by Sutherland's formula.
    /// Source: US Standard Atmosphere 1976 (constants from memory).
    pub fn new(temperature: f64, pressure: f64) -> Self {
        Self {
            temperature,
            pressure,
            density: pressure / (GAS_CONSTANT * temperature),
            sound_speed: (1.4 * GAS_CONSTANT * temperature).sqrt(),
            viscosity: 1.458e-6 * temperature * temperature.sqrt() / (temperature + 110.4),
        }
    }

    /// Kinematic viscosity in m²/s.
    pub fn kinematic_viscosity(&self) -> f64 {
        self.viscosity / self.density
    }
}

/// Standard air at a geometric altitude of −2 000 to 32 000 m above sea level; altitudes beyond
/// that are held at the nearer end.
///
/// Source: US Standard Atmosphere 1976 (constants from memory).
pub fn standard(altitude: f64) -> Air {
    let (temperature, pressure) = standard_state(altitude);
    Air::new(temperature, pressure)
}

/// The air over a launch site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Atmosphere(Column);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Column {
    Even(Air),
    /// Standard air, made warmer or colder by the same amount all the way up, and in balance with its own weight: each
    /// layer starts at the pressure that carries what lies above it.
    Standard {
        elevation: f64,
        warmer: f64,
        pressures: [f64; LAYERS.len()],
    },
}

impl Atmosphere {
    /// Standard air over a site `elevation` m above sea level (geometric).
    pub fn standard(elevation: f64) -> Self {
        Self(Column::Standard { elevation, warmer: 0.0, pressures: LAYERS.map(|layer| layer.3) })
    }

    /// The same air at every height, as closed forms and classroom examples take it.
    pub fn even(air: Air) -> Self {
        Self(Column::Even(air))
    }

    /// The same site with `temperature` K read at the ground; the offset from standard air is kept all the way up, and
    /// the pressure above follows from it: warm air thins out more slowly.
    pub fn with_temperature(self, temperature: f64) -> Self {
        let pressure = self.state(0.0).1;
        Self(match self.0 {
            Column::Even(_) => Column::Even(Air::new(temperature, pressure)),
            Column::Standard { elevation, .. } => {
                balanced(elevation, temperature - standard_state(elevation).0, pressure)
            }
        })
    }

    /// The same site with `pressure` Pa read at the ground (not reduced to sea level); the ratio to that of air as warm
    /// is kept all the way up.
    pub fn with_pressure(self, pressure: f64) -> Self {
        Self(match self.0 {
            Column::Even(air) => Column::Even(Air::new(air.temperature, pressure)),
            Column::Standard { elevation, warmer, .. } => balanced(elevation, warmer, pressure),
        })
    }

    /// Air `height` m above the site.
    pub fn at(&self, height: f64) -> Air {
        match self.0 {
            Column::Even(air) => air,
            Column::Standard { .. } => {
                let (temperature, pressure) = self.state(height);
                Air::new(temperature, pressure)
            }
        }
    }

    /// Density in kg/m³ `height` m above the site: [`Atmosphere::at`] without the rest.
    pub fn density(&self, height: f64) -> f64 {
        match self.0 {
            Column::Even(air) => air.density,
            Column::Standard { .. } => {
                let (temperature, pressure) = self.state(height);
                pressure / (GAS_CONSTANT * temperature)
            }
        }
    }

    /// The height in m above the site up to which the air is one smooth layer: the tropopause, or nowhere above it.
    pub(crate) fn smooth_to(&self) -> f64 {
        match self.0 {
            Column::Even(_) => f64::INFINITY,
            Column::Standard { elevation, .. } => {
                let (bend, _, _, _) = LAYERS[1];
                EARTH_RADIUS * bend / (EARTH_RADIUS - bend) - elevation
            }
        }
    }

    /// Temperature in K and pressure in Pa.
    fn state(&self, height: f64) -> (f64, f64) {
        match self.0 {
            Column::Even(air) => (air.temperature, air.pressure),
            Column::Standard { elevation, warmer, pressures } => state_in(&pressures, warmer, elevation + height),
        }
    }
}

/// Wind that grows with height by a power law: speed·(h / reference height)^exponent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wind {
    /// Mean speed in m/s at the reference height.
    pub speed: f64,
    /// Gust speed in m/s at the reference height, at least the mean.
    pub gust: f64,
    /// Height above ground in m at which those speeds are read; positive.
    pub reference_height: f64,
    /// Exponent of the power law: 0 for the same wind at all heights, 1/7 over open land.
    pub exponent: f64,
}

impl Wind {
    /// No wind at any height.
    pub const CALM: Self = Self { speed: 0.0, gust: 0.0, reference_height: 10.0, exponent: 0.0 };

    /// Mean and gust speed in m/s read where the crew stands, about 2 m up, with the exponent 1/7
    /// for open land (power law and exponent from memory; the height is common practice).
    pub fn over_open_land(speed: f64, gust: f64) -> Self {
        Self { speed, gust, reference_height: 2.0, exponent: 1.0 / 7.0 }
    }

    /// Mean speed in m/s at `height` m above ground; 0 at and below the ground unless the exponent
    /// is 0.
    pub fn at(&self, height: f64) -> f64 {
        self.speed * self.profile(height)
    }

    /// Gust speed in m/s at `height` m above ground.
    pub fn gust_at(&self, height: f64) -> f64 {
        self.gust.max(self.speed) * self.profile(height)
    }

    fn profile(&self, height: f64) -> f64 {
        if self.exponent == 0.0 {
            1.0
        } else {
            power(height.max(0.0) / self.reference_height, self.exponent)
        }
    }
}

/// R*/M0 = 8.31432 J/(mol K) / 0.0289644 kg/mol.
const GAS_CONSTANT: f64 = 8.314_32 / 0.028_964_4;
const EARTH_RADIUS: f64 = 6_356_766.0;

/// Layers by geopotential altitude: base in m, base temperature in K, lapse in K/m, base pressure
/// in Pa. The upper pressures follow from the lower layers.
const LAYERS: [(f64, f64, f64, f64); 3] = [
    (0.0, 288.15, -0.0065, 101_325.0),
    (11_000.0, 216.65, 0.0, 22_632.063_973_462_91),
    (20_000.0, 216.65, 0.001, 5_474.888_669_677_77),
];

/// Temperature in K and pressure in Pa at a geometric altitude in m.
fn standard_state(altitude: f64) -> (f64, f64) {
    state_in(&LAYERS.map(|layer| layer.3), 0.0, altitude)
}

/// The same in air `warmer` K warmer than standard, whose layers start at these pressures.
fn state_in(pressures: &[f64; LAYERS.len()], warmer: f64, altitude: f64) -> (f64, f64) {
    let h = geopotential(altitude);
    let layer = layer_at(h);
    let (temperature, ratio) = within(layer, warmer, h);
    (temperature, pressures[layer] * ratio)
}

/// A column `warmer` K warmer than standard with `pressure` Pa at its site, by dp/dh = −ρ g from layer to layer.
fn balanced(elevation: f64, warmer: f64, pressure: f64) -> Column {
    let h = geopotential(elevation);
    let own = layer_at(h);
    let mut pressures = [0.0; LAYERS.len()];
    pressures[own] = pressure / within(own, warmer, h).1;
    for layer in own + 1..LAYERS.len() {
        pressures[layer] = pressures[layer - 1] * within(layer - 1, warmer, LAYERS[layer].0).1;
    }
    for layer in (0..own).rev() {
        pressures[layer] = pressures[layer + 1] / within(layer, warmer, LAYERS[layer + 1].0).1;
    }
    Column::Standard { elevation, warmer, pressures }
}

/// Geopotential altitude in m of a geometric one.
fn geopotential(altitude: f64) -> f64 {
    let z = altitude.clamp(-2_000.0, 32_000.0);
    EARTH_RADIUS * z / (EARTH_RADIUS + z)
}

/// The layer of a geopotential altitude.
fn layer_at(h: f64) -> usize {
    match h {
        h if h < LAYERS[1].0 => 0,
        h if h < LAYERS[2].0 => 1,
        _ => 2,
    }
}

/// Temperature in K at a geopotential altitude in a layer, and the pressure over that at the layer's start.
fn within(layer: usize, warmer: f64, h: f64) -> (f64, f64) {
    let (base, base_temperature, lapse, _) = LAYERS[layer];
    let (rise, start) = (h - base, base_temperature + warmer);
    let temperature = start + lapse * rise;
    let ratio = if lapse == 0.0 {
        (-G0 * rise / (GAS_CONSTANT * start)).exp()
    } else {
        power(start / temperature, G0 / (GAS_CONSTANT * lapse))
    };
    (temperature, ratio)
}

/// x^n for x >= 0 and n not 0. As exp(n ln x) it takes half of `powf`'s time, which every step of a
/// flight pays several times over, and differs from it by a few units in the last place here.
pub(crate) fn power(x: f64, n: f64) -> f64 {
    (n * x.ln()).exp()
}
