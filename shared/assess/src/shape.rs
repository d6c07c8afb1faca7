//! Each part's outer shape, worked out once, and the parts with their shapes in their places.

use finwright_model::{Design, Extent, Fins, Part, PartId, PartKind};
use finwright_physics::fins::{FinGeometry, FinShape};
use finwright_physics::nose::NoseShape;
use finwright_physics::section::{Section, SectionGeometry, TaperShape};

/// A part's outer shape.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A stretch of the airframe.
    Body(Body),
    /// A set of flat fins.
    Fin(Fin),
    /// Anything else, or something whose measures don't make a shape.
    None,
}

/// The outside of a nose, tube or taper.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Its outline.
    pub section: Section,
    /// Its volume, areas and centroids.
    pub geometry: SectionGeometry,
}

/// One fin of a set.
#[derive(Clone, Debug, PartialEq)]
pub struct Fin {
    /// Its plan-form.
    pub plan: FinShape,
    /// Area, chords and centroid.
    pub geometry: FinGeometry,
}

/// The shape of every part of a design, in the parts' order.
pub fn shapes(design: &Design) -> Vec<Shape> {
    design.parts.iter().map(shape).collect()
}

fn shape(part: &Part) -> Shape {
    if let PartKind::Fins(fins) = &part.kind {
        let plan = plan_form(fins);
        let fin = plan.and_then(|plan| Some(Fin { geometry: plan.geometry().ok()?, plan }));
        return fin.map_or(Shape::None, Shape::Fin);
    }
    match section(part) {
        Some(section) => Shape::Body(Body { geometry: section.geometry(), section }),
        None => Shape::None,
    }
}

/// The shape of a nose by the vocabulary's word.
pub fn nose_shape(word: &str, number: Option<f64>) -> NoseShape {
    let number = number.unwrap_or(0.0);
    match word {
        "ogive" => NoseShape::Ogive,
        "ellipsoid" => NoseShape::Ellipsoid,
        "parabola" => NoseShape::Parabola { k: number },
        "power" => NoseShape::Power { n: number },
        "haack" => NoseShape::Haack { c: number },
        _ => NoseShape::Cone,
    }
}

fn section(part: &Part) -> Option<Section> {
    match &part.kind {
        PartKind::Nose { shape, length, base, .. } => {
            let shape = shape.as_ref()?;
            let shape = nose_shape(shape.word, shape.number);
            Section::nose(shape, length.as_ref()?.si, base.as_ref()?.si / 2.0).ok()
        }
        PartKind::Tube { length, outer, .. } => Section::cylinder(length.as_ref()?.si, outer.as_ref()?.si / 2.0).ok(),
        PartKind::Taper { shape, length, front, back, .. } => {
            let is_ogive = shape.as_ref().is_some_and(|s| s.word == "ogive");
            let shape = if is_ogive { TaperShape::Ogive } else { TaperShape::Straight };
            Section::taper(shape, length.as_ref()?.si, front.as_ref()?.si / 2.0, back.as_ref()?.si / 2.0).ok()
        }
        _ => None,
    }
}

fn plan_form(fins: &Fins) -> Option<FinShape> {
    if let Some(outline) = &fins.outline {
        let start = outline.points.first()?.0;
        return Some(FinShape::Outline(outline.points.iter().map(|(x, y)| (x - start, *y)).collect()));
    }
    let (root, span) = (fins.root.as_ref()?.si, fins.span.as_ref()?.si);
    if fins.plan.as_ref().is_some_and(|plan| plan.word == "ellipse") {
        return Some(FinShape::Ellipse { root, span });
    }
    Some(FinShape::Trapezoid { root, tip: fins.tip.as_ref()?.si, span, sweep: fins.sweep.as_ref()?.si })
}

/// The parts of a design with their shapes, in their places as far as these are known.
#[derive(Clone, Copy)]
pub struct Parts<'a> {
    /// The design.
    pub design: &'a Design,
    /// Each part's shape.
    pub shapes: &'a [Shape],
    /// Each part's stretch, m from the tip.
    pub extents: &'a [Option<Extent>],
}

impl<'a> Parts<'a> {
    /// Every part with its number.
    pub fn all(self) -> impl Iterator<Item = (PartId, &'a Part)> {
        self.design.parts.iter().enumerate()
    }

    /// Every part whose place is known, with its number and its stretch.
    pub fn placed(self) -> impl Iterator<Item = (PartId, &'a Part, Extent)> {
        self.all().filter_map(move |(id, part)| Some((id, part, self.extent(id)?)))
    }

    /// A part.
    pub fn part(self, id: PartId) -> Option<&'a Part> {
        self.design.parts.get(id)
    }

    /// Where a part sits.
    pub fn extent(self, id: PartId) -> Option<Extent> {
        self.extents.get(id).copied().flatten()
    }

    /// The outside of a stretch of the airframe.
    pub fn body(self, id: PartId) -> Option<&'a Body> {
        match self.shapes.get(id)? {
            Shape::Body(body) => Some(body),
            _ => None,
        }
    }

    /// A fin of a set.
    pub fn fin(self, id: PartId) -> Option<&'a Fin> {
        match self.shapes.get(id)? {
            Shape::Fin(fin) => Some(fin),
            _ => None,
        }
    }

    /// The radius of a stretch of the airframe at a station in m from the tip, at its nearer end beyond it.
    pub fn radius(self, body: PartId, station: f64) -> Option<f64> {
        let front = self.extent(body).map_or(0.0, |extent| extent.front);
        let section = &self.body(body)?.section;
        Some(section.radius((station - front).clamp(0.0, section.length())))
    }

    /// The radius of the body that a part sits on, at a station in m from the tip.
    pub fn radius_under(self, part: &Part, station: f64) -> Option<f64> {
        self.radius(part.parent?, station)
    }

    /// The radius of the body that a part sits on, at that body's aft end.
    pub fn radius_behind(self, part: &Part) -> Option<f64> {
        Some(self.body(part.parent?)?.section.aft_radius())
    }
}
