//! Many runs with values drawn from their tolerances, the same from the same seed.

use std::f64::consts::PI;

/// A small random number generator.
///
/// Source: SplitMix64, Steele, Lea & Flood, "Fast splittable pseudorandom number generators",
/// OOPSLA 2014 (from memory).
#[derive(Debug, Clone)]
pub struct Random {
    state: u64,
}

impl Random {
    /// The generator that a `seed` stands for.
    pub fn new(seed: u64) -> Self {
        Self { state: seed }
    }

    /// The generator for one `run` of many: runs don't share numbers, whatever order or thread they
    /// are worked in.
    pub fn for_run(seed: u64, run: u64) -> Self {
        let mut of_seed = Self::new(seed);
        let mut of_run = Self::new(of_seed.next_u64() ^ run.wrapping_mul(GOLDEN));
        Self::new(of_run.next_u64())
    }

    /// The next 64 random bits.
    pub fn next_u64(&mut self) -> u64 {
        self.state = self.state.wrapping_add(GOLDEN);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// An even draw from 0 (inclusive) to 1 (exclusive).
    pub fn even(&mut self) -> f64 {
        (self.next_u64() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A draw from the standard normal distribution, by Box and Muller's transform (from memory).
    pub fn normal(&mut self) -> f64 {
        // 1 − u lies above 0, so that the logarithm is finite.
        let radius = (-2.0 * (1.0 - self.even()).ln()).sqrt();
        radius * (2.0 * PI * self.even()).cos()
    }
}

/// A value and how it is spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spread {
    /// Known exactly.
    Exact(f64),
    /// Normal, by mean and standard deviation.
    Normal {
        /// Mean.
        mean: f64,
        /// Standard deviation, 0 or more.
        sd: f64,
    },
    /// Equally likely anywhere between two ends.
    Even {
        /// The lower end.
        least: f64,
        /// The upper end.
        most: f64,
    },
}

impl Spread {
    /// One draw.
    pub fn draw(&self, random: &mut Random) -> f64 {
        match *self {
            Self::Exact(value) => value,
            Self::Normal { mean, sd } => mean + sd * random.normal(),
            Self::Even { least, most } => least + (most - least) * random.even(),
        }
    }
}

/// What many values came to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Summary {
    /// How many values.
    pub count: usize,
    /// Mean.
    pub mean: f64,
    /// Standard deviation of the sample (n − 1); 0 for one value.
    pub sd: f64,
    /// Least value.
    pub least: f64,
    /// The value that one in twenty lies under.
    pub low: f64,
    /// The value in the middle.
    pub median: f64,
    /// The value that one in twenty lies over.
    pub high: f64,
    /// Greatest value.
    pub most: f64,
}

impl Summary {
    /// Sums up `values`, in any order; `None` for none.
    pub fn of(values: &[f64]) -> Option<Self> {
        let mut sorted = values.to_vec();
        sorted.sort_by(f64::total_cmp);
        let (least, most) = (*sorted.first()?, *sorted.last()?);
        let count = sorted.len();
        let mean = sorted.iter().sum::<f64>() / count as f64;
        let square: f64 = sorted.iter().map(|v| (v - mean) * (v - mean)).sum();
        let sd = if count > 1 { (square / (count - 1) as f64).sqrt() } else { 0.0 };
        let at = |share: f64| quantile(&sorted, share);
        Some(Self { count, mean, sd, least, low: at(0.05), median: at(0.5), high: at(0.95), most })
    }
}

/// Works `run` for each of `runs` draws, one after the other; those that give nothing are left out.
pub fn repeat(seed: u64, runs: u64, mut run: impl FnMut(&mut Random) -> Option<f64>) -> Vec<f64> {
    (0..runs).filter_map(|i| run(&mut Random::for_run(seed, i))).collect()
}

/// Straight line between the neighbouring order statistics.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * (sorted.len() - 1) as f64;
    let below = place.floor() as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (sorted[above] - sorted[below]) * (place - below as f64)
}

const GOLDEN: u64 = 0x9E37_79B9_7F4A_7C15;
