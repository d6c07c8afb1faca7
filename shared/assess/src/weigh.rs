//! Each part's mass properties, about its own place: from its measures and its material, or as given.

use crate::balance::mount;
use crate::fit::is_same_section;
use crate::unknown::{Measure, Needs, Subject};
use crate::Unknown;
use finwright_model::{rank, Amount, Anchor, Design, Extent, Fins, Motor, Part, PartId, PartKind, Stage};
use finwright_physics::fins::FinShape;
use finwright_physics::mass::{combine, MassProps};
use finwright_physics::motor::ThrustCurve;
use finwright_physics::nose::NoseShape;
use finwright_physics::section::{Section, TaperShape};

/// What a part weighs. Stations are from the part's own front edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Weight {
    /// Mass properties in the part's own frame.
    pub own: MassProps,
    /// Whether the mass is the one given, not the one computed.
    pub given: bool,
    /// What was taken as a default, in words; empty where nothing was.
    pub default: String,
}

/// What a lug is of that doesn't say.
pub(crate) const LUG_MATERIAL: &str = "kraft_paper";
/// What fillets are of.
pub(crate) const FILLET_MATERIAL: &str = "epoxy";

/// Weigh every part; what a part lacks for it goes to `unknown`.
pub(crate) fn weights(design: &Design, unknown: &mut Vec<Unknown>) -> Vec<Option<Weight>> {
    (0..design.parts.len()).map(|id| weight(design, id, unknown)).collect()
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

/// The outside of a stretch of the airframe.
pub fn body_section(part: &Part) -> Option<Section> {
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

/// A fin's plan-form.
pub fn fin_shape(fins: &Fins) -> Option<FinShape> {
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

/// What the motors of a stage's mount weigh before ignition and their propellant, each as an even cylinder from the motor's front
/// edge; a cluster's stand on their circle.
///
/// That the propellant lies evenly along the case is an estimate; where it lies is not in a motor's usual data.
pub fn motor_mass(design: &Design, motor: &Motor, stage: Stage) -> Option<(MassProps, MassProps)> {
    let (length, diameter) = (motor.length.as_ref()?.si, motor.diameter.as_ref()?.si);
    // A motor lighter than its propellant is reported by a rule, and no number may rest on it.
    if motor.propellant.as_ref()?.si >= motor.mass.as_ref()?.si {
        return None;
    }
    let shape = Section::cylinder(length, diameter / 2.0).ok()?.solid(1.0);
    let (count, radius) = cluster(design, stage);
    let of = |mass: f64| shape.scaled(mass / shape.mass).off_axis(radius).scaled(count);
    Some((of(motor.mass.as_ref()?.si), of(motor.propellant.as_ref()?.si)))
}

/// How many motors a stage's mount holds side by side, and the radius of the circle on which their middles lie, m.
pub fn cluster(design: &Design, stage: Stage) -> (f64, f64) {
    match mount(design, stage).map(|(_, part)| &part.kind) {
        Some(PartKind::Mount { motors: Some(motors), circle, .. }) => {
            (motors.si, circle.as_ref().map_or(0.0, |c| c.si / 2.0))
        }
        _ => (1.0, 0.0),
    }
}

/// The thrust of all motors of a stage's mount together, lit at once.
pub fn thrust(design: &Design, motor: &Motor, stage: Stage) -> Option<ThrustCurve> {
    let (count, _) = cluster(design, stage);
    let points = motor.curve.as_ref()?.points.iter().map(|(t, f)| (*t, f * count)).collect();
    ThrustCurve::new(points).ok()
}

/// The radius of the body that a part sits on, at a station, m.
pub(crate) fn radius_of_parent(design: &Design, part: &Part, extents: &[Option<Extent>], station: f64) -> Option<f64> {
    let parent = part.parent?;
    let section = body_section(design.parts.get(parent)?)?;
    let front = extents.get(parent).copied().flatten().map_or(0.0, |e| e.front);
    Some(section.radius((station - front).clamp(0.0, section.length())))
}

/// How high a guide's hardware stands off the body's surface to its middle, m.
pub(crate) fn guide_offset(design: &Design, part: &Part) -> f64 {
    let si = |a: &Option<Amount>| a.as_ref().map_or(0.0, |a| a.si);
    match &part.kind {
        PartKind::Lug { bore, wall, standoff, .. } => si(standoff) + si(bore) / 2.0 + si(wall),
        PartKind::Button { profile, standoff, .. } | PartKind::RailGuide { profile, standoff, .. } => {
            let mouth = section_of_width(design, profile).and_then(|s| s.mouth.as_ref()).map_or(0.0, |m| m.si);
            si(standoff) + mouth / 2.0
        }
        _ => 0.0,
    }
}

/// The rail section of a width: the file's own first, then those of used files, then the built-in ones.
pub fn section_of_width<'d>(design: &'d Design, width: &Option<Amount>) -> Option<&'d finwright_model::Section> {
    let width = width.as_ref()?.si;
    let fit = design.sections.iter().filter(|s| s.width.as_ref().is_some_and(|w| is_same_section(w.si, width)));
    fit.min_by_key(|section| rank(section.name.place))
}

fn weight(design: &Design, id: PartId, unknown: &mut Vec<Unknown>) -> Option<Weight> {
    let part = design.parts.get(id)?;
    if !part.broken.is_empty() {
        report_missing(design, id, false, unknown);
        return None;
    }
    let mut default = String::new();
    let density = density(design, part, &mut default);
    let shape = shape(design, part);
    let own = match (shape, &part.mass, density) {
        (Some(shape), Some(mass), _) if shape.mass > 0.0 => shape.scaled(mass.si / shape.mass),
        (None, Some(mass), _) => MassProps::point(mass.si, part.length().map_or(0.0, |l| l.si) / 2.0),
        (Some(shape), None, Some(density)) => shape.scaled(density),
        (_, None, _) => match usual_mass(design, part, &mut default) {
            Some(own) => own,
            None => {
                report_missing(design, id, shape.is_some(), unknown);
                return None;
            }
        },
        (Some(shape), Some(mass), _) => MassProps { mass: mass.si, ..shape },
    };
    let fillets = match fillets(design, part) {
        Ok(fillets) => fillets,
        Err(needs) => {
            unknown.push(Unknown { subject: Subject::Part(id), measure: Measure::Mass, needs, place: part.header });
            return None;
        }
    };
    let mut own = combine([own, fillets]);
    if let Some(balance) = &part.balance {
        own.x = match balance.anchor {
            Anchor::Back => part.length().map_or(0.0, |l| l.si) - balance.distance.si,
            _ => balance.distance.si,
        };
    }
    let given = part.mass.is_some();
    let default = if given { String::new() } else { default };
    Some(Weight { own: own.off_axis(arm(design, part)), given, default })
}

/// The epoxy fillets along the fins' roots, in the fins' own frame: a quarter circle's complement on both sides of each.
fn fillets(design: &Design, part: &Part) -> Result<MassProps, Needs> {
    let PartKind::Fins(fins) = &part.kind else { return Ok(MassProps::ZERO) };
    let (Some(radius), Some(count), Some(root), None) = (&fins.fillet, &fins.count, &fins.root, &part.mass) else {
        return Ok(MassProps::ZERO);
    };
    let epoxy = design.material_named(FILLET_MATERIAL).ok_or(Needs::MaterialNamed(FILLET_MATERIAL))?;
    let density = design.materials.get(epoxy).and_then(|epoxy| epoxy.density.as_ref());
    let density = density.ok_or(Needs::OfMaterial("density", epoxy))?;
    let volume = 2.0 * count.si * root.si * radius.si * radius.si * (1.0 - std::f64::consts::PI / 4.0);
    let mass = volume * density.si;
    let body = radius_of_parent(design, part, &[], f64::INFINITY).unwrap_or(0.0);
    let along = MassProps { mass, x: root.si / 2.0, i_axial: 0.0, i_transverse: mass * root.si * root.si / 12.0 };
    Ok(along.off_axis(body))
}

/// How far off the rocket's axis a part's own axis lies, m.
fn arm(design: &Design, part: &Part) -> f64 {
    if !part.is_guide() {
        return part.off_axis.as_ref().map(|a| a.si).or_else(|| hook_arm(design, part)).unwrap_or(0.0);
    }
    let radius = radius_of_parent(design, part, &[], f64::INFINITY).unwrap_or(0.0);
    radius + guide_offset(design, part)
}

/// A motor hook lies along the outside of its mount; where there are several, of the tube farthest out.
fn hook_arm(design: &Design, part: &Part) -> Option<f64> {
    if !matches!(part.kind, PartKind::Hook { .. }) {
        return None;
    }
    let PartKind::Mount { outer, .. } = &design.parts.get(part.parent?)?.kind else { return None };
    Some(cluster(design, part.stage).1 + outer.as_ref()?.si / 2.0)
}

/// The mass properties at a density of 1 kg/m3, in the part's own frame; `None` where measures are missing.
fn shape(design: &Design, part: &Part) -> Option<MassProps> {
    let si = |a: &Option<Amount>| a.as_ref().map(|a| a.si);
    let walled = |section: Section, wall: &Option<Amount>| match wall {
        Some(wall) => section.walled(wall.si, 1.0),
        None => section.solid(1.0),
    };
    match &part.kind {
        PartKind::Nose { wall, .. } | PartKind::Taper { wall, .. } => Some(walled(body_section(part)?, wall)),
        PartKind::Shoulder { length, outer, wall } => {
            Some(walled(Section::cylinder(si(length)?, si(outer)? / 2.0).ok()?, wall))
        }
        PartKind::Tube { length, outer, inner } | PartKind::Coupler { length, outer, inner } => {
            pipe(si(length)?, si(outer)?, si(inner)?)
        }
        PartKind::Mount { length, bore, outer, .. } => {
            let (count, radius) = cluster(design, part.stage);
            Some(pipe(si(length)?, si(outer)?, si(bore)?)?.off_axis(radius).scaled(count))
        }
        PartKind::TubeFins { count, length, outer, inner } => {
            let radius = radius_of_parent(design, part, &[], f64::INFINITY)? + si(outer)? / 2.0;
            Some(pipe(si(length)?, si(outer)?, si(inner)?)?.off_axis(radius).scaled(si(count)?))
        }
        PartKind::RingFin { length, outer, inner } => pipe(si(length)?, si(outer)?, si(inner)?),
        PartKind::ThrustRing { length, inner } => {
            let PartKind::Mount { bore, .. } = &design.parts.get(part.parent?)?.kind else { return None };
            pipe(si(length)?, si(bore)?, si(inner)?)
        }
        PartKind::Hook { length } => {
            let length = si(length)?;
            Some(MassProps { mass: 1.0, x: length / 2.0, i_axial: 0.0, i_transverse: length * length / 12.0 })
        }
        PartKind::Bulkhead { outer, thickness } => {
            Some(Section::cylinder(si(thickness)?, si(outer)? / 2.0).ok()?.solid(1.0))
        }
        PartKind::Lug { bore, length, wall, .. } => pipe(si(length)?, si(bore)? + 2.0 * si(wall)?, si(bore)?),
        PartKind::Fins(fins) => {
            let geometry = fin_shape(fins)?.geometry().ok()?;
            let radius = radius_of_parent(design, part, &[], f64::INFINITY)?;
            let (count, thickness) = (si(&fins.count)? as u32, si(&fins.thickness)?);
            let plates = geometry.plates(count, thickness, 1.0, radius, 0.0);
            let tabs = match (si(&fins.tab_length), si(&fins.tab_depth)) {
                (Some(length), Some(depth)) => {
                    let tab =
                        FinShape::Trapezoid { root: length, tip: length, span: depth, sweep: 0.0 }.geometry().ok()?;
                    tab.plates(count, thickness, 1.0, radius - depth, (geometry.root - length) / 2.0)
                }
                _ => MassProps::ZERO,
            };
            Some(combine([plates, tabs]))
        }
        PartKind::Rings { count, thickness } => {
            let mount = design.parts.get(part.parent?)?;
            let PartKind::Mount { length, outer: hole, .. } = &mount.kind else { return None };
            let PartKind::Tube { inner, .. } = &design.parts.get(mount.parent?)?.kind else { return None };
            let (count, thickness, length) = (si(count)? as u32, si(thickness)?, si(length)?);
            let one = ring(cluster(design, part.stage), thickness, si(inner)?, si(hole)?)?;
            let step = if count > 1 { (length - thickness) / f64::from(count - 1) } else { 0.0 };
            let first = if count > 1 { 0.0 } else { (length - thickness) / 2.0 };
            Some(combine((0..count).map(|i| one.shifted(first + step * f64::from(i)))))
        }
        PartKind::Load { length } => {
            let length = si(length).unwrap_or(0.0);
            // Its thickness is unknown: a thin rod of its length.
            Some(MassProps { mass: 1.0, x: length / 2.0, i_axial: 0.0, i_transverse: length * length / 12.0 })
        }
        PartKind::RailGuide { length, .. } => {
            let length = si(length)?;
            Some(MassProps { mass: 1.0, x: length / 2.0, i_axial: 0.0, i_transverse: length * length / 12.0 })
        }
        PartKind::Ballast
        | PartKind::Parachute { .. }
        | PartKind::Streamer { .. }
        | PartKind::Cord { .. }
        | PartKind::Button { .. } => Some(MassProps::point(1.0, 0.0)),
    }
}

/// A disc with a hole for each motor tube.
fn ring((count, radius): (f64, f64), thickness: f64, outer: f64, hole: f64) -> Option<MassProps> {
    let hole = Section::cylinder(thickness, hole / 2.0).ok()?.solid(1.0).off_axis(radius).scaled(-count);
    let ring = combine([Section::cylinder(thickness, outer / 2.0).ok()?.solid(1.0), hole]);
    (ring.mass > 0.0).then_some(ring)
}

fn pipe(length: f64, outer: f64, inner: f64) -> Option<MassProps> {
    if inner >= outer {
        return None;
    }
    Some(Section::cylinder(length, outer / 2.0).ok()?.walled((outer - inner) / 2.0, 1.0))
}

/// A part's density: its material's, or the default that its word has.
fn density(design: &Design, part: &Part, default: &mut String) -> Option<f64> {
    let of = |id: usize| design.materials.get(id).and_then(|m| m.density.as_ref()).map(|d| d.si);
    if let Some(density) = &part.density {
        return Some(density.si);
    }
    if let Some(material) = &part.material {
        return of(material.value);
    }
    match part.kind {
        PartKind::Lug { .. } => {
            *default = format!("material {LUG_MATERIAL}");
            of(design.material_named(LUG_MATERIAL)?)
        }
        PartKind::Shoulder { .. } => {
            let parent = design.parts.get(part.parent?)?;
            *default = format!("material of its {}", parent.word);
            parent.density.as_ref().map(|density| density.si).or_else(|| of(parent.material.as_ref()?.value))
        }
        _ => None,
    }
}

/// The usual mass of hardware that doesn't say its own: by the rail section's width.
fn usual_mass(design: &Design, part: &Part, default: &mut String) -> Option<MassProps> {
    match &part.kind {
        PartKind::Button { profile, .. } => {
            let section = section_of_width(design, profile)?;
            let mass = section.button_mass.as_ref()?.si;
            *default = format!("{} usual for the {} section", finwright_units::show::mass(mass), section.name.value);
            Some(MassProps::point(mass, 0.0))
        }
        PartKind::RailGuide { profile, length, .. } => {
            let section = section_of_width(design, profile)?;
            let length = length.as_ref()?.si;
            let mass = section.guide_mass.as_ref()?.si * length;
            *default = format!("{} usual for the {} section", finwright_units::show::mass(mass), section.name.value);
            Some(MassProps { mass, x: length / 2.0, i_axial: 0.0, i_transverse: mass * length * length / 12.0 })
        }
        _ => None,
    }
}

/// Whether a part takes its material from the one that it belongs to, whose own can't be understood.
fn takes_broken_material(design: &Design, part: &Part) -> bool {
    let owner = part.parent.and_then(|id| design.parts.get(id));
    matches!(part.kind, PartKind::Shoulder { .. }) && owner.is_some_and(|owner| owner.broken.contains(&"material"))
}

fn report_missing(design: &Design, id: PartId, has_shape: bool, unknown: &mut Vec<Unknown>) {
    let Some(part) = design.parts.get(id) else { return };
    let needs = if !part.missing.is_empty() {
        Needs::Fields(part.missing.clone())
    } else if !part.broken.is_empty() || takes_broken_material(design, part) {
        Needs::Elsewhere
    } else if matches!(part.kind, PartKind::Button { .. } | PartKind::RailGuide { .. }) {
        Needs::MassOrProfile
    } else if has_shape {
        Needs::MaterialOrMass
    } else {
        // Where the part that it sits on has no shape, that is what is told.
        let parent = part.parent.and_then(|id| design.parts.get(id));
        let hangs = parent.is_some_and(|p| p.is_body() && body_section(p).is_none());
        if hangs {
            Needs::Elsewhere
        } else {
            Needs::FittingMeasures
        }
    };
    unknown.push(Unknown { subject: Subject::Part(id), measure: Measure::Mass, needs, place: part.header });
}
