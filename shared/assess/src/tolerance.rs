//! What the tolerances in the file do to a number, to first order.

use crate::{assess, Assessment};
use finwright_model::Design;
use finwright_units::quantity::SourceId;
use finwright_units::reader::in_both;
use finwright_units::{find_unit, show};
use std::sync::Arc;

/// The tolerance of each number that `pick` takes from an assessment: every tolerance written in the file is moved in
/// turn, up and down, the whole design computed again, and the halved changes added in quadrature (independent, first
/// order: JCGM 100:2008, 5.1.2). `None` where the number isn't there.
pub fn tolerances<const N: usize>(
    design: &Design,
    base: &Assessment,
    pick: impl Fn(&Assessment) -> [Option<f64>; N],
) -> [Option<f64>; N] {
    let found = all_tolerances(design, &pick(base), |_, moved| pick(moved).to_vec());
    std::array::from_fn(|i| found.get(i).copied().flatten())
}

/// The same for a list of numbers that `pick` takes from a design and its assessment; `centre` is what it takes from
/// the design as it stands.
pub fn all_tolerances(
    design: &Design,
    centre: &[Option<f64>],
    pick: impl Fn(&Design, &Assessment) -> Vec<Option<f64>>,
) -> Vec<Option<f64>> {
    let mut squares = vec![0.0; centre.len()];
    for source in sources(design) {
        let moved = |way: f64| {
            let mut moved = design.clone();
            for amount in moved.amounts_mut() {
                if let Some((_, delta)) = amount.spread.0.iter().find(|(s, _)| *s == source) {
                    amount.si += way * delta;
                }
            }
            pick(&moved, &assess(&moved))
        };
        for ((square, down), up) in squares.iter_mut().zip(moved(-1.0)).zip(moved(1.0)) {
            if let (Some(down), Some(up)) = (down, up) {
                let change = up - down;
                if change.abs() > ROUNDING * down.abs().max(up.abs()) {
                    *square += 0.25 * change * change;
                }
            }
        }
    }
    centre.iter().zip(squares).map(|(value, square)| value.map(|_| square.sqrt())).collect()
}

/// What moves a number by less than this share of it moves it by rounding alone: a flight's steps end elsewhere.
const ROUNDING: f64 = 1e-9;

/// A value with its tolerance, said by `how`, in the value's unit: `345 ± 1.2 mm`. A tolerance too small to be read
/// beside the value isn't said.
pub fn in_words(value: f64, tolerance: f64, how: fn(f64) -> String) -> String {
    in_both(|| give_or_take(value, tolerance, how))
}

/// The same in one system of units.
fn give_or_take(value: f64, tolerance: f64, how: fn(f64) -> String) -> String {
    let (value, shown) = (how(value), how(tolerance));
    let unit_of = |text: &str| text.split_once(' ').map_or(String::new(), |(_, unit)| unit.to_string());
    let (unit, own) = (unit_of(&value), unit_of(&shown));
    let shown = match find_unit(&unit) {
        // A small tolerance would be told in a smaller unit, grams beside kilograms.
        Ok(known) if unit != own => show::significant(tolerance / known.factor, 2, 4),
        _ => shown.split(' ').next().unwrap_or("").to_string(),
    };
    if shown.trim_end_matches('°') == "0" {
        return value;
    }
    match value.strip_suffix(&format!(" {unit}")) {
        Some(bare) if !unit.is_empty() => format!("{bare} ± {shown} {unit}"),
        _ => format!("{value} ± {shown}"),
    }
}

/// Everything in the file that carries a tolerance. The catalogue's rail sections do too, whether they are used or not;
/// those that no flight uses move nothing and are left out.
fn sources(design: &Design) -> Vec<SourceId> {
    let mut used = design.clone();
    let slots: Vec<usize> = design
        .pads
        .iter()
        .filter_map(|pad| match &pad.rail {
            Some(finwright_model::Rail::Slotted { slot, .. }) => slot.as_ref().map(|s| s.value),
            _ => None,
        })
        .collect();
    for (id, section) in used.sections.iter_mut().enumerate() {
        if !slots.contains(&id) {
            Arc::make_mut(section).second_moment = None;
        }
    }
    let mut found: Vec<SourceId> =
        used.amounts_mut().into_iter().flat_map(|a| a.spread.0.iter().map(|(s, _)| *s).collect::<Vec<_>>()).collect();
    found.sort_unstable();
    found.dedup();
    found
}
