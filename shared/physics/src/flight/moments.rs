//! What a flight starts from and what it comes to.

/// The state when the last guide leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Release {
    /// Time in s from ignition.
    pub time: f64,
    /// Height in m above the resting place.
    pub height: f64,
    /// Speed in m/s along the guide.
    pub speed: f64,
    /// Tilt of the guide from the vertical in rad; positive leans downwind.
    pub tilt: f64,
    /// Rate of turn in rad/s, positive downwind: see [`crate::reactions::OnLastGuide`].
    pub rate: f64,
}

/// All that the motion goes on from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Time in s.
    pub time: f64,
    /// Drift in m from the pad, positive downwind.
    pub drift: f64,
    /// Height in m above the resting place.
    pub height: f64,
    /// Speed downwind in m/s.
    pub across: f64,
    /// Vertical speed in m/s, positive up.
    pub climb: f64,
    /// Tilt of the axis from the vertical in rad, positive downwind.
    pub tilt: f64,
    /// Rate of turn in rad/s, positive downwind.
    pub rate: f64,
}

impl From<Release> for State {
    fn from(release: Release) -> Self {
        let (sin, cos) = release.tilt.sin_cos();
        Self {
            time: release.time,
            drift: release.height * release.tilt.tan(),
            height: release.height,
            across: release.speed * sin,
            climb: release.speed * cos,
            tilt: release.tilt,
            rate: release.rate,
        }
    }
}

/// A flight up to its motor's burnout, where a booster falls away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boost {
    /// The state at burnout.
    pub end: State,
    /// The greatest speed until then.
    pub fastest: Moment,
    /// The greatest acceleration until then, in m/s²: see [`FlightPath::top_acceleration`].
    pub top_acceleration: f64,
}

/// One moment of the flight.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moment {
    /// Time in s from ignition.
    pub time: f64,
    /// Height in m above the resting place.
    pub height: f64,
    /// Drift in m from the pad, positive downwind.
    pub drift: f64,
    /// Speed over ground in m/s.
    pub speed: f64,
    /// Vertical speed in m/s, positive up.
    pub climb: f64,
    /// Tilt of the axis from the vertical in rad, positive downwind; 0 under a canopy.
    pub tilt: f64,
}

/// An opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The moment.
    pub moment: Moment,
    /// Speed through the air in m/s, which the cloth feels.
    pub air_speed: f64,
    /// Which of the flight's canopies are open from then on.
    pub open: Vec<bool>,
    /// Their drag area together, m².
    pub drag_area: f64,
}

/// What the flight came to.
#[derive(Debug, Clone, PartialEq)]
pub struct FlightPath {
    /// When the motor's burn ends; `None` if it was over before release.
    pub burnout: Option<Moment>,
    /// The greatest speed.
    pub fastest: Moment,
    /// The greatest acceleration over ground in m/s² from release to the opening, at the ends of the steps, which lie
    /// on every point of the thrust curve. The jerk of the opening isn't in it.
    pub top_acceleration: f64,
    /// The highest point.
    pub apogee: Moment,
    /// The openings in their order; none where nothing opens or the ground came first.
    pub openings: Vec<Opened>,
    /// The whole state at the first.
    pub opening_state: Option<State>,
    /// Back at the height of the resting place.
    pub landing: Moment,
}
