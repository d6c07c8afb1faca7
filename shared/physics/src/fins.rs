//! Fin plan-forms: area, centroid, mean aerodynamic chord, and the mass of a set of plates.

use std::f64::consts::PI;

use crate::mass::MassProps;

/// The plan-form of one exposed fin: x in m aft from the root's leading edge, y in m outwards from
/// the body's surface.
#[derive(Debug, Clone, PartialEq)]
pub enum FinShape {
    /// Straight edges, tip parallel to the root.
    Trapezoid {
        /// Root chord in m, positive.
        root: f64,
        /// Tip chord in m, 0 for a triangle.
        tip: f64,
        /// Exposed semispan in m, positive.
        span: f64,
        /// How far the tip's leading edge lies aft of the root's in m; negative sweeps forward.
        sweep: f64,
    },
    /// Half an ellipse with the root as its axis.
    Ellipse {
        /// Root chord in m, positive.
        root: f64,
        /// Exposed semispan in m, positive.
        span: f64,
    },
    /// A polygon of (x, y) in m, from the root's leading edge round the tip to the root's trailing
    /// edge. First and last points lie on the root, y = 0; no other point lies below it.
    Outline(Vec<(f64, f64)>),
}

/// Why a fin can't be built.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FinError {
    /// A chord or span isn't a positive number; the value given, in m.
    Size(f64),
    /// An outline needs at least three points; the number given.
    TooFewPoints(usize),
    /// The first or last point of an outline isn't on the root; its index.
    OffTheRoot(usize),
    /// A point lies inside the body; its index.
    BelowTheRoot(usize),
    /// Two edges of an outline cross; the indices of their first points.
    EdgesCross(usize, usize),
    /// The outline encloses nothing.
    NoArea,
}

/// What the plan-form amounts to. Lengths in m, x from the root's leading edge, y from the root.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinGeometry {
    /// Area of one side of one fin in m².
    pub area: f64,
    /// Root chord in m.
    pub root: f64,
    /// Exposed semispan in m.
    pub span: f64,
    /// Centroid of the area, aft of the root's leading edge, in m.
    pub centroid_x: f64,
    /// Centroid of the area, outwards from the root, in m.
    pub centroid_y: f64,
    /// Second moment of the area in x about its own centroid, in m⁴.
    pub moment_x: f64,
    /// Second moment of the area in y about its own centroid, in m⁴.
    pub moment_y: f64,
    /// Mean aerodynamic chord ∫c² dy / ∫c dy in m.
    pub mean_chord: f64,
    /// Quarter point of the mean aerodynamic chord, aft of the root's leading edge, in m: where
    /// the fin's lift acts at subsonic speed.
    pub quarter_chord_x: f64,
    /// Sweep of the mid-chord line in rad, 0 or more, weighted by chord along the span.
    pub mid_chord_sweep: f64,
    /// Sweep of the leading edge in rad, 0 or more, weighted by chord along the span.
    pub leading_sweep: f64,
}

impl FinShape {
    /// Areas, centroids and chords; closed forms for each shape.
    ///
    /// For an outline the chord at a height runs from its foremost to its rearmost point there.
    /// Sources: Barrowman 1967 (quarter of the mean aerodynamic chord); polygon moments by Green's
    /// theorem, standard textbook result (from memory).
    pub fn geometry(&self) -> Result<FinGeometry, FinError> {
        match self {
            Self::Trapezoid { root, tip, span, sweep } => {
                positive(*root)?;
                positive(*span)?;
                if !(*tip >= 0.0 && tip.is_finite()) {
                    return Err(FinError::Size(*tip));
                }
                if !sweep.is_finite() {
                    return Err(FinError::Size(*sweep));
                }
                let corners = [(0.0, 0.0), (*sweep, *span), (sweep + tip, *span), (*root, 0.0)];
                polygon(&corners)
            }
            Self::Ellipse { root, span } => {
                positive(*root)?;
                positive(*span)?;
                Ok(half_ellipse(*root, *span))
            }
            Self::Outline(points) => {
                check_outline(points)?;
                polygon(points)
            }
        }
    }

    /// Where the leading and the trailing edge lie at a height of `y` m above the root, in m aft of the root's leading
    /// edge; `None` where there is no fin. Of an outline the foremost and the rearmost point there.
    pub fn edges_at(&self, y: f64) -> Option<(f64, f64)> {
        match self {
            Self::Trapezoid { root, tip, span, sweep } => {
                let share = y / span;
                (0.0..=1.0).contains(&share).then(|| (share * sweep, root + share * (sweep + tip - root)))
            }
            Self::Ellipse { root, span } => {
                let square = 1.0 - (y / span) * (y / span);
                let half = 0.5 * root * square.max(0.0).sqrt();
                (y >= 0.0 && square >= 0.0).then_some((0.5 * root - half, 0.5 * root + half))
            }
            Self::Outline(points) => {
                let (mut leading, mut trailing) = (f64::INFINITY, f64::NEG_INFINITY);
                for (&(x0, y0), &(x1, y1)) in points.iter().zip(points.iter().cycle().skip(1)) {
                    if (y0 > y) != (y1 > y) {
                        let x = x0 + (x1 - x0) * (y - y0) / (y1 - y0);
                        (leading, trailing) = (leading.min(x), trailing.max(x));
                    }
                }
                (leading <= trailing).then_some((leading, trailing))
            }
        }
    }
}

impl FinGeometry {
    /// Mass properties of `count` flat fins `thickness` m thick and of `density` kg/m³, evenly
    /// spaced on a body of radius `body_radius` m, with their roots' leading edges at station
    /// `x_root` m. The transverse inertia is the mean over all roll angles, exact for 3 or more.
    pub fn plates(&self, count: u32, thickness: f64, density: f64, body_radius: f64, x_root: f64) -> MassProps {
        let mass = f64::from(count) * density * thickness * self.area;
        let arm = body_radius + self.centroid_y;
        let i_axial = mass * (arm * arm + self.moment_y / self.area + thickness * thickness / 12.0);
        MassProps {
            mass,
            x: x_root + self.centroid_x,
            i_axial,
            i_transverse: 0.5 * i_axial + mass * self.moment_x / self.area,
        }
    }
}

fn positive(value: f64) -> Result<(), FinError> {
    if value > 0.0 && value.is_finite() {
        Ok(())
    } else {
        Err(FinError::Size(value))
    }
}

fn check_outline(points: &[(f64, f64)]) -> Result<(), FinError> {
    let count = points.len();
    if count < 3 {
        return Err(FinError::TooFewPoints(count));
    }
    for (i, (x, y)) in points.iter().enumerate() {
        if !x.is_finite() || !y.is_finite() {
            return Err(FinError::Size(if x.is_finite() { *y } else { *x }));
        }
        if *y < 0.0 {
            return Err(FinError::BelowTheRoot(i));
        }
        if *y != 0.0 && (i == 0 || i == count - 1) {
            return Err(FinError::OffTheRoot(i));
        }
    }
    let edge = |i: usize| (points[i], points[(i + 1) % count]);
    for i in 0..count {
        for j in i + 2..count {
            let neighbours = i == 0 && j == count - 1;
            if !neighbours && cross(edge(i), edge(j)) {
                return Err(FinError::EdgesCross(i, j));
            }
        }
    }
    Ok(())
}

type Point = (f64, f64);

/// Whether two edges cross at a point inside both.
fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |p: Point, q: Point, r: Point| (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

fn polygon(points: &[Point]) -> Result<FinGeometry, FinError> {
    let edges = || points.iter().zip(points.iter().cycle().skip(1));
    let [mut area, mut mx, mut my, mut mxx, mut myy] = [0.0; 5];
    for (&(x0, y0), &(x1, y1)) in edges() {
        let w = x0 * y1 - x1 * y0;
        area += w / 2.0;
        mx += w * (x0 + x1) / 6.0;
        my += w * (y0 + y1) / 6.0;
        mxx += w * (x0 * x0 + x0 * x1 + x1 * x1) / 12.0;
        myy += w * (y0 * y0 + y0 * y1 + y1 * y1) / 12.0;
    }
    if area.abs() <= f64::MIN_POSITIVE {
        return Err(FinError::NoArea);
    }
    let (centroid_x, centroid_y) = (mx / area, my / area);
    let strips = Strips::of(points);
    if strips.area <= f64::MIN_POSITIVE {
        return Err(FinError::NoArea);
    }
    Ok(FinGeometry {
        area: area.abs(),
        root: points[points.len() - 1].0 - points[0].0,
        span: points.iter().map(|p| p.1).fold(0.0, f64::max),
        centroid_x,
        centroid_y,
        moment_x: (mxx / area - centroid_x * centroid_x) * area.abs(),
        moment_y: (myy / area - centroid_y * centroid_y) * area.abs(),
        mean_chord: strips.chord_squared / strips.area,
        quarter_chord_x: strips.quarter / strips.area,
        mid_chord_sweep: strips.mid_sweep / strips.area,
        leading_sweep: strips.leading_sweep / strips.area,
    })
}

/// Integrals over the span of a polygon, cut at every corner's height so that leading and trailing
/// edge are straight within each strip.
#[derive(Default)]
struct Strips {
    area: f64,
    chord_squared: f64,
    quarter: f64,
    mid_sweep: f64,
    leading_sweep: f64,
}

impl Strips {
    fn of(points: &[Point]) -> Self {
        let mut heights: Vec<f64> = points.iter().map(|p| p.1).collect();
        heights.sort_by(f64::total_cmp);
        heights.dedup();
        let mut sum = Self::default();
        for pair in heights.windows(2) {
            sum.add(points, pair[0], pair[1]);
        }
        sum
    }

    fn add(&mut self, points: &[Point], low: f64, high: f64) {
        let middle = 0.5 * (low + high);
        // The edges that bound the strip are picked at its middle and then followed to its ends.
        let mut leading: Option<[f64; 3]> = None;
        let mut trailing: Option<[f64; 3]> = None;
        for (&(x0, y0), &(x1, y1)) in points.iter().zip(points.iter().cycle().skip(1)) {
            if (y0 - middle) * (y1 - middle) >= 0.0 {
                continue;
            }
            let at = |y: f64| x0 + (x1 - x0) * (y - y0) / (y1 - y0);
            let edge = [at(low), at(middle), at(high)];
            if leading.is_none_or(|old| edge[1] < old[1]) {
                leading = Some(edge);
            }
            if trailing.is_none_or(|old| edge[1] > old[1]) {
                trailing = Some(edge);
            }
        }
        let (Some(le), Some(te)) = (leading, trailing) else {
            return;
        };
        let height = high - low;
        let chord = [te[0] - le[0], te[1] - le[1], te[2] - le[2]];
        // Simpson's rule is exact: chord and edge are linear in y, their products quadratic.
        let simpson = |f: [f64; 3]| height / 6.0 * (f[0] + 4.0 * f[1] + f[2]);
        let area = simpson(chord);
        let sweep = |fraction: f64| {
            let ends = [0, 2].map(|i| le[i] + fraction * chord[i]);
            ((ends[1] - ends[0]) / height).atan().abs()
        };
        self.area += area;
        self.chord_squared += simpson([0, 1, 2].map(|i| chord[i] * chord[i]));
        self.quarter += simpson([0, 1, 2].map(|i| (le[i] + 0.25 * chord[i]) * chord[i]));
        self.mid_sweep += area * sweep(0.5);
        self.leading_sweep += area * sweep(0.0);
    }
}

/// Half an ellipse: elementary integrals, checked against case B4 for the aerodynamic point.
fn half_ellipse(root: f64, span: f64) -> FinGeometry {
    let area = PI * root * span / 4.0;
    let mean_chord = 8.0 * root / (3.0 * PI);
    let centroid_y = 4.0 * span / (3.0 * PI);
    FinGeometry {
        area,
        root,
        span,
        centroid_x: 0.5 * root,
        centroid_y,
        moment_x: area * root * root / 16.0,
        moment_y: area * (span * span / 4.0 - centroid_y * centroid_y),
        mean_chord,
        quarter_chord_x: 0.5 * root - 0.25 * mean_chord,
        mid_chord_sweep: 0.0,
        leading_sweep: ellipse_leading_sweep(root, span),
    }
}

/// ∫ Λ c dy / A with tan Λ = (root/2)(u/√(1−u²))/span, u = y/span. With u = sin φ this is
/// (4/π) ∫ atan(k tan φ) cos²φ dφ, smooth on 0..π/2.
fn ellipse_leading_sweep(root: f64, span: f64) -> f64 {
    let k = 0.5 * root / span;
    let [sum] = crate::quadrature::integrate(0.0, 0.5 * PI, 2, |phi: f64| {
        [(k * phi.sin()).atan2(phi.cos()) * phi.cos() * phi.cos()]
    });
    4.0 / PI * sum
}
