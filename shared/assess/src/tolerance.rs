//! What the tolerances in the file do to a number, to first order.

use crate::{assess, Assessment};
use finwright_model::Design;
use finwright_units::quantity::SourceId;

/// The tolerance of each number that `pick` takes from an assessment: every tolerance written in the file is moved in
/// turn, the whole design computed again, and the changes added in quadrature (independent, first order: JCGM 100:2008,
/// 5.1.2). `None` where the number isn't there.
pub fn tolerances<const N: usize>(
    design: &Design,
    base: &Assessment,
    pick: impl Fn(&Assessment) -> [Option<f64>; N],
) -> [Option<f64>; N] {
    let centre = pick(base);
    let mut squares = [0.0; N];
    for source in sources(design) {
        let mut moved = design.clone();
        for amount in moved.amounts_mut() {
            if let Some((_, delta)) = amount.spread.0.iter().find(|(s, _)| *s == source) {
                amount.si += delta;
            }
        }
        let shifted = pick(&assess(&moved));
        for ((square, before), after) in squares.iter_mut().zip(centre).zip(shifted) {
            if let (Some(before), Some(after)) = (before, after) {
                *square += (after - before) * (after - before);
            }
        }
    }
    let mut result = centre;
    for (value, square) in result.iter_mut().zip(squares) {
        *value = value.map(|_| square.sqrt());
    }
    result
}

fn sources(design: &Design) -> Vec<SourceId> {
    let mut copy = design.clone();
    let mut found: Vec<SourceId> =
        copy.amounts_mut().into_iter().flat_map(|a| a.spread.0.iter().map(|(s, _)| *s).collect::<Vec<_>>()).collect();
    found.sort_unstable();
    found.dedup();
    found
}
