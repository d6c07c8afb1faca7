//! A drawing cut to a window, so that a sheet larger than the paper goes onto several.

use crate::draft::Draft;
use crate::font::bounds;
use crate::scene::{Point, Rect, Ring, Scene, Shape, Text, What};

/// What of a scene lies in a window, moved so that the window's corner is at `to`, drawn into `draft`. Words that the
/// window's edge would cut move inside; those whose point lies outside stay away.
pub fn into(draft: &mut Draft, scene: &Scene, window: Rect, to: Point) {
    let moved = |(x, y): Point| (x - window.0 + to.0, y - window.1 + to.1);
    for item in &scene.items {
        draft.stands_for(item.source);
        match &item.what {
            What::Text(text) => words(draft, text, window, &moved),
            What::Shape(Shape { rings, fill, pen }) => {
                if let Some(fill) = fill {
                    let inside: Vec<Ring> = rings
                        .iter()
                        .map(|ring| area(&points(ring), window))
                        .filter(|p| p.len() > 2)
                        .map(|p| Ring::Closed(p.into_iter().map(moved).collect()))
                        .collect();
                    if !inside.is_empty() {
                        draft.shape(inside, Some(*fill), None);
                    }
                }
                let Some(pen) = pen else { continue };
                let strokes: Vec<Ring> = rings
                    .iter()
                    .flat_map(|ring| lines(ring, window))
                    .map(|line| Ring::Open(line.into_iter().map(moved).collect()))
                    .collect();
                if !strokes.is_empty() {
                    draft.shape(strokes, None, Some(*pen));
                }
            }
        }
    }
    draft.stands_for(None);
}

fn words(draft: &mut Draft, text: &Text, window: Rect, moved: &dyn Fn(Point) -> Point) {
    let (left, top, right, bottom) = bounds(text);
    let middle = ((left + right) / 2.0, (top + bottom) / 2.0);
    let inside = (window.0..window.2).contains(&middle.0) && (window.1..window.3).contains(&middle.1);
    if !inside {
        return;
    }
    let push = |low: f64, high: f64, from: f64, to: f64| (from - low).max(0.0) - (high - to).max(0.0);
    let (dx, dy) =
        (push(left, right, window.0 + 0.4, window.2 - 0.4), push(top, bottom, window.1 + 0.4, window.3 - 0.4));
    let (x, y) = moved((text.at.0 + dx, text.at.1 + dy));
    let cut = Text { at: (x, y), ..text.clone() };
    // Two labels that were pushed together would be one too many; the list beside names both.
    if draft.is_clear_of_words(bounds(&cut)) {
        draft.text(cut.at, cut.words, cut.style);
    }
}

fn points(ring: &Ring) -> Vec<Point> {
    match ring {
        Ring::Open(points) | Ring::Closed(points) => points.clone(),
        Ring::Circle((x, y), r) => (0..48)
            .map(|i| (f64::from(i) * std::f64::consts::PI / 24.0).sin_cos())
            .map(|(sin, cos)| (x + r * cos, y + r * sin))
            .collect(),
    }
}

/// Which coordinate a side of the window bounds.
type Side = fn(Point) -> f64;

/// Sutherland and Hodgman's way of cutting a polygon, side by side of the window.
fn area(polygon: &[Point], window: Rect) -> Vec<Point> {
    let sides: [(Side, f64, f64); 4] =
        [(|p| p.0, window.0, 1.0), (|p| p.0, window.2, -1.0), (|p| p.1, window.1, 1.0), (|p| p.1, window.3, -1.0)];
    let mut kept = polygon.to_vec();
    for (of, edge, sign) in sides {
        let inside = |p: Point| (of(p) - edge) * sign >= 0.0;
        let before = std::mem::take(&mut kept);
        for (i, here) in before.iter().enumerate() {
            let last = before[(i + before.len() - 1) % before.len()];
            if inside(*here) != inside(last) {
                let share = (edge - of(last)) / (of(*here) - of(last));
                kept.push((last.0 + share * (here.0 - last.0), last.1 + share * (here.1 - last.1)));
            }
            if inside(*here) {
                kept.push(*here);
            }
        }
    }
    kept
}

fn lines(ring: &Ring, window: Rect) -> Vec<Vec<Point>> {
    let mut line = points(ring);
    if !matches!(ring, Ring::Open(_)) {
        line.extend(line.first().copied());
    }
    let mut kept: Vec<Vec<Point>> = Vec::new();
    for pair in line.windows(2) {
        let Some((a, b)) = within(pair[0], pair[1], window) else { continue };
        match kept.last_mut().filter(|line| line.last() == Some(&a)) {
            Some(line) => line.push(b),
            None => kept.push(vec![a, b]),
        }
    }
    kept
}

/// What of a stroke lies in the window: Liang and Barsky.
fn within(a: Point, b: Point, window: Rect) -> Option<(Point, Point)> {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (p, q) in [(-dx, a.0 - window.0), (dx, window.2 - a.0), (-dy, a.1 - window.1), (dy, window.3 - a.1)] {
        if p == 0.0 && q < 0.0 {
            return None;
        }
        if p < 0.0 {
            from = from.max(q / p);
        } else if p > 0.0 {
            to = to.min(q / p);
        }
    }
    let at = |t: f64| {
        if t == 0.0 {
            a
        } else if t == 1.0 {
            b
        } else {
            (a.0 + t * dx, a.1 + t * dy)
        }
    };
    (from < to).then(|| (at(from), at(to)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_cut_ends_at_the_window() {
        let window = (0.0, 0.0, 10.0, 10.0);
        assert_eq!(lines(&Ring::Open(vec![(-5.0, 5.0), (15.0, 5.0)]), window), [vec![(0.0, 5.0), (10.0, 5.0)]]);
        assert_eq!(area(&[(-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)], window).len(), 4);
        assert!(lines(&Ring::Open(vec![(-5.0, 15.0), (15.0, 15.0)]), window).is_empty());
    }
}
