//! What is known of a number, as two bounds: so that what isn't known can't pass for what is.

/// A number that isn't negative, and lies between these two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// It's no less than this.
    pub least: f64,
    /// It's no more than this; infinite where nothing bounds it.
    pub most: f64,
}

impl Default for Bounds {
    fn default() -> Bounds {
        Bounds::UNKNOWN
    }
}

impl Bounds {
    /// Nothing is known of it.
    pub const UNKNOWN: Bounds = Bounds { least: 0.0, most: f64::INFINITY };

    /// It's known.
    pub fn exactly(value: f64) -> Bounds {
        Bounds { least: value, most: value }
    }

    /// It's known where there is a value.
    pub fn of(value: Option<f64>) -> Bounds {
        value.map_or(Bounds::UNKNOWN, Bounds::exactly)
    }

    /// The value, where it's known.
    pub fn known(self) -> Option<f64> {
        (self.least == self.most).then_some(self.least)
    }

    /// Of something that grows with it.
    pub fn grown(self, by: impl Fn(f64) -> f64) -> Bounds {
        Bounds { least: by(self.least), most: by(self.most) }
    }

    /// The two together: whichever of them holds.
    pub fn or(self, other: Bounds) -> Bounds {
        Bounds { least: self.least.min(other.least), most: self.most.max(other.most) }
    }

    /// The greater of the two numbers.
    pub fn greater(self, other: Bounds) -> Bounds {
        Bounds { least: self.least.max(other.least), most: self.most.max(other.most) }
    }

    /// The sum of the two.
    pub fn plus(self, other: Bounds) -> Bounds {
        Bounds { least: self.least + other.least, most: self.most + other.most }
    }

    /// The product of the two; the other is finite and above nothing.
    pub fn times(self, other: Bounds) -> Bounds {
        Bounds { least: self.least * other.least, most: self.most * other.most }
    }

    /// The one over the other.
    pub fn over(self, other: Bounds) -> Bounds {
        let most = if other.least > 0.0 { self.most / other.least } else { f64::INFINITY };
        Bounds { least: if other.most > 0.0 { self.least / other.most } else { f64::INFINITY }, most }
    }
}
