//! A small system of linear equations.

/// Solves `matrix` (rows one after another) times x = `right` by elimination with the greatest pivot of each column;
/// `None` where it is singular or not all numbers are finite.
pub fn solve(mut matrix: Vec<f64>, mut right: Vec<f64>) -> Option<Vec<f64>> {
    let n = right.len();
    for column in 0..n {
        let size = |row: usize| matrix[row * n + column].abs();
        let pivot = (column..n).max_by(|a, b| size(*a).total_cmp(&size(*b)))?;
        let greatest = size(pivot);
        if !(greatest > 0.0 && greatest.is_finite()) {
            return None;
        }
        for i in 0..n {
            matrix.swap(column * n + i, pivot * n + i);
        }
        right.swap(column, pivot);
        let (above, below) = matrix.split_at_mut((column + 1) * n);
        let own = &above[column * n..];
        let known = right[column];
        for (row, value) in below.chunks_exact_mut(n).zip(&mut right[column + 1..]) {
            let factor = row[column] / own[column];
            for (entry, own) in row[column..].iter_mut().zip(&own[column..]) {
                *entry -= factor * own;
            }
            *value -= factor * known;
        }
    }
    for row in (0..n).rev() {
        let known: f64 = (row + 1..n).map(|i| matrix[row * n + i] * right[i]).sum();
        right[row] = (right[row] - known) / matrix[row * n + row];
    }
    right.iter().all(|x| x.is_finite()).then_some(right)
}

#[cfg(test)]
mod tests {
    use super::solve;

    /// Three equations solved by hand, the first of which has no pivot of its own.
    #[test]
    fn three_equations() {
        let x = solve(vec![0.0, 2.0, 1.0, 1.0, -1.0, 0.0, 4.0, 0.0, -2.0], vec![7.0, -1.0, -2.0]);
        assert_eq!(x, Some(vec![1.0, 2.0, 3.0]));
    }

    #[test]
    fn no_solution() {
        assert_eq!(solve(vec![1.0, 2.0, 2.0, 4.0], vec![1.0, 2.0]), None);
        assert_eq!(solve(vec![f64::NAN], vec![1.0]), None);
    }
}
