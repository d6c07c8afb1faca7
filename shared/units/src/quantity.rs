//! Values that carry dimension and tolerance through arithmetic.

use crate::dimension::Dimension;

/// A number in SI with its dimension and tolerance.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Quantity {
    /// The value in SI units.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// How far off it may be, by source.
    pub spread: Spread,
}

/// First-order tolerance: how much each independent source moves the value, at the tolerance that its author gave.
///
/// Sources are kept apart so that a value used twice (`caliber` in a length and in a diameter) keeps its correlation;
/// independent sources add in quadrature (GUM: JCGM 100:2008, 5.1.2).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spread(pub Vec<(SourceId, f64)>);

/// A place in the text where a tolerance was written: file number and byte offset.
pub type SourceId = (u32, u32);

impl Spread {
    /// The combined tolerance.
    pub fn total(&self) -> f64 {
        self.0.iter().map(|(_, d)| d * d).sum::<f64>().sqrt()
    }

    /// `a * self + b * other`, source by source.
    pub fn linear(&self, a: f64, other: &Spread, b: f64) -> Spread {
        if self.0.is_empty() && other.0.is_empty() {
            return Spread::default();
        }
        let mut sum: Vec<(SourceId, f64)> = self.0.iter().map(|(s, d)| (*s, a * d)).collect();
        for (source, d) in &other.0 {
            match sum.iter_mut().find(|(s, _)| s == source) {
                Some((_, total)) => *total += b * d,
                None => sum.push((*source, b * d)),
            }
        }
        Spread(sum)
    }
}

/// Two quantities that can't be added, compared or exchanged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mismatch {
    /// What the first one is.
    pub left: Dimension,
    /// What the second one is.
    pub right: Dimension,
}

impl Quantity {
    /// An exact quantity.
    pub fn new(value: f64, dimension: Dimension) -> Quantity {
        Quantity { value, dimension, spread: Spread::default() }
    }

    /// A plain number.
    pub fn number(value: f64) -> Quantity {
        Quantity::new(value, Dimension::NUMBER)
    }

    /// The same value with one more independent tolerance.
    pub fn give_or_take(mut self, source: SourceId, tolerance: f64) -> Quantity {
        if tolerance != 0.0 {
            self.spread.0.push((source, tolerance));
        }
        self
    }

    /// `self + sign * other`.
    pub fn plus(&self, sign: f64, other: &Quantity) -> Result<Quantity, Mismatch> {
        if self.dimension != other.dimension {
            return Err(Mismatch { left: self.dimension, right: other.dimension });
        }
        Ok(Quantity {
            value: self.value + sign * other.value,
            dimension: self.dimension,
            spread: self.spread.linear(1.0, &other.spread, sign),
        })
    }

    /// The product.
    pub fn times(&self, other: &Quantity) -> Quantity {
        Quantity {
            value: self.value * other.value,
            dimension: self.dimension.times(other.dimension),
            spread: self.spread.linear(other.value, &other.spread, self.value),
        }
    }

    /// The quotient; the value is infinite or not a number where the divisor is zero, which the caller refuses.
    pub fn over(&self, other: &Quantity) -> Quantity {
        let value = self.value / other.value;
        Quantity {
            value,
            dimension: self.dimension.over(other.dimension),
            spread: self.spread.linear(1.0 / other.value, &other.spread, -value / other.value),
        }
    }

    /// A function of this quantity with a known slope.
    pub fn map(&self, value: f64, slope: f64, dimension: Dimension) -> Quantity {
        Quantity { value, dimension, spread: self.spread.linear(slope, &Spread::default(), 0.0) }
    }
}
