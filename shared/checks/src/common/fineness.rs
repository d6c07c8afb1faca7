//! How slender the rocket is.

use crate::rule::Context;

/// How long the rocket is, in diameters, and its length in m.
pub(crate) fn fineness(cx: &Context) -> Option<(f64, f64)> {
    let (length, calibre) = (cx.assessment.airframe.tail?, cx.assessment.airframe.calibre?);
    Some((length / calibre, length))
}
