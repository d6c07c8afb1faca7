//! One flight's numbers: the rocket with its motor, on its pad, until the last guide leaves.

use crate::airflow::Airflow;
use crate::balance::{bare, motor_extent, motor_misfit, motors, mount, WHOLE};
use crate::clearance::{clearance, Clearance};
use crate::fit::{sizes, Sizes};
use crate::loads::{loads, Loads};
use crate::misfit::{self, FlightMisfit};
use crate::path::{delay, NotFlown, Path};
use crate::release::{at_release, side_force, AtRelease};
use crate::seat::{seat, Seat};
use crate::sinking::{sinking, waits_for_charge};
use crate::stiffness::{stiffness, Stiffness};
use crate::unknown::{Measure, Needs, Subject};
use crate::weigh::{motor_mass, thrust};
use crate::weighing::{as_flown, upper_as_flown, Basis};
use crate::{Assessment, Unknown};
use finwright_model::{Amount, Design, Extent, Flight, Motor, Pad, PartId, Rail, Stage};
use finwright_physics::aerodynamics::Drag;
use finwright_physics::air::{Atmosphere, Wind, G0};
use finwright_physics::drag::DragTerms;
use finwright_physics::guided::{side_slope, travel, GuidedOutcome, GuidedRun, Passage, StayReason};
use finwright_physics::loads::Lean;
use finwright_physics::mass::{combine, MassProps};
use finwright_physics::motor::{BurningMass, ThrustCurve};
use std::sync::OnceLock;

/// One flight's numbers. What couldn't be computed is `None`, and `unknown` says what it needs.
#[derive(Clone, Debug, Default)]
pub struct FlightNumbers {
    /// The flight's number in the design.
    pub flight: usize,
    /// Mass properties on the pad, motor in, unlit; stations from the tip. Those of the rocket on the scale, where it was
    /// weighed.
    pub loaded: Option<MassProps>,
    /// The same as computed from the parts.
    pub computed: Option<MassProps>,
    /// What of it was measured.
    pub basis: Basis,
    /// Mass properties at burnout.
    pub burnt: Option<MassProps>,
    /// The propellant before ignition, in its place.
    pub propellant: Option<MassProps>,
    /// Where the motor sits.
    pub motor: Option<Extent>,
    /// The lowest point of the rocket with its motor, which rests on the stop, m from the tip.
    pub lowest: Option<f64>,
    /// Static margin on the pad in calibres: centre of pressure behind the balance point, over the diameter.
    pub margin: Option<f64>,
    /// Static margin at burnout in calibres.
    pub burnt_margin: Option<f64>,
    /// The guides in use, the frontmost first.
    pub guides: Vec<GuideNumbers>,
    /// Length of the rod or rail, m.
    pub rail_length: Option<f64>,
    /// The thrust curve.
    pub curve: Option<ThrustCurve>,
    /// The run along the rod or rail.
    pub run: Option<Run>,
    /// Average thrust over the burn, over the weight on the pad.
    pub thrust_to_weight: Option<f64>,
    /// What flies on after the booster has fallen away, where there are two stages.
    pub upper: Option<UpperStage>,
    /// The rod or rail as a beam.
    pub stiffness: Option<Stiffness>,
    /// What the guides carry.
    pub loads: Option<Loads>,
    /// The room around the rod or rail.
    pub clearance: Option<Clearance>,
    /// The moment when the last guide leaves.
    pub release: Option<AtRelease>,
    /// The air at the site.
    pub air: Option<Air>,
    /// The speeds that the sets of fins bear there.
    pub flutter: Vec<crate::Flutter>,
    /// How fast it comes down under what opens.
    pub sinking: Option<crate::Sinking>,
    /// What can't be about the flight itself.
    pub misfits: Vec<FlightMisfit>,
    /// What couldn't be computed and what it needs.
    pub unknown: Vec<Unknown>,
    /// The flight to the ground, once it's flown: see [`crate::path`](fn@crate::path).
    pub(crate) path: OnceLock<Result<Path, NotFlown>>,
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
    /// Static margin when it lights, in calibres.
    pub margin: Option<f64>,
}

/// A guide in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GuideNumbers {
    /// Its part.
    pub part: PartId,
    /// Where it sits, m from the tip.
    pub extent: Extent,
    /// The travel after which its aft edge leaves the rod or rail, m; negative where it starts above the end.
    pub leaves_after: f64,
    /// What it sits on.
    pub seat: Option<Seat>,
}

/// The run along the rod or rail.
#[derive(Clone, Debug)]
pub struct Run {
    /// Travel from rest until attitude is no longer held, m: the front guide's aft edge leaves, or a lone guide's front
    /// edge does.
    pub front_travel: f64,
    /// Travel from rest until the last guide's aft edge leaves, m.
    pub travel: f64,
    /// How it went.
    pub outcome: GuidedOutcome,
    /// Mean thrust from lift-off to the last release, over the weight on the pad.
    pub push: Option<f64>,
    /// What it was computed from, for the working and for rules that ask "what if".
    pub inputs: RunInputs,
}

/// The numbers that decide the run. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)] // As in the physics crate's `GuidedRun`.
pub struct RunInputs {
    pub mass: f64,
    pub propellant: f64,
    pub tilt: f64,
    pub lean: Lean,
    pub friction: f64,
    pub side_force: f64,
    pub side_slope: f64,
    pub drag: f64,
    /// The drag coefficient behind `drag`.
    pub drag_coefficient: f64,
}

/// The air and wind of a flight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Density, kg/m3.
    pub density: f64,
    /// Steady wind 2 m up, m/s.
    pub wind: f64,
    /// Wind in gusts 2 m up, m/s; the steady wind where none is given.
    pub gust: f64,
    /// The height at which the site's winds are read, m.
    pub read_at: f64,
    /// The air at every height over the site.
    pub atmosphere: Atmosphere,
}

/// About where a meter in the hand reads the wind, m (common practice, no source): what stands on the pad is held to be in
/// the wind of this height.
pub const CREW_HEIGHT: f64 = 2.0;

impl Air {
    /// The wind by height over open land.
    pub fn profile(&self) -> Wind {
        Wind::over_open_land(self.wind, self.gust)
    }

    /// How many times as hard the wind blows at a height in m as 2 m up.
    pub fn growth(height: f64) -> f64 {
        Wind::over_open_land(1.0, 1.0).at(height)
    }

    /// What the site's meter reads when it blows so hard 2 m up, m/s.
    pub fn as_read(&self, wind: f64) -> f64 {
        Wind::over_open_land(wind, wind).at(self.read_at)
    }
}

/// Which way a pad leans, with the wind or across it.
pub fn lean(pad: &Pad) -> Lean {
    let tilt = pad.tilt.as_ref().map_or(0.0, |t| t.si);
    match pad.leans.as_ref().map(|leans| leans.word) {
        Some("with_wind") => Lean { into_wind: -tilt, across: 0.0 },
        Some("across_wind") => Lean { into_wind: 0.0, across: tilt },
        _ => Lean { into_wind: tilt, across: 0.0 },
    }
}

impl FlightNumbers {
    /// The flight's name.
    pub fn name<'d>(&self, design: &'d Design) -> &'d str {
        design.flights.get(self.flight).map_or("?", |flight| flight.name.value.as_str())
    }

    /// Something that isn't known of the flight's pad.
    pub(crate) fn of_pad(&self, design: &Design, pad: &Pad, measure: Measure, needs: Needs) -> Option<Unknown> {
        let number = design.flights.get(self.flight)?.pad.as_ref()?.value;
        Some(Unknown { subject: Subject::Pad(number), measure, needs, place: pad.header })
    }

    /// Mass properties as the propellant burns away.
    pub fn burning(&self) -> Option<BurningMass> {
        Some(BurningMass { dry: self.burnt?, propellant: self.propellant? })
    }
}

impl Run {
    /// The last release, where there is one.
    pub fn last(&self) -> Option<Passage> {
        match self.outcome {
            GuidedOutcome::Leaves { last, .. } => Some(last),
            GuidedOutcome::Stays(_) => None,
        }
    }

    /// The moment when attitude is no longer held, where there is one.
    pub fn front(&self) -> Option<Passage> {
        match self.outcome {
            GuidedOutcome::Leaves { front, .. } => Some(front),
            GuidedOutcome::Stays(_) => None,
        }
    }

    /// Why the rocket doesn't leave.
    pub fn stays(&self) -> Option<StayReason> {
        match self.outcome {
            GuidedOutcome::Stays(reason) => Some(reason),
            GuidedOutcome::Leaves { .. } => None,
        }
    }

    /// The same run with other travels, for asking what a longer rod or another place of a guide would give.
    pub fn inputs_on<'c>(&self, curve: &'c ThrustCurve) -> GuidedRun<'c> {
        self.inputs.on(curve, self.front_travel, self.travel)
    }
}

impl RunInputs {
    /// The physics' view of the run.
    pub fn on(self, curve: &ThrustCurve, front_leaves: f64, last_leaves: f64) -> GuidedRun<'_> {
        GuidedRun {
            curve,
            mass: self.mass,
            propellant: self.propellant,
            tilt: self.tilt,
            friction: self.friction,
            side_force: self.side_force,
            side_slope: self.side_slope,
            drag: self.drag,
            front_leaves,
            last_leaves,
        }
    }
}

/// Friction coefficient of lugs on a rod, where the pad doesn't say (common practice, no source).
pub const ROD_FRICTION: f64 = 0.3;
/// Friction coefficient of buttons and shoes in a rail, where the pad doesn't say (common practice, no source).
pub const RAIL_FRICTION: f64 = 0.25;
/// Speed at which the drag coefficient of the guided run is taken, m/s. On the guide drag takes off about a thousandth,
/// so one coefficient near the release speed is enough.
const DRAG_SPEED: f64 = 13.4;
/// Drag coefficient of the side view in the wind: a long cylinder across the flow (Aeronautical Engineer's Data Book,
/// infinite cylinder 1.20).
pub const SIDE_DRAG: f64 = 1.2;

pub(crate) fn flight(design: &Design, assessment: &Assessment, number: usize) -> FlightNumbers {
    let mut numbers = weighed(design, assessment, number);
    let Some(flight) = design.flights.get(number) else { return numbers };
    let pad = design.pad_of(flight);
    numbers.misfits.extend(site_misfit(design, flight));
    numbers.air = air(design, flight);
    numbers.flutter = numbers.air.map(|air| crate::flutter::flutter(design, &air)).unwrap_or_default();
    if let Some(pad) = pad {
        on_the_pad(design, assessment, flight, pad, &mut numbers);
        numbers.clearance = clearance(design, assessment, pad, &numbers);
        say_what_isnt_turned(design, &mut numbers);
        numbers.run = run(assessment, pad, &numbers);
    }
    if let (Some(airflow), Some(pad)) = (&assessment.airflow, pad.filter(|p| p.broken.is_empty())) {
        let mut unknown = Vec::new();
        numbers.stiffness = stiffness(design, airflow, pad, &numbers, &mut unknown);
        numbers.loads = loads(design, assessment, airflow, pad, &numbers);
        say_what_bears_unknown(design, &mut numbers);
        numbers.release = at_release(airflow, assessment.calibre, &numbers);
        numbers.unknown.extend(unknown);
    }
    numbers.sinking = sinking(design, &mut numbers);
    say_when_it_opens(design, &mut numbers);
    numbers
}

/// A flight's mass, balance point and margin, and nothing that needs a pad.
pub(crate) fn weighed(design: &Design, assessment: &Assessment, number: usize) -> FlightNumbers {
    let mut numbers = FlightNumbers { flight: number, ..FlightNumbers::default() };
    let Some(flight) = design.flights.get(number) else { return numbers };
    let motors = motors(design, flight);
    if !flight.missing.is_empty() || !flight.broken.is_empty() {
        let said = flight.missing.is_empty();
        numbers.unknown.push(Unknown {
            subject: Subject::Flight(number),
            measure: Measure::Flight,
            needs: if said { Needs::Elsewhere } else { Needs::Fields(flight.missing.clone()) },
            place: flight.header,
        });
    }
    // With a motor left out it isn't this flight.
    if flight.motor.is_some() && (design.booster.is_none() || flight.booster_motor.is_some()) {
        weigh(design, assessment, &motors, &mut numbers);
        numbers.curve = motors.first().and_then(|(motor, stage)| thrust(design, motor, *stage));
    }
    if let (Some(loaded), Some(curve)) = (numbers.loaded, &numbers.curve) {
        numbers.thrust_to_weight = Some(curve.average_thrust() / (loaded.mass * G0));
    }
    if let (Some(airflow), Some(calibre)) = (&assessment.airflow, assessment.calibre) {
        let margin = |mass: Option<MassProps>| Some((airflow.total.x()? - mass?.x) / calibre);
        numbers.margin = margin(numbers.loaded);
        numbers.burnt_margin = margin(numbers.burnt);
    }
    if let (Some(upper), Some(airflow), Some(calibre)) =
        (&mut numbers.upper, &assessment.upper_airflow, assessment.calibre)
    {
        upper.margin = airflow.total.x().map(|x| (x - upper.loaded.x) / calibre);
    }
    numbers
}

/// What a guide's fixing bears may hang on a wall or a section that isn't known; the file may also say it.
fn say_what_bears_unknown(design: &Design, numbers: &mut FlightNumbers) {
    let unknown = numbers.loads.iter().flat_map(|loads| &loads.guides).filter(|guide| guide.capacity.is_none());
    let lacks = unknown.filter_map(|guide| {
        let part = design.parts.get(guide.part)?;
        let (subject, needs) = (Subject::Part(guide.part), Needs::Fields(vec!["bears"]));
        Some(Unknown { subject, measure: Measure::Load, needs, place: part.header })
    });
    numbers.unknown.extend(lacks.collect::<Vec<_>>());
}

/// Whether a guide runs on the rod or rail hangs on the sizes of both.
fn say_what_fits_unknown(design: &Design, flight: &Flight, pad: &Pad, numbers: &mut FlightNumbers) {
    for named in &flight.guided_by {
        let Some(part) = design.parts.get(named.value) else { continue };
        if sizes(design, part, pad) != Sizes::Unknown {
            continue;
        }
        if !part.missing.is_empty() {
            let (subject, needs) = (Subject::Part(named.value), Needs::Fields(part.missing.clone()));
            numbers.unknown.push(Unknown { subject, measure: Measure::Fit, needs, place: part.header });
        }
        let needs = match &pad.rail {
            Some(Rail::Rod { diameter: None, .. }) => Needs::OfRod("diameter"),
            Some(Rail::Slotted { slot: None, .. }) => Needs::OfRail("slot"),
            Some(Rail::Slotted { slot: Some(slot), .. }) => {
                match design.sections.get(slot.value).filter(|section| section.width.is_none()) {
                    Some(_) => Needs::OfSection("width", slot.value),
                    None => continue,
                }
            }
            _ => continue,
        };
        numbers.unknown.extend(numbers.of_pad(design, pad, Measure::Fit, needs));
    }
}

/// What opens needs a motor that says when.
fn say_when_it_opens(design: &Design, numbers: &mut FlightNumbers) {
    let motor = design.flights.get(numbers.flight).and_then(|flight| flight.motor.as_ref()).map(|motor| motor.value);
    let Some((id, motor)) = motor.and_then(|id| Some((id, design.motors.get(id)?))) else { return };
    if !design.parts.iter().any(waits_for_charge) || delay(design, numbers).is_some() {
        return;
    }
    let needs = Needs::Fields(vec!["delay"]);
    let (subject, measure) = (Subject::Motor(id), Measure::Opening);
    numbers.unknown.push(Unknown { subject, measure, needs, place: motor.header });
}

/// Whether a fin is in the way can't be told of guides whose angle around the body isn't known.
fn say_what_isnt_turned(design: &Design, numbers: &mut FlightNumbers) {
    let Some(clearance) = numbers.clearance.as_ref().filter(|c| c.gap.is_some()) else { return };
    let unturned = clearance.guides.iter().filter(|guide| guide.clock.is_none());
    let lacks = unturned.filter_map(|guide| {
        let part = design.parts.get(guide.part)?;
        let needs = if part.broken.contains(&"clock") { Needs::Elsewhere } else { Needs::Fields(vec!["clock"]) };
        Some(Unknown { subject: Subject::Part(guide.part), measure: Measure::FinRoom, needs, place: part.header })
    });
    numbers.unknown.extend(lacks.take(1).collect::<Vec<_>>());
}

/// A pad's friction coefficient.
pub fn friction(pad: &Pad) -> f64 {
    let usual = if pad.has_rod() { ROD_FRICTION } else { RAIL_FRICTION };
    pad.friction.as_ref().map_or(usual, |f| f.si)
}

/// The length of a pad's rod or rail, with its place.
pub fn rail_length(pad: &Pad) -> Option<&Amount> {
    match pad.rail.as_ref()? {
        Rail::Rod { length, .. } | Rail::Slotted { length, .. } => length.as_ref(),
    }
}

/// Weigh the rocket with its motors, the first of which burns on the pad.
fn weigh(design: &Design, assessment: &Assessment, motors: &[(&Motor, Stage)], numbers: &mut FlightNumbers) {
    let mut placed = Vec::new();
    for (motor, stage) in motors {
        if !motor.missing.is_empty() {
            let Some(id) = design.motors.iter().position(|known| std::ptr::eq(known, *motor)) else { return };
            numbers.unknown.push(Unknown {
                subject: Subject::Motor(id),
                measure: Measure::Motor,
                needs: Needs::Fields(motor.missing.clone()),
                place: motor.header,
            });
        }
        let Some((whole, propellant)) = motor_mass(design, motor, *stage) else { return };
        let home = if *stage == Stage::Upper { design.airframe } else { design.booster };
        if let (None, Some(place)) = (mount(design, *stage), home) {
            numbers.unknown.push(Unknown {
                subject: Subject::Airframe,
                measure: Measure::MotorPlace,
                // Where a part isn't understood, it may be the mount.
                needs: if design.lost.is_empty() { Needs::Mount } else { Needs::Elsewhere },
                place,
            });
            return;
        }
        let Some(extent) = motor_extent(design, &assessment.extents, motor, *stage) else {
            numbers.misfits.extend(no_room(design, assessment, motor, *stage));
            return;
        };
        placed.push((whole.shifted(extent.front), propellant.shifted(extent.front), extent));
    }
    let (Some((_, propellant, extent)), true) = (placed.first().copied(), design.lost.is_empty()) else { return };
    numbers.motor = Some(extent);
    numbers.lowest = assessment.tail.map(|tail| tail.max(extent.back));
    // The mass of a rocket with a part left out isn't the rocket's mass.
    let known = |(weight, extent): (&Option<crate::Weight>, &Option<Extent>)| weight.is_some() && extent.is_some();
    if assessment.weights.is_empty() || !assessment.weights.iter().zip(&assessment.extents).all(known) {
        return;
    }
    let bare_of = |stages: &[Stage]| bare(design, &assessment.weights, &assessment.extents, stages);
    let computed = combine(std::iter::once(bare_of(WHOLE)).chain(placed.iter().map(|p| p.0)).collect::<Vec<_>>());
    let (whole, basis) = as_flown(design, &assessment.weighings, motors, computed);
    numbers.computed = Some(computed);
    numbers.basis = basis;
    numbers.loaded = Some(whole);
    numbers.burnt = Some(combine([whole, propellant.scaled(-1.0)]));
    numbers.propellant = Some(propellant);
    if let [_, (upper, upper_propellant, upper_extent)] = placed.as_slice() {
        let loaded = combine([bare_of(&[Stage::Upper]), *upper]);
        let loaded = upper_as_flown(loaded, (computed, whole), upper_back(design, assessment));
        numbers.upper = Some(UpperStage {
            loaded,
            burning: BurningMass {
                dry: combine([loaded, upper_propellant.scaled(-1.0)]),
                propellant: *upper_propellant,
            },
            motor: *upper_extent,
            margin: None,
        });
    }
}

/// A motor that its stage has no room for.
fn no_room(design: &Design, assessment: &Assessment, motor: &Motor, stage: Stage) -> Option<FlightMisfit> {
    let (by, into) = motor_misfit(design, &assessment.extents, motor, stage)?;
    let number = design.motors.iter().position(|known| std::ptr::eq(known, motor))?;
    Some(FlightMisfit::Motor { motor: number, by, into, place: motor.length.as_ref()?.place })
}

/// Where the upper stage ends, m from the tip.
fn upper_back(design: &Design, assessment: &Assessment) -> f64 {
    let own = design.parts.iter().zip(&assessment.extents).filter(|(p, _)| p.is_body() && p.stage == Stage::Upper);
    own.filter_map(|(_, extent)| *extent).map(|extent| extent.back).fold(0.0, f64::max)
}

fn on_the_pad(design: &Design, assessment: &Assessment, flight: &Flight, pad: &Pad, numbers: &mut FlightNumbers) {
    let Some(length) = rail_length(pad).filter(|_| pad.broken.is_empty()) else {
        let needs = if !pad.broken.is_empty() {
            Needs::Elsewhere
        } else if pad.rail.is_some() {
            Needs::RailLength
        } else {
            Needs::RodOrRail
        };
        numbers.unknown.extend(numbers.of_pad(design, pad, Measure::Run, needs));
        return;
    };
    numbers.rail_length = Some(length.si);
    say_what_fits_unknown(design, flight, pad, numbers);
    let Some(lowest) = numbers.lowest else { return };
    let stop = pad.stop.as_ref().map_or(0.0, |s| s.si);
    if flight.broken.contains(&"guided_by") {
        return;
    }
    for named in &flight.guided_by {
        let Some(extent) = assessment.extents.get(named.value).copied().flatten() else { continue };
        let leaves_after = travel(length.si, stop, lowest - extent.back);
        let seat = seat(design, assessment, named.value, extent);
        numbers.guides.push(GuideNumbers { part: named.value, extent, leaves_after, seat });
    }
    numbers.guides.sort_by(|a, b| a.extent.front.total_cmp(&b.extent.front));
    // Guides whose place is unknown make the release unknown, not earlier.
    if numbers.guides.len() < flight.guided_by.len() {
        numbers.guides.clear();
    }
    // Two guides in one place are one, and which one isn't known.
    if let Some(misfit) = misfit::guides(design, flight, &numbers.guides) {
        numbers.misfits.push(misfit);
        numbers.guides.clear();
    }
}

fn run(assessment: &Assessment, pad: &Pad, numbers: &FlightNumbers) -> Option<Run> {
    let (loaded, curve, air) = (numbers.loaded?, numbers.curve.as_ref()?, numbers.air?);
    let airflow = assessment.airflow.as_ref()?;
    let (front, last) = (numbers.guides.first()?, numbers.guides.last()?);
    let front_travel =
        if numbers.guides.len() == 1 { front.leaves_after - front.extent.length() } else { front.leaves_after };
    let (front_travel, travel) = (front_travel.max(0.0), last.leaves_after);
    if travel <= 0.0 {
        return None;
    }
    let (drag, drag_coefficient) = drag(airflow, air.density);
    let inputs = RunInputs {
        mass: loaded.mass,
        propellant: numbers.propellant?.mass,
        tilt: pad.tilt.as_ref().map_or(0.0, |t| t.si),
        lean: lean(pad),
        friction: friction(pad),
        side_force: side_force(airflow, air.density, air.wind),
        side_slope: side_slope(air.density, airflow.reference_area, airflow.total.cna, air.wind),
        drag,
        drag_coefficient,
    };
    let guided = inputs.on(curve, front_travel, travel);
    let outcome = guided.run();
    let push = push(&guided, &outcome);
    Some(Run { front_travel, travel, outcome, push, inputs })
}

/// Mean thrust from lift-off to the last release, over the weight on the pad; `None` where it doesn't leave.
pub fn push(run: &GuidedRun, outcome: &GuidedOutcome) -> Option<f64> {
    let GuidedOutcome::Leaves { lift_off, last, .. } = outcome else { return None };
    let impulse = run.curve.impulse_to(last.time) - run.curve.impulse_to(*lift_off);
    Some(impulse / (last.time - lift_off) / (run.mass * G0))
}

/// The drag coefficient of the guided run, term by term.
pub(crate) fn drag_terms(airflow: &Airflow) -> Option<DragTerms> {
    match &airflow.aerodynamics.drag {
        Drag::BuildUp(model) => Some(model.terms(DRAG_SPEED, &finwright_physics::air::standard(0.0), true)),
        Drag::Constant(_) => None,
    }
}

/// Half the density times coefficient times area, kg/m, and the coefficient.
fn drag(airflow: &Airflow, density: f64) -> (f64, f64) {
    let standard = finwright_physics::air::standard(0.0);
    let coefficient = airflow.aerodynamics.drag.coefficient(DRAG_SPEED, &standard, true);
    (0.5 * density * coefficient * airflow.reference_area, coefficient)
}

/// What can't be about the air at a flight's site.
fn site_misfit(design: &Design, flight: &Flight) -> Option<FlightMisfit> {
    let number = flight.site.as_ref()?.value;
    misfit::pressure(number, design.sites.get(number)?)
}

fn air(design: &Design, flight: &Flight) -> Option<Air> {
    let site = flight.site.as_ref().and_then(|s| design.sites.get(s.value));
    if flight.broken.contains(&"site") || site.is_some_and(|s| !s.broken.is_empty()) {
        return None;
    }
    if site_misfit(design, flight).is_some() {
        return None;
    }
    let si = |a: Option<&Amount>| a.map(|a| a.si);
    let mut atmosphere = Atmosphere::standard(site.and_then(|s| si(s.elevation.as_ref())).unwrap_or(0.0));
    if let Some(temperature) = site.and_then(|s| si(s.temperature.as_ref())) {
        atmosphere = atmosphere.with_temperature(temperature);
    }
    if let Some(pressure) = site.and_then(|s| si(s.pressure.as_ref())) {
        atmosphere = atmosphere.with_pressure(pressure);
    }
    let wind = site.and_then(|s| si(s.wind.as_ref())).unwrap_or(0.0);
    let gust = site.and_then(|s| si(s.gust.as_ref())).unwrap_or(wind).max(wind);
    let read_at = site.and_then(|s| si(s.wind_height.as_ref())).unwrap_or(CREW_HEIGHT);
    let read = Wind { reference_height: read_at, ..Wind::over_open_land(wind, gust) };
    let (wind, gust) = (read.at(CREW_HEIGHT), read.gust_at(CREW_HEIGHT));
    Some(Air { density: atmosphere.at(0.0).density, wind, gust, read_at, atmosphere })
}
