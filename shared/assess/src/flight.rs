//! One flight's numbers in stages, each built from the ones before: weighed with its motors in, on its pad, along the
//! rod or rail, at its release, and on its path to the ground.
//!
//! * [`air`]: the air and the wind at the site.
//! * [`weighed`]: the rocket with its motors in.
//! * [`pad`]: on its pad, held by its guides. [`seat`]: what each sits on. [`clearance`]: fins and wide stretches
//!   beside the rod or rail. [`stiffness`]: the rod or rail as a beam, its lean and its frequency.
//! * [`run`]: along the rod or rail. [`loads`]: what the guides carry until then, whether they lock, what they may
//!   bear.
//! * [`release`]: angle of attack, swing and turn when the last guide leaves.
//! * [`path`](mod@path): the flight to the ground, flown when someone asks. [`sinking`](mod@sinking): how fast it comes
//!   down under what opens, which needs no flight.
//! * [`standing`](mod@standing): whether the pad tips. [`in_gust`](mod@in_gust): the climb through a gust.
//! * [`flutter`](mod@flutter): the speed that each set of fins bears.

pub mod air;
pub mod clearance;
pub mod flutter;
pub mod in_gust;
pub mod loads;
mod memory;
pub mod pad;
pub mod path;
pub mod release;
pub mod run;
pub mod seat;
pub mod sinking;
pub mod standing;
pub mod stiffness;
pub mod weighed;

use crate::airflow::Airflow;
use crate::airframe::Airframe;
use crate::misfit::FlightMisfit;
use crate::stage::{delay, motors, thrust};
use crate::unknown::{Measure, Needs, Subject, Unknown};
use crate::weighing::Basis;
use air::{air, site_misfit, Air};
use clearance::{clearance, Clearance};
use finwright_model::{Design, Extent, Flight, Pad};
use finwright_physics::air::G0;
use finwright_physics::mass::MassProps;
use finwright_physics::motor::ThrustCurve;
use flutter::{flutter, Flutter};
use in_gust::InGust;
use loads::{loads, Loads};
use pad::{of_pad, on_pad, GuideNumbers, OnPad, PadLacks};
use path::{NotFlown, Path};
use release::{at_release, AtRelease};
use run::{run, Run};
use sinking::{down, waits_for_charge, Bare, Down, Sinking};
use standing::{standing, Standing};
use std::sync::OnceLock;
use stiffness::{stiffness, Stiffness};
use weighed::{weighed, Lacks, Mounted, Scale, UpperStage, Weighed};

/// One flight's numbers, stage by stage. What couldn't be computed is `None`, and `unknown` says what it needs.
#[derive(Clone, Debug, Default)]
pub struct FlightNumbers {
    /// The flight's number in the design.
    pub flight: usize,
    /// The air at the site.
    pub air: Option<Air>,
    /// The thrust curve.
    pub curve: Option<ThrustCurve>,
    /// Where the motor sits.
    pub mounted: Option<Mounted>,
    /// The rocket with its motors in.
    pub weighed: Option<Weighed>,
    /// Its static margins.
    pub margins: Option<Margins>,
    /// The rocket on its pad.
    pub on_pad: Option<OnPad>,
    /// The room around the rod or rail.
    pub clearance: Option<Clearance>,
    /// The rod or rail as a beam.
    pub stiffness: Option<Stiffness>,
    /// What holds the pad against the wind, where it says what it weighs and how it stands.
    pub standing: Option<Standing>,
    /// The run along the rod or rail.
    pub run: Option<Run>,
    /// What the guides carry.
    pub loads: Option<Loads>,
    /// The moment when the last guide leaves.
    pub release: Option<AtRelease>,
    /// The speeds that the sets of fins bear in the site's air.
    pub flutter: Vec<Flutter>,
    /// How fast it comes down under what opens: all of it, or the piece with the motor.
    pub sinking: Option<Sinking>,
    /// Pieces that come down by themselves.
    pub apart: Vec<Sinking>,
    /// What falls with nothing that slows it, where something slows the rest.
    pub bare: Option<Bare>,
    /// What can't be about the flight itself.
    pub misfits: Vec<FlightMisfit>,
    /// What couldn't be computed and what it needs.
    pub unknown: Vec<Unknown>,
    /// The flight to the ground, once it's flown: see [`path`](fn@path::path).
    path: OnceLock<Result<Path, NotFlown>>,
    /// The climb through a gust, once it's flown: see [`in_gust`](fn@in_gust::in_gust).
    in_gust: OnceLock<Option<InGust>>,
}

/// Static margins in calibres: centre of pressure behind the balance point, over the diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margins {
    /// On the pad.
    pub loaded: f64,
    /// At burnout.
    pub burnt: f64,
    /// Of the upper stage alone when it lights, where there is one whose shape is known.
    pub upper: Option<f64>,
}

impl FlightNumbers {
    /// The flight's name.
    pub fn name<'d>(&self, design: &'d Design) -> &'d str {
        design.flights.get(self.flight).map_or("?", |flight| flight.name.value.as_str())
    }

    /// Mass properties on the pad, as flown: see [`Weighed::loaded`].
    pub fn loaded(&self) -> Option<MassProps> {
        self.weighed.map(|weighed| weighed.loaded)
    }

    /// The same as computed from the parts.
    pub fn computed(&self) -> Option<MassProps> {
        self.weighed.map(|weighed| weighed.computed)
    }

    /// Mass properties at burnout.
    pub fn burnt(&self) -> Option<MassProps> {
        self.weighed.map(|weighed| weighed.burnt)
    }

    /// The propellant before ignition, in its place.
    pub fn propellant(&self) -> Option<MassProps> {
        self.weighed.map(|weighed| weighed.propellant)
    }

    /// What of its mass and balance was measured.
    pub fn basis(&self) -> Basis {
        self.weighed.map(|weighed| weighed.basis).unwrap_or_default()
    }

    /// The upper of two stages by itself.
    pub fn upper(&self) -> Option<UpperStage> {
        self.weighed?.upper
    }

    /// Where the motor sits that burns on the pad.
    pub fn motor(&self) -> Option<Extent> {
        self.mounted.map(|mounted| mounted.motor)
    }

    /// The lowest point of the rocket with its motor, which rests on the stop, m from the tip.
    pub fn lowest(&self) -> Option<f64> {
        self.mounted?.lowest
    }

    /// Static margin on the pad, calibres.
    pub fn margin(&self) -> Option<f64> {
        self.margins.map(|margins| margins.loaded)
    }

    /// Static margin at burnout, calibres.
    pub fn burnt_margin(&self) -> Option<f64> {
        self.margins.map(|margins| margins.burnt)
    }

    /// Static margin of the upper stage alone when it lights, calibres.
    pub fn upper_margin(&self) -> Option<f64> {
        self.margins?.upper
    }

    /// Length of the rod or rail, m.
    pub fn rail_length(&self) -> Option<f64> {
        self.on_pad.as_ref().map(|on_pad| on_pad.rail_length)
    }

    /// The guides in use, the frontmost first.
    pub fn guides(&self) -> &[GuideNumbers] {
        self.on_pad.as_ref().map_or(&[], |on_pad| &on_pad.guides)
    }

    /// Average thrust over the burn, over the weight on the pad.
    pub fn thrust_to_weight(&self) -> Option<f64> {
        Some(self.curve.as_ref()?.average_thrust() / (self.loaded()?.mass * G0))
    }
}

/// All of a flight's numbers but its path.
pub(crate) fn flight(design: &Design, airframe: &Airframe, number: usize) -> FlightNumbers {
    let numbers = weighed_flight(design, airframe, number);
    let air = design.flights.get(number).and_then(|flight| air(design, flight));
    flight_in(design, airframe, numbers, air)
}

/// All numbers of a flight that is weighed, in some air.
pub(crate) fn flight_in(
    design: &Design,
    airframe: &Airframe,
    mut numbers: FlightNumbers,
    air: Option<Air>,
) -> FlightNumbers {
    let Some(flight) = design.flights.get(numbers.flight) else { return numbers };
    let parts = airframe.parts(design);
    numbers.misfits.extend(site_misfit(design, flight));
    numbers.air = air;
    numbers.flutter = numbers.air.map(|air| flutter(parts, &air)).unwrap_or_default();
    if let Some(pad) = design.pad_of(flight) {
        stand(airframe, design, (flight, pad), &mut numbers);
        leave(airframe, design, (flight, pad), &mut numbers);
    }
    let hangs = numbers.weighed.map(|weighed| match weighed.upper {
        Some(upper) => upper.burning.dry.mass,
        None => weighed.burnt.mass,
    });
    let density = numbers.air.map(|air| air.density);
    let weights = &airframe.weights;
    let Down { main, apart, bare } = down(parts, weights, flight, hangs.zip(density), &mut numbers.unknown);
    (numbers.sinking, numbers.apart, numbers.bare) = (main, apart, bare);
    say_when_it_opens(design, flight, &mut numbers.unknown);
    numbers
}

/// A flight's mass, balance point and margins, and nothing that needs a pad.
pub(crate) fn weighed_flight(design: &Design, airframe: &Airframe, number: usize) -> FlightNumbers {
    let mut numbers = FlightNumbers { flight: number, ..FlightNumbers::default() };
    let Some(flight) = design.flights.get(number) else { return numbers };
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
    if flight.motor.is_none() || (design.booster.is_some() && flight.booster_motor.is_none()) {
        return numbers;
    }
    let scale = Scale { parts: airframe.parts(design), weights: &airframe.weights, weighings: &airframe.weighings };
    let mut lacks = Lacks::default();
    (numbers.mounted, numbers.weighed) = weighed(scale, flight, &mut lacks);
    numbers.unknown.extend(lacks.unknown);
    numbers.misfits.extend(lacks.misfit);
    numbers.curve = motors(design, flight).first().and_then(|(motor, stage)| thrust(design, motor, *stage));
    numbers.margins = numbers.weighed.and_then(|weighed| margins(airframe, &weighed));
    numbers
}

fn margins(airframe: &Airframe, weighed: &Weighed) -> Option<Margins> {
    let calibre = airframe.calibre?;
    let of = |airflow: &Option<Airflow>, mass: &MassProps| Some((airflow.as_ref()?.total.x()? - mass.x) / calibre);
    Some(Margins {
        loaded: of(&airframe.airflow, &weighed.loaded)?,
        burnt: of(&airframe.airflow, &weighed.burnt)?,
        upper: weighed.upper.and_then(|upper| of(&airframe.upper_airflow, &upper.loaded)),
    })
}

/// The rocket stands on its pad: its guides, and the room around them.
fn stand(airframe: &Airframe, design: &Design, (flight, pad): (&Flight, &Pad), numbers: &mut FlightNumbers) {
    let parts = airframe.parts(design);
    let mut lacks = PadLacks::default();
    numbers.on_pad = on_pad(parts, (flight, pad), numbers.mounted, &mut lacks);
    numbers.unknown.extend(lacks.unknown);
    numbers.misfits.extend(lacks.misfit);
    let (Some(on_pad), Some(lowest)) = (&numbers.on_pad, numbers.lowest()) else { return };
    numbers.clearance = clearance(parts, pad, on_pad, lowest);
    say_what_isnt_turned(design, numbers.clearance.as_ref(), &mut numbers.unknown);
}

/// It leaves: along the rod or rail, with what that and the guides bear, to the release.
fn leave(airframe: &Airframe, design: &Design, (flight, pad): (&Flight, &Pad), numbers: &mut FlightNumbers) {
    say_what_stands_unknown(flight, pad, &mut numbers.unknown);
    let (Some(airflow), Some(air), Some(weighed)) = (&airframe.airflow, numbers.air, numbers.weighed) else { return };
    let (Some(on_pad), Some(mounted)) = (&numbers.on_pad, numbers.mounted) else { return };
    numbers.run = numbers.curve.as_ref().and_then(|curve| run(airflow, &air, curve, &weighed, on_pad));
    let beam = (on_pad, mounted, weighed.loaded);
    match stiffness(design, (airflow, &air), pad, beam) {
        Ok(stiffness) => numbers.stiffness = Some(stiffness),
        Err(needs) => numbers.unknown.extend(needs.and_then(|needs| of_pad(flight, pad, Measure::Lean, needs))),
    }
    numbers.standing = standing((airflow, &air), pad, beam, numbers.stiffness.as_ref());
    let released = numbers.run.as_ref().and_then(Run::front);
    numbers.loads = loads(airframe.parts(design), (airflow, &air), pad, (on_pad, weighed.loaded, released));
    say_what_bears_unknown(design, numbers.loads.as_ref(), &mut numbers.unknown);
    let (Some(curve), Some(run)) = (&numbers.curve, &numbers.run) else { return };
    let nozzle = mounted.motor.back;
    numbers.release = at_release((airflow, &air), airframe.calibre, (curve, nozzle), (&weighed, on_pad, run));
}

/// What a guide's fixing bears may hang on a wall or a section that isn't known; the file may also say it.
fn say_what_bears_unknown(design: &Design, loads: Option<&Loads>, unknown: &mut Vec<Unknown>) {
    let bare = loads.into_iter().flat_map(|loads| &loads.guides).filter(|guide| guide.capacity.is_none());
    unknown.extend(bare.filter_map(|guide| {
        let part = design.parts.get(guide.part)?;
        let (subject, needs) = (Subject::Part(guide.part), Needs::Fields(vec!["bears"]));
        Some(Unknown { subject, measure: Measure::Load, needs, place: part.header })
    }));
}

/// A pad that says one of what it weighs and how it stands needs the other.
fn say_what_stands_unknown(flight: &Flight, pad: &Pad, unknown: &mut Vec<Unknown>) {
    let lacking: Vec<&'static str> = [("mass", pad.mass.is_none()), ("stance", pad.stance.is_none())]
        .into_iter()
        .filter(|(_, is_missing)| *is_missing)
        .map(|(word, _)| word)
        .collect();
    if lacking.len() == 1 {
        unknown.extend(of_pad(flight, pad, Measure::Standing, Needs::Fields(lacking)));
    }
}

/// What opens needs a motor that says when.
fn say_when_it_opens(design: &Design, flight: &Flight, unknown: &mut Vec<Unknown>) {
    let motor = flight.motor.as_ref().map(|motor| motor.value);
    let Some((id, motor)) = motor.and_then(|id| Some((id, design.motors.get(id)?))) else { return };
    if !design.parts.iter().any(waits_for_charge) || delay(design, flight).is_some() {
        return;
    }
    let (subject, needs) = (Subject::Motor(id), Needs::Fields(vec!["delay"]));
    unknown.push(Unknown { subject, measure: Measure::Opening, needs, place: motor.header });
}

/// Whether a fin is in the way can't be told of guides whose angle around the body isn't known.
fn say_what_isnt_turned(design: &Design, clearance: Option<&Clearance>, unknown: &mut Vec<Unknown>) {
    let Some(clearance) = clearance.filter(|clearance| clearance.gap.is_some()) else { return };
    let unturned = clearance.guides.iter().filter(|guide| guide.clock.is_none());
    let mut lacks = unturned.filter_map(|guide| {
        let part = design.parts.get(guide.part)?;
        let needs = if part.broken.contains(&"clock") { Needs::Elsewhere } else { Needs::Fields(vec!["clock"]) };
        Some(Unknown { subject: Subject::Part(guide.part), measure: Measure::FinRoom, needs, place: part.header })
    });
    unknown.extend(lacks.next());
}
