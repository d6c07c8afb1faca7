//! What plots share: axes only as long as their data, and words that find room beside a point.

use crate::draft::Draft;
use crate::scene::{Pen, Point, Role, Style};
use finwright_units::show;

/// A stretch of numbers on a stretch of paper.
#[derive(Clone, Copy)]
pub struct Axis {
    /// The numbers' ends.
    pub from: f64,
    /// See `from`.
    pub to: f64,
    /// Where on the paper these are, mm.
    pub start: f64,
    /// See `start`.
    pub end: f64,
}

impl Axis {
    /// Where a number is.
    pub fn at(&self, value: f64) -> f64 {
        let span = if self.to > self.from { self.to - self.from } else { 1.0 };
        self.start + (value - self.from) / span * (self.end - self.start)
    }

    /// The round numbers on it, at most about `count`.
    pub fn ticks(&self, count: f64) -> Vec<f64> {
        let step = round_step((self.to - self.from) / count);
        let first = (self.from / step - 1e-9).ceil() as i64;
        let last = (self.to / step + 1e-9).floor() as i64;
        (first..=last.min(first + 60)).map(|i| i as f64 * step).collect()
    }
}

/// A round number at least as large: 1, 2 or 5 with noughts.
pub fn round_step(least: f64) -> f64 {
    if !(least > 0.0 && least.is_finite()) {
        return 1.0;
    }
    let power = 10.0_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|step| step * power)
        .find(|step| *step >= least * (1.0 - 1e-9))
        .unwrap_or(power)
}

/// An axis upwards at `x`, its unit over it; numbers are divided by `unit`.
pub fn upright(draft: &mut Draft, x: f64, axis: &Axis, unit: f64, name: &str) {
    draft.line(&[(x, axis.at(axis.from)), (x, axis.at(axis.to))], Pen::HAIR);
    draft.guard((x, axis.at(axis.from)), (x, axis.at(axis.to)));
    let scaled = Axis { from: axis.from / unit, to: axis.to / unit, ..*axis };
    for tick in scaled.ticks(6.0) {
        let y = scaled.at(tick);
        draft.line(&[(x, y), (x - 1.2, y)], Pen::HAIR);
        draft.text((x - 2.0, y + 1.05), show::number(tick), Style::NOTE.end());
    }
    draft.text((12.0, axis.at(axis.to) - 5.0), name, Style::NOTE);
}

/// An axis along the bottom at `y`, its unit on its last number; numbers are divided by `unit`.
pub fn level(draft: &mut Draft, y: f64, axis: &Axis, unit: f64, name: &str) {
    draft.line(&[(axis.at(axis.from), y), (axis.at(axis.to), y)], Pen::HAIR);
    let scaled = Axis { from: axis.from / unit, to: axis.to / unit, ..*axis };
    let ticks = scaled.ticks(6.0);
    for (i, tick) in ticks.iter().enumerate() {
        let x = scaled.at(*tick);
        draft.line(&[(x, y), (x, y + 1.2)], Pen::HAIR);
        let number = show::number(*tick);
        match i + 1 == ticks.len() {
            true => {
                // The unit hangs on behind, so that the number stays under its mark.
                let half = crate::font::width(&number, Style::NOTE) / 2.0;
                draft.text((x - half, y + 4.6), format!("{number} {name}"), Style::NOTE);
            }
            false => draft.text((x, y + 4.6), number, Style::NOTE.middle()),
        }
    }
}

/// A label beside a point, where it meets no other words: up and left of it where there is room, else further off
/// with a leader. Whether it found room.
pub fn label(draft: &mut Draft, to: Point, lines: &[(String, Style)], right: bool) -> bool {
    let lead = 4.0;
    let high = lead * (lines.len() as f64 - 1.0);
    let side = if right { 1.0 } else { -1.0 };
    // Near before far; above on the side that is asked for, below on the other one.
    let places = (0..9).flat_map(|i| {
        let (far, step) = (f64::from(i), 4.2 * f64::from(i));
        let aside = 3.0 + 0.6 * far;
        let above = [side, -side].map(|side| (side, side * aside, -1.2 - high - step));
        let below = [-side, side].map(|side| (side, side * aside, 4.6 + step));
        above.into_iter().chain(below)
    });
    for (side, dx, dy) in places {
        let styled = |style: Style| if side > 0.0 { style } else { style.end() };
        let texts: Vec<crate::scene::Text> = lines
            .iter()
            .enumerate()
            .map(|(i, (words, style))| crate::scene::Text {
                at: (to.0 + dx, to.1 + dy + lead * i as f64),
                words: words.clone(),
                style: styled(*style),
            })
            .collect();
        let from = (to.0 + 0.8 * side, to.1 + dy.signum() * 0.8);
        let end = (to.0 + dx - 1.0 * side, to.1 + dy - 1.0 + if dy < 0.0 { high } else { 0.0 });
        let leads = dy.abs() > high + 6.0;
        let free = texts.iter().all(|text| draft.is_free(crate::font::bounds(text)));
        if free && !(leads && draft.passes_words(from, end)) {
            if leads {
                draft.line(&[from, end], Pen::HAIR);
            }
            texts.into_iter().for_each(|text| draft.text(text.at, text.words, text.style));
            return true;
        }
    }
    false
}

/// The ring of something on the way.
pub fn ring(draft: &mut Draft, at: Point) {
    draft.circle(at, 1.0, Some(Role::Paper), Some(Pen::SMALL));
}

/// The dot of the value that counts.
pub fn dot(draft: &mut Draft, at: Point, role: Role) {
    draft.circle(at, 1.05, Some(role), None);
}
