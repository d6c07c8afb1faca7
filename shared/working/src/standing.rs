//! What a gust does to the pad, and what holds it down.

use crate::air::{density, gravity, side_force, wind_source};
use crate::page::Page;
use crate::sources::{DYNAMIC, GEOMETRY, STATICS, WEIGHT};
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::FlightNumbers;
use finwright_physics::beam::{FLAT_CD, ROUND_CD};

/// The steps. Lengths in m, forces in N.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let pad = of.pad(numbers)?;
    let needs = || lacks(of, numbers, "a pad that says its `mass` and its `stance`");
    let standing = numbers.standing.ok_or_else(needs)?;
    let (Some(mass), Some(stance), Some(loaded)) = (&pad.mass, &pad.stance, numbers.loaded()) else {
        return Err(needs());
    };
    let (Some(lowest), Some(air), Some(airflow)) =
        (numbers.lowest(), numbers.air, of.assessment.airframe.airflow.as_ref())
    else {
        return Err(needs());
    };
    page.note("The pad is a body on an edge: the line that joins the feet on the side to which the wind blows.");
    let wind = page.know("w", "the wind in a gust", Number::given(air.gust, "m/s"), wind_source(numbers));
    let rho = density(page, of, numbers)?;
    let push = side_force(page, of, &rho, &wind)?;
    let foot = pad.foot_or_ground().si;
    let above = |station: f64| Number::result(foot + pad.stop_or_foot().si + lowest - station, "m");
    let places = "from the parts' places, the stop and the foot";
    let hs =
        page.know("hs", "height of the middle of the side view over the ground", above(airflow.side_centroid), places);
    let mut gust = &push * hs;
    if let (Some(stiffness), Some(length)) = (&numbers.stiffness, pad.rail_length()) {
        let word = pad.rail_word();
        let l = page.know("L", format!("length of the {word}"), Number::given(length.si, "m"), "in the file");
        let wide = Number::given(2.0 * stiffness.half_depth, "m");
        let wide = page.know("D", "its width across", wide, "in the file or the section");
        let cd = Number::given(if pad.has_rod() { ROUND_CD } else { FLAT_CD }, "");
        let cd = page.know("cb", "its drag coefficient across the wind", cd, "Aeronautical Engineer's Data Book");
        let blown = &rho * wind.power(2) / 2.0 * cd * wide * &l;
        let blown = page.step(format!("The wind's push on the {word}"), "Fb", &blown, DYNAMIC, "N");
        let foot =
            page.know("hb", "height of its foot", Number::given(foot, "m"), "in the file; the ground unless said");
        gust = gust + blown * (foot + l / 2.0);
    }
    let gust = page.step("The gust's moment over the edge", "Mw", &gust, STATICS, "N.m");
    let g = gravity(page);
    let stance =
        page.know("d", "how far the edge lies from under the rocket", Number::given(stance.si, "m"), "in the file");
    let pad_mass = page.know("mp", "mass of the pad", Number::given(mass.si, "kg"), "in the file");
    let rocket = Number::result(loaded.mass, "kg");
    let rocket = page.know("m", "the rocket's mass on the pad", rocket, "see the working of balance");
    let of_pad = page.step("What the pad's weight holds", "Mp", &(pad_mass * &g * &stance), WEIGHT, "N.m");
    let tilt = Number::given(pad.tilt_or_upright().si.to_degrees(), "°");
    let tilt = page.know("θ", "tilt from the vertical", tilt, "in the file; the wind may turn to that side");
    let hx = page.know("hx", "height of the rocket's balance point over the ground", above(loaded.x), places);
    let nearer =
        page.step("How far the tilt brings the rocket nearer to the edge", "a", &(hx * tilt.sin()), GEOMETRY, "m");
    let of_rocket =
        page.step("What the rocket's weight holds", "Mm", &(rocket * &g * (&stance - nearer)), WEIGHT, "N.m");
    let staked = Number::given(pad.staked_or_free().si, "N");
    let staked = page.know("Z", "what the stakes of the far side bear", staked, "in the file; nothing unless said");
    let of_stakes =
        page.step("What the stakes hold, at twice the distance", "Mz", &(2.0 * staked * stance), STATICS, "N.m");
    let holds = page.step("All that holds", "Mh", &(of_pad + of_rocket + of_stakes), "a sum of moments", "N.m");
    let times = page.step("How many times the gust's moment that is", "n", &(holds / gust), "a ratio of moments", "");
    page.end("times that the feet hold a gust", &times, standing.times());
    page.neglect("The wind on the pad's own legs is left out, and so is soft ground.");
    Ok(())
}
