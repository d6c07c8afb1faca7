//! Each part's mass properties, about its own place: from its measures and its material, or as given.

use crate::assumed::Assumed;
use crate::hardware::{guide_offset, section_of_width};
use crate::shape::Parts;
use crate::stage::cluster;
use crate::unknown::{Measure, Needs, Subject};
use crate::Unknown;
use finwright_model::{Amount, Anchor, Part, PartId, PartKind};
use finwright_physics::fins::FinShape;
use finwright_physics::mass::{combine, MassProps};
use finwright_physics::section::Section;

/// What a part weighs. Stations are from the part's own front edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Weight {
    /// Mass properties in the part's own frame.
    pub own: MassProps,
    /// Whether the mass is the one given, not the one computed.
    pub given: bool,
    /// What was taken as a default.
    pub assumed: Option<Assumed>,
}

/// What a lug is of that doesn't say.
pub(crate) const LUG_MATERIAL: &str = "kraft_paper";
/// What fillets are of.
pub(crate) const FILLET_MATERIAL: &str = "epoxy";

/// Weigh every part; what a part lacks for it goes to `unknown`. No part's mass hangs on where it sits.
pub(crate) fn weights(parts: Parts, unknown: &mut Vec<Unknown>) -> Vec<Option<Weight>> {
    let mut weighed = Vec::with_capacity(parts.design.parts.len());
    for (id, part) in parts.all() {
        weighed.push(match weight(parts, id, part) {
            Ok(weight) => Some(weight),
            Err(needs) => {
                unknown.push(Unknown { subject: Subject::Part(id), measure: Measure::Mass, needs, place: part.header });
                None
            }
        });
    }
    weighed
}

fn weight(parts: Parts, id: PartId, part: &Part) -> Result<Weight, Needs> {
    if !part.broken.is_empty() {
        return Err(lacks(parts, part, false));
    }
    let mut assumed = None;
    let density = density(parts, id, part, &mut assumed);
    let shape = solid(parts, id, part);
    let own = match (shape, &part.mass, density) {
        (Some(shape), Some(mass), _) if shape.mass > 0.0 => shape.scaled(mass.si / shape.mass),
        (None, Some(mass), _) => MassProps::point(mass.si, part.length().map_or(0.0, |l| l.si) / 2.0),
        (Some(shape), None, Some(density)) => shape.scaled(density),
        (_, None, _) => usual_mass(parts, id, part, &mut assumed).ok_or_else(|| lacks(parts, part, shape.is_some()))?,
        (Some(shape), Some(mass), _) => MassProps { mass: mass.si, ..shape },
    };
    let mut own = combine([own, fillets(parts, part)?]);
    if let Some(balance) = &part.balance {
        own.x = match balance.anchor {
            Anchor::Back => part.length().map_or(0.0, |l| l.si) - balance.distance.si,
            _ => balance.distance.si,
        };
    }
    let given = part.mass.is_some();
    Ok(Weight { own: own.off_axis(arm(parts, part)), given, assumed: assumed.filter(|_| !given) })
}

/// The epoxy fillets along the fins' roots, in the fins' own frame: a quarter circle's complement on both sides of
/// each.
fn fillets(parts: Parts, part: &Part) -> Result<MassProps, Needs> {
    let PartKind::Fins(fins) = &part.kind else { return Ok(MassProps::ZERO) };
    let (Some(radius), Some(count), Some(root), None) = (&fins.fillet, &fins.count, &fins.root, &part.mass) else {
        return Ok(MassProps::ZERO);
    };
    let epoxy = parts.design.material_named(FILLET_MATERIAL).ok_or(Needs::MaterialNamed(FILLET_MATERIAL))?;
    let density = parts.design.materials.get(epoxy).and_then(|epoxy| epoxy.density.as_ref());
    let density = density.ok_or(Needs::OfMaterial("density", epoxy))?;
    let volume = 2.0 * count.si * root.si * radius.si * radius.si * (1.0 - std::f64::consts::PI / 4.0);
    let mass = volume * density.si;
    let body = parts.radius_behind(part).unwrap_or(0.0);
    Ok(thin_rod(mass, root.si).off_axis(body))
}

/// How far off the rocket's axis a part's own axis lies, m.
fn arm(parts: Parts, part: &Part) -> f64 {
    if !part.is_guide() {
        return part.off_axis.as_ref().map(|a| a.si).or_else(|| hook_arm(parts, part)).unwrap_or(0.0);
    }
    let radius = parts.radius_behind(part).unwrap_or(0.0);
    radius + guide_offset(parts.design, part)
}

/// A motor hook lies along the outside of its mount; where there are several, of the tube farthest out.
fn hook_arm(parts: Parts, part: &Part) -> Option<f64> {
    if !matches!(part.kind, PartKind::Hook { .. }) {
        return None;
    }
    let PartKind::Mount { outer, .. } = &parts.part(part.parent?)?.kind else { return None };
    Some(cluster(parts.design, part.stage).1 + outer.as_ref()?.si / 2.0)
}

/// The mass properties at a density of 1 kg/m3, in the part's own frame; `None` where measures are missing.
fn solid(parts: Parts, id: PartId, part: &Part) -> Option<MassProps> {
    let si = |a: &Option<Amount>| a.as_ref().map(|a| a.si);
    let walled = |section: &Section, wall: &Option<Amount>| match wall {
        Some(wall) => section.walled(wall.si, 1.0),
        None => section.solid(1.0),
    };
    match &part.kind {
        PartKind::Nose { wall, .. } | PartKind::Taper { wall, .. } => Some(walled(&parts.body(id)?.section, wall)),
        PartKind::Shoulder { length, outer, wall } => {
            Some(walled(&Section::cylinder(si(length)?, si(outer)? / 2.0).ok()?, wall))
        }
        PartKind::Tube { length, outer, inner } | PartKind::Coupler { length, outer, inner } => {
            pipe(si(length)?, si(outer)?, si(inner)?)
        }
        PartKind::Mount { length, bore, outer, .. } => {
            let (count, radius) = cluster(parts.design, part.stage);
            Some(pipe(si(length)?, si(outer)?, si(bore)?)?.off_axis(radius).scaled(count))
        }
        PartKind::TubeFins { count, length, outer, inner } => {
            let radius = parts.radius_behind(part)? + si(outer)? / 2.0;
            Some(pipe(si(length)?, si(outer)?, si(inner)?)?.off_axis(radius).scaled(si(count)?))
        }
        PartKind::RingFin { length, outer, inner } => pipe(si(length)?, si(outer)?, si(inner)?),
        PartKind::ThrustRing { length, inner } => {
            let PartKind::Mount { bore, .. } = &parts.part(part.parent?)?.kind else { return None };
            pipe(si(length)?, si(bore)?, si(inner)?)
        }
        PartKind::Hook { length } => {
            let length = si(length)?;
            Some(thin_rod(1.0, length))
        }
        PartKind::Bulkhead { outer, thickness } => {
            Some(Section::cylinder(si(thickness)?, si(outer)? / 2.0).ok()?.solid(1.0))
        }
        PartKind::Lug { bore, length, wall, .. } => pipe(si(length)?, si(bore)? + 2.0 * si(wall)?, si(bore)?),
        PartKind::Fins(fins) => {
            let geometry = &parts.fin(id)?.geometry;
            let radius = parts.radius_behind(part)?;
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
            let mount = parts.part(part.parent?)?;
            let PartKind::Mount { length, outer: hole, .. } = &mount.kind else { return None };
            let PartKind::Tube { inner, .. } = &parts.part(mount.parent?)?.kind else { return None };
            let (count, thickness, length) = (si(count)? as u32, si(thickness)?, si(length)?);
            let one = ring(cluster(parts.design, part.stage), thickness, si(inner)?, si(hole)?)?;
            let step = if count > 1 { (length - thickness) / f64::from(count - 1) } else { 0.0 };
            let first = if count > 1 { 0.0 } else { (length - thickness) / 2.0 };
            Some(combine((0..count).map(|i| one.shifted(first + step * f64::from(i)))))
        }
        PartKind::Load { length } => {
            let length = si(length).unwrap_or(0.0);
            // Its thickness is unknown: a thin rod of its length.
            Some(thin_rod(1.0, length))
        }
        PartKind::RailGuide { length, .. } => {
            let length = si(length)?;
            Some(thin_rod(1.0, length))
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
fn density(parts: Parts, id: PartId, part: &Part, assumed: &mut Option<Assumed>) -> Option<f64> {
    let design = parts.design;
    let of = |id: usize| design.materials.get(id).and_then(|m| m.density.as_ref()).map(|d| d.si);
    if let Some(density) = &part.density {
        return Some(density.si);
    }
    if let Some(material) = &part.material {
        return of(material.value);
    }
    match part.kind {
        PartKind::Lug { .. } => {
            *assumed = Some(Assumed::Material(id, LUG_MATERIAL));
            of(design.material_named(LUG_MATERIAL)?)
        }
        PartKind::Shoulder { .. } => {
            let parent = parts.part(part.parent?)?;
            *assumed = Some(Assumed::ParentsMaterial(id));
            parent.density.as_ref().map(|density| density.si).or_else(|| of(parent.material.as_ref()?.value))
        }
        _ => None,
    }
}

/// The usual mass of hardware that doesn't say its own: by the rail section's width.
fn usual_mass(parts: Parts, id: PartId, part: &Part, assumed: &mut Option<Assumed>) -> Option<MassProps> {
    let (profile, length) = match &part.kind {
        PartKind::Button { profile, .. } => (profile, None),
        PartKind::RailGuide { profile, length, .. } => (profile, Some(length.as_ref()?.si)),
        _ => return None,
    };
    let (number, section) = section_of_width(parts.design, profile)?;
    let own = match length {
        None => MassProps::point(section.button_mass.as_ref()?.si, 0.0),
        Some(length) => thin_rod(section.guide_mass.as_ref()?.si * length, length),
    };
    *assumed = Some(Assumed::UsualMass(id, own.mass, number));
    Some(own)
}

/// Something spread evenly along its length, its thickness not known.
fn thin_rod(mass: f64, length: f64) -> MassProps {
    MassProps { mass, x: length / 2.0, i_axial: 0.0, i_transverse: mass * length * length / 12.0 }
}

/// Whether a part takes its material from the one that it belongs to, whose own can't be understood.
fn takes_broken_material(parts: Parts, part: &Part) -> bool {
    let owner = part.parent.and_then(|id| parts.part(id));
    matches!(part.kind, PartKind::Shoulder { .. }) && owner.is_some_and(|owner| owner.broken.contains(&"material"))
}

/// What a part needs to be weighed.
fn lacks(parts: Parts, part: &Part, has_shape: bool) -> Needs {
    if !part.missing.is_empty() {
        return Needs::Fields(part.missing.clone());
    }
    if !part.broken.is_empty() || takes_broken_material(parts, part) {
        return Needs::Elsewhere;
    }
    if matches!(part.kind, PartKind::Button { .. } | PartKind::RailGuide { .. }) {
        return Needs::MassOrProfile;
    }
    if has_shape {
        return Needs::MaterialOrMass;
    }
    // Where the part that it sits on has no shape, that is what is told.
    let hangs = part.parent.is_some_and(|id| parts.part(id).is_some_and(Part::is_body) && parts.body(id).is_none());
    if hangs {
        Needs::Elsewhere
    } else {
        Needs::FittingMeasures
    }
}
