//! Answers a JSON list of questions on standard input with a JSON list of numbers.
//!
//! The reference tests in `tests/reference/` ask the same of general-purpose libraries. Each
//! question is an object whose `what` names a function of `ANSWERS`; all values are SI.
#![allow(clippy::print_stdout)]

use std::error::Error;
use std::io::Read;

use finwright_physics::aerodynamics::{Aerodynamics, Drag};
use finwright_physics::air::{standard, Atmosphere, Wind};
use finwright_physics::beam::Cantilever;
use finwright_physics::canopies::{Canopy, Opens};
use finwright_physics::fins::{FinGeometry, FinShape};
use finwright_physics::flight::{Bump, Flight, FlightError, Moment, Release};
use finwright_physics::guided::{GuidedOutcome, GuidedRun, Passage};
use finwright_physics::lattice;
use finwright_physics::mass::MassProps;
use finwright_physics::motor::{BurningMass, ThrustCurve};
use finwright_physics::normal_force::{body, FinCountRule, FinSet, NormalForce};
use finwright_physics::nose::NoseShape;
use finwright_physics::reactions::{Lean, OnLastGuide};
use finwright_physics::ring_wing;
use finwright_physics::section::{Section, TaperShape};
use finwright_physics::stability::{Swing, Swinging};
use finwright_physics::whip::whip;
use serde_json::{json, Value};

type Answer = Result<Value, Box<dyn Error>>;
type Answers = (&'static str, fn(&Value) -> Answer);

fn main() -> Result<(), Box<dyn Error>> {
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text)?;
    let questions: Vec<Value> = serde_json::from_str(&text)?;
    let mut answers = Vec::new();
    for question in &questions {
        answers.push(answer(question)?);
    }
    println!("{}", serde_json::to_string(&answers)?);
    Ok(())
}

const ANSWERS: [Answers; 14] = [
    ("nose", nose),
    ("taper", taper),
    ("fins", fins),
    ("lattice", lattice_lift),
    ("ring", ring),
    ("air", air),
    ("curve", curve_numbers),
    ("guided", guided),
    ("beam", beam),
    ("swing", swing),
    ("tip_off", tip_off),
    ("flight", flight),
    ("climb_through", climb_through),
    ("whip", whipped),
];

fn answer(question: &Value) -> Answer {
    let what = question["what"].as_str().unwrap_or_default();
    let (_, function) =
        ANSWERS.iter().find(|(name, _)| *name == what).ok_or_else(|| format!("no answer for {what:?}"))?;
    function(question)
}

fn number(value: &Value, key: &str) -> Result<f64, Box<dyn Error>> {
    Ok(value[key].as_f64().ok_or_else(|| format!("{key} is no number in {value}"))?)
}

fn number_or(value: &Value, key: &str, default: f64) -> f64 {
    value[key].as_f64().unwrap_or(default)
}

fn pairs(value: &Value) -> Vec<(f64, f64)> {
    let pair = |item: &Value| Some((item[0].as_f64()?, item[1].as_f64()?));
    value.as_array().map(|items| items.iter().filter_map(pair).collect()).unwrap_or_default()
}

fn debug_error(error: impl std::fmt::Debug) -> Box<dyn Error> {
    format!("{error:?}").into()
}

fn mass_json(mass: MassProps) -> Value {
    json!({"mass": mass.mass, "x": mass.x, "axial": mass.i_axial, "transverse": mass.i_transverse})
}

fn section_json(section: &Section, q: &Value) -> Answer {
    let geometry = section.geometry();
    let density = number_or(q, "density", 1.0);
    let area = std::f64::consts::PI * section.aft_radius().powi(2);
    let force = body(section, &geometry, 0.0, area);
    Ok(json!({
        "volume": geometry.volume,
        "volume_x": geometry.volume_centroid,
        "wetted": geometry.wetted_area,
        "wetted_x": geometry.wetted_centroid,
        "planform": geometry.planform_area,
        "planform_x": geometry.planform_centroid,
        "cna": force.cna,
        "pressure_x": force.x(),
        "solid": mass_json(section.solid(density)),
        "walled": mass_json(section.walled(number_or(q, "wall", 0.0), density)),
    }))
}

fn nose(q: &Value) -> Answer {
    let parameter = number_or(q, "parameter", 0.0);
    let shape = match q["shape"].as_str().unwrap_or_default() {
        "cone" => NoseShape::Cone,
        "ogive" => NoseShape::Ogive,
        "ellipsoid" => NoseShape::Ellipsoid,
        "parabola" => NoseShape::Parabola { k: parameter },
        "power" => NoseShape::Power { n: parameter },
        "haack" => NoseShape::Haack { c: parameter },
        other => return Err(format!("no nose {other:?}").into()),
    };
    let section = Section::nose(shape, number(q, "length")?, number(q, "radius")?);
    section_json(&section.map_err(debug_error)?, q)
}

fn taper(q: &Value) -> Answer {
    let shape = match q["shape"].as_str().unwrap_or_default() {
        "ogive" => TaperShape::Ogive,
        _ => TaperShape::Straight,
    };
    let (length, fore, aft) = (number(q, "length")?, number(q, "fore")?, number(q, "aft")?);
    section_json(&Section::taper(shape, length, fore, aft).map_err(debug_error)?, q)
}

fn fin_shape(q: &Value) -> Result<FinShape, Box<dyn Error>> {
    Ok(match q["shape"].as_str().unwrap_or_default() {
        "ellipse" => FinShape::Ellipse { root: number(q, "root")?, span: number(q, "span")? },
        _ => FinShape::Outline(pairs(&q["points"])),
    })
}

fn fin(q: &Value) -> Result<FinGeometry, Box<dyn Error>> {
    fin_shape(q)?.geometry().map_err(debug_error)
}

fn lattice_lift(q: &Value) -> Answer {
    let (count, radius) = (number(q, "count")? as u32, number(q, "body_radius")?);
    let (x, area, mach) = (number(q, "x")?, number(q, "reference_area")?, number_or(q, "mach", 0.0));
    let lift = lattice::lift(&fin_shape(q)?, count, radius, mach, x, area).map_err(debug_error)?;
    Ok(json!({
        "fins": { "cna": lift.fins.cna, "x": lift.fins.x() },
        "body": { "cna": lift.body.cna, "x": lift.body.x() },
    }))
}

fn ring(q: &Value) -> Answer {
    let (diameter, chord) = (number(q, "diameter")?, number(q, "chord")?);
    Ok(json!({
        "cna": ring_wing::slope(diameter, chord, number(q, "reference_area")?),
        "centre": ring_wing::centre(diameter, chord),
    }))
}

fn fins(q: &Value) -> Answer {
    let fin = fin(q)?;
    let count = number(q, "count")? as u32;
    let (radius, x) = (number(q, "body_radius")?, number(q, "x")?);
    let set = FinSet { fin, count, body_radius: radius, x, rule: FinCountRule::Multiplier };
    let lift = set.lift(number_or(q, "mach", 0.0), number(q, "reference_area")?).map_err(debug_error)?;
    let plates = fin.plates(count, number(q, "thickness")?, number(q, "density")?, radius, x);
    Ok(json!({
        "area": fin.area,
        "centroid_x": fin.centroid_x,
        "centroid_y": fin.centroid_y,
        "mean_chord": fin.mean_chord,
        "quarter_chord_x": fin.quarter_chord_x,
        "cna": lift.force.cna,
        "pressure_x": lift.force.x(),
        "plates": mass_json(plates),
    }))
}

fn air(q: &Value) -> Answer {
    let altitude = number(q, "altitude")?;
    let air = match q["ground_temperature"].as_f64() {
        Some(t) => {
            let elevation = number(q, "elevation")?;
            Atmosphere::standard(elevation).with_temperature(t).at(altitude - elevation)
        }
        None => standard(altitude),
    };
    Ok(json!({
        "temperature": air.temperature,
        "pressure": air.pressure,
        "density": air.density,
        "sound_speed": air.sound_speed,
        "viscosity": air.viscosity,
    }))
}

fn thrust_curve(q: &Value) -> Result<ThrustCurve, Box<dyn Error>> {
    ThrustCurve::new(pairs(&q["curve"])).map_err(debug_error)
}

fn curve_numbers(q: &Value) -> Answer {
    let curve = thrust_curve(q)?;
    let time = number(q, "time")?;
    Ok(json!({
        "total": curve.total_impulse(),
        "thrust": curve.thrust(time),
        "impulse": curve.impulse_to(time),
    }))
}

fn passage_json(passage: &Passage) -> Value {
    json!({
        "time": passage.time,
        "travel": passage.travel,
        "speed": passage.speed,
        "acceleration": passage.acceleration,
        "mass": passage.mass,
    })
}

fn guided(q: &Value) -> Answer {
    let curve = thrust_curve(q)?;
    let run = GuidedRun {
        curve: &curve,
        mass: number(q, "mass")?,
        propellant: number(q, "propellant")?,
        tilt: number_or(q, "tilt", 0.0),
        friction: number_or(q, "friction", 0.0),
        side_force: number_or(q, "side_force", 0.0),
        side_slope: number_or(q, "side_slope", 0.0),
        drag: number_or(q, "drag", 0.0),
        front_leaves: number(q, "front_leaves")?,
        last_leaves: number(q, "last_leaves")?,
    };
    let outcome = match run.run() {
        GuidedOutcome::Leaves { lift_off, front, last } => json!({
            "lift_off": lift_off,
            "front": passage_json(&front),
            "last": passage_json(&last),
        }),
        GuidedOutcome::Stays(reason) => json!({ "stays": format!("{reason:?}") }),
    };
    let speed = number_or(q, "speed", 0.0);
    Ok(json!({
        "outcome": outcome,
        "travel_for_speed": run.travel_for_speed(speed),
        "mass_for_speed": run.mass_for_speed(speed, number(q, "last_leaves")?),
    }))
}

fn beam(q: &Value) -> Answer {
    let beam = Cantilever {
        length: number(q, "length")?,
        modulus: number(q, "modulus")?,
        second_moment: number(q, "second_moment")?,
        mass_per_length: number(q, "mass_per_length")?,
    };
    let part_way = beam.load_at(number(q, "load")?, number(q, "at")?);
    let even = beam.even_load(number(q, "even")?);
    let both = part_way + even;
    Ok(json!({
        "tip": both.tip,
        "slope": both.slope,
        "root_moment": both.root_moment,
        "frequency": beam.first_frequency(number(q, "tip_mass")?),
    }))
}

fn swing(q: &Value) -> Answer {
    let swing = Swing::of(&Swinging {
        corrective: number(q, "corrective")?,
        damping: number(q, "damping")?,
        inertia: number(q, "inertia")?,
        normal: number(q, "normal")?,
        mass: number(q, "mass")?,
        speed: number(q, "speed")?,
    });
    let swing = swing.ok_or("no swing")?;
    Ok(json!({ "period": swing.period(), "overshoot": swing.overshoot(), "decay": swing.decay }))
}

fn tip_off(q: &Value) -> Answer {
    let on_guide = OnLastGuide {
        mass: number(q, "mass")?,
        balance: number(q, "balance")?,
        inertia: number(q, "inertia")?,
        last_guide: number(q, "last_guide")?,
        reference_area: number(q, "reference_area")?,
        cna: number(q, "cna")?,
        pressure: number(q, "pressure")?,
        time: number(q, "time")?,
        speed: number(q, "speed")?,
        acceleration: number(q, "acceleration")?,
        wind: number(q, "wind")?,
        density: number(q, "density")?,
        lean: Lean { into_wind: number(q, "into_wind")?, across: number(q, "across")? },
    };
    let turn = on_guide.tip_off();
    Ok(json!({
        "angle": turn.angle,
        "rate": turn.rate,
        "angle_across": turn.angle_across,
        "rate_across": turn.rate_across,
    }))
}

fn mass_of(q: &Value) -> Result<MassProps, Box<dyn Error>> {
    Ok(MassProps { mass: number(q, "mass")?, x: number(q, "x")?, i_axial: 0.0, i_transverse: number(q, "transverse")? })
}

fn moment_json(moment: &Moment) -> Value {
    json!({ "time": moment.time, "height": moment.height, "drift": moment.drift, "speed": moment.speed, "tilt": moment.tilt })
}

/// The median of the seconds that a call takes, of so many.
fn seconds<T>(times: u64, mut call: impl FnMut() -> Result<T, FlightError>) -> Result<Value, FlightError> {
    let mut all = Vec::new();
    for _ in 0..times {
        let start = std::time::Instant::now();
        std::hint::black_box(call()?);
        all.push(start.elapsed().as_secs_f64());
    }
    all.sort_by(f64::total_cmp);
    Ok(json!({ "seconds": all.get(all.len() / 2) }))
}

/// One flight, or with `times` how long one of so many takes; with `then`, an upper stage that flies on from the
/// burnout, given by what it has of its own.
fn flight(q: &Value) -> Answer {
    if let Some(times) = q["times"].as_u64() {
        return with_flight(q, |flight| seconds(times, || flight.fly()))?;
    }
    let path = match q.get("then").and_then(Value::as_object) {
        None => with_flight(q, |flight| flight.fly())??,
        Some(then) => {
            let boost = with_flight(q, |flight| flight.boost())??.ok_or("no burnout")?;
            let mut upper = q.clone();
            for (name, value) in then {
                upper[name] = value.clone();
            }
            with_flight(&upper, |flight| flight.fly_on(boost.end))??
        }
    };
    Ok(json!({
        "burnout": path.burnout.as_ref().map(moment_json),
        "fastest": moment_json(&path.fastest),
        "apogee": moment_json(&path.apogee),
        "opening": path.openings.first().map(|opened| moment_json(&opened.moment)),
        "openings": path.openings.iter().map(|opened| moment_json(&opened.moment)).collect::<Vec<_>>(),
        "landing": moment_json(&path.landing),
    }))
}

/// The climb through a gust.
fn climb_through(q: &Value) -> Answer {
    let own = &q["bump"];
    let bump = Bump { bottom: number(own, "bottom")?, length: number(own, "length")?, speed: number(own, "speed")? };
    let gusted = with_flight(q, |flight| flight.climb_through(bump))??;
    Ok(json!({
        "angle": gusted.angle,
        "height": gusted.height,
        "burnout_tilt": gusted.burnout_tilt,
        "top": gusted.top,
    }))
}

fn whipped(q: &Value) -> Answer {
    let durations = (number(q, "shortest")?, number(q, "longest")?);
    let whip = whip(number(q, "frequency")?, number(q, "damping")?, durations).ok_or("no whip")?;
    Ok(json!({ "amplification": whip.amplification, "rate": whip.rate, "duration": whip.duration }))
}

/// The canopies of a question: a list of them, or one that opens after a delay or at the highest point.
fn canopies(q: &Value) -> Result<Vec<Canopy>, Box<dyn Error>> {
    let one = |c: &Value| -> Result<Canopy, Box<dyn Error>> {
        let opens = match (c["delay"].as_f64(), c["below"].as_f64(), c["after_top"].as_f64()) {
            (Some(delay), ..) => Opens::AfterBurnout(delay),
            (_, Some(height), _) => Opens::Below(height),
            (.., after) => Opens::AfterApogee(after.unwrap_or(0.0)),
        };
        Ok(Canopy { drag_area: number(c, "drag_area")?, opens })
    };
    match q["canopies"].as_array() {
        Some(all) => all.iter().map(one).collect(),
        None => Ok(vec![one(q)?]),
    }
}

/// Asks something of the flight that a question describes.
fn with_flight<T>(
    q: &Value,
    ask: impl FnOnce(&Flight) -> Result<T, FlightError>,
) -> Result<Result<T, Box<dyn Error>>, Box<dyn Error>> {
    let curve = thrust_curve(q)?;
    let mut sets = Vec::new();
    for set in q["fins"].as_array().into_iter().flatten() {
        sets.push(FinSet {
            fin: fin(set)?,
            count: number(set, "count")? as u32,
            body_radius: number(set, "body_radius")?,
            x: number(set, "x")?,
            rule: FinCountRule::Multiplier,
        });
    }
    let aerodynamics = Aerodynamics {
        reference_area: number(q, "area")?,
        body: pairs(&q["body"]).into_iter().map(|(cna, x)| NormalForce::at(cna, x)).collect(),
        fins: sets,
        planform_area: number(q, "planform")?,
        planform_centroid: number(q, "planform_x")?,
        body_lift_k: number(q, "k")?,
        drag: Drag::Constant(number(q, "cd")?),
    };
    let wind = Wind {
        speed: number(q, "wind")?,
        gust: number(q, "wind")?,
        reference_height: number(q, "wind_height")?,
        exponent: number(q, "wind_exponent")?,
    };
    let release = &q["release"];
    let canopies = canopies(q)?;
    let flight = Flight {
        curve: &curve,
        mass: BurningMass { dry: mass_of(&q["dry"])?, propellant: mass_of(&q["propellant"])? },
        nozzle: number(q, "nozzle")?,
        aerodynamics: &aerodynamics,
        atmosphere: &Atmosphere::standard(number(q, "elevation")?),
        wind: &wind,
        release: Release {
            time: number(release, "time")?,
            height: number(release, "height")?,
            speed: number(release, "speed")?,
            tilt: number(release, "tilt")?,
            rate: number(release, "rate")?,
        },
        canopies: &canopies,
        hung: None,
    };
    Ok(ask(&flight).map_err(debug_error))
}
