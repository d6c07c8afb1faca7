//! Every amount of a design, for looking one up by its place and for asking what a tolerance does.

use crate::design::{Amount, Design, Joint, Opening, Opens, Part, PartKind, Rail, Surface};
use finwright_grammar::Place;
use std::sync::Arc;

impl Design {
    /// Every amount that the design holds, for changing it.
    pub fn amounts_mut(&mut self) -> Vec<&mut Amount> {
        let mut all: Vec<&mut Amount> = Vec::new();
        for part in &mut self.parts {
            part_amounts(part, &mut all);
        }
        for m in self.materials.iter_mut().map(Arc::make_mut) {
            all.extend([&mut m.density, &mut m.stiffness, &mut m.shear].into_iter().flatten());
        }
        for s in self.sections.iter_mut().map(Arc::make_mut) {
            let fields = [&mut s.width, &mut s.mouth, &mut s.second_moment, &mut s.button_mass, &mut s.guide_mass];
            all.extend(fields.into_iter().flatten());
        }
        for m in &mut self.motors {
            let fields =
                [&mut m.diameter, &mut m.length, &mut m.mass, &mut m.propellant, &mut m.delay, &mut m.thrust_factor];
            all.extend(fields.into_iter().flatten());
        }
        for p in self.pads.iter_mut().map(Arc::make_mut) {
            all.extend([&mut p.stop, &mut p.tilt, &mut p.friction, &mut p.foot].into_iter().flatten());
            all.extend([&mut p.mass, &mut p.stance, &mut p.staked, &mut p.yields].into_iter().flatten());
            match &mut p.rail {
                Some(Rail::Rod { diameter, length, joint, .. }) => {
                    all.extend([diameter, length].into_iter().flatten());
                    if let Some(Joint { height, play, step }) = joint {
                        all.extend([height, play, step].into_iter().flatten());
                    }
                }
                Some(Rail::Slotted { length, .. }) => all.extend(length),
                Some(Rail::Tower { rails, bore, thickness, length, .. }) => {
                    all.extend([rails, bore, thickness, length].into_iter().flatten());
                }
                None => {}
            }
        }
        for s in &mut self.sites {
            let fields =
                [&mut s.elevation, &mut s.temperature, &mut s.pressure, &mut s.wind, &mut s.wind_height, &mut s.gust];
            all.extend(fields.into_iter().flatten());
            all.extend([&mut s.across, &mut s.people].into_iter().flatten());
        }
        for m in &mut self.measured {
            all.extend(&mut m.mass);
            all.extend(m.balance.as_mut().map(|b| &mut b.distance));
        }
        for f in &mut self.flown {
            let fields = [&mut f.exit_speed, &mut f.height, &mut f.time_to_top, &mut f.mass, &mut f.wind];
            all.extend(fields.into_iter().flatten());
        }
        all.extend(&mut self.drag_factor);
        all
    }

    /// The amount whose value stands at a place.
    pub fn amount_at(&self, place: Place) -> Option<Amount> {
        // Looking up is rare (a hover), so a copy is cheaper than a second list that must be kept in step.
        self.clone().amounts_mut().into_iter().find(|amount| amount.place == place).cloned()
    }
}

fn part_amounts<'p>(part: &'p mut Part, all: &mut Vec<&'p mut Amount>) {
    all.extend(part.at.as_mut().map(|at| &mut at.distance));
    all.extend(part.balance.as_mut().map(|at| &mut at.distance));
    all.extend(
        [&mut part.clock, &mut part.mass, &mut part.density, &mut part.bears, &mut part.off_axis].into_iter().flatten(),
    );
    if let Some(Surface::Roughness(roughness)) = &mut part.surface {
        all.push(roughness);
    }
    match &mut part.kind {
        PartKind::Nose { length, base, wall, .. } => all.extend([length, base, wall].into_iter().flatten()),
        PartKind::Shoulder { length, outer, wall } => all.extend([length, outer, wall].into_iter().flatten()),
        PartKind::Tube { length, outer, inner } | PartKind::Coupler { length, outer, inner } => {
            all.extend([length, outer, inner].into_iter().flatten());
        }
        PartKind::Taper { length, front, back, wall, .. } => {
            all.extend([length, front, back, wall].into_iter().flatten())
        }
        PartKind::Fins(f) => {
            let more = [&mut f.fillet, &mut f.tab_length, &mut f.tab_depth];
            all.extend(more.into_iter().flatten());
            let fields = [&mut f.count, &mut f.root, &mut f.tip, &mut f.span, &mut f.sweep, &mut f.thickness];
            all.extend(fields.into_iter().flatten());
        }
        PartKind::TubeFins { count, length, outer, inner } => {
            all.extend([count, length, outer, inner].into_iter().flatten());
        }
        PartKind::RingFin { length, outer, inner } => all.extend([length, outer, inner].into_iter().flatten()),
        PartKind::ThrustRing { length, inner } => all.extend([length, inner].into_iter().flatten()),
        PartKind::Hook { length } => all.extend(length),
        PartKind::Mount { length, bore, outer, sticks_out, motors, circle } => {
            all.extend([length, bore, outer, sticks_out, motors, circle].into_iter().flatten());
        }
        PartKind::Rings { count, thickness } => all.extend([count, thickness].into_iter().flatten()),
        PartKind::Bulkhead { outer, thickness } => all.extend([outer, thickness].into_iter().flatten()),
        PartKind::Load { length } => all.extend(length),
        PartKind::Parachute { diameter, drag, opens, .. } => {
            all.extend([diameter, drag].into_iter().flatten());
            all.extend(opens.as_mut().and_then(opening_amount));
        }
        PartKind::Streamer { length, width, drag, opens, .. } => {
            all.extend([length, width, drag].into_iter().flatten());
            all.extend(opens.as_mut().and_then(opening_amount));
        }
        PartKind::Lug { bore, length, wall, standoff } => {
            all.extend([bore, length, wall, standoff].into_iter().flatten());
        }
        PartKind::Button { profile, standoff, screw } => all.extend([profile, standoff, screw].into_iter().flatten()),
        PartKind::RailGuide { profile, length, standoff } => {
            all.extend([profile, length, standoff].into_iter().flatten());
        }
        PartKind::Cord { length } => all.extend(length),
        PartKind::Ballast => {}
    }
}

fn opening_amount(opening: &mut Opening) -> Option<&mut Amount> {
    match &mut opening.when {
        Opens::AboveGround(amount) | Opens::AfterTop(amount) => Some(amount),
        Opens::AtDelay | Opens::AtTop => None,
    }
}
