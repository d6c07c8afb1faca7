//! The numbers under stable names, SI throughout, lengths from the tip. Names may be added, never changed.

use crate::flight::path::{path, Path};
use crate::flight::run::drag_terms;
use crate::flight::FlightNumbers;
use crate::inverse::{just_does, JustDoes};
use crate::tolerance::all_tolerances;
use crate::Assessment;
use finwright_model::Design;
use finwright_physics::drag::DragTerms;
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
    /// What was taken as a default.
    pub defaults: Vec<String>,
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

/// A flight's number under its stable name.
pub struct Number {
    /// The name, which ends in its unit.
    pub name: &'static str,
    /// What it is.
    pub means: &'static str,
    of: fn(&Sheet) -> Option<f64>,
}

/// Where the numbers are read.
struct Sheet<'a> {
    design: &'a Design,
    assessment: &'a Assessment,
    numbers: &'a FlightNumbers,
    path: Option<&'a Path>,
    just: JustDoes,
}

/// The drag coefficient of the guided run, term by term.
fn drag(sheet: &Sheet) -> Option<DragTerms> {
    let airflow = sheet.assessment.airframe.airflow.as_ref()?;
    sheet.numbers.run.as_ref().and_then(|_| drag_terms(airflow))
}

const fn number(name: &'static str, means: &'static str, of: fn(&Sheet) -> Option<f64>) -> Number {
    Number { name, means, of }
}

/// Every number of a flight.
#[rustfmt::skip] // One number a line.
pub static NUMBERS: &[Number] = &[
    number("mass_kg", "mass on the pad, motor in, as flown: as weighed where it was", |s| s.numbers.loaded().map(|m| m.mass)),
    number("mass_computed_kg", "mass on the pad as computed, whatever the scale says", |s| s.numbers.computed().map(|m| m.mass)),
    number("mass_burnt_kg", "mass at burnout", |s| s.numbers.burnt().map(|m| m.mass)),
    number("balance_m", "balance point on the pad, from the tip, as flown: as weighed where it was", |s| s.numbers.loaded().map(|m| m.x)),
    number("balance_computed_m", "balance point on the pad as computed, whatever the bench says", |s| s.numbers.computed().map(|m| m.x)),
    number("balance_burnt_m", "balance point at burnout, from the tip", |s| s.numbers.burnt().map(|m| m.x)),
    number("inertia_kg_m2", "moment of inertia about a crosswise axis through the balance point, on the pad", |s| s.numbers.loaded().map(|m| m.i_transverse)),
    number("inertia_burnt_kg_m2", "the same at burnout", |s| s.numbers.burnt().map(|m| m.i_transverse)),
    number("axial_inertia_kg_m2", "moment of inertia about the long axis, on the pad", |s| s.numbers.loaded().map(|m| m.i_axial)),
    number("pressure_centre_m", "centre of pressure at small angles and low speed, from the tip", |s| s.assessment.airframe.airflow.as_ref()?.total.x()),
    number("cna", "normal-force slope per radian, on the circle of the reference diameter", |s| Some(s.assessment.airframe.airflow.as_ref()?.total.cna)),
    number("reference_diameter_m", "reference diameter: the widest place", |s| s.assessment.airframe.calibre),
    number("margin_cal", "static margin on the pad, in reference diameters", |s| s.numbers.margin()),
    number("margin_burnt_cal", "static margin at burnout, in reference diameters", |s| s.numbers.burnt_margin()),
    number("margin_second_cal", "the margin on the pad by a second method, a vortex lattice with the body", |s| Some(s.numbers.margin()? + s.assessment.second(s.design)?.shift)),
    number("guided_travel_m", "travel from rest until the last guide leaves", |s| Some(s.numbers.run.as_ref()?.travel)),
    number("front_travel_m", "travel from rest until attitude is no longer held", |s| Some(s.numbers.run.as_ref()?.front_travel)),
    number("front_release_m_s", "speed when the front guide leaves, or when a lone guide's front edge does", |s| Some(s.numbers.run.as_ref()?.front()?.speed)),
    number("exit_speed_m_s", "speed when the last guide leaves", |s| Some(s.numbers.run.as_ref()?.last()?.speed)),
    number("exit_time_s", "time from ignition until the last guide leaves", |s| Some(s.numbers.run.as_ref()?.last()?.time)),
    number("upper_mass_kg", "mass of the upper stage alone when it lights", |s| Some(s.numbers.upper()?.loaded.mass)),
    number("upper_balance_m", "its balance point, from the tip", |s| Some(s.numbers.upper()?.loaded.x)),
    number("upper_margin_cal", "its static margin, in reference diameters", |s| s.numbers.upper_margin()),
    number("upper_margin_second_cal", "the same by the second method", |s| Some(s.numbers.upper_margin()? + s.assessment.second_of_upper(s.design)?.shift)),
    number("thrust_to_weight", "average thrust over the burn, over the weight on the pad", |s| s.numbers.thrust_to_weight()),
    number("guided_thrust_to_weight", "mean thrust along the guide, over the weight on the pad", |s| s.numbers.run.as_ref()?.push),
    number("impulse_n_s", "total impulse of all motors", |s| Some(s.numbers.curve.as_ref()?.total_impulse())),
    number("average_thrust_n", "average thrust over the burn", |s| Some(s.numbers.curve.as_ref()?.average_thrust())),
    number("peak_thrust_n", "greatest thrust", |s| Some(s.numbers.curve.as_ref()?.peak().1)),
    number("burn_time_s", "time from first to last thrust", |s| Some(s.numbers.curve.as_ref()?.burn_time())),
    number("drag_coefficient", "drag coefficient used along the guide", |s| Some(s.numbers.run.as_ref()?.inputs.drag_coefficient)),
    number("drag_body_friction", "its share of friction on the body", |s| Some(drag(s)?.body_friction)),
    number("drag_fin_friction", "of friction on the fins", |s| Some(drag(s)?.fin_friction)),
    number("drag_fore_pressure", "of pressure on nose and shoulders", |s| Some(drag(s)?.fore_pressure)),
    number("drag_boat_tail", "of suction on boat-tails", |s| Some(drag(s)?.boat_tail)),
    number("drag_base", "of suction on the flat aft end", |s| Some(drag(s)?.base)),
    number("drag_fin_leading", "of pressure on the fins' front edges", |s| Some(drag(s)?.fin_leading)),
    number("drag_fin_trailing", "of suction on the fins' back edges", |s| Some(drag(s)?.fin_trailing)),
    number("drag_protrusions", "of lugs, buttons and the like", |s| Some(drag(s)?.protrusions)),
    number("just_length_m", "length of the rod or rail that just gives the least exit speed, 13.4 m/s unless set otherwise", |s| s.just.length),
    number("just_mass_kg", "mass on the pad that just gives it", |s| s.just.mass),
    number("just_tilt_rad", "tilt that just gives it, 30 degrees at most", |s| s.just.tilt),
    number("just_wind_m_s", "steady wind, by its friction on the guide alone, that just leaves it", |s| s.just.wind),
    number("air_density_kg_m3", "air density at the site", |s| s.numbers.air.map(|a| a.density)),
    number("lean_still_m", "lean of the rod's or rail's tip by weight at the pad's tilt, rocket at the end", |s| Some(s.numbers.stiffness.as_ref()?.at_end.still.tip)),
    number("lean_rest_wind_m", "lean of its tip by weight and steady wind, rocket at rest", |s| Some(s.numbers.stiffness.as_ref()?.at_rest.in_wind().tip)),
    number("lean_rest_gust_m", "lean of its tip by weight and gust, rocket at rest", |s| Some(s.numbers.stiffness.as_ref()?.at_rest.in_gust().tip)),
    number("slope_rest_wind_rad", "slope of its tip by weight and steady wind, rocket at rest", |s| Some(s.numbers.stiffness.as_ref()?.at_rest.in_wind().slope)),
    number("slope_rest_gust_rad", "slope of its tip by weight and gust, rocket at rest", |s| Some(s.numbers.stiffness.as_ref()?.at_rest.in_gust().slope)),
    number("lean_wind_m", "lean of its tip by weight and steady wind, rocket at the end", |s| Some(s.numbers.stiffness.as_ref()?.at_end.in_wind().tip)),
    number("lean_gust_m", "lean of its tip by weight and gust, rocket at the end", |s| Some(s.numbers.stiffness.as_ref()?.at_end.in_gust().tip)),
    number("slope_wind_rad", "slope of its tip by weight and steady wind, rocket at the end", |s| Some(s.numbers.stiffness.as_ref()?.at_end.in_wind().slope)),
    number("slope_gust_rad", "slope of its tip by weight and gust, rocket at the end", |s| Some(s.numbers.stiffness.as_ref()?.at_end.in_gust().slope)),
    number("frequency_bare_hz", "first frequency of the rod or rail alone", |s| Some(s.numbers.stiffness.as_ref()?.bare_frequency)),
    number("frequency_loaded_hz", "first frequency with the rocket at the end", |s| Some(s.numbers.stiffness.as_ref()?.loaded_frequency)),
    number("root_stress_pa", "greatest stress at its foot, in a gust", |s| Some(s.numbers.stiffness.as_ref()?.root_stress)),
    number("guide_spacing_m", "from the first guide's front edge to the last one's back edge", |s| Some(s.numbers.loads.as_ref()?.spacing)),
    number("guide_locks_at_m", "spacing at and below which the guides lock by friction", |s| Some(s.numbers.loads.as_ref()?.locks_at)),
    number("guide_slop_rad", "how far the rocket can lean within its guides", |s| s.numbers.loads.as_ref()?.slop),
    number("margin_release_cal", "margin at release at the steady wind's angle of attack, body lift included", |s| s.numbers.release?.margin),
    number("margin_release_gust_cal", "the same in a gust", |s| s.numbers.release?.gust_margin),
    number("angle_of_attack_rad", "angle of attack at release in the steady wind", |s| Some(s.numbers.release?.angle)),
    number("angle_of_attack_gust_rad", "angle of attack at release in a gust", |s| Some(s.numbers.release?.gust_angle)),
    number("tip_off_rad_s", "rate of turn from the last guide in the steady wind, positive downwind", |s| Some(s.numbers.release?.tip_off.rate)),
    number("tip_off_gust_rad_s", "the same in a gust", |s| Some(s.numbers.release?.gust_tip_off.rate)),
    number("swing_hz", "frequency of the swing after release", |s| Some(1.0 / s.numbers.release?.swing?.period()?)),
    number("swing_damping", "damping ratio of that swing", |s| Some(s.numbers.release?.swing?.damping_ratio)),
    number("weathercock_rad", "turn of the nose into the wind between release and burnout, gravity's share included", |s| s.path?.weathercock),
    number("top_speed_m_s", "greatest speed", |s| Some(s.path?.moments.fastest.speed)),
    number("flutter_speed_m_s", "speed at which the weakest set of fins flutters, an estimate for flat plates of one even material", |s| s.numbers.flutter.iter().map(|f| f.speed).min_by(f64::total_cmp)),
    number("top_mach", "greatest Mach number", |s| Some(s.path?.top_mach)),
    number("top_acceleration_m_s2", "greatest acceleration", |s| Some(s.path?.top_acceleration)),
    number("apogee_m", "greatest height above the resting place", |s| Some(s.path?.moments.apogee.height)),
    number("apogee_time_s", "time from ignition to the highest point", |s| Some(s.path?.moments.apogee.time)),
    number("coast_s", "time from burnout to the highest point, which ends early where something opens on the way up", |s| Some(s.path?.coast).filter(|time| *time >= 0.0)),
    number("free_coast_s", "the same, had nothing opened before: what a motor's delay should be", |s| Some(s.path?.free_coast).filter(|time| *time >= 0.0)),
    number("free_apogee_m", "the highest point, had nothing opened before", |s| Some(s.path?.free_apogee.height)),
    number("free_apogee_time_s", "when that would be, from ignition", |s| Some(s.path?.free_apogee.time)),
    number("delay_s", "the motor's delay", |s| s.path?.descent.as_ref()?.delay),
    number("opening_speed_m_s", "speed through the air when the parachute or streamer opens", |s| s.path?.descent.as_ref()?.opening_speed()),
    number("descent_rate_m_s", "steady speed of the descent near the ground", |s| Some(s.numbers.sinking.as_ref()?.rate)),
    number("drift_m", "drift downwind at landing", |s| s.path?.drift()),
    number("landing_speed_m_s", "speed over ground at landing", |s| Some(s.path?.descent.as_ref()?.landing_speed)),
    number("landing_energy_j", "energy at landing of the rocket as a whole", |s| Some(s.path?.descent.as_ref()?.landing_energy)),
    number("flight_time_s", "time from ignition to landing", |s| s.path?.time_of_flight()),
];

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
        map.serialize_entry("defaults", &self.defaults)?;
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
    let sheet = Sheet {
        design,
        assessment,
        numbers,
        path,
        just: just_does(assessment.airframe.airflow.as_ref(), numbers, floor),
    };
    NUMBERS
        .iter()
        .map(|number| (number.of)(&sheet).filter(|value| value.is_finite()).map(|value| value + 0.0))
        .collect()
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
        defaults: crate::defaults::defaults(design, &assessment.airframe, n, flown.ok()),
    }
}
