//! A design whose text changed in a comment: the same one, with what stands behind the comment moved.

use crate::design::*;
use crate::files::SourceFile;
use finwright_grammar::{FileId, Retold, Shift, Span};
use finwright_units::Spread;
use std::sync::Arc;

/// The design of a text that was [`finwright_grammar::retold`]; `None` where something is wrong with the design's words
/// or values, of which more than places may be told.
pub fn retold(design: &Design, change: &Retold, text: Arc<str>) -> Option<Design> {
    if !design.problems.is_empty() {
        return None;
    }
    let mut design = design.clone();
    let main = design.files.first_mut()?;
    main.tree = Arc::new(change.tree(&main.tree, text));
    design.relocate(&|span| change.place(span));
    Some(design)
}

// Every field is named, so that a new one can't be forgotten.
macro_rules! shift_fields {
    ($($type:ident $(<$of:ident>)?: $($field:ident)*; $($rest:ident)*;)*) => {
        $(impl $(<$of>)? Shift for $type $(<$of>)? {
            fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
                let $type { $($field,)* $($rest: _,)* } = self;
                $($field.relocate(to);)*
            }
        })*
    };
}

shift_fields! {
    SourceFile: used_at; path tree;
    Named<T>: place; value;
    Choice: place; word number;
    Part: kind name header block at clock material surface density mass off_axis bears balance after_release;
        word copy parent stage missing broken;
    Opening: when place;;
    Fins: count plan outline fillet tab_length tab_depth root tip span sweep thickness leading trailing;;
    Placement: distance place; anchor;
    Material: name density stiffness shear;;
    Section: name width mouth second_moment button_mass guide_mass material;;
    Motor: name header code diameter length mass propellant delay curve thrust_factor; stand by_label missing broken;
    Curve: places place; points;
    Pad: name header rail stop tilt leans friction foot mass stance staked yields end; broken;
    Site: name elevation temperature pressure wind wind_height gust across people; broken;
    Flight: name header motor booster_motor pad guided_by site; guides_taken missing broken;
    Measured: header with mass balance;;
    Flown: name header flight exit_speed height time_to_top log mass wind; missing broken;
    Joint: height play step;;
}

impl Shift for Design {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        let Design {
            files,
            title,
            airframe,
            lost,
            booster,
            parts,
            materials,
            sections,
            motors,
            pads,
            sites,
            flights,
            placed_with,
            measured,
            flown,
            drag_factor,
            values,
            uses_balance: _,
            problems,
            problems_elsewhere: _,
        } = self;
        debug_assert!(problems.is_empty(), "a design with problems isn't retold");
        files.relocate(to);
        title.relocate(to);
        airframe.relocate(to);
        lost.relocate(to);
        booster.relocate(to);
        parts.relocate(to);
        materials.relocate(to);
        sections.relocate(to);
        motors.relocate(to);
        pads.relocate(to);
        sites.relocate(to);
        flights.relocate(to);
        measured.relocate(to);
        flown.relocate(to);
        drag_factor.relocate(to);
        placed_with.iter_mut().for_each(|(_, flight)| flight.relocate(to));
        for (name, value) in values {
            name.relocate(to);
            spread_relocated(&mut value.spread, to);
        }
    }
}

impl Shift for Amount {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        let Amount { si: _, spread, place } = self;
        place.relocate(to);
        spread_relocated(spread, to);
    }
}

/// Tolerances are known by where they were written.
fn spread_relocated(spread: &mut Spread, to: &impl Fn(Span) -> Span) {
    for ((_, offset), _) in spread.0.iter_mut().filter(|((file, _), _)| FileId(*file) == FileId(0)) {
        *offset = to(Span { start: *offset, end: *offset }).start;
    }
}

impl Shift for Opens {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        match self {
            Opens::AfterTop(amount) | Opens::AboveGround(amount) => amount.relocate(to),
            Opens::AtDelay | Opens::AtTop => {}
        }
    }
}

impl Shift for Surface {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        match self {
            Surface::Finish(choice) => choice.relocate(to),
            Surface::Roughness(amount) => amount.relocate(to),
        }
    }
}

impl Shift for Rail {
    fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
        match self {
            Rail::Rod { diameter, length, material, joint, header } => {
                diameter.relocate(to);
                length.relocate(to);
                material.relocate(to);
                joint.relocate(to);
                header.relocate(to);
            }
            Rail::Slotted { slot, length, header } => {
                slot.relocate(to);
                length.relocate(to);
                header.relocate(to);
            }
            Rail::Tower { rails, bore, thickness, length, header } => {
                rails.relocate(to);
                bore.relocate(to);
                thickness.relocate(to);
                length.relocate(to);
                header.relocate(to);
            }
        }
    }
}

macro_rules! shift_kinds {
    ($($kind:ident: $($field:ident)*;)*) => {
        impl Shift for PartKind {
            fn relocate(&mut self, to: &impl Fn(Span) -> Span) {
                match self {
                    $(PartKind::$kind { $($field,)* } => { $($field.relocate(to);)* })*
                    PartKind::Fins(fins) => fins.relocate(to),
                    PartKind::Ballast => {}
                }
            }
        }
    };
}

shift_kinds! {
    Nose: shape length base wall;
    Shoulder: length outer wall;
    Tube: length outer inner;
    Taper: shape length front back wall;
    TubeFins: count length outer inner;
    RingFin: length outer inner;
    ThrustRing: length inner;
    Hook: length;
    Mount: length bore outer sticks_out motors circle;
    Rings: count thickness;
    Coupler: length outer inner;
    Bulkhead: outer thickness;
    Load: length;
    Parachute: diameter drag opens carries;
    Streamer: length width drag opens carries;
    Cord: length;
    Lug: bore length wall standoff;
    Button: profile standoff screw;
    RailGuide: profile length standoff;
}
