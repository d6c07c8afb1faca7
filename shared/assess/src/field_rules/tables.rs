//! The codes' tables: each row holds up to an impulse in N s, and asks for a distance in m. The rows rise.

use super::bounds::Bounds;

/// Up to this impulse, this distance.
pub(super) type Row = (f64, f64);

/// NFPA 1122: 15 ft up to a D motor, 30 ft above.
pub(super) const MODEL_DISTANCES: &[Row] = &[(20.0, 4.572), (320.0, 9.144)];

/// NFPA 1122, table 4.9; its last row from memory.
pub(super) const MODEL_FIELDS: &[Row] =
    &[(1.25, 15.24), (2.50, 30.48), (5.0, 60.96), (10.0, 121.92), (20.0, 152.4), (160.0, 304.8), (320.0, 457.2)];

/// NFPA 1127, minimum personnel distance.
pub(super) const PERSONNEL_DISTANCES: &[Row] =
    &[(1280.0, 30.48), (2560.0, 60.96), (5120.0, 91.44), (10240.0, 152.4), (20480.0, 304.8), (40960.0, 457.2)];

/// NFPA 1127, minimum personnel distance of clusters and stages.
pub(super) const COMPLEX_DISTANCES: &[Row] =
    &[(1280.0, 60.96), (2560.0, 91.44), (5120.0, 152.4), (10240.0, 304.8), (20480.0, 457.2), (40960.0, 609.6)];

/// 19 CCR 1036, table 18A. Between 320 N s and 320.01 N s the text leaves a gap, which the larger row fills.
pub(super) const CALIFORNIA_DISTANCES: &[Row] =
    &[(320.0, 9.144), (1280.0, 45.72), (2560.0, 60.96), (5120.0, 91.44), (10240.0, 152.4), (20480.0, 304.8)];

/// What a code asks for, as far as it's known which of its numbers hold.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ask {
    /// Between the mildest that could hold and the strictest; infinite where the code has no number for it.
    pub limit: Bounds,
    /// The strictest that could hold and that the code puts a number on.
    pub strictest: f64,
}

impl Ask {
    /// Whichever of the two holds.
    pub(super) fn or(self, other: Ask) -> Ask {
        Ask { limit: self.limit.or(other.limit), strictest: self.strictest.max(other.strictest) }
    }

    /// So much by the height, which may not be known.
    pub(super) fn by(height: Bounds, asked: impl Fn(f64) -> f64) -> Ask {
        let limit = height.grown(asked);
        Ask { limit, strictest: if limit.most.is_finite() { limit.most } else { limit.least } }
    }
}

/// What a table asks for at an impulse. It has no row above its last: what may lie there is asked for the last one's
/// distance, and may be asked for more, of which the table says nothing.
pub(super) fn asked(table: &[Row], impulse: Bounds) -> Ask {
    rows(table, impulse, 0)
}

/// The same a row further up: "the next higher category".
pub(super) fn asked_of_next(table: &[Row], impulse: Bounds) -> Ask {
    rows(table, impulse, 1)
}

fn rows(table: &[Row], impulse: Bounds, up: usize) -> Ask {
    let last = table.last().map_or(0.0, |(_, distance)| *distance);
    let at = |impulse: f64| table.iter().filter(|(up_to, _)| impulse <= *up_to).nth(up).map(|(_, distance)| *distance);
    let (mildest, strictest) = (at(impulse.least).unwrap_or(last), at(impulse.most));
    let limit = Bounds { least: mildest, most: strictest.unwrap_or(f64::INFINITY) };
    Ask { limit, strictest: strictest.unwrap_or(last) }
}
