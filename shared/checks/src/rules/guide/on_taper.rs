//! `guide/on-taper`: a guide on a taper.

use crate::common::seated::{each, Seated};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};

/// On a cone.
pub static ON_TAPER: Rule = Rule {
    name: "guide/on-taper",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Warning,
    summary: "a guide on a taper",
    why: "On a surface that leans, a guide doesn't point along the rocket, and it wedges on the rod or rail.",
    prose: include_str!("on_taper.md"),
    thresholds: &[],
    example: Example::new(
        "  }\n}\nmotor b8 {",
        "  }\n  taper { length: 60 mm; front: caliber; back: 22 mm; material: balsa\n    lug tail { bore: 3.6 mm; \
            length: 20 mm; wall: 0.3 mm; at: 30 mm from front; clock: 60 deg }\n  }\n}\nflight three { motor: b8; \
            pad: stand; guided_by: [tail, fore]; site: meadow }\nmotor b8 {",
    ),
    check: Some(|cx, out| each(cx, out, on_taper)),
};

fn on_taper(cx: &Context, seated: &Seated) -> Option<Finding> {
    let on = cx.design.parts.get(seated.seat.on).filter(|_| seated.seat.on_taper)?;
    Some(
        ON_TAPER
            .finding(seated.part.header, format!("{} sits on {}", seated.part.label(), on.label()))
            .help("move it onto a tube, or put a wedge under it that brings it parallel to the axis")
            .label(on.header, "the taper"),
    )
}
