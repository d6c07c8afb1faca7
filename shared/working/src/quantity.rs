//! The numbers that can be worked.

use serde::Serialize;

/// A number that can be worked by hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Quantity {
    /// The speed at which the last guide leaves.
    ExitSpeed,
    /// Mass and balance point.
    Balance,
    /// The centre of pressure.
    PressureCentre,
    /// The static margin.
    Margin,
    /// How far the rod or rail leans.
    Lean,
    /// Average thrust over weight.
    ThrustToWeight,
    /// The angle at which the air meets the rocket at release.
    AngleOfAttack,
    /// The speed of coming down.
    Descent,
    /// What the guides carry.
    Loads,
    /// Whether the pad stays standing in a gust.
    Standing,
}

impl Quantity {
    /// All of them, with their names and a line on each.
    pub const ALL: [(Quantity, &'static str, &'static str); 10] = [
        (Quantity::ExitSpeed, "exit-speed", "how fast the rocket is when its last guide leaves the rod or rail"),
        (Quantity::Balance, "balance", "mass and balance point, part by part, on the pad and at burnout"),
        (Quantity::PressureCentre, "pressure-centre", "where the air's side force acts, nose, tapers and fins"),
        (Quantity::Margin, "margin", "how far the centre of pressure lies behind the balance point, in calibres"),
        (Quantity::Lean, "lean", "how far the rod or rail bends under the rocket and the wind"),
        (Quantity::ThrustToWeight, "thrust-to-weight", "the motor's average thrust over the rocket's weight"),
        (Quantity::AngleOfAttack, "angle-of-attack", "the angle at which the wind meets the rocket at release"),
        (Quantity::Descent, "descent", "how fast the rocket comes down under its parachute or streamer"),
        (Quantity::Loads, "loads", "what the lugs, buttons or rail guides carry on the pad and lifted level"),
        (Quantity::Standing, "standing", "what a gust does to the pad, and what holds it down"),
    ];

    /// The quantity of a name.
    pub fn named(name: &str) -> Option<Quantity> {
        Quantity::ALL.iter().find(|(_, known, _)| *known == name).map(|(quantity, ..)| *quantity)
    }

    /// Its name.
    pub fn name(self) -> &'static str {
        Quantity::ALL.iter().find(|(known, ..)| *known == self).map_or("", |(_, name, _)| name)
    }

    /// Whether it differs from flight to flight.
    pub fn needs_flight(self) -> bool {
        self != Quantity::PressureCentre
    }

    /// The quantity that a rule's finding is about, where there is one to work.
    pub fn behind(rule: &str) -> Option<Quantity> {
        RULES.iter().find(|(known, _)| *known == rule).map(|(_, quantity)| *quantity)
    }

    /// The rules whose findings rest on a quantity.
    pub fn rules() -> impl Iterator<Item = &'static str> {
        RULES.iter().map(|(rule, _)| *rule)
    }
}

static RULES: &[(&str, Quantity)] = &[
    ("guide/slow-exit", Quantity::ExitSpeed),
    ("guide/lone-guide-off-balance", Quantity::Balance),
    ("guide/not-straddling", Quantity::Balance),
    ("measured/balance-differs", Quantity::Balance),
    ("measured/mass-differs", Quantity::Balance),
    ("balance/ballast-behind", Quantity::Balance),
    ("guide/overloaded", Quantity::Loads),
    ("motor/low-push", Quantity::ThrustToWeight),
    ("motor/too-weak", Quantity::ThrustToWeight),
    ("pad/leans", Quantity::Lean),
    ("pad/tips-over", Quantity::Standing),
    ("pad/nearly-tips", Quantity::Standing),
    ("recovery/fast-descent", Quantity::Descent),
    ("recovery/hard-landing", Quantity::Descent),
    ("recovery/slow-descent", Quantity::Descent),
    ("stability/low-margin-for-length", Quantity::Margin),
    ("stability/over-stable", Quantity::Margin),
    ("wind/steep-angle", Quantity::AngleOfAttack),
    ("stability/low-margin", Quantity::Margin),
    ("stability/unstable", Quantity::Margin),
];
