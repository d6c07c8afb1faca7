//! The numbers under stable names, SI throughout, lengths from the tip. Names may be added, never changed.

use crate::{Assessment, FlightNumbers};
use finwright_model::Design;
use serde::Serialize;

/// One flight's numbers for a reader that is a program. What isn't known is `null`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FlightReport {
    /// The flight's name.
    pub flight: String,
    /// Mass on the pad, motor in, kg.
    pub mass_kg: Option<f64>,
    /// Mass at burnout, kg.
    pub mass_burnt_kg: Option<f64>,
    /// Balance point on the pad, m from the tip.
    pub balance_m: Option<f64>,
    /// Balance point at burnout, m from the tip.
    pub balance_burnt_m: Option<f64>,
    /// Moment of inertia about a crosswise axis through the balance point, on the pad, kg m2.
    pub inertia_kg_m2: Option<f64>,
    /// The same at burnout, kg m2.
    pub inertia_burnt_kg_m2: Option<f64>,
    /// Moment of inertia about the long axis, on the pad, kg m2.
    pub axial_inertia_kg_m2: Option<f64>,
    /// Centre of pressure at small angles and low speed, m from the tip.
    pub pressure_centre_m: Option<f64>,
    /// Normal-force slope per radian, on the circle of the reference diameter.
    pub cna: Option<f64>,
    /// Reference diameter, m.
    pub reference_diameter_m: Option<f64>,
    /// Static margin on the pad, calibres.
    pub margin_cal: Option<f64>,
    /// Static margin at burnout, calibres.
    pub margin_burnt_cal: Option<f64>,
    /// Travel from rest until the last guide leaves, m.
    pub guided_travel_m: Option<f64>,
    /// Travel from rest until attitude is no longer held, m.
    pub front_travel_m: Option<f64>,
    /// Speed when the front guide leaves, or when a lone guide's front edge does, m/s.
    pub front_release_m_s: Option<f64>,
    /// Speed when the last guide leaves, m/s.
    pub exit_speed_m_s: Option<f64>,
    /// Time from ignition until the last guide leaves, s.
    pub exit_time_s: Option<f64>,
    /// Average thrust over the burn, over the weight on the pad.
    pub thrust_to_weight: Option<f64>,
    /// Mean thrust along the guide, over the weight on the pad.
    pub guided_thrust_to_weight: Option<f64>,
    /// Total impulse of the motor, N s.
    pub impulse_n_s: Option<f64>,
    /// Drag coefficient used along the guide.
    pub drag_coefficient: Option<f64>,
    /// Air density at the site, kg/m3.
    pub air_density_kg_m3: Option<f64>,
    /// What couldn't be computed and what it needs.
    pub not_checked: Vec<String>,
}

/// Every flight's numbers.
pub fn flights(design: &Design, assessment: &Assessment) -> Vec<FlightReport> {
    assessment.flights.iter().map(|numbers| flight(design, assessment, numbers)).collect()
}

fn flight(design: &Design, assessment: &Assessment, n: &FlightNumbers) -> FlightReport {
    let airflow = assessment.airflow.as_ref();
    let run = n.run.as_ref();
    FlightReport {
        flight: design.flights.get(n.flight).map_or(String::new(), |f| f.name.value.clone()),
        mass_kg: n.loaded.map(|m| m.mass),
        mass_burnt_kg: n.burnt.map(|m| m.mass),
        balance_m: n.loaded.map(|m| m.x),
        balance_burnt_m: n.burnt.map(|m| m.x),
        inertia_kg_m2: n.loaded.map(|m| m.i_transverse),
        inertia_burnt_kg_m2: n.burnt.map(|m| m.i_transverse),
        axial_inertia_kg_m2: n.loaded.map(|m| m.i_axial),
        pressure_centre_m: airflow.and_then(|a| a.total.x()),
        cna: airflow.map(|a| a.total.cna),
        reference_diameter_m: assessment.calibre,
        margin_cal: n.margin,
        margin_burnt_cal: n.burnt_margin,
        guided_travel_m: run.map(|r| r.travel),
        front_travel_m: run.map(|r| r.front_travel),
        front_release_m_s: run.and_then(|r| r.front()).map(|p| p.speed),
        exit_speed_m_s: run.and_then(|r| r.last()).map(|p| p.speed),
        exit_time_s: run.and_then(|r| r.last()).map(|p| p.time),
        thrust_to_weight: n.thrust_to_weight,
        guided_thrust_to_weight: run.and_then(|r| r.push),
        impulse_n_s: n.curve.as_ref().map(|c| c.total_impulse()),
        drag_coefficient: run.map(|r| r.inputs.drag_coefficient),
        air_density_kg_m3: n.air.map(|a| a.density),
        not_checked: assessment
            .unknown
            .iter()
            .chain(&n.unknown)
            .map(|u| format!("{}: needs {}", u.what, u.needs))
            .collect(),
    }
}
