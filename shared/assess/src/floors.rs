//! The floors that a flight is held against.

/// What a flight should reach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floors {
    /// The least speed at which the last guide may leave, m/s.
    pub exit_speed: f64,
    /// The least static margin on the pad, calibres.
    pub margin: f64,
    /// What a second method takes off the margin, calibres: see [`crate::SecondOpinion::doubt`].
    pub doubt: f64,
    /// The least mean thrust along the guide, over the weight.
    pub push: f64,
    /// The greatest angle of attack at release, rad.
    pub angle: f64,
}
