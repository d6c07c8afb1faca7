//! What meets what on the paper.

use crate::font::bounds;
use crate::scene::{Point, Rect, Ring, Scene, Text, What};

impl Scene {
    /// Its words.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.items.iter().filter_map(|item| match &item.what {
            What::Text(text) => Some(text),
            What::Shape(_) => None,
        })
    }

    /// Where words meet other words, or leave the paper: none in a sound picture.
    pub fn faults(&self) -> Vec<String> {
        let texts: Vec<(&Text, Rect)> = self.texts().map(|text| (text, bounds(text))).collect();
        let mut faults = Vec::new();
        for (i, (text, own)) in texts.iter().enumerate() {
            let off = own.0 < 3.9 || own.1 < 2.9 || own.2 > self.width - 3.9 || own.3 > self.height - 2.5;
            if off || own.0.is_nan() || own.1.is_nan() {
                faults.push(format!("{}: off the paper: {}", self.name, text.words));
            }
            for (other, its) in texts.iter().skip(i + 1).filter(|(_, its)| meet(*own, *its)) {
                let _ = its;
                faults.push(format!("{}: words meet: {} / {}", self.name, text.words, other.words));
            }
        }
        let points = self.items.iter().flat_map(|item| match &item.what {
            What::Shape(shape) => shape.rings.iter().flat_map(points_of).collect(),
            What::Text(_) => Vec::new(),
        });
        let inside = |(x, y): &Point| (0.0..=self.width).contains(x) && (0.0..=self.height).contains(y);
        if let Some((x, y)) = points.into_iter().find(|point| !inside(point)) {
            faults.push(format!("{}: a line off the paper at {x:.1}, {y:.1}", self.name));
        }
        faults
    }
}

fn points_of(ring: &Ring) -> Vec<Point> {
    match ring {
        Ring::Open(points) | Ring::Closed(points) => points.clone(),
        Ring::Circle((x, y), r) => vec![(x - r, y - r), (x + r, y + r)],
    }
}

/// The strokes of an outline.
pub fn strokes(ring: &Ring) -> Vec<[Point; 2]> {
    match ring {
        Ring::Open(points) => points.windows(2).map(|pair| [pair[0], pair[1]]).collect(),
        Ring::Closed(points) => {
            let next = points.iter().cycle().skip(1);
            points.iter().zip(next).map(|(a, b)| [*a, *b]).collect()
        }
        // As the square that holds it.
        Ring::Circle((x, y), r) => vec![[(x - r, *y), (x + r, *y)], [(*x, y - r), (*x, y + r)]],
    }
}

/// Whether a stroke passes through a rectangle: Liang and Barsky's way of clipping it.
pub fn passes(a: Point, b: Point, (left, top, right, bottom): Rect) -> bool {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (p, q) in [(-dx, a.0 - left), (dx, right - a.0), (-dy, a.1 - top), (dy, bottom - a.1)] {
        if p == 0.0 && q < 0.0 {
            return false;
        }
        let t = q / p;
        if p < 0.0 {
            from = from.max(t);
        } else if p > 0.0 {
            to = to.min(t);
        }
    }
    from < to
}

/// Whether two rectangles meet.
pub fn meet(a: Rect, b: Rect) -> bool {
    a.0 < b.2 && b.0 < a.2 && a.1 < b.3 && b.1 < a.3
}
