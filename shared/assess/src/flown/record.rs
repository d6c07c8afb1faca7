//! The lift-off and the highest point in an altimeter's record.

use finwright_model::median;

/// What a record shows. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Record {
    /// The greatest height above where it lay before.
    pub height: f64,
    /// How far that may be off by the record's noise, one standard deviation.
    pub height_sd: f64,
    /// Time from the lift-off to there.
    pub time_to_top: f64,
    /// How far that may be off by the spacing of the points, one standard deviation.
    pub time_sd: f64,
    /// The record's time at the lift-off.
    pub lift_off: f64,
    /// What the record says on the ground, before.
    pub ground: f64,
    /// The noise there, one standard deviation.
    pub noise: f64,
}

/// More of the record's noise than this, and more than this height in m, is a rise.
const OUT_OF_NOISE: f64 = 6.0;
const LEAST_RISE: f64 = 2.0;
/// The rise from which the lift-off is told, as so many times the least one.
const TELLS: f64 = 8.0;
/// The highest point is that of a parabola through everything within this share of the way up, in time.
const NEAR_TOP: f64 = 0.12;

/// What a record shows; `None` where nothing rises in it, or it begins in the air.
///
/// The ground is the median of what comes before the rise. While the motor burns the rocket climbs about evenly faster,
/// so that the root of its height grows evenly with time: where a straight line through the roots of the first heights
/// meets the ground is the lift-off. The highest point is that of a parabola fitted to the points around the highest.
pub fn record(points: &[(f64, f64)]) -> Option<Record> {
    let (top, highest) = points.iter().enumerate().map(|(i, (_, h))| (i, *h)).max_by(|a, b| a.1.total_cmp(&b.1))?;
    let before = quiet(points, top, highest).filter(|before| lies_still(before))?;
    let ground = median(&heights(before));
    let off: Vec<f64> = before.iter().map(|(_, h)| (h - ground).abs()).collect();
    let noise = 1.4826 * median(&off);
    let least = (OUT_OF_NOISE * noise).max(LEAST_RISE);
    if highest - ground < 3.0 * least {
        return None;
    }
    let first = (0..top).rev().find(|i| points.get(*i).is_some_and(|(_, h)| h - ground <= least))? + 1;
    let rising: Vec<(f64, f64)> = points
        .iter()
        .take(top)
        .skip(first)
        .take_while(|(_, h)| h - ground <= TELLS * least)
        .map(|(t, h)| (*t, (h - ground).max(0.0).sqrt()))
        .collect();
    let last_quiet = points.get(first - 1)?.0;
    let lift_off = line(&rising).filter(|(slope, _)| *slope > 0.0).map_or(last_quiet, |(slope, at)| -at / slope);
    // It left the ground before the first point that is off it, and after it was last seen to lie there still.
    let lift_off = lift_off.clamp(last_quiet - SLOW_START, points.get(first)?.0);
    let (top_time, top_height) = crown(points, top, lift_off).unwrap_or((points.get(top)?.0, highest));
    let spacing = (points.get(top)?.0 - points.get(first - 1)?.0) / (top + 1 - first) as f64;
    Some(Record {
        height: top_height - ground,
        height_sd: noise,
        time_to_top: top_time - lift_off,
        time_sd: spacing / 12.0_f64.sqrt(),
        lift_off,
        ground,
        noise,
    })
}

/// A rocket that is hardly off the pad isn't seen in the noise for so long, s.
const SLOW_START: f64 = 0.5;
const LEAST_QUIET: usize = 4;

/// What comes before the rise to the highest point.
fn quiet(points: &[(f64, f64)], top: usize, highest: f64) -> Option<&[(f64, f64)]> {
    let head = median(&heights(points.get(..LEAST_QUIET)?));
    let rise = 0.05 * (highest - head);
    let risen = points.iter().take(top).position(|(_, h)| h - head > rise)?;
    points.get(..risen).filter(|quiet| quiet.len() >= LEAST_QUIET)
}

/// Whether the record of the ground doesn't climb, as one does that begins in the air: over all of it no further than
/// [`STILL`] m and its own scatter about a straight line.
fn lies_still(before: &[(f64, f64)]) -> bool {
    let Some((slope, at)) = line(before) else { return false };
    let scatter = before.iter().map(|(t, h)| (h - at - slope * t).powi(2)).sum::<f64>() / before.len() as f64;
    let long = before.last().zip(before.first()).map_or(0.0, |(last, first)| last.0 - first.0);
    (slope * long).abs() <= STILL + 4.0 * scatter.sqrt()
}

const STILL: f64 = 1.0;

fn heights(points: &[(f64, f64)]) -> Vec<f64> {
    points.iter().map(|(_, height)| *height).collect()
}

/// The slope and the value at 0 of a straight line through points by least squares.
fn line(points: &[(f64, f64)]) -> Option<(f64, f64)> {
    let n = points.len() as f64;
    if points.len() < 2 {
        return None;
    }
    let (x, y) = (points.iter().map(|p| p.0).sum::<f64>() / n, points.iter().map(|p| p.1).sum::<f64>() / n);
    let square: f64 = points.iter().map(|p| (p.0 - x).powi(2)).sum();
    let slope = points.iter().map(|p| (p.0 - x) * (p.1 - y)).sum::<f64>() / square;
    slope.is_finite().then_some((slope, y - slope * x))
}

/// Time and height of the parabola through the points around the highest one.
fn crown(points: &[(f64, f64)], top: usize, lift_off: f64) -> Option<(f64, f64)> {
    let (time, height) = *points.get(top)?;
    let near = NEAR_TOP * (time - lift_off);
    let around: Vec<(f64, f64)> =
        points.iter().filter(|(t, _)| (t - time).abs() <= near).map(|(t, h)| ((t - time) / near, h - height)).collect();
    if around.len() < 5 {
        return None;
    }
    let power = |k: i32| around.iter().map(|(t, _)| t.powi(k)).sum::<f64>();
    let with = |k: i32| around.iter().map(|(t, h)| h * t.powi(k)).sum::<f64>();
    let matrix = vec![power(0), power(1), power(2), power(1), power(2), power(3), power(2), power(3), power(4)];
    let found = finwright_physics::linear::solve(matrix, vec![with(0), with(1), with(2)])?;
    let [a, b, c] = found.as_slice() else { return None };
    let at = -b / (2.0 * c);
    // A top that isn't one, or lies outside, is the highest point itself.
    (*c < 0.0 && at.abs() <= 1.0).then(|| (time + near * at, height + a + 0.5 * b * at))
}
