//! The angle at which the wind meets the rocket when its last guide leaves.

use crate::page::Page;
use crate::term::Term;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::Air;
use finwright_assess::FlightNumbers;

/// The steps.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let run = numbers.run.as_ref().and_then(|run| Some((run, run.last()?)));
    let (Some(release), Some(air), Some((run, last))) = (numbers.release, numbers.air, run) else {
        return Err(lacks(of, numbers, "a run that leaves its rod or rail"));
    };
    let v = page.know("v", "exit speed", Number::result(last.speed, "m/s"), "see the working of exit-speed");
    let height = Number::result(last.travel * run.inputs.tilt.cos(), "m");
    let grows = "the site's, grown with height as over open land: by the height over that of the meter, to the power \
        of 1/7 (from memory)";
    let at_end = Air::growth(height.value());
    let means = format!("wind across the path at the height of the release, {height}");
    let w = page.know("w", means, Number::result(air.wind * at_end, "m/s"), grows);
    let gust = page.know("wg", "the same in a gust", Number::result(air.gust * at_end, "m/s"), grows);
    let lean = Number::given(run.inputs.lean.into_wind.to_degrees(), "°");
    let told = "in the file; less than nothing where it leans away from the wind";
    let lean = page.know("θ", "how far the guide leans into the wind", lean, told);
    let source = "geometry: the wind across the guide, over the speed and the wind along it";
    let angle = |w: Term| (&w * lean.cos() / (&v + &w * lean.sin())).atan();
    let steady = page.step("The angle in the steady wind", "α", &angle(w), source, "°");
    let gusty = page.step("The angle in a gust", "αg", &angle(gust), source, "°");
    page.note(
        "Fins stall somewhere above 11° to 14°, a wind of a fifth to a quarter of the exit speed (common \
        practice, no source).",
    );
    page.end("angle of attack at release in the steady wind", &steady, release.angle.to_degrees());
    page.end("angle of attack at release in a gust", &gusty, release.gust_angle.to_degrees());
    Ok(())
}
