//! The numbers under stable names, SI throughout, lengths from the tip. Names may be added, never changed: [`NUMBERS`].

mod numbers;

pub use numbers::{number, Number, Section, Shown, NUMBERS};

use crate::flight::path::{path, Path};
use crate::flight::FlightNumbers;
use crate::inverse::just_does;
use crate::tolerance::all_tolerances;
use crate::Assessment;
use finwright_model::{Design, Flight, PartId};
use numbers::Sheet;
use schemars::JsonSchema;
use serde::ser::{SerializeMap, Serializer};
use serde::Serialize;

/// One flight's numbers for a reader that is a program. What isn't known is `null`.
#[derive(Clone, Debug)]
pub struct FlightReport {
    /// The flight's name.
    pub flight: String,
    /// The values of [`NUMBERS`], in their order.
    pub values: Vec<Option<f64>>,
    /// Their tolerances from those in the file, in the same order; 0 where none reaches a number.
    pub tolerances: Vec<Option<f64>>,
    /// Each guide in use with what it carries.
    pub guides: Vec<GuideReport>,
    /// What opens, in the order of time.
    pub openings: Vec<OpeningReport>,
    /// Pieces that come down by themselves.
    pub pieces: Vec<PieceReport>,
    /// What was measured of it when it was flown, each time.
    pub flown: Vec<FlownReport>,
    /// What was taken as a default.
    pub defaults: Vec<String>,
    /// Whether a motor is known by its label alone, so that every number that hangs on its thrust is rough.
    pub is_rough: bool,
}

/// A moment at which something opens, SI.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct OpeningReport {
    /// The parts that open.
    pub parts: Vec<String>,
    /// Time from ignition.
    pub time_s: f64,
    /// Height above the resting place.
    pub height_m: f64,
    /// Drift downwind of the pad.
    pub drift_m: f64,
    /// Speed over ground at that moment.
    pub speed_m_s: f64,
    /// Speed through the air then.
    pub air_speed_m_s: f64,
    /// The air's pull on what opens, without the jerk.
    pub pull_n: f64,
    /// Drag area of all that are open from then on.
    pub drag_area_m2: f64,
    /// Steady speed under them near the ground.
    pub rate_m_s: f64,
}

/// A piece that comes down by itself, SI.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PieceReport {
    /// Its stretches of the body.
    pub bodies: Vec<String>,
    /// Its mass.
    pub mass_kg: f64,
    /// Steady speed near the ground; `null` where nothing slows it.
    pub rate_m_s: Option<f64>,
    /// Speed over ground at landing, where the flight is known.
    pub landing_speed_m_s: Option<f64>,
    /// Energy at landing, where the flight is known.
    pub landing_energy_j: Option<f64>,
    /// Drift downwind of the pad, where the flight is known.
    pub drift_m: Option<f64>,
}

/// A measured value of a flight that was flown beside the expected one, SI.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FlownReport {
    /// Which block, from 1.
    pub flown: usize,
    /// What was measured: `exit_speed_m_s`, `height_m` or `time_to_top_s`.
    pub quantity: String,
    /// As measured.
    pub measured: f64,
    /// The measurement's standard deviation.
    pub measured_sd: f64,
    /// As expected.
    pub expected: f64,
    /// The expectation's standard deviation.
    pub expected_sd: f64,
    /// Single causes that would explain the flight, the likeliest first.
    pub causes: Vec<CauseReport>,
    /// What all flights of the file show together.
    pub learned: Option<LearnedReport>,
}

/// Factors that flights show, each with its standard deviation.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LearnedReport {
    /// What the computed drag is multiplied by.
    pub drag: f64,
    /// How far that may be off.
    pub drag_sd: f64,
    /// What the thrust of this flight's motor is multiplied by.
    pub thrust: f64,
    /// How far that may be off.
    pub thrust_sd: f64,
    /// From how many flights.
    pub flights: usize,
}

/// A single cause.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct CauseReport {
    /// `drag`, `thrust`, `mass` or `wind`.
    pub cause: String,
    /// Factors of drag and thrust, kg more, or the wind in m/s.
    pub value: f64,
}

/// A guide's loads, N.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs)] // As in [`crate::GuideLoad`].
pub struct GuideReport {
    pub guide: String,
    pub pad_wind_n: f64,
    pub pad_gust_n: f64,
    pub level_n: f64,
    pub run_wind_n: Option<f64>,
    pub run_gust_n: Option<f64>,
    pub capacity_n: Option<f64>,
}

/// Every flight's numbers, with their tolerances. `floor` is the exit speed in m/s that what "just does" is asked for.
pub fn flights(design: &Design, assessment: &Assessment, floor: f64) -> Vec<FlightReport> {
    let mut reports: Vec<FlightReport> =
        assessment.flights.iter().map(|n| flight(design, assessment, n, floor)).collect();
    let centre: Vec<Option<f64>> = reports.iter().flat_map(|report| report.values.iter().copied()).collect();
    let moved = |design: &Design, moved: &Assessment| {
        moved
            .flights
            .iter()
            .flat_map(|n| values(design, moved, n, path(design, &moved.airframe, n).ok(), floor))
            .collect()
    };
    let tolerances = all_tolerances(design, &centre, moved);
    for (report, part) in reports.iter_mut().zip(tolerances.chunks(NUMBERS.len())) {
        report.tolerances = part.to_vec();
    }
    reports
}

/// The same without tolerances, each of which takes a design moved and computed again.
pub fn flights_as_they_are(design: &Design, assessment: &Assessment, floor: f64) -> Vec<FlightReport> {
    assessment.flights.iter().map(|n| flight(design, assessment, n, floor)).collect()
}

impl FlightReport {
    /// A number by its name, with its tolerance, 0 where it has none.
    pub fn get(&self, name: &str) -> Option<(f64, f64)> {
        let at = NUMBERS.iter().position(|number| number.name == name)?;
        let tolerance = self.tolerances.get(at).copied().flatten().unwrap_or(0.0);
        Some((self.values.get(at).copied().flatten()?, tolerance))
    }
}

impl Serialize for FlightReport {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("flight", &self.flight)?;
        for (number, value) in NUMBERS.iter().zip(&self.values) {
            map.serialize_entry(number.name, value)?;
        }
        map.serialize_entry("tolerance", &Tolerances(&self.tolerances))?;
        map.serialize_entry("guides", &self.guides)?;
        map.serialize_entry("openings", &self.openings)?;
        map.serialize_entry("pieces", &self.pieces)?;
        map.serialize_entry("flown", &self.flown)?;
        map.serialize_entry("defaults", &self.defaults)?;
        map.serialize_entry("rough", &self.is_rough)?;
        map.end()
    }
}

/// The tolerances that there are, under the numbers' names.
struct Tolerances<'a>(&'a [Option<f64>]);

impl Serialize for Tolerances<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let given = NUMBERS.iter().zip(self.0).filter_map(|(n, t)| Some((n.name, (*t)?)));
        serializer.collect_map(given.filter(|(_, tolerance)| *tolerance > 0.0))
    }
}

/// The numbers; a zero carries no sign.
fn values(
    design: &Design,
    assessment: &Assessment,
    numbers: &FlightNumbers,
    path: Option<&Path>,
    floor: f64,
) -> Vec<Option<f64>> {
    let just = just_does(assessment.airframe.airflow.as_ref(), numbers, floor);
    let sheet = Sheet { design, assessment, numbers, path, just };
    NUMBERS.iter().map(|number| number.on(&sheet).map(|value| value + 0.0)).collect()
}

fn flight(design: &Design, assessment: &Assessment, n: &FlightNumbers, floor: f64) -> FlightReport {
    let flown = path(design, &assessment.airframe, n);
    let label = |id: usize| design.parts.get(id).map_or(String::new(), |part| part.label());
    FlightReport {
        flight: n.name(design).to_string(),
        values: values(design, assessment, n, flown.ok(), floor),
        tolerances: vec![None; NUMBERS.len()],
        guides: n
            .loads
            .iter()
            .flat_map(|loads| &loads.guides)
            .map(|g| GuideReport {
                guide: label(g.part),
                pad_wind_n: g.pad_wind,
                pad_gust_n: g.pad_gust,
                level_n: g.level,
                run_wind_n: g.run_wind,
                run_gust_n: g.run_gust,
                capacity_n: g.capacity,
            })
            .collect(),
        openings: flown
            .ok()
            .and_then(|flown| flown.descent.as_ref())
            .into_iter()
            .flat_map(|descent| &descent.openings)
            .map(|opening| OpeningReport {
                parts: opening.parts.iter().map(|part| label(*part)).collect(),
                time_s: opening.moment.time,
                height_m: opening.moment.height,
                drift_m: opening.moment.drift,
                speed_m_s: opening.moment.speed,
                air_speed_m_s: opening.air_speed,
                pull_n: opening.pull,
                drag_area_m2: opening.drag_area,
                rate_m_s: opening.rate,
            })
            .collect(),
        pieces: pieces(design, n, flown.ok()),
        flown: as_flown(design, assessment, n),
        defaults: crate::defaults::defaults(design, &assessment.airframe, n, flown.ok()),
        is_rough: !crate::motor::labelled(design, n.flight).is_empty(),
    }
}

fn pieces(design: &Design, n: &FlightNumbers, flown: Option<&Path>) -> Vec<PieceReport> {
    let labels = |bodies: &[PartId]| {
        bodies.iter().filter_map(|id| Some(design.parts.get(*id)?.label())).collect::<Vec<String>>()
    };
    let mut found: Vec<PieceReport> = Vec::new();
    let main = n.sinking.as_ref().filter(|sinking| !sinking.bodies.is_empty());
    found.extend(main.map(|sinking| {
        let descent = flown.and_then(|flown| flown.descent.as_ref());
        PieceReport {
            bodies: labels(&sinking.bodies),
            mass_kg: sinking.mass,
            rate_m_s: Some(sinking.rate),
            landing_speed_m_s: descent.map(|descent| descent.landing_speed),
            landing_energy_j: descent.map(|descent| descent.landing_energy),
            drift_m: flown.and_then(Path::drift),
        }
    }));
    let landed = |i: usize| flown.and_then(|flown| flown.apart.get(i));
    found.extend(n.apart.iter().enumerate().map(|(i, sinking)| PieceReport {
        bodies: labels(&sinking.bodies),
        mass_kg: sinking.mass,
        rate_m_s: Some(sinking.rate),
        landing_speed_m_s: landed(i).map(|landed| landed.moment.speed),
        landing_energy_j: landed(i).map(|landed| landed.energy),
        drift_m: landed(i).map(|landed| landed.moment.drift),
    }));
    found.extend(n.bare.as_ref().map(|bare| PieceReport {
        bodies: labels(&bare.bodies),
        mass_kg: bare.mass,
        rate_m_s: None,
        landing_speed_m_s: None,
        landing_energy_j: None,
        drift_m: None,
    }));
    found
}

fn as_flown(design: &Design, assessment: &Assessment, n: &FlightNumbers) -> Vec<FlownReport> {
    // Without a flight that was flown nothing need be asked.
    if design.flown.is_empty() {
        return Vec::new();
    }
    let all = assessment.flown(design);
    let own = all.flights.iter().filter(|flown| flown.flight == n.flight);
    let motor = design.flights.get(n.flight).and_then(Flight::first_motor);
    let learned = all.learned.as_ref().zip(motor).and_then(|(learned, motor)| {
        let (_, thrust) = learned.thrust.iter().find(|(id, _)| *id == motor.value)?;
        let (drag, flights) = (learned.drag, learned.flights);
        let (drag, drag_sd, thrust, thrust_sd) = (drag.value, drag.sd, thrust.value, thrust.sd);
        Some(LearnedReport { drag, drag_sd, thrust, thrust_sd, flights })
    });
    own.flat_map(move |flown| {
        let learned = learned.clone();
        let causes =
            flown.causes.iter().map(|one| CauseReport { cause: one.cause.name().to_string(), value: one.value });
        let causes: Vec<CauseReport> = causes.collect();
        flown.compared.iter().map(move |one| FlownReport {
            flown: flown.flown + 1,
            quantity: one.quantity.name().to_string(),
            measured: one.measured,
            measured_sd: one.sd,
            expected: one.expected,
            expected_sd: one.expected_sd,
            causes: causes.clone(),
            learned: learned.clone(),
        })
    })
    .collect()
}
