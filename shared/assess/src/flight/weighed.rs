//! The rocket with its motors in: where these sit, and what it weighs as it flies.

use crate::misfit::FlightMisfit;
use crate::mounted::{bare, is_whole, motor_extent, motor_misfit, tail};
use crate::shape::Parts;
use crate::stage::{motor_mass, motors, mount, WHOLE};
use crate::unknown::{Measure, Needs, Subject, Unknown};
use crate::weigh::Weight;
use crate::weighing::{as_flown, upper_as_flown, Basis, Weighing};
use finwright_model::{Extent, Flight, Motor, Stage};
use finwright_physics::mass::{combine, MassProps};
use finwright_physics::motor::BurningMass;

/// Where a flight's motor sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mounted {
    /// The stretch of the motor that burns on the pad, m from the tip.
    pub motor: Extent,
    /// The lowest point of the rocket with its motor, which rests on the stop, m from the tip.
    pub lowest: Option<f64>,
}

/// What the rocket weighs; stations from the tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// Mass properties on the pad, motor in, unlit. Those of the rocket on the scale, where it was weighed.
    pub loaded: MassProps,
    /// The same as computed from the parts.
    pub computed: MassProps,
    /// What of it was measured.
    pub basis: Basis,
    /// Mass properties at burnout; guides that fall away are gone then.
    pub burnt: MassProps,
    /// What falls away as the rocket leaves its rod or rail; of no mass where nothing does.
    pub shed: MassProps,
    /// The propellant before ignition, in its place.
    pub propellant: MassProps,
    /// What flies on after the booster has fallen away, where there are two stages.
    pub upper: Option<UpperStage>,
}

/// The upper of two stages by itself, its motor unlit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UpperStage {
    /// Mass properties when it lights.
    pub loaded: MassProps,
    /// Mass properties as its propellant burns away.
    pub burning: BurningMass,
    /// Where its motor sits.
    pub motor: Extent,
}

impl Weighed {
    /// Mass properties as the propellant burns away, in the air.
    pub fn burning(&self) -> BurningMass {
        BurningMass { dry: self.burnt, propellant: self.propellant }
    }

    /// The same on the rod or rail, where what falls away is still there.
    pub fn burning_on_guide(&self) -> BurningMass {
        BurningMass { dry: combine([self.burnt, self.shed]), propellant: self.propellant }
    }
}

/// The parts in their places, with what each and the whole rocket weigh.
#[derive(Clone, Copy)]
pub(crate) struct Scale<'a> {
    pub parts: Parts<'a>,
    pub weights: &'a [Option<Weight>],
    pub weighings: &'a [Weighing],
}

/// What isn't known or can't be about a flight's motors in the rocket.
#[derive(Default)]
pub(crate) struct Lacks {
    pub unknown: Vec<Unknown>,
    pub misfit: Option<FlightMisfit>,
}

/// A motor in its place.
struct Placed {
    whole: MassProps,
    propellant: MassProps,
    extent: Extent,
}

/// The rocket of a flight with its motors in; `None` for what isn't known, which goes to `lacks`.
pub(crate) fn weighed(scale: Scale, flight: &Flight, lacks: &mut Lacks) -> (Option<Mounted>, Option<Weighed>) {
    let Scale { parts, weights, weighings } = scale;
    let motors = motors(parts.design, flight);
    let Some(placed) = motors.iter().map(|of| placed(parts, *of, lacks)).collect::<Option<Vec<Placed>>>() else {
        return (None, None);
    };
    let (Some(first), true) = (placed.first(), parts.design.lost.is_empty()) else { return (None, None) };
    let lowest = tail(parts).map(|tail| tail.max(first.extent.back));
    let mounted = Some(Mounted { motor: first.extent, lowest });
    if !is_whole(parts, weights) {
        return (mounted, None);
    }
    let bare_of = |stages: &[Stage]| bare(parts, weights, stages);
    let computed = combine(std::iter::once(bare_of(WHOLE)).chain(placed.iter().map(|p| p.whole)).collect::<Vec<_>>());
    let (loaded, basis) = as_flown(parts.design, weighings, &motors, computed);
    let upper = match placed.as_slice() {
        [_, motor] => Some(upper(parts, combine([bare_of(&[Stage::Upper]), motor.whole]), (computed, loaded), motor)),
        _ => None,
    };
    let propellant = first.propellant;
    let shed = shed(parts, weights);
    let burnt = combine([loaded, propellant.scaled(-1.0), shed.scaled(-1.0)]);
    (mounted, Some(Weighed { loaded, computed, basis, burnt, shed, propellant, upper }))
}

/// The guides that fall away.
fn shed(parts: Parts, weights: &[Option<Weight>]) -> MassProps {
    let fallen = parts.placed().filter(|(_, part, _)| part.falls_away());
    let fallen = fallen.filter_map(|(id, _, extent)| Some(weights.get(id)?.as_ref()?.own.shifted(extent.front)));
    combine(fallen.collect::<Vec<_>>())
}

fn upper(parts: Parts, loaded: MassProps, whole: (MassProps, MassProps), motor: &Placed) -> UpperStage {
    let loaded = upper_as_flown(loaded, whole, upper_back(parts));
    let dry = combine([loaded, motor.propellant.scaled(-1.0)]);
    UpperStage { loaded, burning: BurningMass { dry, propellant: motor.propellant }, motor: motor.extent }
}

fn placed(parts: Parts, (motor, stage): (&Motor, Stage), lacks: &mut Lacks) -> Option<Placed> {
    let design = parts.design;
    let number = design.motors.iter().position(|known| std::ptr::eq(known, motor))?;
    if !motor.missing.is_empty() {
        lacks.unknown.push(Unknown {
            subject: Subject::Motor(number),
            measure: Measure::Motor,
            needs: Needs::Fields(motor.missing.clone()),
            place: motor.header,
        });
    }
    let (whole, propellant) = motor_mass(design, motor, stage)?;
    let home = if stage == Stage::Upper { design.airframe } else { design.booster };
    if let (None, Some(place)) = (mount(design, stage), home) {
        lacks.unknown.push(Unknown {
            subject: Subject::Airframe,
            measure: Measure::MotorPlace,
            // Where a part isn't understood, it may be the mount.
            needs: if design.lost.is_empty() { Needs::Mount } else { Needs::Elsewhere },
            place,
        });
        return None;
    }
    let Some(extent) = motor_extent(parts, motor, stage) else {
        // A motor that its stage has no room for.
        if let (Some((by, into)), Some(length)) = (motor_misfit(parts, motor, stage), &motor.length) {
            lacks.misfit = Some(FlightMisfit::Motor { motor: number, by, into, place: length.place });
        }
        return None;
    };
    Some(Placed { whole: whole.shifted(extent.front), propellant: propellant.shifted(extent.front), extent })
}

/// Where the upper stage ends, m from the tip.
fn upper_back(parts: Parts) -> f64 {
    let own = parts.placed().filter(|(_, part, _)| part.is_body() && part.stage == Stage::Upper);
    own.map(|(_, _, extent)| extent.back).fold(0.0, f64::max)
}
