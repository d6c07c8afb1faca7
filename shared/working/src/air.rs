//! The air at a site, and gravity.

use crate::page::Page;
use crate::sources::{DYNAMIC, GAS};
use crate::term::Term;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::airflow::SIDE_DRAG;
use finwright_assess::flight::air::CREW_HEIGHT;
use finwright_assess::FlightNumbers;
use finwright_physics::air::G0;

/// Standard gravity.
pub(crate) fn gravity(page: &mut Page) -> Term {
    page.know("g", "gravity", Number::given(G0, "m/s2"), "standard gravity")
}

/// The density of the air, kg/m3.
pub(crate) fn density(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<Term, Lack> {
    let air = numbers.air.ok_or_else(|| lacks(of, numbers, "a site"))?;
    let ground = air.atmosphere.at(0.0);
    let site = of.design.flights.get(numbers.flight).and_then(|f| of.design.sites.get(f.site.as_ref()?.value));
    let told = |is_said: bool| if is_said { "in the file" } else { "standard air at the site's height" };
    let t = page.know(
        "T",
        "the air's temperature, 273.15 more than in °C",
        Number::given(ground.temperature, "K"),
        told(site.is_some_and(|s| s.temperature.is_some())),
    );
    let p = page.know(
        "p",
        "the air's pressure at the site",
        Number::given(ground.pressure, "Pa"),
        told(site.is_some_and(|s| s.pressure.is_some())),
    );
    let r = page.know("R", "the gas constant of air", Number::given(287.053, "J/kg/K"), "US Standard Atmosphere, 1976");
    Ok(page.step("The air's density", "ρ", &(p / (r * t)), GAS, "kg/m3"))
}

/// The side force of a wind on the rocket as it stands, N.
pub(crate) fn side_force(page: &mut Page, of: &Subject, density: &Term, wind: &Term) -> Result<Term, Lack> {
    let airflow =
        of.assessment.airframe.airflow.as_ref().ok_or_else(|| Lack("the rocket's whole shape".to_string()))?;
    let from = "the program: the body's side view, and half of the fins";
    let area =
        page.know("S", "area of the side view", Number::result(airflow.side_area * 1e6, "mm2"), from).moved(-6, "m2");
    let cd = page.know(
        "c",
        "drag coefficient of a long cylinder across the wind",
        Number::given(SIDE_DRAG, ""),
        "Aeronautical Engineer's Data Book, infinite cylinder",
    );
    let force = density * wind.power(2) / 2.0 * cd * area;
    Ok(page.step("The wind's push on the rocket's side", "Fw", &force, DYNAMIC, "N"))
}

/// Where the wind that the rocket stands in comes from.
pub(crate) fn wind_source(numbers: &FlightNumbers) -> &'static str {
    match numbers.air.is_some_and(|air| air.read_at != CREW_HEIGHT) {
        true => "the file's, brought to 2 m up by the power of 1/7 of the heights (from memory)",
        false => "in the file; the steady wind where no gust is given",
    }
}
