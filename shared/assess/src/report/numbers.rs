//! The one table of a flight's numbers: name, meaning, value, and where and how it's shown. JSON, its schema, the
//! tolerances, the command's table and the editor's hover all read it here.

use crate::flight::in_gust::{in_gust, InGust};
use crate::flight::path::Path;
use crate::flight::run::drag_terms;
use crate::flight::FlightNumbers;
use crate::inverse::JustDoes;
use crate::Assessment;
use finwright_model::Design;
use finwright_physics::drag::DragTerms;
use finwright_units::{show, Dimension};

/// A flight's number under its stable name.
pub struct Number {
    /// The name, which ends in its unit.
    pub name: &'static str,
    /// What it is.
    pub means: &'static str,
    /// Where and how a table of the flight shows it; nowhere unless said.
    pub shown: Option<Shown>,
    of: fn(&Sheet) -> Option<f64>,
}

/// How a number is shown.
#[derive(Clone, Copy)]
pub struct Shown {
    /// The part of the flight under which it stands.
    pub section: Section,
    /// What it's called there.
    pub label: &'static str,
    /// The number in words.
    pub form: fn(f64) -> String,
}

/// The parts of a flight, in its order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Section {
    /// At rest.
    OnThePad,
    /// Until the last guide leaves.
    AlongTheGuide,
    /// Up to the highest point.
    InTheAir,
    /// Back to the ground.
    ComingDown,
}

impl Section {
    /// Its heading.
    pub fn heading(self) -> &'static str {
        match self {
            Section::OnThePad => "on the pad",
            Section::AlongTheGuide => "along the guide",
            Section::InTheAir => "in the air",
            Section::ComingDown => "coming down",
        }
    }
}

impl Number {
    /// Its value; `None` where it isn't known.
    pub(super) fn on(&self, sheet: &Sheet) -> Option<f64> {
        (self.of)(sheet).filter(|value| value.is_finite())
    }

    const fn shown(mut self, section: Section, label: &'static str, form: fn(f64) -> String) -> Number {
        self.shown = Some(Shown { section, label, form });
        self
    }
}

/// The number of a name.
pub fn number(name: &str) -> Option<&'static Number> {
    NUMBERS.iter().find(|number| number.name == name)
}

fn calibres(margin: f64) -> String {
    format!("{} cal", show::number(margin))
}

fn hertz(frequency: f64) -> String {
    format!("{} Hz", show::number(frequency))
}

fn acceleration(acceleration: f64) -> String {
    show::quantity(acceleration, Dimension::ACCELERATION)
}

/// Where the numbers are read.
pub(super) struct Sheet<'a> {
    pub design: &'a Design,
    pub assessment: &'a Assessment,
    pub numbers: &'a FlightNumbers,
    pub path: Option<&'a Path>,
    pub just: JustDoes,
}

impl Sheet<'_> {
    fn in_gust(&self) -> Option<InGust> {
        in_gust(self.design, &self.assessment.airframe, self.numbers)
    }

    /// The margin at the release, as if the air met the rocket from ahead.
    fn margin_at_small_angle(&self) -> Option<f64> {
        let airframe = &self.assessment.airframe;
        let pressure = airframe.airflow.as_ref()?.total.x()?;
        Some((pressure - self.numbers.release?.mass.x) / airframe.calibre?)
    }
}

/// The drag coefficient of the guided run, term by term.
fn drag(sheet: &Sheet) -> Option<DragTerms> {
    let airflow = sheet.assessment.airframe.airflow.as_ref()?;
    sheet.numbers.run.as_ref().and_then(|_| drag_terms(airflow))
}

const fn of(name: &'static str, means: &'static str, of: fn(&Sheet) -> Option<f64>) -> Number {
    Number { name, means, shown: None, of }
}

/// Every number of a flight.
#[rustfmt::skip] // One number after the other.
pub static NUMBERS: &[Number] = &[
    of("mass_kg", "mass on the pad, motor in, as flown: as weighed where it was",
        |s| s.numbers.loaded().map(|m| m.mass))
        .shown(Section::OnThePad, "mass", show::mass),
    of("mass_computed_kg", "mass on the pad as computed, whatever the scale says",
        |s| s.numbers.computed().map(|m| m.mass)),
    of("mass_burnt_kg", "mass at burnout", |s| s.numbers.burnt().map(|m| m.mass)),
    of("balance_m", "balance point on the pad, from the tip, as flown: as weighed where it was",
        |s| s.numbers.loaded().map(|m| m.x))
        .shown(Section::OnThePad, "balance point", show::station),
    of("balance_computed_m", "balance point on the pad as computed, whatever the bench says",
        |s| s.numbers.computed().map(|m| m.x)),
    of("balance_burnt_m", "balance point at burnout, from the tip", |s| s.numbers.burnt().map(|m| m.x)),
    of("inertia_kg_m2", "moment of inertia about a crosswise axis through the balance point, on the pad",
        |s| s.numbers.loaded().map(|m| m.i_transverse))
        .shown(Section::OnThePad, "inertia, crosswise", show::inertia),
    of("inertia_burnt_kg_m2", "the same at burnout", |s| s.numbers.burnt().map(|m| m.i_transverse)),
    of("axial_inertia_kg_m2", "moment of inertia about the long axis, on the pad",
        |s| s.numbers.loaded().map(|m| m.i_axial)),
    of("pressure_centre_m", "centre of pressure at small angles and low speed, from the tip",
        |s| s.assessment.airframe.airflow.as_ref()?.total.x())
        .shown(Section::OnThePad, "centre of pressure", show::station),
    of("cna", "normal-force slope per radian, on the circle of the reference diameter",
        |s| Some(s.assessment.airframe.airflow.as_ref()?.total.cna)),
    of("reference_diameter_m", "reference diameter: the widest place", |s| s.assessment.airframe.calibre),
    of("margin_cal", "static margin on the pad, in reference diameters", |s| s.numbers.margin())
        .shown(Section::OnThePad, "static margin", calibres),
    of("margin_burnt_cal", "static margin at burnout, in reference diameters", |s| s.numbers.burnt_margin()),
    of("margin_second_cal", "the margin on the pad by a second method, a vortex lattice with the body",
        |s| Some(s.numbers.margin()? + s.assessment.second(s.design)?.shift))
        .shown(Section::OnThePad, "second margin", calibres),
    of("guided_travel_m", "travel from rest until the last guide leaves", |s| Some(s.numbers.run.as_ref()?.travel))
        .shown(Section::AlongTheGuide, "guided travel", show::length),
    of("front_travel_m", "travel from rest until attitude is no longer held",
        |s| Some(s.numbers.run.as_ref()?.front_travel)),
    of("front_release_m_s", "speed when the front guide leaves, or when a lone guide's front edge does",
        |s| Some(s.numbers.run.as_ref()?.front()?.speed))
        .shown(Section::AlongTheGuide, "front release", show::speed),
    of("exit_speed_m_s", "speed when the last guide leaves", |s| Some(s.numbers.run.as_ref()?.last()?.speed))
        .shown(Section::AlongTheGuide, "exit speed", show::speed),
    of("exit_time_s", "time from ignition until the last guide leaves", |s| Some(s.numbers.run.as_ref()?.last()?.time)),
    of("upper_mass_kg", "mass of the upper stage alone when it lights", |s| Some(s.numbers.upper()?.loaded.mass)),
    of("upper_balance_m", "its balance point, from the tip", |s| Some(s.numbers.upper()?.loaded.x)),
    of("upper_margin_cal", "its static margin, in reference diameters", |s| s.numbers.upper_margin())
        .shown(Section::OnThePad, "upper stage", calibres),
    of("upper_margin_second_cal", "the same by the second method",
        |s| Some(s.numbers.upper_margin()? + s.assessment.second_of_upper(s.design)?.shift)),
    of("thrust_to_weight", "average thrust over the burn, over the weight on the pad", |s| s.numbers.thrust_to_weight())
        .shown(Section::OnThePad, "thrust to weight", show::number),
    of("guided_thrust_to_weight", "mean thrust along the guide, over the weight on the pad",
        |s| s.numbers.run.as_ref()?.push),
    of("impulse_n_s", "total impulse of all motors", |s| Some(s.numbers.curve.as_ref()?.total_impulse())),
    of("average_thrust_n", "average thrust over the burn", |s| Some(s.numbers.curve.as_ref()?.average_thrust())),
    of("peak_thrust_n", "greatest thrust", |s| Some(s.numbers.curve.as_ref()?.peak().1)),
    of("burn_time_s", "time from first to last thrust", |s| Some(s.numbers.curve.as_ref()?.burn_time())),
    of("drag_coefficient", "drag coefficient used along the guide",
        |s| Some(s.numbers.run.as_ref()?.inputs.drag_coefficient)),
    of("drag_body_friction", "its share of friction on the body", |s| Some(drag(s)?.body_friction)),
    of("drag_fin_friction", "of friction on the fins", |s| Some(drag(s)?.fin_friction)),
    of("drag_fore_pressure", "of pressure on nose and shoulders", |s| Some(drag(s)?.fore_pressure)),
    of("drag_boat_tail", "of suction on boat-tails", |s| Some(drag(s)?.boat_tail)),
    of("drag_base", "of suction on the flat aft end", |s| Some(drag(s)?.base)),
    of("drag_fin_leading", "of pressure on the fins' front edges", |s| Some(drag(s)?.fin_leading)),
    of("drag_fin_trailing", "of suction on the fins' back edges", |s| Some(drag(s)?.fin_trailing)),
    of("drag_protrusions", "of lugs, buttons and the like", |s| Some(drag(s)?.protrusions)),
    of("just_length_m", "length of the rod or rail that just gives the least exit speed, 13.4 m/s unless set otherwise",
        |s| s.just.length),
    of("just_mass_kg", "mass on the pad that just gives it", |s| s.just.mass),
    of("just_tilt_rad", "tilt that just gives it, 30 degrees at most", |s| s.just.tilt),
    of("just_wind_m_s", "steady wind, by its friction on the guide alone, that just leaves it", |s| s.just.wind),
    of("air_density_kg_m3", "air density at the site", |s| s.numbers.air.map(|a| a.density)),
    of("lean_still_m", "lean of the rod's or rail's tip by weight at the pad's tilt, rocket at the end",
        |s| Some(s.numbers.stiffness.as_ref()?.at_end.still.tip)),
    of("lean_rest_wind_m", "lean of its tip by weight and steady wind, rocket at rest",
        |s| Some(s.numbers.stiffness.as_ref()?.at_rest.in_wind().tip)),
    of("lean_rest_gust_m", "lean of its tip by weight and gust, rocket at rest",
        |s| Some(s.numbers.stiffness.as_ref()?.at_rest.in_gust().tip))
        .shown(Section::AlongTheGuide, "lean of its tip", show::length),
    of("slope_rest_wind_rad", "slope of its tip by weight and steady wind, rocket at rest",
        |s| Some(s.numbers.stiffness.as_ref()?.at_rest.in_wind().slope)),
    of("slope_rest_gust_rad", "slope of its tip by weight and gust, rocket at rest",
        |s| Some(s.numbers.stiffness.as_ref()?.at_rest.in_gust().slope)),
    of("lean_wind_m", "lean of its tip by weight and steady wind, rocket at the end",
        |s| Some(s.numbers.stiffness.as_ref()?.at_end.in_wind().tip)),
    of("lean_gust_m", "lean of its tip by weight and gust, rocket at the end",
        |s| Some(s.numbers.stiffness.as_ref()?.at_end.in_gust().tip))
        .shown(Section::AlongTheGuide, "… at most", show::length),
    of("slope_wind_rad", "slope of its tip by weight and steady wind, rocket at the end",
        |s| Some(s.numbers.stiffness.as_ref()?.at_end.in_wind().slope)),
    of("slope_gust_rad", "slope of its tip by weight and gust, rocket at the end",
        |s| Some(s.numbers.stiffness.as_ref()?.at_end.in_gust().slope)),
    of("frequency_bare_hz", "first frequency of the rod or rail alone",
        |s| Some(s.numbers.stiffness.as_ref()?.bare_frequency)),
    of("frequency_loaded_hz", "first frequency with the rocket at the end",
        |s| Some(s.numbers.stiffness.as_ref()?.loaded_frequency))
        .shown(Section::AlongTheGuide, "first frequency", hertz),
    of("whip_slope_rad", "slope of its tip as it swings in the worst gust of half a second to three, rocket at rest",
        |s| Some(s.numbers.stiffness.as_ref()?.whipped()?.0))
        .shown(Section::AlongTheGuide, "whip of its tip", show::angle),
    of("whip_amplification", "how many times the steady bend that gust's swing comes to",
        |s| Some(s.numbers.stiffness.as_ref()?.whipped()?.1.amplification)),
    of("tips_at_m_s", "the gust that just tips the pad over",
        |s| Some(s.numbers.standing?.tips_at))
        .shown(Section::OnThePad, "pad tips at", show::speed),
    of("pad_holds", "how many times a gust's moment the pad's feet hold", |s| Some(s.numbers.standing?.times())),
    of("tower_play_m", "what the tower's rails leave free beside the body",
        |s| Some(s.numbers.on_pad.as_ref()?.in_tower?.play))
        .shown(Section::OnThePad, "play in the tower", show::length),
    of("root_stress_pa", "greatest stress at its foot, in a gust", |s| Some(s.numbers.stiffness.as_ref()?.root_stress)),
    of("guide_spacing_m", "from the first guide's front edge to the last one's back edge",
        |s| Some(s.numbers.loads.as_ref()?.spacing))
        .shown(Section::AlongTheGuide, "guides' spacing", show::length),
    of("guide_locks_at_m", "spacing at and below which the guides lock by friction",
        |s| Some(s.numbers.loads.as_ref()?.locks_at)),
    of("guide_slop_rad", "how far the rocket can lean within its guides", |s| s.numbers.loads.as_ref()?.slop)
        .shown(Section::AlongTheGuide, "play in the guides", show::angle),
    of("margin_release_cal", "margin at release at the steady wind's angle of attack, body lift included",
        |s| s.numbers.release?.margin),
    of("margin_release_gust_cal", "the same in a gust", |s| s.numbers.release?.gust_margin),
    of("margin_lost_gust_cal", "what the body's own lift takes off the margin at release in a gust",
        |s| Some(s.margin_at_small_angle()? - s.numbers.release?.gust_margin?)),
    of("angle_of_attack_rad", "angle of attack at release in the steady wind", |s| Some(s.numbers.release?.angle))
        .shown(Section::InTheAir, "angle of attack", show::angle),
    of("angle_of_attack_gust_rad", "angle of attack at release in a gust", |s| Some(s.numbers.release?.gust_angle)),
    of("tip_off_rad_s", "rate of turn from the last guide in the steady wind, positive downwind",
        |s| Some(s.numbers.release?.tip_off.rate)),
    of("tip_off_gust_rad_s", "the same in a gust", |s| Some(s.numbers.release?.gust_tip_off.rate)),
    of("swing_hz", "frequency of the swing after release", |s| Some(1.0 / s.numbers.release?.swing?.period()?))
        .shown(Section::InTheAir, "swing", hertz),
    of("swing_damping", "damping ratio of that swing", |s| Some(s.numbers.release?.swing?.damping_ratio)),
    of("weathercock_rad", "turn of the nose into the wind between release and burnout, gravity's share included",
        |s| s.path?.weathercock)
        .shown(Section::InTheAir, "turn into the wind", show::angle),
    of("gust_turn_rad", "the same through the worst gust of the first 100 m",
        |s| Some(s.in_gust()?.turn))
        .shown(Section::InTheAir, "… in a gust", show::angle),
    of("gust_angle_rad", "the greatest angle of attack in that gust", |s| Some(s.in_gust()?.angle))
        .shown(Section::InTheAir, "angle in that gust", show::angle),
    of("gust_from_m", "the height at which that gust begins", |s| Some(s.in_gust()?.bump.bottom)),
    of("gust_over_m", "over how much height it comes and goes", |s| Some(s.in_gust()?.bump.length)),
    of("gust_lost_m", "how much lower the highest point is for it", |s| Some(s.in_gust()?.lost)),
    of("top_speed_m_s", "greatest speed", |s| Some(s.path?.moments.fastest.speed))
        .shown(Section::InTheAir, "top speed", show::speed),
    of("flutter_speed_m_s", "speed at which the weakest set of fins flutters, an estimate for flat plates of one even \
        material", |s| s.numbers.flutter.iter().map(|f| f.speed).min_by(f64::total_cmp)),
    of("top_mach", "greatest Mach number", |s| Some(s.path?.top_mach)),
    of("top_acceleration_m_s2", "greatest acceleration", |s| Some(s.path?.top_acceleration))
        .shown(Section::InTheAir, "top acceleration", acceleration),
    of("apogee_m", "greatest height above the resting place", |s| Some(s.path?.moments.apogee.height))
        .shown(Section::InTheAir, "highest point", show::length),
    of("apogee_time_s", "time from ignition to the highest point", |s| Some(s.path?.moments.apogee.time)),
    of("coast_s", "time from burnout to the highest point, which ends early where something opens on the way up",
        |s| Some(s.path?.coast).filter(|time| *time >= 0.0)),
    of("free_coast_s", "the same, had nothing opened before: what a motor's delay should be",
        |s| Some(s.path?.free_coast).filter(|time| *time >= 0.0))
        .shown(Section::ComingDown, "coast", show::time),
    of("free_apogee_m", "the highest point, had nothing opened before", |s| Some(s.path?.free_apogee.height)),
    of("free_apogee_time_s", "when that would be, from ignition", |s| Some(s.path?.free_apogee.time)),
    of("delay_s", "the motor's delay", |s| s.path?.descent.as_ref()?.delay),
    of("opening_speed_m_s", "speed through the air when the parachute or streamer opens",
        |s| s.path?.descent.as_ref()?.opening_speed()),
    of("descent_rate_m_s", "steady speed of the descent near the ground", |s| Some(s.numbers.sinking.as_ref()?.rate))
        .shown(Section::ComingDown, "descent", show::descent),
    of("drift_m", "drift downwind at landing", |s| s.path?.drift())
        .shown(Section::ComingDown, "drift", show::length),
    of("landing_speed_m_s", "speed over ground at landing", |s| Some(s.path?.descent.as_ref()?.landing_speed))
        .shown(Section::ComingDown, "landing", show::descent),
    of("landing_energy_j", "energy at landing of the rocket as a whole",
        |s| Some(s.path?.descent.as_ref()?.landing_energy)),
    of("flight_time_s", "time from ignition to landing", |s| s.path?.time_of_flight()),
];
