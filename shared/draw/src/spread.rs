//! Where the labels of a column go: each as near as it can be to what it names, none on another.

/// The tops of labels with `heights`, `gap` apart, as near as can be to the tops `wanted`, which are in order, between
/// `top` and `bottom` where they all fit there. Least squares: pooled neighbours, as in isotonic regression.
pub fn spread(wanted: &[f64], heights: &[f64], gap: f64, (top, bottom): (f64, f64)) -> Vec<f64> {
    let mut before = 0.0;
    let offsets: Vec<f64> = heights
        .iter()
        .map(|height| {
            let offset = before;
            before += height + gap;
            offset
        })
        .collect();
    // Runs of labels that touch, each with the sum of what they want and how many they are.
    let mut runs: Vec<(f64, f64)> = Vec::new();
    for (wish, offset) in wanted.iter().zip(&offsets) {
        let mut run = (wish - offset, 1.0);
        while let Some(last) = runs.last().copied().filter(|last| last.0 / last.1 > run.0 / run.1) {
            run = (run.0 + last.0, run.1 + last.1);
            runs.pop();
        }
        runs.push(run);
    }
    let most = (bottom - (before - gap)).max(top);
    let each = runs.iter().flat_map(|(sum, n)| std::iter::repeat_n((sum / n).clamp(top, most), *n as usize));
    each.zip(offsets).map(|(start, offset)| start + offset).collect()
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn labels_that_would_collide_share_the_room() {
        assert_eq!(spread(&[10.0, 11.0], &[4.0, 4.0], 1.0, (0.0, 100.0)), [8.0, 13.0]);
        assert_eq!(spread(&[10.0, 50.0], &[4.0, 4.0], 1.0, (0.0, 100.0)), [10.0, 50.0]);
        assert_eq!(spread(&[98.0, 99.0], &[4.0, 4.0], 1.0, (0.0, 100.0)), [91.0, 96.0]);
    }
}
