//! The numbers that rules compare with. Each stands in the file of the rule that uses it; `finwright.toml` may set it.

use finwright_units::{show, Dimension};

/// A number that a rule compares with: common practice, no source, unless its `means` says otherwise.
#[derive(Debug)]
pub struct Threshold {
    /// Its name in `finwright.toml`.
    pub name: &'static str,
    /// What it is, in a few words.
    pub means: &'static str,
    /// Its dimension.
    pub dimension: Dimension,
    /// Its value in SI in each profile: for beginners, for a club, for high power.
    pub values: [f64; 3],
}

impl Threshold {
    /// One value for every profile.
    pub const fn new(name: &'static str, dimension: Dimension, value: f64, means: &'static str) -> Threshold {
        Threshold { name, means, dimension, values: [value; 3] }
    }

    /// With another value for beginners.
    pub const fn beginners(mut self, value: f64) -> Threshold {
        self.values[Profile::Beginner as usize] = value;
        self
    }

    /// With another value for high power.
    pub const fn high_power(mut self, value: f64) -> Threshold {
        self.values[Profile::HighPower as usize] = value;
        self
    }

    /// Its value in a profile.
    pub fn value(&self, profile: Profile) -> f64 {
        self.values[profile as usize]
    }

    /// What it is in every profile: "the least …: 13.4 m/s, 15 m/s for high-power".
    pub fn sentence(&self) -> String {
        let value = |profile| self.in_words(self.value(profile));
        let usual = value(Profile::Club);
        let others: String = PROFILES
            .iter()
            .filter(|(_, profile)| value(*profile) != usual)
            .map(|(name, profile)| format!(", {} for {name}", value(*profile)))
            .collect();
        format!("{}: {usual}{others}", self.means)
    }

    /// A value of it in words.
    pub fn in_words(&self, value: f64) -> String {
        match self.dimension {
            Dimension::SPEED => show::speed(value),
            other => show::quantity(value, other),
        }
    }
}

/// For whom rules and thresholds are set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Profile {
    /// First rockets, young people, nobody near who could tell.
    Beginner,
    /// A club's field with a range safety officer.
    #[default]
    Club,
    /// Large motors, flown by certified people.
    HighPower,
}

/// The profiles by the name that `finwright.toml` gives them.
pub const PROFILES: [(&str, Profile); 3] =
    [("beginner", Profile::Beginner), ("club", Profile::Club), ("high-power", Profile::HighPower)];
