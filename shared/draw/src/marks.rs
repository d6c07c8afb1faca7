//! Many values on one line: a mark each, stacked where they are alike, with the least that passes.

use crate::draft::Draft;
use crate::plot::{level, round_step, Axis};
use crate::scene::{Dash, Pen, Role, Scene, Style};

/// What is marked.
pub struct Marks<'a> {
    /// A short name, for ids.
    pub name: &'static str,
    /// What the values are, with their unit in words.
    pub title: &'a str,
    /// The unit on the axis.
    pub unit: &'a str,
    /// The values, in the axis' unit.
    pub values: &'a [f64],
    /// The least that passes.
    pub least: f64,
}

const WIDTH: f64 = 150.0;
const LEFT: f64 = 8.0;
const RIGHT: f64 = 128.0;
/// From one mark to the next, mm.
const STEP: f64 = 2.4;
/// Marks that stand on one another at most.
const HIGHEST: usize = 14;

/// The picture; where more stand on one another than there is room for, each mark stands for several, and that is said.
pub fn marks(of: &Marks) -> Scene {
    let mut values: Vec<f64> = of.values.iter().copied().filter(|value| value.is_finite()).collect();
    values.sort_by(f64::total_cmp);
    let axis = axis(&values, of.least);
    let columns = ((RIGHT - LEFT) / STEP).floor() as usize;
    let mut stacks = vec![0_usize; columns + 1];
    for value in &values {
        let at = ((axis.at(*value) - LEFT) / STEP).round().clamp(0.0, columns as f64) as usize;
        if let Some(stack) = stacks.get_mut(at) {
            *stack += 1;
        }
    }
    let most = stacks.iter().copied().max().unwrap_or(0);
    let each = most.div_ceil(HIGHEST).max(1);
    let high = most.div_ceil(each).max(1) as f64;
    let ground = 15.0 + STEP * high;
    let mut draft = Draft::new(of.name, WIDTH, ground + 8.0);
    draft.text((LEFT, 6.6), of.title, Style::LABEL.bold());
    if each > 1 {
        draft.text((WIDTH - 6.0, 10.4), format!("a mark stands for up to {each} pupils"), Style::NOTE.end());
    }
    let limit = axis.at(of.least);
    draft.line(&[(limit, ground), (limit, 11.6)], Pen::THIN.role(Role::Ink).dash(Dash::Hidden));
    let (said, half) = (format!("least: {}", finwright_units::show::number(of.least)), WIDTH / 2.0);
    match limit < half {
        true => draft.text((limit + 0.8, 13.4), said, Style::NOTE),
        false => draft.text((limit - 0.8, 13.4), said, Style::NOTE.end()),
    }
    for (at, stack) in stacks.iter().enumerate() {
        let x = LEFT + STEP * at as f64;
        for row in 0..stack.div_ceil(each) {
            let y = ground - 1.5 - STEP * row as f64;
            // What is below the least is hollow, so that it's seen without colour.
            match x < limit {
                true => draft.circle((x, y), 0.85, Some(Role::Paper), Some(Pen::THIN.role(Role::Fails))),
                false => draft.circle((x, y), 0.95, Some(Role::Ink), None),
            }
        }
    }
    level(&mut draft, ground, &axis, 1.0, of.unit);
    draft.done(of.title.to_string(), told(of, &values))
}

/// An axis from a round number below all values to one above them, the least among them.
fn axis(values: &[f64], least: f64) -> Axis {
    let low = values.first().copied().unwrap_or(least).min(least);
    let high = values.last().copied().unwrap_or(least).max(least);
    let step = round_step(((high - low) / 8.0).max(least.abs() / 20.0).max(1e-3));
    let (from, to) = ((low / step - 0.2).floor() * step, (high / step + 0.2).ceil() * step);
    Axis { from, to, start: LEFT, end: RIGHT }
}

fn told(of: &Marks, values: &[f64]) -> String {
    let number = finwright_units::show::number;
    let (Some(low), Some(high)) = (values.first(), values.last()) else { return "Nothing is known.".to_string() };
    let below = values.iter().filter(|value| **value < of.least).count();
    format!(
        "{} values from {} to {} {}; {below} below {}.",
        values.len(),
        number(*low),
        number(*high),
        of.unit,
        number(of.least)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Ring, What};

    fn drawn(values: &[f64]) -> Scene {
        marks(&Marks {
            name: "margins",
            title: "Static margin, calibres, of the least stable flight of each",
            unit: "cal",
            values,
            least: 1.0,
        })
    }

    #[test]
    fn no_words_meet_however_many_values_there_are() {
        let many: Vec<f64> = (0..10_000).map(|at| f64::from(at % 97) / 30.0).collect();
        let cases: [&[f64]; 7] = [&[], &[1.0], &[0.2, 0.3], &[1.0; 400], &[-40.0, 900.0], &many, &[f64::NAN, 2.0]];
        for values in cases {
            let scene = drawn(values);
            assert!(scene.faults().is_empty(), "{:?} {:?}", values.first(), scene.faults());
        }
    }

    #[test]
    fn a_mark_for_each_and_hollow_below_the_least() {
        let scene = drawn(&[0.5, 1.2, 1.2, 2.0]);
        let rings = scene.items.iter().flat_map(|item| match &item.what {
            What::Shape(shape) => shape.rings.as_slice(),
            What::Text(_) => &[],
        });
        assert_eq!(rings.filter(|ring| matches!(ring, Ring::Circle(..))).count(), 4);
        assert_eq!(scene.desc, "4 values from 0.5 to 2 cal; 1 below 1.");
    }
}
