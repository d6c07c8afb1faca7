//! Rods and rails that would be long enough, as they are sold.

use crate::rule::Context;
use finwright_assess::sold::length_at_least;
use finwright_model::Pad;
use finwright_units::show;

/// A rod or rail that is long enough, m.
pub(crate) struct Longer {
    /// The least length that is enough, rounded up to the centimetre.
    pub(crate) least: f64,
    /// The next one that is sold.
    pub(crate) sold: f64,
}

impl Longer {
    /// The one that is sold for a travel that is so much longer.
    pub(crate) fn by(cx: &Context, pad: &Pad, length: f64, more: f64) -> Option<Longer> {
        let least = ((length + more) * 100.0).ceil() / 100.0;
        length_at_least(cx.design, pad, least).map(|sold| Longer { least, sold })
    }

    /// What of it is needed, where that is less: ", the next size sold above the 0.67 m needed".
    pub(crate) fn reason(&self) -> String {
        if self.sold - self.least < 0.005 {
            return String::new();
        }
        format!(", the next size sold above the {} needed", show::length_at_least(self.least))
    }
}

/// A change of the mass by more than this share makes it another rocket, not a remedy.
pub(crate) const SAME_ROCKET: f64 = 0.25;
