//! A hatch as real lines, clipped to the area that it fills: the same on screen, on paper and from a copier.

use crate::scene::Point;

/// Lines `gap` mm apart at an angle in degrees, inside of rings; one ring in another is a hole.
pub fn hatch(rings: &[Vec<Point>], gap: f64, angle: f64) -> Vec<[Point; 2]> {
    let (sin, cos) = angle.to_radians().sin_cos();
    // Along the lines, and across them.
    let turned = |(x, y): Point| (x * cos - y * sin, x * sin + y * cos);
    let back = |(u, v): Point| (u * cos + v * sin, v * cos - u * sin);
    let rings: Vec<Vec<Point>> = rings.iter().map(|ring| ring.iter().copied().map(turned).collect()).collect();
    let across = || rings.iter().flatten().map(|point| point.1);
    let (low, high) = (across().fold(f64::INFINITY, f64::min), across().fold(f64::NEG_INFINITY, f64::max));
    if gap <= 0.0 || !(high - low).is_finite() || (high - low) / gap > MOST {
        return Vec::new();
    }
    // Counted from the paper's corner, so that neighbours' lines meet.
    let mut v = ((low / gap).floor() + 0.5) * gap;
    let mut lines = Vec::new();
    while v < high {
        let mut meets: Vec<f64> = rings.iter().flat_map(|ring| crossings(ring, v)).collect();
        meets.sort_by(f64::total_cmp);
        for pair in meets.chunks_exact(2).filter(|pair| pair[1] - pair[0] > 0.05) {
            lines.push([back((pair[0], v)), back((pair[1], v))]);
        }
        v += gap;
    }
    lines
}

/// More lines than any picture has.
const MOST: f64 = 2000.0;

fn crossings(ring: &[Point], v: f64) -> Vec<f64> {
    let next = ring.iter().cycle().skip(1);
    let met = ring.iter().zip(next).filter(|(a, b)| (a.1 <= v) != (b.1 <= v));
    met.map(|(a, b)| a.0 + (v - a.1) / (b.1 - a.1) * (b.0 - a.0)).collect()
}

#[cfg(test)]
mod tests {
    use super::hatch;

    #[test]
    fn a_square_with_a_hole_is_hatched_around_it() {
        let square = |r: f64| vec![(-r, -r), (r, -r), (r, r), (-r, r)];
        let lines = hatch(&[square(10.0), square(4.0)], 1.0, 0.0);
        assert_eq!(lines.len(), 20 + 8);
        assert!(lines.iter().flatten().all(|(x, y)| x.abs() >= 4.0 - 1e-9 || y.abs() >= 4.0));
    }
}
