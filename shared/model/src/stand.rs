//! What a test stand recorded, as a thrust curve: its zero taken off, the moment of ignition found, the noise known.

/// What is known of a record besides its curve. Loads in N, times in s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// The load before ignition, which is taken for zero.
    pub zero: f64,
    /// How far that zero has moved when it's quiet again; `None` where the record ends too early to tell.
    pub drift: Option<f64>,
    /// The noise of the quiet before ignition, one standard deviation.
    pub noise: f64,
    /// The record's time at which the thrust rises out of the noise.
    pub start: f64,
    /// How many points the record has.
    pub points: usize,
}

/// Why a record gives no curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Unfit {
    /// No quiet before ignition, from which the zero could be taken.
    NoQuiet,
    /// Nothing in it rises out of the noise.
    NoThrust,
}

impl Unfit {
    pub fn in_words(self) -> (String, &'static str) {
        match self {
            Unfit::NoQuiet => (
                "the record begins after ignition".to_string(),
                "keep a tenth of a second of quiet before it: the zero of the load is taken from there",
            ),
            Unfit::NoThrust => (
                "no thrust rises out of the record's noise".to_string(),
                "check the column and its unit, and that a pull counts as positive",
            ),
        }
    }
}

/// Fewer quiet points than this give no zero.
const LEAST_QUIET: usize = 5;
/// The share of the peak at which a burn has surely begun: half of that at which burn times are usually counted.
const SURELY: f64 = 0.025;
/// So many standard deviations of noise aren't noise.
const OUT_OF_NOISE: f64 = 4.0;
/// Thrust below this share of the peak is none, however quiet the record.
const LEAST_SHARE: f64 = 0.004;
/// How near to the record the curve keeps, as a share of the peak: it then has some dozens of points.
const NEAR: f64 = 0.004;

/// The thrust curve of a record, from ignition on, its impulse that of every recorded point.
///
/// The zero is the median before ignition. Where it has moved when the record is quiet again, it's taken to have moved
/// evenly through the burn: a stand that stands upright weighs the propellant too. The noise is the median deviation
/// from that median, times 1.4826, which makes it a standard deviation where it's normally distributed.
pub(crate) fn of_trace(record: &[(f64, f64)]) -> Result<(Vec<(f64, f64)>, Stand), Unfit> {
    let (first, last) = burning(record).ok_or(Unfit::NoThrust)?;
    let before: Vec<f64> = record.iter().take(first).map(|(_, load)| *load).collect();
    if before.len() < LEAST_QUIET {
        return Err(Unfit::NoQuiet);
    }
    let zero = median(&before);
    let noise = 1.4826 * median(&before.iter().map(|load| (load - zero).abs()).collect::<Vec<_>>());
    let behind: Vec<f64> = record.iter().skip(last + 1).map(|(_, load)| *load).collect();
    let drift = (behind.len() >= LEAST_QUIET).then(|| median(&behind) - zero);
    let ((from, _), (to, _)) = record.get(first).zip(record.get(last)).ok_or(Unfit::NoThrust)?;
    let moved = |time: f64| drift.unwrap_or(0.0) * ((time - from) / (to - from).max(1e-9)).clamp(0.0, 1.0);
    let thrust: Vec<(f64, f64)> = record.iter().map(|(time, load)| (*time, load - zero - moved(*time))).collect();
    let peak = thrust.iter().map(|(_, thrust)| *thrust).fold(0.0, f64::max);
    let least = (OUT_OF_NOISE * noise).max(LEAST_SHARE * peak);
    if peak <= 2.0 * least {
        return Err(Unfit::NoThrust);
    }
    let lit = (0..=first).rev().find(|i| thrust.get(*i).is_none_or(|(_, f)| *f <= least)).unwrap_or(0);
    let out =
        (last..thrust.len()).find(|i| thrust.get(*i).is_none_or(|(_, f)| *f <= least)).unwrap_or(thrust.len() - 1);
    let start = thrust.get(lit).map_or(0.0, |(time, _)| *time);
    let mut burn: Vec<(f64, f64)> = Vec::with_capacity(out + 1 - lit);
    for (time, f) in thrust.get(lit..=out).unwrap_or_default() {
        // Two loads at one time are one of them.
        if burn.last().is_none_or(|(before, _)| time - start > *before) {
            burn.push((time - start, f.max(0.0)));
        }
    }
    for edge in [0, burn.len().saturating_sub(1)] {
        if let Some((_, f)) = burn.get_mut(edge) {
            *f = 0.0;
        }
    }
    let whole = impulse(&burn);
    let mut kept = thinned(&burn, NEAR * peak);
    let share = whole / impulse(&kept);
    if !(share.is_finite() && share > 0.0) {
        return Err(Unfit::NoThrust);
    }
    kept.iter_mut().for_each(|(_, f)| *f *= share);
    Ok((kept, Stand { zero, drift, noise, start, points: record.len() }))
}

/// The first and last point at which the motor surely burns: with a twentieth of what the load differs at most from
/// that at the record's beginning, and so at the next point.
fn burning(record: &[(f64, f64)]) -> Option<(usize, usize)> {
    let head: Vec<f64> = record.iter().take(LEAST_QUIET).map(|(_, load)| *load).collect();
    let zero = median(&head);
    let over: Vec<f64> = record.iter().map(|(_, load)| load - zero).collect();
    let peak = over.iter().copied().fold(0.0, f64::max);
    let burns = |i: usize| {
        let strong = |i: usize| over.get(i).is_some_and(|over| *over > 2.0 * SURELY * peak);
        strong(i) && (strong(i + 1) || (i > 0 && strong(i - 1)))
    };
    if peak <= 0.0 {
        return None;
    }
    let first = (0..over.len()).find(|i| burns(*i))?;
    let last = (first..over.len()).rev().find(|i| burns(*i))?;
    Some((first, last))
}

/// The middle one of some values; the mean of the middle two of an even number; 0 of none.
pub fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    match (sorted.get(middle), sorted.len() % 2) {
        (Some(upper), 0) => sorted.get(middle.wrapping_sub(1)).map_or(*upper, |lower| 0.5 * (lower + upper)),
        (Some(middle), _) => *middle,
        (None, _) => 0.0,
    }
}

fn impulse(points: &[(f64, f64)]) -> f64 {
    points.windows(2).map(|pair| if let [a, b] = pair { 0.5 * (a.1 + b.1) * (b.0 - a.0) } else { 0.0 }).sum()
}

/// The points without those that lie nearer than `near` to the straight line between points that are kept (Douglas and
/// Peucker, 1973).
fn thinned(points: &[(f64, f64)], near: f64) -> Vec<(f64, f64)> {
    let mut keeps = vec![false; points.len()];
    let mut waiting = vec![(0, points.len().saturating_sub(1))];
    while let Some((from, to)) = waiting.pop() {
        let (Some(a), Some(b)) = (points.get(from), points.get(to)) else { continue };
        for end in [from, to] {
            if let Some(kept) = keeps.get_mut(end) {
                *kept = true;
            }
        }
        let slope = (b.1 - a.1) / (b.0 - a.0);
        let off = |p: &(f64, f64)| (p.1 - a.1 - slope * (p.0 - a.0)).abs();
        let between = points.iter().enumerate().take(to).skip(from + 1);
        let farthest = between.map(|(i, p)| (i, off(p))).max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((i, _)) = farthest.filter(|(_, off)| *off > near) {
            waiting.extend([(from, i), (i, to)]);
        }
    }
    points.iter().zip(keeps).filter(|(_, kept)| *kept).map(|(p, _)| *p).collect()
}
