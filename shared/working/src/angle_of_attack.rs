//! The angle at which the wind meets the rocket when its last guide leaves.

use crate::page::Page;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::FlightNumbers;

/// The steps.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let speed = numbers.run.as_ref().and_then(|run| run.last()).map(|last| last.speed);
    let (Some(release), Some(air), Some(speed)) = (numbers.release, numbers.air, speed) else {
        return Err(lacks(of, numbers, "a run that leaves its rod or rail"));
    };
    let site = of.design.flights.get(numbers.flight).and_then(|f| of.design.sites.get(f.site.as_ref()?.value));
    let is_said = |given: bool| if given { "in the file" } else { "nothing is said of it" };
    let v = page.know("v", "exit speed", Number::result(speed, "m/s"), "see the working of exit-speed");
    let from = is_said(site.is_some_and(|s| s.wind.is_some()));
    let w = page.know("w", "wind across the path", Number::given(air.wind, "m/s"), from);
    let from =
        if site.is_some_and(|s| s.gust.is_some()) { "in the file" } else { "as the wind, where no gust is given" };
    let gust = page.know("wg", "the same in a gust", Number::given(air.gust, "m/s"), from);
    let source = "geometry: the wind across the path, over the speed along it";
    let steady = page.step("The angle in the steady wind", "α", &(w / &v).atan(), source, "°");
    let gusty = page.step("The angle in a gust", "αg", &(gust / v).atan(), source, "°");
    page.note("Fins stall somewhere above 11° to 14°, a wind of a fifth to a quarter of the exit speed (common practice, no source).");
    page.end("angle of attack at release in the steady wind", &steady, release.angle.to_degrees());
    page.end("angle of attack at release in a gust", &gusty, release.gust_angle.to_degrees());
    Ok(())
}
